//! How the price comes about: for the workshop, not for the customer.

use said::plain_number;

use super::PaperParts;
use super::quote::{described, money};
use super::sheet::{Column, Piece, Row, Sheet, Table, Width, words};
use super::sorts::{LISTED_WIDTH_MM, faces, groups, listed};
use super::words::{counted, hours};
use crate::quote::{Quote, hundredths};

const SECONDS_PER_MINUTE: f64 = 60.0;
const PER_CENT: f64 = 100.0;

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let mut facts = parts.order_facts();
    facts.extend(described(parts));
    let rates = &parts.workshop.rates;
    let pieces = vec![
        Piece::heading("Costs and price"),
        Piece::Table(costs(parts.quote, parts)),
        Piece::text("Tax is not in it; add what your place asks for."),
        Piece::heading("Work by hand"),
        Piece::Table(by_hand(parts.quote)),
        Piece::heading("Rates"),
        Piece::text(format!(
            "The machine costs {} and the hand {} {} an hour; wood {} a cubic decimetre. {} % is added for what breaks, and {} % of the price is margin.",
            money(hundredths(rates.machine_per_hour)),
            money(hundredths(rates.hand_per_hour)),
            rates.currency,
            money(hundredths(
                parts
                    .workshop
                    .wood(&parts.commission.wood)
                    .map_or(0.0, |wood| wood.price_per_dm3)
            )),
            plain_number(rates.breakage * PER_CENT, 1),
            plain_number(rates.margin * PER_CENT, 1),
        )),
        Piece::heading("Each sort"),
        Piece::Table(each(parts)),
    ];
    Some(Sheet {
        file: "costing",
        name: "Costing",
        facts,
        pieces,
        as_text: true,
    })
}

fn minutes(minutes: f64) -> String {
    hours(minutes * SECONDS_PER_MINUTE)
}

fn costs(quote: &Quote, parts: &PaperParts) -> Table {
    let line = |what: String, time: String, amount: i64| {
        Row::plain(vec![words(what), words(time), words(money(amount))])
    };
    let [machine, hand, wood, breakage, margin] = quote.amounts();
    Table::new(
        vec![
            Column::left("", Width::Share),
            Column::right("Hours", Width::Fit),
            Column::right("Amount", Width::Fit),
        ],
        vec![
            line(
                format!(
                    "Machine, with {} of cutter",
                    counted(quote.changes as usize, "change")
                ),
                minutes(quote.machine_minutes + quote.change_minutes),
                machine,
            ),
            line(
                "By hand, changes of cutter included".to_owned(),
                minutes(quote.hand_minutes() + quote.change_minutes),
                hand,
            ),
            line(
                format!(
                    "{}, {} with {:.2} dm³",
                    parts.wood(),
                    counted(quote.planks, "plank"),
                    quote.wood_dm3
                ),
                String::new(),
                wood,
            ),
            line("Breakage".to_owned(), String::new(), breakage),
            line("Margin".to_owned(), String::new(), margin),
            Row::sum(vec![
                words(format!(
                    "Price of {}, in {}",
                    counted(quote.blocks as usize, "block"),
                    quote.currency
                )),
                words(""),
                words(money(hundredths(quote.price))),
            ]),
        ],
    )
}

fn by_hand(quote: &Quote) -> Table {
    let rows = quote.hand.iter().map(|work| {
        Row::plain(vec![
            words(work.what),
            words(work.of.clone()),
            words(minutes(work.minutes)),
        ])
    });
    let sum = Row::sum(vec![
        words("Without changes of cutter"),
        words(""),
        words(minutes(quote.hand_minutes())),
    ]);
    Table::new(
        vec![
            Column::left("", Width::Share),
            Column::left("Of", Width::Fit),
            Column::right("Hours", Width::Fit),
        ],
        rows.chain([sum]).collect(),
    )
}

fn each(parts: &PaperParts) -> Table {
    let mut rows = Vec::new();
    for group in groups(parts.sorts, &faces(parts)) {
        rows.push(Row::group(group.name));
        for place in group.sorts {
            let (Some(sort), Some(price)) = (parts.sorts.get(place), parts.quote.sorts.get(place))
            else {
                continue;
            };
            rows.push(Row::plain(vec![
                listed(sort),
                words(sort.name.clone()),
                words(price.count.to_string()),
                words(format!("{:.1}", price.machine_minutes)),
                words(format!("{:.1}", price.knife_minutes)),
                words(money(hundredths(price.price))),
            ]));
        }
    }
    Table::new(
        vec![
            Column::left("", Width::Mm(LISTED_WIDTH_MM)),
            Column::left("Sort", Width::Share),
            Column::right("Count", Width::Fit),
            Column::right("Machine, min", Width::Mm(14.0)),
            Column::right("Knife, min", Width::Mm(11.0)),
            Column::right("Each", Width::Fit),
        ],
        rows,
    )
    .over_all(2)
}
