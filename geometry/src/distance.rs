//! Nearest distance from places and paths to an outline, for checking whatever was made by other means.
