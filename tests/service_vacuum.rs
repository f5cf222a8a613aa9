//! The standing vacuum test, evacuation, purity and what an equalised circuit holds: made cases of known truth, printed rows, bad input.

use std::collections::BTreeMap;

use approx::{abs_diff_eq, assert_abs_diff_eq};
use satline::quantity::{MassRate, Position, PressureRate, PressureUnit, Time, Unit};
use satline::report;
use satline::service::acceptance::{ACCEPTANCE_LIMITS, AcceptanceOutcome};
use satline::service::evacuation::{self, DEEP_VACUUM, DryingCheck, TARGETS, required_vacuum, vapour_volume};
use satline::service::identify::{INDEPENDENT, RefrigerantIdentification};
use satline::service::leak_throughput::{DETECTOR_SCALES, flow_of, refrigerant_in, throughput};
use satline::service::non_condensables::{Purity, RECYCLED_AIR, RECYCLED_AIR_R12};
use satline::service::recovery_cylinder;
use satline::service::standing_vacuum::{StandingVacuumFit, StandingVacuumTest, VacuumFinding};
use satline::service::standing_vacuum_log::{VacuumLogColumns, step};
use satline::service::{Interval, StaticReading};
use satline::{
    Error, GaugePressure, Length, Mass, Measured, Pressure, PressureDifference, Quantity, Ratio, Refrigerant,
    Temperature, TemperatureDifference, Trust, Volume, air,
};

use crate::support::{Random, Table};

/// Rounding of inches of mercury by way of pascal.
const ROUNDING: f64 = 1e-12;

/// Random cases of each kind.
const CASES: usize = 1000;
/// Of them the truth must lie inside the 95 % interval in at least this many, and in fewer than all.
const INSIDE: usize = 950;
/// The error over half the width of an honest 95 % interval of a normal distribution is 0.674/1.96 = 0.34 at the median;
/// intervals that are wide for safety's sake would bring it far below that.
const NOT_WIDER: f64 = 0.25;

// --- random cases

/// How often intervals held the truth, and how wide they were beside the errors.
#[derive(Default)]
struct Tally {
    inside: usize,
    open: usize,
    /// Half widths in parts of a scale.
    halves: Vec<f64>,
    /// Errors in parts of half the width.
    errors: Vec<f64>,
}

impl Tally {
    /// Counts one interval; widths and errors in parts of `scale`.
    fn add<Q: Quantity>(&mut self, interval: &Interval<Q>, truth: Q, scale: f64) {
        self.inside += usize::from(interval.contains(truth));
        match (interval.low, interval.value, interval.high) {
            (Some(low), Some(value), Some(high)) => {
                let half = 0.5 * (high.si() - low.si());
                self.halves.push(half / scale);
                self.errors.push((value.si() - truth.si()).abs() / half);
            }
            _ => self.open += 1,
        }
    }
    fn measured<Q: Quantity>(&mut self, value: &Measured<Q>, truth: Q, scale: f64) {
        let half = value.expanded().si();
        let low = Q::from_si(value.value().si() - half);
        let high = Q::from_si(value.value().si() + half);
        self.add(&Interval { value: Some(value.value()), low: Some(low), high: Some(high) }, truth, scale);
    }
    /// The shares, and whether they are what is promised: at least 95 %, not all, and no wider than need be.
    fn holds(&self, what: &str) {
        let (half, error) = (median(&self.halves), median(&self.errors));
        println!(
            "{what}: {} of {CASES} inside, {} open; at the median half a width is {half:.4} and the error {error:.2} of that",
            self.inside, self.open,
        );
        assert!((INSIDE..CASES).contains(&self.inside), "{what}: {} of {CASES}", self.inside);
        assert!(error > NOT_WIDER, "{what}: errors are {error} of half a width");
        assert!(self.open < CASES / 20, "{what}: {} open", self.open);
    }
}

fn median(values: &[f64]) -> f64 {
    let mut values = values.to_vec();
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

/// How often which finding.
#[derive(Default)]
struct Findings(BTreeMap<String, usize>);

impl Findings {
    fn add(&mut self, finding: VacuumFinding) {
        *self.0.entry(format!("{finding:?}")).or_default() += 1;
    }
    fn of(&self, finding: VacuumFinding) -> usize {
        self.0.get(&format!("{finding:?}")).copied().unwrap_or(0)
    }
}

fn microns(value: f64) -> Pressure {
    Pressure::from_microns(value)
}

fn per_minute(value: f64) -> PressureRate {
    PressureRate::from_microns_per_minute(value)
}

fn sea_level() -> Measured<Pressure> {
    Measured::exact(Pressure::STANDARD_ATMOSPHERE).unwrap()
}

/// A gauge, and how it is read.
#[derive(Clone, Copy)]
struct Setting {
    readings: usize,
    step: f64,
    /// Standard deviation of a reading before it is rounded.
    scatter: f64,
    /// How far the scale may be off.
    limit: f64,
    /// Share of its scatter that a reading inherits from the one before.
    wander: f64,
}

impl Setting {
    fn any(random: &mut Random, limit: f64) -> Self {
        let step = [1.0, 5.0, 10.0][random.between(0.0, 3.0) as usize];
        let readings = random.between(8.0, 41.0) as usize;
        Self { readings, step, scatter: step * random.spread(0.1, 3.0), limit, wander: 0.0 }
    }

    /// A test of `curve` (microns over the share of the test that has passed).
    fn read(self, random: &mut Random, curve: impl Fn(f64) -> f64, minutes: f64) -> StandingVacuumFit {
        let scale = 1.0 + random.between(-self.limit, self.limit);
        let mut test = StandingVacuumTest::new(sea_level(), PressureDifference::from_microns(self.step)).unwrap();
        test = test.with_gauge_limit(Ratio::from_fraction(self.limit)).unwrap();
        let mut off = random.normal();
        for i in 0..self.readings {
            let share = i as f64 / (self.readings - 1) as f64;
            let shown = scale * curve(share) + self.scatter * off;
            off = self.wander * off + (1.0 - self.wander * self.wander).sqrt() * random.normal();
            let read = (shown / self.step).round() * self.step;
            test.push(Time::from_minutes(share * minutes), microns(read), None).unwrap();
        }
        test.fit().unwrap()
    }
}

/// A test of `curve` with any gauge.
fn made(random: &mut Random, curve: impl Fn(f64) -> f64, minutes: f64, limit: f64) -> StandingVacuumFit {
    Setting::any(random, limit).read(random, curve, minutes)
}

#[test]
fn leaks_are_recovered_within_their_uncertainty() {
    let mut random = Random(1);
    let (mut rates, mut starts, mut scaled, mut found) =
        (Tally::default(), Tally::default(), Tally::default(), Findings::default());
    for _ in 0..CASES {
        let minutes = random.between(5.0, 30.0);
        let (start, rate) = (random.between(100.0, 2000.0), random.spread(2.0, 500.0));
        let fit = made(&mut random, |x| start + rate * minutes * x, minutes, 0.0);
        found.add(fit.finding);
        rates.add(&fit.rate, per_minute(rate), per_minute(rate).si());
        starts.add(&fit.start, microns(start), microns(start).si());
        // the same through a gauge that is off by up to a tenth
        let fit = made(&mut random, |x| start + rate * minutes * x, minutes, 0.1);
        scaled.add(&fit.rate, per_minute(rate), per_minute(rate).si());
    }
    println!("leaks are called {:?}", found.0);
    rates.holds("leak rate");
    starts.holds("pressure at the start of a leak");
    scaled.holds("leak rate through a gauge within 10 %");
    assert!(found.of(VacuumFinding::Leak) > 850, "{:?}", found.0);
    // nothing but a leak is named wrongly; that it cannot be told is no wrong name
    let right = [VacuumFinding::Leak, VacuumFinding::CannotTell, VacuumFinding::NoRise]
        .map(|finding| found.of(finding))
        .iter()
        .sum::<usize>();
    assert!(right > CASES - 25, "{:?}", found.0);
}

#[test]
fn moisture_is_recovered_within_its_uncertainty() {
    let mut random = Random(2);
    let (mut ends, mut constants, mut found) = (Tally::default(), Tally::default(), Findings::default());
    for _ in 0..CASES {
        let minutes = random.between(5.0, 30.0);
        let start = random.between(100.0, 1000.0);
        let end = start + random.spread(100.0, 10_000.0);
        let tau = minutes * random.spread(0.1, 1.5);
        let fit = made(&mut random, |x| end - (end - start) * (-x * minutes / tau).exp(), minutes, 0.0);
        found.add(fit.finding);
        ends.add(&fit.levels_at().unwrap(), microns(end), microns(end).si());
        constants.add(&fit.time_constant().unwrap(), Time::from_minutes(tau), Time::from_minutes(tau).si());
    }
    println!("moisture is called {:?}", found.0);
    ends.holds("pressure that moisture rises to");
    constants.holds("time constant of moisture");
    assert!(found.of(VacuumFinding::Moisture) > INSIDE, "{:?}", found.0);
    assert!(found.of(VacuumFinding::Leak) < 10, "{:?}", found.0);
}

#[test]
fn a_leak_beside_moisture_is_recovered_within_its_uncertainty() {
    let mut random = Random(3);
    let (mut rates, mut found) = (Tally::default(), Findings::default());
    for _ in 0..CASES {
        let minutes = random.between(10.0, 30.0);
        let (start, rise) = (random.between(100.0, 1000.0), random.spread(200.0, 5000.0));
        let tau = minutes * random.spread(0.1, 0.3);
        let rate = random.spread(10.0, 500.0);
        let curve = |x: f64| start + rise * (1.0 - (-x * minutes / tau).exp()) + rate * minutes * x;
        let fit = made(&mut random, curve, minutes, 0.0);
        found.add(fit.finding);
        rates.add(&fit.beside.unwrap(), per_minute(rate), per_minute(rate).si());
    }
    println!("leak and moisture are called {:?}", found.0);
    rates.holds("leak beside moisture");
    assert!(found.of(VacuumFinding::LeakAndMoisture) > 850, "{:?}", found.0);
}

#[test]
fn no_rise_is_rarely_called_one_and_bounds_the_leak() {
    let mut random = Random(4);
    let (mut bounded, mut found) = (0, Findings::default());
    for _ in 0..CASES {
        let minutes = random.between(10.0, 30.0);
        let start = random.between(100.0, 1000.0);
        let fit = made(&mut random, |_| start, minutes, 0.0);
        found.add(fit.finding);
        bounded += usize::from(fit.rate.high.is_some_and(|high| high.si() >= 0.0));
    }
    println!("no rise is called {:?}; the bound holds in {bounded}", found.0);
    assert!(found.of(VacuumFinding::NoRise) >= INSIDE, "{:?}", found.0);
    assert!(bounded >= INSIDE, "{bounded}");
}

/// Readings that wander, each keeping half of what the one before was off: 30 of them do not tell how much they wander well
/// enough, and intervals hold the truth in 93 instead of 95 of 100 (in 88 before neighbours were looked at).
#[test]
fn readings_that_wander_are_nearly_allowed_for() {
    let mut random = Random(6);
    let mut rates = Tally::default();
    for _ in 0..CASES {
        let setting = Setting { wander: 0.5, readings: 31, ..Setting::any(&mut random, 0.0) };
        let fit = setting.read(&mut random, |x| 500.0 + 3000.0 * x, 30.0);
        rates.add(&fit.rate, per_minute(100.0), 1.0);
    }
    println!("readings that wander: {} of {CASES} inside", rates.inside);
    assert!(rates.inside > 920, "{}", rates.inside);
}

/// What is said to be the smallest rise that shows is not taken for none in nineteen of twenty tests; half of it mostly is.
#[test]
fn the_smallest_rise_that_shows_is_seen_and_half_of_it_is_not() {
    let mut random = Random(5);
    let (mut cases, mut seen, mut half_seen) = (0, 0, 0);
    while cases < CASES {
        let setting = Setting::any(&mut random, 0.0);
        let Some(smallest) = setting.read(&mut random, |_| 500.0, 15.0).smallest_seen else { continue };
        let rise = 15.0 * smallest.microns_per_minute();
        let mut shows = |rise: f64| {
            let fit = setting.read(&mut random, |x| 500.0 + rise * x, 15.0);
            usize::from(fit.finding != VacuumFinding::NoRise)
        };
        seen += shows(rise);
        half_seen += shows(0.5 * rise);
        cases += 1;
    }
    println!("the smallest rise that shows is seen in {seen} of {CASES}, half of it in {half_seen}");
    assert!(seen >= INSIDE, "{seen}");
    assert!(half_seen < 750, "{half_seen}");
}

// --- gates and what they prove

/// A test of `count` readings, one a minute, without any scatter.
fn exact(count: usize, step: f64, curve: impl Fn(f64) -> f64) -> StandingVacuumFit {
    let mut test = StandingVacuumTest::new(sea_level(), PressureDifference::from_microns(step)).unwrap();
    for minute in 0..count {
        test.push(Time::from_minutes(minute as f64), microns(curve(minute as f64)), None).unwrap();
    }
    test.fit().unwrap()
}

#[test]
fn limits_pass_fail_stay_open_or_ask_for_a_longer_test() {
    let page = |fit: &StandingVacuumFit| {
        report::hold(fit, &sea_level(), Refrigerant::R134a, None, PressureUnit::Micron).unwrap().gates
    };
    let outcomes = |fit: &StandingVacuumFit| page(fit).iter().map(|row| row.outcome).collect::<Vec<_>>();
    // 1 inHg is 25 400 micron: 4000 a minute keep 1 inHg in 5 min, 6000 break it and keep 2, 11 000 break both
    for (rate, expected) in [
        (4000.0, [AcceptanceOutcome::Passes, AcceptanceOutcome::Passes, AcceptanceOutcome::Fails]),
        (6000.0, [AcceptanceOutcome::Fails, AcceptanceOutcome::Passes, AcceptanceOutcome::Fails]),
        (11_000.0, [AcceptanceOutcome::Fails, AcceptanceOutcome::Fails, AcceptanceOutcome::Fails]),
        (20.0, [AcceptanceOutcome::Passes, AcceptanceOutcome::Passes, AcceptanceOutcome::Passes]),
    ] {
        let fit = exact(11, 10.0, |minute| 500.0 + rate * minute);
        assert_eq!(outcomes(&fit), expected, "{rate} micron/min, {:?}", fit.finding);
    }
    let at_the_limit =
        exact(11, 100.0, |minute| 500.0 + 5080.0 * minute + if minute % 2.0 == 0.0 { 100.0 } else { -100.0 });
    assert_eq!(outcomes(&at_the_limit)[0], AcceptanceOutcome::Open);
    let short = exact(5, 1.0, |minute| 500.0 + 20.0 * minute);
    assert_eq!(outcomes(&short), [AcceptanceOutcome::Passes, AcceptanceOutcome::TooShort, AcceptanceOutcome::TooShort]);
    assert_eq!(page(&short)[0].over.to_string(), "4.0 min");
}

#[test]
fn a_limit_lets_pass_what_the_table_says() {
    let table = Table::read("service/evacuation.csv");
    let [quantity, value, note] = ["quantity", "value", "rule_or_note"].map(|name| table.column(name));
    let printed = |of: &str| {
        let row = table.rows.iter().find(|row| row[quantity].ends_with(of)).unwrap_or_else(|| panic!("{of}"));
        let times: f64 = row[note].split_whitespace().find_map(|word| word.parse().ok()).unwrap();
        (row[value].parse::<f64>().unwrap(), times)
    };
    let volume = Measured::exact(Volume::from_l(2.5)).unwrap();
    let t = Temperature::from_celsius(20.0);
    let (flow, times) = printed("V = 2.5 L, 1 inHg in 5 min");
    let gate = ACCEPTANCE_LIMITS[0].value;
    // printed with three digits
    assert_abs_diff_eq!(gate.lets_pass(&volume).unwrap().pa_m3_per_s() / flow, 1.0, epsilon = 0.002);
    let ours = gate.times_a_service_leak(&volume, Refrigerant::R134a, t).unwrap();
    assert_abs_diff_eq!(ours, times, epsilon = 0.5); // printed as a whole number
    let (flow, times) = printed("same, 500 micron in 10 min");
    let rate = Some(per_minute(50.0));
    let deep = throughput(&Interval { value: rate, low: rate, high: rate }, &volume).unwrap().value.unwrap();
    assert_abs_diff_eq!(deep.pa_m3_per_s() / flow, 1.0, epsilon = 0.002); // printed with three digits
    let ours = deep / flow_of(MassRate::from_g_per_year(14.0), Refrigerant::R134a, t).unwrap();
    assert_abs_diff_eq!(ours, times, epsilon = 0.5); // printed as a whole number
    // there and back
    let lost = MassRate::from_g_per_year(14.0);
    let back = refrigerant_in(flow_of(lost, Refrigerant::R1234yf, t).unwrap(), Refrigerant::R1234yf, t).unwrap();
    assert_abs_diff_eq!(back.g_per_year(), 14.0, epsilon = 1e-9); // there and back: rounding
    assert_eq!(DETECTOR_SCALES.value.map(|scale| scale.g_per_year().round()), [4.0, 7.0, 14.0]);
}

#[test]
fn every_gate_and_target_stands_in_the_table() {
    let table = Table::read("service/evacuation.csv");
    assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap());
    let [scope, value, unit, absolute, provenance] =
        ["scope", "value", "unit", "absolute_Pa_if_known", "provenance"].map(|name| table.column(name));
    let row = |holder: &str, printed: &str| {
        table
            .rows
            .iter()
            .find(|row| row[scope].contains(holder) && row[value] == printed)
            .unwrap_or_else(|| panic!("{holder} {printed}"))
    };
    // absolute pressures that the table states, from the deepest to the shallowest, Pa
    for (name, holder, printed) in [
        ("US service manuals, 28 to 29.5 inHg", "US generic text", "28-29.5"),
        ("Hyundai Tucson 2009, Acura Legend 1993 and RDX 2007, 700 mmHg", "Hyundai Tucson", "700"),
        ("Kia Optima 2001, 94.39 kPa", "Kia Optima", "94.39"),
        ("US Army, 28 to 29 inHg", "TM 5-2420-230", "28-29"),
    ] {
        let row = row(holder, printed);
        assert_eq!(row[provenance], "read");
        let target = TARGETS.iter().find(|target| target.value.name == name).unwrap_or_else(|| panic!("{name}"));
        let ours = target
            .value
            .at(Pressure::STANDARD_ATMOSPHERE)
            .map(|end| end.unwrap().absolute(Pressure::STANDARD_ATMOSPHERE));
        let stated: Vec<f64> = row[absolute].split('-').map(|pa| pa.parse().unwrap()).collect();
        // the conventional atmosphere of 29.92 inHg behind the table's figures is off by 5 Pa
        for (ours, stated) in ours.iter().zip(stated.iter().rev()) {
            assert!(abs_diff_eq!(ours.pa(), stated, epsilon = 6.0), "{name}: {} Pa, not {stated}", ours.pa());
        }
    }
    // to the letter zero absolute: no gauge can show it anywhere
    let suzuki = TARGETS.iter().find(|target| target.value.name.starts_with("Suzuki")).unwrap();
    assert!(suzuki.value.at(air::pressure_at(Length::from_m(300.0)).unwrap().value()).iter().all(Option::is_none));
    assert_eq!(row("Suzuki", "-760")[unit], "mmHg gauge");
    assert_eq!(row("same", "1")[unit], "inHg per 4-5 min");
    assert_eq!(row("Trade site", "500")[unit], "micron");
    assert_eq!(DEEP_VACUUM[1].source.trust, Trust::CommonPractice);
    assert!(row("common practice", "500-1000")[provenance].starts_with("common practice"));
}

#[test]
fn the_army_boils_water_at_our_vacuum_within_a_tenth_of_an_inch() {
    let table = Table::read("service/evacuation.csv");
    let [quantity, value] = ["quantity", "value"].map(|name| table.column(name));
    let mut rows = 0;
    for row in table.rows.iter().filter(|row| row[quantity].starts_with("vacuum needed to boil water at")) {
        let fahrenheit: f64 = row[quantity].split_whitespace().rev().nth(1).unwrap().parse().unwrap();
        let part = Measured::exact(Temperature::from_fahrenheit(fahrenheit)).unwrap();
        let gauge = required_vacuum(&part, &sea_level()).unwrap();
        let printed: f64 = row[value].parse().unwrap();
        let ours = -gauge.value().inhg();
        assert!(abs_diff_eq!(ours, printed, epsilon = 0.1), "{fahrenheit} °F: {ours} inHg, not {printed}");
        rows += 1;
    }
    assert_eq!(rows, 4);
}

#[test]
fn a_gram_of_water_takes_the_room_the_table_says() {
    let table = Table::read("service/evacuation.csv");
    let row = table.rows.iter().find(|row| row[table.column("scope")] == "vapour mass").unwrap();
    let litres = |microns: f64| {
        let room = Temperature::from_celsius(22.0);
        vapour_volume(Mass::from_g(1.0), Pressure::from_microns(microns), room).unwrap().l()
    };
    let printed: f64 = row[table.column("value")].parse().unwrap();
    assert_abs_diff_eq!(litres(20_000.0), printed, epsilon = 0.5); // printed as a whole number
    // the row says 2044 L at 500 micron; with today's constants it is 2043.5
    assert!(row[table.column("rule_or_note")].contains("2044 L"));
    assert_abs_diff_eq!(litres(500.0), 2044.0, epsilon = 1.0);
}

// --- drying

#[test]
fn a_vacuum_dries_does_not_or_cannot_be_told() {
    let part =
        |celsius, u| Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(u)).unwrap();
    let vacuum = |kpa, u| Measured::new(Pressure::from_kpa(kpa), PressureDifference::from_kpa(u)).unwrap();
    let dries = |vacuum: &Measured<Pressure>, part: &Measured<Temperature>| DryingCheck::of(vacuum, part).unwrap();
    let deep = dries(&vacuum(0.1, 0.01), &part(20.0, 1.0));
    assert!(deep.outcome == AcceptanceOutcome::Passes && deep.probability > 0.999 && !deep.frozen);
    let shallow = dries(&vacuum(6.5, 0.5), &part(20.0, 1.0));
    assert!(shallow.outcome == AcceptanceOutcome::Fails && shallow.probability < 0.001);
    assert!(shallow.temperature_margin(&part(20.0, 1.0)).unwrap().kelvins() < -15.0);
    // a compound gauge says nothing about a few kilopascals
    let open = dries(&vacuum(1.0, 10.0), &part(20.0, 1.0));
    assert!(open.outcome == AcceptanceOutcome::Open && (0.4..0.7).contains(&open.probability));
    // at the pressure of saturation itself water neither boils off nor stays, however well both are known
    let even = Measured::exact(deep.needed.value()).unwrap();
    let known = Measured::exact(Temperature::from_celsius(20.0)).unwrap();
    assert_eq!(dries(&even, &known).outcome, AcceptanceOutcome::Open);
    let frozen = dries(&vacuum(0.1, 0.01), &part(-10.0, 0.5));
    assert!(frozen.frozen && frozen.outcome == AcceptanceOutcome::Passes);
    assert!(dries(&vacuum(-1.0, 5.0), &part(20.0, 1.0)).boils_at.is_none());
    // u² = 0.01² + (1 K × 0.145 kPa/K)²
    // the digits of the slope by hand
    assert_abs_diff_eq!(deep.margin.standard_uncertainty().kpa(), 0.1452, epsilon = 0.0005);
}

#[test]
fn a_vacuum_has_reached_what_is_asked_for_as_far_as_its_gauge_tells() {
    let vacuum = |pa: f64, u| Measured::new(Pressure::from_pa(pa), PressureDifference::from_pa(u)).unwrap();
    for target in &TARGETS {
        let shallowest = target.value.reach.high.absolute(Pressure::STANDARD_ATMOSPHERE).pa();
        let reached = |pa| target.value.probability_reached(&vacuum(pa, 100.0));
        // at the edge even; one standard uncertainty short of it 16 %, beyond it 84 %
        for (over, probability) in [(0.0, 0.5), (100.0, 0.158_66), (-100.0, 0.841_34)] {
            assert_abs_diff_eq!(reached(shallowest + over), probability, epsilon = 1e-5); // the digits of the table
        }
    }
}

#[test]
fn a_vacuum_that_cannot_be_is_refused() {
    let gauge = |kpa, u| Measured::new(GaugePressure::from_kpa(kpa), PressureDifference::from_kpa(u)).unwrap();
    let said = |kpa, u| evacuation::absolute(&gauge(kpa, u), &sea_level()).unwrap_err().to_string();
    assert_eq!(
        said(-130.0, 5.0),
        "-28.7 kPa absolute is not above vacuum; check the gauge reading, its sign and unit, and the air pressure used (101.3 kPa)"
    );
    assert_eq!(
        said(90.0, 5.0),
        "191.3 kPa absolute is above the surrounding air (101.3 kPa) and no vacuum: check the sign, the unit and whether gauge, \
         vacuum or absolute pressure was meant"
    );
    // a pegged gauge of a kilopascal's worth is a good vacuum, not an error
    assert!(evacuation::absolute(&gauge(-102.0, 5.0), &sea_level()).is_ok());
    let hot = Measured::exact(Temperature::from_celsius(110.0)).unwrap();
    assert!(matches!(required_vacuum(&hot, &sea_level()), Err(Error::NotVacuum { .. })));
    let out = vapour_volume(Mass::from_g(-1.0), microns(500.0), Temperature::from_celsius(20.0));
    assert_eq!(out.unwrap_err().to_string(), "mass of water (kg) -0.001 is not possible: it must be above zero");
}

// --- what a hold test refuses

fn empty() -> StandingVacuumTest {
    StandingVacuumTest::new(sea_level(), PressureDifference::from_microns(10.0)).unwrap()
}

#[test]
fn bad_readings_are_refused_and_leave_the_test_as_it_was() {
    let mut test = empty();
    let minute = Time::from_minutes;
    test.push(minute(0.0), microns(500.0), None).unwrap();
    let before = test.clone();
    let refused = |result: Result<(), Error>, expected: &str| assert_eq!(result.unwrap_err().to_string(), expected);
    refused(
        test.push(minute(0.0), microns(510.0), None),
        "0 s is not later than the reading before it, at 0 s: sort the readings by time, and give two at the same moment once",
    );
    refused(
        test.push(minute(1.0), Pressure::from_kpa(104.2), None),
        "104.2 kPa absolute is above the surrounding air (101.3 kPa) and no vacuum: check the sign, the unit and whether \
         gauge, vacuum or absolute pressure was meant",
    );
    refused(
        test.push(minute(1.0), Pressure::from_kpa(-3.0), None),
        "-3.0 kPa absolute is not above vacuum; check the gauge reading, its sign and unit, and the air pressure used (101.3 kPa)",
    );
    refused(test.push(minute(f64::NAN), microns(510.0), None), "time: \"NaN\" is not a finite number");
    refused(test.push(minute(1.0), microns(f64::INFINITY), None), "absolute pressure: \"inf\" is not a finite number");
    refused(
        test.push(minute(1.0), GaugePressure::from_kpa(-100.0), None),
        "\"1.32 kPa\" is gauge pressure, but the pressure of every reading as the first is asked for: use one gauge for the \
         whole test",
    );
    refused(
        test.push(minute(1.0), microns(510.0), Some(Temperature::from_celsius(20.0))),
        "temperature of some readings is missing: give it with every reading or with none",
    );
    assert_eq!(test, before);
    let mut warm = empty();
    let hot = warm.push(minute(0.0), microns(500.0), Some(Temperature::from_celsius(293.15)));
    refused(hot, "temperature 293.1 °C is outside -40.0 to 90.0 °C, where cars are serviced; is the unit right?");
    assert!(warm.is_empty());
}

/// Low, value and high stand in this order, and none of them is a number that is not one.
fn is_ordered<Q: Quantity>(interval: &Interval<Q>) -> bool {
    let ends = [interval.low, interval.value, interval.high];
    let numbers: Vec<f64> = ends.iter().flatten().map(|end| end.si()).collect();
    numbers.iter().all(|x| x.is_finite()) && numbers.is_sorted()
}

/// Whatever a gauge shows, there is an answer whose intervals hold their own value, and a page.
#[test]
fn no_series_brings_the_fit_down() {
    let mut random = Random(9);
    for case in 0..500 {
        let step = random.spread(1e-6, 1e4);
        let mut test = StandingVacuumTest::new(sea_level(), PressureDifference::from_pa(step)).unwrap();
        let mut time = random.between(-1e4, 1e4);
        let start = random.between(0.0, 101_325.0);
        for i in 0..random.between(5.0, 60.0) as usize {
            time += random.spread(1e-6, 1e5);
            let p = match case % 5 {
                0 => random.between(0.0, 101_325.0),
                1 => start,
                2 => [1.0, 101_325.0][random.between(0.0, 2.0) as usize],
                3 => {
                    if i == 3 {
                        100_000.0
                    } else {
                        10.0
                    }
                }
                _ => (start + i as f64 * random.normal() * 1e3).clamp(0.0, 101_325.0),
            };
            test.push(Time::from_seconds(time), Pressure::from_pa(p), None).unwrap();
        }
        let fit = test.fit().unwrap();
        let whole = fit.rise_over(fit.length).unwrap();
        let levelling = fit.levels_at().iter().all(is_ordered) && fit.time_constant().iter().all(is_ordered);
        let others = is_ordered(&fit.rate) && is_ordered(&fit.start) && is_ordered(&whole);
        assert!(levelling && others && fit.beside.iter().all(is_ordered), "case {case}: {fit:?}");
        assert!(
            fit.variance_inflation >= 1.0 && fit.smallest_seen.is_none_or(|seen| seen.si() > 0.0),
            "case {case}: {fit:?}"
        );
        let volume = Some(Measured::exact(Volume::from_l(2.5)).unwrap());
        let page = report::hold(&fit, &sea_level(), Refrigerant::R744, volume, PressureUnit::Psi).unwrap().text(80);
        assert!(!page.contains("NaN"), "case {case}: {page}");
    }
}

#[test]
fn too_few_readings_and_instruments_that_are_none() {
    let mut test = empty();
    for minute in 0..4 {
        test.push(Time::from_minutes(f64::from(minute)), microns(500.0), None).unwrap();
    }
    assert_eq!(
        test.fit().unwrap_err().to_string(),
        "4 readings of the hold test, and at least 5 are needed: read the gauge every minute or so; two readings give a rise, \
         but not whether it is straight"
    );
    let none = StandingVacuumTest::new(sea_level(), PressureDifference::from_pa(0.0)).unwrap_err().to_string();
    assert!(none.starts_with("smallest step of the gauge (Pa) 0 is not possible: it must be above zero"), "{none}");
    let wide = empty().with_gauge_limit(Ratio::from_percent(80.0)).unwrap_err().to_string();
    assert_eq!(wide, "limit of error of the vacuum gauge (%) 80 is not possible: it must be from 0 to 50");
    let fit = exact(6, 10.0, |minute| 500.0 + 50.0 * minute);
    assert_eq!(
        fit.rise_over(Time::from_minutes(10.0)).unwrap_err().to_string(),
        "time from the start of the hold test 10.0 min is outside 0.0 to 5.0 min, the limits of what is computed here"
    );
    let rate = fit.rate;
    let negative = throughput(&rate, &Measured::exact(Volume::from_l(-2.5)).unwrap()).unwrap_err().to_string();
    assert_eq!(negative, "volume of the circuit (L) -2.5 is not possible: it must be above zero");
}

#[test]
fn findings_that_are_neither_leak_nor_moisture() {
    let finding = |curve: fn(f64) -> f64| exact(21, 10.0, curve).finding;
    assert_eq!(finding(|_| 500.0), VacuumFinding::NoRise);
    assert_eq!(finding(|minute| 5000.0 - 100.0 * minute), VacuumFinding::Falling);
    assert_eq!(finding(|minute| 500.0 + 10.0 * minute * minute), VacuumFinding::SpeedsUp);
    // air that rushes in: 760 000 micron, half of it in 5 min
    let to_air = |minute: f64| 760_000.0 - 759_000.0 * (-minute / 7.0).exp();
    assert_eq!(finding(to_air), VacuumFinding::OpenToAir);
    // it levels off at 450 000 micron, where an opening still chokes, and has reached less than half of that: nothing says open yet
    let slow = |minute: f64| 450_000.0 - 449_000.0 * (-minute / 40.0).exp();
    assert_ne!(finding(slow), VacuumFinding::OpenToAir);
    let leak = exact(21, 10.0, |minute| 500.0 + 300.0 * minute);
    assert_eq!(leak.finding, VacuumFinding::Leak);
    assert!(leak.leak_at_most().unwrap() > per_minute(300.0) && leak.leak_at_most().unwrap() < per_minute(301.0));
    // three readings in every four steps: too little to tell a bend from none
    let few = exact(6, 100.0, |minute| (5.0 + minute * 0.8).round() * 100.0);
    assert_eq!(few.finding, VacuumFinding::CannotTell);
    assert!(few.leak_at_most().is_some() && few.leak_rate().is_none());
}

/// A gauge that counts from the air is off as the barometer is: in levels, not in rates.
#[test]
fn a_service_gauge_is_uncertain_in_levels_and_not_in_rates() {
    let air = air::pressure_at(Length::from_m(0.0)).unwrap();
    let mut by_gauge = StandingVacuumTest::new(air, PressureDifference::from_microns(100.0)).unwrap();
    let mut by_vacuum = StandingVacuumTest::new(air, PressureDifference::from_microns(100.0)).unwrap();
    for minute in 0..15 {
        let p = microns(20_000.0 + 1000.0 * f64::from(minute));
        let time = Time::from_minutes(f64::from(minute));
        by_gauge.push(time, p.gauge(air.value()), None).unwrap();
        by_vacuum.push(time, p, None).unwrap();
    }
    let (gauge, vacuum) = (by_gauge.fit().unwrap(), by_vacuum.fit().unwrap());
    let half = |interval: Interval<Pressure>| 0.5 * (interval.high.unwrap() - interval.low.unwrap()).pa();
    assert!(half(gauge.start) > 1750.0 && half(vacuum.start) < 30.0);
    let [a, b] = [gauge, vacuum].map(|fit| fit.rate);
    assert_abs_diff_eq!(a.high.unwrap().si(), b.high.unwrap().si(), epsilon = 1e-9); // rounding
}

#[test]
fn a_circuit_that_warms_is_not_a_leak() {
    // 0.2 g of gas in it, warmed by 10 K over half an hour: the pressure rises by 3.4 %
    let mut test = StandingVacuumTest::new(sea_level(), PressureDifference::from_microns(10.0)).unwrap();
    let mut blind = test.clone();
    for minute in 0..31 {
        let t = Temperature::from_celsius(20.0 + f64::from(minute) / 3.0);
        let p = microns((20_000.0 * t.kelvin() / 293.15 / 10.0).round() * 10.0);
        test.push(Time::from_minutes(f64::from(minute)), p, Some(t)).unwrap();
        blind.push(Time::from_minutes(f64::from(minute)), p, None).unwrap();
    }
    assert_eq!(test.fit().unwrap().finding, VacuumFinding::NoRise);
    assert_eq!(blind.fit().unwrap().finding, VacuumFinding::Leak);
}

// --- the log

#[test]
fn heads_of_hold_logs_that_cannot_be_read() {
    let refused = |head: &[&str]| VacuumLogColumns::read(head.iter().copied()).unwrap_err().to_string();
    assert_eq!(refused(&["time", "absolute [micron]"]), "time: \"time\" has no unit; add one of min, s, h, d, yr");
    assert!(
        refused(&["time [min]", "absolute"]).starts_with("absolute pressure: \"absolute\" has no unit; add one of kPa")
    );
    assert_eq!(
        refused(&["time [min]", "gauge [micron]"]),
        "\"micron\" is absolute pressure, but gauge pressure is asked for: a vacuum gauge in this unit counts from vacuum; \
         subtract the pressure of the surrounding air"
    );
    assert_eq!(
        refused(&["time [min]", "note"]),
        "column absolute, gauge or vacuum is missing: the head must name it with its unit, as in \"time [min],absolute \
         [micron]\""
    );
    assert_eq!(
        refused(&["time [min]", "absolute [micron]", "vacuum [inHg]"]),
        "column \"of the pressure\" stands twice"
    );
    assert!(
        refused(&["when [min]", "absolute [micron]"])
            .starts_with("column \"when [min]\" is not known; known columns: time")
    );
    assert!(refused(&["time [fortnight]", "absolute [micron]"]).contains("\"fortnight\""));
}

#[test]
fn rows_of_hold_logs_that_cannot_be_read() {
    let depth = VacuumLogColumns::read(["time_min", "vacuum_inHg"]).unwrap();
    let refused = |fields: &[&str]| depth.row(fields).unwrap_err().to_string();
    assert_eq!(
        refused(&["1", "-28.5"]),
        "depth of vacuum -28.5 is not possible: it must be zero or more: write it without a sign, or name the column gauge"
    );
    assert_eq!(refused(&["1"]), "1 fields where the head has 2");
    assert!(refused(&["1", "28,500"]).contains("the comma in \"28,500\" is not accepted"));
    assert!(refused(&["1", ""]).contains("does not start with a number"));
    assert!(refused(&["1", "nan"]).contains("is not a finite number"));
    assert!(depth.counts_from_air());
    // a depth is what a gauge shows below zero
    let gauge = VacuumLogColumns::read(["time_min", "gauge_inHg"]).unwrap();
    assert_eq!(depth.row(&["1", "28.5"]).unwrap().pressure, gauge.row(&["1", "-28.5"]).unwrap().pressure);
    let row = depth.row(&["1", "28.50"]).unwrap();
    assert_abs_diff_eq!(row.step.inhg(), 0.01, epsilon = ROUNDING);
    // all readings are multiples of half an inch
    let rows: Vec<_> = ["28.50", "28.00", "27.50", "25.00"].map(|read| depth.row(&["1", read]).unwrap()).to_vec();
    // inches by way of pascal: rounding
    assert_abs_diff_eq!(step(&rows, depth.pressure_unit()).unwrap().inhg(), 0.5, epsilon = 1e-9);
    // readings that never move betray nothing
    // inches by way of pascal: rounding
    assert_abs_diff_eq!(step(&[rows[0], rows[0]], depth.pressure_unit()).unwrap().inhg(), 0.01, epsilon = 1e-9);
    assert!(step(&[], depth.pressure_unit()).is_none());
}

/// What the example of a hold test says of the file it is given.
#[cfg(feature = "serde")]
fn example(words: &[&str]) -> Result<super::examples::hold_test::Answer, String> {
    use clap::Parser;
    let args = super::examples::hold_test::Args::try_parse_from(std::iter::once(&"hold_test").chain(words));
    super::examples::hold_test::answer(&args.unwrap()).map_err(|error| error.to_string())
}

#[cfg(feature = "serde")]
#[test]
fn a_log_is_read_by_lines_and_never_written_over() {
    let folder = std::env::temp_dir().join(format!("satline-hold-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("h.csv");
    let name = path.to_str().unwrap();
    let rows: String = (0..8).map(|minute| format!("{minute},{}\n", 500 + 120 * minute)).collect();
    let text = format!("time [min],absolute [micron]\n{rows}9,{}\n", "1".repeat(100_000));
    std::fs::write(&path, &text).unwrap();
    let answer = example(&["--csv", name]).unwrap();
    assert_eq!(answer.complaints, "line 10: longer than 65536 bytes\n");
    assert!(answer.page.starts_with("Hold test: 8 readings"), "{}", answer.page);
    let refused = example(&["--csv", name, "--html", name]).unwrap_err();
    assert!(refused.starts_with("--html ") && refused.ends_with(" reads; give it another name"), "{refused}");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), text);
    std::fs::remove_dir_all(&folder).unwrap();
}

// --- the page

#[test]
fn the_page_of_every_finding_says_no_leak_never() {
    let curves: [fn(f64) -> f64; 6] = [
        |_| 500.0,
        |minute| 5000.0 - 100.0 * minute,
        |minute| 500.0 + 10.0 * minute * minute,
        |minute| 760_000.0 - 759_000.0 * (-minute / 7.0).exp(),
        |minute| 500.0 + 300.0 * minute,
        |minute| 2500.0 - 2000.0 * (-minute / 5.0).exp(),
    ];
    let volume = Some(Measured::new(Volume::from_l(2.5), Volume::from_l(0.3)).unwrap());
    for curve in curves {
        let fit = exact(21, 10.0, curve);
        for (refrigerant, volume, unit) in [
            (Refrigerant::R1234yf, volume, PressureUnit::Micron),
            (Refrigerant::R134a, None, PressureUnit::InchOfMercury),
        ] {
            let page = report::hold(&fit, &sea_level(), refrigerant, volume, unit).unwrap();
            let text = page.text(80);
            for line in text.lines().skip(1) {
                assert!(line.chars().count() <= 80, "{line}");
            }
            let words = text.split_whitespace().collect::<Vec<_>>().join(" ");
            assert!(words.contains("No hold test shows that there is no leak."), "{words}");
            assert!(!words.contains("NaN") && !words.contains("inf "), "{words}");
            assert_eq!(words.contains("says nothing about the size of a leak"), volume.is_none());
            assert_eq!(page.gates.len(), ACCEPTANCE_LIMITS.len());
        }
    }
    let tight = exact(21, 10.0, |_| 500.0);
    let page = report::hold(&tight, &sea_level(), Refrigerant::R134a, volume, PressureUnit::Micron).unwrap().text(400);
    assert!(page.contains("That is not the same as no leak."), "{page}");
    assert!(page.contains("lets through a leak 2700 times that of 14 g a year"), "{page}");
}

#[test]
fn every_unit_of_pressure_has_its_rate() {
    let fit = exact(21, 10.0, |minute| 500.0 + 300.0 * minute);
    for &unit in PressureUnit::ALL {
        let page = report::hold(&fit, &sea_level(), Refrigerant::R134a, None, unit).unwrap();
        let (rate, value) = (page.figures[0].unit.clone(), page.figures[0].interval.value.unwrap());
        let factor =
            rate.strip_suffix("/min").and_then(|name| satline::quantity::unit_named::<PressureDifference>(name).ok());
        let pa_per_min = value * factor.unwrap_or_else(|| panic!("{rate}")).factor();
        // units there and back on a page of full precision: our choice
        assert!(abs_diff_eq!(pa_per_min / PressureDifference::from_microns(300.0).pa(), 1.0, epsilon = 1e-6), "{rate}");
    }
}

// --- purity

/// Saturation of a container: of a blend anywhere between its two lines.
fn line(refrigerant: Refrigerant, t: Temperature, share: f64) -> f64 {
    let (dew, bubble) = (refrigerant.dew_pressure(t).unwrap().pa(), refrigerant.bubble_pressure(t).unwrap().pa());
    dew + share * (bubble - dew)
}

#[test]
fn air_is_recovered_within_its_uncertainty() {
    const R: f64 = 8.314_462_618;
    let mut random = Random(7);
    let (mut pressures, mut moles, mut masses, mut contents) =
        (Tally::default(), Tally::default(), Tally::default(), Tally::default());
    let mut verdicts = BTreeMap::<String, usize>::new();
    for _ in 0..CASES {
        let refrigerant = loop {
            let any = Refrigerant::ALL[random.between(0.0, Refrigerant::ALL.len() as f64) as usize];
            // a container of R-744 near its critical point is no container of liquid
            if any != Refrigerant::R744 {
                break any;
            }
        };
        let t = Temperature::from_celsius(random.between(-10.0, 45.0));
        let air = random.between(0.0, 1.5) * 1e5;
        let p = line(refrigerant, t, random.between(0.0, 1.0)) + air;
        let u_p = random.spread(0.02e5, 0.2e5);
        let u_t = random.spread(0.1, 1.5);
        let read_p = Pressure::from_pa(p + u_p * random.normal());
        let read_t = Temperature::from_kelvin(t.kelvin() + u_t * random.normal());
        let measured_p = Measured::new(read_p, PressureDifference::from_pa(u_p)).unwrap();
        let measured_t = Measured::new(read_t, TemperatureDifference::from_kelvins(u_t)).unwrap();
        let purity = Purity::of(refrigerant, &measured_p, &measured_t).unwrap();
        pressures.measured(&purity.air, PressureDifference::from_pa(air), 1e5);
        // the truth, from the definition
        let molar_mass = refrigerant.fluid().molar_mass.value.si();
        let (liquid, vapour) = refrigerant.saturated_at_temperature(t).unwrap();
        let (liquid, vapour) = (liquid.density.kg_per_m3(), vapour.density.kg_per_m3());
        let n = air / (R * t.kelvin());
        moles.measured(&purity.mole_share, Ratio::from_fraction(n / (n + vapour / molar_mass)), 1.0);
        let rho = n * 0.028_964_4;
        masses.measured(&purity.mass_share, Ratio::from_fraction(rho / (rho + vapour)), 1.0);
        let (volume, mass) = (0.012, 0.012 * liquid * random.between(0.3, 0.7));
        let truth = rho * (liquid * volume - mass) / (liquid - vapour) / mass;
        let u = |value: f64, random: &mut Random| (value * (1.0 + 0.01 * random.normal()), 0.01 * value);
        let (read_volume, read_mass) = (u(volume, &mut random), u(mass, &mut random));
        let share = purity
            .of_content(
                &Measured::new(Volume::from_m3(read_volume.0), Volume::from_m3(read_volume.1)).unwrap(),
                &Measured::new(Mass::from_kg(read_mass.0), Mass::from_kg(read_mass.1)).unwrap(),
            )
            .unwrap();
        contents.measured(&share, Ratio::from_fraction(truth), 1e-6);
        *verdicts.entry(format!("{:?}", purity.position)).or_default() += 1;
    }
    println!("containers with up to 1.5 bar of air are called {verdicts:?}");
    pressures.holds("partial pressure of air, bar");
    moles.holds("share of molecules");
    masses.holds("share of mass");
    contents.holds("share of the content, ppm");
    assert!(verdicts.get("Below").copied().unwrap_or(0) < 10, "{verdicts:?}");
}

#[test]
fn the_share_of_a_whole_content_is_as_uncertain_as_volume_and_mass() {
    let t = Measured::exact(Temperature::from_celsius(25.0)).unwrap();
    let p = Measured::exact(Pressure::from_kpa(700.0)).unwrap();
    let purity = Purity::of(Refrigerant::R134a, &p, &t).unwrap();
    let share = |u_litres, u_kg| {
        let volume = Measured::new(Volume::from_l(12.0), Volume::from_l(u_litres)).unwrap();
        let mass = Measured::new(Mass::from_kg(10.0), Mass::from_kg(u_kg)).unwrap();
        let share = purity.of_content(&volume, &mass).unwrap();
        share.standard_uncertainty() / share.value()
    };
    // (ρ′V − m)/m, with ρ′V = 1206.7 kg/m³ × 12 L = 14.48 kg (Tillner-Roth & Baehr 1994): 1 % of either is 14.48/4.48 %
    for (u_litres, u_kg, expected) in [(0.12, 0.0, 0.0323), (0.0, 0.1, 0.0323), (0.12, 0.1, 0.0457), (0.0, 0.0, 0.0)] {
        assert_abs_diff_eq!(share(u_litres, u_kg), expected, epsilon = 1e-4); // its last digit
    }
}

#[test]
fn a_pressure_below_saturation_is_no_purity() {
    let at = |bar: f64| {
        Purity::of(
            Refrigerant::R134a,
            &Measured::new(Pressure::from_bar(bar), PressureDifference::from_bar(0.1)).unwrap(),
            &Measured::new(Temperature::from_celsius(25.0), TemperatureDifference::from_kelvins(0.5)).unwrap(),
        )
        .unwrap()
    };
    let [below, same, above] = [5.0, 6.65, 7.5].map(at);
    assert_eq!([below, same, above].map(|p| p.position), [Position::Below, Position::Within, Position::Above]);
    assert!(below.probability.unwrap() > 0.99 && same.probability.is_none() && above.probability.unwrap() > 0.99);
    assert!(report::purity(&below, PressureUnit::Bar)[0].ends_with("This says nothing about air."));
    assert!(
        report::purity(&above, PressureUnit::Psi)[0].contains("psi above saturation of R-134a: air, if the liquid")
    );
    let refused = |bar: f64, celsius: f64, refrigerant: Refrigerant| {
        let t = Measured::exact(Temperature::from_celsius(celsius)).unwrap();
        Purity::of(refrigerant, &Measured::exact(Pressure::from_bar(bar)).unwrap(), &t).unwrap_err()
    };
    assert_eq!(
        refused(0.0, 20.0, Refrigerant::R134a).to_string(),
        "absolute pressure (kPa) 0 is not possible: it must be above zero; check the gauge reading, its sign and unit, and the \
         air pressure used"
    );
    assert!(matches!(refused(70.0, 35.0, Refrigerant::R744), Error::AboveCriticalTemperature { .. }));
    let (litre, kilo) =
        (|l| Measured::exact(Volume::from_l(l)).unwrap(), |kg| Measured::exact(Mass::from_kg(kg)).unwrap());
    let full = above.of_content(&litre(10.0), &kilo(15.0)).unwrap_err().to_string();
    assert_eq!(
        full,
        "mass of refrigerant (kg) 15 is not possible: it must be more than the volume holds as vapour and less than it holds as \
         liquid"
    );
    let negative = above.of_content(&litre(10.0), &kilo(-1.0)).unwrap_err().to_string();
    assert_eq!(negative, "mass of refrigerant (kg) -1 is not possible: it must be above zero");
    let nothing = above.of_content(&litre(-2.5), &kilo(1.0)).unwrap_err().to_string();
    assert_eq!(nothing, "volume of the container (L) -2.5 is not possible: it must be above zero");
    // nor is none of it a volume or a mass
    for (volume, mass, what) in [(0.0, 1.0, "volume of the container"), (10.0, 0.0, "mass of refrigerant")] {
        let none = above.of_content(&litre(volume), &kilo(mass)).unwrap_err().to_string();
        assert!(none.starts_with(what) && none.ends_with("above zero"), "{none}");
    }
}

// --- containers

#[test]
fn container_limits_are_the_regulations_rows() {
    let table = Table::read("service/container-air.csv");
    assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap());
    let [name, f, psi, metric, saturation, difference, provenance] = [
        "refrigerant",
        "temp_F",
        "pressure_psig",
        "pressure_kgf_cm2_printed",
        "p_sat_psig_reference",
        "difference_psi",
        "provenance",
    ]
    .map(|column| table.column(column));
    let (mut rows, mut read) = (0, 0);
    for row in &table.rows {
        let refrigerant: Refrigerant = row[name].parse().unwrap();
        let t = Temperature::from_fahrenheit(row[f].parse().unwrap());
        let printed: f64 = row[psi].parse().unwrap();
        let limit = recovery_cylinder::limit(refrigerant, t).unwrap();
        let exact = Measured::exact(limit).unwrap();
        let trust = recovery_cylinder::check(refrigerant, &exact, &Measured::exact(t).unwrap()).unwrap().source.trust;
        // psi by way of pascal: our choice
        assert!(
            abs_diff_eq!(limit.psi(), printed, epsilon = 1e-6),
            "{refrigerant} {} °F: {} psi, not {printed}",
            row[f],
            limit.psi()
        );
        let expected = if row[provenance].contains("metric value READ") { Trust::Excerpt } else { Trust::FromMemory };
        assert_eq!(trust, expected, "{refrigerant} {} °F", row[f]);
        if !row[metric].is_empty() {
            // the metric print is the psi print times 0.0703, cut and not rounded after two decimals
            let kgf: f64 = row[metric].parse().unwrap();
            let cut = (printed * 7.03 + 1e-6).floor() / 100.0;
            assert!(abs_diff_eq!(cut, kgf, epsilon = 1e-9), "{} °F: {cut} kgf/cm², not {kgf}", row[f]); // rounding
            read += 1;
        }
        // the computed columns, against the crate's lines
        let line = refrigerant.saturation_pressure(t).unwrap().gauge(Pressure::STANDARD_ATMOSPHERE).psi();
        // the columns have two decimals
        assert!(abs_diff_eq!(line, row[saturation].parse::<f64>().unwrap(), epsilon = 0.0101), "{} °F: {line}", row[f]);
        let above: f64 = row[difference].parse().unwrap();
        assert_abs_diff_eq!(printed - line, above, epsilon = 0.0101);
        rows += 1;
    }
    assert_eq!((rows, read), (106, 25));
    for (refrigerant, degrees) in [(Refrigerant::R12, 50), (Refrigerant::R134a, 56)] {
        let counted = table.rows.iter().filter(|row| row[name] == refrigerant.designation()).count();
        assert_eq!(counted, degrees);
    }
}

#[test]
fn the_bump_of_the_r12_column_is_kept() {
    let above = |f: f64| {
        let t = Temperature::from_fahrenheit(f);
        let line = Refrigerant::R12.saturation_pressure(t).unwrap().gauge(Pressure::STANDARD_ATMOSPHERE);
        recovery_cylinder::limit(Refrigerant::R12, t).unwrap().psi() - line.psi()
    };
    assert!(
        above(81.0) > 12.0 && above(75.0) < 10.5 && above(86.0) < 10.5,
        "{} {} {}",
        above(81.0),
        above(75.0),
        above(86.0)
    );
    // between rows: the straight line between them
    let t = Temperature::from_fahrenheit(79.25);
    let limit = recovery_cylinder::limit(Refrigerant::R12, t).unwrap();
    assert_abs_diff_eq!(limit.psi(), 94.5, epsilon = 1e-9); // rounding
    let trust = |f: f64| {
        let t = Temperature::from_fahrenheit(f);
        let limit = Measured::exact(recovery_cylinder::limit(Refrigerant::R12, t).unwrap()).unwrap();
        recovery_cylinder::check(Refrigerant::R12, &limit, &Measured::exact(t).unwrap()).unwrap().source.trust
    };
    // one of its two rows is from memory: the lower, the upper
    assert_eq!([79.25, 74.5].map(trust), [Trust::FromMemory; 2]);
    assert_eq!([73.5, 74.0, 80.0].map(trust), [Trust::Excerpt; 3]);
}

#[test]
fn containers_keep_exceed_or_leave_it_open() {
    let check = |psi: f64, u: f64| {
        let gauge = Measured::new(GaugePressure::from_psi(psi), PressureDifference::from_psi(u)).unwrap();
        let t = Measured::new(Temperature::from_fahrenheit(80.0), TemperatureDifference::from_fahrenheit_steps(1.0))
            .unwrap();
        recovery_cylinder::check(Refrigerant::R134a, &gauge, &t).unwrap()
    };
    // limit 91 psi
    assert_eq!(
        [80.0, 91.0, 100.0].map(|psi| check(psi, 1.0).outcome),
        [AcceptanceOutcome::Passes, AcceptanceOutcome::Open, AcceptanceOutcome::Fails]
    );
    assert_abs_diff_eq!(check(91.0, 1.0).probability_kept, 0.5, epsilon = 1e-9); // rounding
    // (93 − 90)/2 psi from one °F on either side
    assert_abs_diff_eq!(check(91.0, 1.0).limit.standard_uncertainty().psi(), 1.5, epsilon = 1e-9); // rounding
    assert_eq!(check(91.0, 1.0).source.trust, Trust::FromMemory);
    let exact = Measured::exact(GaugePressure::from_psi(91.0)).unwrap();
    let at = Measured::exact(Temperature::from_fahrenheit(80.0)).unwrap();
    let kept = recovery_cylinder::check(Refrigerant::R134a, &exact, &at).unwrap();
    assert_eq!((kept.outcome, kept.probability_kept), (AcceptanceOutcome::Passes, 1.0));
    for (refrigerant, f, ends) in
        [(Refrigerant::R12, 115.0, "65.0 to 114.0"), (Refrigerant::R134a, 64.0, "65.0 to 120.0")]
    {
        let refused = recovery_cylinder::limit(refrigerant, Temperature::from_fahrenheit(f)).unwrap_err().to_string();
        assert_eq!(
            refused,
            format!("temperature of the container {f:.1} °F is outside {ends} °F, the range of validity")
        );
    }
    let none = recovery_cylinder::limit(Refrigerant::R1234yf, Temperature::from_fahrenheit(80.0));
    assert!(matches!(none, Err(Error::Missing { .. })));
}

#[test]
fn both_ends_of_the_container_columns_are_answered() {
    for (refrigerant, last) in [(Refrigerant::R12, 114.0), (Refrigerant::R134a, 120.0)] {
        let step = TemperatureDifference::from_fahrenheit_steps(0.5);
        let gauge = Measured::exact(GaugePressure::from_psi(50.0)).unwrap();
        for f in [65.0, last] {
            let t = Measured::new(Temperature::from_fahrenheit(f), step).unwrap();
            assert!(recovery_cylinder::check(refrigerant, &gauge, &t).is_ok(), "{refrigerant} {f} °F");
        }
    }
}

#[test]
fn limits_of_air_are_the_tables_and_from_memory() {
    let table = Table::read("service/purity.csv");
    assert_eq!(table.rows.len().to_string(), table.fact("rows").unwrap());
    let [applies, quantity, limit, provenance] =
        ["applies_to", "quantity", "limit", "provenance"].map(|name| table.column(name));
    for (fact, of) in [(RECYCLED_AIR, "R-134a and R-1234yf recycled"), (RECYCLED_AIR_R12, "R-12 recycled")] {
        let row = table
            .rows
            .iter()
            .find(|row| row[applies] == of && row[quantity] == "non-condensables (air)")
            .unwrap_or_else(|| panic!("{of}"));
        // rounding
        assert_abs_diff_eq!(fact.value.fraction() * 1e6, row[limit].parse::<f64>().unwrap(), epsilon = 1e-9);
        assert_eq!((row[provenance].as_str(), fact.source.trust), ("from memory", Trust::FromMemory));
    }
}

// --- which refrigerant

#[test]
fn the_refrigerant_inside_is_among_those_that_fit() {
    let mut random = Random(8);
    let (mut possible, mut first, mut several, mut compared) = (0, 0, 0, 0);
    for _ in 0..CASES {
        let refrigerant = Refrigerant::ALL[random.between(0.0, Refrigerant::ALL.len() as f64) as usize];
        let count = random.between(1.0, 5.0) as usize;
        let (u_p, u_t) = (random.spread(0.02e5, 0.15e5), random.spread(0.2, 1.0));
        let (s_p, s_t) = (random.spread(0.02e5, 0.15e5), random.spread(0.2, 1.0));
        let (off_p, off_t) = (s_p * random.normal(), s_t * random.normal());
        let share = random.between(0.0, 1.0);
        let pairs: Vec<StaticReading> = (0..count)
            .map(|_| {
                let hottest = if refrigerant == Refrigerant::R744 { 22.0 } else { 40.0 };
                let t = random.between(-5.0, hottest);
                let p = line(refrigerant, Temperature::from_celsius(t), share);
                let read_t = Temperature::from_celsius(t + off_t + u_t * random.normal());
                let read_p = Pressure::from_pa(p + off_p + u_p * random.normal());
                StaticReading {
                    pressure: Measured::new(read_p, PressureDifference::from_pa(u_p)).unwrap(),
                    temperature: Measured::new(read_t, TemperatureDifference::from_kelvins(u_t)).unwrap(),
                }
            })
            .collect();
        let common = (PressureDifference::from_pa(s_p), TemperatureDifference::from_kelvins(s_t));
        let ranking = RefrigerantIdentification::of(&pairs, common).unwrap();
        let fits: Vec<Refrigerant> = ranking.possible().map(|fit| fit.refrigerant).collect();
        possible += usize::from(fits.contains(&refrigerant));
        first += usize::from(ranking.candidates[0].refrigerant == refrigerant);
        several += usize::from(fits.len() > 1);
        compared += 1;
        let shares: f64 = ranking.candidates.iter().map(|candidate| candidate.posterior.fraction()).sum();
        assert_abs_diff_eq!(shares, 1.0, epsilon = 1e-9); // rounding
    }
    println!(
        "of {compared} resting circuits the refrigerant fits in {possible}, ranks first in {first}; several fit in {several}"
    );
    assert!((INSIDE..CASES).contains(&possible), "{possible}");
    assert!(first > 700, "{first}");
}

/// A refrigerant whose line a pair meets exactly is neither below nor above it.
#[test]
fn a_pair_on_the_line_is_on_neither_side() {
    let t = Temperature::from_celsius(20.0);
    let on_line = StaticReading {
        pressure: Measured::new(Refrigerant::R134a.saturation_pressure(t).unwrap(), PressureDifference::from_bar(0.05))
            .unwrap(),
        temperature: Measured::new(t, TemperatureDifference::from_kelvins(0.3)).unwrap(),
    };
    let found = RefrigerantIdentification::of(&[on_line], INDEPENDENT).unwrap();
    assert_eq!(found.candidates[0].refrigerant, Refrigerant::R134a);
    assert!(!found.lower.contains(&Refrigerant::R134a) && !found.higher.contains(&Refrigerant::R134a), "{found:?}");
    assert!(found.lower.contains(&Refrigerant::R12) || found.higher.contains(&Refrigerant::R12), "{found:?}");
}

#[test]
fn mixtures_are_said_to_be_possible_and_never_named() {
    let pair = |bar, celsius| StaticReading {
        pressure: Measured::new(Pressure::from_bar(bar), PressureDifference::from_bar(0.05)).unwrap(),
        temperature: Measured::new(Temperature::from_celsius(celsius), TemperatureDifference::from_kelvins(0.3))
            .unwrap(),
    };
    // between R-134a and R-22, where no line of the catalogue runs
    let odd = RefrigerantIdentification::of(&[pair(7.4, 20.0), pair(10.0, 30.0)], INDEPENDENT).unwrap();
    let words = report::identity(&odd);
    assert!(odd.possible().next().is_none(), "{words:?}");
    assert!(words[0].starts_with("No refrigerant of the catalogue fits; "), "{words:?}");
    assert!(words[1].starts_with("A mixture is possible and cannot be excluded"), "{words:?}");
    // one that fits is not said to be it
    let fits = RefrigerantIdentification::of(&[pair(5.72, 20.0), pair(1.64, -15.0)], INDEPENDENT).unwrap();
    let words = report::identity(&fits);
    assert!(words[0].starts_with("Of the catalogue only R-134a fits"), "{words:?}");
    assert!(words[1].contains("mixture is possible and cannot be excluded"), "{words:?}");
    // at 35 °C R-744 has no saturation pressure: said, not dropped
    let hot = RefrigerantIdentification::of(&[pair(8.87, 35.0)], INDEPENDENT).unwrap();
    assert!(
        hot.not_compared
            .iter()
            .any(|(r, error)| *r == Refrigerant::R744 && matches!(error, Error::AboveCriticalTemperature { .. }))
    );
    assert!(report::identity(&hot).last().unwrap().contains("R-744"));
}

#[test]
fn pairs_that_say_nothing_are_refused() {
    let exact = StaticReading {
        pressure: Measured::exact(Pressure::from_bar(5.7)).unwrap(),
        temperature: Measured::exact(Temperature::from_celsius(20.0)).unwrap(),
    };
    let refused = |pairs: &[StaticReading]| RefrigerantIdentification::of(pairs, INDEPENDENT).unwrap_err().to_string();
    assert_eq!(
        refused(&[]),
        "0 pairs of pressure and temperature, and at least 1 are needed: read both with the circuit at rest; pairs at two \
         temperatures tell more than two at one"
    );
    assert_eq!(
        refused(&[exact]),
        "pair 1: standard uncertainty of pressure and temperature 0 is not possible: it must be above zero for one of them: no \
         instrument is exact"
    );
    let read = Measured::new(Temperature::from_celsius(20.0), TemperatureDifference::from_kelvins(0.5)).unwrap();
    let vacuum = StaticReading { pressure: Measured::exact(Pressure::from_bar(-0.2)).unwrap(), temperature: read };
    assert_eq!(refused(&[vacuum]), "pair 1: absolute pressure (kPa) -20 is not possible: it must be above zero");
    let hot = StaticReading {
        temperature: Measured::new(Temperature::from_celsius(500.0), TemperatureDifference::from_kelvins(1.0)).unwrap(),
        ..exact
    };
    assert!(refused(&[hot]).contains("above its critical temperature"));
}
