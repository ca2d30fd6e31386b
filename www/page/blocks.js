// The package writes plans as plain text: headings in capitals, points two spaces in, what belongs to a point
// further in. Here they become headings and lists again.

/** `[{ heading, points: [{ words, under: [words] }] }]`; lines before the first heading are left out. */
export function blocks(text) {
  const all = [];
  for (const line of text.split("\n")) {
    const words = line.trim();
    if (!words) continue;
    const deep = line.length - line.trimStart().length;
    if (deep === 0) {
      const heading = words === words.toUpperCase() && /[A-Z]/.test(words);
      if (heading) all.push({ heading: words.charAt(0) + words.slice(1).toLowerCase(), points: [] });
      else if (all.length) all.push({ heading: "", points: [{ words, under: [] }] });
    } else if (all.length) {
      const { points } = all.at(-1);
      if (deep < 4 || !points.length) points.push({ words, under: [] });
      else points.at(-1).under.push(words);
    }
  }
  return all;
}
