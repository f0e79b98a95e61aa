//! The rooms of the window, in the order of the work.

mod bench;
mod block;
mod case;
mod cut;
mod order;
mod papers;
mod plank;
mod proof;
mod run;
mod sort_list;
mod workshop;

use egui::Ui;

use super::Desk;
use crate::background::picture::Look;
use crate::model::selection::Room;

pub(super) use run::Step;

/// What each room keeps for itself while a commission is open.
#[derive(Default)]
pub(super) struct States {
    order: order::State,
    case: case::State,
    block: block::State,
    cut: cut::State,
    plank: plank::State,
    run: run::State,
    proof: proof::State,
    papers: papers::State,
    bench: bench::State,
    workshop: workshop::State,
}

impl States {
    /// How the proof is to look.
    pub(super) fn look_of_proof(&self) -> &Look {
        &self.proof.look
    }

    /// Whether the room that is shown draws something in the background.
    pub(super) fn is_busy(&self, shown: Room) -> bool {
        match shown {
            Room::Cut => self.cut.is_busy(),
            Room::Plank => self.plank.is_busy(),
            Room::Run => self.run.is_busy(),
            Room::Papers => self.papers.is_busy(),
            Room::Order | Room::Case | Room::Block | Room::Proof | Room::Bench | Room::Workshop => {
                false
            }
        }
    }

    /// The order.
    pub(super) fn order(&mut self) -> &mut order::State {
        &mut self.order
    }

    /// Steps through the programs that run.
    pub(super) fn step_course(&mut self, step: Step) {
        self.run.asked = Some(step);
    }

    /// The bench.
    pub(super) fn bench(&mut self) -> &mut bench::State {
        &mut self.bench
    }
}

/// Shows the room that is selected.
pub(super) fn show(ui: &mut Ui, desk: &mut Desk, states: &mut States) {
    match desk.selection.room {
        Room::Order => order::show(ui, desk, &mut states.order),
        Room::Case => case::show(ui, desk, &mut states.case),
        Room::Block => block::show(ui, desk, &mut states.block),
        Room::Cut => cut::show(ui, desk, &mut states.cut),
        Room::Plank => plank::show(ui, desk, &mut states.plank),
        Room::Run => run::show(ui, desk, &mut states.run),
        Room::Proof => proof::show(ui, desk, &mut states.proof),
        Room::Papers => papers::show(ui, desk, &mut states.papers),
        Room::Bench => bench::show(ui, desk, &mut states.bench),
        Room::Workshop => workshop::show(ui, desk, &mut states.workshop),
    }
}
