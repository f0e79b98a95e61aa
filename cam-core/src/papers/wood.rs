//! What the setup sheet says of a plank's wood and of the router that cuts it.

use super::PaperParts;
use super::words::{heading, hours, mm, paragraph};
use crate::plank::Plank;
use crate::workshop::Grain;

/// Where the plank comes from, how it lies, and what in it is to be kept clear of.
pub fn of_plank(parts: &PaperParts, plank: &Plank) -> String {
    let mut text = String::new();
    let lies = if plank.turned {
        ", turned a quarter to the left"
    } else {
        ""
    };
    if let Some(stock) = &plank.stock {
        text += &format!("Take plank {stock} from stock{lies}.");
    }
    let grain = plank.grain.map(|grain| match grain {
        Grain::End => "The face is end grain.",
        Grain::Across => "The grain runs across, along x.",
        Grain::Along => "The grain runs away from you, along y.",
    });
    if let Some(grain) = grain {
        text = format!("{text} {grain}");
    }
    let wanted = parts.commission.height_to_paper.in_mm();
    if let Some(height) = plank.height_mm {
        text += &format!(
            " Measured {} mm high; dress it to {} mm before cutting.",
            mm(height),
            mm(wanted)
        );
    }
    for bad in &plank.bad_places {
        text += &format!(
            " A bad place lies at x {} to {}, y {} to {} mm; check that it is where it was measured.",
            mm(bad.x0),
            mm(bad.x1),
            mm(bad.y0),
            mm(bad.y1)
        );
    }
    if parts.workshop.machines().count() > 1
        && let Some(machine) = parts.workshop.machines().nth(plank.machine)
    {
        text += &format!(" Cut it on: {}.", machine.name);
    }
    if text.is_empty() {
        text
    } else {
        paragraph("", text.trim_start(), 0)
    }
}

/// Which plank is cut on which router, when all is cut, and what one router more would save; nothing where there is one alone.
pub fn routers(parts: &PaperParts) -> String {
    let machines: Vec<&str> = parts
        .workshop
        .machines()
        .map(|machine| machine.name.as_str())
        .collect();
    if machines.len() < 2 {
        return String::new();
    }
    let plan = parts.routers;
    let mut text = heading("Routers");
    for (number, name) in machines.iter().enumerate() {
        let planks: Vec<&str> = plan
            .on
            .get(number)
            .into_iter()
            .flatten()
            .filter_map(|&plank| Some(parts.planks.get(plank)?.id.as_str()))
            .collect();
        let planks = if planks.is_empty() {
            "nothing".to_owned()
        } else {
            planks.join(", ")
        };
        let done = plan.done_minutes.get(number).copied().unwrap_or(0.0);
        text += &paragraph(
            "- ",
            &format!("{name}: {planks}; done after {}.", hours(done * 60.0)),
            2,
        );
    }
    let bound = if plan.proven {
        "no other way is done sooner".to_owned()
    } else {
        format!(
            "no other way is done before {}",
            hours(plan.at_least_minutes * 60.0)
        )
    };
    text += &paragraph(
        "",
        &format!(
            "All is cut after {}, with fixing planks and {} changes of cutter; {bound}. Each router needs its own cutters.",
            hours(plan.finish_minutes * 60.0),
            plan.changes
        ),
        0,
    );
    text
}
