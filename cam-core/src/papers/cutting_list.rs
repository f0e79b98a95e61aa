//! The cutting list: how each plank comes apart on the saw by straight cuts, rows first, then blocks.
//!
//! Every fence setting is a measure of wood to be kept: between fence and blade.

use kurbo::Rect;

use super::words::{heading, mm, paragraph};
use super::{PaperParts, cautions, text_file};
use crate::commission::Separation;
use crate::make::OutputFile;
use crate::plank::{First, Plank, Run, Step, left_over, sawn, steps};

/// Kerf and lane that differ by less than this are one, mm.
const SAME_MM: f64 = 0.001;

pub fn write(parts: &PaperParts) -> Vec<OutputFile> {
    match parts.commission.planks.separation {
        Separation::Router { .. } => return Vec::new(),
        Separation::Saw => {}
    }
    let lane = parts.job.lane_mm;
    let kerf = parts.commission.planks.kerf_mm();
    let mut text = format!("Cutting list: {}\n\n", parts.commission.title);
    text += &paragraph("", &of_the_blade(kerf, lane), 0);
    text += &paragraph(
        "",
        "Fence settings are the wood kept between fence and blade. Keep the edge named first against the fence, face up. Cut all rows off a plank before cutting blocks from any row.",
        0,
    );
    for plank in parts.planks {
        text += &one_plank(parts, plank, kerf);
    }
    text += &what_is_left(parts);
    text += &heading("Cautions");
    text += &cautions::cautions();
    vec![text_file("cutting-list.txt", text)]
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

fn one_plank(parts: &PaperParts, plank: &Plank, kerf: f64) -> String {
    let mut text = heading(&format!("Plank {}", plank.id));
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
        return text + "No straight cuts part these blocks: see what stops the job.\n";
    };
    let steps = steps(&sawn, &blocks, whole, kerf);
    let mut rows = 0;
    for (number, step) in steps.iter().enumerate() {
        if step.depth == 0 {
            rows += 1;
            let inner = steps[number + 1..].iter().take_while(|step| step.depth > 0);
            let blocks: usize = inner.map(|step| step.done.len()).sum();
            let blocks = blocks + step.done.len();
            text += &format!(
                "Row {rows}, {blocks} {}\n",
                if blocks == 1 { "block" } else { "blocks" }
            );
        }
        text += &one_step(plank, step);
    }
    text
}

fn one_step(plank: &Plank, step: &Step) -> String {
    let indent = "  ".repeat(step.depth.max(1));
    let ids: Vec<&str> = step
        .done
        .iter()
        .filter_map(|&block| Some(plank.places.get(block)?.id.as_str()))
        .collect();
    let waste = match step.first {
        First::Nothing => String::new(),
        First::Skim(skim) => format!(" skim {} mm off, then", mm(skim)),
        First::Strip(strip) => format!(" take off {} mm of waste, then", mm(strip)),
    };
    let done = if ids.is_empty() {
        String::new()
    } else {
        let blocks = if ids.len() == 1 { "block" } else { "blocks" };
        format!(", {} {blocks}: {}", ids.len(), ids.join(", "))
    };
    let fence = mm(step.fence_mm);
    let words = match (step.cuts, step.depth) {
        (Run::Across, 0) => format!(
            "rip along x: near edge to the fence,{waste} set the fence to {fence} mm and rip the row off{done}"
        ),
        (Run::Across, _) => {
            format!("rip to size: near edge to the fence,{waste} fence at {fence} mm{done}")
        }
        (Run::Along, _) => format!("crosscut:{waste} fence at {fence} mm{done}"),
    };
    paragraph(&indent, &words, step.depth.max(1) * 2 + 4)
}

/// The pieces worth keeping.
fn what_is_left(parts: &PaperParts) -> String {
    let left = left_over(parts.planks, parts.sorts, parts.commission, parts.workshop);
    if left.is_empty() {
        return String::new();
    }
    let mut text = heading("Wood that goes back to stock");
    for piece in left {
        text += &format!(
            "- {}: {} mm (x) by {} mm (y)\n",
            piece.id,
            mm(piece.width.in_mm()),
            mm(piece.length.in_mm())
        );
    }
    text
}
