//! What there is to buy: sheets, boards, and edging, and what all of it comes to.
//! Hardware has a comparison of its own.

use crate::papers;
use crate::plans::Workings;

use super::difference::{Amounts, Buying};
use super::two_sided::Pair;

pub(super) fn compare(old: &Workings<'_>, new: &Workings<'_>) -> Buying {
    let (was, now) = (papers::to_buy(old), papers::to_buy(new));
    let mut names: Vec<&String> = now.stocks.iter().map(|(name, _)| name).collect();
    for (name, _) in &was.stocks {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    let amount = |side: &papers::ToBuy, name: &String| {
        side.stocks.iter().find(|(own, _)| own == name).map(|(_, amount)| amount.clone())
    };
    let amounts = names.into_iter().filter_map(|name| {
        let (was, now) = (amount(&was, name), amount(&now, name));
        (was != now).then(|| Amounts { what: name.clone(), was, now })
    });
    let amounts = amounts.collect();
    let total = match (was.total, now.total) {
        (Some(was), Some(now)) if was != now => Some(Pair { was, now }),
        _ => None,
    };
    Buying { amounts, total }
}
