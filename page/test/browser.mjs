// A browser of the system with no network, and the page in it, opened from the disk.

import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

export const folder = fileURLToPath(new URL('..', import.meta.url));
export const PAGE = process.env.CASEWRIGHT_PAGE ?? `${folder}made/casewright.html`;

export const PHONE = { viewport: { width: 390, height: 664 }, hasTouch: true, isMobile: true };
export const DESK = { viewport: { width: 1280, height: 800 } };

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

export async function launched() {
  const known = [process.env.CHROMIUM, '/usr/bin/chromium', '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome'];
  const executablePath = known.find((path) => path && existsSync(path));
  if (!executablePath) throw new Error('no chromium: install it, or name it in CHROMIUM');
  return chromium.launch({ executablePath, args: ['--no-sandbox', '--disable-gpu'] });
}

/** A tab without a network, with whatever goes wrong in it. */
export async function tab(browser, given = {}) {
  const context = await browser.newContext({ offline: true, acceptDownloads: true, ...given });
  const page = await context.newPage();
  const wrong = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) wrong.push(message.text());
  });
  page.on('pageerror', (error) => wrong.push(String(error)));
  page.on('request', (request) => {
    if (!/^(file|blob|data|about):/.test(request.url())) wrong.push(`asked for ${request.url()}`);
  });
  return { context, page, wrong };
}

/** The page itself, with its first drawing. */
export async function opened(browser, given = {}) {
  const own = await tab(browser, given);
  await own.page.goto(`file://${PAGE}`);
  await own.page.waitForSelector('#drawing svg');
  await settled(own.page);
  return own;
}

/** Waits until what is written is what was checked last. */
export async function settled(page) {
  await page.waitForFunction(() => globalThis.desk?.settled);
  await page.waitForTimeout(250);
}

/** Writes a whole text in place of what is seen. */
export async function written(page, text) {
  await page.evaluate((own) => {
    const { view } = globalThis.desk.text;
    view.dispatch({ changes: { from: 0, to: view.state.doc.length, insert: own } });
  }, text);
  await settled(page);
}

/** What an automatic checker of access finds. */
export async function violations(page) {
  await page.evaluate(AXE);
  const found = await page.evaluate(async () => {
    const { violations: all, passes } = await globalThis.axe.run(document, {
      runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'],
    });
    if (passes.length < 8) throw new Error('the checker looked at nothing');
    return all.map(({ id, nodes }) => ({ id, nodes: nodes.map(({ html, any }) =>
      `${html.slice(0, 160)} ${any.map(({ message }) => message).join('; ')}`) }));
  });
  return found.map(({ id, nodes }) => `${id}: ${nodes.slice(0, 5).join('\n    ')}`);
}

/** By how many pixels something stands out sideways, and what does. */
export async function sideways(page) {
  return page.evaluate(() => {
    const wide = document.documentElement.clientWidth;
    const out = [];
    // What is cut short with an ellipsis can be seen whole where it is opened.
    const short = (own) => own !== null
      && (getComputedStyle(own).textOverflow === 'ellipsis' || short(own.parentElement));
    if (document.documentElement.scrollWidth > wide) out.push('the page');
    for (const own of document.querySelectorAll('body *')) {
      const style = getComputedStyle(own);
      const hides = ['hidden', 'clip'].includes(style.overflowX);
      if (!hides && own.clientWidth > 0 && own.scrollWidth > own.clientWidth + 1
        && style.display !== 'inline' && !own.closest('svg')) {
        out.push(`${own.tagName}#${own.id}.${own.className} ${own.scrollWidth} > ${own.clientWidth}`);
      }
      const box = own.getBoundingClientRect();
      const seen = own.checkVisibility?.() && box.width > 1 && box.height > 1;
      if (seen && box.right > wide + 1 && !own.closest('svg, .vh, .skip') && !short(own)) {
        out.push(`${own.tagName}#${own.id}.${own.className} ends at ${Math.round(box.right)}`);
      }
    }
    return out;
  });
}
