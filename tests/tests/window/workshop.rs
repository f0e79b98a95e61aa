//! The workshop in the window: cutters, planks with a knot, rates and margin set, taken back, saved and found again.

use std::fs;
use std::path::Path;

use cam_core::format::{read_workshop, write_workshop};
use cam_core::workshop::{Grain, Workshop};
use egui::accesskit::Role;
use egui_kittest::kittest::Queryable;
use sortwright::files::keep::Keep;
use testkit::window::{
    USUAL, Window, begun, choose, click, commission, document, export_to, fill_in, notice, paper,
    press, says, settle, window, window_of,
};

fn workshop(harness: &Window) -> Workshop {
    document(harness).workshop().as_ref().clone()
}

fn workshop_in(folder: &Path) -> Workshop {
    let text = fs::read_to_string(folder.join("workshop.json")).expect("a workshop's file");
    read_workshop(&text).expect("a workshop")
}

/// Chooses an entry of the workshop's list; its title may be shown once more above its form.
fn entry(harness: &mut Window, name: &str) {
    let found = harness.get_all_by_role_and_label(Role::Button, name).last();
    found
        .unwrap_or_else(|| panic!("{name} is not listed"))
        .click_accesskit();
    harness.run_steps(3);
}

#[test]
fn a_cutter_is_renamed_ground_down_taken_back_and_saved() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let mut harness = window(Some(&order));
    click(&mut harness, "Workshop");
    entry(&mut harness, "flat-3");
    fill_in(&mut harness, "Short word", "three");
    assert!(
        commission(&harness)
            .cutting
            .cutters
            .contains(&"three".to_owned())
    );
    fill_in(&mut harness, "Stands out by", "3/4 in + 1 mm");
    let stick_out = |harness: &Window| {
        let cutter = workshop(harness).cutter("three").cloned();
        cutter.expect("the cutter").stick_out.in_mm()
    };
    assert!((stick_out(&harness) - 20.05).abs() < 1e-9);
    fill_in(&mut harness, "Goes as deep as", "14 mm");
    assert!(
        notice(&harness).starts_with("three, max depth: it is 14 mm, more than the flutes"),
        "{}",
        notice(&harness)
    );
    harness.state_mut().undo();
    assert!((stick_out(&harness) - 18.0).abs() < 1e-9);
    harness.state_mut().undo();
    assert!(workshop(&harness).cutter("flat-3").is_some());
    assert!(
        commission(&harness)
            .cutting
            .cutters
            .contains(&"flat-3".to_owned())
    );
    harness.state_mut().redo();
    harness.state_mut().redo();
    assert!(!place.path().join("workshop.json").exists());
    harness.state_mut().save();
    settle(&mut harness);
    assert_eq!(workshop_in(place.path()), workshop(&harness));
    assert!(!document(&harness).is_changed());
    drop(harness);
    let again = window(Some(&order));
    assert!((stick_out(&again) - 20.05).abs() < 1e-9);
    assert!(!document(&again).is_changed());
}

#[test]
fn a_plank_with_a_knot_is_used_and_no_block_lies_on_the_knot() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut harness = window(Some(&begun(place.path(), "LL", "3")));
    click(&mut harness, "Workshop");
    press(&mut harness, "Add a plank");
    fill_in(&mut harness, "Short word", "maple-7");
    fill_in(&mut harness, "Width", "120 mm");
    fill_in(&mut harness, "Length", "4 in - 1.6 mm");
    choose(&mut harness, "Fibres run", "upright: the face is end grain");
    press(&mut harness, "Add a bad place");
    fill_in(&mut harness, "Bad place 1, from left", "10");
    fill_in(&mut harness, "Bad place 1, from near", "5");
    fill_in(&mut harness, "Bad place 1, width", "30 + 5");
    fill_in(&mut harness, "Bad place 1, length", "40");
    fill_in(&mut harness, "Near", "2 mm");
    press(&mut harness, "This order may be cut from it");
    let plank = workshop(&harness).stock.remove(0);
    assert_eq!(
        (plank.id.as_str(), plank.grain),
        ("maple-7", Some(Grain::End))
    );
    assert!((plank.length.in_mm() - 100.0).abs() < 1e-9);
    assert_eq!(commission(&harness).planks.stock, ["maple-7"]);
    settle(&mut harness);
    // The room of the planks works the layout out without waiting for programs.
    let commission = commission(&harness);
    let drawn = cam_core::sort::draw_up(
        &commission,
        document(&harness).fonts(),
        &cam_core::progress::Progress::new(),
    )
    .expect("two letters");
    let sorts: Vec<_> = drawn.sorts.into_iter().map(std::sync::Arc::new).collect();
    let laid = cam_core::plank::lay_out(&sorts, &commission, document(&harness).workshop())
        .expect("they are laid out");
    assert_eq!(laid.planks[0].stock.as_deref(), Some("maple-7"));
    let knot = kurbo::Rect::new(10.0, 5.0, 45.0, 45.0);
    for place in &laid.planks[0].places {
        let block = sorts[place.sort].block.rect() + place.at;
        assert!(block.intersect(knot).area() <= 0.0, "{block:?}");
    }
    harness.state_mut().save();
    settle(&mut harness);
    assert_eq!(workshop_in(place.path()).stock[0].bad_places.len(), 1);

    // What is written lies clear of the knot as well, on a plank that its papers name.
    let made = place.path().join("made");
    let job = export_to(&mut harness, &made);
    assert_eq!(job.planks[0].bad_places.len(), 1);
    assert_eq!(job.sorts.len(), 2);
    for sort in &job.sorts {
        let corners = sort
            .block_mm
            .iter()
            .map(|corner| kurbo::Point::new(corner[0], corner[1]));
        let block = corners
            .map(|corner| kurbo::Rect::from_points(corner, corner))
            .reduce(|all, one| all.union(one))
            .expect("a block has corners");
        assert!(
            block.intersect(knot).area() <= 0.0,
            "{}: {block:?}",
            sort.id
        );
    }
    assert!(paper(&made, "setup-sheet").contains("maple-7"));
}

#[test]
fn rates_margin_tables_and_papers_are_set_and_kept_by_the_journal() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let keep = Keep::at(&place.path().join("state"));
    let mut harness = window_of(USUAL, Some(&order), Some(keep));
    click(&mut harness, "Workshop");
    entry(&mut harness, "Rates");
    fill_in(&mut harness, "By hand, an hour", "40 euro + 2");
    fill_in(&mut harness, "Margin", "30 %");
    entry(&mut harness, "Papers");
    choose(&mut harness, "Pages", "Letter, 8½ × 11 inches");
    press(&mut harness, "Add a table");
    fill_in(&mut harness, "Name", "Ferry company");
    let rates = workshop(&harness).rates;
    assert_eq!((rates.hand_per_hour, rates.margin), (42.0, 0.3));
    press(&mut harness, "Add a ball cutter");
    assert!(says(&harness, "ball-1"));
    let kept = workshop(&harness);
    // The window goes without anyone being asked, as when the power fails.
    drop(harness);
    let keep = Keep::at(&place.path().join("state"));
    let mut again = window_of(USUAL, Some(&order), Some(keep));
    click(&mut again, "Take it up");
    settle(&mut again);
    assert_eq!(workshop(&again), kept);
    assert!(document(&again).is_workshop_changed());
    again.state_mut().undo();
    assert_eq!(workshop(&again), Workshop::starting());
}

#[test]
fn a_workshop_that_another_program_changed_is_asked_about() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = place.path().join("workshop.json");
    fs::write(&file, write_workshop(&Workshop::starting())).expect("written");
    let mut harness = window(Some(&begun(place.path(), "L", "3")));
    click(&mut harness, "Workshop");
    fill_in(&mut harness, "Name", "The one by the window");
    let mut theirs = Workshop::starting();
    theirs.machine.name = "Theirs".to_owned();
    fs::write(&file, write_workshop(&theirs)).expect("written");
    harness.state_mut().save();
    settle(&mut harness);
    assert!(says(
        &harness,
        "is not the workshop that this commission was opened with"
    ));
    click(&mut harness, "Use that one");
    assert_eq!(workshop(&harness).machine.name, "Theirs");
    assert!(!document(&harness).is_changed());
    harness.state_mut().undo();
    assert_eq!(workshop(&harness).machine.name, "The one by the window");
    harness.state_mut().save();
    settle(&mut harness);
    assert_eq!(
        workshop_in(place.path()).machine.name,
        "The one by the window"
    );

    let copy = place.path().join("copy.json");
    harness.state_mut().save_copy_of_workshop(&copy);
    fill_in(&mut harness, "Name", "Another");
    harness.state_mut().take_over_workshop(&copy);
    harness.run_steps(3);
    assert_eq!(workshop(&harness).machine.name, "The one by the window");
    harness.state_mut().undo();
    assert_eq!(workshop(&harness).machine.name, "Another");
}
