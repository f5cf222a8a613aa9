//! An oil label prints ounces: which ounces are they?
//!
//! ```text
//! cargo run --example oil_label
//! cargo run --example oil_label -- "130 cc (4.6 fl oz)"
//! ```
//!
//! Exit status: 0 the labels were read, 1 one could not be.

#[path = "shared/command.rs"]
mod command;
use std::fmt::Write as _;
use std::process::ExitCode;

use clap::Parser;
use satline::report;
use satline::service::oil::label::OilLabel;

/// Says whether the ounces on an oil label are of weight, US fluid or imperial fluid, with the arithmetic.
#[derive(Debug, Parser)]
#[command(name = "oil_label")]
pub struct Args {
    /// Labels as printed, such as "130 cc (4.6 fl oz)"; without any, a few that are met are read, and an invented one.
    #[arg(value_name = "LABEL")]
    labels: Vec<OilLabel>,
}

/// A contradiction of our own, invented; labels as they are met: a weight, an imperial one, and ounces alone.
const MET: [&str; 4] = ["90–110 cm³ (3.1–4.0 oz)", "150±10 cc (5.29±0.35 oz)", "130 cc (4.6 fl oz)", "8 oz"];

/// What the example prints.
pub fn page(args: &Args) -> Result<String, satline::Error> {
    let labels = if args.labels.is_empty() {
        MET.iter().map(|text| text.parse()).collect::<Result<Vec<_>, _>>()?
    } else {
        args.labels.clone()
    };
    let mut page = String::new();
    if args.labels.is_empty() {
        page += "Worked example: the first label is invented, so as to contradict itself.\n\n";
    }
    for (i, label) in labels.iter().enumerate() {
        let _ = writeln!(page, "{}{}", if i == 0 { "" } else { "\n" }, label.text());
        for sentence in report::oil_label(label) {
            page += &report::folded(&sentence, "  - ", "    ", 80);
        }
    }
    Ok(page)
}

fn main() -> ExitCode {
    command::run("oil_label", |args, out| out.page(&page(args)?))
}
