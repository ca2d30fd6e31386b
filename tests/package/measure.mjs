// What calls cost: `node measure.mjs`, after `cargo xtask package`. Native and browser in the same run.
import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { openBrowser, openPage, program, room, root, serve, sheets } from "./room.mjs";

const folder = room("measure");
const all = sheets();
const counts = program("trace", ...all.map(({ file }) => file)).trimEnd().split("\n").map((line) => JSON.parse(line).counts);
const largest = all.toSorted((a, b) => b.text.length - a.text.length)[0];
const usual = all.filter((_, index) => counts[index] === 64).toSorted((a, b) => a.text.length - b.text.length);
const sheet = usual[Math.floor(usual.length / 2)];

const native = (file) => JSON.parse(execFileSync("cargo", ["run", "--quiet", "--release", "--example", "check_time", "--", file], { cwd: root, encoding: "utf8" }));

const place = join(folder, "site");
mkdirSync(place, { recursive: true });
writeFileSync(join(place, "index.html"), "<!doctype html><title>Measure</title><link rel=\"icon\" href=\"icon.svg\"><script type=\"module\" src=\"main.js\"></script>");
writeFileSync(join(place, "icon.svg"), "");
writeFileSync(join(place, "main.js"), `
  const started = performance.now();
  const halfcount = await import("/halfcount/index.js");
  await halfcount.init();
  const ready = performance.now() - started;
  const sheets = ${JSON.stringify({ sheet: sheet.text, largest: largest.text })};
  halfcount.check(sheets.sheet);
  const first = performance.now() - started;
  // Two calls at a time, because a page's clock is coarse; the quickest, because the others were disturbed; and not
  // before the browser had the time to make good code.
  const time = (run) => {
    let best = Infinity;
    const end = performance.now() + 6000;
    while (performance.now() < end) {
      const begun = performance.now();
      run();
      run();
      best = Math.min(best, (performance.now() - begun) / 2);
    }
    return best;
  };
  window.done = { ready, first, sheet: time(() => halfcount.check(sheets.sheet)), largest: time(() => halfcount.check(sheets.largest)) };
`);
const server = await serve({ "/": place, "/halfcount/": join(folder, "node_modules/halfcount") });
const browser = await openBrowser();
const { page } = await openPage(browser, server.address);
await page.waitForFunction(() => window.done, null, { timeout: 300_000 });
const done = await page.evaluate(() => window.done);
await browser.close();
await server.close();

const [own, most] = [native(sheet.file), native(largest.file)];
const ms = (value) => `${value.toFixed(value < 10 ? 1 : 0)} ms`;
console.log(`import to ready ${ms(done.ready)}, to the first answer ${ms(done.first)}`);
console.log(`native: first check ${ms(own.first / 1000)}`);
for (const [name, [file, browserTime, nativeTime]] of Object.entries({ "64 counts": [sheet.file, done.sheet, own.check], largest: [largest.file, done.largest, most.check] })) {
  console.log(`check, ${name} (${file}): browser ${ms(browserTime)}, native ${ms(nativeTime / 1000)}, ${(browserTime / (nativeTime / 1000)).toFixed(1)} times`);
}

// What each call costs is counted in time of the processor, which does not depend on what else the machine does.
writeFileSync(join(folder, "costs.mjs"), `
  import * as halfcount from "halfcount";
  halfcount.initSync();
  const text = ${JSON.stringify(sheet.text)};
  const costs = {};
  for (const name of ["check", "trace", "frames", "frameNumbers", "score", "draw", "drawSections", "call", "steps", "tidy", "figures"]) {
    costs[name] = Infinity;
    const end = Date.now() + 4000;
    while (Date.now() < end) {
      const before = process.cpuUsage();
      name === "figures" ? halfcount.figures() : halfcount[name](text);
      const { user, system } = process.cpuUsage(before);
      costs[name] = Math.min(costs[name], (user + system) / 1000);
    }
  }
  console.log(JSON.stringify(costs));
`);
const costs = JSON.parse(execFileSync("node", ["--single-threaded", "costs.mjs"], { cwd: folder, encoding: "utf8" }));
console.log("\n| call | time of the processor |\n| --- | ---: |");
for (const [name, value] of Object.entries(costs)) console.log(`| \`${name}\` | ${ms(value)} |`);
