//! The gaps round each front: as it is fitted, what the year makes of them, and how
//! far they may be off. And what the year does to each board.

use crate::measure::{Exact, Length};
use crate::model::{Axis, Set, Size, StockId};
use crate::parts::{Direction, Front, Part};
use crate::plans::seasons::{Against, Edge, Gap, Swell};
use crate::trade;
use crate::vocabulary::{Origin, words};

use super::teller::Teller;
use super::{Subject, Sum, Term, Value};

const SOURCE: &str = "Wood Handbook, ch. 13, Eq. 13-2";

/// A day of the year.
#[derive(Clone, Copy)]
enum Day {
    Driest,
    Dampest,
}

impl Day {
    fn word(self) -> &'static str {
        match self {
            Self::Driest => "driest",
            Self::Dampest => "dampest",
        }
    }
}

/// The gaps that are told of with a front.
pub(super) fn of_front(tell: &Teller<'_>, front: &Front<'_>) -> Vec<Sum> {
    let gaps = tell.work.gaps().iter();
    let own = gaps.filter(|gap| match gap.against {
        _ if gap.front.id == front.id => true,
        Against::Front(opening, leaf) => (opening.id, leaf) == (front.id.opening, front.id.leaf),
        Against::Part(_) => false,
    });
    let over = front.overlays().map(|(edge, over)| {
        tell.length(&[Subject::Gap], format!("overlay {}", edge.word()), over.length, over)
    });
    own.flat_map(|gap| of_gap(tell, gap, front)).chain(over).collect()
}

fn of_gap(tell: &Teller<'_>, gap: &Gap<'_>, seen: &Front<'_>) -> Vec<Sum> {
    let about = [Subject::Gap];
    let name = match gap.front.id == seen.id {
        true => format!("{} gap", gap.edge_name()),
        false => format!("gap to {}", gap.front.path),
    };
    let told = |what: &str| format!("{name}, {what}");
    let fitted = fitted(tell, gap);
    let mut sums = vec![tell.length(&about, told("as fitted"), gap.fitted, &fitted)];
    for (day, gapes) in [(Day::Driest, gap.driest), (Day::Dampest, gap.dampest)] {
        let mut terms = tell.terms(gap.fitted, &fitted);
        terms.extend(gap.swells.iter().map(|swell| swelled(tell, swell, day)));
        let paper = tell.fine(gapes);
        let figure = (Value::Length(gapes), paper);
        sums.push(tell.figure(&about, told(&format!("{} day", day.word())), figure, terms));
    }
    // An overlay front is set by its lines, whatever is left at its top.
    if gap.edge == Edge::Top && gap.front.fronts.set == Set::Inset {
        let closes = (gap.fitted - gap.dampest).max(Length::ZERO);
        let least = trade::least_gap();
        let how = "under this it rubs (common practice, no source)";
        let mut terms = vec![tell.worked(
            Value::Length(least),
            &tell.fine(least),
            "must stay open",
            how,
            vec![],
        )];
        if closes.is_positive() {
            let how = "the gap as fitted less that of the dampest day";
            let closes = Value::Length(closes);
            terms.push(tell.worked(closes, &tell.text(closes), "what the wood takes", how, vec![]));
        }
        let never = tell.tape.fine_up(least + closes);
        let figure = (Value::Length(never), tell.fine(never));
        sums.push(tell.figure(&about, told("never less than"), figure, terms));
    }
    let (likely, worst) = (gap.stack.likely(), gap.stack.worst());
    let own = |by: Length, what: &str| {
        let origins = tolerance(tell, what);
        let how = "as far as the shop is true, shared by what is set";
        tell.worked(Value::Length(by), &tell.fine(by), what, how, origins)
    };
    let terms: Vec<Term> = gap.stack.terms.iter().map(|term| own(term.by, term.what)).collect();
    let each: Vec<String> = gap.stack.terms.iter().map(|term| tell.fine(term.by)).collect();
    let how = format!("the root of the sum of the squares of {}", each.join(", "));
    let root = tell.worked(Value::Length(likely), &tell.fine(likely), "likely", how, vec![]);
    let figure = |length: Length| (Value::Length(length), tell.fine(length));
    sums.push(tell.figure(&about, told("± likely"), figure(likely), vec![root]));
    sums.push(tell.figure(&about, told("± worst"), figure(worst), terms));
    sums
}

/// The statements that say how true the shop is.
fn tolerance(tell: &Teller<'_>, what: &str) -> Vec<Origin> {
    use words::tolerance::{BLOCK, CUT, PLACE, SQUARE};
    let word = match what {
        "placing" => PLACE,
        "squareness" => SQUARE,
        _ => CUT,
    };
    vec![tell.origin(&BLOCK, word, None)]
}

/// From the edge of a front to what stands across the gap, both where they stand.
fn fitted(tell: &Teller<'_>, gap: &Gap<'_>) -> Size {
    let (direction, far) = (gap.edge.direction(), matches!(gap.edge, Edge::Right | Edge::Top));
    let axis = match direction {
        Direction::X => Axis::Across,
        Direction::Y | Direction::Z => Axis::Down,
    };
    let slack = |front: &Front<'_>| front.opening.grown(axis).half();
    let own = outermost(&gap.front.parts, direction, far);
    let fronts = tell.work.fronts();
    let (other, slack) = match gap.against {
        Against::Part(part) => (Some(part.side(direction, !far)), slack(&gap.front)),
        Against::Front(opening, leaf) => {
            let is = |front: &&Front<'_>| (front.id.opening, front.id.leaf) == (opening.id, leaf);
            let other = fronts.iter().find(is);
            let between = match opening.id == gap.front.id.opening {
                true => Size::zero(),
                false => slack(&gap.front) + other.map(slack).unwrap_or_default(),
            };
            (other.and_then(|other| outermost(&other.parts, direction, !far)), between)
        }
    };
    match (own, other, far) {
        (Some(own), Some(other), true) => other - own + slack,
        (Some(own), Some(other), false) => own - other + slack,
        (None, ..) | (_, None, _) => gap.fitted.into(),
    }
}

/// The side of a front: that of its outermost board.
fn outermost(parts: &[&Part], direction: Direction, far: bool) -> Option<Size> {
    let sides = parts.iter().map(|part| part.side(direction, far));
    match far {
        true => sides.max_by_key(|side| side.length),
        false => sides.min_by_key(|side| side.length),
    }
}

/// What the swelling of one board takes from a gap.
fn swelled(tell: &Teller<'_>, swell: &Swell, day: Day) -> Term {
    let by = match day {
        Day::Driest => swell.driest,
        Day::Dampest => swell.dampest,
    };
    let share = match swell.share == Exact::ONE {
        true => String::new(),
        false => format!(" × {}", swell.share),
    };
    let how = worked(tell, swell.wide, swell.coefficient, day) + &share;
    let how = format!("{how} ({SOURCE})");
    let from = statements(tell, swell.stock);
    tell.worked(Value::Length(-by), &tell.fine(-by), swell.what.clone(), how, from)
}

/// Width, change for each point of moisture, and points of moisture.
fn worked(tell: &Teller<'_>, wide: Length, coefficient: u32, day: Day) -> String {
    let climate = tell.work.climate();
    let then = match day {
        Day::Driest => climate.driest,
        Day::Dampest => climate.dampest,
    };
    format!(
        "{} wide × 0.{coefficient:06} a point × ({:.1} − {:.1}) points of moisture",
        tell.tape.text(wide),
        then.moisture,
        climate.milled.moisture
    )
}

/// The wood, and the air of the shop and of the room.
fn statements(tell: &Teller<'_>, stock: StockId) -> Vec<Origin> {
    let wood = tell.piece.stock(stock).map(|stock| {
        let line = tell.origin(&words::stock::BLOCK, words::stock::SPECIES, Some(stock.span));
        line.span().map_or(Origin::Written(stock.species_span), Origin::Written)
    });
    let shop = tell.piece.shop.humidity_span.map(Origin::Written);
    let shop =
        shop.unwrap_or_else(|| tell.origin(&words::shop::BLOCK, words::shop::HUMIDITY, None));
    let room = tell.origin(&words::site::BLOCK, words::site::HUMIDITY, None);
    wood.into_iter().chain([shop, room]).collect()
}

/// What the year does to the width of a board.
pub(super) fn of_part(tell: &Teller<'_>, part: &Part) -> Vec<Sum> {
    let stock = tell.piece.stock(part.stock).filter(|stock| stock.wood.is_some());
    let Some(stock) = stock else { return Vec::new() };
    let change = tell.work.climate().swelling(stock, part.width.length);
    let days = [(Day::Driest, change.driest), (Day::Dampest, change.dampest)];
    days.map(|(day, by)| {
        let how = worked(tell, part.width.length, change.coefficient, day);
        let how = format!("{how} ({SOURCE})");
        let value = Value::Length(by);
        let from = statements(tell, part.stock);
        let term = tell.worked(value, &tell.fine(by), "its own width", how, from);
        let word = format!("change of width, {} day", day.word());
        tell.figure(&[Subject::Movement], word, (value, tell.fine(by)), vec![term])
    })
    .into()
}
