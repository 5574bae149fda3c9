// From one part of the page to the next by a key.

import { byId } from './dom.js';

const STOPS = [
  () => document.querySelector('nav button'),
  () => document.querySelector('#text .cm-content'),
  () => byId('findings-open'),
  () => byId('sizes-open'),
];

export function regions() {
  addEventListener('keydown', (event) => {
    if (event.key !== 'F6') return;
    event.preventDefault();
    const stops = STOPS.map((stop) => stop()).filter(Boolean);
    const at = stops.findLastIndex((stop) => stop.closest('section, header')
      ?.contains(document.activeElement));
    const by = event.shiftKey ? stops.length - 1 : 1;
    stops[(at + by) % stops.length]?.focus();
  });
}
