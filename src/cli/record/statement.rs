//! What is written of a part: its sizes, its stock, and the joints in it.

use crate::measure::Tape;
use crate::model::Piece;
use crate::parts::{FeatureKind, Part};
use crate::plans::made::{self, Space};

/// The sizes that a part may have come out different in.
pub(super) const SIDES: [&str; 3] = ["long", "wide", "thick"];

/// How much is known of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Stage {
    /// It was made with its joints.
    Made,
    /// It has none yet.
    Sawn,
    /// It is spoiled.
    Spoiled,
}

/// `console.kick { long 66; wide 4; thick 23/32; stock birch-ply; joints 0 }`,
/// with joints over several lines.
pub(super) fn statement(
    piece: &Piece,
    part: &Part,
    own: &[(&str, String)],
    stage: Stage,
) -> String {
    if stage == Stage::Spoiled {
        return format!("{} {{ spoiled }}", part.path);
    }
    let tape = piece.tape();
    let drawn = [&part.length, &part.width, &part.thickness];
    let mut words: Vec<String> = SIDES
        .into_iter()
        .zip(drawn)
        .map(|(word, size)| match own.iter().find(|(known, _)| *known == word) {
            Some((_, figure)) => format!("{word} {figure}"),
            None => format!("{word} {}", tape.recorded(size.length)),
        })
        .collect();
    if let Some(stock) = piece.stock(part.stock) {
        words.push(format!("stock {}", stock.name));
        words.extend(stock.species.iter().map(|species| format!("species {species}")));
    }
    if stage == Stage::Sawn || part.features.is_empty() {
        words.push("joints 0".to_owned());
        return format!("{} {{ {} }}", part.path, words.join("; "));
    }
    let mut lines = vec![words.join("; ")];
    lines.extend(part.features.iter().map(|feature| {
        let space = Space::of(part, feature);
        let round = matches!(feature.kind, FeatureKind::Bore(_)) && feature.face.is_broad();
        let place = if round { hole(&space, tape) } else { Vec::new() };
        let from = if round { 2 } else { 0 };
        let told = [place, sides(&space, part, tape, from)].concat();
        let word = made::word(feature.kind);
        match told.is_empty() {
            true => format!("made {word}"),
            false => format!("made {word} {{ {} }}", told.join("; ")),
        }
    }));
    format!("{} {{\n  {}\n}}", part.path, lines.join("\n  "))
}

/// `at 17-13/16 by 21.5 mm`, `across 35 mm`
fn hole(space: &Space, tape: &Tape) -> Vec<String> {
    let at = [0, 1].map(|axis| tape.recorded(space.middle(axis)));
    vec![format!("at {} by {}", at[0], at[1]), format!("across {}", tape.recorded(space.extent(0)))]
}

/// `long 25-15/16 to 26-21/32`, `thick 0 to 1/4`: from this axis on, but for
/// what reaches from side to side.
fn sides(space: &Space, part: &Part, tape: &Tape, from: usize) -> Vec<String> {
    let whole = [&part.length, &part.width, &part.thickness];
    let sides = SIDES.into_iter().zip(space.0).zip(whole).skip(from);
    sides
        .filter(|((_, (from, to)), whole)| from.is_positive() || *to < whole.length)
        .map(|((side, (from, to)), _)| {
            format!("{side} {} to {}", tape.recorded(from), tape.recorded(to))
        })
        .collect()
}
