// Questions to the compiler, and what came of them.

/** One compiler; a new one takes its place where it breaks down. */
export class Compiler {
  /** `source` is the text of the worker, `given` what it starts with. */
  constructor(source, given) {
    this.source = source;
    this.given = given;
    this.waiting = new Map();
    this.next = 1;
    /** How long the last answer of each kind took in the worker. */
    this.took = {};
    /** How much memory it has. */
    this.memory = 0;
    this.start();
  }

  start() {
    this.ready = false;
    const address = URL.createObjectURL(new Blob([this.source], { type: 'text/javascript' }));
    this.worker = new Worker(address);
    this.worker.onmessage = ({ data }) => this.heard(data);
    this.worker.onerror = (event) => this.broke(event.message);
    this.worker.postMessage(this.given);
  }

  heard(data) {
    if (data.ready) {
      this.ready = true;
      return;
    }
    if (data.failed !== undefined) {
      this.broke(data.failed);
      return;
    }
    const waits = this.waiting.get(data.id);
    this.waiting.delete(data.id);
    this.memory = data.memory;
    const [[kind, value]] = Object.entries(JSON.parse(data.text));
    this.took[kind] = data.took;
    if (kind === 'wrong') waits?.reject(new Error(value));
    else waits?.resolve({ kind, value });
  }

  /** Nobody waits for what a broken compiler would have said. */
  broke(why) {
    this.worker.terminate();
    const left = [...this.waiting.values()];
    this.waiting.clear();
    // One that never began would not begin a second time.
    if (this.ready) this.start();
    for (const waits of left) waits.reject(new Error(why));
  }

  /** Asks one thing: `{ kind, value }`. */
  ask(question) {
    const id = this.next++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject });
      this.worker.postMessage({ id, question });
    });
  }

  /** The value of an answer alone. */
  async value(question) {
    return (await this.ask(question)).value;
  }
}
