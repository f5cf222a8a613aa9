//! Fast saturation properties: the equation of state as piecewise polynomials.
//!
//! Over nine decades of pressure and up to the critical point no single formula follows an equation of state to its
//! last digits. Short polynomials do, each over a part of the range small enough for it, as I. H. Bell and B. K. Alpert
//! show (Int. J. Thermophys. 42 (2021) 45, doi 10.1007/s10765-020-02779-7). Here the bits of the argument lead to its
//! polynomial, so that an evaluation needs no search, logarithm or power.
//!
//! [`Curve`] is one line between temperature and pressure: the boiling curve of a pure fluid, the bubble or the dew
//! line of a blend. [`Dome`] adds density, enthalpy and entropy of both phases along a boiling curve. With feature
//! `fit`, `MadeCurve` and `MadeDome` make them from any equation.

use crate::numeric::Pieces;
use crate::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
use crate::{Error, Pressure, Range, Source, Temperature};

/// Saturation pressure by temperature, and saturation temperature by pressure, as piecewise polynomials.
///
/// - **Equation** p = Σ cᵢ (T − Tⱼ)ⁱ in piece j of the temperatures, T = Σ dᵢ (p − pⱼ)ⁱ in piece j of the pressures, i
///   up to 11; p in Pa absolute, T in K (ITS-90). The second is made from the first, not from the equation of state.
/// - **Range** [`Curve::valid`] and [`Curve::valid_pressures`], ends included; outside, every method returns an error.
/// - **Accuracy** p within 10⁻¹⁰ of the equation of state, relative, up to 0.1 K below the critical point;
///   `temperature(pressure(T))` within 10⁻⁹ K of T over the whole range. How well the equation describes the fluid is
///   another question.
/// - **Source** [`Curve::source`]: the equation of state.
///
/// ```
/// # #[cfg(feature = "fit")] {
/// # use approx::assert_abs_diff_eq;
/// # use satline::saturation::tables::MadeCurve;
/// # use satline::{Refrigerant, Temperature};
/// # let line = Refrigerant::R134a.dew_line();
/// # let made = MadeCurve::new(line.valid, line.critical_temperature, |t| line.pressure(t)).unwrap();
/// # let curve = made.curve(line.source);
/// let p = curve.pressure(Temperature::from_celsius(0.0)).unwrap();
/// assert_abs_diff_eq!(p.kpa(), 292.80, epsilon = 0.03); // Tillner-Roth & Baehr 1994, within 0.01 %
/// assert_abs_diff_eq!(curve.temperature(p).unwrap().celsius(), 0.0, epsilon = 1e-9); // K, there and back
///
/// // many at once; one that has no answer does not cost the others theirs
/// let mut pascal = [0.0; 3];
/// let error = curve.pressures(&[273.15, 400.0, 300.0], &mut pascal).unwrap_err();
/// assert!(error.to_string().starts_with("saturation temperature 126.9 °C is outside"));
/// assert_eq!(pascal[0], p.pa());
/// assert!(pascal[1].is_nan() && pascal[2] > pascal[0]);
/// # }
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curve<'a> {
    /// Range of validity in temperature.
    pub valid: Range<Temperature>,
    /// Range of validity in absolute pressure: from the pressure at the lower end of [`Curve::valid`] to that at its
    /// upper end.
    pub valid_pressures: Range<Pressure>,
    /// Equation of state that the curve was made from.
    pub source: Source,
    /// Saturation pressure in Pa as a function of temperature in K.
    pub(crate) pressure: Pieces<'a, 1>,
    /// Saturation temperature in K as a function of pressure in Pa.
    pub(crate) temperature: Pieces<'a, 1>,
}

/// Saturation dome of a pure fluid: density, enthalpy and entropy of liquid and vapour along its boiling curve.
///
/// - **Equation** ρ′, h′, s′, ρ″/p, h″ and s″ = Σ cᵢ (T − Tⱼ)ⁱ in piece j of the range, i up to 11; ρ in kg/m³, p in
///   Pa, h in J/kg, s in J/(kg K), T in K (ITS-90).
/// - **Range** [`Dome::valid`], ends included; it ends 0.1 K below the critical point, where ρ, h and s turn over ever
///   more sharply.
/// - **Accuracy** ρ, h and s within 10⁻⁹ of the equation of state, relative; where h and s pass through zero, within
///   the same fraction of 10 kJ/kg and 50 J/(kg K).
/// - **Source** that of its [`Dome::curve`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dome<'a> {
    /// Range of validity in temperature.
    pub valid: Range<Temperature>,
    /// Boiling curve of the same fluid, which gives the pressure.
    pub curve: &'a Curve<'a>,
    /// ρ in kg/m³, h in J/kg and s in J/(kg K) of the liquid as functions of temperature in K.
    pub(crate) liquid: Pieces<'a, 3>,
    /// ρ/p in kg/(m³ Pa), h in J/kg and s in J/(kg K) of the vapour as functions of temperature in K.
    pub(crate) vapour: Pieces<'a, 3>,
}

/// Liquid or vapour at saturation: density, specific enthalpy and specific entropy.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SaturatedPhase {
    /// Density of the saturated phase.
    pub density: Density,
    /// Specific enthalpy, measured from the zero of the equation of state.
    pub enthalpy: SpecificEnthalpy,
    /// Specific entropy, measured from the zero of the equation of state.
    pub entropy: SpecificEntropy,
}

impl Curve<'_> {
    /// Saturation pressure at temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside [`Curve::valid`].
    #[inline]
    pub fn pressure(&self, t: Temperature) -> Result<Pressure, Error> {
        match self.pa(t.kelvin()) {
            Some(pa) => Ok(Pressure::from_pa(pa)),
            None => Err(no_pressure(&self.valid, t)),
        }
    }

    /// Saturation temperature at absolute pressure `p`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside [`Curve::valid_pressures`].
    #[inline]
    pub fn temperature(&self, p: Pressure) -> Result<Temperature, Error> {
        match self.kelvin(p.pa()) {
            Some(kelvin) => Ok(Temperature::from_kelvin(kelvin)),
            None => Err(self.no_temperature(p)),
        }
    }

    /// Slope dp/dT of the saturation line at temperature `t`, Pa/K: the derivative of the polynomial.
    ///
    /// dp/dT = Σ i cᵢ (T − Tⱼ)ⁱ⁻¹, within 3·10⁻⁷ of the equation of state, relative, up to 0.1 K below the critical
    /// point.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside [`Curve::valid`].
    #[inline]
    pub fn slope_pa_per_kelvin(&self, t: Temperature) -> Result<f64, Error> {
        match self.pressure.slope_at(t.kelvin()) {
            Some([slope]) if self.valid.contains(t) => Ok(slope),
            _ => Err(no_pressure(&self.valid, t)),
        }
    }

    /// Saturation pressures in Pa at temperatures in K, each equal to that of [`Curve::pressure`], without allocation.
    ///
    /// A temperature outside [`Curve::valid`] gets NaN in its place and the others their pressure; the error then names
    /// the first such temperature.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for the first temperature outside [`Curve::valid`]; [`Error::Impossible`] when the slices
    /// differ in length, and then nothing is written.
    pub fn pressures(&self, kelvin: &[f64], pascal: &mut [f64]) -> Result<(), Error> {
        let range = (self.valid.low.kelvin(), self.valid.high.kelvin());
        let ends = (self.valid_pressures.low.pa(), self.valid_pressures.high.pa());
        match each(&self.pressure, range, ends, kelvin, pascal, |kelvin| self.pa(kelvin))? {
            None => Ok(()),
            Some(kelvin) => Err(no_pressure(&self.valid, Temperature::from_kelvin(kelvin))),
        }
    }

    /// Saturation temperatures in K at absolute pressures in Pa, each equal to that of [`Curve::temperature`], without
    /// allocation.
    ///
    /// A pressure outside [`Curve::valid_pressures`] gets NaN in its place and the others their temperature; the error
    /// then names the first such pressure.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] for the first pressure outside [`Curve::valid_pressures`]; [`Error::Impossible`] when the
    /// slices differ in length, and then nothing is written.
    pub fn temperatures(&self, pascal: &[f64], kelvin: &mut [f64]) -> Result<(), Error> {
        let range = (self.valid_pressures.low.pa(), self.valid_pressures.high.pa());
        let ends = (self.valid.low.kelvin(), self.valid.high.kelvin());
        match each(&self.temperature, range, ends, pascal, kelvin, |pascal| self.kelvin(pascal))? {
            None => Ok(()),
            Some(pascal) => Err(self.no_temperature(Pressure::from_pa(pascal))),
        }
    }

    #[inline]
    fn pa(&self, kelvin: f64) -> Option<f64> {
        if !(self.valid.low.kelvin() <= kelvin && kelvin <= self.valid.high.kelvin()) {
            return None;
        }
        let [pa] = self.pressure.at(kelvin)?;
        // no last place beyond the ends, so that the way back is open
        Some(within(pa, self.valid_pressures.low.pa(), self.valid_pressures.high.pa()))
    }

    #[inline]
    fn kelvin(&self, pa: f64) -> Option<f64> {
        if !(self.valid_pressures.low.pa() <= pa && pa <= self.valid_pressures.high.pa()) {
            return None;
        }
        let [kelvin] = self.temperature.at(pa)?;
        Some(within(kelvin, self.valid.low.kelvin(), self.valid.high.kelvin()))
    }

    #[cold]
    fn no_temperature(&self, p: Pressure) -> Error {
        Error::OutOfRange {
            what: "saturation pressure",
            value: p.kpa(),
            low: self.valid_pressures.low.kpa(),
            high: self.valid_pressures.high.kpa(),
            unit: "kPa",
        }
    }
}

impl Dome<'_> {
    /// Saturated liquid at temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside [`Dome::valid`].
    #[inline]
    pub fn liquid(&self, t: Temperature) -> Result<SaturatedPhase, Error> {
        match self.liquid.at(t.kelvin()) {
            Some([density, enthalpy, entropy]) if self.valid.contains(t) => {
                Ok(SaturatedPhase::new(density, enthalpy, entropy))
            }
            _ => Err(no_pressure(&self.valid, t)),
        }
    }

    /// Saturated vapour at temperature `t`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] outside [`Dome::valid`].
    #[inline]
    pub fn vapour(&self, t: Temperature) -> Result<SaturatedPhase, Error> {
        match (self.vapour.at(t.kelvin()), self.curve.pa(t.kelvin())) {
            (Some([per_pascal, enthalpy, entropy]), Some(pa)) if self.valid.contains(t) => {
                // ρ″ = p (ρ″/p): the quotient is nearly straight where the density spans decades
                Ok(SaturatedPhase::new(pa * per_pascal, enthalpy, entropy))
            }
            _ => Err(no_pressure(&self.valid, t)),
        }
    }
}

impl SaturatedPhase {
    #[inline]
    fn new(density: f64, enthalpy: f64, entropy: f64) -> Self {
        Self {
            density: Density::from_kg_per_m3(density),
            enthalpy: SpecificEnthalpy::from_j_per_kg(enthalpy),
            entropy: SpecificEntropy::from_j_per_kg_k(entropy),
        }
    }
}

/// Number of questions that are evaluated together.
const TOGETHER: usize = 32;

/// Writes the answer to each question, NaN where there is none, and returns the first question without one.
///
/// A batch that lies in `range` throughout is evaluated together from `pieces` and kept within `ends`, as `answer`
/// does.
#[inline]
fn each(
    pieces: &Pieces<1>,
    range: (f64, f64),
    ends: (f64, f64),
    questions: &[f64],
    answers: &mut [f64],
    answer: impl Fn(f64) -> Option<f64>,
) -> Result<Option<f64>, Error> {
    if questions.len() != answers.len() {
        return Err(Error::Impossible {
            what: "length of the slice for the answers",
            value: answers.len() as f64,
            must: "that of the slice of questions",
        });
    }
    let mut unanswered = None;
    let (handfuls, rest) = questions.as_chunks::<TOGETHER>();
    let (places, last_places) = answers.as_chunks_mut::<TOGETHER>();
    let mut one_by_one = |questions: &[f64], places: &mut [f64]| {
        for (question, place) in questions.iter().zip(places) {
            *place = answer(*question).unwrap_or_else(|| {
                unanswered = unanswered.or(Some(*question));
                f64::NAN
            });
        }
    };
    for (questions, places) in handfuls.iter().zip(places) {
        if all_inside(questions, range) && pieces.first_at_each(questions, places) {
            places.iter_mut().for_each(|x| *x = within(*x, ends.0, ends.1));
        } else {
            one_by_one(questions, places);
        }
    }
    one_by_one(rest, last_places);
    Ok(unanswered)
}

/// Whether every `x` lies in `range`, which is above zero.
///
/// The bits of positive numbers grow with them, those of other numbers and of NaN are above. So the steps from the lower end to
/// `x`, and from `x` to the upper end, are below 2⁶³ for an `x` in the range, and one of them is not for any other. Comparing this
/// way takes a quarter of the instructions.
#[inline]
fn all_inside(x: &[f64], range: (f64, f64)) -> bool {
    let (low, high) = (range.0.to_bits(), range.1.to_bits());
    let outside = x.iter().fold(0, |outside, x| {
        let bits = x.to_bits();
        outside | bits.wrapping_sub(low) | high.wrapping_sub(bits)
    });
    outside >> 63 == 0
}

/// `x`, or the end it lies beyond. Two instructions, where `max` and `min` take twelve because of NaN.
#[inline]
fn within(x: f64, low: f64, high: f64) -> f64 {
    let x = if x < low { low } else { x };
    if x > high { high } else { x }
}

#[cold]
fn no_pressure(valid: &Range<Temperature>, t: Temperature) -> Error {
    Error::OutOfRange {
        what: "saturation temperature",
        value: t.celsius(),
        low: valid.low.celsius(),
        high: valid.high.celsius(),
        unit: "°C",
    }
}

#[cfg(feature = "fit")]
pub use made::{MadeCurve, MadeDome};

/// Makes curves and domes from an equation of state.
#[cfg(feature = "fit")]
mod made {
    use super::{Curve, Dome, SaturatedPhase};
    use crate::numeric::{Making, Owned, increasing_root};
    use crate::{Error, Pressure, Range, Source, Temperature};

    /// Relative error allowed to p against the equation of state.
    const PRESSURE: f64 = 2e-11;
    /// Error allowed to T against the finished p(T), K.
    const KELVIN: f64 = 2e-11;
    /// Relative error allowed to ρ, h and s.
    const STATE: f64 = 1e-10;
    /// Magnitudes in J/kg and J/(kg K) below which the error of h and s is taken relative to these, since they pass
    /// through zero.
    const SMALLEST: [f64; 2] = [10e3, 50.0];
    /// Distance above the range at which the cells would shrink to nothing, if its end is the critical point, K.
    const BEYOND: f64 = 1.0 / 32.0;

    /// Tables of a [`Curve`], made from any saturation line.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::saturation::tables::MadeCurve;
    /// use satline::{Refrigerant, Temperature};
    /// let exact = Refrigerant::R134a.dew_line();
    /// let made = MadeCurve::new(exact.valid, exact.critical_temperature, |t| exact.pressure(t))?;
    /// let t = Temperature::from_celsius(0.0);
    /// let p = made.curve(exact.source).pressure(t)?;
    /// // what a piece may be off
    /// assert_abs_diff_eq!(p.pa() / exact.pressure(t)?.pa(), 1.0, epsilon = 2e-11);
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[derive(Debug, Clone, PartialEq)]
    pub struct MadeCurve {
        valid: Range<Temperature>,
        valid_pressures: Range<Pressure>,
        pressure: Owned<1>,
        temperature: Owned<1>,
    }

    /// Tables of a [`Dome`], made from any equation of state.
    ///
    /// ```
    /// use approx::assert_abs_diff_eq;
    /// use satline::quantity::{Density, SpecificEnthalpy, SpecificEntropy};
    /// use satline::saturation::tables::{MadeCurve, MadeDome, SaturatedPhase};
    /// use satline::{Range, Refrigerant, Temperature, TemperatureDifference};
    /// let line = Refrigerant::R134a.dew_line();
    /// let critical = line.critical_temperature;
    /// let made = MadeCurve::new(line.valid, critical, |t| line.pressure(t))?;
    /// let curve = made.curve(line.source);
    /// // a stand-in for an equation: the densities draw together like ∛(1 − T/Tc)
    /// let phase = |t: Temperature, side: f64| SaturatedPhase {
    ///     density: Density::from_kg_per_m3(500.0 + side * 480.0 * (1.0 - t.kelvin() / critical.kelvin()).cbrt()),
    ///     enthalpy: SpecificEnthalpy::from_j_per_kg(800.0 * t.kelvin()),
    ///     entropy: SpecificEntropy::from_j_per_kg_k(800.0 * t.kelvin().ln()),
    /// };
    /// let valid = Range::new(line.valid.low, critical - TemperatureDifference::from_kelvins(0.1));
    /// let tables = MadeDome::new(&curve, valid, critical, |t| Ok((phase(t, 1.0), phase(t, -1.0))))?;
    /// let t = Temperature::from_celsius(0.0);
    /// let liquid = tables.dome(&curve).liquid(t)?;
    /// // what a piece may be off
    /// assert_abs_diff_eq!(liquid.density / phase(t, 1.0).density, 1.0, epsilon = 1e-10);
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[derive(Debug, Clone, PartialEq)]
    pub struct MadeDome {
        valid: Range<Temperature>,
        liquid: Owned<3>,
        vapour: Owned<3>,
    }

    impl MadeCurve {
        /// Makes the tables from the saturation pressure of an equation over `valid`. The pieces narrow towards
        /// `critical`, where the equation may be singular, and which lies at the upper end of `valid` or above.
        ///
        /// p is kept within 2·10⁻¹¹ of the equation, relative, and T within 2·10⁻¹¹ K of the inverse of the finished p,
        /// except in the smallest pieces next to `critical`, where the equation cannot be followed any more closely.
        ///
        /// # Errors
        /// What `pressure` returns; [`Error::BadTable`] for a range that is empty or a pressure that needs more than
        /// 256 pieces; [`Error::NotConverged`] when it does not rise with temperature.
        pub fn new(
            valid: Range<Temperature>,
            critical: Temperature,
            pressure: impl Fn(Temperature) -> Result<Pressure, Error>,
        ) -> Result<Self, Error> {
            let (low, high) = (valid.low.kelvin(), valid.high.kelvin());
            let end = if critical > valid.high { critical.kelvin() } else { high + BEYOND };
            let of_t = Making {
                low,
                high,
                end,
                functions: |t| Ok([pressure(Temperature::from_kelvin(t))?.pa()]),
                allowed: |[p]: [f64; 1]| [PRESSURE * p],
            }
            .pieces()?;
            let finished = of_t.pieces();
            let pa = |t: f64| finished.at(t).map_or(f64::NAN, |[p]| p);
            let slope = |t: f64| finished.slope_at(t).map_or(f64::NAN, |[slope]| slope);
            let valid_pressures = Range::new(Pressure::from_pa(pa(low)), Pressure::from_pa(pa(high)));
            let of_p = Making {
                low: pa(low),
                high: pa(high),
                // as far above the range as in temperature
                end: pa(high) + (end - high) * slope(high),
                functions: |p: f64| {
                    let start = low + (high - low) * (p / pa(low)).ln() / (pa(high) / pa(low)).ln();
                    increasing_root("saturation temperature", low, high, start, |t| (pa(t) - p, slope(t))).map(|t| [t])
                },
                allowed: |_| [KELVIN],
            }
            .pieces()?;
            Ok(Self { valid, valid_pressures, pressure: of_t, temperature: of_p })
        }

        /// Curve that evaluates these tables.
        pub fn curve(&self, source: Source) -> Curve<'_> {
            Curve {
                valid: self.valid,
                valid_pressures: self.valid_pressures,
                source,
                pressure: self.pressure.pieces(),
                temperature: self.temperature.pieces(),
            }
        }

        /// Size of the tables as constants, bytes.
        pub fn bytes(&self) -> usize {
            self.pressure.bytes() + self.temperature.bytes()
        }

        /// Rust source of the curve as a constant named `name`; `source` is an expression. Every number reads back
        /// unchanged.
        pub fn to_rust(&self, name: &str, source: &str) -> String {
            format!(
                "#[rustfmt::skip]\npub static {name}: Curve<'static> = Curve {{\n    {},\n    {},\n    \
                 source: {source},\n    pressure: {},\n    temperature: {},\n}};\n",
                valid(&self.valid),
                format_args!(
                    "valid_pressures: Range::new(Pressure::from_pa({:?}), Pressure::from_pa({:?}))",
                    self.valid_pressures.low.pa(),
                    self.valid_pressures.high.pa(),
                ),
                self.pressure.to_rust("    "),
                self.temperature.to_rust("    "),
            )
        }
    }

    impl MadeDome {
        /// Makes the tables from liquid and vapour of an equation over `valid`, on `curve`, which must cover that
        /// range. The pieces narrow towards `critical`.
        ///
        /// ρ, h and s are kept within 10⁻¹⁰ of the equation, relative, except in the smallest pieces next to
        /// `critical`, where the equation cannot be followed any more closely.
        ///
        /// # Errors
        /// What `phases` returns; [`Error::OutOfRange`] where the curve does not reach; [`Error::BadTable`] for an
        /// empty range, for one that does not end below `critical`, or for phases that need more than 256 pieces.
        pub fn new(
            curve: &Curve,
            valid: Range<Temperature>,
            critical: Temperature,
            phases: impl Fn(Temperature) -> Result<(SaturatedPhase, SaturatedPhase), Error>,
        ) -> Result<Self, Error> {
            let made = |functions: &dyn Fn(f64) -> Result<[f64; 3], Error>| {
                Making {
                    low: valid.low.kelvin(),
                    high: valid.high.kelvin(),
                    end: critical.kelvin(),
                    functions,
                    allowed: |[density, enthalpy, entropy]: [f64; 3]| {
                        [density, enthalpy.abs().max(SMALLEST[0]), entropy.abs().max(SMALLEST[1])].map(|of| STATE * of)
                    },
                }
                .pieces()
            };
            let numbers = |phase: SaturatedPhase, pa: f64| {
                [phase.density.kg_per_m3() / pa, phase.enthalpy.j_per_kg(), phase.entropy.j_per_kg_k()]
            };
            let liquid = made(&|t| Ok(numbers(phases(Temperature::from_kelvin(t))?.0, 1.0)))?;
            let vapour = made(&|t| {
                let t = Temperature::from_kelvin(t);
                Ok(numbers(phases(t)?.1, curve.pressure(t)?.pa()))
            })?;
            Ok(Self { valid, liquid, vapour })
        }

        /// Dome that evaluates these tables on `curve`.
        pub fn dome<'a>(&'a self, curve: &'a Curve<'a>) -> Dome<'a> {
            Dome { valid: self.valid, curve, liquid: self.liquid.pieces(), vapour: self.vapour.pieces() }
        }

        /// Size of the tables as constants, without those of the curve, bytes.
        pub fn bytes(&self) -> usize {
            self.liquid.bytes() + self.vapour.bytes()
        }

        /// Rust source of the dome as a constant named `name`, on the curve named `curve`. Every number reads back
        /// unchanged.
        pub fn to_rust(&self, name: &str, curve: &str) -> String {
            format!(
                "#[rustfmt::skip]\npub static {name}: Dome<'static> = Dome {{\n    {},\n    curve: &{curve},\n    \
                 liquid: {},\n    vapour: {},\n}};\n",
                valid(&self.valid),
                self.liquid.to_rust("    "),
                self.vapour.to_rust("    "),
            )
        }
    }

    fn valid(range: &Range<Temperature>) -> String {
        format!(
            "valid: Range::new(Temperature::from_kelvin({:?}), Temperature::from_kelvin({:?}))",
            range.low.kelvin(),
            range.high.kelvin(),
        )
    }
}

#[cfg(test)]
mod tests {
    use super::{all_inside, within};

    #[test]
    fn what_lies_beyond_an_end_is_the_end() {
        assert_eq!([1.0, 2.0, 2.5, 3.0, 4.0].map(|x| within(x, 2.0, 3.0)), [2.0, 2.0, 2.5, 3.0, 3.0]);
        assert!(within(f64::NAN, 2.0, 3.0).is_nan());
    }

    #[test]
    fn bits_and_numbers_agree_on_what_is_inside() {
        let range = (169.85, 374.21);
        for end in [range.0, range.1, 0.0, 1.0, 1e300, f64::MIN_POSITIVE, f64::MAX, f64::INFINITY, f64::NAN] {
            for x in [end, end.next_down(), end.next_up(), -end, 272.0] {
                assert_eq!(all_inside(&[272.0, x, 300.0], range), range.0 <= x && x <= range.1, "{x}");
            }
        }
    }
}
