// The piece from the front: what is tapped there, and what the text is at.

const SVG = 'http://www.w3.org/2000/svg';

/** The drawing that stands beside the text. */
export class Drawing {
  /** `place` holds it; `tapped(shown)` hears which part or opening was meant. */
  constructor(place, tapped) {
    this.place = place;
    this.places = [];
    this.svg = null;
    this.own = [];
    place.addEventListener('click', (event) => {
      const shown = this.at(event);
      if (shown) tapped(shown);
    });
  }

  /** Another piece has come: nothing is drawn of it yet. */
  clear() {
    this.places = [];
    this.own = [];
    this.svg = null;
    this.place.replaceChildren();
  }

  /** Shows a drawing; where there is none, the last one stays and is grey. */
  show(drawn) {
    this.place.classList.toggle('stale', drawn === null);
    this.place.classList.toggle('doubtful', drawn !== null && !drawn.whole);
    if (drawn === null) return;
    this.places = drawn.places;
    const read = new DOMParser().parseFromString(drawn.svg, 'image/svg+xml').documentElement;
    if (read.namespaceURI !== SVG) return;
    const svg = document.importNode(read, true);
    this.marks = document.createElementNS(SVG, 'g');
    this.marks.setAttribute('class', 'marks');
    svg.append(this.marks);
    if (this.svg) this.svg.replaceWith(svg);
    else this.place.replaceChildren(svg);
    this.svg = svg;
    this.mark(this.own);
  }

  /** What lies under a finger: the nearest to the eye. A thin rail is meant where a
   *  finger is just beside it. */
  at({ clientX, clientY }) {
    const matrix = this.svg?.getScreenCTM();
    if (!matrix) return null;
    const point = new DOMPoint(clientX, clientY).matrixTransform(matrix.inverse());
    const near = 7 / matrix.a;
    const off = ({ area: [left, top, right, bottom] }) => Math.max(
      left - point.x, point.x - right, top - point.y, point.y - bottom, 0,
    );
    const hit = this.places.findLast((own) => off(own) === 0);
    const thin = ({ area: [left, top, right, bottom] }) =>
      Math.min(right - left, bottom - top) < near * 2;
    const beside = this.places.findLast((own) => thin(own) && off(own) <= near);
    return (hit && thin(hit) ? hit : beside ?? hit) ?? null;
  }

  /** Marks the things of these names. */
  mark(names) {
    this.own = names;
    if (!this.svg) return;
    const meant = new Set(names);
    const rects = this.places.filter((own) => meant.has(own.name)).map((own) => {
      const [left, top, right, bottom] = own.area;
      const rect = document.createElementNS(SVG, 'rect');
      const set = { x: left, y: top, width: right - left, height: bottom - top };
      for (const [key, value] of Object.entries(set)) rect.setAttribute(key, value);
      return rect;
    });
    this.marks.replaceChildren(...rects);
  }

  /** The names of what a statement makes that begins on a line of a file. */
  on(file, line) {
    const own = this.places.filter(({ at }) => at.file === file && at.from[0] === line);
    return [...new Set(own.map(({ name }) => name))];
  }
}
