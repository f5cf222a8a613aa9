// The page in a browser, as a person uses it: opened as a file, without a network.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";

import { launched, opened as open, overflow, violations } from "./browser.mjs";

const web = process.env.SATLINE_WEB;
const file = pathToFileURL(`${web}/satline.html`).href;

let browser;
before(async () => {
    browser = await launched();
});
after(() => browser?.close());

/** A page of its own, on which errors of scripts and requests to any network are collected. */
async function opened(options) {
    const page = await open(browser, file, /^(file|blob|data):/, { viewport: { width: 1000, height: 900 }, ...options });
    await page.locator("#refrigerant option[value='R-134a']").waitFor({ state: "attached" });
    return page;
}

const headline = (page, pattern) => page.locator("#headline").filter({ hasText: pattern }).waitFor();
const text = (page, selector) => page.locator(selector).innerText();

/** Serious findings of axe-core; every one counts. */
async function findings(page) {
    const found = await violations(page);
    return found.map(({ id, impact, nodes }) => `${id} (${impact}): ${nodes.map(({ html }) => html).join(" ")}`);
}

async function picture(page, name, fullPage = true) {
    await page.screenshot({ path: `${web}/pictures/${name}.png`, fullPage });
}

test("values are typed, and the answer appears and changes", async () => {
    const page = await opened();
    await headline(page, "Choose the refrigerant");
    await page.selectOption("#refrigerant", "R-134a");
    await page.fill("#ambient", "86 °F");
    await page.fill("#low-side", "32 psi");
    await page.fill("#high-side", "185 psi");
    await page.locator("#report tbody th", { hasText: "high side" }).waitFor();
    await headline(page, /look healthy/);
    const before = await text(page, "#report");
    assert.match(before, /low side\s+32\.0\s±\s\d\.\d psi/);
    assert.match(before, /goggles and gloves/);
    // less in it
    await page.fill("#low-side", "12 psi");
    await page.fill("#high-side", "110 psi");
    await headline(page, /^✗ Something is wrong: low side, high side/);
    const after = await text(page, "#report");
    assert.match(after, /\d+\s%: charge too low/);
    assert.notEqual(after, before);
    assert.equal(await page.locator("#report").getByText("numbers are invented").count(), 0);
    // the kind of circuit narrows what it is compared with
    await page.selectOption("#compressor", "cycling");
    await page.selectOption("#expansion", "orifice-tube");
    await page.waitForFunction((old) => document.getElementById("report").innerText !== old, after);
    await page.getByText("Seen, heard, felt").click();
    const narrowed = await text(page, "#report");
    await page.selectOption("#seen-bubbles", "found");
    await page.waitForFunction((old) => document.getElementById("report").innerText !== old, narrowed);
    assert.deepEqual(page.wrong, []);
});

test("a refusal stands beside the field it is about, and goes with it", async () => {
    const page = await opened();
    await page.selectOption("#refrigerant", "R-134a");
    await page.fill("#low-side", "32");
    await headline(page, /^No answer: .*has no unit/);
    assert.match(await text(page, "#low-side-wrong"), /"32" has no unit/);
    assert.equal(await page.getAttribute("#low-side", "aria-invalid"), "true");
    assert.equal(await page.getAttribute("#low-side", "aria-describedby"), "low-side-wrong");
    assert.deepEqual(await findings(page), []);
    await picture(page, "refused");
    await page.fill("#low-side", "32 psi");
    await page.locator("#low-side-wrong").waitFor({ state: "detached" });
    assert.equal(await page.getAttribute("#low-side", "aria-invalid"), null);
    // a value typed in the unit of another country is asked about
    await page.fill("#low-side", "220 psi");
    await page.locator("#low-side-wrong").filter({ hasText: "220 kPa" }).waitFor();
    assert.deepEqual(page.wrong, []);
});

test("the worked example in both languages", async () => {
    const page = await opened();
    await page.click("#example");
    await headline(page, /^✗ Something is wrong/);
    assert.match(await text(page, "#report"), /Worked example: the numbers are invented/);
    for (const name of ["Engine off, and weighed", "Seen, heard, felt"]) {
        await page.getByText(name).click();
    }
    assert.deepEqual(await findings(page), []);
    await picture(page, "wide");
    await page.check("#whole");
    await page.locator("#report .fine").first().waitFor();
    assert.deepEqual(await findings(page), []);
    await page.uncheck("#whole");
    await page.selectOption("#language", "spanish");
    await headline(page, /^✗ Algo/);
    assert.equal(await page.getAttribute("html", "lang"), "es");
    assert.match(await text(page, "#report"), /guantes/);
    assert.match(await text(page, "label[for='low-side']"), /Manómetro de baja/);
    // no word of the form is left in English
    const untranslated = await page.evaluate(() => worded.filter(({ dataset }) => !(dataset.word in SPANISH)).map(({ dataset }) => dataset.word));
    assert.deepEqual(untranslated, []);
    const unnamed = await page.evaluate(() => [...form.querySelectorAll("select[data-seen]")].map(({ dataset }) => dataset.seen)
        .filter((id) => !ENGLISH.seen[id] || !SPANISH.seen[id]));
    assert.deepEqual(unnamed, []);
    await picture(page, "spanish");
    assert.deepEqual(await findings(page), []);
    await page.click("button[type='reset']");
    await headline(page, "Elija el refrigerante");
    assert.deepEqual(page.wrong, []);
});

test("a telephone of 360 pixels, light and dark", async () => {
    for (const colorScheme of ["light", "dark"]) {
        const page = await opened({ viewport: { width: 360, height: 740 }, colorScheme });
        await page.click("#example");
        await headline(page, /^✗ Something is wrong/);
        assert.equal(await overflow(page), 0);
        assert.deepEqual(await findings(page), []);
        await picture(page, `narrow-${colorScheme}`);
        for (const name of ["Engine off, and weighed", "Seen, heard, felt"]) {
            await page.getByText(name).click();
        }
        await page.selectOption("#language", "spanish");
        await page.check("#whole");
        await page.locator("#report .fine").first().waitFor();
        await headline(page, /^✗ Algo/);
        assert.equal(await overflow(page), 0);
        assert.deepEqual(await findings(page), []);
        await picture(page, `narrow-whole-${colorScheme}`);
    }
});

test("forced colours and paper", async () => {
    const page = await opened({ forcedColors: "active" });
    await page.click("#example");
    await headline(page, /^✗ Something is wrong/);
    await picture(page, "forced-colours");
    await page.emulateMedia({ media: "print", forcedColors: "none" });
    assert.equal(await page.locator("#form").isVisible(), false);
    assert.equal(await page.locator("#headline").isVisible(), true);
    assert.match(await text(page, ".caution"), /goggles and gloves/);
    await page.setViewportSize({ width: 718, height: 1000 }); // A4 less its margins at 96 pixels an inch
    await picture(page, "print");
});

test("the keyboard alone, headings in order, the answer read aloud", async () => {
    const page = await opened();
    await page.focus("#refrigerant");
    await page.keyboard.type("R-134a");
    const order = [];
    for (let i = 0; i < 11; i += 1) {
        await page.keyboard.press("Tab");
        order.push(await page.evaluate(() => document.activeElement.id));
    }
    assert.deepEqual(order, ["compressor", "expansion", "ambient", "humidity", "altitude", "low-side", "high-side", "vent",
        "suction-line", "liquid-line", "discharge-line"]);
    const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
    assert.notEqual(outline, "none");
    await page.keyboard.type("70 °C");
    await page.focus("#ambient");
    await page.keyboard.type("30 °C");
    await page.keyboard.press("Enter");
    await page.locator("#report h3").first().waitFor();
    // axe takes a placeholder for a name
    const unlabelled = await page.evaluate(() => [...form.elements].filter((one) => one.labels?.length === 0 && one.matches("input, select")).map(({ id }) => id));
    assert.deepEqual(unlabelled, []);
    const levels = await page.evaluate(() => [...document.querySelectorAll("h1, h2, h3, h4")].map(({ tagName }) => Number(tagName[1])));
    assert.equal(levels[0], 1);
    assert.ok(levels.every((level, i) => i === 0 || (level > 1 && level - levels[i - 1] <= 1)), String(levels));
    assert.equal(await page.getAttribute("#headline", "role"), "status");
});
