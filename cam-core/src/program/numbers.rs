//! Rounding to a program's decimals, once, and the spelling of its numbers.

use super::dialect::Dialect;
use crate::toolpath::Place3;

/// The grid on which a program's coordinates lie: whole steps of the last decimal.
#[derive(Clone, Copy, Debug)]
pub(super) struct Grid {
    /// Steps in one millimetre.
    pub steps_per_mm: f64,
    /// Largest difference between an arc's radii that the standard allows, in steps.
    pub arc_tolerance: f64,
    decimals: u8,
}

/// Decimals beyond this would not fit the numbers of small controllers (common practice, no source).
const MOST_DECIMALS: u8 = 6;

impl Grid {
    pub fn new(dialect: &Dialect) -> Grid {
        let decimals = dialect.decimals.min(MOST_DECIMALS);
        let steps_per_unit = 10_f64.powi(i32::from(decimals));
        Grid {
            steps_per_mm: steps_per_unit / dialect.unit.in_mm(),
            arc_tolerance: dialect.unit.arc_tolerance() * steps_per_unit,
            decimals,
        }
    }

    /// The nearest step of a length in mm.
    pub fn step(self, mm: f64) -> i64 {
        (mm * self.steps_per_mm).round() as i64
    }

    /// The nearest place on the grid.
    pub fn place(self, place: Place3) -> [i64; 3] {
        [
            self.step(place.xy.x),
            self.step(place.xy.y),
            self.step(place.z),
        ]
    }

    /// Spells a number of steps.
    pub fn spell(self, out: &mut String, steps: i64) {
        spell(out, steps, self.decimals);
    }
}

/// Spells `steps` of the last of `decimals` decimals, without closing zeros and without a point after a whole number.
pub(super) fn spell(out: &mut String, steps: i64, decimals: u8) {
    // The longest i64 has 19 digits; sign and point make 21.
    let mut buffer = [0_u8; 24];
    let mut at = buffer.len();
    let mut rest = steps.unsigned_abs();
    let mut left = decimals;
    let mut significant = false;
    while rest > 0 || left > 0 {
        let digit = (rest % 10) as u8;
        rest /= 10;
        let fraction = left > 0;
        left = left.saturating_sub(1);
        significant |= digit != 0 || !fraction;
        if significant {
            at -= 1;
            buffer[at] = b'0' + digit;
        }
        if fraction && left == 0 && significant {
            at -= 1;
            buffer[at] = b'.';
        }
    }
    if at == buffer.len() || buffer[at] == b'.' {
        at -= 1;
        buffer[at] = b'0';
    }
    if steps < 0 {
        at -= 1;
        buffer[at] = b'-';
    }
    out.push_str(std::str::from_utf8(&buffer[at..]).expect("only ASCII was put into the buffer"));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_spelling(steps: i64, decimals: u8, expected: &str) {
        let mut out = String::new();
        spell(&mut out, steps, decimals);
        assert_eq!(out, expected);
    }

    #[test]
    fn numbers_are_spelled_short_and_exactly() {
        check_spelling(0, 3, "0");
        check_spelling(0, 0, "0");
        check_spelling(1, 3, "0.001");
        check_spelling(-1, 3, "-0.001");
        check_spelling(10, 3, "0.01");
        check_spelling(-500, 3, "-0.5");
        check_spelling(1000, 3, "1");
        check_spelling(-1000, 3, "-1");
        check_spelling(10_000, 3, "10");
        check_spelling(123_456, 3, "123.456");
        check_spelling(120_450, 3, "120.45");
        check_spelling(7, 0, "7");
        check_spelling(1200, 0, "1200");
        check_spelling(39_370, 2, "393.7");
        check_spelling(i64::MIN, 6, "-9223372036854.775808");
    }

    #[test]
    fn spelled_numbers_are_the_numbers_meant() {
        // The standard library's own reading of decimals is the judge.
        for seed in 0..20_000_i64 {
            let steps = (seed * seed * 7919 + seed) % 40_000_000 - 20_000_000;
            for decimals in 0..=6 {
                let mut out = String::new();
                spell(&mut out, steps, decimals);
                let read: f64 = out.parse().expect("a decimal number");
                let wanted = steps as f64 / 10_f64.powi(i32::from(decimals));
                assert_eq!(read, wanted, "{out}");
            }
        }
    }
}
