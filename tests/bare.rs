//! Each statement of the reference's short pieces without its braces: the piece can be built
//! all the same, or something is told. Never is a text called sound of which nothing comes.

use casewright::diagnostics::Severity;
use casewright::measure::FileId;
use casewright::syntax::{Block, Item};
use casewright::vocabulary::parse;

use crate::oracle::compile;

/// The braces of all statements, the outermost first.
fn blocks<'t>(items: &'t [Item], all: &mut Vec<&'t Block>) {
    for item in items {
        let Item::Statement(own) = item else { continue };
        if let Some(block) = &own.block {
            all.push(block);
            blocks(&block.items, all);
        }
    }
}

#[test]
fn what_stands_without_its_braces_is_built_or_told() {
    let folder = format!("{}/specs/examples", env!("CARGO_MANIFEST_DIR"));
    let mut tried = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let text = std::fs::read_to_string(entry.unwrap().path()).unwrap();
        let (tree, _) = parse(FileId(0), &text);
        let mut all = Vec::new();
        blocks(&tree.items, &mut all);
        for block in all {
            let mut bare = text.clone();
            bare.replace_range(block.open.range().start..block.close.range().end, "");
            let compiled = compile(&bare);
            let told = compiled.diagnostics.iter().any(|own| own.severity == Severity::Error);
            let built = compiled.is_sound() || !compiled.is_piece();
            assert!(built || told, "neither papers nor an error:\n{bare}");
            tried += 1;
        }
    }
    assert!(tried > 300, "{tried}");
}
