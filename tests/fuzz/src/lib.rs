//! The target functions, the very ones that the ordinary tests run.

#[path = "../../src/hostile.rs"]
pub mod hostile;
