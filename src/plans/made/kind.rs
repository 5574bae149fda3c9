//! The kinds of joint that the shop writes down, and the wood each one takes.

use crate::measure::Length;
use crate::model::MadeKind;
use crate::parts::{Bore, FeatureKind};

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

/// What a record calls a feature.
#[must_use]
pub fn kind(feature: FeatureKind) -> MadeKind {
    match feature {
        FeatureKind::Dado => MadeKind::Dado,
        FeatureKind::Groove => MadeKind::Groove,
        FeatureKind::Rabbet | FeatureKind::Glazing(_) => MadeKind::Rabbet,
        FeatureKind::Miter => MadeKind::Miter,
        FeatureKind::Notch => MadeKind::Notch,
        FeatureKind::Slot => MadeKind::Slot,
        FeatureKind::Pockets(..) => MadeKind::PocketHoles,
        FeatureKind::Bore(Bore::Cup) => MadeKind::HingeCup,
        FeatureKind::Bore(Bore::Pull) => MadeKind::PullHole,
        FeatureKind::Bore(Bore::Plate | Bore::PlateBehind) => MadeKind::PlateHole,
        FeatureKind::Bore(Bore::Round) => MadeKind::RoundHole,
        FeatureKind::Bore(Bore::Leg) => MadeKind::LegHole,
        FeatureKind::Flute(_) => MadeKind::Flute,
        FeatureKind::Tenon => MadeKind::Tenon,
        FeatureKind::Haunch => MadeKind::Haunch,
        FeatureKind::Mortise => MadeKind::Mortise,
        FeatureKind::Dovetails => MadeKind::Dovetails,
        FeatureKind::Dowels(..) => MadeKind::DowelHoles,
    }
}

/// A kind of joint as it is said: `hinge cup`.
#[must_use]
pub fn said(kind: MadeKind) -> String {
    kind.spelling().replace('-', " ")
}

/// Several joints: `2 dados, notch, pocket holes`.
#[must_use]
pub fn listed(kinds: impl Iterator<Item = MadeKind>) -> String {
    let mut counts: Vec<(MadeKind, usize)> = Vec::new();
    for kind in kinds {
        match counts.iter_mut().find(|(known, _)| *known == kind) {
            Some((_, count)) => *count += 1,
            None => counts.push((kind, 1)),
        }
    }
    let one = |(kind, count): (MadeKind, usize)| match (count, kind.spelling().ends_with('s')) {
        (1, _) | (_, true) => said(kind),
        (count, false) if kind.spelling().ends_with("ch") => format!("{count} {}es", said(kind)),
        (count, false) => format!("{count} {}s", said(kind)),
    };
    counts.into_iter().map(one).collect::<Vec<_>>().join(", ")
}

pub(super) fn sort(kind: MadeKind) -> Sort {
    match kind {
        MadeKind::Tenon => Sort::Tenon,
        MadeKind::HingeCup | MadeKind::PullHole | MadeKind::RoundHole => Sort::Bore,
        MadeKind::Miter | MadeKind::Dovetails => Sort::Whole,
        MadeKind::PlateHole | MadeKind::LegHole => Sort::Pilot,
        MadeKind::PocketHoles | MadeKind::DowelHoles => Sort::Hidden,
        MadeKind::Dado
        | MadeKind::Groove
        | MadeKind::Rabbet
        | MadeKind::Notch
        | MadeKind::Slot
        | MadeKind::Mortise
        | MadeKind::Haunch
        | MadeKind::Flute => Sort::Taken,
    }
}

/// The wood that a joint takes out of a board of these sizes, box by box;
/// nothing for a kind that is more than its box.
pub(super) fn taken(kind: MadeKind, space: &Space, sizes: [Length; 3]) -> Vec<Space> {
    match sort(kind) {
        Sort::Taken | Sort::Bore => vec![*space],
        Sort::Tenon => {
            let mut end = Space::whole(sizes);
            end.0[0] = space.0[0];
            end.without(space)
        }
        Sort::Pilot | Sort::Whole | Sort::Hidden => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn joints_are_counted_by_their_words() {
        use MadeKind::{Dado, Miter, Notch, PocketHoles};

        let kinds = [Dado, Notch, Dado, PocketHoles, PocketHoles, Miter];
        assert_eq!(listed(kinds.into_iter()), "2 dados, notch, pocket holes, miter");
        assert_eq!(listed([Notch, Notch].into_iter()), "2 notches");
    }
}
