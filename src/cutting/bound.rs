//! What no plan can do with less of.
//!
//! A dual-feasible function gives lengths other values, so that whatever fits in a sheet
//! still does when lengths are taken by them. The areas by such values then ask for as
//! many sheets as any plan: Fekete and Schepers, A general framework for bounds for
//! higher-dimensional orthogonal packing problems (Mathematical Methods of Operations
//! Research 60, 2004), and Carlier, Clautiaux and Moukrim, New reduction procedures and
//! lower bounds for the two-dimensional bin packing problem with fixed orientation
//! (Computers and Operations Research 34, 2007).

use std::collections::BTreeSet;

use super::{Kind, Order, Wanted, Way, area};

/// The most sizes of pieces that values are made from, each way.
const MARKS: usize = 48;
/// The most multiples that `Value::Steps` counts in.
const STEPS: i64 = 12;

/// What a length counts as, of a whole.
#[derive(Clone, Copy, Debug)]
enum Value {
    /// As what it is.
    Own,
    /// As nothing below this, and as the whole where less than this would be left.
    Cut(i64),
    /// As how many of this go in; what is more than half counts as what it keeps others
    /// from.
    Fit(i64),
    /// In whole steps, of which so many and one more are the whole.
    Steps(i64),
}

impl Value {
    fn of(self, own: i64, whole: i64) -> i128 {
        let value = match self {
            Self::Own => own,
            Self::Cut(least) if own > whole - least => whole,
            Self::Cut(least) if own < least => 0,
            Self::Cut(_) => own,
            Self::Fit(one) if 2 * own > whole => 2 * (whole / one - (whole - own) / one),
            Self::Fit(one) if 2 * own == whole => whole / one,
            Self::Fit(one) => 2 * (own / one),
            Self::Steps(steps) => {
                let scaled = i128::from(own) * i128::from(steps + 1);
                let whole = i128::from(whole);
                return match scaled % whole {
                    0 => i128::from(own) * i128::from(steps),
                    _ => scaled / whole * whole,
                };
            }
        };
        i128::from(value)
    }

    fn whole(self, whole: i64) -> i128 {
        i128::from(match self {
            Self::Own | Self::Cut(_) => whole,
            Self::Fit(one) => 2 * (whole / one),
            Self::Steps(steps) => whole.saturating_mul(steps),
        })
    }
}

/// The least that any plan costs, as far as can be told from the sizes alone: of the kind
/// of sheet that can be bought, in its costs. Where there are several kinds, all count
/// by their areas.
#[must_use]
pub fn fewest(order: &Order) -> i64 {
    let least = by_area(order);
    let Some(kind) = bought(order) else { return least };
    let count: usize = order.kinds.iter().filter_map(|own| own.count).sum();
    // None of what is on hand holds more than a sheet does, unless it is larger.
    let larger = order.kinds.iter().any(|own| {
        Way::BOTH.into_iter().any(|way| own.count.is_some() && way.of(own.size) > way.of(kind.size))
    });
    if larger {
        return least;
    }
    let sheets = by_value(order, kind) - i128::try_from(count).unwrap_or(i128::MAX);
    least.max(cost_of(sheets, kind))
}

/// The only kind that can be bought.
fn bought(order: &Order) -> Option<&Kind> {
    let mut bought = order.kinds.iter().filter(|kind| kind.count.is_none());
    bought.next().filter(|_| bought.next().is_none())
}

fn cost_of(sheets: i128, kind: &Kind) -> i64 {
    i64::try_from(sheets.max(0)).unwrap_or(i64::MAX).saturating_mul(kind.cost)
}

/// The same by the areas alone: what is on hand holds no more than its own.
pub(super) fn by_area(order: &Order) -> i64 {
    let Some(kind) = bought(order) else { return by_cheapest_area(order) };
    let had: i128 = order.kinds.iter().filter(|own| own.count.is_some()).map(all_of).sum();
    let pieces: i128 = order.placeable().map(|piece| area(piece.size)).sum();
    cost_of(times((pieces - had).max(0), area(kind.size)), kind)
}

fn all_of(kind: &Kind) -> i128 {
    area(kind.size) * kind.count.and_then(|count| i128::try_from(count).ok()).unwrap_or(1)
}

/// How many times `by` makes at least this much.
fn times(sum: i128, by: i128) -> i128 {
    if by <= 0 { 0 } else { (sum + by - 1) / by }
}

/// The cost of as much area as the pieces have, bought where it is cheapest.
fn by_cheapest_area(order: &Order) -> i64 {
    let mut rest: i128 = order.placeable().map(|piece| area(piece.size)).sum();
    let mut kinds: Vec<&Kind> = order.kinds.iter().filter(|kind| area(kind.size) > 0).collect();
    kinds.sort_by(|a, b| {
        let own = i128::from(a.cost) * area(b.size);
        own.cmp(&(i128::from(b.cost) * area(a.size)))
    });
    let mut cost: i128 = 0;
    for kind in kinds {
        let most = kind.count.map_or(rest, |_| all_of(kind).min(rest)).max(0);
        rest -= most;
        if rest == 0 {
            cost += times(most * i128::from(kind.cost), area(kind.size));
            break;
        }
        cost += most * i128::from(kind.cost) / area(kind.size);
    }
    i64::try_from(cost).unwrap_or(i64::MAX)
}

/// What a piece counts as, the way it lies and the other way.
type Counts = [i128; 2];

/// The most sheets of one kind that any pair of values asks for.
fn by_value(order: &Order, kind: &Kind) -> i128 {
    let [long, wide] = kind.size;
    // What fits in no sheet of the kind asks for none.
    let lies = |piece: &Wanted| {
        let [a, b] = piece.size;
        [a <= long && b <= wide, piece.turns && b <= long && a <= wide]
    };
    let pieces: Vec<(Wanted, [bool; 2], i128)> =
        alike(&order.pieces).into_iter().map(|(own, many)| (own, lies(&own), many)).collect();
    let counted = |way: Way| -> Vec<(i128, Vec<Counts>)> {
        let whole = way.of(kind.size);
        let of = |value: Value| {
            let count = |piece: &Wanted| {
                [way, way.other()].map(|side| value.of(side.of(piece.size), whole))
            };
            (value.whole(whole), pieces.iter().map(|(piece, ..)| count(piece)).collect())
        };
        values(order, kind, way).into_iter().map(of).collect()
    };
    let [along, across] = Way::BOTH.map(counted);
    let mut most = 0;
    for (held_along, one) in &along {
        for (held_across, other) in &across {
            let own = one.iter().zip(other).zip(&pieces);
            let counts = own.map(|((one, other), (_, lies, many))| {
                let [straight, turned] = [one[0] * other[0], one[1] * other[1]];
                let each = match lies {
                    [true, true] => straight.min(turned),
                    [true, false] => straight,
                    [false, true] => turned,
                    [false, false] => 0,
                };
                each * many
            });
            let (sum, held) = (counts.sum::<i128>(), held_along * held_across);
            // Few pairs ask for more than those before them.
            if sum > most * held {
                most = times(sum, held);
            }
        }
    }
    most
}

/// The pieces that differ, each with how many there are.
fn alike(pieces: &[Wanted]) -> Vec<(Wanted, i128)> {
    let mut all: Vec<(Wanted, i128)> = Vec::new();
    for piece in pieces {
        match all.iter_mut().find(|(own, _)| own == piece) {
            Some((_, many)) => *many += 1,
            None => all.push((*piece, 1)),
        }
    }
    all
}

/// The values that may tell something of these pieces.
fn values(order: &Order, kind: &Kind, way: Way) -> Vec<Value> {
    let whole = way.of(kind.size);
    let sizes = || order.pieces.iter().flat_map(Wanted::ways).map(|(_, size)| way.of(size));
    // What fills the whole counts as the whole by each value: so it is across a board.
    if sizes().all(|own| own == whole) {
        return vec![Value::Own];
    }
    let marks = sizes().flat_map(|own| [own, whole - own]);
    let marks: BTreeSet<i64> = marks.filter(|own| *own > 0 && 2 * own <= whole).collect();
    // Of very many, some all over their range.
    let step = marks.len().div_ceil(MARKS).max(1);
    let of_marks =
        marks.into_iter().step_by(step).flat_map(|own| [Value::Cut(own), Value::Fit(own)]);
    let steps = (1..=STEPS).map(Value::Steps);
    [Value::Own].into_iter().chain(of_marks).chain(steps).collect()
}
