//! The programs of one plank as they run: the cutter's place, the wood as cut so far, and the line that does it.

mod finished;
mod surface;

use std::sync::Arc;

use egui::{RichText, ScrollArea, Slider, Stroke, Ui};
use kurbo::Rect;

use cam_core::make::Job;
use cam_core::proof::course::{Course, Stand};

use self::surface::Picture;
use super::super::Desk;
use super::super::canvas::{Camera, Sheet, sheet};
use super::super::fields::{heading, remark};
use super::super::rulers;
use super::super::theme::{self, Palette};
use super::super::words::{self, NO_SORTS};
use crate::background::read_back::Running;
use crate::model::selection::Sought;

/// How much faster than the machine it is played.
const SPEEDS: [(f64, &str); 4] = [
    (1.0, "× 1"),
    (10.0, "× 10"),
    (60.0, "× 60"),
    (600.0, "× 600"),
];

/// How many of the last moves are shown behind the cutter.
const TRAIL: usize = 160;

/// How far apart places on a shown arc may lie, mm.
const STEP_MM: f64 = 0.15;

/// The longest time between two pictures that playing makes up for, seconds.
const LONGEST_FRAME_S: f32 = 0.1;

/// What this room keeps for itself.
pub(in crate::view) struct State {
    camera: Camera,
    at_s: f64,
    playing: bool,
    speed: f64,
    plank: usize,
    kept: Option<Kept>,
    /// A finished block is shown in place of the plank.
    shows_block: bool,
    finished: finished::State,
    /// A step that is asked for.
    pub(in crate::view) asked: Option<Step>,
    /// The line that the text was last moved to.
    shown_line: Option<(usize, usize)>,
}

/// The most of the panel's height that the list of programs takes, and the least that it may take, px.
const PARTS: f32 = 0.5;
const LEAST_PARTS: f32 = 90.0;

/// Room for the clock beside the moment's slider, and the least that the slider gets, px.
const CLOCK_WIDTH: f32 = 165.0;
const LEAST_SLIDER: f32 = 80.0;

impl Default for State {
    fn default() -> State {
        State {
            camera: Camera::default(),
            at_s: 0.0,
            playing: false,
            speed: SPEEDS[1].0,
            plank: 0,
            kept: None,
            shows_block: false,
            finished: finished::State::default(),
            asked: None,
            shown_line: None,
        }
    }
}

impl State {
    /// Whether a picture is being drawn.
    pub(in crate::view) fn is_busy(&self) -> bool {
        self.finished.is_busy()
    }
}

/// The plank as it stands, for one course.
struct Kept {
    course: Arc<Course>,
    picture: Picture,
}

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let palette = Palette::of(ui);
    let Some(job) = desk.job.cloned() else {
        say(ui, &desk.waiting());
        return;
    };
    if job.planks.is_empty() {
        say(ui, &NO_SORTS);
        return;
    }
    state.plank = state.plank.min(job.planks.len() - 1);
    if let Some(Sought::Program { file, .. }) = &desk.selection.sought {
        let program = job.programs.iter().find(|program| program.file == *file);
        state.shows_block = false;
        state.plank = program.map_or(state.plank, |program| program.plank);
    }
    if state.shows_block {
        show_block(ui, desk, &job, state);
        return;
    }
    desk.wishes.course = Some(state.plank);
    let course = match desk.course {
        Some(Ok(Running { plank, course })) if *plank == state.plank => Arc::clone(course),
        Some(Err(sentence)) => {
            say(ui, sentence);
            return;
        }
        Some(Ok(_)) | None => {
            say(ui, &words::READING);
            return;
        }
    };
    keep(state, &course);
    seek(desk, state, &course);
    take_step(state, &course);
    play(ui, state, &course);
    egui::Panel::right("text")
        .exact_size(theme::SIDE_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| side(ui, desk, &job, &course, state));
    egui::Panel::bottom("moments")
        .frame(theme::panel(&palette))
        .show(ui, |ui| moments(ui, state, &course));
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| paint(ui, &job, &course, state, &palette));
}

/// A finished block in place of the plank as it is cut.
fn show_block(ui: &mut Ui, desk: &mut Desk, job: &Arc<Job>, state: &mut State) {
    let palette = Palette::of(ui);
    // What moves the programs on has nothing to move here.
    state.asked = None;
    egui::Panel::right("text")
        .exact_size(theme::SIDE_WIDTH)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical().show(ui, |ui| {
                desk.say_if_old(ui);
                finished::choose(ui, &mut state.shows_block);
                choose_plank(ui, job, state);
                finished::side(ui, job, state.plank, &mut state.finished);
            });
        });
    finished::show(ui, desk, job, state.plank, &mut state.finished);
}

/// A sentence in place of the plank.
fn say(ui: &mut Ui, text: &str) {
    egui::CentralPanel::default().show(ui, |ui| {
        ui.centered_and_justified(|ui| ui.label(text));
    });
}

fn keep(state: &mut State, course: &Arc<Course>) {
    let same = |kept: &Kept| Arc::ptr_eq(&kept.course, course);
    if !state.kept.as_ref().is_some_and(same) {
        state.kept = Some(Kept {
            course: Arc::clone(course),
            picture: Picture::of(course),
        });
        state.at_s = state.at_s.min(course.lasts_s());
        state.shown_line = None;
    }
}

/// A step through the programs that the list of actions asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::view) enum Step {
    /// Play or pause.
    Play,
    /// Back by one move.
    Back,
    /// On by one move.
    On,
    /// To the bare plank.
    Beginning,
    /// To the finished plank.
    End,
}

/// Goes to the line of a program that is sought.
fn seek(desk: &mut Desk, state: &mut State, course: &Course) {
    let Some(Sought::Program { file, line }) = &desk.selection.sought else {
        return;
    };
    let found = course.parts.iter().position(|part| part.file == *file);
    if let Some(part) = found {
        let moment = line.and_then(|line| course.moment_of_line(part, line));
        state.at_s = moment.unwrap_or(course.parts[part].begins_s);
        state.playing = false;
    }
    desk.selection.sought = None;
}

fn take_step(state: &mut State, course: &Course) {
    match state.asked.take() {
        None => {}
        Some(Step::Play) => toggle(state, course),
        Some(Step::Back) => step(state, course, false),
        Some(Step::On) => step(state, course, true),
        Some(Step::Beginning) => state.at_s = 0.0,
        Some(Step::End) => state.at_s = course.lasts_s(),
    }
}

fn toggle(state: &mut State, course: &Course) {
    state.playing = !state.playing;
    if state.playing && state.at_s >= course.lasts_s() {
        state.at_s = 0.0;
    }
}

/// Goes to the end of the running motion, or to its beginning.
fn step(state: &mut State, course: &Course, on: bool) {
    state.playing = false;
    let Some(stand) = course.stand(state.at_s) else {
        return;
    };
    let begins_s = course.begin_of(stand.motion);
    state.at_s = if on {
        // Motions without a length end where they begin.
        (stand.motion..course.motions())
            .map(|motion| course.end_of(motion))
            .find(|&end_s| end_s > state.at_s)
            .unwrap_or(course.lasts_s())
    } else if begins_s < state.at_s {
        begins_s
    } else {
        (0..stand.motion)
            .rev()
            .map(|motion| course.begin_of(motion))
            .find(|&begin_s| begin_s < state.at_s)
            .unwrap_or(0.0)
    };
}

fn play(ui: &Ui, state: &mut State, course: &Course) {
    if !state.playing {
        return;
    }
    let frame_s = ui.input(|input| input.stable_dt).min(LONGEST_FRAME_S);
    state.at_s += f64::from(frame_s) * state.speed;
    if state.at_s >= course.lasts_s() {
        state.at_s = course.lasts_s();
        state.playing = false;
    }
    ui.ctx().request_repaint();
}

/// The bar under the plank: play, step, and the moment.
fn moments(ui: &mut Ui, state: &mut State, course: &Course) {
    ui.horizontal_wrapped(|ui| {
        let word = if state.playing {
            words::PAUSE
        } else {
            words::PLAY_WORD
        };
        if ui.button(word).on_hover_text(words::RUN_KEYS).clicked() {
            toggle(state, course);
        }
        if ui
            .button(words::BACK_WORD)
            .on_hover_text(words::RUN_KEYS)
            .clicked()
        {
            step(state, course, false);
        }
        if ui
            .button(words::ON_WORD)
            .on_hover_text(words::RUN_KEYS)
            .clicked()
        {
            step(state, course, true);
        }
        let label = ui.label(words::SPEED);
        let chosen = SPEEDS
            .iter()
            .find(|(speed, _)| *speed == state.speed)
            .map_or("", |(_, word)| word);
        let combo = egui::ComboBox::from_id_salt("speed")
            .width(70.0)
            .selected_text(chosen)
            .show_ui(ui, |ui| {
                for (speed, word) in SPEEDS {
                    ui.selectable_value(&mut state.speed, speed, word);
                }
            });
        combo.response.labelled_by(label.id);
        let label = ui.label(words::MOMENT);
        let times = words::MOMENT_OF.with(&[&clock(state.at_s), &clock(course.lasts_s())]);
        let left = ui.available_size_before_wrap().x - CLOCK_WIDTH;
        ui.spacing_mut().slider_width = left.max(LEAST_SLIDER);
        let slider = Slider::new(&mut state.at_s, 0.0..=course.lasts_s()).show_value(false);
        ui.add(slider).labelled_by(label.id);
        ui.label(RichText::new(times).monospace());
    });
}

/// Hours, minutes and seconds.
fn clock(seconds: f64) -> String {
    let seconds = seconds.max(0.0) as u64;
    let (hours, minutes, seconds) = (seconds / 3600, seconds / 60 % 60, seconds % 60);
    format!("{hours}:{minutes:02}:{seconds:02}")
}

fn side(ui: &mut Ui, desk: &Desk, job: &Job, course: &Course, state: &mut State) {
    desk.say_if_old(ui);
    finished::choose(ui, &mut state.shows_block);
    choose_plank(ui, job, state);
    heading(ui, words::PARTS);
    let stand = course.stand(state.at_s);
    let running = stand.map(|stand| stand.part);
    // However many there are, the program's text keeps its place.
    let most = (ui.available_height() * PARTS).max(LEAST_PARTS);
    ScrollArea::vertical()
        .id_salt("parts")
        .max_height(most)
        .auto_shrink([false, true])
        .show(ui, |ui| parts(ui, job, course, state, running));
    if let Some(stand) = stand {
        stand_in_words(ui, &stand);
        text(ui, job, course, state, &stand);
    }
}

/// The programs in the order in which they run; each leads to its beginning.
fn parts(ui: &mut Ui, job: &Job, course: &Course, state: &mut State, running: Option<usize>) {
    let palette = Palette::of(ui);
    for (place, part) in course.parts.iter().enumerate() {
        ui.horizontal(|ui| {
            theme::spot(ui, Some(palette.cutter(colour_of(job, &part.cutter))));
            let chosen = running == Some(place);
            if ui.selectable_label(chosen, &part.file).clicked() {
                state.at_s = part.begins_s;
            }
        });
        remark(
            ui,
            words::PART_FROM.with(&[&part.cutter, &clock(part.begins_s)]),
        );
    }
}

fn choose_plank(ui: &mut Ui, job: &Job, state: &mut State) {
    ui.horizontal(|ui| {
        let label = ui.label(words::OF_PLANK);
        let combo = egui::ComboBox::from_id_salt("plank")
            .selected_text(&job.planks[state.plank].id)
            .show_ui(ui, |ui| {
                for (place, plank) in job.planks.iter().enumerate() {
                    if ui
                        .selectable_label(place == state.plank, &plank.id)
                        .clicked()
                    {
                        state.plank = place;
                        state.at_s = 0.0;
                        state.playing = false;
                        state.camera.fit();
                    }
                }
            });
        combo.response.labelled_by(label.id);
    });
}

fn stand_in_words(ui: &mut Ui, stand: &Stand) {
    let height = if stand.at.z >= 0.0 {
        words::ABOVE_WOOD.with(&[&format!("{:.2}", stand.at.z)])
    } else {
        words::DEEP.with(&[&format!("{:.2}", -stand.at.z)])
    };
    let feed = stand
        .feed_mm_min
        .map_or(words::RAPID.into(), |feed| format!("{feed:.0} mm/min"));
    ui.add_space(6.0);
    let place = format!("x {:.2}  y {:.2}", stand.at.xy.x, stand.at.xy.y);
    ui.label(RichText::new(place).monospace());
    ui.label(format!("{height}, {feed}"));
}

/// The program's text about the line that runs.
fn text(ui: &mut Ui, job: &Job, course: &Course, state: &mut State, stand: &Stand) {
    let palette = Palette::of(ui);
    let file = &course.parts[stand.part].file;
    let Some(program) = job.programs.iter().find(|program| program.file == *file) else {
        return;
    };
    heading(ui, words::PROGRAM_TEXT);
    let lines: Vec<&str> = program.text.lines().collect();
    let height = ui.text_style_height(&egui::TextStyle::Monospace);
    let each = height + ui.spacing().item_spacing.y;
    let mut area = ScrollArea::vertical().auto_shrink(false);
    let running = (stand.part, stand.line);
    if state.shown_line != Some(running) {
        state.shown_line = Some(running);
        let above = (ui.available_height() / 2.0 / each).floor();
        area = area.vertical_scroll_offset((stand.line as f32 - above).max(0.0) * each);
    }
    area.show_rows(ui, height, lines.len(), |ui, rows| {
        for row in rows {
            let number = row + 1;
            let runs = number == stand.line;
            let words = format!("{number:>6}  {}", lines[row]);
            let colour = if runs { palette.accent } else { palette.quiet };
            let label = egui::Label::new(RichText::new(words).monospace().color(colour))
                .truncate()
                .sense(egui::Sense::click());
            let label = ui.add(label).on_hover_text(words::TO_LINE);
            let moment = label
                .clicked()
                .then(|| course.moment_of_line(stand.part, number));
            if let Some(at_s) = moment.flatten() {
                state.at_s = at_s;
                state.playing = false;
            }
        }
    });
}

/// A cutter's place among the commission's, from the largest to the smallest.
fn colour_of(job: &Job, cutter: &str) -> usize {
    job.surveys.first().map_or(0, |survey| {
        survey
            .cutters
            .iter()
            .position(|one| one.cutter == cutter)
            .unwrap_or(survey.cutters.len())
    })
}

fn paint(ui: &mut Ui, job: &Job, course: &Course, state: &mut State, palette: &Palette) {
    let plank = &job.planks[state.plank];
    let bounds = Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm);
    let mut id = plank.id.clone();
    if let Some(first) = id.get_mut(0..1) {
        first.make_ascii_uppercase();
    }
    let label = words::AS_CUT.with(&[&id]);
    let view = sheet(ui, &label, bounds, &mut state.camera, palette.desk);
    if let Some(kept) = &mut state.kept {
        kept.picture.paint(&view, course, state.at_s, palette);
    }
    let whole = view.rect_at(bounds);
    let edge = Stroke::new(1.0, palette.grain);
    view.painter
        .rect_stroke(whole, 0.0, edge, egui::StrokeKind::Outside);
    if let Some(stand) = course.stand(state.at_s) {
        paint_cutter(&view, job, course, &stand, palette);
    }
    rulers::paint(ui, &view);
}

/// The cutter where it stands, and its last moves.
fn paint_cutter(view: &Sheet, job: &Job, course: &Course, stand: &Stand, palette: &Palette) {
    let part = &course.parts[stand.part];
    let colour = palette.cutter(colour_of(job, &part.cutter));
    let first = stand.motion.saturating_sub(TRAIL);
    for (places, fed, above) in course.way(first..stand.motion, STEP_MM) {
        let stroke = if fed && !above {
            Stroke::new(1.3, colour)
        } else {
            Stroke::new(0.8, palette.air.gamma_multiply(0.7))
        };
        view.polyline(&places, stroke);
    }
    let at = view.at(stand.at.xy);
    let radius = (part.diameter_mm / 2.0 * view.scale).max(2.0) as f32;
    let in_wood = stand.at.z < 0.0;
    let fill = colour.gamma_multiply(if in_wood { 0.55 } else { 0.15 });
    view.painter.circle_filled(at, radius, fill);
    view.painter
        .circle_stroke(at, radius, Stroke::new(1.6, colour));
    view.painter.circle_filled(at, 1.8, palette.entry);
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_are_told_as_a_clock_tells_them() {
        assert_eq!(clock(0.0), "0:00:00");
        assert_eq!(clock(61.9), "0:01:01");
        assert_eq!(clock(3_725.0), "1:02:05");
        assert_eq!(clock(f64::NAN), "0:00:00");
    }
}
