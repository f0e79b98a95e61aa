//! A bill told in words.

use cam_core::bill::{Checked, Filled, FountPart, Spacing};
use cam_core::commission::SpaceLine;
use cam_core::material;
use cam_core::measure::{Length, System, Unit};
use cam_core::sort::Sort;

use super::{Told, entry, part_of};

/// Width that lists are broken at, in characters.
const WIDTH: usize = 92;
/// Indent of lists, in characters.
const INDENT: usize = 14;

pub(super) fn in_words(told: &Told<'_>) -> String {
    let mut paragraphs = vec![bill(told), lining(told)];
    paragraphs.extend(larger_bodies(told));
    paragraphs.push(format!(
        "Spaces that belong to a fount of this size: {}.",
        spaces(told, &told.of_fount)
    ));
    if let Some((checked, spacing)) = &told.text {
        paragraphs.push(text(told, checked));
        paragraphs.push(lines(told, spacing));
    }
    if told.scheme.is_some() {
        paragraphs.push(scheme(told));
    }
    paragraphs.join("\n\n")
}

fn bill(told: &Told<'_>) -> String {
    let sorts = &told.drawn.sorts;
    let faced: Vec<&Sort> = sorts.iter().filter(|sort| sort.source.is_some()).collect();
    let total: u32 = faced.iter().map(|sort| sort.count).sum();
    let mut text = format!("{total} sorts of {} kinds", faced.len());
    for part in FountPart::ALL {
        let of_part: Vec<&Sort> = faced
            .iter()
            .copied()
            .filter(|sort| part_of(sort) == Some(part))
            .collect();
        if of_part.is_empty() {
            continue;
        }
        let total: u32 = of_part.iter().map(|sort| sort.count).sum();
        let entries = of_part
            .iter()
            .map(|sort| format!("{} {}", sort.name, sort.count));
        text += &format!(
            "\n{:<w$}{}",
            format!("{} {total}", part.name()),
            broken(entries),
            w = INDENT + 4
        );
    }
    let spaces = told.drawn.sorts.iter().filter(|sort| sort.block.plain);
    let spaces: Vec<String> = spaces
        .map(|sort| format!("{} {}", sort.name, sort.count))
        .collect();
    if !spaces.is_empty() {
        text += &format!(
            "\n{:<w$}{}",
            "Spaces",
            broken(spaces.into_iter()),
            w = INDENT + 4
        );
    }
    text
}

/// Entries with commas between, broken into lines that stand under one another.
fn broken(entries: impl Iterator<Item = String>) -> String {
    let mut lines = vec![String::new()];
    for entry in entries {
        match lines.last_mut() {
            Some(line) if line.is_empty() => line.push_str(&entry),
            Some(line) if line.chars().count() + entry.chars().count() + 2 <= WIDTH => {
                line.push_str(", ");
                line.push_str(&entry);
            }
            Some(_) | None => lines.push(entry),
        }
    }
    lines.join(&format!(",\n{:w$}", "", w = INDENT + 4))
}

fn lining(told: &Told<'_>) -> String {
    let system = told.commission.system;
    let show = |mm: f64, unit| Length::mm(mm).show(unit, system);
    let plain = told
        .drawn
        .sorts
        .iter()
        .find(|sort| sort.block.extended_pt == [0.0; 2]);
    match plain.or(told.drawn.sorts.first()) {
        Some(sort) => {
            let foot_mm = Length::points_of(sort.block.extended_pt[0], system).in_mm();
            let base_mm = sort.block.baseline_mm - foot_mm;
            format!(
                "Body {} ({}), base line {} from the foot ({}).",
                Length::lines(told.commission.lines, system).show(Unit::Line, system),
                Length::lines(told.commission.lines, system).show(Unit::Millimetre, system),
                show(base_mm, Unit::Point),
                show(base_mm, Unit::Millimetre),
            )
        }
        None => "Nothing could be drawn up.".to_owned(),
    }
}

/// Letters on larger bodies, those of one body together, with what makes up the difference beside their neighbours.
fn larger_bodies(told: &Told<'_>) -> Option<String> {
    let larger: Vec<&Sort> = told
        .drawn
        .sorts
        .iter()
        .filter(|sort| sort.block.extended_pt != [0.0; 2])
        .collect();
    let mut bodies: Vec<[f64; 2]> = Vec::new();
    for sort in &larger {
        if !bodies.contains(&sort.block.extended_pt) {
            bodies.push(sort.block.extended_pt);
        }
    }
    let mut text = "On larger bodies:".to_owned();
    for body in &bodies {
        let of_body: Vec<&Sort> = larger
            .iter()
            .copied()
            .filter(|sort| sort.block.extended_pt == *body)
            .collect();
        let names: Vec<&str> = of_body.iter().map(|sort| sort.name.as_str()).collect();
        let sides = of_body.first()?.block.made_up_by();
        let sides: Vec<String> = ["foot", "head"]
            .iter()
            .zip(&sides)
            .zip(body)
            .filter(|(_, points)| **points > 0.0)
            .map(|((side, pieces), points)| {
                format!(
                    "{points} pt more at the {side}, so neighbours on the plain body take {} there",
                    material::in_words(pieces)
                )
            })
            .collect();
        text += &format!("\n  {}: {}.", names.join(" "), sides.join("; "));
    }
    (!bodies.is_empty()).then_some(text)
}

fn spaces(told: &Told<'_>, spaces: &[SpaceLine]) -> String {
    let system = told.commission.system;
    if spaces.is_empty() {
        return "none".to_owned();
    }
    let entry =
        |line: &SpaceLine| format!("{} of {}", line.count, line.set.show(Unit::Point, system));
    spaces.iter().map(entry).collect::<Vec<_>>().join(", ")
}

fn text(told: &Told<'_>, checked: &Checked) -> String {
    let how = if told.each_line {
        "one line at a time"
    } else {
        "all lines at once"
    };
    let short: Vec<String> = checked
        .short()
        .map(|one| {
            format!(
                "{} {} (takes {}, has {})",
                one.what,
                one.short(),
                one.needed,
                one.has
            )
        })
        .collect();
    let mut text = match (short.is_empty(), checked.times()) {
        (false, _) => format!(
            "The text cannot be set {how}. Short: {}.",
            broken(short.into_iter())
        ),
        (true, Some(times)) if times > 1 => {
            format!("The text can be set {how}, and the letters suffice for it {times} times.")
        }
        (true, _) => format!("The text can be set {how}."),
    };
    text += &match checked.spaces {
        _ if checked.gaps == 0 => String::new(),
        None => format!(
            " It takes {} spaces between words; none are ordered, so the printer's own serve.",
            checked.gaps
        ),
        Some(_) if checked.short_of_spaces() > 0 => format!(
            " It takes {} spaces between words, {} more than are ordered.",
            checked.gaps,
            checked.short_of_spaces()
        ),
        Some(has) => format!(" It takes {} spaces between words, of {has}.", checked.gaps),
    };
    if checked.unread > 0 {
        text += &format!(
            " {} sorts chosen by name or index were not counted on.",
            checked.unread
        );
    }
    text
}

fn lines(told: &Told<'_>, spacing: &Spacing) -> String {
    let system = told.commission.system;
    let ems = match system {
        System::Pica => Unit::Pica,
        System::Didot | System::DidotRounded => Unit::Cicero,
    };
    let measure = Length::points_of(spacing.measure_pt, system).show(ems, system);
    let mut text = format!(
        "Filled out to {measure}, the lines take these spaces: {}.",
        spaces(told, &spacing.spaces)
    );
    for line in &spacing.lines {
        text += &format!("\n  {}", one_line(line));
    }
    text
}

fn one_line(line: &Filled) -> String {
    let mut parts = vec![format!("letters {:.2} pt", line.letters_pt)];
    let (between, gaps) = line.between;
    if gaps > 0 {
        parts.push(format!("{gaps} × {}", between.name()));
    }
    let mut quads: Vec<(&str, usize)> = Vec::new();
    for quad in &line.quads {
        match quads.last_mut() {
            Some((name, count)) if *name == quad.name() => *count += 1,
            Some(_) | None => quads.push((quad.name(), 1)),
        }
    }
    parts.extend(
        quads
            .iter()
            .map(|(name, count)| format!("{count} × {name}")),
    );
    if !line.material.is_empty() {
        parts.push(material::in_words(&line.material));
    }
    if line.left_pt < 0.0 {
        parts.push(format!("{:.2} pt too long", -line.left_pt));
    } else if line.left_pt > 0.0 {
        parts.push(format!("{:.2} pt left", line.left_pt));
    }
    if !line.missing.is_empty() {
        parts.push(format!("without {}", line.missing.concat()));
    }
    format!("{}: {}", line.text, parts.join(", "))
}

fn scheme(told: &Told<'_>) -> String {
    let lines = told.scheme.as_deref().unwrap_or_default();
    let total: u32 = lines.iter().map(|(line, _)| line.count).sum();
    let lacking: Vec<String> = lines
        .iter()
        .filter(|(line, has)| *has < line.count)
        .map(|(line, has)| format!("{} {}", entry(line), line.count - has))
        .collect();
    let entries = lines
        .iter()
        .map(|(line, _)| format!("{} {}", entry(line), line.count));
    let indent = format!("{:w$}", "", w = INDENT + 4);
    let mut text = format!(
        "{}: {total} sorts\n{indent}{}\n{}",
        told.proportions.name,
        broken(entries),
        told.proportions.source
    );
    text += &if lacking.is_empty() {
        "\nThe bill lacks nothing of it.".to_owned()
    } else {
        format!(
            "\nThe bill lacks of it:\n{indent}{}",
            broken(lacking.into_iter())
        )
    };
    text
}
