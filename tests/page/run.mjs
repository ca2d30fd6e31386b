// The page in a real browser, as a person would use it: `node run.mjs ADDRESS [PART OF A NAME]`. Each check
// prints its sentence; one that fails leaves a picture in `target`, and the others go on.
import { finish } from "./room.mjs";

await import("./checks/floor.mjs");
await import("./checks/sheet.mjs");
await import("./checks/reading.mjs");
await import("./checks/everyone.mjs");
await import("./checks/pose.mjs");
await finish();
