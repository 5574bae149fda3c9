//! A part where a pipe, socket or trap is.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::Length;
use crate::model::Piece;
use crate::parts::{
    Assembly, Cuboid, Direction, FeatureKind, Part, Role, is_cut_round, keep_out_space,
};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "keep-out-hit",
    severity: Severity::Error,
    finds: "A part stands where the site has a keep-out. A back is cut around it in the shop, by what was measured in the house. A drawer or a case that says `around` is cut around it too.",
    why: "On the day you install the piece, it won't go up against the wall.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "site { left open; right open; fixing wall; humidity 30% to 55% }",
        wrong: "site { left open; right open; fixing wall; humidity 30% to 55%; keep-out \"socket\" { from-left 10; up 3; wide 4; high 4; deep 2 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// What begins higher above the floor is no baseboard (common practice, no source).
const LOW: Length = Length::mm(300);

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for keep_out in &piece.site.keep_outs {
        let space = keep_out_space(piece, keep_out);
        let hit = parts.all.iter().find(|part| {
            // A back is cut out where the pipe was measured.
            part.role != Role::Back && touches(part, &space)
        });
        let Some(part) = hit else { continue };
        let tape = piece.tape();
        let by = |d: Direction| part.cuboid().overlap_along(&space, d);
        let mut diagnostic = RULE
            .finding(
                format!(
                    "{} stands in the {}; they share a space {} wide, {} high, and {} deep",
                    part.path,
                    keep_out.name,
                    tape.text(by(Direction::X)),
                    tape.text(by(Direction::Y)),
                    tape.text(by(Direction::Z))
                ),
                part.span,
                "this part",
            )
            .label(keep_out.span, "this must stay clear")
            .subject(&part.path);
        let holder = match part.assembly {
            Assembly::DrawerBox(_) => Some("the drawer to cut its box"),
            Assembly::Carcass(_) | Assembly::Loose(_)
                if is_cut_round(part.role) && !is_severed(part, &space) =>
            {
                Some("the case to cut its boards")
            }
            Assembly::Carcass(_)
            | Assembly::Loose(_)
            | Assembly::Base(_)
            | Assembly::Frame(_)
            | Assembly::Countertop(_)
            | Assembly::Filler(..)
            | Assembly::Front(_) => None,
        };
        diagnostic = match holder {
            Some(holder) => diagnostic
                .note(format!("write `around \"{}\"` in {holder} around it", keep_out.name)),
            None => uncut(piece, part, &space, diagnostic),
        };
        if let Some(fix) = hung_higher(piece, part, &space) {
            diagnostic = diagnostic.fix(fix);
        }
        sink.push(diagnostic);
    }
}

/// The height above the floor at which a case that hangs is clear of what is below it.
fn hung_higher(piece: &Piece, part: &Part, space: &Cuboid) -> Option<Fix> {
    let tape = piece.tape();
    let case = piece.case(part.case)?;
    let up = &case.hung.as_ref()?.up;
    let at = piece.facts.written(up)?;
    let by = space.to.y - case.base_high().length;
    // What reaches past half of its height is beside it and not below it.
    let own = case.high.length - case.base_high().length;
    if !by.is_positive() || by.twice() > own {
        return None;
    }
    let clear = tape.up(up.length + by);
    let title = format!("hang it {} above the floor, clear of that", tape.figure(clear));
    Some(Fix::new(Grade::Choice, title, at, format!("up {}", tape.source(clear))))
}

/// What helps where a part that nothing is cut out of stands in a keep-out.
fn uncut(piece: &Piece, part: &Part, space: &Cuboid, found: Diagnostic) -> Diagnostic {
    let tape = piece.tape();
    let (from, to) = part.extent(Direction::X);
    match part.role {
        Role::End(_) => {
            let [left, right] =
                [to - space.from.x, space.to.x - from].map(|by| tape.figure(tape.up(by)));
            let in_run = piece.case(part.case).is_some_and(|case| case.run.is_some());
            let found = found.because("an end is not cut, even where its case says `around`").note(format!(
                "it is clear {left} farther to the left or {right} farther to the right: {}, or stand the case elsewhere",
                match in_run {
                    true => "give the case another width, or put a `filler` beside it",
                    false => "make the case narrower or wider",
                }
            ));
            let stands = piece.case(part.case).is_some_and(|case| case.hung.is_none());
            match stands && space.from.y < LOW {
                true => found.note("a baseboard that stays is written `baseboard { high …; thick … }` in `site`: ends are notched for it"),
                false => found,
            }
        }
        Role::BaseMember | Role::BaseLeg | Role::Leg | Role::Kick => found
            .because("a base is not cut, even where its case says `around`")
            .note("a base that is `cut-into ends` has no board at the wall"),
        _ if is_severed(part, space) => found.note(
            "`around` would cut this board in two: move or leave out the board, or end what stands there below it",
        ),
        _ => found,
    }
}

/// True where it reaches across the whole of a board, so that a cut round it leaves two pieces.
fn is_severed(part: &Part, space: &Cuboid) -> bool {
    let own = part.cuboid();
    let mut across = Direction::ALL.into_iter().filter(|own| *own != part.placement.length);
    across.all(|way| {
        space.from.along(way) <= own.from.along(way) && own.to.along(way) <= space.to.along(way)
    })
}

/// True where the part, less its notches, shares space with the keep-out.
pub(super) fn touches(part: &Part, space: &Cuboid) -> bool {
    if !part.cuboid().overlaps(space) {
        return false;
    }
    let notches = part.features.iter().filter(|f| f.kind == FeatureKind::Notch);
    !part.makes_way(space, notches)
}
