//! Outlines, metrics and characters of every glyph against a second font reader.
//!
//! # Source
//! Crate `skrifa`, which reads fonts on its own code: glyph outlines in font units, advance widths, side bearings, heights,
//! character maps and axes.

use std::collections::BTreeMap;

use geometry::font::Font;
use kurbo::{BezPath, PathEl, Point, Shape};
use skrifa::instance::{Location, Size};
use skrifa::outline::pen::PathStyle;
use skrifa::outline::{DrawSettings, OutlineGlyphFormat, OutlinePen};
use skrifa::{FontRef, GlyphId, MetadataProvider};
use testkit::fonts::{self, TestFont};

/// Size at which skrifa draws TrueType outlines, in times the em: at the em itself it rounds points to whole font units, so it
/// draws larger and is divided. PostScript outlines it rounds down to whole units at every size, so ours are rounded too.
const ENLARGEMENT: f64 = 8.0;

/// What a 32-bit float may lack just below a whole unit, in font units.
const BELOW_WHOLE: f64 = 0.0005;

/// How far two readers' points may lie apart, in font units: one works in 32-bit floats, the other partly in fixed-point
/// numbers of 16.16 (variation deltas) and 2.14 (axis values).
const TOLERANCE: f64 = 0.05;

/// How many characters of a font are compared; of a longer map, every second or third or nth.
const MOST_CHARACTERS: usize = 10_000;

/// Where a difference is known: the font, a part of its description, and the reason. A line that no longer differs fails the
/// run.
const KNOWN_DIFFERENCES: &[(&str, &str, &str)] = &[
    (
        "new-computer-modern-bold",
        "glyph 3537: contour 0 of 1",
        "a point lies within a float's rounding of a whole unit, and rounding down tells the two readers apart",
    ),
    (
        "charstring-path-ops",
        "glyph 3: contour 0 of 2: 3 segments against 4",
        "a contour without a first point, which the specification does not allow; only skrifa puts one in",
    ),
    (
        "cubic-glyf",
        "glyph 2: contour 0 of 1",
        "cubic curves in the glyf table, a proposal for a later specification, are read as quadratic ones",
    ),
    (
        "glyf-components",
        "glyph 7: contour 0 of 1",
        "the flag that scales a component's offset together with the component is not read",
    ),
    (
        "material-icons-matrix",
        "contour",
        "a font matrix that does not fit the units in an em; the reader trusts the units",
    ),
    (
        "simple-glyf",
        "table hhea",
        "a font without line metrics is refused: its letters have no widths",
    ),
];

/// Collects drawn elements in 64-bit floats.
struct Drawn {
    path: BezPath,
    enlargement: f64,
}

impl Drawn {
    fn at(&self, x: f32, y: f32) -> Point {
        Point::new(
            f64::from(x) / self.enlargement,
            f64::from(y) / self.enlargement,
        )
    }
}

impl OutlinePen for Drawn {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to(self.at(x, y));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to(self.at(x, y));
    }
    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.path.quad_to(self.at(cx, cy), self.at(x, y));
    }
    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        self.path
            .curve_to(self.at(ax, ay), self.at(bx, by), self.at(x, y));
    }
    fn close(&mut self) {
        self.path.close_path();
    }
}

/// An outline with all points rounded down to whole units.
fn rounded_down(outline: &BezPath) -> BezPath {
    let down = |at: Point| Point::new((at.x + BELOW_WHOLE).floor(), (at.y + BELOW_WHOLE).floor());
    outline
        .iter()
        .map(|element| match element {
            PathEl::MoveTo(to) => PathEl::MoveTo(down(to)),
            PathEl::LineTo(to) => PathEl::LineTo(down(to)),
            PathEl::QuadTo(a, to) => PathEl::QuadTo(down(a), down(to)),
            PathEl::CurveTo(a, b, to) => PathEl::CurveTo(down(a), down(b), down(to)),
            PathEl::ClosePath => PathEl::ClosePath,
        })
        .collect()
}

/// One contour as its segments, each a list of points after the one where the segment before ended.
type Contour = Vec<Vec<Point>>;

/// The contours of an outline without lines of no length, so that it does not matter whether a reader closes a contour
/// with a line.
fn contours(outline: &BezPath) -> Vec<Contour> {
    let mut found = Vec::new();
    let mut start = Point::ZERO;
    let mut last = Point::ZERO;
    let mut contour: Contour = Vec::new();
    for element in outline.elements() {
        let segment = match *element {
            PathEl::MoveTo(to) => {
                start = to;
                last = to;
                contour = Vec::new();
                continue;
            }
            PathEl::LineTo(to) => vec![to],
            PathEl::QuadTo(a, to) => vec![a, to],
            PathEl::CurveTo(a, b, to) => vec![a, b, to],
            PathEl::ClosePath => {
                push(&mut contour, last, vec![start]);
                if !contour.is_empty() {
                    found.push(std::mem::take(&mut contour));
                }
                last = start;
                continue;
            }
        };
        let from = last;
        last = *segment.last().unwrap_or(&last);
        push(&mut contour, from, segment);
    }
    found
}

fn push(contour: &mut Contour, from: Point, segment: Vec<Point>) {
    if segment.iter().any(|to| to.distance(from) > TOLERANCE) {
        contour.push(segment);
    }
}

/// Whether two contours are the same ring of segments, wherever each starts.
fn same_ring(one: &Contour, other: &Contour) -> bool {
    let same = |a: &Vec<Point>, b: &Vec<Point>| {
        a.len() == b.len() && a.iter().zip(b).all(|(p, q)| p.distance(*q) <= TOLERANCE)
    };
    one.len() == other.len()
        && (0..one.len().max(1)).any(|start| {
            one.iter()
                .zip(other.iter().cycle().skip(start))
                .all(|(a, b)| same(a, b))
        })
}

/// What differs between two outlines; `None` if nothing does.
fn outline_difference(ours: &BezPath, theirs: &BezPath) -> Option<String> {
    let (one, other) = (contours(ours), contours(theirs));
    if one.len() != other.len() {
        return Some(format!("{} contours against {}", one.len(), other.len()));
    }
    let differing = one.iter().zip(&other).position(|(a, b)| !same_ring(a, b))?;
    Some(format!(
        "contour {differing} of {}: {} segments against {}, area {:.3} against {:.3}, bounds {:.3?} against {:.3?}",
        one.len(),
        one[differing].len(),
        other[differing].len(),
        ours.area(),
        theirs.area(),
        ours.bounding_box(),
        theirs.bounding_box(),
    ))
}

/// A font at some axis values, as both readers see it.
struct Pair<'a> {
    ours: Font<'a>,
    theirs: FontRef<'a>,
    location: Location,
}

impl<'a> Pair<'a> {
    fn read(font: TestFont, values: &BTreeMap<String, f64>) -> Result<Pair<'a>, String> {
        let theirs = FontRef::from_index(font.bytes, font.index).expect("skrifa reads the font");
        let location = theirs.axes().location(
            values
                .iter()
                .map(|(tag, &value)| (tag.as_str(), value as f32)),
        );
        let ours = Font::parse(font.bytes, font.index, values)
            .map_err(|error| format!("only skrifa reads it: {error}"))?;
        Ok(Pair {
            ours,
            theirs,
            location,
        })
    }

    /// Every glyph whose outline, advance or side bearing differs, with what differs.
    fn differing_glyphs(&self) -> Vec<String> {
        let outlines = self.theirs.outline_glyphs();
        let postscript = matches!(
            outlines.format(),
            Some(OutlineGlyphFormat::Cff | OutlineGlyphFormat::Cff2)
        );
        let enlargement = if postscript { 1.0 } else { ENLARGEMENT };
        let size = Size::new((self.ours.units_per_em() * enlargement) as f32);
        let metrics = self.theirs.glyph_metrics(Size::unscaled(), &self.location);
        let mut found = Vec::new();
        for glyph in 0..self.ours.glyph_count() {
            let mut theirs = Drawn {
                path: BezPath::new(),
                enlargement,
            };
            let drawn = outlines.get(GlyphId::from(glyph)).map(|outline| {
                let settings = DrawSettings::unhinted(size, &self.location)
                    .with_path_style(PathStyle::HarfBuzz);
                outline.draw(settings, &mut theirs)
            });
            let difference = match (self.ours.outline(glyph), drawn) {
                (Ok(ours), Some(Ok(_))) if postscript => {
                    outline_difference(&rounded_down(&ours), &theirs.path)
                }
                (Ok(ours), Some(Ok(_))) => outline_difference(&ours, &theirs.path),
                (Ok(ours), None | Some(Err(_))) => {
                    (!ours.is_empty()).then(|| "only we read an outline".to_owned())
                }
                (Err(error), Some(Ok(_))) => {
                    (!theirs.path.is_empty()).then(|| format!("only skrifa reads it: {error}"))
                }
                (Err(_), None | Some(Err(_))) => None,
            };
            if let Some(difference) = difference {
                found.push(format!("glyph {glyph}: {difference}"));
            }
            let stated = metrics
                .advance_width(GlyphId::from(glyph))
                .map_or(0.0, f64::from);
            let ours = self.ours.advance(glyph);
            if (ours - stated).abs() > 1.0 {
                found.push(format!("glyph {glyph}: advance {ours} against {stated}"));
            }
        }
        found
    }
}

/// The font at its default, and at the ends and in the middle between default and end of each axis, one axis at a time and
/// all together.
fn instances(font: TestFont) -> Vec<BTreeMap<String, f64>> {
    let read = FontRef::from_index(font.bytes, font.index).expect("skrifa reads the font");
    let axes: Vec<(String, [f64; 4])> = read
        .axes()
        .iter()
        .map(|axis| {
            let [least, default, most] =
                [axis.min_value(), axis.default_value(), axis.max_value()].map(f64::from);
            let places = [least, (least + default) / 2.0, (default + most) / 2.0, most];
            (axis.tag().to_string(), places)
        })
        .collect();
    let mut found = vec![BTreeMap::new()];
    for (tag, places) in &axes {
        found.extend(places.map(|value| BTreeMap::from([(tag.clone(), value)])));
    }
    for place in 0..4 {
        found.push(
            axes.iter()
                .map(|(tag, places)| (tag.clone(), places[place]))
                .collect(),
        );
    }
    found.dedup();
    found
}

/// Fails on every difference that is not listed, and on every listed one that is not found.
fn check_glyphs(fonts: Vec<TestFont>) {
    let names: Vec<&str> = fonts.iter().map(|font| font.name).collect();
    let mut faults = Vec::new();
    let mut seen = vec![false; KNOWN_DIFFERENCES.len()];
    let mut glyphs = 0;
    for font in fonts {
        for values in instances(font) {
            let differences = match Pair::read(font, &values) {
                Ok(pair) => {
                    glyphs += usize::from(pair.ours.glyph_count());
                    pair.differing_glyphs()
                }
                Err(difference) => vec![difference],
            };
            for difference in differences {
                let known = KNOWN_DIFFERENCES
                    .iter()
                    .position(|(name, part, _)| *name == font.name && difference.contains(part));
                match known {
                    Some(known) => seen[known] = true,
                    None => faults.push(format!("{font:?} {values:?}, {difference}")),
                }
            }
        }
    }
    for ((name, part, reason), seen) in KNOWN_DIFFERENCES.iter().zip(seen) {
        if names.contains(name) && !seen {
            faults.push(format!("{name}: no longer differs ({part}: {reason})"));
        }
    }
    assert!(glyphs > 0, "no glyph was compared");
    assert!(
        faults.is_empty(),
        "{} of {glyphs} glyphs differ:\n{}",
        faults.len(),
        faults[..faults.len().min(40)].join("\n")
    );
}

#[test]
fn every_glyph_of_the_text_fonts_is_the_same() {
    check_glyphs(fonts::text_fonts());
}

#[test]
fn every_glyph_of_the_difficult_fonts_is_the_same() {
    check_glyphs(fonts::difficult_fonts());
}

#[test]
fn every_glyph_of_the_variable_fonts_is_the_same_all_over_their_axes() {
    check_glyphs(fonts::variable_fonts());
}

#[test]
fn fonts_of_tables_that_we_cannot_read_are_refused_rather_than_drawn_wrong() {
    for font in fonts::newest_fonts() {
        for values in instances(font)
            .into_iter()
            .filter(|values| !values.is_empty())
        {
            let refused = Font::parse(font.bytes, font.index, &values)
                .map(|_| ())
                .map_err(|error| error.to_string());
            assert!(
                refused
                    .as_ref()
                    .is_err_and(|text| text.contains("VARC") || text.contains("avar")),
                "{font:?} {values:?}: {refused:?}"
            );
        }
    }
}

#[test]
fn licence_entries_are_the_same() {
    use skrifa::string::StringId;
    let mut entries = 0;
    for font in [fonts::text_fonts(), fonts::variable_fonts()].concat() {
        let Ok(pair) = Pair::read(font, &BTreeMap::new()) else {
            continue;
        };
        let ours = pair.ours.licence();
        let theirs = |id: StringId| {
            pair.theirs
                .localized_strings(id)
                .english_or_first()
                .map(|text| text.to_string())
        };
        for (ours, theirs) in [
            (ours.copyright, theirs(StringId::COPYRIGHT_NOTICE)),
            (ours.trademark, theirs(StringId::TRADEMARK)),
            (ours.licence, theirs(StringId::LICENSE_DESCRIPTION)),
            (ours.licence_url, theirs(StringId::LICENSE_URL)),
        ] {
            assert_eq!(
                ours.as_deref().map(str::trim),
                theirs.as_deref().map(str::trim),
                "{font:?}"
            );
            entries += usize::from(ours.is_some());
        }
    }
    assert!(entries > 20, "only {entries} entries were compared");
}

#[test]
fn names_heights_and_characters_are_the_same() {
    let mut faults = Vec::new();
    let all = [
        fonts::text_fonts(),
        fonts::difficult_fonts(),
        fonts::variable_fonts(),
    ];
    for font in all.concat() {
        // A font that we refuse is a matter for the test of its glyphs.
        let Ok(pair) = Pair::read(font, &BTreeMap::new()) else {
            continue;
        };
        let metrics = pair.theirs.metrics(Size::unscaled(), &pair.location);
        let heights = pair.ours.heights();
        let mut compare = |what: &str, ours: f64, theirs: f64| {
            if (ours - theirs).abs() > 1e-6 {
                faults.push(format!("{font:?}: {what} {ours} against {theirs}"));
            }
        };
        compare(
            "units per em",
            pair.ours.units_per_em(),
            f64::from(metrics.units_per_em),
        );
        compare(
            "glyphs",
            f64::from(pair.ours.glyph_count()),
            f64::from(metrics.glyph_count),
        );
        compare("ascender", heights.ascender, f64::from(metrics.ascent));
        compare("descender", heights.descender, f64::from(metrics.descent));
        if let Some(capital) = metrics.cap_height.filter(|&height| height > 0.0) {
            compare(
                "capitals",
                heights.capital.unwrap_or(0.0),
                f64::from(capital),
            );
        }
        if let Some(x) = metrics.x_height.filter(|&height| height > 0.0) {
            compare("small letters", heights.x.unwrap_or(0.0), f64::from(x));
        }
        compare(
            "axes",
            pair.ours.axes().len() as f64,
            pair.theirs.axes().len() as f64,
        );
        let step = pair.theirs.charmap().mappings().count() / MOST_CHARACTERS + 1;
        for (code, glyph) in pair.theirs.charmap().mappings().step_by(step) {
            let Some(character) = char::from_u32(code) else {
                continue;
            };
            let ours = pair.ours.glyph_for(character).map(u32::from);
            if ours.unwrap_or(0) != glyph.to_u32() {
                faults.push(format!(
                    "{font:?}: U+{code:04X} is glyph {ours:?} against {glyph}"
                ));
            }
        }
    }
    assert!(
        faults.is_empty(),
        "{} differences:\n{}",
        faults.len(),
        faults[..faults.len().min(40)].join("\n")
    );
}
