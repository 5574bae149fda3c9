//! Glass where no pane can be.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink};
use crate::model::Stock;
use crate::parts::Role;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "glass-elsewhere",
    severity: Severity::Error,
    finds: "A part is to be made of glass that is neither the light of a framed front nor a loose shelf.",
    why: "Glass takes no screw, no glue, and no joint, and it breaks where wood that moves holds it fast. Here it can be laid on pins, or be held by beads in the rabbet of a frame.",
    source: "Common practice, no published source.",
    formula: "",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "plywood 1/4; actual 13/64; sheet { long 96; wide 48 }",
        wrong: "glass 1/4",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    if !work.piece.stocks.iter().any(Stock::is_glass) {
        return;
    }
    for part in &work.parts.all {
        let Some(stock) = work.piece.stock(part.stock).filter(|own| own.is_glass()) else {
            continue;
        };
        let note = match part.role {
            Role::AdjustableShelf => continue,
            Role::FrontPanel if part.hung.is_some() => continue,
            Role::FrontPanel => {
                "glass is for doors here: behind it lies the box of a drawer, or nothing that is looked at; give this front a `build` of its own with a panel of wood"
            }
            Role::FixedShelf => {
                "wood that shrinks or a case that racks breaks a pane that is fast in its dadoes: make the shelf adjustable, so that it lies loose on pins"
            }
            _ => {
                "name a stock of wood or of a sheet for it; glass can be the `panel-stock` of framed fronts and the `stock` of adjustable shelves"
            }
        };
        let found = RULE
            .finding(
                format!("{} can't be made of {}, which is glass", part.path, stock.name),
                part.span,
                "to be of glass",
            )
            .label(stock.nominal_span, "glass")
            .note(note)
            .subject(&part.path);
        sink.push(found);
    }
}
