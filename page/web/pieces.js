// What is written: the texts of the piece at hand, and those that were written
// before. All is kept on the device, under the place of this page.

const MOST = 12;
const JOB = /^\s*job\s+"((?:[^"\\]|\\.)*)"/m;
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

  /** Takes a new piece to hand; the name of a `given` one is not the maker's. */
  begin(entry, files, given = false) {
    const id = `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 7)}`;
    const own = { id, entry, files: { ...files }, at: Date.now() };
    if (given) own.given = { entry, job: title(own) };
    this.all.unshift(own);
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

  /** Gives a file of the piece at hand another name. */
  rename(before, name) {
    const { own } = this;
    own.files = Object.fromEntries(
      Object.entries(own.files).map(([file, doc]) => [file === before ? name : file, doc]),
    );
    if (own.entry === before) own.entry = name;
  }

  /** The name is the maker's from now on. */
  named() {
    delete this.own.given;
    this.keep();
  }

  /** The name that the job gives a file that was given one: nothing where it has it, or is the
   *  maker's. */
  fits() {
    const { given, entry, files } = this.own;
    if (!given) return null;
    const job = JOB.exec(files[entry])?.[1];
    if (!job) return null;
    const letters = job.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase()
      .replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '');
    const name = job === given.job || letters === '' ? given.entry : `${letters}.case`;
    return Object.hasOwn(files, name) ? null : name;
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
  const job = JOB.exec(piece.files[piece.entry]);
  return job?.[1] || piece.entry.replace(/\.case$/, '');
}

/** True for the text of a piece, and not of a file that others use. */
export function isWhole(text) {
  return /^\s*(case|run)\s/m.test(text);
}
