//! The room Workshop, form by form.

pub mod clamps;
pub mod cutter;
pub mod cutter_picture;
pub mod list;
pub mod machine;
pub mod papers;
pub mod plank;
pub mod rates;
pub mod table;
pub mod wood;
