//! Plates of letters and drawings in colours: which there are, in what ink and order, and what each is made from.

use std::sync::Arc;

use cam_core::commission::{ColourRules, Commission, Plate, PlateSource};
use cam_core::measure::{Length, System, Unit};
use cam_core::proof::impression::Colour;
use egui::{Color32, Sense, Ui};

use super::super::super::Desk;
use super::super::super::fields::{self, choice, count, heading, remark, row, tick};
use super::super::super::words;
use crate::model::command::Command;

/// What this view keeps for itself.
#[derive(Default)]
pub(super) struct State {
    /// The plate whose form is shown, by its place.
    chosen: usize,
}

/// The ink of a new plate.
const NEW_INK: &str = "black";
/// A new shadow: to the right and down, a sixteenth of the body long.
const NEW_ANGLE_DEG: f64 = -45.0;
const NEW_SHADOW_PART: f64 = 1.0 / 16.0;
/// A new line within or about a letter, points.
const NEW_LINE_PT: f64 = 2.0;
/// A patch of ink, px.
const PATCH: f32 = 14.0;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let commission = Arc::clone(desk.document.commission());
    heading(ui, words::PLATES);
    let mut rules = commission.colours.clone();
    match tick(ui, words::PLATES_WANTED, rules.is_some()) {
        Some(true) => rules = Some(beginning(&commission)),
        Some(false) => rules = None,
        None => {}
    }
    match &mut rules {
        None => remark(ui, words::PLATES_WHAT),
        Some(rules) => form(ui, rules, &commission, state),
    }
    if rules != commission.colours {
        desk.send(Command::Colours(rules));
    }
}

/// Colours to begin with: the letter over its shadow.
fn beginning(commission: &Commission) -> ColourRules {
    let body = Length::lines(commission.lines, commission.system);
    let shadow = PlateSource::Shadow {
        angle_deg: NEW_ANGLE_DEG,
        length: Length::mm(body.in_mm() * NEW_SHADOW_PART),
        gap: Length::mm(0.0),
    };
    let plate = |number: &str, ink: &str, source, overprinted| Plate {
        name: words::PLATE_NEW.with(&[number]),
        ink: ink.to_owned(),
        source,
        overprinted,
    };
    ColourRules {
        plates: vec![
            plate("1", "yellow", shadow, true),
            plate("2", NEW_INK, PlateSource::Letter, false),
        ],
        ..ColourRules::starting()
    }
}

fn form(ui: &mut Ui, rules: &mut ColourRules, commission: &Commission, state: &mut State) {
    let system = commission.system;
    if rules.plates.is_empty() {
        remark(ui, words::PLATES_OWN);
        if let Some(palette) = count(ui, words::PLATE_PALETTE, u32::from(rules.palette)) {
            rules.palette = u16::try_from(palette).unwrap_or(u16::MAX);
        }
    } else {
        remark(ui, words::PLATES_ORDER);
    }
    state.chosen = state.chosen.min(rules.plates.len().saturating_sub(1));
    for (place, plate) in rules.plates.iter().enumerate() {
        ui.horizontal(|ui| {
            let (patch, _) = ui.allocate_exact_size(egui::vec2(PATCH, PATCH), Sense::hover());
            ui.painter().rect_filled(patch, 2.0, painted(plate));
            let told = format!("{} {}", place + 1, plate.name);
            if ui.selectable_label(place == state.chosen, told).clicked() {
                state.chosen = place;
            }
        });
    }
    one(ui, rules, commission, state);
    if ui.button(words::PLATE_ADD.said()).clicked() {
        state.chosen = rules.plates.len();
        rules.plates.push(new_plate(rules));
    }
    let trap = fields::length(ui, words::PLATE_TRAP, rules.trap, Unit::Millimetre, system);
    rules.trap = trap.unwrap_or(rules.trap);
    remark(ui, words::PLATE_TRAP_HINT);
    let press = &words::PLATE_MISREGISTER;
    let misregister = fields::length(ui, press, rules.misregister, Unit::Millimetre, system);
    rules.misregister = misregister.unwrap_or(rules.misregister);
    whose(ui, rules, commission);
}

/// A plate that prints the letter, under a name that is free.
fn new_plate(rules: &ColourRules) -> Plate {
    let name = |number: usize| words::PLATE_NEW.with(&[&number.to_string()]);
    let is_free = |name: &String| rules.plates.iter().all(|plate| plate.name != *name);
    // One of so many names is free, since there are fewer plates.
    let mut names = (rules.plates.len() + 1..2 * rules.plates.len() + 2).map(name);
    Plate {
        name: names.find(is_free).unwrap_or_default(),
        ink: NEW_INK.to_owned(),
        source: PlateSource::Letter,
        overprinted: false,
    }
}

fn painted(plate: &Plate) -> Color32 {
    let ink = Colour::ink(&plate.ink).unwrap_or(Colour::new(0, 0, 0));
    Color32::from_rgb(ink.red, ink.green, ink.blue)
}

/// The form of the plate that is chosen.
fn one(ui: &mut Ui, rules: &mut ColourRules, commission: &Commission, state: &mut State) {
    let Some(before) = rules.plates.get(state.chosen).cloned() else {
        return;
    };
    let mut plate = before.clone();
    ui.push_id(("plate", state.chosen), |ui| {
        if let Some(name) = fields::text(ui, words::PLATE_NAME, &plate.name) {
            plate.name = name;
        }
        ink(ui, &mut plate);
        source(ui, &mut plate, commission);
        let whole = tick(ui, words::PLATE_WHOLE, plate.overprinted);
        plate.overprinted = whole.unwrap_or(plate.overprinted);
        if let Some(cut) = tick(ui, words::PLATE_CUT, rules.cuts(&before.name)) {
            cut_now(rules, &before.name, cut);
        }
    });
    if plate.name != before.name {
        let cut = rules.cut.iter_mut();
        let counts = rules.counts.iter_mut().map(|one| &mut one.plate);
        for named in cut.chain(counts).filter(|named| **named == before.name) {
            named.clone_from(&plate.name);
        }
    }
    rules.plates[state.chosen] = plate;
    ui.horizontal(|ui| {
        let last = rules.plates.len() - 1;
        let earlier = egui::Button::new(words::PLATE_EARLIER.said());
        if ui.add_enabled(state.chosen > 0, earlier).clicked() {
            rules.plates.swap(state.chosen, state.chosen - 1);
            state.chosen -= 1;
        }
        let later = egui::Button::new(words::PLATE_LATER.said());
        if ui.add_enabled(state.chosen < last, later).clicked() {
            rules.plates.swap(state.chosen, state.chosen + 1);
            state.chosen += 1;
        }
        if ui.button(words::PLATE_AWAY.said()).clicked() {
            let name = rules.plates.remove(state.chosen).name;
            rules.cut.retain(|named| *named != name);
            rules.counts.retain(|one| one.plate != name);
        }
    });
}

/// A plate is cut now, or is not; where all are, none is named.
fn cut_now(rules: &mut ColourRules, name: &str, cut: bool) {
    let all: Vec<String> = rules
        .plates
        .iter()
        .map(|plate| plate.name.clone())
        .collect();
    let now: Vec<String> = all
        .iter()
        .filter(|other| {
            if *other == name {
                cut
            } else {
                rules.cuts(other)
            }
        })
        .cloned()
        .collect();
    // The last plate that is cut stays: an order for none cuts nothing.
    if now.is_empty() {
        return;
    }
    rules.cut = if now.len() == all.len() {
        Vec::new()
    } else {
        now
    };
}

fn ink(ui: &mut Ui, plate: &mut Plate) {
    if let Some(ink) = fields::text(ui, words::PLATE_INK, &plate.ink) {
        plate.ink = ink;
    }
    row(ui, "", |ui, _| {
        let mut colour = painted(plate);
        let [red, green, blue, _] = colour.to_array();
        let response = ui.color_edit_button_srgba(&mut colour);
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_label(words::PLATE_PICK.said());
        });
        let [new_red, new_green, new_blue, _] = colour.to_array();
        if [red, green, blue] != [new_red, new_green, new_blue] {
            plate.ink = format!("#{new_red:02x}{new_green:02x}{new_blue:02x}");
        }
    });
    remark(ui, words::PLATE_INK_HINT);
}

/// The kinds of [`PlateSource`], without what belongs to them.
#[derive(Clone, Copy, PartialEq)]
enum From {
    Letter,
    Face,
    Colour,
    Inline,
    Outline,
    Shadow,
}

impl From {
    fn of(source: &PlateSource) -> From {
        match source {
            PlateSource::Letter => From::Letter,
            PlateSource::Face(_) => From::Face,
            PlateSource::FontColour(_) => From::Colour,
            PlateSource::Inline { .. } => From::Inline,
            PlateSource::Outline { .. } => From::Outline,
            PlateSource::Shadow { .. } => From::Shadow,
        }
    }

    /// What a plate is made from when this kind is chosen.
    fn begun(self, plate: &Plate, commission: &Commission) -> PlateSource {
        let line = Length::points_of(NEW_LINE_PT, commission.system);
        match self {
            From::Letter => PlateSource::Letter,
            From::Face => {
                let companion = commission.faces.get(1).or(commission.faces.first());
                PlateSource::Face(companion.map_or_else(String::new, |face| face.id.clone()))
            }
            From::Colour => {
                let [red, green, blue, _] = painted(plate).to_array();
                PlateSource::FontColour(format!("#{red:02x}{green:02x}{blue:02x}"))
            }
            From::Inline => PlateSource::Inline {
                inset: line,
                width: Some(line),
            },
            From::Outline => PlateSource::Outline {
                gap: Length::mm(0.0),
                width: line,
            },
            From::Shadow => {
                let body = Length::lines(commission.lines, commission.system);
                PlateSource::Shadow {
                    angle_deg: NEW_ANGLE_DEG,
                    length: Length::mm(body.in_mm() * NEW_SHADOW_PART),
                    gap: Length::mm(0.0),
                }
            }
        }
    }
}

/// What the plate is made from.
fn source(ui: &mut Ui, plate: &mut Plate, commission: &Commission) {
    let mut kinds = vec![(From::Letter, words::PLATE_LETTER.into())];
    let has_companion = commission.faces.len() > 1;
    let from = From::of(&plate.source);
    if has_companion || from == From::Face {
        kinds.push((From::Face, words::PLATE_FACE.into()));
    }
    kinds.extend([
        (From::Colour, words::PLATE_COLOUR.into()),
        (From::Inline, words::PLATE_INLINE.into()),
        (From::Outline, words::PLATE_OUTLINE.into()),
        (From::Shadow, words::PLATE_SHADOW.into()),
    ]);
    if let Some(kind) = choice(ui, words::PLATE_FROM, &from, &kinds) {
        plate.source = kind.begun(plate, commission);
    }
    let system = commission.system;
    match &mut plate.source {
        PlateSource::Letter => {}
        PlateSource::Face(id) => {
            let faces: Vec<(String, String)> = commission
                .faces
                .iter()
                .map(|face| (face.id.clone(), face.id.clone()))
                .collect();
            if let Some(chosen) = choice(ui, words::PLATE_COMPANION, id, &faces) {
                *id = chosen;
            }
        }
        PlateSource::FontColour(colour) => {
            if let Some(typed) = fields::text(ui, words::PLATE_OF_COLOUR, colour) {
                *colour = typed.to_lowercase();
            }
        }
        PlateSource::Inline { inset, width } => {
            ask(ui, &words::PLATE_INSET, inset, system);
            match tick(ui, words::PLATE_ALL_WITHIN, width.is_none()) {
                Some(true) => *width = None,
                Some(false) => *width = Some(Length::points_of(NEW_LINE_PT, system)),
                None => {}
            }
            if let Some(width) = width {
                ask(ui, &words::PLATE_WIDTH, width, system);
            }
        }
        PlateSource::Outline { gap, width } => {
            ask(ui, &words::PLATE_WIDTH, width, system);
            ask(ui, &words::PLATE_GAP, gap, system);
        }
        PlateSource::Shadow {
            angle_deg,
            length,
            gap,
        } => {
            if let Some(angle) = fields::quantity(ui, words::PLATE_ANGLE, *angle_deg, "°") {
                *angle_deg = angle;
            }
            remark(ui, words::PLATE_ANGLE_HINT);
            ask(ui, &words::PLATE_LENGTH, length, system);
            ask(ui, &words::PLATE_GAP, gap, system);
        }
    }
}

fn ask(ui: &mut Ui, label: &str, value: &mut Length, system: System) {
    if let Some(length) = fields::length(ui, label, *value, Unit::Point, system) {
        *value = length;
    }
}

/// Which faces and drawings are in colours, where there is a choice.
fn whose(ui: &mut Ui, rules: &mut ColourRules, commission: &Commission) {
    if commission.faces.len() + commission.drawings.len() < 2 {
        return;
    }
    let first = commission.faces.first().map_or("", |face| &face.id);
    let mut faces: Vec<String> = commission
        .faces
        .iter()
        .filter(|face| rules.are_of(&face.id, first))
        .map(|face| face.id.clone())
        .collect();
    for face in &commission.faces {
        let label = words::PLATE_OF_FACE.with(&[&face.id]);
        match tick(ui, &label, faces.contains(&face.id)) {
            Some(true) => faces.push(face.id.clone()),
            Some(false) => faces.retain(|id| *id != face.id),
            None => {}
        }
    }
    let mut drawings = rules.drawings.clone();
    for drawing in &commission.drawings {
        let label = words::PLATE_OF_DRAWING.with(&[&drawing.id]);
        match tick(ui, &label, drawings.contains(&drawing.id)) {
            Some(true) => drawings.push(drawing.id.clone()),
            Some(false) => drawings.retain(|id| *id != drawing.id),
            None => {}
        }
    }
    if !commission.drawings.is_empty() {
        remark(ui, words::PLATE_DRAWING_HINT);
    }
    // Naming none of either means the first face; so the last one named stays.
    if !(faces.is_empty() && drawings.is_empty()) {
        let is_first_alone = drawings.is_empty() && faces == [first];
        rules.faces = if is_first_alone { Vec::new() } else { faces };
        rules.drawings = drawings;
    }
}
