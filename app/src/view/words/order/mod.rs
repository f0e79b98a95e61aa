//! The room Order, form by form.

pub mod again;
pub mod bill;
pub mod check;
pub mod customer;
pub mod cutter_sets;
pub mod cutting;
pub mod drawings;
pub mod face;
pub mod faces;
pub mod feeds;
pub mod notches;
pub mod otherwise;
pub mod planks;
pub mod price;
pub mod relief;
pub mod scheme;
pub mod size;
pub mod spaces;
pub mod specimen;
