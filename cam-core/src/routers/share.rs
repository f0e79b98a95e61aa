//! Tasks shared out among machines so that the last is done as soon as may be.
//!
//! # Source
//! Longest first onto the machine that is done first: R. L. Graham, 1969; moves and swaps from there, and branch and bound, are common practice
//! for unrelated machines. From memory; the tests compare with brute force.

/// Steps of the search for the best way.
const MOST_STEPS: usize = 300_000;
/// Rounds of moves and swaps; each makes the whole shorter.
const MOST_ROUNDS: usize = 1_000;
/// The most machines for which all their subsets are looked at for the bound.
const MOST_SUBSET_MACHINES: usize = 10;
/// Times that differ by less are the same, minutes.
const SAME_MINUTES: f64 = 1e-6;

/// A plank to be cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Task {
    /// How long it takes on each machine without changes of cutter; `None` where it does not fit.
    pub minutes: Vec<Option<f64>>,
    /// What a change of cutter takes on each machine.
    pub change_minutes: Vec<f64>,
    /// The cutters in the order in which they are put in.
    pub cutters: Vec<String>,
}

/// Tasks on machines.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Share {
    /// The tasks of each machine in their order; a task that fits nowhere is on none.
    pub on: Vec<Vec<usize>>,
    /// When each machine is done.
    pub done_minutes: Vec<f64>,
    /// No other way is done before this.
    pub at_least_minutes: f64,
    /// Whether no other way is done before this one.
    pub proven: bool,
    /// Times that a cutter is put in.
    pub changes: u32,
}

impl Share {
    /// When all machines are done.
    pub fn finish_minutes(&self) -> f64 {
        self.done_minutes.iter().copied().fold(0.0, f64::max)
    }
}

impl Task {
    /// The task with one machine more, like the one named.
    pub fn with_one_more(&self, machine: usize) -> Task {
        let mut task = self.clone();
        task.minutes
            .push(self.minutes.get(machine).copied().flatten());
        task.change_minutes
            .push(self.change_minutes.get(machine).copied().unwrap_or(0.0));
        task
    }

    /// With every cutter put in anew.
    fn whole(&self, machine: usize) -> Option<f64> {
        let minutes = self.minutes.get(machine).copied().flatten()?;
        Some(minutes + self.cutters.len() as f64 * self.change_minutes[machine])
    }

    /// Whether this task can go on with the cutter that another has left in.
    fn goes_on_after(&self, other: &Task) -> bool {
        !self.cutters.is_empty() && self.cutters.first() == other.cutters.last()
    }
}

/// Shares tasks out among machines.
///
/// A cutter that the task before has left in needs not be put in again: the tasks of a machine are put in an order that
/// makes use of it. The bound grants that saving to every task that might have it.
pub fn share_out(tasks: &[Task], machines: usize) -> Share {
    let whole: Vec<Vec<Option<f64>>> = tasks
        .iter()
        .map(|task| (0..machines).map(|machine| task.whole(machine)).collect())
        .collect();
    let placed: Vec<usize> = (0..tasks.len())
        .filter(|&task| whole[task].iter().any(Option::is_some))
        .collect();
    let mut on = longest_first(&whole, &placed, machines);
    moved_about(&whole, &mut on);
    let mut search = Search::from(&whole, &placed, &on);
    search.go(0, &mut vec![0.0; machines], &mut vec![Vec::new(); machines]);
    let complete = search.steps < MOST_STEPS;
    on = search.best;
    let mut changes = 0;
    let mut done_minutes = Vec::new();
    for (machine, own) in on.iter_mut().enumerate() {
        *own = in_good_order(tasks, own);
        let (minutes, of_machine) = run(tasks, own, machine);
        done_minutes.push(minutes);
        changes += of_machine;
    }
    let finish = done_minutes.iter().copied().fold(0.0, f64::max);
    let may_go_on = |task: usize| {
        placed
            .iter()
            .any(|&other| other != task && tasks[task].goes_on_after(&tasks[other]))
    };
    let saving = placed.iter().any(|&task| may_go_on(task));
    let least: Vec<Vec<Option<f64>>> = placed
        .iter()
        .map(|&task| {
            let saved = |machine: usize| {
                if may_go_on(task) {
                    tasks[task].change_minutes[machine]
                } else {
                    0.0
                }
            };
            (0..machines)
                .map(|machine| whole[task][machine].map(|minutes| minutes - saved(machine)))
                .collect()
        })
        .collect();
    let bound = at_least(&least, machines);
    // Without savings the search that went through everything has found the best.
    let bound = if complete && !saving {
        finish
    } else {
        bound.min(finish)
    };
    Share {
        on,
        done_minutes,
        at_least_minutes: bound,
        proven: bound >= finish - SAME_MINUTES,
        changes,
    }
}

/// How long a machine takes for tasks in their order, and how often a cutter is put in.
fn run(tasks: &[Task], own: &[usize], machine: usize) -> (f64, u32) {
    let mut minutes = 0.0;
    let mut changes = 0;
    for (number, &task) in own.iter().enumerate() {
        let goes_on = number > 0 && tasks[task].goes_on_after(&tasks[own[number - 1]]);
        let puts_in = tasks[task].cutters.len() - usize::from(goes_on);
        minutes += tasks[task].minutes[machine].unwrap_or(0.0);
        minutes += puts_in as f64 * tasks[task].change_minutes[machine];
        changes += puts_in as u32;
    }
    (minutes, changes)
}

/// The tasks in order of number, but each followed by one that goes on with its last cutter, if there is any.
fn in_good_order(tasks: &[Task], own: &[usize]) -> Vec<usize> {
    let mut left = own.to_vec();
    left.sort_unstable();
    let mut order: Vec<usize> = Vec::new();
    while !left.is_empty() {
        let next = order
            .last()
            .and_then(|&last| {
                left.iter()
                    .position(|&task| tasks[task].goes_on_after(&tasks[last]))
            })
            .unwrap_or(0);
        order.push(left.remove(next));
    }
    order
}

/// No way of sharing out is done before this: every task takes its least, and those that only some machines take keep these busy.
fn at_least(minutes: &[Vec<Option<f64>>], machines: usize) -> f64 {
    let least_on =
        |task: &[Option<f64>]| task.iter().copied().flatten().fold(f64::INFINITY, f64::min);
    let longest = minutes
        .iter()
        .map(|task| least_on(task))
        .fold(0.0, f64::max);
    let subsets = if machines <= MOST_SUBSET_MACHINES {
        1..1_usize << machines
    } else {
        0..0
    };
    let busy = |within: &dyn Fn(usize) -> bool| -> f64 {
        let count = (0..machines).filter(|&machine| within(machine)).count();
        let only: f64 = minutes
            .iter()
            .filter(|task| (0..machines).all(|machine| within(machine) || task[machine].is_none()))
            .map(|task| least_on(task))
            .sum();
        only / count.max(1) as f64
    };
    subsets
        .map(|subset| busy(&|machine| subset >> machine & 1 == 1))
        .fold(longest.max(busy(&|_| true)), f64::max)
}

/// The longest tasks first, each on the machine that is then done first.
fn longest_first(whole: &[Vec<Option<f64>>], placed: &[usize], machines: usize) -> Vec<Vec<usize>> {
    let mut on = vec![Vec::new(); machines];
    let mut loads = vec![0.0; machines];
    for task in by_length(whole, placed) {
        let soonest = (0..machines)
            .filter_map(|machine| Some((machine, loads[machine] + whole[task][machine]?)))
            .min_by(|a, b| a.1.total_cmp(&b.1).then(a.0.cmp(&b.0)));
        if let Some((machine, done)) = soonest {
            loads[machine] = done;
            on[machine].push(task);
        }
    }
    on
}

/// Tasks by their least time, the longest first.
fn by_length(whole: &[Vec<Option<f64>>], placed: &[usize]) -> Vec<usize> {
    let least = |task: usize| {
        whole[task]
            .iter()
            .copied()
            .flatten()
            .fold(f64::INFINITY, f64::min)
    };
    let mut order = placed.to_vec();
    order.sort_by(|&a, &b| least(b).total_cmp(&least(a)).then(a.cmp(&b)));
    order
}

fn load(whole: &[Vec<Option<f64>>], own: &[usize], machine: usize) -> f64 {
    own.iter().filter_map(|&task| whole[task][machine]).sum()
}

/// Moves tasks from the machine that is done last, or swaps them, as long as that gets it done sooner.
fn moved_about(whole: &[Vec<Option<f64>>], on: &mut [Vec<usize>]) {
    for _ in 0..MOST_ROUNDS {
        let loads: Vec<f64> = (0..on.len())
            .map(|machine| load(whole, &on[machine], machine))
            .collect();
        let Some(last) = (0..on.len()).max_by(|&a, &b| loads[a].total_cmp(&loads[b])) else {
            return;
        };
        let Some((other, task, back)) = better_move(whole, on, &loads, last) else {
            return;
        };
        on[last].retain(|&own| own != task);
        on[other].push(task);
        if let Some(back) = back {
            on[other].retain(|&own| own != back);
            on[last].push(back);
        }
    }
}

/// A move: the machine that a task goes to, the task, and what comes back for it.
type Move = (usize, usize, Option<usize>);

/// The move from the machine done last that gets all done soonest, if any gets it done sooner.
fn better_move(
    whole: &[Vec<Option<f64>>],
    on: &[Vec<usize>],
    loads: &[f64],
    last: usize,
) -> Option<Move> {
    let mut best: Option<(f64, Move)> = None;
    for &task in &on[last] {
        for other in (0..on.len()).filter(|&other| other != last) {
            let Some(there) = whole[task][other] else {
                continue;
            };
            let here = whole[task][last].unwrap_or(0.0);
            let swaps = on[other].iter().map(|&back| Some(back)).chain([None]);
            for back in swaps {
                let (back_here, back_there) = match back {
                    None => (Some(0.0), 0.0),
                    Some(back) => (whole[back][last], whole[back][other].unwrap_or(0.0)),
                };
                let Some(back_here) = back_here else { continue };
                let done = (loads[last] - here + back_here).max(loads[other] + there - back_there);
                let sooner = done < loads[last] - SAME_MINUTES;
                if sooner && best.as_ref().is_none_or(|(best, _)| done < *best) {
                    best = Some((done, (other, task, back)));
                }
            }
        }
    }
    best.map(|(_, which)| which)
}

/// A search through all ways of sharing out.
struct Search<'a> {
    whole: &'a [Vec<Option<f64>>],
    order: Vec<usize>,
    /// The least time of all tasks from each one of the order on.
    left: Vec<f64>,
    best: Vec<Vec<usize>>,
    finish: f64,
    steps: usize,
}

impl<'a> Search<'a> {
    fn from(whole: &'a [Vec<Option<f64>>], placed: &[usize], on: &[Vec<usize>]) -> Search<'a> {
        let order = by_length(whole, placed);
        let mut left = vec![0.0];
        for &task in order.iter().rev() {
            let least = whole[task]
                .iter()
                .copied()
                .flatten()
                .fold(f64::INFINITY, f64::min);
            left.push(left[left.len() - 1] + least);
        }
        left.reverse();
        let finish = (0..on.len())
            .map(|machine| load(whole, &on[machine], machine))
            .fold(0.0, f64::max);
        Search {
            whole,
            order,
            left,
            best: on.to_vec(),
            finish,
            steps: 0,
        }
    }

    fn go(&mut self, at: usize, loads: &mut Vec<f64>, on: &mut Vec<Vec<usize>>) {
        self.steps += 1;
        if self.steps >= MOST_STEPS {
            return;
        }
        let last = loads.iter().copied().fold(0.0, f64::max);
        let even = (loads.iter().sum::<f64>() + self.left[at]) / loads.len().max(1) as f64;
        if last.max(even) >= self.finish - SAME_MINUTES {
            return;
        }
        let Some(&task) = self.order.get(at) else {
            self.finish = last;
            self.best = on.clone();
            return;
        };
        let mut tried: Vec<usize> = Vec::new();
        for machine in 0..loads.len() {
            let Some(minutes) = self.whole[task][machine] else {
                continue;
            };
            // A machine that is as far as another, and as quick with all that is left, would give the same again.
            let like = |&other: &usize| {
                loads[other] == loads[machine]
                    && self.order[at..]
                        .iter()
                        .all(|&task| self.whole[task][other] == self.whole[task][machine])
            };
            if tried.iter().any(like) {
                continue;
            }
            tried.push(machine);
            let before = loads[machine];
            loads[machine] += minutes;
            on[machine].push(task);
            self.go(at + 1, loads, on);
            on[machine].pop();
            loads[machine] = before;
        }
    }
}
