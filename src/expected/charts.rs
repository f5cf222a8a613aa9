//! The printed charts, row by row as their sources print them.
//!
//! The tables they were taken from are in `tables/windows`; the comment above each chart names file and row mark.
//!
//! Left out, and why:
//! - no air temperature printed: V10, V13, V15, `suzuki-ra410`, `audi-a1-figure`, `audi-a4-2021`, `takeuchi-tl150`;
//! - V08b is no window: the high side is set to these values by wetting or covering the condenser;
//! - V07: the values of V08 for a narrower range of inlet air, by the same maker;
//! - V11: a single low-side value of a worked example, no window;
//! - V12, `landrover-lr2-2015`: vent below freezing, not credible;
//! - V14: electric compressor, refrigerant not read;
//! - V16, V17: trucks and motor homes, order of the cells inferred from a flattened table;
//! - `suzuki-reno-rule`: a rule at 50 km/h with a single value; `infiniti-retrofit-rule`: a difference;
//! - `usarmy-tm5-3805-290`: repeats the 70 °F row of its sibling manual;
//! - `normal-readings.csv`: its R-12 row and G12 print no air temperature, G23 and S42 are equalised pressures, the
//!   rest is here in the printed units.

use super::chart::{AirPlace, Authority, CHART_AIR, Chart, ChartRow, EqualisedPressure};
use crate::{
    GaugePressure, Pressure, PressureDifference, Range, Ratio, Refrigerant, Source, Sourced, Temperature, Trust,
};

const fn at_c(air: f64) -> Range<Temperature> {
    from_to_c(air, air)
}

const fn from_to_c(low: f64, high: f64) -> Range<Temperature> {
    Range::new(Temperature::from_celsius(low), Temperature::from_celsius(high))
}

const fn at_f(air: f64) -> Range<Temperature> {
    Range::new(Temperature::from_fahrenheit(air), Temperature::from_fahrenheit(air))
}

const fn rh(low: f64, high: f64) -> Option<Range<Ratio>> {
    Some(Range::new(Ratio::from_percent(low), Ratio::from_percent(high)))
}

const fn psi(low: f64, high: f64) -> Option<Range<GaugePressure>> {
    Some(Range::new(GaugePressure::from_psi(low), GaugePressure::from_psi(high)))
}

const fn kpa(low: f64, high: f64) -> Option<Range<GaugePressure>> {
    Some(Range::new(GaugePressure::from_kpa(low), GaugePressure::from_kpa(high)))
}

const fn bar(low: f64, high: f64) -> Option<Range<GaugePressure>> {
    Some(Range::new(GaugePressure::from_bar(low), GaugePressure::from_bar(high)))
}

const fn mpa(low: f64, high: f64) -> Option<Range<GaugePressure>> {
    Some(Range::new(GaugePressure::from_mpa(low), GaugePressure::from_mpa(high)))
}

const fn vent_c(low: f64, high: f64) -> Option<Range<Temperature>> {
    Some(from_to_c(low, high))
}

/// A row in the order of the print: air, humidity, low side, high side, vent.
const fn row(
    air: Range<Temperature>,
    humidity: Option<Range<Ratio>>,
    low: Option<Range<GaugePressure>>,
    high: Option<Range<GaugePressure>>,
    vent: Option<Range<Temperature>>,
) -> ChartRow {
    ChartRow { air, humidity, low, high, vent }
}

/// A work of which excerpts were read.
const fn excerpt(work: &'static str, locator: &'static str) -> Source {
    Source { work, locator, doi: None, trust: Trust::Excerpt }
}

/// Every chart: tables by temperature, values for one temperature, then the habit.
pub const ALL: &[Chart] = &[
    LOADER_TM5,
    CAR_2010_A,
    CAR_2010_A_VENT,
    CAR_2009_B,
    CAR_2009_B_VENT,
    YF_A,
    YF_A_VENT,
    TRUCK_2003,
    CAR_2003,
    OFFROAD_A,
    OFFROAD_B,
    INSPECTION_20_35,
    INSPECTION_HIGH_2002,
    CAR_1991,
    HABIT,
];

// windows-published.csv, usarmy-tm5-3805-291, the rows in psi; the kPa column is the same print. Its 70 °F row is also
// performance-tables.csv, V18, and the five rows are S97 of normal-readings.csv.
const LOADER_TM5: Chart = Chart {
    id: "loader-tm5",
    system: "wheel loader, expansion valve or orifice tube",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Ladder,
    conditions: "engine 1000 rpm, maximum cold, fan high, at least 10 min; from the performance check of the sibling \
                 manual TM 5-3805-290",
    air: AirPlace::Ambient,
    rows: &[
        row(at_f(70.0), None, psi(10.0, 20.0), psi(120.0, 190.0), None),
        row(at_f(80.0), None, psi(10.0, 25.0), psi(140.0, 210.0), None),
        row(at_f(90.0), None, psi(15.0, 30.0), psi(170.0, 240.0), None),
        row(at_f(100.0), None, psi(15.0, 30.0), psi(190.0, 270.0), None),
        row(at_f(110.0), None, psi(15.0, 30.0), psi(210.0, 300.0), None),
    ],
    note: "two remarks stand in the heading: one side may be slightly higher in very humid and lower in very dry air, \
           the other is read before the clutch opens; which is which is not settled",
    source: excerpt("US Army, TM 5-3805-291-23-1, year not printed", "WP 0018, table 1"),
};

// performance-tables.csv, V01, ambient; the same as windows-published.csv, nissan-gtr-2010.
const CAR_2010_A: Chart = Chart {
    id: "car-2010-a",
    system: "car with variable compressor, 2010",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Ladder,
    conditions: "idle, recirculation, maximum cold, blower maximum, doors closed, windows open, hood open, after 10 min",
    air: AirPlace::Ambient,
    rows: &[
        row(at_c(25.0), rh(50.0, 70.0), kpa(171.0, 209.0), kpa(1204.0, 1471.0), None),
        row(at_c(30.0), rh(50.0, 70.0), kpa(196.0, 240.0), kpa(1300.0, 1590.0), None),
        row(at_c(35.0), rh(50.0, 70.0), kpa(229.0, 280.0), kpa(1500.0, 1820.0), None),
        row(at_c(40.0), rh(50.0, 70.0), kpa(292.0, 357.0), kpa(1870.0, 2285.0), None),
    ],
    note: "refrigerant inferred from the model year; type of compressor not on the page; each range is its midpoint \
           ±10 %",
    source: excerpt("Nissan, 2010 GT-R (R35) service manual", "Ambient Air Temperature-to-operating Pressure Table"),
};

// performance-tables.csv, V01, blower inlet; the same as vent-temperature.csv.
const CAR_2010_A_VENT: Chart = Chart {
    id: "vent-2010-a",
    air: AirPlace::BlowerInlet,
    rows: &[
        row(at_c(20.0), rh(50.0, 60.0), None, None, vent_c(6.0, 8.0)),
        row(at_c(20.0), rh(60.0, 70.0), None, None, vent_c(7.1, 9.1)),
        row(at_c(25.0), rh(50.0, 60.0), None, None, vent_c(8.4, 10.9)),
        row(at_c(25.0), rh(60.0, 70.0), None, None, vent_c(10.9, 13.4)),
        row(at_c(30.0), rh(50.0, 60.0), None, None, vent_c(14.5, 17.5)),
        row(at_c(30.0), rh(60.0, 70.0), None, None, vent_c(17.5, 20.5)),
    ],
    note: "refrigerant inferred from the model year; type of compressor not on the page",
    source: excerpt("Nissan, 2010 GT-R (R35) service manual", "recirculating-to-discharge air temperature table"),
    ..CAR_2010_A
};

// performance-tables.csv, V02, ambient.
const CAR_2009_B: Chart = Chart {
    id: "car-2009-b",
    system: "car, 2009-2014",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Ladder,
    conditions: "printed on the preceding page, not read; by the same maker as car-2010-a",
    air: AirPlace::Ambient,
    rows: &[
        row(at_c(30.0), rh(50.0, 70.0), kpa(240.0, 295.0), kpa(1220.0, 1500.0), None),
        row(at_c(35.0), rh(50.0, 70.0), kpa(275.0, 335.0), kpa(1360.0, 1690.0), None),
        row(at_c(40.0), rh(50.0, 70.0), kpa(310.0, 375.0), kpa(1500.0, 1830.0), None),
    ],
    note: "at 40 °C the lower limit of the high side is misprinted in kgf/cm² and psi (12.44, 176.9); kPa used",
    source: excerpt("Nissan, Maxima service manual 2009-2014", "HA-34"),
};

// performance-tables.csv, V02, blower inlet.
const CAR_2009_B_VENT: Chart = Chart {
    id: "vent-2009-b",
    air: AirPlace::BlowerInlet,
    rows: &[
        row(at_c(25.0), rh(60.0, 70.0), None, None, vent_c(12.3, 14.9)),
        row(at_c(30.0), rh(60.0, 70.0), None, None, vent_c(15.3, 19.3)),
        row(at_c(35.0), rh(60.0, 70.0), None, None, vent_c(21.0, 24.4)),
    ],
    note: "the rows for 50-60 % humidity were not read",
    ..CAR_2009_B
};

// performance-tables.csv, V03, fresh air.
const YF_A: Chart = Chart {
    id: "yf-a",
    system: "R-1234yf car",
    refrigerant: Refrigerant::R1234yf,
    authority: Authority::Ladder,
    conditions: "idle, recirculation, blower maximum, doors closed, windows open, hood open, about 10 min",
    air: AirPlace::Ambient,
    rows: &[row(at_c(25.0), rh(50.0, 70.0), kpa(159.0, 194.0), kpa(909.0, 1112.0), None)],
    note: "one row legible; the 30 °C row begins 1 07x kPa, the rest is cut off",
    source: excerpt("Nissan, Sentra service manual (HFO-1234yf), year not printed", "performance test"),
};

// tables/windows/performance-tables.csv, V03, blower inlet.
const YF_A_VENT: Chart = Chart {
    id: "vent-yf-a",
    air: AirPlace::BlowerInlet,
    rows: &[
        row(at_c(20.0), rh(50.0, 60.0), None, None, vent_c(4.7, 6.7)),
        row(at_c(20.0), rh(60.0, 70.0), None, None, vent_c(6.7, 8.7)),
        row(at_c(25.0), rh(50.0, 60.0), None, None, vent_c(8.6, 11.1)),
        row(at_c(25.0), rh(60.0, 70.0), None, None, vent_c(11.1, 13.6)),
        row(at_c(30.0), rh(50.0, 60.0), None, None, vent_c(12.6, 15.6)),
        row(at_c(30.0), rh(60.0, 70.0), None, None, vent_c(15.6, 18.6)),
        row(at_c(35.0), rh(50.0, 60.0), None, None, vent_c(19.0, 22.5)),
        row(at_c(35.0), rh(60.0, 70.0), None, None, vent_c(22.5, 26.0)),
    ],
    note: "",
    ..YF_A
};

// windows-published.csv, gm-trucks-2003-04.
const TRUCK_2003: Chart = Chart {
    id: "truck-2003",
    system: "full-size trucks, 2003-2004",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Ladder,
    conditions: "pressures at the service ports; the test conditions are not in the part read",
    air: AirPlace::Ambient,
    rows: &[
        row(from_to_c(13.0, 18.0), rh(0.0, 100.0), kpa(150.0, 246.0), kpa(730.0, 1190.0), None),
        row(from_to_c(19.0, 24.0), rh(0.0, 40.0), kpa(150.0, 280.0), kpa(900.0, 1390.0), None),
        row(from_to_c(19.0, 24.0), rh(40.0, 100.0), kpa(179.0, 317.0), kpa(990.0, 1500.0), None),
        row(from_to_c(25.0, 29.0), rh(0.0, 35.0), kpa(218.0, 328.0), kpa(1240.0, 1640.0), None),
        row(from_to_c(25.0, 29.0), rh(35.0, 60.0), kpa(236.0, 342.0), kpa(1290.0, 1680.0), None),
        row(from_to_c(25.0, 29.0), rh(60.0, 100.0), kpa(250.0, 365.0), kpa(1340.0, 1760.0), None),
        row(from_to_c(30.0, 35.0), rh(0.0, 30.0), kpa(266.0, 386.0), kpa(1500.0, 1940.0), None),
        row(from_to_c(30.0, 35.0), rh(30.0, 50.0), kpa(280.0, 397.0), kpa(1540.0, 1990.0), None),
        row(from_to_c(30.0, 35.0), rh(50.0, 100.0), kpa(300.0, 430.0), kpa(1600.0, 2070.0), None),
        row(from_to_c(36.0, 41.0), rh(0.0, 20.0), kpa(328.0, 439.0), kpa(1810.0, 2240.0), None),
    ],
    note: "refrigerant inferred from the model year; printed maximum at the left centre vent, row by row: 12, 14, 16, \
           17, 18, 20, 21, 22, 24 °C, the last cut off; the page ends inside the 36-41 °C interval",
    source: excerpt(
        "GM, service bulletin 1499821, 2003-2004",
        "Revised A/C System Performance Test (2003-04 full-size trucks/SUVs)",
    ),
};

// windows-published.csv, saturn-l200-2003.
const CAR_2003: Chart = Chart {
    id: "car-2003",
    system: "car with expansion valve and variable compressor, 2002-2003",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Ladder,
    conditions: "not in the part read; a sister car's charts of the same names: 2000 rpm, recirculation, doors and windows open, \
                 blower at its third speed, fans at medium",
    air: AirPlace::Ambient,
    rows: &[
        row(at_c(21.0), None, kpa(200.0, 213.0), kpa(723.0, 916.0), vent_c(5.0, 8.0)),
        row(at_c(27.0), None, kpa(193.0, 207.0), kpa(999.0, 1102.0), vent_c(6.0, 7.0)),
        row(at_c(33.0), None, kpa(186.0, 200.0), kpa(1275.0, 1791.0), None),
    ],
    note: "refrigerant inferred from the model year; right centre vent; at 33 °C the vent begins at 7 °C and its upper \
           end is cut off, as are the rows below",
    source: excerpt("GM/Saturn, 2002-2003 L200/LW200 (L61 engine)", "System Condition Charts, first grid"),
};

// performance-tables.csv, V04a.
const OFFROAD_A: Chart = Chart {
    id: "offroad-a",
    system: "off-road car",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Ladder,
    conditions: "1500 rpm, fresh air, blower maximum, bonnet and doors or windows open, 10 min",
    air: AirPlace::Ambient,
    rows: &[
        row(from_to_c(20.0, 24.0), rh(60.0, 80.0), bar(1.2, 1.9), bar(14.7, 20.6), vent_c(4.0, 10.0)),
        row(from_to_c(25.0, 29.0), rh(60.0, 80.0), bar(1.9, 2.6), bar(17.6, 23.5), vent_c(9.0, 19.0)),
        row(from_to_c(30.0, 35.0), rh(60.0, 80.0), bar(2.3, 3.2), bar(20.6, 26.5), vent_c(20.0, 27.0)),
    ],
    note: "contradicts offroad-b, which stands on the same page; the print says intake temperature, with fresh air \
           taken here as the outside air; also printed in lbf/in²",
    source: excerpt(
        "Land Rover, Defender 300Tdi workshop manual, year not printed",
        "air conditioning performance test, p. 375, first table",
    ),
};

// performance-tables.csv, V04b.
const OFFROAD_B: Chart = Chart {
    id: "offroad-b",
    conditions: "not printed for this table",
    rows: &[
        row(at_c(16.0), None, bar(1.03, 1.4), bar(6.9, 10.3), None),
        row(at_c(26.7), None, bar(1.4, 1.72), bar(9.6, 13.1), None),
        row(at_c(38.0), None, bar(1.72, 2.1), bar(12.4, 15.5), None),
    ],
    note: "contradicts offroad-a, which stands on the same page; the 43 °C row is cut off",
    source: excerpt(
        "Land Rover, Defender 300Tdi workshop manual, year not printed",
        "air conditioning performance test, p. 375, second table",
    ),
    ..OFFROAD_A
};

// performance-tables.csv, V08; windows-published.csv, toyota-gauge-set.
const INSPECTION_20_35: Chart = Chart {
    id: "inspection-a",
    system: "car with expansion valve",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Single,
    conditions: "1500 rpm, recirculation, blower on, maximum cold, doors fully open",
    air: AirPlace::BlowerInlet,
    rows: &[row(from_to_c(20.0, 35.0), None, mpa(0.15, 0.25), mpa(1.37, 1.57), None)],
    note: "other models of the maker print the same values for 30 to 35 °C (V07); refrigerant inferred from the context",
    source: excerpt(
        "Toyota, repair manual, model and year not printed",
        "check refrigerant pressure with manifold gauge set",
    ),
};

// performance-tables.csv, V09.
const INSPECTION_HIGH_2002: Chart = Chart {
    id: "inspection-b",
    system: "car, 2002",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Single,
    conditions: "compressor 2000 rpm, blower high, doors and windows open",
    air: AirPlace::BlowerInlet,
    rows: &[row(from_to_c(25.0, 35.0), None, None, psi(213.0, 256.0), None)],
    note: "kPa printed 1470-1160, a misprint; also printed 15.0-18.0 kgf/cm²; at 60 % humidity the page gives a drop of \
           17 K as good",
    source: excerpt("Suzuki, Esteem 2002", "performance test of A/C system"),
};

// windows-published.csv, toyota-camry-1991-text.
const CAR_1991: Chart = Chart {
    id: "car-1991",
    system: "car, 1991",
    refrigerant: Refrigerant::R12,
    authority: Authority::Single,
    conditions: "at least 15 min of operation",
    air: AirPlace::Ambient,
    rows: &[
        row(at_f(80.0), None, psi(15.0, 30.0), psi(150.0, 170.0), None),
        row(at_f(100.0), None, psi(15.0, 30.0), psi(210.0, 230.0), None),
    ],
    note: "refrigerant inferred from the model year; low side given once for all temperatures, about 15-30 psi; the \
           high side is elsewhere on the page 180-220 psi or higher",
    source: excerpt("Toyota, 1991 Camry V6 manual, text of an aftermarket data provider", "System Operation"),
};

// windows-common-practice.csv, COMMON-1.
const HABIT: Chart = Chart {
    id: "habit",
    system: "a car, none in particular",
    refrigerant: Refrigerant::R134a,
    authority: Authority::Habit,
    conditions: "moderate humidity, doors open, full blower",
    air: AirPlace::Ambient,
    rows: &[
        row(at_f(65.0), None, psi(25.0, 35.0), psi(135.0, 155.0), None),
        row(at_f(70.0), None, psi(35.0, 40.0), psi(145.0, 160.0), None),
        row(at_f(75.0), None, psi(35.0, 45.0), psi(150.0, 170.0), None),
        row(at_f(80.0), None, psi(40.0, 50.0), psi(175.0, 210.0), None),
        row(at_f(85.0), None, psi(45.0, 55.0), psi(225.0, 250.0), None),
        row(at_f(90.0), None, psi(45.0, 55.0), psi(250.0, 270.0), None),
        row(at_f(95.0), None, psi(50.0, 55.0), psi(275.0, 300.0), None),
        row(at_f(100.0), None, psi(50.0, 55.0), psi(315.0, 325.0), None),
        row(at_f(105.0), None, psi(50.0, 55.0), psi(330.0, 335.0), None),
        row(at_f(110.0), None, psi(50.0, 55.0), psi(340.0, 345.0), None),
    ],
    note: "said to come from old fixed-displacement systems under full load, from memory",
    source: Source {
        work: "a chart printed in many places; common practice, no source",
        locator: "from memory",
        doi: None,
        trust: Trust::CommonPractice,
    },
};

/// Largest allowed difference between the two gauges of an equalised circuit.
pub const EQUALISED_DIFFERENCE: Sourced<PressureDifference> = Sourced {
    value: PressureDifference::from_kpa(50.0), // static-pressure.csv, G8 2008
    source: excerpt("Pontiac G8 2008, service manual", "both sides agree within 50 kPa at rest"),
};

const fn rest(
    air_c: f64,
    pressure: Pressure,
    at_least: bool,
    work: &'static str,
    locator: &'static str,
) -> EqualisedPressure {
    EqualisedPressure { ambient: Temperature::from_celsius(air_c), pressure, at_least, source: excerpt(work, locator) }
}

const fn a6(air_c: f64, bar: f64) -> EqualisedPressure {
    rest(
        air_c,
        GaugePressure::from_bar(bar).absolute(CHART_AIR),
        false,
        "Audi A6 2001, service manual",
        "base pressure table",
    )
}

const fn ssr(air_c: f64, kpa: f64) -> EqualisedPressure {
    rest(
        air_c,
        GaugePressure::from_kpa(kpa).absolute(CHART_AIR),
        true,
        "Chevrolet SSR 2005, service manual",
        "least pressure that shows enough charge",
    )
}

const fn a3(air_c: f64, bar: f64) -> EqualisedPressure {
    rest(
        air_c,
        Pressure::from_bar(bar),
        false,
        "Audi A3 2006, service manual",
        "cooling output: bar absolute in whole numbers",
    )
}

/// Equalised pressures as makers print them for R-134a (`tables/windows/static-pressure.csv`).
///
/// They repeat the saturation line, rounded; the tests hold it against them.
pub const EQUALISED_R134A: &[EqualisedPressure] = &[
    a6(15.0, 3.9),
    a6(20.0, 4.7),
    a6(25.0, 5.6),
    a6(30.0, 6.7),
    a6(35.0, 7.8),
    a6(40.0, 9.1),
    a6(45.0, 10.5),
    ssr(16.0, 345.0),
    ssr(24.0, 483.0),
    ssr(33.0, 690.0),
    a3(15.0, 4.0),
    a3(20.0, 5.0),
    a3(25.0, 6.0),
    a3(30.0, 7.0),
    a3(35.0, 8.0),
];
