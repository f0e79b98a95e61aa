//! What can be wrong with a program, in plain sentences.

use thiserror::Error;

use crate::codes::Group;

/// The first fault of a program, and where it stands.
#[derive(Clone, Debug, PartialEq, Error)]
#[error("line {line}, column {column}: {fault}")]
pub struct ReadError {
    /// The line, counted from 1.
    pub line: usize,
    /// The character in the line, counted from 1.
    pub column: usize,
    /// What is wrong.
    pub fault: Fault,
}

impl ReadError {
    /// A fault at a byte of a line.
    pub(crate) fn new(line: usize, text: &str, at: usize, fault: Fault) -> ReadError {
        let column = text
            .char_indices()
            .take_while(|(start, _)| *start < at)
            .count();
        ReadError {
            line,
            column: column + 1,
            fault,
        }
    }
}

/// What is wrong with a line.
#[derive(Clone, Debug, PartialEq, Error)]
pub enum Fault {
    /// More lines than [`crate::MOST_LINES`].
    #[error("the program has more than {} lines; split it", crate::MOST_LINES)]
    TooManyLines,
    /// More motions than [`crate::MOST_MOTIONS`].
    #[error(
        "the program makes more than {} motions; split it",
        crate::MOST_MOTIONS
    )]
    TooManyMotions,
    /// A line beyond [`crate::LONGEST_LINE`].
    #[error("the line is longer than the {} characters that the standard allows", crate::LONGEST_LINE - 1)]
    LineTooLong,
    /// A character that cannot stand here.
    #[error("the character {0:?} has no meaning here")]
    UnexpectedCharacter(char),
    /// A comment with a semicolon.
    #[error("a semicolon does not open a comment in the standard; put comments in parentheses")]
    Semicolon,
    /// A comment in a comment.
    #[error("a comment cannot hold an opening parenthesis")]
    NestedComment,
    /// A comment that runs over the end of the line.
    #[error("the comment is not closed on its line")]
    UnclosedComment,
    /// A bracket that nothing opened or wants.
    #[error("a bracket can stand only where a number is wanted")]
    StrayBracket,
    /// A `[` without its `]`.
    #[error("the bracket is not closed on its line")]
    UnclosedBracket,
    /// A sign ahead of a bracket, parameter or function.
    #[error("a sign can stand only right before digits; write [0 - …]")]
    SignWithoutDigits,
    /// Something else than an operator between values.
    #[error("{0:?} is no operator; there are + - * / ** MOD AND OR XOR")]
    NoOperator(char),
    /// A function without its argument.
    #[error("{0} needs its argument in brackets right after it")]
    FunctionWithoutBracket(&'static str),
    /// ATAN without its second argument.
    #[error("ATAN needs two arguments: ATAN[y]/[x]")]
    AtanWithoutSlash,
    /// Arithmetic that has no result.
    #[error("this cannot be reckoned: {0}")]
    NoResult(&'static str),
    /// A parameter's number out of range.
    #[error("a parameter's number is whole, from 1 to {most}", most = crate::MOST_PARAMETERS)]
    ParameterNumber,
    /// A parameter that holds a place of the machine.
    #[error(
        "parameter {0} is one of those in which the machine keeps its places; use G10 L2, G54 to G59.3, G92 or G28 instead"
    )]
    MachineParameter(u16),
    /// A parameter that the program has not set.
    #[error(
        "parameter {0} is used before an earlier line has set it; what it holds is known to the machine alone"
    )]
    ParameterNotSet(u16),
    /// A parameter at the beginning of a word, without `=`.
    #[error("a parameter is set by # with its number, =, and a value")]
    SettingWithoutEquals,
    /// A letter without meaning.
    #[error("{0} is not a word of the language")]
    UnknownLetter(char),
    /// A, B or C.
    #[error("{0} turns a rotary axis; this reader is for machines with three straight axes")]
    RotaryAxis(char),
    /// A word without a number.
    #[error("{0} needs a number after it")]
    NoNumber(char),
    /// A number beyond any machine.
    #[error("the number after {0} is far too large")]
    NumberTooLarge(char),
    /// A number that must be at least something.
    #[error("the number after {letter} must be at least {least}")]
    BelowLimit {
        /// The word's letter.
        letter: char,
        /// The limit.
        least: u32,
    },
    /// A number that must be above 0.
    #[error("the number after {0} must be more than 0")]
    NotPositive(char),
    /// A number that must be whole.
    #[error("the number after {0} must be whole")]
    NotWhole(char),
    /// A negative number where none can be.
    #[error("the number after {0} cannot be negative")]
    Negative(char),
    /// A number above its limit.
    #[error("the number after {letter} can be at most {most}")]
    AboveLimit {
        /// The word's letter.
        letter: char,
        /// The limit.
        most: u32,
    },
    /// A bad line number.
    #[error("a line number is N and at most five digits, without sign or point")]
    LineNumber,
    /// N after other words.
    #[error("a line number must come first on its line")]
    LineNumberNotFirst,
    /// A letter used twice.
    #[error("{0} stands twice on one line")]
    LetterTwice(char),
    /// More than four M words.
    #[error("a line can hold four M words at most")]
    TooManyM,
    /// Two codes of one modal group.
    #[error("{first} and {second} cannot stand on one line: both are of the modal group “{group}”")]
    SameGroup {
        /// The earlier code.
        first: &'static str,
        /// The later code.
        second: &'static str,
        /// The group.
        group: Group,
    },
    /// Two codes on a line that both want its axis words.
    #[error("{first} and {second} cannot stand on one line: both use X, Y and Z")]
    TwoUsersOfAxes {
        /// The one code.
        first: &'static str,
        /// The other.
        second: &'static str,
    },
    /// A code that the standard does not know.
    #[error("{letter}{value} is not a code of the standard")]
    UnknownCode {
        /// G or M.
        letter: char,
        /// Its number.
        value: f64,
    },
    /// A code of the standard that this reader does not take.
    #[error("{code} is not supported: {reason}")]
    Unsupported {
        /// The code.
        code: &'static str,
        /// Why, and what to write instead.
        reason: &'static str,
    },
    /// Compensation by a cutter whose diameter is not told.
    #[error(
        "{code} moves the path by the radius of the cutter in slot {slot}, which is kept in the machine's table of cutters; tell its diameter beside the program, or write the path of the cutter's centre under G40"
    )]
    CutterNotTold {
        /// G41 or G42.
        code: &'static str,
        /// The slot.
        slot: u32,
    },
    /// Compensation by the cutter in the spindle, which is not told.
    #[error(
        "{0} without D goes by the cutter in the spindle, and the program has not said which that is; put D with its slot here, or change to it before (T and M6)"
    )]
    CutterInSpindleNotTold(&'static str),
    /// Compensation in an upright plane.
    #[error("{0} works in the plane of x and y alone; put G17 before it")]
    CompensationPlane(&'static str),
    /// Compensation switched on twice.
    #[error("{0} stands here while cutter radius compensation is on already; put G40 before it")]
    CompensationTwice(&'static str),
    /// What may not be used under compensation.
    #[error("{0} cannot be used while cutter radius compensation is on; put G40 before it")]
    NotUnderCompensation(&'static str),
    /// Compensation from a place that is not known.
    #[error(
        "cutter radius compensation begins from where the cutter stands, which the program has not told; move there first, with X and Y in this work coordinate system"
    )]
    CompensationFromUntold,
    /// A first motion within the cutter.
    #[error(
        "the first motion under cutter radius compensation has to lead further than the cutter's radius of {radius:.5}, across and along, and leads {way:.5} far; begin further away"
    )]
    EntryTooShort {
        /// How far the motion leads, in the program's unit.
        way: f64,
        /// The cutter's radius, in the program's unit.
        radius: f64,
    },
    /// A first arc that does not touch the cutter.
    #[error(
        "the arc that begins cutter radius compensation has to touch the cutter: its centre has to lie {wanted:.5} from where the cutter stands, and lies {found:.5} from it"
    )]
    EntryArc {
        /// How far the centre lies from where the cutter stands, in the program's unit.
        found: f64,
        /// How far it would have to, in the program's unit.
        wanted: f64,
    },
    /// A corner into which the cutter does not fit.
    #[error(
        "the path turns towards the cutter by {degrees:.2} degrees here; under cutter radius compensation an inner corner has to be an arc of more than the cutter's radius of {radius:.5}"
    )]
    InnerCorner {
        /// The angle.
        degrees: f64,
        /// The cutter's radius, in the program's unit.
        radius: f64,
    },
    /// An arc into which the cutter does not fit.
    #[error(
        "the cutter runs inside this arc, whose radius of {arc:.5} is not more than its own of {cutter:.5}; take a smaller cutter or a larger arc"
    )]
    ArcWithinCutter {
        /// The arc's radius, in the program's unit.
        arc: f64,
        /// The cutter's radius, in the program's unit.
        cutter: f64,
    },
    /// An arc that the cutter has passed before it begins.
    #[error(
        "this arc is too short for the cutter, which stands past it after the slight inner corner before it; let the arc begin in the direction of what comes before"
    )]
    ArcTooShortForCutter,
    /// A word that no code on the line uses.
    #[error("no code on this line uses the word {0}")]
    UnusedWord(char),
    /// G4 without P.
    #[error("G4 needs its time, P, in seconds")]
    DwellWithoutTime,
    /// G43 without H.
    #[error("G43 needs its length offset, H")]
    OffsetWithoutIndex,
    /// A motion code without axis words.
    #[error("{0} needs at least one of X, Y and Z on its line")]
    MotionWithoutAxes(&'static str),
    /// Axis words while no motion is active.
    #[error(
        "X, Y or Z stand here while no motion is active; put G0, G1, G2, G3 or a cycle on the line or before it"
    )]
    AxesWithoutMotion,
    /// A cut at feed 0.
    #[error("this cut has no feed; set F before it")]
    NoFeed,
    /// G10 without L2.
    #[error("G10 needs L2, the only kind of setting that the standard has")]
    SettingKind,
    /// G10 without P.
    #[error("G10 needs P, from 1 for G54 to 9 for G59.3")]
    SettingWithoutSystem,
    /// G53 without a straight motion.
    #[error("G53 goes with G0 or G1 alone, with at least one of X, Y and Z")]
    MachinePlacesWithoutLine,
    /// G53 in G91.
    #[error("G53 names places of the machine, so it needs absolute distances (G90)")]
    MachinePlacesIncremental,
    /// F missing in inverse time.
    #[error("under G93 each line with a G1, G2 or G3 motion needs its own F")]
    InverseTimeWithoutFeed,
    /// A code that cannot be used in inverse time.
    #[error("{0} needs a feed in lengths a minute (G94)")]
    NotInInverseTime(&'static str),
    /// An arc whose start is not known.
    #[error(
        "the arc's centre is counted from where it starts, which the program has not told; move there first, with X, Y and Z in this work coordinate system"
    )]
    ArcFromUntold,
    /// A cycle whose start is not known.
    #[error(
        "the cycle has to know how high the cutter stands, which the program has not told; move there first, in this work coordinate system"
    )]
    CycleFromUntold,
    /// A word that a cycle needs.
    #[error(
        "{code} needs {letter} on its first line (also after a change of plane, units or distance mode)"
    )]
    CycleWithout {
        /// The cycle.
        code: &'static str,
        /// The word's letter.
        letter: char,
    },
    /// R below the bottom.
    #[error(
        "{code} would begin at {r:.5}, below its bottom at {bottom:.5}; R must not be below it"
    )]
    CycleUpsideDown {
        /// The cycle.
        code: &'static str,
        /// The level of R, in the program's unit.
        r: f64,
        /// The level of the bottom, in the program's unit.
        bottom: f64,
    },
    /// K of G87 out of range.
    #[error("G87 bores up to K, which must lie between its bottom and R")]
    BackBoreLevel,
    /// Too many pecks.
    #[error("G83 would peck more than {} times; Q is too small", crate::MOST_PECKS)]
    TooManyPecks,
    /// A cycle that needs the spindle.
    #[error("{0} needs the spindle turning; start it with {1}")]
    CycleNeedsSpindle(&'static str, &'static str),
    /// A probe that hardly moves.
    #[error("G38.2 needs to move at least 0.254 mm (0.01 inch)")]
    ProbeTooShort,
    /// An upright arc that is too large.
    #[error("the arc is too large to be followed in an upright plane")]
    UprightArcTooLarge,
    /// An arc without an end.
    #[error("an arc in this plane needs {0} or {1} for its end")]
    ArcWithoutEnd(char, char),
    /// An arc without a centre.
    #[error("an arc in this plane needs {0} or {1} for its centre, or R for its radius")]
    ArcWithoutCentre(char, char),
    /// R beside I, J or K.
    #[error("an arc takes its centre from I, J and K or its radius from R, not both")]
    ArcMixedForms,
    /// The offset of the wrong axis.
    #[error("an arc in this plane takes no {0}")]
    ArcOffset(char),
    /// A circle without size.
    #[error("the arc's radius is zero")]
    ArcZeroRadius,
    /// Start and end on different circles.
    #[error(
        "the arc starts {start:.5} from its centre and ends {end:.5} from it; the standard allows a difference of {tolerance}"
    )]
    ArcRadiiDiffer {
        /// Distance from the centre at the start, in the program's unit.
        start: f64,
        /// Distance from the centre at the end, in the program's unit.
        end: f64,
        /// The standard's limit, in the program's unit.
        tolerance: f64,
    },
    /// A radius that cannot span the ends.
    #[error("the arc's ends are {chord:.5} apart, too far for a radius of {radius:.5}")]
    ArcRadiusTooSmall {
        /// Distance between the ends, in the program's unit.
        chord: f64,
        /// The radius asked for, in the program's unit.
        radius: f64,
    },
    /// A full circle by radius.
    #[error("an arc given by R cannot end where it starts")]
    ArcRadiusFullCircle,
    /// `%` without one at the head.
    #[error("a percent sign can close a program only if one opened it")]
    StrayPercent,
    /// Opened with `%`, not ended.
    #[error("the program opens with a percent sign but neither a second one nor M2 or M30 ends it")]
    PercentNotClosed,
    /// No end.
    #[error("the program has no end; M2 or M30 is missing")]
    NoEnd,
}
