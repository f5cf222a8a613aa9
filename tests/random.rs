//! Random numbers that are the same on every machine.

/// SplitMix64 (Steele, Lea & Flood 2014).
#[derive(Debug)]
pub struct Random(pub u64);

impl Random {
    pub fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }
    /// Even between `low` and `high`.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * (self.bits() >> 11) as f64 / (1u64 << 53) as f64
    }
    /// Even in the logarithm.
    pub fn spread(&mut self, low: f64, high: f64) -> f64 {
        self.between(low.ln(), high.ln()).exp()
    }
    /// Standard normal (Box & Muller 1958).
    pub fn normal(&mut self) -> f64 {
        let u = self.between(f64::MIN_POSITIVE, 1.0);
        (-2.0 * u.ln()).sqrt() * (std::f64::consts::TAU * self.between(0.0, 1.0)).cos()
    }
}
