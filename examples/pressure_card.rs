//! The pressure–temperature table of a refrigerant for the place where the gauges hang.
//!
//! ```text
//! cargo run --example pressure_card
//! cargo run --example pressure_card -- --refrigerant R-407C --pressure-unit bar --temperature-unit °C --altitude "1500 m"
//! cargo run --example pressure_card -- --refrigerant R-1234yf --second-unit bar --large --svg card.svg
//! cargo run --example pressure_card -- --language es
//! ```

#[path = "shared/command.rs"]
mod command;
#[path = "shared/files.rs"]
mod files;
#[path = "shared/language.rs"]
mod language;
use std::error::Error;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::Parser;
use satline::inspection::DisplayUnits;
use satline::plot::{Card, CardRow, CardText};
use satline::quantity::instrument::barometer;
use satline::quantity::{PressureUnit, TemperatureUnit, unit_named};
use satline::report;
use satline::{Entered, GaugePressure, Length, Pressure, Refrigerant, Temperature, air};

/// Prints gauge pressure by temperature, where liquid and vapour are both present.
///
/// Without arguments: R-134a in psi and °F at sea level.
#[derive(Debug, Parser)]
#[command(name = "pressure_card")]
pub struct Args {
    /// What is inside, such as R-134a or R-407C.
    #[arg(long, value_name = "NAME", default_value = "R-134a")]
    refrigerant: Refrigerant,
    /// Unit of pressures, such as psi, bar or kPa.
    #[arg(long, value_name = "UNIT", default_value = "psi", value_parser = unit_named::<GaugePressure>)]
    pressure_unit: PressureUnit,
    /// Unit of a second column of pressures.
    #[arg(long, value_name = "UNIT", value_parser = unit_named::<GaugePressure>)]
    second_unit: Option<PressureUnit>,
    /// Unit of temperatures: °C, °F or K.
    #[arg(long, value_name = "UNIT", value_parser = unit_named::<Temperature>)]
    temperature_unit: Option<TemperatureUnit>,
    /// Altitude above sea level; sea level when neither this nor --barometer is given.
    #[arg(long, value_name = "LENGTH", allow_hyphen_values = true)]
    altitude: Option<Entered<Length>>,
    /// Air pressure at the place, not reduced to sea level.
    #[arg(long, value_name = "PRESSURE", conflicts_with = "altitude")]
    barometer: Option<Entered<Pressure>>,
    /// First temperature.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    from: Option<Entered<Temperature>>,
    /// Last temperature.
    #[arg(long, value_name = "TEMPERATURE", allow_hyphen_values = true)]
    to: Option<Entered<Temperature>>,
    /// From row to row, a number in the unit of temperature; the smallest of 1, 2, 5, 10 … that fits when a range is given without it.
    #[arg(long, value_name = "NUMBER", allow_hyphen_values = true)]
    step: Option<f64>,
    /// Large print, for a wall or weak eyes, with fewer rows.
    #[arg(long)]
    large: bool,
    /// Write the card as a picture for a sheet of A5, too.
    #[arg(long, value_name = "FILE")]
    svg: Option<PathBuf>,
    #[command(flatten)]
    spoken: language::Spoken,
}

impl Args {
    /// The card that was asked for.
    pub fn card(&self) -> Result<Card, satline::Error> {
        let air = match (self.barometer, self.altitude) {
            (Some(barometer_reads), _) => barometer(barometer_reads.quantity())?,
            (None, altitude) => air::pressure_at(altitude.map_or(Length::from_m(0.0), |altitude| altitude.quantity()))?,
        };
        // °F beside psi, °C beside the rest
        let habit = if self.pressure_unit == PressureUnit::Psi {
            TemperatureUnit::Fahrenheit
        } else {
            TemperatureUnit::Celsius
        };
        let temperature = self.temperature_unit.unwrap_or(habit);
        let usual = Card::usual(self.refrigerant, air.value(), DisplayUnits::new(self.pressure_unit, temperature));
        let usual = Card { second: self.second_unit, large: self.large, ..usual };
        let ranged = if self.from.is_some() || self.to.is_some() || self.large || self.second_unit.is_some() {
            let end = |given: Option<Entered<Temperature>>, usual| given.map_or(usual, |t| t.quantity());
            usual.between(end(self.from, usual.from), end(self.to, usual.to))
        } else {
            usual
        };
        Ok(Card { step: self.step.unwrap_or(ranged.step), ..ranged })
    }
}

/// What the example prints.
pub fn page(args: &Args) -> Result<String, Box<dyn Error>> {
    written(args).map_err(|error| args.spoken.refused(error.into()))
}

/// The page, refused in the words of the library.
fn written(args: &Args) -> Result<String, satline::Error> {
    let words = args.spoken.language().pictures();
    let card = args.card()?;
    let rows = card.rows_in(words)?;
    let r = card.refrigerant;
    let mut page = words.text(CardText::CardTitle(r.designation()).into()) + "\n";
    page += &report::folded(&card.place_in(words)?, "", "", 80);
    if r.is_blend() {
        page += &report::folded(&words.text(CardText::BlendColumns.into()), "", "", 80);
    }
    match args.spoken.language().translated() {
        "" => {}
        translated => page += &report::folded(translated, "", "", 80),
    }
    page.push('\n');
    // two blocks side by side, of four columns one
    let heads = card.heads_in(words);
    let half = if heads.len() > 3 { rows.len() } else { rows.len().div_ceil(2) };
    let blocks = if rows.len() > half { 2 } else { 1 };
    page += &lines(vec![block(&heads); blocks]);
    for i in 0..half {
        let cells = [rows.get(i), rows.get(half + i)].into_iter().flatten();
        page += &lines(cells.map(|row| self::row(&card, row)).collect());
    }
    page.push('\n');
    page += &report::folded(&words.text(CardText::CardCaution.into()), "", "", 80);
    page += &report::folded(&card.source_in(words), "", "", 80);
    Ok(page)
}

fn row(card: &Card, row: &CardRow) -> String {
    block(&card.written(row))
}

/// One block of a line, its columns set to the right.
fn block<S: AsRef<str>>(cells: &[S]) -> String {
    cells.iter().map(|cell| format!("{:>13}", cell.as_ref())).collect::<String>()
}

fn lines(blocks: Vec<String>) -> String {
    blocks.join(" ").trim_end().to_owned() + "\n"
}

fn run(args: &Args, out: &mut command::Output) -> Result<ExitCode, Box<dyn Error>> {
    if let Some(path) = &args.svg {
        let card = args.card().and_then(|card| card.picture_in(args.spoken.language().pictures()));
        files::write(path, card.map_err(|error| args.spoken.refused(error.into()))?.svg())?;
    }
    out.page(&page(args)?)
}

fn main() -> ExitCode {
    command::run("pressure_card", run)
}
