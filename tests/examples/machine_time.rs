//! Prints the machine time of the jobs that the table of benchmarks measures, split by cutter and kind of motion, against the
//! least that they could take. It is reckoned, so no release build is needed:
//!
//! ```sh
//! cargo run -p sortwright-tests --example machine_time -- whole clearing
//! ```
//!
//! Without words it takes the letters of a small sample of each.

#![allow(clippy::print_stdout)] // What it prints is what it is for.

use testkit::machine_time::{Reckoned, clearing, clearing_letters, whole_job, whole_of};

/// Letters with straight and round walls, thin and thick strokes, points and figures.
const SAMPLE: &str = "MSOWAaegstniR&248x,k";

fn main() {
    let picked: Vec<String> = std::env::args().skip(1).collect();
    let wanted = |name: &str| picked.iter().any(|word| word == name);
    if picked.is_empty() || wanted("sample") {
        print("whole job, 20 sorts of 10 lines", &whole_of(SAMPLE));
    }
    if picked.is_empty() || wanted("clear") {
        print("clearing, 8 sorts of 24 lines", &clearing("MSOagn2&"));
    }
    if wanted("whole") {
        print("whole job, 240 sorts of 10 lines", &whole_job());
    }
    if wanted("clearing") {
        let letters = clearing_letters();
        print("clearing, 65 sorts of 24 lines", &clearing(&letters));
    }
}

fn print(what: &str, reckoned: &Reckoned) {
    println!(
        "{what}: {:.0} s, at least {:.0} s: {:.2}",
        reckoned.seconds(),
        reckoned.bound,
        reckoned.ratio()
    );
    let least = &reckoned.least;
    println!(
        "  least: clearing {:.0} s, finishing {:.0} s, links {:.0} s",
        least.clearing, least.finishing, least.forced
    );
    for (cutter, kinds) in &reckoned.split {
        println!("  {cutter}: {:.0} s", kinds.values().sum::<f64>());
        for (kind, seconds) in kinds {
            println!("    {kind}: {seconds:.0} s");
        }
    }
}
