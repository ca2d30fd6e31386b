// For pages, bundlers and workers. Importing this does nothing; `init` fetches the module.
import { initFrom } from "./core.js";

export { HalfcountError, initSync } from "./core.js";
export { call, check, draw, drawSections, figures, frameNumbers, frames, score, steps, tidy, trace } from "./core.js";

export default function init(source) {
  return initFrom(source ?? (() => new URL("./halfcount.wasm", import.meta.url)));
}
export { init };
