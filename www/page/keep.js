// What is kept in this browser, and nowhere else. A browser that keeps nothing is no reason to stop.
const NAME = "halfcount.";

export function kept(name, otherwise) {
  try {
    return JSON.parse(localStorage.getItem(NAME + name)) ?? otherwise;
  } catch {
    return otherwise;
  }
}

export function keep(name, value) {
  try {
    localStorage.setItem(NAME + name, JSON.stringify(value));
  } catch {
    // Private windows and full shelves: the page works without.
  }
}
