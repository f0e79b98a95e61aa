//! What each cutter reaches on a sort, the corners it leaves, and how it runs.

use std::collections::BTreeSet;
use std::sync::Arc;

use egui::{Color32, RichText, ScrollArea, Slider, Stroke, Ui};
use kurbo::Point;

use cam_core::measure::{System, Unit};
use cam_core::pass::{Entry, Purpose, SortPasses};
use cam_core::sort::Sort;
use cam_core::survey::Survey;

use super::super::Desk;
use super::super::canvas::{Camera, sheet};
use super::super::fields::{heading, remark};
use super::super::ink::Fill;
use super::super::layer::Layer;
use super::super::marks;
use super::super::rulers;
use super::super::theme::{self, Palette};
use super::block::{paint_wood, placer};
use super::sort_list;
use crate::background::drawing::Mark;
use crate::view::words::{Text, cut as words, figure};

/// What cuts are for, in the order of the work.
const PURPOSES: [(Purpose, Text); 4] = [
    (Purpose::Roughing, words::ROUGHING),
    (Purpose::Rest, words::REST),
    (Purpose::Finishing, words::WALLS),
    (Purpose::Corners, words::INTO_CORNERS),
];

/// How far the shown line may lie from an arc, mm.
const SAGITTA_MM: f64 = 0.02;
/// The most corners listed; all are marked on the sheet.
const MOST_LISTED: usize = 60;

/// What this room keeps for itself.
pub(in crate::view) struct State {
    camera: Camera,
    cuts: bool,
    /// What the cuts shown are for.
    purposes: BTreeSet<Purpose>,
    reached: bool,
    air: bool,
    kept: Option<Kept>,
    /// The cuts as they are painted.
    drawn: Layer<Look>,
}

impl State {
    /// Whether cuts are being drawn.
    pub(super) fn is_busy(&self) -> bool {
        self.drawn.is_busy()
    }
}

impl Default for State {
    fn default() -> State {
        State {
            camera: Camera::default(),
            cuts: true,
            purposes: PURPOSES.map(|(purpose, _)| purpose).into(),
            reached: true,
            air: true,
            kept: None,
            drawn: Layer::default(),
        }
    }
}

/// Shapes of one sort's survey and passes, ready to be painted.
struct Kept {
    survey: Arc<Survey>,
    reached: Vec<Fill>,
    left: Vec<Fill>,
    unreached: Fill,
    traces: Vec<Vec<Trace>>,
}

/// One cut as lines.
struct Trace {
    purpose: Purpose,
    layer: u32,
    places: Vec<Point>,
    entry: TraceEntry,
}

enum TraceEntry {
    Down,
    Over,
    Ramp(Vec<Point>),
}

impl Kept {
    fn new(survey: &Arc<Survey>, passes: &[SortPasses]) -> Kept {
        Kept {
            survey: Arc::clone(survey),
            reached: survey
                .cutters
                .iter()
                .map(|cutter| Fill::of_region(&cutter.reached))
                .collect(),
            left: survey
                .cutters
                .iter()
                .map(|cutter| Fill::of_region(&cutter.left))
                .collect(),
            unreached: Fill::of_region(&survey.unreached),
            traces: passes.iter().map(traces).collect(),
        }
    }
}

fn traces(passes: &SortPasses) -> Vec<Trace> {
    let trace = |cut: &cam_core::pass::Cut| Trace {
        purpose: cut.purpose,
        layer: cut.layer,
        places: cut.path.points(SAGITTA_MM),
        entry: match &cut.entry {
            Entry::StayDown => TraceEntry::Over,
            Entry::Open | Entry::Plunge => TraceEntry::Down,
            Entry::Ramp { path, .. } => TraceEntry::Ramp(path.points(SAGITTA_MM)),
        },
    };
    passes.cuts.iter().map(trace).collect()
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let Some(place) = sort_list::show(ui, desk) else {
        return;
    };
    let palette = Palette::of(ui);
    let drawn = desk.drawn.and_then(|drawn| drawn.sorts.get(place)).cloned();
    // The job may be of an earlier revision, so its sorts are found by name.
    let found = drawn.as_ref().and_then(|drawn| {
        let job = Arc::clone(desk.job?);
        let place = job.sorts.iter().position(|sort| sort.name == drawn.name)?;
        Some((job, place))
    });
    let Some((job, place)) = found else {
        egui::CentralPanel::default().show(ui, |ui| {
            ui.centered_and_justified(|ui| ui.label(desk.waiting()));
        });
        return;
    };
    let sort = Arc::clone(&job.sorts[place]);
    let (Some(survey), Some(passes)) = (job.surveys.get(place), job.passes.get(place)) else {
        return;
    };
    if !state
        .kept
        .as_ref()
        .is_some_and(|kept| Arc::ptr_eq(&kept.survey, survey))
    {
        state.kept = Some(Kept::new(survey, passes));
        state.drawn = Layer::default();
    }
    egui::Panel::right("cutters")
        .exact_size(theme::SIDE_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical().auto_shrink(false).show(ui, |ui| {
                side(ui, desk, &sort, survey, passes, state);
            });
        });
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| paint(ui, desk, &sort, survey, state, &palette));
}

fn paint(
    ui: &mut Ui,
    desk: &mut Desk,
    sort: &Arc<Sort>,
    survey: &Survey,
    state: &mut State,
    palette: &Palette,
) {
    let lane = desk.document.commission().planks.lane.in_mm();
    let bounds = sort.block.rect().inflate(lane, lane);
    let label = words::CUTS_OF.with(&[&sort.name]);
    let sheet = sheet(ui, &label, bounds, &mut state.camera, palette.plank);
    let turned = desk.selection.as_printed;
    paint_wood(&sheet, sort, turned, palette);
    let place = placer(&sheet, sort, turned);
    let cutter = desk.selection.cutter.min(survey.cutters.len());
    let Some(kept) = &state.kept else {
        return;
    };
    if state.reached {
        let colour = palette.cutter(cutter).gamma_multiply(0.22);
        if let Some(fill) = kept.reached.get(cutter) {
            fill.paint_flat(&sheet.painter, &place, colour);
        }
        let left = kept.left.get(cutter).unwrap_or(&kept.unreached);
        left.paint_flat(&sheet.painter, &place, palette.left.gamma_multiply(0.75));
    }
    let face = desk.faces.of(sort, sheet.scale);
    face.paint(&sheet.painter, &place, palette.face);
    if state.cuts {
        let set = sort.block.set_mm;
        let look = Look {
            turned,
            hidden: desk.selection.hidden_cutters.clone(),
            layer: desk.selection.layer,
            purposes: state.purposes.clone(),
            air: state.air,
            palette: *palette,
        };
        let seen = look.clone();
        state
            .drawn
            .paint(ui, &sheet, look, || marks(&kept.traces, &seen, set));
    }
    let corners = survey
        .cutters
        .get(cutter)
        .map_or(&survey.corners, |cutter| &cutter.corners);
    for corner in corners {
        let at = place(corner.at);
        let radius = ((corner.gap_mm * sheet.scale) as f32).clamp(4.0, 40.0);
        sheet
            .painter
            .circle_stroke(at, radius, Stroke::new(1.6, palette.left));
    }
    rulers::paint(ui, &sheet);
}

/// What is seen of the cuts, and how.
#[derive(Clone, PartialEq)]
struct Look {
    turned: bool,
    hidden: BTreeSet<usize>,
    layer: Option<u32>,
    purposes: BTreeSet<Purpose>,
    air: bool,
    palette: Palette,
}

/// The cuts of all cutters, as they are drawn.
fn marks(traces: &[Vec<Trace>], look: &Look, set_mm: f64) -> Vec<Mark> {
    let mut marks = Vec::new();
    for (number, traces) in traces.iter().enumerate() {
        if !look.hidden.contains(&number) {
            cutter_marks(
                traces,
                look,
                set_mm,
                look.palette.cutter(number),
                &mut marks,
            );
        }
    }
    marks
}

fn cutter_marks(
    traces: &[Trace],
    look: &Look,
    set_mm: f64,
    colour: Color32,
    marks: &mut Vec<Mark>,
) {
    let turned = |place: &Point| {
        if look.turned {
            Point::new(set_mm - place.x, place.y)
        } else {
            *place
        }
    };
    let line = |places: &[Point], width: f32, colour: Color32, dashes: Option<[f32; 2]>| {
        let places = places.iter().map(turned).collect();
        Mark::Line {
            places,
            colour,
            width,
            dashes,
        }
    };
    let mut before: Option<Point> = None;
    let shown = |trace: &&Trace| {
        look.purposes.contains(&trace.purpose)
            && look.layer.is_none_or(|layer| trace.layer <= layer)
    };
    for trace in traces.iter().filter(shown) {
        let (Some(&first), Some(&last)) = (trace.places.first(), trace.places.last()) else {
            continue;
        };
        marks.push(line(&trace.places, 1.3, colour, None));
        let start = match &trace.entry {
            TraceEntry::Ramp(ramp) => {
                marks.push(line(ramp, 2.4, colour, None));
                ramp.first().copied().unwrap_or(first)
            }
            TraceEntry::Down | TraceEntry::Over => first,
        };
        match (&trace.entry, before) {
            (TraceEntry::Over, Some(before)) => {
                marks.push(line(
                    &[before, start],
                    1.0,
                    colour.gamma_multiply(0.6),
                    None,
                ));
            }
            (TraceEntry::Down | TraceEntry::Ramp(_), before) => {
                if let Some(before) = before.filter(|_| look.air) {
                    let faint = look.palette.air.gamma_multiply(0.7);
                    marks.push(line(&[before, start], 0.8, faint, Some([3.0, 4.0])));
                }
                marks.push(Mark::Dot {
                    at: turned(&start),
                    colour: look.palette.entry,
                    radius: 2.6,
                });
            }
            (TraceEntry::Over, None) => {}
        }
        before = Some(last);
    }
}

fn side(
    ui: &mut Ui,
    desk: &mut Desk,
    sort: &Sort,
    survey: &Survey,
    passes: &[SortPasses],
    state: &mut State,
) {
    let palette = Palette::of(ui);
    ui.label(RichText::new(&sort.name).size(26.0).color(palette.ink));
    desk.say_if_old(ui);
    if sort.block.plain {
        ui.label(words::NONE);
        return;
    }
    heading(ui, words::CUTTERS);
    cutter_list(ui, desk, survey, passes);
    ui.add_space(4.0);
    ui.horizontal(|ui| {
        ui.checkbox(&mut state.cuts, words::CUTS);
        ui.checkbox(&mut state.air, words::AIR);
    });
    let made = |purpose: Purpose| {
        let mut cuts = passes.iter().flat_map(|passes| &passes.cuts);
        cuts.any(|cut| cut.purpose == purpose)
    };
    ui.horizontal_wrapped(|ui| {
        for (purpose, word) in PURPOSES.into_iter().filter(|(purpose, _)| made(*purpose)) {
            let mut shown = state.purposes.contains(&purpose);
            if ui.checkbox(&mut shown, word).changed() {
                if shown {
                    state.purposes.insert(purpose);
                } else {
                    state.purposes.remove(&purpose);
                }
            }
        }
    });
    ui.checkbox(&mut state.reached, words::REACHED);
    layers(ui, desk, passes);
    let findings = marks::of_sort(desk, &sort.name);
    marks::headed(ui, desk, &findings);
    corners(ui, desk, survey);
}

fn cutter_list(ui: &mut Ui, desk: &mut Desk, survey: &Survey, passes: &[SortPasses]) {
    let palette = Palette::of(ui);
    for (place, cutter) in survey.cutters.iter().enumerate() {
        ui.horizontal(|ui| {
            let mut shown = !desk.selection.hidden_cutters.contains(&place);
            let tick = ui.add(egui::Checkbox::without_text(&mut shown));
            tick.widget_info(|| {
                let label = format!("{}: {}", words::SHOW_CUTTER, cutter.cutter);
                egui::WidgetInfo::selected(egui::Role::CheckBox, true, shown, label)
            });
            if tick.on_hover_text(words::SHOW_CUTTER).changed() {
                if shown {
                    desk.selection.hidden_cutters.remove(&place);
                } else {
                    desk.selection.hidden_cutters.insert(place);
                }
            }
            theme::spot(ui, Some(palette.cutter(place)));
            let chosen = desk.selection.cutter == place;
            if ui
                .selectable_label(chosen, cutter_name(desk, &cutter.cutter))
                .clicked()
            {
                desk.selection.cutter = place;
            }
        });
        let cuts = passes
            .iter()
            .find(|passes| passes.cutter == cutter.cutter)
            .map_or(0, |passes| passes.cuts.len());
        remark(
            ui,
            words::REACHES.with(&[
                &figure(cutter.reached_mm2, 1),
                &figure(cutter.left_mm2, 1),
                &cuts.to_string(),
                &cutter.corners.len().to_string(),
            ]),
        );
    }
    let all = survey.cutters.len();
    if ui
        .selectable_label(desk.selection.cutter >= all, words::SET)
        .clicked()
    {
        desk.selection.cutter = all;
    }
    remark(
        ui,
        words::LEAVE.with(&[
            &figure(survey.unreached_mm2, 2),
            &survey.corners.len().to_string(),
        ]),
    );
}

/// The cutter's diameter and id.
fn cutter_name(desk: &Desk, id: &str) -> String {
    match desk.document.workshop().cutter(id) {
        Some(cutter) => format!(
            "{} ({id})",
            cutter.diameter.show(Unit::Millimetre, System::Pica)
        ),
        None => id.to_owned(),
    }
}

fn layers(ui: &mut Ui, desk: &mut Desk, passes: &[SortPasses]) {
    let deepest = passes
        .iter()
        .flat_map(|passes| &passes.cuts)
        .map(|cut| cut.layer)
        .max()
        .unwrap_or(0);
    if deepest == 0 {
        return;
    }
    // Counted from 1 for people.
    let mut shown = desk.selection.layer.unwrap_or(deepest).min(deepest) + 1;
    ui.horizontal(|ui| {
        let label = ui.label(words::LAYER);
        ui.spacing_mut().slider_width = 110.0;
        let slider = Slider::new(&mut shown, 1..=deepest + 1);
        if ui.add(slider).labelled_by(label.id).changed() {
            desk.selection.layer = (shown <= deepest).then_some(shown - 1);
        }
    });
}

fn corners(ui: &mut Ui, desk: &Desk, survey: &Survey) {
    heading(ui, words::CORNERS);
    let chosen = survey.cutters.get(desk.selection.cutter);
    let corners = chosen.map_or(&survey.corners, |cutter| &cutter.corners);
    if corners.is_empty() {
        remark(ui, words::NO_CORNERS);
        return;
    }
    egui::Grid::new("corners")
        .num_columns(3)
        .striped(true)
        .show(ui, |ui| {
            for title in [words::ANGLE, words::GAP, words::WANTED] {
                ui.label(RichText::new(title).small().color(Palette::of(ui).quiet));
            }
            ui.end_row();
            for corner in corners.iter().take(MOST_LISTED) {
                ui.label(format!("{:.0}°", corner.angle_deg));
                ui.label(format!("{} mm", figure(corner.gap_mm, 2)));
                ui.label(format!("{} mm", figure(corner.wanted_diameter_mm, 2)));
                ui.end_row();
            }
        });
    if corners.len() > MOST_LISTED {
        remark(ui, format!("… and {} more", corners.len() - MOST_LISTED));
    }
}
