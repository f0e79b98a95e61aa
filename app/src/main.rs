//! The `sortwright` program: the window without a command, else the command.

fn main() {}
