//! The joints in a part laid over those it is drawn with.

use std::cell::LazyCell;
use std::collections::BTreeMap;

use crate::measure::{Exact, Length, Unit};
use crate::model::{Cut, Made, MadeKind};
use crate::parts::Part;
use crate::trade;

use super::kind::{self, Sort, sort, taken};
use super::laid::{Drawn, Stands};
use super::mismatch::{self, Lost};
use super::space::{Range, Space};

/// Of each kind of joint so many ways to trim are tried along a side that bring
/// one right; where many lie over many, fewer.
const SHIFTS_TRIED: [usize; 2] = [4, 1];
const MANY: usize = 1_000;

/// As much as a hinge can be set by, or nobody sees (common practice, no
/// source). The holes of one pull keep their distance.
const ADJUSTED: Length = Length::mm(2);

/// A joint of the drawing that is not in the wood yet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ToMake {
    /// Which feature of its part.
    pub feature: usize,
    /// One is there that is too small.
    pub larger: bool,
}

/// How the joints in a part agree with the drawing.
#[derive(Clone, Debug, Default)]
pub struct Fit<'a> {
    /// What is taken off where the length and the width begin, for the joints
    /// to come right; the rest of a trim goes off the other end or edge.
    pub shift: [Length; 2],
    /// It is one whether that much comes off here or off the other side.
    pub either: [bool; 2],
    /// Those that come right nowhere.
    pub lost: Vec<Lost<'a>>,
    /// Those still to be made, once it is trimmed.
    pub to_make: Vec<ToMake>,
}

/// Lays the joints that were made over those that are drawn. Where the part is
/// trimmed, by `spare` of its length and width, it may be so at either end, or
/// at both. `mates` has how thick the board is that lies on the bench to go into
/// each joint of the part; nothing for one that is as thick as it is drawn.
#[must_use]
pub fn fit<'a>(
    part: &Part,
    cut: &'a Cut,
    spare: [Length; 2],
    tolerance: Length,
    mates: &[Option<Length>],
) -> Fit<'a> {
    let trimmed = spare.iter().any(|spare| spare.is_positive());
    let laying = Laying { trimmed, mates, ..Laying::new(part, cut, tolerance) };
    let shifts = [0, 1].map(|axis| laying.shifts(axis, spare[axis]));
    let mut best: Option<([Length; 2], Laid)> = None;
    for along in &shifts[0] {
        for across in &shifts[1] {
            let laid = laying.lay([*along, *across]);
            if best.as_ref().is_none_or(|(_, best)| laid.is_better(best)) {
                best = Some(([*along, *across], laid));
            }
        }
    }
    let Some((shift, laid)) = best else { return Fit::default() };
    let either = [0, 1].map(|axis| {
        let as_well = |end: Length| {
            let mut shift = shift;
            shift[axis] = end;
            let other = laying.lay(shift);
            !laid.is_better(&other) && laying.kinds(&other) == laying.kinds(&laid)
        };
        spare[axis].is_positive() && [Length::ZERO, spare[axis]].into_iter().all(as_well)
    });
    let standing = laying.standing(shift);
    let lost = laid.lost.iter().filter_map(|number| standing.get(*number));
    let lost = lost.map(|made| laying.lost(made, &laid)).collect();
    Fit { shift, either, lost, to_make: laid.to_make }
}

/// One part and what is in it.
struct Laying<'a, 'p> {
    sizes: [Length; 3],
    /// Its sizes as it was cut.
    cut: [Length; 3],
    drawn: Vec<Drawn<'p>>,
    /// The wood that the drawing takes.
    goes: Vec<Space>,
    made: Vec<Stands<'a>>,
    tolerance: Length,
    /// Some of it comes off.
    trimmed: bool,
    /// By the number of each joint: the thickness of what goes in, where that is
    /// cut already.
    mates: &'p [Option<Length>],
}

/// Where a joint lies in a board of another thickness: as deep in its face; one
/// between the faces with as much off either.
fn through(range: Range, cut: Length, own: Length) -> Range {
    let more = own - cut;
    match (range.0.is_positive(), range.1 >= cut) {
        (false, true) => (Length::ZERO, own),
        (true, true) => (range.0 + more, own),
        (false, false) => range,
        (true, false) => (range.0 + more.half(), range.1 + more.half()),
    }
}

/// What comes of one way to trim.
struct Laid {
    /// By their place among those made.
    lost: Vec<usize>,
    to_make: Vec<ToMake>,
    /// How far joints stand from where they are drawn, in square hundredths of
    /// a millimetre; nought where there is no choice.
    off: i128,
}

impl Laid {
    fn is_better(&self, other: &Self) -> bool {
        let key = |laid: &Self| (laid.lost.len(), laid.to_make.len());
        key(self) < key(other) || key(self) == key(other) && self.off < other.off
    }
}

impl<'a, 'p> Laying<'a, 'p> {
    fn new(part: &'p Part, cut: &'a Cut, tolerance: Length) -> Self {
        let own = part.sizes();
        let written = [&cut.long, &cut.wide, &cut.thick];
        let mut as_cut = own;
        for (size, written) in as_cut.iter_mut().zip(written) {
            *size = written.as_ref().map_or(*size, |written| written.value);
        }
        let features = part.features.iter().enumerate();
        let drawn: Vec<Drawn<'p>> = features
            .map(|(number, feature)| Drawn {
                number,
                feature,
                kind: kind::kind(feature.kind),
                space: Space::of(part, feature),
            })
            .collect();
        let goes = drawn.iter().flat_map(|joint| taken(joint.kind, &joint.space, own)).collect();
        let stands = |made: &'a Made| {
            let mut space = Space::whole(as_cut);
            for (own, written) in space.0.iter_mut().zip(&made.space) {
                *own = written.unwrap_or(*own);
            }
            space.0[2] = through(space.0[2], as_cut[2], own[2]);
            Some(Stands { made, kind: made.kind.value, space })
        };
        let made = cut.made.iter().filter_map(stands).collect();
        as_cut[2] = own[2];
        Self { sizes: own, cut: as_cut, drawn, goes, made, tolerance, trimmed: false, mates: &[] }
    }

    /// What is still to be made, by its kinds.
    fn kinds(&self, laid: &Laid) -> Vec<(MadeKind, bool)> {
        let kind = |it: &ToMake| self.drawn.get(it.feature).map(|drawn| (drawn.kind, it.larger));
        let mut kinds: Vec<_> = laid.to_make.iter().filter_map(kind).collect();
        kinds.sort_unstable();
        kinds
    }

    /// What may be taken off where this side begins, out of all that is.
    fn shifts(&self, axis: usize, spare: Length) -> Vec<Length> {
        if !spare.is_positive() {
            return vec![Length::ZERO];
        }
        let mut kinds: Vec<MadeKind> = self.made.iter().map(|made| made.kind).collect();
        kinds.sort_unstable_by_key(|kind| kind.spelling());
        kinds.dedup();
        let many = self.made.len() * self.drawn.len() > MANY;
        let mut all = vec![Length::ZERO, spare, spare.half()];
        for kind in kinds {
            let most = self.usual(kind, axis, spare);
            let most = most.get(..SHIFTS_TRIED[usize::from(many)]).unwrap_or(&most);
            // Between two that each bring one joint right.
            let halves = most.windows(2).map(|two| (two[0] + two[1]).half());
            for shift in most.iter().copied().chain(halves) {
                if !all.contains(&shift) {
                    all.push(shift);
                }
            }
        }
        all
    }

    /// What is to be taken off for joints of one kind to come right, first what
    /// brings most of them right.
    fn usual(&self, kind: MadeKind, axis: usize, spare: Length) -> Vec<Length> {
        let mut by: BTreeMap<Length, usize> = BTreeMap::new();
        for made in self.made.iter().filter(|made| made.kind == kind) {
            for drawn in self.drawn.iter().filter(|drawn| drawn.kind == kind) {
                let (was, now) = (made.space.0[axis], drawn.space.0[axis]);
                for shift in [was.0 - now.0, was.1 - now.1] {
                    if !shift.is_negative() && shift <= spare + self.tolerance {
                        *by.entry(shift.min(spare)).or_default() += 1;
                    }
                }
            }
        }
        let mut by: Vec<(Length, usize)> = by.into_iter().collect();
        by.sort_by_key(|(shift, count)| (std::cmp::Reverse(*count), *shift));
        by.into_iter().map(|(shift, _)| shift).collect()
    }

    fn standing(&self, [along, across]: [Length; 2]) -> Vec<Stands<'a>> {
        let moved =
            |made: &Stands<'a>| Stands { space: made.space.moved([-along, -across]), ..*made };
        self.made.iter().map(moved).collect()
    }

    fn lay(&self, shift: [Length; 2]) -> Laid {
        let standing = self.standing(shift);
        let set = self.set(&standing);
        let mut lost = Vec::new();
        // Most stand just as they are drawn, and need none of what follows.
        let goes = LazyCell::new(|| -> Vec<Space> {
            self.goes.iter().map(|space| space.grown(self.tolerance)).collect()
        });
        let gone = LazyCell::new(|| -> Vec<Space> {
            let taken = standing.iter().flat_map(|made| taken(made.kind, &made.space, self.cut));
            taken.map(|space| space.grown(self.tolerance)).collect()
        });
        let board = Space::whole(self.sizes);
        // What is within the tolerance of a side is as good as gone.
        let mut inner = board.grown(-self.tolerance);
        inner.0[2] = board.0[2];
        for (number, made) in standing.iter().enumerate() {
            let as_drawn = |drawn: &Drawn<'_>| (drawn.kind, drawn.space) == (made.kind, made.space);
            if self.drawn.iter().any(as_drawn) {
                continue;
            }
            let Some(there) = made.space.common(&inner) else { continue };
            let fits = match sort(made.kind) {
                Sort::Pilot | Sort::Hidden => true,
                Sort::Whole => self.whole(made, &board),
                Sort::Bore if self.bored(made, set).is_some() => true,
                Sort::Taken if made.kind == MadeKind::Mortise => {
                    there.is_within(goes.iter().chain(&self.deep_mortises()))
                }
                Sort::Taken | Sort::Bore => there.is_within(goes.iter()),
                Sort::Tenon => {
                    let gone = taken(made.kind, &made.space, self.cut);
                    let gone = gone.iter().filter_map(|space| space.common(&inner));
                    gone.into_iter().all(|space| space.is_within(goes.iter()))
                }
            };
            if !fits {
                lost.push(number);
            }
        }
        let lacks = |drawn: &&Drawn<'p>| {
            let as_made = |made: &Stands<'_>| (made.kind, made.space) == (drawn.kind, drawn.space);
            !standing.iter().any(as_made) && !self.is_made(drawn, &standing, &gone, set)
        };
        let to_make = self.drawn.iter().filter(lacks);
        let larger = |drawn: &Drawn<'_>| {
            let mut same = standing.iter().filter(|made| made.kind == drawn.kind);
            let over = |made: &Stands<'_>| made.space.common(&drawn.space).is_some();
            matches!(sort(drawn.kind), Sort::Taken | Sort::Bore | Sort::Pilot) && same.any(over)
        };
        let to_make =
            to_make.map(|drawn| ToMake { feature: drawn.number, larger: larger(drawn) }).collect();
        let off = if self.trimmed { self.off(&standing) } else { 0 };
        Laid { lost, to_make, off }
    }

    /// The mortises of the drawing, each right through: one that is deeper than
    /// its tenon is long does no harm.
    fn deep_mortises(&self) -> Vec<Space> {
        let mortises = self.drawn.iter().filter(|drawn| drawn.kind == MadeKind::Mortise);
        mortises
            .map(|drawn| {
                let depth = super::axis(drawn.feature.face);
                let mut space = drawn.space.grown(self.tolerance);
                space.0[depth] = (Length::ZERO, self.sizes[depth]);
                space
            })
            .collect()
    }

    /// The drawn hole that a bore is near enough to; holes of a pull once all
    /// of them are moved by `set`.
    fn bored(&self, made: &Stands<'_>, set: [Length; 2]) -> Option<&Drawn<'p>> {
        self.drawn.iter().filter(|drawn| drawn.kind == made.kind).find(|drawn| {
            let flat = mismatch::flat(drawn.feature);
            let (set, by) = if made.kind == MadeKind::PullHole {
                (set, self.tolerance)
            } else {
                ([Length::ZERO; 2], self.tolerance.max(ADJUSTED))
            };
            flat.iter().zip(set).all(|(axis, set)| {
                let off = made.space.middle(*axis) - set - drawn.space.middle(*axis);
                off.abs() <= by
                    && made.space.extent(*axis) <= drawn.space.extent(*axis) + self.tolerance
            })
        })
    }

    /// By how much all holes for pulls stand elsewhere, if that is little.
    fn set(&self, standing: &[Stands<'_>]) -> [Length; 2] {
        let pulls: Vec<&Stands<'_>> =
            standing.iter().filter(|made| made.kind == MadeKind::PullHole).collect();
        let Some(first) = pulls.first() else { return [Length::ZERO; 2] };
        let sets = self.drawn.iter().filter(|drawn| drawn.kind == first.kind).map(|drawn| {
            mismatch::flat(drawn.feature)
                .map(|axis| first.space.middle(axis) - drawn.space.middle(axis))
        });
        let little = sets.filter(|set| set.iter().all(|by| by.abs() <= ADJUSTED));
        let right = |set: &[Length; 2]| {
            pulls.iter().filter(|made| self.bored(made, *set).is_some()).count()
        };
        let best = [[Length::ZERO; 2]].into_iter().chain(little).rev();
        best.max_by_key(right).unwrap_or_default()
    }

    /// True where one of the same kind is drawn just there.
    fn whole(&self, made: &Stands<'_>, board: &Space) -> bool {
        if made.space.common(board).is_none() {
            return true;
        }
        let mut same = self.drawn.iter().filter(|drawn| drawn.kind == made.kind);
        same.any(|drawn| self.is_whole(made, drawn, board))
    }

    /// True for one that is just the other. What is parted evenly over the width
    /// of an end is another thing in a narrower board.
    fn is_whole(&self, made: &Stands<'_>, drawn: &Drawn<'_>, board: &Space) -> bool {
        let parted = made.kind != MadeKind::Miter;
        let as_wide = (made.space.extent(1) - drawn.space.extent(1)).abs() <= self.tolerance;
        let there = made.space.common(board);
        there.is_some_and(|there| there.is_near(&drawn.space, self.tolerance))
            && (as_wide || !parted)
    }

    fn is_made(
        &self,
        drawn: &Drawn<'_>,
        standing: &[Stands<'_>],
        gone: &[Space],
        set: [Length; 2],
    ) -> bool {
        let board = Space::whole(self.sizes);
        let same = || standing.iter().filter(|made| made.kind == drawn.kind);
        match sort(drawn.kind) {
            Sort::Bore | Sort::Pilot => {
                let is_bored = |made: &Stands<'_>| match sort(drawn.kind) {
                    Sort::Bore => {
                        self.bored(made, set).is_some_and(|hole| hole.number == drawn.number)
                    }
                    _ => made.space.is_near(&drawn.space, ADJUSTED),
                };
                let reaches = |made: &Stands<'_>, axis: usize| {
                    made.space.extent(axis) + self.tolerance >= drawn.space.extent(axis)
                };
                same().any(|made| is_bored(made) && (0..3).all(|axis| reaches(made, axis)))
                    || drawn.space.is_within(gone.iter())
            }
            Sort::Taken | Sort::Tenon => {
                let mut taken = taken(drawn.kind, &self.needed(drawn), self.sizes)
                    .into_iter()
                    .filter_map(|space| space.common(&board));
                taken.all(|space| space.is_within(gone.iter())) && self.lets_in(drawn, standing)
            }
            Sort::Whole | Sort::Hidden => same().any(|made| self.is_whole(made, drawn, &board)),
        }
    }

    /// The axis across a channel with two walls, and how thick the board is that
    /// goes in between them.
    fn walls(&self, drawn: &Drawn<'_>) -> Option<(usize, Length)> {
        let feature = drawn.feature;
        let axis = mismatch::flat(feature)[usize::from(feature.runs_along())];
        let (from, to) = drawn.space.0[axis];
        let is_between = from.is_positive() && to < self.sizes[axis];
        let mate = self.mates.get(drawn.number).copied().flatten();
        let thick = mate.map_or(to - from, |thick| thick.min(to - from));
        (feature.is_channel() && is_between).then_some((axis, thick))
    }

    /// The wood that must be gone for a joint to be made: of a channel for a
    /// thinner board than is drawn not all, at either wall.
    fn needed(&self, drawn: &Drawn<'_>) -> Space {
        let mut space = drawn.space;
        if let Some((axis, thick)) = self.walls(drawn) {
            let (from, to) = space.0[axis];
            let spare = to - from - thick;
            if spare < thick {
                space.0[axis] = (from + spare, to - spare);
            }
        }
        space
    }

    /// True but for a channel whose walls are too near each other for the board
    /// that goes in. Where a joint stands may be off by what the shop is true to;
    /// no board goes in between walls that are nearer than it is thick.
    fn lets_in(&self, drawn: &Drawn<'_>, standing: &[Stands<'_>]) -> bool {
        let Some((axis, thick)) = self.walls(drawn) else { return true };
        let made = standing.iter().filter(|made| {
            sort(made.kind) == Sort::Taken && made.space.common(&drawn.space).is_some()
        });
        let widest = made.map(|made| made.space.extent(axis)).max();
        widest.is_none_or(|wide| wide + trade::mating() >= thick)
    }

    /// How far joints stand from the nearest of their kind. What reaches from
    /// side to side is moved by no trim.
    fn off(&self, standing: &[Stands<'_>]) -> i128 {
        let apart = |made: &Stands<'_>, drawn: &Drawn<'_>| -> i128 {
            let placed = (0..2).filter(|axis| made.made.space[*axis].is_some());
            let square = placed.map(|axis| {
                let off = made.space.middle(axis) - drawn.space.middle(axis);
                let hundredths = off.in_unit(Unit::Millimetre) * Exact::int(100);
                i128::from(hundredths.round()).pow(2)
            });
            // A door hangs by its cups; where its pull is shows less.
            square.sum::<i128>() * if made.kind == MadeKind::HingeCup { 100 } else { 1 }
        };
        let nearest = |made: &Stands<'_>| {
            let same = self.drawn.iter().filter(|drawn| drawn.kind == made.kind);
            same.map(|drawn| apart(made, drawn)).min()
        };
        standing.iter().filter_map(nearest).sum()
    }

    fn lost(&self, made: &Stands<'a>, laid: &Laid) -> Lost<'a> {
        let free = |drawn: &&Drawn<'p>| {
            drawn.kind == made.kind && laid.to_make.iter().any(|it| it.feature == drawn.number)
        };
        let over = |drawn: &&Drawn<'p>| {
            drawn.kind == made.kind && drawn.space.common(&made.space).is_some()
        };
        let apart = |drawn: &&Drawn<'p>| {
            let by = |axis| (made.space.middle(axis) - drawn.space.middle(axis)).abs();
            by(0) + by(1) + by(2)
        };
        let over = self.drawn.iter().filter(over).min_by_key(apart);
        let near = over.or_else(|| self.drawn.iter().filter(free).min_by_key(apart));
        mismatch::lost(made, near, &Space::whole(self.sizes), self.tolerance)
    }
}
