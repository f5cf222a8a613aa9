//! The sentences of a page about one reading.

use super::{NUMERALS, causes};
use crate::circuit::{CircuitKind, CompressorKind, ExpansionKind};
use crate::diagnosis::{CauseId, Headline, JudgedQuantity, Outside, QuestionedInput, Stop, UnitQuestion};
use crate::expected::{EqualisedVerdict, Side};
use crate::inspection::Measurand;
use crate::quantity::Position;
use crate::report::words::{Label, capitalised};
use crate::report::{
    AirSource, Amount, Caution, Healthy, InstrumentRow, Mark, Opening, Report, ReportedState, SourceRow, SourceTopic,
    Statement,
};
use crate::{Pressure, quantity::instrument};

/// A heading or a word in a table.
pub(super) fn label(label: Label) -> &'static str {
    match label {
        Label::Questions => "¿Es eso lo que se quería escribir?",
        Label::Pressures => "Presiones",
        Label::Healthy => "Frente a coches sanos en este día",
        Label::Causes => "Qué lo explica",
        Label::Next => "Qué hacer ahora",
        Label::Safety => "Seguridad",
        Label::Meaning => "Qué significa",
        Label::AgainstSaturation => "Frente a la saturación a temperatura ambiente",
        Label::AgainstPrint => "Frente a tablas publicadas y reglas prácticas",
        Label::Charts => "Tablas para este día y dónde cae la lectura",
        Label::Sources => "Fuentes (en el idioma de cada obra)",
        Label::Read => "lectura",
        Label::Window => "rango",
        Label::Result => "resultado",
        Label::Gauge => "manométrica",
        Label::Absolute => "absoluta",
        Label::SaturatedAt => "saturación a",
        Label::DewPoint => "punto de rocío",
        Label::BubblePoint => "punto de burbuja",
        Label::Chart => "tabla",
        Label::NoWindow => "no se conoce ningún rango",
        Label::AboveCritical => "supercrítica",
        Label::Low => "baja",
        Label::High => "alta",
        Label::EngineOff => "motor parado",
        Label::Unjudged => "(sin rango)",
        Label::AboveCriticalPressure => "por encima de la presión crítica",
    }
}

/// The name of a measurand.
pub(super) fn measurand(measurand: Measurand) -> &'static str {
    match measurand {
        Measurand::LowSide => "lado de baja",
        Measurand::HighSide => "lado de alta",
        Measurand::SuctionLine => "línea de aspiración",
        Measurand::LiquidLine => "línea de líquido",
        Measurand::Vent => "rejilla",
        Measurand::EvaporatorOutlet => "salida del evaporador",
        Measurand::DischargeLine => "línea de descarga",
        Measurand::ClutchDutyCycle => "ciclo de trabajo del embrague",
        Measurand::EqualisedPressure => "presión con el motor parado",
        Measurand::RecoveredCharge => "carga recuperada",
    }
}

/// The name of a judged quantity.
pub(super) fn quantity(quantity: JudgedQuantity) -> &'static str {
    match quantity {
        JudgedQuantity::Measured(of) => measurand(of),
        JudgedQuantity::Superheat => "sobrecalentamiento",
        JudgedQuantity::Subcooling => "subenfriamiento",
        JudgedQuantity::CondensingOverAmbient => "condensación–ambiente",
        JudgedQuantity::EqualisedMean => "ambos, según exactitud",
    }
}

/// The name of a side.
pub(super) fn side(side: Side) -> &'static str {
    match side {
        Side::Low => "lado de baja",
        Side::High => "lado de alta",
    }
}

/// The position in a word.
pub(super) fn position(position: Position) -> &'static str {
    match position {
        Position::Below => "debajo",
        Position::Within => "dentro",
        Position::Above => "encima",
    }
}

/// The kind of a circuit.
pub(super) fn kind(kind: &CircuitKind) -> String {
    let compressor = match kind.compressor {
        CompressorKind::Cycling => "embrague cíclico",
        CompressorKind::Internal => "compresor variable de regulación interna",
        CompressorKind::External => "compresor variable de regulación externa",
        CompressorKind::Electric => "compresor eléctrico",
    };
    let expansion = match kind.expansion {
        ExpansionKind::ThermostaticValve => "válvula termostática",
        ExpansionKind::OrificeTube => "tubo de orificio",
        ExpansionKind::ElectronicValve => "válvula electrónica",
    };
    let exchanger = if kind.internal_exchanger { ", intercambiador interno" } else { "" };
    let rear = if kind.rear_evaporator { ", evaporador trasero" } else { "" };
    format!("{}, {expansion}, {compressor}{exchanger}{rear}", kind.refrigerant)
}

/// The title of a page.
pub(super) fn title(report: &Report) -> String {
    let state = match report.state {
        ReportedState::Running => "compresor en marcha",
        ReportedState::Equalised => "motor parado, presiones igualadas",
    };
    let blend = if report.opening.blend {
        ", una mezcla: sobrecalentamiento y condensación desde la línea de rocío, subenfriamiento desde la línea de burbuja"
    } else {
        ""
    };
    format!("{}, {state}{blend}", report.refrigerant)
}

/// What stands under the title: the conditions and what was not read.
pub(super) fn opening(report: &Report) -> Vec<String> {
    let mut sentences = Vec::new();
    if report.invented {
        sentences.push("Ejemplo resuelto: los números son inventados, no se midió ningún coche.".to_owned());
    }
    sentences.push(conditions(&report.opening));
    let unread = &report.advice.unread_gauges;
    sentences.extend(not_read(unread).map(str::to_owned));
    sentences
}

/// The air, in a sentence.
fn conditions(opening: &Opening) -> String {
    let mut parts = Vec::new();
    if let Some(ambient) = &opening.ambient {
        parts.push(format!("temperatura ambiente {}", NUMERALS.entered(ambient)));
    }
    if let Some(humidity) = &opening.humidity {
        parts.push(format!("humedad {}", NUMERALS.entered(humidity)));
    }
    let air = in_hectopascals(&opening.air);
    let (pressure, half) = (NUMERALS.plain(&air), NUMERALS.half_width(&air));
    parts.push(match &opening.air_source {
        AirSource::Barometer => format!("presión del aire {pressure} según el barómetro"),
        AirSource::Altitude { entered } => format!(
            "presión del aire {pressure} (atmósfera estándar a {}, tiempo atmosférico ± {half})",
            NUMERALS.entered(entered)
        ),
        AirSource::SeaLevel => {
            format!("presión del aire {pressure} (sin altitud indicada: nivel del mar, tiempo atmosférico ± {half})")
        }
    });
    capitalised(&parts.join(", ")) + "."
}

/// The pressure of the air as a barometer shows it here; as it stands where its unit is none of pressure.
fn in_hectopascals(air: &Amount) -> Amount {
    let pascals = |value: f64| format!("{value} {}", air.unit).parse::<Pressure>().map(|p| p.pa() / 100.0);
    let Ok(value) = pascals(air.value) else { return air.clone() };
    Amount::new(value, air.plus_minus.and_then(|half| pascals(half).ok()), "hPa", 0)
}

/// Which gauge was not read.
fn not_read(unread: &[Measurand]) -> Option<&'static str> {
    match unread {
        [] => None,
        [Measurand::LowSide] => {
            Some("No se leyó el lado de baja; quedan por ello más cosas abiertas que con ambos manómetros.")
        }
        [_] => Some("No se leyó el lado de alta; quedan por ello más cosas abiertas que con ambos manómetros."),
        _ => Some(
            "Con el compresor en marcha no se leyó ninguno de los dos manómetros; quedan por ello muchas más cosas abiertas que con \
             ambos.",
        ),
    }
}

/// Instruments by the names that the library gives them, and their names here.
const INSTRUMENTS: [(&str, &str); 9] = [
    (instrument::PressureGauge::SERVICE_LOW.name, "manómetro de servicio de baja"),
    (instrument::PressureGauge::SERVICE_HIGH.name, "manómetro de servicio de alta"),
    (instrument::PressureGauge::CARBON_DIOXIDE_LOW.name, "manómetro de servicio de baja para R-744"),
    (instrument::PressureGauge::CARBON_DIOXIDE_HIGH.name, "manómetro de servicio de alta para R-744"),
    (instrument::PressureGauge::SERVICE_LOW.digital().name, "sonda digital"),
    (instrument::Thermometer::CLAMPED_THERMOCOUPLE.name, "termopar de pinza en la tubería"),
    (instrument::Thermometer::THERMOCOUPLE_IN_AIR.name, "termopar en el aire"),
    (instrument::Thermometer::DIGITAL_IN_AIR.name, "termómetro digital en el aire"),
    (instrument::Thermometer::CLAMPED_DIGITAL.name, "termómetro digital de pinza en la tubería"),
];

/// The name of an instrument; one that somebody else named keeps its name.
pub(super) fn instrument_name(given: &str) -> &str {
    INSTRUMENTS.iter().find(|&&(known, _)| known == given).map_or(given, |&(_, here)| here)
}

/// What ± means on the page.
pub(super) fn instruments(opening: &Opening) -> String {
    let one = |row: &InstrumentRow| match row {
        InstrumentRow::Gauge { scale_bar: [low, high], limit_percent, .. } => format!(
            "{} de {} a {} bar, error máximo {} % de la escala",
            instrument_name(row.name()),
            NUMERALS.number(*low, 0),
            NUMERALS.number(*high, 0),
            NUMERALS.shortest(*limit_percent)
        ),
        InstrumentRow::Thermometer { limit_k, .. } => {
            format!("{}, error máximo {} K", instrument_name(row.name()), NUMERALS.shortest(*limit_k))
        }
    };
    let tools: Vec<String> = opening.instruments.iter().map(one).collect();
    format!("± es el intervalo del 95 % de los instrumentos: {}.", tools.join("; "))
}

/// A question about a unit.
pub(super) fn question(question: &UnitQuestion) -> String {
    match question {
        UnitQuestion::OtherUnit { input, entered, instead } => {
            let name = match input {
                QuestionedInput::Measurand(of) => measurand(*of),
                QuestionedInput::Ambient => "temperatura ambiente",
            };
            let (entered, instead) = (NUMERALS.entered(entered), NUMERALS.entered(instead));
            format!("{name}: {entered} está lejos de lo habitual; ¿se quería escribir {instead}?")
        }
        UnitQuestion::VacuumSign { entered } => {
            let entered = NUMERALS.entered(entered);
            format!("lado de baja: {entered} está lejos de lo habitual; ¿se quería escribir -{entered}, un vacío?")
        }
        UnitQuestion::ReducedToSeaLevel { entered, instead } => {
            let (entered, instead) = (NUMERALS.entered(entered), NUMERALS.entered(instead));
            format!(
                "barómetro: {entered} está lejos de lo habitual; ¿se quería escribir {instead}, sin reducir al nivel del mar?"
            )
        }
    }
}

/// The prior that a probability follows from, after a comma.
fn under_prior(report: &Report) -> String {
    report.causes.as_ref().map_or(String::new(), |found| format!(", {}", causes::prior(found.prior)))
}

/// The answer in a sentence or two; empty where the page gives none.
pub(super) fn headline(report: &Report) -> String {
    let (at_air, answer) = match &report.advice.headline {
        Headline::ComparedOnly { low_side_at_air } => (*low_side_at_air, String::new()),
        Headline::Empty => (false, EMPTY.to_owned()),
        Headline::NoLiquidLeft => (false, NO_LIQUID_LEFT.to_owned()),
        Headline::LiquidLineBelowAmbient => (false, LIQUID_LINE_COLD.to_owned()),
        Headline::HighSideAtAir => (false, HIGH_SIDE_AT_AIR.to_owned()),
        // what both gauges say is the first of its statements
        Headline::Equalised => (false, report.meaning.first().map_or(String::new(), |first| statement(first, report))),
        Headline::OutsideModel { low_side_at_air } => (*low_side_at_air, OUTSIDE_MODEL.to_owned()),
        Headline::NothingUnusualYet { low_side_at_air, no_fault } => (
            *low_side_at_air,
            format!(
                "Nada fuera de lo normal en lo que se leyó, pero se leyó demasiado poco para dar el coche por sano. Probabilidad de \
                 que no haya avería{}: {}; lo que sigue es posible, no está demostrado.",
                under_prior(report),
                NUMERALS.percent(*no_fault)
            ),
        ),
        Headline::Healthy { no_fault } => (
            false,
            format!(
                "Estas lecturas parecen sanas: todas caen dentro del rango de los coches sanos. Probabilidad de que no haya \
                 avería{}: {}; {}.",
                under_prior(report),
                NUMERALS.percent(*no_fault),
                match report.advice.leading.as_slice() {
                    [one] if matches!(one.causes[0], CauseId::NoFault) => "ninguna avería es más probable",
                    _ => "lo que sigue es posible, no está demostrado",
                }
            ),
        ),
        Headline::Unusual { low_side_at_air, outside, likeliest, no_fault } => {
            let no_fault = no_fault.map_or(String::new(), |p| format!("; ninguna avería {}", NUMERALS.percent(p)));
            let likeliest = causes::likeliest(likeliest);
            let outside = outside_list(outside);
            (
                *low_side_at_air,
                if outside.is_empty() {
                    format!("{INSIDE_AND_UNUSUAL} Lo más probable: {likeliest}{no_fault}.")
                } else {
                    format!(
                        "Fuera de lo normal, aunque un coche sano podría mostrarlo{outside}. Lo más probable: {likeliest}{no_fault}."
                    )
                },
            )
        }
        Headline::Faulty { low_side_at_air, outside, likeliest } => {
            let (outside, likeliest) = (outside_list(outside), causes::likeliest(likeliest));
            (*low_side_at_air, format!("Algo va mal{outside}. Lo más probable: {likeliest}."))
        }
    };
    if at_air { format!("{LOW_SIDE_AT_AIR} {answer}").trim_end().to_owned() } else { answer }
}

const EMPTY: &str = "El circuito está vacío o casi vacío: ambos manómetros marcan la presión del aire, o no están conectados. No ponga en \
                     marcha el compresor; antes de nada, busque la fuga.";

const INSIDE_AND_UNUSUAL: &str =
    "Todas las lecturas caen dentro del rango de los coches sanos, pero juntas son poco corrientes en uno.";

const LIQUID_LINE_COLD: &str = "La línea de líquido está más fría que el aire que enfría el condensador: su presión cae antes de la pinza, en \
     una obstrucción de la línea de líquido o del filtro deshidratador, o un termómetro marca mal.";

const NO_LIQUID_LEFT: &str = "El compresor no gira, o no bombea: ambos manómetros marcan lo mismo, y menos de lo que marcaría refrigerante \
                              líquido a la temperatura ambiente. El circuito está casi vacío, o más frío que el aire. Quizá un presostato \
                              de baja mantenga parado el compresor: no lo puentee; antes de nada, busque la fuga.";

const HIGH_SIDE_AT_AIR: &str = "El circuito está vacío o casi vacío: el lado de alta marca la presión del aire, o su manómetro no está \
                                conectado. No ponga en marcha el compresor; antes de nada, busque la fuga.";

const LOW_SIDE_AT_AIR: &str = "El lado de baja marca la presión del aire: compruebe primero que su manómetro está conectado y que sube con el \
                               motor parado; si no, el circuito está vacío y el compresor no debe funcionar.";

const OUTSIDE_MODEL: &str = "Esto no se parece a nada de lo simulado: ninguna causa explica los números en conjunto. Compruebe antes de nada \
                             manómetros, pinzas y unidades; después piense en dos averías a la vez.";

/// ": por debajo de lo normal, lado de baja; por encima, sobrecalentamiento y rejilla".
fn outside_list(outside: &[Outside]) -> String {
    let of = |wanted: Position, word: &str| {
        let names: Vec<&str> =
            outside.iter().filter(|one| one.position == wanted).map(|one| quantity(one.quantity)).collect();
        let (last, first) = names.split_last()?;
        let listed = if first.is_empty() { (*last).to_owned() } else { format!("{} y {last}", first.join(", ")) };
        Some(format!("por {word} de lo normal, {listed}"))
    };
    let parts: Vec<String> =
        [of(Position::Below, "debajo"), of(Position::Above, "encima")].into_iter().flatten().collect();
    if parts.is_empty() { String::new() } else { format!(": {}", parts.join("; ")) }
}

/// What must be done before anything is measured.
pub(super) fn stop(stop: Stop) -> &'static str {
    match stop {
        Stop::LowSideInVacuum => {
            "Apague ya el aire acondicionado: con el lado de baja en vacío apenas vuelve gas, y el compresor se queda sin retorno de \
             aceite y sin refrigeración."
        }
        Stop::HighSideAtCutOut => {
            "Apague ya el aire acondicionado: el lado de alta está donde cortan los presostatos de los fabricantes, o por encima. Más \
             presión puede abrir la válvula de seguridad o reventar una manguera. No ponga pinzas, no abra ni conecte nada hasta que \
             haya bajado."
        }
    }
}

/// A verdict that the instruments leave open.
fn doubt(doubt: Option<f64>) -> String {
    doubt
        .map_or(String::new(), |p| format!(" Los instrumentos lo dejan abierto ({} %).", NUMERALS.number(100.0 * p, 0)))
}

/// One statement about a reading.
pub(super) fn statement(statement: &Statement, report: &Report) -> String {
    match statement {
        Statement::SideAmongCircuits { side, position, fraction_below, doubt } => {
            among_circuits(*side, *position, *fraction_below) + &self::doubt(*doubt)
        }
        Statement::NoAmbient => "Sin la temperatura ambiente no hay rango para ninguno de los dos lados.".to_owned(),
        Statement::NoChart => {
            format!("No se ha encontrado ninguna tabla de presiones según el ambiente para {}.", report.refrigerant)
        }
        Statement::SideByCharts { side, position, inside, charts, carried_over, doubt } => {
            let carried = if *carried_over { " La mayoría se han trasladado desde R-134a." } else { "" };
            by_charts(*side, *position, *inside, *charts) + carried + &self::doubt(*doubt)
        }
        Statement::SideBeyondCharts { side, covered } => beyond_charts(*side, *covered),
        Statement::TranscriticalHighSide { read, by_ambient, by_outlet } => {
            let by_ambient =
                by_ambient.as_ref().map(|best| format!("{} según el ambiente", NUMERALS.amount(best)));
            let by_outlet = by_outlet
                .as_ref()
                .map(|best| format!("{} según la salida del enfriador de gas", NUMERALS.amount(best)));
            let marks: Vec<String> = by_ambient.into_iter().chain(by_outlet).collect();
            transcritical(&NUMERALS.amount(read), &marks)
        }
        Statement::SidesNearlyEqual => {
            "Ambos manómetros marcan casi lo mismo con el compresor pedido: bombea poco o nada. Mire primero si el embrague, la correa o \
             el accionamiento lo hacen girar."
                .to_owned()
        }
        Statement::Superheat { position, doubt } => superheat(*position).to_owned() + &self::doubt(*doubt),
        Statement::SuperheatImpossible => {
            "La línea de aspiración marca menos que la temperatura a la que hierve el refrigerante a esta presión, lo que no puede \
             durar: compruebe el contacto del termómetro, el manómetro y qué refrigerante hay dentro."
                .to_owned()
        }
        Statement::NoSuperheat => {
            "El lado de baja está por encima de la presión crítica: no hay sobrecalentamiento que indicar.".to_owned()
        }
        Statement::Subcooling { position, doubt } => subcooling(*position).to_owned() + &self::doubt(*doubt),
        Statement::SubcoolingImpossible => {
            "La línea de líquido marca más que la temperatura a la que condensa el refrigerante a esta presión: o lleva gas caliente, o \
             el manómetro, el termómetro o el refrigerante no son lo que parecen."
                .to_owned()
        }
        Statement::NoSubcooling => {
            "El lado de alta está por encima de la presión crítica, donde nada condensa: no hay subenfriamiento que indicar.".to_owned()
        }
        Statement::CondensingOverAmbient { position, doubt } => {
            over_ambient(*position).to_owned() + &self::doubt(*doubt)
        }
        Statement::Vent { position, among_circuits, doubt } => {
            vent(*position, *among_circuits).to_owned() + &self::doubt(*doubt)
        }
        Statement::VentImpossible => {
            "La rejilla marca menos que la temperatura a la que hierve el refrigerante, lo que es imposible: compruebe el manómetro de \
             baja, el termómetro y qué refrigerante hay dentro."
                .to_owned()
        }
        Statement::NamesNoCause => {
            "Esta página compara; no nombra ninguna causa. Un valor fuera de su rango es un motivo para volver a medir antes de abrir \
             nada."
                .to_owned()
        }
        Statement::Equalised { verdict, at_air, doubt } => {
            equalised(*verdict, *at_air, &report.refrigerant) + &self::doubt(*doubt)
        }
        Statement::EqualisedResolution { kpa, psi } => format!(
            "Estos instrumentos no mostrarían una diferencia menor de {} bar ({} psi): ahí puede esconderse un poco de aire.",
            NUMERALS.number(kpa / 100.0, 2),
            NUMERALS.number(*psi, 1)
        ),
    }
}

fn among_circuits(of: Side, position: Position, fraction_below: f64) -> String {
    let name = side(of);
    let share = match 100.0 * fraction_below {
        p if p <= 0.0 => "ninguno marca menos".to_owned(),
        p if p >= 100.0 => "todos marcan menos".to_owned(),
        p => format!("el {} % marca menos", NUMERALS.number(p, 0)),
    };
    match position {
        Position::Within => format!("El {name} cae dentro del rango de los coches sanos en este día: {share}."),
        Position::Below => {
            format!("Casi ningún coche sano tiene en este día el {name} tan bajo como este: {share}.")
        }
        Position::Above => {
            format!("Casi ningún coche sano tiene en este día el {name} tan alto como este: {share}.")
        }
    }
}

fn by_charts(of: Side, position: Position, inside: usize, charts: usize) -> String {
    let (name, does) = match of {
        Side::Low => ("lado de baja", "el evaporador hierve"),
        Side::High => ("lado de alta", "el condensador trabaja"),
    };
    let all = if charts == 1 { "de la única tabla".to_owned() } else { format!("de las {charts} tablas") };
    match position {
        Position::Within if charts == 1 => format!("El {name} cae dentro de la única tabla para este día."),
        Position::Within => format!(
            "El {name} cae dentro de la banda de las tablas para este día, dentro de {inside} de {charts}. Las tablas no coinciden \
             porque tampoco coinciden los coches de los que proceden."
        ),
        Position::Below => format!(
            "El {name} está por debajo {all} para este día: {does} más frío que en los coches de los que proceden."
        ),
        Position::Above => format!(
            "El {name} está por encima {all} para este día: {does} más caliente que en los coches de los que proceden."
        ),
    }
}

fn beyond_charts(of: Side, covered: Option<[f64; 2]>) -> String {
    let name = side(of);
    match covered {
        Some([low, high]) => format!(
            "Ninguna tabla cubre esta temperatura ambiente para el {name}: van de {} a {} °C, y no se extrapola nada.",
            NUMERALS.number(low, 0),
            NUMERALS.number(high, 0)
        ),
        None => format!("Ninguna tabla dice nada del {name}."),
    }
}

fn transcritical(read: &str, marks: &[String]) -> String {
    if marks.is_empty() {
        return "Para R-744 hay correlaciones publicadas de la mejor presión de alta desde 35 hasta 50 °C de ambiente, o desde 30 hasta \
                60 °C a la salida del enfriador de gas; ninguna cubre esta lectura."
            .to_owned();
    }
    format!(
        "Para R-744 las correlaciones publicadas (de memoria) sitúan la mejor presión de alta en {} absolutos; leídos {read}. Ahí es \
         donde mejor trabaja el ciclo; no es un límite.",
        marks.join(" y ")
    )
}

fn superheat(position: Option<Position>) -> &'static str {
    match position {
        None => {
            "No se sabe cuánto sobrecalentamiento es habitual en circuitos con este refrigerante; por encima de cero el vapor está \
             sobrecalentado."
        }
        Some(Position::Below) => {
            "Poco sobrecalentamiento en la línea de aspiración: el vapor puede llevar todavía líquido. Con tubo de orificio y \
             acumulador es lo habitual; con válvula termostática no lo es."
        }
        Some(Position::Within) => {
            "El sobrecalentamiento es el habitual: el evaporador está lleno y solo sale vapor de él."
        }
        Some(Position::Above) => {
            "Mucho sobrecalentamiento en la línea de aspiración: a la última parte del evaporador le falta refrigerante, o el termómetro \
             está donde la línea ya ha tomado calor, sobre todo detrás de un intercambiador interno."
        }
    }
}

fn subcooling(position: Option<Position>) -> &'static str {
    match position {
        None => {
            "No se sabe cuánto subenfriamiento es habitual en circuitos con este refrigerante; por encima de cero la línea lleva líquido."
        }
        Some(Position::Below) => {
            "Poco subenfriamiento: la línea de líquido puede llevar burbujas hasta el dispositivo de expansión."
        }
        Some(Position::Within) => "El subenfriamiento es el habitual: la línea de líquido está llena de líquido.",
        Some(Position::Above) => {
            "Mucho subenfriamiento: hay líquido retenido en el condensador, o un gas no condensable suma su presión."
        }
    }
}

fn over_ambient(position: Option<Position>) -> &'static str {
    match position {
        None => "No se sabe a qué distancia del ambiente debe condensar este refrigerante.",
        Some(Position::Below) => "La condensación está más cerca del ambiente de lo habitual: se cede poco calor.",
        Some(Position::Within) => "La condensación está tan por encima del ambiente como es habitual.",
        Some(Position::Above) => {
            "La condensación está más por encima del ambiente de lo habitual: el condensador tiene que ceder más calor, o dispone de menos \
             aire para ello, que en la mayoría de los coches."
        }
    }
}

fn vent(position: Option<Position>, among_circuits: bool) -> &'static str {
    match (position, among_circuits) {
        (None, _) => "Ninguna tabla de temperaturas de rejilla cubre este día.",
        (Some(Position::Below), true) => {
            "La rejilla está más fría que en la mayoría de los coches sanos en este día: enfría."
        }
        (Some(Position::Within), true) => "La rejilla está tan fría como en los coches sanos en este día.",
        (Some(Position::Above), true) => {
            "La rejilla está más caliente que en la mayoría de los coches sanos en este día."
        }
        (Some(Position::Below), false) => "La rejilla está más fría de lo que piden las tablas: enfría.",
        (Some(Position::Within), false) => "La rejilla está tan fría como piden las tablas.",
        (Some(Position::Above), false) => "La rejilla está más caliente de lo que piden las tablas.",
    }
}

fn equalised(verdict: EqualisedVerdict, at_air: bool, refrigerant: &str) -> String {
    match verdict {
        EqualisedVerdict::NotEqualised => {
            "Los manómetros difieren más de lo que pueden diferir con el motor parado (un fabricante admite 0,5 bar): el \
             circuito aún no se ha igualado, un paso está cerrado o un manómetro marca mal. Espere y vuelva a leer."
                .to_owned()
        }
        EqualisedVerdict::LiquidGone if at_air => {
            "Ambos manómetros marcan la presión del aire: el circuito está vacío o abierto. Encuentre la fuga antes de cargar nada."
                .to_owned()
        }
        EqualisedVerdict::LiquidGone => format!(
            "Ambos manómetros están por debajo de la saturación de {refrigerant} a temperatura ambiente: no queda líquido dentro, o el \
             circuito está más frío que el aire que lo rodea."
        ),
        EqualisedVerdict::AtSaturation => format!(
            "Ambos manómetros están en la saturación de {refrigerant} a temperatura ambiente: dentro hay algo de líquido. Cuánto, esta \
             presión no puede decirlo."
        ),
        EqualisedVerdict::AboveSaturation => format!(
            "Ambos manómetros están por encima de la saturación de {refrigerant} a temperatura ambiente: dentro hay aire u otro \
             refrigerante, o el circuito sigue más caliente que el aire que lo rodea."
        ),
    }
}

/// The verdict on an equalised circuit in a few words.
pub(super) fn equalised_in_short(verdict: EqualisedVerdict) -> &'static str {
    match verdict {
        EqualisedVerdict::NotEqualised => "manómetros sin igualar",
        EqualisedVerdict::LiquidGone => "por debajo de la saturación",
        EqualisedVerdict::AtSaturation => "en la saturación",
        EqualisedVerdict::AboveSaturation => "por encima de la saturación",
    }
}

/// The basis of the window of healthy circuits.
pub(super) fn behind(healthy: &Healthy) -> String {
    let kinds = match healthy.kinds.as_slice() {
        [one] => format!("de este tipo: {}", kind(one)),
        several => format!("de {} tipos, porque no se indicó ninguno", several.len()),
    };
    let humidity = healthy.assumed_humidity.as_ref().map_or(String::new(), |span| {
        let (low, high) = (NUMERALS.number(span.low, 0), NUMERALS.number(span.high, 0));
        format!(" No se conoce la humedad: se supone del {low} al {high} %.")
    });
    let missing = if healthy.missing == 0 {
        String::new()
    } else {
        format!(" Otros {} no tienen régimen estable.", count(healthy.missing))
    };
    let circuits = count(healthy.circuits);
    let Some(effective) = healthy.effective_circuits else {
        return format!(
            "{circuits} circuitos simulados {kinds}, calculados para este día, con tamaños tomados de rangos en su mayoría de memoria. \
             Nueve de cada diez, contando lo que los coches publicados se apartan de ellos, quedan entre los dos \
             valores.{humidity}{missing}"
        );
    };
    let few = if healthy.few_near_baselines { format!(" {}", few_near(effective)) } else { String::new() };
    format!(
        "Estos rangos son los de este coche, a partir de {} sobre lo que muestra cuando está sano: {circuits} circuitos simulados \
         {kinds}, ponderados según lo bien que cada uno concuerda con ello. Equivalen a {} circuitos de igual peso; nueve décimas partes \
         del peso quedan entre los dos valores.{few}{humidity}{missing} Mandan los datos del fabricante: si una fila y un rango no \
         coinciden, vale la fila.",
        given_rows(healthy.baselines),
        NUMERALS.number(effective, 0)
    )
}

/// A whole number.
pub(super) fn count(of: usize) -> String {
    NUMERALS.number(of as f64, 0)
}

/// So many rows.
fn given_rows(rows: usize) -> String {
    if rows == 1 { "1 fila dada".to_owned() } else { format!("{} filas dadas", count(rows)) }
}

/// That hardly any simulated circuit is like the rows.
fn few_near(effective: f64) -> String {
    format!(
        "Las filas contradicen el modelo o están en su borde: solo {} circuitos simulados están cerca de ellas. Puede haber detrás una \
         errata, otras condiciones de prueba u otro tipo de circuito. Los rangos se prolongan desde los circuitos más cercanos: fíese de \
         las filas mismas.",
        NUMERALS.number(effective, 0)
    )
}

/// The basis of the window of healthy circuits, in short.
pub(super) fn behind_in_short(healthy: &Healthy) -> String {
    let circuits = count(healthy.circuits);
    match healthy.effective_circuits {
        None => format!(
            "Los rangos contienen nueve de cada diez de {circuits} coches sanos simulados, contando lo que los publicados se apartan \
             de ellos; ± es el intervalo del 95 %."
        ),
        Some(effective) if healthy.few_near_baselines => {
            format!("{} ± es el intervalo del 95 %. Mandan los datos del fabricante.", few_near(effective))
        }
        Some(effective) => format!(
            "Los rangos son los de este coche, a partir de {}: nueve décimas partes del peso de {circuits} coches simulados, ponderados por las \
             filas y equivalentes a {} de igual peso; ± es el intervalo del 95 %. Mandan los datos del fabricante.",
            given_rows(healthy.baselines),
            NUMERALS.number(effective, 0)
        ),
    }
}

/// Saturation temperatures of the gauges; `None` where none was read.
pub(super) fn saturated(report: &Report) -> Option<String> {
    let one = |row: &crate::report::GaugeRow| match &row.saturation {
        Some(at) => format!("{} a {}", side(row.side), NUMERALS.amount(at)),
        None => format!("{} por encima de la presión crítica", side(row.side)),
    };
    let each: Vec<String> = report.gauges.iter().map(one).collect();
    (!each.is_empty()).then(|| format!("Saturación: {}.", each.join("; ")))
}

/// What the letter of a mark means.
pub(super) fn mark(mark: Mark) -> (char, &'static str) {
    match mark {
        Mark::CarriedOver => ('d', "derivada: publicada para R-134a y trasladada a igual temperatura de saturación"),
        Mark::OtherHumidity => ('h', "publicada para otra humedad"),
        Mark::OneRange => ('r', "un solo rango publicado para todas las temperaturas que cubre"),
        Mark::NotCounted => ('n', "práctica habitual, de memoria; no cuenta en la banda"),
        Mark::OtherCars => (
            'o',
            "otros coches: el centro de la tabla cae fuera de nueve décimas partes de los circuitos calculados para este día",
        ),
    }
}

/// A caution.
pub(super) fn caution(caution: Caution, refrigerant: &str) -> String {
    match caution {
        Caution::Pressure => {
            "El circuito está a presión incluso con el motor parado. Gafas de protección y guantes: el refrigerante líquido congela la \
             piel y los ojos."
                .to_owned()
        }
        Caution::MovingAndHot => {
            "Mantenga manos, mangueras y mangas lejos de correas y ventiladores; un ventilador puede arrancar solo. La línea de descarga \
             y el condensador queman."
                .to_owned()
        }
        Caution::Asphyxiation => {
            "El vapor pesa más que el aire y lo desplaza: ventile el local y no trabaje sobre un foso.".to_owned()
        }
        Caution::CarbonDioxide => {
            "El dióxido de carbono daña con un pequeño porcentaje en el aire, mucho antes de asfixiar; dolor de cabeza y respiración fatigosa \
             son el aviso. Nunca en un local cerrado, sobre un foso ni en el habitáculo: abra las puertas."
                .to_owned()
        }
        Caution::DryIce => {
            "Si se suelta deprisa, R-744 se convierte en hielo seco, que tapa una manguera o una válvula: el manómetro no marca nada y la \
             presión vuelve cuando desaparece. Suéltelo despacio, espere y mire otra vez antes de abrir nada."
                .to_owned()
        }
        Caution::TranscriticalPressure => {
            "R-744 está cerca de 60 bar con el motor parado y muy por encima en marcha: solo mangueras, manómetros y racores hechos para \
             él."
                .to_owned()
        }
        Caution::FlammableA2l => flammable(refrigerant, "A2L"),
        Caution::FlammableA2 => flammable(refrigerant, "A2"),
        Caution::FlammableA3 => format!(
            "{refrigerant} es extremadamente inflamable (clase A3) y en muchos lugares no está permitido en el aire acondicionado de un coche."
        ),
        Caution::Recover => {
            "Liberar refrigerante al aire es ilegal en muchos lugares: recupérelo. Cargue por peso, nunca por presión.".to_owned()
        }
        Caution::ReleaseAsTheMakerSays => {
            "En muchos lugares R-744 puede soltarse: al aire libre, despacio, como indica el fabricante. Cargue por peso, nunca por presión."
                .to_owned()
        }
        Caution::HighVoltage => {
            "Compresores eléctricos: los cables naranjas son solo para personal formado, y el aceite debe ser el indicado para ellos."
                .to_owned()
        }
        Caution::MakersData => {
            "Los datos del fabricante para este coche, la normativa local y el ejercicio profesional autorizado van antes que esta página."
                .to_owned()
        }
    }
}

fn flammable(refrigerant: &str, class: &str) -> String {
    format!(
        "{refrigerant} es inflamable (clase {class}): sin llamas, sin chispas, equipos hechos para él, y nunca mezclado con otro \
         refrigerante."
    )
}

/// A caution in short, for a page of one screen.
pub(super) fn caution_in_short(caution: Caution, refrigerant: &str) -> String {
    let burns = |class: &str| format!("{refrigerant} arde (clase {class}): sin llamas ni chispas.");
    match caution {
        Caution::Pressure => {
            "El circuito está a presión incluso con el motor parado: gafas de protección y guantes, el refrigerante que escapa congela la \
             piel y los ojos."
                .to_owned()
        }
        Caution::MovingAndHot => "Manténgase lejos de correas y ventiladores; la línea de descarga quema.".to_owned(),
        Caution::Asphyxiation => "El vapor desplaza el aire.".to_owned(),
        Caution::CarbonDioxide => {
            "El dióxido de carbono daña antes de asfixiar: ni en un local cerrado ni sobre un foso.".to_owned()
        }
        Caution::DryIce => {
            "Si se suelta deprisa se convierte en hielo seco que tapa las mangueras: la presión vuelve.".to_owned()
        }
        Caution::TranscriticalPressure => "R-744 está por encima de 60 bar: solo equipos hechos para él.".to_owned(),
        Caution::FlammableA2l => burns("A2L"),
        Caution::FlammableA2 => burns("A2"),
        Caution::FlammableA3 => burns("A3"),
        Caution::Recover => {
            "Liberar refrigerante al aire es ilegal en muchos lugares: recupérelo; cargue por peso.".to_owned()
        }
        Caution::ReleaseAsTheMakerSays => {
            "Donde R-744 puede soltarse, al aire libre y despacio, como indica el fabricante; cargue por peso.".to_owned()
        }
        Caution::HighVoltage => {
            "Cables naranjas: solo personal formado, y solo el aceite indicado para ellos.".to_owned()
        }
        Caution::MakersData => {
            "Los datos del fabricante, la normativa local y el ejercicio profesional autorizado van antes que esta página.".to_owned()
        }
    }
}

/// A caution in a few words.
pub(super) fn caution_in_a_word(caution: Caution) -> &'static str {
    match caution {
        Caution::Pressure => "a presión incluso parado, congela piel y ojos: gafas y guantes",
        Caution::MovingAndHot => "correas, ventiladores, tubos calientes",
        Caution::Asphyxiation => "el vapor desplaza el aire",
        Caution::CarbonDioxide => "el dióxido de carbono daña en locales cerrados",
        Caution::DryIce => "el hielo seco obstruye mangueras, la presión vuelve",
        Caution::TranscriticalPressure => "más de 60 bar",
        Caution::FlammableA2l => "arde (A2L)",
        Caution::FlammableA2 => "arde (A2)",
        Caution::FlammableA3 => "arde con facilidad (A3)",
        Caution::Recover => "recuperar, liberarlo es ilegal en muchos lugares",
        Caution::ReleaseAsTheMakerSays => "soltarlo como diga el fabricante",
        Caution::HighVoltage => "cables naranjas: solo personal formado",
        Caution::MakersData => "los datos del fabricante, las normas locales y el personal autorizado van primero",
    }
}

/// A source and what it is for.
pub(super) fn source(row: &SourceRow, refrigerant: &str) -> String {
    let source = &row.source;
    match &row.topic {
        SourceTopic::Saturation => format!("saturación de {refrigerant}: {source}"),
        SourceTopic::Barometer => format!("barómetro, error máximo 2 hPa: {source}"),
        SourceTopic::AirPressure => format!("presión del aire: {source}"),
        SourceTopic::Weather => format!("tiempo atmosférico: {source}"),
        SourceTopic::Gauges => format!("manómetros: {source}"),
        SourceTopic::Thermometers => format!("termómetros: {source}"),
        SourceTopic::Clamp => format!("pinza: {source}"),
        SourceTopic::Compressor => format!("circuitos sanos: compresor {source}"),
        SourceTopic::OrificeTube => format!("circuitos sanos: tubo de orificio {source}"),
        SourceTopic::Sizes => {
            "circuitos sanos: tamaños de rangos, nueve de cada diez de memoria o elegidos, al menos en un extremo; cada uno figura en la \
             documentación de la biblioteca"
                .to_owned()
        }
        SourceTopic::Chart { chart, system } => format!("tabla {chart}, {system}: {source}"),
        SourceTopic::RulesOfThumb => {
            format!("sobrecalentamiento, subenfriamiento y condensación sobre ambiente habituales: {source}")
        }
        SourceTopic::BestByAmbient => format!("mejor presión de alta según el ambiente: {source}"),
        SourceTopic::BestByOutlet => format!("mejor presión de alta según la salida: {source}"),
        SourceTopic::Causes { circuits, prior } => {
            let source = if source.is_empty() { String::new() } else { format!(": {source}") };
            format!("causas: {} circuitos simulados, {}{source}", count(*circuits), causes::prior(*prior))
        }
        SourceTopic::Recovery => format!("lo que la recuperación deja dentro: {source}"),
        SourceTopic::Observations => format!("observaciones: {source}"),
    }
}
