//! The finished block in the room Run, by its pictures: turned and tilted by keys and by dragging, by day and by night.

use egui::Key;

use testkit::window::{begun, click, find, font, picture, settle, strike, window, window_of};

/// A small window, px.
const SMALL: [f32; 2] = [940.0, 560.0];
#[test]
fn a_finished_block_by_day_and_by_night_turned_by_keys() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "R", "6");
    let mut window = window_of(SMALL, Some(&order), None);
    find(&mut window, "to room run");
    settle(&mut window);
    click(&mut window, "A finished block");
    settle(&mut window);
    let before = picture(&mut window);
    strike(&mut window, Key::ArrowRight);
    strike(&mut window, Key::ArrowUp);
    settle(&mut window);
    assert!(picture(&mut window) != before, "it has turned");
    strike(&mut window, Key::F);
    settle(&mut window);
    assert!(picture(&mut window) == before, "it is as at first");
    let mut on = |paper: &str| {
        find(&mut window, paper);
        settle(&mut window);
        picture(&mut window)
    };
    let (day, night) = (on("paper by day"), on("paper by night"));
    assert!(day != night, "other paper, other picture");
}

#[test]
fn a_block_is_turned_by_dragging_and_seen_from_straight_above() {
    let mut window = window(Some(&font()));
    find(&mut window, "room case");
    click(&mut window, "Glyph H, 0 ordered");
    settle(&mut window);
    find(&mut window, "to room run");
    settle(&mut window);
    click(&mut window, "A finished block");
    settle(&mut window);
    let before = picture(&mut window);
    let middle = egui::pos2(450.0, 400.0);
    window.drag_at(middle);
    window.run_steps(2);
    window.hover_at(middle + egui::vec2(60.0, 30.0));
    window.run_steps(2);
    window.drop_at(middle + egui::vec2(60.0, 30.0));
    settle(&mut window);
    assert!(picture(&mut window) != before, "it has turned");
    click(&mut window, "From straight above");
    settle(&mut window);
    let above = picture(&mut window);
    click(&mut window, "From straight above");
    settle(&mut window);
    assert!(picture(&mut window) == above);
}
