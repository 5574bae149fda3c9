//! A case that hangs and stands at once, stands in two ways, or hangs where another stands.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Severity, Sink, Sum};
use crate::measure::Span;
use crate::model::{Case, Piece};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hangs-and-stands",
    severity: Severity::Error,
    finds: "A case has `hung`, and a base or a leg to stand on, or it stands on another case and has `hung`, a base, or a leg too. Or it hangs over a case, but below the top of that case.",
    why: "Only one of the two can be built: what hangs clear of the floor has nothing under it, and what stands on another case doesn't reach the floor.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "base { toe-kick; high 4; set-back 3; cut-into ends }",
        wrong: "base { toe-kick; high 4; set-back 3; cut-into ends }\n  hung { up 18 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let posts = case.posts.as_ref().map(|posts| (posts.span, "these posts stand"));
        let base = case.base.as_ref().map(|base| (base.span, "this base stands")).or(posts);
        let bought = case.on_legs.as_ref().map(|legs| (legs.span, "these legs stand"));
        let base = base.or(bought);
        let legs = case.legs.iter().map(|leg| (leg.span, "this leg stands"));
        let stands: Vec<(Span, &str)> = base.into_iter().chain(legs).collect();
        if let Some(hung) = &case.hung {
            let up = tape.figure(hung.up.length);
            for (span, what) in &stands {
                let title = format!("{} hangs {up} off the floor, and {what} on it", case.name);
                let found = RULE.finding(title, hung.span, "it hangs here");
                sink.push(also(found, case, *span, format!("{what} on the floor")));
            }
        }
        sink.extend(hangs_low(piece, case));
        let Some(on) = &case.on else { continue };
        let stands = stands.iter().map(|(span, what)| (*span, format!("{what} on the floor")));
        let hung = case.hung.as_ref().map(|hung| (hung.span, "it hangs here".to_owned()));
        for (span, what) in stands.chain(hung) {
            let title = format!("{} stands on {}, and {what}", case.name, on.name);
            let found = RULE.finding(title, on.span, format!("it stands on {}", on.name));
            sink.push(also(found, case, span, what));
        }
    }
}

/// What is found of a case whose underside is below the top of what it hangs over.
fn hangs_low(piece: &Piece, case: &Case) -> Option<Diagnostic> {
    let (tape, hung) = (piece.tape(), case.hung.as_ref()?);
    let over = case.over()?;
    let top = |below: &Case| {
        let countertop = piece.top_over(below.id).map(|own| piece.thickness(own.spec.stock).length);
        below.high.length + countertop.unwrap_or_default()
    };
    let below = piece.cases.iter().filter(|below| piece.is_above(case, below));
    let (high, below) = below.map(|own| (top(own), own)).max_by_key(|(high, _)| *high)?;
    // The cover under it hangs lower.
    let up = hung.up.length - case.covers.below().length;
    if up >= high {
        return None;
    }
    let title = format!(
        "{} hangs {} above the floor, and {} below it is {} high",
        case.name,
        tape.figure(up),
        below.name,
        tape.figure(high)
    );
    let least = tape.up(high);
    let found = RULE
        .finding(title, hung.span, "it hangs here")
        .label(over.span, "over this")
        .sum(
            Sum::new("short by", high - up, tape)
                .plus(high, &below.name, tape)
                .minus(up, "up", tape),
        )
        .note(format!("hang it at least {} above the floor", tape.figure(least)))
        .subject(&case.path);
    // Beside a tall case it is only too wide, or stands too far to that side.
    let ends = |own: &Case| (own.x, own.x + own.wide.length);
    let ((from, to), (left, right)) = (ends(case), ends(below));
    let shared = to.min(right) - from.max(left);
    if shared.twice() > case.wide.length {
        return Some(found);
    }
    let side = if from < left { "right" } else { "left" };
    Some(found.note(format!(
        "it reaches {} over {} at its {side} side: make it that much narrower, or move it that far away, and it hangs beside it",
        tape.figure(tape.up(shared)),
        below.name
    )))
}

fn also(found: Diagnostic, case: &Case, span: Span, what: String) -> Diagnostic {
    found.label(span, what).note("take out one of the two").subject(&case.path)
}
