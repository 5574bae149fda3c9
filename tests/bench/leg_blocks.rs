//! Legs: what is planted with screws has its screws on a line, or a block in the corner
//! below, which the shop holds in its place.

use super::board::{Board, whole};
use super::packet::{Edge, JointKind, LegBlock, Other, Packet, Work};
use super::wood::{Space, common};

/// What is wrong with what holds the legs of a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let blocks = || {
        packet.operations.iter().filter_map(|operation| match &operation.work {
            Work::LegBlock(own) => Some(own),
            _ => None,
        })
    };
    let held = |part: &str, into: &str| {
        let is_held = |work: &Work| match work {
            Work::ScrewLine(line) => {
                (line.through == into && line.into == part)
                    || (line.through == part && line.into == into)
            }
            Work::LegBlock(own) => own.leg == part && own.bottom == into,
            // Locating blocks, which stay loose of the case.
            Work::OnBase(Other { parts }) => parts.iter().any(|own| own == into),
            _ => false,
        };
        packet.operations.iter().any(|own| is_held(&own.work))
    };
    let screwed = |part: &str, into: &str| {
        packet.operations.iter().any(|own| match &own.work {
            Work::Fasten(own) => own
                .held
                .iter()
                .any(|own| own.part == part && own.into.iter().any(|one| one == into)),
            _ => false,
        })
    };
    let planted = packet.joints.iter().filter(|joint| joint.kind == JointKind::Planted);
    let loose = planted
        .filter(|joint| screwed(&joint.part, &joint.into) && !held(&joint.part, &joint.into))
        .map(|joint| {
            format!("nobody says where the screws of {} into {} go", joint.part, joint.into)
        });
    let placed = blocks().flat_map(|own| {
        let found = block(boards, own, tolerance).into_iter();
        found.map(|what| format!("block beside {}: {what}", own.leg))
    });
    loose.chain(placed).collect()
}

/// What is wrong with a block: it lies on the side of the leg that is printed, against the
/// bottom, in the middle of the leg.
fn block(boards: &[Board<'_>], own: &LegBlock, tolerance: f64) -> Vec<String> {
    let place = |mark: &str| {
        let board = boards.iter().find(|board| board.part.mark == mark);
        board.map(|board| board.placed(&whole(board.exact)))
    };
    let (Some(leg), Some(bottom)) = (place(&own.leg), place(&own.bottom)) else {
        return vec!["there is no such leg or bottom".to_owned()];
    };
    let (square, long) = (own.square.print, own.long.print);
    let across = match own.side {
        Edge::Left => [leg[0][0] - square, leg[0][0]],
        Edge::Right => [leg[0][1], leg[0][1] + square],
        Edge::Top | Edge::Bottom => return vec!["it lies on no side of the leg".to_owned()],
    };
    let middle = f64::midpoint(leg[2][0], leg[2][1]);
    let deep = [middle - long / 2.0, middle + long / 2.0];
    let space: Space = [across, [bottom[1][0] - square, bottom[1][0]], deep];
    let mut wrong = Vec::new();
    if deep[0] < leg[2][0] - tolerance || across[0] < bottom[0][0] || across[1] > bottom[0][1] {
        wrong.push("it stands out of the corner".to_owned());
    }
    for board in boards {
        let other = board.placed(&whole(board.exact));
        let both = common(&space, &other);
        if both.is_some_and(|both| both.iter().all(|[from, to]| to - from > tolerance)) {
            wrong.push(format!("{} is where it lies", board.name()));
        }
    }
    wrong
}
