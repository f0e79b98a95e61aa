//! The workbench: the window and the command line over `cam-core`.
//!
//! - [`files`] is the only place that touches files.
//! - [`commands`] holds the command line, one file per command.
//! - [`model`] holds the document and the commands that change it; it knows no window.
//! - [`background`] runs long work on threads of its own.
//! - [`view`] shows the model and sends commands to it.

pub mod files;

pub mod model;

pub mod background;

pub mod commands;

pub mod view;
