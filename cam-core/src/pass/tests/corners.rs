//! Corners and narrow ground after a conical cutter, measured at the face from its cuts.

use geometry::distance::{WallIndex, clear_of_place};
use geometry::reach::corner_gap;

use super::*;

/// A cone 6 mm wide that may go 4 mm deep.
fn cone(tip: f64, included_angle_deg: f64) -> Cutter {
    Cutter {
        id: format!("cone-{included_angle_deg}-{tip}"),
        shape: CutterShape::Conical {
            tip: Length::mm(tip),
            included_angle_deg,
        },
        diameter: Length::mm(6.0),
        flute_length: Length::mm(5.0),
        step_down: Length::mm(0.5),
        step_over: Length::mm(0.2),
        ..flat(6.0, 4.0)
    }
}

/// A plate with a notch of so many degrees whose point lies at 15, 12.
fn notched(angle_deg: f64) -> (Sort, Point) {
    let point = Point::new(15.0, 12.0);
    let half = (angle_deg / 2.0).to_radians();
    let up = 8.0_f64.min(9.0 / half.tan());
    let aside = up * half.tan();
    let face = Region::from_ring(&[
        Point::new(3.0, 3.0),
        Point::new(27.0, 3.0),
        Point::new(27.0, 12.0 + up),
        Point::new(point.x + aside, 12.0 + up),
        point,
        Point::new(point.x - aside, 12.0 + up),
        Point::new(3.0, 12.0 + up),
    ]);
    (sort(face, 30.0, 30.0), point)
}

/// Every motion of the cuts, as ends and radii at the face.
fn motions(cuts: &[Cut], tip: f64, slope: f64) -> Vec<[(Point, f64); 2]> {
    let mut motions = Vec::new();
    for cut in cuts {
        let radius = |steps: usize| tip / 2.0 + slope * cut.depth_after(steps);
        motions.push([(cut.path.start, radius(0)); 2]);
        for (number, (from, step)) in cut.path.from_and_steps().enumerate() {
            motions.push([(from, radius(number)), (step.to(), radius(number + 1))]);
        }
    }
    motions
}

/// How far a place stays from what is cut at the face.
fn gap(at: Point, motions: &[[(Point, f64); 2]]) -> f64 {
    motions
        .iter()
        .map(|[(a, one), (b, other)]| clear_of_place(*a, *b, [*one, *other], at))
        .fold(f64::INFINITY, f64::min)
}

fn check_never_in_the_letter(sort: &Sort, motions: &[[(Point, f64); 2]]) {
    let walls = WallIndex::new(sort.face.rings());
    for [(a, one), (b, other)] in motions {
        let clear = walls.clear_of_taper(*a, *b, [*one, *other], 1.0);
        assert!(clear >= 0.0019, "{clear} mm from the letter at {a:?}");
        assert!(!sort.face.contains(*a));
    }
}

#[test]
fn corners_are_as_sharp_as_the_tip() {
    for angle in [25.0, 40.0, 60.0, 90.0, 120.0, 150.0] {
        for included in [30.0, 60.0, 90.0] {
            for tip in [0.1, 0.2, 0.5] {
                let (sort, point) = notched(angle);
                let workshop = workshop(vec![flat(3.0, 4.0), flat(0.8, 3.2), cone(tip, included)]);
                let order = commission(&workshop);
                let (passes, findings) =
                    plan(&sort, &ground(&sort), &order, &workshop).expect("it can be planned");
                assert_eq!(findings, [], "{angle}°, cone of {included}°, tip {tip}");
                let slope = f64::to_radians(included / 2.0).tan();
                let made = motions(&passes[2].cuts, tip, slope);
                check_never_in_the_letter(&sort, &made);
                let sharp = gap(point, &made);
                let ideal = corner_gap(tip / 2.0, angle.to_radians());
                assert!(
                    sharp <= ideal + 0.02 && sharp >= ideal,
                    "{angle}°, cone of {included}°, tip {tip}: {sharp}, at best {ideal}"
                );
                for cut in &passes[2].cuts {
                    assert_eq!(cut.purpose, Purpose::Corners);
                    assert!(cut.depth_mm <= 3.0 && cut.end_depth_mm() < 1e-9);
                }
            }
        }
    }
}

/// The walls from the corner to where the flat cutter took over are cut at the face without a gap.
#[test]
fn walls_into_a_corner_are_cut_at_the_face() {
    let (sort, point) = notched(50.0);
    let workshop = workshop(vec![flat(3.0, 4.0), flat(1.5, 3.2), cone(0.2, 60.0)]);
    let (passes, _) =
        plan(&sort, &ground(&sort), &commission(&workshop), &workshop).expect("it can be planned");
    let slope = f64::to_radians(30.0).tan();
    let cone = motions(&passes[2].cuts, 0.2, slope);
    let flat: Vec<[(Point, f64); 2]> = passes[..2]
        .iter()
        .flat_map(|passes| passes.cuts.iter().map(|cut| (cut, radius(passes))))
        .flat_map(|(cut, radius)| {
            let points = cut.path.points(1e-4);
            let pairs: Vec<_> = points
                .windows(2)
                .map(|ends| [(ends[0], radius), (ends[1], radius)])
                .collect();
            pairs
        })
        .collect();
    let up = Vec2::new(f64::to_radians(25.0).sin(), f64::to_radians(25.0).cos());
    for part in 50..400 {
        let at = point + up * (0.01 * f64::from(part));
        let left = gap(at, &cone).min(gap(at, &flat));
        assert!((0.0..=0.01).contains(&left), "{left} mm of wood at {at:?}");
    }
}

/// Two round walls that meet, and the inside of a crescent.
#[test]
fn corners_between_curves_are_sharp() {
    let lens = difference(&disc(Point::new(15.0, 15.0), 11.0), &{
        let one = disc(Point::new(11.0, 15.0), 7.0);
        let other = disc(Point::new(19.0, 15.0), 7.0);
        geometry::boolean::intersection(&one, &other)
    });
    let sort = sort(lens, 30.0, 30.0);
    // The circles meet at 15, 15 ± √33, their tangents at 2·acos(4/7).
    let points = [-1.0, 1.0].map(|side: f64| Point::new(15.0, 15.0 + side * 33.0_f64.sqrt()));
    let angle = 2.0 * (4.0_f64 / 7.0).acos();
    let workshop = workshop(vec![flat(3.0, 4.0), flat(1.0, 3.2), cone(0.2, 60.0)]);
    let (passes, findings) =
        plan(&sort, &ground(&sort), &commission(&workshop), &workshop).expect("it can be planned");
    assert_eq!(findings, []);
    let made = motions(&passes[2].cuts, 0.2, f64::to_radians(30.0).tan());
    check_never_in_the_letter(&sort, &made);
    for point in points {
        let sharp = gap(point, &made);
        assert!(sharp <= corner_gap(0.1, angle) + 0.02, "{sharp}");
    }
    // Nothing is gone after along the round walls themselves.
    assert!(passes[2].cuts.len() <= 2, "{} cuts", passes[2].cuts.len());
}

/// A slit that no flat cutter enters is cut along its middle, layer by layer, as deep as its width lets the cone.
#[test]
fn a_narrow_slit_is_cut_in_layers() {
    let face = difference(
        &Region::from_ring(&rectangle(3.0, 3.0, 27.0, 27.0)),
        &Region::from_ring(&rectangle(8.0, 14.5, 22.0, 15.5)),
    );
    let sort = sort(face, 30.0, 30.0);
    let workshop = workshop(vec![flat(3.0, 4.0), flat(2.0, 3.2), cone(0.2, 60.0)]);
    let (passes, findings) =
        plan(&sort, &ground(&sort), &commission(&workshop), &workshop).expect("it can be planned");
    let kinds: Vec<&str> = findings.iter().map(|finding| finding.kind).collect();
    assert_eq!(kinds, ["ground-too-shallow"]);
    let made = motions(&passes[2].cuts, 0.2, f64::to_radians(30.0).tan());
    check_never_in_the_letter(&sort, &made);
    for part in 0..=100 {
        let at = Point::new(8.2 + 0.136 * f64::from(part), 14.5);
        let left = gap(at, &made);
        assert!((0.0..=0.01).contains(&left), "{left} mm of wood at {at:?}");
    }
    let deepest = passes[2]
        .cuts
        .iter()
        .map(|cut| cut.depth_mm)
        .fold(0.0, f64::max);
    let expected = (0.5 - 0.1) / f64::to_radians(30.0).tan();
    assert!(
        (deepest - expected).abs() < 0.01,
        "{deepest}, expected {expected}"
    );
    let layers = passes[2].cuts.iter().map(|cut| cut.layer).max();
    assert_eq!(layers, Some(1));
    let first = passes[2].cuts.iter().filter(|cut| cut.layer == 0);
    assert!(first.map(|cut| cut.depth_mm).fold(0.0, f64::max) <= 0.5);
}

#[test]
fn a_cone_too_slender_for_what_is_left_is_not_used() {
    let (sort, _) = notched(90.0);
    let workshop = workshop(vec![flat(6.0, 4.0), cone(0.2, 30.0)]);
    let (passes, findings) =
        plan(&sort, &ground(&sort), &commission(&workshop), &workshop).expect("it can be planned");
    assert_eq!(passes[1].cuts, []);
    assert!(
        findings
            .iter()
            .any(|finding| finding.kind == "cone-not-used")
    );
}
