//! Values for tests that try many: the same ones on every run.

/// A generator of evenly spread numbers (a linear congruential generator with Knuth's MMIX constants, from memory).
pub(super) struct Generator(u64);

impl Generator {
    pub fn new(seed: u64) -> Generator {
        Generator(seed)
    }

    pub fn bits(&mut self) -> u32 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 32) as u32
    }

    /// From `low` up to `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * f64::from(self.bits()) / f64::from(u32::MAX)
    }

    /// From 0 up to, not including, `count`.
    pub fn below(&mut self, count: usize) -> usize {
        self.bits() as usize % count.max(1)
    }
}
