//! Units, text, uncertainty and instruments: every factor against an independent relation, every text against a table.

use approx::{abs_diff_eq, assert_abs_diff_eq, relative_eq};
use proptest::prelude::*;
use satline::quantity::instrument::{self, PressureGauge, Thermometer};
use satline::quantity::{
    Density, DensityUnit, DynamicViscosity, EnthalpyUnit, EntropyUnit, LengthUnit, MassRate, MassUnit, MolarMass,
    MolarMassUnit, Power, PowerUnit, PressureRate, PressureUnit, RatioUnit, SpecificEnthalpy, SpecificEntropy,
    StepUnit, SurfaceTension, TemperatureUnit, ThermalConductivity, Throughput, Time, Uncertainty, Unit, VolumeUnit,
    unit_named,
};
use satline::{
    Entered, Error, GaugePressure, Length, Mass, Measured, Pressure, PressureDifference, Quantity, Range, Ratio,
    Temperature, TemperatureDifference, Volume,
};

/// Rounding of a few operations on numbers up to some hundred.
const ROUNDING: f64 = 1e-12;

/// The quantity that `text` states.
fn read<Q: Quantity>(text: &str) -> Result<Q, Error> {
    text.parse::<Entered<Q>>().map(|stated| stated.quantity())
}

/// Whether `a` and `b` are the same but for a few units in the last place.
fn same(a: f64, b: f64) -> bool {
    relative_eq!(a, b, epsilon = 0.0, max_relative = 4.0 * f64::EPSILON)
}

/// Every unit of `Q` against its size in SI units, within half a unit in the last digit of the source.
fn sizes<Q: Quantity>(expected: &[(&str, f64, f64)]) {
    let units: Vec<&str> = Q::Unit::ALL.iter().map(|unit| unit.symbol()).collect();
    let checked: Vec<&str> = expected.iter().map(|row| row.0).collect();
    assert_eq!(units, checked, "{}: a unit without a check, or in another place", Q::NAME);
    for (&unit, &(symbol, size, half_digit)) in Q::Unit::ALL.iter().zip(expected) {
        let ours = Q::new(1.0, unit).si() - Q::new(0.0, unit).si();
        assert!(abs_diff_eq!(ours, size, epsilon = half_digit + 1e-13 * size), "1 {symbol} is {ours}, expected {size}");
        // a temperature takes its zero along, 459.67 °F at most
        let zero = Q::from_si(0.0).value_in(unit).abs();
        let back = Q::new(7.25, unit).value_in(unit);
        // a few last places
        assert!(
            abs_diff_eq!(back, 7.25, epsilon = 4.0 * f64::EPSILON * (zero + 7.25)),
            "{symbol} there and back: {back}"
        );
    }
}

// Sizes: NIST Special Publication 811 (2008), Appendix B.8, from memory where not exact by definition. Exact ones carry
// no tolerance.
#[test]
fn units_of_pressure_have_the_size_of_the_guide() {
    let rows = [
        ("kPa", 1e3, 0.0),
        ("bar", 1e5, 0.0),
        // 6.894 757 E+03 in the guide; 13 digits follow from the exact pound, inch and gravity
        ("psi", 6_894.757_293_168, 5e-10),
        ("MPa", 1e6, 0.0),
        ("kgf/cm²", 98_066.5, 0.0),
        ("Pa", 1.0, 0.0),
        // conventional
        ("inHg", 3_386.389, 5e-4),
        ("Torr", 133.322_4, 5e-5),
        // a thousandth of the conventional millimetre of mercury, 1.333 224 E+02
        ("micron", 0.133_322_4, 5e-8),
        ("hPa", 100.0, 0.0),
    ];
    sizes::<Pressure>(&rows);
    sizes::<GaugePressure>(&rows);
    sizes::<PressureDifference>(&rows);
}

#[test]
fn units_of_pressure_fit_together() {
    // 760 Torr are the standard atmosphere; 25 400 micron are an inch; 14.223 343 psi are 1 kgf/cm² (guide: 14.22334)
    assert!(same(Pressure::from_torr(760.0).pa(), 101_325.0));
    assert!(same(Pressure::from_microns(25_400.0).inhg(), 1.0));
    assert_abs_diff_eq!(Pressure::from_kgf_per_cm2(1.0).psi(), 14.223_34, epsilon = 5e-6); // half its last digit
    // Torr and conventional mmHg part by one in seven million, not more and not less
    let part = Pressure::from_microns(1000.0).pa() / Pressure::from_torr(1.0).pa() - 1.0;
    assert_abs_diff_eq!(part, 1.0 / 7_019_000.0, epsilon = 1e-10); // a thousandth of it: the last of four digits
    // the standard atmosphere as weather reports print it
    assert_eq!(format!("{:.2}", Pressure::STANDARD_ATMOSPHERE.inhg()), "29.92");
    assert_eq!(format!("{:.3}", Pressure::STANDARD_ATMOSPHERE.psi()), "14.696");
    assert_eq!(Pressure::STANDARD_ATMOSPHERE.hpa(), 1013.25);
}

#[test]
fn other_units_have_the_size_of_their_definition() {
    // avoirdupois pound 0.453 592 37 kg, ounce 28.349 523 125 g
    let mass = [("g", 1e-3, 0.0), ("kg", 1.0, 0.0), ("oz", 0.028_349_523_125, 0.0), ("lb", 0.453_592_37, 0.0)];
    sizes::<Mass>(&mass);
    sizes::<Volume>(&[
        ("cm³", 1e-6, 0.0),
        ("mL", 1e-6, 0.0),
        ("L", 1e-3, 0.0),
        ("m³", 1.0, 0.0),
        ("US fl oz", 29.573_529_562_5e-6, 0.0),
        ("imp fl oz", 28.413_062_5e-6, 0.0),
    ]);
    sizes::<Length>(&[("m", 1.0, 0.0), ("ft", 0.3048, 0.0), ("km", 1e3, 0.0)]);
    sizes::<Ratio>(&[("%", 0.01, 0.0), ("of 1", 1.0, 0.0)]);
    sizes::<Density>(&[("kg/m³", 1.0, 0.0), ("g/cm³", 1e3, 0.0)]);
    sizes::<SpecificEnthalpy>(&[("kJ/kg", 1e3, 0.0), ("J/kg", 1.0, 0.0)]);
    sizes::<SpecificEntropy>(&[("kJ/(kg K)", 1e3, 0.0), ("J/(kg K)", 1.0, 0.0)]);
    sizes::<Power>(&[("W", 1.0, 0.0), ("kW", 1e3, 0.0)]);
    sizes::<MolarMass>(&[("g/mol", 1e-3, 0.0), ("kg/mol", 1.0, 0.0)]);
    sizes::<Temperature>(&[("°C", 1.0, 0.0), ("°F", 5.0 / 9.0, 0.0), ("K", 1.0, 0.0)]);
    sizes::<TemperatureDifference>(&[("K", 1.0, 0.0), ("°F", 5.0 / 9.0, 0.0)]);
    // a US gallon is 231 cubic inches, an imperial one 4.546 09 L
    assert!(same(Volume::from_us_fluid_ounces(128.0).cm3(), 231.0 * 2.54 * 2.54 * 2.54));
    assert!(same(Volume::from_imperial_fluid_ounces(160.0).l(), 4.546_09));
    assert!(same(Mass::from_oz(16.0).lb(), 1.0));
}

#[test]
fn constructors_and_unit_types_agree() {
    let pairs: [(f64, f64); 28] = [
        (Pressure::from_kpa(3.0).si(), Pressure::new(3.0, PressureUnit::Kilopascal).si()),
        (Pressure::from_bar(3.0).si(), Pressure::new(3.0, PressureUnit::Bar).si()),
        (Pressure::from_psi(3.0).si(), Pressure::new(3.0, PressureUnit::Psi).si()),
        (Pressure::from_mpa(3.0).si(), Pressure::new(3.0, PressureUnit::Megapascal).si()),
        (Pressure::from_kgf_per_cm2(3.0).si(), Pressure::new(3.0, PressureUnit::KilogramForce).si()),
        (Pressure::from_pa(3.0).si(), Pressure::new(3.0, PressureUnit::Pascal).si()),
        (Pressure::from_inhg(3.0).si(), Pressure::new(3.0, PressureUnit::InchOfMercury).si()),
        (Pressure::from_torr(3.0).si(), Pressure::new(3.0, PressureUnit::Torr).si()),
        (Pressure::from_microns(3.0).si(), Pressure::new(3.0, PressureUnit::Micron).si()),
        (Pressure::from_hpa(3.0).si(), Pressure::new(3.0, PressureUnit::Hectopascal).si()),
        (Mass::from_g(3.0).si(), Mass::new(3.0, MassUnit::Gram).si()),
        (Mass::from_oz(3.0).si(), Mass::new(3.0, MassUnit::Ounce).si()),
        (Mass::from_lb(3.0).si(), Mass::new(3.0, MassUnit::Pound).si()),
        (Volume::from_l(3.0).si(), Volume::new(3.0, VolumeUnit::Litre).si()),
        (Volume::from_us_fluid_ounces(3.0).si(), Volume::new(3.0, VolumeUnit::UsFluidOunce).si()),
        (Volume::from_imperial_fluid_ounces(3.0).si(), Volume::new(3.0, VolumeUnit::ImperialFluidOunce).si()),
        (Length::from_ft(3.0).si(), Length::new(3.0, LengthUnit::Foot).si()),
        (Length::from_km(3.0).si(), Length::new(3.0, LengthUnit::Kilometre).si()),
        (Ratio::from_percent(3.0).si(), Ratio::new(3.0, RatioUnit::Percent).si()),
        (Density::from_g_per_cm3(3.0).si(), Density::new(3.0, DensityUnit::GramPerCubicCentimetre).si()),
        (
            SpecificEnthalpy::from_kj_per_kg(3.0).si(),
            SpecificEnthalpy::new(3.0, EnthalpyUnit::KilojoulePerKilogram).si(),
        ),
        (
            SpecificEntropy::from_kj_per_kg_k(3.0).si(),
            SpecificEntropy::new(3.0, EntropyUnit::KilojoulePerKilogramKelvin).si(),
        ),
        (Power::from_kw(3.0).si(), Power::new(3.0, PowerUnit::Kilowatt).si()),
        (MolarMass::from_g_per_mol(3.0).si(), MolarMass::new(3.0, MolarMassUnit::GramPerMole).si()),
        (Temperature::from_fahrenheit(3.0).si(), Temperature::new(3.0, TemperatureUnit::Fahrenheit).si()),
        (Temperature::from_celsius(3.0).si(), Temperature::new(3.0, TemperatureUnit::Celsius).si()),
        (
            TemperatureDifference::from_fahrenheit_steps(3.0).si(),
            TemperatureDifference::new(3.0, StepUnit::Fahrenheit).si(),
        ),
        (TemperatureDifference::from_kelvins(3.0).si(), TemperatureDifference::new(3.0, StepUnit::Kelvin).si()),
    ];
    for (i, (named, generic)) in pairs.into_iter().enumerate() {
        assert_eq!(named, generic, "pair {i}");
    }
}

#[test]
fn readings_and_steps_are_two_things() {
    for (c, f) in [(-40.0, -40.0), (0.0, 32.0), (10.0, 50.0), (35.0, 95.0), (37.0, 98.6), (100.0, 212.0)] {
        assert!(abs_diff_eq!(Temperature::from_celsius(c).fahrenheit(), f, epsilon = ROUNDING), "{c} °C");
        assert!(abs_diff_eq!(Temperature::from_fahrenheit(f).celsius(), c, epsilon = ROUNDING), "{f} °F");
    }
    assert_eq!(Temperature::from_celsius(0.0).kelvin(), 273.15);
    assert_abs_diff_eq!(Temperature::from_fahrenheit(-459.67).kelvin(), 0.0, epsilon = ROUNDING);
    // a step of 10 K is 18 °F, a reading of 10 °C is 50 °F
    assert!(same(TemperatureDifference::from_kelvins(10.0).fahrenheit_steps(), 18.0));
    let step = Temperature::from_fahrenheit(68.0) - Temperature::from_fahrenheit(50.0);
    assert_abs_diff_eq!(step.kelvins(), 10.0, epsilon = ROUNDING);
    assert_abs_diff_eq!((Temperature::from_celsius(10.0) + step).fahrenheit(), 68.0, epsilon = ROUNDING);
    assert_abs_diff_eq!((Temperature::from_celsius(20.0) - step).celsius(), 10.0, epsilon = ROUNDING);
    assert_eq!(TemperatureUnit::Fahrenheit.step(), StepUnit::Fahrenheit);
    assert_eq!(TemperatureUnit::Celsius.step(), StepUnit::Kelvin);
    assert_eq!(TemperatureUnit::Kelvin.step(), StepUnit::Kelvin);
}

#[test]
fn gauge_and_absolute_meet_only_through_the_air() {
    let air = Pressure::from_kpa(89.876); // U.S. Standard Atmosphere 1976 at 1000 m
    let gauge = GaugePressure::from_psi(30.0);
    // a psi of 13 digits
    assert_abs_diff_eq!(gauge.absolute(air).kpa(), 30.0 * 6.894_757_293_168 + 89.876, epsilon = 1e-9);
    assert_abs_diff_eq!(gauge.absolute(air).gauge(air).psi(), 30.0, epsilon = ROUNDING);
    // a perfect vacuum on the gauge is minus the air
    // half its last digit
    assert_abs_diff_eq!(Pressure::from_pa(0.0).gauge(Pressure::STANDARD_ATMOSPHERE).inhg(), -29.921, epsilon = 5e-4);
    let step = GaugePressure::from_kpa(300.0) - GaugePressure::from_kpa(180.0);
    assert!(same(step.kpa(), 120.0) && same((Pressure::from_kpa(1.0) + step).kpa(), 121.0));
}

#[test]
fn no_unit_shares_a_spelling_with_another() {
    fn check<Q: Quantity>() {
        for (i, &unit) in readable::<Q>().enumerate() {
            for spelling in std::iter::once(unit.symbol()).chain(unit.spellings().iter().copied()) {
                assert_eq!(unit_named::<Q>(spelling), Ok(unit), "{}: {spelling:?}", Q::NAME);
                assert_eq!(spelling, spelling.trim(), "{}", Q::NAME);
                assert!(!spelling.starts_with(|c: char| c.is_ascii_digit() || ",.+-−".contains(c)), "{spelling:?}");
                let others = readable::<Q>().skip(i + 1);
                for other in others {
                    assert!(other.symbol() != spelling && !other.spellings().contains(&spelling), "{spelling:?} twice");
                }
                let read = format!("12.5{spelling}").parse::<Entered<Q>>();
                assert_eq!(read.map(|stated| stated.to_string()), Ok(format!("12.5 {}", unit.symbol())));
            }
        }
    }
    check::<Pressure>();
    check::<GaugePressure>();
    check::<PressureDifference>();
    check::<Temperature>();
    check::<TemperatureDifference>();
    check::<Mass>();
    check::<Volume>();
    check::<Length>();
    check::<Ratio>();
    check::<Density>();
    check::<SpecificEnthalpy>();
    check::<SpecificEntropy>();
    check::<Power>();
    check::<MolarMass>();
}

#[test]
fn what_people_type_is_read() {
    let psi = 6_894.757_293_168;
    let gauge = [
        ("32 psi", 32.0 * psi, "32 psi"),
        ("32psi", 32.0 * psi, "32 psi"),
        (" 32  psi ", 32.0 * psi, "32 psi"),
        ("\t32\u{a0}psi\n", 32.0 * psi, "32 psi"),
        ("+32 PSI", 32.0 * psi, "32 psi"),
        ("32.50 psi", 32.5 * psi, "32.50 psi"),
        ("32 psig", 32.0 * psi, "32 psi"),
        ("32 psi g", 32.0 * psi, "32 psi"),
        ("32 psi gauge", 32.0 * psi, "32 psi"),
        ("2 bar(g)", 2e5, "2 bar"),
        ("2 barg", 2e5, "2 bar"),
        ("2.2 bar", 2.2e5, "2.2 bar"),
        (".5 bar", 0.5e5, "0.5 bar"),
        ("5. bar", 5e5, "5 bar"),
        ("220 kPa", 2.2e5, "220 kPa"),
        ("0.22 MPa", 2.2e5, "0.22 MPa"),
        ("2.2 kgf/cm²", 2.2 * 98_066.5, "2.2 kgf/cm²"),
        ("2.2 kg/cm2", 2.2 * 98_066.5, "2.2 kgf/cm²"),
        ("-20 inHg", -20.0 * 3_386.388_640_341, "-20 inHg"),
        ("−20 inHg", -20.0 * 3_386.388_640_341, "-20 inHg"),
        ("-20.0 in Hg", -20.0 * 3_386.388_640_341, "-20.0 inHg"),
        ("1e2 kPa", 1e5, "100 kPa"),
        ("1E+2kPa", 1e5, "100 kPa"),
        ("-0.0 psi", 0.0, "0.0 psi"),
        ("007 bar", 7e5, "7 bar"),
    ];
    for (text, pa, back) in gauge {
        let pa: f64 = pa;
        let stated: Entered<GaugePressure> = text.parse().unwrap_or_else(|e| panic!("{text:?}: {e}"));
        // a sum and a product: rounding
        assert!(
            abs_diff_eq!(stated.quantity().pa(), pa, epsilon = 1e-12 * pa.abs()),
            "{text:?} is {} Pa",
            stated.quantity().pa()
        );
        assert_eq!(stated.to_string(), back);
        assert_eq!(text.parse::<GaugePressure>(), Ok(stated.quantity()));
    }
    let absolute = [
        ("46.7 psia", 46.7 * psi),
        ("46.7 psi", 46.7 * psi),
        ("3 bar abs", 3e5),
        ("3 bar(a)", 3e5),
        ("3 bar absolute", 3e5),
        ("10 Pa", 10.0),
        ("10 kPa", 1e4),
        // conventional millimetre of mercury 133.322 387 415 Pa
        ("500 micron", 0.5 * 133.322_387_415),
        ("500 microns", 0.5 * 133.322_387_415),
        ("700 Torr", 700.0 * 101_325.0 / 760.0),
        ("1013.25 hPa", 101_325.0),
        ("1013.25 mbar", 101_325.0),
    ];
    for (text, pa) in absolute {
        let p: Pressure = text.parse().unwrap_or_else(|e| panic!("{text:?}: {e}"));
        assert!(abs_diff_eq!(p.pa(), pa, epsilon = 1e-12 * pa), "{text:?} is {} Pa", p.pa()); // a product: rounding
    }
    for (text, celsius) in [
        ("95 °F", 35.0),
        ("95F", 35.0),
        ("95 degF", 35.0),
        ("95 deg F", 35.0),
        ("35°C", 35.0),
        ("35 C", 35.0),
        ("35 ºC", 35.0),
        ("308.15 K", 35.0),
        ("-40 °F", -40.0),
        ("−40 °C", -40.0),
    ] {
        let t: Temperature = text.parse().unwrap_or_else(|e| panic!("{text:?}: {e}"));
        assert!(abs_diff_eq!(t.celsius(), celsius, epsilon = ROUNDING), "{text:?} is {} °C", t.celsius());
    }
    for (text, kelvin) in [("6 K", 6.0), ("6 °C", 6.0), ("18 °F", 10.0), ("18F", 10.0)] {
        assert!(same(text.parse::<TemperatureDifference>().unwrap().kelvins(), kelvin), "{text:?}");
    }
    for (text, fraction) in [("55%", 0.55), ("55 %", 0.55), ("55 % RH", 0.55), ("0.55 of 1", 0.55)] {
        assert!(same(text.parse::<Ratio>().unwrap().fraction(), fraction), "{text:?}");
    }
    for (text, metres) in
        [("300 m", 300.0), ("1000 ft", 304.8), ("1000 feet", 304.8), ("-50 m", -50.0), ("1.5km", 1500.0)]
    {
        assert!(same(text.parse::<Length>().unwrap().m(), metres), "{text:?}");
    }
    for (text, grams) in [("450 g", 450.0), ("16 oz", 453.592_37), ("1.5 lb", 680.388_555), ("0.45 kg", 450.0)] {
        assert!(same(text.parse::<Mass>().unwrap().g(), grams), "{text:?}");
    }
    for (text, ml) in [("8 US fl oz", 8.0 * 29.573_529_562_5), ("8 imp fl oz", 8.0 * 28.413_062_5), ("150 cc", 150.0)] {
        // rounding of the volumes by hand
        assert!(abs_diff_eq!(text.parse::<Volume>().unwrap().ml(), ml, epsilon = 1e-10), "{text:?}");
    }
}

/// The units as a message about a pressure lists them.
const PRESSURES: &str = "kPa, bar, psi, MPa, kgf/cm², Pa, inHg, Torr, micron, hPa";

#[test]
fn gauge_pressures_that_are_refused() {
    let what = "gauge pressure";
    let text = |t: &str| t.to_owned();
    let unknown =
        |t: &str, unit: &str| Error::UnitUnknown { what, text: text(t), unit: text(unit), units: text(PRESSURES) };
    let cases = [
        ("32", Error::UnitMissing { what, text: text("32"), units: text(PRESSURES) }),
        (" 32 ", Error::UnitMissing { what, text: text(" 32 "), units: text(PRESSURES) }),
        ("1e5", Error::UnitMissing { what, text: text("1e5"), units: text(PRESSURES) }),
        ("32 furlong", unknown("32 furlong", "furlong")),
        ("32 °C", unknown("32 °C", "°C")),
        ("32 psi psi", unknown("32 psi psi", "psi psi")),
        ("3.2.1 bar", unknown("3.2.1 bar", ".1 bar")),
        ("0x10 psi", unknown("0x10 psi", "x10 psi")),
        ("1 500 kPa", unknown("1 500 kPa", "500 kPa")),
        ("1_500 kPa", unknown("1_500 kPa", "_500 kPa")),
        ("3e psi", unknown("3e psi", "e psi")),
        ("3e+ psi", unknown("3e+ psi", "e+ psi")),
        ("3e-x psi", unknown("3e-x psi", "e-x psi")),
        ("32 psi\0", unknown("32 psi\0", "psi\0")),
        ("2,2,2 bar", Error::DecimalComma { what, text: text("2,2,2 bar") }),
        ("2,2.5 bar", Error::DecimalComma { what, text: text("2,2.5 bar") }),
        ("2, bar", Error::DecimalComma { what, text: text("2, bar") }),
        ("0,215 MPa", Error::DecimalComma { what, text: text("0,215 MPa") }),
        ("1,500 kPa", Error::DecimalComma { what, text: text("1,500 kPa") }),
        ("1.500,0 kPa", Error::DecimalComma { what, text: text("1.500,0 kPa") }),
        (",5 psi", Error::DecimalComma { what, text: text(",5 psi") }),
        ("", Error::NotANumber { what, text: text(""), example: "32 psi" }),
        ("   ", Error::NotANumber { what, text: text("   "), example: "32 psi" }),
        ("psi", Error::NotANumber { what, text: text("psi"), example: "32 psi" }),
        ("psi 32", Error::NotANumber { what, text: text("psi 32"), example: "32 psi" }),
        ("--3 psi", Error::NotANumber { what, text: text("--3 psi"), example: "32 psi" }),
        ("- 3 psi", Error::NotANumber { what, text: text("- 3 psi"), example: "32 psi" }),
        ("-", Error::NotANumber { what, text: text("-"), example: "32 psi" }),
        (".", Error::NotANumber { what, text: text("."), example: "32 psi" }),
        ("e5 psi", Error::NotANumber { what, text: text("e5 psi"), example: "32 psi" }),
        ("½ psi", Error::NotANumber { what, text: text("½ psi"), example: "32 psi" }),
        ("nan psi", Error::NotFinite { what, text: text("nan psi") }),
        ("inf psi", Error::NotFinite { what, text: text("inf psi") }),
        ("-Infinity psi", Error::NotFinite { what, text: text("-Infinity psi") }),
        ("1e999 psi", Error::NotFinite { what, text: text("1e999 psi") }),
        (
            "46.7 psia",
            Error::WrongReference {
                what,
                text: text("46.7 psia"),
                given: "absolute",
                way_out: "subtract the pressure of the surrounding air, 14.7 psi or 1.013 bar at sea level",
            },
        ),
    ];
    for (text, expected) in cases {
        assert_eq!(text.parse::<GaugePressure>(), Err(expected), "{text:?}");
    }
}

/// Vacuum as a service gauge shows it, in the unit of a vacuum gauge, which shows something else.
#[test]
fn a_gauge_pressure_in_micron_says_that_it_is_one_and_comes_back() {
    // 100 kPa by 13 595.1 kg/m³, 9.806 65 m/s² and a micrometre
    let vacuum = GaugePressure::from_kpa(-100.0).entered(PressureUnit::Micron, 0);
    assert_eq!(vacuum.to_string(), "-750062 micron gauge");
    let back: Entered<GaugePressure> = vacuum.to_string().parse().unwrap();
    assert_eq!((back.number(), back.unit()), (-750_062.0, PressureUnit::Micron));
    assert_eq!(back.to_string(), vacuum.to_string());
    #[cfg(feature = "serde")]
    assert_eq!(serde_json::from_str::<Entered<GaugePressure>>(r#""-750062 micron gauge""#).unwrap(), back);
    // in any other unit the symbol says enough, and an absolute pressure in micron needs no word
    assert_eq!(GaugePressure::from_kpa(-100.0).entered(PressureUnit::Torr, 0).to_string(), "-750 Torr");
    assert_eq!(Pressure::from_microns(500.0).entered(PressureUnit::Micron, 0).to_string(), "500 micron");
    assert!(matches!("-750062 micron".parse::<GaugePressure>(), Err(Error::WrongReference { given: "absolute", .. })));
}

#[test]
fn refusals_say_what_to_do() {
    fn message<Q: Quantity>(text: &str) -> String {
        text.parse::<Entered<Q>>().expect_err(text).to_string()
    }
    let units = PRESSURES;
    let cases = [
        (message::<GaugePressure>("32"), format!("gauge pressure: \"32\" has no unit; add one of {units}")),
        (
            message::<GaugePressure>("32 furlong"),
            format!("gauge pressure: \"furlong\" in \"32 furlong\" is not a unit of it; use one of {units}"),
        ),
        (
            message::<GaugePressure>("1,500 psi"),
            "gauge pressure: the comma in \"1,500 psi\" is not accepted; write the decimal sign as a point, thousands \
             without a sign"
                .to_owned(),
        ),
        (
            message::<GaugePressure>("psi"),
            "gauge pressure: \"psi\" does not start with a number; write it like \"32 psi\"".to_owned(),
        ),
        (message::<GaugePressure>("nan psi"), "gauge pressure: \"nan psi\" is not a finite number".to_owned()),
        (message::<GaugePressure>("1e999 psi"), "gauge pressure: \"1e999 psi\" is not a finite number".to_owned()),
        (
            message::<GaugePressure>("46.7 psia"),
            "\"46.7 psia\" is absolute pressure, but gauge pressure is asked for: subtract the pressure of the \
             surrounding air, 14.7 psi or 1.013 bar at sea level"
                .to_owned(),
        ),
        (
            message::<Pressure>("32 psig"),
            "\"32 psig\" is gauge pressure, but absolute pressure is asked for: add the pressure of the surrounding \
             air, 14.7 psi or 1.013 bar at sea level"
                .to_owned(),
        ),
        (message::<Pressure>("101"), format!("absolute pressure: \"101\" has no unit; add one of {units}")),
        (
            message::<PressureDifference>("5 psig"),
            format!("pressure difference: \"psig\" in \"5 psig\" is not a unit of it; use one of {units}"),
        ),
        (
            message::<Volume>("8 oz"),
            "volume: \"oz\" in \"8 oz\" can mean an ounce of weight, a US fluid ounce (29.57 mL) or an imperial fluid \
             ounce (28.41 mL); say which"
                .to_owned(),
        ),
        (
            message::<Volume>("8 fl oz"),
            "volume: \"fl oz\" in \"8 fl oz\" can mean a US fluid ounce (29.57 mL) or an imperial fluid ounce \
             (28.41 mL); say which"
                .to_owned(),
        ),
        (
            message::<Mass>("8 fl oz"),
            "mass: \"fl oz\" in \"8 fl oz\" is not a unit of it; use one of g, kg, oz, lb".to_owned(),
        ),
        (message::<Temperature>("95"), "temperature: \"95\" has no unit; add one of °C, °F, K".to_owned()),
        (
            message::<TemperatureDifference>("6"),
            "temperature difference: \"6\" has no unit; add one of K, °F".to_owned(),
        ),
        (message::<Ratio>("0.55"), "ratio: \"0.55\" has no unit; add one of %, of 1".to_owned()),
        (message::<Length>("300"), "altitude: \"300\" has no unit; add one of m, ft, km".to_owned()),
    ];
    for (ours, expected) in cases {
        assert_eq!(ours, expected);
    }
}

#[test]
fn numbers_without_a_unit_are_read_where_the_unit_stands_elsewhere() {
    let stated = Entered::<GaugePressure>::from_number(" 32.5 ", PressureUnit::Psi).unwrap();
    assert_eq!((stated.to_string().as_str(), stated.decimals()), ("32.5 psi", 1));
    assert!(same(stated.number(), 32.5));
    for text in ["32 psi", "", "x", "1.2.3"] {
        let error = Entered::<GaugePressure>::from_number(text, PressureUnit::Psi).unwrap_err();
        assert_eq!(error, Error::NotANumber { what: "gauge pressure", text: text.to_owned(), example: "32 psi" });
    }
    let comma = Entered::<GaugePressure>::from_number("32,500", PressureUnit::Psi).unwrap_err();
    assert_eq!(comma, Error::DecimalComma { what: "gauge pressure", text: "32,500".to_owned() });
    let comma = Entered::<GaugePressure>::from_number("−32,5", PressureUnit::Psi).unwrap();
    assert_eq!((comma.to_string().as_str(), comma.decimals()), ("-32.5 psi", 1));
}

#[test]
fn every_example_in_a_message_is_read() {
    fn check<Q: Quantity>() {
        assert_eq!(Q::EXAMPLE.parse::<Entered<Q>>().unwrap().to_string(), Q::EXAMPLE, "{}", Q::NAME);
    }
    check::<Pressure>();
    check::<GaugePressure>();
    check::<PressureDifference>();
    check::<Temperature>();
    check::<TemperatureDifference>();
    check::<Mass>();
    check::<Volume>();
    check::<Length>();
    check::<Ratio>();
    check::<Density>();
    check::<SpecificEnthalpy>();
    check::<SpecificEntropy>();
    check::<Power>();
    check::<MolarMass>();
}

#[test]
fn an_exponent_loses_no_digit() {
    for (text, back) in [("1.5e-3 bar", "0.0015 bar"), ("2e-1 MPa", "0.2 MPa"), ("1.25e1 psi", "12.5 psi")] {
        assert_eq!(text.parse::<Entered<GaugePressure>>().unwrap().to_string(), back);
    }
}

#[test]
fn a_number_that_only_the_unit_makes_infinite_is_refused() {
    let error = "1e305 MPa".parse::<Pressure>().unwrap_err();
    assert_eq!(error, Error::NotFinite { what: "absolute pressure", text: "1e305 MPa".to_owned() });
    assert!(Entered::<Pressure>::from_number("1e305", PressureUnit::Megapascal).is_err());
}

#[test]
fn no_number_of_decimals_brings_writing_down() {
    let long = format!("0.{}1 psi", "0".repeat(70_000));
    if let Ok(stated) = long.parse::<Entered<GaugePressure>>() {
        assert!(stated.to_string().starts_with("0.000"));
    }
    assert!(GaugePressure::from_psi(1.0).entered(PressureUnit::Psi, usize::MAX).to_string().starts_with("1.0000"));
}

/// A number of at most fifteen significant digits as one would type it.
fn typed() -> impl Strategy<Value = String> {
    (0_u64..1_000_000_000_000_000, 0_u32..=15, 0_usize..=9, any::<bool>()).prop_map(
        |(digits, fewer, decimals, minus)| {
            let digits = digits / 10_u64.pow(fewer);
            let size = 10_u64.pow(decimals as u32);
            let sign = if minus && digits != 0 { "-" } else { "" };
            match decimals {
                0 => format!("{sign}{digits}"),
                _ => format!("{sign}{}.{:0decimals$}", digits / size, digits % size),
            }
        },
    )
}

/// The units of `Q` that are read by their symbol alone: a micron of mercury counts from vacuum unless "gauge" stands behind it.
fn readable<Q: Quantity>() -> impl Iterator<Item = &'static Q::Unit> {
    Q::Unit::ALL.iter().filter(|unit| !(Q::REFERENCE == Some("gauge") && unit.symbol() == "micron"))
}

fn comes_back<Q: Quantity>(number: &str) {
    for &unit in readable::<Q>() {
        let text = format!("{number} {}", unit.symbol());
        let entered: Entered<Q> = text.parse().unwrap();
        assert_eq!(entered.to_string(), text, "{}", Q::NAME);
        // exactly the number typed, and from the quantity alone as far as the quantity knows it
        let value: f64 = number.parse().unwrap();
        assert_eq!(entered.number(), value, "{text}");
        let back = entered.quantity().value_in(unit);
        assert_eq!(Q::new(back, unit), entered.quantity(), "{text}");
        if Q::NAME != "temperature" {
            assert_eq!(back, value, "{}: {text}", Q::NAME);
        }
        #[cfg(feature = "serde")]
        {
            let json = serde_json::to_string(&entered).unwrap();
            assert_eq!(json, format!("{text:?}"));
            assert_eq!(serde_json::from_str::<Entered<Q>>(&json).unwrap(), entered);
        }
    }
}

/// Whether `Q` comes back from its JSON to the last bit.
#[cfg(feature = "serde")]
fn survives_json<Q: Quantity + serde::Serialize + serde::de::DeserializeOwned>(number: f64) {
    for &unit in Q::Unit::ALL {
        let quantity = Q::new(number, unit);
        let json = serde_json::to_string(&quantity).unwrap();
        assert_eq!(serde_json::from_str::<Q>(&json).unwrap(), quantity, "{json}");
        let range = Range::new(quantity, quantity);
        let json = serde_json::to_string(&range).unwrap();
        assert_eq!(serde_json::from_str::<Range<Q>>(&json).unwrap(), range, "{json}");
    }
}

/// Runs `$check::<Q>($arguments)` for every quantity.
macro_rules! for_every_quantity {
    ($check:ident($($argument:expr),*)) => {
        $check::<Pressure>($($argument),*);
        $check::<GaugePressure>($($argument),*);
        $check::<PressureDifference>($($argument),*);
        $check::<Temperature>($($argument),*);
        $check::<TemperatureDifference>($($argument),*);
        $check::<Mass>($($argument),*);
        $check::<Volume>($($argument),*);
        $check::<Length>($($argument),*);
        $check::<Ratio>($($argument),*);
        $check::<Density>($($argument),*);
        $check::<SpecificEnthalpy>($($argument),*);
        $check::<SpecificEntropy>($($argument),*);
        $check::<Power>($($argument),*);
        $check::<MolarMass>($($argument),*);
        $check::<DynamicViscosity>($($argument),*);
        $check::<ThermalConductivity>($($argument),*);
        $check::<SurfaceTension>($($argument),*);
        $check::<Time>($($argument),*);
        $check::<PressureRate>($($argument),*);
        $check::<Throughput>($($argument),*);
        $check::<MassRate>($($argument),*);
    };
}

fn survives_text<Q: Quantity>(si: f64) {
    for &unit in Q::Unit::ALL {
        let text = Q::from_si(si).entered(unit, 24).to_string();
        let back = read::<Q>(&text).unwrap().si();
        // 24 decimals, of which 15 digits count
        assert!(abs_diff_eq!(back, si, epsilon = 1e-12 * si.abs()), "{}: {si} by way of {text} is {back}", Q::NAME);
    }
}

proptest! {
    #[test]
    fn what_was_typed_comes_back(number in typed()) {
        for_every_quantity!(comes_back(&number));
        #[cfg(feature = "serde")]
        for_every_quantity!(survives_json(number.parse().unwrap()));
    }

    #[test]
    fn values_survive_writing_and_reading(share in 1.0..10.0_f64, power in -3_i32..8, t in 50.0..500.0_f64) {
        let si = share * 10_f64.powi(power);
        survives_text::<Pressure>(si);
        survives_text::<GaugePressure>(-si);
        survives_text::<Mass>(si);
        survives_text::<Volume>(si);
        survives_text::<Length>(si);
        survives_text::<Ratio>(si);
        survives_text::<Temperature>(t);
        survives_text::<TemperatureDifference>(si);
    }

    #[test]
    fn no_text_brings_reading_down(text in "\\PC{0,24}", number in "[-+−]?[0-9.,eE]{0,8} ?[a-zA-Z°%²/ ]{0,8}") {
        for text in [text, number] {
            for result in [read::<GaugePressure>(&text).map(Quantity::si), read::<Volume>(&text).map(Quantity::si),
                           read::<Temperature>(&text).map(Quantity::si)] {
                match result {
                    Ok(si) => prop_assert!(si.is_finite(), "{text:?}"),
                    Err(error) => prop_assert!(error.to_string().contains(&format!("{text:?}")), "{error}"),
                }
            }
        }
    }
}

/// Φ(z) to four digits as tables of the normal distribution print it, such as NIST/SEMATECH e-Handbook of Statistical
/// Methods, 1.3.6.7.1 (from memory); the test below repeats them by adding up the density.
const NORMAL: [(f64, f64); 10] = [
    (0.0, 0.5000),
    (0.25, 0.5987),
    (0.5, 0.6915),
    (1.0, 0.8413),
    (1.5, 0.9332),
    (1.645, 0.9500),
    (1.96, 0.9750),
    (2.0, 0.9772),
    (2.576, 0.9950),
    (3.0, 0.9987),
];

/// 20.0 ± 0.5 K as a standard uncertainty.
fn twenty() -> Measured<Temperature> {
    Measured::new(Temperature::from_celsius(20.0), TemperatureDifference::from_kelvins(0.5)).unwrap()
}

#[test]
fn chances_are_those_of_the_normal_distribution() {
    for (z, printed) in NORMAL {
        let ours = twenty().probability_below(Temperature::from_celsius(20.0 + 0.5 * z));
        // half the last printed digit
        assert!(abs_diff_eq!(ours, printed, epsilon = 5e-5), "Φ({z}) = {ours}, printed {printed}");
        let mirrored = twenty().probability_below(Temperature::from_celsius(20.0 - 0.5 * z));
        assert!(abs_diff_eq!(ours + mirrored, 1.0, epsilon = ROUNDING), "Φ({z}) + Φ(−{z})");

        // Simpson's rule on the density from 0 to z, error below h⁴ z/60 with h = z/1000
        let density = |x: f64| (-0.5 * x * x).exp() / std::f64::consts::TAU.sqrt();
        let h = z / 1000.0;
        let weight = |i: u32| if i == 0 || i == 1000 { 1.0 } else { f64::from(2 + 2 * (i % 2)) };
        let area: f64 = (0..=1000).map(|i| weight(i) * density(f64::from(i) * h)).sum::<f64>() * h / 3.0;
        // Simpson's rule in steps of a thousandth
        assert!(abs_diff_eq!(ours - 0.5, area, epsilon = 1e-11), "Φ({z}) = {ours}, by area {}", 0.5 + area);
    }
}

#[test]
fn the_printed_interval_holds_95_percent() {
    let half = twenty().expanded();
    assert_abs_diff_eq!(half.kelvins(), 0.98, epsilon = 1e-4); // 1.96 × 0.5, to its last digit
    let value = twenty().value();
    let [below, within, above] = twenty().probabilities(&Range::new(value - half, value + half));
    assert_abs_diff_eq!(within, 0.95, epsilon = ROUNDING);
    assert_abs_diff_eq!(below, 0.025, epsilon = ROUNDING);
    assert_abs_diff_eq!(above, 0.025, epsilon = ROUNDING);
}

#[test]
fn exact_values_are_below_within_or_above() {
    let exact = Measured::exact(Temperature::from_celsius(20.0)).unwrap();
    let range = |low, high| Range::new(Temperature::from_celsius(low), Temperature::from_celsius(high));
    assert_eq!(exact.probabilities(&range(10.0, 19.0)), [0.0, 0.0, 1.0]);
    assert_eq!(exact.probabilities(&range(21.0, 30.0)), [1.0, 0.0, 0.0]);
    for within in [range(19.0, 21.0), range(20.0, 21.0), range(19.0, 20.0), range(20.0, 20.0)] {
        assert_eq!(exact.probabilities(&within), [0.0, 1.0, 0.0], "{within:?}");
    }
    assert_eq!(exact.probability_below(Temperature::from_celsius(20.1)), 1.0);
    assert_eq!(exact.probability_below(Temperature::from_celsius(19.9)), 0.0);
}

proptest! {
    #[test]
    fn chances_sum_to_one_and_never_fall_below_zero(
        value in -1e3..1e3_f64, standard in 0.0..1e2_f64, low in -1e3..1e3_f64, width in 0.0..1e3_f64,
    ) {
        let kpa = GaugePressure::from_kpa;
        let reading = Measured::new(kpa(value), PressureDifference::from_kpa(standard)).unwrap();
        let chances = reading.probabilities(&Range::new(kpa(low), kpa(low + width)));
        prop_assert!(abs_diff_eq!(chances.iter().sum::<f64>(), 1.0, epsilon = ROUNDING), "{chances:?}");
        // erfc is good to an ulp, so a chance that is nothing may come out an ulp below it
        prop_assert!(chances.iter().all(|c| (-f64::EPSILON..=1.0).contains(c)), "{chances:?}");
        // a limit further up leaves more below it
        prop_assert!(reading.probability_below(kpa(low)) <= reading.probability_below(kpa(low + width)) + f64::EPSILON);
    }
}

#[test]
fn a_limit_of_error_and_a_last_digit_count_as_spread_evenly() {
    // the limit over √3; half a unit of the last digit that was typed, in the unit it was typed in
    let within = Measured::within(Volume::from_l(2.5), Volume::from_l(0.3)).unwrap();
    assert_eq!(within.value(), Volume::from_l(2.5));
    assert_abs_diff_eq!(within.standard_uncertainty().l(), 0.3 / 3f64.sqrt(), epsilon = ROUNDING);
    assert!(Measured::within(Volume::from_l(2.5), Volume::from_l(-0.3)).is_err());
    let typed = |text: &str| {
        let entered: Entered<Volume> = text.parse().unwrap();
        let measured = entered.as_typed().unwrap();
        assert_eq!(measured.value(), entered.quantity(), "{text}");
        measured.standard_uncertainty().cm3() * 3f64.sqrt()
    };
    // 29.5735 cm³ to the US fluid ounce
    for (text, half) in
        [("60 cm³", 0.5), ("60.0 cm³", 0.05), ("0.06 L", 5.0), ("2.0 US fl oz", 0.05 * 29.573_529_562_5)]
    {
        assert!(abs_diff_eq!(typed(text), half, epsilon = 1e-9), "{text}: {}", typed(text)); // a difference of sixties
    }
    // a degree Fahrenheit is 5/9 K, wherever its zero
    let warm: Entered<Temperature> = "86 °F".parse().unwrap();
    let standard = warm.as_typed().unwrap().standard_uncertainty().kelvins();
    assert_abs_diff_eq!(standard, 0.5 / 1.8 / 3f64.sqrt(), epsilon = 1e-9); // a difference of three hundreds
}

#[test]
fn measured_refuses_what_cannot_be() {
    let t = Temperature::from_celsius;
    let u = TemperatureDifference::from_kelvins;
    for (value, text) in [(f64::NAN, "NaN"), (f64::INFINITY, "inf"), (f64::NEG_INFINITY, "-inf")] {
        let expected = Err(Error::NotFinite { what: "temperature", text: text.to_owned() });
        assert_eq!(Measured::new(Temperature::from_kelvin(value), u(1.0)), expected);
        assert_eq!(Measured::exact(Temperature::from_kelvin(value)), expected);
    }
    assert_eq!(
        Measured::new(t(20.0), u(-0.5)).unwrap_err().to_string(),
        "standard uncertainty -0.5 is not possible: it must be a finite number, zero or more"
    );
    for standard in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, -1e-300] {
        let error = Measured::new(t(20.0), u(standard)).unwrap_err();
        assert!(matches!(error, Error::Impossible { what: "standard uncertainty", .. }), "{standard}: {error}");
    }
    assert!(Measured::new(t(20.0), u(0.0)).is_ok());
}

#[test]
fn what_was_typed_in_psi_is_read_in_psi() {
    let low: GaugePressure = "30 psi".parse().unwrap();
    assert_eq!(low.value_in(PressureUnit::Psi), 30.0);
    for n in 0..=5000 {
        let tenths = f64::from(n) / 10.0;
        assert_eq!(GaugePressure::from_psi(tenths).value_in(PressureUnit::Psi), tenths);
        assert_eq!(Temperature::from_fahrenheit(tenths).value_in(TemperatureUnit::Fahrenheit), tenths);
        assert_eq!(Temperature::from_celsius(tenths).value_in(TemperatureUnit::Celsius), tenths);
    }
}

#[test]
fn numbers_at_the_ends_of_floating_point_are_refused_with_the_limit() {
    for text in ["1e-310 psi", "1e-320 psi", "-4e-324 kPa", "1e-400 psi", "1e-301 Pa", "1e200 psi", "-1e300 bar"] {
        let error = text.parse::<Entered<GaugePressure>>().unwrap_err();
        assert_eq!((error.code(), text.parse::<GaugePressure>().unwrap_err()), ("beyond-arithmetic", error.clone()));
        let says = error.to_string();
        assert!(says.contains(text) && says.contains("from 1e-300 to 1e150; check its exponent"), "{says}");
    }
    assert!("1e-310 °C".parse::<Temperature>().is_err() && "1e-400 K".parse::<Temperature>().is_err());
    for (text, back) in [("0e-400 psi", "0."), ("1e-140 psi", "0."), ("1e140 psi", "1")] {
        let entered: Entered<GaugePressure> = text.parse().unwrap();
        assert!(entered.to_string().starts_with(back) && !entered.to_string().contains("NaN"), "{entered}");
        assert_eq!(entered.to_string().parse::<GaugePressure>().unwrap(), entered.quantity());
    }
    assert_eq!("-273.15 °C".parse::<Temperature>().unwrap().kelvin(), 0.0);
    // what cannot be typed still prints as it is
    assert_eq!(Pressure::from_kpa(1e-300).to_string(), "1e-300 kPa");
    assert_eq!(Pressure::from_pa(f64::NAN).to_string(), "NaN kPa");
}

#[test]
fn quantities_print_in_their_usual_unit_as_the_format_asks() {
    let p = Pressure::from_psi(30.0);
    assert_eq!(
        format!("{p}|{p:.1}|{p:>12.1}|{p:<12.1}|{p:^12.1}|{p:*^13.1}|{p:+.0}"),
        "206.8427187950508 kPa|206.8 kPa|   206.8 kPa|206.8 kPa   | 206.8 kPa  |**206.8 kPa**|+207 kPa"
    );
    assert_eq!(format!("{:8.1}", Temperature::from_fahrenheit(95.0)), " 35.0 °C");
    assert_eq!(GaugePressure::from_bar(-0.0).to_string(), "0 kPa");
    assert_eq!(format!("{:.0}", TemperatureDifference::from_kelvins(-0.4)), "0 K");
    assert_eq!(Ratio::from_percent(55.0).to_string(), "55 %");
    assert_eq!(MassRate::from_g_per_year(3e20).to_string(), "3e20 g/yr");
    let entered: Entered<GaugePressure> = "-20.0 inHg".parse().unwrap();
    assert_eq!(
        format!("{entered:>12}|{entered:<12}|{entered:.2}|{entered:_^14.0}"),
        "  -20.0 inHg|-20.0 inHg  |-20.00 inHg|___-20 inHg___"
    );
    let t = Measured::new(Temperature::from_celsius(8.0), TemperatureDifference::from_kelvins(0.9)).unwrap();
    assert_eq!(format!("{t}|{t:>20.2}|{t:<18.0}|"), "8.0 ± 1.8 °C (95 %)|8.00 ± 1.76 °C (95 %)|8 ± 2 °C (95 %)   |");
    let exact = Measured::exact(Pressure::from_kpa(292.8)).unwrap();
    assert_eq!(format!("{exact:>11}"), "  292.8 kPa");
    // a default that would be a row of digits is as long as its uncertainty allows
    let wide = Measured::new(Pressure::from_kpa(292.8), PressureDifference::from_kpa(1234.0)).unwrap();
    assert_eq!(wide.to_string(), "293 ± 2419 kPa (95 %)");
}

#[test]
fn sums_and_ratios_are_there_where_they_mean_something() {
    let parts = [Mass::from_g(450.0), Mass::from_g(30.0), Mass::from_g(-5.0)];
    assert!(same(parts.iter().sum::<Mass>().g(), 475.0) && same(parts.into_iter().sum::<Mass>().g(), 475.0));
    let steps = [1.5, -0.5].map(TemperatureDifference::from_kelvins);
    assert!(same(steps.into_iter().sum::<TemperatureDifference>().kelvins(), 1.0));
    // of absolute pressures there is a ratio, of gauge pressures none
    assert!(same(Pressure::from_bar(12.0) / Pressure::from_bar(3.0), 4.0));
    assert!(same((Pressure::from_bar(3.0) * 2.0 / 3.0).bar(), 2.0));
}

proptest! {
    #[test]
    fn measured_values_bring_no_numbers_that_are_none(
        value in any::<f64>(), standard in any::<f64>(), low in any::<f64>(), high in any::<f64>(), limit in any::<f64>(),
    ) {
        let kelvin = Temperature::from_kelvin;
        for standard in [standard, standard.abs(), 0.0] {
            let Ok(t) = Measured::new(kelvin(value), TemperatureDifference::from_kelvins(standard)) else { continue };
            prop_assert!(t.expanded().kelvins().is_finite(), "{t:?}");
            prop_assert!((0.0..=1.0).contains(&t.probability_below(kelvin(limit))), "{t:?} below {limit:e}");
            let all = t.probabilities(&Range::new(kelvin(low), kelvin(high)));
            prop_assert!(all.iter().all(|p| (-1e-15..=1.0).contains(p)), "{t:?} in {low:e} to {high:e}: {all:?}");
            prop_assert!(abs_diff_eq!(all.iter().sum::<f64>(), 1.0, epsilon = ROUNDING), "{all:?}");
            prop_assert!(!t.to_string().contains("NaN") && !t.to_string().contains("inf"), "{t}");
        }
    }

    #[test]
    fn texts_of_any_size_bring_no_numbers_that_are_none(mantissa in -10.0..10.0_f64, exponent in -400..400_i32) {
        fn check<Q: Quantity>(number: &str) {
            for unit in readable::<Q>() {
                let text = format!("{number} {}", unit.symbol());
                let Ok(entered) = text.parse::<Entered<Q>>() else { continue };
                assert!(entered.quantity().si().is_finite(), "{text}");
                for &other in Q::Unit::ALL {
                    assert!(entered.quantity().value_in(other).is_finite(), "{text} in {other:?}");
                }
                let shown = format!("{entered} {} {}", entered.quantity(), Measured::exact(entered.quantity()).unwrap());
                assert!(!shown.contains("NaN") && !shown.contains("inf "), "{text}: {shown}");
            }
        }
        for_every_quantity!(check(&format!("{mantissa}e{exponent}")));
    }

    #[test]
    fn instruments_bring_no_numbers_that_are_none(
        reading in any::<f64>(), scale in any::<f64>(), limit in any::<f64>(), air in any::<f64>(),
    ) {
        let gauges = [
            Ok(PressureGauge::SERVICE_LOW),
            PressureGauge::SERVICE_HIGH.up_to(GaugePressure::from_pa(scale)),
            PressureGauge::CARBON_DIOXIDE_LOW.within(Ratio::from_fraction(limit)),
            Ok(PressureGauge { limit: Ratio::from_fraction(limit), ..PressureGauge::SERVICE_LOW }),
        ];
        for gauge in gauges.into_iter().flatten() {
            if let Ok(read) = gauge.read(GaugePressure::from_pa(reading)) {
                prop_assert!(read.value().pa().is_finite() && read.expanded().pa().is_finite(), "{read:?}");
            }
        }
        for contact in [Thermometer::CLAMPED_DIGITAL.contact, Ratio::from_fraction(limit)] {
            let thermometer = Thermometer { contact, ..Thermometer::CLAMPED_DIGITAL };
            for air in [None, Some(Temperature::from_kelvin(air))] {
                if let Ok(read) = thermometer.read(Temperature::from_kelvin(reading), air) {
                    prop_assert!(read.value().kelvin().is_finite() && read.expanded().kelvins().is_finite(), "{read:?}");
                }
            }
        }
    }
}

#[test]
fn a_measured_value_too_large_to_square_is_refused() {
    let t = Temperature::from_celsius(20.0);
    let error = Measured::new(t, TemperatureDifference::from_kelvins(1e300)).unwrap_err();
    assert_eq!(error.code(), "beyond-arithmetic");
    assert!(error.to_string().contains("1e300") && error.to_string().contains("1e150"), "{error}");
    assert!(Measured::new(Pressure::from_pa(1e200), PressureDifference::from_pa(1.0)).is_err());
    assert!(Measured::new(t, TemperatureDifference::from_kelvins(1e150)).is_ok());
}

#[cfg(feature = "serde")]
#[test]
fn inputs_come_back_from_json() {
    fn back<T: serde::Serialize + serde::de::DeserializeOwned + PartialEq + std::fmt::Debug>(value: T, json: &str) {
        let written = serde_json::to_string(&value).unwrap();
        assert_eq!(written, json);
        assert_eq!(serde_json::from_str::<T>(&written).unwrap(), value);
    }
    back(
        PressureGauge::SERVICE_LOW.up_to(GaugePressure::from_bar(17.0)).unwrap(),
        r#"{"name":"low-side service gauge","scale":{"low":"-101325 Pa","high":"1700000 Pa"},"limit":"0.016 of 1"}"#,
    );
    for gauge in [
        PressureGauge::SERVICE_HIGH,
        PressureGauge::CARBON_DIOXIDE_LOW.digital(),
        PressureGauge::CARBON_DIOXIDE_HIGH.within(Ratio::from_percent(0.5)).unwrap(),
    ] {
        let json = serde_json::to_string(&gauge).unwrap();
        assert_eq!(serde_json::from_str::<PressureGauge>(&json).unwrap(), gauge);
    }
    back(
        Thermometer::CLAMPED_DIGITAL,
        r#"{"name":"digital thermometer clamped on the line","limit":"1 K","contact":"0.0325 of 1"}"#,
    );
    for thermometer in
        [Thermometer::CLAMPED_THERMOCOUPLE, Thermometer::THERMOCOUPLE_IN_AIR, Thermometer::DIGITAL_IN_AIR]
    {
        let json = serde_json::to_string(&thermometer).unwrap();
        assert_eq!(serde_json::from_str::<Thermometer>(&json).unwrap(), thermometer);
    }
    back(
        Measured::new(Pressure::from_kpa(3.0), PressureDifference::from_kpa(0.5)).unwrap(),
        r#"{"value":"3000 Pa","standard":"500 Pa"}"#,
    );
    back(satline::Refrigerant::R1234yf, "\"R-1234yf\"");
    for wrong in [
        r#"{"name":"my gauge","scale":{"low":"0 Pa","high":"1 Pa"},"limit":"1 %"}"#,
        r#"{"name":"digital probe","scale":{"low":"2 Pa","high":"1 Pa"},"limit":"1 %"}"#,
        r#"{"name":"digital probe","scale":{"low":"0 Pa","high":"1 Pa"},"limit":"30 %"}"#,
        r#"{"name":"digital probe","scale":{"low":"0 Pa","high":"1 Pa"},"limit":"1 %","more":1}"#,
    ] {
        assert!(serde_json::from_str::<PressureGauge>(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn uncertainties_combine_as_root_of_squares() {
    let parts = [3.0, 4.0, 12.0].map(TemperatureDifference::from_kelvins);
    assert!(same(TemperatureDifference::combine(&parts).kelvins(), 13.0));
    assert_eq!(TemperatureDifference::combine(&[]).kelvins(), 0.0);
    // neither large nor small ones get lost on the way through their squares
    for size in [1e200, 1e-200] {
        let parts = [3.0 * size, 4.0 * size].map(TemperatureDifference::from_kelvins);
        assert!(same(TemperatureDifference::combine(&parts).kelvins(), 5.0 * size), "{size:e}");
    }
}

#[test]
fn ranges_hold_their_ends() {
    let kpa = Pressure::from_kpa;
    let range = Range::new(kpa(100.0), kpa(200.0));
    assert!(range.contains(kpa(100.0)) && range.contains(kpa(200.0)));
    assert!(!range.contains(kpa(99.999)) && !range.contains(kpa(200.001)) && !range.contains(kpa(f64::NAN)));
    assert_eq!(range.at(0.25), kpa(125.0));
    assert_eq!(range.hull(&Range::new(kpa(50.0), kpa(150.0))), Range::new(kpa(50.0), kpa(200.0)));
    assert_eq!(range.between(&Range::new(kpa(200.0), kpa(400.0)), 0.5), Range::new(kpa(150.0), kpa(300.0)));
    let gauge = range.try_map(|p| Ok::<_, Error>(p.gauge(kpa(100.0)))).unwrap();
    assert_eq!(gauge, Range::new(GaugePressure::from_kpa(0.0), GaugePressure::from_kpa(100.0)));
}

#[test]
fn gauges_are_as_good_as_their_class() {
    // limit × span / √3: 1.6 % of the span, which begins at full vacuum but for the gauges of R-744; 1 % for the probe
    for (gauge, limit_bar) in [
        (PressureGauge::SERVICE_LOW, 0.016 * 11.01325),
        (PressureGauge::SERVICE_HIGH, 0.016 * 36.01325),
        (PressureGauge::CARBON_DIOXIDE_LOW, 1.6),
        (PressureGauge::CARBON_DIOXIDE_HIGH, 2.56),
        (PressureGauge::SERVICE_LOW.digital(), 0.01 * 11.01325),
        (PressureGauge::CARBON_DIOXIDE_LOW.up_to(GaugePressure::from_bar(60.0)).unwrap(), 0.96),
        (PressureGauge::CARBON_DIOXIDE_LOW.within(Ratio::from_percent(0.5)).unwrap(), 0.5),
    ] {
        let reading = gauge.read(GaugePressure::from_bar(5.0)).unwrap();
        assert!(
            abs_diff_eq!(reading.standard_uncertainty().bar() * 3f64.sqrt(), limit_bar, epsilon = ROUNDING),
            "{}",
            gauge.name
        );
        assert_eq!(reading.value(), GaugePressure::from_bar(5.0));
        assert!(!gauge.source.work.is_empty());
        // both ends of the scale are on it
        assert!(gauge.read(gauge.scale.low).is_ok() && gauge.read(gauge.scale.high).is_ok(), "{}", gauge.name);
    }
    for limit in [-1.6, 0.0, 20.1, f64::NAN] {
        let nonsense = PressureGauge::SERVICE_LOW.within(Ratio::from_percent(limit));
        assert!(matches!(nonsense, Err(Error::Impossible { .. })), "{limit} %");
    }
    for end in [-1.0, 0.0, f64::INFINITY, f64::NAN] {
        let nonsense = PressureGauge::SERVICE_LOW.up_to(GaugePressure::from_bar(end));
        assert!(matches!(nonsense, Err(Error::Impossible { what: "full scale (bar)", .. })), "{end} bar");
    }
}

#[test]
fn readings_off_the_scale_are_refused() {
    let error = PressureGauge::SERVICE_LOW.read(GaugePressure::from_bar(10.5)).unwrap_err();
    assert_eq!(
        error.to_string(),
        "gauge pressure 10.5 bar is beyond the scale of the low-side service gauge (-1.0 to 10.0 bar): name the \
         instrument that was really used, or check the reading"
    );
    for (gauge, bar) in [
        (PressureGauge::SERVICE_LOW, -1.11), // below vacuum even in air of 110 kPa
        (PressureGauge::SERVICE_HIGH, 35.01),
        (PressureGauge::CARBON_DIOXIDE_LOW, -0.01),
        (PressureGauge::CARBON_DIOXIDE_HIGH, 160.01),
    ] {
        let error = gauge.read(GaugePressure::from_bar(bar)).unwrap_err();
        assert!(
            matches!(error, Error::BeyondScale { instrument, .. } if instrument == gauge.name),
            "{bar} bar: {error}"
        );
    }
    for bar in [f64::NAN, f64::INFINITY] {
        let error = PressureGauge::SERVICE_LOW.read(GaugePressure::from_bar(bar)).unwrap_err();
        assert!(matches!(error, Error::NotFinite { what: "gauge pressure", .. }), "{error}");
    }
}

#[test]
fn thermometers_lose_a_part_of_the_difference_to_the_air() {
    let c = Temperature::from_celsius;
    // (limit² + (1.3/40 × difference)²)/3, the difference in K; 40 °F = 22.22 K where the air is not known
    for (thermometer, air, variance) in [
        (Thermometer::CLAMPED_THERMOCOUPLE, Some(c(30.0)), (1.5_f64.powi(2) + (0.0325 * 22.0_f64).powi(2)) / 3.0),
        (Thermometer::CLAMPED_THERMOCOUPLE, None, (1.5_f64.powi(2) + (1.3_f64 / 1.8).powi(2)) / 3.0),
        (Thermometer::CLAMPED_THERMOCOUPLE, Some(c(8.0)), 1.5_f64.powi(2) / 3.0),
        (Thermometer::CLAMPED_THERMOCOUPLE, Some(c(-14.0)), (1.5_f64.powi(2) + (0.0325 * 22.0_f64).powi(2)) / 3.0),
        (Thermometer::CLAMPED_DIGITAL, Some(c(30.0)), (1.0 + (0.0325 * 22.0_f64).powi(2)) / 3.0),
        (Thermometer::THERMOCOUPLE_IN_AIR, Some(c(30.0)), 1.5_f64.powi(2) / 3.0),
        (Thermometer::DIGITAL_IN_AIR, None, 1.0 / 3.0),
    ] {
        let reading = thermometer.read(c(8.0), air).unwrap();
        let standard = reading.standard_uncertainty().kelvins();
        assert!(abs_diff_eq!(standard, variance.sqrt(), epsilon = ROUNDING), "{}: {standard}", thermometer.name);
        assert_eq!(reading.value(), c(8.0));
        assert!(!thermometer.source.work.is_empty());
    }
    for (reading, air) in [(f64::NAN, None), (f64::INFINITY, None), (8.0, Some(f64::NAN)), (8.0, Some(f64::INFINITY))] {
        let error = Thermometer::CLAMPED_DIGITAL.read(c(reading), air.map(c)).unwrap_err();
        assert!(matches!(error, Error::NotFinite { what: "temperature", .. }), "{reading} {air:?}: {error}");
    }
}

#[test]
fn barometers_read_what_the_air_can_be() {
    let reading = instrument::barometer(Pressure::from_hpa(1013.0)).unwrap();
    assert_abs_diff_eq!(reading.standard_uncertainty().hpa(), 2.0 / 3f64.sqrt(), epsilon = ROUNDING);
    for hpa in [400.0, 1100.0] {
        assert!(instrument::barometer(Pressure::from_hpa(hpa)).is_ok(), "{hpa} hPa");
    }
    // 29.92 psi instead of inHg, 1013 Pa instead of hPa
    for p in
        [Pressure::from_psi(29.92), Pressure::from_pa(1013.0), Pressure::from_hpa(399.9), Pressure::from_pa(f64::NAN)]
    {
        let error = instrument::barometer(p).unwrap_err();
        assert!(matches!(error, Error::Implausible { what: "air pressure", unit: "kPa", .. }), "{error}");
    }
}

#[cfg(feature = "serde")]
mod json {
    use super::*;
    use serde::{Serialize, de::DeserializeOwned};

    fn survives<T: Serialize + DeserializeOwned + PartialEq + std::fmt::Debug>(value: T) {
        let text = serde_json::to_string(&value).unwrap();
        assert_eq!(serde_json::from_str::<T>(&text).unwrap(), value, "{text}");
        // by way of owned text too, where nothing can be borrowed
        let tree = serde_json::to_value(&value).unwrap();
        assert_eq!(serde_json::from_value::<T>(tree).unwrap(), value, "{text}");
    }

    fn all<Q: Quantity + Serialize + DeserializeOwned>(si: f64)
    where
        Q::Difference: Serialize + DeserializeOwned,
    {
        let q = Q::from_si(si);
        survives(q);
        survives(Range::new(q, Q::from_si(si.abs() * 2.0)));
        survives(Measured::new(q, Q::Difference::from_si(si.abs() / 3.0)).unwrap());
    }

    proptest! {
        #[test]
        fn every_quantity_survives_to_the_last_place(si in proptest::num::f64::NORMAL | proptest::num::f64::ZERO) {
            prop_assume!(si == 0.0 || (1e-299..1e149).contains(&si.abs()));
            all::<Pressure>(si);
            all::<GaugePressure>(si);
            all::<PressureDifference>(si);
            all::<Temperature>(si);
            all::<TemperatureDifference>(si);
            all::<Mass>(si);
            all::<Volume>(si);
            all::<Length>(si);
            all::<Ratio>(si);
            all::<Density>(si);
            all::<SpecificEnthalpy>(si);
            all::<SpecificEntropy>(si);
            all::<Power>(si);
            all::<MolarMass>(si);
        }
    }

    #[test]
    fn values_are_written_with_their_unit() {
        assert_eq!(serde_json::to_string(&GaugePressure::from_kpa(220.0)).unwrap(), "\"220000 Pa\"");
        assert_eq!(serde_json::to_string(&Temperature::from_kelvin(300.0)).unwrap(), "\"300 K\"");
        assert_eq!(serde_json::to_string(&Ratio::from_fraction(0.55)).unwrap(), "\"0.55 of 1\"");
        assert_eq!(serde_json::to_string(&twenty()).unwrap(), "{\"value\":\"293.15 K\",\"standard\":\"0.5 K\"}");
    }

    #[test]
    fn any_unit_is_read_and_none_is_refused() {
        let low: GaugePressure = serde_json::from_str("\"32 psi\"").unwrap();
        assert_abs_diff_eq!(low.psi(), 32.0, epsilon = ROUNDING);
        let escaped: Temperature = serde_json::from_str("\"95\\u0020\\u00b0F\"").unwrap();
        assert_abs_diff_eq!(escaped.celsius(), 35.0, epsilon = ROUNDING);
        let error = serde_json::from_str::<GaugePressure>("\"32\"").unwrap_err().to_string();
        let expected = format!("gauge pressure: \"32\" has no unit; add one of {PRESSURES}");
        assert!(error.starts_with(&expected), "{error}");
        // a bare number has no unit either
        assert!(serde_json::from_str::<GaugePressure>("32").is_err());
    }

    #[test]
    fn what_cannot_be_is_refused_from_json_too() {
        for text in [r#"{"value":"20 °C","standard":"-0.5 K"}"#, r#"{"value":"20 °C"}"#] {
            assert!(serde_json::from_str::<Measured<Temperature>>(text).is_err(), "{text}");
        }
    }
}

#[test]
fn the_code_of_an_error_is_that_of_its_variant() {
    let codes = [
        ("32".parse::<GaugePressure>().unwrap_err(), "unit-missing"),
        ("32 furlong".parse::<GaugePressure>().unwrap_err(), "unit-unknown"),
        ("1,500 psi".parse::<GaugePressure>().unwrap_err(), "decimal-comma"),
        ("46.7 psia".parse::<GaugePressure>().unwrap_err(), "wrong-reference"),
        (satline::Refrigerant::R134a.dew_pressure(Temperature::from_kelvin(50.0)).unwrap_err(), "out-of-range"),
        (
            satline::Refrigerant::R744.dew_pressure(Temperature::from_celsius(40.0)).unwrap_err(),
            "above-critical-temperature",
        ),
    ];
    for (error, code) in codes {
        assert_eq!(error.code(), code);
        // inside another it is the same error
        let inside = Error::About { input: None, place: "low side".to_owned(), error: Box::new(error) };
        assert_eq!(inside.code(), code);
    }
}

#[cfg(feature = "approx")]
mod closeness {
    use approx::{AbsDiffEq, UlpsEq, assert_abs_diff_ne, assert_relative_eq, assert_relative_ne};
    use approx::{assert_ulps_eq, assert_ulps_ne};

    use super::*;

    /// Quantity whose tolerance is its difference, as every public one has to be.
    trait Close: Quantity + UlpsEq + AbsDiffEq<Epsilon = <Self as Quantity>::Difference> {}
    impl<Q: Quantity + UlpsEq + AbsDiffEq<Epsilon = <Q as Quantity>::Difference>> Close for Q {}

    fn within<Q: Close>(si: f64, by: f64) {
        let (here, there) = (Q::from_si(si), Q::from_si(si + by));
        let step = |size: f64| <Q as Quantity>::Difference::from_si(size);
        for (one, other) in [(here, there), (there, here)] {
            assert_abs_diff_eq!(one, other, epsilon = step(1.01 * by));
            assert_abs_diff_ne!(one, other, epsilon = step(0.99 * by));
            assert_ulps_ne!(one, other);
        }
        // by default a number, its neighbours by steps, and no more
        let next = |from: f64, steps: u32| (0..steps).fold(from, |at, _| at.next_up());
        assert_abs_diff_eq!(here, here);
        assert_abs_diff_ne!(here, Q::from_si(next(si, 1)));
        assert_ulps_eq!(here, Q::from_si(next(si, 4)));
        assert_ulps_ne!(here, Q::from_si(next(si, 5)));
        assert_ulps_eq!(here, Q::from_si(next(si, 5)), max_ulps = 5);
        // what is no number is close to nothing
        assert_abs_diff_ne!(here, Q::from_si(f64::NAN), epsilon = step(f64::INFINITY));
    }

    #[test]
    fn every_quantity_is_close_within_a_difference() {
        for_every_quantity!(within(300.0, 0.25));
        for_every_quantity!(within(4.0, 1e-6));
    }

    #[test]
    fn a_tolerance_is_what_its_unit_says() {
        let (a, b) = (Temperature::from_fahrenheit(86.0), Temperature::from_fahrenheit(87.0));
        assert_abs_diff_eq!(a, b, epsilon = TemperatureDifference::from_fahrenheit_steps(1.01));
        assert_abs_diff_eq!(a, b, epsilon = TemperatureDifference::from_kelvins(0.56));
        assert_abs_diff_ne!(a, b, epsilon = TemperatureDifference::from_kelvins(0.55));
        let (a, b) = (GaugePressure::from_psi(30.0), GaugePressure::from_psi(31.0));
        assert_abs_diff_eq!(a, b, epsilon = PressureDifference::from_kpa(6.9));
        assert_abs_diff_ne!(a, b, epsilon = PressureDifference::from_kpa(6.89));
    }

    #[test]
    fn a_share_is_close_within_a_share_of_the_larger() {
        let (a, b) = (Ratio::from_percent(50.0), Ratio::from_percent(50.4));
        assert_relative_eq!(a, b, max_relative = Ratio::from_percent(0.8)); // 0.4 of 50.4 is 0.794 %
        assert_relative_ne!(a, b, max_relative = Ratio::from_percent(0.79));
        assert_relative_eq!(a, b, epsilon = Ratio::from_percent(0.5), max_relative = Ratio::from_percent(0.1));
        assert_relative_eq!(a, a);
        assert_relative_ne!(a, Ratio::from_fraction(0.5 + 4.0 * f64::EPSILON));
    }

    #[test]
    fn ranges_are_close_where_both_ends_are() {
        let range = |low, high| Range::new(Mass::from_g(low), Mass::from_g(high));
        let within = Mass::from_g(0.1);
        assert_abs_diff_eq!(range(480.0, 520.0), range(480.05, 519.95), epsilon = within);
        assert_abs_diff_ne!(range(480.0, 520.0), range(480.2, 520.0), epsilon = within);
        assert_abs_diff_ne!(range(480.0, 520.0), range(480.0, 520.2), epsilon = within);
        assert_abs_diff_eq!(range(480.0, 520.0), range(480.0, 520.0));
        assert_ulps_eq!(range(480.0, 520.0), range(480.0, Mass::from_kg(0.52).g()));
        assert_ulps_ne!(range(480.0, 520.0), range(480.0, 520.1));
        assert_ulps_ne!(range(480.0, 520.0), range(480.1, 520.0));
    }
}

#[test]
fn units_of_transport_properties_are_read_and_written() {
    fn round<Q: Quantity + std::str::FromStr<Err = Error> + PartialEq>(si: f64) {
        for &unit in Q::Unit::ALL {
            let value = Q::from_si(si);
            // rounding
            assert!(abs_diff_eq!(Q::new(value.value_in(unit), unit).si() / si, 1.0, epsilon = 1e-15), "{unit:?}");
            for spelling in unit.spellings().iter().chain([&unit.symbol()]) {
                assert_eq!(format!("2.5 {spelling}").parse::<Q>(), Ok(Q::new(2.5, unit)), "{spelling}");
            }
        }
        assert_eq!(Q::EXAMPLE.parse::<Q>().map(|example| example.si() > 0.0), Ok(true));
    }
    round::<DynamicViscosity>(2e-4);
    round::<ThermalConductivity>(0.08);
    round::<SurfaceTension>(0.008);
    // one poise is 1 g/(cm s), one dyn 1e-5 N
    assert_eq!("1 cP".parse::<DynamicViscosity>(), Ok(DynamicViscosity::from_pa_s(1e-3)));
    assert_eq!("1 dyn/cm".parse::<SurfaceTension>(), Ok(SurfaceTension::from_n_per_m(1e-3)));
    let sum = DynamicViscosity::from_upa_s(2.0) + DynamicViscosity::from_mpa_s(0.001);
    assert_abs_diff_eq!(sum / DynamicViscosity::from_pa_s(1e-6), 3.0, epsilon = 1e-12); // rounding
}
