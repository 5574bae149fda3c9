//! The screw of a drawer's pull, on its way through the box behind the front.

use crate::checks::hardware;
use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::{Length, Span};
use crate::model::{DrawerBoxes, FrontId, Leaf, Opening, OpeningKind, Piece, Pull};
use crate::parts::{Assembly, Bore, Cuboid, Direction, Part, Role};
use crate::plans::Workings;

use super::bores;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "pull-meets-box",
    severity: Severity::Warning,
    finds: "The screw of a drawer pull passes through the front of the box and runs into the bottom's groove or the end of a side, or it meets an edge of the box.",
    why: "The screw goes through the drawer front and the front of the box, and it is tightened from inside. In the groove its head bears on the edge of the bottom, and at a side there is no room for the head and the driver. At an edge of the box its head bears on half of its hole. A tall front may have its pull clear above a low box: the screw then holds in the drawer front alone, and is driven from behind it.",
    source: "Plane geometry. How far a head reaches beyond its hole is common practice, no source.",
    formula: "A screw clears the box where its hole lies 3/16 in (5 mm) or more beside it.",
    accept: "Accept it if the pull is fixed from the front, or if its screws end inside the drawer front.",
    example: Example {
        base: Base::Chest,
        sound: "groove        { up 1/2; deep 1/4 }",
        wrong: "groove        { up 2-5/8; deep 1/4 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    // A box that is too big is told, and so is a hole that is not in its front.
    let mut told = hardware::box_too_big::RULE.told(sink);
    told.extend(super::pull_off_front::RULE.told(sink));
    for case in &piece.cases {
        let Some(boxes) = &case.drawers else { continue };
        for opening in case.openings.iter().filter(|opening| !told.contains(&opening.path)) {
            let OpeningKind::Drawer { slide: Some(_), .. } = opening.kind else { continue };
            let pull = opening.front.as_ref().and_then(|front| front.pull);
            let Some(pull) = pull.and_then(|pull| piece.pull(pull)) else { continue };
            let drawer = Drawer { piece, parts: parts.of_case(case.id), boxes, opening, pull };
            sink.extend(drawer.look());
        }
    }
}

struct Drawer<'a> {
    piece: &'a Piece,
    parts: &'a [Part],
    boxes: &'a DrawerBoxes,
    opening: &'a Opening,
    pull: &'a Pull,
}

impl Drawer<'_> {
    fn look(&self) -> Option<Diagnostic> {
        let front = Assembly::Front(FrontId { opening: self.opening.id, leaf: Leaf::Front });
        let own = Assembly::DrawerBox(self.opening.id);
        let of = |role| {
            self.parts
                .iter()
                .filter(move |part| part.role == role)
                .find(|part| part.assembly == own)
        };
        let (face, bottom) = (of(Role::DrawerFront)?, of(Role::DrawerBottom)?);
        let sides: Vec<Cuboid> = self
            .parts
            .iter()
            .filter(|part| part.role == Role::DrawerSide && part.assembly == own)
            .map(Part::cuboid)
            .collect();
        let holes = self
            .parts
            .iter()
            .filter(|part| part.assembly == front)
            .flat_map(|part| bores(part).map(move |(bore, kind)| (part, bore, kind)))
            .filter(|(.., kind)| *kind == Bore::Pull)
            .flat_map(|(part, bore, _)| part.hollows(bore));
        let mut worst: Option<(Met, Cuboid)> = None;
        for hole in holes {
            for met in self.meets(&hole, face, bottom, &sides) {
                let most = worst.as_ref().map_or(Length::ZERO, |(most, _)| most.by());
                if met.by() > most {
                    worst = Some((met, hole));
                }
            }
        }
        let (met, hole) = worst?;
        let tape = self.piece.tape();
        let base = face.cuboid().from;
        let up = (hole.from.y + hole.to.y).half() - base.y;
        let screw = tape.text(self.pull.screw);
        Some(
            RULE.finding(
                format!(
                    "the screw of the pull of {} {} by {}",
                    self.opening.path,
                    met.what,
                    tape.figure(met.by())
                ),
                self.pull.span,
                format!("hole {screw}"),
            )
            .label(met.span, format!("the hole lies {} up the box", tape.text(up)))
            .sum(
                Sum::new("shared", met.by(), tape)
                    .plus(met.to, met.upper, tape)
                    .minus(met.from, met.lower, tape),
            )
            .because("its head can't be tightened from inside the drawer")
            .note("change the height with `up`, change `centers`, or move the groove")
            .subject(&self.opening.path)
            .urgency(met.by() / Length::mm(1)),
        )
    }

    /// What a hole may meet on its way.
    fn meets(&self, hole: &Cuboid, face: &Part, bottom: &Part, sides: &[Cuboid]) -> Vec<Met> {
        let space = face.cuboid();
        let head = self.piece.tape().unit.either(Length::inches(3, 16), Length::mm(5));
        let clear = hole.from.y >= space.to.y + head || hole.to.y <= space.from.y - head;
        if clear {
            return Vec::new();
        }
        // Counted from the lower or left edge of the front of the box.
        let shared = |other: &Cuboid, direction: Direction, what, span| {
            let base = space.from.along(direction);
            let hole = (hole.from.along(direction) - base, hole.to.along(direction) - base);
            let other = (other.from.along(direction) - base, other.to.along(direction) - base);
            let (from, to) = (hole.0.max(other.0), hole.1.min(other.1));
            let lower = if from == hole.0 { "start of hole" } else { "start of joint" };
            let upper = if to == hole.1 { "end of hole" } else { "end of joint" };
            Met { what, from, to, lower, upper, span }
        };
        let (up, opening) = (Direction::Y, self.opening.span);
        let groove = self.boxes.groove_up_span.unwrap_or(self.boxes.groove_span);
        let mut found = vec![shared(&bottom.cuboid(), up, "runs into the bottom's groove", groove)];
        let miss = |from, to, lower, upper| Met {
            what: "meets the edge of the box",
            from,
            to,
            lower,
            upper,
            span: opening,
        };
        let (low, high) = (hole.from.y - space.from.y, hole.to.y - space.from.y);
        found.push(miss(low, Length::ZERO, "start of hole", "start of box"));
        found.push(miss(space.size(up), high, "end of box", "end of hole"));
        let side = |side| shared(side, Direction::X, "runs into a side of the drawer", opening);
        found.extend(sides.iter().map(side));
        found
    }
}

/// What a hole meets, and from where to where.
struct Met {
    what: &'static str,
    from: Length,
    to: Length,
    /// What begins and what ends there.
    lower: &'static str,
    upper: &'static str,
    span: Span,
}

impl Met {
    fn by(&self) -> Length {
        self.to - self.from
    }
}
