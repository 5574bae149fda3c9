//! Sanding and finishing.

use crate::diagnostics::listed;
use crate::measure::{Duration, Exact, Tape};
use crate::model::{Finish, FinishId, Opening};
use crate::parts::{Assembly, Part, PartId, Role};
use crate::plans::finish::{self, Coat, Coated, Surface, unseen};
use crate::plans::operations::{Coating, Doing, Sand};
use crate::trade::{self, FinishGood, Sanding};

use super::{Maker, ShopTime, Task, Usual, Wait, Work, effort};

/// True for what gets its first coat before it is closed in.
fn is_finished_early(part: &Part) -> bool {
    matches!(part.role, Role::FrontPanel | Role::EndPanel(_))
}

/// What is sanded: solid wood, sheets, or both.
#[derive(Clone, Copy)]
pub(super) struct Woods {
    solid: bool,
    sheets: bool,
}

impl Woods {
    /// The grits that all of it is sanded with, and the first for the sheets where those
    /// are begun with a finer one than solid wood.
    pub(super) fn grits(self, sanding: Sanding) -> (&'static [u32], Option<u32>) {
        match (self.solid, self.sheets) {
            (false, true) => (sanding.on_sheets(), None),
            (true, true) => (sanding.grits(), Some(Sanding::VENEER)),
            (_, false) => (sanding.grits(), None),
        }
    }
}

/// How the wood is sanded.
pub(super) fn sanded(sanding: Sanding, woods: Woods) -> String {
    let then = |grits: &[u32]| {
        let grits: Vec<String> = grits.iter().map(u32::to_string).collect();
        format!("sand with {} grit", grits.join(", then "))
    };
    let (grits, sheets) = woods.grits(sanding);
    let sheets = sheets.map_or(String::new(), |first| {
        format!("; begin with {first} on sheets, since coarser grit goes through their thin veneer")
    });
    match (sanding, grits.split_last()) {
        (Sanding::LiesOn, Some((seen, rest))) => {
            format!("{}, and finish the faces that are seen with {seen}{sheets}", then(rest))
        }
        (Sanding::SoaksIn | Sanding::LiesOn, _) => format!(
            "{}, and stop there{sheets}; past {} the wood is polished and takes up too little",
            then(grits),
            Sanding::POLISHED
        ),
    }
}

/// How much a coat takes, and how it is mixed.
pub(super) fn amount(finish: &Finish, coat: &Coat, tape: &Tape) -> Vec<String> {
    let life = finish.pot_life.map_or(String::new(), |life| format!(", and use it within {life}"));
    let (Some(whole), Some(covers)) = (coat.at_hand(), coat.covers) else {
        let mix = finish.mix.map(|(a, b)| format!("mix {a} to {b}{life}"));
        let unknown = "its can says how far it goes; write it with `covers` in the spec, and this sheet says how much a coat takes".to_owned();
        return mix.into_iter().chain([unknown]).collect();
    };
    let is_written = finish.covers.is_some();
    let says = if is_written { "covers" } else { "usually covers at least" };
    let can = if finish::in_quarts(tape, is_written) { "quart" } else { "liter" };
    let takes = format!(
        "this coat takes about {}, where a {can} {says} {} and {} % stays in the brush and the rags",
        finish::measured_out(tape, whole),
        finish::covering(tape, covers, is_written),
        trade::FINISH_WASTE
    );
    let mixed = finish.mix.zip(coat.each).map(|((a, b), (one, other))| {
        let lots = match coat.lots {
            1 => "mix".to_owned(),
            lots => format!("mix it in {lots} lots, one after the other, each of"),
        };
        format!("{lots} {one} ml with {other} ml of its second part ({a} to {b}){life}")
    });
    std::iter::once(takes).chain(mixed).collect()
}

/// How a coat dries: the spec's own time goes before what is usual for its kind,
/// which the can in hand goes before again.
fn dries(finish: &Finish, kind: &FinishGood, number: u32) -> Option<String> {
    let dust = match kind.dust_dry {
        "" => String::new(),
        dust => format!("dust no longer sticks after {dust}; "),
    };
    let next = match number < finish.coats {
        true => format!("the next coat usually goes on after {}", kind.recoat),
        false if kind.cured.is_none() => return None,
        false => format!(
            "it is fully hard after {}, so put nothing wet, hot, or heavy on it before",
            kind.cured_in()
        ),
    };
    Some(format!("{dust}{next}; where the label says otherwise, go by the label"))
}

impl Maker<'_, '_> {
    /// How long the finish takes to be hard, at the least; `None` where none is used, or
    /// where it is hard when it is dry.
    pub(super) fn hard_after(&self) -> Option<Duration> {
        let used = self.finishes().iter();
        let cured = used.filter_map(|(_, own)| trade::finish_named(own.kind.slug())?.cured);
        let [least, _] = cured.max()?;
        Some(Duration::hours(Exact::int(24 * i64::from(least))))
    }

    pub(super) fn finish(&mut self, hung: &[usize]) -> usize {
        let used = self.finishes();
        let known: Vec<(FinishId, &FinishGood)> = used
            .iter()
            .filter_map(|(id, own)| Some((*id, trade::finish_named(own.kind.slug())?)))
            .collect();
        let several = used.len() > 1;
        let mut backs = self.backs();
        backs.retain(|back| !self.opened.contains_key(back));
        let has_fronts = !self.work.fronts().is_empty();
        let (mut sand, mut off) = (Vec::new(), Vec::new());
        if has_fronts {
            let (doors, drawers) = self.piece.doors_and_drawers();
            let mut named = Vec::new();
            named.extend(doors.then_some("doors"));
            named.extend(drawers.then_some("drawers"));
            named.extend(self.has_slides().then_some("slides"));
            named.extend((!self.false_front_boards().is_empty()).then_some("false fronts"));
            if named.is_empty() {
                named.push("fronts");
            }
            sand.push(format!("take off the {}, and mark each with its place", listed(&named)));
            off.extend(
                self.ids(|part| {
                    matches!(part.assembly, Assembly::Front(_) | Assembly::DrawerBox(_))
                }),
            );
        }
        if self.has_fronts_on_boxes() {
            sand.push("take each drawer front off its box, and mark the two alike: its back gets the same coats as its face, or it cups".to_owned());
        }
        if !backs.is_empty() {
            sand.push(format!(
                "take off {} too, so that brush and rag reach into every corner",
                self.marks(&backs)
            ));
            off.extend(backs);
        }
        let cured = self.piece.shop.cure;
        sand.push(format!(
            "leave a glued joint alone until it has cured {cured}, or it shows as a hollow later"
        ));
        sand.push("ease every edge that a hand touches with a few strokes of sandpaper, before the finish goes on".to_owned());
        sand.extend(self.boxes_eased());
        let kicks = self.ids(|part| part.role == Role::Kick);
        let (told, covers): (Vec<String>, Vec<Doing>) =
            kicks.iter().filter_map(|kick| self.kick_covered(*kick)).unzip();
        sand.extend(told);
        sand.push("sand with the grain and dust off".to_owned());
        sand.push("the insides were sanded before they were glued up: take off pencil marks and glue there, and no more".to_owned());
        sand.extend(self.prefinished().map(|marks| {
            format!("don't sand the faces that came with a finish, and keep every cloth with glue or grit off them; of these sand the edges only: {marks}")
        }));
        let early = self.early();
        let all = self.parts.iter().map(|(id, _)| id).filter(|id| !early.contains(id));
        let woods = self.woods(all);
        match known.as_slice() {
            [(_, only)] if !several => sand.push(sanded(only.sanding, woods)),
            many => sand.extend(many.iter().map(|(id, kind)| {
                let name = self.piece.finish(*id).map_or("", |own| own.name.as_str());
                let what = self.sorts_of(*id);
                let own = self.parts.iter().filter(|(part_id, part)| {
                    !early.contains(part_id) && finish::of_part(self.piece, part) == Some(*id)
                });
                let woods = self.woods(own.map(|(part_id, _)| part_id));
                format!("{what}, for the finish {name}: {}", sanded(kind.sanding, woods))
            })),
        }
        sand.extend(self.edges_sealed());
        if !used.is_empty() && !early.is_empty() {
            sand.push(format!(
                "leave out {}, which you sanded before their frames closed and which have a coat already",
                self.marks(&early)
            ));
        }
        let most = known.iter().map(|(_, kind)| kind.sanding).max_by_key(|own| own.grits().len());
        let most = most.unwrap_or(Sanding::SoaksIn);
        let rounds = finish::sanded(self.piece, self.parts, &early, |used, of_sheet| {
            let own = known.iter().find(|(id, _)| Some(*id) == used);
            let sanding = own.map_or(most, |(_, kind)| kind.sanding);
            if of_sheet { sanding.on_sheets().len() } else { sanding.grits().len() }
        });
        let rounds = rounds.ceil() as usize;
        let sanding = ShopTime::Sanding.times(&self.piece.shop.times, rounds);
        let sanded = self.simple(
            "Take apart and sand".into(),
            sand,
            Vec::new(),
            Work::Sand,
            vec![Usual::TakingApart.times(1), sanding],
            hung.to_vec(),
        );
        // What is glued on later, a nailer or a packer, lies where nothing is sanded flush.
        let glued = self.tasks.iter().enumerate().filter(|(_, task)| task.work == Work::Glue);
        let glued: Vec<usize> = glued.map(|(index, _)| index).collect();
        if let Some(task) = self.tasks.get_mut(sanded) {
            task.cured = glued;
            task.sands = true;
        }
        let mut sandings: Vec<(&'static [u32], Option<u32>)> = Vec::new();
        for grits in known.iter().map(|(_, kind)| woods.grits(kind.sanding)) {
            if !sandings.contains(&grits) {
                sandings.push(grits);
            }
        }
        if sandings.is_empty() {
            sandings.push((&[], None));
        }
        let mut does: Vec<Doing> = sandings
            .into_iter()
            .map(|(grits, sheets_from)| Doing::Sand(Sand { grits, sheets_from, cured }))
            .collect();
        does.splice(0..0, covers);
        if !off.is_empty() {
            does.insert(0, Doing::TakeOff(off));
        }
        self.does(sanded, does);
        let mut last = sanded;
        for (used, finish) in used {
            // What has its first coat already is not coated again before the second.
            let mut early = self.early();
            early.retain(|id| self.has_finish(*used, *id));
            let whole = self.surface(*used);
            let first = match early.as_slice() {
                [] => whole.clone(),
                early => finish::surface(self.piece, self.parts, *used, early),
            };
            last = self.one_coat(*used, finish, 1, (&first, &early), last);
            for number in 2..=finish.coats {
                last = self.one_coat(*used, finish, number, (&whole, &[]), last);
            }
        }
        let last = self.glazed(last);
        let last = self.laid_from_behind(last);
        let last = self.false_fronts_back(last);
        self.back_on(last).unwrap_or(last)
    }

    /// Which edges of drawer boxes are eased; `None` where there are none.
    fn boxes_eased(&self) -> Option<String> {
        let has_boxes = self.parts.all.iter().any(|part| part.role == Role::DrawerSide);
        has_boxes.then(|| "ease the upper edges of the drawer boxes, inside and outside, and their upright corners; leave square what stands on a slide or runs on wood, and the backs of the box fronts that false faces are screwed to".to_owned())
    }

    /// The surface of all that has a finish, what has its first coat already among it.
    fn surface(&self, finish: FinishId) -> Surface {
        self.work.surfaces().get(&finish).cloned().unwrap_or_default()
    }

    /// What has a finish, in words: `the frame and the fronts`.
    fn sorts_of(&self, finish: FinishId) -> String {
        let surface = self.surface(finish);
        let sorts = surface.sorts().map(|(sort, _)| format!("the {}", sort.word()));
        listed(&sorts.collect::<Vec<_>>())
    }

    /// The boards of false fronts that are screwed to blocks.
    fn false_front_boards(&self) -> Vec<PartId> {
        let fixed = self.fixed_fronts(true).into_iter();
        let mut fronts: Vec<PartId> =
            fixed.filter_map(|joint| Some(self.parts.joints.get(joint)?.part)).collect();
        fronts.sort_unstable();
        fronts.dedup();
        fronts
    }

    /// False fronts come back while their blocks can be reached from behind.
    fn false_fronts_back(&mut self, after: usize) -> usize {
        let fronts = self.false_front_boards();
        if fronts.is_empty() {
            return after;
        }
        let lines = vec![format!(
            "from behind, screw {} back on through the blocks, in the holes that are there",
            self.marks(&fronts)
        )];
        let efforts = vec![Usual::FalseFront.times(fronts.len())];
        let title = "Put the false fronts back".to_owned();
        self.simple(title, lines, Vec::new(), Work::Bench, efforts, vec![after])
    }

    /// True where drawers run on slides, which come off for the finish.
    pub(super) fn has_slides(&self) -> bool {
        !self.work.fitting().drawers.is_empty()
    }

    /// What some parts are made of that are sanded: a sheet that came with a finish is not.
    pub(super) fn woods(&self, ids: impl Iterator<Item = PartId>) -> Woods {
        let stocks = ids.filter_map(|id| self.piece.stock(self.parts.get(id)?.stock));
        let mut woods = Woods { solid: false, sheets: false };
        for stock in stocks.filter(|stock| !stock.is_banding()) {
            if stock.is_solid() {
                woods.solid = true;
            } else if stock.prefinished.is_none() && !stock.is_glass() {
                woods.sheets = true;
            }
        }
        woods
    }

    /// True where fronts have pulls, which go on when all else is done.
    pub(super) fn has_pulls(&self) -> bool {
        let pulled =
            |opening: &Opening| opening.front.as_ref().is_some_and(|front| front.pull.is_some());
        self.piece.cases.iter().flat_map(|case| &case.openings).any(pulled)
    }

    /// True where drawer fronts are screwed to their boxes.
    pub(super) fn has_fronts_on_boxes(&self) -> bool {
        !self.fixed_fronts(false).is_empty()
    }

    /// The faces that no coat goes on, since they lie against a wall or under a drawer.
    fn uncoated(&self, used: FinishId) -> Option<String> {
        let at = |role: fn(Role) -> bool| {
            let mut own = self.ids(|part| role(part.role) && unseen(self.piece, part).is_some());
            own.retain(|id| self.has_finish(used, *id));
            (!own.is_empty()).then(|| self.marks(&own))
        };
        let wall = at(|role| role != Role::DrawerBottom);
        let under = at(|role| role == Role::DrawerBottom);
        let wall = wall.map(|marks| format!("the wall side of {marks}"));
        let under = under.map(|marks| format!("the underside of {marks}"));
        let own: Vec<String> = [wall, under].into_iter().flatten().collect();
        (!own.is_empty()).then(|| {
            format!(
                "no coat goes on {}, and the surface does not count it: a sheet stays flat without",
                listed(&own)
            )
        })
    }

    /// What to do with bought legs, which are off by now; `None` where nothing stands on any.
    fn bought_legs_apart(&self) -> Option<String> {
        let stands = self.piece.cases.iter().any(|case| case.on_legs.is_some());
        stands.then(|| {
            "the surface does not count the bought legs: coat bare wooden ones by themselves, with each coat, before they go on, and keep it off their plates, bolts, and dowels; leave others as they came".to_owned()
        })
    }

    /// The marks of what came with a finish on its faces; `None` where nothing did.
    fn prefinished(&self) -> Option<String> {
        let own = self.ids(|part| !part.finished_faces(self.piece).is_empty());
        (!own.is_empty()).then(|| self.marks(&own))
    }

    /// What gets its first coat before it is closed in: panels, but those that came with
    /// a finish on both faces.
    pub(super) fn early(&self) -> Vec<PartId> {
        self.ids(|part| {
            let is_done = part.finished_faces(self.piece).len() == 2 || self.is_pane(part);
            is_finished_early(part) && !is_done
        })
    }

    /// One of the coats of the whole piece: what it goes on, and which parts have
    /// it already.
    fn one_coat(
        &mut self,
        used: FinishId,
        finish: &Finish,
        number: u32,
        (surface, early): (&Surface, &[PartId]),
        after: usize,
    ) -> usize {
        let tape = *self.piece.tape();
        let coat = Coat::of(finish, surface.whole());
        let (words, areas): (Vec<&str>, Vec<f64>) =
            surface.sorts().map(|(sort, each)| (sort.word(), each)).unzip();
        let (areas, whole) = finish::added(&tape, &areas);
        let sorts: Vec<String> =
            words.into_iter().zip(areas).map(|(word, area)| format!("{word} {area}")).collect();
        let beside = match early {
            [] => String::new(),
            early => format!("; {} had this coat before", self.marks(early)),
        };
        let is_on = |sort: Coated| surface.sorts().any(|(own, _)| own == sort);
        let has_fronts = is_on(Coated::Fronts);
        let counts = match (number, has_fronts, is_on(Coated::Boxes)) {
            (1, true, true) => ". It counts both faces of every front and the inside of every box",
            (1, true, false) => ". It counts both faces of every front",
            (1, false, true) => ". It counts the inside of every box",
            _ => "",
        };
        let mut lines =
            vec![format!("the surface comes to {whole}: {}{counts}{beside}", sorts.join(", "))];
        lines.extend((number == 1).then(|| self.uncoated(used)).flatten());
        if number == 1 && is_on(Coated::Cases) {
            lines.extend(self.bought_legs_apart());
        }
        lines.extend(self.prefinished().map(|marks| {
            format!("it does not count the faces that came with a finish; leave those of {marks} as they are, and wipe off what runs onto them")
        }));
        lines.extend(amount(finish, &coat, &tape));
        if finish.mix.is_some() && number == 1 {
            lines.push("wear gloves and goggles while you mix: a hardener harms skin, eyes, and lungs; mix only what you use up in its pot life".to_owned());
        }
        let kind = trade::finish_named(finish.kind.slug());
        if number > 1 {
            lines.extend(kind.and_then(|kind| kind.between).map(|grit| {
                format!("rub the last coat down with {grit} grit before this one, with a mask on against its dust, and take off every speck")
            }));
        }
        let (told, bare) = self.left_bare(used, surface).filter(|_| number == 1).unzip();
        lines.extend(told.map(str::to_owned));
        if has_fronts {
            lines.push("coat both faces of every front alike, so that it stays flat".to_owned());
        }
        // What came with a finish on both faces has it alike on both.
        let tops = self
            .ids(|part| part.role == Role::Countertop && part.finished_faces(self.piece).len() < 2);
        if !tops.is_empty() && is_on(Coated::Countertops) {
            lines.push(format!(
                "coat the underside and every edge of {} as often as its top, or it cups",
                self.marks(&tops)
            ));
        }
        lines.extend(kind.and_then(|kind| dries(finish, kind, number)));
        lines.extend(finish.notes.iter().cloned());
        let several = self.finishes().len() > 1;
        if number == 1 && several && (is_on(Coated::Frames) || is_on(Coated::Cases)) {
            lines.extend(self.masked());
        }
        let on = match several {
            true => format!(", on {}", self.sorts_of(used)),
            false => String::new(),
        };
        let title = format!("Coat {number} of {}: {}{on}", finish.coats, finish.kind.word());
        let coating = Coating {
            finish: used,
            number,
            areas: surface.sorts().collect(),
            coat,
            parts: Vec::new(),
            before: early.to_vec(),
            bare: bare.unwrap_or_default(),
        };
        self.coat(finish, title, lines, coating, vec![after])
    }

    /// What is covered up where a frame has another finish than the case that it stays on;
    /// `None` where none has.
    fn masked(&self) -> Option<String> {
        let frames = |own: &Surface| own.sorts().any(|(sort, _)| sort == Coated::Frames);
        self.work.surfaces().values().any(frames).then(|| {
            "the frame stays on its case and has another finish: lay tape along the seam between them, on the side that this finish is not for, and take it off while the last coat is still soft".to_owned()
        })
    }

    /// One coat, that cures before anything else is done to what it is on.
    pub(super) fn coat(
        &mut self,
        finish: &Finish,
        title: String,
        lines: Vec<String>,
        coating: Coating,
        after: Vec<usize>,
    ) -> usize {
        self.add(Task {
            lines,
            parts: coating.parts.clone(),
            efforts: effort::coat(coating.coat.area),
            wait: finish.cure,
            waits_for: Wait::Finish,
            does: vec![Doing::Coat(coating)],
            after,
            ..Task::new(title, Work::Finish)
        })
    }
}
