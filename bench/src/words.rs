//! Lengths as a maker reads them.

use said::{Value, plain_number};

/// A length to a hundredth of a millimetre, or to a thousandth below a tenth.
pub fn mm(value: f64) -> Value {
    let decimals = if value.abs() < 0.1 { 3 } else { 2 };
    Value::plain_mm(value, decimals)
}

/// A length to a thousandth of a millimetre.
pub fn fine_mm(value: f64) -> Value {
    Value::plain_mm(value, 3)
}

/// A change with its sign.
pub fn change_mm(value: f64) -> Value {
    let sign = if value > 0.0 { "+" } else { "" };
    Value::figures(format!("{sign}{}", mm(value)))
}

/// A part in per cent, without the sign.
pub fn per_cent(part: f64) -> Value {
    Value::figures(plain_number(part * 100.0, 1))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        assert_eq!(mm(0.0123).to_string(), "0.012 mm");
        assert_eq!(change_mm(0.5).to_string(), "+0.5 mm");
        assert_eq!(change_mm(-0.5).to_string(), "-0.5 mm");
        assert_eq!(per_cent(0.0486).to_string(), "4.9");
    }
}
