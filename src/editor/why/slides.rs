//! Where each drawer slide goes, and the packers that it is screwed to.

use crate::model::{OpeningId, Size};
use crate::parts::{Direction, Part, Role};
use crate::plans::fitting::{Drawer, OnWood};
use crate::vocabulary::words;

use super::teller::Teller;
use super::{Subject, Sum};

/// The slides of a drawer's opening.
pub(super) fn of_opening(tell: &Teller<'_>, opening: OpeningId) -> Vec<Sum> {
    let drawer = tell.work.fitting().drawers.iter().find(|drawer| drawer.opening.id == opening);
    let mut on_wood = tell.work.fitting().on_wood.iter();
    match drawer {
        Some(drawer) => of_drawer(tell, drawer),
        None => on_wood
            .find(|drawer| drawer.opening.id == opening)
            .map(|drawer| of_wood(tell, drawer))
            .unwrap_or_default(),
    }
}

/// A drawer on wood: what its box leaves free, and where its stops go.
fn of_wood(tell: &Teller<'_>, drawer: &OnWood<'_>) -> Vec<Sum> {
    let about = [Subject::Slide];
    let length = |word: &str, size: &Size| tell.length(&about, word, size.length, size);
    let [narrower, lower] = &drawer.less;
    let mut sums = vec![
        length("narrower", narrower),
        length("lower", lower),
        length("clear behind", &drawer.behind),
    ];
    if let Some(own) = &drawer.behind_doors {
        sums.push(length("strips, front end", &own.back));
        for (side, past) in ["left", "right"].into_iter().zip(&own.past) {
            sums.push(length(&format!("{side} guide, past the edge"), past));
        }
    }
    if let Some(stopped) = &drawer.stopped {
        sums.push(length("stops, front end", &stopped.back));
        sums.push(length("stops, aside", &stopped.aside));
    }
    sums
}

fn of_drawer(tell: &Teller<'_>, drawer: &Drawer<'_>) -> Vec<Sum> {
    let about = [Subject::Slide];
    let length = |word: &str, length, size: &Size| tell.length(&about, word, length, size);
    let above = &drawer.above_opening;
    let line = drawer.line.word();
    let mut sums = vec![length(&format!("{line} above opening"), above.length, above)];
    let doors = tell.piece.door_before(drawer.opening.id);
    let low = &doors.unwrap_or(drawer.opening).stands_as_built()[1];
    let bottom = tell.parts.of_case(drawer.opening.case()).iter();
    let bottom = bottom.filter(|part| part.role == Role::Bottom);
    if let (Some(up), Some(bottom)) = (drawer.above_bottom, bottom.into_iter().next()) {
        let over = low + above - bottom.side(Direction::Y, true);
        sums.push(length(&format!("{line} above bottom"), up, &over));
    }
    match &drawer.set_back {
        Some(set_back) => sums.push(length("set-back", set_back.length, set_back)),
        None if drawer.ahead.length.is_zero() => {}
        None => {
            sums.push(length("set-back, but for the sheet", drawer.ahead.length, &drawer.ahead));
        }
    }
    sums.push(length("depth used", drawer.used.length, &drawer.used));
    sums.push(length("clear behind", drawer.left.length, &drawer.left));
    for carrier in &drawer.carriers {
        let Some(packer) = carrier.packer else { continue };
        let (part, board) = (packer.part, carrier.board);
        let from =
            |direction: Direction| part.side(direction, false) - board.side(direction, false);
        let word = |what: &str| format!("packer {}, {what}", part.mark);
        sums.push(length(&word("lower edge"), packer.above_end, &from(Direction::Y)));
        sums.push(length(&word("front end"), packer.from_edge, &from(Direction::Z)));
    }
    if let Some(hooks) = drawer.hooks {
        sums.extend(hook_places(tell, drawer, hooks.back));
    }
    sums
}

/// The holes for the hooks of an undermount slide.
fn hook_places(tell: &Teller<'_>, drawer: &Drawer<'_>, back: &Part) -> Vec<Sum> {
    use words::hook::{BLOCK, BORE, DEEP, FROM_SIDE, UP};
    let (Some(hook), Some(hooks)) = (drawer.hardware.hook, drawer.hooks) else { return Vec::new() };
    let within = Some(drawer.slide.span);
    let about = [Subject::Slide];
    let name = |what: &str| format!("{what} of {}'s hook", drawer.slide.name);
    let side = tell.fact(hook.from_side, name("side"), tell.origin(&BLOCK, FROM_SIDE, within));
    let up = tell.fact(hook.up, name("height"), tell.origin(&BLOCK, UP, within));
    let bore = tell.fact(hook.bore, name("hole"), tell.origin(&BLOCK, BORE, within));
    let deep = tell.fact(hook.deep, name("depth"), tell.origin(&BLOCK, DEEP, within));
    let sides = tell
        .parts
        .of_case(back.case)
        .iter()
        .filter(|part| part.role == Role::DrawerSide && part.opening() == back.opening());
    let inner = sides.map(|side| side.side(Direction::X, true)).min_by_key(|inner| inner.length);
    let inner = inner.unwrap_or_default();
    let notch = drawer.hardware.notch.map_or_else(Size::zero, |(_, high)| {
        let origin = tell.origin(&words::notch::BLOCK, words::notch::HIGH, within);
        tell.fact(high, format!("notch of {}", drawer.slide.name), origin)
    });
    let end = inner + side - back.side(Direction::X, false);
    vec![
        tell.hardware(&about, "hook, across", hook.bore, &bore),
        tell.hardware(&about, "hook, deep", hook.deep, &deep),
        tell.length(&about, "hook, from the end", hooks.from_end, &end),
        tell.length(&about, "hook, up", hooks.up, &(notch + up)),
    ]
}
