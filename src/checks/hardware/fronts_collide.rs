//! Fronts that lie over each other, or have no gap between them.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Length, Span, Tape};
use crate::model::{Beyond, Edge, Piece, Set, Size};
use crate::parts::{Direction, Front};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "fronts-collide",
    severity: Severity::Error,
    finds: "Two fronts overlap or touch. Overlay fronts do so when they reach over more than half of the member between them.",
    why: "One of them can't be hung or can't be closed. Two fronts that touch rub from the first day.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example { base: Base::First, sound: "set inset;", wrong: "set overlay { by 7/8 };" },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let tape = piece.tape();
    let mut fronts: Vec<&Front<'_>> = work.fronts().iter().collect();
    // Sorted by their left edge, a front meets only those that begin before it ends.
    fronts.sort_by_key(|front| front.space.from.x);
    for (i, front) in fronts.iter().enumerate() {
        let space = &front.space;
        for other in fronts[i + 1..].iter().take_while(|o| o.space.from.x <= space.to.x) {
            let along = |direction| space.overlap_along(&other.space, direction);
            let (x, y) = (along(Direction::X), along(Direction::Y));
            let by = x.min(y);
            // Corners may touch.
            let beside = x.max(y).is_positive() && along(Direction::Z).is_positive();
            if by.is_negative() || !beside || lie_in_openings(piece, front, other) {
                continue;
            }
            let case = piece.case(front.case);
            let at = case
                .and_then(|case| case.fronts.as_ref())
                .map_or(front.span(), |fronts| fronts.span);
            let how = match by.is_positive() {
                true => format!("overlap by {}", tape.figure(by)),
                false => "touch, with no gap between them".to_owned(),
            };
            let title = format!("{} and {} {how}", front.path, other.path);
            let meeting = Meeting::of([front, other], x < y, by);
            let cause = meeting.as_ref().and_then(|meeting| meeting.cause(piece));
            let found = RULE
                .finding(title, cause.as_ref().map_or(at, |cause| cause.at), "this is set here")
                .label(front.span(), "this front")
                .label(other.span(), "and this one")
                .subject(&front.path);
            let found = match meeting {
                Some(meeting) => meeting.told(found, piece, by, cause.is_some()),
                None if by.is_positive() => found.sum(Sum::new("over by", by, tape)),
                None => found,
            };
            sink.push(match cause.and_then(|cause| cause.fix(tape)) {
                Some(fix) => found.fix(fix),
                None => found,
            });
            return;
        }
    }
}

/// True for two inset fronts, each in an opening of its own: these keep them apart, and what
/// is wrong where they don't is told of the openings, or of the rails of a front that is too
/// low for them.
fn lie_in_openings(piece: &Piece, front: &Front<'_>, other: &Front<'_>) -> bool {
    let inset = |own: &Front<'_>| {
        own.fronts.set == Set::Inset && piece.door_before(own.opening.id).is_none()
    };
    front.opening.id != other.opening.id && inset(front) && inset(other)
}

/// Two fronts of two openings that meet at one edge of each.
struct Meeting<'a> {
    fronts: [&'a Front<'a>; 2],
    edges: [Edge; 2],
    /// What lies between the two openings.
    between: Length,
}

/// The figure that brings them together.
struct Cause {
    at: Span,
    word: &'static str,
    /// What leaves the gap between them; `None` where nothing above nought does.
    meant: Option<Length>,
}

impl<'a> Meeting<'a> {
    /// `None` for the two leaves of one opening.
    fn of(fronts: [&'a Front<'a>; 2], beside: bool, by: Length) -> Option<Self> {
        let [one, other] = fronts;
        if one.opening.id == other.opening.id {
            return None;
        }
        let edges = match (beside, one.space.from.y <= other.space.from.y) {
            (true, _) => [Edge::Right, Edge::Left],
            (false, true) => [Edge::Top, Edge::Bottom],
            (false, false) => [Edge::Bottom, Edge::Top],
        };
        let reach = one.opening.reach.of(edges[0]) + other.opening.reach.of(edges[1]);
        Some(Self { fronts, edges, between: reach.length - by })
    }

    /// The finding with the sum, what lies between the two openings, and what would part
    /// the fronts; `is_written` where a written figure brings them together.
    fn told(&self, found: Diagnostic, piece: &Piece, by: Length, is_written: bool) -> Diagnostic {
        let (tape, [front, _]) = (piece.tape(), self.fronts);
        let found = found.sum(self.sum(by, tape));
        let case = piece.case(front.case);
        let beyond = case.map(|case| (case, case.beyond(front.opening.id, self.edges[0])));
        let found = match beyond {
            Some((_, Beyond::Opening(_))) => {
                return found.note("nothing is written between the two openings; put a `rail`, a `stile`, or a `divider` there, or leave out `by`, and the fronts leave the gap between them");
            }
            Some((case, Beyond::Member(id))) => match case.members.get(id.at) {
                Some(member) => {
                    let wide = tape.figure(member.wide.length);
                    found.label(member.span, format!("{wide} between them"))
                }
                None => found,
            },
            Some((_, Beyond::Outside)) | None => found,
        };
        if is_written {
            return found.note("two overlay fronts share the member between them; each may reach over half of it, less half the gap");
        }
        let [reach, gap] = [self.reach(0).length, front.fronts.gap.length];
        found.note(format!(
            "a front overlaps its opening by {} where neither `by` nor `gap` is written; write `gap {}`, and the overlay follows from what lies between the fronts",
            tape.figure(reach),
            tape.source(gap)
        ))
    }

    fn reach(&self, at: usize) -> &'a Size {
        self.fronts[at].opening.reach.of(self.edges[at])
    }

    /// Both reaches less what is between the openings; where the fronts touch, what is left.
    fn sum(&self, by: Length, tape: &Tape) -> Sum {
        if by.is_zero() {
            let leaves = Sum::new("leaves", by, tape);
            let leaves = leaves.plus(self.between, "between the openings", tape);
            return self.fronts.iter().enumerate().fold(leaves, |sum, (at, front)| {
                sum.minus(self.reach(at).length, format!("reach of {}", front.path), tape)
            });
        }
        let mut sum = Sum::new("over by", by, tape);
        for (at, front) in self.fronts.iter().enumerate() {
            sum = sum.plus(self.reach(at).length, format!("reach of {}", front.path), tape);
        }
        match self.between.is_zero() {
            true => sum,
            false => sum.minus(self.between, "between the openings", tape),
        }
    }

    /// The written overlay that reaches over most of what is between them.
    fn cause(&self, piece: &Piece) -> Option<Cause> {
        let written = |at: usize| piece.facts.written(self.reach(at));
        let most = usize::from(self.reach(1).length > self.reach(0).length);
        let overlay = match &self.fronts[most].fronts.set {
            Set::Overlay(overlay) => overlay,
            Set::Inset => return None,
        };
        let edge = self.edges[most];
        let (own, at) = (overlay.edges.of(edge).is_some(), written(most)?);
        if !own && overlay.by.is_none() {
            return None;
        }
        let room = self.between - self.fronts[most].fronts.gap.length;
        let meant = match written(1 - most) == Some(at) {
            true => room.half(),
            false => room - self.reach(1 - most).length,
        };
        let word = if own { edge.word() } else { "by" };
        Some(Cause { at, word, meant: meant.is_positive().then_some(meant) })
    }
}

impl Cause {
    fn fix(self, tape: &Tape) -> Option<Fix> {
        let meant = tape.down(self.meant?);
        let figure = tape.figure(meant);
        let text = format!("{} {}", self.word, tape.source(meant));
        let title = format!("overlap the opening by {figure}, which leaves the gap");
        meant.is_positive().then(|| Fix::new(Grade::Choice, title, self.at, text))
    }
}
