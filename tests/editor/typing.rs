//! Where a cursor stands and what is offered there, whatever the braces.

use std::collections::BTreeSet;

use casewright::editor::{self, Hover, Names, OfferKind, context};
use casewright::measure::{FileId, Unit};
use casewright::papers::{EXAMPLES, SHARED};
use casewright::vocabulary::{self, Step};

use crate::support::{compile, spec};

const SPECS: [&str; 4] =
    ["hall-console.case", "first.case", "tide-cottage-press.case", "alcove-shelves.case"];

/// Every statement of a text as its tree has it: where it begins, and the block
/// it stands in.
fn statements(text: &str) -> Vec<(u32, &'static str)> {
    let (tree, found) = vocabulary::parse(FileId(0), text);
    assert!(found.is_empty());
    let mut all = Vec::new();
    vocabulary::walk(&tree, Unit::Inch, &mut |step| {
        if let Step::Word { block, statement, .. } = step {
            all.push((statement.word.span.start, block.name));
        }
    });
    all
}

fn block(text: &str, byte: u32) -> Option<&'static str> {
    context(text, byte, Unit::Inch).block.map(|block| block.name)
}

#[test]
fn the_block_of_a_cursor_is_that_of_the_tree() {
    for name in SPECS {
        let text = spec(name);
        for (start, home) in statements(&text) {
            // Before the word, in it, and where the text ends there.
            for at in [start, start + 1] {
                assert_eq!(block(&text, at), Some(home), "{name}:{at}");
            }
        }
    }
}

/// A text that is typed from its top ends within its blocks.
#[test]
fn the_block_is_known_while_the_rest_is_not_written() {
    for name in SPECS {
        let text = spec(name);
        for (start, home) in statements(&text) {
            let typed = &text[..start as usize];
            // On a line of its own the word is not there yet, and nothing tells
            // of the braces before it but themselves.
            assert_eq!(block(typed, start), Some(home), "{name}:{start}");
        }
    }
}

/// One closing brace is missing: what stands behind it is still where it was.
#[test]
fn a_missing_brace_is_told_by_the_indentation() {
    let mut tried = 0;
    for name in SPECS {
        let text = spec(name);
        let all = statements(&text);
        let alone = text.match_indices('}').filter(|(at, _)| {
            let line = text[..*at].rsplit('\n').next().unwrap();
            line.trim().is_empty()
        });
        for (brace, _) in alone {
            let mut without = text.clone();
            without.replace_range(brace..=brace, " ");
            for (start, home) in all.iter().filter(|(start, _)| *start as usize > brace) {
                // Behind the word, which tells where it belongs; or at its end.
                let word = &without[*start as usize..];
                let len = word.find(|c: char| !c.is_ascii_alphanumeric() && c != '-').unwrap();
                let space = u32::from(word[len..].starts_with(' '));
                let behind = start + len as u32 + space;
                assert_eq!(block(&without, behind), Some(*home), "{name}: brace {brace}, {start}");
                tried += 1;
            }
        }
    }
    assert!(tried > 100, "{tried}");
}

/// A closing brace too many, on a line of its own: what follows is where it was.
#[test]
fn a_stray_brace_is_told_by_the_indentation() {
    let text = spec("hall-console.case");
    let stray = text.replace("  base   {", "  }\n  base   {");
    let at = |text: &str, word: &str| text.find(word).unwrap() as u32;
    for (word, home) in [("ends   {", "case"), ("partitions {", "case"), ("frame {", "case")] {
        let start = at(&stray, word);
        let behind = start + word.find(' ').unwrap() as u32 + 1;
        assert_eq!(block(&stray, behind), Some(home), "{word}");
    }
}

/// What is offered at the mark `|` of a text.
fn offered(text: &str) -> (BTreeSet<String>, BTreeSet<OfferKind>) {
    let at = text.find('|').unwrap();
    let text = text.replace('|', "");
    let names = Names::of(&compile(&text));
    let context = context(&text, at as u32, Unit::Inch);
    let offers = editor::offers(&context, &names);
    let kinds = offers.iter().map(|offer| offer.kind).collect();
    (offers.into_iter().map(|offer| offer.text).collect(), kinds)
}

fn with(old: &str, new: &str) -> String {
    let text = spec("hall-console.case");
    assert!(text.contains(old), "{old}");
    text.replacen(old, new, 1)
}

fn set(words: &[&str]) -> BTreeSet<String> {
    words.iter().map(|word| (*word).to_owned()).collect()
}

#[test]
fn what_may_stand_there_is_offered() {
    let (hinges, kinds) = offered(&with("hinge  inset-cup\n", "hinge  |\n"));
    assert_eq!((hinges, kinds), (set(&["inset-cup"]), BTreeSet::from([OfferKind::Name])));
    let (sets, kinds) = offered(&with("set    inset\n", "set in|\n"));
    assert_eq!((sets, kinds), (set(&["inset", "overlay"]), BTreeSet::from([OfferKind::Choice])));
    let (stocks, _) = offered(&with("stock  maple\n", "stock m|\n"));
    assert_eq!(stocks, set(&["birch-ply", "cherry", "cherry-ply", "maple", "thin-ply"]));
    let (same, _) = offered(&with("drawer lower  { share 1 }", "drawer lower { same | }"));
    // Any opening but itself.
    assert_eq!(same, set(&["bank", "middle", "niche", "press", "upper"]));
    let (woods, _) = offered(&with("species sugar-maple", "species |"));
    assert!(woods.contains("sugar-maple") && woods.contains("white-oak"), "{woods:?}");
    let (sizes, _) = offered(&with("drawer lower  { share 1 }", "drawer lower { high 3 + | }"));
    assert!(sizes.contains("upper.high") && sizes.contains("press.wide"), "{sizes:?}");
    let (bits, _) = offered(&with("flutes { run vertical; bit round", "flutes { run |; bit round"));
    assert_eq!(bits, set(&["horizontal", "vertical"]));
    let (findings, _) = offered(&with("finish oil {", "accept pocket|\nfinish oil {"));
    assert!(findings.contains("pocket-seen"));
    let (on, _) = offered(&with("finish oil {", "accept pocket-seen |\nfinish oil {"));
    assert_eq!(on, set(&["on"]));
}

/// A case may be like one in the same braces: by itself like one by itself, in a run like one
/// of that run.
#[test]
fn a_case_is_offered_those_that_it_may_be_like() {
    let example = |slug: &str| {
        let found = EXAMPLES.iter().find(|own| own.slug == slug).unwrap().text;
        found.replace("use \"shop.case\"\n", &SHARED.1.replace("units in\n", ""))
    };
    let runs = format!(
        "{}\ncase pantry {{ like | }}\ncase larder {{ wide 20 }}",
        example("run-on-the-wall")
    );
    assert_eq!(offered(&runs).0, set(&["larder"]));
    let glasses =
        "case glasses { same plates; across { doors store { share 1; shelf { adjustable 2 } } } }";
    let own = example("run-on-the-wall").replace(glasses, "case glasses { like | }");
    let own = format!("{own}\ncase larder {{ wide 20 }}");
    assert_eq!(offered(&own).0, set(&["plates", "spice"]));
}

#[test]
fn words_of_the_block_are_offered() {
    let (words, kinds) = offered(&with("  set    inset\n", "  |\n"));
    // Not those that stand there already, before it or behind it.
    let text = spec("hall-console.case");
    let start = text.find("  fronts {").unwrap();
    let block = &text[start..start + text[start..].find("\n  }").unwrap()];
    let stands = |word: &str| {
        let mut said = block.split([';', '\n']).map(str::trim_start);
        said.any(|said| word != "set" && said.split(' ').next() == Some(word))
    };
    let fronts = vocabulary::block_named("fronts").unwrap();
    let free = fronts.words.iter().map(|word| word.word.to_owned());
    assert_eq!(words, free.filter(|word| !stands(word)).collect());
    assert!(words.contains("set") && !words.contains("gap") && !words.contains("stock"));
    assert_eq!(kinds, BTreeSet::from([OfferKind::Word]));
    let (top, _) = offered(&with("finish oil {", "|\nfinish oil {"));
    assert!(top.contains("stock") && top.contains("case") && !top.contains("gap"), "{top:?}");
    // The last block was never closed, and the next line stands farther out.
    let open = with("    joint  rabbet\n  }\n", "    joint  rabbet\n  |\n");
    let (case, _) = offered(&open);
    assert!(case.contains("countertop") && !case.contains("bottom-stock"), "{case:?}");
}

#[test]
fn nothing_is_offered_in_texts_and_comments() {
    for typed in ["note \"a | b\"\n", "# a | b\n", "gap 3/32 # |\n"] {
        let (offers, _) = offered(&with("gap    3/32\n", typed));
        assert!(offers.is_empty(), "{typed}: {offers:?}");
    }
}

#[test]
fn a_word_tells_its_help_and_a_name_its_sizes() {
    let text = spec("hall-console.case");
    let compiled = compile(&text);
    let names = Names::of(&compiled);
    let hover = |at: &str| {
        let byte = text.find(at).unwrap() as u32;
        editor::hover(&compiled, &names, FileId(0), byte + 1)
    };
    let Some(Hover::Word { block, word, .. }) = hover("meeting 1/8") else { panic!("no word") };
    assert_eq!((block.name, word.word), ("fronts", "meeting"));
    assert_eq!(word.help, "the gap between the two leaves of a pair");
    let Some(Hover::Name { sizes, .. }) = hover("niche { wide") else { panic!("no name") };
    assert_eq!(sizes.len(), 1);
    assert_eq!(sizes[0].name, "console.niche");
    assert_eq!(sizes[0].sizes[0].exact, "15 in");
    let Some(Hover::Name { sizes, .. }) = hover("cherry-ply") else { panic!("no name") };
    assert!(sizes.is_empty(), "a stock has no sizes");
    assert!(hover("# version").is_none());
}
