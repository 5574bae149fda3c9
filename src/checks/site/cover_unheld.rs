//! A cover that no screw holds.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink};
use crate::measure::Length;
use crate::model::{Case, Cover, Covered, cover_told};
use crate::parts::{Part, PartId, Role};
use crate::plans::Workings;
use crate::plans::fitting::{Fastening, Long};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "cover-unheld",
    severity: Severity::Error,
    finds: "The screws of a cover find no board that it lies on, or the cover is so thin that they come through it before they hold.",
    why: "A cover is screwed on from inside its case. What is fixed only by glue in a finished room can't be clamped, and comes off.",
    source: "Common practice, no source.",
    formula: "A screw goes 3/8 in (10 mm) into the cover and stays 1/8 in (3 mm) short of its face.",
    accept: "",
    example: Example {
        base: Base::Hutch,
        sound: "cover right { stock ply }",
        wrong: "cover right { stock thin }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for case in &work.piece.cases {
        for (covered, cover) in case.covers.all() {
            let mut own = work.parts.iter_case(case.id);
            let is_it = |part: &Part| part.role == Role::Cover && part.span == cover.span;
            let Some((id, part)) = own.find(|(_, part)| is_it(part)) else { continue };
            // Over the backs of several cases each of them holds it.
            let fastened = work.fastened().fastenings.iter();
            let own = fastened.filter(|own| std::ptr::eq(own.part, part));
            let placed =
                |own: &&Fastening<'_>| own.lines.iter().map(|line| line.count).sum::<u32>();
            let screws = own.min_by_key(placed);
            let screws = screws.filter(|own| placed(own) > 1 && lies(work, id, part));
            match screws.map(|own| own.long) {
                None => sink.push(loose(case, covered, cover)),
                Some(Long::Is(_)) => {}
                Some(Long::BySheet | Long::AtLeast(_) | Long::Between(..)) => {
                    sink.push(thin(work, case, (covered, cover), (id, part)));
                }
            }
        }
    }
}

/// The board that a cover is screwed on through.
fn carrier<'a>(work: &Workings<'a>, id: PartId) -> Option<&'a Part> {
    let mut joints = work.parts.joints.iter();
    work.parts.get(joints.find(|joint| joint.part == id)?.into)
}

/// True where it lies flat on that board.
fn lies(work: &Workings<'_>, id: PartId, part: &Part) -> bool {
    carrier(work, id).is_some_and(|on| part.touching(on) == Some(part.placement.thickness))
}

fn thin(
    work: &Workings<'_>,
    case: &Case,
    (covered, cover): (Covered, &Cover),
    (id, part): (PartId, &Part),
) -> Diagnostic {
    let tape = work.piece.tape();
    let on = carrier(work, id).map_or(Length::ZERO, |on| on.thickness.length);
    let least = on + trade::into_face(tape.unit);
    let most = on + part.thickness.length - trade::short_of_face(tape.unit);
    RULE.finding(
        format!(
            "no screw is sold that holds the {} of {} and does not come through it",
            cover_told(covered),
            case.name
        ),
        cover.span,
        format!("{} thick", tape.text(part.thickness.length)),
    )
    .because(format!(
        "from inside it goes through {} and {} into the cover, which makes {} or more, and {} is the most",
        tape.text(on),
        tape.text(trade::into_face(tape.unit)),
        tape.text(least),
        tape.text(most)
    ))
    .note("make it of a thicker sheet")
    .subject(&part.path)
}

fn loose(case: &Case, covered: Covered, cover: &Cover) -> Diagnostic {
    let (what, mend) = match covered {
        Covered::Left | Covered::Right => ("the end has no room for them", "take the cover out"),
        Covered::Back => (
            "a case has no back with room for them",
            "give the case a `back`, or take the cover out",
        ),
        Covered::Under => (
            "its bottom does not lie on it",
            "let the underside of the bottom come level with the lower ends of the case: leave out `flush`, or give the case a `bottom`",
        ),
    };
    RULE.finding(
        format!("no screw holds the {} of {}", cover_told(covered), case.name),
        cover.span,
        what,
    )
    .note(mend)
    .subject(&case.path)
}
