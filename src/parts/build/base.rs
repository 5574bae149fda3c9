//! What the case stands on: kick board, separate base, legs.

use crate::measure::{Length, Unit};
use crate::model::{Base, Case, CaseId, Leg, LegPlace, Row, Side, Size};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Direction, Face};

use super::builder::{ACROSS, Builder, Draft, SIDEWAYS};
use super::carcass::Carcass;

pub(super) fn build(builder: &mut Builder<'_>, carcass: &Carcass) {
    let case = builder.case;
    if let Some(base) = case.base.clone() {
        let stands = Stands::of(builder);
        if base.separate {
            let long = match stands.is_built(builder) {
                Some(first) => stands.long(builder, first),
                None => Some(separate(builder, &base, carcass, &stands)),
            };
            if let Some(long) = long {
                let lies = lying_bottom(builder, carcass, &base);
                set_on(builder, &base, carcass, lies, long);
            }
            return;
        }
        let id = match stands.is_built(builder) {
            Some(first) => builder.shared(first, Role::Kick, Which::Only),
            None => Some(kick(builder, &base, &stands)),
        };
        for end in carcass.ends {
            if let Some(id) = id {
                builder.join(JointSort::Planted, id, end, false, base.span);
            }
        }
    }
    legs(builder, carcass);
}

/// What stands on one base: a case, or cases of a run side by side.
struct Stands {
    of: Of,
    /// The cases of a run that it is made for; `None` for a case by itself.
    row: Option<Row>,
    /// Where the sides of each carcass lie, from the left side of the first case.
    sides: Vec<[Size; 2]>,
    /// The legs of all of them, each with its middle from there.
    legs: Vec<(Size, Leg)>,
}

impl Stands {
    fn of(builder: &Builder<'_>) -> Self {
        let (piece, own) = (builder.piece, builder.case);
        let row = piece.base_row(own.id);
        let of = row.map_or(Of::Case(own.id), |row| Of::Row(row.first));
        let cases: Vec<&Case> = match row {
            Some(row) => piece.of_row(row).collect(),
            None => vec![own],
        };
        let (mut sides, mut legs, mut at) = (Vec::new(), Vec::new(), Size::zero());
        for (number, case) in cases.into_iter().enumerate() {
            let fill = |side| case.filler(side).map_or_else(Size::zero, |own| own.wide.clone());
            if number > 0 {
                at = at + fill(Side::Left);
            }
            let right = &at + &case.wide - case.set_in(Side::Right);
            sides.push([&at + case.set_in(Side::Left), right]);
            legs.extend(case.legs.iter().map(|leg| (&at + leg_center(case, leg), leg.clone())));
            at = at + &case.wide + fill(Side::Right);
        }
        Self { of, row, sides, legs }
    }

    /// The first case of the row where that is another one, which has the base already.
    fn is_built(&self, builder: &Builder<'_>) -> Option<CaseId> {
        self.row.map(|row| row.first).filter(|first| *first != builder.id)
    }

    /// The front and the back of the base of a row.
    fn long(&self, builder: &Builder<'_>, first: CaseId) -> Option<[PartId; 2]> {
        let of = |which| builder.shared(first, Role::BaseMember, which);
        Some([of(Which::Front)?, of(Which::Back)?])
    }

    /// The left side of the leftmost carcass and the right side of the rightmost.
    fn outer(&self) -> [Size; 2] {
        let left = self.sides.first().map(|[left, _]| left.clone());
        let right = self.sides.last().map(|[_, right]| right.clone());
        [left.unwrap_or_default(), right.unwrap_or_default()]
    }

    /// Where the left face of each sleeper lies that must be there: one at each end, one
    /// under every two ends that touch, and one under each that stands apart.
    fn borne(&self, thick: &Size) -> Vec<Size> {
        let mut borne: Vec<Size> =
            self.sides.first().map(|[left, _]| left.clone()).into_iter().collect();
        for pair in self.sides.windows(2) {
            let [[_, end], [next, _]] = pair else { continue };
            match end.length == next.length {
                true => borne.push(end - thick.half()),
                false => borne.extend([end - thick, next.clone()]),
            }
        }
        borne.extend(self.sides.last().map(|[_, right]| right - thick));
        borne
    }
}

/// From the left side of the case to the middle of a leg.
fn leg_center(case: &Case, leg: &Leg) -> Size {
    match &leg.at {
        LegPlace::Middle => case.wide.half(),
        LegPlace::From(Side::Left, at) => at.clone(),
        LegPlace::From(Side::Right, at) => &case.wide - at,
    }
}

/// Which leg it is: numbered where there are several.
fn leg_number(legs: usize, number: u32) -> Which {
    if legs > 1 { Which::Number(number) } else { Which::Only }
}

/// Where the rear of the kick board lies.
fn kick_rear(builder: &Builder<'_>, base: &Base) -> Size {
    &builder.planes.frame + &base.set_back + builder.thickness(base.stock)
}

/// The board behind the toe space, across the notches of all ends and flush with the
/// outer faces of the outermost. Where an end stands off a wall, a strip that is scribed
/// on site fills the gap (see `plans::scribe_strips`). It goes on where the piece stands
/// level, without glue, which does not hold on a finish: wood is left on at its lower edge
/// to be scribed to the floor.
fn kick(builder: &mut Builder<'_>, base: &Base, stands: &Stands) -> PartId {
    let [left, right] = stands.outer();
    let front = &builder.planes.frame + &base.set_back;
    let id = builder.add(Draft {
        of: stands.of,
        which: Which::Only,
        role: Role::Kick,
        assembly: Assembly::Loose(builder.id),
        stock: base.stock,
        length: &right - &left,
        width: base.high.clone(),
        thickness: None,
        stands: Builder::stands(&left, Length::ZERO, front),
        axes: ACROSS,
        show: Some(Face::ThickStart),
        span: base.span,
        notes: base.notes.clone(),
    });
    builder.leave_on(id, [(Direction::Y, true)], &base.scribe);
    id
}

/// The bottom where it lies on the base; else the ends stand there.
fn lying_bottom(builder: &Builder<'_>, carcass: &Carcass, base: &Base) -> Option<PartId> {
    let lies = |id: &PartId| {
        builder.part(*id).is_some_and(|part| part.cuboid().from.y == base.high.length)
    };
    carcass.bottom.filter(lies)
}

/// What stands on the front and the back of a base: the bottom, or both ends where it
/// lies higher.
fn set_on(
    builder: &mut Builder<'_>,
    base: &Base,
    carcass: &Carcass,
    bottom: Option<PartId>,
    [front, rear]: [PartId; 2],
) {
    let [left, right] = carcass.ends;
    let standing: Vec<(PartId, PartId)> = match bottom {
        Some(bottom) => vec![(bottom, front), (bottom, rear)],
        None => vec![(left, front), (right, front)],
    };
    for (part, into) in standing {
        builder.join(JointSort::Planted, part, into, false, base.span);
    }
}

/// A ladder: front and back from side to side, sleepers between them. The front and the
/// back of it.
fn separate(
    builder: &mut Builder<'_>,
    base: &Base,
    carcass: &Carcass,
    stands: &Stands,
) -> [PartId; 2] {
    let [left, right] = stands.outer();
    let thick = builder.thickness(base.stock);
    let front_z = &builder.planes.frame + &base.set_back;
    let rear_z = match lying_bottom(builder, carcass, base) {
        Some(_) => &builder.planes.inside - &base.driver_room - &thick,
        None => &builder.planes.rear - &thick,
    };
    // A baseboard that stays is before the wall.
    let clear = builder.piece.site.baseboard.as_ref();
    let clear = clear.map(|own| &builder.case.deep - own.out() - &thick);
    let rear_z = clear.filter(|clear| clear.length < rear_z.length).unwrap_or(rear_z);
    let wide = &right - &left;
    let assembly = Assembly::Base(builder.id);
    let long = |builder: &mut Builder<'_>, which, z: &Size, show: Option<Face>| {
        builder.add(Draft {
            of: stands.of,
            which,
            role: Role::BaseMember,
            assembly,
            stock: base.stock,
            length: wide.clone(),
            width: base.high.clone(),
            thickness: None,
            stands: Builder::stands(&left, Length::ZERO, z),
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
    for (number, (center, leg)) in (1..).zip(&stands.legs) {
        let own = builder.thickness(leg.stock);
        let x = center - own.half();
        let reach = (x.length, (&x + &own).length);
        let whole = leg.wide.as_ref().is_none_or(|wide| wide.length == clear.length);
        let id = builder.add(Draft {
            of: stands.of,
            which: leg_number(stands.legs.len(), number),
            role: Role::BaseLeg,
            assembly,
            stock: leg.stock,
            length: leg.wide.clone().unwrap_or_else(|| clear.clone()),
            width: base.high.clone(),
            thickness: None,
            stands: Builder::stands(x, Length::ZERO, &front_z + &thick),
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
    let sleepers = sleepers(&stands.borne(&thick), &thick);
    let last = sleepers.len().saturating_sub(1);
    for (number, x) in sleepers.into_iter().enumerate() {
        // A leg from front to back does the work of a sleeper in its place.
        if taken.iter().any(|(from, to)| x.length < *to && *from < (&x + &thick).length) {
            continue;
        }
        let which = match number {
            0 => Which::At(Side::Left),
            n if n == last => Which::At(Side::Right),
            n => Which::Number(u32::try_from(n).unwrap_or(u32::MAX)),
        };
        let id = builder.add(Draft {
            of: stands.of,
            which,
            role: Role::BaseMember,
            assembly,
            stock: base.stock,
            length: clear.clone(),
            width: base.high.clone(),
            thickness: None,
            stands: Builder::stands(x, Length::ZERO, &front_z + &thick),
            axes: SIDEWAYS,
            show: None,
            span: base.span,
            notes: Vec::new(),
        });
        for into in [front, rear] {
            builder.join(screw, id, into, true, base.span);
        }
    }
    [front, rear]
}

/// Where the left face of every sleeper lies: those that must be there, and as many more
/// between two of them as leave no gap wider than about 24 in.
fn sleepers(borne: &[Size], thick: &Size) -> Vec<Size> {
    let mut all: Vec<Size> = borne.first().cloned().into_iter().collect();
    for pair in borne.windows(2) {
        let [from, to] = pair else { continue };
        let room = to - from;
        let wide = &room + thick;
        let spaces = (wide.length.in_unit(Unit::Inch) / 24).ceil().max(1);
        all.extend((1..=spaces).map(|number| from + &room * number / spaces));
    }
    all
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
            which: leg_number(builder.case.legs.len(), number),
            role: Role::Leg,
            assembly: Assembly::Carcass(builder.id),
            stock: leg.stock,
            length: depth,
            width: carcass.bottom_y.clone(),
            thickness: None,
            stands: Builder::stands(center - thick.half(), Length::ZERO, front),
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
