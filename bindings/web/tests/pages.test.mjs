// Every committed HTML page of the examples in a browser: on a telephone, a wide screen, dark, in forced colours and on paper.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath, pathToFileURL } from "node:url";

import { launched, opened as open, overflow, require, violations } from "./browser.mjs";

const { HtmlValidate, StaticConfigLoader } = require("html-validate");
const examples = resolve(fileURLToPath(import.meta.url), "../../../../examples");
const pages = readdirSync(examples, { recursive: true }).filter((name) => name.endsWith(".html")).sort()
    .map((name) => join(examples, name));

/** Screens on which a page is read; an A4 sheet less its margins has 718 pixels at 96 an inch. */
const SCREENS = {
    "a telephone": { viewport: { width: 360, height: 740 } },
    "a wide screen": { viewport: { width: 1280, height: 900 } },
    "the dark": { viewport: { width: 360, height: 740 }, colorScheme: "dark" },
    "forced colours": { viewport: { width: 1280, height: 900 }, forcedColors: "active" },
    "paper": { viewport: { width: 718, height: 1000 } },
};

let browser;
before(async () => {
    browser = await launched();
});
after(() => browser?.close());

/** A page in a context of its own; what it asks of any network, and what goes wrong in it, is collected. */
async function opened(file, screen) {
    const page = await open(browser, pathToFileURL(file).href, /^(file|data):/, SCREENS[screen]);
    if (screen === "paper") {
        await page.emulateMedia({ media: "print" });
    }
    return page;
}

/** Findings of axe-core from serious on. */
async function findings(page) {
    return (await violations(page)).filter(({ impact }) => ["serious", "critical"].includes(impact))
        .map(({ id, impact, nodes }) => `${id} (${impact}): ${nodes.map(({ html }) => html.slice(0, 160)).join(" ")}`);
}

test("there are pages to look at", () => assert.ok(pages.length > 0, examples));

for (const file of pages) {
    const name = relative(examples, file);

    test(`${name}: valid HTML`, async () => {
        const loader = new StaticConfigLoader({ extends: ["html-validate:recommended"] });
        const { results } = await new HtmlValidate(loader).validateString(readFileSync(file, "utf8"), name);
        const wrong = results.flatMap(({ messages }) => messages)
            .map(({ ruleId, message, line, column }) => `${line}:${column} ${ruleId}: ${message}`);
        assert.deepEqual(wrong, []);
    });

    for (const screen of Object.keys(SCREENS)) {
        test(`${name}: ${screen}`, async () => {
            const page = await opened(file, screen);
            assert.deepEqual(await findings(page), []);
            assert.equal(await overflow(page), 0);
            const answer = page.locator(".answer");
            assert.ok(await page.locator("h1").isVisible());
            for (const part of [answer, page.locator(".caution")]) {
                assert.ok(await part.count() === 0 || await part.first().isVisible());
            }
            assert.deepEqual(page.wrong, []);
            await page.context().close();
        });
    }

    test(`${name}: the first screen of a telephone, and the keyboard`, async () => {
        const page = await opened(file, "a telephone");
        // of a page that gives an answer: the conclusion with its mark, and the first thing to do
        if (await page.locator(".answer").count() > 0) {
            const { height } = page.viewportSize();
            const answer = await page.locator(".answer").evaluate((one) => {
                const { top, bottom } = one.getBoundingClientRect();
                return { top, bottom, text: one.textContent };
            });
            assert.ok(answer.top >= 0 && answer.bottom <= height, JSON.stringify(answer));
            if (await page.locator(".answer.good, .answer.bad, .answer.open").count() > 0) {
                assert.match(answer.text, /^[✓✗?] /);
                const step = await page.locator("section[aria-labelledby^='next'] li").first().boundingBox();
                assert.ok(step.y >= answer.bottom && step.y + step.height <= height, JSON.stringify(step));
            }
        }
        // what takes the focus does so in the order of the page, and shows it
        const expected = await page.evaluate(() => [...document.querySelectorAll("a[href], button, input, select, summary, [tabindex]")]
            .filter((one) => one.tabIndex >= 0 && one.checkVisibility() && !one.disabled).map((one, i) => (one.dataset.place = String(i))));
        const reached = [];
        for (let i = 0; i < expected.length; i += 1) {
            await page.keyboard.press("Tab");
            reached.push(await page.evaluate(() => document.activeElement.dataset.place));
            const outline = await page.evaluate(() => getComputedStyle(document.activeElement).outlineStyle);
            assert.notEqual(outline, "none", reached.at(-1));
        }
        assert.deepEqual(reached, expected);
        const levels = await page.evaluate(() => [...document.querySelectorAll("h1, h2, h3, h4")].map(({ tagName }) => Number(tagName[1])));
        assert.equal(levels[0], 1);
        assert.ok(levels.every((level, i) => i === 0 || (level > 1 && level - levels[i - 1] <= 1)), String(levels));
        assert.deepEqual(page.wrong, []);
        await page.context().close();
    });
}
