//! The papers of real jobs read back with a library that did not write them: pages, words, fonts, drawings to scale, embedding bits.
//!
//! # Source
//! ISO 32000-1:2008 for the parts of a PDF (7.7.3 pages, 9.6 to 9.8 fonts, 8.5 paths), read with the library `lopdf`. ISO 216:2007 for A4;
//! letter is 8½ × 11 inches (common practice, no source). OpenType specification, table `OS/2`, fsType, for the embedding bits.

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use cam_core::commission::{Commission, Permission, SpaceLine};
use cam_core::make::{Fonts, Job, make};
use cam_core::measure::{Length, System};
use cam_core::progress::Progress;
use cam_core::workshop::{PageSize, Workshop};
use kurbo::{Affine, BezPath, Point, Rect, Shape};
use lopdf::{Dictionary, Document, Object, ObjectId};
use testkit::fonts::text_font;
use testkit::orders::of_text;

/// Points of a page to a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// How far a page or a drawing may be from its true size, mm.
const TRUE_MM: f64 = 0.01;

const TITLE: &str = "Ferry notice, summer timetable";

fn order() -> (Commission, Fonts) {
    let (mut commission, fonts) = of_text(text_font("hack"), 5.0, "FÉ");
    commission.title = TITLE.to_owned();
    commission.reference = "Slipway House".to_owned();
    commission.spaces = vec![SpaceLine {
        set: Length::pica_points(12.0),
        count: 3,
    }];
    (commission, fonts)
}

fn made(commission: &Commission, fonts: &Fonts, workshop: &Workshop) -> Job {
    let job = make(commission, workshop, fonts, &Progress::new()).expect("it is made");
    assert!(!job.is_stopped(), "{:?}", job.findings);
    job
}

static JOB: LazyLock<Job> = LazyLock::new(|| {
    let (commission, fonts) = order();
    made(&commission, &fonts, &Workshop::starting())
});

/// The bytes of a paper.
fn paper<'a>(job: &'a Job, path: &str) -> &'a [u8] {
    let file = job.papers.iter().find(|file| file.path == path);
    let paths: Vec<&str> = job.papers.iter().map(|file| file.path.as_str()).collect();
    &file
        .unwrap_or_else(|| panic!("no {path} in {paths:?}"))
        .bytes
}

/// All papers that are pages, by their paths.
fn documents(job: &Job) -> BTreeMap<&str, Document> {
    job.papers
        .iter()
        .filter(|file| file.path.ends_with(".pdf"))
        .map(|file| {
            let document = Document::load_mem(&file.bytes);
            (
                file.path.as_str(),
                document.unwrap_or_else(|error| panic!("{}: {error}", file.path)),
            )
        })
        .collect()
}

/// The words of each page, without anything between them.
fn words(document: &Document) -> Vec<String> {
    let pages = document.get_pages();
    let texts = pages.keys().map(|&number| {
        let text = document.extract_text(&[number]).expect("it has words");
        text.split_whitespace().collect()
    });
    texts.collect()
}

fn close_up(text: &str) -> String {
    text.split_whitespace().collect()
}

fn numbers(operands: &[Object]) -> Vec<f64> {
    let numbers = operands
        .iter()
        .filter_map(|operand| operand.as_float().ok());
    numbers.map(f64::from).collect()
}

/// Size of a page, mm.
fn size(document: &Document, page: ObjectId) -> [f64; 2] {
    let dictionary = document.get_dictionary(page).expect("a page");
    let found = dictionary.get(b"MediaBox").expect("a size");
    let found = numbers(found.as_array().expect("four numbers"));
    assert_eq!(found[..2], [0.0, 0.0]);
    [found[2] / POINTS_PER_MM, found[3] / POINTS_PER_MM]
}

/// What stands on a page: its filled paths, and where its lines of words begin, in mm from the lower-left corner.
#[derive(Default)]
struct Drawn {
    filled: Vec<BezPath>,
    words: Vec<Point>,
}

fn drawn(document: &Document, page: ObjectId) -> Drawn {
    let content = document.get_and_decode_page_content(page);
    let mm = Affine::scale(1.0 / POINTS_PER_MM);
    let (mut kept, mut current) = (Vec::new(), Affine::IDENTITY);
    let (mut path, mut found) = (BezPath::new(), Drawn::default());
    for operation in content.expect("it is drawn").operations {
        let operands = numbers(&operation.operands);
        let six = || Affine::new(operands[..6].try_into().expect("six numbers"));
        let place = |at: usize| mm * current * Point::new(operands[at], operands[at + 1]);
        match operation.operator.as_str() {
            "q" => kept.push(current),
            "Q" => current = kept.pop().expect("as many saved as restored"),
            "cm" => current *= six(),
            "Tm" => found.words.push(mm * current * six() * Point::ZERO),
            "m" => path.move_to(place(0)),
            "l" => path.line_to(place(0)),
            "c" => path.curve_to(place(0), place(2), place(4)),
            "h" => path.close_path(),
            "re" => {
                let [x, y, width, height] = operands[..4].try_into().expect("four numbers");
                let corners = [
                    (x, y),
                    (x + width, y),
                    (x + width, y + height),
                    (x, y + height),
                ]
                .map(|corner| mm * current * Point::from(corner));
                path.move_to(corners[0]);
                corners[1..].iter().for_each(|corner| path.line_to(*corner));
                path.close_path();
            }
            "f" | "F" | "f*" => found.filled.push(std::mem::take(&mut path)),
            "S" | "s" | "n" => path = BezPath::new(),
            _ => {}
        }
    }
    found
}

#[test]
fn every_job_has_all_papers_and_says_on_each_page_which_it_is() {
    let documents = documents(&JOB);
    for name in [
        "quote",
        "costing",
        "licence-record",
        "setup-sheet",
        "cutting-list",
        "handwork",
        "measuring-sheet",
        "packing-list",
        "specimen",
    ] {
        let path = format!("papers/{name}.pdf");
        let document = documents.get(path.as_str());
        let pages = words(document.unwrap_or_else(|| panic!("no {path}")));
        assert!(!pages.is_empty(), "{path} has no page");
        for (number, page) in (1..).zip(&pages) {
            let which = format!("page{number}of{}", pages.len());
            assert!(page.contains(&which), "{path}: {which} in {page}");
            assert!(page.contains(&close_up(TITLE)), "{path}: {page}");
            assert!(page.contains("SlipwayHouse"), "{path}: {page}");
            assert!(
                page.contains("Permissionnotrecorded"),
                "{path}, page {number}: {page}"
            );
        }
    }
}

#[test]
fn pages_are_of_the_size_chosen_and_no_words_begin_outside_them() {
    let (commission, fonts) = order();
    let mut workshop = Workshop::starting();
    workshop.papers.page = PageSize::Letter;
    let letter = made(&commission, &fonts, &workshop);
    for (job, wanted) in [(&*JOB, [210.0, 297.0]), (&letter, [215.9, 279.4])] {
        for (path, document) in documents(job) {
            for &page in document.get_pages().values() {
                let found = size(&document, page);
                for (found, wanted) in found.iter().zip(wanted) {
                    assert!((found - wanted).abs() < TRUE_MM, "{path}: {found}");
                }
                let within = Rect::new(10.0, 5.0, wanted[0] - 10.0, wanted[1] - 5.0);
                let drawn = drawn(&document, page);
                assert!(!drawn.words.is_empty(), "{path} has no words");
                for at in drawn.words {
                    assert!(within.contains(at), "{path}: words at {at}");
                }
            }
        }
    }
}

#[test]
fn a_recorded_permission_and_a_date_are_told_and_nothing_is_told_of_a_missing_one() {
    let (mut commission, fonts) = order();
    commission.date = "1 June 2031".to_owned();
    commission.faces[0].permission = Permission {
        by: "the drawing office".to_owned(),
        on: "3 May 2031".to_owned(),
        founts: Some(2),
    };
    let job = made(&commission, &fonts, &Workshop::starting());
    for (path, document) in documents(&job) {
        for page in words(&document) {
            assert!(
                !page.to_lowercase().contains("notrecorded"),
                "{path}: {page}"
            );
            assert!(page.contains("1June2031"), "{path}: {page}");
        }
    }
    let record = words(&documents(&job)["papers/licence-record.pdf"]).concat();
    for told in ["thedrawingoffice", "3May2031", "2founts"] {
        assert!(record.contains(told), "{told} in {record}");
    }
    for (path, document) in documents(&JOB) {
        let told = words(&document).concat();
        assert!(!told.contains("June2031"), "{path} bears a date");
    }
}

/// A dictionary that a key of another one holds or refers to.
fn below<'a>(document: &'a Document, dictionary: &'a Dictionary, key: &[u8]) -> &'a Dictionary {
    let held = dictionary.get(key).expect("the key is there");
    let (_, held) = document.dereference(held).expect("it is there");
    match held {
        Object::Array(list) => {
            let (_, first) = document.dereference(&list[0]).expect("it is there");
            first.as_dict().expect("a dictionary")
        }
        other => other.as_dict().expect("a dictionary"),
    }
}

#[test]
fn every_font_used_is_embedded_with_the_characters_that_its_glyphs_stand_for() {
    for (path, document) in documents(&JOB) {
        for &page in document.get_pages().values() {
            let fonts = document.get_page_fonts(page).expect("it has fonts");
            assert!(!fonts.is_empty(), "{path}");
            for font in fonts.values() {
                assert!(font.has(b"ToUnicode"), "{path}: {font:?}");
                let descendant = below(&document, font, b"DescendantFonts");
                let descriptor = below(&document, descendant, b"FontDescriptor");
                assert!(
                    descriptor.has(b"FontFile2") || descriptor.has(b"FontFile3"),
                    "{path}: {descriptor:?}"
                );
            }
        }
    }
}

/// The specimen shows the letter as drawn, true to size and the right way round.
#[test]
fn the_specimen_is_true_to_size_and_right_reading() {
    let document = &documents(&JOB)["papers/specimen.pdf"];
    let page = *document.get_pages().values().next().expect("a page");
    let sort = JOB
        .sorts
        .iter()
        .find(|sort| sort.name == "F")
        .expect("it is there");
    let wanted = sort.outline.bounding_box();
    let filled = drawn(document, page).filled;
    let letter = filled
        .iter()
        .find(|path| {
            let found = path.bounding_box();
            (found.width() - wanted.width()).abs() < TRUE_MM
                && (found.height() - wanted.height()).abs() < TRUE_MM
        })
        .expect("an F of its true size is shown");
    assert!((letter.area().abs() - sort.outline.area().abs()).abs() < 0.05);
    let found = letter.bounding_box();
    let inked = |x: f64, y: f64| {
        let at = Point::new(found.x0 + x * found.width(), found.y0 + y * found.height());
        letter.winding(at) != 0
    };
    assert!(inked(0.08, 0.1) && inked(0.08, 0.5) && inked(0.9, 0.95));
    assert!(!inked(0.9, 0.1) && !inked(0.9, 0.25));
}

/// The scale stands below the picture, and the plank is drawn at it.
#[test]
fn the_setup_sheet_shows_the_plank_to_scale_with_its_programs() {
    let document = &documents(&JOB)["papers/setup-sheet.pdf"];
    let plank = &JOB.planks[0];
    let mut seen = false;
    for (&number, &page) in &document.get_pages() {
        let text = document.extract_text(&[number]).expect("it has words");
        let text = close_up(&text);
        let Some((_, after)) = text.split_once("printingfaceup,1:") else {
            continue;
        };
        let scale: String = after
            .chars()
            .take_while(|c| c.is_ascii_digit() || *c == '.')
            .collect();
        let one_to: f64 = scale.trim_end_matches('.').parse().expect("a number");
        let shown = drawn(document, page).filled.iter().any(|path| {
            let found = path.bounding_box();
            (found.width() * one_to - plank.width_mm).abs() < TRUE_MM * one_to
                && (found.height() * one_to - plank.length_mm).abs() < TRUE_MM * one_to
        });
        assert!(shown, "no plank at 1 to {one_to}");
        for program in &JOB.programs {
            assert!(text.contains(&program.file), "{} in {text}", program.file);
        }
        let workshop = Workshop::starting();
        for program in &JOB.programs {
            let cutter = workshop
                .cutter(&program.parts[0].cutter)
                .expect("it is owned");
            let stands_out = cutter.stick_out.in_mm().to_string();
            assert!(text.contains(&stands_out), "{stands_out} in {text}");
        }
        seen = true;
    }
    assert!(seen, "no page shows the plank");
}

/// Didot points where the workshop asks for them: a cicero of 12 points is 4.51278 mm, a pica 4.2175 (see `measures.rs`).
#[test]
fn measures_are_those_of_the_system_chosen() {
    let (mut commission, fonts) = order();
    commission.bill.clear();
    let told = |system: Option<System>| {
        let mut workshop = Workshop::starting();
        workshop.papers.measure = system;
        let job = made(&commission, &fonts, &workshop);
        words(&documents(&job)["papers/measuring-sheet.pdf"]).concat()
    };
    // A body of 5 lines in pica points: 60; the same in Didot points: 60 × 0.3514598 / 0.376065 = 56.07.
    for (system, wanted) in [
        (None, ["60pt", "pica),0.3515mm"]),
        (Some(System::Didot), ["56.07pt", "Didot,0.3761mm"]),
    ] {
        let told = told(system);
        assert!(wanted.iter().all(|wanted| told.contains(wanted)), "{told}");
    }
}

/// A font with other embedding bits: fsType stands at byte 8 of table `OS/2`.
fn with_bits(font: &[u8], bits: u16) -> Vec<u8> {
    let mut bytes = font.to_vec();
    let tables = usize::from(u16::from_be_bytes([font[4], font[5]]));
    let record = (0..tables)
        .map(|table| 12 + 16 * table)
        .find(|&at| &font[at..at + 4] == b"OS/2")
        .expect("the font has the table");
    let offset: [u8; 4] = font[record + 8..record + 12]
        .try_into()
        .expect("four bytes");
    let at = u32::from_be_bytes(offset) as usize + 8;
    bytes[at..at + 2].copy_from_slice(&bits.to_be_bytes());
    bytes
}

#[test]
fn the_licence_record_says_what_the_embedding_bits_mean_and_that_they_are_no_permission() {
    let (mut commission, fonts) = order();
    commission.bill.clear();
    for (bits, told) in [
        (0x0000, "installable"),
        (0x0002, "restrictedlicence"),
        (0x0004, "previewandprint"),
        (0x0008, "editable"),
        (0x0104, "previewandprintembedding,nosubsetting"),
        (0x0208, "editableembedding,bitmapsonly"),
        (0x0001, "reserves(0x0001)"),
        (0x000C, "Severalembeddingrights"),
    ] {
        let font: Arc<[u8]> = with_bits(&fonts["main"], bits).into();
        commission.faces[0].sha256.clear();
        let fonts = Fonts::from([("main".to_owned(), font)]);
        let job = made(&commission, &fonts, &Workshop::starting());
        let text = String::from_utf8(paper(&job, "papers/licence-record.txt").to_vec());
        let pages = words(&documents(&job)["papers/licence-record.pdf"]).concat();
        for record in [close_up(&text.expect("it is text")), pages] {
            assert!(record.contains(&format!("fsType0x{bits:04X}")), "{record}");
            assert!(record.contains(told), "{told} in {record}");
            assert!(record.contains("neithergrantnorforbidmakingtype"));
            assert!(record.contains("Permissionnotrecorded"));
        }
    }
}
