//! A few pictures of drawings, kept small beside the tests and compared dot by dot with a tolerance: what a test of values would not see.
//!
//! They are filled on the processor, without any graphics card, so they come out the same everywhere. After a change that is meant:
//! `UPDATE_SNAPSHOTS=1 cargo test -p sortwright-tests --test window snapshots`, and look at them.

use egui::Role;
use egui_kittest::kittest::Queryable;
use egui_kittest::{SnapshotOptions, image_snapshot_options};
use image::imageops::{FilterType, crop_imm, resize};
use testkit::window::{Window, begun, click, find, picture, settle, window_of};

/// A small window, px.
const SMALL: [f32; 2] = [940.0, 560.0];
/// Kept pictures are so wide, px.
const KEPT_WIDTH: u32 = 240;
/// A dot may differ by so much, as the comparing library counts: rounding of floating point on other processors.
const TOLERANCE: f32 = 2.0;
/// So many dots may differ by more: those on edges of letters.
const DOTS: usize = 12;

/// Compares the drawing of a room with the kept picture of this name.
fn look(window: &mut Window, name: &str) {
    settle(window);
    let sheet = window.get_by_role(Role::Canvas).rect();
    let shown = picture(window);
    let (left, top) = (sheet.left() as u32, sheet.top() as u32);
    let part = crop_imm(
        &shown,
        left,
        top,
        (sheet.width() as u32).min(shown.width() - left),
        (sheet.height() as u32).min(shown.height() - top),
    )
    .to_image();
    let high = KEPT_WIDTH * part.height() / part.width().max(1);
    let small = resize(&part, KEPT_WIDTH, high, FilterType::Triangle);
    let options = SnapshotOptions::new()
        .threshold(TOLERANCE)
        .max_failed_pixels(DOTS);
    image_snapshot_options(&small, name, &options);
}

#[test]
fn drawings_by_day_and_by_night() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut window = window_of(SMALL, Some(&begun(place.path(), "RO", "6")), None);
    find(&mut window, "paper by day");
    for (room, name) in [
        ("to room block", "block"),
        ("to room cut", "cuts"),
        ("to room plank", "plank"),
        ("to room proof", "proof"),
    ] {
        find(&mut window, room);
        look(&mut window, &format!("{name} by day"));
    }
    find(&mut window, "paper by night");
    find(&mut window, "to room cut");
    look(&mut window, "cuts by night");
    find(&mut window, "to room run");
    settle(&mut window);
    click(&mut window, "A finished block");
    look(&mut window, "finished block by night");
}
