//! Where names are given and used, held against a search through the text;
//! other names for things.

use std::collections::{BTreeMap, BTreeSet};

use casewright::diagnostics::{self, Fix};
use casewright::editor::{self, Hover, Meaning, NameId, NameKind, Names, Refused};
use casewright::measure::{FileId, Length, Span};
use casewright::model::MemoryFiles;
use casewright::pipeline::{self, Compilation};

use crate::support::{compile, slugs, spec};

const SPECS: [&str; 5] = [
    "hall-console.case",
    "first.case",
    "tide-cottage-press.case",
    "ferry-road-wash-stand.case",
    "alcove-shelves.case",
];

/// A spec beside the file that some use.
fn compiled(text: &str) -> Compilation {
    let files = MemoryFiles::one("a.case", text).with("shop.case", &spec("shop.case"));
    pipeline::check(&files, "a.case").unwrap()
}

/// A word of a text with where it stands, the one before it on its line and in
/// its statement, and whether a dot ties it to the next.
#[derive(Clone, Debug)]
struct Token {
    text: String,
    start: u32,
    before: String,
    dotted: bool,
}

/// The words of a text, comments and quoted texts apart. It knows nothing of
/// the grammar.
fn tokens(text: &str) -> Vec<Token> {
    let mut tokens = Vec::new();
    let mut offset = 0;
    for line in text.split_inclusive('\n') {
        let mut before = String::new();
        let mut quoted = false;
        let mut at = 0;
        let bytes = line.as_bytes();
        while at < bytes.len() {
            match bytes[at] {
                b'#' if !quoted => break,
                b'"' if at == 0 || !bytes[at - 1].is_ascii_digit() => quoted = !quoted,
                b';' | b'{' | b'}' => before.clear(),
                letter if !quoted && letter.is_ascii_alphabetic() => {
                    let is_in = |byte: &u8| byte.is_ascii_alphanumeric() || *byte == b'-';
                    let len = bytes[at..].iter().take_while(|byte| is_in(byte)).count();
                    let word = line[at..at + len].to_owned();
                    let dotted = bytes.get(at + len) == Some(&b'.');
                    let start = (offset + at) as u32;
                    tokens.push(Token {
                        text: word.clone(),
                        start,
                        before: before.clone(),
                        dotted,
                    });
                    before = word;
                    at += len;
                    continue;
                }
                _ => {}
            }
            at += 1;
        }
        offset += line.len();
    }
    tokens
}

/// The words behind which a name of a kind stands, in the demo specs.
fn behind(kind: NameKind) -> &'static [&'static str] {
    match kind {
        NameKind::Stock => &["stock", "panel-stock", "bottom-stock", "packer-stock"],
        NameKind::Species => &["species"],
        NameKind::Hinge => &["hinge"],
        NameKind::Slide => &["slide"],
        NameKind::Pull => &["pull"],
        NameKind::Leg => &["leg", "legs"],
        NameKind::Bit => &["bit"],
        NameKind::Finish => &["finish"],
        NameKind::Run => &["run"],
        NameKind::Case => &["case"],
        NameKind::Between => &["filler", "space"],
        NameKind::Opening => {
            &["across", "down", "drawer", "door", "doors", "open", "false", "same"]
        }
        NameKind::Member => &["stile", "rail", "divider"],
        NameKind::KeepOut => &[],
    }
}

/// Where a name is mentioned, as the library has it: file and first byte.
fn mentioned(names: &Names, id: NameId) -> BTreeSet<(FileId, u32)> {
    names.mentions(id).map(|mention| (mention.span.file, mention.span.start)).collect()
}

#[test]
fn every_mention_is_found_that_a_search_finds() {
    let mut kinds: BTreeMap<NameKind, usize> = BTreeMap::new();
    for name in SPECS {
        let compiled = compiled(&spec(name));
        let names = Names::of(&compiled);
        for (id, named) in names.all().filter(|(_, named)| named.kind != NameKind::KeepOut) {
            // Openings of two cases may share a name: these are told below.
            let alike = names
                .all()
                .filter(|(_, other)| other.name() == named.name() && other.kind == named.kind);
            if alike.count() > 1 {
                continue;
            }
            let mut expected = BTreeSet::new();
            for (file, source) in compiled.sources.iter() {
                for token in tokens(&source.text) {
                    let is_behind = behind(named.kind).contains(&token.before.as_str());
                    let is_path = token.dotted && named.kind == NameKind::Opening;
                    if token.text == named.name() && (is_behind || is_path) {
                        expected.insert((file, token.start));
                    }
                }
            }
            assert_eq!(
                mentioned(&names, id),
                expected,
                "{:?} {} of {name}",
                named.kind,
                named.path
            );
            *kinds.entry(named.kind).or_default() += expected.len();
        }
    }
    for kind in [
        NameKind::Stock,
        NameKind::Hinge,
        NameKind::Slide,
        NameKind::Pull,
        NameKind::Bit,
        NameKind::Finish,
        NameKind::Case,
        NameKind::Opening,
    ] {
        assert!(kinds.get(&kind).is_some_and(|count| *count > 2), "{kind:?}: {kinds:?}");
    }
}

#[test]
fn what_is_used_is_found_where_it_is_given() {
    let compiled = compiled(&spec("ferry-road-wash-stand.case"));
    let names = Names::of(&compiled);
    let main = compiled.sources.get(FileId(0)).unwrap();
    let at = main.text.find("slide ball-14").unwrap() as u32 + 6;
    let mention = names.at(FileId(0), at + 3).unwrap();
    assert_eq!(compiled.sources.text(mention.span), "ball-14");
    let given = names.definition(mention.meaning).unwrap();
    assert_eq!(given.file, FileId(1), "the shop has it");
    let shop = spec("shop.case");
    assert_eq!(given.start as usize, shop.find("ball-14").unwrap());
    assert_eq!(names.at(FileId(0), main.text.find("job").unwrap() as u32), None);
}

/// The hall console further on: measured, cut, accepted, sizes from sizes.
fn further() -> String {
    let text = spec("hall-console.case")
        .replace("down bank {", "down chest {")
        .replace("drawer upper  { high 5 }", "drawer till { high 5 }")
        .replace("drawer middle { share 1 }", "drawer hoard { high chest.till.high + 4 }")
        .replace("drawer lower  { share 1 }", "drawer lower { same hoard }")
        .replace("stile { wide 1-1/2 }", "stile post { wide 1-1/2 }")
        .replace("open niche { wide 15 }", "open niche { wide (till.high + 2.5) * 2 }");
    text + "
measured {
  opening chest.till { wide 17-9/32 }
  stock maple { actual 0.626 }
}
cut 2026-03-14 {
  console.chest.till.front { long 17-3/32; stock cherry; species black-cherry }
  rail-till-hoard
  console.stile-press-niche
}
"
}

/// Every word `name` of a text, comments and quoted texts apart; words that
/// hold it are others.
fn places(text: &str, name: &str) -> BTreeSet<u32> {
    let own = tokens(text).into_iter().filter(|token| token.text == name);
    own.map(|token| token.start).collect()
}

fn id(names: &Names, path: &str) -> NameId {
    let mut found = names.all().filter(|(_, named)| named.path == path);
    let (id, _) = found.next().unwrap_or_else(|| panic!("no {path}"));
    id
}

#[test]
fn names_in_sizes_records_and_readings_are_mentions() {
    let text = further();
    let compiled = compile(&text);
    assert!(compiled.is_sound(), "{:?}", slugs(&compiled));
    let names = Names::of(&compiled);
    for path in ["console.chest", "console.chest.till", "console.chest.hoard", "console.post"] {
        let id = id(&names, path);
        let name = names.get(id).unwrap().name().to_owned();
        let found: BTreeSet<u32> = names.mentions(id).map(|it| it.span.start).collect();
        assert_eq!(found, places(&text, &name), "{path}");
    }
    // A rail is called after its neighbours: it leads to its own statement.
    let at = text.find("rail-till-hoard").unwrap() as u32;
    let Meaning::Part { statement, .. } = names.at(FileId(0), at).unwrap().meaning else {
        panic!("no part")
    };
    assert!(compiled.sources.text(statement).starts_with("rail"));
    let stile = text.find("stile-press-niche").unwrap() as u32;
    let Some(Hover::Name { sizes, .. }) = editor::hover(&compiled, &names, FileId(0), stile) else {
        panic!("no name")
    };
    assert_eq!(sizes[0].name, "console.stile-press-niche");
    assert_eq!(sizes[0].sizes[0].exact, "26 in");
}

/// The text of the spec itself with a fix made.
fn made(compiled: &Compilation, fix: &Fix) -> BTreeMap<FileId, String> {
    let mut texts: BTreeMap<FileId, String> =
        compiled.sources.iter().map(|(file, source)| (file, source.text.to_string())).collect();
    texts.extend(diagnostics::mend(&compiled.sources, &[fix]).texts);
    texts
}

fn again(texts: &BTreeMap<FileId, String>) -> Compilation {
    let mut files = MemoryFiles::default();
    for (file, text) in texts {
        files = files.with(if file.0 == 0 { "a.case" } else { "shop.case" }, text);
    }
    pipeline::check(&files, "a.case").unwrap()
}

type Board = ([Length; 3], u32);

fn boards(compiled: &Compilation) -> Vec<Board> {
    let all = &compiled.parts.as_ref().unwrap().all;
    let sizes = |part: &casewright::parts::Part| {
        ([part.length.length, part.width.length, part.thickness.length], part.features.len() as u32)
    };
    all.iter().map(sizes).collect()
}

/// Each name of a spec is changed and changed back.
fn renames_there_and_back(text: &str) {
    let first = compiled(text);
    assert!(first.is_sound(), "{:?}", slugs(&first));
    let names = Names::of(&first);
    for (id, named) in names.all() {
        let fix = editor::rename(&first, &names, id, "quite-new");
        let fix = fix.unwrap_or_else(|why| panic!("{} is not renamed: {why:?}", named.path));
        let texts = made(&first, &fix);
        let second = again(&texts);
        assert_eq!(slugs(&second), slugs(&first), "{}", named.path);
        assert!(second.is_sound());
        assert_eq!(boards(&second), boards(&first), "{}", named.path);
        let renamed = Names::of(&second);
        let back = renamed.all().find(|(_, it)| it.name() == "quite-new").unwrap().0;
        assert_eq!(renamed.mentions(back).count(), names.mentions(id).count(), "{}", named.path);
        let back = editor::rename(&second, &renamed, back, named.name()).unwrap();
        for (file, source) in first.sources.iter() {
            let there = made(&second, &back).remove(&file);
            assert_eq!(there.as_deref(), Some(&*source.text), "{}", named.path);
        }
    }
}

#[test]
fn a_piece_stays_as_it_is_whatever_its_things_are_called() {
    for name in SPECS {
        renames_there_and_back(&spec(name));
    }
}

#[test]
fn what_is_measured_and_cut_follows_another_name() {
    renames_there_and_back(&further());
    // The mark of a door comes from its opening: what is cut by it follows too.
    let parts = compile(&further()).parts.unwrap();
    let door = parts.named("console.press.left-door").unwrap().1;
    let by_mark = format!("{}cut 2026-03-15 {{ {} }}\n", further(), door.mark);
    let compiled = compile(&by_mark);
    let names = Names::of(&compiled);
    let at = by_mark.rfind(&door.mark).unwrap() as u32;
    let Meaning::Part { id, .. } = names.at(FileId(0), at).unwrap().meaning else {
        panic!("no part")
    };
    assert_eq!(compiled.parts.as_ref().unwrap().get(id).unwrap().path, door.path);
    renames_there_and_back(&by_mark);
}

#[test]
fn a_name_that_is_none_or_taken_is_refused() {
    let compiled = compile(&spec("hall-console.case"));
    let names = Names::of(&compiled);
    let press = id(&names, "console.press");
    let rename = |new: &str| editor::rename(&compiled, &names, press, new);
    for none in ["", "two words", "a.b", "7th", "-press", "press-", "pr\"ess"] {
        assert_eq!(rename(none), Err(Refused::NoName), "{none}");
    }
    let niche = names.get(id(&names, "console.niche")).unwrap().definition;
    assert_eq!(rename("niche"), Err(Refused::Taken(niche)));
    let cherry = id(&names, "cherry");
    let maple = names.get(id(&names, "maple")).unwrap().definition;
    let taken = editor::rename(&compiled, &names, cherry, "maple");
    assert_eq!(taken, Err(Refused::Taken(maple)));
    let pipe = id(&names, "heating pipe");
    let renamed = editor::rename(&compiled, &names, pipe, "drain").unwrap();
    assert_eq!(renamed.edits[0].text, "\"drain\"");
}

/// Names can be asked for while the piece has errors.
#[test]
fn names_are_known_of_a_piece_with_errors() {
    let text = spec("hall-console.case").replace("drawer middle { share 1 }", "drawer middle {");
    let compiled = compile(&text);
    assert!(!compiled.is_sound());
    let names = Names::of(&compiled);
    let ring = id(&names, "ring");
    let found: BTreeSet<u32> = names.mentions(ring).map(|it| it.span.start).collect();
    assert_eq!(found, places(&text, "ring"));
    let spans: Vec<Span> = names.mentions(ring).map(|it| it.span).collect();
    assert!(names.at(FileId(0), spans[1].end).is_some(), "just behind it");
}
