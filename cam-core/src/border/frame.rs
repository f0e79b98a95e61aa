//! A border set round a frame: which unit stands where, how each side is filled, and how neighbours meet.

use std::collections::BTreeMap;
use std::fmt;

use kurbo::{Point, Rect};
use said::{Joint, Said, Value};

use super::fill::{Fill, fill};
use super::joins::{Meeting, Shape, meeting};
use crate::commission::{Border, Measured};
use crate::finding::texts;
use crate::measure::{Length, System};

/// The sides of a frame, clockwise as printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SideOf {
    /// Along the head, from left to right.
    Head,
    /// Down the right side.
    Right,
    /// Along the foot, from right to left.
    Foot,
    /// Up the left side.
    Left,
}

impl SideOf {
    /// All, clockwise from the head.
    pub const ALL: [SideOf; 4] = [SideOf::Head, SideOf::Right, SideOf::Foot, SideOf::Left];

    /// In words.
    pub const fn name(self) -> &'static str {
        match self {
            SideOf::Head => "head",
            SideOf::Right => "right side",
            SideOf::Foot => "foot",
            SideOf::Left => "left side",
        }
    }

    /// With its article, in a sentence of any language.
    pub(super) fn said(self) -> Said {
        match self {
            SideOf::Head => texts::the_head(),
            SideOf::Right => texts::the_right_side(),
            SideOf::Foot => texts::the_foot(),
            SideOf::Left => texts::the_left_side(),
        }
    }

    const fn quarters(self) -> u8 {
        self as u8
    }

    const fn is_level(self) -> bool {
        matches!(self, SideOf::Head | SideOf::Foot)
    }
}

/// A border set round a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Frame {
    /// Width and height from outer edge to outer edge, in millimetres.
    pub size_mm: [f64; 2],
    /// The room inside, in millimetres.
    pub inside_mm: [f64; 2],
    /// Everything that stands round it, clockwise from the upper left corner; as printed, from the frame's lower-left corner.
    pub units: Vec<Unit>,
    /// What fills each side, clockwise from the head.
    pub sides: [Side; 4],
    /// The different joins, in the order in which they come.
    pub joins: Vec<Join>,
    /// How many of each sort one frame takes, in the order in which they come.
    pub counts: Vec<(String, u32)>,
}

/// Something that stands in a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Unit {
    /// The sort, by name; `None` for spacing material.
    pub sort: Option<String>,
    /// By how many quarters of a turn it is turned clockwise.
    pub turned: u8,
    /// Where it lies.
    pub place: Rect,
}

/// One side of a frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Side {
    /// Which.
    pub of: SideOf,
    /// The running pieces by name, as they stand.
    pub pieces: Vec<String>,
    /// How they fill it.
    pub fill: Fill,
    /// The nearest sizes of the frame that whole units fill exactly, along this side and as the border is measured, in millimetres.
    pub nearest_mm: [f64; 2],
}

/// A join between two units, wherever it comes.
#[derive(Clone, Debug, PartialEq)]
pub struct Join {
    /// The two sorts, by name, clockwise.
    pub sorts: [String; 2],
    /// The side along which it first comes, and after which of the side's units, the corner being the first.
    pub first: (SideOf, usize),
    /// How often it comes in one frame.
    pub times: u32,
    /// Where it comes, each time: the outer end of the edge that both share, from the frame's lower-left corner.
    pub places: Vec<Point>,
    /// How the ink meets.
    pub meeting: Meeting,
}

/// Why a border cannot be set.
#[derive(Clone, Debug, PartialEq)]
pub enum BorderError {
    /// A unit is not made.
    NoUnit {
        /// The border.
        border: String,
        /// The unit, by name.
        unit: String,
    },
    /// A corner is smaller than what comes to it.
    SmallCorner {
        /// The border.
        border: String,
        /// The corner, by name.
        corner: String,
        /// The side.
        side: SideOf,
    },
    /// The corners alone are longer than a side, or no number of units fills it.
    NoFill {
        /// The border.
        border: String,
        /// The side.
        side: SideOf,
        /// The room between the corners, in points.
        room_pt: f64,
        /// The lengths of the pieces, in points.
        lengths_pt: Vec<f64>,
    },
}

impl BorderError {
    /// What is wrong, in a sentence.
    pub fn said(&self) -> Said {
        match self {
            BorderError::NoUnit { border, unit } => texts::border_without_unit(border, unit),
            BorderError::SmallCorner {
                border,
                corner,
                side,
            } => texts::corner_too_small(corner, border, side.said()),
            BorderError::NoFill {
                border,
                side,
                room_pt,
                lengths_pt,
            } => {
                let lengths = lengths_pt.iter().map(|length| Value::plain(*length, 2));
                let lengths = Value::list(lengths, Joint::Comma);
                let room = Value::rounded(*room_pt, 2);
                texts::side_not_filled(bare(*side), border, room, lengths)
            }
        }
    }
}

/// A side without its article.
fn bare(side: SideOf) -> Said {
    match side {
        SideOf::Head => texts::bare_head(),
        SideOf::Right => texts::bare_right_side(),
        SideOf::Foot => texts::bare_foot(),
        SideOf::Left => texts::bare_left_side(),
    }
}

impl fmt::Display for BorderError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.said().fmt(out)
    }
}

impl std::error::Error for BorderError {}

/// A unit as it stands along one side, seen with that side at the head.
#[derive(Clone)]
struct Standing {
    name: String,
    /// Quarters of a turn from how it is drawn to how it stands in the frame.
    turned: u8,
    shape: Shape,
}

/// Sets a border round its frame from the shapes of the sorts by name.
///
/// # Errors
/// A unit is missing, corners are too small, or a side cannot be filled.
pub fn frame(
    border: &Border,
    shapes: &BTreeMap<String, Shape>,
    system: System,
) -> Result<Frame, BorderError> {
    let setter = Setter {
        border,
        shapes,
        system,
    };
    let [head, right, foot, left] = SideOf::ALL.map(|side| setter.kinds(side));
    let kinds = [head?, right?, foot?, left?];
    let thick = |side: SideOf| {
        let kinds = kinds[usize::from(side.quarters())].iter();
        kinds.map(|kind| kind.shape.body_mm).fold(0.0, f64::max)
    };
    let both = [
        thick(SideOf::Left) + thick(SideOf::Right),
        thick(SideOf::Head) + thick(SideOf::Foot),
    ];
    let asked = [border.width.in_mm(), border.height.in_mm()];
    let (size_mm, inside_mm) = match border.measured {
        Measured::Outside => (asked, [asked[0] - both[0], asked[1] - both[1]]),
        Measured::Inside => ([asked[0] + both[0], asked[1] + both[1]], asked),
    };
    let of = |side: SideOf| &kinds[usize::from(side.quarters())];
    let [head, right, foot, left] = SideOf::ALL.map(|side| setter.row(side, of(side), size_mm));
    let rows = [head?, right?, foot?, left?];
    let mut units = Vec::new();
    let mut joins: Vec<Join> = Vec::new();
    for (side, row) in SideOf::ALL.into_iter().zip(&rows) {
        setter.join(side, row, size_mm, &mut joins);
        units.extend(row.placed(side, size_mm));
    }
    let sides = SideOf::ALL.map(|side| {
        let row = &rows[usize::from(side.quarters())];
        setter.side(side, of(side), row, asked, size_mm)
    });
    let mut counts: Vec<(String, u32)> = Vec::new();
    for name in units.iter().filter_map(|unit: &Unit| unit.sort.as_ref()) {
        match counts.iter_mut().find(|(known, _)| known == name) {
            Some((_, count)) => *count += 1,
            None => counts.push((name.clone(), 1)),
        }
    }
    Ok(Frame {
        size_mm,
        inside_mm,
        units,
        sides,
        joins,
        counts,
    })
}

struct Setter<'a> {
    border: &'a Border,
    shapes: &'a BTreeMap<String, Shape>,
    system: System,
}

/// What stands along one side: its corner, what runs, and the next corner.
struct Row {
    first: Standing,
    running: Vec<Standing>,
    last: Standing,
    fill: Fill,
    /// Spacing before and after what runs, in millimetres.
    spacing_mm: [f64; 2],
}

impl Setter<'_> {
    fn standing(&self, name: &str, turned: u8, side: SideOf) -> Result<Standing, BorderError> {
        let shape = self.shapes.get(name).ok_or_else(|| BorderError::NoUnit {
            border: self.border.id.clone(),
            unit: name.to_owned(),
        })?;
        Ok(Standing {
            name: name.to_owned(),
            turned,
            shape: shape.turned((turned + 4 - side.quarters()) % 4),
        })
    }

    /// The kinds of piece that run along a side.
    fn kinds(&self, side: SideOf) -> Result<Vec<Standing>, BorderError> {
        let sides = &self.border.sides;
        let (names, turned) = match side {
            SideOf::Head | SideOf::Foot => (&self.border.running, side.quarters()),
            SideOf::Left | SideOf::Right if sides.is_empty() => {
                (&self.border.running, side.quarters())
            }
            // They are drawn as they stand at the left.
            SideOf::Left => (sides, 0),
            SideOf::Right => (sides, 2),
        };
        let kinds = names.iter().map(|name| self.standing(name, turned, side));
        kinds.collect()
    }

    /// The corner at which a side begins, seen from the side `seen`.
    fn corner(&self, side: SideOf, seen: SideOf) -> Result<Standing, BorderError> {
        let place = usize::from(side.quarters());
        let (name, turned) = match self.border.corners.as_slice() {
            [one] => (one.as_str(), side.quarters()),
            corners => (corners.get(place).map_or("", String::as_str), 0),
        };
        self.standing(name, turned, seen)
    }

    fn row(&self, side: SideOf, kinds: &[Standing], size_mm: [f64; 2]) -> Result<Row, BorderError> {
        let next = SideOf::ALL[usize::from(side.quarters() + 1) % 4];
        let first = self.corner(side, side)?;
        let last = self.corner(next, side)?;
        let whole_mm = if side.is_level() {
            size_mm[0]
        } else {
            size_mm[1]
        };
        for (corner, kind) in [&first, &last]
            .into_iter()
            .flat_map(|corner| kinds.iter().map(move |kind| (corner, kind)))
        {
            if kind.shape.body_mm > corner.shape.body_mm + NOTHING_MM {
                return Err(BorderError::SmallCorner {
                    border: self.border.id.clone(),
                    corner: corner.name.clone(),
                    side,
                });
            }
        }
        let room_mm = whole_mm - first.shape.set_mm - last.shape.set_mm;
        let lengths: Vec<f64> = kinds
            .iter()
            .map(|kind| self.points(kind.shape.set_mm))
            .collect();
        let room_pt = self.points(room_mm);
        let fill = fill(room_pt, &lengths).ok_or_else(|| BorderError::NoFill {
            border: self.border.id.clone(),
            side,
            room_pt,
            lengths_pt: lengths.clone(),
        })?;
        let running: Vec<Standing> = fill
            .pieces
            .iter()
            .filter_map(|&kind| kinds.get(kind).cloned())
            .collect();
        let rest_mm = Length::points_of(fill.rest_pt, self.system).in_mm();
        // Half at each end if spacing comes in halves.
        let spacing_mm = match crate::material::pieces(fill.rest_pt / 2.0) {
            Some(_) => [rest_mm / 2.0; 2],
            None => [0.0, rest_mm],
        };
        Ok(Row {
            first,
            running,
            last,
            fill,
            spacing_mm,
        })
    }

    fn points(&self, mm: f64) -> f64 {
        mm / Length::points_of(1.0, self.system).in_mm()
    }

    /// The side as the maker reads it.
    fn side(
        &self,
        side: SideOf,
        kinds: &[Standing],
        row: &Row,
        asked: [f64; 2],
        size_mm: [f64; 2],
    ) -> Side {
        let axis = usize::from(!side.is_level());
        // As measured: the corners, and what an inside measure leaves out.
        let besides_mm =
            row.first.shape.set_mm + row.last.shape.set_mm + asked[axis] - size_mm[axis];
        let pieces = row.fill.pieces.iter();
        let pieces = pieces.filter_map(|&kind| Some(kinds.get(kind)?.name.clone()));
        Side {
            of: side,
            pieces: pieces.collect(),
            nearest_mm: row
                .fill
                .nearest_pt
                .map(|room| Length::points_of(room, self.system).in_mm() + besides_mm),
            fill: row.fill.clone(),
        }
    }

    /// Adds the joins along a side that were not met before.
    fn join(&self, side: SideOf, row: &Row, size_mm: [f64; 2], joins: &mut Vec<Join>) {
        let standing: Vec<&Standing> = std::iter::once(&row.first)
            .chain(&row.running)
            .chain(std::iter::once(&row.last))
            .collect();
        let [before_mm, after_mm] = row.spacing_mm;
        let mut along_mm = 0.0;
        for (place, pair) in standing.windows(2).enumerate() {
            along_mm += pair[0].shape.set_mm;
            // Spacing parts them.
            let is_parted =
                (place == 0 && before_mm > 0.0) || (place + 2 == standing.len() && after_mm > 0.0);
            if is_parted {
                along_mm += if place == 0 { before_mm } else { 0.0 };
                continue;
            }
            let outer = outer_place(side, size_mm, along_mm);
            let sorts = [pair[0].name.clone(), pair[1].name.clone()];
            let found = meeting(
                &pair[0].shape,
                &pair[1].shape,
                self.border.tolerance.in_mm(),
            );
            match joins
                .iter_mut()
                .find(|join| join.sorts == sorts && join.meeting == found)
            {
                Some(join) => {
                    join.times += 1;
                    join.places.push(outer);
                }
                None => joins.push(Join {
                    sorts,
                    first: (side, place + 1),
                    times: 1,
                    places: vec![outer],
                    meeting: found,
                }),
            }
        }
    }
}

impl Row {
    /// What stands along the side but for its last corner, which is the first of the next.
    fn placed(&self, side: SideOf, size_mm: [f64; 2]) -> Vec<Unit> {
        let mut units = Vec::new();
        let mut from = 0.0;
        let mut add = |sort: Option<&Standing>, length_mm: f64, body_mm: f64| {
            if length_mm > 0.0 {
                units.push(Unit {
                    sort: sort.map(|sort| sort.name.clone()),
                    turned: sort.map_or(0, |sort| sort.turned),
                    place: in_frame(side, size_mm, [from, from + length_mm], body_mm),
                });
            }
            from += length_mm;
        };
        let thick = self.running.iter().map(|unit| unit.shape.body_mm);
        let thick_mm = thick.fold(0.0, f64::max);
        let [before_mm, after_mm] = self.spacing_mm;
        let corner = &self.first;
        add(Some(corner), corner.shape.set_mm, corner.shape.body_mm);
        add(None, before_mm, thick_mm);
        for unit in &self.running {
            add(Some(unit), unit.shape.set_mm, unit.shape.body_mm);
        }
        add(None, after_mm, thick_mm);
        units
    }
}

/// Lengths that differ by less are arithmetic, not wood, in millimetres.
const NOTHING_MM: f64 = 1e-6;

/// A stretch along a side, as deep as a body, from the frame's lower-left corner.
fn in_frame(side: SideOf, [width, height]: [f64; 2], [from, to]: [f64; 2], body: f64) -> Rect {
    match side {
        SideOf::Head => Rect::new(from, height - body, to, height),
        SideOf::Right => Rect::new(width - body, height - to, width, height - from),
        SideOf::Foot => Rect::new(width - to, 0.0, width - from, body),
        SideOf::Left => Rect::new(0.0, from, body, to),
    }
}

/// A place on the outer edge, so far along a side.
fn outer_place(side: SideOf, [width, height]: [f64; 2], along_mm: f64) -> Point {
    match side {
        SideOf::Head => Point::new(along_mm, height),
        SideOf::Right => Point::new(width, height - along_mm),
        SideOf::Foot => Point::new(width - along_mm, 0.0),
        SideOf::Left => Point::new(0.0, along_mm),
    }
}

impl Join {
    /// Whether the ink goes on from one to the other, within the border's tolerance.
    pub fn meets(&self) -> bool {
        match &self.meeting {
            Meeting::Apart(_) => false,
            Meeting::Joined(misfits) => misfits.is_empty(),
        }
    }
}

impl Unit {
    /// The unit's lower-left corner.
    pub fn at(&self) -> Point {
        self.place.origin()
    }
}
