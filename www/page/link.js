// A link that holds the whole sheet behind its #, which browsers never send to a server.

const TAG = "sheet=";

async function through(stream, bytes) {
  const out = new Blob([bytes]).stream().pipeThrough(stream);
  return new Uint8Array(await new Response(out).arrayBuffer());
}

export async function toLink(text) {
  const small = await through(new CompressionStream("deflate-raw"), new TextEncoder().encode(text));
  let letters = "";
  for (const byte of small) letters += String.fromCharCode(byte);
  const address = new URL(location.href);
  address.hash = TAG + btoa(letters).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
  return address.href;
}

/** The sheet in the address, or null. */
export async function fromLink(hash = location.hash) {
  const packed = hash.slice(1);
  if (!packed.startsWith(TAG)) return null;
  try {
    const letters = atob(packed.slice(TAG.length).replaceAll("-", "+").replaceAll("_", "/"));
    const bytes = Uint8Array.from(letters, (c) => c.charCodeAt(0));
    return new TextDecoder().decode(await through(new DecompressionStream("deflate-raw"), bytes));
  } catch {
    return null;
  }
}
