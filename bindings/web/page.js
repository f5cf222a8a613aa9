"use strict";
// The form and the answer. What is read and decided is the library's; here is only where it is shown.
const SPANISH = {
    title: "Qué dicen los manómetros",
    intro: "Escriba lo que se ha leído, cada valor con su unidad. Todo se calcula en este archivo; no se envía nada. Es un ejemplo de la biblioteca satline, no un producto.",
    readings: "Lecturas",
    example: "Rellenar con el ejemplo",
    clear: "Borrar",
    circuit: "Circuito",
    refrigerant: "Refrigerante de la etiqueta",
    choose: "elija",
    compressor: "Compresor",
    unknown: "no se sabe",
    cycling: "fijo, con embrague que cicla",
    internal: "variable, con regulación interna",
    external: "variable, con válvula de mando eléctrica",
    electric: "eléctrico, de alta tensión",
    expansion: "Dispositivo de expansión",
    thermostatic: "válvula de expansión termostática",
    orifice: "tubo de orificio",
    electronic: "válvula de expansión electrónica",
    day: "El día",
    ambient: "Ambiente, a la sombra delante del condensador",
    humidity: "Humedad relativa",
    altitude: "Altitud; vacío, nivel del mar",
    running: "Compresor en marcha, diez minutos al ralentí, ajuste más frío, ventilador interior al máximo, puertas abiertas",
    low: "Manómetro de baja",
    high: "Manómetro de alta",
    vent: "Rejilla central",
    suction: "Línea de aspiración",
    liquid: "Línea de líquido",
    discharge: "Línea de descarga, pinza puesta con el motor parado",
    more: "Con el motor parado, y pesado",
    off: "Motor parado hasta que todo esté frío, y carga recuperada",
    equalised: "Presión equilibrada, cualquier manómetro",
    recovered: "Carga recuperada y pesada",
    nominal: "Carga de la etiqueta",
    observations: "Visto, oído, notado",
    looked: "Qué se ha buscado",
    whole: "Página entera, con tablas impresas y todas las fuentes",
    answer: "Respuesta",
    start: "Elija el refrigerante y escriba un valor.",
    computing: "Calculando …",
    none: "Sin respuesta (mensajes en inglés)",
    broken: "Este navegador no puede ejecutar el cálculo",
    notLooked: "sin mirar",
    found: "sí",
    notFound: "mirado, no",
    seen: {
        "bubbles": "Burbujas en la mirilla",
        "cycles-often": "El embrague cicla cada pocos segundos",
        "step-on-liquid-line": "Salto de temperatura o escarcha en la línea de líquido",
        "frost-at-valve": "Escarcha en la entrada del dispositivo de expansión",
        "frost-on-suction": "Escarcha en la línea de aspiración junto al compresor",
        "evaporator-iced": "Evaporador helado",
        "comes-and-goes": "El frío se va y vuelve tras una pausa",
        "equalises-quickly": "Las presiones se igualan enseguida tras parar",
        "falls-at-stop": "El lado de alta cae de golpe al parar, luego despacio",
        "water-helps": "El lado de alta baja con agua sobre el condensador",
        "not-turning": "El compresor no gira o patina",
        "little-front-air": "Ventilador parado o poco aire por el condensador",
        "engine-hot": "El motor se calienta",
        "little-cabin-air": "Poco aire por las rejillas",
        "other-refrigerant": "Identificador, etiqueta o racor de otro refrigerante",
    },
};
const ENGLISH = {
    start: "Choose the refrigerant and type one value.",
    computing: "Computing …",
    none: "No answer",
    broken: "This browser cannot run the computation",
    notLooked: "not looked for",
    found: "yes",
    notFound: "looked for, no",
    seen: {
        "bubbles": "Bubbles in the sight glass",
        "cycles-often": "Clutch cycles every few seconds",
        "step-on-liquid-line": "Step in temperature, dew or frost along the liquid line",
        "frost-at-valve": "Frost or dew at the inlet of the expansion device",
        "frost-on-suction": "Frost on the suction line at the compressor",
        "evaporator-iced": "Evaporator iced up",
        "comes-and-goes": "Cooling stops, and returns after a pause",
        "equalises-quickly": "Pressures equal soon after the stop",
        "falls-at-stop": "High side falls at once at the stop, then slowly",
        "water-helps": "High side falls with water on the condenser",
        "not-turning": "Compressor does not turn, or slips",
        "little-front-air": "Fan stands still, or little air through the condenser",
        "engine-hot": "Engine runs hot",
        "little-cabin-air": "Little air from the vents",
        "other-refrigerant": "Identifier, label or fitting names another refrigerant",
    },
};
/** The worked example of the library: invented, no car was measured for it. */
const EXAMPLE = {
    "refrigerant": "R-134a", "low-side": "22 psi", "high-side": "160 psi", "suction-line": "72 °F", "liquid-line": "113 °F",
    "vent": "64 °F", "ambient": "86 °F", "humidity": "55 %", "altitude": "300 m",
};
/** Milliseconds without a key before the answer is asked for; our choice. */
const PAUSE = 500;

const element = (id) => document.getElementById(id);
const form = element("form");
const inputs = () => [...form.querySelectorAll("[data-input]")];
const worded = [...document.querySelectorAll("[data-word]")];
for (const one of worded) {
    ENGLISH[one.dataset.word] = one.textContent;
}
const words = () => (element("language").value === "spanish" ? SPANISH : ENGLISH);

const worker = new Worker(URL.createObjectURL(new Blob([element("worker").textContent], { type: "text/javascript" })));
let asked = 0;
let busy = false;
let waiting = false;
let timer;

worker.onerror = (event) => headline(`${words().broken}: ${event.message}`, "answer open");
worker.onmessage = ({ data }) => {
    if (data.names) {
        offer(data.names);
    } else if (data.broken) {
        headline(`${words().broken}: ${data.broken}`, "answer open");
    } else {
        busy = false;
        if (data.id === asked) {
            element("answer").removeAttribute("aria-busy");
            data.page ? show(data.page) : refuse(data.refusal);
        }
        if (waiting) {
            ask();
        }
    }
};
const bytes = Uint8Array.from(atob(element("module").textContent.trim()), (one) => one.charCodeAt(0));
worker.postMessage({ bytes }, [bytes.buffer]);

/** Fills the lists with the names that the library knows. */
function offer({ refrigerants, observations }) {
    for (const name of refrigerants) {
        element("refrigerant").add(new Option(name, name));
    }
    for (const id of observations) {
        const field = document.createElement("div");
        field.className = "field";
        const label = document.createElement("label");
        label.htmlFor = `seen-${id}`;
        label.dataset.seen = id;
        const select = document.createElement("select");
        select.id = `seen-${id}`;
        select.dataset.seen = id;
        for (const state of ["notLooked", "found", "notFound"]) {
            const option = new Option("", state === "notLooked" ? "" : state);
            option.dataset.state = state;
            select.add(option);
        }
        field.append(label, select);
        element("observations").append(field);
    }
    translate();
    ask();
}

/** Puts every word of the form into the chosen language. */
function translate() {
    document.documentElement.lang = words() === SPANISH ? "es" : "en";
    for (const one of worded) {
        one.textContent = words()[one.dataset.word];
    }
    document.title = words().title;
    for (const label of form.querySelectorAll("label[data-seen]")) {
        label.textContent = words().seen[label.dataset.seen] ?? label.dataset.seen;
    }
    for (const option of form.querySelectorAll("option[data-state]")) {
        option.textContent = words()[option.dataset.state];
    }
}

/** What was typed, as a request. */
function request() {
    const request = { values: {} };
    for (const { dataset, value } of inputs()) {
        const text = value.trim();
        if (text === "") {
            continue;
        }
        if (/^(low|high)-side$|-line$|^vent$|^equalised-pressure$/.test(dataset.input)) {
            request.values[dataset.input] = text;
        } else {
            request[dataset.input] = text;
        }
    }
    const seen = [...form.querySelectorAll("select[data-seen]")];
    request.found = seen.filter(({ value }) => value === "found").map(({ dataset }) => dataset.seen);
    request.not_found = seen.filter(({ value }) => value === "notFound").map(({ dataset }) => dataset.seen);
    request.invented = inputs().every(({ dataset, value }) => value === (EXAMPLE[dataset.input] ?? ""));
    return request;
}

/** Asks for the answer to what stands in the form now; one question at a time, the newest. */
function ask() {
    clearTimeout(timer);
    waiting = busy;
    if (busy) {
        return;
    }
    const question = request();
    asked += 1;
    if (!question.refrigerant || (Object.keys(question.values).length === 0 && !question.recovered)) {
        element("answer").removeAttribute("aria-busy");
        correct();
        element("report").replaceChildren();
        headline(words().start, "answer");
        return;
    }
    busy = true;
    element("answer").setAttribute("aria-busy", "true");
    if (element("report").childElementCount === 0) {
        headline(words().computing, "answer");
    }
    const whole = element("whole").checked;
    worker.postMessage({ id: asked, ask: { request: question, language: element("language").value, whole } });
}

function headline(text, look) {
    const place = element("headline");
    place.className = look;
    if (place.textContent !== text) {
        place.textContent = text;
    }
}

/** Shows the library's page below the form: its conclusion in the line that is read aloud, its headings one level down. */
function show(html) {
    correct();
    const page = new DOMParser().parseFromString(html, "text/html");
    const conclusion = page.querySelector("header .answer");
    headline(conclusion?.textContent ?? page.title, conclusion?.className ?? "answer");
    conclusion?.remove();
    for (const heading of page.querySelectorAll("h1, h2")) {
        const lower = page.createElement("h3");
        lower.append(...heading.childNodes);
        if (heading.id) {
            lower.id = heading.id;
        }
        heading.replaceWith(lower);
    }
    element("report").replaceChildren(...page.querySelector("main").childNodes);
}

/** Shows a refusal beside the input that it is about: the message, in English, and questions in the language of the page. */
function refuse({ input, message }) {
    correct();
    const lines = message.split("\n");
    element("report").replaceChildren();
    const field = inputs().find(({ dataset }) => dataset.input === input);
    if (field) {
        const wrong = document.createElement("p");
        wrong.className = "wrong";
        wrong.id = `${field.id}-wrong`;
        for (const text of lines) {
            const line = document.createElement("span");
            line.textContent = text;
            wrong.append(line);
        }
        wrong.firstChild.lang = "en";
        field.after(wrong);
        field.setAttribute("aria-invalid", "true");
        field.setAttribute("aria-describedby", wrong.id);
        field.closest("details")?.setAttribute("open", "");
    }
    headline(`${words().none}: ${field ? lines[0] : lines.join(" ")}`, "answer open");
}

/** Takes the refusals back. */
function correct() {
    for (const wrong of form.querySelectorAll(".wrong")) {
        wrong.remove();
    }
    for (const field of form.querySelectorAll("[aria-invalid]")) {
        field.removeAttribute("aria-invalid");
        field.removeAttribute("aria-describedby");
    }
}

form.addEventListener("submit", (event) => {
    event.preventDefault();
    ask();
});
form.addEventListener("input", () => {
    clearTimeout(timer);
    timer = setTimeout(ask, PAUSE);
});
form.addEventListener("change", ask);
form.addEventListener("reset", () => {
    const language = element("language").value;
    setTimeout(() => {
        element("language").value = language;
        ask();
    });
});
element("language").addEventListener("change", translate);
element("example").addEventListener("click", () => {
    for (const field of inputs()) {
        field.value = EXAMPLE[field.dataset.input] ?? "";
    }
    ask();
});
