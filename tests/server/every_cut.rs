//! A spec that is being written: cut off at every letter, everything is asked.

use casewright::model::MemoryFiles;
use serde_json::json;

use super::client::{Client, place, position};
use crate::support::spec;

const URI: &str = "file:///jobs/first.case";

/// Everything that may be asked of a place, and of a text.
const OF_PLACE: [&str; 6] = [
    "textDocument/hover",
    "textDocument/completion",
    "textDocument/definition",
    "textDocument/documentHighlight",
    "textDocument/prepareRename",
    "textDocument/signatureHelp",
];
const OF_TEXT: [&str; 4] = [
    "textDocument/documentSymbol",
    "textDocument/semanticTokens/full",
    "textDocument/foldingRange",
    "textDocument/formatting",
];

/// No question is refused, whatever stands there, and none is left without an answer.
#[test]
fn every_beginning_of_a_spec_is_answered() {
    let text = spec("first.case");
    let mut client = Client::over(MemoryFiles::default());
    client.open(URI, "");
    // At each letter of the first lines, and then at every seventh.
    let cuts = text.char_indices().map(|(at, _)| at);
    for (version, cut) in cuts.filter(|at| *at < 300 || at % 7 == 0).enumerate() {
        let head = &text[..cut];
        client.rewrite(URI, version as i32 + 2, head);
        let cursor = position(head, cut);
        for method in OF_PLACE {
            client.ask(method, place(URI, cursor.clone()));
        }
        for method in OF_TEXT {
            let mut params = json!({ "textDocument": { "uri": URI } });
            if method == "textDocument/formatting" {
                params["options"] = json!({ "tabSize": 2, "insertSpaces": true });
            }
            client.ask(method, params);
        }
        let whole = json!({ "start": position(head, 0), "end": cursor });
        let mut params = json!({ "textDocument": { "uri": URI }, "range": whole });
        client.ask("textDocument/inlayHint", params.clone());
        params["context"] = json!({ "diagnostics": [] });
        client.ask("textDocument/codeAction", params);
    }
    client.leave();
}
