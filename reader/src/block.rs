//! One line, taken apart into words.

use crate::codes::{Action, Code, GROUPS, Group, Step};
use crate::fault::Fault;

/// A fault and the byte of the line where it stands.
pub(crate) type Located<T> = Result<T, (usize, Fault)>;

/// The words of one line. It is filled anew for every line, so that reading allocates nothing per line.
#[derive(Debug)]
pub(crate) struct Block {
    /// Whether the line begins with `/`.
    pub optional: bool,
    /// Where the last comment's text lies in the line.
    pub comment: Option<(usize, usize)>,
    /// The steps that the line calls for, one bit each.
    pub steps: u32,
    /// Settings of parameters, which take effect after the line's values are read.
    pub settings: Vec<(u16, f64)>,
    /// The modal groups that have a code, one bit each.
    coded: u32,
    /// The code of each group that has one, and where it stands; what other groups hold is left over from earlier lines.
    codes: [Option<(Code, usize)>; GROUPS],
    /// The letters that stand on the line (G and M aside), one bit each.
    letters: u32,
    values: [f64; LETTERS],
    places: [usize; LETTERS],
    m_words: u32,
}

const LETTERS: usize = 26;

/// The most M words on a line (NISTIR 6556 §3.3, on items that repeat).
const MOST_M_WORDS: u32 = 4;

impl Block {
    pub fn new() -> Block {
        Block {
            optional: false,
            comment: None,
            steps: 0,
            settings: Vec::new(),
            coded: 0,
            codes: [None; GROUPS],
            letters: 0,
            values: [0.0; LETTERS],
            places: [0; LETTERS],
            m_words: 0,
        }
    }

    /// Forgets the line before.
    pub fn clear(&mut self) {
        self.optional = false;
        self.comment = None;
        self.steps = 0;
        self.settings.clear();
        self.coded = 0;
        self.letters = 0;
        self.m_words = 0;
    }

    /// Takes a G or M code.
    pub fn add_code(&mut self, code: Code, at: usize) -> Located<()> {
        let group = code.action.group();
        if let Some((first, _)) = self.code(group) {
            return Err((
                at,
                Fault::SameGroup {
                    first: first.name,
                    second: code.name,
                    group,
                },
            ));
        }
        self.codes[group as usize] = Some((code, at));
        self.coded |= 1 << group as u8;
        self.steps |= code.action.step().bit();
        Ok(())
    }

    /// Counts an M word.
    pub fn count_m(&mut self, at: usize) -> Located<()> {
        self.m_words += 1;
        if self.m_words > MOST_M_WORDS {
            return Err((at, Fault::TooManyM));
        }
        Ok(())
    }

    /// Takes any other word. `letter` is an upper-case ASCII letter.
    pub fn add_word(&mut self, letter: u8, value: f64, at: usize) -> Located<()> {
        let index = slot(letter);
        if self.letters & (1 << index) != 0 {
            return Err((at, Fault::LetterTwice(char::from(letter))));
        }
        self.letters |= 1 << index;
        self.values[index] = value;
        self.places[index] = at;
        match letter {
            b'F' => self.steps |= Step::Feed.bit(),
            b'S' => self.steps |= Step::Speed.bit(),
            b'T' => self.steps |= Step::Tool.bit(),
            b'X' | b'Y' | b'Z' => self.steps |= Step::Motion.bit(),
            _ => {}
        }
        Ok(())
    }

    /// The code of a group.
    pub fn code(&self, group: Group) -> Option<(Code, usize)> {
        if self.coded & 1 << group as u8 == 0 {
            return None;
        }
        self.codes[group as usize]
    }

    /// What the code of a group does.
    pub fn action(&self, group: Group) -> Option<Action> {
        self.code(group).map(|(code, _)| code.action)
    }

    /// The number after a letter.
    pub fn word(&self, letter: u8) -> Option<f64> {
        let index = slot(letter);
        (self.letters & (1 << index) != 0).then(|| self.values[index])
    }

    /// Where a letter stands in the line; 0 if it does not.
    pub fn place(&self, letter: u8) -> usize {
        match self.word(letter) {
            Some(_) => self.places[slot(letter)],
            None => 0,
        }
    }

    /// The number after X, Y or Z, by its axis.
    pub fn axis(&self, axis: usize) -> Option<f64> {
        self.word(AXIS_LETTERS[axis])
    }

    /// Whether X, Y or Z stand on the line.
    pub fn has_axes(&self) -> bool {
        self.letters & AXES != 0
    }

    /// The first letter, in the order of the alphabet, of a set of letters that stands on the line.
    pub fn first_of(&self, letters: u32) -> Option<u8> {
        let found = self.letters & letters;
        (found != 0).then(|| b'A' + found.trailing_zeros() as u8)
    }
}

/// The letters of the axes' ends.
pub(crate) const AXIS_LETTERS: [u8; 3] = *b"XYZ";

/// The letters of the axes' offsets in arcs and G87.
pub(crate) const OFFSET_LETTERS: [u8; 3] = *b"IJK";

/// The set of X, Y and Z.
const AXES: u32 = set(&AXIS_LETTERS);

/// A set of letters, one bit each.
pub(crate) const fn set(letters: &[u8]) -> u32 {
    let mut bits = 0;
    let mut index = 0;
    while index < letters.len() {
        bits |= 1 << (letters[index] - b'A');
        index += 1;
    }
    bits
}

/// The slot of an upper-case ASCII letter.
fn slot(letter: u8) -> usize {
    usize::from(letter.wrapping_sub(b'A')) % LETTERS
}
