// The language server as a process of its own, behind the protocol's reference library.

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import {
  createProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from "vscode-languageserver-protocol/node";

export const HOUSE = join(dirname(fileURLToPath(import.meta.url)), "..", "..");

/// The command under test.
export const COMMAND = process.env.CASEWRIGHT ?? join(HOUSE, "target", "debug", "casewright");

/// No answer takes longer, even on a busy machine.
const PATIENCE = 30_000;

export const spec = (name) => readFileSync(join(HOUSE, "specs", name), "utf8");

/// A folder that is gone after the test.
export function folder(test) {
  const path = mkdtempSync(join(tmpdir(), "casewright-"));
  test.after(() => rmSync(path, { recursive: true, force: true }));
  return path;
}

export const uri = (path) => pathToFileURL(path).href;

const CAPABILITIES = {
  workspace: { workspaceEdit: { documentChanges: true } },
  textDocument: {
    hover: { contentFormat: ["markdown", "plaintext"] },
    publishDiagnostics: { relatedInformation: true, versionSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } } },
  },
};

export class Server {
  /// A server that has been greeted.
  static async started(test, capabilities = CAPABILITIES) {
    const server = new Server();
    test?.after(() => server.process.kill());
    const greeting = { processId: process.pid, rootUri: null, capabilities };
    server.told = await server.ask("initialize", greeting);
    await server.connection.sendNotification("initialized", {});
    return server;
  }

  constructor() {
    this.process = spawn(COMMAND, ["language-server"], { stdio: ["pipe", "pipe", "pipe"] });
    this.complaints = "";
    this.process.stderr.on("data", (text) => (this.complaints += text));
    this.ended = new Promise((done) => this.process.on("exit", (code) => done(code)));
    this.connection = createProtocolConnection(
      new StreamMessageReader(this.process.stdout),
      new StreamMessageWriter(this.process.stdin),
    );
    this.findings = new Map();
    this.waiting = [];
    /// How often findings came in.
    this.heard = 0;
    this.connection.onNotification("textDocument/publishDiagnostics", (params) => {
      this.heard += 1;
      this.findings.set(params.uri, params);
      const waiting = this.waiting;
      this.waiting = waiting.filter((own) => !own.wanted(params) || void own.done(params));
    });
    this.connection.listen();
  }

  ask(method, params) {
    return soon(this.connection.sendRequest(method, params), method);
  }

  tell(method, params) {
    return this.connection.sendNotification(method, params);
  }

  open(uri, text) {
    const textDocument = { uri, languageId: "casewright", version: 1, text };
    return this.tell("textDocument/didOpen", { textDocument });
  }

  /// The whole text is another one.
  rewrite(uri, version, text) {
    const params = { textDocument: { uri, version }, contentChanges: [{ text }] };
    return this.tell("textDocument/didChange", params);
  }

  /// The next findings of a file that are as wanted.
  next(uri, wanted = () => true) {
    const heard = new Promise((done) =>
      this.waiting.push({ wanted: (own) => own.uri === uri && wanted(own), done }),
    );
    return soon(heard, `findings of ${uri}`);
  }

  /// Opens a text and waits for its findings.
  async opened(uri, text) {
    const heard = this.next(uri);
    await this.open(uri, text);
    return (await heard).diagnostics;
  }

  /// Changes a text and waits for its findings.
  async rewritten(uri, version, text) {
    const heard = this.next(uri, (own) => own.version === version);
    await this.rewrite(uri, version, text);
    return (await heard).diagnostics;
  }

  /// Takes leave in order: the process ends without a complaint.
  async leave() {
    assert.equal(await this.ask("shutdown"), null);
    await this.tell("exit");
    assert.equal(await this.ended, 0);
    assert.equal(this.complaints, "");
  }
}

/// The same promise; it fails when nothing comes.
function soon(promise, what) {
  let timer;
  const late = new Promise((_, fail) => {
    timer = setTimeout(() => fail(new Error(`nothing came: ${what}`)), PATIENCE);
  });
  return Promise.race([promise, late]).finally(() => clearTimeout(timer));
}

/// The place of a piece of a text; a bar in it stands for the cursor.
export function at(text, wanted) {
  const [before, after] = wanted.includes("|") ? wanted.split("|") : ["", wanted];
  const byte = text.indexOf(before + after);
  assert.notEqual(byte, -1, `no ${wanted}`);
  return position(text, byte + before.length);
}

/// JavaScript counts letters as the protocol does.
export function position(text, offset) {
  const head = text.slice(0, offset);
  const start = head.lastIndexOf("\n") + 1;
  return { line: head.split("\n").length - 1, character: offset - start };
}

export function range(text, wanted) {
  const start = text.indexOf(wanted);
  assert.notEqual(start, -1, `no ${wanted}`);
  return { start: position(text, start), end: position(text, start + wanted.length) };
}

/// The letters in a range.
export function within(text, { start, end }) {
  return text.slice(offset(text, start), offset(text, end));
}

function offset(text, { line, character }) {
  const lines = text.split("\n").slice(0, line);
  return lines.reduce((sum, own) => sum + own.length + 1, 0) + character;
}

/// A text after edits, last first.
export function edited(text, edits) {
  const sorted = [...edits].sort((a, b) => offset(text, b.range.start) - offset(text, a.range.start));
  for (const { range, newText } of sorted) {
    text = text.slice(0, offset(text, range.start)) + newText + text.slice(offset(text, range.end));
  }
  return text;
}

/// What a question about a place carries.
export const place = (uri, position) => ({ textDocument: { uri }, position });
