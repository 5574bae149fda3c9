//! The boards behind the members of a frame: which of them stand, once all
//! openings are known.
//!
//! A partition stands on a lying board and reaches up to one. The shelf behind a
//! rail lies between two upright ones. Each may need the other, so what can't
//! stand is taken out until the rest does.

use crate::diagnostics::Diagnostic;
use crate::vocabulary::{Entry, words};

use super::edge::Edge;
use super::edges::{Beyond, Elevation};
use super::opening::{Axis, Member, MemberKind, Opening, Partition};

/// Takes out the boards that nobody asked for and that nothing holds, and reports
/// those that were asked for.
pub(super) fn settle(
    openings: &[Opening],
    members: &mut [Member],
    entries: &[&Entry],
    [has_bottom, has_top]: [bool; 2],
    is_framed: bool,
) -> Vec<Diagnostic> {
    let mut found = Vec::new();
    if is_framed {
        let elevation = Elevation { openings, members, has_bottom, has_top };
        let all = members.iter().zip(entries);
        found.extend(all.filter_map(|(member, entry)| unjoined(member, entry, elevation)));
    }
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

/// What to say of a member of a frame, or of a divider in one, that ends where there
/// is nothing to join it to.
fn unjoined(member: &Member, entry: &Entry, elevation: Elevation<'_>) -> Option<Diagnostic> {
    let edges = match member.axis {
        Axis::Across => [Edge::Top, Edge::Bottom],
        Axis::Down => [Edge::Left, Edge::Right],
    };
    let noun = member.noun();
    let found = |what: &str, note: String| {
        let title = format!("{} ends where there is no {what} to join it to", member.path);
        let found =
            Diagnostic::error("member-misplaced", title, entry.head, "one end of this is loose");
        Some(found.note(note))
    };
    if matches!(member.kind, MemberKind::Divider(_)) {
        let held = edges.into_iter().all(|edge| elevation.has_board(member.list, edge));
        return (!held).then(|| {
            let note = match member.axis {
                Axis::Across => {
                    "give the case a bottom and a top, and each rail that it ends at a `shelf`"
                }
                Axis::Down => "put a partition behind each stile that it ends at",
            };
            found("board of the case", note.to_owned())
        })?;
    }
    let loose = edges.into_iter().find_map(|edge| match elevation.beyond(member.list, edge) {
        Beyond::Outside => None,
        Beyond::Opening(_) => Some(None),
        Beyond::Member(id) => {
            let next = elevation.members.get(id.at)?;
            matches!(next.kind, MemberKind::Divider(_)).then_some(Some(next))
        }
    })?;
    let other = if noun == "rail" { "stile" } else { "rail" };
    let note = match loose {
        Some(_) => format!(
            "a `divider` is a board without a member before it: write `divider` here too, or a `{other}` with a board behind it there"
        ),
        None => format!("put a `{other}` between the two openings that this {noun} ends between"),
    };
    found("member of the frame", note)
}

/// True for a board behind a member that lacks a board at one of its ends.
fn is_loose(member: &Member, elevation: Elevation<'_>) -> bool {
    let held =
        |edges: [Edge; 2]| edges.into_iter().all(|edge| elevation.has_board(member.list, edge));
    match &member.kind {
        // One of the full height is held by the whole case.
        MemberKind::Stile(Partition::Board(_)) => !member.full && !held([Edge::Top, Edge::Bottom]),
        MemberKind::Rail(Some(_)) => !held([Edge::Left, Edge::Right]),
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
