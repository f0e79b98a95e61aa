//! Letters and drawings cut apart: the lines, how many of each part, and the pieces that go between them.

use std::sync::Arc;

use cam_core::commission::{CutApart, CutLine, GlyphChoice, LineWay, MiddlePiece};
use cam_core::measure::{Length, System, Unit};
use egui::Ui;

use super::super::super::Desk;
use super::super::super::fields::{self, choice, heading, remark, tick};
use super::super::super::words::{self, Text, measured};
use crate::model::command::Command;
use crate::model::typed::read_length;

pub(super) fn show(ui: &mut Ui, desk: &mut Desk) {
    let commission = Arc::clone(desk.document.commission());
    let mut cuts = commission.cut_apart.clone();
    heading(ui, words::APART);
    if cuts.is_empty() {
        remark(ui, words::APART_IS);
    }
    let mut whole = None;
    for (place, cut) in cuts.iter_mut().enumerate() {
        let title = format!("{}: {}", &*words::APART, name_of(&cut.face, &cut.glyph));
        egui::CollapsingHeader::new(title)
            .id_salt(("apart", place))
            .show(ui, |ui| {
                one(ui, cut, commission.system);
                if ui.button(words::WHOLE_AGAIN).clicked() {
                    whole = Some(place);
                }
            });
    }
    if let Some(place) = whole {
        cuts.remove(place);
    }
    let mut sorts = vec![(None, words::CHOOSE_SORT.to_string())];
    for line in &commission.bill {
        let is_cut = |cut: &CutApart| cut.face == line.face && cut.glyph == line.glyph;
        if !cuts.iter().any(is_cut) {
            let choice = (line.face.clone(), line.glyph.clone());
            sorts.push((Some(choice), name_of(&line.face, &line.glyph)));
        }
    }
    if let Some(Some((face, glyph))) = choice(ui, words::CUT_THIS_APART, &None, &sorts) {
        // Across the middle of the body, to be moved where it belongs.
        let middle = Length::points_of(6.0 * commission.lines, commission.system);
        cuts.push(CutApart {
            face,
            glyph,
            lines: vec![line(LineWay::Level, middle)],
            counts: None,
        });
    }
    if cuts != commission.cut_apart {
        desk.send(Command::CutApart(cuts));
    }
}

fn line(way: LineWay, at: Length) -> CutLine {
    CutLine {
        way,
        at,
        middle: None,
    }
}

/// What a sort is called in the list.
fn name_of(face: &str, glyph: &GlyphChoice) -> String {
    match glyph {
        GlyphChoice::Character { character, .. } => character.to_string(),
        GlyphChoice::Ligature { text, .. } => text.clone(),
        GlyphChoice::Name(name) => name.clone(),
        GlyphChoice::Index(index) => format!("{face} {index}"),
        GlyphChoice::Drawing => face.to_owned(),
    }
}

fn one(ui: &mut Ui, cut: &mut CutApart, system: System) {
    lines(
        ui,
        cut,
        LineWay::Upright,
        words::UPRIGHT_LINES,
        words::UPRIGHT_FROM,
        system,
    );
    lines(
        ui,
        cut,
        LineWay::Level,
        words::LEVEL_LINES,
        words::LEVEL_FROM,
        system,
    );
    let written = cut.counts.iter().flatten().map(u32::to_string);
    let written: Vec<String> = written.collect();
    if let Some(typed) = fields::text(ui, words::PART_COUNTS, &written.join(", ")) {
        let counts: Vec<u32> = typed
            .split([' ', ','])
            .filter_map(|count| count.trim().parse().ok())
            .collect();
        cut.counts = (!counts.is_empty()).then_some(counts);
    }
    remark(ui, words::COUNTS_ARE);
    middles(ui, cut, system);
}

/// The pieces that go between the parts, one for each line that has one.
fn middles(ui: &mut Ui, cut: &mut CutApart, system: System) {
    /// How long a piece is to begin with, in points: two lines, a size that spacing material makes up.
    const BEGINNING_PT: f64 = 24.0;
    ui.label(words::MIDDLES);
    let is_one_way = cut.lines.windows(2).all(|pair| pair[0].way == pair[1].way);
    if !is_one_way {
        remark(ui, words::MIDDLES_ONE_WAY);
        return;
    }
    for line in &mut cut.lines {
        let place = measured(line.at, Unit::Point, system);
        let label = words::MIDDLE_AT.with(&[&place]);
        if let Some(is_wanted) = tick(ui, label, line.middle.is_some()) {
            line.middle = is_wanted.then(|| MiddlePiece {
                length: Length::points_of(BEGINNING_PT, system),
                count: 1,
            });
        }
        let Some(middle) = &mut line.middle else {
            continue;
        };
        let label = words::MIDDLE_LONG.with(&[&place]);
        if let Some(length) = fields::length(ui, label, middle.length, Unit::Point, system) {
            middle.length = length;
        }
        let label = words::MIDDLE_COUNT.with(&[&place]);
        if let Some(count) = fields::count(ui, label, middle.count) {
            middle.count = count;
        }
    }
    remark(ui, words::MIDDLES_ARE);
}

/// The lines of one way, which keep their middle pieces where they stay; at least one line of all is kept.
fn lines(ui: &mut Ui, cut: &mut CutApart, way: LineWay, label: Text, hint: Text, system: System) {
    let of_way = cut.lines.iter().filter(|line| line.way == way);
    let written: Vec<String> = of_way
        .map(|line| line.at.show(Unit::Point, system))
        .collect();
    if let Some(typed) = fields::text(ui, label, &written.join(", ")) {
        let places = typed.split(',').filter(|place| !place.trim().is_empty());
        let read: Result<Vec<Length>, String> = places
            .map(|place| read_length(place, Unit::Point, system))
            .collect();
        if let Ok(read) = read {
            let before = std::mem::take(&mut cut.lines);
            let same = |at: &Length| {
                let old = before.iter().find(|line| line.way == way && line.at == *at);
                old.copied().unwrap_or_else(|| self::line(way, *at))
            };
            let others = before.iter().filter(|line| line.way != way).copied();
            cut.lines = read.iter().map(same).chain(others).collect();
            if cut.lines.is_empty() {
                cut.lines = before;
            } else if cut.lines.len() != before.len() {
                // Counts of other parts than there were say nothing.
                cut.counts = None;
            }
            // Pieces between go with lines of one way alone.
            if cut.lines.iter().any(|line| line.way != cut.lines[0].way) {
                cut.lines.iter_mut().for_each(|line| line.middle = None);
            }
        }
    }
    remark(ui, hint);
}
