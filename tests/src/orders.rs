//! Commissions to measure with, for the starting workshop.

use std::collections::BTreeMap;

use cam_core::bill::{Proportions, Scheme, from_scheme};
use cam_core::commission::{
    BillLine, Commission, Face, GlyphChoice, Permission, PlankRules, Separation,
};
use cam_core::digest::sha256_hex;
use cam_core::make::Fonts;
use cam_core::measure::System;

use crate::fonts::TestFont;

/// A commission of one face without a bill: four flat cutters, and blocks parted by the saw, in lanes through which the largest
/// cutter passes between the blocks, as in the starting commission.
pub fn begun(font: TestFont, lines: f64) -> (Commission, Fonts) {
    let face = Face {
        id: "main".to_owned(),
        file: "face.ttf".to_owned(),
        sha256: sha256_hex(font.bytes),
        index: font.index,
        variations: BTreeMap::new(),
        permission: Permission::default(),
    };
    let mut commission = Commission::starting("Measured", System::Pica, lines, face);
    commission.planks.separation = Separation::Saw;
    commission.planks.lane = PlankRules::starting_lane(true);
    let fonts = Fonts::from([("main".to_owned(), font.bytes.into())]);
    (commission, fonts)
}

/// One of each character of a text.
pub fn of_text(font: TestFont, lines: f64, text: &str) -> (Commission, Fonts) {
    let (mut commission, fonts) = begun(font, lines);
    commission.bill = text
        .chars()
        .map(|character| BillLine {
            face: "main".to_owned(),
            glyph: GlyphChoice::Character {
                character,
                features: Vec::new(),
            },
            count: 1,
        })
        .collect();
    (commission, fonts)
}

/// A fount of exactly so many sorts by the trade's scheme, the commonest letter making up the number.
///
/// # Panics
/// If the scheme asks for more than that.
pub fn fount(font: TestFont, lines: f64, sorts: u32) -> (Commission, Fonts) {
    let (mut commission, fonts) = begun(font, lines);
    let scheme = Scheme {
        capitals: 3,
        lower_case: 6,
        figures: 3,
        points: 3,
        ligatures: 0,
    };
    commission.bill = from_scheme("main", scheme, &Proportions::JobFount.table())
        .expect("the scheme asks for something");
    let total: u32 = commission.bill.iter().map(|line| line.count).sum();
    let commonest = commission
        .bill
        .iter_mut()
        .max_by_key(|line| line.count)
        .expect("the bill has lines");
    commonest.count = (commonest.count + sorts)
        .checked_sub(total)
        .expect("the scheme asks for less than the fount");
    (commission, fonts)
}
