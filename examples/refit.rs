//! Repeats the fit of every pure fluid's saturation line and prints the coefficients.
//!
//! ```text
//! cargo run --release --features fit --example refit
//! ```

#[path = "shared/command.rs"]
mod command;
use std::process::ExitCode;

use clap::Parser;
use satline::fit;
use satline::refrigerant::Refrigerant;

/// Repeats the fits of the saturation lines and prints their coefficients; nothing can be chosen.
#[derive(Debug, Parser)]
#[command(name = "refit")]
pub struct Args;

/// Tables of the equations of state, one per pure fluid.
const TABLES: [(Refrigerant, &str); 12] = [
    (Refrigerant::R134a, include_str!("../tables/equation/r134a.csv")),
    (Refrigerant::R1234yf, include_str!("../tables/equation/r1234yf.csv")),
    (Refrigerant::R744, include_str!("../tables/equation/r744.csv")),
    (Refrigerant::R152a, include_str!("../tables/equation/r152a.csv")),
    (Refrigerant::R290, include_str!("../tables/equation/r290.csv")),
    (Refrigerant::R12, include_str!("../tables/equation/r12.csv")),
    (Refrigerant::R600a, include_str!("../tables/equation/r600a.csv")),
    (Refrigerant::R22, include_str!("../tables/equation/r22.csv")),
    (Refrigerant::R1234ze, include_str!("../tables/equation/r1234ze.csv")),
    (Refrigerant::R32, include_str!("../tables/equation/r32.csv")),
    (Refrigerant::R125, include_str!("../tables/equation/r125.csv")),
    (Refrigerant::R143a, include_str!("../tables/equation/r143a.csv")),
];

/// The page: for each fluid the constants of its data file.
pub fn page() -> Result<String, satline::Error> {
    let mut page = String::from(
        "Saturation lines fitted to tables/equation: ln(p/pc) = (Tc/T) sum n theta^k, theta = 1 - T/Tc\n\
         errors against the table: up to -60 C, -40 C, Tc - 2 K, Tc\n",
    );
    for (refrigerant, table) in TABLES {
        let rows = fit::read_table(table, "temperature_K", "pressure_Pa")?;
        let shipped = refrigerant.dew_line();
        let (tc, pc) = (shipped.critical_temperature, shipped.critical_pressure);
        let line = fit::wagner(&rows, (tc, pc), &fit::EXPONENTS, shipped.source)?;
        page += &format!(
            "\n{refrigerant}  Tc {} K  pc {} Pa  from {} K  rows {}\n",
            tc.kelvin(),
            pc.pa(),
            line.valid.low.kelvin(),
            rows.len()
        );
        for (n, k) in line.terms {
            page += &format!("  n {n:>12.7}  k {k}\n");
        }
        for band in line.accuracy.iter().filter(|band| band.up_to > line.valid.low) {
            page += &format!(
                "  to {:>7.3} K  {:.1e} of p  {:.1e} K\n",
                band.up_to.kelvin(),
                band.pressure,
                band.temperature.kelvins()
            );
        }
    }
    Ok(page)
}

fn main() -> ExitCode {
    command::run("refit", |_: &Args, out| out.page(&page()?))
}
