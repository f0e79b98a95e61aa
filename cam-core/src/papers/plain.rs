//! A sheet as plain text: for a screen, a mail, or a printer that knows nothing else.

use super::page::Letterhead;
use super::sheet::{Figure, Piece, Row, RowKind, Sheet, Side, Table};
use super::words::{heading, paragraph, wrapped};

/// Width of a paper's lines, in characters.
pub const LINE: usize = 96;
/// Width of the labels of facts, in characters.
const LABELS: usize = 22;
/// Between columns, in characters.
const GAP: usize = 2;
/// The least width of a column, in characters.
const LEAST: usize = 6;

/// The whole sheet.
pub fn to_text(sheet: &Sheet, letterhead: &Letterhead) -> String {
    let mut text = if letterhead.title.is_empty() {
        paragraph("", sheet.name, 0)
    } else {
        paragraph("", &format!("{}: {}", sheet.name, letterhead.title), 0)
    };
    if !letterhead.warning.is_empty() {
        text += &paragraph("", &letterhead.warning, 0);
    }
    for (label, value) in &sheet.facts {
        text += &fact(label, value);
    }
    for piece in &sheet.pieces {
        text += &one(piece);
    }
    text
}

fn one(piece: &Piece) -> String {
    match piece {
        Piece::Part(words) => {
            let line = "=".repeat(words.chars().count().min(LINE));
            format!("\n\n{}{line}\n", paragraph("", words, 0))
        }
        Piece::Heading(words) => heading(words),
        Piece::Text(words) | Piece::Loud(words) => paragraph("", words, 0),
        Piece::Point(words) => paragraph("- ", words, 2),
        Piece::Facts(facts) => facts
            .iter()
            .map(|(label, value)| fact(label, value))
            .collect(),
        Piece::Table(table) => in_columns(table),
        Piece::Drawing(figure) => told(figure),
        Piece::Details { side, details } => {
            let mut text = told(side);
            for figure in details {
                text += &told(figure);
            }
            text
        }
        Piece::ToFill(labels) => labels
            .iter()
            .map(|label| format!("{label:<LABELS$}________________________\n"))
            .collect(),
        Piece::Rule => format!("\n{}\n", "=".repeat(LINE)),
    }
}

fn told(figure: &Figure) -> String {
    if figure.told.is_empty() {
        String::new()
    } else {
        paragraph("  ", &figure.told, 4)
    }
}

fn fact(label: &str, value: &str) -> String {
    let mut lines = value.split('\n');
    let first = lines.next().unwrap_or_default();
    let mut text = paragraph(&format!("{:<LABELS$}", format!("{label}:")), first, LABELS);
    for line in lines {
        text += &paragraph(&" ".repeat(LABELS), line, LABELS);
    }
    text
}

/// A table in columns that are as wide as their cells, or narrower with several lines where they would not all fit.
fn in_columns(table: &Table) -> String {
    let count = table.columns.len();
    let cell = |row: &Row, place: usize| -> String {
        row.cells
            .get(place)
            .map_or("", |cell| cell.words())
            .to_owned()
    };
    let shown: Vec<usize> = (0..count)
        .filter(|&place| {
            let mut rows = table.rows.iter();
            rows.any(|row| row.kind != RowKind::Group && !cell(row, place).is_empty())
        })
        .collect();
    // What the cells need, which heads may exceed by lines.
    let cells: Vec<usize> = shown
        .iter()
        .map(|&place| {
            let rows = table.rows.iter().filter(|row| row.kind != RowKind::Group);
            let widths = rows.map(|row| cell(row, place).chars().count());
            widths.max().unwrap_or(0)
        })
        .collect();
    let mut widths: Vec<usize> = shown
        .iter()
        .zip(&cells)
        .map(|(&place, &own)| own.max(table.columns[place].head.chars().count()))
        .collect();
    let gaps = GAP * shown.len().saturating_sub(1);
    // The widest head gives way, a character at a time, then the widest column, until all fit or all are narrow.
    while widths.iter().sum::<usize>() + gaps > LINE {
        let by_head = widths.iter().zip(&cells).enumerate();
        let by_head = by_head.filter(|(_, (width, own))| width > own && **width > LEAST);
        let widest = by_head.max_by_key(|(_, (width, _))| **width);
        let widest = widest.map(|(place, _)| place).or_else(|| {
            let all = widths
                .iter()
                .enumerate()
                .filter(|(_, width)| **width > LEAST);
            all.max_by_key(|(_, width)| **width).map(|(place, _)| place)
        });
        match widest {
            Some(place) => widths[place] -= 1,
            None => break,
        }
    }
    let line = |cells: Vec<String>| -> String {
        let lines: Vec<Vec<String>> = cells
            .iter()
            .zip(&widths)
            .map(|(words, &width)| wrapped(words, width))
            .collect();
        let high = lines.iter().map(Vec::len).max().unwrap_or(0);
        let mut text = String::new();
        for number in 0..high {
            let mut row = String::new();
            for ((lines, &width), &place) in lines.iter().zip(&widths).zip(&shown) {
                if !row.is_empty() || place != shown[0] {
                    row.push_str(&" ".repeat(GAP));
                }
                let words = lines.get(number).map_or("", String::as_str);
                let pad = " ".repeat(width.saturating_sub(words.chars().count()));
                match table.columns[place].side {
                    Side::Left => row.extend([words, &pad]),
                    Side::Right => row.extend([pad.as_str(), words]),
                }
            }
            text.push_str(row.trim_end());
            text.push('\n');
        }
        text
    };
    let mut text = String::new();
    if shown
        .iter()
        .any(|&place| !table.columns[place].head.is_empty())
    {
        text += &line(
            shown
                .iter()
                .map(|&place| table.columns[place].head.to_owned())
                .collect(),
        );
    }
    for row in &table.rows {
        match row.kind {
            RowKind::Group => text += &format!("{}\n", cell(row, 0)),
            RowKind::Plain | RowKind::Sum => {
                text += &line(shown.iter().map(|&place| cell(row, place)).collect());
            }
        }
    }
    text + "\n"
}
