//! The inked proof of a real job as PNG, SVG and PDF, read back with other libraries: true size, area, place, the right way round.
//!
//! # Source
//! ISO 32000-1:2008 for the operators of a page (8.5, "Path construction and painting"), read with the library `lopdf`; SVG path data
//! read with `kurbo`; PNG with `tiny-skia`.

use std::sync::{Arc, LazyLock};

use cam_core::make::{Job, make};
use cam_core::progress::Progress;
use cam_core::proof::impression::{
    Align, Colour, Fount, Setting, Sheet, compose, to_pdf, to_png, to_svg,
};
use cam_core::workshop::Workshop;
use geometry::boolean::{symmetric_difference, union};
use geometry::region::Region;
use kurbo::{Affine, BezPath, Point, Rect, Shape};
use lopdf::{Dictionary, Document, Object};
use sortwright::background::picture::{Look, printed};
use testkit::fonts::text_font;
use testkit::orders::of_text;

/// How far a page or a path may be from its true size, mm.
const TRUE_MM: f64 = 0.01;

/// Points of a page to a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

static JOB: LazyLock<(Job, Arc<Fount>)> = LazyLock::new(|| {
    let (commission, fonts) = of_text(text_font("hack"), 5.0, "FO");
    let progress = Progress::new();
    let job = make(&commission, &Workshop::starting(), &fonts, &progress).expect("it is made");
    let fount = printed(&job, &progress).expect("it is printed");
    (job, fount)
});

fn sheet(text: &str, align: Align) -> Sheet {
    let setting = Setting {
        text: text.to_owned(),
        align,
        leads_mm: 2.0,
        ..Setting::default()
    };
    let look = Look {
        setting,
        ..Look::default()
    };
    look.sheet(&JOB.1)
}

/// The area that the sheet's sorts print, mm².
fn area(sheet: &Sheet) -> f64 {
    let sorts = sheet.layers[0].sorts();
    sorts.map(|(_, one, _)| one.inked.area()).sum()
}

/// The box of what is printed, y up from the lower edge.
fn bounds(sheet: &Sheet) -> Rect {
    let boxes = sheet.layers[0]
        .sorts()
        .filter_map(|(_, one, at)| Some(one.inked.bounding_box()? + at.to_vec2()));
    boxes
        .reduce(|a, b| a.union(b))
        .expect("something is printed")
}

fn check_near(what: &str, found: f64, wanted: f64, most: f64) {
    assert!(
        (found - wanted).abs() <= most,
        "{what}: {found} in place of {wanted}"
    );
}

fn check_box(found: Rect, wanted: Rect) {
    for (what, found, wanted) in [
        ("left", found.x0, wanted.x0),
        ("foot", found.y0, wanted.y0),
        ("right", found.x1, wanted.x1),
        ("head", found.y1, wanted.y1),
    ] {
        check_near(what, found, wanted, TRUE_MM);
    }
}

/// A filled path of a page: its colour, and itself in mm from the lower-left corner.
struct Filled {
    colour: Vec<f64>,
    path: BezPath,
}

fn numbers(operands: &[Object]) -> Vec<f64> {
    let numbers = operands
        .iter()
        .filter_map(|operand| operand.as_float().ok());
    numbers.map(f64::from).collect()
}

/// The one page of a PDF: its size in mm, and what is filled on it.
fn page(pdf: &[u8]) -> ([f64; 2], Vec<Filled>) {
    let document = Document::load_mem(pdf).expect("it is a PDF");
    let pages = document.get_pages();
    assert_eq!(pages.len(), 1);
    let id = *pages.values().next().expect("a page");
    let size = document
        .get_dictionary(id)
        .expect("a page")
        .get(b"MediaBox")
        .expect("a size");
    let size = numbers(size.as_array().expect("four numbers"));
    assert_eq!(size[..2], [0.0, 0.0]);
    let content = document
        .get_and_decode_page_content(id)
        .expect("it is drawn");
    let mm = Affine::scale(1.0 / POINTS_PER_MM);
    let (mut kept, mut current) = (Vec::new(), Affine::IDENTITY);
    let (mut colour, mut path, mut filled) = (Vec::new(), BezPath::new(), Vec::new());
    for operation in content.operations {
        let operands = numbers(&operation.operands);
        let place = |at: usize| mm * current * Point::new(operands[at], operands[at + 1]);
        match operation.operator.as_str() {
            "q" => kept.push(current),
            "Q" => current = kept.pop().expect("as many saved as restored"),
            "cm" => current *= Affine::new(operands[..6].try_into().expect("six numbers")),
            "sc" | "scn" | "rg" | "g" => colour = operands,
            "m" => path.move_to(place(0)),
            "l" => path.line_to(place(0)),
            "h" => path.close_path(),
            "re" => {
                let corners = [
                    [0.0, 0.0],
                    [operands[2], 0.0],
                    [operands[2], operands[3]],
                    [0.0, operands[3]],
                ];
                let corners = corners
                    .map(|[x, y]| mm * current * Point::new(operands[0] + x, operands[1] + y));
                path.move_to(corners[0]);
                corners[1..].iter().for_each(|corner| path.line_to(*corner));
                path.close_path();
            }
            "f" | "F" => filled.push(Filled {
                colour: colour.clone(),
                path: std::mem::take(&mut path),
            }),
            "gs" | "cs" | "n" => {}
            other => panic!("nothing else is expected on this page: {other}"),
        }
    }
    let size = [size[2] / POINTS_PER_MM, size[3] / POINTS_PER_MM];
    (size, filled)
}

#[test]
fn the_print_is_what_the_job_promises() {
    let (job, fount) = &*JOB;
    assert!(!job.is_stopped(), "{:?}", job.findings);
    for (sort, survey) in job.sorts.iter().zip(&job.surveys) {
        let one = fount
            .impressions
            .iter()
            .find(|one| one.name == sort.name)
            .expect("it is printed");
        assert!((one.set_mm - sort.block.set_mm).abs() < 1e-6);
        let baseline = one.baseline_mm.expect("a letter");
        assert!((baseline - sort.block.baseline_mm).abs() < 1e-6);
        let standing = union(&sort.face, &survey.unreached);
        let reading_from_face =
            Affine::translate((one.set_mm, 0.0)) * Affine::new([-1.0, 0.0, 0.0, 1.0, 0.0, 0.0]);
        let standing = mirrored(&standing, reading_from_face);
        let walls: f64 = standing.rings().map(|ring| length(ring)).sum();
        let apart = symmetric_difference(&one.inked, &standing).area();
        // Walls stand up to the tolerance outside the drawn ones.
        assert!(
            apart <= 0.01 * walls,
            "{}: {apart} mm² along {walls} mm",
            one.name
        );
    }
}

fn length(ring: &[Point]) -> f64 {
    let next = ring.iter().cycle().skip(1);
    ring.iter().zip(next).map(|(a, b)| a.distance(*b)).sum()
}

fn mirrored(region: &Region, transform: Affine) -> Region {
    let mut region = region.clone();
    for piece in &mut region.pieces {
        for ring in std::iter::once(&mut piece.outer).chain(&mut piece.counters) {
            ring.reverse();
            ring.iter_mut()
                .for_each(|point| *point = transform * *point);
        }
    }
    region
}

#[test]
fn a_page_is_true_to_size_and_holds_what_is_cut() {
    let sheet = sheet("FOF\nF", Align::Right);
    let sets = &sheet.layers[0].lines_mm;
    let of = |name: &str| {
        JOB.1
            .impressions
            .iter()
            .find(|one| one.name == name)
            .expect("it is there")
            .set_mm
    };
    check_near("sets", sets[0], 2.0 * of("F") + of("O"), 1e-9);
    let ([width, height], filled) = page(&to_pdf(&sheet).expect("it is drawn"));
    check_near("width", width, sheet.width_mm, TRUE_MM);
    check_near("height", height, sheet.height_mm, TRUE_MM);
    let [paper, ink] = &filled[..] else {
        panic!(
            "paper and ink are filled, and nothing else: {}",
            filled.len()
        );
    };
    check_box(
        paper.path.bounding_box(),
        Rect::new(0.0, 0.0, sheet.width_mm, sheet.height_mm),
    );
    assert_ne!(paper.colour, ink.colour);
    check_box(ink.path.bounding_box(), bounds(&sheet));
    check_near(
        "ink on the page",
        ink.path.area().abs(),
        area(&sheet),
        1e-4 * area(&sheet),
    );
}

#[test]
fn all_three_kinds_print_the_same_area() {
    let sheet = sheet("FO", Align::Left);
    let svg = to_svg(&sheet);
    let data = svg
        .split(" d=\"")
        .nth(1)
        .and_then(|rest| rest.split('"').next())
        .expect("a path");
    let path = BezPath::from_svg(data).expect("path data");
    check_near(
        "ink in the SVG",
        path.area().abs(),
        area(&sheet),
        1e-4 * area(&sheet),
    );
    let up = Affine::new([1.0, 0.0, 0.0, -1.0, 0.0, sheet.height_mm]);
    check_box((up * path).bounding_box(), bounds(&sheet));
    let per_inch = 600;
    let png = to_png(&sheet, per_inch).expect("it is drawn");
    let picture = tiny_skia::Pixmap::decode_png(&png).expect("it is PNG");
    let (paper, ink) = (
        f64::from(sheet.paper.green),
        f64::from(sheet.layers[0].ink.green),
    );
    let dots: f64 = picture
        .pixels()
        .iter()
        .map(|dot| (paper - f64::from(dot.green())) / (paper - ink))
        .sum();
    let dot = (25.4 / f64::from(per_inch)).powi(2);
    check_near(
        "ink in the PNG",
        dots * dot,
        area(&sheet),
        2e-3 * area(&sheet),
    );
    // The width is rounded up to whole dots.
    let width = f64::from(picture.width()) * 25.4 / f64::from(per_inch);
    assert!((0.0..0.05).contains(&(width - sheet.width_mm)), "{width}");
}

#[test]
fn an_f_reads_the_right_way_round() {
    let (_, filled) = page(&to_pdf(&sheet("F", Align::Left)).expect("it is drawn"));
    let ink = &filled[1].path;
    let letter = ink.bounding_box();
    let inked = |x: f64, y: f64| {
        let at = Point::new(
            letter.x0 + x * letter.width(),
            letter.y0 + y * letter.height(),
        );
        ink.winding(at) != 0
    };
    // The stem stands at the left, the arms reach to the right, and there is none at the foot.
    assert!(inked(0.08, 0.1) && inked(0.08, 0.5) && inked(0.9, 0.95));
    assert!(!inked(0.9, 0.1) && !inked(0.9, 0.25));
}

#[test]
fn inks_over_one_another_multiply_in_a_group_of_their_own() {
    let look = Look::default();
    let founts = [
        (Arc::clone(&JOB.1), look.ink),
        (Arc::clone(&JOB.1), Colour::new(196, 43, 31)),
    ];
    let sheet = compose(&founts, &look.setting, look.paper, false);
    let document = Document::load_mem(&to_pdf(&sheet).expect("it is drawn")).expect("it is a PDF");
    let dictionaries: Vec<&Dictionary> = document
        .objects
        .values()
        .filter_map(|object| match object {
            Object::Stream(stream) => Some(&stream.dict),
            other => other.as_dict().ok(),
        })
        .collect();
    let is = |dictionary: &Dictionary, key: &[u8], name: &[u8]| {
        dictionary
            .get(key)
            .and_then(Object::as_name)
            .is_ok_and(|found| found == name)
    };
    assert!(
        dictionaries
            .iter()
            .any(|dictionary| is(dictionary, b"BM", b"Multiply"))
    );
    let groups = dictionaries
        .iter()
        .filter_map(|dictionary| dictionary.get(b"Group").ok()?.as_dict().ok());
    let mut isolated = groups.filter(|group| {
        is(group, b"S", b"Transparency")
            && group
                .get(b"I")
                .is_ok_and(|alone| matches!(alone, Object::Boolean(true)))
    });
    assert!(isolated.next().is_some(), "the paper is not multiplied");
}
