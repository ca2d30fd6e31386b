// Small words around what the package says. The sentences of the steps are its own.

export const turnWords = (turn) => turn.replace(/ R$/, " right").replace(/ L$/, " left");

export const countWords = (count) => count.replace("&", " and").replace(/e$/, " e").replace(/a$/, " a").replace(/^0 and$/, "and");

/** A figure's name with its foot and turn: `coaster step, left foot`. */
export function figureWords(figure) {
  return [figure.name, figure.lead && `${figure.lead} foot`, figure.turn && turnWords(figure.turn)].filter(Boolean).join(", ");
}

export const many = (n, one, more = `${one}s`) => `${n} ${n === 1 ? one : more}`;
export const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

/** Headings come in capitals; on a board they read better without. */
export const tidyName = (name) =>
  (name === name.toUpperCase() ? capital(name.toLowerCase().replace(/\b([lr])\b/g, (m) => m.toUpperCase())) : name);

/** A title in capitals, as a title is set: `Lantern on Pier Five`. Titles with small letters stay as they are. */
export function titleWords(title) {
  const small = ["a", "an", "and", "at", "by", "for", "from", "in", "of", "on", "or", "the", "to", "with"];
  const [shouted, rest] = title.split(/(?=\()/, 2);
  if (shouted !== shouted.toUpperCase() || !/[A-Z]{2}/.test(shouted)) return title;
  const words = shouted.toLowerCase().split(" ").map((word, i) => (i && small.includes(word) ? word : capital(word)));
  return words.join(" ") + (rest ?? "");
}
