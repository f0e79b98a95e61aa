//! Versioned files: commissions and workshops, read, written and migrated.
