//! An upright board inside a case that ends in the air.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Length;
use crate::model::Case;
use crate::parts::{Direction, Joint, JointSort, Part, PartId, Parts, Role};
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "upright-free",
    severity: Severity::Warning,
    finds: "A partition or an upright divider has no board under it or none over it, or the ends of a case are held by nothing for 24 in (600 mm) below their upper end.",
    why: "The frame holds its front edge and a thin back its rear one. With drawers on both its sides it still bows, and the slides bind. The ends of a tall case spread, and its doors with them.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it if little hangs on the board, or if the floor of the room is under it when the piece stands in its place.",
    example: Example {
        base: Base::Alcove,
        sound: "  top { panel; joint rabbet { deep 9 } }\n  partitions {",
        wrong: "  partitions {",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    // What another rule refuses may be why it is free.
    if sink.has_errors() {
        return;
    }
    let tied = Tied::of(parts);
    let far = piece.tape().unit.either(Length::inches(24, 1), Length::mm(600));
    for (id, part) in parts.iter() {
        if let Some(case) = piece.case(part.case)
            && matches!(part.role, Role::End(_))
            && is_spread(&tied, case, (id, part), far)
        {
            sink.push(spread(case, part));
        }
    }
    let uprights = parts.iter().filter(|(_, part)| {
        matches!(part.role, Role::Partition | Role::Divider)
            && part.placement.thickness == Direction::X
    });
    for (id, part) in uprights {
        let Some(case) = piece.case(part.case) else { continue };
        let (low, high) = part.extent(Direction::Y);
        let held = |is_low: bool| {
            tied.lying(id).any(|other| {
                let (from, to) = other.extent(Direction::Y);
                if is_low { from < low || low == to } else { high < to || from == high }
            })
        };
        let stands = low.is_zero() && case.is_on_floor();
        let free = match (stands || held(true), held(false)) {
            (false, _) => "lower",
            (true, false) => "upper",
            (true, true) => continue,
        };
        let note = match free {
            "lower" if case.bottom.is_none() => {
                "give the case a `bottom`, or let the rail below carry a shelf"
            }
            "lower" if case.frame.is_some() => "let the rail below carry a shelf",
            "lower" => "put a `divider` under the list that it stands in",
            _ => "give the case a `top`, or end the board at a shelf",
        };
        sink.push(
            RULE.finding(
                format!("nothing holds the {free} end of {}", part.path),
                part.span,
                format!("its {free} end is free"),
            )
            .label(case.span, "this case")
            .because("it bows under what hangs on it")
            .note(note)
            .subject(&part.path),
        );
    }
}

/// True where nothing ties an end near its upper end: no lying board, no frame, and no
/// nailer that reaches the other end; `far` from it holds it no more.
fn is_spread(tied: &Tied<'_>, case: &Case, (id, part): (PartId, &Part), far: Length) -> bool {
    let (_, high) = part.extent(Direction::Y);
    let near = |other: &Part| high - other.extent(Direction::Y).1 <= far;
    let reaches = |nailer: PartId| {
        let ends = tied.joined(nailer).filter(|(_, other)| matches!(other.role, Role::End(_)));
        ends.count() > 1
    };
    let is_tie = |nailer: PartId, other: &Part| match other.role {
        Role::Nailer(_) => reaches(nailer),
        _ => other.placement.thickness == Direction::Y,
    };
    case.frame.is_none() && !tied.joined(id).any(|(tie, other)| is_tie(tie, other) && near(other))
}

fn spread(case: &Case, part: &Part) -> Diagnostic {
    RULE.finding(
        format!("nothing holds the upper end of {}", part.path),
        case.span,
        "no board ties its ends near the top",
    )
    .because("the ends spread, and the doors with them")
    .note("give the case a `top`, or a fixed shelf near its upper end")
    .subject(&part.path)
}

/// Which boards are joined to which.
struct Tied<'w> {
    parts: &'w Parts,
    /// Those of two cases, each from both of its boards, by the first of the two.
    across: Vec<(PartId, PartId)>,
}

impl<'w> Tied<'w> {
    fn of(parts: &'w Parts) -> Self {
        let case = |id: PartId| parts.get(id).map(|part| part.case);
        let joints = parts.joints.iter().filter(|joint| ties(joint));
        let two = joints.filter(|joint| case(joint.part) != case(joint.into));
        let mut across: Vec<(PartId, PartId)> =
            two.flat_map(|joint| [(joint.part, joint.into), (joint.into, joint.part)]).collect();
        across.sort_unstable();
        Self { parts, across }
    }

    /// The boards that a board is joined to.
    fn joined(&self, id: PartId) -> impl Iterator<Item = (PartId, &'w Part)> {
        let parts = self.parts;
        let case = parts.get(id).map(|part| part.case);
        let own = case.map_or(&[][..], |case| parts.joints_of(case)).iter();
        let own = own.filter(|joint| ties(joint)).filter_map(move |joint| match joint {
            Joint { part, into, .. } if *part == id => Some(*into),
            Joint { part, into, .. } if *into == id => Some(*part),
            Joint { .. } => None,
        });
        let from = self.across.partition_point(|(one, _)| *one < id);
        let across = self.across.iter().skip(from).take_while(move |(one, _)| *one == id);
        // What is joined to another case stands among its own joints already.
        let is_other = move |other: &PartId| parts.get(*other).map(|part| part.case) != case;
        let own = own.filter(move |other| !is_other(other));
        let others = own.chain(across.map(|(_, other)| *other));
        others.filter_map(move |other| Some((other, parts.get(other)?)))
    }

    /// The lying boards that an upright is joined to.
    fn lying(&self, id: PartId) -> impl Iterator<Item = &'w Part> {
        let others = self.joined(id).map(|(_, other)| other);
        others.filter(|other| other.placement.thickness == Direction::Y)
    }
}

/// True for a joint that ties: a shelf on pins does not.
fn ties(joint: &Joint) -> bool {
    matches!(joint.sort, JointSort::Wood(_))
}
