//! Where each notch lies, and how large it is; and the rabbets for glass.

use crate::measure::Length;
use crate::model::CutRound;
use crate::papers;
use crate::parts::{self, Assembly, Direction};
use crate::vocabulary::words;

use super::Sum;
use super::cuts::Cut;

impl Cut<'_, '_> {
    /// A rabbet for glass is as wide as the grooves are deep.
    pub(super) fn glazing(&self) -> Vec<Sum> {
        let wide = self.feature.v.1 - self.feature.v.0;
        let told = self.tell.custom(wide, "width of the rabbet", "as the grooves are deep");
        let how = "what lies behind the groove, and the groove";
        let deep = self.tell.custom(self.feature.deep, "depth of the rabbet", how);
        vec![self.sum("wide", wide, &told), self.sum("deep", self.feature.deep, &deep)]
    }

    /// A notch for a runner has the figures of its slide.
    pub(super) fn notch(&self) -> Vec<Sum> {
        let feature = self.feature;
        let front = self.part.opening().and_then(|opening| self.tell.piece.opening(opening));
        let finger = front.and_then(|opening| opening.front.as_ref()?.finger.as_ref());
        if let Some(finger) = finger.filter(|finger| finger.span == feature.span) {
            return vec![
                self.sum("long", finger.wide.length, &finger.wide),
                self.sum("deep", finger.deep.length, &finger.deep),
            ];
        }
        let slide = self.tell.piece.slides.iter().find(|slide| slide.span == feature.span);
        let given = slide.and_then(|slide| Some((slide, slide.hardware()?.notch?)));
        if let Some((slide, (wide, high))) = given {
            use words::notch::{BLOCK, HIGH, WIDE};
            let at = Some(slide.span);
            let name = format!("notch of {}", slide.name);
            let wide = self.tell.fact(wide, &name, self.tell.origin(&BLOCK, WIDE, at));
            let high = self.tell.fact(high, &name, self.tell.origin(&BLOCK, HIGH, at));
            return vec![
                self.sum("long", feature.u.1 - feature.u.0, &wide),
                self.sum("wide", feature.v.1 - feature.v.0, &high),
            ];
        }
        if let Some(sums) = self.at_baseboard() {
            return sums;
        }
        // A drawer is cut out round what stands in its way.
        let is_boxed = matches!(self.part.assembly, Assembly::DrawerBox(_));
        let round = front
            .filter(|_| is_boxed)
            .and_then(|opening| opening.around().iter().find(|round| round.span == feature.span));
        let side = |what: &str, (from, to): (Length, Length), v: bool| match round {
            Some(round) => self.round(what, to - from, round),
            None => self.between(what, (from, to), v),
        };
        let mut sums = vec![side("long", feature.u, false), side("wide", feature.v, true)];
        let (end, inset) = papers::notch_end(self.part, feature);
        if inset.is_positive() {
            let how = match round {
                Some(_) => "to where what stands there, and the room round it, begins",
                None => "to where the notch begins",
            };
            let known = self.off_face(end, feature.u.0, feature.u.1);
            let known = match round.is_some() || known.terms().is_empty() {
                true => self.tell.custom(inset, "set back", how),
                false => known,
            };
            let word = format!("set back at the {}", self.part.face_name(end));
            sums.push(self.sum(&word, inset, &known));
        }
        sums
    }

    /// The notch for a baseboard: as high and as deep as that is, with its play.
    fn at_baseboard(&self) -> Option<Vec<Sum>> {
        let (piece, feature) = (self.tell.piece, self.feature);
        piece.site.baseboard.as_ref().filter(|own| own.span == feature.span)?;
        let case = piece.case(self.part.case)?;
        let [up, out] = parts::baseboard_notch(piece, case, self.part)?;
        let upright = self.part.placement.length == Direction::Y;
        let [long, wide] = if upright { [up, out] } else { [out, up] };
        Some(vec![
            self.sum("long", feature.u.1 - feature.u.0, &long),
            self.sum("wide", feature.v.1 - feature.v.0, &wide),
        ])
    }

    /// The side of a notch round a keep-out: the keep-out and what it stays clear of it on
    /// both sides, or as far as it reaches into the board.
    fn round(&self, what: &str, long: Length, round: &CutRound) -> Sum {
        let piece = self.tell.piece;
        let clear = piece.clear_of(round);
        let keep_out = piece.site.keep_outs.get(round.keep_out.0);
        let name = keep_out.map_or("", |own| own.name.as_str());
        let usual = match keep_out.is_some_and(|own| own.hot) {
            true => "of what is hot or moves",
            false => "of what is neither hot nor moves",
        };
        let told = self.tell.tape.text(clear);
        let known = match round.clear {
            Some(_) => self.tell.written(clear, round.span, "clear"),
            None => {
                let how = format!("{told} clear {usual} (common practice, no source)");
                self.tell.custom(clear, "clear", how)
            }
        };
        let wide = keep_out.filter(|own| own.wide + clear.twice() == long);
        match wide {
            Some(own) => {
                let wide = self.tell.written(own.wide, own.span, &format!("width of {name}"));
                self.sum(what, long, &(wide + &known + &known))
            }
            None => {
                let how = format!(
                    "as far as {name} reaches into the board, and {told} clear of it{}",
                    if round.clear.is_some() { "" } else { " (common practice, no source)" }
                );
                self.sum(what, long, &self.tell.custom(long, "notch", how))
            }
        }
    }
}
