//! What the setup sheet says of a plank's wood and of the routers.

use super::PaperParts;
use super::sheet::Piece;
use super::words::{hours, mm, plank_name};
use crate::plank::Plank;
use crate::workshop::Grain;

/// Where the plank comes from, how it lies, and what in it is to be kept clear of; empty where nothing is told of it.
pub fn of_plank(parts: &PaperParts, plank: &Plank) -> String {
    let mut told: Vec<String> = Vec::new();
    if let Some(stock) = &plank.stock {
        let lies = if plank.turned {
            ", turned a quarter to the left"
        } else {
            ""
        };
        told.push(format!("Take plank {stock} from stock{lies}."));
    }
    let grain = plank.grain.map(|grain| match grain {
        Grain::End => "The face is end grain.",
        Grain::Across => "The grain runs across, along x.",
        Grain::Along => "The grain runs away from you, along y.",
    });
    told.extend(grain.map(str::to_owned));
    let wanted = parts.commission.height_to_paper.in_mm();
    if let Some(height) = plank.height_mm {
        told.push(format!(
            "Measured {} mm high; dress it to {} mm before cutting.",
            mm(height),
            mm(wanted)
        ));
    }
    for bad in &plank.bad_places {
        told.push(format!(
            "A bad place lies at x {} to {}, y {} to {} mm; check that it is where it was measured.",
            mm(bad.x0),
            mm(bad.x1),
            mm(bad.y0),
            mm(bad.y1)
        ));
    }
    if parts.workshop.machines().count() > 1
        && let Some(machine) = parts.workshop.machines().nth(plank.machine)
    {
        told.push(format!("Cut it on: {}.", machine.name));
    }
    told.join(" ")
}

/// Which plank is cut on which router, when all is cut, and what one router more would save; nothing where there is one alone.
pub fn routers(parts: &PaperParts) -> Vec<Piece> {
    let machines: Vec<&str> = parts
        .workshop
        .machines()
        .map(|machine| machine.name.as_str())
        .collect();
    if machines.len() < 2 {
        return Vec::new();
    }
    let plan = parts.routers;
    let mut pieces = vec![Piece::heading("Routers")];
    for (number, name) in machines.iter().enumerate() {
        let planks: Vec<String> = plan
            .on
            .get(number)
            .into_iter()
            .flatten()
            .filter_map(|&plank| Some(plank_name(&parts.planks.get(plank)?.id)))
            .collect();
        let planks = if planks.is_empty() {
            "nothing".to_owned()
        } else {
            planks.join(", ")
        };
        let done = plan.done_minutes.get(number).copied().unwrap_or(0.0);
        pieces.push(Piece::Point(format!(
            "{name}: {planks}; done after {}.",
            hours(done * 60.0)
        )));
    }
    let bound = if plan.proven {
        "no other way is done sooner".to_owned()
    } else {
        format!(
            "no other way is done before {}",
            hours(plan.at_least_minutes * 60.0)
        )
    };
    pieces.push(Piece::text(format!(
        "All is cut after {}, with fixing planks and {} changes of cutter; {bound}. Each router needs its own cutters.",
        hours(plan.finish_minutes * 60.0),
        plan.changes
    )));
    pieces
}
