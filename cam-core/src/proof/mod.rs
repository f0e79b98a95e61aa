//! Proof before cutting: checks of the programs' text, and the inked impression of what will be cut.
