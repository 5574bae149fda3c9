//! How the mitered edges of a task are sawn, told once for what is sawn alike.

use std::collections::BTreeMap;

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::plans::sawing::{Bevel, Tool};

use super::Maker;
use super::joints::Cut;

/// What lies at the saw alike: the tool, the names of its edge and its upper face, and where
/// the blade is.
type Alike = (Tool, String, String, Length);

impl Maker<'_, '_> {
    /// Where the fence or the straight-edge is set for each miter along an edge.
    pub(super) fn sawn_miters(&self, cuts: &[Cut]) -> Vec<String> {
        let tape = self.piece.tape();
        let mut found: BTreeMap<Alike, Vec<&str>> = BTreeMap::new();
        for (id, number) in cuts {
            let Some(part) = self.parts.get(*id) else { continue };
            let Some(feature) = part.features.get(*number) else { continue };
            let Some(own) = Bevel::of(&self.piece.shop, tape.unit, part, feature) else { continue };
            let alike = (own.tool, part.face_name(own.on), part.face_name(own.up), own.at);
            found.entry(alike).or_default().push(&part.mark);
        }
        let mut lines = Vec::new();
        let all = |tool: Tool| found.keys().any(|(own, ..)| *own == tool);
        if all(Tool::Fence) {
            lines.push("at the table saw tilt the blade to 45 degrees, away from the fence, so that the strip that comes off lies free; first miter two scraps of the same thickness, and check the pair with a square".to_owned());
        }
        let settings = found.iter().map(|((tool, on, up, at), marks)| {
            let (marks, at) = (listed(marks), self.text(*at));
            match tool {
                Tool::Fence => format!("{marks}: {up} up, {on} at the fence, {at} from the fence to the blade where it leaves the table; come up to it in two cuts, until the miter just reaches the upper corner"),
                Tool::Sled | Tool::Guide => format!("{marks}: {up} up on the bench; strike a line {at} from the {on}, and run a saw that is tilted 45 degrees outward along a straight-edge on it: it comes out at the lower corner"),
            }
        });
        lines.extend(settings);
        if !found.is_empty() {
            lines.push("stand beside the strip that comes off, not behind it, and push each board right past the blade".to_owned());
        }
        lines
    }
}
