//! A page made small enough to be looked at, before it is traced.

use super::ScanError;
use super::page;

/// A page in shades of grey, made smaller by a whole number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Glimpse {
    /// Dots across.
    pub width: usize,
    /// Dots down.
    pub height: usize,
    /// Shades from 0, black, to 255, white, row by row from the upper left.
    pub shades: Vec<u8>,
    /// Dots of the page across and down.
    pub page: [usize; 2],
    /// How many of the page's dots lie along one of these.
    pub step: usize,
}

/// The whole page with at most `longest` dots along either side; each is the mean of those that it stands for.
///
/// # Errors
/// As [`trace`](super::trace): it is no picture that is read, damaged, or too large.
pub fn glimpse(bytes: &[u8], longest: usize) -> Result<Glimpse, ScanError> {
    let field = page::read(bytes, None)?.field;
    let step = field
        .width
        .max(field.height)
        .div_ceil(longest.max(1))
        .max(1);
    let (width, height) = (field.width.div_ceil(step), field.height.div_ceil(step));
    let mut shades = Vec::with_capacity(width * height);
    for row in 0..height {
        for column in 0..width {
            let mut sum = 0.0;
            let mut many = 0.0;
            for down in row * step..((row + 1) * step).min(field.height) {
                // The field's rows are counted upwards.
                let first = (field.height - 1 - down) * field.width;
                for across in column * step..((column + 1) * step).min(field.width) {
                    sum += f64::from(field.values[first + across]);
                    many += 1.0;
                }
            }
            // Shades lie between 0 and 255, so rounding stays within a byte.
            shades.push((sum / many).round() as u8);
        }
    }
    Ok(Glimpse {
        width,
        height,
        shades,
        page: [field.width, field.height],
        step,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use image::{GrayImage, ImageFormat, Luma};
    use std::io::Cursor;

    #[test]
    fn a_page_is_seen_from_its_upper_left_and_made_smaller() {
        let mut page = GrayImage::from_pixel(10, 6, Luma([255]));
        for (x, y) in [(0, 0), (1, 0), (0, 1), (1, 1)] {
            page.put_pixel(x, y, Luma([0]));
        }
        let mut bytes = Cursor::new(Vec::new());
        page.write_to(&mut bytes, ImageFormat::Png).unwrap();
        let whole = glimpse(bytes.get_ref(), 100).unwrap();
        assert_eq!((whole.width, whole.height, whole.step), (10, 6, 1));
        let small = glimpse(bytes.get_ref(), 5).unwrap();
        assert_eq!((small.width, small.height, small.page), (5, 3, [10, 6]));
        assert_eq!(small.shades[0], 0);
        assert!(small.shades[1..].iter().all(|shade| *shade == 255));
        assert!(glimpse(b"no picture", 5).is_err());
    }
}
