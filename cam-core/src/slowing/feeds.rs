//! From what each step takes off to feeds.

use crate::toolpath::{Course, Motion};

use super::steps::{Fed, Rule, Way, place};

/// Length of way over which a load is taken, mm: about what a machine needs to change its feed (900 mm/min at 300 mm/s²).
const WINDOW_MM: f64 = 0.5;

/// Up to so many times what is set nothing is done: cells tell no more.
const MOST_OVER: f64 = 1.02;

/// Stretches whose feeds differ by no more than this factor are fed alike.
const ALIKE: f64 = 1.1;

/// The shortest stretch that gets a feed of its own, mm; shorter ones are fed as a slower one beside them.
const SHORTEST_MM: f64 = 0.25;

/// What a cutter may take, and how fast and how slowly it may go for it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Limits {
    /// Its set width times the depth of one layer.
    pub(super) set_mm2: f64,
    /// Its own width times the depth of one layer.
    pub(super) slot_mm2: f64,
    /// The feed for the set width, and the fastest.
    pub(super) feed_mm_min: f64,
    /// The least feed.
    pub(super) least_mm_min: f64,
}

impl Limits {
    /// The feed over a stretch that is planned at a feed and takes so much for each length.
    fn feed(&self, rule: Rule, planned: f64, mm2: f64) -> f64 {
        match rule {
            Rule::Kept => planned,
            Rule::SetWidth => {
                let most = self.set_mm2 * self.feed_mm_min;
                if mm2 * planned <= most * MOST_OVER {
                    planned
                } else {
                    (most / mm2).max(self.least_mm_min).min(planned)
                }
            }
            Rule::Slot => {
                let as_planned = planned * self.slot_mm2;
                if mm2 * planned * ALIKE >= as_planned {
                    planned
                } else {
                    (as_planned / mm2).min(self.feed_mm_min).max(planned)
                }
            }
        }
    }
}

/// The motions with their feeds as the steps take much or little, parted where feeds change.
pub(super) fn followed(
    motions: &[Motion],
    way: &Way,
    taken: &[f64],
    limits: &Limits,
) -> Vec<Motion> {
    let mut parted = Vec::with_capacity(motions.len());
    let mut passed = 0;
    let follow = |a: &Fed, b: &Fed| a.rule == b.rule && b.follows;
    for run in way.fed.chunk_by(follow) {
        if run.iter().any(|fed| fed.rule == Rule::Kept) {
            continue;
        }
        let loads = loads(run, taken);
        let mut begins = 0;
        for fed in run {
            let ends = begins + fed.steps.len();
            let feeds = loads[begins..ends]
                .iter()
                .map(|&mm2| limits.feed(fed.rule, fed.feed, mm2));
            let stretches = stretches(feeds, fed.length);
            begins = ends;
            if matches!(stretches.as_slice(), [only] if only.feed == fed.feed) {
                continue;
            }
            parted.extend_from_slice(&motions[passed..fed.motion]);
            passed = fed.motion + 1;
            let (from, motion) = (motions[fed.motion - 1].to, &motions[fed.motion]);
            parted.extend(stretches.iter().map(|stretch| Motion {
                to: place(from, motion, stretch.end as f64 / fed.steps.len() as f64),
                course: at_feed(motion.course, stretch.feed),
                ..*motion
            }));
        }
    }
    parted.extend_from_slice(&motions[passed..]);
    parted
}

fn at_feed(course: Course, feed_mm_min: f64) -> Course {
    match course {
        Course::Rapid => Course::Rapid,
        Course::Line { .. } => Course::Line { feed_mm_min },
        Course::Arc { centre, turn, .. } => Course::Arc {
            centre,
            turn,
            feed_mm_min,
        },
    }
}

/// For each step of motions that follow one another the most wood for each length, mm², on any stretch of the window's length that it
/// is part of.
fn loads(run: &[Fed], taken: &[f64]) -> Vec<f64> {
    let steps: Vec<(f64, f64)> = run
        .iter()
        .flat_map(|fed| {
            taken[fed.steps.clone()]
                .iter()
                .map(|&taken| (fed.length, taken))
        })
        .collect();
    let mut loads = vec![0.0_f64; steps.len()];
    let (mut end, mut length, mut volume) = (0, 0.0, 0.0);
    for (start, &(own_length, own_volume)) in steps.iter().enumerate() {
        while end < steps.len() && length < WINDOW_MM {
            length += steps[end].0;
            volume += steps[end].1;
            end += 1;
        }
        // What is shorter than a window on the whole counts as if it were one.
        if start == 0 || length >= WINDOW_MM {
            let load = volume / length.max(WINDOW_MM);
            for known in &mut loads[start..end] {
                *known = known.max(load);
            }
        }
        length -= own_length;
        volume -= own_volume;
    }
    loads
}

/// Steps of a motion that are fed alike, up to the one of this number.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    end: usize,
    feed: f64,
    /// The fastest that any of its steps could be fed.
    fastest: f64,
}

/// The steps of a motion gathered into stretches, each as slow as its slowest step.
fn stretches(feeds: impl Iterator<Item = f64>, step_mm: f64) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    for (number, feed) in feeds.enumerate() {
        let end = number + 1;
        match stretches.last_mut() {
            Some(last) if last.fastest.max(feed) <= last.feed.min(feed) * ALIKE => {
                *last = Stretch {
                    end,
                    feed: last.feed.min(feed),
                    fastest: last.fastest.max(feed),
                };
            }
            Some(_) | None => stretches.push(Stretch {
                end,
                feed,
                fastest: feed,
            }),
        }
    }
    let mut long: Vec<Stretch> = Vec::new();
    for (number, stretch) in stretches.iter().enumerate() {
        let begins = long.last().map_or(0, |last| last.end);
        let is_short = ((stretch.end - begins) as f64) * step_mm < SHORTEST_MM;
        let slower = |other: &&Stretch| is_short && other.feed <= stretch.feed;
        let next = stretches.get(number + 1).filter(slower);
        match (long.last_mut().filter(|last| slower(&&**last)), next) {
            (Some(last), next) if next.is_none_or(|next| next.feed <= last.feed) => {
                last.end = stretch.end;
            }
            // The next one begins sooner.
            (_, Some(_)) => {}
            (_, None) => long.push(*stretch),
        }
    }
    long
}
