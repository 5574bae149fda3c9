// The papers: a menu of them, and one at a time within the page. They come from
// a sound piece only.

import { byId, el, say, show } from './dom.js';
import { download } from './files.js';
import { Printed } from './printed.js';

const KINDS = {
  html: { type: 'text/html', ending: 'html' },
  text: { type: 'text/plain', ending: 'txt' },
  csv: { type: 'text/csv', ending: 'csv' },
};
const BY_ENDING = Object.fromEntries(
  Object.entries(KINDS).map(([form, own]) => [own.ending, form]),
);
const TABLES = [
  ['cut-list', 'csv', 'Cut list as a table'],
  ['buying-list', 'csv', 'Buying list as a table'],
];

export class Papers {
  /** `does` has `ready()`, which waits for what is typed, and `name()` of the piece. */
  constructor(compiler, does) {
    this.compiler = compiler;
    this.does = does;
    this.menu = byId('papers-list');
    this.view = byId('paper');
    this.frame = byId('paper-frame');
    this.slug = null;
    this.printed = new Printed(byId('printed'));
    byId('paper-close').addEventListener('click', () => history.back());
    byId('paper-print').addEventListener('click', () => this.print());
    byId('paper-save').addEventListener('click', () => this.save(this.slug, 'html'));
    byId('paper-text').addEventListener('click', () => this.save(this.slug, 'text'));
    this.choice = byId('paper-choice');
    this.choice.addEventListener('change', () => this.open(this.choice.value));
    this.frame.addEventListener('load', () => this.loaded());
    this.view.addEventListener('cancel', (event) => {
      event.preventDefault();
      history.back();
    });
    addEventListener('popstate', () => this.close());
    addEventListener('beforeprint', () => {
      if (this.view.open) this.printed.take(this.frame.contentDocument);
    });
    addEventListener('keydown', (event) => {
      if (this.view.open && (event.ctrlKey || event.metaKey) && event.key === 'p') {
        event.preventDefault();
        this.print();
      }
    });
  }

  /** Every paper there is, asked for once. */
  async list() {
    const all = await this.compiler.value('papers');
    const item = (label, about, tapped) => el('li', {}, el('button', {
      type: 'button', onclick: tapped,
    }, el('b', {}, label), about ? el('span', {}, about) : null));
    this.menu.replaceChildren(
      item('All papers', 'what there is, with any warnings', () => this.open('index')),
      ...all.map((own) => item(own.title, own.about, () => this.open(own.slug))),
      ...TABLES.map(([slug, form, label]) =>
        item(label, 'to keep as a file', () => this.save(slug, form))),
    );
    this.choice.replaceChildren(el('option', { value: 'index' }, 'All papers'),
      ...all.map((own) => el('option', { value: own.slug }, own.title)));
  }

  /** Whether there are any: of a piece with errors there are none. */
  allow(sound, why) {
    byId('no-papers').hidden = sound;
    byId('no-papers').textContent = why;
    for (const button of this.menu.querySelectorAll('button')) button.disabled = !sound;
  }

  async text(slug, form) {
    await this.does.ready();
    return this.compiler.value({ paper: { slug, form } });
  }

  async open(slug) {
    byId('papers-menu').hidePopover?.();
    const html = await this.text(slug, 'html');
    if (html === null) {
      say('There are no papers while something is broken.');
      return;
    }
    this.slug = slug;
    this.choice.value = slug;
    this.frame.title = this.choice.selectedOptions[0]?.textContent ?? slug;
    this.frame.srcdoc = html;
    if (!this.view.open) {
      this.view.showModal();
      history.pushState({ paper: true }, '');
    }
    byId('paper-text').hidden = slug === 'index';
  }

  close() {
    if (!this.view.open) return;
    this.view.close();
    this.frame.srcdoc = '';
    this.slug = null;
    this.printed.clear();
  }

  /** Links of a paper lead to other papers, within the page. */
  loaded() {
    const inner = this.frame.contentDocument;
    if (!inner || this.slug === null) return;
    inner.addEventListener('click', (event) => {
      const link = event.target.closest?.('a[href]');
      if (!link) return;
      const [, slug, ending] = /^([a-z-]+)\.([a-z]+)$/.exec(link.getAttribute('href')) ?? [];
      if (slug === undefined) return;
      event.preventDefault();
      const form = BY_ENDING[ending];
      if (form === 'html') this.open(slug);
      else if (form !== undefined) this.save(slug, form);
      else say('The command casewright build writes this file; the page has none of it.');
    });
    inner.addEventListener('keydown', (event) => {
      if (event.key === 'Escape') history.back();
    });
  }

  print() {
    this.frame.contentWindow.focus();
    this.frame.contentWindow.print();
  }

  async save(slug, form) {
    const text = await this.text(slug, form);
    if (text === null) {
      show('Nothing was saved: there are no papers while something is broken.');
      return;
    }
    const { type, ending } = KINDS[form];
    const name = `${this.does.name()}-${slug}.${ending}`;
    download(name, form === 'html' ? linked(text, this.does.name()) : text, type);
    show(`Sent to the downloads of this browser: ${name}.`);
  }
}

/** A paper as a file: its links lead to the other papers as they are saved, beside it, and what
 *  the page has none of is no link. */
function linked(html, name) {
  const known = Object.keys(BY_ENDING).join('|');
  return html
    .replace(new RegExp(`href="([a-z-]+\\.(?:${known}))(#[^"]*)?"`, 'g'),
      (_, file, place = '') => `href="${encodeURIComponent(name)}-${file}${place}"`)
    .replace(/<a [^>]*href="packet\.json"[^>]*>(.*?)<\/a>/gs, '$1');
}
