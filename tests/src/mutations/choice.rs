//! Choices that look random and are the same in every run.

/// A stream of numbers.
#[derive(Clone, Debug)]
pub struct Choice(u64);

impl Choice {
    /// The stream of a kind and a number.
    pub fn new(kind: u64, number: u64) -> Choice {
        Choice(
            kind.wrapping_mul(0xA076_1D64_78BD_642F) ^ number.wrapping_mul(0xE703_7ED1_A0B4_28DB),
        )
    }

    /// The next number (the generator SplitMix64: G. L. Steele, D. Lea, C. H. Flood, OOPSLA 2014).
    pub fn number(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// A number below `count`; 0 where that is 0.
    pub fn below(&mut self, count: usize) -> usize {
        (self.number() % count.max(1) as u64) as usize
    }

    /// One of several.
    ///
    /// # Panics
    /// If there are none.
    pub fn one_of<'a, T>(&mut self, of: &'a [T]) -> &'a T {
        &of[self.below(of.len())]
    }
}
