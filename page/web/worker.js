// The compiler in a thread of its own: it is given its module once, and then
// answers questions in the order in which they come.

import { unpacker } from './unpack.js';

const writer = new TextEncoder();
const reader = new TextDecoder();
let compiler;
let started;

async function start({ unpack, packed }) {
  const module = (await unpacker(unpack))(packed, { parted: true });
  compiler = (await WebAssembly.instantiate(module, {})).instance.exports;
}

function answer(question) {
  const bytes = writer.encode(question);
  // A call may make the memory grow, so it is looked at behind each.
  const at = compiler.room(bytes.length);
  new Uint8Array(compiler.memory.buffer, at, bytes.length).set(bytes);
  const length = compiler.ask();
  const from = compiler.answer();
  return reader.decode(new Uint8Array(compiler.memory.buffer, from, length));
}

self.onmessage = async ({ data }) => {
  try {
    if (data.packed !== undefined) {
      started = start(data);
      await started;
      self.postMessage({ ready: true });
      return;
    }
    await started;
    const begun = performance.now();
    const text = answer(JSON.stringify(data.question));
    const took = performance.now() - begun;
    self.postMessage({
      id: data.id, text, took, memory: compiler.memory.buffer.byteLength,
    });
  } catch (error) {
    self.postMessage({ id: data.id, failed: String(error) });
  }
};
