//! Font bytes to outlines, metrics, kerning, features, axes and licence entries.
