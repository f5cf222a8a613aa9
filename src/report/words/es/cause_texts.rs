//! Causes and the sizes of faults.

use super::NUMERALS;
use crate::diagnosis::{CauseId, Fault};
use crate::report::{CauseTexts, FaultSizeRow};

const PRESSURE: &str = "El circuito está a presión: gafas de protección y guantes, recupere antes de abrir nada.";
const MOVING: &str = "Correas y ventiladores se mueven, y un ventilador puede arrancar solo: manos lejos, y motor o coche apagado antes de \
                      tocar.";
const HOT: &str = "El compresor, la línea de descarga y el condensador queman.";
const VOLTAGE: &str = "Los compresores eléctricos funcionan con tensiones peligrosas: solo personal formado.";
const STOPPED: &str = "Correas y ventiladores se mueven: motor o coche apagado antes de tocar. Los compresores eléctricos funcionan con \
                       tensiones peligrosas, que persisten después de apagar: solo personal formado.";
const FLAMMABLE: &str = "Lo que hay dentro puede ser inflamable: sin chispas, ventile el local y manténgalo aparte.";

/// The texts of a cause.
pub(super) const fn texts(id: CauseId) -> CauseTexts {
    match id {
        CauseId::NoFault => CauseTexts {
            name: "ninguna avería",
            shows: "todo dentro del rango de los coches sanos",
            why: "los coches difieren entre sí",
            against: "cualquier valor muy fuera del rango de los coches sanos",
            next: "nada en este circuito; repita en un día más caluroso si la queja continúa",
            caution: MOVING,
        },
        CauseId::Undercharge => CauseTexts {
            name: "carga insuficiente",
            shows: "primero ningún subenfriamiento, después sobrecalentamiento y rejilla caliente, después ambos lados bajos",
            why: "el depósito de líquido se vacía, llega vapor a la válvula y al evaporador le falta refrigerante",
            against: "subenfriamiento habitual: a la válvula le llega líquido",
            next: "busque la fuga; recupere, pese lo que sale, haga vacío y recargue por peso",
            caution: PRESSURE,
        },
        CauseId::Overcharge => CauseTexts {
            name: "carga excesiva",
            shows: "lado de alta y subenfriamiento altos",
            why: "el líquido se acumula en el condensador y deja menos superficie para condensar",
            against: "subenfriamiento habitual",
            next: "recupere, pese y recargue por peso",
            caution: PRESSURE,
        },
        CauseId::Air => CauseTexts {
            name: "aire en el circuito",
            shows: "lado de alta alto, subenfriamiento aparentemente alto, línea de descarga caliente",
            why: "el aire se acumula en el condensador y suma su presión a la del refrigerante",
            against: "igualado y frío, ambos manómetros en la saturación a temperatura ambiente",
            next: "compare la presión en reposo con la saturación; recupere, haga vacío y recargue por peso",
            caution: PRESSURE,
        },
        CauseId::CondenserAir => CauseTexts {
            name: "poco aire a través del condensador",
            shows: "lado de alta alto, y con él lado de baja y rejilla",
            why: "con menos aire el refrigerante tiene que condensar más caliente para ceder el mismo calor",
            against: "un lado de alta que no baja con más aire ni con agua sobre el condensador",
            next: "ventilador, mando del ventilador, aletas y todo lo que haya delante",
            caution: MOVING,
        },
        CauseId::EngineHeat => CauseTexts {
            name: "aire caliente delante del condensador",
            shows: "lado de alta y línea de líquido altos a la vez",
            why: "el condensador trabaja contra un aire que ya ha tomado calor del motor o del radiador",
            against: "una línea de líquido cerca del ambiente",
            next: "temperatura del motor, juntas y conductos alrededor del radiador, sentido de giro del ventilador",
            caution: MOVING,
        },
        CauseId::EvaporatorAir => CauseTexts {
            name: "poco aire a través del evaporador",
            shows: "lado de baja bajo, poco sobrecalentamiento, rejilla fría pero floja",
            why: "menos aire trae menos calor, y el evaporador hierve más frío",
            against: "un chorro fuerte en las rejillas",
            next: "ventilador interior, filtro del habitáculo, cara del evaporador, trampillas",
            caution: MOVING,
        },
        CauseId::Icing => CauseTexts {
            name: "evaporador helado",
            shows: "lado de baja muy bajo, aire flojo, primero frío y después caliente",
            why: "nada detiene el compresor en el punto de congelación, y el hielo cierra el paso al aire",
            against: "un lado de baja por encima del punto de congelación",
            next: "deje que se deshiele y observe; sonda, termostato o presostato que debería parar el compresor",
            caution: MOVING,
        },
        CauseId::CompressorWorn => CauseTexts {
            name: "compresor desgastado o con fuga interna",
            shows: "lado de baja alto, lado de alta bajo, línea de descarga caliente y rejilla caliente",
            why: "el gas retrocede y se comprime dos veces: pasa menos y sale más caliente",
            against: "lados muy separados",
            next: "descarte primero falta de carga, correa o embrague que patinan y la válvula de regulación; después, el compresor",
            caution: HOT,
        },
        CauseId::ControlHigh => CauseTexts {
            name: "compresor variable atascado en cilindrada máxima",
            shows: "lado de baja por debajo de su consigna en un día templado, rejilla cerca de la congelación",
            why: "nada sostiene el lado de baja",
            against: "un lado de baja en su consigna",
            next: "válvula de regulación y su señal, termostato o presostato de baja",
            caution: VOLTAGE,
        },
        CauseId::ControlLow => CauseTexts {
            name: "compresor variable atascado en cilindrada pequeña",
            shows: "lado de baja alto, lado de alta bajo, línea de descarga poco caliente",
            why: "se bombea poco, y lo que se bombea no se comprime dos veces",
            against: "una línea de descarga caliente: entonces el gas retrocede por dentro",
            next: "válvula de regulación y su señal; velocidad de un compresor eléctrico",
            caution: VOLTAGE,
        },
        CauseId::LiquidRestriction => CauseTexts {
            name: "obstrucción en la línea de líquido o en el filtro deshidratador",
            shows: "lado de baja y lado de alta bajos con líquido retenido en el condensador, mucho sobrecalentamiento",
            why: "el líquido se acumula antes de la obstrucción y detrás de ella al evaporador le falta refrigerante",
            against: "ningún subenfriamiento: entonces lo que falta es carga",
            next: "busque con la mano o el termómetro un salto de temperatura a lo largo de la línea de líquido; cambie la pieza y el filtro \
                   deshidratador",
            caution: PRESSURE,
        },
        CauseId::ExpansionClosed => CauseTexts {
            name: "dispositivo de expansión cerrado, obstruido o con el bulbo vacío",
            shows: "lado de baja muy bajo, mucho sobrecalentamiento, líquido retenido en el condensador",
            why: "por el dispositivo pasa demasiado poco",
            against: "un lado de baja que mantiene su consigna",
            next: "temperatura antes y después del dispositivo; cámbielo junto con el filtro deshidratador",
            caution: PRESSURE,
        },
        CauseId::Moisture => CauseTexts {
            name: "filtro deshidratador saturado, hielo en el dispositivo de expansión",
            shows: "va y viene: normal, y después un lado de baja que cae al vacío",
            why: "el agua se congela donde el refrigerante se enfría, cierra el paso, se deshiela y vuelve a congelarse",
            against: "la misma lectura hora tras hora",
            next: "déjelo parado diez minutos y lea otra vez; cambie el filtro deshidratador y haga un vacío largo",
            caution: PRESSURE,
        },
        CauseId::ExpansionOpen => CauseTexts {
            name: "válvula de expansión atascada abierta o bulbo suelto",
            shows: "lado de baja alto, ningún sobrecalentamiento, línea de aspiración fría y mojada",
            why: "pasa más líquido del que el evaporador puede hervir",
            against: "sobrecalentamiento habitual",
            next: "contacto y aislamiento del bulbo; después, la válvula",
            caution: PRESSURE,
        },
        CauseId::WrongOrifice => CauseTexts {
            name: "tubo de orificio de calibre equivocado",
            shows: "demasiado pequeño: subenfriamiento alto y lado de baja bajo; demasiado grande: ningún subenfriamiento",
            why: "el calibre decide cuánto pasa",
            against: "subenfriamiento habitual",
            next: "compare el tubo con la pieza del fabricante",
            caution: PRESSURE,
        },
        CauseId::SuctionRestriction => CauseTexts {
            name: "lado de aspiración obstruido o su válvula de servicio cerrada",
            shows: "lado de baja bajo en el compresor mientras el evaporador sigue caliente",
            why: "el compresor aspira por un paso estrecho",
            against: "un evaporador frío con ese lado de baja",
            next: "compare ambos extremos de la línea de aspiración; posición de las válvulas, interior de las mangueras",
            caution: PRESSURE,
        },
        CauseId::WrongRefrigerant => CauseTexts {
            name: "otro refrigerante que el de la etiqueta",
            shows: "presiones y temperaturas que no concuerdan, sobre todo en reposo",
            why: "cada refrigerante tiene su propia línea de saturación",
            against: "igualado, ambos manómetros en la saturación del refrigerante de la etiqueta",
            next: "identifique lo que hay dentro antes de recuperarlo: puede ser inflamable, y echa a perder aquello con lo que se mezcla",
            caution: FLAMMABLE,
        },
        CauseId::MixedRefrigerant => CauseTexts {
            name: "mezcla de refrigerantes",
            shows: "presiones entre las de dos refrigerantes, sobre todo en reposo; estimadas para una mezcla ideal",
            why: "se rellenó con otro refrigerante: cada uno aporta su parte de la presión",
            against: "igualado, ambos manómetros en la saturación del refrigerante de la etiqueta",
            next: "identifique lo que hay dentro antes de recuperarlo: una mezcla va a una botella propia, nunca a la estación de carga",
            caution: FLAMMABLE,
        },
        CauseId::WrongRefrigerantWithAir => CauseTexts {
            name: "otro refrigerante que el de la etiqueta, y además aire",
            shows: "en reposo, por encima de la saturación de cualquier refrigerante solo que encaje",
            why: "se llenó con latas sin hacer vacío",
            against: "igualado, ambos manómetros en la saturación de un solo refrigerante",
            next: "identifique lo que hay dentro antes de recuperarlo; después haga vacío y cargue por peso lo que pide la etiqueta",
            caution: FLAMMABLE,
        },
        CauseId::UnderchargeWithAir => CauseTexts {
            name: "carga insuficiente y además aire",
            shows: "un lado de alta que parece correcto, con sobrecalentamiento y rejilla caliente",
            why: "el aire sostiene el lado de alta mientras al evaporador le falta refrigerante: se rellenó sin hacer vacío",
            against: "igualado y frío, ambos manómetros en la saturación a temperatura ambiente",
            next: "presión en reposo; recupere, haga vacío y recargue por peso",
            caution: PRESSURE,
        },
        CauseId::UnderchargeBehindLittleAir => CauseTexts {
            name: "carga insuficiente y poco aire a través del condensador",
            shows: "un lado de alta que parece correcto, con sobrecalentamiento y rejilla caliente",
            why: "la falta de aire sostiene el lado de alta: un fabricante advierte de que una carga baja puede parecer completa",
            against: "todo el aire a través del condensador",
            next: "primero ventilador y aletas; después, pese la carga",
            caution: MOVING,
        },
        CauseId::DischargeRestriction => CauseTexts {
            name: "obstrucción en la línea de descarga o a la entrada del condensador",
            shows: "lado de alta alto en una toma situada antes, línea de líquido tan fresca como siempre, línea de descarga caliente, lado de \
                    baja casi normal",
            why: "el gas queda retenido en el manómetro mientras el condensador, detrás de la obstrucción, hace su trabajo habitual",
            against: "una línea de líquido tan caliente como pide el lado de alta; una toma detrás de la obstrucción no nota nada",
            next: "compare lado de alta y línea de líquido; busque un salto a lo largo del tubo, mire si hay dobleces o una manguera aplastada; \
                   cambie la pieza",
            caution: HOT,
        },
        CauseId::ReceiverRestriction => CauseTexts {
            name: "obstrucción a la salida del condensador o a la entrada del filtro deshidratador",
            shows: "en una toma situada antes, lado de alta y subenfriamiento altos; en una toma de la línea de líquido, lado de alta bajo; línea \
                    de líquido fresca, lado de baja casi normal, sin burbujas",
            why: "el depósito de líquido hierve a menor presión, y el líquido se acumula en el condensador hasta que se enfría otro tanto; a la \
                  válvula le sigue llegando líquido y abre más",
            against: "una línea de líquido tan caliente como pide el lado de alta; un lado de baja muy bajo con la mirilla limpia",
            next: "mire dónde está la toma de alta; palpe la parte baja del condensador, su salida y el filtro deshidratador: caliente donde \
                   condensa gas, fresco desde donde se acumula líquido; cambie la pieza y el filtro deshidratador",
            caution: PRESSURE,
        },
        CauseId::NotTurning => CauseTexts {
            name: "el compresor no gira",
            shows: "ambos manómetros iguales, cerca de la presión igualada",
            why: "no se bombea nada",
            against: "cualquier diferencia duradera entre los lados",
            next: "de correa: correa, entrehierro del embrague, tensión en la bobina, los presostatos que lo mantienen parado; eléctrico: la orden \
                   que recibe, memoria de averías, su alimentación de baja tensión, nunca una punta de prueba en cables naranjas",
            caution: STOPPED,
        },
        CauseId::Empty => CauseTexts {
            name: "circuito vacío o casi, con el compresor mantenido parado",
            shows: "ambos manómetros iguales, por debajo de la saturación a temperatura ambiente",
            why: "no queda líquido, y el presostato de baja no deja acoplar el embrague",
            against: "cualquier diferencia duradera entre los lados, o la presión de saturación",
            next: "no puentee nunca el presostato; recupere lo que quede, busque la fuga con nitrógeno, repare, haga vacío y cargue por peso",
            caution: PRESSURE,
        },
    }
}

/// As in English: a pressure drop this many times the usual one leaves next to nothing open; our choice.
const NEARLY_BLOCKED: f64 = 30.0;

/// The size of a fault.
pub(super) fn size(size: &FaultSizeRow) -> String {
    let (low, high) = (size.low, size.high);
    let share = |decimals| {
        let (low, high) = (NUMERALS.number(100.0 * low, decimals), NUMERALS.number(100.0 * high, decimals));
        format!("del {low} al {high} %")
    };
    let percent = share(0);
    match size.fault {
        Fault::Undercharge => format!("falta {percent} de la carga"),
        Fault::NearlyEmpty => format!("se ha perdido {percent} de la carga"),
        Fault::Overcharge => format!("sobra {percent} de la carga"),
        Fault::NonCondensables => format!("con una masa de aire {} de la carga", share(2)),
        Fault::CondenserAirflowLoss => format!("falta {percent} del aire del condensador"),
        Fault::HotCondenserAir => {
            format!("aire de {} K sobre el ambiente en el condensador", NUMERALS.range(low, high, 0))
        }
        Fault::EvaporatorAirflowLoss => format!("falta {percent} del aire del evaporador"),
        Fault::CompressorWorn => format!("se pierde {percent} del caudal del compresor"),
        Fault::StuckAtFullDisplacement => "siempre en cilindrada máxima".to_owned(),
        Fault::StuckAtLowDisplacement => format!("{percent} de la cilindrada máxima"),
        Fault::LiquidRestriction => format!("cerrado {percent} del paso"),
        Fault::ValveStuckOpen => format!("abierta {percent} en todo momento"),
        Fault::WrongBore => bore(low, high),
        Fault::SuctionBlocked | Fault::DischargeBlocked => restriction(low, high),
        Fault::ReceiverInletBlocked => {
            // kPa as 10^low
            let bar = |exponent: f64| 10f64.powf(exponent) / 100.0;
            format!(
                "ahí se pierden de {} bar al caudal para el que está hecho el condensador",
                NUMERALS.range(bar(low), bar(high), 2)
            )
        }
        Fault::WrongRefrigerant => "no es el de la etiqueta".to_owned(),
        Fault::MixedRefrigerant => "el de la etiqueta y otro".to_owned(),
    }
}

/// A restriction whose pressure drop over the usual one is 10^`low` to 10^`high`.
fn restriction(low: f64, high: f64) -> String {
    let (low, high) = (10f64.powf(low), 10f64.powf(high));
    let words = if high <= NEARLY_BLOCKED {
        "muy obstruido"
    } else if low >= NEARLY_BLOCKED {
        "casi cerrado"
    } else {
        "muy obstruido o casi cerrado"
    };
    words.to_owned()
}

/// A tube whose bore is off by the share `low` to `high`, below zero too small.
fn bore(low: f64, high: f64) -> String {
    let (low, high) = ((100.0 * low).round(), (100.0 * high).round());
    let by = |low, high| format!("entre un {} y un {} %", NUMERALS.number(low, 0), NUMERALS.number(high, 0));
    if high <= 0.0 {
        format!("tubo de orificio demasiado pequeño, {}", by(high.abs(), low.abs()))
    } else if low >= 0.0 {
        format!("tubo de orificio demasiado grande, {}", by(low, high))
    } else {
        format!(
            "entre un {} % demasiado pequeño y un {} % demasiado grande",
            NUMERALS.number(low.abs(), 0),
            NUMERALS.number(high, 0)
        )
    }
}
