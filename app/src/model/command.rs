//! What the maker can do to a commission.

use std::collections::BTreeMap;

use cam_core::commission::{
    BillLine, BlockRules, Cutting, Face, Fit, GlyphChoice, Permission, PlankRules, SpaceLine,
};
use cam_core::measure::{Length, System};

/// One change to a commission. Groups of settings that are read together are replaced together.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// A new title.
    Title(String),
    /// A new reference.
    Reference(String),
    /// Another system of measure.
    System(System),
    /// Another size, in lines.
    Lines(f64),
    /// Another height to paper.
    HeightToPaper(Length),
    /// Another wood, by its id.
    Wood(String),
    /// Another fit.
    Fit(Fit),
    /// Other rules for body and set.
    Block(BlockRules),
    /// A face more.
    AddFace(Face),
    /// Other values of a face's variable axes.
    Variations {
        /// The face, by its id.
        face: String,
        /// Tag to value.
        variations: BTreeMap<String, f64>,
    },
    /// The font file as it is now is the one meant: its SHA-256 is recorded.
    AcceptFont {
        /// The face, by its id.
        face: String,
        /// SHA-256 in lower-case hex.
        sha256: String,
    },
    /// The permission that the maker recorded.
    Permission {
        /// The face, by its id.
        face: String,
        /// Who allowed what, when.
        permission: Permission,
    },
    /// At least so many of each: what a text, a list or a scheme asks for.
    Raise(Vec<BillLine>),
    /// So many of one glyph; none takes it off the bill.
    Count {
        /// The face, by its id.
        face: String,
        /// The glyph.
        glyph: GlyphChoice,
        /// How many.
        count: u32,
    },
    /// An empty bill.
    ClearBill,
    /// So many spaces or quads of one set; none takes it off the bill.
    Space {
        /// The set width.
        set: Length,
        /// How many.
        count: u32,
    },
    /// At least so many spaces and quads of each set.
    RaiseSpaces(Vec<SpaceLine>),
    /// How it is cut.
    Cutting(Cutting),
    /// How sorts lie on planks and come apart.
    Planks(PlankRules),
}

impl Command {
    /// What it does, for "Undo …".
    pub fn name(&self) -> &'static str {
        match self {
            Command::Title(_) => "the title",
            Command::Reference(_) => "the reference",
            Command::System(_) => "the system of measure",
            Command::Lines(_) => "the size",
            Command::HeightToPaper(_) => "the height to paper",
            Command::Wood(_) => "the wood",
            Command::Fit(_) => "the fit",
            Command::Block(_) => "body and set",
            Command::AddFace(_) => "a face",
            Command::Variations { .. } => "the axes",
            Command::AcceptFont { .. } => "the font file",
            Command::Permission { .. } => "the permission",
            Command::Raise(_) => "sorts for a text, list or scheme",
            Command::Count { .. } => "a count",
            Command::ClearBill => "the bill",
            Command::Space { .. } | Command::RaiseSpaces(_) => "the spaces",
            Command::Cutting(_) => "the cutting",
            Command::Planks(_) => "the planks",
        }
    }
}
