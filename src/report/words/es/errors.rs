//! The sentences of errors: what, the value, the limit and the way out. What was typed stands between « » as it was typed.
//!
//! An [`Error`] brings some of its words along in English, such as the name of what is missing; [`PHRASES`] has them here, and
//! `checks/tests/error_phrases.rs` finds one that is missing. In English alone are why a table cannot be fitted, and of which chart a
//! row was to be carried over.

use super::{NUMERALS, reading};
use crate::Error;
use crate::inspection::Measurand;

/// The sentence of an error: of a value beyond its limits, and of all others.
pub(super) fn error(error: &Error) -> String {
    use phrase as p;
    let n = NUMERALS;
    match error {
        Error::OutOfRange { what, value, low, high, unit } => {
            format!("{}, el intervalo de validez", outside(what, *value, [*low, *high], unit))
        }
        Error::OutsideLimits { what, value, low, high, unit } => {
            format!("{}, los límites de lo que se calcula aquí", outside(what, *value, [*low, *high], unit))
        }
        Error::Implausible { what, value, low, high, unit } => {
            let outside = outside(what, *value, [*low, *high], unit);
            format!("{outside}, lo que se encuentra en el taller; ¿es correcta la unidad?")
        }
        Error::Supercritical { refrigerant, kpa, critical_kpa } => format!(
            "{refrigerant} a {} kPa absolutos está por encima de su presión crítica de {} kPa: ahí ni hierve ni se condensa; lea en su \
             lugar la temperatura a la salida del enfriador de gas",
            n.number(*kpa, 0),
            n.number(*critical_kpa, 0)
        ),
        Error::AboveCriticalTemperature { refrigerant, celsius, critical_celsius } => format!(
            "{refrigerant} a {} °C está por encima de su temperatura crítica de {} °C: ahí no tiene presión de saturación, y con el \
             motor parado la presión depende de la carga; enfríelo por debajo de ella para juzgarlo por la saturación",
            n.number(*celsius, 1),
            n.number(*critical_celsius, 1)
        ),
        Error::About { place, error, .. } => format!("{}: {}", self::place(place), self::error(error)),
        Error::BelowVacuum { value, air_kpa } => format!(
            "{} kPa absolutos no está por encima del vacío; compruebe la lectura del manómetro, su signo y su unidad, y la presión del \
             aire usada ({} kPa)",
            n.number(*value, 1),
            n.number(*air_kpa, 1)
        ),
        Error::SidesReversed { low, high } => format!(
            "el lado de alta ({}) está por debajo del lado de baja ({}): un compresor no puede hacer eso; compruebe que las mangueras no \
             están cambiadas y que ambas lecturas están en la unidad prevista",
            n.entered(high),
            n.entered(low)
        ),
        Error::BeyondScale { what, instrument, value, low, high, unit } => format!(
            "{}: {} {unit} queda fuera de la escala del instrumento ({}, {} {unit}): indique el instrumento que se usó de verdad, o \
             compruebe la lectura",
            p(what),
            n.number(*value, 1),
            p(instrument),
            n.range(*low, *high, 1)
        ),
        Error::NotVacuum { kpa, air_kpa } => format!(
            "{} kPa absolutos está por encima del aire que lo rodea ({} kPa) y no es un vacío: compruebe el signo, la unidad y si se \
             quería dar presión manométrica, vacío o presión absoluta",
            n.number(*kpa, 1),
            n.number(*air_kpa, 1)
        ),
        Error::MoreThanHolds { out_cm3, holds_cm3 } => format!(
            "salieron {} cm³ de aceite y el circuito admite {} cm³ como mucho: había demasiado dentro, en lo medido queda refrigerante \
             disuelto, o una de las cifras está mal; no vierta aceite según ellas",
            n.number(*out_cm3, 0),
            n.number(*holds_cm3, 0)
        ),
        _ => typed(error),
    }
}

/// The sentence of an error in a text, and of all that [`error`] leaves.
fn typed(error: &Error) -> String {
    use phrase as p;
    match error {
        Error::NotFinite { what, text } => format!("{}: {} no es un número finito", p(what), quoted(text)),
        Error::BeyondArithmetic { what, text, smallest, largest } => format!(
            "{}: {} es demasiado grande o demasiado pequeño para calcular: en su unidad y en unidades SI un número que no sea 0 va de \
             {smallest:e} a {largest:e}; compruebe su exponente",
            p(what),
            quoted(text)
        ),
        Error::NotANumber { what, text, example } => {
            format!("{}: {} no empieza por un número; escríbalo como «{example}»", p(what), quoted(text))
        }
        Error::DecimalComma { what, text } => format!(
            "{}: la coma de {} no se admite; escriba el signo decimal como punto, y los millares sin signo",
            p(what),
            quoted(text)
        ),
        Error::ControlCharacter { what, text } => format!(
            "{}: {} contiene un salto de línea o un carácter de control; escríbalo como una línea de texto sencillo",
            p(what),
            quoted(text)
        ),
        Error::UnitMissing { what, text, units } => {
            format!("{}: {} no tiene unidad; añada una de {units}", p(what), quoted(text))
        }
        Error::UnitUnknown { what, text, unit, units } => {
            format!("{}: {} en {} no es una unidad suya; use una de {units}", p(what), quoted(unit), quoted(text))
        }
        Error::UnitAmbiguous { what, text, unit, meanings } => {
            format!("{}: {} en {} puede significar {}; indique cuál", p(what), quoted(unit), quoted(text), p(meanings))
        }
        Error::WrongReference { what, text, given, way_out } => {
            format!("{} es presión {}, pero se pide {}: {}", quoted(text), p(given), p(what), p(way_out))
        }
        Error::UnknownRefrigerant { name, nearest, is_trade_word: true } => format!(
            "{} es una palabra del oficio para varios refrigerantes ({} …): la etiqueta del coche nombra el que lleva",
            quoted(name),
            nearest.join(", ")
        ),
        Error::UnknownRefrigerant { name, nearest, is_trade_word: false } if nearest.is_empty() => {
            format!("refrigerante desconocido {}: es más largo que cualquier nombre", quoted(name))
        }
        Error::UnknownRefrigerant { name, nearest, is_trade_word: false } => {
            format!("refrigerante desconocido {}; los más parecidos: {}", quoted(name), nearest.join(", "))
        }
        Error::UnknownColumn { name, known } => {
            format!("la columna {} es desconocida; columnas conocidas: {}", quoted(name), p(known))
        }
        Error::UnknownOil { name } => format!(
            "aceite desconocido {}: escriba la familia y el grado, como en «PAG 46», «PAG YF 46», «POE 68» o «mineral»; los grados son \
             32, 46, 68, 100 y 150",
            quoted(name)
        ),
        Error::UnknownInstrument { name, known } => {
            format!("instrumento desconocido {}; conocidos: «{}»", quoted(name), known.join("», «"))
        }
        Error::UnknownId { what, id, known } => {
            format!("{}: «{id}» es desconocido; conocidos: «{}»", p(what), known.join("», «"))
        }
        Error::LabelContradicts { what, text, reason } => {
            let reason = LABELS.iter().fold(reason.clone(), |reason, (english, here)| reason.replace(english, here));
            format!("{}: {} se contradice: «{reason}»; pregunte al fabricante qué cifra vale", p(what), quoted(text))
        }
        _ => given(error),
    }
}

/// The sentence of an error in what is given, and of all that [`typed`] leaves.
fn given(error: &Error) -> String {
    use phrase as p;
    let n = NUMERALS;
    match error {
        Error::Impossible { what, value, must } => {
            format!("{}: {} no es posible; tiene que ser {}", p(what), n.shortest(*value), p(must))
        }
        Error::Missing { what, way_out } => format!("falta {}: {}", p(what), p(way_out)),
        Error::ColumnTwice { name } => format!("la columna «{name}» está dos veces"),
        Error::FieldCount { found, expected } => format!("{found} campos donde el encabezado tiene {expected}"),
        Error::Twice { what } => format!("{}: está dos veces; indíquelo una sola vez", p(what)),
        Error::WrongKind { what, .. } => format!("{}: se da como otra clase de magnitud de la que es", p(what)),
        Error::NotInThisState { what, state } => {
            format!("{} no corresponde a una lectura con el circuito {}", p(what), p(state))
        }
        Error::TooFew { what, found, needed, way_out } => {
            format!("{found} {}, y hacen falta al menos {needed}: {}", p(what), p(way_out))
        }
        Error::NotLater { seconds, before } => format!(
            "{} s no es posterior a la lectura anterior, a los {} s: ordene las lecturas por tiempo, y dé una sola vez las que sean del \
             mismo momento",
            n.shortest(*seconds),
            n.shortest(*before)
        ),
        Error::ImpossibleHumidity { what, value, low, high, unit, celsius, kpa, way_out } => format!(
            "{}: {} {unit} no es posible en aire de {} °C y {} kPa absolutos: está entre {} y {} {unit}; {}",
            p(what),
            n.number(*value, 2),
            n.number(*celsius, 1),
            n.number(*kpa, 1),
            n.number(*low, 2),
            n.number(*high, 2),
            p(way_out)
        ),
        Error::NoRoomForAir { kpa, vapour_kpa, celsius } => format!(
            "la presión absoluta del aire, {} kPa, no está por encima de los {} kPa del vapor de agua a {} °C, y no queda lugar para el \
             aire; compruebe la humedad, y que la presión es la del aire mismo, en la unidad prevista",
            n.number(*kpa, 1),
            n.number(*vapour_kpa, 1),
            n.number(*celsius, 1)
        ),
        Error::NoVapour { celsius } => format!(
            "el aire de {} °C no contiene vapor de agua y no tiene punto de rocío; compruebe la humedad, que ningún tiempo lleva a 0",
            n.number(*celsius, 1)
        ),
        _ => others(error),
    }
}

/// The sentence of an error in a computation. Every variant is named here, so that a new one without a sentence does not compile.
fn others(error: &Error) -> String {
    use phrase as p;
    let n = NUMERALS;
    match error {
        Error::TwoPhase { kpa, celsius } => format!(
            "a {} kPa y {} °C hay líquido y vapor a la vez: dé además entalpía, densidad o título",
            n.number(*kpa, 1),
            n.number(*celsius, 2)
        ),
        Error::NotConverged { solving, steps, residual } => {
            let residual = format!("{residual:.1e}").replace('.', ",");
            format!("{}: el cálculo se detuvo tras {steps} pasos con un residuo de {residual}", p(solving))
        }
        Error::NotModelled { what, way_out } => format!("{} no está modelado: {}", p(what), p(way_out)),
        Error::BadTable { reason } => format!("la tabla no se puede ajustar (en inglés): «{reason}»"),
        Error::Mismatch { what, reading, reference } => format!(
            "{}: {} en la lectura y {} en los circuitos con los que se compararía: simule circuitos para ella",
            p(what),
            listed(reading),
            listed(reference)
        ),
        Error::Stopped { done, total } => format!("detenido a petición tras {done} de {total} circuitos"),
        Error::PriorWeight { cause, weight } => {
            format!("peso previo {} de «{cause}»: dé un número finito, cero o más", n.shortest(*weight))
        }
        Error::PriorAllZero => {
            "todas las causas que pueden tener estos circuitos tienen un peso previo de cero: dé a una al menos un \
                                peso mayor que cero"
                .to_owned()
        }
        // worded above
        Error::OutOfRange { .. }
        | Error::OutsideLimits { .. }
        | Error::Implausible { .. }
        | Error::Supercritical { .. }
        | Error::AboveCriticalTemperature { .. }
        | Error::About { .. }
        | Error::BelowVacuum { .. }
        | Error::SidesReversed { .. }
        | Error::BeyondScale { .. }
        | Error::NotVacuum { .. }
        | Error::MoreThanHolds { .. }
        | Error::NotFinite { .. }
        | Error::BeyondArithmetic { .. }
        | Error::NotANumber { .. }
        | Error::DecimalComma { .. }
        | Error::ControlCharacter { .. }
        | Error::UnitMissing { .. }
        | Error::UnitUnknown { .. }
        | Error::UnitAmbiguous { .. }
        | Error::WrongReference { .. }
        | Error::UnknownRefrigerant { .. }
        | Error::UnknownColumn { .. }
        | Error::UnknownOil { .. }
        | Error::UnknownInstrument { .. }
        | Error::UnknownId { .. }
        | Error::LabelContradicts { .. }
        | Error::Impossible { .. }
        | Error::Missing { .. }
        | Error::ColumnTwice { .. }
        | Error::FieldCount { .. }
        | Error::Twice { .. }
        | Error::WrongKind { .. }
        | Error::NotInThisState { .. }
        | Error::TooFew { .. }
        | Error::NotLater { .. }
        | Error::ImpossibleHumidity { .. }
        | Error::NoRoomForAir { .. }
        | Error::NoVapour { .. } => String::new(),
    }
}

/// "temperatura de saturación: 120,0 °C queda fuera de -40,0 a 90,0 °C".
fn outside(what: &str, value: f64, [low, high]: [f64; 2], unit: &str) -> String {
    let (value, unit) = (NUMERALS.number(value, 1), phrase(unit));
    format!("{}: {value} {unit} queda fuera de {} {unit}", phrase(what), NUMERALS.range(low, high, 1))
}

/// What was typed, with its control characters escaped.
fn quoted(text: &str) -> String {
    let escaped = format!("{text:?}");
    let inside = escaped.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')).unwrap_or(&escaped);
    format!("«{inside}»")
}

/// First words of places that are counted or quoted.
const PLACES: [(&str, &str); 2] = [("pair ", "pareja "), ("row ", "fila ")];

/// The reading or the label that an error is about: "lado de baja, 2,2 bar".
fn place(text: &str) -> String {
    let counted = PLACES.iter().find_map(|&(word, here)| Some((here, text.strip_prefix(word)?)));
    if let Some((here, rest)) = counted {
        return match rest.strip_prefix('"').and_then(|rest| rest.strip_suffix('"')) {
            Some(typed) => format!("{here}«{typed}»"),
            None => format!("{here}{rest}"),
        };
    }
    match text.split_once(", ") {
        Some((name, entered)) if phrase(text) == text => format!("{}, {}", phrase(name), NUMERALS.entered(entered)),
        _ => phrase(text).to_owned(),
    }
}

/// Conditions, one after another: "ralentí, recirculación con las puertas abiertas".
fn listed(text: &str) -> String {
    let one = |part: &str| match (part.split_once(" for "), part.strip_prefix("blower ")) {
        (Some((what, minutes)), _) => format!("{} durante {minutes}", phrase(what)),
        (None, Some(share)) => format!("{} {share}", phrase("blower")),
        (None, None) => NUMERALS.entered(phrase(part)),
    };
    text.split(", ").map(one).collect::<Vec<_>>().join(", ")
}

/// Words between the amounts of a label that contradict each other.
const LABELS: [(&str, &str); 4] =
    [(" in any ounce", " en ninguna onza"), (" is not ", " no es "), (" is ", " es "), (", not ", ", no ")];

/// The words of an error here; what has none, such as a designation or a symbol, stays.
fn phrase(english: &str) -> &str {
    let measurands = Measurand::ALL.iter().map(|&measurand| (measurand.name(), reading::measurand(measurand)));
    let measurand = measurands.into_iter().find(|&(known, _)| known == english);
    let known = || PHRASES.binary_search_by_key(&english, |&(known, _)| known).ok().map(|at| PHRASES[at]);
    measurand.or_else(known).map_or_else(|| reading::instrument_name(english), |(_, here)| here)
}

/// The English words of errors and those here, in the order of the first.
const PHRASES: [(&str, &str); 326] = [
    (
        "15 or fewer in large print with several columns; take a larger step or a shorter range",
        "15 o menos en letra grande con varias columnas; tome un paso mayor o un intervalo más corto",
    ),
    (
        "30 or fewer in large print; take a larger step or a shorter range",
        "30 o menos en letra grande; tome un paso mayor o un intervalo más corto",
    ),
    (
        "36 or fewer with four columns; take a larger step or a shorter range",
        "36 o menos con cuatro columnas; tome un paso mayor o un intervalo más corto",
    ),
    ("60 or fewer; take a larger step or a shorter range", "60 o menos; tome un paso mayor o un intervalo más corto"),
    (
        "R-134a, R-1234yf and R-744 have one; take the value of another from a source you trust",
        "la tienen R-134a, R-1234yf y R-744; tome el valor de otro de una fuente de confianza",
    ),
    (
        "R-134a, R-1234yf, R-744 and R-290 have one; take the value of another from a source you trust",
        "la tienen R-134a, R-1234yf, R-744 y R-290; tome el valor de otro de una fuente de confianza",
    ),
    (
        "a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)",
        "una onza líquida de EE. UU. (29,57 mL) o una onza líquida imperial (28,41 mL)",
    ),
    ("a cause to show", "una causa que mostrar"),
    ("a column of what was measured", "una columna de lo medido"),
    (
        "a comparison needs the ambient temperature and at least one gauge, line or the vent before and after, with \
         the compressor running",
        "una comparación necesita la temperatura ambiente y al menos un manómetro, una línea o la rejilla antes y \
         después, con el compresor en marcha",
    ),
    ("a finite number, zero or more", "un número finito, cero o más"),
    (
        "a fit by level error has none; fit by least squares",
        "un ajuste por error nivelado no la tiene; ajuste por mínimos cuadrados",
    ),
    ("a gauge of the circuit", "un manómetro del circuito"),
    ("a gauge to stand on the line", "un manómetro que situar en la línea"),
    ("a measured quantity", "una magnitud medida"),
    ("a pressure of the row", "una presión de la fila"),
    (
        "a printed limit of air in a cylinder of this refrigerant",
        "un límite publicado de aire en un cilindro de este refrigerante",
    ),
    ("a quantity that was read both times", "una magnitud leída ambas veces"),
    ("a reading", "una lectura"),
    ("a reading with the compressor running", "una lectura con el compresor en marcha"),
    ("a running reading with its ambient temperature", "una lectura en marcha con su temperatura ambiente"),
    ("a simulated circuit to compare with", "un circuito simulado con el que comparar"),
    (
        "a surface tension correlation of this refrigerant",
        "una correlación de la tensión superficial de este refrigerante",
    ),
    (
        "a thermal conductivity correlation of this refrigerant",
        "una correlación de la conductividad térmica de este refrigerante",
    ),
    (
        "a vacuum gauge in this unit counts from vacuum; subtract the pressure of the surrounding air",
        "un vacuómetro en esta unidad cuenta desde el vacío; reste la presión del aire que lo rodea",
    ),
    ("a viscosity correlation of this refrigerant", "una correlación de la viscosidad de este refrigerante"),
    ("above 0 and at most 20", "mayor que 0 y no mayor que 20"),
    ("above 0 and at most 50", "mayor que 0 y no mayor que 50"),
    ("above absolute zero, -273.15 °C", "mayor que el cero absoluto, -273,15 °C"),
    ("above zero", "mayor que cero"),
    ("above zero and finite", "finito y mayor que cero"),
    (
        "above zero and finite; take it from the data sheet or the equation of state",
        "finito y mayor que cero; tómelo de la hoja de datos o de la ecuación de estado",
    ),
    (
        "above zero and not above its upper end; check which figure is the tolerance",
        "mayor que cero y no mayor que su extremo superior; compruebe qué cifra es la tolerancia",
    ),
    ("above zero and not above the upper end", "mayor que cero y no mayor que el extremo superior"),
    (
        "above zero for one of them: no instrument is exact",
        "mayor que cero para una de ellas: ningún instrumento es exacto",
    ),
    (
        "above zero: its standard uncertainty, or the least movement that matters",
        "mayor que cero: su incertidumbre típica, o el menor movimiento que importa",
    ),
    (
        "above zero: the last digit it shows, or the part of a division that can be read",
        "mayor que cero: la última cifra que muestra, o la parte de una división que puede leerse",
    ),
    (
        "above zero; check the gauge reading, its sign and unit, and the air pressure used",
        "mayor que cero; compruebe la lectura del manómetro, su signo y su unidad, y la presión del aire usada",
    ),
    ("absolute", "absoluta"),
    ("absolute air pressure", "presión absoluta del aire"),
    ("absolute pressure", "presión absoluta"),
    ("absolute pressure (Pa)", "presión absoluta (Pa)"),
    ("absolute pressure (kPa)", "presión absoluta (kPa)"),
    ("absolute pressure of the evacuation (kPa)", "presión absoluta del vacío (kPa)"),
    (
        "add the pressure of the surrounding air, 14.7 psi or 1.013 bar at sea level",
        "sume la presión del aire que lo rodea, 14,7 psi o 1,013 bar al nivel del mar",
    ),
    ("air pressure", "presión del aire"),
    ("air pressure (kPa)", "presión del aire (kPa)"),
    ("air temperature", "temperatura del aire"),
    ("altitude", "altitud"),
    ("ambient", "temperatura ambiente"),
    ("ambient temperature", "temperatura ambiente"),
    ("amount of oil", "cantidad de aceite"),
    (
        "an equalised circuit is judged by the temperature around it; measure and give it",
        "un circuito igualado se juzga por la temperatura de su alrededor; mídala e indíquela",
    ),
    ("an inspection holds one at least", "una inspección contiene al menos una"),
    (
        "an ounce of weight (28.35 g), a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)",
        "una onza de peso (28,35 g), una onza líquida de EE. UU. (29,57 mL) o una onza líquida imperial (28,41 mL)",
    ),
    (
        "an ounce of weight, a US fluid ounce (29.57 mL) or an imperial fluid ounce (28.41 mL)",
        "una onza de peso, una onza líquida de EE. UU. (29,57 mL) o una onza líquida imperial (28,41 mL)",
    ),
    (
        "ask for some; what chance does to few shows in every probability",
        "pida algunos; con pocos, el azar se nota en cada probabilidad",
    ),
    ("at least 1e-250", "no menor que 1e-250"),
    (
        "below saturation at its temperature: above it the hose holds liquid",
        "menor que la de saturación a su temperatura: por encima, la manguera contiene líquido",
    ),
    (
        "below saturation at the temperature: with liquid inside the pressure tells nothing of a leak",
        "menor que la de saturación a la temperatura: con líquido dentro, la presión no dice nada de una fuga",
    ),
    ("between 0 and 1", "mayor que 0 y menor que 1"),
    ("between 0 and 100, both excluded", "mayor que 0 y menor que 100"),
    ("blower", "ventilador del habitáculo"),
    ("bore of the hose (m)", "diámetro interior de la manguera (m)"),
    (
        "both gauges of an equalised circuit are compared; one alone is evidence beside a running reading",
        "con el circuito igualado se comparan ambos manómetros; uno solo cuenta como dato junto a una lectura en \
         marcha",
    ),
    ("bubble pressure minus dew pressure (kPa)", "presión de burbuja menos presión de rocío (kPa)"),
    ("cause", "causa"),
    (
        "causes are told apart by how the running circuit answers; give its conditions at least",
        "las causas se distinguen por cómo responde el circuito en marcha; dé al menos sus condiciones",
    ),
    ("chance", "probabilidad"),
    ("charge", "carga"),
    ("charge (g)", "carga (g)"),
    ("charge balance of the circuit", "balance de carga del circuito"),
    (
        "check its unit; water beyond that is fog and does not count",
        "compruebe su unidad; el agua que pasa de ahí es niebla y no cuenta",
    ),
    (
        "check that both temperatures are of the same air and in the unit meant",
        "compruebe que ambas temperaturas son del mismo aire y están en la unidad prevista",
    ),
    (
        "check that both thermometers are in the unit meant and the sleeve is wet",
        "compruebe que ambos termómetros están en la unidad prevista y que la mecha está mojada",
    ),
    ("check the reading and its unit", "compruebe la lectura y su unidad"),
    ("circuits for each cause", "circuitos por causa"),
    ("column absolute, gauge or vacuum", "columna «absolute», «gauge» o «vacuum»"),
    ("column time", "columna «time»"),
    ("common standard uncertainty of the pressures (kPa)", "incertidumbre típica común de las presiones (kPa)"),
    ("common standard uncertainty of the temperatures (K)", "incertidumbre típica común de las temperaturas (K)"),
    ("confidence", "confianza"),
    ("control of the compressor", "regulación del compresor"),
    ("critical pressure (Pa)", "presión crítica (Pa)"),
    ("critical temperature (K)", "temperatura crítica (K)"),
    ("density", "densidad"),
    ("density (kg/m³)", "densidad (kg/m³)"),
    ("density for thermal conductivity", "densidad para la conductividad térmica"),
    ("density for viscosity", "densidad para la viscosidad"),
    ("density of oil", "densidad del aceite"),
    ("density of oil (kg/m³)", "densidad del aceite (kg/m³)"),
    ("density of the liquid", "densidad del líquido"),
    ("density of the vapour", "densidad del vapor"),
    ("depth of vacuum", "profundidad del vacío"),
    ("dew point", "punto de rocío"),
    ("diagnose a reading with its ambient first", "diagnostique antes una lectura con su temperatura ambiente"),
    ("dynamic viscosity", "viscosidad dinámica"),
    ("engine speed", "régimen del motor"),
    ("engine speed, motion, intake or blower", "régimen del motor, marcha, toma de aire o ventilador"),
    ("equalised", "igualado"),
    ("equalised reading", "lectura con el motor parado"),
    ("evaporating temperature", "temperatura de evaporación"),
    (
        "every comparison depends on the day; measure it in the shade before the condenser",
        "toda comparación depende del día; mídala a la sombra, delante del condensador",
    ),
    ("exponent of a saturation line", "exponente de una línea de saturación"),
    ("flow balance of the compressor", "balance de caudal del compresor"),
    ("flow balance of the expansion device", "balance de caudal del dispositivo de expansión"),
    ("flow of gas (Pa m³/s)", "caudal de gas (Pa m³/s)"),
    ("fresh air", "aire exterior"),
    ("from 0 to 100", "de 0 a 100"),
    ("from 0 to 50", "de 0 a 50"),
    ("full scale (bar)", "fondo de escala (bar)"),
    ("gas cooler outlet temperature", "temperatura a la salida del enfriador de gas"),
    ("gauge", "manométrica"),
    ("gauge pressure", "presión manométrica"),
    ("give --refrigerant, or a column named refrigerant", "dé --refrigerant, o una columna llamada «refrigerant»"),
    ("give it with every reading or with none", "indíquela en todas las lecturas o en ninguna"),
    ("heat balance of the condenser", "balance de calor del condensador"),
    ("heat balance of the evaporator", "balance de calor del evaporador"),
    ("high-side gauge", "manómetro de alta"),
    ("holdup of the hose (g)", "retención de la manguera (g)"),
    ("how the new compressor comes", "cómo se suministra el compresor nuevo"),
    ("humidity", "humedad"),
    ("humidity ratio", "humedad absoluta"),
    ("idle", "ralentí"),
    (
        "in an equalised circuit nothing flows; start the engine and read again",
        "en un circuito igualado no circula nada; arranque el motor y lea de nuevo",
    ),
    ("its lower end", "su extremo inferior"),
    ("its number", "su número"),
    ("kind of circuit", "tipo de circuito"),
    ("leak (g/yr)", "fuga (g/año)"),
    ("leak as a flow of gas (Pa m³/s)", "fuga como caudal de gas (Pa m³/s)"),
    ("leak that still passes (Pa m³/s)", "fuga que aún cumple (Pa m³/s)"),
    ("leak that still passes over that of a detector", "fuga que aún cumple, entre la de un detector"),
    ("length of the hose (m)", "longitud de la manguera (m)"),
    ("length of the slice for the answers", "longitud de la lista de respuestas"),
    ("length of the standing vacuum test (min)", "duración de la prueba de vacío (min)"),
    (
        "likelihood of the pairs: a standard uncertainty is too small or too large",
        "verosimilitud de las parejas: una incertidumbre típica es demasiado pequeña o demasiado grande",
    ),
    ("limit of error (%)", "error máximo (%)"),
    ("limit of error (K)", "error máximo (K)"),
    ("limit of error of the contact (%)", "error máximo del contacto (%)"),
    ("limit of error of the vacuum gauge (%)", "error máximo del vacuómetro (%)"),
    ("limit of the scale (g)", "error máximo de la balanza (g)"),
    ("loss of mass", "pérdida de masa"),
    (
        "low, high, suction line, liquid line, discharge line, vent, duty cycle, ambient, humidity, altitude, \
         barometer (each with its unit, as in \"low [psi]\"), refrigerant, time, note",
        "«low», «high», «suction line», «liquid line», «discharge line», «vent», «duty cycle», «ambient», \
         «humidity», «altitude», «barometer» (cada una con su unidad, como en «low [psi]»), «refrigerant», «time», \
         «note»",
    ),
    ("low-side gauge", "manómetro de baja"),
    ("lower end of a saturation line (K)", "extremo inferior de una línea de saturación (K)"),
    ("make Reference with more circuits for each cause", "haga Reference con más circuitos por causa"),
    ("mass", "masa"),
    ("mass lost (g)", "masa perdida (g)"),
    ("mass missing (g)", "masa que falta (g)"),
    ("mass of oil (g)", "masa de aceite (g)"),
    ("mass of refrigerant (g)", "masa de refrigerante (g)"),
    ("mass of refrigerant (kg)", "masa de refrigerante (kg)"),
    ("mass of the bottle after (g)", "masa de la botella después (g)"),
    ("mass of the bottle before (g)", "masa de la botella antes (g)"),
    ("mass of the cylinder after (g)", "masa del cilindro después (g)"),
    ("mass of the cylinder before (g)", "masa del cilindro antes (g)"),
    ("mass of the empty jar (g)", "masa del frasco vacío (g)"),
    ("mass of the full jar (g)", "masa del frasco lleno (g)"),
    ("mass of water (kg)", "masa de agua (kg)"),
    ("mass on the scale (g)", "masa en la balanza (g)"),
    ("mass to send (g)", "masa que hay que enviar (g)"),
    ("measurand", "magnitud medida"),
    ("molar mass", "masa molar"),
    (
        "more than the hose holds; check which weighing was first",
        "más de lo que retiene la manguera; compruebe qué pesada fue la primera",
    ),
    (
        "more than the volume holds as vapour and less than it holds as liquid",
        "más de lo que el volumen contiene como vapor y menos de lo que contiene como líquido",
    ),
    ("most that the cylinder may hold (g)", "lo máximo que admite el cilindro (g)"),
    ("name at least one, or none at all", "indique al menos uno, o ninguno"),
    ("name one, or use CircuitKind::main", "indique uno, o use CircuitKind::main"),
    (
        "no more than the pressure of the air: a gauge that coarse shows no vacuum",
        "no mayor que la presión del aire: un vacuómetro tan basto no muestra ningún vacío",
    ),
    ("nominal charge", "carga nominal"),
    ("non-condensables", "gases no condensables"),
    ("not known", "desconocida"),
    ("number of baselines", "número de referencias propias"),
    ("number of rows in a column", "número de filas de una columna"),
    ("number of running readings", "número de lecturas en marcha"),
    ("observation", "observación"),
    (
        "of a density at which it can stay: ask for saturated liquid and vapour one by one",
        "de una densidad en la que pueda quedarse: pida líquido y vapor saturados uno por uno",
    ),
    ("of the pressure", "de la presión"),
    ("oil caught (g)", "aceite recogido (g)"),
    ("oil drained from a part (cm³)", "aceite vaciado de una pieza (cm³)"),
    ("oil drained from the old compressor (cm³)", "aceite vaciado del compresor viejo (cm³)"),
    ("oil in the compressor (cm³)", "aceite en el compresor (cm³)"),
    ("oil in the maker's rule (cm³)", "aceite en la regla del fabricante (cm³)"),
    ("oil in the new compressor (cm³)", "aceite del compresor nuevo (cm³)"),
    ("oil of a part (cm³)", "aceite de una pieza (cm³)"),
    ("oil of other parts (cm³)", "aceite de otras piezas (cm³)"),
    ("oil of the whole circuit (cm³)", "aceite de todo el circuito (cm³)"),
    ("oil poured (g)", "aceite vertido (g)"),
    ("oil recovered with the refrigerant (cm³)", "aceite recuperado con el refrigerante (cm³)"),
    (
        "one is enough: a gauge, a line, the vent, the clutch duty cycle, the equalised pressure or the recovered \
         charge; observations count beside it",
        "basta una: un manómetro, una línea, la rejilla, el ciclo de trabajo del embrague, la presión con el motor \
         parado o la carga recuperada; las observaciones cuentan además",
    ),
    (
        "one or more; the last temperature lies above the first, and a step fits between them",
        "una o más; la última temperatura está por encima de la primera, y cabe un paso entre ellas",
    ),
    ("one phase of density (kg/m³)", "una sola fase de densidad (kg/m³)"),
    (
        "one range alone may be either side; write \"low 190 to 240 kPa\" or \"high 1300 to 1600 kPa\"",
        "un solo intervalo puede ser de cualquier lado; escriba «low 190 to 240 kPa» o «high 1300 to 1600 kPa»",
    ),
    (
        "only R-12 and R-134a have one; read the pressure over the liquid as air instead (Purity)",
        "solo lo tienen R-12 y R-134a; lea en su lugar la presión sobre el líquido como aire (Purity)",
    ),
    ("pairs of pressure and temperature", "parejas de presión y temperatura"),
    ("phase equilibrium", "equilibrio de fases"),
    ("phase equilibrium of a pseudo-pure equation at (K)", "equilibrio de fases de una ecuación seudopura a (K)"),
    ("place of the service ports", "lugar de las tomas de servicio"),
    ("power", "potencia"),
    ("pressure", "presión"),
    ("pressure difference", "diferencia de presión"),
    ("pressure expected (kPa)", "presión esperada (kPa)"),
    ("pressure for thermal conductivity", "presión para la conductividad térmica"),
    ("pressure for viscosity", "presión para la viscosidad"),
    ("pressure in the hose (kPa absolute)", "presión en la manguera (kPa absolutos)"),
    ("pressure of the surrounding air (kPa)", "presión del aire que lo rodea (kPa)"),
    ("pressure of the vapour (kPa absolute)", "presión del vapor (kPa absolutos)"),
    ("probability of a healthy circuit (%)", "probabilidad de un circuito sano (%)"),
    ("quality", "título de vapor"),
    ("range that bubble and dew line have in common (K)", "intervalo común de las líneas de burbuja y de rocío (K)"),
    ("rate of pressure", "variación de la presión"),
    ("ratio", "proporción"),
    (
        "read both with the circuit at rest; pairs at two temperatures tell more than two at one",
        "lea ambas con el circuito parado; parejas a dos temperaturas dicen más que dos a una",
    ),
    (
        "read the gauge every minute or so; two readings give a rise, but not whether it is straight",
        "lea el instrumento cada minuto más o menos; dos lecturas dan una subida, pero no si es recta",
    ),
    ("read the low side, the high side or both", "lea el lado de baja, el lado de alta o ambos"),
    ("readings of the hold test", "lecturas de la prueba de vacío"),
    ("recirculation with a window open", "recirculación con una ventanilla abierta"),
    ("recirculation with doors and windows shut", "recirculación con puertas y ventanillas cerradas"),
    ("recirculation with the doors open", "recirculación con las puertas abiertas"),
    ("reducing temperature of the state's equation (K)", "temperatura de reducción de la ecuación del estado (K)"),
    ("refrigerant", "refrigerante"),
    ("refrigerant that left the cylinder (g)", "refrigerante que salió del cilindro (g)"),
    ("relative humidity", "humedad relativa"),
    ("relative humidity (%)", "humedad relativa (%)"),
    ("rise allowed in the standing vacuum test (kPa)", "subida admitida en la prueba de vacío (kPa)"),
    ("rise of pressure", "subida de la presión"),
    ("row", "fila"),
    ("rows", "filas"),
    ("rows of the table", "filas de la tabla"),
    ("running", "en marcha"),
    ("saturation pressure", "presión de saturación"),
    ("saturation pressure of water", "presión de saturación del agua"),
    ("saturation temperature", "temperatura de saturación"),
    ("saturation temperature of water", "temperatura de saturación del agua"),
    ("share of the charge", "parte de la carga"),
    ("singular values of a fit", "valores singulares de un ajuste"),
    ("slope of the saturation line", "pendiente de la línea de saturación"),
    ("smallest step of the gauge (Pa)", "paso más pequeño del vacuómetro (Pa)"),
    ("span of the scale (bar)", "amplitud de la escala (bar)"),
    ("specific enthalpy", "entalpía específica"),
    ("specific entropy", "entropía específica"),
    ("specific gravity", "densidad relativa"),
    ("speed of the car", "velocidad del coche"),
    ("spinodal", "espinodal"),
    ("standard uncertainty", "incertidumbre típica"),
    ("standard uncertainty of pressure and temperature", "incertidumbre típica de presión y temperatura"),
    ("standard uncertainty of the air pressure", "incertidumbre típica de la presión del aire"),
    ("standard uncertainty of the ambient temperature", "incertidumbre típica de la temperatura ambiente"),
    ("standard uncertainty of the recovered charge", "incertidumbre típica de la carga recuperada"),
    (
        "state points take both gauges; read the low side and the high side",
        "los puntos del ciclo necesitan ambos manómetros; lea el lado de baja y el lado de alta",
    ),
    ("steady state of the circuit", "régimen estable del circuito"),
    ("step of the table", "paso de la tabla"),
    ("sublimation pressure", "presión de sublimación"),
    (
        "subtract the pressure of the surrounding air, 14.7 psi or 1.013 bar at sea level",
        "reste la presión del aire que lo rodea, 14,7 psi o 1,013 bar al nivel del mar",
    ),
    ("surface tension", "tensión superficial"),
    ("taken from its published bubble and dew lines", "el de sus líneas publicadas de burbuja y de rocío"),
    ("temperature", "temperatura"),
    ("temperature (K)", "temperatura (K)"),
    ("temperature (°C)", "temperatura (°C)"),
    ("temperature difference", "diferencia de temperatura"),
    ("temperature for surface tension", "temperatura para la tensión superficial"),
    ("temperature for thermal conductivity", "temperatura para la conductividad térmica"),
    ("temperature for viscosity", "temperatura para la viscosidad"),
    ("temperature of some readings", "la temperatura de algunas lecturas"),
    ("temperature of the container", "temperatura del recipiente"),
    ("temperature of the equalised circuit", "temperatura del circuito igualado"),
    ("temperature of the oil", "temperatura del aceite"),
    ("temperature of the oil (K)", "temperatura del aceite (K)"),
    ("temperature on an isobar", "temperatura en una isóbara"),
    (
        "that of the column of answers, or one where an air pressure stands for all rows",
        "el de la columna de respuestas, o uno si una presión del aire vale para todas las filas",
    ),
    (
        "that of the refrigerant asked: the state is another fluid's, or of another equation",
        "la del refrigerante pedido: el estado es de otro fluido, o de otra ecuación",
    ),
    ("that of the slice of questions", "la de la lista de preguntas"),
    ("the charge", "la carga"),
    ("the colon between conditions and pressures", "los dos puntos entre condiciones y presiones"),
    (
        "the cycle solver covers pure refrigerants; for a blend use the printed charts",
        "el ciclo se calcula para refrigerantes puros; para una mezcla use las tablas publicadas",
    ),
    (
        "the head must name at least one, with its unit, as in \"low [psi],high [psi]\"",
        "el encabezado debe nombrar al menos una, con su unidad, como en «low [psi],high [psi]»",
    ),
    (
        "the head must name it with its unit, as in \"time [min],absolute [micron]\"",
        "el encabezado debe nombrarla con su unidad, como en «time [min],absolute [micron]»",
    ),
    ("the kind of car", "el tipo de coche"),
    ("the kind of circuit", "el tipo de circuito"),
    ("the list of baselines", "la lista de referencias propias"),
    ("the maker's oil for a part (cm³)", "aceite del fabricante para una pieza (cm³)"),
    (
        "the maker's rule needs it: filled with so much oil, emptied, dry or used",
        "la regla del fabricante lo necesita: lleno con tanto aceite, vaciado, seco o usado",
    ),
    ("the oil contents of the new compressor", "el contenido de aceite del compresor nuevo"),
    ("the pressure of every reading as the first", "la presión de todas las lecturas como la primera"),
    ("the prior weight of all detectable causes together,", "el peso previo de todas las causas detectables juntas"),
    ("the refrigerant", "el refrigerante"),
    ("the second pressure, or the name of the side,", "la segunda presión, o el nombre del lado"),
    ("the standard uncertainty", "la incertidumbre típica"),
    ("the value", "el valor"),
    ("thermal conductivity", "conductividad térmica"),
    (
        "this rule takes oil out of a filled one; give its contents, or the maker's rule for an empty one",
        "esta regla saca aceite de uno lleno; dé su contenido, o la regla del fabricante para uno vacío",
    ),
    ("throughput", "caudal de gas"),
    ("time", "tiempo"),
    ("time (min)", "tiempo (min)"),
    ("time between the readings (min)", "tiempo entre las lecturas (min)"),
    ("time from the start of the hold test", "tiempo desde el principio de la prueba de vacío"),
    ("time of the evacuation (min)", "tiempo de vacío (min)"),
    ("time of the standing vacuum test (min)", "tiempo de la prueba de vacío (min)"),
    ("time since the charge (min)", "tiempo desde la carga (min)"),
    ("time the circuit stood open (min)", "tiempo que el circuito estuvo abierto (min)"),
    ("time to reach the vacuum (min)", "tiempo hasta alcanzar el vacío (min)"),
    ("time until so much is left (min)", "tiempo hasta que quede eso (min)"),
    (
        "time, absolute, gauge, vacuum, temperature (each with its unit, as in \"absolute [micron]\"), note",
        "«time», «absolute», «gauge», «vacuum», «temperature» (cada una con su unidad, como en «absolute [micron]»), \
         «note»",
    ),
    ("times water", "veces la del agua"),
    ("tolerance of a gauge (Pa)", "tolerancia de un manómetro (Pa)"),
    ("use one gauge for the whole test", "use un solo instrumento en toda la prueba"),
    ("volume", "volumen"),
    ("volume of the circuit (L)", "volumen del circuito (L)"),
    ("volume of the circuit (cm³)", "volumen del circuito (cm³)"),
    ("volume of the container (L)", "volumen del recipiente (L)"),
    ("volume of the hose (cm³)", "volumen de la manguera (cm³)"),
    ("volume of the vapour (m³)", "volumen del vapor (m³)"),
    ("water capacity (g)", "capacidad en agua (g)"),
    ("wet bulb", "bulbo húmedo"),
    (
        "what a healthy circuit shows depends on the day; give an earlier reading with both",
        "lo que muestra un circuito sano depende del día; dé una lectura anterior con ambas cosas",
    ),
    ("what the healthy circuit shows", "lo que muestra el circuito sano"),
    ("width of the range (kPa)", "anchura del intervalo (kPa)"),
    (
        "windows are told by the day; measure the air in the shade before the condenser",
        "los rangos dependen del día; mida el aire a la sombra, delante del condensador",
    ),
    (
        "write a row like \"30 °C: 190 to 240 kPa, 1300 to 1600 kPa\", low side first",
        "escriba una fila como «30 °C: 190 to 240 kPa, 1300 to 1600 kPa», primero el lado de baja",
    ),
    ("write it like \"500 g\"", "escríbala como «500 g»"),
    ("zero or more", "cero o más"),
    (
        "zero or more: the bottle became heavier; check which weighing was first",
        "cero o más: la botella pesa más que antes; compruebe qué pesada fue la primera",
    ),
    (
        "zero or more: the jar became lighter; check which weighing was first",
        "cero o más: el frasco pesa menos que antes; compruebe qué pesada fue la primera",
    ),
    ("zero or more: the lower limit stands first", "cero o más: el límite inferior va primero"),
    (
        "zero or more: write it without a sign, or name the column gauge",
        "cero o más: escríbala sin signo, o llame a la columna «gauge»",
    ),
    ("zero or more; are the two lines swapped?", "cero o más; ¿están cambiadas las dos líneas?"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn phrases_are_found_by_their_order() {
        assert!(PHRASES.is_sorted_by(|(one, _), (other, _)| one < other));
        assert!(PHRASES.iter().all(|(english, here)| phrase(english) == *here));
        assert_eq!(phrase("low side"), "lado de baja");
        assert_eq!(phrase("digital probe"), "sonda digital");
        assert_eq!(phrase("R-404A"), "R-404A");
    }

    #[test]
    fn places_are_named() {
        for (english, here) in [
            ("low side, 2.2 bar", "lado de baja, 2,2 bar"),
            ("vent", "rejilla"),
            ("pair 3", "pareja 3"),
            ("row \"30 °C: 1.5 bar, 13 bar\"", "fila «30 °C: 1.5 bar, 13 bar»"),
        ] {
            assert_eq!(place(english), here);
        }
        let settings = "900 rpm, recirculation with a window open for 5 min, blower 50 %";
        let here = "900 rpm, recirculación con una ventanilla abierta durante 5 min, ventilador del habitáculo 50 %";
        assert_eq!((listed(settings).as_str(), listed("30.5 °C").as_str()), (here, "30,5 °C"));
    }
}
