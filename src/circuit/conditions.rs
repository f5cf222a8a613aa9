//! Conditions of a test: the air around the circuit, and the settings of vehicle and controls.

use super::operation::{EngineSpeed, Intake, Motion, OperatingPoint, Settings};
use crate::{Error, Pressure, Ratio, Temperature};

/// Test conditions that determine the expected pressures, apart from the circuit itself.
#[derive(Debug, Clone, Copy, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct Conditions {
    /// Outside air temperature, measured in front of the condenser.
    pub ambient: Temperature,
    /// Relative humidity of the outside air; `None` if it is not known.
    #[cfg_attr(feature = "serde", serde(default))]
    pub humidity: Option<Ratio>,
    /// Absolute pressure of the outside air.
    pub air: Pressure,
    /// Settings of vehicle and controls; printed charts state their own.
    pub settings: Settings,
}

/// Width of a bin of ambient temperature, K; our choice: half a bin moves either side's pressure by 1 %.
const AMBIENT_BIN_K: f64 = 1.0;
/// Width of a bin of relative humidity; our choice.
const HUMIDITY_BIN: f64 = 0.10;
/// Width of a bin of air pressure, kPa; our choice.
const AIR_BIN_KPA: f64 = 2.0;
/// Slack for the last digits of a midpoint, as a share of a bin; our choice.
const SLACK: f64 = 1e-9;

impl Conditions {
    /// Conditions at the midpoint of the bin these lie in, 1 °C of ambient, 10 % of humidity and 2 kPa of air pressure
    /// wide.
    ///
    /// Readings of one bin may share one set of simulated circuits, as the rows of a log do.
    ///
    /// ```
    /// use satline::circuit::{Conditions, Settings};
    /// use satline::{Pressure, Temperature};
    /// let at = |celsius| Conditions {
    ///     ambient: Temperature::from_celsius(celsius),
    ///     humidity: None,
    ///     air: Pressure::from_kpa(101.325),
    ///     settings: Settings::TEST,
    /// };
    /// assert_eq!(at(29.8).bin(), at(30.3).bin());
    /// assert_ne!(at(29.8).bin(), at(30.6).bin());
    /// ```
    #[must_use]
    pub fn bin(&self) -> Self {
        let midpoint = |value: f64, width: f64| (value / width).round() * width;
        Self {
            ambient: Temperature::from_celsius(midpoint(self.ambient.celsius(), AMBIENT_BIN_K)),
            humidity: self
                .humidity
                .map(|humidity| Ratio::from_fraction(midpoint(humidity.fraction(), HUMIDITY_BIN).clamp(0.0, 1.0))),
            air: Pressure::from_kpa(midpoint(self.air.kpa(), AIR_BIN_KPA)),
            settings: self.settings,
        }
    }

    /// Checks that circuits can be simulated under these conditions; a humidity that is not known is possible.
    ///
    /// # Errors
    /// [`Error::Implausible`] outside the range of the model.
    pub(crate) fn check(&self) -> Result<(), Error> {
        let humidity = self.humidity.unwrap_or(Ratio::from_fraction(0.5));
        OperatingPoint { ambient: self.ambient, humidity, air: self.air, running: self.settings }.guard()
    }

    /// Bits of every number of the conditions, for hashing; two conditions are the same if their bits are.
    pub(crate) fn bits(&self) -> [u64; 7] {
        let Settings { engine, motion, intake, blower } = self.settings;
        let engine = match engine {
            EngineSpeed::Idle => 0,
            EngineSpeed::Rpm(rpm) => rpm.to_bits(),
        };
        let motion = match motion {
            Motion::Standing => u64::MAX,
            Motion::Driving(speed) => speed.to_bits(),
        };
        [
            self.ambient.kelvin().to_bits(),
            self.humidity.map_or(u64::MAX, |humidity| humidity.fraction().to_bits()),
            self.air.pa().to_bits(),
            engine,
            motion,
            intake_bits(intake),
            blower.fraction().to_bits(),
        ]
    }

    /// Checks that circuits simulated for `simulated` are comparable with a reading under these conditions: the
    /// settings are the same and the air lies within half a bin ([`Conditions::bin`]).
    ///
    /// # Errors
    /// [`Error::Mismatch`] with both values.
    pub fn matches(&self, simulated: &Self) -> Result<(), Error> {
        let near = |a: f64, b: f64, bin: f64| (a - b).abs() <= (0.5 + SLACK) * bin;
        let mismatch = |what, reading: String, reference: String| Err(Error::Mismatch { what, reading, reference });
        if !near(self.ambient.celsius(), simulated.ambient.celsius(), AMBIENT_BIN_K) {
            let text = |t: Temperature| format!("{:.1} °C", t.celsius());
            return mismatch("ambient temperature", text(self.ambient), text(simulated.ambient));
        }
        let same_humidity = match (self.humidity, simulated.humidity) {
            (Some(a), Some(b)) => near(a.fraction(), b.fraction(), HUMIDITY_BIN),
            (None, None) => true,
            _ => false,
        };
        if !same_humidity {
            let text = |humidity: Option<Ratio>| {
                humidity.map_or("not known".to_owned(), |humidity| format!("{:.0} %", humidity.percent()))
            };
            return mismatch("relative humidity", text(self.humidity), text(simulated.humidity));
        }
        if !near(self.air.kpa(), simulated.air.kpa(), AIR_BIN_KPA) {
            let text = |p: Pressure| format!("{:.1} kPa", p.kpa());
            return mismatch("air pressure", text(self.air), text(simulated.air));
        }
        if self.settings != simulated.settings {
            let text = |settings: Settings| settings.to_string();
            return mismatch("engine speed, motion, intake or blower", text(self.settings), text(simulated.settings));
        }
        Ok(())
    }
}

/// Blower settings that the model takes, % of its highest; our choice, as no blower runs at less than a tenth.
const BLOWER_PERCENT: (f64, f64) = (10.0, 100.0);
/// Engine speeds that the model takes, rpm, from the lowest idle to the highest of car engines; common practice, no source.
const ENGINE_RPM: (f64, f64) = (400.0, 7000.0);
/// Fastest driving that the model takes, km/h; our choice.
const FASTEST_KM_PER_H: f64 = 250.0;

/// A number of its own for each intake; minutes stand above it, one more than they are, so that zero is none.
fn intake_bits(intake: Intake) -> u64 {
    let after = |minutes: Option<u16>| minutes.map_or(0, |minutes| (u64::from(minutes) + 1) << 8);
    match intake {
        Intake::DoorsOpen => 0,
        Intake::Fresh => 1,
        Intake::WindowOpen { minutes } => 2 + after(minutes),
        Intake::Shut { minutes } => 3 + after(minutes),
    }
}

impl Settings {
    /// # Errors
    /// [`Error::Implausible`] for a speed, a driving speed or a blower outside what the model was made for.
    pub(crate) fn check(&self) -> Result<(), Error> {
        let within = |what, value: f64, low: f64, high: f64, unit| {
            if (low..=high).contains(&value) {
                return Ok(());
            }
            Err(Error::Implausible { what, value, low, high, unit })
        };
        within("blower", self.blower.percent(), BLOWER_PERCENT.0, BLOWER_PERCENT.1, "%")?;
        if let EngineSpeed::Rpm(rpm) = self.engine {
            within("engine speed", rpm, ENGINE_RPM.0, ENGINE_RPM.1, "rpm")?;
        }
        if let Motion::Driving(speed) = self.motion {
            within("speed of the car", speed, 0.0, FASTEST_KM_PER_H, "km/h")?;
        }
        Ok(())
    }
}

impl std::fmt::Display for Settings {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self.engine {
            EngineSpeed::Idle => f.write_str("idle")?,
            EngineSpeed::Rpm(rpm) => write!(f, "{rpm:.0} rpm")?,
        }
        if let Motion::Driving(speed) = self.motion {
            write!(f, ", {speed:.0} km/h")?;
        }
        f.write_str(match self.intake {
            Intake::Fresh => ", fresh air",
            Intake::DoorsOpen => ", recirculation with the doors open",
            Intake::WindowOpen { .. } => ", recirculation with a window open",
            Intake::Shut { .. } => ", recirculation with doors and windows shut",
        })?;
        if let Intake::WindowOpen { minutes: Some(minutes) } | Intake::Shut { minutes: Some(minutes) } = self.intake {
            write!(f, " for {minutes} min")?;
        }
        write!(f, ", blower {:.0} %", self.blower.percent())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_intake_has_words_and_bits_of_its_own() {
        let intakes = [
            (Intake::Fresh, "idle, fresh air, blower 100 %"),
            (Intake::DoorsOpen, "idle, recirculation with the doors open, blower 100 %"),
            (Intake::WindowOpen { minutes: None }, "idle, recirculation with a window open, blower 100 %"),
            (Intake::WindowOpen { minutes: Some(0) }, "idle, recirculation with a window open for 0 min, blower 100 %"),
            (Intake::Shut { minutes: None }, "idle, recirculation with doors and windows shut, blower 100 %"),
            (
                Intake::Shut { minutes: Some(10) },
                "idle, recirculation with doors and windows shut for 10 min, blower 100 %",
            ),
        ];
        for (i, (intake, words)) in intakes.into_iter().enumerate() {
            assert_eq!(Settings { intake, ..Settings::TEST }.to_string(), words);
            assert!(intakes[..i].iter().all(|(other, _)| intake_bits(*other) != intake_bits(intake)), "{words}");
        }
    }
}
