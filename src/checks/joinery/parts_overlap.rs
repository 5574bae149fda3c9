//! Two boards in one place.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;
use crate::parts::{Assembly, Part, Role, clashes};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "parts-overlap",
    severity: Severity::Error,
    finds: "Two boards of a case take the same place, and neither is cut out for the other.",
    why: "One of them can't go in.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "stretchers 2 { wide 4 }",
        wrong: "stretchers 2 { wide 9 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// Drawers in their openings have rules of their own.
fn is_judged(part: &Part) -> bool {
    !matches!(part.assembly, Assembly::DrawerBox(_))
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    // What another rule has said already may be why they overlap.
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    for clash in clashes(parts).0 {
        let (Some(one), Some(other)) = (parts.get(clash.one), parts.get(clash.other)) else {
            continue;
        };
        if !is_judged(one) || !is_judged(other) {
            continue;
        }
        if let Some(found) = nailers(piece, [one, other], &clash.by) {
            sink.push(found);
            return;
        }
        let [wide, high, deep] = clash.by.map(|by| tape.text(by));
        let mut diagnostic = RULE
            .finding(
                format!("{} and {} take the same place", one.path, other.path),
                one.span,
                if one.span == other.span { "these boards" } else { "this board" },
            )
            .working("they share", format!("{wide} wide, {high} high, and {deep} deep"))
            .subject(&one.path);
        if one.span != other.span {
            diagnostic = diagnostic.label(other.span, "and this one");
        }
        if let Some(case) = piece.case(one.case)
            && one.role == Role::Stretcher
            && other.role == Role::Stretcher
        {
            let label = format!("{} deep", tape.figure(case.deep.length));
            diagnostic = diagnostic.label(case.deep_span, label);
        }
        let both = [one, other];
        let is_front = |part: &&Part| {
            matches!(part.assembly, Assembly::Front(_)) || part.role == Role::HoldingBlock
        };
        if both.iter().any(is_front) && both.iter().any(|part| part.role == Role::Packer) {
            diagnostic = diagnostic.note(
                "put a `divider` between the two openings, so that the slide has a board beside it",
            );
        }
        if both.iter().any(|part| part.role == Role::Bottom)
            && piece
                .case(one.case)
                .and_then(|case| case.frame.as_ref())
                .is_some_and(|frame| frame.bottom.is_none())
        {
            diagnostic = diagnostic.note(
                "the frame has no bottom rail, so the openings above it reach below the bottom; write `rail bottom` in it",
            );
        }
        let [.., deep] = clash.by;
        sink.push(match clear_of_blocks(piece, both, deep) {
            Some(fix) => diagnostic.fix(fix),
            None => diagnostic,
        });
        return;
    }
}

/// The two nailers of a case that is too low for both.
fn nailers(piece: &Piece, both: [&Part; 2], by: &[Length; 3]) -> Option<Diagnostic> {
    let [one, other] = both;
    if !matches!((one.role, other.role), (Role::Nailer(_), Role::Nailer(_))) {
        return None;
    }
    let (tape, case) = (piece.tape(), piece.case(one.case)?);
    let (own, [_, high, _]) = (&case.nailers, *by);
    let wide = one.width.length;
    let at = piece.facts.written(&case.high).unwrap_or(case.span);
    let room = wide.twice() - high;
    let mut found = RULE
        .finding(
            format!("{} is too low for two nailers; they take the same place", case.name),
            at,
            format!("{} high", tape.figure(case.overall_high().length)),
        )
        .label(own.span, format!("two nailers, {} wide each", tape.figure(wide)))
        .sum(Sum::new("short by", high, tape).plus(wide.twice(), "two nailers", tape).minus(
            room,
            "room for them",
            tape,
        ))
        .because("one of them can't go in")
        .subject(&one.path);
    let Some(said_at) = own.said_at else { return Some(found) };
    found = found.fix(said_at.says("nailers 1", "leave out the lower one"));
    let narrower = tape.down(wide - high.half());
    // What two rows of wall screws go through.
    if said_at.is_added() && narrower >= tape.unit.either(Length::inches(2, 1), Length::mm(50)) {
        let statement = format!("nailers 2 {{ wide {} }}", tape.source(narrower));
        let title = format!("make both {} wide", tape.figure(narrower));
        found = found.fix(said_at.says(&statement, title));
    }
    Some(found)
}

/// A loose shelf clears the block of a hinge where it stands back behind it by what they share.
fn clear_of_blocks(piece: &Piece, both: [&Part; 2], deep: Length) -> Option<Fix> {
    let is = |role: Role| both.iter().any(|part| part.role == role);
    if !is(Role::HingeBlock) && !is(Role::HoldingBlock) || !is(Role::AdjustableShelf) {
        return None;
    }
    let shelves = &piece.case(both[0].case)?.shelves;
    let tape = piece.tape();
    let back = tape.up(shelves.set_back.length + deep);
    let statement = format!("set-back {}", tape.source(back));
    Some(shelves.set_back_at.says(&statement, "stand the shelves behind the blocks"))
}
