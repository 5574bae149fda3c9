//! What there is to buy: sheets, boards, and edging, and what all of it comes to.
//! Hardware has a comparison of its own.

use crate::papers;
use crate::plans::Workings;

use super::difference::{Amounts, Buying, LeadTimes};
use super::two_sided::Pair;

pub(super) fn compare(old: &Workings<'_>, new: &Workings<'_>) -> Buying {
    let (was, now) = (papers::to_buy(old), papers::to_buy(new));
    let names = names(&was.stocks, &now.stocks);
    let amount = |side: &papers::ToBuy, name: &String| {
        side.stocks.iter().find(|(own, _)| own == name).map(|(_, amount)| amount.clone())
    };
    let amounts = names.into_iter().filter_map(|name| {
        let (was, now) = (amount(&was, name), amount(&now, name));
        (was != now).then(|| Amounts { what: name.clone(), was, now })
    });
    let amounts = amounts.collect();
    let lead = |side: &papers::ToBuy, name: &String| {
        side.leads.iter().find(|(own, _)| own == name).map(|(_, lead)| lead.to_string())
    };
    let leads = self::names(&was.leads, &now.leads).into_iter().filter_map(|name| {
        let (was, now) = (lead(&was, name), lead(&now, name));
        (was != now).then(|| LeadTimes { what: name.clone(), was, now })
    });
    let lead_times = leads.collect();
    let total = match (was.total, now.total) {
        (Some(was), Some(now)) if was != now => Some(Pair { was, now }),
        _ => None,
    };
    Buying { amounts, total, lead_times }
}

/// The names on both sides, those of now first.
fn names<'n, T>(was: &'n [(String, T)], now: &'n [(String, T)]) -> Vec<&'n String> {
    let mut names: Vec<&String> = now.iter().map(|(name, _)| name).collect();
    for (name, _) in was {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}
