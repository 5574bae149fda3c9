//! A slide that makes its box far narrower or lower than its opening, or hardly at all, or
//! whose room does not go with its length.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink, Sum};
use crate::measure::{Exact, Length, Unit, is_on_rule, meant_inches, turned, undoubled};
use crate::model::{BoxRule, BoxWidth, Hardware, Piece, Slide};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "slide-odd",
    severity: Severity::Warning,
    finds: "A slide takes more or less off the width or the height of its opening than any sheet asks for, or its `room` is less than its `length` or far more. A slide in a used file counts only where a drawer runs on it.",
    why: "The box is cut by this figure. Too little off and the box jams between its slides; too much and the slides don't reach it. A slide needs at least its own length behind the front, and hardly more, so any other `room` is a different figure from the sheet, or a slip.",
    source: "Common practice, from slide makers' sheets: 3/4 to 2-1/2 in (19 to 64 mm) off the inside width, 1/4 to 2-1/2 in (6 to 64 mm) off the outside width, 1/8 to 4 in (3 to 100 mm) off the height, and up to 3 in (75 mm) more room than the slide is long.",
    formula: "",
    accept: "Accept it if the slide's own sheet gives this figure.",
    example: Example {
        base: Base::First,
        sound: "box-high opening - 7/8",
        wrong: "box-high opening - 0.0875",
    },
    check: Check::Piece(check),
    sometimes: None,
};

/// How many figures are offered in its place.
const MOST: usize = 2;

fn check(piece: &Piece, sink: &mut Sink) {
    for (index, slide) in piece.slides.iter().enumerate() {
        let runs = piece.cases.iter().flat_map(|case| &case.drawers).any(|it| it.slide.0 == index);
        if !runs && !crate::checks::in_spec(slide.span) {
            continue;
        }
        let Some(hardware) = slide.hardware() else { continue };
        sink.extend(room_and_length(piece, slide, hardware));
        let width = match &hardware.box_width {
            BoxWidth::Inside(rule) => (rule, "box-inside", (3, 4), (5, 2)),
            BoxWidth::Outside(rule) => (rule, "box-outside", (1, 4), (5, 2)),
        };
        let height = (&hardware.box_high, "box-high", (1, 8), (4, 1));
        for (rule, word, least, most) in [width, height] {
            let range = Length::inches(least.0, least.1)..=Length::inches(most.0, most.1);
            look(piece, slide, rule, word, &range, sink);
        }
    }
}

fn look(
    piece: &Piece,
    slide: &Slide,
    rule: &BoxRule,
    word: &str,
    usual: &std::ops::RangeInclusive<Length>,
    sink: &mut Sink,
) {
    let off = -rule.constant.length;
    // A figure for one opening, or a share of it, says nothing of a clearance.
    if rule.factor != Exact::ONE || usual.contains(&off) {
        return;
    }
    let tape = piece.tape();
    let title = format!(
        "{} takes {} off its opening with `{word}`, which is odd",
        slide.name,
        tape.figure_with_unit(off)
    );
    let mut found = RULE
        .finding(title, rule.span, format!("opening less {}", tape.figure(off)))
        .note(format!(
            "slides usually take {} to {}",
            tape.figure(*usual.start()),
            tape.figure_with_unit(*usual.end())
        ))
        .subject(&slide.name);
    // As it is written it may be in the other unit, or its point a place off.
    let (unit, other) =
        tape.unit.either((Unit::Inch, Unit::Millimetre), (Unit::Millimetre, Unit::Inch));
    let in_other = Length::new(off.in_unit(unit), other);
    let is_written = |meant: Length, unit: Unit| {
        let parts = meant.in_unit(unit).denom();
        parts <= 64 && (unit != Unit::Inch || parts.count_ones() == 1)
    };
    let inches = off.in_unit(Unit::Inch);
    let slips: Vec<Length> = match unit.is_metric() {
        true => vec![off * Exact::int(10), off * Exact::ratio(1, 10)],
        false => {
            let meant = meant_inches(inches, !inches.is_whole() && is_on_rule(inches));
            meant.into_iter().map(|own| Length::new(own.inches, Unit::Inch)).collect()
        }
    };
    let slips = slips.into_iter().map(|meant| (meant, unit));
    // `254` may be 25.4 mm.
    let tenth = (in_other * Exact::ratio(1, 10), other);
    let tries = std::iter::once((in_other, other)).chain(slips).chain([tenth]);
    let tries = tries.filter(|(meant, unit)| usual.contains(meant) && is_written(*meant, *unit));
    let tries = tries.take(MOST);
    for (meant, _) in tries {
        let meant = tape.source(meant);
        found = found.fix(Fix::new(
            Grade::Choice,
            format!("{meant} off, if that is what you meant"),
            rule.span,
            format!("{word} opening - {meant}"),
        ));
    }
    sink.push(found);
}

/// A slide that is longer than the room that it is said to need, or far shorter.
fn room_and_length(piece: &Piece, slide: &Slide, hardware: &Hardware) -> Option<Diagnostic> {
    let tape = piece.tape();
    let (room, long) = (hardware.room.length, hardware.length.length);
    let more = tape.unit.either(Length::inches(3, 1), Length::mm(75));
    if room > long + more {
        return Some(more_room_than_needed(piece, slide, hardware));
    }
    if room >= long {
        return None;
    }
    let title = format!(
        "{} is {} long, and its `room` is only {}",
        slide.name,
        tape.figure(long),
        tape.figure(room)
    );
    let found = RULE
        .finding(title, hardware.room_span, format!("room {}", tape.figure(room)))
        .sum(
            Sum::new("short by", long - room, tape)
                .plus(long, "length", tape)
                .minus(room, "room", tape),
        )
        .because("the slide and its box take up their own length behind the front")
        .subject(&slide.name);
    // A figure that has lost its first digit, else the least that there can be.
    let most = long + Length::inches(2, 1);
    let lost = [10, 20, 30, 100, 200, 300, 400, 500, 600];
    let one = tape.unit.either(Length::inches(1, 1), Length::mm(1));
    let meant = lost.into_iter().map(|more| room + one * more);
    let meant = meant.into_iter().find(|meant| (long..=most).contains(meant)).unwrap_or(long);
    Some(found.fix(Fix::new(
        Grade::Choice,
        format!("a room of {}", tape.figure(meant)),
        hardware.room_span,
        format!("room {}", tape.source(meant)),
    )))
}

/// A slide that is said to need far more room than it is long.
fn more_room_than_needed(piece: &Piece, slide: &Slide, hardware: &Hardware) -> Diagnostic {
    let tape = piece.tape();
    let (room, long) = (hardware.room.length, hardware.length.length);
    let title = format!(
        "{} is {} long, and its `room` is {}",
        slide.name,
        tape.figure(long),
        tape.figure(room)
    );
    let mut found = RULE
        .finding(title, hardware.room_span, format!("room {}", tape.figure(room)))
        .sum(
            Sum::new("more by", room - long, tape)
                .plus(room, "room", tape)
                .minus(long, "length", tape),
        )
        .because("a slide needs its own length behind the front, and up to an inch or two more")
        .subject(&slide.name);
    // Two digits turned around, one doubled, a point a place off, a digit too many in front.
    let most = long + tape.unit.either(Length::inches(2, 1), Length::mm(50));
    let count = room.in_unit(tape.unit);
    let fraction = count - Exact::int(count.floor());
    let around = turned(Exact::int(count.floor())).map(|whole| whole + fraction);
    let fewer = [100, 200, 300, 1000, 10, 20, 30].map(|less| count - Exact::int(less));
    let meant = [around, undoubled(count), Some(count * Exact::ratio(1, 10))].into_iter().flatten();
    let meant = meant.chain(fewer).map(|count| Length::new(count, tape.unit));
    if let Some(meant) = meant.into_iter().find(|meant| (long..=most).contains(meant)) {
        let title = format!("a room of {}", tape.figure(meant));
        let text = format!("room {}", tape.source(meant));
        found = found.fix(Fix::new(Grade::Choice, title, hardware.room_span, text));
    }
    found
}
