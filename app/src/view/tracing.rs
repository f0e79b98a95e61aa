//! Naming a drawing, and tracing a scan: the page with two places of a known measure, how it is traced, and what came of it.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use cam_core::commission::{Face, NamedDrawing};
use cam_core::digest::sha256_hex;
use cam_core::measure::{Length, System, Unit};
use drawing::scan::{Glimpse, Known, Settings, Straighten, Symmetry, Threshold, Traced, glimpse};
use drawing::svg;
use egui::{
    Button, Color32, ColorImage, ProgressBar, Stroke, TextEdit, TextureHandle, TextureOptions, Ui,
};
use kurbo::{Point, Rect};

use super::canvas::{Camera, sheet};
use super::fields::{self, choice, remark, row, tick};
use super::ink::Fill;
use super::theme::{self, Palette};
use super::workbench::Workbench;
use crate::background::Worker;
use crate::background::tracing::{Found, found, traced, word_of};
use crate::files::open::second_name;
use crate::files::{shown, write_atomic};
use crate::model::command::Command;
use crate::model::document::Document;
use crate::model::typed::read_length;
use crate::view::words::{figure, measured, tracing as words};

/// The most dots of the page as it is shown, along either side: what every screen's card takes.
const LONGEST_SHOWN: usize = 2048;
/// So many tracings before the last are kept, to go back to.
const MOST_BEFORE: usize = 12;
/// Space left around the sheet on the window, px.
const AROUND: egui::Vec2 = egui::vec2(120.0, 110.0);
/// Width of the settings, px.
const SETTINGS: f32 = 372.0;
/// Half the size of the mark on a place, px.
const MARK: f32 = 8.0;

/// The shades of ways to tell ink, without the shade.
#[derive(Clone, Copy, Default, PartialEq)]
enum InkBy {
    #[default]
    Place,
    Page,
    Shade,
}

#[derive(Clone, Copy, Default, PartialEq)]
enum Turn {
    #[default]
    ByLines,
    Level,
    AsScanned,
}

/// A scan that is being traced.
struct Scan {
    path: PathBuf,
    bytes: Arc<[u8]>,
    look: Option<Worker<Result<Glimpse, String>>>,
    seen: Option<(TextureHandle, [usize; 2])>,
    camera: Camera,
    /// Places of the page, y down.
    places: Vec<Point>,
    /// The part of the page that is traced, y down; all of it without.
    part: Option<Rect>,
    known: String,
    ink: InkBy,
    shade: f64,
    turn: Turn,
    symmetry: Symmetry,
    spots: Length,
    is_light: bool,
    word: String,
    work: Option<Worker<Result<Traced, String>>>,
    traced: Option<(Traced, Fill)>,
    /// Tracings before that one, the last behind.
    before: Vec<(Traced, Fill)>,
    error: Option<String>,
}

/// What is being named or traced.
#[derive(Default)]
pub(super) struct Tracing {
    finding: Option<(PathBuf, Worker<Result<Found, String>>)>,
    scan: Option<Scan>,
}

impl Tracing {
    pub(super) fn is_running(&self) -> bool {
        let scan = self.scan.as_ref();
        self.finding.is_some()
            || scan.is_some_and(|scan| scan.look.is_some() || scan.work.is_some())
    }
}

impl Workbench {
    /// Names a font or a drawing in the commission; a scan is opened to be traced.
    pub fn name_file(&mut self, path: PathBuf) {
        let from = path.clone();
        let work = Worker::start("drawing", Arc::clone(&self.wake), move |_| found(&from));
        self.tracing.finding = Some((path, work));
    }

    pub(super) fn poll_tracing(&mut self, ctx: &egui::Context) {
        if let Some((path, work)) = &mut self.tracing.finding
            && let Some(result) = work.poll()
        {
            let path = path.clone();
            self.tracing.finding = None;
            match result.unwrap_or_else(|broken| Err(broken.to_string())) {
                Ok(Found::Drawing { drawing, bytes }) => self.take_drawing(*drawing, bytes),
                Ok(Found::Scan(bytes)) => self.open_scan(path, bytes),
                Ok(Found::Font { face, bytes }) => self.take_face(*face, bytes),
                Err(sentence) => self.complain(sentence),
            }
        }
        let Some(scan) = &mut self.tracing.scan else {
            return;
        };
        if let Some(result) = scan.look.as_mut().and_then(Worker::poll) {
            scan.look = None;
            match result.unwrap_or_else(|broken| Err(broken.to_string())) {
                Ok(glimpse) => {
                    let size = [glimpse.width, glimpse.height];
                    let image = ColorImage::from_gray(size, &glimpse.shades);
                    let texture = ctx.load_texture("scan", image, TextureOptions::LINEAR);
                    scan.seen = Some((texture, glimpse.page));
                }
                Err(sentence) => scan.error = Some(sentence),
            }
        }
        if let Some(result) = scan.work.as_mut().and_then(Worker::poll) {
            scan.work = None;
            match result.unwrap_or_else(|broken| Err(broken.to_string())) {
                Ok(traced) => {
                    let flat = traced.mm_per_dot / 8.0;
                    let fill = Fill::of_path(&traced.outline.path, flat);
                    scan.before.extend(scan.traced.take());
                    if scan.before.len() > MOST_BEFORE {
                        scan.before.remove(0);
                    }
                    scan.traced = Some((traced, fill));
                }
                Err(sentence) => scan.error = Some(sentence),
            }
        }
    }

    fn take_face(&mut self, mut face: Face, bytes: Arc<[u8]>) {
        if let Some(document) = &self.document {
            face.id = free_word(document, &face.id);
        }
        let sentence = words::FACE_ADDED.with(&[&face.id]);
        self.commands.push(Command::AddFace { face, bytes });
        self.say(sentence);
    }

    fn take_drawing(&mut self, mut drawing: NamedDrawing, bytes: Arc<[u8]>) {
        if let Some(document) = &self.document {
            drawing.id = free_word(document, &drawing.id);
        }
        let sentence = words::DRAWING_NAMED.with(&[&drawing.id]);
        self.commands.push(Command::AddDrawing { drawing, bytes });
        self.say(sentence);
    }

    fn open_scan(&mut self, path: PathBuf, bytes: Arc<[u8]>) {
        let picture = Arc::clone(&bytes);
        let look = Worker::start("scan", Arc::clone(&self.wake), move |_| {
            glimpse(&picture, LONGEST_SHOWN).map_err(|error| error.to_string())
        });
        self.tracing.scan = Some(Scan {
            word: word_of(&path),
            path,
            bytes,
            look: Some(look),
            seen: None,
            camera: Camera::default(),
            places: Vec::new(),
            part: None,
            known: String::new(),
            ink: InkBy::default(),
            shade: 128.0,
            turn: Turn::default(),
            symmetry: Symmetry::AsDrawn,
            spots: Length::mm(0.25),
            is_light: false,
            work: None,
            traced: None,
            before: Vec::new(),
            error: None,
        });
    }

    /// Keeps the traced outline as an SVG file and names it.
    fn take_traced(&mut self) {
        let (Some(scan), Some(document)) = (&self.tracing.scan, &self.document) else {
            return;
        };
        let Some((traced, _)) = &scan.traced else {
            return;
        };
        let word = free_word(document, scan.word.trim());
        let beside = document.path.as_deref().unwrap_or(&scan.path);
        let path = free_file(&beside.with_file_name(format!("{word}.svg")));
        let text = svg::write(&traced.outline, traced.page, &word);
        if let Err(error) = write_atomic(&path, text.as_bytes()) {
            self.complain(error.to_string());
            return;
        }
        let whole = path.canonicalize().unwrap_or_else(|_| path.clone());
        let mut drawing = NamedDrawing::starting(&word, &shown(&whole));
        drawing.sha256 = sha256_hex(text.as_bytes());
        self.tracing.scan = None;
        self.take_drawing(drawing, Arc::from(text.into_bytes()));
    }
}

/// The file, or one with a number where that is taken.
fn free_file(path: &Path) -> PathBuf {
    if path.exists() {
        second_name(path)
    } else {
        path.to_owned()
    }
}

/// A word that no face or drawing of the commission has yet.
fn free_word(document: &Document, word: &str) -> String {
    /// A commission has fewer faces and drawings.
    const MOST: u32 = 1000;
    let word = if word.is_empty() { "drawing" } else { word };
    let commission = document.commission();
    let is_used = |word: &str| commission.files().any(|(id, _)| id == word);
    if !is_used(word) {
        return word.to_owned();
    }
    let numbered = |number| format!("{word}-{number}");
    let free = (2..MOST).map(numbered).find(|word| !is_used(word));
    free.unwrap_or_else(|| numbered(MOST))
}

impl Scan {
    fn settings(&self, system: System) -> Result<Settings, String> {
        let [from, to] = self.places[..] else {
            return Err(words::NO_PLACES.to_string());
        };
        let known = read_length(&self.known, Unit::Millimetre, system)?;
        let known = Known {
            from,
            to,
            mm: known.in_mm(),
        };
        Ok(Settings {
            part: self.part,
            threshold: match self.ink {
                InkBy::Place => Threshold::Local,
                InkBy::Page => Threshold::Global,
                // Clamped to a byte.
                InkBy::Shade => Threshold::At(self.shade.clamp(0.0, 255.0) as u8),
            },
            straighten: match self.turn {
                Turn::ByLines => Straighten::ByItsLines,
                Turn::Level => Straighten::Level(from, to),
                Turn::AsScanned => Straighten::AsScanned,
            },
            least_spot_mm: self.spots.in_mm().max(0.0),
            symmetry: self.symmetry,
            is_light_on_dark: self.is_light,
            ..Settings::starting(known)
        })
    }
}

/// What was asked for in the sheet.
#[derive(Default)]
struct Asked {
    trace: bool,
    stop: bool,
    take: bool,
    back: bool,
    close: bool,
}

pub(super) fn show(workbench: &mut Workbench, ui: &mut Ui) {
    let Some(system) = workbench
        .document
        .as_ref()
        .map(|document| document.commission().system)
    else {
        workbench.tracing = Tracing::default();
        return;
    };
    let Some(scan) = &mut workbench.tracing.scan else {
        return;
    };
    let size = ui.ctx().content_rect().size() - AROUND;
    let mut asked = Asked::default();
    let modal = theme::over(ui, "tracing").show(ui, |ui| {
        ui.set_width(size.x);
        ui.heading(words::TITLE);
        ui.horizontal_top(|ui| {
            let page = egui::vec2(size.x - SETTINGS - 16.0, size.y - 40.0);
            let layout = egui::Layout::top_down(egui::Align::Min);
            ui.allocate_ui_with_layout(page, layout, |ui| {
                ui.set_min_size(page);
                paint(ui, scan);
            });
            ui.vertical(|ui| {
                ui.set_width(SETTINGS);
                egui::ScrollArea::vertical()
                    .max_height(page.y)
                    .show(ui, |ui| settings(ui, scan, system, &mut asked));
            });
        });
    });
    asked.close |= modal.should_close() && scan.work.is_none();
    if asked.stop {
        scan.work = None;
    }
    if asked.back {
        scan.traced = scan.before.pop();
    }
    if asked.trace {
        match scan.settings(system) {
            Ok(settings) => {
                scan.error = None;
                let bytes = Arc::clone(&scan.bytes);
                let work = move |progress: &_| traced(&bytes, &settings, progress);
                let wake = Arc::clone(&workbench.wake);
                scan.work = Some(Worker::start("trace", wake, work));
            }
            Err(sentence) => scan.error = Some(sentence),
        }
    }
    if asked.close {
        workbench.tracing.scan = None;
    } else if asked.take {
        workbench.take_traced();
    }
}

fn paint(ui: &mut Ui, scan: &mut Scan) {
    let palette = Palette::of(ui);
    let Some((texture, page)) = &scan.seen else {
        ui.label(words::LOOKING);
        return;
    };
    let [width, height] = page.map(|dots| dots as f64);
    let bounds = Rect::new(0.0, 0.0, width, height);
    let view = sheet(ui, &words::PAGE, bounds, &mut scan.camera, palette.desk);
    let whole = egui::Rect::from_min_max(egui::Pos2::ZERO, egui::pos2(1.0, 1.0));
    let area = view.rect_at(bounds);
    view.painter
        .image(texture.id(), area, whole, Color32::WHITE);
    // Places are counted down the page, the sheet counts upwards.
    let turned = |place: Point| Point::new(place.x, height - place.y);
    if let Some((traced, fill)) = &scan.traced {
        let place = |mm: Point| view.at(turned(traced.dots_from_mm * mm));
        fill.outline(&view.painter, place, Stroke::new(1.5, palette.left));
    }
    if let Some(part) = scan.part {
        let corners = [
            Point::new(part.x0, part.y0),
            Point::new(part.x1, part.y0),
            Point::new(part.x1, part.y1),
            Point::new(part.x0, part.y1),
        ];
        for (from, to) in corners.into_iter().zip(corners.into_iter().cycle().skip(1)) {
            view.line(turned(from), turned(to), Stroke::new(1.5, palette.measure));
        }
    }
    if view.response.clicked()
        && let Some(pointer) = view.response.interact_pointer_pos()
    {
        let place = turned(view.place(pointer));
        if scan.places.len() > 1 {
            scan.places.clear();
        }
        scan.places
            .push(Point::new(place.x.round(), place.y.round()));
    }
    let stroke = Stroke::new(2.0, palette.stop);
    for place in &scan.places {
        let at = view.at(turned(*place));
        view.painter.hline(at.x - MARK..=at.x + MARK, at.y, stroke);
        view.painter.vline(at.x, at.y - MARK..=at.y + MARK, stroke);
    }
    if let [from, to] = scan.places[..] {
        view.line(turned(from), turned(to), Stroke::new(1.0, palette.stop));
    }
}

fn settings(ui: &mut Ui, scan: &mut Scan, system: System, asked: &mut Asked) {
    remark(ui, words::HOW);
    row(ui, words::KNOWN, |ui, label| {
        let field = TextEdit::singleline(&mut scan.known).desired_width(104.0);
        ui.add(field.hint_text(words::KNOWN_HINT))
            .labelled_by(label);
    });
    places(ui, scan);
    part(ui, scan);
    let inks = [
        (InkBy::Place, words::LOCAL.to_string()),
        (InkBy::Page, words::GLOBAL.to_string()),
        (InkBy::Shade, words::SHADE.to_string()),
    ];
    scan.ink = choice(ui, words::INK, &scan.ink, &inks).unwrap_or(scan.ink);
    if scan.ink == InkBy::Shade
        && let Some(shade) = fields::number(ui, words::SHADE_IS, scan.shade)
    {
        scan.shade = shade.clamp(0.0, 255.0).round();
    }
    let turns = [
        (Turn::ByLines, words::BY_LINES.to_string()),
        (Turn::Level, words::LEVEL.to_string()),
        (Turn::AsScanned, words::AS_SCANNED.to_string()),
    ];
    scan.turn = choice(ui, words::TURN, &scan.turn, &turns).unwrap_or(scan.turn);
    let halves = [
        (Symmetry::AsDrawn, words::AS_DRAWN.to_string()),
        (Symmetry::LeftRight, words::LEFT_RIGHT.to_string()),
        (Symmetry::TopBottom, words::TOP_BOTTOM.to_string()),
    ];
    scan.symmetry = choice(ui, words::HALVES, &scan.symmetry, &halves).unwrap_or(scan.symmetry);
    if let Some(spots) = fields::length(ui, words::SPOTS, scan.spots, Unit::Millimetre, system) {
        scan.spots = spots;
    }
    scan.is_light = tick(ui, words::LIGHT, scan.is_light).unwrap_or(scan.is_light);
    ui.horizontal(|ui| match &scan.work {
        Some(work) => {
            let (step, done, total) = work.state();
            if total > 0 {
                // Counts of curves are far below what a float holds whole.
                let bar = ProgressBar::new(done as f32 / total as f32);
                ui.add(bar.desired_width(120.0).text(format!("{done}/{total}")));
            } else {
                ui.spinner();
            }
            ui.label(step);
            asked.stop = ui.button(words::STOP).clicked();
        }
        None => {
            asked.trace = ui.button(words::TRACE).clicked();
            asked.close = ui.button(words::CLOSE).clicked();
        }
    });
    if let Some(error) = &scan.error {
        ui.colored_label(Palette::of(ui).stop, error);
    }
    outcome(ui, scan, system, asked);
}

/// The two places as numbers, for those who do not click.
fn places(ui: &mut Ui, scan: &mut Scan) {
    for (number, label) in [words::FROM, words::TO].into_iter().enumerate() {
        let place = scan.places.get(number).copied();
        let written = place.map_or_else(String::new, |place| format!("{} {}", place.x, place.y));
        let Some(typed) = fields::text(ui, label, &written) else {
            continue;
        };
        if let [x, y] = numbers(&typed)[..] {
            scan.places
                .resize(scan.places.len().max(number + 1), Point::ZERO);
            scan.places[number] = Point::new(x, y);
        }
    }
}

/// The part of the page that is traced, as numbers or between the two places.
fn part(ui: &mut Ui, scan: &mut Scan) {
    let written = scan.part.map_or_else(String::new, |part| {
        format!("{} {} {} {}", part.x0, part.y0, part.x1, part.y1)
    });
    if let Some(typed) = fields::text(ui, words::PART, &written) {
        scan.part = match numbers(&typed)[..] {
            [x0, y0, x1, y1] => Some(Rect::new(x0, y0, x1, y1).abs()),
            _ => None,
        };
    }
    remark(ui, words::PART_IS);
    let [from, to] = scan.places[..] else {
        return;
    };
    if ui.button(words::BETWEEN).clicked() {
        scan.part = Some(Rect::from_points(from, to));
        scan.places.clear();
    }
}

fn numbers(typed: &str) -> Vec<f64> {
    typed
        .split([' ', ','])
        .filter_map(|part| part.trim().parse().ok())
        .collect()
}

fn outcome(ui: &mut Ui, scan: &mut Scan, system: System, asked: &mut Asked) {
    let Some((traced, _)) = &scan.traced else {
        return;
    };
    let mm = |mm: f64| measured(Length::mm(mm), Unit::Millimetre, system);
    ui.add_space(6.0);
    let counts = [traced.rings, traced.corners.len(), traced.spots].map(|count| count.to_string());
    let [rings, corners, spots] = &counts;
    let [width, height] = [traced.page.width(), traced.page.height()].map(mm);
    ui.label(words::FOUND.with(&[rings, corners, &width, &height]));
    let [dot, within] = [traced.mm_per_dot, traced.fitted_within_mm].map(mm);
    let turned = figure(traced.turned_deg, 2);
    remark(ui, words::HOW_FOUND.with(&[&dot, &turned, spots, &within]));
    for note in &traced.notes {
        remark(ui, note);
    }
    if let Some(word) = fields::text(ui, words::WORD, &scan.word) {
        scan.word = word;
    }
    let is_still = scan.work.is_none();
    let take = ui.add_enabled(is_still, Button::new(words::TAKE));
    asked.take = take.on_hover_text(words::TAKE_HINT).clicked();
    if !scan.before.is_empty() {
        let back = ui.add_enabled(is_still, Button::new(words::BEFORE));
        asked.back = back.clicked();
    }
}
