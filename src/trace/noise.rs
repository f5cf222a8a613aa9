//! Noise of single readings, estimated whatever the pressure does meanwhile.

/// Residuals kept.
const KEPT: usize = 64;
/// Residuals below which there is no estimate.
const MIN_RESIDUALS: usize = 8;
/// Readings between updates of the estimate.
const UPDATE_EVERY: usize = 8;
/// Lower quartile of |z| of a standard normal deviate, by definition: Φ(0.318 639) = 0.625.
const QUARTILE: f64 = 0.318_639;

/// Standard deviation of single readings about a smooth course.
///
/// The pseudo-residual of a reading is its distance from the straight line between its neighbours in time, scaled to unit
/// variance (Gasser, Sroka & Jennen-Steinmetz, Biometrika 73 (1986) 625; from memory). The lower quartile of the last
/// pseudo-residuals sets the scale, which makes the estimate robust against turning points and steps.
#[derive(Debug, Clone)]
pub(super) struct Noise {
    before: [Option<(f64, f64)>; 2],
    residuals: Vec<f64>,
    next: usize,
    since: usize,
    deviation: Option<f64>,
}

impl Noise {
    pub(super) fn new() -> Self {
        Self { before: [None; 2], residuals: Vec::new(), next: 0, since: 0, deviation: None }
    }

    pub(super) fn push(&mut self, t: f64, y: f64) {
        if let [Some((t0, y0)), Some((t1, y1))] = self.before {
            // r = y₁ − w y₀ − (1 − w) y₂, whose variance is (1 + w² + (1 − w)²) σ²
            let w = (t - t1) / (t - t0);
            let r = y1 - w * y0 - (1.0 - w) * y;
            let unit = (1.0 + w * w + (1.0 - w) * (1.0 - w)).sqrt();
            if self.residuals.len() < KEPT {
                self.residuals.push(r.abs() / unit);
            } else {
                self.residuals[self.next] = r.abs() / unit;
                self.next = (self.next + 1) % KEPT;
            }
            self.since += 1;
            if self.residuals.len() >= MIN_RESIDUALS && (self.since >= UPDATE_EVERY || self.deviation.is_none()) {
                self.since = 0;
                let mut sorted = self.residuals.clone();
                let quarter = sorted.len() / 4;
                let (_, quartile, _) = sorted.select_nth_unstable_by(quarter, f64::total_cmp);
                self.deviation = Some(*quartile / QUARTILE);
            }
        }
        self.before = [self.before[1], Some((t, y))];
    }

    /// `None` until there are enough readings.
    pub(super) fn deviation(&self) -> Option<f64> {
        self.deviation
    }
}
