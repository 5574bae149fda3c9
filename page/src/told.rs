//! Why the figures of a thing are what they are.

use casewright::diagnostics::Sources;
use casewright::editor::{self, Sum, Term, TermFrom, Thing, Why};
use casewright::pipeline::Compilation;
use casewright::vocabulary::Origin;
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
    /// It is a size of the thing, and no other figure of it.
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
        Thing::Piece => ("piece", None),
    };
    let figures = why.sizes.iter().map(|sum| figure(sources, sum)).collect();
    Told { name: why.name.clone(), thing, mark, figures }
}

fn figure(sources: &Sources, sum: &Sum) -> Figure {
    Figure {
        size: sum.about.contains(&editor::Subject::Size),
        word: sum.word.clone(),
        exact: sum.exact.clone(),
        printed: sum.printed.clone(),
        holds: sum.holds,
        terms: sum.terms.iter().map(|term| of_term(sources, term)).collect(),
    }
}

fn of_term(sources: &Sources, term: &Term) -> Of {
    let (name, how, origins) = match &term.from {
        TermFrom::Fact { name, origin } => (name.clone(), String::new(), vec![*origin]),
        TermFrom::Worked { name, how, from } => (name.clone(), how.clone(), from.clone()),
        TermFrom::Rounded => ("rounded".to_owned(), String::new(), Vec::new()),
        TermFrom::Rest => {
            let how = "from the geometry or the hardware's own figures";
            (String::new(), how.to_owned(), Vec::new())
        }
    };
    let mut hows: Vec<String> = (!how.is_empty()).then_some(how).into_iter().collect();
    let mut from = Vec::new();
    for origin in origins {
        match origin {
            Origin::Written(span) | Origin::Measured(span) => from.push(Written {
                at: Place::of(sources, span),
                text: sources.text(span).to_owned(),
            }),
            Origin::Default { block, word } => {
                hows.push(format!("default of `{word}` in `{block}`"));
            }
        }
    }
    Of { text: term.text.clone(), name, how: hows.join("; "), from }
}
