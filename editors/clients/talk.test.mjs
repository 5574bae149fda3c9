// How a client and the server talk: odd letters, odd paths, half a text, and leave-taking.

import assert from "node:assert/strict";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import { at, folder, place, position, range, Server, spec, uri, within } from "./server.mjs";

const URI = "file:///jobs/first.case";
const broken = (text) => text.replace("stock ply     {", "stock plx     {");

test("letters of two units and of two bytes shift no place", async (t) => {
  const text = spec("first.case")
    .replace("case cupboard {", "case cupboard { # 😀 é 日本")
    .replace('job "First cabinet" {', 'job "Küche 😀" { tpae 1/32 # é')
    .replace("  tape     1/32 ", "  ");
  const server = await Server.started(t);
  const findings = await server.opened(URI, text);
  const [found] = findings.filter((own) => own.code === "word-unknown");
  assert.equal(within(text, found.range), "tpae");
  assert.equal(found.range.start.character, 'job "Küche 😀" { '.length);
  // Bit by bit behind such a letter.
  const edit = { range: range(text, "tpae"), text: "tape" };
  const change = { textDocument: { uri: URI, version: 2 }, contentChanges: [edit] };
  const heard = server.next(URI, (own) => own.version === 2);
  await server.tell("textDocument/didChange", change);
  assert.deepEqual((await heard).diagnostics, []);
  await server.leave();
});

for (const [what, path] of [
  ["a space and an accent", "my jobs/chêne.case"],
  ["a percent and a hash", "50%#/a.case"],
  ["letters of four bytes", "😀/日本.case"],
]) {
  test(`a path with ${what} leads to its file and to what it uses`, async (t) => {
    const own_path = join(folder(t), path);
    mkdirSync(join(own_path, ".."), { recursive: true });
    const own = "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
    writeFileSync(join(own_path, "..", "wood.case"), own.replace("stock ply    ", "stock ply"));
    const text = spec("first.case").replace(own, "").replace("\njob", '\nuse "wood.case"\n\njob');
    writeFileSync(own_path, text);
    const server = await Server.started(t);
    assert.deepEqual(await server.opened(uri(own_path), text), []);
    const given = await server.ask(
      "textDocument/definition",
      place(uri(own_path), at(text, "stock p|ly   ")),
    );
    assert.equal(given.uri, uri(join(own_path, "..", "wood.case")));
    await server.leave();
  });
}

test("a path from another system is answered, file or not", async (t) => {
  const server = await Server.started(t);
  for (const odd of [
    "file:///c%3A/Jobs/first.case",
    "file:///C:/Jobs/first.case",
    "file://shop/jobs/first.case",
    "untitled:Untitled-1",
    "file:///jobs/%FF.case",
  ]) {
    const findings = await server.opened(odd, broken(spec("first.case")));
    assert.ok(findings.some((own) => own.code === "name-unknown"), odd);
    const hover = await server.ask(
      "textDocument/hover",
      place(odd, at(spec("first.case"), "ker|f 1/8")),
    );
    assert.match(hover.contents.value, /kerf/, odd);
  }
  await server.leave();
});

test("a spec cut off at every letter is answered", async (t) => {
  const text = spec("first.case");
  const server = await Server.started(t);
  await server.open(URI, "");
  const step = Number(process.env.CASEWRIGHT_CUT_STEP ?? 1);
  const answers = [];
  for (let cut = 0, version = 2; cut <= text.length; cut += step, version += 1) {
    const head = text.slice(0, cut);
    await server.rewrite(URI, version, head);
    const params = place(URI, position(head, cut));
    const method = ["hover", "completion", "signatureHelp", "definition"][version % 4];
    answers.push(server.ask(`textDocument/${method}`, params));
    const own = { textDocument: { uri: URI } };
    const whole = ["documentSymbol", "foldingRange", "semanticTokens/full"][version % 3];
    answers.push(server.ask(`textDocument/${whole}`, own));
    // As fast as it answers, and no faster: an answer is of the text that was asked about.
    if (answers.length >= 16) {
      await Promise.all(answers.splice(0));
    }
  }
  await Promise.all(answers);
  await server.leave();
});

test("what it does not know is refused", async (t) => {
  const text = spec("first.case");
  const server = await Server.started(t);
  await server.opened(URI, text);
  const asked = place(URI, at(text, "case cup"));
  await assert.rejects(server.ask("textDocument/moniker", asked), { code: -32601 });
  await assert.rejects(server.ask("casewright/unheard", {}), { code: -32601 });
  await assert.rejects(server.ask("textDocument/hover", { textDocument: 3 }), { code: -32602 });
  await server.tell("casewright/unheard", {});
  await server.leave();
});

test("of a burst of edits only the last is told", async (t) => {
  const text = spec("first.case");
  const server = await Server.started(t);
  await server.opened(URI, text);
  const before = server.heard;
  const last = 51;
  const heard = server.next(URI, (own) => own.version === last);
  const sent = [];
  for (let version = 2; version <= last; version += 1) {
    const wrong = version % 2 === 0 ? text.replace("wide 36;", `wide ${version}x;`) : text;
    sent.push(server.rewrite(URI, version, wrong));
  }
  await Promise.all(sent);
  assert.deepEqual((await heard).diagnostics, []);
  // What was told on the way is of fewer states than were typed, and the last comes last.
  await server.ask("textDocument/foldingRange", { textDocument: { uri: URI } });
  assert.equal(server.findings.get(URI).version, last);
  assert.ok(server.heard - before < 25, `${server.heard - before} times`);
  await server.leave();
});

test("a used file that changes changes all that use it", async (t) => {
  const jobs = folder(t);
  const line = "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
  const wood = line.replace("stock ply    ", "stock ply");
  const text = spec("first.case").replace(line, "").replace("\njob", '\nuse "wood.case"\n\njob');
  const [one, two, shared] = ["one.case", "two.case", "wood.case"].map((name) => join(jobs, name));
  writeFileSync(one, text);
  writeFileSync(two, text);
  writeFileSync(shared, wood);
  const server = await Server.started(t);
  assert.deepEqual(await server.opened(uri(one), text), []);
  assert.deepEqual(await server.opened(uri(two), text), []);
  // Open and unsaved.
  const both = (wanted) => [one, two].map((path) => server.next(uri(path), wanted));
  const unknown = (own) => own.diagnostics.some((found) => found.code === "name-unknown");
  let heard = both(unknown);
  await server.open(uri(shared), wood.replace("stock ply", "stock birch"));
  await Promise.all(heard);
  heard = both((own) => own.diagnostics.length === 0);
  await server.rewrite(uri(shared), 2, wood);
  await Promise.all(heard);
  // Closed, and changed on the disk.
  await server.tell("textDocument/didClose", { textDocument: { uri: uri(shared) } });
  writeFileSync(shared, wood.replace("stock ply", "stock birch"));
  heard = both(unknown);
  await server.tell("workspace/didChangeWatchedFiles", { changes: [{ uri: uri(shared), type: 2 }] });
  await Promise.all(heard);
  await server.leave();
});

test("it ends with 0 in order, and with 1 without a word", async (t) => {
  const orderly = await Server.started(t);
  await orderly.ask("shutdown");
  await assert.rejects(
    orderly.ask("textDocument/hover", place(URI, { line: 0, character: 0 })),
    { code: -32600 },
  );
  await orderly.tell("exit");
  assert.equal(await orderly.ended, 0);
  const abrupt = await Server.started(t);
  await abrupt.tell("exit");
  assert.equal(await abrupt.ended, 1);
  const gone = await Server.started(t);
  gone.process.stdin.end();
  assert.equal(await gone.ended, 1);
});
