//! What a font says about itself: names, licence entries, embedding bits.
//!
//! # Source
//! OpenType specification: table `name` (name ids, platforms, language ids), table `OS/2` (fsType, achVendID and their places).

use ttf_parser::name::Name;
use ttf_parser::{Face, PlatformId, Tag, name_id};

use super::Font;

/// A font's own words about who owns it and how it may be used. They are shown, and never decide anything.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LicenceEntries {
    /// Name id 0.
    pub copyright: Option<String>,
    /// Name id 7.
    pub trademark: Option<String>,
    /// Name id 13.
    pub licence: Option<String>,
    /// Name id 14.
    pub licence_url: Option<String>,
    /// The font's version, name id 5.
    pub version: Option<String>,
    /// The maker of the font, name id 8.
    pub manufacturer: Option<String>,
    /// Who drew it, name id 9.
    pub designer: Option<String>,
    /// The seller's address on the web, name id 11.
    pub vendor_url: Option<String>,
    /// The designer's address on the web, name id 12.
    pub designer_url: Option<String>,
    /// The seller's four letters in table `OS/2` (achVendID).
    pub vendor_id: Option<String>,
}

/// How a font may be embedded in documents, as bits 0 to 3 of `OS/2` fsType say.
///
/// It speaks of documents alone: it neither grants nor forbids making a physical object.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum EmbeddingRight {
    /// Value 0.
    Installable,
    /// Value 2.
    Restricted,
    /// Value 4.
    PreviewAndPrint,
    /// Value 8.
    Editable,
}

/// The whole of `OS/2` fsType.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Embedding {
    /// The number in the file.
    pub bits: u16,
    /// What bits 0 to 3 say; where several are set, the least restrictive (and a warning says so).
    pub right: EmbeddingRight,
    /// Bit 8: the font must not be subsetted.
    pub no_subsetting: bool,
    /// Bit 9: only bitmaps may be embedded.
    pub bitmaps_only: bool,
    /// One sentence for everything that the specification does not allow.
    pub warnings: Vec<String>,
}

/// Bits 1, 2 and 3: the embedding rights.
const RIGHTS: u16 = 0x000E;
/// Bits that must be 0: bit 0, bits 4 to 7, bits 10 to 15.
const RESERVED: u16 = 0xFCF1;
const RESTRICTED: u16 = 0x0002;
const PREVIEW_AND_PRINT: u16 = 0x0004;
const EDITABLE: u16 = 0x0008;
const NO_SUBSETTING: u16 = 0x0100;
const BITMAPS_ONLY: u16 = 0x0200;
/// Where fsType and achVendID stand in table `OS/2`.
const FS_TYPE: std::ops::Range<usize> = 8..10;
const VENDOR_ID: std::ops::Range<usize> = 58..62;

impl Embedding {
    /// Reads the bits.
    ///
    /// # Source
    /// OpenType specification, table `OS/2`, fsType.
    pub fn from_bits(bits: u16) -> Embedding {
        let right = match bits & RIGHTS {
            0 => EmbeddingRight::Installable,
            rights if rights & EDITABLE != 0 => EmbeddingRight::Editable,
            rights if rights & PREVIEW_AND_PRINT != 0 => EmbeddingRight::PreviewAndPrint,
            _ => EmbeddingRight::Restricted,
        };
        let mut warnings = Vec::new();
        if (bits & RIGHTS).count_ones() > 1 {
            warnings.push(format!(
                "Several embedding rights are marked at once (0x{:04X}); the least restrictive is shown.",
                bits & (RESTRICTED | PREVIEW_AND_PRINT | EDITABLE)
            ));
        }
        if bits & RESERVED != 0 {
            warnings.push(format!(
                "Embedding bits are set that the specification reserves (0x{:04X}).",
                bits & RESERVED
            ));
        }
        Embedding {
            bits,
            right,
            no_subsetting: bits & NO_SUBSETTING != 0,
            bitmaps_only: bits & BITMAPS_ONLY != 0,
            warnings,
        }
    }

    /// In words, such as "preview and print, no subsetting".
    pub fn in_words(&self) -> String {
        let mut words = match self.right {
            EmbeddingRight::Installable => "installable embedding",
            EmbeddingRight::Restricted => "restricted licence embedding",
            EmbeddingRight::PreviewAndPrint => "preview and print embedding",
            EmbeddingRight::Editable => "editable embedding",
        }
        .to_owned();
        if self.no_subsetting {
            words.push_str(", no subsetting");
        }
        if self.bitmaps_only {
            words.push_str(", bitmaps only");
        }
        words
    }
}

impl Font<'_> {
    /// The licence entries of the font's `name` table.
    pub fn licence(&self) -> LicenceEntries {
        let entry = |id| name_entry(&self.face, id);
        LicenceEntries {
            copyright: entry(name_id::COPYRIGHT_NOTICE),
            trademark: entry(name_id::TRADEMARK),
            licence: entry(name_id::LICENSE),
            licence_url: entry(name_id::LICENSE_URL),
            version: entry(name_id::VERSION),
            manufacturer: entry(name_id::MANUFACTURER),
            designer: entry(name_id::DESIGNER),
            vendor_url: entry(name_id::VENDOR_URL),
            designer_url: entry(name_id::DESIGNER_URL),
            vendor_id: self.vendor_id(),
        }
    }

    /// The seller's id; `None` if the font has no `OS/2` table, or leaves it empty.
    fn vendor_id(&self) -> Option<String> {
        let table = self.face.raw_face().table(Tag::from_bytes(b"OS/2"))?;
        let letters = table.get(VENDOR_ID)?.iter().copied();
        let id: String = letters
            .filter(u8::is_ascii_graphic)
            .map(char::from)
            .collect();
        (!id.is_empty()).then_some(id)
    }

    /// The embedding bits; `None` if the font has no `OS/2` table.
    pub fn embedding(&self) -> Option<Embedding> {
        let table = self.face.raw_face().table(Tag::from_bytes(b"OS/2"))?;
        let bytes = table.get(FS_TYPE)?.try_into().ok()?;
        Some(Embedding::from_bits(u16::from_be_bytes(bytes)))
    }

    /// The family's name: id 16, else 1; empty if the font gives none.
    pub fn family(&self) -> String {
        name_entry(&self.face, name_id::TYPOGRAPHIC_FAMILY)
            .or_else(|| name_entry(&self.face, name_id::FAMILY))
            .unwrap_or_default()
    }

    /// The style's name within its family: id 17, else 2; empty if the font gives none.
    pub fn style(&self) -> String {
        name_entry(&self.face, name_id::TYPOGRAPHIC_SUBFAMILY)
            .or_else(|| name_entry(&self.face, name_id::SUBFAMILY))
            .unwrap_or_default()
    }
}

/// The entry of table `name` with this id that suits an English reader best: Windows American English, any other Windows or
/// Unicode English, any Unicode, then Macintosh Roman. Empty entries do not count.
pub(super) fn name_entry(face: &Face<'_>, id: u16) -> Option<String> {
    face.names()
        .into_iter()
        .filter(|name| name.name_id == id)
        .filter_map(|name| Some((preference(&name)?, decoded(&name)?)))
        .filter(|(_, text)| !text.trim().is_empty())
        .min_by_key(|(preference, _)| *preference)
        .map(|(_, text)| text)
}

/// Windows language id of American English, and the part of the id that marks any English.
const AMERICAN_ENGLISH: u16 = 0x0409;
const ENGLISH: u16 = 0x0009;
const PRIMARY_LANGUAGE: u16 = 0x03FF;

fn preference(name: &Name<'_>) -> Option<u8> {
    match name.platform_id {
        PlatformId::Windows if name.language_id == AMERICAN_ENGLISH => Some(0),
        PlatformId::Windows if name.language_id & PRIMARY_LANGUAGE == ENGLISH => Some(1),
        PlatformId::Unicode => Some(2),
        PlatformId::Macintosh if name.language_id == 0 => Some(3),
        PlatformId::Windows => Some(4),
        PlatformId::Macintosh => Some(5),
        PlatformId::Iso | PlatformId::Custom => None,
    }
}

fn decoded(name: &Name<'_>) -> Option<String> {
    match name.platform_id {
        PlatformId::Macintosh if name.encoding_id == 0 => Some(from_macintosh_roman(name.name)),
        PlatformId::Macintosh => None,
        PlatformId::Windows | PlatformId::Unicode => name.to_string(),
        PlatformId::Iso | PlatformId::Custom => None,
    }
}

/// Bytes 128 to 255 of the Macintosh Roman encoding.
///
/// # Source
/// Unicode Consortium, mapping table APPLE/ROMAN.TXT; from memory.
const MACINTOSH_ROMAN: &str = "ÄÅÇÉÑÖÜáàâäãåçéèêëíìîïñóòôöõúùûü†°¢£§•¶ß®©™´¨≠ÆØ∞±≤≥¥µ∂∑∏π∫ªºΩæø¿¡¬√ƒ≈∆«»…\u{a0}ÀÃÕŒœ–—“”‘’÷◊ÿŸ⁄€‹›ﬁﬂ‡·‚„‰ÂÊÁËÈÍÎÏÌÓÔ\u{f8ff}ÒÚÛÙıˆ˜¯˘˙˚¸˝˛ˇ";

fn from_macintosh_roman(bytes: &[u8]) -> String {
    bytes
        .iter()
        .map(|&byte| match byte.checked_sub(128) {
            None => char::from(byte),
            Some(upper) => MACINTOSH_ROMAN
                .chars()
                .nth(usize::from(upper))
                .unwrap_or(char::REPLACEMENT_CHARACTER),
        })
        .collect()
}
