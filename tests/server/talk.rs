//! How the two talk: greeting, changes, withdrawing, and taking leave.

use casewright::model::MemoryFiles;
use proptest::prelude::*;
use serde_json::{Value, json};

use super::client::{Client, at, place, position, range};
use crate::support::spec;

const URI: &str = "file:///jobs/first.case";

fn opened() -> (Client, String) {
    let text = spec("first.case");
    let mut client = Client::over(MemoryFiles::default());
    client.open(URI, &text);
    (client, text)
}

#[test]
fn it_greets_and_takes_leave() {
    let (client, _) = opened();
    assert_eq!(client.can["positionEncoding"], "utf-16");
    // 2 is incremental.
    assert_eq!(client.can["textDocumentSync"]["change"], 2);
    client.leave();
}

/// "-32601 Method not found" and "-32602 Invalid params" (JSON-RPC 2.0, section 5.1).
#[test]
fn what_it_does_not_know_is_refused() {
    let (mut client, text) = opened();
    let refused = client.try_ask("textDocument/moniker", place(URI, at(&text, "case cup")));
    assert_eq!(refused.unwrap_err().0, -32601);
    let refused = client.try_ask("textDocument/hover", json!({ "textDocument": 3 }));
    assert_eq!(refused.unwrap_err().0, -32602);
    client.tell("$/setTrace", json!({ "value": "off" }));
    client.leave();
}

/// "-32800 request cancelled" (Language Server Protocol 3.17, *Implementation considerations*).
#[test]
fn a_question_may_be_withdrawn() {
    let (mut client, text) = opened();
    // While the server looks at this, the rest comes in together.
    let first = client.send("textDocument/hover", place(URI, at(&text, "wide 36")));
    let second = client.send("textDocument/hover", place(URI, at(&text, "deep 18")));
    client.tell("$/cancelRequest", json!({ "id": second }));
    assert!(client.answer(first).is_ok());
    // It may have been answered before it was withdrawn.
    if let Err((code, _)) = client.answer(second) {
        assert_eq!(code, -32800);
    }
    client.leave();
}

#[test]
fn after_its_end_it_answers_nothing() {
    let (mut client, text) = opened();
    client.ask("shutdown", Value::Null);
    let refused = client.try_ask("textDocument/hover", place(URI, at(&text, "wide 36")));
    assert_eq!(refused.unwrap_err().0, -32600);
}

#[test]
fn an_edit_breaks_the_piece_and_another_mends_it() {
    let (mut client, text) = opened();
    assert_eq!(client.slugs(URI), Vec::<String>::new());
    let change = |version: i32, text: &str, range: Value| {
        json!({
            "textDocument": { "uri": URI, "version": version },
            "contentChanges": [{ "range": range, "text": text }],
        })
    };
    let wide = range(&text, "stock ply  ");
    client.tell("textDocument/didChange", change(2, "stock plx  ", wide.clone()));
    assert!(client.slugs(URI).contains(&"name-unknown".to_owned()), "{:?}", client.slugs(URI));
    assert_eq!(client.told[URI]["version"], 2);
    client.tell("textDocument/didChange", change(3, "stock ply  ", wide));
    assert_eq!(client.slugs(URI), Vec::<String>::new());
    client.leave();
}

/// A text in any script, changed bit by bit, is the one that the editor has.
#[derive(Clone, Debug)]
struct Change {
    from: usize,
    to: usize,
    text: String,
}

fn changes() -> impl Strategy<Value = Vec<Change>> {
    let text = "[a-c \n\u{e9}\u{65e5}\u{1f600}\"{};#]{0,6}";
    let one = (any::<usize>(), any::<usize>(), text);
    prop::collection::vec(one.prop_map(|(from, to, text)| Change { from, to, text }), 1..12)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]
    #[test]
    fn what_is_changed_bit_by_bit_is_what_the_editor_has(changes in changes()) {
        let mut text = String::from("# \u{1f600} h\u{e9}\ncase a {\n  wide 3 # \u{65e5}\u{672c}\n}\n");
        let mut client = Client::over(MemoryFiles::default());
        client.open(URI, &text);
        for (version, change) in changes.into_iter().enumerate() {
            let places: Vec<usize> =
                text.char_indices().map(|(at, _)| at).chain([text.len()]).collect();
            let (one, two) = (places[change.from % places.len()], places[change.to % places.len()]);
            let (from, to) = (one.min(two), one.max(two));
            let range = json!({ "start": position(&text, from), "end": position(&text, to) });
            text.replace_range(from..to, &change.text);
            client.tell("textDocument/didChange", json!({
                "textDocument": { "uri": URI, "version": version + 2 },
                "contentChanges": [{ "range": range, "text": change.text }],
            }));
        }
        // The whole text comes back where a layout is asked for of one that has another.
        let marked = format!("{text}\n# end");
        client.open("untitled:whole", &marked);
        let folds = client.ask("textDocument/foldingRange", json!({ "textDocument": { "uri": URI } }));
        let mut fresh = Client::over(MemoryFiles::default());
        fresh.open(URI, &text);
        prop_assert_eq!(client.findings(URI), fresh.findings(URI));
        let again = fresh.ask("textDocument/foldingRange", json!({ "textDocument": { "uri": URI } }));
        prop_assert_eq!(folds, again);
        client.leave();
        fresh.leave();
    }
}
