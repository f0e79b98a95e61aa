//! Papers for people: the setup sheet.
