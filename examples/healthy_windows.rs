//! What healthy cars show by ambient temperature: the computed windows as tables.
//!
//! ```sh
//! cargo run --release --example healthy_windows
//! ```

#[path = "shared/command.rs"]
mod command;
use std::fmt::Write;
use std::process::ExitCode;

use clap::Parser;
use satline::circuit::{CircuitKind, Conditions, Settings};
use satline::expected::{ExpectedWindow, Quantiles};
use satline::inspection::Measurand;
use satline::quantity::Quantity;
use satline::{GaugePressure, Pressure, Ratio, Refrigerant, Temperature, TemperatureDifference};

/// Ambient temperatures, °C.
const AMBIENTS: [f64; 7] = [15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 45.0];
/// Relative humidity, %.
const HUMIDITY: f64 = 50.0;

/// Prints the computed windows of healthy cars; they are the same for everybody, and nothing can be chosen.
#[derive(Debug, Parser)]
#[command(name = "healthy_windows")]
pub struct Args;

/// 5, 50 and 95 % of the cars.
fn three<Q: Quantity>(cars: &Quantiles<Q>, decimals: usize, number: impl Fn(Q) -> f64) -> String {
    let [low, _, middle, _, high] = cars.five().map(number);
    format!("{low:.decimals$} {middle:.decimals$} {high:.decimals$}")
}

fn row(kind: &CircuitKind, celsius: f64) -> Result<String, satline::Error> {
    let day = Conditions {
        ambient: Temperature::from_celsius(celsius),
        humidity: Some(Ratio::from_percent(HUMIDITY)),
        air: Pressure::STANDARD_ATMOSPHERE,
        settings: Settings::TEST,
    };
    let window = ExpectedWindow::for_day(kind, &day)?;
    let pressure = |cars: &Quantiles<GaugePressure>| {
        if kind.refrigerant == Refrigerant::R744 {
            three(cars, 1, GaugePressure::mpa)
        } else {
            three(cars, 0, GaugePressure::kpa)
        }
    };
    let step = |cars: &Quantiles<TemperatureDifference>| three(cars, 0, TemperatureDifference::kelvins);
    let temperature = |measurand: Measurand| {
        window.temperature(measurand).map_or("-".to_owned(), |cars| three(cars, 0, Temperature::celsius))
    };
    let subcooling = window.subcooling.as_ref().map_or("-".to_owned(), step);
    Ok(format!(
        "{celsius:>5.0}   {:<16} {:<16} {:<10} {:<10} {:<11} {}\n",
        pressure(&window.low_side),
        pressure(&window.high_side),
        step(&window.superheat),
        subcooling,
        temperature(Measurand::DischargeLine),
        temperature(Measurand::Vent),
    ))
}

/// What the example prints.
pub fn page() -> Result<String, satline::Error> {
    let mut page = format!(
        "Healthy cars by ambient temperature, computed: 5, 50 and 95 % of 256 cars\n\
         idle, recirculation, blower at its highest, {HUMIDITY:.0} % humidity, sea level\n\
         pressures gauge; superheat and subcooling as read at the ports, K; lines and vent, °C\n"
    );
    for refrigerant in [Refrigerant::R134a, Refrigerant::R1234yf, Refrigerant::R744] {
        for kind in CircuitKind::main(refrigerant) {
            let unit = if refrigerant == Refrigerant::R744 { "MPa" } else { "kPa" };
            let (low, high) = (format!("low side {unit}"), format!("high side {unit}"));
            let _ = write!(
                page,
                "\n{kind}\n{:>5}   {low:<16} {high:<16} {:<10} {:<10} {:<11} vent\n",
                "°C", "superheat", "subcool", "discharge"
            );
            for celsius in AMBIENTS {
                page += &row(&kind, celsius)?;
            }
        }
    }
    Ok(page)
}

fn main() -> ExitCode {
    command::run("healthy_windows", |_: &Args, out| out.page(&page()?))
}
