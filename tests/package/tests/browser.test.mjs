// The archive in a browser: bare pages, workers, two bundlers, the add-ons, and the worked example, all under a
// strict policy and without a word on the console.
import assert from "node:assert/strict";
import { cpSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import test, { after, before } from "node:test";

import { SLIP, here, openBrowser, openPage, room, root, serve } from "../room.mjs";

const folder = room("browser");
const installed = join(folder, "node_modules/halfcount");
let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser.close());

/** A page with one script. */
function site(name, script) {
  const place = join(folder, name);
  mkdirSync(place, { recursive: true });
  const page = `<!doctype html><html lang="en"><meta charset="utf-8"><title>${name}</title><link rel="icon" href="icon.svg"><main><h1>${name}</h1></main><script type="module" src="main.js"></script></html>`;
  writeFileSync(join(place, "index.html"), page);
  writeFileSync(join(place, "icon.svg"), "<svg xmlns=\"http://www.w3.org/2000/svg\"/>");
  if (script) writeFileSync(join(place, "main.js"), script);
  return place;
}

/** Opens a site, waits for `window.done`, and gives it back. */
async function run(folders, given) {
  const server = await serve(folders, given);
  const { page, complaints } = await openPage(browser, `${server.address}/`);
  try {
    await page.waitForFunction(() => window.done !== undefined, null, { timeout: 30_000 });
  } catch {
    assert.fail(`nothing was done: ${complaints.join("; ")}`);
  }
  const done = await page.evaluate(() => window.done);
  return { page, done, complaints, close: async () => { await page.close(); await server.close(); } };
}

const USE = (from) => `
  import init, { check, trace } from "${from}";
  const started = performance.now();
  await Promise.all([init(), init()]);
  await init();
  const report = check(${JSON.stringify(`💃 ${SLIP}`)});
  window.done = { rule: report.findings[0].rule, start: report.findings[0].start, trace: trace(${JSON.stringify(SLIP)}).sections[0].trace, ms: performance.now() - started };
`;
const expect = (done) => {
  assert.equal(done.rule, "weight-not-free");
  assert.equal(`💃 ${SLIP}`.slice(done.start).trim(), "step L forward");
  assert.equal(done.trace, "1R 2- 3L 4L");
};

test("a bare page under a strict policy", async () => {
  const place = site("bare", USE("/halfcount/index.js"));
  const { done, complaints, close } = await run({ "/": place, "/halfcount/": installed });
  expect(done);
  assert.deepEqual(complaints, []);
  await close();
});

test("a server that does not know the type of the file", async () => {
  const place = site("untyped", USE("/halfcount/index.js"));
  const types = { ".html": "text/html", ".js": "text/javascript", ".svg": "image/svg+xml" };
  const { done, complaints, close } = await run({ "/": place, "/halfcount/": installed }, { types });
  expect(done);
  assert.deepEqual(complaints, []);
  await close();
});

test("a start that fails, in a page, and the one after it", async () => {
  const place = site("failing", `
    import { init, check, HalfcountError } from "/halfcount/index.js";
    const codes = [];
    for (const source of ["/halfcount/README.md", new Uint8Array(9)]) await init(source).catch((error) => codes.push(error.code, error instanceof HalfcountError));
    await init(new Request("/halfcount/halfcount.wasm"));
    window.done = { codes, errors: check(${JSON.stringify(SLIP)}).errors };
  `);
  const { done, complaints, close } = await run({ "/": place, "/halfcount/": installed });
  assert.deepEqual(done, { codes: ["not-loaded", true, "not-loaded", true], errors: 1 });
  assert.deepEqual(complaints, []);
  await close();
});

test("a module worker, with the same functions, the same errors and only the newest call", async () => {
  const place = site("worker", `
    import { init, check, call, frameNumbers } from "/halfcount/index.js";
    import { openWorker } from "/halfcount/worker.js";
    await init();
    const text = ${JSON.stringify(SLIP)};
    const worker = await openWorker();
    const same = JSON.stringify(await worker.check(text)) === JSON.stringify(check(text));
    const numbers = (await worker.frameNumbers(text)).numbers instanceof Float64Array;
    const bytes = (await worker.call(text, { format: "midi" })).length === call(text, { format: "midi" }).length;
    const code = await worker.check(text, { alow: [] }).catch((error) => error.code);
    const unsent = await worker.check(text, { file: () => {} }).catch((error) => error.code);
    const names = Object.keys(worker).sort().join();
    worker.close();
    const closed = await worker.check(text).catch((error) => error.code);
    const eager = await openWorker({ newest: true, source: "/halfcount/halfcount.wasm" });
    const all = await Promise.allSettled(["a", "b", "c", "d"].map((file) => eager.check(text, { file })));
    const newest = all.map((one) => one.value?.file ?? one.reason.code).join();
    eager.close();
    const lost = await openWorker({ source: "/nowhere.wasm" }).catch((error) => error.code);
    window.done = { same, numbers, bytes, code, unsent, names, closed, newest, lost };
  `);
  const { done, complaints, close } = await run({ "/": place, "/halfcount/": installed });
  assert.deepEqual(done, {
    same: true, numbers: true, bytes: true, code: "option-unknown", unsent: "option-wrong",
    names: "call,check,close,draw,drawSections,figures,frameNumbers,frames,score,steps,tidy,trace",
    closed: "closed", newest: "a,dropped,dropped,d", lost: "not-loaded",
  });
  assert.deepEqual(complaints.filter((one) => !/404|nowhere/.test(one)), []);
  await close();
});

test("esbuild", async () => {
  const { build } = await import("esbuild");
  const place = site("esbuild");
  writeFileSync(join(folder, "esbuild.js"), `import address from "halfcount/halfcount.wasm";\n${USE("halfcount").replaceAll("init()", "init(new URL(address, import.meta.url))")}`);
  await build({ entryPoints: [join(folder, "esbuild.js")], outfile: join(place, "main.js"), bundle: true, format: "esm", minify: true, loader: { ".wasm": "file" }, logLevel: "error" });
  const { done, complaints, close } = await run({ "/": place });
  expect(done);
  assert.deepEqual(complaints, []);
  await close();

  // Importing does nothing, so an import that is not used leaves nothing.
  writeFileSync(join(folder, "unused.js"), "import { check } from \"halfcount\";\nimport \"halfcount/editor\";\nimport \"halfcount/element\";\nimport \"halfcount/worker\";\n");
  const shaken = await build({ entryPoints: [join(folder, "unused.js")], bundle: true, format: "esm", minify: true, write: false, logLevel: "error" });
  assert.ok(shaken.outputFiles[0].contents.length < 40, shaken.outputFiles[0].text.slice(0, 200));
});

test("Vite, with a worker", async () => {
  const { build } = await import("vite");
  const source = site("vite-source", `
    import { openWorker } from "halfcount/worker";
    ${USE("halfcount").replace("window.done =", "const found =")}
    const worker = await openWorker();
    window.done = { ...found, errors: (await worker.check(${JSON.stringify(SLIP)})).errors };
    worker.close();
  `);
  const out = join(folder, "vite");
  await build({ root: source, logLevel: "error", build: { outDir: out, emptyOutDir: true, target: "es2022", modulePreload: { polyfill: false }, assetsInlineLimit: 0 } });
  assert.equal(readdirSync(join(out, "assets")).filter((name) => name.endsWith(".wasm")).length, 1, "one module, not two");
  const { done, complaints, close } = await run({ "/": out });
  expect(done);
  assert.equal(done.errors, 1);
  assert.deepEqual(complaints, []);
  await close();
});

test("CodeMirror shows findings, leaves the line being typed alone, and mends", async () => {
  const { build } = await import("esbuild");
  const place = site("editor");
  const mendable = readFileSync(join(here, "mendable.txt"), "utf8");
  writeFileSync(join(folder, "editor.js"), `
    import { EditorView } from "@codemirror/view";
    import { forEachDiagnostic, linter } from "@codemirror/lint";
    import { init, check } from "halfcount";
    import { caretMoved, diagnostics, lintSource } from "halfcount/editor";
    await init(new URL("/halfcount/halfcount.wasm", location));
    const view = new EditorView({
      doc: ${JSON.stringify(`💃 ${mendable}`)},
      parent: document.querySelector("main"),
      extensions: [linter(lintSource(check), { delay: 20, needsRefresh: caretMoved }), EditorView.contentAttributes.of({ "aria-label": "Step sheet" })],
    });
    const shown = () => { const all = []; forEachDiagnostic(view.state, (d, from, to) => all.push({ ...d, from, to })); return all; };
    const settle = (fits) => new Promise((done) => { const look = () => (fits(shown()) ? done(shown()) : setTimeout(look, 20)); look(); });
    const [first] = await settle((all) => all.length > 0);
    const words = view.state.sliceDoc(first.from, first.to);
    view.focus();
    view.dispatch({ selection: { anchor: first.from } });
    await settle((all) => all.length === 0);
    view.dispatch({ selection: { anchor: 0 } });
    const [again] = await settle((all) => all.length > 0);
    const past = diagnostics(check(view.state.doc.toString()), 3).every(({ from, to }) => from <= 3 && to <= 3);
    again.actions[0].apply(view, again.from, again.to);
    await settle((all) => all.length === 0);
    window.done = { words, source: first.source, severity: first.severity, name: again.actions[0].name, past, findings: check(view.state.doc.toString()).findings.length };
  `);
  await build({ entryPoints: [join(folder, "editor.js")], outfile: join(place, "main.js"), bundle: true, format: "esm", logLevel: "error" });
  // The editor itself puts style sheets and small pictures into the page.
  const policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' 'unsafe-inline'; img-src 'self' data:";
  const { done, complaints, close } = await run({ "/": place, "/halfcount/": installed }, { policy });
  assert.ok(mendable.includes(done.words));
  assert.ok(done.source && done.name && done.past, JSON.stringify(done));
  assert.equal(done.findings, 0);
  assert.deepEqual(complaints, []);
  await close();
});

test("the floor plays, pauses, steps and says so", async () => {
  const place = site("floor", `
    import { init, frameNumbers } from "/halfcount/index.js";
    import { defineFloor } from "/halfcount/element.js";
    await init();
    defineFloor({ frameNumbers });
    defineFloor({ frameNumbers });
    const floor = document.createElement("halfcount-floor");
    floor.text = ${JSON.stringify(SLIP)};
    floor.bpm = 240;
    const counts = [];
    floor.addEventListener("halfcount-moment", (event) => counts.push(event.detail.count));
    document.querySelector("main").append(floor);
    const said = () => floor.shadowRoot.querySelector("[role=status]").textContent;
    const feet = () => [...floor.shadowRoot.querySelectorAll(".f")].map((g) => g.getAttribute("transform")).join();
    while (!said()) await new Promise((next) => setTimeout(next, 10));
    const start = [said(), feet()];
    const [back, play, step] = floor.shadowRoot.querySelectorAll("button");
    step.click(); step.click();
    const one = [said(), feet(), floor.count];
    back.click(); back.click(); back.click();
    const none = [said(), feet(), floor.count];
    play.click();
    const playing = [floor.playing, play.textContent];
    while (floor.playing) await new Promise((next) => setTimeout(next, 20));
    const end = [said(), floor.count, play.textContent];
    floor.play(); floor.pause();
    floor.text = "x".repeat(2 ** 20 + 1);
    while (!said().includes("long")) await new Promise((next) => setTimeout(next, 10));
    window.done = { start, one, none, playing, end, counts };
  `);
  const { done, complaints, close } = await run({ "/": place, "/halfcount/": installed });
  assert.match(done.start[0], /^section 1, count 0: weight on (the left foot|both feet), facing 12:00$/);
  assert.equal(done.one[0], "section 1, count 1: weight on the right foot, facing 12:00");
  assert.notEqual(done.one[1], done.start[1]);
  assert.equal(done.one[2], 1);
  assert.deepEqual(done.none, [...done.start, 0]);
  assert.deepEqual(done.playing, [true, "Pause"]);
  assert.equal(done.end[2], "Play");
  assert.ok(done.end[1] >= 4, `${done.end}`);
  assert.ok(done.counts.includes(2.5) && done.counts.includes(4));
  assert.deepEqual(complaints, []);
  await close();
});

test("the worked example checks what is typed, mends it and shows the feet", async () => {
  const place = join(folder, "embed");
  mkdirSync(place, { recursive: true });
  for (const name of ["embed.html", "embed.css", "embed.js", "mark.svg"]) cpSync(join(root, "www", name), join(place, name));
  const server = await serve({ "/": place, "/halfcount/": installed });
  const { page, complaints } = await openPage(browser, `${server.address}/embed.html`);
  const findings = page.locator("#findings li");
  await findings.first().waitFor();
  assert.match(await findings.first().innerText(), /Line 9, error/);
  assert.match(await page.locator("#sum").innerText(), /to look at/);
  // While the caret stands in the line, nothing is said about it.
  const sheet = page.locator("#sheet");
  await sheet.focus();
  await page.evaluate(() => {
    const sheet = document.querySelector("#sheet");
    sheet.setSelectionRange(sheet.value.indexOf("(3:00)"), sheet.value.indexOf("(3:00)"));
  });
  await page.keyboard.type(" ");
  await page.waitForFunction(() => document.querySelector("#sum").textContent === "Nothing to mend.");
  await page.locator("h1").click();
  await page.evaluate(() => document.activeElement.blur());
  await findings.first().waitFor();
  const button = findings.first().locator("button").first();
  if (await button.count()) {
    const before = await sheet.inputValue();
    await button.click();
    await page.waitForFunction(() => document.querySelectorAll("#findings li").length === 0);
    assert.notEqual(await sheet.inputValue(), before);
  } else {
    await sheet.fill((await sheet.inputValue()).replace("step R beside L", "step L beside R"));
    await page.evaluate(() => document.activeElement.blur());
    await page.waitForFunction(() => document.querySelector("#sum").textContent === "Nothing to mend.");
  }
  await page.locator("halfcount-floor").getByRole("button", { name: "Step" }).click();
  assert.deepEqual(complaints, []);
  await page.close();
  await server.close();
});
