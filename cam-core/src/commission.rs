//! Everything that the maker decides about one order; nothing derived.

mod border;
mod colours;
mod cut_apart;
mod starting;

use std::collections::BTreeMap;

use crate::measure::{Length, System};
use crate::record::Record;

pub use border::{Border, Measured};
pub use colours::{ColourRules, Plate, PlateCount, PlateSource};
pub use cut_apart::{CutApart, CutLine, CutPiece, LineWay, MiddlePiece};

/// An order for wood type.
#[derive(Clone, Debug, PartialEq)]
pub struct Commission {
    /// The order's title.
    pub title: String,
    /// The customer's reference, as the customer wrote it.
    pub reference: String,
    /// The customer's name and address, line by line.
    pub customer: Vec<String>,
    /// The date that papers bear, as the maker wrote it; none if empty.
    pub date: String,
    /// The system of measure of bodies and sets.
    pub system: System,
    /// Size in lines (12 points of the system).
    pub lines: f64,
    /// The printing height of the blocks.
    pub height_to_paper: Length,
    /// The wood, by its id in the workshop.
    pub wood: String,
    /// The faces, in the order the maker named them; the first is the fount's main face.
    pub faces: Vec<Face>,
    /// The drawings that are not fonts, in the order the maker named them. Their ids and those of the faces are all different.
    pub drawings: Vec<NamedDrawing>,
    /// How the drawing's height maps to the body.
    pub fit: Fit,
    /// Rules for body and set.
    pub block: BlockRules,
    /// Steps cut from blocks so that pairs of letters close up; `None` for plain blocks.
    pub notches: Option<NotchRules>,
    /// Letters in several colours, each on a block of its own; `None` for one colour.
    pub colours: Option<ColourRules>,
    /// The sorts ordered.
    pub bill: Vec<BillLine>,
    /// Spaces and quads ordered.
    pub spaces: Vec<SpaceLine>,
    /// Letters and drawings that are cut apart into sorts that join.
    pub cut_apart: Vec<CutApart>,
    /// Borders: what stands round a frame.
    pub borders: Vec<Border>,
    /// How it is cut.
    pub cutting: Cutting,
    /// How sorts lie on planks and come apart.
    pub planks: PlankRules,
    /// The fount that was made before and that these sorts are to match; `None` for a fount of its own.
    pub replaces: Option<Box<Record>>,
}

impl Commission {
    /// Whether a bill line can name this id with this choice: glyphs are chosen from faces, and drawings are cut whole.
    pub fn has_source(&self, id: &str, choice: &GlyphChoice) -> bool {
        match choice {
            GlyphChoice::Drawing => self.drawings.iter().any(|drawing| drawing.id == id),
            GlyphChoice::Character { .. }
            | GlyphChoice::Ligature { .. }
            | GlyphChoice::Name(_)
            | GlyphChoice::Index(_) => self.faces.iter().any(|face| face.id == id),
        }
    }

    /// The id and the file of every face and drawing.
    pub fn files(&self) -> impl Iterator<Item = (&str, &str)> {
        let faces = self.faces.iter().map(|face| (&*face.id, &*face.file));
        let drawings = self
            .drawings
            .iter()
            .map(|drawing| (&*drawing.id, &*drawing.file));
        faces.chain(drawings)
    }

    /// The files of all faces and drawings, to be named otherwise.
    pub fn files_mut(&mut self) -> impl Iterator<Item = &mut String> {
        let faces = self.faces.iter_mut().map(|face| &mut face.file);
        faces.chain(self.drawings.iter_mut().map(|drawing| &mut drawing.file))
    }
}

/// A face: a font file and how it is used.
#[derive(Clone, Debug, PartialEq)]
pub struct Face {
    /// The id by which bill lines name it.
    pub id: String,
    /// The file, relative to the commission file.
    pub file: String,
    /// SHA-256 of the file when the commission was made, in lower-case hex; empty if not yet recorded.
    pub sha256: String,
    /// The font's place in a collection, else 0.
    pub index: u32,
    /// Variable axes: tag to value.
    pub variations: BTreeMap<String, f64>,
    /// The permission to make physical type that the maker recorded; empty if none yet.
    pub permission: Permission,
}

/// A drawing that is cut as one sort: a file and how it lies on its block.
#[derive(Clone, Debug, PartialEq)]
pub struct NamedDrawing {
    /// The id by which bill lines name it.
    pub id: String,
    /// The file, relative to the commission file: SVG or DXF.
    pub file: String,
    /// SHA-256 of the file when the commission was made, in lower-case hex; empty if not yet recorded.
    pub sha256: String,
    /// The colour (`#rrggbb` of an SVG) or layer (of a DXF) that is cut; `None` for all of it. Size and place are those of the whole drawing, so
    /// that layers register.
    pub layer: Option<String>,
    /// What is measured and placed: the drawing's own box, or its page.
    pub extent: Extent,
    /// Its size as printed.
    pub size: DrawingSize,
    /// The body of its block, which then does not grow; `None` for the fount's, grown in steps where the drawing needs it.
    pub body: Option<Length>,
    /// Wood below it on the body; `None` if it stands in the middle.
    pub foot: Option<Length>,
    /// The set of its block; `None` for the drawing's width and a side at each side, rounded up.
    pub set: Option<Length>,
    /// Wood at its left on that set; `None` if it stands in the middle.
    pub left: Option<Length>,
    /// Wood at each side; `None` for the least side of all blocks.
    pub side: Option<Length>,
    /// Ends of lines that lie at most this far apart are joined (DXF).
    pub join_gap: Length,
    /// The permission to make physical type that the maker recorded; empty if none yet.
    pub permission: Permission,
}

impl NamedDrawing {
    /// A drawing as it is, on the fount's body: ends joined within 0.02 mm, common practice, no source.
    pub fn starting(id: &str, file: &str) -> NamedDrawing {
        NamedDrawing {
            id: id.to_owned(),
            file: file.to_owned(),
            sha256: String::new(),
            layer: None,
            extent: Extent::Drawing,
            size: DrawingSize::AsDrawn,
            body: None,
            foot: None,
            set: None,
            left: None,
            side: None,
            join_gap: Length::mm(0.02),
            permission: Permission::default(),
        }
    }
}

/// What of a drawing is measured and placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Extent {
    /// The box around what it draws.
    Drawing,
    /// Its page, empty edges and all.
    Page,
}

/// How large a drawing is printed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DrawingSize {
    /// As the file states it.
    AsDrawn,
    /// So that it is this high.
    Height(Length),
    /// So that it is this wide.
    Width(Length),
}

/// Who allowed physical type to be made from a face, as the maker recorded it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Permission {
    /// By whom.
    pub by: String,
    /// When, as the maker wrote it.
    pub on: String,
    /// For how many founts; `None` if not limited or not known.
    pub founts: Option<u32>,
}

/// How the drawing's height maps to the body. One scale and one lining for the whole fount.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fit {
    /// Capitals fill the body less a shoulder above and below.
    Capitals {
        /// Wood above the capitals.
        head: Length,
        /// Wood below the base line.
        foot: Length,
    },
    /// Ascender to descender fill the body less a shoulder.
    AscenderToDescender {
        /// Wood above the ascender.
        head: Length,
        /// Wood below the descender.
        foot: Length,
    },
    /// The font's em is the body.
    EmOnBody,
    /// Capitals are as high as stated; the base line lies at `foot` above the body's foot.
    CapitalHeight {
        /// Height of the capitals.
        capitals: Length,
        /// Wood below the base line.
        foot: Length,
    },
}

/// Rules for body and set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BlockRules {
    /// By how much a body grows at head or foot for what hangs out of it: a whole line, or 6 points.
    pub body_step: BodyStep,
    /// Where the set width comes from.
    pub set: SetRule,
    /// The unit that set widths are rounded up to.
    pub rounding: SetRounding,
    /// How the rounding is shared between the sides.
    pub share: RoundingShare,
    /// The least wood kept beside the face at either side.
    pub least_side: Length,
    /// Whether the figures 0–9 of the bill get one common set.
    pub common_figure_set: bool,
}

/// The step by which larger bodies grow: whole or half picas, so that reglet makes up what stands beside them.
///
/// # Source
/// K. Dezhnev, "Notes on Wood Type", 2015–16: letters with descenders stand on bodies larger by picas or halves of one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum BodyStep {
    /// 12 points.
    Line,
    /// 6 points.
    HalfLine,
}

/// Where a set width comes from, before rounding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SetRule {
    /// The font's advance width.
    Advance,
    /// The face's width and a margin at each side.
    FaceAndMargin(Length),
}

/// The unit that set widths are rounded up to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SetRounding {
    /// 6 points.
    SixPoints,
    /// 3 points.
    ThreePoints,
    /// 1 point.
    Point,
    /// ½ point.
    HalfPoint,
    /// ¼ point.
    QuarterPoint,
    /// Not rounded.
    Free,
}

impl SetRounding {
    /// The unit in points; `None` where sets are not rounded.
    pub const fn points(self) -> Option<f64> {
        match self {
            SetRounding::SixPoints => Some(6.0),
            SetRounding::ThreePoints => Some(3.0),
            SetRounding::Point => Some(1.0),
            SetRounding::HalfPoint => Some(0.5),
            SetRounding::QuarterPoint => Some(0.25),
            SetRounding::Free => None,
        }
    }
}

impl BodyStep {
    /// The step in points.
    pub const fn points(self) -> f64 {
        match self {
            BodyStep::Line => 12.0,
            BodyStep::HalfLine => 6.0,
        }
    }
}

/// Which side the wood added by rounding goes to, as printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RoundingShare {
    /// Half at each side.
    Even,
    /// All at the right.
    Right,
    /// All at the left.
    Left,
}

/// Rules for notches: rectangular steps cut from the sides of blocks, so that two of them interlock and close up.
#[derive(Clone, Debug, PartialEq)]
pub struct NotchRules {
    /// The pairs, each of two characters; if empty, those that the font's kerning or the drawn gap asks for.
    pub pairs: Vec<String>,
    /// The least wood kept between a notch and the face.
    pub least_wall: Length,
    /// Widths and heights are whole multiples of this.
    pub step: Length,
    /// How much room there is between the two steps of a pair, one above the other.
    pub clearance: Length,
    /// How many different notches the fount may have at the most.
    pub kinds: u32,
    /// The cutter, by id; `None` for the one that cuts the blocks out.
    pub cutter: Option<String>,
}

/// One line of the bill: so many of one glyph.
#[derive(Clone, Debug, PartialEq)]
pub struct BillLine {
    /// The face, or the drawing, by its id.
    pub face: String,
    /// The glyph.
    pub glyph: GlyphChoice,
    /// How many.
    pub count: u32,
}

/// How a glyph is chosen from its font.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GlyphChoice {
    /// By character, with features that replace its glyph ("ss01", "smcp"), in this order.
    Character {
        /// The character.
        character: char,
        /// OpenType feature tags; of a feature with several alternates, `salt=2` is the second.
        features: Vec<String>,
    },
    /// A ligature: the single glyph that this text becomes under the features.
    Ligature {
        /// The text.
        text: String,
        /// OpenType feature tags; "liga" if the maker says nothing.
        features: Vec<String>,
    },
    /// By the glyph's name in the font.
    Name(String),
    /// By the glyph's index in the font.
    Index(u32),
    /// All of a drawing that is not a font.
    Drawing,
}

/// One line of spaces or quads: plain blocks, lower than the face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SpaceLine {
    /// The set width.
    pub set: Length,
    /// How many.
    pub count: u32,
}

/// How the fount is cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Cutting {
    /// The cutters for the face, by id, in any order.
    pub cutters: Vec<String>,
    /// The promise: no finished wall lies further inside the drawn letter than this.
    pub tolerance: Length,
    /// Depth of the floor below the face in open ground.
    pub relief: Length,
    /// The least depth anywhere; shallower ground is a finding.
    pub least_relief: Length,
    /// Ground up to this wide need be no deeper than the least relief.
    pub narrow_width: Length,
    /// Ground this wide or wider is cut to the full relief; between the two widths the depth wanted rises evenly.
    pub wide_width: Length,
    /// How open ground is cleared.
    pub roughing: Roughing,
    /// Wood left on walls by roughing.
    pub allowance: Length,
    /// A corner rounder than this is handwork.
    pub corner_tolerance: Length,
    /// Which way walls are cut.
    pub direction: Direction,
    /// Strokes thinner than this are a finding.
    pub least_stroke: Length,
    /// One file per plank and cutter, or one per plank with pauses.
    pub files: ProgramFiles,
}

/// How open ground is cleared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Roughing {
    /// Whichever of the others takes less time on the sort.
    Quicker,
    /// Along curves that keep the load of the cutter steady.
    Steady,
    /// Along curves that follow the walls.
    Contours,
}

/// Which way a wall is cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// The cutter turns with the feed: clean edges, but it pulls.
    Climb,
    /// The cutter turns against the feed: safer on a slack machine.
    Conventional,
}

/// How programs are split into files.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ProgramFiles {
    /// One file per plank and cutter.
    PerCutter,
    /// One file per plank, with a pause at each change of cutter.
    WithPauses,
}

/// How sorts lie on planks and come apart.
#[derive(Clone, Debug, PartialEq)]
pub struct PlankRules {
    /// Plank size across (x).
    pub width: Length,
    /// Plank size along (y).
    pub length: Length,
    /// Wood kept free at each edge of the plank.
    pub margin: Length,
    /// Width left between blocks.
    pub lane: Length,
    /// How blocks come apart.
    pub separation: Separation,
    /// The clamps that hold each plank, unless the plank has its own.
    pub clamps: Vec<Clamp>,
    /// Planks of the workshop's stock that may be used, by id; what they do not hold goes on planks of the size above.
    pub stock: Vec<String>,
    /// Which way the fibres run under the letters, where the face is side grain.
    pub grain: GrainWanted,
    /// Whether blocks of several bodies may lie in one row.
    pub rows: RowsOf,
    /// How wide the saw cuts, if it is not as wide as the lane.
    pub kerf: Option<Length>,
    /// Blocks that stay where the maker put them.
    pub pins: Vec<Pin>,
}

impl PlankRules {
    /// How wide the saw cuts: as the maker says, else as wide as the lane.
    pub fn kerf_mm(&self) -> f64 {
        self.kerf.unwrap_or(self.lane).in_mm()
    }
}

/// Which way the fibres run under the letters, where the face is side grain.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum GrainWanted {
    /// Either way.
    Any,
    /// Along the line: from side to side of a letter.
    AlongLine,
    /// Up the body: from foot to head of a letter.
    UpBody,
}

/// What lies in a row across a plank.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum RowsOf {
    /// Blocks of one body, which is quick to saw.
    OneBody,
    /// Blocks of one body, and of others where that saves a plank.
    Mixed,
}

/// A block that stays where the maker put it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pin {
    /// The block: its sort's name and which copy, such as `A-2`.
    pub block: String,
    /// The plank, such as `plank-1`.
    pub plank: String,
    /// From the plank's left edge to the block.
    pub x: Length,
    /// From the plank's lower edge to the block.
    pub y: Length,
}

/// A clamp on a plank, as an upright box. Blocks are kept clear of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clamp {
    /// From the plank's left edge to the clamp.
    pub x: Length,
    /// From the plank's lower edge to the clamp.
    pub y: Length,
    /// Its size across (x).
    pub width: Length,
    /// Its size along (y).
    pub length: Length,
    /// How far it stands above the face.
    pub height: Length,
}

/// How blocks come apart.
#[derive(Clone, Debug, PartialEq)]
pub enum Separation {
    /// A program cuts them out.
    Router {
        /// The cutter, by id; it must reach through the plank.
        cutter: String,
        /// What holds the blocks.
        hold: Hold,
    },
    /// A cutting list for the saw.
    Saw,
}

impl Commission {
    /// The cutter that cuts the notches, by id: its own, or else the one that cuts the blocks out.
    pub fn notch_cutter(&self) -> Option<&str> {
        let own = self.notches.as_ref()?.cutter.as_deref();
        own.or(match &self.planks.separation {
            Separation::Router { cutter, .. } => Some(cutter),
            Separation::Saw => None,
        })
    }
}

/// What holds blocks to the plank while they are cut out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Hold {
    /// Bridges of wood, left in the deepest layers.
    Tabs {
        /// Length of each along the edge.
        width: Length,
        /// Height of each above the bed.
        height: Length,
    },
    /// A skin left at the bottom all round.
    Skin(Length),
}
