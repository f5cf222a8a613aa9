//! The texts of pictures in Spanish.

use super::{NUMERALS, reading};
use crate::expected::Side;
use crate::inspection::{Measurand, Undetermined};
use crate::plot::{
    CardText, CausesText, CycleText, PictureName, PictureText, PictureWords, SaturationText, VacuumText, WindowsText,
};
use crate::service::acceptance::{AcceptanceLimit, AcceptanceOutcome, Criterion};
use crate::service::standing_vacuum::VacuumFinding;

impl PictureWords for super::Spanish {
    fn point(&self) -> char {
        NUMERALS.point
    }

    fn text(&self, text: PictureText) -> String {
        worded(text)
    }
}

fn worded(text: PictureText) -> String {
    match text {
        PictureText::Name(text) => name(text),
        PictureText::Saturation(text) => saturation(text),
        PictureText::Windows(text) => windows(text),
        PictureText::Causes(text) => causes(text),
        PictureText::Vacuum(text) => vacuum(text),
        PictureText::Cycle(text) => cycle(text),
        PictureText::Card(text) => card(text),
    }
}

fn name(text: PictureName) -> String {
    use PictureName as T;
    match text {
        T::GaugePressureAxis(unit) => format!("presión manométrica, {unit}"),
        T::AbsolutePressureAxis(unit) => format!("presión absoluta, {unit}"),
        T::TemperatureAxis(unit) => format!("temperatura, {unit}"),
        T::AmbientAxis(unit) => format!("temperatura ambiente, {unit}"),
        T::TimeAxis => "tiempo desde la primera lectura, min".to_owned(),
        T::EnthalpyAxis => "entalpía, kJ/kg".to_owned(),
        T::Side(of) => reading::side(of).to_owned(),
        T::Line(Side::Low) | T::SuctionLine => "línea de aspiración".to_owned(),
        T::Line(Side::High) | T::LiquidLine => "línea de líquido".to_owned(),
        T::Difference(Side::Low) => "sobrecalentamiento".to_owned(),
        T::Difference(Side::High) => "subenfriamiento".to_owned(),
        T::Ambient => "ambiente".to_owned(),
        T::Saturated => "saturación".to_owned(),
        T::BubbleLine => "línea de burbuja".to_owned(),
        T::DewLine => "línea de rocío".to_owned(),
        T::CriticalPoint => "punto crítico".to_owned(),
        T::Liquid => "líquido".to_owned(),
        T::Vapour => "vapor".to_owned(),
        T::Read | T::ReadHead => "leído".to_owned(),
        T::OwnWindow => "rango propio".to_owned(),
        T::HealthyCars => "coches sanos".to_owned(),
        T::NoSource => " (sin fuente)".to_owned(),
        T::CarriedOver => " (trasladada)".to_owned(),
        T::OtherHumidity => " (otra humedad)".to_owned(),
        T::Measurand(of, false) => measurand(of).to_owned(),
        T::Measurand(of, true) => format!("2.ª {}", measurand(of)),
        T::Or => "; o ".to_owned(),
        T::Span(low, high) => format!("{low} a {high}"),
        T::ShownHead => "estos coches".to_owned(),
        T::Probability(probability) => probability_words(probability),
        T::Limit(letter) => format!("límite {letter}"),
        T::Readings(count) => format!("{} lecturas", NUMERALS.number(count as f64, 0)),
        T::DischargeLine => "línea de descarga".to_owned(),
        T::IsentropicOutlet => "tras un compresor sin pérdidas".to_owned(),
        T::GasCoolerOutlet => "salida del enfriador de gas".to_owned(),
        T::EvaporatorInlet => "tras la expansión".to_owned(),
        T::VapourShare(quality) => format!("{} % de vapor", NUMERALS.number(quality.percent(), 0)),
    }
}

fn saturation(text: SaturationText) -> String {
    use SaturationText as T;
    match text {
        T::SaturationTitle(r) => format!("{r}: la lectura en la línea de saturación"),
        T::AmbientDrawnAt(ambient, of) => {
            format!("ambiente {ambient}, dibujado a la presión del {}", reading::side(of))
        }
        T::SaturationShown(r, air) => {
            format!("Línea de saturación de {r} como presión manométrica según la temperatura, con el aire a {air}.")
        }
        T::NoSaturation(gauge) => format!("{gauge}, por encima de la presión crítica: sin saturación"),
        T::BubbleAndDew([gauge, bubble, dew]) => {
            format!("{gauge}: punto de burbuja {bubble}, punto de rocío {dew}")
        }
        T::SaturatedAt(gauge, t) => format!("{gauge}: saturación a {t}"),
        T::AtRest(ambient) => format!("En reposo; {ambient}."),
        T::BubbleKey => "línea de burbuja, desde la que cuenta el subenfriamiento".to_owned(),
        T::DewKey => "línea de rocío, desde la que cuenta el sobrecalentamiento".to_owned(),
        T::SaturationFoot(air) => {
            format!(
                "Las barras y ± son intervalos del 95 % de los instrumentos. Presiones manométricas con el aire a {air}."
            )
        }
        T::SaturationSource(source) => format!("Saturación: {source}."),
    }
}

fn windows(text: WindowsText) -> String {
    use WindowsText as T;
    let n = NUMERALS;
    match text {
        T::WindowsTitle(r, of, own) => {
            let cars = if own { "este coche cuando está sano" } else { "coches sanos" };
            format!("{r}: el {} de {cars} según la temperatura ambiente", reading::side(of))
        }
        T::ReadAt(read, ambient) => format!("leído: {read} a {ambient}"),
        T::NineTenths { cars, rows: 0 } => {
            format!("nueve décimas partes de {} coches sanos calculados, 5 a 95 %", n.number(cars as f64, 0))
        }
        T::NineTenths { rows, .. } => {
            let given = if rows == 1 { "fila dada" } else { "filas dadas" };
            format!("su rango propio, 5 a 95 %, calculado con {rows} {given}")
        }
        T::Half(true) => "su mitad central; la línea es su mediana".to_owned(),
        T::Half(false) => "la mitad de ellos; la línea es el coche del medio".to_owned(),
        T::OnThisDay(ambient, unit) => format!("En este día, {ambient}: presión manométrica, {unit}"),
        T::WindowsFoot { humidity, air, charts } => {
            let humidity = humidity.map_or("30 a 80 % de humedad, ya que no se midió".to_owned(), |humidity| {
                format!("{} % de humedad", n.number(humidity.percent(), 0))
            });
            let charts = if charts {
                "Las tablas son de otros coches; cada nombre es una tabla publicada, cuya fuente indica satline."
            } else {
                "Ninguna tabla publicada cubre este día."
            };
            format!(
                "Calculado para {humidity}, aire a {air}. La barra de la lectura es su intervalo del 95 %. {charts}"
            )
        }
        T::WindowsShown { side: of, own, ambient, nine: [low, high], middle, read, below } => {
            let (of, below) = (reading::side(of), share(below.percent()));
            if own {
                format!(
                    "A {ambient} el rango propio de este coche en el {of} es {low} a {high}, su mediana {middle}. Se leyó {read}: {below} \
                     de él queda por debajo."
                )
            } else {
                format!(
                    "A {ambient} nueve décimas partes de los coches sanos muestran {low} a {high} en el {of}, el del medio {middle}. Se leyó \
                     {read}: {below} de ellos muestran menos."
                )
            }
        }
        T::Chart { id, band: [low, high], remark } => format!("Tabla {id}: {low} a {high}{remark}."),
        T::NoChart => "Ninguna tabla publicada cubre este día.".to_owned(),
    }
}

fn causes(text: CausesText) -> String {
    use CausesText as T;
    let n = NUMERALS;
    match text {
        T::RankingTitle => "Causas, y lo que muestran sus coches".to_owned(),
        T::OutsideModel => "Esto no se parece a nada modelado: ninguna causa explica los números a la vez.".to_owned(),
        T::ReadAndShown([name, read, shown]) => format!("{name}: leído {read}, estos coches muestran {shown}"),
        T::WhatWasRead => "lo que se leyó".to_owned(),
        T::NineTenthsOfSuch => "unas nueve décimas partes de estos coches; la línea es su centro".to_owned(),
        T::RankingFoot { circuits, rest, left } => {
            let left = probability_words(left);
            let others = match rest {
                0 => String::new(),
                1 => format!(" Otra más tiene {left}."),
                _ => format!(" Las otras {rest} se reparten {left}."),
            };
            format!(
                "Las probabilidades son entre las causas modeladas, por comparación con {} coches simulados.{others} Ir en cabeza no \
                 demuestra una causa.",
                n.number(circuits as f64, 0)
            )
        }
    }
}

fn vacuum(text: VacuumText) -> String {
    use VacuumText as T;
    let n = NUMERALS;
    match text {
        T::HoldTitle => "Prueba de vacío: cómo sube la presión".to_owned(),
        T::Fitted(finding) => format!("ajuste: {}", fitted(finding)),
        T::CurveInterval => "intervalo del 95 % de la curva".to_owned(),
        T::HoldShown { minutes, readings, ends: [first, last] } => format!(
            "Presión absoluta durante {} minutos: {} lecturas de {first} a {last}.",
            n.number(minutes, 1),
            n.number(readings as f64, 0)
        ),
        T::Judged { letter, limit, outcome: judged, drawn } => {
            let place = if drawn { "" } else { ", fuera de la imagen" };
            format!("límite {letter} ({}): {}{place}", self::limit(limit), outcome(judged))
        }
        T::HoldFoot => {
            "Los límites de una subida cuentan desde la primera lectura y acaban en el tiempo más largo para el que se publicaron. \
             Cumplirlos no demuestra que nada fugue."
                .to_owned()
        }
        T::LimitSources(sources) => format!("Límites. {sources}."),
    }
}

fn cycle(text: CycleText) -> String {
    use CycleText as T;
    let n = NUMERALS;
    match text {
        T::CycleTitle(r) => format!("{r}: el ciclo en presión y entalpía"),
        T::CycleShown([r, low, high], transcritical) => {
            let above = if transcritical { ", por encima de la presión crítica" } else { "" };
            format!("Diagrama presión–entalpía de {r}. Lado de baja {low} absolutos, lado de alta {high} absolutos{above}.")
        }
        T::Undetermined(Undetermined::NotMeasured) => "sin medir".to_owned(),
        T::Undetermined(Undetermined::TwoPhase) => {
            "demasiado cerca de la saturación, donde una temperatura no dice cuánto es líquido".to_owned()
        }
        T::Undetermined(Undetermined::OutOfRange) => "fuera del rango de la ecuación de estado".to_owned(),
        T::EqualTemperature(unit) => format!("igual temperatura, {unit}"),
        T::EqualEntropy => "igual entropía, kJ/(kg K)".to_owned(),
        T::WithoutLoss => "un compresor sin pérdidas (igual entropía), no medido".to_owned(),
        T::CycleFoot => {
            "Las líneas se toman a la presión de su manómetro, la expansión a igual entalpía. Entalpía 200 kJ/kg y entropía 1 kJ/(kg K) \
             para el líquido saturado a 0 °C."
                .to_owned()
        }
        T::PropertySource(source) => format!("Propiedades: {source}."),
        T::Effect(effect) => format!("Efecto frigorífico {} kJ/kg.", n.number(effect, 0)),
    }
}

fn card(text: CardText) -> String {
    use CardText as T;
    match text {
        T::CardTitle(r) => format!("{r}: presión de saturación según la temperatura"),
        // short, as the column has room for no more
        T::BubbleHead(unit) => format!("burb. {unit}"),
        T::DewHead(unit) => format!("rocío {unit}"),
        T::CardPlace { air, in_brackets, negative } => {
            let marked = match (in_brackets, negative) {
                (true, true) => "; vacío negativo, junto a psi entre paréntesis en inHg",
                (true, false) => "; entre paréntesis, inHg de vacío",
                (false, true) => "; los números negativos son un vacío",
                (false, false) => "",
            };
            format!("Presiones manométricas, aire a {air}{marked}.")
        }
        T::BlendColumns => {
            "Subenfriamiento desde la columna de burbuja, sobrecalentamiento desde la de rocío.".to_owned()
        }
        T::CardCaution => {
            "Presiones con líquido y vapor a la vez, en reposo y a una sola temperatura. No es una guía de carga: un circuito en marcha \
             muestra otras, y la carga se pesa."
                .to_owned()
        }
        T::CardSource(source, digit) => {
            format!("Según {source}. La tabla la sigue dentro de media última cifra, {digit}.")
        }
        T::AtGauge(pressure) => format!("{pressure} manométricos"),
        T::InVacuum(inches) => format!("{inches} inHg de vacío"),
        T::CardShown { rows, refrigerant, temperatures: [first, last], pressures: [low, high], blend } => {
            let lines = if blend { " en la línea de rocío; al lado, la línea de burbuja" } else { "" };
            format!("Tabla de {rows} filas: {refrigerant} de {first}, {low}, a {last}, {high}{lines}.")
        }
    }
}

/// The name of a measurand, no longer than a column of names has room for.
fn measurand(measurand: Measurand) -> &'static str {
    match measurand {
        Measurand::EqualisedPressure => "presión, motor parado",
        Measurand::ClutchDutyCycle => "ciclo del embrague",
        Measurand::LowSide
        | Measurand::HighSide
        | Measurand::SuctionLine
        | Measurand::EvaporatorOutlet
        | Measurand::LiquidLine
        | Measurand::DischargeLine
        | Measurand::Vent
        | Measurand::RecoveredCharge => reading::measurand(measurand),
    }
}

/// A limit in short, in the unit that its source prints.
fn limit(limit: &AcceptanceLimit) -> String {
    let (low, high) = (NUMERALS.number(limit.over.low.minutes(), 0), NUMERALS.number(limit.over.high.minutes(), 0));
    let minutes = if low == high { high } else { format!("{low} a {high}") };
    match limit.criterion {
        Criterion::Rise(most) => format!("{} inHg en {minutes} min", NUMERALS.number(most.inhg(), 0)),
        Criterion::StaysBelow(most) => format!("{} micras tras {minutes} min", NUMERALS.number(most.microns(), 0)),
    }
}

/// What the rise says, in a few words.
const fn fitted(finding: VacuumFinding) -> &'static str {
    match finding {
        VacuumFinding::NoRise => "ninguna subida que estas lecturas pudieran mostrar",
        VacuumFinding::Falling => "la presión baja",
        VacuumFinding::Leak => "una subida recta, como la de una fuga",
        VacuumFinding::Moisture => "una subida que se aplana, como la de humedad",
        VacuumFinding::LeakAndMoisture => "una subida que se aplana sobre una recta, como la de humedad y una fuga",
        VacuumFinding::OpenToAir => "una subida hasta la presión del aire: abierto",
        VacuumFinding::SpeedsUp => "una subida cada vez más rápida, que ni una fuga ni la humedad causan",
        VacuumFinding::CannotTell => "una fuga y humedad encajan por igual",
    }
}

const fn outcome(outcome: AcceptanceOutcome) -> &'static str {
    match outcome {
        AcceptanceOutcome::Passes => "cumple",
        AcceptanceOutcome::Fails => "no cumple",
        AcceptanceOutcome::Open => "las lecturas lo dejan abierto",
        AcceptanceOutcome::TooShort => "la prueba es demasiado corta para él",
    }
}

/// A share of the circuits, never put as all or none.
fn share(percent: f64) -> String {
    match percent {
        p if p < 1.0 => "menos del 1 %".to_owned(),
        p if p > 99.0 => "más del 99 %".to_owned(),
        p => format!("el {} %", NUMERALS.number(p, 0)),
    }
}

/// A probability, never put as certain.
fn probability_words(probability: f64) -> String {
    match 100.0 * probability {
        p if p > 98.0 => "más del 98 %".to_owned(),
        p if p < 1.0 => "menos del 1 %".to_owned(),
        p => format!("{} %", NUMERALS.number(p, 0)),
    }
}
