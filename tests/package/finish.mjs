// Makes an archive of what the build has put into a folder: `node finish.mjs FOLDER`.
//
// The module is made smaller, the glue loses its comments, the files of `pkg-template` are laid beside them, and
// `npm pack` does the rest. What a part weighs is printed, and too much is a failure.
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { cpSync, existsSync, mkdirSync, readFileSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { transformSync } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const folder = process.argv[2];
const template = join(root, "pkg-template");

/**
 * Parts of the package with the most that each may weigh, in bytes after gzip. The module grows by eleven bytes
 * with each line of the library, evenly over all rooms; 150 000 are aimed at and not reached, so its ceiling only
 * keeps it from growing unseen.
 */
const PARTS = [
  ["module", ["halfcount.wasm"], 625_000],
  ["loader and glue", ["index.js", "core.js", "halfcount-glue.js"], 8_000],
  ["worker", ["worker.js", "worker-thread.js"], 3_000],
  ["editor add-on", ["editor.js"], 3_000],
  ["element add-on", ["element.js"], 3_000],
];

// Making the module smaller takes longest, so what came of the same module is kept. The lowest addresses are the
// far end of the stack, which nothing reaches. Flat code with its blocks found anew packs better, and nothing is put
// into several places that can be called.
const module = join(folder, "halfcount.wasm");
const OPTIONS = "--flatten --rereloop -Oz -Oz -ocimfs=2 -fimfs=0 -aimfs=2 --low-memory-unused --strip-producers".split(" ");
const kept = join(root, "target/smaller");
const small = join(kept, `${createHash("sha256").update(readFileSync(module)).update(OPTIONS.join()).digest("hex")}.wasm`);
if (!existsSync(small)) {
  rmSync(kept, { recursive: true, force: true });
  mkdirSync(kept, { recursive: true });
  execFileSync(join(here, "node_modules/.bin/wasm-opt"), [...OPTIONS, module, "-o", `${small}.part`], { stdio: "inherit" });
  renameSync(`${small}.part`, small);
}
cpSync(small, module);

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
const brotli = (file) => brotliCompressSync(file, { params: { [constants.BROTLI_PARAM_QUALITY]: 11 } });
const row = (title, ...cells) => console.log(title.padEnd(18) + cells.map((cell) => String(cell).padStart(10)).join(""));
row("part", "raw", "gzip", "brotli", "at most");
for (const [title, names, most] of PARTS) {
  if (!names.every((name) => existsSync(join(folder, name)))) throw new Error(`${names} are not all there`);
  const files = weigh(names);
  const raw = files.reduce((sum, file) => sum + file.length, 0);
  const [gzip, packed] = [(file) => gzipSync(file, { level: 9 }), brotli].map((pack) => files.reduce((sum, file) => sum + pack(file).length, 0));
  row(title, raw, gzip, packed, most);
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
