//! What a paper says, before it is laid out: the same sheet becomes pages and plain text.

use super::drawing::Drawing;

/// A paper.
#[derive(Clone, Debug, Default)]
pub struct Sheet {
    /// File name without its ending.
    pub file: &'static str,
    /// What it is: "Setup sheet".
    pub name: &'static str,
    /// What stands below the name in a few lines: label and value.
    pub facts: Vec<(&'static str, String)>,
    /// Its contents, from the head down.
    pub pieces: Vec<Piece>,
    /// Whether it serves as plain text too.
    pub as_text: bool,
}

/// A part of a paper.
#[derive(Clone, Debug)]
pub enum Piece {
    /// A title that begins a page of its own.
    Part(String),
    /// A heading beside what follows, or above it where that takes the whole width.
    Heading(String),
    /// A paragraph.
    Text(String),
    /// A point of a list.
    Point(String),
    /// A sentence that must not be passed over.
    Loud(String),
    /// Labels and values.
    Facts(Vec<(String, String)>),
    /// A table.
    Table(Table),
    /// One drawing over the whole width.
    Drawing(Figure),
    /// A drawing at the side, and small ones beside it.
    Details {
        /// At the side.
        side: Figure,
        /// The small ones.
        details: Vec<Figure>,
    },
    /// Lines to be filled in by hand, each after its label.
    ToFill(Vec<&'static str>),
    /// A rule between parts that need no page of their own.
    Rule,
}

/// A drawing with the words that belong to it.
#[derive(Clone, Debug, Default)]
pub struct Figure {
    /// The drawing, true to size.
    pub drawing: Drawing,
    /// At what scale it is shown: 0.5 is half of its true size.
    pub scale: f64,
    /// Below it, line by line.
    pub words: Vec<String>,
    /// What it shows, where there are no pictures; empty if the paper needs no words for it.
    pub told: String,
}

/// A table.
#[derive(Clone, Debug, Default)]
pub struct Table {
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows.
    pub rows: Vec<Row>,
    /// Whether it takes the room of the headings too.
    pub wide: bool,
    /// How many stretches of it stand beside one another; 1 of most tables.
    pub stretches: usize,
}

/// A column of a table.
#[derive(Clone, Debug)]
pub struct Column {
    /// Its head.
    pub head: &'static str,
    /// Where its cells stand.
    pub side: Side,
    /// How wide it is.
    pub width: Width,
}

/// Where words stand in their column.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Side {
    /// At the left.
    #[default]
    Left,
    /// At the right, as figures do.
    Right,
}

/// How wide a column is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Width {
    /// As wide as its widest cell, as long as there is room.
    Fit,
    /// A share of what the others leave.
    Share,
    /// So many mm.
    Mm(f64),
}

/// A row of a table.
#[derive(Clone, Debug)]
pub struct Row {
    /// One for each column.
    pub cells: Vec<Cell>,
    /// What kind of row.
    pub kind: RowKind,
}

/// A kind of row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RowKind {
    /// One of many.
    Plain,
    /// A name for the rows that follow; its first cell runs over all columns.
    Group,
    /// A sum.
    Sum,
}

/// A cell of a table.
#[derive(Clone, Debug)]
pub enum Cell {
    /// Words.
    Words(String),
    /// Words that are looked for first.
    Strong(String),
    /// A small drawing, shown at a scale.
    Drawing(Drawing, f64),
    /// Room for a reading.
    Blank,
    /// A box to be ticked.
    Tick,
}

impl Cell {
    /// What it says in words; nothing of drawings.
    pub fn words(&self) -> &str {
        match self {
            Cell::Words(words) | Cell::Strong(words) => words,
            Cell::Drawing(..) => "",
            Cell::Blank => "____",
            Cell::Tick => "[ ]",
        }
    }
}

impl Column {
    /// A column of words at the left.
    pub const fn left(head: &'static str, width: Width) -> Column {
        Column {
            head,
            side: Side::Left,
            width,
        }
    }

    /// A column of figures at the right.
    pub const fn right(head: &'static str, width: Width) -> Column {
        Column {
            head,
            side: Side::Right,
            width,
        }
    }
}

impl Row {
    /// One of many.
    pub fn plain(cells: Vec<Cell>) -> Row {
        Row {
            cells,
            kind: RowKind::Plain,
        }
    }

    /// A name for the rows that follow.
    pub fn group(name: impl Into<String>) -> Row {
        Row {
            cells: vec![Cell::Strong(name.into())],
            kind: RowKind::Group,
        }
    }

    /// A sum.
    pub fn sum(cells: Vec<Cell>) -> Row {
        Row {
            cells,
            kind: RowKind::Sum,
        }
    }
}

impl Table {
    /// A table in the room beside the headings.
    pub fn new(columns: Vec<Column>, rows: Vec<Row>) -> Table {
        Table {
            columns,
            rows,
            wide: false,
            stretches: 1,
        }
    }

    /// The same over the whole width, in so many stretches beside one another.
    pub fn over_all(self, stretches: usize) -> Table {
        Table {
            wide: true,
            stretches: stretches.max(1),
            ..self
        }
    }
}

impl Piece {
    /// A paragraph.
    pub fn text(words: impl Into<String>) -> Piece {
        Piece::Text(words.into())
    }

    /// A heading.
    pub fn heading(words: impl Into<String>) -> Piece {
        Piece::Heading(words.into())
    }
}

/// A cell of words.
pub fn words(text: impl Into<String>) -> Cell {
    Cell::Words(text.into())
}

/// A cell of words that are looked for first.
pub fn strong(text: impl Into<String>) -> Cell {
    Cell::Strong(text.into())
}
