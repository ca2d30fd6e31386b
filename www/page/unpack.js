// Unpacks LZMA, the form in which the module travels: a quarter smaller than what a host makes of it with gzip, and
// a third of what a host sends that packs nothing. Where the odds lie is our own; what they mean is LZMA's published
// form, with the head of 13 bytes.
const [MATCH, REP, REP0, REP1, REP2, REP0_LONG, SLOT, PLACE, ALIGN, LENGTH, REP_LENGTH, LITERAL] =
  [0, 192, 204, 216, 228, 240, 432, 688, 803, 819, 1333, 1847];

/** What was packed; throws where the bytes are not LZMA or not all there. */
export function unpack(from) {
  const head = new DataView(from.buffer, from.byteOffset);
  const size = head.getUint32(5, true);
  const settings = head.getUint8(0);
  const context = settings % 9;
  const literalMask = (1 << Math.floor(settings / 9) % 5) - 1;
  const placeMask = (1 << Math.floor(settings / 45)) - 1;
  const odds = new Uint16Array(LITERAL + (0x300 << (context + (Math.floor(settings / 9) % 5)))).fill(1024);
  const out = new Uint8Array(size);
  let at = 18;
  let range = 0xffffffff;
  let code = head.getUint32(14);

  const refill = () => {
    range = (range << 8) >>> 0;
    code = ((code << 8) | from[at]) >>> 0;
    at += 1;
  };
  const bit = (place) => {
    const odd = odds[place];
    const bound = (range >>> 11) * odd;
    const one = code >= bound;
    if (one) {
      code -= bound;
      range -= bound;
      odds[place] = odd - (odd >>> 5);
    } else {
      range = bound;
      odds[place] = odd + ((2048 - odd) >>> 5);
    }
    if (range < 0x1000000) refill();
    return one ? 1 : 0;
  };
  const tree = (place, bits) => {
    let node = 1;
    for (let i = 0; i < bits; i += 1) node = (node << 1) | bit(place + node);
    return node - (1 << bits);
  };
  const backwards = (place, bits) => {
    let [node, value] = [1, 0];
    for (let i = 0; i < bits; i += 1) {
      const b = bit(place + node);
      node = (node << 1) | b;
      value |= b << i;
    }
    return value;
  };
  const plain = (bits) => {
    let value = 0;
    for (let i = 0; i < bits; i += 1) {
      range >>>= 1;
      const one = code >= range;
      if (one) code -= range;
      value = (value << 1) | (one ? 1 : 0);
      if (range < 0x1000000) refill();
    }
    return value;
  };
  const length = (place, step) => {
    if (!bit(place)) return tree(place + 2 + (step << 3), 3);
    if (!bit(place + 1)) return 8 + tree(place + 130 + (step << 3), 3);
    return 16 + tree(place + 258, 8);
  };
  const distance = (long) => {
    const slot = tree(SLOT + (Math.min(long, 3) << 6), 6);
    if (slot < 4) return slot;
    const bits = (slot >> 1) - 1;
    const base = (2 | (slot & 1)) << bits;
    if (slot < 14) return base + backwards(PLACE + base - slot, bits);
    return base + (plain(bits - 4) << 4) + backwards(ALIGN, 4);
  };

  let [state, rep0, rep1, rep2, rep3] = [0, 0, 0, 0, 0];
  for (let end = 0; end < size;) {
    const step = end & placeMask;
    if (!bit(MATCH + (state << 4) + step)) {
      const before = end ? out[end - 1] : 0;
      const place = LITERAL + 0x300 * (((end & literalMask) << context) + (before >> (8 - context)));
      let letter = 1;
      if (state >= 7) {
        for (let like = out[end - rep0 - 1]; letter < 256;) {
          const hint = (like >> 7) & 1;
          like <<= 1;
          const b = bit(place + ((1 + hint) << 8) + letter);
          letter = (letter << 1) | b;
          if (b !== hint) break;
        }
      }
      while (letter < 256) letter = (letter << 1) | bit(place + letter);
      out[end] = letter;
      end += 1;
      state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
      continue;
    }
    let long;
    if (!bit(REP + state)) {
      [rep1, rep2, rep3] = [rep0, rep1, rep2];
      long = length(LENGTH, step);
      state = state < 7 ? 7 : 10;
      rep0 = distance(long);
    } else {
      if (!bit(REP0 + state)) {
        if (!bit(REP0_LONG + (state << 4) + step)) {
          out[end] = out[end - rep0 - 1];
          end += 1;
          state = state < 7 ? 9 : 11;
          continue;
        }
      } else if (!bit(REP1 + state)) {
        [rep0, rep1] = [rep1, rep0];
      } else if (!bit(REP2 + state)) {
        [rep0, rep1, rep2] = [rep2, rep0, rep1];
      } else {
        [rep0, rep1, rep2, rep3] = [rep3, rep0, rep1, rep2];
      }
      long = length(REP_LENGTH, step);
      state = state < 7 ? 8 : 11;
    }
    const stop = Math.min(size, end + long + 2);
    if (rep0 >= end || at > from.length + 4) throw new Error("the packed module is damaged");
    for (; end < stop; end += 1) out[end] = out[end - rep0 - 1];
  }
  return out;
}
