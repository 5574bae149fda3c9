// What is found: each with its sum, and its mends as buttons.

import { byId, counted, el, prose, say, settled } from './dom.js';

const WORDS = { error: 'Error', warning: 'Warning', note: 'Note' };

/** How many of each there are, in words. */
export function summed(all) {
  const many = (severity) => all.filter((own) => own.severity === severity).length;
  return [['error', many('error')], ['warning', many('warning')], ['note', many('note')]]
    .filter(([, count]) => count > 0)
    .map(([word, count]) => counted(count, word))
    .join(', ');
}

/** The list of findings. */
export class Findings {
  /** `does` has `mend(mend)`, `go(place)` and `explain(slug)`. */
  constructor(does) {
    this.does = does;
    this.all = [];
    this.chosen = null;
    this.list = byId('findings-list');
    this.announce = settled(900, () => say(this.spoken));
    this.spoken = '';
  }

  show(all) {
    this.all = all;
    if (this.chosen !== null && this.chosen >= all.length) this.chosen = null;
    this.list.replaceChildren(...all.map((own, at) => el('li', {}, this.one(own, at))));
    byId('nothing-found').hidden = all.length > 0;
  }

  /** Says what has changed, when the writer rests. */
  hear(text) {
    if (text === this.spoken) return;
    this.spoken = text;
    this.announce();
  }

  /** Marks a finding in the list. */
  choose(at, into = false) {
    this.chosen = at;
    [...this.list.children].forEach((item, own) => item.classList.toggle('chosen', own === at));
    if (into && at !== null) this.list.children[at]?.scrollIntoView({ block: 'nearest' });
  }

  /** A finding as it is told, in the list or where a pointer rests. */
  one(own, at) {
    const line = own.primary.at.from[0] + 1;
    const title = el('button', {
      type: 'button', class: 'place', onclick: () => this.does.go(own.primary.at, at),
    }, `Line ${line}`);
    const sums = own.sums.map(([head, text]) => [
      el('dt', {}, head), el('dd', {}, ...prose(text)),
    ]);
    const parts = own.labels.map(({ at: place, text }) => el('li', {}, el('button', {
      type: 'button', class: 'part', onclick: () => this.does.go(place, at),
    }, `Line ${place.from[0] + 1}: ${text}`)));
    return el('div', { class: `finding ${own.severity}` },
      el('p', { class: 'told' },
        el('strong', {}, `${WORDS[own.severity]}. `), ...prose(sentence(own.title)), ' ', title),
      sums.length > 0 ? el('dl', { class: 'sums' }, ...sums.flat()) : null,
      own.because ? el('p', {}, ...prose(sentence(own.because))) : null,
      own.notes.map((text) => el('p', { class: 'aside' }, ...prose(sentence(text)))),
      own.mends.length > 0 ? this.mends(own) : null,
      el('details', {},
        el('summary', {}, 'More about this'),
        parts.length > 0 ? el('ul', { class: 'parts' }, ...parts) : null,
        this.explained(own.slug)));
  }

  mends(own) {
    const buttons = own.mends.map((mend) => el('li', {}, el('button', {
      type: 'button', class: 'mend', 'data-mend': mend.name, onclick: () => this.does.mend(mend),
    }, el('span', { class: 'reads' }, ...prose(mend.reads)),
    el('span', { class: 'brings' }, mend.title))));
    return el('ul', { class: 'mends', 'aria-label': 'ways to mend it' }, ...buttons);
  }

  /** The page of a finding, when it is asked for. */
  explained(slug) {
    const place = el('div', { class: 'explained' });
    const more = el('button', {
      type: 'button', class: 'more',
      onclick: async () => {
        const text = await this.does.explain(slug);
        place.replaceChildren(el('pre', {}, text ?? ''));
      },
    }, `About ${slug}`);
    place.append(more);
    return place;
  }
}

/** A title stands without a capital and a full stop; in a list of its own it has both. */
function sentence(text) {
  const ends = /[.!?…:`]$/.test(text) ? text : `${text}.`;
  return ends.charAt(0).toUpperCase() + ends.slice(1);
}
