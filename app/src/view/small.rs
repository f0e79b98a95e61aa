//! Small screens, and much enlarged ones: a room keeps the size that it needs, and what of it finds no place is scrolled to.

use egui::scroll_area::ScrollSource;
use egui::{Frame, ScrollArea, Sense, Ui, UiBuilder, Vec2, vec2};

use super::theme::Palette;
use crate::model::selection::Room;

/// The least size at which everything of a room has its place, px: its side panels, and a sheet that is worth looking at.
fn least(room: Room) -> Vec2 {
    match room {
        Room::Order => vec2(724.0, 290.0),
        Room::Case => vec2(600.0, 290.0),
        Room::Block => vec2(608.0, 290.0),
        Room::Cut => vec2(640.0, 290.0),
        Room::Plank => vec2(600.0, 290.0),
        Room::Run => vec2(640.0, 390.0),
        Room::Proof => vec2(640.0, 290.0),
        Room::Papers => vec2(600.0, 290.0),
        Room::Bench => vec2(860.0, 390.0),
        Room::Workshop => vec2(900.0, 290.0),
    }
}

/// Shows a room in what is left of the window.
pub(super) fn show(ui: &mut Ui, room: Room, add: impl FnOnce(&mut Ui)) {
    let (free, least) = (ui.available_size(), least(room));
    if free.x >= least.x && free.y >= least.y {
        add(ui);
        return;
    }
    egui::CentralPanel::default()
        .frame(Frame::new().fill(Palette::of(ui).panel))
        .show(ui, |ui| {
            let usual = ui.spacing().scroll;
            // Bars that are always seen: nothing else tells that there is more. The wheel is the sheets' and the panels' own.
            ui.spacing_mut().scroll = egui::style::ScrollStyle {
                foreground_color: true,
                ..egui::style::ScrollStyle::solid()
            };
            let bars = ui.spacing().scroll.allocated_width();
            let area = ScrollArea::both()
                .id_salt("room")
                .auto_shrink(false)
                .scroll_source(ScrollSource::SCROLL_BAR);
            area.show(ui, |ui| {
                ui.spacing_mut().scroll = usual;
                let size = fitted(free, least, bars);
                let (rect, _) = ui.allocate_exact_size(size, Sense::hover());
                add(&mut ui.new_child(UiBuilder::new().max_rect(rect)));
            });
        });
}

/// The size of a room that does not fit: what is free, less the bars that it brings, but no less than it needs.
fn fitted(free: Vec2, least: Vec2, bars: f32) -> Vec2 {
    let lies_over = |free: Vec2| (least.x > free.x, least.y > free.y);
    let less = |(across, along): (bool, bool)| {
        let bar = |is_there: bool| if is_there { bars } else { 0.0 };
        // A bar for one way takes its width from the other.
        free - vec2(bar(along), bar(across))
    };
    // One bar may make the other needed.
    let first = less(lies_over(free));
    less(lies_over(first)).max(least)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_room_takes_what_is_free_and_no_less_than_it_needs() {
        let least = vec2(600.0, 300.0);
        assert_eq!(fitted(vec2(500.0, 400.0), least, 10.0), vec2(600.0, 390.0));
        assert_eq!(fitted(vec2(800.0, 200.0), least, 10.0), vec2(790.0, 300.0));
        assert_eq!(fitted(vec2(300.0, 200.0), least, 10.0), vec2(600.0, 300.0));
        // The bar below takes the last of the height, so there is one at the side as well.
        assert_eq!(fitted(vec2(500.0, 305.0), least, 10.0), vec2(600.0, 300.0));
    }
}
