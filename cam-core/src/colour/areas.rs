//! What each plate would print by itself.

use std::collections::BTreeMap;

use geometry::boolean::difference;
use geometry::grown::{grown, shrunk, swept};
use geometry::region::{Region, region_from_outline};
use kurbo::{BezPath, Vec2};

use super::{ColourError, WORK_MM};
use crate::commission::{Plate, PlateSource};

/// A letter and all that plates may be taken from, in reading space, mm.
#[derive(Clone, Debug, Default)]
pub struct Source {
    /// The letter as it is drawn.
    pub letter: BezPath,
    /// The same letter of companion faces, by the face's id; none where the face has no such letter.
    pub companions: BTreeMap<String, BezPath>,
    /// The font's own colours (`#` and six hexadecimal digits): what is seen of each, as all of its layers in order, the lowest first.
    pub own: Vec<(String, BezPath)>,
}

impl Source {
    /// The curves that a plate prints as they are drawn; `None` if it is made from the letter or of several layers.
    pub(super) fn drawn(&self, source: &PlateSource) -> Option<&BezPath> {
        match source {
            PlateSource::Letter => Some(&self.letter),
            PlateSource::Face(face) => self.companions.get(face),
            PlateSource::FontColour(colour) => {
                let mut of_colour = self.own.iter().filter(|(own, _)| own == colour);
                let first = of_colour.next()?;
                of_colour.next().is_none().then_some(&first.1)
            }
            PlateSource::Inline { .. }
            | PlateSource::Outline { .. }
            | PlateSource::Shadow { .. } => None,
        }
    }
}

/// What each plate would print by itself, in the order of the plates.
///
/// # Errors
/// The drawing cannot be worked on.
pub fn areas(plates: &[Plate], source: &Source) -> Result<Vec<Region>, ColourError> {
    let letter = region_from_outline(&source.letter, WORK_MM)?;
    let own = own_colours(source)?;
    plates
        .iter()
        .map(|plate| area(plate, &letter, &own, source))
        .collect()
}

fn area(
    plate: &Plate,
    letter: &Region,
    own: &BTreeMap<&str, Region>,
    source: &Source,
) -> Result<Region, ColourError> {
    let within = |distance_mm: f64| shrunk(letter, distance_mm, WORK_MM);
    let about = |distance_mm: f64| grown(letter, distance_mm, WORK_MM);
    Ok(match &plate.source {
        PlateSource::Letter => letter.clone(),
        PlateSource::Face(face) => match source.companions.get(face) {
            Some(path) => region_from_outline(path, WORK_MM)?,
            None => Region::default(),
        },
        PlateSource::FontColour(colour) => own.get(colour.as_str()).cloned().unwrap_or_default(),
        PlateSource::Inline { inset, width } => {
            let all = within(inset.in_mm())?;
            match width {
                None => all,
                Some(width) => difference(&all, &within(inset.in_mm() + width.in_mm())?),
            }
        }
        PlateSource::Outline { gap, width } => {
            difference(&about(gap.in_mm() + width.in_mm())?, &about(gap.in_mm())?)
        }
        PlateSource::Shadow {
            angle_deg,
            length,
            gap,
        } => {
            let falls = Vec2::from_angle(angle_deg.to_radians()) * length.in_mm();
            let passed_over = swept(letter, falls);
            // A shadow that stays whole lies under the letter as well, and has no thin ends where it comes out.
            if plate.overprinted && gap.in_mm() == 0.0 {
                passed_over
            } else {
                difference(&passed_over, &about(gap.in_mm())?)
            }
        }
    })
}

/// What is seen of each of the font's own colours: later layers cover earlier ones.
fn own_colours(source: &Source) -> Result<BTreeMap<&str, Region>, ColourError> {
    let mut seen: BTreeMap<&str, Region> = BTreeMap::new();
    for (colour, path) in &source.own {
        let layer = region_from_outline(path, WORK_MM)?;
        for (other, region) in &mut seen {
            if other != colour {
                *region = difference(region, &layer);
            }
        }
        let own = seen.entry(colour.as_str()).or_default();
        *own = geometry::boolean::union(own, &layer);
    }
    Ok(seen)
}
