// What is folded away: on a narrow page all but the drawing and the text, on a wide one
// nothing until the maker does it.

import { byId } from './dom.js';

const narrow = matchMedia('(max-width: 48rem)');

function set(name, open) {
  byId(`${name}-open`).setAttribute('aria-expanded', String(open));
  document.body.classList.toggle(`${name}-open`, open);
}

/** Lets parts of the page be folded and unfolded by their heads. */
export function unfold(names) {
  const begin = () => names.forEach((name) => set(name, !narrow.matches));
  for (const name of names) {
    byId(`${name}-open`).addEventListener('click', () =>
      set(name, !document.body.classList.contains(`${name}-open`)));
  }
  narrow.addEventListener('change', begin);
  begin();
}

/** Folds a part that lies before the text. */
export function folded(name) {
  if (narrow.matches) set(name, false);
}
