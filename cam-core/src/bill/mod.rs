//! Bills of letters: pasted lists, texts to be set.
