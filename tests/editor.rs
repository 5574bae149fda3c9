//! A small editor, played on what the library offers.

mod names;
mod places;
mod typing;

use std::collections::BTreeSet;
use std::path::Path;

use casewright::diagnostics::{self, Grade};
use casewright::editor::{self, TermFrom, Thing, why};
use casewright::measure::Length;
use casewright::model::{Buffers, MemoryFiles};
use casewright::papers::{self, Format};
use casewright::pipeline::{self, Compilation};
use casewright::vocabulary;
use casewright::vocabulary::Origin;

use crate::oracle;
use crate::support::{compile, slugs, spec};

/// The terms of a sum as they are printed, and the statement of each.
fn told(compiled: &Compilation, sum: &editor::Sum) -> Vec<(String, String)> {
    let from = |from: &TermFrom| match from {
        TermFrom::Fact { origin: Origin::Written(span), .. } => {
            compiled.sources.text(*span).to_owned()
        }
        other => format!("{other:?}"),
    };
    sum.terms.iter().map(|term| (term.text.clone(), from(&term.from))).collect()
}

/// 66 − 1-3/4 − 2-1/2 − 17-1/4 − 1-1/2 − 1-1/2 − 15 = 26-1/2.
#[test]
fn a_size_tells_its_terms_as_data() {
    let console = compile(&spec("hall-console.case"));
    let press = why(&console, "press");
    let [press] = press.as_slice() else { panic!("{press:#?}") };
    assert_eq!((press.name.as_str(), &press.thing), ("console.press", &Thing::Opening));
    let wide = &press.sizes[0];
    assert_eq!(
        (wide.word.as_str(), wide.exact.as_str(), &wide.printed),
        ("wide", "26-1/2 in", &None)
    );
    let mut terms = told(&console, wide);
    terms.sort();
    let expected = [
        ("+ 66", "wide 66"),
        ("− 1-1/2", "wide 1-1/2"),
        ("− 1-1/2", "wide 1-1/2"),
        ("− 1-3/4", "wide 1-3/4"),
        ("− 15", "wide 15"),
        ("− 17-1/4", "wide 17-1/4"),
        ("− 2-1/2", "wide 2-1/2"),
    ];
    assert_eq!(terms, expected.map(|(term, from)| (term.to_owned(), from.to_owned())));
    assert_eq!(wide.terms.iter().filter(|term| term.negative).count(), 6);
}

/// The two lower drawers share what is left of 33 high: 4 of base, rails of
/// 1-1/2 above, below and twice between, and 5 for the upper one go off it.
#[test]
fn a_share_counts_its_terms_by_halves() {
    let console = compile(&spec("hall-console.case"));
    let middle = why(&console, "bank.middle");
    let high = middle[0].sizes.iter().find(|sum| sum.word == "high").unwrap();
    let mut terms = told(&console, high);
    terms.sort();
    let expected = [
        ("+ 1/2 × 33", "high 33"),
        ("− 1/2 × 1-1/2", "wide 1-1/2"),
        ("− 1/2 × 1-1/2", "wide 1-1/2"),
        ("− 1/2 × 1-1/2", "wide 1-1/2"),
        ("− 1/2 × 1-1/2", "wide 1-1/2"),
        ("− 1/2 × 4", "high 4"),
        ("− 1/2 × 5", "high 5"),
    ];
    assert_eq!(terms, expected.map(|(term, from)| (term.to_owned(), from.to_owned())));
}

/// Whatever is asked about, the terms add up to the size.
#[test]
fn terms_add_up() {
    for name in ["hall-console.case", "first.case", "tide-cottage-press.case"] {
        let compiled = compile(&spec(name));
        let names: BTreeSet<String> = editor::known_names(&compiled).into_iter().collect();
        for why in names.iter().flat_map(|name| why(&compiled, name)) {
            for sum in &why.sizes {
                assert_eq!(sum.total(), Some(sum.value), "{} {} of {name}", why.name, sum.word);
            }
        }
    }
}

#[test]
fn a_part_is_found_by_its_mark_too() {
    let console = compile(&spec("hall-console.case"));
    let end = why(&console, "console.left-end");
    let Thing::Part { mark } = &end[0].thing else { panic!("{end:#?}") };
    let by_mark = why(&console, mark);
    assert_eq!(by_mark, end);
    assert_eq!(end[0].sizes[0].exact, "33 in");
    // 3/4 plywood is 23/32 thick; the tape of the job knows that mark.
    assert_eq!(
        (end[0].sizes[2].word.as_str(), end[0].sizes[2].exact.as_str()),
        ("thickness", "23/32 in")
    );
}

/// Each paper by itself is the one of the packet.
#[test]
fn a_single_paper_is_that_of_the_packet() {
    let console = compile(&spec("hall-console.case"));
    let packet = papers::packet(&console).unwrap();
    for file in &packet {
        let single = papers::one(&console, file.paper, file.format);
        assert_eq!(single.as_ref(), Some(&file.text), "{}", file.name);
        let sheet = papers::sheet(&console, file.paper, file.format);
        assert_eq!(sheet, single.filter(|_| file.paper != "packet"), "{}", file.name);
    }
    assert_eq!(papers::one(&console, "weights", Format::Csv), None);
    assert_eq!(papers::one(&console, "index", Format::Text), None);
    assert_eq!(papers::one(&console, "nothing", Format::Html), None);
    let page = packet.iter().find(|file| file.name == "drawings.html").unwrap();
    assert!(page.text.contains(&papers::elevation(&console).unwrap()));
}

/// Doors 5/8 thick are too thin for the hinge: no paper, but a drawing.
#[test]
fn a_piece_with_errors_is_drawn() {
    let sound = compile(&spec("hall-console.case"));
    let text = spec("hall-console.case").replace(
        "cherry\n  lumber 4/4; species black-cherry; thickness 3/4",
        "cherry\n  lumber 4/4; species black-cherry; thickness 5/8",
    );
    let compiled = compile(&text.replace("door-thickness 16 mm", "door-thickness 22 mm"));
    assert!(!compiled.is_sound(), "{:?}", slugs(&compiled));
    assert_eq!(papers::one(&compiled, "drawings", Format::Html), None);
    let drawn = papers::elevation(&compiled).unwrap();
    for part in &sound.parts.as_ref().unwrap().all {
        if part.word().ends_with("door") || part.word().ends_with("stile") {
            assert!(drawn.contains(&format!(">{}<", part.mark)), "{}", part.path);
        }
    }
}

/// An editor shows the fixes of one finding at its place: by number, not by
/// counting what stands before.
#[test]
fn a_fix_is_made_by_finding_and_number() {
    let text =
        spec("hall-console.case").replace("drawer upper  { high 5 }", "drawer upper  { hihg 5 }");
    let compiled = compile(&text);
    let named = diagnostics::named(&compiled.sources, &compiled.diagnostics);
    for fix in &named {
        let finding = &compiled.diagnostics[fix.finding];
        assert_eq!(&finding.fixes[fix.index], fix.fix);
        assert!(fix.name.starts_with(finding.slug), "{}", fix.name);
    }
    let wrong = compiled
        .diagnostics
        .iter()
        .position(|found| compiled.sources.text(found.primary.span).contains("hihg"));
    let spelt = named.iter().find(|fix| Some(fix.finding) == wrong).unwrap();
    assert_eq!(spelt.fix.grade, Grade::Sure);
    let mended = diagnostics::mend(&compiled.sources, &[spelt.fix]);
    assert_eq!(mended.texts.into_values().next(), Some(spec("hall-console.case")));
}

/// The sizes that are known of a name: word, exact figure, whether it holds.
fn sizes(compiled: &Compilation, name: &str) -> Vec<(String, String, bool)> {
    let found = why(compiled, name);
    let [found] = found.as_slice() else { panic!("{name}: {found:#?}") };
    found.sizes.iter().map(|sum| (sum.word.clone(), sum.exact.clone(), sum.holds)).collect()
}

/// The hall console with another middle drawer, and a lower one that is alike.
fn with_drawers(middle: &str, lower: &str) -> Compilation {
    let text = spec("hall-console.case")
        .replace("drawer middle { share 1 }", &format!("drawer middle {{ {middle} }}"))
        .replace("drawer lower  { share 1 }", &format!("drawer lower  {{ {lower} }}"));
    let compiled = compile(&text);
    assert!(compiled.piece.is_none());
    compiled
}

fn marks(compiled: &Compilation, text: &str) -> usize {
    papers::elevation(compiled).unwrap().matches(&format!(">{text}<")).count()
}

/// 5 + 1-1/2 + 12 + 1-1/2 + 12 = 32, and the frame leaves 26. What lies beside
/// the bank has nothing to do with it: 33 − 4 − 1-1/2 − 1-1/2 = 26.
#[test]
fn sizes_beside_a_contradiction_are_known() {
    let compiled = with_drawers("high 12", "high 12");
    assert_eq!(slugs(&compiled), ["sizes-conflict"]);
    let known = |word: &str, figure: &str, holds| (word.to_owned(), figure.to_owned(), holds);
    assert_eq!(
        sizes(&compiled, "press"),
        [known("wide", "26-1/2 in", true), known("high", "26 in", true)]
    );
    assert_eq!(
        sizes(&compiled, "bank"),
        [known("wide", "17-1/4 in", true), known("high", "26 in", true)]
    );
    assert_eq!(
        sizes(&compiled, "middle"),
        [known("wide", "17-1/4 in", true), known("high", "12 in", false)]
    );
    assert_eq!(
        sizes(&compiled, "console"),
        [known("wide", "66 in", true), known("high", "33 in", true)]
    );
    assert_eq!(marks(&compiled, "?"), 3, "the three drawers");
    assert_eq!(papers::packet(&compiled), None);
}

/// The drawing bears no figure where some are in doubt, and the marks of what
/// holds.
#[test]
fn what_stands_is_drawn() {
    let compiled = with_drawers("high 12", "high 12");
    let sound = compile(&spec("hall-console.case"));
    let parts = &sound.parts.as_ref().unwrap().all;
    let doors: Vec<_> = parts.iter().filter(|part| part.path.ends_with("-door")).collect();
    assert_eq!(doors.len(), 2);
    for door in doors {
        assert_eq!(marks(&compiled, &door.mark), 1, "{}", door.path);
    }
    assert_eq!(marks(&sound, "66"), 1);
    assert_eq!(marks(&compiled, "66"), 0);
}

/// A drawer just being typed: it and the one that shares with it are open.
#[test]
fn a_size_that_is_not_written_yet_leaves_the_rest() {
    let compiled = with_drawers("note \"\"", "share 1");
    assert_eq!(slugs(&compiled), ["size-undetermined"]);
    assert_eq!(sizes(&compiled, "upper")[1], ("high".to_owned(), "5 in".to_owned(), true));
    assert_eq!(sizes(&compiled, "middle"), [("wide".to_owned(), "17-1/4 in".to_owned(), true)]);
    assert_eq!(marks(&compiled, "?"), 2);
}

/// A statement that can't be read: what the others say is known.
#[test]
fn a_statement_that_can_t_be_read_leaves_the_rest() {
    let compiled = with_drawers("xyzzy 1", "share 1");
    assert!(!compiled.standing.as_ref().unwrap().whole);
    assert_eq!(sizes(&compiled, "press")[0], ("wide".to_owned(), "26-1/2 in".to_owned(), true));
    assert!(papers::elevation(&compiled).is_some());
    let whole = with_drawers("high 12", "high 12");
    assert!(whole.standing.as_ref().unwrap().whole);
}

/// Two figures for one size, in no list: the one written last gives way.
#[test]
fn of_two_cases_one_may_stand() {
    let text = spec("alcove-shelves.case");
    let odd = text.replacen("wide 400\n", "wide 400; high 700\n", 1);
    assert_ne!(odd, text);
    let compiled = compile(&odd);
    assert_eq!(slugs(&compiled), ["sizes-conflict"]);
    assert_eq!(sizes(&compiled, "left-books")[1], ("high".to_owned(), "2000 mm".to_owned(), true));
    assert!(papers::elevation(&compiled).is_some());
}

#[test]
fn a_compilation_gives_the_tree_of_each_text() {
    let files = MemoryFiles::one("wash.case", &spec("ferry-road-wash-stand.case"))
        .with("shop.case", &spec("shop.case"));
    let compiled = pipeline::check(&files, "wash.case").unwrap();
    assert_eq!(compiled.trees().len(), 2);
    for (file, source) in compiled.sources.iter() {
        let (tree, _) = vocabulary::parse(file, &source.text);
        assert_eq!(compiled.tree(file), Some(&tree), "{}", source.name);
    }
}

/// What is typed and not saved counts, also in a file that is used.
#[test]
fn unsaved_texts_count() {
    let disk = MemoryFiles::one("wash.case", &spec("ferry-road-wash-stand.case"))
        .with("shop.case", &spec("shop.case"));
    let mut buffers = Buffers::over(&disk);
    let kerf = |buffers: &Buffers<'_, MemoryFiles>| {
        let compiled = pipeline::check(buffers, "wash.case").unwrap();
        compiled.piece.map(|piece| piece.shop.kerf)
    };
    assert_eq!(kerf(&buffers), Some(Length::inches(1, 8)));
    buffers.put("shop.case", spec("shop.case").replace("kerf     1/8", "kerf     3/32"));
    assert_eq!(kerf(&buffers), Some(Length::inches(3, 32)));
}

/// Half a spec, as it is while it is typed, and every broken one.
#[test]
fn an_editor_is_answered_whatever_stands_there() {
    let whole = spec("hall-console.case");
    for (end, _) in whole.match_indices('\n') {
        oracle::editor(&whole[..end]);
    }
    let broken = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/broken");
    for entry in std::fs::read_dir(broken).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            oracle::editor(&std::fs::read_to_string(path).unwrap());
        }
    }
}
