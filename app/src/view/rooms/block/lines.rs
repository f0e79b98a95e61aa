//! Lines along which a letter is cut apart, drawn on it and dragged.

use std::sync::Arc;

use cam_core::commission::{CutApart, CutLine, LineWay};
use cam_core::measure::{Length, System, Unit};
use cam_core::sort::{Sort, SortSource};
use egui::{Align2, CursorIcon, Pos2, Stroke, StrokeKind, Ui};
use kurbo::{Point, Rect};

use super::super::super::Desk;
use super::super::super::canvas::Sheet;
use super::super::super::fields::{heading, remark};
use super::super::super::theme::Palette;
use crate::model::command::Command;
use crate::view::words::{self, measured};

/// How near to a line the pointer takes hold of it, px.
const NEAR: f32 = 7.0;
/// Lines are put on whole multiples of this, in points: what blocks are measured by at the finest. The form takes any place.
const STEP_PT: f64 = 0.5;
/// Lines stay this far from one another and from the edges of the block, in points: less is no part that could be cut out.
const APART_PT: f64 = 2.0;

/// What is done with the lines.
pub(super) struct Lines {
    /// Whether the whole letter is shown where a part of it is selected.
    pub shows_whole: bool,
    /// The line under the pointer, by its place among the commission's.
    under: Option<usize>,
    /// The line that is dragged, and where it is, as printed, mm.
    dragged: Option<(usize, f64)>,
}

impl Default for Lines {
    fn default() -> Lines {
        Lines {
            shows_whole: true,
            under: None,
            dragged: None,
        }
    }
}

/// A letter that is, or may be, cut apart.
pub(super) struct Whole {
    pub name: String,
    /// Set and body of its block, mm.
    pub size_mm: [f64; 2],
    /// Its parts, with where each lies on the block, as printed; itself alone if it is whole.
    parts: Vec<(Arc<Sort>, Point)>,
    source: SortSource,
    /// Whether it is cut apart.
    pub is_apart: bool,
}

impl Whole {
    /// What a sort is, or is a part of; `None` of plain blocks and of middle pieces.
    pub(super) fn of(desk: &Desk, sort: &Arc<Sort>) -> Option<Whole> {
        let source = sort.source.clone()?;
        let Some(part) = &source.part else {
            let block = &sort.block;
            return Some(Whole {
                name: sort.name.clone(),
                size_mm: [block.set_mm, block.body_mm],
                parts: vec![(Arc::clone(sort), Point::ORIGIN)],
                source,
                is_apart: false,
            });
        };
        part.at?;
        let sorts = desk.drawn.map_or(&[][..], |drawn| &drawn.sorts);
        let parts = sorts.iter().filter_map(|other| {
            let of = other.source.as_ref()?;
            let its = of.part.as_ref()?;
            let is_of_it = of.face == source.face && of.choice == source.choice;
            Some((Arc::clone(other), its.at.filter(|_| is_of_it)?))
        });
        Some(Whole {
            name: part.of.clone(),
            size_mm: part.of_mm,
            parts: parts.collect(),
            is_apart: true,
            source,
        })
    }

    fn is_cut_by(&self, cut: &CutApart) -> bool {
        cut.face == self.source.face && cut.glyph == self.source.choice
    }

    /// Its lines in the commission.
    fn lines<'a>(&self, cuts: &'a [CutApart]) -> &'a [CutLine] {
        let cut = cuts.iter().find(|cut| self.is_cut_by(cut));
        cut.map_or(&[][..], |cut| &cut.lines)
    }

    /// The block's size across lines of one way, mm.
    fn across_mm(&self, way: LineWay) -> f64 {
        let [set_mm, body_mm] = self.size_mm;
        match way {
            LineWay::Upright => set_mm,
            LineWay::Level => body_mm,
        }
    }

    /// The block as it lies on the sheet.
    pub(super) fn bounds(&self) -> Rect {
        Rect::new(0.0, 0.0, self.size_mm[0], self.size_mm[1])
    }

    /// From places on the block as printed to the sheet.
    fn placed(&self, as_printed: bool, place: Point) -> Point {
        if as_printed {
            place
        } else {
            Point::new(self.size_mm[0] - place.x, place.y)
        }
    }

    /// The block with all parts of the letter, the selected one framed.
    pub(super) fn paint(&self, desk: &mut Desk, sheet: &Sheet, selected: &Sort, palette: &Palette) {
        let as_printed = desk.selection.as_printed;
        sheet.painter.rect(
            sheet.rect_at(self.bounds()),
            0.0,
            palette.wood,
            Stroke::new(1.2, palette.grain),
            StrokeKind::Inside,
        );
        for (part, at) in &self.parts {
            let fill = desk.faces.of(part, sheet.scale);
            // The face of a part is mirrored within its own block.
            let place = |p: Point| {
                let printed = Point::new(at.x + part.block.set_mm - p.x, at.y + p.y);
                sheet.at(self.placed(as_printed, printed))
            };
            fill.paint(&sheet.painter, place, palette.face);
            if part.name == selected.name {
                let corners = [
                    *at,
                    Point::new(at.x + part.block.set_mm, at.y + part.block.body_mm),
                ]
                .map(|corner| sheet.at(self.placed(as_printed, corner)));
                let frame = egui::Rect::from_two_pos(corners[0], corners[1]);
                let stroke = Stroke::new(2.0, palette.measure);
                sheet
                    .painter
                    .rect_stroke(frame, 0.0, stroke, StrokeKind::Inside);
            }
        }
    }
}

impl Lines {
    /// Whether the pointer moves a line rather than the sheet.
    pub(super) fn holds(&self) -> bool {
        self.under.is_some() || self.dragged.is_some()
    }

    /// Paints the lines of a letter, follows the pointer, and leaves a command when a line has a new place.
    pub(super) fn steer(
        &mut self,
        ui: &Ui,
        desk: &mut Desk,
        sheet: &Sheet,
        whole: &Whole,
        palette: &Palette,
    ) {
        let commission = Arc::clone(desk.document.commission());
        let lines = whole.lines(&commission.cut_apart);
        let as_printed = desk.selection.as_printed;
        let pointer = sheet
            .response
            .hover_pos()
            .or(sheet.response.interact_pointer_pos());
        if self.dragged.is_none() {
            let pressed = ui.input(|input| input.pointer.press_origin());
            let near = |at: Pos2| nearest(sheet, whole, lines, as_printed, at);
            if sheet.response.drag_started_by(egui::PointerButton::Primary)
                && let Some(line) = pressed.and_then(near)
            {
                self.dragged = Some((line, lines[line].at.in_mm()));
            }
            self.under = pointer.and_then(near);
        }
        if let (Some((line, at)), Some(pointer)) = (&mut self.dragged, pointer) {
            match lines.get(*line) {
                Some(dragged) => {
                    let place = whole.placed(as_printed, sheet.place(pointer));
                    *at = snapped(along(dragged.way, place), commission.system);
                }
                None => self.dragged = None,
            }
        }
        let held = self.dragged.map(|(line, _)| line).or(self.under);
        if let Some(line) = held.and_then(|line| lines.get(line)) {
            ui.ctx().set_cursor_icon(match line.way {
                LineWay::Upright => CursorIcon::ResizeHorizontal,
                LineWay::Level => CursorIcon::ResizeVertical,
            });
        }
        for (number, line) in lines.iter().enumerate() {
            let at_mm = match self.dragged {
                Some((dragged, at_mm)) if dragged == number => at_mm,
                Some(_) | None => line.at.in_mm(),
            };
            let colour = if held == Some(number) {
                palette.stop
            } else {
                palette.measure
            };
            let told = measured(Length::mm(at_mm), Unit::Point, commission.system);
            paint_line(sheet, whole, line.way, at_mm, as_printed, (&told, colour));
        }
        if sheet.response.drag_stopped()
            && let Some((line, at_mm)) = self.dragged.take()
        {
            move_line(desk, whole, line, at_mm);
        }
    }
}

/// Where a place lies across lines of one way, as printed, mm.
fn along(way: LineWay, place: Point) -> f64 {
    match way {
        LineWay::Upright => place.x,
        LineWay::Level => place.y,
    }
}

fn snapped(at_mm: f64, system: System) -> f64 {
    let step_mm = Length::points_of(STEP_PT, system).in_mm();
    (at_mm / step_mm).round() * step_mm
}

/// The ends of a line on the sheet; it stands out a little beyond the block.
fn ends(sheet: &Sheet, whole: &Whole, way: LineWay, at_mm: f64, as_printed: bool) -> [Pos2; 2] {
    const BEYOND: f32 = 8.0;
    let [set_mm, body_mm] = whole.size_mm;
    let place = |x: f64, y: f64| sheet.at(whole.placed(as_printed, Point::new(x, y)));
    match way {
        LineWay::Upright => {
            let [foot, head] = [place(at_mm, 0.0), place(at_mm, body_mm)];
            let out = egui::vec2(0.0, BEYOND);
            [foot + out, head - out]
        }
        LineWay::Level => {
            let [one, other] = [place(0.0, at_mm), place(set_mm, at_mm)];
            let out = egui::vec2(BEYOND, 0.0);
            let [left, right] = if one.x <= other.x {
                [one, other]
            } else {
                [other, one]
            };
            [left - out, right + out]
        }
    }
}

fn paint_line(
    sheet: &Sheet,
    whole: &Whole,
    way: LineWay,
    at_mm: f64,
    as_printed: bool,
    (told, colour): (&str, egui::Color32),
) {
    let ends = ends(sheet, whole, way, at_mm, as_printed);
    let stroke = Stroke::new(1.6, colour);
    let dashes = egui::Shape::dashed_line(&ends, stroke, 7.0, 4.0);
    sheet.painter.extend(dashes);
    let (at, align) = match way {
        LineWay::Upright => (ends[0] + egui::vec2(0.0, 2.0), Align2::CENTER_TOP),
        LineWay::Level => (ends[1] + egui::vec2(3.0, 0.0), Align2::LEFT_CENTER),
    };
    sheet.text(at, align, told, colour);
}

/// The line nearest to a point of the screen, if it is near.
fn nearest(
    sheet: &Sheet,
    whole: &Whole,
    lines: &[CutLine],
    as_printed: bool,
    at: Pos2,
) -> Option<usize> {
    let off = |line: &CutLine| {
        let [from, to] = ends(sheet, whole, line.way, line.at.in_mm(), as_printed);
        let bounds = egui::Rect::from_two_pos(from, to);
        bounds.distance_to_pos(at)
    };
    let lines = lines
        .iter()
        .enumerate()
        .map(|(place, line)| (place, off(line)));
    let nearest = lines.min_by(|a, b| a.1.total_cmp(&b.1))?;
    (nearest.1 <= NEAR).then_some(nearest.0)
}

/// Moves a line to another place; one that is dragged off the block is taken out, and with the last one the letter is whole again. A place too near to
/// another line or to the edge changes nothing.
fn move_line(desk: &mut Desk, whole: &Whole, line: usize, at_mm: f64) {
    let commission = Arc::clone(desk.document.commission());
    let mut cuts = commission.cut_apart.clone();
    let Some(place) = cuts.iter().position(|cut| whole.is_cut_by(cut)) else {
        return;
    };
    let cut = &mut cuts[place];
    let Some(way) = cut.lines.get(line).map(|line| line.way) else {
        return;
    };
    let across_mm = whole.across_mm(way);
    if !(0.0..=across_mm).contains(&at_mm) {
        cut.lines.remove(line);
        // Counts of other parts than there were say nothing.
        cut.counts = None;
        if cut.lines.is_empty() {
            cuts.remove(place);
        }
    } else {
        let others = cut.lines.iter().enumerate();
        let others = others.filter(|(number, other)| *number != line && other.way == way);
        let least_mm = Length::points_of(APART_PT, commission.system).in_mm();
        let mut edges = others
            .map(|(_, other)| other.at.in_mm())
            .chain([0.0, across_mm]);
        if edges.any(|edge| (edge - at_mm).abs() < least_mm) {
            return;
        }
        // In the maker's own unit, without what turning millimetres into points leaves.
        let points = at_mm / Length::points_of(1.0, commission.system).in_mm();
        let points = (points / STEP_PT).round() * STEP_PT;
        cut.lines[line].at = Length::points_of(points, commission.system);
    }
    if cuts != commission.cut_apart {
        desk.send(Command::CutApart(cuts));
    }
}

/// Adds a line in the middle of the widest stretch between those there are.
fn add_line(desk: &mut Desk, whole: &Whole, way: LineWay) {
    let commission = Arc::clone(desk.document.commission());
    let mut cuts = commission.cut_apart.clone();
    let system = commission.system;
    let lines = whole.lines(&commission.cut_apart);
    let of_way = lines.iter().filter(|line| line.way == way);
    let mut edges: Vec<f64> = of_way.map(|line| line.at.in_mm()).collect();
    edges.extend([0.0, whole.across_mm(way)]);
    edges.sort_by(f64::total_cmp);
    let widest = edges
        .windows(2)
        .max_by(|a, b| (a[1] - a[0]).total_cmp(&(b[1] - b[0])));
    let Some(&[from, to]) = widest.and_then(|pair| pair.first_chunk()) else {
        return;
    };
    let points = f64::midpoint(from, to) / Length::points_of(1.0, system).in_mm();
    let line = CutLine {
        way,
        at: Length::points_of((points / STEP_PT).round() * STEP_PT, system),
        middle: None,
    };
    match cuts.iter_mut().find(|cut| whole.is_cut_by(cut)) {
        Some(cut) => {
            // With lines of both ways there are no middle pieces.
            if cut.lines.iter().any(|other| other.way != way) {
                cut.lines.iter_mut().for_each(|line| line.middle = None);
            }
            cut.lines.push(line);
            cut.counts = None;
        }
        None => cuts.push(CutApart {
            face: whole.source.face.clone(),
            glyph: whole.source.choice.clone(),
            lines: vec![line],
            counts: None,
        }),
    }
    desk.send(Command::CutApart(cuts));
}

/// What can be done with a letter's lines, in the panel beside it.
pub(super) fn panel(ui: &mut Ui, desk: &mut Desk, whole: &Whole, state: &mut Lines) {
    heading(ui, words::APART);
    if whole.is_apart {
        ui.horizontal_wrapped(|ui| {
            ui.selectable_value(&mut state.shows_whole, true, words::WHOLE_LETTER);
            ui.selectable_value(&mut state.shows_whole, false, words::ONE_PART);
        });
    }
    ui.horizontal_wrapped(|ui| {
        if ui.button(words::ADD_UPRIGHT).clicked() {
            add_line(desk, whole, LineWay::Upright);
        }
        if ui.button(words::ADD_LEVEL).clicked() {
            add_line(desk, whole, LineWay::Level);
        }
    });
    if whole.is_apart {
        remark(ui, words::DRAG_LINES);
    }
}
