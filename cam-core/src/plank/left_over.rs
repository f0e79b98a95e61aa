//! The wood that is left of planks, and the stock as it is once they are cut.

use std::sync::Arc;

use kurbo::Rect;

use super::Plank;
use super::board::Board;
use crate::commission::Commission;
use crate::measure::Length;
use crate::sort::Sort;
use crate::workshop::{BadPlace, Reserved, StockPlank, Workshop};

/// Pieces left of the planks that still take a block of the order: above the rows the whole width, beside them the rest.
///
/// Each carries on what is told of its plank. Of two ways of parting the pieces, the one with the larger piece is taken.
pub fn left_over(
    planks: &[Plank],
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
) -> Vec<StockPlank> {
    let mut left: Vec<StockPlank> = Vec::new();
    for plank in planks {
        let whole = as_stock(plank, commission, workshop);
        for piece in pieces(plank, sorts, commission.planks.kerf_mm()) {
            let mut piece = cut_from(&whole, piece);
            if keeps(&piece, sorts, commission) {
                piece.id = free_id(&whole.id, workshop, &left);
                left.push(piece);
            }
        }
    }
    left
}

/// The stock after the planks were cut: those that were used are taken off, what is left of them is entered.
pub fn stock_after(
    planks: &[Plank],
    sorts: &[Arc<Sort>],
    commission: &Commission,
    workshop: &Workshop,
) -> Vec<StockPlank> {
    let used = |id: &str| {
        let of_it = |plank: &&Plank| plank.stock.as_deref() == Some(id);
        u32::try_from(planks.iter().filter(of_it).count()).unwrap_or(u32::MAX)
    };
    let mut stock: Vec<StockPlank> = workshop
        .stock
        .iter()
        .map(|plank| StockPlank {
            count: plank.count.saturating_sub(used(&plank.id)),
            ..plank.clone()
        })
        .filter(|plank| plank.count > 0)
        .collect();
    stock.extend(left_over(planks, sorts, commission, workshop));
    stock
}

/// The plank as it lies, as one of the stock.
fn as_stock(plank: &Plank, commission: &Commission, workshop: &Workshop) -> StockPlank {
    let known = plank
        .stock
        .as_ref()
        .and_then(|id| workshop.stock.iter().find(|plank| plank.id == *id));
    match known {
        Some(known) if plank.turned => known.turned(),
        Some(known) => known.clone(),
        None => StockPlank {
            grain: plank.grain,
            height: Some(commission.height_to_paper),
            ..StockPlank::plain(
                &format!("left-of-{}", plank.id),
                &commission.wood,
                Length::mm(plank.width_mm),
                Length::mm(plank.length_mm),
            )
        },
    }
}

/// What lies above and beside the blocks, a cut away from them.
fn pieces(plank: &Plank, sorts: &[Arc<Sort>], kerf_mm: f64) -> [Rect; 2] {
    let used = plank
        .places
        .iter()
        .filter_map(|place| Some(sorts.get(place.sort)?.block.rect() + place.at))
        .fold(Rect::ZERO, |all, block| all.union(block));
    let (x, y) = (used.x1 + kerf_mm, used.y1 + kerf_mm);
    let (width, length) = (plank.width_mm, plank.length_mm);
    let above_first = [
        Rect::new(0.0, y, width, length),
        Rect::new(x, 0.0, width, used.y1),
    ];
    let beside_first = [
        Rect::new(x, 0.0, width, length),
        Rect::new(0.0, y, used.x1, length),
    ];
    let largest = |pieces: &[Rect; 2]| pieces.iter().map(area).fold(0.0, f64::max);
    if largest(&beside_first) > largest(&above_first) {
        beside_first
    } else {
        above_first
    }
}

fn area(piece: &Rect) -> f64 {
    (piece.x1 - piece.x0).max(0.0) * (piece.y1 - piece.y0).max(0.0)
}

/// A piece of a plank: bad places and reserved ends as far as they lie on it.
fn cut_from(whole: &StockPlank, piece: Rect) -> StockPlank {
    let bad_places = whole
        .bad_places
        .iter()
        .filter_map(|bad| {
            let [x, y, width, length] = [bad.x, bad.y, bad.width, bad.length].map(Length::in_mm);
            let on_it = Rect::new(x, y, x + width, y + length).intersect(piece);
            (on_it.width() > 0.0 && on_it.height() > 0.0).then(|| BadPlace {
                x: tidy(on_it.x0 - piece.x0),
                y: tidy(on_it.y0 - piece.y0),
                width: not_less(on_it.width()),
                length: not_less(on_it.height()),
                what: bad.what.clone(),
            })
        })
        .collect();
    let (width, length) = (whole.width.in_mm(), whole.length.in_mm());
    let rest = |reserved: Length, cut_off: f64| tidy((reserved.in_mm() - cut_off).max(0.0));
    StockPlank {
        count: 1,
        width: tidy(piece.width()),
        length: tidy(piece.height()),
        bad_places,
        reserved: Reserved {
            left: rest(whole.reserved.left, piece.x0),
            right: rest(whole.reserved.right, width - piece.x1),
            near: rest(whole.reserved.near, piece.y0),
            far: rest(whole.reserved.far, length - piece.y1),
        },
        // The clamps were placed for the whole plank.
        clamps: None,
        ..whole.clone()
    }
}

/// A tenth of a millimetre is more than a saw keeps; so short pieces do not get long numbers.
fn tidy(mm: f64) -> Length {
    Length::mm((mm * 10.0).floor() / 10.0)
}

/// Bad places are not made smaller, though they are rounded as well; a tenth more at the far side makes up for the near one.
fn not_less(mm: f64) -> Length {
    Length::mm(((mm * 10.0).ceil() + 1.0) / 10.0)
}

/// Whether the piece still takes a block of the order, whichever way it lies.
fn keeps(piece: &StockPlank, sorts: &[Arc<Sort>], commission: &Commission) -> bool {
    if piece.width.in_mm() <= 0.0 || piece.length.in_mm() <= 0.0 {
        return false;
    }
    [piece.clone(), piece.turned()].iter().any(|piece| {
        Board::of_stock(piece, 0, false, &commission.planks).is_ok_and(|board| {
            sorts
                .iter()
                .filter(|sort| !sort.block.plain)
                .any(|sort| board.takes(sort.block.set_mm, sort.block.body_mm))
        })
    })
}

/// An id after the plank's that nothing in the stock has.
fn free_id(of: &str, workshop: &Workshop, left: &[StockPlank]) -> String {
    let taken = |id: &String| {
        let mut ids = workshop.stock.iter().chain(left).map(|plank| &plank.id);
        ids.any(|other| other == id)
    };
    // Bound: of one more number than there are planks, one is free.
    (1..=workshop.stock.len() + left.len() + 1)
        .map(|number| format!("{of}-{number}"))
        .find(|id| !taken(id))
        .unwrap_or_else(|| of.to_owned())
}
