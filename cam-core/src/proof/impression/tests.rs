//! Tests of impressions: the mirror, what stands, lines, and pictures.

use geometry::region::{Piece, Region};
use kurbo::{BezPath, Point};

use super::*;
use crate::sort::{Block, Sort};
use crate::survey::Survey;

fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Region {
    Region {
        pieces: vec![Piece {
            outer: vec![
                Point::new(x0, y0),
                Point::new(x1, y0),
                Point::new(x1, y1),
                Point::new(x0, y1),
            ],
            counters: Vec::new(),
        }],
    }
}

/// A sort of 10 × 20 mm whose face, as cut, stands at the left: as read, at the right.
fn sort(baseline_mm: f64, body_mm: f64) -> Sort {
    Sort {
        name: "l".into(),
        text: "l".into(),
        count: 1,
        source: None,
        block: Block {
            outline: vec![
                Point::new(0.0, 0.0),
                Point::new(10.0, 0.0),
                Point::new(10.0, body_mm),
                Point::new(0.0, body_mm),
            ],
            body_mm,
            set_mm: 10.0,
            baseline_mm,
            extended_pt: [0.0, 0.0],
            plain: false,
        },
        outline: BezPath::new(),
        face: rectangle(1.0, 5.0, 3.0, 15.0),
    }
}

fn survey() -> Survey {
    Survey {
        unreached: rectangle(3.0, 5.0, 3.5, 6.0),
        ..Survey::default()
    }
}

const INKS: Inks = Inks {
    ink: Colour::new(20, 20, 30),
    paper: Colour::new(250, 245, 230),
    edges: None,
};

#[test]
fn reads_the_right_way_round_and_prints_what_no_cutter_reaches() {
    let print = impression(&sort(5.0, 20.0), &survey());
    assert!((print.inked.area() - 20.5).abs() < 1e-6);
    assert!(print.inked.contains(Point::new(8.0, 10.0)));
    assert!(print.inked.contains(Point::new(6.7, 5.5)));
    assert!(!print.inked.contains(Point::new(2.0, 10.0)));
}

#[test]
fn a_space_prints_nothing() {
    let mut space = sort(5.0, 20.0);
    space.block.plain = true;
    space.face = Region::default();
    assert!(impression(&space, &survey()).inked.pieces.is_empty());
}

#[test]
fn lines_break_at_the_measure_and_share_a_base_line() {
    let prints = [
        impression(&sort(5.0, 20.0), &survey()),
        impression(&sort(9.0, 24.0), &survey()),
    ];
    let set = set_lines(&prints, &[0, 1, 0], 25.0, 2.0);
    assert_eq!(set.blocks.len(), 3);
    assert_eq!(set.width_mm, 24.0);
    // First line 15 above and 9 below the base line, second line 15 and 5, margins of 2.
    assert_eq!(set.height_mm, 48.0);
    let base = |index: usize| {
        let block = set.blocks[index];
        block.at.y + prints[block.impression].baseline_mm
    };
    assert_eq!(base(0), base(1));
    assert_eq!(base(0), 31.0);
    assert_eq!(set.blocks[1].at.x, 12.0);
    assert_eq!(set.blocks[2].at, Point::new(2.0, 2.0));
}

#[test]
fn pictures_are_true_to_size_and_inked_in_the_right_place() {
    let prints = [impression(&sort(5.0, 20.0), &survey())];
    let set = set_lines(&prints, &[0], 100.0, 1.0);
    let svg = to_svg(&prints, &set, INKS);
    assert!(svg.contains("width=\"12.000mm\" height=\"22.000mm\""));
    assert!(svg.contains("fill=\"#14141e\""));
    // 254 dots an inch are 10 dots a millimetre.
    let png = to_png(&prints, &set, INKS, 254).expect("a small picture is drawn");
    let mut reader = png::Decoder::new(std::io::Cursor::new(png))
        .read_info()
        .expect("the picture is PNG");
    let dims = reader.info().pixel_dims.expect("the size is recorded");
    assert_eq!((dims.xppu, dims.yppu), (10_000, 10_000));
    assert_eq!((reader.info().width, reader.info().height), (120, 220));
    let mut dots = vec![0; 120 * 220 * 3];
    reader.next_frame(&mut dots).expect("the picture reads");
    let dot = |x: usize, y: usize| {
        let at = (y * 120 + x) * 3;
        [dots[at], dots[at + 1], dots[at + 2]]
    };
    // The stroke reads at x 7 to 9 mm of the block; 1 mm of margin; y counts from the top.
    assert_eq!(dot(90, 110), [20, 20, 30]);
    assert_eq!(dot(30, 110), [250, 245, 230]);
    assert_eq!(dot(78, 155), [20, 20, 30]);
}

#[test]
fn pictures_too_large_or_empty_are_refused() {
    let prints = [impression(&sort(5.0, 20.0), &survey())];
    let set = set_lines(&prints, &[0], 100.0, 1.0);
    assert!(matches!(
        to_png(&prints, &set, INKS, 1_000_000),
        Err(DrawingError::Size { .. })
    ));
    assert!(to_png(&prints, &set_lines(&prints, &[], 10.0, 0.0), INKS, 300).is_err());
}

#[test]
fn colours_are_read() {
    assert_eq!("#14141E".parse(), Ok(Colour::new(20, 20, 30)));
    for bad in ["", "14141e", "#14141", "#14141g", "#+4141e", "#é4141"] {
        assert!(bad.parse::<Colour>().is_err(), "{bad}");
    }
}
