//! Measurements of one circuit on one visit.
//!
//! An [`Entry`] is what a person typed, in one operating state; with [`Instruments`] it becomes a [`Reading`], each
//! value with its standard uncertainty. An [`Inspection`] contains all readings of one visit, the [`RecoveredCharge`],
//! observations by eye and hand, and what is known of the circuit: its kinds, and as a [`Baseline`] what it shows when healthy. Everything is validated on entry: a NaN, a pressure
//! below vacuum, a value given twice or a clutch duty cycle of 130 % is an error.
//!
//! [`Measurand`] is the table of measurable quantities.

mod baseline;
mod columns;
mod entry;
mod instruments;
mod measurand;
mod observation;
mod ports;
mod reading;
mod recovered;
mod state_points;
mod unit_suggestion;
mod value;

pub use baseline::Baseline;
pub use columns::Columns;
pub use entry::{DisplayUnits, Entry};
pub use instruments::Instruments;
pub use measurand::Measurand;
pub use observation::Observation;
#[doc(hidden)]
pub use parts::*;
pub use ports::ServicePorts;
pub use reading::{PLAUSIBLE_AIR, Reading};
pub use recovered::{RECOVERED_FRACTION, RecoveredCharge};
pub use state_points::StatePoints;
pub(crate) use unit_suggestion::{other_pressure_unit, other_temperature_unit};
pub use value::{EnteredValue, MeasuredValue};

/// Classification of measurands, and reasons why a state point is undetermined; these types may change in any version.
#[doc(hidden)]
pub mod parts {
    pub use crate::inspection::measurand::{Effort, MeasurandKind, MeasuredWhen};
    pub use crate::inspection::ports::PortPlace;
    pub use crate::inspection::state_points::Undetermined;
}

use crate::circuit::{CircuitKind, Conditions};
use crate::{Error, Refrigerant};

/// Inspection: everything measured on one circuit on one visit, and what is known of the circuit.
///
/// ```
/// use satline::circuit::Settings;
/// use satline::inspection::{Entry, Inspection, Instruments, Measurand, Observation, RecoveredCharge};
/// use satline::{Mass, Refrigerant};
/// let r = Refrigerant::R134a;
/// let entry = Entry::gauges("22 psi".parse()?, "160 psi".parse()?).ambient("86 °F".parse()?);
/// let inspection = Inspection::of(entry.reading(r, Settings::TEST, &Instruments::analogue(r))?)
///     .with_recovered(RecoveredCharge::new(Mass::from_g(310.0), Mass::from_g(550.0))?)?
///     .found(Observation::Bubbles)?;
/// assert!(inspection.clone().not_found(Observation::Bubbles).is_err()); // both cannot be
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(
    feature = "serde",
    derive(serde::Serialize, serde::Deserialize),
    serde(try_from = "plain::PlainInspection", into = "plain::PlainInspection")
)]
pub struct Inspection {
    readings: Vec<Reading>,
    recovered: Option<RecoveredCharge>,
    observations: Vec<(Observation, bool)>,
    kinds: Vec<CircuitKind>,
    baselines: Vec<Baseline>,
    service_ports: ServicePorts,
}

/// Most baselines of one inspection, our choice: twice the rows of the longest table known; each is simulated with every circuit.
const MOST_BASELINES: usize = 24;

impl Inspection {
    /// Inspection of one reading, of a circuit of one of the usual kinds.
    pub fn of(reading: Reading) -> Self {
        let kinds = CircuitKind::main(reading.refrigerant());
        Self {
            readings: vec![reading],
            recovered: None,
            observations: Vec::new(),
            kinds,
            baselines: Vec::new(),
            service_ports: ServicePorts::default(),
        }
    }

    /// Inspection with one more reading of the same circuit: at another engine speed, or equalised.
    ///
    /// # Errors
    /// [`Error::Mismatch`] for a reading of another refrigerant; [`Error::Twice`] for a second equalised reading.
    pub fn and(mut self, reading: Reading) -> Result<Self, Error> {
        if reading.refrigerant() != self.refrigerant() {
            return Err(Error::Mismatch {
                what: "refrigerant",
                reading: reading.refrigerant().to_string(),
                reference: self.refrigerant().to_string(),
            });
        }
        if !reading.is_running() && self.equalised().is_some() {
            return Err(Error::Twice { what: "equalised reading" });
        }
        self.readings.push(reading);
        Ok(self)
    }

    /// Inspection with the charge that was recovered and weighed.
    ///
    /// # Errors
    /// [`Error::Twice`].
    pub fn with_recovered(mut self, recovered: RecoveredCharge) -> Result<Self, Error> {
        if self.recovered.replace(recovered).is_some() {
            return Err(Error::Twice { what: "recovered charge" });
        }
        Ok(self)
    }

    /// Inspection with an observation marked as found.
    ///
    /// # Errors
    /// [`Error::Twice`] if it was given before, found or not.
    pub fn found(self, observation: Observation) -> Result<Self, Error> {
        self.observe(observation, true)
    }

    /// Inspection with an observation marked as looked for and not found.
    ///
    /// # Errors
    /// [`Error::Twice`] if it was given before, found or not.
    pub fn not_found(self, observation: Observation) -> Result<Self, Error> {
        self.observe(observation, false)
    }

    fn observe(mut self, observation: Observation, seen: bool) -> Result<Self, Error> {
        if self.observations.iter().any(|(known, _)| *known == observation) {
            return Err(Error::Twice { what: observation.name() });
        }
        self.observations.push((observation, seen));
        Ok(self)
    }

    /// Inspection of a circuit that is one of `kinds`, all equally likely.
    ///
    /// # Errors
    /// [`Error::Missing`] for no kind at all; [`Error::Mismatch`] for a kind with another refrigerant.
    pub fn with_kinds(mut self, kinds: Vec<CircuitKind>) -> Result<Self, Error> {
        if kinds.is_empty() {
            return Err(Error::Missing { what: "the kind of circuit", way_out: "name at least one, or none at all" });
        }
        if let Some(other) = kinds.iter().find(|kind| kind.refrigerant != self.refrigerant()) {
            return Err(Error::Mismatch {
                what: "refrigerant",
                reading: self.refrigerant().to_string(),
                reference: other.to_string(),
            });
        }
        self.kinds = kinds;
        Ok(self)
    }

    /// Inspection of a circuit of which it is known what it shows when it is healthy: rows of the maker's table for this car, or
    /// earlier readings of it.
    ///
    /// Simulated circuits are then weighted by how well each agrees with them, in the window and in the diagnosis; see
    /// [`ExpectedWindow::for_baselines`](crate::expected::ExpectedWindow::for_baselines).
    ///
    /// # Errors
    /// [`Error::Twice`] where some were given before; [`Error::OutsideLimits`] for more than 24.
    pub fn with_baselines(mut self, baselines: Vec<Baseline>) -> Result<Self, Error> {
        if !self.baselines.is_empty() {
            return Err(Error::Twice { what: "the list of baselines" });
        }
        if baselines.len() > MOST_BASELINES {
            let (value, high) = (baselines.len() as f64, MOST_BASELINES as f64);
            return Err(Error::OutsideLimits { what: "number of baselines", value, low: 0.0, high, unit: "rows" });
        }
        self.baselines = baselines;
        Ok(self)
    }

    /// Inspection of a circuit whose service ports are at known places.
    #[must_use]
    pub fn with_service_ports(self, service_ports: ServicePorts) -> Self {
        Self { service_ports, ..self }
    }

    /// Refrigerant named on the label.
    pub fn refrigerant(&self) -> Refrigerant {
        // there is one reading at least
        self.readings[0].refrigerant()
    }

    /// All readings, in the order given.
    pub fn readings(&self) -> &[Reading] {
        &self.readings
    }

    /// First reading.
    pub fn first(&self) -> &Reading {
        &self.readings[0]
    }

    /// Readings with the compressor called for.
    pub fn running(&self) -> impl Iterator<Item = &Reading> + Clone {
        self.readings.iter().filter(|reading| reading.is_running())
    }

    /// Reading of the equalised circuit; `None` if there is none.
    pub fn equalised(&self) -> Option<&Reading> {
        self.readings.iter().find(|reading| !reading.is_running())
    }

    /// Charge that was recovered and weighed; `None` if it was not.
    pub fn recovered(&self) -> Option<RecoveredCharge> {
        self.recovered
    }

    /// Observations marked as found (`true`), or as looked for and not found (`false`).
    pub fn observations(&self) -> &[(Observation, bool)] {
        &self.observations
    }

    /// Kinds that the circuit may be of.
    pub fn kinds(&self) -> &[CircuitKind] {
        &self.kinds
    }

    /// What the circuit is known to show when it is healthy; empty if nothing is known.
    pub fn baselines(&self) -> &[Baseline] {
        &self.baselines
    }

    /// Places of the service ports, where they are known.
    pub fn service_ports(&self) -> ServicePorts {
        self.service_ports
    }

    /// Conditions of each running reading.
    ///
    /// # Errors
    /// [`Error::Missing`] without a running reading, without the ambient temperature of one, or if nothing was
    /// measured.
    pub fn conditions(&self) -> Result<Vec<Conditions>, Error> {
        if self.running().next().is_none() {
            return Err(Error::Missing {
                what: "a reading with the compressor running",
                way_out: "causes are told apart by how the running circuit answers; give its conditions at least",
            });
        }
        let one = |reading: &Reading| {
            reading.conditions().ok_or(Error::Missing {
                what: "ambient temperature",
                way_out: "every comparison depends on the day; measure it in the shade before the condenser",
            })
        };
        let conditions = self.running().map(one).collect::<Result<Vec<_>, _>>()?;
        let nothing = self.readings.iter().all(|reading| reading.values().next().is_none());
        if nothing && self.recovered.is_none() {
            return Err(Error::Missing {
                what: "a measured quantity",
                way_out: "one is enough: a gauge, a line, the vent, the clutch duty cycle, the equalised pressure or the \
                          recovered charge; observations count beside it",
            });
        }
        Ok(conditions)
    }
}

/// An inspection as JSON has it, before it is checked.
#[cfg(feature = "serde")]
mod plain {
    use crate::Error;
    use crate::circuit::CircuitKind;
    use crate::inspection::{Baseline, Inspection, Observation, Reading, RecoveredCharge, ServicePorts};

    #[derive(serde::Serialize, serde::Deserialize)]
    #[serde(deny_unknown_fields)]
    pub(super) struct PlainInspection {
        readings: Vec<Reading>,
        #[serde(default, skip_serializing_if = "Option::is_none")]
        recovered: Option<RecoveredCharge>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        found: Vec<Observation>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        not_found: Vec<Observation>,
        kinds: Vec<CircuitKind>,
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        baselines: Vec<Baseline>,
        #[serde(default, skip_serializing_if = "ServicePorts::are_unknown")]
        service_ports: ServicePorts,
    }

    impl From<Inspection> for PlainInspection {
        fn from(inspection: Inspection) -> Self {
            let Inspection { readings, recovered, observations, kinds, baselines, service_ports } = inspection;
            let said = |seen| observations.iter().filter(move |one| one.1 == seen).map(|one| one.0).collect();
            Self { found: said(true), not_found: said(false), readings, recovered, kinds, baselines, service_ports }
        }
    }

    impl TryFrom<PlainInspection> for Inspection {
        type Error = Error;

        fn try_from(plain: PlainInspection) -> Result<Self, Error> {
            let PlainInspection { readings, recovered, found, not_found, kinds, baselines, service_ports } = plain;
            let mut readings = readings.into_iter();
            let first = readings
                .next()
                .ok_or(Error::Missing { what: "a reading", way_out: "an inspection holds one at least" })?;
            let mut inspection =
                readings.try_fold(Self::of(first), Self::and)?.with_kinds(kinds)?.with_baselines(baselines)?;
            inspection = inspection.with_service_ports(service_ports);
            if let Some(recovered) = recovered {
                inspection = inspection.with_recovered(recovered)?;
            }
            let inspection = found.into_iter().try_fold(inspection, Self::found)?;
            not_found.into_iter().try_fold(inspection, Self::not_found)
        }
    }
}
