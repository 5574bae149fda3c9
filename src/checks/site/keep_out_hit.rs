//! A part where a pipe, socket or trap is.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::{KeepOutId, OpeningKind, Piece};
use crate::parts::{Assembly, Cuboid, Direction, FeatureKind, Part, Role, keep_out_space};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "keep-out-hit",
    severity: Severity::Error,
    finds: "A part stands where the site has a keep-out. A back may be cut round it on site, and a drawer that says `around` is cut round it.",
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

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    for (index, keep_out) in piece.site.keep_outs.iter().enumerate() {
        let space = keep_out_space(piece, keep_out);
        let hit = parts.all.iter().find(|part| {
            // A back is cut out on site, where the pipe can be measured.
            part.role != Role::Back
                && !cut_round(piece, part, KeepOutId(index))
                && touches(part, &space)
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
        if matches!(part.assembly, Assembly::DrawerBox(_)) {
            diagnostic = diagnostic.note(format!(
                "write `around \"{}\"` in a drawer to cut it round this",
                keep_out.name
            ));
        }
        sink.push(diagnostic);
    }
}

fn cut_round(piece: &Piece, part: &Part, keep_out: KeepOutId) -> bool {
    let Assembly::DrawerBox(opening) = part.assembly else { return false };
    let opening = piece.opening(opening);
    opening.is_some_and(|o| matches!(o.kind, OpeningKind::Drawer { around: Some(around), .. } if around == keep_out))
}

/// True where the part, less its notches, shares space with the keep-out.
fn touches(part: &Part, space: &Cuboid) -> bool {
    if !part.cuboid().overlaps(space) {
        return false;
    }
    let notches = part.features.iter().filter(|f| f.kind == FeatureKind::Notch);
    !part.makes_way(space, notches)
}
