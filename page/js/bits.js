// @ts-check
// Bits of the packed engine: each is read by the chance that it had so far, as LZMA has it (see `unpack.js`).

/** Reads bits, numbers of bits of even chance, and numbers from trees of chances, from the highest bit or from the lowest.
 * @param {Uint8Array} packed @param {Uint16Array} chances */
function bits(packed, chances) {
  let next = 18;
  let range = 0xffffffff;
  let code = new DataView(packed.buffer, packed.byteOffset).getUint32(14);
  const refill = () => {
    if (range >= 0x1000000) return;
    range = (range << 8) >>> 0;
    code = ((code << 8) | packed[next++]) >>> 0;
  };
  const bit = (/** @type {number} */ at) => {
    const chance = chances[at];
    const bound = (range >>> 11) * chance;
    let found = 0;
    if (code < bound) {
      range = bound;
      chances[at] = chance + ((2048 - chance) >> 5);
    } else {
      range -= bound;
      code -= bound;
      chances[at] = chance - (chance >> 5);
      found = 1;
    }
    refill();
    return found;
  };
  const even = (/** @type {number} */ count) => {
    let found = 0;
    for (let at = 0; at < count; at += 1) {
      range >>>= 1;
      found <<= 1;
      if (code >= range) {
        code -= range;
        found |= 1;
      }
      refill();
    }
    return found;
  };
  const tree = (/** @type {number} */ at, /** @type {number} */ bits) => {
    let found = 1;
    for (let left = bits; left > 0; left -= 1) found = (found << 1) | bit(at + found);
    return found - (1 << bits);
  };
  const backwards = (/** @type {number} */ at, /** @type {number} */ bits) => {
    let node = 1;
    let found = 0;
    for (let place = 0; place < bits; place += 1) {
      const one = bit(at + node);
      node = (node << 1) | one;
      found |= one << place;
    }
    return found;
  };
  return { bit, even, tree, backwards };
}
