// Small helpers for elements.

/** Makes an element: `make("button", { class: "x", onclick: act }, "words")`. */
export function make(name, attributes = {}, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (key.startsWith("on")) element.addEventListener(key.slice(2), value);
    else if (value === true) element.setAttribute(key, "");
    else element.setAttribute(key, value);
  }
  element.append(...children.filter((c) => c !== null && c !== undefined && c !== ""));
  return element;
}

let names = 0;
export const freshId = (word) => `${word}-${(names += 1)}`;

/** A labelled choice. `options` are pairs of value and words. */
export function choice(words, options, value, act) {
  const id = freshId("choice");
  const select = make("select", { id, onchange: (event) => act(event.target.value) },
    ...options.map(([v, w]) => make("option", { value: v }, w)));
  select.value = value;
  return make("div", { class: "field" }, make("label", { for: id }, words), select);
}

/** A labelled switch. */
export function tick(words, checked, act) {
  const box = make("input", { type: "checkbox", onchange: (event) => act(event.target.checked) });
  box.checked = checked;
  return make("label", { class: "tick" }, box, make("span", {}, words));
}

/** Says something to screen readers without moving the focus, and shows it for a while unless all see it anyway. */
export function say(words, { shown = true, stay = false } = {}) {
  const place = document.querySelector("#said") ?? document.body.appendChild(make("p", { id: "said", role: "status", class: "said" }));
  place.textContent = words;
  place.classList.toggle("shown", shown);
  clearTimeout(say.timer);
  if (!stay) say.timer = setTimeout(() => place.classList.remove("shown"), 3500);
}

/** Offers a file. */
export function hand(name, type, content) {
  const address = URL.createObjectURL(new Blob([content], { type }));
  const link = make("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 10_000);
}

export const fileName = (title, ending) =>
  `${(title || "dance").toLowerCase().normalize("NFKD").replace(/[^a-z0-9]+/g, "-").replace(/^-+|-+$/g, "").slice(0, 60) || "dance"}.${ending}`;


/** Brings the floor into sight, gently unless less motion is asked for. */
export function toFloor() {
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  document.querySelector("#floor").scrollIntoView({ behavior: calm ? "auto" : "smooth", block: "start" });
}

/** Does something once the page has nothing more urgent to do; asked for several times, it is done once. */
export function idly(act) {
  const wait = globalThis.requestIdleCallback ?? ((done) => setTimeout(done, 80));
  let due = false;
  return () => {
    if (due) return;
    due = true;
    wait(() => {
      due = false;
      act();
    }, { timeout: 500 });
  };
}
