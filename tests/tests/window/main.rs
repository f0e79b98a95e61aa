//! The window, driven as a maker drives it: what is shown, pressed and written there.
//!
//! One program for all of these tests: they are linked once, and run beside one another.

mod actions;
mod again;
mod bench;
mod bill;
mod borders;
mod case;
mod drawings;
mod findings;
mod first_minute;
mod from_font;
mod main_job;
mod notches;
mod pictures;
mod planks;
mod plates;
mod price;
mod proof;
mod quote_in_seconds;
mod run;
mod snapshots;
mod unsaved;
mod walk;
mod workshop;
