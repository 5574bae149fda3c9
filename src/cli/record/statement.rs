//! What is written of a part: its sizes, its stock, and the joints in it.

use crate::measure::{Length, Tape};
use crate::model::Piece;
use crate::parts::{FeatureKind, Part, Parts};
use crate::plans::made::{self, Range, Space};
use crate::plans::square;
use crate::syntax;

/// The sizes that a part may have come out different in.
pub(super) const SIDES: [&str; 3] = ["long", "wide", "thick"];

/// How far in a statement of `cut` stands.
const INDENT: usize = 2;

/// A size that came out different.
#[derive(Clone, Debug)]
pub(super) struct OwnSize {
    /// One of [`SIDES`].
    pub(super) word: &'static str,
    /// As it was typed.
    pub(super) figure: String,
    /// What it is.
    pub(super) length: Length,
}

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

/// `console.kick { mark KICK; long 66; wide 4; thick 23/32; stock birch-ply; joints 0 }`,
/// with joints over several lines.
pub(super) fn statement(
    piece: &Piece,
    parts: &Parts,
    part: &Part,
    own: &[OwnSize],
    stage: Stage,
) -> String {
    if stage == Stage::Spoiled {
        return format!("{} {{ spoiled }}", part.path);
    }
    let tape = piece.tape();
    let [long, wide] = part.as_made();
    let drawn = [&long, &wide, &part.thickness];
    let blank = blank(piece, parts, part);
    let own = SIDES.map(|word| {
        let known = own.iter().find(|known| known.word == word);
        known.or(blank.as_ref().filter(|blank| blank.word == word))
    });
    let told = SIDES.into_iter().zip(drawn).zip(own);
    let mut words = vec![format!("mark {}", part.mark)];
    words.extend(told.map(|((word, size), own)| match own {
        Some(own) => format!("{word} {}", own.figure),
        None => format!("{word} {}", tape.recorded(size.length)),
    }));
    if let Some(stock) = piece.stock(part.stock) {
        words.push(format!("stock {}", stock.name));
        words.extend(stock.species.iter().map(|species| format!("species {species}")));
    }
    if stage == Stage::Sawn || part.features.is_empty() {
        words.push(if stage == Stage::Sawn { "sawn" } else { "joints 0" }.to_owned());
        let line = format!("{} {{ {} }}", part.path, words.join("; "));
        if line.len() + INDENT <= syntax::WIDEST {
            return line;
        }
        return format!("{} {{\n  {}\n}}", part.path, words.join("; "));
    }
    let mut sizes = drawn.map(|size| size.length);
    for (size, own) in sizes.iter_mut().zip(own) {
        *size = own.map_or(*size, |own| own.length);
    }
    let mut lines = vec![words.join("; ")];
    lines.extend(part.features.iter().map(|feature| {
        let mut space = Space::of(part, feature);
        for (axis, (own, drawn)) in sizes.iter().zip(drawn).enumerate() {
            space.0[axis] = as_cut(space.0[axis], drawn.length, *own);
        }
        let round = matches!(feature.kind, FeatureKind::Bore(_)) && feature.face.is_broad();
        let place = if round { hole(&space, tape) } else { Vec::new() };
        let from = if round { 2 } else { 0 };
        let told = [place, sides(&space, &sizes, tape, from)].concat();
        let word = made::kind(feature.kind).spelling();
        match told.is_empty() {
            true => format!("made {word}"),
            false => format!("made {word} {{ {} }}", told.join("; ")),
        }
    }));
    format!("{} {{\n  {}\n}}", part.path, lines.join("\n  "))
}

/// The size of a board that is left wider or longer until it is planed to its
/// opening: it lies on the bench as the cut list has it.
fn blank(piece: &Piece, parts: &Parts, part: &Part) -> Option<OwnSize> {
    let mut all = square::blanks(piece, parts).into_iter();
    let (_, (length, word)) =
        all.find(|(id, _)| parts.get(*id).is_some_and(|it| it.key() == part.key()))?;
    Some(OwnSize { word, figure: piece.tape().recorded(length), length })
}

/// What counts from the far side of a part goes with that side.
fn as_cut((from, to): Range, drawn: Length, own: Length) -> Range {
    match (from.is_positive(), to >= drawn) {
        (true, true) => (from + own - drawn, own),
        (false, true) => (from, own),
        _ => (from, to),
    }
}

/// `at 17-13/16 by 21.5 mm`, `across 35 mm`
fn hole(space: &Space, tape: &Tape) -> Vec<String> {
    let at = [0, 1].map(|axis| tape.recorded(space.middle(axis)));
    vec![format!("at {} by {}", at[0], at[1]), format!("across {}", tape.recorded(space.extent(0)))]
}

/// `long 25-15/16 to 26-21/32`, `thick 0 to 1/4`: from this axis on, but for
/// what reaches from side to side.
fn sides(space: &Space, sizes: &[Length; 3], tape: &Tape, from: usize) -> Vec<String> {
    let sides = SIDES.into_iter().zip(space.0).zip(sizes).skip(from);
    sides
        .filter(|((_, (from, to)), whole)| from.is_positive() || to < whole)
        .map(|((side, (from, to)), _)| {
            format!("{side} {} to {}", tape.recorded(from), tape.recorded(to))
        })
        .collect()
}
