//! Nothing lost in the window: work that was cut off is found again, a file with a second owner is asked about.

use std::fs;
use std::path::{Path, PathBuf};

use cam_core::format::read_commission;
use egui_kittest::kittest::Queryable;
use sortwright::files::keep::Keep;
use sortwright::files::read_text;
use testkit::window::{USUAL, Window, document, fill_in, font, says, settle, window_of};

/// A window that keeps its journals below `place`.
fn window(place: &Path, open: Option<&Path>) -> Window {
    window_of(USUAL, open, Some(Keep::at(&place.join("state"))))
}

fn click(harness: &mut Window, label: &str) {
    testkit::window::click(harness, label);
    settle(harness);
}

fn retitle(harness: &mut Window, title: &str) {
    fill_in(harness, "Title", title);
}

fn title(harness: &Window) -> &str {
    document(harness).commission().title.as_str()
}

fn title_in(file: &Path) -> String {
    let text = read_text(file).expect("it can be read");
    read_commission(&text).expect("a commission").title
}

/// A commission file with a title, saved by a window that is closed again.
fn saved(place: &Path, title: &str) -> PathBuf {
    let file = place.join("order.json");
    let mut harness = window(place, Some(&font()));
    retitle(&mut harness, title);
    harness.state_mut().save_to(&file);
    assert_eq!(title_in(&file), title);
    file
}

/// The window goes without anyone being asked, as when the power fails after the journal was written.
fn cut_off(harness: Window) {
    drop(harness);
}

#[test]
fn work_that_was_cut_off_is_taken_up_and_can_be_taken_back() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = saved(place.path(), "Harbour bill");
    let mut first = window(place.path(), Some(&file));
    assert!(!says(&first, "Unsaved work"), "all was saved");
    retitle(&mut first, "Harbour bill, second state");
    cut_off(first);
    let mut second = window(place.path(), None);
    assert!(says(
        &second,
        "Unsaved work from an earlier session was found."
    ));
    assert!(says(&second, "Harbour bill, second state"));
    click(&mut second, "Take it up");
    assert_eq!(title(&second), "Harbour bill, second state");
    assert!(document(&second).is_changed());
    second.state_mut().undo();
    assert_eq!(title(&second), "Harbour bill");
    second.state_mut().redo();
    second.state_mut().save();
    settle(&mut second);
    assert_eq!(title_in(&file), "Harbour bill, second state");
    cut_off(second);
    assert!(!says(&window(place.path(), None), "Unsaved work"));
}

#[test]
fn work_that_is_put_away_is_kept_and_asked_about_no_more() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let mut first = window(place.path(), Some(&font()));
    retitle(&mut first, "Never saved");
    cut_off(first);
    let mut later = window(place.path(), None);
    assert!(says(&later, "It was never saved to a file."));
    click(&mut later, "Decide later");
    cut_off(later);
    let mut second = window(place.path(), None);
    click(&mut second, "Put it away");
    let said = second.state().notice().unwrap_or_default();
    assert!(said.contains("was put away as"), "{said}");
    cut_off(second);
    assert!(!says(&window(place.path(), None), "Unsaved work"));
    let away = place.path().join("state/put-away/000001.json");
    assert_eq!(title_in(&away), "Never saved");
    let opened = window(place.path(), Some(&away));
    assert_eq!(title(&opened), "Never saved");
}

#[test]
fn opening_a_commission_asks_about_its_own_unsaved_work_first() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = saved(place.path(), "Harbour bill");
    let mut first = window(place.path(), Some(&file));
    retitle(&mut first, "Not saved");
    cut_off(first);
    let mut second = window(place.path(), Some(&file));
    assert!(second.state().document().is_none());
    assert!(second.query_by_label("Decide later").is_none());
    click(&mut second, "Put it away");
    assert_eq!(title(&second), "Harbour bill");
}

#[test]
fn a_file_that_another_program_changed_is_asked_about() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = saved(place.path(), "Ours");
    let mut harness = window(place.path(), Some(&file));
    let text = fs::read_to_string(&file).expect("read");
    fs::write(&file, text.replace("\"Ours\"", "\"Theirs\"")).expect("written");
    retitle(&mut harness, "Ours, changed");
    harness.state_mut().save();
    settle(&mut harness);
    assert!(says(&harness, "was changed by another program"));
    assert_eq!(title_in(&file), "Theirs", "nothing is saved unasked");
    click(&mut harness, "Keep both");
    let second = place.path().join("order 2.json");
    assert_eq!(title_in(&file), "Theirs");
    assert_eq!(title_in(&second), "Ours, changed");
    assert_eq!(document(&harness).path.as_deref(), Some(&*second));

    fs::write(&second, text.replace("\"Ours\"", "\"Theirs again\"")).expect("written");
    retitle(&mut harness, "Ours at last");
    harness.state_mut().save();
    settle(&mut harness);
    click(&mut harness, "Replace it");
    assert_eq!(title_in(&second), "Ours at last");
    let previous = place.path().join("order 2.json.previous");
    assert_eq!(title_in(&previous), "Theirs again");
}

#[test]
fn a_second_window_on_one_commission_gets_a_copy() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = saved(place.path(), "Harbour bill");
    let first = window(place.path(), Some(&file));
    let mut second = window(place.path(), Some(&file));
    assert!(second.state().document().is_none());
    assert!(says(&second, "open in another window of Sortwright"));
    click(&mut second, "Open a copy");
    assert_eq!(title(&second), "Harbour bill");
    assert_eq!(document(&second).path, None);
    second.state_mut().save_to(&file);
    let said = second.state().notice().unwrap_or_default();
    assert!(said.contains("open in another window"), "{said}");
    // A window that has ended, however it ended, holds nothing any more.
    cut_off(first);
    second.state_mut().save_to(&file);
    let said = second.state().notice().unwrap_or_default();
    assert!(said.contains("Saved to"), "{said}");
}

#[test]
fn a_place_that_cannot_be_written_to_is_said_and_nothing_is_lost() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let file = saved(place.path(), "Harbour bill");
    let mut rights = fs::metadata(&file).expect("it is there").permissions();
    rights.set_readonly(true);
    fs::set_permissions(&file, rights).expect("set");
    let mut harness = window(place.path(), Some(&file));
    retitle(&mut harness, "Cannot be saved here");
    harness.state_mut().save();
    settle(&mut harness);
    let said = harness.state().notice().unwrap_or_default();
    assert!(
        said.contains("protected") && said.contains("as it was"),
        "{said}"
    );
    assert_eq!(title_in(&file), "Harbour bill");
    assert!(document(&harness).is_changed());
    cut_off(harness);
    assert!(says(&window(place.path(), None), "Cannot be saved here"));

    // Without a place for journals the window still works, and says what that means.
    let in_the_way = place.path().join("a file");
    fs::write(&in_the_way, "x").expect("written");
    let mut poor = window(&in_the_way, Some(&font()));
    let said = poor.state().notice().unwrap_or_default();
    assert!(said.contains("save often"), "{said}");
    retitle(&mut poor, "Not kept");
    assert_eq!(title(&poor), "Not kept");
}
