//! The router-jig set-up sheet.

mod feed;
mod guided;
mod sawn;
mod support;

use std::fmt::Write as _;

use crate::diagnostics::listed;
use crate::measure::{Duration, Exact, Length, Unit};
use crate::model::Stock;
use crate::parts::FeatureKind;
use crate::plans::guide::Guide;
use crate::plans::setups::{CutLine, Run, Setup};
use crate::plans::{small_parts, torn};
use crate::trade;

use super::drawing::setup::{Told, drawing};
use super::page::{Block, Table, left, right};
use super::{Source, words};

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let setups = source.work.setups();
    if setups.is_empty() {
        return vec![Block::Note("Nothing in this piece is cut with the router.".into())];
    }
    let mut blocks = Vec::new();
    let mut note = format!(
        "{} set-ups, in the order that changes the bit least. Each has one guide. The first setting counts from the edge, end, or face that is named; left and right are as seen from the front.",
        setups.len()
    );
    if !setups.iter().all(Setup::is_sawn) {
        blocks.push(Block::Caution(format!(
            "Feed against the turn of the bit; never climb-cut by hand. A bit wider than {} runs in a router table only, never by hand. On the table feed from right to left, with featherboards and a push block. Unplug before you change a bit; three quarters of the shank in the collet. Eyes, ears, dust mask; dust of hardwoods can harm, so draw it off at the bit.",
            source.figures.text(trade::widest_by_hand(source.work.piece.tape().unit))
        )));
        let _ = write!(
            note,
            " A further setting counts from the same place, unless it says how far to move the guide. All settings hold for the bit in the heading over them, and those of a straight-edge for a base plate {} across. A straight-edge is clamped to one piece at a time: make all passes at both settings before you unclamp it, moving it over by the gauge block. On the router table make every pass on every piece at one setting before you move the fence.",
            source.figures.text(source.work.piece.shop.base_plate)
        );
    }
    blocks.push(Block::Note(note));
    let mut bit = None;
    for (number, setup) in setups.iter().enumerate() {
        let own = (setup.is_sawn(), setup.cutter.name.clone(), setup.cutter.diameter);
        if bit.as_ref() != Some(&own) {
            blocks.push(Block::Heading(cutter(source, setup)));
            if setup.is_sawn() {
                blocks.push(Block::Caution(sawn::CAUTION.to_owned()));
                blocks.push(Block::Note(sawn::note(source, setup)));
            } else if setup.cutter.name.is_none() {
                let wide = source.work.piece.tape().figure(setup.cutter.diameter);
                blocks.push(Block::Note(format!("These settings are made for a bit {wide} across, and for no other, unless a set-up says so. No bit of that width is entered for this shop: buy or borrow one, or have yours entered and print this sheet again.")));
            }
            blocks.extend(setup.cutter.notes.iter().cloned().map(Block::Note));
            bit = Some(own);
        }
        one(source, setup, number + 1, &mut blocks);
    }
    let total: Duration = setups
        .iter()
        .fold(Duration::default(), |sum, s| Duration(sum.0 + s.time.whole_minutes().0));
    blocks.push(Block::Note(made_of(source, setups, total)));
    blocks
}

/// What the time of all set-ups is made of, so that a shop that takes longer or
/// less sees where.
fn made_of(source: &Source<'_, '_>, setups: &[Setup], total: Duration) -> String {
    let shop = &source.work.piece.shop;
    let sum = |of: fn(&Setup) -> i64| setups.iter().map(of).sum::<i64>();
    let clampings = sum(|setup| setup.effort.clampings);
    let passes = sum(|setup| setup.effort.passes);
    let mut made = vec![format!("{} to change each set-up", shop.set_up)];
    if clampings > 0 {
        made.push(format!(
            "{} for each of the {clampings} times that a guide or jig is moved and clamped",
            shop.times.clamping
        ));
    }
    if passes > 0 {
        made.push(format!(
            "{} for each of the {passes} times that a piece goes over {}",
            shop.times.pass,
            match (setups.iter().any(Setup::is_sawn), setups.iter().any(Setup::is_on_table)) {
                (true, true) => "the saw or the router table",
                (true, false) => "the saw",
                (false, _) => "the router table",
            }
        ));
    }
    let feeding = setups.iter().fold(Exact::ZERO, |sum, setup| sum + setup.effort.feeding.0);
    made.push(format!(
        "and {} of {} at a feed of {} a minute",
        Duration(feeding).whole_minutes(),
        if setups.iter().all(Setup::is_sawn) {
            "sawing"
        } else if setups.iter().any(Setup::is_sawn) {
            "sawing and routing"
        } else {
            "routing"
        },
        source.figures.text(shop.feed)
    ));
    format!(
        "All set-ups together: about {total}. That counts {}. Where your shop takes longer or less, give its own times, and print this sheet again.",
        made.join(", ")
    )
}

fn cutter(source: &Source<'_, '_>, setup: &Setup) -> String {
    let figures = &source.figures;
    if setup.is_sawn() {
        return sawn::blade(source, setup);
    }
    let speed = setup.cutter.speed.map(|speed| format!(": at most {speed} rpm"));
    let speed = speed.unwrap_or_default();
    match &setup.cutter.name {
        Some(name) => {
            let diameter = source.work.piece.tape().figure(setup.cutter.diameter);
            let shank = setup.cutter.shank.map(|shank| format!(", shank {}", figures.text(shank)));
            format!("Bit {name}, {diameter}{}{speed}", shank.unwrap_or_default())
        }
        None => {
            let diameter = source.work.piece.tape().figure(setup.cutter.diameter);
            format!("Straight bit {diameter} across{speed}")
        }
    }
}

/// What the flutes of a set-up do to the faces they are cut into: the width of
/// one, what they add to the surface to finish, what they take of the wood.
fn ornament(source: &Source<'_, '_>, setup: &Setup) -> Option<String> {
    let FeatureKind::Flute(_) = setup.kind else { return None };
    let wide = setup.lines.first()?.wide;
    let arc = trade::flute_arc(setup.cutter.diameter, setup.deep);
    let section = trade::flute_area(setup.cutter.diameter, setup.deep);
    let area = |a: Length, b: Length| a.in_unit(Unit::Millimetre) * b.in_unit(Unit::Millimetre);
    let (mut faces, mut wood, mut run) = (Exact::ZERO, Exact::ZERO, Length::ZERO);
    for piece in &setup.runs {
        let Some(part) = source.work.parts.get(piece.part) else { continue };
        let face = area(part.length.length, part.width.length);
        faces += face;
        wood += face * part.thickness.length.in_unit(Unit::Millimetre);
        run += piece.length;
    }
    if !faces.is_positive() || !wood.is_positive() {
        return None;
    }
    let more = area(arc - wide, run) / faces * Exact::int(100);
    let less = section * run.in_unit(Unit::Millimetre) / wood * Exact::int(100);
    Some(format!(
        "each {} wide; they add {} % to the surface to finish and take {} % of the wood",
        source.figures.text(wide),
        more.ceil(),
        less.round()
    ))
}

fn one(source: &Source<'_, '_>, setup: &Setup, number: usize, blocks: &mut Vec<Block>) {
    let Some(first) = setup.lines.first() else { return };
    blocks.push(setting(source, setup, first, number));
    let told = told(source, setup, first);
    if let Some(part) = setup.runs.first().and_then(|run| source.work.parts.get(run.part)) {
        let told = Told { first: &told.0, then: &told.1 };
        let hatching = format!("set-up-{number}");
        let svg = drawing(setup, part, &source.figures, &told, hatching);
        let caption = format!("set-up {number} on {}, not to scale", part.mark);
        blocks.push(Block::Drawing { svg, caption, small: true });
    }
    if setup.guided.is_none() {
        blocks.push(Block::Table(lines(source, setup)));
    }
    blocks.push(Block::Table(pieces(source, setup)));
    blocks.push(Block::Proof(vec![proof(source, setup, first)]));
}

/// How parts are held on the router table that are crosscut from one stick by then and
/// are too short for a hand.
fn held_between(source: &Source<'_, '_>, setup: &Setup) -> Option<String> {
    let Source { work, .. } = source;
    if setup.guided.as_ref().is_none_or(|guided| guided.guide != Guide::Table) {
        return None;
    }
    let crosscut = setup.runs.iter().filter(|run| run.stick.is_none());
    let parts = crosscut.filter_map(|run| work.parts.get(run.part));
    let short = parts.filter(|part| small_parts::is_short(work.piece, part));
    let mut marks: Vec<&str> = short.map(|part| part.mark.as_str()).collect();
    marks.dedup();
    (!marks.is_empty()).then(|| {
        format!(
            "{} came off one stick and are short by now: push each one with a block behind it and a scrap of its thickness in front, never with your fingers beside the bit",
            marks.join(", ")
        )
    })
}

/// The edges that are seen where the bit comes out, and the pieces on which it does.
fn torn_edges(source: &Source<'_, '_>, setup: &Setup) -> Vec<String> {
    let work = &source.work;
    let mut found: Vec<(String, Vec<&str>)> = Vec::new();
    for run in &setup.runs {
        let Some(part) = work.parts.get(run.part) else { continue };
        let Some(face) = torn::backed(work, setup, run) else { continue };
        let name = part.face_name(face);
        match found.iter_mut().find(|(known, _)| *known == name) {
            Some((_, marks)) => marks.push(&part.mark),
            None => found.push((name, vec![&part.mark])),
        }
    }
    let line = |(face, marks): (String, Vec<&str>)| {
        format!(
            "clamp scrap against the {face} of {}: the bit comes out there, and it tears an edge that is seen",
            listed(&marks)
        )
    };
    found.into_iter().map(line).collect()
}

/// True where a cut runs out across the grain of solid wood.
fn breaks_out(source: &Source<'_, '_>, setup: &Setup) -> bool {
    let work = &source.work;
    let solid = |run: &Run| {
        let stock = work.parts.get(run.part).and_then(|part| work.piece.stock(part.stock));
        stock.is_some_and(Stock::is_solid)
    };
    !setup.along && setup.runs.iter().any(solid)
}

/// What the drawing repeats: the first place of the guide, and how it goes on; of
/// flutes, the first center and the straight-edge for it.
fn told(source: &Source<'_, '_>, setup: &Setup, first: &CutLine) -> (String, String) {
    match &setup.guided {
        Some(guided) => {
            let settings = guided::settings(source, setup, guided);
            match settings.split_once(", ") {
                Some((first, then)) => (first.to_owned(), then.to_owned()),
                None => (settings, String::new()),
            }
        }
        None => {
            let center = first.from + first.wide.half();
            let edge = center + source.work.piece.shop.base_plate.half();
            (source.figures.text(center), source.figures.text(edge))
        }
    }
}

/// The large figure, and all that is set before the first cut.
fn setting(source: &Source<'_, '_>, setup: &Setup, first: &CutLine, number: usize) -> Block {
    let text = |length: Length| source.figures.text(length);
    let datum = &setup.datum;
    let along = first.from.is_zero();
    let (figure, what, led) = match &setup.guided {
        Some(guided) => guided::guided(source, setup, guided, along),
        None => {
            let count = setup.lines.len();
            let place = first.from + first.wide.half() + source.work.piece.shop.base_plate.half();
            let what = format!("straight-edge, from the {datum}, for the first of {count} flutes");
            let scrap =
                "clamp scrap of the same thickness behind the piece where the bit comes out"
                    .to_owned();
            let mut led = vec![scrap];
            if breaks_out(source, setup) {
                led.push("the flutes run across the grain of solid wood: the last pass is light; feed it slowly, or the wood tears out beside them".to_owned());
            }
            (text(place), what, led)
        }
    };
    let mut more = vec![cut(source, setup, first)];
    more.extend(led);
    more.extend(support::supports(source, setup));
    more.extend(held_between(source, setup));
    if setup.is_in_sticks() {
        more.push("what is listed as a stick is cut whole, in all its length, and crosscut after that; its pieces are turned over or end for end until the cut lies in each as the cut list has it".to_owned());
    }
    if setup.is_sawn() && breaks_out(source, setup) {
        more.push("it runs across the grain of solid wood: back the edge where the blade comes out with scrap, or that edge breaks out".to_owned());
    } else if setup.guided.is_some() && breaks_out(source, setup) {
        more.push("it runs across the grain of solid wood: clamp scrap against the edge where the bit comes out, or that edge breaks out".to_owned());
    } else {
        more.extend(torn_edges(source, setup));
    }
    if is_stopped(setup) {
        more.push("the cut is stopped: feed each piece as its line below says, and pencil on its face where the cut ends, so far from the edge or end that the line names; the run is its length in the finished piece".to_owned());
        if setup.guided.is_some() {
            more.push("chisel the rounded end of a stopped cut square".to_owned());
        }
    }
    let passes: Vec<String> =
        setup.passes.iter().map(|pass| source.figures.mating(*pass)).collect();
    let each = match &setup.guided {
        Some(guided) if guided.settings.len() > 1 => " at each setting",
        _ => "",
    };
    more.push(match passes.as_slice() {
        [only] if setup.is_sawn() => {
            format!("blade {only} above the table, or above the floor of the sled")
        }
        [only] => format!("one pass{each}, depth {only}"),
        many => format!("{} passes{each}: set the depth to {}", many.len(), many.join(", then ")),
    });
    more.extend(ornament(source, setup));
    Block::Setting { figure, what: format!("set-up {number}: {what}"), more }
}

/// What is cut, how wide and deep, into which face and where in it.
fn cut(source: &Source<'_, '_>, setup: &Setup, first: &CutLine) -> String {
    let text = |length: Length| source.figures.text(length);
    let kind = setup.kind.word_along(setup.guided.is_some() && first.from.is_zero());
    let datum = &setup.datum;
    let face = face(source, setup);
    let deep = source.figures.mating(setup.deep);
    if setup.guided.is_none() {
        return format!("{kind} {deep} deep in the {face}");
    }
    let wide = source.figures.mating(first.wide);
    match first.from.is_zero() {
        true => format!("{kind} {wide} wide and {deep} deep along the {datum}, in the {face}"),
        false => format!(
            "{kind} {wide} wide and {deep} deep in the {face}; its near side lies {} from the {datum}",
            text(first.from)
        ),
    }
}

/// The face that is cut, or that each piece names its own below.
fn face(source: &Source<'_, '_>, setup: &Setup) -> String {
    match has_faces(source, setup) {
        true => format!("{} that is named below", setup.face.noun()),
        false => setup.face_name.clone(),
    }
}

/// Stiles and rails of a door are grooved in one go, each in another edge; an end
/// and a partition each in another face.
fn has_faces(source: &Source<'_, '_>, setup: &Setup) -> bool {
    let face_of = |run: &Run| source.work.parts.get(run.part).map(|part| part.face_name(run.face));
    setup.runs.iter().any(|run| face_of(run).as_ref() != Some(&setup.face_name))
}

/// True where the cut of a piece does not run out at both its ends.
fn is_stopped(setup: &Setup) -> bool {
    setup.runs.iter().any(|run| run.stops != (Length::ZERO, Length::ZERO))
}

/// The flutes, line by line.
fn lines(source: &Source<'_, '_>, setup: &Setup) -> Table {
    let mut lines = Table {
        columns: vec![right("line").strong(), right("center"), right("straight-edge").strong()],
        ..Table::default()
    };
    let half = source.work.piece.shop.base_plate.half();
    for (line, channel) in setup.set_lines().iter().enumerate() {
        let center = channel.from + channel.wide.half();
        let guide = source.figures.text(center + half);
        lines.rows.push(vec![(line + 1).to_string(), source.figures.text(center), guide]);
    }
    let once = match setup.lines.len() % 2 {
        0 => "",
        _ => "; the last one is the middle, and one cut makes it",
    };
    let spacer = pitch(setup).map_or_else(String::new, |pitch| {
        format!(
            "; from line to line the straight-edge moves by {}: step it with a spacer of that width by the calipers, not by the tape, so that the lands come out alike",
            source.figures.mating(pitch)
        )
    });
    lines.foot = format!(
        "both figures count from the {}; the straight-edge stands on the far side of the cut, on the left of the router as you push it; each distance serves twice: set it off from the {}, and then from the {}{once}{spacer}",
        setup.datum,
        setup.datum,
        across_from(source, setup)
    );
    lines
}

/// From the center of a flute to that of the next, where all are so far apart.
fn pitch(setup: &Setup) -> Option<Length> {
    let center = |line: &CutLine| line.from + line.wide.half();
    let steps = setup.lines.windows(2).map(|pair| center(&pair[1]) - center(&pair[0]));
    let mut steps = steps.map(Length::abs);
    let first = steps.next()?;
    steps.all(|step| step == first).then_some(first)
}

/// The edge or end across from the datum.
fn across_from(source: &Source<'_, '_>, setup: &Setup) -> String {
    let name = |run: &Run| {
        let part = source.work.parts.get(run.part)?;
        Some(part.face_name(run.datum(part)?.opposite()))
    };
    let mut names: Vec<String> = setup.runs.iter().filter_map(name).collect();
    names.dedup();
    match names.as_slice() {
        [only] => only.clone(),
        _ => "side across from it".to_owned(),
    }
}

/// The pieces that are cut at this setting.
fn pieces(source: &Source<'_, '_>, setup: &Setup) -> Table {
    let text = |length: Length| source.figures.text(length);
    let faces = has_faces(source, setup);
    let stopped = is_stopped(setup);
    let is_sawn = setup.is_sawn();
    let mut columns = vec![left("mark").strong(), left("piece"), right("run")];
    if faces {
        columns.push(left(setup.face.noun()));
    }
    if stopped {
        columns.push(left("feed").below());
    }
    if is_sawn {
        columns.push(left("push"));
    }
    let mut table = Table { columns, ..Table::default() };
    for run in setup.led() {
        let Some(part) = source.work.parts.get(run.part) else { continue };
        let (mark, name) = match run.stick.and_then(|_| source.work.sticks().of(run.part)) {
            None => (part.mark.clone(), words::name(part, source.work.piece)),
            Some(stick) => {
                let marks: Vec<&str> =
                    stick.parts.iter().map(|id| source.work.parts.mark(*id)).collect();
                (marks.join(" "), format!("stick of {}", words::pieces(marks.len())))
            }
        };
        let mut row = vec![mark, name, text(run.length)];
        if faces {
            row.push(part.face_name(run.face));
        }
        if stopped {
            row.push(feed::feed(part, run, setup, &source.figures));
        }
        if is_sawn {
            row.push(sawn::push(run).to_owned());
        }
        if source.work.ledger().is_made(run.part, &run.features) {
            table.ticked.insert(table.rows.len());
        }
        table.rows.push(row);
    }
    let runs: Vec<Length> = setup.led().map(|run| run.length).collect();
    let whole = source.figures.total(&runs);
    let pieces = words::pieces(setup.led().count());
    let cut = if is_sawn { "saw" } else { "rout" };
    table.foot = format!("{pieces}, {whole} to {cut} in all, about {}", setup.time.whole_minutes());
    table
}

/// What a test cut must show before the first piece is cut.
fn proof(source: &Source<'_, '_>, setup: &Setup, first: &CutLine) -> String {
    let text = |length: Length| source.figures.text(length);
    let deep = source.figures.mating(setup.deep);
    if setup.guided.is_none() {
        format!("a test cut in scrap is {} wide and {deep} deep", text(first.wide))
    } else if first.from.is_zero() {
        format!("a test cut in scrap is {deep} deep, and the mating part lies flush in it")
    } else {
        format!(
            "a test cut in scrap is {deep} deep and {} from the {}, and the mating part slides in by hand",
            text(first.from),
            setup.datum
        )
    }
}
