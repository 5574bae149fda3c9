//! Web frames: two rails, and the runners between them that carry drawers.

use crate::measure::Length;
use crate::model::{Axis, Board, JointKind, Member, OpeningKind, Side, Sight, Size, Web};
use crate::parts::feature::{Feature, FeatureKind};
use crate::parts::id::{Of, PartId, Role, Which};
use crate::parts::joint::JointSort;
use crate::parts::part::Assembly;
use crate::parts::space::{Cuboid, Direction, Face};
use crate::trade;

use super::builder::{Builder, Draft, INWARD, LYING};
use super::carcass::hosts_beside;
use super::posts;

/// Where a web frame lies, and what holds it.
struct Lies<'b> {
    member: &'b Member,
    board: &'b Board,
    web: &'b Web,
    /// Its left and its right edge, in their dadoes, from the left side of the case.
    x: [Size; 2],
    /// Its underside.
    y: &'b Size,
    /// Its front and its rear edge.
    z: [Size; 2],
    /// The boards at its left and right that it is let into.
    hosts: [Option<(PartId, Face)>; 2],
}

/// A web frame in place of a member's board, which goes from one place to another and is
/// so long between its shoulders.
pub(super) fn build(
    builder: &mut Builder<'_>,
    (member, board, web): (&Member, &Board, &Web),
    (left, right, clear): (&Size, Length, &Size),
    (y, front): (&Size, &Size),
) {
    let middle = y.length + builder.thickness(board.stock).length.half();
    let on_posts = builder.case.posts.is_some();
    let hosts = match on_posts {
        true => [None, None],
        false => hosts_beside(builder, (left.length, right), middle),
    };
    let let_in = builder.let_in(&board.joint);
    let in_dado = |host: bool| if host { let_in.clone() } else { Size::zero() };
    let x = [left - in_dado(hosts[0].is_some()), left + clear + in_dado(hosts[1].is_some())];
    let z = [front.clone(), builder.planes.inside.clone()];
    let lies = Lies { member, board, web, x, y, z, hosts };
    let rails = lies.rails(builder);
    let runners = lies.runners(builder, rails);
    lies.let_in(builder, rails, &runners);
    lies.panels(builder, rails, &runners);
    if on_posts {
        for (rail, which) in rails.into_iter().zip([Which::Front, Which::Back]) {
            let behind = match lies.pockets(builder, which) {
                Pockets::Behind(from) => from,
                Pockets::Below | Pockets::Above => Length::ZERO,
            };
            posts::hold_web(builder, (rail, which), (board, behind));
        }
    }
}

/// Where the pockets of a rail between posts lie. In the upper face drawers run over them, so
/// makers bore them from below where a driver gets in there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Pockets {
    /// In the underside.
    Below,
    /// In the underside, so far from the front edge that the drill is clear of the frame.
    Behind(Length),
    /// In the upper face: below, something is in the way of the driver, or they would be seen.
    Above,
}

impl Lies<'_> {
    /// Where those of the front or the back rail are bored.
    fn pockets(&self, builder: &Builder<'_>, which: Which) -> Pockets {
        let case = builder.case;
        let (low, underside) = (self.member.y, self.y.length);
        let (left, right) = (self.x[0].length, self.x[1].length);
        let is_below = |from: Length, to: Length| from < right && left < to;
        let openings = case.openings.iter().filter(|own| {
            let (x, y) = (own.x, own.y + own.high.length);
            !matches!(own.kind, OpeningKind::List(..))
                && y == low
                && is_below(x, x + own.wide.length)
        });
        let mut seen_or_low = openings.filter(|own| {
            let room = own.high.length + underside - low;
            own.sight() == Sight::Open || room < trade::before_pocket()
        });
        if seen_or_low.next().is_some() {
            return Pockets::Above;
        }
        let thick = builder.thickness(self.board.stock).length;
        let reach = trade::along_pocket(thick);
        let uprights = case.members.iter().filter(|own| {
            let near = own.x - left < reach || right - (own.x + own.wide.length) < reach;
            let top = own.y + own.long.length;
            own.axis == Axis::Across
                && top == low
                && near
                && is_below(own.x, own.x + own.wide.length)
        });
        if uprights.clone().any(Member::has_board) {
            return Pockets::Above;
        }
        // At the back nothing stands yet when the frame is screwed to its posts.
        let in_frame = which == Which::Front && case.frame.is_some();
        let is_clear = underside - low <= trade::passed_by_drill() && uprights.count() == 0;
        if !in_frame || is_clear {
            return Pockets::Below;
        }
        // As far back as both the post and the rail go.
        let deep =
            case.posts.as_ref().map_or(Length::ZERO, |posts| builder.thickness(posts.stock).length);
        let post = deep - (self.z[0].length - builder.planes.frame.length);
        let held = post.min(self.web.wide.length);
        let from = trade::beside_drill(builder.piece.tape().unit);
        let room = held - from;
        if room >= trade::pocket_width().twice() {
            Pockets::Behind(from)
        } else if room >= trade::pocket_width() {
            // One alone lies in the middle of what is left.
            Pockets::Behind(from.twice() - held)
        } else {
            Pockets::Above
        }
    }

    fn draft(
        &self,
        builder: &Builder<'_>,
        (role, which): (Role, Which),
        x: &Size,
        z: Size,
    ) -> Draft {
        Draft {
            of: Of::Member(self.member.id),
            which,
            role,
            assembly: Assembly::Carcass(builder.id),
            stock: self.board.stock,
            length: Size::zero(),
            width: Size::zero(),
            thickness: None,
            stands: Builder::stands(x, self.y, z),
            axes: LYING,
            show: Some(Face::ThickEnd),
            span: self.board.span,
            notes: Vec::new(),
        }
    }

    /// How far its grooves and tenons lie from the underside, and how far they reach.
    fn across(&self, builder: &Builder<'_>) -> (Length, Length) {
        let thick = builder.thickness(self.board.stock).length;
        let from = (thick - self.web.thick.length).half();
        (from, from + self.web.thick.length)
    }

    /// The front and the back rail, each with its groove.
    fn rails(&self, builder: &mut Builder<'_>) -> [PartId; 2] {
        let [front, rear] = &self.z;
        let back = rear - &self.web.wide;
        [(Which::Front, front, Face::WidthEnd), (Which::Back, &back, Face::WidthStart)].map(
            |(which, z, face)| {
                let draft = self.draft(builder, (Role::WebRail, which), &self.x[0], z.clone());
                let notes = match which {
                    Which::Front => self.board.notes.clone(),
                    _ => Vec::new(),
                };
                let (length, width) = (&self.x[1] - &self.x[0], self.web.wide.clone());
                // Pockets are bored in the other face.
                let show = match builder.case.posts {
                    Some(_) if self.pockets(builder, which) == Pockets::Above => {
                        Some(Face::ThickStart)
                    }
                    Some(_) | None => draft.show,
                };
                let id = builder.add(Draft { length, width, notes, show, ..draft });
                let deep = self.web.groove(which == Which::Back).length;
                self.groove(builder, id, face, deep);
                id
            },
        )
    }

    fn groove(&self, builder: &mut Builder<'_>, id: PartId, face: Face, deep: Length) {
        let Some(part) = builder.part(id) else { return };
        let feature = Feature {
            kind: FeatureKind::Groove,
            face,
            u: (Length::ZERO, part.length.length),
            v: self.across(builder),
            deep,
            deep_at: None,
            takes: None,
            span: self.web.span,
        };
        builder.cut(id, feature);
    }

    /// The runners from the left on, with their tenons in the grooves of the rails.
    fn runners(&self, builder: &mut Builder<'_>, rails: [PartId; 2]) -> Vec<PartId> {
        let spans = self.spans(builder);
        let last = spans.len().saturating_sub(1);
        let web = self.web;
        let z = &self.z[0] + &web.wide - &web.tenon;
        let between = &self.z[1] - &self.z[0] - &web.wide * 2;
        let long = between + web.reach(false) + web.reach(true);
        let mut runners = Vec::with_capacity(spans.len());
        for (index, [from, to]) in spans.iter().enumerate() {
            let which = match index {
                0 if last == 0 => Which::Only,
                0 => Which::At(Side::Left),
                _ if index == last => Which::At(Side::Right),
                _ if last == 2 => Which::Only,
                _ => Which::Number(u32::try_from(index).unwrap_or(u32::MAX)),
            };
            let draft = self.draft(builder, (Role::WebRunner, which), from, z.clone());
            let (length, width) = (long.clone(), to - from);
            let id = builder.add(Draft { length, width, axes: INWARD, ..draft });
            // What lies beside the rails has no groove to go into.
            let [left, right] = &self.x;
            let tenon = (
                (left.length - from.length).max(Length::ZERO),
                to.length.min(right.length) - from.length,
            );
            let ends = [Face::LengthStart, Face::LengthEnd];
            for ((end, rail), back) in ends.into_iter().zip(rails).zip([false, true]) {
                let feature = Feature {
                    kind: FeatureKind::Tenon,
                    face: end,
                    u: tenon,
                    v: self.across(builder),
                    deep: web.tenon(back).length,
                    deep_at: None,
                    takes: None,
                    span: web.span,
                };
                builder.cut(id, feature);
                // At the back it slides in its groove where the boards beside it move.
                let glued = !back || web.free.is_none();
                builder.join(JointSort::Wood(JointKind::Tenon), id, rail, glued, web.span);
            }
            runners.push(id);
        }
        runners
    }

    /// From where to where each runner lies, from the left on: one at each side, and one
    /// under or over every inner side of a drawer, and where a board stands. What lies
    /// close together is one.
    fn spans(&self, builder: &Builder<'_>) -> Vec<[Size; 2]> {
        let [left, right] = &self.x;
        let wide = &self.web.wide;
        let mut asked = vec![[left.clone(), left + wide], [right - wide, right.clone()]];
        asked.extend(needed(builder, self.member));
        asked.retain(|[from, to]| from.length < right.length && left.length < to.length);
        for [from, to] in &mut asked {
            if from.length < left.length {
                *from = left.clone();
            }
            if right.length < to.length {
                *to = right.clone();
            }
        }
        asked.sort_by_key(|[from, to]| (from.length, to.length));
        let mut spans: Vec<[Size; 2]> = Vec::new();
        for [from, to] in asked {
            match spans.last_mut() {
                Some([_, end]) if from.length <= end.length + wide.length => {
                    if end.length < to.length {
                        *end = to;
                    }
                }
                Some(_) | None => spans.push([from, to]),
            }
        }
        for [from, to] in &mut spans {
            if to.length - from.length < wide.length {
                *from = (&*from + &*to).half() - wide.half();
                *to = &*from + wide;
            }
        }
        // Between posts those at the sides reach out to the rails of the ends, and carry
        // the guides beside the drawers.
        if let Some([from, _]) = spans.first_mut() {
            *from = &*from - posts::recess(builder, Side::Left);
        }
        if let Some([_, to]) = spans.last_mut() {
            *to = &*to + posts::recess(builder, Side::Right);
        }
        spans
    }

    /// The dadoes of the boards beside it, and what lies in them.
    fn let_in(&self, builder: &mut Builder<'_>, rails: [PartId; 2], runners: &[PartId]) {
        let joint = &self.board.joint;
        let [front, back] = rails.map(|id| builder.part(id).map(crate::parts::Part::cuboid));
        let (Some(front), Some(back)) = (front, back) else { return };
        let space: Cuboid = front.union(&back);
        let beside = [runners.first(), runners.last()];
        for ((host, face), runner) in
            self.hosts.into_iter().zip(beside).filter_map(|(host, own)| Some((host?, own?)))
        {
            let dado = JointSort::Wood(JointKind::Dado);
            for rail in rails {
                builder.join(dado, rail, host, true, self.board.span);
            }
            // The rails hold the frame; the runner only lies in the dado.
            builder.join(dado, *runner, host, false, self.board.span);
            let takes = (Some(rails[0]), space);
            builder.channel(FeatureKind::Dado, (host, face), takes, joint, self.board.span);
        }
    }

    /// The dust panels between the runners, in grooves all round.
    fn panels(&self, builder: &mut Builder<'_>, rails: [PartId; 2], runners: &[PartId]) {
        let web = self.web;
        let Some(stock) = web.panel else { return };
        let many = runners.len() > 2;
        let [front, rear] = &self.z;
        let z = front + &web.wide - &web.tenon;
        let deep = rear - front - &web.wide * 2 + &web.tenon * 2;
        let set_back = (builder.thickness(self.board.stock) - builder.thickness(stock)).half();
        for (number, pair) in (1..).zip(runners.windows(2)) {
            let &[left, right] = pair else { continue };
            self.groove(builder, left, Face::WidthEnd, web.groove(false).length);
            self.groove(builder, right, Face::WidthStart, web.groove(false).length);
            let sides = [(left, true), (right, false)]
                .map(|(id, far)| builder.part(id).map(|part| part.side(Direction::X, far)));
            let [Some(from), Some(to)] = sides else { continue };
            let x = from - &builder.case.beside - &web.tenon;
            let wide = to - &builder.case.beside + &web.tenon - &x;
            let which = if many { Which::Number(number) } else { Which::Only };
            let draft = self.draft(builder, (Role::DustPanel, which), &x, z.clone());
            let [x, y, z] = draft.stands;
            // Its length runs the longer way, as it lies on a sheet.
            let (length, width, axes) = match wide.length < deep.length {
                true => (deep.clone(), wide, INWARD),
                false => (wide, deep.clone(), LYING),
            };
            let stands = [x, y + &set_back, z];
            let id = builder.add(Draft { stock, length, width, axes, stands, ..draft });
            for host in [rails[0], rails[1], left, right] {
                builder.join(JointSort::Floating, id, host, false, web.span);
            }
        }
    }
}

/// Where the drawers on wood over and under a member bear, and where boards stand on it or
/// reach up to it: from where to where, from the left side of the case.
fn needed(builder: &Builder<'_>, member: &Member) -> Vec<[Size; 2]> {
    let case = builder.case;
    let (low, high) = (member.y, member.y + member.wide.length);
    let (left, right) = (member.x, member.x + member.long.length);
    let touches = |from: Length, to: Length| from == high || to == low;
    let mut asked = Vec::new();
    for opening in &case.openings {
        let Some(own) = &opening.on_wood else { continue };
        let (x, wide) = (opening.x, opening.wide.length);
        if !touches(opening.y, opening.y + opening.high.length) || x < left || right < x + wide {
            continue;
        }
        // Behind doors the boxes keep clear of the open leaves.
        let [left, right] = &opening.clear;
        let from = &opening.stands[0] + left;
        let to = &opening.stands[0] + &opening.wide - right;
        asked.push([from.clone(), from + &own.strip]);
        asked.push([&to - &own.strip, to]);
    }
    let uprights = case.members.iter().filter(|own| own.axis == Axis::Across && own.has_board());
    for own in uprights {
        if touches(own.y, own.y + own.long.length) && left <= own.x && own.x < right {
            asked.push([own.stands[0].clone(), &own.stands[0] + &own.wide]);
        }
    }
    asked
}
