//! Tasks from joints. Every joint of the piece belongs to one task; a task
//! comes after those that make the things it joins.

use crate::measure::{Duration, Exact, Length, Unit};
use crate::model::{Exposure, JointKind, Piece, Side};
use crate::parts::{Assembly, Direction, FeatureKind, Joint, JointSort, Part, PartId, Parts, Role};
use crate::plans::setups;

use super::{Task, Wait, Work};

/// Hands-on minutes (common practice, no source; a maker's own will differ).
mod minutes {
    pub(super) const CUT_PART: i64 = 6;
    pub(super) const DRY_FIT: i64 = 30;
    pub(super) const JOINT: i64 = 6;
    pub(super) const BLANK: i64 = 20;
    pub(super) const FRONT: i64 = 25;
    pub(super) const BORE: i64 = 8;
    pub(super) const BOX: i64 = 25;
    pub(super) const HANG: i64 = 20;
    pub(super) const COAT: i64 = 45;
    pub(super) const SAND: i64 = 90;
    pub(super) const FIT: i64 = 180;
}

struct Maker<'a> {
    piece: &'a Piece,
    parts: &'a Parts,
    tasks: Vec<Task>,
}

/// Every task, each after those it depends on.
pub(super) fn tasks(piece: &Piece, parts: &Parts) -> Vec<Task> {
    let mut maker = Maker { piece, parts, tasks: Vec::new() };
    let cut = maker.cut();
    let blanks = maker.blanks(cut);
    let glued: Vec<PartId> = blanks
        .and_then(|index| maker.tasks.get(index))
        .map(|t| t.parts.clone())
        .unwrap_or_default();
    let routed = maker.routed("Cut the joints", cut, |id| !glued.contains(&id)).unwrap_or(cut);
    // A glued-up part gets its joints when it has cured and lies at its size.
    let routed_blanks = blanks.map(|blanks| {
        let joints =
            maker.routed("Cut the joints of the glued-up parts", blanks, |id| glued.contains(&id));
        joints.unwrap_or(blanks)
    });
    let pins = maker.pins(routed);
    let prefinished = maker.prefinish(routed);
    let mut stands = Vec::new();
    for case in 0..piece.cases.len() {
        stands.push(maker.case(case, routed, pins, prefinished));
    }
    let fronts = maker.fronts(routed, routed_blanks, prefinished);
    let boxes = maker.boxes(routed, routed_blanks);
    let hung = maker.hang(&stands, fronts, boxes);
    let finished = maker.finish(&hung);
    maker.fit(finished);
    maker.tasks
}

fn hands(minutes: i64) -> Duration {
    Duration(Exact::int(minutes))
}

impl Maker<'_> {
    fn add(&mut self, task: Task) -> usize {
        self.tasks.push(task);
        self.tasks.len() - 1
    }

    fn simple(
        &mut self,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        work: Work,
        minutes: i64,
        after: Vec<usize>,
    ) -> usize {
        self.add(Task {
            title,
            lines,
            parts,
            work,
            hands: hands(minutes),
            wait: Duration::default(),
            waits_for: Wait::None,
            clamps: 0,
            square: None,
            after,
        })
    }

    #[allow(clippy::too_many_arguments)]
    fn glue(
        &mut self,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        minutes: i64,
        clamps: u32,
        square: Option<(Length, Length)>,
        after: Vec<usize>,
    ) -> usize {
        let wait = self.piece.shop.clamp;
        self.add(Task {
            title,
            lines,
            parts,
            work: Work::Glue,
            hands: hands(minutes),
            wait,
            waits_for: Wait::Clamps,
            clamps,
            square,
            after,
        })
    }

    fn mark(&self, id: PartId) -> String {
        self.parts.get(id).map_or(String::new(), |part| part.mark.clone())
    }

    fn ids(&self, filter: impl Fn(&Part) -> bool) -> Vec<PartId> {
        self.parts.iter().filter(|(_, part)| filter(part)).map(|(id, _)| id).collect()
    }

    fn unit(&self, id: PartId) -> Option<&Assembly> {
        self.parts.get(id).map(|part| &part.assembly)
    }

    fn cut(&mut self) -> usize {
        let all = self.ids(|_| true);
        let minutes = minutes::CUT_PART * all.len() as i64;
        let lines = vec![
            "everything on the cut list, each piece marked before it leaves the saw".to_owned(),
        ];
        self.simple("Cut the parts".into(), lines, Vec::new(), Work::Machine, minutes, Vec::new())
    }

    /// Dados, grooves, rabbets and pocket holes of the parts that `own` picks;
    /// flutes are cut when the fronts are made.
    fn routed(&mut self, title: &str, after: usize, own: impl Fn(PartId) -> bool) -> Option<usize> {
        let setups = setups::plan(self.piece, self.parts);
        let mine: Vec<_> = setups
            .iter()
            .filter(|setup| !matches!(setup.kind, FeatureKind::Flute(_)))
            .filter(|setup| setup.runs.iter().any(|run| own(run.part)))
            .collect();
        let bored =
            |part: &Part| part.features.iter().any(|f| matches!(f.kind, FeatureKind::Pockets(..)));
        let pockets = self.parts.iter().filter(|(id, part)| own(*id) && bored(part)).count();
        let mut lines = Vec::new();
        if !mine.is_empty() {
            lines.push(format!("{} set-ups of the router-jig sheet, in its order", mine.len()));
        }
        if pockets > 0 {
            lines.push(format!("the pocket holes of {pockets} parts"));
        }
        if lines.is_empty() {
            return None;
        }
        let routing: i64 = mine.iter().map(|setup| setup.time.0.ceil()).sum();
        let time = routing + pockets as i64 * minutes::BORE;
        Some(self.simple(title.into(), lines, Vec::new(), Work::Router, time, vec![after]))
    }

    /// Shelf pins are bored while the boards lie flat.
    fn pins(&mut self, routed: usize) -> Option<usize> {
        let shelves: Vec<&Joint> =
            self.parts.joints.iter().filter(|j| j.sort == JointSort::Laid).collect();
        let mut boards: Vec<PartId> = shelves.iter().map(|joint| joint.into).collect();
        boards.sort_unstable();
        boards.dedup();
        if boards.is_empty() {
            return None;
        }
        let marks: Vec<String> = boards.iter().map(|id| self.mark(*id)).collect();
        let lines = vec![format!(
            "rows for the pins in {}, from one template that always stands on the bottom end",
            marks.join(", ")
        )];
        let minutes = minutes::BORE * 2 * boards.len() as i64;
        Some(self.simple(
            "Bore for the shelf pins".into(),
            lines,
            boards,
            Work::Bench,
            minutes,
            vec![routed],
        ))
    }

    /// Solid fronts wider than a board are glued up first of all.
    fn blanks(&mut self, cut: usize) -> Option<usize> {
        let wide = self.ids(|part| {
            let solid = self.piece.stock(part.stock).filter(|stock| stock.is_solid());
            let most =
                solid.and_then(|stock| stock.boards).map_or(Length::inches(6, 1), |b| b.wide.1);
            solid.is_some() && part.width.length > most
        });
        if wide.is_empty() {
            return None;
        }
        let marks: Vec<String> = wide.iter().map(|id| self.mark(*id)).collect();
        let lines = vec![
            format!("edge to edge, rings turned in turn: {}", marks.join(", ")),
            "leave them over size; to width and length only when the glue has cured".to_owned(),
        ];
        let minutes = minutes::BLANK * wide.len() as i64;
        let clamps = self.parts.get(wide[0]).map_or(3, |part| clamps_along(part.length.length));
        let mut task = Task {
            title: "Glue up the wide blanks".into(),
            lines,
            parts: wide,
            work: Work::Glue,
            hands: hands(minutes),
            wait: self.piece.shop.cure,
            waits_for: Wait::Clamps,
            clamps,
            square: None,
            after: vec![cut],
        };
        task.wait.0 = task.wait.0.max(self.piece.shop.clamp.0);
        Some(self.add(task))
    }

    /// What can't be reached once it is in its groove or rabbet.
    fn prefinish(&mut self, routed: usize) -> Option<usize> {
        let finish = self
            .piece
            .cases
            .iter()
            .find_map(|case| case.finish)
            .and_then(|f| self.piece.finishes.get(f))?;
        let hidden = self.ids(|part| matches!(part.role, Role::FrontPanel | Role::Back));
        if hidden.is_empty() {
            return None;
        }
        let marks: Vec<String> = hidden.iter().map(|id| self.mark(*id)).collect();
        let lines = vec![format!(
            "first coat of {} on {}, edges too: unfinished wood would show when a panel shrinks",
            finish.kind.word(),
            marks.join(", ")
        )];
        let (wait, name) = (finish.cure, Wait::Finish);
        Some(self.add(Task {
            title: "Finish what can't be reached later".into(),
            lines,
            parts: hidden,
            work: Work::Finish,
            hands: hands(minutes::COAT),
            wait,
            waits_for: name,
            clamps: 0,
            square: None,
            after: vec![routed],
        }))
    }

    /// Frame, base and carcass of one case; the task after which it stands.
    fn case(
        &mut self,
        index: usize,
        routed: usize,
        pins: Option<usize>,
        prefinished: Option<usize>,
    ) -> usize {
        let name = self.piece.cases.get(index).map_or(String::new(), |case| case.name.clone());
        let frame =
            self.unit_glue(&Assembly::Frame(index), &format!("face frame of {name}"), vec![routed]);
        let base = self.unit_glue(&Assembly::Base(index), &format!("base of {name}"), vec![routed]);
        let mut before = vec![routed];
        before.extend(pins);
        let carcass =
            self.unit_glue(&Assembly::Carcass(index), &format!("carcass of {name}"), before);
        let mut stands = carcass.unwrap_or(routed);
        stands = self.planted(index, stands, base, prefinished);
        self.frame_on(index, stands, frame)
    }

    /// A glue-up of everything whose wood joints lie within one unit.
    fn unit_glue(&mut self, unit: &Assembly, what: &str, after: Vec<usize>) -> Option<usize> {
        let joints: Vec<&Joint> = self
            .parts
            .joints
            .iter()
            .filter(|joint| matches!(joint.sort, JointSort::Wood(_)))
            .filter(|joint| {
                self.unit(joint.part) == Some(unit) && self.unit(joint.into) == Some(unit)
            })
            .collect();
        if joints.is_empty() {
            return None;
        }
        let mut lines = self.joint_lines(&joints);
        if matches!(unit, Assembly::Frame(_)) {
            // Inner members can't be reached once the outer stiles are on.
            lines.reverse();
            lines
                .push("from the inside out: inner members first, the outer stiles last".to_owned());
        }
        let mut parts: Vec<PartId> =
            joints.iter().flat_map(|joint| [joint.part, joint.into]).collect();
        parts.sort_unstable();
        parts.dedup();
        let square = self.outline(&parts, unit);
        let clamps = self.clamps(&joints);
        let dry = vec!["no glue: every joint closes by hand, the diagonals agree, the clamps are set and lie ready".to_owned()];
        let dry = self.simple(
            format!("Dry-fit the {what}"),
            dry,
            parts.clone(),
            Work::Bench,
            minutes::DRY_FIT,
            after,
        );
        let minutes = minutes::JOINT * joints.len() as i64;
        Some(self.glue(
            format!("Glue up the {what}"),
            lines,
            parts,
            minutes,
            clamps,
            square,
            vec![dry],
        ))
    }

    /// `B into LE and RE, dado`: a line for each part that is let in.
    fn joint_lines(&self, joints: &[&Joint]) -> Vec<String> {
        let mut order: Vec<PartId> = Vec::new();
        for joint in joints {
            if !order.contains(&joint.part) {
                order.push(joint.part);
            }
        }
        order
            .into_iter()
            .map(|part| {
                let own: Vec<&&Joint> = joints.iter().filter(|joint| joint.part == part).collect();
                let mut hosts: Vec<String> =
                    own.iter().map(|joint| self.mark(joint.into)).collect();
                hosts.dedup();
                let how = own.first().map_or("", |joint| match joint.sort {
                    JointSort::Wood(kind) => kind.word(),
                    _ => "",
                });
                let glue = if own.iter().any(|joint| joint.glued) { "glued" } else { "no glue" };
                let verb = match own.first().map(|joint| joint.sort) {
                    Some(JointSort::Wood(
                        JointKind::Dado | JointKind::Rabbet | JointKind::Tenon,
                    )) => "into",
                    _ => "to",
                };
                format!("{} {verb} {}: {how}, {glue}", self.mark(part), hosts.join(" and "))
            })
            .collect()
    }

    /// The rectangle over all of a unit, in the plane that its diagonals are
    /// measured in.
    fn outline(&self, parts: &[PartId], unit: &Assembly) -> Option<(Length, Length)> {
        let (a, b) = match unit {
            Assembly::Base(_) | Assembly::DrawerBox(_) => (Direction::X, Direction::Z),
            _ => (Direction::X, Direction::Y),
        };
        let reach = |direction| {
            let all = parts
                .iter()
                .filter_map(|id| self.parts.get(*id))
                .map(|part| part.extent(direction));
            let (from, to): (Vec<Length>, Vec<Length>) = all.unzip();
            Some(to.into_iter().max()? - from.into_iter().min()?)
        };
        Some((reach(a)?, reach(b)?))
    }

    fn clamps(&self, joints: &[&Joint]) -> u32 {
        let clamped = joints.iter().filter(|joint| {
            !matches!(joint.sort, JointSort::Wood(JointKind::Pocket | JointKind::Screw))
        });
        let mut hosts: Vec<PartId> = clamped.map(|joint| joint.part).collect();
        hosts.dedup();
        // Screws hold what they hold; everything else takes a pair of clamps a part.
        (hosts.len() as u32 * 2).max(2)
    }

    /// Base, kick board, legs and back: fixed to the carcass once it is square.
    fn planted(
        &mut self,
        index: usize,
        carcass: usize,
        base: Option<usize>,
        prefinished: Option<usize>,
    ) -> usize {
        let own: Vec<Joint> = self
            .parts
            .joints
            .iter()
            .filter(|joint| joint.sort == JointSort::Planted)
            .filter(|joint| self.parts.get(joint.part).is_some_and(|part| part.case == index))
            .cloned()
            .collect();
        let mut last = carcass;
        for (role, title) in [
            (Role::Bottom, "Set the carcass on its base"),
            (Role::Kick, "Fix the kick board"),
            (Role::Leg, "Set the legs under the bottom"),
            (Role::Back, "Fix the back"),
        ] {
            let joints: Vec<&Joint> = own
                .iter()
                .filter(|joint| self.parts.get(joint.part).is_some_and(|part| part.role == role))
                .collect();
            if joints.is_empty() {
                continue;
            }
            let mut parts: Vec<PartId> = joints.iter().map(|joint| joint.part).collect();
            parts.sort_unstable();
            parts.dedup();
            let mut after = vec![last];
            let mut lines = Vec::new();
            let marks: Vec<String> = parts.iter().map(|id| self.mark(*id)).collect();
            match role {
                Role::Bottom => {
                    after.extend(base);
                    lines.push(
                        "screwed from inside, no glue, so that it comes apart for the stairs"
                            .to_owned(),
                    );
                }
                Role::Back => {
                    after.extend(prefinished);
                    lines.push(format!("{}: square the case with it, then pins or screws every 6 in or 150 mm, no glue", marks.join(", ")));
                }
                Role::Kick => lines.push(format!(
                    "{} across both notches, glued and screwed; leave it long at a wall",
                    marks.join(", ")
                )),
                _ => lines.push(format!("{} glued and screwed from above", marks.join(", "))),
            }
            let minutes = minutes::JOINT * 3 * parts.len() as i64;
            last = self.simple(title.to_owned(), lines, parts, Work::Bench, minutes, after);
        }
        last
    }

    /// The frame goes on last: it squares the front and hides every edge.
    fn frame_on(&mut self, index: usize, stands: usize, frame: Option<usize>) -> usize {
        let crossing: Vec<Joint> = self
            .parts
            .joints
            .iter()
            .filter(|joint| self.unit(joint.part) == Some(&Assembly::Frame(index)))
            .filter(|joint| self.unit(joint.into) == Some(&Assembly::Carcass(index)))
            .cloned()
            .collect();
        let Some(frame) = frame.filter(|_| !crossing.is_empty()) else { return stands };
        let mut lines = Vec::new();
        for joint in &crossing {
            let (stile, end) = (self.mark(joint.part), self.mark(joint.into));
            lines.push(match joint.sort {
                JointSort::Mitre => format!("{stile} to {end}: mitred seam, taped outside and folded shut; it must close before the rest is clamped"),
                _ => format!("{stile} to {end}: glued flush or over it, as drawn"),
            });
        }
        let parts = crossing.iter().map(|joint| joint.part).collect();
        let case = self.piece.cases.get(index);
        let around =
            case.map_or(Length::ZERO, |case| (case.wide.length + case.high.length).twice());
        let clamps = clamps_along(around);
        let square =
            case.map(|case| (case.wide.length, case.high.length - case.base_high().length));
        let name = case.map_or("", |case| case.name.as_str()).to_owned();
        self.glue(
            format!("Glue the face frame to the carcass of {name}"),
            lines,
            parts,
            40,
            clamps,
            square,
            vec![stands, frame],
        )
    }

    /// Fronts: framed ones glued up, then all to size, fluted and bored.
    fn fronts(
        &mut self,
        routed: usize,
        blanks: Option<usize>,
        prefinished: Option<usize>,
    ) -> Option<usize> {
        let mut units: Vec<Assembly> = self
            .parts
            .all
            .iter()
            .map(|part| part.assembly.clone())
            .filter(|unit| matches!(unit, Assembly::Front(_)))
            .collect();
        units.dedup();
        if units.is_empty() {
            return None;
        }
        let mut before = vec![routed];
        before.extend(blanks);
        let mut glued = Vec::new();
        for unit in &units {
            let Assembly::Front(path) = unit else { continue };
            let parts = self.ids(|part| part.assembly == *unit);
            if parts.len() < 2 {
                continue;
            }
            let joints: Vec<&Joint> = self
                .parts
                .joints
                .iter()
                .filter(|joint| {
                    matches!(joint.sort, JointSort::Wood(_)) && self.unit(joint.part) == Some(unit)
                })
                .collect();
            let mut lines = self.joint_lines(&joints);
            lines.push("no glue in the panel's grooves: it must move".to_owned());
            let square = self.outline(&parts, unit);
            let mut after = before.clone();
            after.extend(prefinished);
            glued.push(self.glue(
                format!("Glue up {path}"),
                lines,
                parts,
                minutes::FRONT,
                4,
                square,
                after,
            ));
        }
        let all = self.ids(|part| matches!(part.assembly, Assembly::Front(_)));
        let has = |kind: fn(&FeatureKind) -> bool| {
            self.parts.all.iter().any(|part| part.features.iter().any(|f| kind(&f.kind)))
        };
        let mut lines = vec![
            "to length and width with a shaving left on: each is planed to its own opening when it is hung".to_owned(),
        ];
        if has(|kind| matches!(kind, FeatureKind::Flute(_))) {
            lines.push("flutes, from the set-up sheet, before any hole is bored".to_owned());
        }
        if has(|kind| matches!(kind, FeatureKind::Bore(_))) {
            lines.push("hinge cups and pull holes, from a template that stands on the same end of every front".to_owned());
        }
        let flutes: i64 = setups::plan(self.piece, self.parts)
            .iter()
            .filter(|s| matches!(s.kind, FeatureKind::Flute(_)))
            .map(|s| s.time.0.ceil())
            .sum();
        let minutes = minutes::FRONT * units.len() as i64 + flutes;
        before.extend(glued);
        Some(self.simple("Make the fronts".into(), lines, all, Work::Router, minutes, before))
    }

    fn boxes(&mut self, routed: usize, blanks: Option<usize>) -> Option<usize> {
        let mut units: Vec<Assembly> = self
            .parts
            .all
            .iter()
            .map(|part| part.assembly.clone())
            .filter(|unit| matches!(unit, Assembly::DrawerBox(_)))
            .collect();
        units.dedup();
        let mut last = None;
        for unit in &units {
            let Assembly::DrawerBox(path) = unit else { continue };
            let parts = self.ids(|part| part.assembly == *unit);
            let joints: Vec<&Joint> = self
                .parts
                .joints
                .iter()
                .filter(|joint| {
                    matches!(joint.sort, JointSort::Wood(_)) && self.unit(joint.part) == Some(unit)
                })
                .collect();
            let mut lines = self.joint_lines(&joints);
            lines.push("the bottom goes in dry with the corners; it squares the box".to_owned());
            let square = self.outline(&parts, unit);
            let mut after = vec![routed];
            after.extend(blanks);
            after.extend(last);
            last = Some(self.glue(
                format!("Glue up the drawer box of {path}"),
                lines,
                parts,
                minutes::BOX,
                4,
                square,
                after,
            ));
        }
        last
    }

    /// Doors, slides, drawers and their fronts; the tasks after which all hangs.
    fn hang(
        &mut self,
        stands: &[usize],
        fronts: Option<usize>,
        boxes: Option<usize>,
    ) -> Vec<usize> {
        let mut done = stands.to_vec();
        let count = |sort: JointSort| {
            self.parts.joints.iter().filter(|joint| joint.sort == sort).count() as i64
        };
        let (hung, slid) = (count(JointSort::Hung), count(JointSort::Slid) / 2);
        if slid > 0 {
            let packers = self.ids(|part| part.role == Role::Packer);
            let mut lines = Vec::new();
            if !packers.is_empty() {
                let marks: Vec<String> = packers.iter().map(|id| self.mark(*id)).collect();
                lines.push(format!(
                    "packers first, so that the slides stand flush with their openings: {}",
                    marks.join(", ")
                ));
            }
            lines.push("slides level and parallel, as their maker's sheet says; then the boxes; then each front planed to its own opening, shimmed to its gap and screwed to its box".to_owned());
            let mut after = stands.to_vec();
            after.extend(boxes);
            after.extend(fronts);
            done.push(self.simple(
                "Fit slides, drawers and their fronts".into(),
                lines,
                packers,
                Work::Bench,
                minutes::HANG * 2 * slid,
                after,
            ));
        }
        if hung > 0 {
            let mut after = stands.to_vec();
            after.extend(fronts);
            let lines = vec![
                "plane every door to its own opening as it came out, hang it, set its gaps with shims, then mark each leaf and hinge"
                    .to_owned(),
            ];
            done.push(self.simple(
                "Hang the doors".into(),
                lines,
                Vec::new(),
                Work::Bench,
                minutes::HANG * hung,
                after,
            ));
        }
        if hung == 0 && slid == 0 {
            done.extend(fronts);
        }
        done
    }

    fn finish(&mut self, hung: &[usize]) -> usize {
        let sand = vec![
            "take doors, drawers and hardware off again; sand, break every sharp edge, dust off"
                .to_owned(),
        ];
        let sanded = self.simple(
            "Take apart and sand".into(),
            sand,
            Vec::new(),
            Work::Machine,
            minutes::SAND,
            hung.to_vec(),
        );
        let mut last = sanded;
        let finish = self
            .piece
            .cases
            .iter()
            .find_map(|case| case.finish)
            .and_then(|f| self.piece.finishes.get(f))
            .cloned();
        if let Some(finish) = finish {
            for coat in 1..=finish.coats.min(12) {
                let mut lines = Vec::new();
                if let Some((a, b)) = finish.mix {
                    let life = finish
                        .pot_life
                        .map_or(String::new(), |life| format!(", use it within {life}"));
                    lines.push(format!("mix {a} to {b}{life}"));
                }
                if let Some(covers) = finish.covers {
                    let tenths = (covers * Exact::int(10)).round();
                    lines.push(format!("a litre covers {}.{} m2", tenths / 10, tenths % 10));
                }
                lines.push("both faces of every front alike, so that it stays flat".to_owned());
                lines.extend(finish.notes.iter().cloned());
                last = self.add(Task {
                    title: format!("Coat {coat} of {}: {}", finish.coats, finish.kind.word()),
                    lines,
                    parts: Vec::new(),
                    work: Work::Finish,
                    hands: hands(minutes::COAT),
                    wait: finish.cure,
                    waits_for: Wait::Finish,
                    clamps: 0,
                    square: None,
                    after: vec![last],
                });
            }
        }
        let lines = vec!["doors, drawers, shelves and pulls back to where they were marked; check every gap once more".to_owned()];
        self.simple(
            "Put together".into(),
            lines,
            Vec::new(),
            Work::Bench,
            minutes::SAND,
            vec![last],
        )
    }

    fn fit(&mut self, finished: usize) {
        let mut lines = Vec::new();
        for case in &self.piece.cases {
            for side in Side::BOTH {
                if let Exposure::Wall { scribe } = side.of(&case.exposure)
                    && scribe.length.is_positive()
                {
                    let tape = self.piece.tape();
                    lines.push(format!(
                        "plane the {} stile of {} to the wall: up to {} of it is scribe",
                        side.word(),
                        case.name,
                        tape.text(scribe.length)
                    ));
                }
            }
        }
        for keep_out in &self.piece.site.keep_outs {
            lines.push(format!(
                "measure the {} where it really is, and cut the back round it",
                keep_out.name
            ));
        }
        lines.push(
            "level on shims, then screw to the studs or to fixings that suit the wall".to_owned(),
        );
        self.simple(
            "Fit it in the house".into(),
            lines,
            Vec::new(),
            Work::Fit,
            minutes::FIT,
            vec![finished],
        );
    }
}

/// A clamp every 8 in or 200 mm along a seam (common practice, no source).
fn clamps_along(length: Length) -> u32 {
    u32::try_from((length.in_unit(Unit::Inch) / 8.into()).ceil().clamp(2, 200)).unwrap_or(2)
}
