// Beginning a piece: from a bare box, from a short example, from a whole piece,
// or from one that was written here before.

import { BLANKS } from './blank.js';
import { byId, el, prose } from './dom.js';
import { title } from './pieces.js';

export class Start {
  /** `does` has `begin(entry, files)` and `take(id)`. */
  constructor(compiler, pieces, does) {
    this.compiler = compiler;
    this.pieces = pieces;
    this.does = does;
    this.view = byId('start');
    byId('start-close').addEventListener('click', () => this.view.close());
    this.drawings = new Map();
    /** What is looked through for a word, by card. */
    this.cards = new Map();
    this.sought = byId('start-find');
    this.sought.addEventListener('input', () => this.find());
  }

  /** Leaves those in sight that have every word that is sought. */
  find() {
    const words = this.sought.value.toLowerCase().split(/\s+/).filter(Boolean);
    let left = 0;
    for (const [item, text] of this.cards) {
      item.hidden = !words.every((word) => text.includes(word));
      if (!item.hidden) left += 1;
    }
    for (const list of ['start-blank', 'start-whole', 'start-short'].map(byId)) {
      list.parentElement.hidden = [...list.children].every((item) => item.hidden);
    }
    byId('start-none').hidden = left > 0;
  }

  async open() {
    if (!this.catalog) {
      this.catalog = await this.compiler.value('catalog');
      this.fill();
    }
    this.kept();
    this.sought.value = '';
    this.find();
    this.view.showModal();
    this.view.scrollTop = 0;
    this.draw();
  }

  begin(entry, files) {
    this.view.close();
    this.does.begin(entry, files);
  }

  fill() {
    byId('start-blank').replaceChildren(...BLANKS.map(([name, says, doc]) => {
      const own = { entry: 'my-piece.case', files: { 'my-piece.case': doc } };
      return this.card(name, says, own, () => this.begin(own.entry, own.files));
    }));
    const card = (own) => this.card(
      own.title || named(own.entry), own.says, own, () => this.begin(own.entry, own.files),
    );
    const short = this.catalog.filter((own) => own.short);
    const whole = this.catalog.filter((own) => !own.short);
    byId('start-short').replaceChildren(...short.map(card));
    byId('start-whole').replaceChildren(...whole.map(card));
  }

  /** What was written here before, the last first. */
  kept() {
    const [, ...before] = this.pieces.all;
    byId('start-kept-part').hidden = before.length === 0;
    byId('start-kept').replaceChildren(...before.map((own) => {
      const day = new Date(own.at).toLocaleString('en-US', {
        day: 'numeric', month: 'long', hour: 'numeric', minute: '2-digit',
      });
      const item = el('li', { class: 'kept' });
      const stands = [
        el('button', {
          type: 'button',
          onclick: () => {
            this.view.close();
            this.does.take(own.id);
          },
        }, el('b', {}, title(own)), el('span', {}, `${own.entry}, ${day}`)),
        el('button', {
          type: 'button', class: 'drop', 'aria-label': `throw away ${title(own)}`,
          onclick: () => {
            this.pieces.drop(own.id);
            item.replaceChildren(...gone);
            gone[1].focus();
          },
        }, 'Throw away'),
      ];
      // Until the list is left, a slip of the finger is put right.
      const gone = [
        el('p', { class: 'gone' }, `${title(own)} is thrown away.`),
        el('button', {
          type: 'button',
          onclick: () => {
            this.pieces.back(own);
            item.replaceChildren(...stands);
          },
        }, 'Put it back'),
      ];
      item.replaceChildren(...stands);
      return item;
    }));
  }

  card(name, says, own, tapped) {
    const picture = el('span', { class: 'picture', 'aria-hidden': 'true' });
    this.drawings.set(picture, own);
    const unit = unitOf(own);
    const item = el('li', {}, el('button', { type: 'button', onclick: tapped },
      picture, el('b', {}, name), says === '' ? null : el('span', {}, ...prose(says)),
      el('small', {}, unit)));
    this.cards.set(item, `${name} ${says} ${unit}`.toLowerCase());
    return item;
  }

  /** Draws what comes into sight. */
  draw() {
    if (this.watch) return;
    this.watch = new IntersectionObserver((seen) => {
      for (const { isIntersecting, target } of seen) {
        if (!isIntersecting) continue;
        this.watch.unobserve(target);
        this.picture(target, this.drawings.get(target));
      }
    }, { root: this.view, rootMargin: '200px' });
    for (const picture of this.drawings.keys()) this.watch.observe(picture);
  }

  async picture(place, { entry, files }) {
    const { value } = await this.compiler.ask({ sketch: { entry, files } });
    if (value === null) return;
    const svg = new DOMParser().parseFromString(value, 'image/svg+xml').documentElement;
    svg.removeAttribute('role');
    place.append(document.importNode(svg, true));
  }
}

/** What the figures of a piece count. */
function unitOf({ entry, files }) {
  const said = [files[entry], ...Object.values(files)]
    .map((text) => /^\s*(?:job .*\{\s*)?(?:.*; *)?units +(\w+)/m.exec(text)?.[1]).find(Boolean);
  return said === 'mm' ? 'millimeters' : 'inches';
}

/** A file's name as words. */
function named(entry) {
  const words = entry.replace(/\.case$/, '').replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
