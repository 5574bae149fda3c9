// How long a client waits: `node latency.mjs`, with CASEWRIGHT set to a release build.
// Nothing here is asserted; DEVELOPERS.md has the figures with their day.

import { at, place, Server, spec } from "./server.mjs";

const URI = "file:///jobs/piece.case";
const console_ = spec("hall-console.case");

/// The console over and over, each under a name of its own.
function consoles(count) {
  const start = console_.indexOf("case console");
  const [head, own] = [console_.slice(0, start), console_.slice(start)];
  const cases = Array.from({ length: count }, (_, n) =>
    own.replaceAll(/\bconsole\b/g, `console-${n}`),
  );
  return head + cases.join("");
}

function told(what, times) {
  const sorted = [...times].sort((a, b) => a - b);
  const of = (part) => sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))];
  const ms = (time) => time.toFixed(2).padStart(8);
  console.log(`  ${what.padEnd(22)}${ms(of(0.5))}${ms(of(0.95))}${ms(sorted.at(-1))}`);
}

async function timed(what, times, work) {
  const all = [];
  for (let i = 0; i < times; i += 1) {
    const start = performance.now();
    await work(i);
    all.push(performance.now() - start);
  }
  told(what, all);
}

async function measure(title, text, times) {
  console.log(`${title}, ${text.length} letters: median, 95 of 100, most (ms)`);
  const server = await Server.started();
  await server.opened(URI, text);
  let version = 1;
  // The gap of the fronts.
  const [before, figure] = /gap +(?=3\/32)(3\/32)/.exec(text);
  const high = at(text, before.replace(figure, `|${figure}`));
  const edit = async (letter, length) => {
    version += 1;
    const own = version;
    const range = { start: high, end: { ...high, character: high.character + length } };
    const heard = server.next(URI, (found) => found.version === own);
    const change = { textDocument: { uri: URI, version }, contentChanges: [{ range, text: letter }] };
    await server.tell("textDocument/didChange", change);
    await heard;
  };
  // A figure that is another one, so that everything behind it is.
  let length = figure.length;
  await timed("edit to findings", times, async (i) => {
    const next = i % 2 === 0 ? "5/64" : figure;
    await edit(next, length);
    length = next.length;
  });
  await edit(figure, length);
  const name = /slide ([a-z][a-z0-9-]*) \{/.exec(text);
  const asked = place(URI, at(text, `slide |${name[1]} {`));
  const opening = /(?:drawer|doors|door) ([a-z][a-z0-9-]*) +\{/.exec(text)[1];
  const opened = new RegExp(`(?:drawer|doors|door) ${opening}`).exec(text)[0];
  const on = place(URI, at(text, opened.replace(" ", " |")));
  const document = { textDocument: { uri: URI } };
  const ask = (method, params) => () => server.ask(`textDocument/${method}`, params);
  await timed("hover", times, ask("hover", on));
  const context = { includeDeclaration: true };
  await timed("references of a slide", times, ask("references", { ...asked, context }));
  await timed("another name for it", times, ask("rename", { ...asked, newName: "under-mount" }));
  await timed("of an opening", times, ask("rename", { ...on, newName: "topmost" }));
  await timed("completion", times, ask("completion", on));
  await timed("colors", times, ask("semanticTokens/full", document));
  const range = { start: { line: 0, character: 0 }, end: { line: 100_000, character: 0 } };
  await timed("sizes", times, ask("inlayHint", { ...document, range }));
  // As an editor asks them behind each letter.
  await timed("letter, colors, sizes", times, async (i) => {
    const next = i % 2 === 0 ? "5/64" : figure;
    await edit(next, length = i % 2 === 0 ? figure.length : 4);
    await Promise.all([
      server.ask("textDocument/semanticTokens/full", document),
      server.ask("textDocument/inlayHint", { ...document, range }),
      server.ask("textDocument/documentSymbol", document),
      server.ask("textDocument/foldingRange", document),
    ]);
  });
  await server.leave();
}

await measure("the hall console", console_, 200);
await measure("60 of them", consoles(60), 30);
