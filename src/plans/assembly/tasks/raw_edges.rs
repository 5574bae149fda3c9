//! Edges of MDF that are sealed before a finish goes on them.

use crate::model::StockKind;
use crate::parts::{Part, Role};
use crate::plans::finish;
use crate::trade::{self, Sanding};

use super::Maker;

impl Maker<'_, '_> {
    /// How the sawn edges of MDF are made ready for what lies on the wood: they drink it, and
    /// their fibers stand up (common practice, no source).
    pub(super) fn edges_sealed(&self) -> Option<String> {
        let raw = self.ids(|part| self.is_raw(part) && self.is_covered_by_finish(part));
        (!raw.is_empty()).then(|| {
            format!(
            "then seal the sawn edges of MDF, which drink the finish and turn rough under it: brush on sanding sealer, or wood glue thinned with an equal amount of water, let it dry, sand it smooth with the finest grit, and do it once more: {}",
            self.marks(&raw)
        )
        })
    }

    /// True for a board of MDF with an edge that is seen and that no strip covers.
    fn is_raw(&self, part: &Part) -> bool {
        let of_mdf = self.piece.stock(part.stock).is_some_and(|stock| stock.kind == StockKind::Mdf);
        let framed = self.piece.case(part.case).is_some_and(|case| case.frame.is_some());
        of_mdf
            && match part.role {
                Role::Slab | Role::Cover | Role::Countertop | Role::Filler => part.strips.len() < 4,
                Role::AdjustableShelf => part.strips.is_empty(),
                // A face frame covers their front edges.
                Role::End(_)
                | Role::Top
                | Role::Bottom
                | Role::Partition
                | Role::Divider
                | Role::FixedShelf => part.strips.is_empty() && !framed,
                Role::Post(_)
                | Role::EndRail(_)
                | Role::EndPanel(_)
                | Role::Stretcher
                | Role::Nailer(_)
                | Role::Back
                | Role::WebRail
                | Role::WebRunner
                | Role::DustPanel
                | Role::Leg
                | Role::Kick
                | Role::BaseMember
                | Role::BaseLeg
                | Role::Stile
                | Role::Rail
                | Role::FrontStile
                | Role::FrontRail
                | Role::FrontPanel
                | Role::Bead
                | Role::DrawerSide
                | Role::DrawerFront
                | Role::DrawerBack
                | Role::DrawerBottom
                | Role::Packer
                | Role::HingeBlock
                | Role::HoldingBlock
                | Role::Guide
                | Role::Kicker
                | Role::Runner
                | Role::Stop
                | Role::Batten => false,
            }
    }

    /// True where its finish lies on the wood.
    fn is_covered_by_finish(&self, part: &Part) -> bool {
        let own = finish::of_part(self.piece, part).and_then(|id| self.piece.finish(id));
        let kind = own.and_then(|own| trade::finish_named(own.kind.slug()));
        kind.is_some_and(|kind| kind.sanding == Sanding::LiesOn)
    }
}
