// How soon the page shows feet and how evenly it plays: `node pace.mjs FOLDER`, where FOLDER is the built page.
// The phone is slowed as is usual for such figures: 1.6 Mbit/s, 150 ms there and back, a processor four times
// slower. Files travel in gzip, as static hosts send them. Times of a busy machine say little: look at the middle.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { gzipSync } from "node:zlib";
import { chromium } from "playwright-core";

const folder = process.argv[2];
const KINDS = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml", ".txt": "text/plain" };
const packed = new Map();
const server = createServer(async (request, response) => {
  const name = request.url === "/" ? "index.html" : request.url.slice(1).split("?")[0];
  try {
    if (!packed.has(name)) packed.set(name, gzipSync(await readFile(join(folder, name)), { level: 9 }));
    response.writeHead(200, { "content-type": KINDS[extname(name)] ?? "application/octet-stream", "content-encoding": "gzip" }).end(packed.get(name));
  } catch {
    response.writeHead(404).end();
  }
}).listen(0);
const address = `http://localhost:${server.address().port}/`;
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
const sorted = (all) => [...all].sort((a, b) => a - b);
const part = (all, share) => sorted(all)[Math.min(all.length - 1, Math.floor(all.length * share))];

async function visit({ slow }) {
  const context = await browser.newContext({ viewport: slow ? { width: 390, height: 844 } : { width: 1280, height: 800 }, serviceWorkers: "block" });
  const page = await context.newPage();
  const wire = await context.newCDPSession(page);
  await wire.send("Network.enable");
  if (slow) {
    await wire.send("Network.emulateNetworkConditions", { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 750e3 / 8 });
    await wire.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  }
  let bytes = 0;
  wire.on("Network.loadingFinished", (event) => { bytes += event.encodedDataLength; });
  await page.goto(address);
  await page.waitForSelector("html[data-ready=true]", { timeout: 120_000 });
  return { context, page, wire, bytes: () => bytes };
}

const times = [];
let weight = 0;
for (let i = 0; i < 5; i += 1) {
  const { context, page, bytes } = await visit({ slow: true });
  times.push(await page.evaluate(() => {
    const mark = (name) => performance.getEntriesByName(name)[0]?.startTime;
    return { paint: mark("first-contentful-paint"), feet: mark("first-footprints"), module: mark("all-there"), ready: performance.now() };
  }));
  weight = bytes();
  await context.close();
}
const line = (name) => sorted(times.map((t) => t[name])).map((n) => Math.round(n)).join(", ");
console.log(`slow phone, five visits, in ms:\n  first footprints  ${line("paint")} (with the first paint: they stand in the page)\n  they can be moved ${line("feet")}\n  module there      ${line("module")}\n  editor and all    ${line("ready")}\n  ${weight} bytes came over the wire`);

for (const slow of [false, true]) {
  const { context, page, wire } = await visit({ slow });
  await wire.send("Performance.enable");
  const spent = async () => Object.fromEntries((await wire.send("Performance.getMetrics")).metrics.map((m) => [m.name, m.value]));
  const before = await spent();
  const gaps = await page.evaluate(async () => {
    document.querySelector(".play").click();
    const all = [];
    const until = performance.now() + 10_000;
    for (let last = await new Promise(requestAnimationFrame); last < until;) {
      const now = await new Promise(requestAnimationFrame);
      all.push(now - last);
      last = now;
    }
    return all;
  });
  const after = await spent();
  const each = (name) => ((1000 * (after[name] - before[name])) / gaps.length).toFixed(2);
  console.log(`${slow ? "slow phone" : "laptop"}, ten seconds of play: ${gaps.length} pictures, ${part(gaps, 0.5).toFixed(1)} ms from one to the next, ${part(gaps, 0.95).toFixed(1)} ms for 95 of 100; ` +
    `work each: script ${each("ScriptDuration")}, style ${each("RecalcStyleDuration")}, layout ${each("LayoutDuration")}, all tasks ${each("TaskDuration")} ms`);
  await context.close();
}
await browser.close();
server.close();
