//! Channels that run alike through every part of a stick: they are cut in the whole stick,
//! before it is crosscut, since a short part is hard to hold beside a bit (common practice, no
//! source).

use crate::measure::Length;
use crate::parts::{Face, FeatureKind, Part, PartId};
use crate::plans::assembly::{Stage, stage};
use crate::plans::setups;

/// What one set-up cuts: the same channel, wherever the face lies that it is cut into.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Cut {
    kind: FeatureKind,
    stage: Stage,
    datum: String,
    broad: bool,
    from: Length,
    wide: Length,
    deep: Length,
}

/// A channel that runs from end to end of its part, along the grain.
#[derive(Clone, Debug)]
pub(super) struct Through {
    /// The number of its feature.
    number: usize,
    cut: Cut,
    /// Where it lies in the section of the part: on the far side across the thickness and
    /// across the width.
    far: [bool; 2],
}

/// Those of a part.
pub(super) fn of(part: &Part) -> Vec<Through> {
    let numbered = part.features.iter().enumerate().filter(|(_, own)| own.is_channel());
    let through = numbered.filter_map(|(number, feature)| {
        let channel = part.channel(feature);
        let stops = setups::stops(part, feature, &channel);
        if !channel.along || stops != (Length::ZERO, Length::ZERO) {
            return None;
        }
        let far = |across: [Face; 2]| {
            [feature.face, channel.datum].into_iter().find(|face| across.contains(face))
        };
        let thick = far([Face::ThickStart, Face::ThickEnd])?;
        let wide = far([Face::WidthStart, Face::WidthEnd])?;
        let cut = Cut {
            kind: feature.kind,
            stage: stage(part),
            datum: part.face_name(channel.datum),
            broad: feature.face.is_broad(),
            from: channel.from,
            wide: channel.wide,
            deep: feature.deep,
        };
        Some(Through { number, cut, far: [!thick.is_start(), !wide.is_start()] })
    });
    through.collect()
}

/// The channels that two parts share when one of them is turned over or end for end, as is
/// best: by their places in either list. A piece of a stick may lie any of four ways.
fn shared(one: &[Through], other: &[Through]) -> Vec<(usize, usize)> {
    let turns = [[false, false], [true, true], [true, false], [false, true]];
    let pairs = turns.map(|turn| {
        let mut pairs: Vec<(usize, usize)> = Vec::new();
        for (place, own) in one.iter().enumerate() {
            let lies = [own.far[0] != turn[0], own.far[1] != turn[1]];
            let same = other.iter().enumerate().position(|(at, known)| {
                let is_free = pairs.iter().all(|(_, taken)| *taken != at);
                is_free && known.cut == own.cut && known.far == lies
            });
            pairs.extend(same.map(|at| (place, at)));
        }
        pairs
    });
    // The first of those that are as good.
    pairs.into_iter().rev().max_by_key(Vec::len).unwrap_or_default()
}

/// How many channels two parts share.
pub(super) fn in_common(one: &[Through], other: &[Through]) -> usize {
    shared(one, other).len()
}

/// True for parts whose channels are all alike.
pub(super) fn are_alike(one: &[Through], other: &[Through]) -> bool {
    one.len() == other.len() && in_common(one, other) == one.len()
}

/// What is cut in a whole stick of these parts: the numbers of their features. A part with more
/// channels of one set-up than the others has none of these cut in the stick, since no machine is
/// put back to a thousandth for those that would be left.
pub(super) fn of_stick(parts: &[(PartId, Vec<Through>)]) -> Vec<(PartId, usize)> {
    let Some(((first, own), others)) = parts.split_first() else { return Vec::new() };
    let mut kept: Vec<Through> = own.clone();
    let mut cuts: Vec<Vec<(PartId, usize)>> =
        own.iter().map(|own| vec![(*first, own.number)]).collect();
    for (id, own) in others {
        let pairs = shared(&kept, own);
        let go_on = |(place, at): &(usize, usize)| {
            let mut all = cuts.get(*place)?.clone();
            all.push((*id, own.get(*at)?.number));
            Some((kept.get(*place)?.clone(), all))
        };
        (kept, cuts) = pairs.iter().filter_map(go_on).unzip();
    }
    let count = |of: &[Through], cut: &Cut| of.iter().filter(|own| own.cut == *cut).count();
    let is_whole =
        |own: &Through| parts.iter().all(|(_, all)| count(all, &own.cut) == count(&kept, &own.cut));
    let whole = kept.iter().zip(cuts).filter(|(own, _)| is_whole(own));
    whole.flat_map(|(_, cuts)| cuts).collect()
}
