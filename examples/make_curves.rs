//! Makes the curves that answer for saturation: piecewise polynomials from each equation of state.
//!
//! ```text
//! cargo run --release --features fit --example make_curves -- src/refrigerant/curves
//! ```
//!
//! Writes one file of constants per refrigerant into the folder given, and prints their sizes. Without a folder it only
//! prints.

#[path = "shared/command.rs"]
mod command;
#[path = "shared/files.rs"]
mod files;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use clap::Parser;
use satline::helmholtz::terms::Equilibrium;
use satline::refrigerant::Refrigerant;
use satline::saturation::tables::{MadeCurve, MadeDome, SaturatedPhase};
use satline::{Error, Pressure, Range, Temperature, TemperatureDifference};

/// Makes the curves of every refrigerant and prints their sizes.
#[derive(Debug, Parser)]
#[command(name = "make_curves")]
pub struct Args {
    /// Write the constants into this folder, one file for each refrigerant.
    #[arg(value_name = "FOLDER")]
    folder: Option<PathBuf>,
}

/// The curves of one refrigerant: the text of their constants, and their size in bytes.
pub struct Made {
    /// Name of the file.
    pub file: String,
    /// Its text.
    pub text: String,
    /// Bytes of the constants.
    pub bytes: usize,
}

/// How close to the critical temperature phase equilibrium is computed.
const CLOSEST: TemperatureDifference = TemperatureDifference::from_kelvins(0.01);
/// Where densities, enthalpies and entropies end.
const DOME_END: TemperatureDifference = TemperatureDifference::from_kelvins(0.1);

/// Saturation pressure of the equation, up to its critical point.
///
/// In the last 0.01 K, where the phases can no longer be told apart, the cubic through the four points that are spaced as
/// far below and the critical pressure: the pressure is smooth there.
pub fn pressure(r: Refrigerant, t: Temperature) -> Result<Pressure, Error> {
    let equation = &r.fluid().equation;
    let critical = Temperature::from_kelvin(equation.critical_temperature);
    let exact = |t: Temperature| Ok::<_, Error>(Equilibrium::at(equation, t)?.pressure().pa());
    if t <= critical - CLOSEST {
        return exact(t).map(Pressure::from_pa);
    }
    // Lagrange's polynomial in steps of 0.01 K below the critical point
    let x = (critical - t) / CLOSEST;
    let nodes = [0.0, 1.0, 2.0, 3.0];
    let mut p = 0.0;
    for (i, node) in nodes.iter().enumerate() {
        let value = if i == 0 { equation.critical_pressure } else { exact(critical - CLOSEST * *node)? };
        let weight: f64 =
            nodes.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, other)| (x - other) / (node - other)).product();
        p += value * weight;
    }
    Ok(Pressure::from_pa(p))
}

/// Both phases of the equation.
pub fn phases(r: Refrigerant, t: Temperature) -> Result<(SaturatedPhase, SaturatedPhase), Error> {
    let both = Equilibrium::at(&r.fluid().equation, t)?;
    let saturated = |state: &satline::helmholtz::State| SaturatedPhase {
        density: state.density(),
        enthalpy: state.enthalpy(),
        entropy: state.entropy(),
    };
    Ok((saturated(both.liquid()), saturated(both.vapour())))
}

/// Makes the curves of one refrigerant.
pub fn make(r: Refrigerant) -> Result<Made, Error> {
    let name = r.designation().to_lowercase().replace("(e)", "").replace('-', "");
    let mut text = format!(
        "//! {r}: saturation as piecewise polynomials, made by `examples/make_curves.rs` from the equation of state.\n\n\
         use crate::numeric::{{Piece, Pieces}};\n"
    );
    let fluid = format!("super::super::{name}::EQUATION");
    let bytes = if r.is_blend() {
        text += "use crate::saturation::Curve;\nuse crate::{Pressure, Range, Temperature};\n\n";
        let mut bytes = 0;
        for (constant, line) in [("BUBBLE", r.bubble_line()), ("DEW", r.dew_line())] {
            let made = MadeCurve::new(line.valid, line.critical_temperature, |t| line.pressure(t))?;
            text += &(made.to_rust(constant, &fluid) + "\n");
            bytes += made.bytes();
        }
        bytes
    } else {
        text += "use crate::saturation::{Curve, Dome};\nuse crate::{Pressure, Range, Temperature};\n\n";
        let critical = r.dew_line().critical_temperature;
        let valid = Range::new(r.fluid().equation.limits.coldest, critical);
        let made = MadeCurve::new(valid, critical, |t| pressure(r, t))?;
        let curve = made.curve(r.dew_line().source);
        let below = Range::new(valid.low, critical - DOME_END);
        let dome = MadeDome::new(&curve, below, critical, |t| phases(r, t))?;
        text += &format!("{}\n{}", made.to_rust("CURVE", &fluid), dome.to_rust("DOME", "CURVE"));
        made.bytes() + dome.bytes()
    };
    Ok(Made { file: name + ".rs", text: text.trim_end().to_owned() + "\n", bytes })
}

fn run(args: &Args, out: &mut impl Write) -> Result<ExitCode, Box<dyn std::error::Error>> {
    let mut total = 0;
    for &r in Refrigerant::ALL {
        let made = make(r)?;
        writeln!(out, "{:<12} {:>6} bytes", r.designation(), made.bytes)?;
        total += made.bytes;
        if let Some(folder) = &args.folder {
            files::write(&folder.join(&made.file), &made.text)?;
        }
    }
    writeln!(out, "{:<12} {total:>6} bytes", "together")?;
    Ok(ExitCode::SUCCESS)
}

fn main() -> ExitCode {
    command::run("make_curves", run)
}
