//! Prices add up, follow what they depend on, and estimates agree with what is made.

use super::*;
use crate::commission::{Commission, PlankRules, Separation};
use crate::make::{Fonts, make};
use crate::progress::Progress;
use crate::workshop::Rates;

fn order(letters: &str, count: u32) -> (Commission, Fonts) {
    let (mut commission, fonts) = crate::make::tests::order(letters, 6.0, &[]);
    commission.cutting.cutters = vec!["flat-6".to_owned(), "flat-3".to_owned()];
    commission.planks.separation = Separation::Saw;
    commission.planks.lane = PlankRules::starting_lane(false);
    for line in &mut commission.bill {
        line.count = count;
    }
    (commission, fonts)
}

#[track_caller]
fn check_close(found: f64, expected: f64) {
    assert!(
        (found - expected).abs() <= 1e-9 * expected.abs().max(1.0),
        "{found}, expected {expected}"
    );
}

/// By hand: 2 planks' worth of nothing but round figures.
#[test]
fn the_price_is_the_sum_that_a_maker_would_add_up() {
    let (commission, fonts) = order("EL", 3);
    let mut workshop = Workshop::starting();
    workshop.rates = Rates {
        currency: "crown".to_owned(),
        machine_per_hour: 60.0,
        hand_per_hour: 120.0,
        corner_minutes: 2.0,
        ground_minutes_per_cm2: 0.0,
        fixing_minutes_per_plank: 5.0,
        sanding_minutes_per_plank: 10.0,
        sealing_minutes_per_plank: 0.0,
        parting_minutes_per_block: 1.0,
        packing_minutes: 15.0,
        packing_minutes_per_block: 0.5,
        breakage: 0.1,
        margin: 0.2,
    };
    let job = make(&commission, &workshop, &fonts, &Progress::new()).expect("a plain order");
    let quote = Quote::of(&job, &commission, &workshop);
    assert_eq!((quote.blocks, quote.planks), (6, 1));
    let minutes: f64 = job
        .programs
        .iter()
        .map(|program| program.estimate_s)
        .sum::<f64>()
        / 60.0;
    check_close(quote.machine_minutes, minutes);
    assert_eq!(quote.changes, 2);
    check_close(quote.change_minutes, 8.0);
    let corners: usize = job
        .surveys
        .iter()
        .map(|survey| survey.corners.len() * 3)
        .sum();
    assert!(corners > 0, "an E has corners");
    let by_hand = 5.0 + 10.0 + 6.0 + 2.0 * corners as f64 + 15.0 + 3.0;
    check_close(quote.hand_minutes(), by_hand);
    let kinds: Vec<&str> = quote.hand.iter().map(|work| work.what).collect();
    assert!(!kinds.contains(&"sealing"), "{kinds:?}");
    check_close(quote.costs.machine, minutes + 8.0);
    check_close(quote.costs.hand, 2.0 * (by_hand + 8.0));
    // 300 × 150 mm, 0.918 inch high, at 15 for a cubic decimetre.
    let wood = 3.0 * 1.5 * (0.918 * 0.254) * 15.0;
    check_close(quote.costs.wood, wood);
    let costs = (minutes + 8.0 + 2.0 * (by_hand + 8.0) + wood) * 1.1;
    check_close(quote.costs.whole(), costs);
    // Each of the six blocks is rounded to a hundredth.
    let exact = costs / 0.8;
    assert!(
        (quote.price - exact).abs() <= 6.0 * 0.005,
        "{} and {exact}",
        quote.price
    );
    check_close(quote.margin(), quote.price - costs);
}

#[test]
fn the_sorts_prices_come_to_the_whole_and_follow_what_they_take() {
    let (commission, fonts) = order("EIW.", 2);
    let workshop = Workshop::starting();
    let job = make(&commission, &workshop, &fonts, &Progress::new()).expect("a plain order");
    let quote = Quote::of(&job, &commission, &workshop);
    let sum = |of: fn(&SortPrice) -> f64| -> f64 {
        let prices = quote.sorts.iter();
        prices.map(|sort| of(sort) * f64::from(sort.count)).sum()
    };
    check_close(sum(|sort| sort.price), quote.price);
    let all_prices = quote.sorts.iter().map(|sort| sort.price);
    for amount in all_prices.chain([quote.price]) {
        check_close(amount * 100.0, (amount * 100.0).round());
    }
    let amounts: i64 = quote.amounts().iter().sum();
    assert_eq!(amounts, hundredths(quote.price));
    assert!((quote.amounts()[0] - hundredths(quote.costs.machine)).abs() <= 1);
    check_close(sum(|sort| sort.machine_minutes), quote.machine_minutes);
    let of = |name: &str| {
        let found = quote.sorts.iter().find(|sort| sort.sort == name);
        found
            .unwrap_or_else(|| panic!("no {name} among {:?}", quote.sorts))
            .price
    };
    assert!(
        of("W") > of("E"),
        "a W is wider than an E and has more corners"
    );
    assert!(of("E") > of("I"));
    let names: Vec<&str> = quote.sorts.iter().map(|sort| sort.sort.as_str()).collect();
    assert_eq!(names.len(), 4, "{names:?}");
}

#[test]
fn an_estimate_agrees_with_what_is_made() {
    let (commission, fonts) = order("ELSO", 3);
    let workshop = Workshop::starting();
    let progress = Progress::new();
    let job = make(&commission, &workshop, &fonts, &progress).expect("a plain order");
    let exact = Quote::of(&job, &commission, &workshop);
    let mut estimates = Estimates::from(&job, &commission, &workshop);
    let (_, whole) = Estimates::with_quote(&job, &commission, &workshop);
    assert_eq!(whole, exact);
    // Another bill of the same sorts is known at once, another size is not.
    let mut fewer = commission.clone();
    fewer.bill.truncate(2);
    fewer.bill[0].count = 9;
    let at_once = estimates.at_once(&fewer, &workshop, &fonts, &progress);
    let planned = estimates.quote(&fewer, &workshop, &fonts, &progress);
    assert_eq!(at_once.expect("drawn up"), Some(planned.expect("drawn up")));
    fewer.lines += 1.0;
    let at_once = estimates.at_once(&fewer, &workshop, &fonts, &progress);
    assert_eq!(at_once.expect("drawn up"), None);
    let again = estimates
        .quote(&commission, &workshop, &fonts, &progress)
        .expect("the same order");
    check_close(again.price, exact.price);
    for text in [
        "lines=8",
        "bill=2A",
        "cutters=flat-3",
        "lines=8, tolerance=0.05 mm",
    ] {
        let otherwise = changes(text)
            .and_then(|changes| changed(&commission, &changes))
            .unwrap_or_else(|error| panic!("{text}: {error}"));
        let estimate = estimates
            .quote(&otherwise, &workshop, &fonts, &progress)
            .unwrap_or_else(|error| panic!("{text}: {error}"));
        let job = make(&otherwise, &workshop, &fonts, &progress).expect("another order");
        let exact = Quote::of(&job, &otherwise, &workshop);
        let part = estimate.price / exact.price;
        assert!((part - 1.0).abs() < 0.03, "{text}: {part}");
        assert_eq!(estimate.blocks, exact.blocks, "{text}");
    }
}

#[test]
fn changes_are_read_as_makers_write_them() {
    assert_eq!(
        changes("lines=8 , bill=4A 8a,cutters=flat-6 + flat-3").as_deref(),
        Ok([
            Change::Lines(8.0),
            Change::Bill(crate::bill::Scheme {
                capitals: 4,
                lower_case: 8,
                figures: 4,
                points: 4,
                ligatures: 0,
            }),
            Change::Cutters(vec!["flat-6".to_owned(), "flat-3".to_owned()]),
        ]
        .as_slice())
    );
    for refused in [
        "",
        "lines",
        "lines=-1",
        "bill=4",
        "bill=",
        "size=8",
        "cutters=+",
        "tolerance=x",
    ] {
        let error = changes(refused).expect_err(refused);
        assert!(error.to_string().ends_with('.'), "{error}");
    }
}
