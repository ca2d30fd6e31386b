// The editor, loaded after the first picture. It lives in a shadow tree, where its styles need no leave from
// the page's policy.
import {
  cursorDocEnd, cursorDocStart, cursorPageDown, cursorPageUp, history, historyKeymap, insertNewline, selectAll, selectDocEnd,
  selectDocStart, selectPageDown, selectPageUp,
} from "@codemirror/commands";
import { EditorState, StateEffect, StateField } from "@codemirror/state";
import { Decoration, EditorView, highlightActiveLine, keymap, placeholder } from "@codemirror/view";
import { faults } from "./faults.js";

// What the browser itself does not do in a text of which it sees only a part. The rest of the usual keys would
// bring a parser of programming languages along.
const KEYS = [
  { key: "Enter", run: insertNewline },
  { key: "Mod-a", run: selectAll },
  { key: "Mod-Home", run: cursorDocStart, shift: selectDocStart },
  { key: "Mod-End", run: cursorDocEnd, shift: selectDocEnd },
  { mac: "Cmd-ArrowUp", run: cursorDocStart, shift: selectDocStart },
  { mac: "Cmd-ArrowDown", run: cursorDocEnd, shift: selectDocEnd },
  { key: "PageUp", run: cursorPageUp, shift: selectPageUp },
  { key: "PageDown", run: cursorPageDown, shift: selectPageDown },
];

const setMark = StateEffect.define();
const mark = StateField.define({
  create: () => Decoration.none,
  update(old, change) {
    let now = old.map(change.changes);
    for (const effect of change.effects) {
      if (!effect.is(setMark)) continue;
      const [from, to] = effect.value ?? [0, 0];
      now = to > from ? Decoration.set(Decoration.mark({ class: "cm-danced" }).range(from, to)) : Decoration.none;
    }
    return now;
  },
  provide: (field) => EditorView.decorations.from(field),
});

const theme = EditorView.theme({
  "&": { backgroundColor: "transparent", color: "var(--ink)", fontSize: "0.84rem", height: "100%" },
  "&.cm-focused": { outline: "3px solid var(--focus)", outlineOffset: "-3px" },
  ".cm-scroller": { fontFamily: "var(--mono)", lineHeight: "1.55" },
  ".cm-content": { padding: "0.75rem 0", caretColor: "var(--ink)" },
  ".cm-line": { padding: "0 0.75rem" },
  ".cm-placeholder": { color: "var(--ink-soft)" },
  ".cm-activeLine": { backgroundColor: "var(--wash)", backgroundClip: "content-box" },
  ".cm-content ::selection": { backgroundColor: "var(--select)" },
  ".cm-danced": { backgroundColor: "var(--danced)", boxShadow: "0 2px 0 var(--magenta)", borderRadius: "2px" },
  ".fault": { textDecoration: "underline dotted var(--ink-soft) 2px", textUnderlineOffset: "4px" },
  ".fault.error": { textDecoration: "underline wavy var(--port) 2px" },
  ".fault.warning": { textDecoration: "underline wavy var(--amber) 2px" },
  ".faulty": { boxShadow: "inset 6px 0 0 var(--amber)" },
  ".faulty.error": { boxShadow: "inset 6px 0 0 var(--port)" },
  ".fault-card": { position: "fixed", zIndex: "7", width: "max-content", maxWidth: "min(23rem, calc(100vw - 16px))", boxSizing: "border-box", backgroundColor: "var(--paper)", color: "var(--ink)", border: "1.5px solid var(--ink)", boxShadow: "0 6px 18px rgb(10 25 38 / 0.25)", fontFamily: "var(--sans)", fontSize: "1rem", lineHeight: "1.45" },
  ".fault-card[hidden]": { display: "none" },
  ".fault-card > div": { padding: "0.7rem 0.9rem", borderLeft: "6px solid var(--ink-soft)" },
  ".fault-card > .error": { borderLeftColor: "var(--port)" },
  ".fault-card > .warning": { borderLeftColor: "var(--amber)" },
  ".fault-card p": { margin: "0" },
  ".fault-card button": { font: "inherit", display: "block", margin: "0.6rem 0 0", padding: "0.45rem 0.9rem", minHeight: "2.6rem", textAlign: "left", backgroundColor: "var(--ink)", color: "var(--on-ink)", border: "0", borderRadius: "2px", cursor: "pointer" },
  ".fault-card button:hover": { backgroundColor: "var(--magenta)" },
  ".fault-card button:focus-visible": { outline: "3px solid var(--focus)", outlineOffset: "2px" },
});

// To bring a place into sight, only the sheet scrolls; the page stays where the reader has it. An editor out of
// sight knows the heights of its broken lines no better than by guess, and would jump when it comes in sight; a
// place to scroll to is the one thing that makes it measure them there.
const QUIET = 41;
const reveal = (at) => EditorView.scrollIntoView(at, { y: "center", yMargin: QUIET });
const scrollSheet = EditorView.scrollHandler.of((view, range, { yMargin }) => {
  if (yMargin !== QUIET) return false;
  const line = view.lineBlockAt(range.head);
  const { scrollTop, clientHeight } = view.scrollDOM;
  if (line.top < scrollTop + 20 || line.bottom > scrollTop + clientHeight - 40) {
    view.scrollDOM.scrollTop = Math.max(0, line.top - clientHeight / 3);
  }
  return true;
});

/** Puts an editor into `host`. `changed` hears each new text, `caret` each place of the caret. */
export function editor(host, { text, label, changed, caret, mend }) {
  const found = faults(mend);
  const root = host.attachShadow({ mode: "open" });
  const view = new EditorView({
    root,
    parent: root,
    state: EditorState.create({
      doc: text,
      extensions: [
        history(), highlightActiveLine(), EditorView.lineWrapping, placeholder("For example: 1-2 Step R to right side, step L behind R"), mark, scrollSheet, found.extensions, theme,
        keymap.of([...historyKeymap, ...KEYS]),
        EditorView.contentAttributes.of({ "aria-label": label, tabindex: "0", spellcheck: "false", autocapitalize: "off" }),
        EditorView.updateListener.of((update) => {
          if (update.docChanged) changed(update.state.doc.toString());
          else if (update.selectionSet) {
            const person = update.transactions.some((t) => t.isUserEvent("select"));
            if (person) caret(update.state.selection.main.head);
          }
        }),
      ],
    }),
  });
  // Offsets count \n as one and come from the text as the editor holds it.
  const within = (at) => Math.max(0, Math.min(view.state.doc.length, at));
  return {
    view,
    text: () => view.state.doc.toString(),
    focus: () => view.focus(),
    replace(words) {
      view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: words }, selection: { anchor: 0 } });
      view.scrollDOM.scrollTop = 0;
    },
    edit(edits) {
      view.dispatch({ changes: edits.map((e) => ({ from: within(e.start), to: within(e.end), insert: e.text })), userEvent: "input.mend" });
    },
    select(from, to) {
      view.dispatch({ selection: { anchor: within(from), head: within(to) }, effects: EditorView.scrollIntoView(within(from), { y: "center", yMargin: 40 }) });
      view.focus();
    },
    mark(from, to, scroll) {
      const effects = [setMark.of(to > from ? [within(from), within(to)] : null)];
      if (scroll && to > from) effects.push(reveal(within(from)));
      view.dispatch({ effects });
    },
    /** Scrolls to a place. */
    reveal(from) {
      view.dispatch({ effects: reveal(within(from)) });
    },
    findings: (list) => found.show(view, list),
  };
}
