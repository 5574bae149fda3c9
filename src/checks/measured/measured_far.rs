//! A reading that the drawing no longer fits, or that can't be right.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Length, Span, Tape};
use crate::model::{Axis, Opening, Piece, Set, Stock};
use crate::trade;

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "measured-far",
    severity: Severity::Error,
    finds: "A measured opening or thickness is too far off its drawn figure. An opening may be off by its two gaps; with an overlay front the limit is 1/8 in (3 mm), and with no front it is 1/4 in (6 mm). A thickness may be off by a quarter or by 1/16 in (1.6 mm), whichever is more. The reading is ignored, and everything else is judged without it.",
    why: "No front with its gaps in range can make up for that. The frame you built is not the frame that is drawn, and the drawing places every board behind it. A figure that is off by far more is usually a slip.",
    source: "Gaps: plane geometry. The other figures are our own.",
    formula: "Measured − drawn, compared with twice the gap. For a thickness, measured − written, compared with a quarter of it.",
    accept: "",
    example: Example {
        base: Base::First,
        sound: "finish oil { hardwax-oil; coats 2; cure 24 h }",
        wrong: "finish oil { hardwax-oil; coats 2; cure 24 h }\nmeasured { opening store { high 20-3/4 } }",
    },
    check: Check::Piece(check),
    sometimes: None,
};

fn check(piece: &Piece, sink: &mut Sink) {
    for opening in piece.cases.iter().flat_map(|case| &case.openings) {
        let axes = [Axis::Across, Axis::Down].into_iter().zip(opening.came_out.refused);
        for (axis, (measured, span)) in axes.filter_map(|(axis, read)| Some((axis, read?))) {
            sink.push(report(piece.tape(), opening, axis, measured, span));
        }
    }
    for stock in &piece.stocks {
        let refused = stock.refused;
        sink.extend(refused.map(|(measured, span)| thickness(piece.tape(), stock, measured, span)));
    }
}

fn report(tape: &Tape, opening: &Opening, axis: Axis, measured: Length, span: Span) -> Diagnostic {
    let (most, what) = opening.most_off(tape.unit);
    let drawn = opening.along(axis).length;
    let off = measured - drawn;
    let word = axis.size_word();
    let more = match (off.is_positive(), axis) {
        (true, Axis::Across) => "wider",
        (false, Axis::Across) => "narrower",
        (true, Axis::Down) => "taller",
        (false, Axis::Down) => "shorter",
    };
    let written: Option<Span> = opening.size_spans[usize::from(axis == Axis::Down)];
    let meant = trade::meant(measured, tape.unit, |length| (length - drawn).abs() <= most);
    let slip = meant.is_some() || off.abs() > drawn / 4;
    let title = match slip {
        true => format!(
            "{} can't have come out {} {word}, since it is drawn {}",
            opening.path,
            tape.figure(measured),
            tape.figure(drawn)
        ),
        false => format!(
            "{} came out {} {more} than drawn, but {what} can make up for only {}",
            opening.path,
            tape.figure(off.abs()),
            tape.figure(most)
        ),
    };
    let mut found = RULE
        .finding(title, span, format!("measured {}", tape.figure(measured)))
        .label(written.unwrap_or(opening.span), format!("drawn {} {word}", tape.figure(drawn)))
        .sum(super::off_by(tape, measured, drawn, "drawn"))
        .subject(&opening.path);
    if let Some(meant) = meant {
        found = found.fix(as_meant(tape, word, meant, span));
    }
    if slip {
        return found
            .note("measure again; the usual cause is a slip of a figure or the hook of the tape");
    }
    found = found
        .because("the drawing that places everything behind the frame no longer holds")
        .note("measure again; if the reading is right, draw the opening or the members beside it as they were built");
    if let Some(fronts) = opening.front.as_ref().filter(|fronts| fronts.set == Set::Inset) {
        let gap = tape.figure(fronts.gap.length);
        found = found.label(fronts.gap_span, format!("gap {gap}, on two sides"));
    }
    match written {
        Some(span) => {
            let edit = format!("{word} {}", tape.source(measured));
            found.fix(Fix::new(Grade::Choice, "draw it as it was built", span, edit))
        }
        None => found,
    }
}

fn thickness(tape: &Tape, stock: &Stock, measured: Length, span: Span) -> Diagnostic {
    let written = stock.thickness.length;
    let (figure, own) = (tape.figure(measured), tape.figure(written));
    let found = RULE.finding(format!("{} can't have come out {figure} thick, since {own} is written", stock.name),
        span,
        format!("measured {figure}"),
    )
    .label(stock.thickness_span, format!("written {own}"))
    .sum(super::off_by(tape, measured, written, "written"))
    .note("measure again; the usual cause is a slip of a figure, and a different board needs a stock of its own")
    .subject(&stock.name);
    let most = trade::thickness_off(written);
    match trade::meant(measured, tape.unit, |length| (length - written).abs() <= most) {
        Some(meant) => found.fix(as_meant(tape, "actual", meant, span)),
        None => found,
    }
}

fn as_meant(tape: &Tape, word: &str, meant: Length, span: Span) -> Fix {
    let meant = tape.decimal_source(meant);
    let title = format!("{meant}, if that is what you read");
    Fix::new(Grade::Choice, title, span, format!("{word} {meant}"))
}
