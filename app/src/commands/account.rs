//! What a program would do, for people and for programs.

use cam_core::program::account::{Account, Extent, Range};
use reader::Datum;
use serde_json::{Value, json};

use crate::background::tasks::{counted, duration_in_words};

/// The account in lines.
pub(super) fn in_words(account: &Account) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(said) = counted_from(account) {
        lines.push(said);
    }
    for (axis, extents) in ["x", "y", "z"].into_iter().zip(&account.extents) {
        lines.push(match extents.as_slice() {
            [] => format!("It never names {axis}."),
            extents => format!("Along {axis}: {}.", all_between(extents)),
        });
    }
    match account.cut_heights.as_slice() {
        [] => lines.push("It never cuts.".to_owned()),
        heights => lines.push(format!(
            "It cuts {:.1} mm of path at heights of {}, and moves {:.1} mm as fast as the machine can.",
            account.cut_mm,
            all_between(heights),
            account.rapid_mm
        )),
    }
    if !account.cycles.is_empty() {
        let cycles = account.cycles.iter();
        let cycles: Vec<String> = cycles
            .map(|(code, times)| format!("{code} {}", counted(*times as usize, "time", "times")))
            .collect();
        lines.push(format!("Cycles, written out here: {}.", cycles.join(", ")));
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
    if !account.length_offsets.is_empty() {
        let offsets = account.length_offsets.iter();
        let offsets: Vec<String> = offsets.map(|offset| format!("H{offset}")).collect();
        lines.push(format!(
            "Length offsets: {}. Heights are right only if the machine's table of them is.",
            offsets.join(", ")
        ));
    }
    for on in &account.compensations {
        lines.push(format!(
            "From line {} on it runs the cutter of slot {} to the {} of its path, {:.3} mm beside it; places here are those of the cutter's centre.",
            on.line, on.slot, on.side, on.radius_mm
        ));
    }
    if !account.zero_changes.is_empty() {
        let changes = account.zero_changes.iter();
        let changes: Vec<String> = changes
            .map(|(code, line)| format!("{code} in line {line}"))
            .collect();
        lines.push(format!("It moves zeros: {}.", changes.join(", ")));
    }
    match account.coolant {
        [false, false] => {}
        [true, false] => lines.push("It turns mist coolant on.".to_owned()),
        [false, true] => lines.push("It turns flood coolant on.".to_owned()),
        [true, true] => lines.push("It turns mist and flood coolant on.".to_owned()),
    }
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
    let messages = account.messages.iter();
    lines.extend(messages.map(|message| format!("It says to the operator: {message}")));
    let doubts = account.doubts.iter();
    lines.extend(doubts.map(|doubt| format!("Not judged, {doubt}.")));
    lines.extend(
        account
            .remarks
            .iter()
            .map(|remark| format!("Look at {remark}.")),
    );
    lines
}

/// What the numbers are counted from, unless it is G54's zero alone.
fn counted_from(account: &Account) -> Option<String> {
    let datums = account.datums();
    let names: Vec<String> = datums.iter().map(ToString::to_string).collect();
    match datums.as_slice() {
        [] | [Datum::Work(1)] => None,
        [_] => Some(format!("All places are counted from {}.", names.concat())),
        [_, ..] => Some(format!(
            "Places are counted from {}; only the machine knows how far apart these lie.",
            names.join(", ")
        )),
    }
}

/// The ranges; what they are counted from is said where there are several.
fn all_between(extents: &[Extent]) -> String {
    let said: Vec<String> = extents
        .iter()
        .map(|extent| match extents.len() {
            1 => between(extent.range, "mm"),
            _ => format!("{} from {}", between(extent.range, "mm"), extent.datum),
        })
        .collect();
    said.join(", ")
}

fn between(range: Range, unit: &str) -> String {
    if range.least == range.most {
        format!("{:.3} {unit}", range.least)
    } else {
        format!("{:.3} to {:.3} {unit}", range.least, range.most)
    }
}

/// The account for programs. `extent_mm` and `cut_heights_mm` are counted from the first datum of their axis; `extents` has all.
pub(super) fn account_json(account: &Account) -> Value {
    let range = |range: Option<Range>| range.map(|range| [range.least, range.most]);
    let first = |extents: &[Extent]| range(extents.first().map(|extent| extent.range));
    let extents: Vec<Value> = ["x", "y", "z"]
        .into_iter()
        .zip(&account.extents)
        .flat_map(|(axis, extents)| {
            extents.iter().map(move |extent| {
                json!({
                    "axis": axis,
                    "counted_from": extent.datum.to_string(),
                    "mm": [extent.range.least, extent.range.most],
                })
            })
        })
        .collect();
    let cycles: serde_json::Map<String, Value> = account
        .cycles
        .iter()
        .map(|(code, times)| ((*code).to_owned(), json!(times)))
        .collect();
    let changes: Vec<Value> = account
        .zero_changes
        .iter()
        .map(|(code, line)| json!({ "code": code, "line": line }))
        .collect();
    let compensations: Vec<Value> = account
        .compensations
        .iter()
        .map(|on| {
            json!({
                "line": on.line,
                "side": on.side.to_string(),
                "slot": on.slot,
                "radius_mm": on.radius_mm,
            })
        })
        .collect();
    let remarks: Vec<String> = account.remarks.iter().map(ToString::to_string).collect();
    let doubts: Vec<String> = account.doubts.iter().map(ToString::to_string).collect();
    json!({
        "accepted": true,
        "extent_mm": account.extents.each_ref().map(|extents| first(extents)),
        "extents": extents,
        "cut_heights_mm": first(&account.cut_heights),
        "feeds_mm_min": range(account.feeds),
        "speeds_rpm": range(account.speeds),
        "cutters": account.cutters,
        "length_offsets": account.length_offsets,
        "compensations": compensations,
        "cycles": cycles,
        "zero_changes": changes,
        "coolant": { "mist": account.coolant[0], "flood": account.coolant[1] },
        "cut_mm": account.cut_mm,
        "rapid_mm": account.rapid_mm,
        "seconds": account.seconds,
        "pauses": account.pauses,
        "messages": account.messages,
        "units_stated": account.units_stated,
        "not_judged": doubts,
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

    #[test]
    fn zeros_cycles_and_what_is_left_open_are_told() {
        let text =
            "G21 F60 S900 M3 G0 X0 Y0 Z5\nG81 X10 Z-2 R1 L2\nG80\nG55 G0 X3\nG92 X0\nM7\nM2\n";
        let account = Account::of(&read(text).unwrap(), &Workshop::starting().machine);
        let said = in_words(&account).join("\n");
        for words in [
            "counted from the zero of G54, the zero of G55; only the machine",
            "3.000 mm from the zero of G55",
            "G81 2 times",
            "moves zeros: G92 in line 5",
            "mist coolant",
            "Not judged, line 2",
        ] {
            assert!(said.contains(words), "{words} is not in {said}");
        }
        let told = account_json(&account);
        assert_eq!(told["cycles"]["G81"], 2);
        assert_eq!(told["extent_mm"][0][1], 10.0);
        assert_eq!(told["extents"][1]["counted_from"], "the zero of G55");
    }
}
