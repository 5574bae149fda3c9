//! A sheet or a board cut by cut, in exact lengths.

use std::collections::VecDeque;

use crate::cutting::{Node, Way, What};
use crate::measure::{Length, Unit};
use crate::model::{Sheet, Shop};
use crate::trade;

use super::{Blank, Source, Tool};

/// A rectangle of a sheet or a board: where it begins along and across what is trimmed, and
/// its size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Area {
    /// From the corner at which the sheet is measured.
    pub at: [Length; 2],
    /// Along and across.
    pub size: [Length; 2],
}

/// A blank in its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Laid {
    /// What it is.
    pub blank: Blank,
    /// Where it lies.
    pub area: Area,
    /// It lies across the sheet.
    pub turned: bool,
    /// The number of the cut that frees it; nothing where the sheet is the blank.
    pub cut: usize,
}

/// What comes off with a cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Gives {
    /// A blank, by its place among those of the sheet.
    Blank(usize),
    /// A piece that is cut on, by its name.
    Piece(String),
    /// What is lost of a board, with what is left over before it.
    Lost,
}

/// Cuts of one setting in one piece, which follow each other.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// The numbers of the first and the last of them on their sheet.
    pub numbers: (usize, usize),
    /// The piece that is cut; empty for the sheet.
    pub from: String,
    /// Where that lies.
    pub area: Area,
    /// Which way.
    pub way: Way,
    /// How wide or long is what comes off.
    pub off: Length,
    /// What a cut in a sheet is made with; nothing is said of boards, which are rough.
    pub tool: Option<Tool>,
    /// What there is then, in the order in which it comes off.
    pub gives: Vec<Gives>,
    /// Where each of the cuts begins, along what it divides.
    pub lines: Vec<Length>,
}

/// A sheet or a board, or a piece on hand, as it is sawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Sawn {
    /// Its number among all of the job.
    pub number: usize,
    /// It is on hand, and not bought.
    pub on_hand: bool,
    /// Its size before it is trimmed.
    pub size: [Length; 2],
    /// What is trimmed off each edge of a sheet first.
    pub trim: Length,
    /// The stretches along a board that are lost, its ends among them.
    pub lost: Vec<(Length, Length)>,
    /// What is sawn from it.
    pub laid: Vec<Laid>,
    /// What is left over.
    pub left: Vec<Area>,
    /// The cuts, in their order.
    pub cuts: Vec<Cut>,
}

/// What sheets and boards are sawn by.
pub(in crate::plans) struct Saw<'s> {
    pub(in crate::plans) shop: &'s Shop,
    pub(in crate::plans) unit: Unit,
    pub(in crate::plans) blanks: &'s [Blank],
    /// What they lie in; nothing for boards, of whose cuts no machine is named.
    pub(in crate::plans) sheet: Option<&'s Sheet>,
    /// What would be no more than a strip is left on a blank, since the board is as large as
    /// it is and no larger.
    pub(in crate::plans) keeps_strips: bool,
}

/// A stretch of a board between what is lost, and its cuts.
pub(in crate::plans) struct Clear<'n> {
    pub(in crate::plans) from: Length,
    pub(in crate::plans) to: Length,
    pub(in crate::plans) root: &'n Node,
}

/// A piece that waits to be cut on.
struct Waiting<'n> {
    node: &'n Node,
    area: Area,
    name: String,
    /// The cut that freed it.
    cut: usize,
}

impl Sawn {
    fn of(number: usize, source: &Source) -> Self {
        Self {
            number,
            on_hand: source.on_hand,
            size: source.size,
            trim: source.trim,
            lost: source.lost.clone(),
            laid: Vec::new(),
            left: Vec::new(),
            cuts: Vec::new(),
        }
    }
}

impl Saw<'_> {
    /// A sheet as it is sawn: all cuts one way through it, and then those of each piece
    /// that comes of them.
    pub(in crate::plans) fn sheet(&self, number: usize, source: &Source, root: &Node) -> Sawn {
        let mut sawn = Sawn::of(number, source);
        let area = Area { at: [Length::ZERO; 2], size: source.inside() };
        let mut waiting = VecDeque::new();
        let mut whole = self.piece(root, area, 0, ("", &mut 0));
        whole.name = String::new();
        self.take(whole, &mut sawn, &mut waiting);
        self.cut_on(0, waiting, &mut sawn);
        sawn
    }

    /// A board as it is sawn: crosscuts along it first, past what is lost, and then the cuts
    /// of each length that comes of them.
    pub(in crate::plans) fn board(
        &self,
        number: usize,
        source: &Source,
        clear: &[Clear<'_>],
    ) -> Sawn {
        let mut sawn = Sawn::of(number, source);
        let [long, wide] = source.size;
        let whole = Area { at: [Length::ZERO; 2], size: source.size };
        let whole = Waiting { node: &Node::left([0, 0]), area: whole, name: String::new(), cut: 0 };
        let mut waiting = VecDeque::new();
        let (mut at, mut cuts, mut name) = (Length::ZERO, 0, 0);
        for Clear { from, to, root } in clear {
            let held = lengths(root);
            if !held.is_empty() && *from > at {
                // What is lost is longer than what its cuts take.
                let off = *from - self.shop.kerf - at;
                cuts += 1;
                let mut own = cut(&whole, Way::Crosscut, (off, None), (cuts, at + off));
                own.gives.push(Gives::Lost);
                sawn.cuts.push(own);
                at = *from;
            }
            for node in held {
                let off = self.holds(node)[0];
                let area = Area { at: [at, Length::ZERO], size: [off, wide] };
                at += off;
                if at < long {
                    cuts += 1;
                    count(&mut sawn, &whole, Way::Crosscut, (off, None), (cuts, at));
                }
                let mut piece = self.piece(node, area, cuts, ("", &mut name));
                if cuts == 0 {
                    // What is as long as the board is the board itself.
                    piece.name = String::new();
                }
                let gives = self.take(piece, &mut sawn, &mut waiting);
                if let Some(cut) = sawn.cuts.last_mut() {
                    cut.gives.extend(gives);
                }
                at += self.shop.kerf;
            }
            let begin = at.max(*from);
            if begin < *to {
                sawn.left.push(Area { at: [begin, Length::ZERO], size: [*to - begin, wide] });
            }
        }
        self.cut_on(cuts, waiting, &mut sawn);
        sawn
    }

    /// The cuts of each piece that waits, and of what comes of them.
    fn cut_on<'n>(&self, mut cuts: usize, mut waiting: VecDeque<Waiting<'n>>, sawn: &mut Sawn) {
        while let Some(own) = waiting.pop_front() {
            if let What::Cut(way, parts) = &own.node.what {
                self.divide(&own, *way, parts, &mut cuts, sawn, &mut waiting);
            }
        }
        sawn.left.sort_by_key(|area| std::cmp::Reverse(area.size[0].min(area.size[1])));
    }

    /// What came off, with a name where it is cut on.
    fn piece<'n>(
        &self,
        mut node: &'n Node,
        area: Area,
        cut: usize,
        (above, names): (&str, &mut usize),
    ) -> Waiting<'n> {
        while let Some(inner) = self.inner(node, area) {
            node = inner;
        }
        let is_cut_on = matches!(node.what, What::Cut(..));
        *names += usize::from(is_cut_on);
        let name = if is_cut_on { named(above, *names) } else { String::new() };
        Waiting { node, area, name, cut }
    }

    /// Takes what came off: a blank is done, and another piece waits to be cut on.
    fn take<'n>(
        &self,
        own: Waiting<'n>,
        sawn: &mut Sawn,
        waiting: &mut VecDeque<Waiting<'n>>,
    ) -> Option<Gives> {
        match &own.node.what {
            What::Left => None,
            What::Piece { index, turned } => {
                let blank = self.blanks.get(*index)?.clone();
                let (area, turned, cut) = (own.area, *turned, own.cut);
                sawn.laid.push(Laid { blank, area, turned, cut });
                Some(Gives::Blank(sawn.laid.len() - 1))
            }
            What::Cut(..) => {
                let name = own.name.clone();
                waiting.push_back(own);
                Some(Gives::Piece(name))
            }
        }
    }

    /// The only part of a cut, where nothing is to be cut off it, since what it is in is no
    /// larger. Of a piece no more than a strip is not cut off either, where it is cut to its
    /// size later all the same, or is rough: it is left as large as it came off.
    fn inner<'n>(&self, node: &'n Node, area: Area) -> Option<&'n Node> {
        let What::Cut(way, parts) = &node.what else { return None };
        let mut held = held(parts);
        let (inner, None) = (held.next()?, held.next()) else { return None };
        let (along, _) = axes(*way);
        let rest = area.size[along] - self.holds(inner)[along];
        let keeps_strip = match inner.what {
            What::Piece { index, .. } => self.keeps_strips || self.blanks.get(index)?.later,
            What::Cut(..) | What::Left => false,
        };
        let is_strip = rest <= trade::narrowest_ripped(self.unit);
        (rest == Length::ZERO || (keeps_strip && is_strip)).then_some(inner)
    }

    /// What a node holds, along and across the sheet.
    fn holds(&self, node: &Node) -> [Length; 2] {
        match &node.what {
            What::Left => [Length::ZERO; 2],
            What::Piece { index, turned } => {
                let size = self.blanks.get(*index).map_or([Length::ZERO; 2], |own| own.size);
                let [long, wide] = self.sheet.map_or(size, |sheet| sheet.lying(size));
                if *turned { [wide, long] } else { [long, wide] }
            }
            What::Cut(way, parts) => {
                let held: Vec<[Length; 2]> = held(parts).map(|part| self.holds(part)).collect();
                let (along, across) = axes(*way);
                let cuts = i64::try_from(held.len()).unwrap_or(1) - 1;
                let mut size = [Length::ZERO; 2];
                size[along] =
                    held.iter().map(|own| own[along]).sum::<Length>() + self.shop.kerf * cuts;
                size[across] = held.iter().map(|own| own[across]).max().unwrap_or(Length::ZERO);
                size
            }
        }
    }

    fn divide<'n>(
        &self,
        own: &Waiting<'n>,
        way: Way,
        parts: &'n [Node],
        cuts: &mut usize,
        sawn: &mut Sawn,
        waiting: &mut VecDeque<Waiting<'n>>,
    ) {
        let (along, across) = axes(way);
        let held = held(parts).map(|part| (part, self.holds(part)[along]));
        let end = own.area.at[along] + own.area.size[along];
        let mut at = own.area.at[along];
        let inside = sawn.size[along] - sawn.trim.twice();
        let is_trimmed = sawn.trim.is_positive() && end == inside;
        let mut name = 0;
        for (node, off) in held {
            let mut area = own.area;
            area.at[along] = at;
            area.size[along] = off;
            let rest = end - at;
            at += off;
            // The last one may be what is left itself, unless an edge is to be trimmed.
            let is_cut = at < end || is_trimmed;
            if is_cut {
                *cuts += 1;
                let tool = self
                    .sheet
                    .map(|_| Tool::of(self.shop, self.unit, (own.area.size[across], off, rest)));
                count(sawn, own, way, (off, tool), (*cuts, at));
            }
            let piece = self.piece(node, area, *cuts, (&own.name, &mut name));
            let gives = self.take(piece, sawn, waiting);
            if let Some(cut) = sawn.cuts.last_mut() {
                cut.gives.extend(gives);
            }
            at += self.shop.kerf;
        }
        if at < end {
            let mut left = own.area;
            left.at[along] = at;
            left.size[along] = end - at;
            sawn.left.push(left);
        }
    }
}

/// What comes of a cut that is not left over.
fn held(parts: &[Node]) -> impl Iterator<Item = &Node> {
    parts.iter().filter(|part| !part.is_left())
}

/// The pieces that crosscuts through a whole board part it into.
fn lengths(root: &Node) -> Vec<&Node> {
    match &root.what {
        What::Left => Vec::new(),
        What::Cut(Way::Crosscut, parts) => held(parts).collect(),
        What::Cut(Way::Rip, _) | What::Piece { .. } => vec![root],
    }
}

/// One more cut, which may be at the same setting as the one before.
fn count(
    sawn: &mut Sawn,
    own: &Waiting<'_>,
    way: Way,
    (off, tool): (Length, Option<Tool>),
    (cuts, at): (usize, Length),
) {
    let before = sawn.cuts.last_mut().filter(|before| {
        let is_lost = before.gives.contains(&Gives::Lost);
        before.area == own.area && before.off == off && before.tool == tool && !is_lost
    });
    match before {
        Some(before) => {
            before.numbers.1 = cuts;
            before.lines.push(at);
        }
        None => sawn.cuts.push(cut(own, way, (off, tool), (cuts, at))),
    }
}

fn cut(
    own: &Waiting<'_>,
    way: Way,
    (off, tool): (Length, Option<Tool>),
    (number, line): (usize, Length),
) -> Cut {
    Cut {
        numbers: (number, number),
        from: own.name.clone(),
        area: own.area,
        way,
        off,
        tool,
        gives: Vec::new(),
        lines: vec![line],
    }
}

/// The places of the size that is divided, and of the other.
fn axes(way: Way) -> (usize, usize) {
    match way {
        Way::Crosscut => (0, 1),
        Way::Rip => (1, 0),
    }
}

/// The name of the `nth` piece that is cut on: letters and numbers in turn.
fn named(above: &str, nth: usize) -> String {
    let letter = |nth: usize| {
        let letter = u8::try_from((nth - 1) % 26).unwrap_or(0);
        char::from(b'a' + letter).to_string().repeat((nth - 1) / 26 + 1)
    };
    let is_lettered = above.chars().last().is_none_or(|last| last.is_ascii_digit());
    match is_lettered {
        true => format!("{above}{}", letter(nth)),
        false => format!("{above}{nth}"),
    }
}
