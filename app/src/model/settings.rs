//! What the maker chose for the window, whichever commission is open.

use std::path::PathBuf;

use serde::{Deserialize, Serialize};

use cam_core::measure::{Length, System, Unit};
use cam_core::workshop::Workshop;

/// The languages that the window speaks.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Language {
    /// English.
    #[default]
    English,
    /// French.
    French,
    /// German.
    German,
}

impl Language {
    /// All of them.
    pub const ALL: [Language; 3] = [Language::English, Language::French, Language::German];
}

/// The points in which new commissions begin.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Points {
    /// Anglo-American.
    #[default]
    Pica,
    /// Continental.
    Didot,
    /// Continental, rounded.
    DidotRounded,
}

impl Points {
    /// All of them.
    pub const ALL: [Points; 3] = [Points::Pica, Points::Didot, Points::DidotRounded];

    /// The system of measure.
    pub fn system(self) -> System {
        match self {
            Points::Pica => System::Pica,
            Points::Didot => System::Didot,
            Points::DidotRounded => System::DidotRounded,
        }
    }
}

/// How lengths are shown that are not told in points.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lengths {
    /// In millimetres.
    #[default]
    Millimetres,
    /// In inches.
    Inches,
}

impl Lengths {
    /// All of them.
    pub const ALL: [Lengths; 2] = [Lengths::Millimetres, Lengths::Inches];

    /// The unit that takes the place of millimetres.
    pub fn unit(self) -> Unit {
        match self {
            Lengths::Millimetres => Unit::Millimetre,
            Lengths::Inches => Unit::Inch,
        }
    }
}

/// The paper of the window.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Paper {
    /// As the system has it.
    #[default]
    System,
    /// By day.
    Day,
    /// By night.
    Night,
}

impl Paper {
    /// All of them.
    pub const ALL: [Paper; 3] = [Paper::System, Paper::Day, Paper::Night];
}

/// The sizes that the window can have, in percent of the usual one.
pub const SCALES: [u32; 5] = [100, 125, 150, 175, 200];

/// How many commissions are remembered: as many as are seen at a glance.
const MOST_RECENT: usize = 8;

/// The longest and the shortest travel of a router, mm.
const TRAVEL_MM: std::ops::RangeInclusive<f64> = 20.0..=10_000.0;

/// What the maker chose. What a file leaves out is as it was at first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default, rename_all = "kebab-case")]
pub struct Settings {
    /// The points in which new commissions begin.
    pub points: Points,
    /// How lengths are shown.
    pub lengths: Lengths,
    /// The paper of the window.
    pub paper: Paper,
    /// The size of everything, percent: one of [`SCALES`].
    pub scale: u32,
    /// What the window speaks.
    pub language: Language,
    /// The travel of the router with which new commissions begin, mm along x, y and z; as a new shop has it if it was not told.
    pub travel_mm: Option<[f64; 3]>,
    /// The first questions were answered or skipped.
    pub welcomed: bool,
    /// Commissions that were open lately, the last one first.
    pub recent: Vec<PathBuf>,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            points: Points::default(),
            lengths: Lengths::default(),
            paper: Paper::default(),
            scale: SCALES[0],
            language: Language::default(),
            travel_mm: None,
            welcomed: false,
            recent: Vec::new(),
        }
    }
}

impl Settings {
    /// The settings that a text holds, each brought into its range.
    ///
    /// # Errors
    /// Why it is no text of settings.
    pub fn read(text: &str) -> Result<Settings, String> {
        let mut settings: Settings =
            serde_json::from_str(text).map_err(|error| error.to_string())?;
        if !SCALES.contains(&settings.scale) {
            settings.scale = SCALES[0];
        }
        if settings.travel_mm.is_some_and(|travel| !can_travel(travel)) {
            settings.travel_mm = None;
        }
        settings.recent.truncate(MOST_RECENT);
        Ok(settings)
    }

    /// The text that [`Settings::read`] reads.
    pub fn written(&self) -> String {
        let text = serde_json::to_string_pretty(self);
        // Nothing of a setting can fail to be written: names are words, and numbers are finite.
        text.unwrap_or_default() + "\n"
    }

    /// One size larger (1) or smaller (-1); `None` if there is none.
    pub fn scale_beside(&self, by: isize) -> Option<u32> {
        let place = SCALES.iter().position(|scale| *scale == self.scale)?;
        SCALES.get(place.checked_add_signed(by)?).copied()
    }

    /// Remembers a commission as the last one that was open.
    pub fn opened(&mut self, path: PathBuf) {
        self.recent.retain(|known| *known != path);
        self.recent.insert(0, path);
        self.recent.truncate(MOST_RECENT);
    }

    /// Takes a travel for the router, if one can be of that size.
    pub fn set_travel(&mut self, axis: usize, length: Length) {
        let usual = Workshop::starting().machine.travel_mm;
        let mut travel = self.travel_mm.unwrap_or(usual);
        if let Some(one) = travel.get_mut(axis) {
            *one = length.in_mm();
        }
        if can_travel(travel) {
            self.travel_mm = Some(travel);
        }
    }

    /// The travel of the router with which new commissions begin, mm.
    pub fn travel(&self) -> [f64; 3] {
        self.travel_mm
            .unwrap_or_else(|| Workshop::starting().machine.travel_mm)
    }

    /// The workshop that a new shop starts with, with the maker's router.
    pub fn workshop(&self) -> Workshop {
        let mut workshop = Workshop::starting();
        workshop.machine.travel_mm = self.travel();
        workshop
    }
}

fn can_travel(travel: [f64; 3]) -> bool {
    travel.iter().all(|one| TRAVEL_MM.contains(one))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn settings_are_read_back_as_they_were_written() {
        let mut settings = Settings {
            points: Points::DidotRounded,
            lengths: Lengths::Inches,
            paper: Paper::Night,
            scale: 150,
            language: Language::German,
            welcomed: true,
            ..Settings::default()
        };
        settings.set_travel(0, Length::mm(610.0));
        settings.opened("one.json".into());
        assert_eq!(Settings::read(&settings.written()), Ok(settings));
        assert_eq!(Settings::read("{}"), Ok(Settings::default()));
        assert_eq!(Settings::read("{\"later\": 1}"), Ok(Settings::default()));
        assert!(Settings::read("{\"scale\": \"large\"}").is_err());
    }

    #[test]
    fn what_is_out_of_range_is_brought_back() {
        let odd = "{\"scale\": 9000, \"travel-mm\": [0.0, 1e9, 5.0]}";
        assert_eq!(Settings::read(odd), Ok(Settings::default()));
        let mut settings = Settings::default();
        settings.set_travel(1, Length::mm(-5.0));
        assert_eq!(settings.travel_mm, None);
        assert_eq!(settings.scale_beside(-1), None);
        assert_eq!(settings.scale_beside(1), Some(125));
    }

    #[test]
    fn recent_commissions_are_few_and_each_stands_once() {
        let mut settings = Settings::default();
        for number in 0..20 {
            settings.opened(format!("{number}.json").into());
        }
        settings.opened("15.json".into());
        assert_eq!(settings.recent.len(), MOST_RECENT);
        assert_eq!(settings.recent[0], PathBuf::from("15.json"));
        assert_eq!(settings.recent[1], PathBuf::from("19.json"));
        assert_eq!(
            settings
                .recent
                .iter()
                .filter(|path| path.ends_with("15.json"))
                .count(),
            1
        );
    }
}
