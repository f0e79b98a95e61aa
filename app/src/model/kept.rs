//! What the bench found, kept in the workshop.

use bench::square::Map;
use bench::{Judged, minutes};
use cam_core::workshop::Workshop;

/// A workshop that keeps what a notebook came to, and what was kept in a sentence.
///
/// # Errors
/// A sentence where there is nothing to keep, or where the notebook was measured under another correction than the workshop has.
pub fn kept(workshop: &Workshop, judged: &Judged) -> Result<(Workshop, String), String> {
    let mut changed = workshop.clone();
    let sentence = match judged {
        Judged::Square { outcome, .. } => {
            same_correction(workshop.machine.squareness, outcome.corrected)?;
            if !outcome.is_seen {
                return Err(
                    "Nothing is to be kept: what is off is less than the tool can tell.".to_owned(),
                );
            }
            changed.machine.squareness = Some(outcome.machine);
            "Programs made from now on are corrected for the machine's squareness. Make a test block with them to see that it is gone."
                .to_owned()
        }
        Judged::Minutes {
            outcome: minutes::Judged { factor, each, .. },
            ..
        } => {
            changed.machine.minutes_factor = *factor;
            changed.machine.minutes_per_run = *each;
            "Prices are reckoned with the machine's own minutes from now on.".to_owned()
        }
        Judged::Losses { outcome, .. } => {
            changed.rates.breakage = outcome.breakage;
            "Prices are reckoned with this breakage from now on.".to_owned()
        }
        Judged::Height { .. } | Judged::Moisture { .. } | Judged::LockUp { .. } => {
            return Err("There is nothing to keep in the workshop from this notebook.".to_owned());
        }
    };
    Ok((changed, sentence))
}

/// Whether a notebook is of a kind that the workshop keeps something of.
pub fn is_keepable(judged: &Judged) -> bool {
    match judged {
        Judged::Square { outcome, .. } => outcome.is_seen,
        Judged::Minutes { .. } | Judged::Losses { .. } => true,
        Judged::Height { .. } | Judged::Moisture { .. } | Judged::LockUp { .. } => false,
    }
}

/// What a program says of a correction is rounded to this, as a part and in radians.
const SAID_WITHIN: f64 = 2e-6;

/// A correction found beside another one would be added to the wrong thing.
fn same_correction(kept: Option<Map>, noted: Option<Map>) -> Result<(), String> {
    let (kept, noted) = (kept.unwrap_or(Map::TRUE), noted.unwrap_or(Map::TRUE));
    let off = (kept.scale_x - noted.scale_x)
        .abs()
        .max((kept.scale_y - noted.scale_y).abs())
        .max((kept.skew - noted.skew).abs());
    if off <= SAID_WITHIN {
        return Ok(());
    }
    Err(format!(
        "The workshop keeps another correction (x {:.6}, y {:.6}, skew {:.5}°) than the notebook says the block was cut with. Cut a test block with the workshop as it is, or mend the line “corrected”.",
        kept.scale_x,
        kept.scale_y,
        kept.skew_deg()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use bench::notebook::Kind;
    use bench::{example, judge};

    #[test]
    fn each_kind_keeps_its_own() {
        let workshop = Workshop::starting();
        for kind in Kind::ALL {
            let judged = judge(example(kind)).unwrap();
            match (is_keepable(&judged), kept(&workshop, &judged)) {
                (true, Ok((changed, _))) => assert_ne!(changed, workshop, "{kind}"),
                (false, Err(_)) => {}
                (is_keepable, kept) => panic!("{kind}: {is_keepable} {kept:?}"),
            }
        }
    }

    #[test]
    fn a_correction_is_not_added_to_another() {
        let judged = judge(example(Kind::Square)).unwrap();
        let (changed, _) = kept(&Workshop::starting(), &judged).unwrap();
        let again = kept(&changed, &judged).unwrap_err();
        assert!(
            again.starts_with("The workshop keeps another correction"),
            "{again}"
        );
    }
}
