//! From a font to programs and papers, through the forms alone: an empty window, a font dropped on it, an order filled in, written, saved,
//! and opened again.

use std::fs;

use egui_kittest::kittest::Queryable;
use sha2::{Digest, Sha256};
use sortwright::files::home::Home;
use sortwright::model::selection::Room;
use testkit::window::{
    choose, commission, document, drop_on, export_to, fill_in, find, font, paper, press, says,
    settle, window_at_home, write_in,
};

#[test]
fn from_an_empty_window_to_written_programs_and_papers() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let home = Home::at(place.path());
    let mut settings = home.settings().expect("none yet");
    settings.welcomed = true;
    home.keep_settings(&settings).expect("kept");

    let mut harness = window_at_home(place.path(), None);
    assert!(harness.state().document().is_none());
    assert!(says(&harness, "Drop a font here"), "it says what to do");
    drop_on(&mut harness, &font());
    assert!(harness.state().is_in(Room::Order));
    assert!(commission(&harness).bill.is_empty());
    assert!(says(&harness, "Nothing is ordered yet"));

    fill_in(&mut harness, "Title", "Lock gate");
    fill_in(&mut harness, "Reference", "LG 4");
    fill_in(&mut harness, "Size", "1 cm + 4 mm");
    fill_in(&mut harness, "Height to paper", "23.3 mm");
    write_in(&mut harness, "Lines to be printed", "LOCK");
    press(&mut harness, "Add these sorts");
    fill_in(&mut harness, "Given by", "the face's drawer");
    fill_in(&mut harness, "Tolerance", "0.01 mm + 0.01 mm");
    choose(&mut harness, "Programs", "one a plank, with pauses");
    choose(&mut harness, "Cut apart by", "the saw");
    let ordered = commission(&harness);
    assert_eq!(
        (ordered.title.as_str(), ordered.reference.as_str()),
        ("Lock gate", "LG 4")
    );
    let body = ordered.lines * 12.0 * ordered.system.point_mm();
    assert!((body - 14.0).abs() < 1e-6, "{body}");
    assert!((ordered.height_to_paper.in_mm() - 23.3).abs() < 1e-9);
    assert!((ordered.cutting.tolerance.in_mm() - 0.02).abs() < 1e-9);
    assert_eq!(ordered.faces[0].permission.by, "the face's drawer");
    assert_eq!(ordered.bill.len(), 4);
    settle(&mut harness);

    // Every room of the way has something to show.
    for (room, shown) in [
        ("to room block", "Block of "),
        ("to room plank", "All planks"),
        ("to room proof", "Proof"),
        ("to room papers", "Save all papers…"),
    ] {
        find(&mut harness, room);
        settle(&mut harness);
        assert!(says(&harness, shown), "{shown}");
    }

    let made = place.path().join("made");
    let job = export_to(&mut harness, &made);
    let mut texts: Vec<&str> = job.sorts.iter().map(|sort| sort.text.as_str()).collect();
    texts.sort_unstable();
    assert_eq!(texts, ["C", "K", "L", "O"]);
    assert_eq!(job.programs.len(), 1, "one for the plank, with pauses");
    for program in &job.programs {
        let bytes = fs::read(made.join(&program.file)).expect("a program");
        let digest = Sha256::digest(&bytes);
        let hex: String = digest.iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(hex, program.sha256, "{}", program.file);
    }
    for name in [
        "quote",
        "setup-sheet",
        "cutting-list",
        "packing-list",
        "licence-record",
    ] {
        assert!(paper(&made, name).contains("Lock gate"), "{name}");
        let pdf = fs::read(made.join(format!("papers/{name}.pdf"))).expect("a page");
        assert!(pdf.starts_with(b"%PDF-"), "{name}");
    }
    assert!(paper(&made, "licence-record").contains("the face's drawer"));

    // As where the system has no dialog for files: a file that is there is not written over.
    harness.state_mut().type_places();
    let taken = place.path().join("taken.json");
    fs::write(&taken, "of another").expect("written");
    press(&mut harness, "Save");
    let field = "Save the commission";
    fill_in(&mut harness, field, &taken.display().to_string());
    assert!(says(&harness, "There is a file of this name already"));
    let kept = fs::read_to_string(&taken).expect("it is there");
    assert_eq!(kept, "of another");
    let file = place.path().join("lock gate.json");
    fill_in(&mut harness, field, &file.display().to_string());
    settle(&mut harness);
    assert!(!says(&harness, field), "the sheet is closed");
    let saved = commission(&harness);
    assert!(!document(&harness).is_changed());
    drop(harness);
    let mut again = window_at_home(place.path(), None);
    let recent = again.query_all_by_label_contains("lock gate.json").next();
    recent.expect("it is among the recent ones").click();
    again.run_steps(3);
    settle(&mut again);
    assert_eq!(commission(&again), saved);
}
