//! The cutting list: how each plank comes apart on the saw by straight cuts, rows first, then blocks.
//!
//! Every fence setting is a measure of wood to be kept: between fence and blade.

use kurbo::Rect;

use super::sheet::{Cell, Column, Piece, Row, Sheet, Table, Width, strong, words};
use super::words::{counted, mm, plank_name};
use super::{PaperParts, cautions, picture};
use crate::commission::Separation;
use crate::plank::{First, Plank, Run, Step, left_over, sawn, steps};

/// Kerf and lane that differ by less than this are one, mm.
const SAME_MM: f64 = 0.001;
/// The picture's height on the page at most, in parts of the field's.
const PICTURE_PART: f64 = 0.4;

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    match parts.commission.planks.separation {
        Separation::Router { .. } => return None,
        Separation::Saw => {}
    }
    let lane = parts.job.lane_mm;
    let kerf = parts.commission.planks.kerf_mm();
    let mut facts = parts.order_facts();
    facts.push(("Wood", parts.wood().to_owned()));
    facts.push(("Kerf", format!("{} mm", mm(kerf))));
    let mut pieces = vec![
        Piece::heading("The blade"),
        Piece::text(of_the_blade(kerf, lane)),
        Piece::heading("The fence"),
        Piece::text(
            "Fence settings are the wood kept between fence and blade. Keep the edge named first against the fence, face up. Cut all rows off a plank before cutting blocks from any row.",
        ),
    ];
    pieces.extend(cautions::at_the_saw());
    let field = parts.field();
    for plank in parts.planks {
        pieces.push(Piece::Part(plank_name(&plank.id)));
        pieces.push(Piece::Drawing(picture::fitted(
            parts,
            plank,
            [field.whole_mm(), field.high_mm() * PICTURE_PART],
        )));
        pieces.push(one_plank(parts, plank, kerf));
    }
    pieces.extend(what_is_left(parts));
    Some(Sheet {
        file: "cutting-list",
        name: "Cutting list",
        facts,
        pieces,
        as_text: true,
    })
}

fn of_the_blade(kerf: f64, lane: f64) -> String {
    let kept = if (lane - kerf).abs() < SAME_MM {
        "the lane between blocks; measure it in a trial cut".to_owned()
    } else {
        format!(
            "measured in a trial cut; of each lane of {} mm the rest is waste, taken off before the next piece",
            mm(lane)
        )
    };
    format!(
        "Use a blade whose kerf is {} mm, {kept}. With another kerf every block after the first in a row comes out wrong.",
        mm(kerf)
    )
}

fn one_plank(parts: &PaperParts, plank: &Plank, kerf: f64) -> Piece {
    let blocks: Vec<Rect> = plank
        .places
        .iter()
        .map(|place| {
            let block = parts.sorts.get(place.sort).map(|sort| sort.block.rect());
            block.unwrap_or(Rect::ZERO) + place.at
        })
        .collect();
    let whole = Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm);
    let Some(sawn) = sawn(&blocks, kerf) else {
        return Piece::Loud(
            "No straight cuts part these blocks: see what stops the job.".to_owned(),
        );
    };
    let steps = steps(&sawn, &blocks, whole, kerf);
    let mut rows = Vec::new();
    let mut number = 0;
    for (place, step) in steps.iter().enumerate() {
        if step.depth == 0 {
            number += 1;
            let inner = steps[place + 1..].iter().take_while(|step| step.depth > 0);
            let inner: usize = inner.map(|step| step.done.len()).sum();
            let blocks = counted(inner + step.done.len(), "block");
            let part = match step.cuts {
                Run::Across => "Row",
                Run::Along => "Column",
            };
            rows.push(Row::group(format!("{part} {number}, {blocks}")));
        }
        rows.push(one_step(plank, step));
    }
    Piece::Table(
        Table::new(
            vec![
                Column::left("Cut", Width::Fit),
                Column::left("First take off", Width::Fit),
                Column::right("Fence, mm", Width::Fit),
                Column::left("Gives", Width::Share),
                Column::left("Done", Width::Fit),
            ],
            rows,
        )
        .over_all(1),
    )
}

fn one_step(plank: &Plank, step: &Step) -> Row {
    let ids: Vec<&str> = step
        .done
        .iter()
        .filter_map(|&block| Some(plank.places.get(block)?.id.as_str()))
        .collect();
    let kind = match (step.cuts, step.depth) {
        (Run::Across, 0) => "rip the row off",
        (Run::Across, _) => "rip to size",
        (Run::Along, _) => "crosscut",
    };
    let first = match step.first {
        First::Nothing => String::new(),
        First::Skim(skim) => format!("a skim of {}", mm(skim)),
        First::Strip(strip) => format!("{} of waste", mm(strip)),
    };
    let gives = if ids.is_empty() {
        match (step.depth, step.cuts) {
            (0, Run::Across) => counted(step.pieces, "row"),
            (0, Run::Along) => counted(step.pieces, "column"),
            _ => format!("{}, to be cut on", counted(step.pieces, "piece")),
        }
    } else {
        format!("{}: {}", counted(ids.len(), "block"), ids.join(", "))
    };
    Row::plain(vec![
        words(kind),
        words(first),
        strong(mm(step.fence_mm)),
        words(gives),
        Cell::Tick,
    ])
}

/// The pieces worth keeping.
fn what_is_left(parts: &PaperParts) -> Vec<Piece> {
    let left = left_over(parts.planks, parts.sorts, parts.commission, parts.workshop);
    if left.is_empty() {
        return Vec::new();
    }
    let mut pieces = vec![Piece::Rule, Piece::heading("Wood that goes back to stock")];
    pieces.extend(left.iter().map(|piece| {
        Piece::Point(format!(
            "{}: {} mm (x) by {} mm (y)",
            piece.id,
            mm(piece.width.in_mm()),
            mm(piece.length.in_mm())
        ))
    }));
    pieces
}
