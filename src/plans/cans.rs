//! Which cans to buy, so that they hold as much as is taken.

use std::cmp::Ordering;

use crate::measure::Exact;
use crate::model::Can;

/// Up to so many milliliters every choice of cans is weighed; what is taken beyond them is
/// bought in the one can that is best for all of it.
const WEIGHED: usize = 100_000;

/// What some cans come to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Sum {
    costs: Exact,
    holds: Exact,
    count: i64,
}

impl Sum {
    const NONE: Self = Self { costs: Exact::ZERO, holds: Exact::ZERO, count: 0 };

    fn and(self, can: &Can) -> Self {
        Self {
            costs: self.costs + can.price.unwrap_or(Exact::ZERO),
            holds: self.holds + can.holds.0,
            count: self.count + 1,
        }
    }

    /// The least money first, then what leaves least over, then the fewest.
    fn is_better(self, other: Self) -> bool {
        let order = self.costs.cmp(&other.costs).then(self.holds.cmp(&other.holds));
        order.then(self.count.cmp(&other.count)) == Ordering::Less
    }
}

/// How many of each can hold at least so many milliliters, for the least money where all of
/// them have a price; else, and among equals, with the least left over, and then in the
/// fewest cans. In the order of the cans.
#[must_use]
pub fn least(cans: &[Can], milliliters: i64) -> Vec<(Can, i64)> {
    let are_priced = cans.iter().all(|can| can.price.is_some());
    let cans: Vec<Can> = cans
        .iter()
        .map(|can| Can { price: can.price.filter(|_| are_priced), ..*can })
        .filter(|can| can.holds.0.floor() > 0)
        .collect();
    let needed = usize::try_from(milliliters).unwrap_or(0);
    let mut counts = vec![0; cans.len()];
    let whole = |can: &Can| usize::try_from(can.holds.0.floor()).unwrap_or(1).max(1);
    let beyond = needed.saturating_sub(WEIGHED);
    let mut weighed = needed.min(WEIGHED);
    if beyond > 0 {
        let many = |can: &Can| beyond.div_ceil(whole(can));
        let counted = |can: &Can| i64::try_from(many(can)).unwrap_or(i64::MAX);
        let each = |can: &Can| {
            let count = Exact::int(counted(can));
            (can.price.unwrap_or(Exact::ZERO) * count, can.holds.0 * count)
        };
        if let Some((at, can)) = cans.iter().enumerate().min_by_key(|(_, can)| each(can)) {
            counts[at] += counted(can);
            // The last of them may hold some of the rest.
            weighed = needed.saturating_sub(many(can).saturating_mul(whole(can)));
        }
    }
    // For each volume the best sum, and the can that it ends with.
    let mut best: Vec<(Sum, usize)> = vec![(Sum::NONE, 0)];
    for volume in 1..=weighed {
        let with = |(at, can): (usize, &Can)| {
            let before = volume.saturating_sub(whole(can));
            best.get(before).map(|(sum, _)| (sum.and(can), at))
        };
        let mut all = cans.iter().enumerate().filter_map(with);
        let Some(first) = all.next() else { return Vec::new() };
        let own = all.fold(first, |one, other| if other.0.is_better(one.0) { other } else { one });
        best.push(own);
    }
    let mut left = weighed;
    while left > 0 {
        let Some((_, at)) = best.get(left).copied() else { break };
        counts[at] += 1;
        left = left.saturating_sub(whole(&cans[at]));
    }
    cans.into_iter().zip(counts).filter(|(_, count)| *count > 0).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::Volume;

    fn can(holds: i64, price: Option<i64>) -> Can {
        Can { holds: Volume(Exact::int(holds)), price: price.map(Exact::int) }
    }

    /// Every choice of three cans is tried, up to twelve of each.
    #[test]
    fn no_other_choice_costs_less() {
        let cans = [can(1000, Some(41)), can(375, Some(17)), can(120, Some(7))];
        for taken in [1, 119, 120, 121, 500, 999, 1001, 1750, 2400] {
            let costs = |own: &[i64]| own.iter().zip([41, 17, 7]).map(|(n, p)| n * p).sum::<i64>();
            let holds =
                |own: &[i64]| own.iter().zip([1000, 375, 120]).map(|(n, v)| n * v).sum::<i64>();
            let all =
                (0..13).flat_map(|a| (0..13).flat_map(move |b| (0..13).map(move |c| [a, b, c])));
            let least_of = all.filter(|own| holds(own) >= taken).map(|own| costs(&own)).min();
            let own = least(&cans, taken);
            let sum: Exact =
                own.iter().map(|(can, n)| can.price.unwrap_or_default() * Exact::int(*n)).sum();
            let held: Exact = own.iter().map(|(can, n)| can.holds.0 * Exact::int(*n)).sum();
            assert_eq!(Some(sum), least_of.map(Exact::int), "{taken}: {own:?}");
            assert!(held >= Exact::int(taken), "{taken}: {own:?}");
        }
    }

    /// 150 liters are 100 of the one can, and 50 more beyond what is weighed.
    #[test]
    fn a_great_deal_is_bought_too() {
        assert_eq!(least(&[can(1000, None)], 150_000), [(can(1000, None), 150)]);
        // 200 of 750 ml are 150 liters.
        assert_eq!(least(&[can(750, None)], 150_000), [(can(750, None), 200)]);
        assert_eq!(least(&[can(1000, None)], 0), []);
        assert_eq!(least(&[], 10), []);
    }
}
