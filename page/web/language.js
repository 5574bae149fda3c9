// Painting the text by the words of the language, which the build bakes in.

import { HighlightStyle, StreamLanguage, indentService, syntaxHighlighting } from '@codemirror/language';
import { tags } from '@lezer/highlight';

const NUMBER = /^[0-9][0-9./-]*(?:%|'|")?/;
const WORD = /^[a-z][a-z0-9-]*(?:\.[a-z0-9-]+)*/i;

/** What is known of a statement in a block: its inner block, or nothing. */
function meant(table, block, word) {
  const own = table.blocks[block];
  if (!own) return undefined;
  if (Object.hasOwn(own.words, word)) return { inner: own.words[word], own: false };
  return own.any === null ? undefined : { inner: own.any, own: true };
}

/** The blocks from the innermost out: a brace may be missing. */
function found(table, blocks, word) {
  for (let at = blocks.length - 1; at >= 0; at -= 1) {
    const known = meant(table, blocks[at], word);
    if (known) return known;
  }
  return undefined;
}

export function language(table) {
  const choices = new Set(table.choices);
  const units = new Set(table.units);
  const stream = StreamLanguage.define({
    name: 'casewright',
    startState: () => ({ blocks: ['file'], head: true, inner: null, figure: false }),
    copyState: (state) => ({ ...state, blocks: [...state.blocks] }),
    token(text, state) {
      if (text.sol()) {
        state.head = true;
        state.inner = null;
      }
      if (text.eatSpace()) return null;
      const behindFigure = state.figure;
      state.figure = false;
      const letter = text.peek();
      if (letter === '#') {
        text.skipToEnd();
        return 'comment';
      }
      if (letter === '{') {
        text.next();
        state.blocks.push(state.inner ?? '');
        state.head = true;
        state.inner = null;
        return 'brace';
      }
      if (letter === '}') {
        text.next();
        if (state.blocks.length > 1) state.blocks.pop();
        state.head = false;
        return 'brace';
      }
      if (letter === ';') {
        text.next();
        state.head = true;
        state.inner = null;
        return 'separator';
      }
      if (letter === '"') {
        text.match(/^"(?:[^"\\]|\\.)*"?/);
        return 'string';
      }
      if (text.match(NUMBER)) {
        state.figure = true;
        state.head = false;
        return 'number';
      }
      const word = text.match(WORD)?.[0];
      if (word === undefined) {
        text.next();
        return null;
      }
      if (state.head) {
        state.head = false;
        const known = found(table, state.blocks, word);
        state.inner = known?.inner ?? null;
        if (!known) return null;
        return known.own ? 'variableName' : 'keyword';
      }
      if (behindFigure && units.has(word)) return 'unit';
      return choices.has(word) ? 'atom' : 'variableName';
    },
    languageData: {
      commentTokens: { line: '#' },
      closeBrackets: { brackets: ['{', '"'] },
    },
  });
  const style = HighlightStyle.define([
    { tag: tags.keyword, class: 'word' },
    { tag: tags.atom, class: 'choice' },
    { tag: tags.number, class: 'figure' },
    { tag: tags.unit, class: 'unit' },
    { tag: tags.string, class: 'quoted' },
    { tag: tags.comment, class: 'comment' },
  ]);
  return [stream, syntaxHighlighting(style), indentService.of(indented)];
}

/** Two spaces for each brace that is open. */
function indented(context, at) {
  const line = context.lineAt(at, 1);
  const before = line.from > 0 ? context.lineAt(line.from, -1) : null;
  let number = context.state.doc.lineAt(at).number - 1;
  let above = '';
  while (number > 0) {
    above = context.state.doc.line(number).text;
    if (above.trim() !== '') break;
    number -= 1;
  }
  if (before === null && number === 0) return 0;
  if (context.simulatedBreak !== null && context.simulatedBreak === at) {
    above = context.lineAt(at, -1).text;
  }
  const depth = above.length - above.trimStart().length;
  const code = above.replace(/#.*$/, '').replace(/"[^"]*"/g, '');
  let open = 0;
  for (const letter of code.trim()) {
    if (letter === '{') open += 1;
    if (letter === '}' && open > 0) open -= 1;
  }
  const closes = line.text.trimStart().startsWith('}');
  return Math.max(0, depth + (open > 0 ? 2 : 0) - (closes ? 2 : 0));
}
