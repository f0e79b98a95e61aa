//! The bill in the window: a fount by scheme in a language's proportions, a text laid against it, spaces worked out.

use egui::Role;
use egui_kittest::kittest::Queryable;

use cam_core::commission::GlyphChoice;
use testkit::window::{Window, click, commission, font, until_shown, window_of};

fn window() -> Window {
    window_of([1500.0, 1400.0], Some(&font()), None)
}

/// Types into a field of several lines.
fn write(harness: &mut Window, name: &str, text: &str) {
    harness
        .get_by_role_and_label(Role::MultilineTextInput, name)
        .focus();
    harness.run_steps(2);
    let field = harness.get_by_role_and_label(Role::MultilineTextInput, name);
    field.type_text(text);
    harness.run_steps(3);
}

fn counts(harness: &Window) -> Vec<(char, u32)> {
    let bill = commission(harness).bill;
    bill.iter()
        .filter_map(|line| match line.glyph {
            GlyphChoice::Character { character, .. } => Some((character, line.count)),
            GlyphChoice::Ligature { .. }
            | GlyphChoice::Name(_)
            | GlyphChoice::Index(_)
            | GlyphChoice::Drawing => None,
        })
        .collect()
}

#[test]
fn a_text_is_laid_against_the_bill() {
    let mut harness = window();
    click(&mut harness, "List");
    write(
        &mut harness,
        "Sorts and how many of each",
        "F 1, E 1, R 2, Y 1",
    );
    click(&mut harness, "Add these sorts");
    assert_eq!(counts(&harness), [('F', 1), ('E', 1), ('R', 2), ('Y', 1)]);
    click(&mut harness, "Text to be set");
    write(&mut harness, "Lines to be printed", "FERRY ERR");
    assert!(harness.query_by_label("Short of it: E 1, R 2").is_some());
    click(&mut harness, "Add these sorts");
    assert_eq!(counts(&harness), [('F', 1), ('E', 2), ('R', 4), ('Y', 1)]);
    assert!(harness.query_by_label("The bill sets this").is_some());
    until_shown(&mut harness, "Add those the text takes");
    click(&mut harness, "Add those the text takes");
    let commission = commission(&harness);
    // Ten lines: between the words stands a third of 120 points.
    let points: Vec<f64> = commission
        .spaces
        .iter()
        .map(|line| line.set.in_mm() / commission.system.point_mm())
        .collect();
    assert!(
        points.iter().any(|points| (points - 40.0).abs() < 1e-6),
        "{points:?}"
    );
}

#[test]
fn a_fount_by_scheme_shows_its_source_and_takes_changed_tables() {
    let mut harness = window();
    click(&mut harness, "Scheme");
    let source = "Proportions of a job fount 15A 30a: A. A. Stewart, Type: a primer, 1918, p. 11.";
    assert!(harness.query_by_label(source).is_some());
    let a = harness.get_by_role_and_label(Role::SpinButton, "A");
    a.set_value_accesskit(3.0);
    harness.run_steps(3);
    click(&mut harness, "Table of proportions");
    harness.run_steps(20);
    let capitals = harness.get_by_role_and_label(Role::MultilineTextInput, "Capitals");
    capitals.focus();
    harness.run_steps(2);
    harness.key_press_modifiers(egui::Modifiers::COMMAND, egui::Key::A);
    harness.run_steps(1);
    let capitals = harness.get_by_role_and_label(Role::MultilineTextInput, "Capitals");
    capitals.type_text("A15 E20 Q1");
    harness.run_steps(3);
    click(&mut harness, "Add these sorts");
    assert_eq!(counts(&harness), [('A', 3), ('E', 4), ('Q', 1)]);
    click(&mut harness, "Back to the table as printed");
    click(&mut harness, "Add these sorts");
    let counts = counts(&harness);
    assert_eq!(counts.len(), 27, "{counts:?}");
    assert!(
        counts.contains(&('S', 3)) && counts.contains(&('Z', 1)),
        "{counts:?}"
    );
}
