// What the page itself prints, from the menu of the browser: the open paper in the flow of
// the page, since a frame would be cut off where its sheet ends.

import { el } from './dom.js';

/** The rules for sheets in a style: they hold only where the whole page knows them. */
const INNER = '(?:[^{}"]|"(?:[^"\\\\]|\\\\.)*")*';
const SHEETS = new RegExp(`@page\\s*\\{(?:${INNER}\\{${INNER}\\})*${INNER}\\}`, 'g');

export class Printed {
  /** `place` is seen in print only. */
  constructor(place) {
    this.root = place.attachShadow({ mode: 'open' });
    this.sheets = el('style');
    document.head.append(this.sheets);
  }

  /** Takes the paper of this document; its style holds for it alone. */
  take(paper) {
    const styles = [...paper.querySelectorAll('style')].map((own) => document.importNode(own, true));
    this.root.replaceChildren(...styles, document.importNode(paper.body, true));
    this.sheets.textContent = styles.flatMap((own) => own.textContent.match(SHEETS) ?? []).join('');
    document.body.classList.add('paper-open');
  }

  clear() {
    this.root.replaceChildren();
    this.sheets.textContent = '';
    document.body.classList.remove('paper-open');
  }
}
