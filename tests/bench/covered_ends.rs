//! Ends of kicks and bases that are seen: only a sheet has plies, and a strip of veneer is as
//! large as the end that it goes on.

use super::packet::{CoverEnds, EndCover};
use super::play::Play;

impl Play<'_> {
    /// Veneer is ironed onto an end, or its plies are filled.
    pub(super) fn cover_ends(&mut self, index: usize, work: &CoverEnds) {
        let Some(part) = self.find(index, &work.part) else { return };
        if !self.is_whole(index, part) {
            return;
        }
        if !self.is_sheet(&self.boards[part]) {
            self.about(index, part, "it has no plies to hide");
        }
        for name in &work.faces {
            match self.boards[part].face(name) {
                Ok(face) if face.axis == 0 => {}
                Ok(_) => self.about(index, part, &format!("its {name} is no end")),
                Err(wrong) => self.about(index, part, &wrong),
            }
        }
        let half = self.packet.job.tape.exact / 2.0;
        let [_, high, thick] = self.boards[part].exact;
        match (work.with, &work.strip) {
            (EndCover::Filler, None) => {}
            (EndCover::Filler, Some(_)) => self.about(index, part, "filler comes in no strips"),
            (EndCover::Veneer, None) => {
                self.about(index, part, "nobody says how large its veneer is");
            }
            (EndCover::Veneer, Some([long, wide])) => {
                if long.print < high - half || wide.print < thick - half {
                    self.about(index, part, "its veneer is smaller than its end");
                }
            }
        }
    }
}

#[cfg(test)]
mod spoiled {
    use serde_json::{Value, json};

    use crate::bench::demos;
    use crate::bench::spoiled::{noticed, operation};
    use crate::support::{compile, spec};

    #[test]
    fn veneer_is_as_large_as_the_end_that_it_covers() {
        let packet = demos::packet(&compile(&spec("first.case"))).unwrap();
        let packet = || serde_json::from_str::<Value>(&packet).unwrap();
        let short = |packet: &mut Value| {
            operation(packet, "cover ends", 0)["strip"][0] = json!({"exact": "4", "print": "4"});
        };
        noticed(packet(), short, "its veneer is smaller than its end");
        let face = |packet: &mut Value| {
            operation(packet, "cover ends", 0)["faces"] = json!(["front face"]);
        };
        noticed(packet(), face, "its front face is no end");
    }
}
