// What all checks of the page share: the browser, fresh pages, and the few acts that a visitor repeats.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

export const address = process.argv[2];
const only = process.argv[3];
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });

export const SHAPES = { laptop: { width: 1366, height: 900 }, phone: { width: 390, height: 844 }, narrow: { width: 320, height: 640 } };
export const DEMOS = { lantern: /^Lantern on Pier Five/, waltz: /^Tidewatcher/, ropewalk: /^Ropewalk/, slip: /with a slip/ };
let number = 0;
let failed = 0;

/**
 * One check on a fresh page. Nothing may be written to the console, and nothing asked of another host. `before`
 * runs on the page ahead of its own scripts, `ahead` gets the page before it is opened.
 */
export async function check(sentence, shape, act, { hash = "", before, ahead, ...settings } = {}) {
  const name = `${sentence} (${shape})`;
  if (only && !name.includes(only)) return;
  const context = await browser.newContext({ viewport: SHAPES[shape], acceptDownloads: true, ...settings });
  const page = await context.newPage();
  if (before) await page.addInitScript(before);
  await ahead?.(page);
  const heard = [];
  page.on("console", (message) => heard.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => heard.push(`error: ${error.stack}`));
  page.on("request", (request) => {
    if (!request.url().startsWith(address) && !/^(blob|data):/.test(request.url())) heard.push(`asked for ${request.url()}`);
  });
  try {
    await page.goto(address + hash);
    await ready(page);
    await act(page, context);
    assert.deepEqual(heard, [], "the console is silent and nobody else is asked");
    number += 1;
    console.log(`ok ${number} - ${name}`);
  } catch (error) {
    failed += 1;
    await page.screenshot({ path: `../../target/page-failure-${failed}.png` }).catch(() => {});
    console.log(`not ok - ${name}\n${error.stack}${heard.length ? `\nheard: ${heard.join("\n")}` : ""}`);
  } finally {
    await context.close();
  }
}

/** Ends the run. */
export async function finish() {
  await browser.close();
  console.log(failed ? `${failed} checks of the page failed, ${number} passed.` : `${number} checks of the page passed.`);
  if (failed || !number) process.exitCode = 1;
}

export const ready = (page) => page.waitForSelector("html[data-ready=true]", { timeout: 60_000 });

/** Takes a demo dance off the shelf, which is a drawer on small screens. */
export async function take(page, dance) {
  const shelf = page.getByRole("navigation", { name: "Dances to try" });
  const button = shelf.getByRole("button", { name: DEMOS[dance] }).first();
  if (!(await button.isVisible())) await shelf.getByText("Dances to try", { exact: true }).click();
  await button.click();
}

export const slider = (page) => page.getByRole("slider", { name: "Place in the dance" });
export const go = (page, tick) => slider(page).fill(String(tick));
export const count = async (page) => (await slider(page).getAttribute("aria-valuetext")) ?? "";
export const sheet = (page) => page.getByRole("textbox", { name: "The step sheet" });

/** Opens what steers pace, look and sound, where it is shut. */
export async function drawer(page) {
  if (!(await page.getByLabel("Speed").isVisible())) await page.getByText("Pace, look and sound").click();
}

/** No violation of any rule of WCAG 2.2 up to AA, as far as a program can tell. */
export async function accessible(page, state) {
  await page.evaluate(`${axe};0`);
  const found = await page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const { violations } = await globalThis.axe.run(document, { runOnly: tags });
    return violations.map((v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.failureSummary}`).slice(0, 4).join(" | ")}`);
  });
  assert.deepEqual(found, [], `axe is content with ${state}`);
}
