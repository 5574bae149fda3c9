// What a maker waits for, measured in a true browser: node bench.mjs [PIECE]
// The first drawing counts from the navigation, a key from its event to the frame in
// which the drawing stands.

import { readFileSync, statSync } from 'node:fs';
import { DESK, PAGE, folder, launched, tab } from './test/browser.mjs';

const piece = process.argv[2] ?? 'hall-console';
const text = readFileSync(`${folder}../specs/${piece}.case`, 'utf8');
const rounds = 40;

function told(name, all) {
  const sorted = [...all].sort((a, b) => a - b);
  const at = (part) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))].toFixed(1);
  console.log(`${name}: median ${at(0.5)} ms, 95 of 100 below ${at(0.95)} ms, least ${at(0)} ms (${all.length})`);
}

const browser = await launched();
console.log(`${PAGE}: ${(statSync(PAGE).size / 1e6).toFixed(3)} MB`);

const starts = [];
for (let round = 0; round < 7; round += 1) {
  const { context, page } = await tab(browser, DESK);
  await page.addInitScript(() => {
    const seen = new MutationObserver(() => {
      if (!document.querySelector('#drawing svg')) return;
      seen.disconnect();
      requestAnimationFrame(() => { globalThis.firstDrawn = performance.now(); });
    });
    seen.observe(document, { childList: true, subtree: true });
  });
  await page.goto(`file://${PAGE}`);
  await page.waitForFunction(() => globalThis.firstDrawn);
  starts.push(await page.evaluate(() => globalThis.firstDrawn));
  await context.close();
}
told('first drawing', starts);

const { page } = await tab(browser, DESK);
await page.goto(`file://${PAGE}`);
await page.waitForSelector('#drawing svg');
await page.evaluate(([name, own]) => {
  const { text: editor, pieces } = globalThis.desk;
  pieces.begin(name, { [name]: own });
  editor.open(pieces.own.files, name);
  editor.change(name, { changes: { from: 0, insert: '' } });
}, [`${piece}.case`, text]);
const { keys, checks } = await page.evaluate(async (many) => {
  const { text: editor, compiler } = globalThis.desk;
  const { view } = editor;
  const at = view.state.doc.toString().search(/high \d/) + 5;
  const own = view.state.doc.sliceString(at, at + 1);
  const measured = { keys: [], checks: [] };
  for (let round = 0; round < many; round += 1) {
    const drawn = new Promise((resolve) => {
      const seen = new MutationObserver(() => {
        seen.disconnect();
        requestAnimationFrame(() => setTimeout(resolve));
      });
      seen.observe(document.getElementById('drawing'), { childList: true });
    });
    const begun = performance.now();
    view.dispatch({ changes: { from: at, to: at + 1, insert: round % 2 ? own : String((Number(own) + 1) % 10) } });
    await drawn;
    measured.keys.push(performance.now() - begun);
    measured.checks.push(compiler.took.checked);
    await new Promise((resolve) => { setTimeout(resolve, 400); });
  }
  return measured;
}, rounds);
told(`${piece}: key to drawing`, keys);
told(`${piece}: a check, in its thread`, checks);
await browser.close();
