//! A text that is edited at random places while an editor asks about it: the server answers
//! each question, and knows at the end what it would know of the last text alone.

use std::thread;

use casewright::model::MemoryFiles;
use casewright::server::{self, Reach};
use lsp_server::{Connection, Message, Notification, Request};
use serde_json::{Value, json};

use super::places::tokens;

const URI: &str = "file:///jobs/a.case";
const DOCUMENT: &str = "textDocument";

/// What is asked of a place between two edits.
const ASKED: [&str; 6] =
    ["hover", "completion", "definition", "references", "prepareRename", "signatureHelp"];

/// A server, and an editor's end of it.
struct Session {
    connection: Connection,
    server: Option<thread::JoinHandle<()>>,
    asked: i32,
    /// What was told of the text last.
    told: Value,
}

impl Session {
    fn of(text: &str) -> Self {
        let (connection, other) = Connection::memory();
        let serving = move || {
            let files = MemoryFiles::default();
            let reach = Reach { files: &|_| Box::new(files.clone()), around: &|_| Vec::new() };
            server::serve(&other, reach).expect("the server is greeted");
        };
        let thread = thread::Builder::new().stack_size(16 << 20).spawn(serving);
        let server = Some(thread.expect("a thread"));
        let mut session = Self { connection, server, asked: 0, told: Value::Null };
        session.ask("initialize", json!({ "capabilities": {} }));
        session.tell("initialized", json!({}));
        let own = json!({ "uri": URI, "languageId": "casewright", "version": 1, "text": text });
        session.tell("textDocument/didOpen", json!({ DOCUMENT: own }));
        session
    }

    fn tell(&self, method: &str, params: Value) {
        let told = Notification::new(method.to_owned(), params);
        self.connection.sender.send(told.into()).expect("the server listens");
    }

    /// Asks; a question may be refused, but for a fault of the server's own.
    fn ask(&mut self, method: &str, params: Value) -> Value {
        self.asked += 1;
        let request = Request::new(self.asked.into(), method.to_owned(), params);
        self.connection.sender.send(request.into()).expect("the server listens");
        loop {
            match self.connection.receiver.recv().expect("an answer") {
                Message::Response(own) => match own.response_result {
                    Ok(answer) => return answer,
                    Err(error) => {
                        assert_ne!(error.code, -32603, "{method}: {}", error.message);
                        return Value::Null;
                    }
                },
                Message::Notification(own) => self.told = own.params["diagnostics"].clone(),
                Message::Request(own) => panic!("the server asks {}", own.method),
            }
        }
    }

    /// What is found in the text as it is now.
    fn findings(&mut self) -> Value {
        // Findings go out when nothing is left to answer; the second answer comes after them.
        for _ in 0..2 {
            self.ask("textDocument/foldingRange", json!({ DOCUMENT: { "uri": URI } }));
        }
        self.told.take()
    }

    fn leave(mut self) {
        self.ask("shutdown", Value::Null);
        self.tell("exit", Value::Null);
        self.server.take().expect("it runs").join().expect("no fault");
    }
}

/// Numbers that look random and are the same every time.
struct Draw(u64);

impl Draw {
    fn below(&mut self, most: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap_or(0) % most.max(1)
    }
}

/// Where a byte of a text stands, in UTF-16.
fn position(text: &str, byte: usize) -> Value {
    let before = &text[..byte];
    let line = before.rfind('\n').map_or(0, |newline| newline + 1);
    json!({ "line": before.matches('\n').count(),
            "character": before[line..].encode_utf16().count() })
}

/// Plays it: `seed` says which edits are made. A text with carriage returns is left, whose
/// lines the editor's side here would count wrong.
pub(crate) fn typed(text: &str, seed: u64) {
    if text.contains('\r') {
        return;
    }
    let mut draw = Draw(seed);
    let mut text = text.to_owned();
    let mut session = Session::of(&text);
    for version in 2..12 {
        let all = tokens(&text);
        let place = all.get(draw.below(all.len())).cloned().unwrap_or(0..0);
        let other = all.get(draw.below(all.len())).map_or("", |other| &text[other.clone()]);
        let new = match draw.below(5) {
            0 => String::new(),
            1 => format!("{}{other}", &text[place.clone()]),
            2 => ["{", "}", "\"", "#", "\n", ";", "é", "𝄞"][draw.below(8)].to_owned(),
            3 => text[place.clone()].chars().rev().collect(),
            _ => other.to_owned(),
        };
        let range = json!({ "start": position(&text, place.start),
                            "end": position(&text, place.end) });
        let change = json!([{ "range": range, "text": new }]);
        let own = json!({ "uri": URI, "version": version });
        let params = json!({ DOCUMENT: own, "contentChanges": change });
        session.tell("textDocument/didChange", params);
        text.replace_range(place.clone(), &new);
        let here = position(&text, place.start + new.len());
        let method = format!("textDocument/{}", ASKED[draw.below(ASKED.len())]);
        let mut params = json!({ DOCUMENT: { "uri": URI }, "position": here });
        params["context"] = json!({ "includeDeclaration": true, "triggerKind": 1 });
        session.ask(&method, params);
        let params = json!({ DOCUMENT: { "uri": URI }, "context": { "diagnostics": [] },
                             "range": { "start": here, "end": here } });
        session.ask("textDocument/codeAction", params);
    }
    let told = session.findings();
    session.leave();
    let mut fresh = Session::of(&text);
    assert_eq!(told, fresh.findings(), "{text}");
    fresh.leave();
}
