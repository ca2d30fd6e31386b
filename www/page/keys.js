// Keys for the floor, while nothing is being typed.
import { nudge, pause, play, setLoop, setTick, setView, state, stretchAt, tell } from "./state.js";

const typing = (target) => target.closest?.("input:not([type=range],[type=checkbox]), textarea, select, dialog, [contenteditable]") || target.shadowRoot;
const SIDES = ["behind", "facing", "mirrored"];

function section(way) {
  const all = state.playlist?.stretches ?? [];
  const next = all[stretchAt() + way];
  pause();
  setTick(next ? (next.before + 1) * 24 : way < 0 ? state.from : state.end);
  tell("place");
}

addEventListener("keydown", (event) => {
  const target = event.composedPath()[0];
  if (event.altKey || event.ctrlKey || event.metaKey || typing(event.target) || typing(target)) return;
  // Buttons, boxes and the slider keep the keys that are theirs.
  const own = target.closest?.("button, summary, a, label, input");
  const slider = target.closest?.("input[type=range]");
  const act = {
    " ": () => (state.playing ? pause() : play()),
    ArrowLeft: () => nudge(-1),
    ArrowRight: () => nudge(1),
    PageUp: () => section(-1),
    PageDown: () => section(1),
    Home: () => { pause(); setTick(state.from); tell("place"); },
    r: () => setLoop(state.loop >= 0 ? -1 : stretchAt()),
    m: () => setView({ side: SIDES[(SIDES.indexOf(state.view.side) + 1) % 3] }),
  }[event.key.length === 1 ? event.key.toLowerCase() : event.key];
  if (!act || (own && event.key === " ") || slider) return;
  // The page keys and Home scroll, unless the floor is in use.
  if (["PageUp", "PageDown", "Home"].includes(event.key) && !target.closest?.("#floor")) return;
  event.preventDefault();
  act();
});
