//! What is scribed to the floor and the walls: whether wood is there for it, and panels
//! over cases, from which it is cut before they go on.

use serde::Deserialize;

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{Edge, Face, Figure, Packet, Work};
use super::play::Play;
use super::wood::{NOTHING, Space};

/// No floor or wall is so true that less would do: 3 mm (common practice, no source).
const LEAST: f64 = 3.0;

/// A screw holds a panel that it goes into so far, and stays so far short of its face:
/// 8 mm and 1 mm (common practice, no source).
const BITES: f64 = 8.0;
const SHORT: f64 = 1.0;

/// A panel is scribed, laid over a board, and screwed on through that.
#[derive(Debug, Deserialize)]
pub(super) struct FitCover {
    part: String,
    through: Vec<String>,
    ahead: Option<Figure>,
    screws: u32,
    long: Option<Figure>,
    #[serde(default)]
    scribed: Vec<ScribedEdge>,
}

impl FitCover {
    /// True for the panel with this mark.
    pub(super) fn is(&self, mark: &str) -> bool {
        self.part == mark
    }
}

/// A toe kick is scribed to the floor.
#[derive(Debug, Deserialize)]
pub(super) struct ScribeKick {
    part: String,
    scribed: Vec<ScribedEdge>,
}

/// An edge at which wood is left on.
#[derive(Debug, Deserialize)]
struct ScribedEdge {
    edge: String,
    left: Figure,
}

/// So much of a stile may come off at the wall beside it.
#[derive(Debug, Deserialize)]
pub(super) struct Scribe {
    pub(super) case: String,
    pub(super) side: Edge,
    most: Figure,
}

/// So much of a filler may come off, where it meets a wall.
#[derive(Debug, Deserialize)]
pub(super) struct FitFiller {
    part: String,
    through: String,
    most: Option<Figure>,
}

/// So much of the end of a countertop may come off.
#[derive(Debug, Deserialize)]
pub(super) struct ScribedEnd {
    side: Edge,
    most: Figure,
}

impl Play<'_> {
    /// The panel is scribed: where the floor and the wall are true, all that was left on
    /// comes off.
    pub(super) fn fit_cover(&mut self, index: usize, work: &FitCover) {
        let Some(part) = self.find(index, &work.part) else { return };
        if !self.is_whole(index, part) {
            return;
        }
        for mark in &work.through {
            self.find(index, mark);
        }
        self.scribed(index, part, &work.scribed);
    }

    /// The kick comes to the floor, before it is screwed on.
    pub(super) fn scribe_kick(&mut self, index: usize, work: &ScribeKick) {
        let Some(part) = self.find(index, &work.part) else { return };
        if self.is_whole(index, part) {
            self.scribed(index, part, &work.scribed);
        }
    }

    fn scribed(&mut self, index: usize, part: usize, edges: &[ScribedEdge]) {
        for scribed in edges {
            let face = match self.boards[part].face(&scribed.edge) {
                Ok(face) if face.axis < 2 => face,
                Ok(_) => return self.about(index, part, "a face is not scribed"),
                Err(wrong) => return self.about(index, part, &wrong),
            };
            let left = scribed.left;
            if left.exact < self.packet.job.unit.mm(LEAST) - NOTHING {
                let wrong = format!("only {} are there to scribe", said(left.exact));
                self.about(index, part, &wrong);
            }
            // The compass brings it to its place, whatever a tape says of it.
            let mark = self.packet.job.tape.exact;
            let board = &mut self.boards[part];
            let comes_to = board.exact[face.axis] - left.exact;
            let there = board.size[face.axis] - left.print;
            board.exact[face.axis] = comes_to;
            board.size[face.axis] = if (there - comes_to).abs() > mark { there } else { comes_to };
            // What was cut stays where it is in the wood.
            for cut in board.cuts.iter_mut().filter(|_| !face.is_end) {
                cut.space[face.axis] = cut.space[face.axis].map(|at| at - left.exact);
            }
        }
    }
}

fn placed(board: &Board<'_>) -> Space {
    board.placed(&whole(board.exact))
}

fn called<'b, 'p>(boards: &'b [Board<'p>], mark: &str) -> Result<&'b Board<'p>, String> {
    let found = boards.iter().find(|board| board.part.mark == mark);
    found.ok_or_else(|| format!("there is no {mark}"))
}

/// What is wrong with what was scribed, when the piece stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let found = packet.operations.iter().flat_map(|operation| match &operation.work {
        Work::FitCover(own) => vec![cover(packet, boards, own, tolerance)],
        Work::Scribe(own) => vec![stile(packet, boards, own, tolerance)],
        Work::FitFiller(own) => vec![filler(packet, boards, own, tolerance)],
        Work::LayOn(own) => {
            let end = |end: &ScribedEnd| countertop(packet, boards, (&own.part, end), tolerance);
            own.ends.iter().map(end).collect()
        }
        _ => Vec::new(),
    });
    let mut found: Vec<String> = found.filter_map(Result::err).collect();
    found.extend(kicks(packet, boards, tolerance));
    found
}

/// The floor is never level: a board across notched ends that reaches it has wood left on
/// at its lower edge, and comes to it when the piece stands.
fn kicks(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let is_kick = |board: &&Board<'_>| {
        board.part.path.ends_with(".kick") && placed(board)[1][0].abs() < tolerance
    };
    let is_scribed = |board: &Board<'_>| {
        let upright = (0..3).find(|own| board.along(*own) == 1).unwrap_or(0);
        let low = Face { axis: upright, is_end: false };
        packet.operations.iter().any(|own| match &own.work {
            Work::ScribeKick(own) => {
                own.part == board.part.mark
                    && own.scribed.iter().any(|own| board.face(&own.edge) == Ok(low))
            }
            _ => false,
        })
    };
    let bare = boards.iter().filter(is_kick).filter(|board| !is_scribed(board));
    bare.map(|board| format!("{}: no wood is left on it to scribe to the floor", board.part.mark))
        .collect()
}

fn cover(
    packet: &Packet,
    boards: &[Board<'_>],
    own: &FitCover,
    tolerance: f64,
) -> Result<(), String> {
    let Some(first) = own.through.first() else {
        return Err(format!("{}: it lies on nothing", own.part));
    };
    let (part, through) = (called(boards, &own.part)?, called(boards, first)?);
    let (space, carrier) = (placed(part), placed(through));
    let complain = |what: String| Err(format!("{}: {what}", own.part));
    // What meets the floor, and what meets the wall, is scribed.
    let walled = packet.operations.iter().any(|own| matches!(own.work, Work::Walled(_)));
    let rear = boards.iter().map(|board| placed(board)[2][1]).fold(f64::MIN, f64::max);
    let meets = [
        (1, false, space[1][0].abs() < tolerance, "floor"),
        (2, true, walled && (space[2][1] - rear).abs() < tolerance, "wall"),
    ];
    for (axis, is_end, is_there, what) in meets {
        let own_axis = (0..3).find(|own| part.along(*own) == axis).unwrap_or(0);
        let face = Face { axis: own_axis, is_end };
        let scribed = own.scribed.iter().any(|own| part.face(&own.edge) == Ok(face));
        if is_there != scribed {
            return complain(match is_there {
                true => format!("no wood is left on it to scribe to the {what}"),
                false => format!("wood is left on it where no {what} is"),
            });
        }
    }
    let ahead = own.ahead.as_ref().map_or(0.0, |ahead| ahead.print);
    if part.along(2) == 0 && (carrier[2][0] - space[2][0] - ahead).abs() > tolerance {
        return complain(format!("its front edge is not {} before its end", said(ahead)));
    }
    let lines = packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::ScrewLine(line) if line.into == own.part => Some(line),
        _ => None,
    });
    let lines: Vec<_> = lines.collect();
    // Each board that it lies on holds it, and no other.
    for mark in &own.through {
        if lines.iter().filter(|line| line.through == *mark).map(|line| line.count).sum::<u32>() < 2
        {
            return complain(format!("no two screws go through {mark}"));
        }
    }
    let places: u32 = lines
        .iter()
        .filter(|line| own.through.contains(&line.through))
        .map(|line| line.count)
        .sum();
    if places != own.screws || places < 2 {
        return complain(format!("{} screws have {places} places", own.screws));
    }
    let mm = |millimeters| packet.job.unit.mm(millimeters);
    let both = [through, part].map(|board| board.exact[2]);
    let most = both[0] + both[1] - mm(SHORT);
    match &own.long {
        None => complain("nobody knows how long its screws are".to_owned()),
        Some(long) if long.print < both[0] + mm(BITES) || long.print > most => {
            complain(format!("its screws are {} long", said(long.print)))
        }
        Some(_) => Ok(()),
    }
}

/// How far a board reaches past another at a side of the piece.
fn past(side: Edge, own: &Space, other: &Space) -> f64 {
    match side {
        Edge::Left => other[0][0] - own[0][0],
        Edge::Right => own[0][1] - other[0][1],
        Edge::Top | Edge::Bottom => f64::MIN,
    }
}

fn enough(
    packet: &Packet,
    what: &str,
    [there, most]: [f64; 2],
    tolerance: f64,
) -> Result<(), String> {
    let least = packet.job.unit.mm(LEAST);
    if most < least - NOTHING {
        return Err(format!("{what}: only {} may come off", said(most)));
    }
    match there < most - tolerance {
        true => Err(format!("{what}: {} may come off, and {} is there", said(most), said(there))),
        false => Ok(()),
    }
}

/// The stile reaches past the end of its case by what may come off.
fn stile(
    packet: &Packet,
    boards: &[Board<'_>],
    own: &Scribe,
    tolerance: f64,
) -> Result<(), String> {
    let side = match own.side {
        Edge::Left => "left",
        Edge::Right => "right",
        Edge::Top | Edge::Bottom => return Err("a stile has no top".to_owned()),
    };
    let find = |what: &str| {
        let path = format!("{}.{side}-{what}", own.case);
        let is_it = |board: &&Board<'_>| {
            board.part.path == path || board.part.path.ends_with(&format!(".{path}"))
        };
        boards.iter().find(is_it).ok_or_else(|| format!("there is no {path}"))
    };
    let there = past(own.side, &placed(find("stile")?), &placed(find("end")?));
    enough(packet, &format!("the {side} stile of {}", own.case), [there, own.most.print], tolerance)
}

/// A filler is wider than what may come off, and stands off its case by no less.
fn filler(
    packet: &Packet,
    boards: &[Board<'_>],
    own: &FitFiller,
    tolerance: f64,
) -> Result<(), String> {
    let Some(most) = &own.most else { return Ok(()) };
    let strip = placed(called(boards, &own.part)?);
    let end = placed(called(boards, &own.through)?);
    let there = past(Edge::Left, &strip, &end).max(past(Edge::Right, &strip, &end));
    enough(packet, &own.part, [there, most.print], tolerance)
}

/// The end of a countertop reaches past what it lies on by what may come off.
fn countertop(
    packet: &Packet,
    boards: &[Board<'_>],
    (part, own): (&str, &ScribedEnd),
    tolerance: f64,
) -> Result<(), String> {
    let top = placed(called(boards, part)?);
    let under = boards.iter().filter(|board| {
        let path = &board.part.path;
        let is_end = path.ends_with(".left-end") || path.ends_with(".right-end");
        let space = placed(board);
        is_end && space[1][1] <= top[1][0] + NOTHING && space[0][0] < top[0][1]
    });
    let there = under.map(|end| past(own.side, &top, &placed(end))).fold(f64::MAX, f64::min);
    enough(packet, part, [there, own.most.print], tolerance)
}

#[cfg(test)]
mod spoiled {
    use serde_json::{Value, json};

    use crate::bench::demos;
    use crate::bench::spoiled::{noticed, operation};
    use crate::support::{compile, spec};

    fn hutch() -> Value {
        let packet = demos::packet(&compile(&spec("heron-quay-hutch.case"))).unwrap();
        serde_json::from_str(&packet).unwrap()
    }

    fn broken_down<'a>(packet: &'a mut Value, mark: &str) -> &'a mut Value {
        let mut all = packet["operations"].as_array_mut().unwrap().iter_mut();
        all.find(|own| own["kind"] == "break down" && own["part"] == mark).unwrap()
    }

    /// Cut as drawn, as covers were before: nothing is left to scribe.
    #[test]
    fn a_cover_without_wood_to_scribe() {
        let bare = |packet: &mut Value| {
            operation(packet, "fit cover", 0).as_object_mut().unwrap().remove("scribed");
        };
        noticed(hutch(), bare, "no wood is left on it to scribe to the floor");
        let short = |packet: &mut Value| {
            broken_down(packet, "LCV")["size"][0] = json!({"exact": "33", "print": "33"});
            let mut all = packet["operations"].as_array_mut().unwrap().iter_mut();
            let mill = all.find(|own| {
                let is_it = |marks: &Vec<Value>| marks.iter().any(|mark| mark == "LCV");
                own["axis"] == "length" && own["parts"].as_array().is_some_and(is_it)
            });
            mill.unwrap()["to"] = json!({"exact": "33", "print": "33"});
        };
        noticed(hutch(), short, "LCV, left cover");
        let thin = |packet: &mut Value| {
            let left = json!({"exact": "1/16", "print": "1/16"});
            operation(packet, "fit cover", 0)["scribed"][0]["left"] = left;
        };
        noticed(hutch(), thin, "are there to scribe");
    }

    /// Cut as drawn, as kicks were before.
    #[test]
    fn a_kick_without_wood_to_scribe() {
        let bare = |packet: &mut Value| {
            let all = packet["operations"].as_array_mut().unwrap();
            all.retain(|own| own["kind"] != "scribe kick");
        };
        noticed(hutch(), bare, "KICK: no wood is left on it to scribe to the floor");
        let thin = |packet: &mut Value| {
            let left = json!({"exact": "1/16", "print": "1/16"});
            operation(packet, "scribe kick", 0)["scribed"][0]["left"] = left;
        };
        noticed(hutch(), thin, "are there to scribe");
    }

    #[test]
    fn screws_that_come_through_a_cover() {
        let long = |packet: &mut Value| {
            operation(packet, "fit cover", 0)["long"] = json!({"exact": "3/2", "print": "1-1/2"});
        };
        noticed(hutch(), long, "its screws are 1.5 long");
        let few = |packet: &mut Value| operation(packet, "fit cover", 0)["screws"] = json!(6);
        noticed(hutch(), few, "6 screws have 8 places");
    }

    #[test]
    fn a_stile_that_has_less_than_may_come_off() {
        let packet = demos::packet(&compile(&spec("hall-console.case"))).unwrap();
        let packet: Value = serde_json::from_str(&packet).unwrap();
        let more = |packet: &mut Value| {
            operation(packet, "scribe", 0)["most"] = json!({"exact": "1", "print": "1"});
        };
        noticed(packet, more, "1 may come off");
    }
}
