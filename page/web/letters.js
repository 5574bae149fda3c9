// Letters of the page back into bytes: see `make/letters.mjs`.

const READ_OTHERWISE = [0x00, 0x0d, 0x3c];

/** The bytes that stand behind letters; at the end there may be one of nought more. */
export function bytes(letters) {
  const out = new Uint8Array(Math.ceil((letters.length * 14) / 8) + 1);
  let held = 0;
  let bits = 0;
  let done = 0;
  for (let at = 0; at < letters.length; at += 1) {
    const code = letters.charCodeAt(at);
    if (code < 0x80) {
      held = (held << 7) | code;
      bits += 7;
    } else {
      const own = code - 0x100;
      held = (held << 14) | (READ_OTHERWISE[own >> 7] << 7) | (own & 0x7f);
      bits += 14;
    }
    while (bits >= 8) {
      bits -= 8;
      out[done] = held >> bits;
      done += 1;
    }
    held &= (1 << bits) - 1;
  }
  return out.subarray(0, done);
}
