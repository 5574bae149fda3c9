//! A tenon that is set in so far that too little of it is left.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Build, JointKind, MidRail, Opening, PanelBuild, Piece, Size};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "tenon-too-narrow",
    severity: Severity::Warning,
    finds: "The tenon of a rail at the end of a stile is set in so far that less than half of the rail's width is left for it, or the grooves in both edges of a mid rail leave less than 1/2 in (12 mm) of its tenons.",
    why: "The tenon carries the joint and keeps the rail from twisting. A wide shoulder beside a narrow tenon opens, and the rail cups.",
    source: "Noyes, Handwork in Wood, chapter VII: a tenon is half as wide as its rail, less the groove. A third of the rail is usual for what is set in. The 1/2 in between two grooves is common practice; no published source.",
    formula: "The width of the rail, less `set-in` and the groove of a panel; of a mid rail less two grooves.",
    accept: "The rail is wide for its looks and carries nothing.",
    example: Example {
        base: Base::Press,
        sound: "joint tenon { long 25; thick 7 }",
        wrong: "joint tenon { long 25; thick 7; set-in 35 }",
    },
    check: Check::Piece(check),
    sometimes: Some((Severity::Error, "Nothing of the tenon is left.")),
};

/// A rail, with what a groove in its edge takes of its tenons.
struct Rail<'p> {
    path: String,
    wide: &'p Size,
    groove: Option<&'p Size>,
}

fn check(piece: &Piece, sink: &mut Sink) {
    for case in &piece.cases {
        if let Some(frame) = case.frame.as_ref().filter(|own| own.joint.kind == JointKind::Tenon) {
            for (name, rail) in [("top", &frame.top), ("bottom", &frame.bottom)] {
                if let Some((rail, set_in)) = rail.as_ref().zip(frame.joint.set_in.as_ref()) {
                    let path = format!("{}.{name}-rail", case.path);
                    judge(piece, &Rail { path, wide: &rail.wide, groove: None }, set_in, sink);
                }
            }
        }
        let fronts = case.openings.iter().filter_map(|own| Some((own, own.front.as_ref()?)));
        for (opening, fronts) in fronts {
            let Build::Panel(panel) = &fronts.build else { continue };
            if let Some(set_in) = &panel.set_in {
                let wide = match panel.bottom.length < panel.rail.length {
                    true => &panel.bottom,
                    false => &panel.rail,
                };
                let (path, groove) = (opening.path.clone(), Some(&panel.groove));
                judge(piece, &Rail { path, wide, groove }, set_in, sink);
            }
            for mid in &panel.mids {
                between_grooves(piece, opening, (panel, mid), sink);
            }
        }
    }
}

/// A mid rail has a groove in either edge, and its tenons are what they leave.
fn between_grooves(
    piece: &Piece,
    opening: &Opening,
    (panel, mid): (&PanelBuild, &MidRail),
    sink: &mut Sink,
) {
    let tape = piece.tape();
    let (wide, grooves) = (mid.wide.length, panel.groove.length.twice());
    let (left, least) = (wide - grooves, trade::least_between_grooves(tape.unit));
    if left >= least {
        return;
    }
    let what = match left.is_positive() {
        true => tape.figure(left),
        false => "nothing".to_owned(),
    };
    let title = format!(
        "a mid rail of the front of {} is {} wide, and its two grooves leave {what} for its tenons",
        opening.path,
        tape.figure(wide)
    );
    let needed = tape.up(grooves + least);
    let at = piece.facts.written(&mid.wide);
    let own = at.filter(|at| piece.facts.written(&panel.rail) != Some(*at));
    let (word, span) = if own.is_some() { ("wide", own) } else { ("rail", at) };
    let mut finding = RULE
        .finding(title, mid.span, format!("{} wide", tape.figure(wide)))
        .sum(
            Sum::new("tenon", left, tape)
                .plus(wide, "mid rail", tape)
                .minus(grooves, "two grooves", tape),
        )
        .because("the tenons hold the stiles together, and the wood between the grooves is all there is of them")
        .subject(&opening.path)
        .urgency(-left / Length::mm(1));
    if let Some(span) = span {
        let title = format!("make it {} wide", tape.figure(needed));
        let text = format!("{word} {}", tape.source(needed));
        finding = finding.fix(Fix::new(Grade::Choice, title, span, text));
    }
    sink.push(if left.is_positive() { finding } else { RULE.at_times(finding) });
}

fn judge(piece: &Piece, rail: &Rail<'_>, set_in: &Size, sink: &mut Sink) {
    let (tape, path) = (piece.tape(), &rail.path);
    let wide = rail.wide.length;
    let groove = rail.groove.map_or(Length::ZERO, |own| own.length);
    let left = wide - set_in.length - groove;
    let Some(at) = piece.facts.written(set_in) else { return };
    if set_in.length * 2 <= wide && left.is_positive() {
        return;
    }
    let (set, whole) = (tape.figure(set_in.length), tape.figure(wide));
    let what = match left.is_positive() {
        true => tape.figure(left),
        false => "nothing".to_owned(),
    };
    let whose = match rail.groove {
        Some(_) => format!("the tenons of the front of {path} are"),
        None => format!("the tenon of {path} is"),
    };
    let title = format!("{whose} set in {set}, which leaves {what} of a rail {whole} wide");
    let usual = trade::set_in(wide, tape.mark);
    let mut sum =
        Sum::new("tenon", left, tape).plus(wide, "rail", tape).minus(set_in.length, "set in", tape);
    if rail.groove.is_some() {
        sum = sum.minus(groove, "groove", tape);
    }
    let mut finding = RULE
        .finding(title, at, format!("{set} set in"))
        .sum(sum)
        .because("a rail is held by its tenon: at least half of its width")
        .subject(path)
        .urgency(-left / Length::mm(1))
        .fix(Fix::new(
            Grade::Choice,
            "set it in by a third of the rail",
            at,
            format!("set-in {}", tape.source(usual)),
        ));
    if let Some(rail) = piece.facts.written(rail.wide) {
        finding = finding.label(rail, format!("{whole} wide"));
    }
    sink.push(if left.is_positive() { finding } else { RULE.at_times(finding) });
}
