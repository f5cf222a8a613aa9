// The functions of satline in JavaScript: a module of WebAssembly that imports nothing, called with text and answering with text.

/** What satline refused: an input and why, or a question without an answer. */
export class Refused extends Error {
    constructor(refusal) {
        super(refusal.message);
        this.name = "Refused";
        this.code = refusal.code;
        this.input = refusal.input;
        this.questions = refusal.questions ?? [];
    }

    toJSON() {
        const { code, input, message, questions } = this;
        return questions.length > 0 ? { code, input, message, questions } : { code, input, message };
    }
}

/** One session: circuits simulated for one request are kept for the next under the same conditions. */
export class Satline {
    #module;
    #exports;

    constructor(module) {
        this.#module = module;
        this.#begin();
    }

    /** From the bytes of `satline.wasm`. */
    static async load(bytes) {
        return new Satline(await WebAssembly.compile(bytes));
    }

    /** The report on a request, as data. */
    report(request) {
        return JSON.parse(this.reportText(request));
    }

    /** The report as `cargo run --example read_gauges -- --json` prints it. */
    reportText(request) {
        return this.#call("report", request);
    }

    /** The page on a request, one HTML document: `{request, language, whole}`. */
    page(question) {
        return this.#call("page", question);
    }

    /** Saturation, superheat and subcooling. */
    properties(question) {
        return JSON.parse(this.#call("properties", question));
    }

    /** Names that a request may contain. */
    names() {
        return JSON.parse(this.#call("names", ""));
    }

    #begin() {
        this.#exports = new WebAssembly.Instance(this.#module, {}).exports;
    }

    #call(name, question) {
        const text = typeof question === "string" ? question : JSON.stringify(question);
        const bytes = new TextEncoder().encode(text);
        try {
            const { input, output, output_length, memory } = this.#exports;
            const place = input(bytes.length);
            new Uint8Array(memory.buffer, place, bytes.length).set(bytes);
            const refused = this.#exports[name]() !== 0;
            // the memory may have grown meanwhile, so that its buffer is another one
            const answer = new TextDecoder().decode(new Uint8Array(memory.buffer, output(), output_length()));
            if (!refused) {
                return answer;
            }
            throw new Refused(JSON.parse(answer));
        } catch (error) {
            if (error instanceof WebAssembly.RuntimeError) {
                // what it left behind is not to be relied on
                this.#begin();
            }
            throw error;
        }
    }
}
