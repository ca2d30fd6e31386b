// The page's side of a worker: the same functions, each with a promise for its answer.
import { HalfcountError, compiled } from "./core.js";

const NAMES = ["check", "trace", "frames", "frameNumbers", "score", "draw", "drawSections", "steps", "call", "tidy", "figures"];

/**
 * Opens a worker. One call at a time is under way; where `newest` is set, a call that still waits when the same
 * function is called again is dropped, so that typing never piles up work.
 */
export async function openWorker({ source, worker, newest = false } = {}) {
  const module = await compiled(source ?? (() => new URL("./halfcount.wasm", import.meta.url)), (a) => a).catch((error) => {
    throw error instanceof HalfcountError ? error : new HalfcountError("not-loaded", `the module could not be loaded: ${error?.message ?? error}`, { cause: error });
  });
  const thread = worker ?? new Worker(new URL("./worker-thread.js", import.meta.url), { type: "module" });
  const waiting = [];
  let running;
  let last = 0;
  let closed;

  const next = () => {
    if (running || !waiting.length) return;
    running = waiting.shift();
    const { id, name, given } = running;
    try {
      thread.postMessage({ id, name, given });
    } catch (error) {
      const { reject } = running;
      running = undefined;
      reject(new HalfcountError("option-wrong", `this cannot be sent to a worker: ${error.message}`, { cause: error }));
      next();
    }
  };
  const end = (error) => {
    closed ??= error;
    for (const call of [running, ...waiting.splice(0)]) call?.reject(error);
    running = undefined;
  };
  thread.addEventListener("message", ({ data: { id, value, error } }) => {
    if (id !== running?.id) {
      if (error) end(new HalfcountError(error.code, error.message));
      return;
    }
    const { resolve, reject } = running;
    running = undefined;
    if (error) reject(new HalfcountError(error.code, error.message));
    else resolve(value);
    next();
  });
  thread.addEventListener("error", (event) => {
    end(new HalfcountError("not-loaded", `the worker could not be started: ${event.message ?? "its script was not found"}`));
  });
  thread.postMessage({ module });

  const call = (name, given) => new Promise((resolve, reject) => {
    if (closed) return reject(closed);
    if (newest) {
      const old = waiting.findIndex((one) => one.name === name);
      if (old >= 0) waiting.splice(old, 1)[0].reject(new HalfcountError("dropped", `a newer call of ${name} took its place`));
    }
    waiting.push({ id: ++last, name, given, resolve, reject });
    next();
  });
  const desk = {
    close() {
      thread.terminate();
      end(new HalfcountError("closed", "the worker has been closed"));
    },
  };
  for (const name of NAMES) desk[name] = (...given) => call(name, given);
  return desk;
}
