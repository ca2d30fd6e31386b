// Pictures of the page in its states, to be looked at: `node look.mjs ADDRESS FOLDER`.
import { mkdir } from "node:fs/promises";
import { chromium } from "playwright-core";

const [address, folder] = process.argv.slice(2);
await mkdir(folder, { recursive: true });
const only = process.argv[4];
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
const shapes = { laptop: { width: 1366, height: 900 }, phone: { width: 390, height: 844 }, narrow: { width: 320, height: 640 }, wide: { width: 2200, height: 1200 } };

async function state(name, shape, act, settings = {}) {
  if (only && !`${name}-${shape}`.includes(only)) return;
  const context = await browser.newContext({ viewport: shapes[shape], deviceScaleFactor: 1, serviceWorkers: "block", ...settings });
  const page = await context.newPage();
  page.on("console", (m) => console.log(name, shape, m.type(), m.text()));
  page.on("pageerror", (e) => console.log(name, shape, "error", e.message, e.stack?.split("\n")[1]));
  await page.goto(address);
  await page.waitForSelector("html[data-ready]", { timeout: 20000 });
  await act(page);
  await page.screenshot({ path: `${folder}/${name}-${shape}.png`, fullPage: !settings.fold });
  if (settings.pdf) await page.pdf({ path: `${folder}/${name}.pdf`, format: settings.pdf, preferCSSPageSize: false });
  await context.close();
}

const place = async (page, tick) => {
  await page.getByRole("slider", { name: "Place in the dance" }).fill(String(tick));
};
const take = async (page, name) => { await page.getByRole("button", { name }).first().click(); await page.waitForTimeout(500); };

await state("start", "laptop", async () => {});
await state("start", "phone", async () => {});
await state("start", "narrow", async () => {});
await state("start", "wide", async () => {});
await state("dark", "laptop", async (p) => place(p, 24 * 30), { colorScheme: "dark" });
await state("jazzbox", "laptop", async (p) => place(p, 24 * 32), { fold: true });
await state("moving", "laptop", async (p) => { await place(p, 24 * 11); await p.getByLabel("Count in first").uncheck(); await p.getByRole("button", { name: "Play" }).click(); await p.waitForTimeout(500); await p.getByRole("button", { name: "Pause" }).click(); }, { fold: true });
await state("waltz", "laptop", async (p) => { await take(p, /Tidewatcher/); await place(p, 24 * 22); }, { fold: true });
await state("ropewalk", "phone", async (p) => { await take(p, /Ropewalk/); await place(p, 24 * 12 + 12); }, { fold: true });
await state("ropewalk-whole", "laptop", async (p) => { await take(p, /Ropewalk/); await p.getByLabel("Show", { exact: true }).selectOption("dance"); await p.getByLabel("Seen", { exact: true }).selectOption("mirrored"); await place(p, 24 * 27); }, { fold: true });
await state("slip", "laptop", async (p) => { await take(p, /with a slip/); await p.waitForTimeout(600); });
await state("slip", "phone", async (p) => { await take(p, /with a slip/); await p.waitForTimeout(600); await p.getByRole("heading", { name: /What the sheet/ }).scrollIntoViewIfNeeded(); }, { fold: true });
await state("key", "laptop", async (p) => { await p.getByText("How to read the prints").click(); await p.waitForTimeout(300); });
await state("empty", "laptop", async (p) => { await take(p, "Start empty"); });
await state("question", "laptop", async (p) => { await p.getByRole("textbox", { name: "The step sheet" }).click(); await p.keyboard.type("My own dance\n"); await take(p, /Ropewalk/); await p.waitForTimeout(300); }, { fold: true });
await state("print", "laptop", async () => {}, { pdf: "A4" });
await browser.close();
