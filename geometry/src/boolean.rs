//! Union, intersection and difference of regions.
