//! From a commission for wood type to proven programs and papers.
//!
//! Everything here is pure: no files, clock, environment, printing, randomness or global state. The same input gives the
//! same bytes, on one thread or many. Long work reports to a [`progress::Progress`] and stops when that says so.
//!
//! One way through, each arrow a function between named data:
//! commission → [`sort`] → [`survey`] → [`pass`] → [`plank`] → [`toolpath`] → [`program`] → reading back → [`proof`].
//! [`make`] runs it whole.

pub mod digest;
pub mod finding;
pub mod material;
pub mod measure;
pub mod progress;
pub mod space;

pub mod commission;
pub mod record;
pub mod workshop;

pub mod bill;
pub mod feeds;
pub mod format;

pub mod colour;
pub mod replacement;
pub mod sort;

pub mod notch;

pub mod border;

pub mod survey;

pub mod cone;
pub mod relief;
pub mod routers;

mod forest;
mod lattice;
mod raster;

pub mod pass;

pub mod plank;

pub mod toolpath;

mod slowing;

pub mod program;

pub mod proof;

pub mod papers;

pub mod job_file;
pub mod make;

pub mod cutter_set;
pub mod quote;
