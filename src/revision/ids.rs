//! What the ids of one revision are in the other.

use std::collections::BTreeMap;

use crate::model::{Called, CaseId, FrontId, Member, MemberId, OpeningId, Piece};
use crate::parts::{Key, Of};
use crate::plans::weights::Lifted;

use super::matching::Match;

impl Match {
    /// The case that one is now.
    pub(super) fn case(&self, was: CaseId) -> Option<CaseId> {
        self.cases.new_of(was.0).map(CaseId)
    }

    /// The opening that one is now.
    pub(super) fn opening(&self, was: OpeningId) -> Option<OpeningId> {
        let at = self.openings.get(&was.case.0)?.new_of(was.at)?;
        Some(OpeningId { case: self.case(was.case)?, at })
    }

    /// The front that one is now.
    pub(super) fn front(&self, was: FrontId) -> Option<FrontId> {
        Some(FrontId { opening: self.opening(was.opening)?, leaf: was.leaf })
    }

    /// What is lifted as it was.
    pub(super) fn lifted(&self, was: Lifted) -> Option<Lifted> {
        Some(match was {
            Lifted::Case(case) => Lifted::Case(self.case(case)?),
            Lifted::Shelves(case) => Lifted::Shelves(self.case(case)?),
            Lifted::Covers(case) => Lifted::Covers(self.case(case)?),
            Lifted::Base(case) => Lifted::Base(self.case(case)?),
            Lifted::Countertop(case) => Lifted::Countertop(self.case(case)?),
            Lifted::Door(front) => Lifted::Door(self.front(front)?),
            Lifted::Drawer(opening) => Lifted::Drawer(self.opening(opening)?),
        })
    }

    /// What a part is told by now, if nothing happened to it but new names
    /// round it.
    pub(super) fn key(&self, was: Key) -> Option<Key> {
        let of = match was.of {
            Of::Case(case) => Of::Case(self.case(case)?),
            Of::Row(first) => Of::Row(self.case(first)?),
            Of::Member(member) => Of::Member(*self.members.get(&member)?),
            Of::Opening(opening) => Of::Opening(self.opening(opening)?),
            Of::Front(front) => Of::Front(self.front(front)?),
        };
        Some(Key { of, ..was })
    }

    /// Pairs members by the name they were given, else by the openings that
    /// they stand between.
    pub(super) fn pair_members(&mut self, old: &Piece, new: &Piece) {
        let now: BTreeMap<Between<'_>, MemberId> =
            members(new).filter_map(|member| Some((between(member, Some)?, member.id))).collect();
        let same = members(old).filter_map(|member| {
            let key = between(member, |opening| self.opening(opening))?;
            Some((member.id, *now.get(&key)?))
        });
        let same = same.collect();
        self.members = same;
    }
}

fn members(piece: &Piece) -> impl Iterator<Item = &Member> {
    piece.cases.iter().flat_map(|case| &case.members)
}

/// What tells a member from the others: its list and what it is; then its name,
/// or its neighbours and its number between them.
type Between<'a> = (OpeningId, &'static str, Option<&'a str>, [Option<OpeningId>; 2], Option<u32>);

fn between<'a>(
    member: &'a Member,
    now: impl Fn(OpeningId) -> Option<OpeningId>,
) -> Option<Between<'a>> {
    let list = now(member.list)?;
    Some(match &member.called {
        Called::Given(name) => (list, member.noun(), Some(name), [None; 2], None),
        Called::Between { beside, number, .. } => {
            let mut both = [None; 2];
            for (now_beside, was) in both.iter_mut().zip(beside) {
                *now_beside = match was {
                    Some(was) => Some(now(*was)?),
                    None => None,
                };
            }
            (list, member.noun(), None, both, *number)
        }
    })
}
