// Reads caption files with a strict parser of the W3C's form; any error it reports is one.
//
// usage: node captions.mjs PARSER FILE [BPM INTRO]
// With a tempo and the counts of the intro, the count cues must lie within a millisecond of the exact fraction.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const [parserFolder, name, bpm, intro] = process.argv.slice(2);
const { WebVTTParser } = createRequire(parserFolder + "/")("webvtt-parser");
const text = readFileSync(name, "utf8");
const { cues, errors } = new WebVTTParser().parse(text, "captions");

if (errors.length > 0) {
  console.error(name, errors);
  process.exit(1);
}
if (cues.length < 10) {
  console.error(name, "holds only", cues.length, "cues");
  process.exit(1);
}
if (new Set(cues.map((cue) => cue.id)).size !== cues.length) {
  console.error(name, "has the same identifier twice");
  process.exit(1);
}
if (bpm) {
  const counts = cues.filter((cue) => cue.id.startsWith("count-"));
  let count = Number(intro);
  for (const cue of counts) {
    const lit = [...cue.text.matchAll(/<(\d+):(\d+)\.(\d+)>/g)];
    const inside = lit.map((m) => Number(m[1]) * 60 + Number(m[2]) + Number(m[3]) / 1000);
    for (const at of [cue.startTime, ...inside]) {
      const exact = (count * 60) / Number(bpm);
      if (Math.abs(at - exact) > 0.001) {
        console.error(name, cue.id, at, "is not", exact);
        process.exit(1);
      }
      count += 1;
    }
  }
}
console.log(`   ${cues.length} cues, no errors`);
