//! Letters cut apart, from the order to what the finished programs print: set beside one another, the parts print the letter.

use cam_core::commission::{CutApart, CutLine, LineWay, MiddlePiece};
use cam_core::finding::Severity;
use cam_core::format::{commission_faults, read_record, write_record};
use cam_core::job_file::JobFile;
use cam_core::make::{Job, RECORD_FILE, drawn_up, make};
use cam_core::measure::Length;
use cam_core::progress::Progress;
use cam_core::proof::impression::{Colour, Fount, Setting, compose};
use cam_core::replacement::replacement;
use cam_core::workshop::Workshop;
use geometry::boolean::{symmetric_difference, union_all};
use geometry::region::{Region, region_from_outline};
use kurbo::{Affine, BezPath, Vec2};
use reader::{ReadCourse, read};
use sortwright::background::picture::printed;
use sortwright::background::read_back::job_file;
use std::sync::Arc;
use testkit::{fonts, orders};

/// The finished wall lies up to this far outside the drawn letter: the tolerance of the order.
const TOLERANCE_MM: f64 = 0.01;
/// The middle piece of the tests.
const MIDDLE_MM: f64 = 9.0;

/// A letter of five lines cut apart along these lines, and the one uncut.
fn orders_of(
    letter: &str,
    lines: &[CutLine],
) -> (
    cam_core::commission::Commission,
    cam_core::commission::Commission,
    cam_core::make::Fonts,
) {
    let (whole, fonts) = orders::of_text(fonts::text_font("ubuntu-light"), 5.0, letter);
    let mut cut = whole.clone();
    cut.cut_apart.push(CutApart {
        face: "main".to_owned(),
        glyph: whole.bill[0].glyph.clone(),
        lines: lines.to_vec(),
        counts: None,
    });
    assert_eq!(commission_faults(&cut), []);
    (whole, cut, fonts)
}

fn made(
    commission: &cam_core::commission::Commission,
    fonts: &cam_core::make::Fonts,
) -> (Job, Arc<Fount>) {
    let progress = Progress::new();
    let job = make(commission, &Workshop::starting(), fonts, &progress).expect("it is made");
    let stops: Vec<_> = job
        .findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .collect();
    assert!(stops.is_empty(), "{stops:?}");
    let fount = printed(&job, &progress).expect("it is printed");
    (job, fount)
}

/// The ink of a text set from a fount, from the lower-left corner of its first block.
fn inked(fount: &Arc<Fount>, text: &str) -> Region {
    let black = Colour::new(0, 0, 0);
    let setting = Setting {
        text: text.to_owned(),
        ..Setting::default()
    };
    let sheet = compose(&[(Arc::clone(fount), black)], &setting, black, false);
    let layer = &sheet.layers[0];
    assert!(layer.missing.is_empty(), "{:?}", layer.missing);
    let corner = layer
        .sorts()
        .map(|(_, _, at)| at)
        .reduce(|a, b| kurbo::Point::new(a.x.min(b.x), a.y.min(b.y)));
    let corner = corner.expect("something is set").to_vec2();
    let regions: Vec<Region> = layer
        .sorts()
        .map(|(_, one, at)| moved(&one.inked, at.to_vec2() - corner))
        .collect();
    union_all(&regions)
}

fn moved(region: &Region, by: Vec2) -> Region {
    let mut path = BezPath::new();
    for ring in region.rings() {
        path.move_to(ring[0]);
        ring[1..].iter().for_each(|&point| path.line_to(point));
        path.close_path();
    }
    region_from_outline(&(Affine::translate(by) * path), 0.001).expect("a region")
}

fn perimeter(region: &Region) -> f64 {
    let ends = |ring: &Vec<kurbo::Point>| {
        let next = ring.iter().cycle().skip(1);
        ring.iter()
            .zip(next)
            .map(|(a, b)| a.distance(*b))
            .sum::<f64>()
    };
    region.rings().map(ends).sum()
}

fn upright(at_mm: f64, middle: Option<MiddlePiece>) -> CutLine {
    CutLine {
        way: LineWay::Upright,
        at: Length::mm(at_mm),
        middle,
    }
}

#[test]
fn parts_set_beside_one_another_print_the_letter() {
    let level = CutLine {
        way: LineWay::Level,
        ..upright(12.0, None)
    };
    for (letter, lines) in [
        ("S", vec![upright(4.5, None)]),
        ("R", vec![upright(5.0, None), level]),
    ] {
        let (whole, cut, fonts) = orders_of(letter, &lines);
        let (_, whole) = made(&whole, &fonts);
        let (job, parts) = made(&cut, &fonts);
        assert!(job.sorts.len() > 1 && job.sorts.iter().all(|sort| sort.text.is_empty()));
        let (wanted, found) = (inked(&whole, letter), inked(&parts, letter));
        let off = symmetric_difference(&wanted, &found).area();
        // Walls may lie a tolerance further out on either; where they do is no matter of the letter.
        let most = TOLERANCE_MM * perimeter(&wanted);
        assert!(off < most, "{letter}: {off:.4} mm² of {most:.4}");
        assert!((parts.body_mm() - whole.body_mm()).abs() < 1e-6);
        assert!((parts.baseline_mm() - whole.baseline_mm()).abs() < 1e-6);
    }
}

/// The arcs and the straight feed motions along the wood of all programs.
fn arcs_and_lines(job: &Job) -> [usize; 2] {
    let mut found = [0; 2];
    for program in &job.programs {
        for motion in &read(&program.text).expect("it is read").motions {
            match motion.course {
                ReadCourse::Arc { .. } => found[0] += 1,
                ReadCourse::Line { .. } if motion.from.xy != motion.to.xy => found[1] += 1,
                ReadCourse::Line { .. } | ReadCourse::Rapid => {}
            }
        }
    }
    found
}

#[test]
fn parts_are_drawn_and_cut_with_the_curves_of_the_letter() {
    let (whole, cut, fonts) = orders_of("S", &[upright(4.5, None)]);
    let (whole, _) = made(&whole, &fonts);
    let (parts, _) = made(&cut, &fonts);
    // The edge along which it is cut is straight, so parts have more lines.
    let [of_whole, of_parts] = [&whole, &parts].map(arcs_and_lines);
    let share = |[arcs, lines]: [usize; 2]| arcs as f64 / (arcs + lines) as f64;
    assert!(
        of_parts[0] >= of_whole[0] && share(of_parts) > 0.8 * share(of_whole),
        "{of_parts:?} arcs and lines of the parts, {of_whole:?} of the whole"
    );
    let drawings = parts.files().into_iter();
    let drawings: Vec<_> = drawings
        .filter(|file| file.path.starts_with("parts/"))
        .collect();
    assert_eq!(drawings.len(), 2);
    for file in drawings {
        let text = String::from_utf8(file.bytes).expect("it is text");
        let curves = text.matches(['Q', 'C']).count();
        assert!(curves > 10 && curves < 60, "{}: {curves} curves", file.path);
    }
}

#[test]
fn a_middle_piece_lengthens_the_letter() {
    let middle = MiddlePiece {
        length: Length::mm(MIDDLE_MM),
        count: 1,
    };
    let (whole, cut, fonts) = orders_of("E", &[upright(6.0, Some(middle))]);
    let (_, whole) = made(&whole, &fonts);
    let (job, parts) = made(&cut, &fonts);
    let names: Vec<&str> = job.sorts.iter().map(|sort| sort.name.as_str()).collect();
    assert_eq!(names, ["E part 1", "E part 2", "E middle 1"]);
    let short = inked(&whole, "E");
    let long = inked(&parts, "{E part 1}{E middle 1}{E part 2}");
    let grown = |of: fn(&kurbo::Rect) -> f64| {
        let size = |region: &Region| of(&region.bounding_box().expect("ink"));
        size(&long) - size(&short)
    };
    assert!((grown(kurbo::Rect::width) - MIDDLE_MM).abs() < 2.0 * TOLERANCE_MM);
    assert!(grown(kurbo::Rect::height).abs() < 2.0 * TOLERANCE_MM);
    // Three arms, each longer by the piece.
    let arms: f64 = job.sorts[2].face.area() / MIDDLE_MM;
    let more = long.area() - short.area();
    assert!(
        (more - arms * MIDDLE_MM).abs() < TOLERANCE_MM * perimeter(&long),
        "{more}"
    );

    // The job file names the parts and their files, which lie beside the programs.
    let file: JobFile = job_file(&job).expect("a job file");
    let files: Vec<String> = job.files().into_iter().map(|file| file.path).collect();
    for sort in &file.sorts {
        let art = file
            .art
            .iter()
            .find(|art| Some(&art.id) == sort.art.as_ref());
        let art = art.expect("a part is art of its own");
        assert!(files.contains(&art.file), "{}", art.file);
        assert_eq!(sort.part.as_ref().map(|part| part.text.as_str()), Some("E"));
    }

    // A year later the middle piece alone is ordered again.
    let record = job
        .files()
        .into_iter()
        .find(|file| file.path == RECORD_FILE);
    let text = String::from_utf8(record.expect("a record").bytes).expect("it is text");
    let record = read_record(&text).expect("it is read");
    assert_eq!(write_record(&record), text);
    let again = replacement(&cut, &record, "E middle 1 2, E part 2 1").expect("it has them");
    assert_eq!(commission_faults(&again), []);
    let drawn = drawn_up(&again, &Workshop::starting(), &fonts, &Progress::new());
    let drawn = drawn.expect("drawn up");
    let made: Vec<(&str, u32)> = drawn
        .sorts
        .iter()
        .map(|sort| (sort.name.as_str(), sort.count))
        .collect();
    assert_eq!(made, [("E part 2", 1), ("E middle 1", 2)]);
    let told: Vec<&str> = drawn.findings.iter().map(|finding| finding.kind).collect();
    assert!(
        !told.contains(&"not-as-first-made") && !told.contains(&"setting-changed-since"),
        "{told:?}"
    );
}
