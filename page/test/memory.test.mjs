// Memory stays flat, however long one writes.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, launched, opened } from './browser.mjs';

let browser;
before(async () => {
  browser = await launched();
});
after(() => browser.close());

test('a thousand compilations take no more memory than a hundred', async (t) => {
  const { context, page } = await opened(browser, DESK);
  t.after(() => context.close());
  const memory = await page.evaluate(async () => {
    const { compiler, pieces } = globalThis.desk;
    const { entry, files } = pieces.own;
    const sizes = [];
    for (let round = 0; round < 1000; round += 1) {
      const high = `high ${33 + (round % 16) / 16}`;
      const text = files[entry].replace('high 34-1/2', high);
      await compiler.value({ check: { entry, files: { [entry]: text } } });
      if (round % 100 === 99) {
        await compiler.value({ paper: { slug: 'assembly-order', form: 'html' } });
        await compiler.value({ why: { name: 'cupboard.store' } });
        sizes.push(compiler.memory);
      }
    }
    return sizes;
  });
  t.diagnostic(`${(memory[0] / 2 ** 20).toFixed(1)} MiB, then ${(memory.at(-1) / 2 ** 20).toFixed(1)} MiB`);
  assert.equal(memory.at(-1), memory[0]);
});
