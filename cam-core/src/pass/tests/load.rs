//! What the cutter takes, measured from the cuts alone by a map of heights that knows nothing of how they were planned.

use super::*;
use crate::commission::Roughing;
use crate::pass::bench::Way;
use crate::pass::load::Kept;
use crate::pass::tool::Tool;
use crate::raster::Frame;

/// Heights of the wood in square cells; 0 at the face, negative where it is cut.
struct HeightMap {
    corner: Point,
    columns: usize,
    rows: usize,
    heights: Vec<f64>,
}

/// Side of a cell, mm.
const CELL: f64 = 0.05;

/// How far the cutter goes at a time, mm, and over how many such steps its load is evened out.
const STEP: f64 = 0.1;
const WINDOW: usize = 15;

impl HeightMap {
    fn over(sort: &Sort) -> HeightMap {
        let count = |length: f64| ((length + 2.0 * LANE) / CELL).ceil() as usize;
        let (columns, rows) = (count(sort.block.set_mm), count(sort.block.body_mm));
        HeightMap {
            corner: Point::new(-LANE, -LANE),
            columns,
            rows,
            heights: vec![0.0; columns * rows],
        }
    }

    /// Cuts with the cutter standing at a place; gives back the volume taken.
    fn cut(&mut self, at: Point, radius: f64, height: f64) -> f64 {
        let middle = at - self.corner;
        let index = |along: f64, most: usize| ((along / CELL).ceil().max(0.0) as usize).min(most);
        let mut volume = 0.0;
        for row in index(middle.y - radius, self.rows)..index(middle.y + radius, self.rows) {
            for column in
                index(middle.x - radius, self.columns)..index(middle.x + radius, self.columns)
            {
                let cell = Vec2::new(column as f64 + 0.5, row as f64 + 0.5) * CELL;
                let old = &mut self.heights[row * self.columns + column];
                if (cell - middle).hypot2() <= radius * radius && *old > height {
                    volume += *old - height;
                    *old = height;
                }
            }
        }
        volume * CELL * CELL
    }
}

/// The widths that each stretch of the roughing cuts takes, entries left out, as parts of the set width: fresh wood by length,
/// counted in full layers.
pub(super) fn loads(sort: &Sort, passes: &SortPasses, cutter: &Cutter) -> Vec<f64> {
    let mut map = HeightMap::over(sort);
    let radius = cutter.radius_mm();
    let set = cutter.step_over.in_mm() * cutter.step_down.in_mm();
    let mut loads = Vec::new();
    let roughing = |cut: &&Cut| cut.purpose != Purpose::Finishing;
    for cut in passes.cuts.iter().filter(roughing) {
        if let Entry::Ramp {
            path,
            from_depth_mm,
        } = &cut.entry
        {
            let length = path.length();
            let steps = (length / STEP).ceil().max(1.0);
            for number in 0..=steps as usize {
                let part = number as f64 / steps;
                let depth = from_depth_mm + (cut.depth_mm - from_depth_mm) * part;
                map.cut(path.at(part * length).0, radius, -depth);
            }
        }
        map.cut(cut.path.start, radius, -cut.depth_mm);
        let length = cut.path.length();
        let steps = (length / STEP).ceil().max(1.0);
        let taken: Vec<f64> = (1..=steps as usize)
            .map(|number| {
                let (at, _) = cut.path.at(number as f64 / steps * length);
                map.cut(at, radius, -cut.depth_mm)
            })
            .collect();
        // Where the feed is lowered, the edges take less in a second.
        let fed = (cut.feed_mm_min / cutter.feed_mm_min).min(1.0);
        loads.extend(taken.windows(WINDOW).map(|window| {
            window.iter().sum::<f64>() / (WINDOW as f64 * length / steps) / set * fed
        }));
    }
    loads.sort_by(f64::total_cmp);
    loads
}

pub(super) fn in_style(sort: &Sort, roughing: Roughing) -> (SortPasses, Vec<Finding>, Cutter) {
    let shop = workshop(vec![flat(6.0, 4.0)]);
    let mut order = commission(&shop);
    order.cutting.roughing = roughing;
    let (mut passes, findings) =
        plan(sort, &ground(sort), &order, &shop).expect("a flat cutter can be planned");
    (passes.remove(0), findings, shop.cutters[0].clone())
}

fn seconds(passes: &SortPasses, cutter: &Cutter) -> f64 {
    let shop = workshop(vec![cutter.clone()]);
    let toolpath = crate::toolpath::join_one(passes, cutter, &shop.machine);
    crate::toolpath::duration::of_motions(&toolpath.motions, &shop.machine)
}

/// A small disc in the middle of a wide block: open ground all round.
fn full_stop() -> Sort {
    sort(disc(Point::new(30.0, 20.0), 5.0), 60.0, 40.0)
}

/// Rows of small squares with lanes between them that the cutter just passes through.
fn islands() -> Sort {
    let squares = (0..5)
        .flat_map(|i| (0..5).map(move |j| (f64::from(i) * 9.5, f64::from(j) * 9.5)))
        .map(|(x, y)| Region::from_ring(&rectangle(x + 2.0, y + 2.0, x + 4.5, y + 4.5)));
    let face = geometry::boolean::union_all(&squares.collect::<Vec<_>>());
    sort(face, 48.0, 48.0)
}

/// A block cut by a slot a little wider than the cutter, closed at one end.
fn slotted() -> Sort {
    let face = difference(
        &Region::from_ring(&rectangle(4.0, 4.0, 36.0, 26.0)),
        &Region::from_ring(&rectangle(16.0, 10.0, 23.0, 40.0)),
    );
    sort(face, 40.0, 30.0)
}

#[track_caller]
fn check_steady(sort: &Sort) -> (SortPasses, Cutter) {
    let (passes, findings, cutter) = in_style(sort, Roughing::Steady);
    assert_eq!(findings, []);
    check_no_path_enters_the_letter(sort, std::slice::from_ref(&passes));
    check_all_reachable_ground_is_cleared(sort, std::slice::from_ref(&passes), 3.0);
    let loads = loads(sort, &passes, &cutter);
    let over = |limit: f64| loads.len() - loads.partition_point(|&load| load <= limit);
    assert!(loads.len() > 1000, "{} places", loads.len());
    let most = loads.last().copied().unwrap_or(0.0);
    assert!(
        over(1.05) * 1000 <= loads.len(),
        "{} of {} places over the set width, {most} at most",
        over(1.05),
        loads.len()
    );
    assert!(over(1.15) == 0, "{most}");
    (passes, cutter)
}

#[test]
fn the_load_stays_at_the_set_width_in_open_ground_and_is_used_there() {
    let sort = full_stop();
    let (passes, cutter) = check_steady(&sort);
    let loads = loads(&sort, &passes, &cutter);
    let median = loads[loads.len() / 2];
    assert!(median > 0.75, "the median load is {median}");
}

#[test]
fn the_load_is_kept_in_a_closed_counter_and_in_a_slot() {
    check_steady(&letter_o());
    check_steady(&slotted());
}

/// Between islands some places are left that only a cut along the contours reaches, fed slower there.
#[test]
fn among_islands_all_is_cleared_and_hardly_anywhere_with_too_much_load() {
    let sort = islands();
    let (passes, findings, cutter) = in_style(&sort, Roughing::Steady);
    assert_eq!(findings, []);
    check_no_path_enters_the_letter(&sort, std::slice::from_ref(&passes));
    check_all_reachable_ground_is_cleared(&sort, std::slice::from_ref(&passes), 3.0);
    let loads = loads(&sort, &passes, &cutter);
    let over = loads.len() - loads.partition_point(|&load| load <= 1.05);
    assert!(over * 200 <= loads.len(), "{over} of {}", loads.len());
}

#[test]
fn open_ground_is_cleared_without_lifting_more_than_a_few_times() {
    let (passes, ..) = in_style(&full_stop(), Roughing::Steady);
    let roughing = passes
        .cuts
        .iter()
        .filter(|cut| cut.purpose == Purpose::Roughing);
    let mut here: Option<Point> = None;
    let mut lifts = 0;
    for cut in roughing {
        let stands = here.is_some_and(|here| here.distance(cut.path.start) < 1e-6);
        match &cut.entry {
            Entry::StayDown => {}
            Entry::Open | Entry::Plunge => lifts += usize::from(!stands),
            Entry::Ramp { path, .. } => {
                let stands = here.is_some_and(|here| here.distance(path.start) < 1e-6);
                lifts += usize::from(!stands);
            }
        }
        here = Some(cut.path.end());
    }
    assert!(lifts <= 8, "{lifts} lifts");
}

#[test]
fn the_quicker_style_is_taken_by_the_time_model() {
    for sort in [full_stop(), letter_o(), letter_e()] {
        let [quicker, steady, contours] = [Roughing::Quicker, Roughing::Steady, Roughing::Contours]
            .map(|style| {
                let (passes, _, cutter) = in_style(&sort, style);
                seconds(&passes, &cutter)
            });
        assert_eq!(quicker, steady.min(contours));
    }
}

/// In open ground nothing beyond the block has to go, so the cutter's middle hardly leaves it.
#[test]
fn passes_end_where_nothing_more_has_to_go() {
    let sort = full_stop();
    let (passes, _, cutter) = in_style(&sort, Roughing::Steady);
    let block = sort.block.rect();
    let roughing = passes
        .cuts
        .iter()
        .filter(|cut| cut.purpose == Purpose::Roughing);
    let ends = roughing.flat_map(|cut| [cut.path.start, cut.path.end()]);
    let beyond = |at: Point| {
        at.distance(Point::new(
            at.x.clamp(block.x0, block.x1),
            at.y.clamp(block.y0, block.y1),
        ))
    };
    let furthest = ends.map(beyond).fold(0.0, f64::max);
    assert!(furthest <= cutter.radius_mm() * 0.5, "{furthest} mm");
}

/// By hand, with 3 mm of relief. A cutter of 1.5 mm is set to 0.6 mm in four layers of 0.75 mm: 0.2 mm in one layer are 0.8 mm in a full
/// one, so three quarters of its feed; for 0.4 mm in one the feed would fall below what is sure, so they take two. One of 0.8 mm is set to
/// 0.32 mm in eight layers: 0.24 mm take three. More than three quarters of the set width keep their layers.
#[test]
fn thin_cuts_are_made_in_fewer_and_deeper_layers() {
    let kept = |diameter: f64, width: f64, way: Way| {
        let shop = workshop(vec![flat(diameter, 4.0)]);
        let order = commission(&shop);
        let frame = Frame::over(kurbo::Rect::new(0.0, 0.0, 10.0, 10.0), 0.05);
        let mut tool = Tool::new(&shop.cutters[0], &order.cutting, frame);
        tool.go_down_to(3.0);
        crate::pass::load::kept(&vec![(2.0, width)], None, &tool, &way)
    };
    let fed = |kept: &Kept| kept.feeds.first().map_or(1.0, |&(_, part)| part);
    for (diameter, width, layers, part) in [
        (1.5, 0.1, 1, 1.0),
        (1.5, 0.2, 1, 0.75),
        (1.5, 0.4, 2, 0.75),
        (1.5, 0.5, 4, 1.0),
        (0.8, 0.24, 3, 0.5),
        (0.8, 0.25, 8, 1.0),
        (0.8, 0.64, 8, 0.5),
    ] {
        let kept = kept(diameter, width, Way::Stay);
        assert_eq!(kept.layers, layers, "{diameter} mm, {width} mm wide");
        assert!((fed(&kept) - part).abs() < 1e-9, "{kept:?}");
    }
    // A cutter that goes down in wood does so layer by layer.
    assert_eq!(kept(1.5, 0.1, Way::Plunge).layers, 4);
}
