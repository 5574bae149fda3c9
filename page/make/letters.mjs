// Bytes as letters that may stand in a page of two-byte letters (UTF-16): sixteen bits each,
// where base64 has six in a byte. What would be read otherwise (nothing, a line end, the
// beginning of an element, half of a pair) is a pair of letters: one in thirty-two.

/** What may not stand by itself; halves of pairs come behind these. */
const READ_OTHERWISE = [0x0000, 0x000d, 0x003c];
const PAIRS = 0xd800;
const BEHIND = 0xe000;

/** The place of a letter among those that may not stand by themselves; below nought of others. */
function place(code) {
  return code >= PAIRS && code < BEHIND
    ? READ_OTHERWISE.length + code - PAIRS
    : READ_OTHERWISE.indexOf(code);
}

/** Letters for bytes; `web/letters.js` reads them. The first says whether a byte of nought
 * was added at the end. */
export function letters(bytes) {
  const codes = ['0'.charCodeAt(0) + (bytes.length % 2)];
  for (let at = 0; at < bytes.length; at += 2) {
    const code = bytes[at] | ((bytes[at + 1] ?? 0) << 8);
    const own = place(code);
    if (own < 0) codes.push(code);
    else codes.push(PAIRS | (own >> 10), 0xdc00 | (own & 0x3ff));
  }
  let text = '';
  for (let at = 0; at < codes.length; at += 8192) {
    text += String.fromCharCode(...codes.slice(at, at + 8192));
  }
  return text;
}
