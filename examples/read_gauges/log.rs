//! A log, row by row: one verdict a line, a summary at the end, bad rows named and passed over.

use std::error::Error;
use std::fs::File;
use std::io::{self, BufRead, BufReader, Write};
use std::path::Path;
use std::process::ExitCode;
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc::{self, RecvTimeoutError};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

use satline::Refrigerant;
use satline::diagnosis::{Assessment, CauseId, Diagnosis, DiagnosisRequest, Headline, JudgedQuantity, ReferenceCache};
use satline::expected::{EqualisedVerdict, Verdict};
use satline::inspection::{Columns, Entry, Measurand};
use satline::quantity::Position;
use satline::report::{self, Language, LogRow};

use super::Args;
use super::columns;
use super::command::{Complaints, Output, complain, excerpt};
use super::due::Due;
use super::language::{Spoken, Wrong};
use super::lines::{Lines, separator, split};

/// Reads the log at `path` and writes to the terminal.
pub fn run(path: &Path, args: &Args, out: &mut Output) -> Result<ExitCode, Box<dyn Error>> {
    let file = File::open(path).map_err(|error| format!("{}: {error}", path.display()))?;
    let so_far = Arc::new(SoFar::default());
    let about = file.metadata().ok();
    let length = about.as_ref().map_or(0, |about| about.len());
    let at_once = if about.is_some_and(|about| about.is_file()) { ROWS_AT_ONCE } else { 1 };
    let progress = Progress::start(Arc::clone(&so_far), length, args.spoken());
    let summary = read_on(BufReader::with_capacity(1 << 16, file), out, Complaints, args, &so_far, at_once);
    drop(progress);
    let summary = summary.map_err(|error| format!("{}: {}", path.display(), args.spoken().refused(error)))?;
    Ok(match summary {
        Summary { answered: 0, .. } => ExitCode::FAILURE,
        Summary { bad: 0, .. } => ExitCode::SUCCESS,
        _ => ExitCode::from(2),
    })
}

/// From one progress line to the next: one a second at least, a tenth of it for a machine that is busy. Our choice.
pub const PROGRESS_EVERY: Duration = Duration::from_millis(900);
/// Longest time for which a row that is judged waits to be seen; with causes, where the next one may take a second, none waits. Our choice.
const SHOWN_WITHIN: Duration = Duration::from_millis(200);

/// Rows explained at the same time where a whole file is there to read; of a pipe every row is answered before the next is waited for.
/// Our choice.
const ROWS_AT_ONCE: usize = 16;

/// What has been read of a log.
#[derive(Default)]
struct SoFar {
    bytes: AtomicU64,
    rows: AtomicU64,
}

/// Says on standard error once a second how far a log has been read, wherever the verdicts go, until it is dropped.
struct Progress {
    stop: Option<mpsc::Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

impl Progress {
    /// Of a log of `all` bytes; zero where the length is not known.
    fn start(so_far: Arc<SoFar>, all: u64, spoken: Spoken) -> Self {
        let (stop, stopped) = mpsc::channel::<()>();
        let thread = thread::spawn(move || {
            let mut due = Due::new(PROGRESS_EVERY, Instant::now());
            while stopped.recv_timeout(due.after(Instant::now())) == Err(RecvTimeoutError::Timeout) {
                if !due.is(Instant::now()) {
                    continue;
                }
                let (bytes, rows) = (so_far.bytes.load(Ordering::Relaxed), so_far.rows.load(Ordering::Relaxed));
                complain(&progress(bytes, all, rows, spoken));
            }
        });
        Self { stop: Some(stop), thread: Some(thread) }
    }
}

/// How far a log of `all` bytes has been read, in a line; `all` is zero where the length is not known.
fn progress(bytes: u64, all: u64, rows: u64, spoken: Spoken) -> String {
    let share = (100 * bytes.min(all)).checked_div(all);
    let share = share
        .map_or(String::new(), |percent| spoken.say(format!("{percent} % read, "), format!("{percent} % leído, ")));
    format!("read_gauges: {share}{rows} {}", spoken.say("rows", "filas"))
}

impl Drop for Progress {
    fn drop(&mut self) {
        drop(self.stop.take());
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
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
    equalised: [u64; 4],
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
        if let Some(check) = &a.equalised {
            let place = match check.verdict {
                EqualisedVerdict::NotEqualised => Some(0),
                EqualisedVerdict::LiquidGone => Some(1),
                EqualisedVerdict::AtSaturation => Some(2),
                EqualisedVerdict::AboveSaturation => Some(3),
            };
            if let Some(count) = place.and_then(|place| self.equalised.get_mut(place)) {
                *count += 1;
            }
        }
    }

    fn rows(&self) -> [(JudgedQuantity, &Counts); 6] {
        [
            (JudgedQuantity::Measured(Measurand::LowSide), &self.low),
            (JudgedQuantity::Measured(Measurand::HighSide), &self.high),
            (JudgedQuantity::Superheat, &self.superheat),
            (JudgedQuantity::Subcooling, &self.subcooling),
            (JudgedQuantity::CondensingOverAmbient, &self.condensing),
            (JudgedQuantity::Measured(Measurand::Vent), &self.vent),
        ]
    }

    fn text(&self, at_rest: bool, spoken: Spoken, out: &mut impl Write) -> io::Result<()> {
        let (answered, bad, language) = (self.answered, self.bad, spoken.language());
        let rows = spoken.say(
            format!("\n{answered} rows answered, {bad} could not be read"),
            format!("\n{answered} filas respondidas, {bad} sin poder leer"),
        );
        writeln!(out, "{rows}")?;
        if !at_rest {
            let by = spoken.say(
                "Rows are judged by printed charts and rules of thumb; a page about one reading also sets it against\n\
                 healthy circuits simulated for its day, which are closer.",
                "Las filas se juzgan por tablas publicadas y reglas prácticas; la página de una lectura la compara además con\n\
                 circuitos sanos simulados para su día, que se acercan más.",
            );
            writeln!(out, "{by}")?;
        }
        if at_rest {
            let [unequal, below, at, above] = self.equalised;
            let counts = spoken.say(
                format!(
                    "  engine off: {below} below saturation, {at} at saturation, {above} above, {unequal} not equalised"
                ),
                format!(
                    "  motor parado: {below} por debajo de la saturación, {at} en la saturación, {above} por encima, \
                     {unequal} sin igualar"
                ),
            );
            writeln!(out, "{counts}")?;
        } else if self.rows().iter().any(|(_, Counts(counts))| counts.iter().sum::<u64>() > 0) {
            let heads =
                [Position::Below, Position::Within, Position::Above].map(|position| language.position(position));
            // a head of the language may be wider than the numbers under it
            let width = heads.iter().map(|head| head.chars().count() + 2).max().unwrap_or(0).max(10);
            writeln!(out, "  {:<26}{:>width$}{:>width$}{:>width$}", "", heads[0], heads[1], heads[2])?;
            for (quantity, Counts(counts)) in self.rows() {
                if counts.iter().sum::<u64>() > 0 {
                    let name = language.quantity(quantity);
                    writeln!(out, "  {name:<26}{:>width$}{:>width$}{:>width$}", counts[0], counts[1], counts[2])?;
                }
            }
        }
        match language.translated() {
            "" => Ok(()),
            translated => writeln!(out, "{translated}"),
        }
    }

    fn json(&self, at_rest: bool) -> serde_json::Value {
        let mut summary = serde_json::json!({ "answered": self.answered, "bad": self.bad });
        if at_rest {
            let [unequal, below, at, above] = self.equalised;
            summary["equalised"] = serde_json::json!({ "below-saturation": below, "at-saturation": at,
                "above-saturation": above, "not-equalised": unequal });
        } else {
            for (quantity, Counts([below, within, above])) in self.rows() {
                summary[quantity.id()] = serde_json::json!({ "below": below, "within": within, "above": above });
            }
        }
        serde_json::json!({ "summary": summary })
    }
}

/// What explains a row best.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
struct Explained {
    /// Id of the cause; "outside-model" where nothing modelled looks like the row.
    cause: &'static str,
    #[serde(skip)]
    id: Option<CauseId>,
    probability: f64,
}

impl Explained {
    /// Of `diagnosis`; `None` without a posterior.
    fn of(diagnosis: &Diagnosis) -> Option<Self> {
        let (posterior, advice) = (diagnosis.posterior()?, diagnosis.advice());
        Some(match advice.headline {
            Headline::OutsideModel { .. } => Self { cause: "outside-model", id: None, probability: 1.0 },
            _ if !posterior.is_faulty() => {
                let id = CauseId::NoFault;
                Self { cause: id.as_str(), id: Some(id), probability: posterior.healthy() }
            }
            _ => {
                let id = *advice.leading.first()?.causes.first()?;
                let probability = posterior.causes.iter().find(|one| one.cause == id)?.probability;
                Self { cause: id.as_str(), id: Some(id), probability }
            }
        })
    }

    /// In a few words, with its probability.
    fn text(&self, spoken: Spoken) -> String {
        let language = spoken.language();
        let name = match self.id {
            None => spoken.say("outside the model", "fuera del modelo"),
            Some(CauseId::NoFault) => {
                spoken.say("inside the range of healthy cars", "dentro del rango de coches sanos")
            }
            Some(id) => language.cause(id).name,
        };
        format!("{name} ({})", language.percent(self.probability))
    }
}

/// Reads rows from `log` one at a time, verdicts to `out`, rows that cannot be read to `errors`.
#[allow(dead_code)] // for those who show no progress
pub fn read(log: impl BufRead, out: impl Write, errors: impl Write, args: &Args) -> Result<Summary, Box<dyn Error>> {
    let summary = read_on(log, out, errors, args, &SoFar::default(), ROWS_AT_ONCE);
    summary.map_err(|error| args.spoken().refused(error))
}

/// As [`read`], keeping count of how far it is, so many rows at once. A verdict is flushed soon after it is known.
fn read_on(
    log: impl BufRead,
    mut out: impl Write,
    mut errors: impl Write,
    args: &Args,
    so_far: &SoFar,
    at_once: usize,
) -> Result<Summary, Box<dyn Error>> {
    let mut lines = Lines::new(log);
    let mut fields = Vec::new();
    let spoken = args.spoken();
    let Some((number, head)) = lines.advance()? else {
        let empty = spoken.say(
            "the file is empty; its first line must name the columns, as in \"low [psi],high [psi]\"",
            "el archivo está vacío; su primera línea debe nombrar las columnas, como en \"low [psi],high [psi]\"",
        );
        return Err(empty.into());
    };
    let head = head.map_err(|wrong| format!("{} {number}: {}", spoken.line_word(), spoken.wrong(&wrong)))?;
    let separator = separator(head);
    split(head, separator, &mut fields)?;
    let heads = |heads: &[String]| Columns::read(heads.iter().map(String::as_str));
    let (columns, left_aside) = columns::read(&mut fields, &args.columns, "low [psi]", spoken, heads)?;
    if let Some(left_aside) = left_aside {
        writeln!(errors, "{} {number}: {}", spoken.line_word(), excerpt(&left_aside))?;
    }
    if args.refrigerant.is_none() && !columns.name_refrigerant() {
        return Err(NO_REFRIGERANT.into());
    }
    let mut cache = ReferenceCache::default();
    let mut summary = Summary::default();
    let mut flushed: Option<Instant> = None;
    let mut is_end = false;
    while !is_end {
        let mut rows = Rows::default();
        // the first alone: its verdict shows that the log is being read
        let wanted = if flushed.is_none() { 1 } else { at_once };
        while rows.len() < wanted && !is_end {
            match lines.advance()? {
                Some((line, text)) => {
                    let row = text.and_then(|text| split(text, separator, &mut fields));
                    rows.add(line, row.and_then(|()| request(&columns, &fields, args)));
                }
                None => is_end = true,
            }
        }
        for (line, diagnosis) in rows.diagnoses(args, &mut cache) {
            match diagnosis {
                Ok(diagnosis) => {
                    summary.add(diagnosis.assessment());
                    write_row(&mut out, args, line, &diagnosis)?;
                }
                Err(wrong) => bad(&mut summary, &mut errors, &mut out, args, line, &wrong)?,
            }
        }
        so_far.rows.store(summary.answered + summary.bad, Ordering::Relaxed);
        so_far.bytes.store(lines.consumed(), Ordering::Relaxed);
        if args.causes || flushed.is_none_or(|last| last.elapsed() >= SHOWN_WITHIN) {
            out.flush()?;
            errors.flush()?;
            flushed = Some(Instant::now());
        }
    }
    if summary.answered + summary.bad == 0 {
        let no_rows = spoken.say("the file has a head but no rows", "el archivo tiene encabezado pero ninguna fila");
        return Err(no_rows.into());
    }
    if args.json {
        writeln!(out, "{}", summary.json(args.at_rest))?;
    } else {
        summary.text(args.at_rest, spoken, &mut out)?;
    }
    out.flush()?;
    errors.flush()?;
    Ok(summary)
}

const NO_REFRIGERANT: satline::Error =
    satline::Error::Missing { what: "the refrigerant", way_out: "give --refrigerant, or a column named refrigerant" };

/// Rows of the log that are answered together, each by its line.
#[derive(Default)]
struct Rows {
    lines: Vec<u64>,
    requests: Vec<DiagnosisRequest>,
    /// Rows that ask nothing, and what is wrong with them.
    bad: Vec<(u64, Wrong)>,
}

impl Rows {
    fn len(&self) -> usize {
        self.lines.len() + self.bad.len()
    }

    fn add(&mut self, line: u64, request: Result<DiagnosisRequest, Wrong>) {
        match request {
            Ok(request) => {
                self.lines.push(line);
                self.requests.push(request);
            }
            Err(wrong) => self.bad.push((line, wrong)),
        }
    }

    /// The rows in their order, judged and with --causes explained, or with what is wrong.
    fn diagnoses(self, args: &Args, cache: &mut ReferenceCache) -> Vec<(u64, Result<Diagnosis, Wrong>)> {
        let answers = if args.causes {
            DiagnosisRequest::run_many(&self.requests, cache)
        } else {
            self.requests.iter().map(DiagnosisRequest::assess).collect()
        };
        let refused = |error, request| {
            let refused = |language| super::refused(&error, request, language).replace("\n ", "");
            Wrong::new(refused(Language::English), refused(Language::Spanish))
        };
        let told =
            self.requests.iter().zip(answers).map(|(request, answer)| answer.map_err(|error| refused(error, request)));
        let bad = self.bad.into_iter().map(|(line, wrong)| (line, Err(wrong)));
        let mut all: Vec<_> = self.lines.iter().copied().zip(told).chain(bad).collect();
        all.sort_by_key(|(line, _)| *line);
        all
    }
}

/// What a row with these `fields` asks.
fn request(columns: &Columns, fields: &[String], args: &Args) -> Result<DiagnosisRequest, Wrong> {
    let (mut entry, named): (Entry, Option<Refrigerant>) = columns.entry(fields)?;
    let refrigerant = named.or(args.refrigerant).ok_or(NO_REFRIGERANT)?;
    // what a row says about its place goes before the flags
    if entry.altitude.is_none() && entry.barometer.is_none() {
        (entry.altitude, entry.barometer) = (args.altitude, args.barometer);
    }
    Ok(args.row_request(refrigerant, entry)?)
}

/// A row of figures with its line number, as JSON.
#[derive(serde::Serialize)]
struct NumberedRow {
    line: u64,
    #[serde(flatten)]
    row: LogRow,
    #[serde(flatten)]
    explained: Option<Explained>,
}

fn write_row(out: &mut impl Write, args: &Args, line: u64, diagnosis: &Diagnosis) -> Result<(), Box<dyn Error>> {
    let explained = Explained::of(diagnosis);
    if args.json {
        serde_json::to_writer(&mut *out, &NumberedRow { line, row: diagnosis.log_row(), explained })?;
        writeln!(out)?;
        return Ok(());
    }
    let (units, spoken) = (diagnosis.entry().units(), args.spoken());
    let verdicts = report::verdict_line(diagnosis.assessment(), &units, spoken.language());
    write!(out, "{} {line}: {verdicts}", spoken.line_word())?;
    if let Some(explained) = explained {
        write!(out, "; {}", explained.text(spoken))?;
    }
    for question in diagnosis.questions() {
        write!(out, " ? {}", spoken.language().question(&question))?;
    }
    writeln!(out)?;
    Ok(())
}

fn bad(
    summary: &mut Summary,
    errors: &mut impl Write,
    out: &mut impl Write,
    args: &Args,
    line: u64,
    wrong: &Wrong,
) -> Result<(), Box<dyn Error>> {
    summary.bad += 1;
    if args.json {
        // data are the same in every language
        writeln!(out, "{}", serde_json::json!({ "line": line, "error": excerpt(&wrong.to_string()) }))?;
    }
    let spoken = args.spoken();
    writeln!(errors, "{} {line}: {}", spoken.line_word(), excerpt(&spoken.wrong(wrong)))?;
    Ok(())
}
