//! How well each cause explains the evidence.
//!
//! The likelihood of what was read under a cause is estimated from simulated cars: a Gaussian kernel round each, over the size of
//! the fault and what the car shows, as wide as the cars of that cause scatter times a factor for their number (Silverman, Density
//! Estimation, 1986, eq. 4.14), plus what instruments and model leave open. Kernels are slanted as the cars are: what moves
//! together counts together, and what is read moves the size of each car along with it (regression adjustment, Beaumont, Zhang
//! & Balding, Genetics 162 (2002) 2025; from memory). Cars are drawn in towards the middle of cars of their size, by as much as
//! the width of the kernels would spread them (West, J. R. Stat. Soc. B 55 (1993) 409; from memory), and their scatter counts for
//! how few they are.

use std::rc::Rc;

use nalgebra::{DMatrix, DVector};

use super::cause::Cause;
use super::evidence::{Datum, TEXTS, smoothed};
use super::fault::Fault;
use super::reference::{Group, Reference, Sample, column};
use super::{Evidence, Prior};
use crate::Error;

/// Standard deviation of sizes spread evenly over the range: 1/√12.
const SIZES: f64 = 0.288_675_134_594_812_9;

/// How near in size two cars count as alike, as a share of the range, when their scatter is taken.
const ALIKE: f64 = 0.12;

/// Those of the cars of a cause in which all of it shows, and which share of its cars they are: where a part that may hide moves nothing
/// measured beyond its instrument, the car is one without that part. All of them, and none, where nothing is left.
fn showing<'a>(samples: Vec<&'a Sample>, data: &[Datum], readings: usize) -> (Vec<&'a Sample>, f64) {
    /// Half a 95 % interval in standard uncertainties.
    const BEYOND: f64 = 1.96;
    let shows = |sample: &&Sample| {
        sample.without.as_ref().is_none_or(|without| {
            data.iter().any(|datum| {
                let c = column(datum.place, datum.channel, readings);
                (sample.shown[c] - without[c]).abs() > BEYOND * datum.instrument
            })
        })
    };
    let left: Vec<&Sample> = samples.iter().copied().filter(shows).collect();
    if left.is_empty() {
        return (samples, 0.0);
    }
    let share = left.len() as f64 / samples.len() as f64;
    (left, share)
}

/// How what is shown goes with the size, car by car, and from each car to its line, had it been drawn through the others alone.
struct Lines {
    slopes: Vec<DVector<f64>>,
    offs: Vec<DVector<f64>>,
}

/// Local straight lines of what is shown over the size, through the cars that show it in the same way.
///
/// They are drawn at even places a third of [`ALIKE`] apart; between two of them both lines count by how near they are.
fn lines(samples: &[&Sample], means: &[DVector<f64>], healthy: bool, sized: bool) -> Lines {
    const PLACES: usize = 25;
    let d = means[0].len();
    let mut found =
        Lines { slopes: vec![DVector::zeros(d); samples.len()], offs: vec![DVector::zeros(d); samples.len()] };
    // how much each car counts for its own line
    let mut own = vec![0.0; samples.len()];
    let mut ways: Vec<usize> = samples.iter().map(|sample| sample.way).collect();
    ways.sort_unstable();
    ways.dedup();
    for way in ways {
        let cars: Vec<usize> = (0..samples.len()).filter(|&i| samples[i].way == way).collect();
        for place in 0..PLACES {
            let at = place as f64 / (PLACES - 1) as f64;
            // cars up to the next place on either side go by this line, the nearer the more
            let near = |size: f64| (1.0 - (size - at).abs() * (PLACES - 1) as f64).max(0.0);
            if !cars.iter().any(|&i| near(samples[i].size) > 0.0) {
                continue;
            }
            // sums of w, w t and w t², of w m and w t m, t from this place on
            let (mut w_sum, mut t_sum, mut tt_sum) = (0.0, 0.0, 0.0);
            let (mut m_sum, mut tm_sum) = (DVector::zeros(d), DVector::zeros(d));
            let weight = |t: f64| if healthy { 1.0 } else { (-0.5 * (t / ALIKE).powi(2)).exp() };
            for &i in &cars {
                let t = samples[i].size - at;
                let w = weight(t);
                (w_sum, t_sum, tt_sum) = (w_sum + w, t_sum + w * t, tt_sum + w * t * t);
                m_sum.axpy(w, &means[i], 1.0);
                tm_sum.axpy(w * t, &means[i], 1.0);
            }
            let size = t_sum / w_sum;
            let spread = tt_sum / w_sum - size * size;
            let middle = m_sum / w_sum;
            // two cars or three make no line
            let line = sized && spread > 0.25 * ALIKE * ALIKE;
            let slope = if line { (tm_sum / w_sum - &middle * size) / spread } else { DVector::zeros(d) };
            for &i in &cars {
                let (t, share) = (samples[i].size - at, near(samples[i].size));
                if share > 0.0 {
                    found.slopes[i].axpy(share, &slope, 1.0);
                    found.offs[i] += (&middle + &slope * (t - size) - &means[i]) * share;
                    let leverage = 1.0 + if line { (t - size).powi(2) / spread } else { 0.0 };
                    own[i] += share * weight(t) * leverage / w_sum;
                }
            }
        }
    }
    for (off, own) in found.offs.iter_mut().zip(own) {
        *off /= (1.0 - own).max(0.5);
    }
    found
}

/// The scatter of cars about their lines, at places along the size: what a fault leaves of the differences between cars changes
/// with it.
fn scatters(samples: &[&Sample], offs: &[DVector<f64>], healthy: bool) -> Vec<DMatrix<f64>> {
    const PLACES: usize = 8;
    /// How near in size cars lie to a place.
    const NEAR: f64 = 1.5 * ALIKE;
    let places = if healthy { 1 } else { PLACES };
    let at = |place: usize| {
        let size = (place as f64 + 0.5) / places as f64;
        let (mut sum, mut total) = (DMatrix::zeros(offs[0].len(), offs[0].len()), 0.0);
        for (sample, off) in samples.iter().zip(offs) {
            let w = if healthy { 1.0 } else { (-0.5 * ((sample.size - size) / NEAR).powi(2)).exp() };
            sum.ger(w, off, off, 1.0);
            total += w;
        }
        sum / total
    };
    (0..places).map(at).collect()
}

/// The kernels of one group on the columns that were measured.
#[derive(Debug, Clone)]
pub(super) struct Kernels<'a> {
    /// The cars.
    pub(super) samples: Vec<&'a Sample>,
    /// Width of the kernels along the size, as a share of its range.
    spread: f64,
    /// One kernel for each car.
    own: Vec<Kernel>,
    /// What their logarithm counts for, the same for every cause.
    counts: f64,
}

/// The kernel round one car, over the size of its fault and what it shows.
#[derive(Debug, Clone)]
struct Kernel {
    mean: DVector<f64>,
    /// How what it shows goes with the size, over the whole range.
    slope: DVector<f64>,
    /// The lower Cholesky factor of the covariance of what is shown.
    factor: DMatrix<f64>,
    /// Σ ln of its diagonal, up to each column.
    log_det: Vec<f64>,
}

impl<'a> Kernels<'a> {
    pub(super) fn new(
        faults: &[Fault],
        samples: Vec<&'a Sample>,
        data: &[Datum],
        readings: usize,
        counts: f64,
    ) -> Option<Self> {
        let (d, n) = (data.len(), samples.len() as f64);
        let columns: Vec<usize> = data.iter().map(|datum| column(datum.place, datum.channel, readings)).collect();
        let means: Vec<DVector<f64>> =
            samples.iter().map(|sample| DVector::from_iterator(d, columns.iter().map(|&c| sample.shown[c]))).collect();
        if means.is_empty() {
            return None;
        }
        let sized = faults.first().is_some_and(|fault| fault.runs());
        let Lines { slopes, offs } = lines(&samples, &means, faults.is_empty(), sized);
        // n cars tell of d quantities together as a scatter wider by n/(n − d − 1) would (the mean of Hotelling's T²); of no more
        // than three times, where the cars are too few for it
        let wider = n / (n - d as f64 - 1.0).max(n / 3.0);
        // h = (4/(n (d + 2)))^(1/(d + 4)), the size among the d
        let dimensions = d as f64 + if sized { 1.0 } else { 0.0 };
        let h = (4.0 / (n * (dimensions + 2.0))).powf(1.0 / (dimensions + 4.0));
        // kernels h wide round cars drawn in by √(1 − h²) scatter as the cars do
        let inwards = 1.0 - (1.0 - h * h).max(0.0).sqrt();
        let covariances: Vec<DMatrix<f64>> = scatters(&samples, &offs, faults.is_empty())
            .into_iter()
            .map(|scatter| {
                let mut covariance = scatter * (wider * h * h);
                for (i, datum) in data.iter().enumerate() {
                    covariance[(i, i)] += datum.standard * datum.standard;
                }
                covariance
            })
            .collect();
        let nearest = |sample: &Sample| {
            let place = (sample.size * covariances.len() as f64) as usize;
            &covariances[place.min(covariances.len() - 1)]
        };
        let means = means.into_iter().zip(offs).map(|(mean, off)| mean + off * inwards);
        // sizes run evenly through the cars, not by chance, so a little less than the whole width leaves no gap between them
        let spread = 0.8 * h * SIZES;
        let own = means
            .zip(slopes)
            .zip(&samples)
            .map(|((mean, slope), sample)| {
                let slope = slope * spread;
                let factor = (nearest(sample) + &slope * slope.transpose()).cholesky()?.l();
                let log_det = factor
                    .diagonal()
                    .iter()
                    .scan(0.0, |sum, l| {
                        *sum += l.ln();
                        Some(*sum)
                    })
                    .collect();
                Some(Kernel { mean, slope: slope / spread, factor, log_det })
            })
            .collect::<Option<Vec<Kernel>>>()?;
        Some(Self { samples, own, spread, counts })
    }

    /// ln of each car's kernel at `read`, in full.
    pub(super) fn each(&self, read: &DVector<f64>) -> Vec<f64> {
        self.own.iter().map(|kernel| kernel.prefixes(read).last().copied().unwrap_or(0.0)).collect()
    }

    /// ln of the likelihood over the first 1, 2, … columns, as far as it counts.
    pub(super) fn steps(&self, read: &DVector<f64>) -> Vec<f64> {
        let all: Vec<Vec<f64>> = self.own.iter().map(|kernel| kernel.prefixes(read)).collect();
        (0..read.len()).map(|i| self.counts * log_mean(all.iter().map(|steps| steps[i]))).collect()
    }

    /// The size that each car's kernel puts to `read`, and its standard deviation, as shares of the range: what is read tells of
    /// the size as far as it goes with it.
    pub(super) fn sizes(&self, read: &DVector<f64>) -> Vec<(f64, f64)> {
        let v = self.spread * self.spread;
        self.samples
            .iter()
            .zip(&self.own)
            .map(|(sample, kernel)| {
                // E[s|r] = sᵢ + σ² gᵀ Σ⁻¹ (r − mᵢ), Var = σ² − σ⁴ gᵀ Σ⁻¹ g, with Σ = L Lᵀ
                let whiten = |x: &DVector<f64>| kernel.factor.solve_lower_triangular(x);
                let (Some(off), Some(along)) = (whiten(&(read - &kernel.mean)), whiten(&kernel.slope)) else {
                    return (sample.size, self.spread);
                };
                let left = (v - v * v * along.dot(&along)).max(1e-9);
                (sample.size + v * along.dot(&off), left.sqrt())
            })
            .collect()
    }

    /// What a logarithm counts for.
    pub(super) fn counts(&self) -> f64 {
        self.counts
    }

    /// What the cars show.
    pub(super) fn means(&self) -> impl Iterator<Item = &DVector<f64>> {
        self.own.iter().map(|kernel| &kernel.mean)
    }
}

impl Kernel {
    /// ln of it at `read`, over the first 1, 2, … columns.
    fn prefixes(&self, read: &DVector<f64>) -> Vec<f64> {
        // forward substitution: z = L⁻¹ (r − m), and Σ z² grows column by column
        let d = read.len();
        let mut z = vec![0.0; d];
        let mut sum = 0.0;
        (0..d)
            .map(|i| {
                let known: f64 = (0..i).map(|j| self.factor[(i, j)] * z[j]).sum();
                z[i] = (read[i] - self.mean[i] - known) / self.factor[(i, i)];
                sum += z[i] * z[i];
                -0.5 * sum - self.log_det[i]
            })
            .collect()
    }
}

/// ln of the mean of exponentials.
pub(super) fn log_mean(logs: impl Iterator<Item = f64> + Clone) -> f64 {
    let most = logs.clone().fold(f64::NEG_INFINITY, f64::max);
    if most == f64::NEG_INFINITY {
        return most;
    }
    // what is beyond the digits of a number needs no exponential
    let part = |log: f64| if log - most > -37.0 { (log - most).exp() } else { 0.0 };
    let (sum, count) = logs.fold((0.0, 0), |(sum, count), log| (sum + part(log), count + 1));
    most + (sum / f64::from(count)).ln()
}

/// One cause, weighed.
#[derive(Debug, Clone)]
pub(super) struct Weighed<'a> {
    pub(super) cause: &'static Cause,
    /// Those of its group: causes of the same change share them.
    pub(super) kernels: Rc<Kernels<'a>>,
    /// ln of each car's kernel at what was read.
    pub(super) cars: Rc<Vec<f64>>,
    /// ln likelihood of the numbers.
    pub(super) numbers: f64,
    /// ln likelihood of what was found, by agreement of texts.
    pub(super) found: f64,
    /// Share of its cars in which all of it shows.
    pub(super) share: f64,
    /// What it counts for before anything was read: its prior times the share of its cars in which it shows.
    pub(super) weight: f64,
    pub(super) probability: f64,
}

/// The causes of one group, weighed by `samples`; none where no likelihood comes of them.
fn weigh_group<'a>(
    group: &Group,
    samples: Vec<&'a Sample>,
    evidence: &Evidence,
    data: &[Datum],
    prior: &Prior,
    simulated: &Reference,
) -> Vec<Weighed<'a>> {
    let readings = simulated.days.len();
    let (samples, share) = showing(samples, data, readings);
    // from n cars and d quantities the logarithm is only known within a variance of the order of d/n, and what is not known should
    // decide less: it counts 1 − d/(4n); the quarter was found on unseen cars, others than those of `tables/DIAGNOSIS.md`
    let counts = (1.0 - 0.25 * data.len() as f64 / simulated.cars as f64).max(0.5);
    let Some(kernels) = Kernels::new(group.causes[0].faults, samples, data, readings, counts).map(Rc::new) else {
        return Vec::new();
    };
    let cars = Rc::new(kernels.each(&values(data)));
    let numbers = kernels.counts * log_mean(cars.iter().copied());
    let one = |&cause: &&'static Cause| Weighed {
        cause,
        kernels: Rc::clone(&kernels),
        cars: Rc::clone(&cars),
        numbers,
        found: found(cause, evidence),
        share,
        weight: prior.of(cause) * share,
        probability: 0.0,
    };
    group.causes.iter().map(one).collect()
}

/// The probabilities, from likelihoods and prior weights.
fn normalise(groups: &mut [Vec<Weighed>]) {
    let log = |one: &Weighed| one.numbers + one.found + one.weight.ln();
    let most = groups.iter().flatten().map(log).fold(f64::NEG_INFINITY, f64::max);
    let total: f64 = groups.iter().flatten().map(|one| (log(one) - most).exp()).sum();
    for one in groups.iter_mut().flatten() {
        one.probability = (log(one) - most).exp() / total;
    }
}

/// Every cause, weighed, those of one group side by side, and how many cars they were compared with.
///
/// First by a few cars each; then those that may be behind the reading by all of theirs, until the leading ones all are.
///
/// # Errors
/// Those of making cars.
pub(super) fn weigh<'a>(
    simulated: &'a Reference,
    evidence: &Evidence,
    data: &[Datum],
    prior: &Prior,
) -> Result<(Vec<Weighed<'a>>, usize), Error> {
    /// How many causes may be behind a reading, and from which probability on; ours.
    const LEADING: usize = 6;
    const LEAST: f64 = 0.003;
    let weighed = |group: &Group, samples| weigh_group(group, samples, evidence, data, prior, simulated);
    let mut groups: Vec<Vec<Weighed>> = simulated.groups.iter().map(|group| weighed(group, group.few())).collect();
    let mut cars: Vec<usize> = simulated.groups.iter().map(|group| group.few().len()).collect();
    let mut whole = vec![false; groups.len()];
    loop {
        normalise(&mut groups);
        let probability = |i: &usize| groups[*i].iter().map(|one| one.probability).sum::<f64>();
        let mut order: Vec<usize> = (0..groups.len()).collect();
        order.sort_by(|a, b| probability(b).total_cmp(&probability(a)));
        let leading = order.into_iter().take(LEADING).filter(|i| probability(i) > LEAST);
        let left: Vec<usize> = leading.filter(|&i| !whole[i]).collect();
        if left.is_empty() {
            break;
        }
        for i in left {
            let all = simulated.all(&simulated.groups[i])?;
            (cars[i], whole[i]) = (all.len(), true);
            groups[i] = weighed(&simulated.groups[i], all);
        }
    }
    Ok((groups.into_iter().flatten().collect(), cars.iter().sum()))
}

/// The numbers of the data.
pub(super) fn values(data: &[Datum]) -> DVector<f64> {
    DVector::from_iterator(data.len(), data.iter().map(|datum| datum.value))
}

/// ln of how well texts agree that `cause` comes with what was found.
pub(super) fn found(cause: &Cause, evidence: &Evidence) -> f64 {
    evidence
        .observations
        .iter()
        .map(|(observation, seen)| {
            let texts = cause.found.iter().find(|(o, _)| o == observation).map_or(0, |(_, texts)| *texts);
            let share = smoothed(texts, TEXTS);
            if *seen { share.ln() } else { (1.0 - share).ln() }
        })
        .sum()
}
