//! `sortwright bill`.

mod words;

use clap::Args;
use serde_json::{Value, json};

use cam_core::bill::{
    Case, Checked, FountPart, Need, Proportions, Scheme, Spacing, Table, for_fount, for_text,
    from_scheme,
};
use cam_core::commission::{BillLine, Commission, SpaceLine};
use cam_core::material;
use cam_core::measure::{Length, Unit};
use cam_core::sort::{DrawnUp, Sort, draw_up};
use cam_core::workshop::Workshop;

use super::Outcome;
use super::source::Source;
use super::terminal::{Terminal, findings_json};
use crate::model::apply::count_of;

/// Tell what a commission orders, and whether a text can be set from it.
///
/// Counts by the parts of the fount, the body and base line, and what makes up the difference beside letters on larger bodies. With
/// --text: what the text takes of each letter, what is short, and the spaces that fill its lines out, worked out from the sets. With
/// --scheme: what the bill lacks of a fount in the trade's proportions.
#[derive(Debug, Args)]
pub struct BillOf {
    #[command(flatten)]
    source: Source,
    /// A line of the text to be set; may be given several times, and may hold several lines.
    #[arg(long, value_name = "LINE")]
    text: Vec<String>,
    /// Set one line of the text at a time, not all at once.
    #[arg(long, requires = "text")]
    each_line: bool,
    /// The measure that the lines are filled out to, such as "40 picas"; without it, that of the longest line.
    #[arg(long, value_name = "LENGTH", requires = "text")]
    measure: Option<String>,
    /// Lay the bill beside a scheme, such as "4A 8a" or "5A figures=3 points=0".
    #[arg(long, value_name = "SCHEME")]
    scheme: Option<Scheme>,
    /// In whose proportions: job, wood, book, a language, or one of the workshop's own tables by its name.
    #[arg(long, value_name = "NAME", default_value = "job")]
    proportions: String,
    /// Print everything as JSON.
    #[arg(long)]
    json: bool,
}

/// Everything that is told.
struct Told<'a> {
    commission: &'a Commission,
    drawn: &'a DrawnUp,
    text: Option<(Checked, Spacing)>,
    each_line: bool,
    /// The scheme's lines, and how many of each the bill has.
    scheme: Option<Vec<(BillLine, u32)>>,
    proportions: Named,
    /// Spaces that belong to a fount of this size.
    of_fount: Vec<SpaceLine>,
}

impl BillOf {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let opened = self.source.open()?;
        let commission = &opened.commission;
        let system = commission.system;
        let measure = match &self.measure {
            Some(text) => Some(Length::parse(text, system).map_err(|error| error.to_string())?),
            None => None,
        };
        let drawn = terminal
            .watch(|progress| draw_up(commission, &opened.fonts, progress))
            .map_err(|error| error.to_string())?;
        let face = commission.faces.first().map(|face| face.id.clone());
        let face = face.unwrap_or_default();
        let of_face = |sort: &&Sort| sort.source.as_ref().is_some_and(|made| made.face == face);
        let sorts: Vec<&Sort> = drawn.sorts.iter().filter(of_face).collect();
        let text = self.text.join("\n");
        let need = if self.each_line {
            Need::AnyLine
        } else {
            Need::AllLines
        };
        let text = (!text.trim().is_empty()).then(|| {
            let checked = Case::of(commission, &face).check(&text, need);
            let spacing = for_text(&sorts, commission, &text, need, measure);
            (checked, spacing)
        });
        let proportions = Named::of(&self.proportions, &opened.workshop)?;
        let scheme = match self.scheme {
            Some(scheme) => Some(beside(scheme, &proportions.table, &face, commission)?),
            None => None,
        };
        let told = Told {
            commission,
            drawn: &drawn,
            text,
            each_line: self.each_line,
            scheme,
            proportions,
            of_fount: for_fount(commission),
        };
        if self.json {
            terminal.say(&format!("{:#}", told.as_json()));
        } else {
            terminal.findings(&drawn.findings);
            terminal.say(&words::in_words(&told));
        }
        let set = told.text.as_ref();
        let short = set.is_some_and(|(checked, _)| !checked.can_be_set());
        Ok(if short {
            Outcome::Stopped
        } else {
            Outcome::Done
        })
    }
}

/// Proportions, printed or the workshop's own.
struct Named {
    name: String,
    source: String,
    table: Table,
}

impl Named {
    /// Those of a name: the workshop's own first.
    fn of(name: &str, workshop: &Workshop) -> Result<Named, String> {
        let own = workshop.tables.iter().find(|own| own.name == name.trim());
        match own {
            Some(own) => Ok(Named {
                name: own.name.clone(),
                source: own.source.clone(),
                table: own.table().map_err(|error| error.to_string())?,
            }),
            None => {
                let printed = Proportions::named(name).map_err(|error| error.to_string())?;
                Ok(Named {
                    name: printed.name().to_owned(),
                    source: printed.source().to_owned(),
                    table: printed.table(),
                })
            }
        }
    }
}

fn beside(
    scheme: Scheme,
    table: &Table,
    face: &str,
    commission: &Commission,
) -> Result<Vec<(BillLine, u32)>, String> {
    let lines = from_scheme(face, scheme, table).map_err(|error| error.to_string())?;
    let has = |line: BillLine| {
        let has = count_of(&commission.bill, face, &line.glyph);
        (line, has)
    };
    Ok(lines.into_iter().map(has).collect())
}

/// The part of the fount that a sort belongs to; `None` for a space.
fn part_of(sort: &Sort) -> Option<FountPart> {
    let source = sort.source.as_ref()?;
    Some(FountPart::of(&source.choice))
}

/// A choice of glyph as a list writes it, without its count.
fn entry(line: &BillLine) -> String {
    let listed = cam_core::bill::to_list(line);
    let listed = listed.as_deref().and_then(|text| text.rsplit_once(' '));
    listed.map_or_else(|| format!("{:?}", line.glyph), |(what, _)| what.to_owned())
}

impl Told<'_> {
    fn points(&self, mm: f64) -> f64 {
        let points = Length::mm(mm).in_unit(Unit::Point, self.commission.system);
        (points * 1e4).round() / 1e4
    }

    fn spaces_json(&self, spaces: &[SpaceLine]) -> Value {
        let space = |line: &SpaceLine| json!({ "set_pt": self.points(line.set.in_mm()), "count": line.count });
        spaces.iter().map(space).collect()
    }

    fn as_json(&self) -> Value {
        let sorts: Vec<Value> = self
            .drawn
            .sorts
            .iter()
            .map(|sort| {
                let [foot, head] = sort.block.made_up_by();
                json!({
                    "name": sort.name,
                    "text": sort.text,
                    "part": part_of(sort).map_or("Spaces", FountPart::name),
                    "count": sort.count,
                    "set_pt": self.points(sort.block.set_mm),
                    "body_pt": self.points(sort.block.body_mm),
                    "base_line_pt": self.points(sort.block.baseline_mm),
                    "larger_at_foot_pt": sort.block.extended_pt[0],
                    "larger_at_head_pt": sort.block.extended_pt[1],
                    "foot_made_up_by": material::in_words(&foot),
                    "head_made_up_by": material::in_words(&head),
                })
            })
            .collect();
        json!({
            "sorts": sorts,
            "spaces_of_a_fount": self.spaces_json(&self.of_fount),
            "text": self.text.as_ref().map(|(checked, spacing)| self.text_json(checked, spacing)),
            "scheme": self.scheme.as_ref().map(|lines| self.scheme_json(lines)),
            "findings": findings_json(&self.drawn.findings),
        })
    }

    fn text_json(&self, checked: &Checked, spacing: &Spacing) -> Value {
        let letters: Vec<Value> = checked
            .letters
            .iter()
            .map(|one| json!({ "what": one.what, "needed": one.needed, "has": one.has, "short": one.short() }))
            .collect();
        let lines: Vec<Value> = spacing
            .lines
            .iter()
            .map(|line| {
                let quads: Vec<&str> = line.quads.iter().map(|quad| quad.name()).collect();
                json!({
                    "text": line.text,
                    "letters_pt": (line.letters_pt * 1e4).round() / 1e4,
                    "between_words": line.between.0.name(),
                    "gaps": line.between.1,
                    "quads": quads,
                    "material": material::in_words(&line.material),
                    "left_pt": (line.left_pt * 1e4).round() / 1e4,
                    "missing": line.missing,
                })
            })
            .collect();
        json!({
            "one_line_at_a_time": self.each_line,
            "can_be_set": checked.can_be_set(),
            "times": checked.times(),
            "letters": letters,
            "spaces_between_words": checked.gaps,
            "spaces_ordered_for_that": checked.spaces,
            "sorts_not_counted_on": checked.unread,
            "measure_pt": spacing.measure_pt,
            "spaces": self.spaces_json(&spacing.spaces),
            "lines": lines,
        })
    }

    fn scheme_json(&self, lines: &[(BillLine, u32)]) -> Value {
        let letters: Vec<Value> = lines
            .iter()
            .map(|(line, has)| json!({ "what": entry(line), "count": line.count, "has": has }))
            .collect();
        json!({
            "proportions": self.proportions.name,
            "source": self.proportions.source,
            "letters": letters,
        })
    }
}
