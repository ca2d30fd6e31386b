// Clicks and a voice, where the browser has them. Nothing hangs on either.
import { countAt, state, stretchAt } from "./state.js";

let audio;

function click(strong, soft = false) {
  if (!state.view.click) return;
  try {
    audio ??= new AudioContext();
    if (audio.state === "suspended") audio.resume();
    const [tone, level] = [audio.createOscillator(), audio.createGain()];
    const now = audio.currentTime;
    tone.type = "triangle";
    tone.frequency.value = strong ? 1320 : soft ? 660 : 990;
    level.gain.setValueAtTime(soft ? 0.08 : 0.25, now);
    level.gain.exponentialRampToValueAtTime(0.001, now + 0.06);
    tone.connect(level).connect(audio.destination);
    tone.start(now);
    tone.stop(now + 0.07);
  } catch {
    // A browser without sound shows the count all the same.
  }
}

function speak(words) {
  if (state.view.voice === "none" || !("speechSynthesis" in globalThis)) return;
  speechSynthesis.cancel();
  const said = new SpeechSynthesisUtterance(words);
  said.lang = "en-GB";
  said.rate = Math.min(1.8, Math.max(0.9, (state.tempo * state.view.speed) / 75));
  speechSynthesis.speak(said);
}

/** Sounds whatever lies between two ticks. */
export function sound(from, to) {
  if (state.view.voice === "calls") {
    // The package lays each call so that it is over when its step falls; one voice says one thing at a time.
    const due = (state.playlist.calls ?? []).filter((call) => call.starts > from && call.starts <= to);
    if (due.length) speak(due.map((call) => call.words).join(", "));
  }
  const count = Math.floor(to / 24 + 1e-9);
  if (count === Math.floor(from / 24 + 1e-9) || count < 1) return;
  const [own] = countAt(count * 24);
  click(own % (state.dance.beats_per_bar || 4) === 1);
  if (state.view.voice === "counts") speak(String(own));
}

sound.lead = (count) => {
  click(count === 1);
  if (state.view.voice !== "none") speak(String(count));
};
sound.start = () => { audio?.resume?.(); };
sound.stop = () => { if ("speechSynthesis" in globalThis) speechSynthesis.cancel(); };
export { stretchAt };
