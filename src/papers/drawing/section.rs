//! Sections: upright from front to back, and level through a drawer or a door.

use crate::measure::Length;
use crate::model::{Case, Opening, OpeningKind, Piece};
use crate::papers::figures::Figures;
use crate::parts::{
    Assembly, Bore, Cuboid, Direction, Feature, FeatureKind, Part, PartId, Parts, Role,
    keep_out_space,
};
use crate::plans::fitting::rods;

use super::cut::{Plane, covers_over, lies, near, stack, toe};
use super::holes;
use super::labels::{Area, Labels, middle};
use super::legible::{legible, letter};
use super::svg::{Fill, Line, Svg, mm, wide};

/// A section square to the front, seen from the left: what the cut goes through is
/// hatched. It is the section of this number on its page.
pub(in crate::papers) fn section(
    piece: &Piece,
    parts: &Parts,
    figures: &Figures,
    whole: &Cuboid,
    (case, x): (&Case, Length),
    number: usize,
) -> String {
    let plane = Plane::FromLeft { x, deep: whole.to.z, high: whole.to.y };
    let (deep, high) = (mm(whole.to.z), mm(whole.to.y));
    let sorted = plane.sort(stack(piece, parts, case));
    let told = heights(figures, plane, &sorted.cut);
    let in_the_way = in_the_way(piece, |space| {
        let beyond = x < space.to.x && space.from.x < case.x + case.wide.length;
        beyond && !sorted.beyond.iter().any(|(_, part)| hides(part, space))
    });
    let reach = |texts: &[Told]| texts.iter().map(|(_, own)| wide(own, 1.0)).fold(0.0, f64::max);
    let beside = reach(&told.0) + 3.0 + reach(&told.1) + 8.5;
    let draw = |letter: f64| {
        let mut svg = Svg::lettered(letter).hatched(format!("hatching-{number}"));
        svg.line((-letter * 2.0, high), (deep + letter * 2.0, high), Line::Wide);
        for (_, part) in &sorted.beyond {
            outline(&mut svg, part, plane);
            plate_holes(&mut svg, part, plane);
            round_holes(&mut svg, part, plane, Direction::X);
        }
        plane.draw_cut(&mut svg, &sorted.cut);
        for rail in rods::plan(piece, parts) {
            if rail.space.from.x <= x && x <= rail.space.to.x {
                let radius = mm(rail.rod.diameter.half());
                svg.circle(middle(&plane.area(&rail.space)), radius, Line::Wide);
            }
        }
        let mut labels = Labels::over(&((-letter * 10.0, 0.0), (deep + letter * 10.0, high)));
        for (_, part) in &sorted.cut {
            labels.draw(plane.area(&part.cuboid()));
        }
        keep_off(&mut labels, &sorted.beyond, plane, letter);
        draw_ways(&mut svg, &mut labels, &in_the_way, plane, letter);
        let (back, front) = told.clone();
        labels.column(&mut svg, (-letter * 0.8, -letter * 2.4), back, letter);
        // A countertop may reach before the foremost face.
        let foremost = deep - mm(whole.from.z.min(Length::ZERO));
        let columns = (foremost + letter * 0.8, foremost + letter * 2.4);
        let right = labels.column(&mut svg, columns, front, letter);
        // What lies is named at the side; the other boards are named beside themselves.
        for (_, part) in sorted.cut.iter().filter(|(_, part)| !is_at_side(part)) {
            let area = plane.area(&part.cuboid());
            if !labels.on(&mut svg, &area, &part.mark, letter) {
                labels.lead_out(&mut svg, &area, &part.mark, letter);
            }
        }
        let rear = mm(whole.to.z - piece.ahead(case) - case.deep.length);
        let at = (rear, right + letter * 2.0);
        let over = mm(piece.before_frame(case).length);
        over_all(&mut svg, (case, over), figures, high, (at, letter));
        svg
    };
    let first = letter((deep, high), (beside, 7.5));
    legible(first, draw).finish("vertical section from front to back")
}

/// How many parts a section has at the most whose marks keep off the lines of what
/// stands beyond.
const LINED: usize = 200;

/// The keep-outs that a section shows, with what they are called.
fn in_the_way(piece: &Piece, shows: impl Fn(&Cuboid) -> bool) -> Vec<(Cuboid, &str)> {
    let all = piece.site.keep_outs.iter();
    let all = all.map(|own| (keep_out_space(piece, own), own.name.as_str()));
    all.filter(|(space, _)| shows(space)).collect()
}

/// True for an upright board between the section and what no part may touch, behind all of
/// which it is.
fn hides(part: &Part, space: &Cuboid) -> bool {
    let own = part.cuboid();
    part.placement.thickness == Direction::X
        && own.to.x <= space.from.x
        && own.from.y <= space.from.y
        && space.to.y <= own.to.y
        && own.from.z <= space.from.z
}

/// Draws what no part may touch as it is drawn in the elevation, and names it.
fn draw_ways(
    svg: &mut Svg,
    labels: &mut Labels,
    all: &[(Cuboid, &str)],
    plane: Plane,
    letter: f64,
) {
    for (space, name) in all {
        let area = plane.area(space);
        svg.sides(area, Line::Beyond);
        labels.draw_sides(&area, letter);
        if !labels.on(svg, &area, name, letter) {
            labels.lead_out(svg, &area, name, letter);
        }
    }
}

/// The sides of what stands beyond are drawn: no mark that is led out stands on them
/// where there is blank paper.
fn keep_off(labels: &mut Labels, beyond: &[(PartId, &Part)], plane: Plane, letter: f64) {
    if beyond.len() <= LINED {
        for (_, part) in beyond {
            labels.draw_sides(&plane.area(&part.cuboid()), letter);
        }
    }
}

/// True for what stands in the frame and in front of it.
fn is_in_front(part: &Part) -> bool {
    matches!(part.assembly, Assembly::Frame(_) | Assembly::Front(_))
}

/// True for what is named at the side with its heights, or is in front and named there.
fn is_at_side(part: &Part) -> bool {
    is_in_front(part) || lies(part) || has_heights(part)
}

/// True for a board that stands upright across the case, whose height nothing else tells.
fn has_heights(part: &Part) -> bool {
    matches!(part.role, Role::Back | Role::Nailer(_) | Role::Kick)
}

/// What is told of a board, and where it lies.
type Told = ((f64, f64), String);

/// Between which heights the lying boards, the nailers, the back, the rails, and the kick
/// stand, from the floor: the boards at the back, the kick, the frame, and the fronts
/// before them.
fn heights(figures: &Figures, plane: Plane, cut: &[(PartId, &Part)]) -> (Vec<Told>, Vec<Told>) {
    let (mut back, mut front) = (Vec::new(), Vec::new());
    for (_, part) in cut {
        let space = part.cuboid();
        let area = plane.area(&space);
        let told =
            format!("{} {} to {}", part.mark, figures.text(space.from.y), figures.text(space.to.y));
        if is_in_front(part) {
            let told = if part.role == Role::Rail { told } else { part.mark.clone() };
            front.push(((area.1.0, middle(&area).1), told));
        } else if part.role == Role::Kick {
            front.push(((area.1.0, middle(&area).1), told));
        } else if lies(part) || has_heights(part) {
            back.push(((area.0.0, middle(&area).1), told));
        }
    }
    (back, front)
}

/// Depth, height, and the toe space, from where the back of the case is on the paper.
fn over_all(
    svg: &mut Svg,
    (case, over): (&Case, f64),
    figures: &Figures,
    high: f64,
    ((rear, x), letter): ((f64, f64), f64),
) {
    // Most backs stand at one wall; a shallow case begins further back.
    let front = rear + mm(case.deep.length);
    svg.across(rear, front, high + letter * 2.4, &figures.text(case.deep.length), letter);
    if let Some(base) = &case.base {
        // It counts from the frame, or the front edge of the case, behind overlay fronts.
        let (edge, set_back) = (front - over, mm(base.set_back.length));
        let figure = figures.text(base.set_back.length);
        svg.across(edge - set_back, edge, high + letter * 4.6, &figure, letter);
        let figure = figures.text(base.high.length);
        svg.upright(high, high - mm(base.high.length), x, &figure, letter);
    }
    let x = x + letter * 2.4;
    svg.upright(high, high - mm(case.high.length), x, &figures.text(case.high.length), letter);
}

/// The screw holes of hinge plates in a side that is looked at from the left.
fn plate_holes(svg: &mut Svg, part: &Part, plane: Plane) {
    let is_plate =
        |f: &&Feature| matches!(f.kind, FeatureKind::Bore(Bore::Plate | Bore::PlateBehind));
    let bored = part.features.iter().filter(is_plate);
    for hole in bored.filter(|f| f.face == part.placement.face(Direction::X, true)) {
        for space in part.hollows(hole) {
            let at = middle(&plane.area(&space));
            svg.circle(at, holes::radius(&space, Direction::X), Line::Narrow);
        }
    }
}

/// The round holes in a board that is looked at along a direction.
fn round_holes(svg: &mut Svg, part: &Part, plane: Plane, along: Direction) {
    for hole in holes::seen(part, along, false) {
        let at = middle(&plane.area(&hole));
        svg.circle(at, holes::radius(&hole, along), Line::Narrow);
    }
}

/// A part beyond the cut, the notch of an end taken out.
fn outline(svg: &mut Svg, part: &Part, plane: Plane) {
    let space = part.cuboid();
    let area = plane.area(&space);
    match toe(part) {
        Some((y, z)) => {
            let mut kept = space;
            (kept.from.y, kept.from.z) = (y, z);
            let corner = plane.area(&kept);
            let (left, right) = (area.0.0, area.1.0);
            let points = [
                (right, area.0.1),
                (left, area.0.1),
                (left, area.1.1),
                (corner.1.0, area.1.1),
                (corner.1.0, corner.1.1),
                (right, corner.1.1),
            ];
            svg.polygon(&points, Line::Narrow, Fill::White);
        }
        None => svg.rect(area.0, area.1, Line::Narrow, Fill::White),
    }
}

/// A level section.
pub(in crate::papers) struct Level {
    /// Through what: `upper`.
    pub(in crate::papers) name: String,
    /// How high over the floor.
    pub(in crate::papers) y: Length,
    pub(in crate::papers) svg: String,
}

/// Level sections through the first drawer of a case and through its first door,
/// each with what stands beside it; the first is of this number on its page.
pub(in crate::papers) fn levels(
    (piece, parts): (&Piece, &Parts),
    case: &Case,
    index: usize,
    figures: &Figures,
    whole: &Cuboid,
    number: usize,
) -> Vec<Level> {
    let drawer = case.openings.iter().find(|it| matches!(it.kind, OpeningKind::Drawer { .. }));
    let door = case.openings.iter().find(|it| it.is_door());
    let mut levels = Vec::new();
    for opening in [drawer, door].into_iter().flatten() {
        let Some(y) = height(opening, parts) else { continue };
        // Anywhere near shows the same: a height that the tape has needs no remark.
        let y = figures.on_the_tape(y);
        let number = number + levels.len();
        let svg = level((piece, parts), case, index, opening, figures, whole, (y, number));
        levels.push(Level { name: opening.title().to_owned(), y, svg });
    }
    levels
}

/// The parts that fill an opening.
fn in_opening<'p>(parts: &'p Parts, opening: &Opening) -> impl Iterator<Item = &'p Part> {
    let id = opening.id;
    parts.of_case(id.case).iter().filter(move |part| part.opening() == Some(id))
}

/// Where the cut shows most: through the packers of a slide above the bottom of the
/// box, through the hinge blocks or cups of a door.
fn height(opening: &Opening, parts: &Parts) -> Option<Length> {
    let own = || in_opening(parts, opening);
    let of = |role: Role| own().find(|part| part.role == role).map(Part::cuboid);
    let half = |from: Length, to: Length| (from + to).half();
    if let Some(side) = of(Role::DrawerSide) {
        let under = of(Role::DrawerBottom).map_or(side.from.y, |bottom| bottom.to.y);
        let packer =
            of(Role::Packer).or_else(|| of(Role::Guide)).filter(|packer| packer.to.y > under);
        return Some(half(under, packer.map_or(side.to.y, |packer| packer.to.y.min(side.to.y))));
    }
    if let Some(block) = of(Role::HingeBlock) {
        return Some(half(block.from.y, block.to.y));
    }
    let cup = own().find_map(|part| {
        let cup = part.features.iter().find(|own| own.kind == FeatureKind::Bore(Bore::Cup))?;
        part.hollows(cup).next()
    });
    match cup {
        Some(cup) => Some(half(cup.from.y, cup.to.y)),
        None => own().find(|part| matches!(part.assembly, Assembly::Front(_))).map(|part| {
            let space = part.cuboid();
            half(space.from.y, space.to.y)
        }),
    }
}

fn level(
    (piece, parts): (&Piece, &Parts),
    case: &Case,
    index: usize,
    opening: &Opening,
    figures: &Figures,
    whole: &Cuboid,
    (y, number): (Length, usize),
) -> String {
    let (left, wide) = (case.x + opening.x, opening.wide.length);
    // As much of the neighbors as shows the frame and the side behind it.
    let beside = Length::inches(3, 1);
    let (from, to) =
        (case.x.max(left - beside), (case.x + case.wide.length).min(left + wide + beside));
    let plane = Plane::FromAbove { y, deep: whole.to.z, between: (from, to) };
    let across = mm(to - from);
    let deep = mm(whole.to.z);
    let sorted = plane.sort(near(parts, index).chain(covers_over(piece, parts, case)));
    let areas: Vec<Area> = sorted.cut.iter().map(|(_, part)| plane.area(&part.cuboid())).collect();
    // The dimensions stand below the front.
    let front = areas.iter().map(|area| area.1.1).fold(deep, f64::max);
    let span = |space: &Cuboid| (space.from.x, space.to.x);
    let own = || in_opening(parts, opening);
    let within = |keep: &dyn Fn(&Part) -> bool| {
        own().filter(|part| keep(part)).map(Part::cuboid).reduce(|a, b| a.union(&b))
    };
    let fronts = within(&|part| matches!(part.assembly, Assembly::Front(_)));
    let boxed = within(&|part| part.role == Role::DrawerSide);
    let (low, top) = (opening.y, opening.y + opening.high.length);
    let in_the_way = in_the_way(piece, |space| {
        let across = from < space.to.x && space.from.x < to;
        across && low < space.to.y && space.from.y < top
    });
    let rows = [Some((left, left + wide)), fronts.as_ref().map(span), boxed.as_ref().map(span)];
    let draw = |letter: f64| {
        let mut svg = Svg::lettered(letter).hatched(format!("hatching-{number}"));
        for (_, part) in &sorted.beyond {
            let area = plane.area(&part.cuboid());
            svg.rect(area.0, area.1, Line::Narrow, Fill::White);
            round_holes(&mut svg, part, plane, Direction::Y);
        }
        plane.draw_cut(&mut svg, &sorted.cut);
        let mut labels = Labels::over(&((mm(from), 0.0), (mm(to), deep)));
        for area in &areas {
            labels.draw(*area);
        }
        keep_off(&mut labels, &sorted.beyond, plane, letter);
        draw_ways(&mut svg, &mut labels, &in_the_way, plane, letter);
        let mut at = front + letter * 3.6;
        for (from, to) in rows.into_iter().flatten() {
            svg.across(mm(from), mm(to), at, &figures.text(to - from), letter);
            labels.take(((mm(from), at - letter * 1.5), (mm(to), at + letter * 0.4)));
            at += letter * 2.2;
        }
        for ((_, part), area) in sorted.cut.iter().zip(&areas) {
            if !labels.on(&mut svg, area, &part.mark, letter) {
                labels.lead_out(&mut svg, area, &part.mark, letter);
            }
        }
        svg
    };
    // Marks are led out on both sides.
    let first = letter((across, deep), (11.0, 11.0));
    legible(first, draw).finish("level section, seen from above")
}
