//! Round holes, by their centers.

use super::board::{Board, Cut, Sort};
use super::figures::said;
use super::packet::{Bore, Packet, Work};
use super::wood::{NOTHING, Space};

/// So much wood is left beside a hole at least: 1/8 in (common practice, no source).
const BESIDE: f64 = 3.0;

/// Holes that come too near to an edge of their face to last.
pub(super) fn too_near(
    packet: &Packet,
    bore: &Bore,
    board: &Board<'_>,
    cuts: &[Cut],
) -> Vec<String> {
    let least = packet.job.unit.mm(BESIDE) - packet.job.tape.exact / 2.0;
    let beside = |cut: &Cut| {
        let axes = (0..3).filter(|axis| *axis != cut.face.axis);
        let sides = axes.flat_map(|axis| {
            let [from, to] = cut.space[axis];
            [from, board.drawn.size[axis].exact - to]
        });
        sides.fold(f64::MAX, f64::min)
    };
    let near = cuts.iter().map(beside).filter(|left| *left < least);
    near.map(|left| format!("only {} is left beside its {}", said(left.max(0.0)), bore.what))
        .collect()
}

/// The hole for the hook of a runner, which the drawing leaves out.
pub(super) const HOOK: &str = "hook hole";

/// What is wrong with the holes for hooks: there are two in the outside of a back,
/// equally far from its ends, level, and not through it.
pub(super) fn hooks(packet: &Packet, bore: &Bore, board: &Board<'_>, cuts: &[Cut]) -> Vec<String> {
    let mut wrong = Vec::new();
    if bore.face != "outside face" {
        wrong.push(format!("no hook goes into its {}", bore.face));
    }
    let [one, other] = cuts else {
        wrong.push(format!("{} holes for two hooks", cuts.len()));
        return wrong;
    };
    let axes: Vec<usize> = (0..3).filter(|axis| *axis != one.face.axis).collect();
    let [along, up] = axes[..] else { return wrong };
    // As it is drawn: a board that is off is bored by the same figures.
    let size = board.drawn.size.map(|size| size.exact);
    let ends = one.space[along][0] - (size[along] - other.space[along][1]);
    // Each center is half a mark off at the most.
    if ends.abs() > packet.job.tape.exact + NOTHING
        || (one.space[up][0] - other.space[up][0]).abs() > NOTHING
    {
        wrong.push("its hooks are not level, or not equally far from its ends".to_owned());
    }
    if bore.deep.print >= size[one.face.axis] {
        wrong.push("its holes for hooks go through".to_owned());
    }
    wrong
}

/// Holes of hinge plates that lie behind a block: they are bored on through it, so it is on
/// by then, and has its own holes where they are.
pub(super) fn behind_blocks(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let plate = |operation: usize| match packet.operations.get(operation).map(|own| &own.work) {
        Some(Work::Bore(bore)) if bore.what == "plate hole" => Some(bore),
        _ => None,
    };
    let joined = |part: &str, into: &str| {
        packet.operations.iter().position(|operation| match &operation.work {
            Work::Join(join) => join.joints.iter().any(|index| {
                let joint = packet.joints.get(*index);
                joint.is_some_and(|joint| joint.part == part && joint.into == into)
            }),
            _ => false,
        })
    };
    let mut wrong = Vec::new();
    for board in boards {
        for cut in &board.cuts {
            let Some(bore) = plate(cut.operation) else { continue };
            let hole = board.placed(&cut.space);
            let axis = board.along(cut.face.axis);
            // What lies on the board over the hole, and is fixed to it.
            let over = boards.iter().filter_map(|block| {
                let space = block.placed(&super::board::whole(block.exact));
                let beside = space[axis][1].min(hole[axis][1]) - space[axis][0].max(hole[axis][0]);
                let is_over = beside.abs() <= tolerance
                    && (0..3)
                        .filter(|own| *own != axis)
                        .all(|own| space[own][0] < hole[own][0] && hole[own][1] < space[own][1]);
                let on = joined(&block.part.mark, &board.part.mark).filter(|_| is_over)?;
                Some((block, on))
            });
            for (block, on) in over {
                let name = format!("{}: its plate hole behind {}", board.name(), block.part.mark);
                if !bore.behind.contains(&block.part.mark) {
                    wrong.push(format!("{name} is not bored on through it"));
                    continue;
                }
                if on > cut.operation {
                    wrong.push(format!("{name} is bored before that is on"));
                }
                let meets =
                    block.cuts.iter().filter(|own| plate(own.operation).is_some()).any(|own| {
                        let own = block.placed(&own.space);
                        (0..3)
                            .filter(|other| *other != axis)
                            .all(|other| (own[other][0] - hole[other][0]).abs() <= tolerance * 2.0)
                    });
                if !meets {
                    wrong.push(format!("{name} meets no hole of it"));
                }
            }
        }
    }
    wrong
}

/// The wood that the holes of one operation take, each as the box round it, of a
/// board whose sizes may be off by the slack.
pub(super) fn cut(
    operation: usize,
    bore: &Bore,
    board: &Board<'_>,
    slack: f64,
) -> Result<Vec<Cut>, String> {
    let face = board.face(&bore.face)?;
    let from = [board.face(&bore.from[0])?, board.face(&bore.from[1])?];
    let axes: Vec<usize> = (0..3).filter(|axis| *axis != face.axis).collect();
    if axes != from.map(|face| face.axis) {
        return Err(format!(
            "no hole in the {} counts from the {} and the {}",
            bore.face, bore.from[0], bore.from[1]
        ));
    }
    // The bit has its size, whatever is printed.
    let radius = bore.diameter.exact / 2.0;
    let hole = |center: &[super::packet::Figure; 2]| {
        let mut space: Space = [[0.0; 2]; 3];
        space[face.axis] = board.counted(face, [0.0, bore.deep.print]);
        for (from, center) in from.iter().zip(center) {
            let center = center.print;
            space[from.axis] = board.counted(*from, [center - radius, center + radius]);
            let within = space[from.axis][0] >= -slack - NOTHING
                && space[from.axis][1] <= board.exact[from.axis] + slack + NOTHING;
            if !within {
                return Err(format!("a hole at {} runs out of the board", said(center)));
            }
        }
        Ok(Cut { operation, sort: Sort::Bore, space, face, run: None })
    };
    bore.centers.iter().map(hole).collect()
}
