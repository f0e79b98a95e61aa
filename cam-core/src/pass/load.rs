//! The load of a cut: how wide a strip of fresh wood it takes, and in how many layers and at what feed it is cut so that the
//! cutter never takes more in a second than it is set to.

use crate::pass::tool::Tool;

/// By how much more than the set width a stretch may take before anything is done about it.
pub(super) const MOST_OVER: f64 = 1.04;

/// Part of a cut with too much to take from which on the whole cut is made in thinner layers; on less, the feed falls there.
const THIN_FROM: f64 = 0.3;

/// The least feed, as part of the cutter's: slower, the edges rub.
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

/// Thinner layers where much of the cut takes more than the set width, a lower feed where little of it does.
pub(super) fn kept(widths: &Widths, tool: &Tool<'_>, thickness: f64, layers: u32) -> Kept {
    let most = tool.step * MOST_OVER;
    let mut begins = 0.0;
    let (mut over, mut length, mut widest) = (0.0, 0.0, 0.0_f64);
    for &(ends, width) in widths {
        let stretch = ends - begins;
        length += stretch;
        widest = widest.max(width);
        if width > most {
            over += stretch;
        }
        begins = ends;
    }
    if widest <= most {
        return Kept::whole(layers);
    }
    if over > length * THIN_FROM {
        let bite = tool.cutter.step_down.in_mm() * tool.step / widest;
        return Kept::whole(crate::pass::tool::layers(thickness, bite).max(layers));
    }
    let mut feeds: Vec<(f64, f64)> = Vec::new();
    for &(ends, width) in widths {
        let part = if width > most {
            (tool.step / width).max(LEAST_FEED)
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
    Kept { layers, feeds }
}
