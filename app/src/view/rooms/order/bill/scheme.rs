//! Founts by scheme: so many A, in whose proportions, and the table, which may be changed.

use egui::{RichText, TextEdit, Ui};

use cam_core::bill::{
    BillError, MOST_OF_ONE, OwnTable, Part, Proportions, Scheme, Table, from_scheme,
};
use cam_core::commission::BillLine;

use super::super::super::super::fields::{choice, remark, row};
use super::super::super::super::theme::Palette;
use crate::view::words::{self as spoken, Text, order::scheme as words};

/// What the parts of a table are called.
const PARTS: [Text; 5] = [
    words::CAPITALS,
    words::LOWER_CASE,
    words::FIGURES,
    words::STOPS,
    words::LIGATURES,
];

/// How many counts stand beside one another.
const COUNTS_IN_A_ROW: usize = 2;

/// What this view keeps for itself.
#[derive(Default)]
pub(super) struct State {
    scheme: Scheme,
    /// The scheme as it is typed, and whether it was entered and waits to be ordered.
    typed: String,
    entered: bool,
    whose: Whose,
    /// The table as the maker changed it, if so, as it stands in its fields.
    written: Option<[String; 5]>,
}

impl State {
    /// Whether anything is asked for.
    pub(super) fn is_ready(&self) -> bool {
        self.scheme != Scheme::default()
    }

    /// Whether a scheme was typed and entered since this was asked last.
    pub(super) fn is_entered(&mut self) -> bool {
        std::mem::take(&mut self.entered) && self.is_ready()
    }

    /// The bill of the scheme.
    pub(super) fn lines(&self, face: &str, own: &[OwnTable]) -> Result<Vec<BillLine>, BillError> {
        let printed = self.whose.table(own)?;
        let table = match &self.written {
            Some(written) => read(written, &printed)?,
            None => printed,
        };
        from_scheme(face, self.scheme, &table)
    }
}

/// Whose proportions: printed ones, or a table of the workshop's own by its name.
#[derive(Clone, PartialEq)]
enum Whose {
    Printed(Proportions),
    Own(String),
}

impl Default for Whose {
    fn default() -> Whose {
        Whose::Printed(Proportions::default())
    }
}

impl Whose {
    /// The table; that of the job fount where the workshop no longer has it.
    fn table(&self, own: &[OwnTable]) -> Result<Table, BillError> {
        match self {
            Whose::Printed(proportions) => Ok(proportions.table()),
            Whose::Own(name) => match own.iter().find(|table| table.name == *name) {
                Some(table) => table.table(),
                None => Err(BillError::UnknownProportions(name.clone())),
            },
        }
    }

    fn source<'a>(&self, own: &'a [OwnTable]) -> &'a str {
        match self {
            Whose::Printed(proportions) => proportions.source(),
            Whose::Own(name) => own
                .iter()
                .find(|table| table.name == *name)
                .map_or("", |table| &table.source),
        }
    }

    /// All that can be chosen, the workshop's own first.
    fn offered(own: &[OwnTable]) -> Vec<(Whose, String)> {
        let own = own
            .iter()
            .map(|table| (Whose::Own(table.name.clone()), table.name.clone()));
        let printed = Proportions::all().into_iter();
        let printed = printed.map(|one| (Whose::Printed(one), one.name().to_owned()));
        own.chain(printed).collect()
    }
}

fn written(table: &Table) -> [String; 5] {
    [
        &table.capitals,
        &table.lower_case,
        &table.figures,
        &table.points,
        &table.ligatures,
    ]
    .map(Part::show)
}

/// The table of the fields. Figures and points stand to the A of the table that was changed; a part that was emptied stays as it was.
fn read(written: &[String; 5], before: &Table) -> Result<Table, BillError> {
    let part = |text: &String, leading: &str, before: &Part| {
        if text.trim().is_empty() {
            Ok(before.clone())
        } else {
            Part::read(text, leading, before.leading())
        }
    };
    let [capitals, lower_case, figures, points, ligatures] = written;
    Ok(Table {
        capitals: part(capitals, "A", &before.capitals)?,
        lower_case: part(lower_case, "a", &before.lower_case)?,
        figures: part(figures, "A", &before.figures)?,
        points: part(points, "A", &before.points)?,
        ligatures: part(ligatures, "a", &before.ligatures)?,
        totals: before.totals,
    })
}

/// Shows the form; true if something was changed.
pub(super) fn show(ui: &mut Ui, state: &mut State, own: &[OwnTable]) -> bool {
    let typed = typed(ui, state);
    let counts = counts(ui, &mut state.scheme);
    proportions(ui, state, own) || counts || typed
}

/// A scheme in one word, as the trade says it.
fn typed(ui: &mut Ui, state: &mut State) -> bool {
    let response = row(ui, spoken::FOUNT_OF, |ui, label| {
        let field = TextEdit::singleline(&mut state.typed).desired_width(104.0);
        ui.add(field.hint_text("3A")).labelled_by(label)
    });
    remark(ui, spoken::FOUNT_HINT);
    let read = state.typed.parse::<Scheme>();
    let changed = response.changed();
    if let (true, Ok(scheme)) = (changed, &read) {
        state.scheme = *scheme;
    }
    let is_entered = response.lost_focus() && ui.input(|input| input.key_pressed(egui::Key::Enter));
    state.entered |= is_entered && read.is_ok();
    if let (false, false, Err(error)) = (response.has_focus(), state.typed.is_empty(), &read) {
        ui.colored_label(Palette::of(ui).stop, error.to_string());
    }
    changed
}

fn counts(ui: &mut Ui, scheme: &mut Scheme) -> bool {
    let counts = [
        ("A", &mut scheme.capitals),
        ("a", &mut scheme.lower_case),
        (words::FIGURES_AS.said(), &mut scheme.figures),
        (words::STOPS_AS.said(), &mut scheme.points),
        (words::LIGATURES_AS.said(), &mut scheme.ligatures),
    ];
    let mut changed = false;
    egui::Grid::new("counts of a scheme").show(ui, |ui| {
        for (number, (label, count)) in counts.into_iter().enumerate() {
            let label = ui.label(label);
            let value = egui::DragValue::new(count)
                .range(0..=MOST_OF_ONE)
                .speed(0.05);
            changed |= ui.add(value).labelled_by(label.id).changed();
            if (number + 1) % COUNTS_IN_A_ROW == 0 {
                ui.end_row();
            }
        }
    });
    changed
}

fn proportions(ui: &mut Ui, state: &mut State, own: &[OwnTable]) -> bool {
    let offered = Whose::offered(own);
    let mut changed = false;
    if let Some(chosen) = choice(ui, words::PROPORTIONS, &state.whose, &offered) {
        state.whose = chosen;
        state.written = None;
        changed = true;
    }
    remark(ui, state.whose.source(own));
    let Ok(table) = state.whose.table(own) else {
        return changed;
    };
    ui.collapsing(words::TABLE, |ui| {
        remark(ui, words::TABLE_HINT);
        let printed = written(&table);
        let fields = state.written.get_or_insert_with(|| printed.clone());
        for (name, text) in PARTS.into_iter().zip(fields.iter_mut()) {
            let label = ui.label(RichText::new(name).small().color(Palette::of(ui).quiet));
            let field = TextEdit::multiline(text)
                .desired_rows(2)
                .desired_width(f32::INFINITY);
            changed |= ui.add(field).labelled_by(label.id).changed();
        }
        if *fields != printed && ui.button(words::AS_PRINTED).clicked() {
            state.written = None;
            changed = true;
        }
    });
    changed
}
