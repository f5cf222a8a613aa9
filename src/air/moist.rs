//! Moist air from its temperature, its pressure and one measure of humidity.

use super::formulas::{self, FREEZING_K, Wick};
use super::water::{self, saturation_pressure_pa};
use crate::quantity::{Density, SpecificEnthalpy};
use crate::{Error, Pressure, Ratio, Source, Temperature, Trust, Volume};

/// Source of the equations of moist air and their constants.
pub const ASHRAE: Source = Source {
    work: "ASHRAE Handbook Fundamentals (SI) 2017",
    locator: "ch. 1, eqs. 11, 20, 22, 26, 30, 33, 35",
    doi: None,
    trust: Trust::Secondary,
};

/// Lowest air temperature accepted, °C: the lower end of the Handbook's saturation equation.
const LOWEST_C: f64 = -100.0;
/// Highest air temperature accepted, °C: the upper end of the Handbook's saturation equation.
const HIGHEST_C: f64 = 200.0;
/// Lowest air pressure accepted, Pa: that of the standard atmosphere at 16 km.
const LOWEST_PA: f64 = 10e3;
/// Highest air pressure accepted, Pa: above it the neglected enhancement factor passes one percent.
const HIGHEST_PA: f64 = 200e3;
/// Relative excess over saturation that a state may have from its own rounded numbers and still be taken as saturated.
const ROUNDING: f64 = 1e-12;

/// Moist air at one temperature, pressure and humidity.
///
/// - **Equations** W = 0.621945 pw/(p − pw), φ = pw/pws(t), h = 1.006 t + W (2501 + 1.86 t) in kJ per kg of dry air,
///   v = 0.287042 T (1 + W/0.621945)/p in m³ per kg of dry air with p in kPa; t in °C, T in K. Saturation is that of
///   [`water`](super::water), over ice below 0.01 °C.
/// - **Range** air of −100 °C to 200 °C and 10 kPa to 200 kPa absolute.
/// - **Accuracy** ideal gases: the enhancement factor, by which real air holds more vapour than a vacuum would, is neglected.
///   At 101.325 kPa it is 1.0041 to 1.0052 from −10 °C to 50 °C, and nearer to 1 higher up. The humidity ratio of saturated
///   air comes out too low by it, by 0.43 % at 20 °C and 0.60 % at 50 °C. Against a real-gas mixture from −20 °C to 50 °C, sea
///   level to 3000 m: wet bulb within 0.025 K, dew point within 0.02 K, density within 0.1 %.
/// - **Relative humidity** as in the Handbook: below 0.01 °C it is relative to saturation over *ice*. For weather
///   stations and most hygrometers it is relative to supercooled water there (WMO Guide No. 8, from memory), and so
///   they read less: 90.7 % of it at −10 °C. Give the dew point instead where that matters.
/// - **Source** [`ASHRAE`].
///
/// ```
/// use approx::assert_abs_diff_eq;
/// use satline::air::MoistAir;
/// use satline::{Pressure, Ratio, Temperature};
///
/// let p = Pressure::STANDARD_ATMOSPHERE;
/// let air = MoistAir::from_relative_humidity(Temperature::from_celsius(30.0), Ratio::from_percent(50.0), p)?;
/// assert_eq!(format!("{:.2} g/kg", air.humidity_ratio().fraction() * 1e3), "13.31 g/kg");
/// assert_eq!(format!("{:.1} kJ/kg", air.enthalpy().kj_per_kg()), "64.2 kJ/kg");
/// assert_eq!(format!("{:.3} kg/m³", air.density().kg_per_m3()), "1.155 kg/m³");
///
/// // the same air from its dew point and from its wet bulb
/// let dew = MoistAir::from_dew_point(air.temperature(), air.dew_point()?, p)?;
/// let wet = MoistAir::from_wet_bulb(air.temperature(), air.wet_bulb()?, p)?;
/// // there and back leaves rounding
/// assert_abs_diff_eq!(dew.relative_humidity().percent(), 50.0, epsilon = 1e-9);
/// assert_abs_diff_eq!(wet.relative_humidity().percent(), 50.0, epsilon = 1e-9);
/// # Ok::<(), satline::Error>(())
/// ```
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistAir {
    /// Temperature, K.
    t: f64,
    /// Absolute pressure, Pa.
    p: f64,
    /// Partial pressure of the vapour, Pa.
    vapour: f64,
}

impl MoistAir {
    /// Saturated air at temperature `t` and absolute pressure `p`.
    ///
    /// # Errors
    /// [`Error::OutOfRange`] and [`Error::Implausible`] for temperature and pressure outside the range of the type,
    /// [`Error::NoRoomForAir`] at and above the boiling point.
    pub fn saturated(t: Temperature, p: Pressure) -> Result<Self, Error> {
        Self::from_relative_humidity(t, Ratio::from_fraction(1.0), p)
    }

    /// Moist air from its relative humidity; below 0.01 °C that over ice.
    ///
    /// # Errors
    /// As [`MoistAir::saturated`]; [`Error::ImpossibleHumidity`] outside 0 to 100 %.
    pub fn from_relative_humidity(t: Temperature, humidity: Ratio, p: Pressure) -> Result<Self, Error> {
        let dry = Self::dry(t, p)?;
        let share = humidity.fraction();
        if !(0.0..=1.0).contains(&share) {
            return Err(dry.impossible(
                ("relative humidity", "%", "check the reading and its unit"),
                humidity.percent(),
                (0.0, 100.0),
            ));
        }
        dry.with_vapour(share * saturation_pressure_pa(dry.t))
    }

    /// Moist air from its dew point, or its frost point below 0.01 °C.
    ///
    /// # Errors
    /// As [`MoistAir::saturated`]; [`Error::ImpossibleHumidity`] for a dew point above `t`.
    pub fn from_dew_point(t: Temperature, dew_point: Temperature, p: Pressure) -> Result<Self, Error> {
        let dry = Self::dry(t, p)?;
        let low = water::RANGE.low;
        if !(low <= dew_point && dew_point <= t) {
            return Err(dry.impossible(
                ("dew point", "°C", "check that both temperatures are of the same air and in the unit meant"),
                dew_point.celsius(),
                (low.celsius(), t.celsius()),
            ));
        }
        dry.with_vapour(saturation_pressure_pa(dew_point.kelvin()))
    }

    /// Moist air from its wet-bulb temperature: the temperature at which water or, below 0 °C, ice evaporates into the
    /// air until it is saturated, with no heat from elsewhere. A thermometer with a wet wick in a strong draught reads
    /// it closely.
    ///
    /// W = [(2501 − 2.326 t*) Ws* − 1.006 (t − t*)]/(2501 + 1.86 t − 4.186 t*) over water,
    /// W = [(2830 − 0.24 t*) Ws* − 1.006 (t − t*)]/(2830 + 1.86 t − 2.1 t*) over ice.
    ///
    /// # Errors
    /// As [`MoistAir::saturated`]; [`Error::ImpossibleHumidity`] for a wet bulb above `t`, or below that of dry air.
    pub fn from_wet_bulb(t: Temperature, wet_bulb: Temperature, p: Pressure) -> Result<Self, Error> {
        let dry = Self::dry(t, p)?;
        let wick = if wet_bulb.kelvin() < FREEZING_K { Wick::ICE } else { Wick::WATER };
        let impossible = || {
            let lowest = dry.wet_bulb_of(wick)?;
            Err(dry.impossible(
                ("wet bulb", "°C", "check that both thermometers are in the unit meant and the sleeve is wet"),
                wet_bulb.celsius(),
                (lowest.celsius(), t.celsius()),
            ))
        };
        if !(water::RANGE.low <= wet_bulb && wet_bulb <= t) {
            return impossible();
        }
        let saturated = dry.with_vapour(saturation_pressure_pa(wet_bulb.kelvin()))?;
        if wet_bulb == t {
            return Ok(saturated);
        }
        let w = wick.humidity_ratio(t.celsius(), wet_bulb.celsius(), dry.p);
        if w < 0.0 {
            return impossible();
        }
        // a bulb a last place below the air may come out a last place above saturation
        dry.with_vapour(formulas::vapour_pressure_pa(w, dry.p).min(saturation_pressure_pa(dry.t)))
    }

    /// Moist air from its humidity ratio, the mass of vapour per mass of dry air.
    ///
    /// # Errors
    /// As [`MoistAir::saturated`]; [`Error::ImpossibleHumidity`] below zero and above what the air can hold.
    pub fn from_humidity_ratio(t: Temperature, ratio: Ratio, p: Pressure) -> Result<Self, Error> {
        let dry = Self::dry(t, p)?;
        let w = ratio.fraction();
        let saturation = saturation_pressure_pa(dry.t);
        let most = if saturation < dry.p { formulas::humidity_ratio(saturation, dry.p) } else { f64::INFINITY };
        // a state that was saturated before its numbers were rounded still is
        if !(0.0 <= w && w <= most * (1.0 + ROUNDING) && w.is_finite()) {
            return Err(dry.impossible(
                ("humidity ratio", "g/kg", "check its unit; water beyond that is fog and does not count"),
                w * 1e3,
                (0.0, most * 1e3),
            ));
        }
        dry.with_vapour(formulas::vapour_pressure_pa(w, dry.p).min(saturation))
    }

    /// Dry-bulb temperature of the air.
    pub const fn temperature(&self) -> Temperature {
        Temperature::from_kelvin(self.t)
    }

    /// Absolute pressure of air and vapour together, as read on a barometer.
    pub const fn pressure(&self) -> Pressure {
        Pressure::from_pa(self.p)
    }

    /// Partial pressure of the water vapour.
    pub const fn vapour_pressure(&self) -> Pressure {
        Pressure::from_pa(self.vapour)
    }

    /// Relative humidity: vapour pressure over that at saturation, below 0.01 °C over ice.
    pub fn relative_humidity(&self) -> Ratio {
        Ratio::from_fraction(self.vapour / saturation_pressure_pa(self.t))
    }

    /// Humidity ratio: mass of vapour per mass of dry air, kg/kg.
    pub fn humidity_ratio(&self) -> Ratio {
        Ratio::from_fraction(self.ratio())
    }

    /// Dew point: temperature to which the air must cool for dew to form; below 0.01 °C the frost point.
    ///
    /// # Errors
    /// [`Error::NoVapour`] for dry air, which has none.
    pub fn dew_point(&self) -> Result<Temperature, Error> {
        match water::saturation_temperature(self.vapour_pressure()) {
            Ok(t) => Ok(t),
            Err(Error::OutOfRange { .. }) => Err(Error::NoVapour { celsius: self.temperature().celsius() }),
            Err(other) => Err(other),
        }
    }

    /// Wet-bulb temperature, as defined at [`MoistAir::from_wet_bulb`].
    ///
    /// Water needs less heat to evaporate than ice, so near 0 °C the same air can have two wet bulbs, one a little
    /// above with a wet wick and one a little below with a frozen one. The wet one is then returned, which is 0 °C or
    /// more.
    ///
    /// # Errors
    /// [`Error::NotConverged`] if the solution stops short, which no state of this type is known to bring about.
    pub fn wet_bulb(&self) -> Result<Temperature, Error> {
        self.wet_bulb_of(Wick::WATER)
    }

    /// Specific enthalpy of the moist air per kg of dry air; zero for dry air and for liquid water at 0 °C.
    pub fn enthalpy(&self) -> SpecificEnthalpy {
        SpecificEnthalpy::from_j_per_kg(formulas::enthalpy_j_per_kg_dry(self.temperature().celsius(), self.ratio()))
    }

    /// Specific enthalpy per kg of dry air if the air were saturated at its temperature and pressure.
    ///
    /// The difference between this at a wet surface and [`MoistAir::enthalpy`] drives heat and water to the surface together.
    ///
    /// # Errors
    /// [`Error::NoRoomForAir`] at and above the boiling point, where air cannot be saturated.
    pub fn saturated_enthalpy(&self) -> Result<SpecificEnthalpy, Error> {
        self.with_vapour(saturation_pressure_pa(self.t))?;
        Ok(SpecificEnthalpy::from_j_per_kg(formulas::saturated_enthalpy_j_per_kg_dry(self.t, self.p)))
    }

    /// Density of the moist air: mass of air and vapour together per unit volume.
    pub fn density(&self) -> Density {
        // ρ = (1 + W)/v
        Density::from_kg_per_m3((1.0 + self.ratio()) * self.dry_density().kg_per_m3())
    }

    /// Mass of dry air per unit volume of moist air: the reciprocal of [`MoistAir::volume_per_kg_dry`].
    pub fn dry_density(&self) -> Density {
        Density::from_kg_per_m3(formulas::dry_density(self.t, self.ratio(), self.p))
    }

    /// Volume of moist air that contains one kg of dry air.
    pub fn volume_per_kg_dry(&self) -> Volume {
        Volume::from_m3(1.0 / self.dry_density().kg_per_m3())
    }

    /// Wet bulb with `wick` if there is one, else with the other.
    fn wet_bulb_of(&self, wick: Wick) -> Result<Temperature, Error> {
        let boiling = water::saturation_temperature(self.pressure())?;
        formulas::wet_bulb_k(wick, self.t, self.ratio(), self.p, boiling.kelvin()).map(Temperature::from_kelvin)
    }

    /// Humidity ratio, kg/kg.
    fn ratio(&self) -> f64 {
        formulas::humidity_ratio(self.vapour, self.p)
    }

    /// Air without vapour, once temperature and pressure are in range.
    fn dry(t: Temperature, p: Pressure) -> Result<Self, Error> {
        let (celsius, kpa) = (t.celsius(), p.kpa());
        if !(LOWEST_C..=HIGHEST_C).contains(&celsius) {
            return Err(Error::OutOfRange {
                what: "air temperature",
                value: celsius,
                low: LOWEST_C,
                high: HIGHEST_C,
                unit: "°C",
            });
        }
        if !(LOWEST_PA..=HIGHEST_PA).contains(&p.pa()) {
            return Err(Error::Implausible {
                what: "absolute air pressure",
                value: kpa,
                low: LOWEST_PA / 1e3,
                high: HIGHEST_PA / 1e3,
                unit: "kPa",
            });
        }
        Ok(Self { t: t.kelvin(), p: p.pa(), vapour: 0.0 })
    }

    /// Same air with this vapour pressure, Pa.
    fn with_vapour(self, vapour: f64) -> Result<Self, Error> {
        if vapour < self.p {
            return Ok(Self { vapour, ..self });
        }
        Err(Error::NoRoomForAir { kpa: self.p / 1e3, vapour_kpa: vapour / 1e3, celsius: self.temperature().celsius() })
    }

    /// Error for a humidity this air cannot have: what, its unit and the way out; the value; the range it may lie in.
    fn impossible(
        &self,
        (what, unit, way_out): (&'static str, &'static str, &'static str),
        value: f64,
        (low, high): (f64, f64),
    ) -> Error {
        let (celsius, kpa) = (self.temperature().celsius(), self.p / 1e3);
        Error::ImpossibleHumidity { what, value, low, high, unit, celsius, kpa, way_out }
    }
}
