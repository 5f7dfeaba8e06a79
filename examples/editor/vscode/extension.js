// Starts the launcher's language server, and leaves all else to it.
const { workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

function activate() {
  const command = workspace.getConfiguration("doublet").get("command");
  client = new LanguageClient(
    "doublet",
    "Doublet",
    { command, args: ["serve"] },
    {
      documentSelector: [
        { scheme: "file", language: "aspects" },
        { scheme: "file", language: "yaml", pattern: "**/*layout.{yaml,yml}" },
      ],
    },
  );
  return client.start();
}

function deactivate() {
  return client && client.stop();
}

module.exports = { activate, deactivate };
