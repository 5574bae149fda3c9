//! The order of the house: imports go one way, files keep to one subject, and
//! what is registered once is found everywhere.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use casewright::{checks, papers, vocabulary};

/// A room may use those before it.
const ROOMS: &[&str] = &[
    "measure",
    "diagnostics",
    "syntax",
    "vocabulary",
    "trade",
    "cutting",
    "model",
    "parts",
    "plans",
    "checks",
    "pipeline",
    "papers",
    "revision",
    "editor",
    "cli",
];

/// Lines without tests that a source file may have.
const LONGEST: usize = 500;

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

/// Every source file below src, with its text before its tests.
fn files() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    sources(&root, &mut found);
    found.retain(|path| !path.ends_with("tests.rs"));
    found.sort();
    found
        .into_iter()
        .map(|path| {
            let text = fs::read_to_string(&path).expect("text");
            let code = text.split("#[cfg(test)]").next().unwrap_or("").to_owned();
            let name = path.strip_prefix(&root).expect("below src");
            (name.to_string_lossy().replace('\\', "/"), code)
        })
        .collect()
}

#[test]
fn imports_go_one_way() {
    let mut wrong = Vec::new();
    for (name, code) in files() {
        let room = name.split('/').next().unwrap_or("").trim_end_matches(".rs").to_owned();
        let Some(own) = ROOMS.iter().position(|known| *known == room) else { continue };
        for used in code.split("crate::").skip(1) {
            let used = used.split(|c: char| !c.is_ascii_lowercase()).next().unwrap_or("");
            if ROOMS.iter().position(|known| *known == used).is_some_and(|other| other > own) {
                wrong.push(format!("{name} uses {used}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// What only the shell may ask of the system.
const SYSTEM: &[&str] = &["env", "fs", "net", "os", "process", "thread", "time"];

/// The rooms before `cli` are a function of texts. The build for a machine
/// without a system does not tell: the standard library has all of these there
/// too, and they fail when they are called.
#[test]
fn the_core_asks_nothing_of_the_system() {
    let mut wrong = Vec::new();
    let shell = |name: &str| name.starts_with("cli/") || name == "main.rs";
    for (name, code) in files().into_iter().filter(|(name, _)| !shell(name)) {
        for used in code.split("std::").skip(1) {
            let listed = used.strip_prefix('{').and_then(|list| list.split('}').next());
            let modules = listed.unwrap_or(used).split([',', '\n']).map(str::trim);
            let own = |module: &str| {
                let first = module.split(|c: char| !c.is_ascii_lowercase()).next();
                first.is_some_and(|first| SYSTEM.contains(&first))
            };
            // Without braces only what stands right behind is a module.
            let most = if listed.is_some() { usize::MAX } else { 1 };
            wrong.extend(modules.take(most).filter(|it| own(it)).map(|it| format!("{name}: {it}")));
        }
        for word in ["stdin", "stdout", "stderr", "println!", "SystemTime", "Instant"] {
            if code.contains(word) {
                wrong.push(format!("{name}: {word}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A file that no `mod` names is not compiled, and nothing else says so.
#[test]
fn every_file_is_part_of_the_house() {
    let texts = files();
    let alone = texts.iter().filter(|(name, _)| {
        let path = Path::new(name);
        let stem = path.file_stem().and_then(|stem| stem.to_str()).expect("a name");
        let folder = path.parent().expect("a folder");
        let (own, above) = match stem {
            "lib" | "main" => return false,
            "mod" => (folder.file_name().and_then(|own| own.to_str()), folder.parent()),
            own => (Some(own), Some(folder)),
        };
        let (own, above) = (own.expect("a name"), above.expect("a folder").to_string_lossy());
        let homes = match above.is_empty() {
            true => vec!["lib.rs".to_owned()],
            false => vec![format!("{above}/mod.rs"), format!("{above}.rs")],
        };
        !texts
            .iter()
            .any(|(home, text)| homes.contains(home) && text.contains(&format!("mod {own};")))
    });
    let alone: Vec<&String> = alone.map(|(name, _)| name).collect();
    assert!(alone.is_empty(), "{alone:#?}");
}

#[test]
fn files_keep_to_one_subject() {
    let mut wrong = Vec::new();
    for (name, code) in files() {
        let lines = code.lines().count();
        if lines > LONGEST {
            wrong.push(format!("{name}: {lines} lines"));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_finding_has_a_page_with_all_its_parts() {
    for slug in checks::slugs() {
        let page = checks::explain(slug).unwrap_or_else(|| panic!("no page for {slug}"));
        for head in ["What it finds", "Why it matters", "It fires", "It is silent on", "Source"] {
            assert!(page.contains(head), "{slug} lacks {head}");
        }
    }
}

/// A slug that the source gives to a diagnostic is one that can be explained.
#[test]
fn every_slug_in_the_source_is_registered() {
    let known: Vec<&str> = checks::slugs().collect();
    for (name, code) in files() {
        for call in ["Diagnostic::error(", "Diagnostic::warning("] {
            for rest in code.split(call).skip(1) {
                let Some(quoted) = rest.trim_start().strip_prefix('"') else { continue };
                let slug = quoted.split('"').next().unwrap_or("");
                assert!(known.contains(&slug), "{name} uses {slug}, which has no page");
            }
        }
    }
}

#[test]
fn every_word_stands_in_the_reference() {
    let reference = papers::reference();
    for block in vocabulary::BLOCKS {
        for word in block.words {
            assert!(reference.contains(&format!("| `{}` |", word.word)), "{}", word.word);
            assert!(!word.help.is_empty() && !word.example.is_empty(), "{}", word.word);
        }
    }
}

/// A block that a word opens has its section, and no section stands twice.
#[test]
fn every_block_stands_in_the_reference_once() {
    let mut names: Vec<&str> = vocabulary::BLOCKS.iter().map(|block| block.name).collect();
    let opened = vocabulary::BLOCKS.iter().flat_map(|block| block.words);
    for block in opened.filter_map(|word| word.body.block()) {
        assert!(names.contains(&block.name), "{} has no section", block.name);
    }
    names.sort_unstable();
    let all = names.len();
    names.dedup();
    assert_eq!(names.len(), all, "a block is listed twice");
    assert!(!papers::reference().contains("##  {"), "a section that no word opens");
}

#[test]
fn papers_are_named_once() {
    let mut slugs: Vec<&str> = papers::PAPERS.iter().map(|paper| paper.slug).collect();
    slugs.sort_unstable();
    slugs.dedup();
    assert_eq!(slugs.len(), papers::PAPERS.len());
}

/// What takes the name of a part, opening or case to pieces, or compares it.
const TAKES_APART: &[&str] = &[
    "rsplit('.')",
    "rsplit_once('.')",
    "split('.')",
    "split_once('.')",
    "rfind('.')",
    "strip_suffix(\".",
    "ends_with(\".",
    ".path == ",
    "== part.path",
    "== opening.path",
    "format!(\"{}.front",
    "format!(\"{}.{leaf",
];

/// Behind the reader, ids say what belongs to what: names are put together for
/// print by `parts/path.rs`, and only what the maker writes is looked up by
/// `parts/named.rs`.
#[test]
fn no_name_is_taken_apart_behind_the_reader() {
    let rooms = ["parts/", "plans/", "checks/", "papers/", "revision/"];
    // `accept` names what it silences by the end of its name.
    let readers = ["parts/named.rs", "checks/accept.rs"];
    let mut wrong = Vec::new();
    for (name, code) in files() {
        let behind = rooms.iter().any(|room| name.starts_with(room));
        if !behind || readers.contains(&name.as_str()) {
            continue;
        }
        for (number, line) in code.lines().enumerate() {
            if TAKES_APART.iter().any(|form| line.contains(form)) {
                wrong.push(format!("{name}:{}: {}", number + 1, line.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Every spelling of a word or choice.
fn spellings() -> BTreeSet<&'static str> {
    let words = vocabulary::BLOCKS.iter().flat_map(|block| block.words);
    let mut all = BTreeSet::new();
    for word in words {
        all.extend([Some(word.word), word.also].into_iter().flatten());
        for slot in word.takes {
            if let vocabulary::Kind::Choice(choices) = slot.kind {
                all.extend(choices.iter().flat_map(|it| [Some(it.word), it.also]).flatten());
            }
        }
    }
    all
}

/// A word is looked up by what declares it, never by its letters: then one that
/// is misspelled does not compile. The form of the language knows no words.
#[test]
fn words_are_looked_up_by_what_declares_them() {
    let known = spellings();
    let asked = [".is(\"", ".one(\"", ".all(\"", ".get(\"", ".says(\"", ".flag(\"", ".word(\""];
    let compared = [".text() == \"", ".text() != \"", ".word == \"", ".spelling() == \""];
    let mut wrong = Vec::new();
    for (name, code) in files() {
        for call in asked.iter().chain(&compared) {
            for rest in code.split(call).skip(1) {
                let word = rest.split('"').next().unwrap_or("");
                if known.contains(word) {
                    wrong.push(format!("{name}: {call}{word}\""));
                }
            }
        }
        if name.starts_with("model/") {
            for arm in code.lines().map(str::trim_start).filter(|line| line.contains(" => ")) {
                let pattern = arm.split(" => ").next().unwrap_or("");
                let quoted = pattern.split('"').skip(1).step_by(2);
                wrong.extend(
                    quoted.filter(|it| known.contains(it)).map(|it| format!("{name}: {it} =>")),
                );
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The types of choices and of groups of words, by the macros that declare them.
fn choice_types() -> BTreeSet<String> {
    let mut types = BTreeSet::new();
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/vocabulary");
    let mut found = Vec::new();
    sources(&root, &mut found);
    for path in found {
        let text = fs::read_to_string(path).expect("text");
        for line in text.lines().map(str::trim_start) {
            let Some(head) = line.strip_suffix(" {") else { continue };
            let head =
                head.strip_prefix("pub(crate) ").or(head.strip_prefix("pub ")).unwrap_or(head);
            let name = head.split(" of ").next().unwrap_or(head);
            let is_type = name != "Self"
                && name.starts_with(|c: char| c.is_ascii_uppercase())
                && name.chars().all(|c| c.is_ascii_alphanumeric());
            if is_type {
                types.insert(name.to_owned());
            }
        }
    }
    types
}

/// The patterns of the arms of a `match`, from behind its opening brace.
fn patterns(body: &str) -> Vec<&str> {
    let (mut depth, mut start, mut found) = (0i32, 0, Vec::new());
    let mut in_pattern = true;
    let bytes = body.as_bytes();
    for (at, byte) in body.bytes().enumerate() {
        match byte {
            b'(' | b'[' | b'{' => depth += 1,
            b')' | b']' | b'}' => {
                depth -= 1;
                if depth < 0 {
                    break;
                }
                if depth == 0 && byte == b'}' && !in_pattern {
                    // An arm with braces ends with them, but for a call on what they give.
                    if bytes.get(at + 1) != Some(&b'.') && bytes.get(at + 1) != Some(&b',') {
                        (in_pattern, start) = (true, at + 1);
                    }
                }
            }
            b'=' if depth == 0 && in_pattern && bytes.get(at + 1) == Some(&b'>') => {
                found.push(body[start..at].trim());
                in_pattern = false;
            }
            b',' if depth == 0 && !in_pattern => (in_pattern, start) = (true, at + 1),
            _ => {}
        }
    }
    found
}

/// Code without comments, and without what its texts say.
fn bare(code: &str) -> String {
    let mut bare = String::with_capacity(code.len());
    for line in code.lines().filter(|line| !line.trim_start().starts_with("//")) {
        let line =
            line.split(" // ").next().unwrap_or(line).replace("\\\"", "").replace("'\"'", "");
        bare.extend(line.split('"').step_by(2));
        bare.push('\n');
    }
    bare
}

/// A choice more does not compile before everyone who asks for it says what it
/// means: no `match` over choices has an arm for all the rest. Comparing with
/// `==` is free: it asks for one of them.
#[test]
fn no_arm_stands_for_all_other_choices() {
    let types = choice_types();
    assert!(types.contains("JointKind") && types.contains("StockKind"), "{types:?}");
    let over = |pattern: &str| {
        let own = pattern.trim_start_matches(['(', '&', ' ']);
        let own = own.strip_prefix("Some(").unwrap_or(own);
        own.split_once("::").is_some_and(|(name, _)| types.contains(name))
    };
    let mut wrong = Vec::new();
    for (name, code) in files().into_iter().filter(|(name, _)| !name.starts_with("vocabulary/")) {
        let bare = bare(&code);
        for rest in bare.split("match ").skip(1) {
            let Some((_, body)) = rest.split_once("{\n") else { continue };
            let arms = patterns(body);
            let rest = |arm: &&&str| **arm == "_" || arm.starts_with("_ if ");
            if arms.iter().any(|arm| over(arm)) && arms.iter().filter(rest).count() > 0 {
                wrong.push(format!("{name}: {arms:?}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn an_arm_for_all_the_rest_is_seen() {
    let body = "    Kind::A | Kind::B => {\n 1\n }\n Kind::C => f(a, b),\n _ => 3,\n}";
    assert_eq!(patterns(body), ["Kind::A | Kind::B", "Kind::C", "_"]);
}
