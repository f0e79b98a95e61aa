//! What is done with hostile input: each function takes any bytes, does with them what the program would do, and holds what must hold.
//!
//! An ordinary test runs these on a kept corpus and on changed copies of good input; the fuzz targets in `tests/fuzz` run the same
//! functions, guided by coverage. A panic, a hang or a wild growth of memory is a fault of the program, whatever the bytes.

use std::collections::BTreeMap;

use cam_core::format::{read_commission, read_workshop, write_commission, write_workshop};
use cam_core::job_file::JobFile;
use cam_core::program::account::Account;
use cam_core::progress::Progress;
use cam_core::workshop::Workshop;
use drawing::scan::{Known, Settings, Unwatched, trace};
use drawing::{Drawing, DrawingError, Reading};
use geometry::font::{Font, faces_in};
use kurbo::Point;
use reader::{CutterTable, read, read_with};

/// A kind of input.
#[derive(Clone, Copy, Debug)]
pub struct Target {
    /// Its name, which is that of its corpus folder too.
    pub name: &'static str,
    /// Does with the bytes what the program would do.
    pub run: fn(&[u8]),
}

/// All kinds of input that come from outside.
pub const TARGETS: [Target; 8] = [
    Target {
        name: "font",
        run: font,
    },
    Target {
        name: "commission",
        run: commission,
    },
    Target {
        name: "workshop",
        run: workshop,
    },
    Target {
        name: "program",
        run: program,
    },
    Target {
        name: "job_file",
        run: job_file,
    },
    Target {
        name: "svg",
        run: svg,
    },
    Target {
        name: "dxf",
        run: dxf,
    },
    Target {
        name: "scan",
        run: scan,
    },
];

/// Glyphs that are looked at in one font: enough to reach every table, few enough to try many fonts.
const MOST_GLYPHS: u16 = 200;

/// Characters that are looked up in one font.
const CHARACTERS: std::ops::RangeInclusive<char> = ' '..='\u{2ff}';

/// A font is opened, its glyphs drawn, its tables asked.
pub fn font(bytes: &[u8]) {
    let faces = faces_in(bytes).unwrap_or(1);
    for index in 0..faces.min(3) {
        let Ok(font) = Font::parse(bytes, index, &BTreeMap::new()) else {
            continue;
        };
        let at_ends = font
            .axes()
            .into_iter()
            .take(4)
            .map(|axis| (axis.tag, axis.most))
            .collect();
        ask(&font);
        if let Ok(varied) = Font::parse(bytes, index, &at_ends) {
            ask(&varied);
        }
    }
}

fn ask(font: &Font<'_>) {
    let features = font.features();
    let _ = (font.family(), font.style(), font.heights(), font.licence());
    let _ = font.embedding().map(|embedding| embedding.in_words());
    assert!(font.units_per_em() > 0.0, "an em without size");
    for glyph in 0..font.glyph_count().min(MOST_GLYPHS) {
        let _ = (font.glyph_name(glyph), font.advance(glyph));
        if let Ok(path) = font.outline(glyph) {
            assert!(path.is_finite(), "glyph {glyph} is drawn at no place");
        }
        let _ = font.colour_layers(glyph, 0);
    }
    for character in CHARACTERS {
        let Some(glyph) = font.glyph_for(character) else {
            continue;
        };
        let _ = font.kerning(glyph, glyph);
    }
    let _ = features.len();
}

/// A commission is read; what was read is written, and reads as the same.
pub fn commission(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Ok(commission) = read_commission(&text) {
        let written = write_commission(&commission);
        let again = read_commission(&written);
        assert_eq!(again.as_ref(), Ok(&commission), "{written}");
    }
}

/// A workshop is read; what was read is written, and reads as the same.
pub fn workshop(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Ok(workshop) = read_workshop(&text) {
        let written = write_workshop(&workshop);
        let again = read_workshop(&written);
        assert_eq!(again.as_ref(), Ok(&workshop), "{written}");
    }
}

/// A program is read, with cutters told for its compensation; every place it moves to is a place counted from something, and an account
/// can be given of it. Without cutters it reads as the same, or is refused.
pub fn program(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    let mut cutters = CutterTable::default();
    for (slot, diameter_mm) in [(1, 6.0), (2, -1.5), (3, 0.1)] {
        cutters.tell(slot, diameter_mm).expect("it is a cutter");
    }
    match read_with(&text, &cutters) {
        Ok(replay) => {
            match read(&text) {
                Ok(plain) => assert_eq!(plain, replay),
                Err(error) => assert!(!replay.compensations.is_empty(), "{error}"),
            }
            for motion in &replay.motions {
                for place in [motion.from, motion.to] {
                    assert!(place.xy.is_finite() && place.z.is_finite(), "{motion:?}");
                }
                assert!(motion.length_mm().is_finite(), "{motion:?}");
            }
            let framed: usize = replay.framed().map(|(_, motions)| motions.len()).sum();
            assert_eq!(framed, replay.motions.len());
            let account = Account::of(&replay, &Workshop::starting().machine);
            assert!(account.seconds >= 0.0 && account.seconds.is_finite());
        }
        Err(error) => {
            assert!(error.line >= 1 && error.column >= 1, "{error}");
        }
    }
}

/// A job file is read; what was read is written, and reads as the same; its programs, all missing, are judged.
pub fn job_file(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    if let Ok(job) = JobFile::from_json(&text) {
        let again = JobFile::from_json(&job.to_json());
        assert_eq!(again.as_ref(), Ok(&job));
        let none = BTreeMap::new();
        let findings = cam_core::proof::check(&job, &none, &Progress::new());
        assert!(findings.is_ok(), "nobody stopped it");
    }
}

/// An SVG drawing is read; what comes of it lies at places, and fills something or is refused with a sentence.
pub fn svg(bytes: &[u8]) {
    drawn(drawing::svg::read(bytes));
}

/// A DXF drawing is read, with a narrow and a wide gap.
pub fn dxf(bytes: &[u8]) {
    for join_gap_mm in [0.0, 1.0] {
        drawn(drawing::dxf::read(bytes, &Reading { join_gap_mm }));
    }
}

fn drawn(read: Result<Drawing, DrawingError>) {
    match read {
        Ok(drawing) => {
            let layers = drawing.layers.iter().map(|layer| &layer.outline);
            for outline in layers.chain([&drawing.whole]) {
                assert!(outline.path.is_finite(), "drawn at no place");
                let _ = outline.nonzero();
            }
            for end in &drawing.open_ends {
                assert!(end.at.is_finite(), "an open end at no place");
            }
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}

/// A scan is traced as a new one would be.
pub fn scan(bytes: &[u8]) {
    let known = Known {
        from: Point::new(0.0, 0.0),
        to: Point::new(10.0, 0.0),
        mm: 1.0,
    };
    match trace(bytes, &Settings::starting(known), &Unwatched) {
        Ok(traced) => {
            assert!(traced.outline.path.is_finite(), "traced to no place");
            assert!(
                traced.fitted_within_mm <= 0.05 + 1e-9,
                "further than half a dot"
            );
        }
        Err(error) => assert!(!error.to_string().is_empty()),
    }
}
