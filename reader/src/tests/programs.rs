//! Whole programs in the manner of NISTIR 6556 (2000) appendix C, written for these tests: what they must do is reckoned by hand.

use super::*;

#[test]
fn a_program_reckoned_from_parameters() {
    // Eight holes on a circle of 40 mm about (50, 50), and a spiral of short lines.
    let mut text = String::from(
        "%\nn10 g21 g17 g90 g94 g40 g49 g54 g64 g98\nn20 #1=50 #2=20 #3=[360/8]\nn30 f120 s2000 m3\nn40 g0 x0 y0 z10\n",
    );
    for hole in 0..8 {
        text.push_str(&format!(
            "n{n} #4=[{hole}*#3]\nn{m} g81 x[#1+#2*cos[#4]] y[#1+#2*sin[#4]] z-4 r2\n",
            n = 50 + hole * 2,
            m = 51 + hole * 2
        ));
    }
    text.push_str("n90 g80\nn95 g1 x[#1 + 3] y[sqrt[#1 * #1]] f[600 / 2]\nn99 m30\n%\n");
    let replay = replay_of(&text);
    assert_eq!(replay.cycles.len(), 8);
    // A move over, one down to R, one down, one up for each hole.
    assert_eq!(replay.motions.len(), 1 + 8 * 4 + 1);
    for hole in 0..8_u8 {
        let bottom = replay.motions[1 + usize::from(hole) * 4 + 2].to;
        let angle = f64::from(hole) * std::f64::consts::FRAC_PI_4;
        let wanted = Point::new(50.0 + 20.0 * angle.cos(), 50.0 + 20.0 * angle.sin());
        assert!(bottom.xy.distance(wanted) < 1e-9, "{bottom:?}");
        assert_eq!(bottom.z, -4.0);
    }
    let last = replay.motions[33];
    assert!(last.to.xy.distance(Point::new(53.0, 50.0)) < 1e-9);
    assert_eq!((last.to.z, last.feed_mm_min()), (10.0, Some(300.0)));
}

#[test]
fn a_letter_cut_as_in_appendix_c() {
    // Modal lines, both forms of arc, one letter after another, cut 1 mm deep at feed 20: an L, an O of full circle, an arc by radius.
    let text = "\
        n0010 g21 g0 x0 y0 z50 (a plate)\n\
        n0020 t1 m6 g0 z2\n\
        n0030 f20 s4000 m3\n\
        n0040 x5 y20\n\
        n0050 g1 z-1\n\
        n0060 y5\n\
        n0070 x15\n\
        n0080 g0 z2\n\
        n0090 x25 y12.5\n\
        n0100 g1 z-1\n\
        n0110 g2 i2.5 x25 j0\n\
        n0120 g0 z2\n\
        n0130 x34 y4\n\
        n0140 g1 z-1\n\
        n0150 g2 x39 y4 r4\n\
        n0160 g0 z50\n\
        n0170 m2\n";
    let replay = replay_of(text);
    let lengths = |wanted: fn(&ReadCourse) -> bool| -> (usize, f64) {
        let chosen = replay
            .motions
            .iter()
            .skip(1)
            .filter(|motion| wanted(&motion.course));
        chosen.fold((0, 0.0), |(count, sum), motion| {
            (count + 1, sum + motion.length_mm())
        })
    };
    let (rapids, _) = lengths(|course| matches!(course, ReadCourse::Rapid));
    let (lines, straight) = lengths(|course| matches!(course, ReadCourse::Line { .. }));
    let (arcs, round) = lengths(|course| matches!(course, ReadCourse::Arc { .. }));
    assert_eq!((rapids, lines, arcs), (7, 5, 2));
    assert!(
        (straight - (3.0 * 3.0 + 15.0 + 10.0)).abs() < 1e-9,
        "{straight}"
    );
    let sweep = 2.0 * (2.5_f64 / 4.0).asin();
    assert!((sweep.to_degrees() - 77.364).abs() < 1e-3);
    assert!(
        (round - (5.0 * std::f64::consts::PI + 4.0 * sweep)).abs() < 1e-9,
        "{round}"
    );
}
