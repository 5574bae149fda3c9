// Every feature, as a client asks for it.

import assert from "node:assert/strict";
import { test } from "node:test";
import { at, edited, place, position, range, Server, spec, within } from "./server.mjs";

const URI = "file:///jobs/first.case";
const document = { textDocument: { uri: URI } };
const options = { tabSize: 2, insertSpaces: true };

async function opened(t, text = spec("first.case")) {
  const server = await Server.started(t);
  const findings = await server.opened(URI, text);
  return { server, text, findings };
}

const everything = (text) => ({ start: { line: 0, character: 0 }, end: position(text, text.length) });

test("what it can do is what it answers", async (t) => {
  const { server } = await opened(t);
  const can = server.told.capabilities;
  assert.equal(server.told.serverInfo.name, "casewright");
  assert.equal(can.positionEncoding, "utf-16");
  assert.deepEqual(can.codeActionProvider.codeActionKinds, ["quickfix", "source.fixAll"]);
  for (const one of [
    "hoverProvider", "completionProvider", "signatureHelpProvider", "documentSymbolProvider",
    "definitionProvider", "referencesProvider", "documentHighlightProvider", "renameProvider",
    "semanticTokensProvider", "foldingRangeProvider", "documentFormattingProvider",
    "inlayHintProvider",
  ]) {
    assert.ok(can[one], one);
  }
  await server.leave();
});

test("a broken piece is marked with its sum, and a code action mends it", async (t) => {
  const text = spec("first.case").replace("store { share 1;", "store { high 23;");
  const { server, findings } = await opened(t, text);
  const [error] = findings.filter((own) => own.severity === 1);
  assert.equal(error.code, "sizes-conflict");
  assert.equal(error.source, "casewright");
  assert.match(error.message, /over by/);
  assert.ok(error.relatedInformation.length > 1);
  const params = { ...document, range: error.range, context: { diagnostics: [error] } };
  const actions = await server.ask("textDocument/codeAction", params);
  assert.ok(actions.length > 1);
  assert.ok(actions.every((own) => own.kind === "quickfix" && own.diagnostics.length === 1));
  let version = 1;
  let mended = 0;
  for (const action of actions) {
    const [change] = action.edit.documentChanges;
    assert.deepEqual(change.textDocument, { uri: URI, version: 1 });
    version += 1;
    const left = await server.rewritten(URI, version, edited(text, change.edits));
    mended += left.every((own) => own.code !== "sizes-conflict");
  }
  assert.equal(mended, actions.length);
  await server.leave();
});

test("every sure mend is made at once", async (t) => {
  const sound = spec("first.case");
  const text = sound.replace("wide 36", "wdie 36").replace("deep 18", "depe 18");
  const { server } = await opened(t, text);
  const context = { diagnostics: [], only: ["source.fixAll"] };
  const params = { ...document, range: everything(text), context };
  const [action, ...more] = await server.ask("textDocument/codeAction", params);
  assert.deepEqual([action.kind, more], ["source.fixAll", []]);
  assert.equal(edited(text, action.edit.documentChanges[0].edits), sound);
  await server.leave();
});

test("hover tells what a word means and what a size comes to", async (t) => {
  const { server, text } = await opened(t);
  const word = await server.ask("textDocument/hover", place(URI, at(text, "ker|f 1/8")));
  assert.match(word.contents.value, /Without it: `1\/8 in`/);
  const name = await server.ask("textDocument/hover", place(URI, at(text, "sto|re { share")));
  assert.match(name.contents.value, /32-1\/2 in[^]*\+ 36/);
  assert.deepEqual(name.range, range(text, "store"));
  assert.equal(await server.ask("textDocument/hover", place(URI, at(text, "# Mat|erials"))), null);
  await server.leave();
});

test("completion offers words, choices, and names, each in place of what is typed", async (t) => {
  const text = spec("first.case").replace("hinge cup-hinge; pull knob", "hinge c; set o; p");
  const { server } = await opened(t, text);
  const offers = async (wanted) => {
    const found = await server.ask("textDocument/completion", place(URI, at(text, wanted)));
    return found.map((own) => [own.label, within(text, own.textEdit.range)]);
  };
  assert.deepEqual(await offers("hinge c|;"), [["cup-hinge", "c"]]);
  assert.deepEqual(await offers("set o|;"), [["inset", "o"], ["overlay", "o"]]);
  assert.ok((await offers("; p|")).some(([label]) => label === "pull"));
  await server.leave();
});

test("a statement tells what comes next", async (t) => {
  const { server, text } = await opened(t);
  const found = await server.ask("textDocument/signatureHelp", place(URI, at(text, "30% |to 55%")));
  assert.equal(found.signatures[0].label, "humidity percent to percent");
  await server.leave();
});

test("the outline has what is named, nested", async (t) => {
  const { server, text } = await opened(t);
  const all = await server.ask("textDocument/documentSymbol", document);
  const names = all.map((own) => own.name);
  assert.deepEqual(names.slice(-3), ["knob", "oil", "cupboard"]);
  assert.deepEqual(all.at(-1).children.map((own) => own.name), ["upper", "store"]);
  assert.equal(within(text, all.at(-1).selectionRange), "cupboard");
  await server.leave();
});

test("definition, references, and highlights find the same name", async (t) => {
  const { server, text } = await opened(t);
  const asked = place(URI, at(text, "pull kn|ob\n"));
  const given = await server.ask("textDocument/definition", asked);
  assert.deepEqual(given, { uri: URI, range: range(text, "knob") });
  const uses = text.match(/\bknob\b/g).length;
  for (const includeDeclaration of [true, false]) {
    const params = { ...asked, context: { includeDeclaration } };
    const used = await server.ask("textDocument/references", params);
    assert.equal(used.length, includeDeclaration ? uses : uses - 1);
    assert.ok(used.every((own) => within(text, own.range) === "knob"));
  }
  assert.equal((await server.ask("textDocument/documentHighlight", asked)).length, uses);
  await server.leave();
});

test("a name is asked for first, changed everywhere, and refused where it is none", async (t) => {
  const { server, text } = await opened(t);
  const asked = place(URI, at(text, "slide run|ner\n"));
  const named = await server.ask("textDocument/prepareRename", asked);
  assert.deepEqual(named, {
    range: { start: at(text, "slide |runner\n"), end: at(text, "slide runner|\n") },
    placeholder: "runner",
  });
  const edit = await server.ask("textDocument/rename", { ...asked, newName: "under-15" });
  const renamed = edited(text, edit.documentChanges[0].edits);
  assert.equal(renamed, text.replaceAll("slide runner", "slide under-15"));
  const refused = server.ask("textDocument/rename", { ...asked, newName: "15 under" });
  await assert.rejects(refused, { code: -32803, message: /begins with a letter/ });
  assert.equal(await server.ask("textDocument/prepareRename", place(URI, at(text, "kerf 1|/8"))), null);
  await server.leave();
});

test("each piece of the text is colored by what it is", async (t) => {
  const { server, text } = await opened(t);
  const { data } = await server.ask("textDocument/semanticTokens/full", document);
  const { tokenTypes } = server.told.capabilities.semanticTokensProvider.legend;
  const lines = text.split("\n");
  const colored = new Map();
  let [line, column] = [0, 0];
  for (let i = 0; i < data.length; i += 5) {
    column = data[i] === 0 ? column + data[i + 1] : data[i + 1];
    line += data[i];
    colored.set(lines[line].slice(column, column + data[i + 2]), tokenTypes[data[i + 3]]);
  }
  const expected = {
    kerf: "keyword", cupboard: "variable", rabbet: "enumMember",
    "34-1/2": "number", '"First cabinet"': "string", "# over all": "comment",
  };
  for (const [piece, type] of Object.entries(expected)) {
    assert.equal(colored.get(piece), type, piece);
  }
  await server.leave();
});

test("sizes stand behind the names, in the range that is asked for", async (t) => {
  const { server, text } = await opened(t);
  const labels = async (range) => {
    const hints = await server.ask("textDocument/inlayHint", { ...document, range });
    return hints.map((own) => own.label);
  };
  assert.deepEqual(await labels(everything(text)), ["36 × 34-1/2", "32-1/2 × 5", "32-1/2 × 21"]);
  assert.deepEqual(await labels(range(text, "doors store { share 1")), ["32-1/2 × 21"]);
  await server.leave();
});

test("blocks fold down to their braces", async (t) => {
  const { server, text } = await opened(t);
  const folds = await server.ask("textDocument/foldingRange", document);
  const { line } = at(text, "case cupboard {");
  assert.ok(folds.some((own) => own.startLine === line && own.endLine > line + 20));
  await server.leave();
});

test("a text is laid out as the command lays it out", async (t) => {
  const sound = spec("first.case");
  const text = sound.replace("  wide 36; deep 18;", "      wide    36;deep 18;");
  const { server } = await opened(t, text);
  const edits = await server.ask("textDocument/formatting", { ...document, options });
  assert.equal(edited(text, edits), sound);
  await server.leave();
});
