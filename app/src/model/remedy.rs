//! What can be done about a finding at once, as a command.

use std::collections::BTreeSet;

use cam_core::commission::{BillLine, Commission, Fit};
use cam_core::digest::sha256_hex;
use cam_core::finding::{Finding, Subject};
use cam_core::make::Fonts;
use cam_core::measure::Length;
use cam_core::plank::Plank;
use cam_core::sort::{Sort, name_of};
use cam_core::workshop::{Cutter, CutterShape, Workshop};

use super::command::Command;

/// Shoulders are widened to the next of these, mm, so that nothing is left of what hung out.
const SHOULDER_STEP_MM: f64 = 0.05;

/// A remedy that needs nothing but the maker's word.
#[derive(Clone, Debug, PartialEq)]
pub enum Remedy {
    /// A letter that cannot be made is taken off the bill.
    Drop(BillLine),
    /// The commission is cut with a cutter more: its id.
    Take(String),
    /// The commission is cut without a cutter: its id.
    Leave(String),
    /// The font file of a face, by its id, is recorded as it is now.
    Record(String),
    /// The shoulder is widened: head or foot, and by how much.
    Widen(Shoulder, Length),
    /// Pins of blocks that are not ordered are taken out: the blocks.
    Unpin(BTreeSet<String>),
}

/// Where a block has wood beyond its letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shoulder {
    /// Above.
    Head,
    /// Below.
    Foot,
}

/// What a remedy is looked for in.
#[derive(Clone, Copy, Debug)]
pub struct Ground<'a> {
    /// The commission.
    pub commission: &'a Commission,
    /// The workshop.
    pub workshop: &'a Workshop,
    /// The sort that the finding speaks of, if it was drawn.
    pub sort: Option<&'a Sort>,
    /// The planks, if they were laid out from the commission as it stands; else none.
    pub planks: &'a [Plank],
}

impl Remedy {
    /// What can be done about a finding, if that takes no decision but to do it.
    pub fn of(finding: &Finding, ground: &Ground) -> Option<Remedy> {
        let Ground {
            commission,
            workshop,
            sort,
            planks,
        } = ground;
        match (finding.kind, &finding.subject) {
            ("glyph-missing" | "nothing-drawn" | "outline-unusable", Subject::Sort(name)) => {
                line_of(commission, name).map(Remedy::Drop)
            }
            ("ground-narrow" | "corners-round", Subject::Sort(_)) => {
                next_smaller(commission, workshop).map(|cutter| Remedy::Take(cutter.id.clone()))
            }
            ("cutter-unknown", Subject::Cutter(id)) => {
                let cutters = &commission.cutting.cutters;
                (cutters.len() > 1 && cutters.contains(id)).then(|| Remedy::Leave(id.clone()))
            }
            ("font-changed" | "font-not-recorded", Subject::Face(id)) => {
                let is_face = commission.faces.iter().any(|face| face.id == *id);
                is_face.then(|| Remedy::Record(id.clone()))
            }
            ("body-grown-for-little", Subject::Sort(_)) => shoulder(commission, (*sort)?),
            ("pin-idle", Subject::Commission) => {
                let idle = idle_pins(commission, planks);
                (!idle.is_empty()).then_some(Remedy::Unpin(idle))
            }
            _ => None,
        }
    }

    /// The command that does it; `None` if it can no longer be done.
    pub fn command(&self, commission: &Commission, fonts: &Fonts) -> Option<Command> {
        match self {
            Remedy::Drop(line) => Some(Command::Count {
                face: line.face.clone(),
                glyph: line.glyph.clone(),
                count: 0,
            }),
            Remedy::Take(id) => {
                let mut cutting = commission.cutting.clone();
                cutting.cutters.push(id.clone());
                Some(Command::Cutting(cutting))
            }
            Remedy::Leave(id) => {
                let mut cutting = commission.cutting.clone();
                cutting.cutters.retain(|one| one != id);
                Some(Command::Cutting(cutting))
            }
            Remedy::Record(id) => Some(Command::AcceptFont {
                face: id.clone(),
                sha256: sha256_hex(fonts.get(id)?),
            }),
            Remedy::Widen(shoulder, by) => {
                widened(commission.fit, *shoulder, *by).map(Command::Fit)
            }
            Remedy::Unpin(blocks) => {
                let mut rules = commission.planks.clone();
                rules.pins.retain(|pin| !blocks.contains(&pin.block));
                Some(Command::Planks(rules))
            }
        }
    }
}

/// The line of the bill that orders a sort of this name, if it is the only one.
fn line_of(commission: &Commission, name: &str) -> Option<BillLine> {
    let is_named = |line: &&BillLine| {
        let own = name_of(&line.glyph);
        line.count > 0 && (own == name || format!("{own} ({})", line.face) == name)
    };
    let mut found = commission.bill.iter().filter(is_named);
    let one = found.next()?;
    found.next().is_none().then(|| one.clone())
}

/// The largest flat cutter of the workshop that is smaller than all that the commission is cut with.
fn next_smaller<'a>(commission: &Commission, workshop: &'a Workshop) -> Option<&'a Cutter> {
    let flat = |cutter: &&Cutter| cutter.shape == CutterShape::Flat;
    let diameter = |cutter: &Cutter| cutter.diameter.in_mm();
    let used = commission.cutting.cutters.iter();
    let smallest = used
        .filter_map(|id| workshop.cutter(id))
        .filter(flat)
        .map(diameter)
        .fold(f64::INFINITY, f64::min);
    let smaller = workshop.cutters.iter().filter(flat);
    smaller
        .filter(|cutter| diameter(cutter) < smallest)
        .max_by(|one, other| diameter(one).total_cmp(&diameter(other)))
}

/// By how much which shoulder would have to be wider so that a letter's body need not grow.
fn shoulder(commission: &Commission, sort: &Sort) -> Option<Remedy> {
    let face = sort.face.bounding_box()?;
    let points = |points: f64| Length::points_of(points, commission.system).in_mm();
    let [foot, head] = sort.block.extended_pt.map(points);
    let out = [
        (Shoulder::Foot, foot - face.y0),
        (Shoulder::Head, face.y1 - (sort.block.body_mm - head)),
    ];
    let grown = [foot, head];
    // The least that hangs out is what a body grew for too easily.
    let (where_, out_mm) = out
        .into_iter()
        .zip(grown)
        .filter(|((_, out), grown)| *grown > 0.0 && *out > 0.0)
        .map(|(out, _)| out)
        .min_by(|one, other| one.1.total_cmp(&other.1))?;
    let by = Length::mm((out_mm / SHOULDER_STEP_MM).ceil() * SHOULDER_STEP_MM);
    widened(commission.fit, where_, by)?;
    Some(Remedy::Widen(where_, by))
}

/// A fit with a wider shoulder; `None` of one that has none there.
fn widened(fit: Fit, shoulder: Shoulder, by: Length) -> Option<Fit> {
    let wider = |length: Length| Length::mm(length.in_mm() + by.in_mm());
    let both = |head: Length, foot: Length| match shoulder {
        Shoulder::Head => (wider(head), foot),
        Shoulder::Foot => (head, wider(foot)),
    };
    match fit {
        Fit::Capitals { head, foot } => {
            let (head, foot) = both(head, foot);
            Some(Fit::Capitals { head, foot })
        }
        Fit::AscenderToDescender { head, foot } => {
            let (head, foot) = both(head, foot);
            Some(Fit::AscenderToDescender { head, foot })
        }
        Fit::CapitalHeight { capitals, foot } => match shoulder {
            Shoulder::Foot => Some(Fit::CapitalHeight {
                capitals,
                foot: wider(foot),
            }),
            Shoulder::Head => None,
        },
        Fit::EmOnBody => None,
    }
}

/// The pinned blocks that lie on none of these planks.
fn idle_pins(commission: &Commission, planks: &[Plank]) -> BTreeSet<String> {
    let places = planks.iter().flat_map(|plank| &plank.places);
    let lying: BTreeSet<&str> = places.map(|place| place.id.as_str()).collect();
    if lying.is_empty() {
        return BTreeSet::new();
    }
    let pins = commission.planks.pins.iter();
    pins.map(|pin| pin.block.clone())
        .filter(|block| !lying.contains(block.as_str()))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    use crate::model::apply::apply;
    use cam_core::commission::{GlyphChoice, Pin};
    use cam_core::finding::Severity;
    use cam_core::format::read_commission;
    use cam_core::plank::Place;
    use kurbo::Vec2;
    use said::Said;

    fn commission() -> Commission {
        let text = r#"{ "format": "sortwright-commission", "version": 1, "lines": 10,
            "faces": [{ "file": "face.otf" }], "cutting": { "cutters": ["flat-6", "flat-3"] },
            "bill": [{ "letters": "A 3, B 2" }] }"#;
        read_commission(text).expect("a commission")
    }

    fn finding(kind: &'static str, subject: Subject) -> Finding {
        Finding {
            severity: Severity::Warning,
            subject,
            kind,
            text: Said::default(),
            remedy: Said::default(),
        }
    }

    /// The remedy, and the commission after it.
    fn done(kind: &'static str, subject: Subject, planks: &[Plank]) -> Option<Commission> {
        let mut commission = commission();
        commission.planks.pins = vec![Pin {
            block: "C-1".to_owned(),
            plank: "plank-1".to_owned(),
            x: Length::mm(10.0),
            y: Length::mm(10.0),
        }];
        let workshop = Workshop::starting();
        let ground = Ground {
            commission: &commission,
            workshop: &workshop,
            sort: None,
            planks,
        };
        let remedy = Remedy::of(&finding(kind, subject), &ground)?;
        let mut fonts = Fonts::new();
        fonts.insert("main".to_owned(), std::sync::Arc::from(vec![1, 2, 3]));
        let command = remedy.command(&commission, &fonts)?;
        Some(apply(&commission, &command).expect("it can be done"))
    }

    #[test]
    fn a_letter_that_cannot_be_made_is_dropped() {
        let sort = |name: &str| Subject::Sort(name.to_owned());
        let after = done("glyph-missing", sort("A"), &[]).expect("a remedy");
        let ordered: Vec<&GlyphChoice> = after.bill.iter().map(|line| &line.glyph).collect();
        assert_eq!(ordered.len(), 1);
        assert_eq!(name_of(ordered[0]), "B");
        assert_eq!(done("glyph-missing", sort("C"), &[]), None);
        assert_eq!(done("stroke-thin", sort("A"), &[]), None);
    }

    #[test]
    fn cutters_are_taken_and_left() {
        let sort = Subject::Sort("A".to_owned());
        let after = done("ground-narrow", sort, &[]).expect("a remedy");
        assert_eq!(after.cutting.cutters, ["flat-6", "flat-3", "flat-1.5"]);
        let cutter = |id: &str| Subject::Cutter(id.to_owned());
        let after = done("cutter-unknown", cutter("flat-3"), &[]).expect("a remedy");
        assert_eq!(after.cutting.cutters, ["flat-6"]);
        assert_eq!(done("cutter-unknown", cutter("flat-9"), &[]), None);
    }

    #[test]
    fn a_font_is_recorded_as_it_is() {
        let face = |id: &str| Subject::Face(id.to_owned());
        let after = done("font-changed", face("main"), &[]).expect("a remedy");
        assert_eq!(after.faces[0].sha256, sha256_hex(&[1, 2, 3]));
        assert_eq!(done("font-changed", face("vine"), &[]), None);
    }

    #[test]
    fn idle_pins_are_taken_out_once_it_is_known_what_lies_on_the_planks() {
        assert_eq!(done("pin-idle", Subject::Commission, &[]), None);
        let plank = |id: &str| Plank {
            places: vec![Place {
                id: id.to_owned(),
                sort: 0,
                at: Vec2::ZERO,
            }],
            ..Plank::default()
        };
        let after = done("pin-idle", Subject::Commission, &[plank("A-1")]);
        assert!(after.expect("a remedy").planks.pins.is_empty());
        assert_eq!(done("pin-idle", Subject::Commission, &[plank("C-1")]), None);
    }

    #[test]
    fn shoulders_are_widened_where_a_fit_has_them() {
        let mm = Length::mm;
        let by = mm(0.1);
        let fit = Fit::Capitals {
            head: mm(1.0),
            foot: mm(2.0),
        };
        let wider = widened(fit, Shoulder::Foot, by);
        assert!(
            matches!(wider, Some(Fit::Capitals { foot, .. }) if (foot.in_mm() - 2.1).abs() < 1e-9)
        );
        assert_eq!(widened(Fit::EmOnBody, Shoulder::Head, by), None);
        let stated = Fit::CapitalHeight {
            capitals: mm(20.0),
            foot: mm(2.0),
        };
        assert_eq!(widened(stated, Shoulder::Head, by), None);
    }
}
