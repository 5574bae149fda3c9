//! What a maker looks up at the desk: a choice, a figure, a file, a name anywhere, and how a
//! warning is accepted.

use casewright::model::MemoryFiles;
use serde_json::{Value, json};

use super::client::{Client, at, edited, place, range};
use crate::oracle::compile;
use crate::support::spec;

const URI: &str = "file:///jobs/first.case";

fn opened(text: &str) -> Client {
    let mut client = Client::over(MemoryFiles::default());
    client.open(URI, text);
    client
}

/// 36 in are 36 × 25.4 = 914.4 mm; 35 mm are 35 / 25.4 = 1.3779… in.
#[test]
fn a_choice_tells_what_it_means_and_a_figure_what_it_comes_to() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let mut said = |here: &str| {
        let told = client.ask("textDocument/hover", place(URI, at(&text, here)));
        told["contents"]["value"].as_str().unwrap_or_default().to_owned()
    };
    assert!(said("set in|set").starts_with("`inset` of `set`: "));
    assert_eq!(said("wide 3|6; deep"), "36 in = 914.4 mm\n");
    assert_eq!(said("cup 3|5 mm"), "1.378≈ in = 35 mm\n");
    client.leave();
}

/// The actions offered at the end of the line on which this stands.
fn actions(client: &mut Client, text: &str, here: &str) -> Vec<Value> {
    let line = at(text, here)["line"].as_u64().unwrap();
    let end = text.lines().nth(usize::try_from(line).unwrap()).unwrap().len();
    let place = json!({ "line": line, "character": end });
    let params = json!({ "textDocument": { "uri": URI }, "context": { "diagnostics": [] },
                         "range": { "start": place, "end": place } });
    client.ask("textDocument/codeAction", params).as_array().unwrap().clone()
}

/// With the cursor at the end of the line the slip in its middle is mended, and the message
/// itself says how.
#[test]
fn a_mend_is_offered_anywhere_in_its_line() {
    let text = spec("first.case").replacen("wide 36", "wdie 36", 1);
    let mut client = opened(&text);
    let all = actions(&mut client, &text, "wdi|e");
    let edits = &all[0]["edit"]["documentChanges"][0]["edits"];
    assert_eq!(edited(&text, edits), spec("first.case"));
    let found = client.findings(URI);
    assert_eq!(found.len(), 1, "{found:#?}");
    let told = found[0]["message"].as_str().unwrap();
    assert!(told.contains("mend: ") && told.contains("wide"), "{told}");
    client.leave();
}

/// The two leaves swell by more than the 1/8 between them: that may be accepted, with a reason.
#[test]
fn a_warning_is_accepted_with_a_reason() {
    let text = spec("first.case").replacen("meeting 3/16", "meeting 1/8", 1);
    let mut client = opened(&text);
    let all = actions(&mut client, &text, "meetin|g 1/8");
    let accepts = |own: &&Value| own["title"].as_str().unwrap().starts_with("accept it on ");
    let action = all.iter().find(accepts).expect("it can be accepted");
    let edits = &action["edit"]["documentChanges"][0]["edits"];
    let blank = edited(&text, edits);
    let found = |text: &str| {
        let compiled = compile(text);
        (compiled.diagnostics.len(), compiled.accepted.len())
    };
    // Until the reason is written, nothing is silenced.
    assert_eq!(found(&blank), (1, 0));
    assert_eq!(found(&blank.replacen("your reason", "a dry room", 1)), (0, 1));
    // Behind the name of a case stands what is in it.
    let asked = format!("{text}accept gap-closes on cupboard.\n");
    client.rewrite(URI, 2, &asked);
    let offers = client.ask("textDocument/completion", place(URI, at(&asked, "on cupboard.|")));
    let told: Vec<&str> =
        offers.as_array().unwrap().iter().map(|own| own["label"].as_str().unwrap()).collect();
    assert_eq!(told, ["cupboard.store", "cupboard.upper"]);
    client.leave();
}

#[test]
fn a_name_is_found_from_anywhere() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let all = client.ask("workspace/symbol", json!({ "query": "Stor" }));
    let [one] = all.as_array().unwrap().as_slice() else { panic!("{all:#?}") };
    assert_eq!((&one["name"], &one["containerName"]), (&json!("store"), &json!("cupboard")));
    assert_eq!(one["location"], json!({ "uri": URI, "range": range(&text, "store") }));
    // Beside the name stands what it is.
    let outline =
        client.ask("textDocument/documentSymbol", json!({ "textDocument": { "uri": URI } }));
    assert_eq!(outline[8]["children"][1]["detail"], "doors");
    client.leave();
}

#[test]
fn a_used_file_is_opened_and_offered() {
    let text = spec("first.case").replacen("\njob", "\nuse \"shop.case\"\n\njob", 1);
    let files = MemoryFiles::one("/jobs/shop.case", "stock spare { plywood 3/4 }\n");
    let around = ["/jobs/first.case", "/jobs/shop.case", "/jobs/hinges.case"];
    let mut client = Client::among(files, &around);
    client.open(URI, &text);
    let given = client.ask("textDocument/definition", place(URI, at(&text, "\"sho|p.case")));
    assert_eq!(given["uri"], "file:///jobs/shop.case");
    assert_eq!(given["range"]["start"], json!({ "line": 0, "character": 0 }));
    // What it uses already is not offered again, nor the spec itself.
    let more = text.replacen("\njob", "\nuse \"h\"\njob", 1);
    client.rewrite(URI, 2, &more);
    let offers = client.ask("textDocument/completion", place(URI, at(&more, "use \"h|\"")));
    let [offer] = offers.as_array().unwrap().as_slice() else { panic!("{offers:#?}") };
    assert_eq!(offer["label"], "hinges.case");
    let new = edited(&more, &json!([offer["textEdit"]]));
    assert!(new.contains("use \"hinges.case\"\n"), "{new}");
    client.leave();
}
