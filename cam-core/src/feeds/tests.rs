use super::*;
use crate::measure::Length;
use crate::workshop::{Cutter, CutterShape, Machine, Workshop};

const ALLOWANCE_MM: f64 = 0.2;

fn shop() -> Workshop {
    Workshop::starting()
}

fn in_maple(cutter: &Cutter, machine: &Machine) -> Proposal {
    let shop = shop();
    let wood = shop.wood("hard-maple-end").expect("maple");
    propose(cutter, wood, machine, ALLOWANCE_MM)
}

fn cutter(id: &str) -> Cutter {
    shop().cutter(id).expect("a starting cutter").clone()
}

#[test]
fn everything_proposed_is_within_machine_and_cutter_and_without_trouble() {
    let shop = shop();
    for wood in &shop.woods {
        for cutter in &shop.cutters {
            let proposal = propose(cutter, wood, &shop.machine, ALLOWANCE_MM);
            let taken = proposal.taken_over(cutter);
            let [slowest, fastest] = shop.machine.spindle_rpm;
            assert!((slowest..=fastest).contains(&taken.spindle_rpm));
            assert!(taken.feed_mm_min <= shop.machine.max_feed_mm_min[0]);
            assert!(taken.plunge_mm_min <= shop.machine.max_feed_mm_min[2]);
            assert!(taken.plunge_mm_min < taken.feed_mm_min);
            assert!(taken.step_down <= taken.max_depth && taken.step_over <= taken.diameter);
            let mut kept = shop.clone();
            kept.cutters = vec![taken.clone()];
            assert_eq!(crate::format::workshop_faults(&kept), []);
            assert_eq!(
                troubles(&taken, wood, ALLOWANCE_MM),
                [],
                "{} in {}",
                cutter.id,
                wood.id
            );
            for proposed in [
                &proposal.spindle_rpm,
                &proposal.feed_mm_min,
                &proposal.plunge_mm_min,
                &proposal.step_down_mm,
                &proposal.step_over_mm,
            ] {
                assert!(proposed.reason.ends_with('.'), "{proposed:?}");
            }
        }
    }
}

#[test]
fn a_thin_cutter_turns_as_fast_as_the_spindle_can() {
    let proposal = in_maple(&cutter("flat-0.8"), &Machine::starting());
    assert_eq!(proposal.spindle_rpm.limit, Limit::SpindleFastest);
    assert_eq!(proposal.spindle_rpm.value, 24_000.0);
    // 2 edges of 0.015 mm, the middle of the range; a cut of 0.36 mm thins the chip by half a hundredth.
    assert_eq!(proposal.feed_mm_min.limit, Limit::ChipLoad);
    assert_eq!(proposal.feed_mm_min.value, 720.0);
    assert!((proposal.working.chip_mm - 0.015).abs() < 1e-4);
}

#[test]
fn a_slow_machine_turns_slower_to_keep_the_chip() {
    let mut machine = Machine::starting();
    machine.max_feed_mm_min = [1000.0, 900.0, 300.0];
    let wide = cutter("flat-6");
    let proposal = in_maple(&wide, &machine);
    assert_eq!(proposal.spindle_rpm.limit, Limit::SpindleSlowest);
    assert_eq!(proposal.feed_mm_min.limit, Limit::MachineFeed);
    assert_eq!(proposal.feed_mm_min.value, 900.0);
    machine.spindle_rpm = [3000.0, 24_000.0];
    let proposal = in_maple(&wide, &machine);
    assert_eq!(proposal.spindle_rpm.limit, Limit::MachineFeed);
    assert!(proposal.spindle_rpm.value < 8000.0);
    let [least, most] = [0.056, 0.141];
    assert!((least..most).contains(&proposal.working.chip_load_mm));
    assert!(proposal.feed_mm_min.value <= 900.0);
}

#[test]
fn a_large_cutter_keeps_its_edge_from_burning() {
    let mut wide = cutter("flat-6");
    wide.diameter = Length::mm(16.0);
    wide.shank_diameter = Length::mm(12.0);
    let mut machine = Machine::starting();
    machine.max_feed_mm_min = [20_000.0; 3];
    let proposal = in_maple(&wide, &machine);
    assert_eq!(proposal.spindle_rpm.limit, Limit::SurfaceSpeed);
    assert!(proposal.working.surface_speed_m_min <= 600.0);
    assert_eq!(proposal.step_down_mm.limit, Limit::DeepestLayer);
}

#[test]
fn a_long_thin_cutter_gets_thinner_layers_then_thinner_chips() {
    let mut long = cutter("flat-1.5");
    long.flute_length = Length::mm(20.0);
    long.stick_out = Length::mm(28.0);
    let usual = in_maple(&cutter("flat-1.5"), &Machine::starting());
    let first = in_maple(&long, &Machine::starting());
    assert_eq!(first.step_down_mm.limit, Limit::Deflection);
    assert!(first.step_down_mm.value < usual.step_down_mm.value);
    assert!(first.working.deflection_mm <= most_deflection_mm(ALLOWANCE_MM) * 1.000_001);
    long.flute_length = Length::mm(32.0);
    long.stick_out = Length::mm(40.0);
    let second = in_maple(&long, &Machine::starting());
    assert_eq!(second.feed_mm_min.limit, Limit::Deflection);
    assert!(second.feed_mm_min.value < first.feed_mm_min.value);
    long.stick_out = Length::mm(60.0);
    long.flute_length = Length::mm(50.0);
    let hopeless = in_maple(&long, &Machine::starting());
    assert_eq!(hopeless.feed_mm_min.limit, Limit::LeastChip);
    assert!(hopeless.feed_mm_min.reason.contains("stand out less"));
    let shop = shop();
    let told = troubles(&hopeless.taken_over(&long), &shop.woods[0], ALLOWANCE_MM);
    assert_eq!(told[0].kind, TroubleKind::Bending);
}

#[test]
fn short_flutes_rule_the_layer() {
    let mut short = cutter("flat-6");
    short.flute_length = Length::mm(1.2);
    short.max_depth = Length::mm(1.0);
    let proposal = in_maple(&short, &Machine::starting());
    assert_eq!(proposal.step_down_mm.limit, Limit::Reach);
    assert_eq!(proposal.step_down_mm.value, 1.0);
}

#[test]
fn pointed_and_round_ends_are_judged_by_their_width_in_the_wood() {
    let machine = Machine::starting();
    let cone = in_maple(&cutter("cone-60"), &machine);
    assert_eq!(cone.step_over_mm.limit, Limit::Tip);
    assert_eq!(cone.step_over_mm.value, 0.2);
    let mut ball = cutter("flat-3");
    ball.shape = CutterShape::Ball;
    let ball = in_maple(&ball, &machine);
    assert_eq!(ball.step_over_mm.limit, Limit::Ridges);
    let ridge = sums::scallop_mm(1.5, ball.step_over_mm.value);
    assert!(ridge <= 0.05 && ridge > 0.04, "{ridge}");
}

#[test]
fn harder_wood_takes_thinner_chips() {
    let shop = shop();
    let three = cutter("flat-3");
    let feed = |wood: &str| {
        let wood = shop.wood(wood).expect("a starting wood");
        propose(&three, wood, &shop.machine, ALLOWANCE_MM)
            .working
            .chip_load_mm
    };
    assert!(feed("pear-end") < feed("hard-maple-end"));
    assert!(feed("hard-maple-end") < feed("cherry-end"));
}

#[test]
fn settings_out_of_range_are_told_with_what_to_change() {
    let shop = shop();
    let maple = &shop.woods[0];
    let mut slow = cutter("flat-3");
    slow.feed_mm_min = 150.0;
    slow.spindle_rpm = 24_000.0;
    let told = troubles(&slow, maple, ALLOWANCE_MM);
    assert_eq!(told.len(), 1, "{told:?}");
    assert_eq!(told[0].kind, TroubleKind::Rubbing);
    let mut greedy = cutter("flat-3");
    greedy.feed_mm_min = 5000.0;
    greedy.spindle_rpm = 10_000.0;
    greedy.step_down = Length::mm(3.0);
    let kinds: Vec<TroubleKind> = troubles(&greedy, maple, ALLOWANCE_MM)
        .iter()
        .map(|trouble| trouble.kind)
        .collect();
    assert!(kinds.contains(&TroubleKind::ChipTooThick));
    assert!(kinds.contains(&TroubleKind::TooDeep));
}

/// The starting workshop's own settings are such as this module would not complain of.
#[test]
fn the_starting_cutters_are_out_of_trouble() {
    let shop = shop();
    for cutter in &shop.cutters {
        let told = troubles(cutter, &shop.woods[0], ALLOWANCE_MM);
        assert_eq!(told, [], "{}", cutter.id);
    }
}

#[test]
fn nonsense_makes_no_panic() {
    let shop = shop();
    let mut odd = cutter("flat-3");
    for value in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        odd.diameter = Length::mm(value);
        odd.stick_out = Length::mm(value);
        odd.feed_mm_min = value;
        let _ = in_maple(&odd, &shop.machine);
        let _ = troubles(&odd, &shop.woods[0], value);
    }
}
