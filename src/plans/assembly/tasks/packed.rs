//! What fills the room beside the openings: packers, blocks of hinges, and guides.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::parts::{Joint, Part, PartId, Role};
use crate::plans::fitting;
use crate::trade;

use super::Maker;
use super::openings::Kind;

impl Maker<'_, '_> {
    /// How parts are fixed that lie on others: where one of them lies on a face that came
    /// with a finish, screws hold it alone.
    pub(super) fn glue_and_screw(&self, parts: &[PartId]) -> &'static str {
        let own = |joint: &&Joint| parts.contains(&joint.part);
        match self.parts.joints.iter().filter(own).all(|joint| joint.glued) {
            true => "glue and screw",
            false => "screw (no glue, which does not hold on a finish)",
        }
    }

    /// What guides among these lose toward their rear ends, so that a drawer never wedges.
    fn tapered(&self, own: &[PartId]) -> Option<String> {
        let guides: Vec<PartId> = own
            .iter()
            .copied()
            .filter(|id| self.parts.get(*id).is_some_and(|part| part.role == Role::Guide))
            .collect();
        let tape = self.piece.tape();
        (!guides.is_empty()).then(|| {
            format!(
                "then plane {} thinner toward the rear end, the two of a drawer by {} together, so that it never wedges",
                self.marks(&guides),
                self.text(trade::guides_open(tape.unit))
            )
        })
    }

    /// The packers that stand between posts, and the others.
    pub(super) fn between_posts(&self, packers: &[PartId]) -> (Vec<PartId>, Vec<PartId>) {
        packers.iter().partition(|id| {
            let part = self.parts.get(**id);
            part.is_some_and(|part| fitting::is_between_posts(self.piece, part))
        })
    }

    /// How those are fixed.
    pub(super) fn set_between_posts(&self, packers: &[PartId]) -> Option<String> {
        (!packers.is_empty()).then(|| {
            format!(
                "set {} on the lines of the layout sheet between the front and the back post, hold a straightedge across both posts and the packer until all three are flush, and drive the pocket screws at both ends, without glue",
                self.marks(packers)
            )
        })
    }

    pub(super) fn packers_late(&self, packed: &[(Length, Vec<PartId>)]) -> Kind {
        let side = |part: &Part| matches!(part.role, Role::Packer | Role::HingeBlock | Role::Guide);
        let parts = self.ids(side);
        let named =
            |role: Role, name| self.parts.all.iter().any(|part| part.role == role).then_some(name);
        let kinds = [
            named(Role::Packer, "packers"),
            named(Role::HingeBlock, "hinge blocks"),
            named(Role::Guide, "guides"),
        ];
        let names: Vec<&str> = kinds.into_iter().flatten().collect();
        let name = listed(&names);
        let is_sheet = |id: &PartId| {
            let stock = self.parts.get(*id).and_then(|part| self.piece.stock(part.stock));
            stock.is_some_and(|stock| !stock.is_solid())
        };
        let lines = packed.iter().map(|(clear, own)| match clear.is_zero() {
            // A sheet keeps its thickness.
            true if own.iter().all(is_sheet) => format!(
                "measure from the side of the case to the edge of the opening: {} are of a sheet, which isn't planed; where you measure more than it is thick, glue veneer or card to it, and where you measure less, make them of lumber and plane them to fill that",
                self.marks(own)
            ),
            true => {
                let which = match own.len() == parts.len() {
                    true => format!("the {name}"),
                    false => self.marks(own),
                };
                let tapered = self.tapered(own).map_or(String::new(), |own| format!(" at its front end; {own}"));
                format!("measure from the side of the case to the edge of the opening, and plane {which} to fill that{tapered}")
            }
            false => format!(
                "measure from the side of the case to the edge of the opening, and plane {} {} thicker than that, so that what slides behind the doors passes them open; before you cut its boxes, hang a scrap as thick as the doors on one of their hinges, open it as far as it goes in the house, and see that it takes less than {} of the opening",
                self.marks(own),
                self.text(*clear),
                self.text(*clear)
            ),
        });
        let between = self.ids(|part| fitting::is_between_posts(self.piece, part));
        let posted = (!between.is_empty()).then(|| {
            let marks = self.marks(&between);
            let tapered =
                self.tapered(&between).map_or(String::new(), |tapered| format!("; {tapered}"));
            format!("plane {marks} to the thickness on the cut list, and cut them to fit between the front and the back posts{tapered}")
        });
        let behind = self.ids(|part| fitting::is_behind_stile(self.piece, part));
        let stiled = (!behind.is_empty()).then(|| {
            let (marks, tapered) = (self.marks(&behind), self.tapered(&behind).unwrap_or_default());
            format!("plane {marks} to the thickness on the cut list, so that those behind one stile are together no thicker than the stile is wide, and cut them to the length on the cut list; {tapered}")
        });
        let lines = lines.chain(posted).chain(stiled).collect();
        Kind { names, parts, lines }
    }

    /// The packers and blocks beside the openings, by how far they reach past the edge
    /// of theirs.
    pub(super) fn packed(&self) -> Vec<(Length, Vec<PartId>)> {
        let mut found: Vec<(Length, Vec<PartId>)> = Vec::new();
        let fills = |part: &Part| {
            matches!(part.role, Role::Packer | Role::HingeBlock | Role::Guide)
                && !fitting::is_between_posts(self.piece, part)
                && !fitting::is_behind_stile(self.piece, part)
        };
        for id in self.ids(fills) {
            let clear = self.parts.get(id).map_or(Length::ZERO, |part| self.past_edge(part));
            match found.iter_mut().find(|(known, _)| *known == clear) {
                Some((_, parts)) => parts.push(id),
                None => found.push((clear, vec![id])),
            }
        }
        found.sort_by_key(|(clear, _)| *clear);
        found
    }
}
