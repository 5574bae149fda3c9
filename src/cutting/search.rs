//! The search: pieces are taken out and put in again.

use std::cell::OnceCell;
use std::cmp::Reverse;
use std::rc::Rc;

use oorandom::Rand64;

use super::bound::{by_area, fewest};
use super::rows::Rows;
use super::tree::{Leftover, Place};
use super::{Node, Order, Plan, Sheet, Size, Wanted, Way, What, area};

/// How many plans from nothing it begins with, where there are few pieces.
const STARTS: usize = 24;
/// Where there are more pieces than this, a start takes longer, and so there are fewer.
const FEW: usize = 60;
/// How far back it looks for what it may be as bad as (late acceptance).
const LATE: usize = 200;
/// The most rectangles that are emptied in a round.
const EMPTIED: u64 = 4;
/// How many tries it takes to use less of what is on hand.
const TRIES: usize = 150;
/// In how many parts of a sheet leftovers are told apart: what is less is not worth a cut.
const STEPS: i128 = 40;
/// How many pieces are tried on boards that hold them one behind the other, in place of a round.
const STEPS_OF_ROWS: usize = 400;
/// Of a hundred places, how many are overlooked.
const OVERLOOKED: u64 = 2;

/// The best plan that so many rounds find: least cost first, and of those the one with the
/// largest leftover, and then with the fewest settings of the saw and awkward cuts. Pieces
/// that fit no sheet are in none, and neither are those for which too few sheets are there.
#[must_use]
pub fn plan(order: &Order) -> Plan {
    let mut search = Search::of(order);
    let best = search.cheapest();
    if !best.out.is_empty() {
        return plan_without(order, best.out, search.too_large);
    }
    let best = search.with_largest_left(best);
    let sheets = best.sheets.iter().map(|laid| laid.sheet.clone());
    Plan { sheets: sheets.collect(), unplaced: search.too_large, least: search.least }
}

/// A plan of what is left of an order without these.
fn plan_without(order: &Order, mut out: Vec<usize>, too_large: Vec<usize>) -> Plan {
    out.extend(too_large);
    let kept = (0..order.pieces.len()).filter(|index| !out.contains(index));
    let kept: Vec<usize> = kept.collect();
    let pieces = kept.iter().filter_map(|index| order.pieces.get(*index)).copied().collect();
    let mut own = plan(&Order { pieces, floor: 0, ..order.clone() });
    for sheet in &mut own.sheets {
        sheet.root = sheet.root.named(&kept);
    }
    out.extend(own.unplaced.iter().filter_map(|index| kept.get(*index)));
    out.sort_unstable();
    Plan { unplaced: out, ..own }
}

/// A sheet of a plan in the making, and what is worked out of it once.
#[derive(Clone, Debug)]
struct Laid {
    sheet: Sheet,
    leftovers: OnceCell<Leftovers>,
    /// How it is judged, once its strips are as narrow as they can be.
    judged: Option<Judged>,
}

#[derive(Clone, Debug)]
struct Leftovers {
    all: Vec<Leftover>,
    /// As long as the longest and as wide as the widest.
    most: Size,
}

/// How a sheet is judged that has been made tight.
#[derive(Clone, Copy, Debug)]
struct Judged {
    /// The largest leftover, in parts of the sheet.
    left: i128,
    effort: usize,
}

impl Laid {
    fn of(sheet: Sheet) -> Rc<Self> {
        Rc::new(Self { sheet, leftovers: OnceCell::new(), judged: None })
    }

    /// The cuts of a sheet, to be changed; other drafts keep theirs.
    fn change(own: &mut Rc<Self>) -> &mut Node {
        if Rc::get_mut(own).is_none() {
            *own = Self::of(own.sheet.clone());
        }
        let own = Rc::make_mut(own);
        own.leftovers.take();
        own.judged = None;
        &mut own.sheet.root
    }

    /// What is left over, where a piece of this size may fit in.
    fn room(&self, wanted: &Wanted, order: &Order) -> &[Leftover] {
        let leftovers = self.leftovers.get_or_init(|| {
            let above = order.above(self.sheet.kind);
            let all = self.sheet.root.leftovers(above, &order.stages);
            let most = all
                .iter()
                .fold([0, 0], |[long, wide], own| [own.size[0].max(long), own.size[1].max(wide)]);
            Leftovers { all, most }
        });
        let [long, wide] = leftovers.most;
        match wanted.ways().any(|(_, size)| size[0] <= long && size[1] <= wide) {
            true => &leftovers.all,
            false => &[],
        }
    }
}

/// A plan in the making.
#[derive(Clone, Debug, Default)]
struct Draft {
    /// Sheets that several drafts have in common.
    sheets: Vec<Rc<Laid>>,
    /// The pieces that are in none of them.
    out: Vec<usize>,
}

impl Draft {
    fn cost(&self, order: &Order) -> i64 {
        order.cost_of(self.sheets.iter().map(|own| own.sheet.kind))
    }
}

struct Search<'o> {
    order: &'o Order,
    random: Rand64,
    /// What a plan must cost less than.
    below: i64,
    areas: Vec<i128>,
    too_large: Vec<usize>,
    /// What no plan costs less than.
    least: i64,
}

impl<'o> Search<'o> {
    fn of(order: &'o Order) -> Self {
        let areas = order.pieces.iter().map(|piece| area(piece.size)).collect();
        // Any seed would do, and it must be the same for ever.
        let random = Rand64::new(16);
        let mut search =
            Self { order, random, below: i64::MAX, areas, too_large: Vec::new(), least: 0 };
        let fits = |index: &usize| {
            let kinds = 0..order.kinds.len();
            kinds.into_iter().any(|kind| search.fresh(kind, *index, None).is_some())
        };
        let all = 0..order.pieces.len();
        search.too_large = all.filter(|index| !fits(index)).collect();
        search
    }

    fn below(&mut self, count: usize) -> usize {
        let count = u64::try_from(count).unwrap_or(u64::MAX).max(1);
        usize::try_from(self.random.rand_range(0..count)).unwrap_or(0)
    }

    /// True where no plan costs less than the best, or, after some tries, where none buys
    /// less and it may only use more of what is on hand.
    fn is_least(&self, tries: usize) -> bool {
        if self.below <= self.least {
            return true;
        }
        if tries < TRIES {
            return false;
        }
        let had = self.order.kinds.iter().filter_map(|kind| Some((kind.cost, kind.count?)));
        let had = had.map(|(cost, count)| cost.saturating_mul(i64::try_from(count).unwrap_or(1)));
        self.below <= self.least.saturating_add(had.sum())
    }

    /// The best place for a piece on a new sheet.
    fn fresh(&self, kind: usize, index: usize, lean: Option<Way>) -> Option<Place> {
        let kind = self.order.kinds.get(kind)?;
        let whole = Leftover::whole(kind.size, kind.above);
        let mut best = None;
        whole.places(0, self.order.pieces.get(index)?, &self.order.stages, &mut |place| {
            take_better(&mut best, place, lean);
        });
        best
    }

    /// A plan of the least cost that is found; one with pieces that are out where none has all.
    fn cheapest(&mut self) -> Draft {
        let all = (0..self.order.pieces.len()).filter(|index| !self.too_large.contains(index));
        let all: Vec<usize> = all.collect();
        let mut best = Draft { sheets: Vec::new(), out: all.clone() };
        // Most orders are done as soon as the areas allow.
        self.least = by_area(self.order).max(self.order.floor);
        self.below = i64::MAX;
        let starts = (STARTS * FEW / all.len().max(FEW)).max(2);
        // Who has few rounds to spare has no more starts.
        let starts = starts.min(self.order.rounds[0].max(1));
        for start in 0..starts {
            if self.is_least(start) {
                break;
            }
            let mut draft = Draft { sheets: Vec::new(), out: all.clone() };
            self.fill(&mut draft, start > 0);
            let cost = draft.cost(self.order);
            if draft.out.is_empty() && cost < self.below {
                self.below = cost;
                best = draft;
            } else if self.outside(&draft) < self.outside(&best) {
                best = draft;
            }
        }
        if !self.is_least(0) {
            self.least = fewest(self.order).max(self.order.floor);
            if let Some(rows) = Rows::of(self.order, &all).and_then(|rows| self.in_rows(&rows)) {
                self.below = rows.cost(self.order);
                best = rows;
            }
        }
        let mut draft = best.clone();
        self.shrink(&mut draft);
        let mut late = Late::of(self.outside(&draft));
        for round in 0..self.order.rounds[0] {
            if self.is_least(STARTS + round) {
                break;
            }
            let mut next = draft.clone();
            self.ruin(&mut next);
            self.fill(&mut next, true);
            if next.out.is_empty() {
                best = next.clone();
                self.below = best.cost(self.order);
                self.shrink(&mut next);
                late = Late::of(self.outside(&next));
                draft = next;
            } else if late.takes(round, self.outside(&next)) {
                if self.outside(&next) < self.outside(&best) {
                    best = next.clone();
                }
                draft = next;
            }
        }
        best
    }

    /// A plan of fewer boards, where pieces lie on them one behind the other.
    fn in_rows(&mut self, rows: &Rows) -> Option<Draft> {
        let each = self.order.kinds.first()?.cost.max(1);
        let steps = self.order.rounds[0] * STEPS_OF_ROWS;
        let fewer = (self.least + each - 1) / each..self.below / each;
        let boards = fewer.into_iter().find_map(|boards| rows.on(boards, steps))?;
        let mut whole = Draft::default();
        for out in boards {
            let mut own = Draft { sheets: Vec::new(), out };
            self.fill(&mut own, false);
            if !own.out.is_empty() {
                return None;
            }
            whole.sheets.append(&mut own.sheets);
        }
        (whole.cost(self.order) < self.below).then_some(whole)
    }

    /// A plan of the same cost with the largest leftover.
    fn with_largest_left(&mut self, mut best: Draft) -> Draft {
        let mut judgment = self.judged(&mut best);
        if best.sheets.is_empty() {
            return best;
        }
        self.below = best.cost(self.order).saturating_add(1);
        let mut draft = best.clone();
        let mut late = Late::of(judgment);
        for round in 0..self.order.rounds[1] {
            let mut next = draft.clone();
            self.ruin(&mut next);
            self.fill(&mut next, true);
            if !next.out.is_empty() {
                continue;
            }
            let own = self.judged(&mut next);
            if own < judgment {
                judgment = own;
                best = next.clone();
            }
            if late.takes(round, own) {
                draft = next;
            }
        }
        best
    }

    /// Makes a plan tight, and says what it costs, what its largest leftover is, and how
    /// much is to be set on the saw: the less, the better.
    fn judged(&self, draft: &mut Draft) -> (i64, Reverse<i128>, usize) {
        let mut all = Judged { left: 0, effort: 0 };
        for laid in &mut draft.sheets {
            let own = laid.judged.unwrap_or_else(|| {
                let root = Laid::change(laid);
                root.tighten();
                let left = root.largest_left() * STEPS / area(root.size).max(1);
                let judged = Judged { left, effort: root.effort(self.order.kerf, 1) };
                if let Some(own) = Rc::get_mut(laid) {
                    own.judged = Some(judged);
                }
                judged
            });
            all = Judged { left: all.left.max(own.left), effort: all.effort + own.effort };
        }
        (draft.cost(self.order), Reverse(all.left), all.effort)
    }

    /// How much is on no sheet.
    fn outside(&self, draft: &Draft) -> i128 {
        draft.out.iter().filter_map(|index| self.areas.get(*index)).sum()
    }

    /// Empties a few rectangles.
    fn ruin(&mut self, draft: &mut Draft) {
        for _ in 0..=self.random.rand_range(0..EMPTIED) {
            let at = self.below(draft.sheets.len());
            let Some(sheet) = draft.sheets.get_mut(at) else { break };
            let count = sheet.sheet.root.count();
            let mut nth = self.below(count);
            // A whole sheet seldom.
            if nth == 0 && count > 1 && self.below(4) > 0 {
                nth = 1 + self.below(count - 1);
            }
            let Some(sheet) = draft.sheets.get_mut(at) else { break };
            let above = self.order.above(sheet.sheet.kind);
            let root = Laid::change(sheet);
            root.take_out(&mut nth, &mut draft.out);
            // What lay across the whole sheet is gone: it is cut anew, as the saw asks.
            let goes_on = match (&root.what, self.order.stages.first) {
                (What::Cut(way, parts), Some(first)) => {
                    above.is_some()
                        || *way == first
                        || parts.iter().any(|own| matches!(own.what, What::Piece { .. }))
                }
                (What::Cut(..) | What::Piece { .. }, _) => true,
                (What::Left, _) => false,
            };
            if !goes_on {
                root.pieces(&mut draft.out);
                draft.sheets.swap_remove(at);
            }
        }
    }

    /// Takes sheets out until the plan costs less than the best.
    fn shrink(&mut self, draft: &mut Draft) {
        while draft.cost(self.order) >= self.below && !draft.sheets.is_empty() {
            let all = draft.sheets.iter().enumerate();
            let emptiest =
                all.min_by_key(|(_, own)| own.sheet.root.filled()).map_or(0, |(at, _)| at);
            let at = match self.below(2) {
                0 => self.below(draft.sheets.len()),
                _ => emptiest,
            };
            let own = draft.sheets.swap_remove(at);
            own.sheet.root.pieces(&mut draft.out);
        }
    }

    /// Puts in what is out, the largest first, each where it spoils the least.
    fn fill(&mut self, draft: &mut Draft, stumbles: bool) {
        let mut todo = std::mem::take(&mut draft.out);
        let by = self.below(4);
        todo.sort_unstable_by_key(|index| {
            let piece = self.order.pieces.get(*index);
            let [long, wide] = piece.map_or([0, 0], |piece| piece.size);
            let area = self.areas.get(*index).copied().unwrap_or(0);
            let measure = match by {
                0 | 1 => (area, 0),
                2 => (i128::from(long.max(wide)), i128::from(long.min(wide))),
                _ => (i128::from(long) + i128::from(wide), 0),
            };
            (Reverse(measure), *index)
        });
        if stumbles {
            for at in 1..todo.len() {
                if self.below(10) == 0 {
                    todo.swap(at, at - 1);
                }
            }
        }
        // At times all are cut the same way first.
        let lean = match self.below(4) {
            0 if stumbles => Some(Way::Rip),
            1 if stumbles => Some(Way::Crosscut),
            _ => None,
        };
        let mut cost = draft.cost(self.order);
        for index in todo {
            let found = self.place(draft, index, stumbles, lean);
            let found = found.or_else(|| self.open(draft, index, &mut cost, lean));
            let put = found.is_some_and(|(at, place)| {
                let mut nth = place.leftover;
                let root = draft.sheets.get_mut(at).map(Laid::change);
                root.is_some_and(|root| root.put(&mut nth, index, &place))
            });
            if !put {
                draft.out.push(index);
            }
        }
    }

    /// The best place for a piece on the sheets that are there.
    fn place(
        &mut self,
        draft: &Draft,
        index: usize,
        stumbles: bool,
        lean: Option<Way>,
    ) -> Option<(usize, Place)> {
        let piece = self.order.pieces.get(index)?;
        let mut best: Option<(usize, Place)> = None;
        let random = &mut self.random;
        for (at, sheet) in draft.sheets.iter().enumerate() {
            let mut own = best.map(|(_, place)| place);
            let mut better = false;
            let mut found = |place| {
                let is_overlooked = stumbles && random.rand_range(0..100) < OVERLOOKED;
                better |= !is_overlooked && take_better(&mut own, place, lean);
            };
            for (nth, left) in sheet.room(piece, self.order).iter().enumerate() {
                left.places(nth, piece, &self.order.stages, &mut found);
            }
            if better {
                best = own.map(|place| (at, place));
            }
        }
        best
    }

    /// A new sheet for a piece, where one may be had.
    fn open(
        &mut self,
        draft: &mut Draft,
        index: usize,
        cost: &mut i64,
        lean: Option<Way>,
    ) -> Option<(usize, Place)> {
        let used = |kind: usize| draft.sheets.iter().filter(|own| own.sheet.kind == kind).count();
        let kinds = self.order.kinds.iter().enumerate();
        let may = kinds.filter(|(at, kind)| {
            let is_there = kind.count.is_none_or(|count| used(*at) < count);
            is_there && kind.cost.saturating_add(*cost) < self.below
        });
        let mut places: Vec<(usize, Place)> =
            may.filter_map(|(at, _)| Some((at, self.fresh(at, index, lean)?))).collect();
        // What is left of a sheet costs nothing more.
        let is_left = |at: usize| self.order.kinds.get(at).is_some_and(|kind| kind.cost == 0);
        if places.iter().any(|(at, _)| is_left(*at)) {
            places.retain(|(at, _)| is_left(*at));
        }
        let (at, place) = *places.get(self.below(places.len()))?;
        let kind = self.order.kinds.get(at)?;
        *cost = cost.saturating_add(kind.cost);
        let sheet = Sheet { kind: at, root: Node::left(kind.size) };
        draft.sheets.push(Laid::of(sheet));
        Some((draft.sheets.len() - 1, place))
    }
}

/// Keeps the better of two places, and says whether it is the new one.
fn take_better(best: &mut Option<Place>, place: Place, lean: Option<Way>) -> bool {
    let leans = |place: &Place| lean.is_none_or(|lean| place.first == lean);
    let is_better = best.as_ref().is_none_or(|best| {
        leans(&place).cmp(&leans(best)).then(place.worth.total_cmp(&best.worth)).is_gt()
    });
    if is_better {
        *best = Some(place);
    }
    is_better
}

/// Takes what is no worse than what there is, or than what there was some rounds ago.
struct Late<T> {
    now: T,
    then: Vec<T>,
}

impl<T: Ord + Copy> Late<T> {
    fn of(now: T) -> Self {
        Self { now, then: vec![now; LATE] }
    }

    fn takes(&mut self, round: usize, own: T) -> bool {
        let Some(then) = self.then.get_mut(round % LATE) else { return false };
        let takes = own <= self.now || own <= *then;
        if takes {
            self.now = own;
        }
        *then = (*then).min(self.now);
        takes
    }
}
