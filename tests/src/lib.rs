//! Helpers shared by the tests: fonts that registry crates carry, commissions and hand-made letters, a disk that can fail, what is
//! done with hostile input, a second geometry library and a second reader of programs as referees, a simulated machine, what
//! programs do to the wood, good programs made wrong, how long they take and the least that they could take, the repository's own files, and the
//! window as a maker uses it.

pub mod crash;

pub mod bad_fonts;

pub mod fonts;

pub mod hostile;

pub mod letters;

pub mod orders;

pub mod referee;

pub mod told;

pub mod measured;

pub mod mutations;

pub mod bound;

pub mod machine_time;

pub mod repository;

pub mod simulator;

pub mod window;
