//! Draws and builds the demonstration typeface.

fn main() {}
