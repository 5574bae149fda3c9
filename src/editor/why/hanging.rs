//! Where each hinge goes, and where the rows of shelf pins start.

use crate::measure::Length;
use crate::model::{Case, HingeKind, Opening, Set, Size};
use crate::parts::{self, Direction, Part, Role};
use crate::plans::fitting::backs::goes_in;
use crate::plans::fitting::pins::RowBoard;
use crate::plans::fitting::{HungAt, PinRows};
use crate::vocabulary::words;

use super::teller::Teller;
use super::{Subject, Sum};

/// The places of hinges on a part: a door, what it hangs on, or a block.
pub(super) fn hinges(tell: &Teller<'_>, part: &Part) -> Vec<Sum> {
    let all = tell.work.fitting().hinges.iter();
    all.flat_map(|hung| of_hinge(tell, hung, part)).collect()
}

fn of_hinge(tell: &Teller<'_>, hung: &HungAt<'_>, part: &Part) -> Vec<Sum> {
    let is = |other: &Part| other.path == part.path;
    let block = hung.block.filter(|block| is(block.part));
    if !is(hung.leaf) && !is(hung.holder) && block.is_none() {
        return Vec::new();
    }
    let about = [Subject::Hinge];
    let mut sums = Vec::new();
    let Some((opening, height)) = height(tell, hung) else { return sums };
    let low = hung.leaf.side(Direction::Y, false);
    let word = |what: &str| format!("hinge {} of {}, {what}", hung.number, hung.leaf.mark);
    if is(hung.leaf) {
        sums.push(tell.length(&about, word("height on door"), hung.on_leaf, &height));
        let foot = &opening.stands_as_built()[1];
        let above = &low + &height - foot;
        sums.push(tell.length(&about, word("above opening"), hung.above_opening, &above));
    }
    if is(hung.holder) {
        let on = &low + &height - hung.holder.side(Direction::Y, false);
        sums.push(tell.length(&about, word("height on part"), hung.on_holder, &on));
    }
    if let Some(block) = block {
        let above = block.part.side(Direction::Y, false) - block.on.side(Direction::Y, false);
        sums.push(tell.length(&about, word("lower end of its block"), block.above_end, &above));
    }
    sums
}

/// The height of a hinge above the lower end of its door.
fn height<'c>(tell: &Teller<'c>, hung: &HungAt<'_>) -> Option<(&'c Opening, Size)> {
    let (opening, _, heights) = tell.hung(hung.leaf)?;
    let at = usize::try_from(hung.number).ok()?.checked_sub(1)?;
    Some((opening, heights.into_iter().nth(at)?))
}

/// The screws of the plates that are bored into a part.
pub(super) fn plates(tell: &Teller<'_>, part: &Part) -> Vec<Sum> {
    let mut sums = Vec::new();
    for hung in &tell.work.fitting().hinges {
        let Some(at) = hung.plate.filter(|plate| plate.part.path == part.path) else { continue };
        let about = [Subject::Plate, Subject::Hinge];
        let word = |what: &str| format!("plate {} of {}, {what}", hung.number, hung.leaf.mark);
        let Some((heights, lines)) = screws(tell, hung, part) else { continue };
        for ((screw, height), what) in
            at.screws.iter().zip(&heights).zip(["lower screw", "upper screw"])
        {
            sums.push(tell.length(&about, word(what), *screw, height));
        }
        let line = pick(at.line, lines.into_iter());
        sums.push(tell.length(&about, word("line of its screws"), at.line, &line));
    }
    sums
}

/// Where the screws of a plate may lie on a part: both heights above its bottom end,
/// and every line behind its front edge that the plate may go by.
fn screws(tell: &Teller<'_>, hung: &HungAt<'_>, part: &Part) -> Option<([Size; 2], Vec<Size>)> {
    use words::plate::{APART, BACK, BLOCK};
    let (opening, height) = height(tell, hung)?;
    let fronts = opening.front.as_ref()?;
    let hinge = tell.piece.hinge(fronts.hinge?.0)?;
    let HingeKind::Cup { plate: Some(plate), .. } = hinge.kind else { return None };
    let within = Some(hinge.span);
    let apart = tell.origin(&BLOCK, APART, within);
    let apart = tell.fact(plate.apart, format!("screws of {}'s plate", hinge.name), apart);
    let center = hung.leaf.side(Direction::Y, false) + height - part.side(Direction::Y, false);
    let back = tell.origin(&BLOCK, BACK, within);
    let back = tell.fact(plate.back, format!("line of {}'s plate", hinge.name), back);
    let planes = parts::planes(tell.piece, tell.piece.case(part.case)?);
    let edge = part.side(Direction::Z, false);
    let behind = &planes.frame + tell.piece.thickness(fronts.stock);
    let lines = [planes.carcass, planes.frame, behind].map(|front| front + &back - &edge);
    Some(([&center - apart.half(), center + apart.half()], lines.into()))
}

/// Where a hole for a plate lies on its part: above its bottom end, and behind its
/// front edge.
pub(super) fn screw(tell: &Teller<'_>, part: &Part, (up, back): (Length, Length)) -> (Size, Size) {
    let all = &tell.work.fitting().hinges;
    let screws = all.iter().filter_map(|hung| screws(tell, hung, part));
    let found = screws.into_iter().find_map(|(heights, lines)| {
        let height = heights.into_iter().find(|height| height.length == up)?;
        Some((height, pick(back, lines.into_iter())))
    });
    found.unwrap_or_else(|| (up.into(), back.into()))
}

/// The first of several sums that comes to this length.
fn pick(length: Length, mut sums: impl Iterator<Item = Size>) -> Size {
    sums.find(|sum| sum.length == length).unwrap_or_else(|| length.into())
}

/// The rows of pins beside an opening, on one board or on all.
pub(super) fn pins(tell: &Teller<'_>, is: impl Fn(&PinRows<'_>, &Part) -> bool) -> Vec<Sum> {
    let mut sums: Vec<Sum> = Vec::new();
    for rows in tell.work.pin_rows() {
        let Some(case) = tell.piece.case(rows.opening.case()) else { continue };
        for board in rows.boards.iter().filter(|board| is(rows, board.part)) {
            let own = Rows { tell, rows, case };
            for sum in own.told(board) {
                if !sums.contains(&sum) {
                    sums.push(sum);
                }
            }
        }
    }
    sums
}

struct Rows<'t, 'c> {
    tell: &'t Teller<'c>,
    rows: &'t PinRows<'c>,
    case: &'t Case,
}

impl Rows<'_, '_> {
    fn told(&self, own: &RowBoard<'_>) -> Vec<Sum> {
        let RowBoard { part: board, first, rows, from_back, .. } = *own;
        use words::pins::{BLOCK, DEEP, FROM_EDGE, FROM_END, HOLE, PITCH};
        let (tell, pins, at) = (self.tell, &self.rows.pins, self.rows.pins.span);
        let title = self.rows.title();
        let fact = |length, name: &str, word| {
            // Without a statement of their own the usual figures hold.
            let origin = tell.origin(&BLOCK, word, Some(at.unwrap_or_default()));
            tell.fact(length, name, origin)
        };
        let about = [Subject::Pin];
        let word = |what: &str| format!("pins of {title} in {}, {what}", board.mark);
        let own = |what: &str| format!("pins of {title}, {what}");
        let pitch = fact(pins.pitch, "pitch of the pins", PITCH);
        let end = fact(pins.from_end, "first pin", FROM_END);
        let steps = 0..i64::from(self.rows.count) + 64;
        let floor = match self.rows.over {
            Some(shelf) => shelf.side(Direction::Y, true),
            None => self.rows.opening.stands[1].clone(),
        };
        let head = match self.rows.under {
            Some(shelf) => shelf.side(Direction::Y, false),
            None => &self.rows.opening.stands[1] + &self.rows.opening.high,
        };
        let high = head - &floor;
        let middle = |count: i64| (&high - &pitch * (count - 1)).half();
        let low = steps
            .clone()
            .map(|step| &end + &pitch * step)
            .chain(steps.map(|count| middle(count + 1)));
        let low = pick(self.rows.first, low);
        let foot = floor + &low - board.side(Direction::Y, false);
        let mut sums = vec![
            tell.hardware(&about, own("across"), pins.hole, &fact(pins.hole, "pin hole", HOLE)),
            tell.hardware(&about, own("deep"), pins.deep, &fact(pins.deep, "pin depth", DEEP)),
            tell.hardware(&about, own("step"), pins.pitch, &pitch),
            tell.length(
                &about,
                own(&format!(
                    "first above {}",
                    self.rows.over.map_or("the opening", |shelf| &shelf.mark)
                )),
                self.rows.first,
                &low,
            ),
            tell.length(&about, word("first hole"), first, &foot),
        ];
        let edge = fact(pins.from_edge, "row of pins", FROM_EDGE);
        for (row, what) in rows.into_iter().zip(["front row", "back row"]) {
            let Some(row) = row else { continue };
            let line = match matches!(board.role, Role::Post(_)) {
                true => pick(row, self.in_post(board, from_back).into_iter()),
                false => pick(row, self.lines((board, from_back), &edge)),
            };
            sums.push(tell.length(&about, word(what), row, &line));
        }
        sums
    }

    /// Where a row may lie in a post: in the middle between the front of the shelf, the back of
    /// an inset door, or the panel's groove before it, and the back of the post or the shelf, or
    /// the groove behind it.
    fn in_post(&self, post: &Part, from_back: bool) -> Vec<Size> {
        let (tell, case) = (self.tell, self.case);
        let (start, rear) = (post.side(Direction::Z, from_back), post.side(Direction::Z, true));
        let head = post.side(Direction::Z, false);
        let (mut near, mut far) = (vec![head.clone()], vec![rear.clone()]);
        if let Some((shelf, _)) = self.rows.shelves.first() {
            near.push(shelf.side(Direction::Z, false));
            let rear = shelf.side(Direction::Z, true);
            let how = "the screws of a back go 5/8 in or 16 mm in, and 2 mm of wood stay before them (common practice, no source)";
            let screws = goes_in(tell.piece.tape().unit) + Length::mm(2);
            far.push(&rear - tell.custom(screws, "before the screws of the back", how));
            far.push(rear);
        }
        if let Some(fronts) = &self.rows.opening.front {
            near.push(&head + tell.piece.thickness(fronts.stock));
        }
        if let Some(posts) = &case.posts {
            let how = "2 mm of wood stay beside the groove of a panel (common practice)";
            let wood = tell.custom(Length::mm(2), "wood beside the groove", how);
            near.push(&head + &posts.ends.groove + &wood);
            far.push(rear - &posts.ends.groove - wood);
        }
        let rows = near.iter().flat_map(|near| far.iter().map(move |far| (near + far).half()));
        rows.map(|line| if from_back { &start - line } else { line - &start }).collect()
    }

    /// Where a row may lie behind the front edge of its board, or before its back edge: behind
    /// the carcass's front or an inset front, under the front edge of the shelf, before the back,
    /// or at the quarters of a shallow shelf.
    fn lines(&self, (board, from_back): (&Part, bool), edge: &Size) -> impl Iterator<Item = Size> {
        let (tell, case) = (self.tell, self.case);
        let planes = parts::planes(tell.piece, case);
        let ahead = Size::from(tell.piece.ahead(case));
        let inset = match &self.rows.opening.front {
            Some(fronts) if fronts.set == Set::Inset => {
                Some(&planes.frame + tell.piece.thickness(fronts.stock))
            }
            _ => None,
        };
        let start = board.side(Direction::Z, from_back);
        let mut lines = vec![&ahead + &planes.carcass + edge, &ahead + &planes.inside - edge];
        lines.extend(inset.map(|inset| &ahead + inset + edge));
        if let Some((shelf, _)) = self.rows.shelves.first() {
            let (from, deep) = (shelf.side(Direction::Z, false), shelf.along(Direction::Z));
            let how = "a row lies 3/4 in or 19 mm under its shelf (common practice, no source)";
            let under = tell.custom(Length::mm(19), "under the shelf", how);
            lines.extend([&from + under, &from + deep.clone() / 4, &from + (deep * 3) / 4]);
        }
        lines.into_iter().map(move |line| if from_back { &start - line } else { line - &start })
    }
}
