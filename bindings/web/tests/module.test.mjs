// The module in Node, against the pages of the Rust example and the cases of satline-json.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import { Refused, Satline } from "../satline.mjs";

const read = (path) => readFileSync(new URL(path, import.meta.url), "utf8");
const cases = (name) => JSON.parse(read(`../../json/tests/${name}.json`));
const request = (name) => read(`../../json/tests/requests/${name}.json`);
const bytes = readFileSync(`${process.env.SATLINE_WEB}/satline.wasm`);
const load = () => Satline.load(bytes);

test("a report is what the Rust example prints, byte for byte", async () => {
    const satline = await load();
    for (const name of ["demo", "low_side", "at_rest", "r744", "own"]) {
        const printed = read(`../../../examples/read_gauges/${name}.json`);
        assert.ok(satline.reportText(request(name)) === printed, `${name} differs`);
    }
    assert.equal(satline.report(request("demo")).advice.leading[0].causes[0], "undercharge");
});

test("a page is written in both languages, with its cautions", async () => {
    const satline = await load();
    const demo = JSON.parse(request("demo"));
    for (const [language, caution] of [["english", "goggles and gloves"], ["spanish", "guantes"]]) {
        const page = satline.page({ request: demo, language });
        assert.match(page, /<p class="answer bad">✗ /);
        assert.ok(page.includes(caution), language);
    }
});

test("properties are those of the scalar functions of Rust", async () => {
    const satline = await load();
    // the logarithms and exponentials of the two machines differ in their last places; relative
    const allowed = 1e-12;
    const all = cases("properties");
    assert.ok(all.length >= 8, "cases were lost");
    for (const { question, answer } of all) {
        const given = satline.properties(question);
        assert.deepEqual(Object.keys(given).sort(), Object.keys(answer).sort());
        for (const [name, value] of Object.entries(answer)) {
            if (typeof value === "number") {
                // a superheat is the difference of two temperatures, and as far off as they are
                const size = name.endsWith("_k") ? 300 : Math.abs(value);
                assert.ok(Math.abs(given[name] - value) <= allowed * size, `${name}: ${given[name]}, Rust ${value}`);
            } else {
                assert.equal(given[name], value);
            }
        }
    }
});

test("what is refused comes back with code, input and message", async () => {
    const satline = await load();
    const all = cases("refusals");
    assert.ok(all.length >= 44, "cases were lost");
    for (const { request, code, input } of all) {
        const question = typeof request === "string" ? request : JSON.stringify(request);
        assert.throws(() => satline.report(question), (error) => {
            assert.ok(error instanceof Refused, `${question}: ${error}`);
            const { message, ...rest } = error.toJSON();
            delete rest.questions;
            assert.deepEqual(rest, { code, input }, question);
            return message.length > 0;
        });
    }
});

test("junk is refused and breaks nothing", async () => {
    const satline = await load();
    // xorshift, so that a failure comes again
    let state = 2463534242;
    const random = (below) => {
        state ^= state << 13;
        state ^= state >>> 17;
        state ^= state << 5;
        return (state >>> 0) % below;
    };
    const demo = request("demo");
    const answered = satline.reportText(demo);
    const pieces = ["{", "}", "[", "]", "\"", ",", ":", "null", "-1e999", "\"refrigerant\"", "R-134a", "\\ud800", "\u0000", "𝔸", "°F", "9".repeat(40)];
    const calls = ["report", "page", "properties"];
    for (let i = 0; i < 3000; i += 1) {
        let junk = demo;
        for (let cuts = 1 + random(4); cuts > 0; cuts -= 1) {
            const at = random(junk.length + 1);
            junk = junk.slice(0, at) + pieces[random(pieces.length)] + junk.slice(at + random(9));
        }
        const call = calls[random(calls.length)];
        // what still is a request is answered; that takes long, and is tested elsewhere
        if (call === "report" && !junk.includes("\"R-134a\"")) continue;
        try {
            satline[call](junk);
        } catch (error) {
            assert.ok(error instanceof Refused, `${call} of ${JSON.stringify(junk)}: ${error}`);
        }
    }
    // text of every kind where a value is expected
    const fields = ["ambient", "humidity", "altitude", "barometer", "recovered", "nominal_charge", "low_scale", "healthy", "equalised_temperature"];
    const measurands = satline.names().measurands;
    const parts = ["-", "−", "1", "0", "9e307", "1e-320", "nan", "inf", ",", ".", " ", "psi", "°F", "%", "inHg", "\u202e", "\ud83d", "\n", "x".repeat(5000)];
    const value = () => Array.from({ length: 1 + random(5) }, () => parts[random(parts.length)]).join("");
    for (let i = 0; i < 3000; i += 1) {
        const question = { refrigerant: random(20) > 0 ? "R-134a" : value(), values: { [measurands[random(measurands.length)]]: value() } };
        question[fields[random(fields.length)]] = value();
        try {
            satline.report(question);
        } catch (error) {
            assert.ok(error instanceof Refused, `${JSON.stringify(question)}: ${error}`);
        }
    }
    assert.equal(satline.reportText(demo), answered);
});

test("names are offered to a form", async () => {
    const names = (await load()).names();
    assert.ok(names.refrigerants.includes("R-1234yf") && names.observations.includes("bubbles"));
});

test("the first answer comes at once, and the next under the same conditions sooner", async () => {
    const begin = performance.now();
    const satline = await load();
    satline.reportText(request("demo"));
    const first = performance.now() - begin;
    const again = performance.now();
    satline.reportText(request("demo"));
    const second = performance.now() - again;
    console.log(`module ${bytes.length} bytes; first answer after ${first.toFixed(0)} ms, the next after ${second.toFixed(0)} ms`);
    // a shared machine times nothing exactly; these only notice what went wrong altogether
    assert.ok(first < 10_000 && second < first);
});
