// The sizes of a thing, and where each comes from.

import { byId, el } from './dom.js';

/** The panel that tells of one thing. */
export class Sizes {
  /** `does` has `go(place)` and `ask(name)`, which shows another thing. */
  constructor(does) {
    this.does = does;
    this.head = byId('sizes-head');
    this.body = byId('sizes-body');
    this.choice = byId('thing');
    this.choice.addEventListener('change', () => {
      if (this.choice.value !== '') this.does.ask(this.choice.value);
    });
    this.names = '';
    /** The names of what is told of now, and of what is made by the same line. */
    this.of = [];
  }

  /** What there is to be chosen: the places of the drawing. */
  offer(places) {
    const marks = new Map(places.map((own) => [own.name, own.mark]));
    const names = [...marks.keys()].sort();
    const all = names.join('\n');
    if (all === this.names) return;
    this.names = all;
    const kept = this.choice.value;
    const option = (name) => {
      const mark = marks.get(name);
      return el('option', { value: name }, mark === null ? name : `${name} (${mark})`);
    };
    this.choice.replaceChildren(el('option', { value: '' }, 'choose a part or opening'),
      ...names.map(option));
    this.choice.value = marks.has(kept) ? kept : '';
  }

  /** Tells of a thing; `others` are made by the same line. */
  show(told, others) {
    const own = told[0];
    this.of = own === undefined ? [] : [own.name, ...others];
    byId('sizes').classList.toggle('empty', own === undefined);
    if (own === undefined) {
      this.head.textContent = 'Tap a part to see its sizes.';
      this.body.replaceChildren();
      this.choice.value = '';
      return;
    }
    this.choice.value = [...this.choice.options].some((option) => option.value === own.name)
      ? own.name : '';
    const sizes = own.figures.filter((figure) => figure.size);
    const rest = own.figures.filter((figure) => !figure.size);
    const short = own.name.includes('.') ? own.name.slice(own.name.indexOf('.') + 1) : own.name;
    const what = own.mark === null ? own.thing : `${own.thing} ${own.mark}`;
    this.head.replaceChildren(el('strong', {}, short), ` ${what}: `, sizes.length > 0
      ? sizes.map((size) => `${size.word} ${size.printed ?? size.exact}`).join(', ')
      : 'its sizes do not hold yet');
    this.body.replaceChildren(
      el('p', { class: 'full' }, own.name),
      ...sizes.map((figure) => this.figure(figure)),
      others.length > 0 ? this.others(others) : '',
      rest.length > 0
        ? el('details', {}, el('summary', {}, 'All other figures on the papers'),
          ...rest.map((figure) => this.figure(figure)))
        : '',
    );
  }

  figure(own) {
    const printed = own.printed === null ? '' : ` (printed ${own.printed})`;
    const doubt = own.holds ? '' : ', contradicted elsewhere';
    return el('section', { class: 'figure' },
      el('h2', {}, `${own.word} ${own.exact}${printed}${doubt}`),
      el('ul', {}, ...own.terms.map((term) => this.term(term))));
  }

  term(own) {
    const from = own.from.map(({ at, text }) => el('button', {
      type: 'button', class: 'place', onclick: () => this.does.go(at),
    }, `${own.from.length > 1 ? `${text}, ` : ''}line ${at.from[0] + 1}`));
    return el('li', {},
      el('span', { class: 'amount' }, own.text), ' ',
      el('span', {}, own.name), ' ',
      own.how === '' ? '' : el('span', { class: 'aside' }, own.how.replaceAll('`', '')), ' ',
      ...from.flatMap((button) => [button, ' ']));
  }

  others(names) {
    return el('p', { class: 'others' }, 'By the same line: ',
      ...names.flatMap((name) => [el('button', {
        type: 'button', class: 'place', onclick: () => this.does.ask(name),
      }, name), ' ']));
  }
}
