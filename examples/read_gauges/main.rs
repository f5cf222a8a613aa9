//! Two gauges and a thermometer, or what there is of them: what do they say?
//!
//! ```text
//! cargo run --example read_gauges
//! cargo run --example read_gauges -- --ask
//! cargo run --example read_gauges -- --refrigerant R-134a --low "32 psi" --high "185 psi" --ambient "86 °F"
//! cargo run --example read_gauges -- --refrigerant R-134a --low "32 psi" --ambient "86 °F"
//! cargo run --example read_gauges -- --refrigerant R-134a --low "32 psi" --high "185 psi" --ambient "86 °F" \
//!     --maker-row "25 °C, 60 %: 171 to 209 kPa, 1204 to 1471 kPa" --maker-row "35 °C, 60 %: 229 to 280 kPa, 1500 to 1820 kPa"
//! cargo run --example read_gauges -- --refrigerant R-134a --low "18 psi" --high "150 psi" --ambient "86 °F" --save car.json
//! cargo run --example read_gauges -- --refrigerant R-134a --low "35 psi" --high "205 psi" --ambient "86 °F" --before car.json
//! cargo run --release --example read_gauges -- --log readings.csv
//! ```
//!
//! With --ask it asks for one value after another, and ends with the command line that says the same.
//!
//! Exit status: 0 all read, 1 nothing could be read, 2 some rows of a log could not be read.

pub mod ask;
#[path = "../shared/columns.rs"]
mod columns;
#[path = "../shared/command.rs"]
mod command;
#[path = "../shared/due.rs"]
pub mod due;
#[path = "../shared/files.rs"]
mod files;
#[path = "../shared/humidity.rs"]
mod humidity;
#[path = "../shared/language.rs"]
pub mod language;
#[allow(dead_code)] // it also follows logs that grow
#[path = "../shared/lines.rs"]
mod lines;
pub mod log;
mod measured;
pub mod pictures;
mod preferences;
mod revisit;

use std::error::Error;
use std::fs::File;
use std::io::BufReader;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::str::FromStr;

use clap::{Parser, ValueEnum};
use satline::circuit::{CircuitKind, CompressorKind, EngineSpeed, ExpansionKind, Intake, Settings};
use satline::diagnosis::{Diagnosis, DiagnosisRequest, Prior, Reference};
use satline::inspection::{
    Baseline, Entry, Inspection, Instruments, Measurand, Observation, PortPlace, RecoveredCharge, ServicePorts,
};
use satline::report::{Language, Page, Report};
use satline::{Entered, GaugePressure, Length, Mass, Pressure, Ratio, Refrigerant, Temperature};

use measured::{Measured, REVVED, Revved};
use preferences::{Preferences, Units, Width};
use revisit::{Revisit, SavedCar};

/// Says what the gauges of a car's air conditioning mean on this day.
///
/// Every value carries its unit, as in "32 psi", "2.2 bar", "2,2 bar", "86 °F" or "-20 inHg". One measured quantity is enough, a gauge or a
/// thermometer; what was not read stays open. Without any reading a worked example is shown; with --ask the values are asked for.
#[derive(Debug, Parser)]
#[command(name = "read_gauges")]
pub struct Args {
    /// Ask one question after another, and after each answer for the measurement worth most next; options given beside it are not asked
    /// for.
    #[arg(long, conflicts_with_all = ["log", "causes", "at_rest", "json"])]
    ask: bool,
    /// The refrigerant inside, such as R-134a or R-1234yf.
    #[arg(long, value_name = "NAME")]
    refrigerant: Option<Refrigerant>,
    #[command(flatten)]
    measured: Measured,
    /// Either gauge before the start, or long after the stop, everything at ambient.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    resting: Option<Entered<GaugePressure>>,
    /// The temperature of the whole circuit then, where it is not that of the ambient.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true, requires = "resting")]
    resting_temperature: Option<Entered<Temperature>>,
    /// The charge that was recovered and weighed.
    #[arg(long, value_name = "MASS", requires = "nominal_charge")]
    recovered: Option<Entered<Mass>>,
    /// The charge that the label asks for; with --recovered.
    #[arg(long, value_name = "MASS", requires = "recovered")]
    nominal_charge: Option<Entered<Mass>>,
    /// What was found, such as bubbles, frost-at-valve or equalises-quickly; may be given several times.
    #[arg(long, value_name = "WHAT")]
    found: Vec<Observation>,
    /// What was looked for and not found; may be given several times.
    #[arg(long, value_name = "WHAT")]
    not_found: Vec<Observation>,
    #[command(flatten)]
    revved: Revved,
    /// Outside air in the shade, before the condenser.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    ambient: Option<Entered<Temperature>>,
    /// Relative humidity of the outside air, such as 55 or 55%.
    #[arg(long, value_name = "SHARE", allow_hyphen_values = true, value_parser = humidity::humidity)]
    humidity: Option<Entered<Ratio>>,
    /// Altitude above sea level; sea level when neither this nor --barometer is given.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true, conflicts_with = "altitude")]
    barometer: Option<Entered<Pressure>>,
    /// What drives and controls the compressor, where known; it narrows the circuits compared with.
    #[arg(long, value_enum)]
    compressor: Option<Drive>,
    /// What feeds the evaporator, where known.
    #[arg(long, value_enum)]
    expansion: Option<Device>,
    /// Where the low-side port is, where known: a gauge shows the pressure on its own side of a restriction.
    #[arg(long, value_enum, conflicts_with = "at_rest")]
    low_port: Option<LowPort>,
    /// Where the high-side port is, where known.
    #[arg(long, value_enum, conflicts_with = "at_rest")]
    high_port: Option<HighPort>,
    /// A second evaporator cools the rear.
    #[arg(long)]
    rear: bool,
    /// What the maker prints for this car, or what it showed when it was well: "30 °C: 190 to 240 kPa, 1300 to 1600 kPa", low side
    /// first, humidity after the temperature where known; may be given several times. The windows become this car's own.
    ///
    /// A row counts as taken with the engine speed and the air of the reading, at sea level: read as the maker's page asks.
    #[arg(long, value_name = "ROW", conflicts_with_all = ["log", "at_rest"])]
    maker_row: Vec<Baseline>,
    /// The same from a file, one row a line; lines that begin with # are remarks.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["log", "at_rest"])]
    maker_rows: Option<PathBuf>,
    /// Engine speed in rpm; idle when not given.
    #[arg(long, value_name = "RPM")]
    engine_speed: Option<f64>,
    /// The blower takes fresh air instead of recirculating.
    #[arg(long)]
    fresh_air: bool,
    /// On recirculation: doors and windows of the car.
    #[arg(long, value_enum, default_value_t = Cabin::DoorsOpen, conflicts_with = "fresh_air")]
    cabin: Cabin,
    /// With --cabin window-open or shut: minutes since the air conditioning was switched on in a cabin as warm as outside.
    #[arg(long, requires = "cabin")]
    minutes: Option<u16>,
    /// The engine is off and everything has equalised: compare both gauges with saturation at ambient.
    #[arg(long, requires = "low", conflicts_with_all = ["resting", "found", "not_found", "recovered", "compressor", "expansion",
        "rear", "engine_speed", "fresh_air", "cabin"])]
    at_rest: bool,
    /// The reading is an exercise: the page says that its numbers are invented.
    #[arg(long, conflicts_with = "log")]
    invented: bool,
    /// How often each cause is met: "workshop" (surveys of workshops), "uniform" (all alike), or a JSON file of weights such as
    /// {"undercharge": 40, "air": 4}, where what is not named has weight one.
    ///
    /// Workshop unless given.
    #[arg(long, value_name = "PRIOR")]
    prior: Option<GivenPrior>,
    /// How likely a healthy circuit is before anything is read, such as 75% for a check after a repair.
    #[arg(long, value_name = "SHARE")]
    healthy: Option<Entered<Ratio>>,
    /// What the readings were taken with; analogue unless given.
    #[arg(long, value_enum)]
    instruments: Option<Kind>,
    /// End of the low-side gauge's scale, where it is not 10 bar (R-744: 100 bar).
    #[arg(long, value_name = "PRESSURE")]
    low_scale: Option<Entered<GaugePressure>>,
    /// End of the high-side gauge's scale, where it is not 35 bar (R-744: 160 bar).
    #[arg(long, value_name = "PRESSURE")]
    high_scale: Option<Entered<GaugePressure>>,
    /// Limit of error of both gauges as a share of their span, such as 1%.
    #[arg(long, value_name = "SHARE")]
    gauge_limit: Option<Entered<Ratio>>,
    /// A log to read instead: a head naming quantity and unit, as in "low [psi],high [psi],ambient [°F]"; one measured quantity
    /// is enough.
    ///
    /// Fields are separated by commas, semicolons or tabs; with semicolons the comma is the decimal sign. Columns of other names are
    /// left aside. What was measured belongs in its columns: a value on the command line would be that of one reading.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["resting", "recovered", "nominal_charge", "found", "not_found", "ambient", "humidity"])]
    log: Option<PathBuf>,
    /// With --log: what columns of other names stand for, as in "Suction (psi)=low [psi],Discharge (psi)=high [psi]".
    #[arg(long, value_name = "NAMES", requires = "log", value_delimiter = ',')]
    columns: Vec<columns::NamedColumn>,
    /// With --log: name after each row what explains it best. Circuits are simulated once for each bin of conditions.
    #[arg(long)]
    causes: bool,
    #[command(flatten)]
    revisit: Revisit,
    /// The whole page: printed charts, what every figure means, sources. Otherwise what fits on a screen.
    #[arg(long)]
    full: bool,
    /// Six lines, for a message or a small screen.
    #[arg(long, conflicts_with_all = ["full", "log", "json"])]
    brief: bool,
    #[command(flatten)]
    spoken: language::Spoken,
    /// Units of the page, such as "psi °F" or "bar °C"; those of the readings unless given.
    #[arg(long, value_name = "UNITS", conflicts_with = "log")]
    units: Option<Units>,
    /// Columns of the page, at least 40; 80 unless given.
    #[arg(long, value_name = "COLUMNS")]
    width: Option<Width>,
    /// A JSON file of what holds where the command line says nothing else: units, instruments, language, prior, width.
    #[arg(long, value_name = "FILE")]
    preferences: Option<Preferences>,
    /// Write what the command line says of units, instruments, language, prior and width into this file, for a later --preferences.
    #[arg(long, value_name = "FILE", conflicts_with = "log")]
    save_preferences: Option<PathBuf>,
    /// Print JSON instead of a page; with --before what has moved, with --log one object a line.
    #[arg(long, conflicts_with = "full")]
    json: bool,
    /// Write the whole page with its pictures to this file too: one HTML file that needs no other.
    #[arg(long, value_name = "FILE", conflicts_with = "log")]
    html: Option<PathBuf>,
    /// Write each picture as a file into this folder too.
    #[arg(long, value_name = "DIR", conflicts_with = "log")]
    svg: Option<PathBuf>,
}

/// Classes of instruments.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Kind {
    /// Dial gauges of class 1.6 and thermocouples.
    Analogue,
    /// Digital pressure probes and thermistor thermometers.
    Digital,
}

impl FromStr for Kind {
    type Err = String;

    /// The word of the command line.
    fn from_str(word: &str) -> Result<Self, String> {
        ValueEnum::from_str(word, false)
    }
}

impl std::fmt::Display for Kind {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Analogue => "analogue",
            Self::Digital => "digital",
        })
    }
}

/// Doors and windows of the car, on recirculation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Cabin {
    /// Doors open, as most makers ask for.
    DoorsOpen,
    /// Doors shut, one window or more open.
    WindowOpen,
    /// Doors and windows shut.
    Shut,
}

/// What drives and controls the compressor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Drive {
    /// Fixed stroke, its clutch opens and closes.
    Cycling,
    /// Variable stroke, set inside by the suction pressure.
    Internal,
    /// Variable stroke, set by a valve with a wire.
    External,
    /// A motor of its own: high voltage.
    Electric,
}

/// Place of the low-side port.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum LowPort {
    /// At the compressor.
    Compressor,
    /// At the outlet of the evaporator.
    Evaporator,
}

/// Place of the high-side port.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum HighPort {
    /// On the discharge line, before the condenser.
    Discharge,
    /// On the liquid line, behind the condenser.
    LiquidLine,
}

/// What feeds the evaporator.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Device {
    /// Thermostatic expansion valve.
    Valve,
    /// Orifice tube.
    Orifice,
    /// Expansion valve with a motor.
    Electronic,
}

impl From<Drive> for CompressorKind {
    fn from(drive: Drive) -> Self {
        match drive {
            Drive::Cycling => Self::Cycling,
            Drive::Internal => Self::Internal,
            Drive::External => Self::External,
            Drive::Electric => Self::Electric,
        }
    }
}

impl From<Device> for ExpansionKind {
    fn from(device: Device) -> Self {
        match device {
            Device::Valve => Self::ThermostaticValve,
            Device::Orifice => Self::OrificeTube,
            Device::Electronic => Self::ElectronicValve,
        }
    }
}

impl Args {
    /// What the flags say about one reading.
    fn entry(&self) -> Result<Entry, satline::Error> {
        let mut entry = Entry::default();
        (entry.ambient, entry.humidity) = (self.ambient, self.humidity);
        (entry.altitude, entry.barometer) = (self.altitude, self.barometer);
        self.measured.put_into(entry)
    }

    /// Whether nothing about a reading was said.
    fn is_empty(&self) -> bool {
        self.refrigerant.is_none() && self.measured.is_empty() && self.ambient.is_none() && self.humidity.is_none()
    }

    /// The request for a diagnosis of `entry`, with everything else that the flags say of the circuit.
    fn request(&self, refrigerant: Refrigerant, entry: Entry) -> Result<DiagnosisRequest, satline::Error> {
        let mut request = self.row_request(refrigerant, entry)?;
        if self.at_rest {
            return Ok(request);
        }
        if !self.revved.is_empty() {
            let settings = Settings { engine: EngineSpeed::Rpm(REVVED), ..self.settings() };
            request = request.also(self.revved.put_into(Entry::default())?, settings);
        }
        if let Some(pressure) = self.resting {
            let mut entry = Entry::default();
            entry.ambient = self.resting_temperature;
            request = request.equalised(entry.with(Measurand::LowSide, pressure)?);
        }
        if let (Some(mass), Some(nominal)) = (self.recovered, self.nominal_charge) {
            request = request.recovered(RecoveredCharge::new(mass.quantity(), nominal.quantity())?);
        }
        request = self.found.iter().fold(request, |request, &one| request.found(one));
        Ok(self.not_found.iter().fold(request, |request, &one| request.not_found(one)))
    }

    /// The request for a row of a log: what the flags say of the circuit, nothing that was measured once.
    fn row_request(&self, refrigerant: Refrigerant, entry: Entry) -> Result<DiagnosisRequest, satline::Error> {
        let (compressor, expansion) = (self.compressor.map(Into::into), self.expansion.map(Into::into));
        let request = Diagnosis::of(refrigerant)
            .entry(entry)
            .instruments(self.instruments(refrigerant)?)
            .prior(self.prior()?)
            .service_ports(self.service_ports())
            .kinds(CircuitKind::fitting(refrigerant, compressor, expansion, self.rear));
        Ok(if self.at_rest { request.first_equalised() } else { request.settings(self.settings()) })
    }

    /// What the maker prints for this car, from the flags and from the file.
    fn baselines(&self) -> Result<Vec<Baseline>, Box<dyn Error>> {
        let mut rows = self.maker_row.clone();
        if let Some(path) = &self.maker_rows {
            rows.extend(rows_of(path, self.spoken())?);
        }
        Ok(rows.into_iter().map(|row| row.with_settings(self.settings())).collect::<Result<_, _>>()?)
    }

    /// Refuses to write where something is read.
    fn apart(&self, output: files::Given) -> Result<(), String> {
        let prior = self.preferred().prior.and_then(|prior| prior.file);
        let read = [("--maker-rows", &self.maker_rows), ("--prior", &prior), ("--before", &self.revisit.before)];
        let read = read.into_iter().filter_map(|(flag, path)| Some((flag, path.as_deref()?)));
        read.into_iter().try_for_each(|input| files::apart(input, output))
    }

    /// How car and controls are set.
    fn settings(&self) -> Settings {
        Settings {
            engine: self.engine_speed.map_or(EngineSpeed::Idle, EngineSpeed::Rpm),
            intake: self.intake(),
            ..Settings::TEST
        }
    }

    fn service_ports(&self) -> ServicePorts {
        ServicePorts {
            low: self.low_port.map(|place| match place {
                LowPort::Compressor => PortPlace::NearCompressor,
                LowPort::Evaporator => PortPlace::AwayFromCompressor,
            }),
            high: self.high_port.map(|place| match place {
                HighPort::Discharge => PortPlace::NearCompressor,
                HighPort::LiquidLine => PortPlace::AwayFromCompressor,
            }),
        }
    }

    /// What holds by the command line, else by the preferences.
    fn preferred(&self) -> Preferences {
        let said = Preferences {
            units: self.units,
            instruments: self.instruments,
            language: self.spoken.said(),
            prior: self.prior.clone(),
            width: self.width,
        };
        match &self.preferences {
            Some(others) => said.or(others),
            None => said,
        }
    }

    /// The language of the page.
    fn spoken(&self) -> language::Spoken {
        language::Spoken::from(self.preferred().language)
    }

    /// Columns of the page.
    fn width(&self) -> usize {
        usize::from(self.preferred().width.map_or(80, |Width(columns)| columns))
    }

    fn prior(&self) -> Result<Prior, satline::Error> {
        let prior = self.preferred().prior.map_or_else(Prior::workshop, |prior| prior.weights);
        match self.healthy {
            Some(share) => prior.with_healthy(share.quantity()),
            None => Ok(prior),
        }
    }

    /// Where the blower takes its air from.
    fn intake(&self) -> Intake {
        let minutes = self.minutes;
        match self.cabin {
            _ if self.fresh_air => Intake::Fresh,
            Cabin::DoorsOpen => Intake::DoorsOpen,
            Cabin::WindowOpen => Intake::WindowOpen { minutes },
            Cabin::Shut => Intake::Shut { minutes },
        }
    }

    fn instruments(&self, refrigerant: Refrigerant) -> Result<Instruments, satline::Error> {
        let mut instruments = match self.preferred().instruments.unwrap_or(Kind::Analogue) {
            Kind::Analogue => Instruments::analogue(refrigerant),
            Kind::Digital => Instruments::digital(refrigerant),
        };
        if let Some(scale) = self.low_scale {
            instruments.low = instruments.low.up_to(scale.quantity())?;
        }
        if let Some(scale) = self.high_scale {
            instruments.high = instruments.high.up_to(scale.quantity())?;
        }
        if let Some(limit) = self.gauge_limit {
            instruments.low = instruments.low.within(limit.quantity())?;
            instruments.high = instruments.high.within(limit.quantity())?;
        }
        Ok(instruments)
    }
}

/// A prior, and the file it was read from.
#[derive(Debug, Clone)]
pub struct GivenPrior {
    weights: Prior,
    file: Option<PathBuf>,
}

impl std::fmt::Display for GivenPrior {
    /// As it was given.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match &self.file {
            Some(file) => write!(f, "{}", file.display()),
            None if self.weights == Prior::uniform() => f.write_str("uniform"),
            None => f.write_str("workshop"),
        }
    }
}

impl FromStr for GivenPrior {
    type Err = String;

    /// The prior of this name, or in this file.
    fn from_str(name: &str) -> Result<Self, String> {
        let (weights, file) = match name {
            "workshop" => (Prior::workshop(), None),
            "uniform" => (Prior::uniform(), None),
            path => {
                let text = files::read(Path::new(path)).map_err(|error| {
                    format!("neither \"workshop\" nor \"uniform\", and no file of weights: {error}")
                })?;
                (serde_json::from_str(&text).map_err(|error| error.to_string())?, Some(path.into()))
            }
        };
        Ok(Self { weights, file })
    }
}

/// Most rows of a maker that are read, and most lines named that are none; our choice.
const MOST_ROWS: usize = 1000;
const MOST_WRONG: usize = 20;

/// The rows in the file at `path`; an error names every line that is none.
fn rows_of(path: &Path, spoken: language::Spoken) -> Result<Vec<Baseline>, Box<dyn Error>> {
    let named = |error: &dyn std::fmt::Display| format!("{}: {error}", path.display());
    let mut lines = lines::Lines::new(BufReader::new(File::open(path).map_err(|error| named(&error))?));
    let (mut rows, mut wrong) = (Vec::new(), Vec::new());
    // a file that is something else is not read to its end
    while let Some((number, line)) = lines.advance().map_err(|error| named(&error))? {
        let row = line.and_then(|line| Ok(line.parse::<Baseline>()?));
        match row {
            Ok(row) => rows.push(row),
            Err(error) => {
                let line = spoken.line_word();
                wrong.push(command::excerpt(&format!("{line} {number}: {}", spoken.wrong(&error))).into_owned());
            }
        }
        if wrong.len() == MOST_WRONG || rows.len() > MOST_ROWS {
            break;
        }
    }
    if rows.len() > MOST_ROWS {
        let rows = spoken.say("rows of one car", "filas de un coche");
        return Err(named(&format!("{} {MOST_ROWS} {rows}", spoken.say("more than", "más de"))).into());
    }
    if !wrong.is_empty() {
        let others = if wrong.len() < MOST_WRONG {
            spoken.say("other rows, all good", "otras filas, todas buenas")
        } else {
            spoken.say("not read any further; rows before, all good", "no se leyó más; filas anteriores, todas buenas")
        };
        return Err(format!("{}\n{others}: {}", named(&wrong.join("\n")), rows.len()).into());
    }
    if rows.is_empty() {
        let none = spoken.say("no rows; write one a line, like", "ninguna fila; escriba una por línea, como");
        return Err(named(&format!("{none} \"30 °C: 190 to 240 kPa, 1300 to 1600 kPa\"")).into());
    }
    Ok(rows)
}

/// An invented reading: no car was measured for it.
fn demonstration() -> Result<Entry, satline::Error> {
    Ok(Entry::gauges("22 psi".parse()?, "160 psi".parse()?)
        .enter(Measurand::SuctionLine, "72 °F")?
        .enter(Measurand::LiquidLine, "113 °F")?
        .enter(Measurand::Vent, "64 °F")?
        .ambient("86 °F".parse()?)
        .humidity("55%".parse()?)
        .altitude("300 m".parse()?))
}

/// What is known of one reading.
#[derive(Debug)]
pub struct Answer {
    /// As data and words.
    pub report: Report,
    /// As pictures, where they were asked for.
    pub pictures: Vec<pictures::Placed>,
    /// Language of its page.
    language: Language,
    /// The page about this reading and an earlier one, where they are compared.
    compared: Option<Page>,
    /// The report on the earlier one.
    earlier: Option<Report>,
    /// What was read.
    inspection: Inspection,
}

impl Answer {
    /// The whole page.
    fn page(&self) -> Page {
        self.compared.clone().unwrap_or_else(|| self.report.page_in(self.language))
    }

    /// The whole page with its pictures as one HTML file.
    pub fn html(&self) -> String {
        let mut page = self.page();
        self.pictures.iter().for_each(|(section, picture)| page.place(section, picture.clone()));
        page.html()
    }

    /// Writes the files that `args` ask for, and names each on standard error.
    fn write(&self, args: &Args) -> Result<(), Box<dyn Error>> {
        let write = |path: &Path, text: &str| -> Result<(), String> {
            files::write(path, text)?;
            command::complain(&format!("written: {}", path.display()));
            Ok(())
        };
        if let Some(path) = &args.html {
            write(path, &self.html())?;
        }
        if let Some(path) = &args.revisit.save {
            SavedCar::new(self.inspection.clone(), self.report.clone()).write(path)?;
            command::complain(&format!("saved: {}", path.display()));
        }
        if let Some(path) = &args.save_preferences {
            let preferred = args.preferred();
            write(path, &(serde_json::to_string_pretty(&preferred)? + "\n"))?;
            command::complain(&format!("preferences: {preferred}"));
        } else if let Some(preferences) = &args.preferences {
            command::complain(&format!("preferences: {preferences}"));
        }
        if let Some(folder) = &args.svg {
            std::fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
            for (_, picture) in &self.pictures {
                let path = folder.join(format!("{}.svg", picture.name()));
                args.apart(("--svg", &path))?;
                write(&path, picture.svg())?;
            }
        }
        Ok(())
    }
}

/// What the request says, and where it was refused what may be behind it.
fn refused(error: &satline::Error, request: &DiagnosisRequest, language: Language) -> String {
    let questions = request.questions().unwrap_or_default();
    questions
        .iter()
        .fold(language.error(error), |text, question| format!("{text}\n  ? {}", language.question(question)))
}

/// What `args` ask of the library, and whether it is the worked example.
fn asked(args: &Args) -> Result<(DiagnosisRequest, bool), Box<dyn Error>> {
    if args.causes {
        return Err(
            "--causes belongs to a log, given as --log; the page about one reading names its causes without it".into(),
        );
    }
    let invented = args.is_empty();
    let (refrigerant, entry) = if invented {
        (Refrigerant::R134a, demonstration()?)
    } else {
        let missing = "--refrigerant is missing; give it like --refrigerant R-134a";
        if args.at_rest && args.measured.is_missing(Measurand::HighSide) {
            return Err(
                "--high is missing: with the engine off both gauges are compared; give one alone as --resting".into()
            );
        }
        (args.refrigerant.ok_or(missing)?, args.entry()?)
    };
    let request = args.baselines()?.into_iter().fold(args.request(refrigerant, entry)?, DiagnosisRequest::baseline);
    Ok((request, invented))
}

/// What is known of the reading that `args` give, or of the worked example.
pub fn answer(args: &Args) -> Result<Answer, Box<dyn Error>> {
    answer_reusing(args, &mut None)
}

/// The same with the circuits of `kept`, where they are those of the reading.
fn answer_reusing(args: &Args, kept: &mut Option<Reference>) -> Result<Answer, Box<dyn Error>> {
    let (mut request, invented) = asked(args)?;
    let earlier = args.revisit.earlier()?;
    if let Some(car) = earlier.as_ref().filter(|car| car.report.is_healthy()) {
        request = request.when_well(&car.inspection)?;
    }
    let language = args.spoken().language();
    let diagnosis = request.run_reusing(kept).map_err(|error| refused(&error, &request, language))?;
    let pictures = if args.html.is_some() || args.svg.is_some() {
        pictures::of(&diagnosis, args.spoken().language())?
    } else {
        Vec::new()
    };
    let units = args.preferred().units;
    let mut report = units.map_or_else(|| diagnosis.report(), |units| diagnosis.report_in(&units.display()));
    report.invented = invented || args.invented;
    let spoken = args.spoken();
    let earlier = earlier.map(|car| car.report);
    let compared = earlier.as_ref().map(|earlier| args.revisit.page(earlier, &report, spoken)).transpose()?;
    let (language, inspection) = (spoken.language(), diagnosis.inspection().clone());
    Ok(Answer { report, pictures, language, compared, earlier, inspection })
}

/// What the example prints for one reading.
pub fn one(args: &Args) -> Result<String, Box<dyn Error>> {
    one_reusing(args, &mut None).map_err(|error| args.spoken().refused(error))
}

/// The same with the circuits of `kept`, where they are those of the reading.
fn one_reusing(args: &Args, kept: &mut Option<Reference>) -> Result<String, Box<dyn Error>> {
    for (flag, path) in
        [("--html", &args.html), ("--save", &args.revisit.save), ("--save-preferences", &args.save_preferences)]
    {
        path.as_deref().map_or(Ok(()), |path| args.apart((flag, path)))?;
    }
    let answer = answer_reusing(args, kept)?;
    answer.write(args)?;
    let (report, spoken, width) = (&answer.report, args.spoken(), args.width());
    Ok(if let (true, Some(earlier)) = (args.json, &answer.earlier) {
        Revisit::json(earlier, report)?
    } else if args.json {
        serde_json::to_string_pretty(report)? + "\n"
    } else if args.brief {
        report.lines_in(spoken.language()).join("\n") + "\n"
    } else if args.full || answer.compared.is_some() {
        answer.page().text(width)
    } else {
        let more = spoken.say(
            "\nThe whole page with charts and sources: add --full\n",
            "\nLa página entera, con tablas y fuentes: añada --full\n",
        );
        let own = if args.is_empty() {
            spoken.say(
                "A reading of your own, asked for value by value: add -- --ask\n",
                "Una lectura propia, preguntada valor a valor: añada -- --ask\n",
            )
        } else {
            ""
        };
        report.brief_in(spoken.language()).text(width) + more + own
    })
}

fn main() -> ExitCode {
    command::run("read_gauges", |args: &Args, out| match &args.log {
        Some(path) => log::run(path, args, out),
        None if args.ask => ask::run(out),
        None => out.page(&one(args)?),
    })
}
