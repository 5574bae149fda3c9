//! A strip on a front that is planed to its opening, too thin for that.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Length, Unit};
use crate::model::{Piece, Set};
use crate::parts::{Part, Role, Strip, asked_edging};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "edge-thin",
    severity: Severity::Warning,
    finds: "The edges of an inset front are covered with a strip thinner than 1/8 in (3 mm).",
    why: "An inset front is planed until its gaps are even, and openings are never quite square. A thin strip is planed through at one end, and the plies show where the eye compares gap with gap.",
    source: "What is planed off is 1/32 in (1 mm) at every edge, and as much again where an opening leans: common practice, no published source. 1/8 in leaves half of the strip then.",
    formula: "",
    accept: "Accept it if you cut the front to its final size before you cover its edges, and leave the gaps as they come.",
    example: Example {
        base: Base::First,
        sound: "stock maple; set inset; build slab",
        wrong: "stock ply; edges maple { thick 1/16 }; set inset; build slab",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn least(unit: Unit) -> Length {
    unit.either(Length::inches(1, 8), Length::mm(3))
}

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for part in work.parts.all.iter().filter(|part| part.role == Role::Slab) {
        let inset = part
            .opening()
            .and_then(|id| work.piece.opening(id)?.front.as_ref())
            .is_some_and(|front| front.set == Set::Inset);
        let unit = work.piece.tape().unit;
        let thin = part.strips.iter().find(|strip| strip.thick.length < least(unit));
        if let Some(strip) = thin.filter(|_| inset) {
            look(work.piece, part, strip, sink);
        }
    }
}

fn look(piece: &Piece, part: &Part, strip: &Strip, sink: &mut Sink) {
    let tape = piece.tape();
    let (thick, shaving) = (strip.thick.length, trade::shaving(tape.unit));
    let mut found = RULE
        .finding(
            format!(
                "{} is planed to its opening, and the strips on its edges are only {} thick",
                part.path,
                tape.text(thick)
            ),
            strip.span,
            format!("{} thick", tape.text(thick)),
        )
        .because(format!(
            "{} comes off every edge, and as much again where the opening leans",
            tape.text(shaving)
        ))
        .subject(&part.path);
    let asked = piece.case(part.case).and_then(|case| asked_edging(piece, case, part));
    if let Some(edging) = asked.filter(|own| !strip.banding && own.thick_at != own.span) {
        let text = tape.source(least(tape.unit));
        let title = format!("make the lips {} thick", tape.text(least(tape.unit)));
        found = found.fix(Fix::new(Grade::Choice, title, edging.thick_at, format!("thick {text}")));
    } else {
        found = found.note("cover its edges with a lip of lumber, 1/8 in (3 mm) or thicker; banding is for fronts that lie over the case");
    }
    sink.push(found);
}
