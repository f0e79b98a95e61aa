//! What the values of commissions and workshops may be.
//!
//! The limits keep out slips of the pen (a negative size, metres for millimetres) and what cannot be made at all; within them the
//! maker is free. They are common practice, without a source.

use std::collections::BTreeSet;
use std::fmt;

use geometry::font::FeatureChoice;

use crate::bill::MOST_OF_ONE;
use crate::commission::{
    BillLine, BlockRules, Commission, Cutting, Face, Fit, GlyphChoice, Hold, PlankRules,
    Separation, SetRule,
};
use crate::measure::{Length, System, Unit, plain_number};
use crate::workshop::{Cutter, CutterShape, Machine, Workshop};

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
/// Hexadecimal digits of a SHA-256.
const SHA256_DIGITS: usize = 64;

/// Everything that is wrong with a commission by itself, in the order of the file.
pub fn commission_faults(commission: &Commission) -> Vec<Fault> {
    let mut faults = Faults::new(commission.system);
    faults.number("lines", commission.lines, [0.1, MOST_LINES], "lines");
    faults.length("height_to_paper", commission.height_to_paper, HEIGHTS_MM);
    faults.name("wood", &commission.wood, "a wood of the workshop");
    faults.faces(&commission.faces);
    faults.fit(commission);
    faults.block(&commission.block);
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
    faults.cutting(&commission.cutting, commission.height_to_paper);
    faults.planks(&commission.planks, commission.height_to_paper);
    faults.found
}

/// Everything that is wrong with a workshop by itself, in the order of the file.
pub fn workshop_faults(workshop: &Workshop) -> Vec<Fault> {
    let mut faults = Faults::new(System::Pica);
    faults.machine(&workshop.machine);
    faults.ids("cutters", workshop.cutters.iter().map(|cutter| &cutter.id));
    for (place, cutter) in workshop.cutters.iter().enumerate() {
        faults.cutter(&format!("cutters[{place}]"), cutter);
    }
    faults.ids("woods", workshop.woods.iter().map(|wood| &wood.id));
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

    fn faces(&mut self, faces: &[Face]) {
        self.ids("faces", faces.iter().map(|face| &face.id));
        for (place, face) in faces.iter().enumerate() {
            let place = format!("faces[{place}]");
            self.name(&format!("{place}.file"), &face.file, "the font file");
            let hash = &face.sha256;
            let is_hash =
                hash.len() == SHA256_DIGITS && hash.bytes().all(|byte| byte.is_ascii_hexdigit());
            if !hash.is_empty() && !is_hash {
                self.push(
                    &format!("{place}.sha256"),
                    format!("“{hash}” is not a SHA-256 of 64 hexadecimal digits; leave it out to record it anew"),
                );
            }
            for (tag, value) in &face.variations {
                if tag.len() != 4 || !tag.is_ascii() || !value.is_finite() {
                    self.push(
                        &format!("{place}.axes"),
                        format!(
                            "“{tag}”: {value} is not an axis with its value, such as \"wght\": 700"
                        ),
                    );
                }
            }
        }
    }

    fn fit(&mut self, commission: &Commission) {
        // Negative shoulders would let letters hang out of the body on purpose; larger bodies are there for that.
        let body_mm = Length::lines(commission.lines, commission.system).in_mm();
        let body_mm = if body_mm > 0.0 { body_mm } else { LARGEST_MM };
        let shoulder = [0.0, body_mm];
        match commission.fit {
            Fit::Capitals { head, foot } | Fit::AscenderToDescender { head, foot } => {
                self.length("fit.head", head, shoulder);
                self.length("fit.foot", foot, shoulder);
                let both = head.in_mm() + foot.in_mm();
                if both >= body_mm {
                    self.push(
                        "fit",
                        format!(
                            "the shoulders take {}, the body has {}; make them smaller",
                            Length::mm(both).show(Unit::Point, self.system),
                            Length::mm(body_mm).show(Unit::Point, self.system)
                        ),
                    );
                }
            }
            Fit::EmOnBody => {}
            Fit::CapitalHeight { capitals, foot } => {
                self.length("fit.capitals", capitals, [LEAST_MM, LARGEST_SPACE_MM]);
                self.length("fit.foot", foot, shoulder);
            }
        }
    }

    fn block(&mut self, rules: &BlockRules) {
        const MOST_MARGIN_MM: f64 = 100.0;
        if let SetRule::FaceAndMargin(margin) = rules.set {
            self.length("block.margin", margin, [0.0, MOST_MARGIN_MM]);
        }
        self.length("block.least_side", rules.least_side, [0.0, MOST_MARGIN_MM]);
    }

    fn bill_line(&mut self, place: &str, line: &BillLine, commission: &Commission) {
        if !commission.faces.iter().any(|face| face.id == line.face) {
            self.push(
                &format!("{place}.face"),
                format!("the commission has no face “{}”; add it under faces, or name one that is there", line.face),
            );
        }
        self.count(&format!("{place}.count"), line.count);
        match &line.glyph {
            GlyphChoice::Character { features, .. } => self.features(place, features),
            GlyphChoice::Ligature { text, features } => {
                if text.chars().count() < 2 {
                    self.push(
                        &format!("{place}.ligature"),
                        format!("“{text}” is not several letters; use “character” for one"),
                    );
                }
                self.features(place, features);
            }
            GlyphChoice::Name(name) => {
                self.name(&format!("{place}.glyph"), name, "a glyph of the font")
            }
            GlyphChoice::Index(_) => {}
        }
    }

    fn features(&mut self, place: &str, features: &[String]) {
        for (number, feature) in features.iter().enumerate() {
            if let Err(error) = feature.parse::<FeatureChoice>() {
                self.push(
                    &format!("{place}.features[{number}]"),
                    error.to_string().trim_end_matches('.'),
                );
            }
        }
    }

    fn cutting(&mut self, cutting: &Cutting, height_to_paper: Length) {
        const MOST_TOLERANCE_MM: f64 = 0.5;
        const MOST_ALLOWANCE_MM: f64 = 5.0;
        const MOST_CORNER_MM: f64 = 10.0;
        if cutting.cutters.is_empty() {
            self.push(
                "cutting.cutters",
                "it is empty; name at least one cutter of the workshop",
            );
        }
        let mut seen = BTreeSet::new();
        for (place, cutter) in cutting.cutters.iter().enumerate() {
            let place = format!("cutting.cutters[{place}]");
            self.name(&place, cutter, "a cutter of the workshop");
            if !seen.insert(cutter) {
                self.push(&place, format!("“{cutter}” is named twice; take one out"));
            }
        }
        let height_mm = height_to_paper.in_mm();
        self.length(
            "cutting.tolerance",
            cutting.tolerance,
            [LEAST_MM, MOST_TOLERANCE_MM],
        );
        self.length("cutting.relief", cutting.relief, [LEAST_MM, height_mm]);
        self.length(
            "cutting.least_relief",
            cutting.least_relief,
            [LEAST_MM, height_mm],
        );
        if cutting.least_relief > cutting.relief {
            self.push(
                "cutting.least_relief",
                format!(
                    "it is {}, more than the relief of {}; make it smaller, or the relief deeper",
                    cutting.least_relief.exact(self.system),
                    cutting.relief.exact(self.system)
                ),
            );
        }
        self.length(
            "cutting.allowance",
            cutting.allowance,
            [0.0, MOST_ALLOWANCE_MM],
        );
        self.length(
            "cutting.corner_tolerance",
            cutting.corner_tolerance,
            [LEAST_MM, MOST_CORNER_MM],
        );
        self.length(
            "cutting.least_stroke",
            cutting.least_stroke,
            [0.0, MOST_CORNER_MM],
        );
    }

    fn planks(&mut self, rules: &PlankRules, height_to_paper: Length) {
        const LEAST_PLANK_MM: f64 = 10.0;
        const MOST_LANE_MM: f64 = 100.0;
        self.length("planks.width", rules.width, [LEAST_PLANK_MM, LARGEST_MM]);
        self.length("planks.length", rules.length, [LEAST_PLANK_MM, LARGEST_MM]);
        self.length("planks.margin", rules.margin, [0.0, LARGEST_MM / 2.0]);
        self.length("planks.lane", rules.lane, [LEAST_MM, MOST_LANE_MM]);
        match &rules.separation {
            Separation::Saw => {}
            Separation::Router { cutter, hold } => {
                let place = "planks.separation";
                self.name(
                    &format!("{place}.cutter"),
                    cutter,
                    "the cutter that cuts the blocks out",
                );
                let within = [LEAST_MM, height_to_paper.in_mm()];
                match *hold {
                    Hold::Tabs { width, height } => {
                        self.length(
                            &format!("{place}.tabs.width"),
                            width,
                            [LEAST_MM, MOST_LANE_MM],
                        );
                        self.length(&format!("{place}.tabs.height"), height, within);
                    }
                    Hold::Skin(skin) => self.length(&format!("{place}.skin"), skin, within),
                }
            }
        }
    }

    fn machine(&mut self, machine: &Machine) {
        const SPEEDS_MM_MIN: [f64; 2] = [1.0, 100_000.0];
        const ACCELERATIONS_MM_S2: [f64; 2] = [1.0, 50_000.0];
        const MOST_DEVIATION_MM: f64 = 1.0;
        const SPINDLES_RPM: [f64; 2] = [1.0, 200_000.0];
        for axis in 0..3 {
            let place = |key: &str| format!("machine.{key}[{axis}]");
            self.number(
                &place("travel_mm"),
                machine.travel_mm[axis],
                [1.0, LARGEST_MM],
                "mm",
            );
            self.number(
                &place("rapid_mm_min"),
                machine.rapid_mm_min[axis],
                SPEEDS_MM_MIN,
                "mm/min",
            );
            self.number(
                &place("max_feed_mm_min"),
                machine.max_feed_mm_min[axis],
                SPEEDS_MM_MIN,
                "mm/min",
            );
            self.number(
                &place("acceleration_mm_s2"),
                machine.acceleration_mm_s2[axis],
                ACCELERATIONS_MM_S2,
                "mm/s²",
            );
        }
        self.number(
            "machine.junction_deviation_mm",
            machine.junction_deviation_mm,
            [0.0001, MOST_DEVIATION_MM],
            "mm",
        );
        let [slowest, fastest] = machine.spindle_rpm;
        self.number(
            "machine.spindle_rpm[0]",
            slowest,
            SPINDLES_RPM,
            "turns a minute",
        );
        self.number(
            "machine.spindle_rpm[1]",
            fastest,
            SPINDLES_RPM,
            "turns a minute",
        );
        if slowest > fastest {
            self.push(
                "machine.spindle_rpm",
                "the slowest speed comes first; turn the two about",
            );
        }
        self.number(
            "machine.clear_height_mm",
            machine.clear_height_mm,
            [0.5, 100.0],
            "mm",
        );
        self.name(
            "machine.dialect",
            &machine.dialect,
            "the dialect of the controller, such as plain",
        );
    }

    fn cutter(&mut self, place: &str, cutter: &Cutter) {
        const DIAMETERS_MM: [f64; 2] = [0.05, 50.0];
        const LENGTHS_MM: [f64; 2] = [0.05, 200.0];
        const FEEDS_MM_MIN: [f64; 2] = [1.0, 100_000.0];
        let at = |key: &str| format!("{place}.{key}");
        let diameter_mm = cutter.diameter.in_mm();
        self.length(&at("diameter"), cutter.diameter, DIAMETERS_MM);
        if let CutterShape::Conical {
            tip,
            included_angle_deg,
        } = cutter.shape
        {
            self.length(&at("tip_diameter"), tip, [0.0, diameter_mm]);
            self.number(
                &at("included_angle_deg"),
                included_angle_deg,
                [1.0, 179.0],
                "degrees",
            );
        }
        self.length(&at("flute_length"), cutter.flute_length, LENGTHS_MM);
        self.length(
            &at("max_depth"),
            cutter.max_depth,
            [LEAST_MM, LENGTHS_MM[1]],
        );
        self.not_more(
            &at("max_depth"),
            cutter.max_depth,
            "the flutes",
            cutter.flute_length,
        );
        self.length(&at("stick_out"), cutter.stick_out, LENGTHS_MM);
        self.not_more(
            &at("max_depth"),
            cutter.max_depth,
            "the stick-out",
            cutter.stick_out,
        );
        if !(1..=16).contains(&cutter.flutes) {
            self.push(
                &at("flutes"),
                format!(
                    "found {}; give the number of cutting edges, 1 to 16",
                    cutter.flutes
                ),
            );
        }
        self.length(
            &at("step_down"),
            cutter.step_down,
            [LEAST_MM, LENGTHS_MM[1]],
        );
        self.not_more(
            &at("step_down"),
            cutter.step_down,
            "the flutes",
            cutter.flute_length,
        );
        self.length(
            &at("step_over"),
            cutter.step_over,
            [LEAST_MM, DIAMETERS_MM[1]],
        );
        self.not_more(
            &at("step_over"),
            cutter.step_over,
            "the diameter",
            cutter.diameter,
        );
        self.number(
            &at("feed_mm_min"),
            cutter.feed_mm_min,
            FEEDS_MM_MIN,
            "mm/min",
        );
        self.number(
            &at("plunge_mm_min"),
            cutter.plunge_mm_min,
            FEEDS_MM_MIN,
            "mm/min",
        );
        self.number(&at("ramp_deg"), cutter.ramp_deg, [0.1, 45.0], "degrees");
        self.number(
            &at("spindle_rpm"),
            cutter.spindle_rpm,
            [1.0, 200_000.0],
            "turns a minute",
        );
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
