// Captions and clicks for the whole song at the tempo that is set.
import { ask, has } from "./harbour.js";
import { state } from "./state.js";

const RATE = 11_025;

/** Whether this build of the package makes captions and MIDI. */
export const calls = () => has("call");
export const captions = () => ask("call", state.text, { format: "webvtt", bpm: state.tempo });
export const midi = () => ask("call", state.text, { format: "midi", bpm: state.tempo });

/** Clicks as plain sound: eight bits, one channel, a higher one on the first beat of each bar. */
export function clicks() {
  const counts = (state.dance.intro ?? 0) + Math.max(state.dance.total, state.dance.runs.reduce((sum, run) => sum + run.counts, 0));
  const bar = state.dance.beats_per_bar || 4;
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
