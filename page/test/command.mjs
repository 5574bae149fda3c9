// The command, which says of a text what the page says.

import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { folder } from './browser.mjs';

const BINARY = process.env.CASEWRIGHT ?? `${folder}../target/debug/casewright`;

export function command(given, options = {}) {
  if (!existsSync(BINARY)) throw new Error(`build the command first: ${BINARY} is missing`);
  try {
    return execFileSync(BINARY, given, { encoding: 'utf8', stdio: 'pipe', ...options });
  } catch (error) {
    if (error.status === 1) return error.stdout;
    throw error;
  }
}

/** A folder of its own for these files, gone behind the test. */
export function bench(test, files = {}) {
  const own = mkdtempSync(join(tmpdir(), 'casewright-page-'));
  test.after(() => rmSync(own, { recursive: true }));
  for (const [name, text] of Object.entries(files)) writeFileSync(join(own, name), text);
  return own;
}

/** The findings of the command, as the page has them. */
export function findings(path) {
  const lines = command(['check', '--format', 'json', path]).split('\n');
  return lines.filter((line) => line.startsWith('{')).map((line) => JSON.parse(line))
    .map(({ slug, severity, title, line }) => ({ slug, severity, title, line }));
}
