//! A saturation line from a table of your own, with how far to trust it, and a superheat from that line.
//!
//! ```text
//! cargo run --features fit --example fit_a_table
//! cargo run --features fit --example fit_a_table -- my.csv --critical-temperature "94.2 °C" --critical-pressure "3650 kPa"
//! ```
//!
//! The columns of the table are named with their units, as in `temperature_C,pressure_kPa_abs`; see `fit::SaturationTable::read`.

#[path = "shared/command.rs"]
mod command;
#[path = "shared/files.rs"]
mod files;
use std::fmt::Write;

use clap::Parser;
use satline::fit::{Fit, FitQuestion, Fitting, SaturationTable};
use satline::{Line, Measured, Pressure, PressureDifference, Source, Temperature, TemperatureDifference, Trust};

/// The built-in table: an invented refrigerant, with a misprint.
const SAMPLE: &str = include_str!("../tables/demo/invented-refrigerant.csv");
/// Its critical point.
const SAMPLE_CRITICAL: (&str, &str) = ("99.0 °C", "3900 kPa");

/// Fits a saturation line to a table and says how far it can be trusted.
#[derive(Debug, Parser)]
#[command(name = "fit_a_table")]
pub struct Args {
    /// A CSV file with columns such as temperature_C and pressure_kPa_abs; without it, a built-in sample.
    table: Option<std::path::PathBuf>,
    /// Critical temperature, such as "94.2 °C"; where it is not known, any temperature above the table, and no pressure.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true, requires = "table")]
    critical_temperature: Option<String>,
    /// Critical pressure, absolute, such as "3650 kPa".
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true, requires = "table")]
    critical_pressure: Option<String>,
    /// The pressure column up to its unit, such as dew_pressure.
    #[arg(long, value_name = "NAME", default_value = "pressure", requires = "table")]
    column: String,
    /// Count the rows that do not belong, too.
    #[arg(long)]
    with_misfits: bool,
}

/// The page the example prints.
pub fn page(args: &Args) -> Result<String, Box<dyn std::error::Error>> {
    let read;
    let (text, named, critical) = match &args.table {
        None => (SAMPLE, "the built-in sample, an invented refrigerant".to_owned(), SAMPLE_CRITICAL),
        Some(path) => {
            let named = path.display().to_string();
            read = files::read(path)?;
            (read.as_str(), named, ("", ""))
        }
    };
    let given = |flag: &Option<String>, sample: &str| flag.clone().unwrap_or_else(|| sample.to_owned());
    let temperature = given(&args.critical_temperature, critical.0);
    let pressure = given(&args.critical_pressure, critical.1);
    if temperature.is_empty() {
        return Err(
            "give --critical-temperature, from the data sheet; where nobody knows it, any temperature above the \
                    table, without --critical-pressure"
                .into(),
        );
    }
    let temperature: Temperature = temperature.parse()?;
    let source = Source { work: "a table of one's own", locator: "", doi: None, trust: Trust::Weak };
    let fitting = match pressure.as_str() {
        "" => Fitting::without_critical_point(temperature, source),
        pressure => Fitting::with_critical_point(temperature, pressure.parse()?, source),
    };

    let table = SaturationTable::read(text, &args.column)?;
    let fit = if args.with_misfits { fitting } else { fitting.without_misfits() }.fit(&table)?;
    written(&fit, &named, args.with_misfits)
}

/// `question` in lines short enough for the page.
fn said(question: &FitQuestion) -> String {
    match question {
        FitQuestion::FirstCoefficient { n, usual: (low, high) } => format!(
            "n1 is {n:.1}; of the pure refrigerants of the catalogue it is {low:.1} to {high:.1}.\n\
             Check the unit of the critical pressure, and whether it and the table are\n\
             absolute or gauge."
        ),
        FitQuestion::Scatter { relative } => format!(
            "The rows lie {:.0} % of p off the line, root mean square. Are they of one\n\
             refrigerant, one column and one unit?",
            100.0 * relative
        ),
        other => format!("{other:?}"),
    }
}

/// With at most `places` decimals, and no zeros at the end.
fn trimmed(x: f64, places: usize) -> String {
    let text = format!("{x:.places$}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn written(fit: &Fit, named: &str, with_misfits: bool) -> Result<String, Box<dyn std::error::Error>> {
    let line = &fit.line;
    let mut page = String::new();
    writeln!(page, "Saturation line fitted to {named}")?;
    writeln!(page)?;
    let questions = fit.questions();
    if !questions.is_empty() {
        writeln!(page, "Is that what was meant?")?;
        for question in questions {
            writeln!(page, "  ? {}", said(&question).replace('\n', "\n    "))?;
        }
        writeln!(page)?;
    }
    writeln!(page, "  ln(p/pc) = (Tc/T) (n1 q^k1 + n2 q^k2 + ...),  q = 1 - T/Tc,  T in K")?;
    writeln!(page)?;
    if fit.has_critical_point() {
        writeln!(page, "  the critical point, as given")?;
    } else {
        writeln!(page, "  not the critical point: Tc as given, pc fitted")?;
        writeln!(page, "  (with --critical-pressure too the line is closer, if Tc is the critical one)")?;
    }
    writeln!(page, "  Tc  {} K", trimmed(line.critical_temperature.kelvin(), 7))?;
    writeln!(page, "  pc  {} Pa absolute", trimmed(line.critical_pressure.pa(), 3))?;
    writeln!(page)?;
    writeln!(page, "  coefficient n   95 % ±    k")?;
    for c in &fit.coefficients {
        writeln!(
            page,
            "  {:>13.7}   {:<8}  {}",
            c.n,
            c.half95.map_or("-".to_owned(), |half| format!("{half:.1e}")),
            c.k
        )?;
    }
    writeln!(page)?;
    writeln!(
        page,
        "Asked from {:.2} to {:.2} °C, the ends of the table",
        line.valid.low.celsius(),
        line.valid.high.celsius()
    )?;
    let mut from = line.valid.low;
    for band in line.accuracy {
        let to = if band.up_to < line.valid.high { band.up_to } else { line.valid.high };
        if to > from {
            writeln!(
                page,
                "  to {:6.1} °C   within {:.2} % of p, {:.3} K",
                to.celsius(),
                100.0 * band.pressure,
                band.temperature.kelvins()
            )?;
            from = to;
        }
    }
    writeln!(page)?;
    writeln!(page, "{} of {} rows counted", fit.rows_used(), fit.rows.len())?;
    writeln!(page, "  scatter beyond rounding  {:.3} % of p", 100.0 * fit.scatter)?;
    if let Some(worst) = fit.worst_row() {
        writeln!(
            page,
            "  worst row                line {}, {:.2} °C: {:+.3} % of p, {:+.3} K",
            worst.line,
            worst.temperature.celsius(),
            100.0 * worst.relative,
            worst.kelvin.kelvins()
        )?;
    }
    writeln!(page, "  condition                {:.1e}", fit.condition)?;
    writeln!(page)?;
    match (fit.misfits.len(), with_misfits) {
        (0, _) => writeln!(page, "Every row belongs")?,
        (_, false) => writeln!(page, "Rows that do not belong, left out")?,
        (_, true) => writeln!(page, "Rows that do not belong, counted all the same")?,
    }
    for misfit in &fit.misfits {
        let text = misfit.to_string();
        let (reads, would) = text.split_once("; ").unwrap_or((text.as_str(), ""));
        writeln!(page, "  {reads};\n    {would}")?;
    }
    writeln!(page)?;
    writeln!(page, "How far the rows settle the curve, if their errors are random")?;
    let whole = |share: f64| Temperature::from_celsius(line.valid.at(share).celsius().round());
    for t in [line.valid.low, whole(0.25), whole(0.5), whole(0.75), line.valid.high] {
        let (p, interval) = (line.pressure(t)?, fit.interval_at(t)?);
        let half = Pressure::from_pa(0.5 * (interval.high - interval.low).pa());
        writeln!(page, "  {:6.1} °C  {:9.2} ± {:.2} kPa (95 %)", t.celsius(), p.kpa(), half.kpa())?;
    }
    writeln!(page)?;
    let own = fit.refrigerant("one's own refrigerant");
    // a gauge at 40 % of the way from the first row to the last, and a thermometer 6 K above that
    let boiling = whole(0.4);
    let p = Measured::new(line.pressure(boiling)?, PressureDifference::from_kpa(3.0))?;
    let t = boiling + TemperatureDifference::from_kelvins(6.0);
    let t = Measured::new(t, TemperatureDifference::from_kelvins(0.5))?;
    writeln!(page, "A suction line of {own}")?;
    writeln!(page, "  {:.1} ± {:.1} kPa absolute (95 %)", p.value().kpa(), p.expanded().kpa())?;
    writeln!(page, "  {:.1} ± {:.1} °C (95 %)", t.value().celsius(), t.expanded().kelvins())?;
    writeln!(page, "  {}", Line::measured(&own, p, t)?)?;
    Ok(page)
}

fn main() -> std::process::ExitCode {
    command::run("fit_a_table", |args, out| out.page(&page(args)?))
}
