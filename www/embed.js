// A worked example: check what a visitor types, in a worker, and show the feet.
//
// Where a bundler is used these three lines name the package: "halfcount/worker" and "halfcount/element".
import { defineFloor } from "./halfcount/element.js";
import { openWorker } from "./halfcount/worker.js";

/** How long nobody types before the sheet is read, in milliseconds. */
const PAUSE = 500;

const sheet = document.querySelector("#sheet");
const sum = document.querySelector("#sum");
const list = document.querySelector("#findings");
const floor = document.querySelector("halfcount-floor");

let worker;
let waiting;

/** Whether a finding is about the line in which somebody types; it can wait until the caret has left. */
function isBeingTyped({ start, end }) {
  if (document.activeElement !== sheet) return false;
  const caret = sheet.selectionStart;
  const from = sheet.value.lastIndexOf("\n", caret - 1) + 1;
  const to = sheet.value.indexOf("\n", caret);
  return start <= (to < 0 ? sheet.value.length : to) && end >= from;
}

/** Makes a mend, the last edit first, so that the places of the others stay. */
function mend({ edits }) {
  for (const { start, end, text } of [...edits].reverse()) sheet.setRangeText(text, start, end, "end");
  sheet.focus();
  read();
}

function item(finding) {
  const shown = document.createElement("li");
  const words = document.createElement("p");
  words.textContent = `Line ${finding.line}, ${finding.severity}: ${finding.message}`;
  shown.append(words);
  for (const fix of finding.fixes) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = fix.sureness === "sure" ? fix.title : `${fix.title}?`;
    button.addEventListener("click", () => mend(fix));
    shown.append(button);
  }
  return shown;
}

async function read() {
  clearTimeout(waiting);
  const text = sheet.value;
  floor.text = text;
  try {
    const report = await worker.check(text);
    // Somebody typed on; what is newer will be read in its turn.
    if (text !== sheet.value) return;
    const findings = report.findings.filter((finding) => !isBeingTyped(finding));
    list.replaceChildren(...findings.map(item));
    sum.textContent = findings.length === 0 ? "Nothing to mend." : `${findings.length} to look at.`;
  } catch (error) {
    if (error.code !== "dropped") sum.textContent = error.message;
  }
}

function readSoon() {
  clearTimeout(waiting);
  waiting = setTimeout(read, PAUSE);
}

try {
  worker = await openWorker({ newest: true });
  defineFloor({ frameNumbers: worker.frameNumbers });
  sheet.addEventListener("input", readSoon);
  sheet.addEventListener("blur", readSoon);
  await read();
} catch (error) {
  sum.textContent = error.message;
}
