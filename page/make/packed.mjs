// Packs bytes, so that the page's own unpacker can read them.

import { compress } from 'lzma1';

/** The bytes of an LZMA file. */
export function packed(bytes) {
  return Uint8Array.from(compress(new Uint8Array(bytes), 9));
}
