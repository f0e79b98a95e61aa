//! Limits of letters in colours.

use std::collections::BTreeSet;

use super::{Faults, LEAST_MM};
use crate::bill::MOST_OF_ONE;
use crate::commission::{Commission, Plate, PlateSource};
use crate::proof::impression::Colour;

/// More plates than any press prints in register.
const MOST_PLATES: usize = 8;
/// More counts than any bill has lines.
const MOST_COUNTS: usize = 10_000;
/// The widest trap and the most that a press may be out of register, mm.
const MOST_TRAP_MM: f64 = 2.0;
/// The widest line about or within a letter, and the longest shadow, mm.
const MOST_LINE_MM: f64 = 100.0;
/// The longest name of a plate, in characters: it becomes a part of sorts' names.
const LONGEST_NAME: usize = 24;

impl Faults {
    pub(super) fn colours(&mut self, commission: &Commission) {
        let Some(rules) = &commission.colours else {
            return;
        };
        let face = |id: &str| commission.faces.iter().any(|face| face.id == id);
        for (number, id) in rules.faces.iter().enumerate() {
            if !face(id) {
                self.push(
                    &format!("colours.faces[{number}]"),
                    format!("the commission has no face “{id}”; name one of its faces"),
                );
            }
        }
        for (number, id) in rules.drawings.iter().enumerate() {
            let place = format!("colours.drawings[{number}]");
            match commission.drawings.iter().find(|named| named.id == *id) {
                None => self.push(
                    &place,
                    format!("the commission has no drawing “{id}”; name one of its drawings"),
                ),
                Some(named) if named.layer.is_some() => self.push(
                    &place,
                    format!("of drawing “{id}” one layer alone is cut; take its layer out, so that every plate finds its own"),
                ),
                Some(_) => {}
            }
        }
        self.many("colours.plates", rules.plates.len(), MOST_PLATES);
        let mut names = BTreeSet::new();
        for (number, plate) in rules.plates.iter().enumerate() {
            let place = format!("colours.plates[{number}]");
            self.plate(&place, plate);
            if !names.insert(plate.name.as_str()) {
                self.push(
                    &format!("{place}.name"),
                    format!(
                        "“{}” is the name of a plate already; give another",
                        plate.name
                    ),
                );
            }
            if let PlateSource::Face(id) = &plate.source
                && !face(id)
            {
                self.push(
                    &format!("{place}.face"),
                    format!("the commission has no face “{id}”; add the companion face, or name one that is there"),
                );
            }
        }
        for (number, name) in rules.cut.iter().enumerate() {
            if !rules.plates.is_empty() && !names.contains(name.as_str()) {
                self.push(
                    &format!("colours.cut[{number}]"),
                    format!("there is no plate “{name}”; name one of the plates"),
                );
            }
        }
        self.many("colours.counts", rules.counts.len(), MOST_COUNTS);
        for (number, one) in rules.counts.iter().enumerate() {
            let place = format!("colours.counts[{number}]");
            if !rules.plates.is_empty() && !names.contains(one.plate.as_str()) {
                self.push(
                    &format!("{place}.plate"),
                    format!("there is no plate “{}”; name one of the plates", one.plate),
                );
            }
            if one.count > MOST_OF_ONE {
                self.push(
                    &format!("{place}.count"),
                    format!("{} is more than the {MOST_OF_ONE} that can be ordered of one sort; lower it", one.count),
                );
            }
        }
        self.length("colours.trap", rules.trap, [0.0, MOST_TRAP_MM]);
        self.length(
            "colours.misregister",
            rules.misregister,
            [0.0, MOST_TRAP_MM],
        );
    }

    fn plate(&mut self, place: &str, plate: &Plate) {
        self.name(&format!("{place}.name"), &plate.name, "the plate");
        let is_plain = |c: char| !c.is_control() && c != '(' && c != ')';
        if plate.name.chars().count() > LONGEST_NAME || !plate.name.chars().all(is_plain) {
            self.push(
                &format!("{place}.name"),
                format!("“{}” is no name for a plate; take up to {LONGEST_NAME} characters without brackets", plate.name),
            );
        }
        if let Err(error) = Colour::ink(&plate.ink) {
            self.push(
                &format!("{place}.ink"),
                error.to_string().trim_end_matches('.'),
            );
        }
        let line = [LEAST_MM, MOST_LINE_MM];
        let gap_range = [0.0, MOST_LINE_MM];
        match &plate.source {
            PlateSource::Letter | PlateSource::Face(_) => {}
            PlateSource::FontColour(colour) => {
                if !colour.starts_with('#') || Colour::ink(colour).is_err() {
                    self.push(
                        &format!("{place}.colour"),
                        format!("“{colour}” is not one of a font’s colours; write # and six hexadecimal digits"),
                    );
                }
            }
            PlateSource::Inline { inset, width } => {
                self.length(&format!("{place}.inset"), *inset, gap_range);
                if let Some(width) = width {
                    self.length(&format!("{place}.width"), *width, line);
                }
            }
            PlateSource::Outline { gap, width } => {
                self.length(&format!("{place}.gap"), *gap, gap_range);
                self.length(&format!("{place}.width"), *width, line);
            }
            PlateSource::Shadow {
                angle_deg,
                length,
                gap,
            } => {
                self.number(
                    &format!("{place}.angle_deg"),
                    *angle_deg,
                    [-360.0, 360.0],
                    "degrees",
                );
                self.length(&format!("{place}.length"), *length, line);
                self.length(&format!("{place}.gap"), *gap, gap_range);
            }
        }
    }
}
