//! The house rules that a program can check: what lies where, who may use whom, what pure code does without.

use testkit::repository::{TextFile, sources, text_files, top_level};

/// What the top level may hold beside dot-files and the build folder.
const TOP_LEVEL: [&str; 15] = [
    "Cargo.lock",
    "Cargo.toml",
    "DEVELOPERS.md",
    "LICENSE-APACHE",
    "LICENSE-MIT",
    "README.md",
    "app",
    "assets",
    "bench",
    "cam-core",
    "demo-projects",
    "drawing",
    "geometry",
    "reader",
    "said",
];

/// The crates of the workspace in order: each may use those before it.
const CRATES: [(&str, &str); 8] = [
    ("said", "said"),
    ("geometry", "geometry"),
    ("drawing", "drawing"),
    ("reader", "reader"),
    ("bench", "bench"),
    ("cam-core", "cam-core"),
    ("app", "sortwright"),
    ("tests", "sortwright-tests"),
];

/// No source file may be longer, in lines.
const LONGEST_FILE: usize = 800;

/// A rule is broken wherever this finds something; every place is listed before the test fails.
fn none_of(faults: Vec<String>) {
    assert!(faults.is_empty(), "\n{}", faults.join("\n"));
}

/// Every place in a file where one of the words stands.
fn places(file: &TextFile, words: &[&str]) -> Vec<String> {
    let mut found = Vec::new();
    for (number, line) in file.text.lines().enumerate() {
        for word in words.iter().filter(|word| line.contains(**word)) {
            found.push(format!("{}:{}: {word}", file.path, number + 1));
        }
    }
    found
}

/// Words joined from halves, so that this file does not hold them itself.
fn joined(halves: &[(&str, &str)]) -> Vec<String> {
    halves
        .iter()
        .map(|(first, second)| format!("{first}{second}"))
        .collect()
}

#[test]
fn the_top_level_holds_the_rooms_of_the_house_and_nothing_else() {
    let extra = top_level()
        .into_iter()
        .filter(|name| !name.starts_with('.') && name != "target" && name != "tests")
        .filter(|name| !TOP_LEVEL.contains(&name.as_str()))
        .collect();
    none_of(extra);
}

#[test]
fn each_crate_uses_only_those_before_it() {
    let manifests = text_files();
    let mut faults = Vec::new();
    for (place, (folder, _)) in CRATES.iter().enumerate() {
        let manifest = manifests
            .iter()
            .find(|file| file.path == format!("{folder}/Cargo.toml"))
            .unwrap_or_else(|| panic!("{folder} has no manifest"));
        for (_, later) in &CRATES[place..] {
            let uses = manifest.text.lines().map(str::trim).any(|line| {
                line.starts_with(&format!("{later}.")) || line.starts_with(&format!("{later} ="))
            });
            if uses {
                faults.push(format!("{folder} uses {later}"));
            }
        }
        let lints = manifest
            .text
            .split_once("[lints]")
            .is_some_and(|(_, after)| after.trim_start().starts_with("workspace = true"));
        if !lints {
            faults.push(format!("{folder} does not take the workspace's lints"));
        }
    }
    none_of(faults);
}

#[test]
fn unsafe_code_is_forbidden_everywhere() {
    let manifest = text_files()
        .into_iter()
        .find(|file| file.path == "Cargo.toml")
        .expect("the workspace has a manifest");
    assert!(manifest.text.contains("unsafe_code = \"forbid\""));
}

#[test]
fn no_crate_passes_on_the_names_of_a_lower_one() {
    let faults = sources()
        .iter()
        .flat_map(|file| {
            places(
                file,
                &joined(&[
                    ("pub use ", "geometry::"),
                    ("pub use ", "reader::"),
                    ("pub use ", "cam_core::"),
                    ("pub use ", "kurbo::"),
                ])
                .iter()
                .map(String::as_str)
                .collect::<Vec<_>>(),
            )
        })
        .collect();
    none_of(faults);
}

#[test]
fn all_crates_below_the_application_are_pure() {
    const IMPURE: [&str; 17] = [
        "std::fs",
        "std::env",
        "std::time",
        "std::net",
        "std::process",
        "std::io::std",
        "std::thread",
        "SystemTime",
        "Instant::now",
        "println!",
        "eprintln!",
        "print!(",
        "dbg!",
        "HashMap",
        "HashSet",
        "static mut",
        "thread_local!",
    ];
    let faults = sources()
        .iter()
        .filter(|file| {
            ["said", "geometry", "drawing", "reader", "bench", "cam-core"]
                .iter()
                .any(|folder| file.lies_in(folder))
        })
        .flat_map(|file| places(file, &IMPURE))
        .collect();
    none_of(faults);
}

#[test]
fn geometry_knows_no_trade_and_no_machine() {
    const TRADE: [&str; 6] = [
        "cam_core",
        "commission",
        "spindle",
        "plank",
        "feed_",
        "G-code",
    ];
    let faults = sources()
        .iter()
        .filter(|file| file.lies_in("geometry"))
        .flat_map(|file| places(file, &TRADE))
        .collect();
    none_of(faults);
}

#[test]
fn only_the_app_touches_files() {
    let faults = sources()
        .iter()
        .filter(|file| file.lies_in("app") && !file.path.starts_with("app/src/files"))
        .flat_map(|file| places(file, &["std::fs", "fs::File", "fs::write"]))
        .collect();
    none_of(faults);
}

#[test]
fn files_are_short_and_begin_with_what_they_are_for() {
    let mut faults = Vec::new();
    for file in sources() {
        let lines = file.text.lines().count();
        if lines > LONGEST_FILE {
            faults.push(format!("{}: {lines} lines", file.path));
        }
        // Unit tests in a file of their own are part of the module that names them.
        if !file.text.starts_with("//!") && !file.is("tests.rs") {
            faults.push(format!("{}: does not begin with //!", file.path));
        }
    }
    none_of(faults);
}

#[test]
fn nothing_is_left_for_later_and_no_test_is_skipped_or_waits() {
    let words = joined(&[
        ("todo", "!("),
        ("unimplemented", "!("),
        ("#[ign", "ore"),
        ("thread::", "sleep"),
        ("TO", "DO"),
        ("FIX", "ME"),
    ]);
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let faults = sources()
        .iter()
        .flat_map(|file| places(file, &words))
        .collect();
    none_of(faults);
}

#[test]
fn texts_speak_of_the_project_alone() {
    let words = joined(&[
        ("/wo", "rk/"),
        ("/ro", "ot/"),
        ("/tmp/", "bash"),
        ("/tmp/", "sw"),
        ("/ho", "me/"),
        ("seed ", "document"),
        ("trans", "cript"),
        ("arti", "factory"),
        ("index.", "crates.io"),
        ("static.", "crates.io"),
        ("trade-", "facts"),
        ("geometry-", "notes"),
    ]);
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let faults = text_files()
        .iter()
        .filter(|file| file.path != "Cargo.lock")
        .flat_map(|file| places(file, &words))
        .collect();
    none_of(faults);
}
