//! Words of the standard that our writer never uses: the cuts are judged by where they lead, and whatever moves a zero is refused.

use std::fmt::Write as _;

use super::workpiece::Workpiece;
use super::*;

/// The kinds of stops after the first motion to a place is followed by other lines.
fn stops_after(lines: &str) -> Vec<&'static str> {
    let mut piece = Workpiece::sound();
    piece.spoil("faces.ngc", |text| {
        let at = text.find("G0 X").expect("it moves to a place");
        let end = at + text[at..].find('\n').expect("lines end") + 1;
        format!("{}{lines}\n{}", &text[..end], &text[end..])
    });
    let found = findings(&piece.job, &piece.programs);
    let stops = found
        .iter()
        .filter(|finding| finding.severity == Severity::Stop);
    stops.map(|finding| finding.kind).collect()
}

#[test]
fn what_moves_a_zero_or_leaves_a_place_open_is_refused() {
    for (lines, kind) in [
        ("G55", "program-other-zero"),
        ("G53 G0 Z0", "program-other-zero"),
        ("G28", "program-other-zero"),
        ("G30 Z5", "program-other-zero"),
        ("G43 H1", "program-other-zero"),
        ("G10 L2 P1 X5", "program-other-zero"),
        ("G10 L2 P1 X5", "program-moves-zero"),
        ("G10 L2 P2 X5", "program-moves-zero"),
        ("G92 X1", "program-moves-zero"),
        ("G92.1", "program-moves-zero"),
        ("G92.3", "program-moves-zero"),
        ("G38.2 Z3.5 F100", "program-left-open"),
        ("G81 X20 Y20 Z3 R3.5 F200\nG80", "program-left-open"),
        ("G41 D1", "program-unreadable"),
        ("G42 D0", "program-unreadable"),
        ("#1=[1/0]", "program-unreadable"),
    ] {
        let found = stops_after(lines);
        assert!(found.contains(&kind), "{lines}: {found:?}");
    }
}

#[test]
fn cuts_are_judged_wherever_other_words_lead() {
    // A shifted zero moves every cut after it, and a cycle drills into the letter.
    let of_zero_or_time = ["program-moves-zero", "time-differs"];
    for lines in ["G92 X12", "G99 G81 X9.2 Y9.2 Z-2 R4 F200\nG80"] {
        let found = stops_after(lines);
        let by_cut = found.iter().any(|kind| !of_zero_or_time.contains(kind));
        assert!(by_cut, "{lines}: {found:?}");
    }
}

/// The program with every place after the first told as an increment.
fn in_increments(text: &str) -> String {
    let (mut at, mut out) = ([None; 3], String::new());
    for line in text.lines() {
        let words: Vec<String> = line
            .split(' ')
            .map(|word| {
                let axis = word.chars().next().and_then(|letter| "XYZ".find(letter));
                let (Some(axis), Ok(value)) = (axis, word[1..].parse::<f64>()) else {
                    return word.to_owned();
                };
                let before: f64 = at[axis].replace(value).unwrap_or_default();
                format!("{}{:.3}", &word[..1], value - before)
            })
            .collect();
        // The first places of x, y and z are told as they are, while increments are off.
        let told = at.iter().all(Option::is_some);
        let line = if told {
            words.join(" ")
        } else {
            line.to_owned()
        };
        writeln!(out, "{line}").expect("writing to a String cannot fail");
        if told && !out.contains("G91") {
            out += "G91\n";
        }
    }
    out
}

#[test]
fn the_same_cuts_in_other_words_are_accepted() {
    type Change = fn(&str) -> String;
    let changes: [(&str, Change); 2] = [
        ("increments", in_increments),
        ("parameters", |text| {
            format!("#1=900 #2=[200/2]\n{text}")
                .replace("F900", "F#1")
                .replace("F200", "F[#2*2]")
        }),
    ];
    for (name, change) in changes {
        let mut piece = Workpiece::sound();
        piece.spoil("faces.ngc", change);
        assert_ne!(piece.programs, Workpiece::sound().programs, "{name}");
        assert_eq!(findings(&piece.job, &piece.programs), Vec::new(), "{name}");
    }
}
