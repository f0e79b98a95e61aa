//! The inked print as a picture.

use std::path::Path;
use std::sync::Arc;

use cam_core::proof::impression::{
    Colour, Impression, Inks, SetLines, impression, set_lines, to_png, to_svg,
};
use cam_core::sort::Sort;
use cam_core::survey::Survey;

/// Width of the measure that sorts are set to, in bodies.
pub const MEASURE_BODIES: f64 = 9.0;
/// Paper round the print, as a part of the body.
pub const PAPER: f64 = 0.4;
/// Dots an inch of a PNG: what printers ask for.
const DPI: u32 = 300;
/// Black on a warm white.
const INKS: Inks = Inks {
    ink: Colour::new(0x1d, 0x1a, 0x18),
    paper: Colour::new(0xfd, 0xfb, 0xf6),
    edges: None,
};

/// Kinds of picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKind {
    /// Pixels.
    Png,
    /// Curves.
    Svg,
}

impl PictureKind {
    /// The kind that a file's ending says.
    pub fn of(path: &Path) -> Option<PictureKind> {
        let ending = path.extension()?.to_string_lossy().to_lowercase();
        match ending.as_str() {
            "png" => Some(PictureKind::Png),
            "svg" => Some(PictureKind::Svg),
            _ => None,
        }
    }
}

/// Every sort once, set in lines, as it will print.
///
/// # Errors
/// A sentence.
pub fn picture(
    sorts: &[Arc<Sort>],
    surveys: &[Arc<Survey>],
    kind: PictureKind,
) -> Result<Vec<u8>, String> {
    let (impressions, set) = every_sort(sorts, surveys);
    match kind {
        PictureKind::Svg => Ok(to_svg(&impressions, &set, INKS).into_bytes()),
        PictureKind::Png => {
            to_png(&impressions, &set, INKS, DPI).map_err(|error| error.to_string())
        }
    }
}

/// The impressions of all sorts, and the printing ones set in lines.
fn every_sort(sorts: &[Arc<Sort>], surveys: &[Arc<Survey>]) -> (Vec<Impression>, SetLines) {
    let impressions: Vec<Impression> = sorts
        .iter()
        .zip(surveys)
        .map(|(sort, survey)| impression(sort, survey))
        .collect();
    let printing: Vec<usize> = (0..impressions.len())
        .filter(|&place| !sorts[place].block.plain)
        .collect();
    let body = impressions
        .iter()
        .map(|one| one.body_mm)
        .fold(0.0, f64::max);
    let set = set_lines(&impressions, &printing, body * MEASURE_BODIES, body * PAPER);
    (impressions, set)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ending_says_the_kind() {
        assert_eq!(
            PictureKind::of(Path::new("a/b.PNG")),
            Some(PictureKind::Png)
        );
        assert_eq!(PictureKind::of(Path::new("b.svg")), Some(PictureKind::Svg));
        for other in ["b.jpg", "png", "b", ".svg/"] {
            assert_eq!(PictureKind::of(Path::new(other)), None, "{other}");
        }
    }
}
