//! The `sortwright` program: the window without a command, else the command.

use std::process::ExitCode;

use clap::Parser;
use sortwright::commands::{CommandLine, Outcome, run};

fn main() -> ExitCode {
    let line = CommandLine::parse();
    let outcome = match &line.command {
        Some(command) => run(command),
        None => sortwright::view::open_window(line.open),
    };
    match outcome {
        Outcome::Done => ExitCode::SUCCESS,
        Outcome::Stopped | Outcome::CouldNotRun => ExitCode::from(outcome as u8),
    }
}
