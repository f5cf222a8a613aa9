//! Steady state of a circuit: what gauges and thermometers read once nothing changes any more.

use super::charge::Contents;
use super::expansion::Expansion;
use super::model::{Model, Pass};
use super::operation::OperatingPoint;
use super::sizes::CompressorDrive;
use super::solver::Regime;
use crate::quantity::Power;
use crate::{GaugePressure, Mass, Pressure, Range, Ratio, Temperature, TemperatureDifference};

/// Steady state of a circuit: gauge and thermometer readings, heat flows, and how closely the balances closed.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct SteadyState {
    /// Low-side gauge pressure at the service port; with a cycling clutch, at cut-out.
    pub low_side: GaugePressure,
    /// High-side gauge pressure at the service port.
    pub high_side: GaugePressure,
    /// Cycling range of the low-side pressure, cut-out to cut-in; `None` unless a pressure switch cycles the clutch.
    pub cycling_range: Option<Range<GaugePressure>>,
    /// Capacity fraction of the compressor: fraction of the displacement, of the speed, or of the time the clutch is
    /// engaged.
    pub capacity_fraction: Ratio,
    /// Fraction of time the clutch is engaged: the capacity fraction if the clutch cycles; with internal displacement
    /// control the fraction that the high-pressure switch leaves; one if no clutch opens.
    pub clutch_duty_cycle: Ratio,
    /// Evaporating temperature, at the outlet of the evaporator.
    pub evaporating: Temperature,
    /// Condensing temperature; `None` above the critical pressure.
    pub condensing: Option<Temperature>,
    /// Temperature of the suction line beside the low-side port.
    pub suction_line: Temperature,
    /// Temperature of the line at the outlet of the evaporator.
    pub evaporator_outlet: Temperature,
    /// Temperature of the discharge line at the compressor.
    pub discharge_line: Temperature,
    /// Temperature of the liquid line, or at the outlet of the gas cooler.
    pub liquid_line: Temperature,
    /// Superheat at the evaporator outlet; zero if liquid leaves it.
    pub superheat: TemperatureDifference,
    /// Superheat of the suction line by the low-side gauge, as a technician works it out; zero with liquid in it.
    pub superheat_at_port: TemperatureDifference,
    /// Subcooling of the liquid line below the condensing temperature in the condenser, including that by a restricted
    /// receiver inlet; `None` above the critical pressure.
    pub subcooling: Option<TemperatureDifference>,
    /// Subcooling of the liquid line by the high-side gauge, as a technician works it out, including non-condensables
    /// and pressure drops.
    pub subcooling_at_port: Option<TemperatureDifference>,
    /// Vapour quality in the liquid line, downstream of condenser and receiver.
    pub vapour_in_liquid_line: Ratio,
    /// Condensing temperature over ambient, by the high-side gauge.
    pub condensing_over_ambient: Option<TemperatureDifference>,
    /// Air temperature at the vent.
    pub vent: Temperature,
    /// Surface temperature of the evaporator.
    pub surface: Temperature,
    /// Air-on temperature of the condenser, including recirculated air.
    pub air_on_condenser: Temperature,
    /// Air-on temperature of the evaporator: outside air, or on recirculation cabin air.
    pub air_on_evaporator: Temperature,
    /// Relative humidity of the air on the evaporator.
    pub humidity_on_evaporator: Ratio,
    /// Cooling capacity: heat taken from the air, including the heat of condensed water.
    pub capacity: Power,
    /// Shaft power of the compressor.
    pub shaft: Power,
    /// Heat rejected to the air at the condenser or gas cooler.
    pub rejected: Power,
    /// Heat gain of the suction line; negative where the line is warmer than its surroundings.
    pub line_gain: Power,
    /// Heat lost through the shell of the compressor.
    pub shell_loss: Power,
    /// Refrigerant mass flow, kg/s.
    pub flow_kg_per_s: f64,
    /// Mass flow of water condensed from the air, kg/s.
    pub water_kg_per_s: f64,
    /// Compressor speed, rpm.
    pub compressor_rpm: f64,
    /// Liquid level of the receiver or accumulator: 0 empty, 1 full.
    pub liquid_level: Ratio,
    /// Range of refrigerant mass that the circuit holds at this state, from an empty to a full receiver or accumulator.
    pub holds: Range<Mass>,
    /// Relative residual of each balance.
    pub residuals: Residuals,
    /// Number of evaluations of the model that the solver took.
    pub evaluations: usize,
}

/// Relative residual of each balance; zero would be exact.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Residuals {
    /// Residual of the compressor flow against the flow of the circuit.
    pub compressor_flow: f64,
    /// Residual of the expansion device's flow against the flow of the circuit, or of the high side against the
    /// pressure held.
    pub expansion_flow: f64,
    /// Residual of the heat given to the air at the condenser against the heat lost by the refrigerant.
    pub condenser_heat: f64,
    /// Residual of the heat taken from the air at the evaporator against the heat gained by the refrigerant.
    pub evaporator_heat: f64,
    /// Residual of the capacity fraction against that required by the control.
    pub control: f64,
    /// Residual of the refrigerant mass in all volumes against the charge; zero while the receiver or accumulator is
    /// neither empty nor full.
    pub charge: f64,
}

/// Capacity fraction from which a clutch counts as always engaged; our choice.
const ALWAYS_ENGAGED: f64 = 0.97;

impl Residuals {
    fn new(pass: &Pass, charge: f64) -> Self {
        let [compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control] = pass.residuals;
        Self { compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control, charge }
    }

    /// Largest residual in magnitude; NaN if any of them is NaN.
    pub fn worst(&self) -> f64 {
        let Self { compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control, charge } = *self;
        [compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control, charge]
            .into_iter()
            .map(f64::abs)
            .fold(0.0, |worst, r| if r.is_nan() || r > worst { r } else { worst })
    }
}

/// Absolute pressures at the service ports, Pa.
struct Ports {
    low: f64,
    high: f64,
}

impl Ports {
    fn of(model: &Model, pass: &Pass) -> Self {
        let pipes = &model.circuit.lines;
        let Pass { evaporator, suction, pressures, high_side, .. } = pass;
        let along = if pipes.high_port < 0.0 {
            high_side.condensing.zip(high_side.behind).map_or(0.0, |(before, behind)| before.p - behind.p)
        } else {
            pressures.discharge - pressures.condenser
        };
        Self {
            low: suction.p + pipes.low_port * (evaporator.pair.p - suction.p),
            high: pressures.condenser + pipes.high_port * along,
        }
    }
}

impl SteadyState {
    /// Steady state that `pass` describes, in `regime`, found in `evaluations`.
    pub(super) fn new(
        model: &Model,
        pass: &Pass,
        operation: &OperatingPoint,
        regime: Regime,
        evaluations: usize,
    ) -> Self {
        let circuit = model.circuit;
        let Pass { trial, evaporator, suction, compression, high_side, cabin, sensed, .. } = pass;
        let kelvin = Temperature::from_kelvin;
        let kelvins = TemperatureDifference::from_kelvins;
        let ports = Ports::of(model, pass);
        let gauge = |pa: f64| Pressure::from_pa(pa).gauge(operation.air);
        let liquid = high_side.t_out;
        let high_saturated = model.fluid.saturation_temperature(ports.high);
        let low_saturated = model.fluid.saturation_temperature(ports.low);
        // the line warms evenly on its way: beside the port it has only part of that behind it
        let line_at_port = suction.point.t - circuit.lines.low_port * suction.gained / evaporator.cp;
        // some passes of a starved evaporator run dry while others still carry liquid past; an accumulator mixes them
        let not_shown = match circuit.expansion {
            Expansion::Valve { static_superheat_k, gradient_k, .. } => {
                let held = static_superheat_k + gradient_k;
                (1.0 - circuit.lines.evenness) * (evaporator.superheat - held).max(0.0)
            }
            Expansion::Orifice { .. } | Expansion::HighSide { .. } => 0.0,
        };
        let line_at_port = line_at_port - not_shown;
        let line_at_port = low_saturated.map_or(line_at_port, |t| line_at_port.max(t));
        let superheat_at_port = low_saturated.map_or(0.0, |t| (line_at_port - t).max(0.0));
        let contents = Contents::of(circuit, pass);
        let (clutch_duty_cycle, compressor_rpm) = match circuit.drive {
            CompressorDrive::Belt { .. } => {
                (circuit.control.clutch_duty_cycle(trial.capacity_fraction, sensed), model.rpm)
            }
            CompressorDrive::Motor { .. } => (1.0, model.rpm * trial.capacity_fraction),
        };
        Self {
            low_side: gauge(ports.low),
            high_side: gauge(ports.high),
            // a clutch held open by the high side does not swing between these
            cycling_range: circuit.control.cycling_range().filter(|_| circuit.control.asked(sensed) < ALWAYS_ENGAGED),
            capacity_fraction: Ratio::from_fraction(trial.capacity_fraction),
            clutch_duty_cycle: Ratio::from_fraction(clutch_duty_cycle),
            evaporating: kelvin(evaporator.pair.t),
            condensing: high_side.condensing.map(|pair| kelvin(pair.t)),
            suction_line: kelvin(line_at_port),
            discharge_line: kelvin(compression.t_out),
            liquid_line: kelvin(liquid),
            evaporator_outlet: kelvin(evaporator.pair.t + evaporator.superheat - not_shown),
            superheat: kelvins(evaporator.superheat),
            superheat_at_port: kelvins(superheat_at_port),
            subcooling: high_side.condensing.map(|pair| kelvins(pair.t - liquid)),
            subcooling_at_port: high_saturated.map(|t| kelvins(t - liquid)),
            vapour_in_liquid_line: Ratio::from_fraction(high_side.quality_out),
            condensing_over_ambient: high_saturated.map(|t| kelvins(t - model.ambient)),
            vent: kelvin(cabin.off + circuit.evaporator_air.duct_k),
            surface: kelvin(evaporator.coil.surface),
            air_on_condenser: kelvin(high_side.air_in),
            air_on_evaporator: kelvin(evaporator.coil.inlet),
            humidity_on_evaporator: Ratio::from_fraction(model.relative_humidity(&evaporator.coil)),
            capacity: Power::from_w(cabin.heat),
            shaft: Power::from_w(trial.flow * compression.work),
            rejected: Power::from_w(trial.flow * (compression.h_out - high_side.h_out)),
            line_gain: Power::from_w(trial.flow * suction.gained),
            shell_loss: Power::from_w(circuit.compressor.shell_loss * trial.flow * compression.work),
            flow_kg_per_s: trial.flow,
            water_kg_per_s: trial.boiling_share() * evaporator.coil.water,
            compressor_rpm,
            liquid_level: Ratio::from_fraction(contents.level(circuit.charge.kg())),
            holds: Range::new(Mass::from_kg(contents.store_empty), Mass::from_kg(contents.store_full)),
            residuals: Residuals::new(pass, regime.charge_residual(&contents, model.charge)),
            evaluations,
        }
    }

    /// Whether every value is a finite number.
    pub(super) fn is_finite(&self) -> bool {
        let temperatures = [
            self.evaporating,
            self.suction_line,
            self.evaporator_outlet,
            self.discharge_line,
            self.liquid_line,
            self.vent,
            self.surface,
            self.air_on_condenser,
            self.air_on_evaporator,
        ];
        let powers = [self.capacity, self.shaft, self.rejected, self.line_gain, self.shell_loss];
        let ratios = [
            self.capacity_fraction,
            self.clutch_duty_cycle,
            self.vapour_in_liquid_line,
            self.liquid_level,
            self.humidity_on_evaporator,
        ];
        let differences =
            [Some(self.superheat), Some(self.superheat_at_port), self.subcooling, self.subcooling_at_port];
        let cycling = self.cycling_range.map_or([0.0; 2], |range| [range.low.pa(), range.high.pa()]);
        [self.low_side.pa(), self.high_side.pa(), self.holds.low.kg(), self.holds.high.kg()]
            .into_iter()
            .chain([self.flow_kg_per_s, self.water_kg_per_s, self.compressor_rpm, self.residuals.worst()])
            .chain(cycling)
            .chain(temperatures.map(Temperature::kelvin))
            .chain(self.condensing.map(Temperature::kelvin))
            .chain(powers.map(|power| power.w()))
            .chain(ratios.map(|ratio| ratio.fraction()))
            .chain(differences.into_iter().chain([self.condensing_over_ambient]).flatten().map(|d| d.kelvins()))
            .all(f64::is_finite)
    }

    /// Coefficient of performance: cooling capacity over shaft power.
    pub fn coefficient_of_performance(&self) -> f64 {
        self.capacity / self.shaft
    }

    /// Whether the surface of the evaporator is below freezing, so that it would ice up.
    pub fn freezes(&self) -> bool {
        self.surface < Temperature::from_celsius(0.0)
    }
}
