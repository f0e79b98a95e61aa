//! A piece of wood that blocks may be laid on: its room, and the places in it that must stay free.

use kurbo::Rect;

use super::PlankError;
use super::pack::Item;
use crate::commission::{Clamp, PlankRules};
use crate::measure::Length;
use crate::workshop::StockPlank;

/// Blocks lie on multiples of this, in millimetres: the last decimal of a program, so that every copy of a sort rounds alike.
pub const STEP_MM: f64 = 0.001;
/// Air kept between what may be cut and a clamp, in millimetres: what the proof asks for, and some more for setting clamps by hand
/// (common practice, no source).
const CLAMP_AIR_MM: f64 = 4.0;
/// Differences smaller than this are arithmetic, in millimetres.
pub const NOTHING_MM: f64 = 1e-9;

/// A board, before anything lies on it.
#[derive(Clone, Debug, PartialEq)]
pub struct Board {
    /// The plank of the stock, by its place in the list.
    pub stock: Option<usize>,
    /// Whether it lies turned a quarter to the left.
    pub turned: bool,
    pub width_mm: f64,
    pub length_mm: f64,
    /// Where blocks may lie but for bad places.
    pub room: Rect,
    pub bad_places: Vec<Rect>,
    pub clamps: Vec<Clamp>,
    lane_mm: f64,
}

/// A place that blocks with their lanes may not overlap, µm from the room's corner.
///
/// A block that ends where the place begins still has its lane beyond, so the place counts as smaller by a lane at the left and
/// below; where it is narrower than the lane its sides change over, and it still keeps apart what lies on both of its sides.
#[derive(Clone, Copy, Debug)]
pub struct Blocked {
    pub x0: i64,
    pub y0: i64,
    pub x1: i64,
    pub y1: i64,
}

impl Blocked {
    /// Whether a block with its lane would lie on it.
    pub fn meets(&self, (x, y): (i64, i64), item: &Item) -> bool {
        x < self.x1 && x + item.w > self.x0 && y < self.y1 && y + item.h > self.y0
    }
}

impl Board {
    /// A plank of the size that the commission tells.
    pub fn told(rules: &PlankRules) -> Result<Board, PlankError> {
        let plank = StockPlank::plain("", "", rules.width, rules.length);
        Board::new(&plank, rules)
    }

    /// A plank of the stock as it lies.
    pub fn of_stock(
        plank: &StockPlank,
        number: usize,
        turned: bool,
        rules: &PlankRules,
    ) -> Result<Board, PlankError> {
        let board = if turned {
            Board::new(&plank.turned(), rules)?
        } else {
            Board::new(plank, rules)?
        };
        Ok(Board {
            stock: Some(number),
            turned,
            ..board
        })
    }

    fn new(plank: &StockPlank, rules: &PlankRules) -> Result<Board, PlankError> {
        let [width, length, margin, lane] =
            [plank.width, plank.length, rules.margin, rules.lane].map(Length::in_mm);
        let sizes = [
            ("the width", width, 0.0),
            ("the length", length, 0.0),
            ("the margin", margin, -NOTHING_MM),
            ("the lane", lane, -NOTHING_MM),
        ];
        for (what, value, above) in sizes {
            if !(value > above && value.is_finite()) {
                return Err(PlankError::BadRules(format!("{what} is {value} mm")));
            }
        }
        let edge_mm = margin.max(lane);
        let keep = |reserved: Length| reserved.in_mm().max(edge_mm);
        let free = Rect {
            x0: keep(plank.reserved.left),
            y0: keep(plank.reserved.near),
            x1: width - keep(plank.reserved.right),
            y1: length - keep(plank.reserved.far),
        };
        let clamps = plank.clamps.as_ref().unwrap_or(&rules.clamps);
        let room = clamps
            .iter()
            .fold(free, |free, clamp| beside(free, clamp, lane));
        if room.x1 <= room.x0 || room.y1 <= room.y0 {
            return Err(PlankError::BadRules(format!(
                "free edges of {edge_mm} mm, reserved ends and clamps leave nothing of {width} × {length} mm"
            )));
        }
        let bad_place = |bad: &crate::workshop::BadPlace| {
            let [x, y, width, length] = [bad.x, bad.y, bad.width, bad.length].map(Length::in_mm);
            Rect::new(x, y, x + width, y + length)
        };
        Ok(Board {
            stock: None,
            turned: false,
            width_mm: width,
            length_mm: length,
            room,
            bad_places: plank.bad_places.iter().map(bad_place).collect(),
            clamps: clamps.clone(),
            lane_mm: lane,
        })
    }

    /// The room's size with one lane more each way, µm: what blocks with their lanes have to fit into.
    pub fn size(&self) -> (i64, i64) {
        let size = |mm: f64| ((mm + self.lane_mm + NOTHING_MM) / STEP_MM).floor() as i64;
        (size(self.room.width()), size(self.room.height()))
    }

    /// The bad places in the room.
    pub fn blocked(&self) -> Vec<Blocked> {
        let low = |mm: f64| ((mm + self.lane_mm) / STEP_MM).floor() as i64;
        let high = |mm: f64| (mm / STEP_MM).ceil() as i64;
        self.bad_places
            .iter()
            .filter(|bad| {
                bad.x0 < self.room.x1
                    && self.room.x0 < bad.x1
                    && bad.y0 < self.room.y1
                    && self.room.y0 < bad.y1
            })
            .map(|bad| Blocked {
                x0: low(bad.x0 - self.room.x0),
                y0: low(bad.y0 - self.room.y0),
                x1: high(bad.x1 - self.room.x0),
                y1: high(bad.y1 - self.room.y0),
            })
            .collect()
    }

    /// Whether a block of these sizes fits into the room, bad places not counted.
    pub fn takes(&self, set_mm: f64, body_mm: f64) -> bool {
        set_mm <= self.room.width() + NOTHING_MM && body_mm <= self.room.height() + NOTHING_MM
    }

    pub fn area_mm2(&self) -> f64 {
        self.width_mm * self.length_mm
    }
}

/// A block's size with its lane, µm, rounded up; a block that only just fits stays as large as the room.
pub fn item(set_mm: f64, body_mm: f64, lane_mm: f64) -> Item {
    let size = |mm: f64| ((mm + lane_mm - NOTHING_MM) / STEP_MM).ceil() as i64;
    Item {
        w: size(set_mm),
        h: size(body_mm),
    }
}

/// What is left of a room beside a clamp, with the lane and some air between: of the four sides the one that leaves most.
///
/// Blocks are kept to one side of it, not all round: from cut to cut the cutter hops over the whole room lower than a clamp stands.
fn beside(room: Rect, clamp: &Clamp, lane: f64) -> Rect {
    let [x, y, width, length] =
        [clamp.x, clamp.y, clamp.width, clamp.length].map(|length| length.in_mm());
    let kept = lane + CLAMP_AIR_MM;
    let foot = Rect::new(x, y, x + width, y + length).inflate(kept, kept);
    let meets = foot.x0 < room.x1 && room.x0 < foot.x1 && foot.y0 < room.y1 && room.y0 < foot.y1;
    if !meets {
        return room;
    }
    let sides = [
        Rect::new(foot.x1, room.y0, room.x1, room.y1),
        Rect::new(room.x0, room.y0, foot.x0, room.y1),
        Rect::new(room.x0, foot.y1, room.x1, room.y1),
        Rect::new(room.x0, room.y0, room.x1, foot.y0),
    ];
    let size = |side: &Rect| (side.x1 - side.x0).max(0.0) * (side.y1 - side.y0).max(0.0);
    sides.into_iter().fold(Rect::ZERO, |most, side| {
        if size(&side) > size(&most) {
            side
        } else {
            most
        }
    })
}
