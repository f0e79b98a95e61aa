//! Sorts as papers show them: in groups, named, and drawn.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use kurbo::{Affine, Point, Rect};

use super::drawing::{BLOCK, Drawing, EDGE, FACE, INK, RULE, ring};
use crate::proof::impression::Colour;
use crate::sort::Sort;
use crate::space::FaceFromReading;

/// What kind of sort it is; papers list them in this order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    Capitals,
    LowerCase,
    Figures,
    Points,
    Ligatures,
    Ornaments,
    Spaces,
}

impl Kind {
    /// The kind of a sort, by what it prints.
    pub fn of(sort: &Sort) -> Kind {
        if sort.block.plain {
            return Kind::Spaces;
        }
        let mut characters = sort.text.chars();
        match (characters.next(), characters.next()) {
            (None, _) => Kind::Ornaments,
            (Some(_), Some(_)) => Kind::Ligatures,
            (Some(one), None) if one.is_uppercase() => Kind::Capitals,
            (Some(one), None) if one.is_alphabetic() => Kind::LowerCase,
            (Some(one), None) if one.is_numeric() => Kind::Figures,
            (Some(one), None) if is_ornament(one) => Kind::Ornaments,
            (Some(_), None) => Kind::Points,
        }
    }

    /// What papers call it.
    pub const fn name(self) -> &'static str {
        match self {
            Kind::Capitals => "Capitals",
            Kind::LowerCase => "Lower-case",
            Kind::Figures => "Figures",
            Kind::Points => "Points and signs",
            Kind::Ligatures => "Ligatures",
            Kind::Ornaments => "Ornaments",
            Kind::Spaces => "Spaces and quads",
        }
    }
}

/// Arrows, boxes, shapes and dingbats of Unicode (blocks from U+2190 to U+27BF, without those of mathematics).
fn is_ornament(character: char) -> bool {
    matches!(u32::from(character), 0x2190..=0x21FF | 0x2300..=0x27BF | 0x1F000..=0x1FAFF)
}

/// A group of sorts of one plate, face and kind, by their places in the list of sorts.
pub struct Group {
    /// What it is called; with its plate if it has one, and its face where there are several.
    pub name: String,
    /// Its sorts.
    pub sorts: Vec<usize>,
}

/// All sorts in groups: plate by plate in the order of printing, then what is in one colour; face by face in the order of the commission, kind
/// by kind, and in the order of the bill within each.
pub fn groups(sorts: &[Arc<Sort>], faces: &[&str]) -> Vec<Group> {
    grouped(sorts, faces, |sort| {
        let plate = sort.plate.as_ref();
        plate.map_or((usize::MAX, String::new()), |plate| {
            (plate.order, format!(", plate {}", plate.name))
        })
    })
}

/// All letters in groups, each letter in colours once: its first sort stands for all of its plates.
pub fn letters(sorts: &[Arc<Sort>], faces: &[&str]) -> Vec<Group> {
    let mut groups = grouped(sorts, faces, |_| (0, String::new()));
    let mut seen = BTreeSet::new();
    for group in &mut groups {
        group.sorts.retain(|&place| {
            let plate = sorts[place].plate.as_ref();
            plate.is_none_or(|plate| seen.insert(plate.letter.clone()))
        });
    }
    groups
}

fn grouped(
    sorts: &[Arc<Sort>],
    faces: &[&str],
    plate: impl Fn(&Sort) -> (usize, String),
) -> Vec<Group> {
    let mut groups: BTreeMap<((usize, String), usize, Kind), Vec<usize>> = BTreeMap::new();
    for (place, sort) in sorts.iter().enumerate() {
        let face = sort.source.as_ref().map_or(faces.len(), |source| {
            let position = faces.iter().position(|face| *face == source.face);
            position.unwrap_or(faces.len())
        });
        groups
            .entry((plate(sort), face, Kind::of(sort)))
            .or_default()
            .push(place);
    }
    groups
        .into_iter()
        .map(|(((_, plate), face, kind), sorts)| {
            let face = match faces.get(face) {
                Some(face) if faces.len() > 1 => format!(", face {face}"),
                Some(_) | None => String::new(),
            };
            Group {
                name: format!("{}{face}{plate}", kind.name()),
                sorts,
            }
        })
        .collect()
}

/// The ink in which papers show a sort: that of its plate, else black.
pub fn ink(sort: &Sort) -> Colour {
    let plate = sort.plate.as_ref();
    plate.map_or(INK, |plate| Colour::ink(&plate.ink).unwrap_or(INK))
}

/// All sorts of a letter in colours, in the order of printing; the sort alone if it is in one colour.
pub fn layers<'a>(sorts: &'a [Arc<Sort>], of: &'a Sort) -> Vec<&'a Sort> {
    let Some(own) = &of.plate else {
        return vec![of];
    };
    let all = sorts.iter().map(AsRef::as_ref);
    let is_of = |sort: &&Sort| {
        sort.plate
            .as_ref()
            .is_some_and(|plate| plate.letter == own.letter)
    };
    all.filter(is_of).collect()
}

/// The name by which papers speak of a whole letter.
pub fn letter_name(sort: &Sort) -> &str {
    let plate = sort.plate.as_ref();
    plate.map_or(&sort.name, |plate| &plate.letter)
}

/// Reading space from face space, for a block of this set.
pub fn reading_from_face(sort: &Sort) -> Affine {
    Affine::translate((sort.block.set_mm, 0.0)) * FaceFromReading.affine().inverse()
}

/// The block as it prints: its face right-reading within its edges.
pub fn as_printed(sort: &Sort) -> Drawing {
    let mut drawing = framed(sort);
    let to_reading = reading_from_face(sort);
    let edge: Vec<Point> = sort
        .block
        .outline
        .iter()
        .map(|&at| to_reading * at)
        .collect();
    drawing.line(ring(edge), RULE, 0.12);
    drawing.fill(to_reading * sort.outline.clone(), ink(sort));
    drawing
}

/// The block as it lies on the bench, face up: the face is wrong-reading.
pub fn as_cut(sort: &Sort) -> Drawing {
    let mut drawing = framed(sort);
    let edge = ring(sort.block.outline.iter().copied());
    drawing.fill(edge.clone(), BLOCK);
    drawing.fill(sort.outline.clone(), FACE);
    drawing.line(edge, EDGE, 0.15);
    drawing
}

/// Room for the pen at a block's edges, mm of the block.
const AIR_MM: f64 = 0.4;

fn framed(sort: &Sort) -> Drawing {
    let rect = sort.block.rect();
    Drawing::new(Rect::new(rect.x0, rect.y0, rect.x1, rect.y1).inflate(AIR_MM, AIR_MM))
}

/// The scale at which a drawing is no larger than a room, and no larger than life.
pub fn scale_within(drawing: &Drawing, [width, height]: [f64; 2]) -> f64 {
    let frame = drawing.frame;
    let scale = (width / frame.width()).min(height / frame.height());
    if scale.is_finite() {
        scale.clamp(0.0, 1.0)
    } else {
        1.0
    }
}

/// Height of the pictures of sorts in lists, and their greatest width, mm.
const LISTED_MM: [f64; 2] = [9.0, 6.5];

/// A cell with a small picture of what a sort prints; of spaces their outline alone.
pub fn listed(sort: &Sort) -> super::sheet::Cell {
    let drawing = as_printed(sort);
    let scale = scale_within(&drawing, LISTED_MM);
    super::sheet::Cell::Drawing(drawing, scale)
}

/// Width of the column of such pictures, mm.
pub const LISTED_WIDTH_MM: f64 = LISTED_MM[0];

/// The ids of the commission's faces.
pub fn faces<'a>(parts: &super::PaperParts<'a>) -> Vec<&'a str> {
    let faces = parts.commission.faces.iter();
    faces.map(|face| face.id.as_str()).collect()
}
