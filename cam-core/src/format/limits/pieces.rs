//! Limits of letters cut apart, and of borders.

use super::{Faults, LARGEST_SPACE_MM, LEAST_MM, MOST_BILL_LINES};
use crate::commission::{BillLine, Border, Commission, CutApart, LineWay};
use crate::material::{QUARTERS, WIDEST};
use crate::measure::{Length, System};

/// The most lines that cut one letter apart.
const MOST_LINES_OF_CUT: usize = 20;
/// The most kinds of unit along a side.
const MOST_KINDS: usize = 12;
/// The largest tolerance of joins, in millimetres.
const MOST_TOLERANCE_MM: f64 = 1.0;
/// The most frames that are set at once.
const MOST_FRAMES: u32 = 100;

impl Faults {
    pub(super) fn cut_apart(&mut self, commission: &Commission) {
        self.many("cut_apart", commission.cut_apart.len(), MOST_BILL_LINES);
        for (number, cut) in commission.cut_apart.iter().enumerate() {
            let place = format!("cut_apart[{number}]");
            let sort = BillLine {
                face: cut.face.clone(),
                glyph: cut.glyph.clone(),
                count: 0,
            };
            self.bill_line(&format!("{place}.sort"), &sort, commission);
            let earlier = &commission.cut_apart[..number];
            if earlier
                .iter()
                .any(|other| other.face == cut.face && other.glyph == cut.glyph)
            {
                self.push(
                    &format!("{place}.sort"),
                    "it is cut apart twice; put all lines into one entry",
                );
            }
            self.lines_of_cut(&place, cut);
        }
    }

    fn lines_of_cut(&mut self, place: &str, cut: &CutApart) {
        let lines = format!("{place}.lines");
        if cut.lines.is_empty() {
            self.push(&lines, "it is empty; give one line of cut at least");
        }
        self.many(&lines, cut.lines.len(), MOST_LINES_OF_CUT);
        let is_crossed = [LineWay::Upright, LineWay::Level]
            .iter()
            .all(|way| cut.lines.iter().any(|line| line.way == *way));
        for (number, line) in cut.lines.iter().enumerate() {
            let line_place = format!("{lines}[{number}]");
            let whole = [LEAST_MM, LARGEST_SPACE_MM];
            self.length(&line_place, line.at, whole);
            let same = |other: &&crate::commission::CutLine| {
                other.way == line.way && (other.at.in_mm() - line.at.in_mm()).abs() < LEAST_MM
            };
            if cut.lines[..number].iter().any(|other| same(&other)) {
                self.push(&line_place, "another line lies there; take one out");
            }
            if let Some(middle) = line.middle {
                self.length(&format!("{line_place}.middle"), middle.length, whole);
                self.count(&format!("{line_place}.count"), middle.count);
                if is_crossed {
                    self.push(
                        &format!("{line_place}.middle"),
                        "lines of the other way cross it; a middle piece needs lines of one way alone",
                    );
                }
            }
        }
        if let Some(counts) = &cut.counts {
            let counts_place = format!("{place}.counts");
            if counts.len() != cut.parts() {
                self.push(
                    &counts_place,
                    format!(
                        "it has {} counts, and the lines make {} parts; give one for each",
                        counts.len(),
                        cut.parts()
                    ),
                );
            }
            for &count in counts {
                self.count(&counts_place, count);
            }
        }
    }

    pub(super) fn borders(&mut self, borders: &[Border]) {
        self.many("borders", borders.len(), MOST_BILL_LINES);
        self.ids("borders", borders.iter().map(|border| &border.id));
        let widest = f64::from(WIDEST) / f64::from(QUARTERS);
        let sizes = [LEAST_MM, Length::points_of(widest, System::Pica).in_mm()];
        for (number, border) in borders.iter().enumerate() {
            let place = |key: &str| format!("borders[{number}].{key}");
            if !matches!(border.corners.len(), 1 | 4) {
                self.push(
                    &place("corners"),
                    format!(
                        "it names {}; name one corner, which is turned, or all four",
                        border.corners.len()
                    ),
                );
            }
            if border.running.is_empty() {
                self.push(&place("running"), "it is empty; name a running piece");
            }
            self.many(&place("running"), border.running.len(), MOST_KINDS);
            self.many(&place("sides"), border.sides.len(), MOST_KINDS);
            for (key, names) in [
                ("corners", &border.corners),
                ("running", &border.running),
                ("sides", &border.sides),
            ] {
                for (which, name) in names.iter().enumerate() {
                    self.name(
                        &format!("{}[{which}]", place(key)),
                        name,
                        "a sort of the commission",
                    );
                }
            }
            self.length(&place("width"), border.width, sizes);
            self.length(&place("height"), border.height, sizes);
            self.length(
                &place("tolerance"),
                border.tolerance,
                [LEAST_MM, MOST_TOLERANCE_MM],
            );
            if !(1..=MOST_FRAMES).contains(&border.count) {
                self.push(
                    &place("count"),
                    format!(
                        "found {}; 1 to {MOST_FRAMES} frames are set at once",
                        border.count
                    ),
                );
            }
        }
    }
}
