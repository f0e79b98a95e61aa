//! Planks in the workshop's stock.

use crate::commission::Clamp;
use crate::measure::Length;

/// A plank in stock, or several alike. Places are counted from its lower left corner, seen from above with the face up.
#[derive(Clone, Debug, PartialEq)]
pub struct StockPlank {
    /// Short id, such as `maple-7`.
    pub id: String,
    /// The wood, by its id.
    pub wood: String,
    /// How many there are.
    pub count: u32,
    /// Size across (x).
    pub width: Length,
    /// Size along (y).
    pub length: Length,
    /// Measured height; `None` if it is dressed to the height that is asked for.
    pub height: Option<Length>,
    /// Which way its fibres run; `None` if not told.
    pub grain: Option<Grain>,
    /// Knots, glue lines, checks: no block may lie on them.
    pub bad_places: Vec<BadPlace>,
    /// Wood at the edges that no block may lie on.
    pub reserved: Reserved,
    /// The clamps that hold it; `None` for those of the commission.
    pub clamps: Option<Vec<Clamp>>,
}

/// Which way the fibres of a plank run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grain {
    /// The face is end grain: the fibres stand upright.
    End,
    /// Across the plank (x).
    Across,
    /// Along the plank (y).
    Along,
}

/// A place that no block may lie on.
#[derive(Clone, Debug, PartialEq)]
pub struct BadPlace {
    /// From the plank's left edge.
    pub x: Length,
    /// From the plank's lower edge.
    pub y: Length,
    /// Its size across (x).
    pub width: Length,
    /// Its size along (y).
    pub length: Length,
    /// What it is, in the maker's word; may be empty.
    pub what: String,
}

/// Wood at the edges that no block may lie on.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Reserved {
    /// At the left edge.
    pub left: Length,
    /// At the right edge.
    pub right: Length,
    /// At the lower edge, nearest to the operator.
    pub near: Length,
    /// At the upper edge.
    pub far: Length,
}

impl StockPlank {
    /// A plank of a wood and size without anything else told.
    pub fn plain(id: &str, wood: &str, width: Length, length: Length) -> StockPlank {
        StockPlank {
            id: id.to_owned(),
            wood: wood.to_owned(),
            count: 1,
            width,
            length,
            height: None,
            grain: None,
            bad_places: Vec::new(),
            reserved: Reserved::default(),
            clamps: None,
        }
    }

    /// The plank turned a quarter to the left, as seen from above, with all that is told of it.
    pub fn turned(&self) -> StockPlank {
        let turn = |x: Length, y: Length, width: Length, length: Length| {
            let from_left = self.length.in_mm() - y.in_mm() - length.in_mm();
            (Length::mm(from_left), x, length, width)
        };
        let bad_place = |bad: &BadPlace| {
            let (x, y, width, length) = turn(bad.x, bad.y, bad.width, bad.length);
            BadPlace {
                x,
                y,
                width,
                length,
                what: bad.what.clone(),
            }
        };
        let clamp = |clamp: &Clamp| {
            let (x, y, width, length) = turn(clamp.x, clamp.y, clamp.width, clamp.length);
            Clamp {
                x,
                y,
                width,
                length,
                height: clamp.height,
            }
        };
        StockPlank {
            width: self.length,
            length: self.width,
            grain: self.grain.map(|grain| match grain {
                Grain::End => Grain::End,
                Grain::Across => Grain::Along,
                Grain::Along => Grain::Across,
            }),
            bad_places: self.bad_places.iter().map(bad_place).collect(),
            reserved: Reserved {
                left: self.reserved.far,
                far: self.reserved.right,
                right: self.reserved.near,
                near: self.reserved.left,
            },
            clamps: self
                .clamps
                .as_ref()
                .map(|clamps| clamps.iter().map(clamp).collect()),
            ..self.clone()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_quarter_turns_change_nothing() {
        let mm = Length::mm;
        let mut plank = StockPlank::plain("maple-1", "hard-maple", mm(300.0), mm(120.0));
        plank.grain = Some(Grain::Across);
        plank.reserved.near = mm(12.0);
        plank.bad_places.push(BadPlace {
            x: mm(250.0),
            y: mm(10.0),
            width: mm(20.0),
            length: mm(30.0),
            what: "knot".to_owned(),
        });
        plank.clamps = Some(vec![Clamp {
            x: mm(0.0),
            y: mm(50.0),
            width: mm(25.0),
            length: mm(15.0),
            height: mm(18.0),
        }]);
        let once = plank.turned();
        assert_eq!((once.width, once.length), (mm(120.0), mm(300.0)));
        assert_eq!(once.grain, Some(Grain::Along));
        assert_eq!(once.reserved.right, mm(12.0));
        // What was low at the right is now high at the right.
        assert_eq!(
            (once.bad_places[0].x, once.bad_places[0].y),
            (mm(80.0), mm(250.0))
        );
        assert_eq!(once.turned().turned().turned(), plank);
    }
}
