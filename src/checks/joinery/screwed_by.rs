//! Which statement says that boards are screwed together.

use crate::measure::Span;
use crate::model::{Board, Case, Joinery, JointKind, MemberKind, Partition};

/// Where a case says that the boards of a statement are joined with screws, if dowels may
/// stand there instead.
pub(super) fn screwed_by(case: &Case, boards: Span) -> Option<Span> {
    screwed(case, boards).find(|joint| joint.screw.is_none()).and_then(|joint| joint.span)
}

/// The joints with screws that a case asks for with a statement of boards.
pub(super) fn screwed(case: &Case, boards: Span) -> impl Iterator<Item = &Joinery> {
    let is_written = |joint: &&Joinery| {
        matches!(joint.kind, JointKind::Pocket | JointKind::Screw) && joint.span.is_some()
    };
    let frame = case.frame.iter().filter(move |frame| frame.span == boards);
    let top = case.top.iter().map(|top| &top.board);
    let bottom = case.bottom.iter().map(|bottom| &bottom.board);
    let behind = case.members.iter().filter_map(|member| -> Option<&Board> {
        match &member.kind {
            MemberKind::Stile(Partition::Board(board)) | MemberKind::Divider(board) => Some(board),
            MemberKind::Rail(Some(shelf)) => Some(&shelf.board),
            MemberKind::Stile(Partition::None) | MemberKind::Rail(None) => None,
        }
    });
    let all = top.chain(bottom).chain(&case.partitions).chain(behind);
    let own = all.filter(move |board| board.span == boards);
    frame.map(|frame| &frame.joint).chain(own.map(|board| &board.joint)).filter(is_written)
}
