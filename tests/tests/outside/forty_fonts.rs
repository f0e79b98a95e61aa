//! Reach and passes over forty fonts at ten lines, judged by a second font reader and a second geometry library.
//!
//! # Source
//! Outlines: crate `skrifa`. Unions, parallel curves and areas: crate `clipper2-rust`. The gap that a disc leaves in a straight
//! corner: plane geometry, r·(1/sin(a/2) − 1).
//!
//! Every fifth printable character of each font is worked, beginning at another one in each font, so that every character
//! comes up in eight fonts; with `SORTWRIGHT_ALL_GLYPHS=1` in the environment, every character of every font.

use cam_core::commission::{Commission, PlankRules};
use cam_core::finding::Severity;
use cam_core::make::Fonts;
use cam_core::pass::{self, Cut, Entry, SortPasses};
use cam_core::progress::Progress;
use cam_core::sort::{self, Sort};
use cam_core::survey::{self, Survey};
use cam_core::workshop::Workshop;
use geometry::arc_path::{ArcPath, ArcStep};
use geometry::diagram::Diagram;
use geometry::distance::WallIndex;
use kurbo::{Affine, BezPath, PathSeg, Point};
use rayon::prelude::*;
use skrifa::instance::{LocationRef, Size};
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::{FontRef, GlyphId, MetadataProvider};
use testkit::fonts::{self, TestFont, ascii};
use testkit::orders::of_text;
use testkit::referee::{Area, symmetric_difference_mm2};

/// Of so many characters one is worked, unless all are asked for.
const ONE_OF: usize = 5;

/// How far the independent outline's chords lie from its curves at most, mm.
const CHORD_MM: f64 = 0.000_4;

/// How much nearer to the letter than its radius a path may come, mm: the chords of the independent outline.
const NOISE_MM: f64 = CHORD_MM;

/// How far two right edges may lie apart, mm: the chords of both outlines, the referee's round joins twice, chords of reached
/// regions, and the grids.
const EDGE_MM: f64 = 0.004;

/// How far off the closed form a corner's largest radius may be.
const CORNER_PART: f64 = 0.02;

/// Collects drawn elements in font units.
struct Pen(BezPath);

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((x, y));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((x, y));
    }
    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.0.quad_to((cx, cy), (x, y));
    }
    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        self.0.curve_to((ax, ay), (bx, by), (x, y));
    }
    fn close(&mut self) {
        self.0.close_path();
    }
}

/// A sort's letter as the second reader draws it, in face space.
fn drawn_apart(font: TestFont, sort: &Sort) -> BezPath {
    let source = sort.source.as_ref().expect("a letter has its source");
    let read = FontRef::from_index(font.bytes, font.index).expect("skrifa reads the font");
    let outline = read
        .outline_glyphs()
        .get(GlyphId::from(source.glyph))
        .expect("skrifa has the glyph");
    let mut pen = Pen(BezPath::new());
    outline
        .draw(
            DrawSettings::unhinted(Size::unscaled(), LocationRef::default()),
            &mut pen,
        )
        .expect("skrifa draws the glyph");
    source.face_from_em * pen.0
}

/// Whether a letter is drawn with parts of font units. The second reader rounds PostScript outlines down to whole units, so
/// such a letter is judged by the first reader's drawing; that the two are the same but for the rounding is tested elsewhere.
fn has_fractions(sort: &Sort) -> bool {
    let source = sort.source.as_ref().expect("a letter has its source");
    let in_units = source.face_from_em.inverse() * sort.outline.clone();
    let is_whole = |at: Point| (at.x - at.x.round()).hypot(at.y - at.y.round()) < 1e-3;
    !in_units.segments().all(|segment| match segment {
        PathSeg::Line(line) => is_whole(line.p0) && is_whole(line.p1),
        // Control points of TrueType lie between whole units where a reader splits a curve in halves; both readers do.
        PathSeg::Quad(_) => true,
        PathSeg::Cubic(cubic) => [cubic.p0, cubic.p1, cubic.p2, cubic.p3]
            .into_iter()
            .all(is_whole),
    })
}

/// One of each letter, at ten lines, in lanes narrower than the largest cutter, so that their far side is a wall as well.
fn in_narrow_lanes(font: TestFont, text: &str) -> (Commission, Fonts) {
    let (mut commission, fonts) = of_text(font, 10.0, text);
    commission.planks.lane = PlankRules::starting_lane(false);
    (commission, fonts)
}

/// A letter with everything that is judged about it.
struct Worked<'a> {
    name: String,
    sort: &'a Sort,
    ground: Diagram,
    survey: Survey,
    passes: Vec<SortPasses>,
    drawn: BezPath,
    letter: Area,
    walls: WallIndex,
}

fn worked<'a>(
    font: TestFont,
    sort: &'a Sort,
    commission: &Commission,
    workshop: &Workshop,
) -> Result<Worked<'a>, String> {
    let name = format!("{} {}", font.name, sort.name);
    let at = |what: &str, error: String| format!("{name}: {what}: {error}");
    let ground = survey::ground(sort, commission.planks.lane)
        .map_err(|error| at("no ground", error.to_string()))?;
    let (survey, mut findings) = survey::survey(sort, &ground, commission, workshop);
    let (passes, found) = pass::plan(sort, &ground, commission, workshop)
        .map_err(|error| at("no passes", error.to_string()))?;
    findings.extend(found);
    if let Some(stop) = findings
        .iter()
        .find(|found| found.severity == Severity::Stop)
    {
        return Err(at("stopped", stop.text.to_string()));
    }
    let drawn = if has_fractions(sort) {
        sort.outline.clone()
    } else {
        drawn_apart(font, sort)
    };
    let letter = Area::drawn(&drawn, CHORD_MM);
    let walls = WallIndex::new(&letter.rings());
    Ok(Worked {
        name,
        sort,
        ground,
        survey,
        passes,
        drawn,
        letter,
        walls,
    })
}

impl Worked<'_> {
    fn faults(&self, workshop: &Workshop) -> Vec<String> {
        let mut faults = self.cuts_in_the_letter(workshop);
        faults.extend(self.reach_against_the_referee(workshop));
        faults.extend(self.corners_against_the_closed_form());
        faults
    }

    /// Every path of a cutter, its ways down and its links keep the cutter's radius from the letter.
    fn cuts_in_the_letter(&self, workshop: &Workshop) -> Vec<String> {
        let mut faults = Vec::new();
        for passes in &self.passes {
            let cutter = workshop
                .cutter(&passes.cutter)
                .expect("a cutter of the workshop");
            let radius = cutter.radius_mm();
            let mut here: Option<Point> = None;
            for cut in &passes.cuts {
                for path in paths_of(cut, here) {
                    let near = self.nearest(&path, radius);
                    if near < radius - NOISE_MM {
                        faults.push(format!(
                            "{}: {} comes within {near:.4} mm of the letter near {:.2}, {:.2}",
                            self.name, passes.cutter, path.start.x, path.start.y
                        ));
                    }
                }
                here = Some(cut.path.end());
            }
        }
        faults
    }

    fn nearest(&self, path: &ArcPath, cutoff: f64) -> f64 {
        let inside = if self.walls.contains(path.start) {
            0.0
        } else {
            cutoff
        };
        path.from_and_steps()
            .map(|(from, step)| match *step {
                ArcStep::Line { to } => self.walls.nearest_to_line(from, to, cutoff),
                ArcStep::Arc { to, centre, turn } => {
                    self.walls.nearest_to_arc(from, to, centre, turn, cutoff)
                }
            })
            .fold(inside, f64::min)
    }

    /// What each cutter reaches of the block is what the referee says, and together with what is left makes the ground.
    fn reach_against_the_referee(&self, workshop: &Workshop) -> Vec<String> {
        let mut faults = Vec::new();
        let block = Area::of_rings([self.sort.block.outline.as_slice()]);
        let ground = Area::of_rings([self.ground.room().as_slice()]).without(&self.letter);
        let on_block = ground.intersection(&block);
        for cutter in &self.survey.cutters {
            let radius = workshop
                .cutter(&cutter.cutter)
                .expect("a cutter")
                .radius_mm();
            let name = format!("{}, {}", self.name, cutter.cutter);
            let opened = |slack: f64| {
                let radius = radius - sort::FLATTENING_MM + slack;
                ground.opened(radius).intersection(&block)
            };
            let found = Area::of(&cutter.reached);
            let expected = opened(0.0);
            let allowed = expected.perimeter_mm() * EDGE_MM;
            let apart = symmetric_difference_mm2(&expected, &found);
            // Ground exactly as wide as the cutter may go either way: then what is surely reached and what surely is not decide.
            let is_tie = || {
                let beyond = found.without(&opened(-EDGE_MM)).square_mm();
                beyond + opened(EDGE_MM).without(&found).square_mm() <= allowed
            };
            if apart > allowed && !is_tie() {
                faults.push(format!(
                    "{name}: reach differs by {apart:.4} mm², allowed {allowed:.4}"
                ));
            }
            let missing = on_block.square_mm() - cutter.reached_mm2 - cutter.left_mm2;
            // What is left no deeper than half a hundredth along a wall is not counted.
            let allowed = on_block.perimeter_mm() * (EDGE_MM + 0.005);
            if missing.abs() > allowed {
                faults.push(format!(
                    "{name}: {missing:.4} mm² neither reached nor left, allowed {allowed:.4}"
                ));
            }
        }
        faults
    }

    /// In a corner between straight walls the largest disc within the tolerance has the radius of the closed form.
    fn corners_against_the_closed_form(&self) -> Vec<String> {
        const TOLERANCE_MM: f64 = 0.2;
        let mut faults = Vec::new();
        let room = WallIndex::new([self.ground.room()]);
        for corner in self.ground.corners(TOLERANCE_MM) {
            let Some((into, out)) = self.straight_walls_at(corner.at) else {
                continue;
            };
            let turn = into.cross(out).atan2(into.dot(out)).abs();
            let angle = std::f64::consts::PI - turn;
            let radius = TOLERANCE_MM / (1.0 / (angle / 2.0).sin() - 1.0);
            let foot = radius / (angle / 2.0).tan();
            let bisector = out / out.hypot() - into / into.hypot();
            let centre = corner.at + bisector * ((radius + TOLERANCE_MM) / bisector.hypot());
            let fits = into.hypot().min(out.hypot()) > foot + 0.01
                && !self.walls.contains(centre)
                && self.walls.nearest(centre) > radius - 0.001
                && room.nearest(centre) > radius;
            if fits && (corner.largest_radius / radius - 1.0).abs() > CORNER_PART {
                faults.push(format!(
                    "{}: corner of {:.1}° at {:.2}, {:.2}: radius {:.4} against {radius:.4}",
                    self.name,
                    angle.to_degrees(),
                    corner.at.x,
                    corner.at.y,
                    corner.largest_radius
                ));
            }
        }
        faults
    }

    /// The two drawn straight walls that meet at a place: into it and out of it.
    fn straight_walls_at(&self, place: Point) -> Option<(kurbo::Vec2, kurbo::Vec2)> {
        let lines = || {
            self.drawn.segments().filter_map(|segment| match segment {
                PathSeg::Line(line) => Some(line),
                PathSeg::Quad(_) | PathSeg::Cubic(_) => None,
            })
        };
        let near = |at: Point| at.distance(place) < 0.001;
        let into = lines().find(|line| near(line.p1) && !near(line.p0))?;
        let out = lines().find(|line| near(line.p0) && !near(line.p1))?;
        Some((into.p1 - into.p0, out.p1 - out.p0))
    }
}

/// All that the cutter's centre runs along in the wood for a cut.
fn paths_of(cut: &Cut, here: Option<Point>) -> Vec<ArcPath> {
    let mut paths = vec![cut.path.clone()];
    match (&cut.entry, here) {
        (Entry::StayDown, Some(from)) => paths.push(ArcPath::line(from, cut.path.start)),
        (Entry::Ramp { path, .. }, _) => paths.push(path.clone()),
        (Entry::StayDown | Entry::Open | Entry::Plunge, _) => {}
    }
    paths
}

/// The characters of a font to be worked.
fn characters(number: usize) -> String {
    let all = std::env::var("SORTWRIGHT_ALL_GLYPHS").is_ok_and(|value| value == "1");
    let one_of = if all { 1 } else { ONE_OF };
    ascii().skip(number % one_of).step_by(one_of).collect()
}

/// The number of letters worked, and what is wrong with them.
fn judged(number: usize, font: TestFont) -> (usize, Vec<String>) {
    let text = characters(number);
    let (commission, fonts) = in_narrow_lanes(font, &text);
    let workshop = Workshop::starting();
    let drawn = match sort::draw_up(&commission, &fonts, &Progress::new()) {
        Ok(drawn) => drawn,
        Err(error) => return (0, vec![format!("{font:?}: {error}")]),
    };
    let mut faults: Vec<String> = drawn
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .map(|finding| format!("{font:?}: {}", finding.text))
        .collect();
    if drawn.sorts.len() != text.chars().count() {
        faults.push(format!("{font:?}: {} of {text}", drawn.sorts.len()));
    }
    for sort in &drawn.sorts {
        match worked(font, sort, &commission, &workshop) {
            Ok(worked) => faults.extend(worked.faults(&workshop)),
            Err(fault) => faults.push(fault),
        }
    }
    (drawn.sorts.len(), faults)
}

#[test]
fn no_letter_of_forty_fonts_is_cut_or_fails() {
    let fonts = fonts::forty_fonts();
    assert_eq!(fonts.len(), 40);
    let judged: Vec<(usize, Vec<String>)> = fonts
        .into_par_iter()
        .enumerate()
        .map(|(number, font)| judged(number, font))
        .collect();
    let letters: usize = judged.iter().map(|one| one.0).sum();
    let faults: Vec<String> = judged.into_iter().flat_map(|one| one.1).collect();
    assert!(letters >= 40 * 18, "only {letters} letters were worked");
    assert!(
        faults.is_empty(),
        "{} faults on {letters} letters:\n{}",
        faults.len(),
        faults[..faults.len().min(40)].join("\n")
    );
}

#[test]
fn a_path_too_near_and_a_wrong_reach_are_seen() {
    // A comparison that could not fail would prove nothing: a letter moved by a hundredth of a millimetre must be seen.
    let font = fonts::text_font("libertinus-serif");
    let (commission, fonts) = in_narrow_lanes(font, "E");
    let workshop = Workshop::starting();
    let drawn = sort::draw_up(&commission, &fonts, &Progress::new()).expect("a sound font");
    let mut worked =
        worked(font, &drawn.sorts[0], &commission, &workshop).expect("a letter that works");
    assert_eq!(worked.faults(&workshop), Vec::<String>::new());
    worked.drawn = Affine::translate((0.012, 0.0)) * worked.drawn;
    worked.letter = Area::drawn(&worked.drawn, CHORD_MM);
    worked.walls = WallIndex::new(&worked.letter.rings());
    assert!(!worked.cuts_in_the_letter(&workshop).is_empty());
    assert!(!worked.reach_against_the_referee(&workshop).is_empty());
}
