//! Two gauges and a thermometer, or what there is of them: what do they say?
//!
//! ```text
//! cargo run --example read_gauges
//! cargo run --example read_gauges -- --refrigerant R-134a --low "32 psi" --high "185 psi" --ambient "86 °F"
//! cargo run --example read_gauges -- --refrigerant R-134a --low "32 psi" --ambient "86 °F"
//! cargo run --release --example read_gauges -- --log readings.csv
//! ```
//!
//! Exit status: 0 all read, 1 nothing could be read, 2 some rows of a log could not be read.

#[path = "../shared/command.rs"]
mod command;
#[allow(dead_code)] // it also follows logs that grow
#[path = "../shared/lines.rs"]
mod lines;
pub mod log;
pub mod pictures;

use std::error::Error;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::{Parser, ValueEnum};
use satline::circuit::{CircuitKind, CompressorKind, EngineSpeed, ExpansionKind, Intake, Settings};
use satline::diagnosis::{Evidence, Observation, Prior, Recovered, Reference, RunningReading, interpret};
use satline::quantity::instrument::PressureGauge;
use satline::report::{self, Report};
use satline::window::{Book, Engine, Entry, Instruments, PartReading, Window};
use satline::{Entered, GaugePressure, Length, Mass, Measured, Pressure, Ratio, Refrigerant, Temperature};

/// Says what the gauges of a car's air conditioning mean on this day.
///
/// Every value carries its unit, as in "32 psi", "2.2 bar", "86 °F" or "-20 inHg". One measured quantity is enough, a gauge or a
/// thermometer; what was not read stays open. Without any reading a worked example is shown.
#[derive(Debug, Parser)]
#[command(name = "read_gauges")]
pub struct Args {
    /// What is inside, such as R-134a or R-1234yf.
    #[arg(long, value_name = "NAME")]
    refrigerant: Option<Refrigerant>,
    /// Low-side gauge.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    low: Option<Entered<GaugePressure>>,
    /// High-side gauge.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    high: Option<Entered<GaugePressure>>,
    /// Thermometer clamped on the suction line.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    suction_line: Option<Entered<Temperature>>,
    /// Thermometer clamped on the liquid line.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    liquid_line: Option<Entered<Temperature>>,
    /// Thermometer clamped on the discharge line, at the compressor.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    discharge_line: Option<Entered<Temperature>>,
    /// Share of time the clutch is engaged, timed over three cycles: "40 %" for 12 s of 30 s; "100 %" where it never opens.
    #[arg(long, value_name = "SHARE", allow_hyphen_values = true)]
    duty: Option<Entered<Ratio>>,
    /// Either gauge before the start, or long after the stop, everything at ambient.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    resting: Option<Entered<GaugePressure>>,
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
    /// The low-side gauge of the same car at 1,500 1/min; of this and the five that follow any will do.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    revved_low: Option<Entered<GaugePressure>>,
    /// The high-side gauge then.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true)]
    revved_high: Option<Entered<GaugePressure>>,
    /// The suction line then.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    revved_suction_line: Option<Entered<Temperature>>,
    /// The liquid line then.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    revved_liquid_line: Option<Entered<Temperature>>,
    /// The discharge line then.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    revved_discharge_line: Option<Entered<Temperature>>,
    /// The vent then.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    revved_vent: Option<Entered<Temperature>>,
    /// Thermometer at the centre vent.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    vent: Option<Entered<Temperature>>,
    /// Outside air in the shade, before the condenser.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    ambient: Option<Entered<Temperature>>,
    /// Relative humidity of the outside air, such as 55%.
    #[arg(long, value_name = "SHARE", allow_hyphen_values = true)]
    humidity: Option<Entered<Ratio>>,
    /// Altitude above sea level; sea level when neither this nor --barometer is given.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true, conflicts_with = "altitude")]
    barometer: Option<Entered<Pressure>>,
    /// What drives and controls the compressor, where known; it narrows the cars compared with.
    #[arg(long, value_enum)]
    compressor: Option<Drive>,
    /// What feeds the evaporator, where known.
    #[arg(long, value_enum)]
    expansion: Option<Device>,
    /// A second evaporator cools the rear.
    #[arg(long)]
    rear: bool,
    /// Engine speed in turns a minute; idle when not given.
    #[arg(long, value_name = "RPM")]
    engine_speed: Option<f64>,
    /// The blower takes fresh air instead of recirculating.
    #[arg(long)]
    fresh_air: bool,
    /// The engine is off and everything has levelled: compare both gauges with saturation at ambient.
    #[arg(long, requires = "low", conflicts_with_all = ["suction_line", "liquid_line", "discharge_line", "vent", "duty", "resting", "found",
        "not_found", "revved_low", "revved_high", "revved_suction_line", "revved_liquid_line", "revved_discharge_line",
        "revved_vent", "recovered", "compressor", "expansion", "rear", "engine_speed", "fresh_air"])]
    at_rest: bool,
    /// What the readings were taken with.
    #[arg(long, value_enum, default_value_t = Kind::Analogue)]
    instruments: Kind,
    /// End of the low-side gauge's scale, where it is not 10 bar (R-744: 100 bar).
    #[arg(long, value_name = "PRESSURE")]
    low_scale: Option<Entered<GaugePressure>>,
    /// End of the high-side gauge's scale, where it is not 35 bar (R-744: 160 bar).
    #[arg(long, value_name = "PRESSURE")]
    high_scale: Option<Entered<GaugePressure>>,
    /// Limit of error of both gauges as a share of their span, such as 1%.
    #[arg(long, value_name = "SHARE")]
    gauge_limit: Option<Entered<Ratio>>,
    /// A log to read instead: comma-separated, a head naming quantity and unit, as in "low [psi],high [psi],ambient [°F]".
    #[arg(long, value_name = "FILE", conflicts_with_all = ["low", "high", "suction_line", "liquid_line", "vent", "ambient", "humidity"])]
    log: Option<PathBuf>,
    /// With --log: name after each row what explains it best. Cars are simulated once for each kind of day.
    #[arg(long, requires = "log")]
    causes: bool,
    /// The whole page: printed charts, what every figure means, sources. Otherwise what fits on a screen.
    #[arg(long)]
    full: bool,
    /// Columns of the page, at least 40.
    #[arg(long, value_name = "COLUMNS", default_value_t = 80, value_parser = clap::value_parser!(u16).range(40..))]
    width: u16,
    /// Print JSON instead of a page; with --log one object a line.
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

impl Args {
    /// The kinds of cars that fit what was said.
    fn kinds(&self, refrigerant: Refrigerant) -> Vec<CircuitKind> {
        let compressor = self.compressor.map(|drive| match drive {
            Drive::Cycling => CompressorKind::Cycling,
            Drive::Internal => CompressorKind::Internal,
            Drive::External => CompressorKind::External,
            Drive::Electric => CompressorKind::Electric,
        });
        let expansion = self.expansion.map(|device| match device {
            Device::Valve => ExpansionKind::ThermostaticValve,
            Device::Orifice => ExpansionKind::OrificeTube,
            Device::Electronic => ExpansionKind::ElectronicValve,
        });
        let main = CircuitKind::main(refrigerant);
        let fits = |kind: &&CircuitKind| {
            compressor.is_none_or(|c| kind.compressor == c) && expansion.is_none_or(|e| kind.expansion == e)
        };
        let mut kinds: Vec<CircuitKind> = main.iter().filter(fits).copied().collect();
        // none of the usual kinds: the one that was named
        if let (true, Some(first)) = (kinds.is_empty(), main.first()) {
            kinds.push(CircuitKind {
                compressor: compressor.unwrap_or(first.compressor),
                expansion: expansion.unwrap_or(first.expansion),
                ..*first
            });
        }
        kinds.iter_mut().for_each(|kind| kind.rear_evaporator = self.rear);
        kinds
    }

    /// Everything known of the car.
    fn evidence(&self, reading: &PartReading, instruments: &Instruments) -> Result<Evidence, satline::Error> {
        let idle = RunningReading {
            discharge_line: self.clamped(self.discharge_line, instruments)?,
            duty: self.duty.map(|share| RunningReading::timed(share.quantity())).transpose()?,
            ..RunningReading::of(*reading, self.running())?
        };
        let mut evidence = Evidence { running: vec![idle], ..Evidence::default() };
        if self.revved() {
            let gauge = |gauge: &PressureGauge, stated: Option<Entered<GaugePressure>>| {
                stated.map(|p| gauge.read(p.quantity())).transpose()
            };
            let vent = self.revved_vent.map(|t| instruments.air.read(t.quantity(), Some(idle.ambient.value())));
            evidence.running.push(RunningReading {
                humidity: idle.humidity,
                running: Settings { engine: EngineSpeed::Rpm(1500.0), ..self.running() },
                low: gauge(&instruments.low, self.revved_low)?,
                high: gauge(&instruments.high, self.revved_high)?,
                suction_line: self.clamped(self.revved_suction_line, instruments)?,
                liquid_line: self.clamped(self.revved_liquid_line, instruments)?,
                discharge_line: self.clamped(self.revved_discharge_line, instruments)?,
                vent: vent.transpose()?,
                ..RunningReading::on(idle.refrigerant, idle.ambient, idle.air)
            });
        }
        if let (Some(p), Some(ambient)) = (self.resting, reading.ambient) {
            let gauge = instruments.low.read(p.quantity())?;
            let absolute = Measured::new(gauge.value().absolute(reading.air.value()), gauge.standard_uncertainty())?;
            evidence.at_rest = Some((absolute, ambient.value()));
        }
        if let (Some(mass), Some(label)) = (self.recovered, self.nominal_charge) {
            evidence.recovered = Some(Recovered::new(mass.quantity(), label.quantity())?);
        }
        evidence.observations = self.found.iter().map(|&found| (found, true)).collect();
        evidence.observations.extend(self.not_found.iter().map(|&found| (found, false)));
        Ok(evidence)
    }

    /// Whether anything was read at 1,500 1/min.
    fn revved(&self) -> bool {
        let lines = [self.revved_suction_line, self.revved_liquid_line, self.revved_discharge_line, self.revved_vent];
        self.revved_low.is_some() || self.revved_high.is_some() || lines.iter().any(Option::is_some)
    }

    /// A thermometer clamped on a line.
    fn clamped(
        &self,
        line: Option<Entered<Temperature>>,
        instruments: &Instruments,
    ) -> Result<Option<Measured<Temperature>>, satline::Error> {
        line.map(|t| instruments.line.read(t.quantity(), self.ambient.map(|t| t.quantity()))).transpose()
    }

    /// How the car is run.
    fn running(&self) -> Settings {
        Settings {
            engine: self.engine_speed.map_or(EngineSpeed::Idle, EngineSpeed::Rpm),
            intake: if self.fresh_air { Intake::Fresh } else { Intake::Recirculation },
            ..Settings::TEST
        }
    }

    fn instruments(&self, refrigerant: Refrigerant) -> Result<Instruments, satline::Error> {
        let mut instruments = match self.instruments {
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

    /// Whether any picture is asked for.
    fn draws(&self) -> bool {
        self.html.is_some() || self.svg.is_some()
    }

    fn engine(&self) -> Engine {
        if self.at_rest { Engine::AtRest } else { Engine::Running }
    }
}

/// An invented reading: no car was measured for it.
fn demonstration() -> Result<Entry, satline::Error> {
    Ok(Entry {
        suction_line: Some("72 °F".parse()?),
        liquid_line: Some("113 °F".parse()?),
        vent: Some("64 °F".parse()?),
        ambient: Some("86 °F".parse()?),
        humidity: Some("55%".parse()?),
        altitude: Some("300 m".parse()?),
        ..Entry::gauges("22 psi".parse()?, "160 psi".parse()?)
    })
}

/// What is known of one reading.
#[derive(Debug)]
pub struct Answer {
    /// As data and words.
    pub report: Report,
    /// As pictures, where they were asked for.
    pub pictures: Vec<pictures::Placed>,
}

impl Answer {
    /// The whole page with its pictures as one HTML file.
    pub fn html(&self) -> String {
        let mut page = self.report.page();
        self.pictures.iter().for_each(|(section, picture)| page.place(section, picture.clone()));
        page.html()
    }

    /// Writes the files that `args` ask for, and names each on standard error.
    fn write(&self, args: &Args) -> Result<(), Box<dyn Error>> {
        let write = |path: &Path, text: &str| -> Result<(), String> {
            command::write(path, text)?;
            eprintln!("written: {}", path.display());
            Ok(())
        };
        if let Some(path) = &args.html {
            write(path, &self.html())?;
        }
        if let Some(folder) = &args.svg {
            std::fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
            for (_, picture) in &self.pictures {
                write(&folder.join(format!("{}.svg", picture.name())), picture.svg())?;
            }
        }
        Ok(())
    }
}

/// What is known of `entry`.
fn about(entry: &Entry, refrigerant: Refrigerant, engine: Engine, args: &Args) -> Result<Answer, Box<dyn Error>> {
    let instruments = args.instruments(refrigerant)?;
    let book = Book::new(refrigerant)?;
    let answer = entry.part(refrigerant, engine, &instruments).and_then(|mut reading| {
        reading.discharge_line = args.clamped(args.discharge_line, &instruments)?;
        let mut assessment = reading.assess(&book)?;
        let mut pictures = if args.draws() { pictures::of_reading(entry, &reading)? } else { Vec::new() };
        let gauges = reading.low.is_some() || reading.high.is_some();
        let evidence = args.evidence(&reading, &instruments);
        // the loop is computed for pure refrigerants that cool cars, on days on which cars are cooled; without it and without a
        // gauge there is nothing to compare with, and the refusal says so
        if let Some(day) = reading.day(args.running())
            && (Window::covers(refrigerant, day.ambient) || !gauges)
        {
            let kinds = args.kinds(refrigerant);
            let evidence = evidence?;
            let days = evidence.days()?;
            assessment = assessment.beside(Window::for_kinds(&kinds, &day)?);
            let page = report::reading(entry, reading, &assessment, &book, &instruments);
            let cars = Reference::new(&kinds, &days)?;
            let interpretation = interpret(&evidence, &cars, &Prior::flat())?;
            if args.draws() {
                pictures.extend(pictures::of_cars(entry, &reading, &kinds, args.running(), &book, &interpretation)?);
            }
            return Ok(Answer { report: page.explained(entry, reading, &interpretation), pictures });
        }
        if !gauges {
            evidence?;
        }
        Ok(Answer { report: report::reading(entry, reading, &assessment, &book, &instruments), pictures })
    });
    // a slip of the unit may be why the reading was refused
    answer.map_err(|error| refused(&error, entry, &book).into())
}

/// An error, and what may be behind it.
fn refused(error: &satline::Error, entry: &Entry, book: &Book) -> String {
    let questions = entry.questions(book, None);
    questions.iter().fold(error.to_string(), |text, question| format!("{text}\n  ? {question}"))
}

/// What is known of the reading that `args` give, or of the worked example.
pub fn answer(args: &Args) -> Result<Answer, Box<dyn Error>> {
    let temperatures = [args.suction_line, args.liquid_line, args.vent, args.ambient];
    let demonstrated = args.refrigerant.is_none()
        && args.low.is_none()
        && args.high.is_none()
        && temperatures.iter().all(Option::is_none)
        && args.humidity.is_none();
    if demonstrated {
        let mut answer = about(&demonstration()?, Refrigerant::R134a, Engine::Running, args)?;
        let invented = "Worked example: the numbers are invented, no car was measured for them.";
        answer.report.opening.insert(1, invented.to_owned());
        Ok(answer)
    } else {
        let refrigerant = args.refrigerant.ok_or("--refrigerant is missing; give it like --refrigerant R-134a")?;
        if args.at_rest && args.high.is_none() {
            return Err("--high is missing: at rest both gauges are compared; give one alone as --resting".into());
        }
        let entry = Entry {
            suction_line: args.suction_line,
            liquid_line: args.liquid_line,
            vent: args.vent,
            ambient: args.ambient,
            humidity: args.humidity,
            altitude: args.altitude,
            barometer: args.barometer,
            low: args.low,
            high: args.high,
        };
        about(&entry, refrigerant, args.engine(), args)
    }
}

/// What the example prints for one reading.
pub fn one(args: &Args) -> Result<String, Box<dyn Error>> {
    let answer = answer(args)?;
    answer.write(args)?;
    let report = answer.report;
    Ok(if args.json {
        serde_json::to_string_pretty(&report)? + "\n"
    } else if args.full {
        report.text(usize::from(args.width))
    } else {
        report.brief().text(usize::from(args.width)) + "\nThe whole page with charts and sources: add --full\n"
    })
}

fn main() -> ExitCode {
    command::run("read_gauges", |args: &Args| match &args.log {
        Some(path) => log::run(path, args),
        None => one(args).map(|page| command::printed(&page)),
    })
}
