//! Numbers as a maker reads them.

/// A number with at most so many decimals, without needless zeros.
pub fn plain(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// A length to a hundredth of a millimetre, or to a thousandth below a tenth.
pub fn mm(value: f64) -> String {
    let decimals = if value.abs() < 0.1 { 3 } else { 2 };
    format!("{} mm", plain(value, decimals))
}

/// A length to a thousandth of a millimetre.
pub fn fine_mm(value: f64) -> String {
    format!("{} mm", plain(value, 3))
}

/// A change with its sign.
pub fn change_mm(value: f64) -> String {
    let sign = if value > 0.0 { "+" } else { "" };
    format!("{sign}{}", mm(value))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        assert_eq!(plain(1.500, 3), "1.5");
        assert_eq!(plain(-0.0001, 3), "0");
        assert_eq!(plain(100.0, 0), "100");
        assert_eq!(mm(0.0123), "0.012 mm");
        assert_eq!(change_mm(0.5), "+0.5 mm");
        assert_eq!(change_mm(-0.5), "-0.5 mm");
    }
}
