//! The workbench: the window and the command line over `cam-core`.
