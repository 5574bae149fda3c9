// A line that is too long goes on farther in than it began, and on a narrow page the space
// before the comment behind it is one blank wide.

import { RangeSetBuilder } from '@codemirror/state';
import { Decoration, ViewPlugin } from '@codemirror/view';

const FARTHER = 2;
/** What stands before a comment, and the blanks but one between them. */
const BEFORE = /^((?:\d"|"(?:[^"\\]|\\.)*"|[^"#])*?\S)( +) #/;
const gap = Decoration.mark({ class: 'gap' });
const lines = new Map();

function indented(spaces) {
  const chars = spaces + FARTHER;
  if (!lines.has(chars)) {
    const style = `padding-left: calc(${chars}ch + 6px); text-indent: -${chars}ch`;
    lines.set(chars, Decoration.line({ attributes: { style } }));
  }
  return lines.get(chars);
}

function all(view) {
  const builder = new RangeSetBuilder();
  for (const { from, to } of view.visibleRanges) {
    for (let at = from; at <= to;) {
      const line = view.state.doc.lineAt(at);
      const spaces = Math.min(/^ */.exec(line.text)[0].length, 16);
      builder.add(line.from, line.from, indented(spaces));
      const [, before, wide] = BEFORE.exec(line.text) ?? [];
      if (before !== undefined) {
        const from = line.from + before.length;
        builder.add(from, from + wide.length, gap);
      }
      at = line.to + 1;
    }
  }
  return builder.finish();
}

export const wrapped = ViewPlugin.fromClass(class {
  constructor(view) {
    this.decorations = all(view);
  }

  update(update) {
    if (update.docChanged || update.viewportChanged) this.decorations = all(update.view);
  }
}, { decorations: (own) => own.decorations });
