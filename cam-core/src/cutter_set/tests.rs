use std::collections::BTreeMap;

use geometry::region::region_from_outline;
use kurbo::{BezPath, Point, Rect, Shape};

use super::choice::{all_sets, depths, step, steps};
use super::*;
use crate::commission::{Face, Permission, Separation};
use crate::measure::{Length, System};
use crate::pass;
use crate::sort::{Block, FLATTENING_MM};
use crate::toolpath::{duration, join_one};
use crate::workshop::CutterShape;

/// A sort of 18 by 20 mm with a face made of rectangles.
fn sort(name: &str, count: u32, bars: &[(f64, f64, f64, f64)]) -> Arc<Sort> {
    let outline: BezPath = bars
        .iter()
        .flat_map(|&(x0, y0, x1, y1)| Rect::new(x0, y0, x1, y1).to_path(0.1))
        .collect();
    let [right, top] = [18.0, 20.0];
    Arc::new(Sort {
        name: name.to_owned(),
        text: name.to_owned(),
        count,
        source: None,
        plate: None,
        block: Block {
            outline: [(0.0, 0.0), (right, 0.0), (right, top), (0.0, top)]
                .map(Point::from)
                .to_vec(),
            body_mm: top,
            set_mm: right,
            baseline_mm: 2.0,
            extended_pt: [0.0; 2],
            plain: false,
            notches: Vec::new(),
        },
        face: region_from_outline(&outline, FLATTENING_MM).expect("rectangles are a face"),
        outline,
    })
}

/// An E with two gaps of 2.5 mm, and an L.
fn sorts() -> Vec<Arc<Sort>> {
    vec![
        sort(
            "E",
            3,
            &[
                (3.0, 2.0, 6.0, 18.0),
                (6.0, 2.0, 14.0, 5.0),
                (6.0, 7.5, 14.0, 10.5),
                (6.0, 13.0, 14.0, 18.0),
            ],
        ),
        sort("L", 2, &[(3.0, 2.0, 7.0, 18.0), (7.0, 2.0, 15.0, 6.0)]),
    ]
}

fn workshop(diameters: &[f64]) -> Workshop {
    let mut workshop = Workshop::starting();
    let pattern = workshop.cutters[0].clone();
    workshop.cutters = diameters
        .iter()
        .map(|&diameter| Cutter {
            id: format!("flat-{diameter}"),
            diameter: Length::mm(diameter),
            step_down: Length::mm(0.5 * diameter),
            step_over: Length::mm(0.4 * diameter),
            feed_mm_min: 300.0 * diameter,
            ..pattern.clone()
        })
        .collect();
    workshop
}

fn commission(named: &[&str]) -> Commission {
    let face = Face {
        id: "face".into(),
        file: "face.ttf".into(),
        sha256: String::new(),
        index: 0,
        variations: BTreeMap::new(),
        permission: Permission::default(),
    };
    let mut commission = Commission::starting("Trial", System::Pica, 5.0, face);
    commission.cutting.cutters = named.iter().map(|&id| id.to_owned()).collect();
    commission.cutting.corner_tolerance = Length::mm(0.3);
    commission.planks.separation = Separation::Saw;
    commission
}

fn compared(commission: &Commission, workshop: &Workshop, sorts: &[Arc<Sort>]) -> CutterSets {
    let planks = plank::lay_out(sorts, commission, workshop)
        .expect("they fit")
        .planks;
    let job = Job {
        commission,
        workshop,
        planks: &planks,
        sorts,
    };
    compare(&job, &Progress::new()).expect("sets can be compared")
}

/// Minutes of the machine for a set whose passes are planned whole, without moves from copy to copy.
fn planned_whole(set: &[String], commission: &Commission, workshop: &Workshop) -> f64 {
    let mut commission = commission.clone();
    commission.cutting.cutters = set.to_vec();
    let mut seconds = 0.0;
    for sort in sorts() {
        let ground = crate::survey::ground(&sort, commission.planks.lane).expect("ground");
        let (passes, _) = pass::plan(&sort, &ground, &commission, workshop).expect("passes");
        for passes in &passes {
            let cutter = workshop.cutter(&passes.cutter).expect("owned");
            let toolpath = join_one(passes, cutter, &workshop.machine);
            seconds +=
                f64::from(sort.count) * duration::of_motions(&toolpath.motions, &workshop.machine);
        }
    }
    seconds / 60.0
}

/// Every set planned whole against the same set added up from pairs.
#[test]
fn sets_added_up_cost_what_they_cost_planned_whole() {
    let workshop = workshop(&[6.0, 3.0, 1.5]);
    let commission = commission(&["flat-6", "flat-3", "flat-1.5"]);
    let found = compared(&commission, &workshop, &sorts());
    assert_eq!(found.sets.len(), 7);
    let mut cheapest: Option<(f64, &PricedSet)> = None;
    for set in &found.sets {
        let whole = planned_whole(&set.cutters, &commission, &workshop);
        // Cells are those of the smallest cutter compared, not of the smallest in the set; and a hop of about a second a copy
        // and cutter comes on top.
        let hops = 5.0 * set.cutters.len() as f64 * 0.7 / 60.0;
        let apart = (set.machine_minutes - whole).abs();
        assert!(
            apart <= 0.04 * whole + hops,
            "{:?}: {} against {whole}",
            set.cutters,
            set.machine_minutes
        );
        let cost =
            set.cost + (whole - set.machine_minutes) * workshop.rates.machine_per_hour / 60.0;
        if cheapest.is_none_or(|(least, _)| cost < least) {
            cheapest = Some((cost, set));
        }
    }
    let (_, cheapest) = cheapest.expect("seven sets");
    assert_eq!(Some(cheapest), found.best());
}

#[test]
fn what_hours_cost_decides_the_set() {
    let mut workshop = workshop(&[6.0, 3.0, 1.0]);
    let commission = commission(&["flat-6", "flat-3"]);
    // Handwork for nothing and changes for nothing: the machine's time alone decides, and the small cutter only adds to it.
    workshop.rates.hand_per_hour = 0.0;
    workshop.machine.change_minutes = 0.0;
    let idle = compared(&commission, &workshop, &sorts());
    let least = idle
        .sets
        .iter()
        .map(|set| set.machine_minutes)
        .fold(f64::INFINITY, f64::min);
    assert_eq!(idle.best().map(|set| set.machine_minutes), Some(least));
    // Dear hands: no corner is left that a cutter could have reached.
    workshop.rates.hand_per_hour = 10_000.0;
    let dear = compared(&commission, &workshop, &sorts());
    let best = dear.best().expect("a set");
    assert!(best.cutters.contains(&"flat-1".to_owned()), "{best:?}");
    assert_eq!(best.corners, 0, "{best:?}");
    // The commission's own set is told among them, with corners left: 4 in each E and 1 in each L.
    let named = &dear.sets[dear.named.expect("both were compared")];
    assert_eq!(named.cutters, ["flat-6", "flat-3"]);
    assert_eq!(named.corners, 3 * 4 + 2);
    // An hour has sixty minutes.
    let hours = |minutes: f64| minutes / 60.0;
    let machine = hours(named.machine_minutes + named.change_minutes);
    let hand = hours(named.hand_minutes + named.change_minutes);
    assert!((named.cost - machine * 12.0 - hand * 10_000.0).abs() < 1e-9 * named.cost);
}

#[test]
fn one_more_cutter_is_told_owned_or_not() {
    let workshop = workshop(&[6.0, 3.0, 2.0]);
    let commission = commission(&["flat-6"]);
    let found = compared(&commission, &workshop, &sorts());
    let best = found.best().expect("a set");
    for more in &found.one_more {
        assert!((more.saves - (best.cost - more.with_it.cost)).abs() < 1e-9);
        if more.owned {
            assert!(!best.cutters.contains(&more.cutter));
            assert!(
                more.saves <= 0.0,
                "the cheapest set is no cheaper with {more:?}"
            );
        }
    }
    let owned = found.one_more.iter().filter(|more| more.owned).count();
    assert_eq!(owned, 3 - best.cutters.len());
    let new: Vec<&OneMore> = found.one_more.iter().filter(|more| !more.owned).collect();
    assert_eq!(new.len(), 3);
    for more in new {
        assert_eq!(more.with_it.cutters.len(), best.cutters.len() + 1);
        assert_eq!(more.with_it.corners, best.corners - more.corners_spared);
    }
}

#[test]
fn one_thread_and_many_give_the_same() {
    let workshop = workshop(&[6.0, 2.0]);
    let commission = commission(&["flat-6"]);
    let many = compared(&commission, &workshop, &sorts());
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(1)
        .build()
        .expect("one thread");
    let one = pool.install(|| compared(&commission, &workshop, &sorts()));
    assert_eq!(one, many);
}

#[test]
fn a_stop_is_heeded() {
    let workshop = workshop(&[6.0, 2.0]);
    let commission = commission(&["flat-6"]);
    let sorts = sorts();
    let planks = plank::lay_out(&sorts, &commission, &workshop)
        .expect("they fit")
        .planks;
    let job = Job {
        commission: &commission,
        workshop: &workshop,
        planks: &planks,
        sorts: &sorts,
    };
    let progress = Progress::new();
    progress.stop();
    assert!(matches!(
        compare(&job, &progress),
        Err(MakeError::Stopped(_))
    ));
}

#[test]
fn eight_cutters_are_compared_and_the_rest_told() {
    let mut workshop = workshop(&[8.0, 6.0, 5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.8]);
    workshop.cutters[1].shape = CutterShape::Ball;
    workshop.cutters[2].max_depth = Length::mm(0.5);
    let mut extra = workshop.cutters[8].clone();
    extra.id = "flat-0.6".to_owned();
    extra.diameter = Length::mm(0.6);
    let mut last = extra.clone();
    last.id = "flat-0.5".to_owned();
    last.diameter = Length::mm(0.5);
    workshop.cutters.extend([extra, last]);
    let choice = choice::choose(&commission(&["flat-0.5"]), &workshop);
    let ids: Vec<&str> = choice
        .cutters
        .iter()
        .map(|cutter| cutter.id.as_str())
        .collect();
    assert_eq!(
        ids,
        [
            "flat-8", "flat-4", "flat-3", "flat-2", "flat-1.5", "flat-1", "flat-0.8", "flat-0.5"
        ]
    );
    let left: Vec<&str> = choice
        .left_out
        .iter()
        .map(|left| left.cutter.as_str())
        .collect();
    assert_eq!(left, ["flat-6", "flat-5", "flat-0.6"]);
}

#[test]
fn a_turn_counts_the_cutters_before_it_that_matter() {
    let workshop = workshop(&[6.0, 3.0, 2.0, 1.0]);
    let cutters: Vec<&Cutter> = workshop.cutters.iter().collect();
    let level = depths(&cutters, &commission(&[]));
    let sets = all_sets(&cutters, &level);
    assert_eq!(sets.len(), 15);
    // Where all go as deep: four alone, and six pairs.
    assert_eq!(steps(&sets, &cutters, &level).len(), 10);
    assert_eq!(step(&[0, 1, 2, 3], 3, &cutters, &level), [2, 3]);
    // The third goes less deep: after it, the next deeper one before it counts as well.
    let shallow = [3.0, 3.0, 1.5, 3.0];
    assert_eq!(step(&[0, 1, 2, 3], 3, &cutters, &shallow), [1, 2, 3]);
    assert_eq!(step(&[0, 1, 2, 3], 2, &cutters, &shallow), [1, 2]);
    assert_eq!(step(&[0, 2], 0, &cutters, &shallow), [0]);
}

/// The least time of each cutter alone against what its passes take.
#[test]
fn no_cutter_clears_faster_than_the_bound() {
    let workshop = workshop(&[6.0, 3.0, 1.5]);
    let commission = commission(&["flat-6"]);
    let found = compared(&commission, &workshop, &sorts());
    let cutters: Vec<&Cutter> = workshop.cutters.iter().collect();
    let sorts = sorts();
    let planks = plank::lay_out(&sorts, &commission, &workshop)
        .expect("they fit")
        .planks;
    let job = Job {
        commission: &commission,
        workshop: &workshop,
        planks: &planks,
        sorts: &sorts,
    };
    let progress = Progress::new();
    let (grounds, _) = time::map_grounds(&job, &progress).expect("mapped");
    let ends = (0..3).map(|number| vec![number]).collect();
    let by_hand = hand::by_hand(&job, &grounds, &cutters, &ends, &progress).expect("surveyed");
    let depths = depths(&cutters, &commission);
    let least = bound::least_seconds_alone(&job, &cutters, &depths, &by_hand);
    for (cutter, least) in cutters.iter().zip(least) {
        let alone = found
            .sets
            .iter()
            .find(|set| set.cutters == [cutter.id.clone()]);
        let taken = alone.expect("few sets are all priced").machine_minutes * 60.0;
        assert!(least < taken, "{}: {least} of {taken}", cutter.id);
        // Of small cutters clearing takes most of the time.
        if cutter.radius_mm() < 1.0 {
            assert!(least > 0.2 * taken, "{}: {least} of {taken}", cutter.id);
        }
    }
}

/// With more sets than are listed, the cheapest are the same as when all are planned.
#[test]
fn sets_passed_over_are_dearer_than_those_listed() {
    let workshop = workshop(&[6.0, 3.0, 2.0, 1.0, 0.6]);
    let commission = commission(&["flat-6"]);
    let found = compared(&commission, &workshop, &sorts());
    assert_eq!(found.sets.len() + found.dearer, 31);
    assert!(found.dearer > 0 && found.sets.len() >= MOST_LISTED);
    let limit = found.sets[MOST_LISTED - 1].cost;
    // All sets that begin with the smallest are only itself, which was passed over.
    let mut alone = workshop.clone();
    alone.cutters = vec![workshop.cutters[4].clone()];
    let dear = compared(&commission, &alone, &sorts());
    assert!(dear.sets[0].cost > limit);
    assert!(found.sets.iter().all(|set| set.cutters != ["flat-0.6"]));
}

#[test]
fn a_cutter_of_the_same_size_makes_no_set_of_its_own() {
    let mut workshop = workshop(&[6.0, 3.0]);
    let mut twin = workshop.cutters[0].clone();
    twin.id = "flat-6-twin".to_owned();
    workshop.cutters.push(twin);
    let cutters: Vec<&Cutter> = vec![
        &workshop.cutters[0],
        &workshop.cutters[2],
        &workshop.cutters[1],
    ];
    let depths = depths(&cutters, &commission(&[]));
    let sets = all_sets(&cutters, &depths);
    assert_eq!(sets.len(), 5, "{sets:?}");
}

/// A cone sharpens what the smallest flat cutter leaves: no corner stays for the knife, for a little time of the machine.
#[test]
fn a_cone_spares_the_knife() {
    let mut workshop = workshop(&[6.0, 3.0, 1.5]);
    let cone = Workshop::starting().cutter("cone-60").cloned();
    workshop.cutters.extend(cone);
    let commission = commission(&["flat-6", "flat-3", "flat-1.5", "cone-60"]);
    let found = compared(&commission, &workshop, &sorts());
    let of = |ids: &[&str]| {
        let set = found.sets.iter().find(|set| set.cutters == ids);
        set.cloned().unwrap_or_default()
    };
    let flat = of(&["flat-6", "flat-3", "flat-1.5"]);
    let named = of(&["flat-6", "flat-3", "flat-1.5", "cone-60"]);
    assert_eq!(found.named.map(|place| &found.sets[place]), Some(&named));
    assert_eq!((flat.corners, named.corners), (14, 0));
    assert!(named.ground_cm2 < flat.ground_cm2);
    assert!(named.machine_minutes > flat.machine_minutes);
    assert_eq!(named.changes, flat.changes + 1);
    let whole = planned_whole(&named.cutters, &commission, &workshop);
    let apart = (named.machine_minutes - whole).abs();
    assert!(
        apart <= 0.04 * whole + 5.0 * 4.0 * 0.7 / 60.0,
        "{named:?} against {whole}"
    );
}
