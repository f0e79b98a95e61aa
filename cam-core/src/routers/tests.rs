use super::*;

fn task(minutes: &[Option<f64>], cutters: &[&str]) -> Task {
    Task {
        minutes: minutes.to_vec(),
        change_minutes: vec![4.0; minutes.len()],
        cutters: cutters.iter().map(|&id| id.to_owned()).collect(),
    }
}

/// When all is done at the soonest, by trying every way.
fn soonest(tasks: &[Task], loads: &mut Vec<f64>, at: usize) -> f64 {
    if at == tasks.len() {
        return loads.iter().copied().fold(0.0, f64::max);
    }
    let mut best = f64::INFINITY;
    for machine in 0..loads.len() {
        if let Some(minutes) = tasks[at].minutes[machine] {
            let all = minutes + 4.0 * tasks[at].cutters.len() as f64;
            loads[machine] += all;
            best = best.min(soonest(tasks, loads, at + 1));
            loads[machine] -= all;
        }
    }
    best
}

#[test]
fn small_jobs_are_done_as_soon_as_any_way_can() {
    let mut state = 5_u64;
    let mut roll = |most: u64| {
        state = state
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (state >> 33) % most
    };
    for round in 0..60 {
        let machines = 2 + round % 2;
        let tasks: Vec<Task> = (0..4 + round % 4)
            .map(|_| {
                let mut minutes: Vec<Option<f64>> = (0..machines)
                    .map(|_| (roll(5) > 0).then(|| 20.0 + roll(90) as f64))
                    .collect();
                if minutes.iter().all(Option::is_none) {
                    minutes[0] = Some(50.0);
                }
                task(&minutes, &["flat-6", "flat-3"][..1 + roll(2) as usize])
            })
            .map(|mut task| {
                // No cutter is left in for the next plank: brute force knows nothing of that.
                task.cutters.push("last".to_owned());
                task
            })
            .collect();
        let shared = share_out(&tasks, machines);
        let best = soonest(&tasks, &mut vec![0.0; machines], 0);
        assert!((shared.finish_minutes() - best).abs() < 1e-9, "{tasks:?}");
        assert!(shared.proven && (shared.at_least_minutes - best).abs() < 1e-9);
        let all: usize = shared.on.iter().map(Vec::len).sum();
        assert_eq!(all, tasks.len());
    }
}

#[test]
fn a_plank_that_fits_one_router_alone_is_cut_there() {
    let tasks = [
        task(&[None, Some(60.0)], &["a", "b"]),
        task(&[Some(50.0), Some(50.0)], &["a", "b"]),
        task(&[None, Some(40.0)], &["a", "b"]),
        task(&[None, None], &["a", "b"]),
    ];
    let shared = share_out(&tasks, 2);
    assert_eq!(shared.on, [vec![1], vec![0, 2]]);
    assert_eq!(shared.done_minutes, [58.0, 116.0]);
    assert_eq!(shared.changes, 6);
    assert!(shared.proven);
}

#[test]
fn a_cutter_that_is_in_is_not_put_in_again() {
    let tasks = [
        task(&[Some(30.0)], &["flat-6"]),
        task(&[Some(30.0)], &["flat-3", "flat-6"]),
        task(&[Some(30.0)], &["flat-6", "flat-3"]),
    ];
    let shared = share_out(&tasks, 1);
    // 6, then 6 and 3, then 3 and 6: five less two.
    assert_eq!(shared.on, [vec![0, 2, 1]]);
    assert_eq!(shared.changes, 3);
    assert_eq!(shared.finish_minutes(), 90.0 + 12.0);
    assert!(shared.at_least_minutes <= shared.finish_minutes());
}

#[test]
fn one_more_router_halves_what_can_be_halved() {
    let tasks: Vec<Task> = [80.0, 70.0, 60.0, 50.0]
        .map(|minutes| task(&[Some(minutes)], &["a", "b"]))
        .to_vec();
    assert_eq!(share_out(&tasks, 1).finish_minutes(), 260.0 + 32.0);
    let two: Vec<Task> = tasks.iter().map(|task| task.with_one_more(0)).collect();
    assert_eq!(share_out(&two, 2).finish_minutes(), 130.0 + 16.0);
}

#[test]
fn many_planks_come_near_their_bound() {
    let tasks: Vec<Task> = (0..60_u32)
        .map(|number| {
            let minutes = 30.0 + f64::from(number * 37 % 61);
            task(
                &[Some(minutes), Some(minutes * 1.2), Some(minutes * 0.9)],
                &["a", "b"],
            )
        })
        .collect();
    let shared = share_out(&tasks, 3);
    assert!(shared.at_least_minutes <= shared.finish_minutes());
    assert!(shared.finish_minutes() <= 1.15 * shared.at_least_minutes);
}
