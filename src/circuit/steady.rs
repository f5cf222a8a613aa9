//! What a circuit does once it has settled.

use crate::quantity::Power;
use crate::{GaugePressure, Mass, Range, Ratio, Temperature, TemperatureDifference};

/// A settled circuit: what gauges and thermometers would show, and how the balances closed.
#[derive(Debug, Clone, PartialEq)]
pub struct SteadyState {
    /// Low side at its port; with a cycling clutch, as it opens.
    pub low_side: GaugePressure,
    /// High side at its port.
    pub high_side: GaugePressure,
    /// Between which pressures the low side swings; none unless a pressure switch cycles the clutch.
    pub cycling_range: Option<Range<GaugePressure>>,
    /// Delivery of the compressor: share of the stroke, of the speed, or of the time the clutch is closed.
    pub capacity_fraction: Ratio,
    /// Share of time the clutch is engaged: the delivery of a clutch that cycles; with a variable stroke what the high-pressure
    /// switch leaves; one where no clutch opens.
    pub clutch_duty_cycle: Ratio,
    /// Evaporating, at the outlet of the evaporator.
    pub evaporating: Temperature,
    /// Condensing; none above the critical pressure.
    pub condensing: Option<Temperature>,
    /// Line at the compressor inlet.
    pub suction_line: Temperature,
    /// Line at the compressor outlet.
    pub discharge_line: Temperature,
    /// Liquid line, or the outlet of the gas cooler.
    pub liquid_line: Temperature,
    /// At the outlet of the evaporator; zero where liquid leaves it.
    pub superheat: TemperatureDifference,
    /// On the suction line at the low-side port, as a technician works it out; zero with liquid in it.
    pub superheat_at_port: TemperatureDifference,
    /// Of the liquid line against the pressure in the condenser, a narrow inlet of the receiver included; none above the critical
    /// pressure.
    pub subcooling: Option<TemperatureDifference>,
    /// On the liquid line from the gauge, as a technician works it out: air and pressure drops included.
    pub subcooling_at_port: Option<TemperatureDifference>,
    /// Share of vapour in the liquid line, behind condenser and receiver.
    pub vapour_in_liquid_line: Ratio,
    /// Condensing over ambient, from the gauge.
    pub condensing_over_ambient: Option<TemperatureDifference>,
    /// Air at the vent.
    pub vent: Temperature,
    /// Surface of the evaporator.
    pub surface: Temperature,
    /// Air that meets the condenser.
    pub air_on_condenser: Temperature,
    /// Air that meets the evaporator.
    pub air_on_evaporator: Temperature,
    /// Cooling capacity, heat and water taken from the air.
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
    /// Water taken from the air, kg/s.
    pub water_kg_per_s: f64,
    /// Speed of the compressor shaft, 1/min.
    pub compressor_rpm: f64,
    /// How full the receiver or accumulator is: 0 empty, 1 full.
    pub liquid_level: Ratio,
    /// Refrigerant the circuit could hold with an empty and a full receiver or accumulator, at this state.
    pub holds: Range<Mass>,
    /// What is left of each balance, relative.
    pub residuals: Residuals,
    /// How often the equations were evaluated.
    pub evaluations: usize,
}

/// What is left of each balance; zero would be perfect.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residuals {
    /// Flow of the compressor against that of the loop.
    pub compressor_flow: f64,
    /// Flow of the expansion device against that of the loop, or the pressure it holds.
    pub expansion_flow: f64,
    /// Heat the condenser gives to the air against what the refrigerant loses.
    pub condenser_heat: f64,
    /// Heat the evaporator takes from the air against what the refrigerant gains.
    pub evaporator_heat: f64,
    /// Delivery against what the controller asks for.
    pub control: f64,
    /// Refrigerant found in all volumes against the charge; zero while the receiver or accumulator is neither empty nor full.
    pub charge: f64,
}

impl Residuals {
    /// The largest of them.
    pub fn worst(&self) -> f64 {
        [
            self.compressor_flow,
            self.expansion_flow,
            self.condenser_heat,
            self.evaporator_heat,
            self.control,
            self.charge,
        ]
        .iter()
        .fold(0.0, |worst: f64, r| worst.max(r.abs()))
    }
}

impl SteadyState {
    /// Coefficient of performance: capacity over shaft power.
    pub fn coefficient_of_performance(&self) -> f64 {
        self.capacity / self.shaft
    }

    /// Whether the surface of the evaporator is below freezing, so that it would ice over.
    pub fn freezes(&self) -> bool {
        self.surface < Temperature::from_celsius(0.0)
    }
}
