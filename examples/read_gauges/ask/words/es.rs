//! The dialogue in Spanish: a translation of [`super::en`], in the same order, with the words of the library's pages in Spanish.
//!
//! Pressures and temperatures are exemplified in bar and °C first. What is understood in English is understood here too, where it is no
//! other word. The key is *Intro* in Spain and *Enter* elsewhere: both are named once.

use satline::circuit::Intake;
use satline::diagnosis::JudgedQuantity;
use satline::inspection::{Measurand, Observation};
use satline::report::Language;

use super::super::question::Question;
use super::super::typed::{LONGEST, Replies, Unreadable};
use super::{Conditions, Prompt, Sentence, Share, Words};

/// The words in Spanish.
pub struct Spanish;

impl Words for Spanish {
    fn replies(&self) -> Replies {
        Replies {
            yes: &["s", "sí", "si", "y", "yes"],
            no: &["n", "no"],
            back: &["atrás", "atras", "back"],
            end: &["fin", "salir", "q", "quit", "exit", "done"],
        }
    }

    fn sentence(&self, sentence: Sentence) -> &'static str {
        match sentence {
            Sentence::Opening => {
                "Dos manómetros y un termómetro, o lo que haya de ellos. Intro (Enter) salta una pregunta, ? la explica, atrás anula la última \
                 respuesta, fin termina con lo que se sabe hasta entonces."
            }
            Sentence::NoRefrigerant => {
                "falta el refrigerante, y sin él no se puede comparar nada; lo nombra la etiqueta bajo el capó"
            }
            Sentence::FirstQuestion => "Esta es la primera pregunta.",
            Sentence::NothingElse => "Tal como están las cosas, no vale la pena medir nada más.",
            Sentence::ToGoOn => "Para seguir desde aquí:",
            Sentence::ToRepeat => "Para repetirlo:",
        }
    }

    fn prompt(&self, question: Question, carbon_dioxide: bool) -> Prompt {
        prompt(question, carbon_dioxide)
    }

    fn hoses_swapped(&self) -> Prompt {
        Prompt {
            text: "¿Mangueras cambiadas? s intercambia los valores, Intro vuelve a preguntar ambos:".to_owned(),
            help: "El manómetro con más presión está conectado a la línea fina de líquido o a la de descarga: ese es el lado de alta.",
        }
    }

    fn other_unit(&self, question: &str, _: &str) -> Prompt {
        Prompt {
            // the value stands in the question, with a decimal comma
            text: format!("{question} s toma ese valor, Intro deja el que se escribió:"),
            help: "Lea otra vez la unidad en la esfera; el mismo número encajaría mejor en la otra.",
        }
    }

    fn conditions(&self, conditions: &Conditions) -> String {
        let rpm = |rpm| format!("a {} rpm", Language::Spanish.number(rpm, 0));
        let speed = conditions.engine_speed.map_or("al ralentí".to_owned(), rpm);
        let doors = match conditions.intake {
            Intake::Fresh => "aire exterior",
            Intake::DoorsOpen => "recirculación con las puertas abiertas",
            Intake::WindowOpen { .. } => "recirculación con una ventanilla abierta",
            Intake::Shut { .. } => "recirculación con puertas y ventanillas cerradas",
        };
        let place = if conditions.at_sea_level { ", al nivel del mar" } else { "" };
        format!(
            "Una lectura en marcha se da por tomada tras diez minutos {speed}: ajuste más frío, ventilador interior al máximo, {doors}{place}. \
             Si no fue así, indique --engine-speed, --fresh-air, --cabin o --altitude junto a --ask."
        )
    }

    fn look_for(&self, cause: &str) -> String {
        format!("Busque señales de «{cause}»:")
    }

    fn no_answer(&self, missing: &str) -> String {
        format!("Aún sin respuesta: {missing}")
    }

    fn no_cause(&self, verdicts: &str) -> String {
        format!("Con esto no se puede nombrar ninguna causa; {verdicts}.")
    }

    fn share(&self, share: &Share) -> String {
        let was = share.was.as_ref().map_or(String::new(), |was| format!(" (antes {was})"));
        format!("{}: {}{was}", share.now, share.causes.join("; o bien "))
    }

    fn safety(&self, cautions: &str) -> String {
        format!("Seguridad: {cautions}")
    }

    fn neither(&self, typed: &str) -> String {
        format!("«{}» no es ni s (sí) ni n (no).", typed.escape_debug())
    }

    fn unreadable(&self, why: Unreadable) -> String {
        match why {
            Unreadable::TooLong => {
                format!("La línea tiene más de {LONGEST} bytes; bastan un valor y su unidad.")
            }
            Unreadable::NotText => "La línea no es texto en UTF-8; escríbala otra vez.".to_owned(),
            Unreadable::ControlCharacter => {
                "La línea contiene un carácter de control, como el que deja una tecla de flecha; escríbala otra vez."
                    .to_owned()
            }
        }
    }

    fn not_at_rest(&self, option: &str, _: &str) -> String {
        format!(
            "«{option}» no corresponde a una lectura con el motor parado: responda s, o empiece otra vez sin esa opción."
        )
    }

    fn input(&self) -> &'static str {
        "entrada estándar"
    }
}

fn prompt(question: Question, carbon_dioxide: bool) -> Prompt {
    let level = if carbon_dioxide { "57 bar; 830 psi" } else { "5,9 bar; 85 psi" };
    let side = |side| if side == Measurand::LowSide { "baja" } else { "alta" };
    let (text, help) = match question {
        Question::Refrigerant => (
            "Refrigerante de la etiqueta (R-134a, R-1234yf, R-12, CO2):".to_owned(),
            "Lo nombra la etiqueta bajo el capó, junto a la carga; si no hay etiqueta, lo dice un identificador. Desde cerca de 1991 los coches \
             llevan R-134a; los de hoy, R-1234yf.",
        ),
        Question::Running => (
            "¿Está en marcha el aire acondicionado? s o Intro; n si el motor está parado y frío:".to_owned(),
            "n: nada ha funcionado desde hace media hora como mínimo, todo está frío y ambos manómetros marcan casi lo mismo.",
        ),
        Question::Level(of) => (
            value(&format!("Manómetro de {}, motor parado", side(of)), level),
            "Presión manométrica, tal como la marca la esfera, tras media hora en reposo como mínimo y con todo frío; ambos manómetros marcan \
             entonces casi lo mismo.",
        ),
        Question::Started => (
            "¿Está ahora en marcha el aire acondicionado? s, Intro para dejarlo parado:".to_owned(),
            "Con s se sigue con ambos manómetros del circuito en marcha; lo leído en reposo se conserva al lado.",
        ),
        Question::Measured(measurand) => return measured(measurand, carbon_dioxide),
        Question::Ambient => (
            value("Aire exterior a la sombra", "30 C; 86 F"),
            "Temperatura delante del condensador: todos los rangos dependen de ella. Al sol o encima de un motor caliente, el termómetro marca de más.",
        ),
        Question::Humidity => (
            "Humedad del aire exterior (55 %), Intro salta:".to_owned(),
            "Humedad relativa, según un higrómetro o el parte meteorológico; el aire húmedo sube ambos lados.",
        ),
        Question::Scale(of) => (
            format!(
                "Final de su escala, si llega más lejos ({}), Intro para leer otra vez:",
                if of == Measurand::LowSide { "17 bar; 250 psi" } else { "55 bar; 800 psi" }
            ),
            "La última cifra de la esfera. De su escala depende cuánto puede uno fiarse de un manómetro.",
        ),
        Question::Seen(one) => {
            (format!("{} s, n, Intro salta:", look(one)), "s si se encontró, n si se buscó y no se encontró.")
        }
        Question::Resting => (
            value("Cualquiera de los manómetros, motor parado", level),
            "Media hora como mínimo después de parar, con el capó abierto y todo a la temperatura del aire; ambos manómetros marcan casi lo mismo.",
        ),
        Question::RestingTemperature => (
            "Temperatura de todo el circuito entonces (25 C; 77 F), Intro si es la del exterior:".to_owned(),
            "La misma en condensador, compresor y habitáculo; mientras difieran, espere más.",
        ),
        Question::Recovered => (
            value("Carga recuperada y pesada", "310 g; 0,68 lb"),
            "Según la báscula del equipo de recuperación. El circuito queda vacío: ya no se mide nada más.",
        ),
        Question::NominalCharge => {
            (value("Carga de la etiqueta", "550 g; 1,2 lb"), "En la etiqueta bajo el capó, junto al refrigerante.")
        }
    };
    Prompt { text, help }
}

fn value(name: &str, example: &str) -> String {
    format!("{name}, con unidad ({example}), Intro salta:")
}

/// How a quantity of the running circuit is asked for.
fn measured(measurand: Measurand, carbon_dioxide: bool) -> Prompt {
    let (text, help) = match measurand {
        Measurand::LowSide => (
            value("Manómetro de baja", if carbon_dioxide { "36 bar; 520 psi" } else { "2,2 bar; 32 psi; -0,3 bar" }),
            "Presión manométrica, tal como la marca la esfera; por debajo de cero es vacío, con su signo menos. Se conecta a la línea gruesa y \
             fría.",
        ),
        Measurand::HighSide => (
            value("Manómetro de alta", if carbon_dioxide { "90 bar; 1300 psi" } else { "12,8 bar; 185 psi" }),
            "Presión manométrica, tal como la marca la esfera; si la aguja oscila, vale el centro. Se conecta a la línea fina o a la caliente.",
        ),
        Measurand::SuctionLine => (
            value("Línea de aspiración junto a la toma de baja", "9 C; 48 F"),
            "La línea gruesa y fría que va al compresor: termómetro de pinza sobre metal desnudo, aislado del aire.",
        ),
        Measurand::LiquidLine if carbon_dioxide => (
            value("Línea a la salida del enfriador de gas", "38 C; 100 F"),
            "Donde sale del enfriador de gas: termómetro de pinza sobre metal desnudo, aislado del aire.",
        ),
        Measurand::LiquidLine => (
            value("Línea de líquido después del condensador", "41 C; 105 F"),
            "La línea fina y templada que sale del condensador: termómetro de pinza sobre metal desnudo, aislado del aire.",
        ),
        Measurand::DischargeLine => (
            value("Línea de descarga", "66 C; 150 F"),
            "La línea que va del compresor al condensador, junto al compresor: termómetro de pinza sobre metal desnudo, aislado del aire.",
        ),
        Measurand::Vent => (
            value("Aire en la rejilla central", "10 C; 50 F"),
            "Termómetro metido el largo de una mano en la rejilla central, donde el aire sale más frío.",
        ),
        Measurand::ClutchDutyCycle => (
            "Embrague acoplado (40 % si son 12 s de 30 s; 100 % si lo está siempre), Intro salta:".to_owned(),
            "Durante tres ciclos, tiempo acoplado sobre tiempo total; el plato delantero del compresor gira mientras está acoplado.",
        ),
        Measurand::EvaporatorOutlet => (
            value("Línea a la salida del evaporador", "10 C; 50 F"),
            "Antes de cualquier manguera: termómetro de pinza sobre metal desnudo, aislado del aire.",
        ),
        other => (
            value(Language::Spanish.quantity(JudgedQuantity::Measured(other)), "10 C; 50 F"),
            "Termómetro de pinza sobre metal desnudo, aislado del aire.",
        ),
    };
    Prompt { text, help }
}

/// How an observation is asked for.
fn look(observation: Observation) -> String {
    match observation {
        Observation::Bubbles => "¿Se ven burbujas en la mirilla?",
        Observation::CyclesOften => "¿Acopla y desacopla el embrague cada pocos segundos?",
        Observation::StepOnLiquidLine => {
            "¿Hay un salto de temperatura, agua condensada o escarcha en la línea de líquido o en el filtro deshidratador?"
        }
        Observation::FrostAtValve => "¿Hay escarcha o agua condensada a la entrada del dispositivo de expansión?",
        Observation::FrostOnSuction => {
            "¿Hay escarcha en la línea de aspiración junto al compresor, o está ahí más fría que en el evaporador?"
        }
        Observation::EvaporatorIced => "¿Está helado el evaporador?",
        Observation::ComesAndGoes => "¿Deja de enfriar y vuelve a enfriar tras una pausa?",
        Observation::EqualisesQuickly => "¿Se igualan las presiones enseguida al parar el compresor?",
        Observation::FallsAtStop => "Al parar el compresor, ¿cae el lado de alta de golpe y después despacio?",
        Observation::WaterHelps => "¿Baja el lado de alta al echar agua sobre el condensador?",
        Observation::NotTurning => "¿Patina o está parado el plato del embrague o el eje del compresor?",
        Observation::LittleFrontAir => {
            "¿Está parado el ventilador del condensador, o pasa poco aire a través del condensador?"
        }
        Observation::EngineHot => "¿Se calienta el motor más de lo normal?",
        Observation::LittleCabinAir => "¿Sale poco aire por las rejillas?",
        Observation::OtherRefrigerant => "¿Indica otro refrigerante un identificador, una etiqueta o un racor?",
        other => return format!("¿Se encontró «{}»?", other.name()),
    }
    .to_owned()
}
