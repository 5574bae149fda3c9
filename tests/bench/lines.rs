//! What is struck with a rule and worked to by hand: lines on boards, dovetails,
//! dowel holes, and the room behind a tenon.

use super::board::{Board, Sort, whole};
use super::compare::Tolerance;
use super::figures::said;
use super::off::Off;
use super::packet::{JointKind, Packet, Row, Shape, Shaped, Span, Stick, Tails, Work};
use super::wood::{NOTHING, Space, common};

/// The least that is left behind a tenon for glue: 1/32 in (common practice is
/// twice that, no source).
const ROOM: f64 = 0.79;

/// The narrowest pin: a chisel of 1/8 in goes between two tails (common practice,
/// no source).
const PIN: f64 = 3.0;

/// By so much the end of a board may miss a face and still stand against it: more than
/// wood that is off, and less than any tenon.
const OFF: f64 = 1.5;

/// All that is wrong with them.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], off: &Off) -> Vec<String> {
    let mut wrong = struck(packet, boards, off);
    wrong.extend(missing(packet, boards));
    for operation in &packet.operations {
        let Work::Shape(shape) = &operation.work else { continue };
        let Some(board) = find(boards, &shape.part) else { continue };
        let own = match &shape.tails {
            Some(own) => tails(packet, board, shape, own, off),
            None if shape.what == Shaped::Dovetails => {
                Some("nobody says where its tails are".to_owned())
            }
            None => None,
        };
        wrong.extend(own.map(|what| format!("{}: {what}", board.name())));
    }
    wrong.extend(dowels(packet, boards, off));
    wrong.extend(bottomed(packet, boards));
    wrong
}

fn find<'b, 'p>(boards: &'b [Board<'p>], mark: &str) -> Option<&'b Board<'p>> {
    boards.iter().find(|board| board.part.mark == mark)
}

/// Two lines across a board, in its own axes, as they are struck: which axis, from
/// and to.
fn lines(board: &Board<'_>, span: &Span) -> Result<(usize, [f64; 2]), String> {
    let face = board.face(&span.from)?;
    let range = board.counted(face, [span.start.print, span.end.print]);
    Ok((face.axis, range))
}

/// Why the other board does not come to the face that the lines are struck on. A board
/// comes to a face where it stands out of it.
fn off_face(host: &Board<'_>, stick: &Stick, there: &Space) -> Option<String> {
    let name = stick.face.as_ref()?;
    let face = match host.face(name) {
        Ok(face) => face,
        Err(what) => return Some(what),
    };
    let [from, to] = there[face.axis];
    let comes = match face.is_end {
        true => from < host.exact[face.axis] + OFF && host.exact[face.axis] + OFF < to,
        false => from < -OFF && -OFF < to,
    };
    (!comes).then(|| format!("it does not come to the {name}"))
}

/// Lines that are not where the other board stands.
fn struck(packet: &Packet, boards: &[Board<'_>], off: &Off) -> Vec<String> {
    let most = Tolerance::with(packet, off).free;
    let mut wrong = Vec::new();
    for stick in &packet.layout {
        let Some(host) = find(boards, &stick.part) else {
            wrong.push(format!("there is no board {} to strike lines on", stick.part));
            continue;
        };
        for line in &stick.lines {
            let name = format!("{}: the lines of {}", host.name(), line.part);
            let Some(guest) = find(boards, &line.part) else {
                wrong.push(format!("{name}: there is no such board"));
                continue;
            };
            let there = host.own(&guest.placed(&whole(guest.exact)));
            wrong.extend(off_face(host, stick, &there).map(|what| format!("{name}: {what}")));
            for span in [Some(&line.along), line.across.as_ref()].into_iter().flatten() {
                match lines(host, span) {
                    Err(what) => wrong.push(format!("{name}: {what}")),
                    Ok((axis, struck)) => {
                        let stands =
                            [there[axis][0].max(0.0), there[axis][1].min(host.exact[axis])];
                        let off = (struck[0] - stands[0]).abs().max((struck[1] - stands[1]).abs());
                        if off > most {
                            wrong.push(format!("{name} are off by {}", said(off)));
                        }
                    }
                }
            }
        }
    }
    wrong
}

/// Boards that are screwed, doweled, or tenoned to others, where no line says at
/// which place.
fn missing(packet: &Packet, boards: &[Board<'_>]) -> Vec<String> {
    let mut wrong = Vec::new();
    for joint in &packet.joints {
        let Some(host) = find(boards, &joint.into) else { continue };
        let placed = match joint.kind {
            JointKind::PocketScrews | JointKind::Dowels => false,
            // Without a mortise it goes into a groove, and may lie flush with its end.
            JointKind::Tenon => {
                let guest = find(boards, &joint.part);
                !host.cuts.iter().any(|cut| cut.sort == Sort::Mortise)
                    && guest.is_some_and(|guest| is_flush(host, guest))
            }
            JointKind::Screws
            | JointKind::Dado
            | JointKind::Rabbet
            | JointKind::Dovetails
            | JointKind::Butt
            | JointKind::Miter
            | JointKind::Floating
            | JointKind::Glazed
            | JointKind::Pinned
            | JointKind::Planted
            | JointKind::Hung
            | JointKind::Slid
            | JointKind::Laid
            | JointKind::FrontFixed => true,
        };
        let mut sticks = packet.layout.iter().filter(|stick| stick.part == joint.into);
        if !placed && !sticks.any(|own| own.lines.iter().any(|line| line.part == joint.part)) {
            wrong.push(format!("{}: no line says where {} stands", host.name(), joint.part));
        }
    }
    wrong
}

/// True where a board lies flush with one end of another that it goes into, but for
/// what boards may be off.
fn is_flush(host: &Board<'_>, guest: &Board<'_>) -> bool {
    const OFF: f64 = 1.0;
    let [from, to] = host.own(&guest.placed(&whole(guest.exact)))[0];
    from.abs() < OFF || (to - host.exact[0]).abs() < OFF
}

/// Tails that don't part the width of their board evenly.
fn tails(
    packet: &Packet,
    board: &Board<'_>,
    shape: &Shape,
    own: &Tails,
    off: &Off,
) -> Option<String> {
    let mm = |millimeters| packet.job.unit.mm(millimeters);
    let mut all: Vec<[f64; 2]> = Vec::new();
    let mut axis = None;
    for span in &own.along {
        match lines(board, span) {
            Err(what) => return Some(what),
            Ok((own, range)) => {
                axis = Some(own);
                all.push(range);
            }
        }
    }
    // The row lies in the stretch that is cut, which may be less than the board.
    let axis = axis?;
    let row = shape.spans.iter().find_map(|span| {
        let face = board.face(&span.from).ok().filter(|face| face.axis == axis)?;
        Some(board.counted(face, [span.start.exact, span.end.exact]))
    });
    let [low, high] = row.unwrap_or([0.0, board.exact[axis]]);
    all.sort_by(|a, b| a[0].total_cmp(&b[0]));
    // All are struck to marks: those of one row are alike, and so are its pins.
    let tail = all.first()?[1] - all.first()?[0];
    if all.iter().any(|own| (own[1] - own[0] - tail).abs() > NOTHING) || tail <= NOTHING {
        return Some("its tails are not alike".to_owned());
    }
    let pins: Vec<f64> = all.windows(2).map(|two| two[1][0] - two[0][1]).collect();
    if pins.windows(2).any(|two| (two[0] - two[1]).abs() > NOTHING) {
        return Some("its pins are not alike".to_owned());
    }
    let edges = [all.first()?[0] - low, high - all.last()?[1]];
    // What a board is too narrow by is taken from its last pin.
    if (edges[0] - edges[1]).abs() > packet.job.tape.exact + off.slack() + NOTHING {
        return Some("its tails stand nearer to one edge".to_owned());
    }
    if let Some(thin) = edges.into_iter().chain(pins).find(|pin| *pin < mm(PIN)) {
        return Some(format!("a pin is only {} wide", said(thin)));
    }
    // At the baseline, where a tail is narrowest, a chisel is as wide too.
    let narrow = tail - 2.0 * shape.deep.exact / f64::from(own.slope);
    if narrow < mm(PIN) {
        return Some(format!("a tail is only {} wide at its baseline", said(narrow)));
    }
    (!(5..=9).contains(&own.slope)).then(|| format!("its tails slope 1 in {}", own.slope))
}

/// A dowel hole: its center and its floor where they are in the piece.
struct Hole<'a> {
    part: &'a str,
    row: &'a Row,
    center: [f64; 3],
    deep: f64,
    axis: usize,
}

fn holes<'p>(packet: &'p Packet, boards: &[Board<'_>]) -> Result<Vec<Hole<'p>>, String> {
    let mut all = Vec::new();
    for operation in &packet.operations {
        let Work::Shape(shape) = &operation.work else { continue };
        let (Some(row), Some(board)) = (&shape.row, find(boards, &shape.part)) else { continue };
        let face = board.face(&shape.face)?;
        for center in &row.centers {
            let mut space: Space = [[0.0; 2]; 3];
            space[face.axis] = board.counted(face, [0.0, 0.0]);
            for (from, at) in row.from.iter().zip(center) {
                let from = board.face(from)?;
                space[from.axis] = board.counted(from, [at.print, at.print]);
            }
            all.push(Hole {
                part: &shape.part,
                row,
                center: board.placed(&space).map(|range| range[0]),
                deep: shape.deep.print,
                axis: board.along(face.axis),
            });
        }
    }
    Ok(all)
}

/// Dowels whose two holes don't meet, or that are too long for them.
fn dowels(packet: &Packet, boards: &[Board<'_>], off: &Off) -> Vec<String> {
    let all = match holes(packet, boards) {
        Ok(all) => all,
        Err(what) => return vec![what],
    };
    let tolerance = Tolerance::of(packet);
    let most = tolerance.free * 2.0 + tolerance.mating + off.slack();
    let room = packet.job.unit.mm(ROOM);
    let mut wrong = Vec::new();
    for hole in &all {
        let meets = |other: &&Hole<'_>| {
            let off = (0..3).map(|axis| (other.center[axis] - hole.center[axis]).abs());
            other.part != hole.part && other.axis == hole.axis && off.fold(0.0, f64::max) <= most
        };
        match all.iter().find(meets) {
            None => wrong.push(format!("{}: a dowel hole has no other half", hole.part)),
            Some(other) => {
                let left = hole.deep + other.deep - hole.row.dowel.print;
                if left < 2.0 * room {
                    wrong.push(format!(
                        "{}: its dowels leave {} of both holes",
                        hole.part,
                        said(left)
                    ));
                }
            }
        }
    }
    wrong.sort();
    wrong.dedup();
    wrong
}

/// Tenons that touch the floor of their mortise or groove before the shoulder
/// closes. How far one goes in is seen in the drawing, how far it could in the
/// wood that is gone.
fn bottomed(packet: &Packet, boards: &[Board<'_>]) -> Vec<String> {
    let room = packet.job.unit.mm(ROOM);
    let mut wrong = Vec::new();
    for joint in packet.joints.iter().filter(|joint| joint.kind == JointKind::Tenon) {
        let (Some(guest), Some(host)) = (find(boards, &joint.part), find(boards, &joint.into))
        else {
            continue;
        };
        let tip = host.own(&guest.placed(&whole(guest.exact)));
        // The cut in the host that the tip of the tenon lies in: it opens the way that the
        // tenon comes in, where a post has others beside it.
        let takes = |cut: &&super::board::Cut| {
            matches!(cut.sort, Sort::Mortise | Sort::Channel)
                && host.along(cut.face.axis) == guest.along(0)
                && (0..3).all(|axis| {
                    cut.space[axis][0] < tip[axis][1] && tip[axis][0] < cut.space[axis][1]
                })
        };
        let mortised = host.cuts.iter().filter(takes).any(|cut| cut.sort == Sort::Mortise);
        // Beside a mortise only the haunch of a tenon goes to the floor of a groove.
        let haunch = haunch(host, guest);
        for cut in host.cuts.iter().filter(takes) {
            let tip = match (mortised && cut.sort == Sort::Channel, haunch) {
                (false, _) => tip,
                (true, Some(haunch)) => haunch,
                (true, None) => continue,
            };
            let axis = cut.face.axis;
            let left = match cut.face.is_end {
                true => tip[axis][0] - cut.space[axis][0],
                false => cut.space[axis][1] - tip[axis][1],
            };
            if left < room {
                wrong.push(format!(
                    "{}: its tenon leaves {} for glue in {}",
                    guest.name(),
                    said(left),
                    host.part.mark
                ));
            }
        }
    }
    wrong
}

/// What is left of a tenon where its corner was cut off, in the axes of the board that
/// it goes into.
fn haunch(host: &Board<'_>, guest: &Board<'_>) -> Option<Space> {
    guest.cuts.iter().filter(|cut| cut.sort == Sort::Notch).find_map(|cut| {
        let mut left = cut.space;
        let axis = cut.face.axis;
        left[axis] = match cut.face.is_end {
            true => [0.0, cut.space[axis][0]],
            false => [cut.space[axis][1], guest.exact[axis]],
        };
        let corner = host.own(&guest.placed(&cut.space));
        common(&corner, &whole(host.exact)).map(|_| host.own(&guest.placed(&left)))
    })
}
