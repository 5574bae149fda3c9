// The editor of the texts: one at a time is seen, and each has its own undo.

import { closeBrackets, closeBracketsKeymap, completionKeymap } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap, redo, redoDepth, undo, undoDepth } from '@codemirror/commands';
import { bracketMatching } from '@codemirror/language';
import { Compartment, EditorSelection, EditorState, Prec, StateEffect, StateField } from '@codemirror/state';
import { Decoration, EditorView, drawSelection, keymap, lineNumbers } from '@codemirror/view';
import { wrapped } from './wrapped.js';

/** A place that the compiler gave, in a text: lines and columns from nought. */
export function position(doc, [line, column]) {
  if (line >= doc.lines) return doc.length;
  const own = doc.line(line + 1);
  return Math.min(own.from + column, own.to);
}

/** A place in a text as the compiler counts. */
export function counted(doc, at) {
  const line = doc.lineAt(at);
  return [line.number - 1, at - line.from];
}

const come = StateEffect.define();

/** The line that was come to from elsewhere: marked until the cursor moves or the text changes. */
const comeTo = StateField.define({
  create: () => Decoration.none,
  update(set, transaction) {
    const here = transaction.effects.find((effect) => effect.is(come));
    if (here) return Decoration.set([Decoration.line({ class: 'come-to' }).range(here.value)]);
    return transaction.docChanged || transaction.selection ? Decoration.none : set;
  },
  provide: (own) => EditorView.decorations.from(own),
});

/** The texts of a piece in one view. */
export class Text {
  /** `heard` has `changed(name, text)` and `moved()`. */
  constructor(parent, extensions, heard) {
    this.extensions = extensions;
    this.heard = heard;
    this.states = new Map();
    this.shown = null;
    this.keys = new Compartment();
    this.keyboard = true;
    this.view = new EditorView({ parent, state: EditorState.create({ doc: '' }) });
  }

  state(doc) {
    return EditorState.create({
      doc,
      extensions: [
        lineNumbers(),
        history(),
        drawSelection(),
        EditorView.lineWrapping,
        wrapped,
        bracketMatching(),
        comeTo,
        closeBrackets(),
        EditorState.tabSize.of(2),
        // What ends a line is kept as it came.
        EditorState.lineSeparator.of(doc.includes('\r\n') ? '\r\n' : '\n'),
        Prec.high(keymap.of([...closeBracketsKeymap, ...completionKeymap])),
        keymap.of([...defaultKeymap, ...historyKeymap]),
        EditorView.contentAttributes.of(() =>
          ({ 'aria-label': `the text of ${this.shown}`, spellcheck: 'false', tabindex: '0' })),
        this.keys.of(this.attributes()),
        this.extensions,
        EditorView.updateListener.of((update) => {
          if (update.docChanged) this.heard.changed(this.shown, update.state.sliceDoc());
          if (update.docChanged || update.selectionSet || update.focusChanged) this.heard.moved();
        }),
      ],
    });
  }

  /** Without its keyboard, the device shows none of its own. */
  attributes() {
    return EditorView.contentAttributes.of({ inputmode: this.keyboard ? 'text' : 'none' });
  }

  useKeyboard(uses) {
    if (this.keyboard === uses) return;
    this.keyboard = uses;
    const had = this.view.hasFocus;
    this.view.dispatch({ effects: this.keys.reconfigure(this.attributes()) });
    if (had) {
      this.view.contentDOM.blur();
      this.view.focus();
    }
  }

  /** Takes the texts of another piece. */
  open(files, name) {
    this.states = new Map(Object.entries(files).map(([own, doc]) => [own, this.state(doc)]));
    this.shown = null;
    this.show(name);
  }

  add(name, doc) {
    this.states.set(name, this.state(doc));
  }

  /** Gives a text another name; where it is written in, it goes on. */
  rename(before, name) {
    this.states.set(name, this.states.get(before));
    this.states.delete(before);
    if (this.shown === before) this.shown = name;
  }

  remove(name) {
    this.states.delete(name);
  }

  show(name) {
    if (this.shown === name || !this.states.has(name)) return;
    if (this.shown !== null && this.states.has(this.shown)) {
      this.states.set(this.shown, this.view.state);
    }
    this.shown = name;
    this.view.setState(this.states.get(name));
    this.view.dispatch({ effects: this.keys.reconfigure(this.attributes()) });
    this.heard.moved();
  }

  /** The state of a text, seen or not. */
  of(name) {
    return name === this.shown ? this.view.state : this.states.get(name);
  }

  /** Changes a text, seen or not. */
  change(name, spec) {
    if (name === this.shown) {
      this.view.dispatch(spec);
      return;
    }
    const state = this.states.get(name);
    if (!state) return;
    const changed = state.update(spec);
    this.states.set(name, changed.state);
    if (changed.docChanged) this.heard.changed(name, changed.state.sliceDoc());
  }

  /** Edits of the compiler: one step to take back in each text. */
  edit(edits) {
    const files = new Set(edits.map((edit) => edit.at.file));
    for (const name of files) {
      const state = this.of(name);
      if (!state) continue;
      const own = edits.filter((edit) => edit.at.file === name);
      const changes = own.map((edit) => ({
        from: position(state.doc, edit.at.from),
        to: position(state.doc, edit.at.to),
        insert: state.toText(edit.text),
      }));
      this.change(name, { changes, userEvent: 'input.mend' });
    }
    const first = edits[0];
    if (!first) return;
    this.show(first.at.file);
    const doc = this.view.state.doc;
    const from = position(doc, first.at.from);
    const hole = first.text.indexOf('…');
    const selection = hole < 0
      ? EditorSelection.cursor(Math.min(from + first.text.length, doc.length))
      : EditorSelection.range(from + hole, from + hole + 1);
    this.view.dispatch({ selection, scrollIntoView: true });
  }

  /** Brings the cursor's line into view, such as from behind the keys that have come. */
  see() {
    const { head } = this.view.state.selection.main;
    this.view.dispatch({ effects: EditorView.scrollIntoView(head, { yMargin: 40 }) });
  }

  /** Goes to a place, and selects it or marks its line. */
  go(place, { select = false, line = false, focus = true } = {}) {
    this.show(place.file);
    const doc = this.view.state.doc;
    const from = position(doc, place.from);
    const to = select ? position(doc, place.to) : from;
    this.view.dispatch({
      selection: EditorSelection.single(from, to),
      effects: [
        EditorView.scrollIntoView(from, { y: 'center' }),
        ...(line ? [come.of(doc.lineAt(from).from)] : []),
      ],
    });
    if (focus) this.view.focus();
  }

  /** Where the cursor stands, as the compiler counts. */
  get cursor() {
    return counted(this.view.state.doc, this.view.state.selection.main.head);
  }

  undo() {
    undo(this.view);
  }

  redo() {
    redo(this.view);
  }

  get undoable() {
    return { undo: undoDepth(this.view.state) > 0, redo: redoDepth(this.view.state) > 0 };
  }
}
