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

/** The dance that the build worked out beforehand, so that feet stand on the floor before the module is there. */
function ahead() {
  try {
    return JSON.parse(document.querySelector("#ahead").textContent);
  } catch {
    return null;
  }
}

/** What to begin with: the sheet of the link, else what was here last, else the first dance. */
async function first(prepared) {
  const linked = await fromLink();
  const mine = kept("text", null);
  const own = mine?.text?.trim() ? mine : null;
  if (location.hash.startsWith("#sheet=")) {
    history.replaceState(null, "", location.pathname + location.search);
    if (linked === null) say("The link holds no sheet that can be read.");
  }
  if (linked === null) return own ?? { text: prepared.text, file: prepared.file };
  if (own && own.text !== linked && !(await sheet.known(own.text))) sheet.setAside(own);
  return { text: linked, file: "linked.txt" };
}

try {
  const module = open();
  const prepared = ahead();
  const start = await first(prepared);
  sheet.plain.value = start.text;
  if (start.text === prepared?.text) {
    setText(start.text, { file: start.file, prepared });
    performance.mark("first-footprints");
  }
  await module;
  document.documentElement.classList.remove("own");
  setText(start.text, { file: start.file, sameDance: start.text === prepared?.text });
  performance.mark("all-there");
} catch {
  document.documentElement.classList.remove("own");
  // What has come keeps working: the first dance can be played, but no other sheet read.
  say("Not all of the page has come. Load it again when there is a network.", { stay: true });
}
addEventListener("hashchange", async () => {
  const linked = await fromLink();
  if (linked !== null) sheet.offer(linked, "the sheet of the link", "linked.txt");
});
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
