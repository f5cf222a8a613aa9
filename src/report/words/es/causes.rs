//! The sentences about causes and what to do next.

use super::reading::{count, measurand};
use super::{NUMERALS, cause_texts};
use crate::diagnosis::{CauseId, LeadingGroup, Likeliest, NextStep};
use crate::inspection::{Effort, Measurand};
use crate::report::causes::PriorName;
use crate::report::words::Reasons;
use crate::report::{CauseRow, Causes, NextRow, PredictedRow, Report};

/// The name of a cause.
pub(super) fn name(cause: CauseId) -> &'static str {
    cause_texts::texts(cause).name
}

/// The names of an ambiguity group.
fn names(causes: &[CauseId]) -> String {
    causes.iter().map(|cause| name(*cause)).collect::<Vec<_>>().join("; o bien ")
}

/// The prior that probabilities follow from.
pub(super) const fn prior(prior: PriorName) -> &'static str {
    match prior {
        PriorName::Workshop => "con las causas a priori tan frecuentes como las encuentran los talleres",
        PriorName::Uniform => "con todas las causas igual de probables a priori",
        PriorName::Given => "con los pesos a priori indicados",
    }
}

/// "carga insuficiente, como única avería o junto con otra (82 %)".
pub(super) fn likeliest(likeliest: &Likeliest) -> String {
    let combined = if likeliest.combined { ", como única avería o junto con otra" } else { "" };
    let open = if likeliest.settled { "" } else { ", sin confirmar" };
    format!("{}{combined} ({}{open})", names(&likeliest.causes), NUMERALS.percent(likeliest.probability))
}

/// The sentences about the causes, a paragraph each.
pub(super) fn explanation(report: &Report, reasons: Reasons) -> Vec<String> {
    let Some(causes) = &report.causes else { return Vec::new() };
    let advice = &report.advice;
    let mut sentences = Vec::new();
    let Some(first) = advice.leading.first().filter(|_| !advice.headline.says_empty()) else { return sentences };
    if causes.outside_model {
        return vec![format!("Lo más cercano, y aun así distinto: {}.", names(&first.causes))];
    }
    if let (Reasons::Full, Some(likeliest)) = (reasons, advice.headline.likeliest())
        && likeliest.combined
    {
        let (sum, name) = (NUMERALS.percent(likeliest.probability), name(likeliest.causes[0]));
        sentences.push(format!("{sum}: {name}, como única avería o junto con otra; abajo, por separado y combinada."));
    }
    for (place, group) in advice.leading.iter().enumerate() {
        let Some(row) = causes.row(group.causes[0]) else { continue };
        let size = row.size.map_or(String::new(), |size| format!("; {}", cause_texts::size(&size)));
        let reasons = match reasons {
            _ if matches!(row.id, CauseId::NoFault) => String::new(),
            Reasons::Full => reasons_in_full(row, group),
            Reasons::Short if place == 0 => reasons_in_short(row, group),
            Reasons::Short => String::new(),
        };
        let probability = NUMERALS.percent(group.probability);
        sentences.push(format!("{probability}: {}{size}.{reasons}", names(&group.causes)));
    }
    if let Some(others) = advice.others {
        let probability = NUMERALS.percent(others.probability);
        sentences.push(format!("{probability}: una de las otras {} causas comparadas.", count(others.count)));
    }
    // as in English
    sentences.push(format!(
        "A partir de {} circuitos simulados, {}, ponderadas por su detectabilidad; uno de cada diez de estos porcentajes se desvía 7 puntos o más.",
        count(causes.circuits),
        prior(causes.prior)
    ));
    if !advice.undetectable.is_empty() {
        let hidden = |cause: &CauseId| causes.row(*cause).map_or(0.0, |row| row.hidden_probability);
        let named = |cause: &CauseId| match hidden(cause) {
            little if little < 0.005 => name(*cause).to_owned(),
            probability => format!("{} ({})", name(*cause), NUMERALS.percent(probability)),
        };
        let names: Vec<String> = advice.undetectable.iter().map(named).collect();
        sentences.push(format!("Puede estar ahí sin notarse en lo que se midió: {}.", names.join("; ")));
    }
    if let Some([a, b]) = advice.indistinguishable {
        let (a, b) = (name(a), name(b));
        sentences.push(format!("Lo que se midió no distingue entre «{a}» y «{b}»."));
    }
    sentences
}

/// What speaks for and against a cause, the strongest first, with how strongly.
fn reasons_in_full(row: &CauseRow, group: &LeadingGroup) -> String {
    let list = |places: &[usize], word: &str, than: &str| {
        let each: Vec<String> = predicted(row, places)
            .enumerate()
            .map(|(i, p)| {
                let times = if p.bayes_factor >= 1.0 { p.bayes_factor } else { 1.0 / p.bayes_factor };
                let times = if times > 999.0 { "más de 999".to_owned() } else { NUMERALS.number(times, 0) };
                // said in full once
                let than = if i == 0 { than } else { "" };
                let (read, expected) = (NUMERALS.amount(&p.read), NUMERALS.amount(&p.expected));
                format!("{} {read} donde coches así muestran {expected} ({times} veces{than})", measurand(p.measurand))
            })
            .collect();
        if each.is_empty() { String::new() } else { format!(" {word}: {}.", each.join("; ")) }
    };
    list(&group.supporting, "A favor", " más probable que en un coche sano")
        + &list(&group.contradicting, "En contra", " menos probable que en un coche sano")
        + &observations(row)
}

/// The same without how strongly.
fn reasons_in_short(row: &CauseRow, group: &LeadingGroup) -> String {
    let list = |places: &[usize], word: &str| {
        let each: Vec<String> = predicted(row, places)
            .map(|p| {
                let (read, expected) = (NUMERALS.amount(&p.read), NUMERALS.amount(&p.expected));
                format!("{} {read} (coches así muestran {expected})", measurand(p.measurand))
            })
            .collect();
        if each.is_empty() { String::new() } else { format!(" {word}: {}.", each.join("; ")) }
    };
    list(&group.supporting, "A favor") + &list(&group.contradicting, "En contra") + &observations(row)
}

fn predicted<'a>(row: &'a CauseRow, places: &'a [usize]) -> impl Iterator<Item = &'a PredictedRow> {
    places.iter().filter_map(|&place| row.predicted.get(place))
}

/// What eyes and hands add.
fn observations(row: &CauseRow) -> String {
    if (row.observation_bayes_factor - 1.0).abs() <= 0.01 {
        return String::new();
    }
    format!(
        " Lo que se encontró multiplica por {} su razón de probabilidades, según la coincidencia de tablas publicadas.",
        NUMERALS.number(row.observation_bayes_factor, 1)
    )
}

/// One thing to do next; `first` for the first measurement of the list.
pub(super) fn step(step: &NextStep, causes: Option<&Causes>, first: bool) -> String {
    match step {
        NextStep::Remedy { cause } => {
            let texts = cause_texts::texts(*cause);
            format!("Para «{}»: {}. {}", texts.name, texts.next, texts.caution)
        }
        NextStep::Measure { measurand } => {
            causes.and_then(|causes| causes.measurement(*measurand)).map_or(String::new(), |row| measure(row, first))
        }
        NextStep::NoChargeByLowSide { undercharge, unlikely, settled } => {
            let low = match undercharge {
                _ if *unlikely => "es aquí poco probable".to_owned(),
                Some(probability) if *settled => {
                    format!("es probable ({}), pero no se sabe de cuánto", NUMERALS.percent(*probability))
                }
                Some(probability) => format!("no está confirmada ({})", NUMERALS.percent(*probability)),
                None => "no está confirmada".to_owned(),
            };
            format!(
                "No añada refrigerante guiándose solo por el lado de baja: una falta de carga {low}, y un exceso sube el lado de alta sin que \
                 se vea (práctica habitual, sin fuente)."
            )
        }
        NextStep::Usual { measurand } => usual(*measurand),
        NextStep::Ambient => {
            "Temperatura ambiente a la sombra, delante del condensador: todos los rangos dependen de ella.".to_owned()
        }
        NextStep::Humidity => "Humedad: el aire húmedo carga el evaporador y sube ambos lados.".to_owned(),
        NextStep::RepeatAsChartsAsk => {
            "¿Se hizo la prueba como piden las tablas: diez minutos, ajuste más frío, ventilador interior al máximo, puertas o ventanas \
             abiertas? Si no, repítala."
                .to_owned()
        }
        NextStep::CompareTemperatures => {
            "Temperaturas de condensador, compresor y habitáculo: todas deben ser la del ambiente; si no, espere más.".to_owned()
        }
        NextStep::CoolDownAndRepeat => {
            "Deje que el motor se enfríe del todo y repita antes de concluir que hay aire dentro. Si sigue por encima, averigüe qué hay \
             dentro antes de ponerlo en marcha o recuperarlo."
                .to_owned()
        }
        NextStep::FollowLiquidLine => {
            "Siga la línea de líquido con la mano o el termómetro desde el condensador hasta la pinza: donde se enfría o se escarcha, en el \
             filtro deshidratador, en un filtro o en un doblez, está cerrada. Si está fría ya desde el condensador, o la pinza está detrás \
             de un intercambiador interno, lea otra vez los termómetros."
                .to_owned()
        }
        NextStep::KeepCompressorOff => {
            "No haga funcionar el compresor: sin líquido no le vuelve aceite. Busque la fuga, recupere y pese lo que quede.".to_owned()
        }
        NextStep::ReadRunning => "Después, los mismos manómetros con el compresor en marcha.".to_owned(),
    }
}

/// A measurement with its two outcomes: "Lea la rejilla: cerca de 13 °C (9 a 17) apunta a X, …".
fn measure(row: &NextRow, first: bool) -> String {
    let outcomes: Vec<String> = row
        .outcomes
        .iter()
        .take(2)
        .map(|one| {
            let shows = match row.measurand {
                Measurand::RecoveredCharge => format!("{} de la carga nominal", NUMERALS.about(&one.shows)),
                Measurand::LowSide
                | Measurand::HighSide
                | Measurand::SuctionLine
                | Measurand::EvaporatorOutlet
                | Measurand::LiquidLine
                | Measurand::DischargeLine
                | Measurand::Vent
                | Measurand::ClutchDutyCycle
                | Measurand::EqualisedPressure => NUMERALS.about(&one.shows),
            };
            format!("{shows} apunta a «{}»", name(one.cause))
        })
        .collect();
    // another interval than ± of what was read, said once
    let interval = if first { "; entre paréntesis, lo que muestran dos de cada tres coches así" } else { "" };
    let of = with_article(row.measurand);
    let how = match (row.measurand, row.effort) {
        (Measurand::RecoveredCharge, _) => RECOVER_AND_WEIGH.to_owned(),
        (Measurand::ClutchDutyCycle, _) => {
            "Cronometre el embrague durante tres ciclos, tiempo acoplado sobre tiempo total".to_owned()
        }
        (Measurand::EqualisedPressure, _) => {
            "Pare el motor, deje que se enfríe y lea cualquiera de los manómetros".to_owned()
        }
        (Measurand::DischargeLine, _) => {
            format!("Con el motor parado y la línea fría, ponga un termómetro de pinza en {of} y arranque")
        }
        (_, Effort::Clamp) => format!("Ponga un termómetro de pinza en {of}"),
        (_, Effort::Look | Effort::Stop | Effort::Recover) => format!("Lea {of}"),
    };
    format!("{how}: {}{interval}.", outcomes.join(", "))
}

/// The name of a measurand with its article.
fn with_article(of: Measurand) -> String {
    let article = match of {
        Measurand::LowSide | Measurand::HighSide | Measurand::ClutchDutyCycle => "el",
        Measurand::SuctionLine
        | Measurand::LiquidLine
        | Measurand::Vent
        | Measurand::EvaporatorOutlet
        | Measurand::DischargeLine
        | Measurand::EqualisedPressure
        | Measurand::RecoveredCharge => "la",
    };
    format!("{article} {}", measurand(of))
}

/// How the charge is weighed, with what is minded meanwhile; common practice, no source.
const RECOVER_AND_WEIGH: &str = "Con el motor parado y con gafas y guantes, recupere la carga con un equipo de recuperación, nunca al aire, y pésela";

/// A measurement that is always worth having.
fn usual(of: Measurand) -> String {
    let sentence = match of {
        Measurand::LowSide => "El manómetro de baja: con la línea de aspiración da el sobrecalentamiento.",
        Measurand::HighSide => "El manómetro de alta: muestra lo que hace el condensador y el exceso de carga.",
        Measurand::SuctionLine => {
            "Ponga un termómetro de pinza en la línea de aspiración, junto a la toma de baja: el sobrecalentamiento muestra si el \
             evaporador está lleno."
        }
        Measurand::LiquidLine => {
            "Ponga un termómetro de pinza en la línea de líquido, después del condensador: el subenfriamiento muestra si llega líquido a \
             la válvula."
        }
        Measurand::Vent => "Temperatura en la rejilla central: el único dato que nota el conductor.",
        Measurand::EqualisedPressure => {
            "Con el motor parado media hora como mínimo, y tras conducir hasta que todo esté frío: una vez igualados, ambos manómetros muestran \
             aire o carga perdida mejor que cualquier lectura en marcha."
        }
        Measurand::EvaporatorOutlet => {
            "Ponga un termómetro de pinza en la salida del evaporador, antes de cualquier manguera."
        }
        Measurand::DischargeLine => {
            "Con el motor parado y la línea fría, ponga un termómetro de pinza en la línea de descarga, junto al compresor; después \
             arranque y lea."
        }
        Measurand::ClutchDutyCycle => "Cronometre el embrague durante tres ciclos, tiempo acoplado sobre tiempo total.",
        Measurand::RecoveredCharge => return format!("{RECOVER_AND_WEIGH}."),
    };
    sentence.to_owned()
}
