// The page in a real browser, as a person would use it: `node run.mjs ADDRESS`. Every check prints its
// sentence; the first that fails ends the run with what was seen.
import assert from "node:assert/strict";
import { readFile, stat } from "node:fs/promises";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const address = process.argv[2];
const axe = await readFile(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium", args: ["--no-sandbox"] });
const SHAPES = { laptop: { width: 1366, height: 900 }, phone: { width: 390, height: 844 } };
const DEMOS = { lantern: /^Lantern on Pier Five/, waltz: /^Tidewatcher/, ropewalk: /^Ropewalk/, slip: /with a slip/ };
let number = 0;

/** One check on a fresh page; nothing may be written to the console meanwhile. */
async function check(sentence, shape, act, settings = {}) {
  const context = await browser.newContext({ viewport: SHAPES[shape] ?? shape, acceptDownloads: true, ...settings });
  const page = await context.newPage();
  const heard = [];
  page.on("console", (message) => heard.push(`${message.type()}: ${message.text()}`));
  page.on("pageerror", (error) => heard.push(`error: ${error.stack}`));
  try {
    await page.goto(address + (settings.hash ?? ""));
    await ready(page);
    await act(page, context);
    assert.deepEqual(heard, [], "the console is silent");
    number += 1;
    console.log(`ok ${number} - ${sentence} (${typeof shape === "string" ? shape : `${shape.width} px`})`);
  } catch (error) {
    await page.screenshot({ path: process.env.SHOT ?? "../../target/page-failure.png" }).catch(() => {});
    console.log(`not ok - ${sentence}\n${error.stack}`);
    process.exitCode = 1;
    throw error;
  } finally {
    await context.close();
  }
}

const ready = (page) => page.waitForSelector("html[data-ready=true]", { timeout: 30_000 });
const take = async (page, dance) => {
  await page.getByRole("navigation", { name: "Dances to try" }).getByRole("button", { name: DEMOS[dance] }).first().click();
};
const slider = (page) => page.getByRole("slider", { name: "Place in the dance" });
const go = (page, tick) => slider(page).fill(String(tick));
const drawer = async (page) => {
  const speed = page.getByLabel("Speed");
  if (!(await speed.isVisible())) await page.getByText("Pace, look and sound").click();
};

/** No violation of any rule of WCAG 2.2 up to AA, as far as a program can tell. */
async function accessible(page, state) {
  await page.evaluate(`${axe};0`).catch(() => {});
  const found = await page.evaluate(async () => {
    const tags = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];
    const { violations } = await globalThis.axe.run(document, { runOnly: tags });
    return violations.map((v) => `${v.id}: ${v.nodes.map((n) => `${n.target} ${n.failureSummary}`).slice(0, 4).join(" | ")}`);
  });
  assert.deepEqual(found, [], `axe is content with ${state}`);
}

for (const shape of ["laptop", "phone"]) {
  await check("a visitor sees a dance at once, and it stands still", shape, async (page) => {
    await page.getByRole("heading", { level: 1, name: /Lantern on Pier Five/i }).waitFor();
    await page.getByRole("img", { name: /^The floor, seen from behind the dancer\. The dancer faces 12:00/ }).waitFor();
    const before = await page.locator("dance-floor").getAttribute("data-tick");
    await page.waitForTimeout(400);
    assert.equal(await page.locator("dance-floor").getAttribute("data-tick"), before);
    await accessible(page, "the first view");
  });

  await check("play counts in, moves and pauses; space does the same", shape, async (page) => {
    await drawer(page);
    await page.getByLabel("Count in first").uncheck();
    await page.getByRole("button", { name: "Play" }).click();
    await page.waitForTimeout(900);
    await page.getByRole("button", { name: "Pause" }).click();
    assert.ok(Number(await slider(page).inputValue()) > 12, "the count went on");
    await page.locator("#floor").focus();
    await page.keyboard.press("Space");
    await page.getByRole("button", { name: "Pause" }).waitFor();
    await page.keyboard.press("Space");
    await page.getByRole("button", { name: "Play" }).waitFor();
  });

  await check("half a count forward and back, by button and by key", shape, async (page) => {
    await go(page, 24);
    await page.getByRole("button", { name: "½ count on" }).click();
    assert.equal(await slider(page).inputValue(), "36");
    await page.getByRole("button", { name: "½ count back" }).click();
    await page.locator("#floor").focus();
    await page.keyboard.press("ArrowLeft");
    assert.equal(await slider(page).inputValue(), "12");
    await page.keyboard.press("ArrowRight");
    assert.equal(await slider(page).getAttribute("aria-valuetext"), "Section 1, count 1");
  });

  await check("a section is chosen and repeated", shape, async (page) => {
    await page.getByRole("group", { name: "Sections" }).getByRole("button", { name: /^Section 3/ }).click();
    assert.match(await slider(page).getAttribute("aria-valuetext"), /^Section [23]/);
    await page.getByRole("button", { name: "½ count on" }).click();
    await page.getByRole("button", { name: "Repeat section" }).click();
    await page.getByRole("button", { name: "Repeating section 3", pressed: true }).waitFor();
  });

  await check("the slip is found, shown and mended, and the mend is undone", shape, async (page) => {
    await take(page, "slip");
    await page.getByText("1 thing to mend.").waitFor();
    await accessible(page, "findings");
    const mend = page.locator("finding-list .strong").first();
    if (await page.locator("finding-list .strong").count()) {
      await mend.click();
      await page.getByText(/^Nothing (found|that stops)/).waitFor();
      await page.getByRole("textbox", { name: "The step sheet" }).focus();
      await page.keyboard.press("Control+z");
      await page.getByText("1 thing to mend.").waitFor();
    } else {
      console.log("# this build offers no mend for the slip");
    }
  });

  await check("what is typed stays after a reload, and nothing of it is replaced unasked", shape, async (page) => {
    const sheet = page.getByRole("textbox", { name: "The step sheet" });
    await sheet.focus();
    await page.keyboard.press("Control+a");
    await page.keyboard.type("Count: 4 Wall: 1\n1-2 Step R forward, touch L beside R\n3-4 Step L back, touch R beside L");
    await page.getByText(/^4 counts · 1 wall/).waitFor();
    await page.reload();
    await ready(page);
    await page.getByText(/^4 counts · 1 wall/).waitFor();
    await take(page, "waltz");
    await page.getByRole("dialog", { name: "Put your sheet aside?" }).waitFor();
    await accessible(page, "the question");
    await page.getByRole("button", { name: "Stay with mine" }).click();
    await page.getByText(/^4 counts · 1 wall/).waitFor();
    await take(page, "waltz");
    await page.getByRole("button", { name: /^Take Tidewatcher/ }).click();
    await page.getByRole("heading", { level: 1, name: /Tidewatcher/ }).waitFor();
    await page.getByRole("button", { name: "Bring back what was here before" }).click();
    await page.getByText(/^4 counts · 1 wall/).waitFor();
  });

  await check("the caret moves the feet, and the feet mark the words", shape, async (page) => {
    await go(page, 24 * 8);
    assert.equal(await page.locator(".cm-danced").first().innerText(), "touch R beside L");
    await page.getByText("5-6 Step L to left side, step R behind L").first().click({ position: { x: 110, y: 8 } });
    await page.waitForFunction(() => document.querySelector("#place").getAttribute("aria-valuetext") === "Section 1, count 5");
  });

  await check("the floor is seen from all sides and turns with the dancer", shape, async (page) => {
    await drawer(page);
    await go(page, 24 * 32);
    for (const [value, words] of [["facing", "facing the dancer"], ["mirrored", "as in a mirror"], ["behind", "from behind"]]) {
      await page.getByLabel("Seen", { exact: true }).selectOption(value);
      await page.getByRole("img", { name: new RegExp(`^The floor, seen ${words}`) }).waitFor();
    }
    await page.getByLabel("Floor", { exact: true }).selectOption("turning");
    await page.getByLabel("Show", { exact: true }).selectOption("dance");
    await page.getByLabel("Leave prints").uncheck();
    assert.equal(await page.locator(".trail > *").count(), 0);
    await accessible(page, "another view");
  });

  await check("walls of the song with a restart and a tag", shape, async (page) => {
    await take(page, "ropewalk");
    await page.getByRole("heading", { level: 1, name: /Ropewalk/i }).waitFor();
    await page.getByText("16 counts, then restart").waitFor();
    await page.getByText(/tag.*, 4 counts/).first().waitFor();
    await drawer(page);
    await page.getByLabel("Wall", { exact: true }).selectOption("3");
    assert.equal(await page.getByRole("group", { name: "Sections" }).getByRole("button").count(), 2);
    await page.getByLabel("Wall", { exact: true }).selectOption("0");
    await accessible(page, "the whole song");
  });

  await check("everything can be taken away", shape, async (page) => {
    for (const [button, ending, begins] of [["Drawing (SVG)", /\.svg$/, "<svg"], ["Captions (VTT)", /\.vtt$/, "WEBVTT\n\n"], ["Click track (WAV)", /\.wav$/, "RIFF"], ["Clean sheet", /clean\.txt$/, ""], ["Save the sheet", /\.txt$/, "LANTERN"]]) {
      const [file] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: button, exact: true }).click()]);
      assert.match(file.suggestedFilename(), ending);
      const path = await file.path();
      assert.ok((await stat(path)).size > 100, button);
      assert.ok((await readFile(path, "latin1")).startsWith(begins), button);
    }
    await page.getByRole("button", { name: "Copy a link" }).click();
    const link = await page.getByLabel("Link to this sheet").inputValue();
    assert.match(link, /#sheet=[\w-]+$/);
    await accessible(page, "the link");
    await page.evaluate(() => localStorage.clear());
    await page.goto("about:blank");
    await page.goto(link);
    await ready(page);
    await page.getByRole("heading", { level: 1, name: /Lantern on Pier Five/i }).waitFor();
  });

  await check("the list of steps follows the count and leads it", shape, async (page) => {
    await go(page, 24 * 3);
    const here = page.locator("step-list [aria-current=step]");
    assert.match(await here.innerText(), /Right foot steps to the side/);
    await page.locator("step-list").getByRole("button", { name: /^Count 7: .*turning 1\/4 right/ }).click();
    assert.equal(await slider(page).getAttribute("aria-valuetext"), "Section 4, count 7");
  });
}

await check("the pose on the floor is that of `frames` at every half-count of every demo dance", "laptop", async (page) => {
  for (const dance of ["lantern", "waltz", "ropewalk"]) {
    await take(page, dance);
    await page.waitForTimeout(200);
    const wrong = await page.evaluate(async () => {
      const { state, ask } = globalThis.halfcountPage;
      const { frames } = ask("frames", state.text, {});
      const wrong = [];
      for (const row of frames) {
        const pose = state.playTrack.at(row.tick);
        const facing = ((pose.facing % 360) + 360) % 360;
        const pairs = [[facing, row.facing]];
        for (const foot of ["left", "right"]) {
          const p = pose[foot];
          if (p.sole !== row[`${foot}_sole`]) wrong.push(`${row.tick} ${foot} ${p.sole}`);
          pairs.push([p.x, row[`${foot}_x`]], [p.y, row[`${foot}_y`]], [((p.toe % 360) + 360) % 360, row[`${foot}_toe`]], [p.weight, row[`${foot}_weight`]]);
        }
        for (const [a, b] of pairs) if (Math.abs(a - b) > 1e-9) wrong.push(`${row.tick}: ${a} is not ${b}`);
      }
      return frames.length > 32 ? wrong.slice(0, 5) : ["too few frames"];
    });
    assert.deepEqual(wrong, []);
  }
});

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

await check("the page holds in 320 px without two-way scrolling", { width: 320, height: 640 }, async (page) => {
  const [inner, outer] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(inner <= outer, `${inner} px are needed`);
  await accessible(page, "320 px");
});

await check("in the dark everything keeps its contrast", "laptop", async (page) => {
  await take(page, "slip");
  await page.getByText("1 thing to mend.").waitFor();
  await accessible(page, "the dark");
}, { colorScheme: "dark" });

await check("targets are 24 px or more", "phone", async (page) => {
  const small = await page.evaluate(() => [...document.querySelectorAll("button, select, summary, input:not([type=file]), label.button")]
    .filter((e) => e.checkVisibility()).map((e) => [e.closest("label") ?? e, e]).map(([t, e]) => [t.getBoundingClientRect(), e.outerHTML.slice(0, 80)])
    .filter(([r]) => r.width < 24 || r.height < 24).map(([, words]) => words));
  assert.deepEqual(small, []);
});

await check("paper in A4 and Letter", "laptop", async (page) => {
  for (const format of ["A4", "Letter"]) {
    const pdf = await page.pdf({ format, preferCSSPageSize: false });
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    assert.ok(pages >= 1 && pages <= 4, `${pages} pages on ${format}`);
  }
});

await check("without a network the page opens all the same", "laptop", async (page, context) => {
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await context.setOffline(true);
  await page.reload();
  await ready(page);
  await take(page, "waltz");
  await page.getByRole("heading", { level: 1, name: /Tidewatcher/ }).waitFor();
});

await browser.close();
console.log(`${number} checks of the page passed.`);
