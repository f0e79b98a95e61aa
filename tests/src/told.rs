//! What a program says, told by an independent parser: the crate `gcode`, and a few lines of modal state of our own.
//!
//! The parser keeps numbers in single precision, as small controllers do, so places are known to [`PLACE_MM`].

use gcode::{Argument, Code, Value};
use kurbo::Point;

/// How far places may differ from what is written, mm: single precision holds 500 mm to 0.00003 mm.
pub const PLACE_MM: f64 = 1e-4;

/// A motion as the independent parser's words tell it.
#[derive(Clone, Copy, Debug)]
pub struct Told {
    /// The line, counted from 1.
    pub line: usize,
    /// 0 rapid, 1 straight, 2 clockwise, 3 counter-clockwise.
    pub code: u32,
    /// Where it starts, x, y and z in mm; 0 before anything is said.
    pub from: [f64; 3],
    /// Where it ends.
    pub to: [f64; 3],
    /// The centre of an arc.
    pub centre: Option<Point>,
    /// The feed in force, mm/min; 0 before one is said.
    pub feed_mm_min: f64,
}

impl Told {
    /// Where it starts, seen from above.
    pub fn start(&self) -> Point {
        Point::new(self.from[0], self.from[1])
    }

    /// Where it ends, seen from above.
    pub fn end(&self) -> Point {
        Point::new(self.to[0], self.to[1])
    }
}

/// What the independent parser makes of a program: its motions, and its M codes in order.
///
/// # Panics
/// If the parser finds a fault, or words that the plain dialects do not have.
pub fn told(text: &str) -> (Vec<Told>, Vec<u32>) {
    let program =
        gcode::parse(text).unwrap_or_else(|diagnostics| panic!("{diagnostics:?}\n{text}"));
    let (mut motions, mut stops) = (Vec::new(), Vec::new());
    let (mut unit, mut at, mut feed) = (1.0, [0.0; 3], 0.0);
    for block in &program.blocks {
        assert!(
            block.word_addresses.is_empty(),
            "a line without its own motion code\n{text}"
        );
        for code in &block.codes {
            match code {
                Code::General(general) => match general.number.major() {
                    motion @ 0..=3 => {
                        let args = &general.args;
                        let from = at;
                        for (axis, letter) in ['X', 'Y', 'Z'].into_iter().enumerate() {
                            at[axis] = word(args, letter).map_or(at[axis], |value| value * unit);
                        }
                        feed = word(args, 'F').map_or(feed, |value| value * unit);
                        let offset = |letter| word(args, letter).map(|value| value * unit);
                        motions.push(Told {
                            line: block.span.line + 1,
                            code: motion,
                            from,
                            to: at,
                            centre: offset('I')
                                .zip(offset('J'))
                                .map(|(i, j)| Point::new(from[0] + i, from[1] + j)),
                            feed_mm_min: feed,
                        });
                    }
                    20 => unit = 25.4,
                    21 => unit = 1.0,
                    4 | 17 | 40 | 49 | 54 | 80 | 90 | 94 => {}
                    other => panic!("G{other} is not of the plain dialects"),
                },
                Code::Miscellaneous(stop) => stops.push(stop.number.major()),
                other => panic!("{other} is not of the plain dialects"),
            }
        }
    }
    (motions, stops)
}

fn word(args: &[Argument], letter: char) -> Option<f64> {
    let argument = args.iter().find(|argument| argument.letter == letter)?;
    match &argument.value {
        Value::Literal(value) => Some(f64::from(*value)),
        other => panic!("{other} is not a number"),
    }
}
