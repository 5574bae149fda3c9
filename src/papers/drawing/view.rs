//! Elevation, section and exploded view.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use crate::measure::Length;
use crate::model::{Axis, Case, CaseId, Item, OpeningId, OpeningKind, Piece, Standing};
use crate::papers::figures::Figures;
use crate::parts::{
    Assembly, Bore, Cuboid, Direction, Face, FeatureKind, Part, Parts, Point, Role, Which,
    keep_out_space,
};

use super::svg::{Fill, Line, Svg};

fn mm(length: Length) -> f64 {
    length.to_mm_f64()
}

/// The size of a whole piece.
pub(in crate::papers) fn extent(parts: &Parts) -> Cuboid {
    let whole = parts.all.iter().map(Part::cuboid).reduce(|whole, part| whole.union(&part));
    whole.unwrap_or(Cuboid { from: Point::default(), to: Point::default() })
}

/// The piece from the front: nearer parts cover those behind.
pub(in crate::papers) fn elevation(
    piece: &Piece,
    parts: &Parts,
    figures: &Figures,
    whole: &Cuboid,
) -> String {
    let mut svg = front(piece, parts, whole);
    dimensions(&mut svg, piece, figures, (mm(whole.to.x), mm(whole.to.y)), letter(whole));
    svg.finish("front elevation of the piece")
}

/// A piece with errors from the front, as it stands meanwhile: without figures,
/// and grey where a size does not hold.
pub(in crate::papers) fn standing(
    piece: &Piece,
    parts: &Parts,
    standing: &Standing,
    whole: &Cuboid,
) -> String {
    let mut svg = front(piece, parts, whole);
    let high = mm(whole.to.y);
    let holds: BTreeSet<OpeningId> =
        standing.sizes.iter().filter(|it| it.holds()).filter_map(|it| it.opening).collect();
    for case in &piece.cases {
        let openings = case.openings.iter().filter(|opening| opening.is_leaf());
        for opening in openings.filter(|opening| !holds.contains(&opening.id)) {
            let (x, y) = (case.x + opening.x, opening.y);
            let (to_x, to_y) = (x + opening.wide.length, y + opening.high.length);
            let at = |x: Length, y: Length| (mm(x), high - mm(y));
            svg.rect(at(x, to_y), at(to_x, y), Line::Beyond, Fill::Grey);
            let size = letter(whole);
            let middle = (mm(x + to_x) / 2.0, high - mm(y + to_y) / 2.0 + size * 0.35);
            svg.text(middle, "?", size, false);
        }
    }
    svg.finish("front elevation of the piece, with some sizes in doubt")
}

/// The height of the letters on a drawing of the whole piece.
fn letter(whole: &Cuboid) -> f64 {
    mm(whole.to.x).max(mm(whole.to.y)) / 62.0
}

/// The parts from the front with their marks, and what stands in the way.
fn front(piece: &Piece, parts: &Parts, whole: &Cuboid) -> Svg {
    let (wide, high) = (mm(whole.to.x), mm(whole.to.y));
    let mut svg = Svg::new(wide.max(high));
    let letter = letter(whole);
    let mut order: Vec<&Part> = parts.all.iter().collect();
    order.sort_by_cached_key(|part| (Reverse(part.cuboid().from.z), part.path.as_str()));
    svg.line((-letter * 3.0, high), (wide + letter * 3.0, high), Line::Wide);
    for part in &order {
        let space = shoulders(part);
        let at = |x: Length, y: Length| (mm(x), high - mm(y));
        svg.rect(
            at(space.from.x, space.to.y),
            at(space.to.x, space.from.y),
            Line::Narrow,
            Fill::White,
        );
        front_features(&mut svg, part, high);
    }
    for part in order.iter().filter(|part| shown(part)) {
        let space = part.cuboid();
        let x = mm(space.from.x + space.to.x) / 2.0;
        let y = high - mm(space.from.y + space.to.y) / 2.0;
        let upright = part.role == Role::Stile;
        let small = mm(space.size(Direction::Y)).min(mm(space.size(Direction::X)));
        let size = letter.min(small * 0.72).max(letter * 0.55);
        let at = if upright { (x + size * 0.35, y) } else { (x, y + size * 0.35) };
        svg.text(at, &part.mark, size, upright);
    }
    for keep_out in &piece.site.keep_outs {
        let space = keep_out_space(piece, keep_out);
        let (x0, x1) = (mm(space.from.x), mm(space.to.x));
        let (y0, y1) = (high - mm(space.to.y), high - mm(space.from.y));
        for (from, to) in
            [((x0, y0), (x1, y0)), ((x1, y0), (x1, y1)), ((x1, y1), (x0, y1)), ((x0, y1), (x0, y0))]
        {
            svg.line(from, to, Line::Beyond);
        }
        svg.text((x0 + (x1 - x0) / 2.0, y1 - letter * 0.4), &keep_out.name, letter * 0.7, false);
    }
    svg
}

/// A part without its tenons: from shoulder to shoulder.
fn shoulders(part: &Part) -> Cuboid {
    let mut space = part.cuboid();
    for tenon in part.features.iter().filter(|f| f.kind == FeatureKind::Tenon) {
        let (axis, start) = (part.placement.direction(tenon.face), tenon.face.is_start());
        let (from, to) = (&mut space.from, &mut space.to);
        match (axis, start) {
            (Direction::X, true) => from.x += tenon.deep,
            (Direction::X, false) => to.x -= tenon.deep,
            (Direction::Y, true) => from.y += tenon.deep,
            (Direction::Y, false) => to.y -= tenon.deep,
            (Direction::Z, true) => from.z += tenon.deep,
            (Direction::Z, false) => to.z -= tenon.deep,
        }
    }
    space
}

/// Parts whose marks are seen from the front.
fn shown(part: &Part) -> bool {
    match part.role {
        Role::Stile | Role::Rail | Role::Slab | Role::Kick | Role::FrontPanel => true,
        Role::BaseMember => part.which == Which::Front,
        _ => false,
    }
}

fn front_features(svg: &mut Svg, part: &Part, high: f64) {
    let origin = part.placement.origin;
    let up = part.placement.length == Direction::Y;
    for feature in part
        .features
        .iter()
        .filter(|f| f.face == Face::ThickStart && part.placement.thickness == Direction::Z)
    {
        let (u, v) = feature.center();
        let (x, y) = if up { (origin.x + v, origin.y + u) } else { (origin.x + u, origin.y + v) };
        match feature.kind {
            FeatureKind::Flute(_) => {
                let along_u = feature.u.1 - feature.u.0 > feature.v.1 - feature.v.0;
                let (a, b) = if along_u { feature.u } else { feature.v };
                let vertical = along_u == up;
                if vertical {
                    let (from, to) = (origin.y + a, origin.y + b);
                    svg.line((mm(x), high - mm(from)), (mm(x), high - mm(to)), Line::Narrow);
                } else {
                    let (from, to) = (origin.x + a, origin.x + b);
                    svg.line((mm(from), high - mm(y)), (mm(to), high - mm(y)), Line::Narrow);
                }
            }
            FeatureKind::Bore(Bore::Pull) => {
                svg.circle((mm(x), high - mm(y)), mm(feature.u.1 - feature.u.0), Line::Narrow);
            }
            _ => {}
        }
    }
}

/// Over all, then the members and openings of each case's root list.
fn dimensions(
    svg: &mut Svg,
    piece: &Piece,
    figures: &Figures,
    (wide, high): (f64, f64),
    letter: f64,
) {
    for case in &piece.cases {
        let x = mm(case.x);
        let y = high + letter * 2.6;
        for (from, to, figure) in chain(case, Axis::Across, figures) {
            svg.across(x + from, x + to, y, &figure, letter * 0.9);
        }
        let over_all = figures.text(case.wide.length);
        svg.across(x, x + mm(case.wide.length), y + letter * 2.4, &over_all, letter);
    }
    if let Some(case) = piece.cases.last() {
        let x = wide + letter * 3.0;
        for (from, to, figure) in chain(case, Axis::Down, figures) {
            svg.upright(high - from, high - to, x, &figure, letter * 0.9);
        }
        svg.upright(
            high,
            high - mm(case.high.length),
            x + letter * 2.6,
            &figures.text(case.high.length),
            letter,
        );
    }
}

/// The chain of sizes along an axis: frame members and openings of the root
/// list, or of the first list in it that runs that way: from, to and figure, so
/// that the figures add up.
fn chain(case: &Case, axis: Axis, figures: &Figures) -> Vec<(f64, f64, String)> {
    let Some(root) = case.openings.first() else { return Vec::new() };
    let mut list = root;
    loop {
        let OpeningKind::List(own, items) = &list.kind else { return Vec::new() };
        if *own == axis {
            break;
        }
        let inner = items.iter().find_map(|item| match item {
            Item::Opening(index) => case.openings.get(index.at).filter(|o| !o.is_leaf()),
            Item::Member(_) => None,
        });
        match inner {
            Some(inner) => list = inner,
            None => break,
        }
    }
    let mut marks: Vec<Length> = match axis {
        Axis::Across => vec![Length::ZERO, root.x, root.x + root.wide.length, case.wide.length],
        Axis::Down => {
            let base = case.base_high().length;
            vec![Length::ZERO, base, root.y, root.y + root.high.length, case.high.length]
        }
    };
    if let OpeningKind::List(own, items) = &list.kind {
        for item in items.iter().filter(|_| *own == axis) {
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
    let sizes: Vec<Length> = marks.windows(2).map(|pair| pair[1] - pair[0]).collect();
    marks
        .windows(2)
        .zip(figures.spread(&sizes))
        .map(|(pair, figure)| (mm(pair[0]), mm(pair[1]), figure))
        .collect()
}

/// A section square to the front, seen from the left: what the cut goes
/// through is hatched. It is the section of this number on its page.
pub(in crate::papers) fn section(
    piece: &Piece,
    parts: &Parts,
    figures: &Figures,
    whole: &Cuboid,
    x: Length,
    number: usize,
) -> String {
    let (deep, high) = (mm(whole.to.z), mm(whole.to.y));
    let mut svg = Svg::new(deep.max(high) * 1.25).hatched(format!("hatching-{number}"));
    let letter = deep.max(high) / 38.0;
    // The case that is cut and its neighbour beyond: what stands further along
    // is mostly hidden, and drawing it each time would cost the square of the cases.
    let cut_case = piece.cases.iter().rposition(|case| case.x <= x).unwrap_or(0);
    let mut order: Vec<&Part> = [cut_case, cut_case + 1]
        .into_iter()
        .flat_map(|case| parts.of_case(CaseId(case)))
        .filter(|part| part.cuboid().to.x > x)
        .collect();
    order.sort_by_cached_key(|part| (Reverse(part.cuboid().from.x), part.path.as_str()));
    let view = FromTheLeft { deep, high };
    svg.line((-letter * 2.0, high), (deep + letter * 2.0, high), Line::Wide);
    for part in &order {
        let space = part.cuboid();
        if space.from.x >= x {
            outline(&mut svg, part, view);
            plate_holes(&mut svg, part, view);
        }
    }
    let cut: Vec<&&Part> = order.iter().filter(|part| part.cuboid().from.x < x).collect();
    for part in &cut {
        from_the_side(&mut svg, &part.cuboid(), view, Line::Wide, Fill::Hatched);
    }
    for part in &cut {
        let space = part.cuboid();
        let (x, y) =
            view.at((space.from.z + space.to.z).half(), (space.from.y + space.to.y).half());
        let upright = space.size(Direction::Y) > space.size(Direction::Z);
        let thin = mm(space.size(Direction::Y)).min(mm(space.size(Direction::Z)));
        let size = (thin * 0.8).clamp(letter * 0.5, letter * 0.85);
        // On a board that is thinner than the letters the mark stands beside it.
        let beside = letter * 0.2;
        let at = match (thin * 0.8 < size, upright) {
            (true, true) => (view.at(space.to.z, space.to.y).0 - beside, y),
            (true, false) => (x, view.at(space.to.z, space.to.y).1 - beside),
            (false, true) => (x + letter * 0.3, y),
            (false, false) => (x, y + letter * 0.3),
        };
        svg.text(at, &part.mark, size, upright);
    }
    if let Some(case) = piece.cases.get(cut_case) {
        // All backs stand at one wall; a shallow case begins further back.
        let front = mm(case.deep.length);
        svg.across(0.0, front, high + letter * 2.4, &figures.text(case.deep.length), letter);
        if let Some(base) = &case.base {
            svg.across(
                front - mm(base.set_back.length),
                front,
                high + letter * 4.6,
                &figures.text(base.set_back.length),
                letter,
            );
            svg.upright(
                high,
                high - mm(base.high.length),
                deep + letter * 2.4,
                &figures.text(base.high.length),
                letter,
            );
        }
        svg.upright(
            high,
            high - mm(case.high.length),
            deep + letter * 4.8,
            &figures.text(case.high.length),
            letter,
        );
    }
    svg.finish("vertical section from front to back")
}

/// How the piece lies on the paper seen from the left: its front on the right.
#[derive(Clone, Copy)]
struct FromTheLeft {
    deep: f64,
    high: f64,
}

impl FromTheLeft {
    fn at(self, z: Length, y: Length) -> (f64, f64) {
        (self.deep - mm(z), self.high - mm(y))
    }
}

/// A box seen from the left.
fn from_the_side(svg: &mut Svg, space: &Cuboid, view: FromTheLeft, line: Line, fill: Fill) {
    svg.rect(view.at(space.to.z, space.to.y), view.at(space.from.z, space.from.y), line, fill);
}

/// The screw holes of hinge plates in a side that is looked at from the left.
fn plate_holes(svg: &mut Svg, part: &Part, view: FromTheLeft) {
    let bored = part.features.iter().filter(|f| f.kind == FeatureKind::Bore(Bore::Plate));
    for hole in bored.filter(|f| f.face == part.placement.face(Direction::X, true)) {
        for space in part.hollows(hole) {
            let (z, y) = ((space.from.z + space.to.z).half(), (space.from.y + space.to.y).half());
            svg.circle(view.at(z, y), mm(space.size(Direction::Y).half()), Line::Narrow);
        }
    }
}

/// A part beyond the cut, its notches taken out.
fn outline(svg: &mut Svg, part: &Part, view: FromTheLeft) {
    let space = part.cuboid();
    let at = |z: Length, y: Length| view.at(z, y);
    let notch = part
        .features
        .iter()
        .find(|f| f.kind == FeatureKind::Notch && matches!(part.role, Role::End(_)));
    match notch {
        Some(notch) => {
            let (y, z) = (space.from.y + notch.u.1, space.from.z + notch.v.1);
            let points = [
                at(space.from.z, space.to.y),
                at(space.to.z, space.to.y),
                at(space.to.z, space.from.y),
                at(z, space.from.y),
                at(z, y),
                at(space.from.z, y),
            ];
            svg.polygon(&points, Line::Narrow, Fill::White);
        }
        None => from_the_side(svg, &space, view, Line::Narrow, Fill::White),
    }
}

/// The piece taken apart along the ways it goes together.
pub(in crate::papers) fn exploded(parts: &Parts, whole: &Cuboid) -> String {
    let size = mm(whole.to.x).max(mm(whole.to.y)).max(mm(whole.to.z));
    let mut svg = Svg::new(size * 2.2);
    let far = |part: &Part, by: &[f64; 3]| {
        let space = part.cuboid();
        let mid = |d: Direction| mm(space.from.along(d) + space.to.along(d)) / 2.0;
        (mid(Direction::Z) + by[2]) * 1.0 + (mid(Direction::X) + by[0]) * 0.35
            - (mid(Direction::Y) + by[1]) * 0.35
    };
    let with_place = |part| {
        let by = apart(part, whole, size);
        (part, by, far(part, &by))
    };
    let mut order: Vec<(&Part, [f64; 3], f64)> = parts.all.iter().map(with_place).collect();
    // Far things first: seen from the front, right and above.
    order.sort_by(|(a, _, far_a), (b, _, far_b)| {
        far_b.total_cmp(far_a).then_with(|| a.path.cmp(&b.path))
    });
    let project = |x: f64, y: f64, z: f64| (x + z * 0.45, -y - z * 0.30);
    for (part, by, _) in &order {
        let space = part.cuboid();
        let (x0, y0, z0) =
            (mm(space.from.x) + by[0], mm(space.from.y) + by[1], mm(space.from.z) + by[2]);
        let (x1, y1, z1) = (mm(space.to.x) + by[0], mm(space.to.y) + by[1], mm(space.to.z) + by[2]);
        let top =
            [project(x0, y1, z0), project(x1, y1, z0), project(x1, y1, z1), project(x0, y1, z1)];
        let right =
            [project(x1, y0, z0), project(x1, y1, z0), project(x1, y1, z1), project(x1, y0, z1)];
        let front =
            [project(x0, y0, z0), project(x1, y0, z0), project(x1, y1, z0), project(x0, y1, z0)];
        svg.polygon(&top, Line::Narrow, Fill::White);
        svg.polygon(&right, Line::Narrow, Fill::Grey);
        svg.polygon(&front, Line::Narrow, Fill::White);
        let center = project((x0 + x1) / 2.0, (y0 + y1) / 2.0, z0);
        let room = (x1 - x0).max((y1 - y0) * 0.5);
        let letter = size / 40.0;
        if room > letter * 2.0 || matches!(part.role, Role::Stile | Role::End(_)) {
            svg.text(
                (center.0, center.1 + letter * 0.3),
                &part.mark,
                letter * 0.9,
                (x1 - x0) < letter * 2.0,
            );
        }
    }
    svg.finish("exploded view of the piece")
}

/// How far a part is moved from its place.
fn apart(part: &Part, whole: &Cuboid, size: f64) -> [f64; 3] {
    let step = size * 0.22;
    let space = part.cuboid();
    let middle = mm(whole.to.x) / 2.0;
    let side = if mm(space.from.x + space.to.x) / 2.0 < middle { -1.0 } else { 1.0 };
    match (&part.assembly, part.role) {
        (Assembly::Front(_), _) => [0.0, 0.0, -step * 4.6],
        (Assembly::Frame(_), _) => [0.0, 0.0, -step * 3.0],
        (Assembly::DrawerBox(_), Role::DrawerFront) => [0.0, 0.0, -step * 1.9],
        (Assembly::DrawerBox(_), Role::DrawerBottom) => [0.0, -step * 0.12, -step * 1.7],
        (Assembly::DrawerBox(_), _) => [0.0, 0.0, -step * 1.7],
        (Assembly::Base(_), _) => [0.0, -step * 1.6, 0.0],
        (_, Role::End(_)) => [side * step, 0.0, 0.0],
        (_, Role::Bottom) => [0.0, -step * 0.6, 0.0],
        (_, Role::Leg | Role::Kick) => {
            [0.0, -step * 1.1, if part.role == Role::Kick { -step * 0.9 } else { 0.0 }]
        }
        (_, Role::Stretcher | Role::Top) => [0.0, step * 0.9, 0.0],
        (_, Role::Back) => [0.0, step * 0.3, step * 1.9],
        _ => [0.0, 0.0, 0.0],
    }
}
