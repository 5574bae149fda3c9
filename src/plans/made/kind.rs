//! The kinds of joint that the shop writes down, and the wood each one takes.

use crate::measure::Length;
use crate::parts::{Bore, FeatureKind};
use crate::vocabulary::MADE;

use super::space::Space;

/// How a kind of joint is laid over another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Sort {
    /// It takes just its own box.
    Taken,
    /// It stays, and the wood round it goes.
    Tenon,
    /// A round hole that can be set by a little.
    Bore,
    /// A pilot hole: moved, it is plugged and bored again.
    Pilot,
    /// It is what it is as a whole.
    Whole,
    /// Out of sight, and no harm where it is not wanted.
    Hidden,
}

/// The word of `made` for a kind.
#[must_use]
pub fn word(kind: FeatureKind) -> &'static str {
    match kind {
        FeatureKind::Dado => "dado",
        FeatureKind::Groove => "groove",
        FeatureKind::Rabbet => "rabbet",
        FeatureKind::Mitre => "mitre",
        FeatureKind::Notch => "notch",
        FeatureKind::Pockets(..) => "pocket-holes",
        FeatureKind::Bore(Bore::Cup) => "hinge-cup",
        FeatureKind::Bore(Bore::Pull) => "pull-hole",
        FeatureKind::Bore(Bore::Plate) => "plate-hole",
        FeatureKind::Flute(_) => "flute",
        FeatureKind::Tenon => "tenon",
        FeatureKind::Mortise => "mortise",
        FeatureKind::Dovetails => "dovetails",
        FeatureKind::Dowels(..) => "dowel-holes",
    }
}

/// A word of `made` as it is said: `hinge cup`.
#[must_use]
pub fn said(word: &str) -> String {
    word.replace('-', " ")
}

/// Several joints by their words: `2 dados, notch, pocket holes`.
#[must_use]
pub fn listed<'a>(words: impl Iterator<Item = &'a str>) -> String {
    let mut counts: Vec<(&str, usize)> = Vec::new();
    for word in words {
        match counts.iter_mut().find(|(known, _)| *known == word) {
            Some((_, count)) => *count += 1,
            None => counts.push((word, 1)),
        }
    }
    let one = |(word, count): (&str, usize)| match (count, word.ends_with('s')) {
        (1, _) | (_, true) => said(word),
        (count, false) if word.ends_with("ch") => format!("{count} {}es", said(word)),
        (count, false) => format!("{count} {}s", said(word)),
    };
    counts.into_iter().map(one).collect::<Vec<_>>().join(", ")
}

pub(super) fn sort(word: &str) -> Sort {
    match word {
        "tenon" => Sort::Tenon,
        "hinge-cup" | "pull-hole" => Sort::Bore,
        "mitre" | "dovetails" => Sort::Whole,
        "plate-hole" => Sort::Pilot,
        "pocket-holes" | "dowel-holes" => Sort::Hidden,
        _ => Sort::Taken,
    }
}

/// The wood that a joint takes out of a board of these sizes, box by box;
/// nothing for a kind that is more than its box.
pub(super) fn taken(word: &str, space: &Space, sizes: [Length; 3]) -> Vec<Space> {
    match sort(word) {
        Sort::Taken | Sort::Bore => vec![*space],
        Sort::Tenon => {
            let mut end = Space::whole(sizes);
            end.0[0] = space.0[0];
            end.without(space)
        }
        Sort::Pilot | Sort::Whole | Sort::Hidden => Vec::new(),
    }
}

/// The word of the vocabulary that a record uses.
pub(super) fn known(word: &str) -> Option<&'static str> {
    MADE.iter().copied().find(|known| *known == word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_stands_in_the_vocabulary() {
        let kinds = [
            FeatureKind::Dado,
            FeatureKind::Groove,
            FeatureKind::Rabbet,
            FeatureKind::Mitre,
            FeatureKind::Notch,
            FeatureKind::Mortise,
            FeatureKind::Tenon,
            FeatureKind::Dovetails,
            FeatureKind::Flute(0),
            FeatureKind::Pockets(1, None),
            FeatureKind::Dowels(1, None),
            FeatureKind::Bore(Bore::Cup),
            FeatureKind::Bore(Bore::Pull),
            FeatureKind::Bore(Bore::Plate),
        ];
        assert_eq!(kinds.map(word).as_slice(), MADE);
    }

    #[test]
    fn joints_are_counted_by_their_words() {
        let words = ["dado", "notch", "dado", "pocket-holes", "pocket-holes", "mitre"];
        assert_eq!(listed(words.into_iter()), "2 dados, notch, pocket holes, mitre");
        assert_eq!(listed(["notch", "notch"].into_iter()), "2 notches");
    }
}
