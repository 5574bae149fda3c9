// The package has what the editor looks for, and the extension starts the command that is
// set. The editor itself is not here: a stand-in answers for it.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { test } from "node:test";
import { fileURLToPath } from "node:url";
import { inflateRawSync } from "node:zlib";

const HERE = dirname(fileURLToPath(import.meta.url));
const require = createRequire(import.meta.url);

/// The files of a package by their names, by the list at its end.
function unpacked(bytes) {
  const files = new Map();
  let row = bytes.readUInt32LE(bytes.length - 22 + 16);
  for (let left = bytes.readUInt16LE(bytes.length - 22 + 10); left > 0; left -= 1) {
    const [packed, whole] = [bytes.readUInt32LE(row + 20), bytes.readUInt32LE(row + 24)];
    const length = bytes.readUInt16LE(row + 28);
    const name = bytes.toString("utf8", row + 46, row + 46 + length);
    const start = bytes.readUInt32LE(row + 42) + 30 + length;
    const content = inflateRawSync(bytes.subarray(start, start + packed));
    assert.equal(content.length, whole, name);
    files.set(name, content);
    row += 46 + length;
  }
  return files;
}

test("the package has everything that it names", () => {
  const files = unpacked(readFileSync(join(HERE, "casewright.vsix")));
  assert.ok(files.has("[Content_Types].xml") && files.has("extension.vsixmanifest"));
  const about = JSON.parse(files.get("extension/package.json"));
  const { languages, grammars } = about.contributes;
  const named = [about.main, languages[0].configuration, grammars[0].path];
  for (const path of named) {
    assert.ok(files.has(join("extension", path)), path);
  }
  assert.equal(grammars[0].language, languages[0].id);
  const grammar = JSON.parse(files.get(join("extension", grammars[0].path)));
  assert.equal(grammar.scopeName, grammars[0].scopeName);
  for (const library of Object.keys(about.dependencies)) {
    assert.ok(files.has(`extension/node_modules/${library}/package.json`), library);
  }
});

test("a line that opens a block sets the next one in, and a brace takes it back", () => {
  const { indentationRules, wordPattern } = JSON.parse(
    readFileSync(join(HERE, "language-configuration.json"), "utf8"),
  );
  const opens = new RegExp(indentationRules.increaseIndentPattern);
  for (const line of ["case a {", "  down {    # openings", "  rail { wide 3 }; base {"]) {
    assert.match(line, opens);
  }
  for (const line of ["  base { high 4 }", "# case a {", "  wide 3"]) {
    assert.doesNotMatch(line, opens);
  }
  assert.match("  }", new RegExp(indentationRules.decreaseIndentPattern));
  const words = 'box-side press.wide 34-1/2 "a"'.match(new RegExp(wordPattern, "g"));
  assert.deepEqual(words, ["box-side", "press.wide", "34-1/2", "a"]);
});

test("it starts the command that is set, and starts it again when that changes", async () => {
  const settings = { command: "/shop/casewright" };
  const [started, stopped, shown, listeners] = [[], [], [], []];
  const stand_ins = {
    vscode: {
      workspace: {
        getConfiguration: (section) => ({ get: (key) => section === "casewright" && settings[key] }),
        createFileSystemWatcher: (pattern) => pattern,
        onDidChangeConfiguration: (heard) => listeners.push(heard),
      },
      window: { showErrorMessage: (message) => shown.push(message) },
      commands: { registerCommand: () => ({}) },
    },
    "vscode-languageclient/node": {
      LanguageClient: class {
        constructor(_id, _name, server) {
          this.server = server;
        }
        async start() {
          started.push(this.server);
          if (this.server.command === "nowhere") {
            throw new Error("no such file");
          }
        }
        async stop() {
          stopped.push(this.server.command);
        }
      },
    },
  };
  const source = readFileSync(join(HERE, "extension.js"), "utf8");
  const module = { exports: {} };
  const ask = (name) => stand_ins[name] ?? require(name);
  new Function("require", "module", "exports", source)(ask, module, module.exports);
  await module.exports.activate({ subscriptions: [] });
  assert.deepEqual(started, [{ command: "/shop/casewright", args: ["language-server"] }]);
  settings.command = "nowhere";
  await listeners[0]({ affectsConfiguration: (name) => name === "casewright.command" });
  assert.deepEqual(stopped, ["/shop/casewright"]);
  assert.match(shown[0], /nowhere.*casewright\.command/);
  await module.exports.deactivate();
  assert.equal(stopped.length, 2);
});
