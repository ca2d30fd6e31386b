// What the tests of the archive share: a folder in which it is installed, the program to compare with, a server
// and a browser.
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { dirname, extname, join, normalize } from "node:path";
import { fileURLToPath } from "node:url";

export const here = dirname(fileURLToPath(import.meta.url));
export const root = join(here, "../..");
export const bin = (name) => join(here, "node_modules/.bin", name);

const packed = readdirSync(join(root, "pkg")).filter((name) => name.endsWith(".tgz"));
if (packed.length !== 1) throw new Error("cargo xtask package makes the archive that is tested here");
export const archive = join(root, "pkg", packed[0]);

/** A new folder in which the archive is installed as any site would install it. */
export function room(name) {
  const folder = join(here, "dist", name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "package.json"), JSON.stringify({ name, private: true, type: "module" }));
  const words = ["install", "--offline", "--no-audit", "--no-fund", "--ignore-scripts", "--silent", archive];
  execFileSync("npm", words, { cwd: folder, stdio: ["ignore", "ignore", "inherit"] });
  return folder;
}

/** All practice sheets: their names as the program prints them, and their texts. */
export function sheets() {
  const folder = join(root, "tests/sheets");
  const names = readdirSync(folder).filter((name) => name.endsWith(".txt")).sort();
  if (names.length < 20) throw new Error("the practice sheets were not found");
  return names.map((name) => ({ file: `tests/sheets/${name}`, text: readFileSync(join(folder, name), "utf8") }));
}

/** What the program prints. It ends with 1 where it found something, which is no failure here. */
export function program(...words) {
  const path = process.env.HALFCOUNT ?? join(root, "target/debug/halfcount");
  try {
    return execFileSync(path, words, { cwd: root, encoding: "utf8", maxBuffer: 1 << 28, stdio: ["ignore", "pipe", "pipe"] });
  } catch (error) {
    if (error.status === 1) return error.stdout;
    throw error;
  }
}

const TYPES = { ".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".wasm": "application/wasm", ".svg": "image/svg+xml" };

/** The policy under which everything must work. */
export const POLICY = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'";

/** Serves folders by the start of an address: `{ "/": folder }`. */
export async function serve(folders, { policy = POLICY, types = TYPES } = {}) {
  const server = createServer((request, response) => {
    const path = normalize(decodeURIComponent(new URL(request.url, "http://localhost").pathname));
    const start = Object.keys(folders).sort((a, b) => b.length - a.length).find((start) => path.startsWith(start));
    try {
      const body = readFileSync(join(folders[start], path.slice(start.length) || "index.html"));
      const headers = { "content-type": types[extname(path) || ".html"] ?? "application/octet-stream" };
      if (policy) headers["content-security-policy"] = policy;
      response.writeHead(200, headers).end(body);
    } catch {
      response.writeHead(404).end();
    }
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  server.unref();
  const address = `http://127.0.0.1:${server.address().port}`;
  return { address, close: () => new Promise((closed) => server.close(closed)) };
}

/** A browser without anything that talks to the outside. */
export async function openBrowser() {
  const { chromium } = await import("playwright-core");
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
}

/** A page with everything that it complains about, and everything that it asks for elsewhere. */
export async function openPage(browser, address) {
  const page = await browser.newPage();
  const complaints = [];
  page.on("console", (message) => complaints.push(`console: ${message.text()}`));
  page.on("pageerror", (error) => complaints.push(`error: ${error.message}`));
  page.on("response", (response) => response.status() >= 400 && complaints.push(`${response.status()} ${response.url()}`));
  page.on("request", (request) => {
    const outside = !request.url().startsWith(new URL(address).origin) && !request.url().startsWith("data:");
    if (outside) complaints.push(`outside: ${request.url()}`);
  });
  await page.goto(address);
  return { page, complaints };
}

/** A short sheet with a slip in its last words. */
export const SLIP = "Quayside Two\nCount: 4 Wall: 1\n1-2 Step R forward, touch L beside R\n3-4 Step L back, step L forward\n";
