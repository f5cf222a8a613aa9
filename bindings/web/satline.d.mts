// Types of satline.mjs. A value is text with its unit, as typed: "32 psi", "2.2 bar", "86 °F", "55 %".

/** Values by the ids of their measurands; `names().measurands` lists them. */
export type Values = Partial<Record<
    | "low-side" | "high-side" | "suction-line" | "evaporator-outlet" | "liquid-line" | "discharge-line" | "vent"
    | "clutch-duty-cycle" | "equalised-pressure", string>>;

export interface Settings {
    engine: "idle" | { rpm: number };
    /** Driving speed in km/h. */
    motion: "standing" | { driving: number };
    intake: "fresh" | "doors-open" | { "window-open": { minutes?: number } } | { shut: { minutes?: number } };
    /** Share of the highest, as text: "100 %". */
    blower: string;
}

/** What was read, and what is known of the circuit; a field of another name is refused. */
export interface Request {
    refrigerant: string;
    values?: Values;
    ambient?: string;
    humidity?: string;
    /** Sea level when neither this nor `barometer` is given. */
    altitude?: string;
    barometer?: string;
    equalised_temperature?: string;
    /** The engine is off: both gauges are compared with saturation. */
    at_rest?: boolean;
    settings?: Settings;
    /** Readings of the same circuit with other settings. */
    also?: { values: Values; settings: Settings }[];
    recovered?: string;
    nominal_charge?: string;
    found?: string[];
    not_found?: string[];
    compressor?: "cycling" | "internal" | "external" | "electric";
    expansion?: "thermostatic-valve" | "orifice-tube" | "electronic-valve";
    rear_evaporator?: boolean;
    service_ports?: Partial<Record<"low" | "high", "near-compressor" | "away-from-compressor">>;
    /** Rows of the maker's table: "30 °C: 190 to 240 kPa, 1300 to 1600 kPa". */
    baselines?: string[];
    instruments?: "analogue" | "digital";
    low_scale?: string;
    high_scale?: string;
    /** By name, or weights by the ids of causes. */
    prior?: "workshop" | "uniform" | Record<string, number>;
    healthy?: string;
    /** The report says that its numbers are invented. */
    invented?: boolean;
}

/** The report; `schema/satline-reading-6.json` describes all of it. */
export interface Report {
    schema: "satline-reading-6";
    refrigerant: string;
    state: "running" | "equalised";
    invented: boolean;
    advice: {
        headline: { id: string; [more: string]: unknown };
        stops: string[];
        next: { id: string; [more: string]: unknown }[];
        leading: { causes: string[]; probability: number; supporting: number[]; contradicting: number[] }[];
        [more: string]: unknown;
    };
    cautions: unknown[];
    [more: string]: unknown;
}

/** A number is one in SI units: Pa, K, m. */
export interface PropertiesQuestion {
    refrigerant: string;
    /** Pressure above that of the surrounding air. */
    gauge?: string | number;
    /** Pressure above vacuum. */
    absolute?: string | number;
    temperature?: string | number;
    barometer?: string | number;
    altitude?: string | number;
}

/** In SI units; what was not asked for or does not exist is left out. */
export interface Properties {
    refrigerant: string;
    absolute_pa?: number;
    temperature_k?: number;
    bubble_temperature_k?: number;
    dew_temperature_k?: number;
    bubble_pressure_pa?: number;
    dew_pressure_pa?: number;
    superheat_k?: number;
    subcooling_k?: number;
}

export type Language = "english" | "spanish";

export interface PageQuestion {
    request: Request;
    language?: Language;
    /** The whole page, with charts and sources; otherwise what fits on a screen. */
    whole?: boolean;
}

export interface Names {
    refrigerants: string[];
    measurands: string[];
    observations: string[];
}

export declare class Refused extends Error {
    /** Id of the kind of error, such as "unit-missing". */
    readonly code: string;
    /** Id of a measurand or name of a field; `null` if it is about no particular input. */
    readonly input: string | null;
    /** Questions about units that may explain it. */
    readonly questions: { id: string; [more: string]: unknown }[];
    toJSON(): { code: string; input: string | null; message: string; questions?: Refused["questions"] };
}

/** Every method takes an object or its JSON text, and throws `Refused`. */
export declare class Satline {
    constructor(module: WebAssembly.Module);
    static load(bytes: BufferSource): Promise<Satline>;
    report(request: Request | string): Report;
    reportText(request: Request | string): string;
    page(question: PageQuestion | string): string;
    properties(question: PropertiesQuestion | string): Properties;
    names(): Names;
}
