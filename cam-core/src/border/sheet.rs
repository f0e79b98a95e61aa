//! A frame in ink.

use std::sync::Arc;

use kurbo::Point;

use super::frame::Frame;
use super::joins::Shape;
use crate::proof::impression::{Colour, Fount, Impression, Layer, Piece, SetBlock, Sheet};

/// Paper about the frame, in millimetres: a margin for the eye. Common practice, no source.
pub const PAPER_MM: f64 = 6.0;

/// A frame as its blocks will print, from what the programs leave standing. Units that the fount does not have are missing on it.
pub fn sheet(frame: &Frame, fount: &Fount, ink: Colour, paper: Colour, blocks: bool) -> Sheet {
    let mut turned: Vec<((String, u8), Impression)> = Vec::new();
    let mut set = Vec::new();
    let mut missing = Vec::new();
    for unit in &frame.units {
        let at = unit.at() + Point::new(PAPER_MM, PAPER_MM).to_vec2();
        let Some(name) = &unit.sort else {
            let (set_mm, body_mm) = (unit.place.width(), unit.place.height());
            let piece = Piece::Spacing { set_mm, body_mm };
            set.push(SetBlock { piece, at });
            continue;
        };
        let key = (name.clone(), unit.turned);
        let known = turned.iter().position(|(other, _)| *other == key);
        let place = known.or_else(|| {
            let one = fount.impressions.iter().find(|one| one.name == *name)?;
            turned.push((key, as_turned(one, unit.turned)));
            Some(turned.len() - 1)
        });
        match place {
            Some(place) => set.push(SetBlock {
                piece: Piece::Sort(place),
                at,
            }),
            None if missing.contains(name) => {}
            None => missing.push(name.clone()),
        }
    }
    let [width_mm, height_mm] = frame.size_mm;
    Sheet {
        width_mm: width_mm + 2.0 * PAPER_MM,
        height_mm: height_mm + 2.0 * PAPER_MM,
        paper,
        blocks,
        layers: vec![Layer {
            plate: None,
            fount: Arc::new(Fount {
                plates: Vec::new(),
                impressions: turned.into_iter().map(|(_, one)| one).collect(),
            }),
            ink,
            set,
            missing,
            lines_mm: vec![width_mm],
            closed_mm: vec![0.0],
        }],
    }
}

fn as_turned(one: &Impression, quarters: u8) -> Impression {
    let shape = Shape {
        set_mm: one.set_mm,
        body_mm: one.body_mm,
        inked: one.inked.clone(),
    }
    .turned(quarters);
    let corners = [
        (0.0, 0.0),
        (shape.set_mm, 0.0),
        (shape.set_mm, shape.body_mm),
        (0.0, shape.body_mm),
    ];
    Impression {
        set_mm: shape.set_mm,
        body_mm: shape.body_mm,
        inked: shape.inked,
        block: corners.map(Point::from).to_vec(),
        ..one.clone()
    }
}
