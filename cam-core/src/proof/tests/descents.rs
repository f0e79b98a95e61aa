//! Rapid moves down below the face.

use super::*;

/// Where the counter's circle is begun, in both layers.
const START: &str = "G0 X11.200 Y12.000\n";

/// What is said of rapids, with words put in before the cutter is fed down for the first or the second layer of the counter.
fn said(layer: usize, start: &str, down: &str) -> Vec<String> {
    let mut workpiece = Workpiece::sound();
    workpiece.spoil("faces.ngc", |text| {
        let mut parts: Vec<String> = text.split(START).map(str::to_owned).collect();
        assert_eq!(parts.len(), 3);
        parts[layer] = format!("{down}\n{}", parts[layer]);
        let starts = [START; 2].map(str::to_owned);
        let mut text = parts[0].clone();
        for (number, part) in parts[1..].iter().enumerate() {
            text += if number + 1 == layer {
                start
            } else {
                &starts[number]
            };
            text += part;
        }
        text
    });
    findings(&workpiece.job, &workpiece.programs)
        .into_iter()
        .filter(|finding| finding.kind == "rapid-through-wood")
        .map(|finding| finding.text)
        .collect()
}

#[test]
fn the_cutter_may_come_down_rapidly_into_a_layer_cut_before() {
    assert_eq!(said(2, START, "G0 Z-0.5"), Vec::<String>::new());
    assert_eq!(said(2, START, "G0 Z-1."), Vec::<String>::new());
}

#[test]
fn rapids_down_into_wood_are_refused() {
    for (layer, start, down) in [
        // Before anything was cut, deeper than the layer cut, and where its rim meets wood.
        (1, START, "G0 Z-0.5"),
        (2, START, "G0 Z-1.1"),
        (2, "G0 X10.900 Y12.000\n", "G0 Z-0.5"),
        (2, "G0 X11.200 Y13.500\n", "G0 Z-0.5"),
    ] {
        let said = said(layer, start, down);
        assert_eq!(said.len(), 1, "{layer} {start} {down}: {said:?}");
    }
}
