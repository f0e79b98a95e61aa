//! The command line: one file per command, and what they share.

mod account;
mod bench;
mod bill;
mod border;
mod check;
mod cutters;
mod feeds;
mod make;
pub(crate) mod planks;
mod proof;
mod quote;
mod reach;
mod replace;
mod routers;
mod source;
mod start;
mod terminal;
mod trace;

use std::path::PathBuf;

use clap::{Parser, Subcommand};

pub use terminal::Terminal;

/// Sortwright turns a font and an order into wood type: exact blocks, and proven programs to cut them.
///
/// Without a command, the window opens; a font or a commission may be named to open it there.
#[derive(Debug, Parser)]
#[command(name = "sortwright", version, args_conflicts_with_subcommands = true)]
pub struct CommandLine {
    /// What to do; without it, the window opens.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// A font or a commission to open in the window.
    #[arg(value_name = "FONT or COMMISSION")]
    pub open: Option<PathBuf>,
}

/// What Sortwright does without its window.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Make all programs and papers of a commission.
    Make(make::Make),
    /// Check a folder that was made, from its programs and job file alone.
    Check(check::Check),
    /// Print what will be cut, in ink, as a picture.
    Proof(proof::Proof),
    /// Set a border round its frame, and tell whether its units join.
    Border(border::BorderOf),
    /// List the corners that each cutter leaves too round.
    Reach(reach::Reach),
    /// Propose feeds, speeds and steps for the commission's cutters, with the reasons.
    Feeds(feeds::Feeds),
    /// Find the set of cutters that makes the commission for the least cost.
    Cutters(cutters::Cutters),
    /// Tell what a commission orders, and whether a text can be set from it.
    Bill(bill::BillOf),
    /// Price a commission, and what it would cost otherwise.
    Quote(quote::QuoteOf),
    /// Judge what was measured at the bench: heights, moisture, squareness, lock-up, minutes, losses.
    Bench(bench::Bench),
    /// Lay a commission on planks, and enter in the stock what is left of them.
    Planks(planks::Planks),
    /// Share the planks out among the workshop's routers.
    Routers(routers::Routers),
    /// Begin a commission for sorts of a fount that was made before, to match them.
    Replace(replace::Replace),
    /// Begin a new commission from a font and a text.
    Start(start::Start),
    /// Trace a scanned page to an outline that a commission can name as a drawing.
    Trace(trace::Trace),
}

/// How a command ended; the number is the program's exit code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Done.
    Done = 0,
    /// Stopped by a finding; nothing was written.
    Stopped = 1,
    /// It could not run.
    CouldNotRun = 2,
}

/// Runs a command.
pub fn run(command: &Command) -> Outcome {
    let terminal = Terminal::new(command.is_quiet());
    let outcome = match command {
        Command::Make(make) => make.run(&terminal),
        Command::Check(check) => check.run(&terminal),
        Command::Proof(proof) => proof.run(&terminal),
        Command::Border(border) => border.run(&terminal),
        Command::Reach(reach) => reach.run(&terminal),
        Command::Feeds(feeds) => feeds.run(&terminal),
        Command::Cutters(cutters) => cutters.run(&terminal),
        Command::Bill(bill) => bill.run(&terminal),
        Command::Quote(quote) => quote.run(&terminal),
        Command::Bench(bench) => bench.run(&terminal),
        Command::Planks(planks) => planks.run(&terminal),
        Command::Routers(routers) => routers.run(&terminal),
        Command::Replace(replace) => replace.run(&terminal),
        Command::Start(start) => start.run(&terminal),
        Command::Trace(trace) => trace.run(&terminal),
    };
    outcome.unwrap_or_else(|sentence| {
        terminal.complain(&sentence);
        Outcome::CouldNotRun
    })
}

impl Command {
    fn is_quiet(&self) -> bool {
        match self {
            Command::Make(make) => make.quiet,
            Command::Check(_)
            | Command::Proof(_)
            | Command::Border(_)
            | Command::Reach(_)
            | Command::Feeds(_)
            | Command::Cutters(_)
            | Command::Bill(_)
            | Command::Quote(_)
            | Command::Bench(_)
            | Command::Planks(_)
            | Command::Routers(_)
            | Command::Replace(_)
            | Command::Start(_)
            | Command::Trace(_) => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_command_line_is_sound() {
        CommandLine::command().debug_assert();
    }

    #[test]
    fn a_file_alone_opens_the_window() {
        let line = CommandLine::try_parse_from(["sortwright", "face.ttf"]).unwrap();
        assert!(line.command.is_none());
        assert_eq!(line.open, Some(PathBuf::from("face.ttf")));
        let line = CommandLine::try_parse_from(["sortwright"]).unwrap();
        assert!(line.command.is_none() && line.open.is_none());
        let line = CommandLine::try_parse_from(["sortwright", "check", "out"]).unwrap();
        assert!(matches!(line.command, Some(Command::Check(_))));
        assert!(CommandLine::try_parse_from(["sortwright", "make", "a.json"]).is_err());
    }
}
