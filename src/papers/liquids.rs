//! The finish and the glue on the buying list.

use crate::diagnostics::{counted, listed};
use crate::measure::{Exact, Length, Money, Rate};
use crate::plans::finish;
use crate::plans::liquids::{self, Liquid, Wet};

use super::buying_list::{Line, roll};
use super::{Source, with_currency};

/// A line for each.
pub(super) fn lines(source: &Source<'_, '_>) -> Vec<Line> {
    liquids::list(source.work).iter().filter_map(|own| line(source, own)).collect()
}

/// `None` where enough of it is on hand.
fn line(source: &Source<'_, '_>, own: &Liquid) -> Option<Line> {
    if own.lacking == Some(0) {
        return None;
    }
    let piece = source.work.piece;
    let tape = piece.tape();
    let (sort, name, mut what) = match own.what {
        Wet::Finish { finish, coats, parts } => {
            let finish = piece.finish(finish)?;
            let coats = counted(i64::from(coats), "coat");
            let mut what = format!("{}: {}, {coats}", finish.name, finish.kind.word());
            if let Some(parts) = parts {
                let [one, other] = parts.map(|own| finish::measured_out(tape, own));
                what.push_str(&format!(", mixed of {one} and {other}"));
                if !own.cans.is_empty() {
                    what.push_str("; of the first part");
                }
            }
            if own.milliliters.is_none() {
                what.push_str(
                    "; how much is not known, since it does not say what a liter `covers`",
                );
            }
            ("finish", finish.name.clone(), what)
        }
        Wet::Second(finish) => {
            let name = piece.finish(finish)?.name.clone();
            let what = format!("{name}: its second part");
            ("finish", name, what)
        }
        Wet::Glue { long, layers } => {
            ("glue", "wood glue".to_owned(), glue(source, (long, layers)))
        }
    };
    let had = on_hand(own);
    let taken = own.milliliters.filter(|_| !own.cans.is_empty() || had.is_some());
    if let Some(taken) = taken {
        what.push_str(&format!(": {} needed", finish::measured_out(tape, taken)));
    }
    what.extend(had.map(|had| format!(", {had} on hand")));
    let amount = match own.cans.is_empty() {
        true => {
            let lacking = own.lacking.map(|own| finish::measured_out(tape, own));
            lacking.unwrap_or_else(|| "?".to_owned())
        }
        false => cans(own),
    };
    Some(Line {
        sort,
        name,
        amount,
        what,
        lead: own.lead,
        price: match own.cans.is_empty() {
            true => own.price.map_or_else(String::new, |price| with_currency(source, price)),
            false => prices(source, own),
        },
        comes_to: own.comes_to(),
    })
}

/// `500 ml`, or `500 ml of the first part and 100 ml of the second`.
fn on_hand(own: &Liquid) -> Option<String> {
    match own.on_hand {
        [Some(had), None] => Some(had.to_string()),
        [None, Some(second)] => Some(format!("{second} of the second part")),
        [Some(had), Some(second)] => {
            Some(format!("{had} of the first part and {second} of the second"))
        }
        [None, None] => None,
    }
}

/// `2 x 750 ml and 1 x 250 ml`.
fn cans(own: &Liquid) -> String {
    let told = own.cans.iter().map(|(can, count)| format!("{count} x {}", can.holds));
    listed(&told.collect::<Vec<_>>())
}

/// `USD 41.00 each`, and of several sizes what one of each costs.
fn prices(source: &Source<'_, '_>, own: &Liquid) -> String {
    let told = own.cans.iter().filter_map(|(can, _)| {
        Some(with_currency(source, Rate { price: Money(can.price?), per: "each" }))
    });
    listed(&told.collect::<Vec<_>>())
}

/// `wood glue: a line 1 in wide along 84 ft of joints, at 200 sq ft to the gallon`.
fn glue(source: &Source<'_, '_>, (long, layers): (Length, Exact)) -> String {
    let tape = source.work.piece.tape();
    let is_metric = tape.unit.is_metric();
    let line = roll(source, long);
    let wide = if is_metric { "25 mm" } else { "1 in" };
    let between = layers
        .is_positive()
        .then(|| format!(" and {} between layers", finish::told(tape, layers.to_f64())));
    let covers = if is_metric { "4.9 m2 to the liter" } else { "200 sq ft to the gallon" };
    format!(
        "wood glue: a line {wide} wide along {line} of joints{}, at {covers}",
        between.unwrap_or_default()
    )
}
