//! A price question in the window: the order priced as it would be otherwise, side by side, and made so.

use cam_core::make::{Job, make};
use cam_core::progress::Progress;
use cam_core::quote::{Estimates, Quote, changed, changes};
use cam_core::workshop::Workshop;
use egui_kittest::kittest::Queryable;
use testkit::window::{
    Window, begun, choose, commission, document, export_to, fill_in, paper, press, says, settle,
    window_of,
};

fn job_of(harness: &Window) -> Job {
    let document = document(harness);
    let (order, workshop) = (document.commission(), document.workshop());
    make(order, workshop, document.fonts(), &Progress::new()).expect("one letter")
}

#[test]
fn another_size_another_bill_and_a_coarser_tolerance_are_priced_and_one_is_taken() {
    let place = tempfile::tempdir().expect("a temporary folder");
    let order = begun(place.path(), "L", "3");
    let mut harness = window_of([1500.0, 1400.0], Some(&order), None);
    settle(&mut harness);
    press(&mut harness, "What if…");
    harness.run_steps(20);
    press(&mut harness, "Price this as well");
    assert!(says(&harness, "Nothing would be otherwise."));
    fill_in(&mut harness, "Another size", "2 picas");
    press(&mut harness, "Price this as well");
    settle(&mut harness);
    fill_in(&mut harness, "Another tolerance", "0.01 mm + 0.01 mm");
    choose(&mut harness, "Other cutters", "without flat-0.8");
    press(&mut harness, "Price this as well");
    settle(&mut harness);

    // The same as the command reckons.
    let job = job_of(&harness);
    let document = document(&harness);
    let (order, workshop) = (document.commission(), document.workshop());
    let fonts = document.fonts();
    let mut estimates = Estimates::from(&job, order, workshop);
    for asked in [
        "lines=2",
        "lines=2, tolerance=0.02 mm, cutters=flat-6+flat-3+flat-1.5",
    ] {
        let asked = changes(asked).expect("changes");
        let otherwise = changed(order, &asked).expect("an order");
        let quote = estimates
            .quote(&otherwise, workshop, fonts, &Progress::new())
            .expect("a price");
        let price = format!("{:.2}", quote.price);
        assert!(harness.query_all_by_label(&price).count() > 0, "{price}");
    }
    assert!(says(
        &harness,
        "2 lines, within 0.02 mm, flat-6 flat-3 flat-1.5"
    ));

    let take = harness.get_all_by_label("Take").last().expect("two rows");
    take.click_accesskit();
    harness.run_steps(3);
    let taken = commission(&harness);
    assert_eq!((taken.lines, taken.cutting.cutters.len()), (2.0, 3));
    assert!((taken.cutting.tolerance.in_mm() - 0.02).abs() < 1e-12);
    assert!(says(&harness, "Priced before the last changes."));
    // What is made of it costs what its papers say, close to what was estimated.
    choose(&mut harness, "Cut apart by", "the saw");
    settle(&mut harness);
    let made = place.path().join("made");
    export_to(&mut harness, &made);
    let quote = Quote::of(
        &job_of(&harness),
        &commission(&harness),
        &Workshop::starting(),
    );
    let price = format!("{:.2}", quote.price);
    assert!(paper(&made, "costing").contains(&price), "{price}");
    for _ in 0..2 {
        harness.state_mut().undo();
    }
    harness.run_steps(3);
    assert_eq!(commission(&harness).lines, 3.0);
}
