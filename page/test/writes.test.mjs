// A piece from nothing to its papers, on the page alone.

import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, folder, launched, opened, settled, tab, written } from './browser.mjs';
import { bench, command, findings } from './command.mjs';

let browser;
before(async () => {
  browser = await launched();
});
after(() => browser.close());

const FIRST = readFileSync(`${folder}../specs/first.case`, 'utf8');

/** The findings that the page has, as the command tells them. */
function found(page) {
  return page.evaluate(() => globalThis.desk.checked.findings.all.map((own) => ({
    slug: own.slug, severity: own.severity, title: own.title, line: own.primary.at.from[0] + 1,
  })));
}

test('a piece is typed from nothing, broken, mended by a tap, kept, and printed', async (t) => {
  const { context, page, wrong } = await opened(browser, DESK);
  t.after(() => context.close());

  // From nothing, key by key, with the braces that the page closes by itself.
  await page.click('nav button >> nth=0');
  await page.click('#do-new');
  await page.click('#start-blank button >> nth=2');
  await settled(page);
  assert.match(await page.textContent('#state'), /error/);
  await page.click('#text .cm-content');
  await page.keyboard.press('Control+a');
  await page.keyboard.press('Delete');
  for (const line of FIRST.replace(/ +#.*$/gm, '').split('\n')) {
    await page.keyboard.insertText(line);
    await page.keyboard.press('Enter');
  }
  await settled(page);
  assert.equal(await page.textContent('#state'), 'Ready to build');
  assert.match(await page.textContent('#drawing svg'), /34-1\/2/);

  // Broken: the sum is told, the papers are gone, the drawing stays.
  const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  await written(page, text.replace('share 1; shelf', 'high 23; shelf'));
  assert.match(await page.textContent('#state'), /1 error/);
  assert.match(await page.textContent('.sums'), /5 \+ 1-1\/2 \+ 23 = 29-1\/2/);
  await page.keyboard.press('F8');
  assert.equal(await page.locator('.found.error').first().textContent(), 'high 5');
  // The editor draws the lines that come into view a frame later.
  await page.waitForFunction(() => document.querySelectorAll('.takes-part').length === 6);
  assert.ok(await page.locator('#papers-list button').first().isDisabled());
  assert.match(await page.textContent('#drawing svg'), /\?/);
  await written(page, `${text}}`);
  assert.match(await page.textContent('#state'), /error/);
  assert.ok(await page.locator('#drawing svg').isVisible(), 'the last sound drawing is kept');
  await written(page, text.replace('share 1; shelf', 'high 23; shelf'));

  // Mended by a tap, taken back, made again.
  await page.click('.mend:has-text("share 1")');
  await settled(page);
  assert.equal(await page.textContent('#state'), 'Ready to build');
  await page.click('#text .cm-content');
  await page.keyboard.press('Control+z');
  await settled(page);
  assert.match(await page.textContent('#state'), /1 error/);
  await page.keyboard.press('Control+y');
  await settled(page);
  assert.equal(await page.textContent('#state'), 'Ready to build');

  // Kept on the device.
  const mended = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  await page.reload();
  await page.waitForSelector('#drawing svg');
  await settled(page);
  assert.equal(
    await page.evaluate(() => globalThis.desk.text.view.state.doc.toString()), mended,
  );

  // Downloaded, and the command says the same and writes the same papers.
  const own = bench(t);
  await page.click('nav button >> nth=0');
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#do-download')]);
  const path = join(own, 'my-piece.case');
  await download.saveAs(path);
  assert.equal(readFileSync(path, 'utf8'), mended);
  assert.deepEqual(findings(path), await found(page));
  command(['build', path, '--into', join(own, 'papers')]);

  await page.click('#papers-button');
  const slugs = await page.evaluate(() =>
    [...document.querySelectorAll('#paper-choice option')].map(({ value }) => value));
  assert.equal(slugs.length, 12);
  await page.click('#papers-list button:has-text("Cut list")');
  for (const slug of slugs) {
    await page.selectOption('#paper-choice', slug);
    const html = readFileSync(join(own, 'papers', `${slug}.html`), 'utf8');
    await page.waitForFunction((wanted) =>
      document.getElementById('paper-frame').srcdoc === wanted, html, { timeout: 5000 });
  }

  // A link within a paper leads to the other paper, and back leads to the text.
  await page.selectOption('#paper-choice', 'index');
  const frame = page.frameLocator('#paper-frame');
  await frame.locator('a:has-text("Cut list")').first().click();
  await frame.locator('h1:has-text("Cut list")').waitFor();

  // Printed: the page asks for the frame to be printed, and that makes sheets.
  await page.evaluate(() => {
    const inner = document.getElementById('paper-frame').contentWindow;
    inner.print = () => { globalThis.printed = inner.document.title; };
  });
  await page.click('#paper-print');
  assert.match(await page.evaluate(() => globalThis.printed), /Cut list/);
  const html = await page.evaluate(() => document.getElementById('paper-frame').srcdoc);
  writeFileSync(join(own, 'cut-list.html'), html);
  const sheet = await tab(browser);
  await sheet.page.goto(`file://${join(own, 'cut-list.html')}`);
  const pdf = await sheet.page.pdf({ preferCSSPageSize: true });
  await sheet.context.close();
  assert.equal(pdf.subarray(0, 5).toString(), '%PDF-');
  const sheets = (own) => (own.toString('latin1').match(/\/Type \/Page\b/g) ?? []).length;
  assert.ok(sheets(pdf) > 1);
  // The browser's own menu prints the open paper over as many sheets, else the drawing on one.
  assert.equal(sheets(await page.pdf({ preferCSSPageSize: true })), sheets(pdf));
  await page.goBack();
  await page.waitForSelector('#paper', { state: 'hidden' });
  assert.equal(sheets(await page.pdf({ preferCSSPageSize: true })), 1);
  assert.ok(!(await page.locator('#paper').isVisible()));

  assert.deepEqual(wrong, []);
});

test('what several pieces use is a file of its own', async (t) => {
  const { context, page, wrong } = await opened(browser, DESK);
  t.after(() => context.close());
  await page.click('nav button >> nth=0');
  await page.click('#do-new');
  await page.click('#start-whole button:has-text("Ferry Road")');
  await settled(page);
  assert.equal(await page.textContent('#state'), 'Ready to build');
  assert.deepEqual(await page.locator('#tabs button').allTextContents(),
    ['ferry-road-wash-stand.case', 'shop.case']);
  await page.click('#tabs button:has-text("shop.case")');
  const shop = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  await written(page, shop.replace(/^stock /m, 'stock no-'));
  assert.match(await page.textContent('#state'), /error/);
  await written(page, shop);
  assert.equal(await page.textContent('#state'), 'Ready to build');
  const own = bench(t, await page.evaluate(() => globalThis.desk.pieces.own.files));
  assert.deepEqual(findings(join(own, 'ferry-road-wash-stand.case')), await found(page));
  assert.deepEqual(wrong, []);
});

test('every piece of the catalog is as sound as in its folder', async (t) => {
  const { context, page } = await opened(browser, DESK);
  t.after(() => context.close());
  const all = await page.evaluate(async () => {
    const { compiler } = globalThis.desk;
    const pieces = await compiler.value('catalog');
    const checked = [];
    for (const { entry, files, short } of pieces) {
      const { sound, findings } = await compiler.value({ check: { entry, files } });
      checked.push({ entry, short, sound, found: findings.all.map(({ slug }) => slug) });
    }
    return checked;
  });
  assert.ok(all.length > 30, `${all.length} pieces`);
  assert.deepEqual(all.filter(({ sound }) => !sound), []);
});

test('a tap in the drawing leads to the line, and the line to the drawing', async (t) => {
  const { context, page, wrong } = await opened(browser, DESK);
  t.after(() => context.close());
  const at = await page.evaluate(() => {
    const rect = document.querySelector('#drawing svg').getScreenCTM();
    const { area } = globalThis.desk.checked.drawn.places.findLast(({ name }) =>
      name === 'cupboard.store.left-door');
    const point = new DOMPoint((area[0] + area[2]) / 2, (area[1] + area[3]) / 2);
    const { x, y } = point.matrixTransform(rect);
    return { x, y };
  });
  await page.mouse.click(at.x, at.y);
  await settled(page);
  const line = FIRST.split('\n').findIndex((text) => text.includes('doors store'));
  assert.equal(await page.evaluate(() => globalThis.desk.text.cursor[0]), line);
  assert.match(await page.textContent('#sizes-head'), /left-door.*ST-LD.*length 20-13\/16/);
  // 36 − 1-3/4 − 1-3/4 are terms of its width, each with its line.
  assert.match(await page.textContent('#sizes-body'), /line 44/);
  await page.evaluate(() => {
    const { text } = globalThis.desk;
    text.go({ file: 'first.case', from: [43, 4], to: [43, 4] });
  });
  await settled(page);
  assert.equal(await page.locator('#drawing .marks rect').count(), 1);
  assert.match(await page.textContent('#sizes-head'), /left-stile/);
  assert.deepEqual(wrong, []);
});

test('a paper that is opened behind a key is of what the key wrote', async (t) => {
  const { context, page, wrong } = await opened(browser, DESK);
  t.after(() => context.close());
  // Three keys, one behind the other, while the first is still checked; and at once the paper.
  await page.evaluate(() => {
    const { view } = globalThis.desk.text;
    for (const [from, to] of [['wide 36', 'wide 37'], ['wide 37', 'wide 38'], ['wide 38', 'wide 39']]) {
      const at = view.state.doc.toString().indexOf(from);
      view.dispatch({ changes: { from: at, to: at + from.length, insert: to } });
    }
    [...document.querySelectorAll('#papers-list button')]
      .find((own) => own.textContent.includes('Cut list')).click();
  });
  await page.waitForFunction(() => document.getElementById('paper-frame').srcdoc !== '');
  const shown = await page.evaluate(() => document.getElementById('paper-frame').srcdoc);
  await settled(page);
  const now = await page.evaluate(() =>
    globalThis.desk.compiler.value({ paper: { slug: 'cut-list', form: 'html' } }));
  assert.match(await page.evaluate(() => globalThis.desk.text.view.state.doc.toString()), /wide 39;/);
  assert.equal(shown, now);
  assert.deepEqual(wrong, []);
});

test('a saved paper leads to the others beside it', async (t) => {
  const { context, page } = await opened(browser, DESK);
  t.after(() => context.close());
  await page.click('#papers-button');
  await page.click('#papers-list button:has-text("All papers")');
  await page.waitForFunction(() => document.getElementById('paper-frame').srcdoc !== '');
  const [download] = await Promise.all([page.waitForEvent('download'), page.click('#paper-save')]);
  const path = join(bench(t), 'saved.html');
  await download.saveAs(path);
  const html = readFileSync(path, 'utf8');
  const links = [...html.matchAll(/href="([^"#]+)[^"]*"/g)].map(([, link]) => link);
  assert.ok(links.includes('first-cut-list.html'), String(links));
  assert.ok(links.every((link) => link.startsWith('first-')), String(links));
});

test('an example is found by a word, and says its unit', async (t) => {
  const { context, page } = await opened(browser, DESK);
  t.after(() => context.close());
  await page.click('nav button >> nth=0');
  await page.click('#do-new');
  await page.waitForSelector('#start[open] li');
  const shown = () => page.evaluate(() =>
    [...document.querySelectorAll('#start li')].filter((own) => own.checkVisibility()).length);
  const all = await shown();
  await page.fill('#start-find', 'millimeters wardrobe');
  const few = await shown();
  assert.ok(few > 0 && few < all / 4, `${few} of ${all}`);
  assert.match(await page.locator('#start-whole li:visible').first().textContent(), /Mill Lane/);
  await page.fill('#start-find', 'xyzzy');
  assert.equal(await shown(), 0);
  assert.ok(await page.locator('#start-none').isVisible());
});

test('words are offered where they may stand', async (t) => {
  const { context, page } = await opened(browser, DESK);
  t.after(() => context.close());
  await page.evaluate(() => {
    const { view } = globalThis.desk.text;
    const at = view.state.doc.toString().indexOf('rail { wide 1-1/2 }');
    view.dispatch({ selection: { anchor: at } });
    view.focus();
  });
  await page.keyboard.insertText('dr');
  await page.keyboard.press('Control+Space');
  await page.waitForSelector('.cm-tooltip-autocomplete');
  assert.match(await page.textContent('.cm-tooltip-autocomplete'), /drawer/);
});

test('a bare box is sound, in inches and in millimeters', async (t) => {
  const { context, page } = await opened(browser, DESK);
  t.after(() => context.close());
  for (const [which, wide] of [[0, /24/], [1, /600/]]) {
    await page.click('nav button >> nth=0');
    await page.click('#do-new');
    await page.click(`#start-blank button >> nth=${which}`);
    await settled(page);
    assert.equal(await page.textContent('#state'), 'Ready to build');
    assert.match(await page.textContent('#drawing svg'), wide);
  }
  // Both are still here, the last one to hand.
  await page.click('nav button >> nth=0');
  await page.click('#do-new');
  const earlier = page.locator('#start-kept li');
  assert.equal(await earlier.count(), 2);
  // What a slip of the finger throws away is put back where it stood, and is kept.
  const before = await earlier.nth(1).textContent();
  await earlier.nth(1).getByText('Throw away').click();
  assert.equal(await page.evaluate(() => globalThis.desk.pieces.all.length), 2);
  await earlier.nth(1).getByText('Put it back').click();
  assert.equal(await earlier.nth(1).textContent(), before);
  assert.equal(await page.evaluate(() => globalThis.desk.pieces.all.length), 3);
  await page.click('#start-kept li >> nth=1 >> button >> nth=0');
  await settled(page);
  assert.equal(await page.textContent('#job'), 'First cabinet');
});
