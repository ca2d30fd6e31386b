// The feet that are drawn are those of `frames`: read back from the drawing, not from the page's own state.
import assert from "node:assert/strict";
import { check, drawer, take } from "../room.mjs";

for (const dance of ["lantern", "waltz", "ropewalk"]) {
  for (const [side, ground] of [["behind", "fixed"], ["mirrored", "turning"]]) {
    await check(`the feet drawn are those of frames at each half-count: ${dance}, ${side}, floor ${ground}`, "laptop", async (page) => {
      await take(page, dance);
      await drawer(page);
      await page.getByLabel("Seen", { exact: true }).selectOption(side);
      await page.getByLabel("Floor", { exact: true }).selectOption(ground);
      const wrong = await page.evaluate(() => {
        const { state, ask } = globalThis.halfcountPage;
        const { frames } = ask("frames", state.text, {});
        const floor = document.querySelector("dance-floor");
        const slider = document.querySelector("#place");
        const found = [];
        const { foot_length: size, ball_share: share } = state.dance;
        const near = (a, b) => Math.abs(((((a - b + 180) % 360) + 360) % 360) - 180);
        for (const row of frames) {
          slider.value = row.tick;
          slider.dispatchEvent(new Event("input"));
          const s = floor.sight;
          const det = s.a * s.d - s.b * s.c;
          const metres = (x, y) => [(s.d * x - s.c * y) / det, (s.a * y - s.b * x) / det];
          for (const foot of ["left", "right"]) {
            const print = floor.querySelector(`.foot.${foot}:not(.still)`);
            const [, , c, d, e, f] = print.getAttribute("transform").match(/-?[\d.]+/g).map(Number);
            const along = metres(c, d);
            const heel = metres(e, f);
            const long = Math.hypot(...along);
            const toe = (Math.atan2(along[0], along[1]) * 180) / Math.PI;
            const ball = [s.x + heel[0] + along[0] * share, s.y + heel[1] + along[1] * share];
            const tide = Number(print.querySelector("clipPath rect").getAttribute("height"));
            const most = { flat: 1, ball: 0.5, heel: 0.33, toe: 0.21, edge: 1, air: 0 }[row[`${foot}_sole`]];
            const name = `tick ${row.tick}, ${foot}:`;
            if (Math.abs(long - size) > 1e-4) found.push(`${name} ${long} m long`);
            if (Math.hypot(ball[0] - row[`${foot}_x`], ball[1] - row[`${foot}_y`]) > 1e-4) found.push(`${name} at ${ball}`);
            if (near(toe, row[`${foot}_toe`]) > 0.02) found.push(`${name} toe ${toe}, not ${row[`${foot}_toe`]}`);
            if (print.dataset.sole !== row[`${foot}_sole`]) found.push(`${name} ${print.dataset.sole}`);
            if (Math.abs(tide - row[`${foot}_weight`] * most) > 1e-3) found.push(`${name} weight ${tide} of ${most}`);
          }
          if (near(state.playTrack.at(row.tick).facing, row.facing) > 1e-9) found.push(`tick ${row.tick}: facing`);
        }
        return frames.length > 60 ? found.slice(0, 6) : ["too few frames"];
      });
      assert.deepEqual(wrong, []);
    });
  }
}
