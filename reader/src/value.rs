//! Values: numbers, parameters, expressions in brackets, functions.
//!
//! Each bracket, function and `#` takes a character of the line, and a line has 255 at most: that bounds the depth.
//!
//! # Source
//! NISTIR 6556 (2000) §3.3.2: three ranks of operators, those of one rank from left to right; angles in degrees; FIX and FUP go to
//! the next lower and next higher whole number; AND, OR and XOR take every number but 0 for true and give 0 or 1; MOD is never
//! negative (run in the reference interpreter).

use crate::block::Located;
use crate::fault::Fault;
use crate::lexer::Cursor;
use crate::parameters::Parameters;

/// What a value is wanted for: the character before it, and where that stands. Faults of the value are told of it.
pub(crate) type Wanted = (char, usize);

/// The functions, by name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Function {
    Abs,
    Acos,
    Asin,
    Atan,
    Cos,
    Exp,
    Fix,
    Fup,
    Ln,
    Round,
    Sin,
    Sqrt,
    Tan,
}

const FUNCTIONS: [(&str, Function); 13] = [
    ("ABS", Function::Abs),
    ("ACOS", Function::Acos),
    ("ASIN", Function::Asin),
    ("ATAN", Function::Atan),
    ("COS", Function::Cos),
    ("EXP", Function::Exp),
    ("FIX", Function::Fix),
    ("FUP", Function::Fup),
    ("LN", Function::Ln),
    ("ROUND", Function::Round),
    ("SIN", Function::Sin),
    ("SQRT", Function::Sqrt),
    ("TAN", Function::Tan),
];

/// Operators between two values.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Operator {
    Power,
    Times,
    Over,
    Mod,
    Plus,
    Minus,
    And,
    Or,
    Xor,
}

/// The operators by how they are written; longer ones ahead of those that they begin with.
const OPERATORS: [(&str, Operator); 9] = [
    ("**", Operator::Power),
    ("*", Operator::Times),
    ("/", Operator::Over),
    ("MOD", Operator::Mod),
    ("+", Operator::Plus),
    ("-", Operator::Minus),
    ("AND", Operator::And),
    ("OR", Operator::Or),
    ("XOR", Operator::Xor),
];

impl Operator {
    /// What binds closer comes first.
    fn rank(self) -> usize {
        match self {
            Operator::Power => 0,
            Operator::Times | Operator::Over | Operator::Mod => 1,
            Operator::Plus | Operator::Minus | Operator::And | Operator::Or | Operator::Xor => 2,
        }
    }

    fn of(self, left: f64, right: f64) -> Result<f64, Fault> {
        let truth = |is: bool| Ok(if is { 1.0 } else { 0.0 });
        match self {
            Operator::Power if left < 0.0 && right.fract() != 0.0 => Err(Fault::NoResult(
                "a power of a negative number has to be whole",
            )),
            Operator::Power => Ok(left.powf(right)),
            Operator::Times => Ok(left * right),
            Operator::Over | Operator::Mod if right == 0.0 => {
                Err(Fault::NoResult("nothing can be divided by 0"))
            }
            Operator::Over => Ok(left / right),
            Operator::Mod => Ok(left.rem_euclid(right)),
            Operator::Plus => Ok(left + right),
            Operator::Minus => Ok(left - right),
            Operator::And => truth(left != 0.0 && right != 0.0),
            Operator::Or => truth(left != 0.0 || right != 0.0),
            Operator::Xor => truth((left != 0.0) != (right != 0.0)),
        }
    }
}

/// The loosest rank.
const LOOSEST: usize = 2;

impl Cursor<'_> {
    /// Reads a value of any kind.
    pub fn value(&mut self, wanted: Wanted, parameters: &Parameters) -> Located<f64> {
        match self.peek() {
            Some(b'[') => self.bracket(parameters),
            Some(b'#') => {
                let at = self.at;
                let number = self.parameter_number(parameters)?;
                parameters.get(number).map_err(|fault| (at, fault))
            }
            Some(b'a'..=b'z' | b'A'..=b'Z') => self.function(wanted, parameters),
            Some(_) | None => self.number(wanted),
        }
    }

    /// Reads `#` and the number after it. The cursor stands on the sign.
    pub fn parameter_number(&mut self, parameters: &Parameters) -> Located<u16> {
        let at = self.at;
        self.at += 1;
        let value = self.value(('#', at), parameters)?;
        Parameters::number(value).map_err(|fault| (at, fault))
    }

    /// Reads an expression. The cursor stands on its bracket.
    fn bracket(&mut self, parameters: &Parameters) -> Located<f64> {
        let at = self.at;
        self.at += 1;
        let first = self.value(('[', at), parameters)?;
        let (value, next) = self.ranked(first, LOOSEST, parameters)?;
        match next {
            None if self.peek() == Some(b']') => {
                self.at += 1;
                Ok(value)
            }
            None | Some(_) if self.peek().is_none() => Err((at, Fault::UnclosedBracket)),
            None | Some(_) => {
                let rest = String::from_utf8_lossy(&self.bytes[self.at..]);
                let character = rest.chars().next().unwrap_or_default();
                Err((self.at, Fault::NoOperator(character)))
            }
        }
    }

    /// Works out operators of a rank and of all closer ones, after a first value; gives the operator that stands after them.
    ///
    /// Each turn of the loop takes an operator, and the recursion goes through the three ranks alone.
    fn ranked(
        &mut self,
        first: f64,
        rank: usize,
        parameters: &Parameters,
    ) -> Located<(f64, Option<(Operator, usize)>)> {
        let (mut value, mut next) = match rank {
            0 => (first, self.operator()),
            closer => self.ranked(first, closer - 1, parameters)?,
        };
        while let Some((operator, at)) = next.filter(|(operator, _)| operator.rank() == rank) {
            let sign = char::from(self.bytes[at]);
            let right = self.value((sign, at), parameters)?;
            let right = match rank {
                0 => (right, self.operator()),
                closer => self.ranked(right, closer - 1, parameters)?,
            };
            value = finite(operator.of(value, right.0)).map_err(|fault| (at, fault))?;
            next = right.1;
        }
        Ok((value, next))
    }

    /// Takes an operator, if one stands here; gives where it stood as well.
    fn operator(&mut self) -> Option<(Operator, usize)> {
        self.peek()?;
        let at = self.at;
        OPERATORS
            .iter()
            .find(|(name, _)| self.take(name))
            .map(|(_, operator)| (*operator, at))
    }

    /// Reads a function and its argument.
    fn function(&mut self, wanted: Wanted, parameters: &Parameters) -> Located<f64> {
        let at = self.at;
        let Some((name, function)) = FUNCTIONS.iter().find(|(name, _)| self.take(name)) else {
            return Err((wanted.1, Fault::NoNumber(wanted.0)));
        };
        if self.peek() != Some(b'[') {
            return Err((at, Fault::FunctionWithoutBracket(name)));
        }
        let argument = self.bracket(parameters)?;
        let second = match function {
            Function::Atan => {
                if !self.take("/") || self.peek() != Some(b'[') {
                    return Err((at, Fault::AtanWithoutSlash));
                }
                self.bracket(parameters)?
            }
            Function::Abs
            | Function::Acos
            | Function::Asin
            | Function::Cos
            | Function::Exp
            | Function::Fix
            | Function::Fup
            | Function::Ln
            | Function::Round
            | Function::Sin
            | Function::Sqrt
            | Function::Tan => 0.0,
        };
        finite(function.of(argument, second)).map_err(|fault| (at, fault))
    }
}

impl Function {
    fn of(self, x: f64, second: f64) -> Result<f64, Fault> {
        let no = |why| Err(Fault::NoResult(why));
        match self {
            Function::Abs => Ok(x.abs()),
            Function::Acos | Function::Asin if x.abs() > 1.0 => {
                no("no angle has such a sine or cosine; it lies between -1 and 1")
            }
            Function::Acos => Ok(x.acos().to_degrees()),
            Function::Asin => Ok(x.asin().to_degrees()),
            Function::Atan if x == 0.0 && second == 0.0 => no("0 by 0 has no direction"),
            Function::Atan => Ok(x.atan2(second).to_degrees()),
            Function::Cos => Ok(x.to_radians().cos()),
            Function::Exp => Ok(x.exp()),
            Function::Fix => Ok(x.floor()),
            Function::Fup => Ok(x.ceil()),
            Function::Ln if x <= 0.0 => no("only numbers above 0 have a logarithm"),
            Function::Ln => Ok(x.ln()),
            Function::Round => Ok(x.round()),
            Function::Sin => Ok(x.to_radians().sin()),
            Function::Sqrt if x < 0.0 => no("a negative number has no square root"),
            Function::Sqrt => Ok(x.sqrt()),
            Function::Tan => Ok(x.to_radians().tan()),
        }
    }
}

/// Refuses what is too large for a number.
fn finite(value: Result<f64, Fault>) -> Result<f64, Fault> {
    match value {
        Ok(value) if !value.is_finite() => Err(Fault::NoResult("the result is far too large")),
        Ok(_) | Err(_) => value,
    }
}
