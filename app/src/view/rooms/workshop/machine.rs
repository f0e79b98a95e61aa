//! A machine's form, and its travel drawn.

use cam_core::measure::{Length, System, Unit};
use cam_core::program::dialect;
use cam_core::workshop::Machine;
use egui::{Align2, FontId, Stroke, Ui, pos2, vec2};

use super::super::super::fields::{self, choice, heading, number_cell, quantity, remark, tick};
use super::super::super::theme::Palette;
use super::Bench;
use crate::view::words::{Text, workshop::machine as words};

fn of(bench: &mut Bench, place: usize) -> Option<&mut Machine> {
    match place.checked_sub(1) {
        None => Some(&mut bench.workshop.machine),
        Some(place) => bench.workshop.more_machines.get_mut(place),
    }
}

pub(super) fn show(ui: &mut Ui, bench: &mut Bench, place: usize, system: System) {
    let Some(machine) = of(bench, place) else {
        return;
    };
    let before = machine.clone();
    let title = if machine.name.trim().is_empty() {
        super::words::UNNAMED.said()
    } else {
        &machine.name
    };
    heading(ui, title);
    if let Some(name) = fields::text(ui, words::NAME, &machine.name) {
        machine.name = name;
    }
    axes(ui, machine);
    let ask = |ui: &mut Ui, label: Text, value: &mut f64, unit: &str| {
        if let Some(number) = quantity(ui, label, *value, unit) {
            *value = number;
        }
    };
    let turns = words::TURNS.said();
    ask(ui, words::SLOWEST, &mut machine.spindle_rpm[0], turns);
    ask(ui, words::FASTEST, &mut machine.spindle_rpm[1], turns);
    let length = |ui: &mut Ui, label: Text, mm: &mut f64| {
        let shown = Length::mm(*mm);
        if let Some(length) = fields::length(ui, label, shown, Unit::Millimetre, system) {
            *mm = length.in_mm();
        }
    };
    length(ui, words::JUNCTION, &mut machine.junction_deviation_mm);
    remark(ui, words::JUNCTION_HINT);
    length(ui, words::CLEAR, &mut machine.clear_height_mm);
    length(ui, words::HOP, &mut machine.hop_height_mm);
    remark(ui, words::HEIGHTS);
    length(ui, words::NUT, &mut machine.holder_diameter_mm);
    ask(ui, words::CHANGE, &mut machine.change_minutes, "min");
    dialects(ui, machine);
    heading(ui, words::LEARNT);
    ask(
        ui,
        words::FACTOR,
        &mut machine.minutes_factor,
        &words::ESTIMATE,
    );
    ask(ui, words::PER_RUN, &mut machine.minutes_per_run, "min");
    squareness(ui, machine);
    if *machine != before {
        bench.what = "a machine";
    }
}

fn axes(ui: &mut Ui, machine: &mut Machine) {
    let quiet = Palette::of(ui).quiet;
    egui::Grid::new("axes").num_columns(4).show(ui, |ui| {
        for title in [words::WAYS.said(), "x", "y", "z"] {
            ui.label(egui::RichText::new(title).small().color(quiet));
        }
        ui.end_row();
        for (label, values) in [
            (words::TRAVEL, &mut machine.travel_mm),
            (words::RAPID, &mut machine.rapid_mm_min),
            (words::FEED, &mut machine.max_feed_mm_min),
            (words::ACCELERATION, &mut machine.acceleration_mm_s2),
        ] {
            ui.label(egui::RichText::new(label).color(quiet));
            for (axis, value) in ["x", "y", "z"].into_iter().zip(values) {
                if let Some(number) = number_cell(ui, format!("{label}, {axis}"), *value) {
                    *value = number;
                }
            }
            ui.end_row();
        }
    });
    remark(ui, words::MANUAL);
}

fn dialects(ui: &mut Ui, machine: &mut Machine) {
    let mut offered: Vec<(String, String)> = dialect::ALL
        .iter()
        .map(|dialect| (dialect.name.to_owned(), dialect.summary.to_owned()))
        .collect();
    if dialect::dialect(&machine.dialect).is_none() {
        offered.push((machine.dialect.clone(), machine.dialect.clone()));
    }
    if let Some(chosen) = choice(ui, words::DIALECT, &machine.dialect, &offered) {
        machine.dialect = chosen;
    }
}

fn squareness(ui: &mut Ui, machine: &mut Machine) {
    let Some(map) = &mut machine.squareness else {
        remark(ui, words::SQUARE_HINT);
        return;
    };
    let keep = tick(ui, words::SQUARE, true);
    if let Some(scale) = quantity(ui, words::SCALE_X, map.scale_x, "") {
        map.scale_x = scale;
    }
    if let Some(scale) = quantity(ui, words::SCALE_Y, map.scale_y, "") {
        map.scale_y = scale;
    }
    if let Some(degrees) = quantity(ui, words::SKEW, rounded(map.skew_deg()), "°") {
        map.skew = degrees.to_radians();
    }
    remark(ui, words::SQUARE_HINT);
    if keep == Some(false) {
        machine.squareness = None;
    }
}

/// An angle as it is shown, degrees: a hundred-thousandth is far below what a test block tells.
fn rounded(degrees: f64) -> f64 {
    (degrees * 1e5).round() / 1e5
}

/// Space beside what is drawn, px.
const BESIDE: f32 = 70.0;

/// The travel seen from above, with the largest plank of the stock in it.
pub(super) fn picture(ui: &mut Ui, bench: &mut Bench, place: usize) {
    let palette = Palette::of(ui);
    let planks = bench.workshop.stock.clone();
    let Some(machine) = of(bench, place) else {
        return;
    };
    let [x, y, z] = machine.travel_mm.map(|mm| mm.max(1.0) as f32);
    let (response, painter) = ui.allocate_painter(ui.available_size(), egui::Sense::hover());
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Image, true, words::ROOM));
    let room = response.rect.shrink(BESIDE);
    if !room.is_positive() {
        return;
    }
    let scale = (room.width() / x).min(room.height() / y);
    let bed = egui::Rect::from_center_size(room.center(), vec2(x, y) * scale);
    painter.rect_filled(bed, 0.0, palette.desk);
    let largest = planks.iter().max_by(|a, b| {
        let area =
            |plank: &cam_core::workshop::StockPlank| plank.width.in_mm() * plank.length.in_mm();
        area(a).total_cmp(&area(b))
    });
    if let Some(plank) = largest {
        let size = vec2(plank.width.in_mm() as f32, plank.length.in_mm() as f32) * scale;
        let lies = egui::Rect::from_min_size(bed.left_bottom() - vec2(0.0, size.y), size);
        painter.rect_filled(lies, 0.0, palette.wood);
        let stroke = Stroke::new(1.0, palette.grain);
        painter.rect_stroke(lies, 0.0, stroke, egui::StrokeKind::Inside);
        let font = FontId::proportional(12.0);
        painter.text(
            lies.center(),
            Align2::CENTER_CENTER,
            &plank.id,
            font,
            palette.face,
        );
    }
    let stroke = Stroke::new(1.2, palette.measure);
    painter.rect_stroke(bed, 0.0, stroke, egui::StrokeKind::Outside);
    let font = FontId::proportional(13.0);
    let text = |at, align, text: String| {
        painter.text(at, align, text, font.clone(), palette.text);
    };
    let below = pos2(bed.center().x, bed.bottom() + 8.0);
    text(below, Align2::CENTER_TOP, format!("x {x:.0} mm"));
    let beside = pos2(bed.left() - 8.0, bed.center().y);
    text(beside, Align2::RIGHT_CENTER, format!("y {y:.0}"));
    let above = pos2(bed.center().x, bed.top() - 8.0);
    text(
        above,
        Align2::CENTER_BOTTOM,
        format!("{}; z {z:.0} mm", words::ROOM),
    );
    painter.circle_filled(bed.left_bottom(), 4.0, palette.measure);
}
