// Unpacks the module beside the page, so that nothing on the floor stands still for it.
import { restore } from "./sorted.js";
import { unpack } from "./unpack.js";

self.onmessage = async ({ data }) => {
  try {
    self.postMessage({ module: await WebAssembly.compile(restore(unpack(new Uint8Array(data)))) });
  } catch (error) {
    self.postMessage({ error: String(error) });
  }
};
