//! A flag for each measurand, made from the library's table of them.

use clap::{Arg, ArgMatches, Command};
use satline::inspection::{EnteredValue, Entry, Measurand, MeasurandKind};

/// Engine speed of the second reading, rpm: what charts that ask for more than idle use.
pub const REVVED: f64 = 1500.0;

/// What was measured at the speed of the reading.
#[derive(Debug, Default)]
pub struct Measured(Vec<(Measurand, EnteredValue)>);

/// What was measured of the same car at [`REVVED`].
#[derive(Debug, Default)]
pub struct Revved(Vec<(Measurand, EnteredValue)>);

/// The name of a flag: "low", "suction-line", "duty".
pub fn flag(measurand: Measurand) -> &'static str {
    match measurand {
        Measurand::LowSide => "low",
        Measurand::HighSide => "high",
        Measurand::ClutchDutyCycle => "duty",
        other => other.id(),
    }
}

/// What a flag is for.
fn help(measurand: Measurand) -> String {
    match measurand {
        Measurand::LowSide => "Low-side gauge".to_owned(),
        Measurand::HighSide => "High-side gauge".to_owned(),
        Measurand::SuctionLine => "Thermometer clamped on the suction line".to_owned(),
        Measurand::EvaporatorOutlet => "Thermometer clamped on the evaporator outlet, before any hose".to_owned(),
        Measurand::LiquidLine => "Thermometer clamped on the liquid line".to_owned(),
        Measurand::DischargeLine => "Thermometer clamped on the discharge line, at the compressor".to_owned(),
        Measurand::Vent => "Thermometer at the centre vent".to_owned(),
        Measurand::ClutchDutyCycle => {
            "Share of time the clutch is engaged, timed over three cycles: \"40 %\" for 12 s of 30 s; \
                                       \"100 %\" where it never opens"
                .to_owned()
        }
        other => other.name().to_owned(),
    }
}

fn arg(measurand: Measurand, name: String, help: String) -> Arg {
    let kind = match measurand.kind() {
        MeasurandKind::Pressure => "PRESSURE",
        MeasurandKind::Temperature => "TEMPERATURE",
        _ => "SHARE",
    };
    let parse = move |text: &str| match measurand.kind() {
        // the flag names the quantity already
        MeasurandKind::Pressure => text.parse().map(EnteredValue::Pressure),
        MeasurandKind::Temperature => text.parse().map(EnteredValue::Temperature),
        _ => text.parse().map(EnteredValue::Share),
    };
    let id = name.replace('-', "_");
    let gauge = matches!(measurand, Measurand::LowSide | Measurand::HighSide) && id == flag(measurand);
    // what was measured once is no part of every row of a log; with the engine off nothing but the gauges is compared
    let conflicts: &[&str] = if gauge { &["log"] } else { &["log", "at_rest"] };
    Arg::new(id)
        .conflicts_with_all(conflicts)
        .long(name)
        .value_name(kind)
        .help(help)
        .allow_hyphen_values(true)
        .value_parser(parse)
}

/// Flags of running measurands with `prefix`; of those at another speed the clutch is not timed.
fn flags(prefix: &str, says: impl Fn(Measurand) -> String) -> impl Iterator<Item = (Measurand, Arg)> {
    Measurand::running()
        .filter(|&measurand| prefix.is_empty() || measurand != Measurand::ClutchDutyCycle)
        .map(|measurand| (measurand, arg(measurand, format!("{prefix}{}", flag(measurand)), says(measurand))))
        .collect::<Vec<_>>()
        .into_iter()
}

fn measured_flags() -> impl Iterator<Item = (Measurand, Arg)> {
    flags("", help)
}

fn revved_flags() -> impl Iterator<Item = (Measurand, Arg)> {
    flags("revved-", |measurand| match measurand {
        Measurand::LowSide => {
            "The low-side gauge of the same car at 1,500 rpm; of this and those that follow any will do".to_owned()
        }
        other => format!("The {} then", other.name()),
    })
}

fn read(flags: impl Iterator<Item = (Measurand, Arg)>, matches: &ArgMatches) -> Vec<(Measurand, EnteredValue)> {
    flags
        .filter_map(|(measurand, arg)| Some((measurand, *matches.get_one::<EnteredValue>(arg.get_id().as_str())?)))
        .collect()
}

fn put_into(values: &[(Measurand, EnteredValue)], entry: Entry) -> Result<Entry, satline::Error> {
    values.iter().try_fold(entry, |entry, &(measurand, value)| entry.with(measurand, value))
}

macro_rules! group {
    ($name:ident, $flags:path) => {
        impl $name {
            /// `entry` with these values.
            pub fn put_into(&self, entry: Entry) -> Result<Entry, satline::Error> {
                put_into(&self.0, entry)
            }

            /// Whether there are none.
            pub fn is_empty(&self) -> bool {
                self.0.is_empty()
            }
        }

        impl clap::FromArgMatches for $name {
            fn from_arg_matches(matches: &ArgMatches) -> Result<Self, clap::Error> {
                Ok(Self(read($flags(), matches)))
            }

            fn update_from_arg_matches(&mut self, matches: &ArgMatches) -> Result<(), clap::Error> {
                *self = Self::from_arg_matches(matches)?;
                Ok(())
            }
        }

        impl clap::Args for $name {
            fn augment_args(command: Command) -> Command {
                $flags().fold(command, |command, (_, arg)| command.arg(arg))
            }

            fn augment_args_for_update(command: Command) -> Command {
                Self::augment_args(command)
            }
        }
    };
}

group!(Measured, measured_flags);
group!(Revved, revved_flags);

impl Measured {
    /// Whether `measurand` was not given.
    pub fn is_missing(&self, measurand: Measurand) -> bool {
        !self.0.iter().any(|(known, _)| *known == measurand)
    }
}
