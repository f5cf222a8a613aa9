//! Sentences of the page about a standing vacuum test.

use super::NUMERALS;
use crate::report::hold::{FitFigure, GasFlow, HoldCaution, HoldNext, HoldReport, HoldStatement, LimitRow, Observed};
use crate::report::words::pages::HoldLabel;
use crate::service::acceptance::AcceptanceOutcome;
use crate::service::standing_vacuum::{BesideWater, VacuumFinding};

/// A heading, or the head of a column.
pub(in crate::report) const fn label(label: HoldLabel) -> &'static str {
    match label {
        HoldLabel::Figures => "Subida ajustada",
        HoldLabel::BestEstimate => "mejor estimación",
        HoldLabel::Interval => "intervalo del 95 %",
        HoldLabel::Meaning => "Qué significa",
        HoldLabel::Limits => "Límites de aceptación publicados",
        HoldLabel::Limit => "límite",
        HoldLabel::Result => "resultado",
        HoldLabel::Observed => "observado",
        HoldLabel::JudgedOver => "evaluado en",
        HoldLabel::Proof => "Qué demuestra cumplirlos",
        HoldLabel::Next => "Qué hacer ahora",
        HoldLabel::Safety => "Seguridad",
        HoldLabel::Sources => "Fuentes (en el idioma de cada obra)",
    }
}

/// What the page is about, and under what conditions.
pub(in crate::report) fn opening(report: &HoldReport) -> Vec<String> {
    let (n, of) = (NUMERALS, &report.opening);
    let mut opening = vec![format!(
        "Prueba de vacío: {} lecturas en {}, de {} a {} absolutos.",
        n.number(of.readings as f64, 0),
        n.plain(&of.length),
        n.bare(&of.first),
        n.best(&of.last)
    )];
    if report.invented {
        opening.push("Ejemplo resuelto: las lecturas son inventadas, no se probó ningún circuito.".to_owned());
    }
    let volume = match &of.volume {
        Some(volume) if volume.plus_minus.is_some() => format!("Volumen del circuito {}", n.amount(volume)),
        Some(volume) => format!("Volumen del circuito {}, tomado como exacto", n.plain(volume)),
        None => "Volumen del circuito no indicado".to_owned(),
    };
    let (air, half) = (10.0 * of.air.value, 10.0 * of.air.plus_minus.unwrap_or(0.0));
    opening.push(format!(
        "{volume}. Aire circundante {} ± {} hPa. Los intervalos son del 95 %.",
        n.number(air, 0),
        n.number(half, 0)
    ));
    if let (Some(step), Some(limit)) = (&of.gauge_step, &of.gauge_limit) {
        let (step, limit) = (n.plain(step), n.entered(limit));
        opening.push(format!("El vacuómetro se lee en pasos de {step}; error máximo de su escala, {limit}."));
    }
    match report.left_out {
        0 => {}
        1 => opening.push("1 fila del registro no se pudo usar.".to_owned()),
        rows => opening.push(format!("{} filas del registro no se pudieron usar.", n.number(rows as f64, 0))),
    }
    opening
}

/// The name of a figure of the fit.
pub(in crate::report) const fn figure(figure: FitFigure) -> &'static str {
    match figure {
        FitFigure::StraightRise => "subida recta (como la de una fuga)",
        FitFigure::FinalPressure => "subida que se aplana: presión final",
        FitFigure::TimeConstant => "subida que se aplana: constante de tiempo",
        FitFigure::StraightRiseBeside => "subida recta además de ella",
        FitFigure::Bend => "curvatura (0 recta, 1 o más se aplana)",
        FitFigure::SmallestRise => "menor subida detectable",
        FitFigure::Scatter => "dispersión de las lecturas",
        FitFigure::Throughput => "fuga como caudal de gas",
        FitFigure::Refrigerant => "el mismo caudal como refrigerante",
    }
}

/// The unit of a leak in grams a year.
pub(in crate::report) const fn grams_a_year() -> &'static str {
    "g/año"
}

/// What was set against an acceptance limit.
pub(in crate::report) const fn observed(observed: Observed) -> &'static str {
    match observed {
        Observed::Rise => "subida",
        Observed::Pressure => "presión",
    }
}

/// An outcome in a word or two.
pub(in crate::report) const fn outcome(outcome: AcceptanceOutcome) -> &'static str {
    match outcome {
        AcceptanceOutcome::Passes => "cumple",
        AcceptanceOutcome::Fails => "no cumple",
        AcceptanceOutcome::Open => "sin decidir",
        AcceptanceOutcome::TooShort => "prueba demasiado corta",
    }
}

/// A limit in short, in the unit that its source prints.
pub(in crate::report) fn limit(limit: &LimitRow) -> String {
    let over = NUMERALS.joined(&limit.over);
    match limit.quantity {
        Observed::Rise => format!("{} en {over}", NUMERALS.plain(&limit.most)),
        Observed::Pressure => format!("{} micras tras {over}", NUMERALS.number(limit.most.value, 0)),
    }
}

/// A statement about a standing vacuum test.
pub(in crate::report) fn statement(statement: &HoldStatement) -> String {
    match statement {
        HoldStatement::Finding { finding } => self::finding(*finding).to_owned(),
        HoldStatement::BesideWater { beside } => beside_water(*beside).to_owned(),
        HoldStatement::LeakAtMost { rate, flow, beside } => {
            let flow = flow.as_ref().map_or(String::new(), |flow| format!(": {}", self::flow(flow)));
            if *beside {
                format!("Junto a ella podría esconderse una fuga de hasta {}{flow}.", NUMERALS.best(rate))
            } else {
                format!("La fuga es como mucho de {}{flow}.", NUMERALS.best(rate))
            }
        }
        HoldStatement::VarianceInflation { readings: inflation } => format!(
            "Las lecturas vecinas se parecen, como cuando la temperatura oscila: {} de ellas valen por una, y los intervalos son por ello \
             más anchos.",
            NUMERALS.number(*inflation, 1)
        ),
        HoldStatement::NoVolume => {
            "Sin el volumen del circuito, la subida no dice nada del tamaño de una fuga.".to_owned()
        }
        HoldStatement::SmallestRise { rate, flow } => {
            let flow = flow.as_ref().map_or(String::new(), |flow| format!(": {}", self::flow(flow)));
            format!("La subida recta más lenta que esta prueba podría haber detectado es de {}{flow}.", NUMERALS.best(rate))
        }
        HoldStatement::LetsThrough { limit, times, scale } => format!(
            "El límite «{}» deja pasar una fuga equivalente a {} veces {} g al año, la escala menos sensible de un detector de servicio.",
            self::limit(limit),
            NUMERALS.digits(*times),
            NUMERALS.number(scale.value, 0)
        ),
        HoldStatement::NoProof => {
            "Ninguna prueba de vacío demuestra que no haya fugas. Además, el vacío tira donde el refrigerante empujará: juntas que fugan hacia \
             fuera pueden aguantar en vacío. Los caudales se comparan como gas, mol a mol; por el mismo orificio, el refrigerante a presión \
             pierde más de lo que el aire mete en vacío."
                .to_owned()
        }
    }
}

/// A flow of gas: as pressure × volume, and as grams a year.
fn flow(flow: &GasFlow) -> String {
    let lost = flow.lost_g_per_year;
    let mass = if lost < 1000.0 {
        format!("{} g", NUMERALS.digits(lost))
    } else {
        format!("{} kg", NUMERALS.digits(lost / 1000.0))
    };
    format!(
        "{} Pa L/s, tanto gas como {mass} de {} al año",
        NUMERALS.digits(flow.throughput_pa_l_per_s),
        flow.refrigerant
    )
}

const fn finding(finding: VacuumFinding) -> &'static str {
    match finding {
        VacuumFinding::NoRise => {
            "Ninguna subida que estas lecturas puedan detectar. Eso no es lo mismo que ninguna fuga."
        }
        VacuumFinding::Falling => {
            "La presión baja: una bomba sigue aspirando, el circuito se enfría, o el filtro deshidratador y el aceite absorben vapor. \
             Esto todavía no es una prueba de vacío."
        }
        VacuumFinding::Leak => {
            "La presión sube en línea recta, como cuando entra aire: una fuga, en el circuito o en mangueras, acoplamientos y manómetros. \
             Queda descartada una subida que se aplane dentro de la duración de esta prueba."
        }
        VacuumFinding::Moisture => {
            "La subida se aplana, como cuando se evapora agua o cuando el refrigerante sale del aceite: ambas se aplanan igual. Queda \
             descartada una subida solo recta."
        }
        VacuumFinding::LeakAndMoisture => {
            "La subida se aplana hasta quedar en una recta: algo se evapora, agua o refrigerante del aceite, y además entra aire. Queda \
             descartado que sea solo una de las dos cosas."
        }
        VacuumFinding::OpenToAir => {
            "La presión sube hacia la del aire: una fuga grande, o una válvula que quedó abierta. Su curva se dobla porque entra menos aire \
             cuanto menos vacío queda, y no dice nada de humedad."
        }
        VacuumFinding::SpeedsUp => {
            "La subida es cada vez más rápida. Eso no lo hace ni una fuga ni la humedad: el circuito se calienta, una válvula se va abriendo, \
             o el vacuómetro deriva."
        }
        VacuumFinding::CannotTell => {
            "La presión sube, pero estas lecturas encajan igual con una fuga que con humedad: la subida puede ser recta o estar camino de \
             aplanarse."
        }
    }
}

const fn beside_water(beside: BesideWater) -> &'static str {
    match beside {
        BesideWater::Below => {
            "Se aplana por debajo de la presión de saturación del agua a esta temperatura: no queda agua líquida, y lo que se evapora sale \
             del filtro deshidratador, del aceite o de las mangueras, o es refrigerante."
        }
        BesideWater::At => {
            "Se aplana en la presión de saturación del agua a esta temperatura, hasta donde pueden decirlo la temperatura y el ajuste: puede \
             quedar agua líquida dentro."
        }
        BesideWater::Above => {
            "Se aplana por encima de lo que el agua puede alcanzar a esta temperatura: no es solo agua, sino refrigerante que sale del \
             aceite, o aire que entra además."
        }
    }
}

/// What to do next.
pub(in crate::report) const fn next(step: HoldNext) -> &'static str {
    match step {
        HoldNext::CheckWithCharge => {
            "Una vez cargado el circuito, compruebe con detector electrónico o colorante, en la escala que se exija."
        }
        HoldNext::StartAgain => {
            "Aísle la bomba en los manómetros, deje que se igualen las temperaturas y empiece de nuevo."
        }
        HoldNext::HoldHosesAlone => {
            "Pruebe solo mangueras y manómetros, con los acoplamientos cerrados: fugan tan a menudo como el circuito."
        }
        HoldNext::FindUnderPressure => {
            "Busque el lugar a presión: nitrógeno seco o un gas trazador permitido, nunca aire comprimido; después repare, haga vacío y \
             repita la prueba."
        }
        HoldNext::EvacuateAgain => {
            "Haga vacío otra vez, más tiempo, con las piezas templadas; romper el vacío con nitrógeno seco saca vapor. Un manual hace vacío \
             tres veces durante 30 min cuando se encontró humedad."
        }
        HoldNext::NewDrier => {
            "Un circuito que estuvo abierto durante días necesita un filtro deshidratador nuevo antes de hacerle vacío (tres manuales)."
        }
        HoldNext::RepairThenDry => {
            "Pruebe solo mangueras y manómetros, con los acoplamientos cerrados, y repare después lo que fuga: el secado viene luego."
        }
        HoldNext::RepeatWithTemperature => {
            "Anote la temperatura del circuito con cada lectura, cierre todas las válvulas y repita."
        }
        HoldNext::HoldLonger => {
            "Mantenga la prueba más tiempo: el doble o el triple distingue una subida recta de una que se aplana. Anote la temperatura con \
             cada lectura."
        }
        HoldNext::ReadTemperature => {
            "Lea la temperatura con cada lectura: corrige el calentamiento y el enfriamiento, y muestra si puede ser agua."
        }
    }
}

/// A safety caution under vacuum: common practice of service manuals, in our own words.
pub(in crate::report) const fn caution(caution: HoldCaution) -> &'static str {
    match caution {
        HoldCaution::CompressorInVacuum => {
            "No haga funcionar nunca un compresor en vacío, y no ponga nunca en marcha uno eléctrico: ahí no tiene ni caudal de aceite ni aislamiento."
        }
        HoldCaution::CompressedAir => {
            "No pruebe nunca con aire comprimido: incluso R-134a puede arder en aire a presión elevada."
        }
        HoldCaution::OpenLine => {
            "Gafas de protección y guantes dondequiera que se abra una línea: el aceite puede desprender todavía refrigerante."
        }
        HoldCaution::Recover => "Recupere antes de hacer vacío: liberar refrigerante es ilegal en muchos lugares.",
        HoldCaution::MakersFigures => {
            "Los datos del fabricante para este coche, la normativa local y el ejercicio profesional autorizado van antes que esta página."
        }
    }
}
