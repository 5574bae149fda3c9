//! The assembly order.

use crate::measure::{Length, MEASURED, Scale, Tape, Unit};
use crate::model::{Fixing, HingeKind};
use crate::plans::assembly::{Slot, Task, Wait, Work};
use crate::plans::hardware::{self, Count, Kind};
use crate::plans::operations::Doing;
use crate::trade::{self, Rags};

use super::gates;
use super::measures;
use super::moves;
use super::page::{Block, Table, left, right};
use super::words;
use super::{Source, with_currency};

pub(super) fn blocks(source: &Source<'_, '_>) -> Vec<Block> {
    let plan = source.work.assembly();
    let mut order: Vec<(usize, &Task, &Slot)> = plan
        .tasks
        .iter()
        .zip(&plan.schedule.slots)
        .enumerate()
        .map(|(index, (task, slot))| (index, task, slot))
        .collect();
    order.sort_by_key(|(.., slot)| slot.order);
    let mut blocks = vec![Block::Note(format!(
        "{} steps, about {} of work, {} with the waits. The steps marked * take {} one after the other, and a delay in one of them delays the whole job. The times are estimates to plan by, so write your own beside them.",
        plan.tasks.len(),
        plan.schedule.hands,
        words::days(plan.schedule.days),
        plan.schedule.longest,
    ))];
    blocks.push(Block::Note(format!(
        "{} Sticker the parts, and glue up soon after milling.",
        words::climate(source)
    )));
    blocks.extend(glue(source).map(Block::Note));
    blocks.extend(notes(source).into_iter().map(Block::Note));
    blocks.push(Block::Note(moves::SIDES.to_owned()));
    hardware(source, &mut blocks);
    let mut overview = Table {
        columns: vec![
            right("step").strong(),
            left("what"),
            left("day, hour"),
            right("work"),
            left("then wait"),
        ],
        ..Table::default()
    };
    for (number, (_, task, slot)) in order.iter().enumerate() {
        let star = if slot.critical { "*" } else { "" };
        overview.rows.push(vec![
            format!("{}{star}", number + 1),
            task.title.clone(),
            format!("{}, {}:{:02}", slot.day, slot.at / 60, slot.at % 60),
            task.hands().to_string(),
            task.waits().unwrap_or_default(),
        ]);
    }
    overview.foot = format!(
        "hours count from the start of the day, and a day is {} of work",
        source.work.piece.shop.day
    );
    blocks.push(Block::Heading("At a glance".into()));
    blocks.push(Block::Table(overview));
    let mut day = 0;
    let number_of = |index: usize| plan.schedule.slots.get(index).map_or(0, |slot| slot.order + 1);
    let mut warned: Vec<Work> = Vec::new();
    for (number, (index, task, slot)) in order.iter().enumerate() {
        if slot.day != day {
            day = slot.day;
            blocks.push(Block::Heading(format!("Day {day}")));
        }
        let step_of = Numbered { number: number + 1, index: *index, task, slot };
        step(source, step_of, &number_of, &mut warned, &mut blocks);
    }
    blocks
}

/// What glue and clamps these papers reckon with; nothing where none is used.
fn glue(source: &Source<'_, '_>) -> Option<String> {
    let tasks = &source.work.assembly().tasks;
    if !tasks.iter().any(|task| task.closing.0.is_positive()) {
        return None;
    }
    let shop = &source.work.piece.shop;
    let known = match shop.open_time_span {
        Some(_) => "",
        None => ", as is usual for white and yellow glue",
    };
    let unit = source.work.piece.tape().unit;
    let [joint, flat, clamp, panel] = match unit {
        Unit::Inch | Unit::Foot => ["30 in", "60 in", "12 in", "8 in"],
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => {
            ["760 mm", "1500 mm", "300 mm", "200 mm"]
        }
    };
    Some(format!(
        "These papers take the glue to stay open {}{known}, from the first drop until the last clamp is tight. They allow a quarter of a minute to take up each joint and a minute to spread {joint} of it, or {flat} of a flat seam, 10 s for each clamp, which was set to its width in the dry run, a quarter of a minute for each screw that is driven while glue waits for its clamp, and a clamp for every {clamp} of a joint or {panel} of a panel. Go by the label of your glue.",
        shop.open_time
    ))
}

/// Notes that belong to no single part.
fn notes(source: &Source<'_, '_>) -> Vec<String> {
    let piece = source.work.piece;
    let mut notes = piece.shop.notes.clone();
    notes.extend(piece.site.notes.iter().cloned());
    for keep_out in &piece.site.keep_outs {
        notes.extend(keep_out.notes.iter().map(|note| format!("{}: {note}", keep_out.name)));
    }
    if let Some(baseboard) = &piece.site.baseboard {
        notes.extend(baseboard.notes.iter().map(|note| format!("baseboard: {note}")));
    }
    for case in &piece.cases {
        let frame = case.frame.iter().flat_map(|frame| &frame.notes);
        let all = case.notes.iter().chain(frame).chain(&case.shelves.notes);
        notes.extend(all.map(|note| format!("{}: {note}", case.name)));
        // A front carries the notes of its opening; a niche and a list have none.
        let bare = case.openings.iter().filter(|opening| opening.front.is_none());
        for opening in bare {
            notes.extend(opening.notes.iter().map(|note| format!("{}: {note}", opening.title())));
        }
    }
    for run in &piece.runs {
        notes.extend(run.notes.iter().map(|note| format!("{}: {note}", run.name)));
        for space in &run.spaces {
            notes.extend(space.notes.iter().map(|note| format!("{}: {note}", space.name)));
        }
    }
    notes
}

/// What must lie ready: every hinge, slide and pull with its maker's figures.
fn hardware(source: &Source<'_, '_>, blocks: &mut Vec<Block>) {
    let (piece, figures) = (source.work.piece, &source.figures);
    let mut table = Table {
        columns: vec![
            right("pcs").strong(),
            left("what"),
            left("figures that these sheets rely on"),
        ],
        ..Table::default()
    };
    let screws = hardware::pull_screws(piece, source.work.parts);
    for Count { kind, number } in hardware::count(piece) {
        let (name, price, mut told) = match kind {
            Kind::Hinge(index) => {
                let Some(hinge) = piece.hinge(index) else { continue };
                let mut told = vec![match hinge.swing_written {
                    true => format!("opens to {} degrees", hinge.swing.0),
                    false => "how far it opens is not given, so the checks take the door to open square, and look for binding up to 180 degrees; look it up on its sheet".to_owned(),
                }];
                if let HingeKind::Cup { diameter, bore, from_edge, plate, .. } = hinge.kind {
                    let (cup, deep) = (figures.hardware(diameter), figures.hardware(bore));
                    told.push(format!(
                        "cup {cup}, {deep} deep, {} from the hinge edge",
                        figures.hardware(from_edge)
                    ));
                    told.push(match plate {
                        Some(plate) => format!(
                            "plate on two screws {} apart, in holes {} across and {} deep, {} back",
                            figures.hardware(plate.apart),
                            figures.hardware(plate.screw),
                            figures.hardware(plate.deep),
                            figures.hardware(plate.back)
                        ),
                        None => "the figures of its plate are not given, so no place for its plates is worked out, and the cut list has no blocks that they stand on; look them up on its sheet before you cut".to_owned(),
                    });
                }
                told.push(format!("least gap {}", figures.hardware(hinge.gap.length)));
                told.extend(hinge.notes.iter().cloned());
                (&hinge.name, hinge.sold.price, told)
            }
            Kind::Slide(index) => {
                let Some(slide) = piece.slide(index) else { continue };
                let Some(sheet) = slide.hardware() else { continue };
                let length = figures.text(sheet.length.length);
                let mut told = vec![format!(
                    "pair, {length} long, needs {} behind the front",
                    figures.text(sheet.room.length)
                )];
                let scale = Scale::of(piece.tape());
                told.extend(sheet.load.map(|load| format!("carries {}", scale.both(load))));
                told.extend(slide.notes.iter().cloned());
                (&slide.name, sheet.sold.price, told)
            }
            Kind::Pull(index) => {
                let Some(pull) = piece.pull(index) else { continue };
                let mut told = vec![match pull.centers {
                    Some(centers) => format!("{} between its screws", figures.hardware(centers)),
                    None => "one screw".to_owned(),
                }];
                told.push(format!("holes {}", figures.hardware(pull.screw)));
                told.extend(screws.iter().filter(|screw| screw.pull == index).map(|screw| {
                    let least = figures.at_least(screw.length(piece.tape().unit));
                    let front = figures.text(screw.front);
                    let through = match screw.box_front {
                        Some(own) if screw.hollow.is_positive() => format!(
                            "{front} front, a hollow of {} behind it, which needs a block, and {} box front",
                            figures.text(screw.hollow),
                            figures.text(own)
                        ),
                        Some(own) => format!("{front} front and {} box front", figures.text(own)),
                        None => format!("{front} front"),
                    };
                    let plural = if screw.number == 1 { "" } else { "s" };
                    format!(
                        "{} screw{plural} at least {least} long, through {through}",
                        screw.number
                    )
                }));
                told.extend(pull.notes.iter().cloned());
                (&pull.name, pull.sold.price, told)
            }
            Kind::Leg(index) => {
                let Some(leg) = piece.leg(index) else { continue };
                let mut told = vec![format!(
                    "bought, {} high, {} wide at the top and {} at the floor",
                    figures.size(&leg.high, &piece.facts),
                    figures.hardware(leg.wide.length),
                    figures.hardware(leg.foot)
                )];
                let hole = leg.fixing.hole();
                let (across, deep) = (figures.hardware(hole.across), figures.hardware(hole.deep));
                told.push(match leg.fixing {
                    Fixing::Plate { screws, .. } => format!(
                        "each on {screws} screws that go {deep} into the bottom and no deeper, in pilot holes {across} across"
                    ),
                    Fixing::Bolt(_) => format!(
                        "each on a hanger bolt in a threaded insert, which takes a hole {across} across and {deep} deep: buy the insert with it"
                    ),
                    Fixing::Dowel(_) => {
                        format!("each by a dowel in a hole {across} across and {deep} deep")
                    }
                });
                if leg.adjust.is_positive() {
                    told.push(format!("its adjuster turns out {}", figures.hardware(leg.adjust)));
                }
                let scale = Scale::of(piece.tape());
                told.extend(leg.load.map(|load| format!("carries {}", scale.both(load))));
                told.extend(leg.notes.iter().cloned());
                (&leg.name, leg.sold.price, told)
            }
        };
        told.extend(price.map(|price| with_currency(source, price)));
        table.rows.push(vec![number.to_string(), name.clone(), told.join("; ")]);
    }
    if !table.rows.is_empty() {
        blocks.push(Block::Heading("Hardware in hand".into()));
        blocks.push(Block::Table(table));
        blocks.push(Block::Note(
            "Check each figure against the sheet of the hardware you bought before you bore anything."
                .into(),
        ));
    }
}

/// A task in its place among the steps.
struct Numbered<'a> {
    number: usize,
    /// Among the tasks.
    index: usize,
    task: &'a Task,
    slot: &'a Slot,
}

fn step(
    source: &Source<'_, '_>,
    Numbered { number, index, task, slot }: Numbered<'_>,
    number_of: &dyn Fn(usize) -> usize,
    warned: &mut Vec<Work>,
    blocks: &mut Vec<Block>,
) {
    let figures = &source.figures;
    let star = if slot.critical { "*" } else { "" };
    let mut more = gates::lines(source, index);
    more.extend(moves::lines(source, index));
    more.extend(measures::line(source, index));
    more.extend(task.lines.iter().cloned());
    // Told as they are exactly at the foot of the sheet.
    for length in &task.told {
        figures.plain(*length);
    }
    // Such a figure bears its mark already.
    figures.mark(more.iter().any(|line| line.contains(MEASURED)));
    let mut after: Vec<usize> = task.after.iter().map(|index| number_of(*index)).collect();
    after.sort_unstable();
    if !after.is_empty() {
        let steps: Vec<String> = after.iter().map(usize::to_string).collect();
        let word = if steps.len() == 1 { "step" } else { "steps" };
        more.push(format!("after {word} {}", steps.join(", ")));
    }
    if let Some(last) = task.cured.iter().map(|index| number_of(*index)).max() {
        let cure = source.work.piece.shop.cure;
        more.push(format!(
            "not before {cure} after step {last}, the last glue-up of joints that are sanded flush"
        ));
    }
    let mut times = vec![format!("{} of work", task.hands())];
    if task.waits_for != Wait::None {
        times.push(task.waits().unwrap_or_default());
    }
    if task.clamps > 0 {
        let have = source.work.piece.shop.clamps;
        let plural = if task.clamps == 1 { "" } else { "s" };
        times.push(format!("{} clamp{plural}", task.clamps));
        if task.clamps > have {
            times.push(format!("the shop has {have}; borrow more, or clamp through stiff cauls"));
        }
    }
    if task.closing.0.is_positive() {
        let open = source.work.piece.shop.open_time;
        let work = match (task.clamps, task.driven) {
            (0, _) => "spread".to_owned(),
            (_, 0) => "spread and clamp".to_owned(),
            (_, 1) => "spread, clamp, and drive 1 screw".to_owned(),
            (_, several) => format!("spread, clamp, and drive {several} screws"),
        };
        times.push(format!("{} to {work}, and the glue stays open {open}", task.closing));
    }
    more.push(times.join(", "));
    blocks.push(Block::Setting {
        figure: format!("{number}{star}"),
        what: task.title.clone(),
        more,
    });
    // Each caution stands once on the sheet; rags heap up, and vapor fills the room, at
    // every coat. Dust comes with the first sanding, whatever else is done in its step.
    for work in [Some(task.work), task.sands.then_some(Work::Sand)].into_iter().flatten() {
        let again = work == Work::Finish;
        if (again || !warned.contains(&work))
            && let Some(caution) = caution(work, rags(source, task))
        {
            warned.push(work);
            blocks.push(Block::Caution(caution.into()));
        }
    }
    if let Some(square) = &task.square {
        let (a, b) = square.sides;
        let mark = figures.mark((a + b).is_measured());
        let why = if square.by_gaps { ", which is all that the gap sheet allows for" } else { "" };
        blocks.push(Block::Proof(vec![
            format!(
                "both diagonals of {} by {} are {}{mark}, and they differ by no more than {}{why}",
                figures.text(a),
                figures.text(b),
                figures.plain(trade::diagonal(a, b)),
                at_most(source.work.piece.tape(), square.within)
            ),
            format!(
                "opposite sides agree, and it is flat without twist, within {}",
                at_most(source.work.piece.tape(), trade::flat_within())
            ),
        ]));
    }
}

/// A limit as a tape shows it, rounded down; finer where the tape shows nothing.
fn at_most(tape: &Tape, limit: Length) -> String {
    let shown = tape.down(limit);
    if shown.is_positive() { tape.exact(shown) } else { tape.fine(limit) }
}

/// What the rags of the finish do that a step puts on, and whether it is thinned with
/// water.
fn rags(source: &Source<'_, '_>, task: &Task) -> (Rags, bool) {
    let used = task.does.iter().find_map(|doing| match doing {
        Doing::Coat(coating) => source.work.piece.finish(coating.finish),
        _ => None,
    });
    let known = used.and_then(|finish| trade::finish_named(finish.kind.slug()));
    known.map_or((Rags::StayCold, false), |finish| (finish.rags, finish.is_watery))
}

fn caution(work: Work, (rags, is_watery): (Rags, bool)) -> Option<&'static str> {
    match work {
        Work::Bench => None,
        Work::Machine => Some(
            "Keep the guards on and a push stick within reach. Cover your eyes and ears, wear a mask, and run the dust collector, because wood dust harms.",
        ),
        Work::Router => Some(
            "Feed against the rotation of the bit, never climb-cut by hand, and clamp the work. Hold a small piece in a jig or between scraps, never in your fingers. Unplug the router before you change a bit.",
        ),
        Work::Sand => Some(
            "Wear a mask that fits against fine dust, and draw the dust off at the sander, because wood dust harms, that of oak and beech most. Empty the bag outdoors, because fine dust in a heap can heat and burn.",
        ),
        Work::Glue => Some(
            "Mind the glue's open time. Lay out clamps, cauls, and a wet cloth before you open the bottle. Wear gloves if your glue's label asks for them.",
        ),
        Work::Finish => Some(match rags {
            Rags::StayCold if is_watery => {
                "Air the room, wear a respirator against the mist when you spray and gloves when you brush, and keep the lids on."
            }
            Rags::StayCold => {
                "Air the room and wear a respirator against the vapor. Keep flames and sparks away, and keep the lids on."
            }
            Rags::Heat => {
                "Oily rags can catch fire by themselves within hours. After every coat spread them flat outdoors to dry, or put them in water in a metal can with a lid. Air the room, and keep flames away."
            }
            Rags::HeatWhereOily => {
                "Air the room, and keep flames away. Where the can says to clean up with mineral spirits, rags can catch fire by themselves within hours: after every coat spread them flat outdoors to dry, or put them in water in a metal can with a lid."
            }
        }),
        Work::Fit => Some(
            "Lift with straight backs, close to the body, and agree on who gives the word. On stairs the one below bears most of the weight. Leave water, gas, and electricity to licensed trades; local codes decide.",
        ),
    }
}
