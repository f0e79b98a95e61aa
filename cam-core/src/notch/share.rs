//! Which notches the sorts of a fount get, so that its pairs close up by as much as they can with few kinds of notches.
//!
//! Everything counts in whole steps. A side gets one notch or none. A pair closes up by the narrower of its two notches, if one block
//! keeps its lower part up to a seam that is not above the one from which the other keeps its upper part.
//!
//! The kinds that promise most are tried, as many as are done in some seconds; how many are left out is said.
//!
//! Small founts are searched exhaustively. Otherwise kinds are taken up one by one, and changed while that helps; for given kinds, left
//! and right sides are chosen by turns, each side the best for what it meets.

use super::End;

/// Sums of work up to this many comparisons are done exhaustively: well under a second.
const EXHAUSTIVE: u64 = 20_000_000;

/// The most turns of choosing left and right sides; a gain in whole steps ends them sooner.
const MOST_TURNS: usize = 40;

/// The most rounds in which kinds are changed for others.
const MOST_ROUNDS: usize = 4;

/// Comparisons that a search takes up step by step: some seconds.
const STEP_BY_STEP: u64 = 1_000_000_000;

/// How often one plan goes over all pairs, as a rule: three beginnings with four turns of both sides.
const GOES_OVER: u64 = 24;

/// At least so many kinds are tried, however many pairs there are.
const LEAST_TRIED: usize = 24;

/// How wide a notch a side takes: for each end and each seam, in steps; 0 for none.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Widths {
    /// By seam, the first of which is one step above the foot of the plain body: corners cut away at the head.
    pub at_head: Vec<u32>,
    /// The same for corners cut away at the foot.
    pub at_foot: Vec<u32>,
}

impl Widths {
    fn at(&self, end: End, seam: u32) -> u32 {
        let widths = match end {
            End::Head => &self.at_head,
            End::Foot => &self.at_foot,
        };
        let place = seam.checked_sub(1).map(|place| place as usize);
        place
            .and_then(|place| widths.get(place))
            .copied()
            .unwrap_or(0)
    }
}

/// A pair that is to close up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pair {
    /// The left letter's place among the right sides.
    pub left: usize,
    /// The right letter's place among the left sides.
    pub right: usize,
    /// By how many steps at the most; by more, the letters would stand too close.
    pub most: u32,
}

/// What is to be shared out.
#[derive(Clone, Debug, Default)]
pub struct Fount {
    /// The right sides of the letters.
    pub right_sides: Vec<Widths>,
    /// Their left sides.
    pub left_sides: Vec<Widths>,
    /// The pairs.
    pub pairs: Vec<Pair>,
    /// Number of steps in the plain body.
    pub body: u32,
    /// The widths that notches may have, in steps.
    pub widths: Vec<u32>,
    /// How many kinds there may be.
    pub kinds: usize,
}

/// A kind of notch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Kind {
    /// Its width, in steps.
    pub width: u32,
    /// Height of its seam above the foot of the plain body, in steps.
    pub seam: u32,
}

/// What a side gets: the end at which it is cut away, and the kind.
pub type Choice = Option<(End, Kind)>;

/// The notches of a fount.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Shared {
    /// What each right side gets.
    pub right_sides: Vec<Choice>,
    /// What each left side gets.
    pub left_sides: Vec<Choice>,
    /// By how many steps all pairs close up together.
    pub gain: u32,
    /// How many kinds that would close some pair up were not tried, for want of time.
    pub untried: usize,
}

/// By how many steps a pair closes up, with a notch in the right side of the left letter and one in the left side of the right letter; 0 if
/// it is more than the pair may.
pub fn gain(pair: &Pair, left: Choice, right: Choice) -> u32 {
    let (Some((left_end, left)), Some((right_end, right))) = (left, right) else {
        return 0;
    };
    let interlock = match (left_end, right_end) {
        (End::Head, End::Foot) => left.seam <= right.seam,
        (End::Foot, End::Head) => right.seam <= left.seam,
        (End::Head, End::Head) | (End::Foot, End::Foot) => false,
    };
    let closes = left.width.min(right.width);
    if interlock && closes <= pair.most {
        closes
    } else {
        0
    }
}

/// The widest notch by which a pair by itself closes up, with the end at which the left letter is cut away; `None` if there is none.
///
/// Of several seams for one width the one is taken at which the sides could be cut deepest.
pub fn best_of_pair(fount: &Fount, pair: &Pair) -> Option<(End, Kind)> {
    let (left, right) = (&fount.right_sides[pair.left], &fount.left_sides[pair.right]);
    let mut best: Option<((u32, u32), (End, Kind))> = None;
    for end in End::BOTH {
        for seam in 1..=fount.body {
            let room = left.at(end, seam).min(right.at(end.other(), seam));
            let fitting = fount.widths.iter().copied();
            let Some(width) = fitting.filter(|&w| w <= room.min(pair.most)).max() else {
                continue;
            };
            if width > 0 && best.is_none_or(|(found, _)| (width, room) > found) {
                best = Some(((width, room), (end, Kind { width, seam })));
            }
        }
    }
    best.map(|(_, found)| found)
}

/// Shares notches out.
///
/// The result is the best there is if the fount is small (some six letters with one kind); else no change of one side or one kind that was
/// tried betters it. Of equal gains the one that cuts less wood away is taken.
pub fn share(fount: &Fount) -> Shared {
    share_within(fount, STEP_BY_STEP)
}

/// The same with a stated number of comparisons.
pub(super) fn share_within(fount: &Fount, comparisons: u64) -> Shared {
    let kinds = candidates(fount);
    if kinds.is_empty() || fount.kinds == 0 {
        return nothing(fount);
    }
    let all: Vec<Kind> = kinds.iter().map(|(kind, _)| *kind).collect();
    if let Some(plan) = exhaustively(fount, &all) {
        return plan.into();
    }
    let tried = most_promising(kinds, tried_at_most(fount, comparisons));
    Shared {
        untried: all.len() - tried.len(),
        ..step_by_step(fount, &tried).into()
    }
}

/// How many kinds can be tried in the time that a maker waits.
fn tried_at_most(fount: &Fount, comparisons: u64) -> usize {
    let kinds = fount.kinds as u64;
    let plan = (fount.pairs.len().max(1) as u64) * (1 + 2 * kinds) * GOES_OVER;
    // Each kind is tried beside those taken, and in the place of each of them in every round.
    let of_a_kind = plan * kinds * (1 + MOST_ROUNDS as u64);
    usize::try_from(comparisons / of_a_kind.max(1)).map_or(usize::MAX, |most| most.max(LEAST_TRIED))
}

/// So many of the kinds, those that could close pairs up by most, in their own order.
fn most_promising(kinds: Vec<(Kind, u64)>, most: usize) -> Vec<Kind> {
    let mut places: Vec<usize> = (0..kinds.len()).collect();
    places.sort_by_key(|&place| (std::cmp::Reverse(kinds[place].1), place));
    places.truncate(most);
    places.sort_unstable();
    places.into_iter().map(|place| kinds[place].0).collect()
}

fn nothing(fount: &Fount) -> Shared {
    Shared {
        right_sides: vec![None; fount.right_sides.len()],
        left_sides: vec![None; fount.left_sides.len()],
        gain: 0,
        untried: 0,
    }
}

/// The kinds with which some pair closes up, each with the steps that all pairs would gain by it if no side were wanted by two.
fn candidates(fount: &Fount) -> Vec<(Kind, u64)> {
    let mut kinds = Vec::new();
    for seam in 1..=fount.body {
        for &width in fount.widths.iter().filter(|&&width| width > 0) {
            let fits = |pair: &&Pair| {
                let (left, right) = (&fount.right_sides[pair.left], &fount.left_sides[pair.right]);
                width <= pair.most
                    && End::BOTH.into_iter().any(|end| {
                        left.at(end, seam) >= width && right.at(end.other(), seam) >= width
                    })
            };
            let pairs = fount.pairs.iter().filter(fits).count() as u64;
            if pairs > 0 {
                kinds.push((Kind { width, seam }, pairs * u64::from(width)));
            }
        }
    }
    kinds
}

/// Choices for all sides, and what they come to.
#[derive(Clone, PartialEq, Eq)]
struct Plan {
    right_sides: Vec<Choice>,
    left_sides: Vec<Choice>,
    gain: u32,
    /// Wood cut away, in square steps.
    wood: u32,
}

impl From<Plan> for Shared {
    fn from(plan: Plan) -> Shared {
        Shared {
            right_sides: plan.right_sides,
            left_sides: plan.left_sides,
            gain: plan.gain,
            untried: 0,
        }
    }
}

impl Plan {
    fn betters(&self, other: &Plan) -> bool {
        (self.gain, std::cmp::Reverse(self.wood)) > (other.gain, std::cmp::Reverse(other.wood))
    }
}

/// The choices of every side among some kinds, and the pairs that each side takes part in.
struct Table<'f> {
    fount: &'f Fount,
    of_right_sides: Vec<Vec<Choice>>,
    of_left_sides: Vec<Vec<Choice>>,
    /// The pairs in which each right side, and each left side, takes part.
    met_by_right_sides: Vec<Vec<Pair>>,
    met_by_left_sides: Vec<Vec<Pair>>,
}

impl<'f> Table<'f> {
    fn of(fount: &'f Fount, kinds: &[Kind]) -> Table<'f> {
        let choices = |side: &Widths| {
            let mut choices = vec![None];
            for &kind in kinds {
                let ends = End::BOTH.into_iter();
                let fitting = ends.filter(|&end| side.at(end, kind.seam) >= kind.width);
                choices.extend(fitting.map(|end| Some((end, kind))));
            }
            choices
        };
        let met = |sides: usize, side: fn(&Pair) -> usize| -> Vec<Vec<Pair>> {
            let mut met = vec![Vec::new(); sides];
            for pair in &fount.pairs {
                met[side(pair)].push(*pair);
            }
            met
        };
        Table {
            fount,
            of_right_sides: fount.right_sides.iter().map(choices).collect(),
            of_left_sides: fount.left_sides.iter().map(choices).collect(),
            met_by_right_sides: met(fount.right_sides.len(), |pair| pair.left),
            met_by_left_sides: met(fount.left_sides.len(), |pair| pair.right),
        }
    }

    fn wood(&self, choice: Choice) -> u32 {
        choice.map_or(0, |(end, kind)| {
            kind.width
                * match end {
                    End::Head => self.fount.body.saturating_sub(kind.seam),
                    End::Foot => kind.seam,
                }
        })
    }

    /// The best choice of every right side for given left sides.
    fn best_right_sides(&self, left_sides: &[Choice]) -> Vec<Choice> {
        let gains = |side: usize, choice: Choice| {
            self.met_by_right_sides[side]
                .iter()
                .map(|pair| gain(pair, choice, left_sides[pair.right]))
                .sum()
        };
        self.best(&self.of_right_sides, gains)
    }

    /// The best choice of every left side for given right sides.
    fn best_left_sides(&self, right_sides: &[Choice]) -> Vec<Choice> {
        let gains = |side: usize, choice: Choice| {
            self.met_by_left_sides[side]
                .iter()
                .map(|pair| gain(pair, right_sides[pair.left], choice))
                .sum()
        };
        self.best(&self.of_left_sides, gains)
    }

    /// The choice of every side that gains most, and of these the one that cuts least away.
    fn best(&self, choices: &[Vec<Choice>], gains: impl Fn(usize, Choice) -> u32) -> Vec<Choice> {
        let sides = choices.iter().enumerate();
        sides
            .map(|(side, choices)| {
                let mut best = (0, 0, None);
                for &choice in choices.iter().filter(|choice| choice.is_some()) {
                    let (gained, wood) = (gains(side, choice), self.wood(choice));
                    if gained > best.0 || (gained == best.0 && gained > 0 && wood < best.1) {
                        best = (gained, wood, choice);
                    }
                }
                best.2
            })
            .collect()
    }

    fn nothing(&self) -> Plan {
        let nothing = nothing(self.fount);
        self.plan(nothing.right_sides, nothing.left_sides)
    }

    fn plan(&self, right_sides: Vec<Choice>, left_sides: Vec<Choice>) -> Plan {
        let pairs = self.fount.pairs.iter();
        let all = right_sides.iter().chain(&left_sides);
        Plan {
            gain: pairs
                .map(|pair| gain(pair, right_sides[pair.left], left_sides[pair.right]))
                .sum(),
            wood: all.map(|&choice| self.wood(choice)).sum(),
            right_sides,
            left_sides,
        }
    }

    /// Betters choices by turns until nothing is gained.
    fn by_turns(&self, mut left_sides: Vec<Choice>) -> Plan {
        let mut best: Option<Plan> = None;
        for _ in 0..MOST_TURNS {
            let right_sides = self.best_right_sides(&left_sides);
            left_sides = self.best_left_sides(&right_sides);
            let plan = self.plan(right_sides, left_sides.clone());
            match &best {
                Some(before) if !plan.betters(before) => break,
                Some(_) | None => best = Some(plan),
            }
        }
        best.unwrap_or_else(|| self.nothing())
    }

    /// The best plan from several beginnings: each left side as if what it meets were made for it, and cut at one end only.
    fn begun_everywhere(&self) -> Plan {
        let hopeful = |allowed: &dyn Fn(End) -> bool| -> Vec<Choice> {
            let gains = |side: usize, choice: Choice| {
                let met = self.met_by_left_sides[side].iter().map(|pair| {
                    let others = self.of_right_sides[pair.left].iter();
                    others
                        .map(|&other| gain(pair, other, choice))
                        .max()
                        .unwrap_or(0)
                });
                if choice.is_some_and(|(end, _)| allowed(end)) {
                    met.sum()
                } else {
                    0
                }
            };
            self.best(&self.of_left_sides, gains)
        };
        let beginnings = [
            hopeful(&|_| true),
            hopeful(&|end| end == End::Head),
            hopeful(&|end| end == End::Foot),
        ];
        let mut best: Option<Plan> = None;
        for left_sides in beginnings {
            let plan = self.by_turns(left_sides);
            if best.as_ref().is_none_or(|best| plan.betters(best)) {
                best = Some(plan);
            }
        }
        best.unwrap_or_else(|| self.nothing())
    }

    /// How many ways there are to choose for all left sides.
    fn ways(&self) -> u64 {
        let counts = self
            .of_left_sides
            .iter()
            .map(|choices| choices.len() as u64);
        counts.fold(1, u64::saturating_mul)
    }

    /// The best plan, by trying every way to choose for the left sides; the right sides then choose each by itself.
    fn best_of_all(&self) -> Plan {
        let mut places = vec![0; self.of_left_sides.len()];
        let mut best: Option<Plan> = None;
        loop {
            let choices = self.of_left_sides.iter().zip(&places);
            let left_sides: Vec<Choice> = choices.map(|(of, &place)| of[place]).collect();
            let plan = self.plan(self.best_right_sides(&left_sides), left_sides);
            if best.as_ref().is_none_or(|best| plan.betters(best)) {
                best = Some(plan);
            }
            // The next way, counted like a number with a digit for each side.
            let digits = places.iter_mut().zip(&self.of_left_sides);
            let mut counted = false;
            for (place, choices) in digits {
                *place += 1;
                if *place < choices.len() {
                    counted = true;
                    break;
                }
                *place = 0;
            }
            if !counted {
                break;
            }
        }
        best.unwrap_or_else(|| self.nothing())
    }
}

/// The best plan with any set of kinds, if that is little work.
fn exhaustively(fount: &Fount, kinds: &[Kind]) -> Option<Plan> {
    let sets = sets_of(kinds, fount.kinds)?;
    let each = fount.pairs.len().max(1) as u64 * (1 + 2 * fount.kinds as u64);
    let mut work = 0_u64;
    let tables: Vec<Table> = sets
        .iter()
        .map(|set| Table::of(fount, set))
        .take_while(|table| {
            work = work.saturating_add(table.ways().saturating_mul(each));
            work <= EXHAUSTIVE
        })
        .collect();
    if tables.len() < sets.len() {
        return None;
    }
    let mut best: Option<Plan> = None;
    for table in tables {
        let plan = table.best_of_all();
        if best.as_ref().is_none_or(|best| plan.betters(best)) {
            best = Some(plan);
        }
    }
    best
}

/// All sets of so many kinds (or of all of them); `None` if they are very many.
fn sets_of(kinds: &[Kind], size: usize) -> Option<Vec<Vec<Kind>>> {
    const MOST_SETS: usize = 20_000;
    let mut sets: Vec<Vec<Kind>> = vec![Vec::new()];
    for _ in 0..size.min(kinds.len()) {
        let mut larger = Vec::new();
        for set in &sets {
            let after = set.last();
            let more = kinds
                .iter()
                .filter(|&kind| after.is_none_or(|last| place(kinds, kind) > place(kinds, last)));
            larger.extend(more.map(|&kind| [set.as_slice(), &[kind]].concat()));
            if larger.len() > MOST_SETS {
                return None;
            }
        }
        sets = larger;
    }
    Some(sets)
}

fn place(kinds: &[Kind], wanted: &Kind) -> usize {
    kinds
        .iter()
        .position(|kind| kind == wanted)
        .unwrap_or(kinds.len())
}

/// Takes kinds up one by one, then changes them while that helps.
fn step_by_step(fount: &Fount, kinds: &[Kind]) -> Plan {
    let planned = |set: &[Kind]| Table::of(fount, set).begun_everywhere();
    let mut set: Vec<Kind> = Vec::new();
    let mut best = planned(&set);
    for _ in 0..fount.kinds {
        let mut taken = None;
        for &kind in kinds {
            let larger = [set.as_slice(), &[kind]].concat();
            let plan = planned(&larger);
            if plan.betters(&best) {
                best = plan;
                taken = Some(kind);
            }
        }
        match taken {
            Some(kind) => set.push(kind),
            None => break,
        }
    }
    for _ in 0..MOST_ROUNDS {
        let mut changed = false;
        for place in 0..set.len() {
            for &kind in kinds {
                let mut other = set.clone();
                other[place] = kind;
                let plan = planned(&other);
                if plan.betters(&best) {
                    best = plan;
                    set = other;
                    changed = true;
                }
            }
        }
        if !changed {
            break;
        }
    }
    best
}
