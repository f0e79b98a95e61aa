//! Where tabs hold the blocks of a plank, and how wide they are.
//!
//! Among notched blocks a tab needs wood on both sides of the lane; on small blocks tabs are narrower than was asked for, so that half
//! of the outline is cut through.

use std::sync::Arc;

use kurbo::Rect;
use said::Value;

use crate::commission::{Commission, Hold, Separation};
use crate::finding::{Finding, Severity, Subject, texts};
use crate::notch::{End, Side};
use crate::plank::Plank;
use crate::sort::{Block, Sort};
use crate::workshop::Workshop;

/// Distance between the places along an edge that are tried, mm.
const TRY_MM: f64 = 1.0;

/// The most places tried to either side of the one wanted: enough for the largest body.
const MOST_TRIES: u32 = 600;

/// How far beside a step its cutter works, in radii: along the bevel it comes about a third of a radius below it.
const BESIDE_RADII: f64 = 0.4;

/// A side this many tab places long gets two tabs rather than one, or it would chatter between them (common practice, no source).
const LONG_SIDE: f64 = 4.0;

/// The part of an outline that tabs may take up, with what a round cutter leaves beside them: a little under half, which must be cut
/// through.
const MOST_OF_OUTLINE: f64 = 0.48;

/// The part of the width asked for that a tab keeps on the smallest block: 1.5 of 5 mm (common practice, no source).
const NARROWEST: f64 = 0.3;

/// What looking for tabs along a path makes them wider at each end, mm.
const LOOK_MM: f64 = 0.1;

/// Widths that differ by less are one, mm.
const NOISE_MM: f64 = 1e-6;

/// What is asked of the tabs of a plank, and what they stand in.
#[derive(Clone, Copy)]
pub(super) struct Asked {
    /// Length along the edge, mm.
    pub tab: f64,
    /// Width of the lane, mm.
    pub lane: f64,
    /// Radius of the cutter, mm.
    pub radius: f64,
}

impl Asked {
    /// Where along a side the middles of its tabs are.
    fn parts(self, bounds: Rect) -> &'static [f64] {
        if bounds.height() > LONG_SIDE * (self.tab + 2.0 * self.radius) {
            &[0.25, 0.75]
        } else {
            &[0.5]
        }
    }

    /// How wide the tabs of a block may be for half of its outline to be cut through; no wider than asked for, nor less than [`NARROWEST`] of that.
    fn fitting(self, bounds: Rect) -> f64 {
        let outline = 2.0 * (bounds.width() + bounds.height());
        let tabs = Edge::SIDES.len() * self.parts(bounds).len();
        let each = MOST_OF_OUTLINE * outline / tabs as f64;
        let fits = each - 2.0 * (self.radius + LOOK_MM);
        self.tab.min(fits.max(NARROWEST * self.tab))
    }
}

/// The wood that must stand at the left and right sides of one of several upright blocks. A tab is no wider than the block across the lane
/// can do with, since it stands in that one's outline as well.
pub(super) fn at_sides(blocks: &[Rect], number: usize, asked: Asked) -> Vec<Rect> {
    let own = blocks[number];
    let tabs = Edge::SIDES.into_iter().flat_map(|edge| {
        let width = blocks
            .iter()
            .enumerate()
            .filter(|&(other, &bounds)| {
                other != number && edge.is_across(own, bounds, edge.run(own), asked.lane)
            })
            .map(|(_, &bounds)| asked.fitting(bounds))
            .fold(asked.fitting(own), f64::min);
        asked.parts(own).iter().map(move |part| {
            let middle = own.y0 + own.height() * part;
            let stretch = (middle - width / 2.0, middle + width / 2.0);
            edge.lane(own, stretch, asked.lane)
        })
    });
    tabs.collect()
}

/// Says which blocks are held by narrower tabs than the commission asks for.
pub fn narrow_tabs(
    planks: &[Plank],
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
) -> Option<Finding> {
    let (cutter, tab) = match &commission.planks.separation {
        Separation::Router {
            cutter,
            hold: Hold::Tabs { width, .. },
        } => (workshop.cutter(cutter)?, width.in_mm()),
        Separation::Router {
            hold: Hold::Skin(_),
            ..
        }
        | Separation::Saw => return None,
    };
    let asked = Asked {
        tab,
        lane: commission.planks.lane.in_mm(),
        radius: cutter.radius_mm(),
    };
    let narrow: Vec<f64> = planks
        .iter()
        .flat_map(|plank| &plank.places)
        .filter_map(|place| sorts.get(place.sort))
        .filter(|sort| sort.block.notches.is_empty())
        .map(|sort| asked.fitting(Rect::new(0.0, 0.0, sort.block.set_mm, sort.block.body_mm)))
        .filter(|fitting| fitting + NOISE_MM < tab)
        .collect();
    let narrowest = narrow.iter().copied().reduce(f64::min)?;
    let [tab, narrowest] = [tab, narrowest].map(|width| Value::rounded(width, 1));
    Some(Finding {
        severity: Severity::Note,
        subject: Subject::Commission,
        kind: "tabs-narrow",
        text: match narrow.len() {
            1 => texts::tabs_narrow_of_one(tab, narrowest),
            count => texts::tabs_narrow(count, tab, narrowest),
        },
        remedy: texts::tabs_narrow_remedy(),
    })
}

/// A side of a block's box, on the plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Edge {
    Left,
    Right,
    Lower,
    Upper,
}

impl Edge {
    const SIDES: [Edge; 2] = [Edge::Left, Edge::Right];
    const ENDS: [Edge; 2] = [Edge::Lower, Edge::Upper];

    fn facing(self) -> Edge {
        match self {
            Edge::Left => Edge::Right,
            Edge::Right => Edge::Left,
            Edge::Lower => Edge::Upper,
            Edge::Upper => Edge::Lower,
        }
    }

    /// The box of a stretch of the lane along this edge of a block.
    fn lane(self, bounds: Rect, (from, to): (f64, f64), lane: f64) -> Rect {
        match self {
            Edge::Left => Rect::new(bounds.x0 - lane, from, bounds.x0, to),
            Edge::Right => Rect::new(bounds.x1, from, bounds.x1 + lane, to),
            Edge::Lower => Rect::new(from, bounds.y0 - lane, to, bounds.y0),
            Edge::Upper => Rect::new(from, bounds.y1, to, bounds.y1 + lane),
        }
    }

    /// From where to where an edge runs.
    fn run(self, bounds: Rect) -> (f64, f64) {
        match self {
            Edge::Left | Edge::Right => (bounds.y0, bounds.y1),
            Edge::Lower | Edge::Upper => (bounds.x0, bounds.x1),
        }
    }

    /// Whether another block lies across the lane from a stretch of this edge of a block.
    fn is_across(self, bounds: Rect, other: Rect, (from, to): (f64, f64), lane: f64) -> bool {
        let beyond = self.beyond(bounds, other);
        let (first, last) = self.run(other);
        (0.0..2.0 * lane).contains(&beyond) && first - lane < to && from < last + lane
    }

    /// How far an edge of another block lies beyond this edge of a block.
    fn beyond(self, bounds: Rect, other: Rect) -> f64 {
        match self {
            Edge::Left => bounds.x0 - other.x1,
            Edge::Right => other.x0 - bounds.x1,
            Edge::Lower => bounds.y0 - other.y1,
            Edge::Upper => other.y0 - bounds.y1,
        }
    }
}

/// A block on its plank, with what its notches leave of each edge.
pub(super) struct Beside {
    bounds: Rect,
    /// From where to where each edge stands: left, right, lower, upper.
    stands: [(f64, f64); 4],
}

impl Beside {
    pub(super) fn of(bounds: Rect, block: &Block, radius: f64) -> Beside {
        let mut beside = Beside {
            bounds,
            stands: [Edge::Left, Edge::Right, Edge::Lower, Edge::Upper]
                .map(|edge| edge.run(bounds)),
        };
        for notch in &block.notches {
            let more = BESIDE_RADII * radius;
            let high = notch.height_mm + notch.bevel_mm + more;
            let wide = notch.width_mm + more;
            // Seen from above, left and right are not what they are in print.
            let side = match notch.side {
                Side::Left => Edge::Right,
                Side::Right => Edge::Left,
            };
            let end = match notch.end {
                End::Foot => Edge::Lower,
                End::Head => Edge::Upper,
            };
            let [of_side, of_end] = [side as usize, end as usize];
            match notch.end {
                End::Foot => beside.stands[of_side].0 += high,
                End::Head => beside.stands[of_side].1 -= high,
            }
            match side {
                Edge::Right => beside.stands[of_end].1 -= wide,
                Edge::Left | Edge::Lower | Edge::Upper => beside.stands[of_end].0 += wide,
            }
        }
        beside
    }

    fn stands(&self, edge: Edge, (from, to): (f64, f64)) -> bool {
        let (first, last) = self.stands[edge as usize];
        first <= from && to <= last
    }
}

/// The wood that must stand beside one of several blocks: in the middle of its left and right sides, or as near to it as there is wood on
/// both sides of the lane; if a side has no such place, at its head and foot as well.
pub(super) fn between_notches(blocks: &[Beside], number: usize, tab: f64, lane: f64) -> Vec<Rect> {
    let found = |edges: [Edge; 2]| -> Vec<Rect> {
        edges
            .into_iter()
            .filter_map(|edge| place_for(blocks, number, edge, tab, lane))
            .collect()
    };
    let mut tabs = found(Edge::SIDES);
    if tabs.len() < Edge::SIDES.len() {
        tabs.extend(found(Edge::ENDS));
    }
    tabs
}

fn place_for(blocks: &[Beside], number: usize, edge: Edge, tab: f64, lane: f64) -> Option<Rect> {
    let own = &blocks[number];
    let (first, last) = edge.run(own.bounds);
    let middle = (first + last) / 2.0;
    let tries = (0..=MOST_TRIES).flat_map(|far| [f64::from(far), -f64::from(far)]);
    tries
        .map(|far| middle + far * TRY_MM)
        .map(|at| (at - tab / 2.0, at + tab / 2.0))
        .find(|&stretch| {
            own.stands(edge, stretch) && holds_beyond(blocks, number, edge, stretch, lane)
        })
        .map(|stretch| edge.lane(own.bounds, stretch, lane))
}

/// Whether what lies across the lane stands there: every block in the way does, or there is none, only the plank.
fn holds_beyond(
    blocks: &[Beside],
    number: usize,
    edge: Edge,
    (from, to): (f64, f64),
    lane: f64,
) -> bool {
    let own = &blocks[number];
    blocks
        .iter()
        .enumerate()
        .filter(|(other, _)| *other != number)
        .map(|(_, other)| other)
        .filter(|other| edge.is_across(own.bounds, other.bounds, (from, to), lane))
        .all(|other| other.stands(edge.facing(), (from, to)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::notch::{Notch, outline};

    fn block(notches: Vec<Notch>) -> Block {
        Block {
            outline: outline(30.0, 60.0, &notches),
            body_mm: 60.0,
            set_mm: 30.0,
            baseline_mm: 0.0,
            extended_pt: [0.0; 2],
            plain: false,
            notches,
        }
    }

    fn notch(side: Side, end: End) -> Notch {
        Notch {
            side,
            end,
            width_pt: 0.0,
            height_pt: 0.0,
            width_mm: 8.0,
            height_mm: 32.0,
            bevel_mm: 3.0,
        }
    }

    fn beside(column: u32, notches: Vec<Notch>) -> Beside {
        let x = f64::from(column) * 36.0;
        Beside::of(Rect::new(x, 0.0, x + 30.0, 60.0), &block(notches), 3.0)
    }

    /// 3 lines of 12 points, pulled by cutters of 6 mm: on a side of 12.7 mm a tab of 5 mm takes 11 mm.
    #[test]
    fn small_blocks_get_tabs_that_leave_half_of_the_outline() {
        let asked = Asked {
            tab: 5.0,
            lane: 6.4,
            radius: 3.0,
        };
        let block = |x: f64, set: f64, body: f64| Rect::new(x, 0.0, x + set, body);
        for (set, body) in [(6.0, 12.7), (9.0, 12.7), (30.0, 42.0), (20.0, 60.0)] {
            let tabs = at_sides(&[block(0.0, set, body)], 0, asked);
            let spared: f64 = tabs.iter().map(|tab| tab.height() + 6.2).sum();
            assert!(spared < set + body, "{set} by {body}: {tabs:?}");
            assert!(tabs.iter().all(|tab| tab.height() >= 2.5));
        }
        let large = at_sides(&[block(0.0, 30.0, 42.0)], 0, asked);
        assert_eq!(large.len(), 2);
        assert!(large.iter().all(|tab| tab.height() == 5.0));
        // A wide block beside a narrow one spares it on that side.
        let row = [block(0.0, 20.0, 12.7), block(26.4, 6.0, 12.7)];
        let [wide, narrow] = [0, 1].map(|number| at_sides(&row, number, asked));
        assert_eq!(wide[0].height(), 5.0);
        assert_eq!(wide[1].height(), narrow[0].height());
        assert!(narrow[0].height() < 5.0);
    }

    #[test]
    fn tabs_lie_between_wood_and_wood() {
        // The printed left side of the first block is its right on the plank; it keeps the lower part, and so does the other's left side.
        let blocks = [
            beside(0, vec![notch(Side::Left, End::Head)]),
            beside(1, vec![notch(Side::Right, End::Head)]),
        ];
        for (number, x) in [(0, 30.0), (1, 30.0)] {
            let tabs = between_notches(&blocks, number, 5.0, 6.0);
            assert_eq!(tabs.len(), 2);
            let tab = tabs
                .iter()
                .find(|tab| tab.x0 == x)
                .expect("in the lane between");
            assert!(tab.y1 <= 60.0 - 35.0 && tab.height() == 5.0, "{tab:?}");
        }
    }

    #[test]
    fn blocks_that_interlock_across_the_lane_are_held_at_their_ends() {
        let blocks = [
            beside(0, vec![notch(Side::Left, End::Head)]),
            beside(1, vec![notch(Side::Right, End::Foot)]),
        ];
        let tabs = between_notches(&blocks, 0, 5.0, 6.0);
        assert_eq!(tabs.len(), 3, "{tabs:?}");
        assert!(tabs.iter().all(|tab| tab.x0 != 30.0));
        let upper = tabs.iter().find(|tab| tab.y0 == 60.0).expect("at the head");
        assert!(upper.x1 <= 22.0 - 1.2);
    }
}
