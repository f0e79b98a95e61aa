//! Notched founts made whole: the programs pass the proof, with the router and with the saw; what is made wrong is refused; set lines close
//! up by what was gained.

use super::*;
use crate::commission::{Hold, NotchRules, Separation};
use crate::finding::Severity;
use crate::job_file::{JobFile, JobRole};
use crate::measure::{Length, System};
use crate::notch::closed_pairs;
use crate::proof::check;
use crate::proof::impression::{Colour, Setting, Sheet, compose, fount};

fn notched(separation: Separation) -> (Commission, Fonts) {
    let (mut commission, fonts) = super::order("AV", 16.0, &[]);
    commission.cutting.cutters = ["flat-6", "flat-3"].map(str::to_owned).to_vec();
    commission.planks.lane = Length::mm(6.4);
    commission.planks.separation = separation;
    commission.notches = Some(NotchRules {
        least_wall: Length::mm(2.5),
        cutter: Some("flat-6-long".to_owned()),
        ..NotchRules::starting(System::Pica)
    });
    (commission, fonts)
}

fn router(hold: Hold) -> Separation {
    Separation::Router {
        cutter: "flat-6-long".to_owned(),
        hold,
    }
}

fn made_of((commission, fonts): &(Commission, Fonts)) -> Job {
    super::made(commission, &Workshop::starting(), fonts)
}

fn job_file(job: &Job) -> JobFile {
    let file = job.papers.iter().find(|file| file.path == JOB_FILE);
    let text = String::from_utf8(file.expect("written").bytes.clone()).expect("UTF-8");
    JobFile::from_json(&text).expect("reads back")
}

fn texts(job: &Job) -> BTreeMap<String, String> {
    job.programs
        .iter()
        .map(|program| (program.file.clone(), program.text.clone()))
        .collect()
}

fn stops(findings: &[Finding]) -> Vec<&Finding> {
    findings
        .iter()
        .filter(|finding| finding.severity == Severity::Stop)
        .collect()
}

fn has(findings: &[Finding], kind: &str) -> bool {
    findings.iter().any(|finding| finding.kind == kind)
}

#[test]
fn notched_blocks_pass_the_proof_however_they_come_apart() {
    for (separation, parts) in [(router(Hold::starting()), true), (Separation::Saw, false)] {
        let job = made_of(&notched(separation));
        assert!(
            stops(&job.findings).is_empty(),
            "{:#?}",
            stops(&job.findings)
        );
        let file = job_file(&job);
        let roles: Vec<JobRole> = file.programs.iter().map(|program| program.role).collect();
        let notches = roles.iter().position(|role| *role == JobRole::Notches);
        let notches = notches.expect("a program cuts the notches");
        let parted = roles.iter().position(|role| *role == JobRole::Separation);
        assert_eq!(parted, parts.then_some(notches + 1), "{roles:?}");
        for sort in &file.sorts {
            assert!(!sort.notches.is_empty(), "{}", sort.id);
            assert_eq!(sort.block_mm.len(), 4 + 3 * sort.notches.len());
        }
        let sheet = job
            .papers
            .iter()
            .find(|file| file.path == "papers/setup-sheet.txt");
        let sheet = String::from_utf8_lossy(&sheet.expect("written").bytes).into_owned();
        assert!(sheet.contains("A V by 24 pt"), "{sheet}");
        assert!(sheet.contains("2-pica furniture"), "{sheet}");
    }
}

#[test]
fn what_is_made_wrong_about_notches_is_refused() {
    let job = made_of(&notched(Separation::Saw));
    let file = job_file(&job);
    let texts = texts(&job);
    let judged = |file: &JobFile, texts: &BTreeMap<String, String>| {
        check(file, texts, &Progress::new()).expect("not stopped")
    };
    assert!(stops(&judged(&file, &texts)).is_empty());
    let entry = file
        .programs
        .iter()
        .position(|program| program.role == JobRole::Notches)
        .expect("there is one");
    // Left out.
    let mut without = file.clone();
    let lost = without.programs.remove(entry);
    assert!(has(&judged(&without, &texts), "notch-not-cleared"));
    // Not to the bed.
    let shallow: String = texts[&lost.file]
        .lines()
        .map(|line| line.replace("Z-23.317", "Z-22.9") + "\n")
        .collect();
    assert_ne!(shallow, texts[&lost.file]);
    let mut other = texts.clone();
    other.insert(lost.file.clone(), shallow);
    assert!(has(&judged(&file, &other), "notch-not-cleared"));
    // Aside by a tenth of a millimetre.
    for axis in [0, 1] {
        let mut aside = file.clone();
        for plank in &mut aside.planks {
            plank.program_origin_mm[axis] += 0.1;
        }
        assert!(has(&judged(&aside, &texts), "block-cut"));
    }
    // A corner that would bind, a step of another size, a step that is not recorded.
    let mut binds = file.clone();
    for sort in &mut binds.sorts {
        sort.notches[0].bevel_mm = 1.0;
    }
    let found = judged(&binds, &texts);
    assert!(has(&found, "notch-corner-binds") && has(&found, "block-not-true"));
    let mut larger = file.clone();
    larger.sorts[0].notches[0].size_mm[0] += 0.5;
    assert!(has(&judged(&larger, &texts), "block-not-true"));
    let mut unsaid = file.clone();
    unsaid.sorts[0].notches.clear();
    assert!(has(&judged(&unsaid, &texts), "block-not-true"));
}

#[test]
fn set_lines_close_up_by_what_was_gained() {
    let job = made_of(&notched(Separation::Saw));
    let pairs = closed_pairs(job.sorts.iter().map(AsRef::as_ref));
    let gain = |left: &str, right: &str| {
        let found = pairs
            .iter()
            .find(|pair| job.sorts[pair.left].name == left && job.sorts[pair.right].name == right);
        found.map_or(0.0, |pair| pair.gain_mm)
    };
    let all = gain("A", "V") + gain("V", "A");
    assert!(all > 4.0, "{pairs:?}");
    let printed = fount(&job_file(&job), &texts(&job), &Progress::new()).expect("prints");
    let printed = Arc::new(printed);
    let set = |apart: bool| {
        let setting = Setting {
            text: "AVA".to_owned(),
            apart,
            ..Setting::default()
        };
        let ink = Colour::new(0, 0, 0);
        compose(
            &[(Arc::clone(&printed), ink)],
            &setting,
            Colour::new(255, 255, 255),
            true,
        )
    };
    let (closed, apart) = (set(false), set(true));
    let width = |sheet: &Sheet| sheet.layers[0].lines_mm[0];
    assert!((width(&apart) - width(&closed) - all).abs() < 1e-3);
    assert!((closed.layers[0].closed_mm[0] - all).abs() < 1e-3);
    assert_eq!(closed.layers[0].closed_mm, apart.layers[0].closed_mm);
}
