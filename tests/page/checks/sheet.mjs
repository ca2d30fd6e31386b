// The sheet: typed, dropped, checked, mended, kept, tied to the floor.
import assert from "node:assert/strict";
import { accessible, check, count, go, ready, sheet, take } from "../room.mjs";

const FOUR = "Count: 4 Wall: 1\n1-2 Step R forward, touch L beside R\n3-4 Step L back, touch R beside L";

for (const shape of ["laptop", "phone"]) {
  await check("the slip is found, mended by one click, and the mend is undone", shape, async (page) => {
    await take(page, "slip");
    await page.getByText("1 thing to mend.").waitFor();
    await page.locator(".fault.error").first().waitFor();
    await accessible(page, "findings");
    const finding = page.getByRole("list", { name: "Does it work on the floor?" }).getByRole("listitem").first();
    await finding.getByRole("button", { name: "use the right foot on count 6" }).click();
    await page.getByText(/^Nothing found/).waitFor();
    assert.match(await sheet(page).innerText(), /5-6\s+Step L to left side, step R behind L/);
    await sheet(page).focus();
    await page.keyboard.press("Control+z");
    await page.getByText("1 thing to mend.").waitFor();
  });

  await check("a fault is explained and mended where it stands", shape, async (page) => {
    await take(page, "slip");
    await page.locator(".fault.error").first().hover();
    const tip = page.locator(".fault-card");
    await tip.getByText(/the left foot took the weight on count 5/).waitFor();
    await tip.getByRole("button", { name: "use the right foot on count 6" }).click();
    await page.getByText(/^Nothing found/).waitFor();
  });

  await check("the card of a fault opens by key and by a click, and shuts", shape, async (page) => {
    await take(page, "slip");
    await page.locator(".fault.error").first().waitFor();
    const card = page.getByRole("group", { name: "To mend" });
    await sheet(page).focus();
    await page.keyboard.press("F8");
    await card.getByText(/the left foot took the weight on count 5/).waitFor();
    assert.equal(await count(page), "Section 1, count 6");
    await accessible(page, "the card of a fault");
    // The next stop of the Tab key is its mend; Escape leads back.
    await page.keyboard.press("Tab");
    assert.match(await page.evaluate(() => document.querySelector(".editor").shadowRoot.activeElement.textContent), /right foot on count 6/);
    await page.keyboard.press("Escape");
    await card.waitFor({ state: "hidden" });
    await page.locator(".fault.error").first().click();
    await card.waitFor();
    await page.locator(".cm-line").filter({ hasText: "SECTION 1" }).click({ position: { x: 40, y: 8 } });
    await card.waitFor({ state: "hidden" });
    await page.locator(".fault.error").first().click();
    await card.waitFor();
    await page.getByRole("heading", { level: 1 }).click();
    await card.waitFor({ state: "hidden" });
  });

  await check("the words of a finding are shown in the sheet", shape, async (page) => {
    await take(page, "slip");
    await page.getByRole("button", { name: "Show me" }).click();
    const line = page.locator(".cm-activeLine").filter({ hasText: "step L behind R" });
    await line.waitFor();
    assert.equal(await page.evaluate(() => document.activeElement.closest("step-sheet") !== null), true);
  });

  await check("what is typed stays after a reload, and nothing of it is replaced unasked", shape, async (page) => {
    await sheet(page).focus();
    await page.keyboard.press("Control+a");
    await page.keyboard.insertText(FOUR);
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

  await check("the usual keys of writing do what they do elsewhere", shape, async (page) => {
    const written = () => page.evaluate(() => globalThis.halfcountPage.state.text);
    const wait = (text) => page.waitForFunction((want) => globalThis.halfcountPage.state.text === want, text);
    await sheet(page).focus();
    await page.keyboard.press("Control+a");
    await page.keyboard.type("Ebb\n1-2 Step R forwardx");
    await page.keyboard.press("Backspace");
    await page.keyboard.press("Enter");
    await page.keyboard.type("3-4 hold now");
    await page.keyboard.press("Control+Backspace");
    await wait("Ebb\n1-2 Step R forward\n3-4 hold ");
    await page.keyboard.press("ArrowUp");
    await page.keyboard.press("End");
    await page.keyboard.type(", touch L");
    await page.keyboard.press("Control+Home");
    await page.keyboard.press("Delete");
    await wait("bb\n1-2 Step R forward, touch L\n3-4 hold ");
    for (let i = 0; i < 12 && (await written()) !== "Ebb\n1-2 Step R forward, touch L\n3-4 hold "; i += 1) {
      await page.keyboard.press("Control+z");
      await page.waitForTimeout(500);
    }
    await wait("Ebb\n1-2 Step R forward, touch L\n3-4 hold ");
    await page.keyboard.press("Control+y");
    await wait("bb\n1-2 Step R forward, touch L\n3-4 hold ");
  });

  await check("the caret moves the feet, and the feet mark the words", shape, async (page) => {
    await go(page, 24 * 8);
    assert.equal(await page.locator(".cm-danced").first().innerText(), "touch R beside L");
    const line = page.locator(".cm-line").filter({ hasText: "Step L to left side, step R behind L" });
    await line.click({ position: { x: 150, y: 8 } });
    await page.waitForFunction(() => document.querySelector("#place").getAttribute("aria-valuetext") === "Section 1, count 5");
    await page.keyboard.press("ArrowDown");
    // On a small screen the line is broken, and one line down is its second half.
    await page.waitForFunction(() => /^Section 1, count [67]$/.test(document.querySelector("#place").getAttribute("aria-valuetext")));
    // A heading stands for its section.
    await page.locator(".cm-line").filter({ hasText: "SECTION 3" }).click({ position: { x: 40, y: 8 } });
    await page.waitForFunction(() => document.querySelector("#place").getAttribute("aria-valuetext") === "Section 3, count 1");
  });

  await check("a file is opened, also in an old encoding, and an empty sheet is no error", shape, async (page) => {
    const old = Buffer.from(`Caf\xe9 on the Quay\n${FOUR}`, "latin1");
    await page.getByLabel("Open a file").setInputFiles({ name: "cafe.txt", mimeType: "text/plain", buffer: old });
    await page.getByRole("heading", { level: 1, name: "Café on the Quay" }).waitFor();
    await page.getByRole("button", { name: "Start empty" }).click();
    await page.getByRole("button", { name: /^Take an empty sheet/ }).click();
    await page.getByRole("heading", { level: 1, name: "No dance yet" }).waitFor();
    assert.ok(await page.getByRole("button", { name: "Play" }).isDisabled());
    await accessible(page, "an empty sheet");
    await page.getByRole("button", { name: "Show me one" }).click();
    await page.getByRole("heading", { level: 1, name: "Lantern on Pier Five" }).waitFor();
    await page.getByRole("button", { name: "Start empty" }).click();
    await page.getByRole("button", { name: "Go to the sheet" }).click();
    assert.equal(await page.evaluate(() => document.activeElement.closest("step-sheet") !== null), true);
    await page.keyboard.insertText("Dear all,\nthe hall is shut on Friday.");
    await page.waitForTimeout(600);
    await accessible(page, "a text without steps");
  });

  await check("a file is dropped anywhere", shape, async (page) => {
    const data = await page.evaluateHandle((text) => {
      const all = new DataTransfer();
      all.items.add(new File([text], "four.txt", { type: "text/plain" }));
      return all;
    }, `Quayside Four\n${FOUR}`);
    await page.locator(shape === "phone" ? "step-sheet" : "dance-floor").dispatchEvent("drop", { dataTransfer: data });
    await page.getByRole("heading", { level: 1, name: "Quayside Four" }).waitFor();
  });

  await check("a sheet is pasted with one button", shape, async (page, context) => {
    await context.grantPermissions(["clipboard-read", "clipboard-write"]);
    await page.evaluate((text) => navigator.clipboard.writeText(text), `Pasted Four\r\n${FOUR}`);
    await page.getByRole("button", { name: "Paste" }).click();
    await page.getByRole("heading", { level: 1, name: "Pasted Four" }).waitFor();
  });

  await check("a sheet is pasted with the keys, wherever nothing is typed", shape, async (page, context) => {
    await context.grantPermissions(["clipboard-read", "clipboard-write"]);
    await page.evaluate((text) => navigator.clipboard.writeText(text), `Keyed Four\n${FOUR}`);
    await page.locator("#floor").focus();
    await page.keyboard.press("Control+v");
    await page.getByRole("heading", { level: 1, name: "Keyed Four" }).waitFor();
  });

  await check("no sheet of one's own is lost, however many others come", shape, async (page) => {
    const put = (title) => page.evaluate(([name, four]) => { document.querySelector("step-sheet").offer(`${name}\n${four}`, name, "own.txt"); }, [title, FOUR]);
    const heading = (name) => page.getByRole("heading", { level: 1, name }).waitFor();
    const bring = () => page.getByRole("button", { name: "Bring back what was here before" }).click();
    const agree = () => page.getByRole("dialog").getByRole("button", { name: /^Take / }).click();
    await put("Own One");
    await heading("Own One");
    await take(page, "waltz");
    await agree();
    await heading(/Tidewatcher/);
    await put("Own Two");
    await heading("Own Two");
    for (const [dance, name] of [["ropewalk", /Ropewalk/], ["lantern", /^Lantern/]]) {
      await take(page, dance);
      if (dance === "ropewalk") await agree();
      await heading(name);
    }
    await page.reload();
    await ready(page);
    await bring();
    await heading("Own Two");
    await bring();
    await agree();
    await heading("Own One");
    await bring();
    await agree();
    await page.waitForFunction(() => !/Own One/.test(document.querySelector("h1").textContent));
  });

  await check("the list of steps follows the count and leads it", shape, async (page) => {
    await go(page, 24 * 3);
    const here = page.locator("step-list [aria-current=step]");
    assert.match(await here.innerText(), /Step the right foot to the right side/);
    await page.locator("step-list").getByRole("button", { name: /^Count 7: .*1\/4 right/ }).click();
    assert.equal(await count(page), "Section 4, count 7");
  });
}

await check("a fault is explained and mended under a thumb", "phone", async (page) => {
  await take(page, "slip");
  await page.locator(".fault.error").first().tap();
  const card = page.getByRole("group", { name: "To mend" });
  await card.getByText(/the left foot took the weight on count 5/).waitFor();
  const [inner, outer] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(inner <= outer, `the card needs ${inner} px`);
  await card.getByRole("button", { name: "use the right foot on count 6" }).tap();
  await page.getByText(/^Nothing found/).waitFor();
}, { hasTouch: true, isMobile: true });
