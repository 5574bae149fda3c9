//! A part that stands in the baseboard behind the piece, or that its notch leaves too little of.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Baseboard, Case, Piece};
use crate::parts::{Cuboid, Direction, FeatureKind, Part, Parts, Point, Role};
use crate::plans::Workings;
use crate::plans::on_legs::bottom_on_legs;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "baseboard-hit",
    severity: Severity::Error,
    finds: "A part stands where the site has a baseboard that stays. Ends and uprights under a bottom are notched for it, and a separate base ends before it; a bottom, a back, a post, and a cover are not. Or the notches leave too little of an end on the floor, or nothing stands before the baseboard at all.",
    why: "On the day you install the piece, it won't go up against the wall. A narrow foot between two notches breaks off when the piece is pushed over the floor.",
    source: "Plane geometry. That 2 in (50 mm) of an end stand on the floor: common practice, no source.",
    formula: "The bottom lies above the floor by at least the height of the baseboard and its play. The end's width, less the notch for the toe kick, less the thickness of the baseboard and its play, is at least 2 in (50 mm).",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "site { left open; right open; fixing wall; humidity 30% to 55% }",
        wrong: "site { left open; right open; fixing wall; humidity 30% to 55%; baseboard { high 5-1/2; thick 3/4 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let Some(baseboard) = &piece.site.baseboard else { return };
    let standing = || piece.cases.iter().filter(|case| case.is_in_row() && case.is_on_floor());
    if standing().next().is_none() {
        sink.push(
            RULE.finding(
                "nothing of the piece stands on the floor before the baseboard".to_owned(),
                baseboard.span,
                "this changes nothing",
            )
            .note("take it out"),
        );
    }
    for case in standing() {
        let own = Own { piece, parts, case, baseboard };
        let found = own.hit().or_else(|| own.foot()).or_else(|| own.leg());
        sink.extend(found.map(|found| found.subject(&case.path)));
    }
}

struct Own<'a> {
    piece: &'a Piece,
    parts: &'a Parts,
    case: &'a Case,
    baseboard: &'a Baseboard,
}

impl Own<'_> {
    /// The room of the baseboard, with its play.
    fn space(&self) -> Cuboid {
        let wall = self.piece.wall();
        let (x, wide) = (self.case.x, self.case.wide.length);
        Cuboid {
            from: Point { x, y: Length::ZERO, z: wall - self.baseboard.out().length },
            to: Point { x: x + wide, y: self.baseboard.up().length, z: wall },
        }
    }

    /// The part that is told of: the lowest board that can't be notched.
    fn hit(&self) -> Option<Diagnostic> {
        let space = self.space();
        let stands = |part: &&Part| {
            let notches = part.features.iter().filter(|own| own.kind == FeatureKind::Notch);
            part.cuboid().overlaps(&space) && !part.makes_way(&space, notches)
        };
        let order = |part: &&Part| match part.role {
            Role::Bottom => 0,
            Role::Post(_) => 1,
            Role::Cover => 2,
            _ => 3,
        };
        let part = self.parts.of_case(self.case.id).iter().filter(stands).min_by_key(order)?;
        let tape = self.piece.tape();
        let low = part.extent(Direction::Y).0;
        let by = self.baseboard.up().length - low;
        let found = RULE
            .finding(
                format!("{} stands where the baseboard behind {} is", part.path, self.case.name),
                self.baseboard.span,
                format!("{} high", tape.figure(self.baseboard.high.length)),
            )
            .label(part.span, "this board")
            .because("the case does not come up to the wall");
        Some(match part.role {
            Role::Post(_) => found.note("a post is not notched; take `baseboard` out, and let the piece stand before it, off the wall"),
            Role::Cover => found.note("a cover is not notched; take it out, or take the baseboard off behind the piece"),
            _ => self.raised(found.sum(
                Sum::new("lies too low by", by, tape)
                    .plus(self.baseboard.high.length, "baseboard", tape)
                    .plus(self.baseboard.play.length, "play", tape)
                    .minus(low, "underside", tape),
            ), by),
        })
    }

    /// What stands under the board must be so much higher.
    fn raised(&self, found: Diagnostic, by: Length) -> Diagnostic {
        let tape = self.piece.tape();
        let high = tape.up(self.case.base_high().length + by);
        let other = format!(
            "another way is to take `baseboard` out, let the case stand off the wall by {}, and close the gap at each end that is seen with a strip that is scribed to the wall",
            tape.figure(tape.up(self.baseboard.out().length))
        );
        let written = self.case.base.as_ref().and_then(|base| self.piece.facts.written(&base.high));
        let found = match (written, self.case.on_legs.is_some()) {
            (Some(at), _) => {
                let says = format!("high {}", tape.source(high));
                found.fix(Fix::new(Grade::Choice, "raise the bottom over the baseboard", at, says))
            }
            (None, true) => found.note(format!("take legs at least {} high", tape.figure(high))),
            (None, false) => found.note(format!(
                "give the case a `base` at least {} high, so that its bottom lies over the baseboard",
                tape.figure(high)
            )),
        };
        found.note(other)
    }

    /// An end of which the notches leave too little on the floor.
    fn foot(&self) -> Option<Diagnostic> {
        let tape = self.piece.tape();
        let least = tape.unit.either(Length::inches(2, 1), Length::mm(50));
        let left = |part: &Part| {
            let notches = part.features.iter().filter(|own| {
                own.kind == FeatureKind::Notch
                    && own.u.0.is_zero()
                    && part.extent(Direction::Y).0.is_zero()
            });
            let cut: Vec<Length> = notches.map(|own| own.v.1 - own.v.0).collect();
            let taken = cut.iter().fold(Length::ZERO, |sum, one| sum + *one);
            (!cut.is_empty()).then(|| (part.width.length - taken, taken))
        };
        let ends = self.parts.of_case(self.case.id).iter();
        let ends = ends.filter(|part| matches!(part.role, Role::End(_)));
        let ends = ends.filter_map(|part| left(part).map(|(left, taken)| (part, left, taken)));
        let (part, left, taken) = ends.min_by_key(|(_, left, _)| *left)?;
        (left < least).then(|| {
            RULE.finding(
                format!("the notches leave {} of {} on the floor", tape.text(left), part.path),
                self.baseboard.span,
                format!("{} thick", tape.figure(self.baseboard.thick.length)),
            )
            .label(part.span, "this end")
            .sum(
                Sum::new("stands on", left, tape)
                    .plus(part.width.length, "end", tape)
                    .minus(taken, "notches", tape),
            )
            .because("so narrow a foot breaks off when the piece is pushed over the floor")
            .note("make the case deeper, or take the baseboard off behind the piece")
        })
    }

    /// A bought leg that stands in the baseboard.
    fn leg(&self) -> Option<Diagnostic> {
        let (legs, leg) = self.piece.legs_under(self.case)?;
        let (_, bottom) = bottom_on_legs(self.parts, self.case)?;
        let rear = bottom.extent(Direction::Z).1 - legs.set_in.length;
        let by = rear - self.space().from.z;
        let tape = self.piece.tape();
        by.is_positive().then(|| {
            RULE.finding(
                format!(
                    "the back legs of {} stand {} in the baseboard",
                    self.case.name,
                    tape.text(by)
                ),
                self.baseboard.span,
                format!("{} thick", tape.figure(self.baseboard.thick.length)),
            )
            .label(legs.span, format!("set in {}", tape.figure(legs.set_in.length)))
            .label(leg.span, "this leg")
            .note(format!(
                "set the legs in by at least {} with `in`",
                tape.figure(tape.up(legs.set_in.length + by))
            ))
        })
    }
}
