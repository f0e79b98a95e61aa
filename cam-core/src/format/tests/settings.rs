//! Settings of roughing, relief, woods and rates: what is written, what is left out, what is refused.

use super::{face, full};
use crate::bill::OwnTable;
use crate::commission::{Clamp, Commission, Cutting, NotchRules, Roughing, Separation};
use crate::format::*;
use crate::measure::{Length, System};
use crate::workshop::{Cutter, PageSize, PaperChoice, Rates, Wood, Workshop};

#[test]
fn every_way_of_roughing_and_every_width_reads_back_the_same() {
    let mut commission = full(System::Didot);
    for roughing in [Roughing::Quicker, Roughing::Steady, Roughing::Contours] {
        commission.cutting.roughing = roughing;
        commission.cutting.narrow_width = Length::mm(1.25);
        commission.cutting.wide_width = Length::points_of(30.0, System::Didot);
        commission.planks.clamps = vec![Clamp {
            x: Length::mm(1.25),
            y: Length::mm(60.0),
            width: Length::mm(25.0),
            length: Length::inches(1.5),
            height: Length::mm(12.5),
        }];
        let text = write_commission(&commission);
        assert_eq!(read_commission(&text).as_ref(), Ok(&commission), "{text}");
    }
}

#[test]
fn notches_read_back_the_same_and_are_off_unless_asked_for() {
    let mut commission = full(System::Didot);
    assert!(!write_commission(&commission).contains("notches"));
    for cutter in [None, Some("flat-3-long".to_owned())] {
        commission.notches = Some(NotchRules {
            pairs: vec!["AV".to_owned(), "L’".to_owned()],
            least_wall: Length::mm(2.5),
            step: Length::points_of(3.0, System::Didot),
            clearance: Length::mm(0.2),
            kinds: 2,
            cutter,
        });
        let text = write_commission(&commission);
        assert_eq!(read_commission(&text).as_ref(), Ok(&commission), "{text}");
    }
    let shortest =
        r#"{ "format": "sortwright-commission", "version": 1, "lines": 10, "notches": {} }"#;
    let read = read_commission(shortest).expect("read");
    assert_eq!(read.notches, Some(NotchRules::starting(System::Pica)));
    assert_eq!(read.notch_cutter(), Some("flat-6-long"));
}

#[test]
fn notches_that_cannot_be_are_refused_with_their_place() {
    let mut commission = Commission::starting("", System::Pica, 10.0, face("roman"));
    let mut rules = NotchRules::starting(System::Pica);
    rules.pairs = vec!["AVA".to_owned()];
    rules.kinds = 0;
    rules.step = Length::mm(0.0);
    commission.notches = Some(rules);
    commission.planks.separation = Separation::Saw;
    let places: Vec<String> = commission_faults(&commission)
        .into_iter()
        .map(|fault| fault.place)
        .collect();
    let wanted = [
        "notches.pairs[0]",
        "notches.step",
        "notches.kinds",
        "notches.cutter",
    ];
    assert_eq!(places, wanted);
}

#[test]
fn a_workshop_unlike_the_starting_one_reads_back_the_same() {
    let mut workshop = Workshop::starting();
    workshop.machine.hop_height_mm = 0.75;
    workshop.machine.change_minutes = 2.5;
    workshop.machine.holder_diameter_mm = 17.0;
    workshop.cutters[0].shank_diameter = Length::inches(0.25);
    workshop.cutters[0].modulus_gpa = 210.0;
    workshop.woods[1] = Wood {
        id: "box".to_owned(),
        name: "Boxwood".to_owned(),
        end_grain: false,
        density_kg_m3: 980.0,
        hardness_n: 12_610.0,
        chip_load_factor: 0.7,
        cutting_force_n_mm2: 95.5,
        price_per_dm3: 41.5,
    };
    workshop.rates = Rates {
        currency: "crown".to_owned(),
        machine_per_hour: 120.0,
        hand_per_hour: 300.5,
        corner_minutes: 0.75,
        ground_minutes_per_cm2: 0.0,
        fixing_minutes_per_plank: 5.5,
        sanding_minutes_per_plank: 10.0,
        sealing_minutes_per_plank: 7.25,
        parting_minutes_per_block: 0.75,
        packing_minutes: 12.0,
        packing_minutes_per_block: 0.2,
        breakage: 0.05,
        margin: 0.3,
    };
    let text = write_workshop(&workshop);
    assert_eq!(read_workshop(&text).as_ref(), Ok(&workshop), "{text}");
}

/// The text without the lines that have one of the keys, and without commas left hanging.
fn without(text: &str, keys: &[&str]) -> String {
    let kept: Vec<&str> = text
        .lines()
        .filter(|line| !keys.iter().any(|key| line.contains(&format!("\"{key}\":"))))
        .collect();
    let mut joined = kept.join("\n");
    for closing in ["}", "]"] {
        for indent in 0..6 {
            let end = format!("\n{}{closing}", "  ".repeat(indent));
            joined = joined.replace(&format!(",{end}"), &end);
        }
    }
    joined
}

#[test]
fn files_from_before_these_keys_are_read_with_the_defaults() {
    let commission = Commission::starting("", System::Pica, 10.0, face("main"));
    let text = without(
        &write_commission(&commission),
        &["narrow_width", "wide_width", "roughing"],
    );
    let read = read_commission(&text).expect("an older commission");
    assert_eq!(read.cutting, Cutting::starting());

    let text = write_workshop(&Workshop::starting());
    let rates = text.find("  \"rates\"").expect("rates are written");
    let older = format!("{}\n}}", text[..rates].trim_end().trim_end_matches(','));
    let older = without(
        &older,
        &[
            "hop_height_mm",
            "change_minutes",
            "holder_diameter_mm",
            "shank_diameter",
            "modulus_gpa",
            "density_kg_m3",
            "hardness_n",
            "chip_load_factor",
            "cutting_force_n_mm2",
            "price_per_dm3",
        ],
    );
    let read = read_workshop(&older).expect("an older workshop");
    assert_eq!(read.rates, Rates::starting());
    assert_eq!(read.machine.hop_height_mm, read.machine.clear_height_mm);
    assert_eq!(read.cutters, Workshop::starting().cutters);
    assert_eq!(read.woods[2].density_kg_m3, Wood::USUAL_DENSITY_KG_M3);
    assert_eq!(read.woods[2].cutting_force_n_mm2, 60.0);
}

#[test]
fn shanks_are_no_thinner_than_an_eighth_of_an_inch_unless_said() {
    assert_eq!(Cutter::usual_shank(Length::mm(0.8)), Length::inches(0.125));
    assert_eq!(Cutter::usual_shank(Length::mm(6.0)), Length::mm(6.0));
}

#[test]
fn settings_out_of_range_are_told_with_their_place() {
    let mut commission = full(System::Pica);
    commission.cutting.narrow_width = Length::mm(8.0);
    let fault = &commission_faults(&commission)[0];
    assert_eq!(fault.place, "cutting.narrow_width");
    assert!(fault.text.contains("8 mm"), "{fault}");

    let mut workshop = Workshop::starting();
    workshop.machine.hop_height_mm = 6.0;
    workshop.machine.change_minutes = -1.0;
    workshop.cutters[1].shank_diameter = Length::mm(0.0);
    workshop.cutters[1].modulus_gpa = 600_000.0;
    workshop.woods[0].density_kg_m3 = 0.7;
    workshop.woods[3].chip_load_factor = 0.0;
    workshop.rates.currency.clear();
    workshop.rates.hand_per_hour = f64::NAN;
    let places: Vec<String> = workshop_faults(&workshop)
        .into_iter()
        .map(|fault| fault.place)
        .collect();
    assert_eq!(
        places,
        [
            "machine.hop_height_mm",
            "machine.change_minutes",
            "cutters[1].shank_diameter",
            "cutters[1].modulus_gpa",
            "woods[0].density_kg_m3",
            "woods[3].chip_load_factor",
            "rates.currency",
            "rates.hand_per_hour",
        ]
    );
}

#[test]
fn how_papers_look_and_whose_they_are_reads_back_the_same() {
    let mut workshop = Workshop::starting();
    assert_eq!(workshop.papers, PaperChoice::default());
    for page in [PageSize::A4, PageSize::Letter] {
        let systems = System::ALL.map(Some);
        for measure in [None].into_iter().chain(systems) {
            workshop.papers = PaperChoice {
                page,
                measure,
                maker: vec!["Tidewater Wood Type".to_owned(), "2 Ropewalk".to_owned()],
            };
            let text = write_workshop(&workshop);
            assert_eq!(read_workshop(&text).as_ref(), Ok(&workshop), "{text}");
        }
    }
    let mut commission = full(System::Didot);
    commission.customer = vec!["Orchard Press".to_owned()];
    commission.date = "3 May 2031".to_owned();
    let text = write_commission(&commission);
    assert_eq!(read_commission(&text).as_ref(), Ok(&commission), "{text}");
    commission.customer = vec![String::new(); 13];
    let faults = commission_faults(&commission);
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert_eq!(faults[0].place, "customer");
}

#[test]
fn own_tables_read_back_the_same_and_are_judged() {
    let mut workshop = Workshop::starting();
    let table = OwnTable {
        name: "Headlines".to_owned(),
        source: "counted in last year's posters".to_owned(),
        capitals: "A12 B4 Ä3".to_owned(),
        ligatures: "ffi2".to_owned(),
        ..OwnTable::default()
    };
    workshop.tables = vec![table.clone()];
    let text = write_workshop(&workshop);
    assert_eq!(read_workshop(&text).as_ref(), Ok(&workshop), "{text}");
    let read = table.table().expect("a table");
    assert_eq!(read.capitals.weights().len(), 3);
    // Figures are the job fount's, and stand to its A.
    assert_eq!(
        read.figures,
        crate::bill::Proportions::JobFount.table().figures
    );
    workshop.tables.push(OwnTable {
        capitals: "A12 B".to_owned(),
        ..table
    });
    let faults: Vec<String> = workshop_faults(&workshop)
        .iter()
        .map(|fault| fault.place.clone())
        .collect();
    assert_eq!(faults, ["tables[1].name", "tables[1]"]);
}
