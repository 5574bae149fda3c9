//! What `why` knows, as lines of text.

use std::fmt::Write as _;

use crate::diagnostics::Sources;
use crate::diagnostics::render::plain;
use crate::measure::Span;
use crate::vocabulary::Origin;

use super::why::{Sum, Term, TermFrom, Thing, Why};

/// A thing with its figures, what each is the sum of, and where each term stands; made
/// safe to print.
#[must_use]
pub fn told(sources: &Sources, why: &Why) -> String {
    let mut text = String::new();
    let name = plain(&why.name);
    let _ = match &why.thing {
        Thing::Case | Thing::Run | Thing::SetUp | Thing::Piece => writeln!(text, "{name}"),
        Thing::Opening => writeln!(text, "{name}, opening"),
        Thing::Part { mark } => writeln!(text, "{name}, mark {}", plain(mark)),
        Thing::Front => writeln!(text, "{name}, front"),
        Thing::GlueUp => writeln!(text, "{name}, glue-up"),
        Thing::Stock => writeln!(text, "{name}, stock of boards"),
        Thing::Step { title } => writeln!(text, "{name}: {}", plain(title)),
    };
    let longest = why.sizes.iter().map(|sum| sum.word.chars().count()).max().unwrap_or(0);
    let width = (longest + 1).max(10);
    for sum in &why.sizes {
        one_sum(&mut text, sources, sum, width);
    }
    text
}

/// A figure, and below it what it is the sum of.
fn one_sum(text: &mut String, sources: &Sources, sum: &Sum, width: usize) {
    let rounded = sum.printed.as_ref().map(|printed| format!("  (printed {printed})"));
    let word = plain(&sum.word);
    let _ = writeln!(text, "  {word:<width$}{}{}", sum.exact, rounded.unwrap_or_default());
    for term in &sum.terms {
        one_term(text, sources, term);
    }
}

/// A term, with where it stands.
fn one_term(text: &mut String, sources: &Sources, term: &Term) {
    let Worded { name, stated } = worded(term);
    let told = stated.iter().map(|own| match own {
        Stated::Words(words) => plain(words),
        Stated::Written(span) => stands(sources, *span),
    });
    let mut told = told.rev().collect::<Vec<_>>();
    let first = told.pop().unwrap_or_default();
    let line = match name {
        "" => format!("    {:<16}{first}", term.text),
        name => format!("    {:<15} {:<23} {first}", term.text, plain(name)),
    };
    let _ = writeln!(text, "{}", line.trim_end());
    while let Some(more) = told.pop() {
        let _ = writeln!(text, "{:<44}{more}", "");
    }
}

/// What is said of a term beside its amount.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Worded<'a> {
    /// What it is; empty of what no single figure gives.
    pub name: &'a str,
    /// How it is worked out, and where its figures come from.
    pub stated: Vec<Stated>,
}

/// Where a figure comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Stated {
    /// How it is worked out, or whose default it is.
    Words(String),
    /// Where it is written.
    Written(Span),
}

/// A term in words.
#[must_use]
pub fn worded(term: &Term) -> Worded<'_> {
    match &term.from {
        TermFrom::Fact { name, origin } => Worded { name, stated: vec![stated(*origin)] },
        TermFrom::Worked { name, how, from } => {
            let how = (!how.is_empty()).then(|| Stated::Words(how.clone()));
            let stated = how.into_iter().chain(from.iter().copied().map(stated)).collect();
            Worded { name, stated }
        }
        TermFrom::Rounded => Worded { name: "rounded", stated: Vec::new() },
        TermFrom::Rest => {
            let from = "from the geometry or the hardware's own figures";
            Worded { name: "", stated: vec![Stated::Words(from.to_owned())] }
        }
    }
}

fn stated(origin: Origin) -> Stated {
    match origin {
        Origin::Written(span) | Origin::Measured(span) => Stated::Written(span),
        Origin::Default { block, word } => {
            Stated::Words(format!("default of `{word}` in `{block}`"))
        }
    }
}

/// A place with its line and what is written there.
fn stands(sources: &Sources, span: Span) -> String {
    let file = sources.get(span.file).map_or("", |source| source.name.as_str());
    let line = sources.position(span).line;
    format!("{}:{line}  {}", plain(file), plain(sources.text(span)))
}
