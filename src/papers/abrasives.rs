//! Sandpaper on the buying list, for what is sanded.

use crate::diagnostics::{counted, listed};
use crate::plans::abrasives::{self, Bought};
use crate::plans::finish;

use super::buying_list::Line;
use super::{Source, with_currency};

/// A line for each grit that the spec lists.
pub(super) fn lines(source: &Source<'_, '_>) -> Vec<Line> {
    abrasives::bought(source.work).iter().map(|own| line(source, own)).collect()
}

fn line(source: &Source<'_, '_>, own: &Bought<'_>) -> Line {
    let tape = source.work.piece.tape();
    let sold = own.abrasive.sold;
    let name = format!("sandpaper of {} grit", own.abrasive.grit);
    let mut what = format!(
        "{name}: {} to sand, and each lasts for {}",
        finish::told(tape, own.area),
        finish::told(tape, own.abrasive.lasts.0.to_f64())
    );
    if let Some(pack) = sold.pack {
        what.push_str(&format!(", {pack} to a pack"));
    }
    if sold.pack.is_some() || sold.on_hand > 0 {
        what.push_str(&format!(": {} needed", own.taken));
    }
    if sold.on_hand > 0 {
        what.push_str(&format!(", {} on hand", sold.on_hand));
    }
    let packs = sold.packs(own.count);
    Line {
        sort: "abrasives",
        name,
        amount: packs.map_or_else(|| own.count.to_string(), |packs| counted(packs, "pack")),
        what,
        price: sold.price.map_or_else(String::new, |price| with_currency(source, price)),
        comes_to: own.comes_to(),
        lead: sold.lead,
    }
}

/// Which grits are not on the list.
pub(super) fn left_out(source: &Source<'_, '_>) -> Option<String> {
    let listed_grits = &source.work.piece.abrasives;
    if listed_grits.is_empty() {
        return Some("Sandpaper is not on this list; the assembly order names the grits. To have a grit counted here, give it an `abrasive` in the spec.".to_owned());
    }
    let missing: Vec<String> = abrasives::used(source.work)
        .into_iter()
        .filter(|(grit, _)| listed_grits.iter().all(|own| own.grit != *grit))
        .map(|(grit, _)| grit.to_string())
        .collect();
    (!missing.is_empty()).then(|| {
        format!(
            "The piece is sanded with {} grit too, which the spec has no `abrasive` for.",
            listed(&missing)
        )
    })
}
