//! `casewright why`

use std::fmt::Write as _;

use crate::diagnostics::listed;
use crate::diagnostics::{Sources, render::plain};
use crate::editor::{self, Subject, Sum, Term, TermFrom, Thing, Unknown};
use crate::vocabulary::Origin;

use super::args::Why;
use super::check;
use super::exit::Exit;
use super::terminal::{Terminal, complain, complain_of_name};

pub(super) fn run(why: &Why, terminal: &Terminal) -> Exit {
    let Some(compiled) = check::compile(&why.spec) else { return Exit::Misused };
    let exit = check::judge(&compiled, None);
    if exit != Exit::Sound {
        check::report(&why.spec, &compiled, terminal);
    }
    if compiled.piece.is_none() {
        return exit;
    }
    // Quoted as one or not, `set-up 3` is two words.
    let words: Vec<&str> = why.words.iter().flat_map(|own| own.split_whitespace()).collect();
    let answer = match editor::answer(&compiled, &words) {
        Ok(answer) => answer,
        Err(unknown) => {
            refuse(&unknown);
            return exit.or(Exit::Unsound);
        }
    };
    let mut text = String::new();
    for why in &answer.whys {
        let name = plain(&why.name);
        let _ = match &why.thing {
            Thing::Case | Thing::Run | Thing::SetUp | Thing::Piece => writeln!(text, "{name}"),
            Thing::Opening => writeln!(text, "{name}, opening"),
            Thing::Part { mark } => writeln!(text, "{name}, mark {}", plain(mark)),
            Thing::Front => writeln!(text, "{name}, front"),
            Thing::GlueUp => writeln!(text, "{name}, glue-up"),
            Thing::Step { title } => writeln!(text, "{name}: {}", plain(title)),
        };
        let longest = why.sizes.iter().map(|sum| sum.word.chars().count()).max().unwrap_or(0);
        let width = (longest + 1).max(10);
        for sum in &why.sizes {
            print(&mut text, &compiled.sources, sum, width);
        }
        text.push('\n');
    }
    if answer.subjects.len() > 1 {
        let asked = plain(&why.words.join(" "));
        let _ = writeln!(
            text,
            "Ask for one of these alone, as in `{asked} {}`: {}.",
            first(&answer.subjects),
            all(&answer.subjects)
        );
    }
    terminal.print(&text);
    exit
}

/// A subject to show how it is asked for.
fn first(subjects: &[Subject]) -> &'static str {
    subjects.last().map_or("", |subject| subject.word())
}

fn all(subjects: &[Subject]) -> String {
    listed(&subjects.iter().map(|subject| subject.word()).collect::<Vec<_>>())
}

fn refuse(unknown: &Unknown) {
    match unknown {
        Unknown::Name { asked, known } => {
            let known = known.iter().map(String::as_str);
            complain_of_name("no part, opening, or figure", asked, known);
        }
        Unknown::Subject { name, subject, known } => complain(&format!(
            "nothing is printed of the {} of `{}`; it can be asked for its {}",
            subject.word(),
            plain(name),
            all(known)
        )),
    }
}

fn print(text: &mut String, sources: &Sources, sum: &Sum, width: usize) {
    let rounded = sum.printed.as_ref().map(|printed| format!("  (printed {printed})"));
    let word = plain(&sum.word);
    let _ = writeln!(text, "  {word:<width$}{}{}", sum.exact, rounded.unwrap_or_default());
    for term in &sum.terms {
        one(text, sources, term);
    }
}

fn one(text: &mut String, sources: &Sources, term: &Term) {
    let (name, mut from) = match &term.from {
        TermFrom::Fact { name, origin } => (name.as_str(), vec![stands(sources, *origin)]),
        TermFrom::Worked { name, how, from } => {
            let how = (!how.is_empty()).then(|| plain(how));
            let from = from.iter().map(|origin| stands(sources, *origin));
            (name.as_str(), how.into_iter().chain(from).collect())
        }
        TermFrom::Rounded => ("rounded", Vec::new()),
        TermFrom::Rest => {
            let from = "from the geometry or the hardware's own figures";
            let _ = writeln!(text, "    {:<16}{from}", term.text);
            return;
        }
    };
    from.reverse();
    let line =
        format!("    {:<15} {:<23} {}", term.text, plain(name), from.pop().unwrap_or_default());
    let _ = writeln!(text, "{}", line.trim_end());
    while let Some(more) = from.pop() {
        let _ = writeln!(text, "{:<44}{more}", "");
    }
}

/// Where a figure stands.
fn stands(sources: &Sources, origin: Origin) -> String {
    match origin {
        Origin::Written(span) | Origin::Measured(span) => {
            let file = sources.get(span.file).map_or("", |source| source.name.as_str());
            let line = sources.position(span).line;
            format!("{}:{line}  {}", plain(file), plain(sources.text(span)))
        }
        Origin::Default { block, word } => format!("default of `{word}` in `{block}`"),
    }
}
