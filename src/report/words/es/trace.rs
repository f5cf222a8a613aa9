//! Spanish sentences about a log.

use crate::report::trace::{LogFigure, LogQuantity, TraceMessage, TraceOpening};
use crate::report::words::es::NUMERALS;
use crate::trace::{CyclingQuality, Drift, SteadyKind};

/// The sentence about a finding.
pub(in crate::report) fn message(message: &TraceMessage) -> String {
    match message {
        TraceMessage::Steady { kind, drifts, readings } => {
            let drifting: Vec<String> =
                drifts.iter().map(|(side, drift)| format!("{} {}", quantity(*side), self::drift(*drift))).collect();
            let kind = if drifting.is_empty() { steady(*kind).to_owned() } else { drifting.join(", ") };
            format!("{kind}; {} lecturas", NUMERALS.number(*readings as f64, 0))
        }
        TraceMessage::Cycling { cycles, quality, readings_per_cycle, period_deviation } => {
            let reservation = match quality {
                CyclingQuality::TooCoarse => format!(
                    "; {readings_per_cycle} lecturas por ciclo son muy pocas para conocer periodo y ciclo de trabajo: lea más a menudo"
                ),
                CyclingQuality::Irregular => format!(
                    "; los periodos varían {period_deviation} s (desviación típica), más de lo que causaría un presostato: ¿cambió el \
                     régimen del motor?"
                ),
                CyclingQuality::Regular => String::new(),
            };
            format!("el embrague cicla: {cycles} ciclos completos{reservation}")
        }
        TraceMessage::Transient { low, high, undecided } => {
            let reservation = undecided.map_or(String::new(), |flanks| {
                format!("; ambos lados oscilaron {flanks} veces, muy pocas para saber si el embrague cicla")
            });
            format!("cambia: baja de {low}, alta de {high}{reservation}")
        }
        TraceMessage::Gap { length } => format!("sin lecturas durante {length}"),
        TraceMessage::ClockReset { back } => {
            format!("el tiempo salta hacia atrás {back}: se atrasó el reloj, o sigue otro registro")
        }
    }
}

/// What a steady period is.
const fn steady(kind: SteadyKind) -> &'static str {
    match kind {
        SteadyKind::Steady => "estable",
        SteadyKind::Drifting => "con deriva",
        SteadyKind::Equalised => "igualado: ambos lados coinciden; el motor está parado o el compresor no bombea",
        SteadyKind::EqualisedVacuum => "igualado en vacío: ambos lados coinciden, el circuito tiene hecho el vacío",
        SteadyKind::FastSwitching => {
            "los lados se dispersan en sentidos opuestos: algo conmuta más deprisa de lo que muestran estas lecturas; lea más a menudo"
        }
    }
}

const fn drift(drift: Drift) -> &'static str {
    match drift {
        Drift::Rising => "va subiendo",
        Drift::Falling => "va bajando",
    }
}

/// The name of a quantity of a log, short enough for a row of 80 columns.
pub(in crate::report) const fn quantity(quantity: LogQuantity) -> &'static str {
    match quantity {
        LogQuantity::LowSide => "lado de baja",
        LogQuantity::HighSide => "lado de alta",
        LogQuantity::SuctionLine => "aspiración",
        LogQuantity::LiquidLine => "líquido",
        LogQuantity::Vent => "rejilla",
        LogQuantity::Ambient => "ambiente",
        LogQuantity::Humidity => "humedad",
    }
}

/// The name of a figure of cycling or of a transient.
pub(in crate::report) const fn figure(figure: LogFigure) -> &'static str {
    match figure {
        LogFigure::Period => "periodo",
        LogFigure::ClutchDutyCycle => "ciclo de trabajo del embrague",
        LogFigure::CutOut => "lado de baja al desacoplar",
        LogFigure::CutIn => "lado de baja al acoplar",
        LogFigure::HighSideRange => "oscilación del lado de alta",
        LogFigure::LowSideAtStart => "lado de baja al principio",
        LogFigure::LowSideAtEnd => "lado de baja al final",
        LogFigure::HighSideAtStart => "lado de alta al principio",
        LogFigure::HighSideAtEnd => "lado de alta al final",
    }
}

/// The label of the row with a drift.
pub(in crate::report) const fn drifts_by() -> &'static str {
    "deriva"
}

/// What stands before a standard deviation.
pub(in crate::report) const fn scatter() -> &'static str {
    "dispersión"
}

/// From one time or value to another.
pub(in crate::report) fn range(from: &str, to: &str) -> String {
    format!("{from} a {to}")
}

/// The title of the page about a log.
pub(in crate::report) fn title(opening: &TraceOpening) -> String {
    format!("{}, un registro de lecturas de manómetro en el tiempo", opening.refrigerant)
}

/// The sentences that open it.
pub(in crate::report) fn opening(opening: &TraceOpening) -> Vec<String> {
    let TraceOpening { seconds, standard: [low, high], expanded: [off_low, off_high], .. } = opening;
    vec![
        "Los tiempos cuentan desde la primera lectura, en h:mm:ss.".to_owned(),
        format!(
            "Estable: durante {} s ningún lado se mueve más que la incertidumbre típica de su manómetro, {low} (baja) o {high} (alta), o \
             de lo que explica su propia dispersión.",
            NUMERALS.number(*seconds, 0)
        ),
        format!(
            "Los intervalos son del 95 %, solo por la dispersión de las lecturas. Los manómetros pueden desviarse además {off_low} (baja) y \
             {off_high} (alta)."
        ),
    ]
}
