//! Round holes that a maker asks for: nothing stands before or behind one, or no cord goes
//! through.

use super::board::{Board, Sort, whole};
use super::compare::Tolerance;
use super::packet::{JointKind, Packet, Work};
use super::wood::{Space, common};

/// What touches a board is no farther from it, in millimeters.
const TOUCHES: f64 = 0.5;

/// What is wrong with the round holes of the boards as they stand.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>]) -> Vec<String> {
    let is_round = |operation: usize| {
        let own = packet.operations.get(operation).map(|own| &own.work);
        matches!(own, Some(Work::Bore(bore)) if bore.what == "round hole")
    };
    let laid = |mark: &str| {
        packet.joints.iter().any(|joint| joint.kind == JointKind::Laid && joint.part == mark)
    };
    let touches = packet.job.unit.mm(TOUCHES);
    // Hole and board lie each at a printed figure: what grazes by no more is drawn beside it.
    let grazes = 2.0 * Tolerance::of(packet).free;
    let mut wrong = Vec::new();
    for board in boards {
        let holes = board.cuts.iter().filter(|cut| cut.sort == Sort::Bore);
        for hole in holes.filter(|cut| is_round(cut.operation)) {
            let mut long = hole.space;
            long[hole.face.axis][0] -= touches;
            long[hole.face.axis][1] += touches;
            let way = board.placed(&long);
            let others = boards.iter().filter(|other| other.part.mark != board.part.mark);
            for other in others.filter(|other| !laid(&other.part.mark)) {
                let wood = other.placed(&whole(other.exact));
                let Some(met) = common(&way, &wood) else { continue };
                let along = board.along(hole.face.axis);
                if (0..3).any(|axis| axis != along && met[axis][1] - met[axis][0] <= grazes) {
                    continue;
                }
                let open =
                    other.cuts.iter().any(|cut| holds(&other.placed(&cut.space), &met, touches));
                if !open {
                    wrong.push(format!(
                        "{}: its round hole comes out on {}",
                        board.part.mark, other.part.mark
                    ));
                }
            }
        }
    }
    wrong
}

/// True where one box lies within another, or so near it.
fn holds(outer: &Space, inner: &Space, near: f64) -> bool {
    (0..3).all(|axis| {
        outer[axis][0] <= inner[axis][0] + near && inner[axis][1] <= outer[axis][1] + near
    })
}
