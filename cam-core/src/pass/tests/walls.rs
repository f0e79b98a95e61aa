//! How walls are shared between cutters, and where they are begun.

use super::*;

/// The large cutter goes 2 mm deep; the wall that it finished is cut again down to the floor by the small one.
#[test]
fn a_wall_that_a_shallow_cutter_finished_is_cut_again_to_the_floor() {
    let sort = letter_e();
    let shop = workshop(vec![flat(6.0, 2.0), flat(3.0, 10.0)]);
    let order = commission(&shop);
    let (passes, findings) = plan(&sort, &ground(&sort), &order, &shop).expect("cutters are owned");
    assert!(
        findings
            .iter()
            .all(|finding| finding.severity != Severity::Stop),
        "{findings:?}"
    );
    check_no_path_enters_the_letter(&sort, &passes);
    let finished = |cutter: &SortPasses, depth: f64| {
        let cuts = cutter.cuts.iter();
        cuts.filter(|cut| cut.purpose == Purpose::Finishing && cut.depth_mm == depth)
            .map(|cut| cut.path.length())
            .sum::<f64>()
    };
    let wall: f64 = sort
        .face
        .rings()
        .map(|ring| {
            let next = ring.iter().cycle().skip(1);
            ring.iter()
                .zip(next)
                .map(|(a, b)| a.distance(*b))
                .sum::<f64>()
        })
        .sum();
    let (shallow, full) = (finished(&passes[0], 2.0), finished(&passes[1], 3.0));
    assert!(shallow > 0.5 * wall, "{shallow} mm of {wall} mm at 2 mm");
    assert!(full > 0.9 * wall, "{full} mm of {wall} mm at 3 mm");
}

/// Closed walls are begun beside a hollow corner, never at an outward one.
#[test]
fn marks_of_entry_lie_beside_hollow_corners() {
    let sort = letter_e();
    let (passes, _, _) = planned(&sort, &[3.0]);
    let finishing: Vec<&Cut> = passes[0]
        .cuts
        .iter()
        .filter(|cut| cut.purpose == Purpose::Finishing)
        .collect();
    // A round may be fed at different speeds along its way.
    let rounds = finishing.chunk_by(|_, after| after.entry == Entry::StayDown);
    let outer: Vec<&Cut> = rounds
        .filter(|round| round.iter().map(|cut| cut.path.length()).sum::<f64>() > 50.0)
        .map(|round| round[0])
        .collect();
    assert!(!outer.is_empty(), "the letter is finished in one round");
    let ring = &sort.face.pieces[0].outer;
    for cut in outer {
        // The lead ends where the wall is met.
        let (from, step) = cut.path.from_and_steps().next().expect("a path of steps");
        let met = step.to();
        assert!(from != met);
        let nearest = |hollow: bool| {
            let count = ring.len();
            (0..count)
                .filter(|&corner| {
                    let (a, b) = (
                        ring[(corner + count - 1) % count],
                        ring[(corner + 1) % count],
                    );
                    let turn = (ring[corner] - a).cross(b - ring[corner]);
                    (turn < -1e-9) == hollow && turn.abs() > 1e-9
                })
                .map(|corner| ring[corner].distance(met))
                .fold(f64::INFINITY, f64::min)
        };
        let (hollow, outward) = (nearest(true), nearest(false));
        assert!(
            hollow < 4.0 && hollow < outward,
            "{hollow} mm and {outward} mm at {met:?}"
        );
    }
}
