//! The inked print: read back from the programs, set in lines, and saved as a picture. The window and the command line both come here.

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use cam_core::border::{self, BorderError, Frame, shapes_as_cut};
use cam_core::commission::Border;
use cam_core::job_file::JobFile;
use cam_core::make::Job;
use cam_core::measure::System;
use cam_core::progress::Progress;
use cam_core::proof::impression::{
    Colour, Fount, INKS, PAPERS, Setting, Sheet, compose, fount, to_pdf, to_png, to_svg,
};

use super::read_back::{job_file, texts};

/// Dots an inch of a PNG, if nothing else is asked for: what printers ask for.
pub const DPI: u32 = 300;

/// Inks of jobs printed over one another, by their names, if nothing else is asked for.
pub const USUAL_INKS: [&str; 5] = ["black", "red", "blue", "yellow", "green"];

/// Kinds of picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureKind {
    /// Pixels.
    Png,
    /// Curves.
    Svg,
    /// A page.
    Pdf,
}

impl PictureKind {
    /// The kind that a file's ending says.
    ///
    /// # Errors
    /// A sentence, for any other ending.
    pub fn of(path: &Path) -> Result<PictureKind, String> {
        let ending = path.extension().unwrap_or_default().to_string_lossy();
        match ending.to_lowercase().as_str() {
            "png" => Ok(PictureKind::Png),
            "svg" => Ok(PictureKind::Svg),
            "pdf" => Ok(PictureKind::Pdf),
            _ => Err("The picture's name must end in .png, .svg or .pdf.".to_owned()),
        }
    }
}

/// How one fount's print is to look.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// The text and how it is set.
    pub setting: Setting,
    /// The paper.
    pub paper: Colour,
    /// The ink.
    pub ink: Colour,
    /// Whether the blocks are shown.
    pub blocks: bool,
    /// The border that is set round its frame in place of the text.
    pub border: Option<(Border, System)>,
}

impl Default for Look {
    fn default() -> Look {
        Look {
            setting: Setting::default(),
            paper: PAPERS[0].1,
            ink: INKS[0].1,
            blocks: false,
            border: None,
        }
    }
}

impl Look {
    /// The frame of the border as the fount's blocks print; `None` where a text is set.
    pub fn frame(&self, fount: &Fount) -> Option<Result<Frame, BorderError>> {
        let (border, system) = self.border.as_ref()?;
        Some(border::frame(border, &shapes_as_cut(fount), *system))
    }

    /// The sheet.
    pub fn sheet(&self, fount: &Arc<Fount>) -> Sheet {
        if let Some(Ok(frame)) = self.frame(fount) {
            return border::sheet(&frame, fount, self.ink, self.paper, self.blocks);
        }
        compose(
            &[(Arc::clone(fount), self.ink)],
            &self.setting,
            self.paper,
            self.blocks,
        )
    }
}

/// What the blocks of a made job print.
///
/// # Errors
/// A sentence.
pub fn printed(job: &Job, progress: &Progress) -> Result<Arc<Fount>, String> {
    print(&job_file(job)?, &texts(job), progress)
}

/// What the blocks of a job print, from its job file and the texts of its programs by file name.
///
/// # Errors
/// A sentence.
pub fn print(
    job: &JobFile,
    texts: &BTreeMap<String, String>,
    progress: &Progress,
) -> Result<Arc<Fount>, String> {
    fount(job, texts, progress)
        .map(Arc::new)
        .map_err(|error| error.to_string())
}

/// A sheet as a file.
///
/// # Errors
/// A sentence.
pub fn picture(sheet: &Sheet, kind: PictureKind, dpi: u32) -> Result<Vec<u8>, String> {
    match kind {
        PictureKind::Svg => Ok(to_svg(sheet).into_bytes()),
        PictureKind::Png => to_png(sheet, dpi).map_err(|error| error.to_string()),
        PictureKind::Pdf => to_pdf(sheet).map_err(|error| error.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ending_says_the_kind() {
        let kind = |name: &str| PictureKind::of(Path::new(name));
        assert_eq!(kind("a/b.PNG"), Ok(PictureKind::Png));
        assert_eq!(kind("b.svg"), Ok(PictureKind::Svg));
        assert_eq!(kind("b.pdf"), Ok(PictureKind::Pdf));
        for other in ["b.jpg", "png", "b", ".svg/"] {
            assert!(kind(other).is_err(), "{other}");
        }
    }

    #[test]
    fn the_usual_inks_are_known() {
        for name in USUAL_INKS {
            assert!(Colour::ink(name).is_ok(), "{name}");
        }
    }
}
