//! The document behind the window, and the commands that change it. Nothing here knows a window.

pub mod apply;
pub mod begun;
pub mod command;
pub mod document;
pub mod history;
pub mod kept;
pub mod remedy;
pub mod selection;
pub mod settings;
pub mod shop;
pub mod start;
pub mod test_block;
pub mod typed;
