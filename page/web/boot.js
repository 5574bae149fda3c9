// What runs first: the compiler starts in its thread, and meanwhile the rest of the
// page is unpacked.

import { Compiler } from './compiler.js';
import { unpacker } from './unpack.js';

const inside = (id) => document.getElementById(id).textContent;

globalThis.compiler = new Compiler(inside('worker'), {
  unpack: inside('unpack'), packed: inside('packed'),
});

try {
  await rest();
} catch (error) {
  document.getElementById('state').textContent = `The page can't start here: ${error.message}`;
}

async function rest() {
  const unpacked = await unpacker(inside('unpack'));
  const script = document.createElement('script');
  script.type = 'module';
  // The policy of the page knows it by its hash.
  script.textContent = new TextDecoder().decode(unpacked(inside('rest')));
  document.body.append(script);
}
