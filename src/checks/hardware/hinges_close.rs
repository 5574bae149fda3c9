//! Hinges that stand closer together than they need to, on a door wider than that.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::Piece;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "hinges-close",
    severity: Severity::Warning,
    finds: "The outer hinges of a door are closer together than the door is wide, and nearer its ends there is room for them. A door too low for that is not reported.",
    why: "The door's own weight pulls at the top hinge and pushes at the bottom one, the harder the closer they are. The latch edge sags, and the screws work loose.",
    source: "Common practice, from hinge makers' catalogs: hinges as far apart as can be, at least as far as the door is wide.",
    formula: "Between the hinges is the door's height less twice `from-end`.",
    accept: "Accept it if a shelf or a tray leaves no other place for them and the door is light.",
    example: Example {
        base: Base::Console,
        sound: "swing      105 deg\n",
        wrong: "swing      105 deg; from-end 8\n",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    let usual = tape.unit.either(Length::inches(3, 1), Length::mm(75));
    for (_, opening, fronts) in super::doors(piece) {
        let Some((id, at)) = fronts.hinge else { continue };
        let Some(hinge) = piece.hinge(id) else { continue };
        let ends = fronts.hinge_place.ends(hinge);
        if ends.iter().all(|end| *end <= usual) {
            continue;
        }
        let (wide, high) = opening.leaf(fronts);
        let taken: Length = ends.into_iter().sum();
        let apart = high.length - taken;
        let could = high.length - usual.twice();
        let place = fronts.hinge_place;
        // What the doors say themselves goes before what the hinge says.
        let own = [place.from_bottom, place.from_top].into_iter().flatten();
        let own = own.max_by_key(|(length, _)| *length);
        // Nearer the ends they would still not be far enough apart, or gain nothing.
        if apart >= wide.length.min(could) || own.is_none() && could < wide.length {
            continue;
        }
        let most = tape.down((high.length - wide.length).half());
        let title = format!(
            "the hinges of {} are {} apart, and its door is {} wide",
            opening.path,
            tape.text(apart),
            tape.text(wide.length)
        );
        let of_hinge = (hinge.from_end, hinge.from_end_span.unwrap_or(at));
        let (figure, at) = own.unwrap_or(of_hinge);
        let mut found = RULE
            .finding(title, at, tape.figure(figure))
            .label(opening.span, format!("{} wide", tape.text(wide.length)))
            .sum(Sum::new("apart", apart, tape).plus(high.length, "high", tape).minus(
                taken,
                "both ends",
                tape,
            ))
            .because("the latch edge sags, and the top hinge works loose")
            .subject(&opening.path)
            .urgency((wide.length - apart) / Length::mm(1));
        if let Some(span) = hinge.from_end_span.filter(|_| own.is_none()) {
            found = found.fix(Fix::new(
                Grade::Choice,
                format!("put them {} from the ends", tape.figure(most)),
                span,
                format!("from-end {}", tape.source(most)),
            ));
        }
        // What doors say alike, each in its own braces, is told with the first of them.
        if own.is_some() {
            found = found.alike([figure, apart, wide.length].map(|own| tape.text(own)).join(" "));
        }
        sink.push(found);
    }
}
