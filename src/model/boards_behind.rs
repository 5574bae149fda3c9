//! The boards behind the members of a frame: which of them stand, once all
//! openings are known.
//!
//! A partition stands on a lying board and reaches up to one. The shelf behind a
//! rail lies between two upright ones. Each may need the other, so what can't
//! stand is taken out until the rest does.

use crate::diagnostics::Diagnostic;
use crate::vocabulary::{Entry, words};

use super::edges::Elevation;
use super::opening::{Axis, Member, MemberKind, Opening, Partition};

/// Takes out the boards that nobody asked for and that nothing holds, and reports
/// those that were asked for.
pub(super) fn settle(
    openings: &[Opening],
    members: &mut [Member],
    entries: &[&Entry],
    [has_bottom, has_top]: [bool; 2],
) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    loop {
        let elevation = Elevation { openings, members, has_bottom, has_top };
        let loose = members.iter().position(|member| is_loose(member, elevation));
        let Some((member, entry)) =
            loose.and_then(|at| Some((members.get_mut(at)?, entries.get(at)?)))
        else {
            return found;
        };
        found.extend(asked(member, entry));
        match &mut member.kind {
            MemberKind::Stile(partition) => *partition = Partition::None,
            MemberKind::Rail(shelf) => *shelf = None,
            MemberKind::Divider(_) => {}
        }
    }
}

/// True for a board behind a member that lacks a board at one of its ends.
fn is_loose(member: &Member, elevation: Elevation<'_>) -> bool {
    let held = |axis| [false, true].iter().all(|end| elevation.has_board(member.list, axis, *end));
    match &member.kind {
        // One of the full height is held by the whole case.
        MemberKind::Stile(Partition::Board(_)) => !member.full && !held(Axis::Down),
        MemberKind::Rail(Some(_)) => !held(Axis::Across),
        MemberKind::Stile(Partition::None) | MemberKind::Rail(None) | MemberKind::Divider(_) => {
            false
        }
    }
}

/// What to say of a board that the maker asked for.
fn asked(member: &Member, entry: &Entry) -> Option<Diagnostic> {
    let body = entry.body()?;
    let (said, title, note) = match member.kind {
        MemberKind::Stile(_) => (
            body.one(words::stile::PARTITION),
            format!(
                "no partition can stand behind {}, because the case has no board at one of its ends",
                member.path
            ),
            "put a shelf behind the rail that the stile ends at, run the stile the full height, or take the partition out",
        ),
        MemberKind::Rail(_) => (
            body.one(words::rail::SHELF),
            format!(
                "no shelf can lie behind {}, because no board of the case stands at one of its ends",
                member.path
            ),
            "put a partition behind the stile that the rail ends at, or take the shelf out",
        ),
        MemberKind::Divider(_) => return None,
    };
    let found = Diagnostic::error(
        "member-misplaced",
        title,
        said.map(|said| said.head)?,
        "this has nothing that holds it",
    );
    Some(found.label(entry.head, format!("this {}", member.noun())).note(note))
}
