//! From a line of text to its words.
//!
//! # Source
//! NISTIR 6556 (2000) §3.3: spaces and tabs count for nothing outside comments, not even within numbers; letters may be
//! of either case.

use crate::block::{Block, Located};
use crate::codes::{Step, g_code, m_code};
use crate::fault::Fault;
use crate::parameters::Parameters;
use crate::value::Wanted;

/// Beyond this a number means nothing to any machine; also keeps sums of coordinates finite.
const LARGEST_NUMBER: f64 = 1e9;

/// How far a number may lie from a whole one that is wanted (NISTIR 6556 §3.3.2.1).
const WHOLE_WITHIN: f64 = 0.0001;

/// Line numbers have at most this many digits (NISTIR 6556 §3.3.1).
const LINE_NUMBER_DIGITS: usize = 5;

/// Powers of ten that a double (IEEE 754) holds exactly: a whole number below 2⁵³ over one of them is rounded once alone.
const POWERS_OF_TEN: [f64; 23] = [
    1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16,
    1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
];

/// Fills the block with the words of a line, whose values may rest on parameters.
pub(crate) fn fill(block: &mut Block, line: &str, parameters: &Parameters) -> Located<()> {
    block.clear();
    let mut cursor = Cursor {
        bytes: line.as_bytes(),
        at: 0,
    };
    if cursor.peek() == Some(b'/') {
        block.optional = true;
        cursor.at += 1;
    }
    if matches!(cursor.peek(), Some(b'N' | b'n')) {
        cursor.line_number()?;
    }
    // Every turn takes at least one byte of the line.
    while let Some(byte) = cursor.peek() {
        let at = cursor.at;
        match byte {
            b'(' => block.comment = Some(cursor.comment()?),
            b'a'..=b'z' | b'A'..=b'Z' => {
                cursor.at += 1;
                word(
                    block,
                    &mut cursor,
                    byte.to_ascii_uppercase(),
                    at,
                    parameters,
                )?;
            }
            b'#' => {
                let number = cursor.parameter_number(parameters)?;
                if !cursor.take("=") {
                    return Err((at, Fault::SettingWithoutEquals));
                }
                let value = cursor.value(('=', at), parameters)?;
                block.settings.push((number, value));
            }
            _ => return Err((at, stray(line, at))),
        }
    }
    if block.comment.is_some() {
        block.steps |= Step::Comment.bit();
    }
    Ok(())
}

/// Takes one word, whose letter stands at `at`.
fn word(
    block: &mut Block,
    cursor: &mut Cursor<'_>,
    letter: u8,
    at: usize,
    parameters: &Parameters,
) -> Located<()> {
    let name = char::from(letter);
    let fault = |fault| (at, fault);
    let mut value = || -> Located<f64> {
        let value = cursor.value((name, at), parameters)?;
        if value.abs() > LARGEST_NUMBER {
            return Err((at, Fault::NumberTooLarge(name)));
        }
        Ok(value)
    };
    match letter {
        b'G' => {
            let value = value()?;
            let tenths = whole(letter, value * 10.0).map_err(|_| {
                fault(Fault::UnknownCode {
                    letter: name,
                    value,
                })
            })?;
            block.add_code(g_code(tenths).map_err(fault)?, at)
        }
        b'M' => {
            let number = whole(letter, value()?).map_err(fault)?;
            block.count_m(at)?;
            block.add_code(m_code(number).map_err(fault)?, at)
        }
        b'N' => Err(fault(Fault::LineNumberNotFirst)),
        b'A' | b'B' | b'C' => Err(fault(Fault::RotaryAxis(name))),
        b'E' | b'O' | b'U' | b'V' | b'W' => Err(fault(Fault::UnknownLetter(name))),
        _ => {
            let value = value()?;
            block.add_word(letter, value, at)
        }
    }
}

/// A whole number that is not negative.
pub(crate) fn whole(letter: u8, value: f64) -> Result<u32, Fault> {
    let letter = char::from(letter);
    let nearest = value.round();
    if (value - nearest).abs() > WHOLE_WITHIN {
        return Err(Fault::NotWhole(letter));
    }
    if nearest < 0.0 {
        return Err(Fault::Negative(letter));
    }
    if nearest > f64::from(u32::MAX) {
        return Err(Fault::NumberTooLarge(letter));
    }
    Ok(nearest as u32)
}

/// What is wrong with a character that starts neither a word nor a comment.
fn stray(line: &str, at: usize) -> Fault {
    let character = line
        .get(at..)
        .and_then(|rest| rest.chars().next())
        .unwrap_or('?');
    match character {
        ';' => Fault::Semicolon,
        '[' | ']' => Fault::StrayBracket,
        other => Fault::UnexpectedCharacter(other),
    }
}

/// A place in a line.
pub(crate) struct Cursor<'a> {
    pub bytes: &'a [u8],
    pub at: usize,
}

impl Cursor<'_> {
    /// Goes to the next byte that is not blank, and gives it.
    pub fn peek(&mut self) -> Option<u8> {
        loop {
            match self.bytes.get(self.at) {
                Some(b' ' | b'\t') => self.at += 1,
                Some(byte) => return Some(*byte),
                None => return None,
            }
        }
    }

    /// Steps over a word of upper-case letters and signs, blanks between them left out, if it stands here.
    pub fn take(&mut self, word: &str) -> bool {
        let start = self.at;
        for wanted in word.bytes() {
            if self.peek().map(|byte| byte.to_ascii_uppercase()) != Some(wanted) {
                self.at = start;
                return false;
            }
            self.at += 1;
        }
        true
    }

    /// Steps over a comment; gives where its text lies. The cursor stands on the opening parenthesis.
    fn comment(&mut self) -> Located<(usize, usize)> {
        let start = self.at + 1;
        for (index, byte) in self.bytes.iter().enumerate().skip(start) {
            match byte {
                b')' => {
                    self.at = index + 1;
                    return Ok((start, index));
                }
                b'(' => return Err((index, Fault::NestedComment)),
                b'\t' | b' '..=b'~' | 0x80.. => {}
                control => {
                    return Err((index, Fault::UnexpectedCharacter(char::from(*control))));
                }
            }
        }
        Err((self.at, Fault::UnclosedComment))
    }

    /// Steps over N and its digits. The standard asks for nothing of the numbers' order.
    fn line_number(&mut self) -> Located<()> {
        let at = self.at;
        self.at += 1;
        let mut digits = 0;
        while matches!(self.peek(), Some(b'0'..=b'9')) {
            digits += 1;
            self.at += 1;
        }
        let signed = matches!(self.peek(), Some(b'+' | b'-' | b'.'));
        if digits == 0 || digits > LINE_NUMBER_DIGITS || signed {
            return Err((at, Fault::LineNumber));
        }
        Ok(())
    }

    /// Reads a number: a sign, digits with at most one point, at least one digit.
    ///
    /// Faults are told of what it is wanted for. Eighteen significant figures are kept, which is more than a double can tell apart.
    pub fn number(&mut self, (name, at): Wanted) -> Located<f64> {
        const FIGURES: u64 = 100_000_000_000_000_000;
        let too_large = (at, Fault::NumberTooLarge(name));
        let negative = match self.peek() {
            Some(b'-') => {
                self.at += 1;
                true
            }
            Some(b'+') => {
                self.at += 1;
                false
            }
            _ => false,
        };
        let (mut mantissa, mut decimals, mut point, mut digits) = (0_u64, 0_usize, false, false);
        while let Some(byte) = self.peek() {
            match byte {
                b'0'..=b'9' => {
                    digits = true;
                    let room = mantissa < FIGURES && decimals + 1 < POWERS_OF_TEN.len();
                    if room {
                        mantissa = mantissa * 10 + u64::from(byte - b'0');
                        decimals += usize::from(point);
                    } else if !point {
                        return Err(too_large);
                    }
                }
                b'.' if !point => point = true,
                _ => break,
            }
            self.at += 1;
        }
        if !digits {
            return Err(match self.peek() {
                Some(b'#' | b'[') => (self.at, Fault::SignWithoutDigits),
                Some(_) | None => (at, Fault::NoNumber(name)),
            });
        }
        let size = mantissa as f64 / POWERS_OF_TEN[decimals];
        if size > LARGEST_NUMBER {
            return Err(too_large);
        }
        Ok(if negative { -size } else { size })
    }
}
