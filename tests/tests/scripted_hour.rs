//! An hour at the workbench, by script: a thousand edits at random, with undo and redo, over all commands of the document: commission
//! and workshop, notches, drawings, the order made otherwise.
//!
//! The numbers come from a fixed seed, so that every run does the same.

use std::collections::BTreeMap;
use std::sync::Arc;

use cam_core::commission::{
    BillLine, BodyStep, Commission, Direction, Face, Fit, GlyphChoice, Hold, NamedDrawing,
    NotchRules, Permission, ProgramFiles, Roughing, RoundingShare, Separation, SetRounding,
    SetRule, SpaceLine,
};
use cam_core::format::{read_commission, read_workshop, write_commission, write_workshop};
use cam_core::make::Fonts;
use cam_core::measure::{Length, System};
use cam_core::quote::Change;
use cam_core::workshop::Workshop;
use sortwright::model::apply::plain;
use sortwright::model::command::Command;
use sortwright::model::document::Document;
use sortwright::model::shop::{Named, Renamed, ShopChange};

/// Edits of an hour.
const EDITS: usize = 1000;
/// Undo reaches back so far.
const STEPS: usize = 500;
/// Commissions are kept whole for undo, and share nothing; a commission of some dozen lines takes a few kB.
const MOST_BYTES_OF_A_COMMISSION: usize = 64 * 1024;

/// Numbers at random, the same on every run.
///
/// # Source
/// G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (14), 2003: the shifts 13, 7 and 17.
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, most: u64) -> u64 {
        self.next() % most
    }

    /// Between two numbers, in hundredths.
    fn between(&mut self, low: f64, high: f64) -> f64 {
        let hundredths = ((high - low) * 100.0) as u64;
        low + self.below(hundredths + 1) as f64 / 100.0
    }

    fn mm(&mut self, low: f64, high: f64) -> Length {
        Length::mm(self.between(low, high))
    }

    fn one<T: Clone>(&mut self, among: &[T]) -> T {
        among[self.below(among.len() as u64) as usize].clone()
    }
}

fn first() -> Commission {
    let face = Face {
        id: "main".to_owned(),
        file: "face.ttf".to_owned(),
        sha256: String::new(),
        index: 0,
        variations: BTreeMap::new(),
        permission: Permission::default(),
    };
    Commission::starting("Quay sale", System::Pica, 10.0, face)
}

fn letter(dice: &mut Dice) -> GlyphChoice {
    let letters: Vec<char> = ('A'..='Z').chain('a'..='z').collect();
    plain(dice.one(&letters))
}

/// How many kinds of edits [`edit`] knows.
const KINDS: u64 = 31;

/// An edit at random; `kind` picks the command.
fn edit(kind: u64, dice: &mut Dice, now: &Document) -> Command {
    let (shop, now) = (now.workshop(), now.commission());
    let face = "main".to_owned();
    match kind {
        0 => Command::Title(format!("Quay sale {}", dice.below(50))),
        1 => Command::Reference(format!("No. {}", dice.below(50))),
        2 => Command::System(dice.one(&System::ALL)),
        3 => Command::Lines(dice.between(1.0, 60.0)),
        4 => Command::HeightToPaper(dice.mm(20.0, 26.0)),
        5 => Command::Wood(dice.one(&["hard-maple-end", "pear", "cherry"]).to_owned()),
        6 => Command::Fit(dice.one(&[Fit::EmOnBody, now.fit])),
        7 => {
            let mut rules = now.block;
            rules.body_step = dice.one(&[BodyStep::Line, BodyStep::HalfLine]);
            rules.set = dice.one(&[SetRule::Advance, SetRule::FaceAndMargin(Length::mm(1.0))]);
            rules.rounding = dice.one(&[SetRounding::Point, SetRounding::Free]);
            rules.share = dice.one(&[RoundingShare::Even, RoundingShare::Left]);
            rules.least_side = dice.mm(0.0, 3.0);
            Command::Block(rules)
        }
        8 => Command::AddFace {
            face: Face {
                id: format!("face-{}", now.faces.len()),
                ..now.faces[0].clone()
            },
            bytes: Arc::from(&b"a font"[..]),
        },
        9 => {
            let value = dice.between(100.0, 900.0);
            let variations = BTreeMap::from([("wght".to_owned(), value)]);
            Command::Variations { face, variations }
        }
        10 => {
            let digit = dice.below(10).to_string();
            let sha256 = digit.repeat(64);
            Command::AcceptFont { face, sha256 }
        }
        11 => Command::Permission {
            face,
            permission: Permission {
                by: format!("the drawer, letter {}", dice.below(9)),
                ..Permission::default()
            },
        },
        12 => {
            let mut line = |_| BillLine {
                face: face.clone(),
                glyph: letter(dice),
                count: 1 + dice.below(9) as u32,
            };
            Command::Raise((0..4).map(&mut line).collect())
        }
        13 => Command::Count {
            face,
            glyph: letter(dice),
            count: dice.below(12) as u32,
        },
        14 => Command::ClearBill,
        15 => Command::Space {
            set: Length::pica_points(dice.one(&[6.0, 12.0, 24.0])),
            count: dice.below(9) as u32,
        },
        16 => Command::RaiseSpaces(vec![SpaceLine {
            set: Length::pica_points(dice.one(&[18.0, 36.0])),
            count: 1 + dice.below(9) as u32,
        }]),
        17 => {
            let mut cutting = now.cutting.clone();
            cutting.tolerance = dice.mm(0.01, 0.2);
            cutting.relief = dice.mm(2.0, 5.0);
            cutting.roughing = dice.one(&[Roughing::Steady, Roughing::Quicker]);
            cutting.direction = dice.one(&[Direction::Climb, Direction::Conventional]);
            cutting.files = dice.one(&[ProgramFiles::PerCutter, ProgramFiles::WithPauses]);
            Command::Cutting(cutting)
        }
        18 => Command::Customer(vec![format!("Slipway House {}", dice.below(9))]),
        19 => Command::Date(format!("{} November", 1 + dice.below(30))),
        20 => Command::FaceIndex {
            face,
            index: dice.below(4) as u32,
        },
        21 if now.faces.len() > 1 => Command::RemoveFace(format!("face-{}", now.faces.len() - 1)),
        22 => {
            let id = format!("vine-{}", now.drawings.len());
            let drawing = NamedDrawing::starting(&id, "vine.svg");
            let bytes = Arc::from(&b"a drawing"[..]);
            Command::AddDrawing { drawing, bytes }
        }
        23 if !now.drawings.is_empty() => {
            Command::RemoveDrawing(format!("vine-{}", now.drawings.len() - 1))
        }
        24 => {
            let mut rules = NotchRules::starting(now.system);
            rules.pairs = dice.one(&[vec![], vec!["AV".to_owned(), "LT".to_owned()]]);
            rules.least_wall = dice.mm(1.0, 6.0);
            rules.kinds = 1 + dice.below(6) as u32;
            Command::Notches(dice.one(&[None, Some(rules.clone()), Some(rules)]))
        }
        25 if !now.drawings.is_empty() => {
            let mut drawing = dice.one(&now.drawings);
            drawing.side = Some(dice.mm(0.0, 4.0));
            drawing.layer = dice.one(&[None, Some("#b01020".to_owned())]);
            Command::Drawing(drawing)
        }
        26 => Command::Otherwise(vec![
            Change::Lines(dice.between(1.0, 40.0)),
            Change::Tolerance(dice.mm(0.01, 0.1)),
            Change::Wood(dice.one(&["pear", "cherry"]).to_owned()),
        ]),
        27 => {
            let mut workshop = Workshop::clone(shop);
            workshop.rates.margin = dice.between(0.0, 0.6);
            workshop.machine.change_minutes = dice.between(1.0, 9.0);
            Command::Workshop(Box::new(ShopChange::of("the rates", workshop)))
        }
        28 => {
            let mut workshop = Workshop::clone(shop);
            let place = dice.below(workshop.cutters.len() as u64) as usize;
            let cutter = &mut workshop.cutters[place];
            let (from, to) = (cutter.id.clone(), format!("cutter-{}", dice.below(1000)));
            cutter.id = to.clone();
            let what = Named::Cutter;
            Command::Workshop(Box::new(ShopChange {
                renamed: Some(Renamed { what, from, to }),
                ..ShopChange::of("a cutter", workshop)
            }))
        }
        29 => {
            let mut workshop = Workshop::clone(shop);
            let wood = dice.one(&workshop.woods);
            workshop.woods.retain(|one| one.id != wood.id);
            workshop.woods.push(wood);
            Command::Workshop(Box::new(ShopChange::of("a wood", workshop)))
        }
        _ => {
            let mut rules = now.planks.clone();
            rules.width = dice.mm(200.0, 600.0);
            rules.length = dice.mm(100.0, 400.0);
            let cutter = dice.one(&shop.cutters).id;
            rules.separation = Separation::Router {
                cutter,
                hold: dice.one(&[Hold::starting(), Hold::Skin(Length::mm(0.5))]),
            };
            Command::Planks(rules)
        }
    }
}

#[test]
fn a_thousand_edits_leave_a_commission_that_can_be_read_and_taken_back_to_the_first_byte() {
    let mut dice = Dice(0x5eed_507a);
    let mut document = Document::new(first(), None, Fonts::new(), Workshop::starting());
    let mut made = [0_usize; KINDS as usize];
    let mut refused = 0;
    for number in 0..EDITS {
        let kind = dice.below(KINDS);
        let command = edit(kind, &mut dice, &document);
        let before = Arc::clone(document.commission());
        let shop_before = Arc::clone(document.workshop());
        match document.apply(&command) {
            Ok(()) => made[kind as usize] += 1,
            // What no file can hold is refused, and changes nothing.
            Err(_) => {
                refused += 1;
                assert_eq!(**document.commission(), *before, "edit {number}");
                assert_eq!(**document.workshop(), *shop_before, "edit {number}");
            }
        }
        // Now and then some steps are taken back, and some of them made again.
        if dice.below(4) == 0 {
            let back = 1 + dice.below(6);
            let before = Arc::clone(document.commission());
            let shop_before = Arc::clone(document.workshop());
            let undone = (0..back).filter(|_| document.undo()).count();
            let redone = (0..undone).filter(|_| document.redo()).count();
            assert_eq!(redone, undone);
            assert_eq!(**document.commission(), *before, "after edit {number}");
            assert_eq!(**document.workshop(), *shop_before, "after edit {number}");
            for _ in 0..dice.below(back + 1) {
                document.undo();
            }
        }
        let text = write_commission(document.commission());
        assert!(
            text.len() < MOST_BYTES_OF_A_COMMISSION,
            "it grows: {}",
            text.len()
        );
        let read = read_commission(&text).unwrap_or_else(|error| panic!("edit {number}: {error}"));
        assert_eq!(read, **document.commission(), "edit {number}");
        let shop = write_workshop(document.workshop());
        assert!(
            shop.len() < MOST_BYTES_OF_A_COMMISSION,
            "it grows: {}",
            shop.len()
        );
        let read = read_workshop(&shop).unwrap_or_else(|error| panic!("edit {number}: {error}"));
        assert_eq!(read, **document.workshop(), "edit {number}");
    }
    assert!(refused < EDITS / 10, "{refused} were refused");
    assert!(made.iter().all(|times| *times > 15), "{made:?}");
    // Undo keeps a bounded number of commissions.
    let back = std::iter::from_fn(|| document.undo().then_some(())).count();
    assert!(back <= STEPS, "{back}");
}

/// All that the document's files would hold.
fn state(document: &Document) -> [String; 2] {
    [
        write_commission(document.commission()),
        write_workshop(document.workshop()),
    ]
}

#[test]
fn undo_goes_back_to_the_first_state_byte_for_byte_and_redo_to_the_last() {
    let mut dice = Dice(0x0b00_000c);
    let mut document = Document::new(first(), None, Fonts::new(), Workshop::starting());
    let first = state(&document);
    let mut states = vec![first.clone()];
    while states.len() < STEPS {
        let kind = dice.below(KINDS);
        let command = edit(kind, &mut dice, &document);
        let revision = document.revision();
        // A refused one leaves no step, as one that changes nothing.
        let _ = document.apply(&command);
        if document.revision() != revision {
            states.push(state(&document));
        }
    }
    for expected in states.iter().rev().skip(1) {
        assert!(document.undo());
        assert!(state(&document) == *expected);
    }
    assert!(!document.undo());
    assert!(state(&document) == first);
    for expected in &states[1..] {
        assert!(document.redo());
        assert!(state(&document) == *expected);
    }
    assert!(!document.redo());
}

/// A thousand more edits may add so much to the memory of the program, bytes: less than a tenth of what the steps of undo could fill.
const MOST_GROWTH: u64 = 16 << 20;
/// Bytes of a page of memory, as Linux counts them on the machines that tests run on.
const PAGE: u64 = 4096;

/// What the program holds in memory, where the system tells it.
fn held_bytes() -> Option<u64> {
    let text = std::fs::read_to_string("/proc/self/statm").ok()?;
    let pages: u64 = text.split_whitespace().nth(1)?.parse().ok()?;
    Some(pages * PAGE)
}

#[test]
fn an_hour_more_takes_no_more_memory() {
    let mut dice = Dice(0x00b0_51de);
    let mut document = Document::new(first(), None, Fonts::new(), Workshop::starting());
    let hour = |document: &mut Document, dice: &mut Dice| {
        for _ in 0..EDITS {
            let command = edit(dice.below(KINDS), dice, document);
            let _ = document.apply(&command);
            if dice.below(4) == 0 {
                document.undo();
                document.redo();
            }
        }
    };
    // Undo is as deep as it gets after the first.
    hour(&mut document, &mut dice);
    let before = held_bytes();
    hour(&mut document, &mut dice);
    if let (Some(before), Some(after)) = (before, held_bytes()) {
        let grown = after.saturating_sub(before);
        assert!(grown < MOST_GROWTH, "{grown} bytes more");
    }
}
