//! `sortwright trace`.

use std::path::PathBuf;
use std::str::FromStr;

use clap::{Args, ValueEnum};
use kurbo::{Point, Rect};
use serde_json::json;

use cam_core::measure::{Length, System, Unit};
use drawing::scan::{Known, Settings, Straighten, Symmetry, Threshold, Traced};
use drawing::svg;

use super::Outcome;
use super::terminal::Terminal;
use crate::background::tracing::traced;
use crate::files::{read, write_atomic};

/// Trace a scanned page to an outline that a commission can name as a drawing.
///
/// The page is a PNG, JPEG or TIFF file. It is turned upright by its straight lines, ink is told from paper place by place, spots are dropped, corners are
/// kept, and curves are fitted between them. The SVG file has the size that the known measure gives it; what stood in its place before is
/// kept beside it. Places on the scan are counted in dots from its upper left corner, as picture programs show them.
#[derive(Debug, Args)]
pub struct Trace {
    /// The scan: PNG, JPEG or TIFF.
    scan: PathBuf,
    /// A known measure on the page: a length, and the two places of the scan between which it lies.
    #[arg(long, value_name = "LENGTH:X1,Y1,X2,Y2")]
    known: KnownArg,
    /// The SVG file to write.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Trace only this part of the page, between two of its corners.
    #[arg(long, value_name = "X1,Y1,X2,Y2")]
    part: Option<Four>,
    /// How ink is told from paper: place by place, by the whole page, or at a shade from 0 (black) to 255 (white).
    #[arg(long, value_name = "local, global or SHADE", default_value = "local")]
    threshold: ThresholdArg,
    /// Turn the page so that the line between these two places lies level.
    #[arg(long, value_name = "X1,Y1,X2,Y2", conflicts_with = "as_scanned")]
    level: Option<Four>,
    /// Leave the page as crooked as it was scanned.
    #[arg(long)]
    as_scanned: bool,
    /// How far fitted curves may lie from the line that was followed; without it, half a dot.
    #[arg(long, value_name = "LENGTH")]
    tolerance: Option<LengthArg>,
    /// Drop spots and holes less wide than this.
    #[arg(long, value_name = "LENGTH", default_value = "0.25 mm")]
    least_spot: LengthArg,
    /// Make the halves mirror images.
    #[arg(long, value_enum)]
    symmetric: Option<SymmetryArg>,
    /// The drawing is light on dark.
    #[arg(long)]
    light_on_dark: bool,
    /// Print what came of it as JSON.
    #[arg(long)]
    json: bool,
}

/// Which halves are made alike.
#[derive(Clone, Copy, Debug, ValueEnum)]
enum SymmetryArg {
    /// Left and right.
    LeftRight,
    /// Upper and lower.
    TopBottom,
}

/// A length with its unit; points are pica points.
#[derive(Clone, Copy, Debug)]
struct LengthArg(Length);

impl FromStr for LengthArg {
    type Err = String;

    fn from_str(text: &str) -> Result<LengthArg, String> {
        Length::parse(text, System::Pica)
            .map(LengthArg)
            .map_err(|error| error.to_string())
    }
}

/// Two places on a scan.
#[derive(Clone, Copy, Debug)]
struct Four {
    from: Point,
    to: Point,
}

impl FromStr for Four {
    type Err = String;

    fn from_str(text: &str) -> Result<Four, String> {
        let numbers: Vec<f64> = text
            .split(',')
            .filter_map(|number| number.trim().parse().ok())
            .filter(|number: &f64| number.is_finite())
            .collect();
        match (&numbers[..], text.split(',').count()) {
            (&[x1, y1, x2, y2], 4) => Ok(Four {
                from: Point::new(x1, y1),
                to: Point::new(x2, y2),
            }),
            _ => Err(format!(
                "“{text}” is not two places on the scan; write X1,Y1,X2,Y2 in dots"
            )),
        }
    }
}

/// A known measure.
#[derive(Clone, Copy, Debug)]
struct KnownArg(Known);

impl FromStr for KnownArg {
    type Err = String;

    fn from_str(text: &str) -> Result<KnownArg, String> {
        let (length, places) = text
            .rsplit_once(':')
            .ok_or_else(|| format!("“{text}” is not a known measure; write 60mm:X1,Y1,X2,Y2"))?;
        let LengthArg(length) = length.parse()?;
        let Four { from, to } = places.parse()?;
        Ok(KnownArg(Known {
            from,
            to,
            mm: length.in_mm(),
        }))
    }
}

/// A way to tell ink from paper.
#[derive(Clone, Copy, Debug)]
struct ThresholdArg(Threshold);

impl FromStr for ThresholdArg {
    type Err = String;

    fn from_str(text: &str) -> Result<ThresholdArg, String> {
        match text {
            "local" => Ok(ThresholdArg(Threshold::Local)),
            "global" => Ok(ThresholdArg(Threshold::Global)),
            shade => shade
                .parse()
                .map(|shade| ThresholdArg(Threshold::At(shade)))
                .map_err(|_| {
                    format!("“{text}” is neither local, global nor a shade from 0 to 255")
                }),
        }
    }
}

impl Trace {
    pub(super) fn run(&self, terminal: &Terminal) -> Result<Outcome, String> {
        let bytes = read(&self.scan).map_err(|error| error.to_string())?;
        let settings = self.settings();
        let traced = terminal.watch(|progress| traced(&bytes, &settings, progress))?;
        let name = self.scan.file_stem().unwrap_or_default().to_string_lossy();
        let file = svg::write(&traced.outline, traced.page, &name);
        write_atomic(&self.out, file.as_bytes()).map_err(|error| error.to_string())?;
        if self.json {
            terminal.say(&format!("{:#}", as_json(&traced)));
        } else {
            terminal.remark(&self.in_words(&traced));
        }
        Ok(Outcome::Done)
    }

    fn settings(&self) -> Settings {
        Settings {
            part: self.part.map(|part| Rect::from_points(part.from, part.to)),
            threshold: self.threshold.0,
            straighten: match (self.level, self.as_scanned) {
                (Some(level), _) => Straighten::Level(level.from, level.to),
                (None, true) => Straighten::AsScanned,
                (None, false) => Straighten::ByItsLines,
            },
            least_spot_mm: self.least_spot.0.in_mm(),
            tolerance_mm: self.tolerance.map(|tolerance| tolerance.0.in_mm()),
            symmetry: match self.symmetric {
                None => Symmetry::AsDrawn,
                Some(SymmetryArg::LeftRight) => Symmetry::LeftRight,
                Some(SymmetryArg::TopBottom) => Symmetry::TopBottom,
            },
            is_light_on_dark: self.light_on_dark,
            ..Settings::starting(self.known.0)
        }
    }

    fn in_words(&self, traced: &Traced) -> String {
        let mm = |mm: f64| Length::mm(mm).show(Unit::Millimetre, System::Pica);
        let mut text = format!(
            "{} closed curves with {} corners were written to {}: {} by {} with its margin, {} to a dot.\n\
             The page was turned by {:.2} degrees, {} spots were dropped, and curves lie within {} of the line that was followed.",
            traced.rings,
            traced.corners.len(),
            self.out.display(),
            mm(traced.page.width()),
            mm(traced.page.height()),
            mm(traced.mm_per_dot),
            traced.turned_deg,
            traced.spots,
            mm(traced.fitted_within_mm),
        );
        for note in &traced.notes {
            text += &format!("\n{note}");
        }
        text
    }
}

fn as_json(traced: &Traced) -> serde_json::Value {
    json!({
        "width_mm": traced.page.width(),
        "height_mm": traced.page.height(),
        "mm_per_dot": traced.mm_per_dot,
        "turned_deg": traced.turned_deg,
        "curves": traced.rings,
        "corners": traced.corners.iter().map(|corner| [corner.x, corner.y]).collect::<Vec<_>>(),
        "spots_dropped": traced.spots,
        "fitted_within_mm": traced.fitted_within_mm,
        "notes": traced.notes,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn measures_places_and_thresholds_are_read_from_the_line() {
        let KnownArg(known) = "60mm:10,20,310.5,20".parse().unwrap();
        assert_eq!(
            (known.mm, known.from, known.to),
            (60.0, Point::new(10.0, 20.0), Point::new(310.5, 20.0))
        );
        let KnownArg(inch) = "1 in:0,0,0,300".parse().unwrap();
        assert!((inch.mm - 25.4).abs() < 1e-9);
        for wrong in [
            "60mm",
            "60mm:1,2,3",
            "60mm:1,2,3,x",
            "x:1,2,3,4",
            "60mm:1,2,3,4,5",
        ] {
            assert!(wrong.parse::<KnownArg>().is_err(), "{wrong}");
        }
        assert!(matches!(
            "128".parse(),
            Ok(ThresholdArg(Threshold::At(128)))
        ));
        assert!("300".parse::<ThresholdArg>().is_err());
    }
}
