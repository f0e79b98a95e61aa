//! Stock, routers and rules of planks: what is written, what is left out, what is refused.

use crate::commission::{Clamp, GrainWanted, Pin, RowsOf, Separation};
use crate::workshop::{BadPlace, Grain, Reserved, StockPlank};

use super::full;
use crate::format::*;
use crate::measure::{Length, System};
use crate::workshop::Workshop;

fn stock_plank() -> StockPlank {
    let mm = Length::mm;
    StockPlank {
        count: 3,
        height: Some(mm(23.4)),
        grain: Some(Grain::Across),
        bad_places: vec![BadPlace {
            x: mm(40.5),
            y: mm(12.0),
            width: mm(18.0),
            length: mm(9.25),
            what: "knot".to_owned(),
        }],
        reserved: Reserved {
            left: mm(20.0),
            ..Reserved::default()
        },
        clamps: Some(vec![Clamp {
            x: mm(-5.0),
            y: mm(60.0),
            width: mm(30.0),
            length: mm(20.0),
            height: mm(15.0),
        }]),
        ..StockPlank::plain("maple-7", "hard-maple", mm(400.0), Length::inches(9.0))
    }
}

#[test]
fn planks_of_every_kind_read_back_the_same() {
    let mut workshop = Workshop::starting();
    workshop.stock = vec![
        stock_plank(),
        StockPlank::plain("left-1", "beech", Length::mm(120.5), Length::mm(80.0)),
    ];
    let mut second = workshop.machine.clone();
    second.name = "The old one".to_owned();
    second.travel_mm = [280.0, 180.0, 60.0];
    workshop.more_machines = vec![second];
    let text = write_workshop(&workshop);
    assert_eq!(read_workshop(&text).as_ref(), Ok(&workshop), "{text}");

    let mut commission = full(System::Pica);
    commission.planks.separation = Separation::Saw;
    commission.planks.stock = vec!["maple-7".to_owned(), "left-1".to_owned()];
    commission.planks.kerf = Some(Length::mm(2.4));
    commission.planks.pins = vec![Pin {
        block: "A-2".to_owned(),
        plank: "plank-1".to_owned(),
        x: Length::mm(12.125),
        y: Length::mm(40.0),
    }];
    for (grain, rows) in [
        (GrainWanted::AlongLine, RowsOf::OneBody),
        (GrainWanted::UpBody, RowsOf::Mixed),
    ] {
        commission.planks.grain = grain;
        commission.planks.rows = rows;
        let text = write_commission(&commission);
        assert_eq!(read_commission(&text).as_ref(), Ok(&commission), "{text}");
    }
}

#[test]
fn a_file_that_says_nothing_of_stock_has_none() {
    let text = write_workshop(&Workshop::starting());
    assert!(!text.contains("stock") && !text.contains("more_machines"));
    let short = r#"{"format": "sortwright-commission", "version": 1, "lines": 10}"#;
    let planks = read_commission(short).expect("the shortest").planks;
    assert!(planks.stock.is_empty() && planks.pins.is_empty());
    assert_eq!((planks.rows, planks.kerf), (RowsOf::Mixed, None));
    assert_eq!(planks.kerf_mm(), planks.lane.in_mm());
}

#[test]
fn planks_out_of_range_are_told_with_their_place() {
    let mut workshop = Workshop::starting();
    let mut bad = stock_plank();
    bad.count = 0;
    bad.height = Some(Length::mm(230.0));
    bad.bad_places[0].width = Length::mm(0.0);
    bad.reserved.near = Length::mm(-1.0);
    workshop.stock = vec![stock_plank(), bad];
    workshop.more_machines = vec![workshop.machine.clone()];
    workshop.more_machines[0].travel_mm[1] = 0.0;
    let places: Vec<String> = workshop_faults(&workshop)
        .into_iter()
        .map(|fault| fault.place)
        .collect();
    assert_eq!(
        places,
        [
            "more_machines[0].travel_mm[1]",
            "stock[1].id",
            "stock[1].count",
            "stock[1].height",
            "stock[1].bad_places[0].width",
            "stock[1].reserved.near",
        ]
    );
    let mut commission = full(System::Pica);
    commission.planks.kerf = Some(Length::mm(90.0));
    commission.planks.stock = vec!["a".to_owned(), "a".to_owned()];
    let places: Vec<String> = commission_faults(&commission)
        .into_iter()
        .map(|fault| fault.place)
        .collect();
    assert_eq!(places, ["planks.stock[1]", "planks.kerf"]);
}
