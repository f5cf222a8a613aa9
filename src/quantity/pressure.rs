//! Absolute pressure, gauge pressure, and the difference between two of either.

use super::{affine, linear, quantity, ratio_scale, unit_enum};

/// Standard acceleration of free fall, m/s²: 3rd General Conference on Weights and Measures, 1901.
const STANDARD_GRAVITY: f64 = 9.806_65;
/// One pound in kilograms, by definition.
const KILOGRAMS_PER_POUND: f64 = 0.453_592_37;
/// One inch in metres, by definition.
const METRES_PER_INCH: f64 = 0.0254;
/// Conventional density of mercury at 0 °C, kg/m³, on which inHg and the micron of mercury rest: ISO 80000-4:2006,
/// annex (from memory).
const CONVENTIONAL_MERCURY: f64 = 13_595.1;

unit_enum! {
    /// Units of pressure.
    PressureUnit {
        /// Kilopascal, kPa.
        Kilopascal = 1e3, "kPa", "kpa", "KPa", "KPA";
        /// Bar, 100 kPa.
        Bar = 1e5, "bar", "Bar", "BAR";
        /// Pound-force per square inch.
        Psi = KILOGRAMS_PER_POUND * STANDARD_GRAVITY / (METRES_PER_INCH * METRES_PER_INCH), "psi", "PSI", "Psi", "lbf/in2", "lbf/in²";
        /// Megapascal, MPa.
        Megapascal = 1e6, "MPa";
        /// Kilogram-force per square centimetre.
        KilogramForce = STANDARD_GRAVITY * 1e4, "kgf/cm²", "kgf/cm2", "kg/cm2", "kg/cm²";
        /// Pascal, Pa.
        Pascal = 1.0, "Pa";
        /// Inch of mercury, conventional.
        InchOfMercury = METRES_PER_INCH * CONVENTIONAL_MERCURY * STANDARD_GRAVITY, "inHg", "in Hg", "in. Hg", "InHg", "\"Hg", "inhg";
        /// Torr, a 760th of the standard atmosphere.
        Torr = 101_325.0 / 760.0, "Torr", "torr";
        /// Micron of mercury, conventional; a vacuum gauge's unit.
        Micron = 1e-6 * CONVENTIONAL_MERCURY * STANDARD_GRAVITY, "micron", "microns";
        /// Hectopascal, hPa, as on barometers; 1 mbar.
        Hectopascal = 1e2, "hPa", "hpa", "mbar";
    }
}

#[cfg(feature = "diagnosis")]
impl PressureUnit {
    /// Decimals to which a service gauge can be read.
    pub(crate) fn gauge_decimals(self) -> u8 {
        // a step of a tenth of a psi, about 0.7 kPa, is below what any service gauge resolves
        let step = 700.0 / self.factor();
        (-step.log10()).round().max(0.0) as u8
    }
}

quantity! {
    /// Absolute pressure, measured from vacuum; the type that equations take.
    ///
    /// It does not add to a gauge pressure, and a function that takes one does not take the other:
    ///
    /// ```compile_fail,E0308
    /// # use satline::{GaugePressure, Pressure};
    /// let wrong = Pressure::from_kpa(101.325) + GaugePressure::from_psi(30.0);
    /// ```
    /// ```compile_fail,E0308
    /// # use satline::{GaugePressure, Refrigerant};
    /// let wrong = Refrigerant::R134a.saturation_temperature(GaugePressure::from_psi(30.0));
    /// ```
    Pressure, "absolute pressure", "101.3 kPa", PressureUnit, difference PressureDifference, reference "absolute",
    {
        from_pa pa Pascal; from_kpa kpa Kilopascal; from_mpa mpa Megapascal; from_bar bar Bar; from_psi psi Psi;
        from_kgf_per_cm2 kgf_per_cm2 KilogramForce; from_inhg inhg InchOfMercury; from_torr torr Torr;
        from_microns microns Micron; from_hpa hpa Hectopascal;
    }
}

impl Pressure {
    /// Standard atmosphere, 101 325 Pa: 10th General Conference on Weights and Measures, 1954.
    pub const STANDARD_ATMOSPHERE: Self = Self(101_325.0);

    /// Gauge pressure, with `air` the absolute pressure of the surrounding air.
    ///
    /// ```
    /// # use approx::assert_abs_diff_eq;
    /// # use satline::Pressure;
    /// let gauge = Pressure::from_kpa(292.80).gauge(Pressure::STANDARD_ATMOSPHERE);
    /// assert_abs_diff_eq!(gauge.kpa(), 191.475, epsilon = 1e-9); // rounding
    /// ```
    pub const fn gauge(self, air: Self) -> GaugePressure {
        GaugePressure(self.0 - air.0)
    }
}

quantity! {
    /// Pressure above that of the surrounding air, as a service gauge reads it; negative in vacuum.
    ///
    /// It converts to an absolute pressure only with the pressure of the air:
    ///
    /// ```
    /// # use approx::assert_abs_diff_eq;
    /// # use satline::{GaugePressure, Pressure};
    /// let at_1000_m = Pressure::from_kpa(89.875); // ISO 2533:1975, 1000 m
    /// // half its last digit
    /// assert_abs_diff_eq!(GaugePressure::from_psi(30.0).absolute(at_1000_m).kpa(), 296.718, epsilon = 5e-4);
    /// ```
    /// ```compile_fail,E0277
    /// # use satline::{GaugePressure, Pressure};
    /// let wrong: Pressure = GaugePressure::from_psi(30.0).into();
    /// ```
    GaugePressure, "gauge pressure", "32 psi", PressureUnit, difference PressureDifference, reference "gauge",
    {
        from_pa pa Pascal; from_kpa kpa Kilopascal; from_mpa mpa Megapascal; from_bar bar Bar; from_psi psi Psi;
        from_kgf_per_cm2 kgf_per_cm2 KilogramForce; from_inhg inhg InchOfMercury; from_torr torr Torr;
        from_microns microns Micron; from_hpa hpa Hectopascal;
    }
}

impl GaugePressure {
    /// Absolute pressure, with `air` the absolute pressure of the surrounding air.
    pub const fn absolute(self, air: Pressure) -> Pressure {
        Pressure(self.0 + air.0)
    }
}

quantity! {
    /// Difference between two pressures, or the uncertainty of one; the same whether they are absolute or gauge.
    PressureDifference, "pressure difference", "5 kPa", PressureUnit, difference PressureDifference,
    {
        from_pa pa Pascal; from_kpa kpa Kilopascal; from_mpa mpa Megapascal; from_bar bar Bar; from_psi psi Psi;
        from_kgf_per_cm2 kgf_per_cm2 KilogramForce; from_inhg inhg InchOfMercury; from_torr torr Torr;
        from_microns microns Micron; from_hpa hpa Hectopascal;
    }
}

linear! { PressureDifference }
ratio_scale! { Pressure }
affine! { Pressure by PressureDifference; GaugePressure by PressureDifference; }
