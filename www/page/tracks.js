// Captions and clicks for the whole song at the tempo that is set. Where the package makes them, its own are
// taken.
import { ask, has } from "./harbour.js";
import { state } from "./state.js";
import { stepWords } from "./wording.js";

const RATE = 11_025;

/** The song with its tags and restarts. */
function song() {
  const walls = Math.max(1, ...state.dance.runs.map((run) => run.wall));
  return ask("steps", state.text, { walls }) ?? state.dance;
}

/** A time as captions write it; halves of a millisecond go up. */
function stamp(seconds) {
  const ms = Math.floor(seconds * 1000 + 0.5);
  const two = (n) => String(n).padStart(2, "0");
  return `${two(Math.floor(ms / 3_600_000))}:${two(Math.floor(ms / 60_000) % 60)}:${two(Math.floor(ms / 1000) % 60)}.${String(ms % 1000).padStart(3, "0")}`;
}

export function captions() {
  if (has("call")) {
    const made = ask("call", state.text, { format: "webvtt", bpm: state.tempo });
    if (typeof made === "string") return made;
  }
  const { steps, total, stretches } = song();
  const second = (tick) => Math.max(0, ((tick - 24) / 24) * (60 / state.tempo));
  const lead = ((state.dance.intro ?? 0) * 60) / state.tempo;
  const moments = [];
  for (const step of steps) {
    const last = moments.at(-1);
    if (last?.tick === step.tick) last.words.push(stepWords(step));
    else moments.push({ tick: step.tick, words: [stepWords(step)], count: step.count, wall: stretches[step.stretch].wall });
  }
  const safe = (words) => words.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
  const cues = moments.map((m, i) => {
    const end = moments[i + 1]?.tick ?? (total + 1) * 24;
    return `${stamp(lead + second(m.tick))} --> ${stamp(lead + second(Math.max(end, m.tick + 1)))}\n${safe(`${m.count}  ${m.words.join("; ")}`)}`;
  });
  return `WEBVTT\n\n${cues.join("\n\n")}\n`;
}

/** Clicks as plain sound: eight bits, one channel, a higher one on the first beat of each bar. */
export function clicks() {
  const { total } = song();
  const bar = state.dance.beats_per_bar || 4;
  const counts = (state.dance.intro ?? 0) + total;
  const beat = 60 / state.tempo;
  const length = Math.ceil((counts * beat + 0.5) * RATE);
  const bytes = new Uint8Array(44 + length).fill(128, 44);
  const view = new DataView(bytes.buffer);
  const word = (at, letters) => [...letters].forEach((c, i) => view.setUint8(at + i, c.charCodeAt(0)));
  word(0, "RIFF");
  view.setUint32(4, 36 + length, true);
  word(8, "WAVEfmt ");
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, RATE, true);
  view.setUint32(28, RATE, true);
  view.setUint16(32, 1, true);
  view.setUint16(34, 8, true);
  word(36, "data");
  view.setUint32(40, length, true);
  for (let count = 0; count < counts; count += 1) {
    const from = Math.round(count * beat * RATE);
    const tone = count % bar === 0 ? 1320 : 990;
    for (let i = 0; i < RATE * 0.05 && from + i < length; i += 1) {
      bytes[44 + from + i] = Math.round(128 + 90 * Math.exp(-i / 110) * Math.sin((2 * Math.PI * tone * i) / RATE));
    }
  }
  return bytes;
}
