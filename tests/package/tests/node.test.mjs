// The archive in Node: its functions, its errors and its way to start.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import test from "node:test";

import { SLIP, program, room, root, sheets } from "../room.mjs";

const folder = room("node");
const entry = pathToFileURL(join(folder, "node_modules/halfcount/node.js"));
const module = readFileSync(join(folder, "node_modules/halfcount/halfcount.wasm"));
let copies = 0;
/** The package as it is before anybody has started it. */
const fresh = async () => {
  // Another address is another instance of the first file only, so all of them go into a new folder's copy.
  const name = `copy-${++copies}`;
  const place = join(folder, name);
  execFileSync("cp", ["-r", join(folder, "node_modules/halfcount"), place]);
  return import(pathToFileURL(join(place, "node.js")));
};

const halfcount = await import(entry);
await halfcount.init();
const { call, check, draw, drawSections, figures, frameNumbers, frames, score, steps, tidy, trace } = halfcount;

const refused = (run, code) =>
  assert.throws(run, (error) => {
    assert.ok(error instanceof halfcount.HalfcountError && error instanceof Error);
    assert.equal(error.code, code);
    assert.ok(error.message.length > 10 && !/halfcount::|wasm/.test(error.message), error.message);
    return true;
  });

test("an import by name gives the functions", () => {
  writeFileSync(join(folder, "use.mjs"), `
    import init, { check } from "halfcount";
    await init();
    console.log(check(${JSON.stringify(SLIP)}).findings[0].rule);
  `);
  assert.equal(execFileSync("node", ["use.mjs"], { cwd: folder, encoding: "utf8" }), "weight-not-free\n");
});

test("it starts twice, at once, and after a failure", async () => {
  const a = await fresh();
  assert.throws(() => a.check(SLIP), { code: "not-ready" });
  await assert.rejects(a.init(new Uint8Array([0, 1, 2])), { name: "HalfcountError", code: "not-loaded" });
  await assert.rejects(a.init("file:///there/is/no/such/module.wasm"), { code: "not-loaded" });
  await Promise.all([a.init(), a.init(), a.default()]);
  await a.init();
  assert.equal(a.check(SLIP).errors, 1);

  const b = await fresh();
  const both = b.init();
  b.initSync();
  await both;
  b.initSync();
  assert.equal(b.check(SLIP).errors, 1);

  const failing = await fresh();
  const [first, second] = [failing.init(new Uint8Array(3)), failing.init()];
  await assert.rejects(first, { code: "not-loaded" });
  await assert.rejects(second, { code: "not-loaded" });
  await failing.init();
  assert.equal(failing.check(SLIP).errors, 1);
});

test("it starts from everything that may hold a module", async () => {
  const compiled = new WebAssembly.Module(module);
  const response = () => new Response(module, { headers: { "content-type": "application/wasm" } });
  const untyped = () => new Response(module);
  const place = new URL("halfcount.wasm", entry);
  for (const source of [module, module.buffer.slice(module.byteOffset, module.byteOffset + module.length), compiled,
    Promise.resolve(compiled), response(), Promise.resolve(untyped()), place, place.href]) {
    const one = await fresh();
    await one.init(source);
    assert.equal(one.check(SLIP).errors, 1);
  }
  const one = await fresh();
  assert.throws(() => one.initSync(new Uint8Array(4)), { code: "not-loaded" });
  one.initSync(compiled);
  assert.equal(one.check(SLIP).errors, 1);
  const gone = await fresh();
  await assert.rejects(gone.init(new Response("", { status: 404 })), { code: "not-loaded" });
});

test("what is wrong with a call is said with a code", () => {
  for (const run of [call, check, trace, frames, frameNumbers, score, steps, draw, drawSections, tidy]) {
    for (const text of [undefined, null, 3, {}, []]) refused(() => run(text), "text-not-a-string");
    refused(() => run(SLIP, { nosuch: 1 }), "option-unknown");
    for (const options of ["x", 3, true, []]) refused(() => run(SLIP, options), "options-not-an-object");
    refused(() => run("x".repeat((1 << 20) + 1)), "text-too-long");
    for (const nothing of [undefined, null, {}]) run(SLIP, nothing);
  }
  refused(() => check(SLIP, { allow: "wrong-length" }), "option-wrong");
  refused(() => check(SLIP, { allow: [1] }), "option-wrong");
  refused(() => check(SLIP, { file: 1 }), "option-wrong");
  for (const perCount of [0, 5, 25, -1, 2.5, NaN, Infinity, "2"]) refused(() => frames(SLIP, { perCount }), "option-wrong");
  for (const body of [170, { stature: 170 }, { footLength: "long" }, { turnOut: 91 }]) {
    for (const run of [check, trace, frames, frameNumbers, score, steps, draw, drawSections]) assert.throws(() => run(SLIP, { body }));
  }
  refused(() => draw(SLIP, { body: { shoe: 38 } }), "option-unknown");
  for (const walls of [0, 65, 1e9]) refused(() => frameNumbers(SLIP, { walls }), "option-wrong");
  for (const bpm of [19, 401]) refused(() => score(SLIP, { bpm }), "option-wrong");
  for (const count of ["0", "999", "3x", 3]) refused(() => draw(SLIP, { count }), "option-wrong");
  refused(() => draw(SLIP, { view: "above" }), "option-wrong");
  for (const bad of [{ bpm: 5 }, { bpm: "fast" }, { bpm: NaN }, { length: "soon" }, { phrases: [0] }, { phrases: "32" }, { offset: "later" }, { format: "mp3" }, { countIn: -1 }]) {
    refused(() => call(SLIP, bad), "option-wrong");
  }
  refused(() => tidy(SLIP, { mirror: 1 }), "option-wrong");
  refused(() => figures(3), "name-not-a-string");
  refused(() => figures("no such thing at all"), "figure-unknown");
  // An option whose getter throws is the caller's fault as well, and no panic.
  refused(() => check(SLIP, { get file() { throw new Error("no"); } }), "option-wrong");
  assert.equal(check(SLIP).errors, 1);
});

test("trace, score and draw give the bytes of the program for all practice sheets", () => {
  const all = sheets();
  const files = all.map(({ file }) => file);
  const lines = (text) => text.trimEnd().split("\n");
  for (const [name, of] of [
    ["trace", ({ file, text }) => JSON.stringify(trace(text, { file }))],
    ["score", ({ file, text }) => JSON.stringify(score(text, { file }))],
    ["frames", ({ file, text }) => JSON.stringify(frames(text, { file }))],
  ]) {
    const printed = lines(program(name, ...(name === "trace" ? [] : ["--format", "json"]), ...files));
    assert.equal(printed.length, all.length);
    all.forEach((sheet, index) => assert.equal(of(sheet), printed[index], `${name} of ${sheet.file}`));
  }
  for (const { file, text } of all) {
    assert.equal(draw(text), program("draw", file), `draw of ${file}`);
    assert.equal(tidy(text), program("tidy", file), `tidy of ${file}`);
  }
  const one = all[0];
  assert.equal(tidy(one.text, { mirror: true }), program("tidy", "--mirror", one.file));
  assert.equal(draw(one.text, { count: "2&" }), program("draw", "--count", "2&", one.file));
  assert.equal(draw(one.text, { strip: true, columns: 3, view: "teacher" }), program("draw", "--strip", "--columns", "3", "--view", "teacher", one.file));
  assert.equal(draw(one.text, { page: "a4" }), program("draw", "--page", "a4", one.file));
  assert.deepEqual(figures(), JSON.parse(program("figures", "--format", "json")));
  assert.deepEqual(figures("jazz square"), JSON.parse(program("figures", "jazz square", "--format", "json")));
});

test("check says what the program says, with places in UTF-16", () => {
  const all = sheets();
  const printed = JSON.parse(program("check", "--format", "json", ...all.map(({ file }) => file)));
  const encoder = new TextEncoder();
  let places = 0;
  all.forEach(({ file, text }, index) => {
    const report = check(text, { file });
    const bytes = (place) => encoder.encode(text.slice(0, place)).length;
    const byte = ({ start, end, ...rest }) => ({ ...rest, start: bytes(start), end: bytes(end) });
    const findings = report.findings.map(({ related, fixes, ...rest }) => {
      assert.ok(related.every(({ start, end }) => 0 <= start && start <= end && end <= text.length));
      places += 1;
      return { ...byte(rest), fixes: fixes.map((fix) => ({ ...fix, edits: fix.edits.map(byte) })) };
    });
    assert.deepEqual({ ...report, findings }, printed[index], file);
  });
  assert.ok(places > 20, "there were findings to compare");
});

test("emoji, accents, line ends of Windows and a byte-order mark move places and nothing else", () => {
  const plain = check(SLIP);
  assert.equal(plain.findings.length, 1);
  const words = (text, { start, end }) => text.slice(start, end);
  for (const change of [
    (text) => `💃🏽 ${text}`,
    (text) => `\ufeff${text}`,
    (text) => text.replaceAll("\n", "\r\n"),
    (text) => `\ufeff${text.replaceAll("\n", "\r\n").replace("Quayside", "Café 💃 –")}`,
    (text) => text.replace("Step L back", "Step L back 💃"),
  ]) {
    const text = change(SLIP);
    const report = check(text);
    assert.equal(report.findings.length, 1, JSON.stringify(text));
    const [finding] = report.findings;
    assert.equal(finding.rule, plain.findings[0].rule);
    assert.equal(words(text, finding), words(SLIP, plain.findings[0]));
    finding.related.forEach((one, index) => assert.ok(words(text, one).startsWith(words(SLIP, plain.findings[0].related[index]))));
  }
  // Half of a surrogate pair is no text; it stands for one unit all the same.
  const half = check(`\ud83d ${SLIP}`);
  assert.equal(words(`\ud83d ${SLIP}`, half.findings[0]), words(SLIP, plain.findings[0]));
});

test("mends are made where they say, whatever stands before them", () => {
  const made = (text, { edits }) => [...edits].reverse().reduce((all, { start, end, text: words }) => all.slice(0, start) + words + all.slice(end), text);
  let mends = 0;
  for (const { text } of sheets()) {
    const moved = `\ufeff${text}`;
    const [plain, after] = [check(text).findings, check(moved).findings];
    assert.equal(after.length, plain.length);
    plain.forEach((finding, index) => finding.fixes.forEach((fix, which) => {
      assert.equal(made(moved, after[index].fixes[which]), `\ufeff${made(text, fix)}`);
      mends += 1;
    }));
  }
  assert.ok(mends > 20, `only ${mends} mends`);
});

test("calls, captions and clicks are those of the program", () => {
  const { file, text } = sheets()[0];
  assert.equal(call(text), program("call", file));
  assert.equal(call(text, { bpm: 104, view: "facing" }), program("call", "--bpm", "104", "--view", "facing", file));
  assert.equal(call(text, { bpm: "104,112@129", length: "3:30", phrases: [32, 64, 16] }), program("call", "--bpm", "104,112@129", "--length", "3:30", "--phrases", "32 64 16", file));
  assert.equal(call(text, { plan: true }), program("call", "--plan", file));
  const captions = { format: "webvtt", bpm: 98.5, offset: -2.5, from: "0:10", to: 60, noCounts: true };
  assert.equal(call(text, captions), program("call", "--format", "webvtt", "--bpm", "98.5", "--offset=-2.5", "--from", "0:10", "--to", "60", "--no-counts", file));
  const out = join(folder, "clicks.mid");
  program("call", "--format", "midi", "--bpm", "104", "--count-in", "8", "--no-lyrics", "--out", out, file);
  assert.deepEqual(Buffer.from(call(text, { format: "midi", bpm: 104, countIn: 8, noLyrics: true })), readFileSync(out));
});

test("the array of numbers says what the rows say", () => {
  for (const { text } of sheets().filter((_, index) => index % 10 === 0)) {
    for (const perCount of [1, 2, 3, 8]) {
      const rows = frames(text, { perCount, walls: 2 }).frames;
      const { columns, numbers, parts, soles, rows: count, per_count } = frameNumbers(text, { perCount, walls: 2 });
      assert.ok(numbers instanceof Float64Array);
      assert.equal(count, rows.length);
      assert.equal(per_count, perCount);
      assert.equal(numbers.length, count * columns.length);
      rows.forEach((row, index) => {
        const at = Object.fromEntries(columns.map((name, column) => [name, numbers[index * columns.length + column]]));
        const { part, count: counted, left_sole, right_sole, ...rest } = row;
        assert.equal(parts[at.part], part);
        assert.equal(soles[at.left_sole], left_sole);
        assert.equal(soles[at.right_sole], right_sole);
        assert.equal(Math.floor(at.count), parseInt(counted));
        assert.equal(at.count % 1 === 0, /^\d+$/.test(counted));
        for (const [name, value] of Object.entries(rest)) assert.equal(at[name], value, name);
      });
    }
  }
});

test("a thousand checks in a row do not need more and more memory", () => {
  const script = `
    import { readFileSync } from "node:fs";
    import { pathToFileURL } from "node:url";
    const memories = [];
    const Memory = WebAssembly.Instance;
    WebAssembly.Instance = function (...given) { const made = new Memory(...given); memories.push(made.exports.memory); return made; };
    const { init, initSync, check, trace, HalfcountError } = await import("halfcount");
    initSync();
    const text = readFileSync(${JSON.stringify(join(root, "www/demo/lantern-on-pier-five-with-a-slip.txt"))}, "utf8");
    const size = () => memories.at(-1).buffer.byteLength;
    const sizes = [];
    for (let n = 0; n < 1000; n++) {
      check(n % 2 ? text : "\\u{1f483} " + text);
      // Refused calls leave nothing behind either.
      try { check(text, { nosuch: 1 }); } catch {}
      if (n % 100 === 99) sizes.push(size());
    }
    console.log(JSON.stringify(sizes));
  `;
  writeFileSync(join(folder, "thousand.mjs"), script);
  const sizes = JSON.parse(execFileSync("node", ["thousand.mjs"], { cwd: folder, encoding: "utf8" }));
  assert.equal(sizes.length, 10);
  assert.equal(sizes.at(-1), sizes[1], `memory went ${sizes.join(", ")}`);
  assert.ok(sizes.at(-1) < 64 << 20, `${sizes.at(-1)} bytes`);
});

test("nonsense gives reports and no panics", () => {
  const bits = ["1-8", "R", "L", "Turn ½", "\r", "\n", "\t", "(", "3:00", "&", "💃", "Restart", "Tag:", "#", "9".repeat(30), "\ud800", "\0"];
  let seed = 7;
  const next = () => (seed = (seed * 48271) % 2147483647);
  for (let n = 0; n < 300; n++) {
    const text = Array.from({ length: next() % 40 }, () => bits[next() % bits.length]).join(next() % 2 ? " " : "");
    for (const run of [call, check, trace, frames, score, steps, draw, tidy]) run(text);
  }
});
