//! The editor's side.

use std::collections::BTreeMap;
use std::thread::JoinHandle;
use std::time::Duration;

use casewright::model::MemoryFiles;
use casewright::server::{self, Ended, Reach};
use lsp_server::{Connection, Message, Notification, Request};
use serde_json::{Value, json};

/// No answer takes longer, even on a busy machine.
const PATIENCE: Duration = Duration::from_secs(60);

/// An editor with a server behind it, and what it was told of each file last.
pub(super) struct Client {
    connection: Connection,
    server: Option<JoinHandle<Ended>>,
    asked: i32,
    pub(super) told: BTreeMap<String, Value>,
    /// What the server can do, as it says.
    pub(super) can: Value,
    /// What the server asked the editor for.
    pub(super) wanted: Vec<Request>,
}

impl Client {
    /// An editor that shows Markdown and takes versions, over these files.
    pub(super) fn over(files: MemoryFiles) -> Self {
        let can = json!({
            "workspace": { "workspaceEdit": { "documentChanges": true } },
            "textDocument": { "hover": { "contentFormat": ["markdown", "plaintext"] } },
        });
        Self::that_can(files, can)
    }

    /// The same, with these specs in the folder, open or not.
    pub(super) fn among(files: MemoryFiles, specs: &[&str]) -> Self {
        let can = json!({ "workspace": { "workspaceEdit": { "documentChanges": true } } });
        Self::with(files, specs.iter().map(|own| (*own).to_owned()).collect(), can)
    }

    pub(super) fn that_can(files: MemoryFiles, can: Value) -> Self {
        Self::with(files, Vec::new(), can)
    }

    fn with(files: MemoryFiles, around: Vec<String>, can: Value) -> Self {
        let (connection, other) = Connection::memory();
        let serving = move || {
            let reach = Reach { files: &|_| Box::new(files.clone()), around: &|_| around.clone() };
            server::serve(&other, reach).expect("the server is greeted")
        };
        // As much stack as a command has.
        let thread = std::thread::Builder::new().stack_size(16 << 20).spawn(serving);
        let mut client = Self {
            connection,
            server: Some(thread.expect("a thread")),
            asked: 0,
            told: BTreeMap::new(),
            can: Value::Null,
            wanted: Vec::new(),
        };
        let greeting = json!({ "processId": null, "rootUri": null, "capabilities": can });
        client.can = client.ask("initialize", greeting)["capabilities"].clone();
        client.tell("initialized", json!({}));
        client
    }

    /// Asks, and waits for the answer.
    pub(super) fn ask(&mut self, method: &str, params: Value) -> Value {
        let refused = |(code, why): (i32, String)| panic!("{method}: {code} {why}");
        self.try_ask(method, params).unwrap_or_else(refused)
    }

    /// The same, of a question that may be refused.
    pub(super) fn try_ask(&mut self, method: &str, params: Value) -> Result<Value, (i32, String)> {
        let id = self.send(method, params);
        self.answer(id)
    }

    /// Asks without waiting.
    pub(super) fn send(&mut self, method: &str, params: Value) -> i32 {
        self.asked += 1;
        let request = Request::new(self.asked.into(), method.to_owned(), params);
        self.connection.sender.send(request.into()).expect("the server listens");
        self.asked
    }

    /// The answer to a question.
    pub(super) fn answer(&mut self, id: i32) -> Result<Value, (i32, String)> {
        loop {
            match self.connection.receiver.recv_timeout(PATIENCE).expect("an answer in time") {
                Message::Response(own) => {
                    assert_eq!(own.id, id.into());
                    return own.response_result.map_err(|error| (error.code, error.message));
                }
                Message::Notification(own) => self.hear(own),
                Message::Request(own) => self.wanted.push(own),
            }
        }
    }

    fn hear(&mut self, told: Notification) {
        assert_eq!(told.method, "textDocument/publishDiagnostics");
        let uri = told.params["uri"].as_str().expect("a uri").to_owned();
        self.told.insert(uri, told.params);
    }

    /// Tells the server something.
    pub(super) fn tell(&mut self, method: &str, params: Value) {
        let told = Notification::new(method.to_owned(), params);
        self.connection.sender.send(told.into()).expect("the server listens");
    }

    pub(super) fn open(&mut self, uri: &str, text: &str) {
        let document =
            json!({ "uri": uri, "languageId": "casewright", "version": 1, "text": text });
        self.tell("textDocument/didOpen", json!({ "textDocument": document }));
    }

    /// The whole text is another one.
    pub(super) fn rewrite(&mut self, uri: &str, version: i32, text: &str) {
        let document = json!({ "uri": uri, "version": version });
        let changes = json!([{ "text": text }]);
        let params = json!({ "textDocument": document, "contentChanges": changes });
        self.tell("textDocument/didChange", params);
    }

    /// The slugs of what is found in a file, once everything sent so far has been heard.
    pub(super) fn slugs(&mut self, uri: &str) -> Vec<String> {
        let all = self.findings(uri);
        all.iter().map(|own| own["code"].as_str().unwrap_or("").to_owned()).collect()
    }

    /// What is found in a file.
    pub(super) fn findings(&mut self, uri: &str) -> Vec<Value> {
        // Findings go out when nothing is left to answer; the second answer comes after them.
        for _ in 0..2 {
            self.ask("textDocument/foldingRange", json!({ "textDocument": { "uri": uri } }));
        }
        let told = self.told.get(uri).map(|told| told["diagnostics"].clone());
        told.and_then(|all| all.as_array().cloned()).unwrap_or_default()
    }

    /// Takes leave; the server ends in order.
    pub(super) fn leave(mut self) {
        assert_eq!(self.ask("shutdown", Value::Null), Value::Null);
        self.tell("exit", Value::Null);
        let server = self.server.take().expect("it runs");
        assert_eq!(server.join().expect("no fault"), Ended::Orderly);
    }
}

/// The place of a text in another, as the protocol counts: lines and UTF-16 units from
/// nought. A bar in it stands for the cursor.
pub(super) fn at(text: &str, wanted: &str) -> Value {
    let (before, after) = wanted.split_once('|').unwrap_or(("", wanted));
    let joined = [before, after].concat();
    let byte = text.find(&joined).unwrap_or_else(|| panic!("no {joined:?}")) + before.len();
    position(text, byte)
}

/// A byte of a text as the protocol counts.
pub(super) fn position(text: &str, byte: usize) -> Value {
    let head = &text[..byte];
    let line = head.matches('\n').count();
    let start = head.rfind('\n').map_or(0, |at| at + 1);
    let column: usize = head[start..].chars().map(char::len_utf16).sum();
    json!({ "line": line, "character": column })
}

/// The range of a text in another.
pub(super) fn range(text: &str, wanted: &str) -> Value {
    let byte = text.find(wanted).unwrap_or_else(|| panic!("no {wanted:?}"));
    json!({ "start": position(text, byte), "end": position(text, byte + wanted.len()) })
}

/// What a question about a place carries.
pub(super) fn place(uri: &str, position: Value) -> Value {
    json!({ "textDocument": { "uri": uri }, "position": position })
}

/// A text after edits, last first, as an editor makes them.
pub(super) fn edited(text: &str, edits: &Value) -> String {
    let mut edits: Vec<(usize, usize, String)> = edits
        .as_array()
        .expect("edits")
        .iter()
        .map(|edit| {
            let byte = |end: &str| byte(text, &edit["range"][end]);
            (byte("start"), byte("end"), edit["newText"].as_str().expect("a text").to_owned())
        })
        .collect();
    edits.sort();
    let mut new = text.to_owned();
    for (start, end, inserted) in edits.into_iter().rev() {
        new.replace_range(start..end, &inserted);
    }
    new
}

/// The byte of a place.
fn byte(text: &str, position: &Value) -> usize {
    let line = position["line"].as_u64().expect("a line") as usize;
    let column = position["character"].as_u64().expect("a column") as usize;
    let start: usize = text.split_inclusive('\n').take(line).map(str::len).sum();
    let mut left = column;
    for (at, letter) in text[start..].char_indices() {
        if left == 0 {
            return start + at;
        }
        left -= letter.len_utf16();
    }
    text.len()
}
