// Starts `casewright language-server` and leaves the rest to the protocol.

"use strict";

const { workspace, window, commands } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

async function start() {
  const command = workspace.getConfiguration("casewright").get("command") || "casewright";
  const own = new LanguageClient(
    "casewright",
    "casewright",
    { command, args: ["language-server"] },
    {
      documentSelector: [
        { language: "casewright", scheme: "file" },
        { language: "casewright", scheme: "untitled" },
      ],
      // A file that others use may change outside the editor.
      synchronize: { fileEvents: workspace.createFileSystemWatcher("**/*.case") },
    },
  );
  client = own;
  try {
    await own.start();
  } catch (why) {
    const how = "Put it on your path, or name it in the setting casewright.command.";
    window.showErrorMessage(`The command ${command} could not be started (${why.message}). ${how}`);
  }
}

async function stop() {
  const own = client;
  client = undefined;
  // One that never ran can't be stopped.
  await own?.stop().catch(() => {});
}

async function again() {
  await stop();
  await start();
}

exports.activate = (context) => {
  context.subscriptions.push(
    commands.registerCommand("casewright.restart", again),
    workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration("casewright.command")) {
        return again();
      }
    }),
  );
  return start();
};

exports.deactivate = stop;
