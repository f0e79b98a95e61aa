//! Limits of the parts of a commission.

use std::collections::BTreeSet;

use geometry::font::FeatureChoice;

use super::stock::LEAST_PLANK_MM;
use super::{Faults, LARGEST_MM, LARGEST_SPACE_MM, LEAST_MM, MOST_BILL_LINES, MOST_IN_WORKSHOP};
use crate::commission::{
    BillLine, BlockRules, Commission, Cutting, DrawingSize, Face, Fit, GlyphChoice, Hold,
    PlankRules, Separation, SetRule,
};
use crate::measure::{Length, Unit};

/// Hexadecimal digits of a SHA-256.
const SHA256_DIGITS: usize = 64;

impl Faults {
    pub(super) fn faces(&mut self, faces: &[Face]) {
        self.ids("faces", faces.iter().map(|face| &face.id));
        for (place, face) in faces.iter().enumerate() {
            let place = format!("faces[{place}]");
            self.name(&format!("{place}.file"), &face.file, "the font file");
            self.sha256(&format!("{place}.sha256"), &face.sha256);
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

    fn sha256(&mut self, place: &str, hash: &str) {
        let is_hash =
            hash.len() == SHA256_DIGITS && hash.bytes().all(|byte| byte.is_ascii_hexdigit());
        if !hash.is_empty() && !is_hash {
            self.push(
                place,
                format!("“{hash}” is not a SHA-256 of 64 hexadecimal digits; leave it out to record it anew"),
            );
        }
    }

    pub(super) fn drawings(&mut self, commission: &Commission) {
        const MOST_GAP_MM: f64 = 5.0;
        const MOST_SIDE_MM: f64 = 100.0;
        let drawings = &commission.drawings;
        self.ids("drawings", drawings.iter().map(|drawing| &drawing.id));
        for (number, drawing) in drawings.iter().enumerate() {
            let place = |key: &str| format!("drawings[{number}].{key}");
            if commission.faces.iter().any(|face| face.id == drawing.id) {
                self.push(
                    &place("id"),
                    format!(
                        "“{}” is a face already; give the drawing another id",
                        drawing.id
                    ),
                );
            }
            self.name(&place("file"), &drawing.file, "the SVG or DXF file");
            self.sha256(&place("sha256"), &drawing.sha256);
            if let Some(layer) = &drawing.layer {
                self.name(&place("layer"), layer, "a colour or layer, or leave it out");
            }
            if drawing.left.is_some() && drawing.set.is_none() {
                self.push(
                    &place("left"),
                    "the wood at the left is told on a stated set; give the set, or a side for both sides",
                );
            }
            let whole = [LEAST_MM, LARGEST_SPACE_MM];
            match drawing.size {
                DrawingSize::AsDrawn => {}
                DrawingSize::Height(height) => self.length(&place("height"), height, whole),
                DrawingSize::Width(width) => self.length(&place("width"), width, whole),
            }
            for (key, length, range) in [
                ("body", drawing.body, whole),
                ("set", drawing.set, whole),
                ("foot", drawing.foot, [0.0, LARGEST_SPACE_MM]),
                ("left", drawing.left, [0.0, LARGEST_SPACE_MM]),
                ("side", drawing.side, [0.0, MOST_SIDE_MM]),
                ("join_gap", Some(drawing.join_gap), [0.0, MOST_GAP_MM]),
            ] {
                if let Some(length) = length {
                    self.length(&place(key), length, range);
                }
            }
        }
    }

    pub(super) fn fit(&mut self, commission: &Commission) {
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

    pub(super) fn block(&mut self, rules: &BlockRules) {
        const MOST_MARGIN_MM: f64 = 100.0;
        if let SetRule::FaceAndMargin(margin) = rules.set {
            self.length("block.margin", margin, [0.0, MOST_MARGIN_MM]);
        }
        self.length("block.least_side", rules.least_side, [0.0, MOST_MARGIN_MM]);
    }

    pub(super) fn notches(&mut self, commission: &Commission) {
        const MOST_WALL_MM: f64 = 50.0;
        const STEPS_MM: [f64; 2] = [0.3, 10.0];
        const MOST_CLEARANCE_MM: f64 = 1.0;
        const MOST_KINDS: u32 = 12;
        const MOST_PAIRS: usize = 1_000;
        let Some(rules) = &commission.notches else {
            return;
        };
        self.many("notches.pairs", rules.pairs.len(), MOST_PAIRS);
        for (place, pair) in rules.pairs.iter().enumerate() {
            if pair.chars().count() != 2 {
                self.push(
                    &format!("notches.pairs[{place}]"),
                    format!("“{pair}” is not a pair; give two characters, such as \"AV\""),
                );
            }
        }
        self.length("notches.least_wall", rules.least_wall, [0.0, MOST_WALL_MM]);
        self.length("notches.step", rules.step, STEPS_MM);
        let clearances = [0.0, MOST_CLEARANCE_MM];
        self.length("notches.clearance", rules.clearance, clearances);
        let kinds = [1.0, f64::from(MOST_KINDS)];
        self.number("notches.kinds", f64::from(rules.kinds), kinds, "kinds");
        match commission.notch_cutter() {
            Some(cutter) => self.name("notches.cutter", cutter, "the cutter that cuts the notches"),
            None => self.push(
                "notches.cutter",
                "no router cuts the blocks out, so name the cutter for the notches",
            ),
        }
    }

    pub(super) fn bill_line(&mut self, place: &str, line: &BillLine, commission: &Commission) {
        if !commission.has_source(&line.face, &line.glyph) {
            let (key, what, list) = match &line.glyph {
                GlyphChoice::Drawing => ("drawing", "drawing", "drawings"),
                GlyphChoice::Character { .. }
                | GlyphChoice::Ligature { .. }
                | GlyphChoice::Name(_)
                | GlyphChoice::Index(_) => ("face", "face", "faces"),
            };
            self.push(
                &format!("{place}.{key}"),
                format!("the commission has no {what} “{}”; add it under {list}, or name one that is there", line.face),
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
            GlyphChoice::Index(_) | GlyphChoice::Drawing => {}
        }
    }

    pub(super) fn features(&mut self, place: &str, features: &[String]) {
        for (number, feature) in features.iter().enumerate() {
            if let Err(error) = feature.parse::<FeatureChoice>() {
                self.push(
                    &format!("{place}.features[{number}]"),
                    error.to_string().trim_end_matches('.'),
                );
            }
        }
    }

    pub(super) fn cutting(&mut self, cutting: &Cutting, height_to_paper: Length) {
        const MOST_TOLERANCE_MM: f64 = 0.5;
        const MOST_ALLOWANCE_MM: f64 = 5.0;
        const MOST_CORNER_MM: f64 = 10.0;
        const MOST_GROUND_MM: f64 = 100.0;
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
        let widths = [LEAST_MM, MOST_GROUND_MM];
        self.length("cutting.narrow_width", cutting.narrow_width, widths);
        self.length("cutting.wide_width", cutting.wide_width, widths);
        if cutting.narrow_width >= cutting.wide_width {
            self.push(
                "cutting.narrow_width",
                format!(
                    "it is {}, not less than the wide width of {}; make it smaller, or the wide width larger",
                    cutting.narrow_width.exact(self.system),
                    cutting.wide_width.exact(self.system)
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

    pub(super) fn planks(&mut self, rules: &PlankRules, height_to_paper: Length) {
        const MOST_LANE_MM: f64 = 100.0;
        self.length("planks.width", rules.width, [LEAST_PLANK_MM, LARGEST_MM]);
        self.length("planks.length", rules.length, [LEAST_PLANK_MM, LARGEST_MM]);
        self.length("planks.margin", rules.margin, [0.0, LARGEST_MM / 2.0]);
        self.length("planks.lane", rules.lane, [LEAST_MM, MOST_LANE_MM]);
        self.clamps("planks.clamps", &rules.clamps);
        self.many("planks.stock", rules.stock.len(), MOST_IN_WORKSHOP);
        let mut seen = BTreeSet::new();
        for (number, id) in rules.stock.iter().enumerate() {
            let place = format!("planks.stock[{number}]");
            self.name(&place, id, "a plank of the workshop's stock");
            if !seen.insert(id) {
                self.push(&place, format!("“{id}” is named twice; take one out"));
            }
        }
        if let Some(kerf) = rules.kerf {
            self.length("planks.kerf", kerf, [LEAST_MM, MOST_LANE_MM]);
            self.not_more("planks.kerf", kerf, "the lane", rules.lane);
        }
        self.many("planks.pins", rules.pins.len(), MOST_BILL_LINES);
        let mut pinned = BTreeSet::new();
        for (number, pin) in rules.pins.iter().enumerate() {
            let place = |key: &str| format!("planks.pins[{number}].{key}");
            self.name(&place("block"), &pin.block, "a block, such as A-1");
            self.name(&place("plank"), &pin.plank, "a plank, such as plank-1");
            if !pinned.insert(&pin.block) {
                self.push(
                    &place("block"),
                    format!("“{}” is pinned twice; take one out", pin.block),
                );
            }
            self.length(&place("x"), pin.x, [0.0, LARGEST_MM]);
            self.length(&place("y"), pin.y, [0.0, LARGEST_MM]);
        }
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
}
