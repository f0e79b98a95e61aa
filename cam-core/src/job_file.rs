//! `job.json`: the open file that a make writes beside its programs, for outside checkers.
