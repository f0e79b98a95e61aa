//! RS-274 programs: writing them, and reading them back by a reader written from the standard.
