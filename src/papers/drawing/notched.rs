//! Boards with notches: which of their faces are seen from the front, the right, and
//! above.

use crate::measure::Length;
use crate::parts::{Cuboid, Direction, FeatureKind, Part};

use super::svg::{Fill, mm};

/// A corner of a face: how far right, up, and back it stands.
pub(super) type Corner = (f64, f64, f64);

/// A face of a board.
pub(super) struct Seen {
    pub(super) corners: Vec<Corner>,
    pub(super) fill: Fill,
    pub(super) is_front: bool,
}

/// The broad face of a board in squares of the lines that its notches begin and end on.
struct Squares {
    /// The ways that it lies along, and the lines across each.
    ways: [Direction; 2],
    lines: [Vec<Length>; 2],
    kept: Vec<Vec<bool>>,
}

/// The faces of a board, those that lie farther away first and its broad face last; `None`
/// where no notch goes through it, or where tenons stand before its ends.
pub(super) fn faces(part: &Part) -> Option<Vec<Seen>> {
    let (space, thin) = (part.cuboid(), part.placement.thickness);
    let through = |own: &Cuboid| {
        own.from.along(thin) <= space.from.along(thin) && space.to.along(thin) <= own.to.along(thin)
    };
    let cut = part.features.iter().filter(|own| own.kind == FeatureKind::Notch);
    let notches: Vec<Cuboid> = cut.flat_map(|own| part.hollows(own)).filter(through).collect();
    let tenoned = part.features.iter().any(|own| own.kind == FeatureKind::Tenon);
    if notches.is_empty() || tenoned {
        return None;
    }
    let squares = Squares::of(&space, thin, &notches);
    let mut seen = squares.edges(&space, thin);
    let broad = squares.loops();
    let (fill, is_front) = look(thin);
    seen.extend(broad.into_iter().map(|corners| {
        let at = if thin == Direction::Z { space.from.z } else { space.to.along(thin) };
        let corner = |(a, b): (Length, Length)| place(squares.ways, thin, [a, b, at]);
        Seen { corners: corners.into_iter().map(corner).collect(), fill, is_front }
    }));
    Some(seen)
}

/// How the face that is seen square to a way is drawn.
fn look(way: Direction) -> (Fill, bool) {
    match way {
        Direction::X => (Fill::Grey, false),
        Direction::Y => (Fill::White, false),
        Direction::Z => (Fill::White, true),
    }
}

/// Where three places along two ways and a third stand.
fn place(ways: [Direction; 2], third: Direction, at: [Length; 3]) -> Corner {
    let along = |way: Direction| {
        let all = [ways[0], ways[1], third];
        let own = all.iter().zip(at).find(|(own, _)| **own == way);
        own.map_or(0.0, |(_, at)| mm(at))
    };
    (along(Direction::X), along(Direction::Y), along(Direction::Z))
}

impl Squares {
    fn of(space: &Cuboid, thin: Direction, notches: &[Cuboid]) -> Self {
        let ways = match thin {
            Direction::X => [Direction::Y, Direction::Z],
            Direction::Y => [Direction::X, Direction::Z],
            Direction::Z => [Direction::X, Direction::Y],
        };
        let lines = ways.map(|way| {
            let (from, to) = (space.from.along(way), space.to.along(way));
            let ends = notches.iter().flat_map(|own| [own.from.along(way), own.to.along(way)]);
            let mut lines: Vec<Length> = ends.filter(|at| from < *at && *at < to).collect();
            lines.extend([from, to]);
            lines.sort_unstable();
            lines.dedup();
            lines
        });
        let spans = |way: usize| {
            lines[way].windows(2).filter_map(|own| Some((*own.first()?, *own.last()?)))
        };
        let is_kept = |a: (Length, Length), b: (Length, Length)| {
            let gone = |own: &&Cuboid| {
                let over = |way: Direction, (from, to): (Length, Length)| {
                    own.from.along(way) <= from && to <= own.to.along(way)
                };
                over(ways[0], a) && over(ways[1], b)
            };
            !notches.iter().any(|own| gone(&own))
        };
        let kept = spans(0).map(|a| spans(1).map(|b| is_kept(a, b)).collect()).collect();
        Self { ways, lines, kept }
    }

    fn is_kept(&self, at: (usize, usize)) -> bool {
        self.kept.get(at.0).and_then(|row| row.get(at.1)).copied().unwrap_or(false)
    }

    fn line(&self, way: usize, at: usize) -> Length {
        self.lines[way].get(at).copied().unwrap_or_default()
    }

    /// The edges that are seen along the broad face.
    fn edges(&self, space: &Cuboid, thin: Direction) -> Vec<Seen> {
        let (from, to) = (space.from.along(thin), space.to.along(thin));
        let counts = [self.lines[0].len(), self.lines[1].len()];
        let mut found: Vec<(Length, Length, Seen)> = Vec::new();
        for (way, direction) in self.ways.into_iter().enumerate() {
            let other = 1 - way;
            // What runs back is seen where it begins, the others where they end.
            let starts = direction == Direction::Z;
            let square = |own: usize, across: usize| match way {
                0 => (own, across),
                _ => (across, own),
            };
            for own in 0..counts[way] {
                // A line between two squares: on one side wood, on the other none.
                let is_edge = |across: usize| {
                    let before =
                        own.checked_sub(1).is_some_and(|own| self.is_kept(square(own, across)));
                    let behind = self.is_kept(square(own, across));
                    if starts { behind && !before } else { before && !behind }
                };
                let mut across = 0;
                while across + 1 < counts[other] {
                    let first = across;
                    while across + 1 < counts[other] && is_edge(across) {
                        across += 1;
                    }
                    if first == across {
                        across += 1;
                        continue;
                    }
                    let at = self.line(way, own);
                    let run = [self.line(other, first), self.line(other, across)];
                    let corner = |along: Length, third: Length| {
                        let mut both = [at; 2];
                        both[other] = along;
                        place(self.ways, thin, [both[0], both[1], third])
                    };
                    let corners = vec![
                        corner(run[0], from),
                        corner(run[1], from),
                        corner(run[1], to),
                        corner(run[0], to),
                    ];
                    let (fill, is_front) = look(direction);
                    let far = |way: Direction| match way {
                        own if own == direction => at,
                        own if own == thin => from,
                        _ => run[0],
                    };
                    let seen = Seen { corners, fill, is_front };
                    found.push((far(Direction::Z), far(Direction::Y), seen));
                }
            }
        }
        // The farthest first, and of those the lowest.
        found.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(&b.1)));
        found.into_iter().map(|(.., seen)| seen).collect()
    }

    /// The outline of what is kept, corner by corner, and that of each hole in it.
    fn loops(&self) -> Vec<Vec<(Length, Length)>> {
        // Each side of a kept square that no other shares, with the wood on its left.
        let mut sides: Vec<((usize, usize), (usize, usize))> = Vec::new();
        for a in 0..self.kept.len() {
            for b in 0..self.lines[1].len() - 1 {
                if !self.is_kept((a, b)) {
                    continue;
                }
                let before = |at: usize, square: &dyn Fn(usize) -> (usize, usize)| {
                    at.checked_sub(1).is_some_and(|at| self.is_kept(square(at)))
                };
                if !before(b, &|b| (a, b)) {
                    sides.push(((a, b), (a + 1, b)));
                }
                if !self.is_kept((a + 1, b)) {
                    sides.push(((a + 1, b), (a + 1, b + 1)));
                }
                if !self.is_kept((a, b + 1)) {
                    sides.push(((a + 1, b + 1), (a, b + 1)));
                }
                if !before(a, &|a| (a, b)) {
                    sides.push(((a, b + 1), (a, b)));
                }
            }
        }
        let mut loops = Vec::new();
        while let Some((start, mut end)) = sides.pop() {
            let mut corners = vec![start];
            while end != start {
                corners.push(end);
                let Some(next) = sides.iter().position(|(from, _)| *from == end) else { break };
                end = sides.remove(next).1;
            }
            loops.push(corners);
        }
        let at = |(a, b): (usize, usize)| (self.line(0, a), self.line(1, b));
        loops.into_iter().map(|corners| corners.into_iter().map(at).collect()).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::parts::Point;

    fn mm(at: [i64; 3]) -> Point {
        let [x, y, z] = at.map(Length::mm);
        Point { x, y, z }
    }

    /// A board 18 thick, 100 high, and 60 deep without its upper rear corner, 20 high and 10
    /// deep: six corners, and three edges are seen, two on top and one in front.
    #[test]
    fn a_corner_is_taken_out() {
        let board = Cuboid { from: mm([0, 0, 0]), to: mm([18, 100, 60]) };
        let notch = Cuboid { from: mm([0, 80, 50]), to: mm([18, 100, 60]) };
        let squares = Squares::of(&board, Direction::X, &[notch]);
        let loops = squares.loops();
        let corners: Vec<(Length, Length)> = loops.concat();
        let turns = |at: usize| {
            let before = corners[(at + corners.len() - 1) % corners.len()];
            let next = corners[(at + 1) % corners.len()];
            before.0 != next.0 && before.1 != next.1
        };
        let turned = (0..corners.len()).filter(|at| turns(*at)).count();
        assert_eq!((loops.len(), turned), (1, 6));
        assert_eq!(squares.edges(&board, Direction::X).len(), 3);
    }
}
