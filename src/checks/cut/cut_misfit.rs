//! A cut part that the design wants larger, or of another stock.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Figure, Fix, Grade, Severity, Sink, Sum, Term};
use crate::measure::{Exact, Length, Spanned};
use crate::model::{Cut, Fact, Piece, Size};
use crate::parts::{Part, Role};
use crate::plans::Workings;
use crate::plans::ledger::{Differs, Dimension, Ledger};

use super::{cut_again, other_use, would_do};

mod joints;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-misfit",
    severity: Severity::Error,
    finds: "A part is already cut, and the design now needs more wood than it has. The design may want it longer, wider, or thicker by more than the shop's tolerance, in another stock, or solid where a joint is already cut.",
    why: "Wood can't be put back. Change the revision to suit the part, or cut the part again.",
    source: "Our own rule; the tolerance is the shop's own. It is common practice, with no published source, that a hinge cup or a whole pull may sit 2 mm off.",
    formula: "What the design needs less what was cut, compared with `tolerance { cut … }`.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.bottom { long 35; wide 17-1/16 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let ledger = work.ledger();
    let piece = ledger.piece;
    for (part, cut) in ledger.cut().filter(|(part, cut)| ledger.is_other_stock(part, cut)) {
        sink.extend(other_stock(piece, ledger, part, cut));
    }
    for differs in ledger.too_small() {
        sink.push(too_small(piece, ledger, &differs));
    }
    for (part, cut, fit) in ledger.lost() {
        sink.extend(joints::lost(piece, part, cut, fit));
    }
}

fn other_stock<'a>(
    piece: &Piece,
    ledger: &Ledger<'a>,
    part: &Part,
    cut: &'a Cut,
) -> Option<Diagnostic> {
    let tape = piece.tape();
    let stock = piece.stock(part.stock)?;
    let thick = tape.figure(stock.thickness.length);
    let other = |it: &&Spanned<String>| stock.species.as_ref().is_some_and(|own| it.value != *own);
    let (was, span) = match (&cut.stock, cut.species.as_ref().filter(other), &cut.thick) {
        (_, Some(species), _) => (species.value.replace('-', " "), species.span),
        (Some(name), ..) if name.value != stock.name => (name.value.clone(), name.span),
        (.., Some(thick)) => (format!("a sheet {} thick", tape.figure(thick.value)), thick.span),
        _ => (String::new(), cut.name.span),
    };
    let wood = cut.species.as_ref().filter(other).and(stock.species.as_ref());
    let now = match wood {
        Some(species) => species.replace('-', " "),
        None => format!("{}, {thick} thick", stock.name),
    };
    let diagnostic = RULE
        .finding(
            format!("{} was cut from {was}, but the design now wants {now}", part.path),
            span,
            format!("cut on {}", cut.date),
        )
        .label(part.span, format!("now made of {}", stock.name));
    let diagnostic = match wood {
        Some(_) => diagnostic.label(stock.species_span, &now),
        None => diagnostic.label(stock.thickness_span, format!("{thick} thick")),
    };
    let diagnostic = diagnostic.fix(cut_again(cut)).subject(&part.path);
    Some(noted(diagnostic, used(piece, ledger, cut)))
}

fn noted(diagnostic: Diagnostic, note: Option<String>) -> Diagnostic {
    match note {
        Some(note) => diagnostic.note(note),
        None => diagnostic,
    }
}

fn too_small<'a>(piece: &Piece, ledger: &Ledger<'a>, differs: &Differs<'a>) -> Diagnostic {
    let tape = piece.tape();
    let Differs { part, cut, dimension, was, ref needs, to_blank: _ } = *differs;
    let short = needs.length - was;
    let (word, written) = match dimension {
        Dimension::Length => ("short", &cut.long),
        Dimension::Width => ("narrow", &cut.wide),
        Dimension::Thickness => ("thin", &cut.thick),
    };
    let at = written.as_ref().map_or(cut.name.span, |written| written.span);
    let mut diagnostic = RULE.finding(
        format!(
            "{} is cut {} too {word}; the design now wants {}",
            part.path,
            tape.figure(short),
            tape.text(needs.length)
        ),
        at,
        format!("{} on {}", tape.figure(was), cut.date),
    );
    let mut once = Once::default();
    for (fact, _) in piece.facts.of(needs) {
        let Some(span) = fact.origin.span().filter(|span| once.is_first(*span)) else { continue };
        diagnostic = diagnostic.label(span, format!("{} {}", fact.name, tape.figure(fact.length)));
    }
    let wanted = sum(piece, needs);
    // One figure alone is no sum.
    if wanted.terms.len() > 1 {
        diagnostic = diagnostic.sum(wanted);
    }
    let diagnostic = diagnostic
        .sum(
            Sum::new("short by", short, tape)
                .plus(needs.length, "wanted", tape)
                .minus(was, "cut", tape),
        )
        .subject(&part.path);
    let diagnostic = match as_cut(piece, differs) {
        Some(fix) => diagnostic.fix(fix),
        None => diagnostic,
    };
    let diagnostic = diagnostic.fix(cut_again(cut));
    let diagnostic = noted(diagnostic, reveal(piece, differs));
    noted(diagnostic, used(piece, ledger, cut))
}

fn used<'a>(piece: &Piece, ledger: &Ledger<'a>, cut: &'a Cut) -> Option<String> {
    let uses = other_use(piece, ledger, cut)?;
    (!uses.is_empty()).then(|| would_do(&uses))
}

/// Gives way to the part: the one figure of the sum that is a size of the
/// piece, by as much as it is short.
fn as_cut(piece: &Piece, differs: &Differs<'_>) -> Option<Fix> {
    let facts = || piece.facts.of(&differs.needs);
    let sizes: Vec<(&Fact, &str, Exact)> = facts()
        .filter_map(|(fact, factor)| {
            let word = fact.word.filter(|word| ["wide", "deep", "high"].contains(word))?;
            // A joint has two ends.
            (factor.abs() == Exact::ONE).then_some((fact, word, factor))
        })
        .collect();
    let [(fact, word, factor)] = sizes.as_slice() else { return None };
    let length = fact.length - (differs.needs.length - differs.was) / *factor;
    // A piece that comes out at half its size is no way to give way to a slip.
    let is_near = |length: &Length| length.twice() > fact.length;
    let (span, length) = (fact.origin.span()?, Some(length).filter(is_near)?);
    let figure = piece.tape().source(length);
    let title = format!("draw it as it was cut, with {} {figure}", fact.name);
    Some(Fix::new(Grade::Choice, title, span, format!("{word} {figure}")))
}

/// What the size is now a sum of.
fn sum(piece: &Piece, needs: &Size) -> Sum {
    let tape = piece.tape();
    let mut sum = Sum::new("wanted", needs.length, tape);
    let mut rest = needs.length;
    for (fact, factor) in piece.facts.of(needs) {
        rest -= fact.length * factor;
        let count = u32::try_from(factor.abs().numer()).ok().filter(|_| factor.is_whole());
        let (times, value) = match count {
            Some(count) => (count, fact.length),
            None => (1, fact.length * factor.abs()),
        };
        let minus = factor.is_negative();
        let figure = Figure::new(value, tape);
        let name = match factor.is_whole() {
            true => fact.name.clone(),
            false => format!("({} of {})", factor.abs(), fact.name),
        };
        sum.terms.push(Term { minus, times, figure, name });
    }
    if !rest.is_zero() {
        let minus = rest.is_negative();
        let figure = Figure::new(rest.abs(), tape);
        sum.terms.push(Term { minus, times: 1, figure, name: "hardware".into() });
    }
    // What is taken away reads better behind what it is taken from.
    sum.terms.sort_by_key(|term| term.minus);
    sum
}

/// A front that is too small can have wider reveals instead.
fn reveal(piece: &Piece, differs: &Differs<'_>) -> Option<String> {
    let part = Some(differs.part).filter(|part| part.role == Role::Slab)?;
    let opening = piece.opening(part.opening()?)?;
    let fronts = opening.front.as_ref()?;
    let short = differs.needs.length - differs.was;
    // Two reveals take it up; beside a pair of leaves both are short.
    let leaves =
        if differs.dimension == Dimension::Width { i64::from(opening.leaf_count()) } else { 1 };
    let gap: Length = fronts.gap.length + short * Exact::ratio(leaves, 2);
    let tape = piece.tape();
    Some(format!("with a wider gap it fits as it is: `gap {}`", tape.source(gap)))
}
