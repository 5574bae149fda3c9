// The page by keys alone.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, launched, opened, settled, written } from './browser.mjs';

let browser;
before(async () => {
  browser = await launched();
});
after(() => browser.close());

const at = (page) => page.evaluate(() => document.activeElement.id
  || document.activeElement.className || document.activeElement.textContent);

async function press(page, ...keys) {
  for (const key of keys) await page.keyboard.press(key);
}

test('a piece is begun, mended, and its papers opened by keys alone', async (t) => {
  const { context, page, wrong } = await opened(browser, DESK);
  t.after(() => context.close());
  await press(page, 'Tab');
  assert.match(await at(page), /skip/);
  await press(page, 'Tab', 'Enter', 'Tab');
  assert.equal(await at(page), 'do-new');
  await press(page, 'Enter');
  await page.waitForSelector('#start[open]');
  assert.equal(await page.evaluate(() =>
    document.getElementById('start').contains(document.activeElement)), true);
  await press(page, 'Escape');
  assert.ok(!(await page.locator('#start').isVisible()));

  // Into the text and out of it.
  while (!/cm-content/.test(await at(page))) await press(page, 'F6');
  await press(page, 'Tab');
  assert.doesNotMatch(await at(page), /cm-content/);

  // To the finding, to its mends, and one of them.
  const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  await written(page, text.replace('share 1; shelf', 'high 23; shelf'));
  await press(page, 'F8');
  assert.equal(await page.evaluate(() => {
    const { state } = globalThis.desk.text.view;
    return state.sliceDoc(state.selection.main.from, state.selection.main.to);
  }), 'high 5');
  await press(page, 'F6');
  assert.equal(await at(page), 'findings-open');
  for (let left = 12; left > 0 && await at(page) !== 'mend'; left -= 1) await press(page, 'Tab');
  await press(page, 'Tab', 'Tab', 'Enter');
  await settled(page);
  assert.equal(await page.textContent('#state'), 'Ready to build');

  // To a paper and back.
  await page.focus('#papers-button');
  await press(page, 'Enter', 'Tab', 'Tab', 'Enter');
  await page.waitForSelector('#paper[open]');
  await page.frameLocator('#paper-frame').locator('h1').waitFor();
  await press(page, 'Escape');
  await page.waitForSelector('#paper', { state: 'hidden' });
  assert.deepEqual(wrong, []);
});

test('what is found is said', async (t) => {
  const { context, page } = await opened(browser, DESK);
  t.after(() => context.close());
  await written(page, 'casework 1\ncase a { wdie 3 }\n');
  await page.waitForFunction(() => /error/.test(document.getElementById('said').textContent));
  assert.equal(await page.getAttribute('#said', 'role'), 'status');
});
