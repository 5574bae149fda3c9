// Parts a module into what packs well together: all instructions, all numbers of loads,
// all calls, and so on. A seventh of what is packed is saved so. `unpack/src/parted.rs`
// puts it together again and has the same list of streams.

const CODE = 10;
/** The streams, in their order; behind them the memory instructions have two each. */
const STREAMS = ['before', 'after', 'operations', 'locals', 'local', 'short', 'long', 'wide',
  'float', 'call', 'branch', 'type'];
const FIRST_LOAD = 0x28;
const LAST_STORE = 0x3e;
const LOADS = LAST_STORE - FIRST_LOAD + 1;
/** Stands for a constant of three bytes or more, among which are all addresses; no
 * instruction has this number. */
const LONG_CONSTANT = 0x27;

/** The bytes of all streams, each behind its length in four bytes. */
export function parted(module) {
  const streams = Array.from({ length: STREAMS.length + 2 * LOADS }, () => []);
  const put = (name, bytes) => streams[STREAMS.indexOf(name)].push(...bytes);
  const { code, before, after } = sections(module);
  const reader = new Reader(code);
  const functions = reader.number();
  put('locals', functions.bytes);
  for (let left = functions.value; left > 0; left -= 1) {
    const end = reader.number().value + reader.at;
    const groups = reader.number();
    put('locals', groups.bytes);
    for (let group = 0; group < groups.value; group += 1) {
      put('locals', reader.number().bytes);
      put('locals', reader.take(1));
    }
    while (reader.at < end) instruction(reader, streams, put);
    if (reader.at !== end) throw new Error('a function ends inside an instruction');
  }
  return Buffer.concat([before, after, ...streams.slice(2)].flatMap((stream) => {
    const length = Buffer.alloc(4);
    length.writeUInt32LE(stream.length);
    return [length, Buffer.from(stream)];
  }));
}

function instruction(reader, streams, put) {
  const [code] = reader.take(1);
  if (code === 0x41) {
    const { bytes } = reader.number();
    put('operations', [bytes.length < 3 ? code : LONG_CONSTANT]);
    put(bytes.length < 3 ? 'short' : 'long', bytes);
    return;
  }
  put('operations', [code]);
  if (code >= FIRST_LOAD && code <= LAST_STORE) {
    const first = STREAMS.length + 2 * (code - FIRST_LOAD);
    streams[first].push(...reader.number().bytes);
    streams[first + 1].push(...reader.number().bytes);
  } else if (code >= 0x02 && code <= 0x04) put('type', reader.number().bytes);
  else if (code === 0x0c || code === 0x0d) put('branch', reader.number().bytes);
  else if (code === 0x0e) {
    const ways = reader.number();
    put('branch', ways.bytes);
    for (let way = 0; way <= ways.value; way += 1) put('branch', reader.number().bytes);
  } else if (code === 0x10) put('call', reader.number().bytes);
  else if (code === 0x11) {
    put('type', reader.number().bytes);
    put('type', reader.number().bytes);
  } else if (code >= 0x20 && code <= 0x22) put('local', reader.number().bytes);
  else if (code === 0x23 || code === 0x24) put('type', reader.number().bytes);
  else if (code === 0x3f || code === 0x40) put('type', reader.take(1));
  else if (code === 0x42) put('wide', reader.number().bytes);
  else if (code === 0x43) put('float', reader.take(4));
  else if (code === 0x44) put('float', reader.take(8));
  else if (code === 0xfc) {
    const [more] = reader.take(1);
    put('operations', [more]);
    if (more === 10) put('type', reader.take(2));
    else if (more === 11) put('type', reader.take(1));
    else if (more > 7) throw new Error(`instruction fc ${more} is not known here`);
  } else if (!(code <= 0x01 || code === 0x05 || code === 0x0b || code === 0x0f || code === 0x1a
    || code === 0x1b || (code >= 0x45 && code <= 0xc4))) {
    throw new Error(`instruction ${code.toString(16)} is not known here`);
  }
}

/** The code of a module without its length, and what stands before and behind. */
function sections(module) {
  const reader = new Reader(module);
  reader.take(8);
  for (;;) {
    const from = reader.at;
    const [id] = reader.take(1);
    const length = reader.number().value;
    const code = reader.take(length);
    if (id === CODE) {
      return { code, before: module.subarray(0, from), after: module.subarray(reader.at) };
    }
  }
}

/** Reads numbers and bytes one after another. */
class Reader {
  constructor(bytes) {
    this.bytes = bytes;
    this.at = 0;
  }

  take(count) {
    if (this.at + count > this.bytes.length) throw new Error('the module ends too early');
    this.at += count;
    return this.bytes.subarray(this.at - count, this.at);
  }

  /** A number in as many bytes as say that another follows, and one more: those bytes, and
   * what they come to where that is below 2^31. */
  number() {
    const from = this.at;
    let value = 0;
    for (let shift = 0; ; shift += 7) {
      const [byte] = this.take(1);
      value += (byte & 0x7f) * 2 ** shift;
      if (byte < 0x80) return { value, bytes: this.bytes.subarray(from, this.at) };
    }
  }
}
