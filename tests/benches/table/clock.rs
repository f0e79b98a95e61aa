//! Time as the processor spends it on one thread, and criterion's samples of it.

use std::cell::RefCell;
use std::time::Duration;

use cpu_time::ThreadTime;
use criterion::{Criterion, SamplingMode};

/// Time that this thread spends on some work.
pub fn spent(work: impl FnOnce()) -> Duration {
    let start = ThreadTime::now();
    work();
    start.elapsed()
}

/// Samples of each of two ways to do a job, by criterion; the least time of each.
pub fn least_of_both<'a>(
    name: &str,
    project: &'a mut (dyn FnMut() + 'a),
    library: &'a mut (dyn FnMut() + 'a),
) -> [Duration; 2] {
    let least = RefCell::new([Duration::MAX; 2]);
    let mut criterion = Criterion::default()
        .sample_size(10)
        .warm_up_time(Duration::from_millis(300))
        .measurement_time(Duration::from_secs(3))
        .without_plots();
    let mut group = criterion.benchmark_group(name);
    group.sampling_mode(SamplingMode::Flat);
    for (number, (which, work)) in [("project", project), ("library", library)]
        .into_iter()
        .enumerate()
    {
        group.bench_function(which, |bencher| {
            bencher.iter_custom(|times| {
                let mut whole = Duration::ZERO;
                for _ in 0..times {
                    let one = spent(&mut *work);
                    let known = &mut least.borrow_mut()[number];
                    *known = one.min(*known);
                    whole += one;
                }
                whole
            });
        });
    }
    group.finish();
    least.into_inner()
}

/// A time in words.
pub fn shown(time: Duration) -> String {
    let seconds = time.as_secs_f64();
    if seconds < 1.0 {
        format!("{:.1} ms", seconds * 1e3)
    } else {
        format!("{seconds:.2} s")
    }
}
