// Making elements.

/** An element with attributes (`on…` are listeners) and children. */
export function el(name, attributes = {}, ...children) {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === undefined || value === null || value === false) continue;
    if (key.startsWith('on')) made.addEventListener(key.slice(2), value);
    else made.setAttribute(key, value === true ? '' : value);
  }
  made.append(...children.flat().filter((child) => child !== null && child !== undefined));
  return made;
}

export function byId(id) {
  return document.getElementById(id);
}

/** A text in which no figure is broken at its hyphen. */
function unbroken(text) {
  return text.split(/(\d+-\d+\/\d+)/)
    .map((piece, at) => (at % 2 ? el('span', { class: 'whole' }, piece) : piece));
}

/** A text with what stands between backticks as code. */
export function prose(text) {
  return text.split(/`([^`]*)`/)
    .flatMap((piece, at) => (at % 2 ? el('code', {}, ...unbroken(piece)) : unbroken(piece)));
}

/** Says something to whoever hears the page. */
export function say(text) {
  byId('said').textContent = text;
}

/** Says something to whoever sees the page, too, for a while: before the paper that is open. */
export function show(text) {
  const place = byId(byId('paper').open ? 'paper-said' : 'told');
  place.textContent = text;
  place.classList.add('seen');
  unseen();
}

const unseen = settled(6000, () => {
  for (const place of document.querySelectorAll('.seen')) place.classList.remove('seen');
});

/** `1 error`, `2 errors`. */
export function counted(count, one) {
  return count === 1 ? `1 ${one}` : `${count} ${one}s`;
}

/** True where a finger is used, or there is no room for more than one column. */
export function byThumb() {
  return matchMedia('(max-width: 48rem), (pointer: coarse)').matches;
}

/** Waits until nothing has come for so long. */
export function settled(wait, job) {
  let timer;
  return (...given) => {
    clearTimeout(timer);
    timer = setTimeout(() => job(...given), wait);
  };
}
