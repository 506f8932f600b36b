// @ts-check
// Unpacking of the engine: LZMA, as its specification has it (Igor Pavlov, public domain, 2015). Browsers unpack gzip by themselves,
// which looks back 32 kB; this looks back all the way, and a page is a fifth smaller.

const LENGTHS = 2 + 16 * 8 + 16 * 8 + 256;
/** Where the chances of each kind of bit begin. */
const AT = (() => {
  const sizes = { match: 192, rep: 12, rep0: 12, rep1: 12, rep2: 12, short: 192, slots: 256, special: 115, align: 16, length: LENGTHS, repeated: LENGTHS };
  let next = 0;
  const at = Object.entries(sizes).map(([name, size]) => { next += size; return [name, next - size]; });
  return /** @type {Record<keyof typeof sizes | "literal", number>} */ (Object.fromEntries([...at, ["literal", next]]));
})();

/** What was packed. @param {Uint8Array} packed */
function unpacked(packed) {
  const lc = packed[0] % 9;
  const lp = Math.trunc(packed[0] / 9) % 5;
  const pb = Math.trunc(packed[0] / 45);
  const size = new DataView(packed.buffer, packed.byteOffset).getUint32(5, true);
  const out = new Uint8Array(size);
  const chances = new Uint16Array(AT.literal + (0x300 << (lc + lp))).fill(1024);
  const { bit, even, tree, backwards } = bits(packed, chances);
  const length = (/** @type {number} */ at, /** @type {number} */ place) => {
    if (!bit(at)) return 2 + tree(at + 2 + place * 8, 3);
    return bit(at + 1) ? 18 + tree(at + 258, 8) : 10 + tree(at + 130 + place * 8, 3);
  };
  const distance = (/** @type {number} */ long) => {
    const slot = tree(AT.slots + Math.min(long - 2, 3) * 64, 6);
    if (slot < 4) return slot;
    const bits = (slot >> 1) - 1;
    const found = (2 | (slot & 1)) << bits;
    if (slot < 14) return found + backwards(AT.special + found - slot, bits);
    return found + (even(bits - 4) << 4) + backwards(AT.align, 4);
  };

  let state = 0;
  let [last, before, third, fourth] = [0, 0, 0, 0];
  for (let at = 0; at < size;) {
    const place = at & ((1 << pb) - 1);
    if (!bit(AT.match + state * 16 + place)) {
      const previous = at > 0 ? out[at - 1] : 0;
      const from = AT.literal + 0x300 * (((at & ((1 << lp) - 1)) << lc) + (previous >> (8 - lc)));
      let found = 1;
      if (state >= 7) {
        let other = out[at - last - 1];
        while (found < 0x100) {
          const theirs = (other >> 7) & 1;
          other <<= 1;
          const ours = bit(from + ((1 + theirs) << 8) + found);
          found = (found << 1) | ours;
          if (ours !== theirs) break;
        }
      }
      while (found < 0x100) found = (found << 1) | bit(from + found);
      out[at] = found;
      at += 1;
      state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
      continue;
    }
    let long = 1;
    if (!bit(AT.rep + state)) {
      [before, third, fourth] = [last, before, third];
      long = length(AT.length, place);
      last = distance(long);
      state = state < 7 ? 7 : 10;
    } else {
      let short = false;
      if (!bit(AT.rep0 + state)) short = !bit(AT.short + state * 16 + place);
      else if (!bit(AT.rep1 + state)) [last, before] = [before, last];
      else if (!bit(AT.rep2 + state)) [last, before, third] = [third, last, before];
      else [last, before, third, fourth] = [fourth, last, before, third];
      if (!short) long = length(AT.repeated, place);
      state = short ? (state < 7 ? 9 : 11) : state < 7 ? 8 : 11;
    }
    for (let left = long; left > 0; left -= 1, at += 1) out[at] = out[at - last - 1];
  }
  return out;
}
