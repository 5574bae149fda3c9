// The page on a phone: nothing stands out sideways, and all is done by thumb.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { PHONE, launched, opened, settled, sideways, tab, written } from './browser.mjs';
import { bench, command } from './command.mjs';
import { folder } from './browser.mjs';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';

let browser;
before(async () => {
  browser = await launched();
});
after(() => browser.close());

test('nothing stands out sideways in any state', async (t) => {
  const { context, page, wrong } = await opened(browser, PHONE);
  t.after(() => context.close());
  const fits = async (state) => assert.deepEqual(await sideways(page), [], state);
  await fits('as it opens');
  await page.evaluate(() => globalThis.desk.text.go(
    { file: 'first.case', from: [33, 0], to: [33, 0] }, { focus: false },
  ));
  await page.waitForTimeout(200);
  await page.tap('.cm-line:has-text("wide 36")');
  await settled(page);
  await fits('with the keys');
  assert.ok(await page.locator('#pad-keys').isVisible());
  await page.tap('.chip.all');
  await fits('with all words');
  await page.tap('#words-close');
  await page.tap('#pad-letters');
  await fits('with letters');
  await page.tap('#pad-figures');
  const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  await written(page, text.replace('share 1; shelf', 'high 23; shelf'));
  await fits('broken');
  await page.tap('#findings-open');
  await fits('with findings');
  await page.tap('.finding details summary');
  await page.tap('.more');
  await page.waitForSelector('.explained pre');
  await fits('with a finding explained');
  await page.tap('.mend >> nth=2');
  await settled(page);
  assert.equal(await page.textContent('#state'), 'Ready to build');
  await page.evaluate(() => document.activeElement.blur());
  await page.tap('#larger');
  await fits('with a larger drawing');
  await page.tap('#larger');
  await page.tap('#sizes-open');
  await page.selectOption('#thing', 'cupboard.upper');
  await settled(page);
  await fits('with sizes');
  for (const own of await page.locator('#sizes-body details summary').all()) await own.tap();
  await fits('with all figures');
  await page.tap('#sizes-open');
  for (const menu of ['#piece-menu', '#papers-menu', '#help']) {
    await page.tap(`[popovertarget="${menu.slice(1)}"]`);
    await fits(menu);
    await page.evaluate((id) => document.querySelector(id).hidePopover(), menu);
  }
  await page.tap('[popovertarget="piece-menu"]');
  await page.tap('#do-new');
  await page.waitForTimeout(500);
  await fits('with the catalog');
  await page.tap('#start-close');
  await page.tap('#papers-button');
  await page.tap('#papers-list button:has-text("Fitting sheet")');
  await page.frameLocator('#paper-frame').locator('h1').waitFor();
  await fits('with a paper');
  assert.deepEqual(wrong, []);
});

test('a figure is written over by thumb', async (t) => {
  const { context, page } = await opened(browser, PHONE);
  t.after(() => context.close());
  await page.evaluate(() => globalThis.desk.text.go(
    { file: 'first.case', from: [33, 0], to: [33, 0] }, { focus: false },
  ));
  await page.waitForTimeout(200);
  await page.tap('.cm-line:has-text("wide 36") .figure >> nth=2');
  await page.waitForTimeout(200);
  for (const key of ['3', '3', '-', '1', '/', '4']) {
    await page.tap(`#pad-keys button[data-put="${key}"]`);
  }
  await settled(page);
  const line = await page.evaluate(() => globalThis.desk.text.view.state.doc.line(34).text);
  assert.match(line, /high 33-1\/4 /);
  assert.equal(await page.evaluate(() =>
    document.querySelector('.cm-content').getAttribute('inputmode')), 'none');
  assert.match(await page.textContent('#drawing svg'), /33-1\/4/);
  await page.tap('[data-does="undo"]');
});

test('a drawer is put in by words that are offered', async (t) => {
  const { context, page } = await opened(browser, PHONE);
  t.after(() => context.close());
  await page.evaluate(() => {
    const { text } = globalThis.desk;
    const { view } = text;
    const at = view.state.doc.toString().indexOf('      doors store');
    view.dispatch({ selection: { anchor: at - 1 }, scrollIntoView: true });
    view.focus();
  });
  await settled(page);
  await page.tap('[data-does="line"]');
  await page.waitForTimeout(300);
  await page.tap('.chip.all');
  await page.tap('#words-list li:has(b:text-is("drawer")) .example');
  await settled(page);
  const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  assert.match(text, /\n {6}drawer [a-z]+ \{ .*\}\n {6}doors store/);
});

test('what the strip tells is of the piece that is written now', async (t) => {
  const { context, page, wrong } = await opened(browser, PHONE);
  t.after(() => context.close());
  const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  await page.evaluate((at) => globalThis.desk.text.view.dispatch({ selection: { anchor: at } }),
    text.indexOf('wide 36'));
  await settled(page);
  assert.match(await page.textContent('#sizes-head'), /cupboard case: wide 36 in/);
  // The cursor stands at nothing, and the figure changes under what is told.
  await page.evaluate(() => globalThis.desk.text.view.dispatch({ selection: { anchor: 0 } }));
  await written(page, text.replace('wide 36', 'wide 35'));
  await page.waitForFunction(() =>
    /wide 35 in/.test(document.getElementById('sizes-head').textContent));
  await written(page, text.replaceAll('cupboard', 'press'));
  await page.waitForFunction(() =>
    /^Tap a part/.test(document.getElementById('sizes-head').textContent));
  assert.doesNotMatch(await page.textContent('#sizes-body'), /cupboard/);
  assert.equal(await page.textContent('#state'), 'Ready to build');
  assert.deepEqual(wrong, []);
});

test('a tap on the line that a size comes from shows that line', async (t) => {
  const { context, page, wrong } = await opened(browser, PHONE);
  t.after(() => context.close());
  await page.tap('#sizes-open');
  await page.selectOption('#thing', 'cupboard.store.left-door');
  await settled(page);
  const line = page.locator('#sizes-body > .figure .place:has-text("line")').last();
  const [, number] = /line (\d+)/.exec(await line.textContent());
  await line.tap();
  await settled(page);
  const seen = await page.evaluate(() => {
    const marked = document.querySelector('.come-to')?.getBoundingClientRect();
    const frame = document.querySelector('#text .cm-scroller').getBoundingClientRect();
    return marked && marked.top >= frame.top && marked.bottom <= frame.bottom
      && marked.height > 0 ? globalThis.desk.text.cursor[0] + 1 : null;
  });
  assert.equal(seen, Number(number));
  assert.equal(await page.getAttribute('#sizes-open', 'aria-expanded'), 'false');
  // The mark goes when one writes on.
  await page.evaluate(() => globalThis.desk.text.view.dispatch({ changes: { from: 0, insert: '#\n' } }));
  assert.equal(await page.locator('.come-to').count(), 0);
  assert.deepEqual(wrong, []);
});

test('what is saved is told, and under which name', async (t) => {
  const { context, page, wrong } = await opened(browser, PHONE);
  t.after(() => context.close());
  // A phone has no picker of files.
  await page.evaluate(() => { delete globalThis.showSaveFilePicker; });
  for (const button of ['#do-save', '#do-download']) {
    await page.evaluate(() => { document.getElementById('told').textContent = ''; });
    await page.tap('[popovertarget="piece-menu"]');
    const [download] = await Promise.all([page.waitForEvent('download'), page.tap(button)]);
    assert.equal(await page.textContent('#told'),
      `Sent to the downloads of this browser: ${download.suggestedFilename()}.`);
    assert.match(await page.getAttribute('#told', 'class'), /seen/);
    assert.deepEqual(await sideways(page), []);
  }
  await page.tap('#papers-button');
  await page.tap('#papers-list button:has-text("Cut list") >> nth=0');
  await page.frameLocator('#paper-frame').locator('h1').waitFor();
  const [paper] = await Promise.all([page.waitForEvent('download'), page.tap('#paper-save')]);
  assert.match(await page.textContent('#paper-said'), new RegExp(`: ${paper.suggestedFilename()}\\.$`));
  await page.tap('#paper-close');
  // A picker that the maker leaves saves nothing.
  await page.evaluate(() => {
    globalThis.showSaveFilePicker = async () => { throw new DOMException('', 'AbortError'); };
  });
  await page.waitForSelector('#paper', { state: 'hidden' });
  await page.tap('[popovertarget="piece-menu"]');
  await page.tap('#do-save');
  await page.waitForFunction(() =>
    document.getElementById('told').textContent === 'first.case was not saved.');
  assert.deepEqual(wrong, []);
});

test('what is told at a figure goes when the text changes, and leaves the drawing seen', async (t) => {
  const { context, page } = await opened(browser, PHONE);
  t.after(() => context.close());
  const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
  await written(page, text.replace('share 1; shelf', 'high 23; shelf'));
  await page.evaluate(() => {
    const { all } = globalThis.desk.checked.findings;
    globalThis.desk.text.go(all[0].primary.at, { focus: false });
  });
  await page.waitForTimeout(300);
  await page.locator('.found.error').first().hover();
  await page.waitForSelector('.cm-tooltip-hover');
  await page.waitForTimeout(200);
  const [above, below] = await page.evaluate(() => [
    document.querySelector('.cm-tooltip-hover').getBoundingClientRect().top,
    document.getElementById('text').getBoundingClientRect().top,
  ]);
  assert.ok(above >= below - 1, `${above} above ${below}`);
  await page.evaluate(() => globalThis.desk.text.view.dispatch({ changes: { from: 0, insert: '#' } }));
  await page.waitForSelector('.cm-tooltip-hover', { state: 'detached' });
});

test('a file with the name of an example follows the name of the job, until the maker has it', async (t) => {
  const { context, page, wrong } = await opened(browser, PHONE);
  t.after(() => context.close());
  const job = async (name) => {
    const text = await page.evaluate(() => globalThis.desk.text.view.state.doc.toString());
    await written(page, text.replace(/job ".*?"/, `job "${name}"`));
    return page.evaluate(() => {
      const { pieces, text: { shown, view } } = globalThis.desk;
      const label = view.contentDOM.getAttribute('aria-label');
      return [pieces.own.entry, Object.keys(pieces.own.files).join(), shown, label];
    });
  };
  const all = (name) => [name, name, name, `the text of ${name}`];
  assert.deepEqual(await job('Bedside cabinet'), all('bedside-cabinet.case'));
  assert.equal(await page.textContent('#state'), 'Ready to build');
  await page.evaluate(() => globalThis.desk.text.undo());
  await settled(page);
  assert.equal(await page.evaluate(() => globalThis.desk.pieces.own.entry), 'first.case');
  assert.deepEqual(await job('Tom\'s cabin\u00e9t, no. 2'), all('tom-s-cabinet-no-2.case'));
  await page.tap('[popovertarget="piece-menu"]');
  const [download] = await Promise.all([page.waitForEvent('download'), page.tap('#do-download')]);
  assert.equal(download.suggestedFilename(), 'tom-s-cabinet-no-2.case');
  assert.deepEqual(await job('Another'), all('tom-s-cabinet-no-2.case'));
  assert.deepEqual(wrong, []);
});

test('the drawing is made larger by a button that covers none of it', async (t) => {
  const { context, page } = await opened(browser, PHONE);
  t.after(() => context.close());
  const box = (id) => page.locator(id).boundingBox();
  for (const label of ['Larger drawing', 'Smaller drawing', 'Larger drawing']) {
    assert.equal(await page.textContent('#larger'), label);
    const [front, button] = [await box('#front'), await box('#larger')];
    assert.ok(button.y >= front.y + front.height - 1);
    await page.tap('#larger');
    const { height } = await box('#front');
    assert.equal(height > front.height, label === 'Larger drawing');
  }
  // Where it could not make the drawing larger, it is not there.
  await page.tap('#sizes-open');
  assert.ok(!(await page.locator('#larger').isVisible()));
});

test('a unit goes behind the figure that a tap has taken', async (t) => {
  const { context, page } = await opened(browser, PHONE);
  t.after(() => context.close());
  const taken = async () => {
    await page.evaluate(() => globalThis.desk.text.go(
      { file: 'first.case', from: [33, 0], to: [33, 0] }, { focus: false },
    ));
    await page.waitForTimeout(200);
    await page.tap('.cm-line:has-text("wide 36") .figure >> nth=2');
    await page.waitForTimeout(200);
  };
  const line = () => page.evaluate(() => globalThis.desk.text.view.state.doc.line(34).text);
  await taken();
  await page.tap('#pad-keys [data-put=" in"]');
  assert.match(await line(), /high 34-1\/2 in /);
  await page.tap('[data-does="undo"]');
  // And from the device's own keyboard.
  await taken();
  await page.tap('#pad-letters');
  await page.keyboard.type('mm');
  assert.match(await line(), /high 34-1\/2 mm /);
});

test('no paper stands out sideways on a phone', async (t) => {
  const own = bench(t);
  const { context, page } = await tab(browser, PHONE);
  t.after(() => context.close());
  for (const piece of ['hall-console', 'gate-cottage-laundry']) {
    const into = join(own, piece);
    command(['build', `${folder}../specs/${piece}.case`, '--into', into]);
    for (const name of readdirSync(into).filter((file) => file.endsWith('.html'))) {
      await page.goto(`file://${join(into, name)}`);
      assert.deepEqual(await sideways(page), [], `${piece} ${name}`);
    }
  }
});
