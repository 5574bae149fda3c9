//! Hanging doors, drawers and what is fixed before an opening.

use std::collections::BTreeSet;

use crate::diagnostics::listed;
use crate::model::{CaseId, HingeKind, Opening, OpeningKind};
use crate::parts::{Assembly, Bore, FeatureKind, JointSort, PartId, Role, front_told};
use crate::plans::fitting::at_wall;
use crate::plans::operations::{self, Doing};

use super::{Maker, Usual, Work};

impl Maker<'_, '_> {
    /// Doors, slides, drawers and their fronts; the tasks after which all hangs.
    pub(super) fn hang(&mut self, stands: &[usize], boxes: Vec<usize>) -> Vec<usize> {
        self.ordered_glass(stands);
        let mut done = stands.to_vec();
        // Whatever hangs nowhere is made all the same, and finished with the rest.
        done.extend(self.ready(&self.ids(|_| true)));
        done.extend_from_slice(&boxes);
        let count =
            |sort: JointSort| self.parts.joints.iter().filter(|joint| joint.sort == sort).count();
        let (hung, slid) = (count(JointSort::Hung), count(JointSort::Slid) / 2);
        let on_boxes = self.fixed_fronts(false);
        let (trays, drawers) = self.trays_and_drawers();
        let strips = match self.stripped {
            Some(task) => Some(task),
            None => self.strips_fixed(stands),
        };
        let stops = self.stops_set(stands, &boxes, strips);
        // The blocks come first: the back that comes off for them stays off.
        let blocks = if hung > 0 { self.blocks_fixed(stands) } else { Vec::new() };
        let held = self.held_by_blocks(stands);
        let behind = self.slide_behind_doors();
        let mut fitted = None;
        if slid > 0 || !on_boxes.is_empty() {
            let packers = match self.packed {
                Some(_) => Vec::new(),
                None => self.ids(|part| part.role == Role::Packer),
            };
            let (mut lines, mut does) = (Vec::new(), Vec::new());
            let opens = self.fix_packers(&packers, &mut lines, &mut does);
            let fitting = self.work.fitting();
            does.extend((0..fitting.drawers.len()).map(Doing::Slide));
            does.extend((0..fitting.on_wood.len()).map(Doing::OnWood));
            does.extend((0..fitting.fronts.len()).map(Doing::FrontOn));
            let on_wood = self.fitted_on_wood();
            lines.extend(on_wood);
            let slides = !fitting.drawers.is_empty();
            let mut set = "set the slides level and parallel, at the heights and set-backs of the fitting sheet, and put in the boxes".to_owned();
            if drawers {
                set.push_str(
                    "; then shim each front to its gaps and screw it to its box as that sheet says",
                );
            }
            if slides {
                lines.push(set);
            }
            if fitting.fronts.iter().any(|front| front.into_box > 0) {
                lines.push(
                    "with a front in place, drill its pull holes on through the front of the box"
                        .to_owned(),
                );
            }
            let mut after = stands.to_vec();
            after.extend(boxes);
            after.extend(self.ready(&packers));
            after.extend(self.of_fronts(|kind| matches!(kind, OpeningKind::Drawer { .. })));
            after.extend(strips);
            after.extend(self.packed);
            after.extend(self.opened_behind(&packers));
            after.extend(stops);
            after.extend(held);
            let title = match (trays, drawers) {
                (false, _) if !slides => "Fit the drawers and drawer fronts",
                (true, false) => "Fit the slides and trays",
                (true, true) => "Fit the slides, trays, drawers, and drawer fronts",
                (false, _) => "Fit the slides, drawers, and drawer fronts",
            };
            let title = title.into();
            let efforts = vec![Usual::Drawer.times(slid.max(1))];
            let task = self.simple(title, lines, packers.clone(), Work::Bench, efforts, after);
            let mut closes = self.picked(|joint| {
                joint.sort == JointSort::Slid || packers.binary_search(&joint.part).is_ok()
            });
            closes.extend(on_boxes);
            self.opens(opens, task);
            self.closes(task, closes);
            self.does(task, does);
            self.makes(&packers, task);
            done.push(task);
            fitted = Some(task);
        }
        if hung > 0 {
            let mut after = stands.to_vec();
            after.extend(blocks);
            after.extend(
                self.of_fronts(|kind| matches!(kind, OpeningKind::Door(_) | OpeningKind::Doors)),
            );
            let mut lines = Vec::new();
            if self.has_butts() {
                lines.push("cut the leaves of the butt hinges in flush, in the door and in what it hangs on; mark them from the hinge itself".to_owned());
            }
            lines.push("hang every door in its own opening, set its gaps with shims, and mark each door and hinge".to_owned());
            if let Some(what) = behind {
                // What is tried past the leaves is in by then.
                after.extend(fitted);
                for own in at_wall(self.work) {
                    lines.push(format!(
                        "in the room {} stops {} at about {} degrees: clamp a block where it will stop the door at that angle, and leave it there while you try what is behind the door",
                        own.at.told(self.piece),
                        front_told(self.piece, own.front.id),
                        own.opens.0.floor()
                    ));
                }
                lines.push(format!("open the doors as far as they go, and pull out every {what}: it must pass the leaves freely; where it does not, its packer on that side must be thicker, and its box as much narrower"));
            }
            let title = "Hang the doors".into();
            let efforts = vec![Usual::Door.times(hung)];
            let task = self.simple(title, lines, Vec::new(), Work::Bench, efforts, after);
            self.closes(task, self.picked(|joint| joint.sort == JointSort::Hung));
            let hinges = (0..self.work.fitting().hinges.len()).map(Doing::Hinge);
            self.does(task, hinges.collect());
            done.push(task);
            done.extend(self.stopped(task));
        }
        done.extend(self.false_fronts(stands, held));
        done
    }

    /// Takes off the backs of the cases of these parts, where no task before did; they stay
    /// off until after the finish.
    pub(super) fn take_off_backs(
        &self,
        behind: &[PartId],
        (first, why): (&str, &str),
        (lines, does): (&mut Vec<String>, &mut Vec<Doing>),
    ) -> Vec<PartId> {
        let mut backs = self.backs_behind(behind);
        backs.retain(|back| !self.opened.contains_key(back));
        if !backs.is_empty() {
            let stays = if backs.len() == 1 { "it stays" } else { "they stay" };
            lines.push(format!(
                "{first} {}, {why}; {stays} off until after the finish",
                self.marks(&backs)
            ));
            does.push(Doing::TakeOff(backs.clone()));
        }
        backs
    }

    /// The backs of the cases that these parts are of.
    pub(super) fn backs_behind(&self, parts: &[PartId]) -> Vec<PartId> {
        let cases = parts.iter().filter_map(|id| self.parts.get(*id));
        let cases: BTreeSet<CaseId> = cases.map(|part| part.case).collect();
        self.ids(|part| part.role == Role::Back && cases.contains(&part.case))
    }

    /// The tasks in which the backs came off of the cases that these parts are of.
    pub(super) fn opened_behind(&self, parts: &[PartId]) -> Vec<usize> {
        let backs = self.backs_behind(parts);
        backs.iter().filter_map(|back| self.opened.get(back)).copied().collect()
    }

    /// From this task on these backs are off.
    pub(super) fn opens(&mut self, backs: Vec<PartId>, task: usize) {
        self.opened.extend(backs.into_iter().map(|back| (back, task)));
    }

    /// How packers are fixed; the backs that come off for it.
    fn fix_packers(
        &self,
        packers: &[PartId],
        lines: &mut Vec<String>,
        does: &mut Vec<Doing>,
    ) -> Vec<PartId> {
        if packers.is_empty() {
            return Vec::new();
        }
        let opens = self.take_off_backs(
            packers,
            ("first take off", "so that you reach the packers from behind"),
            (lines, does),
        );
        let flush = match self.slide_behind_doors().is_some() {
            true => "past the edges of their openings by the figures of the fitting sheet",
            false => "flush with their openings",
        };
        let is_glued = |id: &PartId| {
            let mut own = self.parts.joints.iter().filter(|joint| joint.part == *id);
            own.any(|joint| joint.glued)
        };
        let (cleats, packers) = self.between_posts(packers);
        let (glued, dry): (Vec<PartId>, Vec<PartId>) = packers.iter().partition(|id| is_glued(id));
        let mut how = Vec::new();
        if !glued.is_empty() {
            how.push(format!("glue and screw {}", self.marks(&glued)));
        }
        if !dry.is_empty() {
            how.push(format!("screw {} without glue", self.marks(&dry)));
        }
        how.extend(self.set_between_posts(&cleats));
        lines.push(format!(
            "fix the packers first, so that the slides stand {flush}: {}",
            how.join("; ")
        ));
        // Those on a sheet are dry for its finish alone: it does not move under them.
        let across: Vec<PartId> = dry.into_iter().filter(|id| self.is_on_solid_wood(*id)).collect();
        if !across.is_empty() {
            lines.push(format!(
                "{} run across the grain of a solid board: leave the hole of the front screw round, make those behind it slots that run along the packer, twice as long as they are wide, and drive their screws just snug, so that the board can move",
                self.marks(&across)
            ));
        }
        opens
    }

    /// True where what a part is joined to is of boards.
    fn is_on_solid_wood(&self, id: PartId) -> bool {
        let own = self.parts.joints.iter().filter(|joint| joint.part == id);
        own.filter_map(|joint| self.parts.get(joint.into))
            .any(|into| self.piece.stock(into.stock).is_some_and(crate::model::Stock::is_solid))
    }

    /// The packers before the fronts are fitted, where a front lies between two of them:
    /// behind doors they are the sides of its opening.
    pub(super) fn packers_first(&mut self, stands: &[usize]) -> Option<usize> {
        let inner = self.piece.cases.iter().any(|case| {
            case.openings.iter().any(|opening| {
                opening.front.is_some() && !opening.is_door() && case.door_before(opening).is_some()
            })
        });
        let packers = self.ids(|part| part.role == Role::Packer);
        if !inner || packers.is_empty() {
            return None;
        }
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        let opens = self.fix_packers(&packers, &mut lines, &mut does);
        if !opens.is_empty() {
            lines.push("keep the case square while its back is off: measure its diagonals before you set a front in it".to_owned());
        }
        let mut after = stands.to_vec();
        after.extend(self.ready(&packers));
        let title = "Fix the packers".to_owned();
        let efforts = vec![Usual::HingeBlock.times(packers.len())];
        let task = self.simple(title, lines, packers.clone(), Work::Bench, efforts, after);
        self.closes(task, self.picked(|joint| packers.binary_search(&joint.part).is_ok()));
        self.does(task, does);
        self.makes(&packers, task);
        self.opens(opens, task);
        self.packed = Some(task);
        Some(task)
    }

    /// Strips that the doors close against, and the catches that hold them, once they hang.
    fn stopped(&mut self, hung: usize) -> Option<usize> {
        let fitting = self.work.fitting();
        let (stops, catches) = (fitting.stops.len(), fitting.catches.len());
        let mut lines = Vec::new();
        if stops > 0 {
            let names: Vec<&str> = fitting.stops.iter().map(|stop| stop.opening.title()).collect();
            lines.push(format!(
                "cut the stops of {} from offcuts, by the fitting sheet, and ease their edges",
                listed(&names)
            ));
            lines.push("close each door flush with the face of the case, push its stop against its back, mark it, and glue and screw it there".to_owned());
        }
        if catches > 0 {
            lines.push("set each catch last, so that its door closes flush and holds".to_owned());
        }
        let (title, efforts) = match (stops, catches) {
            (0, 0) => return None,
            (0, _) => ("Fit the catches", vec![Usual::Stop.times(catches)]),
            (_, 0) => ("Fit the stops of the doors", vec![Usual::Stop.times(stops)]),
            (_, _) => {
                ("Fit the stops and catches of the doors", vec![Usual::Stop.times(stops + catches)])
            }
        };
        let task = self.simple(title.into(), lines, Vec::new(), Work::Bench, efforts, vec![hung]);
        let does = (0..stops).map(Doing::Stop).chain((0..catches).map(Doing::Catch));
        self.does(task, does.collect());
        Some(task)
    }

    /// What keeps a door from a wall or from a case beside its own, which are there only in
    /// the house.
    pub(super) fn door_stops(&self) -> Vec<String> {
        let stopped = at_wall(self.work).into_iter().map(|own| {
            format!(
                "open {} slowly, and fit a door stop or a limiter for its hinges that stops it before it meets {}: the fitting sheet has the angle",
                front_told(self.piece, own.front.id),
                own.at.told(self.piece)
            )
        });
        stopped.collect()
    }

    /// What slides behind doors, in the singular; `None` where nothing does.
    fn slide_behind_doors(&self) -> Option<&'static str> {
        let openings = self.piece.cases.iter().flat_map(|case| &case.openings);
        let behind = openings.filter(|opening| {
            matches!(opening.kind, OpeningKind::Drawer { .. })
                && self.piece.door_before(opening.id).is_some()
        });
        behind.map(Opening::is_tray).fold(None, |known, tray| {
            let own = if tray { "tray" } else { "drawer behind them" };
            match known {
                Some(known) if known != own => Some("tray and drawer behind them"),
                _ => Some(own),
            }
        })
    }

    /// Whether there are trays, and whether there are drawers with fronts.
    fn trays_and_drawers(&self) -> (bool, bool) {
        let openings = self.piece.cases.iter().flat_map(|case| &case.openings);
        let pulled = openings.filter(|opening| matches!(opening.kind, OpeningKind::Drawer { .. }));
        pulled.fold((false, false), |(trays, drawers), opening| match opening.is_tray() {
            true => (true, drawers),
            false => (trays, true),
        })
    }

    /// The blocks that carry hinges, before any door comes in: that task, where there
    /// are any.
    fn blocks_fixed(&mut self, stands: &[usize]) -> Vec<usize> {
        let blocks = self.ids(|part| part.role == Role::HingeBlock);
        if blocks.is_empty() {
            return Vec::new();
        }
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        let opens = self.take_off_backs(
            &blocks,
            ("first take off", "so that you reach behind the stiles"),
            (&mut lines, &mut does),
        );
        lines.push(format!(
            "{} them behind the stiles, flush with their openings: {}",
            self.glue_and_screw(&blocks),
            self.marks(&blocks)
        ));
        let behind = self.bored_behind();
        let mut boards: Vec<PartId> = behind.iter().map(|(id, _)| *id).collect();
        boards.dedup();
        if !boards.is_empty() {
            lines.push(format!(
                "when they are on, bore on through the plate holes of the thin ones into {}, with the stop on the bit set to the depth for the plate's screws, which counts from the face of the block",
                self.marks(&boards)
            ));
        }
        let mut after = stands.to_vec();
        after.extend(self.ready(&blocks));
        after.extend(self.opened_behind(&blocks));
        let title = "Fix the hinge blocks".to_owned();
        let efforts = vec![Usual::HingeBlock.times(blocks.len())];
        let task = self.simple(title, lines, blocks.clone(), Work::Bench, efforts, after);
        self.closes(task, self.picked(|joint| blocks.binary_search(&joint.part).is_ok()));
        self.cuts(task, behind);
        self.does(task, does);
        self.makes(&blocks, task);
        self.opens(opens, task);
        vec![task]
    }

    /// The plate holes that go on through thin blocks into the boards behind them.
    fn bored_behind(&self) -> Vec<(PartId, usize)> {
        let all = self.ids(|_| true);
        self.features(&all, |own| own.kind == FeatureKind::Bore(Bore::PlateBehind))
    }

    /// The holes for the hooks of undermount runners, in the backs of their boxes.
    pub(super) fn hooked(&self) -> Vec<operations::Holes> {
        let drawers = self.work.fitting().drawers.iter();
        let holes = drawers.filter_map(|drawer| {
            let (hooks, hook) = (drawer.hooks?, drawer.hardware.hook?);
            let id = self.parts.id_of(hooks.back)?;
            Some(operations::hook_holes(id, &hooks, (hook, drawer.slide.span)))
        });
        holes.collect()
    }

    /// The boards of the fronts of openings of some kind.
    pub(super) fn fronts_of(&self, kind: fn(&OpeningKind) -> bool) -> Vec<PartId> {
        self.ids(|part| match part.assembly {
            Assembly::Front(front) => {
                self.piece.opening(front.opening).is_some_and(|opening| kind(&opening.kind))
            }
            _ => false,
        })
    }

    /// The tasks that they come out of.
    pub(super) fn of_fronts(&self, kind: fn(&OpeningKind) -> bool) -> Vec<usize> {
        self.ready(&self.fronts_of(kind))
    }

    /// True where a door hangs on butt hinges.
    fn has_butts(&self) -> bool {
        let openings = self.piece.cases.iter().flat_map(|case| &case.openings);
        openings.filter(|opening| opening.is_door()).any(|opening| {
            let hinge = opening.front.as_ref().and_then(|front| front.hinge);
            hinge
                .and_then(|(index, _)| self.piece.hinge(index))
                .is_some_and(|hinge| matches!(hinge.kind, HingeKind::Butt { .. }))
        })
    }
}
