//! Bought legs: what holds each of them lies in its holes in the bottom, none of these comes
//! through, and the legs reach from the floor up to it, clear of all else.

use super::board::{Board, whole};
use super::figures::said;
use super::packet::{Face, LegsOn, Packet, Work};
use super::wood::{NOTHING, Space, common};

/// So much wood is left round a hole for a leg at least, in millimeters (common practice).
const ROUND: f64 = 9.0;

/// All legs that are fixed under cases.
fn legs(packet: &Packet) -> impl Iterator<Item = &LegsOn> {
    packet.operations.iter().filter_map(|operation| match &operation.work {
        Work::Legs(own) => Some(own),
        _ => None,
    })
}

/// True where a board stands on legs that reach up to it.
pub(super) fn stands(packet: &Packet, board: &Board<'_>) -> bool {
    let low = board.drawn.at[1].exact;
    legs(packet).any(|own| own.on == board.part.mark && (own.high.exact - low).abs() <= NOTHING)
}

/// What is wrong with the legs of a piece that stands.
pub(super) fn wrong(packet: &Packet, boards: &[Board<'_>], tolerance: f64) -> Vec<String> {
    let found = legs(packet).flat_map(|own| {
        let wrong = one(packet, boards, own, tolerance).into_iter();
        wrong.map(move |what| format!("legs under {}: {what}", own.on))
    });
    found.collect()
}

fn one(packet: &Packet, boards: &[Board<'_>], own: &LegsOn, tolerance: f64) -> Vec<String> {
    let Some(bottom) = boards.iter().find(|board| board.part.mark == own.on) else {
        return vec!["there is no such bottom".to_owned()];
    };
    let mut wrong = Vec::new();
    let faces = own.from.each_ref().map(|name| bottom.part.faces.find(name));
    let [Some(end), Some(edge)] = faces else {
        return vec!["their places count from no face of it".to_owned()];
    };
    // A place on the bottom, along both of its axes.
    let at = |[u, v]: [f64; 2]| {
        let from = |face: Face, at: f64| match face.is_end {
            true => bottom.exact[face.axis] - at,
            false => at,
        };
        (from(end, u), from(edge, v))
    };
    let place = |(u, v): (f64, f64), half: f64, thick: [f64; 2]| {
        let mut space = whole(bottom.exact);
        space[end.axis] = [u - half, u + half];
        space[edge.axis] = [v - half, v + half];
        space[3 - end.axis - edge.axis] = thick;
        bottom.placed(&space)
    };
    let placed = bottom.placed(&whole(bottom.exact));
    if (placed[1][0] - own.high.print).abs() > tolerance {
        wrong.push(format!("they leave it {} off their tops", said(placed[1][0] - own.high.print)));
    }
    if own.foot.print > 4.0 * own.wide.print {
        wrong.push("their feet are wider than they can be".to_owned());
    }
    let holes: Vec<(f64, f64, f64)> = packet
        .operations
        .iter()
        .filter_map(|operation| match &operation.work {
            Work::Bore(bore) if bore.part == own.on && bore.what == "leg hole" => Some(bore),
            _ => None,
        })
        .flat_map(|bore| {
            let counts = bore.from == own.from;
            let deep = if counts { bore.deep.print } else { f64::MAX };
            bore.centers.iter().map(move |[u, v]| (u.print, v.print, deep))
        })
        .collect();
    let (half, round) = (own.wide.print / 2.0, packet.job.unit.mm(ROUND));
    let thick = placed[1][1] - placed[1][0];
    for [u, v] in &own.centers {
        let (u, v) = (u.print, v.print);
        let mine = holes.iter().filter(|(x, y, _)| (x - u).abs() <= half && (y - v).abs() <= half);
        let mine: Vec<&(f64, f64, f64)> = mine.collect();
        if mine.len() != own.holes {
            wrong.push(format!("{} holes for the {} of one of them", mine.len(), own.holes));
        }
        for (x, y, deep) in mine {
            if *deep >= thick || (deep - own.deep.print).abs() > tolerance {
                wrong.push("a hole is not as deep as what goes into it, or comes through".into());
            }
            // Round every hole there is wood of the bottom, and nothing else below it.
            let [along, across] = [place(at([*x, *y]), round, [0.0, thick])]
                .map(|space| (space[0], space[2]))
                .into_iter()
                .flat_map(|(x, z)| [x, z])
                .collect::<Vec<_>>()[..]
            else {
                continue;
            };
            let within = |[from, to]: [f64; 2], [low, high]: [f64; 2]| {
                from >= low - tolerance && to <= high + tolerance
            };
            if !within(along, placed[0]) || !within(across, placed[2]) {
                wrong.push("a hole is too near the edge of the bottom".to_owned());
            }
            let under: Space = [along, [placed[1][0], placed[1][0] + own.deep.print], across];
            wrong.extend(
                met(boards, &under, own, tolerance)
                    .map(|name| format!("a hole is too near {name}")),
            );
        }
        let up = place(at([u, v]), half, [0.0, thick]);
        let leg: Space = [up[0], [0.0, placed[1][0]], up[2]];
        let stands = met(boards, &leg, own, tolerance);
        wrong.extend(stands.map(|name| format!("{name} is where one of them stands")));
    }
    let case = format!("{}.", own.case);
    let low = boards.iter().filter(|board| board.part.path.contains(&case));
    for board in low {
        let [_, [from, _], _] = board.placed(&whole(board.exact));
        if from < tolerance {
            wrong.push(format!("{} stands on the floor beside them", board.name()));
        }
    }
    wrong
}

/// The boards that share a space, besides the bottom itself.
fn met<'b>(
    boards: &'b [Board<'_>],
    space: &Space,
    own: &LegsOn,
    tolerance: f64,
) -> impl Iterator<Item = String> + 'b {
    let (space, on) = (*space, own.on.clone());
    boards.iter().filter(move |board| board.part.mark != on).filter_map(move |board| {
        // What a dado holds of the bottom lies in the end: a hole there finds two boards.
        let both = common(&space, &board.placed(&whole(board.exact)));
        let shares = both.is_some_and(|both| both.iter().all(|[from, to]| to - from > tolerance));
        shares.then(|| board.name())
    })
}

#[cfg(test)]
mod spoiled {
    use serde_json::{Value, json};

    use crate::bench::demos;
    use crate::bench::spoiled::{noticed, operation};
    use crate::support::{compile, spec};

    fn sideboard() -> Value {
        let shared = spec("shop.case").replace("units in", "");
        let text = spec("canal-row-sideboard.case").replace("use \"shop.case\"", &shared);
        let packet = demos::packet(&compile(&text)).unwrap();
        serde_json::from_str(&packet).unwrap()
    }

    #[test]
    fn a_leg_beside_its_holes() {
        let aside = |packet: &mut Value| {
            operation(packet, "legs on", 0)["centers"][0][0] = json!({"exact": "6", "print": "6"});
        };
        noticed(sideboard(), aside, "0 holes for the 4 of one of them");
    }

    #[test]
    fn legs_too_short_for_their_case() {
        let low = |packet: &mut Value| {
            operation(packet, "legs on", 0)["high"] = json!({"exact": "5", "print": "5"});
        };
        noticed(sideboard(), low, "they leave it 1 off their tops");
    }

    #[test]
    fn screws_longer_than_their_holes() {
        let long = |packet: &mut Value| {
            operation(packet, "legs on", 0)["deep"] = json!({"exact": "3/4", "print": "3/4"});
        };
        noticed(sideboard(), long, "a hole is not as deep as what goes into it");
    }
}
