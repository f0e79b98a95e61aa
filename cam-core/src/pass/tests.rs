//! What the passes of whole sorts must be, judged from their paths by brute force.

use geometry::boolean::difference;
use geometry::diagram::Diagram;
use geometry::region::Region;
use kurbo::{BezPath, Point, Vec2};

use super::*;
use crate::commission::{
    BlockRules, BodyStep, Commission, Cutting, Direction, Fit, PlankRules, ProgramFiles, Roughing,
    RoundingShare, Separation, SetRounding, SetRule,
};
use crate::finding::{Finding, Severity};
use crate::measure::{Length, System};
use crate::relief::{Relief, ReliefMap};
use crate::sort::{Block, Sort};
use crate::workshop::{Cutter, CutterShape, Machine, PaperChoice, Rates, Workshop};

mod corners;
mod leaving;
mod load;
mod narrows;
mod pieces;
mod planks;
mod walls;

const LANE: f64 = 7.0;

fn flat(diameter: f64, max_depth: f64) -> Cutter {
    Cutter {
        id: format!("flat-{diameter}"),
        shape: CutterShape::Flat,
        diameter: Length::mm(diameter),
        flute_length: Length::mm(max_depth),
        max_depth: Length::mm(max_depth),
        stick_out: Length::mm(max_depth + 8.0),
        shank_diameter: Length::mm(3.175),
        modulus_gpa: 600.0,
        flutes: 2,
        centre_cutting: true,
        step_down: Length::mm(diameter * 0.5),
        step_over: Length::mm(diameter * 0.4),
        feed_mm_min: 1500.0,
        plunge_mm_min: 300.0,
        ramp_deg: 3.0,
        spindle_rpm: 18_000.0,
    }
}

fn workshop(cutters: Vec<Cutter>) -> Workshop {
    Workshop {
        machine: Machine {
            name: "bench router".into(),
            travel_mm: [300.0, 400.0, 60.0],
            rapid_mm_min: [3000.0, 3000.0, 1500.0],
            max_feed_mm_min: [2500.0, 2500.0, 800.0],
            acceleration_mm_s2: [200.0; 3],
            junction_deviation_mm: 0.01,
            spindle_rpm: [8000.0, 24_000.0],
            clear_height_mm: 5.0,
            hop_height_mm: 1.0,
            holder_diameter_mm: 30.0,
            change_minutes: 3.0,
            minutes_factor: 1.0,
            minutes_per_run: 0.0,
            squareness: None,
            dialect: "plain".into(),
        },
        cutters,
        woods: Vec::new(),
        stock: Vec::new(),
        tables: Vec::new(),
        more_machines: Vec::new(),
        rates: Rates::starting(),
        papers: PaperChoice::default(),
    }
}

fn commission(workshop: &Workshop) -> Commission {
    Commission {
        title: "Playbill".into(),
        reference: String::new(),
        customer: Vec::new(),
        date: String::new(),
        system: System::Pica,
        lines: 6.0,
        height_to_paper: Length::mm(23.3172),
        wood: "maple".into(),
        faces: Vec::new(),
        drawings: Vec::new(),
        cut_apart: Vec::new(),
        borders: Vec::new(),
        fit: Fit::EmOnBody,
        block: BlockRules {
            body_step: BodyStep::Line,
            set: SetRule::Advance,
            rounding: SetRounding::Point,
            share: RoundingShare::Even,
            least_side: Length::mm(0.5),
            common_figure_set: false,
        },
        notches: None,
        colours: None,
        bill: Vec::new(),
        spaces: Vec::new(),
        cutting: Cutting {
            cutters: workshop
                .cutters
                .iter()
                .map(|cutter| cutter.id.clone())
                .collect(),
            tolerance: Length::mm(0.01),
            relief: Length::mm(3.0),
            least_relief: Length::mm(1.0),
            narrow_width: Length::mm(2.0),
            wide_width: Length::mm(8.0),
            roughing: Roughing::Quicker,
            allowance: Length::mm(0.2),
            corner_tolerance: Length::mm(0.1),
            direction: Direction::Climb,
            least_stroke: Length::mm(0.5),
            files: ProgramFiles::PerCutter,
        },
        planks: PlankRules {
            width: Length::mm(200.0),
            length: Length::mm(300.0),
            margin: Length::mm(10.0),
            lane: Length::mm(LANE),
            separation: Separation::Saw,
            ..PlankRules::starting()
        },
        replaces: None,
    }
}

fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<Point> {
    [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
        .map(Point::from)
        .to_vec()
}

fn sort(face: Region, set: f64, body: f64) -> Sort {
    Sort {
        name: "T".into(),
        text: "T".into(),
        count: 1,
        plate: None,
        source: None,
        block: Block {
            outline: rectangle(0.0, 0.0, set, body),
            body_mm: body,
            set_mm: set,
            baseline_mm: 5.0,
            extended_pt: [0.0; 2],
            plain: face.is_empty(),
            notches: Vec::new(),
        },
        outline: BezPath::new(),
        face,
    }
}

fn ground(sort: &Sort) -> Diagram {
    let (set, body) = (sort.block.set_mm, sort.block.body_mm);
    let room = rectangle(-LANE, -LANE, set + LANE, body + LANE);
    Diagram::build(&sort.face, &room).expect("the test letters lie inside their rooms")
}

fn disc(centre: Point, radius: f64) -> Region {
    let ring: Vec<Point> = (0..720)
        .map(|half| {
            let angle = f64::from(half).to_radians() / 2.0;
            centre + Vec2::new(angle.cos(), angle.sin()) * radius
        })
        .collect();
    Region::from_ring(&ring)
}

/// An O with a counter 11 mm wide, which the 6 mm cutter can enter.
fn letter_o() -> Sort {
    let centre = Point::new(12.0, 13.0);
    let face = difference(&disc(centre, 10.0), &disc(centre, 5.5));
    sort(face, 24.0, 26.0)
}

/// An E with bays 4 mm wide, too narrow for the 6 mm cutter, with six square corners of the ground.
fn letter_e() -> Sort {
    let mut face = Region::from_ring(&rectangle(3.0, 3.0, 17.0, 21.0));
    for y in [6.5, 13.5] {
        let bay = Region::from_ring(&rectangle(7.0, y, 30.0, y + 4.0));
        face = difference(&face, &bay);
    }
    sort(face, 20.0, 24.0)
}

fn planned(sort: &Sort, cutters: &[f64]) -> (Vec<SortPasses>, Vec<Finding>, Commission) {
    let workshop = workshop(
        cutters
            .iter()
            .map(|&diameter| flat(diameter, 4.0))
            .collect(),
    );
    let commission = commission(&workshop);
    let (passes, findings) = plan(sort, &ground(sort), &commission, &workshop)
        .expect("a commission of flat cutters can be planned");
    (passes, findings, commission)
}

/// Points of a cut's path, its slope included.
fn points(cut: &Cut) -> Vec<Point> {
    let mut points = match &cut.entry {
        Entry::Ramp { path, .. } => path.points(1e-4),
        Entry::StayDown | Entry::Open | Entry::Plunge => Vec::new(),
    };
    points.extend(cut.path.points(1e-4));
    points
}

fn distance_to_rings(place: Point, region: &Region) -> f64 {
    let mut nearest = f64::INFINITY;
    for ring in region.rings() {
        for (index, &from) in ring.iter().enumerate() {
            let line = ring[(index + 1) % ring.len()] - from;
            let part = ((place - from).dot(line) / line.hypot2()).clamp(0.0, 1.0);
            nearest = nearest.min((place - from - line * part).hypot());
        }
    }
    nearest
}

fn distance_to_chain(place: Point, chain: &[Point]) -> f64 {
    chain
        .windows(2)
        .map(|pair| {
            let line = pair[1] - pair[0];
            let part = ((place - pair[0]).dot(line) / line.hypot2().max(1e-300)).clamp(0.0, 1.0);
            (place - pair[0] - line * part).hypot()
        })
        .fold(f64::INFINITY, f64::min)
}

fn radius(passes: &SortPasses) -> f64 {
    let diameter = passes.cutter.trim_start_matches("flat-");
    diameter.parse::<f64>().expect("ids end in the diameter") / 2.0
}

/// The full-depth lanes of all cutters: radius and centre line.
/// What a cut clears: the cutter's radius, the depth, and the way of its centre.
struct Lane {
    radius: f64,
    depth: f64,
    chain: Vec<Point>,
}

fn lanes(passes: &[SortPasses]) -> Vec<Lane> {
    passes
        .iter()
        .flat_map(|passes| {
            let radius = radius(passes);
            passes.cuts.iter().map(move |cut| Lane {
                radius,
                depth: cut.depth_mm,
                chain: cut.path.points(1e-3),
            })
        })
        .collect()
}

fn is_cleared(place: Point, depth: f64, lanes: &[Lane]) -> bool {
    lanes
        .iter()
        .filter(|lane| lane.depth >= depth - 1e-9)
        .any(|lane| distance_to_chain(place, &lane.chain) <= lane.radius + 1e-3)
}

fn check_no_path_enters_the_letter(sort: &Sort, passes: &[SortPasses]) {
    for passes in passes {
        let radius = radius(passes);
        for cut in &passes.cuts {
            for place in points(cut) {
                let found = distance_to_rings(place, &sort.face);
                assert!(
                    found >= radius - 1e-6,
                    "{found} mm at {place:?}, {}",
                    passes.cutter
                );
            }
        }
    }
}

/// Every place of the block that some allowed place of a cutter covers must be in a lane as deep as the relief asks for, or as the
/// cutters go. Allowed places are tried on a lattice, at the finishing distance.
fn check_all_reachable_ground_is_cleared(sort: &Sort, passes: &[SortPasses], deepest: f64) {
    let lanes = lanes(passes);
    let asked = Relief::of(&commission(&workshop(Vec::new())).cutting);
    let relief = ReliefMap::of(&ground(sort), &asked);
    let (set, body) = (sort.block.set_mm, sort.block.body_mm);
    let lattice = |step: f64, beyond: f64| {
        let across = ((set + 2.0 * beyond) / step) as usize;
        let along = ((body + 2.0 * beyond) / step) as usize;
        (0..=across).flat_map(move |i| {
            (0..=along).map(move |j| Point::new(i as f64 * step - beyond, j as f64 * step - beyond))
        })
    };
    let room = Region::from_ring(&rectangle(-LANE, -LANE, set + LANE, body + LANE));
    let allowed: Vec<(f64, Point)> = passes
        .iter()
        .flat_map(|passes| {
            let radius = radius(passes);
            let is_allowed = |place: &Point| {
                let clear = radius + 0.0051;
                !sort.face.contains(*place)
                    && distance_to_rings(*place, &sort.face) >= clear
                    && distance_to_rings(*place, &room) >= clear
            };
            lattice(0.25, LANE)
                .filter(is_allowed)
                .map(move |place| (radius, place))
                .collect::<Vec<_>>()
        })
        .collect();
    let mut reachable = 0;
    for place in lattice(0.31, 0.0).filter(|&place| !sort.face.contains(place)) {
        // A raster's cell inside what is reached, for that is what clearing goes by.
        let reached = |(radius, centre): &(f64, Point)| place.distance(*centre) <= radius - 0.2;
        if allowed.iter().any(reached) {
            reachable += 1;
            let depth = relief.depth_at(place).min(deepest);
            assert!(is_cleared(place, depth, &lanes), "{place:?} is left");
        }
    }
    assert!(reachable > 300, "the check saw {reachable} places");
}

#[test]
fn an_o_is_cleared_inside_and_outside_and_never_entered() {
    let sort = letter_o();
    let (passes, findings, _) = planned(&sort, &[6.0]);
    assert_eq!(findings, []);
    check_no_path_enters_the_letter(&sort, &passes);
    check_all_reachable_ground_is_cleared(&sort, &passes, 3.0);
}

/// The middle of the O's counter, and the first cut of a cutter of 6 mm in it.
fn first_in_counter(centre_cutting: bool) -> (Point, Cut) {
    let sort = letter_o();
    let shop = workshop(vec![Cutter {
        centre_cutting,
        ..flat(6.0, 4.0)
    }]);
    let order = commission(&shop);
    let (passes, _) = plan(&sort, &ground(&sort), &order, &shop).expect("it is flat");
    check_no_path_enters_the_letter(&sort, &passes);
    check_all_reachable_ground_is_cleared(&sort, &passes, 3.0);
    let centre = Point::new(12.0, 13.0);
    let mut cuts = passes[0].cuts.iter();
    let first = cuts
        .find(|cut| cut.path.start.distance(centre) < 5.0)
        .expect("the counter is cleared");
    (centre, first.clone())
}

#[test]
fn a_closed_counter_is_entered_by_a_helix_at_its_widest_by_a_cutter_that_needs_a_slope() {
    let (centre, first) = first_in_counter(false);
    let Entry::Ramp { path, .. } = &first.entry else {
        panic!("the counter was entered by {:?}", first.entry);
    };
    let slope = (first.depth_mm / path.length()).atan().to_degrees();
    assert!(slope <= 3.0 + 1e-9, "{slope} degrees");
    assert!(
        path.points(1e-3)
            .iter()
            .all(|place| place.distance(centre) < 2.5 - 0.2)
    );
    assert_eq!(path.end(), first.path.start);
}

/// Three millimetres at 300 mm/min take 0.6 s; a slope of 3 degrees is 57 mm long, 3.8 s at six tenths of 25 mm/s.
#[test]
fn a_cutter_that_may_goes_straight_down_into_a_closed_counter() {
    let (_, first) = first_in_counter(true);
    assert_eq!(first.entry, Entry::Plunge);
}

#[test]
fn the_e_is_cleared_by_a_set_of_cutters_each_taking_what_is_left() {
    let sort = letter_e();
    let (passes, findings, _) = planned(&sort, &[0.8, 6.0, 3.0, 1.5]);
    assert_eq!(findings, []);
    let order: Vec<&str> = passes.iter().map(|passes| passes.cutter.as_str()).collect();
    assert_eq!(order, ["flat-6", "flat-3", "flat-1.5", "flat-0.8"]);
    check_no_path_enters_the_letter(&sort, &passes);
    check_all_reachable_ground_is_cleared(&sort, &passes, 3.0);
    let cleared = |passes: &SortPasses| -> f64 {
        passes
            .cuts
            .iter()
            .filter(|cut| cut.depth_mm == 3.0 && cut.purpose != Purpose::Finishing)
            .map(|cut| cut.path.length())
            .sum()
    };
    let outside = cleared(&passes[0]);
    assert!(outside > 80.0, "{outside} mm of roughing");
    // The bays hold some 10 mm each for the 3 mm cutter; the small ones find corners alone.
    assert!(cleared(&passes[1]) < 80.0, "{}", cleared(&passes[1]));
    assert!(cleared(&passes[2]) < 30.0, "{}", cleared(&passes[2]));
    assert!(cleared(&passes[3]) < 20.0, "{}", cleared(&passes[3]));
}

/// Wherever a cutter comes straight down or feeds over to the next cut, earlier cuts must have cleared its way to that depth:
/// tried at its middle and at places round it, at 0.8 of its radius. The allowance beside walls may still stand.
fn check_ways_are_cleared(sort: &Sort, passes: &[SortPasses]) -> (usize, usize) {
    let mut lanes: Vec<(f64, f64, Vec<Point>)> = Vec::new();
    let (mut opened, mut stayed) = (0, 0);
    for passes in passes {
        let radius = radius(passes);
        let mut here: Option<(Point, f64)> = None;
        for cut in &passes.cuts {
            let way: Vec<Point> = match &cut.entry {
                Entry::Open => {
                    opened += 1;
                    vec![cut.path.start]
                }
                Entry::StayDown => {
                    stayed += 1;
                    let (from, depth) = here.expect("the first cut does not stay down");
                    assert!(
                        (depth - cut.depth_mm).abs() < 1e-9,
                        "{depth}, {}",
                        cut.depth_mm
                    );
                    (0..=12)
                        .map(|part| from.lerp(cut.path.start, f64::from(part) / 12.0))
                        .collect()
                }
                Entry::Plunge | Entry::Ramp { .. } => Vec::new(),
            };
            for at in way {
                let rim = (0..12).map(|hour| {
                    let angle = f64::from(hour * 30).to_radians();
                    at + Vec2::new(angle.cos(), angle.sin()) * (0.8 * radius)
                });
                for place in rim.chain([at]) {
                    let cleared = lanes.iter().any(|(lane, depth, chain)| {
                        *depth >= cut.depth_mm - 1e-9
                            && distance_to_chain(place, chain) <= lane + 0.01
                    });
                    let beside = distance_to_rings(place, &sort.face) < 0.25;
                    assert!(cleared || beside, "{place:?}, {} at {at:?}", passes.cutter);
                }
            }
            lanes.push((radius, cut.depth_mm, cut.path.points(2e-3)));
            here = Some((cut.path.end(), cut.depth_mm));
        }
    }
    (opened, stayed)
}

#[test]
fn cutters_come_down_and_cross_over_only_where_the_ground_is_cleared() {
    for (sort, cutters) in [
        (letter_o(), vec![6.0, 2.0]),
        (letter_e(), vec![6.0, 3.0, 1.5, 0.8]),
    ] {
        let (passes, ..) = planned(&sort, &cutters);
        let (opened, stayed) = check_ways_are_cleared(&sort, &passes);
        assert!(opened + stayed > 3, "{opened}, {stayed}");
    }
}

#[test]
fn a_cutter_that_cannot_cut_straight_down_never_does() {
    let sort = letter_e();
    let mut cutters = vec![flat(6.0, 4.0), flat(3.0, 4.0), flat(1.0, 4.0)];
    for cutter in &mut cutters {
        cutter.centre_cutting = false;
    }
    let shop = workshop(cutters);
    let order = commission(&shop);
    let (passes, _) = plan(&sort, &ground(&sort), &order, &shop).expect("they are flat");
    check_no_path_enters_the_letter(&sort, &passes);
    let mut cuts = passes.iter().flat_map(|passes| &passes.cuts);
    assert!(cuts.all(|cut| cut.entry != Entry::Plunge));
    check_all_reachable_ground_is_cleared(&sort, &passes, 3.0);
}

#[test]
fn a_second_cutter_has_nothing_to_do_where_the_first_reaches_everything() {
    let (passes, findings, _) = planned(&letter_o(), &[6.0, 1.0]);
    assert_eq!(findings, []);
    assert_eq!(passes[1].cuts, []);
}

/// With the spindle clockwise the edges on the right of the feed move backwards; climb cutting has the wood there.
#[test]
fn walls_are_climbed_with_the_letter_on_the_right_unless_asked_otherwise() {
    let sort = letter_o();
    let workshop = workshop(vec![flat(6.0, 4.0)]);
    let mut commission = commission(&workshop);
    for (direction, wanted) in [(Direction::Climb, 1.0), (Direction::Conventional, -1.0)] {
        commission.cutting.direction = direction;
        let (passes, _) = plan(&sort, &ground(&sort), &commission, &workshop)
            .expect("one flat cutter can be planned");
        let mut seen = 0;
        for cut in passes[0]
            .cuts
            .iter()
            .filter(|cut| cut.purpose == Purpose::Finishing)
        {
            let length = cut.path.length();
            for part in 10..90 {
                let (at, along) = cut.path.at(length * f64::from(part) / 100.0);
                let right = Vec2::new(along.y, -along.x) * wanted;
                let (near, far) = (at + right * 3.1, at - right * 3.1);
                if distance_to_rings(at, &sort.face) < 3.02 {
                    assert!(sort.face.contains(near), "{direction:?} at {at:?}");
                    assert!(!sort.face.contains(far), "{direction:?} at {at:?}");
                    seen += 1;
                }
            }
        }
        assert!(seen > 100, "{seen} places of finishing walls");
    }
}

#[test]
fn finished_walls_lie_on_the_drawn_line_within_the_tolerance() {
    for (sort, cutters) in [(letter_o(), vec![6.0]), (letter_e(), vec![6.0, 3.0])] {
        let (passes, ..) = planned(&sort, &cutters);
        let walls: Vec<(f64, Vec<Point>)> = passes
            .iter()
            .flat_map(|passes| {
                let radius = radius(passes);
                passes
                    .cuts
                    .iter()
                    .filter(|cut| cut.purpose == Purpose::Finishing)
                    .map(move |cut| (radius, cut.path.points(1e-4)))
            })
            .collect();
        let mut checked = 0;
        for ring in sort.face.rings() {
            for (index, &from) in ring.iter().enumerate() {
                let at = from.midpoint(ring[(index + 1) % ring.len()]);
                let gap = walls
                    .iter()
                    .map(|(radius, chain)| distance_to_chain(at, chain) - radius)
                    .fold(f64::INFINITY, f64::min);
                assert!((0.0..=0.01).contains(&gap), "{gap} mm at {at:?}");
                checked += 1;
            }
        }
        assert!(checked >= 12);
    }
}

#[test]
fn layers_never_exceed_the_step_and_end_at_what_the_cutter_can() {
    let workshop = workshop(vec![flat(6.0, 4.0), flat(1.0, 2.0)]);
    let mut commission = commission(&workshop);
    commission.cutting.least_relief = Length::mm(2.5);
    let sort = letter_e();
    let (passes, findings) =
        plan(&sort, &ground(&sort), &commission, &workshop).expect("flat cutters can be planned");
    for (passes, deepest, step) in [(&passes[0], 3.0, 3.0), (&passes[1], 2.0, 0.5)] {
        let mut depths: Vec<f64> = passes
            .cuts
            .iter()
            .filter(|cut| cut.purpose != Purpose::Finishing)
            .map(|cut| cut.depth_mm)
            .collect();
        depths.sort_by(f64::total_cmp);
        depths.dedup();
        assert_eq!(depths.last(), Some(&deepest));
        let mut above = 0.0;
        for depth in depths {
            assert!(
                depth - above <= step + 1e-9,
                "a layer from {above} to {depth}"
            );
            above = depth;
        }
    }
    let kinds: Vec<&str> = findings.iter().map(|finding| finding.kind).collect();
    assert_eq!(kinds, ["ground-too-shallow"]);
}

#[test]
fn a_space_is_lowered_all_over() {
    let space = sort(Region::default(), 8.0, 25.0);
    let (passes, findings, _) = planned(&space, &[6.0]);
    assert_eq!(findings, []);
    let lanes = lanes(&passes);
    for x in 0..=16 {
        for y in 0..=50 {
            let place = Point::new(f64::from(x) * 0.5, f64::from(y) * 0.5);
            assert!(is_cleared(place, 3.0, &lanes), "{place:?} is left");
        }
    }
}

#[test]
fn unknown_and_unfit_cutters_are_said() {
    let sort = letter_e();
    let mut shop = workshop(vec![flat(6.0, 4.0)]);
    let mut order = commission(&shop);
    order.cutting.cutters.push("flat-9".into());
    let error = plan(&sort, &ground(&sort), &order, &shop).expect_err("there is no flat-9");
    assert_eq!(error, PassError::UnknownCutter("flat-9".into()));
    let mut ball = flat(2.0, 4.0);
    ball.shape = CutterShape::Ball;
    ball.id = "ball-2".into();
    shop.cutters.push(ball);
    order.cutting.cutters[1] = "ball-2".into();
    let (passes, findings) =
        plan(&sort, &ground(&sort), &order, &shop).expect("the flat cutter remains");
    assert_eq!(passes.len(), 1);
    assert_eq!(findings[0].kind, "cutter-not-flat");
    assert_eq!(findings[0].severity, Severity::Warning);
    order.cutting.cutters.remove(0);
    let error = plan(&sort, &ground(&sort), &order, &shop).expect_err("no flat cutter is left");
    assert_eq!(error, PassError::NoFlatCutter);
}

#[test]
fn the_same_input_gives_the_same_passes() {
    let sort = letter_e();
    let (one, ..) = planned(&sort, &[6.0, 3.0, 1.0]);
    let (other, ..) = planned(&sort, &[6.0, 3.0, 1.0]);
    assert_eq!(one, other);
}
