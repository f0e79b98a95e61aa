//! Every block asked for is square but for its notches, of the size that its sort says, on its plank, and on none of its bad places.

use kurbo::Rect;
use said::{Said, Value};

use super::super::bench::Bench;
use super::super::copies::{Copy, bounds};
use super::super::report;
use super::notches::is_stepped_box;
use crate::finding::{Finding, Subject, texts};
use crate::job_file::JobBox;
use crate::progress::Stopped;

/// How far a block may differ from what its sort says, mm: a fifth of what the trade allows for body and set (0.05 mm, common practice,
/// no source), since this is not yet wood.
const TRUE_MM: f64 = 0.01;

/// How far an edge of a block may slant over its length, mm.
const SLANT_MM: f64 = 0.001;

pub fn judge(bench: &Bench) -> Result<Vec<Finding>, Stopped> {
    let planks = &bench.job.planks;
    let mut findings: Vec<Finding> = bench
        .stock
        .copies
        .iter()
        .filter_map(|copy| {
            let plank = &planks[copy.plank];
            let on = Rect::new(0.0, 0.0, plank.width_mm, plank.length_mm);
            Some(report::stop(
                Subject::Sort(copy.sort.id.clone()),
                "block-not-true",
                fault(copy, on)?,
                texts::make_again(),
            ))
        })
        .collect();
    findings.extend(bench.stock.copies.iter().filter_map(|copy| {
        let plank = &planks[copy.plank];
        let block = bounds(&copy.block);
        let on = plank.bad_places.iter().map(job_box).find(|bad| {
            let both = block.intersect(*bad);
            both.width() > TRUE_MM && both.height() > TRUE_MM
        })?;
        Some(report::stop(
            Subject::Sort(copy.sort.id.clone()),
            "block-on-bad-place",
            texts::block_on_bad_place(&copy.sort.id, report::place(on.origin()), &plank.id),
            texts::make_again(),
        ))
    }));
    Ok(findings)
}

fn job_box(bad: &JobBox) -> Rect {
    let [x, y] = bad.at_mm;
    Rect::new(x, y, x + bad.size_mm[0], y + bad.size_mm[1])
}

fn fault(copy: &Copy, plank: Rect) -> Option<Said> {
    let id = &copy.sort.id;
    let block = &copy.block;
    let slanting = block
        .iter()
        .zip(block.iter().cycle().skip(1))
        .any(|(a, b)| (a.x - b.x).abs().min((a.y - b.y).abs()) > SLANT_MM);
    if !copy.sort.notches.is_empty() {
        if !is_stepped_box(copy) {
            return Some(texts::block_not_stepped(id));
        }
    } else if slanting {
        return Some(texts::block_slants(id));
    }
    let box_ = bounds(block);
    let sizes = [box_.width(), box_.height()];
    let (body, set) = (copy.sort.body_mm, copy.sort.set_mm);
    let near = |wanted: [f64; 2]| {
        sizes
            .iter()
            .zip(wanted)
            .all(|(size, wanted)| (size - wanted).abs() <= TRUE_MM)
    };
    if !near([set, body]) && !near([body, set]) {
        let [width, height, set, body] =
            [sizes[0], sizes[1], set, body].map(|size| Value::rounded(size, 3));
        return Some(texts::block_of_other_size(id, width, height, set, body));
    }
    let inside =
        plank.x0 <= box_.x0 && plank.y0 <= box_.y0 && box_.x1 <= plank.x1 && box_.y1 <= plank.y1;
    (!inside).then(|| texts::block_beside_plank(id))
}
