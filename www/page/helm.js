// Runs the count: takes the time of each picture and moves the tick on, keeps to a looped section, counts in.
import { on, pause, setTick, state, stretchAt, tell } from "./state.js";
import { sound } from "./sound.js";

let before = 0;
let lead = 0;

function bounds() {
  const s = state.playlist?.stretches[state.loop];
  return s && state.loop >= 0 ? [(s.before + 1) * 24 - 12, (s.before + s.counts) * 24 + 12] : [state.from, state.end];
}

function run(now) {
  if (!state.playing) return;
  // A page that was hidden goes on where it stopped instead of leaping.
  const passed = Math.min(0.1, (now - before) / 1000);
  before = now;
  const ticks = (passed * state.tempo * state.view.speed * 24) / 60;
  if (lead > 0) {
    const was = Math.ceil(lead / 24);
    lead = Math.max(0, lead - ticks);
    const is = Math.ceil(lead / 24);
    if (is !== was && is > 0) countIn(is);
    if (lead === 0) {
      state.counting = 0;
      tell("tick");
    }
    return requestAnimationFrame(run);
  }
  const [from, to] = bounds();
  let next = state.tick + ticks;
  if (state.tick < from || state.tick > to) next = from;
  sound(state.tick, next);
  if (next >= to) {
    if (state.loop >= 0 || state.view.again) {
      setTick(from);
      return requestAnimationFrame(run);
    }
    setTick(to);
    return pause();
  }
  setTick(next);
  requestAnimationFrame(run);
}

function countIn(left) {
  const bar = state.dance?.beats_per_bar === 3 ? 6 : 8;
  state.counting = bar - left + 1;
  sound.lead(state.counting);
  tell("tick");
}

on("play", () => {
  if (!state.playing) return sound.stop();
  sound.start();
  const [from, to] = bounds();
  if (state.tick < from || state.tick >= to - 1) setTick(from);
  before = performance.now();
  lead = 0;
  if (state.view.countIn) {
    const bar = state.dance?.beats_per_bar === 3 ? 6 : 8;
    lead = bar * 24;
    countIn(bar);
  }
  requestAnimationFrame(run);
});

export { bounds, stretchAt };
