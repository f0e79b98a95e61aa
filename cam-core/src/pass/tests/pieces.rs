//! Pockets are cut one after the other, each only as deep as is asked for in it.

use super::*;

/// A block of wood with a counter 3 mm wide and one 6 mm wide.
fn two_counters() -> Sort {
    let solid = Region::from_ring(&rectangle(2.0, 2.0, 28.0, 18.0));
    let narrow = Region::from_ring(&rectangle(5.0, 5.0, 8.0, 15.0));
    let wide = Region::from_ring(&rectangle(14.0, 5.0, 20.0, 15.0));
    let face = difference(&difference(&solid, &narrow), &wide);
    sort(face, 30.0, 20.0)
}

#[test]
fn each_pocket_is_as_deep_as_its_width_asks_and_done_before_the_next() {
    let sort = two_counters();
    let (passes, findings, commission) = planned(&sort, &[1.5]);
    assert!(findings.is_empty(), "{findings:?}");
    let relief = Relief::of(&commission.cutting);
    let place = |at: Point| {
        if !(4.0..=16.0).contains(&at.y) {
            "outside"
        } else if (4.5..8.5).contains(&at.x) {
            "narrow"
        } else if (13.5..20.5).contains(&at.x) {
            "wide"
        } else {
            "outside"
        }
    };
    let cuts = &passes[0].cuts;
    for (name, width) in [("narrow", 3.0), ("wide", 6.0), ("outside", 50.0)] {
        let asked = relief.depth_at_width(width);
        let deepest = cuts
            .iter()
            .filter(|cut| place(cut.path.start) == name)
            .map(|cut| cut.depth_mm)
            .fold(0.0, f64::max);
        assert!(
            (asked - 1e-9..asked + 0.06).contains(&deepest),
            "{name}: {deepest}, asked for {asked}"
        );
    }
    let mut order: Vec<&str> = cuts.iter().map(|cut| place(cut.path.start)).collect();
    order.dedup();
    assert_eq!(order.len(), 3, "{order:?}");
}
