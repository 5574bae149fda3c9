//! How long each step of the assembly order takes, how long it waits then, and what
//! both come to.

use crate::measure::{Duration, Exact};
use crate::plans::assembly::{Effort, Slot, Taking, Task, Wait};
use crate::plans::finish;
use crate::plans::operations::Doing;
use crate::trade;
use crate::vocabulary::{Origin, words};

use super::teller::{Teller, minutes};
use super::{Subject, Sum, Term, Thing, Value, Why};

const ABOUT: [Subject; 2] = [Subject::Step, Subject::Time];

/// A step by its number on the sheet.
pub(super) fn of(tell: &Teller<'_>, number: usize) -> Option<Why> {
    let plan = tell.work.assembly();
    let mut steps = plan.tasks.iter().zip(&plan.schedule.slots);
    let (task, _) = steps.find(|(_, slot)| slot.order + 1 == number)?;
    let mut sizes = vec![work(tell, task)];
    sizes.extend(wait(tell, task));
    sizes.extend(diagonal(tell, task));
    sizes.extend(coats(tell, task));
    let thing = Thing::Step { title: task.title.clone() };
    Some(Why { name: format!("step {number}"), thing, sizes })
}

/// All work together, and the longest chain of work and waits.
pub(super) fn whole(tell: &Teller<'_>) -> Vec<Sum> {
    let plan = tell.work.assembly();
    let mut steps: Vec<(&Task, &Slot)> = plan.tasks.iter().zip(&plan.schedule.slots).collect();
    steps.sort_by_key(|(_, slot)| slot.order);
    let of = |task: &Task, slot: &Slot| {
        let (time, name) = (task.hands(), format!("step {}", slot.order + 1));
        tell.worked(Value::Time(time), &time.to_string(), name, task.title.clone(), vec![])
    };
    let all: Vec<Term> = steps.into_iter().map(|(task, slot)| of(task, slot)).collect();
    let mut chain: Vec<Term> = Vec::new();
    for link in &plan.schedule.chain {
        let (task, slot) = (&plan.tasks[link.task], &plan.schedule.slots[link.task]);
        chain.push(of(task, slot));
        if link.wait.0.is_positive() {
            let name = format!("then wait, step {}", slot.order + 1);
            let (wait, text) = (Value::Time(link.wait), link.wait.to_string());
            chain.push(tell.worked(wait, &text, name, "before the next step *", vec![]));
        }
    }
    let total = |word: &str, time: Duration, terms| {
        tell.figure(&ABOUT, word, (Value::Time(time), time.to_string()), terms)
    };
    vec![
        total("work in all", plan.schedule.hands, all),
        total("steps *, one after the other", plan.schedule.longest, chain),
    ]
}

/// The diagonals that show square what is glued up in a step.
fn diagonal(tell: &Teller<'_>, task: &Task) -> Option<Sum> {
    let (a, b) = task.square.as_ref()?.sides;
    let long = trade::diagonal(a, b);
    let text = tell.tape.text(long);
    let how = format!("the root of {}² + {}²", tell.tape.text(a), tell.tape.text(b));
    let term = tell.worked(Value::Length(long), &text, "both diagonals", how, vec![]);
    Some(tell.figure(&[Subject::Diagonal], "diagonal", (Value::Length(long), text), vec![term]))
}

/// How much of a finish a coat takes.
fn coats(tell: &Teller<'_>, task: &Task) -> Vec<Sum> {
    let of = |doing: &Doing| {
        let Doing::Coat(own) = doing else { return None };
        let finish = tell.piece.finish(own.finish)?;
        let (covers, whole) = (own.coat.covers?, own.coat.at_hand()?);
        let text = finish::measured_out(tell.tape, whole);
        let (per, source) = match finish.covers {
            Some(_) => ("a liter", "as the spec says"),
            None if finish::in_quarts(tell.tape, false) => ("a quart", "usual for its kind"),
            None => ("a liter", "usual for its kind"),
        };
        let mixed = match own.coat.each {
            Some(_) => ", up to what two parts mix to",
            None => ", up to the next 10 ml",
        };
        let how = format!(
            "{} at {} {per}, {source}, and {} % more for brush and rags{mixed}",
            finish::told(tell.tape, own.coat.area),
            finish::covering(tell.tape, covers, finish.covers.is_some()),
            trade::FINISH_WASTE
        );
        let value = Value::Count(Exact::int(whole));
        let term = tell.worked(value, &text, "surface over coverage", how, vec![]);
        let word = format!("{} for the coat", finish.kind.word());
        Some(tell.figure(&[Subject::Finish], word, (value, text), vec![term]))
    };
    task.does.iter().filter_map(of).collect()
}

/// The hands-on time of a step.
fn work(tell: &Teller<'_>, task: &Task) -> Sum {
    let terms: Vec<Term> = task.efforts.iter().map(|own| effort(tell, own)).collect();
    let time = task.hands();
    tell.figure(&ABOUT, "work", (Value::Time(time), time.to_string()), terms)
}

fn effort(tell: &Teller<'_>, own: &Effort) -> Term {
    let each = minutes(own.each);
    let text = match own.count {
        1 => each,
        several => format!("{several} × {each}"),
    };
    let (name, how, from) = match own.what {
        Taking::Usual(usual) => {
            (usual.name().to_owned(), "common practice, no source".to_owned(), vec![])
        }
        Taking::Shop(time) => {
            let origin = tell.origin(&words::times::BLOCK, time.word(), None);
            (time.name().to_owned(), String::new(), vec![origin])
        }
        Taking::SetUp(number) => {
            let how = format!("as the router-jig sheet has it; ask for `set-up {number}`");
            (format!("set-up {number}"), how, vec![])
        }
        Taking::Coat(area) => {
            let how = format!(
                "{}, 10 min for each m2, to the next whole minute (common practice, no source)",
                finish::told(tell.tape, area)
            );
            ("brushing".to_owned(), how, vec![])
        }
    };
    tell.worked(Value::Time(own.whole()), &text, name, how, from)
}

/// How long a step waits when its work is done.
fn wait(tell: &Teller<'_>, task: &Task) -> Option<Sum> {
    use words::shop::{BLOCK, CLAMP, CURE};
    let shop = &tell.piece.shop;
    let clamped = |rounds: usize| {
        let count = Exact::int(rounds as i64);
        let text = match rounds {
            1 => shop.clamp.to_string(),
            several => format!("{several} × {}", shop.clamp),
        };
        let origin = tell.origin(&BLOCK, CLAMP, None);
        let value = Value::Time(Duration(shop.clamp.0 * count));
        tell.worked(value, &text, "in the clamps", "", vec![origin])
    };
    let one = |time: Duration, name: &str, origin: Origin| {
        tell.worked(Value::Time(time), &time.to_string(), name, "", vec![origin])
    };
    // Each round is in the clamps by itself.
    let rounds = task.rounds.len().max(1);
    let terms = match task.waits_for {
        Wait::None => return None,
        Wait::Clamps => vec![clamped(rounds)],
        Wait::Screws => {
            vec![one(shop.clamp, "until the glue is set", tell.origin(&BLOCK, CLAMP, None))]
        }
        Wait::Cure(_) => {
            // The last round cures from when its clamps go on.
            let cure = one(shop.cure, "to cure", tell.origin(&BLOCK, CURE, None));
            let before = (rounds > 1).then(|| clamped(rounds - 1));
            before.into_iter().chain([cure]).collect()
        }
        Wait::Finish => {
            let used = task.does.iter().find_map(|doing| {
                let Doing::Coat(coating) = doing else { return None };
                tell.piece.finish(coating.finish)
            })?;
            let word = words::finish::CURE;
            let origin = tell.origin(&words::finish::BLOCK, word, Some(used.span));
            vec![one(used.cure, "to dry", origin)]
        }
        Wait::Delivery(lead) => {
            let glass = task.parts.iter().filter_map(|id| {
                let part = tell.work.parts.get(*id)?;
                tell.piece.stock(part.stock).filter(|stock| stock.lead == Some(lead))
            });
            let word = words::stock::LEAD_TIME;
            let origin =
                tell.origin(&words::stock::BLOCK, word, glass.map(|stock| stock.span).next());
            vec![tell.worked(
                Value::Time(task.rests()),
                &lead.to_string(),
                "to come",
                "",
                vec![origin],
            )]
        }
    };
    let paper = match task.waits_for {
        Wait::Delivery(lead) => lead.to_string(),
        Wait::None | Wait::Clamps | Wait::Cure(_) | Wait::Screws | Wait::Finish => {
            task.wait.to_string()
        }
    };
    Some(tell.figure(&ABOUT, "then wait", (Value::Time(task.rests()), paper), terms))
}
