// For everyone: the rows of WCAG 2.2 that a page with moving feet answers to, and the page without a network.
import assert from "node:assert/strict";
import { SHAPES, accessible, check, drawer, go, ready, sheet, take } from "../room.mjs";

// 1.1.1, 1.3.1: the floor as a list of the same steps under headings, findings as a list.
await check("the floor and the list say the same", "laptop", async (page) => {
  const list = page.getByRole("region", { name: "Step by step" });
  assert.equal(await list.getByRole("heading", { level: 3 }).count(), 4);
  assert.equal(await list.getByRole("listitem").count(), 32);
  await go(page, 24 * 31);
  const spoken = await page.locator("step-list [aria-current=step]").innerText();
  const name = await page.locator("#plot-name").textContent();
  assert.match(name, /Count 7: turn 1\/4 right to face 3:00 and step the right foot to the right side; weight on the right foot\.$/);
  assert.match(spoken.replaceAll("\n", " "), /Turn 1\/4 right to face 3:00 and step the right foot to the right side/);
});

// 1.4.1: left and right, weight and none differ without colour.
await check("left and right differ by letter and hatching, weight by filling", "laptop", async (page) => {
  await go(page, 24);
  assert.deepEqual(await page.locator("dance-floor text.letter").allTextContents(), ["L", "R"]);
  assert.match(await page.locator("dance-floor .foot.left:not(.still) .foot-tide").getAttribute("fill"), /^url\(#/);
  const fill = (foot) => page.locator(`dance-floor .foot.${foot}:not(.still) clipPath rect`).getAttribute("height");
  assert.ok(Number(await fill("right")) > 0.9 && Number(await fill("left")) < 0.1);
});

// 1.4.3 is axe's; 1.4.11: what must be told apart stands out by 3:1 from what is beside it.
for (const colorScheme of ["light", "dark"]) {
  await check(`prints, needle and controls stand out by 3:1 in the ${colorScheme}`, "laptop", async (page) => {
    const weak = await page.evaluate(() => {
      const style = getComputedStyle(document.documentElement);
      const light = (name) => {
        const hex = style.getPropertyValue(name).trim().slice(1);
        const full = hex.length === 3 ? [...hex].map((c) => c + c).join("") : hex;
        const [r, g, b] = [0, 2, 4].map((i) => parseInt(full.slice(i, i + 2), 16) / 255).map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4));
        return 0.2126 * r + 0.7152 * g + 0.0722 * b;
      };
      const pairs = [["--port", "--water"], ["--starboard", "--water"], ["--port", "--paper"], ["--starboard", "--paper"], ["--magenta", "--water"],
        ["--magenta", "--paper"], ["--ink", "--paper"], ["--ink", "--water"], ["--focus", "--paper"], ["--focus", "--ground"], ["--line", "--paper"], ["--amber", "--paper"]];
      return pairs.map(([a, b]) => [a, b, [light(a), light(b)].sort((x, y) => y - x)]).map(([a, b, [x, y]]) => [a, b, (x + 0.05) / (y + 0.05)])
        .filter(([, , ratio]) => ratio < 3).map(([a, b, ratio]) => `${a} on ${b}: ${ratio.toFixed(2)}`);
    });
    assert.deepEqual(weak, []);
    await take(page, "slip");
    await page.getByText("1 thing to mend.").waitFor();
    await accessible(page, `the ${colorScheme}`);
    await page.getByText("How to read the prints").click();
    await accessible(page, `the key in the ${colorScheme}`);
  }, { colorScheme });
}

// 1.4.10: also with the drawers open and a fault shown.
await check("nothing scrolls both ways at 320 px", "narrow", async (page) => {
  await drawer(page);
  await page.getByText("How to read the prints").click();
  await take(page, "slip");
  await page.getByText("1 thing to mend.").waitFor();
  const [inner, outer] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(inner <= outer, `${inner} px are needed`);
  await accessible(page, "320 px");
});

// 2.1.1, 2.1.2, 2.4.7, 2.4.11: all that acts is reached with Tab, seen and not covered, and the sheet lets go.
for (const shape of ["laptop", "phone"]) {
  await check("everything is reached by key, with a ring that shows", shape, async (page) => {
    const wanted = await page.evaluate(() => [...document.querySelectorAll("button, select, summary, input, a[href]")]
      .filter((e) => e.checkVisibility({ visibilityProperty: true }) && !e.disabled).length);
    const seen = new Set();
    const poor = [];
    for (let i = 0; i < wanted + 12; i += 1) {
      await page.keyboard.press("Tab");
      const at = await page.evaluate(async () => {
        let e = document.activeElement;
        while (e.shadowRoot?.activeElement) e = e.shadowRoot.activeElement;
        // The editor puts its ring on a moment later.
        if (e.closest(".cm-editor")) await new Promise((done) => setTimeout(done, 100));
        if (e === document.body) return null;
        const style = getComputedStyle(e);
        const editor = e.closest(".cm-editor");
        const ring = (editor ? getComputedStyle(editor) : e.type === "file" ? getComputedStyle(e.previousElementSibling) : style).outlineStyle;
        const box = e.getBoundingClientRect();
        const here = document.elementFromPoint(Math.min(innerWidth - 1, Math.max(0, box.x + box.width / 2)), Math.min(innerHeight - 1, Math.max(0, box.y + Math.min(box.height, innerHeight) / 2)));
        const clear = e.type === "file" || Boolean(editor) || !here || here === e || e.contains(here) || here.contains(e);
        e.dataset.reached ??= String(Math.random());
        return { id: e.dataset.reached, name: (e.getAttribute("aria-label") ?? e.textContent).trim().slice(0, 40), ring, clear };
      });
      if (!at) break;
      seen.add(at.id);
      if (at.ring === "none") poor.push(`no ring: ${at.name}`);
      if (!at.clear) poor.push(`covered: ${at.name}`);
    }
    assert.deepEqual(poor, []);
    assert.ok(seen.size >= wanted, `${seen.size} of ${wanted} were reached`);
  });
}

// 2.2.2, 2.3.1: nothing moves unasked (see the first check of the floor). While it plays at 200 beats a minute,
// the only things that change at once are the count and single marks: far under the area that may flash.
await check("nothing large flashes at 200 beats a minute", "laptop", async (page) => {
  await page.getByLabel("Count in first").uncheck();
  await page.getByLabel("Beats a minute").fill("200");
  await page.getByLabel("Beats a minute").press("Enter");
  await page.getByRole("button", { name: "Play" }).click();
  await page.waitForTimeout(500);
  const { running, area } = await page.evaluate(() => {
    const box = (e) => e.getBoundingClientRect();
    const big = box(document.querySelector(".count .number"));
    return { running: document.getAnimations().length, area: big.width * big.height };
  });
  assert.equal(running, 0);
  // A quarter of ten degrees of sight, as WCAG reckons it at 1024 by 768.
  assert.ok(area < 21_824, `the count takes ${area.toFixed(0)} square pixels`);
});

// 2.3.3.
await check("with reduced motion the feet stand still between half-counts", "laptop", async (page) => {
  await page.getByLabel("Count in first").uncheck();
  await page.getByRole("button", { name: "Play" }).click();
  const seen = await page.evaluate(async () => {
    const ticks = new Set();
    const until = performance.now() + 1500;
    while (performance.now() < until) {
      await new Promise(requestAnimationFrame);
      ticks.add(Number(document.querySelector("dance-floor").dataset.tick));
    }
    return [...ticks];
  });
  assert.ok(seen.length > 2 && seen.every((tick) => tick % 12 === 0), String(seen));
}, { reducedMotion: "reduce" });

// 2.5.7: the slider's buttons are tried with the floor. 2.5.8: all targets, the editor's own too.
await check("targets are 24 px or more", "phone", async (page) => {
  await drawer(page);
  await take(page, "slip");
  await page.getByText("1 thing to mend.").waitFor();
  const small = await page.evaluate(() => [...document.querySelectorAll("button, select, summary, input:not([type=file]), a[href]:not(.skip), label.button")]
    .filter((e) => e.checkVisibility()).map((e) => [e.closest("label") ?? e, e]).map(([t, e]) => [t.getBoundingClientRect(), e.outerHTML.slice(0, 80)])
    .filter(([r]) => r.width < 24 || r.height < 24).map(([r, words]) => `${r.width.toFixed(0)} by ${r.height.toFixed(0)}: ${words}`));
  assert.deepEqual(small, []);
});

// 4.1.3: what is found is announced where it stands, and the focus stays.
await check("findings are announced without moving the focus", "laptop", async (page) => {
  await sheet(page).focus();
  await page.keyboard.press("Control+End");
  await page.keyboard.insertText("\n\nSECTION 5: ODD\n1-2 Step R forward, step R back\n");
  const status = page.locator("finding-list [role=status]");
  await status.filter({ hasText: /to mend/ }).waitFor();
  assert.ok(await page.evaluate(() => document.activeElement.closest("step-sheet") !== null));
});

await check("without a network the page opens all the same", "laptop", async (page, context) => {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await context.setOffline(true);
  await page.reload();
  await ready(page);
  for (const dance of ["waltz", "ropewalk", "slip"]) await take(page, dance);
  await page.getByText("1 thing to mend.").waitFor();
  await page.evaluate(() => document.querySelector("print-sheet").renew());
});

await check("a browser that keeps nothing and speaks nothing still shows the dance", "laptop", async (page) => {
  await drawer(page);
  await page.getByLabel("Voice").selectOption("calls");
  await page.getByRole("button", { name: "Play" }).click();
  await page.getByRole("button", { name: "Pause" }).click();
}, { before: () => {
  Object.defineProperty(globalThis, "localStorage", { get() { throw new Error("kept shut"); } });
  delete globalThis.speechSynthesis;
  Object.defineProperty(globalThis, "AudioContext", { value: undefined });
} });

await check("the whole width of a large screen is used", "laptop", async (page) => {
  await page.setViewportSize({ width: 2200, height: 1200 });
  assert.ok(await page.locator("dance-floor svg").evaluate((e) => e.getBoundingClientRect().height > 600));
  await page.setViewportSize(SHAPES.laptop);
});

await check("the first picture is the one that the page draws itself", "laptop", async (page, context) => {
  const drawn = () => ["dance-title", "dance-facts", "dance-floor", "play-bar", ".board"].map((name) => document.querySelector(name).innerHTML.replace(/ (style|value)="[^"]*"|=""/g, "").replace(/tide-\w+-\d+/g, "tide"));
  const later = await page.evaluate(drawn);
  const other = await context.browser().newContext({ javaScriptEnabled: false });
  const bare = await other.newPage();
  await bare.goto(process.argv[2]);
  const ahead = await bare.evaluate(drawn);
  await other.close();
  ahead.forEach((markup, i) => assert.equal(markup, later[i]));
});

await check("feet stand on the floor before the module has come", "phone", async (page) => {
  const at = (name) => page.evaluate((mark) => performance.getEntriesByName(mark)[0]?.startTime, name);
  const [feet, all] = [await at("first-footprints"), await at("all-there")];
  // The module is held back for two seconds; the feet need not wait for it.
  assert.ok(feet < all - 500, `${feet} and ${all} ms`);
  await page.getByRole("heading", { level: 1, name: "Lantern on Pier Five" }).waitFor();
}, { ahead: (page) => page.route("**/halfcount.lzma", async (route) => {
  await new Promise((done) => setTimeout(done, 2000));
  await route.continue();
}) });

for (const [what, spoil] of [["is cut short", (body) => body.subarray(0, body.length >> 1)], ["is damaged", (body) => body.map((byte, i) => (i % 5000 === 4000 ? byte ^ 255 : byte))]]) {
  await check(`a module that ${what} is told, and the first dance can be played`, "laptop", async (page) => {
    await page.getByText("Not all of the page has come.").waitFor();
    for (const half of ["0", "1"]) {
      await page.getByRole("button", { name: /^½ (count )?on$/ }).click();
      assert.equal(await page.locator(".count").innerText(), half);
    }
    await page.locator("count-board").getByText("Step R to the side").waitFor();
  }, { ahead: (page) => page.route("**/halfcount.lzma", async (route) => {
    const answer = await route.fetch();
    await route.fulfill({ response: answer, body: spoil(await answer.body()) });
  }) });
}
