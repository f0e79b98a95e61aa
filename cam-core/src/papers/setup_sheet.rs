//! The setup sheet: what a person needs at the machine, plank by plank.

use super::sheet::{Cell, Column, Piece, Row, RowKind, Sheet, Table, Width, strong, words};
use super::words::{counted, hours, mm, plank_name};
use super::{PaperParts, cautions, notches, picture, wood};
use crate::commission::{Hold, Separation};
use crate::finding::{Finding, Severity};
use crate::job_file::{JobPlank, JobProgram};
use crate::plank::Plank;
use crate::program::squareness;
use crate::workshop::{Cutter, CutterShape};

/// The picture's height on the page at most, in parts of the field's.
const PICTURE_PART: f64 = 0.36;
const SECONDS_PER_MINUTE: f64 = 60.0;

pub fn write(parts: &PaperParts) -> Option<Sheet> {
    let mut facts = parts.order_facts();
    facts.extend([
        ("Wood", parts.wood().to_owned()),
        (
            "Height to paper",
            format!("{} mm", mm(parts.commission.height_to_paper.in_mm())),
        ),
        ("Machine", parts.workshop.machine.name.clone()),
        (
            "In all",
            format!(
                "{} on {}; {} hours at the machine, changes of cutter not counted",
                counted(parts.job.sorts.len(), "block"),
                counted(parts.job.planks.len(), "plank"),
                hours(parts.job.minutes.machine * SECONDS_PER_MINUTE)
            ),
        ),
    ]);
    let told: Vec<&Finding> = parts
        .findings
        .iter()
        .filter(|finding| finding.kind != ROUND_CORNERS)
        .collect();
    let mut pieces = vec![Piece::heading("Zero")];
    pieces.extend(zero());
    pieces.extend(corrected(parts));
    pieces.push(Piece::heading("Blocks come apart"));
    pieces.push(Piece::text(coming_apart(parts)));
    pieces.extend(notches::told(parts));
    pieces.extend(wood::routers(parts));
    pieces.push(Piece::heading("Read before cutting"));
    pieces.push(Piece::text(found(&told)));
    pieces.extend(cautions::cautions());
    for (plank, drawn) in parts.job.planks.iter().zip(parts.planks) {
        pieces.extend(one_plank(parts, plank, drawn));
    }
    if !told.is_empty() {
        pieces.push(Piece::Part("Read before cutting".to_owned()));
        pieces.push(Piece::Table(findings(&told)));
    }
    pieces.push(Piece::Rule);
    pieces.extend(cautions::checked());
    Some(Sheet {
        file: "setup-sheet",
        name: "Setup sheet",
        facts,
        pieces,
        as_text: true,
    })
}

fn zero() -> [Piece; 2] {
    [
        Piece::text(
            "Lay the plank with its printing face up. x 0, y 0 is its lower left corner seen from above, with y running away from you; z 0 is the printing face, the top of the plank.",
        ),
        Piece::text(
            "Set z 0 afresh on the face after every change of cutter. Keep x 0 and y 0 where they are until the plank is done.",
        ),
    ]
}

/// Says that the programs are for this machine alone, if it is not square.
fn corrected(parts: &PaperParts) -> Option<Piece> {
    let machine = &parts.workshop.machine;
    machine.squareness.as_ref().map(|map| {
        Piece::text(format!(
            "The programs are corrected for the squareness of this machine ({}): {}. Run them on no other.",
            machine.name,
            squareness::in_words(map)
        ))
    })
}

fn one_plank(parts: &PaperParts, plank: &JobPlank, drawn: &Plank) -> Vec<Piece> {
    let programs: Vec<&JobProgram> = parts
        .job
        .programs
        .iter()
        .filter(|program| program.plank == plank.id)
        .collect();
    let seconds: f64 = programs.iter().map(|program| program.estimate_s).sum();
    let blocks = parts.job.sorts.iter();
    let blocks = blocks.filter(|sort| sort.plank == plank.id).count();
    let field = parts.field();
    let mut facts = vec![
        (
            "Plank".to_owned(),
            format!(
                "{} mm (x) by {} mm (y), {} mm thick; {}, {} hours at the machine",
                mm(plank.width_mm),
                mm(plank.length_mm),
                mm(plank.height_to_paper_mm),
                counted(blocks, "block"),
                hours(seconds)
            ),
        ),
        (
            "Zero".to_owned(),
            "x 0, y 0 at the plank’s lower left corner; z 0 on the printing face, set afresh after every change of cutter".to_owned(),
        ),
    ];
    let of_wood = wood::of_plank(parts, drawn);
    if !of_wood.is_empty() {
        facts.push(("Wood".to_owned(), of_wood));
    }
    vec![
        Piece::Part(plank_name(&plank.id)),
        Piece::Facts(facts),
        Piece::heading("Take care"),
        Piece::Loud(
            "Eye and ear protection on, extraction running, plank held fast, first moves tried above the wood. The machine’s manual comes before this sheet.".to_owned(),
        ),
        Piece::Drawing(picture::fitted(
            parts,
            drawn,
            [field.whole_mm(), field.high_mm() * PICTURE_PART],
        )),
        Piece::heading("Programs, in this order"),
        Piece::Table(run(&programs)),
        Piece::heading("Cutters"),
        Piece::Table(cutters(parts, &programs)),
        Piece::heading("Clamps"),
        Piece::text(clamps(parts, plank, drawn)),
    ]
}

fn run(programs: &[&JobProgram]) -> Table {
    let mut rows = Vec::new();
    for (number, program) in (1..).zip(programs) {
        rows.push(Row::plain(vec![
            words(format!("{number}.")),
            strong(program.file.clone()),
            words(program.cutter.clone()),
            words(program.role.word()),
            words(hours(program.estimate_s)),
            Cell::Tick,
        ]));
        for change in &program.changes {
            rows.push(Row {
                cells: vec![
                    words(""),
                    words("at the pause: change of cutter"),
                    words(change.cutter.clone()),
                    words(change.role.word()),
                    words(""),
                    Cell::Tick,
                ],
                kind: RowKind::Plain,
            });
        }
    }
    Table::new(
        vec![
            Column::right("", Width::Fit),
            Column::left("Program", Width::Fit),
            Column::left("Cutter", Width::Fit),
            Column::left("Does", Width::Share),
            Column::right("Hours", Width::Fit),
            Column::left("Done", Width::Fit),
        ],
        rows,
    )
    .over_all(1)
}

/// The cutters of a plank in the order of their first use.
fn cutters(parts: &PaperParts, programs: &[&JobProgram]) -> Table {
    let mut used: Vec<&str> = Vec::new();
    for program in programs {
        let changes = program.changes.iter().map(|change| change.cutter.as_str());
        for id in [program.cutter.as_str()].into_iter().chain(changes) {
            if !used.contains(&id) {
                used.push(id);
            }
        }
    }
    let rows = used
        .iter()
        .filter_map(|id| parts.workshop.cutter(id))
        .map(cutter)
        .collect();
    Table::new(
        vec![
            Column::left("Cutter", Width::Fit),
            Column::left("Shape", Width::Share),
            Column::right("Stands out, mm", Width::Mm(17.0)),
            Column::right("Flutes, mm", Width::Mm(14.0)),
            Column::right("Down to, mm", Width::Mm(16.0)),
            Column::right("Turns a minute", Width::Mm(15.0)),
            Column::right("Feed, mm/min", Width::Mm(15.0)),
            Column::right("Plunge, mm/min", Width::Mm(15.0)),
        ],
        rows,
    )
    .over_all(1)
}

fn cutter(cutter: &Cutter) -> Row {
    let across = mm(cutter.diameter.in_mm());
    let shape = match cutter.shape {
        CutterShape::Flat => format!("flat, {across} mm"),
        CutterShape::Ball => format!("ball, {across} mm"),
        CutterShape::Conical {
            tip,
            included_angle_deg,
        } => format!(
            "cone of {}°, tip {} mm",
            mm(included_angle_deg),
            mm(tip.in_mm())
        ),
    };
    Row::plain(vec![
        strong(cutter.id.clone()),
        words(shape),
        strong(mm(cutter.stick_out.in_mm())),
        words(mm(cutter.flute_length.in_mm())),
        words(mm(cutter.max_depth.in_mm())),
        words(format!("{:.0}", cutter.spindle_rpm)),
        words(format!("{:.0}", cutter.feed_mm_min)),
        words(format!("{:.0}", cutter.plunge_mm_min)),
    ])
}

/// Where clamps may stand: outside what any cutter comes near.
fn clamps(parts: &PaperParts, plank: &JobPlank, drawn: &Plank) -> String {
    let machine = parts.workshop.machines().nth(drawn.machine);
    let machine = machine.unwrap_or(&parts.workshop.machine);
    let mut text = String::new();
    for clamp in &plank.clamps {
        text += &format!(
            "One at x {}, y {}, {} by {} mm, {} mm above the face. ",
            mm(clamp.at_mm[0]),
            mm(clamp.at_mm[1]),
            mm(clamp.size_mm[0]),
            mm(clamp.size_mm[1]),
            mm(clamp.height_mm)
        );
    }
    if let Some(within) = picture::cutting(parts, &plank.id) {
        text += &format!(
            "Cutting stays within x {} to {} and y {} to {} mm. Outside it leave room for collet and nut beside clamps, screws and their heads, and nothing higher than {} mm above the face. Within it nothing may stand up or lie about: between cuts the cutter crosses only {} mm above the face.",
            mm(within.x0),
            mm(within.x1),
            mm(within.y0),
            mm(within.y1),
            mm(machine.clear_height_mm),
            mm(machine.hop_height_mm)
        );
    }
    text
}

fn coming_apart(parts: &PaperParts) -> String {
    match &parts.commission.planks.separation {
        Separation::Router { cutter, hold } => {
            let held = match hold {
                Hold::Tabs { width, height } => format!(
                    "Bridges {} mm wide and {} mm high hold the blocks; saw or cut them through, and dress the sides.",
                    mm(width.in_mm()),
                    mm(height.in_mm())
                ),
                Hold::Skin(height) => format!(
                    "A skin of {} mm at the bottom holds the blocks; cut it through, and dress the edges.",
                    mm(height.in_mm())
                ),
            };
            format!(
                "Cutter {cutter} cuts the blocks out down to the bed, so lay the plank on a board that may be cut. {held}"
            )
        }
        Separation::Saw => "By the saw: see the cutting list.".to_owned(),
    }
}

/// The kind of notes that the handwork list says better.
const ROUND_CORNERS: &str = "corners-round";

/// How many findings there are, in a sentence.
fn found(findings: &[&Finding]) -> String {
    let of = |wanted: Severity| {
        let alike = findings.iter().filter(|finding| finding.severity == wanted);
        alike.count()
    };
    let counts: Vec<String> = [
        (of(Severity::Stop), "stop"),
        (of(Severity::Warning), "warning"),
        (of(Severity::Note), "note"),
    ]
    .into_iter()
    .filter(|(count, _)| *count > 0)
    .map(|(count, word)| counted(count, word))
    .collect();
    match counts.as_slice() {
        [] => "Nothing was found that needs reading.".to_owned(),
        some => format!(
            "{}, listed after the planks. Corners for the knife stand in the handwork list.",
            some.join(" and ")
        ),
    }
}

/// What was found, gravest first.
fn findings(findings: &[&Finding]) -> Table {
    let of = |severity: Severity, name: &str| -> Vec<Row> {
        let mut rows: Vec<Row> = findings
            .iter()
            .filter(|finding| finding.severity == severity)
            .map(|finding| {
                let text = format!("{} {}", finding.text, finding.remedy);
                Row::plain(vec![words(finding.subject.to_string()), words(text.trim())])
            })
            .collect();
        if !rows.is_empty() {
            rows.insert(0, Row::group(name));
        }
        rows
    };
    let mut rows = of(Severity::Stop, "Stops");
    rows.extend(of(Severity::Warning, "Warnings"));
    rows.extend(of(Severity::Note, "Notes"));
    Table::new(
        vec![Column::left("", Width::Fit), Column::left("", Width::Share)],
        rows,
    )
    .over_all(1)
}
