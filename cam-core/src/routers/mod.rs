//! Several routers: which plank on which, when all is cut, and what one router more would save.

mod share;
#[cfg(test)]
mod tests;

use reader::Replay;

use crate::commission::Commission;
use crate::make::Program;
use crate::plank::Plank;
use crate::toolpath::duration::duration;
use crate::workshop::{Machine, Workshop};

pub use share::{Share, Task, share_out};

const SECONDS_PER_MINUTE: f64 = 60.0;

/// Planks on routers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Plan {
    /// The planks on each router of the workshop, in the order of cutting, by their places in the job.
    pub on: Vec<Vec<usize>>,
    /// When each router is done, minutes from the start, with fixing and changes of cutter.
    pub done_minutes: Vec<f64>,
    /// When all is cut.
    pub finish_minutes: f64,
    /// No other way of sharing the planks out is done before this.
    pub at_least_minutes: f64,
    /// Whether that is known of the plan itself: none is done before it.
    pub proven: bool,
    /// Times that a cutter is put in, on all routers.
    pub changes: u32,
    /// What one more of each router would bring.
    pub one_more: Vec<OneMore>,
}

/// The plan with one router more.
#[derive(Clone, Debug, PartialEq)]
pub struct OneMore {
    /// The router that is there twice, by its place among the workshop's.
    pub machine: usize,
    /// When all would be cut, minutes.
    pub finish_minutes: f64,
    /// How much sooner that is.
    pub saved_minutes: f64,
}

/// The plan for programs that were written. Times on other routers than a plank's own are those of its programs as they are.
pub fn plan(
    planks: &[Plank],
    programs: &[Program],
    commission: &Commission,
    workshop: &Workshop,
) -> Plan {
    let machines: Vec<&Machine> = workshop.machines().collect();
    let tasks = tasks(planks, programs, commission, workshop, &machines);
    let shared = share_out(&tasks, machines.len());
    let one_more = (0..machines.len())
        .map(|machine| {
            let with: Vec<Task> = tasks
                .iter()
                .map(|task| task.with_one_more(machine))
                .collect();
            let finish_minutes = share_out(&with, machines.len() + 1).finish_minutes();
            OneMore {
                machine,
                finish_minutes,
                saved_minutes: (shared.finish_minutes() - finish_minutes).max(0.0),
            }
        })
        .collect();
    Plan {
        finish_minutes: shared.finish_minutes(),
        done_minutes: shared.done_minutes,
        on: shared.on,
        at_least_minutes: shared.at_least_minutes,
        proven: shared.proven,
        changes: shared.changes,
        one_more,
    }
}

impl Plan {
    /// The router that a plank is cut on; `None` if it fits none.
    pub fn router_of(&self, plank: usize) -> Option<usize> {
        self.on.iter().position(|on| on.contains(&plank))
    }
}

fn tasks(
    planks: &[Plank],
    programs: &[Program],
    commission: &Commission,
    workshop: &Workshop,
    machines: &[&Machine],
) -> Vec<Task> {
    let lane = commission.planks.lane.in_mm();
    planks
        .iter()
        .enumerate()
        .map(|(number, plank)| {
            let own: Vec<&Program> = programs
                .iter()
                .filter(|program| program.plank == number)
                .collect();
            let own_s: f64 = own.iter().map(|program| program.estimate_s).sum();
            let others = machines.len() > 1;
            let replays: Vec<Replay> = own
                .iter()
                .filter(|_| others)
                .filter_map(|program| reader::read(&program.text).ok())
                .collect();
            let cutters: Vec<String> = own
                .iter()
                .flat_map(|program| program.parts.iter().map(|part| part.cutter.clone()))
                .collect();
            let minutes = machines
                .iter()
                .enumerate()
                .map(|(router, machine)| {
                    // The proof judges a plank's own router; it is never left without one.
                    let takes = router == plank.machine || plank.fits(machine, lane);
                    takes.then(|| {
                        let seconds: f64 = if router == plank.machine {
                            own_s
                        } else {
                            replays.iter().map(|replay| duration(replay, machine)).sum()
                        };
                        workshop.rates.fixing_minutes_per_plank + seconds / SECONDS_PER_MINUTE
                    })
                })
                .collect();
            Task {
                minutes,
                change_minutes: machines
                    .iter()
                    .map(|machine| machine.change_minutes)
                    .collect(),
                cutters,
            }
        })
        .collect()
}
