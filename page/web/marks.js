// Findings at their figures: underlined, and told where one rests on them.

import { StateEffect, StateField } from '@codemirror/state';
import { Decoration, EditorView, hoverTooltip, tooltips } from '@codemirror/view';
import { position } from './text.js';

const put = StateEffect.define();

const field = StateField.define({
  create: () => ({ set: Decoration.none, found: [] }),
  update(value, transaction) {
    let { set, found } = value;
    if (transaction.docChanged) set = set.map(transaction.changes);
    for (const effect of transaction.effects) {
      if (effect.is(put)) ({ set, found } = effect.value);
    }
    return set === value.set && found === value.found ? value : { set, found };
  },
  provide: (own) => EditorView.decorations.from(own, (value) => value.set),
});

/** Where a finding stands: at least one letter, so that it is seen. */
function reach(doc, place) {
  let from = position(doc, place.from);
  let to = position(doc, place.to);
  // What goes on over many lines is marked at its head.
  to = Math.min(to, doc.lineAt(from).to);
  if (from === to) {
    if (to < doc.lineAt(from).to) to += 1;
    else if (from > doc.lineAt(from).from) from -= 1;
  }
  return [from, to];
}

/** The marks of a text for what is found in it. */
export function marked(state, name, found, chosen) {
  const ranges = [];
  found.forEach((finding, at) => {
    const add = (place, kind) => {
      if (place.file !== name) return;
      const [from, to] = reach(state.doc, place);
      if (from < to) {
        ranges.push(Decoration.mark({ class: kind, attributes: { 'data-finding': String(at) } })
          .range(from, to));
      }
    };
    add(finding.primary.at, `found ${finding.severity}${at === chosen ? ' chosen' : ''}`);
    if (at === chosen) for (const label of finding.labels) add(label.at, 'takes-part');
  });
  return { effects: put.of({ set: Decoration.set(ranges, true), found }) };
}

/** The finding at a place, and its number; nothing where none is. */
export function findingAt(state, at) {
  const { set, found } = state.field(field, false) ?? { set: Decoration.none, found: [] };
  let best = null;
  set.between(at, at, (from, to, mark) => {
    const number = Number(mark.spec.attributes['data-finding']);
    if (!mark.spec.class.startsWith('found')) return;
    if (best === null || to - from < best.to - best.from) best = { from, to, number };
  });
  return best === null ? null : { ...best, finding: found[best.number] };
}

/** Underlines, and what is told where a pointer rests; `tell` makes its element. */
export function marks(tell) {
  const told = hoverTooltip((view, at) => {
    const here = findingAt(view.state, at);
    if (here === null) return null;
    return {
      pos: here.from,
      end: here.to,
      above: true,
      create: () => ({ dom: tell(here.finding, here.number) }),
    };
  }, {
    // What it tells is of a text that has changed since, or was found anew.
    hideOn: (transaction) => transaction.docChanged || transaction.effects.some((effect) =>
      effect.is(put) && effect.value.found !== transaction.startState.field(field).found),
  });
  // It keeps to the text, and so leaves the drawing to be seen.
  const space = tooltips({ tooltipSpace: (view) => view.scrollDOM.getBoundingClientRect() });
  return [field, told, space];
}
