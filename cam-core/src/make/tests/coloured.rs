//! Letters in colours made whole: layers on blocks alike, proven, printed over one another, and made again plate by plate.

use geometry::boolean::{difference, intersection, union};

use super::*;
use crate::commission::{ColourRules, Plate, PlateSource, Separation};
use crate::finding::Severity;
use crate::job_file::JobFile;
use crate::measure::Length;
use crate::proof::check;
use crate::proof::impression::fount;
use crate::record::Record;
use crate::replacement::replacement;

const TRAP_MM: f64 = 0.3;

fn plate(name: &str, ink: &str, source: PlateSource) -> Plate {
    Plate {
        name: name.to_owned(),
        ink: ink.to_owned(),
        source,
        overprinted: false,
    }
}

/// L and I with a shadow, cut by a small cutter alone and sawn apart.
fn in_two_colours() -> (Commission, Fonts) {
    let (mut commission, fonts) = super::order("LI", 5.0, &[]);
    commission.cutting.cutters = ["flat-3", "flat-1.5"].map(str::to_owned).to_vec();
    commission.planks.separation = Separation::Saw;
    commission.colours = Some(ColourRules {
        plates: vec![
            plate(
                "shade",
                "yellow",
                PlateSource::Shadow {
                    angle_deg: -45.0,
                    length: Length::mm(2.5),
                    gap: Length::mm(0.0),
                },
            ),
            plate("face", "#102030", PlateSource::Letter),
        ],
        trap: Length::mm(TRAP_MM),
        ..ColourRules::starting()
    });
    (commission, fonts)
}

fn job_of(job: &Job) -> JobFile {
    let file = job.papers.iter().find(|file| file.path == JOB_FILE);
    let text = String::from_utf8(file.expect("written").bytes.clone()).expect("UTF-8");
    JobFile::from_json(&text).expect("reads back")
}

fn texts(job: &Job) -> BTreeMap<String, String> {
    let programs = job.programs.iter();
    programs
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect()
}

fn kinds(findings: &[Finding], severity: Severity) -> Vec<&str> {
    let found = findings
        .iter()
        .filter(|finding| finding.severity == severity);
    found.map(|finding| finding.kind).collect()
}

#[test]
fn a_small_order_in_two_colours_passes_the_proof_and_registers() {
    let (commission, fonts) = in_two_colours();
    let workshop = Workshop::starting();
    let job = super::made(&commission, &workshop, &fonts);
    assert_eq!(
        kinds(&job.findings, Severity::Stop),
        [""; 0],
        "{:#?}",
        job.findings
    );
    assert!(!kinds(&job.findings, Severity::Warning).contains(&"plates-part"));
    let names: Vec<&str> = job.sorts.iter().map(|sort| sort.name.as_str()).collect();
    assert_eq!(names, ["L (shade)", "I (shade)", "L (face)", "I (face)"]);
    for (one, other) in [(0, 2), (1, 3)] {
        assert_eq!(job.sorts[one].block, job.sorts[other].block, "blocks alike");
        assert_eq!(
            job.sorts[one].source, job.sorts[other].source,
            "placed alike"
        );
    }
    let file = job_of(&job);
    assert_eq!(file.outlines.len(), 4);
    let register = file.register.as_ref().expect("plates");
    let inks: Vec<&str> = register
        .plates
        .iter()
        .map(|plate| plate.ink.as_str())
        .collect();
    assert_eq!(inks, ["#f2c22e", "#102030"]);
    let texts = texts(&job);

    // What the programs leave standing: the shadow reaches under the letter by the trap, and together they are one figure.
    let printed = fount(&file, &texts, &Progress::new()).expect("programs");
    assert_eq!(printed.plates.len(), 2);
    let print = |name: &str| printed.impressions.iter().find(|one| one.name == name);
    let (shade, face) = (
        print("I (shade)").expect("cut"),
        print("I (face)").expect("cut"),
    );
    assert_eq!((shade.letter.as_str(), shade.plate), ("I", Some(0)));
    let both = intersection(&shade.inked, &face.inked);
    let drawn = face.inked.bounding_box().expect("a letter");
    // The stem is met on its right side and its foot.
    let strip = TRAP_MM * (drawn.height() + drawn.width() - TRAP_MM);
    assert!(
        (both.area() - strip).abs() < 0.1 * strip,
        "{} for {strip}",
        both.area()
    );
    let whole = union(&shade.inked, &face.inked);
    assert_eq!(whole.pieces.len(), 1, "no paper between");
    assert!(difference(&face.inked, &whole).area() < 1e-3);

    // A layer whose block is another by two hundredths of a millimetre.
    let mut other = file.clone();
    let layer = other
        .sorts
        .iter_mut()
        .find(|sort| sort.id.starts_with("I (face)"));
    layer
        .expect("a layer")
        .source_to_plank
        .as_mut()
        .expect("a place")[4] += 0.02;
    let found = check(&other, &texts, &Progress::new()).expect("judged");
    assert!(
        kinds(&found, Severity::Stop).contains(&"layers-unlike"),
        "{found:#?}"
    );
    let mut other = file.clone();
    other.register = None;
    let found = check(&other, &texts, &Progress::new()).expect("judged");
    assert!(kinds(&found, Severity::Stop).contains(&"job-plates-unclear"));

    // A press worse than was reckoned with shows paper, as wide as the trap lacks.
    let mut other = file.clone();
    other.register.as_mut().expect("plates").misregister_mm = TRAP_MM + 0.2;
    let found = check(&other, &texts, &Progress::new()).expect("judged");
    let told = found.iter().find(|finding| finding.kind == "plates-part");
    let told = told.expect("told").text.clone();
    assert!(told.contains("between it and shade"), "{told}");

    let record = Record::of(&commission, &workshop, job.sorts.iter().map(|sort| &**sort));
    again(&commission, &record, &fonts, &workshop);
}

/// Sorts of each plate are made again alike, as many as are asked for on each.
fn again(commission: &Commission, record: &Record, fonts: &Fonts, workshop: &Workshop) {
    let one = replacement(commission, record, "\"L (face)\" 1").expect("a sort");
    assert_eq!(one.colours.as_ref().expect("colours").cut, ["face"]);
    let text = crate::format::write_commission(&one);
    let one = crate::format::read_commission(&text).expect("reads back");
    let drawn = drawn_up(&one, workshop, fonts, &Progress::new()).expect("drawn up");
    let names: Vec<&str> = drawn.sorts.iter().map(|sort| sort.name.as_str()).collect();
    assert_eq!(names, ["L (face)"]);
    assert!(!kinds(&drawn.findings, Severity::Stop).contains(&"not-as-first-made"));
    let both = replacement(commission, record, "\"L (face)\" 2, \"L (shade)\" 2").expect("sorts");
    assert_eq!(both.bill.len(), 1);
    assert!(both.colours.as_ref().expect("colours").counts.is_empty());
    // As many as were lost of each, whatever plate they were for.
    let lost = "\"L (face)\" 2, \"L (shade)\" 1, \"I (face)\" 3";
    let lost = replacement(commission, record, lost).expect("sorts");
    let text = crate::format::write_commission(&lost);
    let lost = crate::format::read_commission(&text).expect("reads back");
    let drawn = drawn_up(&lost, workshop, fonts, &Progress::new()).expect("drawn up");
    let counts: Vec<(&str, u32)> = drawn
        .sorts
        .iter()
        .map(|sort| (sort.name.as_str(), sort.count))
        .collect();
    assert_eq!(counts, [("L (shade)", 1), ("L (face)", 2), ("I (face)", 3)]);
    assert!(!kinds(&drawn.findings, Severity::Stop).contains(&"not-as-first-made"));
}

#[test]
fn letters_that_cannot_be_parted_are_stopped_and_told() {
    let found = |change: &dyn Fn(&mut ColourRules)| {
        let (mut commission, fonts) = in_two_colours();
        change(commission.colours.as_mut().expect("colours"));
        let drawn = drawn_up(&commission, &Workshop::starting(), &fonts, &Progress::new());
        let drawn = drawn.expect("drawn up");
        (drawn.sorts.len(), drawn.findings)
    };
    let (sorts, findings) = found(&|rules| rules.plates.clear());
    assert_eq!(sorts, 2, "in one colour, for looking at");
    assert!(kinds(&findings, Severity::Stop).contains(&"no-plates"));
    let own = |rules: &mut ColourRules| {
        rules.plates[0].source = PlateSource::FontColour("#ff0000".to_owned());
    };
    let (_, findings) = found(&own);
    assert!(kinds(&findings, Severity::Stop).contains(&"colours-unusable"));
    // A line further in than the stroke is wide.
    let (sorts, findings) = found(&|rules| {
        rules.plates[0].source = PlateSource::Inline {
            inset: Length::mm(5.0),
            width: None,
        };
    });
    assert_eq!(sorts, 2, "the letters alone");
    assert!(kinds(&findings, Severity::Note).contains(&"plate-prints-nothing"));
    let (sorts, _) = found(&|rules| rules.cut = vec!["face".to_owned()]);
    assert_eq!(sorts, 2, "one plate alone");
}

/// A drawing of two colours is made, proven and printed plate by plate, in register.
#[test]
fn a_drawing_in_its_own_colours_passes_the_proof_and_registers() {
    const SQUARES: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"14mm\" height=\"8mm\" viewBox=\"0 0 14 8\">\
        <rect width=\"8\" height=\"8\" fill=\"#102030\"/><rect x=\"8\" width=\"6\" height=\"6\" fill=\"#c02020\"/></svg>";
    let (mut commission, mut fonts) = in_two_colours();
    commission
        .drawings
        .push(crate::commission::NamedDrawing::starting(
            "sign", "sign.svg",
        ));
    commission.bill = vec![BillLine {
        face: "sign".to_owned(),
        glyph: GlyphChoice::Drawing,
        count: 1,
    }];
    commission.colours = Some(ColourRules {
        drawings: vec!["sign".to_owned()],
        trap: Length::mm(TRAP_MM),
        ..ColourRules::starting()
    });
    fonts.insert("sign".to_owned(), SQUARES.as_bytes().into());
    let job = super::made(&commission, &Workshop::starting(), &fonts);
    assert_eq!(
        kinds(&job.findings, Severity::Stop),
        [""; 0],
        "{:#?}",
        job.findings
    );
    let file = job_of(&job);
    let art: Vec<&str> = file.art.iter().map(|art| art.id.as_str()).collect();
    assert_eq!(art, ["sign (#102030)", "sign (#c02020)"]);
    // The first plate reaches under the second where they meet: 6 mm of edge.
    let area = |name: &str| {
        let sort = job.sorts.iter().find(|sort| sort.name == name);
        sort.expect("cut").face.area()
    };
    assert!((area("sign (#c02020)") - 36.0).abs() < 0.01);
    assert!((area("sign (#102030)") - 64.0 - 6.0 * TRAP_MM).abs() < 0.02);
    // A layer that stands elsewhere on its block is found.
    let mut moved = file.clone();
    let second = moved
        .sorts
        .iter_mut()
        .find(|sort| sort.id.contains("c02020"));
    let place = second
        .expect("placed")
        .source_to_plank
        .as_mut()
        .expect("a place");
    place[4] += 0.01;
    let found = check(&moved, &texts(&job), &Progress::new()).expect("judged");
    assert!(kinds(&found, Severity::Stop).contains(&"layers-unlike"));
}
