//! The time in which an order is priced anew, once its sorts are known.
//!
//! One fount of 240 sorts at ten lines and four flat cutters is made; then its bill is changed, and its price is reckoned from what the
//! making told of its sorts. It is sampled by criterion, on all processors; the goal is a second.

use std::cell::RefCell;
use std::hint::black_box;
use std::time::{Duration, Instant};

use cam_core::make::make;
use cam_core::progress::Progress;
use cam_core::quote::Estimates;
use cam_core::workshop::Workshop;
use criterion::{Criterion, SamplingMode};
use testkit::fonts::text_font;
use testkit::orders::fount;

use crate::Row;
use crate::clock::shown;

/// Sorts in the fount.
const SORTS: u32 = 240;
/// What a maker does not wait for.
const GOAL: Duration = Duration::from_secs(1);

/// Another bill of a fount whose sorts are known, against one second.
pub fn at_once() -> Row {
    let (mut commission, fonts) = fount(text_font("libertinus-serif"), 10.0, SORTS);
    let workshop = Workshop::starting();
    let progress = Progress::new();
    let start = Instant::now();
    let job =
        make(&commission, &workshop, &fonts, &progress).unwrap_or_else(|error| panic!("{error}"));
    println!("made, the first time: {}", shown(start.elapsed()));
    let estimates = Estimates::from(&job, &commission, &workshop);
    commission.bill[0].count += 1;
    let least = RefCell::new(Duration::MAX);
    let mut criterion = Criterion::default()
        .sample_size(10)
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_secs(5))
        .without_plots();
    let mut group = criterion.benchmark_group("price");
    group.sampling_mode(SamplingMode::Flat);
    group.bench_function("another bill", |bencher| {
        bencher.iter_custom(|times| {
            let mut whole = Duration::ZERO;
            for _ in 0..times {
                let start = Instant::now();
                let quote = estimates.at_once(&commission, &workshop, &fonts, &progress);
                let quote = quote.unwrap_or_else(|error| panic!("{error}"));
                assert!(black_box(quote).is_some(), "all sorts are known");
                let one = start.elapsed();
                let least = &mut *least.borrow_mut();
                *least = one.min(*least);
                whole += one;
            }
            whole
        });
    });
    group.finish();
    let least = least.into_inner();
    Row {
        what: "price of the 240-sort fount with another bill, its sorts known",
        against: "a second".to_owned(),
        project: shown(least),
        other: shown(GOAL),
        ratio: least.as_secs_f64() / GOAL.as_secs_f64(),
        goal: "1",
    }
}
