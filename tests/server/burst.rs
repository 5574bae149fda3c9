//! The command itself, with a pipe on either side.

use std::io::Write as _;
use std::process::Stdio;

use serde_json::{Value, json};

use crate::support::{Bench, spec};

const URI: &str = "file:///jobs/first.case";

/// A message as it goes over the wire.
fn framed(message: &Value) -> String {
    let text = message.to_string();
    format!("Content-Length: {}\r\n\r\n{text}", text.len())
}

/// The messages in what came over it.
fn messages(mut text: &str) -> Vec<Value> {
    let mut all = Vec::new();
    while let Some((head, rest)) = text.split_once("\r\n\r\n") {
        let length = head.lines().find_map(|line| line.strip_prefix("Content-Length: ")).unwrap();
        let (message, next) = rest.split_at(length.parse().unwrap());
        all.push(serde_json::from_str(message).unwrap());
        text = next;
    }
    all
}

/// Fifty edits come in faster than one can be checked: what is told is of fewer states, and
/// of the last one.
#[test]
fn of_a_burst_of_edits_only_what_is_left_is_told() {
    let sound = spec("first.case");
    let broken = sound.replacen("wide 36", "wdie 36", 1);
    let ask = |id: i32, method: &str, params: Value| {
        framed(&json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params }))
    };
    let tell = |method: &str, params: Value| {
        framed(&json!({ "jsonrpc": "2.0", "method": method, "params": params }))
    };
    let document = json!({ "uri": URI, "languageId": "casewright", "version": 1, "text": broken });
    let mut said = ask(1, "initialize", json!({ "capabilities": {} }));
    said += &tell("initialized", json!({}));
    said += &tell("textDocument/didOpen", json!({ "textDocument": document }));
    for version in 2..=51 {
        let text = if version % 2 == 0 { &broken } else { &sound };
        let document = json!({ "uri": URI, "version": version });
        let changes = json!([{ "text": text }]);
        let params = json!({ "textDocument": document, "contentChanges": changes });
        said += &tell("textDocument/didChange", params);
    }
    let bench = Bench::new();
    let mut command = bench.command(&["language-server"]);
    command.stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut server = command.spawn().unwrap();
    let mut pipe = server.stdin.take().unwrap();
    pipe.write_all(said.as_bytes()).unwrap();
    // It takes leave once the findings are out: after `shutdown` none are told.
    let asked = json!({ "textDocument": { "uri": URI } });
    pipe.write_all(ask(2, "textDocument/foldingRange", asked).as_bytes()).unwrap();
    drop(pipe);
    let done = server.wait_with_output().unwrap();
    // Who goes without a word is told so by the exit status.
    assert_eq!(done.status.code(), Some(1), "{}", String::from_utf8_lossy(&done.stderr));
    let all = messages(std::str::from_utf8(&done.stdout).unwrap());
    let told: Vec<&Value> =
        all.iter().filter(|own| own["method"] == "textDocument/publishDiagnostics").collect();
    let last = told.last().unwrap();
    assert_eq!(last["params"]["version"], 51);
    assert_eq!(last["params"]["diagnostics"], json!([]));
    assert!(told.len() < 25, "told {} times", told.len());
}
