//! How many millimetres a unit of the file is.

use super::records::File;

/// Millimetres of a unit, and a note where the file does not say: it is then taken to be in millimetres (common practice, no source).
///
/// # Source
/// *DXF Reference*, header variable `$INSUNITS` (from memory); the units by definition, an inch being 25.4 mm.
pub(super) fn mm_per_unit(file: &File) -> (f64, Option<String>) {
    let number = file.header.get("$INSUNITS").copied().unwrap_or(0);
    let known = match number {
        1 => Some(25.4),
        2 => Some(304.8),
        4 => Some(1.0),
        5 => Some(10.0),
        6 => Some(1_000.0),
        8 => Some(25.4e-6),
        9 => Some(0.0254),
        10 => Some(914.4),
        13 => Some(0.001),
        14 => Some(100.0),
        _ => None,
    };
    match known {
        Some(mm) => (mm, None),
        None => (
            1.0,
            Some(
                "The file does not say which unit it is drawn in; millimetres were taken. Check the size, or state it.".to_owned(),
            ),
        ),
    }
}
