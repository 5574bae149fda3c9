//! The boards that are laid out so far, and what is laid on them next.

use crate::cutting::{self, Kind, Node, Order, Size, Stages, Wanted, Way, What};
use crate::measure::Length;

use super::super::sawing::{Source, on};
use super::looks::Broad;

/// How many rounds the search takes for fewer boards, and for larger leftovers, where there
/// are few pieces.
const ROUNDS: [usize; 2] = [16, 6];
/// Where there are more pieces than this, a round takes longer, and so there are fewer.
const FEW: usize = 20;
/// The first size of board costs as much more than one on hand that no number of these
/// outweighs it.
pub(super) const BOARD: i64 = 1_000_000;
/// Boards are crosscut, what comes of that is ripped, and strips are crosscut again.
const STAGES: Stages = Stages { most: Some(3), first: Some(Way::Crosscut) };

/// A stretch of a board between what is lost, as it is cut.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    pub(super) from: Length,
    pub(super) to: Length,
    pub(super) root: Node,
}

/// A board that is there.
#[derive(Clone, Debug)]
pub(super) struct Begun {
    /// By its place among all kinds.
    pub(super) source: usize,
    pub(super) stretches: Vec<Stretch>,
}

impl Begun {
    /// True where nothing comes of it yet.
    pub(super) fn is_whole(&self) -> bool {
        self.stretches.iter().all(|own| own.root.is_left())
    }
}

/// What is left over in a board: which, in which stretch, and by which parts of its cuts it
/// is reached.
#[derive(Clone, Debug)]
struct Left {
    begun: usize,
    stretch: usize,
    path: Vec<usize>,
    size: Size,
    above: Option<(Way, u8)>,
}

/// The boards, with the sizes of blanks in whole numbers.
#[derive(Debug)]
pub(super) struct Bench {
    /// Those on hand, and then the kinds that can be bought.
    pub(super) sources: Vec<Source>,
    /// How many of them are on hand.
    pub(super) had: usize,
    pub(super) begun: Vec<Begun>,
    /// The blanks, each a saw cut longer and wider.
    pub(super) sizes: Vec<Size>,
    pub(super) kerf: Length,
    pub(super) grid: i64,
}

impl Bench {
    /// With the boards on hand, in which nothing is cut.
    pub(super) fn lay_out(&mut self) {
        self.begun = (0..self.had).map(|source| self.fresh(source)).collect();
    }

    fn fresh(&self, source: usize) -> Begun {
        let own = self.sources.get(source);
        let clear = own.map_or(Vec::new(), Source::clear);
        let wide = own.map_or(Length::ZERO, |own| own.size[1]);
        let stretch = |(from, to): (Length, Length)| {
            let size = [to - from, wide].map(|side| on(self.grid, side + self.kerf).floor());
            Stretch { from, to, root: Node::left(size) }
        };
        Begun { source, stretches: clear.into_iter().map(stretch).collect() }
    }

    /// What a kind of board costs, by its area beside that of the first.
    pub(super) fn cost(&self, source: usize) -> i64 {
        let area = |source: usize| {
            let size = self.sources.get(source).map_or([Length::ZERO; 2], |own| own.size);
            let [long, wide] = size.map(|side| on(self.grid, side).floor());
            i128::from(long) * i128::from(wide)
        };
        let first = area(self.had).max(1);
        i64::try_from(i128::from(BOARD) * area(source) / first).unwrap_or(i64::MAX)
    }

    /// What the boards cost that are bought.
    pub(super) fn spent(&self) -> i64 {
        let bought = self.begun.iter().filter(|own| self.is_bought(own));
        bought.map(|own| self.cost(own.source)).sum()
    }

    fn is_bought(&self, own: &Begun) -> bool {
        own.source >= self.had
    }

    /// How many boards are bought.
    pub(super) fn bought(&self) -> i64 {
        let bought = self.begun.iter().filter(|own| self.is_bought(own)).count();
        i64::try_from(bought).unwrap_or(i64::MAX)
    }

    /// The kinds that can be bought: each a stretch of a board.
    fn kinds(&self) -> impl Iterator<Item = (usize, Kind)> {
        (self.had..self.sources.len()).filter_map(|source| {
            let size = self.fresh(source).stretches.first()?.root.size;
            Some((source, Kind { size, cost: self.cost(source), count: None, above: None }))
        })
    }

    /// These blanks from boards in which nothing is cut. Only what is bought costs anything, so
    /// that what boards cost that are begun can be taken off what no plan costs less than.
    pub(super) fn order(&self, blanks: &[usize], floor: i64) -> Order {
        let had = (0..self.had).flat_map(|source| self.fresh(source).stretches);
        let had = had.map(|own| Kind { size: own.root.size, cost: 0, count: Some(1), above: None });
        let kinds = had.chain(self.kinds().map(|(_, kind)| kind)).collect();
        self.order_of(kinds, blanks, floor)
    }

    fn order_of(&self, kinds: Vec<Kind>, blanks: &[usize], floor: i64) -> Order {
        let pieces = blanks.iter().filter_map(|index| self.sizes.get(*index));
        Order {
            kinds,
            pieces: pieces.map(|size| Wanted { size: *size, turns: false }).collect(),
            kerf: on(self.grid, self.kerf).ceil(),
            stages: STAGES,
            floor,
            rounds: ROUNDS.map(|rounds| rounds * FEW / blanks.len().max(FEW)),
        }
    }

    /// Lays blanks on what is left of the boards, and on more boards where that is not
    /// enough. Returns those that no board is large enough for.
    pub(super) fn pack(&mut self, blanks: &[usize], floor: i64) -> Vec<usize> {
        if blanks.is_empty() {
            return Vec::new();
        }
        let least = blanks.iter().filter_map(|index| self.sizes.get(*index));
        let least = least.fold([i64::MAX; 2], |all, own| [all[0].min(own[0]), all[1].min(own[1])]);
        let mut left = self.left();
        left.retain(|own| own.size[0] >= least[0] && own.size[1] >= least[1]);
        let kind = |own: &Left| {
            // A board on hand in which nothing is cut had better stay in the rack.
            let is_whole = self.begun.get(own.begun).is_some_and(Begun::is_whole);
            Kind { size: own.size, cost: i64::from(is_whole), count: Some(1), above: own.above }
        };
        let bought: Vec<(usize, Kind)> = self.kinds().collect();
        let kinds = left.iter().map(kind).chain(bought.iter().map(|(_, kind)| *kind)).collect();
        let plan = cutting::plan(&self.order_of(kinds, blanks, floor));
        for sheet in plan.sheets {
            let root = sheet.root.named(blanks);
            match left.get(sheet.kind) {
                Some(own) => {
                    let begun = self.begun.get_mut(own.begun);
                    let stretch = begun.and_then(|begun| begun.stretches.get_mut(own.stretch));
                    if let Some(place) =
                        stretch.and_then(|own_root| at(&mut own_root.root, &own.path))
                    {
                        *place = root;
                    }
                }
                None => {
                    let Some((source, _)) = bought.get(sheet.kind - left.len()) else { continue };
                    let mut begun = self.fresh(*source);
                    if let Some(stretch) = begun.stretches.first_mut() {
                        stretch.root = root;
                    }
                    self.begun.push(begun);
                }
            }
        }
        for stretch in self.begun.iter_mut().flat_map(|own| &mut own.stretches) {
            flatten(&mut stretch.root);
        }
        plan.unplaced.iter().filter_map(|index| blanks.get(*index)).copied().collect()
    }

    fn left(&self) -> Vec<Left> {
        let mut all = Vec::new();
        for (begun, own) in self.begun.iter().enumerate() {
            for (stretch, own) in own.stretches.iter().enumerate() {
                let root =
                    Left { begun, stretch, path: Vec::new(), size: own.root.size, above: None };
                left_in(&own.root, root, &mut all);
            }
        }
        all
    }

    /// Lays broad parts along one board, one after another, as few boards as hold them.
    /// Returns the blanks of those that no board holds.
    pub(super) fn in_sequence(&mut self, group: &[Broad]) -> Vec<usize> {
        let mut rest = group;
        let mut out = Vec::new();
        while !rest.is_empty() {
            let most = (1..=rest.len()).rev().find(|count| {
                let (own, _) = rest.split_at(*count);
                self.lay(own)
            });
            match most {
                Some(count) => rest = rest.split_at(count).1,
                None => {
                    // Of one that no board holds whole, as many boards as one holds.
                    let first = rest.first().map_or(&[][..], Vec::as_slice);
                    match first.len() {
                        0 | 1 => out.extend(first),
                        _ => {
                            let each: Vec<Broad> = first.iter().map(|own| vec![*own]).collect();
                            out.extend(self.in_sequence(&each));
                        }
                    }
                    rest = rest.get(1..).unwrap_or(&[]);
                }
            }
        }
        out
    }

    /// Lays these on the board where they leave the least, on a new one where none has room,
    /// and says whether there is one.
    fn lay(&mut self, group: &[Broad]) -> bool {
        let begun = self.begun.iter().enumerate().flat_map(|(begun, own)| {
            let (is_bought, stretches) = (self.is_bought(own), own.stretches.iter().enumerate());
            stretches.map(move |(at, stretch)| (is_bought, [begun, at], stretch))
        });
        let room = begun.filter_map(|(is_bought, at, stretch)| {
            let (rest, nodes) = self.at_end(&stretch.root, group)?;
            Some(((is_bought, rest), at, nodes))
        });
        if let Some((_, [begun, stretch], nodes)) = room.min_by_key(|(rest, ..)| *rest) {
            let own = self.begun.get_mut(begun).and_then(|own| own.stretches.get_mut(stretch));
            if let Some(own) = own {
                append(&mut own.root, nodes);
            }
            return true;
        }
        let new = (self.had..self.sources.len()).find_map(|source| {
            let mut begun = self.fresh(source);
            let own = begun.stretches.first_mut()?;
            let (_, nodes) = self.at_end(&own.root, group)?;
            append(&mut own.root, nodes);
            Some(begun)
        });
        let is_there = new.is_some();
        self.begun.extend(new);
        is_there
    }

    /// The lengths that these take of what is left at the end of a board, and what is left
    /// behind them; nothing where it has no room.
    fn at_end(&self, root: &Node, group: &[Broad]) -> Option<(i64, Vec<Node>)> {
        let [long, wide] = end_left(root)?;
        let nodes = self.along(group, wide)?;
        let rest = long - nodes.iter().map(|node| node.size[0]).sum::<i64>();
        (rest >= 0).then_some((rest, nodes))
    }

    /// The lengths of a board so wide that these take, in their order: the boards of one part
    /// beside each other as far as that goes.
    fn along(&self, group: &[Broad], wide: i64) -> Option<Vec<Node>> {
        let mut nodes = Vec::new();
        for broad in group {
            let mut rest = broad.as_slice();
            while let Some(first) = rest.first() {
                let size = *self.sizes.get(*first)?;
                let beside = usize::try_from(wide / size[1].max(1)).unwrap_or(0).min(rest.len());
                let (own, others) = rest.split_at_checked(beside).filter(|_| beside > 0)?;
                nodes.push(beside_each_other(own, size, wide));
                rest = others;
            }
        }
        Some(nodes)
    }
}

/// Pieces of one size ripped from a length of a board.
fn beside_each_other(own: &[usize], size: Size, wide: i64) -> Node {
    let piece = |index: &usize| Node { size, what: What::Piece { index: *index, turned: false } };
    Node::divided(Way::Rip, [size[0], wide], own.iter().map(piece).collect())
}

/// What is left at the end of a board.
fn end_left(root: &Node) -> Option<Size> {
    match &root.what {
        What::Left => Some(root.size),
        What::Cut(Way::Crosscut, parts) => {
            parts.iter().find(|part| part.is_left()).map(|part| part.size)
        }
        What::Cut(Way::Rip, _) | What::Piece { .. } => None,
    }
}

/// Crosscuts these from what is left at the end.
fn append(root: &mut Node, nodes: Vec<Node>) {
    let mut parts = match std::mem::replace(&mut root.what, What::Left) {
        What::Cut(Way::Crosscut, parts) => parts,
        What::Cut(Way::Rip, _) | What::Piece { .. } | What::Left => Vec::new(),
    };
    parts.retain(|part| !part.is_left());
    parts.extend(nodes);
    *root = Node::divided(Way::Crosscut, root.size, parts);
}

fn left_in(node: &Node, own: Left, all: &mut Vec<Left>) {
    match &node.what {
        What::Left => all.push(own),
        What::Piece { .. } => {}
        What::Cut(way, parts) => {
            let above = Some((*way, STAGES.of(own.above, *way)));
            for (index, part) in parts.iter().enumerate() {
                let mut path = own.path.clone();
                path.push(index);
                left_in(part, Left { path, size: part.size, above, ..own.clone() }, all);
            }
        }
    }
}

fn at<'n>(root: &'n mut Node, path: &[usize]) -> Option<&'n mut Node> {
    let Some((first, rest)) = path.split_first() else { return Some(root) };
    match &mut root.what {
        What::Cut(_, parts) => at(parts.get_mut(*first)?, rest),
        What::Left | What::Piece { .. } => None,
    }
}

/// Makes cuts the same way in a part of a cut cuts of its own, with what is left behind them.
fn flatten(node: &mut Node) {
    let size = node.size;
    let What::Cut(way, parts) = &mut node.what else { return };
    let way = *way;
    let mut own = Vec::new();
    for mut part in std::mem::take(parts) {
        flatten(&mut part);
        match part.what {
            What::Cut(inner, parts) if inner == way => own.extend(parts),
            What::Cut(..) | What::Left | What::Piece { .. } => own.push(part),
        }
    }
    own.retain(|part| !part.is_left());
    *node = Node::divided(way, size, own);
}
