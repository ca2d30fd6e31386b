// The floor: seen, played, steered, heard.
import assert from "node:assert/strict";
import { accessible, check, count, drawer, go, slider, take } from "../room.mjs";

for (const shape of ["laptop", "phone"]) {
  await check("a visitor sees a dance at once, and it stands still", shape, async (page) => {
    await page.getByRole("heading", { level: 1, name: "Lantern on Pier Five" }).waitFor();
    await page.getByRole("img", { name: /^The floor, seen from behind the dancer\. The dancer faces 12:00/ }).waitFor();
    assert.ok(await page.getByRole("button", { name: "Play" }).evaluate((b) => b.getBoundingClientRect().bottom <= innerHeight), "play is in sight");
    const before = await page.locator("dance-floor").getAttribute("data-tick");
    await page.waitForTimeout(400);
    assert.equal(await page.locator("dance-floor").getAttribute("data-tick"), before);
    await accessible(page, "the first view");
  });

  await check("play moves the feet and pauses; space does the same", shape, async (page) => {
    await drawer(page);
    await page.getByLabel("Count in first").uncheck();
    await page.getByRole("button", { name: "Play" }).click();
    await page.waitForFunction(() => document.querySelector("#place").value > 24);
    await page.getByRole("button", { name: "Pause" }).click();
    const stood = await slider(page).inputValue();
    await page.waitForTimeout(200);
    assert.equal(await slider(page).inputValue(), stood);
    await page.locator("#floor").focus();
    await page.keyboard.press("Space");
    await page.getByRole("button", { name: "Pause" }).waitFor();
    await page.keyboard.press("Space");
    await page.getByRole("button", { name: "Play" }).waitFor();
  });

  await check("a bar is counted in before the first step", shape, async (page) => {
    await page.getByRole("button", { name: "Play" }).click();
    await page.getByText("Counting in").waitFor();
    await accessible(page, "counting in");
    await page.getByRole("button", { name: "Pause" }).click();
    assert.equal(await slider(page).inputValue(), "0");
  });

  await check("half a count forward and back, by button and by key", shape, async (page) => {
    await go(page, 24);
    await page.getByRole("button", { name: /^½ (count )?on$/ }).click();
    assert.equal(await slider(page).inputValue(), "36");
    assert.equal(await count(page), "Section 1, count 1 and");
    await page.getByRole("button", { name: /^½ (count )?back$/ }).click();
    await page.locator("#floor").focus();
    await page.keyboard.press("ArrowLeft");
    assert.equal(await slider(page).inputValue(), "12");
    await page.keyboard.press("ArrowRight");
    assert.equal(await count(page), "Section 1, count 1");
    await page.keyboard.press("PageDown");
    assert.equal(await count(page), "Section 2, count 1");
    await page.keyboard.press("PageUp");
    await page.keyboard.press("Home");
    assert.equal(await slider(page).inputValue(), "0");
  });

  await check("the board tells the step, the weight and the next call", shape, async (page) => {
    await go(page, 24 * 4);
    const board = page.locator("count-board");
    await board.getByText("Touch L beside R").waitFor();
    await board.getByText("The weight stays on the right foot", { exact: true }).waitFor();
    await board.getByText("Next vine left").waitFor();
  });

  await check("a section is chosen and repeated", shape, async (page) => {
    await page.getByRole("group", { name: "Sections" }).getByRole("button", { name: /^Section 3/ }).click();
    assert.equal(await count(page), "Section 3, count 1");
    await page.getByRole("button", { name: "Repeat section" }).click();
    await page.getByRole("button", { name: "Repeating section 3", pressed: true }).waitFor();
    await drawer(page);
    await page.getByLabel("Count in first").uncheck();
    await page.getByLabel("Beats a minute").fill("300");
    await page.getByLabel("Beats a minute").press("Enter");
    await go(page, 24 * 24);
    await page.getByRole("button", { name: "Play" }).click();
    await page.waitForFunction(() => Number(document.querySelector("#place").value) < 24 * 22);
    // The movement of a first count begins half a count before it.
    assert.ok(Number(await slider(page).inputValue()) >= 24 * 17 - 12);
  });

  await check("half speed takes twice the time", shape, async (page) => {
    await drawer(page);
    await page.getByLabel("Count in first").uncheck();
    await page.getByLabel("Speed").selectOption("0.5");
    const ticks = await page.evaluate(async () => {
      const at = () => Number(document.querySelector("dance-floor").dataset.tick);
      document.querySelector(".play").click();
      await new Promise((done) => setTimeout(done, 300));
      const [tick, time] = [at(), performance.now()];
      await new Promise((done) => setTimeout(done, 900));
      return ((at() - tick) / 24) / ((performance.now() - time) / 60_000);
    });
    assert.ok(ticks > 30 && ticks < 60, `52 counts a minute are meant, ${ticks.toFixed(0)} were danced`);
  });

  await check("the floor is seen from all sides and turns with the dancer", shape, async (page) => {
    await drawer(page);
    await go(page, 24 * 32);
    const hour = (name) => page.locator(".hour.main").filter({ hasText: new RegExp(`^${name}$`) }).evaluate((t) => [Number(t.getAttribute("x")), Number(t.getAttribute("y"))]);
    for (const [value, words, three, twelve] of [["behind", "from behind", 1, -1], ["facing", "facing the dancer", -1, 1], ["mirrored", "as in a mirror", 1, 1]]) {
      await page.getByLabel("Seen", { exact: true }).selectOption(value);
      await page.getByRole("img", { name: new RegExp(`^The floor, seen ${words}`) }).waitFor();
      assert.equal(Math.sign((await hour("3"))[0]), three, `3:00 ${words}`);
      assert.equal(Math.sign((await hour("12"))[1]), twelve, `12:00 ${words}`);
    }
    await page.getByLabel("Seen", { exact: true }).selectOption("behind");
    await page.getByLabel("Floor", { exact: true }).selectOption("turning");
    // The dance has turned to 3:00, so that wall is in front now.
    assert.ok((await hour("3"))[1] < -100);
    await page.getByLabel("Show", { exact: true }).selectOption("dance");
    assert.ok(await page.locator(".trail > *").count() > 0);
    await page.getByLabel("Leave prints").uncheck();
    assert.equal(await page.locator(".trail > *").count(), 0);
    await accessible(page, "another view");
  });

  await check("the feet stay on the floor that is seen", shape, async (page) => {
    for (const dance of ["waltz", "ropewalk"]) {
      await take(page, dance);
      await page.getByRole("heading", { level: 1, name: dance === "waltz" ? /Tidewatcher/ : /Ropewalk/ }).waitFor();
      const lost = await page.evaluate(() => {
        const { state } = globalThis.halfcountPage;
        const floor = document.querySelector("dance-floor");
        const slider = document.querySelector("#place");
        const found = [];
        for (let tick = state.from; tick <= state.to; tick += 12) {
          slider.value = tick;
          slider.dispatchEvent(new Event("input"));
          for (const foot of ["left", "right"]) {
            const [x, y] = floor.sight.point(floor.pose[foot].x, floor.pose[foot].y);
            if (Math.hypot(x, y) > 100) found.push(`${foot} at ${tick}`);
          }
        }
        return found;
      });
      assert.deepEqual(lost, [], dance);
    }
  });

  await check("walls of the song with a restart and a tag", shape, async (page) => {
    await take(page, "ropewalk");
    await page.getByRole("heading", { level: 1, name: "Ropewalk Reckoning" }).waitFor();
    await drawer(page);
    await page.getByLabel("Wall", { exact: true }).selectOption("3");
    assert.equal(await page.getByRole("group", { name: "Sections" }).getByRole("button").count(), 2);
    await page.getByLabel("Wall", { exact: true }).selectOption("0");
    await page.getByRole("group", { name: "Sections" }).getByRole("button", { name: /Tag/ }).waitFor();
    await accessible(page, "the whole song");
  });

  await check("the parts of a phrased dance are told apart", shape, async (page) => {
    await page.evaluate(() => document.querySelector("step-sheet").put([
      "Two Tides", "Count: 16  Wall: 1  Phrased: A B A", "",
      "PART A", "1-2 Step R to right side, touch L beside R", "3-4 Step L to left side, touch R beside L", "5-6 Step R to right side, touch L beside R", "7-8 Step L to left side, touch R beside L", "",
      "PART B", "1-2 Step R forward, touch L beside R", "3-4 Step L back, touch R beside L", "5-6 Step R forward, touch L beside R", "7-8 Step L back, touch R beside L", "",
    ].join("\n"), "two-tides.txt"));
    await page.getByRole("heading", { level: 1, name: "Two Tides" }).waitFor();
    const sections = page.getByRole("group", { name: "Sections" });
    await sections.getByRole("button", { name: /^Part A, section 1/ }).first().waitFor();
    await sections.getByRole("button", { name: /^Part B, section 1/ }).first().click();
    assert.match(await count(page), /^Part B, section 1, count 1$/);
  });

  await check("the voice calls ahead of the step, and clicks fall on the counts", shape, async (page) => {
    await drawer(page);
    await page.getByLabel("Count in first").uncheck();
    await page.getByLabel("Voice").selectOption("calls");
    await page.getByLabel("Beats a minute").fill("240");
    await page.getByLabel("Beats a minute").press("Enter");
    await page.getByRole("button", { name: "Play" }).click();
    await page.waitForFunction(() => Number(document.querySelector("#place").value) > 24 * 10);
    await page.getByRole("button", { name: "Pause" }).click();
    const { said, clicks } = await page.evaluate(() => globalThis.heard);
    const left = said.find(({ words }) => words.includes("vine left"));
    assert.ok(left && left.tick < 24 * 5 && left.tick > 24 * 2, JSON.stringify(said));
    assert.ok(clicks >= 8 && clicks <= 12, `${clicks} clicks in ten counts`);
    await page.getByLabel("Voice").selectOption("counts");
    await page.getByRole("button", { name: "Play" }).click();
    await page.waitForFunction(() => globalThis.heard.said.some(({ words }) => words === "4"));
  }, { before: () => {
    globalThis.heard = { said: [], clicks: 0 };
    const tick = () => Number(document.querySelector("dance-floor")?.dataset.tick);
    Object.defineProperty(globalThis, "speechSynthesis", { value: { cancel() {}, speak: (u) => globalThis.heard.said.push({ words: u.text, tick: tick() }) } });
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function begin(...when) { globalThis.heard.clicks += 1; return start.apply(this, when); };
  } });
}

await check("play stays under the thumb while the floor is in sight", "phone", async (page) => {
  await page.setViewportSize({ width: 390, height: 560 });
  const inSight = () => page.getByRole("button", { name: "Play" }).evaluate((b) => b.getBoundingClientRect().bottom <= innerHeight && b.contains(document.elementFromPoint(195, b.getBoundingClientRect().top + 9)));
  assert.ok(await inSight(), "at the top of the page");
  await page.locator("dance-floor").evaluate((floor) => floor.scrollIntoView({ block: "start" }));
  assert.ok(await inSight(), "with the floor at the top");
});
