// Whose work is in the page, and on which terms.

import { execFileSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** The text of the license in a folder; the one of MIT where there are several. */
function text(folder) {
  const files = readdirSync(folder).filter((name) => /^(licen[cs]e|copying)/i.test(name));
  const file = files.find((name) => /mit/i.test(name)) ?? files[0];
  return file ? readFileSync(join(folder, file), 'utf8').trim() : '';
}

/** Of the npm packages that these files belong to. */
export function packages(inputs, root) {
  const names = inputs.map((path) => /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1]);
  const all = [...new Set(names.filter(Boolean))].sort().map((name) => {
    const folder = join(root, 'node_modules', name);
    const own = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
    return { name, version: own.version, terms: own.license, says: text(folder) };
  });
  return shared(all);
}

/** Of the crates that the compiler is made of. */
export function crates(manifest) {
  const target = 'wasm32-unknown-unknown';
  const run = (...given) => execFileSync('cargo', given, { encoding: 'utf8', maxBuffer: 1 << 28 });
  const tree = run('tree', '--locked', '--offline', '--manifest-path', manifest, '--target', target,
    '--edges', 'normal,no-proc-macro', '--prefix', 'none', '--format', '{p}');
  const used = new Set(tree.split('\n').map((line) => line.split(' ').slice(0, 2).join(' ')));
  const { packages: all } = JSON.parse(run('metadata', '--locked', '--offline', '--format-version', '1',
    '--manifest-path', manifest, '--filter-platform', target));
  const own = all.filter(({ name, version, source }) =>
    source !== null && used.has(`${name} v${version}`));
  return shared(own.map(({ name, version, license, manifest_path: path }) => ({
    name, version, terms: license, says: text(dirname(path)),
  })));
}

/** Those with the same words are told together. */
function shared(all) {
  const bySays = Map.groupBy
    ? Map.groupBy(all, ({ says }) => says)
    : all.reduce((map, own) => map.set(own.says, [...(map.get(own.says) ?? []), own]), new Map());
  return [...bySays].map(([says, same]) => {
    if (says === '') throw new Error(`${same.map(({ name }) => name)} come without a license`);
    const names = same.map(({ name, version, terms }) => `${name} ${version}: ${terms}`);
    return `${names.join('\n')}\n\n${says}\n\n`;
  }).join('');
}
