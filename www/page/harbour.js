// The one door to the package. A function that this build of the package lacks answers `undefined`, and the
// page leaves out what hangs on it.
import * as halfcount from "halfcount";

let ready;

/** The module, fetched as it travels and unpacked by a worker. */
async function brought() {
  const answer = await fetch(new URL("halfcount.lzma", document.baseURI));
  if (!answer.ok) throw new Error(`the module could not be fetched: ${answer.status}`);
  const packed = await answer.arrayBuffer();
  const unpacker = new Worker(new URL("unpacker.js", document.baseURI), { type: "module" });
  try {
    return await new Promise((resolve, reject) => {
      unpacker.onmessage = ({ data }) => (data.module ? resolve(data.module) : reject(new Error(data.error)));
      unpacker.onerror = () => reject(new Error("the unpacker did not start"));
      unpacker.postMessage(packed, [packed]);
    });
  } finally {
    unpacker.terminate();
  }
}

/** Loads the module once. */
export function open() {
  ready ??= halfcount.init(brought());
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
