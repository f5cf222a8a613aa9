//! Sentences of a job sheet: what each step says, what is asked, safety cautions. What is printed on a label stands between « ».

use super::{NUMERALS, cm3, one};
use crate::quantity::PressureUnit;
use crate::report::job::{JobReport, Measurement, WindowGround, WindowName};
use crate::report::job_steps::oil_span;
use crate::report::job_tasks::{
    AdjustmentRow, AmountRow, DepartureRow, EvacuationRow, MakersRuleRow, OilActionRow, OilRuleRow, RuleRow, Standing,
    StepTask, SupplyRow, TargetDries, TenthRow, WaterRow, WindowNote, WorkRow,
};
use crate::report::words::pages::JobLabel;
use crate::report::{Amount, Span};
use crate::service::charge::TOLERANCE;
use crate::service::job::{CLUTCH_GAP_MM, Complaint, DEEP_VACUUM, HIDDEN_LEAK, JobCaution, JobQuestion, TURNS};
use crate::service::oil::compressor::{LITTLE, RECOVERED};
use crate::service::oil::kind::{CompressorDrive, FOREIGN_OIL, HIGH_VOLTAGE, OilFamily, OilKind, OilSuitability};
use crate::service::oil::part::ReplacedPart;
use crate::{GaugePressure, PressureDifference, Refrigerant};

/// A heading, or the head of a column.
pub(in crate::report) const fn label(label: JobLabel) -> &'static str {
    match label {
        JobLabel::Questions => "Pregunte antes de empezar",
        JobLabel::Steps => "Pasos",
        JobLabel::Windows => "Rangos para la lectura de hoy",
        JobLabel::What => "qué",
        JobLabel::Window => "rango",
        JobLabel::Basis => "base",
        JobLabel::Measure => "Qué medir",
        JobLabel::Safety => "Seguridad",
        JobLabel::Sources => "Fuentes (en el idioma de cada obra)",
    }
}

/// The unit that a vacuum is stated in, and its decimals.
pub(in crate::report) const fn vacuum_unit() -> (PressureUnit, u8) {
    (PressureUnit::Bar, 2)
}

/// What the sheet is about.
pub(in crate::report) fn opening(report: &JobReport) -> Vec<String> {
    let job = &report.opening;
    let drive = match job.drive {
        CompressorDrive::Belt => "compresor de correa",
        CompressorDrive::Electric => "compresor eléctrico",
    };
    let mut opening = vec![format!("Hoja de trabajo: {}, «{}», {drive}", report.refrigerant, job.charge)];
    if report.invented {
        opening.push("Ejemplo resuelto: los números son inventados, no se abrió ningún coche.".to_owned());
    }
    let label: Vec<String> =
        job.oil.iter().map(|oil| format!("aceite «{oil}»")).chain(job.oil_kind.map(oil_name)).collect();
    if !label.is_empty() {
        opening.push(format!("En la etiqueta: {}.", label.join(", ")));
    }
    let compressor = job.new_compressor.then_some("compresor").into_iter();
    let new: Vec<&str> = compressor.chain(job.parts.iter().map(|which| part(*which))).collect();
    if !new.is_empty() {
        opening.push(format!("Nuevo: {}.", new.join(", ")));
    }
    opening.push(complaint(job.complaint).to_owned());
    opening.push(
        "Los datos del fabricante van antes que todo lo de aquí. Donde no se dio ninguno, la hoja muestra el rango que indican otros \
         fabricantes, y lo dice: un rango sirve para juzgar un dato, no para echar aceite según él."
            .to_owned(),
    );
    opening
}

/// An oil by its family and grade.
fn oil_name(oil: OilKind) -> String {
    let family = match oil.family {
        OilFamily::Mineral => "aceite mineral",
        OilFamily::Pag => "PAG",
        OilFamily::PagYf => "PAG YF",
        OilFamily::Poe => "POE",
    };
    oil.grade().map_or(family.to_owned(), |grade| format!("{family} {grade}"))
}

const fn complaint(complaint: Complaint) -> &'static str {
    match complaint {
        Complaint::NoiseCoolsWell => "Queja del cliente: ruido; enfría bien.",
        Complaint::NoiseCoolsBadly => "Queja del cliente: ruido; enfría mal.",
        Complaint::CoolsBadly => "Queja del cliente: enfría mal.",
        Complaint::Leaks => "Queja del cliente: una fuga.",
        Complaint::NotSaid => "Queja del cliente: no indicada.",
    }
}

const fn part(part: ReplacedPart) -> &'static str {
    match part {
        ReplacedPart::Condenser => "condensador",
        ReplacedPart::Evaporator => "evaporador",
        ReplacedPart::ReceiverDrier => "filtro deshidratador",
        ReplacedPart::Accumulator => "acumulador",
        ReplacedPart::Line => "una manguera o un tubo",
        ReplacedPart::SuddenLoss => "aceite perdido de golpe con la carga",
        ReplacedPart::SlowLeak => "una unión que rezumaba, reparada",
    }
}

/// What only the maker or the bench can answer.
pub(in crate::report) fn question(question: &JobQuestion) -> String {
    match question {
        JobQuestion::CompressorRule => {
            "¿Qué regla indica el fabricante para el aceite en un compresor nuevo de este coche? Sin ella solo hay un rango.".to_owned()
        }
        JobQuestion::CompressorSupply => {
            "¿Cómo viene el compresor nuevo: lleno (¿con cuánto?), vaciado, seco o usado?".to_owned()
        }
        JobQuestion::Drained => {
            "¿Cuánto aceite salió del compresor viejo? Mídalo antes de llenar nada.".to_owned()
        }
        JobQuestion::PartFigure { part: which } => {
            format!("¿Cuánto aceite indica el fabricante para esto: {}?", part(*which))
        }
        JobQuestion::WhichOunce => {
            "¿Qué onza quiere decir la etiqueta: de peso, líquida de EE. UU. o líquida imperial?".to_owned()
        }
        JobQuestion::Contradiction => {
            "Los cm³ y las onzas de la etiqueta no concuerdan (abajo, en el aceite): ¿qué quiere decir el fabricante?".to_owned()
        }
        JobQuestion::OilKind => {
            "¿Qué aceite está impreso en el compresor o bajo el capó, y con qué grado?".to_owned()
        }
        JobQuestion::OilAmount => "¿Cuánto aceite lleva el circuito entero, según la etiqueta?".to_owned(),
        JobQuestion::OilUnsuited => {
            "El aceite indicado no sirve para este circuito (abajo, en el aceite): ¿se leyó bien la etiqueta?".to_owned()
        }
        JobQuestion::Ambient => {
            "¿A qué temperatura está el aire delante del condensador? Todos los rangos dependen de ella.".to_owned()
        }
    }
}

/// Safety caution at a step.
pub(in crate::report) fn caution(caution: JobCaution, refrigerant: Refrigerant) -> String {
    match caution {
        JobCaution::Frostbite => {
            "Gafas de protección y guantes: el líquido congela la piel y los ojos, y una línea puede guardar presión tras un manómetro a cero."
                .to_owned()
        }
        JobCaution::Asphyxiation => {
            "El vapor pesa más que el aire y lo desplaza: ventile el local y no trabaje sobre un foso.".to_owned()
        }
        JobCaution::CarbonDioxide => {
            "El dióxido de carbono daña con un pequeño porcentaje en el aire, mucho antes de asfixiar: ni en un local cerrado ni sobre un foso."
                .to_owned()
        }
        JobCaution::DryIce => {
            "Si se suelta deprisa se convierte en hielo seco, que tapa la manguera: no se ve presión, y vuelve. Despacio; después espere y mire \
             otra vez."
                .to_owned()
        }
        JobCaution::Flammable => {
            let class = refrigerant.fluid().safety_class.value;
            format!("{refrigerant} es inflamable ({class}): sin llamas, sin chispas, equipos hechos para él.")
        }
        JobCaution::Venting => "Dejarlo salir al aire es ilegal en muchos lugares.".to_owned(),
        JobCaution::HighVoltage => "La tensión mata. Solo para personal formado y autorizado.".to_owned(),
        JobCaution::VoltageInVacuum => {
            "No ponga nunca en marcha el compresor en vacío: ahí no tiene ni caudal de aceite ni aislamiento.".to_owned()
        }
        JobCaution::ForeignOil => format!(
            "Cerca de un {} % de otro aceite ya reduce el aislamiento del motor; algunos fabricantes exigen entonces cambiar todas las piezas \
             del circuito. Ni aceite ni colorante a través de una estación compartida.",
            NUMERALS.number(FOREIGN_OIL.value.percent(), 0)
        ),
        JobCaution::Moving => {
            "Manténgase lejos de correas y ventiladores; un ventilador puede arrancar solo. La línea de descarga quema.".to_owned()
        }
        JobCaution::CompressedAir => {
            "No pruebe nunca con aire comprimido: a presión puede arder con el refrigerante. Use nitrógeno seco o un gas trazador.".to_owned()
        }
        JobCaution::Backflow => {
            "No abra nunca la válvula de alta de una lata o botella hacia un circuito en marcha: el recipiente puede reventar.".to_owned()
        }
    }
}

/// What vouches for a figure.
pub(in crate::report) const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Measured => "medido",
        Standing::MakersFigure => "dato del fabricante, tal como se dio",
        Standing::MakersRule => "por la regla del fabricante, tal como se dio",
        Standing::PublishedRange => "rango publicado, no es dato de este fabricante",
        Standing::PrintedByOthers => "publicado por otros; el del fabricante va antes",
        Standing::Label => "carga nominal, etiqueta",
        Standing::LabelAsRead => "etiqueta, tal como se leyó",
        Standing::LabelVolumeAlone => "el volumen de la etiqueta; sus onzas no concuerdan",
        Standing::LabelAnyOunce => "todo lo que pueden significar las onzas de la etiqueta",
    }
}

/// The title of a step; `compressor` says whether the compressor is replaced.
pub(in crate::report) fn title(task: &StepTask, compressor: bool) -> String {
    match task {
        StepTask::ClutchFirst => "Antes de dar por malo el compresor: embrague, rodamiento, polea",
        StepTask::FindLeak => "Busque la fuga mientras haya refrigerante en el circuito",
        StepTask::MakeSafe => "Deje sin tensión el sistema de alta tensión",
        StepTask::OilReturn { .. } => "Retorno del aceite al compresor",
        StepTask::Recover => "Recuperar y pesar",
        StepTask::Open => "Abrir y tapar",
        StepTask::Drain { .. } => "Vaciar el compresor viejo y medir",
        StepTask::Drier { .. } if compressor => {
            "Filtro deshidratador, desecante o acumulador: cámbielo con el compresor"
        }
        StepTask::Drier { .. } => "Filtro deshidratador, desecante o acumulador: cámbielo con las piezas",
        StepTask::Rings => "Juntas tóricas: nuevas en cada unión que se abrió",
        StepTask::OilKind { .. } => "Qué aceite",
        StepTask::LabelOil { .. } => "Aceite del circuito entero, según la etiqueta",
        StepTask::PartOil { part: ReplacedPart::SuddenLoss, .. } => "Aceite por lo que se perdió de golpe",
        StepTask::PartOil { part: ReplacedPart::SlowLeak, .. } => "Aceite por la fuga que se reparó",
        StepTask::PartOil { part: ReplacedPart::Line, .. } => "Aceite por cada manguera o tubo nuevo",
        StepTask::PartOil { part: which, .. } => return format!("Aceite para la pieza nueva: {}", part(*which)),
        StepTask::RecoveredOil { .. } => "Aceite nuevo por el que salió con el refrigerante",
        StepTask::CompressorOil { .. } => "Aceite para el compresor",
        StepTask::WholeOil { .. } => "Aceite para el circuito entero",
        StepTask::TurnByHand => "Girar el compresor a mano",
        StepTask::Tighten => "Apretar",
        StepTask::Belt => "Correa",
        StepTask::PressureTest => "Si tenía fugas: prueba de presión con nitrógeno seco",
        StepTask::Evacuate { .. } => "Hacer vacío",
        StepTask::StandingVacuum { .. } => "Mantener el vacío",
        StepTask::Charge { .. } => "Cargar por peso",
        StepTask::LeakCheck { .. } => "Control de fugas con la carga dentro",
        StepTask::Read { .. } => "Tomar la lectura de hoy",
    }
    .to_owned()
}

fn sentences<const N: usize>(words: [&str; N]) -> Vec<String> {
    words.map(str::to_owned).to_vec()
}

pub(in crate::report) fn clutch_first() -> Vec<String> {
    vec![
        "Enfría bien, luego el compresor bombea. Compruebe embrague, rodamiento y polea antes de darlo por malo.".to_owned(),
        "El ruido con el embrague suelto y el motor en marcha viene del rodamiento de la polea o de la correa. El ruido solo con el embrague \
         acoplado viene del compresor, de sus soportes, del entrehierro del embrague o de líquido que le llega."
            .to_owned(),
        format!(
            "Con la correa quitada: la polea debe girar sin asperezas ni holgura. Entrehierro del embrague: los fabricantes dan valores entre {} y {} \
             mm; use el de este embrague.",
            NUMERALS.shortest(CLUTCH_GAP_MM.value.0),
            NUMERALS.shortest(CLUTCH_GAP_MM.value.1)
        ),
    ]
}

pub(in crate::report) fn find_leak() -> Vec<String> {
    sentences([
        "Aceite en una unión, colorante, un detector a lo largo de cada línea y en el desagüe del evaporador.",
        "Si queda demasiado poco refrigerante para eso, recupérelo y pruebe con nitrógeno seco desde un manorreductor, sin pasar de lo que \
         admite el fabricante: anote presión y temperatura, espere, y cuente una bajada solo después de corregirla por la temperatura.",
        "Repárela antes de cargar nada; la UE lo exige por ley (de memoria).",
    ])
}

pub(in crate::report) fn make_safe() -> Vec<String> {
    vec![
        format!(
            "Desconecte, bloquee contra reconexión, espere lo que indica el fabricante para los condensadores eléctricos y verifique la \
             ausencia de tensión con un comprobador que a su vez se haya verificado. Un compresor así trabaja de {} a {} V, según lo publicado \
             para uno de ellos.",
            NUMERALS.number(HIGH_VOLTAGE.value.0, 0),
            NUMERALS.number(HIGH_VOLTAGE.value.1, 0)
        ),
        "Sigue bloqueado hasta que el circuito esté cerrado, con el vacío hecho y cargado.".to_owned(),
    ]
}

pub(in crate::report) fn oil_return(at_least: &Amount) -> Vec<String> {
    vec![format!(
        "Solo si el compresor gira libre y nada ha fugado mucho: hágalo funcionar más de {} de 800 a 1000 rpm, con el ventilador interior \
         al máximo. El aceite vuelve a él, y lo que vacíe después dice más.",
        NUMERALS.plain(at_least)
    )]
}

pub(in crate::report) fn recover(refrigerant: Refrigerant, charge: &str) -> Vec<String> {
    let released = "En muchos lugares R-744 puede soltarse, al aire libre o por una extracción, despacio, como indica el fabricante; pese el \
                    recipiente o délo por perdido.";
    let released = (refrigerant == Refrigerant::R744).then(|| released.to_owned());
    let mut words = vec![
        format!(
            "Recupere con equipos hechos para {refrigerant}, y pese lo que sale: la carga nominal es «{charge}». Mucho menos significa una \
             fuga; busque uniones con aceite antes de limpiar nada."
        ),
        "Identifique lo que hay dentro antes de conectar la estación: un refrigerante equivocado o mezclado la contamina. En EE. UU. quien cobra \
         por esto necesita la certificación de la sección 609 y equipos homologados."
            .to_owned(),
        "Recoja el aceite que sale con él, déjelo reposar hasta que ya no haga espuma y anote cuánto.".to_owned(),
    ];
    words.extend(released);
    words
}

pub(in crate::report) fn open() -> Vec<String> {
    sentences([
        "Abra cada unión despacio y con la cara apartada, aunque los manómetros marquen cero. Dos llaves en cada unión.",
        "Tape enseguida cada abertura. Mantenga las piezas nuevas precintadas, y tan templadas como el local, hasta montarlas: una pieza fría \
         atrae humedad.",
    ])
}

pub(in crate::report) fn drain(drive: CompressorDrive, drained: Option<&Amount>, little: bool) -> Vec<String> {
    let turning = match drive {
        CompressorDrive::Belt => ", girando el eje o el cubo del embrague",
        CompressorDrive::Electric => "",
    };
    let mut words = vec![format!(
        "Por todas las bocas y por el tapón de vaciado{turning}. Mida en una probeta graduada, o pese el frasco antes y después. El aceite usado \
         no se vuelve a verter nunca."
    )];
    words.push(match drained {
        Some(oil) => format!("Medido: {}.", NUMERALS.amount(oil)),
        None => "Aún sin medir: de ello depende el aceite para el nuevo.".to_owned(),
    });
    if little {
        words.push(format!(
            "Es poco. Dos manuales toman menos de {} o {} cm³ como señal de que se perdió aceite, no como la cantidad correcta: averigüe por dónde \
             se fue.",
            NUMERALS.number(LITTLE.value.low.cm3(), 0),
            NUMERALS.number(LITTLE.value.high.cm3(), 0)
        ));
    }
    words.push("Metal o lodo negro en él: hay que limpiar el circuito, o el nuevo no durará.".to_owned());
    words
}

pub(in crate::report) fn drier(listed: bool, open_long: bool) -> Vec<String> {
    let mut words = sentences([if listed {
        "Está entre las piezas nuevas."
    } else {
        "No hay ninguno entre las piezas nuevas. Los proveedores exigen uno nuevo siempre que el circuito estuvo vacío o se cambió alguna pieza; \
         un fabricante, solo si estuvo abierto más de lo que dura la reparación o si entró humedad."
    }]);
    if open_long {
        words.push(
            "El circuito estuvo abierto durante días: Hyundai y Acura indican entonces un filtro deshidratador nuevo y horas de vacío."
                .to_owned(),
        );
    }
    words.push(
        "Quítele el precinto en último lugar, justo antes de montarlo: abierto, se llena pronto de humedad.".to_owned(),
    );
    words
}

pub(in crate::report) fn rings(refrigerant: Refrigerant) -> Vec<String> {
    let metal = "Las uniones de R-744 cierran con metal: cada junta se usa una sola vez, y el fabricante dice cuál (de memoria).";
    let metal = (refrigerant == Refrigerant::R744).then(|| metal.to_owned());
    let mut words = sentences([
        "Medida correcta, material correcto. Los fabricantes no coinciden en con qué mojarlas: los camiones GM y el Fiero piden aceite mineral de \
         viscosidad 525 y nada de PAG; Geo Tracker y Daewoo Leganza, el PAG limpio del circuito; Acura, unas gotas del aceite del circuito. Haga \
         lo que indica su fabricante.",
        "No empape las juntas recubiertas.",
    ]);
    words.extend(metal);
    words
}

pub(in crate::report) fn pressure_test() -> Vec<String> {
    sentences([
        "Nitrógeno seco a través de un regulador, nunca directamente de la botella, hasta la presión de prueba que indica el fabricante y nunca \
         por encima de la que soporta el lado de baja. Manómetros que no se mueven y jabón en cada unión encuentran lo que el vacío esconde.",
        "Suelte el nitrógeno antes de conectar la bomba. Sin regulador, sin la presión del fabricante o sin práctica: déjelo.",
    ])
}

pub(in crate::report) fn oil_kind(
    oil: Option<(OilKind, OilSuitability)>,
    drive: CompressorDrive,
    refrigerant: Refrigerant,
) -> Vec<String> {
    let circuit = match drive {
        CompressorDrive::Belt => format!("compresores de correa con {refrigerant}"),
        CompressorDrive::Electric => "compresores eléctricos de alta tensión".to_owned(),
    };
    let suits = oil.map_or("No indicado. Léalo en el compresor o bajo el capó; no lo adivine.".to_owned(), |oil| {
        suitability(oil.0, oil.1, &circuit)
    });
    let grade = match drive {
        CompressorDrive::Belt => {
            "El grado (46, 100, 150) depende del compresor, no del refrigerante. No mezcle nunca aceites."
        }
        CompressorDrive::Electric => {
            "Solo el aceite que nombra este fabricante, de un envase sin abrir. No mezcle nunca aceites."
        }
    };
    vec![suits, grade.to_owned(), "Mantenga cerrado el envase: PAG y POE absorben agua del aire.".to_owned()]
}

fn suitability(oil: OilKind, suitability: OilSuitability, circuit: &str) -> String {
    let oil = oil_name(oil);
    match suitability {
        OilSuitability::Usual => format!("{oil}: la familia que se publica para {circuit}."),
        OilSuitability::OnlyIfNamed => format!(
            "{oil}: no todos los fabricantes lo admiten para {circuit}. Solo si este fabricante lo nombra, incluso con el mismo grado."
        ),
        OilSuitability::Wrong => format!("{oil}: equivocado para {circuit}. Pare y lea otra vez la etiqueta."),
        OilSuitability::RuinsInsulation => format!(
            "{oil}: no para {circuit} salvo que este fabricante lo nombre; reduce el aislamiento. Pare y lea otra vez la etiqueta."
        ),
        OilSuitability::NothingFound => {
            format!("{oil}: no se encontró nada publicado sobre él para {circuit}. Decide la etiqueta.")
        }
    }
}

const fn reason(part: ReplacedPart) -> &'static str {
    match part {
        ReplacedPart::SuddenLoss => "Una carga que sale de golpe se lleva aceite.",
        ReplacedPart::SlowLeak => "Lo que rezuma pierde poco aceite.",
        ReplacedPart::Condenser
        | ReplacedPart::Evaporator
        | ReplacedPart::ReceiverDrier
        | ReplacedPart::Accumulator
        | ReplacedPart::Line => "La pieza vieja se fue con el aceite de sus paredes.",
    }
}

pub(in crate::report) fn makers_part_oil(part: ReplacedPart, range: &Span) -> String {
    format!("Añada {}. {}", cm3(range), reason(part))
}

pub(in crate::report) fn part_oil_in_compressor(range: &Span) -> String {
    format!("{}: ya contados en el compresor por la regla de este fabricante. No los añada otra vez.", cm3(range))
}

pub(in crate::report) fn published_part_oil(
    part: ReplacedPart,
    range: &Span,
    rows: &[AmountRow],
    on_top: Option<&Span>,
) -> Vec<String> {
    let mut words = vec![format!("Los manuales de taller indican {}. {}", cm3(range), reason(part))];
    words.extend(rows.iter().map(|row| {
        let works = row.works.iter().map(|work: &WorkRow| {
            let note = if work.remark.is_empty() { String::new() } else { format!(" («{}»)", work.remark) };
            format!("{}{note}", work.work)
        });
        format!("  {}: {}", cm3(&row.oil), works.collect::<Vec<_>>().join("; "))
    }));
    words.extend(
        on_top.map(|extra| {
            format!("Otros se guían por lo que salió de la vieja y añaden {}: vacíela y mida.", cm3(extra))
        }),
    );
    words
}

pub(in crate::report) fn unknown_part_oil(part: ReplacedPart) -> String {
    format!("No se encontró nada publicado. {}", reason(part))
}

pub(in crate::report) fn recovered_oil(recovered: Option<&Amount>, in_compressor: bool) -> String {
    match (recovered, in_compressor) {
        (Some(oil), true) => format!(
            "Con el refrigerante salieron {}: ya contados en el compresor por la regla de este fabricante.",
            one(oil)
        ),
        (Some(oil), false) => {
            format!("Con el refrigerante salieron {}: añada otro tanto de aceite nuevo.", one(oil))
        }
        (None, _) => format!(
            "Aún sin medir. Vuelve tanto aceite nuevo como salió con el refrigerante; un fabricante espera {}, otro solo cuenta más de media \
             onza.",
            cm3(&oil_span(&RECOVERED.value))
        ),
    }
}

pub(in crate::report) fn whole_oil(label: Option<&Span>) -> String {
    match label {
        Some(range) => format!(
            "Todo lavado o nuevo: no queda aceite viejo y entra la cantidad entera: {}; apunte al centro, {}. Cuente lo que el compresor nuevo ya \
             contiene.",
            cm3(range),
            one(&range.middle())
        ),
        None => "Todo lavado o nuevo: no queda aceite viejo y entra la cantidad entera de la etiqueta: léala en ella."
            .to_owned(),
    }
}

pub(in crate::report) fn label_is_a_check() -> String {
    "Es una comprobación: ninguna parte del circuito puede llevar más que todo él.".to_owned()
}

pub(in crate::report) fn circuit_holds(label: &Span) -> String {
    format!("Según la etiqueta, el circuito entero lleva {}.", cm3(label))
}

pub(in crate::report) fn compressor_not_drained() -> String {
    "Vacíe primero el viejo: todas las reglas publicadas menos una se guían por lo que salió de él.".to_owned()
}

/// A rule in a sentence without its head and end.
fn rule(rule: &OilRuleRow) -> String {
    match rule {
        OilRuleRow::Refill { floor, extra, extra_up_to } => {
            let mut words = "vacíe el nuevo y rellénelo con lo que salió del viejo".to_owned();
            if let Some(extra) = extra {
                words += &format!(" y {} más", one(extra));
            }
            if let Some(limit) = extra_up_to {
                words += &format!(" (hasta {} vaciados)", one(limit));
            }
            if let Some(floor) = floor {
                words += &format!("; por debajo de {} vaciados, con {}", one(&floor.below), one(&floor.instead));
            }
            words
        }
        OilRuleRow::Subtract { residual, floor } => {
            let mut words = "deje en el nuevo lo que salió del viejo".to_owned();
            if let Some(residual) = residual {
                words += &format!(" y {} que no se pueden vaciar", one(residual));
            }
            if let Some(floor) = floor {
                words += &format!("; por debajo de {} vaciados, cuente {}", one(&floor.below), one(&floor.instead));
            }
            words
        }
        OilRuleRow::Capped { cap } => {
            format!("saque lo que el nuevo contiene por encima de lo que salió del viejo, nunca más de {}", one(cap))
        }
    }
}

fn action(applied: &MakersRuleRow) -> String {
    match &applied.action {
        OilActionRow::Pour { oil, empty_first: true } => format!("Vacíe el nuevo y vierta después {}.", cm3(oil)),
        OilActionRow::Pour { oil, empty_first: false } => format!("Vierta {}.", cm3(oil)),
        OilActionRow::TakeOut { oil } => format!("Saque {} del nuevo; quedan dentro {}.", one(oil), cm3(&applied.left)),
        OilActionRow::AsItIs => format!("Móntelo como viene, con sus {}.", cm3(&applied.left)),
    }
}

fn departure(departure: &DepartureRow) -> String {
    match departure {
        DepartureRow::Floor { oil } => format!("Se vació tan poco que la regla toma {} en su lugar.", one(oil)),
        DepartureRow::Cap { oil } => format!("La resta sola daría {}; la regla se detiene antes.", one(oil)),
        DepartureRow::Short { oil } => format!(
            "Contiene {} menos de lo que pide la regla. Ninguna regla dice que se añadan: pregunte al fabricante antes de hacerlo.",
            one(oil)
        ),
    }
}

/// The maker's rule applied.
pub(in crate::report) fn makers_rule(applied: &MakersRuleRow) -> Vec<String> {
    let mut words = vec![format!("Por la regla dada: {}.", rule(&applied.rule))];
    match (&applied.rule, &applied.supply) {
        (OilRuleRow::Subtract { residual, .. }, SupplyRow::Filled { contents }) => words.push(format!(
            "{} en el nuevo − ({} vaciados + {} que no se pueden vaciar + {} por otras piezas + {} recuperados).",
            one(contents),
            one(&applied.counted),
            residual.as_ref().map_or_else(|| one(&Amount::new(0.0, None, "cm³", 0)), one),
            one(&applied.other_parts),
            one(&applied.recovered)
        )),
        (OilRuleRow::Capped { .. }, SupplyRow::Filled { contents }) => {
            words.push(format!("{} en el nuevo − {} vaciados.", one(contents), one(&applied.drained)));
        }
        (OilRuleRow::Refill { .. }, _) | (_, SupplyRow::Emptied | SupplyRow::Dry | SupplyRow::Used) => {}
    }
    words.push(action(applied));
    words.extend(applied.departure.as_ref().map(departure));
    if matches!(applied.supply, SupplyRow::Used) {
        words.push(
            "Es uno usado: vacíelo primero. Nadie sabe lo que queda en sus paredes; dos fabricantes lo estiman en 20 cm³, y por eso puede haber un \
             rango."
                .to_owned(),
        );
    }
    words
}

pub(in crate::report) fn published_rules(drained: Option<&Amount>, left: &Span, rows: &[RuleRow]) -> Vec<String> {
    let mut words = vec![format!(
        "No se dio ninguna regla de este fabricante. Con {}, las reglas que indican otros dejan {} en el compresor:",
        drained.map_or("lo vaciado".to_owned(), |oil| format!("{} vaciados", one(oil))),
        cm3(left)
    )];
    words.extend(rows.iter().map(|row| {
        let works = row.works.iter().map(|work: &WorkRow| {
            let scope = if work.remark.is_empty() { String::new() } else { format!(", «{}»", work.remark) };
            format!("{}{scope}", work.work)
        });
        format!("  {}: {} ({})", cm3(&row.left), rule(&row.rule), works.collect::<Vec<_>>().join("; "))
    }));
    words
}

pub(in crate::report) fn supply_unknown() -> String {
    "Averigüe cómo viene el nuevo antes de verter o sacar nada.".to_owned()
}

pub(in crate::report) fn comes_empty() -> String {
    "Viene vacío: lo que deba llevar hay que verterlo.".to_owned()
}

pub(in crate::report) fn comes_used() -> String {
    "Es uno usado: vacíelo primero. También cuenta lo que queda en sus paredes; dos fabricantes lo estiman en 20 cm³."
        .to_owned()
}

pub(in crate::report) fn comes_filled(contents: &Amount, adjustment: &AdjustmentRow) -> String {
    let by = match adjustment {
        AdjustmentRow::Out { oil } => format!("habría que sacar {}", cm3(oil)),
        AdjustmentRow::In { oil } => format!("habría que añadir {}", cm3(oil)),
        AdjustmentRow::Either { out, into } => {
            format!("es posible todo, desde sacar {} hasta añadir {}", one(out), one(into))
        }
    };
    format!("Viene con {}; según estas reglas {by}. Decide la regla del fabricante, no el centro.", one(contents))
}

pub(in crate::report) fn turn_by_hand() -> Vec<String> {
    vec![format!(
        "Unas {} vueltas a mano con el aceite dentro, antes de que correa o embrague lo hagan girar por primera vez: el aceite delante de un \
         pistón no se puede comprimir.",
        TURNS.value
    )]
}

pub(in crate::report) fn tighten() -> Vec<String> {
    sentences([
        "A los pares del fabricante, que se diferencian en varias veces para uniones de aspecto igual. Dos llaves. Con muy poco par fuga, y con demasiado \
         también.",
    ])
}

pub(in crate::report) fn belt() -> Vec<String> {
    sentences([
        "Recorrido y tensión según los datos del fabricante. Compruebe que la polea gira centrada y que la correa asienta en sus canales.",
    ])
}

pub(in crate::report) fn evacuate(vacuum: &EvacuationRow, open_long: bool) -> Vec<String> {
    let n = |value, decimals| NUMERALS.number(value, decimals);
    let gauge = [vacuum.gauge.high, vacuum.gauge.low].map(GaugePressure::from_inhg);
    let mut words = vec![
        format!(
            "Por debajo de {} mbar absolutos, mejor {}. Con el aire a {} hPa, el manómetro marca entonces {} bar, mejor {} ({} y {} inHg).",
            n(10.0 * vacuum.target.high, 0),
            n(10.0 * vacuum.target.low, 0),
            n(10.0 * vacuum.air.value, 0),
            n(gauge[0].bar(), 2),
            n(gauge[1].bar(), 2),
            n(gauge[0].inhg(), 1),
            n(gauge[1].inhg(), 1)
        ),
        format!(
            "Debería llegar ahí en {}; si no, busque una fuga, una válvula cerrada o una bomba floja. Haga funcionar la bomba al menos {}; \
             los manuales del ejército indican 90.",
            NUMERALS.plain(&vacuum.within),
            NUMERALS.plain(&vacuum.run)
        ),
    ];
    if open_long {
        words.push("El circuito estuvo abierto durante días: horas, no minutos.".to_owned());
    }
    words.extend(vacuum.water.as_ref().map(water_at_target));
    words.push(format!(
        "Un manómetro de servicio no puede mostrar si el circuito se seca. Un vacuómetro sí: en el oficio se buscan de {} a {} micras, y ninguna \
         publicación lo dice.",
        n(DEEP_VACUUM.value.low.microns(), 0),
        n(DEEP_VACUUM.value.high.microns(), 0)
    ));
    words
}

fn water_at_target(water: &WaterRow) -> String {
    let answer = match water.dries {
        TargetDries::Both => "ambas secan un circuito tan frío como el aire de hoy",
        TargetDries::BetterAlone => "solo la mejor seca un circuito tan frío como el aire de hoy",
        TargetDries::Neither => {
            "ninguna seca un circuito tan frío como el aire de hoy: caliéntelo, o baje más la presión"
        }
    };
    format!(
        "El agua hierve a {} a la primera presión y a {} a la mejor: {answer}.",
        NUMERALS.plain(&water.first),
        NUMERALS.plain(&water.better)
    )
}

pub(in crate::report) fn standing_vacuum(hold: &Amount, rise: &Amount) -> Vec<String> {
    vec![
        format!(
            "Aísle la bomba y observe el manómetro durante {}: puede subir como mucho {} mbar ({} inHg).",
            NUMERALS.plain(hold),
            NUMERALS.number(10.0 * rise.value, 0),
            NUMERALS.number(PressureDifference::from_kpa(rise.value).inhg(), 1)
        ),
        "Una subida que se aplana es humedad, o refrigerante que sale del aceite: haga vacío otra vez. Una subida que continúa es una fuga \
         (práctica habitual)."
            .to_owned(),
        format!(
            "Pasar la prueba no demuestra que sea estanco: en un circuito de 2,5 L, una subida de 1 inHg en 5 min esconde una fuga de unas {} veces \
             los 14 g al año que un detector encuentra en su escala menos sensible.",
            // as many digits as the comparison is worth
            NUMERALS.number((HIDDEN_LEAK.value / 100.0).round() * 100.0, 0)
        ),
    ]
}

pub(in crate::report) fn charge(
    nominal: &Amount,
    tolerance: Option<&Amount>,
    hose: Option<&Span>,
    refrigerant: Refrigerant,
) -> Vec<String> {
    let grams = |grams: f64| NUMERALS.number(grams, 0);
    let nominal = nominal.value;
    let by_scale = match tolerance {
        Some(by) => {
            format!("{} g con la báscula, dentro de los ±{} impresos.", grams(nominal), NUMERALS.plain(by))
        }
        None => format!(
            "{} g con la báscula. No hay tolerancia impresa; ±{} g suele darse por tolerable.",
            grams(nominal),
            grams(TOLERANCE.value.g())
        ),
    };
    let hose = match (hose, refrigerant) {
        (Some(holdup), _) => format!(
            "Lo que retiene la manguera a temperatura ambiente: {} g como vapor, {} g como líquido. Vacíe la manguera hacia el coche y envíe {} g; \
             si queda llena de líquido, envíe {} g.",
            grams(holdup.low),
            grams(holdup.high),
            grams(nominal + holdup.low),
            grams(nominal + holdup.high)
        ),
        (None, Refrigerant::R134a | Refrigerant::R1234yf) => {
            "Añada lo que retiene la manguera, o vacíela hacia el coche: un metro de 4,8 mm de diámetro interior retiene unos 20 g de líquido."
                .to_owned()
        }
        (None, _) => "Añada lo que retiene la manguera, o vacíela hacia el coche.".to_owned(),
    };
    vec![
        by_scale,
        hose,
        "Nunca solo por presión: la presión dice que hay algo de líquido, no cuánto. No rellene nunca una cantidad desconocida: recupere, pese y \
         cargue de nuevo."
            .to_owned(),
        "Nada de líquido en el lado de aspiración de un compresor en marcha. Cargue por encima de 21 °C (70 °F).".to_owned(),
    ]
}

pub(in crate::report) fn leak_check(
    standard: Option<&str>,
    scales: &[Amount],
    allowed: Option<&Amount>,
    tenth: &[TenthRow],
) -> Vec<String> {
    let where_to = "Detector en cada unión que se tocó, en las tomas de servicio y en el desagüe del evaporador.";
    let mut words = vec![match standard {
        Some(standard) => {
            let scales: Vec<String> = scales.iter().map(|leak| NUMERALS.number(leak.value, 0)).collect();
            format!("{where_to} Escalas de {standard}: {} g al año.", scales.join(", "))
        }
        None => format!("{where_to} No se encontró ninguna norma para los detectores de este refrigerante."),
    }];
    words.extend(tenth.last().map(|TenthRow { leak, takes }| {
        let (rate, months) = (leak.value, takes.value);
        format!(
            "Una fuga de {} g al año se lleva la décima parte de esta carga en {} meses.",
            NUMERALS.number(rate, 0),
            NUMERALS.number(months, 0)
        )
    }));
    words.extend(allowed.map(|allowed| {
        format!(
            "La homologación de tipo de la UE admite {} g al año en un coche nuevo con un evaporador para estos refrigerantes.",
            NUMERALS.number(allowed.value, 0)
        )
    }));
    words.push("Vuelva a poner los tapones en las tomas: son los que sellan.".to_owned());
    words
}

pub(in crate::report) fn read() -> Vec<String> {
    sentences([
        "Primero con el motor parado y frío; después, tras diez minutos de marcha con el ajuste más frío y el ventilador interior al máximo.",
    ])
}

/// What the reading is set against.
pub(in crate::report) const fn window_note(note: WindowNote) -> &'static str {
    match note {
        WindowNote::NoAmbient => "Sin la temperatura ambiente no hay rango con el que compararla.",
        WindowNote::NoneCovers => {
            "Ningún rango cubre este día y este refrigerante: queda la comprobación con el motor parado."
        }
        WindowNote::CarriedOver => {
            "Compárela con los rangos de abajo; las tablas de R-134a están trasladadas a igual temperatura de saturación."
        }
        WindowNote::Below => "Compárela con los rangos de abajo.",
    }
}

/// The name of a window.
pub(in crate::report) const fn window(name: WindowName) -> &'static str {
    match name {
        WindowName::LowSide => "lado de baja",
        WindowName::HighSide => "lado de alta",
        WindowName::Superheat => "sobrecalentamiento",
        WindowName::Subcooling => "subenfriamiento",
        WindowName::CondensingOverAmbient => "condensación–ambiente",
        WindowName::Vent => "rejilla",
    }
}

/// What a window rests on.
pub(in crate::report) fn ground(ground: &WindowGround) -> String {
    match ground {
        WindowGround::Circuits { circuits } => {
            format!("{} coches sanos calculados", NUMERALS.number(*circuits as f64, 0))
        }
        WindowGround::Charts { charts, carried_over } => {
            let print =
                if *charts == 1 { "1 tabla publicada".to_owned() } else { format!("{charts} tablas publicadas") };
            match carried_over {
                0 => print,
                all if all == charts => format!("{print} de R-134a"),
                _ => format!("{print}, la mayoría de R-134a"),
            }
        }
        WindowGround::RuleOfThumb => "práctica habitual, sin fuente".to_owned(),
    }
}

/// What to measure.
pub(in crate::report) const fn measurement(measurement: Measurement) -> &'static str {
    match measurement {
        Measurement::EqualisedCarbonDioxide => {
            "Motor parado y frío: ambos manómetros iguales; hasta 30 °C alrededor del coche, en la saturación. Con más calor no la hay, y la presión \
             indica solo la carga."
        }
        Measurement::Equalised => {
            "Motor parado y frío: ambos manómetros iguales, y en la saturación para el aire que los rodea. Por encima: aire u otro refrigerante."
        }
        Measurement::Running => {
            "En marcha: lado de baja, lado de alta, temperatura ambiente a la sombra delante del condensador, humedad, rejilla central."
        }
        Measurement::Lines => {
            "Termómetros de pinza en la línea de aspiración junto al evaporador y en la línea de líquido después del condensador."
        }
        Measurement::Noise => "Escuche: embrague suelto, embrague acoplado.",
        Measurement::OilAfterAWeek => "Al cabo de una semana: mire otra vez si hay aceite en cada unión.",
    }
}
