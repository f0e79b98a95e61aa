//! PNG, JPEG and TIFF files as shades of grey.

use std::io::Cursor;

use image::{DynamicImage, ImageDecoder, ImageFormat, ImageReader, Limits};
use kurbo::{Affine, Point, Rect};

use super::ScanError;
use super::field::Field;

/// The most dots that are decoded: an A2 page at 550 dots to the inch.
const MOST_DECODED: u64 = 120_000_000;
/// The most dots that are worked at once: an A4 page at 600 dots to the inch, and a little.
const MOST_WORKED: u64 = 40_000_000;
/// The most memory that a decoder may take, in bytes.
const MOST_MEMORY: u64 = 768 * 1024 * 1024;

/// A page, or a part of one, as shades of grey from 0, black, to 255, white.
pub(super) struct Grey {
    pub field: Field,
    /// The part's left edge, and the page's y down at its lower edge, in dots.
    left: f64,
    bottom: f64,
}

impl Grey {
    /// A place of the page, y down, in the part's own dots, y up.
    pub(super) fn up(&self, place: Point) -> Point {
        Point::new(place.x - self.left, self.bottom - place.y)
    }

    /// Takes the part's dots, y up, to the page's, y down.
    pub(super) fn down(&self) -> Affine {
        Affine::new([1.0, 0.0, 0.0, -1.0, self.left, self.bottom])
    }
}

/// Whether bytes begin as a PNG, JPEG or TIFF file does.
pub fn is_picture(bytes: &[u8]) -> bool {
    format_of(bytes).is_some()
}

fn format_of(bytes: &[u8]) -> Option<ImageFormat> {
    match image::guess_format(bytes) {
        Ok(format @ (ImageFormat::Png | ImageFormat::Jpeg | ImageFormat::Tiff)) => Some(format),
        Ok(_) | Err(_) => None,
    }
}

/// Reads a page, or a part of it given in dots from the upper left.
///
/// # Errors
/// It is no picture that is read, damaged, too large, or the part is not on it.
pub(super) fn read(bytes: &[u8], part: Option<Rect>) -> Result<Grey, ScanError> {
    let format = format_of(bytes).ok_or(ScanError::UnknownKind)?;
    let damaged = |error: image::ImageError| ScanError::Damaged(first_line(&error.to_string()));
    let mut reader = ImageReader::with_format(Cursor::new(bytes), format);
    let mut limits = Limits::default();
    limits.max_alloc = Some(MOST_MEMORY);
    reader.limits(limits);
    let mut decoder = reader.into_decoder().map_err(damaged)?;
    let (width, height) = decoder.dimensions();
    check_size(u64::from(width) * u64::from(height), MOST_DECODED)?;
    let orientation = decoder.orientation().map_err(damaged)?;
    let mut picture = DynamicImage::from_decoder(decoder).map_err(damaged)?;
    picture.apply_orientation(orientation);
    let (width, height) = (picture.width(), picture.height());
    let nowhere = ScanError::NoPart { width, height };
    let (x0, y0, x1, y1) = match part {
        None => (0, 0, width, height),
        Some(part) => {
            let within = |value: f64, most: u32| value.round().clamp(0.0, most.into()) as u32;
            let part = part.abs();
            (
                within(part.x0, width),
                within(part.y0, height),
                within(part.x1, width),
                within(part.y1, height),
            )
        }
    };
    if x0 >= x1 || y0 >= y1 {
        return Err(nowhere);
    }
    check_size(u64::from(x1 - x0) * u64::from(y1 - y0), MOST_WORKED)?;
    let cut = picture.crop_imm(x0, y0, x1 - x0, y1 - y0);
    Ok(Grey {
        field: grey(cut),
        left: x0.into(),
        bottom: y1.into(),
    })
}

fn check_size(dots: u64, most: u64) -> Result<(), ScanError> {
    const MILLION: u64 = 1_000_000;
    if dots > most {
        Err(ScanError::TooLarge {
            dots: dots.div_ceil(MILLION),
            most: most / MILLION,
        })
    } else {
        Ok(())
    }
}

/// Shades of grey with the rows turned up, of colours by the library `image`; what is see-through shows white paper.
fn grey(picture: DynamicImage) -> Field {
    let (width, height) = (picture.width() as usize, picture.height() as usize);
    let mut values: Vec<f32> = Vec::with_capacity(width * height);
    if picture.color().has_alpha() {
        let dots = picture.into_luma_alpha8();
        for row in dots.rows().rev() {
            values.extend(row.map(|dot| {
                let cover = f32::from(dot.0[1]) / 255.0;
                f32::from(dot.0[0]) * cover + 255.0 * (1.0 - cover)
            }));
        }
    } else {
        let dots = picture.into_luma8();
        for row in dots.rows().rev() {
            values.extend(row.map(|dot| f32::from(dot.0[0])));
        }
    }
    Field {
        width,
        height,
        values,
    }
}

fn first_line(text: &str) -> String {
    text.lines()
        .next()
        .unwrap_or_default()
        .trim_end_matches('.')
        .to_owned()
}
