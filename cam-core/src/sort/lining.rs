//! One scale and one base line for the whole fount.

use geometry::font::Font;

use super::SortError;
use crate::commission::{Commission, Fit};
use crate::measure::{Length, Unit};

/// Scale and base line of a fount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lining {
    /// Size of the em as printed, in millimetres: the same for every face of the fount.
    pub em_mm: f64,
    /// The plain body, in millimetres.
    pub body_mm: f64,
    /// Height of the base line above the foot of the plain body, in millimetres.
    pub baseline_mm: f64,
}

impl Lining {
    /// The plain body of a commission, in millimetres.
    ///
    /// # Errors
    /// The size is not a positive number.
    pub fn body_mm(commission: &Commission) -> Result<f64, SortError> {
        let body_mm = Length::lines(commission.lines, commission.system).in_mm();
        if body_mm > 0.0 && body_mm.is_finite() {
            Ok(body_mm)
        } else {
            Err(SortError::Size(commission.lines))
        }
    }

    /// The lining of a commission whose first face is `font`.
    ///
    /// Ascender and descender are those of the drawn letters; only a font without any of them is taken at its tables' word. For
    /// an em on the body, ascender and descender of the tables are centred on the body, which puts the base line where the
    /// font's designer put it whenever the two add up to an em.
    ///
    /// # Errors
    /// The size, the shoulders or the face do not allow one.
    pub fn of(commission: &Commission, face: &str, font: &Font<'_>) -> Result<Lining, SortError> {
        let body_mm = Lining::body_mm(commission)?;
        let em = font.units_per_em();
        let heights = font.heights();
        let capital = || {
            heights.capital.ok_or_else(|| SortError::NoCapitals {
                face: face.to_owned(),
            })
        };
        let room = |head: Length, foot: Length| {
            let room_mm = body_mm - head.in_mm() - foot.in_mm();
            if room_mm > 0.0 {
                Ok(room_mm)
            } else {
                let show = |mm| Length::mm(mm).show(Unit::Point, commission.system);
                Err(SortError::NoRoom(format!(
                    "the body is {}, the shoulders take {}",
                    show(body_mm),
                    show(body_mm - room_mm)
                )))
            }
        };
        let (em_mm, baseline_mm) = match commission.fit {
            Fit::Capitals { head, foot } => (room(head, foot)? / capital()? * em, foot.in_mm()),
            Fit::AscenderToDescender { head, foot } => {
                let ascender = heights.drawn_ascender.unwrap_or(heights.ascender);
                let descender = heights.drawn_descender.unwrap_or(heights.descender);
                let em_mm = room(head, foot)? / (ascender - descender) * em;
                (em_mm, foot.in_mm() - descender / em * em_mm)
            }
            Fit::EmOnBody => {
                let overall = (heights.ascender - heights.descender) / em;
                let below = -heights.descender / em;
                (body_mm, body_mm * ((1.0 - overall) / 2.0 + below))
            }
            Fit::CapitalHeight { capitals, foot } => {
                if capitals.in_mm() <= 0.0 {
                    return Err(SortError::NoRoom(
                        "the capitals are to be 0 high or less".to_owned(),
                    ));
                }
                (capitals.in_mm() / capital()? * em, foot.in_mm())
            }
        };
        if em_mm > 0.0 && em_mm.is_finite() && baseline_mm.is_finite() {
            Ok(Lining {
                em_mm,
                body_mm,
                baseline_mm,
            })
        } else {
            Err(SortError::NoRoom(format!(
                "face {face} states heights that cannot be used"
            )))
        }
    }

    /// Millimetres per font unit of a font.
    pub fn scale(&self, font: &Font<'_>) -> f64 {
        self.em_mm / font.units_per_em()
    }
}
