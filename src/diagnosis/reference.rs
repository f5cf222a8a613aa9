//! Circuits with and without each cause, simulated for the conditions of one inspection.

use std::ops::{ControlFlow, Range};
use std::sync::OnceLock;

use super::causes::{ALL, Cause, Masking};
use super::data::{equalised, recovered, shown, stopped};
use crate::circuit::{Circuit, CircuitKind, Conditions, Population, SteadyState, Unknowns};
use crate::expected::{Correction, ExpectedWindow, OwnCircuit, OwnCircuits, effective_size, operating_point};
use crate::inspection::{Baseline, Inspection, Measurand, MeasurandKind, MeasuredWhen, ServicePorts};
use crate::numeric::parallel;
use crate::{Error, Temperature};

/// Number of circuits simulated for each cause that may explain a reading.
pub const REFERENCE_CIRCUITS: usize = 150;

/// Every cause begins with this fraction of its circuits: enough to see whether it may explain a reading. Our choice.
const FIRST_FRACTION: usize = 5;

/// How many groups are simulated between two reports of progress; our choice.
const GROUPS_AT_ONCE: usize = 8;

/// Seed of the circuits of a diagnosis; those of a window have another.
const SEED: u64 = 0x5eed;

/// One circuit with one cause of one size.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sample {
    /// Size of the first fault of the cause, 0 to 1 over its range.
    pub(super) size: f64,
    /// Index of the mode in which the cause shows.
    pub(super) mode: usize,
    /// What it shows: the running measurands of each reading, then the equalised pressure and the recovered charge.
    pub(super) shown: Vec<f64>,
    /// What it would show without the part of the cause that may be undetectable; `None` if all of it is detectable.
    pub(super) without: Option<Vec<f64>>,
    /// Weight of the circuit by the baselines; one without.
    pub(super) weight: f64,
    /// Which circuit it is, of which kind, and its steady states, one for each reading.
    circuit: (usize, CircuitKind),
    steady_states: Vec<Unknowns>,
}

/// The circuits of one change: those of an ambiguity group of causes.
#[derive(Debug, Clone)]
pub(super) struct Group {
    /// The causes that change the circuit so. They share their circuits: on other circuits chance would tell them apart.
    pub(super) causes: Vec<&'static Cause>,
    /// The first of them.
    first: Vec<Sample>,
    /// All others, simulated when they are first asked for.
    others: OnceLock<Vec<Sample>>,
}

impl Group {
    /// The circuits that every reading is compared with.
    pub(super) fn few(&self) -> Vec<&Sample> {
        self.first.iter().collect()
    }
}

/// Key of a [`Reference`], for caches: two references of the same key have the same circuits.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct ReferenceKey {
    kinds: Vec<CircuitKind>,
    /// Ambient, humidity, air pressure and settings of each running reading, as bits.
    conditions: Vec<[u64; 7]>,
    equalised_at: u64,
    circuits: usize,
    /// Every number of every baseline, as bits.
    baselines: Vec<[u64; 11]>,
    service_ports: ServicePorts,
}

impl ReferenceKey {
    /// Key of the reference simulated for exactly the conditions of `inspection`.
    ///
    /// # Errors
    /// Those of [`Inspection::conditions`].
    pub fn of(inspection: &Inspection) -> Result<Self, Error> {
        Self::with_circuits(inspection, REFERENCE_CIRCUITS)
    }

    /// The same with so many circuits for each cause.
    pub(super) fn with_circuits(inspection: &Inspection, circuits: usize) -> Result<Self, Error> {
        let conditions = inspection.conditions()?;
        let at = equalised_at(inspection, &conditions);
        Ok(Self::new(inspection, &conditions, at, circuits))
    }

    /// Key of the reference simulated for the bin of conditions that `inspection` is in.
    ///
    /// # Errors
    /// Those of [`Inspection::conditions`].
    pub fn of_bin(inspection: &Inspection) -> Result<Self, Error> {
        let (conditions, equalised_at) = binned(inspection)?;
        Ok(Self::new(inspection, &conditions, equalised_at, REFERENCE_CIRCUITS))
    }

    fn new(inspection: &Inspection, conditions: &[Conditions], equalised_at: Temperature, circuits: usize) -> Self {
        Self {
            kinds: inspection.kinds().to_vec(),
            conditions: conditions.iter().map(Conditions::bits).collect(),
            equalised_at: equalised_at.kelvin().to_bits(),
            circuits,
            baselines: inspection.baselines().iter().map(Baseline::bits).collect(),
            service_ports: inspection.service_ports(),
        }
    }
}

/// Progress of a simulation: circuits done, of circuits in all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub struct Progress {
    /// Number of circuits simulated so far.
    pub done: usize,
    /// Number of circuits to simulate in all.
    pub total: usize,
}

/// Healthy and faulty circuits, simulated for the conditions of one inspection and compared with any reading of those.
///
/// Every cause begins with a fifth of its circuits. Those that may explain a reading get all of them when it is diagnosed, and
/// keep them for the next; so the answer to a reading does not depend on those before it. Each cause is put into the same
/// circuits (common random numbers). A reference is `Send` and `Sync` and may serve several threads.
///
/// Where the inspection has baselines ([`Inspection::with_baselines`]), the circuits are those of the window of this circuit
/// ([`ExpectedWindow::for_baselines`]), and have its weights in every density; gauge pressures are those of the model moved by what
/// the baselines lie off it, with what that leaves unknown in place of the model uncertainty.
///
/// ```
/// use satline::Refrigerant;
/// use satline::circuit::Settings;
/// use satline::diagnosis::{Prior, Reference, diagnose};
/// use satline::inspection::{Entry, Inspection, Instruments};
/// let r = Refrigerant::R134a;
/// let at = |ambient: &str| {
///     let entry = Entry::gauges("22 psi".parse()?, "160 psi".parse()?).ambient(ambient.parse()?);
///     Ok::<_, satline::Error>(Inspection::of(entry.reading(r, Settings::TEST, &Instruments::analogue(r))?))
/// };
/// let reference = Reference::with_circuits(&at("86 °F")?, 10)?;
/// assert!(diagnose(&at("86 °F")?, &reference, &Prior::uniform()).is_ok());
/// // circuits simulated for 86 °F answer no reading of 104 °F
/// assert!(diagnose(&at("104 °F")?, &reference, &Prior::uniform()).is_err());
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone)]
pub struct Reference {
    kinds: Vec<CircuitKind>,
    conditions: Vec<Conditions>,
    equalised_at: Temperature,
    key: ReferenceKey,
    pub(super) groups: Vec<Group>,
    healthy: Vec<HealthyCircuits>,
    /// Circuits weighted by the baselines of the inspection; `None` without.
    own: Option<Own>,
    window: OnceLock<Result<ExpectedWindow, Error>>,
    /// Circuits for each cause in all.
    pub(super) circuits: usize,
}

/// Temperature at which the equalised pressure of `inspection` was read, else that of the first reading's air.
fn equalised_at(inspection: &Inspection, conditions: &[Conditions]) -> Temperature {
    let read = inspection.equalised().and_then(|reading| reading.ambient()).map(|t| t.value());
    read.unwrap_or(conditions[0].ambient)
}

/// Midpoints of the bins that the conditions of `inspection` and its equalised temperature lie in; every temperature of a bin
/// is within [`EQUALISED_WITHIN_K`] of its midpoint.
fn binned(inspection: &Inspection) -> Result<(Vec<Conditions>, Temperature), Error> {
    let conditions: Vec<Conditions> = inspection.conditions()?.iter().map(Conditions::bin).collect();
    let width = 2.0 * EQUALISED_WITHIN_K;
    let at = equalised_at(inspection, &conditions).celsius();
    Ok((conditions, Temperature::from_celsius((at / width).round() * width)))
}

/// Number of running measurands.
fn running_measurands() -> usize {
    Measurand::running().count()
}

/// Index of `measurand` of running reading `place` among what circuits show of `readings` readings.
pub(super) fn column(place: usize, measurand: Measurand, readings: usize) -> usize {
    let running = running_measurands();
    match measurand.when() {
        MeasuredWhen::Running => {
            running * place + Measurand::running().position(|other| other == measurand).unwrap_or(0)
        }
        MeasuredWhen::Equalised => running * readings,
        MeasuredWhen::Recovered => running * readings + 1,
    }
}

impl Reference {
    /// Simulates a reference for the kinds and conditions of `inspection`, with every cause that they can have.
    ///
    /// # Errors
    /// Those of [`Inspection::conditions`] and of solving a circuit but [`Error::NotConverged`]: a circuit without a steady state is
    /// left out.
    pub fn of(inspection: &Inspection) -> Result<Self, Error> {
        Self::with_circuits(inspection, REFERENCE_CIRCUITS)
    }

    /// Simulates a reference with `circuits` circuits per cause, not [`REFERENCE_CIRCUITS`]: more are finer and slower.
    ///
    /// # Errors
    /// As [`Reference::of`]; [`Error::TooFew`] for no circuits.
    pub fn with_circuits(inspection: &Inspection, circuits: usize) -> Result<Self, Error> {
        Self::watched(inspection, circuits, |_| ControlFlow::Continue(()))
    }

    /// Simulates a reference at the midpoint of the bin of conditions of `inspection` ([`Conditions::bin`]), so that
    /// one reference serves every reading in the bin, as in a log.
    ///
    /// # Errors
    /// As [`Reference::of`].
    pub fn of_bin(inspection: &Inspection) -> Result<Self, Error> {
        let (conditions, at) = binned(inspection)?;
        Self::simulate(inspection, conditions, at, REFERENCE_CIRCUITS, |_| ControlFlow::Continue(()))
    }

    /// Simulates a reference and reports its progress to `watch`, which may stop the simulation.
    ///
    /// # Errors
    /// As [`Reference::with_circuits`]; [`Error::Stopped`].
    pub fn watched(
        inspection: &Inspection,
        circuits: usize,
        watch: impl FnMut(Progress) -> ControlFlow<()>,
    ) -> Result<Self, Error> {
        let conditions = inspection.conditions()?;
        let at = equalised_at(inspection, &conditions);
        Self::simulate(inspection, conditions, at, circuits, watch)
    }

    fn simulate(
        inspection: &Inspection,
        conditions: Vec<Conditions>,
        equalised_at: Temperature,
        circuits: usize,
        mut watch: impl FnMut(Progress) -> ControlFlow<()>,
    ) -> Result<Self, Error> {
        if circuits == 0 {
            let way_out = "ask for some; what chance does to few shows in every probability";
            return Err(Error::TooFew { what: "circuits for each cause", found: 0, needed: 1, way_out });
        }
        let kinds = inspection.kinds().to_vec();
        let healthy =
            kinds.iter().map(|kind| HealthyCircuits::new(*kind, circuits)).collect::<Result<Vec<_>, Error>>()?;
        let own = match inspection.baselines() {
            [] => None,
            baselines => Some(Own::new(OwnCircuits::of(&kinds, baselines)?, &conditions)),
        };
        let key = ReferenceKey::new(inspection, &conditions, equalised_at, circuits);
        let (groups, window) = (Vec::new(), OnceLock::new());
        let mut reference = Self { kinds, conditions, equalised_at, key, groups, healthy, own, window, circuits };
        for &cause in ALL.iter().filter(|cause| reference.kinds.iter().any(|kind| cause.applies_to(kind))) {
            match reference.groups.iter_mut().find(|group| group.causes[0].changes_like(cause)) {
                Some(group) => group.causes.push(cause),
                None => {
                    let group = Group { causes: vec![cause], first: Vec::new(), others: OnceLock::new() };
                    reference.groups.push(group);
                }
            }
        }
        let each = reference.first();
        let total = each * reference.groups.len();
        let mut report = |done| match watch(Progress { done, total }) {
            ControlFlow::Continue(()) => Ok(()),
            ControlFlow::Break(()) => Err(Error::Stopped { done, total }),
        };
        // the group of no fault is the first one: the others begin at its steady states
        let mut done = 0;
        while done < reference.groups.len() {
            report(each * done)?;
            let healthy = if done == 0 { &[][..] } else { &reference.groups[0].first };
            let next = if done == 0 { 1 } else { reference.groups.len().min(done + GROUPS_AT_ONCE) };
            let first = parallel::map(&reference.groups[done..next], |group| {
                reference.samples(group.causes[0], 0..each, healthy)
            });
            for (group, first) in reference.groups[done..next].iter_mut().zip(first) {
                group.first = first?;
            }
            done = next;
        }
        report(total)?;
        Ok(reference)
    }

    /// Conditions that were simulated, one for each running reading.
    pub fn conditions(&self) -> &[Conditions] {
        &self.conditions
    }

    /// Kinds of the simulated circuits, each as likely.
    pub fn kinds(&self) -> &[CircuitKind] {
        &self.kinds
    }

    /// Key of the reference, for caches.
    pub fn key(&self) -> ReferenceKey {
        self.key.clone()
    }

    /// Window of healthy circuits of the reference's kinds under its first conditions, computed on first use; the circuit's own where
    /// there are baselines.
    ///
    /// # Errors
    /// Those of [`ExpectedWindow::for_baselines`].
    pub fn expected(&self) -> Result<&ExpectedWindow, Error> {
        let window = self.window.get_or_init(|| match &self.own {
            Some(own) => ExpectedWindow::of_own(&own.circuits, &self.kinds, &self.conditions[0]),
            None => ExpectedWindow::for_kinds(&self.kinds, &self.conditions[0]),
        });
        window.as_ref().map_err(Clone::clone)
    }

    /// `Ok` if the circuits were simulated for the conditions of `inspection`.
    ///
    /// # Errors
    /// [`Error::Mismatch`] with what differs; those of [`Inspection::conditions`].
    pub fn matches(&self, inspection: &Inspection) -> Result<(), Error> {
        let read = inspection.conditions()?;
        let mismatch = |what, reading: String, reference: String| Err(Error::Mismatch { what, reading, reference });
        if read.len() != self.conditions.len() {
            return mismatch("number of running readings", read.len().to_string(), self.conditions.len().to_string());
        }
        let refrigerant = inspection.refrigerant();
        if let Some(kind) = self.kinds.iter().find(|kind| kind.refrigerant != refrigerant) {
            return mismatch("refrigerant", refrigerant.to_string(), kind.refrigerant.to_string());
        }
        if inspection.kinds() != self.kinds {
            let names = |kinds: &[CircuitKind]| kinds.iter().map(ToString::to_string).collect::<Vec<_>>().join("; or ");
            return mismatch("kind of circuit", names(inspection.kinds()), names(&self.kinds));
        }
        if inspection.baselines() != self.baselines() {
            let rows =
                |baselines: &[Baseline]| baselines.iter().map(ToString::to_string).collect::<Vec<_>>().join("; ");
            return mismatch("what the healthy circuit shows", rows(inspection.baselines()), rows(self.baselines()));
        }
        if inspection.service_ports() != self.key.service_ports {
            let places = |ports: ServicePorts| format!("{ports:?}");
            let what = "place of the service ports";
            return mismatch(what, places(inspection.service_ports()), places(self.key.service_ports));
        }
        for (read, simulated) in read.iter().zip(&self.conditions) {
            read.matches(simulated)?;
        }
        if let Some(at) = inspection.equalised().and_then(|reading| reading.ambient())
            && (at.value() - self.equalised_at).kelvins().abs() > EQUALISED_WITHIN_K * (1.0 + SLACK)
        {
            let text = |t: Temperature| format!("{:.1} °C", t.celsius());
            return mismatch("temperature of the equalised circuit", text(at.value()), text(self.equalised_at));
        }
        Ok(())
    }

    /// How many circuits each cause begins with.
    fn first(&self) -> usize {
        self.circuits.div_ceil(FIRST_FRACTION)
    }

    /// What the circuit is known to show when it is healthy.
    fn baselines(&self) -> &[Baseline] {
        self.own.as_ref().map_or(&[], |own| own.circuits.baselines())
    }

    /// Number of circuits for each cause, or as many of equal weight as theirs are worth.
    pub(super) fn effective_circuits(&self) -> usize {
        match &self.own {
            None => self.circuits,
            Some(own) => {
                let chosen = own.circuits.selection(|_| true, self.circuits);
                effective_size(chosen.into_iter().map(|(_, weight)| weight)).round() as usize
            }
        }
    }

    /// How much the baselines speak for the kinds that can have `cause`, against all kinds; one without baselines.
    pub(super) fn evidence_of_kinds(&self, cause: &Cause) -> f64 {
        self.own.as_ref().map_or(1.0, |own| own.circuits.evidence(&self.kinds, |kind| cause.applies_to(kind)))
    }

    /// Standard uncertainty of the model for `measurand` of running reading `place`.
    pub(super) fn model_uncertainty(&self, place: usize, measurand: Measurand) -> f64 {
        let corrected = self.own.as_ref().and_then(|own| own.corrections[place].iter().find(|one| one.0 == measurand));
        corrected.map_or(measurand.row().model_uncertainty, |(_, correction)| correction.variance.sqrt())
    }

    /// Circuits `indices` with `cause`, its size running evenly through them; those without a steady state are left out. The
    /// steady state of the same circuit among the `healthy` is where the search begins.
    fn samples(&self, cause: &'static Cause, indices: Range<usize>, healthy: &[Sample]) -> Result<Vec<Sample>, Error> {
        let drawn = self.drawn(cause, &indices);
        let many = drawn.len() as f64;
        let one = |(place, drawn): (usize, Drawn)| {
            let size = (place as f64 + 0.5) / many;
            let healthy = healthy.iter().find(|sample| sample.circuit == drawn.which);
            self.sample(cause, &drawn, indices.start + place, size, healthy).transpose()
        };
        drawn.iter().cloned().enumerate().filter_map(one).collect()
    }

    /// Healthy circuits `indices` of those that can have `cause`.
    fn drawn(&self, cause: &Cause, indices: &Range<usize>) -> Vec<Drawn> {
        let mut drawn = self.drawn_anywhere(cause, indices);
        drawn.iter_mut().for_each(|one| self.key.service_ports.place(&mut one.circuit));
        drawn
    }

    /// The same with their service ports anywhere along their lines.
    fn drawn_anywhere(&self, cause: &Cause, indices: &Range<usize>) -> Vec<Drawn> {
        let Some(own) = &self.own else {
            let able: Vec<&HealthyCircuits> = self.healthy.iter().filter(|of| cause.applies_to(&of.kind())).collect();
            let one = |i: usize| {
                let of_kind = able[i % able.len()];
                let (circuit, which) = (of_kind.circuit(i), (i, of_kind.kind()));
                Drawn { which, index: i as u64, circuit, weight: 1.0, shifts: Vec::new(), near: None }
            };
            return indices.clone().map(one).collect();
        };
        let chosen = own.circuits.selection(|kind| cause.applies_to(kind), self.circuits);
        chosen
            .into_iter()
            .skip(indices.start)
            .take(indices.len())
            .map(|(circuit, weight)| own.drawn(circuit, weight))
            .collect()
    }

    /// All circuits of each of `groups`.
    pub(super) fn all<'a>(&'a self, groups: &[&'a Group]) -> Result<Vec<Vec<&'a Sample>>, Error> {
        let rest = self.first()..self.circuits;
        let make = |group: &Group, healthy: &[Sample]| -> Result<(), Error> {
            if group.others.get().is_none() {
                let made = self.samples(group.causes[0], rest.clone(), healthy)?;
                group.others.get_or_init(|| made);
            }
            Ok(())
        };
        // the group of no fault is the first one: the others begin at its steady states
        let healthy = &self.groups[0];
        make(healthy, &[])?;
        let begin = healthy.others.get().map_or(&[][..], Vec::as_slice);
        parallel::map(groups, |group| make(group, begin)).into_iter().collect::<Result<(), Error>>()?;
        Ok(groups
            .iter()
            .map(|group| group.first.iter().chain(group.others.get().into_iter().flatten()).collect())
            .collect())
    }

    /// The `i`-th of the circuits with `cause`, which is this sample when it is `healthy`; `None` without a steady state.
    fn sample(
        &self,
        cause: &'static Cause,
        drawn: &Drawn,
        i: usize,
        size: f64,
        healthy: Option<&Sample>,
    ) -> Result<Option<Sample>, Error> {
        let near = healthy.map(|sample| &sample.steady_states).or(drawn.near.as_ref());
        let near = near.filter(|_| !cause.faults.iter().any(|fault| fault.is_far_from_healthy()));
        let faulty = Faulty::new(cause, drawn.circuit, i as u64, size);
        let (circuit, weight) = (drawn.which, drawn.weight);
        let Faulty { with, without, mode } = &faulty;
        let mode = *mode;
        if !cause.compressor_turns {
            let mut shown: Vec<f64> = self.conditions.iter().flat_map(|day| stopped(with, day)).collect();
            shown.extend(self.not_running(with));
            return Ok(Some(Sample { size, mode, shown, without: None, weight, circuit, steady_states: Vec::new() }));
        }
        let mut states = Vec::with_capacity(self.conditions.len());
        for (place, conditions) in self.conditions.iter().enumerate() {
            let near = near.map(|near| &near[place]);
            let Some(found) = faulty.run(cause, conditions, drawn.index, near)? else { return Ok(None) };
            states.push(found);
        }
        let read = |pick: &dyn Fn(&Found) -> SteadyState, circuit: &Circuit| -> Vec<f64> {
            let running = states
                .iter()
                .zip(&self.conditions)
                .flat_map(|(found, day)| shown(&pick(found), day.air).collect::<Vec<_>>());
            let mut shown: Vec<f64> = running.chain(self.not_running(circuit)).collect();
            for &(place, measurand, shift) in &drawn.shifts {
                shown[column(place, measurand, self.conditions.len())] += shift;
            }
            shown
        };
        let undetectable =
            cause.faults.iter().any(|fault| fault.may_be_undetectable()) && states.iter().all(|found| found.masked);
        let shown_without =
            undetectable.then(|| read(&|found| found.without.clone().unwrap_or(found.with.clone()), without));
        let steady_states = states.iter().filter_map(|found| found.steady_state).collect();
        let mut shown = read(&|found| found.with.clone(), with);
        if let Some(fraction) = cause.faults.iter().find_map(|fault| fault.mole_fraction(&drawn.circuit, size)) {
            let Some(healthy) = healthy else { return Ok(None) };
            shown = mixed(&healthy.shown, &shown, fraction);
        }
        Ok(Some(Sample { size, mode, shown, without: shown_without, weight, circuit, steady_states }))
    }

    /// Values that `circuit` shows when it is not running: the equalised pressure and the recovered charge.
    fn not_running(&self, circuit: &Circuit) -> [f64; 2] {
        [equalised(circuit, self.equalised_at).pa().ln(), recovered(circuit)]
    }
}

/// What a circuit shows that is filled with an ideal mixture: `fraction` of what `other` shows filled with one, the rest of what `own` shows
/// filled with the other; pressures are logarithms.
fn mixed(own: &[f64], other: &[f64], fraction: f64) -> Vec<f64> {
    let between = |own: f64, other: f64| own + fraction * (other - own);
    let one = |(measurand, (&own, &other)): (Measurand, (&f64, &f64))| match measurand.kind() {
        MeasurandKind::Pressure => between(own.exp(), other.exp()).ln(),
        _ => between(own, other),
    };
    shown_measurands(own.len()).zip(own.iter().zip(other)).map(one).collect()
}

/// What stands in each of the `columns` of what a circuit shows: the running measurands of each reading, then the two at rest.
fn shown_measurands(columns: usize) -> impl Iterator<Item = Measurand> {
    let running = Measurand::running().collect::<Vec<_>>().into_iter().cycle();
    running.take(columns - AT_REST.len()).chain(AT_REST)
}

/// What a circuit shows when it is not running, in the order of its columns.
const AT_REST: [Measurand; 2] = [Measurand::EqualisedPressure, Measurand::RecoveredCharge];

/// Largest distance of an equalised circuit's temperature from the simulated one, K; our choice, as for the ambient.
const EQUALISED_WITHIN_K: f64 = 0.5;

/// Rounding of a temperature in the middle of two bins, as a fraction of half a bin; our choice.
const SLACK: f64 = 1e-9;

/// Healthy circuits of one kind, each drawn when it is first asked for: every cause is put into the same ones.
#[derive(Debug, Clone)]
struct HealthyCircuits {
    population: Population,
    drawn: Vec<OnceLock<Circuit>>,
}

impl HealthyCircuits {
    fn new(kind: CircuitKind, circuits: usize) -> Result<Self, Error> {
        Ok(Self { population: Population::with_seed(kind, SEED)?, drawn: vec![OnceLock::new(); circuits] })
    }

    fn kind(&self) -> CircuitKind {
        self.population.kind()
    }

    /// Circuit `i` of as many as the reference has for each cause.
    fn circuit(&self, i: usize) -> Circuit {
        *self.drawn[i].get_or_init(|| self.population.circuit(i as u64))
    }
}

/// A healthy circuit that causes are put into.
#[derive(Debug, Clone)]
struct Drawn {
    /// Which circuit it is, of which kind.
    which: (usize, CircuitKind),
    /// Its index in its population, by which an unknown humidity is spread.
    index: u64,
    circuit: Circuit,
    weight: f64,
    /// What is added to a logarithmic pressure of a reading.
    shifts: Vec<(usize, Measurand, f64)>,
    /// Where the search for each steady state begins.
    near: Option<Vec<Unknowns>>,
}

/// Circuits weighted by the baselines, with the corrections of both gauge pressures for each running reading.
#[derive(Debug, Clone)]
struct Own {
    circuits: OwnCircuits,
    corrections: Vec<[(Measurand, Correction); 2]>,
    conditions: Vec<Conditions>,
}

impl Own {
    fn new(circuits: OwnCircuits, conditions: &[Conditions]) -> Self {
        let of_day = |day: &Conditions| {
            [Measurand::LowSide, Measurand::HighSide].map(|side| (side, circuits.correction(side, day)))
        };
        Self { corrections: conditions.iter().map(of_day).collect(), conditions: conditions.to_vec(), circuits }
    }

    fn drawn(&self, circuit: &OwnCircuit, weight: f64) -> Drawn {
        let of_reading = |(place, sides): (usize, &[(Measurand, Correction); 2])| {
            sides.each_ref().map(|(side, correction)| (place, *side, correction.mean(circuit)))
        };
        let near = |day: &Conditions| Some(circuit.near(self.circuits.between(day)?));
        Drawn {
            which: (circuit.index as usize, circuit.kind),
            index: circuit.index,
            circuit: circuit.circuit,
            weight,
            shifts: self.corrections.iter().enumerate().flat_map(of_reading).collect(),
            near: self.conditions.iter().map(near).collect(),
        }
    }
}

/// A circuit with a cause, and without the part of it that may be undetectable.
struct Faulty {
    with: Circuit,
    without: Circuit,
    mode: usize,
}

/// What a faulty circuit does under some conditions.
struct Found {
    with: SteadyState,
    /// Without the part that may be undetectable, where that was solved for itself.
    without: Option<SteadyState>,
    /// Whether that part changes nothing here but what is stored.
    masked: bool,
    /// Where the search ended.
    steady_state: Option<Unknowns>,
}

impl Faulty {
    fn new(cause: &'static Cause, healthy: Circuit, index: u64, size: f64) -> Self {
        let mut with = healthy;
        // the second of a pair goes its own way through its range
        let sizes = [size, (size + 0.5 + index as f64 * PLASTIC).fract()];
        let (mut without, mut mode) = (with, 0);
        for (fault, share) in cause.faults.iter().zip(sizes) {
            let (low, high) = fault.range();
            let size = low + share * (high - low);
            mode += fault.mode(&with, size);
            fault.apply(&mut with, size);
            if !fault.may_be_undetectable() {
                fault.apply(&mut without, size);
            }
        }
        Self { with, without, mode }
    }

    /// The steady states under `conditions`; `None` without one.
    fn run(
        &self,
        cause: &'static Cause,
        conditions: &Conditions,
        index: u64,
        near: Option<&Unknowns>,
    ) -> Result<Option<Found>, Error> {
        let solve = |circuit: &Circuit| match circuit.run_briefly(&operating_point(conditions, index), near) {
            Ok(found) => Ok(Some(found)),
            Err(Error::NotConverged { .. }) => Ok(None),
            Err(error) => Err(error),
        };
        let masked_by = |masking| cause.faults.iter().any(|fault| fault.masking() == Some(masking));
        let displacement = masked_by(Masking::FullDisplacement);
        let port = masked_by(Masking::HighSidePort) && self.with.lines.high_port < MIDDLE_PORT;
        let without = if displacement || port { solve(&self.without)?.map(|(state, _)| state) } else { None };
        // a compressor that nothing holds back pumps the same with its control stuck there
        if let Some(state) =
            without.as_ref().filter(|state| displacement && state.capacity_fraction.fraction() > FULL_DISPLACEMENT)
        {
            return Ok(Some(Found { with: state.clone(), without, masked: true, steady_state: None }));
        }
        let Some((with, steady_state)) = solve(&self.with)? else { return Ok(None) };
        // within what the store takes up nothing but its level depends on the charge
        let holds = |circuit: &Circuit| with.holds.low < circuit.charge && circuit.charge < with.holds.high;
        let masked = without.is_some() || masked_by(Masking::Storage) && holds(&self.with) && holds(&self.without);
        Ok(Some(Found { with, without, masked, steady_state: Some(steady_state) }))
    }
}

/// 1/ρ of the plastic number ρ, ρ³ = ρ + 1 by definition: multiples of it fill the unit interval evenly beside those of the golden section.
const PLASTIC: f64 = 0.754_877_666_246_692_7;

/// Place of a high-side port halfway between condenser outlet and compressor.
const MIDDLE_PORT: f64 = 0.5;

/// Capacity fraction above which nothing holds a compressor back; our choice, within a tenth of what a gauge resolves.
const FULL_DISPLACEMENT: f64 = 0.995;

/// References are the same circuits where they were simulated for the same.
impl PartialEq for Reference {
    fn eq(&self, other: &Self) -> bool {
        self.key == other.key
    }
}

#[cfg(test)]
mod tests {
    use approx::abs_diff_eq;

    use super::*;
    use crate::circuit::Settings;
    use crate::diagnosis::causes::{CauseId, Fault};
    use crate::inspection::{Entry, Instruments};
    use crate::{Pressure, Refrigerant};

    #[test]
    fn a_mixture_shows_the_shares_of_its_parts() {
        let r = Refrigerant::R134a;
        let entry = Entry::gauges("30 psi".parse().unwrap(), "190 psi".parse().unwrap());
        let reading =
            entry.ambient("30 °C".parse().unwrap()).reading(r, Settings::TEST, &Instruments::analogue(r)).unwrap();
        let reference = Reference::with_circuits(&Inspection::of(reading), 40).unwrap();
        let of = |id: CauseId| reference.groups.iter().find(|group| group.causes[0].id == id).unwrap();
        let (healthy, mixed) = (of(CauseId::NoFault).few(), of(CauseId::MixedRefrigerant).few());
        let at_rest = column(0, Measurand::EqualisedPressure, 1);
        let p = |refrigerant: Refrigerant| refrigerant.bubble_pressure(Temperature::from_celsius(30.0)).unwrap().pa();
        // the others that a size picks in turn
        let others = [Refrigerant::R1234yf, Refrigerant::R152a, Refrigerant::R290, Refrigerant::R12].map(p);
        assert!(mixed.len() >= 7, "{}", mixed.len());
        for sample in mixed {
            let own = healthy.iter().find(|healthy| healthy.circuit == sample.circuit).unwrap();
            let circuit = reference.healthy.iter().find(|of| of.kind() == sample.circuit.1).unwrap();
            let circuit = circuit.circuit(sample.circuit.0);
            let x = mixed_fraction(&circuit, sample.size);
            let by_hand = x * others[sample.mode] + (1.0 - x) * p(r);
            let shown = Pressure::from_pa(sample.shown[at_rest].exp());
            // the same sum of two pressures, by way of its logarithm: rounding
            assert!(
                abs_diff_eq!(shown.pa() / by_hand, 1.0, epsilon = 1e-12),
                "{} {} {by_hand}",
                sample.mode,
                shown.pa()
            );
            // vents lie between those of the parts, and so does every other value
            assert!(sample.shown.iter().chain(&own.shown).all(|value| value.is_finite()));
        }
    }

    fn mixed_fraction(circuit: &Circuit, size: f64) -> f64 {
        Fault::MixedRefrigerant.mole_fraction(circuit, size).unwrap()
    }
}
