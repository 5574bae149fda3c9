// Beginning a piece: from a blank page, from a short example, from a whole piece,
// or from one that was written here before.

import { byId, el, prose } from './dom.js';
import { title } from './pieces.js';

const JOB = 'casework 1\n';

/** What a blank page says: the least that a piece needs. */
export function blank(unit, shop) {
  const uses = shop ? 'use "shop.case"\n' : '';
  return `${JOB}${uses}\njob "My piece" { units ${unit} }\n\n`;
}

export class Start {
  /** `does` has `begin(entry, files)` and `take(id)`. */
  constructor(compiler, pieces, does) {
    this.compiler = compiler;
    this.pieces = pieces;
    this.does = does;
    this.view = byId('start');
    byId('start-close').addEventListener('click', () => this.view.close());
    this.drawings = new Map();
  }

  async open() {
    if (!this.catalog) {
      this.catalog = await this.compiler.value('catalog');
      this.fill();
    }
    this.kept();
    this.view.showModal();
    this.view.scrollTop = 0;
    this.draw();
  }

  begin(entry, files) {
    this.view.close();
    this.does.begin(entry, files);
  }

  fill() {
    const shop = this.catalog.find((own) => own.short)?.files['shop.case'];
    const blanks = [
      ['Blank, in inches', 'A name for the job, and nothing else', 'in', false],
      ['Blank, in millimeters', 'A name for the job, and nothing else', 'mm', false],
      ['Blank, with a shop', 'Stocks, hinges, slides, and a finish wait in a file of their own', 'in', true],
    ];
    byId('start-blank').replaceChildren(...blanks.map(([name, says, unit, with_shop]) =>
      this.card(name, says, null, () => this.begin('my-piece.case', {
        'my-piece.case': blank(unit, with_shop),
        ...(with_shop ? { 'shop.case': shop } : {}),
      }))));
    const card = (own) => this.card(own.title || named(own.entry), own.says, own, () => this.begin(own.entry, own.files));
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
      const day = new Date(own.at).toLocaleDateString('en-US', { day: 'numeric', month: 'long' });
      const item = el('li', { class: 'kept' },
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
            item.remove();
          },
        }, 'Throw away'));
      return item;
    }));
  }

  card(name, says, own, tapped) {
    const picture = own === null ? null : el('span', { class: 'picture', 'aria-hidden': 'true' });
    if (own !== null) this.drawings.set(picture, own);
    return el('li', {}, el('button', { type: 'button', onclick: tapped },
      picture, el('b', {}, name), says === '' ? null : el('span', {}, ...prose(says))));
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

/** A file's name as words. */
function named(entry) {
  const words = entry.replace(/\.case$/, '').replaceAll('-', ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}
