//! A sheet for a class: one refrigerant's saturation line to type and to cite, and how far each of its numbers is off.
//!
//! ```text
//! cargo run --example accuracy_page
//! cargo run --example accuracy_page -- --refrigerant R-1234yf --at "50 °F" --markdown
//! ```
//!
//! Exit status: 0 the sheet was written, 1 it could not be.

#[path = "../shared/command.rs"]
mod command;
pub mod rows;

use std::process::ExitCode;

use clap::Parser;
use rows::PrintedRow;
use satline::helmholtz::terms::Equilibrium;
use satline::quantity::instrument::PressureGauge;
use satline::refrigerant::checks::CheckedLine;
use satline::report::{AnswerMark, Block, Furniture, Page, Section, Table, Tone};
use satline::saturation::{Curve, Wagner};
use satline::{Error, GaugePressure, Pressure, Refrigerant, Temperature, TemperatureDifference, Trust};

/// Prints a refrigerant's saturation line as a formula, with its errors, its checks and a worked example.
#[derive(Debug, Parser)]
#[command(name = "accuracy_page")]
pub struct Args {
    /// Which refrigerant, such as R-1234yf.
    #[arg(long, default_value = "R-134a")]
    refrigerant: Refrigerant,
    /// The temperature worked step by step, with its unit; that of a printed row when not given.
    #[arg(long, allow_hyphen_values = true)]
    at: Option<Temperature>,
    /// Print Markdown instead of plain text.
    #[arg(long)]
    markdown: bool,
}

/// The sheet names this project as its own citation file does.
const CITATION: &str = include_str!("../../CITATION.cff");

/// A part of the sheet, before it is laid out.
enum Part {
    Heading(String),
    /// Broken at blanks where it must be.
    Text(String),
    /// Kept line by line.
    Lines(Vec<String>),
    Table {
        head: Vec<&'static str>,
        rows: Vec<Vec<String>>,
    },
}

/// One saturation line in its three forms.
struct Ways {
    /// Its name where there are two lines; empty for a pure fluid.
    name: &'static str,
    short: &'static Wagner,
    curve: &'static Curve<'static>,
}

fn ways(r: Refrigerant) -> Vec<Ways> {
    let fluid = r.fluid();
    let dew = Ways { name: "", short: &fluid.dew, curve: fluid.dew_curve };
    if !r.is_blend() {
        return vec![dew];
    }
    let bubble = Ways { name: "bubble line", short: &fluid.bubble, curve: fluid.bubble_curve };
    vec![bubble, Ways { name: "dew line", ..dew }]
}

/// The terms that count: unused places are zero.
fn terms(line: &Wagner) -> Vec<(f64, f64)> {
    line.terms.into_iter().filter(|&(n, _)| n != 0.0).collect()
}

/// The sheet.
pub fn page(args: &Args) -> Result<String, Error> {
    let r = args.refrigerant;
    let lines = ways(r);
    let mut blocks = vec![Part::Text(format!(
        "{r}, {}: its saturation line to type and to cite, and how far it is off",
        r.fluid().chemical_name
    ))];
    formula(&mut blocks, r, &lines);
    three_ways(&mut blocks, r, &lines)?;
    printed(&mut blocks, r);
    // a student of a blend works the line that superheat counts from
    if let (Some(line), Some(row)) = (lines.last(), rows::of(r)) {
        let at = match args.at {
            Some(at) => at,
            None => row.temperature.parse()?,
        };
        worked(&mut blocks, line, at)?;
        beside_print(&mut blocks, line, row)?;
        sheet(&mut blocks, line, at);
        cite(&mut blocks, line);
        exercises(&mut blocks, r, line, at)?;
    }
    let page = laid_out(blocks);
    Ok(if args.markdown { page.markdown() } else { page.text(80) })
}

fn formula(blocks: &mut Vec<Part>, r: Refrigerant, lines: &[Ways]) {
    blocks.push(Part::Heading("The formula".to_owned()));
    blocks.push(Part::Lines(vec![
        "ln(p/pc) = (Tc/T) (n1 q^k1 + n2 q^k2 + ...)".to_owned(),
        "q = 1 - T/Tc".to_owned(),
        "p in Pa absolute, T in K: temperature in °C plus 273.15".to_owned(),
    ]));
    for line in lines {
        if !line.name.is_empty() {
            blocks.push(Part::Text(format!("The {}:", line.name)));
        }
        let mut kept = vec![
            format!("Tc  {} K", line.short.critical_temperature.kelvin()),
            format!("pc  {} Pa", line.short.critical_pressure.pa()),
        ];
        for (i, (n, k)) in terms(line.short).iter().enumerate() {
            kept.push(format!("n{0}  {n:>16}   k{0}  {k}", i + 1));
        }
        kept.push(format!(
            "asked from {:.2} to {:.2} °C",
            line.short.valid.low.celsius(),
            line.short.valid.high.celsius()
        ));
        blocks.push(Part::Lines(kept));
    }
    if r.is_blend() {
        blocks.push(Part::Text(
            "These are the bubble and the dew line as published, so there is no error of a fit to declare. \
             Subcooling counts from the bubble line, superheat from the dew line; what follows is worked on the dew \
             line."
                .to_owned(),
        ));
    } else {
        declared(blocks, lines);
    }
    blocks.push(Part::Text(
        "How far the equation of state is from nature is for its authors to say, and is not in these figures. Nor is \
         the gauge, which is off by far more."
            .to_owned(),
    ));
}

fn declared(blocks: &mut Vec<Part>, lines: &[Ways]) {
    blocks.push(Part::Text("Declared error against the equation of state it was fitted to, at most:".to_owned()));
    let mut rows = Vec::new();
    for line in lines {
        let mut from = line.short.valid.low;
        for band in line.short.accuracy.iter().filter(|band| band.up_to > line.short.valid.low) {
            rows.push(vec![
                format!("{:.2}", from.celsius()),
                format!("{:.2}", band.up_to.celsius()),
                format!("{} %", digits(100.0 * band.pressure)),
                format!("{} K", digits(band.temperature.kelvins())),
            ]);
            from = band.up_to;
        }
    }
    blocks.push(Part::Table { head: vec!["from °C", "to °C", "of pressure", "as temperature"], rows });
}

/// Two digits that count, as declared errors have.
fn digits(x: f64) -> String {
    let places = (1 - x.abs().log10().floor() as i32).max(0) as usize;
    format!("{x:.places$}")
}

/// The worst of many deviations.
#[derive(Default)]
struct Worst {
    relative: f64,
    kelvin: f64,
    at: f64,
    points: usize,
}

impl Worst {
    fn add(&mut self, t: Temperature, ours: Pressure, theirs: Pressure, slope: f64) {
        let relative = (ours.pa() - theirs.pa()) / theirs.pa();
        self.points += 1;
        if relative.abs() >= self.relative.abs() {
            let kelvin = (ours - theirs).pa() / slope;
            *self = Self { relative, kelvin, at: t.celsius(), points: self.points };
        }
    }
}

fn three_ways(blocks: &mut Vec<Part>, r: Refrigerant, lines: &[Ways]) -> Result<(), Error> {
    blocks.push(Part::Heading("How the ways to a pressure compare".to_owned()));
    let equation = &r.fluid().equation;
    blocks.push(Part::Text(if r.is_blend() {
        "The short form above is for typing. The crate answers with a curve in many pieces made from it. The \
         equation of state of a blend is pseudo-pure: it has no equilibrium of two phases of its own to compare \
         with. Compared here every 1 K, computed when this sheet was written:"
            .to_owned()
    } else {
        "The short form above is for typing. The crate answers with a curve in many pieces. Both were made from the \
         equation of state, which has no saturation line in it: liquid and vapour in balance are looked for, \
         temperature by temperature. Compared here every 1 K, computed when this sheet was written:"
            .to_owned()
    }));
    let mut rows = Vec::new();
    for line in lines {
        let (mut of_short, mut of_curve) = (Worst::default(), 0.0_f64);
        let low = line.short.valid.low;
        let hottest = Equilibrium::hottest(equation);
        let high = if r.is_blend() || line.short.valid.high < hottest { line.short.valid.high } else { hottest };
        let steps = (high - low).kelvins().floor() as u32;
        for step in 0..=steps {
            let t = low + TemperatureDifference::from_kelvins(f64::from(step));
            let (short, curve) = (line.short.pressure(t)?, line.curve.pressure(t)?);
            let slope = line.curve.slope_pa_per_kelvin(t)?;
            if r.is_blend() {
                of_short.add(t, short, curve, slope);
                of_curve = of_curve.max((short.pa() / curve.pa() - 1.0).abs());
            } else {
                let exact = Equilibrium::at(equation, t)?.pressure();
                of_short.add(t, short, exact, slope);
                of_curve = of_curve.max((curve.pa() / exact.pa() - 1.0).abs());
            }
        }
        let span = format!("{:.2} to {:.2}", low.celsius(), low.celsius() + f64::from(steps));
        let prefix = if line.name.is_empty() { String::new() } else { format!("{}, ", line.name) };
        if !r.is_blend() {
            rows.push(vec![
                "short form - equation of state".to_owned(),
                of_short.points.to_string(),
                span.clone(),
                format!("{:+.5} %", 100.0 * of_short.relative),
                format!("{:+.5} K", of_short.kelvin),
                format!("{:.2}", of_short.at),
            ]);
        }
        // noise of the last places: only its power of ten is the same on every machine
        rows.push(vec![
            if r.is_blend() { format!("{prefix}curve - short form") } else { "curve - equation of state".to_owned() },
            of_short.points.to_string(),
            span,
            if of_curve > 0.0 {
                format!("below 1e{} %", of_curve.log10().ceil() as i32 + 2)
            } else {
                "none".to_owned()
            },
            String::new(),
            String::new(),
        ]);
    }
    blocks.push(Part::Table {
        head: vec!["first minus second", "points", "from, to °C", "worst of pressure", "as temperature", "at °C"],
        rows,
    });
    Ok(())
}

fn printed(blocks: &mut Vec<Part>, r: Refrigerant) {
    blocks.push(Part::Heading("Published tables it was checked against".to_owned()));
    blocks.push(Part::Text(
        "Table minus short form, at the row where it is worst. A row may be off by half a unit of its last printed \
         digit and by the declared error; a table with few digits therefore looks worse than it is. Under \"stated\" \
         stands what a table is off beyond that, as far as it is known; its file says why."
            .to_owned(),
    ));
    let mut rows = Vec::new();
    for check in r.saturation_checks() {
        let line = match check.line {
            _ if !r.is_blend() => "",
            CheckedLine::Bubble => "bubble line: ",
            CheckedLine::Dew => "dew line: ",
        };
        let came = if check.trust == Trust::Read { "read" } else { check.trust.mark() };
        let source = check.source.trim_end_matches(", from memory");
        rows.push(vec![
            format!("{line}{source} ({came})"),
            check.rows.to_string(),
            format!("{:.2} to {:.2}", check.range.low.celsius(), check.range.high.celsius()),
            format!("{:+.4} %", check.worst.percent),
            format!("{:+.4} K", check.worst.step.kelvins()),
            format!("{:.2}", check.worst_at.celsius()),
            check.stated_percent.map_or(String::new(), |percent| format!("{percent} %")),
        ]);
    }
    let count = rows.len();
    let came = |trust: Trust| r.saturation_checks().filter(|check| check.trust == trust).count();
    let grades = [Trust::Read, Trust::Secondary, Trust::Excerpt, Trust::Weak, Trust::Computed, Trust::FromMemory];
    let grades = grades
        .into_iter()
        .filter(|&trust| came(trust) > 0)
        .map(|trust| format!("{} {}", came(trust), if trust == Trust::Read { "read whole" } else { trust.mark() }));
    let grades = grades.collect::<Vec<_>>().join(", ");
    blocks.push(Part::Table {
        head: vec!["source (how it came)", "rows", "from, to °C", "worst", "as temp.", "at °C", "stated"],
        rows,
    });
    blocks.push(Part::Text(format!(
        "{count} comparison{} of a table with a line, by how the table came: {grades}; row by row in tables/DEVIATIONS.md, the tables themselves in \
         tables/published. Tables made from the same equation check the typing, not the equation; that page says \
         which stand on other feet.",
        if count == 1 { "" } else { "s" }
    )));
}

/// Degrees or kelvin with two decimals, or with the third where there is one.
fn written(degrees: f64) -> String {
    let rounded = |places: usize| format!("{degrees:.places$}");
    if (degrees * 1e2 - (degrees * 1e2).round()).abs() < 1e-3 { rounded(2) } else { rounded(3) }
}

/// How the short form is worked by hand.
struct Steps {
    q: f64,
    powers: Vec<f64>,
    sum: f64,
    log: f64,
    pa: f64,
}

fn steps(line: &Wagner, t: Temperature) -> Steps {
    let tc = line.critical_temperature.kelvin();
    let q = 1.0 - t.kelvin() / tc;
    let powers: Vec<f64> = terms(line).iter().map(|&(_, k)| q.powf(k)).collect();
    let sum = terms(line).iter().zip(&powers).map(|(&(n, _), power)| n * power).sum();
    let log = tc / t.kelvin() * sum;
    Steps { q, powers, sum, log, pa: line.critical_pressure.pa() * log.exp() }
}

fn worked(blocks: &mut Vec<Part>, ways: &Ways, t: Temperature) -> Result<(), Error> {
    let line = ways.short;
    // the typed error, where the line cannot be asked
    let p = line.pressure(t)?;
    let Steps { q, powers, sum, log, pa } = steps(line, t);
    blocks.push(Part::Heading(format!("Worked by hand at {} °C", written(t.celsius()))));
    let mut kept = vec![
        format!("T = {} + 273.15 = {} K", written(t.celsius()), written(t.kelvin())),
        format!("q = 1 - {}/{} = {q:.9}", written(t.kelvin()), line.critical_temperature.kelvin()),
        String::new(),
        format!("{:>4}{:>16}{:>6}{:>16}{:>16}", "i", "n", "k", "q^k", "n q^k"),
    ];
    for (i, (&(n, k), power)) in terms(line).iter().zip(&powers).enumerate() {
        kept.push(format!("{:>4}{n:>16}{k:>6}{power:>16.9}{:>16.9}", i + 1, n * power));
    }
    kept.push(format!("{:>4}{:>16}{:>6}{:>16}{sum:>16.9}", "", "", "", "sum"));
    kept.push(String::new());
    kept.push(format!(
        "ln(p/pc) = {}/{} x {sum:.9} = {log:.9}",
        line.critical_temperature.kelvin(),
        written(t.kelvin())
    ));
    kept.push(format!("p/pc = exp({log:.9}) = {:.9}", log.exp()));
    kept.push(format!("p = {} x {:.9} = {pa:.0} Pa", line.critical_pressure.pa(), log.exp()));
    let kpa = pa / 1e3;
    kept.push(format!("  = {kpa:.2} kPa absolute"));
    let gauge = p.gauge(Pressure::STANDARD_ATMOSPHERE);
    kept.push(format!(
        "  = {:.2} kPa or {:.2} psi on a gauge at sea level (less 101.325 kPa)",
        gauge.kpa(),
        gauge.psi()
    ));
    blocks.push(Part::Lines(kept));
    let answer = ways.curve.pressure(t)?;
    blocks.push(Part::Text(if ways.name.is_empty() {
        format!(
            "The crate answers {:.4} kPa here: the short form is {:+.4} % off, which is {:+.5} K.",
            answer.kpa(),
            100.0 * (p.pa() / answer.pa() - 1.0),
            (p - answer).pa() / ways.curve.slope_pa_per_kelvin(t)?
        )
    } else {
        format!("The crate answers {:.4} kPa here, from the same line.", answer.kpa())
    }));
    Ok(())
}

/// Deviation of the short form from a printed row, and what the last printed digits leave open, both in % of pressure.
pub fn deviation(line: &Wagner, row: &PrintedRow) -> Result<(Pressure, f64, f64), Error> {
    let (t, printed): (Temperature, Pressure) = (row.temperature.parse()?, row.pressure.parse()?);
    let computed = line.pressure(t)?;
    let slope = line.slope_pa_per_kelvin(t)?;
    let open = half_digit(row.pressure) * printed.pa() / number(row.pressure) + half_digit(row.temperature) * slope;
    let percent = |pa: f64| 100.0 * pa / printed.pa();
    Ok((computed, percent((computed - printed).pa()), percent(open)))
}

/// Leading number of a printed value; every row has one.
fn number(printed: &str) -> f64 {
    printed.split(' ').next().and_then(|digits| digits.parse().ok()).unwrap_or(f64::NAN)
}

/// Half a unit of the last printed digit after a decimal point; a whole number is exact.
fn half_digit(printed: &str) -> f64 {
    let decimals =
        printed.split(' ').next().and_then(|digits| digits.split_once('.')).map(|(_, decimals)| decimals.len());
    decimals.map_or(0.0, |decimals| 0.5 * 0.1_f64.powi(decimals as i32))
}

fn beside_print(blocks: &mut Vec<Part>, ways: &Ways, row: &PrintedRow) -> Result<(), Error> {
    let (computed, percent, open) = deviation(ways.short, row)?;
    blocks.push(Part::Text(format!(
        "A printed row to repeat it against: {} at {} ({}). The short form gives {:.3} kPa there, {percent:+.4} % from print; the \
         last printed digits leave ± {open:.4} % open.",
        row.pressure,
        row.temperature,
        row.source,
        computed.kpa()
    )));
    Ok(())
}

fn sheet(blocks: &mut Vec<Part>, ways: &Ways, t: Temperature) {
    let line = ways.short;
    let tc = line.critical_temperature.kelvin();
    blocks.push(Part::Heading("The same in a spreadsheet".to_owned()));
    let mut kept =
        vec![format!("A2  {}", written(t.celsius())), "B2  =A2+273.15".to_owned(), format!("C2  =1-B2/{tc}")];
    let mut cell = String::from("D2  =");
    for (i, (n, k)) in terms(line).iter().enumerate() {
        let sign = if i > 0 && *n > 0.0 { "+" } else { "" };
        let power = if *k == 1.0 { String::new() } else { format!("^{k}") };
        let term = format!("{sign}{n}*C2{power}");
        if cell.len() + term.len() > 60 {
            kept.push(std::mem::replace(&mut cell, String::from("     ")));
        }
        cell += &term;
    }
    kept.push(cell);
    kept.push(format!("E2  ={}*EXP({tc}/B2*D2)", line.critical_pressure.pa()));
    kept.push("F2  =E2/1000-101.325".to_owned());
    blocks.push(Part::Lines(kept));
    blocks.push(Part::Text(
        "A2 is the temperature in °C, E2 the absolute pressure in Pa, F2 what a gauge shows at sea level in kPa. The \
         cell D2 is one line. Outside the range above the formula still gives a number, and the number means \
         nothing."
            .to_owned(),
    ));
}

/// What stands behind `key: ` in the citation file, without quotes.
fn cited(key: &str) -> &'static str {
    let entry = CITATION.lines().find_map(|line| line.strip_prefix(key)?.strip_prefix(": "));
    entry.unwrap_or_default().trim_matches('"')
}

fn cite(blocks: &mut Vec<Part>, ways: &Ways) {
    blocks.push(Part::Heading("How to cite".to_owned()));
    blocks.push(Part::Text("The numbers are those of their source; cite it first:".to_owned()));
    blocks.push(Part::Text(ways.short.source.to_string()));
    blocks.push(Part::Text("The short form, the checks and this sheet:".to_owned()));
    blocks.push(Part::Text(format!("{}, version {} (CITATION.cff)", cited("title"), cited("version"))));
}

fn exercises(blocks: &mut Vec<Part>, r: Refrigerant, ways: &Ways, at: Temperature) -> Result<(), Error> {
    let line = ways.short;
    let other = if (at.celsius() - 20.0).abs() < 0.5 { 10.0 } else { 20.0 };
    let t = Temperature::from_celsius(other);
    // what a low-side gauge shows near 5 °C, in whole steps of 10 kPa
    let near = line.pressure(Temperature::from_celsius(5.0))?.gauge(Pressure::STANDARD_ATMOSPHERE);
    let shown = GaugePressure::from_kpa((near.kpa() / 10.0).round() * 10.0);
    let gauge = if r == Refrigerant::R744 { PressureGauge::CARBON_DIOXIDE_LOW } else { PressureGauge::SERVICE_LOW };
    let span = gauge.scale.high - gauge.scale.low;
    let limit = span * gauge.limit.fraction();
    blocks.push(Part::Heading("Exercises".to_owned()));
    blocks.push(Part::Text(format!(
        "1. Work the formula at {other:.2} °C. What is the absolute pressure in kPa, and what does a gauge show at sea \
         level?"
    )));
    blocks.push(Part::Text(format!(
        "2. A low-side gauge shows {:.0} kPa at sea level. At what temperature is {r} saturated there? (Change A2 \
         until F2 shows it.)",
        shown.kpa()
    )));
    blocks.push(Part::Text(format!(
        "3. That gauge has class {} on a scale {:.2} bar wide: it may be off by {:.1} kPa either way. How many \
         kelvin is that? (Change A2 until F2 is {:.1} kPa more.)",
        gauge.limit.percent(),
        span.bar(),
        limit.kpa(),
        limit.kpa()
    )));
    blocks.push(Part::Text(
        "These are exercises for a desk. A circuit is under pressure even at rest: gauges are connected by those \
         trained for it, with goggles and gloves. The maker's figures go before this sheet."
            .to_owned(),
    ));
    let p = line.pressure(t)?;
    let saturated = line.temperature(shown.absolute(Pressure::STANDARD_ATMOSPHERE))?;
    let above = line.temperature((shown + limit).absolute(Pressure::STANDARD_ATMOSPHERE))?;
    blocks.push(Part::Heading("Answers".to_owned()));
    blocks.push(Part::Text(format!(
        "1. {:.2} kPa absolute; {:.2} kPa on the gauge.",
        p.kpa(),
        p.gauge(Pressure::STANDARD_ATMOSPHERE).kpa()
    )));
    blocks.push(Part::Text(format!(
        "2. {:.2} °C. The formula is good for {} K; the gauge is not (see 3).",
        saturated.celsius(),
        if r.is_blend() { "0.01".to_owned() } else { digits(line.accuracy_at(saturated)?.temperature.kelvins()) }
    )));
    blocks.push(Part::Text(format!("3. {:.2} K.", (above - saturated).kelvins())));
    Ok(())
}

/// The parts under their headings; the first is the title.
fn laid_out(parts: Vec<Part>) -> Page {
    let mut page = Page {
        title: String::new(),
        opening: Vec::new(),
        answer: String::new(),
        mark: AnswerMark::default(),
        sections: Vec::new(),
        furniture: Furniture::default(),
    };
    for part in parts {
        let block = match part {
            Part::Heading(heading) => {
                page.sections.push(Section { name: "part", heading, blocks: Vec::new(), tone: Tone::Plain });
                continue;
            }
            Part::Text(words) if page.title.is_empty() => {
                page.title = words;
                continue;
            }
            Part::Text(words) => Block::Words(words),
            Part::Lines(lines) => Block::Lines(lines),
            Part::Table { head, rows } => Block::Table(Table {
                head: head.into_iter().map(str::to_owned).collect(),
                rows: rows.into_iter().map(|row| row.into_iter().map(Into::into).collect()).collect(),
                ..Table::default()
            }),
        };
        if let Some(section) = page.sections.last_mut() {
            section.blocks.push(block);
        }
    }
    page
}

fn main() -> ExitCode {
    command::run("accuracy_page", |args, out| out.page(&page(args)?))
}
