// The page as a file.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { test } from 'node:test';
import { letters } from '../make/letters.mjs';
import { bytes } from '../web/letters.js';
import { unpacker } from '../web/unpack.js';
import { DESK, PAGE, folder, launched, tab } from './browser.mjs';

const file = readFileSync(PAGE);
const page = file.toString('utf16le');

test('it is smaller than 1.6 MB', (t) => {
  t.diagnostic(`${(file.length / 1e6).toFixed(3)} MB`);
  assert.ok(file.length < 1_600_000, String(file.length));
});

test('the compiler that it unpacks is the one that was built, byte for byte', async () => {
  const inside = (id) => new RegExp(`<script[^>]* id="${id}"[^>]*>([^<]*)</script>`).exec(page)[1];
  const module = (await unpacker(inside('unpack')))(inside('packed'), { parted: true });
  const built = readFileSync(`${folder}made/casewright_page.wasm`);
  assert.equal(Buffer.compare(Buffer.from(module), built), 0);
});

// It may come from a server that says otherwise, and the mark counts for more.
test('it begins with the mark of its letters, and names no others', () => {
  assert.equal(page.charCodeAt(0), 0xfeff);
  assert.doesNotMatch(page, /charset/i);
});

test('any bytes can be read back from their letters, which end no element', () => {
  const all = Array.from({ length: 0x10000 }, (_, code) => [code & 0xff, code >> 8]).flat();
  for (const own of [[], [0], [60, 0], all, [...all, 7]]) {
    const text = letters(Uint8Array.from(own));
    assert.doesNotMatch(text, /[\0\r<]/);
    const through = new TextDecoder('utf-16le').decode(Buffer.from(text, 'utf16le'));
    assert.deepEqual([...bytes(through)], own);
  }
});

test('its policy lets nothing in and nothing out', () => {
  const [, policy] = /Content-Security-Policy" content="([^"]*)"/.exec(page);
  assert.match(policy, /^default-src 'none'; script-src ('sha256-[^']*' ){2}'wasm-unsafe-eval'; /);
  assert.doesNotMatch(policy, /https?:|\*|'unsafe-eval'|data:/);
});

test('it names no folder of the machine that built it', () => {
  assert.doesNotMatch(page, /\/(home|root|tmp|Users)\/|\.cargo\/registry/);
});

test('the lock of its packages names no registry', () => {
  const lock = readFileSync(`${folder}package-lock.json`, 'utf8');
  assert.doesNotMatch(lock, /https?:\/\/(?!github|opencollective|.*sponsor)/);
});

// Some servers say of every page that it is in UTF-8.
test('it starts from a server that says its letters are others', async () => {
  const browser = await launched();
  try {
    const { context, page: own, wrong } = await tab(browser, DESK);
    const address = 'http://shop.example/casewright.html';
    await context.route(address, (route) =>
      route.fulfill({ body: file, headers: { 'content-type': 'text/html; charset=utf-8' } }));
    await own.goto(address);
    await own.waitForSelector('#drawing svg');
    assert.deepEqual(wrong.filter((told) => !told.includes(address)), []);
  } finally {
    await browser.close();
  }
});
