//! Hostile input of every kind: the kept corpus, good input changed at random, and input built to be as bad as can be.
//!
//! `PROPTEST_CASES=100000 cargo test -p sortwright-tests --test hostile` tries more; `tests/fuzz/run` tries for longer, guided by coverage.
#![expect(
    clippy::print_stdout,
    reason = "the counts are what the command is run for"
)]

use std::fs;
use std::path::Path;

use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

use cam_core::record::{MadeSort, Record};
use testkit::bad_fonts::{endless_fonts, postscript, with_tables};
use testkit::fonts::difficult_fonts;
use testkit::hostile::{TARGETS, Target};

/// Cases of each property in a usual run.
const CASES: u32 = 300;

fn target(name: &str) -> Target {
    let found = TARGETS.into_iter().find(|target| target.name == name);
    found.expect("every target is in the list")
}

/// A failing case is put into the corpus by hand, where every later run finds it.
///
/// A usual run tries a few cases, always the same; where `PROPTEST_CASES` is set, as many as it says, new ones each time.
fn runner() -> TestRunner {
    let usual = Config {
        failure_persistence: None,
        ..Config::default()
    };
    if std::env::var_os("PROPTEST_CASES").is_some() {
        return TestRunner::new(usual);
    }
    let few = Config {
        cases: CASES,
        ..usual
    };
    TestRunner::new_with_rng(few, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

fn repository() -> &'static Path {
    Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
}

/// Good input of a kind, to be spoiled.
fn seeds(name: &str) -> Vec<Vec<u8>> {
    let read = |path: &str| fs::read(repository().join(path)).expect("it is in the repository");
    match name {
        "font" => {
            let mut fonts: Vec<Vec<u8>> = difficult_fonts()
                .into_iter()
                .map(|font| font.bytes.to_vec())
                .collect();
            fonts.retain(|bytes| bytes.len() < 60_000);
            fonts.push(read("assets/fonts/Quernstow-Inline.ttf"));
            fonts.push(font_test_data::COLRV0V1.to_vec());
            fonts.extend(endless_fonts().into_iter().map(|font| font.bytes));
            fonts
        }
        "commission" => vec![
            read("demo-projects/ferry-notice/commission.json"),
            read("demo-projects/harvest-fount/commission.json"),
            read("demo-projects/market-poster/commission.json"),
            replacing(&read("demo-projects/ferry-notice/commission.json")),
        ],
        "workshop" => {
            let workshop = cam_core::workshop::Workshop::starting();
            vec![cam_core::format::write_workshop(&workshop).into_bytes()]
        }
        "svg" => vec![DRAWN.as_bytes().to_vec()],
        "dxf" => ["blocks", "splines", "polyline_r12"]
            .map(|name| read(&format!("tests/dxf/{name}.dxf")))
            .to_vec(),
        "scan" => scans(),
        _ => corpus(name),
    }
}

/// A commission that replaces sorts of another.
fn replacing(commission: &[u8]) -> Vec<u8> {
    let text = String::from_utf8_lossy(commission);
    let mut commission = cam_core::format::read_commission(&text).expect("a good commission");
    let line = commission.bill[0].clone();
    let outline = "M1.5,2 L20.25,2 Q30,10 20.25,30 C18,31 12,31 1.5,30 Z";
    let record = Record {
        commission: commission.clone(),
        cutters: cam_core::workshop::Workshop::starting().cutters,
        sorts: vec![MadeSort {
            name: "first".to_owned(),
            source: Some((line.face, line.glyph)),
            plate: None,
            count: line.count,
            set_mm: 24.5,
            body_mm: 33.74,
            baseline_mm: 2.1,
            block: [(0.0, 0.0), (24.5, 0.0), (24.5, 33.74), (0.0, 33.74)]
                .map(kurbo::Point::from)
                .to_vec(),
            outline: kurbo::BezPath::from_svg(outline).expect("path data"),
        }],
    };
    commission.replaces = Some(Box::new(record));
    cam_core::format::write_commission(&commission).into_bytes()
}

/// An SVG with a little of everything.
const DRAWN: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="3cm" viewBox="0 0 80 60">
<style>.a{fill:#102030;stroke:red;stroke-width:2}</style>
<defs><path id="p" d="M1 1c5 0 9 3 9 9s-4 9-9 9zM4 5v9h3V5z"/><clipPath id="c"><circle cx="30" cy="30" r="20"/></clipPath></defs>
<g transform="rotate(10) skewX(5)" clip-path="url(#c)"><use href="#p" x="9"/><rect class="a" x="20" y="20" width="30" height="20" rx="4"/></g>
<path d="M50 10l9 9-9 9a4 7 20 1 0 9 3" fill="none" stroke="#000" stroke-width="3" stroke-dasharray="4 2" stroke-linejoin="round"/>
<ellipse cx="60" cy="45" rx="9" ry="5" fill="white" fill-rule="evenodd"/></svg>"##;

/// Small scans in each format.
fn scans() -> Vec<Vec<u8>> {
    use image::{GrayImage, ImageFormat, Luma};
    let picture = GrayImage::from_fn(48, 40, |x, y| {
        let (x, y) = (f64::from(x) - 24.0, f64::from(y) - 20.0);
        let is_ink = x.hypot(y) < 15.0 && !(x.abs() < 4.0 && y > -6.0);
        Luma([if is_ink { 30 } else { 220 }])
    });
    [ImageFormat::Png, ImageFormat::Jpeg, ImageFormat::Tiff]
        .map(|format| {
            let mut bytes = std::io::Cursor::new(Vec::new());
            picture
                .write_to(&mut bytes, format)
                .expect("memory takes it");
            bytes.into_inner()
        })
        .to_vec()
}

fn corpus(name: &str) -> Vec<Vec<u8>> {
    let folder = repository().join("tests/fuzz/corpus").join(name);
    let mut paths: Vec<_> = fs::read_dir(folder)
        .map(|entries| entries.flatten().map(|entry| entry.path()).collect())
        .unwrap_or_default();
    paths.sort();
    paths
        .iter()
        .map(|path| fs::read(path).expect("readable"))
        .collect()
}

/// A change to some bytes.
#[derive(Clone, Debug)]
enum Change {
    Set(Index, u8),
    Insert(Index, Vec<u8>),
    Cut(Index, u16),
    Copy(Index, Index, u16),
}

fn changes() -> impl Strategy<Value = Vec<Change>> {
    let pieces = prop_oneof![
        Just(b"1e999".to_vec()),
        Just(b"-".to_vec()),
        Just(b"999999999999".to_vec()),
        Just(b"[[[[[[[[".to_vec()),
        Just(b"\"".to_vec()),
        Just(b"\n".to_vec()),
        Just(vec![0xff; 8]),
        prop::collection::vec(any::<u8>(), 1..8),
    ];
    let change = prop_oneof![
        4 => (any::<Index>(), any::<u8>()).prop_map(|(at, byte)| Change::Set(at, byte)),
        2 => (any::<Index>(), pieces).prop_map(|(at, bytes)| Change::Insert(at, bytes)),
        1 => (any::<Index>(), any::<u16>()).prop_map(|(at, many)| Change::Cut(at, many)),
        1 => (any::<Index>(), any::<Index>(), any::<u16>())
            .prop_map(|(from, to, many)| Change::Copy(from, to, many)),
    ];
    prop::collection::vec(change, 1..12)
}

fn changed(seed: &[u8], changes: &[Change]) -> Vec<u8> {
    let mut bytes = seed.to_vec();
    for change in changes {
        if bytes.is_empty() {
            break;
        }
        let length = bytes.len();
        match change {
            Change::Set(at, byte) => bytes[at.index(length)] = *byte,
            Change::Insert(at, more) => {
                let at = at.index(length);
                bytes.splice(at..at, more.iter().copied());
            }
            Change::Cut(at, many) => {
                let at = at.index(length);
                let end = (at + usize::from(*many) % 64 + 1).min(length);
                bytes.drain(at..end);
            }
            Change::Copy(from, to, many) => {
                let (from, to) = (from.index(length), to.index(length));
                let end = (from + usize::from(*many) % 64 + 1).min(length);
                let piece = bytes[from..end].to_vec();
                bytes.splice(to..to, piece);
            }
        }
    }
    bytes
}

#[test]
fn the_kept_corpus_does_no_harm() {
    for target in TARGETS {
        let corpus = corpus(target.name);
        println!("{}: {} kept inputs", target.name, corpus.len());
        for bytes in corpus {
            (target.run)(&bytes);
        }
    }
}

#[test]
fn good_input_spoiled_at_random_does_no_harm() {
    for target in TARGETS {
        let seeds = seeds(target.name);
        assert!(!seeds.is_empty(), "{} has no good input", target.name);
        let cases = (any::<Index>(), changes());
        runner()
            .run(&cases, |(which, changes)| {
                (target.run)(&changed(&seeds[which.index(seeds.len())], &changes));
                Ok(())
            })
            .unwrap_or_else(|error| panic!("{}: {error}", target.name));
    }
}

#[test]
fn any_bytes_and_any_words_do_no_harm() {
    let bytes = prop::collection::vec(any::<u8>(), 0..400);
    runner()
        .run(&bytes, |bytes| {
            for target in TARGETS {
                (target.run)(&bytes);
            }
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
}

/// Values of every kind: numbers, parameters, functions and operators in one another.
fn values() -> impl Strategy<Value = String> {
    let number = prop_oneof![
        8 => (-400_i32..400).prop_map(|n| format!("{}", f64::from(n) / 8.0)),
        1 => any::<f32>().prop_map(|n| format!("{n}")),
        3 => (0_u32..100).prop_map(|n| n.to_string()),
        2 => (0_u32..12).prop_map(|n| format!("#{n}")),
    ];
    let operators = vec!["+", "-", "*", "/", "**", " MOD ", " AND ", " OR ", " XOR "];
    let functions = vec![
        "ABS", "ACOS", "ASIN", "COS", "EXP", "FIX", "FUP", "LN", "ROUND", "SIN", "SQRT", "TAN",
    ];
    number.prop_recursive(4, 10, 3, move |inner| {
        prop_oneof![
            4 => (inner.clone(), prop::sample::select(operators.clone()), inner.clone())
                .prop_map(|(left, operator, right)| format!("[{left}{operator}{right}]")),
            3 => (prop::sample::select(functions.clone()), inner.clone())
                .prop_map(|(function, inner)| format!("{function}[{inner}]")),
            1 => (inner.clone(), inner.clone()).prop_map(|(y, x)| format!("ATAN[{y}]/[{x}]")),
            1 => inner.prop_map(|inner| format!("#{inner}")),
        ]
    })
}

/// Lines of words that are each well formed, most of them.
fn programs() -> impl Strategy<Value = String> {
    let code = prop::sample::select(vec![
        "G0", "G1", "G2", "G3", "G4", "G10 L2", "G17", "G18", "G19", "G20", "G21", "G28", "G30",
        "G38.2", "G40", "G41", "G41 D1", "G42 D2", "G42 D3", "G43", "G49", "G53", "G54", "G55",
        "G59.3", "G61", "G61.1", "G64", "G80", "G81", "G90", "G91", "G92", "G92.1", "G92.2",
        "G92.3", "G93", "G94", "G98", "G99", "M0", "M1", "M3", "M4", "M5", "M6", "M7", "M8", "M48",
        "M49", "M60", "M2", "M30", "%", "/", "(a)", "(MSG, b)",
    ]);
    let letters = prop::sample::select(b"XYZIJKRFSTPQLHDN".to_vec());
    let word = prop_oneof![
        3 => code.prop_map(str::to_owned),
        5 => (letters, values()).prop_map(|(letter, value)| format!("{}{value}", char::from(letter))),
        1 => (1_u32..12, values()).prop_map(|(number, value)| format!("#{number}={value}")),
    ];
    let free = prop::collection::vec(word, 0..7).prop_map(|words| words.join(" "));
    let line = prop_oneof![3 => free, 1 => cycles(), 1 => arcs(), 1 => compensated()];
    prop::collection::vec(line, 1..40).prop_map(|lines| lines.join("\n"))
}

/// Ways beside which a cutter runs, most of which have no inner corner.
fn compensated() -> impl Strategy<Value = String> {
    let turns = prop::collection::vec((-20_i32..90, 4_u32..40, prop::bool::ANY), 1..8);
    (prop::bool::ANY, 0_u32..5, turns).prop_map(|(left, slot, turns)| {
        let code = if left { "G41" } else { "G42" };
        let mut text = format!("G17 G40 G94 G90 G0 X0 Y0\n{code} D{slot} G91 F200 G1 X9 Y0");
        // Away from the cutter: to the right of a path that has it on its left.
        let outward = if left { -1.0 } else { 1.0 };
        let mut heading = 0.0_f64;
        for (turn, length, round) in turns {
            heading += outward * f64::from(turn);
            let (sin, cos) = heading.to_radians().sin_cos();
            let length = f64::from(length);
            let words = if round { "G3 R40" } else { "G1" };
            text += &format!("\n{words} X{:.3} Y{:.3}", length * cos, length * sin);
        }
        text + "\nG40 G90"
    })
}

/// Cycles with their words, most of which can be run.
fn cycles() -> impl Strategy<Value = String> {
    let at = (-40_i32..40, -40_i32..40, -40_i32..0, 0_i32..9);
    let more = (0_u32..40, 1_u32..4, prop::bool::ANY);
    (81_u32..90, at, more).prop_map(|(code, (x, y, z, r), (peck, times, plain))| {
        let words = match code {
            83 => format!(" Q{}", f64::from(peck) / 8.0),
            82 | 86 | 88 | 89 => " P0.1".to_owned(),
            87 => format!(" I1 J1 K{}", f64::from(z) / 2.0),
            _ => String::new(),
        };
        let repeats = if plain {
            String::new()
        } else {
            format!(" L{times}")
        };
        format!("G{code} X{x} Y{y} Z{z} R{r}{words}{repeats}")
    })
}

/// Arcs in the three planes, some of which can be run.
fn arcs() -> impl Strategy<Value = String> {
    let planes = prop::sample::select(vec![("G17", "IJ"), ("G18", "IK"), ("G19", "JK")]);
    (planes, 2_u32..4, 1_i32..200, prop::bool::ANY).prop_map(
        |((plane, letters), code, size, back)| {
            let (first, second) = letters.split_at(1);
            let size = f64::from(size) / 4.0;
            if back {
                format!(
                    "{plane} G91 G{code} {} {first}{size} {second}0\nG90",
                    "X0 Y0 Z0"
                )
            } else {
                format!("{plane} G{code} X{size} Y0 Z{size} R{}", size * 2.0)
            }
        },
    )
}

#[test]
fn programs_of_any_words_are_read_or_refused_with_a_place() {
    let program = target("program");
    runner()
        .run(&programs(), |text| {
            (program.run)(text.as_bytes());
            let head = "G21 G90 F100 S1000 M3\n#1=1 #2=2.5 #3=-4 #4=0 #5=5\nG0 X0 Y0 Z0";
            (program.run)(format!("{head}\n{text}\nM2\n").as_bytes());
            // Each line alone, so that a fault in one does not hide the others.
            for line in text.lines() {
                (program.run)(format!("{head}\n{line}\nG0 X1 Y1 Z1\nM2\n").as_bytes());
            }
            Ok(())
        })
        .unwrap_or_else(|error| panic!("{error}"));
}

#[test]
fn programs_beyond_all_measure_are_refused() {
    use reader::read;
    let many = format!("G21 F100\n{}M2\n", "G0 X1 Y1\n".repeat(10_000_000));
    let said = read(&many).expect_err("ten million lines").to_string();
    assert!(said.contains("more than"), "{said}");
    let long = format!("G0 X{}\nM2\n", "1".repeat(100_000_000));
    let said = read(&long).expect_err("one endless line").to_string();
    assert!(said.contains("longer than"), "{said}");
}

/// A font whose glyphs are made of the glyphs named; a glyph that names none is a triangle.
fn made_of(glyphs: &[Vec<u16>]) -> Vec<u8> {
    let triangle = [
        &[0, 1, 0, 0, 0, 0, 0, 100, 0, 100][..],
        &[0, 2, 0, 0],
        &[1, 1, 1],
        &[0, 0, 0, 100, 0, 0, 0, 0, 0, 0, 0, 100],
    ]
    .concat();
    let mut glyf = Vec::new();
    let mut loca = vec![0_u32];
    for parts in glyphs {
        if parts.is_empty() {
            glyf.extend(&triangle);
        } else {
            glyf.extend([0xff, 0xff, 0, 0, 0, 0, 0, 100, 0, 100]);
            for (place, part) in parts.iter().enumerate() {
                glyf.extend(if place + 1 < parts.len() {
                    [0, 0x22]
                } else {
                    [0, 2]
                });
                glyf.extend(part.to_be_bytes());
                glyf.extend([0, 0]);
            }
        }
        glyf.resize(glyf.len().next_multiple_of(4), 0);
        loca.push(glyf.len() as u32);
    }
    let font = testkit::fonts::text_font("hack").bytes;
    let face = ttf_parser::RawFace::parse(font, 0).expect("a font from a package");
    let table = |tag| {
        let found = face.table(ttf_parser::Tag::from_bytes(tag));
        found.expect("it has this table").to_vec()
    };
    let mut head = table(b"head");
    // The index of places is of 32 bits.
    head[51] = 1;
    let mut maxp = table(b"maxp");
    maxp[4..6].copy_from_slice(&(glyphs.len() as u16).to_be_bytes());
    with_tables(
        font,
        &[
            (b"head", head),
            (b"maxp", maxp),
            (b"glyf", glyf),
            (
                b"loca",
                loca.into_iter().flat_map(u32::to_be_bytes).collect(),
            ),
        ],
    )
}

#[test]
fn glyphs_made_of_glyphs_without_end_are_refused() {
    use geometry::font::Font;
    let outline = |glyphs: &[Vec<u16>]| {
        let bytes = made_of(glyphs);
        let font = Font::parse(&bytes, 0, &Default::default()).expect("a font");
        font.outline(0).map(|path| path.elements().len())
    };
    let good = outline(&[vec![1, 1], vec![2, 2], vec![]]).expect("four triangles");
    assert_eq!(good % 4, 0);
    assert!(good >= 16);
    // Each names the next one twice: two to the thirtieth triangles.
    let mut doubling: Vec<Vec<u16>> = (1..=30).map(|next| vec![next, next]).collect();
    doubling.push(Vec::new());
    let said = outline(&doubling)
        .expect_err("a thousand million")
        .to_string();
    assert!(said.contains("too many parts"), "{said}");
    let said = outline(&[vec![0]])
        .expect_err("it holds itself")
        .to_string();
    assert!(said.contains("without end"), "{said}");
    let said = outline(&[vec![1; 60_000], vec![]])
        .expect_err("wide")
        .to_string();
    assert!(said.contains("too many parts"), "{said}");
}

#[test]
fn drawing_programs_without_end_are_refused() {
    use geometry::font::Font;
    let outline = |bytes: &[u8]| {
        let font = Font::parse(bytes, 0, &Default::default()).expect("a font");
        font.outline(0).map(|path| path.elements().len())
    };
    // Moves to 100, 0, then three lines in a subroutine.
    let square = [&[239, 239, 139, 21][..], &[32, 29, 14]].concat();
    let lines = vec![239, 139, 139, 239, 39, 139, 5, 11];
    assert_eq!(outline(&postscript(&[lines], &square)), Ok(5));
    for font in endless_fonts() {
        let said = outline(&font.bytes).expect_err(font.what).to_string();
        assert!(said.contains(font.says), "{}: {said}", font.what);
        (target("font").run)(&font.bytes);
    }
}
