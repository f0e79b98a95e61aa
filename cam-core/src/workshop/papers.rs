//! How the workshop's papers look.

use crate::measure::System;

/// How the workshop's papers look, and whose they are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PaperChoice {
    /// Size of the pages.
    pub page: PageSize,
    /// The system in which points are given; `None` for that of each commission.
    pub measure: Option<System>,
    /// The workshop's name and address, line by line; nothing is printed if it is empty.
    pub maker: Vec<String>,
}

/// A size of paper; A4 where nothing is said (common practice, no source).
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum PageSize {
    /// 210 × 297 mm.
    #[default]
    A4,
    /// 8½ × 11 inches.
    Letter,
}

impl PageSize {
    /// Width and height of an upright page, mm.
    ///
    /// # Source
    /// A4: ISO 216:2007. Letter: ANSI/ASME Y14.1, size A; from memory.
    pub const fn size_mm(self) -> [f64; 2] {
        match self {
            PageSize::A4 => [210.0, 297.0],
            PageSize::Letter => [215.9, 279.4],
        }
    }
}
