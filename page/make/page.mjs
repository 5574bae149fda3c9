// Puts the page together: one file, with the compiler, the words of the language and
// the licenses of what is in it.

import { createHash } from 'node:crypto';
import { readFileSync, readdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { bundled } from './bundle.mjs';
import { letters } from './letters.mjs';
import { crates, packages } from './licenses.mjs';
import { packed } from './packed.mjs';
import { parted } from './parted.mjs';
import { table } from './table.mjs';

const folder = fileURLToPath(new URL('..', import.meta.url));
const at = (path) => `${folder}${path}`;
const [, , compiler, unpack, out] = process.argv;

const style = readdirSync(at('web/style')).filter((name) => name.endsWith('.css')).sort()
  .map((name) => readFileSync(at(`web/style/${name}`), 'utf8')).join('');
const words = JSON.stringify(await table(readFileSync(compiler)));
const given = { table: words, licenses: '""' };
const draft = await bundled(at('web/main.js'), given);
const licenses = packages(draft.inputs, at('')) + crates(at('Cargo.toml'));
const rest = await bundled(at('web/main.js'), { ...given, licenses: JSON.stringify(licenses) });
const worker = await bundled(at('web/worker.js'), {});
const boot = await bundled(at('web/boot.js'), {});

const hash = ({ text }) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`;
const policy = [
  "default-src 'none'", `script-src ${hash(boot)} ${hash(rest)} 'wasm-unsafe-eval'`,
  "style-src 'unsafe-inline'", 'worker-src blob:', "base-uri 'none'", "form-action 'none'",
].join('; ');

const inside = {
  policy,
  style: style.replace(/^\s+/gm, '').replace(/\n/g, ''),
  worker: worker.text,
  unpack: letters(gzipSync(readFileSync(unpack), { level: 9 })),
  packed: letters(packed(parted(readFileSync(compiler)))),
  rest: letters(packed(Buffer.from(rest.text))),
  boot: boot.text,
};
for (const [name, text] of Object.entries(inside)) {
  if (/<\/script|<!--/i.test(text)) throw new Error(`${name} would end its own element`);
}
const page = readFileSync(at('web/index.html'), 'utf8')
  .replace(/\{\{([a-z]+)\}\}/g, (_, name) => inside[name]);
// The mark at its beginning says that its letters have two bytes, whatever a server says.
const written = (text) => Buffer.from(text, 'utf16le');
writeFileSync(out, written(`\ufeff${page}`));

const kb = (text) => `${(written(text).length / 1000).toFixed(0)} kB`;
console.log(`${out}: ${kb(page)}; compiler ${kb(inside.packed)}, script ${kb(inside.rest)}, style ${kb(inside.style)}`);
