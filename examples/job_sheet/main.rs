//! A compressor was replaced, or a part, or the circuit was opened: what is to be done, in which order, with how much oil?
//!
//! ```text
//! cargo run --example job_sheet
//! cargo run --example job_sheet -- --refrigerant R-1234yf --charge "480 g" --drive electric --oil-kind "POE 68" \
//!     --part condenser --ambient "28 °C" --markdown
//! ```
//!
//! Exit status: 0 a sheet was printed, 1 something given could not be used.

#[path = "../shared/command.rs"]
mod command;
#[path = "../shared/files.rs"]
mod files;
#[path = "../shared/humidity.rs"]
mod humidity;
#[path = "../shared/language.rs"]
mod language;
use std::error::Error;
use std::process::ExitCode;
use std::str::FromStr;

use clap::{Parser, ValueEnum};
use satline::circuit::{CircuitKind, CompressorKind, Conditions, ExpansionKind, Settings};
use satline::expected::{ChartSet, ExpectedWindow};
use satline::inspection::DisplayUnits;
use satline::quantity::{PressureUnit, TemperatureUnit, Time};
use satline::report;
use satline::service::charge::{ChargeLabel, weighed};
use satline::service::job::{Complaint, CompressorReplacement, Job, PartReplacement};
use satline::service::oil::compressor::{CompressorOilRule, CompressorSupply};
use satline::service::oil::density::{PAG, caught};
use satline::service::oil::kind::{CompressorDrive, OilKind};
use satline::service::oil::label::OilLabel;
use satline::service::oil::part::ReplacedPart;
use satline::{Entered, Length, Mass, Measured, Range, Ratio, Refrigerant, Temperature, Volume};

/// Writes the sheet for a job on a car's air conditioning, from opening the circuit to the first reading.
///
/// Every value carries its unit, as in "500 g", "60 cm³", "84 °F". Without any of them a worked example is shown.
#[derive(Debug, Parser)]
#[command(name = "job_sheet")]
pub struct Args {
    /// What is inside, by the label, such as R-134a or R-1234yf.
    #[arg(long, value_name = "NAME")]
    refrigerant: Option<Refrigerant>,
    /// How much, as printed: "500 g", "500 ± 20 g", ".96 kg, 34 oz, 2.13 lb".
    #[arg(long, value_name = "LABEL", allow_hyphen_values = true)]
    charge: Option<ChargeLabel>,
    /// What drives the compressor.
    #[arg(long, value_enum)]
    drive: Option<Driven>,
    /// The job is an exercise: the sheet says that its numbers are invented.
    #[arg(long)]
    invented: bool,
    /// Oil of the whole circuit, as printed: "170 ± 15 cm³ (6.0 ± 0.5 oz)".
    #[arg(long, value_name = "LABEL", allow_hyphen_values = true)]
    oil: Option<OilLabel>,
    /// Which oil, as printed: "PAG 46", "PAG YF 46", "POE 68", "ND-OIL 8".
    #[arg(long, value_name = "NAME")]
    oil_kind: Option<OilKind>,
    /// What brought the car in.
    #[arg(long, value_enum, default_value_t = Brought::NotSaid)]
    complaint: Brought,
    /// The compressor is replaced, and how the new one comes: "filled 120 cm³", "emptied", "dry", "used", "unknown".
    #[arg(long, value_name = "HOW")]
    new_compressor: Option<NewCompressor>,
    /// Oil drained from the old compressor.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    drained: Option<Entered<Volume>>,
    /// Instead of --drained: the jar on the scale before the oil ran in.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true, conflicts_with = "drained", requires = "jar_full")]
    jar_empty: Option<Entered<Mass>>,
    /// Instead of --drained: the jar with the oil.
    #[arg(long, value_name = "MASS", allow_hyphen_values = true, requires = "jar_empty")]
    jar_full: Option<Entered<Mass>>,
    /// Limit of error of that scale.
    #[arg(long, value_name = "MASS", default_value = "1 g")]
    scale: Entered<Mass>,
    /// The maker's rule: "refill", "refill at least 60 cm³", "subtract", "subtract 20 cm³" (what cannot be drained), "cap 50 cm³".
    #[arg(long, value_name = "RULE")]
    rule: Option<GivenRule>,
    /// Another part replaced, with the maker's oil where known: "condenser", "condenser=40 cm³"; may be given again.
    #[arg(long = "part", value_name = "PART")]
    parts: Vec<GivenPart>,
    /// The whole circuit was flushed, or is new.
    #[arg(long)]
    flushed: bool,
    /// Oil that came out with the refrigerant.
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    recovered_oil: Option<Entered<Volume>>,
    /// How long the circuit stood open, such as "3 days".
    #[arg(long, value_name = "TIME", allow_hyphen_values = true)]
    open_for: Option<Entered<Time>>,
    /// What fits into the charging hose, such as "33 cm³".
    #[arg(long, value_name = "VOLUME", allow_hyphen_values = true)]
    hose: Option<Entered<Volume>>,
    /// Outside air in the shade.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    ambient: Option<Entered<Temperature>>,
    /// Relative humidity of the outside air, such as 55 or 55%.
    #[arg(long, value_name = "SHARE", allow_hyphen_values = true, value_parser = humidity::humidity)]
    humidity: Option<Entered<Ratio>>,
    /// Altitude above sea level.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    altitude: Option<Entered<Length>>,
    #[command(flatten)]
    spoken: language::Spoken,
    /// Columns of the page, at least 40.
    #[arg(long, value_name = "COLUMNS", default_value_t = 80, value_parser = clap::value_parser!(u16).range(40..))]
    width: u16,
    /// Print Markdown.
    #[arg(long, conflicts_with = "json")]
    markdown: bool,
    /// Print JSON.
    #[arg(long)]
    json: bool,
    /// Write the sheet to this file too, as one HTML file with boxes to tick.
    #[arg(long, value_name = "FILE")]
    html: Option<std::path::PathBuf>,
}

/// What drives the compressor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Driven {
    /// A belt.
    Belt,
    /// A motor on high voltage.
    Electric,
}

/// What brought the car in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Brought {
    /// It makes noise and cools well.
    NoiseCoolsWell,
    /// It makes noise and cools badly.
    NoiseCoolsBadly,
    /// It cools badly.
    CoolsBadly,
    /// It leaks.
    Leaks,
    /// Not said.
    NotSaid,
}

impl From<Brought> for Complaint {
    fn from(brought: Brought) -> Self {
        match brought {
            Brought::NoiseCoolsWell => Self::NoiseCoolsWell,
            Brought::NoiseCoolsBadly => Self::NoiseCoolsBadly,
            Brought::CoolsBadly => Self::CoolsBadly,
            Brought::Leaks => Self::Leaks,
            Brought::NotSaid => Self::NotSaid,
        }
    }
}

/// How the new compressor comes.
#[derive(Debug, Clone, Copy)]
pub struct NewCompressor(Option<CompressorSupply>);

impl FromStr for NewCompressor {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let supplied = match text.trim().split_once(' ').unwrap_or((text.trim(), "")) {
            ("filled", contents) => {
                CompressorSupply::Filled { contents: contents.parse().map_err(|e| format!("{e}"))? }
            }
            ("emptied", "") => CompressorSupply::Emptied,
            ("dry", "") => CompressorSupply::Dry,
            ("used", "") => CompressorSupply::Used,
            ("unknown", "") => return Ok(Self(None)),
            _ => {
                return Err(format!(
                    "{text:?} is not known; write \"filled 120 cm³\", emptied, dry, used or \
                 unknown"
                ));
            }
        };
        Ok(Self(Some(supplied)))
    }
}

/// A maker's rule.
#[derive(Debug, Clone, Copy)]
pub struct GivenRule(CompressorOilRule);

impl FromStr for GivenRule {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let volume = |text: &str| text.trim().parse::<Volume>().map_err(|e| e.to_string());
        let none = Volume::from_cm3(0.0);
        let rule = match text.trim().split_once(' ').unwrap_or((text.trim(), "")) {
            ("refill", "") => CompressorOilRule::Refill { floor: None, extra: none, extra_up_to: None },
            ("refill", least) if least.starts_with("at least") => {
                let least = volume(least.trim_start_matches("at least"))?;
                CompressorOilRule::Refill { floor: Some((least, least)), extra: none, extra_up_to: None }
            }
            ("subtract", "") => CompressorOilRule::Subtract { residual: none, little: None },
            ("subtract", residual) => CompressorOilRule::Subtract { residual: volume(residual)?, little: None },
            ("cap", cap) => CompressorOilRule::Capped { cap: volume(cap)? },
            _ => {
                return Err(format!(
                    "{text:?} is not known; write refill, \"refill at least 60 cm³\", subtract, \"subtract 20 \
                     cm³\" or \"cap 50 cm³\""
                ));
            }
        };
        Ok(Self(rule))
    }
}

/// A part, and the maker's oil for it.
#[derive(Debug, Clone, Copy)]
pub struct GivenPart(PartReplacement);

/// Parts by the names they are given.
const PARTS: [(&str, ReplacedPart); 7] = [
    ("condenser", ReplacedPart::Condenser),
    ("evaporator", ReplacedPart::Evaporator),
    ("receiver-drier", ReplacedPart::ReceiverDrier),
    ("accumulator", ReplacedPart::Accumulator),
    ("line", ReplacedPart::Line),
    ("sudden-loss", ReplacedPart::SuddenLoss),
    ("slow-leak", ReplacedPart::SlowLeak),
];

impl FromStr for GivenPart {
    type Err = String;
    fn from_str(text: &str) -> Result<Self, String> {
        let (name, oil) = text.split_once('=').map_or((text, None), |(name, oil)| (name, Some(oil)));
        let Some((_, part)) = PARTS.iter().find(|(known, _)| *known == name.trim()) else {
            let known: Vec<&str> = PARTS.iter().map(|(known, _)| *known).collect();
            return Err(format!("{name:?} is no part known here; write one of {}", known.join(", ")));
        };
        let makers = oil.map(|oil| oil.parse::<OilLabel>()?.volume()).transpose().map_err(|e| e.to_string())?;
        Ok(Self(PartReplacement { part: *part, makers, drained: None }))
    }
}

impl Args {
    fn is_empty(&self) -> bool {
        self.refrigerant.is_none()
            && self.charge.is_none()
            && self.drive.is_none()
            && self.oil.is_none()
            && self.oil_kind.is_none()
            && self.new_compressor.is_none()
            && self.drained.is_none()
            && self.jar_full.is_none()
            && self.parts.is_empty()
            && self.ambient.is_none()
    }

    /// What came out of the old compressor, measured or weighed.
    fn drained(&self) -> Result<Option<Measured<Volume>>, satline::Error> {
        if let Some(drained) = self.drained {
            return drained.as_typed().map(Some);
        }
        let (Some(empty), Some(full)) = (self.jar_empty, self.jar_full) else { return Ok(None) };
        let limit = self.scale.quantity();
        let density = self.oil_kind.map_or(PAG, |oil| oil.density());
        let density = density.at(self.ambient.map_or(density.reference, |t| t.quantity()))?;
        caught(&weighed(empty.quantity(), limit)?, &weighed(full.quantity(), limit)?, &density).map(Some)
    }

    fn job(&self) -> Result<Job, Box<dyn Error>> {
        let missing = |flag: &str, example: &str| format!("{flag} is missing; give it like {flag} {example}");
        let refrigerant = self.refrigerant.ok_or_else(|| missing("--refrigerant", "R-134a"))?;
        let charge = self.charge.clone().ok_or_else(|| missing("--charge", "\"500 g\""))?;
        let drive = match self.drive.ok_or_else(|| missing("--drive", "belt"))? {
            Driven::Belt => CompressorDrive::Belt,
            Driven::Electric => CompressorDrive::Electric,
        };
        let drained = self.drained()?;
        if self.new_compressor.is_none() && (drained.is_some() || self.rule.is_some()) {
            return Err(missing("--new-compressor", "\"filled 120 cm³\"").into());
        }
        Ok(Job {
            oil: self.oil.clone(),
            oil_kind: self.oil_kind,
            complaint: self.complaint.into(),
            compressor: self.new_compressor.map(|NewCompressor(supplied)| CompressorReplacement {
                supplied,
                drained,
                rule: self.rule.map(|GivenRule(rule)| rule),
            }),
            parts: self.parts.iter().map(|GivenPart(swap)| *swap).collect(),
            flushed: self.flushed,
            recovered_oil: self.recovered_oil.map(|oil| oil.quantity()),
            open_for: self.open_for.map(|time| time.quantity()),
            hose: self.hose.map(|volume| volume.quantity()),
            ambient: self.ambient.map(|t| t.quantity()),
            humidity: self.humidity.map(|share| share.quantity()),
            altitude: self.altitude.map(|length| length.quantity()),
            ..Job::new(refrigerant, charge, drive)
        })
    }

    /// What pressures and temperatures are written in: as the ambient temperature was given.
    fn units(&self) -> DisplayUnits {
        match self.ambient.map(|t| t.unit()) {
            Some(TemperatureUnit::Fahrenheit) => DisplayUnits::new(PressureUnit::Psi, TemperatureUnit::Fahrenheit),
            _ => DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius),
        }
    }
}

/// An invented job: no car was opened for it, and no maker's figure is in it.
fn demonstration() -> Result<Job, satline::Error> {
    let on_scale = |g| weighed(Mass::from_g(g), Mass::from_g(1.0));
    let rho = PAG.at(Temperature::from_fahrenheit(84.0))?;
    let drained = caught(&on_scale(361.0)?, &on_scale(409.0)?, &rho)?;
    let fifteen = Volume::from_cm3(15.0);
    Ok(Job {
        oil: Some("170 ± 15 cm³ (6.0 ± 0.5 oz)".parse()?),
        oil_kind: Some("PAG 100".parse()?),
        complaint: Complaint::NoiseCoolsWell,
        compressor: Some(CompressorReplacement {
            supplied: Some(CompressorSupply::Filled { contents: Volume::from_cm3(150.0) }),
            drained: Some(drained),
            rule: None,
        }),
        parts: vec![
            PartReplacement {
                part: ReplacedPart::ReceiverDrier,
                makers: Some(Range::new(fifteen, fifteen)),
                drained: None,
            },
            PartReplacement { part: ReplacedPart::Line, makers: None, drained: None },
        ],
        recovered_oil: Some(Volume::from_cm3(12.0)),
        hose: Some(Volume::from_cm3(40.0)),
        ambient: Some("84 °F".parse()?),
        humidity: Some("45 %".parse()?),
        altitude: Some("640 m".parse()?),
        ..Job::new(Refrigerant::R134a, "620 g".parse()?, CompressorDrive::Belt)
    })
}

/// What the example prints.
pub fn page(args: &Args) -> Result<String, Box<dyn Error>> {
    written(args).map_err(|error| args.spoken.refused(error))
}

/// The same, refused in the words of the library.
fn written(args: &Args) -> Result<String, Box<dyn Error>> {
    let (job, units, invented) = if args.is_empty() {
        let american = DisplayUnits::new(PressureUnit::Psi, TemperatureUnit::Fahrenheit);
        let metric = DisplayUnits::new(PressureUnit::Bar, TemperatureUnit::Celsius);
        // data are the same in every language
        (demonstration()?, if args.json { american } else { args.spoken.say(american, metric) }, true)
    } else {
        (args.job()?, args.units(), false)
    };
    job.questions()?;
    let healthy = match job.ambient.filter(|ambient| ExpectedWindow::covers(job.refrigerant, *ambient)) {
        Some(ambient) => {
            let settings = Settings::TEST;
            let day = Conditions { ambient, humidity: job.humidity, air: job.air()?.value(), settings };
            let kinds = match job.drive {
                CompressorDrive::Belt => CircuitKind::main(job.refrigerant),
                CompressorDrive::Electric => {
                    let (compressor, expansion) = (CompressorKind::Electric, ExpansionKind::ElectronicValve);
                    CircuitKind::fitting(job.refrigerant, Some(compressor), Some(expansion), false)
                }
            };
            Some(ExpectedWindow::for_kinds(&kinds, &day)?)
        }
        None => None,
    };
    let charts = ChartSet::new(job.refrigerant)?;
    let mut report = report::job(&job, &charts, healthy.as_ref(), &units)?;
    report.invented = invented || args.invented;
    let page = report.page_in(args.spoken.language());
    if let Some(path) = &args.html {
        files::write(path, &page.html())?;
        command::complain(&format!("written: {}", path.display()));
    }
    Ok(if args.json {
        serde_json::to_string_pretty(&report)? + "\n"
    } else if args.markdown {
        page.markdown()
    } else {
        page.text(usize::from(args.width))
    })
}

fn main() -> ExitCode {
    command::run("job_sheet", |args, out| out.page(&page(args)?))
}
