//! Programs and jobs made wrong on purpose, one for each rule of the newer checks.

use super::*;
use crate::job_file::JobClamp;

/// The kinds of stop after changes to the job and to a program's text.
fn stops(
    job: impl Fn(&mut JobFile),
    file: &str,
    text: impl Fn(&str) -> String,
) -> Vec<&'static str> {
    let mut piece = Workpiece::sound();
    piece.spoil(file, text);
    job(&mut piece.job);
    let mut found: Vec<&'static str> = findings(&piece.job, &piece.programs)
        .into_iter()
        .filter(|finding| finding.severity == Severity::Stop && finding.kind != "time-differs")
        .map(|finding| finding.kind)
        .collect();
    found.dedup();
    found
}

fn of_job(change: impl Fn(&mut JobFile)) -> Vec<&'static str> {
    stops(change, "faces.ngc", str::to_owned)
}

fn of_text(file: &str, change: impl Fn(&str) -> String) -> Vec<&'static str> {
    stops(|_| {}, file, change)
}

#[test]
fn a_cutter_without_edges_at_its_middle_may_not_plunge() {
    assert_eq!(
        of_job(|job| job.cutters[0].centre_cutting = Some(false)),
        ["plunge"]
    );
    // Nothing is known of the cutter: nothing is said.
    assert_eq!(
        of_job(|job| job.cutters[0].centre_cutting = None),
        Vec::<&str>::new()
    );
}

#[test]
fn the_collet_nut_stays_off_the_face() {
    assert_eq!(
        of_job(|job| job.cutters[1].stick_out_mm = Some(10.9)),
        ["holder-met"]
    );
    assert_eq!(
        of_job(|job| job.cutters[1].stick_out_mm = Some(11.1)),
        Vec::<&str>::new()
    );
}

#[test]
fn cutter_and_collet_nut_stay_off_the_clamps() {
    let clamped = |at_mm: [f64; 2], height_mm: f64, nut: f64| {
        of_job(|job| {
            job.machine.holder_diameter_mm = Some(nut);
            job.planks[0].clamps = vec![JobClamp {
                at_mm,
                size_mm: [4.0, 4.0],
                height_mm,
            }];
        })
    };
    // At the right edge, far from every cut.
    assert_eq!(clamped([36.0, 20.0], 20.0, 4.0), Vec::<&str>::new());
    // The same, but the nut of the short cutter is as low as 5 mm above the face.
    assert_eq!(clamped([36.0, 20.0], 20.0, 20.0), ["clamp-met"]);
    assert_eq!(clamped([36.0, 20.0], 2.5, 20.0), Vec::<&str>::new());
    // Between the blocks: rapid moves go over it at 4 mm.
    assert_eq!(clamped([28.0, 20.0], 3.0, 4.0), ["clamp-met"]);
    // Under a block's cuts.
    assert_eq!(clamped([2.0, 2.0], 0.0, 4.0), ["clamp-met"]);
}

#[test]
fn programs_run_from_large_cutters_to_small_and_part_the_blocks_last() {
    assert!(of_job(|job| job.programs.reverse()).contains(&"programs-out-of-order"));
    let smaller_first = of_job(|job| {
        let mut first = job.programs[0].clone();
        first.file = "first.ngc".to_owned();
        first.cutter = "flat-1".to_owned();
        let mut small = job.cutters[0].clone();
        small.id = "flat-1".to_owned();
        small.diameter_mm = 1.0;
        job.cutters.push(small);
        job.programs.insert(0, first);
    });
    assert!(
        smaller_first.contains(&"programs-out-of-order"),
        "{smaller_first:?}"
    );
}

#[test]
fn blocks_are_square_and_of_their_size() {
    let block = |change: fn(&mut JobFile)| of_job(change);
    assert!(block(|job| job.sorts[0].set_mm = 14.02).contains(&"block-not-true"));
    assert!(block(|job| job.sorts[1].body_mm = 13.98).contains(&"block-not-true"));
    assert!(block(|job| job.sorts[0].block_mm[2][0] += 0.01).contains(&"block-not-true"));
    assert!(block(|job| job.planks[0].width_mm = 27.0).contains(&"block-not-true"));
}

#[test]
fn the_spindle_turns_as_the_cutter_is_set() {
    assert_eq!(
        of_text("faces.ngc", |text| text.replace("S18000", "S12000")),
        ["spindle"]
    );
    assert_eq!(
        of_text("faces.ngc", |text| text.replace("S18000", "S18000.4")),
        Vec::<&str>::new()
    );
}

#[test]
fn no_cut_is_deeper_than_a_layer_on_its_whole_width() {
    // The first layer of the faces is lost: the second takes both, from a slot to a narrow lane.
    let lost = of_text("faces.ngc", |text| {
        let second = text.find("G1 Z-2.000").expect("there is a second layer");
        let start = text[..second].rfind("G0 X").expect("it is begun somewhere");
        let first = text.find("G0 X").expect("there is a first layer");
        format!("{}{}", &text[..first], &text[start..])
    });
    assert_eq!(lost, ["cut-too-heavy"]);
    // The same layer counted as thinner than it is cut.
    assert_eq!(
        of_job(|job| job.cutters[1].step_down_mm = Some(2.5)),
        ["cut-too-heavy"]
    );
}

#[test]
fn the_load_over_what_a_cutter_is_set_to_is_told() {
    let warned = |step_over: f64| {
        let mut piece = Workpiece::sound();
        piece.job.cutters[0].step_over_mm = Some(step_over);
        findings(&piece.job, &piece.programs)
            .into_iter()
            .find(|finding| finding.kind == "load")
    };
    assert_eq!(warned(2.1), None);
    let warning =
        warned(1.5).expect("the outermost lanes are slots, 2 mm wide, and so is the first circle");
    assert_eq!(warning.severity, Severity::Warning);
    assert!(warning.text.contains("up to 1.3 times"), "{}", warning.text);
}
