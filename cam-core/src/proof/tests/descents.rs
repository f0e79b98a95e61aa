//! Rapid moves down below the face.

use super::*;

/// Where the counter's circle is begun, in both layers.
const START: &str = "G0 X11.200 Y12.000\n";

/// What is said of rapids, with lines put in before the cutter is fed down for the first or the second layer of the counter.
fn said(layer: usize, lines: &str) -> Vec<String> {
    let mut workpiece = Workpiece::sound();
    workpiece.spoil("faces.ngc", |text| {
        let mut parts: Vec<String> = text.split(START).map(str::to_owned).collect();
        assert_eq!(parts.len(), 3);
        parts[layer] = format!("{lines}\n{}", parts[layer]);
        parts.join(START)
    });
    findings(&workpiece.job, &workpiece.programs)
        .into_iter()
        .filter(|finding| finding.kind == "rapid-through-wood")
        .map(|finding| finding.text.to_string())
        .collect()
}

#[test]
fn the_cutter_may_come_down_rapidly_into_a_layer_cut_before() {
    assert_eq!(said(2, "G0 Z-0.5"), Vec::<String>::new());
    assert_eq!(said(2, "G0 Z-1."), Vec::<String>::new());
}

#[test]
fn rapids_down_into_wood_are_refused() {
    for (layer, lines) in [
        // Before anything was cut, deeper than the layer cut, and where the rim meets wood.
        (1, "G0 Z-0.5"),
        (2, "G0 Z-1.1"),
        (2, "G0 X10.4\nG0 Z-0.5\nG0 Z4.\nG0 X11.2"),
        (2, "G0 Y13.5\nG0 Z-0.5\nG0 Z4.\nG0 Y12."),
    ] {
        let said = said(layer, lines);
        assert_eq!(said.len(), 1, "{layer} {lines}: {said:?}");
    }
}
