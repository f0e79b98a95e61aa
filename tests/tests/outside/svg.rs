//! SVG files against the parser's own picture of them: area, and the symmetric difference dot by dot.
//!
//! # Source
//! The library `resvg` draws each file by itself; the files are our own, 256 of them, of every feature that is read: shapes, paths, fill rules,
//! strokes with joins, caps and dashes, transforms, clips, `use`, nested files, units, styles, markers, white over black.
#![expect(
    clippy::print_stdout,
    reason = "the differences are what the test is run for"
)]

use drawing::Outline;
use kurbo::{Affine, BezPath, PathEl, Shape};
use resvg::{tiny_skia, usvg};

/// Dots along the page's larger side.
const DOTS: f32 = 900.0;
/// How far areas may differ, in dots for each dot of the outline's length: the picture's curves are chords, and its edges sixteenths of a dot.
const AREA: f64 = 0.06;
/// How much may be inked in one picture and not in the other, in dots for each dot of the outline's length.
const DIFFERENCE: f64 = 0.15;
/// The same for dashes along curves: the picture's library measures curves more roughly, so its dashes drift and one may be lost at the end.
const DASHED: f64 = 0.26;
/// A few dots for rounding, whatever the length.
const SOME: f64 = 6.0;

/// Numbers that look random; the same every time.
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / (1_u64 << 31) as f64
    }

    fn between(&mut self, least: f64, most: f64) -> String {
        format!("{:.3}", least + (most - least) * self.roll())
    }

    fn one<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[((self.roll() * of.len() as f64) as usize).min(of.len() - 1)]
    }
}

fn page(attributes: &str, inside: &str) -> String {
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" {attributes}>{inside}</svg>"
    )
}

fn plain(inside: &str) -> String {
    page(
        "width=\"100mm\" height=\"100mm\" viewBox=\"0 0 100 100\"",
        inside,
    )
}

/// A shape of any kind, with these attributes.
fn shape(dice: &mut Dice, attributes: &str) -> String {
    let mut n = |least, most| dice.between(least, most);
    let (x, y, w, h) = (n(5.0, 55.0), n(5.0, 55.0), n(10.0, 40.0), n(10.0, 40.0));
    let (a, b, c, d) = (n(10.0, 90.0), n(10.0, 90.0), n(10.0, 90.0), n(10.0, 90.0));
    let (e, f, r, turn) = (n(10.0, 90.0), n(10.0, 90.0), n(2.0, 12.0), n(0.0, 90.0));
    match dice.one(&[
        "rect", "round", "circle", "ellipse", "polygon", "star", "cubic", "quad", "arc", "smooth",
    ]) {
        "rect" => format!("<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" {attributes}/>"),
        "round" => format!(
            "<rect x=\"{x}\" y=\"{y}\" width=\"{w}\" height=\"{h}\" rx=\"{r}\" ry=\"4\" {attributes}/>"
        ),
        "circle" => format!("<circle cx=\"{a}\" cy=\"{b}\" r=\"{r}\" {attributes}/>"),
        "ellipse" => format!("<ellipse cx=\"50\" cy=\"50\" rx=\"{w}\" ry=\"{r}\" {attributes}/>"),
        "polygon" => format!("<polygon points=\"{x},{y} {a},{b} {c},{d}\" {attributes}/>"),
        "star" => format!("<path d=\"M50 8L76 90 8 38h84L24 90z\" {attributes}/>"),
        "cubic" => format!("<path d=\"M{x} {y}C{a} {b} {c} {d} {e} {f}z\" {attributes}/>"),
        "quad" => format!("<path d=\"M{x} {y}Q{a} {b} {c} {d}T{e} {f}\" {attributes}/>"),
        "arc" => format!("<path d=\"M30 50A{w} {r} {turn} 1 0 70 55L50 80z\" {attributes}/>"),
        _ => format!(
            "<path d=\"m20 20c10-15 25 5 30 10s{r} 20 20 20 5 15-10 25l-30 5z\" {attributes}/>"
        ),
    }
}

fn transform(dice: &mut Dice) -> String {
    match dice.one(&["rotate", "skew", "scale", "matrix", "both"]) {
        "rotate" => format!("rotate({} 50 50)", dice.between(-80.0, 80.0)),
        "skew" => format!("translate(-6 4) skewX({})", dice.between(-20.0, 20.0)),
        "scale" => format!(
            "translate(20 15) scale({} {})",
            dice.between(0.4, 0.8),
            dice.between(0.4, 0.8)
        ),
        "matrix" => format!("matrix(.7 {} -.3 .6 30 10)", dice.between(0.1, 0.4)),
        _ => format!(
            "translate(50 50) rotate({}) scale(-.6 .8) translate(-50 -50)",
            dice.between(0.0, 360.0)
        ),
    }
}

/// Every kind of stroke on every kind of line.
fn strokes() -> Vec<String> {
    let lines = [
        "M15 20L60 25 30 45 80 60 75 88",
        "M15 80C20 10 70 10 60 50S30 90 85 80",
        "M50 15L85 80 15 80Z",
        "M20 50A30 20 10 1 1 75 60M15 12h60",
    ];
    let mut files = Vec::new();
    for line in lines {
        for join in ["miter", "round", "bevel"] {
            for cap in ["butt", "round", "square"] {
                files.push(plain(&format!("<path d=\"{line}\" fill=\"none\" stroke=\"#000\" stroke-width=\"7\" stroke-linejoin=\"{join}\" stroke-linecap=\"{cap}\" stroke-miterlimit=\"3\"/>")));
            }
        }
        for dashes in ["9 5", "3", "12 4 2 4"] {
            for cap in ["butt", "round"] {
                files.push(plain(&format!("<path d=\"{line}\" fill=\"none\" stroke=\"#000\" stroke-width=\"3\" stroke-dasharray=\"{dashes}\" stroke-dashoffset=\"2.5\" stroke-linecap=\"{cap}\"/>")));
            }
        }
    }
    files
}

/// One file for each thing that needs one of its own.
fn particular() -> Vec<String> {
    let star = "<path d=\"M50 8L76 90 8 38h84L24 90z\"";
    vec![
        plain(&format!("{star} fill-rule=\"evenodd\"/>")),
        plain(&format!("{star} fill-rule=\"nonzero\"/>")),
        plain(&format!(
            "{star} fill-rule=\"evenodd\" stroke=\"#000\" stroke-width=\"2.5\"/>"
        )),
        plain(
            "<path fill-rule=\"evenodd\" d=\"M10 10h80v80h-80zM30 30h40v40h-40zM45 45v10h10v-10z\"/>",
        ),
        plain(
            "<rect width=\"100\" height=\"100\"/><circle cx=\"50\" cy=\"50\" r=\"30\" fill=\"#fff\"/><rect x=\"40\" y=\"20\" width=\"20\" height=\"60\"/>",
        ),
        plain(
            "<rect x=\"10\" y=\"10\" width=\"80\" height=\"80\"/><path d=\"M20 20L80 80\" stroke=\"white\" stroke-width=\"8\" stroke-linecap=\"round\"/>",
        ),
        plain("<circle cx=\"50\" cy=\"50\" r=\"30\" stroke=\"white\" stroke-width=\"12\"/>"),
        plain(
            "<circle cx=\"50\" cy=\"50\" r=\"30\" stroke=\"white\" stroke-width=\"12\" paint-order=\"stroke\"/>",
        ),
        plain(
            "<g fill=\"none\" stroke=\"#000\" stroke-width=\"6\"><rect x=\"20\" y=\"20\" width=\"50\" height=\"60\" rx=\"10\"/><line x1=\"5\" y1=\"5\" x2=\"95\" y2=\"50\"/><polyline points=\"10,90 40,60 60,95 90,70\"/></g>",
        ),
        plain(
            "<style>.a{stroke:#000;stroke-width:4;fill:none} #b{fill:black} .c{display:none}</style><rect class=\"a\" x=\"10\" y=\"10\" width=\"30\" height=\"30\"/><rect id=\"b\" x=\"50\" y=\"50\" width=\"30\" height=\"30\"/><rect class=\"c\" width=\"100\" height=\"100\"/>",
        ),
        plain(
            "<g style=\"fill:white\"><g style=\"fill:#000\"><rect x=\"20\" y=\"20\" width=\"30\" height=\"30\"/></g><rect x=\"40\" y=\"40\" width=\"30\" height=\"30\"/></g>",
        ),
        plain(
            "<g color=\"#000\"><rect fill=\"currentColor\" x=\"20\" y=\"20\" width=\"30\" height=\"30\"/></g><rect visibility=\"hidden\" width=\"90\" height=\"90\"/>",
        ),
        plain(
            "<defs><g id=\"u\"><rect width=\"10\" height=\"20\"/><circle cx=\"20\" cy=\"10\" r=\"6\"/></g></defs><use xlink:href=\"#u\" x=\"10\" y=\"10\"/><use href=\"#u\" transform=\"translate(60 40) rotate(30) scale(1.5 .7)\"/>",
        ),
        plain(
            "<symbol id=\"s\" viewBox=\"0 0 10 10\"><circle cx=\"5\" cy=\"5\" r=\"7\"/></symbol><use href=\"#s\" x=\"20\" y=\"20\" width=\"40\" height=\"30\"/>",
        ),
        plain(
            "<svg x=\"20\" y=\"10\" width=\"40\" height=\"60\" viewBox=\"0 0 10 10\"><rect width=\"10\" height=\"10\" rx=\"3\"/></svg>",
        ),
        plain(
            "<svg x=\"20\" y=\"10\" width=\"40\" height=\"60\" viewBox=\"0 0 10 10\" preserveAspectRatio=\"xMaxYMax slice\"><circle cx=\"5\" cy=\"5\" r=\"5\"/></svg>",
        ),
        plain(
            "<clipPath id=\"c\"><circle cx=\"50\" cy=\"50\" r=\"30\"/><rect width=\"30\" height=\"30\"/></clipPath><rect x=\"5\" y=\"5\" width=\"80\" height=\"60\" clip-path=\"url(#c)\"/>",
        ),
        plain(
            "<clipPath id=\"c\"><path clip-rule=\"evenodd\" d=\"M50 8L76 90 8 38h84L24 90z\"/></clipPath><g clip-path=\"url(#c)\" transform=\"rotate(20 50 50)\"><rect x=\"5\" y=\"15\" width=\"90\" height=\"60\"/></g>",
        ),
        plain(
            "<clipPath id=\"i\"><rect x=\"20\" y=\"20\" width=\"40\" height=\"60\"/></clipPath><clipPath id=\"c\" clip-path=\"url(#i)\"><circle cx=\"50\" cy=\"50\" r=\"30\"/></clipPath><rect width=\"99\" height=\"99\" clip-path=\"url(#c)\"/>",
        ),
        plain(
            "<clipPath id=\"c\" clipPathUnits=\"objectBoundingBox\"><circle cx=\".5\" cy=\".5\" r=\".5\"/></clipPath><rect x=\"10\" y=\"30\" width=\"80\" height=\"40\" clip-path=\"url(#c)\"/>",
        ),
        plain(
            "<clipPath id=\"i\"><circle cx=\"40\" cy=\"50\" r=\"20\"/></clipPath><clipPath id=\"c\"><rect x=\"10\" y=\"10\" width=\"60\" height=\"60\" clip-path=\"url(#i)\"/></clipPath><g clip-path=\"url(#c)\"><path d=\"M0 0h99v99z\"/><path d=\"M10 60h60\" stroke=\"#000\" stroke-width=\"9\"/></g>",
        ),
        plain(
            "<clipPath id=\"c\" transform=\"rotate(30 50 50) scale(.9)\"><rect x=\"20\" y=\"20\" width=\"60\" height=\"50\"/></clipPath><circle cx=\"50\" cy=\"50\" r=\"40\" clip-path=\"url(#c)\" transform=\"skewX(10)\"/>",
        ),
        plain(
            "<marker id=\"m\" markerWidth=\"6\" markerHeight=\"6\" refX=\"3\" refY=\"3\" orient=\"auto\"><path d=\"M0 0L6 3 0 6z\"/></marker><path d=\"M15 20L60 25 30 75 80 80\" fill=\"none\" stroke=\"#000\" stroke-width=\"3\" marker-end=\"url(#m)\" marker-mid=\"url(#m)\"/>",
        ),
        plain(
            "<g transform=\"scale(1 2.5)\"><circle cx=\"50\" cy=\"20\" r=\"12\" fill=\"none\" stroke=\"#000\" stroke-width=\"5\"/></g>",
        ),
        plain(
            "<g transform=\"skewX(30) translate(-30 0)\"><path d=\"M30 20h40v50\" fill=\"none\" stroke=\"#000\" stroke-width=\"8\" stroke-linecap=\"round\" stroke-linejoin=\"round\"/></g>",
        ),
        plain(
            "<switch><rect x=\"10\" y=\"10\" width=\"50\" height=\"40\"/><rect width=\"90\" height=\"90\"/></switch>",
        ),
        plain(
            "<path d=\"M-20 50h140\" stroke=\"#000\" stroke-width=\"20\"/><circle cx=\"100\" cy=\"100\" r=\"30\"/>",
        ),
        plain(
            "<path d=\"M20 20h0\" stroke=\"#000\" stroke-width=\"20\" stroke-linecap=\"round\"/><path d=\"M60 60h0\" stroke=\"#000\" stroke-width=\"20\" stroke-linecap=\"square\"/><rect x=\"70\" y=\"10\" width=\"9\" height=\"9\"/>",
        ),
        page(
            "width=\"3in\" height=\"50mm\" viewBox=\"-10 -20 60 40\"",
            "<circle cx=\"20\" cy=\"0\" r=\"15\"/>",
        ),
        page(
            "width=\"3in\" height=\"50mm\" viewBox=\"-10 -20 60 40\" preserveAspectRatio=\"none\"",
            "<circle cx=\"20\" cy=\"0\" r=\"15\"/>",
        ),
        page(
            "width=\"90pt\" height=\"9pc\" viewBox=\"0 0 30 30\" preserveAspectRatio=\"xMinYMax slice\"",
            "<circle cx=\"15\" cy=\"15\" r=\"12\" fill=\"none\" stroke=\"#000\" stroke-width=\"3\"/>",
        ),
        page(
            "width=\"200\" height=\"120\"",
            "<rect x=\"1cm\" y=\"10%\" width=\"50%\" height=\"2em\"/>",
        ),
        page("viewBox=\"0 0 64 48\"", "<path d=\"M4 4h56L32 44z\"/>"),
        page(
            "width=\"60mm\" viewBox=\"0 0 64 48\"",
            "<path d=\"M4 4h56L32 44z\" stroke=\"#000\" stroke-width=\"3\" stroke-linejoin=\"round\"/>",
        ),
    ]
}

/// Scenes thrown together.
fn scenes(count: u64) -> Vec<String> {
    (0..count)
        .map(|number| {
            let mut dice = Dice(number + 1);
            let mut inside = String::new();
            let shapes = 1 + (dice.roll() * 5.0) as usize;
            for place in 0..shapes {
                let ink = if place > 0 && dice.roll() < 0.3 { "#fff" } else { "#000" };
                let rule = dice.one(&["nonzero", "evenodd"]);
                let paint = match dice.one(&["fill", "stroke", "both"]) {
                    "fill" => format!("fill=\"{ink}\" fill-rule=\"{rule}\""),
                    "stroke" => format!(
                        "fill=\"none\" stroke=\"{ink}\" stroke-width=\"{}\" stroke-linejoin=\"{}\" stroke-linecap=\"{}\"",
                        dice.between(1.5, 9.0),
                        dice.one(&["miter", "round", "bevel"]),
                        dice.one(&["butt", "round", "square"])
                    ),
                    _ => format!("fill=\"{ink}\" stroke=\"{ink}\" stroke-width=\"{}\"", dice.between(1.5, 6.0)),
                };
                let drawn = shape(&mut dice, &paint);
                inside += &match dice.one(&["bare", "group", "clip"]) {
                    "bare" => drawn,
                    "group" => format!("<g transform=\"{}\">{drawn}</g>", transform(&mut dice)),
                    _ => {
                        let clip = shape(&mut dice, "");
                        format!("<clipPath id=\"c{place}\">{clip}</clipPath><g clip-path=\"url(#c{place})\" transform=\"{}\">{drawn}</g>", transform(&mut dice))
                    }
                };
            }
            plain(&inside)
        })
        .collect()
}

fn skia(path: &BezPath) -> Option<tiny_skia::Path> {
    let mut builder = tiny_skia::PathBuilder::new();
    let f = |value: f64| value as f32;
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => builder.move_to(f(p.x), f(p.y)),
            PathEl::LineTo(p) => builder.line_to(f(p.x), f(p.y)),
            PathEl::QuadTo(a, p) => builder.quad_to(f(a.x), f(a.y), f(p.x), f(p.y)),
            PathEl::CurveTo(a, b, p) => {
                builder.cubic_to(f(a.x), f(a.y), f(b.x), f(b.y), f(p.x), f(p.y))
            }
            PathEl::ClosePath => builder.close(),
        }
    }
    builder.finish()
}

/// What a file comes to beside the library's picture.
struct Compared {
    /// Inked dots of the picture, by the outline's own area, and in one alone.
    theirs: f64,
    ours: f64,
    different: f64,
    length: f64,
}

fn compared(file: &str) -> Result<Compared, String> {
    let tree =
        usvg::Tree::from_str(file, &usvg::Options::default()).map_err(|error| error.to_string())?;
    let scale = DOTS / tree.size().width().max(tree.size().height());
    let size = [tree.size().width(), tree.size().height()].map(|side| (side * scale).ceil() as u32);
    let mut picture = tiny_skia::Pixmap::new(size[0], size[1]).ok_or("no size")?;
    picture.fill(tiny_skia::Color::WHITE);
    resvg::render(
        &tree,
        tiny_skia::Transform::from_scale(scale, scale),
        &mut picture.as_mut(),
    );
    let inked: Vec<f64> = picture
        .pixels()
        .iter()
        .map(|dot| 1.0 - f64::from(dot.green()) / 255.0)
        .collect();
    let theirs: f64 = inked.iter().sum();
    let drawing = match drawing::svg::read(file.as_bytes()) {
        Ok(drawing) => drawing,
        Err(drawing::DrawingError::Nothing) => {
            return Ok(Compared {
                theirs,
                ours: 0.0,
                different: theirs,
                length: 0.0,
            });
        }
        Err(error) => return Err(error.to_string()),
    };
    let page = drawing.page.ok_or("no page")?;
    let dots = f64::from(DOTS) / page.width.max(page.height);
    let dots_from_mm = Affine::new([dots, 0.0, 0.0, -dots, 0.0, page.height * dots]);
    let outline: Outline = drawing.whole.transformed(dots_from_mm);
    let nonzero = outline.nonzero().map_err(|error| error.to_string())?;
    let mut mask = tiny_skia::Mask::new(size[0], size[1]).ok_or("no size")?;
    let path = skia(&nonzero).ok_or("no path")?;
    mask.fill_path(
        &path,
        tiny_skia::FillRule::Winding,
        true,
        tiny_skia::Transform::identity(),
    );
    let different = mask
        .data()
        .iter()
        .zip(&inked)
        .map(|(&ours, theirs)| (f64::from(ours) / 255.0 - theirs).abs())
        .sum();
    // As a region, so that overlaps count once; a third of a dot to a millimetre keeps it within what regions take.
    let third = outline.transformed(Affine::scale(1.0 / 3.0));
    let ours = third
        .region(0.001)
        .map_err(|error| error.to_string())?
        .area()
        * 9.0;
    Ok(Compared {
        theirs,
        ours,
        different,
        length: nonzero.perimeter(0.5),
    })
}

#[test]
fn outlines_cover_what_the_library_s_own_picture_inks() {
    let mut files = particular();
    files.extend(strokes());
    let left = 256 - files.len() as u64;
    files.extend(scenes(left));
    assert!(files.len() >= 200);
    let mut faults = Vec::new();
    let (mut worst_area, mut worst_different, mut part) = (0.0_f64, 0.0_f64, 0.0_f64);
    let mut empty = 0;
    for file in &files {
        let found = match compared(file) {
            Ok(found) => found,
            Err(error) => {
                faults.push(format!("{error}\n{file}"));
                continue;
            }
        };
        if found.length == 0.0 {
            empty += 1;
        }
        let apart = (found.theirs - found.ours).abs();
        let is_dashed = file.contains("dasharray") && file.contains("stroke-dashoffset");
        let (area, difference) = if is_dashed {
            (DASHED, DASHED)
        } else {
            (AREA, DIFFERENCE)
        };
        if apart > area * found.length + SOME || found.different > difference * found.length + SOME
        {
            faults.push(format!(
                "area {:.1} for {:.1}, different {:.1}, length {:.0}\n{file}",
                found.ours, found.theirs, found.different, found.length
            ));
        } else if found.length > 0.0 && !is_dashed {
            worst_area = worst_area.max(apart / found.length);
            worst_different = worst_different.max(found.different / found.length);
            part = part.max(apart / found.theirs);
        }
    }
    println!(
        "{} files, {empty} of them blank; dashed curves aside, areas differ by at most {worst_area:.4} dots a dot of length ({:.3} % of the area), pictures by {worst_different:.4}",
        files.len(),
        part * 100.0
    );
    assert!(
        faults.is_empty(),
        "{} faults\n{}",
        faults.len(),
        faults.join("\n")
    );
    assert!(empty < 20);
}
