//! A log, row by row: one verdict a line, a summary at the end, bad rows named and passed over.

use std::error::Error;
use std::fs::File;
use std::io::{self, BufWriter, Read, Write};
use std::path::Path;
use std::process::ExitCode;

use satline::Refrigerant;
use satline::report::{self, Units, VerdictLine};
use satline::window::{Assessment, Book, Columns, Engine, Entry, Instruments, Position, RestVerdict, Verdict};

use super::Args;

/// Reads the log at `path` and writes to the terminal.
pub fn run(path: &Path, args: &Args) -> Result<ExitCode, Box<dyn Error>> {
    let file = File::open(path).map_err(|error| format!("{}: {error}", path.display()))?;
    let out = BufWriter::with_capacity(1 << 16, io::stdout().lock());
    let errors = BufWriter::new(io::stderr().lock());
    let summary = read(file, out, errors, args).map_err(|error| format!("{}: {error}", path.display()));
    match summary {
        Ok(summary) if summary.bad > 0 => Ok(ExitCode::from(2)),
        Ok(_) => Ok(ExitCode::SUCCESS),
        Err(error) => Err(error.into()),
    }
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
        self.low.add(a.low.verdict);
        self.high.add(a.high.verdict);
        self.superheat.add(a.superheat.and_then(|finding| finding.verdict));
        self.subcooling.add(a.subcooling.and_then(|finding| finding.verdict));
        self.condensing.add(a.condensing_above_ambient.and_then(|finding| finding.verdict));
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
            ("condensing above ambient", &self.condensing),
            ("vent", &self.vent),
        ]
    }

    fn text(&self, at_rest: bool, out: &mut impl Write) -> io::Result<()> {
        writeln!(out, "\n{} rows answered, {} could not be read", self.answered, self.bad)?;
        if at_rest {
            let [unlevelled, below, at, above] = self.rest;
            return writeln!(
                out,
                "  at rest: {below} below saturation, {at} at saturation, {above} above, {unlevelled} not levelled"
            );
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
}

impl Bench {
    fn new(refrigerant: Refrigerant, args: &Args) -> Result<Self, satline::Error> {
        Ok(Self { refrigerant, book: Book::new(refrigerant)?, instruments: args.instruments(refrigerant) })
    }
}

/// Reads rows from `log` one at a time, verdicts to `out`, rows that cannot be read to `errors`.
pub fn read(
    log: impl Read,
    mut out: impl Write,
    mut errors: impl Write,
    args: &Args,
) -> Result<Summary, Box<dyn Error>> {
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).flexible(true).from_reader(log);
    let head = reader.headers()?.clone();
    if head.iter().all(|name| name.trim().is_empty()) {
        return Err("the file is empty; its first line must name the columns, as in \"low [psi],high [psi]\"".into());
    }
    let columns = Columns::read(head.iter())?;
    let engine = args.engine();
    let mut benches: Vec<Bench> = Vec::new();
    let mut summary = Summary::default();
    let mut record = csv::StringRecord::new();
    loop {
        let line = reader.position().line();
        let more = match reader.read_record(&mut record) {
            Ok(more) => more,
            // text that is no text is one bad row; a file that cannot be read further is the end
            Err(error) if !error.is_io_error() => {
                bad(
                    &mut summary,
                    &mut errors,
                    &mut out,
                    args.json,
                    record.position().map_or(line, csv::Position::line),
                    &error,
                )?;
                continue;
            }
            Err(error) => return Err(error.into()),
        };
        if !more {
            break;
        }
        let line = record.position().map_or(line, csv::Position::line);
        let fields: Vec<&str> = record.iter().collect();
        let answer = columns.entry(&fields).and_then(|(entry, named)| answer(entry, named, engine, args, &mut benches));
        match answer {
            Ok((entry, bench, assessment)) => {
                summary.add(&assessment);
                write_row(&mut out, args, line, &entry, &benches[bench], &assessment, engine)?;
            }
            Err(error) => bad(&mut summary, &mut errors, &mut out, args.json, line, &error)?,
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

/// One row through reading and assessment; which bench it used.
fn answer(
    mut entry: Entry,
    named: Option<Refrigerant>,
    engine: Engine,
    args: &Args,
    benches: &mut Vec<Bench>,
) -> Result<(Entry, usize, Assessment), satline::Error> {
    let refrigerant = named.or(args.refrigerant).ok_or(satline::Error::Missing {
        what: "the refrigerant",
        way_out: "give --refrigerant, or a column named refrigerant",
    })?;
    entry.altitude = entry.altitude.or(args.altitude);
    entry.barometer = entry.barometer.or(args.barometer);
    let at = match benches.iter().position(|bench| bench.refrigerant == refrigerant) {
        Some(at) => at,
        None => {
            benches.push(Bench::new(refrigerant, args)?);
            benches.len() - 1
        }
    };
    let bench = &benches[at];
    let assessment = entry.reading(refrigerant, engine, &bench.instruments)?.assess(&bench.book)?;
    Ok((entry, at, assessment))
}

fn write_row(
    out: &mut impl Write,
    args: &Args,
    line: u64,
    entry: &Entry,
    bench: &Bench,
    assessment: &Assessment,
    engine: Engine,
) -> Result<(), Box<dyn Error>> {
    if args.json {
        let reading = entry.reading(bench.refrigerant, engine, &bench.instruments)?;
        let mut report = report::reading(entry, &reading, assessment, &bench.book, &bench.instruments);
        // the same for every row: once on the page of a single reading is enough
        report.cautions.clear();
        report.sources.clear();
        report.charts.clear();
        let mut row = serde_json::to_value(&report)?;
        row["line"] = line.into();
        writeln!(out, "{row}")?;
        return Ok(());
    }
    let units = Units::of(entry);
    write!(out, "line {line}: {}", VerdictLine { assessment, units: &units })?;
    for question in entry.questions(&bench.book, assessment) {
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
    error: &dyn Error,
) -> Result<(), Box<dyn Error>> {
    summary.bad += 1;
    if json {
        writeln!(out, "{}", serde_json::json!({ "line": line, "error": error.to_string() }))?;
    }
    writeln!(errors, "line {line}: {error}")?;
    Ok(())
}
