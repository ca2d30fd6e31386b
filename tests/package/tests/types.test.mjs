// The types against a strict compiler, and against the values that calls really give.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import test from "node:test";

import { SLIP, bin, here, room, root, sheets } from "../room.mjs";

const folder = room("types");
const installed = join(folder, "node_modules/halfcount");
const halfcount = await import(pathToFileURL(join(installed, "node.js")));
await halfcount.init();

const OPTIONS = { strict: true, noEmit: true, exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true, verbatimModuleSyntax: true, target: "es2022", module: "nodenext", moduleResolution: "nodenext", types: [] };

/** What the compiler says about a file; an empty text where it is content. */
function compile(name, text, options = {}) {
  writeFileSync(join(folder, `${name}.ts`), text);
  const config = { compilerOptions: { ...OPTIONS, lib: ["es2022"], ...options }, files: [`${name}.ts`] };
  writeFileSync(join(folder, `${name}.json`), JSON.stringify(config));
  try {
    execFileSync(bin("tsc"), ["-p", `${name}.json`], { cwd: folder, encoding: "utf8", stdio: "pipe" });
    return "";
  } catch (error) {
    return error.stdout;
  }
}

const declared = (file) => [...readFileSync(join(installed, file), "utf8").matchAll(/^export (?:interface|type|class) (\w+)/gm)].map((m) => m[1]);
const names = declared("index.d.ts");

test("nothing in the types is any", () => {
  for (const file of ["index.d.ts", "worker.d.ts", "editor.d.ts", "element.d.ts"]) {
    assert.ok(!/\bany\b(?! |\.)/.test(readFileSync(join(installed, file), "utf8").replace(/\/\*\*[^]*?\*\//g, "")), file);
  }
});

test("a strict program that names every exported type compiles, with and without the types of pages", () => {
  const sample = readFileSync(join(here, "sample.ts"), "utf8");
  const all = ["index.d.ts", "worker.d.ts", "editor.d.ts", "element.d.ts"].flatMap(declared);
  for (const name of all) assert.match(sample, new RegExp(`\\b${name}\\b`), `the sample names ${name}`);
  assert.equal(compile("sample", sample), "");
  assert.equal(compile("sample-dom", sample, { lib: ["es2022", "dom"], module: "esnext", moduleResolution: "bundler" }), "");
});

test("what is wrong is refused", () => {
  for (const [line, words] of [
    ["check(3);", "number"],
    ["check('', { alow: [] });", "alow"],
    ["frames('', { perCount: 5 });", "5"],
    ["const n: number = check('').findings[0]!.message;", "string"],
    ["figures('x').map;", "map"],
    ["const s: string = call('', { format: 'midi' });", "Uint8Array"],
    ["draw('', { view: 'above' });", "above"],
  ]) {
    const said = compile("wrong", `import { call, check, draw, figures, frames } from "halfcount";\nvoid [call, check, draw, figures, frames];\n${line}\n`);
    assert.match(said, /error TS/, line);
    assert.ok(said.includes(words), said);
  }
});

/** One of each shape: of all values that look alike to the types, the first. */
function shapes(values) {
  const kind = (value) => {
    if (value === null || typeof value !== "object") return value === null ? "null" : typeof value === "string" && value.length < 24 ? value : typeof value;
    if (Array.isArray(value)) return `[${[...new Set(value.map(kind))].sort().join("|")}]`;
    return `{${Object.keys(value).map((key) => `${key}:${kind(value[key])}`).join()}}`;
  };
  const seen = new Map();
  for (const value of values) seen.set(kind(value), seen.get(kind(value)) ?? value);
  return [...seen.values()];
}

test("every value is what its type says, field by field", () => {
  const all = sheets();
  const of = {
    CheckReport: ({ file, text }) => halfcount.check(text, { file }),
    TraceReport: ({ file, text }) => halfcount.trace(text, { file }),
    FrameReport: ({ file, text }) => halfcount.frames(text, { file, perCount: 1 }),
    ScoreReport: ({ file, text }) => halfcount.score(text, { file }),
    StepsReport: ({ file, text }) => halfcount.steps(text, { file, walls: 4 }),
    DrawnSection: ({ text }) => halfcount.drawSections(text).map((one) => ({ ...one, svg: "" })),
  };
  const lines = [];
  const values = {};
  const add = (type, list) => {
    // Lists are cut into their members, so that a thousand alike are one; what is outside them is checked as well.
    values[type] = list;
    for (const value of list) lines.push(`check<${type}>(${JSON.stringify(value)});`);
  };
  for (const [type, give] of Object.entries(of)) {
    const thinned = all.flatMap(give).map((report) => Object.fromEntries(
      Object.entries(report).map(([key, value]) => [key, Array.isArray(value) ? shapes(value).slice(0, 40) : value]),
    ));
    add(type, shapes(thinned).slice(0, 60));
  }
  add("Figure", shapes(halfcount.figures()));
  const { numbers, ...rest } = halfcount.frameNumbers(SLIP);
  assert.ok(numbers instanceof Float64Array);
  add("Omit<FrameNumbers, \"numbers\">", [rest]);
  // A fresh literal must have every field that its type asks for and none that it does not know.
  const text = `import type { ${[...Object.keys(of), "Figure", "FrameNumbers"].join(", ")} } from "halfcount";\nfunction check<T>(value: T): void { void value; }\n${lines.join("\n")}\n`;
  assert.equal(compile("values", text).slice(0, 2000), "");

  // The other way round: a field that no value ever has is a field that does not exist.
  const keys = new Set();
  const walk = (value) => {
    if (value && typeof value === "object") for (const [key, inner] of Object.entries(value)) { if (!Array.isArray(value)) keys.add(key); walk(inner); }
  };
  walk(values);
  const types = readFileSync(join(installed, "index.d.ts"), "utf8");
  const reports = types.split(/^export /m).filter((part) => /^interface/.test(part) && !/^interface \w+Options/.test(part));
  const fields = reports.flatMap((part) => [...part.matchAll(/^ {2}(\w+)\??:/gm)].map((m) => m[1]));
  const missing = fields.filter((field) => !keys.has(field) && field !== "numbers");
  assert.deepEqual(missing, [], "fields that were never seen");
  // And every field has words about it, or a type whose own words say enough.
  for (const part of reports) {
    for (const [, before, field, type] of part.matchAll(/(\*\/\n)? {2}(\w+)\??: ([^;]+);/g)) {
      assert.ok(before || /^(Severity|Sureness|Foot|Weight|Level|Sole)\b/.test(type), `${field} is described`);
    }
  }
  assert.ok(names.length > 20 && root.length > 0);
});
