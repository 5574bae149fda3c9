//! Lumber planed to a sliver of its rough thickness.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::{Length, Unit, is_on_rule};
use crate::model::Stock;
use crate::plans::Workings;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "planed-thin",
    severity: Severity::Warning,
    finds: "The planed thickness of lumber is less than a fifth of its rough thickness.",
    why: "Four fifths of what you pay for would go into chips. It is usually a slip of the figure, and every part of this stock is then far thinner than meant.",
    source: "Common practice, no source: 1/4 in from 4/4 boards is the thinnest that is usually planed; thinner parts, and those from thicker boards, are resawn. What boards plane to is from the National Hardwood Lumber Association's table of surfaced lumber (S2S).",
    formula: "The planed thickness, compared with a fifth of the rough one.",
    accept: "Accept it if you resaw the boards first.",
    example: Example {
        base: Base::First,
        sound: "stock box-side { lumber 4/4; thickness 5/8;",
        wrong: "stock box-side { lumber 16/4; thickness 5/8;",
    },
    check: Check::Parts(check),
    sometimes: None,
};

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let Workings { piece, parts, .. } = *work;
    let tape = piece.tape();
    for stock in super::boards(piece, parts) {
        let thick = stock.thickness.length;
        if thick * 5 >= stock.nominal {
            continue;
        }
        let rough = super::rough_name(stock, tape);
        let found = RULE
            .finding(
                format!(
                    "{} is planed to {}, less than a fifth of its boards, which are {rough} rough",
                    stock.name,
                    tape.figure(thick)
                ),
                stock.thickness_span,
                format!("planed to {}", tape.figure(thick)),
            )
            .label(stock.nominal_span, format!("{rough} rough"))
            .because("four fifths of the wood would go into chips")
            .subject(&stock.name);
        let found = match super::usually_planed(stock, tape) {
            Some(planed) => {
                let usual = tape.figure(planed);
                found.note(format!("{rough} boards are usually planed to {usual}"))
            }
            None => found,
        };
        let found = match with_whole(stock) {
            Some(meant) => {
                let figure = tape.source(meant);
                let title = format!("{figure}, if its whole inch is missing");
                let text = format!("thickness {figure}");
                found.fix(Fix::new(Grade::Choice, title, stock.thickness_span, text))
            }
            None => found,
        };
        sink.push(super::thicker_board(found, stock));
    }
}

/// `1-1/4` for `1/4` of boards that are 6/4 rough: with so many whole inches more it is at
/// least two thirds of them.
fn with_whole(stock: &Stock) -> Option<Length> {
    let (thick, inch) = (stock.thickness.length, Length::inches(1, 1));
    if thick >= inch || !is_on_rule(thick.in_unit(Unit::Inch)) {
        return None;
    }
    let more = (1..4).map(|whole| thick + inch * whole);
    more.into_iter().find(|meant| *meant < stock.nominal && *meant * 3 >= stock.nominal * 2)
}
