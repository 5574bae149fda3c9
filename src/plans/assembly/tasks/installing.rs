//! Carrying in, leveling, scribing, fixing, and hanging what was taken off.

use crate::diagnostics::listed;
use crate::measure::Length;
use crate::model::{Case, CaseId, Exposure, Opening, OpeningKind, Set};
use crate::parts::{JointSort, PartId, Role};
use crate::plans::operations::{Doing, House, Narrow, Wall};
use crate::plans::shelves;
use crate::plans::wall;
use crate::plans::weights::Lifted;
use crate::trade::{self, Carry};

use super::bases::UNDER_BASE;
use super::{Maker, Usual, Work};

/// What comes before any screw into a wall.
pub(super) const STUDS: &str = "find the studs, and look for pipes and wires before you drill; where any run, local code and a licensed trade decide";

impl Maker<'_, '_> {
    /// All that is done in the house. A front is adjusted last: shims and wall
    /// screws still move its opening.
    pub(super) fn install(&mut self, finished: usize) {
        let stood = self.legs_on(finished);
        let stands = self.levels();
        let (lines, does) = self.carried(stands);
        let title = match (stands, self.piece.stands_apart()) {
            (true, true) => "Carry the pieces in and level each",
            (true, false) => "Carry it in and level it",
            (false, _) => "Carry it in",
        };
        let title = title.to_owned();
        let once = |usual: Usual| vec![usual.times(1)];
        let work = Work::Fit;
        let cases = self.piece.cases.iter().filter(|case| case.is_on_floor()).count();
        let efforts = vec![Usual::Leveling.times(cases.max(1))];
        let mut last = self.simple(title, lines, Vec::new(), work, efforts, vec![stood]);
        self.does(last, does);
        last = self.strips_up(last, false);
        last = self.bases_set(last);
        // What is too wide for its place goes onto no base there before it is planed.
        let planed_first = self.between_walls().is_some();
        if planed_first {
            last = self.scribes(last);
        }
        last = self.stood_on_bases(last);
        if !planed_first {
            last = self.scribes(last);
        }
        last = self.strips_up(last, true);
        last = self.scribes_over(last);
        last = self.hung_up(last);
        last = self.tied(last, false);
        last = self.screwed_down(last);
        if self.piece.site.fixed && self.piece.cases.iter().any(Case::is_on_floor) {
            let wall = wall::wall(self.piece, self.parts, Case::is_on_floor);
            let lines = self.walled(&wall, false);
            let title = format!("Fix {} to the wall", self.on_floor("it"));
            last = self.simple(title, lines, Vec::new(), work, once(Usual::Wall), vec![last]);
            self.does(last, vec![Doing::House(House::Wall(wall))]);
        }
        let last = self.kicks_on(last);
        let last = self.filled(last);
        let last = self.covered(last, false);
        let last = self.laid_on(last, false);
        let last = self.stacked(last, finished);
        let last = self.covered(last, true);
        let last = self.laid_on(last, true);
        let last = self.all_back(last);
        self.appliances(last);
    }

    /// Doors, drawers, and shelves come in again; the task after which they are in.
    fn all_back(&mut self, last: usize) -> usize {
        let (back, top) = (self.comes_off(), self.countertops_of_others());
        let efforts = || vec![Usual::PuttingBack.times(1)];
        // Its screws come from below, where drawers would be in the way.
        let last = match top.len() {
            0 => last,
            count => {
                let title = match count {
                    1 => "Leave it for its countertop".to_owned(),
                    _ => "Leave the pieces for their countertops".to_owned(),
                };
                self.simple(title, top, Vec::new(), Work::Bench, efforts(), vec![last])
            }
        };
        if back.is_empty() {
            return last;
        }
        let lines = self.put_back(&back);
        let title = format!("Put in the {back}");
        let put = self.simple(title, lines, Vec::new(), Work::Bench, efforts(), vec![last]);
        // Shelves lie loose on their pins: now they come in to stay.
        let stuck = self.stuck();
        let laid = self.picked(|joint| {
            joint.sort == JointSort::Laid && stuck.binary_search(&joint.part).is_err()
        });
        let lie = laid.iter().filter_map(|index| Some(self.parts.joints.get(*index)?.part));
        let panes: Vec<PartId> =
            lie.filter(|id| self.parts.get(*id).is_some_and(|part| self.is_pane(part))).collect();
        self.waits_for_glass(put, &panes);
        self.closes(put, laid);
        let rails = (0..self.work.fitting().rails.len()).map(Doing::Rail);
        self.does(put, rails.collect());
        put
    }

    /// What carries a countertop, which these papers leave to others: that of the whole piece,
    /// or one for each that stands by itself.
    fn countertops_of_others(&self) -> Vec<String> {
        match self.piece.stands_apart() {
            true => {
                let cases = self.piece.cases.iter();
                cases.filter_map(|own| self.countertop(|case| case == own.id)).collect()
            }
            false => self.countertop(|_| true).into_iter().collect(),
        }
    }

    fn countertop(&self, is_of: impl Fn(CaseId) -> bool) -> Option<String> {
        let under = |case: CaseId| {
            let own = self.piece.case(case).filter(|own| self.piece.top_over(own.id).is_none());
            let top = own.and_then(|case| case.top.as_ref());
            is_of(case) && top.is_some_and(|top| top.stretchers.is_some())
        };
        let stretchers = self.ids(|part| part.role == Role::Stretcher && under(part.case));
        if stretchers.is_empty() {
            return None;
        }
        let mut on: Vec<String> =
            stretchers.iter().map(|id| self.parts.mark(*id).to_owned()).collect();
        let posts = self.piece.cases.iter().any(|case| case.posts.is_some());
        on.push(format!("the tops of the {}", if posts { "posts" } else { "ends" }));
        Some(format!(
            "a countertop is not part of these papers: whoever makes it measures for it now that the piece stands level and fixed; it rests on {}, and is fastened from below through them, one of solid wood along the front only, and in slots toward the back, so that it can move",
            listed(&on)
        ))
    }

    fn carried(&self, stands: bool) -> (Vec<String>, Vec<Doing>) {
        let (mut lines, mut does) = (Vec::new(), Vec::new());
        let stuck = self.stuck();
        let loose = self.ids(|part| {
            part.role == Role::AdjustableShelf && !shelves::is_stuck(self.piece, self.parts, part)
        });
        let (doors, drawers) = self.piece.doors_and_drawers();
        let off: Vec<&str> = [
            doors.then_some("doors"),
            drawers.then_some("drawers"),
            (!loose.is_empty()).then_some("loose shelves"),
        ]
        .into_iter()
        .flatten()
        .collect();
        if !off.is_empty() {
            let it = if self.piece.stands_apart() { "each piece" } else { "it" };
            lines.push(format!("carry {it} without its {}", listed(&off)));
        }
        if !stuck.is_empty() {
            lines.push(format!(
                "leave {} in, because nothing brings them out again",
                self.marks(&stuck)
            ));
        }
        let weights = self.work.weights();
        for case in &self.piece.cases {
            let carry = weights.carry(&Lifted::Case(case.id));
            does.push(Doing::House(House::Carry(case.id, carry)));
            lines.push(match carry {
                Carry::People(1) => continue,
                Carry::People(count) => format!("carry {} with {count} people", case.name),
                Carry::Gear => format!(
                    "{} is too heavy for three people: put straps round it or move it on a dolly",
                    case.name
                ),
            });
        }
        let lone = self.lone_bases();
        for case in &lone {
            let (told, doing) = self.base_leveled(case);
            lines.extend(told);
            does.extend(doing);
        }
        if !lone.is_empty() {
            lines.push(UNDER_BASE.to_owned());
        }
        for keep_out in &self.piece.site.keep_outs {
            lines.push(format!(
                "check that the piece clears the {} before you push it home; where you have to cut, seal the edge with finish again",
                keep_out.name
            ));
        }
        if !stands {
            return (lines, does);
        }
        match self.piece.stands_apart() {
            true => {
                let (told, doing) = self.set_apart();
                lines.extend(told);
                does.extend(doing);
            }
            false => lines.extend(self.leveling()),
        }
        let (kept, keeps) = self.kept(None);
        lines.extend(kept);
        does.extend(keeps);
        if lone.is_empty() || self.between_walls().is_none() {
            lines.extend(self.diagonals());
        }
        (lines, does)
    }

    /// A case that is shimmed racks its openings.
    pub(super) fn diagonals(&self) -> Option<String> {
        let all: Vec<&Case> = self.leveled().collect();
        let by = self.level_by(&all).map_or("move the shims", |_| "turn the adjusters");
        self.has_inset().then(|| format!("measure both diagonals of every inset opening again, and {by} until they agree as they did on the bench"))
    }

    /// How what stands on the floor by itself is leveled: the piece, or those of its cases
    /// that don't stand on a base with others.
    fn leveling(&self) -> Vec<String> {
        let all: Vec<&Case> = self.leveled().collect();
        let own: Vec<&str> = all.iter().map(|case| case.name.as_str()).collect();
        let others = self.piece.cases.iter().filter(|case| !case.is_on_floor()).count();
        let clear = match self.between_walls() {
            Some(_) => "in front of its place between the walls",
            None if self.is_scribed() => "clear of the walls by no more than the scribe",
            None => "where it will stay",
        };
        match own.len() + others == self.piece.cases.len() {
            true if self.leveled().all(|case| self.has_lone_base(case)) => {
                let piece = self.on_floor("the piece");
                match self.between_walls() {
                    Some(_) => vec![format!(
                        "stand {piece} {clear}: it is too wide to go onto a base there until its stiles are planed to the walls"
                    )],
                    None => vec![self.level_on_base(&piece)],
                }
            }
            true => {
                let piece = self.on_floor("the piece");
                vec![
                    format!(
                        "find the highest place of the floor where {piece} will stand, and set it {clear}"
                    ),
                    format!(
                        "{} until the whole of {piece} is level from end to end and from front to back, with the ends plumb",
                        self.level_by(&all).unwrap_or("shim up from it")
                    ),
                ]
            }
            false => vec![
                format!(
                    "find the highest place of the floor under the whole run, and set {} {clear}",
                    listed(&own)
                ),
                format!(
                    "shim {} up to that height, level from end to end and from front to back, with the ends plumb",
                    listed(&own)
                ),
            ],
        }
    }

    pub(super) fn walled(&self, wall: &Wall, stacked: bool) -> Vec<String> {
        let mut lines = vec![STUDS.to_owned()];
        lines.extend(self.screwed_to_wall(wall));
        if !stacked {
            lines.push(match self.piece.site.baseboard {
                Some(_) => "the baseboard behind the piece stays: see that no notch bears on it, and that what screws go through lies against the wall",
                None => "what screws go through has to lie against the wall: where a baseboard keeps it off, take that off behind the piece, or cut it out there; where it stays, pack out behind each screw by its thickness, and take screws that are as much longer",
            }.to_owned());
        }
        let tips = self.work.tipping().iter().filter(|tipping| tipping.tips());
        let tips: Vec<&str> = tips
            .flat_map(|tips| &tips.cases)
            .filter_map(|id| self.piece.case(*id))
            .map(|case| case.name.as_str())
            .collect();
        if !tips.is_empty() {
            lines.push(format!("put in no door or drawer before the screws hold; until then {} can tip when opened", listed(&tips)));
        }
        lines
    }

    /// What the wall screws go through, how many there are, and how long.
    pub(super) fn screwed_to_wall(&self, wall: &Wall) -> Vec<String> {
        let tape = self.piece.tape();
        let mut lines = Vec::new();
        let nailed = !wall.nailers.is_empty();
        if nailed {
            lines.push(format!(
                "screw through {} into the studs, and never through a thin back alone",
                self.marks(&wall.nailers)
            ));
        }
        if !wall.backs.is_empty() {
            lines.push(format!(
                "{} into the studs, close under the top",
                match nailed {
                    true => format!("screw through {} too", self.marks(&wall.backs)),
                    false => format!("screw through {}", self.marks(&wall.backs)),
                }
            ));
        }
        let through = match (wall.thick.is_positive(), wall.back.is_positive()) {
            (true, true) => format!("through the nailer, {} of back,", self.text(wall.back)),
            (true, false) => "through the nailer".to_owned(),
            (false, _) => format!("through {} of back", self.text(wall.back)),
        };
        lines.push(format!(
            "drive {} cabinet screws of {} at each stud, {through} and the wallboard or plaster, and {} into the stud: that is {} plus the thickness of the wallboard or plaster, so buy them {} long for wallboard of {}; use no drywall screws, which snap; in masonry use plugs made for it",
            wall.screws,
            trade::wall_gauge(tape.unit),
            self.text(wall.into),
            self.text(tape.up(wall.least())),
            self.text(tape.up(wall.screw(tape.unit))),
            self.text(wall.lining)
        ));
        lines.extend(wall.narrow.iter().flat_map(|own| self.without_stud(own, wall)));
        lines.push(
            "shim behind a screw where there is a gap, or it pulls the case out of square"
                .to_owned(),
        );
        lines
    }

    /// What a case is fixed to that may have no stud behind it.
    fn without_stud(&self, own: &Narrow, wall: &Wall) -> Vec<String> {
        let Some(case) = self.piece.case(own.case) else { return Vec::new() };
        let of_case = |id: &&PartId| self.parts.get(**id).is_some_and(|part| part.case == own.case);
        let through: Vec<PartId> =
            wall.nailers.iter().chain(&wall.backs).filter(of_case).copied().collect();
        let (marks, name) = (self.marks(&through), &case.name);
        let narrow = match own.wide < case.wide.length {
            true => format!("no nailer of {name} is longer than {}", self.text(own.wide)),
            false => format!("{name} is only {} wide", self.text(own.wide)),
        };
        let bears = match case.hung {
            Some(_) => {
                ", which must bear what the weights sheet says goes down on each screw and comes out of it"
            }
            None => "",
        };
        vec![
            format!(
                "{narrow}, and studs stand {} apart or more, so there may be none behind it: where there is none, screw a board to the studs on both sides of its place, behind {marks}, and drive the screws into that board; let it into the wall, or the case stands off by its thickness",
                self.text(own.apart)
            ),
            format!(
                "in a wall that must not be opened use anchors for hollow walls through {marks}, as their data sheet has it{bears}; never trust a screw in wallboard or plaster alone"
            ),
        ]
    }

    /// The hanging rails, while nothing is in the way of a hand and a level.
    fn rails_up(&self) -> Vec<String> {
        let rails = &self.work.fitting().rails;
        let names: Vec<&str> = rails.iter().map(|rail| rail.opening.title()).collect();
        match names.is_empty() {
            true => Vec::new(),
            false => {
                vec![format!("put up the hanging rail of {}, by the fitting sheet", listed(&names))]
            }
        }
    }

    fn put_back(&self, back: &str) -> Vec<String> {
        let mut lines = self.rails_up();
        if self.has_fronts_on_boxes() {
            lines.push(
                "screw the drawer fronts back onto their boxes, each in the holes that it had"
                    .to_owned(),
            );
        }
        if !back.is_empty() {
            if self.has_slides() {
                lines.push("screw the slides back in their own holes".to_owned());
            }
            lines.push(format!("put the {back} back where they were marked"));
            let panes = self.ids(|part| part.role == Role::AdjustableShelf && self.is_pane(part));
            if !panes.is_empty() {
                lines.push(format!(
                    "lay a soft pad on each of the four pins of {}, and set the glass down on all four at once, flat and without force",
                    self.marks(&panes)
                ));
            }
        }
        if self.has_inset() {
            // A drawer on wood has nothing that is turned to adjust it.
            let slides = self.has_slides();
            let (how, by, bares) = match self.piece.doors_and_drawers() {
                (true, true) if slides => {
                    ("adjust the inset fronts", ", hinge by hinge and slide by slide", false)
                }
                (true, _) => ("adjust the inset doors", ", hinge by hinge", false),
                (false, true) if slides => ("adjust the inset fronts", ", slide by slide", false),
                (false, _) => ("pare the stops and plane the edges of the inset fronts", "", true),
            };
            lines.push(format!(
                "{how} only now{by}, until the shims of the gap sheet slide all round"
            ));
            if bares {
                lines.push("coat again what the plane bared".to_owned());
            }
        }
        if !self.work.fitting().on_wood.is_empty() {
            lines.push("rub wax on what the drawers run on, now that the finish is dry".to_owned());
        }
        if self.has_pulls() {
            lines.push("screw the pulls on".to_owned());
        }
        lines.extend(self.door_stops());
        if !self.work.fronts().is_empty() {
            lines.push("check every gap once more".to_owned());
        }
        let regulated: Vec<&str> = self
            .piece
            .cases
            .iter()
            .filter(|case| self.is_regulated(case))
            .map(|case| case.name.as_str())
            .collect();
        if !regulated.is_empty() {
            let what = match self.piece.site.fixed {
                true => {
                    "a piece of this size in which clothes are kept falls under 16 CFR 1261 (ASTM F2057) in the United States unless it is built in for good: wall screws are its tip restraint, but the rule asks for a stability test and a label too"
                }
                false => {
                    "a free-standing piece of this size in which clothes are kept falls under 16 CFR 1261 (ASTM F2057) in the United States, which asks for a stability test, a label, and a tip restraint"
                }
            };
            lines.push(format!(
                "{}: {what}; these papers don't show that it passes",
                listed(&regulated)
            ));
        }
        lines
    }

    /// What was taken off to be carried in, as a list.
    fn comes_off(&self) -> String {
        let (doors, drawers) = self.piece.doors_and_drawers();
        let loose = self.parts.all.iter().any(|part| part.role == Role::AdjustableShelf);
        let mut named = Vec::new();
        named.extend(doors.then_some("doors"));
        named.extend(drawers.then_some("drawers"));
        named.extend(loose.then_some("shelves"));
        listed(&named)
    }

    fn has_inset(&self) -> bool {
        self.work.fronts().iter().any(|front| front.fronts.set == Set::Inset)
    }

    /// True for a case that the rule on free-standing clothing storage may hold
    /// for: 27 in high, 30 lb, and 3.2 cubic feet behind doors and in drawers (16 CFR
    /// 1261, ASTM F2057-23). What has a countertop is no clothing storage, and what has
    /// stretchers for one gets it from somebody else, unless it stands on posts or bought legs
    /// as furniture does and has several drawers or a hanging rail. What is screwed to the wall
    /// may be clothing storage with these; between walls, or in a run without such a rail, it is
    /// built in.
    fn is_regulated(&self, case: &Case) -> bool {
        let is_furniture = case.posts.is_some() || case.on_legs.is_some();
        let is_open = case.top.as_ref().is_none_or(|top| top.stretchers.is_some())
            || self.piece.top_over(case.id).is_some();
        let is_low = case.high.length < Length::inches(27, 1);
        let is_drawer = |own: &&Opening| matches!(own.kind, OpeningKind::Drawer { .. });
        let drawers = case.openings.iter().filter(is_drawer).count();
        let hangs = case.openings.iter().any(|own| own.rod.is_some());
        let keeps_clothes = drawers > 1 || hangs;
        if is_low || is_open && !(is_furniture && keeps_clothes) {
            return false;
        }
        let beside = |own: &&Case| own.id == case.id || !self.piece.stands_apart();
        let sides = self.piece.cases.iter().filter(beside).flat_map(|case| &case.exposure);
        let walled = sides.into_iter().any(|own| matches!(own, Exposure::Wall { .. }));
        let built_in = walled || case.run.is_some() && !hangs;
        let for_clothes = keeps_clothes && !built_in && case.is_on_floor();
        if self.piece.site.fixed && !for_clothes {
            return false;
        }
        let closed = case.openings.iter().filter(|opening| {
            opening.is_door() || matches!(opening.kind, OpeningKind::Drawer { .. })
        });
        let cubic_feet: f64 = closed
            .map(|opening| {
                trade::volume(opening.wide.length, opening.high.length, case.deep.length)
            })
            .sum::<f64>()
            / trade::volume(Length::inches(12, 1), Length::inches(12, 1), Length::inches(12, 1));
        let of_case = self.work.weights().lifted.iter().filter(|(own, _)| own.case() == case.id);
        let kilograms: f64 = of_case.map(|(_, body)| body.grams as f64 / 1000.0).sum();
        cubic_feet >= 3.2 && kilograms >= 13.6
    }
}
