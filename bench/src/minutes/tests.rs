use super::*;

fn runs(line: impl Fn(f64) -> f64) -> Vec<Run> {
    [5.0, 8.0, 12.0, 20.0, 31.0, 44.0, 60.0]
        .map(|estimated| Run {
            program: format!("p{estimated}"),
            estimated,
            took: line(estimated),
        })
        .to_vec()
}

#[test]
fn a_line_is_found() {
    let judged = judge(&runs(|minutes| 1.12 * minutes + 0.8)).unwrap();
    assert!((judged.factor - 1.12).abs() < 1e-12, "{judged:?}");
    assert!((judged.each - 0.8).abs() < 1e-10);
    assert!(judged.left_out.is_empty() && judged.scatter < 1e-9);
}

#[test]
fn runs_that_do_not_fit_are_left_out_and_named() {
    let mut runs = runs(|minutes| 1.1 * minutes + 0.5 + 0.1 * (minutes * 7.0).sin());
    runs[3].took = 55.0;
    runs[5].took = 12.0;
    let judged = judge(&runs).unwrap();
    assert!((judged.factor - 1.1).abs() < 0.01, "{judged:?}");
    let names: Vec<&str> = judged
        .left_out
        .iter()
        .map(|run| run.program.as_str())
        .collect();
    assert_eq!(names, ["p20", "p44"]);
    assert!(judged.in_words()[2].contains("p20"));
}

#[test]
fn few_or_like_runs_give_a_factor_alone() {
    let judged = judge(&runs(|minutes| 1.2 * minutes)[..4]).unwrap();
    assert!((judged.factor - 1.2).abs() < 1e-12 && judged.each == 0.0);
    let like: Vec<Run> = runs(|minutes| minutes)
        .into_iter()
        .map(|run| Run {
            took: 33.0 + run.estimated / 100.0,
            estimated: 30.0 + run.estimated / 100.0,
            ..run
        })
        .collect();
    assert_eq!(judge(&like).unwrap().each, 0.0);
}

#[test]
fn too_few_and_far_off_are_refused() {
    assert_eq!(judge(&runs(|m| m)[..2]), Err(MinutesError::TooFew(2)));
    assert!(matches!(
        judge(&runs(|m| m * 60.0)),
        Err(MinutesError::FarOff(_))
    ));
}

#[test]
fn a_notebook_is_read_by_line() {
    let text = "bench minutes\nprogram a.ngc 10 11\nprogram b.ngc 20 22\nprogram c.ngc 30 33\n";
    let judged = judge(&read(text).unwrap()).unwrap();
    assert!((judged.factor - 1.1).abs() < 1e-12);
    let slip = text.replace("20 22", "20");
    assert!(read(&slip).unwrap_err().to_string().starts_with("Line 3:"));
    assert!(read("bench minutes\n").is_err());
}
