//! Corners and their sides as the blurred page would have come of them.
//!
//! What was found by carrying sides on is bettered here: a corner, or a run of corners with short sides between them, is blurred as the scan is,
//! and moved until the line where the blurred ink is one half runs through the samples. So nothing near the corner has to be left out, and a side
//! too short to be fitted by itself is told by its ends.
//!
//! Lengths and deviations below that name no source were found by trial on scans of drawn letters, as those of corners are.

use kurbo::{CubicBez, Point, Vec2};

use super::corners::{Corner, Sampled};
use super::solve::solved;

mod outline;
mod side;

use outline::{Outline, Piece, arc_like};
use side::side;

/// Spans no longer than this, with so many blurs besides, are fitted with the corners at both ends, in dots.
const SHORT: f64 = 14.0;
const SHORT_BLURS: f64 = 2.0;
/// The most corners that are fitted at once; longer runs are parted.
const MOST_CORNERS: usize = 8;
/// How finely the outline is gone along, in blurs, and how far it is carried on beyond the samples.
const SPACING: f64 = 0.5;
const CARRIED_ON: f64 = 2.5;
/// Noise of the smoothed page is alike over so many dots: two and a half deviations of the smoothing, beyond which little of it is shared.
pub(super) const ALIKE: f64 = 2.5;
/// The most steps toward the best fit, and the change of the sum of squares at which it is reached.
const MOST_STEPS: usize = 15;
const REACHED: f64 = 1e-4;
/// At first, bends and turns are held so many times harder, so that corners come to their places before sides are bent.
const HELD: f64 = 60.0;
/// What is left of a good fit may be so many deviations more than noise leaves; of one that nothing better is looked for, so many.
const GOOD: f64 = 5.0;
const CLOSE: f64 = 2.0;
/// The most of a side that is used, in dots: all that its shape allows, then less.
const LONGEST: [f64; 3] = [f64::INFINITY, 20.0, 11.0];
/// What is expected where the page tells nothing, as standard deviations: how far a corner lies from where its sides were carried on to, in dots; how
/// much a side bends, in parts of a circle's radius of one dot; how much more a short side turns at one end than an arc does, in radians. Found by
/// trial on scans of letters.
const USUAL_BEND: f64 = 0.04;
const USUAL_WAY: f64 = 1.5;
const USUAL_TURN: f64 = 0.2;
/// A short side seldom turns by more than this off its chord at an end, in radians; beyond that, so much is expected, as a standard deviation. Without
/// it a corner slides along its bent side while the end of the short one turns after it. Found by trial on scans of letters.
const MOST_USUAL_TURN: f64 = 1.0;
const BEYOND_USUAL: f64 = 0.05;

/// What a fit knows of the outline ahead of a corner.
#[derive(Clone, Copy, Debug)]
pub(super) enum Ahead {
    /// All of it, up to the next corner.
    Whole(CubicBez),
    /// Its direction at the corner.
    Heading(Vec2),
}

/// A run of corners and what they are fitted to.
struct Fit<'a> {
    line: &'a Sampled,
    pieces: Vec<(Piece, usize)>,
    /// Weights that hold unknowns near where they are begun with.
    holds: Vec<f64>,
    begun: Vec<f64>,
    samples: Vec<i64>,
    is_closed: bool,
    many: usize,
}

/// Betters corners of a sampled loop, and adds those without which nothing near them fits.
pub(super) fn refine(line: &Sampled, corners: &mut Vec<Corner>) {
    if line.blur <= 0.0 || corners.is_empty() {
        return;
    }
    let mut missed = Vec::new();
    for run in runs(line, corners) {
        let Some((fit, best)) = best_of(line, corners, &run) else {
            continue;
        };
        if !best.as_ref().is_some_and(|best| fit.is_good(best))
            && let Some(found) = with_another(line, corners, &run)
        {
            missed.push(found);
            continue;
        }
        if let Some(unknowns) = best {
            fit.settle(&unknowns, &run, corners);
        }
    }
    for all in missed {
        for corner in all {
            match corners.binary_search_by_key(&corner.sample, |other| other.sample) {
                Ok(place) => corners[place] = corner,
                Err(place) => corners.insert(place, corner),
            }
        }
    }
}

/// The corners of a run and one more beside it, where the line turns most, if all then fit.
fn with_another(line: &Sampled, corners: &[Corner], run: &Run) -> Option<Vec<Corner>> {
    /// Where another corner is looked for: so far from the last one of the run, in dots, and with this turn at least, in radians. Found by trial.
    const BESIDE: [f64; 2] = [4.0, 18.0];
    const LEAST_TURN: f64 = 0.3;
    if run.is_closed {
        return None;
    }
    let count = corners.len();
    let (first, last) = (run.corners[0], run.corners[run.corners.len() - 1]);
    let sides = [
        (
            first,
            -1,
            length(line, corners, (first + count - 1) % count),
        ),
        (last, 1, length(line, corners, last)),
    ];
    sides.into_iter().find_map(|(beside, way, room)| {
        let samples = |dots: f64| (dots / line.step).round() as i64;
        let furthest = BESIDE[1].min(room - BESIDE[0]);
        let steps = samples(BESIDE[0])..=samples(furthest);
        let most = steps
            .map(|step| corners[beside].sample as i64 + way * step)
            .map(|place| (place, line.turn_over_look(place).abs()))
            .max_by(|a, b| a.1.total_cmp(&b.1))?;
        if most.1 < LEAST_TURN {
            return None;
        }
        let sample = most.0.rem_euclid(line.points.len() as i64) as usize;
        let mut more = corners.to_vec();
        let place = more
            .binary_search_by_key(&sample, |other| other.sample)
            .err()?;
        more.insert(
            place,
            Corner {
                sample,
                at: line.at(most.0),
                back: None,
                ahead: None,
                ..corners[beside]
            },
        );
        let run = runs(line, &more)
            .into_iter()
            .find(|run| run.corners.contains(&place))?;
        let (fit, best) = best_of(line, &more, &run)?;
        let best = best?;
        if !fit.is_good(&best) {
            return None;
        }
        fit.settle(&best, &run, &mut more);
        Some(run.corners.iter().map(|&place| more[place]).collect())
    })
}

/// The fit of a run that leaves the least, and its unknowns if they are better than what was begun with. Sides that bend unevenly fit over a
/// shorter stretch, so while much more is left than noise leaves, less of them is used.
fn best_of<'a>(
    line: &'a Sampled,
    corners: &[Corner],
    run: &Run,
) -> Option<(Fit<'a>, Option<Vec<f64>>)> {
    let mut found: Option<(f64, Fit<'a>, Option<Vec<f64>>)> = None;
    for longest in LONGEST {
        let Some(fit) = Fit::of(line, corners, run, longest) else {
            continue;
        };
        let best = fit.best();
        let over = fit.over(best.as_ref().unwrap_or(&fit.begun));
        let is_better = found.as_ref().is_none_or(|(other, ..)| over < *other);
        if is_better {
            found = Some((over, fit, best));
        }
        if over <= CLOSE {
            break;
        }
    }
    found.map(|(_, fit, best)| (fit, best))
}

/// Corners that are fitted at once, in order along the loop.
struct Run {
    corners: Vec<usize>,
    is_closed: bool,
}

fn length(line: &Sampled, corners: &[Corner], place: usize) -> f64 {
    let (from, to) = (corners[place], corners[(place + 1) % corners.len()]);
    let count = line.points.len();
    let steps = match (to.sample + count - from.sample) % count {
        0 => count,
        steps => steps,
    };
    steps as f64 * line.step
}

fn runs(line: &Sampled, corners: &[Corner]) -> Vec<Run> {
    let count = corners.len();
    let most = SHORT + SHORT_BLURS * line.blur;
    let is_short: Vec<bool> = (0..count)
        .map(|place| count > 1 && length(line, corners, place) <= most)
        .collect();
    let Some(first) = (0..count).find(|&place| !is_short[(place + count - 1) % count]) else {
        if count <= MOST_CORNERS {
            return vec![Run {
                corners: (0..count).collect(),
                is_closed: true,
            }];
        }
        let all: Vec<usize> = (0..count).collect();
        return parted(&all);
    };
    let mut runs = Vec::new();
    let mut run = Vec::new();
    for step in 0..count {
        let place = (first + step) % count;
        run.push(place);
        if !is_short[place] {
            runs.extend(parted(&run));
            run.clear();
        }
    }
    runs
}

fn parted(run: &[usize]) -> Vec<Run> {
    run.chunks(MOST_CORNERS)
        .map(|part| Run {
            corners: part.to_vec(),
            is_closed: false,
        })
        .collect()
}

impl<'a> Fit<'a> {
    fn of(line: &'a Sampled, corners: &[Corner], run: &Run, longest: f64) -> Option<Fit<'a>> {
        let count = corners.len();
        let many = run.corners.len();
        let mut fit = Fit {
            line,
            pieces: Vec::new(),
            holds: vec![1.0 / (USUAL_WAY * USUAL_WAY); 2 * many],
            begun: Vec::new(),
            samples: Vec::new(),
            is_closed: run.is_closed,
            many,
        };
        for &place in &run.corners {
            fit.begun.extend([corners[place].at.x, corners[place].at.y]);
        }
        let (first, last) = (run.corners[0], run.corners[many - 1]);
        let (mut from, mut to) = (corners[first].sample as i64, corners[last].sample as i64);
        if !run.is_closed {
            let room = length(line, corners, (first + count - 1) % count);
            from -= fit.free(&corners[first], 0, -1, room, longest)?;
        }
        for number in 0..many - usize::from(!run.is_closed) {
            let next = (number + 1) % many;
            fit.between(
                number,
                next,
                &corners[run.corners[number]],
                length(line, corners, run.corners[number]),
            );
        }
        if run.is_closed {
            to = from + line.points.len() as i64 - 1;
        } else {
            let room = length(line, corners, last);
            to += fit.free(&corners[last], many - 1, 1, room, longest)?;
            if to < from {
                to += line.points.len() as i64;
            }
        }
        // Every second sample tells all that smoothing leaves.
        fit.samples = (from..=to).step_by(2).collect();
        (fit.samples.len() > fit.begun.len()).then_some(fit)
    }

    /// Adds a free side, and says how many samples long it is.
    fn free(
        &mut self,
        corner: &Corner,
        number: usize,
        way: i64,
        room: f64,
        longest: f64,
    ) -> Option<i64> {
        let side = side(self.line, corner, way, room, longest)?;
        let shape = self.begun.len();
        self.begun.push(side.heading);
        self.holds.push(0.0);
        if side.is_bent {
            self.begun.push(side.bend);
            self.holds.push(1.0 / (USUAL_BEND * USUAL_BEND));
        }
        let piece = Piece::Free {
            corner: 2 * number,
            shape,
            is_bent: side.is_bent,
            reach: side.reach + CARRIED_ON * self.line.blur,
            ends_at_corner: way < 0,
        };
        self.add(piece, side.reach + CARRIED_ON * self.line.blur);
        Some((side.reach / self.line.step).round() as i64)
    }

    fn between(&mut self, from: usize, to: usize, start: &Corner, length: f64) {
        let turns = self.begun.len();
        // Begun as the arc through the middle sample.
        let at = |number: usize| Point::new(self.begun[2 * number], self.begun[2 * number + 1]);
        let chord = at(to) - at(from);
        let middle = self
            .line
            .at(start.sample as i64 + (length / self.line.step / 2.0).round() as i64);
        let off = middle - at(from).midpoint(at(to));
        let rise = if chord.hypot() > 0.0 {
            off.cross(chord) / chord.hypot2()
        } else {
            0.0
        };
        let turn = 2.0 * (2.0 * rise).atan();
        self.begun.extend([turn, turn]);
        self.holds.extend([1.0 / (USUAL_TURN * USUAL_TURN); 2]);
        let piece = Piece::Between {
            from: 2 * from,
            to: 2 * to,
            turns,
        };
        self.add(piece, length);
    }

    fn add(&mut self, piece: Piece, length: f64) {
        /// Longer pieces do not come up.
        const MOST_SEGMENTS: f64 = 400.0;
        let segments = (length / (SPACING * self.line.blur).max(0.3)).ceil();
        self.pieces
            .push((piece, segments.clamp(4.0, MOST_SEGMENTS) as usize));
    }

    /// Whether little more than noise is left.
    fn is_good(&self, unknowns: &[f64]) -> bool {
        self.over(unknowns) <= GOOD
    }

    /// By how many deviations more is left than noise leaves: of so many squares of deviations that noise alone leaves, the mean is their
    /// number, and the variance twice that (chi-square: textbook).
    fn over(&self, unknowns: &[f64]) -> f64 {
        let alone = self.samples.len() as f64 * 2.0 * self.line.step / ALIKE;
        let (left, ..) = self.sums(unknowns, 1.0);
        (left - alone) / (2.0 * alone).sqrt()
    }

    /// Puts corners and the shapes of their sides where the fit has them, if that is believed.
    fn settle(&self, unknowns: &[f64], run: &Run, corners: &mut [Corner]) {
        /// A good fit may move corners so many times further than they may be moved otherwise.
        const TRUSTED: f64 = 2.0;
        let at = |number: usize| Point::new(unknowns[2 * number], unknowns[2 * number + 1]);
        let is_good = self.is_good(unknowns);
        let further = if is_good { TRUSTED } else { 1.0 };
        let is_near = |(number, &place): (usize, &usize)| {
            at(number).distance(corners[place].at) <= further * corners[place].slack
        };
        if !run.corners.iter().enumerate().all(is_near) {
            return;
        }
        for (number, &place) in run.corners.iter().enumerate() {
            corners[place].at = at(number);
        }
        if !is_good {
            return;
        }
        for (piece, _) in &self.pieces {
            match *piece {
                Piece::Between { from, to, turns } => {
                    let turns = [unknowns[turns], unknowns[turns + 1]];
                    let curve = arc_like(at(from / 2), at(to / 2), turns);
                    corners[run.corners[from / 2]].ahead = Some(Ahead::Whole(curve));
                }
                Piece::Free {
                    corner,
                    shape,
                    ends_at_corner,
                    ..
                } => {
                    let heading = Vec2::from_angle(unknowns[shape]);
                    let corner = &mut corners[run.corners[corner / 2]];
                    if ends_at_corner {
                        corner.back = Some(heading);
                    } else {
                        corner.ahead = Some(Ahead::Heading(heading));
                    }
                }
            }
        }
    }

    /// The unknowns with which the blurred outline runs nearest to the samples; `None` where they are no better than what was begun with.
    ///
    /// # Source
    /// K. Levenberg, "A method for the solution of certain non-linear problems in least squares", *Quarterly of Applied Mathematics* 2, 1944;
    /// damping by the diagonal: D. W. Marquardt, 1963; both from memory. By how much the damping changes: common practice, no source.
    fn best(&self) -> Option<Vec<f64>> {
        let (begun, ..) = self.sums(&self.begun, 1.0);
        let held = self.bettered(self.begun.clone(), HELD);
        let unknowns = self.bettered(held, 1.0);
        let (cost, ..) = self.sums(&unknowns, 1.0);
        (cost < begun).then_some(unknowns)
    }

    fn bettered(&self, mut unknowns: Vec<f64>, held: f64) -> Vec<f64> {
        let (mut cost, mut normal, mut right) = self.sums(&unknowns, held);
        let mut damping = 1e-3;
        for _ in 0..MOST_STEPS {
            let mut damped = normal.clone();
            for (place, row) in damped.iter_mut().enumerate() {
                row[place] *= 1.0 + damping;
            }
            let Some(step) = solved(damped, right.clone()) else {
                break;
            };
            let next: Vec<f64> = unknowns.iter().zip(&step).map(|(a, b)| a + b).collect();
            let (next_cost, next_normal, next_right) = self.sums(&next, held);
            if next_cost < cost {
                let is_reached = cost - next_cost < REACHED * cost;
                (unknowns, cost, normal, right) = (next, next_cost, next_normal, next_right);
                damping *= 0.2;
                if is_reached {
                    break;
                }
            } else {
                damping *= 8.0;
            }
        }
        unknowns
    }

    /// The sum of squares at unknowns, and the normal equations of the step that lessens it.
    fn sums(&self, unknowns: &[f64], held: f64) -> (f64, Vec<Vec<f64>>, Vec<f64>) {
        let many = unknowns.len();
        let outline = Outline::of(&self.pieces, unknowns, self.is_closed);
        let mut normal = vec![vec![0.0; many]; many];
        let mut right = vec![0.0; many];
        let mut cost = 0.0;
        let slope = 1.0 / (self.line.blur * std::f64::consts::TAU.sqrt());
        let spread = self.line.noise * slope;
        let weight = 2.0 * self.line.step / ALIKE / (spread * spread);
        let mut row = vec![0.0; many];
        for &sample in &self.samples {
            row.fill(0.0);
            let off = 0.5 - outline.ink(self.line.at(sample), self.line.blur, &mut row);
            cost += weight * off * off;
            for a in 0..many {
                if row[a] == 0.0 {
                    continue;
                }
                right[a] += weight * off * row[a];
                for b in 0..many {
                    normal[a][b] += weight * row[a] * row[b];
                }
            }
        }
        for (place, &hold) in self.holds.iter().enumerate() {
            // Ends of an arc turn alike; a bend is none.
            let wanted = self.wanted(place, unknowns);
            let off = wanted - unknowns[place];
            let hold = if place < 2 * self.many {
                hold
            } else {
                held * hold
            };
            cost += hold * off * off;
            right[place] += hold * off;
            normal[place][place] += hold;
        }
        for place in self.turns() {
            let over = unknowns[place].abs() - MOST_USUAL_TURN;
            if over > 0.0 {
                let hold = 1.0 / (BEYOND_USUAL * BEYOND_USUAL);
                cost += hold * over * over;
                right[place] -= hold * over * unknowns[place].signum();
                normal[place][place] += hold;
            }
        }
        (cost, normal, right)
    }

    /// Where the turns at the ends of short sides stand.
    fn turns(&self) -> impl Iterator<Item = usize> {
        self.pieces.iter().flat_map(|(piece, _)| match *piece {
            Piece::Between { turns, .. } => turns..turns + 2,
            Piece::Free { .. } => 0..0,
        })
    }

    fn wanted(&self, place: usize, unknowns: &[f64]) -> f64 {
        if place < 2 * self.many {
            return self.begun[place];
        }
        for (piece, _) in &self.pieces {
            if let Piece::Between { turns, .. } = *piece
                && (turns..turns + 2).contains(&place)
            {
                return f64::midpoint(unknowns[turns], unknowns[turns + 1]);
            }
        }
        0.0
    }
}
