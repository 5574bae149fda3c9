//! Strips on the edges of sheets: what each adds, and whether it covers its edge.

use super::board::Board;
use super::compare::Tolerance;
use super::figures::said;
use super::packet::{EdgeOn, Form, Packet, Piece, Stock};
use super::play::Play;

impl Play<'_> {
    /// A strip goes on: the board grows by it.
    pub(super) fn edge(&mut self, index: usize, work: &EdgeOn) {
        let Some(part) = self.find(index, &work.part) else { return };
        if !self.is_whole(index, part) {
            return;
        }
        let face = match self.boards[part].face(&work.face) {
            Ok(face) if face.axis < 2 => face,
            Ok(_) => return self.about(index, part, "a strip goes on an edge, not on a face"),
            Err(wrong) => return self.about(index, part, &wrong),
        };
        let [long, wide, thick] = &work.strip;
        let of_lip = self.wrong_of_lip(part, work);
        let board = &self.boards[part];
        let edge = board.size[1 - face.axis];
        let least = Tolerance::of(self.packet).mating;
        let mut wrong = Vec::new();
        match self.packet.stocks.iter().find(|stock| stock.name == work.stock) {
            None => wrong.push(format!("there is no stock {}", work.stock)),
            Some(stock) if stock.form == Form::Sheet => {
                wrong.push(format!("{} is a sheet, and its own edge shows", stock.name));
            }
            Some(stock) if stock.form == Form::Roll => {
                if (stock.thickness.exact - thick.exact).abs() > least {
                    wrong.push(format!("{} is not as thick as that", stock.name));
                }
            }
            // Ripped from boards, and as wide as these are planed.
            Some(stock) => {
                if !self.rested.contains(&stock.name) {
                    wrong.push("nobody read how damp the wood of its lip is".to_owned());
                }
                if (stock.thickness.exact - wide.exact).abs() > least {
                    wrong.push(format!("no strip of {} is as wide as that", stock.name));
                }
                wrong.extend(of_lip);
            }
        }
        if wide.exact < board.size[2] - self.off.slack() - least {
            wrong.push(format!(
                "the strip is {} wide and the board {} thick",
                said(wide.exact),
                said(board.size[2])
            ));
        }
        if long.exact < edge {
            wrong.push(format!("the strip is {} long, its edge {}", said(long.exact), said(edge)));
        }
        if !board.cuts.is_empty() {
            wrong.push("its joints are cut already".to_owned());
        }
        if board.closed.is_some() {
            wrong.push("it is built in already".to_owned());
        }
        if board.edged.iter().any(|(own, _)| *own == face) {
            wrong.push(format!("its {} has a strip already", work.face));
        }
        for wrong in wrong {
            self.about(index, part, &wrong);
        }
        let roll = self.packet.stocks.iter().find(|stock| stock.name == work.stock);
        let roll = roll.is_some_and(|stock| stock.form == Form::Roll);
        let board = &mut self.boards[part];
        // Banding is as thick as it was bought, whatever is printed.
        board.size[face.axis] += if roll { thick.exact } else { thick.print };
        board.exact[face.axis] += thick.exact;
        board.edged.push((face, work.stock.clone()));
    }
}

impl Play<'_> {
    /// What is wrong with what a lip is ripped from, which is narrower by it and a blade then.
    fn wrong_of_lip(&mut self, part: usize, work: &EdgeOn) -> Option<String> {
        let own = self.boards[part].part;
        let is_lip = |stock: &Stock| stock.name == work.stock && stock.form == Form::Boards;
        if own.cut || !self.packet.stocks.iter().any(is_lip) {
            return None;
        }
        let kerf = self.packet.shop.kerf.exact;
        let Some(rough) = self.for_lip(&own.mark, &work.face)? else {
            return Some("no board gives its lip".to_owned());
        };
        let [long, _, thick] = &work.strip;
        let is_small = rough.size[0] < long.exact || rough.size[1] < thick.exact;
        rough.size[1] -= thick.exact + kerf;
        match () {
            () if rough.stock != work.stock => {
                Some(format!("its lip is ripped from {}", rough.stock))
            }
            () if is_small => Some("its lip is ripped from too small a piece".to_owned()),
            () => None,
        }
    }
}

impl Play<'_> {
    /// The covered edge that a bit comes out through without scrap against it.
    pub(super) fn tears(&self, part: usize, piece: &Piece) -> Option<String> {
        let board = &self.boards[part];
        let to = &piece.feed.as_ref()?.to;
        let out = board.face(to).ok()?;
        let stops = piece.stops.iter().any(|stop| stop.of == *to);
        let is_covered = board.edged.iter().any(|(face, _)| *face == out);
        let is_backed = piece.scrap.as_ref() == Some(to);
        (is_covered && !stops && !is_backed)
            .then(|| format!("the bit comes out through what covers its {to}, and tears it"))
    }
}

/// What is wrong with the edges of a board as it was made.
pub(super) fn wrong(packet: &Packet, board: &Board<'_>) -> Vec<String> {
    let least = Tolerance::of(packet).mating;
    let mut wrong = Vec::new();
    for edge in &board.part.edges {
        let face = board.face(&edge.face);
        let is_there =
            |(own, stock): &(_, String)| face.as_ref() == Ok(own) && *stock == edge.stock;
        if !board.edged.iter().any(is_there) {
            wrong.push(format!("its {} is not covered with {}", edge.face, edge.stock));
        }
        if edge.thick.exact <= least {
            wrong.push(format!("the strip on its {} has no thickness", edge.face));
        }
    }
    if board.edged.len() > board.part.edges.len() {
        wrong.push("an edge is covered that is drawn bare".to_owned());
    }
    wrong
}
