// The first view as plain markup, so that feet stand on the floor with the first paint and need no script for it.
// The page's own elements draw it, here on the smallest document that they are content with.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { build } from "esbuild";

const VOID = new Set(["input", "img", "br"]);
const REFLECTED = ["id", "hidden", "disabled", "min", "max", "value", "open"];
const escape = (text) => String(text).replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll("\"", "&quot;");

class Element {
  constructor(name) {
    this.localName = name;
    this.attributes = new Map();
    this.nodes = [];
    this.style = {};
    this.dataset = new Proxy({}, {
      get: (_, key) => this.getAttribute(`data-${key}`),
      set: (_, key, value) => { this.setAttribute(`data-${key}`, value); return true; },
    });
    const words = () => (this.getAttribute("class") ?? "").split(" ").filter(Boolean);
    this.classList = {
      toggle: (word, on) => {
        const rest = words().filter((w) => w !== word);
        this.setAttribute("class", (on ? [...rest, word] : rest).join(" "));
      },
    };
    for (const key of REFLECTED) {
      Object.defineProperty(this, key, {
        get: () => this.attributes.get(key) ?? false,
        set: (value) => { if (value === false) this.attributes.delete(key); else this.setAttribute(key, value === true ? "" : value); },
      });
    }
  }
  get children() { return this.nodes.filter((n) => n instanceof Element); }
  get firstChild() { return this.nodes[0]; }
  get lastChild() { return this.nodes.at(-1); }
  get textContent() { return this.nodes.map((n) => n.textContent ?? n).join(""); }
  set textContent(text) { this.nodes = text === "" ? [] : [String(text)]; }
  set innerHTML(markup) { this.nodes = [{ markup, textContent: "" }]; }
  append(...nodes) { this.nodes.push(...nodes.filter((n) => n !== "")); }
  prepend(...nodes) { this.nodes.unshift(...nodes); }
  replaceChildren(...nodes) { this.nodes = nodes.filter((n) => n !== ""); }
  setAttribute(key, value) { this.attributes.set(key, String(value)); }
  getAttribute(key) { return this.attributes.get(key) ?? null; }
  removeAttribute(key) { this.attributes.delete(key); }
  addEventListener() {}
  querySelector(selector) {
    const [, key, value] = selector.match(/^\[([\w-]+)(?:="(.*)")?\]$/);
    for (const child of this.children) {
      const found = child.attributes.has(key) && (value === undefined || child.getAttribute(key) === value) ? child : child.querySelector(selector);
      if (found) return found;
    }
    return null;
  }
  get markup() {
    const attributes = [...this.attributes].map(([key, value]) => (value === "" ? ` ${key}` : ` ${key}="${escape(value)}"`)).join("");
    const inner = this.nodes.map((n) => n.markup ?? escape(n)).join("");
    return `<${this.localName}${attributes}>${VOID.has(this.localName) ? "" : `${inner}</${this.localName}>`}`;
  }
}

/** The markup of each element of the first view, by name. */
export async function prerender(here, halfcount, ahead) {
  const classes = new Map();
  Object.assign(globalThis, {
    HTMLElement: Element,
    customElements: { define: (name, c) => classes.set(name, c) },
    document: { createElement: (name) => new Element(name), createElementNS: (_, name) => new Element(name), querySelector: () => null },
    matchMedia: () => ({ matches: false, addEventListener() {} }),
  });
  const names = ["dance-title", "dance-facts", "count-board", "dance-floor", "play-bar"];
  const folder = await mkdtemp(join(tmpdir(), "halfcount-page-"));
  try {
    const outfile = join(folder, "first.mjs");
    const contents = "import \"./board.js\"; import \"./floor.js\"; import \"./play-bar.js\"; export { setText } from \"./state.js\";";
    await build({ bundle: true, format: "esm", outfile, alias: { halfcount }, stdin: { contents, resolveDir: join(here, "page") }, logLevel: "warning" });
    const { setText } = await import(pathToFileURL(outfile).href);
    const all = names.map((name) => [name, new (classes.get(name))(name)]);
    for (const [, element] of all) element.connectedCallback();
    setText(ahead.text, { file: ahead.file, prepared: ahead });
    return all.map(([name, element]) => [name, element.markup]);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
