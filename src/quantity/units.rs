//! Units of the quantities that apps rarely list: the types of [`Quantity::Unit`](super::Quantity::Unit), used by the
//! named constructors.

use super::{PressureUnit, unit_enum};

pub use super::temperature::StepUnit;

/// One inch in metres, by definition.
const METRES_PER_INCH: f64 = 0.0254;
/// A Julian year of 365.25 days, by convention of astronomy; a leak per year does not ask for more.
const SECONDS_PER_YEAR: f64 = 365.25 * 86_400.0;

unit_enum! {
    /// Units of mass.
    MassUnit {
        /// Gram, g.
        Gram = 1e-3, "g", "gram", "grams";
        /// Kilogram, kg.
        Kilogram = 1.0, "kg";
        /// Avoirdupois ounce, a sixteenth of a pound.
        Ounce = 0.453_592_37 / 16.0, "oz", "oz wt";
        /// Avoirdupois pound, 0.453 592 37 kg by definition.
        Pound = 0.453_592_37, "lb", "lbs";
    }
}

unit_enum! {
    /// Units of volume. The two fluid ounces differ by 4 %; neither is the ounce of weight.
    VolumeUnit {
        /// Cubic centimetre, cm³.
        CubicCentimetre = 1e-6, "cm³", "cm3", "cc", "ccm";
        /// Millilitre, mL.
        Millilitre = 1e-6, "mL", "ml";
        /// Litre, L.
        Litre = 1e-3, "L", "l";
        /// Cubic metre, m³.
        CubicMetre = 1.0, "m³", "m3";
        /// US fluid ounce: a gallon is 231 cubic inches, an ounce its 128th part.
        UsFluidOunce = 231.0 * METRES_PER_INCH * METRES_PER_INCH * METRES_PER_INCH / 128.0, "US fl oz", "us fl oz", "US fl. oz";
        /// Imperial fluid ounce: a gallon is 4.546 09 L, an ounce its 160th part.
        ImperialFluidOunce = 4.546_09e-3 / 160.0, "imp fl oz", "imperial fl oz", "imp. fl. oz";
    }
}

unit_enum! {
    /// Units of length, used for altitude.
    LengthUnit {
        /// Metre, m.
        Metre = 1.0, "m";
        /// International foot, twelve inches.
        Foot = 12.0 * METRES_PER_INCH, "ft", "feet", "foot";
        /// Kilometre, km.
        Kilometre = 1e3, "km";
    }
}

unit_enum! {
    /// Units of a ratio.
    RatioUnit {
        /// Percent, one hundredth.
        Percent = 0.01, "%", "percent", "% RH", "%RH";
        /// Fraction of one.
        Fraction = 1.0, "of 1";
    }
}

unit_enum! {
    /// Units of density.
    DensityUnit {
        /// Kilogram per cubic metre, kg/m³.
        KilogramPerCubicMetre = 1.0, "kg/m³", "kg/m3";
        /// Gram per cubic centimetre, g/cm³.
        GramPerCubicCentimetre = 1e3, "g/cm³", "g/cm3";
    }
}

unit_enum! {
    /// Units of specific enthalpy.
    EnthalpyUnit {
        /// Kilojoule per kilogram, kJ/kg.
        KilojoulePerKilogram = 1e3, "kJ/kg";
        /// Joule per kilogram, J/kg.
        JoulePerKilogram = 1.0, "J/kg";
    }
}

unit_enum! {
    /// Units of specific entropy and specific heat capacity.
    EntropyUnit {
        /// Kilojoule per kilogram kelvin, kJ/(kg K).
        KilojoulePerKilogramKelvin = 1e3, "kJ/(kg K)";
        /// Joule per kilogram kelvin, J/(kg K).
        JoulePerKilogramKelvin = 1.0, "J/(kg K)";
    }
}

unit_enum! {
    /// Units of power.
    PowerUnit {
        /// Watt, W.
        Watt = 1.0, "W";
        /// Kilowatt, kW.
        Kilowatt = 1e3, "kW";
    }
}

unit_enum! {
    /// Units of molar mass.
    MolarMassUnit {
        /// Gram per mole, g/mol.
        GramPerMole = 1e-3, "g/mol";
        /// Kilogram per mole, kg/mol.
        KilogramPerMole = 1.0, "kg/mol";
    }
}

unit_enum! {
    /// Units of dynamic viscosity.
    DynamicViscosityUnit {
        /// Micropascal second, µPa s.
        MicropascalSecond = 1e-6, "µPa s", "μPa s", "µPa·s", "μPa·s", "uPa s";
        /// Millipascal second, mPa s; 1 cP.
        MillipascalSecond = 1e-3, "mPa s", "mPa·s", "cP";
        /// Pascal second, Pa s.
        PascalSecond = 1.0, "Pa s", "Pa·s";
    }
}

unit_enum! {
    /// Units of thermal conductivity.
    ThermalConductivityUnit {
        /// Milliwatt per metre kelvin, mW/(m K).
        MilliwattPerMetreKelvin = 1e-3, "mW/(m K)", "mW/(m·K)";
        /// Watt per metre kelvin, W/(m K).
        WattPerMetreKelvin = 1.0, "W/(m K)", "W/(m·K)";
    }
}

unit_enum! {
    /// Units of surface tension.
    SurfaceTensionUnit {
        /// Millinewton per metre, mN/m.
        MillinewtonPerMetre = 1e-3, "mN/m", "dyn/cm";
        /// Newton per metre, N/m.
        NewtonPerMetre = 1.0, "N/m";
    }
}

unit_enum! {
    /// Units of time.
    TimeUnit {
        /// Minute, min.
        Minute = 60.0, "min", "minutes", "minute";
        /// Second, s.
        Second = 1.0, "s", "sec", "seconds", "second";
        /// Hour, h.
        Hour = 3600.0, "h", "hours", "hour";
        /// Day, d.
        Day = 86_400.0, "d", "days", "day";
        /// Julian year of 365.25 days.
        Year = SECONDS_PER_YEAR, "yr", "years", "year";
    }
}

unit_enum! {
    /// Units of a rate of pressure change.
    PressureRateUnit {
        /// Pascal per second, Pa/s.
        PascalPerSecond = 1.0, "Pa/s";
        /// Kilopascal per minute, kPa/min.
        KilopascalPerMinute = 1e3 / 60.0, "kPa/min";
        /// Pascal per minute, Pa/min.
        PascalPerMinute = 1.0 / 60.0, "Pa/min";
        /// Hectopascal per minute, hPa/min.
        HectopascalPerMinute = 1e2 / 60.0, "hPa/min", "mbar/min";
        /// Micron of mercury per minute, micron/min.
        MicronPerMinute = PressureUnit::Micron.factor() / 60.0, "micron/min", "microns/min";
        /// Torr per minute, Torr/min.
        TorrPerMinute = PressureUnit::Torr.factor() / 60.0, "Torr/min", "torr/min";
        /// Inch of mercury per minute, inHg/min.
        InchOfMercuryPerMinute = PressureUnit::InchOfMercury.factor() / 60.0, "inHg/min";
    }
}

unit_enum! {
    /// Units of gas throughput, pressure × volume per unit time.
    ThroughputUnit {
        /// Pascal cubic metre per second, Pa m³/s.
        PascalCubicMetrePerSecond = 1.0, "Pa m³/s", "Pa m3/s", "Pa·m³/s";
        /// Pascal litre per second, Pa L/s.
        PascalLitrePerSecond = 1e-3, "Pa L/s", "Pa l/s";
        /// Millibar litre per second, mbar L/s.
        MillibarLitrePerSecond = 0.1, "mbar L/s", "mbar l/s", "mbar·L/s";
        /// Torr litre per second, Torr L/s.
        TorrLitrePerSecond = 101_325.0 / 760.0 * 1e-3, "Torr L/s", "torr l/s";
    }
}

unit_enum! {
    /// Units of a rate of mass loss.
    MassRateUnit {
        /// Gram per Julian year.
        GramPerYear = 1e-3 / SECONDS_PER_YEAR, "g/yr", "g/year", "g/a";
        /// Avoirdupois ounce per Julian year.
        OuncePerYear = MassUnit::Ounce.factor() / SECONDS_PER_YEAR, "oz/yr", "oz/year";
        /// Kilogram per second, kg/s.
        KilogramPerSecond = 1.0, "kg/s";
    }
}
