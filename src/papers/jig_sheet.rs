//! The router-jig set-up sheet.

use crate::measure::{Duration, Exact, Length, Unit};
use crate::parts::FeatureKind;
use crate::plans::setups::{self, Setup};
use crate::trade;

use super::drawing::setup::drawing;
use super::page::{Block, Table, left, right};
use super::{Source, words};

pub(super) fn blocks(source: &Source<'_>) -> Vec<Block> {
    let setups = source.setups;
    if setups.is_empty() {
        return vec![Block::Note("Nothing in this piece is cut with the router.".into())];
    }
    let mut blocks = vec![
        Block::Caution("Feed against the turn of the bit; never climb-cut by hand. A bit wider than 1 in (25 mm) runs in a router table only, never by hand. Unplug before you change a bit; three quarters of the shank in the collet. Eyes, ears, dust mask; dust of hardwoods can harm, so draw it off at the bit.".into()),
        Block::Note(format!("{} set-ups, in the order that changes the bit least. Every distance counts from the one edge or end that is named, never from the cut before. With a straight-edge, the figure holds for a base plate {} across.", setups.len(), source.figures.text(source.piece.shop.base_plate))),
    ];
    let mut bit = None;
    for (number, setup) in setups.iter().enumerate() {
        let own = (setup.cutter.name.clone(), setup.cutter.diameter);
        if bit.as_ref() != Some(&own) {
            blocks.push(Block::Heading(cutter(source, setup)));
            blocks.extend(setup.cutter.notes.iter().cloned().map(Block::Note));
            bit = Some(own);
        }
        one(source, setup, number + 1, &mut blocks);
    }
    let total: Duration =
        setups.iter().fold(Duration::default(), |sum, s| Duration(sum.0 + s.time.0));
    blocks.push(Block::Note(format!(
        "All set-ups together: about {total} at a feed of {} a minute and {} for each change.",
        source.figures.text(source.piece.shop.feed),
        source.piece.shop.set_up
    )));
    blocks
}

fn cutter(source: &Source<'_>, setup: &Setup) -> String {
    let figures = &source.figures;
    match (&setup.cutter.name, setup.kind) {
        (Some(name), _) => {
            let diameter = figures.text(setup.cutter.diameter);
            let shank = setup.cutter.shank.map(|shank| format!(", shank {}", figures.text(shank)));
            format!(
                "Bit {name}, {diameter}{}: at most {} turns a minute",
                shank.unwrap_or_default(),
                setup.cutter.speed
            )
        }
        (None, _) => format!(
            "Straight bit no wider than {}: at most {} turns a minute",
            figures.at_most(setup.cutter.diameter),
            setup.cutter.speed
        ),
    }
}

/// What the flutes of a set-up do to the faces they are cut into: the width of
/// one, what they add to the surface to finish, what they take of the wood.
fn ornament(source: &Source<'_>, setup: &Setup) -> Option<String> {
    let FeatureKind::Flute(_) = setup.kind else { return None };
    let wide = setup.lines.first()?.wide;
    let arc = trade::flute_arc(setup.cutter.diameter, setup.deep);
    let section = trade::flute_area(setup.cutter.diameter, setup.deep);
    let area = |a: Length, b: Length| a.in_unit(Unit::Millimetre) * b.in_unit(Unit::Millimetre);
    let (mut faces, mut wood, mut run) = (Exact::ZERO, Exact::ZERO, Length::ZERO);
    for piece in &setup.runs {
        let Some(part) = source.parts.get(piece.part) else { continue };
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

fn one(source: &Source<'_>, setup: &Setup, number: usize, blocks: &mut Vec<Block>) {
    let figures = &source.figures;
    let text = |length: Length| figures.text(length);
    let Some(first) = setup.lines.first() else { return };
    let flutes = matches!(setup.kind, FeatureKind::Flute(_));
    let along = first.from.is_zero() && !flutes;
    let (figure, from) = if flutes {
        let centre = text(first.from + first.wide.half());
        let count = setup.lines.len();
        (centre, format!("from the {} to the centre of the first of {count} flutes", setup.datum))
    } else if along {
        (text(first.wide), format!("{} this wide along the {}", setup.kind.word(), setup.datum))
    } else {
        let near =
            format!("from the {} to the near side of the {}", setup.datum, setup.kind.word());
        (text(first.from), near)
    };
    let mut more = vec![format!(
        "{} {}{} deep in the {}",
        setup.kind.word(),
        if flutes { String::new() } else { format!("{} wide, ", text(first.wide)) },
        text(setup.deep),
        setup.face_name
    )];
    let passes: Vec<String> = setup.passes.iter().map(|pass| text(*pass)).collect();
    more.push(match passes.as_slice() {
        [only] => format!("one pass, depth {only}"),
        many => format!("{} passes: set the depth to {}", many.len(), many.join(", then ")),
    });
    more.extend(ornament(source, setup));
    let strokes = setups::strokes(setup);
    if strokes > 1 {
        let shift = first.wide - setup.cutter.diameter;
        more.push(format!("wider than the bit: first along this setting, last with the guide moved {} away from the datum", text(shift)));
    }
    if !flutes && setup.face.is_broad() {
        let side = if setup.guide_beyond { "beyond the cut" } else { "before the cut" };
        more.push(format!("straight-edge {} from the {}, {side}", text(setup.guide), setup.datum));
    }
    blocks.push(Block::Setting { figure, what: format!("{number}. {from}"), more });
    if let Some(part) = setup.runs.first().and_then(|run| source.parts.get(run.part)) {
        let svg = drawing(setup, part, figures);
        let caption = format!("set-up {number} on {}, to scale", part.mark);
        blocks.push(Block::Drawing { svg, caption, small: true });
    }
    if flutes {
        let mut lines = Table {
            columns: vec![right("line").strong(), right("centre from the datum").strong()],
            ..Table::default()
        };
        for (line, channel) in setup.lines.iter().enumerate() {
            lines.rows.push(vec![(line + 1).to_string(), text(channel.from + channel.wide.half())]);
        }
        lines.foot = format!(
            "all from the {}; the last line lies as far from the other edge as the first from this",
            setup.datum
        );
        blocks.push(Block::Table(lines));
    }
    let stopped = setup.runs.iter().any(|run| run.stop.is_positive());
    let mut columns = vec![left("mark").strong(), left("piece"), right("run")];
    if stopped {
        columns.push(left("begin"));
    }
    let mut table = Table { columns, ..Table::default() };
    for run in &setup.runs {
        let Some(part) = source.parts.get(run.part) else { continue };
        let mut row = vec![part.mark.clone(), words::name(part), text(run.length)];
        if stopped {
            let begin = match run.stop.is_positive() {
                true => {
                    let start = part.face_name(setup.face.ends_of_run(setup.along).0);
                    format!("stopped {} in from the {start}", text(run.stop))
                }
                false => "at the edge".to_owned(),
            };
            row.push(begin);
        }
        if source.ledger.is_made(run.part, &run.features) {
            table.ticked.insert(table.rows.len());
        }
        table.rows.push(row);
    }
    let whole: Length = setup.runs.iter().map(|run| run.length).sum();
    let pieces = words::pieces(setup.runs.len());
    table.foot =
        format!("{pieces}, {} of run in all, about {}", text(whole), setup.time.whole_minutes());
    blocks.push(Block::Table(table));
    blocks.push(Block::Proof(vec![if flutes {
        format!("a test cut in scrap is {} wide and {} deep", text(first.wide), text(setup.deep))
    } else if along {
        format!(
            "a test cut in scrap takes its part without force, {} wide and {} deep",
            text(first.wide),
            text(setup.deep)
        )
    } else {
        format!(
            "a test cut in scrap takes its part without force, {} deep, {} from the {}",
            text(setup.deep),
            text(first.from),
            setup.datum
        )
    }]));
}
