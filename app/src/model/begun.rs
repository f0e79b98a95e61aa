//! Notebooks of the bench begun from an order: what is wanted stands there already, readings are to be filled in.

use bench::notebook::Kind;
use bench::species::{SPECIES, Species};
use cam_core::commission::Commission;
use cam_core::make::Program;
use cam_core::measure::System;
use cam_core::sort::Sort;
use cam_core::workshop::{Wood, Workshop};

/// What a notebook is begun from.
#[derive(Clone, Copy)]
pub struct Order<'a> {
    /// The commission.
    pub commission: &'a Commission,
    /// Its workshop.
    pub workshop: &'a Workshop,
    /// Its sorts.
    pub sorts: &'a [&'a Sort],
    /// Its programs, as far as they are made.
    pub programs: &'a [Program],
}

/// Marked places lie so far from the edges of a plank, mm: where a gauge still stands flat. Common practice, no source.
const FROM_EDGE_MM: f64 = 10.0;

/// Marks along a plank and across it: both ends and the middle show slopes and sagging, both edges the rest. Common practice, no source.
const MARKS: [usize; 2] = [3, 2];

/// A notebook of a kind for an order; `None` of a kind that no order says anything for.
pub fn begun(kind: Kind, order: Order<'_>) -> Option<String> {
    match kind {
        Kind::Height => Some(height(order)),
        Kind::Moisture => Some(moisture(order)),
        Kind::LockUp => Some(lock_up(order)),
        Kind::Minutes => minutes(order),
        Kind::Losses => Some(losses(order)),
        // It comes with the test block.
        Kind::Square => None,
    }
}

/// A number to a thousandth, without needless zeros.
fn mm(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn height(order: Order<'_>) -> String {
    let planks = &order.commission.planks;
    let sides = [planks.width.in_mm(), planks.length.in_mm()];
    // Of a narrow plank, a tenth.
    let inset = sides.map(|side| FROM_EDGE_MM.min(side / 10.0));
    let mut text = format!(
        "bench height\n\
         wanted {}\n\
         tolerance {}\n\
         gauge {}\n\
         # Mark these places on every plank, x from the left end, y from the near edge.\n",
        mm(order.commission.height_to_paper.in_mm()),
        mm(bench::height::TOLERANCE_MM),
        mm(bench::height::GAUGE_MM),
    );
    let along = |axis: usize, step: usize| {
        let free = sides[axis] - 2.0 * inset[axis];
        inset[axis] + free * step as f64 / (MARKS[axis] - 1) as f64
    };
    let places = (0..MARKS[1]).flat_map(|row| (0..MARKS[0]).map(move |column| (column, row)));
    let names: Vec<char> = ('A'..='Z').take(MARKS[0] * MARKS[1]).collect();
    for ((column, row), name) in places.zip(&names) {
        text += &format!(
            "mark {name} {} {}\n",
            mm(along(0, column)),
            mm(along(1, row))
        );
    }
    text += "plank 1\npass as planed\n\
             # Write the height behind each mark, and take the # away.\n";
    for name in names {
        text += &format!("# {name}\n");
    }
    text
}

/// The wood whose movement is known by the name of the workshop's wood.
fn species(wood: &Wood) -> Option<Species> {
    let told = format!("{} {}", wood.id, wood.name)
        .replace(['-', '_'], " ")
        .to_lowercase();
    let named = |species: &&Species| told.contains(species.name);
    // "Cherry" alone is the one cherry that is known.
    let nearly = |species: &&Species| {
        let last = species.name.rsplit(' ').next();
        last.is_some_and(|last| told.contains(last))
    };
    let all = || SPECIES.iter();
    all().find(named).or_else(|| all().find(nearly)).copied()
}

fn moisture(order: Order<'_>) -> String {
    let wood = order.workshop.wood(&order.commission.wood);
    let known = wood.and_then(species);
    let name = known.map_or("# wood\n".to_owned(), |species| {
        format!("wood {}\n", species.name)
    });
    let face = match wood {
        Some(wood) if !wood.end_grain => "face side set        # the grain runs along the set",
        Some(_) | None => "face end             # the grain stands upright",
    };
    let widest = |size: fn(&Sort) -> f64| {
        let sizes = order.sorts.iter().map(|sort| size(sort));
        sizes.fold(0.0, f64::max)
    };
    let (body, set) = (
        widest(|sort| sort.block.body_mm),
        widest(|sort| sort.block.set_mm),
    );
    let row: f64 = order.sorts.iter().map(|sort| sort.block.set_mm).sum();
    let mut text = format!(
        "bench moisture\n\
         {name}\
         room 20 C 50 %       # overwrite it with your own air\n\
         # there 23 C 30 %    # where the type will be kept: take the # away\n\
         # reading            # of the meter, per cent\n\
         {face}\n"
    );
    for (word, size) in [
        ("body", body),
        ("set", set),
        ("height", order.commission.height_to_paper.in_mm()),
        ("row", row),
    ] {
        if size > 0.0 {
            text += &format!("{word} {}\n", mm(size));
        }
    }
    text
}

/// A sort's name as one word of a notebook.
fn word_of(name: &str) -> String {
    let word: String = name
        .chars()
        .map(|letter| match letter {
            '#' => "number-sign".to_owned(),
            ';' => "semicolon".to_owned(),
            letter if letter.is_whitespace() => "-".to_owned(),
            letter => letter.to_string(),
        })
        .collect();
    word
}

fn lock_up(order: Order<'_>) -> String {
    let Order { commission, .. } = order;
    let body = system_body_mm(commission.lines, commission.system);
    let mut text = format!(
        "bench lockup\n\
         body {}\n\
         height {}\n\
         caliper {}\n\
         # Below each sort, write or send body, set and height of its blocks.\n",
        mm(body),
        mm(commission.height_to_paper.in_mm()),
        mm(bench::lock_up::CALIPER_MM),
    );
    for sort in order.sorts {
        let own = if (sort.block.body_mm - body).abs() < 5e-4 {
            String::new()
        } else {
            format!(" {}", mm(sort.block.body_mm))
        };
        text += &format!(
            "sort {} {}{own}\n",
            word_of(&sort.name),
            mm(sort.block.set_mm)
        );
    }
    text
}

fn system_body_mm(lines: f64, system: System) -> f64 {
    /// A line is so many points.
    const POINTS: f64 = 12.0;
    lines * POINTS * system.point_mm()
}

fn minutes(order: Order<'_>) -> Option<String> {
    if order.programs.is_empty() {
        return None;
    }
    let mut text = "bench minutes\n\
                    # Write the minutes that each program took behind its estimate, and take the # away.\n"
        .to_owned();
    for program in order.programs {
        text += &format!(
            "# program {} {:.1}\n",
            program.file,
            program.estimate_s / 60.0
        );
    }
    Some(text)
}

fn losses(order: Order<'_>) -> String {
    let blocks: u32 = order.sorts.iter().map(|sort| sort.count).sum();
    format!(
        "bench losses\n\
         blocks {blocks}\n\
         # work               # what the work on them cost, in the workshop's currency\n\
         # rejected 1 chipped serif\n\
         # broken 1 12.50 which cutter, and how\n"
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use cam_core::commission::{Commission, Face};
    use cam_core::make::Fonts;
    use cam_core::progress::Progress;
    use cam_core::sort::draw_up;

    /// An order of spaces, which need no font.
    fn with_order(check: impl Fn(Order<'_>)) {
        let face = Face {
            id: "main".to_owned(),
            file: "face.ttf".to_owned(),
            sha256: String::new(),
            index: 0,
            variations: Default::default(),
            permission: Default::default(),
        };
        let mut commission = Commission::starting("Trial", System::Pica, 10.0, face);
        commission.faces.clear();
        commission.bill.clear();
        commission.spaces = [12.0, 30.0]
            .map(|points| cam_core::commission::SpaceLine {
                set: cam_core::measure::Length::points_of(points, System::Pica),
                count: 4,
            })
            .to_vec();
        let drawn = draw_up(&commission, &Fonts::default(), &Progress::new()).expect("drawn up");
        let sorts: Vec<&Sort> = drawn.sorts.iter().collect();
        let workshop = Workshop::starting();
        let programs = [Program {
            file: "plank-1-1-flat-6.ngc".to_owned(),
            plank: 0,
            parts: Vec::new(),
            text: String::new(),
            estimate_s: 150.0,
        }];
        check(Order {
            commission: &commission,
            workshop: &workshop,
            sorts: &sorts,
            programs: &programs,
        });
    }

    #[test]
    fn heights_are_begun_with_marks_inside_the_plank() {
        with_order(|order| {
            let text = begun(Kind::Height, order).expect("a notebook");
            let filled: String = ('A'..='F').fold(text.clone(), |text, mark| {
                text.replace(&format!("# {mark}\n"), &format!("{mark} 23.40\n"))
            });
            let log = bench::height::read(&filled).expect("read");
            assert_eq!(log.marks.len(), 6);
            assert_eq!(log.marks[0].at, [10.0, 10.0]);
            assert_eq!(log.marks[5].at, [290.0, 140.0]);
            assert_eq!(log.planks[0].passes[0].readings.len(), 6);
            assert!((log.wanted.height - 23.317).abs() < 1e-9);
        });
    }

    #[test]
    fn moisture_and_lock_up_know_the_founts_sizes() {
        with_order(|order| {
            let text = begun(Kind::Moisture, order).expect("a notebook");
            let notes = bench::moisture::read(&text).expect("read");
            assert_eq!(notes.wood.name, "hard maple");
            let sizes: Vec<f64> = notes.sizes.iter().map(|size| size.mm).collect();
            assert_eq!(sizes, [42.175, 10.544, 23.317, 14.761]);
            let text = begun(Kind::LockUp, order).expect("a notebook");
            assert!(text.contains("sort space-12-pt 4.218\n"), "{text}");
            let filled = text.replace(
                "sort space-30-pt 10.544\n",
                "sort space-30-pt 10.544\n42.17 10.54\n",
            );
            let fount = bench::lock_up::read(&filled).expect("read");
            let wide = fount.sorts.iter().find(|sort| sort.name == "space-30-pt");
            assert_eq!(wide.map(|sort| sort.measured.len()), Some(1));
            assert_eq!(fount.sorts.len(), 2);
        });
    }

    #[test]
    fn minutes_and_losses_begin_with_programs_and_blocks() {
        with_order(|order| {
            let text = begun(Kind::Minutes, order).expect("a notebook");
            assert!(
                text.ends_with("# program plank-1-1-flat-6.ngc 2.5\n"),
                "{text}"
            );
            let text = begun(Kind::Losses, order).expect("a notebook");
            assert_eq!(bench::losses::read(&text).expect("read").blocks, 8.0);
            assert_eq!(begun(Kind::Square, order), None);
            let none = Order {
                programs: &[],
                ..order
            };
            assert_eq!(begun(Kind::Minutes, none), None);
        });
    }

    #[test]
    fn names_are_one_word() {
        assert_eq!(word_of("E part 1"), "E-part-1");
        assert_eq!(word_of("#"), "number-sign");
    }
}
