// What the build asks of the compiler.

/** The words of the language, as the compiled module itself knows them. */
export async function table(bytes) {
  const { instance } = await WebAssembly.instantiate(bytes, {});
  const { memory, room, ask, answer } = instance.exports;
  const question = new TextEncoder().encode('"table"');
  const at = room(question.length);
  new Uint8Array(memory.buffer, at, question.length).set(question);
  const length = ask();
  const from = answer();
  return JSON.parse(new TextDecoder().decode(new Uint8Array(memory.buffer, from, length))).table;
}
