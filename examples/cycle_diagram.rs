//! The loop of a car as it was read: its states, what they say, and the picture over pressure and enthalpy.
//!
//! ```text
//! cargo run --example cycle_diagram
//! cargo run --example cycle_diagram -- --refrigerant R-134a --low "2.1 bar" --high "13 bar" --suction-line "12 °C" \
//!     --liquid-line "44 °C" --discharge-line "78 °C" --svg loop.svg
//! ```

#[path = "shared/command.rs"]
mod command;
#[path = "shared/files.rs"]
mod files;
use std::error::Error;
use std::fmt::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, ValueEnum};
use satline::circuit::Settings;
use satline::inspection::{DisplayUnits, Entry, Instruments, Measurand, StatePoints, Undetermined};
use satline::plot::{self, Picture};
use satline::quantity::{PressureUnit, Quantity, SpecificEnthalpy, TemperatureUnit, Unit};
use satline::report;
use satline::{Entered, GaugePressure, Length, Measured, Pressure, Refrigerant, Temperature};

/// Shows the loop of a car's air conditioning: pressure, temperature, enthalpy and entropy where gauges and clamps tell them.
///
/// Every value carries its unit, as in "32 psi", "2.2 bar" or "86 °F". Without any reading a worked example is shown.
#[derive(Debug, Parser)]
#[command(name = "cycle_diagram")]
pub struct Args {
    /// What is inside, such as R-134a or R-1234yf.
    #[arg(long, value_name = "NAME", requires = "low")]
    refrigerant: Option<Refrigerant>,
    /// Low-side gauge.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true, requires = "high")]
    low: Option<Entered<GaugePressure>>,
    /// High-side gauge.
    #[arg(long, value_name = "PRESSURE", allow_hyphen_values = true, requires = "low")]
    high: Option<Entered<GaugePressure>>,
    /// Thermometer clamped on the suction line.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true, requires = "low")]
    suction_line: Option<Entered<Temperature>>,
    /// Thermometer clamped on the liquid line, or at the outlet of the gas cooler.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true, requires = "low")]
    liquid_line: Option<Entered<Temperature>>,
    /// Thermometer clamped on the discharge line, at the compressor.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true, requires = "low")]
    discharge_line: Option<Entered<Temperature>>,
    /// Altitude above sea level; sea level when neither this nor --barometer is given.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level.
    #[arg(long, value_name = "PRESSURE", conflicts_with = "altitude")]
    barometer: Option<Entered<Pressure>>,
    /// What the readings were taken with.
    #[arg(long, value_enum, default_value_t = Kind::Analogue)]
    instruments: Kind,
    /// Write the picture, too.
    #[arg(long, value_name = "FILE")]
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

/// What the example prints, and its picture.
#[derive(Debug)]
pub struct Answer {
    /// The page.
    pub page: String,
    /// The loop over pressure and enthalpy.
    pub picture: Picture,
}

/// What is to be shown.
struct Asked {
    refrigerant: Refrigerant,
    entry: Entry,
    invented: bool,
}

impl Args {
    fn asked(&self) -> Result<Asked, Box<dyn Error>> {
        let (Some(low), Some(high)) = (self.low, self.high) else {
            // an invented reading: no car was measured for it
            let entry = Entry::gauges("2.1 bar".parse()?, "14 bar".parse()?)
                .enter(Measurand::SuctionLine, "14 °C")?
                .enter(Measurand::LiquidLine, "46 °C")?
                .enter(Measurand::DischargeLine, "84 °C")?;
            return Ok(Asked { refrigerant: Refrigerant::R134a, entry: self.in_air(entry), invented: true });
        };
        let refrigerant = self.refrigerant.ok_or("--refrigerant is missing; give it like --refrigerant R-134a")?;
        let lines = [
            (Measurand::SuctionLine, self.suction_line),
            (Measurand::LiquidLine, self.liquid_line),
            (Measurand::DischargeLine, self.discharge_line),
        ];
        let read = lines.into_iter().filter_map(|(line, t)| Some((line, t?)));
        let entry = read.into_iter().try_fold(Entry::gauges(low, high), |entry, (line, t)| entry.with(line, t))?;
        Ok(Asked { refrigerant, entry: self.in_air(entry), invented: false })
    }

    /// `entry` in the air that the flags name.
    fn in_air(&self, mut entry: Entry) -> Entry {
        (entry.altitude, entry.barometer) = (self.altitude, self.barometer);
        entry
    }
}

/// The answer to `args`.
pub fn answer(args: &Args) -> Result<Answer, Box<dyn Error>> {
    let Asked { refrigerant: r, entry, invented } = args.asked()?;
    let instruments = match args.instruments {
        Kind::Analogue => Instruments::analogue(r),
        Kind::Digital => Instruments::digital(r),
    };
    let reading = entry.reading(r, Settings::TEST, &instruments)?;
    // swapped hoses are refused before a loop is drawn from them
    if let Some(error) = entry.sides_reversed() {
        return Err(error.into());
    }
    let cycle = StatePoints::of(&reading)?;
    let units = units(&entry);
    let picture = plot::pressure_enthalpy(&cycle, &units)?;
    Ok(Answer { page: page(&cycle, &units, invented)?, picture })
}

/// The units that were typed: °F beside psi where no temperature was.
fn units(entry: &Entry) -> DisplayUnits {
    let pressure = entry.pressure(Measurand::LowSide).map_or(PressureUnit::Bar, |low| low.unit());
    let habit = if pressure == PressureUnit::Psi { TemperatureUnit::Fahrenheit } else { TemperatureUnit::Celsius };
    let first = entry.temperature(Measurand::SuctionLine).or(entry.temperature(Measurand::LiquidLine));
    DisplayUnits::new(pressure, first.map_or(habit, |t| t.unit()))
}

fn page(cycle: &StatePoints, units: &DisplayUnits, invented: bool) -> Result<String, std::fmt::Error> {
    let r = cycle.refrigerant;
    let mut page = format!("{r}: the loop as it was read\n");
    if invented {
        page += "Worked example: the numbers are invented, no car was measured for them.\n";
    }
    page.push('\n');
    let (p, t) = (units.low, units.temperature);
    // to a tenth of a psi or finer, which no service gauge is
    let digits = (-(700.0 / p.factor()).log10()).ceil().max(1.0) as usize;
    for heads in [
        ["absolute", "temperature", "enthalpy", "entropy", "vapour"],
        [p.symbol(), t.symbol(), "kJ/kg", "kJ/(kg K)", "%"],
    ] {
        page += &line("", &heads.map(str::to_owned));
    }
    for (name, point) in [
        ("1  suction line", cycle.suction),
        ("2  discharge line", cycle.discharge),
        ("2s without loss", cycle.lossless),
        ("3  liquid line", cycle.liquid),
        ("4  after the expansion", cycle.inlet),
    ] {
        page += &match point {
            Ok(state) => line(
                name,
                &[
                    format!("{:.digits$}", state.pressure().value_in(p)),
                    format!("{:.1}", state.temperature().value_in(t)),
                    format!("{:.1}", state.enthalpy().kj_per_kg()),
                    format!("{:.4}", state.entropy().kj_per_kg_k()),
                    state.quality().map_or("-".to_owned(), |quality| format!("{:.1}", quality.percent())),
                ],
            ),
            Err(why) => format!("{name:<23}  {}\n", short(why)),
        };
    }
    page.push('\n');
    figures(&mut page, cycle)?;
    page.push('\n');
    page += &report::folded(
        "Lines are taken at the pressure of the gauge on their side, the expansion at equal enthalpy. ± is the 95 % interval \
         of gauges and thermometers. Enthalpy 200 kJ/kg and entropy 1 kJ/(kg K) for saturated liquid at 0 °C.",
        "",
        "",
        80,
    );
    page += &report::folded(&format!("Properties: {}.", r.fluid().equation.source), "", "", 80);
    page += "A discharge line burns skin: clamp its thermometer before the start.\n";
    Ok(page)
}

/// A line of the table.
fn line(name: &str, cells: &[String; 5]) -> String {
    let [p, t, h, s, quality] = cells;
    format!("{name:<23}{p:>10}{t:>13}{h:>11}{s:>12}{quality:>9}\n")
}

fn short(why: Undetermined) -> &'static str {
    match why {
        Undetermined::NotMeasured => "not measured",
        Undetermined::TwoPhase => "not clear of saturation: how much is liquid is not told",
        Undetermined::OutOfRange => "outside the range of the equation of state",
        _ => "not determined",
    }
}

/// What the states say.
fn figures(page: &mut String, cycle: &StatePoints) -> std::fmt::Result {
    let kj = |value: Measured<SpecificEnthalpy>| {
        format!("{:.1} ± {:.1} kJ/kg", value.value().kj_per_kg(), value.expanded().kj_per_kg())
    };
    let missing = |line: &str| format!("not told: {line} not known");
    let effect = cycle.refrigerating_effect().map_or(missing("suction or liquid line"), kj);
    writeln!(page, "{:<36}{effect}", "refrigerating effect")?;
    let work = cycle.lossless_work().map_or(missing("suction line"), kj);
    writeln!(page, "{:<36}{work}", "work of a compressor without loss")?;
    if let Some(work) = cycle.work() {
        writeln!(page, "{:<36}{}", "rise of enthalpy as measured", kj(work))?;
    }
    if let Some(efficiency) = cycle.isentropic_efficiency() {
        let (value, half) = (efficiency.value().percent(), efficiency.expanded().percent());
        writeln!(page, "{:<36}{value:.0} ± {half:.0} %", "isentropic efficiency")?;
        if value > 100.0 {
            page.push_str("  Above 100 % is not possible without shedding heat: the clamp reads too cold\n");
            page.push_str("  or sits too far from the compressor.\n");
        }
    }
    if let Some(cop) = cycle.lossless_cop() {
        let (value, half) = (cop.value().fraction(), cop.expanded().fraction());
        writeln!(page, "{:<36}{value:.2} ± {half:.2}", "COP with that ideal compressor")?;
        page.push_str("  A real car reaches less: its compressor has losses, belt and fans take power.\n");
    }
    Ok(())
}

fn run(args: &Args, out: &mut command::Output) -> Result<ExitCode, Box<dyn Error>> {
    let Answer { page, picture } = answer(args)?;
    if let Some(path) = &args.svg {
        files::write(path, picture.svg())?;
    }
    out.page(&page)
}

fn main() -> ExitCode {
    command::run("cycle_diagram", run)
}
