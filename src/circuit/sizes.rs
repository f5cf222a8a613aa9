//! Sizes of one circuit: everything that determines how it runs, as numbers.

use super::compressor::Compressor;
use super::control::Control;
use super::exchanger::Exchanger;
use super::expansion::Expansion;
use super::model::Unknowns;
use super::operation::OperatingPoint;
use super::solver::{self, Effort};
use super::steady_state::SteadyState;
use crate::{Error, GaugePressure, Mass, Refrigerant, Volume};

/// A/C circuit with all its sizes.
///
/// [`Circuit::mid_range`] and [`Population`](super::Population) make circuits; every field may be changed, which is
/// also how a fault is introduced: less [`Circuit::charge`], a smaller [`CondenserAir::airflow_fraction`], a worn
/// [`Compressor`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// Refrigerant in the circuit.
    pub refrigerant: Refrigerant,
    /// Compressor with its displacement and efficiencies.
    pub compressor: Compressor,
    /// Compressor drive: belt or electric motor.
    pub drive: CompressorDrive,
    /// Capacity control of the compressor.
    pub control: Control,
    /// Discharge pressure at which the compressor is switched off or its displacement reduced, Pa absolute.
    pub high_limit_pa: f64,
    /// Condenser, or gas cooler.
    pub condenser: Exchanger,
    /// Air flow through the condenser.
    pub condenser_air: CondenserAir,
    /// Fraction of the condenser downstream of the receiver, which only subcools; zero without such a pass.
    pub subcooling_pass: f64,
    /// Evaporator, with the rear one included.
    pub evaporator: Exchanger,
    /// Air flow through the evaporator.
    pub evaporator_air: EvaporatorAir,
    /// Expansion device and its dimensions.
    pub expansion: Expansion,
    /// Effectiveness of the internal heat exchanger; zero without one.
    pub internal_exchanger: f64,
    /// Receiver or accumulator in which surplus liquid is stored.
    pub storage: Storage,
    /// Pressure drops, heat gains, volumes and service ports of the pipes.
    pub lines: Pipes,
    /// Nominal charge, as on the label.
    pub nominal_charge: Mass,
    /// Refrigerant charge in the circuit.
    pub charge: Mass,
    /// Mass of non-condensables (air) in the circuit.
    pub non_condensables: Mass,
}

/// Compressor drive: belt or electric motor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CompressorDrive {
    /// Belt drive.
    Belt {
        /// Pulley ratio, compressor speed over engine speed.
        ratio: f64,
        /// Engine speed at idle, rpm.
        idle_rpm: f64,
    },
    /// Electric motor.
    Motor {
        /// Highest speed of the compressor, rpm.
        max_rpm: f64,
    },
}

/// Air flow through the condenser.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CondenserAir {
    /// Face area of the condenser, m².
    pub face_m2: f64,
    /// Face velocity with the fan alone at its highest stage, m/s.
    pub fan_m_per_s: f64,
    /// Face velocity at the lowest fan stage as a fraction of that at the highest: the stage that runs whenever the air
    /// conditioning does.
    pub fan_low: f64,
    /// High-side pressure up to which the fan stays at its lowest stage.
    pub fan_from: GaugePressure,
    /// High-side pressure from which the fan runs at its highest stage; in between, the mean over its switching rises
    /// linearly.
    pub fan_full: GaugePressure,
    /// Ram-air face velocity over driving speed.
    pub ram_share: f64,
    /// Recirculated fraction of the condenser air with the vehicle standing.
    pub recirculated: f64,
    /// Temperature rise over ambient of the air in front of the condenser, K; zero in a healthy circuit.
    pub air_on_rise_k: f64,
    /// Airflow fraction: air flow through the condenser over that of a healthy circuit.
    pub airflow_fraction: f64,
}

/// Air flow through the evaporator, and the cabin that it comes from on recirculation.
///
/// - **Heat** G (T_out − T_in) + Q = ṁ cₚ (T_in − T_vent), G the conductance of body, leakage and an interior that is still warm.
/// - **Moisture** ṁ_leak (w_out − w_in) + ṁ_people = ṁ (w_in − w_off).
///
/// With the doors open neither is used: T_in = (1 − ρ) T_out + ρ T_off, ρ the fraction
/// [`EvaporatorAir::returned`], and w alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EvaporatorAir {
    /// Air flow with the blower at its highest, m³/s.
    pub blower_m3_per_s: f64,
    /// Fraction of the inlet air that has just left the evaporator, on recirculation with the doors open.
    pub returned: f64,
    /// Conductance of the body between outside and cabin air, W/K.
    pub body_w_per_k: f64,
    /// Outside air that leaks into the standing cabin with doors and windows shut, m³/s.
    pub leakage_m3_per_s: f64,
    /// Outside air that comes in through open windows besides, with the vehicle standing, m³/s.
    pub window_m3_per_s: f64,
    /// People in the cabin, each with 70 W of heat and 66 g/h of moisture.
    pub people: f64,
    /// Conductance between interior (seats, trim, panels) and cabin air, W/K.
    pub interior_w_per_k: f64,
    /// Heat capacity of the interior, J/K.
    pub interior_j_per_k: f64,
    /// Air that would carry moisture from textiles to the cabin air as they do, for the same difference of humidity ratio, kg/s.
    pub textile_kg_per_s: f64,
    /// Air that holds as much more water as textiles do, for the same step of humidity ratio, kg.
    pub textile_kg: f64,
    /// Warming of the air from the evaporator to the vent, K.
    pub duct_k: f64,
    /// Airflow fraction: air flow through the evaporator over that of a healthy circuit.
    pub airflow_fraction: f64,
}

/// Storage of surplus liquid: receiver or accumulator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Storage {
    /// Receiver downstream of the condenser.
    Receiver {
        /// Inner volume of the receiver, m³.
        volume_m3: f64,
        /// The part of it that liquid can fill, m³: less desiccant, filter and pick-up tube, and what stays vapour above the inlet.
        liquid_m3: f64,
    },
    /// Accumulator downstream of the evaporator.
    Accumulator {
        /// Inner volume of the accumulator, m³.
        volume_m3: f64,
        /// The part of it that liquid can fill before it is carried over, m³.
        liquid_m3: f64,
    },
}

impl Storage {
    /// Inner volume, m³.
    pub(super) fn volume_m3(self) -> f64 {
        let (Self::Receiver { volume_m3, .. } | Self::Accumulator { volume_m3, .. }) = self;
        volume_m3
    }

    /// Refrigerant in it without liquid and full of it, kg, with vapour and liquid of these densities, kg/m³.
    pub(super) fn holds(self, vapour: f64, liquid: f64) -> (f64, f64) {
        let (Self::Receiver { volume_m3, liquid_m3 } | Self::Accumulator { volume_m3, liquid_m3 }) = self;
        (volume_m3 * vapour, (volume_m3 - liquid_m3) * vapour + liquid_m3 * liquid)
    }
}

/// Pressure drops, heat gains, volumes and service ports of the pipes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pipes {
    /// Pressure-drop coefficient of suction line and evaporator outlet, k in Δp = k ṁ²/ρ, 1/m⁴.
    pub suction_drop: f64,
    /// Pressure-drop coefficient of discharge line and condenser, k in Δp = k ṁ²/ρ, 1/m⁴.
    pub discharge_drop: f64,
    /// Conductance from the air around the engine to the suction line, W/K.
    pub suction_gain_w_per_k: f64,
    /// Pressure-drop coefficient between condenser and receiver, upstream of the subcooling pass, or without a receiver
    /// upstream of the expansion device, k in Δp = k ṁ²/ρ, 1/m⁴. ρ is that of the inlet, liquid or a homogeneous
    /// mixture, without choking. Zero in a healthy circuit, as liquid in an open pipe loses a few kPa (our choice). Not
    /// used with a gas cooler.
    pub receiver_drop: f64,
    /// Temperature rise over ambient of the air around the engine, K.
    pub underhood_rise_k: f64,
    /// Share of the superheat beyond what the valve holds that a starved evaporator shows at its outlet and along the suction line; one where
    /// all passes are fed evenly.
    pub evenness: f64,
    /// Position of the low-side service port: 0 at the compressor, 1 at the evaporator.
    pub low_port: f64,
    /// Position of the high-side service port: 0 at the condenser outlet, 1 at the compressor, −1 downstream of the
    /// receiver inlet.
    pub high_port: f64,
    /// Inner volume of the liquid line, m³.
    pub liquid_m3: f64,
    /// Inner volume of the suction line, m³.
    pub suction_m3: f64,
    /// Inner volume of the discharge line, m³.
    pub discharge_m3: f64,
}

impl Circuit {
    /// Inner volume of the whole circuit.
    pub fn volume(&self) -> Volume {
        let lines = self.lines.liquid_m3 + self.lines.suction_m3 + self.lines.discharge_m3;
        Volume::from_m3(self.condenser.volume_m3 + self.evaporator.volume_m3 + self.storage.volume_m3() + lines)
    }

    /// Steady state of this circuit at the operating point `operation`.
    ///
    /// - **Equations** each component's own; the balances are described in [`circuit`](super).
    /// - **Accuracy** residuals within 10⁻⁹; how close that is to a given vehicle depends on the sizes.
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

    /// Steady state at [`Effort::BRIEF`], for one of many circuits, and the unknowns to start a similar one from.
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
