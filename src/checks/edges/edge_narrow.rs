//! A lip that is narrower than the edge it goes on.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink, Sum};
use crate::measure::Length;
use crate::model::{Piece, Stock};
use crate::parts::{Part, Strip};
use crate::plans::{Workings, edging};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "edge-narrow",
    severity: Severity::Error,
    finds: "A lip is ripped from boards that are planed thinner than the sheet whose edge it covers, or no thicker.",
    why: "A strip is as wide as its boards are thick. One that is narrower leaves a ply bare along the whole edge. One that is just as wide has nothing to trim, and wherever it is set a hair off, the plies show.",
    source: "Plane geometry. That a strip stands 1/32 in (1 mm) proud in all, half of that at each face, is common practice; no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "  frame {",
        wrong: "  shelves { edges box-side }\n\n  frame {",
    },
    check: Check::Parts(check),
    sometimes: Some((
        Severity::Warning,
        "The strip covers the edge, but has less than 1/32 in (1 mm) to trim in all.",
    )),
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    for part in &work.parts.all {
        for strip in part.strips.iter().filter(|strip| !strip.banding) {
            look(work.piece, part, strip, sink);
        }
    }
}

fn look(piece: &Piece, part: &Part, strip: &Strip, sink: &mut Sink) {
    let tape = piece.tape();
    let Some(stock) = piece.stock(strip.stock) else { return };
    let (wide, thick) = (stock.thickness.length, part.thickness.length);
    let spare = edging::proud(tape.unit).half();
    if wide >= thick + spare {
        return;
    }
    let bare = wide < thick;
    let title = match bare {
        true => format!(
            "a lip of {} is {} wide and does not cover the edge of {}, which is {} thick",
            stock.name,
            tape.text(wide),
            part.path,
            tape.text(thick)
        ),
        false => format!(
            "a lip of {} is {} wide and leaves nothing to trim on {}, which is {} thick",
            stock.name,
            tape.text(wide),
            part.path,
            tape.text(thick)
        ),
    };
    let (whole, less) = (tape.up(thick + spare), tape.print(wide).shown);
    let mut found = RULE
        .finding(title, strip.span, format!("as wide as {} is thick", stock.name))
        .label(stock.thickness_span, format!("planed to {}", tape.text(wide)))
        .sum(
            Sum::new("short by", whole - less, tape)
                .plus(whole, "the edge and what is trimmed", tape)
                .minus(less, stock.name.clone(), tape),
        )
        .subject(&part.path)
        .urgency((thick - wide) / Length::mm(1));
    if let Some(other) = wide_enough(piece, whole) {
        found = found.note(format!("{} is thick enough", other.name));
    }
    if whole < stock.nominal {
        let text = tape.source(whole);
        found = found.fix(Fix::new(
            Grade::Choice,
            format!("plane {} to {}", stock.name, tape.text(whole)),
            stock.thickness_span,
            format!("thickness {text}"),
        ));
    }
    sink.push(if bare { found } else { RULE.at_times(found) });
}

/// The thinnest lumber that covers an edge.
fn wide_enough(piece: &Piece, wide: Length) -> Option<&Stock> {
    let enough = |stock: &&Stock| stock.is_solid() && stock.thickness.length >= wide;
    piece.stocks.iter().filter(enough).min_by_key(|stock| stock.thickness.length)
}
