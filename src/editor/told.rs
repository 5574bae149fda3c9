//! What `why` knows, as lines of text.

use std::fmt::Write as _;

use crate::diagnostics::Sources;
use crate::diagnostics::render::plain;
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
