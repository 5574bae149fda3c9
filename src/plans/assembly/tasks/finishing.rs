//! Sanding and finishing.

use crate::measure::{Exact, Tape, Unit};
use crate::model::Finish;
use crate::parts::{Part, PartId, Role};
use crate::plans::finish::{self, Coat, Surface};
use crate::trade::{self, FinishGood};

use super::{Maker, Task, Wait, Work, minutes};

/// True for what gets its first coat before it is closed in.
pub(super) fn is_finished_early(part: &Part) -> bool {
    part.role == Role::FrontPanel
}

/// `7.5 m2`, in an inch job with square feet beside it.
fn area(tape: &Tape, square_meters: f64) -> String {
    match tape.unit {
        Unit::Inch | Unit::Foot => {
            format!("{square_meters:.1} m2 ({:.0} sq ft)", square_meters / 0.3048 / 0.3048)
        }
        Unit::Millimetre | Unit::Centimetre | Unit::Metre => format!("{square_meters:.1} m2"),
    }
}

/// How much a coat takes, and how it is mixed.
pub(super) fn amount(finish: &Finish, coat: &Coat) -> Vec<String> {
    let life = finish.pot_life.map_or(String::new(), |life| format!(", and use it within {life}"));
    let (Some(whole), Some(covers)) = (coat.milliliters, coat.covers) else {
        let mix = finish.mix.map(|(a, b)| format!("mix {a} to {b}{life}"));
        return mix.into_iter().collect();
    };
    let tenths = (covers * Exact::int(10)).round();
    let covers = match tenths % 10 {
        0 => (tenths / 10).to_string(),
        tenth => format!("{}.{tenth}", tenths / 10),
    };
    let whole = (whole / 10.0).ceil() as i64 * 10;
    let says = match finish.covers {
        Some(_) => "covers",
        None => "usually covers at least",
    };
    let takes = format!(
        "this coat takes about {whole} ml, where a liter {says} {covers} m2 and {} % stays in the brush and the rags",
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
        false if kind.cured.is_empty() => return None,
        false => format!(
            "it is fully hard after {}, so put nothing wet, hot, or heavy on it before",
            kind.cured
        ),
    };
    Some(format!("{dust}{next}; where the label says otherwise, go by the label"))
}

impl Maker<'_, '_> {
    pub(super) fn finish(&mut self, hung: &[usize]) -> usize {
        let used = self.finish_used();
        let known = used.and_then(|(_, finish)| trade::finish_named(finish.kind.slug()));
        let backs = self.backs();
        let has_fronts = !self.work.fronts().is_empty();
        let mut sand = Vec::new();
        if has_fronts {
            sand.push("take off the doors, drawers, and hardware".to_owned());
        }
        let packed = self.parts.all.iter().any(|part| part.role == Role::Packer);
        if !backs.is_empty() && !packed {
            sand.push(format!(
                "take off {} too, so that brush and rag reach into every corner",
                self.marks(&backs)
            ));
        }
        sand.push(format!(
            "leave a glued joint alone until it has cured {}, or it shows as a hollow later",
            self.piece.shop.cure
        ));
        sand.push("ease every edge that a hand touches with a few strokes of sandpaper, before the finish goes on".to_owned());
        sand.push("sand with the grain and dust off".to_owned());
        sand.extend(known.map(|kind| kind.grits.to_owned()));
        let sanded = self.simple(
            "Take apart and sand".into(),
            sand,
            Vec::new(),
            Work::Sand,
            minutes::SAND,
            hung.to_vec(),
        );
        let mut last = sanded;
        if let Some((used, finish)) = used {
            // What has its first coat already is not coated again before the second.
            let early = self.ids(is_finished_early);
            let first = finish::surface(self.piece, self.parts, used, &early);
            last = self.one_coat(finish, 1, (&first, &early), last);
            if finish.coats > 1 {
                let whole = finish::surface(self.piece, self.parts, used, &[]);
                for number in 2..=finish.coats {
                    last = self.one_coat(finish, number, (&whole, &[]), last);
                }
            }
        }
        let last = self.laid_from_behind(last);
        self.back_on(last).unwrap_or(last)
    }

    /// One of the coats of the whole piece: what it goes on, and which parts have
    /// it already.
    fn one_coat(
        &mut self,
        finish: &Finish,
        number: u32,
        (surface, early): (&Surface, &[PartId]),
        after: usize,
    ) -> usize {
        let tape = *self.piece.tape();
        let coat = Coat::of(finish, surface.whole());
        let sorts = surface.sorts().map(|(sort, each)| format!("{} {each:.1}", sort.word()));
        let sorts: Vec<String> = sorts.collect();
        let beside = match early {
            [] => String::new(),
            early => format!("; {} had this coat before", self.marks(early)),
        };
        let has_fronts = !self.work.fronts().is_empty();
        let counts = match number {
            1 if has_fronts => ". It counts both faces of every front and the inside of every box",
            _ => "",
        };
        let mut lines = vec![format!(
            "the surface comes to {}: {}{counts}{beside}",
            area(&tape, surface.whole()),
            sorts.join(", ")
        )];
        lines.extend(amount(finish, &coat));
        if finish.mix.is_some() && number == 1 {
            lines.push("wear gloves and goggles while you mix: a hardener harms skin, eyes, and lungs; mix only what you use up in its pot life".to_owned());
        }
        let kind = trade::finish_named(finish.kind.slug());
        if number > 1 {
            lines.extend(
                kind.map(|kind| kind.between).filter(|it| !it.is_empty()).map(str::to_owned),
            );
        }
        if has_fronts {
            lines.push("coat both faces of every front alike, so that it stays flat".to_owned());
        }
        lines.extend(kind.and_then(|kind| dries(finish, kind, number)));
        lines.extend(finish.notes.iter().cloned());
        let title = format!("Coat {number} of {}: {}", finish.coats, finish.kind.word());
        self.coat(finish, title, lines, Vec::new(), &coat, vec![after])
    }

    /// One coat, that cures before anything else is done to what it is on.
    pub(super) fn coat(
        &mut self,
        finish: &Finish,
        title: String,
        lines: Vec<String>,
        parts: Vec<PartId>,
        coat: &Coat,
        after: Vec<usize>,
    ) -> usize {
        self.add(Task {
            lines,
            parts,
            hands: coat.time,
            wait: finish.cure,
            waits_for: Wait::Finish,
            after,
            ..Task::new(title, Work::Finish)
        })
    }
}
