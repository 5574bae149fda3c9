//! What is left of the cut list once some of it is done: trims first, then
//! what is still to be cut.

use std::fmt::Write as _;

use crate::model::Size;
use crate::parts::{Face, Part, PartId};
use crate::plans::ledger::{Differs, Dimension, Ledger, MoreJoints, Off, State};

use super::Source;
use super::measured;
use super::page::{Block, Table, left, right};
use super::words;

/// The day a part was cut: `2026-03-14`, `spoiled 2026-03-14`; empty for one
/// that is not cut.
pub(super) fn done(ledger: &Ledger<'_>, id: PartId) -> String {
    match ledger.state(id) {
        State::Uncut => String::new(),
        State::Cut(cut) => cut.date.to_string(),
        State::Spoiled(cut) => format!("spoiled {}", cut.date),
    }
}

/// Nothing as long as nothing is cut.
pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let ledger = source.work.ledger();
    if ledger.is_empty() {
        return Vec::new();
    }
    let all = source.work.parts.all.len();
    let rest: Vec<(PartId, &Part)> =
        source.work.parts.iter().filter(|(id, _)| !ledger.is_cut(*id)).collect();
    let trims = trims(source);
    let mut line = format!("{} of {} are cut", all - rest.len(), words::pieces(all));
    if !trims.rows.is_empty() {
        let _ =
            write!(line, ", and {} must be trimmed or worked on", words::pieces(trims.rows.len()));
    }
    let mut blocks = vec![Block::Heading("Still to cut".into()), Block::Note(format!("{line}."))];
    let then = if trims.rows.is_empty() { "these" } else { "then these" };
    if !trims.rows.is_empty() {
        blocks.push(Block::Setting {
            figure: String::new(),
            what: "trim these first; they are cut, and the drawing has changed".into(),
            more: Vec::new(),
        });
        blocks.push(Block::Table(trims));
    }
    let sawn: Vec<&str> = ledger.sawn().iter().map(|part| part.mark.as_str()).collect();
    if !sawn.is_empty() {
        blocks.push(Block::Note(format!(
            "Sawn to size, with the joints still to cut: {}.",
            sawn.join(", ")
        )));
    }
    if !rest.is_empty() {
        blocks.push(Block::Setting {
            figure: String::new(),
            what: format!("{then}; the settings are below"),
            more: Vec::new(),
        });
        blocks.push(Block::Table(left_over(source, &rest)));
    }
    blocks
}

fn trims<'a>(source: &Source<'_, 'a>) -> Table {
    let (ledger, figures) = (source.work.ledger(), &source.figures);
    let mut table = Table {
        columns: vec![left("mark").strong(), left("piece"), left("what to do"), left("cut on")],
        ..Table::default()
    };
    let mut tasks: Vec<(&'a Part, String, Vec<String>)> = Vec::new();
    let mut add = |part: &'a Part, date: String, task: String| match tasks
        .iter_mut()
        .find(|(known, ..)| known.key() == part.key())
    {
        Some((_, _, own)) => own.push(task),
        None => tasks.push((part, date, vec![task])),
    };
    for trim in ledger.trims() {
        let needs = trim.needs.length;
        let task = format!(
            "{} {} to {}: take {}",
            trim.dimension.word(),
            figures.text(trim.was),
            // The papers say it as fine as this where it is to be cut.
            match trim.to_blank {
                true => format!("{}{}", source.work.piece.tape().fine(needs), figures.mark(true)),
                false => figures.text(needs),
            },
            taken(source, &trim)
        );
        add(trim.part, trim.cut.date.to_string(), task);
    }
    for joints in ledger.more_joints() {
        add(joints.part, joints.cut.date.to_string(), lacking(&joints));
    }
    for (part, date, own) in tasks {
        table.rows.push(vec![
            part.mark.clone(),
            words::name(part, source.work.piece),
            own.join("; "),
            date,
        ]);
    }
    table
}

/// `cut now: dado, 2 hinge cups; make larger: groove; see its row below`
fn lacking(joints: &MoreJoints<'_>) -> String {
    if joints.to_make.is_empty() {
        let plural = if joints.more == 1 { "" } else { "s" };
        return format!(
            "{} more joint{plural} or bore{plural} than it was made with; see its row below",
            joints.more
        );
    }
    let told = [("cut now", false), ("make larger", true)].into_iter();
    let told = told.filter_map(|(say, larger)| Some(format!("{say}: {}", joints.listed(larger)?)));
    let told: Vec<String> = told.chain(["see its row below".to_owned()]).collect();
    told.join("; ")
}

/// `1 off the left end, 3 off the right end`, where joints that are made say
/// so: they keep their places.
fn taken(source: &Source<'_, '_>, trim: &Differs<'_>) -> String {
    let (figures, part) = (&source.figures, trim.part);
    let whole = trim.was - trim.needs.length;
    let side = match trim.dimension {
        Dimension::Length => "end",
        Dimension::Width => "edge",
        Dimension::Thickness => return format!("{} off{}", figures.text(whole), face(part, trim)),
    };
    match source.work.ledger().off(trim) {
        Off::Unknown => {
            let counted = trim.cut.joints.as_ref().is_some_and(|joints| joints.value > 0);
            let anew = if counted { ", then cut the joints that were there again" } else { "" };
            format!("{} off{anew}", figures.text(whole))
        }
        Off::Either => format!("{} off one {side}", figures.text(whole)),
        Off::Sides(both) => {
            // Rounded each by itself, both could come to more than the whole.
            let told = figures.spread(&both.map(|(_, off)| off)).into_iter().zip(both);
            let told: Vec<String> = told
                .filter(|(text, (_, off))| off.is_positive() && !text.starts_with("0~"))
                .map(|(text, (face, _))| format!("{text} off the {}", part.face_name(face)))
                .collect();
            told.join(", ")
        }
    }
}

/// Which face is planed, where joints keep their depth in the other.
fn face(part: &Part, trim: &Differs<'_>) -> String {
    let through = trim.cut.made.iter().filter_map(|made| made.space[2]);
    let ends = through.map(|(from, to)| (from.is_positive(), to >= trim.was));
    let (mut front, mut back, mut inside) = (false, false, false);
    for end in ends {
        match end {
            (false, _) => front = true,
            (true, true) => back = true,
            (true, false) => inside = true,
        }
    }
    match (front, back, inside) {
        (true, false, false) => format!(" the {}", part.face_name(Face::ThickEnd)),
        (false, true, false) => format!(" the {}", part.face_name(Face::ThickStart)),
        (false, false, true) => ", half of it off each face".to_owned(),
        _ => String::new(),
    }
}

fn left_over(source: &Source<'_, '_>, rest: &[(PartId, &Part)]) -> Table {
    let figures = &source.figures;
    let mut table = Table {
        columns: vec![
            left("mark").strong(),
            left("piece"),
            left("stock"),
            right("length"),
            right("width"),
            left(""),
        ],
        ..Table::default()
    };
    // Sheets first, as the list below has them.
    let mut rest: Vec<&(PartId, &Part)> = rest.iter().collect();
    let stock = |part: &Part| source.work.piece.stock(part.stock);
    rest.sort_by_key(|(id, part)| {
        (stock(part).is_some_and(crate::model::Stock::is_solid), part.stock, *id)
    });
    let blanks = measured::blanks(source);
    let sawn = |id: &PartId, is_width: bool, drawn: &Size| match blanks
        .get(id)
        .filter(|blank| blank.is_width == is_width)
    {
        Some(blank) => figures.mating_of(blank.size, true),
        None => figures.size(drawn, &source.work.piece.facts),
    };
    for (id, part) in rest {
        let again = match source.work.ledger().state(*id) {
            State::Spoiled(cut) => format!("again, because it was spoiled on {}", cut.date),
            _ => String::new(),
        };
        table.rows.push(vec![
            part.mark.clone(),
            words::name(part, source.work.piece),
            stock(part).map_or(String::new(), |stock| stock.name.clone()),
            sawn(id, false, &part.length),
            sawn(id, true, &part.width),
            again,
        ]);
    }
    table
}
