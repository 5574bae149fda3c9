//! Slides: the shop strikes the line of each by the printed heights, sets the box of its
//! drawer on it, and looks whether a box stands there.

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{JointKind, Packet, Slides, Work};

/// What is wrong with the heights of the slides in a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let slides = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::Slides(slides) => Some(slides),
        _ => None,
    });
    slides
        .filter_map(|own| {
            let what = off(packet, boards, own, tolerance)?;
            Some(format!("slides of {}: {what}", own.opening))
        })
        .collect()
}

fn off(packet: &Packet, boards: &[Board<'_>], slides: &Slides, tolerance: f64) -> Option<String> {
    let (up, above) = (slides.above_bottom.as_ref()?, slides.box_above.as_ref()?);
    let carriers: Vec<&String> = slides.on.iter().map(|own| &own.board).collect();
    let carrier = boards.iter().find(|board| carriers.contains(&&board.part.mark))?;
    // The bottom of the case that the carrier is part of.
    let holds = |case: &str| carrier.part.path.starts_with(case);
    let bottom =
        boards.iter().find(|board| board.part.path.strip_suffix("bottom").is_some_and(holds))?;
    let floor = bottom.placed(&whole(bottom.exact))[1][1];
    let line = floor + up.print;
    let foot = line - slides.above_opening.print + above.print;
    let joints = packet.joints.iter().filter(|joint| joint.kind == JointKind::Slid);
    let sides = joints.filter(|joint| carriers.contains(&&joint.into));
    let sides = sides.filter_map(|joint| boards.iter().find(|board| board.part.mark == joint.part));
    let feet: Vec<f64> = sides.map(|side| side.placed(&whole(side.exact))[1][0]).collect();
    // Four figures are printed, each half a mark off at the most.
    let near = |at: f64| (at - foot).abs() <= tolerance + packet.job.tape.exact * 2.0;
    if !feet.iter().any(|at| near(*at)) {
        return Some(format!("no box has its lower edge {} up", said(foot)));
    }
    let on_box = line - slides.up_box.as_ref()?.print;
    (!near(on_box)).then(|| "its line on the box and on the case differ".to_owned())
}
