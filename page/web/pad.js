// Writing by thumb: the words that may stand at the cursor, and keys for figures.
// The device's own keyboard comes when it is asked for.

import { EditorSelection } from '@codemirror/state';
import { deleteCharBackward, insertNewlineAndIndent } from '@codemirror/commands';
import { offered } from './completing.js';
import { byId, byThumb, el, settled } from './dom.js';
import { position } from './text.js';

const FIGURE = /[0-9][0-9./-]*/g;

/** The whole figure at a place of a line. */
function figureAt(state, at) {
  const line = state.doc.lineAt(at);
  for (const { 0: text, index } of line.text.matchAll(FIGURE)) {
    const from = line.from + index;
    if (from <= at && at <= from + text.length) return { from, to: from + text.length };
  }
  return null;
}

export class Pad {
  constructor(compiler, text) {
    this.compiler = compiler;
    this.text = text;
    this.view = byId('pad');
    this.words = byId('pad-words');
    this.all = byId('words');
    this.list = byId('words-list');
    byId('words-close').addEventListener('click', () => this.all.close());
    // A key must not take the cursor out of the text.
    this.view.addEventListener('pointerdown', (event) => {
      if (event.target.closest('button')) event.preventDefault();
    });
    this.view.addEventListener('click', (event) => {
      const key = event.target.closest('button');
      if (key) this.press(key);
    });
    this.refresh = settled(80, () => this.offer());
    /** The figure that a tap has taken whole, as it was selected. */
    this.taken = null;
  }

  get editor() {
    return this.text.view;
  }

  press(key) {
    const { put, does } = key.dataset;
    if (put !== undefined) this.put(put);
    const does_all = {
      back: () => deleteCharBackward(this.editor),
      line: () => insertNewlineAndIndent(this.editor),
      undo: () => this.text.undo(),
      redo: () => this.text.redo(),
      left: () => this.move(-1),
      right: () => this.move(1),
      braces: () => this.braces(),
      letters: () => this.letters(true),
      words: () => this.open(),
    };
    does_all[does]?.();
    this.editor.focus();
  }

  put(key) {
    if (this.behind(key)) return;
    const { state } = this.editor;
    const { from } = state.selection.main;
    // A unit brings its space along, unless one stands there.
    const spaced = key.length > 1 && state.sliceDoc(from - 1, from) === ' ';
    const text = spaced ? key.trimStart() : key;
    this.editor.dispatch(state.replaceSelection(text), {
      scrollIntoView: true, userEvent: 'input.type',
    });
  }

  /** Braces with room between them. */
  braces() {
    const { from, to } = this.editor.state.selection.main;
    const inner = this.editor.state.sliceDoc(from, to).trim();
    const text = `{ ${inner} }`;
    this.editor.dispatch({
      changes: { from, to, insert: text },
      selection: EditorSelection.cursor(from + 2 + inner.length),
      scrollIntoView: true,
      userEvent: 'input.type',
    });
  }

  move(by) {
    const { main } = this.editor.state.selection;
    const at = main.empty ? main.head + by : by < 0 ? main.from : main.to;
    const to = Math.max(0, Math.min(this.editor.state.doc.length, at));
    this.editor.dispatch({ selection: EditorSelection.cursor(to), scrollIntoView: true });
  }

  /** With the device's own keyboard, or with keys for figures. */
  letters(uses) {
    this.text.useKeyboard(uses);
    this.view.classList.toggle('letters', uses);
    byId('pad-figures').setAttribute('aria-pressed', String(!uses));
    byId('pad-letters').setAttribute('aria-pressed', String(uses));
  }

  /** A figure that is tapped is taken whole, so that the next key writes over it. */
  tapped() {
    if (this.text.keyboard && !byThumb()) return;
    const { main } = this.editor.state.selection;
    if (!main.empty) return;
    const figure = figureAt(this.editor.state, main.head);
    if (!figure) return;
    this.editor.dispatch({ selection: EditorSelection.single(figure.from, figure.to) });
    this.taken = this.editor.state.selection;
  }

  /** A unit, from these keys or the device's, goes behind a figure that a tap has taken. */
  behind(text) {
    const { selection, doc } = this.editor.state;
    if (!this.taken?.eq(selection) || !/^ ?[a-z]+$|^%$/i.test(text)) return false;
    const { to } = selection.main;
    const space = /^[a-z]/i.test(text) && /\d$/.test(doc.sliceString(to - 1, to)) ? ' ' : '';
    this.taken = null;
    this.editor.dispatch({
      changes: { from: to, insert: space + text },
      selection: EditorSelection.cursor(to + space.length + text.length),
      scrollIntoView: true,
      userEvent: 'input.type',
    });
    return true;
  }

  /** The words that may be written here: those that fit on a line or two. */
  async offer() {
    if (getComputedStyle(this.view).display === 'none') return;
    const state = this.editor.state;
    const head = state.selection.main.head;
    const answer = await offered(this.compiler, state, head);
    if (this.editor.state !== state) return;
    this.answer = answer;
    const from = position(state.doc, answer.from);
    const typed = state.sliceDoc(from, head);
    const fit = answer.all.filter((own) => own.text.startsWith(typed) && own.text !== typed);
    // Where a figure stands, names are what is meant least.
    const figure = answer.wants !== null && answer.all.every((own) => own.kind === 'name');
    const shown = figure && !/^[a-z]/i.test(typed)
      ? [] : (fit.length > 0 ? fit : answer.all).slice(0, 5);
    this.words.replaceChildren(
      el('button', { type: 'button', class: 'chip all', 'data-does': 'words' },
        answer.all.length > 0 ? `All ${answer.all.length}` : 'Words'),
      ...shown.map((own) => el('button', {
        type: 'button', class: 'chip', onclick: () => this.take(own),
      }, own.text)),
      shown.length === 0 && answer.wants
        ? el('span', { class: 'wants' }, `Here: ${answer.wants.replaceAll('`', '')}`)
        : '',
    );
  }

  /** Writes a word in place of the one at the cursor, or of what is typed of it. */
  take(own, whole) {
    const state = this.editor.state;
    const from = position(state.doc, this.answer.from);
    const { head } = state.selection.main;
    const rest = state.sliceDoc(head, state.doc.lineAt(head).to);
    const to = head > from ? head + /^[a-z0-9-]*/i.exec(rest)[0].length : head;
    const word = own.kind === 'word' && whole === undefined;
    // One space stands between a word and what is written next.
    const spaced = word && /^ [^ }]/.test(rest.slice(to - head));
    const text = whole ?? own.text + (word && !spaced ? ' ' : '');
    this.editor.dispatch({
      changes: { from, to, insert: text },
      selection: EditorSelection.cursor(from + text.length + (spaced ? 1 : 0)),
      scrollIntoView: true,
      userEvent: 'input.complete',
    });
  }

  /** All words that may be written here, each with what it says. */
  open() {
    const { all, wants } = this.answer;
    const nothing = all.length > 0 ? '' : 'This statement is complete. Begin a new line with a word.';
    byId('words-wants').textContent = wants
      ? `Write ${wants.replaceAll('`', '')} here.` : nothing;
    this.list.replaceChildren(...all.map((own) => el('li', {},
      el('button', {
        type: 'button',
        onclick: () => {
          this.all.close();
          this.take(own);
          this.editor.focus();
        },
      }, el('b', {}, own.text), own.help === '' ? null : el('span', {}, own.help)),
      own.example === '' ? null : el('button', {
        type: 'button', class: 'example',
        onclick: () => {
          this.all.close();
          this.take(own, own.example);
          this.editor.focus();
        },
      }, el('span', { class: 'vh' }, 'write this: '), el('code', {}, own.example)))));
    this.all.showModal();
    this.all.scrollTop = 0;
  }
}
