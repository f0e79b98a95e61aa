//! How often the cutter is lifted: the lane goes on through narrows, and open cuts begin at the nearer end.

use super::load::{in_style, loads};
use super::*;
use crate::pass::bench::Bench;
use crate::pass::curve::Curve;
use crate::pass::fence::Fence;
use crate::pass::narrows::through_narrows;
use crate::pass::pieces::Pocket;
use crate::pass::select::Stretch;
use crate::pass::tool::Tool;
use crate::raster::{Frame, Raster};
use geometry::diagram::Wall;
use kurbo::Rect;

/// A full stop that touches all four sides of its block, in a room whose edge is so many millimetres away.
fn full_stop_in_room(away: f64) -> (Sort, Diagram) {
    let sort = sort(disc(Point::new(15.0, 15.0), 15.0), 30.0, 30.0);
    let room = rectangle(-away, -away, 30.0 + away, 30.0 + away);
    let ground = Diagram::build(&sort.face, &room).expect("the letter lies inside its room");
    (sort, ground)
}

/// The lane of a cutter of 6 mm along the letter, joined through narrows.
fn lane_through_narrows(ground: &Diagram) -> Option<Vec<Stretch>> {
    let shop = workshop(vec![flat(6.0, 4.0)]);
    let order = commission(&shop);
    let frame = Frame::over(Rect::new(-8.0, -8.0, 38.0, 38.0), 0.1);
    let tool = Tool::new(&shop.cutters[0], &order.cutting, frame);
    let pocket = Pocket::default();
    let bench = Bench {
        tool: &tool,
        ground,
        fence: &Fence::around(ground),
        pocket: &pocket,
        direction: Direction::Climb,
        machine: &shop.machine,
        wood: Raster::empty(frame),
        swept: Raster::empty(frame),
        todo: Raster::empty(frame),
        cuts: Vec::new(),
        here: None,
        down: false,
        group: None,
        passed_narrows: false,
    };
    let loops = ground.offset(tool.first);
    let along_letter = loops.iter().flat_map(Curve::by_wall);
    let lane: Vec<Stretch> = along_letter
        .filter(|curve| curve.wall == Wall::Letter)
        .map(|curve| Stretch::roughing(curve, tool.first, &tool))
        .collect();
    through_narrows(&lane, &bench)
}

/// With 6.3 mm on all four sides the cutter passes, but not with an allowance of 0.2 mm on both sides; with 7 mm there are no narrows, and
/// with 5.9 mm no way.
#[test]
fn the_lane_goes_once_round_through_all_narrows() {
    let (sort, ground) = full_stop_in_room(6.3);
    let lane = lane_through_narrows(&ground).expect("four narrows");
    assert_eq!(lane.len(), 1);
    let curve = &lane[0].curve;
    assert!(curve.closed);
    // Between the circles at the radius of the cutter and at its radius and the allowance, with eight steps from one to the other.
    let round = |radius: f64| std::f64::consts::TAU * (15.0 + radius);
    let length = curve.length();
    assert!(
        (round(3.0)..round(3.2) + 8.0 * 0.4).contains(&length),
        "{length} mm"
    );
    let path = curve.fitted(lane[0].fit);
    for at in path.points(1e-4) {
        let to_room = (at.x + 6.3)
            .min(at.y + 6.3)
            .min(36.3 - at.x)
            .min(36.3 - at.y);
        let to_letter = distance_to_rings(at, &sort.face);
        assert!(
            to_letter > 3.0 && to_room > 3.0,
            "{to_letter} and {to_room} at {at:?}"
        );
    }
    for away in [7.0, 5.9] {
        assert!(lane_through_narrows(&full_stop_in_room(away).1).is_none());
    }
}

#[test]
fn the_load_is_kept_through_narrows() {
    let (sort, ground) = full_stop_in_room(6.3);
    let shop = workshop(vec![Cutter {
        step_down: Length::mm(1.5),
        ..flat(6.0, 4.0)
    }]);
    let mut order = commission(&shop);
    order.cutting.roughing = Roughing::Steady;
    let (passes, findings) = plan(&sort, &ground, &order, &shop).expect("a flat cutter");
    assert_eq!(findings, []);
    check_no_path_enters_the_letter(&sort, &passes);
    check_all_reachable_ground_is_cleared(&sort, &passes, 3.0);
    let most = loads(&sort, &passes[0], &shop.cutters[0]).last().copied();
    assert!(most.is_some_and(|most| most < 1.15), "{most:?}");
}

/// Where the cutter comes down for a cut.
fn begins(cut: &Cut) -> Point {
    match &cut.entry {
        Entry::Ramp { path, .. } => path.start,
        Entry::StayDown | Entry::Open | Entry::Plunge => cut.path.start,
    }
}

/// Ground above a bar, 66 mm long in its room: cuts that all ran one way would have to be come back for, each time by their length.
#[test]
fn cuts_along_open_ground_run_forth_and_back() {
    let bar = Region::from_ring(&rectangle(0.0, 0.0, 60.0, 20.0));
    let (passes, findings, cutter) = in_style(&sort(bar, 60.0, 44.0), Roughing::Contours);
    assert_eq!(findings, []);
    // Pieces of one cut that are fed differently begin where the one before ends.
    let goes_on = |before: &Cut, next: &Cut| {
        next.entry == Entry::StayDown
            && before.path.end() == begins(next)
            && [before, next]
                .iter()
                .all(|cut| cut.feed_mm_min <= cutter.feed_mm_min)
    };
    let roughing: Vec<&Cut> = passes
        .cuts
        .iter()
        .filter(|cut| cut.purpose == Purpose::Roughing)
        .collect();
    let (mut ways, mut along) = (0.0, 0.0);
    let mut here: Option<Point> = None;
    for pieces in roughing.chunk_by(|before, next| goes_on(before, next)) {
        let (first, last) = (pieces[0], pieces[pieces.len() - 1]);
        let length: f64 = pieces.iter().map(|cut| cut.path.length()).sum();
        ways += here.map_or(0.0, |here| here.distance(begins(first)));
        if first.feed_mm_min > cutter.feed_mm_min {
            ways += length;
        } else {
            along += length;
        }
        here = Some(last.path.end());
    }
    assert!(along > 500.0, "{along} mm");
    assert!(ways < along / 2.0, "{ways} mm to {along} mm of cuts");
}
