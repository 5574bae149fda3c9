//! A hinge where a fixed board stands.

use crate::checks::once::Once;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::measure::{Length, Tape};
use crate::model::{Axis, Piece};
use crate::parts::{self, Assembly, Direction, Part, Reach, Role};
use crate::plans::Workings;

use super::slide_room;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hinge-hits-shelf",
    severity: Severity::Error,
    finds: "A cup hinge, or the block that carries its plate, sits at the height of a board or a packer. The board may be a fixed shelf, a divider, the bottom, the top, or a tray or drawer behind the door; the packer carries a slide.",
    why: "Behind the closed door the hinge's cup and arm need room. Where a fixed board is in the way, the door won't close.",
    source: "Common practice; no published source: 20 mm above and below the center of the cup, and 60 mm deep from the back of the door.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "shelf { adjustable 1 }",
        wrong: "shelf { fixed 5 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for case in &piece.cases {
        let own = parts.of_case(case.id);
        let fixed: Vec<&Part> =
            own.iter().filter(|part| parts::is_behind_hinges(piece, part)).collect();
        let mut once = Once::default();
        for hinge in own.iter().flat_map(parts::reaches) {
            let hit = fixed.iter().find(|part| part.cuboid().overlaps(&hinge.space));
            let first = |board: &&&Part| once.is_first((&hinge.part.path, board.span));
            let Some(board) = hit.filter(first) else { continue };
            let stands = board.cuboid();
            let center = hinge.center();
            let needs = hinge.space.size(Direction::Y).half();
            let gap = (stands.from.y - center).max(center - stands.to.y).max(Length::ZERO);
            sink.push(
                RULE.finding(
                    title(hinge.part, board, gap, needs, tape),
                    board.span,
                    format!(
                        "from {} to {} above the floor",
                        tape.text(stands.from.y),
                        tape.text(stands.to.y)
                    ),
                )
                .label(hinge.span, format!("hinge {} above the floor", tape.text(center)))
                .sum(Sum::new("short by", needs - gap, tape).plus(needs, "needed", tape).minus(
                    gap,
                    "to the board",
                    tape,
                ))
                .because("the cup and the arm strike the board before the door is shut")
                .note(moved(work, &hinge, board, &fixed))
                .subject(&hinge.part.path),
            );
        }
    }
}

/// Where else the hinge may be, and what else helps.
fn moved(work: &Workings<'_>, hinge: &Reach<'_>, board: &Part, fixed: &[&Part]) -> String {
    let tape = work.piece.tape();
    let lower = clear(work.piece, hinge, board, fixed, false).map(|at| tape.figure(tape.down(at)));
    let higher = clear(work.piece, hinge, board, fixed, true).map(|at| tape.figure(tape.up(at)));
    let where_to = match (lower, higher) {
        (Some(lower), Some(higher)) => format!("no higher than {lower} or no lower than {higher}"),
        (Some(lower), None) => format!("no higher than {lower}"),
        (None, Some(higher)) => format!("no lower than {higher}"),
        (None, None) => {
            let way = otherwise(work, hinge, board);
            return format!(
                "at no height of this door is a hinge clear of what stands behind it: {}",
                way.unwrap_or_else(|| "leave more room between two of those boards".to_owned())
            );
        }
    };
    let way = otherwise(work, hinge, board).map_or(String::new(), |way| format!("; or {way}"));
    format!(
        "move the hinge so that its center is {where_to} above the floor: `from-end` moves it on all doors; to move it on this door alone, write `from-bottom` or `from-top` after `hinge` in its `front`, or change its number of hinges{way}"
    )
}

/// The nearest center below or above a board where the hinge is clear of all boards and on its
/// door, or its block within the opening; `None` where none is.
fn clear(
    piece: &Piece,
    hinge: &Reach<'_>,
    board: &Part,
    fixed: &[&Part],
    up: bool,
) -> Option<Length> {
    let needs = hinge.space.size(Direction::Y).half();
    let beside = |board: &Part| match (up, board.cuboid()) {
        (true, own) => own.to.y + needs,
        (false, own) => own.from.y - needs,
    };
    let mut center = beside(board);
    // Each board is passed once at the most.
    for _ in fixed {
        let mut space = hinge.space;
        space.from.set(Direction::Y, center - needs);
        space.to.set(Direction::Y, center + needs);
        match fixed.iter().find(|own| own.cuboid().overlaps(&space)) {
            Some(own) => center = beside(own),
            None => break,
        }
    }
    let (low, high) = match hinge.part.role {
        Role::HingeBlock => {
            let own = piece.opening(hinge.part.opening()?)?;
            (own.y, own.y + own.as_built(Axis::Down).length)
        }
        _ => hinge.part.extent(Direction::Y),
    };
    (low + needs <= center && center + needs <= high).then_some(center)
}

/// What else helps than another place of the hinge.
fn otherwise(work: &Workings<'_>, hinge: &Reach<'_>, board: &Part) -> Option<String> {
    if board.role == Role::FixedShelf {
        return Some("make the shelf `adjustable`".to_owned());
    }
    let back = set_back(work, hinge, board)?;
    Some(format!("let the front stand behind it with `set-back {back}`"))
}

/// How far a drawer or tray behind doors is set back where it stands behind the hinge, up
/// to the next mark of the tape; `None` where its slide then finds no room.
fn set_back(work: &Workings<'_>, hinge: &Reach<'_>, board: &Part) -> Option<String> {
    let (piece, tape) = (work.piece, work.piece.tape());
    let opening = piece.opening(board.opening()?)?;
    piece.door_before(opening.id)?;
    let own = opening.front.as_ref().filter(|_| matches!(board.assembly, Assembly::DrawerBox(_)));
    let front = own.map_or(Length::ZERO, |fronts| piece.thickness(fronts.stock).length);
    let face = board.cuboid().from.z - front;
    let back = tape.up(opening.set_back.length + hinge.space.to.z - face);
    let spare = slide_room::spare(work, opening)?;
    (spare >= back - opening.set_back.length).then(|| tape.figure(back))
}

fn title(door: &Part, board: &Part, gap: Length, needs: Length, tape: &Tape) -> String {
    let needs = tape.figure(needs);
    match gap.is_positive() {
        true => format!(
            "a hinge of {} is {} from {} and needs {needs}",
            door.path,
            tape.text(gap),
            board.path
        ),
        false => format!(
            "a hinge of {} is at the height of {} and needs {needs} clear of it",
            door.path, board.path
        ),
    }
}
