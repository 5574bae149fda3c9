//! A gap that the damp season closes.

use crate::checks::rule::{Base, Check, Example, Rule};
use crate::diagnostics::{Diagnostic, Fix, Grade, Severity, Sink};
use crate::measure::{Exact, Length, Span};
use crate::model::{Build, Piece, Sawn, Set, Stock};
use crate::parts::Direction;
use crate::plans::Workings;
use crate::plans::seasons::{Climate, Gap, Swell};
use crate::trade::least_gap;

use super::{product, quarter_fix, weather};

pub(in crate::checks) const RULE: Rule = Rule {
    slug: "gap-closes",
    severity: Severity::Warning,
    finds: "The gap between a front and what stands beside it shrinks to less than 1/64 in (0.4 mm) on the dampest or driest day of the room.",
    why: "Wood swells across its grain as the air gets damp. A front that fits in the shop in winter jams in August. A pair of leaves locks, and forcing it open tears the hinges out.",
    source: "Wood Handbook (FPL-GTR-190): moisture by Eq. 4-5, coefficients of Table 13-5, movement by Eq. 13-2 and 13-3. That a gap under 1/64 in rubs is common practice; no published source.",
    formula: "Width × coefficient × points of moisture, for every board that moves toward the gap. A door moves away from its hinges. Another front moves half to each side of its fasteners, and a rail, or a stile between two openings, half to each side. An outer stile moves outward only: its inner edge stays at the shoulders of the rails, whose length doesn't change. A drawer on its runners lifts its front by half of what its sides swell.",
    accept: "Accept it if the room is kept drier than the spec says, or if you mean to plane the front in place after its first summer.",
    example: Example {
        base: Base::Console,
        sound: "thickness 3/4; sawn quarter",
        wrong: "thickness 3/4; sawn flat",
    },
    check: Check::Parts(check),
    sometimes: None,
};

/// The width of stile that a framed door is compared with.
fn usual_stile(piece: &Piece) -> Length {
    piece.tape().unit.either(Length::inches(9, 4), Length::mm(60))
}

/// The widest a maker is told to make a reveal, and a gap between two leaves.
const WIDEST: [Length; 2] = [Length::mm(5), Length::mm(7)];

fn check(work: &Workings<'_>, sink: &mut Sink) {
    let piece = work.piece;
    let climate = work.climate();
    let mut worst: Vec<&Gap<'_>> = Vec::new();
    for gap in work.gaps() {
        // A reveal that is too small as fitted is for the hinge's rule to say,
        // and of fronts that touch another speaks.
        let reveal = gap.front.fronts.set == Set::Inset && gap.fitted < least_gap();
        let told = reveal || !gap.fitted.is_positive();
        if gap.least() >= least_gap() || told || gap.swells.is_empty() {
            continue;
        }
        let same = |known: &&mut &Gap<'_>| known.front.opening.id == gap.front.opening.id;
        match worst.iter_mut().find(same) {
            Some(known) if gap.least() < known.least() => *known = gap,
            Some(_) => {}
            None => worst.push(gap),
        }
    }
    for gap in worst {
        sink.push(report(piece, climate, gap));
    }
}

fn report(piece: &Piece, climate: &Climate, gap: &Gap<'_>) -> Diagnostic {
    let tape = piece.tape();
    let damp = gap.dampest <= gap.driest;
    let season = if damp { "damp" } else { "dry" };
    let opening = gap.front.opening;
    let swelling = gap.fitted - gap.least();
    let amount = tape.fine(swelling);
    let fitted = tape.figure(gap.fitted);
    let title = if gap.meeting {
        format!(
            "the two leaves of {} will meet in the {season} season; they have {fitted} between them and swell {amount}",
            opening.path
        )
    } else {
        format!(
            "{} will jam at its {} edge in the {season} season; its gap is {fitted}, and the wood moves {amount}",
            opening.path,
            gap.edge_name()
        )
    };
    let (span, word) = place(gap);
    let mut diagnostic = RULE
        .finding(title, span, fitted.clone())
        .subject(&opening.path)
        .urgency(-gap.least() / Length::mm(1));
    if span != opening.span {
        let (wide, high) = opening.leaf(gap.front.fronts);
        let size = if gap.edge.direction() == Direction::X { wide } else { high };
        let size = tape.figure(size.length);
        let along = if gap.edge.direction() == Direction::X { "wide" } else { "high" };
        diagnostic = diagnostic.label(opening.span, format!("{} {size} {along}", gap.front.noun()));
    }
    let stocks = stocks(piece, gap);
    for stock in &stocks {
        let wood = stock.wood_name();
        let text = format!("{wood}, {}sawn", stock.sawn.word());
        diagnostic = diagnostic.label(stock.sawn_span.unwrap_or(stock.span), text);
    }
    diagnostic = weather(diagnostic, piece, climate, damp);
    diagnostic = arithmetic(diagnostic, piece, climate, gap, damp);
    mend(diagnostic, piece, climate, gap, &stocks, (span, word), damp)
}

/// The statement that gives the gap, and its word where there is one.
fn place(gap: &Gap<'_>) -> (Span, Option<&'static str>) {
    match (gap.meeting, &gap.front.fronts.set) {
        (true, _) => (gap.front.fronts.meeting_span, Some("meeting")),
        (false, Set::Inset) => (gap.front.fronts.gap_span, Some("gap")),
        (false, Set::Overlay(_)) => (gap.front.opening.span, None),
    }
}

/// The stocks that move toward the gap.
fn stocks<'p>(piece: &'p Piece, gap: &Gap<'_>) -> Vec<&'p Stock> {
    let mut ids = Vec::new();
    for swell in &gap.swells {
        if !ids.contains(&swell.stock) && swell.share.is_positive() {
            ids.push(swell.stock);
        }
    }
    ids.into_iter().filter_map(|id| piece.stock(id)).collect()
}

fn takes(swell: &Swell, damp: bool) -> Length {
    if damp { swell.dampest } else { swell.driest }
}

/// A line for each board, the same ones together, and what they leave.
fn arithmetic(
    mut diagnostic: Diagnostic,
    piece: &Piece,
    climate: &Climate,
    gap: &Gap<'_>,
    damp: bool,
) -> Diagnostic {
    let tape = piece.tape();
    let mut lines: Vec<(&Swell, usize)> = Vec::new();
    for swell in &gap.swells {
        match lines.iter_mut().find(|(known, _)| *known == swell) {
            Some((_, count)) => *count += 1,
            None => lines.push((swell, 1)),
        }
    }
    let mut rest = tape.figure(gap.fitted);
    for (swell, count) in lines {
        let one = takes(swell, damp);
        let product = product(tape, climate, damp, swell.wide, swell.coefficient);
        let share = match swell.share.abs() {
            share if share == Exact::ONE => String::new(),
            share => format!(" × {share}"),
        };
        let mut line = format!("{product}{share} = {}", tape.fine(one.abs()));
        if count > 1 {
            line.push_str(&format!(
                ", and {count} of them {}",
                tape.fine(one.abs() * count as i64)
            ));
        }
        diagnostic = diagnostic.working(&swell.what, line);
        let sign = if one.is_negative() { '+' } else { '−' };
        rest.push_str(&format!(" {sign} {}", tape.fine(one.abs() * count as i64)));
    }
    diagnostic.working("leaves", format!("{rest} = {}", tape.fine(gap.least())))
}

/// What the gap would leave with every board of these stocks on the quarter.
fn least_quartered(piece: &Piece, climate: &Climate, gap: &Gap<'_>, damp: bool) -> Length {
    let taken: Length = gap
        .swells
        .iter()
        .map(|swell| {
            let wood = piece.stock(swell.stock).and_then(|stock| stock.wood);
            let coefficient =
                wood.map_or(swell.coefficient, |wood| Sawn::Quarter.coefficient(&wood));
            let whole = climate.with(coefficient, swell.wide);
            (if damp { whole.dampest } else { whole.driest }) * swell.share
        })
        .sum();
    gap.fitted - taken
}

/// The edits that would hold: a wider gap, quartered boards, or both; and what
/// a frame and panel would do.
fn mend(
    mut diagnostic: Diagnostic,
    piece: &Piece,
    climate: &Climate,
    gap: &Gap<'_>,
    stocks: &[&Stock],
    (span, word): (Span, Option<&'static str>),
    damp: bool,
) -> Diagnostic {
    let tape = piece.tape();
    let most = if gap.meeting { WIDEST[1] } else { WIDEST[0] };
    let wider = |least: Length| {
        let needed = tape.up(gap.fitted + (least_gap() - least));
        word.filter(|_| needed <= most)
            .map(|word| (needed, format!("{word} {}", tape.source(needed))))
    };
    let quarter = quarter_fix(stocks);
    let quartered = least_quartered(piece, climate, gap, damp);
    if let Some(fix) = quarter.clone().filter(|_| quartered >= least_gap()) {
        let title = format!("{}, which leaves {}", fix.title, tape.fine(quartered));
        diagnostic = diagnostic.fix(Fix { title, ..fix });
    }
    if let Some((needed, text)) = wider(gap.least()) {
        let title = format!("make the gap {}", tape.figure(needed));
        diagnostic = diagnostic.fix(Fix::new(Grade::Choice, title, span, text));
    }
    if let (Some(fix), Some((needed, text))) =
        (quarter.filter(|_| quartered < least_gap()), wider(quartered))
    {
        let title = format!("{} and make the gap {}", fix.title, tape.figure(needed));
        let mut edits = fix.edits;
        edits.push(crate::diagnostics::Edit { span, text });
        diagnostic = diagnostic.fix(Fix { title, grade: Grade::Choice, edits });
    }
    if gap.front.fronts.build == Build::Slab && gap.front.hung.is_some() {
        diagnostic = framed(diagnostic, piece, climate, gap, damp);
    }
    diagnostic
}

/// What it would be with frame-and-panel doors: only their stiles swell.
fn framed(
    diagnostic: Diagnostic,
    piece: &Piece,
    climate: &Climate,
    gap: &Gap<'_>,
    damp: bool,
) -> Diagnostic {
    let Some(stock) = piece.stock(gap.front.fronts.stock) else { return diagnostic };
    let leaves = if gap.meeting { 2 } else { 1 };
    let stiles = usual_stile(piece) * 2 * leaves;
    let whole = climate.swelling(stock, stiles);
    let taken = if damp { whole.dampest } else { whole.driest };
    if gap.fitted - taken < least_gap() {
        return diagnostic;
    }
    diagnostic.note(format!(
        "in a frame-and-panel front only the stiles swell, by {1} where they are {0} wide",
        piece.tape().figure(usual_stile(piece)),
        piece.tape().fine(taken)
    ))
}
