//! Lumber planed to more than its rough boards are sure to yield.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Severity, Sink, Sum};
use crate::plans::Workings;
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "planing-scant",
    severity: Severity::Warning,
    finds: "The planed thickness of lumber is more than rough boards of that thickness surface to on two sides.",
    why: "A rough board is cupped, bowed, and unevenly sawn, and the trade promises no more than its surfaced thickness. A board that needs more planing than that stays rough in the hollows or ends up thinner than drawn.",
    source: "National Hardwood Lumber Association, standard thickness of surfaced lumber, S2S (3/8: 3/16; 1/2: 5/16; 5/8: 7/16; 3/4: 9/16; 4/4: 13/16; 5/4: 1-1/16; 6/4: 1-5/16; 7/4: 1-1/2; 8/4: 1-3/4; 10/4: 2-1/4; 12/4: 2-3/4; 16/4: 3-3/4), read in reprints.",
    formula: "The rough thickness less 3/16 in, or less 1/4 in from 7/4 up. Boards sold in millimeters lose as much.",
    accept: "Accept it if the boards are in your rack and you have measured them: they are flat, and thick enough to yield it.",
    example: Example {
        base: Base::First,
        sound: "stock maple   { lumber 4/4; thickness 3/4;",
        wrong: "stock maple   { lumber 4/4; thickness 7/8;",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for stock in super::boards(piece, parts) {
        let thick = stock.thickness.length;
        let Some(loss) = trade::planing_loss(stock.nominal) else { continue };
        let yields = stock.nominal - loss;
        if thick <= yields || thick >= stock.nominal {
            continue;
        }
        let rough = super::rough_name(stock, tape);
        let diagnostic = RULE
            .finding(
                format!(
                    "{} is to be {} thick, but {rough} boards plane to {}",
                    stock.name,
                    tape.figure(thick),
                    tape.text(yields)
                ),
                stock.thickness_span,
                format!("planed to {}", tape.figure(thick)),
            )
            .label(stock.nominal_span, format!("{rough} rough"))
            .sum(Sum::new("yields", yields, tape).plus(stock.nominal, "rough", tape).minus(
                loss,
                "to plane both faces",
                tape,
            ))
            .because("a cupped or bowed board comes out thinner than the parts are drawn")
            .subject(&stock.name);
        sink.push(super::thicker_board(diagnostic, stock));
    }
}
