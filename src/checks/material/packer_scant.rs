//! A packer beside a slide, or a guide beside a drawer on wood, that is too thin to plane.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Exact, Length};
use crate::model::Piece;
use crate::parts::{Part, Role};
use crate::plans::Workings;
use crate::trade;
use crate::vocabulary::Origin;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "packer-scant",
    severity: Severity::Warning,
    finds: "A packer beside a drawer slide, or a guide beside a drawer on wood, is thinner than 1/8 in (3 mm).",
    why: "A planer tears so thin a strip to pieces, the screws of a slide split it, and a guide is planed thinner still toward its rear end. So small a difference usually comes from a wrong figure for the width of a stile.",
    source: "1/8 in as the thinnest that is planed, on a sled: common practice; no published source.",
    formula: "How far the edge of the opening stands past the board that the slide is screwed to, or that the drawer runs beside.",
    accept: "Accept it if you plane the strip on a sled, or make up the difference with veneer or card.",
    example: Example {
        base: Base::First,
        sound: "stile right { wide 1-3/4 }",
        wrong: "stile right { wide 3/4 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let least = trade::thinnest_planed(piece.tape().unit);
    for part in parts.all.iter().filter(|part| matches!(part.role, Role::Packer | Role::Guide)) {
        let thick = part.thickness.length;
        if thick.is_positive() && thick < least {
            sink.push(finding(piece, part, least));
        }
    }
}

fn finding(piece: &Piece, part: &Part, least: Length) -> Diagnostic {
    let tape = piece.tape();
    let thick = part.thickness.length;
    let facts = || piece.facts.of(&part.thickness);
    // The width that it is left of: the largest figure in it that is written.
    let written = facts()
        .filter(|(_, factor)| factor.is_positive())
        .filter(|(fact, _)| matches!(fact.origin, Origin::Written(_)))
        .max_by_key(|(fact, factor)| fact.length * *factor);
    let at = written.as_ref().and_then(|(fact, _)| fact.origin.span()).unwrap_or(part.span);
    let is_guide = part.role == Role::Guide;
    let noun = if is_guide { "guide" } else { "packer" };
    let mut sum = Sum::new(noun, thick, tape);
    for (fact, factor) in facts() {
        let value = fact.length * factor;
        sum = match value.is_negative() {
            true => sum.minus(-value, &fact.name, tape),
            false => sum.plus(value, &fact.name, tape),
        };
    }
    let label = written.as_ref().map_or_else(
        || format!("this {noun}"),
        |(fact, _)| format!("{} {}", tape.figure(fact.length), fact.word.unwrap_or_default()),
    );
    let mut found = RULE
        .finding(
            format!("{} comes out {} thick, too thin to plane", part.path, tape.figure(thick)),
            at,
            label.trim_end(),
        )
        .sum(sum)
        .because(match is_guide {
            true => "a planer tears so thin a strip, and a guide is planed thinner still toward its rear end",
            false => "a planer tears so thin a strip, and the screws of the slide split it",
        })
        .subject(&part.path);
    if let Some(opening) = part.opening().and_then(|id| piece.opening(id)) {
        let label = if is_guide { "beside this drawer" } else { "the slide of this drawer" };
        found = found.label(opening.span, label);
    }
    // So little is made up with what comes in so thin a sheet.
    if thick < least.half() {
        found = found.note(match is_guide {
            true => "glue veneer to the board beside the drawer instead, and accept this",
            false => "shim the slide with veneer or card instead, and accept this",
        });
    }
    let Some((fact, factor)) = written else { return found };
    // A stile between two drawers has half of it at each.
    let parts = match factor {
        Exact::ONE => 1,
        _ if factor == Exact::ratio(1, 2) => 2,
        _ => return found,
    };
    let Some(word) = fact.word else { return found };
    let flush = fact.length - thick * parts;
    let thicker = tape.up(fact.length + (least - thick) * parts);
    let offer = |length: Length, title: String| {
        Fix::new(Grade::Choice, title, at, format!("{word} {}", tape.source(length)))
    };
    if flush.is_positive() {
        found = found.fix(offer(flush, format!("end it flush with the board; no {noun}")));
    }
    found.fix(offer(thicker, format!("leave room for a {noun} {} thick", tape.figure(least))))
}
