//! What the case stands on: kick board, separate base, legs.

use crate::measure::{Length, Unit};
use crate::model::{Base, Case, Leg, Side, Size};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::Face;

use super::builder::{ACROSS, Builder, Draft, SIDEWAYS};
use super::carcass::Carcass;

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let case = builder.case;
    if let Some(base) = case.base.clone() {
        if base.separate {
            separate(builder, &base, carcass);
            return;
        }
        kick(builder, &base, carcass);
    }
    legs(builder, carcass);
}

/// From the left side of the case to the middle of a leg.
fn leg_center(case: &Case, leg: &Leg) -> Size {
    leg.at.clone().unwrap_or_else(|| case.wide.half())
}

/// Which leg it is: numbered where there are several.
fn leg_number(case: &Case, number: u32) -> Which {
    if case.legs.len() > 1 { Which::Number(number) } else { Which::Only }
}

/// Where the rear of the kick board lies.
fn kick_rear(builder: &Builder<'_>, base: &Base) -> Size {
    &builder.planes.frame + &base.set_back + builder.thickness(base.stock)
}

/// The board behind the toe space, across the notches of both ends and flush with
/// their outer faces. Where an end stands off a wall, a strip that is scribed on site
/// fills the gap (see `plans::scribe_strips`).
fn kick(builder: &mut Builder<'_>, base: &Base, carcass: &Carcass) {
    let [left, right] = builder.carcass_sides();
    let front = &builder.planes.frame + &base.set_back;
    let id = builder.add(Draft {
        of: Of::Case(builder.id),
        which: Which::Only,
        role: Role::Kick,
        assembly: Assembly::Carcass(builder.id),
        stock: base.stock,
        length: &right - &left,
        width: base.high.clone(),
        thickness: None,
        stands: builder.stands(&left, Length::ZERO, front),
        axes: ACROSS,
        show: Some(Face::ThickStart),
        span: base.span,
        notes: base.notes.clone(),
    });
    for end in carcass.ends {
        builder.join(JointSort::Planted, id, end, true, base.span);
    }
}

/// A ladder: front and back from side to side, sleepers between them.
fn separate(builder: &mut Builder<'_>, base: &Base, carcass: &Carcass) {
    let [left, right] = builder.carcass_sides();
    let thick = builder.thickness(base.stock);
    let front_z = &builder.planes.frame + &base.set_back;
    // What stands on the base: the bottom, or the ends where the bottom lies higher.
    let lies = |id: &PartId| {
        builder.part(*id).is_some_and(|part| part.cuboid().from.y == base.high.length)
    };
    let bottom = carcass.bottom.filter(lies);
    let rear_z = match bottom {
        Some(_) => &builder.planes.inside - Size::from(beside_back(builder)) - &thick,
        None => &builder.planes.rear - &thick,
    };
    let wide = &right - &left;
    let assembly = Assembly::Base(builder.id);
    let long = |builder: &mut Builder<'_>, which, z: &Size, show: Option<Face>| {
        builder.add(Draft {
            of: Of::Case(builder.id),
            which,
            role: Role::BaseMember,
            assembly,
            stock: base.stock,
            length: wide.clone(),
            width: base.high.clone(),
            thickness: None,
            stands: builder.stands(&left, Length::ZERO, z),
            axes: ACROSS,
            show,
            span: base.span,
            notes: base.notes.clone(),
        })
    };
    let front = long(builder, Which::Front, &front_z, Some(Face::ThickStart));
    let rear = long(builder, Which::Back, &rear_z, None);
    let clear = &rear_z - &front_z - &thick;
    let screw = JointSort::Wood(crate::model::JointKind::Screw);
    // A leg is one more sleeper, where the maker wants it.
    let mut taken: Vec<(Length, Length)> = Vec::new();
    for (number, leg) in (1..).zip(&builder.case.legs.clone()) {
        let own = builder.thickness(leg.stock);
        let x = leg_center(builder.case, leg) - own.half();
        let reach = (x.length, (&x + &own).length);
        let whole = leg.wide.as_ref().is_none_or(|wide| wide.length == clear.length);
        let id = builder.add(Draft {
            of: Of::Case(builder.id),
            which: leg_number(builder.case, number),
            role: Role::BaseLeg,
            assembly,
            stock: leg.stock,
            length: leg.wide.clone().unwrap_or_else(|| clear.clone()),
            width: base.high.clone(),
            thickness: None,
            stands: builder.stands(x, Length::ZERO, &front_z + &thick),
            axes: SIDEWAYS,
            show: None,
            span: leg.span,
            notes: leg.notes.clone(),
        });
        builder.join(screw, id, front, true, leg.span);
        if whole {
            builder.join(screw, id, rear, true, leg.span);
            taken.push(reach);
        }
    }
    // A sleeper at each end and no gap wider than about 24 in between.
    let spaces = (wide.length.in_unit(Unit::Inch) / 24.into()).ceil().max(1);
    let room = &wide - &thick;
    for number in 0..=spaces {
        let x = &left + &room * number / spaces;
        // A leg from front to back does the work of a sleeper in its place.
        if taken.iter().any(|(from, to)| x.length < *to && *from < (&x + &thick).length) {
            continue;
        }
        let which = match number {
            0 => Which::At(Side::Left),
            n if n == spaces => Which::At(Side::Right),
            n => Which::Number(u32::try_from(n).unwrap_or(u32::MAX)),
        };
        let id = builder.add(Draft {
            of: Of::Case(builder.id),
            which,
            role: Role::BaseMember,
            assembly,
            stock: base.stock,
            length: clear.clone(),
            width: base.high.clone(),
            thickness: None,
            stands: builder.stands(x, Length::ZERO, &front_z + &thick),
            axes: SIDEWAYS,
            show: None,
            span: base.span,
            notes: Vec::new(),
        });
        for into in [front, rear] {
            builder.join(screw, id, into, true, base.span);
        }
    }
    let [left, right] = carcass.ends;
    let standing: Vec<(PartId, PartId)> = match bottom {
        Some(bottom) => vec![(bottom, front), (bottom, rear)],
        None => vec![(left, front), (right, front)],
    };
    for (part, into) in standing {
        builder.join(JointSort::Planted, part, into, false, base.span);
    }
}

/// How far the rear of a base that the bottom is screwed down to stands before the
/// back, so that a driver stands upright over its screws: 1 in, 25 mm (common practice,
/// no source).
fn beside_back(builder: &Builder<'_>) -> Length {
    builder.piece.tape().unit.either(Length::inches(1, 1), Length::mm(25))
}

fn legs(builder: &mut Builder<'_>, carcass: &Carcass) {
    for (number, leg) in (1..).zip(&builder.case.legs.clone()) {
        let thick = builder.thickness(leg.stock);
        let center = leg_center(builder.case, leg);
        let front = match &builder.case.base {
            Some(base) => kick_rear(builder, base),
            None => builder.planes.carcass.clone(),
        };
        let depth = match &leg.wide {
            Some(wide) => wide.clone(),
            None => &builder.planes.inside - &front,
        };
        let id = builder.add(Draft {
            of: Of::Case(builder.id),
            which: leg_number(builder.case, number),
            role: Role::Leg,
            assembly: Assembly::Carcass(builder.id),
            stock: leg.stock,
            length: depth,
            width: carcass.bottom_y.clone(),
            thickness: None,
            stands: builder.stands(center - thick.half(), Length::ZERO, front),
            axes: SIDEWAYS,
            show: None,
            span: leg.span,
            notes: leg.notes.clone(),
        });
        attach(builder, id, carcass.bottom, leg.span);
    }
}

fn attach(
    builder: &mut Builder<'_>,
    leg: PartId,
    bottom: Option<PartId>,
    span: crate::measure::Span,
) {
    if let Some(bottom) = bottom {
        builder.join(JointSort::Planted, leg, bottom, true, span);
    }
}
