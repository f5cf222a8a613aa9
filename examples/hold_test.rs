//! A circuit holds its vacuum, or it does not: leak or moisture?
//!
//! ```text
//! cargo run --example hold_test
//! cargo run --example hold_test -- --csv my.csv --volume "2.5 L" --volume-limit 20%
//! ```
//!
//! The head of the file names quantity and unit: `time [min]`, then the pressure as `absolute [micron]`, `gauge [inHg]` or
//! `vacuum [inHg]`, and `temperature [°C]` where it was read. Columns of other names are left aside. Rows that cannot be used are named and passed over.
//!
//! Exit status: 0 all read (and the built-in sample), 1 no answer, 2 answered without some rows.

#[path = "shared/columns.rs"]
mod columns;
#[path = "shared/command.rs"]
mod command;
#[path = "shared/files.rs"]
mod files;
#[path = "shared/language.rs"]
mod language;
#[path = "shared/lines.rs"]
#[allow(dead_code)] // a log that grows is another example's matter
mod lines;
use std::error::Error;
use std::io::{BufRead, BufReader};
use std::process::ExitCode;

use clap::Parser;
use language::{Spoken, Wrong};
use lines::Lines;
use satline::inspection::DisplayUnits;
use satline::plot;
use satline::quantity::{TemperatureUnit, instrument::barometer};
use satline::report;
use satline::service::standing_vacuum::StandingVacuumTest;
use satline::service::standing_vacuum_log::{VacuumLogColumns, VacuumLogRow, step};
use satline::{Entered, Length, Measured, Pressure, PressureDifference, Ratio, Refrigerant, Volume, air};

/// The built-in series: invented, with one row that cannot be read.
const SAMPLE: &str = include_str!("hold_test.csv");

/// Says what the rise of pressure in a hold test means: a leak, moisture, both, or that it cannot be told.
#[derive(Debug, Clone, Parser)]
#[command(name = "hold_test")]
pub struct Args {
    /// A CSV file whose head names quantity and unit, as in "time [min],absolute [micron]"; without it, a built-in sample.
    #[arg(long, value_name = "FILE")]
    csv: Option<std::path::PathBuf>,
    /// What columns of other names stand for, as in "Sensor 1 (microns)=absolute [micron]".
    #[arg(long, value_name = "NAMES", requires = "csv", value_delimiter = ',')]
    columns: Vec<columns::NamedColumn>,
    /// Volume of the circuit with hoses and gauges, such as "2.5 L".
    #[arg(long, value_name = "VOLUME")]
    volume: Option<Entered<Volume>>,
    /// How far that volume may be off.
    #[arg(long, value_name = "SHARE", default_value = "20%")]
    volume_limit: Entered<Ratio>,
    /// What the circuit is filled with, for the comparison in grams a year.
    #[arg(long, value_name = "NAME", default_value = "R-134a")]
    refrigerant: Refrigerant,
    /// The step the gauge shows; otherwise as the readings betray it.
    #[arg(long, value_name = "PRESSURE")]
    step: Option<Entered<PressureDifference>>,
    /// How far the vacuum gauge may be off, as a share of what it shows.
    #[arg(long, value_name = "SHARE", default_value = "10%")]
    gauge_limit: Entered<Ratio>,
    /// Altitude above sea level; sea level when neither this nor --barometer is given.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level.
    #[arg(long, value_name = "PRESSURE", conflicts_with = "altitude")]
    barometer: Option<Entered<Pressure>>,
    #[command(flatten)]
    spoken: Spoken,
    /// Columns of the page, at least 40.
    #[arg(long, value_name = "COLUMNS", default_value_t = 80, value_parser = clap::value_parser!(u16).range(40..))]
    width: u16,
    /// Print JSON instead of a page.
    #[arg(long)]
    json: bool,
    /// Write the page with the curve to this file too: one HTML file that needs no other.
    #[arg(long, value_name = "FILE")]
    html: Option<std::path::PathBuf>,
}

/// What the example prints, and what it says about rows it could not use.
#[derive(Debug)]
pub struct Answer {
    /// The page.
    pub page: String,
    /// One line for each row that could not be used, after one about columns left aside.
    pub complaints: String,
    /// Number of these rows.
    pub left_out: usize,
}

/// Answers from the file of `args`, or from the built-in sample.
pub fn answer(args: &Args) -> Result<Answer, Box<dyn Error>> {
    let Some(path) = &args.csv else {
        let sample = Args { volume: args.volume.or(Some("2.5 L".parse()?)), ..args.clone() };
        return page(SAMPLE.as_bytes(), &sample, true);
    };
    if let Some(html) = &args.html {
        files::apart(("--csv", path), ("--html", html))?;
    }
    let named = |error: Box<dyn Error>| format!("{}: {error}", path.display());
    let log = std::fs::File::open(path).map_err(|error| named(error.into()))?;
    page(BufReader::new(log), args, false).map_err(|error| named(error).into())
}

/// The page about the series in `log`.
pub fn page(log: impl BufRead, args: &Args, invented: bool) -> Result<Answer, Box<dyn Error>> {
    answered(log, args, invented).map_err(|error| args.spoken.refused(error))
}

/// The same, refused in the words of the library.
fn answered(log: impl BufRead, args: &Args, invented: bool) -> Result<Answer, Box<dyn Error>> {
    let spoken = args.spoken;
    let mut complaints = Complaints { spoken, named: String::new(), count: 0, left_aside: None };
    let Log { columns, rows } = read(log, &args.columns, &mut complaints)?;
    let air = match (args.barometer, args.altitude) {
        (Some(reading), _) => barometer(reading.quantity())?,
        (None, altitude) => air::pressure_at(altitude.map_or(Length::from_m(0.0), |altitude| altitude.quantity()))?,
    };
    let all: Vec<VacuumLogRow> = rows.iter().map(|(_, row)| *row).collect();
    let finest = args.step.map(|step| step.quantity()).or_else(|| step(&all, columns.pressure_unit()));
    let finest = finest.ok_or(spoken.say("no row can be read", "no se puede leer ninguna fila"))?;
    let mut test = StandingVacuumTest::new(air, finest)?.with_gauge_limit(args.gauge_limit.quantity())?;
    for (line, row) in rows {
        if let Err(error) = test.push(row.time, row.pressure, row.temperature) {
            complaints.add(line, &error.into());
        }
    }
    let unfitted = |error| format!("{}\n{}", spoken.language().error(&error), complaints.text()).trim_end().to_owned();
    let fit = test.fit().map_err(unfitted)?;
    let volume = args
        .volume
        .map(|volume| Measured::within(volume.quantity(), volume.quantity() * args.volume_limit.quantity().fraction()));
    let unit = columns.pressure_unit();
    let volume = volume.transpose()?;
    let left_out = complaints.count;
    let mut report = report::hold(&fit, &air, args.refrigerant, volume, unit)?;
    report = report.read_with(finest, &args.gauge_limit, unit);
    (report.invented, report.left_out) = (invented, left_out);
    let mut page = report.page_in(spoken.language());
    let printed =
        if args.json { serde_json::to_string_pretty(&report)? + "\n" } else { page.text(usize::from(args.width)) };
    if let Some(path) = &args.html {
        let units = DisplayUnits::new(unit, TemperatureUnit::Celsius);
        let words = spoken.language().pictures();
        page.place("figures", plot::hold_in(&test, &fit, &units, words)?);
        files::write(path, &page.html())?;
        command::complain(&format!("written: {}", path.display()));
    }
    Ok(Answer { page: printed, complaints: complaints.text(), left_out })
}

/// What is wrong with rows, the first few by name.
struct Complaints {
    spoken: Spoken,
    named: String,
    count: usize,
    /// What is said of columns left aside, which are no rows.
    left_aside: Option<String>,
}

impl Complaints {
    /// Rows that are named; our choice.
    const NAMED: usize = 100;

    fn add(&mut self, line: u64, wrong: &Wrong) {
        self.count += 1;
        if self.count <= Self::NAMED {
            self.named += &format!("{}\n", command::excerpt(&self.of(line, &self.spoken.wrong(wrong))));
        }
    }

    /// What is said of one line.
    fn of(&self, line: u64, said: &str) -> String {
        format!("{} {line}: {said}", self.spoken.line_word())
    }

    fn text(&self) -> String {
        let aside = self.left_aside.iter().map(|aside| format!("{}\n", command::excerpt(aside))).collect::<String>();
        aside + &self.rows()
    }

    fn rows(&self) -> String {
        match self.count.saturating_sub(Self::NAMED) {
            0 => self.named.clone(),
            more => {
                self.spoken.say(format!("{}and {more} more\n", self.named), format!("{}y {more} más\n", self.named))
            }
        }
    }
}

/// Most rows of a log, which are all kept for the fit: a day of one a second. Our choice.
const MOST_ROWS: usize = 100_000;

/// Head and rows, with line numbers.
struct Log {
    columns: VacuumLogColumns,
    rows: Vec<(u64, VacuumLogRow)>,
}

/// Reads head and rows; what cannot be read goes to `complaints`.
fn read(log: impl BufRead, given: &[columns::NamedColumn], complaints: &mut Complaints) -> Result<Log, Box<dyn Error>> {
    let mut found: Option<(VacuumLogColumns, u8)> = None;
    let (mut rows, mut fields) = (Vec::new(), Vec::new());
    let mut log = Lines::new(log);
    while let Some((line, text)) = log.advance()? {
        let Some((columns, separator)) = found else {
            let separator = text.as_ref().map_or(b',', |text| lines::separator(text));
            let split = text.and_then(|text| lines::split(text.trim(), separator, &mut fields));
            let head = split.map_err(|wrong| complaints.spoken.wrong(&wrong)).and_then(|()| {
                let heads = |heads: &[String]| VacuumLogColumns::read(heads.iter().map(String::as_str));
                columns::read(&mut fields, given, "absolute [micron]", complaints.spoken, heads)
            });
            let (columns, left_aside) = head.map_err(|wrong| complaints.of(line, &wrong))?;
            complaints.left_aside = left_aside.map(|left_aside| complaints.of(line, &left_aside));
            found = Some((columns, separator));
            continue;
        };
        let row = text.and_then(|text| {
            lines::split(text.trim(), separator, &mut fields)?;
            Ok(columns.row(&fields)?)
        });
        match row {
            Ok(_) if rows.len() == MOST_ROWS => {
                let many = format!("more than {MOST_ROWS} rows; thin them out");
                return Err(Wrong::new(many, format!("más de {MOST_ROWS} filas; deje menos")).into());
            }
            Ok(row) => rows.push((line, row)),
            Err(error) => complaints.add(line, &error),
        }
    }
    let empty = || {
        Wrong::new(
            "the file is empty; its first line must name the columns, as in \"time [min],absolute [micron]\"",
            "el archivo está vacío; su primera línea debe nombrar las columnas, como en \"time [min],absolute [micron]\"",
        )
    };
    let (columns, _) = found.ok_or_else(empty)?;
    Ok(Log { columns, rows })
}

fn main() -> ExitCode {
    command::run("hold_test", |args: &Args, out| {
        let Answer { page, complaints, left_out } = answer(args)?;
        let printed = out.page(&page)?;
        if !complaints.is_empty() {
            command::complain(complaints.trim_end());
        }
        // the sample shows a bad row on purpose
        Ok(if left_out == 0 || args.csv.is_none() { printed } else { ExitCode::from(2) })
    })
}
