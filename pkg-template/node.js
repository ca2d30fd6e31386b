// For Node. Importing this does nothing; `init` reads the module from the file beside this one.
import { readFileSync } from "node:fs";
import { readFile } from "node:fs/promises";

import { HalfcountError, initFrom, initSync as initCompiled } from "./core.js";

export { HalfcountError };
export { call, check, draw, drawSections, figures, frameNumbers, frames, score, steps, tidy, trace } from "./core.js";

const place = () => new URL("./halfcount.wasm", import.meta.url);

export default function init(source) {
  return initFrom(source ?? place, fromFile);
}
export { init };

export function initSync(source) {
  initCompiled(source ?? readFileSync(place()));
}

/** What `fetch` does not do: addresses of files. */
function fromFile(source) {
  const address = String(source);
  return address.startsWith("file:") ? readFile(new URL(address)) : source;
}
