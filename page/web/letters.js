// Letters of the page back into bytes: see `make/letters.mjs`.

const READ_OTHERWISE = [0x0000, 0x000d, 0x003c];
const PAIRS = 0xd800;
const BEHIND = 0xdc00;

/** The bytes that stand behind letters. */
export function bytes(letters) {
  const out = new Uint8Array(2 * (letters.length - 1));
  let done = 0;
  for (let at = 1; at < letters.length; at += 1) {
    let code = letters.charCodeAt(at);
    if (code >= PAIRS && code < BEHIND) {
      at += 1;
      const own = ((code & 0x3ff) << 10) | (letters.charCodeAt(at) & 0x3ff);
      code = READ_OTHERWISE[own] ?? PAIRS + own - READ_OTHERWISE.length;
    }
    out[done] = code;
    out[done + 1] = code >> 8;
    done += 2;
  }
  return out.subarray(0, done - Number(letters[0]));
}
