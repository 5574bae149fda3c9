// What an automatic checker of access finds: nothing, on the page in its states and
// on the papers.

import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import {
  DESK, PHONE, folder, launched, opened, settled, tab, violations, written,
} from './browser.mjs';
import { bench, command } from './command.mjs';

let browser;
before(async () => {
  browser = await launched();
});
after(() => browser.close());

for (const [place, given] of [['desk', DESK], ['phone', PHONE]]) {
  for (const colorScheme of ['light', 'dark']) {
    test(`the page on a ${place}, ${colorScheme}`, async (t) => {
      const { context, page } = await opened(browser, { ...given, colorScheme });
      t.after(() => context.close());
      const fits = async (state) => assert.deepEqual(await violations(page), [], state);
      await fits('as it opens');
      const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
      await written(page, text.replace('share 1; shelf', 'high 23; shelf'));
      if (place === 'phone') await page.tap('#findings-open');
      await page.locator('.finding details summary').first().click();
      await fits('broken');
      await page.click('.mend >> nth=2');
      await settled(page);
      await page.focus('.cm-content');
      await settled(page);
      await fits('while it is written');
      for (const menu of ['piece-menu', 'papers-menu', 'help']) {
        await page.click(`[popovertarget="${menu}"]`);
        await fits(menu);
        await page.evaluate((id) => document.getElementById(id).hidePopover(), menu);
      }
      await page.click('[popovertarget="piece-menu"]');
      await page.click('#do-new');
      await page.waitForTimeout(400);
      await fits('with the catalog');
      await page.click('#start-close');
      await page.click('#papers-button');
      await page.click('#papers-list button:has-text("Cut list")');
      await page.frameLocator('#paper-frame').locator('h1').waitFor();
      await fits('with a paper');
    });
  }
}

for (const piece of ['hall-console', 'gate-cottage-laundry']) {
  test(`every paper of ${piece}`, async (t) => {
    const into = join(bench(t), piece);
    command(['build', `${folder}../specs/${piece}.case`, '--into', into]);
    const names = readdirSync(into).filter((file) => file.endsWith('.html'));
    assert.equal(names.length, 12);
    for (const given of [DESK, PHONE]) {
      const { context, page } = await tab(browser, given);
      t.after(() => context.close());
      for (const name of names) {
        await page.goto(`file://${join(into, name)}`);
        assert.deepEqual(await violations(page), [], `${name}, ${given.viewport.width} px`);
      }
    }
  });
}
