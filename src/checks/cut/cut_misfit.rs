//! A cut part that the design wants larger, or of another stock.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Figure, Fix, Grade, Severity, Sink, Sum, Term};
use crate::measure::{Exact, Length, Span};
use crate::model::{Cut, Piece, Size};
use crate::parts::{Face, Part, Parts, Role};
use crate::plans::ledger::{Differs, Ledger, Side};
use crate::plans::made::{Fit, Moved};

use super::other_use;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cut-misfit",
    severity: Severity::Error,
    finds: "A part that is cut already and that the design now wants longer, wider or thicker than it was cut, by more than the shop's tolerance, or of another stock, or with a joint elsewhere than where it was made.",
    why: "Wood can't be put back. Either the revision gives way to the part, or the part is cut again.",
    source: "Ours; the tolerance is the shop's own.",
    formula: "what the design needs − what was cut, against `tolerance { cut … }`.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\ncut 2026-03-14 { cupboard.bottom { long 35 } }",
    },
    check: Check::Parts(check),
};

fn check(piece: &Piece, parts: &Parts, sink: &mut Sink) {
    if piece.cuts.is_empty() {
        return;
    }
    let ledger = Ledger::of(piece, parts);
    for (part, cut) in ledger.cut().filter(|(part, cut)| ledger.is_other_stock(part, cut)) {
        sink.extend(other_stock(piece, &ledger, part, cut));
    }
    for differs in ledger.too_small() {
        sink.push(too_small(piece, &ledger, &differs));
    }
    for (part, cut, fit) in ledger.moved() {
        sink.extend(joints(piece, part, cut, &fit));
    }
}

fn cut_again(cut: &Cut) -> Fix {
    let (at, before, after) = cut.add;
    Fix::new(Grade::Choice, "cut it again", at, format!("{before}spoiled{after}"))
}

fn other_stock(piece: &Piece, ledger: &Ledger<'_>, part: &Part, cut: &Cut) -> Option<Diagnostic> {
    let tape = piece.tape();
    let stock = piece.stock(part.stock)?;
    let thick = tape.figure(stock.thickness.length);
    let (was, span) = match (&cut.stock, &cut.thick) {
        (Some(name), _) if name.value != stock.name => (name.value.clone(), name.span),
        (_, Some(thick)) => (format!("a sheet {} thick", tape.figure(thick.value)), thick.span),
        _ => (String::new(), cut.name.span),
    };
    let diagnostic = Diagnostic::error(
        RULE.slug,
        format!("{} was cut from {was}, and is to be of {}, {thick} thick", part.path, stock.name),
        span,
        format!("cut on {}", cut.date),
    )
    .label(part.span, format!("now of {}", stock.name))
    .label(stock.thickness_span, format!("{thick} thick"));
    let diagnostic = diagnostic.fix(cut_again(cut)).subject(&part.path);
    Some(noted(diagnostic, other_use(piece, ledger, cut)))
}

/// Joints in the wood that are drawn elsewhere now, or not at all.
fn joints(piece: &Piece, part: &Part, cut: &Cut, fit: &Fit<'_>) -> Option<Diagnostic> {
    let tape = piece.tape();
    let [first, rest @ ..] = fit.moved.as_slice() else { return None };
    let from = |moved: &Moved<'_>| {
        let face = if moved.along { Face::LengthStart } else { Face::WidthStart };
        part.face_name(face)
    };
    // Two places that the tape shows alike are told exactly.
    let figure = |own: Length, other: Length| {
        let (text, other) = (tape.figure(own), tape.figure(other));
        if text == other { tape.exact(own) } else { text }
    };
    let place = |moved: &Moved<'_>| {
        let word = moved.made.word.value.replace('-', " ");
        let was = match moved.wanted {
            Some((wanted, _)) => figure(moved.was, wanted),
            None => tape.figure(moved.was),
        };
        format!("{word} {was} from the {}", from(moved))
    };
    let now = |moved: &Moved<'_>| match moved.wanted {
        Some((wanted, _)) => {
            format!("the design now wants it at {}", figure(wanted, moved.was))
        }
        None => "the design has none there any more".to_owned(),
    };
    let mut diagnostic = Diagnostic::error(
        RULE.slug,
        format!("{} has its {}: {}", part.path, place(first), now(first)),
        first.made.span,
        format!("made on {}", cut.date),
    );
    if let Some((wanted, span)) = first.wanted {
        let mut sides = [(first.was, "made"), (wanted, "wanted")];
        sides.sort_by_key(|(place, _)| *place);
        let [(less, low), (more, high)] = sides;
        let sum =
            Sum::new("off by", more - less, tape).plus(more, high, tape).minus(less, low, tape);
        diagnostic = diagnostic.label(span, figure(wanted, first.was)).sum(sum);
    }
    for moved in rest.iter().take(3) {
        diagnostic = diagnostic.note(format!("and its {}: {}", place(moved), now(moved)));
    }
    if first.wanted.is_none() {
        diagnostic =
            diagnostic.note("one that is filled or does no harm can be taken out of the record");
    }
    Some(diagnostic.fix(cut_again(cut)).subject(&part.path))
}

fn noted(diagnostic: Diagnostic, note: Option<String>) -> Diagnostic {
    match note {
        Some(note) => diagnostic.note(note),
        None => diagnostic,
    }
}

fn too_small(piece: &Piece, ledger: &Ledger<'_>, differs: &Differs<'_>) -> Diagnostic {
    let tape = piece.tape();
    let Differs { part, cut, side, was, needs } = *differs;
    let short = needs.length - was;
    let (word, written) = match side {
        Side::Length => ("short", &cut.long),
        Side::Width => ("narrow", &cut.wide),
        Side::Thickness => ("thin", &cut.thick),
    };
    let at = written.as_ref().map_or(cut.name.span, |written| written.span);
    let mut diagnostic = Diagnostic::error(
        RULE.slug,
        format!(
            "{} is cut {} too {word}: the design now wants {}",
            part.path,
            tape.figure(short),
            tape.text(needs.length)
        ),
        at,
        format!("{} on {}", tape.figure(was), cut.date),
    );
    let mut told: Vec<Span> = Vec::new();
    for (fact, _) in piece.facts.of(needs) {
        let Some(span) = fact.origin.span().filter(|span| !told.contains(span)) else { continue };
        told.push(span);
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
        .fix(cut_again(cut))
        .subject(&part.path);
    let diagnostic = noted(diagnostic, reveal(piece, differs));
    noted(diagnostic, other_use(piece, ledger, cut))
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
    let (opening, _) = part.path.rsplit_once('.')?;
    let case = piece.cases.get(part.case)?;
    let opening = case.openings.iter().find(|known| known.path == opening && known.is_leaf())?;
    let fronts = opening.front.as_ref()?;
    let short = differs.needs.length - differs.was;
    // Two reveals take it up; beside a pair of leaves both are short.
    let leaves = if differs.side == Side::Width { i64::from(opening.leaves()) } else { 1 };
    let gap: Length = fronts.gap.length + short * Exact::ratio(leaves, 2);
    let tape = piece.tape();
    Some(format!("or give it wider reveals, so that it fits as it is: `gap {}`", tape.source(gap)))
}
