//! Framed fronts with glass: the rabbets behind it, and the beads in them.

use crate::measure::Length;
use crate::model::{Glazed, Side, Size};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::space::Face;

use super::builder::{ACROSS, Builder, Draft, STANDING};
use super::framed::{Framed, Made, number};

impl Framed<'_> {
    /// Cuts off what lies behind the grooves, and puts beads behind the panes.
    pub(super) fn glaze(&self, builder: &mut Builder<'_>, made: &Made) {
        let Some(glazed) = &self.panel.glazed else { return };
        for index in 0..made.panels.len() {
            self.rabbets(builder, made, index);
        }
        for index in 0..made.panels.len() {
            self.beads(builder, made, glazed, index);
        }
    }

    /// The lower and the upper edge of a light, from the bottom of the front.
    fn light(&self, index: usize) -> Option<[Size; 2]> {
        let (upper, lower) = (self.rails.get(index)?, self.rails.get(index + 1)?);
        Some([lower.high(), upper.low.clone()])
    }

    /// The rabbets round a light: in both stiles, and in the rails above and below it.
    fn rabbets(&self, builder: &mut Builder<'_>, made: &Made, index: usize) {
        let Some([low, high]) = self.light(index) else { return };
        let deep = self.panel.groove.length;
        let (from, to) = (low.length - deep, high.length + deep);
        let [left, right] = made.stiles;
        let wide = self.panel.stile.length;
        self.rabbet(builder, left, (from, to), (wide - deep, wide));
        self.rabbet(builder, right, (from, to), (Length::ZERO, deep));
        for (rail, above) in [(index, true), (index + 1, false)] {
            let (Some(id), Some(placed)) = (made.rails.get(rail), self.rails.get(rail)) else {
                continue;
            };
            let Some(long) = builder.part(*id).map(|part| part.length.length) else { continue };
            // Past its shoulders, where its groove took the tenon away already.
            let free = (self.panel.tenon.length - deep).max(Length::ZERO);
            let across = match above {
                true => (Length::ZERO, deep),
                false => (placed.wide.length - deep, placed.wide.length),
            };
            self.rabbet(builder, *id, (free, long - free), across);
        }
    }

    /// A rabbet in the back face, as deep as the glass lies.
    fn rabbet(
        &self,
        builder: &mut Builder<'_>,
        member: PartId,
        u: (Length, Length),
        v: (Length, Length),
    ) {
        let lip = self.thick.length - self.set_back.length - self.groove;
        let feature = Feature {
            kind: FeatureKind::Glazing(lip),
            face: Face::ThickEnd,
            u,
            v,
            deep: lip + self.groove,
            deep_at: None,
            takes: None,
            span: self.panel.span,
        };
        builder.cut(member, feature);
    }

    /// The beads round a light: those along the rails run through, and those along the stiles
    /// stand between them.
    fn beads(&self, builder: &mut Builder<'_>, made: &Made, glazed: &Glazed, index: usize) {
        let Some([low, high]) = self.light(index) else { return };
        let (panel, wide) = (self.panel, &self.panel.groove);
        let glass = builder.thickness(panel.panel_stock);
        let thickness = &self.thick - &self.set_back - &glass - &glazed.shy;
        let [x, y] = &self.leaf.stands;
        let left = x + &panel.stile - wide;
        let right = x + &self.leaf.wide - &panel.stile;
        let lights = made.panels.len();
        let light = number(lights - index);
        let [left_stile, right_stile] = made.stiles;
        let (upper, lower) = (made.rails.get(index), made.rails.get(index + 1));
        let across = &self.leaf.wide - &panel.stile * 2 + wide * 2;
        let upright = &high - &low;
        let all = [
            (false, Which::Top, upper, [&left, &(y + &high)]),
            (false, Which::Bottom, lower, [&left, &(y + &low - wide)]),
            (true, Which::At(Side::Left), Some(&left_stile), [&left, &(y + &low)]),
            (true, Which::At(Side::Right), Some(&right_stile), [&right, &(y + &low)]),
        ];
        for (stands, which, into, place) in all {
            let Some(into) = into.copied() else { continue };
            let which = match (lights, which) {
                (1, own) => own,
                (_, Which::At(side)) => Which::AtNumber(side, light),
                (_, Which::Bottom) => Which::Number(light * 2 - 1),
                (_, _) => Which::Number(light * 2),
            };
            let draft = self.draft(which, Role::Bead, place);
            let [x, y, z] = draft.stands;
            let bead = builder.add(Draft {
                stock: glazed.beads,
                length: if stands { upright.clone() } else { across.clone() },
                width: wide.clone(),
                thickness: Some(thickness.clone()),
                axes: if stands { STANDING } else { ACROSS },
                stands: [x, y, z + &self.set_back + &glass],
                show: Some(Face::ThickEnd),
                ..draft
            });
            builder.join(JointSort::Pinned, bead, into, false, panel.span);
        }
    }
}
