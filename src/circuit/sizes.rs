//! The sizes of one circuit: everything that decides how it runs, as numbers.

use super::compressor::Compressor;
use super::control::Control;
use super::exchanger::Exchanger;
use super::expansion::Expansion;
use super::model::Unknowns;
use super::operation::OperatingPoint;
use super::solver::{self, Effort};
use super::steady_state::SteadyState;
use crate::{Error, GaugePressure, Mass, Refrigerant, Volume};

/// A circuit with all its sizes.
///
/// [`Circuit::mid_range`] and [`Population`](super::Population) make them; every field may be changed, which is also how a fault
/// is put in: less [`Circuit::charge`], a smaller [`CondenserAir::airflow_fraction`], a worn [`Compressor`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// What is inside.
    pub refrigerant: Refrigerant,
    /// Compressor.
    pub compressor: Compressor,
    /// How it is driven.
    pub drive: CompressorDrive,
    /// Capacity control.
    pub control: Control,
    /// Discharge pressure at which the compressor is switched off or stroked down, Pa absolute.
    pub high_limit_pa: f64,
    /// Condenser or gas cooler.
    pub condenser: Exchanger,
    /// Air through it.
    pub condenser_air: CondenserAir,
    /// Share of the condenser behind the receiver, which only subcools; zero without such a pass.
    pub subcooling_pass: f64,
    /// Evaporator.
    pub evaporator: Exchanger,
    /// Air through it.
    pub evaporator_air: EvaporatorAir,
    /// Expansion device.
    pub expansion: Expansion,
    /// Internal heat exchanger: share of the largest possible heat it passes; zero without one.
    pub internal_exchanger: f64,
    /// Where liquid is stored.
    pub storage: Storage,
    /// Pipes.
    pub lines: Pipes,
    /// Nominal charge.
    pub nominal_charge: Mass,
    /// Refrigerant in the circuit.
    pub charge: Mass,
    /// Air in the circuit.
    pub non_condensables: Mass,
}

/// How the compressor is driven.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CompressorDrive {
    /// By a belt.
    Belt {
        /// Turns of the compressor for one of the engine.
        ratio: f64,
        /// Engine speed at idle, rpm.
        idle_rpm: f64,
    },
    /// By a motor of its own.
    Motor {
        /// Highest speed, rpm.
        max_rpm: f64,
    },
}

/// The air through the condenser.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CondenserAir {
    /// Face, m².
    pub face_m2: f64,
    /// Velocity on the face with the fan alone, at its highest, m/s.
    pub fan_m_per_s: f64,
    /// Velocity with the fan at its lowest, as a share of that: the stage that runs whenever the air conditioning does.
    pub fan_low: f64,
    /// High side up to which the fan stays there.
    pub fan_from: GaugePressure,
    /// High side from which it runs at its highest; between the two, as a mean over its switching, in a straight line.
    pub fan_full: GaugePressure,
    /// Face velocity over driving speed.
    pub ram_share: f64,
    /// Share of the air drawn round again from behind, standing still.
    pub recirculated: f64,
    /// How much warmer than the ambient the air in front is, K; zero in a healthy circuit.
    pub air_on_rise_k: f64,
    /// Airflow fraction: share of the air that gets through: one in a healthy circuit.
    pub airflow_fraction: f64,
}

/// The air through the evaporator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EvaporatorAir {
    /// Flow with the blower at its highest, m³/s.
    pub blower_m3_per_s: f64,
    /// Share of the inlet air that has just left the evaporator, on recirculation.
    pub returned: f64,
    /// How much the air warms on its way from the evaporator to the vent, K.
    pub duct_k: f64,
    /// Airflow fraction: share of the air that gets through: one in a healthy circuit.
    pub airflow_fraction: f64,
}

/// Where liquid that is not needed waits.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Storage {
    /// Behind the condenser.
    Receiver {
        /// Inner volume, m³.
        volume_m3: f64,
    },
    /// Behind the evaporator.
    Accumulator {
        /// Inner volume, m³.
        volume_m3: f64,
    },
}

/// The pipes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipes {
    /// Suction line and evaporator outlet: Δp = k ṁ²/ρ, k in 1/m⁴.
    pub suction_drop: f64,
    /// Discharge line and condenser, the same.
    pub discharge_drop: f64,
    /// Conductance from the air around the engine to the suction line, W/K.
    pub suction_gain_w_per_k: f64,
    /// Between condenser and receiver, before the pass that only subcools; without a receiver before the expansion device. The
    /// same, with ρ of what comes to it, liquid or a mixture of one velocity; nothing chokes there. Zero in a healthy circuit, as
    /// liquid in an open pipe loses a few kPa (our choice). Not used with a gas cooler.
    pub receiver_drop: f64,
    /// How much warmer than the ambient the air around the engine is, K.
    pub underhood_rise_k: f64,
    /// Where the low-side port sits: 0 at the compressor, 1 at the evaporator.
    pub low_port: f64,
    /// Where the high-side port sits: 0 at the condenser's outlet, 1 at the compressor; −1 behind the inlet of the receiver.
    pub high_port: f64,
    /// Liquid line, m³.
    pub liquid_m3: f64,
    /// Suction line, m³.
    pub suction_m3: f64,
    /// Discharge line, m³.
    pub discharge_m3: f64,
}

impl Circuit {
    /// Inner volume of the whole circuit.
    pub fn volume(&self) -> Volume {
        let (Storage::Receiver { volume_m3 } | Storage::Accumulator { volume_m3 }) = self.storage;
        let lines = self.lines.liquid_m3 + self.lines.suction_m3 + self.lines.discharge_m3;
        Volume::from_m3(self.condenser.volume_m3 + self.evaporator.volume_m3 + volume_m3 + lines)
    }

    /// The steady state of this circuit in `operation`.
    ///
    /// - **Equations** each component's own; the balances are described in [`circuit`](super).
    /// - **Accuracy** residuals within 10⁻⁹; how near that is to a given vehicle, its sizes decide.
    ///
    /// ```
    /// use satline::circuit::{Circuit, OperatingPoint, CircuitKind};
    /// use satline::{Pressure, Ratio, Refrigerant, Temperature};
    /// let circuit = Circuit::mid_range(CircuitKind::main(Refrigerant::R134a)[0])?;
    /// let day = |celsius| OperatingPoint::idle(Temperature::from_celsius(celsius), Ratio::from_percent(50.0), Pressure::STANDARD_ATMOSPHERE);
    /// let (mild, hot) = (circuit.run(&day(25.0))?, circuit.run(&day(35.0))?);
    /// assert!(hot.high_side > mild.high_side);
    /// # Ok::<(), satline::Error>(())
    /// ```
    ///
    /// # Errors
    /// [`Error::NotConverged`] with the best residual when no steady state was found; [`Error::Implausible`] for conditions outside
    /// [`OperatingPoint`]'s range; [`Error::NotModelled`] for a blend.
    pub fn run(&self, operation: &OperatingPoint) -> Result<SteadyState, Error> {
        operation.guard()?;
        Ok(solver::solve(self, operation, Effort::FULL, None)?.0)
    }

    /// The same at [`Effort::BRIEF`], for one of many circuits; and the unknowns to start a similar one from.
    ///
    /// The search begins `near` another one where that is given, best the same circuit without its fault.
    pub(crate) fn run_briefly(
        &self,
        operation: &OperatingPoint,
        near: Option<&Unknowns>,
    ) -> Result<(SteadyState, Unknowns), Error> {
        operation.guard()?;
        solver::solve(self, operation, Effort::BRIEF, near)
    }
}
