//! Each statement of the reference's short pieces without its braces: the piece can be built
//! all the same, or something is told. Never is a text called sound of which nothing comes.

use casewright::diagnostics::Severity;
use casewright::measure::FileId;
use casewright::papers::EXAMPLES;
use casewright::syntax::{Block, Item};
use casewright::vocabulary::parse;

use crate::support::compile_example;

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
    let (mut told, mut built) = (0, 0);
    for example in EXAMPLES {
        assert!(compile_example(example.text).is_sound(), "{}", example.slug);
        let (tree, _) = parse(FileId(0), example.text);
        let mut all = Vec::new();
        blocks(&tree.items, &mut all);
        for block in all {
            let mut bare = example.text.to_owned();
            bare.replace_range(block.open.range().start..block.close.range().end, "");
            let compiled = compile_example(&bare);
            let is_told = compiled.diagnostics.iter().any(|own| own.severity == Severity::Error);
            assert_ne!(compiled.is_sound(), is_told, "neither papers nor an error:\n{bare}");
            *(if is_told { &mut told } else { &mut built }) += 1;
        }
    }
    assert!(told > 300 && built > 100, "{told} told, {built} built");
}
