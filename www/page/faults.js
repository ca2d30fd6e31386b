// Findings where they stand: underlined words, a bar at the edge of their line, and a card with the sentence and
// the mends. The card opens under the mouse, by a click or a tap, and by key; it stays while it is in use.
import { StateEffect, StateField } from "@codemirror/state";
import { Decoration, EditorView, ViewPlugin, keymap } from "@codemirror/view";
import { make } from "./dom.js";
import { capital } from "./wording.js";

const WAIT = 280;
const setFound = StateEffect.define();

const found = StateField.define({
  create: () => Decoration.none,
  update(old, change) {
    let now = old.map(change.changes);
    for (const effect of change.effects) if (effect.is(setFound)) now = marks(change.state.doc, effect.value);
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

/** Marks for all findings; what is missing at one place only is shown at the letter beside it. */
function marks(doc, list) {
  const ranges = [];
  for (const finding of list) {
    let from = Math.min(finding.start, doc.length);
    let to = Math.min(Math.max(finding.end, from), doc.length);
    if (from === to) [from, to] = from ? [from - 1, from] : [0, Math.min(1, doc.length)];
    if (from === to) continue;
    ranges.push(Decoration.mark({ class: `fault ${finding.severity}`, finding }).range(from, to));
    if (finding.severity !== "note") ranges.push(Decoration.line({ class: `faulty ${finding.severity}` }).range(doc.lineAt(from).from));
  }
  return Decoration.set(ranges, true);
}

/** The findings whose words stand at a place, and where the words of the first begin and end. */
function at(view, place) {
  const here = { list: [], from: place, to: place };
  view.state.field(found).between(place, place, (from, to, { spec }) => {
    if (!spec.finding) return;
    if (!here.list.length) Object.assign(here, { from, to });
    here.list.push(spec.finding);
  });
  return here;
}

const card = (mend) => ViewPlugin.define((view) => {
  const box = make("div", { class: "fault-card", role: "group", "aria-label": "To mend", hidden: true });
  let [from, to] = [0, 0];
  let timer;
  let pinned = false;

  function put() {
    if (box.hidden) return;
    view.requestMeasure({
      key: box,
      read: () => [view.coordsAtPos(from, 1), view.coordsAtPos(to, -1), view.scrollDOM.getBoundingClientRect(), box.getBoundingClientRect()],
      write([word, last, sheet, { width, height }]) {
        const seen = word && last && word.bottom > Math.max(0, sheet.top) && word.top < Math.min(innerHeight, sheet.bottom);
        box.style.visibility = seen ? "" : "hidden";
        if (!seen) return;
        const below = last.bottom + 6;
        box.style.left = `${Math.max(8, Math.min(word.left, sheet.right - width))}px`;
        box.style.top = `${below + height > innerHeight && word.top - height > 6 ? word.top - height - 6 : below}px`;
      },
    });
  }
  function shut() {
    clearTimeout(timer);
    box.hidden = true;
    pinned = false;
  }
  function open(place, stay) {
    const here = at(view, place);
    if (!here.list.length) return false;
    clearTimeout(timer);
    ({ from, to } = here);
    pinned = stay;
    box.replaceChildren(...here.list.map((finding) => make("div", { class: finding.severity },
      make("p", {}, finding.message),
      ...finding.fixes.map((fix) => make("button", { type: "button", onclick: () => { mend(fix); view.focus(); } }, capital(fix.title))))));
    box.hidden = false;
    put();
    return true;
  }
  const later = (act) => {
    clearTimeout(timer);
    timer = setTimeout(act, WAIT);
  };
  const word = (event) => event.target.closest?.(".fault");
  const over = (event) => {
    const mark = word(event);
    if (mark) later(() => open(view.posAtDOM(mark), false));
  };
  const out = () => { if (!pinned) later(shut); };
  view.contentDOM.addEventListener("mouseover", over);
  view.contentDOM.addEventListener("mouseout", out);
  view.contentDOM.addEventListener("click", (event) => {
    const mark = word(event);
    if (!mark || !open(view.posAtDOM(mark), true)) shut();
  });
  box.addEventListener("mouseenter", () => clearTimeout(timer));
  box.addEventListener("mouseleave", out);
  box.addEventListener("keydown", (event) => {
    if (event.key !== "Escape") return;
    shut();
    view.focus();
  });
  for (const kind of ["scroll", "resize"]) addEventListener(kind, put, true);
  // A press anywhere else is an end of it.
  addEventListener("pointerdown", (event) => { if (!event.composedPath().includes(view.dom)) shut(); });
  view.dom.append(box);
  return {
    open, shut,
    update(change) {
      if (change.docChanged || change.transactions.some((t) => t.effects.some((e) => e.is(setFound)))) shut();
      else if (change.geometryChanged) put();
    },
  };
});

/** The extensions, and `show(view, findings)` that hands them a new list. */
export function faults(mend) {
  const plugin = card(mend);
  const next = (view) => {
    const { head } = view.state.selection.main;
    const starts = [];
    view.state.field(found).between(0, view.state.doc.length, (from, to, { spec }) => { if (spec.finding) starts.push(from); });
    if (!starts.length) return false;
    const place = starts.find((from) => from > head) ?? starts[0];
    view.dispatch({ selection: { anchor: place }, scrollIntoView: true, userEvent: "select" });
    return view.plugin(plugin).open(place, true);
  };
  const close = (view) => {
    view.plugin(plugin).shut();
    return false;
  };
  return {
    extensions: [found, plugin, keymap.of([{ key: "F8", run: next }, { key: "Escape", run: close }])],
    show: (view, list) => view.dispatch({ effects: setFound.of(list) }),
  };
}
