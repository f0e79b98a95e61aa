//! The quote for the customer: what is made, and what it comes to.

use super::PaperParts;
use super::plates;
use super::sheet::{Column, Piece, Row, Sheet, Table, Width, strong, words};
use super::sorts::{LISTED_WIDTH_MM, faces, groups, listed};
use super::words::{counted, mm2, points};
use crate::measure::{Length, Unit};

/// Prices are given to a hundredth of the currency.
const CENTS: f64 = 100.0;

/// Amounts in hundredths that add up to the rounded whole: each sum so far is rounded, and an amount is what one adds.
pub fn amounts(exact: &[f64]) -> Vec<i64> {
    let mut so_far = 0.0;
    let mut before = 0;
    exact
        .iter()
        .map(|amount| {
            so_far += amount;
            let now = (so_far * CENTS).round() as i64;
            let own = now - before;
            before = now;
            own
        })
        .collect()
}

/// Money from hundredths, with thousands apart.
pub fn money(cents: i64) -> String {
    let whole = (cents.abs() / CENTS as i64).to_string();
    let mut grouped = String::new();
    for (place, digit) in whole.chars().enumerate() {
        if place > 0 && (whole.len() - place).is_multiple_of(3) {
            grouped.push('\u{a0}');
        }
        grouped.push(digit);
    }
    let sign = if cents < 0 { "−" } else { "" };
    format!("{sign}{grouped}.{:02}", cents.abs() % CENTS as i64)
}

/// An amount in hundredths.
pub fn cents(amount: f64) -> i64 {
    (amount * CENTS).round() as i64
}

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let quote = parts.quote;
    let mut facts = parts.order_facts();
    facts.extend(described(parts));
    let whole = cents(quote.price);
    let mut pieces = vec![
        Piece::heading("Price"),
        Piece::Table(Table::new(
            vec![
                Column::left("", Width::Share),
                Column::right("", Width::Fit),
            ],
            vec![Row::sum(vec![
                words(format!(
                    "The whole fount of {}",
                    counted(quote.blocks as usize, "block")
                )),
                strong(format!("{} {}", money(whole), quote.currency)),
            ])],
        )),
        Piece::text(
            "Tax and carriage are not included. Wood, cutting, finishing by hand, sealing and packing are.",
        ),
        Piece::heading("Sort by sort"),
        Piece::Table(list(parts)),
        Piece::text(
            "“Each” is rounded; amounts add up to the price. Single sorts ordered later cost more, since cutters and planks have to be set up for them.",
        ),
    ];
    let limited = parts
        .commission
        .faces
        .iter()
        .filter_map(|face| Some((face, face.permission.founts?)));
    for (face, founts) in limited {
        pieces.push(Piece::text(format!(
            "Type from face {} may be made for {}, as {} allowed.",
            face.id,
            counted(founts as usize, "fount"),
            face.permission.by
        )));
    }
    pieces.push(Piece::heading("Agreed"));
    pieces.push(Piece::ToFill(vec![
        "This price holds until",
        "Ready by",
        "Ordered by, date",
    ]));
    Some(Sheet {
        file: "quote",
        name: "Quote",
        facts,
        pieces,
        as_text: true,
    })
}

/// What is made, in labels and values.
pub fn described(parts: &PaperParts) -> Vec<(&'static str, String)> {
    let commission = parts.commission;
    let body = Length::lines(commission.lines, commission.system);
    let height = commission.height_to_paper;
    let mut facts = vec![
        (
            "Size",
            format!(
                "{}, {}; body {}, {} mm",
                body.show(Unit::Line, commission.system),
                commission.system.name(),
                points(body.in_mm(), parts.system()),
                mm2(body.in_mm())
            ),
        ),
        (
            "Height to paper",
            format!(
                "{:.3} mm, {}",
                height.in_mm(),
                height.show(Unit::Inch, commission.system)
            ),
        ),
        ("Wood", parts.wood().to_owned()),
    ];
    facts.extend(plates::fact(parts));
    if parts.system() != commission.system {
        facts.insert(1, parts.points_fact());
    }
    facts
}

fn list(parts: &PaperParts) -> Table {
    let quote = parts.quote;
    let order: Vec<(String, Vec<usize>)> = groups(parts.sorts, &faces(parts))
        .into_iter()
        .map(|group| (group.name, group.sorts))
        .collect();
    let exact: Vec<f64> = order
        .iter()
        .flat_map(|(_, sorts)| sorts)
        .map(|&place| {
            let price = quote.sorts.get(place);
            price.map_or(0.0, |price| price.price * f64::from(price.count))
        })
        .collect();
    let mut amounts = amounts(&exact).into_iter();
    let mut rows = Vec::new();
    for (name, sorts) in order {
        rows.push(Row::group(name));
        for place in sorts {
            let sort = &parts.sorts[place];
            let amount = amounts.next().unwrap_or(0);
            let each = quote.sorts.get(place).map_or(0.0, |price| price.price);
            rows.push(Row::plain(vec![
                listed(sort),
                words(sort.name.clone()),
                words(sort.count.to_string()),
                words(money(cents(each))),
                words(money(amount)),
            ]));
        }
    }
    Table::new(
        vec![
            Column::left("", Width::Mm(LISTED_WIDTH_MM)),
            Column::left("Sort", Width::Share),
            Column::right("Count", Width::Fit),
            Column::right("Each", Width::Fit),
            Column::right("Amount", Width::Fit),
        ],
        rows,
    )
    .over_all(2)
}
