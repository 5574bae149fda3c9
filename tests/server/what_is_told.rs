//! What each question is answered, with figures worked by hand.

use casewright::model::MemoryFiles;
use serde_json::{Value, json};

use super::client::{Client, at, edited, place, range};
use crate::support::spec;

const URI: &str = "file:///jobs/first.case";

fn opened(text: &str) -> Client {
    let mut client = Client::over(MemoryFiles::default());
    client.open(URI, text);
    client
}

/// The names in a list of what is offered.
fn labels(offers: &Value) -> Vec<&str> {
    offers.as_array().unwrap().iter().map(|own| own["label"].as_str().unwrap()).collect()
}

/// The sides leave 36 − 1-3/4 − 1-3/4 = 32-1/2 between them. The case of 34-1/2 stands on 4
/// of base; the rails of 1-1/2 above, below, and between, and the drawer of 5, leave
/// 34-1/2 − 4 − 4-1/2 − 5 = 21 for the doors.
#[test]
fn a_name_tells_its_sizes_and_why() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let told = client.ask("textDocument/hover", place(URI, at(&text, "sto|re { share")));
    let said = told["contents"]["value"].as_str().unwrap();
    for line in ["32-1/2 in", "+ 36 ", "21 in", "34-1/2", " first.case:34  wide 36"] {
        assert!(said.contains(line), "{line}: {said}");
    }
    assert_eq!(told["range"], range(&text, "store"));
    assert_eq!(told["contents"]["kind"], "markdown");
    client.leave();
}

/// What is bought of a stock of boards stands at its name.
#[test]
fn a_stock_of_boards_tells_what_is_bought() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let told = client.ask("textDocument/hover", place(URI, at(&text, "stock map|le ")));
    let said = told["contents"]["value"].as_str().unwrap();
    for line in ["boards", "they come to", " board feet", "by rule of thumb"] {
        assert!(said.contains(line), "{line}: {said}");
    }
    client.leave();
}

#[test]
fn a_word_tells_its_help_its_default_and_an_example() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let told = client.ask("textDocument/hover", place(URI, at(&text, "ker|f 1/8")));
    let said = told["contents"]["value"].as_str().unwrap();
    for piece in ["`kerf` in `shop`", "Without it: `1/8 in`", "Example: "] {
        assert!(said.contains(piece), "{piece}: {said}");
    }
    client.leave();
}

/// An editor that shows no Markdown gets none.
#[test]
fn plain_text_is_told_where_no_markdown_is_shown() {
    let text = spec("first.case");
    let mut client = Client::that_can(MemoryFiles::default(), json!({}));
    client.open(URI, &text);
    let told = client.ask("textDocument/hover", place(URI, at(&text, "ker|f 1/8")));
    assert_eq!(told["contents"]["kind"], "plaintext");
    assert!(!told["contents"]["value"].as_str().unwrap().contains('`'));
    client.leave();
}

#[test]
fn sizes_stand_behind_the_names() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let whole = json!({ "start": at(&text, "casework"), "end": at(&text, "finish oil\n") });
    let params = json!({ "textDocument": { "uri": URI }, "range": whole });
    let hints = client.ask("textDocument/inlayHint", params);
    let told: Vec<(&Value, &str)> = hints
        .as_array()
        .unwrap()
        .iter()
        .map(|own| (&own["position"], own["label"].as_str().unwrap()))
        .collect();
    let behind = |name: &str| range(&text, name)["end"].clone();
    let (case, upper, store) = (behind("cupboard"), behind("upper"), behind("store"));
    let expected = [(&case, "36 × 34-1/2"), (&upper, "32-1/2 × 5"), (&store, "32-1/2 × 21")];
    assert_eq!(told, expected);
    client.leave();
}

/// `high 5` and `high 50`: the rails, the base, and the drawer take more than there is.
#[test]
fn a_broken_piece_is_told_with_its_sum_and_mended_by_an_action() {
    let text =
        spec("first.case").replacen("drawer upper { high 5 }", "drawer upper { high 50 }", 1);
    let mut client = opened(&text);
    let all = client.findings(URI);
    let found = all.iter().find(|own| own["severity"] == 1).expect("an error");
    assert_eq!(found["source"], "casewright");
    let message = found["message"].as_str().unwrap();
    assert!(message.lines().count() > 1 && message.contains("34-1/2"), "{message}");
    let places = found["relatedInformation"].as_array().unwrap();
    let told: Vec<&str> = places.iter().map(|own| own["message"].as_str().unwrap()).collect();
    assert!(told.contains(&"high 50"), "{told:?}");
    let params = json!({
        "textDocument": { "uri": URI },
        "range": found["range"],
        "context": { "diagnostics": [found] },
    });
    let actions = client.ask("textDocument/codeAction", params);
    let actions = actions.as_array().unwrap();
    assert!(!actions.is_empty());
    let mended = actions.iter().any(|action| {
        assert_eq!(action["kind"], "quickfix");
        let change = &action["edit"]["documentChanges"][0];
        assert_eq!(change["textDocument"], json!({ "uri": URI, "version": 1 }));
        let mut other = opened(&edited(&text, &change["edits"]));
        let sound = other.findings(URI).iter().all(|own| own["severity"] != 1);
        other.leave();
        sound
    });
    assert!(mended, "{actions:#?}");
    client.leave();
}

/// A letter too many in a word has one mend that is sure: `wdie` can only be `wide`.
#[test]
fn all_sure_mends_are_made_at_once() {
    let text =
        spec("first.case").replacen("wide 36", "wdie 36", 1).replacen("deep 18", "depe 18", 1);
    let mut client = opened(&text);
    assert!(client.slugs(URI).len() >= 2);
    let params = json!({
        "textDocument": { "uri": URI },
        "range": { "start": at(&text, "casework"), "end": at(&text, "casework") },
        "context": { "diagnostics": [], "only": ["source.fixAll"] },
    });
    let actions = client.ask("textDocument/codeAction", params);
    let [action] = actions.as_array().unwrap().as_slice() else { panic!("{actions:#?}") };
    assert_eq!(action["kind"], "source.fixAll");
    let edits = &action["edit"]["documentChanges"][0]["edits"];
    assert_eq!(edited(&text, edits), spec("first.case"));
    client.leave();
}

#[test]
fn a_name_leads_to_where_it_is_given_and_used() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let asked = at(&text, "pull kn|ob\n");
    let given = client.ask("textDocument/definition", place(URI, asked.clone()));
    assert_eq!(given, json!({ "uri": URI, "range": range(&text, "knob") }));
    let mut params = place(URI, asked.clone());
    params["context"] = json!({ "includeDeclaration": true });
    let used = client.ask("textDocument/references", params);
    assert_eq!(used.as_array().unwrap().len(), text.matches("knob").count());
    let shown = client.ask("textDocument/documentHighlight", place(URI, asked));
    assert_eq!(shown.as_array().unwrap().len(), text.matches("knob").count());
    client.leave();
}

#[test]
fn another_name_is_given_everywhere() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let asked = at(&text, "slide run|ner\n");
    let named = client.ask("textDocument/prepareRename", place(URI, asked.clone()));
    assert_eq!(named["placeholder"], "runner");
    let mut params = place(URI, asked);
    params["newName"] = json!("under-15");
    let edit = client.ask("textDocument/rename", params.clone());
    let new = edited(&text, &edit["documentChanges"][0]["edits"]);
    assert_eq!(new, text.replace("slide runner", "slide under-15"));
    params["newName"] = json!("15 under");
    let (code, why) = client.try_ask("textDocument/rename", params).unwrap_err();
    assert_eq!(code, -32803);
    assert!(why.contains("begins with a letter"), "{why}");
    client.leave();
}

/// What a shared file names, both specs that use it take by its new name, though only one
/// of them was asked.
#[test]
fn a_shared_file_is_followed_by_all_that_use_it() {
    let shared = "stock ply { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
    let own = "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
    let text =
        spec("first.case").replace(own, "").replacen("\njob", "\nuse \"shop.case\"\n\njob", 1);
    let files = MemoryFiles::one("/jobs/shop.case", shared);
    let mut client = Client::over(files);
    let (one, two, shop) =
        ("file:///jobs/one.case", "file:///jobs/two.case", "file:///jobs/shop.case");
    client.open(one, &text);
    client.open(two, &text);
    assert_eq!(client.slugs(one), Vec::<String>::new());
    let mut params = place(one, at(&text, "stock p|ly   "));
    let given = client.ask("textDocument/definition", params.clone());
    assert_eq!(given, json!({ "uri": shop, "range": range(shared, "ply") }));
    params["newName"] = json!("birch");
    let edit = client.ask("textDocument/rename", params);
    let changes = edit["documentChanges"].as_array().unwrap();
    let mut files: Vec<&str> =
        changes.iter().map(|own| own["textDocument"]["uri"].as_str().unwrap()).collect();
    files.sort_unstable();
    assert_eq!(files, [one, shop, two]);
    for change in changes {
        let (old, uses) = match change["textDocument"]["uri"].as_str().unwrap() {
            uri if uri == shop => (shared, 1),
            _ => (text.as_str(), 2),
        };
        assert_eq!(edited(old, &change["edits"]).matches("birch").count(), uses);
    }
    // As soon as the shared file is open and is another, both specs hear of it.
    client.open(shop, &shared.replace("stock ply", "stock birch"));
    for spec in [one, two] {
        assert!(
            client.slugs(spec).contains(&"name-unknown".to_owned()),
            "{:?}",
            client.slugs(spec)
        );
    }
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": shop } }));
    assert_eq!(client.slugs(one), Vec::<String>::new());
    client.leave();
}

/// A mark that no file explains any more is taken away.
#[test]
fn a_closed_file_keeps_no_marks() {
    let text = spec("first.case").replacen("wide 36", "wdie 36", 1);
    let mut client = opened(&text);
    assert!(!client.findings(URI).is_empty());
    client.tell("textDocument/didClose", json!({ "textDocument": { "uri": URI } }));
    assert_eq!(client.findings(URI), Vec::<Value>::new());
    client.leave();
}

#[test]
fn what_may_be_written_is_offered_in_place_of_what_is_typed() {
    let text = spec("first.case").replacen("hinge cup-hinge; pull knob", "hinge c", 1);
    let mut client = opened(&text);
    let offers = client.ask("textDocument/completion", place(URI, at(&text, "hinge c|\n")));
    assert_eq!(labels(&offers), ["cup-hinge"]);
    let edit = &offers[0]["textEdit"];
    let new = edited(&text, &json!([edit]));
    assert!(new.contains("hinge cup-hinge\n"), "{new}");
    // In a block, its words; with help for each.
    let offers = client.ask("textDocument/completion", place(URI, at(&text, "  |finish oil\n}")));
    let all = labels(&offers);
    assert!(all.contains(&"partitions") && !all.contains(&"bottom"), "{all:?}");
    assert!(offers.as_array().unwrap().iter().all(|own| !own["documentation"].is_null()));
    // A space at the start of a line asks for nothing.
    let mut params = place(URI, at(&text, "  |finish oil\n}"));
    params["context"] = json!({ "triggerKind": 2, "triggerCharacter": " " });
    assert_eq!(client.ask("textDocument/completion", params), Value::Null);
    // Behind a brace it asks for what may stand there.
    let mut params = place(URI, at(&text, "base { |toe-kick"));
    params["context"] = json!({ "triggerKind": 2, "triggerCharacter": " " });
    let offers = client.ask("textDocument/completion", params);
    assert!(labels(&offers).contains(&"toe-kick"));
    client.leave();
}

#[test]
fn a_statement_tells_what_comes_next() {
    let text = spec("first.case").replacen("cure 24 h }\n\ncase", "cure  }\n\ncase", 1);
    let mut client = opened(&text);
    let told = client.ask("textDocument/signatureHelp", place(URI, at(&text, "cure | }\n\ncase")));
    assert_eq!(told["signatures"][0]["label"], "cure time");
    assert_eq!(told["activeParameter"], 0);
    let text = spec("first.case");
    client.rewrite(URI, 2, &text);
    let told = client.ask("textDocument/signatureHelp", place(URI, at(&text, "30% |to 55%")));
    assert_eq!(told["signatures"][0]["label"], "humidity percent to percent");
    client.leave();
}

#[test]
fn the_outline_nests_as_the_text_does() {
    let text = spec("first.case");
    let mut client = opened(&text);
    let all = client.ask("textDocument/documentSymbol", json!({ "textDocument": { "uri": URI } }));
    let names: Vec<&str> =
        all.as_array().unwrap().iter().map(|own| own["name"].as_str().unwrap()).collect();
    let stocks = ["ply", "thin", "maple", "box-side", "cup-hinge", "runner", "knob", "oil"];
    assert_eq!(names, [&stocks[..], &["cupboard"]].concat());
    let case = &all[8];
    let inner: Vec<&str> = case["children"]
        .as_array()
        .unwrap()
        .iter()
        .map(|own| own["name"].as_str().unwrap())
        .collect();
    assert_eq!(inner, ["upper", "store"]);
    client.leave();
}

#[test]
fn blocks_and_comments_fold_down_to_their_braces() {
    let text = "# one\n# two\ncasework 1\ncase a {\n  wide 3\n  base {\n    high 4\n  }\n}\n";
    let mut client = opened(text);
    let folds = client.ask("textDocument/foldingRange", json!({ "textDocument": { "uri": URI } }));
    let folds: Vec<(u64, u64)> = folds
        .as_array()
        .unwrap()
        .iter()
        .map(|own| (own["startLine"].as_u64().unwrap(), own["endLine"].as_u64().unwrap()))
        .collect();
    assert_eq!(folds, [(0, 1), (3, 7), (5, 6)]);
    client.leave();
}

/// Letters of two units and of two bytes shift no color: `# 😀` is 4 units, `"é"` is 3.
#[test]
fn colors_count_as_the_editor_does() {
    let text = "# \u{1f600}\ncasework 1\njob \"\u{e9}\" { units mm } # \u{1f600}\n";
    let mut client = opened(text);
    let params = json!({ "textDocument": { "uri": URI } });
    let told = client.ask("textDocument/semanticTokens/full", params);
    let legend = &client.can["semanticTokensProvider"]["legend"]["tokenTypes"];
    let data: Vec<u64> =
        told["data"].as_array().unwrap().iter().map(|own| own.as_u64().unwrap()).collect();
    let (mut line, mut column) = (0, 0);
    let mut all = Vec::new();
    for token in data.chunks(5) {
        column = if token[0] == 0 { column + token[1] } else { token[1] };
        line += token[0];
        let kind = legend[token[3] as usize].as_str().unwrap();
        all.push((line, column, token[2], kind));
    }
    let expected = [
        (0, 0, 4, "comment"),
        (1, 0, 8, "keyword"),
        (1, 9, 1, "number"),
        (2, 0, 3, "keyword"),
        (2, 4, 3, "string"),
        (2, 10, 5, "keyword"),
        (2, 16, 2, "enumMember"),
        (2, 21, 4, "comment"),
    ];
    assert_eq!(all, expected);
    client.leave();
}

#[test]
fn the_layout_is_that_of_the_command() {
    let text = spec("first.case").replace("  wide 36; deep 18;", "      wide    36;deep 18;");
    let mut client = opened(&text);
    let params = json!({
        "textDocument": { "uri": URI },
        "options": { "tabSize": 8, "insertSpaces": false },
    });
    let edits = client.ask("textDocument/formatting", params.clone());
    assert_eq!(edited(&text, &edits), spec("first.case"));
    // One line is changed, and one line is sent.
    let lines = edits[0]["newText"].as_str().unwrap().lines().count();
    assert_eq!((edits.as_array().unwrap().len(), lines), (1, 1));
    // What can't be read is left alone.
    client.rewrite(URI, 2, "case {{{");
    assert_eq!(client.ask("textDocument/formatting", params), Value::Null);
    client.leave();
}

/// While the piece can't be built, the sizes are those that still hold, or those of before.
#[test]
fn the_last_sound_piece_stays_at_hand() {
    let text = spec("first.case");
    let mut client = opened(&text);
    client.ask("textDocument/hover", place(URI, at(&text, "upp|er")));
    let broken = text.replacen("drawer upper { high 5 }", "drawer upper { high  }", 1);
    client.rewrite(URI, 2, &broken);
    let told = client.ask("textDocument/hover", place(URI, at(&broken, "sto|re { share")));
    let said = told["contents"]["value"].as_str().unwrap();
    assert!(said.contains("32-1/2 in"), "{said}");
    client.leave();
}

/// A path with a space and a letter of two bytes, written out either way, is one file.
#[test]
fn paths_are_one_however_they_are_written_out() {
    let text = spec("first.case").replacen("wide 36", "wdie 36", 1);
    let mut client = Client::over(MemoryFiles::default());
    client.open("file:///my%20jobs/ch%C3%AAne.case", &text);
    let asked = place("file:///my%20jobs/./ch%c3%aane.case", at(&text, "ker|f 1/8"));
    assert!(client.ask("textDocument/hover", asked)["contents"]["value"].is_string());
    assert!(!client.findings("file:///my%20jobs/ch%C3%AAne.case").is_empty());
    client.leave();
}

/// A name of a shared file changes in a spec beside it too that is not open.
#[test]
fn a_closed_spec_is_followed_too() {
    let shared = "stock ply { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
    let own = "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }\n";
    let text =
        spec("first.case").replace(own, "").replacen("\njob", "\nuse \"shop.case\"\n\njob", 1);
    let files = MemoryFiles::one("/jobs/shop.case", shared)
        .with("/jobs/one.case", &text)
        .with("/jobs/two.case", &text);
    let around = ["/jobs/one.case", "/jobs/shop.case", "/jobs/two.case"];
    for open in ["one.case", "shop.case"] {
        let mut client = Client::among(files.clone(), &around);
        let uri = format!("file:///jobs/{open}");
        let opened = if open == "one.case" { text.as_str() } else { shared };
        client.open(&uri, opened);
        // A shared file has no job and no case, and lacks nothing.
        assert_eq!(client.slugs(&uri), Vec::<String>::new());
        let mut params = place(&uri, at(opened, "stock p|ly "));
        params["context"] = json!({ "includeDeclaration": true });
        let used = client.ask("textDocument/references", params.clone());
        assert_eq!(used.as_array().unwrap().len(), 5, "{used:#?}");
        params["newName"] = json!("birch");
        let edit = client.ask("textDocument/rename", params);
        assert_eq!(edit["documentChanges"].as_array().unwrap().len(), 3, "{edit:#?}");
        client.leave();
    }
}

/// A mistake in a used file is told at the `use` of the spec, too.
#[test]
fn a_spec_with_a_broken_file_is_marked() {
    let text = spec("first.case").replacen("\njob", "\nuse \"shop.case\"\n\njob", 1);
    let files = MemoryFiles::one("/jobs/shop.case", "stock spare { plywod 3/4 }\n");
    let mut client = Client::over(files);
    client.open(URI, &text);
    let found = client.findings(URI);
    let [used] = found.as_slice() else { panic!("{found:#?}") };
    assert_eq!(used["range"], range(&text, "\"shop.case\""));
    let message = used["message"].as_str().unwrap();
    assert!(message.contains("shop.case has") && message.contains("plywod"), "{message}");
    client.leave();
}
