//! A finished block in light and shadow, turned and tilted by hand.

use std::sync::Arc;

use egui::{Color32, ColorImage, Key, Modifiers, Role, Sense, TextureHandle, TextureOptions, Ui};

use cam_core::make::Job;

use super::super::super::Desk;
use super::super::super::fields::remark;
use super::super::super::theme::{self, Palette};
use super::super::super::words;
use super::say;
use crate::background::relief::{Block, Dots, Finished, Look, MOST_TILT, NEAREST, Wood};
use crate::background::{Latest, Wake};

/// How far a drag of one dot turns and tilts, radians.
const BY_DRAG: f32 = 0.008;
/// How far an arrow key turns and tilts, radians: five degrees.
const BY_KEY: f32 = 0.087_266_46;
/// One step nearer by key, and wheel travel, px, for nearer by e.
const NEARER: f32 = 1.25;
const WHEEL_PER_E: f32 = 300.0;
/// While it moves, each dot of the picture stands for so many of the screen.
const COARSE: f32 = 3.0;

/// What this view keeps.
#[derive(Default)]
pub(super) struct State {
    /// The block, by its id.
    block: Option<String>,
    look: Look,
    lit: Option<Lit>,
    picture: Latest<Dots>,
    /// What the picture was last asked for.
    asked: Option<(Look, [usize; 2])>,
    shown: Option<TextureHandle>,
    /// Counts what was asked for, so that the newest wins.
    count: u64,
}

/// A block that is lit, and of what.
struct Lit {
    of: (Arc<Job>, usize, String, Wood),
    block: Arc<Block>,
}

impl State {
    pub(super) fn is_busy(&self) -> bool {
        self.picture.running().is_some()
    }
}

/// The controls beside the view.
pub(super) fn side(ui: &mut Ui, job: &Job, plank: usize, state: &mut State) {
    let Some(plank) = job.planks.get(plank) else {
        return;
    };
    let now = chosen(job, plank, state).unwrap_or_default();
    ui.horizontal(|ui| {
        let label = ui.label(words::OF_BLOCK);
        let combo = egui::ComboBox::from_id_salt("block")
            .selected_text(&now)
            .truncate()
            .show_ui(ui, |ui| {
                for place in &plank.places {
                    if ui.selectable_label(place.id == now, &place.id).clicked() {
                        state.block = Some(place.id.clone());
                    }
                }
            });
        combo.response.labelled_by(label.id);
    });
    let degrees =
        |ui: &mut Ui, label: &str, value: &mut f32, range: std::ops::RangeInclusive<f32>| {
            let mut degrees = value.to_degrees();
            let label = ui.label(label);
            let slider = egui::Slider::new(&mut degrees, range)
                .suffix("°")
                .fixed_decimals(0);
            if ui.add(slider).labelled_by(label.id).changed() {
                *value = degrees.to_radians();
            }
        };
    degrees(ui, &words::TURN, &mut state.look.turn, -180.0..=180.0);
    degrees(
        ui,
        &words::TILT,
        &mut state.look.tilt,
        0.0..=MOST_TILT.to_degrees(),
    );
    let label = ui.label(words::NEAR);
    let slider = egui::Slider::new(&mut state.look.near, 1.0..=NEAREST).fixed_decimals(1);
    ui.add(slider).labelled_by(label.id);
    ui.horizontal(|ui| {
        if ui.button(words::FROM_ABOVE).clicked() {
            state.look = Look {
                turn: 0.0,
                tilt: 0.0,
                near: 1.0,
            };
        }
        if ui.button(words::AS_FIRST).clicked() {
            state.look = Look::default();
        }
    });
    remark(ui, words::BLOCK_KEYS);
}

/// The block that is chosen, if it lies on this plank; else the first that bears a letter.
fn chosen(job: &Job, plank: &cam_core::plank::Plank, state: &State) -> Option<String> {
    let known = state.block.as_ref();
    let here = |id: &&String| plank.places.iter().any(|place| place.id == **id);
    let lettered = || {
        let mut places = plank.places.iter();
        let with_face = |place: &&cam_core::plank::Place| {
            job.sorts
                .get(place.sort)
                .is_some_and(|sort| !sort.block.plain)
        };
        places.find(with_face).or(plank.places.first())
    };
    known
        .filter(here)
        .or(lettered().map(|place| &place.id))
        .cloned()
}

/// The block itself.
pub(super) fn show(ui: &mut Ui, desk: &mut Desk, job: &Arc<Job>, plank: usize, state: &mut State) {
    let palette = Palette::of(ui);
    desk.wishes.finished = Some(plank);
    let finished = match desk.finished {
        Some(Ok(finished)) if finished.plank == plank => finished,
        Some(Err(sentence)) => return say(ui, sentence),
        Some(Ok(_)) | None => return say(ui, &words::CUTTING_IT),
    };
    let Some(id) = job
        .planks
        .get(plank)
        .and_then(|plank| chosen(job, plank, state))
    else {
        return say(ui, &words::NO_SORTS);
    };
    light(job, finished, plank, &id, &palette, state);
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| paint(ui, &id, state));
}

/// Lights the block anew if another is shown.
fn light(
    job: &Arc<Job>,
    finished: &Finished,
    plank: usize,
    id: &str,
    palette: &Palette,
    state: &mut State,
) {
    let wood = wood(palette);
    let known = |lit: &Lit| {
        let (of, at, block, colours) = &lit.of;
        Arc::ptr_eq(of, job) && *at == plank && block == id && *colours == wood
    };
    if state.lit.as_ref().is_some_and(known) {
        return;
    }
    let place = job.planks[plank].places.iter().find(|place| place.id == id);
    let Some(place) = place else {
        return;
    };
    let Some(sort) = job.sorts.get(place.sort) else {
        return;
    };
    let block = finished.block(sort.block.rect() + place.at, &wood);
    state.lit = Some(Lit {
        of: (Arc::clone(job), plank, id.to_owned(), wood),
        block: Arc::new(block),
    });
    state.asked = None;
}

fn wood(palette: &Palette) -> Wood {
    let parts = |colour: Color32| [colour.r(), colour.g(), colour.b()];
    Wood {
        wood: parts(palette.wood),
        grain: parts(palette.grain),
        face: parts(palette.plank),
        ground: parts(palette.desk),
    }
}

fn paint(ui: &mut Ui, id: &str, state: &mut State) {
    let size = ui.available_size();
    let (rect, response) = ui.allocate_exact_size(size, Sense::click_and_drag());
    let name = words::FINISHED.with(&[id]);
    response.widget_info(|| egui::WidgetInfo::labeled(Role::Canvas, true, &name));
    steer(ui, &response, &mut state.look);
    let moves = response.dragged();
    draw(ui, rect, moves, state);
    if let Some(texture) = &state.shown {
        let all = egui::Rect::from_min_max(egui::pos2(0.0, 0.0), egui::pos2(1.0, 1.0));
        ui.painter().image(texture.id(), rect, all, Color32::WHITE);
    }
    if response.has_focus() {
        let stroke = egui::Stroke::new(1.5, Palette::of(ui).accent);
        let kind = egui::StrokeKind::Inside;
        ui.painter().rect_stroke(rect, 0.0, stroke, kind);
    }
}

/// Turns, tilts and brings nearer by pointer and keys.
fn steer(ui: &Ui, response: &egui::Response, look: &mut Look) {
    let drag = response.drag_delta();
    look.turn += drag.x * BY_DRAG;
    look.tilt -= drag.y * BY_DRAG;
    if response.double_clicked() {
        *look = Look::default();
    }
    if response.hovered() {
        let (wheel, pinch) = ui.input(|input| (input.smooth_scroll_delta().y, input.zoom_delta()));
        look.near *= (wheel / WHEEL_PER_E).exp() * pinch;
    }
    let elsewhere = |focused: egui::Id| focused != response.id;
    if !ui.memory(|memory| memory.focused().is_some_and(elsewhere)) {
        let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
        for (key, turn, tilt) in [
            (Key::ArrowLeft, -BY_KEY, 0.0),
            (Key::ArrowRight, BY_KEY, 0.0),
            (Key::ArrowUp, 0.0, BY_KEY),
            (Key::ArrowDown, 0.0, -BY_KEY),
        ] {
            if pressed(key) {
                look.turn += turn;
                look.tilt += tilt;
            }
        }
        if pressed(Key::Plus) || pressed(Key::Equals) {
            look.near *= NEARER;
        }
        if pressed(Key::Minus) {
            look.near /= NEARER;
        }
        if pressed(Key::F) {
            *look = Look::default();
        }
    }
    let round = std::f32::consts::PI;
    look.turn = (look.turn + round).rem_euclid(2.0 * round) - round;
    look.tilt = look.tilt.clamp(0.0, MOST_TILT);
    look.near = look.near.clamp(1.0, NEAREST);
}

/// Asks for the picture if what is to be seen has changed, and takes it when it has come.
fn draw(ui: &Ui, rect: egui::Rect, moves: bool, state: &mut State) {
    let Some(lit) = &state.lit else {
        return;
    };
    let per_point = ui.ctx().pixels_per_point() / if moves { COARSE } else { 1.0 };
    let dots = [
        (rect.width() * per_point).max(1.0) as usize,
        (rect.height() * per_point).max(1.0) as usize,
    ];
    if state.asked != Some((state.look, dots)) {
        state.asked = Some((state.look, dots));
        let (block, look) = (Arc::clone(&lit.block), state.look);
        let ctx = ui.ctx().clone();
        let wake: Wake = Arc::new(move || ctx.request_repaint());
        state.count += 1;
        let work = move |_: &_| block.seen(&look, dots[0], dots[1]);
        state.picture.request(state.count, "relief", wake, work);
    }
    if state.picture.poll()
        && let Some(seen) = state.picture.result()
    {
        let pixels = seen
            .dots
            .iter()
            .map(|[r, g, b]| Color32::from_rgb(*r, *g, *b));
        let image = ColorImage::new([seen.width, seen.height], pixels.collect());
        match &mut state.shown {
            Some(texture) => texture.set(image, TextureOptions::LINEAR),
            None => {
                let texture =
                    ui.ctx()
                        .load_texture("finished block", image, TextureOptions::LINEAR);
                state.shown = Some(texture);
            }
        }
    }
    if state.is_busy() {
        ui.ctx()
            .request_repaint_after(crate::background::LOOK_AGAIN);
    }
}

/// Which of the two is shown, as a choice.
pub(super) fn choose(ui: &mut Ui, shows_block: &mut bool) {
    ui.horizontal_wrapped(|ui| {
        // Close together, or the panel has no room for both.
        ui.spacing_mut().item_spacing.x = 4.0;
        for (block, word) in [(false, words::VIEW_PLANK), (true, words::VIEW_BLOCK)] {
            if ui.selectable_label(*shows_block == block, word).clicked() {
                *shows_block = block;
            }
        }
    });
    ui.add_space(f32::from(theme::MARGIN) / 2.0);
}
