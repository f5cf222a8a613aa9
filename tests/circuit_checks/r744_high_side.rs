//! the high side that gives the best COP, by the model and by the published correlations.

use std::sync::LazyLock;

use satline::circuit::Expansion;

use super::*;

/// The correlations of `r744-high-side.csv`, bar absolute, of ambient, evaporating and outlet temperature in °C.
type Correlation = fn(f64, f64, f64) -> f64;
const CORRELATIONS: [(&str, Correlation); 4] = [
    ("Kauf 1999", |ambient, _, _| 2.6 * ambient + 7.54),
    ("Liao, Zhao & Jakobsen 2000", |_, te, tc| (2.778 - 0.0157 * te) * tc + (0.381 * te - 9.34)),
    ("Sarkar et al. 2004", |_, te, tc| 4.9 + 2.256 * tc - 0.17 * te + 0.002 * tc * tc),
    ("Chen & Gu 2005", |_, _, tc| 2.68 * tc - 6.797),
];

/// The best point of a car.
enum Best {
    /// COP has a highest point within the pressures asked.
    Inside(Point),
    /// It still rises towards the lowest pressure that the valve can be set to.
    Below(Point),
    /// It still rises at the last steady state.
    Above(Point),
}

struct Point {
    /// Gas cooler, bar absolute.
    bar: f64,
    cop: f64,
    evaporating: f64,
    outlet: f64,
    /// COP at the pressure Liao et al. ask for, over that of this point; none where it is not crossed.
    at_liao: Option<f64>,
}

/// The top of the parabola through three points.
fn parabola([(xa, ya), (xb, yb), (xc, yc)]: [(f64, f64); 3]) -> (f64, f64) {
    // Newton's form: y = ya + s (x − xa) + c (x − xa)(x − xb)
    let s = (yb - ya) / (xb - xa);
    let c = ((yc - yb) / (xc - xb) - s) / (xc - xa);
    let x = 0.5 * (xa + xb) - 0.5 * s / c;
    (x, ya + s * (x - xa) + c * (x - xa) * (x - xb))
}

/// The best of the car over the factor of its valve.
fn best(mut car: Circuit, operation: &OperatingPoint) -> Best {
    // the limit would hide the best point on a hot day
    car.high_limit_pa = 2.0e7;
    // read behind the gas cooler
    car.lines.high_port = 0.0;
    let bar = |s: &SteadyState| s.high_side.absolute(operation.air).kpa() / 100.0;
    let mut states: Vec<SteadyState> = Vec::new();
    for i in 0..=30 {
        car.expansion = Expansion::HighSide { factor: 0.80 + 0.015 * f64::from(i), yields_k: f64::INFINITY };
        // below its floor the valve holds the same pressure for every factor
        states.extend(run(&car, operation).filter(|s| states.last().is_none_or(|last| bar(s) > bar(last) + 0.3)));
    }
    let cop = |s: &SteadyState| s.coefficient_of_performance();
    let highest = (0..states.len()).max_by(|a, b| cop(&states[*a]).total_cmp(&cop(&states[*b]))).unwrap();
    // the pressure that Liao et al. ask for where the circuit then is
    let liao = |s: &SteadyState| CORRELATIONS[1].1(0.0, s.evaporating.celsius(), s.liquid_line.celsius()) - bar(s);
    let at_liao = states.windows(2).find(|w| liao(&w[0]) >= 0.0 && liao(&w[1]) < 0.0).map(|w| {
        let part = liao(&w[0]) / (liao(&w[0]) - liao(&w[1]));
        cop(&w[0]) + part * (cop(&w[1]) - cop(&w[0]))
    });
    let point = |bar: f64, cop: f64, s: &SteadyState| Point {
        bar,
        cop,
        evaporating: s.evaporating.celsius(),
        outlet: s.liquid_line.celsius(),
        at_liao: at_liao.map(|at| at / cop),
    };
    let plain = |s: &SteadyState| point(bar(s), cop(s), s);
    if highest == 0 {
        return Best::Below(plain(&states[0]));
    }
    if highest + 1 == states.len() {
        return Best::Above(plain(&states[highest]));
    }
    let around = [highest - 1, highest, highest + 1].map(|i| (bar(&states[i]), cop(&states[i])));
    let (at, top) = parabola(around);
    Best::Inside(point(at, top, &states[highest]))
}

/// Air from the cabin, °C.
const CABIN: f64 = 27.0;
/// A gas cooler with air enough: the correlations end at 60 °C.
const RUNNING: Settings = Settings {
    engine: EngineSpeed::Rpm(900.0),
    motion: Motion::Driving(50.0),
    intake: Intake::Fresh,
    blower: Ratio::from_fraction(0.5),
};

pub static CHAPTER: LazyLock<Chapter> = LazyLock::new(|| {
    let mut rows = Vec::new();
    for exchanger in [false, true] {
        for ambient in [35.0, 40.0, 45.0, 50.0] {
            rows.extend(compare(ambient, exchanger));
        }
    }
    rows.extend(ideal());
    let reached = vec![
        format!(
            "The best pressure of the typical car within a tenth of the correlation: without internal exchanger {}, with one \
             {}. Asked for is the comparison; there is no bar.",
            share(count(&rows, |row| row.conditions.contains("without internal"))),
            share(count(&rows, |row| row.conditions.contains("with internal"))),
        ),
        format!(
            "The ideal cycle against the note of the table: {}.",
            share(count(&rows, |row| row.conditions.contains("ideal")))
        ),
    ];
    Chapter {
        title: "R-744: the high side of the best COP",
        text: "Typical car with external control, compressor at full stroke, driving at 50 km/h, engine at 900 rpm, air of 27 °C and \
               50 % from the cabin, blower at half, high-pressure limit lifted; the pressure its valve holds is varied from 0.80 to 1.25 of the \
               correlation in it, in 31 steps, and the best COP found. The correlations are asked at the evaporating and \
               outlet temperature the car then has (Kauf: at ambient); they are from memory. In the crate a valve holds \
               Liao's pressure, so this asks whether that is a good pressure for the car. A row holds within a tenth.\n\n\
               The rows at the end ask the equation of state alone: isentropic compression of saturated vapour, no internal \
               exchanger, outlet temperature held."
            .to_owned(),
        model: "best pressure, bar (COP)",
        rows,
        reached,
    }
});

fn typical(exchanger: bool) -> Circuit {
    let kind = CircuitKind::main(Refrigerant::R744)[0];
    let mut car = let_go(Circuit::mid_range(kind).unwrap());
    if !exchanger {
        car.internal_exchanger = 0.0;
    }
    car
}

fn compare(ambient: f64, exchanger: bool) -> Vec<Row> {
    let with = if exchanger { "with internal exchanger" } else { "without internal exchanger" };
    let mut car = typical(exchanger);
    // the cabin is drawn round, whatever the day
    car.condenser_air.air_on_rise_k = ambient - CABIN;
    car.lines.underhood_rise_k += ambient - CABIN;
    let found = best(car, &day(CABIN, 50.0, RUNNING));
    let (Best::Inside(point) | Best::Below(point) | Best::Above(point)) = &found;
    CORRELATIONS
        .iter()
        .map(|(source, correlation)| {
            let printed = correlation(ambient, point.evaporating, point.outlet);
            let off = percent(point.bar, printed);
            let (word, verdict) = match &found {
                Best::Inside(_) => ("", Verdict::of(off.abs() <= 10.0)),
                // how far below or above is not known
                Best::Below(_) if off < -10.0 => ("below ", Verdict::Misses),
                Best::Above(_) if off > 10.0 => ("above ", Verdict::Misses),
                Best::Below(_) => ("below ", Verdict::Noted),
                Best::Above(_) => ("above ", Verdict::Noted),
            };
            let mut why = match (&found, verdict) {
                (Best::Below(_), _) => BELOW.to_owned(),
                (Best::Above(_), _) => ABOVE.to_owned(),
                (_, Verdict::Misses) if exchanger => EXCHANGER.to_owned(),
                (_, Verdict::Misses) => OFF.to_owned(),
                _ => String::new(),
            };
            if let (true, Some(at)) = (source.starts_with("Liao"), point.at_liao) {
                why += &format!(" COP at Liao's pressure {:.1} % below.", 100.0 * (1.0 - at));
            }
            Row {
                source: (*source).to_owned(),
                conditions: format!(
                    "typical car {with}, ambient {ambient:.0} °C; evaporating {}, outlet {} °C",
                    number(point.evaporating, 1),
                    number(point.outlet, 1)
                ),
                printed: format!("{printed:.1} bar"),
                model: format!("{word}{:.1} ({:.2}), {} %", point.bar, point.cop, number(off, 1)),
                verdict,
                why: why.trim().to_owned(),
            }
        })
        .collect()
}

const EXCHANGER: &str = "the internal exchanger cools what comes to the valve, so less pressure is best; the correlations are for \
                         circuits without one, and Kauf's knows only the ambient, not how close the gas cooler comes to it.";
const BELOW: &str = "COP rises towards lower pressure down to where the valve's floor, 1.03 of the saturation line continued \
                     past the critical point at half its slope, stops it; the internal exchanger moves the best pressure down";
const ABOVE: &str = "COP still rises at the last steady state";
const OFF: &str = "outlet and evaporating temperature move with the pressure here; the correlation holds them";

// --- the ideal cycle

/// COP of isentropic compression of saturated vapour from `te` to `bar`, cooled to `tc`; °C.
fn ideal_cop(te: f64, tc: f64, bar: f64) -> f64 {
    let (r, p) = (Refrigerant::R744, Pressure::from_kpa(100.0 * bar));
    let (_, vapour) = r.saturated_at_temperature(Temperature::from_celsius(te)).unwrap();
    let h1 = vapour.enthalpy.si();
    let h2 = r.at_entropy(p, vapour.entropy).unwrap().enthalpy().si();
    let h3 = r.state(p, Temperature::from_celsius(tc)).unwrap().enthalpy().si();
    (h1 - h3) / (h2 - h1)
}

/// Pressure of the best ideal COP, bar, to a thousandth.
fn ideal_best(te: f64, tc: f64) -> f64 {
    let (mut low, mut high) = (75.0, 190.0);
    while high - low > 1e-3 {
        let (a, b) = (low + (high - low) / 3.0, high - (high - low) / 3.0);
        if ideal_cop(te, tc, a) < ideal_cop(te, tc, b) {
            low = a;
        } else {
            high = b;
        }
    }
    0.5 * (low + high)
}

/// What the notes of `r744-high-side.csv` and `components-published.csv` say, bar: outlet, the largest distance of Liao et al.
const LIAO_NOTED: [(f64, f64); 4] = [(35.0, 0.1), (40.0, 0.5), (45.0, 2.1), (50.0, 4.8)];

fn ideal() -> Vec<Row> {
    let mut rows = Vec::new();
    let evaporating = [0.0, 5.0, 10.0];
    let off = |which: usize, tc: f64| evaporating.map(|te| CORRELATIONS[which].1(0.0, te, tc) - ideal_best(te, tc));
    for (tc, noted) in LIAO_NOTED {
        let off = off(1, tc);
        let largest = off.iter().fold(0.0, |m: f64, x| m.max(x.abs()));
        rows.push(Row {
            source: CORRELATIONS[1].0.to_owned(),
            conditions: format!("ideal cycle, outlet {tc:.0} °C, evaporating 0, 5, 10 °C"),
            printed: format!("within {noted} bar of the best"),
            model: format!(
                "best {}; correlation off by {}",
                evaporating.map(|te| number(ideal_best(te, tc), 1)).join(", "),
                off.map(|x| number(x, 2)).join(", ")
            ),
            // half a unit of the note
            verdict: Verdict::of(largest <= noted + 0.05),
            why: "the note was made with another program".to_owned(),
        });
    }
    // the notes: 1.5 to 11 bar below the best, and within 6.6 bar of it; either end to half a unit of its last digit
    for (which, low, high) in [(2, (-11.0, 0.5), Some((-1.5, 0.05))), (3, (-6.6, 0.05), None)] {
        let all: Vec<f64> = LIAO_NOTED.iter().flat_map(|(tc, _)| off(which, *tc)).collect();
        let (least, most) = all.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), x| (a.min(*x), b.max(*x)));
        rows.push(Row {
            source: CORRELATIONS[which].0.to_owned(),
            conditions: "ideal cycle, outlet 35 to 50 °C, evaporating 0 to 10 °C".to_owned(),
            printed: high.map_or(format!("within {} bar of the best", number(-low.0, 1)), |(high, _)| {
                format!("off by {} to {} bar", number(low.0, 1), number(high, 1))
            }),
            model: format!("off by {} to {}", number(least, 2), number(most, 2)),
            verdict: Verdict::of(
                (least - low.0).abs() <= low.1
                    && high.map_or(most.abs() <= -low.0, |(high, half)| (most - high).abs() <= half),
            ),
            why: "the note was made with another program, on a grid that is not stated".to_owned(),
        });
    }
    rows
}

#[test]
fn what_was_reached_stays() {
    let without = count(&CHAPTER.rows, |row| row.conditions.contains("without internal"));
    let with = count(&CHAPTER.rows, |row| row.conditions.contains("with internal"));
    assert!(without == (16, 16) && with.0 >= 13 && with.1 == 16, "{:?}", CHAPTER.reached);
    let ideal = count(&CHAPTER.rows, |row| row.conditions.contains("ideal"));
    // Sarkar's upper end is 0.13 bar off its note
    assert_eq!(ideal, (5, 6), "{:?}", CHAPTER.reached);
}
