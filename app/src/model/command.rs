//! What the maker can do to a commission.

use std::collections::BTreeMap;
use std::sync::Arc;

use cam_core::commission::{
    BillLine, BlockRules, Border, CutApart, Cutting, Face, Fit, GlyphChoice, NamedDrawing,
    NotchRules, Permission, PlankRules, SpaceLine,
};
use cam_core::measure::{Length, System};
use cam_core::quote::Change;

use super::shop::ShopChange;

/// One change to a commission. Groups of settings that are read together are replaced together.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// A new title.
    Title(String),
    /// A new reference.
    Reference(String),
    /// Another name and address of the customer, line by line.
    Customer(Vec<String>),
    /// Another date for the papers.
    Date(String),
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
    /// A face more, with the bytes of its file.
    AddFace {
        /// The face.
        face: Face,
        /// Its font file.
        bytes: Arc<[u8]>,
    },
    /// Another face of a collection of fonts.
    FaceIndex {
        /// The face, by its id.
        face: String,
        /// Which of its file's, counted from 0.
        index: u32,
    },
    /// A face less; the bill must order nothing of it.
    RemoveFace(String),
    /// A drawing more, with the bytes of its file; one of it is ordered.
    AddDrawing {
        /// The drawing.
        drawing: NamedDrawing,
        /// Its file.
        bytes: Arc<[u8]>,
    },
    /// A drawing otherwise, by its id.
    Drawing(NamedDrawing),
    /// A drawing less, and what the bill orders of it.
    RemoveDrawing(String),
    /// Other letters and drawings cut apart, or along other lines.
    CutApart(Vec<CutApart>),
    /// Other borders.
    Borders(Vec<Border>),
    /// Which blocks are notched, and how; none at all.
    Notches(Option<NotchRules>),
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
    /// The order made otherwise, as it was priced.
    Otherwise(Vec<Change>),
    /// Another workshop.
    Workshop(Box<ShopChange>),
}

impl Command {
    /// What it does, for "Undo …".
    pub fn name(&self) -> &'static str {
        match self {
            Command::Title(_) => "the title",
            Command::Reference(_) => "the reference",
            Command::Customer(_) => "the customer",
            Command::Date(_) => "the date",
            Command::System(_) => "the system of measure",
            Command::Lines(_) => "the size",
            Command::HeightToPaper(_) => "the height to paper",
            Command::Wood(_) => "the wood",
            Command::Fit(_) => "the fit",
            Command::Block(_) => "body and set",
            Command::AddFace { .. } | Command::RemoveFace(_) => "a face",
            Command::FaceIndex { .. } => "the face of the collection",
            Command::AddDrawing { .. } | Command::Drawing(_) | Command::RemoveDrawing(_) => {
                "a drawing"
            }
            Command::CutApart(_) => "what is cut apart",
            Command::Borders(_) => "the borders",
            Command::Notches(_) => "the notches",
            Command::Variations { .. } => "the axes",
            Command::AcceptFont { .. } => "the font file",
            Command::Permission { .. } => "the permission",
            Command::Raise(_) => "sorts for a text, list or scheme",
            Command::Count { .. } => "a count",
            Command::ClearBill => "the bill",
            Command::Space { .. } | Command::RaiseSpaces(_) => "the spaces",
            Command::Cutting(_) => "the cutting",
            Command::Planks(_) => "the planks",
            Command::Otherwise(_) => "the order made otherwise",
            Command::Workshop(change) => change.what,
        }
    }
}
