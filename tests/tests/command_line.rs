//! The command line as the README and the program's own help show it.

use std::fs;

use clap::{CommandFactory, Parser};
use sortwright::commands::{CommandLine, Outcome, run};
use tempfile::TempDir;
use testkit::repository::text_files;

/// The words after the program's name in every line of the README's code that runs it.
fn commands_in_the_readme() -> Vec<Vec<String>> {
    let readme = text_files()
        .into_iter()
        .find(|file| file.path == "README.md")
        .expect("the repository has a README");
    let mut in_code = false;
    let mut found = Vec::new();
    for line in readme.text.lines() {
        if line.trim_start().starts_with("```") {
            in_code = !in_code;
            continue;
        }
        let line = line.trim().trim_start_matches("$ ");
        let words = line.strip_prefix("sortwright ").or_else(|| {
            line.strip_prefix("cargo run")
                .and_then(|rest| Some(rest.split_once(" -- ")?.1))
        });
        if let (true, Some(words)) = (in_code, words) {
            let words = words.split(" #").next().unwrap_or_default();
            found.push(split_at_blanks(words));
        }
    }
    found
}

/// Words parted by blanks, those in double quotes kept together.
fn split_at_blanks(line: &str) -> Vec<String> {
    line.split('"')
        .enumerate()
        .flat_map(|(place, part)| {
            if place % 2 == 1 {
                vec![part.to_owned()]
            } else {
                part.split_whitespace().map(str::to_owned).collect()
            }
        })
        .collect()
}

#[test]
fn the_readmes_commands_are_understood() {
    let commands = commands_in_the_readme();
    assert!(!commands.is_empty(), "the README shows no command");
    for words in commands {
        let line = std::iter::once("sortwright".to_owned()).chain(words.clone());
        let understood = CommandLine::try_parse_from(line);
        assert!(understood.is_ok(), "{words:?}: {:?}", understood.err());
    }
}

#[test]
fn every_command_says_what_it_is_for() {
    let program = CommandLine::command();
    let names: Vec<&str> = program
        .get_subcommands()
        .map(|command| command.get_name())
        .collect();
    for wanted in ["make", "check", "reach", "start"] {
        assert!(
            names.contains(&wanted),
            "{wanted} is missing from {names:?}"
        );
    }
    for command in program.get_subcommands() {
        assert!(command.get_about().is_some(), "{}", command.get_name());
        for argument in command.get_arguments() {
            assert!(
                argument.get_help().is_some(),
                "{} {}",
                command.get_name(),
                argument.get_id()
            );
        }
    }
}

/// A program that none of ours looks like: cycles, parameters, another plane, a second zero.
const FOREIGN: &str = "%\nG21 G17 G90 G94 G98 S9000 M3\n#1=3\n#2=[#1*2 + SIN[30]]\nG0 X0 Y0 Z5 (MSG, watch the clamps)\n\
    G81 X[10+#1] Y#2 Z-4 R1 F200\nX20 L2\nG80\nG18 G2 X30 Z5 R6\nG55 G0 X1 Y1 Z2\nG28 Z10\nM0\nM30\n%\n";

#[test]
fn compensation_asks_for_the_cutters_diameter() {
    let folder = TempDir::new().expect("a temporary folder can be made");
    let path = folder.path().join("square.nc");
    let text =
        "G21 F100 S9000 M3 G0 X-5 Y-3 Z5\nG42 D3 G1 X0 Y0\nX10\nY10\nX0\nY0\nG40 G0 X-20\nM2\n";
    fs::write(&path, text).expect("the temporary folder can be written");
    let path = path.display().to_string();
    let checked = |more: &[&str]| {
        let words = ["sortwright", "check", &path]
            .into_iter()
            .chain(more.iter().copied());
        let parsed = CommandLine::try_parse_from(words).map_err(|error| error.to_string());
        parsed.map(|parsed| run(&parsed.command.expect("the words name a command")))
    };
    assert_eq!(checked(&[]), Ok(Outcome::Stopped));
    assert_eq!(checked(&["--cutter", "1=6mm"]), Ok(Outcome::Stopped));
    assert_eq!(checked(&["--cutter", "3=6mm", "--json"]), Ok(Outcome::Done));
    assert_eq!(
        checked(&["--cutter", "1=1/8in", "--cutter", "3=0.25 in"]),
        Ok(Outcome::Done)
    );
    // As wide as the way in: the cutter would stand on the path already.
    assert_eq!(checked(&["--cutter", "3=12mm"]), Ok(Outcome::Stopped));
    for wrong in ["3", "3=6", "x=6mm", "3=mm"] {
        assert!(checked(&["--cutter", wrong]).is_err(), "{wrong}");
    }
    assert_eq!(checked(&["--cutter", "0=6mm"]), Ok(Outcome::CouldNotRun));
    assert_eq!(
        checked(&["--cutter", "3=6mm", "--cutter", "3=6mm"]),
        Ok(Outcome::CouldNotRun)
    );
}

#[test]
fn any_program_gets_an_account_or_a_refusal() {
    let folder = TempDir::new().expect("a temporary folder can be made");
    for (name, text, wanted) in [
        ("foreign.nc", FOREIGN.to_owned(), Outcome::Done),
        (
            "by-zero.nc",
            FOREIGN.replace("[10+#1]", "[10/0]"),
            Outcome::Stopped,
        ),
        (
            "compensated.nc",
            FOREIGN.replace("G80", "G41 D1"),
            Outcome::Stopped,
        ),
        (
            "endless.nc",
            FOREIGN.replace("M30\n%\n", ""),
            Outcome::Stopped,
        ),
    ] {
        let path = folder.path().join(name);
        fs::write(&path, text).expect("the temporary folder can be written");
        for more in [&[][..], &["--json"]] {
            let path = path.display().to_string();
            let words = ["sortwright", "check", &path]
                .into_iter()
                .chain(more.iter().copied());
            let parsed = CommandLine::try_parse_from(words).expect("the words are a command line");
            let outcome = run(&parsed.command.expect("the words name a command"));
            assert_eq!(outcome, wanted, "{name}");
        }
    }
}
