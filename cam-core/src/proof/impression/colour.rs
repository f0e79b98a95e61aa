//! Colours of inks and papers, by name or by number.

/// A colour without transparency (sRGB).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Colour {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

/// Inks by name: what the plain words of the printing house mean, chosen by eye.
pub const INKS: [(&str, Colour); 9] = [
    ("black", Colour::new(0x1d, 0x1a, 0x18)),
    ("red", Colour::new(0xc4, 0x2b, 0x1f)),
    ("orange", Colour::new(0xdd, 0x6b, 0x20)),
    ("yellow", Colour::new(0xf2, 0xc2, 0x2e)),
    ("green", Colour::new(0x2f, 0x6b, 0x45)),
    ("blue", Colour::new(0x1f, 0x4e, 0x8c)),
    ("brown", Colour::new(0x5c, 0x3a, 0x24)),
    ("grey", Colour::new(0x7d, 0x7a, 0x76)),
    ("white", Colour::new(0xf8, 0xf6, 0xf0)),
];

/// Papers by name, chosen by eye as well.
pub const PAPERS: [(&str, Colour); 7] = [
    ("natural", Colour::new(0xfd, 0xfb, 0xf6)),
    ("white", Colour::new(0xff, 0xff, 0xff)),
    ("cream", Colour::new(0xf6, 0xee, 0xd9)),
    ("buff", Colour::new(0xe6, 0xcf, 0xa3)),
    ("grey", Colour::new(0xd9, 0xd7, 0xd2)),
    ("pink", Colour::new(0xf3, 0xd3, 0xcd)),
    ("blue", Colour::new(0xcd, 0xdb, 0xe6)),
];

/// A word that is no colour.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "\"{word}\" is not a colour; write one of {}, or # and six hexadecimal digits, such as #1a1a1a.", listed(.known)
)]
pub struct ColourError {
    /// The word.
    pub word: String,
    /// The names that are known here.
    pub known: &'static [(&'static str, Colour)],
}

fn listed(known: &[(&str, Colour)]) -> String {
    let names: Vec<&str> = known.iter().map(|(name, _)| *name).collect();
    names.join(", ")
}

impl Colour {
    /// A colour by its three parts.
    pub const fn new(red: u8, green: u8, blue: u8) -> Colour {
        Colour { red, green, blue }
    }

    /// An ink by its name in [`INKS`], or any colour as `#` and six hexadecimal digits.
    ///
    /// # Errors
    /// For any other word.
    pub fn ink(word: &str) -> Result<Colour, ColourError> {
        Colour::named(word, &INKS)
    }

    /// A paper by its name in [`PAPERS`], or any colour as `#` and six hexadecimal digits.
    ///
    /// # Errors
    /// For any other word.
    pub fn paper(word: &str) -> Result<Colour, ColourError> {
        Colour::named(word, &PAPERS)
    }

    /// `#` and six hexadecimal digits.
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }

    fn named(word: &str, known: &'static [(&'static str, Colour)]) -> Result<Colour, ColourError> {
        let word = word.trim();
        let by_name = known
            .iter()
            .find(|(name, _)| name.eq_ignore_ascii_case(word));
        by_name
            .map(|(_, colour)| *colour)
            .or_else(|| Colour::from_hex(word))
            .ok_or_else(|| ColourError {
                word: word.to_owned(),
                known,
            })
    }

    fn from_hex(word: &str) -> Option<Colour> {
        let digits = word.strip_prefix('#')?;
        if digits.len() != 6 || !digits.bytes().all(|byte| byte.is_ascii_hexdigit()) {
            return None;
        }
        let [_, red, green, blue] = u32::from_str_radix(digits, 16).ok()?.to_be_bytes();
        Some(Colour { red, green, blue })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn colours_are_read_by_name_and_number() {
        assert_eq!(Colour::ink("#14141E"), Ok(Colour::new(20, 20, 30)));
        assert_eq!(Colour::ink(" Red "), Ok(INKS[1].1));
        assert_eq!(Colour::paper("cream"), Ok(PAPERS[2].1));
        assert_ne!(Colour::paper("blue"), Colour::ink("blue"));
        for bad in [
            "", "14141e", "#14141", "#14141g", "#+4141e", "#é4141", "reddish",
        ] {
            let said = Colour::ink(bad).expect_err(bad).to_string();
            assert!(said.contains("black, red"), "{said}");
        }
    }
}
