//! One sort on its block: wood, face, body, set and lining; and the lines along which it is cut apart.

mod lines;

use std::sync::Arc;

use egui::{Align2, Color32, Pos2, RichText, ScrollArea, Stroke, Ui};
use kurbo::Point;

use cam_core::material;
use cam_core::measure::{Length, System, Unit};
use cam_core::notch::{End, Notch, Side, closed_pairs};
use cam_core::sort::Sort;

use super::super::Desk;
use super::super::canvas::{Camera, Sheet, sheet};
use super::super::fields::{heading, remark};
use super::super::marks;
use super::super::theme::{self, Palette};
use super::sort_list;
use crate::view::words::{self as joined, block as words, measured, short_figure};
use lines::{Lines, Whole};

/// What this room keeps for itself.
#[derive(Default)]
pub(in crate::view) struct State {
    camera: Camera,
    in_mm: bool,
    lines: Lines,
}

/// Room left around the block for its measures, as a part of its larger side.
const AROUND: f64 = 0.16;

pub(in crate::view) fn show(ui: &mut Ui, desk: &mut Desk, state: &mut State) {
    let Some(place) = sort_list::show(ui, desk) else {
        return;
    };
    let Some(sort) = desk.drawn.and_then(|drawn| drawn.sorts.get(place)).cloned() else {
        return;
    };
    let palette = Palette::of(ui);
    let system = desk.document.commission().system;
    egui::Panel::right("measures")
        .exact_size(theme::SIDE_WIDTH - 40.0)
        .frame(theme::panel(&palette))
        .show(ui, |ui| {
            ScrollArea::vertical()
                .auto_shrink(false)
                .show(ui, |ui| side(ui, desk, &sort, state, system));
        });
    let whole = Whole::of(desk, &sort).filter(|whole| whole.is_apart && state.lines.shows_whole);
    egui::CentralPanel::default()
        .frame(egui::Frame::new().fill(palette.desk))
        .show(ui, |ui| {
            if let Some(whole) = &whole {
                show_whole(ui, desk, &sort, whole, state);
                return;
            }
            let rect = sort.block.rect();
            let around = rect.width().max(rect.height()) * AROUND;
            let label = words::BLOCK_OF.with(&[&sort.name]);
            let sheet = sheet(
                ui,
                &label,
                rect.inflate(around, around),
                &mut state.camera,
                palette.desk,
            );
            let turned = desk.selection.as_printed;
            paint_wood(&sheet, &sort, turned, &palette);
            let fill = desk.faces.of(&sort, sheet.scale);
            fill.paint(&sheet.painter, placer(&sheet, &sort, turned), palette.face);
            measures(&sheet, &sort, turned, state.in_mm, system, &palette);
        });
}

/// The letter that a part is cut from, with its lines.
fn show_whole(ui: &mut Ui, desk: &mut Desk, sort: &Sort, whole: &Whole, state: &mut State) {
    let palette = Palette::of(ui);
    let system = desk.document.commission().system;
    let bounds = whole.bounds();
    let around = bounds.width().max(bounds.height()) * AROUND;
    let label = words::BLOCK_OF.with(&[&joined::WHOLE_OF.with(&[&whole.name])]);
    state.camera.held = state.lines.holds();
    let sheet = sheet(
        ui,
        &label,
        bounds.inflate(around, around),
        &mut state.camera,
        palette.desk,
    );
    state.camera.held = false;
    whole.paint(desk, &sheet, sort, &palette);
    let rect = sheet.rect_at(bounds);
    ruler_across(
        &sheet,
        rect,
        whole.size_mm[0],
        state.in_mm,
        system,
        &palette,
    );
    ruler_along(
        &sheet,
        rect,
        whole.size_mm[1],
        state.in_mm,
        system,
        &palette,
    );
    state.lines.steer(ui, desk, &sheet, whole, &palette);
}

/// Face space to the screen; turned back about the block's own middle line when shown as printed.
pub(in crate::view) fn placer<'a>(
    sheet: &'a Sheet,
    sort: &'a Sort,
    turned: bool,
) -> impl Fn(Point) -> Pos2 + 'a {
    let set = sort.block.set_mm;
    move |p: Point| {
        sheet.at(if turned {
            Point::new(set - p.x, p.y)
        } else {
            p
        })
    }
}

/// The block's outline as wood with a hint of grain.
pub(in crate::view) fn paint_wood(sheet: &Sheet, sort: &Sort, turned: bool, palette: &Palette) {
    let place = placer(sheet, sort, turned);
    let outline: Vec<Pos2> = sort.block.outline.iter().map(|&p| place(p)).collect();
    let rect = sheet.rect_at(sort.block.rect());
    sheet.painter.rect_filled(rect, 0.0, palette.wood);
    let painter = sheet.painter.with_clip_rect(rect.intersect(sheet.rect));
    // Rings of end grain about a heart below the block: a mark of the material, not a measure.
    let heart = egui::pos2(
        rect.left() - rect.width() * 0.3,
        rect.bottom() + rect.height() * 0.9,
    );
    let reach = rect.width() + rect.height() * 2.2;
    for ring in 1..26_u8 {
        let radius = reach * f32::from(ring) / 26.0;
        let faint = palette
            .grain
            .gamma_multiply(if ring % 3 == 0 { 0.22 } else { 0.11 });
        painter.circle_stroke(heart, radius, Stroke::new(1.2, faint));
    }
    for notch in &sort.block.notches {
        cut_away(sheet, sort, notch, &place, palette);
    }
    sheet.painter.add(egui::Shape::closed_line(
        outline,
        Stroke::new(1.2, palette.grain),
    ));
}

/// The desk where a notch is, and where the corner beside it is cut off.
fn cut_away(
    sheet: &Sheet,
    sort: &Sort,
    notch: &Notch,
    place: &impl Fn(Point) -> Pos2,
    palette: &Palette,
) {
    let block = &sort.block;
    // Seen from above, left and right are not what they are in print.
    let at = |across: f64, along: f64| {
        let x = match notch.side {
            Side::Right => across,
            Side::Left => block.set_mm - across,
        };
        let y = match notch.end {
            End::Foot => along,
            End::Head => block.body_mm - along,
        };
        place(Point::new(x, y))
    };
    let step = egui::Rect::from_two_pos(at(0.0, 0.0), at(notch.width_mm, notch.height_mm));
    sheet.painter.rect_filled(step, 0.0, palette.desk);
    let bevel = vec![
        at(0.0, notch.height_mm),
        at(notch.bevel_mm, notch.height_mm),
        at(0.0, notch.height_mm + notch.bevel_mm),
    ];
    let shape = egui::Shape::convex_polygon(bevel, palette.desk, Stroke::NONE);
    sheet.painter.add(shape);
}

fn measures(
    sheet: &Sheet,
    sort: &Sort,
    turned: bool,
    in_mm: bool,
    system: System,
    palette: &Palette,
) {
    let block = &sort.block;
    let rect = sheet.rect_at(block.rect());
    ruler_across(sheet, rect, block.set_mm, in_mm, system, palette);
    ruler_along(sheet, rect, block.body_mm, in_mm, system, palette);
    if block.plain {
        return;
    }
    let base = sheet.at(Point::new(0.0, block.baseline_mm)).y;
    let (left, right) = (rect.left() - 10.0, rect.right() + 10.0);
    let stroke = Stroke::new(1.0, palette.measure);
    let line = [Pos2::new(left, base), Pos2::new(right, base)];
    sheet
        .painter
        .extend(egui::Shape::dashed_line(&line, stroke, 6.0, 4.0));
    let at = Pos2::new(right + 4.0, base);
    sheet.text(at, Align2::LEFT_CENTER, &words::BASE_LINE, palette.measure);
    let caption = if turned { words::PRINTED } else { words::CUT };
    let at = Pos2::new(rect.center().x, rect.bottom() + 14.0);
    sheet.text(at, Align2::CENTER_TOP, &caption, palette.quiet);
}

/// Steps between the marks of a ruler, in its unit, from which the first that leaves room is taken.
const STEPS: [f64; 8] = [0.5, 1.0, 2.0, 3.0, 6.0, 12.0, 24.0, 60.0];
/// The least distance between marks, px.
const LEAST_MARK: f64 = 7.0;

fn unit_mm(in_mm: bool, system: System) -> f64 {
    if in_mm { 1.0 } else { system.point_mm() }
}

fn marks(length_mm: f64, scale: f64, unit: f64) -> impl Iterator<Item = (f64, bool)> {
    let step = STEPS
        .into_iter()
        .find(|step| step * unit * scale >= LEAST_MARK)
        .unwrap_or(STEPS[STEPS.len() - 1]);
    let count = (length_mm / unit / step).floor().min(2000.0) as u32;
    (0..=count).map(move |mark| {
        let value = f64::from(mark) * step;
        (value * unit, mark % 6 == 0)
    })
}

fn ruler_across(
    sheet: &Sheet,
    rect: egui::Rect,
    set_mm: f64,
    in_mm: bool,
    system: System,
    palette: &Palette,
) {
    let stroke = Stroke::new(1.0, palette.measure);
    let y = rect.top() - 8.0;
    sheet.painter.hline(rect.x_range(), y, stroke);
    for (at, long) in marks(set_mm, sheet.scale, unit_mm(in_mm, system)) {
        let x = rect.left() + (at * sheet.scale) as f32;
        let size = if long { 8.0 } else { 4.0 };
        sheet.painter.vline(x, (y - size)..=y, stroke);
    }
    let text = shown(set_mm, in_mm, system);
    let at = Pos2::new(rect.center().x, y - 11.0);
    sheet.text(at, Align2::CENTER_BOTTOM, &text, palette.measure);
}

fn ruler_along(
    sheet: &Sheet,
    rect: egui::Rect,
    body_mm: f64,
    in_mm: bool,
    system: System,
    palette: &Palette,
) {
    let stroke = Stroke::new(1.0, palette.measure);
    let x = rect.left() - 8.0;
    sheet.painter.vline(x, rect.y_range(), stroke);
    for (at, long) in marks(body_mm, sheet.scale, unit_mm(in_mm, system)) {
        let y = rect.bottom() - (at * sheet.scale) as f32;
        let size = if long { 8.0 } else { 4.0 };
        sheet.painter.hline((x - size)..=x, y, stroke);
    }
    let text = shown(body_mm, in_mm, system);
    let at = Pos2::new(x - 12.0, rect.center().y);
    sheet.text(at, Align2::RIGHT_CENTER, &text, palette.measure);
}

fn shown(mm: f64, in_mm: bool, system: System) -> String {
    let unit = if in_mm { Unit::Millimetre } else { Unit::Point };
    measured(Length::mm(mm), unit, system)
}

fn side(ui: &mut Ui, desk: &mut Desk, sort: &Arc<Sort>, state: &mut State, system: System) {
    let palette = Palette::of(ui);
    ui.label(RichText::new(&sort.name).size(26.0).color(palette.ink));
    remark(ui, words::ORDERED.with(&[&sort.count.to_string()]));
    ui.add_space(6.0);
    ui.horizontal(|ui| {
        ui.selectable_value(&mut desk.selection.as_printed, false, words::CUT);
        ui.selectable_value(&mut desk.selection.as_printed, true, words::PRINTED);
    });
    ui.horizontal_wrapped(|ui| {
        ui.selectable_value(&mut state.in_mm, false, words::POINTS);
        ui.selectable_value(&mut state.in_mm, true, words::MILLIMETRES);
        if ui.button(words::FIT).clicked() {
            state.camera.fit();
        }
    });
    let block = &sort.block;
    heading(ui, words::BODY);
    both(ui, block.body_mm, system, palette.text);
    let sides = block.extended_pt.into_iter().zip(block.made_up_by());
    for ((points, pieces), extended) in sides.zip([words::EXTENDED_FOOT, words::EXTENDED_HEAD]) {
        if points > 0.0 {
            let pieces = material::in_words(&pieces);
            remark(ui, extended.with(&[&short_figure(points), &pieces]));
        }
    }
    heading(ui, words::SET);
    both(ui, block.set_mm, system, palette.text);
    if block.plain {
        ui.add_space(8.0);
        ui.label(words::PLAIN);
    } else {
        heading(ui, words::BASE_LINE);
        both(ui, block.baseline_mm.abs(), system, palette.text);
        // A part of a border, or of a tall letter, may lie wholly above its base line.
        let side = if block.baseline_mm < 0.0 {
            words::BELOW_FOOT
        } else {
            words::ABOVE_FOOT
        };
        remark(ui, side);
    }
    notches(ui, desk, sort, system);
    if let Some(whole) = Whole::of(desk, sort) {
        lines::panel(ui, desk, &whole, &mut state.lines);
    }
    let findings = marks::of_sort(desk, &sort.name);
    marks::headed(ui, desk, &findings);
    ui.add_space(10.0);
    remark(ui, words::HOW);
}

/// What is cut from the block's corners, what fills it, and the pairs that close up for it.
fn notches(ui: &mut Ui, desk: &Desk, sort: &Sort, system: System) {
    if sort.block.notches.is_empty() {
        return;
    }
    let palette = Palette::of(ui);
    heading(ui, words::NOTCHES);
    for notch in &sort.block.notches {
        let place = format!("{} of the {} side", notch.end.word(), notch.side.word());
        ui.label(RichText::new(place).color(palette.text));
        remark(ui, notch.filling());
    }
    let Some(drawn) = desk.drawn else { return };
    let sorts: Vec<&Sort> = drawn.sorts.iter().map(AsRef::as_ref).collect();
    let pairs: Vec<String> = closed_pairs(sorts.iter().copied())
        .into_iter()
        .filter(|pair| {
            [pair.left, pair.right]
                .iter()
                .any(|&one| sorts[one].name == sort.name)
        })
        .map(|pair| {
            let gain = Length::mm((pair.gain_mm * 1e3).round() / 1e3).in_unit(Unit::Point, system);
            let (left, right) = (&sorts[pair.left].name, &sorts[pair.right].name);
            format!("{left}{right} {:.0}", gain)
        })
        .collect();
    if !pairs.is_empty() {
        heading(ui, words::CLOSES);
        ui.label(RichText::new(format!("{} pt", pairs.join(", "))).color(palette.text));
    }
}

fn both(ui: &mut Ui, mm: f64, system: System, colour: Color32) {
    let length = Length::mm(mm);
    ui.label(RichText::new(measured(length, Unit::Point, system)).color(colour));
    remark(ui, measured(length, Unit::Millimetre, system));
}
