// What the tests of pages share: a browser, a page in it without a network, and what axe-core finds on it.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

/** The packages that `check` installs. */
export const require = createRequire(`${process.env.SATLINE_WEB}/node/`);
const { chromium } = require("playwright-core");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

export function launched() {
    const args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
        "--disable-component-update", "--disable-sync"];
    return chromium.launch({ executablePath: process.env.SATLINE_BROWSER, args });
}

/** The page at `url` in a context of its own; `wrong` collects errors of scripts and requests that are none of the `allowed`. */
export async function opened(browser, url, allowed, options) {
    const context = await browser.newContext({ offline: true, ...options });
    const page = await context.newPage();
    page.setDefaultTimeout(20_000);
    page.wrong = [];
    page.on("pageerror", (error) => page.wrong.push(String(error)));
    page.on("console", (message) => message.type() === "error" && page.wrong.push(message.text()));
    page.on("request", (request) => allowed.test(request.url()) || page.wrong.push(request.url()));
    await page.goto(url);
    return page;
}

/** Findings of axe-core. */
export async function violations(page) {
    await page.evaluate(axe);
    return (await page.evaluate(() => globalThis.axe.run())).violations;
}

/** How far the page is wider than the screen: what is wide has to scroll by itself. */
export const overflow = (page) =>
    page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
