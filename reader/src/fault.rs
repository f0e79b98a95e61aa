//! What can be wrong with a program, in plain sentences.

use thiserror::Error;

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
    pub(super) fn new(line: usize, text: &str, at: usize, fault: Fault) -> ReadError {
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
    /// More lines than [`super::MOST_LINES`].
    #[error("the program has more than {} lines; split it", super::MOST_LINES)]
    TooManyLines,
    /// A line beyond [`super::LONGEST_LINE`].
    #[error("the line is longer than the {} characters that the standard allows", super::LONGEST_LINE - 1)]
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
    /// `#`.
    #[error("parameters (#) are not read; write the number itself")]
    Parameter,
    /// `[`.
    #[error("expressions in brackets are not read; write the number itself")]
    Expression,
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
    #[error("{first} and {second} cannot stand on one line: both set the {group}")]
    SameGroup {
        /// The earlier code.
        first: &'static str,
        /// The later code.
        second: &'static str,
        /// What both set.
        group: &'static str,
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
        "X, Y or Z stand here while no motion is active; put G0, G1, G2 or G3 on the line or before it"
    )]
    AxesWithoutMotion,
    /// A cut at feed 0.
    #[error("this cut has no feed; set F before it")]
    NoFeed,
    /// An arc outside the XY plane.
    #[error("arcs are read in the XY plane (G17) alone")]
    ArcPlane,
    /// An arc without an end.
    #[error("an arc needs X or Y for its end")]
    ArcWithoutEnd,
    /// An arc without a centre.
    #[error("an arc needs I or J for its centre, or R for its radius")]
    ArcWithoutCentre,
    /// R beside I or J.
    #[error("an arc takes its centre from I and J or its radius from R, not both")]
    ArcMixedForms,
    /// K in G17.
    #[error("an arc in the XY plane takes no K")]
    ArcOffsetK,
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
    /// A change of work system after motions.
    #[error(
        "the program changes its work coordinate system after moving; only the machine knows how far apart the systems lie"
    )]
    WorkSystemChanged,
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
