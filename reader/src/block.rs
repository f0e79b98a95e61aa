//! One line, taken apart into words.

use super::codes::{Action, Code, Step};
use super::fault::Fault;

/// A fault and the byte of the line where it stands.
pub(super) type Located<T> = Result<T, (usize, Fault)>;

/// The words of one line. It is filled anew for every line, so that reading allocates nothing per line.
#[derive(Debug)]
pub(super) struct Block {
    /// Whether the line begins with `/`.
    pub optional: bool,
    /// Where the last comment's text lies in the line.
    pub comment: Option<(usize, usize)>,
    /// The steps that the line calls for, one bit each.
    pub steps: u32,
    /// The steps that have a code, one bit each.
    coded: u32,
    /// The code of each step that has one, and where it stands; what other steps hold is left over from earlier lines.
    codes: [Option<(Code, usize)>; Step::ALL.len()],
    /// The letters that stand on the line (G and M aside), one bit each.
    letters: u32,
    values: [f64; LETTERS],
    places: [usize; LETTERS],
    m_words: u32,
}

const LETTERS: usize = 26;

/// The most M words on a line (NISTIR 6556 §3.3.6).
const MOST_M_WORDS: u32 = 4;

impl Block {
    pub fn new() -> Block {
        Block {
            optional: false,
            comment: None,
            steps: 0,
            coded: 0,
            codes: [None; Step::ALL.len()],
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
        self.coded = 0;
        self.letters = 0;
        self.m_words = 0;
    }

    /// Takes a G or M code.
    pub fn add_code(&mut self, code: Code, at: usize) -> Located<()> {
        let step = code.action.step();
        if let Some((first, _)) = self.code(step) {
            return Err((
                at,
                Fault::SameGroup {
                    first: first.name,
                    second: code.name,
                    group: code.action.group(),
                },
            ));
        }
        self.codes[step as usize] = Some((code, at));
        self.coded |= step.bit();
        self.steps |= step.bit();
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

    /// The code of a step.
    pub fn code(&self, step: Step) -> Option<(Code, usize)> {
        if self.coded & step.bit() == 0 {
            return None;
        }
        self.codes[step as usize]
    }

    /// What the code of a step does.
    pub fn action(&self, step: Step) -> Option<Action> {
        self.code(step).map(|(code, _)| code.action)
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

/// The set of X, Y and Z.
const AXES: u32 = set(b"XYZ");

/// A set of letters, one bit each.
pub(super) const fn set(letters: &[u8]) -> u32 {
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
