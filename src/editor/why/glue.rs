//! How many clamps each glue-up takes, and how long its glue takes to spread.

use crate::measure::{Duration, Exact, Length, Unit};
use crate::plans::assembly::gluing::{Closing, GlueUp, Load, Sort};
use crate::trade;
use crate::vocabulary::words;

use super::teller::{Teller, minutes};
use super::{Subject, Sum, Term, Thing, Value, Why};

/// What is glued up in one go.
pub(super) fn of(tell: &Teller<'_>, glue_up: &GlueUp) -> Why {
    let sizes = vec![clamps(tell, glue_up), spreading(tell, &glue_up.load)];
    Why { name: glue_up.path.clone(), thing: Thing::GlueUp, sizes }
}

fn clamps(tell: &Teller<'_>, glue_up: &GlueUp) -> Sum {
    let load = &glue_up.load;
    let rule = |closing: &Closing| match (glue_up.sort, closing.clamps) {
        (Sort::Panel, _) => "one for each 8 in of its length, at least two",
        (Sort::Joints, _) => {
            "one for each 12 in of a joint, two where it is over 8 in, at the end of the part that takes more"
        }
        (Sort::FrameOn, 0) => "under the cauls that lie from stile to stile",
        (Sort::FrameOn, _) => {
            "one for each 12 in along an outer stile; where other parts lie between the outer stiles, each clamp is at an end of a caul, and there is a caul over each rail"
        }
    };
    let own = |closing: &Closing| {
        let count = Value::Count(Exact::int(i64::from(closing.clamps)));
        let joints = match closing.joints {
            1 => "1 joint".to_owned(),
            several => format!("{several} joints"),
        };
        let how = format!(
            "{joints}, {} long in all: {} (common practice, no source)",
            tell.tape.text(closing.long),
            rule(closing)
        );
        tell.worked(count, &closing.clamps.to_string(), tell.parts.mark(closing.part), how, vec![])
    };
    let terms: Vec<Term> = load.closings.iter().map(own).collect();
    let all = Exact::int(i64::from(load.clamps()));
    tell.figure(&[Subject::Clamp], "clamps", (Value::Count(all), all.to_string()), terms)
}

/// A quarter of a minute for each joint, and a minute for each 30 in of them, or for
/// 60 in of flat seams; 10 s for each clamp; and a quarter of a minute for each screw
/// meanwhile.
fn spreading(tell: &Teller<'_>, load: &Load) -> Sum {
    let (joints, long) = (i64::from(load.joints()), load.long());
    let take_up = Duration(Exact::ratio(joints, 4));
    let flat = load.is_flat();
    let run: Length = if flat { long.half() } else { long };
    let spread = Duration(run.in_unit(Unit::Inch) / Exact::int(30));
    let rate = if flat { "60 in (1.5 m) of flat seam" } else { "30 in (760 mm)" };
    let how = format!(
        "{} of joints, {rate} in a minute (common practice, no source)",
        tell.tape.text(long)
    );
    let term = |time: Duration, name: &str, how: String| {
        tell.worked(Value::Time(time), &minutes(time), name, how, vec![])
    };
    let taken = format!("{joints} × 15 s (common practice, no source)");
    let mut terms =
        vec![term(take_up, "taking up each joint", taken), term(spread, "spreading", how)];
    let clamps = load.clamps();
    if clamps > 0 {
        let how = format!("{clamps} × 10 s, set in the dry run (common practice, no source)");
        terms.push(term(trade::clamping(clamps), "tightening clamps", how));
    }
    let driven = load.driven();
    if driven > 0 {
        let how = format!("{driven} × 15 s (common practice, no source)");
        terms.push(term(trade::driving(driven), "driving screws", how));
    }
    let total = load.closing();
    let about = [Subject::Clamp, Subject::Time];
    let name = match driven {
        0 => "time to spread and clamp",
        _ => "time to spread, clamp, and drive",
    };
    tell.figure(&about, name, (Value::Time(total), total.to_string()), terms)
}

/// How long the glue stays open, and how long it stays in the clamps.
pub(super) fn waits(tell: &Teller<'_>) -> Vec<Sum> {
    use words::shop::{BLOCK, CLAMP, CURE, OPEN_TIME};
    let shop = &tell.piece.shop;
    let one = |word: &str, time: Duration, origin| {
        let term = tell.worked(Value::Time(time), &time.to_string(), word, "", vec![origin]);
        let about = [Subject::Clamp, Subject::Time];
        tell.figure(&about, word, (Value::Time(time), time.to_string()), vec![term])
    };
    vec![
        one("open time", shop.open_time, tell.origin(&BLOCK, OPEN_TIME, None)),
        one("in the clamps", shop.clamp, tell.origin(&BLOCK, CLAMP, None)),
        one("to cure", shop.cure, tell.origin(&BLOCK, CURE, None)),
    ]
}
