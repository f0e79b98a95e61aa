//! The load of a cut: how wide a strip of fresh wood it takes, and in how many layers and at what feed it is cut so that the
//! cutter never takes more in a second than it is set to.

use crate::feeds::least_feed_mm_min;
use crate::pass::bench::Way;
use crate::pass::tool::{Tool, layers};

/// By how much more than the set width a stretch may take before anything is done about it.
pub(super) const MOST_OVER: f64 = 1.04;

/// Part of the set width up to which a cut is thin. Common practice, no source: the less wide, the deeper a cutter may go; passes that
/// are steered to take the set width stay above it.
const THIN: f64 = 0.75;

/// Part of the set width that a thin cut may take at its least feed: cells tell no better how wide it is (measured, 0.8 mm cutter).
const SURE: f64 = 0.7;

/// The least feed that is planned, as part of the cutter's: where it would have to be less, layers are thinner.
const LEAST_FEED: f64 = 0.3;

/// Stretches whose feeds differ by no more than this factor are fed alike.
const ALIKE: f64 = 1.1;

/// The fresh wood along a path: the length from its start at which each stretch ends, and the width taken on it, mm.
pub(super) type Widths = Vec<(f64, f64)>;

/// How a cut is made so that the load is kept.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Kept {
    /// Number of equal layers.
    pub(super) layers: u32,
    /// Where it is fed slower.
    pub(super) feeds: Feeds,
    /// The same for layers that are run back: what the cutter meets where it comes out one way, it meets where it goes in the other.
    pub(super) back: Feeds,
}

/// Lengths from a path's start up to which a part of the cutter's feed holds; beyond the last it is the whole feed.
pub(super) type Feeds = Vec<(f64, f64)>;

impl Kept {
    /// As many layers as the depth asks for, at the whole feed.
    pub(super) fn whole(layers: u32) -> Kept {
        Kept::at_feeds(layers, Feeds::new())
    }

    fn at_feeds(layers: u32, feeds: Feeds) -> Kept {
        Kept {
            layers,
            feeds,
            back: Feeds::new(),
        }
    }
}

/// The least feed of a cutter, as part of its own: slower, its edges rub as well.
fn least_feed(tool: &Tool<'_>) -> f64 {
    LEAST_FEED.max(least_feed_mm_min(tool.cutter) / tool.cutter.feed_mm_min)
}

/// A lower feed where the cut takes more than the set width: it clears as fast as thinner layers at the whole feed would there, and
/// faster where it is narrower. Thinner layers where the feed would have to be too low.
///
/// A thin cut that begins in cleared ground is made in fewer and deeper layers, as finishing is: the cutter takes no more in a second
/// for it.
///
/// `back` is what the cut takes if it is run from its end, for one that is run so by turns.
pub(super) fn kept(widths: &Widths, back: Option<&Widths>, tool: &Tool<'_>, way: &Way) -> Kept {
    let either = || widths.iter().chain(back.into_iter().flatten());
    let widest = either().map(|&(_, width)| width).fold(0.0_f64, f64::max);
    let as_deep_as = |whole: f64, layers: u32| {
        let slower = |widths: &Widths| slower_where_wide(widths, tool, whole);
        Kept {
            layers,
            feeds: slower(widths),
            back: back.map(slower).unwrap_or_default(),
        }
    };
    let begins_free = matches!(way, Way::Stay | Way::Open);
    if begins_free && widest <= tool.step * THIN {
        let deeper = |fewer: &u32| f64::from(tool.layers) / f64::from(*fewer);
        let is_kept = |fewer: &u32| widest * deeper(fewer) * least_feed(tool) <= tool.step * SURE;
        let fewer = (1..tool.layers).find(is_kept);
        return fewer.map_or(Kept::whole(tool.layers), |fewer| {
            as_deep_as(deeper(&fewer), fewer)
        });
    }
    if widest <= tool.step * MOST_OVER {
        return Kept::whole(tool.layers);
    }
    if widest * least_feed(tool) > tool.step {
        let bite = tool.cutter.step_down.in_mm() * tool.step / widest;
        return Kept::whole(layers(tool.depth, bite).max(tool.layers));
    }
    as_deep_as(1.0, tool.layers)
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
        .then(|| Kept::at_feeds(1, slower_where_wide(widths, tool, layers)))
}

/// Whether two parts of the feed are both less than the whole and differ little.
fn are_alike(one: f64, other: f64) -> bool {
    one.max(other) < 1.0 && one.max(other) <= one.min(other) * ALIKE
}

/// Lengths up to which a part of the feed holds, for a cut as deep as so many layers at once.
fn slower_where_wide(widths: &Widths, tool: &Tool<'_>, layers: f64) -> Feeds {
    let most = tool.step * MOST_OVER;
    let mut feeds = Feeds::new();
    for &(ends, width) in widths {
        let width = width * layers;
        let part = if width > most {
            (tool.step / width).max(least_feed(tool))
        } else {
            1.0
        };
        match feeds.last_mut() {
            Some(last) if last.1 == part => last.0 = ends,
            // Neighbouring stretches that both take too much, and about as much, run at the feed of the worse one.
            Some(last) if are_alike(last.1, part) => *last = (ends, last.1.min(part)),
            _ => feeds.push((ends, part)),
        }
    }
    while feeds.last().is_some_and(|last| last.1 == 1.0) {
        feeds.pop();
    }
    feeds
}
