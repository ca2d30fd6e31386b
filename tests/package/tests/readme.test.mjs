// Everything that the README shows runs as it stands.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import test from "node:test";

import { openBrowser, openPage, room, serve } from "../room.mjs";

const folder = room("readme");
const readme = readFileSync(join(folder, "node_modules/halfcount/README.md"), "utf8");
const examples = [...readme.matchAll(/(?:<!-- (\w+) -->\n)?```js\n([^]*?)```/g)].map(([, where = "node", code]) => ({ where, code }));

test("there are examples of every kind", () => {
  assert.ok(!readme.includes("COSTS"), "the costs are filled in");
  for (const where of ["node", "browser", "editor"]) assert.ok(examples.some((one) => one.where === where), where);
});

examples.forEach(({ where, code }, index) => {
  test(`example ${index + 1} runs`, async () => {
    if (where === "node") {
      writeFileSync(join(folder, "example.mjs"), code);
      const printed = execFileSync("node", ["example.mjs"], { cwd: folder, encoding: "utf8" }).split("\n");
      // What stands behind a line that prints is what it prints.
      for (const [, promised] of code.matchAll(/console\.log\(.*\); \/\/ (.*)/g)) assert.ok(printed.includes(promised), `${promised} in ${printed}`);
      return;
    }
    const { build } = await import("esbuild");
    const place = join(folder, `example-${index}`);
    mkdirSync(place, { recursive: true });
    const entry = join(folder, `example-${index}.js`);
    // The module and the worker lie where a bundler would have laid them.
    writeFileSync(entry, `${code}\nwindow.done = true;\n`);
    await build({ entryPoints: [entry], outfile: join(place, "main.js"), bundle: true, format: "esm", logLevel: "error" });
    await build({ entryPoints: [join(folder, "node_modules/halfcount/worker-thread.js")], outfile: join(place, "worker-thread.js"), bundle: true, format: "esm", logLevel: "error" });
    writeFileSync(join(place, "halfcount.wasm"), readFileSync(join(folder, "node_modules/halfcount/halfcount.wasm")));
    writeFileSync(join(place, "index.html"), "<!doctype html><html lang=\"en\"><title>Example</title><link rel=\"icon\" href=\"data:,\"><body><script type=\"module\" src=\"main.js\"></script></body></html>");
    const server = await serve({ "/": place }, { policy: "default-src 'self' data:; script-src 'self' 'wasm-unsafe-eval'" });
    const browser = await openBrowser();
    const { page, complaints } = await openPage(browser, `${server.address}/`);
    await page.waitForFunction(() => window.done === true, null, { timeout: 20_000 }).catch(() => assert.fail(complaints.join("; ")));
    assert.deepEqual(complaints.filter((one) => !one.startsWith("console: ")), []);
    await browser.close();
    await server.close();
  });
});
