//! Blocks that keep the equal openings of a list equal while its rails or
//! stiles are screwed in.

use crate::measure::Length;
use crate::model::{Case, Item, JointKind, MemberKind, Opening, OpeningKind, Piece};

/// A block as long as the clear opening of several that are equal.
#[derive(Clone, Debug)]
pub struct Spacer<'a> {
    /// The list that they stand in.
    pub list: &'a Opening,
    /// Its length.
    pub long: Length,
    /// The openings that it sets.
    pub openings: Vec<&'a Opening>,
}

pub(super) fn plan(piece: &Piece) -> Vec<Spacer<'_>> {
    let mut found = Vec::new();
    for case in &piece.cases {
        for list in &case.openings {
            found.extend(of_list(case, list));
        }
    }
    found
}

fn of_list<'a>(case: &'a Case, list: &'a Opening) -> Vec<Spacer<'a>> {
    let mut spacers: Vec<Spacer<'a>> = Vec::new();
    let OpeningKind::List(axis, items) = &list.kind else { return spacers };
    let members = items.iter().filter_map(|item| match item {
        Item::Member(id) => case.members.get(id.at),
        Item::Opening(_) => None,
    });
    // A member that is let in stands where its joint is cut.
    if !members.clone().any(|member| is_set_by_hand(case, &member.kind)) {
        return spacers;
    }
    for item in items {
        let Item::Opening(id) = item else { continue };
        let Some(opening) = case.openings.get(id.at) else { continue };
        let long = opening.along(*axis).length;
        match spacers.iter_mut().find(|spacer| spacer.long == long) {
            Some(spacer) => spacer.openings.push(opening),
            None => spacers.push(Spacer { list, long, openings: vec![opening] }),
        }
    }
    spacers.retain(|spacer| spacer.openings.len() > 1);
    spacers
}

/// True where nothing but the hand that screws it on says where it stands.
fn is_set_by_hand(case: &Case, kind: &MemberKind) -> bool {
    let joint = match kind {
        MemberKind::Stile(_) | MemberKind::Rail(_) => {
            case.frame.as_ref().map(|frame| frame.joint.kind)
        }
        MemberKind::Divider(board) => Some(board.joint.kind),
    };
    match joint {
        Some(JointKind::Pocket | JointKind::Screw | JointKind::Butt) => true,
        Some(
            JointKind::Dado
            | JointKind::Rabbet
            | JointKind::Tenon
            | JointKind::Dowel
            | JointKind::Dovetail,
        )
        | None => false,
    }
}
