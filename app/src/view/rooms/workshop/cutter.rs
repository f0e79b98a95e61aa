//! A cutter's form.

use cam_core::feeds::{propose, troubles};
use cam_core::measure::{Length, System, Unit};
use cam_core::workshop::{Cutter, CutterShape, Workshop};
use egui::Ui;

use super::super::super::Desk;
use super::super::super::fields::{self, choice, count, heading, quantity, remark, tick};
use super::super::super::theme::Palette;
use super::{Bench, free_word};
use crate::model::shop::Named;
use crate::view::words::workshop::{cutter as words, machine as words_of_machine};
use crate::view::words::{Text, figure, said};

/// Young's modulus of high-speed steel, GPa.
const STEEL_GPA: f64 = 210.0;

/// A cutter to begin with, of the shape that a word of the list asks for.
pub(super) fn new(word: Text, workshop: &Workshop) -> Cutter {
    let starting = Workshop::starting().cutters;
    let is_used = |id: &str| workshop.cutter(id).is_some();
    let usual = |id: &str| starting.iter().find(|cutter| cutter.id == id).cloned();
    let (model, stem) = match word {
        super::words::NEW_CONE => ("cone-60", "cone"),
        super::words::NEW_BALL => ("flat-3", "ball"),
        _ => ("flat-3", "flat"),
    };
    let mut cutter = usual(model)
        .or_else(|| workshop.cutters.first().cloned())
        .unwrap_or_else(|| Cutter {
            id: String::new(),
            shape: CutterShape::Flat,
            diameter: Length::mm(3.0),
            flute_length: Length::mm(12.0),
            max_depth: Length::mm(10.0),
            stick_out: Length::mm(18.0),
            shank_diameter: Cutter::usual_shank(Length::mm(3.0)),
            modulus_gpa: Cutter::USUAL_MODULUS_GPA,
            flutes: 2,
            centre_cutting: true,
            step_down: Length::mm(1.0),
            step_over: Length::mm(1.2),
            feed_mm_min: 1000.0,
            plunge_mm_min: 300.0,
            ramp_deg: 3.0,
            spindle_rpm: 18_000.0,
        });
    if word == super::words::NEW_BALL {
        cutter.shape = CutterShape::Ball;
    }
    cutter.id = free_word(stem, is_used);
    cutter
}

/// Shows the form; false if there is no such cutter.
pub(super) fn show(ui: &mut Ui, desk: &Desk, bench: &mut Bench, place: usize) -> bool {
    let commission = desk.document.commission();
    let system = commission.system;
    let Some(cutter) = bench.workshop.cutters.get_mut(place) else {
        return false;
    };
    let before = cutter.clone();
    heading(ui, &cutter.id);
    if let Some(id) = fields::text(ui, words::ID, &cutter.id) {
        cutter.id = id;
    }
    shape(ui, cutter, system);
    let ask = |ui: &mut Ui, label: Text, value: &mut Length| {
        if let Some(length) = fields::length(ui, label, *value, Unit::Millimetre, system) {
            *value = length;
        }
    };
    ask(ui, words::FLUTE_LENGTH, &mut cutter.flute_length);
    ask(ui, words::DEEPEST, &mut cutter.max_depth);
    ask(ui, words::STICK_OUT, &mut cutter.stick_out);
    ask(ui, words::SHANK, &mut cutter.shank_diameter);
    made_of(ui, cutter);
    if let Some(flutes) = count(ui, words::FLUTES, cutter.flutes) {
        cutter.flutes = flutes;
    }
    if let Some(plunges) = tick(ui, words::PLUNGES, cutter.centre_cutting) {
        cutter.centre_cutting = plunges;
    }
    heading(ui, words::RUN);
    ask(ui, words::LAYER, &mut cutter.step_down);
    ask(ui, words::WIDTH, &mut cutter.step_over);
    for (label, value, unit) in [
        (words::FEED, &mut cutter.feed_mm_min, "mm/min"),
        (words::PLUNGE, &mut cutter.plunge_mm_min, "mm/min"),
        (words::RAMP, &mut cutter.ramp_deg, "°"),
        (
            words::SPINDLE,
            &mut cutter.spindle_rpm,
            words_of_machine::TURNS.said(),
        ),
    ] {
        if let Some(number) = quantity(ui, label, *value, unit) {
            *value = number;
        }
    }
    let wood = bench.workshop.woods.iter();
    if let Some(wood) = wood.into_iter().find(|wood| wood.id == commission.wood) {
        let allowance_mm = commission.cutting.allowance.in_mm();
        let proposal = propose(cutter, wood, &bench.workshop.machine, allowance_mm);
        let taken = proposal.taken_over(cutter);
        remark(
            ui,
            words::PROPOSED.with(&[
                &wood.name,
                &figure(proposal.step_down_mm.value, 2),
                &figure(proposal.step_over_mm.value, 2),
                &figure(proposal.feed_mm_min.value, 0),
                &figure(proposal.plunge_mm_min.value, 0),
                &figure(proposal.spindle_rpm.value, 0),
            ]),
        );
        if taken != *cutter
            && ui
                .button(words::TAKE)
                .on_hover_text(words::TAKE_HINT)
                .clicked()
        {
            *cutter = taken;
        }
        let warning = Palette::of(ui).warning;
        for trouble in troubles(cutter, wood, allowance_mm) {
            let (text, remedy) = (said(&trouble.text), said(&trouble.remedy));
            ui.colored_label(warning, format!("{text} {remedy}"));
        }
    }
    let (is_changed, id) = (*cutter != before, cutter.id.clone());
    if is_changed {
        bench.what = "a cutter";
    }
    if id != before.id {
        bench.rename(Named::Cutter, &before.id, id);
    }
    true
}

/// The shapes without their measures.
#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Flat,
    Ball,
    Cone,
}

fn shape(ui: &mut Ui, cutter: &mut Cutter, system: System) {
    let kind = match cutter.shape {
        CutterShape::Flat => Kind::Flat,
        CutterShape::Ball => Kind::Ball,
        CutterShape::Conical { .. } => Kind::Cone,
    };
    let kinds = [
        (Kind::Flat, words::FLAT.to_string()),
        (Kind::Ball, words::BALL.to_string()),
        (Kind::Cone, words::CONE.to_string()),
    ];
    if let Some(kind) = choice(ui, words::SHAPE, &kind, &kinds) {
        cutter.shape = match kind {
            Kind::Flat => CutterShape::Flat,
            Kind::Ball => CutterShape::Ball,
            Kind::Cone => CutterShape::Conical {
                tip: Length::mm(0.2),
                included_angle_deg: 60.0,
            },
        };
    }
    let diameter = fields::length(
        ui,
        words::DIAMETER,
        cutter.diameter,
        Unit::Millimetre,
        system,
    );
    if let Some(diameter) = diameter {
        cutter.diameter = diameter;
    }
    if let CutterShape::Conical {
        tip,
        included_angle_deg,
    } = &mut cutter.shape
    {
        if let Some(length) = fields::length(ui, words::TIP, *tip, Unit::Millimetre, system) {
            *tip = length;
        }
        if let Some(angle) = quantity(ui, words::ANGLE, *included_angle_deg, "°") {
            *included_angle_deg = angle;
        }
    }
}

fn made_of(ui: &mut Ui, cutter: &mut Cutter) {
    let offered = [
        (Some(Cutter::USUAL_MODULUS_GPA), words::CARBIDE.to_string()),
        (Some(STEEL_GPA), words::STEEL.to_string()),
        (None, words::OTHER.to_string()),
    ];
    let known = offered
        .iter()
        .filter_map(|(modulus, _)| *modulus)
        .find(|modulus| *modulus == cutter.modulus_gpa);
    if let Some(Some(modulus)) = choice(ui, words::MADE_OF, &known, &offered) {
        cutter.modulus_gpa = modulus;
    }
    if let Some(modulus) = quantity(ui, words::MODULUS, cutter.modulus_gpa, "GPa") {
        cutter.modulus_gpa = modulus;
    }
}
