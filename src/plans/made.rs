//! Joints that are in a part already, beside those it is drawn with now.

use crate::measure::{Length, Span};
use crate::model::{Cut, Made};
use crate::parts::{Bore, Face, Feature, FeatureKind, Part};

/// More shifts along or across than this are not tried, nor with more joints:
/// those of a few say enough.
const MOST_SHIFTS: usize = 16;
const MOST_TRIED: usize = 100;

/// As much as hinges and pulls can be set by, or nobody sees (common practice,
/// no source).
const ADJUSTED: Length = Length::mm(2);

/// A joint or bore with a place of its own on its part. Those that end at an
/// end or edge go along with it, and are cut anew where it is trimmed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place<'a> {
    /// Its word in `cut`.
    pub word: &'static str,
    /// From where the length begins to its near side, of a bore to the centre;
    /// nothing where it runs from end to end.
    pub along: Option<Length>,
    /// The same from where the width begins.
    pub across: Option<Length>,
    /// What it is.
    pub feature: &'a Feature,
}

/// Every joint of a part that has a place of its own.
#[must_use]
pub fn places(part: &Part) -> Vec<Place<'_>> {
    let broad = |face| matches!(face, Face::ThickStart | Face::ThickEnd);
    let own = part.features.iter().filter(|feature| broad(feature.face));
    own.filter_map(|feature| {
        let word = word(feature.kind)?;
        let centred = matches!(feature.kind, FeatureKind::Bore(_));
        let place = |(from, to): (Length, Length), whole: Length| {
            let (starts, ends) = (!from.is_positive(), to >= whole);
            match (starts, ends) {
                (true, true) => Some(None),
                (false, false) if centred => Some(Some((from + to).half())),
                (false, false) => Some(Some(from)),
                _ => None,
            }
        };
        let along = place(feature.u, part.length.length)?;
        let across = place(feature.v, part.width.length)?;
        Some(Place { word, along, across, feature })
    })
    .collect()
}

/// The word of `made` for a kind of joint.
fn word(kind: FeatureKind) -> Option<&'static str> {
    Some(match kind {
        FeatureKind::Dado => "dado",
        FeatureKind::Groove => "groove",
        FeatureKind::Rabbet => "rabbet",
        FeatureKind::Mortise => "mortise",
        FeatureKind::Notch => "notch",
        FeatureKind::Bore(Bore::Cup) => "hinge-cup",
        FeatureKind::Bore(Bore::Pull) => "pull-hole",
        FeatureKind::Bore(Bore::Plate) => "plate-hole",
        _ => return None,
    })
}

/// A joint that stands where the drawing wants none.
#[derive(Clone, Copy, Debug)]
pub struct Moved<'a> {
    /// What is in the wood.
    pub made: &'a Made,
    /// Where it stands, along the length or across it, whichever differs.
    pub was: Length,
    /// Where the nearest of its kind is drawn, with the statement it comes
    /// from; nothing where none is left.
    pub wanted: Option<(Length, Span)>,
    /// It is the place along the length that differs.
    pub along: bool,
}

/// How the joints in a part agree with the drawing.
#[derive(Clone, Debug, Default)]
pub struct Fit<'a> {
    /// What is taken off where the length and the width begin, for the joints
    /// to come right; the rest of a trim goes off the other end or edge.
    pub shift: [Length; 2],
    /// Those that come right nowhere.
    pub moved: Vec<Moved<'a>>,
}

/// Lays the joints that were made over those that are drawn. Where the part is
/// trimmed, by at most `spare` of its length and width, it may be so at either
/// end, or at both.
#[must_use]
pub fn fit<'a>(part: &Part, cut: &'a Cut, spare: [Length; 2], tolerance: Length) -> Fit<'a> {
    let places = places(part);
    let fits = |made: &Made, place: &Place<'_>, [su, sv]: [Length; 2]| {
        let tolerance = match place.feature.kind {
            FeatureKind::Bore(_) => tolerance.max(ADJUSTED),
            _ => tolerance,
        };
        let near = |made: Length, drawn: Option<Length>, shift: Length| {
            drawn.is_none_or(|drawn| (made - shift - drawn).abs() <= tolerance)
        };
        made.word.value == place.word
            && near(made.along, place.along, su)
            && near(made.across, place.across, sv)
    };
    let shifts = |spare: Length, of: &dyn Fn(&Made, &Place<'_>) -> Option<Length>| {
        let mut all = vec![Length::ZERO];
        if spare.is_positive() {
            let pairs = cut.made.iter().flat_map(|made| places.iter().map(move |p| (made, p)));
            for (made, place) in pairs.filter(|(made, place)| made.word.value == place.word) {
                let shift = of(made, place).filter(|s| s.is_positive() && *s <= spare + tolerance);
                let shift = shift.map(|shift| shift.min(spare));
                all.extend(shift.filter(|shift| !all.contains(shift)));
                if all.len() == MOST_SHIFTS {
                    break;
                }
            }
        }
        all
    };
    let tried = cut.made.get(..MOST_TRIED).unwrap_or(&cut.made);
    let mut best: Option<(usize, [Length; 2])> = None;
    for su in shifts(spare[0], &|made, place| Some(made.along - place.along?)) {
        for sv in shifts(spare[1], &|made, place| Some(made.across - place.across?)) {
            let lost = |made: &&Made| !places.iter().any(|place| fits(made, place, [su, sv]));
            let lost = tried.iter().filter(lost).count();
            if best.is_none_or(|(least, _)| lost < least) {
                best = Some((lost, [su, sv]));
            }
        }
    }
    let shift = best.map_or([Length::ZERO; 2], |(_, shift)| shift);
    let lost = cut.made.iter().filter(|made| !places.iter().any(|place| fits(made, place, shift)));
    let taken = |place: &Place<'_>| cut.made.iter().any(|made| fits(made, place, shift));
    let moved = lost.map(|made| {
        let off = |place: &Place<'_>| {
            let by = |made: Length, drawn: Option<Length>, shift| {
                drawn.map_or(Length::ZERO, |drawn| (made - shift - drawn).abs())
            };
            (by(made.along, place.along, shift[0]), by(made.across, place.across, shift[1]))
        };
        let free = places.iter().filter(|place| place.word == made.word.value && !taken(place));
        let nearest = free.min_by_key(|place| {
            let (along, across) = off(place);
            along + across
        });
        let along = nearest.is_none_or(|place| off(place).0 > tolerance);
        let axis = usize::from(!along);
        let was = if along { made.along } else { made.across } - shift[axis];
        let wanted = nearest.and_then(|place| {
            let at = if along { place.along } else { place.across };
            Some((at?, place.feature.span))
        });
        Moved { made, was, wanted, along }
    });
    Fit { shift, moved: moved.collect() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::vocabulary::MADE;

    #[test]
    fn every_word_stands_in_the_vocabulary() {
        let kinds = [
            FeatureKind::Dado,
            FeatureKind::Groove,
            FeatureKind::Rabbet,
            FeatureKind::Mortise,
            FeatureKind::Notch,
            FeatureKind::Bore(Bore::Cup),
            FeatureKind::Bore(Bore::Pull),
            FeatureKind::Bore(Bore::Plate),
        ];
        let words: Vec<&str> = kinds.into_iter().filter_map(word).collect();
        assert_eq!(words, MADE);
    }
}
