//! A part too small to be routed by itself.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::parts::{Feature, FeatureKind, Part, PartId, Role};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "small-for-router",
    severity: Severity::Warning,
    finds: "A part with a dado, groove, rabbet, or flutes is too small to rout safely. It is shorter than 6 in (150 mm), or the face that the router's base lies on is narrower than 2 in (50 mm). A groove or rabbet that is cut in a longer stick, before the part is crosscut from it, counts by the length of the stick.",
    why: "The base tips over the edge of so small a piece, and there is no place to clamp it clear of the router. Held by hand, it brings your fingers to the bit.",
    source: "Common practice; no published source.",
    formula: "",
    accept: "Accept it if you cut it on the table saw, by hand, or in a jig that holds the piece on all sides.",
    example: Example {
        base: Base::First,
        sound: "drawer upper { high 5 }",
        wrong: "drawer upper { high 2-3/4 }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    if sink.has_errors() {
        return;
    }
    let tape = piece.tape();
    let shortest = trade::shortest_routed(tape.unit);
    let narrowest = trade::narrowest_routed(tape.unit);
    for (id, part) in parts.iter() {
        // What is cut in a stick is as long as that.
        let long = |number: usize| match work.sticks().cut_in(id, number) {
            Some(_) => work.sticks().rough_long(id, part),
            None => part.length.length,
        };
        let mut numbered = part.features.iter().enumerate();
        let small = numbered
            .find(|(number, cut)| is_small(part, cut, (long(*number), shortest), narrowest));
        let Some((number, cut)) = small else { continue };
        let is_short = long(number) < shortest;
        let (long, wide) = (part.length.length, part.width.length);
        let (size, what) = match is_short {
            true => (long, "long"),
            false => (wide, "wide"),
        };
        let how = match is_short {
            true => format!(
                "rout it in one longer piece, and cut to length afterward; the papers cut it to length first, because {}",
                why_first(work, (id, part), cut)
            ),
            false => "rout it in a wider board, and rip to width afterward".to_owned(),
        };
        let because = match is_short {
            true => format!(
                "on a piece shorter than {} there is no room for the router and the clamps",
                tape.figure_with_unit(shortest)
            ),
            false => format!(
                "on a face narrower than {} the router's base tips",
                tape.figure_with_unit(narrowest)
            ),
        };
        let kind = cut.kind.word();
        let mut diagnostic = RULE.finding(
            format!(
                "{} is {} {what}, which is too small to rout the {kind} by itself",
                part.path,
                tape.text(size)
            ),
            part.span,
            format!("{} {what}", tape.text(size)),
        );
        if cut.span != part.span {
            diagnostic = diagnostic.label(cut.span, kind);
        }
        sink.push(
            diagnostic
                .because(because)
                .note(how)
                .subject(&part.path)
                .urgency(-size / Length::mm(1)),
        );
    }
}

/// Why the papers don't have a cut made in a longer stick.
fn why_first(work: &Workings<'_>, (id, part): (PartId, &Part), cut: &Feature) -> String {
    let kind = cut.kind.word();
    let stock = work.piece.stock(part.stock);
    let channel = part.channel(cut);
    if work.ledger().is_cut(id) {
        "it is on record as cut".to_owned()
    } else if stock.is_none_or(|stock| !stock.is_solid()) {
        "it is sawn from a sheet at its size".to_owned()
    } else if !channel.along {
        format!("the {kind} runs across it")
    } else if channel.stops != (Length::ZERO, Length::ZERO) {
        format!("the {kind} stops in it")
    } else {
        format!("the {kind} does not run alike through all pieces of its stick")
    }
}

fn is_small(
    part: &Part,
    cut: &Feature,
    (long, shortest): (Length, Length),
    narrowest: Length,
) -> bool {
    let routed = cut.is_channel() || matches!(cut.kind, FeatureKind::Flute(_));
    let wide = part.width.length;
    // A post is as thick as it is wide, and the strips of its set-up carry the router.
    let is_post = matches!(part.role, Role::Post(_));
    routed && (long < shortest || cut.face.is_broad() && wide < narrowest && !is_post)
}
