//! The page about a hold test: what the rise says, how it stands to the published gates, and what that proves.

use super::amount::nine_digits;
use super::{Amount, Text};
use crate::quantity::{PressureRate, PressureUnit, Unit};
use crate::service::Interval;
use crate::service::acceptance::{GATES, Gate, Judged, Limit, Outcome};
use crate::service::leak_throughput::{DETECTOR_SCALES, refrigerant_in, throughput};
use crate::service::standing_vacuum::{BesideWater, CHOKED, Finding, HoldFit};
use crate::{Error, Measured, Pressure, Quantity, Refrigerant, Source, Temperature, Volume, air};

/// The version of the JSON form; it changes whenever a field changes its name or meaning.
pub const HOLD_SCHEMA: &str = "satline-hold-2";

/// Temperature at which a flow of gas is counted where none was measured.
const ROOM: Temperature = Temperature::from_celsius(20.0);

/// Neighbours that count for less than one and a half are not worth a word: half of all tests show as much by chance.
const NOTICEABLE_VARIANCE_INFLATION: f64 = 1.5;

/// What is known of the circuit that was held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Circuit {
    /// Its volume, hoses and gauges included; without it a rise says nothing about a flow.
    pub volume: Option<Measured<Volume>>,
    /// What it will be filled with, for the comparison in grams.
    pub refrigerant: Refrigerant,
    /// In which unit pressures are written.
    pub unit: PressureUnit,
}

/// A page about one hold test.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct HoldReport {
    /// [`HOLD_SCHEMA`].
    #[cfg_attr(feature = "serde", serde(deserialize_with = "super::schema::hold"))]
    #[cfg_attr(feature = "schema", schemars(with = "String", extend("const" = HOLD_SCHEMA)))]
    pub schema: Text,
    /// What the rise says.
    pub finding: Finding,
    /// What the page is about, in sentences.
    pub opening: Vec<String>,
    /// What was fitted.
    pub figures: Vec<FigureRow>,
    /// The published gates.
    pub gates: Vec<GateRow>,
    /// What it means, in sentences.
    pub meaning: Vec<String>,
    /// What a pass proves, in sentences.
    pub proof: Vec<String>,
    /// What to do next.
    pub next: Vec<String>,
    /// What can hurt.
    pub cautions: Vec<String>,
    /// Where the numbers come from.
    pub sources: Vec<String>,
}

/// A figure with its 95 % interval; an end that the readings leave open is none.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct FigureRow {
    /// What it is.
    pub name: Text,
    /// The best value, both ends, and the unit of all three.
    pub interval: Interval<f64>,
    /// Unit.
    pub unit: Text,
    /// Digits after the point; below zero that many digits before it are not worth writing.
    pub decimals: i8,
    /// A figure that has no interval, not one whose ends are open.
    pub alone: bool,
}

/// One gate.
#[derive(Debug, Clone, PartialEq)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(deny_unknown_fields))]
pub struct GateRow {
    /// The gate's short name.
    pub gate: Text,
    /// How the test stands to it.
    pub outcome: Outcome,
    /// What was set against it.
    #[cfg_attr(feature = "serde", serde(default, skip_serializing_if = "Option::is_none"))]
    pub seen: Option<FigureRow>,
    /// The time judged.
    pub over: Amount,
    /// What it rests on.
    pub source: String,
}

/// The page about `fit`.
///
/// # Errors
/// [`Error::Impossible`] for a volume that is not above zero.
pub fn hold(fit: &HoldFit, air: &Measured<Pressure>, circuit: &Circuit) -> Result<HoldReport, Error> {
    let judged = GATES.iter().map(|gate| Gate::judge(gate, fit)).collect::<Result<Vec<_>, _>>()?;
    Ok(HoldReport {
        schema: HOLD_SCHEMA.into(),
        finding: fit.finding,
        opening: opening(fit, air, circuit),
        figures: figures(fit, circuit)?,
        gates: judged.iter().map(|judged| gate_row(judged, circuit.unit)).collect(),
        meaning: meaning(fit, circuit)?,
        proof: proof(fit, &judged, circuit)?,
        next: next(fit),
        cautions: cautions(),
        sources: sources(fit),
    })
}

impl FigureRow {
    pub(super) fn new(name: &'static str, interval: Interval<f64>, unit: &'static str) -> Self {
        let decimals = decimals(&interval);
        Self { name: name.into(), interval: interval.map(nine_digits), unit: unit.into(), decimals, alone: false }
    }
    /// Without an interval.
    pub(super) fn alone(name: &'static str, value: f64, unit: &'static str) -> Self {
        Self { alone: true, ..Self::new(name, Interval { value: Some(value), low: None, high: None }, unit) }
    }
    pub(super) fn number(&self, value: f64) -> String {
        let text = match usize::try_from(self.decimals) {
            Ok(decimals) => format!("{value:.decimals$}"),
            Err(_) => {
                let worth = 10f64.powi(-i32::from(self.decimals));
                format!("{:.0}", (value / worth).round() * worth)
            }
        };
        // -0.0 after rounding reads as a misprint
        if text.trim_start_matches('-').chars().all(|c| c == '0' || c == '.') {
            text.trim_start_matches('-').to_owned()
        } else {
            text
        }
    }
    pub(super) fn best(&self) -> String {
        self.interval
            .value
            .map_or("open".to_owned(), |value| format!("{} {}", self.number(value), self.unit).trim_end().to_owned())
    }
    pub(super) fn span(&self) -> String {
        let end = |end: Option<f64>| end.map(|value| self.number(value));
        match (end(self.interval.low), end(self.interval.high)) {
            (Some(low), Some(high)) => format!("{low} to {high} {}", self.unit).trim_end().to_owned(),
            (Some(low), None) => format!("{low} {} or more", self.unit),
            (None, Some(high)) => format!("{high} {} or less", self.unit),
            (None, None) if self.alone => String::new(),
            (None, None) => "open".to_owned(),
        }
    }
}

/// Decimals that show half the width of an interval with two digits, of an open one the value with three.
fn decimals(interval: &Interval<f64>) -> i8 {
    let size = match (interval.low, interval.high, interval.value) {
        (Some(low), Some(high), _) if high > low => 0.5 * (high - low),
        (_, _, Some(value)) if value != 0.0 => 0.1 * value.abs(),
        _ => 1.0,
    };
    (1.0 - size.log10().floor()).clamp(-9.0, 6.0) as i8
}

/// The outcome in a word.
pub(super) fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Passes => "passes",
        Outcome::Fails => "fails",
        Outcome::Open => "open",
        Outcome::TooShort => "too short",
    }
}

/// A rate is written per minute in the unit of the pressures.
pub(super) fn per_minute(unit: PressureUnit) -> (f64, &'static str) {
    let symbol = match unit {
        PressureUnit::Micron => "micron/min",
        PressureUnit::Torr => "Torr/min",
        PressureUnit::InchOfMercury => "inHg/min",
        PressureUnit::Hectopascal => "hPa/min",
        PressureUnit::Pascal => "Pa/min",
        PressureUnit::Psi => "psi/min",
        PressureUnit::Bar => "bar/min",
        _ => return (1e3 / 60.0, "kPa/min"),
    };
    (unit.factor() / 60.0, symbol)
}

fn rate_row(name: &'static str, rate: &Interval<PressureRate>, unit: PressureUnit) -> FigureRow {
    let (factor, symbol) = per_minute(unit);
    FigureRow::new(name, rate.map(|rate| rate.pa_per_s() / factor), symbol)
}

fn pressure_row(name: &'static str, pressure: &Interval<Pressure>, unit: PressureUnit) -> FigureRow {
    FigureRow::new(name, pressure.map(|p| p.value_in(unit)), unit.symbol())
}

fn opening(fit: &HoldFit, air: &Measured<Pressure>, circuit: &Circuit) -> Vec<String> {
    let unit = circuit.unit;
    let read = |p: Pressure| {
        let row = FigureRow::alone("", p.value_in(unit), unit.symbol());
        row.number(p.value_in(unit))
    };
    let mut opening = vec![format!(
        "Hold test: {} readings over {:.1} min, from {} to {} {} absolute.",
        fit.readings,
        fit.length.minutes(),
        read(fit.first),
        read(fit.last),
        unit.symbol()
    )];
    let volume = match &circuit.volume {
        Some(volume) if volume.standard_uncertainty().si() > 0.0 => {
            format!("Circuit of {:.2} ± {:.2} L", volume.value().l(), volume.expanded().l())
        }
        Some(volume) => format!("Circuit of {:.2} L, taken as exact", volume.value().l()),
        None => "Volume of the circuit not given".to_owned(),
    };
    opening.push(format!(
        "{volume}. Surrounding air {:.1} ± {:.1} kPa. Intervals are 95 %.",
        air.value().kpa(),
        air.expanded().kpa()
    ));
    opening
}

fn figures(fit: &HoldFit, circuit: &Circuit) -> Result<Vec<FigureRow>, Error> {
    let unit = circuit.unit;
    let mut rows = vec![rate_row("rise, taken for straight", &fit.straight.rate, unit)];
    if let Some(levelling) = &fit.levelling {
        rows.push(pressure_row("levels at, taken for levelling", &levelling.end, unit));
        rows.push(FigureRow::new("time constant, the same", levelling.time_constant.map(|t| t.minutes()), "min"));
    }
    if let (Finding::Moisture | Finding::LeakAndMoisture, Some(beside)) = (fit.finding, &fit.beside) {
        rows.push(rate_row("straight rise beside it", beside, unit));
    }
    // where nothing moves, nothing bends
    if fit.finding != Finding::NoRise {
        rows.push(FigureRow::new("bend (0 straight, 1 or more levels off)", fit.bend, ""));
    }
    let (factor, symbol) = per_minute(unit);
    if let Some(seen) = fit.smallest_seen {
        rows.push(FigureRow::alone("smallest rise these readings show", seen.pa_per_s() / factor, symbol));
    }
    rows.push(FigureRow::alone("scatter of the readings", fit.scatter.value_in(unit), unit.symbol()));
    let leaks = matches!(fit.finding, Finding::Leak | Finding::LeakAndMoisture);
    if let (true, Some(rate), Some(volume)) = (leaks, fit.leak_rate(), &circuit.volume) {
        let flow = throughput(&rate, volume)?;
        rows.push(FigureRow::new("flow of gas", flow.map(|q| q.pa_l_per_s()), "Pa L/s"));
        let t = fit.temperature.unwrap_or(ROOM);
        let grams = flow.map(|q| refrigerant_in(q, circuit.refrigerant, t).g_per_year());
        rows.push(FigureRow::new("as much gas of refrigerant", grams, "g/yr"));
    }
    Ok(rows)
}

fn gate_row(judged: &Judged, unit: PressureUnit) -> GateRow {
    let name = match judged.gate.value.limit {
        Limit::Rise(_) => "rise",
        Limit::StaysBelow(_) => "stands at",
    };
    let seen = judged.seen.map(|seen| FigureRow::new(name, seen.map(|p| p.value_in(unit)), unit.symbol()));
    GateRow {
        gate: judged.gate.value.name.into(),
        outcome: judged.outcome,
        seen,
        over: Amount::new(judged.over.minutes(), None, "min", 1),
        source: judged.gate.source.to_string(),
    }
}

/// A flow in a sentence: as pressure × volume, and as grams a year.
fn as_flow(rate: PressureRate, circuit: &Circuit, fit: &HoldFit) -> Result<Option<String>, Error> {
    let Some(volume) = &circuit.volume else { return Ok(None) };
    let rate = Interval { value: Some(rate), low: Some(rate), high: Some(rate) };
    let Some(flow) = throughput(&rate, volume)?.high else { return Ok(None) };
    let lost = refrigerant_in(flow, circuit.refrigerant, fit.temperature.unwrap_or(ROOM)).g_per_year();
    let mass = if lost < 1000.0 { format!("{} g", digits(lost)) } else { format!("{} kg", digits(lost / 1000.0)) };
    Ok(Some(format!("{} Pa L/s, as much gas as {mass} of {} a year", digits(flow.pa_l_per_s()), circuit.refrigerant)))
}

/// Two digits.
pub(super) fn digits(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let place = value.abs().log10().floor() as i32 - 1;
    let scale = 10f64.powi(place);
    format!("{:.*}", usize::try_from(-place).unwrap_or(0), (value / scale).round() * scale)
}

fn meaning(fit: &HoldFit, circuit: &Circuit) -> Result<Vec<String>, Error> {
    let mut words = vec![match fit.finding {
        Finding::NoRise => "No rise that these readings could show. That is not the same as no leak.",
        Finding::Falling => {
            "The pressure falls: a pump still pulls, the circuit cools, or drier and oil take up vapour. This is no hold test \
             yet."
        }
        Finding::Leak => {
            "The pressure rises in a straight line, as it does when air enters: a leak, in the circuit or in hoses, \
             couplers and gauges. A rise that levels off within the length of this test is excluded."
        }
        Finding::Moisture => {
            "The rise levels off, as it does when water evaporates, or when refrigerant leaves the oil: the two level \
             alike. A straight rise alone is excluded."
        }
        Finding::LeakAndMoisture => {
            "The rise levels off onto a straight one: something evaporates, water or refrigerant out of the oil, and air \
             enters too. Either alone is excluded."
        }
        Finding::OpenToAir => {
            "The pressure climbs towards that of the air: a large leak, or a valve left open. Its curve bends because less \
             air enters the less vacuum is left, and says nothing about moisture."
        }
        Finding::SpeedsUp => {
            "The rise grows faster and faster. Neither a leak nor moisture does that: the circuit warms up, a valve creeps \
             open, or the gauge drifts."
        }
        Finding::CannotTell => {
            "The pressure rises, but these readings fit a leak and moisture alike: the rise is as well straight as on its \
             way to a level."
        }
    }
    .to_owned()];
    if let Some(beside) = fit.beside_water() {
        words.push(
            match beside {
                BesideWater::Below => {
                    "It levels below the saturation pressure of water at this temperature: no wet water is left, and what \
                     evaporates comes out of drier, oil or hoses, or is refrigerant."
                }
                BesideWater::At => {
                    "It levels where water saturates at this temperature, within what temperature and fit are worth: water \
                     may still be wet inside."
                }
                BesideWater::Above => {
                    "It levels above what water can reach at this temperature: it is not water alone, but refrigerant out \
                     of the oil, or air that enters too."
                }
            }
            .to_owned(),
        );
    }
    let (factor, symbol) = per_minute(circuit.unit);
    if let Some(most) = fit.leak_at_most().filter(|most| most.si() > 0.0) {
        let row = FigureRow::alone("", most.pa_per_s() / factor, symbol);
        let flow = as_flow(most, circuit, fit)?.map_or(String::new(), |flow| format!(", that is {flow}"));
        words.push(match fit.finding {
            Finding::Moisture => format!("Beside it a leak of up to {} could hide{flow}.", row.best()),
            _ => format!("The leak is at most {}{flow}.", row.best()),
        });
    }
    if fit.variance_inflation > NOTICEABLE_VARIANCE_INFLATION {
        words.push(format!(
            "Neighbouring readings resemble each other, as when the temperature wanders: {:.1} of them count as one, and the \
             intervals are wider for it.",
            fit.variance_inflation
        ));
    }
    if circuit.volume.is_none() {
        words.push("Without the volume of the circuit the rise says nothing about the size of a leak.".to_owned());
    }
    Ok(words)
}

fn proof(fit: &HoldFit, judged: &[Judged], circuit: &Circuit) -> Result<Vec<String>, Error> {
    let mut words = Vec::new();
    let (factor, symbol) = per_minute(circuit.unit);
    if let Some(smallest) = fit.smallest_seen {
        let seen = FigureRow::alone("", smallest.pa_per_s() / factor, symbol);
        let flow = as_flow(smallest, circuit, fit)?.map_or(String::new(), |flow| format!(": {flow}"));
        words.push(format!("The slowest straight rise this test could have shown is {}{flow}.", seen.best()));
    }
    let [.., coarsest] = DETECTOR_SCALES.value;
    if let Some(volume) = &circuit.volume {
        let t = fit.temperature.unwrap_or(ROOM);
        for judged in judged.iter().filter(|judged| judged.outcome == Outcome::Passes) {
            let times = judged.gate.value.times_a_service_leak(volume, circuit.refrigerant, t)?;
            words.push(format!(
                "The gate \"{}\" lets through a leak {} times that of {:.0} g a year, the coarsest scale of a service \
                 detector.",
                judged.gate.value.name,
                digits(times),
                coarsest.g_per_year()
            ));
        }
    }
    words.push(
        "No hold test shows that there is no leak. It also pulls where refrigerant will push: seals that leak outwards can \
         hold under vacuum. Flows are compared as gas, mole for mole; through the same hole refrigerant under pressure loses \
         more than air under vacuum brings in."
            .to_owned(),
    );
    Ok(words)
}

fn next(fit: &HoldFit) -> Vec<String> {
    let mut next = Vec::new();
    match fit.finding {
        Finding::NoRise => {
            next.push("Check with an electronic detector or dye once the circuit is charged, at the scale that is asked for.");
        }
        Finding::Falling => next.push("Shut the pump off at the gauges, let temperatures level, and start again."),
        Finding::Leak | Finding::OpenToAir => {
            next.push("Hold hoses and gauges alone, with the couplers closed: they leak as often as the circuit.");
            next.push(
                "Find the place under pressure: dry nitrogen or an allowed tracer gas, never compressed air; then repair, \
                 evacuate and hold again.",
            );
        }
        Finding::Moisture => {
            next.push(
                "Evacuate again, longer, with the parts warm; a break of the vacuum with dry nitrogen carries vapour out. \
                 One manual evacuates three times for 30 min where moisture was found.",
            );
            next.push("A circuit that stood open for days needs a new drier before it is evacuated (three manuals).");
        }
        Finding::LeakAndMoisture => {
            next.push("Hold hoses and gauges alone, with the couplers closed, then repair what leaks: drying comes after.");
        }
        Finding::SpeedsUp => next.push("Note the temperature of the circuit with every reading, close every valve and repeat."),
        Finding::CannotTell => next.push(
            "Hold longer: two or three times as long tells a straight rise from one that levels. Note the temperature with \
             every reading.",
        ),
    }
    if fit.temperature.is_none() {
        next.push("A temperature with every reading would take the weather of the workshop out, and show whether it is water.");
    }
    next.into_iter().map(str::to_owned).collect()
}

/// What can hurt under vacuum: common practice of service manuals, in our own words.
fn cautions() -> Vec<String> {
    [
        "Never run a compressor under vacuum, and never switch on an electric one: it has neither oil flow nor insulation \
         there.",
        "Never test with compressed air: even R-134a can burn in air at raised pressure.",
        "Goggles and gloves wherever a line is opened: oil may still give off refrigerant.",
        "Recover before you evacuate: letting refrigerant out is illegal in many places.",
        "The maker's own figures for this car, local rules and licensed practice go before this page.",
    ]
    .map(str::to_owned)
    .to_vec()
}

fn sources(fit: &HoldFit) -> Vec<String> {
    let mut sources: Vec<String> = Vec::new();
    let mut add = |source: &Source| {
        let line = source.to_string();
        if !sources.contains(&line) {
            sources.push(line);
        }
    };
    for gate in &GATES {
        add(&gate.source);
    }
    add(&DETECTOR_SCALES.source);
    if fit.beside_water().is_some() {
        add(&air::water::LIQUID);
    }
    if fit.finding == Finding::OpenToAir {
        add(&CHOKED.source);
    }
    sources
}
