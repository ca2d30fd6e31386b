// Hostile text in the module: no trap, bounded memory, strings that are no text, on every text of the corpus.
import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import test from "node:test";

import { room, root, sheets } from "../room.mjs";

/** The memories of all modules that are started here. */
const memories = [];
const Instance = WebAssembly.Instance;
WebAssembly.Instance = class extends Instance {
  constructor(...given) {
    super(...given);
    if (this.exports.memory) memories.push(this.exports.memory);
  }
};

const folder = room("hostile");
const halfcount = await import(pathToFileURL(join(folder, "node_modules/halfcount/node.js")));
halfcount.initSync();

/** The most memory that the module may ever take, in bytes: a megabyte of text and what is made of it. */
const MOST = 1 << 29;
const used = () => Math.max(...memories.map((memory) => memory.buffer.byteLength));

/** Every function that takes a sheet. */
const takers = ["check", "trace", "frames", "frameNumbers", "steps", "score", "draw", "drawSections", "call", "tidy"]
  .filter((name) => typeof halfcount[name] === "function");

/** Calls one of them; a refusal with a code of its own is an answer, a trap is none. */
function answered(name, text, options) {
  try {
    return halfcount[name](text, options);
  } catch (error) {
    assert.ok(error instanceof halfcount.HalfcountError, `${name}: ${error}`);
    assert.notEqual(error.code, "broken", `${name} on ${JSON.stringify(text.slice(0, 200))}`);
    return undefined;
  }
}

const corpus = ["fuzz/corpus", "fuzz/corpus/figures"].flatMap((place) =>
  readdirSync(join(root, place)).filter((name) => name.endsWith(".txt")).map((name) => readFileSync(join(root, place, name), "utf8")));

test("no text of the corpus stops the module", () => {
  assert.ok(memories.length > 0 && corpus.length > 10);
  for (const text of [...corpus, ...sheets().map((sheet) => sheet.text)]) {
    for (const name of takers) answered(name, text);
    answered("tidy", text, { mirror: true });
    if (corpus.includes(text)) {
      try {
        halfcount.figures(text);
      } catch (error) {
        assert.equal(error.code, "figure-unknown");
      }
    }
  }
  assert.ok(used() <= MOST / 4, `${used()} bytes`);
});

test("no beginning of a sheet stops the module", () => {
  sheets().forEach(({ text }, index) => {
    for (let share = 1; share < 4; share += 1) {
      const start = text.slice(0, Math.floor((text.length * share) / 4) + (index % 5));
      for (const name of ["check", "frames", "draw"]) answered(name, start);
    }
  });
});

test("a million of one sign stays within the memory", () => {
  for (const sign of ["a", "1", "(", "\n", "&", " ", "\0", "é"]) {
    const text = sign.repeat(sign === "é" ? 1 << 19 : 1 << 20);
    assert.equal(answered("check", text)?.findings.length >= 0, true);
  }
  assert.ok(used() <= MOST, `${used()} bytes`);
  // It still works, and a long text has not made the next one wrong.
  const short = "Quay Two\n4 counts\n1-2 Step R forward, touch L beside R\n3-4 Step L back, touch R beside L\n";
  assert.equal(halfcount.trace(short).sections[0].trace, "1R 2- 3L 4-");
});

test("halves of characters are read as signs of their own, and places stay right", () => {
  const text = "Quay \ud800 Two\n4 counts\n1-2 Step R forward, step R beside \udc00 L\n3-4 Step L back, touch R\n";
  for (const name of takers) answered(name, text);
  const { findings } = halfcount.check(text);
  assert.ok(findings.length > 0);
  for (const { start, end } of findings) assert.ok(start <= end && end <= text.length, `${start} to ${end}`);
  const slip = findings.find((finding) => finding.severity === "error");
  assert.match(text.slice(slip.start, slip.end), /step R/);
  for (const odd of ["\ud800", "\udfff\ud800", "1 step R\udbff"]) for (const name of takers) answered(name, odd);
});
