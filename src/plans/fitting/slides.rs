//! The slides of every drawer: how high, how far back, and what they are
//! screwed to.

use crate::measure::Length;
use crate::model::{
    Axis, Case, Hardware, JointKind, Opening, OpeningKind, Piece, Side, Size, Slide,
};
use crate::parts::{self, Direction, JointSort, Part, Role, Which};

use super::{Index, above_end, from_edge};

/// The slides of a drawer.
#[derive(Clone, Debug)]
pub struct Drawer<'a> {
    /// Its opening.
    pub opening: &'a Opening,
    /// Its slide.
    pub slide: &'a Slide,
    /// What its sheet says.
    pub hardware: &'a Hardware,
    /// What the heights count to.
    pub line: Line,
    /// From the lower edge of the opening, as built, to that line; of a tray, from that of
    /// the opening of its doors.
    pub above_opening: Size,
    /// From the top face of the case's bottom to that line, where there is one.
    pub above_bottom: Option<Length>,
    /// From the lower edge of the box to that line, of a slide beside the box.
    pub up_box: Option<Length>,
    /// How much narrower and lower than its opening, as built, the box is.
    pub box_less: Option<[Length; 2]>,
    /// From the lower edge of the opening to the lower edge of the box.
    pub box_above: Option<Length>,
    /// What is ahead of the box: the thickness of an inset front, or of the doors that a
    /// tray stays behind, and the tray's set-back.
    pub ahead: Size,
    /// From the face of the frame to the front end of the slide, where its
    /// sheet's figure is known.
    pub set_back: Option<Size>,
    /// The depth behind the face of the frame that the drawer takes, or its box alone
    /// where a nailer behind it is in nothing else's way.
    pub used: Size,
    /// The nailer that stands behind the drawer, before the back.
    pub nailer: Option<&'a Part>,
    /// From there to that nailer, else to the inside of the back; below zero where there
    /// is no room.
    pub left: Size,
    /// What carries it on the left and on the right.
    pub carriers: Vec<Carrier<'a>>,
    /// The holes for the hooks of its runners.
    pub hooks: Option<Hooks<'a>>,
    /// The back of its box.
    pub back: Option<&'a Part>,
}

/// What the height of a slide counts to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Its lower edge.
    LowerEdge,
    /// Its center line.
    Center,
}

impl Line {
    /// In words.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::LowerEdge => "lower edge",
            Self::Center => "center line",
        }
    }
}

/// What a slide is screwed to.
#[derive(Clone, Debug)]
pub struct Carrier<'a> {
    /// On which side of the drawer.
    pub side: Side,
    /// The board of the case.
    pub board: &'a Part,
    /// The packer on it.
    pub packer: Option<Packer<'a>>,
}

/// A packer in its place on its board.
#[derive(Clone, Copy, Debug)]
pub struct Packer<'a> {
    /// The packer.
    pub part: &'a Part,
    /// Its lower edge above the bottom end of its board.
    pub above_end: Length,
    /// Its lower edge above the lower edge of the opening, as built.
    pub above_opening: Length,
    /// Its front end behind the front edge of its board.
    pub from_edge: Length,
}

/// The two holes for hooks in the back of a box.
#[derive(Clone, Copy, Debug)]
pub struct Hooks<'a> {
    /// The back.
    pub back: &'a Part,
    /// From each end of the back to the center.
    pub from_end: Length,
    /// From the lower edge of the back to the center.
    pub up: Length,
}

pub(super) fn plan<'a>(piece: &'a Piece, index: &Index<'a>) -> Vec<Drawer<'a>> {
    let mut found = Vec::new();
    for case in &piece.cases {
        for opening in &case.openings {
            let OpeningKind::Drawer { slide: Some(slide), .. } = opening.kind else { continue };
            let Some(slide) = piece.slide(slide) else { continue };
            let Some(hardware) = slide.hardware() else { continue };
            found.push(drawer(piece, case, opening, (slide, hardware), index));
        }
    }
    found
}

fn drawer<'a>(
    piece: &'a Piece,
    case: &'a Case,
    opening: &'a Opening,
    (made, slide): (&'a Slide, &'a Hardware),
    index: &Index<'a>,
) -> Drawer<'a> {
    let planes = parts::planes(piece, case);
    let low = opening.corner_as_built().1;
    // Nothing may lie at the edges of a tray's own opening: its heights count from that of
    // its doors.
    let seen = case.door_before(opening).unwrap_or(opening);
    let up = &opening.stands_as_built()[1] - &seen.stands_as_built()[1];
    let own = index.of_opening(opening.id);
    let mut sides = own.iter().filter(|(_, part)| part.role == Role::DrawerSide);
    let box_low = sides.next().map(|(_, part)| part.extent(Direction::Y).0);
    let (line, above_opening) = match (&slide.up, slide.undermount) {
        (Some(up), _) => (Line::LowerEdge, up.clone()),
        // An undermount slide stands on the level of the opening's lower edge;
        // the box of another hangs by the middle of its sides (common practice,
        // no source).
        (None, true) => (Line::LowerEdge, Size::zero()),
        (None, false) => (Line::Center, opening.box_middle(slide, opening.as_built(Axis::Down))),
    };
    let outside = |direction: Direction| {
        let sides = own.iter().filter(|(_, part)| part.role == Role::DrawerSide);
        let ends = sides.map(|(_, part)| part.extent(direction));
        ends.reduce(|one, other| (one.0.min(other.0), one.1.max(other.1)))
    };
    let less = |direction, axis| {
        outside(direction).map(|(from, to)| opening.as_built(axis).length - (to - from))
    };
    let height = low + above_opening.length;
    let above_opening = above_opening + &up;
    let bottom = index.parts.of_case(case.id).iter().find(|part| part.role == Role::Bottom);
    let ahead = piece.before_box(case, opening);
    let set_back = slide.behind_front.as_ref().map(|behind| &ahead + behind);
    let needs = &ahead + &slide.room;
    // Without its sheet's figure the slide, and the box on it, begin at the front.
    let reach = set_back.as_ref().unwrap_or(&ahead) + &slide.length;
    let by_slide = if reach.length > needs.length { reach.clone() } else { needs };
    // What is in the way of the drawer: the back in that of its slide, and a nailer in
    // that of the slide or of the box alone.
    let left = |end: Size, used: &Size| end - &planes.frame - used;
    let mut ends = vec![(left(planes.inside.clone(), &by_slide), by_slide.clone(), None)];
    for nailer in index.parts.of_case(case.id).iter() {
        let used = match met(nailer, slide, height, own) {
            Some(Met::Slide) => &by_slide,
            Some(Met::Box) => &reach,
            None => continue,
        };
        ends.push((left(nailer.side(Direction::Z, false), used), used.clone(), Some(nailer)));
    }
    let (left, used, nailer) = ends
        .into_iter()
        .min_by_key(|(left, ..)| left.length)
        .unwrap_or_else(|| (Size::zero(), by_slide, None));
    let back = own.iter().find(|(_, part)| part.role == Role::DrawerBack).map(|(_, back)| *back);
    Drawer {
        opening,
        slide: made,
        hardware: slide,
        line,
        above_bottom: bottom.map(|bottom| height - bottom.extent(Direction::Y).1),
        box_less: less(Direction::X, Axis::Across)
            .zip(less(Direction::Y, Axis::Down))
            .map(<[Length; 2]>::from),
        box_above: box_low.map(|box_low| box_low - low + up.length),
        up_box: box_low.filter(|_| !slide.undermount).map(|low| height - low),
        above_opening,
        ahead,
        set_back,
        used,
        nailer,
        left,
        carriers: Side::BOTH
            .into_iter()
            .filter_map(|side| carrier(side, own, low - up.length, index))
            .collect(),
        hooks: back.and_then(|back| hooks(slide, back, own)),
        back,
    }
}

/// A slide beside the box takes this much of its height, half of it over its center line
/// and half below: 1-3/4 in, 45 mm (common practice, no source: the usual section of a
/// slide on balls).
pub(super) const SECTION: Length = Length::mm(45);

/// What of a drawer a nailer stands behind.
enum Met {
    /// Its slides, which need the room of their sheet.
    Slide,
    /// Its box alone, which ends where its slides do.
    Box,
}

/// What of a drawer stands before a board, where that is a nailer.
fn met(nailer: &Part, slide: &Hardware, line: Length, own: Own<'_, '_>) -> Option<Met> {
    if !nailer.role.is_nailer() {
        return None;
    }
    let sides = own.iter().filter(|(_, part)| part.role == Role::DrawerSide);
    let over = |direction: Direction| {
        let ends = sides.clone().map(|(_, part)| part.extent(direction));
        ends.reduce(|one, other| (one.0.min(other.0), one.1.max(other.1)))
    };
    let (across, (foot, head)) = (over(Direction::X)?, over(Direction::Y)?);
    let slides = match (slide.undermount, slide.up.is_some()) {
        // It lies under the box, and its hooks reach into the back of it.
        (true, _) => (line, foot + slide.notch.map_or(Length::ZERO, |(_, high)| high)),
        (false, true) => (line, (line + SECTION).min(head)),
        (false, false) => (line - SECTION.half(), line + SECTION.half()),
    };
    let (x, y) = (nailer.extent(Direction::X), nailer.extent(Direction::Y));
    let meets = |one: (Length, Length), other: (Length, Length)| one.0 < other.1 && other.0 < one.1;
    match meets(x, across) {
        true if meets(y, slides) => Some(Met::Slide),
        true if meets(y, (foot, head)) => Some(Met::Box),
        _ => None,
    }
}

type Own<'s, 'a> = &'s [(crate::parts::PartId, &'a Part)];

fn carrier<'a>(
    side: Side,
    own: Own<'_, 'a>,
    low: Length,
    index: &Index<'a>,
) -> Option<Carrier<'a>> {
    let at =
        |role| own.iter().find(move |(_, part)| part.role == role && part.which == Which::At(side));
    let (of_box, _) = at(Role::DrawerSide)?;
    let board = index.holding(*of_box, JointSort::Slid).next()?;
    let packer = at(Role::Packer).map(|(id, part)| {
        let foot = part.extent(Direction::Y).0;
        let on = index.holding(*id, JointSort::Wood(JointKind::Screw)).next().unwrap_or(board);
        Packer {
            part,
            above_end: above_end(on, foot),
            above_opening: foot - low,
            from_edge: from_edge(on, part.extent(Direction::Z).0),
        }
    });
    Some(Carrier { side, board, packer })
}

fn hooks<'a>(slide: &Hardware, back: &'a Part, own: Own<'_, 'a>) -> Option<Hooks<'a>> {
    let hook = slide.hook.filter(|_| slide.undermount)?;
    let left = own
        .iter()
        .find(|(_, part)| part.role == Role::DrawerSide && part.which == Which::At(Side::Left))?;
    let inner = left.1.extent(Direction::X).1;
    let notch = slide.notch.map_or(Length::ZERO, |(_, high)| high);
    Some(Hooks {
        back,
        from_end: inner + hook.from_side - back.extent(Direction::X).0,
        up: notch + hook.up,
    })
}
