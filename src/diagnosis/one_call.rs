//! The main job in one call: from what was entered to a diagnosis.

use super::advice::Advice;
use super::assessment::Assessment;
use super::causes::Prior;
use super::posterior_summary::{Posterior, diagnose};
use super::reference::{REFERENCE_CIRCUITS, Reference, ReferenceKey};
use super::unit_questions::{UnitQuestion, unit_questions};
use crate::circuit::{CircuitKind, Conditions, Settings};
use crate::expected::{ChartSet, ExpectedWindow};
use crate::inspection::{
    Baseline, EnteredValue, Entry, Inspection, Instruments, Measurand, Observation, RecoveredCharge, ServicePorts,
};
use crate::numeric::parallel;
use crate::{Error, Refrigerant};

/// An inspection, its first reading compared with charts and healthy circuits, and the posterior over the causes.
///
/// ```
/// use satline::Refrigerant;
/// use satline::diagnosis::Diagnosis;
/// let diagnosis = Diagnosis::of(Refrigerant::R134a)
///     .low("22 psi")?
///     .high("160 psi")?
///     .ambient("86 °F")?
///     .run()?;
/// let posterior = diagnosis.posterior().expect("R-134a at 86 °F is modelled");
/// println!("no fault: {:.0} %", 100.0 * posterior.healthy());
/// assert!(posterior.healthy() < 0.1);
/// let window = diagnosis.expected().expect("and so are healthy circuits");
/// assert!(window.low_side.range().low.psi() > 22.0);
/// assert!(!diagnosis.advice().next.is_empty());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
pub struct Diagnosis {
    entry: Entry,
    instruments: Instruments,
    inspection: Inspection,
    charts: ChartSet,
    assessment: Assessment,
    posterior: Option<Posterior>,
}

impl Diagnosis {
    /// Request for a diagnosis of a circuit labelled for `refrigerant`; what was read is added, then it is run.
    pub fn of(refrigerant: Refrigerant) -> DiagnosisRequest {
        DiagnosisRequest {
            refrigerant,
            entry: Entry::default(),
            settings: Some(Settings::TEST),
            others: Vec::new(),
            equalised: None,
            instruments: Instruments::analogue(refrigerant),
            kinds: None,
            baselines: Vec::new(),
            recovered: None,
            service_ports: ServicePorts::default(),
            observations: Vec::new(),
            prior: Prior::default(),
            circuits: None,
        }
    }

    /// First reading as it was entered.
    pub fn entry(&self) -> &Entry {
        &self.entry
    }

    /// Instruments that the readings were taken with.
    pub fn instruments(&self) -> &Instruments {
        &self.instruments
    }

    /// The inspection that was diagnosed: readings, equalised pressure, recovered charge and observations.
    pub fn inspection(&self) -> &Inspection {
        &self.inspection
    }

    /// Printed charts for the refrigerant.
    pub fn charts(&self) -> &ChartSet {
        &self.charts
    }

    /// First reading compared with saturation, printed charts and rules of thumb.
    pub fn assessment(&self) -> &Assessment {
        &self.assessment
    }

    /// Window of healthy circuits under the conditions of the first reading; `None` if none is computed: for an equalised
    /// circuit, without the ambient temperature, of a blend, or in weather in which no car is cooled.
    pub fn expected(&self) -> Option<&ExpectedWindow> {
        self.assessment.expected.as_ref()
    }

    /// Posterior over the causes; `None` if no window is computed.
    pub fn posterior(&self) -> Option<&Posterior> {
        self.posterior.as_ref()
    }

    /// Advice on the diagnosis: its headline, reasons to stop, and next steps.
    pub fn advice(&self) -> Advice {
        Advice::of(self.inspection.first(), &self.assessment, self.posterior.as_ref())
    }

    /// Questions about entered numbers whose unit, sign or reference may be wrong.
    pub fn questions(&self) -> Vec<UnitQuestion> {
        unit_questions(&self.entry, &self.charts, Some(&self.assessment))
    }
}

/// A request for a [`Diagnosis`]: what was read, and what is known of the circuit.
///
/// Text is read as typed, each value with its unit; what was not read is left out.
#[derive(Debug, Clone, PartialEq)]
pub struct DiagnosisRequest {
    refrigerant: Refrigerant,
    entry: Entry,
    /// Settings of the first reading; `None` where it is of the equalised circuit.
    settings: Option<Settings>,
    others: Vec<(Entry, Settings)>,
    equalised: Option<Entry>,
    instruments: Instruments,
    kinds: Option<Vec<CircuitKind>>,
    baselines: Vec<Baseline>,
    recovered: Option<RecoveredCharge>,
    service_ports: ServicePorts,
    observations: Vec<(Observation, bool)>,
    prior: Prior,
    circuits: Option<usize>,
}

impl DiagnosisRequest {
    /// Adds the low-side gauge pressure.
    ///
    /// # Errors
    /// Those of reading text as a gauge pressure; [`Error::Twice`].
    pub fn low(self, text: &str) -> Result<Self, Error> {
        self.measured(Measurand::LowSide, text)
    }

    /// Adds the high-side gauge pressure.
    ///
    /// # Errors
    /// Those of reading text as a gauge pressure; [`Error::Twice`].
    pub fn high(self, text: &str) -> Result<Self, Error> {
        self.measured(Measurand::HighSide, text)
    }

    /// Adds the value of any measurand.
    ///
    /// # Errors
    /// Those of reading text as its kind of quantity; [`Error::Twice`].
    pub fn measured(mut self, measurand: Measurand, text: &str) -> Result<Self, Error> {
        self.entry = self.entry.with(measurand, EnteredValue::parse(measurand, text)?)?;
        Ok(self)
    }

    /// Sets the temperature of the outside air before the condenser, in the shade.
    ///
    /// # Errors
    /// Those of reading text as a temperature.
    pub fn ambient(mut self, text: &str) -> Result<Self, Error> {
        self.entry.ambient = Some(text.parse().map_err(|error: Error| error.about_input("ambient", "ambient"))?);
        Ok(self)
    }

    /// Sets the relative humidity of the outside air.
    ///
    /// # Errors
    /// Those of reading text as a share.
    pub fn humidity(mut self, text: &str) -> Result<Self, Error> {
        self.entry.humidity = Some(text.parse().map_err(|error: Error| error.about_input("humidity", "humidity"))?);
        Ok(self)
    }

    /// Sets the altitude above sea level.
    ///
    /// # Errors
    /// Those of reading text as a length.
    pub fn altitude(mut self, text: &str) -> Result<Self, Error> {
        self.entry.altitude = Some(text.parse().map_err(|error: Error| error.about_input("altitude", "altitude"))?);
        Ok(self)
    }

    /// Sets everything of the first reading at once, in place of what was given before.
    #[must_use]
    pub fn entry(self, entry: Entry) -> Self {
        Self { entry, ..self }
    }

    /// Sets the operating settings of the first reading; [`Settings::TEST`] unless given.
    #[must_use]
    pub fn settings(self, settings: Settings) -> Self {
        Self { settings: Some(settings), ..self }
    }

    /// Takes the first reading as one of the equalised circuit, engine off; both gauges are then compared with
    /// saturation and no cause is named.
    #[must_use]
    pub fn first_equalised(self) -> Self {
        Self { settings: None, ..self }
    }

    /// Adds a running reading of the same circuit with other settings; air and instruments are those of the first reading
    /// unless the entry names its own.
    #[must_use]
    pub fn also(mut self, entry: Entry, settings: Settings) -> Self {
        self.others.push((entry, settings));
        self
    }

    /// Adds the gauges of the equalised circuit as evidence beside the running readings; its temperature is the ambient
    /// of the entry, else that of the first reading.
    #[must_use]
    pub fn equalised(self, entry: Entry) -> Self {
        Self { equalised: Some(entry), ..self }
    }

    /// Sets the instruments of all readings; analogue unless given.
    #[must_use]
    pub fn instruments(self, instruments: Instruments) -> Self {
        Self { instruments, ..self }
    }

    /// Sets the kinds that the circuit may be of; the usual ones unless given.
    #[must_use]
    pub fn kinds(self, kinds: Vec<CircuitKind>) -> Self {
        Self { kinds: Some(kinds), ..self }
    }

    /// Adds what the circuit shows when it is healthy: a row of the maker's table for this car, or an earlier reading of it. Window and
    /// diagnosis become its own.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// let diagnosis = Diagnosis::of(Refrigerant::R134a)
    ///     .low("22 psi")?
    ///     .high("160 psi")?
    ///     .ambient("86 °F")?
    ///     .baseline("77 °F, 60 %: 25 to 30 psi, 175 to 213 psi".parse()?)
    ///     .baseline("95 °F, 60 %: 33 to 41 psi, 218 to 264 psi".parse()?)
    ///     .run()?;
    /// let window = diagnosis.expected().expect("R-134a at 86 °F is modelled");
    /// assert_eq!(window.baselines.len(), 2);
    /// assert!(window.fits_baselines() && window.effective_circuits > 25.0);
    /// # Ok::<(), satline::Error>(())
    /// ```
    #[must_use]
    pub fn baseline(mut self, baseline: Baseline) -> Self {
        self.baselines.push(baseline);
        self
    }

    /// Adds an earlier inspection of this circuit, from when it was well: each of its running readings is a baseline.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// let spring = Diagnosis::of(Refrigerant::R134a).low("30 psi")?.high("170 psi")?.ambient("77 °F")?.inspection()?;
    /// let now = Diagnosis::of(Refrigerant::R134a).low("22 psi")?.high("160 psi")?.ambient("86 °F")?.when_well(&spring)?.run()?;
    /// assert_eq!(now.expected().expect("R-134a at 86 °F is modelled").baselines.len(), 1);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::Mismatch`] for another refrigerant; those of [`Baseline::of`] for a reading without its conditions or without a gauge.
    pub fn when_well(mut self, earlier: &Inspection) -> Result<Self, Error> {
        if earlier.refrigerant() != self.refrigerant {
            return Err(Error::Mismatch {
                what: "refrigerant",
                reading: self.refrigerant.to_string(),
                reference: earlier.refrigerant().to_string(),
            });
        }
        let rows = earlier.running().map(Baseline::of).collect::<Result<Vec<_>, _>>()?;
        self.baselines.extend(rows);
        Ok(self)
    }

    /// Adds the charge that was recovered and weighed.
    #[must_use]
    pub fn recovered(self, recovered: RecoveredCharge) -> Self {
        Self { recovered: Some(recovered), ..self }
    }

    /// Sets the places of the service ports; anywhere along their lines unless given.
    #[must_use]
    pub fn service_ports(self, service_ports: ServicePorts) -> Self {
        Self { service_ports, ..self }
    }

    /// Adds an observation that was made.
    #[must_use]
    pub fn found(mut self, observation: Observation) -> Self {
        self.observations.push((observation, true));
        self
    }

    /// Adds an observation that was looked for and not made.
    #[must_use]
    pub fn not_found(mut self, observation: Observation) -> Self {
        self.observations.push((observation, false));
        self
    }

    /// Sets the prior over the causes; [`Prior::workshop`] unless given.
    #[must_use]
    pub fn prior(self, prior: Prior) -> Self {
        Self { prior, ..self }
    }

    /// Sets the number of circuits simulated for each cause: fewer are faster and coarser.
    #[must_use]
    pub fn circuits(self, circuits: usize) -> Self {
        Self { circuits: Some(circuits), ..self }
    }

    /// The request as one inspection, checked.
    ///
    /// # Errors
    /// Those of [`Entry::reading`] and [`Inspection`].
    pub fn inspection(&self) -> Result<Inspection, Error> {
        let first = match self.settings {
            Some(settings) => self.entry.reading(self.refrigerant, settings, &self.instruments)?,
            None => self.entry.equalised_reading(self.refrigerant, &self.instruments)?,
        };
        let mut inspection = Inspection::of(first).with_service_ports(self.service_ports);
        for (entry, settings) in &self.others {
            let entry = self.in_same_air(*entry);
            inspection = inspection.and(entry.reading(self.refrigerant, *settings, &self.instruments)?)?;
        }
        if let Some(entry) = self.equalised {
            let entry = self.in_same_air(entry);
            inspection = inspection.and(entry.equalised_reading(self.refrigerant, &self.instruments)?)?;
        }
        if let Some(kinds) = &self.kinds {
            inspection = inspection.with_kinds(kinds.clone())?;
        }
        if !self.baselines.is_empty() {
            inspection = inspection.with_baselines(self.baselines.clone())?;
        }
        if let Some(recovered) = self.recovered {
            inspection = inspection.with_recovered(recovered)?;
        }
        for &(observation, seen) in &self.observations {
            inspection = if seen { inspection.found(observation)? } else { inspection.not_found(observation)? };
        }
        Ok(inspection)
    }

    /// `entry` with the air of the first reading where it names none.
    fn in_same_air(&self, entry: Entry) -> Entry {
        let first = &self.entry;
        let mut own = entry;
        own.ambient = own.ambient.or(first.ambient);
        own.humidity = own.humidity.or(first.humidity);
        if own.altitude.is_none() && own.barometer.is_none() {
            (own.altitude, own.barometer) = (first.altitude, first.barometer);
        }
        own
    }

    /// Questions about entered numbers, without a diagnosis: for when the request was refused, as a slip may be why.
    ///
    /// # Errors
    /// Those of [`ChartSet::new`].
    pub fn questions(&self) -> Result<Vec<UnitQuestion>, Error> {
        Ok(unit_questions(&self.entry, &ChartSet::new(self.refrigerant)?, None))
    }

    /// Runs the diagnosis, with circuits simulated for exactly these conditions.
    ///
    /// # Errors
    /// Those of [`DiagnosisRequest::inspection`], [`Assessment::of`], [`Reference::of`] and [`diagnose`].
    pub fn run(&self) -> Result<Diagnosis, Error> {
        self.run_reusing(&mut None)
    }

    /// Runs the diagnosis as [`DiagnosisRequest::run`], with the circuits of `kept` where they were simulated for the same conditions;
    /// those of other conditions are replaced. The answer is the same, sooner: for an app that takes one value after another.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::Diagnosis;
    /// use satline::inspection::Measurand;
    /// let gauges = Diagnosis::of(Refrigerant::R134a).low("22 psi")?.high("160 psi")?.ambient("86 °F")?.circuits(20);
    /// let mut kept = None;
    /// gauges.run_reusing(&mut kept)?;
    /// let simulated = kept.as_ref().expect("R-134a at 86 °F is modelled").key();
    /// // one more value under the same conditions: nothing is simulated again
    /// let vent = gauges.clone().measured(Measurand::Vent, "64 °F")?;
    /// assert_eq!(vent.run_reusing(&mut kept)?, vent.run()?);
    /// assert_eq!(kept.expect("kept").key(), simulated);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// As [`DiagnosisRequest::run`].
    pub fn run_reusing(&self, kept: &mut Option<Reference>) -> Result<Diagnosis, Error> {
        let circuits = self.circuits.unwrap_or(REFERENCE_CIRCUITS);
        self.run_with(|inspection| {
            let key = ReferenceKey::with_circuits(inspection, circuits)?;
            let reference = match kept.take().filter(|reference| reference.key() == key) {
                Some(reference) => reference,
                None => Reference::with_circuits(inspection, circuits)?,
            };
            let reference = kept.insert(reference);
            let window = reference.expected()?.clone();
            Ok((diagnose(inspection, reference, &self.prior)?, Some(window)))
        })
    }

    /// Runs the diagnosis with circuits of `cache`, simulated for the bin of conditions of the readings: for many
    /// readings of one day. The window of healthy circuits is left out.
    ///
    /// # Errors
    /// As [`DiagnosisRequest::run`].
    pub fn run_cached(&self, cache: &mut ReferenceCache) -> Result<Diagnosis, Error> {
        self.run_with(|inspection| Ok((diagnose(inspection, cache.get(inspection)?, &self.prior)?, None)))
    }

    /// Runs the diagnosis of every one of `requests` as [`DiagnosisRequest::run_cached`], in their order and on all cores: for many rows of
    /// a log. Each has its own answer or error; none depends on the others.
    ///
    /// ```
    /// use satline::Refrigerant;
    /// use satline::diagnosis::{Diagnosis, DiagnosisRequest, ReferenceCache};
    /// let at = |low, ambient| Diagnosis::of(Refrigerant::R134a).low(low)?.high("160 psi")?.ambient(ambient);
    /// let rows = [at("22 psi", "86 °F")?, at("24 psi", "86 °F")?, at("24 psi", "900 °F")?];
    /// let mut cache = ReferenceCache::default();
    /// let answers = DiagnosisRequest::run_many(&rows, &mut cache);
    /// assert_eq!(answers[1], rows[1].run_cached(&mut cache));
    /// // nobody works on a car at 900 °F; the others are answered
    /// assert_eq!(answers.iter().map(Result::is_ok).collect::<Vec<_>>(), [true, true, false]);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// In each answer, those of [`DiagnosisRequest::run`].
    pub fn run_many(requests: &[Self], cache: &mut ReferenceCache) -> Vec<Result<Diagnosis, Error>> {
        // one reference after the other, each simulated on all cores; what is wrong with a request is found again below
        for inspection in requests.iter().filter_map(|request| request.inspection().ok()) {
            if is_modelled(&inspection) == Ok(true) {
                let _ = cache.get(&inspection);
            }
        }
        let cache = &*cache;
        parallel::map(requests, |request| {
            request.run_with(|inspection| {
                let posterior = match cache.known(&ReferenceKey::of_bin(inspection)?) {
                    Some(at) => diagnose(inspection, &cache.references[at].1, &request.prior)?,
                    None => diagnose(inspection, &Reference::of_bin(inspection)?, &request.prior)?,
                };
                Ok((posterior, None))
            })
        })
    }

    /// Compares the first reading with charts and rules of thumb alone, without simulated circuits.
    ///
    /// # Errors
    /// Those of [`DiagnosisRequest::inspection`] and [`Assessment::of`].
    pub fn assess(&self) -> Result<Diagnosis, Error> {
        let inspection = self.inspection()?;
        let charts = ChartSet::new(self.refrigerant)?;
        let assessment = Assessment::of(inspection.first(), &charts)?;
        let (entry, instruments) = (self.entry, self.instruments);
        Ok(Diagnosis { entry, instruments, inspection, charts, assessment, posterior: None })
    }

    fn run_with(
        &self,
        posterior: impl FnOnce(&Inspection) -> Result<(Posterior, Option<ExpectedWindow>), Error>,
    ) -> Result<Diagnosis, Error> {
        let mut diagnosis = self.assess()?;
        if is_modelled(&diagnosis.inspection)? {
            let (posterior, window) = posterior(&diagnosis.inspection)?;
            diagnosis.assessment.expected = window;
            diagnosis.posterior = Some(posterior);
        }
        Ok(diagnosis)
    }
}

/// Whether circuits can be simulated for the inspection: pure refrigerants that cool cars, under conditions in which cars are
/// cooled.
///
/// # Errors
/// Those of [`Inspection::conditions`] where no gauge was read, as nothing can be said then.
fn is_modelled(inspection: &Inspection) -> Result<bool, Error> {
    let first = inspection.first();
    if !first.is_running() {
        return Ok(false);
    }
    let gauges = first.low().is_some() || first.high().is_some();
    let covered = |day: &Conditions| ExpectedWindow::covers(inspection.refrigerant(), day.ambient);
    match first.conditions() {
        Some(day) if covered(&day) || !gauges => Ok(true),
        _ if gauges => Ok(false),
        _ => inspection.conditions().map(|_| true),
    }
}

/// Cache of references by the bins of conditions they were simulated for, for the rows of a log.
#[derive(Debug, Default)]
pub struct ReferenceCache {
    references: Vec<(ReferenceKey, Reference)>,
}

impl ReferenceCache {
    /// Reference for the bin of conditions that `inspection` is in, simulated if it is not in the cache yet.
    ///
    /// # Errors
    /// Those of [`Reference::of_bin`].
    pub fn get(&mut self, inspection: &Inspection) -> Result<&Reference, Error> {
        let key = ReferenceKey::of_bin(inspection)?;
        let at = match self.known(&key) {
            Some(at) => at,
            None => {
                self.references.push((key, Reference::of_bin(inspection)?));
                self.references.len() - 1
            }
        };
        Ok(&self.references[at].1)
    }

    /// Place of the reference with `key`.
    fn known(&self, key: &ReferenceKey) -> Option<usize> {
        self.references.iter().position(|(known, _)| known == key)
    }

    /// Number of references in the cache.
    pub fn len(&self) -> usize {
        self.references.len()
    }

    /// Whether no reference is in the cache.
    pub fn is_empty(&self) -> bool {
        self.references.is_empty()
    }
}

#[cfg(test)]
#[cfg(feature = "serde")]
mod tests {
    use super::*;
    use crate::numeric::parallel::asked;

    /// Posterior and report as JSON, and the window, all with every digit: of a first reading, then with the vent added, from the same
    /// circuits.
    fn written(request: &DiagnosisRequest) -> [String; 2] {
        let mut kept = None;
        [request.clone(), request.clone().measured(Measurand::Vent, "15 °C").unwrap()].map(|request| {
            let diagnosis = request.run_reusing(&mut kept).unwrap();
            let posterior = serde_json::to_string(diagnosis.posterior().unwrap()).unwrap();
            let report = serde_json::to_string(&diagnosis.report()).unwrap();
            format!("{posterior}\n{report}\n{:?}", diagnosis.expected().unwrap())
        })
    }

    #[test]
    fn an_answer_is_the_same_on_any_number_of_threads_bit_for_bit() {
        let gauges = Diagnosis::of(Refrigerant::R134a).low("1.6 bar").unwrap().high("12 bar").unwrap();
        let gauges = gauges.ambient("30 °C").unwrap().circuits(60);
        let own = gauges.clone().baseline("25 °C, 60 %: 171 to 209 kPa, 1204 to 1471 kPa".parse().unwrap());
        for request in [gauges, own] {
            let (one, shared) = asked::on(1, || written(&request));
            assert!(shared > 10, "{shared} times: the answer is not computed on several threads at all");
            assert!(one[0] != one[1]);
            for threads in [2, 8] {
                let (several, times) = asked::on(threads, || written(&request));
                assert_eq!(times, shared);
                assert!(several == one, "on {threads} threads the answer is another");
            }
        }
    }
}
