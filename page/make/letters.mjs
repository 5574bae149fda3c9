// Bytes as letters that may stand in a page: seven bits each, where base64 has six.
// Seven bits that would be read otherwise (nothing, a line end, the beginning of an
// element) share a letter of two bytes with the seven behind them.

/** What may not stand by itself. */
const READ_OTHERWISE = [0x00, 0x0d, 0x3c];

/** Letters for bytes; `web/letters.js` reads them. */
export function letters(bytes) {
  const codes = [];
  let held = 0;
  let bits = 0;
  const sevens = [];
  for (const byte of bytes) {
    held = (held << 8) | byte;
    bits += 8;
    while (bits >= 7) {
      bits -= 7;
      sevens.push((held >> bits) & 0x7f);
    }
    held &= (1 << bits) - 1;
  }
  if (bits > 0) sevens.push((held << (7 - bits)) & 0x7f);
  for (let at = 0; at < sevens.length; at += 1) {
    const which = READ_OTHERWISE.indexOf(sevens[at]);
    if (which < 0) {
      codes.push(sevens[at]);
    } else {
      at += 1;
      codes.push(0x100 + which * 0x80 + (sevens[at] ?? 0));
    }
  }
  let text = '';
  for (let at = 0; at < codes.length; at += 8192) {
    text += String.fromCharCode(...codes.slice(at, at + 8192));
  }
  return text;
}
