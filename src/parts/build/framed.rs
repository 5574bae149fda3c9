//! Framed fronts: stiles, rails, and panels in their grooves.

use crate::measure::Length;
use crate::model::{JointKind, PanelBuild, PlacedRail, RailAt, Side, Size, Stock};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::Face;

use super::builder::{ACROSS, Builder, Draft, STANDING};
use super::carcass::Carcass;
use super::front::Front;
use super::fronts::{front_z, hardware, pull_centers};

/// A framed front of one opening.
pub(super) struct Framed<'f> {
    pub(super) leaf: &'f Front<'f>,
    pub(super) panel: &'f PanelBuild,
    /// From the top down.
    pub(super) rails: Vec<PlacedRail>,
    /// Its front plane.
    z: Size,
    /// How far behind that its grooves begin.
    pub(super) set_back: Size,
    /// How thick its stiles are.
    pub(super) thick: Size,
    /// How wide its grooves are: as thick as the panels, unless these are glass.
    pub(super) groove: Length,
}

/// Its parts.
pub(super) struct Made {
    /// The left and the right one.
    pub(super) stiles: [PartId; 2],
    /// From the top down.
    pub(super) rails: Vec<PartId>,
    /// Each below the rail of the same number.
    pub(super) panels: Vec<PartId>,
}

pub(super) fn build(
    builder: &mut Builder<'_>,
    carcass: &Carcass,
    leaf: &Front<'_>,
    panel: &PanelBuild,
) {
    let thick = builder.thickness(leaf.fronts.stock);
    let groove = panel.groove_wide(builder.thickness(panel.panel_stock));
    let framed = Framed {
        leaf,
        panel,
        rails: panel.rails(&leaf.high),
        z: front_z(builder, leaf),
        set_back: (&thick - &groove).half(),
        thick,
        groove: groove.length,
    };
    let made = framed.parts(builder);
    framed.grooves(builder, &made);
    framed.joints(builder, &made);
    framed.glaze(builder, &made);
    let [left, right] = made.stiles;
    let holds = match leaf.hung {
        Some(Side::Right) => [left; 2],
        Some(Side::Left) => [right; 2],
        None => {
            let pull = framed.carrier(builder, &made);
            [pull, made.rails.first().copied().unwrap_or(pull)]
        }
    };
    hardware(builder, carcass, leaf, made.stiles, holds);
}

impl Framed<'_> {
    fn parts(&self, builder: &mut Builder<'_>) -> Made {
        let (leaf, panel) = (self.leaf, self.panel);
        let [x, y] = &leaf.stands;
        let right_x = x + &leaf.wide - &panel.stile;
        let stiles = [(Side::Left, x), (Side::Right, &right_x)].map(|(side, x)| {
            let draft = self.draft(Which::At(side), Role::FrontStile, [x, y]);
            let (length, width) = (leaf.high.clone(), panel.stile.clone());
            builder.add(Draft { length, width, axes: STANDING, ..draft })
        });
        let long = &leaf.wide - &panel.stile * 2 + &panel.tenon * 2;
        let rail_x = x + &panel.stile - &panel.tenon;
        let mut rails = Vec::with_capacity(self.rails.len());
        for rail in &self.rails {
            let place = [&rail_x, &(y + &rail.low)];
            let draft = self.draft(self.which(rail.at), Role::FrontRail, place);
            let (length, width) = (long.clone(), rail.wide.clone());
            rails.push(builder.add(Draft { length, width, axes: ACROSS, ..draft }));
        }
        let solid = builder.piece.stock(panel.panel_stock).is_some_and(Stock::is_solid);
        let reach = panel.reach(solid);
        let panel_x = x + &panel.stile - &reach;
        let mut panels = Vec::with_capacity(rails.len());
        for (index, pair) in self.rails.windows(2).enumerate() {
            let [upper, lower] = pair else { continue };
            let from = lower.high() - &reach;
            let place = [&panel_x, &(y + &from)];
            let draft = self.draft(self.which_panel(index), Role::FrontPanel, place);
            let [x, y, z] = draft.stands;
            panels.push(builder.add(Draft {
                stock: panel.panel_stock,
                length: &upper.low + &reach - &from,
                width: &leaf.wide - &panel.stile * 2 + &reach * 2,
                axes: STANDING,
                stands: [x, y, z + &self.set_back],
                notes: if index == 0 { leaf.fronts.notes.clone() } else { Vec::new() },
                ..draft
            }));
        }
        Made { stiles, rails, panels }
    }

    /// A part of the front that stands there, still without a size.
    pub(super) fn draft(&self, which: Which, role: Role, [x, y]: [&Size; 2]) -> Draft {
        Draft {
            of: Of::Front(self.leaf.id),
            which,
            role,
            assembly: Assembly::Front(self.leaf.id),
            stock: self.leaf.fronts.stock,
            length: Size::zero(),
            width: Size::zero(),
            thickness: None,
            stands: Builder::stands(x, y, self.z.clone()),
            axes: STANDING,
            show: Some(Face::ThickStart),
            span: self.panel.span,
            notes: Vec::new(),
        }
    }

    /// What tells a rail from the others; of several mid rails its number from the bottom.
    fn which(&self, at: RailAt) -> Which {
        match at {
            RailAt::Top => Which::Top,
            RailAt::Bottom => Which::Bottom,
            RailAt::Mid(_) if self.panel.mids.len() == 1 => Which::Only,
            RailAt::Mid(index) => Which::Number(number(self.panel.mids.len() - index)),
        }
    }

    /// What tells a panel from the others, counted from the top.
    fn which_panel(&self, index: usize) -> Which {
        match (self.panel.mids.len(), index) {
            (0, _) => Which::Only,
            (1, 0) => Which::Top,
            (1, _) => Which::Bottom,
            (mids, _) => Which::Number(number(mids + 1 - index)),
        }
    }

    /// One groove from end to end along each inner edge.
    fn grooves(&self, builder: &mut Builder<'_>, made: &Made) {
        let [left, right] = made.stiles;
        for (stile, face) in [(left, Face::WidthEnd), (right, Face::WidthStart)] {
            // The groove of a stile beside several panels takes them all.
            let takes = match made.panels.as_slice() {
                [one] => Some(*one),
                _ => None,
            };
            self.groove(builder, stile, face, takes);
            for panel in &made.panels {
                builder.join(self.held(), *panel, stile, false, self.panel.span);
            }
        }
        for (index, panel) in made.panels.iter().enumerate() {
            for (rail, face) in [(index, Face::WidthStart), (index + 1, Face::WidthEnd)] {
                let Some(rail) = made.rails.get(rail) else { continue };
                self.groove(builder, *rail, face, Some(*panel));
                builder.join(self.held(), *panel, *rail, false, self.panel.span);
            }
        }
    }

    /// How a panel is held.
    fn held(&self) -> JointSort {
        match self.panel.glazed {
            Some(_) => JointSort::Glazed,
            None => JointSort::Floating,
        }
    }

    fn groove(&self, builder: &mut Builder<'_>, member: PartId, face: Face, takes: Option<PartId>) {
        let Some(part) = builder.part(member) else { return };
        let feature = Feature {
            kind: FeatureKind::Groove,
            face,
            u: (Length::ZERO, part.length.length),
            v: self.across(),
            deep: self.panel.groove.length,
            deep_at: None,
            takes: takes.filter(|_| self.panel.glazed.is_none()),
            span: self.panel.span,
        };
        builder.cut(member, feature);
    }

    /// Where its grooves, tenons, and mortises lie in the thickness of its parts.
    fn across(&self) -> (Length, Length) {
        let from = self.set_back.length;
        (from, from + self.groove)
    }

    /// The tenons of the rails, and the mortises that they go into.
    fn joints(&self, builder: &mut Builder<'_>, made: &Made) {
        let [left, right] = made.stiles;
        for (rail, id) in self.rails.iter().zip(&made.rails) {
            for (end, stile) in [(Face::LengthStart, left), (Face::LengthEnd, right)] {
                let feature = Feature {
                    kind: FeatureKind::Tenon,
                    face: end,
                    u: (Length::ZERO, rail.wide.length),
                    v: self.across(),
                    deep: self.panel.tenon.length,
                    deep_at: None,
                    takes: None,
                    span: self.panel.span,
                };
                builder.cut(*id, feature);
                if self.panel.is_mortised() {
                    self.mortise(builder, (rail, *id), (end, stile));
                }
                let tenon = JointSort::Wood(JointKind::Tenon);
                builder.join(tenon, *id, stile, true, self.panel.span);
            }
        }
    }

    /// The mortise for a tenon, which reaches to the grooves of its rail, and the haunch
    /// that fills the groove to the end of the stile.
    fn mortise(
        &self,
        builder: &mut Builder<'_>,
        (rail, id): (&PlacedRail, PartId),
        (end, stile): (Face, PartId),
    ) {
        let deep = self.panel.mortise().length;
        let (wide, groove) = (rail.wide.length, self.panel.groove.length);
        let set_in = self.panel.set_in(wide, builder.piece.tape().mark);
        let (haunch, (from, to)) = match rail.at {
            RailAt::Top => (Some((wide - set_in, wide)), (groove, wide - set_in)),
            RailAt::Bottom => (Some((Length::ZERO, set_in)), (set_in, wide - groove)),
            RailAt::Mid(_) => (None, (groove, wide - groove)),
        };
        let feature = |kind, face, u, deep, takes| Feature {
            kind,
            face,
            u,
            v: self.across(),
            deep,
            deep_at: None,
            takes,
            span: self.panel.span,
        };
        if let Some(u) = haunch.filter(|_| set_in.is_positive()) {
            let back = self.panel.tenon.length - self.panel.stub.length;
            builder.cut(id, feature(FeatureKind::Haunch, end, u, back, None));
        }
        let stands = |id| builder.part(id).map(|part| part.placement.origin.y);
        let Some((own, host)) = stands(id).zip(stands(stile)) else { return };
        let low = own - host;
        let inner = if end == Face::LengthStart { Face::WidthEnd } else { Face::WidthStart };
        let u = (low + from, low + to);
        builder.cut(stile, feature(FeatureKind::Mortise, inner, u, deep, Some(id)));
    }

    /// What the pull of a drawer or false front is screwed to: a rail, or the panel
    /// between two.
    fn carrier(&self, builder: &Builder<'_>, made: &Made) -> PartId {
        let first = made.panels.first().copied().unwrap_or(made.stiles[0]);
        let pull = self.leaf.fronts.pull.and_then(|pull| builder.piece.pull(pull));
        let Some(pull) = pull else { return first };
        let center = pull_centers(self.leaf, pull).first().copied();
        let Some((_, y)) = center else { return first };
        // Clear of the grooves for the panels.
        let clear = self.panel.groove.length + pull.screw.half();
        let in_wood = |rail: &PlacedRail| {
            let (low, high) = (rail.low.length, rail.high().length);
            let from = if rail.at == RailAt::Bottom { low } else { low + clear };
            let to = if rail.at == RailAt::Top { high } else { high - clear };
            from <= y && y <= to
        };
        let held = self.rails.iter().zip(&made.rails).rev().find(|(rail, _)| in_wood(rail));
        if let Some((_, rail)) = held {
            return *rail;
        }
        let below = self.rails.iter().skip(1).position(|rail| rail.low.length <= y);
        below.and_then(|index| made.panels.get(index)).copied().unwrap_or(first)
    }
}

pub(super) fn number(of: usize) -> u32 {
    u32::try_from(of).unwrap_or(u32::MAX)
}
