// The page: what is written is checked, and what comes of it is shown.

import { EditorView } from '@codemirror/view';
import table from 'table';
import licenses from 'licenses';
import first from '../../specs/first.case';
import { completing } from './completing.js';
import { byId, byThumb, prose, say, settled } from './dom.js';
import { Drawing } from './drawing.js';
import { Findings, summed } from './findings.js';
import { folded, unfold } from './folds.js';
import { language } from './language.js';
import { latestOnly } from './latest.js';
import { findingAt, marked, marks } from './marks.js';
import { Menu } from './menu.js';
import { Pad } from './pad.js';
import { Papers } from './papers.js';
import { Pieces, storage, title } from './pieces.js';
import { Sizes } from './sizes.js';
import { Start } from './start.js';
import { regions } from './regions.js';
import { Text } from './text.js';

const { compiler } = globalThis;
const pieces = new Pieces(storage());
if (!pieces.own) pieces.begin('first.case', { 'first.case': first }, true);

/** What came of the last check, and of which texts. */
let checked = null;
let of = null;
/** What came of the check that the sizes told now are of. */
let told = null;
let waiting = Promise.resolve();

const findings = new Findings({ mend, go: goFinding, explain });
const sizes = new Sizes({ go: goLine, ask: (name) => tell([name], true) });
const drawing = new Drawing(byId('drawing'), tapped);
const text = new Text(byId('text'), [
  language(table), completing(compiler), marks((own, at) => findings.one(own, at)),
  EditorView.inputHandler.of((view, from, to, typed) => pad.behind(typed)),
], { changed, moved });
const pad = new Pad(compiler, text);
const papers = new Papers(compiler, { ready: () => waiting, name: fileName });
const menu = new Menu({ pieces, text, compiler, opened, changed });
const start = new Start(compiler, pieces, {
  begin: (entry, files) => menu.begin(entry, files, true),
  take: (id) => menu.take(id),
});

const check = latestOnly(async () => {
  const { entry } = pieces.own;
  const files = { ...pieces.own.files };
  const begun = performance.now();
  let answer;
  try {
    answer = await compiler.value({ check: { entry, files } });
  } catch (error) {
    byId('state').textContent = 'The compiler broke down on this text';
    byId('first').textContent = String(error.message ?? error);
    sizes.show([], []);
    return;
  }
  show(answer, files);
  of = files;
  performance.measure('from text to drawing', { start: begun });
});

function changed(name, doc) {
  pieces.put(name, doc);
  const { entry } = pieces.own;
  const fits = pieces.fits();
  if (fits !== null) {
    pieces.rename(entry, fits);
    text.rename(entry, fits);
  }
  waiting = check();
}

/** Shows what came of a check. */
function show(answer, files) {
  byId('unkept').hidden = pieces.keeps;
  checked = answer;
  // What forbids building comes first, and what stands above it in the text next.
  answer.findings.all.sort((one, other) => isError(other) - isError(one));
  const { all, accepted } = answer.findings;
  const broken = all.some(isError);
  drawing.show(answer.drawn);
  const doubts = answer.drawn === null ? 'The last drawing that could be made.'
    : 'A size with a question mark is not known yet: it is drawn as it may be.';
  byId('stale').textContent = doubts;
  byId('stale').hidden = drawing.svg === null || answer.drawn?.whole === true;
  findings.show(all);
  const taken = accepted === 0 ? '' : `${accepted} accepted`;
  const state = [answer.sound ? 'Ready to build' : '', summed(all), taken].filter(Boolean).join(', ');
  byId('state').textContent = answer.piece ? state : 'There is no case in this file yet';
  byId('first').replaceChildren(...(all.length > 0 ? prose(` ${all[0].title}`) : []));
  byId('findings').classList.toggle('broken', broken);
  byId('findings').classList.toggle('sound', answer.sound);
  papers.allow(answer.sound, answer.piece
    ? 'Mend the errors first: the papers come from a sound piece.'
    : 'A file without a case has no papers.');
  sizes.offer(answer.drawn?.places ?? []);
  byId('job').textContent = title(pieces.own);
  document.title = `${title(pieces.own)}, casewright`;
  findings.hear(all.length === 0 ? state : `${state}. ${all[0].title}`);
  for (const name of Object.keys(files)) underline(name);
  menu.counts(all);
  follow();
}

function isError(own) {
  return own.severity === 'error';
}

function underline(name) {
  const state = text.of(name);
  if (!state || !checked || state.sliceDoc() !== pieces.own.files[name]) return;
  text.change(name, marked(state, name, checked.findings.all, findings.chosen));
}

/** The cursor has moved: its part is marked, its sizes are told. */
function moved() {
  const here = findingAt(text.view.state, text.view.state.selection.main.head);
  const at = here?.number ?? null;
  if (at !== null && at !== findings.chosen) choose(at, true);
  pad.refresh();
  if (text.view.hasFocus) {
    const came = !document.body.classList.contains('writes');
    document.body.classList.add('writes');
    // The keys take their room first.
    if (came) requestAnimationFrame(() => text.see());
  } else rested();
  follow();
}

const follow = settled(120, async () => {
  if (!checked || text.shown === null) return;
  const [line, column] = text.cursor;
  const at = await compiler.value({ at: { file: text.shown, line, column } });
  const on = drawing.on(text.shown, line);
  const things = at.things.length > 0 ? at.things : on;
  drawing.mark(on.length > 0 ? on : things.slice(0, 12));
  if (things.length > 0) await tell(things, false);
  else if (sizes.of.length > 0 && told !== checked) await tell(stillThere(sizes.of), false);
});

/** The keys go when the text has been left: not under a finger that is tapping elsewhere. */
const rested = settled(250, () => {
  document.body.classList.toggle('writes', text.view.hasFocus);
});

/** What was told stays where the cursor stands at nothing: as it is now, or not at all. */
function stillThere([own, ...others]) {
  return [own, ...others.filter((name) => drawing.places.some((place) => place.name === name))];
}

/** Tells the sizes of the first of these. */
async function tell(names, goes) {
  told = checked;
  sizes.show(await compiler.value({ why: { name: names[0] } }), names.slice(1, 9));
  if (!goes) return;
  drawing.mark([names[0]]);
  const place = drawing.places.findLast((own) => own.name === names[0]);
  if (place) text.go(place.at, { focus: false });
}

/** A part or an opening in the drawing. */
function tapped(shown) {
  text.go(shown.at, { focus: !byThumb() });
  drawing.mark([shown.name]);
  tell([shown.name], false);
}

function choose(at, into) {
  findings.choose(at, into);
  for (const name of text.states.keys()) underline(name);
}

function goFinding(place, at) {
  folded('findings');
  text.go(place, { select: true, focus: !byThumb() });
  choose(at, false);
}

/** The line that a size comes from: it is shown and marked, whatever lay before it. */
function goLine(place) {
  folded('sizes');
  text.go(place, { line: true, focus: !byThumb() });
}

function mend(own) {
  text.edit(own.edits);
  say(`Done: ${own.title}`);
  folded('findings');
}

async function explain(slug) {
  return compiler.value({ explain: { slug } });
}

function fileName() {
  return pieces.own.entry.replace(/\.case$/, '');
}

/** Another piece has come to hand. */
function opened() {
  const { entry, files } = pieces.own;
  drawing.clear();
  text.open(files, entry);
  menu.tabs();
  sizes.show([], []);
  waiting = check();
}

unfold(['findings', 'sizes']);
byId('larger').addEventListener('click', () => {
  const large = document.body.classList.toggle('large');
  byId('larger').firstChild.data = large ? 'Smaller ' : 'Larger ';
});
// The cursor goes where a finger was only behind the tap.
byId('text').addEventListener('click', () => setTimeout(() => pad.tapped(), 60));
byId('pad-figures').addEventListener('click', () => pad.letters(false));
byId('pad-letters').addEventListener('click', () => pad.letters(true));
byId('do-new').addEventListener('click', () => {
  byId('piece-menu').hidePopover();
  start.open();
});
byId('licenses').textContent = licenses;
addEventListener('keydown', (event) => {
  if (event.key === 'F8') {
    event.preventDefault();
    const { all } = findings;
    if (all.length === 0) return;
    const next = ((findings.chosen ?? -1) + 1) % all.length;
    text.go(all[next].primary.at, { select: true });
    choose(next, true);
    say(all[next].title);
  }
});
regions();
if (byThumb()) pad.letters(false);
opened();
papers.list();

/** True where what is shown is of what is written. */
function settledNow() {
  const { files } = pieces.own;
  return of !== null && Object.keys(files).length === Object.keys(of).length
    && Object.entries(files).every(([name, doc]) => of[name] === doc);
}

// For whoever tests or measures the page.
globalThis.desk = {
  compiler, text, pieces, get checked() { return checked; }, get settled() { return settledNow(); },
};
