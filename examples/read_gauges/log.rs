//! A log, row by row: one verdict a line, a summary at the end, bad rows named and passed over.

use std::error::Error;
use std::fs::File;
use std::io::{self, BufRead, BufReader, BufWriter, Write};
use std::path::Path;
use std::process::ExitCode;

use satline::diagnosis::{Prior, Reference, interpret};
use satline::report::{self, Units, VerdictLine};
use satline::window::{Assessment, Book, Columns, Entry, Instruments, Position, Reading, RestVerdict, Verdict, Window};
use satline::{Ratio, Refrigerant, Temperature};

use super::Args;
use super::lines::{Lines, separator, split};

/// Reads the log at `path` and writes to the terminal.
pub fn run(path: &Path, args: &Args) -> Result<ExitCode, Box<dyn Error>> {
    let file = File::open(path).map_err(|error| format!("{}: {error}", path.display()))?;
    let out = BufWriter::with_capacity(1 << 16, io::stdout().lock());
    let errors = BufWriter::new(io::stderr().lock());
    let summary = read(BufReader::with_capacity(1 << 16, file), out, errors, args)
        .map_err(|error| format!("{}: {error}", path.display()))?;
    Ok(match summary {
        Summary { answered: 0, .. } => ExitCode::FAILURE,
        Summary { bad: 0, .. } => ExitCode::SUCCESS,
        _ => ExitCode::from(2),
    })
}

/// How often what was seen.
#[derive(Debug, Default)]
pub struct Summary {
    /// Rows answered.
    pub answered: u64,
    /// Rows that could not be read.
    pub bad: u64,
    low: Counts,
    high: Counts,
    superheat: Counts,
    subcooling: Counts,
    condensing: Counts,
    vent: Counts,
    rest: [u64; 4],
}

/// Below, within, above.
#[derive(Debug, Default)]
struct Counts([u64; 3]);

impl Counts {
    fn add(&mut self, verdict: Option<Verdict>) {
        match verdict.map(|verdict| verdict.position) {
            Some(Position::Below) => self.0[0] += 1,
            Some(Position::Within) => self.0[1] += 1,
            Some(Position::Above) => self.0[2] += 1,
            None => {}
        }
    }
}

impl Summary {
    fn add(&mut self, a: &Assessment) {
        self.answered += 1;
        self.low.add(a.low.as_ref().and_then(|side| side.verdict));
        self.high.add(a.high.as_ref().and_then(|side| side.verdict));
        self.superheat.add(a.superheat.and_then(|finding| finding.verdict));
        self.subcooling.add(a.subcooling.and_then(|finding| finding.verdict));
        self.condensing.add(a.condensing_over_ambient.and_then(|finding| finding.verdict));
        self.vent.add(a.vent_verdict);
        if let Some(rest) = &a.rest {
            self.rest[match rest.verdict {
                RestVerdict::NotLevelled => 0,
                RestVerdict::LiquidGone => 1,
                RestVerdict::AtSaturation => 2,
                RestVerdict::AboveSaturation => 3,
            }] += 1;
        }
    }

    fn rows(&self) -> [(&'static str, &Counts); 6] {
        [
            ("low side", &self.low),
            ("high side", &self.high),
            ("superheat", &self.superheat),
            ("subcooling", &self.subcooling),
            ("condensing over ambient", &self.condensing),
            ("vent", &self.vent),
        ]
    }

    fn text(&self, at_rest: bool, out: &mut impl Write) -> io::Result<()> {
        writeln!(out, "\n{} rows answered, {} could not be read", self.answered, self.bad)?;
        if !at_rest {
            writeln!(
                out,
                "Rows are judged by printed charts and the trade's rules; a page about one reading also sets it against"
            )?;
            writeln!(out, "healthy cars computed for its day, which are closer.")?;
        }
        if at_rest {
            let [unlevelled, below, at, above] = self.rest;
            return writeln!(
                out,
                "  at rest: {below} below saturation, {at} at saturation, {above} above, {unlevelled} not levelled"
            );
        }
        if self.rows().iter().all(|(_, Counts(counts))| counts.iter().sum::<u64>() == 0) {
            return Ok(());
        }
        writeln!(out, "  {:<26}{:>10}{:>10}{:>10}", "", "below", "within", "above")?;
        for (name, Counts(counts)) in self.rows() {
            if counts.iter().sum::<u64>() > 0 {
                writeln!(out, "  {name:<26}{:>10}{:>10}{:>10}", counts[0], counts[1], counts[2])?;
            }
        }
        Ok(())
    }

    fn json(&self, at_rest: bool) -> serde_json::Value {
        let mut summary = serde_json::json!({ "answered": self.answered, "bad": self.bad });
        if at_rest {
            let [unlevelled, below, at, above] = self.rest;
            summary["at rest"] = serde_json::json!({ "below saturation": below, "at saturation": at,
                "above saturation": above, "not levelled": unlevelled });
        } else {
            for (name, Counts([below, within, above])) in self.rows() {
                summary[name] = serde_json::json!({ "below": below, "within": within, "above": above });
            }
        }
        serde_json::json!({ "summary": summary })
    }
}

/// What stays the same over the rows of one refrigerant.
struct Bench {
    refrigerant: Refrigerant,
    book: Book,
    instruments: Instruments,
    /// Cars simulated for the days met so far.
    cars: Vec<(Day, Reference)>,
}

/// A day in steps within which its cars serve for all rows: 1 °C, 10 % of humidity, 2 kPa.
type Day = (i64, Option<i64>, i64);

impl Bench {
    fn new(refrigerant: Refrigerant, args: &Args) -> Result<Self, satline::Error> {
        let (book, instruments) = (Book::new(refrigerant)?, args.instruments(refrigerant)?);
        Ok(Self { refrigerant, book, instruments, cars: Vec::new() })
    }

    /// What explains a running reading best, in a few words; nothing for a reading that cannot be explained.
    fn cause(&mut self, reading: &Reading, args: &Args) -> Result<Option<(&'static str, f64)>, satline::Error> {
        let Some(mut day) = reading.day(args.running()).filter(|day| Window::covers(self.refrigerant, day.ambient))
        else {
            return Ok(None);
        };
        let steps = |value: f64, step: f64| (value / step).round() as i64;
        let key = (
            steps(day.ambient.celsius(), 1.0),
            day.humidity.map(|humidity| steps(humidity.percent(), 10.0)),
            steps(day.air.kpa(), 2.0),
        );
        let at = match self.cars.iter().position(|(known, _)| *known == key) {
            Some(at) => at,
            None => {
                day.ambient = Temperature::from_celsius(key.0 as f64);
                day.humidity = key.1.map(|tenths| Ratio::from_percent(10.0 * tenths as f64));
                self.cars.push((key, Reference::new(&args.kinds(self.refrigerant), &[day])?));
                self.cars.len() - 1
            }
        };
        let answer = interpret(&args.evidence(&reading.into(), &self.instruments)?, &self.cars[at].1, &Prior::flat())?;
        if answer.unlike_anything {
            return Ok(Some(("unlike anything modelled", 1.0)));
        }
        if !answer.is_faulty() {
            return Ok(Some(("nothing a healthy car could not show", answer.healthy())));
        }
        Ok(answer.findings.first().map(|first| (first.cause.name, first.probability)))
    }
}

/// Reads rows from `log` one at a time, verdicts to `out`, rows that cannot be read to `errors`.
pub fn read(
    log: impl BufRead,
    mut out: impl Write,
    mut errors: impl Write,
    args: &Args,
) -> Result<Summary, Box<dyn Error>> {
    let mut lines = Lines::new(log);
    let mut fields = Vec::new();
    let Some((number, head)) = lines.advance()? else {
        return Err("the file is empty; its first line must name the columns, as in \"low [psi],high [psi]\"".into());
    };
    let head = head.map_err(|wrong| format!("line {number}: {wrong}"))?;
    let separator = separator(head);
    split(head, separator, &mut fields)?;
    let columns = Columns::read(fields.iter().map(String::as_str))?;
    if args.refrigerant.is_none() && !columns.name_refrigerant() {
        return Err(NO_REFRIGERANT.into());
    }
    let mut benches: Vec<Bench> = Vec::new();
    let mut summary = Summary::default();
    while let Some((line, text)) = lines.advance()? {
        let answer = text
            .and_then(|text| split(text, separator, &mut fields))
            .and_then(|()| answer(&columns, &fields, args, &mut benches));
        match answer {
            Ok((entry, bench, reading, assessment)) => {
                let bench = &mut benches[bench];
                let cause = if args.causes { bench.cause(&reading, args) } else { Ok(None) };
                match cause {
                    Ok(cause) => {
                        summary.add(&assessment);
                        write_row(&mut out, args, line, &entry, bench, &reading, &assessment, cause)?;
                    }
                    Err(wrong) => bad(&mut summary, &mut errors, &mut out, args.json, line, &wrong.to_string())?,
                }
            }
            Err(wrong) => bad(&mut summary, &mut errors, &mut out, args.json, line, &wrong)?,
        }
    }
    if summary.answered + summary.bad == 0 {
        return Err("the file has a head but no rows".into());
    }
    if args.json {
        writeln!(out, "{}", summary.json(args.at_rest))?;
    } else {
        summary.text(args.at_rest, &mut out)?;
    }
    out.flush()?;
    errors.flush()?;
    Ok(summary)
}

const NO_REFRIGERANT: satline::Error =
    satline::Error::Missing { what: "the refrigerant", way_out: "give --refrigerant, or a column named refrigerant" };

/// One row through reading and assessment; which bench it used.
fn answer(
    columns: &Columns,
    fields: &[String],
    args: &Args,
    benches: &mut Vec<Bench>,
) -> Result<(Entry, usize, Reading, Assessment), String> {
    let (mut entry, named) = columns.entry(fields).map_err(|error| error.to_string())?;
    let refrigerant = named.or(args.refrigerant).ok_or(NO_REFRIGERANT).map_err(|error| error.to_string())?;
    // what a row says about its place goes before the flags
    if entry.altitude.is_none() && entry.barometer.is_none() {
        (entry.altitude, entry.barometer) = (args.altitude, args.barometer);
    }
    let at = match benches.iter().position(|bench| bench.refrigerant == refrigerant) {
        Some(at) => at,
        None => {
            benches.push(Bench::new(refrigerant, args).map_err(|error| error.to_string())?);
            benches.len() - 1
        }
    };
    let bench = &benches[at];
    entry
        .reading(refrigerant, args.engine(), &bench.instruments)
        .and_then(|reading| Ok((reading, reading.assess(&bench.book)?)))
        .map(|(reading, assessment)| (entry, at, reading, assessment))
        .map_err(|error| super::refused(&error, &entry, &bench.book).replace("\n ", ""))
}

/// A row of figures with its line number, as JSON.
#[derive(serde::Serialize)]
struct NumberedRow {
    line: u64,
    #[serde(flatten)]
    row: report::Row,
    #[serde(skip_serializing_if = "Option::is_none")]
    cause: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    probability: Option<f64>,
}

#[allow(clippy::too_many_arguments)] // one row, with all that belongs to it
fn write_row(
    out: &mut impl Write,
    args: &Args,
    line: u64,
    entry: &Entry,
    bench: &Bench,
    reading: &Reading,
    assessment: &Assessment,
    cause: Option<(&'static str, f64)>,
) -> Result<(), Box<dyn Error>> {
    if args.json {
        let row = report::row(entry, reading, assessment, &bench.book);
        let (cause, probability) = cause.unzip();
        serde_json::to_writer(&mut *out, &NumberedRow { line, row, cause, probability })?;
        writeln!(out)?;
        return Ok(());
    }
    let units = Units::of(entry);
    write!(out, "line {line}: {}", VerdictLine { assessment, units: &units })?;
    if let Some((cause, probability)) = cause {
        write!(out, "; {cause} ({})", report::share(probability))?;
    }
    for question in entry.questions(&bench.book, Some(assessment)) {
        write!(out, " ? {question}")?;
    }
    writeln!(out)?;
    Ok(())
}

fn bad(
    summary: &mut Summary,
    errors: &mut impl Write,
    out: &mut impl Write,
    json: bool,
    line: u64,
    wrong: &str,
) -> Result<(), Box<dyn Error>> {
    summary.bad += 1;
    if json {
        writeln!(out, "{}", serde_json::json!({ "line": line, "error": wrong }))?;
    }
    writeln!(errors, "line {line}: {wrong}")?;
    Ok(())
}
