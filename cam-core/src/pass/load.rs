//! The load of a cut: how wide a strip of fresh wood it takes, and in how many layers and at what feed it is cut so that the
//! cutter never takes more in a second than it is set to.

use crate::feeds::least_feed_mm_min;
use crate::pass::bench::Way;
use crate::pass::tool::Tool;

/// By how much more than the set width a stretch may take before anything is done about it.
pub(super) const MOST_OVER: f64 = 1.04;

/// Thinner layers for the whole cut keep the load evenly; a lower feed where the cut takes too much is chosen only if that takes
/// this part of their time at most.
const WORTH_SLOWING: f64 = 0.8;

/// The least feed that is planned, as part of the cutter's: where it would have to be less, layers are thinner.
const LEAST_FEED: f64 = 0.35;

/// The fresh wood along a path: the length from its start at which each stretch ends, and the width taken on it, mm.
pub(super) type Widths = Vec<(f64, f64)>;

/// How a cut is made so that the load is kept.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Kept {
    /// Number of equal layers.
    pub(super) layers: u32,
    /// Lengths from the path's start up to which a part of the cutter's feed holds; beyond the last it is the whole feed.
    pub(super) feeds: Vec<(f64, f64)>,
}

impl Kept {
    /// As many layers as the depth asks for, at the whole feed.
    pub(super) fn whole(layers: u32) -> Kept {
        Kept {
            layers,
            feeds: Vec::new(),
        }
    }
}

/// The least feed of a cutter, as part of its own: slower, its edges rub as well.
fn least_feed(tool: &Tool<'_>) -> f64 {
    LEAST_FEED.max(least_feed_mm_min(tool.cutter) / tool.cutter.feed_mm_min)
}

/// Thinner layers if much of the cut takes more than the set width, a lower feed where little of it does.
///
/// A way that slopes down along the cut itself runs at one feed, so that only thinner layers help it.
pub(super) fn kept(widths: &Widths, tool: &Tool<'_>, way: &Way) -> Kept {
    let layers = tool.layers;
    let most = tool.step * MOST_OVER;
    let mut begins = 0.0;
    let (mut slowed, mut length, mut widest) = (0.0, 0.0, 0.0_f64);
    for &(ends, width) in widths {
        let stretch = ends - begins;
        length += stretch;
        widest = widest.max(width);
        if width > most {
            slowed += stretch * width / tool.step;
        } else {
            slowed += stretch;
        }
        begins = ends;
    }
    if widest <= most {
        return Kept::whole(layers);
    }
    let bite = tool.cutter.step_down.in_mm() * tool.step / widest;
    let thin = crate::pass::tool::layers(tool.depth, bite).max(layers);
    let is_worth_it = slowed * f64::from(layers) <= length * f64::from(thin) * WORTH_SLOWING;
    if *way == Way::Along || widest * least_feed(tool) > tool.step || !is_worth_it {
        return Kept::whole(thin);
    }
    Kept {
        layers,
        feeds: slower_where_wide(widths, tool, 1.0),
    }
}

/// A cut made once at full depth: slower where it takes too much; `None` where the edges would rub if it were slow enough, or where
/// it would be deeper than a layer on more than the width of a cut.
pub(super) fn kept_at_once(widths: &Widths, tool: &Tool<'_>) -> Option<Kept> {
    let layers = (tool.depth / tool.cutter.step_down.in_mm()).max(1.0);
    let slowest = tool.step / (least_feed(tool) * layers);
    let most = if tool.layers > 1 {
        slowest.min(tool.step)
    } else {
        slowest
    };
    widths
        .iter()
        .all(|&(_, width)| width <= most)
        .then(|| Kept {
            layers: 1,
            feeds: slower_where_wide(widths, tool, layers),
        })
}

/// Lengths up to which a part of the feed holds, for a cut as deep as so many layers at once.
fn slower_where_wide(widths: &Widths, tool: &Tool<'_>, layers: f64) -> Vec<(f64, f64)> {
    let most = tool.step * MOST_OVER;
    let mut feeds: Vec<(f64, f64)> = Vec::new();
    for &(ends, width) in widths {
        let width = width * layers;
        let part = if width > most {
            (tool.step / width).max(least_feed(tool))
        } else {
            1.0
        };
        match feeds.last_mut() {
            Some(last) if last.1 == part => last.0 = ends,
            // Neighbouring stretches that both take too much run at the feed of the worse one.
            Some(last) if last.1 < 1.0 && part < 1.0 => *last = (ends, last.1.min(part)),
            _ => feeds.push((ends, part)),
        }
    }
    while feeds.last().is_some_and(|last| last.1 == 1.0) {
        feeds.pop();
    }
    feeds
}
