//! The case in the window: glyphs found by character, name and feature, and ordered from any face of the commission.

use std::fs;

use egui_kittest::kittest::Queryable;
use testkit::window::{choose, click, commission, fill_in, font, press, says, settle, window};

#[test]
fn glyphs_of_another_face_are_shown_and_ordered() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let inline = font().with_file_name("Quernstow-Inline.ttf");
    let order = format!(
        r#"{{ "format": "sortwright-commission", "version": 1, "lines": 6,
             "faces": [{{ "id": "plain", "file": {:?} }}, {{ "id": "lined", "file": {:?} }}],
             "bill": [{{ "face": "plain", "letters": "R 2" }}] }}"#,
        font(),
        inline
    );
    let file = place.path().join("order.json");
    fs::write(&file, order).expect("written");
    let mut harness = window(Some(&file));
    click(&mut harness, "Case");
    click(&mut harness, "Glyph O, 0 ordered");
    choose(&mut harness, "Face", "lined");
    settle(&mut harness);
    // Nothing of this face is ordered yet, of R neither.
    click(&mut harness, "Glyph R, 0 ordered");
    click(&mut harness, "Glyph R, 1 ordered");
    settle(&mut harness);
    let bill = commission(&harness).bill;
    let ordered: Vec<(&str, u32)> = bill
        .iter()
        .map(|line| (line.face.as_str(), line.count))
        .collect();
    assert_eq!(ordered, [("plain", 2), ("plain", 1), ("lined", 2)]);
    harness.state_mut().undo();
    settle(&mut harness);
    assert!(harness.query_by_label("Glyph R, 1 ordered").is_some());
    choose(&mut harness, "Face", "plain");
    settle(&mut harness);
    assert!(harness.query_by_label("Glyph R, 2 ordered").is_some());
}

#[test]
fn glyphs_are_found_by_character_name_and_code() {
    let mut harness = window(Some(&font()));
    click(&mut harness, "Case");
    for (search, found, hidden) in [
        ("&", "Glyph &, 0 ordered", "Glyph A, 0 ordered"),
        ("ampers", "Glyph &, 0 ordered", "Glyph A, 0 ordered"),
        ("U+0041", "Glyph A, 0 ordered", "Glyph &, 0 ordered"),
    ] {
        fill_in(&mut harness, "Find", search);
        assert!(harness.query_by_label(found).is_some(), "{search}");
        assert!(harness.query_by_label(hidden).is_none(), "{search}");
    }
    press(&mut harness, "One more of each shown");
    assert_eq!(commission(&harness).bill.len(), 1);
    fill_in(&mut harness, "Find", "Ж");
    assert!(says(&harness, "No glyph answers to that."));
}
