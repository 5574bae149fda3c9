//! Boards of which nobody knows how they move.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Span, nearest};
use crate::model::{Piece, Stock};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "species-unknown",
    severity: Severity::Warning,
    finds: "Boards don't say what wood they are, or neither the built-in table nor the spec has figures for their wood.",
    why: "Without its figures, nobody can work out how the wood moves through the year, what it weighs, or how far it sags. Nothing that depends on those is checked.",
    source: "`casewright trade species` lists the woods that are known, with their sources.",
    formula: "",
    accept: "Accept it if nothing wide or loaded is made of it, or if you have judged its movement yourself.",
    example: Example {
        base: Base::First,
        sound: "stock maple   { lumber 4/4; thickness 3/4; species sugar-maple; sawn quarter }",
        wrong: "stock maple   { lumber 4/4; thickness 3/4; species hard-maple; sawn quarter }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let moves: Vec<&Stock> = super::used(piece, parts).filter(|stock| stock.is_solid()).collect();
    for stock in piece.stocks.iter().filter(|stock| stock.wood.is_none()) {
        let is_needed = moves.iter().any(|own| own.name == stock.name);
        match &stock.species {
            // Of a sheet, a lip, or what is not used yet, a name that nobody knows does no
            // harm; one that is almost known is a slip.
            Some(name) if is_needed || is_slip(piece, name) => {
                sink.push(unknown(piece, stock, name));
            }
            None if is_needed => sink.push(unsaid(stock)),
            Some(_) | None => {}
        }
    }
}

/// True for a name that is no wood's, and almost one's.
fn is_slip(piece: &Piece, name: &str) -> bool {
    let own = piece.species.iter().any(|species| species.name == name);
    !own && trade::species_named(name).is_none() && called(piece, name).is_some()
}

/// The wood that a name is another name for, or almost is.
fn called<'p>(piece: &'p Piece, name: &str) -> Option<&'p str> {
    let own = piece.species.iter().map(|species| species.name.as_str());
    let known = trade::SPECIES.iter().map(|species| species.name).chain(own);
    let also = trade::SPECIES.iter().find(|species| species.also.contains(&name));
    also.map(|species| species.name).or_else(|| nearest(name, known))
}

fn unknown(piece: &Piece, stock: &Stock, name: &str) -> Diagnostic {
    let diagnostic = RULE
        .finding(
            format!("no wood is known as `{name}`, so its movement and weight can't be worked out"),
            stock.species_span,
            "unknown species",
        )
        .subject(&stock.name);
    match called(piece, name) {
        Some(near) => diagnostic.fix(Fix::new(
            Grade::Choice,
            format!("it is `{near}`"),
            stock.species_span,
            near,
        )),
        None => diagnostic.note(
            "`casewright trade species` lists the known woods, and a `species` block adds one",
        ),
    }
}

/// The name of the stock may say what wood it is.
fn unsaid(stock: &Stock) -> Diagnostic {
    let diagnostic = RULE
        .finding(
            format!(
                "`{}` has no species, so its movement and weight can't be worked out",
                stock.name
            ),
            stock.species_span,
            "which wood is this?",
        )
        .subject(&stock.name);
    let called = |name: &str| stock.name == name || stock.name.split('-').any(|word| word == name);
    let named = trade::SPECIES
        .iter()
        .find(|species| called(species.name) || species.also.iter().any(|name| called(name)));
    let at = Span { start: stock.species_span.end, ..stock.species_span };
    match named {
        Some(species) => diagnostic.fix(Fix::new(
            Grade::Choice,
            format!("it is {}", species.name.replace('-', " ")),
            at,
            format!("; species {}", species.name),
        )),
        None => diagnostic
            .fix(Fix::new(Grade::Sketch, "write which wood it is", at, "; species …"))
            .note("`casewright trade species` lists the known woods"),
    }
}
