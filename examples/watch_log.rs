//! A log of gauge readings over time: what is steady, what cycles, what drifts?
//!
//! ```text
//! cargo run --example watch_log
//! cargo run --release --example watch_log -- --refrigerant R-134a readings.csv
//! cargo run --release --example watch_log -- --refrigerant R-134a --follow --for "10 min" growing.csv
//! cargo run --example watch_log -- --language es
//! ```
//!
//! The head of the file names quantity and unit, as for `read_gauges --log`, and a time: `time [s],low [psi],high [psi]`, with
//! `suction line [°F]`, `liquid line [°F]`, `vent [°F]`, `ambient [°F]` and `humidity [%]` where they were read. Columns of other names
//! are left aside, unless `--columns` says what they are. Rows that cannot be used are reported and skipped. With `--follow` every
//! finding is printed as soon as it is certain; an incomplete last line waits for its end. A log that is cut or replaced is closed, and
//! the new one is read from its top; one that is deleted ends the page.
//!
//! It ends with the log as one reading: the operating state held longest, the clutch duty cycle, and both gauges before the start.
//! `--causes` says what explains it.
//!
//! `--json` prints one object a line: the fields of [`satline::report::TraceRow`], of which `finding`, `from_s`, `to_s`,
//! `since_first_s` and `count` are always present; then one with `reading` (the command for the log as a reading, as a list of
//! words) if there is one, and one with `summary`. A row that cannot be used is an object with `line` and `error`.
//!
//! Exit status: 0 every row used (and for the built-in log), 1 none used, 2 some could not be used, 3 the log was deleted while it was
//! followed.

#[path = "shared/columns.rs"]
mod columns;
#[path = "shared/command.rs"]
mod command;
#[path = "shared/due.rs"]
mod due;
#[path = "shared/language.rs"]
mod language;
#[path = "shared/lines.rs"]
pub mod lines;

use std::cell::Cell;
use std::error::Error;
use std::fs::File;
use std::io::{self, BufRead, BufReader, IsTerminal, Read, Write};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::rc::Rc;
use std::time::{Duration, Instant};

use clap::{Parser, ValueEnum};
use satline::circuit::{CircuitKind, CompressorKind, Settings};
use satline::diagnosis::Diagnosis;
use satline::inspection::{Columns, DisplayUnits, Entry, Instruments, Measurand, Reading};
use satline::quantity::Time;
use satline::report;
use satline::trace::{CombinedReadings, Sample, SteadyKind, Trace, TraceFinding, TraceReading};
use satline::{Entered, GaugePressure, Length, Pressure, Refrigerant};

use due::Due;
use language::{Spoken, Wrong};
use lines::{Lines, separator, split};

/// The built-in log: invented, with two rows that cannot be used.
const SAMPLE: &str = include_str!("watch_log.csv");

/// How often a growing file is polled.
const POLL_EVERY: Duration = Duration::from_millis(200);
/// From one progress line to the next; our choice.
const PROGRESS_EVERY: Duration = Duration::from_millis(400);
/// Rows between two looks at the clock.
const ROWS_PER_CHECK: u64 = 256;

/// Follows a log of gauge readings and reports steady periods, clutch cycling and drifts.
#[derive(Debug, Clone, Parser)]
#[command(name = "watch_log")]
pub struct Args {
    /// The log, or - for standard input: a head naming quantity and unit, as in "time [s],low [psi],high [psi]". Without
    /// it, a built-in sample.
    #[arg(value_name = "FILE")]
    file: Option<PathBuf>,
    /// What columns of other names stand for, as in "Suction (psi)=low [psi],Discharge (psi)=high [psi]".
    #[arg(long, value_name = "NAMES", requires = "file", value_delimiter = ',')]
    columns: Vec<columns::NamedColumn>,
    /// Refrigerant, such as R-134a or R-1234yf, if the log has no column for it.
    #[arg(long, value_name = "NAME")]
    refrigerant: Option<Refrigerant>,
    /// Keep reading as the file grows, until interrupted.
    #[arg(long, requires = "file")]
    follow: bool,
    /// With --follow: stop after this time, such as "60 s" or "10 min".
    #[arg(long = "for", value_name = "TIME", requires = "follow")]
    how_long: Option<Entered<Time>>,
    /// Instruments that took the readings.
    #[arg(long, value_enum, default_value_t = Kind::Analogue)]
    instruments: Kind,
    /// Altitude above sea level; sea level when neither this nor --barometer is given.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true, conflicts_with = "altitude")]
    barometer: Option<Entered<Pressure>>,
    /// Write progress to standard error even if that is not a terminal.
    #[arg(long)]
    progress: bool,
    /// Say what explains the log best: the diagnosis of its reading, at idle with doors open.
    #[arg(long)]
    causes: bool,
    /// Print one JSON object a line instead of a page.
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    spoken: Spoken,
}

/// Kinds of instruments.
#[derive(Debug, Clone, Copy, ValueEnum)]
enum Kind {
    /// Analogue gauges of a service set, thermocouples.
    Analogue,
    /// Digital pressure probes, thermistors.
    Digital,
}

/// Number of rows used and not used.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Summary {
    /// Rows used.
    pub used: u64,
    /// Rows that could not be used.
    pub bad: u64,
}

/// What becomes of a log that has been read to its end.
enum Next<R> {
    /// It may have grown.
    Grown,
    /// It is complete, or was followed for long enough.
    Complete,
    /// It was cut or replaced, as the words say in English and in Spanish: the new one.
    Again([&'static str; 2], Lines<R>),
    /// It is no longer there.
    Deleted,
}

/// A source that counts the bytes read from it.
struct Counted<R> {
    source: R,
    read: Rc<Cell<u64>>,
}

impl<R: Read> Read for Counted<R> {
    fn read(&mut self, into: &mut [u8]) -> io::Result<usize> {
        let n = self.source.read(into)?;
        self.read.set(self.read.get() + n as u64);
        Ok(n)
    }
}

/// The progress line on standard error.
struct Progress {
    shown: bool,
    read: Rc<Cell<u64>>,
    all: Option<u64>,
    due: Due,
    written: bool,
    spoken: Spoken,
}

impl Progress {
    fn show(&mut self, rows: u64) {
        if !self.shown || !self.due.is(Instant::now()) {
            return;
        }
        self.written = true;
        let progress = match self.all {
            // the file may have grown since it was opened
            Some(all) if all > 0 => format!("{:.0} %, ", 100.0 * (self.read.get() as f64 / all as f64).min(1.0)),
            _ => format!("{} MB, ", self.spoken.language().number(self.read.get() as f64 / 1e6, 1)),
        };
        let of_rows = self.spoken.say("rows", "filas");
        let _ = write!(io::stderr(), "\rwatch_log: {progress}{rows} {of_rows} \x1b[K");
    }

    fn clear(&mut self) {
        if std::mem::take(&mut self.written) {
            let _ = write!(io::stderr(), "\r\x1b[K");
        }
    }
}

/// A log being read, from its head on.
struct Watch {
    columns: Columns,
    separator: u8,
    refrigerant: Option<Refrigerant>,
    /// From the first good row on.
    session: Option<Session>,
    summary: Summary,
    fields: Vec<String>,
}

struct Session {
    trace: Trace,
    instruments: Instruments,
    start: Time,
    units: DisplayUnits,
    first: Entry,
    last_time: Time,
    combined: CombinedReadings,
    /// Whether the last steady period was a vacuum.
    vacuum: bool,
}

/// Where findings and complaints are written.
struct Out<'a, W, E> {
    out: &'a mut W,
    errors: &'a mut E,
    json: bool,
    spoken: Spoken,
}

impl<W: Write, E: Write> Out<'_, W, E> {
    fn finding(&mut self, finding: &TraceFinding, session: &Session) -> Result<(), Box<dyn Error>> {
        let row = report::trace_row(finding, session.start, &session.units);
        if self.json {
            serde_json::to_writer(&mut *self.out, &row)?;
            writeln!(self.out)?;
        } else {
            write!(self.out, "{}", row.text_in(80, self.spoken.language()))?;
        }
        Ok(())
    }

    fn bad(&mut self, line: u64, wrong: &Wrong) -> Result<(), Box<dyn Error>> {
        if self.json {
            // data are the same in every language
            let english = wrong.to_string();
            writeln!(self.out, "{}", serde_json::json!({ "line": line, "error": command::excerpt(&english) }))?;
        }
        let said = self.spoken.wrong(wrong);
        writeln!(self.errors, "{} {line}: {}", self.spoken.line_word(), command::excerpt(&said))?;
        Ok(())
    }
}

/// A log without a column of time.
fn no_time() -> Wrong {
    Wrong::new(
        "no column says when the rows were read: the head must name a time with its unit, as in \"time [s]\"; times of day are not \
         read, count seconds or minutes from any moment",
        "ninguna columna dice cuándo se leyeron las filas: el encabezado debe nombrar un tiempo con su unidad, como en «time [s]»; \
         las horas del día no se leen, cuente segundos o minutos desde cualquier momento",
    )
}

const NO_REFRIGERANT: satline::Error =
    satline::Error::Missing { what: "the refrigerant", way_out: "give --refrigerant, or a column named refrigerant" };

impl Watch {
    /// A log with this head, and a complaint about columns left aside.
    fn new(head: &str, args: &Args) -> Result<(Self, Option<String>), Box<dyn Error>> {
        let separator = separator(head);
        let mut fields = Vec::new();
        split(head, separator, &mut fields)?;
        let heads = |heads: &[String]| Columns::read(heads.iter().map(String::as_str));
        let (columns, left_aside) = columns::read(&mut fields, &args.columns, "low [psi]", args.spoken, heads)?;
        if columns.time_unit().is_none() {
            return Err(no_time().into());
        }
        for (measurand, missing) in [(Measurand::LowSide, "low"), (Measurand::HighSide, "high")] {
            if !fields.iter().any(|head| is_column(head, measurand)) {
                let aside = left_aside.map_or(String::new(), |aside| format!("\n{aside}"));
                let needed = Wrong::new(
                    format!("column {missing} is missing: a trace needs both gauges, as in {HEAD:?}"),
                    format!("falta la columna «{missing}»: un registro necesita ambos manómetros, como en «{HEAD}»"),
                );
                return Err(needed.and(&aside, &aside).into());
            }
        }
        if args.refrigerant.is_none() && !columns.name_refrigerant() {
            return Err(NO_REFRIGERANT.into());
        }
        let summary = Summary::default();
        let watch = Self { columns, separator, refrigerant: args.refrigerant, session: None, summary, fields };
        Ok((watch, left_aside))
    }

    /// Takes one line and returns the findings that it completes.
    fn row(&mut self, text: &str, args: &Args) -> Result<Vec<TraceFinding>, Wrong> {
        split(text, self.separator, &mut self.fields)?;
        let time = self.columns.time(&self.fields)?.ok_or_else(no_time)?.quantity();
        let (mut entry, named) = self.columns.entry(&self.fields)?;
        let refrigerant = self.refrigerant.or(named).ok_or(NO_REFRIGERANT)?;
        if let Some(other) = named.filter(|&named| named != refrigerant) {
            return Err(Wrong::new(
                format!("{other}, and the log is read as {refrigerant}: one log, one refrigerant"),
                format!("{other}, y el registro se lee como {refrigerant}: un registro, un refrigerante"),
            ));
        }
        if entry.altitude.is_none() && entry.barometer.is_none() {
            (entry.altitude, entry.barometer) = (args.altitude, args.barometer);
        }
        let instruments =
            self.session.as_ref().map_or_else(|| args.instruments(refrigerant), |session| session.instruments);
        // with the engine off the equalised pressure may exceed the scale of the low gauge, and is read on the other
        let reading = entry.reading(refrigerant, Settings::TEST, &instruments);
        let reading = reading.or_else(|error| entry.equalised_reading(refrigerant, &instruments).map_err(|_| error))?;
        let session = match &mut self.session {
            Some(session) => session,
            None => self.session.insert(Session::new(entry, time, instruments)?),
        };
        let one_gauge = || Wrong::new("a row needs both gauges", "una fila necesita ambos manómetros");
        let found = session.trace.push(&sample(&reading, time).ok_or_else(one_gauge)?)?;
        self.refrigerant = Some(refrigerant);
        session.last_time = time;
        Ok(found)
    }

    /// Reads every line available.
    fn read<R: BufRead, W: Write, E: Write>(
        &mut self,
        lines: &mut Lines<R>,
        args: &Args,
        out: &mut Out<W, E>,
        progress: &mut Progress,
    ) -> Result<(), Box<dyn Error>> {
        while let Some((line, text)) = lines.advance()? {
            let was = self.session.is_some();
            match text.and_then(|text| self.row(text, args)) {
                Ok(found) => {
                    self.summary.used += 1;
                    if !was && !args.json {
                        self.opening(args, out.out)?;
                    }
                    self.report(found, out)?;
                }
                Err(wrong) => {
                    progress.clear();
                    self.summary.bad += 1;
                    out.bad(line, &wrong)?;
                }
            }
            if (self.summary.used + self.summary.bad).is_multiple_of(ROWS_PER_CHECK) {
                progress.show(self.summary.used + self.summary.bad);
            }
        }
        Ok(())
    }

    fn report<W: Write, E: Write>(
        &mut self,
        found: Vec<TraceFinding>,
        out: &mut Out<W, E>,
    ) -> Result<(), Box<dyn Error>> {
        let Some(session) = &mut self.session else { return Ok(()) };
        for finding in found {
            out.finding(&finding, session)?;
            session.combined.add(&finding);
            if let TraceFinding::Steady(period) = finding {
                session.vacuum = period.kind == SteadyKind::EqualisedVacuum;
            }
        }
        Ok(())
    }

    fn opening(&self, args: &Args, out: &mut impl Write) -> Result<(), Box<dyn Error>> {
        let (Some(session), Some(refrigerant)) = (&self.session, self.refrigerant) else { return Ok(()) };
        let (spoken, language) = (args.spoken, args.spoken.language());
        let opening = report::trace_opening_in(refrigerant, &session.instruments, &session.units, language)?;
        write!(out, "{}", opening.text(80))?;
        if args.file.is_none() {
            let invented = spoken.say(
                "Worked example: the log is invented, no car was measured for it.",
                "Ejemplo resuelto: el registro es inventado, no se midió ningún coche.",
            );
            writeln!(out, "  {invented}")?;
        }
        writeln!(out, "\n{}", spoken.say("What was seen", "Qué se vio"))?;
        Ok(())
    }

    /// Writes what is still open and the end of the page.
    fn close<W: Write, E: Write>(
        mut self,
        torn: bool,
        args: &Args,
        out: &mut Out<W, E>,
    ) -> Result<Summary, Box<dyn Error>> {
        let Some(session) = &self.session else { return Ok(self.summary) };
        let open = session.trace.so_far()?;
        self.report(open, out)?;
        let (Some(session), Some(refrigerant)) = (&self.session, self.refrigerant) else { return Ok(self.summary) };
        let reading = session.reading();
        let words = reading.as_ref().map(|reading| words(reading, session, refrigerant, args));
        let diagnosis = match &reading {
            Some(reading) if args.causes => Some(diagnosis(reading, session, refrigerant)?),
            _ => None,
        };
        if args.json {
            if let Some(words) = &words {
                writeln!(out.out, "{}", serde_json::json!({ "reading": words }))?;
            }
            if let Some(diagnosis) = &diagnosis {
                writeln!(out.out, "{}", serde_json::json!({ "diagnosis": diagnosis.report() }))?;
            }
            let Summary { used, bad } = self.summary;
            writeln!(out.out, "{}", serde_json::json!({ "summary": { "used": used, "bad": bad } }))?;
            return Ok(self.summary);
        }
        let (spoken, language) = (args.spoken, args.spoken.language());
        match (&reading, &words) {
            (Some(reading), Some(words)) => {
                writeln!(out.out, "\n{}", spoken.say("The log as a reading", "El registro como lectura"))?;
                write!(out.out, "{}", report::folded(&combined(reading, session, spoken), "  ", "  ", 80))?;
                writeln!(out.out, "{}", command(words))?;
            }
            _ => writeln!(out.out, "\n{}", no_reading(session, spoken))?,
        }
        if let Some(diagnosis) = diagnosis {
            writeln!(out.out, "\n{}", diagnosis.report().brief_in(language).text(80).trim_end())?;
        }
        self.counts(session, torn, spoken, out.out)?;
        writeln!(out.out, "\n{}", spoken.say("Safety", "Seguridad"))?;
        for caution in language.cautions(refrigerant) {
            write!(out.out, "{}", report::folded(&caution, "  - ", "    ", 80))?;
        }
        Ok(self.summary)
    }

    /// What was read and what was not.
    fn counts(&self, session: &Session, torn: bool, spoken: Spoken, out: &mut impl Write) -> io::Result<()> {
        let Summary { used, bad } = self.summary;
        writeln!(out, "\n{}", spoken.say("Rows", "Filas"))?;
        let unused = match bad {
            0 => String::new(),
            _ => spoken.say(
                format!(", {bad} could not be used (on standard error)"),
                format!(", {bad} sin poder usar (en la salida de errores)"),
            ),
        };
        let used = spoken.say(format!("{used} rows used"), format!("{used} filas usadas"));
        writeln!(out, "  {used}{unused}.")?;
        if let Some(shortest) = session.trace.shortest_period() {
            let seconds = (shortest.seconds() * 10.0).round() / 10.0;
            let decimals = usize::from(seconds.fract() != 0.0);
            let here = spoken.language().number(seconds, decimals);
            let resolved = spoken.say(
                format!("Clutch cycles shorter than {here} s are not resolved."),
                format!("Los ciclos del embrague de menos de {here} s no se distinguen."),
            );
            writeln!(out, "  {resolved}")?;
        }
        if torn {
            let torn = spoken
                .say("The last line is incomplete and was not used.", "La última línea está incompleta y no se usó.");
            writeln!(out, "  {torn}")?;
        }
        Ok(())
    }
}

impl Session {
    fn new(first: Entry, start: Time, instruments: Instruments) -> Result<Self, satline::Error> {
        let zero = GaugePressure::from_bar(0.0);
        let (low, high) = (instruments.low.read(zero)?, instruments.high.read(zero)?);
        let (low, high) = (low.standard_uncertainty(), high.standard_uncertainty());
        let (trace, combined) = (Trace::new(low, high)?, CombinedReadings::new(low, high));
        Ok(Self { trace, combined, vacuum: false, instruments, start, units: first.units(), first, last_time: start })
    }

    /// What the log is as a reading; `None` where nothing was steady.
    fn reading(&self) -> Option<LogReading> {
        match (self.combined.running(), self.combined.equalised()) {
            (Some(running), equalised) => Some(LogReading::Running { running, equalised }),
            (None, Some(equalised)) => Some(LogReading::Equalised(equalised)),
            (None, None) => None,
        }
    }
}

impl Args {
    /// The end of the time for which a log is followed; `None` for one that no clock reaches.
    fn until(&self) -> Option<Instant> {
        let long = Duration::try_from_secs_f64(self.how_long?.quantity().seconds()).ok()?;
        Instant::now().checked_add(long)
    }

    fn instruments(&self, refrigerant: Refrigerant) -> Instruments {
        match self.instruments {
            Kind::Analogue => Instruments::analogue(refrigerant),
            Kind::Digital => Instruments::digital(refrigerant),
        }
    }
}

fn sample(reading: &Reading, time: Time) -> Option<Sample> {
    let line = |measurand| reading.temperature(measurand).map(|t| t.value());
    Some(Sample {
        suction_line: line(Measurand::SuctionLine),
        liquid_line: line(Measurand::LiquidLine),
        vent: line(Measurand::Vent),
        ambient: reading.ambient().map(|t| t.value()),
        humidity: reading.humidity(),
        ..Sample::gauges(time, reading.low()?.value(), reading.high()?.value())
    })
}

/// What a log is as a reading.
enum LogReading {
    /// The operating state held longest, and the equalised circuit before it.
    Running { running: TraceReading, equalised: Option<TraceReading> },
    /// The equalised circuit, which never ran.
    Equalised(TraceReading),
}

/// Why the log is no reading.
fn no_reading(session: &Session, spoken: Spoken) -> &'static str {
    if session.vacuum {
        spoken.say(
            "The last steady period is a vacuum: hold_test says whether it holds.",
            "El último tramo estable es un vacío: hold_test dice si se mantiene.",
        )
    } else {
        spoken.say(
            "Nothing was steady for long enough to be a reading.",
            "Nada estuvo estable el tiempo suficiente para ser una lectura.",
        )
    }
}

/// How the reading was made of the log.
fn combined(reading: &LogReading, session: &Session, spoken: Spoken) -> String {
    let LogReading::Running { running, equalised } = reading else {
        let before =
            spoken.say("Both gauges before the compressor ran.", "Ambos manómetros antes de que girara el compresor.");
        return before.to_owned();
    };
    let minutes = spoken.language().number(running.duration.seconds() / 60.0, 0);
    let mut text = match running.stretches {
        1 => spoken.say(
            format!("The operating state held longest, {minutes} min."),
            format!("El estado de funcionamiento que más duró, {minutes} min."),
        ),
        several => spoken.say(
            format!("The operating state held longest: {several} stretches, {minutes} min in all."),
            format!("El estado de funcionamiento que más duró: {several} tramos, {minutes} min en total."),
        ),
    };
    text += &match session.combined.set_aside() {
        0 => String::new(),
        1 => spoken
            .say(" One stretch was another state and is left aside.", " Un tramo fue otro estado y se deja de lado.")
            .to_owned(),
        others => spoken.say(
            format!(" {others} stretches were other states and are left aside."),
            format!(" {others} tramos fueron otros estados y se dejan de lado."),
        ),
    };
    if running.clutch_duty_cycle.is_some() {
        text += spoken.say(
            " The clutch cycles: the low side is that at cut-out.",
            " El embrague cicla: el lado de baja es el del desacople.",
        );
    }
    if equalised.is_some() {
        text += spoken.say(
            " At rest: both gauges before the start.",
            " Con el motor parado: ambos manómetros antes del arranque.",
        );
    }
    text
}

/// The entries of a reading: of the running or equalised circuit, and of the equalised one before it ran.
fn entries(reading: &LogReading, session: &Session) -> (Entry, Option<Entry>) {
    let in_its_place = |reading: &TraceReading| {
        let mut entry = reading.entry(&session.units);
        (entry.altitude, entry.barometer) = (session.first.altitude, session.first.barometer);
        entry
    };
    // of a circuit at rest the gauges and the temperature around it
    let at_rest = |reading: &TraceReading| {
        let all = in_its_place(reading);
        let gauges = [Measurand::LowSide, Measurand::HighSide].map(|side| all.pressure(side));
        let [Some(low), Some(high)] = gauges else { return all };
        let mut entry = Entry::gauges(low, high);
        (entry.ambient, entry.altitude, entry.barometer) = (all.ambient, all.altitude, all.barometer);
        entry
    };
    match reading {
        LogReading::Equalised(equalised) => (at_rest(equalised), None),
        LogReading::Running { running, equalised } => {
            let mut running = in_its_place(running);
            let before = equalised.as_ref().map(at_rest);
            // cycling has no line of its own: the day was the same
            running.ambient = running.ambient.or(before.and_then(|entry| entry.ambient)).or(session.first.ambient);
            running.humidity = running.humidity.or(session.first.humidity);
            (running, before)
        }
    }
}

/// The diagnosis of the reading that the log is.
fn diagnosis(reading: &LogReading, session: &Session, refrigerant: Refrigerant) -> Result<Diagnosis, satline::Error> {
    let (entry, before) = entries(reading, session);
    let request = Diagnosis::of(refrigerant).entry(entry).instruments(session.instruments);
    let request = match reading {
        LogReading::Equalised(_) => request.first_equalised(),
        LogReading::Running { .. } => request,
    };
    let request = before.into_iter().fold(request, |request, before| request.equalised(before));
    let cycling = session.combined.has_cycling_clutch().then_some(CompressorKind::Cycling);
    request.kinds(CircuitKind::fitting(refrigerant, cycling, None, false)).run()
}

/// The words of the command that interprets the reading.
fn words(reading: &LogReading, session: &Session, refrigerant: Refrigerant, args: &Args) -> Vec<String> {
    let mut words = ["cargo", "run", "--example", "read_gauges", "--", "--refrigerant"].map(str::to_owned).to_vec();
    words.push(refrigerant.to_string());
    let (entry, before) = entries(reading, session);
    let mut add =
        |flag: &str, value: Option<String>| words.extend(value.into_iter().flat_map(|value| [flag.to_owned(), value]));
    for (measurand, flag) in [
        (Measurand::LowSide, "--low"),
        (Measurand::HighSide, "--high"),
        (Measurand::SuctionLine, "--suction-line"),
        (Measurand::LiquidLine, "--liquid-line"),
        (Measurand::Vent, "--vent"),
        (Measurand::ClutchDutyCycle, "--duty"),
    ] {
        add(flag, entry.value(measurand).map(|value| value.to_string()));
    }
    add("--ambient", entry.ambient.map(|ambient| ambient.to_string()));
    add("--humidity", entry.humidity.map(|humidity| humidity.to_string()));
    let resting = before.and_then(|before| before.pressure(Measurand::LowSide));
    add("--resting", resting.map(|resting| resting.to_string()));
    let warmth = before.and_then(|before| before.ambient).filter(|_| resting.is_some());
    add("--resting-temperature", warmth.map(|warmth| warmth.to_string()));
    let place = &session.first;
    add("--barometer", place.barometer.map(|barometer| barometer.to_string()));
    add("--altitude", place.altitude.filter(|_| place.barometer.is_none()).map(|altitude| altitude.to_string()));
    add("--instruments", matches!(args.instruments, Kind::Digital).then(|| "digital".to_owned()));
    // data are the same in every language
    add("--language", args.spoken.said().filter(|_| !args.json).map(|language| language.to_string()));
    match reading {
        LogReading::Equalised(_) => words.push("--at-rest".to_owned()),
        LogReading::Running { .. } if session.combined.has_cycling_clutch() => {
            words.extend(["--compressor", "cycling"].map(str::to_owned));
        }
        LogReading::Running { .. } => {}
    }
    words
}

/// The words as a command to copy, no line longer than 80 columns.
fn command(words: &[String]) -> String {
    let quoted = words.iter().map(|word| if word.contains(' ') { format!("\"{word}\"") } else { word.clone() });
    let mut text = String::from("  ");
    let mut used = 2;
    for word in quoted {
        let length = word.chars().count();
        // a blank before the word and a backslash after it
        if used + length + 3 > 80 {
            text += " \\\n     ";
            used = 5;
        }
        if used > 2 {
            text.push(' ');
            used += 1;
        }
        text += &word;
        used += length;
    }
    text
}

/// Reads a complete log; findings go to `out`, rows that cannot be used to `errors`.
pub fn read(
    log: impl BufRead,
    mut out: impl Write,
    mut errors: impl Write,
    args: &Args,
) -> Result<Summary, Box<dyn Error>> {
    let (read, spoken) = (Rc::default(), args.spoken);
    let quiet = Progress {
        shown: false,
        read,
        all: None,
        due: Due::new(PROGRESS_EVERY, Instant::now()),
        written: false,
        spoken,
    };
    let read = watch(Lines::new(log), &mut out, &mut errors, args, quiet, || Ok(Next::Complete));
    read.map(|(summary, _)| summary).map_err(|error| spoken.refused(error))
}

/// A log without a head.
fn empty() -> Wrong {
    Wrong::new(
        "the log is empty; its first line must name the columns, as in \"time [s],low [psi],high [psi]\"",
        "el registro está vacío; su primera línea debe nombrar las columnas, como en «time [s],low [psi],high [psi]»",
    )
}

/// A head of a log.
const HEAD: &str = "time [s],low [psi],high [psi]";

/// Whether `head` names the column of `measurand`.
fn is_column(head: &str, measurand: Measurand) -> bool {
    let of_one = |columns: Columns| columns.entry(&["1"]).is_ok_and(|(entry, _)| entry.value(measurand).is_some());
    Columns::read([head]).is_ok_and(of_one)
}

/// Reads one log after the other until `next` says that none will come; whether the last one was deleted.
fn watch<R: BufRead>(
    mut lines: Lines<R>,
    out: &mut impl Write,
    errors: &mut impl Write,
    args: &Args,
    mut progress: Progress,
    mut next: impl FnMut() -> io::Result<Next<R>>,
) -> Result<(Summary, bool), Box<dyn Error>> {
    let spoken = args.spoken;
    let mut out = Out { out, errors, json: args.json, spoken };
    let mut all = Summary::default();
    let deleted = loop {
        let (summary, ended) = one_log(&mut lines, args, &mut out, &mut progress, &mut next)?;
        all.used += summary.used;
        all.bad += summary.bad;
        out.out.flush()?;
        match ended {
            Next::Again([english, spanish], new) => {
                let again = spoken.say(
                    format!("the log was {english}: the new one is read from its top"),
                    format!("el registro fue {spanish}: el nuevo se lee desde el principio"),
                );
                writeln!(out.errors, "{again}")?;
                lines = new;
            }
            Next::Deleted => {
                writeln!(out.errors, "{}", spoken.say("the log was deleted", "el registro fue borrado"))?;
                break true;
            }
            Next::Grown | Next::Complete => break false,
        }
    };
    out.errors.flush()?;
    match all.used + all.bad {
        _ if deleted || all.used > 0 => Ok((all, deleted)),
        0 => Err(Wrong::new("the log has a head but no rows", "el registro tiene encabezado pero ninguna fila").into()),
        rows => Err(Wrong::new(
            format!("none of {rows} rows could be used"),
            format!("no se pudo usar ninguna de {rows} filas"),
        )
        .into()),
    }
}

/// Reads one log to its end and writes its page; what becomes of it then.
fn one_log<R: BufRead, W: Write, E: Write>(
    lines: &mut Lines<R>,
    args: &Args,
    out: &mut Out<W, E>,
    progress: &mut Progress,
    next: &mut impl FnMut() -> io::Result<Next<R>>,
) -> Result<(Summary, Next<R>), Box<dyn Error>> {
    let mut watch = loop {
        if let Some((number, head)) = lines.advance()? {
            let line = out.spoken.line_word();
            let head = head.map_err(|wrong| format!("{line} {number}: {}", out.spoken.wrong(&wrong)))?;
            let (watch, left_aside) = Watch::new(head, args)?;
            if let Some(left_aside) = left_aside {
                writeln!(out.errors, "{line} {number}: {}", command::excerpt(&left_aside))?;
            }
            break watch;
        }
        match next()? {
            Next::Grown => {}
            Next::Complete => return Err(empty().into()),
            ended => return Ok((Summary::default(), ended)),
        }
    };
    let ended = loop {
        watch.read(lines, args, out, progress)?;
        if args.follow {
            progress.clear();
            out.out.flush()?;
            out.errors.flush()?;
        }
        match next()? {
            Next::Grown => {}
            ended => break ended,
        }
    };
    progress.clear();
    Ok((watch.close(lines.is_torn(), args, out)?, ended))
}

/// The page about the built-in log, and the complaints about its rows.
pub fn demonstration(args: &Args) -> Result<(String, String), Box<dyn Error>> {
    let args = Args { refrigerant: args.refrigerant.or(Some(Refrigerant::R134a)), ..args.clone() };
    let (mut out, mut errors) = (Vec::new(), Vec::new());
    read(SAMPLE.as_bytes(), &mut out, &mut errors, &args)?;
    Ok((String::from_utf8(out)?, String::from_utf8(errors)?))
}

/// A log in a file that is read as it grows.
struct Growing {
    path: PathBuf,
    /// Bytes read of it.
    read: Rc<Cell<u64>>,
    identity: Option<(u64, u64)>,
    missing_since: Option<Instant>,
}

/// A log from anywhere.
type Source = BufReader<Counted<Box<dyn Read>>>;

/// How long a log may be missing before it counts as deleted: a log that is replaced is missing for a moment. Our choice.
const MISSING_FOR: Duration = Duration::from_secs(1);

impl Growing {
    /// The log at `path`, not yet opened.
    fn at(path: &Path) -> Self {
        Self { path: path.to_owned(), read: Rc::default(), identity: None, missing_since: None }
    }

    /// Opens the log that is there now; its lines from the top.
    fn open(&mut self) -> io::Result<Lines<Source>> {
        let file = File::open(&self.path)?;
        self.identity = identity(&file.metadata()?);
        self.read.set(0);
        Ok(Lines::growing(counted(Box::new(file), &self.read)))
    }

    /// What became of the log since it was read to its end.
    fn next(&mut self) -> io::Result<Next<Source>> {
        let about = match std::fs::metadata(&self.path) {
            Ok(about) => about,
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                let since = *self.missing_since.get_or_insert_with(Instant::now);
                return Ok(if since.elapsed() < MISSING_FOR { Next::Grown } else { Next::Deleted });
            }
            Err(error) => return Err(error),
        };
        self.missing_since = None;
        let what = if identity(&about) != self.identity {
            ["replaced", "sustituido"]
        } else if about.len() < self.read.get() {
            ["cut", "recortado"]
        } else {
            return Ok(Next::Grown);
        };
        match self.open() {
            Ok(lines) => Ok(Next::Again(what, lines)),
            // missing again: the next look says more
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Next::Grown),
            Err(error) => Err(error),
        }
    }
}

/// What tells one file from another of the same name; `None` where the system does not say.
#[cfg(unix)]
fn identity(about: &std::fs::Metadata) -> Option<(u64, u64)> {
    use std::os::unix::fs::MetadataExt;
    Some((about.dev(), about.ino()))
}

/// What tells one file from another of the same name; `None` where the system does not say.
#[cfg(not(unix))]
fn identity(_: &std::fs::Metadata) -> Option<(u64, u64)> {
    None
}

fn counted(source: Box<dyn Read>, read: &Rc<Cell<u64>>) -> Source {
    BufReader::with_capacity(1 << 16, Counted { source, read: Rc::clone(read) })
}

fn run(args: &Args, out: &mut command::Output) -> Result<ExitCode, Box<dyn Error>> {
    let Some(path) = &args.file else {
        let (page, complaints) = demonstration(args)?;
        let printed = out.page(&page)?;
        command::complain(complaints.trim_end());
        return Ok(printed); // the sample shows bad rows on purpose
    };
    let piped = path.as_os_str() == "-";
    let named = |error: Box<dyn Error>| -> Box<dyn Error> {
        let error = args.spoken.refused(error);
        if piped { error } else { format!("{}: {error}", path.display()).into() }
    };
    let shown = args.progress || io::stderr().is_terminal();
    let progress = |read: &Rc<Cell<u64>>, all| Progress {
        shown,
        read: Rc::clone(read),
        all,
        due: Due::new(PROGRESS_EVERY, Instant::now()),
        written: false,
        spoken: args.spoken,
    };
    let mut errors = command::Complaints;
    let summary = if args.follow && !piped {
        let mut log = Growing::at(path);
        let lines = log.open().map_err(|error| named(error.into()))?;
        let until = args.until();
        let progress = progress(&log.read, None);
        watch(lines, out, &mut errors, args, progress, || if pause(until) { log.next() } else { Ok(Next::Complete) })
    } else {
        let read = Rc::new(Cell::new(0));
        let (source, all): (Box<dyn Read>, _) = if piped {
            (Box::new(io::stdin().lock()), None)
        } else {
            let file = File::open(path).map_err(|error| named(error.into()))?;
            let length = file.metadata().ok().map(|about| about.len());
            (Box::new(file), length)
        };
        let progress = progress(&read, all);
        let source = counted(source, &read);
        if args.follow {
            let until = args.until();
            let grown = || Ok(if pause(until) { Next::Grown } else { Next::Complete });
            watch(Lines::growing(source), out, &mut errors, args, progress, grown)
        } else {
            watch(Lines::new(source), out, &mut errors, args, progress, || Ok(Next::Complete))
        }
    };
    Ok(match summary.map_err(named)? {
        (_, true) => ExitCode::from(3),
        (Summary { bad: 0, .. }, _) => ExitCode::SUCCESS,
        _ => ExitCode::from(2),
    })
}

/// Waits for a log to grow; whether it is followed any longer.
fn pause(until: Option<Instant>) -> bool {
    let goes_on = until.is_none_or(|until| Instant::now() < until);
    if goes_on {
        std::thread::sleep(POLL_EVERY);
    }
    goes_on
}

fn main() -> ExitCode {
    command::run("watch_log", run)
}
