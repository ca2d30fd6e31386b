// What pages, Node and workers have in common: the module is compiled and started once, every call is guarded,
// and nothing happens at import.
import * as glue from "./halfcount-glue.js";

/** Every error that leaves the package; `code` never changes, the sentence may. */
export class HalfcountError extends Error {
  constructor(code, message, options) {
    super(message, options);
    this.name = "HalfcountError";
    this.code = code;
  }
}

/** The running start, kept so that a second one waits for it; a failed one is forgotten. */
let starting;
let ready = false;

/**
 * Starts the module from `source`: an address, a Request, a Response, bytes, a compiled module, a promise of one
 * of these or a function that gives one. `resolve` turns addresses into something else where a host needs that.
 */
export function initFrom(source, resolve = (address) => address) {
  if (ready) return Promise.resolve();
  starting ??= compiled(source, resolve).then(start).catch((error) => {
    starting = undefined;
    // Somebody else may have started it meanwhile, in one go.
    if (!ready) throw notLoaded(error);
  });
  return starting;
}

/** Starts the module at once, from bytes or from a compiled module. */
export function initSync(source) {
  if (ready) return;
  try {
    start(source instanceof WebAssembly.Module ? source : new WebAssembly.Module(source));
  } catch (error) {
    throw notLoaded(error);
  }
}

function start(module) {
  if (ready) return;
  glue.initSync({ module });
  ready = true;
}

function notLoaded(error) {
  if (error instanceof HalfcountError) return error;
  return new HalfcountError("not-loaded", `the module could not be loaded: ${error?.message ?? error}`, { cause: error });
}

const is = (value, type) => typeof globalThis[type] === "function" && value instanceof globalThis[type];

/** A compiled module from whatever was given. */
export async function compiled(source, resolve) {
  let given = await (typeof source === "function" ? source() : source);
  if (typeof given === "string" || is(given, "URL")) given = await resolve(given);
  if (typeof given === "string" || is(given, "URL") || is(given, "Request")) given = await fetch(given);
  if (is(given, "Response")) {
    if (!given.ok) throw new HalfcountError("not-loaded", `the module could not be fetched: ${given.status} from ${given.url}`);
    // A server that does not say what it sends makes the start a little slower, and nothing else.
    const streams = given.headers.get("content-type")?.startsWith("application/wasm");
    if (streams && WebAssembly.compileStreaming) return WebAssembly.compileStreaming(given);
    given = await given.arrayBuffer();
  }
  return given instanceof WebAssembly.Module ? given : WebAssembly.compile(given);
}

function guarded(run, first, second) {
  if (!ready) throw new HalfcountError("not-ready", "await init() before the first call");
  try {
    return run(first, second);
  } catch (error) {
    if (error?.code) throw new HalfcountError(error.code, error.message);
    // A fault of ours. A fresh instance keeps the next call from meeting what this one left behind.
    glue.__wbg_reset_state();
    throw new HalfcountError("broken", "halfcount failed on this text; the next call starts afresh", { cause: error });
  }
}

export function check(text, options) {
  return guarded(glue.check, text, options);
}

export function trace(text, options) {
  return guarded(glue.trace, text, options);
}

export function frames(text, options) {
  return guarded(glue.frames, text, options);
}

export function steps(text, options) {
  return guarded(glue.steps, text, options);
}

export function frameNumbers(text, options) {
  return guarded(glue.frameNumbers, text, options);
}

export function score(text, options) {
  return guarded(glue.score, text, options);
}

export function draw(text, options) {
  return guarded(glue.draw, text, options);
}

export function drawSections(text, options) {
  return guarded(glue.drawSections, text, options);
}

export function call(text, options) {
  return guarded(glue.call, text, options);
}

export function tidy(text, options) {
  return guarded(glue.tidy, text, options);
}

export function figures(name) {
  return guarded(glue.figures, name);
}
