//! The least time of clearing ground.

use std::f64::consts::PI;

use cam_core::relief::Relief;
use kurbo::Rect;

use super::Mill;
use crate::letters;
use crate::referee::Area;

/// Areas smaller than this are rounding, mm².
const LEAST_AREA: f64 = 1e-3;

/// What clearing takes at least.
pub(super) struct Cleared {
    pub(super) seconds: f64,
    /// The depth of each closed piece that has to be plunged into, once for each cutter that must.
    pub(super) closed: Vec<f64>,
}

/// A cutter with the ground that it reaches.
struct Reach<'a> {
    mill: &'a Mill,
    reached: Area,
    /// What it covers of each piece closed to the outside.
    closed: Vec<Area>,
}

/// The least time of clearing the ground in a block around a letter; beyond the block all is open.
pub(super) fn least(letter: &Area, block: Rect, mills: &[Mill], relief: &Relief) -> Cleared {
    let widest = mills
        .iter()
        .fold(0.0, |most: f64, mill| most.max(mill.radius));
    let margin = 3.0 * widest + relief.wide_width_mm;
    let plane = area_of(block.inflate(margin, margin));
    let block = area_of(block);
    let reaches: Vec<Reach> = mills
        .iter()
        .map(|mill| reach(mill, letter, &plane, &block))
        .collect();
    // What any finishing pass takes off the walls is not cleared by anyone.
    let kept = mills
        .iter()
        .zip(&reaches)
        .map(|(mill, reach)| letter.grown(mill.allowance).intersection(&reach.reached))
        .fold(Area::default(), |kept, of_mill| kept.joined(&of_mill));
    let mut seconds = 0.0;
    let mut own: Vec<Area> = mills.iter().map(|_| Area::default()).collect();
    for zone in zones(letter, &plane, &block, mills, relief) {
        // The cost of a square millimetre depends on the zone alone, so the quickest takes all that it reaches.
        let mut order: Vec<(f64, usize)> = mills
            .iter()
            .map(|mill| mill.layers(zone.depth) / (mill.step_over * mill.feed))
            .enumerate()
            .map(|(number, cost)| (cost, number))
            .collect();
        order.sort_by(|one, other| one.0.total_cmp(&other.0));
        let mut rest = zone.area.without(&kept);
        for (cost, number) in order {
            let taken = rest.intersection(&reaches[number].reached);
            rest = rest.without(&taken);
            seconds += cost * taken.square_mm();
            own[number] = own[number].joined(&taken);
        }
    }
    let mut closed = Vec::new();
    for (reach, own) in reaches.iter().zip(&own) {
        for piece in &reach.closed {
            if piece.intersection(own).square_mm() > LEAST_AREA {
                let depth = relief.least_mm.min(reach.mill.depth);
                seconds += plunging(reach.mill, depth);
                closed.push(depth);
            }
        }
    }
    Cleared { seconds, closed }
}

/// What plunging into a closed piece adds: the way down, less the disc that comes free; nothing where that saves time, since
/// the cutter may also come down along a path that clears.
fn plunging(mill: &Mill, depth: f64) -> f64 {
    let free = PI * mill.radius * mill.radius / (mill.step_over * mill.feed);
    (depth / mill.plunge - mill.layers(depth) * free).min(0.0)
}

fn reach<'a>(mill: &'a Mill, letter: &Area, plane: &Area, block: &Area) -> Reach<'a> {
    let ground = plane.without(letter);
    let centres = ground.grown(-mill.radius);
    let closed = centres
        .pieces()
        .into_iter()
        // The outermost piece is the one that holds the plane's edge.
        .filter(|piece| piece.bounds() != centres.bounds())
        .map(|piece| piece.grown(mill.radius).intersection(block))
        .filter(|piece| piece.square_mm() > LEAST_AREA)
        .collect();
    Reach {
        mill,
        reached: centres.grown(mill.radius).intersection(block),
        closed,
    }
}

/// Ground on which every cutter needs the same number of layers.
struct Zone {
    area: Area,
    /// The depth wanted there, at most.
    depth: f64,
}

/// The ground of the block by the depth wanted, cut wherever some cutter needs one layer more.
fn zones(letter: &Area, plane: &Area, block: &Area, mills: &[Mill], relief: &Relief) -> Vec<Zone> {
    let mut depths: Vec<f64> = mills
        .iter()
        .flat_map(|mill| {
            (1..=mill.layers(relief.full_mm) as u32).map(|layer| f64::from(layer) * mill.step_down)
        })
        .filter(|&depth| depth < relief.full_mm)
        .collect();
    depths.push(relief.full_mm);
    depths.sort_by(f64::total_cmp);
    depths.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
    let ground = plane.without(letter);
    let mut deeper = block.intersection(&ground);
    let mut zones = Vec::new();
    for depth in depths {
        let next = match relief.width_deeper_than(depth) {
            None => Area::default(),
            Some(width) if width <= 0.0 => deeper.clone(),
            Some(width) => ground.opened(width / 2.0).intersection(&deeper),
        };
        let area = deeper.without(&next);
        if area.square_mm() > LEAST_AREA {
            zones.push(Zone { area, depth });
        }
        deeper = next;
    }
    zones
}

pub(super) fn area_of(rect: Rect) -> Area {
    let ring = letters::rectangle(rect.x0, rect.y0, rect.x1, rect.y1);
    Area::of_rings([ring.as_slice()])
}
