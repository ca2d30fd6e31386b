// The page comes to life: the module first, then the dance, then the editor and what can wait.
import "./board.js";
import "./shelf.js";
import "./floor.js";
import "./play-bar.js";
import "./choices.js";
import "./helm.js";
import "./sheet.js";
import "./findings.js";
import "./step-list.js";
import "./keys.js";
import { say } from "./dom.js";
import { ask, open } from "./harbour.js";
import { kept } from "./keep.js";
import { fromLink } from "./link.js";
import { setText, state } from "./state.js";

const sheet = document.querySelector("step-sheet");
const shelf = document.querySelector("dance-shelf");

async function first() {
  const linked = await fromLink();
  if (linked !== null) return { text: linked, file: "linked.txt" };
  const mine = kept("text", null);
  if (mine?.text?.trim()) return mine;
  return { text: await shelf.fetch(shelf.dances[0].file), file: `${shelf.dances[0].file}.txt` };
}

try {
  const [start] = await Promise.all([first(), open()]);
  sheet.plain.value = start.text;
  setText(start.text, { file: start.file });
  performance.mark("first-footprints");
} catch (error) {
  say(`The page could not be started: ${error.message}`);
}
await sheet.equip().catch(() => {});
await import("./later.js");
document.documentElement.dataset.ready = String(Boolean(state.dance));
if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("worker.js").catch(() => {
    // Served from a place without a worker, the page needs the network; nothing else changes.
  });
}
// For the page's own tests and for the curious.
globalThis.halfcountPage = { state, ask };
