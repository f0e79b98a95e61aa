//! Tests of impressions: what stands, the mirror, lines, and pictures.

use std::sync::Arc;

use geometry::boolean::difference;
use geometry::region::{Piece as Part, Region, region_from_outline};
use kurbo::{Affine, BezPath, Point, Shape};

use super::super::tests::workpiece::Workpiece;
use super::*;
use crate::progress::Progress;

mod lines;

fn printed(piece: &Workpiece) -> Fount {
    fount(&piece.job, &piece.programs, &Progress::new()).expect("the programs read")
}

/// The drawn letter of the job written by hand, as read, from its block's corner.
fn drawn(piece: &Workpiece) -> Region {
    let path = BezPath::from_svg(&piece.job.outlines[0].path).expect("an outline");
    let reading_from_em = Affine::translate((3.0, 3.0)) * Affine::scale(0.01);
    region_from_outline(&(reading_from_em * path), 0.0005).expect("a letter")
}

#[test]
fn the_print_is_the_letter_as_the_programs_cut_it() {
    let piece = Workpiece::sound();
    let fount = printed(&piece);
    let [letter, space] = &fount.impressions[..] else {
        panic!("a letter and a space");
    };
    assert_eq!(
        (letter.name.as_str(), letter.text.as_str(), letter.copies),
        ("O", "O", 1)
    );
    assert_eq!(
        (letter.set_mm, letter.body_mm, letter.baseline_mm),
        (14.0, 14.0, Some(3.0))
    );
    assert_eq!((space.set_mm, space.baseline_mm), (6.0, None));
    assert!(space.inked.is_empty());
    let drawn = drawn(&piece);
    assert!(
        difference(&drawn, &letter.inked).area() < 1e-3,
        "nothing of the letter is lost"
    );
    // The walls stand 0.003 mm outside the drawn ones, about a square of 8 mm and in a counter of 2.5 mm.
    let more = difference(&letter.inked, &drawn).area();
    let walls = 0.003 * (32.0 + std::f64::consts::TAU * 2.5);
    assert!((more - walls).abs() < 0.02, "{more} in place of {walls}");
}

#[test]
fn a_cut_into_the_letter_shows_mirrored_and_uncut_ground_prints() {
    let mut piece = Workpiece::sound();
    // Straight down, 4 mm right of the block's left edge and 4 mm above its foot, as seen on the plank.
    piece.spoil("blocks.ngc", |text| {
        text.replace("M5\n", "G0 X9. Y9.\nG1 Z-.5 F200\nG0 Z4.\nM5\n")
    });
    let hole = &printed(&piece).impressions[0].inked;
    assert!(
        !hole.contains(Point::new(10.0, 4.0)),
        "the print is the mirror of the plank"
    );
    assert!(hole.contains(Point::new(4.0, 4.0)));
    let mut piece = Workpiece::sound();
    piece.spoil("faces.ngc", |text| {
        text.replace("G1 Z-1.000", "G1 Z1.000")
            .replace("G1 Z-2.000", "G1 Z1.000")
    });
    piece.spoil("blocks.ngc", |text| text.replace("G1 Z-", "G1 Z"));
    let block = printed(&piece).impressions[0].inked.area();
    assert!((block - 14.0 * 14.0).abs() < 1e-6, "{block}");
}

#[test]
fn copies_that_differ_by_rounding_alone_are_of_one_sort() {
    let mut piece = Workpiece::sound();
    let mut copy = piece.job.sorts[0].clone();
    copy.id = "O-2".into();
    copy.block_mm[1][0] += 4e-6;
    piece.job.sorts[0].block_mm[1][0] += 5.0001e-6;
    piece.job.sorts.push(copy);
    let copies: Vec<u32> = printed(&piece)
        .impressions
        .iter()
        .map(|one| one.copies)
        .collect();
    assert_eq!(copies, [2, 1]);
    piece.job.sorts[2].block_mm[1][0] += 0.5;
    assert_eq!(printed(&piece).impressions.len(), 3);
}

#[test]
fn what_cannot_be_read_is_not_printed() {
    let mut piece = Workpiece::sound();
    piece.programs.remove("blocks.ngc");
    let print = |piece: &Workpiece| fount(&piece.job, &piece.programs, &Progress::new());
    assert_eq!(
        print(&piece),
        Err(ImpressionError::Missing("blocks.ngc".into()))
    );
    piece.programs.insert("blocks.ngc".into(), "G1 X1\n".into());
    assert!(matches!(print(&piece), Err(ImpressionError::Unread { .. })));
    let mut piece = Workpiece::sound();
    piece.job.sorts[0].plank = "other".into();
    assert_eq!(print(&piece), Err(ImpressionError::NoPlank("O-1".into())));
    let stopped = Progress::new();
    stopped.stop();
    let piece = Workpiece::sound();
    assert!(matches!(
        fount(&piece.job, &piece.programs, &stopped),
        Err(ImpressionError::Stopped(_))
    ));
}

/// An impression without programs: a bar of 2 × 10 mm that stands 1 mm from the right edge, on the base line.
fn bar(name: &str, set_mm: f64, body_mm: f64, baseline_mm: f64) -> Impression {
    let rectangle = |x0: f64, y0: f64, x1: f64, y1: f64| {
        vec![
            Point::new(x0, y0),
            Point::new(x1, y0),
            Point::new(x1, y1),
            Point::new(x0, y1),
        ]
    };
    Impression {
        name: name.into(),
        text: name.into(),
        plate: None,
        letter: name.into(),
        copies: 2,
        set_mm,
        body_mm,
        baseline_mm: Some(baseline_mm),
        block: rectangle(0.0, 0.0, set_mm, body_mm),
        inked: Region {
            pieces: vec![Part {
                outer: rectangle(set_mm - 3.0, baseline_mm, set_mm - 1.0, baseline_mm + 10.0),
                counters: Vec::new(),
            }],
        },
        part: None,
    }
}

fn space(set_mm: f64) -> Impression {
    Impression {
        name: format!("space {set_mm}"),
        letter: format!("space {set_mm}"),
        text: String::new(),
        baseline_mm: None,
        inked: Region::default(),
        ..bar("", set_mm, 20.0, 5.0)
    }
}

fn in_one_colour(impressions: Vec<Impression>) -> Arc<Fount> {
    Arc::new(Fount {
        impressions,
        plates: Vec::new(),
    })
}

const BLACK: Colour = Colour::new(20, 20, 30);
const CREAM: Colour = Colour::new(250, 245, 230);

fn sheet(impressions: Vec<Impression>, setting: &Setting, blocks: bool) -> Sheet {
    compose(
        &[(in_one_colour(impressions), BLACK)],
        setting,
        CREAM,
        blocks,
    )
}

fn text(text: &str) -> Setting {
    Setting {
        text: text.into(),
        ..Setting::default()
    }
}

/// A picture's dots.
struct Dots {
    across: usize,
    bytes: Vec<u8>,
}

impl Dots {
    fn of(png: &[u8], per_metre: u32) -> Dots {
        let mut reader = png::Decoder::new(std::io::Cursor::new(png))
            .read_info()
            .expect("it is PNG");
        let dims = reader.info().pixel_dims.expect("the size is recorded");
        assert_eq!((dims.xppu, dims.yppu), (per_metre, per_metre));
        let across = reader.info().width as usize;
        let mut bytes = vec![0; across * reader.info().height as usize * 3];
        reader.next_frame(&mut bytes).expect("the picture reads");
        Dots { across, bytes }
    }

    fn at(&self, x: usize, y: usize) -> Colour {
        let at = (y * self.across + x) * 3;
        Colour::new(self.bytes[at], self.bytes[at + 1], self.bytes[at + 2])
    }
}

#[test]
fn pictures_are_true_to_size_and_inked_in_the_right_place() {
    let sheet = sheet(vec![bar("l", 10.0, 20.0, 5.0)], &text("l"), false);
    assert_eq!((sheet.width_mm, sheet.height_mm), (26.0, 36.0));
    let svg = to_svg(&sheet);
    assert!(svg.contains("width=\"26.000mm\" height=\"36.000mm\""));
    assert!(svg.contains("fill=\"#14141e\""));
    let data = svg
        .split(" d=\"")
        .nth(1)
        .and_then(|rest| rest.split('"').next())
        .expect("a path");
    let path = BezPath::from_svg(data).expect("path data");
    assert!((path.area().abs() - 20.0).abs() < 1e-6);
    assert_eq!(
        path.bounding_box(),
        kurbo::Rect::new(15.0, 13.0, 17.0, 23.0)
    );
    // 254 dots an inch are 10 dots a millimetre.
    let dots = Dots::of(
        &to_png(&sheet, 254).expect("a small picture is drawn"),
        10_000,
    );
    assert_eq!((dots.across, dots.bytes.len()), (260, 260 * 360 * 3));
    assert_eq!(dots.at(160, 180), BLACK);
    assert_eq!(dots.at(100, 180), CREAM);
    let inked = dots.bytes.chunks(3).filter(|dot| dot[0] == 20).count();
    assert_eq!(inked, 20 * 100);
    let pdf = to_pdf(&sheet).expect("a small page is drawn");
    assert!(
        pdf.starts_with(b"%PDF-") && pdf == to_pdf(&sheet).expect("again"),
        "the same bytes each time"
    );
}

#[test]
fn inks_multiply_where_they_overlap_and_keep_their_colour_elsewhere() {
    let (red, blue) = (Colour::new(200, 40, 40), Colour::new(40, 80, 200));
    let founts = [
        (in_one_colour(vec![bar("l", 10.0, 20.0, 5.0)]), red),
        (in_one_colour(vec![bar("l", 11.0, 20.0, 5.0)]), blue),
    ];
    let sheet = compose(&founts, &text("l"), CREAM, true);
    let dots = Dots::of(&to_png(&sheet, 254).expect("drawn"), 10_000);
    // Margins of 8; the first bar lies from 15 to 17, the second from 16 to 18.
    assert_eq!(dots.at(155, 180), red);
    assert_eq!(dots.at(175, 180), blue);
    assert_eq!(dots.at(120, 180), CREAM);
    let over = dots.at(165, 180);
    let product = |a: u8, b: u8| f64::from(a) * f64::from(b) / 255.0;
    for (found, wanted) in [
        (over.red, product(200, 40)),
        (over.green, product(40, 80)),
        (over.blue, product(40, 200)),
    ] {
        assert!((f64::from(found) - wanted).abs() <= 2.0, "{over:?}");
    }
    assert!(to_svg(&sheet).contains("mix-blend-mode:multiply"));
    assert!(to_pdf(&sheet).is_ok());
    let remarks = sheet.remarks();
    assert!(
        remarks
            .iter()
            .any(|remark| remark.contains("will not register")),
        "{remarks:?}"
    );
}

#[test]
fn pictures_too_large_or_empty_are_refused() {
    let small = sheet(vec![bar("l", 10.0, 20.0, 5.0)], &text("l"), false);
    assert!(matches!(
        to_png(&small, 1_000_000),
        Err(DrawingError::Size { .. })
    ));
    let none = sheet(Vec::new(), &text("l"), true);
    assert!(to_png(&none, 300).is_err());
    assert!(matches!(to_pdf(&none), Err(DrawingError::Page { .. })));
    let wide = sheet(
        vec![bar("l", 10.0, 20.0, 5.0)],
        &text(&"l".repeat(600)),
        false,
    );
    assert!(matches!(to_pdf(&wide), Err(DrawingError::Page { .. })));
}

/// A fount of two plates: A on both, B on the second alone, and a space.
fn in_two_colours() -> Arc<Fount> {
    let on = |plate: usize, name: &str, letter: &str| Impression {
        plate: Some(plate),
        letter: letter.into(),
        text: letter.into(),
        name: name.into(),
        ..bar(letter, 10.0, 20.0, 5.0)
    };
    let plate = |name: &str, ink| InkedPlate {
        name: name.into(),
        ink,
    };
    Arc::new(Fount {
        impressions: vec![
            on(0, "A (red)", "A"),
            on(1, "A (blue)", "A"),
            on(1, "B (blue)", "B"),
            space(7.0),
        ],
        plates: vec![plate("red", CREAM), plate("blue", BLACK)],
    })
}

#[test]
fn a_fount_in_colours_is_printed_plate_by_plate_and_lines_stay_as_long() {
    let names = |layer: &Layer| -> Vec<String> {
        layer.sorts().map(|(_, one, _)| one.name.clone()).collect()
    };
    for line in ["AB A", "{A}{B} A"] {
        let sheet = compose(&[(in_two_colours(), BLACK)], &text(line), CREAM, true);
        let [red, blue] = [&sheet.layers[0], &sheet.layers[1]];
        assert_eq!((red.ink, blue.ink), (CREAM, BLACK));
        assert_eq!(names(red), ["A (red)", "space 7", "A (red)"]);
        assert_eq!(names(blue), ["A (blue)", "B (blue)", "space 7", "A (blue)"]);
        assert_eq!(red.lines_mm, blue.lines_mm);
        let at = |layer: &Layer| layer.set.iter().map(|block| block.at).collect::<Vec<_>>();
        assert_eq!(at(red), at(blue), "every block stands where its like does");
        assert!(sheet.remarks().is_empty(), "{:?}", sheet.remarks());
    }
    let every = compose(
        &[(in_two_colours(), BLACK)],
        &Setting::default(),
        CREAM,
        false,
    );
    assert_eq!(names(&every.layers[1]), ["A (blue)", "B (blue)"]);
    assert_eq!(names(&every.layers[0]), ["A (red)"]);
}
