//! Title, size, height to paper, fit and set.

use egui::Ui;

use cam_core::commission::{BodyStep, Fit, RoundingShare, SetRounding, SetRule};
use cam_core::measure::{HEIGHTS_TO_PAPER, Length, System, Unit};

use super::super::super::Desk;
use super::super::super::fields::{self, choice, heading, remark, tick};
use super::customer;
use crate::model::command::Command;
use crate::view::words::{Text, measured, order::size as words};

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    order(ui, desk);
    body_and_set(ui, desk);
}

fn order(ui: &mut Ui, desk: &mut Desk) {
    let commission = std::sync::Arc::clone(desk.document.commission());
    let system = commission.system;
    heading(ui, words::ORDER);
    if let Some(title) = fields::text(ui, words::TITLE, &commission.title) {
        desk.send(Command::Title(title));
    }
    if let Some(reference) = fields::text(ui, words::REFERENCE, &commission.reference) {
        desk.send(Command::Reference(reference));
    }
    customer::show(ui, desk);
    let systems = System::ALL.map(|system| (system, system.name().to_owned()));
    if let Some(system) = choice(ui, words::SYSTEM, &system, &systems) {
        desk.send(Command::System(system));
    }
    if let Some(lines) = fields::lines(ui, words::SIZE, commission.lines, system) {
        desk.send(Command::Lines(lines));
    }
    let body = Length::lines(commission.lines, system);
    remark(
        ui,
        words::BODIES.with(&[
            &measured(body, Unit::Point, system),
            &measured(body, Unit::Millimetre, system),
        ]),
    );
    let unit = if system == System::Pica {
        Unit::Inch
    } else {
        Unit::Millimetre
    };
    if let Some(height) =
        fields::length(ui, words::HEIGHT, commission.height_to_paper, unit, system)
    {
        desk.send(Command::HeightToPaper(height));
    }
    place(ui, desk, commission.height_to_paper, unit, system);
    let woods: Vec<(String, String)> = desk
        .document
        .workshop()
        .woods
        .iter()
        .map(|wood| (wood.id.clone(), wood.name.clone()))
        .collect();
    if let Some(wood) = choice(ui, words::WOOD, &commission.wood, &woods) {
        desk.send(Command::Wood(wood));
    }
}

/// Heights to paper by place; choosing one fills the field above.
fn place(ui: &mut Ui, desk: &mut Desk, height: Length, unit: Unit, system: System) {
    let found = HEIGHTS_TO_PAPER
        .iter()
        .position(|preset| preset.height == height);
    let mut options: Vec<(Option<usize>, String)> = HEIGHTS_TO_PAPER
        .iter()
        .enumerate()
        .map(|(place, preset)| {
            (
                Some(place),
                format!("{}: {}", preset.name, preset.height.show(unit, system)),
            )
        })
        .collect();
    if found.is_none() {
        options.push((None, words::OTHER_HEIGHT.to_string()));
    }
    if let Some(Some(chosen)) = choice(ui, words::PLACE, &found, &options) {
        desk.send(Command::HeightToPaper(HEIGHTS_TO_PAPER[chosen].height));
    }
    if let Some(found) = found {
        remark(ui, HEIGHTS_TO_PAPER[found].source);
    }
}

/// The kinds of [`Fit`], without their lengths.
#[derive(Clone, Copy, PartialEq)]
enum FitKind {
    Capitals,
    AscenderToDescender,
    EmOnBody,
    CapitalHeight,
}

fn fit(ui: &mut Ui, desk: &mut Desk, fit: Fit, system: System) {
    let (kind, head, foot) = match fit {
        Fit::Capitals { head, foot } => (FitKind::Capitals, head, foot),
        Fit::AscenderToDescender { head, foot } => (FitKind::AscenderToDescender, head, foot),
        Fit::EmOnBody => (FitKind::EmOnBody, Length::mm(0.0), Length::mm(0.0)),
        Fit::CapitalHeight { foot, .. } => (FitKind::CapitalHeight, Length::mm(0.0), foot),
    };
    let options = [
        (FitKind::Capitals, words::CAPITALS.to_string()),
        (FitKind::AscenderToDescender, words::ASCENDER.to_string()),
        (FitKind::EmOnBody, words::EM.to_string()),
        (FitKind::CapitalHeight, words::CAPITAL_HEIGHT.to_string()),
    ];
    if let Some(kind) = choice(ui, words::FIT, &kind, &options) {
        // Two thirds of the body: capitals of common display faces.
        let capitals = Length::lines(desk.document.commission().lines * 2.0 / 3.0, system);
        desk.send(Command::Fit(match kind {
            FitKind::Capitals => Fit::Capitals { head, foot },
            FitKind::AscenderToDescender => Fit::AscenderToDescender { head, foot },
            FitKind::EmOnBody => Fit::EmOnBody,
            FitKind::CapitalHeight => Fit::CapitalHeight { capitals, foot },
        }));
    }
    let ask =
        |ui: &mut Ui, label: Text, value| fields::length(ui, label, value, Unit::Point, system);
    let changed = match fit {
        Fit::Capitals { head, foot } => {
            let (new_head, new_foot) = (ask(ui, words::HEAD, head), ask(ui, words::FOOT, foot));
            (new_head.is_some() || new_foot.is_some()).then(|| Fit::Capitals {
                head: new_head.unwrap_or(head),
                foot: new_foot.unwrap_or(foot),
            })
        }
        Fit::AscenderToDescender { head, foot } => {
            let (new_head, new_foot) = (ask(ui, words::HEAD, head), ask(ui, words::FOOT, foot));
            (new_head.is_some() || new_foot.is_some()).then(|| Fit::AscenderToDescender {
                head: new_head.unwrap_or(head),
                foot: new_foot.unwrap_or(foot),
            })
        }
        Fit::EmOnBody => None,
        Fit::CapitalHeight { capitals, foot } => {
            let new_capitals = ask(ui, words::CAPITALS_ARE, capitals);
            let new_foot = ask(ui, words::FOOT, foot);
            (new_capitals.is_some() || new_foot.is_some()).then(|| Fit::CapitalHeight {
                capitals: new_capitals.unwrap_or(capitals),
                foot: new_foot.unwrap_or(foot),
            })
        }
    };
    if let Some(fit) = changed {
        desk.send(Command::Fit(fit));
    }
}

fn body_and_set(ui: &mut Ui, desk: &mut Desk) {
    let commission = std::sync::Arc::clone(desk.document.commission());
    let system = commission.system;
    heading(ui, words::BODY);
    fit(ui, desk, commission.fit, system);
    let old = commission.block;
    let mut rules = old;
    let steps = [
        (BodyStep::Line, "1 line".to_owned()),
        (BodyStep::HalfLine, words::SIX_POINTS.to_string()),
    ];
    rules.body_step = choice(ui, words::LARGER, &old.body_step, &steps).unwrap_or(old.body_step);
    let is_advance = old.set == SetRule::Advance;
    let sources = [
        (true, words::ADVANCE.to_string()),
        (false, words::MARGIN_RULE.to_string()),
    ];
    match choice(ui, words::SET, &is_advance, &sources) {
        Some(true) => rules.set = SetRule::Advance,
        Some(false) => rules.set = SetRule::FaceAndMargin(Length::points_of(1.0, system)),
        None => {}
    }
    if let SetRule::FaceAndMargin(margin) = old.set
        && let Some(margin) = fields::length(ui, words::MARGIN, margin, Unit::Point, system)
    {
        rules.set = SetRule::FaceAndMargin(margin);
    }
    let roundings = [
        (SetRounding::SixPoints, words::SIX_POINTS.to_string()),
        (SetRounding::ThreePoints, words::THREE_POINTS.to_string()),
        (SetRounding::Point, words::ONE_POINT.to_string()),
        (SetRounding::HalfPoint, words::HALF_POINT.to_string()),
        (SetRounding::QuarterPoint, words::QUARTER_POINT.to_string()),
        (SetRounding::Free, words::NOT_ROUNDED.to_string()),
    ];
    rules.rounding = choice(ui, words::ROUNDED, &old.rounding, &roundings).unwrap_or(old.rounding);
    let shares = [
        (RoundingShare::Even, words::HALF_EACH.to_string()),
        (RoundingShare::Right, words::TO_RIGHT.to_string()),
        (RoundingShare::Left, words::TO_LEFT.to_string()),
    ];
    rules.share = choice(ui, words::SHARE, &old.share, &shares).unwrap_or(old.share);
    let side = fields::length(ui, words::SIDE, old.least_side, Unit::Millimetre, system);
    rules.least_side = side.unwrap_or(rules.least_side);
    rules.common_figure_set =
        tick(ui, words::FIGURES, old.common_figure_set).unwrap_or(old.common_figure_set);
    if rules != old {
        desk.send(Command::Block(rules));
    }
}
