//! A border set round its frame, as its blocks print, with the verdict on each of its joins.

use egui::{Align2, FontId, Stroke, Ui};
use kurbo::{Point, Vec2};

use cam_core::border::{Frame, Join, PAPER_MM, SideOf, join_findings};
use cam_core::finding::{Finding, Severity};
use cam_core::measure::{Length, System, Unit};
use cam_core::proof::impression::{Fount, Sheet};
use said::Said;

use super::super::super::Desk;
use super::super::super::canvas::Sheet as View;
use super::super::super::fields::{choice, heading, remark};
use super::super::super::ink::Fill;
use super::super::super::theme::Palette;
use crate::background::picture::Look;
use crate::view::words::{self, Text, measured};

/// From the frame's outer edge to the marks of its joins, mm: within the paper about it.
const OUT_MM: f64 = PAPER_MM / 2.0;
/// Half the size of a mark, px.
const MARK: f32 = 7.0;

/// A frame that is shown.
pub(super) struct Framed {
    /// The frame, or a sentence why it cannot be set.
    frame: Result<Frame, Said>,
    /// What its units print, as triangles, as the sheet counts them.
    pub inked: Vec<Fill>,
    /// What there is to say of each join; nothing of those that meet.
    verdicts: Vec<Vec<Finding>>,
}

/// Keeps the border that is looked at as the commission has it; none that is gone.
pub(super) fn follow(desk: &Desk, look: &mut Look) {
    let commission = desk.document.commission();
    if let Some((shown, system)) = &mut look.border {
        let border = commission.borders.iter().find(|one| one.id == shown.id);
        match border {
            None => look.border = None,
            Some(border) => {
                if *border != *shown {
                    *shown = border.clone();
                }
                *system = commission.system;
            }
        }
    }
}

/// Lets the maker choose between lines of text and the borders, if there are any.
pub(super) fn choose(ui: &mut Ui, desk: &Desk, look: &mut Look) {
    let commission = desk.document.commission();
    if commission.borders.is_empty() {
        return;
    }
    let mut shown = vec![(None, words::LINES_OF_TEXT.to_string())];
    shown.extend(commission.borders.iter().map(|border| {
        let id = border.id.clone();
        (Some(id), words::BORDER_OF.with(&[&border.id]))
    }));
    let now = look.border.as_ref().map(|(border, _)| border.id.clone());
    if let Some(chosen) = choice(ui, words::SHOWN, &now, &shown) {
        look.border = chosen.and_then(|id| {
            let border = commission.borders.iter().find(|border| border.id == id)?;
            Some((border.clone(), commission.system))
        });
    }
}

impl Framed {
    /// The frame of the border that is looked at; `None` where a text is set.
    pub(super) fn of(look: &Look, fount: &Fount, sheet: &Sheet) -> Option<Framed> {
        let (border, _) = look.border.as_ref()?;
        let frame = look.frame(fount)?.map_err(|error| error.said());
        let (mut inked, mut verdicts) = (Vec::new(), Vec::new());
        if let Ok(frame) = &frame {
            let impressions = sheet
                .layers
                .iter()
                .flat_map(|layer| &layer.fount.impressions);
            inked.extend(impressions.map(|one| Fill::of_region(&one.inked)));
            verdicts.extend(frame.joins.iter().map(|join| {
                let alone = Frame {
                    joins: vec![join.clone()],
                    ..frame.clone()
                };
                join_findings(border, &alone)
            }));
        } else {
            // The sheet shows the text in its place.
            let impressions = fount.impressions.iter();
            inked.extend(impressions.map(|one| Fill::of_region(&one.inked)));
        }
        Some(Framed {
            frame,
            inked,
            verdicts,
        })
    }

    /// Size, sides and joins in words.
    pub(super) fn told(&self, ui: &mut Ui, system: System) {
        let palette = Palette::of(ui);
        let frame = match &self.frame {
            Ok(frame) => frame,
            Err(sentence) => {
                ui.colored_label(palette.stop, words::said(sentence));
                return;
            }
        };
        heading(ui, words::FRAME);
        let size = |mm: f64| measured(Length::mm(mm), Unit::Point, system);
        let [width, height] = frame.size_mm.map(size);
        let [wide, high] = frame.inside_mm.map(size);
        ui.label(words::FRAME_SIZE.with(&[&width, &height, &wide, &high]));
        for side in &frame.sides {
            let pieces = side.pieces.len().to_string();
            let name = name_of(side.of);
            remark(
                ui,
                if side.fill.rest_pt > 0.0 {
                    let rest = Length::points_of(side.fill.rest_pt, system);
                    let rest = measured(rest, Unit::Point, system);
                    words::SIDE_LEAVES.with(&[&name, &pieces, &rest])
                } else {
                    words::SIDE_FILLED.with(&[&name, &pieces])
                },
            );
        }
        heading(ui, words::JOINS);
        let open: u32 = frame
            .joins
            .iter()
            .filter(|join| !join.meets())
            .map(|join| join.times)
            .sum();
        let all: u32 = frame.joins.iter().map(|join| join.times).sum();
        let (all, open) = (all.to_string(), open.to_string());
        if open == "0" {
            ui.label(words::ALL_MEET.with(&[&all]));
        } else {
            ui.colored_label(palette.warning, words::SOME_OPEN.with(&[&open, &all]));
        }
        for (number, (join, verdicts)) in (1..).zip(frame.joins.iter().zip(&self.verdicts)) {
            join_told(ui, number, join, verdicts, &palette);
        }
    }

    /// Marks every join beside the frame: a stroke where the ink goes on, a ring with the join's number where it does not.
    pub(super) fn marks(&self, view: &View, palette: &Palette) {
        let Ok(frame) = &self.frame else {
            return;
        };
        for (number, (join, verdicts)) in (1..).zip(frame.joins.iter().zip(&self.verdicts)) {
            for &place in &join.places {
                let out = outward(place, frame.size_mm);
                let at = view.at(place + out * OUT_MM + Vec2::new(PAPER_MM, PAPER_MM));
                if join.meets() {
                    let edge =
                        view.at(place + out * (OUT_MM / 3.0) + Vec2::new(PAPER_MM, PAPER_MM));
                    let stroke = Stroke::new(1.0, palette.quiet);
                    view.painter.line_segment([edge, at], stroke);
                    continue;
                }
                let is_warned = verdicts.iter().any(|one| one.severity != Severity::Note);
                let colour = if is_warned {
                    palette.warning
                } else {
                    palette.quiet
                };
                view.painter
                    .circle_stroke(at, MARK, Stroke::new(1.5, colour));
                let font = FontId::proportional(11.0);
                view.painter
                    .text(at, Align2::CENTER_CENTER, number.to_string(), font, colour);
            }
        }
    }
}

/// One join: which sorts, how often, and how they meet.
fn join_told(ui: &mut Ui, number: usize, join: &Join, verdicts: &[Finding], palette: &Palette) {
    let [first, second] = &join.sorts;
    let parts = [&number.to_string(), first, second, &join.times.to_string()];
    if join.meets() {
        remark(ui, words::JOIN_MEETS.with(&parts.map(String::as_str)));
        return;
    }
    ui.label(words::JOIN_OPEN.with(&parts.map(String::as_str)));
    for verdict in verdicts {
        match verdict.severity {
            Severity::Note => remark(ui, words::said(&verdict.text)),
            Severity::Warning | Severity::Stop => {
                ui.colored_label(palette.warning, words::said(&verdict.text));
            }
        }
    }
}

/// Away from the frame at a place of its outer edge.
fn outward(place: Point, [width, height]: [f64; 2]) -> Vec2 {
    let off = [height - place.y, width - place.x, place.y, place.x];
    let ways = [(0.0, 1.0), (1.0, 0.0), (0.0, -1.0), (-1.0, 0.0)];
    let nearest = off.into_iter().zip(ways).min_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map_or(Vec2::ZERO, |(_, way)| way.into())
}

/// What a side is called in the window.
const fn name_of(side: SideOf) -> Text {
    match side {
        SideOf::Head => words::HEAD,
        SideOf::Right => words::RIGHT_SIDE,
        SideOf::Foot => words::FOOT,
        SideOf::Left => words::LEFT_SIDE,
    }
}
