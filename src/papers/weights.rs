//! What is lifted, what it weighs, and whether it stands.

mod borne;

use std::collections::BTreeMap;

use crate::checks;
use crate::diagnostics::listed;
use crate::measure::{Exact, Length, Mass, Scale, Tape, Unit};
use crate::model::{Opening, Piece, StockId};
use crate::parts::Cuboid;
use crate::plans::Workings;
use crate::plans::weights::{Body, Lifted, Weights, later, name};
use crate::trade::{self, Carry};

use super::Source;
use super::measured;
use super::page::{Block, Table, Ticks, left, right};
use super::words;

/// The heaviest parts that are listed.
const HEAVIEST: usize = 8;

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let figures = &source.figures;
    let weights = source.work.weights();
    let mut blocks = vec![
        Block::Note(basis(source)),
        Block::Note("Hardware, glue, and finish come on top. Allow a tenth more, and weigh it where the exact weight matters.".into()),
        Block::Caution(lifting(source)),
    ];
    blocks.extend(guessed(source, weights));
    let (groups, whole) = groups(source.work);
    let mut sums = Vec::new();
    blocks.push(Block::Heading("What you lift".into()));
    for group in &groups {
        let mut own = Vec::new();
        let mut table = Table {
            columns: vec![right("weight").strong(), left("what"), right("people needed")],
            ticks: Ticks::None,
            ..Table::default()
        };
        for Line { lifted, name, body, shown: weight } in &group.lines {
            let people = match weights.carry(lifted) {
                Carry::People(count) => count.to_string(),
                Carry::Gear => "strap, dolly, or split".to_owned(),
            };
            own.push(weight.as_str());
            let mark = figures.mark(body.measured);
            table.rows.push(vec![format!("{weight}{mark}"), name.clone(), people]);
        }
        let sum = added(own.into_iter());
        let mark = figures.mark(group.lines.iter().any(|line| line.body.measured));
        table.foot = format!("{}: {sum}{mark}", group.name);
        sums.push(format!("{sum}{mark} {}", group.name));
        blocks.push(Block::Table(table));
    }
    let all = weights.whole();
    let mark = figures.mark(all.measured);
    let is_one = source.work.piece.cases.len() == 1;
    let carried = match weights.carry_whole() {
        _ if source.work.piece.stands_apart() => " Each piece is carried by itself.".to_owned(),
        // Cases come together only where they stay.
        Carry::People(_) if !is_one => String::new(),
        Carry::People(1) => " One person can lift it in one piece.".to_owned(),
        Carry::People(count) => format!(" {count} people can lift it in one piece."),
        Carry::Gear if !is_one => " Move what is too heavy for three people on straps or a dolly.".to_owned(),
        Carry::Gear => " No team should lift it in one piece: carry it in the parts above, and move what is too heavy for three people on straps or a dolly.".to_owned(),
    };
    blocks.push(Block::Note(format!("The whole weighs {whole}{mark}.{carried}")));
    heaviest(source, weights, &mut blocks);
    balance(source, weights, &mut blocks);
    tips(source, weights, &mut blocks);
    borne::hung(source, &mut blocks);
    borne::stacked(source, &mut blocks);
    blocks.push(Block::Proof(vec![
        format!("the tables add up: {} = {whole}{mark}", sums.join(" + ")),
        "the heaviest item, on a bathroom scale, is within a tenth of its figure".to_owned(),
    ]));
    blocks
}

/// How much people lift; of teams only where something asks for one.
fn lifting(source: &Source<'_, '_>) -> String {
    let scale = Scale::of(source.work.piece.tape());
    let (one, [two, three]) =
        (scale.both(trade::one_person()), trade::team().map(|team| scale.both(team)));
    let far = match source.work.piece.tape().unit {
        Unit::Inch => "24 in or 600 mm",
        Unit::Foot | Unit::Millimetre | Unit::Centimetre | Unit::Metre => "600 mm or 24 in",
    };
    let bulky = scale.both(trade::one_person_at(Length::mm(600)));
    let alone = format!(
        "One person should lift no more than {one}, and only close to the body, at hand height, on a clear floor, now and then (NIOSH lifting equation). What is bulky is held farther from the body: of a case that is {far} at its thinnest one person lifts {bulky}, and less from the floor. The people below are counted so, with a tenth on top for hardware, glue, and finish."
    );
    match source.work.weights().carry_whole() {
        Carry::People(1) => alone,
        Carry::People(_) | Carry::Gear => format!(
            "{alone} Two people lift no more than {two} together and three no more than {three}, because a team never shares a weight evenly. Take out doors, drawers, and loose shelves before you carry anything. Use straps, and get a second pair of hands on every stair."
        ),
    }
}

/// What is lifted as one, with its weight as it is printed, and that of the whole:
/// the sum of what is printed.
#[must_use]
pub fn lifted(work: &Workings<'_>) -> (Vec<(Lifted, String)>, String) {
    let (groups, whole) = groups(work);
    let lines = groups.into_iter().flat_map(|group| group.lines);
    (lines.map(|line| (line.lifted, line.shown)).collect(), whole)
}

/// What is lifted, of one kind.
pub(super) struct Group {
    /// The kind.
    pub(super) name: &'static str,
    pub(super) lines: Vec<Line>,
}

/// One thing that is lifted.
pub(super) struct Line {
    lifted: Lifted,
    pub(super) name: String,
    pub(super) body: Body,
    /// Its weight as it is printed, so that all of them add up to the whole.
    pub(super) shown: String,
}

/// At which moisture everything is weighed, and what that makes at the moisture
/// that the gaps are worked out from.
fn basis(source: &Source<'_, '_>) -> String {
    let moisture = source.work.climate().milled.moisture;
    let mark = measured::air(source);
    let by = trade::lighter_at(moisture).round();
    let beside = match by {
        0.0 => "they weigh as much".to_owned(),
        more if more < 0.0 => format!("they weigh about {:.0} % more", -more),
        less => format!("they weigh about {less:.0} % less"),
    };
    let basis = trade::BASIS;
    let mut text = format!(
        "These weights are for the wood only, from the volume of every part. Solid wood and sheets are all taken at {basis} % moisture, as most specific gravities are published (Wood Handbook, Tables 5-3b and 12-1). At the {moisture:.1}{mark} % that the wood is milled at, {beside}."
    );
    // Whoever lifts it must know which gravity stands on no table.
    let mut other: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    let work = source.work;
    let stocks = (0..).map(StockId).zip(&work.piece.stocks);
    for (_, stock) in stocks.filter(|(id, stock)| stock.is_solid() && work.parts.uses(*id)) {
        let wood = stock.species.as_deref().and_then(trade::species_named);
        let own = wood.filter(|wood| stock.gravity == Some(wood.wood.gravity) && !wood.is_usual());
        if let Some(wood) = own {
            let names = other.entry(wood.gravity_from()).or_default();
            if !names.contains(&wood.name) {
                names.push(wood.name);
            }
        }
    }
    for (from, names) in other {
        text.push_str(&format!(" The gravity of {} is {from}.", listed(&names)));
    }
    text
}

/// Everything that is lifted, kind by kind, and what it comes to.
pub(super) fn groups(work: &Workings<'_>) -> (Vec<Group>, String) {
    let (piece, weights) = (work.piece, work.weights());
    let case = |id| piece.case(id).map_or("", |case| case.name.as_str());
    let mut groups = [
        ("cases without doors and drawers", Vec::new()),
        ("loose shelves", Vec::new()),
        ("parts added on site", Vec::new()),
        ("separate bases", Vec::new()),
        ("countertops", Vec::new()),
        ("doors", Vec::new()),
        ("drawers with their fronts", Vec::new()),
    ]
    .map(|(name, lines)| Group { name, lines });
    let [cases, shelves, covers, bases, countertops, doors, drawers] = &mut groups;
    let mut all: Vec<(Lifted, String, Body)> = weights
        .lifted
        .iter()
        .map(|(lifted, body)| (*lifted, called(piece, *lifted), *body))
        .collect();
    all.sort_by(|a, b| (a.0.case(), &a.1).cmp(&(b.0.case(), &b.1)));
    for (lifted, name, body) in all {
        let line = |name| Line { lifted, name, body, shown: String::new() };
        match lifted {
            Lifted::Case(_) => cases.lines.push(line(name)),
            Lifted::Shelves(id) => {
                shelves.lines.push(line(format!("loose shelves of {}", case(id))));
            }
            Lifted::Covers(id) => {
                let kinds = later(work.parts, id);
                covers.lines.push(line(format!("{kinds} of {}", case(id))));
            }
            Lifted::Base(id) => bases.lines.push(line(format!("base of {}", piece.base_named(id)))),
            Lifted::Countertop(_) => {
                countertops.lines.push(line(format!("countertop of {name}")));
            }
            Lifted::Door(_) => doors.lines.push(line(name)),
            Lifted::Drawer(_) => drawers.lines.push(line(name)),
        }
    }
    let mut groups: Vec<Group> =
        groups.into_iter().filter(|group| !group.lines.is_empty()).collect();
    let masses: Vec<Mass> =
        groups.iter().flat_map(|group| &group.lines).map(|line| line.body.mass()).collect();
    let (shown, whole) = Scale::of(piece.tape()).alike(&masses);
    let lines = groups.iter_mut().flat_map(|group| &mut group.lines);
    for (line, shown) in lines.zip(shown) {
        line.shown = shown;
    }
    (groups, whole)
}

/// What is lifted, as papers call it: `press, left door`.
fn called(piece: &Piece, lifted: Lifted) -> String {
    let title = |id| piece.opening(id).map_or("", Opening::title);
    match lifted {
        Lifted::Case(_)
        | Lifted::Shelves(_)
        | Lifted::Covers(_)
        | Lifted::Base(_)
        | Lifted::Countertop(_) => name(piece, lifted),
        Lifted::Door(front) => {
            format!("{}, {}", title(front.opening), front.leaf.word().replace('-', " "))
        }
        Lifted::Drawer(opening) => title(opening).to_owned(),
    }
}

/// The sum of figures to a tenth, as they are printed: `41.2 lb` and so on.
fn added<'a>(cells: impl Iterator<Item = &'a str>) -> String {
    let (mut tenths, mut unit) = (0i64, "");
    for cell in cells {
        let Some((figure, own)) = cell.split_once(' ') else { continue };
        tenths += figure.replace('.', "").parse::<i64>().unwrap_or(0);
        unit = own;
    }
    format!("{}.{} {unit}", tenths / 10, tenths % 10)
}

/// Stocks that nothing is known of.
fn guessed(source: &Source<'_, '_>, weights: &Weights) -> Option<Block> {
    let names: Vec<&str> = weights
        .guessed
        .iter()
        .filter_map(|index| source.work.piece.stocks.get(*index))
        .map(|stock| stock.name.as_str())
        .collect();
    (!names.is_empty()).then(|| {
        Block::Note(format!(
            "The weight of {} is not known, so a gravity of 0.{} is used. Have its wood entered, or its weight.",
            names.join(", "),
            trade::USUAL_GRAVITY / 100
        ))
    })
}

fn heaviest(source: &Source<'_, '_>, weights: &Weights, blocks: &mut Vec<Block>) {
    let scale = Scale::of(source.work.piece.tape());
    let mut order: Vec<usize> = (0..weights.parts.len()).collect();
    let grams = |index: &usize| weights.parts.get(*index).map_or(0, |body| body.grams);
    order.sort_by_key(|index| (std::cmp::Reverse(grams(index)), *index));
    let mut table = Table {
        columns: vec![left("mark").strong(), left("part"), right("weight")],
        ticks: Ticks::None,
        ..Table::default()
    };
    for index in order.into_iter().take(HEAVIEST) {
        let (Some(part), Some(body)) = (source.work.parts.all.get(index), weights.parts.get(index))
        else {
            continue;
        };
        let weight = format!("{}{}", scale.text(body.mass()), source.figures.mark(body.measured));
        table.rows.push(vec![part.mark.clone(), words::name(part, source.work.piece), weight]);
    }
    blocks.push(Block::Heading("The heaviest parts".into()));
    blocks.push(Block::Table(table));
}

fn balance(source: &Source<'_, '_>, weights: &Weights, blocks: &mut Vec<Block>) {
    let tape = source.work.piece.tape();
    let mut table = Table {
        columns: vec![
            left("what").strong(),
            right("from the left"),
            right("up"),
            right("behind the front"),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    let mut row = |name: String, body: Body, space: Option<Cuboid>| {
        if let (Some(place), Some(space)) = (body.center(), space) {
            // What hangs, or comes onto another, is carried from its own underside.
            let from = [space.from.x, space.from.y, space.from.z];
            let center = [0, 1, 2].map(|axis| place[axis] - from[axis].to_mm_f64());
            let mut cells = vec![name];
            let mark = source.figures.mark(body.measured);
            cells.extend(center.map(|along| format!("{}{mark}", tape.text(near(along, tape)))));
            table.rows.push(cells);
        }
    };
    if !source.work.piece.stands_apart() {
        row("the whole, closed".into(), weights.whole(), weights.whole_space());
    }
    for case in &source.work.piece.cases {
        // A case is carried without its base, its covers, and its neighbors.
        let own = Lifted::Case(case.id);
        row(format!("{}, empty", case.name), weights.of(&own), weights.space(&own).copied());
    }
    table.foot =
        "measured from the left side, the underside, and the foremost edge of what is carried; put straps round it there"
            .into();
    blocks.push(Block::Heading("Where it balances".into()));
    blocks.push(Block::Table(table));
}

/// A place at the nearest mark of the tape: no wood is known more closely.
#[must_use]
pub fn near(mm: f64, tape: &Tape) -> Length {
    let exact = Length::mm(1) * Exact::ratio((mm * 100.0).round() as i64, 100);
    tape.print(exact).shown
}

fn tips(source: &Source<'_, '_>, weights: &Weights, blocks: &mut Vec<Block>) {
    let piece = source.work.piece;
    let scale = Scale::of(piece.tape());
    let plans = source.work.tipping();
    let mut table = Table {
        columns: vec![
            left("case").strong(),
            right("holds it back"),
            right("tips it"),
            right("margin"),
            left(""),
        ],
        ticks: Ticks::None,
        ..Table::default()
    };
    let loaded = plans.iter().any(|plan| plan.opens() && plan.load().is_some());
    if loaded {
        table.columns.insert(1, right("in its drawers"));
    }
    let mut tips = Vec::new();
    for plan in plans.iter().filter(|plan| plan.opens()) {
        let cases: Vec<&str> = plan
            .cases
            .iter()
            .filter_map(|id| piece.case(*id))
            .map(|case| case.name.as_str())
            .collect();
        let name = listed(&cases);
        let (holds, pulls) = plan.moments();
        let tenths = (holds.0 / pulls.0 * Exact::int(10)).floor();
        let verdict = if plan.tips() { "tips" } else { "stands" };
        if plan.tips() {
            tips.push(name.clone());
        }
        let bodies = plan.cases.iter().flat_map(|case| weights.of_case(*case));
        let mark = source.figures.mark(bodies.into_iter().any(|body| body.measured));
        let mut row = vec![
            name,
            format!("{}{mark}", scale.moments(&[holds]).1),
            format!("{}{mark}", scale.moments(&[pulls]).1),
            format!("{}.{}{mark}", tenths / 10, tenths % 10),
            verdict.to_owned(),
        ];
        if loaded {
            let load = plan.load().map_or(String::new(), |load| scale.alike(&[load]).1);
            row.insert(1, load);
        }
        table.rows.push(row);
    }
    if table.rows.is_empty() {
        return;
    }
    let tape = piece.tape();
    table.foot = match tape.unit {
        Unit::Inch => "pounds times inches about the front edge of what it stands on; a margin under 1.0 tips".into(),
        _ => "kilograms times meters about the front edge of what it stands on; a margin under 1.0 tips".into(),
    };
    blocks.push(Block::Heading("Does it tip?".into()));
    let joined = match plans.iter().any(|plan| plan.cases.len() > 1) {
        true => " Cases that are fixed to each other tip as one.",
        false => "",
    };
    let (doors, drawers) = piece.doors_and_drawers();
    let mut open = Vec::new();
    open.extend(drawers.then_some("every drawer is full and out by its whole slide"));
    open.extend(doors.then_some("every door is open 90 degrees"));
    open.push("the case is empty and stands alone");
    let later = match piece.site.fixed {
        true => {
            " A part that goes on after the wall screws, such as a countertop or a toe kick, is not counted as holding it back."
        }
        false => "",
    };
    let child = if drawers { " A child on an open drawer is not counted." } else { "" };
    let mut open = listed(&open);
    if let Some(first) = open.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    blocks.push(Block::Note(format!("{open}.{joined}{later}{child}")));
    blocks.push(Block::Table(table));
    let names = listed(&tips);
    let several = tips.len() > 1 || plans.iter().any(|plan| plan.tips() && plan.cases.len() > 1);
    let (it, is) = if several { ("they", "are") } else { ("it", "is") };
    let own = piece.accepts.iter().filter(|own| own.slug == checks::TIPS);
    let accepted: Vec<&str> = own.map(|own| own.reason.trim_end_matches('.')).collect();
    let them = if several { "them" } else { "it" };
    blocks.extend(match (tips.is_empty(), piece.site.fixed) {
        (true, _) => None,
        (false, true) => Some(Block::Caution(format!("{names} can tip if {it} {is} opened before {it} {is} screwed to the wall. Put the {} in after the screws hold.", match (doors, drawers) {
            (true, true) => "doors and drawers",
            (true, false) => "doors",
            (false, _) => "drawers",
        }))),
        (false, false) => Some(Block::Caution(match accepted.as_slice() {
            [] => format!("{names} can tip, and nothing fixes {them} to the wall yet. Screw {them} to the wall."),
            reasons => format!("{names} can tip, and no wall holds {them}. The spec accepts that: {}. See to it before anything is opened.", listed(reasons)),
        })),
    });
}

#[cfg(test)]
mod tests {
    use crate::model::MemoryFiles;
    use crate::papers::packet;
    use crate::pipeline;

    fn paper(text: &str) -> String {
        let compiled =
            pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("readable");
        let files = packet(&compiled).expect("a packet");
        files.into_iter().find(|file| file.name == "weights.txt").expect("the paper").text
    }

    const CONSOLE: &str = include_str!("../../specs/hall-console.case");

    #[test]
    fn every_line_of_what_is_lifted_is_in_the_whole() {
        for text in [CONSOLE, include_str!("../../specs/tide-cottage-press.case")] {
            let text = paper(text);
            let proof = text.lines().find(|line| line.contains("the tables add up")).expect("one");
            let (terms, whole) =
                proof.split_once(": ").expect("sums").1.split_once(" = ").expect("a sum");
            let figure = |term: &str| -> i64 {
                let figure = term.split(' ').next().expect("a figure").replace('.', "");
                figure.parse().expect("a number")
            };
            let sum: i64 = terms.split(" + ").map(figure).sum();
            assert_eq!(sum, figure(whole), "{proof}");
        }
    }

    #[test]
    fn a_wood_nothing_is_known_of_is_marked() {
        let marked = "The weight of maple is not known";
        assert!(!paper(CONSOLE).contains(marked));
        assert!(paper(&CONSOLE.replace("species sugar-maple", "species bog-oak")).contains(marked));
    }
}
