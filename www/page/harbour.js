// The one door to the package. A function that this build of the package lacks answers `undefined`, and the
// page leaves out what hangs on it.
import * as halfcount from "halfcount";

let ready;

/** Loads the module once. */
export function open() {
  const place = new URL("halfcount.wasm", document.baseURI);
  const init = Reflect.get(halfcount, "init");
  ready ??= init ? init(place) : halfcount.default({ module_or_path: place });
  return ready;
}

export const has = (name) => typeof Reflect.get(halfcount, name) === "function";

/** Calls a function of the package; a refusal is told in the console of nobody: it is an empty answer. */
export function ask(name, ...given) {
  if (!has(name)) return undefined;
  try {
    return Reflect.get(halfcount, name)(...given);
  } catch {
    return undefined;
  }
}
