// The sheet: what is typed, where the words of the dance are marked, and where findings stand in place.
import { make, say } from "./dom.js";
import { keep, kept } from "./keep.js";
import { on, pause, setText, setTick, state, stepAt, tell } from "./state.js";

// Sheets are small, and a browser keeps some millions of letters.
const MOST_ASIDE = 20;

/** The sheets that were put aside. An earlier build of the page kept one only. */
function aside() {
  const all = kept("before", []);
  return Array.isArray(all) ? all : [all];
}

class StepSheet extends HTMLElement {
  connectedCallback() {
    this.file = make("input", { type: "file", id: "open-file", accept: ".txt,.md,.text,text/plain", onchange: () => this.#read(this.file.files[0]) });
    this.host = make("div", { class: "editor" });
    this.plain = make("textarea", { class: "plain", "aria-label": "The step sheet", spellcheck: "false" });
    this.plain.value = state.text;
    this.plain.addEventListener("input", () => this.#typed(this.plain.value));
    this.plain.addEventListener("click", () => this.#caret(this.plain.selectionStart));
    this.undo = make("button", { type: "button", class: "plainly", hidden: true, onclick: () => this.#bring() }, "Bring back what was here before");
    this.append(
      make("div", { class: "bar" },
        make("h2", { id: "sheet-title" }, "The sheet"),
        make("div", { class: "acts" },
          make("label", { class: "button", for: "open-file" }, "Open a file"), this.file,
          make("button", { type: "button", onclick: () => this.#paste() }, "Paste"),
          make("button", { type: "button", onclick: () => this.offer("", "an empty sheet", "") }, "Start empty"))),
      make("p", { class: "hint" }, "Type, paste or drop a step sheet. Click on a step and the floor shows it."),
      this.host);
    // Where the findings end; they belong nearer to the words.
    queueMicrotask(() => this.parentElement.append(this.undo));
    this.host.append(this.plain);
    this.#everywhere();
    on("findings", () => {
      this.editor?.findings(state.findings);
      // A sheet that has just come shows its first fault instead of its head.
      const fault = this.fresh && state.findings.find((f) => f.severity !== "note");
      if (fault) this.editor?.reveal(fault.start);
      this.fresh = false;
    });
    on("place", () => this.#mark(true));
    on("tick", () => this.#mark(false));
    on("play", () => this.#mark(true));
    this.undo.hidden = !aside().length;
  }

  /** A file may be dropped anywhere on the page, and a sheet be pasted wherever nothing else is being typed. */
  #everywhere() {
    for (const kind of ["dragover", "drop"]) {
      addEventListener(kind, (event) => {
        if (![...event.dataTransfer.types].includes("Files")) return;
        event.preventDefault();
        this.classList.toggle("dropping", kind === "dragover");
        if (kind === "drop") this.#read(event.dataTransfer.files[0]);
      });
    }
    addEventListener("dragleave", (event) => { if (!event.relatedTarget) this.classList.remove("dropping"); });
    addEventListener("paste", (event) => {
      const target = event.composedPath()[0];
      if (target.closest?.("input, textarea, [contenteditable], dialog") || document.querySelector("dialog[open]")) return;
      const text = event.clipboardData?.getData("text/plain").replace(/\r\n?/g, "\n");
      if (text?.trim()) this.offer(text, "the pasted sheet", "pasted.txt");
    });
  }

  /** Brings the editor in; until then, and where it cannot come, a plain field does. */
  async equip() {
    const { editor } = await import("./editor.js");
    const words = this.plain.value;
    this.plain.remove();
    this.editor = editor(this.host, {
      text: words,
      label: "The step sheet",
      changed: (text) => this.#typed(text),
      caret: (at) => this.#caret(at),
      mend: (fix) => this.mend(fix),
    });
    if (state.checked) this.editor.findings(state.findings);
    this.#mark(false);
  }

  #typed(text) {
    clearTimeout(this.pause);
    this.own = true;
    // A finding while a word is half typed is only noise.
    this.pause = setTimeout(() => {
      if (this.silent) return;
      setText(text, { sameDance: true });
      tell("place");
    }, 350);
  }

  /** Puts another sheet in place of this one, and asks first where the words are the reader's own. */
  async offer(text, name, file) {
    const now = this.editor ? this.editor.text() : this.plain.value;
    if (now.trim() === text.trim() && text.trim()) return true;
    const mine = now.trim() && !(await this.known(now));
    if (mine && !(await this.#ask(name))) return false;
    // A dance off the shelf is found there again, and must not push a sheet of one's own out.
    if (mine || (now.trim() && !aside().length)) this.setAside({ text: now, file: state.file });
    this.put(text, file);
    if (text.trim()) say(`${name[0].toUpperCase()}${name.slice(1)} is on the floor.`, { shown: false });
    return true;
  }

  /** Keeps a sheet where one button brings it back, the latest first. */
  setAside(sheet) {
    keep("before", [...aside().filter(({ text }) => text !== sheet.text), sheet].slice(-MOST_ASIDE));
    this.undo.hidden = false;
  }

  put(text, file) {
    clearTimeout(this.pause);
    this.silent = this.fresh = true;
    if (this.editor) this.editor.replace(text);
    else this.plain.value = text;
    clearTimeout(this.pause);
    this.silent = false;
    // The editor keeps lines by \n; offsets must count in what it holds.
    setText(this.editor ? this.editor.text() : text.replace(/\r\n?/g, "\n"), { file });
    pause();
  }

  /** Whether these are the words of a dance off the shelf. */
  async known(text) {
    const shelf = document.querySelector("dance-shelf");
    const all = await Promise.all(shelf.dances.map((d) => shelf.fetch(d.file).catch(() => "")));
    return all.some((words) => words.trim() === text.trim());
  }

  /** The sheet put aside last; what stood here takes its turn behind the others, so that all come round. */
  async #bring() {
    const before = aside();
    const last = before.pop();
    if (!last || !(await this.offer(last.text, "what was here before", last.file))) return;
    const now = aside().filter(({ text }) => text !== last.text && !before.some((sheet) => sheet.text === text));
    keep("before", [...now, ...before]);
    this.undo.hidden = !aside().length;
  }

  #ask(name) {
    return new Promise((resolve) => {
      const dialog = make("dialog", { "aria-labelledby": "ask-title" },
        make("h2", { id: "ask-title" }, "Put your sheet aside?"),
        make("p", {}, `You have typed or opened a sheet of your own. If you take ${name}, yours is kept in this browser and can be brought back.`),
        make("form", { method: "dialog" },
          make("button", { value: "yes", class: "strong" }, `Take ${name}`),
          make("button", { value: "no", autofocus: true }, "Stay with mine")));
      dialog.addEventListener("close", () => {
        resolve(dialog.returnValue === "yes");
        dialog.remove();
      });
      document.body.append(dialog);
      dialog.showModal();
    });
  }

  async #read(file) {
    if (!file) return;
    if (file.size > 1 << 20) return say("That file is longer than any step sheet: 1 MB is the most.");
    const bytes = new Uint8Array(await file.arrayBuffer());
    let text;
    try {
      text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      text = new TextDecoder("windows-1252").decode(bytes);
    }
    this.offer(text.replace(/\r\n?/g, "\n"), `the file ${file.name}`, file.name);
    this.file.value = "";
  }

  async #paste() {
    try {
      const text = (await navigator.clipboard.readText()).replace(/\r\n?/g, "\n");
      if (text.trim()) return this.offer(text, "the pasted sheet", "pasted.txt");
      say("There is nothing to paste: copy a step sheet first.");
    } catch {
      say("The browser does not let the page paste. Click into the sheet and paste with your keyboard.");
    }
  }

  /** A mend of a finding, one undo away like anything typed. */
  mend(fix) {
    // Words typed since the check have moved what the mend is about; the next check comes at once.
    if ((this.editor ? this.editor.text() : this.plain.value) !== state.text) return;
    if (this.editor) this.editor.edit(fix.edits);
    else {
      let text = this.plain.value;
      for (const e of [...fix.edits].reverse()) text = text.slice(0, e.start) + e.text + text.slice(e.end);
      this.plain.value = text;
      this.#typed(text);
    }
    say(`Done: ${fix.title}. Undo brings the old words back.`);
  }

  focus() {
    (this.editor ?? this.plain).focus();
    this.scrollIntoView({ block: "nearest" });
  }

  show(from, to) {
    if (this.editor) this.editor.select(from, to);
    else {
      this.plain.focus();
      this.plain.setSelectionRange(from, to);
    }
  }

  /** The floor shows the step that the caret stands on. */
  #caret(at) {
    const tick = this.#tickAt(at);
    if (tick === null) return;
    pause();
    this.byCaret = true;
    setTick(tick);
    tell("place");
    this.byCaret = false;
  }

  /** The step under a place in the text, or the next on its line, or the section whose heading it is. */
  #tickAt(at) {
    const { steps = [], stretches = [] } = state.playlist ?? {};
    const here = steps.filter((s) => state.wall === 0 || stretches[s.stretch].wall === state.wall);
    const inside = here.filter((s) => s.start <= at && at <= s.end);
    if (inside.length) return inside.reduce((a, b) => (b.end - b.start < a.end - a.start ? b : a)).tick;
    const text = this.editor ? this.editor.text() : this.plain.value;
    const from = text.lastIndexOf("\n", at - 1) + 1;
    const to = (text.indexOf("\n", at) + 1 || text.length + 1) - 1;
    const line = here.filter((s) => s.start >= from && s.start <= to);
    if (line.length) return (line.find((s) => s.start >= at) ?? line.at(-1)).tick;
    const section = stretches.find((s) => (state.wall === 0 || s.wall === state.wall) && s.start >= from && s.start <= to && to > from);
    return section ? (section.before + 1) * 24 : null;
  }

  #mark(settle) {
    if (!this.editor) return;
    const step = state.playlist?.steps[stepAt()];
    const key = step ? `${step.start} ${step.end}` : "";
    if (key === this.key && !settle) return;
    this.key = key;
    this.editor.mark(step?.start ?? 0, step?.end ?? 0, !this.byCaret && (settle || state.playing) && state.view.follow);
  }
}
customElements.define("step-sheet", StepSheet);
