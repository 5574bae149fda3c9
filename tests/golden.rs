//! Golden papers: every paper of every demo piece stands in
//! tests/snapshots/papers as it was reviewed, line by line. Text, CSV and
//! drawings are compared letter by letter; a page and a Markdown file say what
//! their text says.

mod reading;

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use casewright::papers::{self, Format, PaperFile};
use casewright::pipeline::Compilation;
use casewright::plans::Workings;

use crate::support::demo_pieces;

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_path_buf()
}

fn packet(name: &str, compiled: &Compilation) -> Vec<PaperFile> {
    papers::packet(compiled).unwrap_or_else(|| panic!("{name}: {:#?}", compiled.diagnostics))
}

/// What is kept of a piece: a name and a text a snapshot.
fn kept(name: &str, compiled: &Compilation) -> Vec<(String, String)> {
    let mut kept = Vec::new();
    for file in packet(name, compiled) {
        match file.format {
            Format::Text | Format::Csv => kept.push((file.name, file.text)),
            // The page that leads to the others has no text beside it.
            Format::Html if file.paper == "index" => {
                let (_, body) = file.text.split_once("<body>").unwrap();
                kept.push((file.name, body.to_owned()));
            }
            Format::Html => {
                let drawings = reading::drawings(&file.text);
                if !drawings.is_empty() {
                    kept.push((format!("{}.svg", file.paper), drawings));
                }
            }
            // `tests/packet.rs` and the virtual shop read the data.
            Format::Markdown | Format::Json => {}
        }
    }
    let (Some(piece), Some(parts)) = (&compiled.piece, &compiled.parts) else {
        panic!("{name} has no parts")
    };
    kept.push((
        "measuring-form.txt".to_owned(),
        papers::measuring_form(&Workings::of(piece, parts)),
    ));
    kept
}

#[test]
fn papers_are_as_reviewed() {
    for (piece, compiled) in demo_pieces() {
        let folder = format!("snapshots/papers/{piece}");
        for (name, text) in kept(&piece, &compiled) {
            insta::with_settings!({ omit_expression => true, prepend_module_to_snapshot => false, snapshot_path => &folder }, {
                insta::assert_snapshot!(name, text);
            });
        }
    }
}

#[test]
fn every_snapshot_of_a_paper_has_its_paper() {
    let known: BTreeSet<String> = demo_pieces()
        .iter()
        .flat_map(|(piece, compiled)| {
            kept(piece, compiled).into_iter().map(move |(name, _)| format!("{piece}/{name}.snap"))
        })
        .collect();
    let mut orphans = Vec::new();
    for folder in fs::read_dir(root().join("tests/snapshots/papers")).unwrap() {
        let folder = folder.unwrap().path();
        let piece = folder.file_name().unwrap().to_string_lossy().into_owned();
        for snapshot in fs::read_dir(&folder).unwrap() {
            let name = snapshot.unwrap().file_name().to_string_lossy().into_owned();
            // One that waits for review fails the run of its own test.
            if name.ends_with(".snap.new") {
                continue;
            }
            let name = format!("{piece}/{name}");
            if !known.contains(&name) {
                orphans.push(name);
            }
        }
    }
    assert!(orphans.is_empty(), "{orphans:#?}");
}

/// The text of a paper in this format.
fn text_of<'a>(files: &'a [PaperFile], paper: &str, format: Format) -> &'a str {
    let file = files.iter().find(|file| file.paper == paper && file.format == format);
    &file.unwrap_or_else(|| panic!("{paper} lacks {format:?}")).text
}

#[test]
fn a_page_and_its_markdown_say_what_the_text_says() {
    for (name, compiled) in demo_pieces() {
        let files = packet(&name, &compiled);
        for paper in papers::PAPERS {
            let plain = text_of(&files, paper.slug, Format::Text);
            let text = reading::text(plain);
            let page = reading::html(text_of(&files, paper.slug, Format::Html));
            let markdown = reading::markdown(text_of(&files, paper.slug, Format::Markdown));
            let on_page = [&text[..], &reading::job(plain)].concat();
            reading::same(&format!("{name}, {}, page", paper.slug), &page, &on_page);
            reading::same(&format!("{name}, {}, Markdown", paper.slug), &markdown, &text);
        }
    }
}

/// The papers of the smallest demo piece.
fn first() -> Vec<PaperFile> {
    let (name, compiled) =
        demo_pieces().into_iter().find(|(name, _)| name == "first").expect("the piece");
    packet(&name, &compiled)
}

/// The comparison above can fail: no figure may differ by a digit.
#[test]
fn another_digit_in_a_page_or_its_markdown_is_seen() {
    let files = first();
    for paper in ["jig-sheet", "gaps"] {
        let page = reading::without_drawings(text_of(&files, paper, Format::Html));
        let (head, body) = page.split_once("<body>").unwrap();
        let said = reading::html(&page);
        // What ends the tag or the named letter that a place lies in.
        let mut end = None;
        for (at, c) in body.char_indices() {
            end = match (end, c) {
                (None, '<') => Some('>'),
                (None, '&') => Some(';'),
                (Some(end), c) if c == end => None,
                (end, _) => end,
            };
            if end.is_none()
                && let Some(other) = another(c)
            {
                let wrong = format!("{head}<body>{}{other}{}", &body[..at], &body[at + 1..]);
                let around = &body[..at + 1].chars().rev().take(30).collect::<String>();
                assert_ne!(reading::html(&wrong), said, "{paper}: {around}");
            }
        }
        let markdown = text_of(&files, paper, Format::Markdown);
        let said = reading::markdown(markdown);
        for (at, c) in markdown.char_indices() {
            if let Some(other) = another(c) {
                let wrong = format!("{}{other}{}", &markdown[..at], &markdown[at + 1..]);
                assert_ne!(reading::markdown(&wrong), said, "{paper}: byte {at}");
            }
        }
    }
}

/// Another digit than this one.
fn another(c: char) -> Option<char> {
    c.to_digit(10).and_then(|digit| char::from_digit((digit + 1) % 10, 10))
}

/// Nor may a line be lost, doubled or stand elsewhere, nor a tick or the sign
/// of a rounded figure.
#[test]
fn another_line_in_a_page_or_its_markdown_is_seen() {
    let files = first();
    let page = text_of(&files, "cut-list", Format::Html);
    let markdown = text_of(&files, "cut-list", Format::Markdown);
    let told = |said: &[String], wrong: &[String]| assert_ne!(said, wrong);
    let lines: Vec<&str> = page.lines().collect();
    let rows = |line: &&str| line.starts_with("<tr><th scope=\"row\"");
    let row = lines.iter().position(rows).unwrap();
    let other = lines.iter().rposition(rows).unwrap();
    let without = [&lines[..row], &lines[row + 1..]].concat();
    let doubled = [&lines[..row], &lines[row..row + 1], &lines[row..]].concat();
    let mut swapped = lines.clone();
    swapped.swap(row, other);
    let said = reading::html(page);
    for wrong in [without, doubled, swapped] {
        told(&said, &reading::html(&wrong.join("\n")));
    }
    for (from, to) in [("class=\"box\"", "class=\"box done\""), ("≈", ""), ("<h2>", "")] {
        assert!(page.contains(from), "{from}");
        told(&said, &reading::html(&page.replacen(from, to, 1)));
    }
    let said = reading::markdown(markdown);
    for (from, to) in [("| ☐ B ", "| ☑ B "), ("\\~", ""), ("## ", "")] {
        assert!(markdown.contains(from), "{from}");
        told(&said, &reading::markdown(&markdown.replacen(from, to, 1)));
    }
}
