//! The main job: from a font and an order to a folder of proven programs, by the command line, with good and with bad input.

use std::fs;
use std::path::{Path, PathBuf};

use cam_core::commission::{Hold, Separation};
use cam_core::digest::sha256_hex;
use cam_core::finding::{Finding, Severity};
use cam_core::format::write_workshop;
use cam_core::job_file::JobFile;
use cam_core::make::{JOB_FILE, Job, make};
use cam_core::measure::Length;
use cam_core::progress::Progress;
use cam_core::proof::check;
use cam_core::workshop::Workshop;
use clap::Parser;
use sortwright::commands::{CommandLine, Outcome, run};
use sortwright::files::open::{Opened, open_commission};
use tempfile::TempDir;
use testkit::fonts;

/// A folder with a font and a commission begun from it.
struct Bench {
    folder: TempDir,
}

impl Bench {
    /// A commission for the letters of a text at six lines.
    fn with_text(text: &str) -> Bench {
        Bench::with_font("ubuntu-light", text, "6")
    }

    /// A commission for the letters of a text from one of the text fonts.
    fn with_font(font: &str, text: &str, lines: &str) -> Bench {
        let folder = TempDir::new().expect("a temporary folder can be made");
        let bench = Bench { folder };
        bench.write("face.ttf", fonts::text_font(font).bytes);
        let begun = bench.run(&[
            "start",
            "face.ttf",
            "--text",
            text,
            "--lines",
            lines,
            "--out",
            "commission.json",
        ]);
        assert_eq!(begun, Outcome::Done, "the commission was begun");
        bench
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        fs::write(self.path(name), bytes).expect("the temporary folder can be written");
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    /// Runs a command; words that name files of the folder, and those after `--out`, become paths in it.
    fn run(&self, words: &[&str]) -> Outcome {
        let mut line = vec!["sortwright".to_owned()];
        let mut names_output = false;
        for word in words {
            let is_file = names_output || self.path(word).exists();
            line.push(if is_file {
                self.path(word).display().to_string()
            } else {
                (*word).to_owned()
            });
            names_output = *word == "--out";
        }
        let parsed = CommandLine::try_parse_from(line).expect("the words are a command line");
        run(&parsed.command.expect("the words name a command"))
    }

    fn make(&self) -> Outcome {
        self.run(&["make", "commission.json", "--out", "made", "--quiet"])
    }

    fn check(&self) -> Outcome {
        self.run(&["check", "made"])
    }

    fn opened(&self) -> Opened {
        open_commission(&self.path("commission.json"), None)
            .unwrap_or_else(|error| panic!("{error}"))
    }

    /// Changes one place of the commission's text.
    fn change_commission(&self, from: &str, to: &str) {
        let text = self.read("commission.json");
        assert!(text.contains(from), "{from} does not stand in {text}");
        self.write("commission.json", text.replacen(from, to, 1));
    }
}

fn made_by_core(opened: &Opened) -> Job {
    make(
        &opened.commission,
        &opened.workshop,
        &opened.fonts,
        &Progress::new(),
    )
    .unwrap_or_else(|error| panic!("{error}"))
}

fn names_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<String> = fs::read_dir(folder)
        .expect("the folder can be listed")
        .flatten()
        .map(|entry| entry.file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// Hollow curves near a cutter's own radius: each stretch of wall goes to a cutter that keeps the whole tolerance there.
#[test]
fn serifs_with_hollow_brackets_are_cut_within_tolerance() {
    let bench = Bench::with_font("libertinus-serif", "RBxz", "10");
    assert_eq!(bench.make(), Outcome::Done);
    assert_eq!(bench.check(), Outcome::Done);
}

#[test]
fn an_order_is_made_and_the_folder_proves_itself() {
    let bench = Bench::with_text("TYPE");
    assert_eq!(bench.make(), Outcome::Done);
    assert_eq!(bench.check(), Outcome::Done);
    let job = made_by_core(&bench.opened());
    assert!(job.programs.len() > 2, "{} programs", job.programs.len());
    let made = bench.path("made");
    for file in job.files() {
        let written = fs::read(made.join(&file.path))
            .unwrap_or_else(|error| panic!("{}: {error}", file.path));
        assert!(
            written == file.bytes,
            "{} is not what the core made",
            file.path
        );
    }
    // Made again over the first, the bytes are the same.
    let before = bench.read("made/job.json");
    assert_eq!(bench.make(), Outcome::Done);
    assert_eq!(bench.read("made/job.json"), before);
}

#[test]
fn one_thread_and_many_make_the_same_bytes() {
    let bench = Bench::with_text("AG");
    let opened = bench.opened();
    let many = made_by_core(&opened);
    let alone = rayon::ThreadPoolBuilder::new()
        .num_threads(1)
        .build()
        .expect("a thread can be started")
        .install(|| made_by_core(&opened));
    assert!(!many.files().is_empty(), "the order was not stopped");
    assert!(many.files() == alone.files(), "the bytes differ");
}

#[test]
fn a_program_tampered_with_is_refused() {
    let bench = Bench::with_text("A");
    assert_eq!(bench.make(), Outcome::Done);
    let programs: Vec<String> = names_in(&bench.path("made"))
        .into_iter()
        .filter(|name| name.ends_with(".ngc") || name.ends_with(".nc"))
        .collect();
    assert!(!programs.is_empty(), "no program was found");
    for name in programs {
        let file = format!("made/{name}");
        let text = bench.read(&file);
        let lines: Vec<&str> = text.lines().collect();
        // Every motion of a program matters; a few of them, spread over it, are tried.
        for place in 1..4 {
            let target = lines.len() * place / 4;
            let without: Vec<&str> = lines
                .iter()
                .enumerate()
                .filter(|(line, _)| *line != target)
                .map(|(_, text)| *text)
                .collect();
            bench.write(&file, without.join("\n") + "\n");
            assert_ne!(
                bench.check(),
                Outcome::Done,
                "{name} without line {}",
                target + 1
            );
        }
        let spoilt = text.replacen("Z-", "Z", 1);
        assert_ne!(spoilt, text, "{name} never goes below the face");
        bench.write(&file, &spoilt);
        assert_ne!(bench.check(), Outcome::Done, "{name} with a sign lost");
        // The judge does not rest on the recorded hash: a job file that vouches for the spoilt program changes nothing.
        let job = bench.read("made/job.json");
        let vouched = job.replace(&sha256_hex(text.as_bytes()), &sha256_hex(spoilt.as_bytes()));
        assert_ne!(vouched, job, "the job file records no hash of {name}");
        bench.write("made/job.json", vouched);
        assert_ne!(
            bench.check(),
            Outcome::Done,
            "{name} with a sign lost, vouched for"
        );
        bench.write("made/job.json", job);
        bench.write(&file, &text);
    }
    assert_eq!(bench.check(), Outcome::Done);
}

/// What is wrong with the text, or too short of a cutter, is told by a check of its own, whatever else is told.
#[test]
fn arcs_units_ends_and_flutes_are_told_by_name() {
    type Change = fn(&str) -> String;
    let job = made_by_core(&Bench::with_text("O").opened());
    let paper = job.papers.iter().find(|paper| paper.path == JOB_FILE);
    let paper = String::from_utf8_lossy(&paper.expect("every make writes it").bytes);
    let sound = JobFile::from_json(&paper).expect("it reads back");
    let kinds = |job_file: &JobFile, change: Change| -> Vec<&str> {
        let programs = job.programs.iter();
        let texts = programs.map(|program| (program.file.clone(), change(&program.text)));
        let found = check(job_file, &texts.collect(), &Progress::new());
        let found = found.expect("nobody stops the work").into_iter();
        let stops = found.filter(|finding| finding.severity == Severity::Stop);
        stops.map(|finding| finding.kind).collect()
    };
    assert_eq!(kinds(&sound, str::to_owned), [] as [&str; 0]);
    let cases: [(&str, Change); 4] = [
        ("arc-out-of-tolerance", |text| {
            text.replacen("\nG2 X", "\nG2 X9", 1)
                .replacen("\nG3 X", "\nG3 X9", 1)
        }),
        ("program-without-units", |text| {
            text.replace("\nG21\n", "\n")
        }),
        ("program-without-end", |text| text.replace("\nM30", "\n")),
        ("program-ends-with-spindle-on", |text| {
            text.replace("\nM5\n", "\n")
        }),
    ];
    for (kind, change) in cases {
        let found = kinds(&sound, change);
        assert!(found.contains(&kind), "{kind}: {found:?}");
    }
    let mut short = sound.clone();
    for cutter in &mut short.cutters {
        cutter.flute_length_mm = 0.5;
    }
    assert!(kinds(&short, str::to_owned).contains(&"deeper-than-flutes"));
}

/// Spoils a bench, makes, and expects that it could not run or was stopped, with nothing written and nothing lost.
fn check_refused(what: &str, spoil: impl FnOnce(&Bench)) {
    let bench = Bench::with_text("T");
    spoil(&bench);
    let before = names_in(bench.folder.path());
    let commission = fs::read(bench.path("commission.json")).ok();
    assert_ne!(bench.make(), Outcome::Done, "{what} was made");
    assert_eq!(
        names_in(bench.folder.path()),
        before,
        "{what} left something"
    );
    assert_eq!(
        fs::read(bench.path("commission.json")).ok(),
        commission,
        "{what} changed the commission"
    );
}

#[test]
fn bad_input_is_refused_and_nothing_is_lost() {
    check_refused("a broken font", |bench| {
        let font = fonts::text_font("ubuntu-light").bytes;
        bench.write("face.ttf", &font[..font.len() / 3]);
    });
    check_refused("a font that is a text", |bench| {
        bench.write("face.ttf", "Dear Sir,")
    });
    check_refused("a font that is not there", |bench| {
        fs::remove_file(bench.path("face.ttf")).expect("it was there");
    });
    check_refused("another font than the commission's", |bench| {
        bench.write("face.ttf", fonts::text_font("hack").bytes);
    });
    check_refused("a letter that the font lacks", |bench| {
        bench.change_commission("T 1", "\u{13000} 1");
    });
    check_refused("a cutter that the workshop lacks", |bench| {
        bench.change_commission("flat-0.8", "flat-0.7");
    });
    check_refused("a cutter that goes deeper than its flutes", |bench| {
        let mut workshop = Workshop::starting();
        for cutter in &mut workshop.cutters {
            cutter.max_depth = Length::mm(cutter.flute_length.in_mm() + 10.0);
        }
        bench.write("workshop.json", write_workshop(&workshop));
    });
    check_refused("a negative size in the commission", |bench| {
        bench.change_commission("\"lines\": 6", "\"lines\": -6");
    });
    check_refused("a corrupt commission", |bench| {
        let text = bench.read("commission.json");
        bench.write("commission.json", &text[..text.len() / 2]);
    });
    check_refused("an empty commission", |bench| {
        bench.write("commission.json", "")
    });
    check_refused("no commission", |bench| {
        fs::remove_file(bench.path("commission.json")).expect("it was there");
    });
    check_refused("a folder below a file", |bench| {
        bench.write("made", "not a folder")
    });
}

/// At three lines the tabs asked for would take up most of the sides of narrow blocks.
#[test]
fn small_blocks_are_cut_out_with_the_starting_settings() {
    let bench = Bench::with_font("ubuntu-light", "LIT", "3");
    let job = made_by_core(&bench.opened());
    let told = |severity: Severity| -> Vec<&str> {
        let all = job.findings.iter();
        let all = all.filter(|finding| finding.severity == severity);
        all.map(|finding| finding.kind).collect()
    };
    assert_eq!(told(Severity::Stop), [] as [&str; 0]);
    assert!(told(Severity::Note).contains(&"tabs-narrow"));
    let larger = made_by_core(&Bench::with_font("ubuntu-light", "LIT", "6").opened());
    let narrow = larger.findings.iter();
    assert_eq!(
        narrow
            .filter(|finding| finding.kind == "tabs-narrow")
            .count(),
        0
    );
}

/// With a skin no place of an outline is cut through, and the job is right all the same.
#[test]
fn blocks_may_be_held_by_a_skin() {
    let bench = Bench::with_font("ubuntu-light", "LI", "6");
    let mut opened = bench.opened();
    let separation = &mut opened.commission.planks.separation;
    let Separation::Router { hold, .. } = separation else {
        panic!("a commission begins with the router");
    };
    *hold = Hold::Skin(Length::mm(0.5));
    let job = made_by_core(&opened);
    let stops = job.findings.iter();
    let stops = stops.filter(|finding| finding.severity == Severity::Stop);
    assert_eq!(stops.collect::<Vec<_>>(), Vec::<&Finding>::new());
    assert!(!job.files().is_empty());
}

#[test]
fn a_negative_size_is_refused() {
    for size in ["-6", "0", "-42 mm", "many", "1e9"] {
        let bench = Bench::with_text("T");
        let line = ["start", "face.ttf", "--text", "T", "--out", "other.json"];
        let size = format!("--lines={size}");
        let words: Vec<&str> = line.iter().copied().chain([size.as_str()]).collect();
        assert_eq!(bench.run(&words), Outcome::CouldNotRun, "{size}");
        assert!(!bench.path("other.json").exists(), "{size}");
    }
}
