//! Corner posts, and the paneled ends between them.

use crate::measure::Length;
use crate::model::{Board, JointKind, Posts, Side, Size, Stock};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::{Assembly, Part};
use crate::parts::space::{Cuboid, Direction, Face};

use super::builder::{Builder, Draft, SIDEWAYS, STANDING, UPRIGHT};
use super::carcass::{self, HeldBy};

/// The end at one side.
struct End<'p> {
    posts: &'p Posts,
    side: Side,
    /// The outer side of its posts, from the left side of the case.
    x: Size,
    /// The left face of its rails.
    rails_x: Size,
    /// How far its grooves begin from that face.
    set_back: Size,
    /// How wide its grooves are.
    groove: Length,
    /// The front and the back post: their front planes.
    z: [Size; 2],
}

/// A rail of an end: which, its width, and its lower edge from the floor.
struct Rail {
    which: Which,
    wide: Size,
    low: Size,
    /// From and to along its width, of its tenons.
    tenon: (Length, Length),
}

/// The posts and the ends of a case.
pub(super) fn build(builder: &mut Builder<'_>, posts: &Posts) -> HeldBy {
    let [left, right] = Side::BOTH.map(|side| {
        let end = End::of(builder, posts, side);
        end.build(builder)
    });
    let pair = |pick: fn(&[PartId; 4]) -> PartId| [pick(&left), pick(&right)];
    HeldBy {
        front: pair(|own| own[0]),
        rear: pair(|own| own[1]),
        low: pair(|own| own[2]),
        high: pair(|own| own[3]),
    }
}

impl<'p> End<'p> {
    fn of(builder: &Builder<'_>, posts: &'p Posts, side: Side) -> Self {
        let [left, right] = builder.carcass_sides();
        let thick = builder.thickness(side.of(&builder.case.ends).stock);
        let panel = builder.thickness(posts.ends.panel_stock);
        let off = recess(builder, side);
        let (x, rails_x) = match side {
            Side::Left => (left.clone(), left + &posts.wide - &off - &thick),
            Side::Right => (&right - &posts.wide, right - &posts.wide + &off),
        };
        let front = builder.planes.frame.clone();
        let rear = &builder.planes.rear - &posts.deep;
        Self {
            posts,
            side,
            x,
            rails_x,
            set_back: (&thick - &panel).half(),
            groove: panel.length,
            z: [front, rear],
        }
    }

    /// The front post, the back post, the bottom rail, and the top rail.
    fn build(&self, builder: &mut Builder<'_>) -> [PartId; 4] {
        let posts = [Which::Front, Which::Back].map(|which| self.post(builder, which));
        let made = self.rails(builder).map(|rail| {
            let id = self.rail(builder, &rail);
            (rail, id)
        });
        for (rail, id) in &made {
            self.tenons(builder, (rail, *id), posts);
        }
        let [(bottom, low), (top, high)] = &made;
        let panel = self.panel(builder, bottom, top);
        self.grooves(builder, (posts, panel), &made);
        [posts[0], posts[1], *low, *high]
    }

    fn draft(&self, builder: &Builder<'_>, role: Role, which: Which) -> Draft {
        let end = self.side.of(&builder.case.ends);
        Draft {
            of: Of::Case(builder.id),
            which,
            role,
            assembly: Assembly::Carcass(builder.id),
            stock: end.stock,
            length: Size::zero(),
            width: Size::zero(),
            thickness: None,
            stands: [Size::zero(), Size::zero(), Size::zero()],
            axes: SIDEWAYS,
            show: Some(if self.side == Side::Left { Face::ThickStart } else { Face::ThickEnd }),
            span: self.posts.ends.span,
            notes: Vec::new(),
        }
    }

    fn post(&self, builder: &mut Builder<'_>, which: Which) -> PartId {
        let posts = self.posts;
        let z = if which == Which::Front { &self.z[0] } else { &self.z[1] };
        let draft = self.draft(builder, Role::Post(self.side), which);
        let show = if which == Which::Front { Face::ThickStart } else { Face::ThickEnd };
        builder.add(Draft {
            stock: posts.stock,
            length: builder.case.high.clone(),
            width: posts.wide.clone(),
            stands: Builder::stands(&self.x, Length::ZERO, z),
            axes: STANDING,
            show: Some(show),
            span: posts.span,
            notes: posts.notes.clone(),
            ..draft
        })
    }

    /// The bottom and the top rail. Their tenons reach to the grooves, and are set in from
    /// the other edge, which shuts the mortise: at the top of a post it would be open.
    fn rails(&self, builder: &Builder<'_>) -> [Rail; 2] {
        let (case, panel) = (builder.case, &self.posts.ends);
        let mark = builder.piece.tape().mark;
        let groove = panel.groove.length;
        let set_in = |wide: &Size| panel.set_in(wide.length, mark);
        [
            Rail {
                which: Which::Bottom,
                wide: panel.bottom.clone(),
                low: self.posts.high.clone(),
                tenon: (set_in(&panel.bottom), panel.bottom.length - groove),
            },
            Rail {
                which: Which::Top,
                wide: panel.rail.clone(),
                low: &case.high - &panel.rail,
                tenon: (groove, panel.rail.length - set_in(&panel.rail)),
            },
        ]
    }

    fn rail(&self, builder: &mut Builder<'_>, rail: &Rail) -> PartId {
        let (posts, tenon) = (self.posts, &self.posts.ends.tenon);
        let draft = self.draft(builder, Role::EndRail(self.side), rail.which);
        let from = &self.z[0] + &posts.deep - tenon;
        let length = &self.z[1] - &from + tenon;
        let notes = match rail.which {
            Which::Bottom => self.side.of(&builder.case.ends).notes.clone(),
            _ => Vec::new(),
        };
        let stands = Builder::stands(&self.rails_x, &rail.low, from);
        builder.add(Draft { length, width: rail.wide.clone(), stands, notes, ..draft })
    }

    /// Where grooves, tenons, and mortises lie in the thickness of the rails.
    fn across(&self) -> (Length, Length) {
        let from = self.set_back.length;
        (from, from + self.groove)
    }

    /// The same from the left side of a post.
    fn across_post(&self) -> (Length, Length) {
        let off = self.rails_x.length - self.x.length;
        let (from, to) = self.across();
        (off + from, off + to)
    }

    /// The faces of the front and the back post that the rails go into.
    const FACES: [Face; 2] = [Face::ThickEnd, Face::ThickStart];

    fn feature(
        &self,
        kind: FeatureKind,
        face: Face,
        (u, v): ((Length, Length), (Length, Length)),
        deep: Length,
        takes: Option<PartId>,
    ) -> Feature {
        Feature { kind, face, u, v, deep, deep_at: None, takes, span: self.posts.ends.span }
    }

    /// The tenons of a rail, and the mortises that they go into.
    fn tenons(&self, builder: &mut Builder<'_>, (rail, id): (&Rail, PartId), posts: [PartId; 2]) {
        let panel = &self.posts.ends;
        let long = panel.tenon.length;
        let deep = panel.mortise().length;
        let ends = [Face::LengthStart, Face::LengthEnd];
        for ((end, post), face) in ends.into_iter().zip(posts).zip(Self::FACES) {
            let tenon = (rail.tenon, self.across());
            builder.cut(id, self.feature(FeatureKind::Tenon, end, tenon, long, None));
            let low = rail.low.length;
            let u = (low + rail.tenon.0, low + rail.tenon.1);
            let mortise = (u, self.across_post());
            let mortise = self.feature(FeatureKind::Mortise, face, mortise, deep, Some(id));
            builder.cut(post, mortise);
            builder.join(JointSort::Wood(JointKind::Tenon), id, post, true, panel.span);
        }
    }

    /// The panel: into each groove as far as the year lets it.
    fn panel(&self, builder: &mut Builder<'_>, bottom: &Rail, top: &Rail) -> PartId {
        let (posts, panel) = (self.posts, &self.posts.ends);
        let solid = builder.piece.stock(panel.panel_stock).is_some_and(Stock::is_solid);
        let reach = panel.reach(solid);
        let low = &bottom.low + &bottom.wide - &reach;
        let front = &self.z[0] + &posts.deep - &reach;
        let draft = self.draft(builder, Role::EndPanel(self.side), Which::Only);
        let stands = Builder::stands(&self.rails_x + &self.set_back, &low, &front);
        builder.add(Draft {
            stock: panel.panel_stock,
            length: &top.low + &reach - &low,
            width: &self.z[1] + &reach - &front,
            axes: UPRIGHT,
            stands,
            ..draft
        })
    }

    /// The grooves: along the whole inner edge of each rail, and in each post from one
    /// mortise to the other.
    fn grooves(
        &self,
        builder: &mut Builder<'_>,
        (posts, panel): ([PartId; 2], PartId),
        [(bottom, low), (top, high)]: &[(Rail, PartId); 2],
    ) {
        let sizes = &self.posts.ends;
        let deep = sizes.groove.length;
        let edges = [(*low, Face::WidthEnd), (*high, Face::WidthStart)];
        for (rail, face) in edges {
            let Some(long) = builder.part(rail).map(|part| part.length.length) else { continue };
            let along = ((Length::ZERO, long), self.across());
            let groove = self.feature(FeatureKind::Groove, face, along, deep, Some(panel));
            builder.cut(rail, groove);
            builder.join(JointSort::Floating, panel, rail, false, sizes.span);
        }
        let from = bottom.low.length + bottom.tenon.1;
        let to = top.low.length + top.tenon.0;
        for (post, face) in posts.into_iter().zip(Self::FACES) {
            let along = ((from, to), self.across_post());
            let groove = self.feature(FeatureKind::Groove, face, along, deep, Some(panel));
            builder.cut(post, groove);
            builder.join(JointSort::Floating, panel, post, false, sizes.span);
        }
    }
}

/// How far the rails of an end stand back from the inside faces of its posts.
pub(super) fn recess(builder: &Builder<'_>, side: Side) -> Size {
    let rails = builder.thickness(side.of(&builder.case.ends).stock);
    builder.case.posts.as_ref().map_or_else(Size::zero, |posts| posts.recess(&rails))
}

/// A post of the case.
pub(super) fn find(builder: &Builder<'_>, side: Side, which: Which) -> Option<PartId> {
    let is_it = |part: &Part| part.role == Role::Post(side) && part.which == which;
    builder.own().find(|(_, part)| is_it(part)).map(|(id, _)| id)
}

/// The posts at one side, the front one first, each with its face toward the middle.
fn pair(builder: &Builder<'_>, side: Side) -> Vec<(PartId, Face)> {
    let both = [Which::Front, Which::Back].into_iter();
    let found = both.filter_map(|which| find(builder, side, which));
    let faced = found.filter_map(|id| {
        let part = builder.part(id)?;
        Some((id, part.placement.face(Direction::X, side == Side::Right)))
    });
    faced.collect()
}

/// What holds a lying board at its left and at its right, between these two places from the
/// left side of the case: the upright board there, or both posts of that side.
pub(super) fn hosts_beside(
    builder: &Builder<'_>,
    places: (Length, Length),
    y: Length,
) -> [Vec<(PartId, Face)>; 2] {
    let boards = carcass::hosts_beside(builder, places, y);
    let mut sides = Side::BOTH.into_iter().zip([places.0, places.1]);
    boards.map(|board| {
        let at = sides.next().map(|(side, x)| (side, builder.case.x + x));
        let posts = at.map(|(side, x)| (pair(builder, side), side, x));
        match posts {
            Some((posts, side, x)) if stand_at(builder, &posts, side, x) => posts,
            Some(_) | None => board.into_iter().collect(),
        }
    })
}

/// These boards, and behind a front post the back post of its side too.
pub(super) fn with_rear(builder: &Builder<'_>, boards: [PartId; 2]) -> Vec<PartId> {
    let behind = |front: PartId| {
        let Role::Post(side) = builder.part(front)?.role else { return None };
        find(builder, side, Which::Back)
    };
    boards.into_iter().flat_map(|board| [Some(board), behind(board)]).flatten().collect()
}

/// True where the inside faces of these posts lie at this place.
fn stand_at(builder: &Builder<'_>, posts: &[(PartId, Face)], side: Side, x: Length) -> bool {
    posts.first().and_then(|(id, _)| builder.part(*id)).is_some_and(|post| {
        let (from, to) = post.extent(Direction::X);
        x == if side == Side::Left { to } else { from }
    })
}

/// The front or the back rail of a web frame, screwed to the posts at its ends, with no pocket
/// nearer to its front edge than this.
pub(super) fn hold_web(
    builder: &mut Builder<'_>,
    (rail, which): (PartId, Which),
    (board, behind): (&Board, Length),
) {
    for side in Side::BOTH {
        let Some(post) = find(builder, side, which) else { continue };
        let Some(part) = builder.part(post) else { continue };
        let inner = part.placement.face(Direction::X, side == Side::Right);
        builder.house_behind(rail, (post, inner), &board.joint, (behind, board.span));
    }
}

/// What a board of solid wood has free before the back posts, to swell: 1/8 in, 3 mm (common
/// practice, no source). It is held at its front.
fn swells(builder: &Builder<'_>, board: &Part) -> Length {
    let is_solid = builder.piece.stock(board.stock).is_some_and(Stock::is_solid);
    match is_solid && board.role == Role::Bottom {
        true => builder.piece.tape().unit.either(Length::inches(1, 8), Length::mm(3)),
        false => Length::ZERO,
    }
}

/// The notches of a lying board around the posts that stand in its corners.
pub(super) fn notch(builder: &mut Builder<'_>, board: PartId) {
    let Some(part) = builder.part(board) else { return };
    let (own, deep, span) = (part.cuboid(), part.thickness.length, part.span);
    let free = swells(builder, part);
    let posts = builder.own().filter(|(_, post)| matches!(post.role, Role::Post(_)));
    let around: Vec<Cuboid> = posts
        .map(|(_, post)| {
            let mut around = post.cuboid();
            if post.which == Which::Back {
                around.from.z -= free;
            }
            around
        })
        .collect();
    for post in around.into_iter().filter(|post| own.overlaps(post)) {
        let range = |axis: Direction| {
            let start = own.from.along(axis);
            let from = post.from.along(axis).max(start) - start;
            (from, post.to.along(axis).min(own.to.along(axis)) - start)
        };
        let notch = Feature {
            kind: FeatureKind::Notch,
            face: Face::ThickEnd,
            u: range(Direction::X),
            v: range(Direction::Z),
            deep,
            deep_at: None,
            takes: None,
            span,
        };
        builder.cut(board, notch);
    }
}

/// True for a bottom of solid wood at a rail of an end: it moves along that, so pocket screws
/// alone hold it there, and glue only at the rail of the frame before it.
pub(super) fn moves_across(builder: &Builder<'_>, board: PartId, host: PartId) -> bool {
    let (Some(board), Some(host)) = (builder.part(board), builder.part(host)) else {
        return false;
    };
    let is_solid = builder.piece.stock(board.stock).is_some_and(Stock::is_solid);
    is_solid && board.role == Role::Bottom && matches!(host.role, Role::EndRail(_))
}

/// The space of a part that another is fastened to: a rail of a paneled end only between
/// its shoulders, for its tenons are in the posts.
pub(super) fn holding(part: &Part) -> Cuboid {
    if matches!(part.role, Role::EndRail(_)) { part.shoulders() } else { part.cuboid() }
}

impl Builder<'_> {
    /// How far the inside of an end lies behind its outside: as far as its board is thick,
    /// or its posts are wide, which are flush with its rails on the inside.
    pub(super) fn end_thickness(&self, side: Side) -> Size {
        match &self.case.posts {
            Some(posts) => posts.wide.clone(),
            None => self.thickness(side.of(&self.case.ends).stock),
        }
    }

    /// What the members of the face frame are put together with: each other, or the posts
    /// that their rails go into.
    pub(super) fn frame_assembly(&self) -> Assembly {
        match self.case.posts {
            Some(_) => Assembly::Carcass(self.id),
            None => Assembly::Frame(self.id),
        }
    }
}
