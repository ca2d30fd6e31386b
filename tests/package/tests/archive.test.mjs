// What is in the archive, and what others say about it.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { homedir } from "node:os";
import { join } from "node:path";
import test from "node:test";

import { archive, bin, room, root } from "../room.mjs";

const folder = join(room("archive"), "node_modules/halfcount");
const manifest = JSON.parse(readFileSync(join(folder, "package.json"), "utf8"));

test("it holds what it needs and nothing else", () => {
  assert.deepEqual(readdirSync(folder).sort(), [
    "LICENSE-APACHE", "LICENSE-MIT", "README.md", "core.js", "editor.d.ts", "editor.js", "element.d.ts", "element.js",
    "halfcount-glue.js", "halfcount.wasm", "index.d.ts", "index.js", "node.js", "package.json", "worker-thread.js",
    "worker.d.ts", "worker.js",
  ]);
  for (const name of readdirSync(folder)) {
    const text = readFileSync(join(folder, name), "latin1");
    assert.ok(!/sourceMappingURL/.test(text), `${name} names a source map`);
    // Whoever builds the package is nobody's business.
    assert.ok(!text.includes(root) && !text.includes(homedir()), `${name} names a place on the builder's disk`);
  }
});

test("the manifest tells of this version and depends on nothing", () => {
  const version = /^version = "(.*)"/m.exec(readFileSync(join(root, "Cargo.toml"), "utf8"))[1];
  assert.equal(manifest.version, version);
  assert.equal(manifest.dependencies, undefined);
  assert.equal(manifest.peerDependencies, undefined);
  assert.deepEqual(manifest.sideEffects, ["./worker-thread.js"]);
  for (const entry of Object.values(manifest.exports).flatMap((e) => (typeof e === "string" ? e : Object.values(e)))) {
    assert.ok(readdirSync(folder).includes(entry.slice(2)), `${entry} is there`);
  }
});

test("the module asks its host for nothing but values of JavaScript", () => {
  const module = new WebAssembly.Module(readFileSync(join(folder, "halfcount.wasm")));
  const wanted = WebAssembly.Module.imports(module).map(({ module, name, kind }) => {
    assert.equal(`${module} ${kind}`, "./halfcount_bg.js function");
    return name.replace(/^__wbg_/, "").replace(/_[0-9a-f]{16}$/, "").replace(/generic_\d+$/, "generic");
  });
  // A name that is new here is a new wish of the module: it must not be a clock, a random number or a place to print.
  assert.deepEqual([...new Set(wanted)].sort(), [
    "Error", "__wbindgen_boolean_get", "__wbindgen_generic", "__wbindgen_init_externref_table", "__wbindgen_is_null",
    "__wbindgen_is_undefined", "__wbindgen_number_get", "__wbindgen_string_get", "__wbindgen_throw", "fromCodePoint", "get",
    "get_unchecked", "instanceof_Object", "isArray", "keys", "length", "new", "new_from_slice", "push", "set", "toString",
  ]);
});

test("publint has nothing to say", () => {
  execFileSync(bin("publint"), [archive, "--strict"], { stdio: "pipe" });
});

test("the types are right for every way to resolve them", () => {
  execFileSync(bin("attw"), [archive, "--profile", "esm-only", "--exclude-entrypoints", "./halfcount.wasm"], { stdio: "pipe" });
});
