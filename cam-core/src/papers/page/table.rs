//! Tables: columns as wide as they need, rows over as many pages as they need, heads on each.

use super::super::drawing::{GREY, INK, rectangle};
use super::super::sheet::{Cell, Column, Row, RowKind, Side, Table, Width};
use super::flow::Flow;
use super::head::put;
use super::{LABEL, LEFT_MM, Placed, STRONG, SetWords, Style, TEXT, ascent, hairline, place, rule};
use kurbo::Rect;

/// Text in tables: a little smaller than in paragraphs.
const CELL: Style = Style { size: 9.5, ..TEXT };
const CELL_STRONG: Style = Style {
    size: 9.5,
    ..STRONG
};
/// Between columns, and between stretches that stand beside one another, mm.
const COLUMN_GAP_MM: f64 = 4.0;
const STRETCH_GAP_MM: f64 = 9.0;
/// Room above and below a row's words, mm.
const AIR_MM: f64 = 0.75;
/// Height of a row in which readings are written, mm.
const WRITING_MM: f64 = 7.5;
/// A box to be ticked, mm.
const TICK_MM: f64 = 3.2;
/// The least width of a column of words that gives way to others, mm.
const LEAST_MM: f64 = 14.0;
/// After a table, mm.
const AFTER_MM: f64 = 2.2;

/// A row with its words set.
struct SetRow<'a> {
    row: &'a Row,
    lines: Vec<Vec<SetWords>>,
    high: f64,
}

impl Flow<'_> {
    pub fn table(&mut self, table: &Table) {
        if table.rows.is_empty() {
            return;
        }
        let (left, whole) = if table.wide {
            (LEFT_MM, self.field.whole_mm())
        } else {
            (self.field.main_left(), self.field.main_mm())
        };
        let stretches = table.stretches.max(1);
        let wide = (whole - STRETCH_GAP_MM * (stretches - 1) as f64) / stretches as f64;
        let widths = self.widths(table, wide);
        let rows: Vec<SetRow> = table
            .rows
            .iter()
            .flat_map(|row| self.set_row(row, &table.columns, &widths))
            .collect();
        let heads: Vec<Vec<SetWords>> = table
            .columns
            .iter()
            .zip(&widths)
            .map(|(column, &width)| self.face.lines(column.head, LABEL, width))
            .collect();
        let head_lines = heads.iter().map(Vec::len).max().unwrap_or(0);
        let has_head = table.columns.iter().any(|column| !column.head.is_empty());
        let head_high = if has_head {
            head_lines as f64 * self.lead(LABEL) + self.gap(AIR_MM)
        } else {
            0.0
        };
        let first: f64 = rows.iter().take(2).map(|row| row.high).sum();
        if table.wide {
            self.begin_wide(head_high + first);
        } else {
            self.begin(head_high + first);
        }
        let mut rest: &[SetRow] = &rows;
        while !rest.is_empty() {
            let room = self.room() - head_high;
            let counts = shared(rest, stretches, room);
            let top = self.y;
            let mut lowest = top;
            for (number, &count) in counts.iter().enumerate() {
                let (these, others) = rest.split_at(count);
                rest = others;
                if these.is_empty() {
                    continue;
                }
                let x = left + number as f64 * (wide + STRETCH_GAP_MM);
                self.y = top;
                if has_head {
                    self.heads_of(&heads, (&table.columns, &widths), [x, x + wide], head_lines);
                }
                for row in these {
                    self.row(row, (&table.columns, &widths), [x, x + wide]);
                }
                lowest = lowest.max(self.y);
            }
            self.y = lowest;
            if !rest.is_empty() {
                self.next_page();
            }
        }
        self.down(self.gap(AFTER_MM));
    }

    /// Widths of the columns, together no wider than the table.
    fn widths(&self, table: &Table, wide: f64) -> Vec<f64> {
        let gaps = COLUMN_GAP_MM * table.columns.len().saturating_sub(1) as f64;
        let room = (wide - gaps).max(LEAST_MM);
        let natural = |place: usize, column: &Column| -> f64 {
            let head = self.face.set(column.head, LABEL).width_mm;
            table
                .rows
                .iter()
                .filter(|row| row.kind != RowKind::Group)
                .filter_map(|row| row.cells.get(place))
                .map(|cell| self.natural(cell))
                .fold(head, f64::max)
        };
        let mut widths: Vec<f64> = table
            .columns
            .iter()
            .enumerate()
            .map(|(place, column)| match column.width {
                Width::Mm(width) => width,
                Width::Fit | Width::Share => natural(place, column),
            })
            .collect();
        let gives = |column: &Column| !matches!(column.width, Width::Mm(_));
        // The widest gives way to the next widest, until all fit; each round ends with one more column as wide as others.
        for _ in 0..table.columns.len() {
            let over = widths.iter().sum::<f64>() - room;
            if over <= 0.0 {
                break;
            }
            let giving = |width: f64| {
                table
                    .columns
                    .iter()
                    .zip(&widths)
                    .filter(move |(column, own)| gives(column) && **own >= width - 1e-9)
            };
            let widest = giving(0.0).map(|(_, own)| *own).fold(0.0, f64::max);
            let next = giving(0.0)
                .map(|(_, own)| *own)
                .filter(|own| *own < widest - 1e-9)
                .fold(LEAST_MM.min(widest), f64::max);
            let count = giving(widest).count().max(1) as f64;
            let to = next.max(widest - over / count);
            for (column, own) in table.columns.iter().zip(&mut widths) {
                if gives(column) && *own >= widest - 1e-9 {
                    *own = to;
                }
            }
        }
        let left = room - widths.iter().sum::<f64>();
        let shares = table
            .columns
            .iter()
            .filter(|column| column.width == Width::Share)
            .count();
        if left > 0.0 && shares > 0 {
            for (column, own) in table.columns.iter().zip(&mut widths) {
                if column.width == Width::Share {
                    *own += left / shares as f64;
                }
            }
        }
        widths
    }

    fn natural(&self, cell: &Cell) -> f64 {
        match cell {
            Cell::Words(words) => self.face.set(words, CELL).width_mm,
            Cell::Strong(words) => self.face.set(words, CELL_STRONG).width_mm,
            Cell::Drawing(drawing, scale) => drawing.frame.width() * scale,
            Cell::Blank => LEAST_MM,
            Cell::Tick => TICK_MM,
        }
    }

    /// A row with its words set; several rows where it is higher than half a page.
    fn set_row<'r>(&self, row: &'r Row, columns: &[Column], widths: &[f64]) -> Vec<SetRow<'r>> {
        let whole: f64 =
            widths.iter().sum::<f64>() + COLUMN_GAP_MM * columns.len().saturating_sub(1) as f64;
        let mut lines: Vec<Vec<SetWords>> = row
            .cells
            .iter()
            .zip(widths)
            .map(|(cell, &width)| {
                let width = if row.kind == RowKind::Group {
                    whole
                } else {
                    width
                };
                match cell {
                    Cell::Words(words) if row.kind == RowKind::Sum => {
                        self.face.lines(words, CELL_STRONG, width)
                    }
                    Cell::Words(words) => self.face.lines(words, CELL, width),
                    Cell::Strong(words) => self.face.lines(words, CELL_STRONG, width),
                    Cell::Drawing(..) | Cell::Blank | Cell::Tick => Vec::new(),
                }
            })
            .collect();
        let most = ((self.field.high_mm() / 2.0 / self.lead(CELL)) as usize).max(1);
        let mut rows = Vec::new();
        loop {
            let longer = lines.iter().any(|lines| lines.len() > most);
            let later: Vec<Vec<SetWords>> = lines
                .iter_mut()
                .map(|lines| lines.split_off(lines.len().min(most)))
                .collect();
            let count = lines.iter().map(Vec::len).max().unwrap_or(0);
            let drawn = row.cells.iter().map(least_high).fold(0.0, f64::max);
            let high = (count as f64 * self.lead(CELL)).max(drawn) + 2.0 * self.gap(AIR_MM);
            let high = if row.kind == RowKind::Group {
                high + 1.4
            } else {
                high
            };
            rows.push(SetRow {
                row,
                lines: std::mem::replace(&mut lines, later),
                high,
            });
            if !longer {
                return rows;
            }
        }
    }

    fn heads_of(
        &mut self,
        heads: &[Vec<SetWords>],
        (columns, widths): (&[Column], &[f64]),
        [left, right]: [f64; 2],
        lines: usize,
    ) {
        let mut x = left;
        for ((head, column), &width) in heads.iter().zip(columns).zip(widths) {
            // Short heads stand on the rule.
            let above = (lines - head.len().min(lines)) as f64 * self.lead(LABEL);
            for (number, words) in head.iter().enumerate() {
                let base = self.y + above + number as f64 * self.lead(LABEL) + ascent(LABEL);
                let at = stood(column.side, words.width_mm, [x, x + width]);
                put(self.page(), words.clone(), at, base, GREY);
            }
            x += width + COLUMN_GAP_MM;
        }
        self.down(lines as f64 * self.lead(LABEL) + self.gap(AIR_MM));
        let y = self.y;
        rule(self.page(), [left, right], y, 0.3, INK);
    }

    fn row(
        &mut self,
        set: &SetRow,
        (columns, widths): (&[Column], &[f64]),
        [left, right]: [f64; 2],
    ) {
        let (top, mut x) = (self.y, left);
        let lead = if set.row.kind == RowKind::Group {
            1.4
        } else {
            0.0
        };
        if set.row.kind == RowKind::Sum {
            rule(self.page(), [left, right], top, 0.3, INK);
        }
        let cells = set.row.cells.iter().zip(&set.lines);
        for ((cell, lines), (column, &width)) in cells.zip(columns.iter().zip(widths)) {
            let high = set.high - lead;
            // Words of one line stand in the middle beside drawings and boxes.
            let words_high = lines.len() as f64 * self.lead(CELL);
            let tallest = set.row.cells.iter().map(least_high).fold(0.0, f64::max);
            let words_top = if tallest > words_high {
                top + lead + (high - words_high) / 2.0
            } else {
                top + lead + self.gap(AIR_MM)
            };
            for (number, words) in lines.iter().enumerate() {
                let at = stood(column.side, words.width_mm, [x, x + width]);
                let base = words_top + number as f64 * self.lead(CELL) + ascent(CELL);
                put(self.page(), words.clone(), at, base, INK);
            }
            self.marks(cell, [x, x + width], [top, top + set.high]);
            x += width + COLUMN_GAP_MM;
        }
        self.down(set.high);
        let y = self.y;
        match set.row.kind {
            RowKind::Plain | RowKind::Group => hairline(self.page(), [left, right], y),
            RowKind::Sum => {}
        }
    }

    /// What a cell holds that is no words.
    fn marks(&mut self, cell: &Cell, [left, right]: [f64; 2], [top, foot]: [f64; 2]) {
        match cell {
            Cell::Words(_) | Cell::Strong(_) => {}
            Cell::Drawing(drawing, scale) => {
                let high = drawing.frame.height() * scale;
                let at = [left, (top + foot - high) / 2.0];
                let face = self.face;
                place(self.page(), face, drawing, *scale, at);
            }
            Cell::Blank => self.page().push(Placed::Drawn {
                path: rectangle(Rect::new(left, top + 0.8, right, foot - 0.8)),
                colour: super::RULE,
                width: 0.2,
                broken: false,
            }),
            Cell::Tick => {
                let middle = (top + foot) / 2.0;
                let half = TICK_MM / 2.0;
                self.page().push(Placed::Drawn {
                    path: rectangle(Rect::new(
                        left,
                        middle - half,
                        left + TICK_MM,
                        middle + half,
                    )),
                    colour: INK,
                    width: 0.25,
                    broken: false,
                });
            }
        }
    }
}

/// The least height that a cell asks for, mm.
fn least_high(cell: &Cell) -> f64 {
    match cell {
        Cell::Words(_) | Cell::Strong(_) => 0.0,
        Cell::Drawing(drawing, scale) => drawing.frame.height() * scale,
        Cell::Blank => WRITING_MM,
        Cell::Tick => TICK_MM,
    }
}

fn stood(side: Side, width: f64, [left, right]: [f64; 2]) -> f64 {
    match side {
        Side::Left => left,
        Side::Right => right - width,
    }
}

/// How many rows each stretch takes on a page with so much room: all of them as evenly as can be if they fit, else as many as fit.
/// The first stretch takes at least one, so that every page holds something.
fn shared(rows: &[SetRow], stretches: usize, room: f64) -> Vec<usize> {
    let filled = |height: f64| -> (Vec<usize>, usize) {
        let mut counts = Vec::with_capacity(stretches);
        let mut next = 0;
        for _ in 0..stretches {
            let (from, mut high) = (next, 0.0);
            while let Some(row) = rows.get(next)
                && high + row.high <= height + 1e-9
            {
                high += row.high;
                next += 1;
            }
            // A group's name stays with its first row.
            while next > from + 1 && next < rows.len() && rows[next - 1].row.kind == RowKind::Group
            {
                next -= 1;
            }
            counts.push(next - from);
        }
        (counts, next)
    };
    let (mut counts, taken) = filled(room);
    if taken == 0 {
        counts[0] = 1;
        return counts;
    }
    if taken < rows.len() || stretches == 1 {
        return counts;
    }
    // All fit: the least height at which they still do, to a tenth of a millimetre.
    let (mut low, mut high) = (0.0, room);
    while high - low > 0.1 {
        let middle = f64::midpoint(low, high);
        if filled(middle).1 == rows.len() {
            high = middle;
        } else {
            low = middle;
        }
    }
    filled(high).0
}
