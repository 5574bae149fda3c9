//! The set-ups of the router: where each guide is set, how deep each pass goes, and
//! how long it takes.

use crate::measure::{Duration, Exact, Length};
use crate::model::{BitShape, Size};
use crate::parts::{Feature, FeatureKind, Part, PartId};
use crate::plans::guide::{Cut, Guide};
use crate::plans::setups::Setup;
use crate::vocabulary::{Origin, words};

use super::depth::depth;
use super::ends;
use super::teller::{Teller, minutes};
use super::{Subject, Sum, Thing, Value, Why};

/// A set-up by its number on the sheet.
pub(super) fn of(tell: &Teller<'_>, number: usize) -> Option<Why> {
    let setup = tell.work.setups().get(number.checked_sub(1)?)?;
    let own = Told { tell, setup };
    let mut sizes = own.settings("");
    sizes.extend(own.lines());
    sizes.extend(own.passes());
    sizes.extend(own.runs());
    sizes.push(own.time());
    Some(Why { name: format!("set-up {number}"), thing: Thing::SetUp, sizes })
}

/// Where the guide stands in each set-up that cuts a part.
pub(super) fn of_part(tell: &Teller<'_>, id: PartId) -> Vec<Sum> {
    let all = tell.work.setups().iter().enumerate();
    let own = all.filter(|(_, setup)| setup.runs.iter().any(|run| run.part == id));
    own.flat_map(|(at, setup)| Told { tell, setup }.settings(&format!("set-up {}, ", at + 1)))
        .collect()
}

struct Told<'t, 'c> {
    tell: &'t Teller<'c>,
    setup: &'t Setup,
}

impl Told<'_, '_> {
    /// The first cut of it, which all others are like.
    fn first(&self) -> Option<(PartId, &Part, &Feature)> {
        let (id, number) = self.setup.cuts().next()?;
        let part = self.tell.parts.get(id)?;
        Some((id, part, part.features.get(number)?))
    }

    /// From the datum to the near side of the channel, and its width.
    fn channel(&self) -> Option<(Size, Size)> {
        let (id, part, feature) = self.first()?;
        let channel = part.channel(feature);
        let direction = part.placement.direction(channel.datum);
        let (from, to) = feature.across(channel.along);
        let reach = |place| self.tell.reach((id, part), direction, place, feature.takes);
        let near = match channel.datum.is_start() {
            true => reach(from),
            false => part.along(direction) - reach(to),
        };
        Some((near, reach(to) - reach(from)))
    }

    /// The bit that it is cut with.
    fn bit(&self) -> Size {
        let (tell, cutter) = (self.tell, &self.setup.cutter);
        if self.setup.is_sawn() {
            let kerf = tell.origin(&words::shop::BLOCK, words::shop::KERF, None);
            return tell.fact(cutter.diameter, "kerf", kerf);
        }
        let named = tell.piece.bits.iter().find(|bit| Some(&bit.name) == cutter.name.as_ref());
        match named {
            Some(bit) => {
                let word = match bit.shape {
                    BitShape::Straight => words::bit::STRAIGHT,
                    BitShape::RoundNose => words::bit::ROUND_NOSE,
                };
                let origin = tell.origin(&words::bit::BLOCK, word, Some(bit.span));
                tell.fact(cutter.diameter, format!("bit {}", bit.name), origin)
            }
            None => tell.custom(
                cutter.diameter,
                "straight bit",
                "the widest usual one that goes into the cut (common practice, no source)",
            ),
        }
    }

    fn base(&self) -> Size {
        use words::shop::{BASE_PLATE, BLOCK};
        let origin = self.tell.origin(&BLOCK, BASE_PLATE, None);
        self.tell.fact(self.tell.piece.shop.base_plate, "base plate", origin)
    }

    /// Each place of a straight-edge or fence.
    fn settings(&self, of: &str) -> Vec<Sum> {
        let (Some(guided), Some((from, wide))) = (&self.setup.guided, self.channel()) else {
            return Vec::new();
        };
        let cut = Cut { from, wide, bit: self.bit(), base: self.base() };
        let what = match guided.guide {
            Guide::Near | Guide::Far => "straight-edge",
            Guide::Table => "fence",
            Guide::Saw => "fence or stop",
        };
        let datum = &self.setup.datum;
        let about = [Subject::SetUp];
        let places = cut.places(guided.guide);
        let mut sums: Vec<Sum> = Vec::new();
        // Where one of them lies on no mark of the tape, the sheet has the first and
        // how far the guide is moved.
        let tape = self.tell.piece.tape();
        let marked = guided.settings.iter().all(|set| !tape.print(*set).is_rounded());
        let to = guided.guide.set_over_to(places.len());
        let told = if marked || self.setup.is_sawn() { to + 1 } else { 1 };
        for (number, (setting, place)) in guided.settings.iter().zip(&places).enumerate().take(told)
        {
            let word = match number {
                0 => format!("{of}{what}, from the {datum}"),
                _ => format!("{of}then"),
            };
            sums.push(self.tell.length(&about, word, *setting, place));
        }
        if let (Some(first), Some(last)) = (places.first(), places.get(to))
            && to > 0
            && of.is_empty()
        {
            let over = match last.length < first.length {
                true => first - last,
                false => last - first,
            };
            let told = self.tell.length(&about, "set-over", guided.set_over, &over);
            // No tape is true enough for it.
            let paper =
                self.tell.fine(guided.set_over) + Teller::mark(guided.set_over.is_measured());
            sums.push(Sum { printed: Some(paper.clone()), paper, ..told });
        }
        sums
    }

    /// Each line of a flute, and where the straight-edge stands for it.
    fn lines(&self) -> Vec<Sum> {
        let Some((_, part, feature)) = self.first() else { return Vec::new() };
        let FeatureKind::Flute(_) = feature.kind else { return Vec::new() };
        let spec = self.tell.piece.cases.iter().flat_map(|case| &case.openings);
        let mut spec = spec.filter_map(|opening| opening.front.as_ref()?.flutes.as_ref());
        let Some(spec) = spec.find(|flutes| flutes.span == feature.span) else {
            return Vec::new();
        };
        use words::flutes::{BLOCK, PITCH};
        let pitch = self.tell.origin(&BLOCK, PITCH, Some(spec.span));
        let pitch = self.tell.fact(spec.pitch, "pitch of the flutes", pitch);
        let channel = part.channel(feature);
        let whole = part.along(part.placement.direction(channel.datum));
        let steps = i64::try_from(self.setup.lines.len()).unwrap_or(1) - 1;
        let half = self.base().half();
        let about = [Subject::SetUp, Subject::Flute];
        let mut sums = Vec::new();
        for (number, line) in (0..).zip(self.setup.set_lines()) {
            let center = line.from + line.wide.half();
            // They are symmetrical about the middle of the front.
            let place = whole.half() + pitch.clone() * Exact::ratio(2 * number - steps, 2);
            // The straight-edge first: it is the large figure of the sheet.
            let setting = center + half.length;
            let word = format!("line {}, straight-edge", number + 1);
            sums.push(self.tell.length(&about, word, setting, &(place.clone() + &half)));
            let word = format!("line {}, from the {}", number + 1, self.setup.datum);
            sums.push(self.tell.length(&about, word, center, &place));
        }
        sums
    }

    /// How deep each pass goes.
    fn passes(&self) -> Vec<Sum> {
        let Some((_, part, feature)) = self.first() else { return Vec::new() };
        let about = [Subject::SetUp];
        let deep = depth(self.tell, part, feature);
        let last = self.setup.passes.len();
        let each = self.setup.passes.iter().zip(1..);
        each.map(|(pass, number)| {
            let size = match number == last {
                true => deep.clone(),
                false => self.tell.custom(
                    *pass,
                    "free pass",
                    "equal steps, none deeper than half the bit or 1/4 in, set to a mark of the tape (common practice, no source)",
                ),
            };
            self.tell.length(&about, format!("depth of pass {number}"), *pass, &size)
        })
        .collect()
    }

    /// How far the router runs in each piece.
    fn runs(&self) -> Vec<Sum> {
        let mut sums = Vec::new();
        for run in self.setup.led() {
            let Some(part) = self.tell.parts.get(run.part) else { continue };
            if run.stick.is_some() {
                let stick = self.tell.custom(
                    run.length,
                    "whole stick",
                    "its rough length on the cut list: it is cut before it is crosscut",
                );
                let word = format!("run in the stick of {}", part.mark);
                sums.push(self.tell.length(&[Subject::SetUp], word, run.length, &stick));
                continue;
            }
            let mut whole = Size::zero();
            for feature in run.features.iter().filter_map(|number| part.features.get(*number)) {
                let along = self.setup.along;
                let direction = part.placement.direction(run.face.ends_of_run(along).0);
                let (from, to) = feature.run(along);
                // In a post the groove runs from one mortise to the other.
                let rails = ends::at_rails(self.tell, (run.part, part), direction);
                let reach = |at: Length| {
                    let known = self.tell.reach((run.part, part), direction, at, feature.takes);
                    match rails.iter().find(|side| side.length == at) {
                        Some(side) if known.terms().is_empty() => side.clone(),
                        Some(_) | None => known,
                    }
                };
                whole = whole + (reach(to) - reach(from));
            }
            let word = format!("run in {}", part.mark);
            sums.push(self.tell.length(&[Subject::SetUp], word, run.length, &whole));
        }
        sums
    }

    /// Setting up, moving guides, handling pieces, and feeding the router.
    fn time(&self) -> Sum {
        let (tell, effort, shop) = (self.tell, self.setup.effort, &self.tell.piece.shop);
        let (shop_block, times) = (&words::shop::BLOCK, &words::times::BLOCK);
        let several = |count: i64, each: Duration, name: &str, how: &str, origin: Origin| {
            let value = Value::Time(Duration(each.0 * Exact::int(count)));
            let text = format!("{count} × {}", minutes(each));
            tell.worked(value, &text, name, how, vec![origin])
        };
        let mut terms = vec![tell.worked(
            Value::Time(shop.set_up),
            &minutes(shop.set_up),
            "changing the set-up",
            "",
            vec![tell.origin(shop_block, words::shop::SET_UP, None)],
        )];
        if effort.clampings > 0 {
            let origin = tell.origin(times, words::times::CLAMPING, None);
            let name = "moving and clamping the guide";
            let how = match self.setup.guided.as_ref().map(|guided| guided.guide) {
                None => "once for each line of each piece",
                Some(Guide::Near | Guide::Far) => "once for each setting on each piece",
                Some(Guide::Table) => "once for each further setting of the fence",
                Some(Guide::Saw) => "once, for the other wall",
            };
            terms.push(several(effort.clampings, shop.times.clamping, name, how, origin));
        }
        if effort.passes > 0 {
            let origin = tell.origin(times, words::times::PASS, None);
            let how = "each piece, at each setting, at each depth";
            let what =
                if self.setup.is_sawn() { "passes over the saw" } else { "passes on the table" };
            terms.push(several(effort.passes, shop.times.pass, what, how, origin));
        }
        let run: Length = self.setup.led().map(|run| run.length).sum();
        let settings = self.setup.guided.as_ref().map_or(1, |guided| guided.settings.len());
        let how = format!(
            "{} to {} × {} × {}, at {} a minute",
            tell.tape.text(run),
            if self.setup.is_sawn() { "saw" } else { "rout" },
            count(self.setup.passes.len(), "pass", "passes"),
            count(settings, "setting", "settings"),
            tell.tape.text(shop.feed)
        );
        let feed = tell.origin(shop_block, words::shop::FEED, None);
        let feeding = Value::Time(effort.feeding);
        terms.push(tell.worked(feeding, &minutes(effort.feeding), "feeding", how, vec![feed]));
        let paper = self.setup.time.whole_minutes().to_string();
        let about = [Subject::SetUp, Subject::Time];
        tell.figure(&about, "time", (Value::Time(self.setup.time), paper), terms)
    }
}

fn count(number: usize, one: &str, several: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { several })
}
