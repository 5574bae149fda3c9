//! The elevation.

use std::collections::BTreeSet;

use crate::measure::Length;
use crate::model::{
    Axis, Case, Item, Opening, OpeningId, OpeningKind, Piece, Side, Size, Standing, Stock,
};
use crate::papers::figures::Figures;
use crate::parts::{
    self, Assembly, Cuboid, Direction, Part, Parts, Point, Role, Which, keep_out_space,
};
use crate::plans::fitting::rods;
use crate::plans::on_legs::bottom_on_legs;

use super::cells::Cells;
use super::glass;
use super::labels::{self, Area, Labels};
use super::legible::{self, legible, rows_below};
use super::on_fronts;
use super::shown::Shown;
use super::svg::{Anchor, Fill, Line, Svg, mm, wide};
use super::uncovered::uncovered;

/// The size of a whole piece.
pub(in crate::papers) fn extent(parts: &Parts) -> Cuboid {
    let whole = parts.all.iter().map(Part::cuboid).reduce(|whole, part| whole.union(&part));
    whole.unwrap_or(Cuboid { from: Point::default(), to: Point::default() })
}

/// Whether the doors stand before what is behind them.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::papers) enum Doors {
    Closed,
    /// Left out, with the sizes of what stands behind them.
    Open,
}

/// The piece from the front: nearer parts cover those behind.
pub(in crate::papers) fn elevation(
    piece: &Piece,
    parts: &Parts,
    figures: &Figures,
    whole: &Cuboid,
    doors: Doors,
) -> String {
    let draw = |letter| {
        let mut svg = front(piece, parts, whole, (letter, doors));
        let size = (mm(whole.to.x), mm(whole.to.y));
        rails(&mut svg, piece, parts, size.1, doors);
        dimensions(&mut svg, piece, figures, size, (letter, doors));
        countertops(&mut svg, (piece, parts), figures, (mm(whole.to.y), letter));
        keep_outs(&mut svg, piece, figures, mm(whole.to.y), letter);
        svg
    };
    legible(letter(piece, whole), draw).finish(match doors {
        Doors::Closed => "front elevation of the piece",
        Doors::Open => "front elevation of the piece with its doors open",
    })
}

/// Hanging rails, where no door is before them.
fn rails(svg: &mut Svg, piece: &Piece, parts: &Parts, high: f64, doors: Doors) {
    for rail in rods::plan(piece, parts) {
        if doors == Doors::Closed && piece.door_before(rail.opening.id).is_some() {
            continue;
        }
        let ((left, top), (right, bottom)) = area(&rail.space, high);
        for y in [top, bottom] {
            svg.line((left, y), (right, y), Line::Narrow);
        }
    }
}

/// A piece with errors from the front, as it stands meanwhile: without figures,
/// and grey where a size does not hold.
pub(in crate::papers) fn standing(
    piece: &Piece,
    parts: &Parts,
    standing: &Standing,
    whole: &Cuboid,
) -> String {
    let size = letter(piece, whole);
    let mut svg = front(piece, parts, whole, (size, Doors::Closed));
    let high = mm(whole.to.y);
    let holds: BTreeSet<OpeningId> =
        standing.sizes.iter().filter(|it| it.holds()).filter_map(|it| it.opening).collect();
    for case in &piece.cases {
        // What is behind doors is not seen from the front.
        let seen = |opening: &&Opening| opening.is_leaf() && case.door_before(opening).is_none();
        let openings = case.openings.iter().filter(seen);
        for opening in openings.filter(|opening| !holds.contains(&opening.id)) {
            let (x, y) = (case.x + opening.x, opening.y);
            let (to_x, to_y) = (x + opening.wide.length, y + opening.high.length);
            let at = |x: Length, y: Length| (mm(x), high - mm(y));
            svg.rect(at(x, to_y), at(to_x, y), Line::Beyond, Fill::Grey);
            let middle = (mm(x + to_x) / 2.0, high - mm(y + to_y) / 2.0 + size * 0.35);
            svg.text(middle, "?", size, false);
        }
    }
    svg.finish("front elevation of the piece, with some sizes in doubt")
}

/// The height of the letters on a drawing of the whole piece, its dimensions beside it.
fn letter(piece: &Piece, whole: &Cuboid) -> f64 {
    let rows = piece.site.keep_outs.len() as f64;
    let left = if rows > 0.0 { 3.4 + 3.0 * (rows - 1.0) + 1.3 } else { 3.0 };
    let below = 5.4 + 1.6 + 2.8 * (rows + rows_below(piece));
    let over_all = over_all(piece).map_or(0.0, |_| 3.0);
    let beside = (left + 6.6 + over_all + 1.5, below + 1.5);
    legible::letter((mm(whole.to.x), mm(whole.to.y)), beside)
}

/// Where a box lies on the paper, seen from the front.
pub(super) fn area(space: &Cuboid, high: f64) -> Area {
    ((mm(space.from.x), high - mm(space.to.y)), (mm(space.to.x), high - mm(space.from.y)))
}

/// How many parts an elevation has at the most whose marks keep off its lines.
const LINED: usize = 200;

/// The parts from the front with their marks, and what stands in the way.
fn front(piece: &Piece, parts: &Parts, whole: &Cuboid, (letter, doors): (f64, Doors)) -> Svg {
    let (across, high) = (mm(whole.to.x), mm(whole.to.y));
    let mut svg = Svg::lettered(letter);
    let Shown { order, boxes, standing } = Shown::of(piece, parts, doors);
    svg.line((-letter * 3.0, high), (across + letter * 3.0, high), Line::Wide);
    let mut labels = Labels::over(&((0.0, 0.0), (across, high)));
    for (part, space) in &boxes {
        let own = area(space, high);
        svg.rect(own.0, own.1, Line::Narrow, Fill::White);
        if standing <= LINED {
            labels.draw_sides(&own, letter);
        }
        on_fronts::draw(&mut svg, &mut labels, part, high);
        if piece.stock(part.stock).is_some_and(Stock::is_glass) {
            glass::strokes(&mut svg, &mut labels, &own, letter);
        }
    }
    for case in &piece.cases {
        on_legs(&mut svg, (piece, parts), case, high);
    }
    let in_the_way: Vec<Area> = piece
        .site
        .keep_outs
        .iter()
        .map(|keep_out| area(&keep_out_space(piece, keep_out), high))
        .collect();
    for own in &in_the_way {
        svg.sides(*own, Line::Beyond);
        labels.draw_sides(own, letter);
    }
    // Dimensions stand round the piece.
    let far = across.max(high) * 2.0;
    labels.take(((-far, high + letter * 1.3), (across + far, high + far)));
    labels.take(((across + letter * 1.5, -far), (across + far, high + far)));
    if !piece.site.keep_outs.is_empty() {
        labels.take(((-far, -far), (-letter * 2.3, high + far)));
    }
    for (_, space) in piece.spaces() {
        let right = mm(space.x + space.wide.length);
        let own = ((mm(space.x), high - mm(space.high.length)), (right, high));
        for (from, to) in
            [(own.0, (own.1.0, own.0.1)), (own.0, (own.0.0, own.1.1)), ((own.1.0, own.0.1), own.1)]
        {
            svg.line(from, to, Line::Beyond);
        }
        mark(&mut svg, &mut labels, &[own], &space.name, letter);
    }
    for (at, (own, keep_out)) in in_the_way.iter().zip(&piece.site.keep_outs).enumerate() {
        let others = in_the_way.iter().enumerate().filter(|(other, _)| *other != at);
        let mut seen = uncovered(*own, others.map(|(_, area)| *area));
        seen.push(*own);
        mark(&mut svg, &mut labels, &seen, &keep_out.name, letter);
    }
    for own in &in_the_way {
        labels.take_sides(own, letter);
    }
    let fronts: Vec<Area> = boxes
        .iter()
        .filter(|(part, _)| matches!(part.assembly, Assembly::Front(_)))
        .map(|(_, space)| area(space, high))
        .collect();
    let mut covers = Cells::over(&((0.0, 0.0), (across, high)));
    for (place, front) in fronts.iter().enumerate() {
        covers.put(front, place);
    }
    let behind = |part: &Part| doors == Doors::Open && is_named_behind(part);
    let named = |part: &&&Part| shown(part) || behind(part);
    for part in order.iter().filter(named) {
        let own = area(&part.cuboid(), high);
        let is_in_frame = matches!(part.assembly, Assembly::Frame(_));
        let over: BTreeSet<usize> = match is_in_frame {
            true => covers.near(&own).collect(),
            false => BTreeSet::new(),
        };
        let over = over.into_iter().filter_map(|place| fronts.get(place)).copied();
        mark(&mut svg, &mut labels, &uncovered(own, over), &part.mark, letter);
    }
    svg
}

/// The bought legs along the front of a case, from their tops down to their feet.
fn on_legs(svg: &mut Svg, (piece, parts): (&Piece, &Parts), case: &Case, high: f64) {
    let (Some((legs, leg)), Some((_, bottom))) =
        (piece.legs_under(case), bottom_on_legs(parts, case))
    else {
        return;
    };
    let front = usize::try_from(legs.across).unwrap_or(usize::MAX);
    let (left, up) = (mm(bottom.cuboid().from.x), high - mm(case.base_high().length));
    for own in parts::legs_under(piece, case, bottom).iter().take(front) {
        let middle = left + mm(own.center[0].length);
        for side in [-0.5, 0.5] {
            let (top, foot) = (side * mm(leg.wide.length), side * mm(leg.foot));
            svg.line((middle + top, up), (middle + foot, high), Line::Narrow);
        }
    }
}

/// A mark on what is seen of its part: level, else read from the right, else beside it
/// with a line.
fn mark(svg: &mut Svg, labels: &mut Labels, seen: &[Area], text: &str, letter: f64) {
    // Capitals are lower than a line of text, and a rail has room for them alone.
    let spare = letter * 0.13;
    let grown = |area: &Area| ((area.0.0, area.0.1 - spare), (area.1.0, area.1.1 + spare));
    if seen.iter().any(|area| labels.on(svg, &grown(area), text, letter)) {
        return;
    }
    let half = (wide(text, letter) / 2.0, letter * 0.55 - spare);
    let turned = seen.iter().find_map(|area| {
        let (x, y) = labels::middle(area);
        let room = ((x - half.1, y - half.0), (x + half.1, y + half.0));
        (labels::is_within(&room, area) && labels.is_free(&room)).then_some(((x, y), room))
    });
    match (turned, seen.first()) {
        (Some(((x, y), room)), _) => {
            labels.take(room);
            svg.bare((x + letter * 0.35, y), text, letter);
        }
        (None, Some(area)) => labels.lead_out(svg, area, text, letter),
        (None, None) => {}
    }
}

/// Parts whose marks are seen from the front.
fn shown(part: &Part) -> bool {
    match part.role {
        Role::Stile
        | Role::Rail
        | Role::Slab
        | Role::Kick
        | Role::FrontPanel
        | Role::Filler
        | Role::Countertop => true,
        Role::BaseMember | Role::Post(_) => part.which == Which::Front,
        _ => false,
    }
}

/// Parts whose marks are seen when the doors before them are open.
fn is_named_behind(part: &Part) -> bool {
    matches!(
        part.role,
        Role::DrawerFront | Role::Divider | Role::FixedShelf | Role::AdjustableShelf
    )
}

/// Over all, then the members and openings of each case's root list.
fn dimensions(
    svg: &mut Svg,
    piece: &Piece,
    figures: &Figures,
    (wide, high): (f64, f64),
    (letter, doors): (f64, Doors),
) {
    let chain = |case: &Case, axis| {
        let marks = self::marks(case, axis, doors);
        let sizes: Vec<Length> = marks.windows(2).map(|pair| pair[1] - pair[0]).collect();
        let figures = figures.nearest(&sizes);
        let pairs = marks.windows(2).zip(figures);
        pairs.map(|(pair, figure)| (mm(pair[0]), mm(pair[1]), figure)).collect::<Vec<_>>()
    };
    let y = high + letter * 2.6;
    let across = |case: &Case| {
        let x = mm(case.x);
        let own = chain(case, Axis::Across).into_iter();
        own.map(|(from, to, figure)| (x + from, x + to, figure)).collect::<Vec<_>>()
    };
    // What stands on other cases or hangs over them has its figures above it.
    for case in piece.placed() {
        let (from, to) = (mm(case.x), mm(case.x + case.wide.length));
        svg.chain_across(&across(case), -letter * 1.6, letter);
        svg.across(from, to, -letter * 4.4, &figures.text(case.wide.length), letter);
    }
    let (mut chained, mut cases) = (Vec::new(), Vec::new());
    for case in piece.cases.iter().filter(|case| case.is_in_row()) {
        chained.extend(across(case));
        let mut add = |x: Length, wide: &Size| {
            cases.push((mm(x), mm(x + wide.length), figures.text(wide.length)));
        };
        add(case.x, &case.wide);
        for filler in &case.fillers {
            match filler.side {
                Side::Left => add(case.x - filler.wide.length, &filler.wide),
                Side::Right => add(case.x + case.wide.length, &filler.wide),
            }
        }
    }
    let spaces = piece.spaces().map(|(_, own)| (own.x, &own.wide));
    cases.extend(spaces.map(|(x, wide)| (mm(x), mm(x + wide.length), figures.text(wide.length))));
    cases.sort_by(|one, other| one.0.total_cmp(&other.0));
    svg.chain_across(&chained, y, letter);
    svg.chain_across(&cases, y + letter * 2.8, letter);
    let runs: Vec<_> = piece
        .runs
        .iter()
        .map(|run| (mm(run.x), mm(run.x + run.wide.length), figures.text(run.wide.length)))
        .collect();
    svg.chain_across(&runs, y + letter * 5.6, letter);
    if let Some((case, upper)) = at_side(piece) {
        let x = wide + letter * 3.0;
        let mut chained = chain(case, Axis::Down);
        // From its own underside up.
        let above = upper.map(|own| (mm(own.base_high().length), chain(own, Axis::Down)));
        let above = above
            .into_iter()
            .flat_map(|(up, own)| own.into_iter().filter(move |(from, ..)| *from >= up));
        chained.extend(above);
        let chained: Vec<_> = chained
            .into_iter()
            .map(|(from, to, figure)| (high - from, high - to, figure))
            .collect();
        let taken = svg.chain_upright(&chained, x, letter);
        let next = x + (letter * 3.0).max(taken + letter * 2.4);
        let between =
            |from: Length, to: Length| (high - mm(from), high - mm(to), figures.text(to - from));
        let top = case.high.length;
        let mut heights = vec![between(Length::ZERO, top)];
        let countertop = piece.top_over(case.id);
        let covered = countertop.map(|own| top + piece.thickness(own.spec.stock).length);
        heights.extend(covered.map(|covered| between(top, covered)));
        // What hangs leaves a space between the two.
        let bare = upper.map(|own| (covered.unwrap_or(top), own.base_high().length));
        heights.extend(bare.filter(|(from, to)| from < to).map(|(from, to)| between(from, to)));
        heights.extend(upper.map(|own| between(own.base_high().length, own.high.length)));
        let taken = svg.chain_upright(&heights, next, letter);
        if let Some(whole) = over_all(piece) {
            let next = next + (letter * 3.0).max(taken + letter * 2.4);
            svg.chain_upright(&[between(Length::ZERO, whole)], next, letter);
        }
    }
}

/// The case whose heights stand at the right of the elevation, and the one on it or over it.
pub(in crate::papers) fn at_side(piece: &Piece) -> Option<(&Case, Option<&Case>)> {
    let case = piece.cases.iter().rfind(|case| case.is_in_row())?;
    Some((case, piece.placed().find(|upper| piece.is_above(upper, case))))
}

/// The height over all with the countertop, at the right, where its figures stand; nothing
/// where there is none, or another case stands on it.
fn over_all(piece: &Piece) -> Option<Length> {
    let (case, upper) = at_side(piece)?;
    let top = piece.top_over(case.id).filter(|_| upper.is_none())?;
    Some(case.high.length + piece.thickness(top.spec.stock).length)
}

/// How long each countertop is, below the sizes of the cases.
fn countertops(
    svg: &mut Svg,
    (piece, parts): (&Piece, &Parts),
    figures: &Figures,
    (high, letter): (f64, f64),
) {
    let tops = parts.all.iter().filter(|part| part.role == Role::Countertop);
    let chain: Vec<_> = tops
        .map(|part| (part.extent(Direction::X), figures.text(part.length.length)))
        .map(|((from, to), figure)| (mm(from), mm(to), figure))
        .collect();
    let row = if piece.runs.is_empty() { 8.4 } else { 11.2 };
    svg.chain_across(&chain, high + letter * row, letter);
}

/// Where each keep-out lies: its left distance and its width below the piece, how
/// high it begins and ends at its left.
fn keep_outs(svg: &mut Svg, piece: &Piece, figures: &Figures, high: f64, letter: f64) {
    for (row, keep_out) in piece.site.keep_outs.iter().enumerate() {
        let away = letter * (8.4 + 2.8 * (row as f64 + rows_below(piece)));
        let (left, up) = (mm(keep_out.from_left), mm(keep_out.up));
        let (y, right) = (high + away, left + mm(keep_out.wide));
        let mut chain = vec![(left, right, figures.text(keep_out.wide))];
        if left > 0.0 {
            chain.insert(0, (0.0, left, figures.text(keep_out.from_left)));
        }
        svg.chain_across(&chain, y, letter);
        svg.label((right + letter, y), &keep_out.name, letter, Anchor::Start);
        let x = letter * -(3.4 + 3.0 * row as f64);
        let (from, to) = (high - up, high - up - mm(keep_out.high));
        let mut chain = vec![(from, to, figures.text(keep_out.high))];
        if up > 0.0 {
            chain.insert(0, (high, from, figures.text(keep_out.up)));
        }
        svg.chain_upright(&chain, x, letter);
    }
}

/// Where sizes begin and end along an axis: those of the frame members and openings of a
/// list, or of the first list in it that runs that way; with the doors open, also of what
/// stands behind those.
fn marks(case: &Case, axis: Axis, doors: Doors) -> Vec<Length> {
    let Some(root) = case.openings.first() else { return Vec::new() };
    let mut marks: Vec<Length> = match axis {
        Axis::Across => vec![Length::ZERO, root.x, root.x + root.wide.length, case.wide.length],
        Axis::Down => {
            let base = case.base_high().length;
            vec![Length::ZERO, base, root.y, root.y + root.high.length, case.high.length]
        }
    };
    let lists = drawn(case, axis, doors);
    if lists.is_empty() && !matches!(root.kind, OpeningKind::List(..)) {
        return Vec::new();
    }
    for list in lists {
        let OpeningKind::List(_, items) = &list.kind else { continue };
        for item in items {
            let (from, size) = match item {
                Item::Opening(index) => case.openings.get(index.at).map(|o| match axis {
                    Axis::Across => (o.x, o.wide.length),
                    Axis::Down => (o.y, o.high.length),
                }),
                Item::Member(index) => case.members.get(index.at).map(|m| match axis {
                    Axis::Across => (m.x, m.wide.length),
                    Axis::Down => (m.y, m.wide.length),
                }),
            }
            .unwrap_or_default();
            marks.extend([from, from + size]);
        }
    }
    marks.sort_unstable();
    marks.dedup();
    marks
}

/// The lists whose sizes the elevation has along an axis.
pub(in crate::papers) fn drawn(case: &Case, axis: Axis, doors: Doors) -> Vec<&Opening> {
    let first = case.openings.first().and_then(|root| along(case, root, axis));
    let behind = |list: &Opening| -> Vec<&Opening> {
        let OpeningKind::List(_, items) = &list.kind else { return Vec::new() };
        let doors = items.iter().filter_map(|item| match item {
            Item::Opening(index) => case.openings.get(index.at)?.behind,
            Item::Member(_) => None,
        });
        doors.filter_map(|list| along(case, case.openings.get(list.at)?, axis)).collect()
    };
    let mut all: Vec<&Opening> = first.into_iter().collect();
    if doors == Doors::Open {
        // Where no list before the doors runs that way, one behind a door may.
        let inner = match first {
            Some(list) => behind(list),
            None => {
                let mut lists = case.openings.iter().filter_map(|door| door.behind);
                let list = lists.find_map(|list| along(case, case.openings.get(list.at)?, axis));
                list.into_iter().collect()
            }
        };
        all.extend(inner);
    }
    all
}

/// A list, or the first list in it that runs along an axis.
fn along<'c>(case: &'c Case, root: &'c Opening, axis: Axis) -> Option<&'c Opening> {
    let mut list = root;
    loop {
        let OpeningKind::List(own, items) = &list.kind else { return None };
        if *own == axis {
            return Some(list);
        }
        list = items.iter().find_map(|item| match item {
            Item::Opening(index) => case.openings.get(index.at).filter(|o| !o.is_leaf()),
            Item::Member(_) => None,
        })?;
    }
}
