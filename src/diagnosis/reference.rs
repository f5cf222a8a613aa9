//! Cars with and without each cause, run on the days of the evidence.

use std::ops::Range;
use std::sync::OnceLock;

use super::cause::{ALL, Cause};
use super::evidence::{Channel, RECOVERED, operation, shown};
use super::fault::Fault;
use crate::circuit::{Circuit, CircuitKind, Population, SteadyState, Unknowns};
use crate::quantity::Quantity;
use crate::window::Conditions;
use crate::{Error, Pressure, Refrigerant, Temperature};

/// Cars for each cause that may be behind a reading.
pub const CARS: usize = 150;

/// As many times fewer begin: enough to see whether a cause may be behind a reading.
const FEWER: usize = 5;

/// The seed of the cars behind a diagnosis; those behind a window have another.
const SEED: u64 = 0x5eed;

/// One car with one cause of one size.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sample {
    /// Size of the first fault of the cause, 0 to 1 over its range.
    pub(super) size: f64,
    /// Which of several ways the cause shows in.
    pub(super) way: usize,
    /// What it shows: [`RUNNING`] channels for each running reading, then the pressure at rest and the charge.
    pub(super) shown: Vec<f64>,
    /// What it would show without the part of the cause that may hide; none where that shows for certain.
    pub(super) without: Option<Vec<f64>>,
    /// Which car it is, of which kind, and where its balances lie, day by day.
    car: (usize, CircuitKind),
    balances: Vec<Unknowns>,
}

/// The cars of one change of the circuit.
#[derive(Debug, Clone)]
pub(super) struct Group {
    /// The causes that change the circuit so. They share their cars: on other cars chance would tell them apart.
    pub(super) causes: Vec<&'static Cause>,
    /// The first of them.
    first: Vec<Sample>,
    /// All others, made when they are first asked for.
    others: OnceLock<Vec<Sample>>,
}

impl Group {
    /// The cars that every reading is compared with.
    pub(super) fn few(&self) -> Vec<&Sample> {
        self.first.iter().collect()
    }
}

/// Cars with and without each cause, run on given days: made once, compared with any reading of those days.
///
/// Every cause begins with a fifth of its cars. Those that may be behind a reading get all of them when it is compared, and keep
/// them for the next; so the answer to a reading does not depend on those before it.
///
/// Each cause is put into the same cars, so that what chance did to them counts for all causes alike.
#[derive(Debug, Clone)]
pub struct Reference {
    pub(super) kinds: Vec<CircuitKind>,
    pub(super) days: Vec<Conditions>,
    pub(super) groups: Vec<Group>,
    populations: Vec<Population>,
    /// Cars for each cause in all.
    pub(super) cars: usize,
}

/// How many channels a running reading has.
const RUNNING: usize = Channel::RUNNING.len();

/// Where channel `channel` of running reading `place` stands among `readings` of them.
pub(super) fn column(place: usize, channel: Channel, readings: usize) -> usize {
    match channel {
        Channel::AtRest => RUNNING * readings,
        Channel::Recovered => RUNNING * readings + 1,
        running => RUNNING * place + running as usize,
    }
}

impl Reference {
    /// Cars of `kinds`, all counting the same, on `days`, with every cause that such cars can have.
    ///
    /// # Errors
    /// Those of [`Circuit::run`] but [`Error::NotConverged`]: a car that finds no balance is left out.
    pub fn new(kinds: &[CircuitKind], days: &[Conditions]) -> Result<Self, Error> {
        Self::with_cars(kinds, days, CARS)
    }

    /// The same with another number of cars than [`CARS`]: more are finer and take longer.
    ///
    /// # Errors
    /// As [`Reference::new`].
    pub fn with_cars(kinds: &[CircuitKind], days: &[Conditions], cars: usize) -> Result<Self, Error> {
        if kinds.is_empty() || days.is_empty() {
            return Err(Error::Missing { what: "the kind of car or its day", way_out: "name at least one of each" });
        }
        let populations =
            kinds.iter().map(|kind| Population::with_seed(*kind, SEED)).collect::<Result<Vec<_>, Error>>()?;
        let mut simulated = Self { kinds: kinds.to_vec(), days: days.to_vec(), groups: Vec::new(), populations, cars };
        for cause in ALL {
            if !kinds.iter().any(|kind| cause.applies_to(kind)) {
                continue;
            }
            match simulated.groups.iter_mut().find(|group| group.causes[0].changes_like(cause)) {
                Some(group) => group.causes.push(cause),
                None => {
                    let healthy = simulated.groups.first().map_or(&[][..], |healthy| &healthy.first);
                    let first = simulated.samples(cause, 0..simulated.first(), healthy)?;
                    simulated.groups.push(Group { causes: vec![cause], first, others: OnceLock::new() });
                }
            }
        }
        Ok(simulated)
    }

    /// How many cars each cause begins with.
    fn first(&self) -> usize {
        self.cars.div_ceil(FEWER)
    }

    /// Cars `indices` with `cause`, its size running evenly through them; those that find no balance are left out. The balance
    /// of the same car among the `healthy` is where the search begins.
    fn samples(&self, cause: &'static Cause, indices: Range<usize>, healthy: &[Sample]) -> Result<Vec<Sample>, Error> {
        let able: Vec<&Population> = self.populations.iter().filter(|p| cause.applies_to(&p.kind())).collect();
        let (from, many) = (indices.start, indices.len() as f64);
        let one = |i: usize| {
            let size = ((i - from) as f64 + 0.5) / many;
            let population = able[i % able.len()];
            let near = healthy.iter().find(|sample| sample.car == (i, population.kind()));
            sample(cause, population, i, size, &self.days, near.map(|sample| &sample.balances)).transpose()
        };
        indices.filter_map(one).collect()
    }

    /// All cars of `group`.
    pub(super) fn all<'a>(&self, group: &'a Group) -> Result<Vec<&'a Sample>, Error> {
        Ok(group.first.iter().chain(self.others(group)?).collect())
    }

    /// Those beyond the first of `group`.
    fn others<'a>(&self, group: &'a Group) -> Result<&'a [Sample], Error> {
        Ok(match group.others.get() {
            Some(others) => others,
            None => {
                // the group of no fault is the first one
                let healthy = match self.groups.first() {
                    Some(healthy) if !std::ptr::eq(healthy, group) => self.others(healthy)?,
                    _ => &[],
                };
                let made = self.samples(group.causes[0], self.first()..self.cars, healthy)?;
                group.others.get_or_init(|| made)
            }
        })
    }
}

/// Cars are the same wherever they are asked for in the same way.
impl PartialEq for Reference {
    fn eq(&self, other: &Self) -> bool {
        (&self.kinds, &self.days, self.cars) == (&other.kinds, &other.days, other.cars)
    }
}

/// One car with `cause`; none when it finds no balance.
fn sample(
    cause: &'static Cause,
    population: &Population,
    i: usize,
    size: f64,
    days: &[Conditions],
    near: Option<&Vec<Unknowns>>,
) -> Result<Option<Sample>, Error> {
    let index = i as u64;
    let near = near.filter(|_| !cause.faults.iter().any(|fault| fault.moves_far()));
    let mut car = population.car(index);
    // the second of a pair goes its own way through its range
    let sizes = [size, (size + 0.5 + index as f64 * 0.754_877_666_246_692_7).fract()];
    let (mut without, mut way) = (car, 0);
    for (fault, share) in cause.faults.iter().zip(sizes) {
        let (low, high) = fault.range();
        let size = low + share * (high - low);
        way += fault.way(&car, size);
        fault.put_into(&mut car, size);
        if !fault.may_hide() {
            fault.put_into(&mut without, size);
        }
    }
    if cause.id == "not-turning" {
        let mut shown: Vec<f64> = days.iter().flat_map(|day| standing(&car, day)).collect();
        shown.extend([at_rest(&car, days[0].ambient).pa().ln(), recovered(&car)]);
        return Ok(Some(Sample { size, way, shown, without: None, car: (i, population.kind()), balances: Vec::new() }));
    }
    let run = |car: &Circuit, d: usize| match car.run_briefly(&operation(&days[d], index), near.map(|near| &near[d])) {
        Ok(found) => Ok(Some(found)),
        Err(Error::NotConverged { .. }) => Ok(None),
        Err(error) => Err(error),
    };
    let read = |state: &SteadyState, day: &Conditions| Channel::RUNNING.map(|channel| shown(state, channel, day.air));
    let (mut shown_all, mut without_all) = (Vec::with_capacity(RUNNING * days.len() + 2), Vec::new());
    let mut balances = Vec::new();
    let mut hides = cause.faults.iter().any(|fault| fault.may_hide());
    let has = |fault| cause.faults.contains(&fault);
    for (d, day) in days.iter().enumerate() {
        // a compressor that nothing holds back pumps the same with its control stuck there
        let held = |state: &SteadyState| state.capacity_fraction.fraction() <= UNHELD;
        let alone = if has(Fault::StuckAtFullDisplacement) || has(Fault::DischargeBlocked) && car.lines.high_port < 0.5
        {
            run(&without, d)?.map(|(state, _)| state)
        } else {
            None
        };
        let state = match alone.as_ref().filter(|state| has(Fault::StuckAtFullDisplacement) && !held(state)) {
            Some(state) => state.clone(),
            None => {
                let Some((state, balance)) = run(&car, d)? else { return Ok(None) };
                balances.push(balance);
                // within what the store takes up nothing but its level depends on the charge
                let holds = |car: &Circuit| state.holds.low < car.charge && car.charge < state.holds.high;
                let stored = has(Fault::Undercharge) || has(Fault::Overcharge);
                hides &= alone.is_some() || stored && holds(&car) && holds(&without);
                state
            }
        };
        shown_all.extend(read(&state, day));
        without_all.extend(read(alone.as_ref().unwrap_or(&state), day));
    }
    for (car, all) in [(&car, &mut shown_all), (&without, &mut without_all)] {
        all.extend([at_rest(car, days[0].ambient).pa().ln(), recovered(car)]);
    }
    let without = hides.then_some(without_all);
    Ok(Some(Sample { size, way, shown: shown_all, without, car: (i, population.kind()), balances }))
}

/// Delivery above which nothing holds a compressor back; ours, within a tenth of what a gauge can tell.
const UNHELD: f64 = 0.995;

/// What gauges, lines and clutch show when nothing turns.
fn standing(car: &Circuit, day: &Conditions) -> [f64; RUNNING] {
    let p = at_rest(car, day.ambient).pa().ln();
    Channel::RUNNING.map(|channel| match channel {
        Channel::Duty => 0.0,
        channel if channel.is_pressure() => p,
        _ => day.ambient.celsius(),
    })
}

/// What recovery brings out over what the label asks for, the middle of [`RECOVERED`].
fn recovered(car: &Circuit) -> f64 {
    let crate::Range { low, high } = RECOVERED.value;
    0.5 * (low.fraction() + high.fraction()) * ((car.charge + car.non_condensables) / car.nominal_charge)
}

/// The pressure of the circuit at rest, all of it at `ambient`: saturation, what is left of it when no liquid remains, and air.
fn at_rest(car: &Circuit, ambient: Temperature) -> Pressure {
    let volume = car.volume();
    let density = car.charge.kg() / volume.m3();
    let refrigerant: Refrigerant = car.refrigerant;
    let own = refrigerant
        .at_density(ambient, crate::quantity::Density::from_kg_per_m3(density))
        .map_or(Pressure::from_pa(0.0), |phases| phases.pressure());
    // p = m R T/V; air gathers above the liquid, of which there is half a circuit at most
    let air = car.non_condensables.kg() * 287.05 * ambient.kelvin() / (0.8 * volume.m3());
    Pressure::from_si(own.si() + air)
}
