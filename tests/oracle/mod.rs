//! What must hold of any text whatever, command by command. Each of these
//! panics where it does not; fuzzing and tests both call them.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "what does not hold is told by stopping; each caller uses what it needs"
)]

mod clean;
mod markdown;
mod meaning;
mod mirror;
pub(crate) mod places;
mod typed;

use casewright::diagnostics::render::{self, Look};
use casewright::diagnostics::{self, Diagnostic, Fix, Grade, Severity, Sources};
use casewright::editor;
use casewright::measure::{FileId, Span};
use casewright::model::MemoryFiles;
use casewright::papers::{self, Format, packet};
use casewright::pipeline::{self, Compilation};
use casewright::revision::{self, Difference, Named, Verdict};
use casewright::vocabulary;

pub(crate) use clean::{csv_is_text, html_is_text, is_shown};
pub(crate) use markdown::markdown_is_text;
pub(crate) use meaning::{meaning, outcome};
pub(crate) use mirror::is_mirrored;
pub(crate) use typed::typed;

/// What the text under test is called.
const NAME: &str = "a.case";

/// The text as a spec, beside a file that it may use.
#[must_use]
pub(crate) fn compile(text: &str) -> Compilation {
    let files =
        MemoryFiles::one(NAME, text).with("shop.case", include_str!("../../specs/shop.case"));
    pipeline::check(&files, NAME).expect("a text in memory can be read")
}

/// Every place a message points at or would edit.
fn places(found: &Diagnostic) -> impl Iterator<Item = Span> {
    let labels = found.labels.iter().map(|label| label.span);
    let edits = found.fixes.iter().flat_map(|fix| &fix.edits).map(|edit| edit.span);
    std::iter::once(found.primary.span).chain(labels).chain(edits)
}

/// Messages point into the texts, and are printed in every form as letters
/// that do nothing to a terminal.
pub(crate) fn is_told(sources: &Sources, found: &[Diagnostic]) {
    for diagnostic in found {
        assert!(!diagnostic.title.is_empty(), "{diagnostic:?}");
        for span in places(diagnostic) {
            let source = sources.get(span.file);
            let within = source.is_some_and(|source| source.text.get(span.range()).is_some());
            assert!(within, "{span:?} of `{}` is not in the text", diagnostic.title);
        }
    }
    is_shown(&render::terminal(sources, found, Look::plain()));
    let narrow = Look { width: 40, unicode: false, colour: false };
    let terminal = render::terminal(sources, found, narrow);
    is_shown(&terminal);
    assert!(terminal.is_ascii(), "{terminal}");
    is_shown(&render::short(sources, found));
    let json = render::json(sources, found);
    is_shown(&json);
    for line in json.lines() {
        serde_json::from_str::<serde_json::Value>(line).expect("JSON");
    }
    for line in render::annotations(sources, found) {
        is_shown(&line);
    }
}

/// Any text has a tree, or messages that say why not.
pub(crate) fn parse(text: &str) {
    let (_, found) = vocabulary::parse(FileId(0), text);
    let mut sources = Sources::new();
    sources.add(NAME, text);
    is_told(&sources, &found);
}

/// Any text is judged, twice alike.
pub(crate) fn check(text: &str) {
    let compiled = compile(text);
    is_told(&compiled.sources, &compiled.diagnostics);
    let again = compile(text);
    assert_eq!(
        render::json(&compiled.sources, &compiled.diagnostics),
        render::json(&again.sources, &again.diagnostics),
        "judged otherwise the second time"
    );
    let has_error = compiled.diagnostics.iter().any(|found| found.severity == Severity::Error);
    assert_eq!(compiled.is_sound(), !has_error, "neither papers nor an error");
}

/// Papers come of what is sound and of nothing else, and are text, whatever
/// the spec calls its things.
pub(crate) fn papers(text: &str) {
    let compiled = compile(text);
    let packet = packet(&compiled);
    assert_eq!(packet.is_some(), compiled.is_sound());
    for file in packet.into_iter().flatten() {
        is_shown(&file.text);
        match file.format {
            Format::Html => html_is_text(&file.text),
            Format::Csv => csv_is_text(&file.text),
            Format::Markdown => markdown_is_text(&file.text),
            Format::Json => {
                serde_json::from_str::<serde_json::Value>(&file.text).expect("JSON");
            }
            Format::Text => {}
        }
        // What could not be kept prints as no number, or as the largest there is.
        let is_lost = file.text.contains("NaN") || longest_figure(&file.text) > 15;
        let asked = longest_figure(text) > 9;
        assert!(!is_lost || asked, "{}: a figure that is none", file.name);
    }
}

/// Whatever is being typed, an editor is answered: the drawing is text, and
/// each size that is known is the sum of its terms.
pub(crate) fn editor(text: &str) {
    let compiled = compile(text);
    assert_eq!(compiled.trees().len(), compiled.sources.iter().count());
    assert!(compiled.piece.is_none() || compiled.standing.is_none());
    if let Some(drawn) = papers::elevation(&compiled) {
        is_shown(&drawn);
        html_is_text(&drawn);
        assert!(!drawn.contains("NaN"), "{drawn}");
    }
    for name in editor::known_names(&compiled) {
        is_shown(&name);
        for why in editor::why(&compiled, &name) {
            assert!(!why.sizes.is_empty() || !compiled.is_sound(), "{name}");
        }
    }
}

/// How many digits stand together at most.
fn longest_figure(text: &str) -> usize {
    text.split(|c: char| !c.is_ascii_digit()).map(str::len).max().unwrap_or(0)
}

/// The formatter changes the look alone, once; what can't be read is refused.
pub(crate) fn format(text: &str) {
    let (_, found) = vocabulary::parse(FileId(0), text);
    let formatted = vocabulary::format(FileId(0), text);
    if !found.is_empty() {
        assert!(formatted.is_err(), "formatted what can't be read");
        return;
    }
    match formatted {
        Ok(once) => {
            is_formatted(text, &once);
            assert_eq!(outcome(&compile(&once)), outcome(&compile(text)));
        }
        Err(refused) => assert!(
            refused.iter().all(|found| matches!(found.slug, "line-too-long" | "file-too-large")),
            "{refused:?}"
        ),
    }
}

/// The second text is the first in its agreed look.
pub(crate) fn is_formatted(text: &str, once: &str) {
    assert_eq!(meaning(once), meaning(text), "{text}\n{once}");
    let twice = vocabulary::format(FileId(0), once);
    assert_eq!(twice.as_deref(), Ok(once), "not the same twice:\n{text}");
    assert!(once.lines().all(|line| line.trim_end() == line), "{once}");
    // Every line ends as the first one did.
    let first = text.split_inclusive('\n').next().unwrap_or("");
    let plain = once.replace("\r\n", "\n");
    let ends = if first.ends_with("\r\n") { plain.replace('\n', "\r\n") } else { plain.clone() };
    assert_eq!(once, ends, "{text:?}");
    let once = plain;
    assert!(!once.contains("\n\n\n") && !once.contains('\r'), "{once}");
    assert!(once.is_empty() || (once.ends_with('\n') && !once.ends_with("\n\n")), "{once}");
}

/// How many rounds of mending are followed.
const ROUNDS: usize = 12;

/// Every fix can be made, changes something, and keeps a text that could be
/// read readable; making all that is sure comes to an end.
pub(crate) fn mend(text: &str) {
    let compiled = compile(text);
    let named = diagnostics::named(&compiled.sources, &compiled.diagnostics);
    let readable = vocabulary::parse(FileId(0), text).1.is_empty();
    for named in &named {
        let mended = diagnostics::mend(&compiled.sources, &[named.fix]);
        assert_eq!(mended.made, 1, "{} can't be made", named.name);
        for (file, new) in &mended.texts {
            let old = &compiled.sources.get(*file).unwrap().text;
            assert_ne!(**old, **new, "{} changes nothing", named.name);
            if readable && named.fix.grade != Grade::Sketch {
                let (_, found) = vocabulary::parse(*file, new);
                let long = |found: &Diagnostic| found.slug == "line-too-long";
                assert!(found.iter().all(long), "{}:\n{new}\n{found:?}", named.name);
            }
        }
    }
    let mut seen = vec![text.to_owned()];
    for _ in 0..ROUNDS {
        let text = seen.last().unwrap();
        let compiled = compile(text);
        let is_sure = |fix: &&Fix| fix.grade == Grade::Sure;
        let sure: Vec<&Fix> =
            compiled.diagnostics.iter().filter_map(|d| d.fixes.iter().find(is_sure)).collect();
        let Some(next) = diagnostics::mend(&compiled.sources, &sure).texts.remove(&FileId(0))
        else {
            return;
        };
        assert!(!seen.contains(&next), "mending goes in a circle:\n{}", seen.join("\n--\n"));
        seen.push(next);
    }
}

/// A piece is no different from itself, and a difference read backwards says
/// the opposite, in letters in every form.
pub(crate) fn compare(text: &str) {
    let compiled = compile(text);
    let own = Named { name: NAME, compiled: &compiled };
    let same = revision::compare(own, own);
    if compiled.is_sound() {
        assert_eq!(same.verdict(), Verdict::Nothing, "{}", revision::text(&same, 80));
    }
    let others = [include_str!("../../specs/hall-console.case").to_owned(), without_a_line(text)];
    for other in others {
        let other = compile(&other);
        let difference = revision::compare(Named { name: NAME, compiled: &other }, own);
        // What is gone is told in the names of the later side.
        if keeps_names(&difference) {
            is_mirrored(&other, &compiled);
        }
        is_shown_in_every_form(&difference);
    }
}

fn keeps_names(difference: &Difference) -> bool {
    let renamed = &difference.renamed;
    let mut changed = difference.parts.changed.iter();
    renamed.openings.is_empty()
        && renamed.stocks.is_empty()
        && renamed.marks.is_empty()
        && changed.all(|part| part.was.path == part.now.path && part.was.mark == part.now.mark)
}

/// The text without the line in its middle.
fn without_a_line(text: &str) -> String {
    let lines: Vec<&str> = text.lines().collect();
    let middle = lines.len() / 2;
    let kept = lines.iter().enumerate().filter(|(index, _)| *index != middle);
    kept.map(|(_, line)| format!("{line}\n")).collect()
}

fn is_shown_in_every_form(difference: &Difference) {
    is_shown(&revision::text(difference, 80));
    is_shown(&revision::json(difference));
    let markdown = revision::markdown(difference);
    is_shown(&markdown);
    markdown_is_text(&markdown);
    let html = revision::html(difference);
    is_shown(&html);
    html_is_text(&html);
}
