// What the build has packed: by a small module of its own.

import { bytes } from './letters.js';

/** The module that unpacks; `zipped` is itself packed, by gzip. */
export async function unpacker(zipped) {
  const stream = new Blob([bytes(zipped)]).stream().pipeThrough(new DecompressionStream('gzip'));
  const module = await new Response(stream).arrayBuffer();
  const { memory, room, unpack, join, unpacked } = (await WebAssembly.instantiate(module)).instance.exports;

  /** The bytes that stand packed as letters of the page; a module was `parted` before. */
  return (text, { parted = false } = {}) => {
    const packed = bytes(text);
    // A call may make the memory grow, so it is looked at behind each.
    const at = room(packed.length);
    new Uint8Array(memory.buffer, at, packed.length).set(packed);
    let length = unpack();
    if (parted && length > 0) length = join();
    if (length === 0) throw new Error('this page is damaged');
    const from = unpacked();
    return new Uint8Array(memory.buffer, from, length);
  };
}
