//! Letters and drawings in colours in the window: plates are made, changed, moved and taken back; a drawing is parted by its colours.

use cam_core::commission::{ColourRules, PlateSource};
use cam_core::measure::Length;
use egui_kittest::kittest::Queryable;
use testkit::window::{
    Window, begun, choose, commission, document, fill_in, notice, press, says, settle,
    take_picture, window_of,
};

/// A blue square of 8 mm beside a red one of 4 mm.
const TWO: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="16mm" height="8mm" viewBox="0 0 16 8">
<rect width="8" height="8" fill="#1f3f7a"/><rect x="12" width="4" height="4" fill="#c02020"/></svg>"##;

fn rules(harness: &Window) -> ColourRules {
    commission(harness).colours.expect("letters are in colours")
}

/// Names of the sorts that are drawn up, from the core.
fn sorts(harness: &Window) -> Vec<String> {
    let document = document(harness);
    let drawn = cam_core::notch::drawn_and_cut(
        document.commission(),
        document.workshop(),
        document.fonts(),
        &cam_core::progress::Progress::new(),
    );
    let sorts = drawn.expect("drawn up").sorts;
    sorts.into_iter().map(|sort| sort.name).collect()
}

#[test]
fn plates_are_made_changed_moved_and_taken_back() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "4");
    let mut harness = window_of([1280.0, 2400.0], Some(&order), None);
    press(&mut harness, "Letters in colours");
    let begun = rules(&harness);
    assert_eq!(begun.plates.len(), 2);
    assert!(matches!(begun.plates[0].source, PlateSource::Shadow { .. }));
    assert_eq!(sorts(&harness), ["L (plate 1)", "L (plate 2)"]);

    fill_in(&mut harness, "Plate’s name", "ochre");
    fill_in(&mut harness, "Ink", "#d9a21b");
    fill_in(&mut harness, "Falls at", "-30");
    fill_in(&mut harness, "Length of the shadow", "4 pt");
    fill_in(&mut harness, "Trap", "0.3 mm");
    let changed = rules(&harness);
    assert_eq!(changed.plates[0].name, "ochre");
    assert_eq!(changed.plates[0].ink, "#d9a21b");
    let PlateSource::Shadow {
        angle_deg, length, ..
    } = &changed.plates[0].source
    else {
        panic!("{changed:?}");
    };
    assert!((angle_deg + 30.0).abs() < 1e-12);
    assert!((length.in_mm() - Length::pica_points(4.0).in_mm()).abs() < 1e-9);
    assert!((changed.trap.in_mm() - 0.3).abs() < 1e-12);

    fill_in(&mut harness, "Ink", "sunset");
    assert_eq!(rules(&harness).plates[0].ink, "#d9a21b");
    assert!(notice(&harness).contains("sunset"), "{}", notice(&harness));

    press(&mut harness, "Add a plate");
    choose(&mut harness, "Made from", "a line within the letter");
    let third = rules(&harness).plates[2].clone();
    assert!(matches!(third.source, PlateSource::Inline { .. }));
    press(&mut harness, "Print earlier");
    let names: Vec<String> = rules(&harness)
        .plates
        .into_iter()
        .map(|plate| plate.name)
        .collect();
    assert_eq!(names, ["ochre", "plate 3", "plate 2"]);
    press(&mut harness, "Cut now");
    assert_eq!(rules(&harness).cut, ["ochre", "plate 2"]);
    assert_eq!(sorts(&harness), ["L (ochre)", "L (plate 2)"]);
    press(&mut harness, "Take the plate out");
    assert_eq!(rules(&harness).plates.len(), 2);
    settle(&mut harness);
    take_picture(&mut harness, "plates");

    // What was written down is what the file holds, and all of it can be taken back.
    harness.state_mut().save();
    settle(&mut harness);
    let text = std::fs::read_to_string(&order).expect("saved");
    let read = cam_core::format::read_commission(&text).expect("reads back");
    assert_eq!(read.colours, Some(rules(&harness)));
    while document(&harness).history().undoes().is_some() {
        harness.state_mut().undo();
    }
    assert_eq!(commission(&harness).colours, None);
}

#[test]
fn a_drawing_is_parted_into_its_colours() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "4");
    let file = place.path().join("squares.svg");
    std::fs::write(&file, TWO).expect("written");
    let mut harness = window_of([1280.0, 2400.0], Some(&order), None);
    harness.state_mut().name_file(file);
    settle(&mut harness);
    press(&mut harness, "Letters in colours");
    press(&mut harness, "Drawing squares in colours");
    press(&mut harness, "Letters of main in colours");
    assert_eq!(rules(&harness).drawings, ["squares"]);
    assert!(rules(&harness).faces.is_empty());
    for _ in 0..2 {
        press(&mut harness, "Take the plate out");
    }
    assert!(says(&harness, "the lowest first"));
    assert_eq!(
        sorts(&harness),
        ["squares (#1f3f7a)", "squares (#c02020)", "L"]
    );
    let folder = place.path().join("made");
    settle(&mut harness);
    assert!(harness.query_by_label("Stop").is_none());
    assert!(!folder.exists());
}
