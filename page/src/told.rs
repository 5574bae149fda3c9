//! Why the figures of a thing are what they are.

use casewright::diagnostics::Sources;
use casewright::editor::{self, Stated, Sum, Term, Thing, Why};
use casewright::pipeline::Compilation;
use serde::Serialize;

use crate::place::Place;

#[derive(Serialize)]
pub(crate) struct Told {
    name: String,
    /// `part`, `opening`, …
    thing: &'static str,
    mark: Option<String>,
    figures: Vec<Figure>,
}

#[derive(Serialize)]
struct Figure {
    /// It is a size of the thing, or one of the figures that are told of it first.
    size: bool,
    word: String,
    exact: String,
    /// As it stands on paper, where it was rounded for that.
    printed: Option<String>,
    holds: bool,
    terms: Vec<Of>,
}

#[derive(Serialize)]
struct Of {
    text: String,
    name: String,
    /// How it is worked out, or whose default it is.
    how: String,
    from: Vec<Written>,
}

#[derive(Serialize)]
struct Written {
    at: Place,
    text: String,
}

/// What of a name is printed: all that the papers say of it where there are papers.
pub(crate) fn of(compiled: &Compilation, name: &str) -> Vec<Told> {
    let whys = match editor::answer(compiled, &[name]) {
        Ok(answer) => answer.whys,
        Err(_) => editor::why(compiled, name),
    };
    whys.iter().map(|why| told(&compiled.sources, why)).collect()
}

fn told(sources: &Sources, why: &Why) -> Told {
    let (thing, mark) = match &why.thing {
        Thing::Case => ("case", None),
        Thing::Run => ("run", None),
        Thing::Opening => ("opening", None),
        Thing::Part { mark } => ("part", Some(mark.clone())),
        Thing::Front => ("front", None),
        Thing::SetUp => ("set-up", None),
        Thing::GlueUp => ("glue-up", None),
        Thing::Step { .. } => ("step", None),
        Thing::Stock => ("stock", None),
        Thing::Piece => ("piece", None),
    };
    // Of a stock there is nothing else to tell.
    let is_stock = why.thing == Thing::Stock;
    let figures = why.sizes.iter().map(|sum| figure(sources, sum, is_stock)).collect();
    Told { name: why.name.clone(), thing, mark, figures }
}

fn figure(sources: &Sources, sum: &Sum, is_first: bool) -> Figure {
    Figure {
        size: is_first || sum.about.contains(&editor::Subject::Size),
        word: sum.word.clone(),
        exact: sum.exact.clone(),
        printed: sum.printed.clone(),
        holds: sum.holds,
        terms: sum.terms.iter().map(|term| of_term(sources, term)).collect(),
    }
}

fn of_term(sources: &Sources, term: &Term) -> Of {
    let editor::Worded { name, stated } = editor::worded(term);
    let (mut how, mut from) = (Vec::new(), Vec::new());
    for own in stated {
        match own {
            Stated::Words(words) => how.push(words),
            Stated::Written(span) => from.push(Written {
                at: Place::of(sources, span),
                text: sources.text(span).to_owned(),
            }),
        }
    }
    Of { text: term.text.clone(), name: name.to_owned(), how: how.join("; "), from }
}
