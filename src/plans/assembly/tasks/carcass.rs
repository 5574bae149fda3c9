//! Frame, base and carcass of a case, and what is planted on them.

use crate::diagnostics::listed;
use crate::measure::{Length, MEASURED};
use crate::model::{Case, CaseId, Side};
use crate::parts::{Assembly, Direction, Face, Joint, JointSort, Part, PartId, Role};
use crate::plans::assembly::gluing;
use crate::plans::operations::{Doing, FrameOn};
use crate::plans::shelves;
use crate::plans::squareness;
use crate::trade;

use super::{Maker, Task, Usual, Wait, Work};

/// What is planted on the carcass in one step.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Planting {
    /// The carcass itself, on its base.
    OnBase,
    /// Uprights under the bottom.
    Legs,
}

impl Planting {
    const ALL: [Self; 2] = [Self::OnBase, Self::Legs];

    /// What the step is called, with the name of its case where there are several.
    fn title(self, case: Option<&str>) -> String {
        let of = case.map_or_else(String::new, |case| format!(" of {case}"));
        match self {
            Self::OnBase => format!("Set the carcass{of} on its base"),
            Self::Legs => format!("Set the legs under the bottom{of}"),
        }
    }

    /// The step in which a part is planted; the back has one of its own, the kick goes on
    /// when the piece stands level, and what is glued up or hung is never planted.
    fn of(role: Role) -> Option<Self> {
        match role {
            Role::Bottom | Role::End(_) => Some(Self::OnBase),
            Role::Leg => Some(Self::Legs),
            Role::Post(_)
            | Role::EndRail(_)
            | Role::EndPanel(_)
            | Role::Top
            | Role::Countertop
            | Role::Stretcher
            | Role::Nailer(_)
            | Role::Back
            | Role::Partition
            | Role::Divider
            | Role::FixedShelf
            | Role::WebRail
            | Role::WebRunner
            | Role::DustPanel
            | Role::AdjustableShelf
            | Role::Kick
            | Role::BaseMember
            | Role::BaseLeg
            | Role::Stile
            | Role::Rail
            | Role::Slab
            | Role::FrontStile
            | Role::FrontRail
            | Role::FrontPanel
            | Role::Bead
            | Role::DrawerSide
            | Role::DrawerFront
            | Role::DrawerBack
            | Role::DrawerBottom
            | Role::Packer
            | Role::HingeBlock
            | Role::HoldingBlock
            | Role::Guide
            | Role::Kicker
            | Role::Runner
            | Role::Stop
            | Role::Filler
            | Role::Cover
            | Role::Batten => None,
        }
    }
}

impl Maker<'_, '_> {
    /// Frame, base and carcass of one case; the tasks after which it stands.
    pub(super) fn case(&mut self, case: &Case) -> Vec<usize> {
        let (id, name) = (case.id, &case.name);
        let frame = self.unit_glue(&Assembly::Frame(id), &format!("face frame of {name}"), None);
        let base = format!("base of {}", self.piece.base_named(id));
        let base = self.unit_glue(&Assembly::Base(id), &base, None);
        let (seen, covers) = self.base_seen(id);
        if let Some(task) = base.and_then(|task| self.tasks.get_mut(task)) {
            task.lines.extend(seen);
            task.does.extend(covers);
        }
        self.battens(case);
        let title = format!("carcass of {name}");
        let carcass = self.unit_glue(&Assembly::Carcass(id), &title, Some(case));
        let stands = match carcass {
            Some(carcass) => vec![carcass],
            None => {
                let boards =
                    |part: &Part| part.assembly == Assembly::Carcass(id) && part.role != Role::Back;
                let stands = self.ready(&self.ids_in(id, boards));
                self.back_sawn(case, stands.clone(), false);
                stands
            }
        };
        let stands = self.nailers_set(case, carcass.is_some(), stands);
        let stands = self.planted(id, stands, base);
        let stands = self.frame_on(case, stands, frame);
        self.plugged(id, stands)
    }

    pub(super) fn back_of(&self, case: Option<&Case>) -> Vec<PartId> {
        let parts = case.into_iter().flat_map(|case| self.parts.iter_case(case.id));
        parts.filter(|(_, part)| part.role == Role::Back).map(|(id, _)| id).collect()
    }

    /// Shelves that can't be tilted in through their opening come in while the back
    /// is off, and stay.
    pub(super) fn laid_from_behind(&mut self, finished: usize) -> usize {
        let stuck = self.stuck();
        if stuck.is_empty() {
            return finished;
        }
        let lines = vec![
            format!(
                "{}: too long to be tilted in through the opening in front, so bring each one in from behind and lay it on its pins; it stays in for good",
                self.marks(&stuck)
            ),
            "tape each one to its boards until the piece stands in its place".to_owned(),
        ];
        let mut after = vec![finished];
        after.extend(self.ready(&stuck));
        let efforts = vec![Usual::LayingIn.times(stuck.len())];
        let title = "Lay in the shelves that stay".to_owned();
        let task = self.simple(title, lines, stuck.clone(), Work::Bench, efforts, after);
        let laid = self.picked(|joint| {
            joint.sort == JointSort::Laid && stuck.binary_search(&joint.part).is_ok()
        });
        self.closes(task, laid);
        self.makes(&stuck, task);
        task
    }

    /// The loose shelves that only come in from behind.
    pub(super) fn stuck(&self) -> Vec<PartId> {
        self.ids(|part| shelves::is_stuck(self.piece, self.parts, part))
    }

    /// The back comes off before the finish, and goes on for good after it.
    pub(super) fn back_on(&mut self, finished: usize) -> Option<usize> {
        let backs = self.backs();
        if backs.is_empty() {
            return None;
        }
        let lines = vec![format!(
            "{}: set it in its old screw holes, check that the case is still square, then drive the rest of the screws on its lines of the layout sheet, without glue",
            self.marks(&backs)
        )];
        let mut after = vec![finished];
        after.extend(self.ready(&backs));
        let efforts = vec![Usual::Planting.times(backs.len())];
        let title = match backs.len() {
            1 => "Fix the back for good",
            _ => "Fix the backs for good",
        };
        let work = Work::Bench;
        let task = self.simple(title.to_owned(), lines, backs.clone(), work, efforts, after);
        let joints = self.picked(|joint| {
            joint.sort == JointSort::Planted && backs.binary_search(&joint.part).is_ok()
        });
        self.closes(task, joints);
        self.makes(&backs, task);
        Some(task)
    }

    /// Base and legs: fixed to the carcass once it is square.
    fn planted(&mut self, case: CaseId, carcass: Vec<usize>, base: Option<usize>) -> Vec<usize> {
        let mut last = carcass;
        let mut loose = base;
        for planting in Planting::ALL {
            let of_role = |index: &usize| {
                let joint = self.parts.joints.get(*index);
                let part = joint.and_then(|joint| self.parts.get(joint.part));
                part.is_some_and(|part| Planting::of(part.role) == Some(planting))
            };
            let own = self.planted.get(&case).into_iter().flatten().copied();
            let joints: Vec<usize> = own.filter(of_role).collect();
            if joints.is_empty() {
                continue;
            }
            let planted = joints.iter().filter_map(|index| self.parts.joints.get(*index));
            let mut parts: Vec<PartId> = planted.map(|joint| joint.part).collect();
            parts.sort_unstable();
            parts.dedup();
            let mut after = last;
            after.extend(self.ready(&parts));
            let (mut lines, mut does) = (Vec::new(), Vec::new());
            match planting {
                Planting::OnBase => {
                    after.extend(loose.take());
                    let (told, holds) = self.on_base(case, &parts);
                    let blocked = matches!(holds, Doing::OnBase { block: Some(_), .. });
                    let own = self.piece.case(case);
                    let set = own.and_then(|case| self.set_on_base(case, blocked));
                    let (line, stands) = set.unzip();
                    lines.extend(line);
                    does.extend(stands);
                    lines.extend(told);
                    does.push(holds);
                }
                Planting::Legs => {
                    let (told, doing) = self.legs_held(&joints);
                    lines.extend(told);
                    does.extend(doing);
                }
            }
            let efforts = vec![Usual::Planting.times(parts.len())];
            let work = Work::Bench;
            let name = self.piece.case(case).filter(|_| self.piece.cases.len() > 1);
            let task = self.simple(
                planting.title(name.map(|case| case.name.as_str())),
                lines,
                parts.clone(),
                work,
                efforts,
                after,
            );
            self.closes(task, joints);
            self.does(task, does);
            self.makes(&parts, task);
            last = vec![task];
        }
        last.extend(loose);
        last
    }

    /// How a case is held on a base that is carried apart: where its ends stand on the
    /// base, by blocks in the corners of the base that its bottom lies on; else by its
    /// bottom, which lies on the base itself.
    pub(super) fn on_base(&self, case: CaseId, planted: &[PartId]) -> (Vec<String>, Doing) {
        let tape = self.piece.tape();
        let of = |id: &PartId| self.parts.get(*id);
        let below = self.piece.base_of(case);
        let members = self.ids_in(below, |part| part.assembly == Assembly::Base(below));
        let ends: Vec<PartId> = planted
            .iter()
            .copied()
            .filter(|id| of(id).is_some_and(|part| matches!(part.role, Role::End(_))))
            .collect();
        let is_bottom =
            |part: &Part| part.role == Role::Bottom && part.assembly == Assembly::Carcass(case);
        let bottoms = self.ids_in(case, is_bottom);
        let thick = |ids: &[PartId]| {
            ids.iter().filter_map(of).map(|part| part.thickness.length).min().unwrap_or_default()
        };
        let high = members.iter().filter_map(of).map(|part| part.width.length).min();
        let short = trade::short_of_face(tape.unit);
        let bottom = self.marks(&bottoms);
        let block = (!ends.is_empty()).then(|| trade::base_block(tape.unit));
        let most = match block {
            None => thick(&bottoms) + high.unwrap_or_default() - short,
            Some(block) => block + thick(&members) - short,
        };
        let told = self.text(tape.down(most));
        // What several cases stand on is put together in the house for good.
        let apart = match self.piece.base_row(case) {
            Some(_) => "",
            None => ", so that it comes apart for the stairs",
        };
        let lines = match block {
            None => vec![format!(
                "screw it down from inside through {bottom} into the front and the back of the base, without glue{apart}; screws no longer than {told}"
            )],
            Some(block) => vec![
                format!(
                    "make four locating blocks {} square, one for each corner inside the base, as long as it takes to reach from the lower edge of the base up to the underside of the bottom",
                    self.text(block)
                ),
                format!(
                    "screw each of them with two screws from inside the base to its front or back only, a little clear of the ends of the case and of any packer that will stand on the bottom, so that the screws can be got at again, the screws no longer than {told}, so that none comes out of the front face; they are beside those of the hardware list; nothing holds them to the ends"
                ),
                format!(
                    "let the case down over the blocks, and screw it from inside through {bottom} into their upper ends, without glue{apart}; where you can't reach one from inside, the case rests there, and the block keeps it from sliding"
                ),
            ],
        };
        (lines, Doing::OnBase { parts: members, block, most })
    }

    /// How far the outer edge of a stile stands beyond the outside face of the end
    /// that it is glued on; short of it where that is negative.
    fn beyond(&self, joint: &Joint) -> Option<Length> {
        let (stile, end) = (self.parts.get(joint.part)?, self.parts.get(joint.into)?);
        let [(from, to), (start, stop)] = [stile, end].map(|part| part.extent(Direction::X));
        Some(if end.role == Role::End(Side::Left) { start - from } else { to - stop })
    }

    /// How a stile lies on the end of its case, seen from the side.
    fn lies(&self, beyond: Length) -> String {
        let mark = if beyond.is_measured() { MEASURED } else { "" };
        if beyond.is_positive() {
            format!("on with its outer edge {}{mark} beyond the outside face", self.text(beyond))
        } else if beyond.is_negative() {
            format!("on with its outer edge {}{mark} short of the outside face", self.text(-beyond))
        } else {
            "on flush with the outside face, or a hair proud of it and never shy; plane what stands proud flush when the glue has cured".to_owned()
        }
    }

    /// How high a face frame stands on its case: by the boards that its rails are flush
    /// with, else by one board, else by the ends.
    fn frame_stands(&self, inner: &[&Joint], outer: &[&Joint]) -> Option<String> {
        let tops = |joint: &&Joint| {
            let (part, into) = (self.parts.get(joint.part)?, self.parts.get(joint.into)?);
            let lies = part.placement.length == Direction::X;
            let told = |face: Face| format!("{} of {}", into.face_name(face), into.mark);
            let upper = into.placement.face(Direction::Y, false);
            let above = part.cuboid().to.y - into.cuboid().to.y;
            (lies && into.placement.thickness == Direction::Y)
                .then(|| (part.mark.clone(), told(upper), above))
        };
        let rails: Vec<(String, String, Length)> = inner.iter().filter_map(tops).collect();
        let flush: Vec<String> = rails
            .iter()
            .filter(|(_, _, above)| above.is_zero())
            .map(|(rail, board, _)| format!("{rail} with the {board}"))
            .collect();
        let way = |by: Length| match by.is_negative() {
            true => format!("{} below", self.text(-by)),
            false => format!("{} above", self.text(by)),
        };
        if !flush.is_empty() {
            return Some(format!(
                "for the height of the frame, bring the upper edges of the rails flush with what lies behind them, {}, and try each with a straightedge before you tighten a clamp",
                listed(&flush)
            ));
        }
        if let Some((rail, board, above)) = rails.first() {
            return Some(format!(
                "for the height of the frame, bring the upper edge of {rail} {} the {board}",
                way(*above)
            ));
        }
        let stands = |joint: &&Joint| {
            let (part, into) = (self.parts.get(joint.part)?, self.parts.get(joint.into)?);
            let above = part.cuboid().from.y - into.cuboid().from.y;
            Some(match above.is_zero() {
                true => format!(
                    "for the height of the frame, bring the bottom ends of {} and {} flush",
                    part.mark, into.mark
                ),
                false => format!(
                    "for the height of the frame, bring the bottom end of {} {} that of {}",
                    part.mark,
                    way(above),
                    into.mark
                ),
            })
        };
        outer.iter().find_map(stands)
    }

    /// Blocks that the clamps of a mitered seam bear on, glued on before and set by then.
    /// The seams are told, and so many pairs of blocks stand along them.
    fn clamping_blocks(
        &mut self,
        case: &Case,
        seams: &[&Joint],
        (told, pairs): (String, u32),
        after: Vec<usize>,
    ) -> usize {
        let mut parts: Vec<PartId> = seams.iter().flat_map(|own| [own.part, own.into]).collect();
        parts.sort_unstable();
        parts.dedup();
        let block = trade::clamping_block(self.piece.tape().unit);
        let size = self.text(block);
        let lines = vec![
            format!(
                "saw the clamping blocks off a strip of scrap ripped to a right triangle with both legs {size}, each block {size} long, and keep the strip long enough to hold"
            ),
            format!(
                "glue {pairs} pairs of clamping blocks along the seam between {told}, one block of each pair on either board and a pair where each clamp will be, the sloping faces away from each other and square to the line that the clamp pulls along; put paper in the glue so that they come off again, and let them set"
            ),
        ];
        self.add(Task {
            lines,
            does: vec![Doing::Blocks { parts: parts.clone(), pairs, block }],
            parts,
            efforts: vec![Usual::ClampingBlocks.times(usize::try_from(pairs).unwrap_or_default())],
            wait: self.piece.shop.clamp,
            waits_for: Wait::Screws,
            after,
            ..Task::new(
                format!("Glue the clamping blocks on for the miter of {}", case.name),
                Work::Glue,
            )
        })
    }

    /// The frame goes on last: it squares the front and hides every edge.
    fn frame_on(
        &mut self,
        case: &Case,
        mut stands: Vec<usize>,
        frame: Option<usize>,
    ) -> Vec<usize> {
        let crossing = self.units.frames_on.get(&case.id).cloned().unwrap_or_default();
        stands.extend(frame);
        if crossing.is_empty() {
            return stands;
        }
        let mut lines = Vec::new();
        let (outer, inner): (Vec<&Joint>, Vec<&Joint>) =
            crossing.iter().partition(|joint| gluing::is_outer(self.parts, joint));
        let name = |part, into| format!("{} to {}", self.parts.mark(part), self.parts.mark(into));
        let pair = |joint: &&Joint| name(joint.part, joint.into);
        let seam = |joint: &&Joint| {
            format!("{} and {}", self.parts.mark(joint.part), self.parts.mark(joint.into))
        };
        let (mitered, flush): (Vec<&Joint>, Vec<&Joint>) =
            outer.into_iter().partition(|joint| joint.sort == JointSort::Miter);
        let pairs: u32 = mitered.iter().map(|joint| gluing::clamps_along(self.parts, joint)).sum();
        if !mitered.is_empty() {
            let told: Vec<String> = mitered.iter().map(pair).collect();
            let told = listed(&told);
            let seams: Vec<String> = mitered.iter().map(seam).collect();
            let open = self.piece.shop.open_time;
            lines.push(format!("{told}: try the miter dry; these papers reckon with a glue that stays open {open}, and a slower one leaves you more time to bring the long points together"));
            lines.push(format!("bring the frame straight on and clamp across the {pairs} pairs of blocks; frame and case are rigid, so the miter can't be folded shut"));
            lines.push("when the clamps are off, split the blocks off along their paper, and scrape the paper away".to_owned());
            stands = vec![self.clamping_blocks(case, &mitered, (listed(&seams), pairs), stands)];
        }
        let stile = |joint: &&Joint| Some((joint.part, joint.into, self.beyond(joint)?));
        let stiles: Vec<(PartId, PartId, Length)> = flush.iter().filter_map(stile).collect();
        lines.extend(stiles.iter().map(|(part, into, beyond)| {
            format!("{}: glue it {}", name(*part, *into), self.lies(*beyond))
        }));
        lines.extend(self.frame_stands(&inner, &flush));
        let cauls = gluing::cauls(self.parts, &crossing);
        if !inner.is_empty() {
            let told: Vec<String> = inner.iter().map(pair).collect();
            let is = |role: Role| {
                inner.iter().any(|own| self.parts.get(own.part).is_some_and(|p| p.role == role))
            };
            let behind: Vec<&str> = [(Role::Rail, "rails"), (Role::Stile, "inner stiles")]
                .into_iter()
                .filter_map(|(role, word)| is(role).then_some(word))
                .collect();
            lines.push(format!(
                "spread glue on what lies behind the {} too: {}",
                listed(&behind),
                told.join(", ")
            ));
            lines.push(format!("lay {cauls} stiff cauls, each planed a shaving thinner toward its ends, across the frame from stile to stile, with a clamp at both ends of each, so that they press down what lies between"));
        }
        let mut parts: Vec<PartId> = crossing.iter().map(|joint| joint.part).collect();
        parts.dedup();
        stands.extend(self.ready(&parts));
        let load = gluing::laid_on(self.parts, &crossing);
        let sides = (case.wide.length, case.high.length - case.base_high().length);
        let square = Some(squareness::of_case(self.work, case.id, sides));
        let title = format!("Glue the face frame to the carcass of {}", case.name);
        let efforts = vec![Usual::FrameOn.times(1)];
        let glued = self.glue(title, lines, parts.clone(), efforts, &load, square, stands);
        let closes = self.framed.get(&case.id).cloned().unwrap_or_default();
        self.closes(glued, closes);
        self.does(glued, vec![Doing::FrameOn(FrameOn { stiles, pairs, cauls })]);
        self.makes(&parts, glued);
        vec![glued]
    }
}
