// The worker's side: it gets the compiled module, then calls, and answers each with a value or an error.
import * as halfcount from "./core.js";

addEventListener("message", ({ data: { id, module, name, given } }) => {
  try {
    if (module) halfcount.initSync(module);
    else postMessage({ id, value: halfcount[name](...given) });
  } catch (error) {
    const { code = "broken", message = String(error) } = error ?? {};
    postMessage({ id, error: { code, message } });
  }
});
