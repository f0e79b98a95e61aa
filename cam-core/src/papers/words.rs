//! Small words of the papers: headings, times, sizes, wrapped paragraphs.

use said::plain_number;

use super::plain::LINE;
use crate::measure::{Length, System, Unit};

/// A heading, underlined.
pub fn heading(text: &str) -> String {
    format!("\n{text}\n{}\n", "-".repeat(text.chars().count()))
}

/// A time in hours and minutes, rounded up so that none reads 0:00.
pub fn hours(seconds: f64) -> String {
    let minutes = (seconds / 60.0).ceil().max(0.0) as u64;
    format!("{}:{:02}", minutes / 60, minutes % 60)
}

/// A length in millimetres to the micrometre, without idle zeros.
pub fn mm(length: f64) -> String {
    plain_number(length + 0.0, 3)
}

/// A length in millimetres to a hundredth, all decimals written: for columns.
pub fn mm2(length: f64) -> String {
    format!("{:.2}", length + 0.0)
}

/// A length in points of a system, halves, quarters and thirds as fractions, else to a hundredth: for columns and sentences.
pub fn points(length_mm: f64, system: System) -> String {
    let points = Length::mm(length_mm).in_unit(Unit::Point, system);
    let whole = points.floor();
    let part = points - whole;
    const NEAR: f64 = 0.004;
    const FRACTIONS: [(f64, &str); 7] = [
        (0.0, ""),
        (0.25, "¼"),
        (1.0 / 3.0, "⅓"),
        (0.5, "½"),
        (2.0 / 3.0, "⅔"),
        (0.75, "¾"),
        (1.0, ""),
    ];
    for (value, sign) in FRACTIONS {
        if (part - value).abs() < NEAR {
            let whole = if value == 1.0 { whole + 1.0 } else { whole };
            return if whole == 0.0 && !sign.is_empty() {
                format!("{sign} pt")
            } else {
                format!("{whole:.0}{sign} pt")
            };
        }
    }
    format!("{points:.2} pt")
}

/// A plank by its number, such as "Plank 2" of `plank-2`; by its id if it has none.
pub fn plank_name(id: &str) -> String {
    match id.strip_prefix("plank-") {
        Some(number) => format!("Plank {number}"),
        None => format!("Plank {id}"),
    }
}

/// So many of something: `1 block`, `2 blocks`.
pub fn counted(count: usize, one: &str) -> String {
    let end = if count == 1 { "" } else { "s" };
    format!("{count} {one}{end}")
}

/// A text in lines no wider than so many characters; one line at least. Words that are wider are parted.
pub fn wrapped(text: &str, width: usize) -> Vec<String> {
    let width = width.max(1);
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let mut rest: Vec<char> = word.chars().collect();
        while !rest.is_empty() {
            let used = lines.last().map_or(0, |line| line.chars().count());
            let gap = usize::from(used > 0);
            if used + gap + rest.len() > width && used > 0 {
                lines.push(String::new());
                continue;
            }
            let taken: String = rest.drain(..rest.len().min(width)).collect();
            if let Some(line) = lines.last_mut() {
                if gap > 0 {
                    line.push(' ');
                }
                line.push_str(&taken);
            }
        }
    }
    lines
}

/// A paragraph broken into lines, each after the first set in by `inset`; `first` opens it.
pub fn paragraph(first: &str, text: &str, inset: usize) -> String {
    let lines = wrapped(text, LINE - inset.max(first.chars().count()));
    let mut out = String::new();
    for (number, line) in lines.iter().enumerate() {
        let opening = if number == 0 {
            first.to_owned()
        } else {
            " ".repeat(inset)
        };
        out.push_str(format!("{opening}{line}").trim_end());
        out.push('\n');
    }
    out
}
