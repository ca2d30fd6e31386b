// Puts the page together: one bundle of scripts, one of styles, the module, the demo dances and the list of
// files that are kept for use without a network. `node build.mjs PACKAGE OUT`, as `cargo xtask demo` calls it.
import { createHash } from "node:crypto";
import { copyFile, mkdir, readFile, readdir, rm, unlink, writeFile } from "node:fs/promises";
import { existsSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { gzipSync } from "node:zlib";
import { build } from "esbuild";
import lzma from "lzma";
import { restore, sort } from "./page/sorted.js";
import { unpack } from "./page/unpack.js";
import { prerender } from "./prerender.mjs";

const here = dirname(fileURLToPath(import.meta.url));
const pkg = resolve(process.argv[2] ?? join(here, "../pkg/halfcount"));
const out = resolve(process.argv[3] ?? join(here, "dist"));

await rm(out, { recursive: true, force: true });
await mkdir(join(out, "demo"), { recursive: true });
const entry = ["index.js", "halfcount-glue.js"].map((name) => join(pkg, name)).find(existsSync);
if (!entry) throw new Error(`${pkg} holds no package; cargo xtask demo builds it first`);
// The grammar tools behind the editor's commands have no use here, and nothing happens on loading them.
const lean = {
  name: "lean",
  setup({ onResolve, resolve }) {
    onResolve({ filter: /^@lezer\// }, async ({ path, pluginData, ...how }) => {
      if (pluginData === "seen") return undefined;
      const { path: found, errors } = await resolve(path, { importer: how.importer, kind: how.kind, resolveDir: how.resolveDir, pluginData: "seen" });
      return errors.length ? { errors } : { path: found, sideEffects: false };
    });
  },
};
const common = { bundle: true, plugins: [lean], minify: true, legalComments: "none", logLevel: "warning", outdir: out };
const { metafile } = await build({
  ...common,
  metafile: true,
  entryPoints: { page: join(here, "page/main.js"), unpacker: join(here, "page/unpacker.js") },
  format: "esm",
  target: "es2022",
  splitting: true,
  chunkNames: "part-[hash]",
  alias: { halfcount: entry },
});
await build({ ...common, entryPoints: { page: join(here, "styles/page.css") } });

// The first dance is worked out here, on a coarser grid, so that feet are seen before the module has come.
const halfcount = await import(pathToFileURL(join(pkg, "node.js")).href);
halfcount.initSync();
const first = "lantern-on-pier-five.txt";
const text = (await readFile(join(here, "demo", first), "utf8")).replace(/\r\n?/g, "\n");
const { columns, rows, per_count, soles, parts, numbers } = halfcount.frameNumbers(text, { perCount: 6 });
const rounded = [...numbers].map((n) => Math.round(n * 1e4) / 1e4);
const ahead = { text, file: first, dance: halfcount.steps(text, { walls: 1 }), track: { columns, rows, per_count, soles, parts, numbers: rounded } };

await copyFile(join(here, "mark.svg"), join(out, "mark.svg"));
await writeFile(join(out, "index.html"), await front(metafile));
await writeFile(join(out, "halfcount.lzma"), await packed(await readFile(join(pkg, "halfcount.wasm"))));
for (const file of await readdir(join(here, "demo"))) await copyFile(join(here, "demo", file), join(out, "demo", file));

/** The licences of the libraries in the scripts: they ask to go along with every copy. */
async function licences({ inputs }) {
  const names = new Set(Object.keys(inputs).map((path) => path.match(/node_modules\/((?:@[^/]+\/)?[^/]+)/)?.[1]).filter(Boolean));
  const texts = [];
  for (const name of [...names].sort()) {
    const folder = join(here, "node_modules", name);
    const file = (await readdir(folder)).find((entry) => /^licen[cs]e/i.test(entry));
    if (!file) throw new Error(`${name} comes without the text of its licence`);
    const text = await readFile(join(folder, file), "utf8");
    const { version } = JSON.parse(await readFile(join(folder, "package.json"), "utf8"));
    texts.push(`${name} ${version}\n\n${text.trim()}\n`);
  }
  return `halfcount is under MIT or Apache-2.0, as you like. The editor on this page is made of these libraries:\n\n${texts.join(`\n${"-".repeat(60)}\n\n`)}`;
}

/**
 * The module as it travels: sorted by kind and packed with LZMA. `page/unpacker.js` is the other end, and is tried
 * here. A higher mode takes longer and gains nothing.
 */
async function packed(bytes) {
  const small = await new Promise((resolve, reject) => {
    lzma.compress(sort(bytes), 5, (all, error) => (error ? reject(error) : resolve(Uint8Array.from(all, (byte) => byte & 255))));
  });
  if (Buffer.compare(Buffer.from(restore(unpack(small))), bytes) !== 0) throw new Error("the module does not come out of its packing as it went in");
  return small;
}

/**
 * The page itself: with its looks and its first dance in it, drawn and worked out, and with all scripts it starts
 * with named at its head. What stands in the page is let in by its digest.
 */
async function front(metafile) {
  const looks = (await readFile(join(out, "page.css"), "utf8")).trim();
  await unlink(join(out, "page.css"));
  let page = (await readFile(join(here, "index.html"), "utf8")).replace("LOOKS", () => looks).replace("FIRST", first);
  for (const [name, markup] of await prerender(here, entry, ahead)) page = page.replace(`<${name}></${name}>`, () => markup);
  const allow = (text) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
  const small = page.match(/<script>([^]*?)<\/script>/)[1];
  page = page.replace("script-src 'self'", `script-src 'self' ${allow(small)}`).replace("style-src 'self'", `style-src 'self' ${allow(looks)}`);
  const main = Object.entries(metafile.outputs).find(([name]) => name.endsWith("/page.js"))[1];
  const parts = main.imports.filter((i) => i.kind === "import-statement").map((i) => `<link rel="modulepreload" href="${basename(i.path)}">`);
  return page
    .replace('<link rel="modulepreload" href="page.js">', (link) => [link, ...parts].join("\n"))
    .replace("AHEAD", () => JSON.stringify(ahead).replaceAll("<", "\\u003c"));
}

// The service worker names every file and a digest of them all, so a new build replaces the old as a whole. The
// licences come only when somebody asks for them.
const files = [];
for (const entry of await readdir(out, { recursive: true, withFileTypes: true })) {
  if (!entry.isFile()) continue;
  files.push(join(entry.parentPath ?? entry.path, entry.name).slice(out.length + 1).replaceAll("\\", "/"));
}
files.sort();
await writeFile(join(out, "licences.txt"), await licences(metafile));
const digest = createHash("sha256");
const weights = new Map();
let total = 0;
for (const file of files) {
  const bytes = await readFile(join(out, file));
  digest.update(file).update(bytes);
  const small = gzipSync(bytes, { level: 9 }).length;
  weights.set(file, small);
  total += small;
  console.log(`${file.padEnd(44)} ${String(bytes.length).padStart(9)} bytes ${String(small).padStart(8)} gzip`);
}
const worker = (await readFile(join(here, "page/worker.js"), "utf8"))
  .replace("\"VERSION\"", JSON.stringify(digest.digest("hex").slice(0, 12)))
  .replace("[\"FILES\"]", JSON.stringify(["./", ...files]));
await writeFile(join(out, "worker.js"), worker);
const scripts = Object.entries(metafile.outputs).find(([name]) => name.endsWith("/page.js"))[1].imports.filter((i) => i.kind === "import-statement").map((i) => basename(i.path));
const sums = { "the first footprints": ["index.html"], "to play them": ["index.html", "page.js", ...scripts], "all but the module": files.filter((name) => name !== "halfcount.lzma"), "in all": files };
for (const [words, names] of Object.entries(sums)) {
  console.log(`${words.padEnd(44)} ${"".padStart(15)} ${String(names.reduce((sum, name) => sum + weights.get(name), 0)).padStart(8)} gzip`);
}
const MOST = 400_000;
if (total > MOST) {
  console.error(`the page is ${total} bytes in gzip, ${total - MOST} more than it may be`);
  if (process.argv.includes("--weigh")) process.exitCode = 1;
}
