// The TextMate grammar, in the engine that editors run it in.

import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { test } from "node:test";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";
import { HOUSE, spec } from "./server.mjs";

const require = createRequire(import.meta.url);
const wasm = join(require.resolve("vscode-oniguruma"), "..", "onig.wasm");
await oniguruma.loadWASM(readFileSync(wasm).buffer);
const path = join(HOUSE, "editors", "textmate", "casewright.tmLanguage.json");
const registry = new textmate.Registry({
  onigLib: Promise.resolve({
    createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
    createOnigString: (text) => new oniguruma.OnigString(text),
  }),
  loadGrammar: async () => textmate.parseRawGrammar(readFileSync(path, "utf8"), path),
});
const grammar = await registry.loadGrammar("source.casewright");

/// Each piece of a text with its scope, nothing for one that has none.
function pieces(text) {
  let state = textmate.INITIAL;
  const all = [];
  for (const line of text.split("\n")) {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    for (const { startIndex, endIndex, scopes } of tokens) {
      const piece = line.slice(startIndex, endIndex).trim();
      if (piece !== "") {
        all.push([piece, scopes.slice(1).at(-1)?.replace(".casewright", "")]);
      }
    }
  }
  return all;
}

const folders = ["", "examples", "broken"];
const specs = folders.flatMap((folder) => {
  const names = readdirSync(join(HOUSE, "specs", folder)).filter((name) => name.endsWith(".case"));
  return names.map((name) => join(folder, name));
});

test("no letter of a sound spec is left bare", () => {
  let count = 0;
  for (const name of specs.filter((name) => !name.startsWith("broken"))) {
    for (const [piece, scope] of pieces(spec(name))) {
      assert.ok(scope, `${name}: ${piece}`);
      count += 1;
    }
  }
  assert.ok(count > 10_000, `${count} pieces`);
});

test("what is broken is colored all the same", () => {
  const broken = specs.filter((name) => name.startsWith("broken"));
  assert.ok(broken.length > 100);
  broken.forEach((name) => pieces(spec(name)));
});

test("every statement begins with a word, which has the color of one", () => {
  for (const name of specs.filter((name) => !name.includes("broken"))) {
    let record = false;
    for (const line of spec(name).split("\n")) {
      record = (record && line !== "}") || /^(cut|measured) /.test(line);
      const word = /^\s*([a-z][a-z-]*)(\s|$)/.exec(line)?.[1];
      const [first] = pieces(line);
      if (word !== undefined && !record) {
        assert.deepEqual(first, [word, "keyword.other"], `${name}: ${line}`);
      }
    }
  }
});

test("each piece has the color of what it is", () => {
  const line =
    'case a { high 5\' 3-1/2"; wide 7"; deep 3 1/2 mm; joint dado { deep 1/4 } } # "no text';
  const expected = [
    ["case", "keyword.other"], ["a", "entity.name.type"], ["{", "punctuation.section.block"],
    ["high", "keyword.other"], ["5", "constant.numeric"], ["' 3-1/2\"", "keyword.other.unit"],
    [";", "punctuation.terminator"], ["wide", "keyword.other"], ["7", "constant.numeric"],
    ['"', "keyword.other.unit"], [";", "punctuation.terminator"], ["deep", "keyword.other"],
    ["3 1/2", "constant.numeric"], ["mm", "keyword.other.unit"], [";", "punctuation.terminator"],
    ["joint", "keyword.other"], ["dado", "constant.language"], ["{", "punctuation.section.block"],
    ["deep", "keyword.other"], ["1/4", "constant.numeric"], ["}", "punctuation.section.block"],
    ["}", "punctuation.section.block"], ['# "no text', "comment.line.number-sign"],
  ];
  assert.deepEqual(pieces(line), expected);
  assert.deepEqual(pieces('note "a \\" # b; case c"; feed 100 per min; left-end 2'), [
    ["note", "keyword.other"], ['"a \\" # b; case c"', "string.quoted.double"],
    [";", "punctuation.terminator"], ["feed", "keyword.other"], ["100", "constant.numeric"],
    ["per", "keyword.operator.word"], ["min", "keyword.other.unit"],
    [";", "punctuation.terminator"], ["left-end", "variable.other"], ["2", "constant.numeric"],
  ]);
});
