//! The steady state of a circuit: what gauges and thermometers show once nothing changes any more.

use super::charge::Contents;
use super::model::{Model, Pass};
use super::operation::OperatingPoint;
use super::sizes::CompressorDrive;
use super::solver::Regime;
use crate::quantity::Power;
use crate::{GaugePressure, Mass, Pressure, Range, Ratio, Temperature, TemperatureDifference};

/// Steady state of a circuit: what gauges and thermometers would show, and how closely the balances closed.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct SteadyState {
    /// Low side at its port; with a cycling clutch, at cut-out.
    pub low_side: GaugePressure,
    /// High side at its port.
    pub high_side: GaugePressure,
    /// Cycling range of the low side, cut-out to cut-in; `None` unless a pressure switch cycles the clutch.
    pub cycling_range: Option<Range<GaugePressure>>,
    /// Capacity fraction of the compressor: share of the stroke, of the speed, or of the time the clutch is engaged.
    pub capacity_fraction: Ratio,
    /// Share of time the clutch is engaged: the capacity fraction if the clutch cycles; with a variable stroke what the
    /// high-pressure switch leaves; one if no clutch opens.
    pub clutch_duty_cycle: Ratio,
    /// Evaporating temperature, at the outlet of the evaporator.
    pub evaporating: Temperature,
    /// Condensing temperature; `None` above the critical pressure.
    pub condensing: Option<Temperature>,
    /// Temperature of the suction line at the compressor.
    pub suction_line: Temperature,
    /// Temperature of the discharge line at the compressor.
    pub discharge_line: Temperature,
    /// Temperature of the liquid line, or at the outlet of the gas cooler.
    pub liquid_line: Temperature,
    /// Superheat at the outlet of the evaporator; zero if liquid leaves it.
    pub superheat: TemperatureDifference,
    /// Superheat of the suction line at the low-side port, as a technician works it out; zero with liquid in it.
    pub superheat_at_port: TemperatureDifference,
    /// Subcooling of the liquid line below condensing in the condenser, a restricted inlet of the receiver included; `None` above
    /// the critical pressure.
    pub subcooling: Option<TemperatureDifference>,
    /// Subcooling of the liquid line by the gauge, as a technician works it out: non-condensables and pressure drops included.
    pub subcooling_at_port: Option<TemperatureDifference>,
    /// Share of vapour in the liquid line, behind condenser and receiver.
    pub vapour_in_liquid_line: Ratio,
    /// Condensing temperature over ambient, by the gauge.
    pub condensing_over_ambient: Option<TemperatureDifference>,
    /// Temperature of the air at the vent.
    pub vent: Temperature,
    /// Temperature of the evaporator's surface.
    pub surface: Temperature,
    /// Temperature of the air on the condenser.
    pub air_on_condenser: Temperature,
    /// Temperature of the air on the evaporator.
    pub air_on_evaporator: Temperature,
    /// Cooling capacity: heat taken from the air, condensed water included.
    pub capacity: Power,
    /// Shaft power.
    pub shaft: Power,
    /// Heat given to the air at the condenser.
    pub rejected: Power,
    /// Heat taken in by the suction line; negative where the line is warmer than what surrounds it.
    pub line_gain: Power,
    /// Share of the shaft power that leaves through the shell of the compressor.
    pub shell_loss: Power,
    /// Refrigerant flow, kg/s.
    pub flow_kg_per_s: f64,
    /// Water condensed from the air, kg/s.
    pub water_kg_per_s: f64,
    /// Speed of the compressor shaft, rpm.
    pub compressor_rpm: f64,
    /// Liquid level of the receiver or accumulator: 0 empty, 1 full.
    pub liquid_level: Ratio,
    /// Refrigerant the circuit would hold with an empty and with a full receiver or accumulator, at this state.
    pub holds: Range<Mass>,
    /// Residual of each balance.
    pub residuals: Residuals,
    /// Evaluations of the model that the solver took.
    pub evaluations: usize,
}

/// Residual of each balance, relative; zero would be perfect.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub struct Residuals {
    /// Flow of the compressor against that of the circuit.
    pub compressor_flow: f64,
    /// Flow of the expansion device against that of the circuit, or the high side against the pressure it holds.
    pub expansion_flow: f64,
    /// Heat the condenser gives to the air against what the refrigerant loses.
    pub condenser_heat: f64,
    /// Heat the evaporator takes from the air against what the refrigerant gains.
    pub evaporator_heat: f64,
    /// Capacity fraction against what the control asks for.
    pub control: f64,
    /// Refrigerant found in all volumes against the charge; zero while the receiver or accumulator is neither empty nor full.
    pub charge: f64,
}

impl Residuals {
    fn new(pass: &Pass, charge: f64) -> Self {
        let [compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control] = pass.residuals;
        Self { compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control, charge }
    }

    /// The largest residual; not a number if any of them is none.
    pub fn worst(&self) -> f64 {
        let Self { compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control, charge } = *self;
        [compressor_flow, expansion_flow, condenser_heat, evaporator_heat, control, charge]
            .into_iter()
            .map(f64::abs)
            .fold(0.0, |worst, r| if r.is_nan() || r > worst { r } else { worst })
    }
}

/// Pressures at the service ports, Pa absolute.
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
    /// The steady state that `pass` describes, in `regime`, found in `evaluations`.
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
        let superheat_at_port =
            model.fluid.saturation_temperature(ports.low).map_or(0.0, |t| (suction.point.t - t).max(0.0));
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
            cycling_range: circuit.control.cycling_range().filter(|_| circuit.control.asked(sensed) < 0.97),
            capacity_fraction: Ratio::from_fraction(trial.capacity_fraction),
            clutch_duty_cycle: Ratio::from_fraction(clutch_duty_cycle),
            evaporating: kelvin(evaporator.pair.t),
            condensing: high_side.condensing.map(|pair| kelvin(pair.t)),
            suction_line: kelvin(suction.point.t),
            discharge_line: kelvin(compression.t_out),
            liquid_line: kelvin(liquid),
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
            self.discharge_line,
            self.liquid_line,
            self.vent,
            self.surface,
            self.air_on_condenser,
            self.air_on_evaporator,
        ];
        let powers = [self.capacity, self.shaft, self.rejected, self.line_gain, self.shell_loss];
        let ratios = [self.capacity_fraction, self.clutch_duty_cycle, self.vapour_in_liquid_line, self.liquid_level];
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

    /// Coefficient of performance: capacity over shaft power.
    pub fn coefficient_of_performance(&self) -> f64 {
        self.capacity / self.shaft
    }

    /// Whether the surface of the evaporator is below freezing, so that it would ice over.
    pub fn freezes(&self) -> bool {
        self.surface < Temperature::from_celsius(0.0)
    }
}
