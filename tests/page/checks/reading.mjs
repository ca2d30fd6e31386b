// What is read off a dance, and what is taken away.
import assert from "node:assert/strict";
import { readFile, stat } from "node:fs/promises";
import { accessible, check, count, ready, take } from "../room.mjs";

for (const shape of ["laptop", "phone"]) {
  await check("how hard it is, with its parts and the hardest counts", shape, async (page) => {
    const level = page.getByRole("region", { name: "How hard is it?" });
    await level.getByText(/^\d+ of 100, \w+/).waitFor();
    await level.getByRole("img", { name: /^Points of each count\. The most are on section \d, count \d/ }).waitFor();
    for (const part of ["How much there is to know", "Turning", "Weight traps", "Remembering the order"]) {
      await level.getByRole("rowheader", { name: part }).waitFor();
    }
    await level.getByRole("button", { name: "Show it on the floor" }).click();
    assert.match(await count(page), /^Section \d, count \d/);
  });

  await check("what to know first, and the order of teaching", shape, async (page) => {
    const lesson = page.getByRole("region", { name: "Teaching it" });
    await lesson.getByRole("heading", { name: "Know first" }).waitFor();
    await lesson.getByText("Grapevine with touch", { exact: true }).waitFor();
    await lesson.getByRole("button", { name: "Practise section 3" }).click();
    await page.getByRole("button", { name: "Repeating section 3", pressed: true }).waitFor();
    assert.match(await count(page), /^Section [23]/);
  });

  await check("the song with its restart, its tag and its end", shape, async (page) => {
    await take(page, "ropewalk");
    const song = page.getByRole("region", { name: "Through the song" });
    await song.getByRole("row", { name: /Wall 3 16 counts, then restart 6:00/ }).waitFor();
    await song.getByRole("row", { name: /Tag 4 counts 12:00/ }).waitFor();
    await song.getByLabel("How long is the music?").fill("3:10");
    await song.getByLabel("How long is the music?").press("Enter");
    await song.getByText(/the last step: after count 14 of wall 11/).waitFor();
    await song.getByRole("button", { name: "Show wall 6 on the floor" }).click();
    assert.equal(await page.getByLabel("Wall", { exact: true }).inputValue(), "6");
    await accessible(page, "the song");
  });

  await check("everything can be taken away", shape, async (page) => {
    const kinds = [
      ["Drawing (SVG)", /\.svg$/, "<svg"], ["Captions (VTT)", /\.vtt$/, "WEBVTT\n\n"], ["Click track (WAV)", /\.wav$/, "RIFF"],
      ["Click track (MIDI)", /\.mid$/, "MThd"], ["Clean sheet", /clean\.txt$/, ""], ["Clean sheet, other foot first", /mirrored\.txt$/, ""],
      ["Save the sheet", /\.txt$/, "LANTERN"],
    ];
    for (const [button, ending, begins] of kinds) {
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
    await page.getByRole("heading", { level: 1, name: "Lantern on Pier Five" }).waitFor();
  });
}

await check("a link does not overwrite what was typed before", "laptop", async (page) => {
  const typed = "Count: 4 Wall: 1\n1-2 Step R forward, touch L beside R\n3-4 Step L back, touch R beside L";
  await page.evaluate((text) => localStorage.setItem("halfcount.text", JSON.stringify({ text, file: "mine.txt" })), typed);
  await page.reload();
  await ready(page);
  await page.getByText(/^4 counts · 1 wall/).waitFor();
  const link = await page.evaluate(async () => {
    const bytes = new Blob(["Other Four\nCount: 2 Wall: 1\n1-2 Step R forward, step L forward\n"]).stream().pipeThrough(new CompressionStream("deflate-raw"));
    return btoa(String.fromCharCode(...new Uint8Array(await new Response(bytes).arrayBuffer()))).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
  });
  await page.goto("about:blank");
  await page.goto(`${process.argv[2]}#sheet=${link}`);
  await ready(page);
  await page.getByRole("heading", { level: 1, name: "Other Four" }).waitFor();
  await page.getByRole("button", { name: "Bring back what was here before" }).click();
  const take = page.getByRole("button", { name: /^Take what was here before/ });
  await take.click();
  await page.getByText(/^4 counts · 1 wall/).waitFor();
});

await check("a link that is spoilt says so and shows the usual dance", "laptop", async (page) => {
  await page.getByText("The link holds no sheet that can be read.").waitFor();
  await page.getByRole("heading", { level: 1, name: "Lantern on Pier Five" }).waitFor();
}, { hash: "#sheet=broken" });

for (const format of ["A4", "Letter"]) {
  await check(`paper in ${format}: head, prints, steps, cautions, no controls`, "laptop", async (page) => {
    const pdf = await page.pdf({ format });
    const pages = pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length ?? 0;
    assert.ok(pages >= 1 && pages <= 3, `${pages} pages`);
    await page.emulateMedia({ media: "print" });
    assert.ok(await page.locator("print-sheet .section svg").count() >= 4);
    assert.ok(await page.locator("print-sheet h1").isVisible());
    assert.ok(await page.locator("print-sheet").getByRole("heading", { name: "Before you dance" }).isVisible());
    assert.equal(await page.getByRole("button").count(), 0);
    assert.equal(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth), true);
  });
}
