// Makes an archive of what the build has put into a folder: `node finish.mjs FOLDER`.
//
// The module is made smaller, the glue loses its comments, the files of `pkg-template` are laid beside them, and
// `npm pack` does the rest. What a part weighs is printed, and too much is a failure.
import { execFileSync } from "node:child_process";
import { cpSync, existsSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { gzipSync } from "node:zlib";
import { transformSync } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const folder = process.argv[2];
const template = join(root, "pkg-template");

/** Parts of the package with the most that each may weigh, in bytes after gzip. */
const PARTS = [
  ["module", ["halfcount.wasm"], 150_000],
  ["loader and glue", ["index.js", "core.js", "halfcount-glue.js"], 8_000],
  ["worker", ["worker.js", "worker-thread.js"], 3_000],
  ["editor add-on", ["editor.js"], 3_000],
  ["element add-on", ["element.js"], 3_000],
];

const module = join(folder, "halfcount.wasm");
execFileSync(join(here, "node_modules/.bin/wasm-opt"), ["-Oz", module, "-o", module], { stdio: "inherit" });

for (const name of readdirSync(template)) cpSync(join(template, name), join(folder, name), { recursive: true });
for (const name of ["LICENSE-MIT", "LICENSE-APACHE"]) cpSync(join(root, name), join(folder, name));

// Comments and names inside the scripts serve nobody who installs them; the types carry the documentation.
for (const name of readdirSync(folder).filter((name) => name.endsWith(".js"))) {
  const path = join(folder, name);
  const { code } = transformSync(readFileSync(path, "utf8"), { minify: true, target: "es2022", format: "esm", legalComments: "none" });
  writeFileSync(path, code);
}

const weigh = (names) => names.map((name) => readFileSync(join(folder, name)));
const heavy = [];
console.log(`${"part".padEnd(18)}${"raw".padStart(10)}${"gzip".padStart(10)}${"at most".padStart(10)}`);
for (const [title, names, most] of PARTS) {
  if (!names.every((name) => existsSync(join(folder, name)))) throw new Error(`${names} are not all there`);
  const files = weigh(names);
  const raw = files.reduce((sum, file) => sum + file.length, 0);
  const gzip = files.reduce((sum, file) => sum + gzipSync(file, { level: 9 }).length, 0);
  console.log(`${title.padEnd(18)}${String(raw).padStart(10)}${String(gzip).padStart(10)}${String(most).padStart(10)}`);
  if (gzip > most) heavy.push(`${title}: ${gzip - most} bytes too many`);
}

const out = dirname(folder);
for (const name of readdirSync(out).filter((name) => name.endsWith(".tgz"))) rmSync(join(out, name));
execFileSync("npm", ["pack", "--silent", "--pack-destination", out], { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
const archive = readdirSync(out).find((name) => name.endsWith(".tgz"));
console.log(`pkg/${archive}: ${statSync(join(out, archive)).size} bytes`);
if (heavy.length > 0) {
  console.error(`too heavy: ${heavy.join("; ")}`);
  if (!process.argv.includes("--any-weight")) process.exitCode = 1;
}
