//! What a program would do, for people and for programs.

use cam_core::program::account::{Account, Range};
use serde_json::{Value, json};

use crate::background::tasks::{counted, duration_in_words};

/// The account in lines.
pub(super) fn in_words(account: &Account) -> Vec<String> {
    let mut lines = Vec::new();
    for (axis, extent) in ["x", "y", "z"].into_iter().zip(account.extent) {
        lines.push(match extent {
            Some(range) => format!("Along {axis}: {}.", between(range, "mm")),
            None => format!("It never names {axis}."),
        });
    }
    match account.cut_heights {
        None => lines.push("It never cuts.".to_owned()),
        Some(heights) => lines.push(format!(
            "It cuts {:.1} mm of path at heights of {}, and moves {:.1} mm as fast as the machine can.",
            account.cut_mm,
            between(heights, "mm"),
            account.rapid_mm
        )),
    }
    if let Some(feeds) = account.feeds {
        lines.push(format!("Feeds: {}.", between(feeds, "mm a minute")));
    }
    if let Some(speeds) = account.speeds {
        lines.push(format!(
            "Spindle while cutting: {}.",
            between(speeds, "turns a minute")
        ));
    }
    let slots: Vec<String> = account.cutters.iter().map(u32::to_string).collect();
    lines.push(if slots.is_empty() {
        "It changes no cutter.".to_owned()
    } else {
        format!("Cutters, by slot: {}.", slots.join(", "))
    });
    lines.push(format!(
        "The machine runs for about {}, with {} for a person.",
        duration_in_words(account.seconds),
        counted(account.pauses, "stop", "stops")
    ));
    if !account.units_stated {
        lines.push(
            "It does not say whether its lengths are millimetres (G21) or inches (G20); millimetres were taken."
                .to_owned(),
        );
    }
    lines.extend(
        account
            .remarks
            .iter()
            .map(|remark| format!("Look at {remark}.")),
    );
    lines
}

fn between(range: Range, unit: &str) -> String {
    if range.least == range.most {
        format!("{:.3} {unit}", range.least)
    } else {
        format!("{:.3} to {:.3} {unit}", range.least, range.most)
    }
}

/// The account for programs.
pub(super) fn account_json(account: &Account) -> Value {
    let range = |range: Option<Range>| range.map(|range| [range.least, range.most]);
    let remarks: Vec<String> = account.remarks.iter().map(ToString::to_string).collect();
    json!({
        "accepted": true,
        "extent_mm": account.extent.map(range),
        "cut_heights_mm": range(account.cut_heights),
        "feeds_mm_min": range(account.feeds),
        "speeds_rpm": range(account.speeds),
        "cutters": account.cutters,
        "cut_mm": account.cut_mm,
        "rapid_mm": account.rapid_mm,
        "seconds": account.seconds,
        "pauses": account.pauses,
        "units_stated": account.units_stated,
        "remarks": remarks,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    use cam_core::workshop::Workshop;
    use reader::read;

    #[test]
    fn a_program_of_others_is_told_in_words() {
        let text = "G1 X10 F300\nM2\n";
        let account = Account::of(&read(text).unwrap(), &Workshop::starting().machine);
        let said = in_words(&account).join("\n");
        for words in [
            "x",
            "never names y",
            "Feeds: 300",
            "millimetres were taken",
            "Look at line 1",
        ] {
            assert!(said.contains(words), "{words} is not in {said}");
        }
        assert_eq!(account_json(&account)["feeds_mm_min"][0], 300.0);
    }
}
