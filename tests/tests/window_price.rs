//! A price question in the window: the order priced as it would be otherwise, side by side, and made so.

use cam_core::make::make;
use cam_core::progress::Progress;
use cam_core::quote::{Estimates, changed, changes};
use egui_kittest::kittest::Queryable;
use testkit::window::{
    begun, choose, commission, document, fill_in, press, says, settle, window_of,
};

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
    let document = document(&harness);
    let (order, workshop) = (document.commission(), document.workshop());
    let fonts = document.fonts();
    let job = make(order, workshop, fonts, &Progress::new()).expect("one letter");
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
    harness.state_mut().undo();
    harness.run_steps(3);
    assert_eq!(commission(&harness).lines, 3.0);
}
