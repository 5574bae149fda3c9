//! A tenon that is set in so far that too little of it is left.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::model::{JointKind, Piece, Size};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "tenon-too-narrow",
    severity: Severity::Warning,
    finds: "The tenon of a rail at the end of a stile is set in so far that less than half of the rail's width is tenon.",
    why: "The tenon carries the joint and keeps the rail from twisting. A wide shoulder beside a narrow tenon opens, and the rail cups.",
    source: "Noyes, Handwork in Wood, chapter VII: the tenon is half as wide as the rail, less the groove. A third of the rail is usual for what is set in.",
    formula: "The width of the rail, less `set-in`.",
    accept: "The rail is wide for its looks and carries nothing.",
    example: Example {
        base: Base::Press,
        sound: "joint tenon { long 25; thick 7 }",
        wrong: "joint tenon { long 25; thick 7; set-in 35 }",
    },
    check: Check::Piece(check),
    sometimes: Some((Severity::Error, "Nothing of the tenon is left.")),
};

fn check(piece: &Piece, sink: &mut Sink) {
    let frames = piece.cases.iter().filter_map(|case| Some((case, case.frame.as_ref()?)));
    for (case, frame) in frames.filter(|(_, frame)| frame.joint.kind == JointKind::Tenon) {
        let Some(set_in) = &frame.joint.set_in else { continue };
        for (name, rail) in [("top", &frame.top), ("bottom", &frame.bottom)] {
            if let Some(rail) = rail {
                let path = format!("{}.{name}-rail", case.name);
                judge(piece, &path, &rail.wide, set_in, sink);
            }
        }
    }
}

fn judge(piece: &Piece, path: &str, wide: &Size, set_in: &Size, sink: &mut Sink) {
    let tape = piece.tape();
    let left = wide.length - set_in.length;
    let Some(at) = piece.facts.written(set_in) else { return };
    if left * 2 >= wide.length {
        return;
    }
    let (set, whole) = (tape.figure(set_in.length), tape.figure(wide.length));
    let title = match left.is_positive() {
        true => format!(
            "the tenon of {path} is set in {set}, which leaves {} of a rail {whole} wide",
            tape.figure(left)
        ),
        false => format!(
            "the tenon of {path} is set in {set}, which leaves nothing of a rail {whole} wide"
        ),
    };
    let usual = trade::set_in(wide.length, tape.mark);
    let mut finding = RULE
        .finding(title, at, format!("{set} set in"))
        .sum(Sum::new("tenon", left, tape).plus(wide.length, "rail", tape).minus(
            set_in.length,
            "set in",
            tape,
        ))
        .because("a rail is held by its tenon: at least half of its width")
        .subject(path)
        .urgency(-left / crate::measure::Length::mm(1))
        .fix(Fix::new(
            Grade::Choice,
            "set it in by a third of the rail",
            at,
            format!("set-in {}", tape.source(usual)),
        ));
    if let Some(rail) = piece.facts.written(wide) {
        finding = finding.label(rail, format!("{whole} wide"));
    }
    sink.push(if left.is_positive() { finding } else { RULE.at_times(finding) });
}
