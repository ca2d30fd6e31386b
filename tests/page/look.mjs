// Pictures of the page in its states, to be looked at: `node look.mjs ADDRESS FOLDER [PART OF A NAME]`. Long
// pages come in pieces, paper as PDF in A4 and Letter.
import { mkdir } from "node:fs/promises";
import { chromium } from "playwright-core";

const [address, folder, only = ""] = process.argv.slice(2);
await mkdir(folder, { recursive: true });
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
const SHAPES = { laptop: { width: 1280, height: 800 }, phone: { width: 390, height: 844 }, narrow: { width: 320, height: 640 }, wide: { width: 2200, height: 1200 } };
const PIECE = 1500;

async function state(name, shape, act = async () => {}, { full = false, pdf = false, ...settings } = {}) {
  if (!`${name}-${shape}`.includes(only)) return;
  const context = await browser.newContext({ viewport: SHAPES[shape], serviceWorkers: "block", ...settings });
  const page = await context.newPage();
  page.on("pageerror", (error) => console.log(name, shape, error.message));
  await page.goto(address);
  await page.waitForSelector("html[data-ready=true]", { timeout: 60_000 });
  await act(page);
  await page.waitForTimeout(300);
  const path = (ending) => `${folder}/${name}-${shape}${ending}`;
  if (full) {
    const height = await page.evaluate(() => document.documentElement.scrollHeight);
    for (let y = 0; y < height; y += PIECE) {
      const clip = { x: 0, y, width: SHAPES[shape].width, height: Math.min(PIECE, height - y) };
      await page.screenshot({ path: path(`-${y / PIECE}.png`), fullPage: true, clip });
    }
  } else {
    await page.screenshot({ path: path(".png") });
  }
  if (pdf) for (const format of ["A4", "Letter"]) await page.pdf({ path: path(`-${format}.pdf`), format });
  await context.close();
}

const top = (page) => page.evaluate(() => scrollTo(0, 0));
const place = async (page, tick) => {
  await page.getByRole("slider", { name: "Place in the dance" }).fill(String(tick));
  await top(page);
};
const take = async (page, name) => {
  const button = page.getByRole("navigation", { name: "Dances to try" }).getByRole("button", { name }).first();
  if (!(await button.isVisible())) await page.getByText("Dances to try", { exact: true }).last().click();
  await button.click();
  await page.waitForTimeout(900);
};

for (const shape of ["laptop", "phone", "narrow"]) {
  for (const colorScheme of ["light", "dark"]) {
    await state(`start-${colorScheme}`, shape, undefined, { colorScheme });
    await state(`all-${colorScheme}`, shape, undefined, { colorScheme, full: true });
    await state(`slip-${colorScheme}`, shape, (page) => take(page, /with a slip/), { colorScheme });
    await state(`jazz-box-${colorScheme}`, shape, (page) => place(page, 24 * 31), { colorScheme });
  }
  await state("waltz", shape, async (page) => { await take(page, /Tidewatcher/); await place(page, 24 * 22); });
  await state("ropewalk", shape, async (page) => { await take(page, /Ropewalk/); await place(page, 24 * 12 + 12); });
  await state("between", shape, (page) => place(page, 24 * 11 + 12));
  await state("shelf", shape, (page) => take(page, /^Lantern on Pier Five/));
  await state("empty", shape, async (page) => { await page.getByRole("button", { name: "Start empty" }).click(); await top(page); });
  await state("question", shape, async (page) => {
    await page.getByRole("textbox", { name: "The step sheet" }).click();
    await page.keyboard.type("My own dance\n");
    await take(page, /Ropewalk/);
  });
}
await state("start", "wide");
await state("key", "laptop", async (page) => {
  await page.getByText("How to read the prints").click();
  await page.getByText("How to read the prints").scrollIntoViewIfNeeded();
});
await state("in-place", "laptop", async (page) => {
  await take(page, /with a slip/);
  await page.locator(".fault.error").first().hover();
});
await state("mirror", "laptop", async (page) => {
  await take(page, /Ropewalk/);
  await page.getByLabel("Show", { exact: true }).selectOption("dance");
  await page.getByLabel("Seen", { exact: true }).selectOption("mirrored");
  await place(page, 24 * 27);
});
await state("paper", "laptop", undefined, { pdf: true });
await state("paper-ropewalk", "laptop", (page) => take(page, /Ropewalk/), { pdf: true });
await browser.close();
