// The piece's menu, and a tab for each of its files.

import { chosen, download, read, written } from './files.js';
import { byId, el, say, show } from './dom.js';
import { isWhole } from './pieces.js';

export class Menu {
  /** `page` has `pieces`, `text`, `compiler`, `opened()` and `changed(name, text)`. */
  constructor(page) {
    this.page = page;
    this.handles = new Map();
    this.saved = new Map();
    this.found = [];
    const does = {
      open: () => this.open(), save: () => this.save(), download: () => this.download(),
      add: () => this.add(), name: () => this.rename(), drop: () => this.drop(),
      tidy: () => this.tidy(),
    };
    for (const [name, job] of Object.entries(does)) {
      byId(`do-${name}`).addEventListener('click', () => {
        byId('piece-menu').hidePopover();
        job();
      });
    }
    byId('piece-menu').addEventListener('toggle', (event) => {
      if (event.newState === 'open') this.say();
    });
    addEventListener('keydown', (event) => {
      if ((event.ctrlKey || event.metaKey) && event.key === 's') {
        event.preventDefault();
        this.save();
      }
    });
    addEventListener('dragover', (event) => event.preventDefault());
    addEventListener('drop', async (event) => {
      const files = [...(event.dataTransfer?.files ?? [])];
      if (files.length === 0) return;
      event.preventDefault();
      this.take_in(await Promise.all(files.map(read)));
    });
  }

  get own() {
    return this.page.pieces.own;
  }

  /** What the entries of the menu mean now. */
  say() {
    const { shown } = this.page.text;
    const several = Object.keys(this.own.files).length > 1;
    byId('name-says').textContent = shown;
    byId('do-drop').disabled = !several || shown === this.own.entry;
    byId('save-says').textContent = window.showSaveFilePicker
      ? 'to a file on this device' : 'as a download';
  }

  begin(entry, files, given = false) {
    this.handles.clear();
    this.saved.clear();
    this.page.pieces.begin(entry, files, given);
    this.page.opened();
  }

  take(id) {
    this.handles.clear();
    this.saved.clear();
    this.page.pieces.take(id);
    this.page.opened();
  }

  async open() {
    this.take_in(await chosen());
  }

  /** Files that came from outside: a piece with what it uses, or what a piece here uses. */
  take_in(given) {
    if (given.length === 0) return;
    const whole = given.find((own) => isWhole(own.text));
    const files = Object.fromEntries(given.map((own) => [own.name, own.text]));
    if (whole) {
      this.begin(whole.name, files);
    } else {
      for (const [name, doc] of Object.entries(files)) {
        this.page.pieces.own.files[name] = doc;
      }
      this.page.pieces.keep();
      this.page.opened();
    }
    for (const own of given) if (own.handle) this.handles.set(own.name, own.handle);
    say(`Opened ${given.map((own) => own.name).join(', ')}`);
  }

  /** Saves what has changed since it was saved, and says under which names. */
  async save() {
    const files = Object.entries(this.own.files);
    const saved = [];
    const sent = [];
    for (const [name, doc] of files) {
      const known = this.handles.get(name);
      if (known && this.saved.get(name) === doc) continue;
      const handle = await written(name, doc, known);
      if (handle === undefined) {
        show([told(saved, sent), `${name} was not saved.`].filter(Boolean).join(' '));
        return;
      }
      this.page.pieces.named();
      if (handle) this.handles.set(name, handle);
      (handle ? saved : sent).push(handle ? handle.name : name);
      this.saved.set(name, doc);
    }
    show(told(saved, sent) || 'Nothing was saved: nothing has changed since it was saved last.');
  }

  download() {
    const files = Object.entries(this.own.files);
    for (const [name, doc] of files) download(name, doc);
    this.page.pieces.named();
    show(told([], files.map(([name]) => name)));
  }

  /** Asks for the name of a file; nothing where the maker leaves it. */
  name(label, given) {
    const view = byId('asked');
    byId('asked-label').textContent = label;
    byId('asked-name').value = given;
    view.returnValue = 'no';
    view.showModal();
    byId('asked-name').select();
    return new Promise((resolve) => {
      view.addEventListener('close', () => {
        const typed = byId('asked-name').value.trim();
        const name = /\.[a-z]+$/i.test(typed) ? typed : `${typed}.case`;
        resolve(view.returnValue === 'yes' && typed !== '' ? name : null);
      }, { once: true });
    });
  }

  async add() {
    const name = await this.name('Name of the new file', 'shop.case');
    if (name === null || Object.hasOwn(this.own.files, name)) return;
    this.page.text.add(name, 'casework 1\n');
    this.page.changed(name, 'casework 1\n');
    this.page.text.show(name);
    this.tabs();
  }

  async rename() {
    const { text, pieces } = this.page;
    const before = text.shown;
    const name = await this.name(`New name for ${before}`, before);
    if (name === null || Object.hasOwn(this.own.files, name)) return;
    if (before === pieces.own.entry) pieces.named();
    pieces.rename(before, name);
    pieces.keep();
    this.handles.delete(before);
    this.page.opened();
    text.show(name);
    this.tabs();
  }

  drop() {
    const { text, pieces } = this.page;
    const name = text.shown;
    if (name === this.own.entry) return;
    text.show(this.own.entry);
    text.remove(name);
    delete pieces.own.files[name];
    this.page.changed(this.own.entry, this.own.files[this.own.entry]);
    this.tabs();
  }

  async tidy() {
    const { text, compiler } = this.page;
    const state = text.view.state;
    const { kind, value } = await compiler.ask({ format: { text: state.doc.toString() } });
    if (kind === 'unread') {
      say(`This can't be read yet: ${value}`);
      return;
    }
    if (value === null || value === state.doc.toString()) return;
    const line = state.doc.lineAt(state.selection.main.head).number;
    text.view.dispatch({ changes: { from: 0, to: state.doc.length, insert: value } });
    const doc = text.view.state.doc;
    const at = doc.line(Math.min(line, doc.lines)).from;
    text.view.dispatch({ selection: { anchor: at }, scrollIntoView: true });
    say('The lines are straightened');
  }

  /** A tab for each file, where there are several. */
  tabs() {
    const { text } = this.page;
    const names = Object.keys(this.own.files);
    names.sort((a, b) => (b === this.own.entry) - (a === this.own.entry) || a.localeCompare(b));
    const place = byId('tabs');
    place.hidden = names.length < 2;
    place.replaceChildren(...names.map((name) => {
      const broken = this.found.some((own) =>
        own.severity === 'error' && own.primary.at.file === name);
      return el('button', {
        type: 'button',
        'aria-pressed': String(name === text.shown),
        class: broken ? 'broken' : undefined,
        onclick: () => {
          text.show(name);
          this.tabs();
        },
      }, name, broken ? el('span', { class: 'vh' }, ', with errors') : null);
    }));
  }

  /** What is found, for the tabs to tell. */
  counts(all) {
    this.found = all;
    this.tabs();
  }
}

/** What was saved, and what was given to the browser to be downloaded. */
function told(saved, sent) {
  return [
    saved.length > 0 ? `Saved as ${saved.join(', ')}.` : '',
    sent.length > 0 ? `Sent to the downloads of this browser: ${sent.join(', ')}.` : '',
  ].filter(Boolean).join(' ');
}
