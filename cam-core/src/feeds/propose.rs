//! What is proposed, and which limit ruled.

use said::plain_number;

use super::sums;
use super::tables;
use super::working::{Working, most_deflection_mm, width_in_wood_mm, working};
use crate::measure::Length;
use crate::workshop::{Cutter, CutterShape, Machine, Wood};

/// What ruled a proposed value.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Limit {
    /// The spindle turns no faster.
    SpindleFastest,
    /// The spindle turns no slower.
    SpindleSlowest,
    /// The edge would run so fast that the wood burns.
    SurfaceSpeed,
    /// The machine feeds no faster.
    MachineFeed,
    /// What an edge usually takes.
    ChipLoad,
    /// A thinner chip would rub.
    LeastChip,
    /// The cutter would bend too far aside.
    Deflection,
    /// The usual part of another value or of the diameter.
    UsualShare,
    /// Layers are no deeper on a light machine.
    DeepestLayer,
    /// The length of the flutes, or the deepest that the cutter may go.
    Reach,
    /// The ridges left on the floor.
    Ridges,
    /// The width of the tip.
    Tip,
}

/// A proposed value and why it is no other.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposed {
    /// The value, in the unit that its field names.
    pub value: f64,
    /// What ruled it.
    pub limit: Limit,
    /// The same in a sentence for the maker.
    pub reason: String,
}

/// Feeds, speeds and steps proposed for a cutter.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// The cutter, by id.
    pub cutter: String,
    /// Spindle speed, turns a minute, in hundreds where the machine allows.
    pub spindle_rpm: Proposed,
    /// Feed along the path, mm/min.
    pub feed_mm_min: Proposed,
    /// Feed straight down, mm/min.
    pub plunge_mm_min: Proposed,
    /// Depth of a layer, mm.
    pub step_down_mm: Proposed,
    /// Width of a roughing cut, mm.
    pub step_over_mm: Proposed,
    /// How hard the cutter works so.
    pub working: Working,
}

impl Proposal {
    /// The cutter with everything proposed taken over.
    pub fn taken_over(&self, cutter: &Cutter) -> Cutter {
        Cutter {
            spindle_rpm: self.spindle_rpm.value,
            feed_mm_min: self.feed_mm_min.value,
            plunge_mm_min: self.plunge_mm_min.value,
            step_down: Length::mm(self.step_down_mm.value),
            step_over: Length::mm(self.step_over_mm.value),
            ..cutter.clone()
        }
    }
}

/// Proposes how a cutter is run in a wood on a machine.
///
/// The layer comes first (a part of the diameter, kept within flutes and depth), then the width of a cut; the chip from the usual
/// range for this width and wood, less in deep layers, more feed where narrow cuts thin the chip. Where the force of that chip would
/// bend the cutter aside by more than a quarter of `allowance_mm`, layers are made thinner, then chips. The spindle turns as fast
/// as the machine and the edge may, but no faster than the machine can feed that chip. Everything stays within the machine's
/// limits; values are rounded downward to what a maker would set.
///
/// # Source
/// The sums: [`sums`]. The ranges: common practice, no source.
pub fn propose(cutter: &Cutter, wood: &Wood, machine: &Machine, allowance_mm: f64) -> Proposal {
    let mut step_down = step_down(cutter);
    let mut chip = chip(cutter, wood, step_down.value);
    keep_straight(cutter, wood, allowance_mm, &mut step_down, &mut chip);
    let step_over = step_over(cutter, step_down.value);
    let width = width_in_wood_mm(cutter, step_down.value);
    let thinning = sums::thinning_factor(step_over.value.min(width), width);
    let load_mm = chip.value * thinning;
    let (spindle, feed) = spindle_and_feed(cutter, wood, machine, width, &chip, load_mm);
    let plunge = plunge(cutter, wood, machine, feed.value);
    let mut proposal = Proposal {
        cutter: cutter.id.clone(),
        spindle_rpm: spindle,
        feed_mm_min: feed,
        plunge_mm_min: plunge,
        step_down_mm: step_down,
        step_over_mm: step_over,
        working: working(cutter, wood),
    };
    proposal.working = working(&proposal.taken_over(cutter), wood);
    proposal
}

fn proposed(value: f64, limit: Limit, reason: impl Into<String>) -> Proposed {
    Proposed {
        value,
        limit,
        reason: reason.into(),
    }
}

/// Lengths are set in steps of this, mm: of a twentieth from half a millimetre on, else of a hundredth.
fn rounded_down_mm(value: f64) -> f64 {
    let per_mm = if value >= 0.5 { 20.0 } else { 100.0 };
    // Half a thousandth of a step: what is whole but for the arithmetic stays whole.
    let rounded = (value * per_mm + 5e-4).floor() / per_mm;
    if rounded > 0.0 { rounded } else { value }
}

fn mm(value: f64) -> String {
    format!("{} mm", plain_number(value, 3))
}

fn step_down(cutter: &Cutter) -> Proposed {
    let usual = tables::step_down_mm(cutter);
    let flutes = cutter.flute_length.in_mm();
    let deepest = cutter.max_depth.in_mm();
    let reach = flutes.min(deepest);
    if reach < usual {
        return proposed(
            rounded_down_mm(reach),
            Limit::Reach,
            format!("The cutter goes no deeper than {} in all.", mm(reach)),
        );
    }
    let value = rounded_down_mm(usual);
    if usual >= tables::DEEPEST_LAYER_MM {
        let reason = format!(
            "No deeper layers than {} on a light machine.",
            mm(tables::DEEPEST_LAYER_MM)
        );
        return proposed(value, Limit::DeepestLayer, reason);
    }
    let diameter = cutter.diameter.in_mm();
    let reason = match cutter.shape {
        CutterShape::Flat | CutterShape::Ball if diameter < tables::THIN_MM => format!(
            "About a third of the diameter: a cutter thinner than {} breaks in deeper layers.",
            mm(tables::THIN_MM)
        ),
        CutterShape::Flat | CutterShape::Ball => "Half the diameter.".to_owned(),
        CutterShape::Conical { .. } => {
            "About a third of the diameter, for a cone is thin where it cuts.".to_owned()
        }
    };
    proposed(value, Limit::UsualShare, reason)
}

/// The thickest place of the chip to aim at, mm.
fn chip(cutter: &Cutter, wood: &Wood, step_down_mm: f64) -> Proposed {
    let width = width_in_wood_mm(cutter, step_down_mm);
    let [least, most] = tables::chip_load_range_mm(width, wood);
    let deep = tables::depth_factor(step_down_mm, width);
    let middle = (least + most) / 2.0 * deep;
    let at = format!("a cutter {} wide in {}", mm(width), wood.name);
    if middle < tables::LEAST_CHIP_MM {
        let reason = format!("the least that cuts and does not rub; less is usual for {at}");
        return proposed(tables::LEAST_CHIP_MM, Limit::LeastChip, reason);
    }
    let less = if deep < 1.0 {
        ", less for the deep layer"
    } else {
        ""
    };
    proposed(
        middle,
        Limit::ChipLoad,
        format!("the middle of what is usual for {at}{less}"),
    )
}

/// The part of a layer that is left to it at least where the cutter bends. Common practice, no source.
const THINNEST_LAYER: f64 = 0.25;

/// Makes layers thinner, then chips, until the cutter bends no more than it may, as far as that goes.
fn keep_straight(
    cutter: &Cutter,
    wood: &Wood,
    allowance_mm: f64,
    step_down: &mut Proposed,
    chip: &mut Proposed,
) {
    let most = most_deflection_mm(allowance_mm);
    let bends = |step_down_mm: f64, chip_mm: f64| {
        let width = width_in_wood_mm(cutter, step_down_mm);
        let step_over = step_over(cutter, step_down_mm).value.min(width);
        let load = chip_mm * sums::thinning_factor(step_over, width);
        // At one turn a minute, the feed is the load of all edges.
        let tried = Cutter {
            step_down: Length::mm(step_down_mm),
            step_over: Length::mm(step_over),
            spindle_rpm: 1.0,
            feed_mm_min: sums::feed_mm_min(1.0, cutter.flutes, load),
            ..cutter.clone()
        };
        working(&tried, wood).deflection_mm
    };
    let now = bends(step_down.value, chip.value);
    if now <= most {
        return;
    }
    let share = (most / now).max(THINNEST_LAYER);
    *step_down = proposed(
        rounded_down_mm(step_down.value * share),
        Limit::Deflection,
        format!(
            "Thinner than usual, so that a cutter that stands out {} bends no more than {}.",
            mm(cutter.stick_out.in_mm()),
            mm(most)
        ),
    );
    let now = bends(step_down.value, chip.value);
    if now <= most {
        return;
    }
    let width = width_in_wood_mm(cutter, step_down.value);
    let [least, _] = tables::chip_load_range_mm(width, wood);
    let least = least.max(tables::LEAST_CHIP_MM).min(chip.value);
    let wanted = chip.value * most / now;
    *chip = if wanted >= least {
        proposed(
            wanted,
            Limit::Deflection,
            format!("so little that the cutter bends no more than {}", mm(most)),
        )
    } else {
        proposed(
            least,
            Limit::LeastChip,
            format!(
                "the least that cuts and does not rub, and yet the cutter bends more than {}: let it stand out less",
                mm(most)
            ),
        )
    };
}

fn step_over(cutter: &Cutter, step_down_mm: f64) -> Proposed {
    let diameter = cutter.diameter.in_mm();
    let usual = diameter * tables::WIDTH_OF_DIAMETER;
    match cutter.shape {
        CutterShape::Flat => proposed(
            rounded_down_mm(usual),
            Limit::UsualShare,
            "A little less than half the diameter, so that the load stays even.",
        ),
        CutterShape::Ball => {
            let wide = sums::step_over_for_scallop_mm(diameter / 2.0, tables::RIDGE_MM);
            let wide = wide.min(width_in_wood_mm(cutter, step_down_mm));
            proposed(
                rounded_down_mm(wide.min(usual)),
                Limit::Ridges,
                format!(
                    "So that the ridges between cuts are no higher than {}.",
                    mm(tables::RIDGE_MM)
                ),
            )
        }
        CutterShape::Conical { tip, .. } => proposed(
            rounded_down_mm(tip.in_mm().max(tables::LEAST_WIDTH_MM).min(diameter)),
            Limit::Tip,
            "As wide as the tip, so that no ridge stays between two cuts.",
        ),
    }
}

/// Spindle speeds are set in hundreds of turns a minute, feeds in tens of mm/min. Common practice, no source.
const SPINDLE_STEP: f64 = 100.0;
const FEED_STEP: f64 = 10.0;

fn rounded_down(value: f64, step: f64) -> f64 {
    let rounded = (value / step + 1e-9).floor() * step;
    if rounded > 0.0 { rounded } else { value }
}

fn spindle_and_feed(
    cutter: &Cutter,
    wood: &Wood,
    machine: &Machine,
    width_mm: f64,
    chip: &Proposed,
    load_mm: f64,
) -> (Proposed, Proposed) {
    let [slowest, fastest] = machine.spindle_rpm;
    let [x, y, _] = machine.max_feed_mm_min;
    let most_feed = x.min(y);
    let by_surface = tables::MOST_SURFACE_M_MIN / sums::surface_speed_m_min(width_mm, 1.0);
    let by_feed = most_feed / sums::feed_mm_min(1.0, cutter.flutes, load_mm);
    let wanted = fastest.min(by_surface).min(by_feed);
    let rpm = rounded_down(wanted, SPINDLE_STEP).max(slowest);
    let turns = plain_number(rpm, 0);
    let spindle = if wanted < slowest {
        let why = if by_feed <= by_surface {
            format!(
                "at the machine's fastest feed of {} mm/min",
                plain_number(most_feed, 0)
            )
        } else {
            format!(
                "for an edge not to pass {} m/min",
                plain_number(tables::MOST_SURFACE_M_MIN, 0)
            )
        };
        proposed(
            rpm,
            Limit::SpindleSlowest,
            format!("As slow as the spindle turns; it should turn slower {why}."),
        )
    } else if by_feed <= fastest.min(by_surface) {
        proposed(
            rpm,
            Limit::MachineFeed,
            format!(
                "Slower than the spindle could, so that each edge still takes {} at the machine's fastest feed of {} mm/min.",
                mm(load_mm),
                plain_number(most_feed, 0)
            ),
        )
    } else if by_surface < fastest {
        proposed(
            rpm,
            Limit::SurfaceSpeed,
            format!(
                "Faster, the edge would pass {} m/min and burn {}.",
                plain_number(tables::MOST_SURFACE_M_MIN, 0),
                wood.name
            ),
        )
    } else {
        proposed(
            rpm,
            Limit::SpindleFastest,
            format!(
                "As fast as the spindle turns; the edge runs at {} m/min.",
                plain_number(sums::surface_speed_m_min(width_mm, rpm), 0)
            ),
        )
    };
    let by_chip = sums::feed_mm_min(rpm, cutter.flutes, load_mm);
    let feed = if by_chip > most_feed {
        proposed(
            rounded_down(most_feed, FEED_STEP),
            Limit::MachineFeed,
            format!(
                "The machine feeds no faster; each edge takes {} then.",
                mm(sums::chip_load_mm(most_feed, cutter.flutes, rpm))
            ),
        )
    } else {
        let edges = if cutter.flutes == 1 { "edge" } else { "edges" };
        proposed(
            rounded_down(by_chip, FEED_STEP),
            chip.limit,
            format!(
                "{} {edges} of {} at {turns} turns a minute: {}.",
                cutter.flutes,
                mm(load_mm),
                chip.reason
            ),
        )
    };
    (spindle, feed)
}

fn plunge(cutter: &Cutter, wood: &Wood, machine: &Machine, feed: f64) -> Proposed {
    let [.., most] = machine.max_feed_mm_min;
    let share = tables::plunge_share(cutter, wood);
    let wanted = feed * share;
    if wanted > most {
        return proposed(
            rounded_down(most, FEED_STEP),
            Limit::MachineFeed,
            "The machine goes down no faster.",
        );
    }
    let percent = plain_number(share * 100.0, 0);
    let why = if !cutter.centre_cutting {
        "it has no edge at its middle, so it is let down on slopes alone"
    } else if wood.end_grain {
        "its end cuts wood on end, which takes the most force"
    } else {
        "its end cuts across the grain"
    };
    proposed(
        rounded_down(wanted, FEED_STEP),
        Limit::UsualShare,
        format!("{percent} % of the feed: {why}."),
    )
}
