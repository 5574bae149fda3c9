//! The words that makers read: American spelling, the trade's own terms, whole
//! sentences. What a review found strange stays out.

use std::fs;
use std::path::{Path, PathBuf};

use casewright::diagnostics::Diagnostic;
use casewright::model::MemoryFiles;
use casewright::{checks, papers, pipeline};

use crate::support::Bench;

/// British spellings and the stems they start with; a word of the text that
/// starts so is one.
const BRITISH: &[&str] = &[
    "aluminium",
    "calliper",
    "catalogue",
    "centre",
    "centring",
    "centimetre",
    "colour",
    "fibre",
    "grey",
    "labelled",
    "learnt",
    "levelled",
    "litre",
    "metre",
    "millimetre",
    "misspelt",
    "mitre",
    "mitring",
    "mould",
    "neighbour",
    "panelled",
    "programme",
    "spoilt",
    "storey",
    "worktop",
];

/// What no shop says, or what was read the wrong way round.
const STRANGE: &[&str] = &[
    "any more",
    "at the least",
    "at the most",
    "at the outside",
    "begin of",
    "before the cut",
    "below nought",
    "beyond the cut",
    "boards of fibre",
    "brought down from",
    "come to rest",
    "comes to rest",
    "drawn otherwise",
    "glued up of",
    "go before this",
    "goes before this",
    "in one go",
    "is no number",
    "is no size",
    "is no text",
    "is no word",
    "is none of",
    "it came out right",
    "lead edge",
    "longest chain",
    "mostly a slip",
    "nought",
    "of itself",
    "of themselves",
    "otherwise too",
    "out of the way of",
    "parts more",
    "rings turned",
    "said again",
    "said twice",
    "says no",
    "set themselves alight",
    "show face",
    "straps over",
    "takes its part",
    "there are: ",
    "told twice",
    "turns a minute",
    "two goes",
    "what must be sure",
];

/// Words of the language that have these spellings, as its examples write them.
const SPELT: &[&str] = &[];

/// The text without what stands in backticks: that is the language's, or a
/// name from the spec.
fn prose(text: &str) -> String {
    text.split('`').step_by(2).collect::<Vec<_>>().join("`")
}

/// What is strange in a text.
fn strange(text: &str) -> Vec<&'static str> {
    let text = prose(text).to_lowercase();
    let words: Vec<&str> = text.split(|c: char| !c.is_alphabetic()).collect();
    let starts = |stem: &&&str| words.iter().any(|word| word.starts_with(**stem));
    let phrase = |phrase: &&&str| {
        text.match_indices(**phrase).any(|(at, found)| {
            let before = text[..at].chars().next_back();
            let after = text[at + found.len()..].chars().next();
            !before.is_some_and(char::is_alphabetic)
                && (found.ends_with(' ') || !after.is_some_and(char::is_alphabetic))
        })
    };
    let british = BRITISH.iter().filter(starts);
    british.chain(STRANGE.iter().filter(phrase)).copied().collect()
}

fn assert_plain<'a>(texts: impl IntoIterator<Item = (String, &'a str)>) {
    let wrong: Vec<String> = texts
        .into_iter()
        .filter_map(|(place, text)| {
            let found = strange(text);
            (!found.is_empty()).then(|| format!("{place}: {found:?} in {text:?}"))
        })
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn what_is_strange_is_seen() {
    assert_eq!(strange("5/8 from the lead edge"), ["lead edge"]);
    assert_eq!(strange("Centres 3 apart"), ["centre"]);
    assert_eq!(strange("there are: a, b"), ["there are: "]);
    for plain in ["`centres` in a pull", "the leading edge", "a thermometer", "diameter 3"] {
        assert_eq!(strange(plain), [""; 0], "{plain}");
    }
}

/// Every text in the source that has a space in it, where it stands.
fn literals(file: &str, code: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let (mut rest, mut line) = (code, 1);
    while let Some(at) = rest.find(['"', '\'', '/']) {
        line += rest[..at].matches('\n').count();
        let here = &rest[at..];
        let length = if here.starts_with("//") {
            here.find('\n').unwrap_or(here.len())
        } else if let Some(inner) = here.strip_prefix('\'') {
            // A letter; a lifetime is one mark long.
            let body = inner.chars().next().unwrap_or(' ');
            let end = 1 + body.len_utf8();
            match (body, here[end..].starts_with('\'')) {
                ('\\', _) => 2 + here[3..].find('\'').map_or(0, |end| end + 2),
                (_, true) => end + 1,
                _ => 1,
            }
        } else if let Some(inner) = here.strip_prefix('"') {
            let mut escaped = false;
            let end = inner.find(|c| {
                let ends = c == '"' && !escaped;
                escaped = c == '\\' && !escaped;
                ends
            });
            let end = end.map_or(here.len(), |end| end + 2);
            let text = &here[1..end - 1];
            // A brace with a space behind it is a spec's.
            if text.contains(' ') && !prose(text).contains("{ ") {
                found.push((format!("{file}:{line}"), text.to_owned()));
            }
            end
        } else {
            1
        };
        line += here[..length].matches('\n').count();
        rest = &here[length..];
    }
    found
}

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

#[test]
fn texts_of_the_source_are_found() {
    let code = "let a = ' '; // \"no b\"\nfn f<'a>(x: &'a str) -> char { '\\'' }\nsay(\"a \\\"b\\\" c\",\n\"d e\")";
    let found = literals("a.rs", code);
    let found: Vec<(&str, &str)> =
        found.iter().map(|(place, text)| (place.as_str(), text.as_str())).collect();
    assert_eq!(found, [("a.rs:3", "a \\\"b\\\" c"), ("a.rs:4", "d e")]);
}

#[test]
fn texts_in_the_source_are_plain() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&root, &mut files);
    files.sort();
    let mut texts = Vec::new();
    for path in files.iter().filter(|path| !path.ends_with("tests.rs")) {
        let name = path.strip_prefix(&root).unwrap().to_string_lossy().replace('\\', "/");
        let text = fs::read_to_string(path).unwrap();
        let code = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
        let found = literals(&name, code).into_iter();
        texts.extend(found.filter(|(_, text)| !SPELT.contains(&text.as_str())));
    }
    assert!(texts.len() > 500);
    assert_plain(texts.iter().map(|(place, text)| (place.clone(), text.as_str())));
}

#[test]
fn pages_of_findings_are_plain_and_whole_sentences() {
    let mut wrong = Vec::new();
    for rule in checks::all() {
        let texts = [rule.finds, rule.why, rule.formula, rule.accept, rule.source];
        assert_plain(texts.map(|text| (rule.slug.to_owned(), text)));
        let ends = |text: &str| text.ends_with(['.', '!', '?']) || text.ends_with(')');
        let starts = |text: &str| !text.starts_with(char::is_lowercase);
        for text in texts.into_iter().filter(|text| !text.is_empty()) {
            if !ends(text) || !starts(text) {
                wrong.push(format!("{}: {text}", rule.slug));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_help_of_every_command_is_plain() {
    let bench = Bench::new();
    let whole = bench.run(&["--help"]).out;
    let commands = whole.lines().skip_while(|line| *line != "Commands:").skip(1);
    let commands = commands.take_while(|line| !line.is_empty());
    let mut names: Vec<&str> = commands.filter_map(|line| line.split_whitespace().next()).collect();
    assert!(names.len() > 10, "{whole}");
    names.push("git-diff");
    let pages: Vec<(String, String)> = names
        .into_iter()
        .map(|name| (name.to_owned(), bench.run(&[name, "--help"]).out))
        .chain([("casewright".to_owned(), whole.clone())])
        .collect();
    assert_plain(pages.iter().map(|(name, page)| (name.clone(), page.as_str())));
}

#[test]
fn the_reference_is_plain() {
    let reference = papers::reference();
    // The examples are the language's.
    let texts = reference.split("```").step_by(2);
    assert_plain(texts.map(|text| ("the reference".to_owned(), text)));
}

/// Names and notes are those of whoever wrote the spec.
#[test]
fn the_papers_of_every_demo_piece_are_plain() {
    let specs = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let mut read = 0;
    for entry in fs::read_dir(&specs).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if !name.ends_with(".case") || name == "shop.case" {
            continue;
        }
        let shop = fs::read_to_string(specs.join("shop.case")).unwrap();
        let files = MemoryFiles::one(&name, &fs::read_to_string(&path).unwrap());
        let compiled = pipeline::check(&files.with("shop.case", &shop), &name).unwrap();
        let packet = papers::packet(&compiled).unwrap();
        let texts: Vec<(String, String)> =
            packet.into_iter().map(|file| (format!("{name}: {}", file.name), file.text)).collect();
        read += texts.len();
        assert_plain(
            texts.iter().flat_map(|(place, text)| text.lines().map(|line| (place.clone(), line))),
        );
    }
    assert!(read >= 50);
}

#[test]
fn the_readme_is_plain() {
    let texts = include_str!("../README.md").split("```").step_by(2);
    assert_plain(texts.map(|text| ("README.md".to_owned(), text)));
}

/// What is found in the specs that hold a mistake each.
fn found() -> Vec<(String, Diagnostic)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/broken");
    let mut all = Vec::new();
    for entry in fs::read_dir(&folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|ending| ending != "case") {
            continue;
        }
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let files = MemoryFiles::one(&name, &fs::read_to_string(&path).unwrap());
        let compiled = pipeline::check(&files, &name).unwrap();
        all.extend(compiled.diagnostics.into_iter().map(|found| (name.clone(), found)));
    }
    all
}

/// A title goes on where its severity and name end: it starts small, and no
/// full stop ends it.
#[test]
fn titles_have_one_form() {
    let wrong: Vec<String> = found()
        .iter()
        .filter(|(_, found)| {
            found.title.ends_with('.') || found.title.starts_with(char::is_uppercase)
        })
        .map(|(name, found)| format!("{name}: {}", found.title))
        .collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// A verb agrees with what stands before it.
#[test]
fn titles_of_blocks_agree_with_their_verbs() {
    let first =
        fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("specs/first.case")).unwrap();
    for (right, wrong, said) in [
        ("bottom-stock thin; ", "", "the drawers need `bottom-stock`"),
        ("length 15; ", "", "a slide needs `length`"),
    ] {
        assert!(first.contains(right), "{right}");
        let files = MemoryFiles::one("my.case", &first.replacen(right, wrong, 1));
        let compiled = pipeline::check(&files, "my.case").unwrap();
        let titles: Vec<&str> = compiled.diagnostics.iter().map(|own| &*own.title).collect();
        assert!(titles.iter().any(|title| title.contains(said)), "{titles:?}");
    }
}
