// What is written: the texts of the piece at hand, and those that were written
// before. All is kept on the device, under the place of this page.

const MOST = 12;
const KEY = `casewright:${location.pathname}`;

/** A piece: `{ id, entry, files: { name: text }, at }`. */
export class Pieces {
  constructor(store) {
    this.store = store;
    this.all = [];
    /** False where nothing can be kept. */
    this.keeps = true;
    try {
      const kept = JSON.parse(store?.getItem(KEY) ?? 'null');
      if (Array.isArray(kept)) this.all = kept.filter(isPiece).slice(0, MOST);
    } catch {
      this.keeps = false;
    }
    addEventListener('pagehide', () => this.keep());
    addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden') this.keep();
    });
  }

  /** The piece at hand: the one that was written in last. */
  get own() {
    return this.all[0];
  }

  /** Takes a new piece to hand. */
  begin(entry, files) {
    const id = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 7)}`;
    this.all.unshift({ id, entry, files: { ...files }, at: Date.now() });
    this.all.length = Math.min(this.all.length, MOST);
    this.keep();
  }

  /** Takes one that was written before to hand. */
  take(id) {
    const at = this.all.findIndex((piece) => piece.id === id);
    if (at > 0) this.all.unshift(...this.all.splice(at, 1));
    this.keep();
  }

  drop(id) {
    this.all = this.all.filter((piece) => piece.id !== id);
    this.keep();
  }

  put(name, text) {
    this.own.files[name] = text;
    this.own.at = Date.now();
    // Not at every key, but before the page is left.
    clearTimeout(this.later);
    this.later = setTimeout(() => this.keep(), 300);
  }

  /** Keeps all that fits: the oldest go first. */
  keep() {
    clearTimeout(this.later);
    for (let most = this.all.length; most > 0; most -= 1) {
      try {
        this.store.setItem(KEY, JSON.stringify(this.all.slice(0, most)));
        this.keeps = true;
        return;
      } catch {
        this.keeps = false;
      }
    }
  }
}

function isPiece(own) {
  return typeof own?.entry === 'string' && typeof own.files?.[own.entry] === 'string';
}

/** The storage of this device; nothing where there is none. */
export function storage() {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}

/** What a piece is called: the text behind `job`, else its file. */
export function title(piece) {
  const job = /^\s*job\s+"((?:[^"\\]|\\.)*)"/m.exec(piece.files[piece.entry]);
  return job?.[1] || piece.entry.replace(/\.case$/, '');
}

/** True for the text of a piece, and not of a file that others use. */
export function isWhole(text) {
  return /^\s*(case|run)\s/m.test(text);
}
