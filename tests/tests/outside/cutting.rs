//! The sums of milling against worked figures.
//!
//! # Source
//! - Feed, surface speed, widths, ridges and bending: textbook geometry and mechanics of milling, from memory; the figures are worked
//!   out from the formulas by hand calculator, apart from this project.
//! - Chip thinning: the factors 2.294, 1.667, 1.25 and 1.155 at a twentieth, a tenth, a fifth and a quarter of the diameter are the
//!   usual table of milling handbooks, from memory.
//! - Young's modulus of carbide 600 GPa (530 to 650 by grade), and a core of four fifths of the diameter: common practice, no source.

use cam_core::feeds::sums::{
    Beam, CORE_OF_DIAMETER, ball_width_mm, chip_load_mm, cone_width_mm, edge_force_n, feed_mm_min,
    power_w, scallop_mm, step_over_for_scallop_mm, surface_speed_m_min, thinning_factor,
};

#[track_caller]
fn check(what: &str, found: f64, printed: f64, last_digit: f64) {
    assert!(
        (found - printed).abs() <= last_digit * 0.500_001,
        "{what}: {found} against {printed}"
    );
}

#[test]
fn feeds_from_chip_loads() {
    check(
        "18 000 turns, 2 edges of 0.05",
        feed_mm_min(18_000.0, 2, 0.05),
        1800.0,
        1e-9,
    );
    check(
        "24 000 turns, 1 edge of 0.1",
        feed_mm_min(24_000.0, 1, 0.1),
        2400.0,
        1e-9,
    );
    check("back again", chip_load_mm(1800.0, 2, 18_000.0), 0.05, 1e-12);
}

#[test]
fn surface_speeds() {
    for (diameter, at_18_000, at_24_000) in [
        (1.0, 57.0, 75.0),
        (3.175, 180.0, 239.0),
        (6.35, 359.0, 479.0),
        (12.7, 718.0, 958.0),
    ] {
        check(
            "at 18 000",
            surface_speed_m_min(diameter, 18_000.0),
            at_18_000,
            1.0,
        );
        check(
            "at 24 000",
            surface_speed_m_min(diameter, 24_000.0),
            at_24_000,
            1.0,
        );
    }
    check(
        "a quarter inch",
        surface_speed_m_min(6.35, 18_000.0),
        359.1,
        0.1,
    );
}

#[test]
fn chips_of_narrow_cuts() {
    for (share, factor) in [(0.05, 2.294), (0.1, 1.667), (0.2, 1.25), (0.25, 1.155)] {
        check("thinning", thinning_factor(share * 6.0, 6.0), factor, 1e-3);
    }
    check("a tenth", thinning_factor(0.3, 3.0), 1.6667, 1e-4);
    assert_eq!(thinning_factor(1.5, 3.0), 1.0);
    assert_eq!(thinning_factor(3.0, 3.0), 1.0);
}

#[test]
fn force_and_power() {
    // 3.175 × 1.5 mm at 1800 mm/min is 142.9 mm³/s; at 60 N/mm² that takes 8.6 W.
    check("power", power_w(60.0, 3.175, 1.5, 1800.0), 8.6, 0.1);
    check("force", edge_force_n(60.0, 1.5, 0.05), 4.5, 1e-9);
}

/// A bar of one diameter all along.
fn bar(diameter: f64, length: f64) -> Beam {
    Beam {
        tip_mm: diameter,
        top_mm: diameter,
        fluted_mm: length,
        shank_mm: diameter,
        stick_out_mm: length,
        modulus_gpa: 600.0,
    }
}

#[test]
fn cutters_bend_as_bars_held_at_one_end() {
    let core = 3.175 * CORE_OF_DIAMETER;
    let bends = bar(core, 15.0).deflection_mm(10.0);
    check("2.54 mm, 15 long, 10 N", bends, 0.009_18, 1e-5);
    check(
        "20 long",
        bar(core, 20.0).deflection_mm(10.0),
        0.021_75,
        1e-5,
    );
    check(
        "solid 3.175",
        bar(3.175, 15.0).deflection_mm(10.0),
        0.003_76,
        1e-5,
    );
    check("1.5875", bar(1.27, 10.0).deflection_mm(10.0), 0.0435, 1e-4);
    check("1 mm, 5 N", bar(0.8, 6.0).deflection_mm(5.0), 0.0298, 1e-4);
    check(
        "6.35 mm, 20 N",
        bar(5.08, 20.0).deflection_mm(20.0),
        0.0027,
        1e-4,
    );
    // Twice the length, and half the diameter.
    check(
        "twice",
        bar(core, 30.0).deflection_mm(10.0) / bends,
        8.0,
        1e-9,
    );
    check(
        "half",
        bar(core / 2.0, 15.0).deflection_mm(10.0) / bends,
        16.0,
        1e-9,
    );
    let stepped = Beam {
        tip_mm: core,
        top_mm: core,
        fluted_mm: 10.0,
        shank_mm: 3.175,
        stick_out_mm: 18.0,
        modulus_gpa: 600.0,
    };
    check(
        "10 mm of flutes, 8 of shank",
        stepped.deflection_mm(10.0),
        0.0081,
        1e-4,
    );
}

#[test]
fn widths_of_cones_and_round_ends() {
    // Depth for 2 mm with 60° and a tip of 0.2 mm is 1.558846 mm.
    check("60°", cone_width_mm(0.2, 60.0, 1.558_846), 2.0, 1e-6);
    check("30°", cone_width_mm(0.5, 30.0, 1.0), 1.035_898, 1e-6);
    for (angle, per_mm) in [
        (15.0, 0.263_30),
        (45.0, 0.828_43),
        (90.0, 2.0),
        (120.0, 3.464_10),
    ] {
        check(
            "per mm of depth",
            cone_width_mm(0.0, angle, 1.0),
            per_mm,
            1e-5,
        );
    }
    check("ridge", scallop_mm(3.175, 0.5), 0.009_858, 1e-6);
    check(
        "step for 0.01",
        step_over_for_scallop_mm(3.175, 0.01),
        0.5036,
        1e-4,
    );
    check(
        "width at that height",
        ball_width_mm(6.35, 0.009_858),
        0.5,
        1e-4,
    );
}
