//! The worked demonstration of a two-colour poster fount, whole: one command makes programs and papers of it, with no stop by the proof.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use cam_core::job_file::{JobFile, JobSort};
use cam_core::measure::{Length, System};
use cam_core::proof::impression::{Colour, Setting, compose};
use clap::Parser;
use image::Rgb;
use sortwright::background::picture::{PictureKind, picture, print};
use sortwright::commands::{CommandLine, Outcome, run};
use sortwright::files::made::read_made;
use tempfile::TempDir;

/// The folder that the command made, and its job file.
struct Made {
    folder: TempDir,
    job: JobFile,
}

impl Made {
    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join("made").join(name)
    }
}

fn command(words: &[&str]) -> Outcome {
    let line = std::iter::once("sortwright").chain(words.iter().copied());
    let line = CommandLine::try_parse_from(line).expect("the words are a command line");
    run(&line.command.expect("the words name a command"))
}

fn text_of(path: &Path) -> String {
    path.to_str().expect("a plain name").to_owned()
}

/// `sortwright make demo-projects/market-poster/commission.json --out …`, once for all tests.
static MADE: LazyLock<Made> = LazyLock::new(|| {
    let folder = TempDir::new().expect("a temporary folder can be made");
    let order = testkit::repository::top().join("demo-projects/market-poster/commission.json");
    let out = text_of(&folder.path().join("made"));
    let made = command(&["make", &text_of(&order), "--out", &out, "--quiet"]);
    assert_eq!(made, Outcome::Done, "nothing stops it");
    let job = fs::read_to_string(folder.path().join("made/job.json")).expect("a job file");
    let job = JobFile::from_json(&job).expect("it reads back");
    Made { folder, job }
});

fn sort<'a>(job: &'a JobFile, id: &str) -> &'a JobSort {
    let found = job.sorts.iter().find(|sort| sort.id == id);
    found.unwrap_or_else(|| panic!("no sort {id}"))
}

#[test]
fn it_takes_three_planks_and_every_letter_has_both_plates_on_blocks_alike() {
    let job = &MADE.job;
    assert_eq!(job.planks.len(), 3);
    let register = job.register.as_ref().expect("plates");
    let names: Vec<&str> = register
        .plates
        .iter()
        .map(|plate| plate.name.as_str())
        .collect();
    assert_eq!(names, ["ochre", "blue"]);
    let of = |plate: &str| -> Vec<&JobSort> {
        let sorts = job.sorts.iter();
        sorts
            .filter(|sort| sort.layer.as_deref() == Some(plate))
            .collect()
    };
    let (ochre, blue) = (of("ochre"), of("blue"));
    assert_eq!((ochre.len(), blue.len()), (12, 12));
    for one in ochre {
        let other = sort(job, &one.id.replace("ochre", "blue"));
        assert_eq!(
            (&one.text, one.body_mm, one.set_mm),
            (&other.text, other.body_mm, other.set_mm)
        );
        assert_eq!(one.notches.len(), other.notches.len());
    }
    // 8 ciceros of Didot points, 62 2/3 of them high; descenders and accents stand on larger bodies, in steps of 6 points.
    let body = Length::lines(8.0, System::Didot).in_mm();
    let step = Length::didot_points(6.0).in_mm();
    assert!((sort(job, "A (blue)-1").body_mm - body).abs() < 1e-6);
    for larger in ["Q (blue)-1", "É (ochre)-1", ", (blue)-1"] {
        let more = (sort(job, larger).body_mm - body) / step;
        assert!(
            more > 0.9 && (more - more.round()).abs() < 1e-6,
            "{larger}: {more} steps"
        );
    }
    let height = Length::didot_points(62.0 + 2.0 / 3.0).in_mm();
    assert!((job.planks[0].height_to_paper_mm - height).abs() < 1e-6);
    for notched in ["A (ochre)-1", "V (blue)-1", "L (ochre)-2"] {
        assert!(!sort(job, notched).notches.is_empty(), "{notched}");
    }
}

#[test]
fn every_paper_is_there_and_names_the_plates() {
    for name in [
        "quote",
        "costing",
        "licence-record",
        "setup-sheet",
        "handwork",
        "measuring-sheet",
        "packing-list",
        "specimen",
    ] {
        let file = MADE.path(&format!("papers/{name}.pdf"));
        assert!(
            fs::read(&file).is_ok_and(|bytes| bytes.starts_with(b"%PDF")),
            "{name}"
        );
    }
    for (name, said) in [
        (
            "quote.txt",
            vec!["ochre, then blue", "A (ochre)", "A (blue)"],
        ),
        (
            "setup-sheet.txt",
            vec!["on every plate", "Pairs close up: A V by", "reglet"],
        ),
        (
            "packing-list.txt",
            vec!["Capitals, plate ochre", "Capitals, plate blue"],
        ),
    ] {
        let text = fs::read_to_string(MADE.path(&format!("papers/{name}"))).expect("a paper");
        let text: String = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for said in said {
            assert!(text.contains(said), "{name} does not say “{said}”: {text}");
        }
    }
}

#[test]
fn the_overprint_proof_shows_both_inks_and_their_product_where_they_meet() {
    let (job, texts) = read_made(&MADE.path("")).expect("a made folder");
    let printed = print(&job, &texts, &cam_core::progress::Progress::new()).expect("programs");
    let setting = Setting {
        text: "LAVA".to_owned(),
        ..Setting::default()
    };
    let white = Colour::new(255, 255, 255);
    let sheet = compose(&[(printed, white)], &setting, white, false);
    assert_eq!(sheet.layers.len(), 2);
    assert!(sheet.layers[0].closed_mm[0] > 1.0, "notched pairs close up");
    assert_eq!(sheet.layers[0].lines_mm, sheet.layers[1].lines_mm);
    let png = picture(&sheet, PictureKind::Png, 254).expect("drawn");
    let dots = image::load_from_memory(&png).expect("a picture").to_rgb8();
    let (ochre, blue) = ([0xd9_u8, 0xa2, 0x1b], [0x1f_u8, 0x3f, 0x7a]);
    let product: Vec<u8> = ochre
        .iter()
        .zip(blue)
        .map(|(&a, b)| ((u32::from(a) * u32::from(b) + 127) / 255) as u8)
        .collect();
    let near =
        |dot: &Rgb<u8>, wanted: &[u8]| dot.0.iter().zip(wanted).all(|(&a, &b)| a.abs_diff(b) <= 2);
    // A tenth of a millimetre to a dot.
    let area = |wanted: &[u8]| dots.pixels().filter(|dot| near(dot, wanted)).count() as f64 / 100.0;
    let (ochre, blue, both) = (area(&ochre), area(&blue), area(&product));
    assert!(ochre > 50.0 && both > 500.0, "{ochre} and {both} mm²");
    // The shadow lies under the whole letter.
    assert!(blue < 1.0, "{blue} mm² of blue alone");
}

#[test]
fn the_folder_proves_itself() {
    assert_eq!(command(&["check", &text_of(&MADE.path(""))]), Outcome::Done);
}
