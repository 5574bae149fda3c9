//! A part larger than any sheet of its stock.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::measure::Length;
use crate::parts::Grain;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "part-too-large",
    severity: Severity::Error,
    finds: "A part is too large for any sheet of its stock, with the factory edges trimmed and the grain the right way.",
    why: "It can't be cut.",
    source: "Plane geometry.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "stock ply     { plywood 3/4; actual 23/32; sheet { long 96; wide 48 } }",
        wrong: "stock ply     { plywood 3/4; actual 23/32; sheet { long 34; wide 34 } }",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for part in &parts.all {
        let Some(stock) = piece.stock(part.stock) else { continue };
        if stock.is_solid() {
            continue;
        }
        let fits = |a: Length, b: Length| stock.holds(piece.shop.edge_trim, [a, b]);
        let [long, wide] = part.core().map(|size| size.length);
        let turned = part.grain == Grain::None && fits(wide, long);
        // A back's grain may run either way; it is seen from inside only.
        let back = part.role == crate::parts::Role::Back && fits(wide, long);
        if fits(long, wide) || turned || back {
            continue;
        }
        let trimmed = stock.sheets.iter().map(|sheet| sheet.trimmed(piece.shop.edge_trim));
        let largest = trimmed
            .max_by_key(|[along, across]| (*along / Length::mm(1)) * (*across / Length::mm(1)));
        let Some([along, across]) = largest else { continue };
        sink.push(
            RULE.finding(
                format!(
                    "{} is {} by {}, but a trimmed sheet of {} is only {} by {}",
                    part.path,
                    tape.text(long),
                    tape.text(wide),
                    stock.name,
                    tape.text(along),
                    tape.text(across)
                ),
                stock.span,
                "this sheet",
            )
            .label(part.span, format!("{} by {}", tape.text(long), tape.text(wide)))
            .note("use a larger sheet, or change the design so that the part is smaller")
            .subject(&part.path)
            .urgency((long - along).max(wide - across) / Length::mm(1)),
        );
    }
}
