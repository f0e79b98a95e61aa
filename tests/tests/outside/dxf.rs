//! DXF files written by an independent library and read back: areas, boxes, blocks, units, open ends.
//!
//! # Source
//! The files in `tests/dxf` were written by `ezdxf` 1.4.5, a Python library. Areas are closed forms of the arcs, ellipses and bulges drawn (the open
//! spline's is that of the library's own flattened path); boxes are those of the library's flattened paths; all in the file's units.

use std::fs;
use std::path::Path;

use drawing::{Drawing, DrawingError, Reading, read};
use kurbo::Rect;

/// How far areas may differ, as a part of them, and boxes, in units of the file.
const AREA: f64 = 5e-4;
const BOX: f64 = 2e-3;

/// A file with what it encloses: areas of the rings that add (and of those cut out, below 0), the box, and millimetres to a unit.
struct Case {
    file: &'static str,
    areas: &'static [f64],
    bounds: [f64; 4],
    mm_per_unit: f64,
}

const CASES: [Case; 7] = [
    Case {
        file: "stadium_r12",
        areas: &[1114.15927, -113.09734],
        bounds: [-10.0, 0.0, 50.0, 20.0],
        mm_per_unit: 1.0,
    },
    Case {
        file: "bulges_inch",
        areas: &[1.32179],
        bounds: [-0.21823, -0.15, 1.2, 1.23446],
        mm_per_unit: 25.4,
    },
    Case {
        file: "splines",
        areas: &[201.06193, 524.99974],
        bounds: [0.0, 0.0, 68.0, 20.21535],
        mm_per_unit: 1.0,
    },
    Case {
        file: "ellipses_cm",
        areas: &[5.34071, std::f64::consts::FRAC_PI_4],
        bounds: [-1.01012, 0.05648, 6.8, 1.94352],
        mm_per_unit: 10.0,
    },
    Case {
        file: "blocks",
        areas: &[
            23.74570, 23.74570, 5.93643, 5.93643, 5.93643, 5.93643, 5.93643, 5.93643,
        ],
        bounds: [9.33975, 9.9722, 87.49421, 28.4641],
        mm_per_unit: 1.0,
    },
    Case {
        file: "from_below",
        areas: &[28.27433, 43.62217, 21.57834],
        bounds: [-36.0, -1.7101, -2.0, 8.0],
        mm_per_unit: 1.0,
    },
    Case {
        file: "polyline_r12",
        areas: &[107.29472],
        bounds: [0.0, -2.5, 10.0, 10.0],
        mm_per_unit: 1.0,
    },
];

fn bytes(file: &str) -> Vec<u8> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("dxf/{file}.dxf"));
    fs::read(path).expect("it is in the repository")
}

fn drawn(file: &str) -> Drawing {
    read(&bytes(file), &Reading::default()).unwrap_or_else(|error| panic!("{file}: {error}"))
}

#[test]
fn areas_and_boxes_are_those_that_the_writer_measures() {
    for case in &CASES {
        let drawing = drawn(case.file);
        assert!(
            drawing.open_ends.is_empty(),
            "{}: {:?}",
            case.file,
            drawing.open_ends
        );
        let region = drawing.whole.region(0.0005).expect("a region");
        let square = case.mm_per_unit * case.mm_per_unit;
        let meant: f64 = case.areas.iter().sum::<f64>() * square;
        let area = region.area();
        assert!(
            (area - meant).abs() <= AREA * meant,
            "{}: {area} for {meant}",
            case.file
        );
        let whole_rings = case.areas.iter().filter(|area| **area > 0.0).count();
        assert_eq!(region.pieces.len(), whole_rings, "{}", case.file);
        let [x0, y0, x1, y1] = case.bounds.map(|bound| bound * case.mm_per_unit);
        let found = region.bounding_box().expect("something is drawn");
        let meant = Rect::new(x0, y0, x1, y1);
        for (found, meant) in [
            (found.x0, meant.x0),
            (found.y0, meant.y0),
            (found.x1, meant.x1),
            (found.y1, meant.y1),
        ] {
            assert!(
                (found - meant).abs() <= BOX * case.mm_per_unit,
                "{}: {found} for {meant}",
                case.file
            );
        }
    }
}

#[test]
fn layers_come_from_the_file() {
    let drawing = drawn("stadium_r12");
    let names: Vec<&str> = drawing
        .layers
        .iter()
        .map(|layer| layer.name.as_str())
        .collect();
    assert_eq!(names, ["FACE", "HOLE"]);
    // The older version of the format has no unit.
    assert!(
        drawing.notes.iter().any(|note| note.contains("which unit")),
        "{:?}",
        drawing.notes
    );
    assert!(drawn("splines").notes.is_empty());
}

#[test]
fn a_small_gap_is_joined_and_an_open_corner_is_named_by_its_places() {
    let drawing = drawn("open_corner");
    let ends: Vec<(f64, f64)> = drawing
        .open_ends
        .iter()
        .map(|end| (end.at.x, end.at.y))
        .collect();
    assert_eq!(ends, [(0.4, 20.0), (0.0, 20.0)]);
    assert!((drawing.open_ends[0].gap_mm.expect("another end") - 0.4).abs() < 1e-9);
    assert!(
        drawing.notes.iter().any(|note| note.contains("0.0150 mm")),
        "{:?}",
        drawing.notes
    );
    let wide = read(&bytes("open_corner"), &Reading { join_gap_mm: 0.5 }).expect("it is read");
    let area = wide.whole.region(0.0005).expect("a region").area();
    assert!(
        wide.open_ends.is_empty() && (area - 600.0).abs() < 0.5,
        "{area}"
    );
}

#[test]
fn text_is_refused_with_its_words() {
    let refused = read(&bytes("text"), &Reading::default()).expect_err("it has text");
    assert_eq!(refused, DrawingError::Text("Fair today".to_owned()));
}
