//! Fields that take what the maker types, and say what is wrong with it.
//!
//! A field keeps what is typed until it is left; only then is it read. What cannot be read stays in the field, with a sentence below.

use std::cell::Cell;

use egui::{Response, RichText, TextEdit, Ui};

use cam_core::measure::{Length, System, Unit};

use super::theme::Palette;
use super::words::{measured, short_figure, typed_figures};
use crate::model::settings::Lengths;
use crate::model::typed::{read_count, read_length, read_lines, read_number};

/// Width of the words before a field, px.
const LABEL_WIDTH: f32 = 128.0;
/// Width of a short field, px.
const SHORT: f32 = 104.0;
/// Width of a long field, px.
const LONG: f32 = 196.0;
/// Width of a field in a table, px.
const CELL: f32 = 56.0;
/// Width of a number with a unit of several letters, px.
const WITH_UNIT: f32 = 140.0;
/// Units with more letters need the wider field.
const SHORT_UNIT: usize = 5;

/// What stands in a field while it is typed in, or after it could not be read.
#[derive(Clone, Default)]
struct Draft {
    text: String,
    error: Option<String>,
}

thread_local! {
    /// What takes the place of millimetres in this window. Each frame says it anew.
    static LENGTHS: Cell<Lengths> = const { Cell::new(Lengths::Millimetres) };
}

/// Lengths in millimetres are shown and taken so from now on, on this thread.
pub fn show_lengths_in(lengths: Lengths) {
    LENGTHS.set(lengths);
}

/// The unit in which a length is shown.
fn shown_unit(unit: Unit) -> Unit {
    match unit {
        Unit::Millimetre => LENGTHS.get().unit(),
        Unit::Inch | Unit::Point | Unit::Line | Unit::Pica | Unit::Cicero => unit,
    }
}

/// A heading over a group of fields.
pub fn heading(ui: &mut Ui, text: impl AsRef<str>) {
    ui.add_space(8.0);
    ui.label(RichText::new(text.as_ref()).strong().size(15.5));
    ui.add_space(1.0);
}

/// A quiet remark.
pub fn remark(ui: &mut Ui, text: impl AsRef<str>) {
    let quiet = Palette::of(ui).quiet;
    ui.label(RichText::new(text.as_ref()).small().color(quiet));
}

/// A label and, to the right of it, whatever `add` puts there; `add` gets the label's id to be labelled by.
pub fn row<R>(ui: &mut Ui, label: impl AsRef<str>, add: impl FnOnce(&mut Ui, egui::Id) -> R) -> R {
    ui.horizontal(|ui| {
        let named = name(ui, label.as_ref());
        add(ui, named)
    })
    .inner
}

/// The words before a field.
fn name(ui: &mut Ui, label: &str) -> egui::Id {
    let quiet = Palette::of(ui).quiet;
    let size = egui::vec2(LABEL_WIDTH, ui.spacing().interact_size.y);
    let layout = egui::Layout::left_to_right(egui::Align::Center);
    let labelled = ui.allocate_ui_with_layout(size, layout, |ui| {
        ui.set_min_width(LABEL_WIDTH);
        ui.set_max_width(LABEL_WIDTH);
        let words = RichText::new(label).color(quiet);
        ui.add(egui::Label::new(words).wrap())
    });
    labelled.inner.id
}

/// A field of free text; the new text once it was left changed.
pub fn text(ui: &mut Ui, label: impl AsRef<str>, value: &str) -> Option<String> {
    typed(ui, label.as_ref(), value, LONG, |text| {
        Ok(text.trim().to_owned())
    })
}

/// The field with this label, which is added next to the same `ui`, is typed into from now on.
pub fn begin_typing(ui: &Ui, label: impl AsRef<str>) {
    let id = ui.make_persistent_id(("field", label.as_ref()));
    ui.memory_mut(|memory| memory.request_focus(id));
}

/// A length in any unit; a bare number is taken in the unit shown.
pub fn length(
    ui: &mut Ui,
    label: impl AsRef<str>,
    value: Length,
    unit: Unit,
    system: System,
) -> Option<Length> {
    let unit = shown_unit(unit);
    let shown = measured(value, unit, system);
    typed(ui, label.as_ref(), &shown, SHORT, |text| {
        read_length(&typed_figures(text), unit, system)
    })
}

/// A size in lines, which may be typed in any unit.
pub fn lines(ui: &mut Ui, label: impl AsRef<str>, value: f64, system: System) -> Option<f64> {
    let shown = measured(Length::lines(value, system), Unit::Line, system);
    typed(ui, label.as_ref(), &shown, SHORT, |text| {
        read_lines(&typed_figures(text), system)
    })
}

/// A plain number; sums are taken.
pub fn number(ui: &mut Ui, label: impl AsRef<str>, value: f64) -> Option<f64> {
    quantity(ui, label, value, "")
}

/// A number with the unit behind it; sums are taken, and the unit may be left out.
pub fn quantity(ui: &mut Ui, label: impl AsRef<str>, value: f64, unit: &str) -> Option<f64> {
    let shown = format!("{} {unit}", short_figure(value));
    let width = if unit.chars().count() > SHORT_UNIT {
        WITH_UNIT
    } else {
        SHORT
    };
    typed(ui, label.as_ref(), shown.trim_end(), width, |text| {
        read_number(&typed_figures(text), unit)
    })
}

/// How many.
pub fn count(ui: &mut Ui, label: impl AsRef<str>, value: u32) -> Option<u32> {
    typed(ui, label.as_ref(), &value.to_string(), SHORT, read_count)
}

/// Several lines of text, such as an address.
pub fn paragraph(ui: &mut Ui, label: impl AsRef<str>, value: &[String]) -> Option<Vec<String>> {
    let label = label.as_ref();
    let rows = value.len().max(2);
    let id = ui.make_persistent_id(("field", label));
    let shown = value.join("\n");
    let mut taken = None;
    ui.horizontal_top(|ui| {
        let named = name(ui, label);
        let edit = |ui: &mut Ui, text: &mut String| {
            let edit = TextEdit::multiline(text).id(id).desired_rows(rows);
            ui.add(edit.desired_width(LONG)).labelled_by(named)
        };
        let read = |text: &str| {
            let lines = text.lines().map(|line| line.trim().to_owned());
            let lines: Vec<String> = lines.filter(|line| !line.is_empty()).collect();
            Ok(lines)
        };
        taken = drafted(ui, id, &shown, edit, read);
    });
    taken
}

/// A length in a table's cell, shown without its unit; `name` says to those who cannot see the table what stands in it.
pub fn length_cell(
    ui: &mut Ui,
    name: impl AsRef<str>,
    value: Length,
    unit: Unit,
    system: System,
) -> Option<Length> {
    let unit = shown_unit(unit);
    let shown = measured(value, unit, system);
    let bare = shown.split(' ').next().unwrap_or_default();
    cell(ui, name.as_ref(), bare, |text| {
        read_length(&typed_figures(text), unit, system)
    })
}

/// A number in a table's cell.
pub fn number_cell(ui: &mut Ui, name: impl AsRef<str>, value: f64) -> Option<f64> {
    cell(ui, name.as_ref(), &short_figure(value), |text| {
        read_number(&typed_figures(text), "")
    })
}

/// Text in a table's cell.
pub fn text_cell(ui: &mut Ui, name: impl AsRef<str>, value: &str) -> Option<String> {
    cell(ui, name.as_ref(), value, |text| Ok(text.trim().to_owned()))
}

fn cell<T>(
    ui: &mut Ui,
    name: &str,
    shown: &str,
    read: impl FnOnce(&str) -> Result<T, String>,
) -> Option<T> {
    let id = ui.make_persistent_id(("field", name));
    ui.vertical(|ui| {
        ui.set_min_width(CELL);
        let edit = |ui: &mut Ui, text: &mut String| {
            let edit = TextEdit::singleline(text).id(id).desired_width(CELL);
            let response = ui.add(edit);
            ui.ctx()
                .accesskit_node_builder(response.id, |node| node.set_label(name));
            response.on_hover_text(name)
        };
        drafted(ui, id, shown, edit, read)
    })
    .inner
}

/// A choice of one; the new one once it was chosen.
pub fn choice<T: Clone + PartialEq>(
    ui: &mut Ui,
    label: impl AsRef<str>,
    value: &T,
    options: &[(T, String)],
) -> Option<T> {
    let label = label.as_ref();
    let shown = options
        .iter()
        .find(|(option, _)| option == value)
        .map_or("", |(_, name)| name.as_str());
    row(ui, label, |ui, label_id| {
        let mut chosen = None;
        let combo = egui::ComboBox::from_id_salt(label)
            .selected_text(shown)
            .width(LONG)
            .truncate()
            .show_ui(ui, |ui| {
                for (option, name) in options {
                    if ui.selectable_label(option == value, name).clicked() && option != value {
                        chosen = Some(option.clone());
                    }
                }
            });
        combo.response.labelled_by(label_id);
        chosen
    })
}

/// Something that is so or not.
pub fn tick(ui: &mut Ui, label: impl AsRef<str>, value: bool) -> Option<bool> {
    let mut now = value;
    row(ui, "", |ui, _| ui.checkbox(&mut now, label.as_ref()));
    (now != value).then_some(now)
}

/// A row with a field whose text is read by `read` when it is left.
fn typed<T>(
    ui: &mut Ui,
    label: &str,
    shown: &str,
    width: f32,
    read: impl FnOnce(&str) -> Result<T, String>,
) -> Option<T> {
    let id = ui.make_persistent_id(("field", label));
    let edit = |ui: &mut Ui, text: &mut String| {
        row(ui, label, |ui, label_id| {
            let edit = TextEdit::singleline(text).id(id).desired_width(width);
            ui.add(edit).labelled_by(label_id)
        })
    };
    drafted(ui, id, shown, edit, read)
}

/// A field, put where `edit` puts it, whose text is read by `read` when it is left.
fn drafted<T>(
    ui: &mut Ui,
    id: egui::Id,
    shown: &str,
    edit: impl FnOnce(&mut Ui, &mut String) -> Response,
    read: impl FnOnce(&str) -> Result<T, String>,
) -> Option<T> {
    let kept: Option<Draft> = ui.data(|data| data.get_temp(id));
    let mut draft = kept.clone().unwrap_or_else(|| Draft {
        text: shown.to_owned(),
        error: None,
    });
    let response = edit(ui, &mut draft.text);
    let mut result = None;
    if response.lost_focus() {
        let gave_up = ui.input(|input| input.key_pressed(egui::Key::Escape));
        let unchanged = draft.text == shown;
        draft.error = None;
        if !gave_up && !unchanged {
            match read(&draft.text) {
                Ok(value) => result = Some(value),
                Err(error) => draft.error = Some(error),
            }
        }
    } else if response.changed() {
        draft.error = None;
    }
    if response.has_focus() || draft.error.is_some() {
        ui.data_mut(|data| data.insert_temp(id, draft.clone()));
    } else if kept.is_some() {
        ui.data_mut(|data| data.remove::<Draft>(id));
    }
    if let Some(error) = &draft.error {
        ui.colored_label(Palette::of(ui).stop, error);
    }
    result
}
