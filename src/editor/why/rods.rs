//! Where the cups of a hanging rail go, and how long it is cut.

use crate::model::{OpeningId, Size};
use crate::trade;

use super::teller::Teller;
use super::{Subject, Sum};

/// The rail of an opening.
pub(super) fn of_opening(tell: &Teller<'_>, opening: OpeningId) -> Vec<Sum> {
    let about = [Subject::Rail];
    let length = |word: &str, length, size: &Size| tell.length(&about, word, length, size);
    let rails = tell.work.fitting().rails.iter().filter(|rail| rail.opening.id == opening);
    let mut sums = Vec::new();
    for rail in rails {
        let unit = tell.tape.unit;
        let play = tell.custom(
            trade::rail_play(unit),
            "bottoms of the cups",
            "1/8 in or 3 mm in all: common practice, no source",
        );
        sums.push(length("rail, long", rail.long.length, &(&rail.clear - &play)));
        sums.push(length("rail, between the boards", rail.clear.length, &rail.clear));
        let above = &rail.above_opening;
        sums.push(length("rail, above opening", above.length, above));
        for end in &rail.ends {
            let word = |what: &str| format!("rail on {}, {what}", end.board.mark);
            sums.push(length(&word("height"), end.above_end.length, &end.above_end));
            // Where the usual distance from the back counts, no statement gives it.
            let known = rail.back_is_usual.then(|| {
                let usual = tell.custom(
                    trade::rail_from_back(unit),
                    "usual distance from the back",
                    "no more than 12 in or 300 mm: from memory",
                );
                &end.from_edge - usual
            });
            let from = known.as_ref().unwrap_or(&end.from_edge);
            sums.push(length(&word("from front edge"), end.from_edge.length, from));
        }
    }
    sums
}
