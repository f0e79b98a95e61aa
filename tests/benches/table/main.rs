//! The project's speed and the machine time of what it makes, against libraries and bounds, as one table.
//!
//! `cargo bench -p sortwright-tests` prints it; a word after `--` picks rows by their names. Library and project work on the
//! same input within one run. The kernel's rows are sampled by criterion, by the processor's time of one thread, since the
//! clock also counts what other programs do; whole jobs take seconds to minutes, of which criterion would ask at least ten of
//! each, so a few runs that alternate are timed plainly.

#![allow(clippy::print_stdout)] // A benchmark's result is what it prints.

mod clock;
mod fount;
mod heights;
mod inputs;
mod jobs;
mod kernel;
mod price;
mod window;

/// One line of the table.
pub struct Row {
    what: &'static str,
    against: String,
    project: String,
    other: String,
    ratio: f64,
    goal: &'static str,
}

fn main() {
    let picked: Vec<String> = std::env::args()
        .skip(1)
        .filter(|word| !word.starts_with('-'))
        .collect();
    let wanted = |name: &str| picked.is_empty() || picked.iter().any(|word| name.contains(word));
    println!("Load of the machine before: {}", load());
    let mut rows = Vec::new();
    rows.extend(wanted("axis").then(kernel::medial_axis));
    rows.extend(wanted("family").then(kernel::family));
    rows.extend(wanted("reach").then(kernel::reach));
    rows.extend(wanted("passes").then(kernel::passes));
    if wanted("make") {
        rows.extend(fount::make_of_a_fount());
    }
    if wanted("heights") {
        rows.extend(heights::rows());
    }
    rows.extend(wanted("price").then(price::at_once));
    rows.extend(wanted("clearing").then(jobs::clearing));
    rows.extend(wanted("whole").then(jobs::whole_job));
    rows.extend(wanted("frame").then(window::frame));
    rows.extend(wanted("rooms").then(window::rooms));
    rows.extend(wanted("edit").then(window::edit));
    println!("Load of the machine after: {}\n", load());
    println!("| what | against | here | the other | ratio | goal |");
    println!("| --- | --- | --- | --- | --- | --- |");
    for row in rows {
        println!(
            "| {} | {} | {} | {} | {:.2} | {} |",
            row.what, row.against, row.project, row.other, row.ratio, row.goal
        );
    }
}

/// What the system says of its load, where it says anything.
fn load() -> String {
    let processors = std::thread::available_parallelism().map_or(1, usize::from);
    let load = std::fs::read_to_string("/proc/loadavg").unwrap_or_else(|_| "not told".to_owned());
    let load = load
        .split_whitespace()
        .take(2)
        .collect::<Vec<_>>()
        .join(" ");
    format!("{load} on {processors} processors")
}
