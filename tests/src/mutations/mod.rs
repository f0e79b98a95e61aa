//! Good programs turned into wrong ones, from their texts alone.
//!
//! Every mutation is told by its kind and a number; the same number makes the same mutation of the same texts.

mod choice;
mod kinds;
mod text;

use std::collections::BTreeMap;

pub use choice::Choice;
pub use kinds::Kind;

/// Texts by the names of their files.
pub type Texts = BTreeMap<String, String>;

/// What was done to which texts.
#[derive(Clone, Debug)]
pub struct Mutation {
    /// What was changed where, for a person.
    pub what: String,
    /// The changed texts.
    pub texts: Texts,
}

/// Makes a mutation of a kind; `None` where nothing of the texts can be changed that way.
pub fn mutate(kind: Kind, number: u64, texts: &Texts) -> Option<Mutation> {
    let mut choice = Choice::new(kind as u64, number);
    kind.apply(texts, number, &mut choice).filter(|mutation| {
        mutation
            .texts
            .iter()
            .any(|(file, text)| texts.get(file) != Some(text))
    })
}
