//! What the values of commissions and workshops may be.
//!
//! The limits keep out slips of the pen (a negative size, metres for millimetres) and what cannot be made at all; within them the
//! maker is free. They are common practice, without a source.

mod colours;
mod commission;
mod pieces;
mod stock;
mod workshop;

use std::collections::BTreeSet;
use std::fmt;

use said::plain_number;

use crate::bill::MOST_OF_ONE;
use crate::commission::Commission;
use crate::measure::{Length, System, Unit};
use crate::workshop::Workshop;

/// A value that cannot be used.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Fault {
    /// Path of the value, as in the file: `faces[0].index`.
    pub place: String,
    /// What was found and what to do, as a clause.
    pub text: String,
}

impl Fault {
    pub(super) fn new(place: &str, text: impl Into<String>) -> Fault {
        Fault {
            place: place.to_owned(),
            text: text.into(),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "At {}: {}.", self.place, self.text)
    }
}

/// The smallest length that means anything, in millimetres.
const LEAST_MM: f64 = 0.001;
/// The largest size in lines.
const MOST_LINES: f64 = 120.0;
/// Heights to paper lie near 23 to 25 mm; a little room for experiments.
const HEIGHTS_MM: [f64; 2] = [10.0, 50.0];
/// The largest plank or travel.
const LARGEST_MM: f64 = 5000.0;
/// The largest block of spacing.
const LARGEST_SPACE_MM: f64 = 500.0;

/// The most lines of a bill: more than any font has glyphs with alternates that a person chooses.
const MOST_BILL_LINES: usize = 10_000;
/// The most blocks of one commission: hundreds of planks, more than a shop cuts in a year.
const MOST_BLOCKS: u64 = 100_000;
/// The most lines of a name and address.
const MOST_ADDRESS_LINES: usize = 12;
/// The most faces, and the most drawings, of one commission; each is a whole file in memory.
const MOST_FACES: usize = 100;
/// The most routers beside the first.
const MOST_MACHINES: usize = 20;
/// The most cutters, the most woods and the most kinds of planks of a workshop.
const MOST_IN_WORKSHOP: usize = 1000;

/// Everything that is wrong with a commission by itself, in the order of the file.
pub fn commission_faults(commission: &Commission) -> Vec<Fault> {
    let mut faults = Faults::new(commission.system);
    faults.number("lines", commission.lines, [0.1, MOST_LINES], "lines");
    faults.length("height_to_paper", commission.height_to_paper, HEIGHTS_MM);
    faults.name("wood", &commission.wood, "a wood of the workshop");
    faults.many("faces", commission.faces.len(), MOST_FACES);
    faults.faces(&commission.faces);
    faults.many("drawings", commission.drawings.len(), MOST_FACES);
    faults.drawings(commission);
    faults.fit(commission);
    faults.block(&commission.block);
    faults.notches(commission);
    faults.colours(commission);
    faults.many("customer", commission.customer.len(), MOST_ADDRESS_LINES);
    faults.many("bill", commission.bill.len(), MOST_BILL_LINES);
    faults.many("spaces", commission.spaces.len(), MOST_BILL_LINES);
    for (place, line) in commission.bill.iter().enumerate() {
        faults.bill_line(&format!("bill[{place}]"), line, commission);
    }
    for (place, space) in commission.spaces.iter().enumerate() {
        faults.length(
            &format!("spaces[{place}].set"),
            space.set,
            [LEAST_MM, LARGEST_SPACE_MM],
        );
        faults.count(&format!("spaces[{place}].count"), space.count);
    }
    faults.cut_apart(commission);
    faults.borders(&commission.borders);
    faults.blocks(commission);
    faults.cutting(&commission.cutting, commission.height_to_paper);
    faults.planks(&commission.planks, commission.height_to_paper);
    faults.found
}

/// Everything that is wrong with a workshop by itself, in the order of the file.
pub fn workshop_faults(workshop: &Workshop) -> Vec<Fault> {
    let mut faults = Faults::new(System::Pica);
    faults.machine("machine", &workshop.machine);
    faults.many("more_machines", workshop.more_machines.len(), MOST_MACHINES);
    for (place, machine) in workshop.more_machines.iter().enumerate() {
        faults.machine(&format!("more_machines[{place}]"), machine);
    }
    faults.many("cutters", workshop.cutters.len(), MOST_IN_WORKSHOP);
    faults.many("woods", workshop.woods.len(), MOST_IN_WORKSHOP);
    faults.ids("cutters", workshop.cutters.iter().map(|cutter| &cutter.id));
    for (place, cutter) in workshop.cutters.iter().enumerate() {
        faults.cutter(&format!("cutters[{place}]"), cutter);
    }
    faults.ids("woods", workshop.woods.iter().map(|wood| &wood.id));
    for (place, wood) in workshop.woods.iter().enumerate() {
        faults.wood(&format!("woods[{place}]"), wood);
    }
    faults.many("stock", workshop.stock.len(), MOST_IN_WORKSHOP);
    faults.ids("stock", workshop.stock.iter().map(|plank| &plank.id));
    for (place, plank) in workshop.stock.iter().enumerate() {
        faults.stock_plank(&format!("stock[{place}]"), plank);
    }
    faults.many("tables", workshop.tables.len(), MOST_IN_WORKSHOP);
    let mut names = BTreeSet::new();
    for (place, table) in workshop.tables.iter().enumerate() {
        let place = format!("tables[{place}]");
        faults.name(
            &format!("{place}.name"),
            &table.name,
            "whose proportions they are",
        );
        if !names.insert(&table.name) {
            faults.push(
                &format!("{place}.name"),
                format!("“{}” is used twice; give each its own name", table.name),
            );
        }
        if let Err(error) = table.table() {
            faults.push(&place, error.to_string().trim_end_matches('.'));
        }
    }
    faults.rates(&workshop.rates);
    faults.many(
        "papers.maker",
        workshop.papers.maker.len(),
        MOST_ADDRESS_LINES,
    );
    faults.found
}

struct Faults {
    system: System,
    found: Vec<Fault>,
}

impl Faults {
    fn new(system: System) -> Faults {
        Faults {
            system,
            found: Vec::new(),
        }
    }

    fn push(&mut self, place: &str, text: impl Into<String>) {
        self.found.push(Fault::new(place, text));
    }

    fn number(&mut self, place: &str, value: f64, [least, most]: [f64; 2], unit: &str) {
        if !(least..=most).contains(&value) {
            let show = |value: f64| plain_number(value, 3);
            self.push(
                place,
                format!(
                    "found {}; give {} to {} {unit}",
                    show(value),
                    show(least),
                    show(most)
                ),
            );
        }
    }

    fn length(&mut self, place: &str, length: Length, [least, most]: [f64; 2]) {
        if !(least..=most).contains(&length.in_mm()) {
            let show = |mm: f64| Length::mm(mm).show(Unit::Millimetre, self.system);
            let text = format!(
                "found {} ({}); give a length from {} to {}",
                length.exact(self.system),
                show(length.in_mm()),
                show(least),
                show(most)
            );
            self.push(place, text);
        }
    }

    fn count(&mut self, place: &str, count: u32) {
        if count > MOST_OF_ONE {
            self.push(
                place,
                format!("found {count}; at most {MOST_OF_ONE} of one sort can be ordered"),
            );
        }
    }

    fn many(&mut self, list: &str, found: usize, most: usize) {
        if found > most {
            self.push(
                list,
                format!("it has {found} entries; at most {most} are read"),
            );
        }
    }

    fn blocks(&mut self, commission: &Commission) {
        let letters = commission.bill.iter().map(|line| line.count);
        let spaces = commission.spaces.iter().map(|line| line.count);
        let middles = commission.cut_apart.iter().flat_map(|cut| &cut.lines);
        let middles = middles.filter_map(|line| Some(line.middle?.count));
        let parts = commission
            .cut_apart
            .iter()
            .filter_map(|cut| cut.counts.as_ref());
        let all: u64 = letters
            .chain(spaces)
            .chain(middles)
            .chain(parts.flatten().copied())
            .map(u64::from)
            .sum();
        if all > MOST_BLOCKS {
            self.push(
                "bill",
                format!("{all} blocks are ordered in all; at most {MOST_BLOCKS} are cut in one commission, so divide it"),
            );
        }
    }

    fn name(&mut self, place: &str, name: &str, of_what: &str) {
        if name.trim().is_empty() {
            self.push(place, format!("it is empty; name {of_what}"));
        }
    }

    /// Ids of a list: none empty, none twice.
    fn ids<'a>(&mut self, list: &str, ids: impl Iterator<Item = &'a String>) {
        let mut seen = BTreeSet::new();
        for (place, id) in ids.enumerate() {
            let place = format!("{list}[{place}].id");
            self.name(&place, id, "it by a short word");
            if !seen.insert(id) {
                self.push(
                    &place,
                    format!("“{id}” is used twice; give each its own id"),
                );
            }
        }
    }

    fn not_more(&mut self, place: &str, length: Length, of_what: &str, most: Length) {
        if length > most {
            let text = format!(
                "it is {}, more than {of_what} ({}); make it smaller",
                length.exact(self.system),
                most.exact(self.system)
            );
            self.push(place, text);
        }
    }
}
