//! Tests of the papers: what a maker must find in them, and that they hold on any number of pages.

use std::collections::BTreeMap;

use super::sheet::{Piece, Table};
use super::*;
use crate::bill::{Proportions, Scheme, from_scheme};
use crate::commission::{BillLine, Face, GlyphChoice, Permission, Separation, SpaceLine};
use crate::finding::{Severity, Subject};
use crate::job_file::{JobParts, JobProgram, JobRole, job_file};
use crate::make::{Job, Program, ProgramPart, survey_sorts};
use crate::measure::Length;
use crate::plank::lay_out;
use crate::progress::Progress;
use crate::toolpath::Toolpath;

const REGULAR: &[u8] = include_bytes!("../../../assets/fonts/Quernstow-Regular.ttf");
const INLINE: &[u8] = include_bytes!("../../../assets/fonts/Quernstow-Inline.ttf");

/// An order as it would be made, but for the programs, of which there is one for each plank.
pub(super) struct Order {
    pub commission: Commission,
    pub workshop: Workshop,
    pub fonts: Fonts,
}

fn face(id: &str, file: &str, permission: Permission) -> Face {
    Face {
        id: id.to_owned(),
        file: file.to_owned(),
        sha256: String::new(),
        index: 0,
        variations: BTreeMap::new(),
        permission,
    }
}

/// A fount of two faces with long names: so many of A, and so on.
pub(super) fn fount(many: u32, lines: f64) -> Order {
    let recorded = Permission {
        by: "the drawing office that made the face, by letter".to_owned(),
        on: "3 May 2031".to_owned(),
        founts: Some(2),
    };
    let mut commission = Commission::starting(
        "Harvest supper, winter fair and ferry timetables: two founts for the same posters, the second in the inline",
        System::Pica,
        lines,
        face("roman", "Quernstow-Regular.ttf", recorded),
    );
    commission.reference = "Orchard Press, order 14 of the new year, second part".to_owned();
    commission.customer = vec![
        "Orchard Press".to_owned(),
        "The Old Cider Mill, Lower Wending".to_owned(),
    ];
    commission.faces.push(face(
        "inline",
        "Quernstow-Inline.ttf",
        Permission::default(),
    ));
    let scheme = Scheme {
        capitals: many,
        lower_case: many,
        figures: many,
        points: many,
        ligatures: 0,
    };
    commission.bill = from_scheme("roman", scheme, &Proportions::JobFount.table())
        .expect("the scheme asks for something");
    for name in ["A", "M", "W"] {
        commission.bill.push(BillLine {
            face: "inline".to_owned(),
            glyph: GlyphChoice::Character {
                character: name.chars().next().unwrap_or('A'),
                features: Vec::new(),
            },
            count: many,
        });
    }
    commission.spaces = vec![SpaceLine {
        set: Length::pica_points(12.0),
        count: 10,
    }];
    commission.planks.separation = Separation::Saw;
    commission.planks.lane = Length::mm(4.0);
    commission.planks.width = Length::mm(400.0);
    commission.planks.length = Length::mm(220.0);
    let mut workshop = Workshop::starting();
    workshop.papers.maker = vec![
        "Tidewater Wood Type".to_owned(),
        "2 Ropewalk, Saltmarsh".to_owned(),
    ];
    let fonts = Fonts::from([
        ("roman".to_owned(), REGULAR.into()),
        ("inline".to_owned(), INLINE.into()),
    ]);
    Order {
        commission,
        workshop,
        fonts,
    }
}

/// A few letters of one face.
pub(super) fn few(letters: &str) -> Order {
    let mut order = fount(1, 6.0);
    order.commission.faces.truncate(1);
    order.commission.title = "Tide tables".to_owned();
    order.commission.bill = letters
        .chars()
        .map(|character| BillLine {
            face: "roman".to_owned(),
            glyph: GlyphChoice::Character {
                character,
                features: Vec::new(),
            },
            count: 2,
        })
        .collect();
    order.commission.spaces.clear();
    order
}

/// Does something with the parts of papers.
pub(super) fn with_parts<T>(order: &Order, then: impl FnOnce(&PaperParts) -> T) -> T {
    let Order {
        commission,
        workshop,
        fonts,
    } = order;
    let surveyed = survey_sorts(commission, workshop, fonts, &Progress::new())
        .unwrap_or_else(|error| panic!("{error}"));
    let laid = lay_out(&surveyed.sorts, commission, workshop).expect("they fit");
    let planks = laid.planks;
    let recorded: Vec<JobProgram> = planks
        .iter()
        .flat_map(|plank| {
            ["flat-6", "flat-3", "flat-0.8"].map(|cutter| JobProgram {
                file: format!("{}-{cutter}.ngc", plank.id),
                sha256: String::new(),
                plank: plank.id.clone(),
                cutter: cutter.to_owned(),
                role: JobRole::Rest,
                estimate_s: 3700.0,
                changes: Vec::new(),
            })
        })
        .collect();
    let job = job_file(&JobParts {
        commission,
        workshop,
        fonts,
        sorts: &surveyed.sorts,
        surveys: &surveyed.surveys,
        planks: &planks,
        programs: &recorded,
    });
    let programs = recorded
        .iter()
        .map(|program| Program {
            file: program.file.clone(),
            plank: 0,
            parts: vec![ProgramPart {
                cutter: program.cutter.clone(),
                role: program.role,
                toolpath: Toolpath::default(),
            }],
            text: String::new(),
            estimate_s: program.estimate_s,
        })
        .collect();
    let made = Job {
        sorts: surveyed.sorts,
        surveys: surveyed.surveys,
        planks,
        programs,
        findings: surveyed.findings,
        ..Job::default()
    };
    let quote = Quote::of(&made, commission, workshop);
    let mut findings = made.findings.clone();
    findings.push(Finding {
        severity: Severity::Warning,
        subject: Subject::Sort("A".into()),
        kind: "thin-stroke",
        text: "A stroke is thin.".into(),
        remedy: "Look at it.".into(),
    });
    then(&PaperParts {
        commission,
        workshop,
        fonts,
        job: &job,
        sorts: &made.sorts,
        surveys: &made.surveys,
        planks: &made.planks,
        routers: &made.routers,
        findings: &findings,
        quote: &quote,
    })
}

/// The text of a paper.
fn text(parts: &PaperParts, write: fn(&PaperParts) -> Option<Sheet>) -> String {
    plain::to_text(
        &write(parts).expect("there is something to say"),
        &parts.letterhead(),
    )
}

/// Whether a text holds some words, however its lines are broken.
#[track_caller]
fn check_holds(text: &str, words: &[&str]) {
    let closed: String = text.split_whitespace().collect();
    for wanted in words {
        let wanted: String = wanted.split_whitespace().collect();
        assert!(closed.contains(&wanted), "{wanted}\n{text}");
    }
}

#[test]
fn setup_sheet_says_what_the_machine_needs() {
    let mut order = few("AM");
    order.commission.planks.separation = Separation::Router {
        cutter: "flat-6-long".to_owned(),
        hold: crate::commission::Hold::Skin(Length::mm(0.4)),
    };
    with_parts(&order, |parts| {
        let sheet = text(parts, setup_sheet::write);
        check_holds(
            &sheet,
            &[
                "Setup sheet: Tide tables",
                "Height to paper: 23.317 mm",
                "z 0 is the printing face",
                "1. plank-1-flat-6.ngc flat-6 rest 1:02 [ ]",
                "flat-3 flat, 3 mm 18 12 10 18000 1200 400",
                "flat-0.8 flat, 0.8 mm 10 4 3.2 24000 450 150",
                "Cutting stays within x 4 to",
                "A skin of 0.4 mm at the bottom holds the blocks",
                "sort A A stroke is thin. Look at it.",
                "no cut enters a letter",
                "wear eye protection",
                "dust",
                "Follow the manual of your machine, the rules of your place, and licensed practice",
            ],
        );
        assert!(!sheet.to_lowercase().contains("safe"), "never claimed");
        assert!(sheet.lines().all(|line| line.chars().count() <= 100));
        assert!(
            cutting_list::write(parts).is_none(),
            "the router parts them"
        );
    });
}

#[test]
fn saw_gets_every_block_once_and_fences_that_come_to_the_whole_plank() {
    with_parts(&fount(1, 8.0), |parts| {
        let sheet = cutting_list::write(parts).expect("the saw parts them");
        let list = plain::to_text(&sheet, &parts.letterhead());
        check_holds(
            &list,
            &["kerf is 4 mm", "Small blocks are dangerous on a saw"],
        );
        let mut tables: Vec<&Table> = Vec::new();
        for piece in &sheet.pieces {
            if let Piece::Table(table) = piece {
                tables.push(table);
            }
        }
        assert_eq!(tables.len(), parts.planks.len());
        let kerf = parts.commission.planks.kerf_mm();
        for (table, plank) in tables.iter().zip(parts.planks) {
            let mut ids: Vec<&str> = Vec::new();
            let mut ripped = 0.0;
            for row in &table.rows {
                let [kind, first, fence, gives, _] = row.cells.as_slice() else {
                    continue;
                };
                if let Some((_, blocks)) = gives.words().split_once(": ") {
                    ids.extend(blocks.split(", "));
                }
                if kind.words() == "rip the row off" {
                    let number = |text: &str| text.parse::<f64>().expect("a number");
                    ripped += number(fence.words()) + kerf;
                    ripped += match first.words().split_once(" of ") {
                        Some(("a skim", skim)) => number(skim),
                        Some((waste, _)) => number(waste) + kerf,
                        None => 0.0,
                    };
                }
            }
            let mut wanted: Vec<&str> =
                plank.places.iter().map(|place| place.id.as_str()).collect();
            ids.sort_unstable();
            wanted.sort_unstable();
            // Commas stand in the names of points, so they are counted apart.
            let plain = |ids: Vec<&str>| -> Vec<String> {
                let ids = ids
                    .into_iter()
                    .filter(|id| !id.contains(',') && !id.is_empty());
                ids.map(str::to_owned).collect()
            };
            assert_eq!(plain(ids), plain(wanted));
            let top = plank
                .places
                .iter()
                .map(|place| place.at.y + parts.sorts[place.sort].block.body_mm)
                .fold(0.0, f64::max);
            let ripped = ripped - kerf;
            assert!((ripped - top).abs() < 0.01, "{ripped} in place of {top}");
        }
    });
}

#[test]
fn handwork_lists_every_corner_and_counts_the_copies() {
    with_parts(&few("AM"), |parts| {
        let list = text(parts, handwork::write);
        let corners: usize = parts
            .surveys
            .iter()
            .map(|survey| survey.corners.len())
            .sum();
        assert!(corners > 3, "an M has corners");
        assert_eq!(list.matches(". corner at ").count(), corners);
        check_holds(
            &list,
            &[
                "rounder than 0.2 mm",
                &format!("Corners in all: {}", 2 * corners),
            ],
        );
    });
}

#[test]
fn amounts_of_the_quote_add_up_to_its_price() {
    with_parts(&fount(1, 8.0), |parts| {
        let sheet = quote::write(parts).expect("there is a price");
        let mut sum = 0;
        let mut rows = 0;
        for piece in &sheet.pieces {
            let Piece::Table(Table { rows: list, .. }) = piece else {
                continue;
            };
            for row in list.iter().filter(|row| row.cells.len() == 5) {
                let amount: String = row.cells[4]
                    .words()
                    .chars()
                    .filter(char::is_ascii_digit)
                    .collect();
                sum += amount.parse::<i64>().expect("an amount");
                rows += 1;
            }
        }
        assert_eq!(rows, parts.sorts.len());
        assert_eq!(sum, crate::quote::hundredths(parts.quote.price));
    });
    assert_eq!(quote::money(1_234_567), "12\u{a0}345.67");
    assert_eq!(quote::money(-5), "−0.05");
}

#[test]
fn a_missing_permission_is_told_for_the_faces_that_lack_it() {
    let mut order = few("A");
    assert_eq!(licence::not_recorded(&order.commission), "");
    order.commission.faces[0].permission = Permission::default();
    assert_eq!(
        licence::not_recorded(&order.commission),
        "Permission not recorded for face roman"
    );
    with_parts(&order, |parts| {
        for paper in PAPERS {
            if let Some(sheet) = (paper.write)(parts) {
                let told = plain::to_text(&sheet, &parts.letterhead());
                check_holds(&told, &["Permission not recorded for face roman"]);
            }
        }
        check_holds(
            &text(parts, licence::write),
            &[
                "Quernstow Regular",
                "fsType 0x0000",
                "SIL Open Font License",
                "Seller’s id: SWRT",
            ],
        );
    });
}

#[test]
fn specimen_shows_every_printing_sort_once_in_lines_that_fit() {
    for lines in [4.0, 10.0, 40.0] {
        with_parts(&few("WMAk&"), |parts| {
            let mut commission = parts.commission.clone();
            commission.lines = lines;
            let parts = PaperParts {
                commission: &commission,
                ..*parts
            };
            let sheet = specimen::write(&parts).expect("letters are ordered");
            let mut faces = 0;
            for piece in &sheet.pieces {
                let Piece::Drawing(figure) = piece else {
                    continue;
                };
                let filled = figure.drawing.marks.iter();
                faces += filled
                    .filter(|mark| matches!(mark, drawing::Mark::Filled(..)))
                    .count();
                let wide = figure.drawing.frame.width() * figure.scale;
                assert!(wide <= parts.field().whole_mm() + 0.5, "{wide}");
            }
            assert_eq!(faces, 5);
        });
    }
}

#[test]
fn picture_of_a_plank_is_true_to_size_with_every_block() {
    with_parts(&few("AM"), |parts| {
        let picture = picture::whole(parts, &parts.planks[0]).to_svg();
        assert_eq!(
            picture
                .matches(&format!("fill=\"{}\"", drawing::BLOCK.hex()))
                .count(),
            4
        );
        // The plank of 400 by 220 mm, and room about it.
        assert!(picture.contains("width=\"425.000mm\""), "{picture}");
        assert!(picture.contains("M9.00 "), "{picture}");
        assert!(picture.contains("1. plank-1-flat-6.ngc (rest, cutter flat-6)"));
    });
}

#[test]
fn the_same_papers_come_on_one_thread_and_many() {
    with_parts(&few("A&"), |parts| {
        let many = write_all(parts).expect("they are written");
        let pool = rayon::ThreadPoolBuilder::new().num_threads(1).build();
        let alone = pool
            .expect("a thread can be started")
            .install(|| write_all(parts).expect("they are written"));
        assert!(many == alone, "the bytes differ");
        assert!(many.iter().all(|file| file.path.starts_with("papers/")));
    });
}

#[test]
fn words_are_plain() {
    use crate::measure::System;
    assert_eq!(words::hours(0.0), "0:00");
    assert_eq!(words::hours(61.0), "0:02");
    assert_eq!(words::hours(7200.0), "2:00");
    assert_eq!(words::mm(3.0), "3");
    assert_eq!(words::mm(-0.0001), "0");
    assert_eq!(words::mm(100.25), "100.25");
    let points = |points: f64| words::points(Length::pica_points(points).in_mm(), System::Pica);
    assert_eq!(points(60.0), "60 pt");
    assert_eq!(points(62.0 + 2.0 / 3.0), "62⅔ pt");
    assert_eq!(points(0.5), "½ pt");
    assert_eq!(points(3.999), "4 pt");
    assert_eq!(points(7.31), "7.31 pt");
    assert_eq!(words::plank_name("plank-12"), "Plank 12");
    assert_eq!(words::plank_name("offcut"), "Plank offcut");
    assert_eq!(words::wrapped("one two three", 7), ["one two", "three"]);
    assert_eq!(words::wrapped("abcdefghij k", 4), ["abcd", "efgh", "ij k"]);
    let long = words::paragraph("- ", &"word ".repeat(60), 2);
    assert!(long.lines().all(|line| line.chars().count() <= 96));
    assert_eq!(long.matches("word").count(), 60);
}
