// What the page knows, and who is told when it changes. Elements read `state` and listen; only the functions
// here change it.
import { ask } from "./harbour.js";
import { Track } from "./track.js";
import { keep, kept } from "./keep.js";

const bus = new EventTarget();

export const state = {
  text: "",
  file: "",
  dance: null,
  track: null,
  findings: [],
  checked: false,
  tick: 0,
  from: 0,
  to: 0,
  playing: false,
  counting: 0,
  loop: -1,
  wall: 1,
  tempo: 100,
  view: {
    side: "behind", ground: "fixed", zoom: "section", trails: true, speed: 1, countIn: true, click: true,
    voice: "none", follow: true,
    ...kept("view", {}),
  },
};

export const on = (name, act) => bus.addEventListener(name, (event) => act(event.detail));
const tell = (name, detail) => bus.dispatchEvent(new CustomEvent(name, { detail }));
export { tell };

/** How many repetitions a song is worked out for: as far as its tags and restarts reach. */
function songWalls(dance) {
  return Math.min(64, Math.max(1, ...dance.runs.map((run) => run.wall)));
}

/** Takes a new text and works out everything that is shown of it. */
export function setText(text, { file = state.file, sameDance = false, prepared = null } = {}) {
  state.text = text;
  state.file = file;
  keep("text", { text, file });
  const dance = prepared?.dance ?? ask("steps", text, { walls: 1 });
  const old = state.dance?.title;
  state.dance = dance ?? null;
  state.track = prepared ? new Track(prepared.track) : dance ? Track.of(text, 1) : null;
  state.song = null;
  state.findings = [];
  state.checked = false;
  if (!sameDance || old !== dance?.title) {
    state.tempo = dance?.tempo || 100;
    state.tick = 0;
    state.loop = -1;
    state.wall = 1;
    pause();
  }
  setWall(state.wall, { keepPlace: true });
  tell("text");
  if (!prepared) setTimeout(check, 0);
}

function check() {
  const { text } = state;
  const report = ask("check", text, {});
  if (text !== state.text) return;
  state.findings = report?.findings ?? [];
  state.unread = report?.unread ?? [];
  state.checked = true;
  tell("findings");
}

/** Repetition 1 is played from its own first count; another one at its place in the song; 0 is the song. */
export function setWall(wall, { keepPlace = false } = {}) {
  const { dance } = state;
  state.wall = wall;
  if (!dance) {
    Object.assign(state, { from: 0, to: 0, tick: 0, playlist: null });
    return tell("dance");
  }
  if (wall === 1) {
    state.playlist = dance;
    state.playTrack = state.track;
  } else {
    const walls = songWalls(dance);
    state.song ??= { dance: ask("steps", state.text, { walls }), track: Track.of(state.text, walls) };
    // Until the module is there, the first wall is all there is.
    state.playlist = state.song.dance ?? dance;
    state.playTrack = state.song.track ?? state.track;
  }
  const all = state.playlist.stretches;
  const here = wall === 0 ? all : all.filter((s) => s.wall === wall);
  const [first, last] = [here[0], here.at(-1)];
  state.from = first ? first.before * 24 : 0;
  state.to = last ? (last.before + last.counts) * 24 : 0;
  // The position before the first step belongs to the range, and so does all of the last count.
  state.end = state.to + 12;
  if (state.loop >= 0 && !all[state.loop]) state.loop = -1;
  if (!keepPlace || state.tick < state.from || state.tick > state.end) state.tick = state.from;
  tell("dance");
  tell("tick");
}

export function setTick(tick, { quiet = false } = {}) {
  state.tick = Math.max(state.from, Math.min(state.end, tick));
  tell("tick", { quiet });
}

/** Half a count forward or back, to the grid of half-counts. */
export function nudge(way) {
  pause();
  const grid = way > 0 ? Math.floor(state.tick / 12 + 1e-6) + 1 : Math.ceil(state.tick / 12 - 1e-6) - 1;
  setTick(grid * 12);
  tell("place");
}

export function setView(changes) {
  Object.assign(state.view, changes);
  keep("view", state.view);
  tell("view");
}

export function setTempo(tempo) {
  if (!Number.isFinite(tempo)) return;
  state.tempo = Math.max(20, Math.min(300, Math.round(tempo)));
  tell("tempo");
}

export function setLoop(stretch) {
  state.loop = stretch;
  tell("dance");
}

export function play() {
  if (!state.dance?.total || state.playing) return;
  state.playing = true;
  tell("play");
}

export function pause() {
  if (!state.playing) return;
  state.playing = false;
  state.counting = 0;
  tell("play");
  tell("place");
}

/** The section danced at a tick. */
export function stretchAt(tick = state.tick) {
  const all = state.playlist?.stretches ?? [];
  const count = Math.max(1, Math.floor(tick / 24 + 1e-6));
  for (let i = all.length - 1; i > 0; i -= 1) if (all[i].before < count) return i;
  return 0;
}

/** The index of the last step reached at a tick, or -1 before the first. */
export function stepAt(tick = state.tick) {
  const steps = state.playlist?.steps ?? [];
  let low = 0;
  let high = steps.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (steps[middle].tick <= tick + 1e-6) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}

/** The count of a tick within its section, and its half: `[3, true]`. */
export function countAt(tick = state.tick) {
  const stretch = state.playlist?.stretches[stretchAt(tick)];
  const running = Math.floor(tick / 24 + 1e-6);
  if (!stretch || running === 0) return [0, false];
  return [running - stretch.before + stretch.skipped, tick - running * 24 >= 12 - 1e-6];
}
