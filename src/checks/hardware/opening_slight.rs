//! A niche that is left so little that nothing goes into it.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Exact, Length};
use crate::model::{Axis, Opening, OpeningKind, Piece, Size};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "opening-slight",
    severity: Severity::Warning,
    finds: "An open niche takes what the others in its list leave, and that is less than 1 in (25 mm).",
    why: "Nothing goes into it, and no cloth gets in to clean it. One of the figures beside it is a slip, or they come to almost all there is.",
    source: "Common practice, no source.",
    formula: "",
    accept: "Accept it if the slit is what you mean.",
    example: Example {
        base: Base::Alcove,
        sound: "across { open books { share 1; shelf { fixed 4 } } }",
        wrong: "partitions { joint dado { deep 6 } }\n  across { open books { wide 740; shelf { fixed 4 } }; divider; open slot { share 1 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let least = tape.unit.either(Length::inches(1, 1), Length::mm(25));
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let list = opening.parent.and_then(|parent| piece.opening(parent));
        let Some(OpeningKind::List(axis, _)) = list.map(|list| &list.kind) else { continue };
        let (size, written, how) = match axis {
            Axis::Across => (&opening.wide, opening.size_spans[0], "wide"),
            Axis::Down => (&opening.high, opening.size_spans[1], "high"),
        };
        let is_niche = matches!(opening.kind, OpeningKind::Open);
        if !is_niche || written.is_some() || size.length >= least {
            continue;
        }
        let title = format!("{} is only {} {how}", opening.path, tape.figure(size.length));
        let found = RULE
            .finding(title, opening.span, "this takes what is left")
            .sum(left(piece, size))
            .because("nothing goes into it, and it can't be cleaned")
            .subject(&opening.path);
        sink.push(match shared(piece, opening, size) {
            Some(fix) => found.fix(fix),
            None => found.note(
                "give it a figure of its own, and let another opening beside it take what is left",
            ),
        });
    }
}

/// What is left as the sum that it comes from; a share as the whole divided.
fn left(piece: &Piece, size: &Size) -> Sum {
    let tape = piece.tape();
    let mut facts: Vec<_> = piece.facts.of(size).collect();
    facts.sort_by_key(|(_, factor)| factor.is_negative());
    let parts = facts.iter().map(|(_, factor)| factor.denom()).max().unwrap_or(1);
    let is_whole = facts.iter().all(|(_, factor)| (*factor * Exact::int(parts)).is_whole());
    let parts = if is_whole { parts } else { 1 };
    let mut sum = Sum::new("leaves", size.length, tape);
    sum.over = u32::try_from(parts).unwrap_or(1);
    for (fact, factor) in facts {
        let value = fact.length * factor * parts;
        sum = match value.is_negative() {
            true => sum.minus(-value, &fact.name, tape),
            false => sum.plus(value, &fact.name, tape),
        };
    }
    sum
}

/// What takes most beside it takes a share, too, in place of its figure.
fn shared(piece: &Piece, opening: &Opening, size: &Size) -> Option<Fix> {
    let all = piece.cases.iter().flat_map(|case| &case.openings);
    let beside = all.filter(|own| own.parent == opening.parent && own.id != opening.id);
    let spans: Vec<_> = beside.flat_map(|own| own.size_spans).flatten().collect();
    let takers = piece.facts.of(size).filter(|(fact, factor)| {
        factor.is_negative() && fact.origin.span().is_some_and(|at| spans.contains(&at))
    });
    let (most, _) = takers.max_by_key(|(fact, factor)| fact.length * -*factor)?;
    let title = format!("let {} take what is left, too", most.name);
    Some(Fix::new(Grade::Choice, title, most.origin.span()?, "share 1"))
}
