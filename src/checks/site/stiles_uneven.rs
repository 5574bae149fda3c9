//! Outer stiles of a frame that differ where nothing beside them does.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Fix, Grade, Severity, Sink};
use crate::measure::Length;
use crate::model::{Exposure, Piece, Side};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "stiles-uneven",
    severity: Severity::Warning,
    finds: "One of the outer stiles of a frame is wider than the other by 1/4 in (6 mm) or more but not twice as wide, and both sides of the case are seen, or both have another case beside them.",
    why: "The outer stiles of a frame match unless one is scribed to a wall, and one that is far wider is meant to be. A fraction left off one of them moves every opening, and you notice only when the piece stands there.",
    source: "Common practice, no source.",
    formula: "",
    accept: "Accept it if the frame is meant to be uneven.",
    example: Example {
        base: Base::First,
        sound: "stile left  { wide 1-3/4 }",
        wrong: "stile left  { wide 1 }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    let tape = piece.tape();
    for case in &piece.cases {
        let Some(frame) = &case.frame else { continue };
        let is_even = match &case.exposure {
            [Exposure::Seen, Exposure::Seen] => true,
            [Exposure::Neighbour, Exposure::Neighbour] => true,
            [Exposure::Seen | Exposure::Wall { .. } | Exposure::Neighbour, _] => false,
        };
        let [left, right] = &frame.stiles;
        let [left_end, right_end] = &case.ends;
        let (is_alike, wide) = (left_end.seam == right_end.seam, [&left.wide, &right.wide]);
        let [Some(left_at), Some(right_at)] = wide.map(|wide| piece.facts.written(wide)) else {
            continue;
        };
        if !is_even || !is_alike {
            continue;
        }
        // A figure that lost its fraction is the smaller one.
        let mut both = [(Side::Left, left, left_at), (Side::Right, right, right_at)];
        both.sort_by_key(|(_, stile, _)| stile.wide.length);
        let [(narrow, less, at), (_, more, more_at)] = both;
        let [short, long] = [less, more].map(|it| it.wide.length);
        let least = tape.unit.either(Length::inches(1, 4), Length::mm(6));
        if long - short < least || long >= short.twice() {
            continue;
        }
        let [less_figure, more_figure] = [less, more].map(|it| tape.figure(it.wide.length));
        let title = format!(
            "the {} stile of {} is {less_figure} wide, and the other one is {more_figure}",
            narrow.word(),
            case.name
        );
        let [less_source, more_source] = [less, more].map(|it| tape.source(it.wide.length));
        let even = |figure: &str, at, text: &str| {
            let title = format!("make both {figure} wide");
            Fix::new(Grade::Choice, title, at, format!("wide {text}"))
        };
        sink.push(
            RULE.finding(title, at, less_figure.clone())
                .label(more_at, more_figure.clone())
                .because("nothing beside the case calls for one of them to be wider")
                .fix(even(&more_figure, at, &more_source))
                .fix(even(&less_figure, more_at, &less_source))
                .subject(&case.path),
        );
    }
}
