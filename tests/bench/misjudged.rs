//! Mistakes in what is measured and in what opens.

use serde_json::json;

use super::figures::exact;
use super::mutants::{Made, Mistake, add, marks};

impl Mistake<'_> {
    /// A reading is left out, as a whole or of one board.
    pub(super) fn reading_dropped(&mut self) -> Made {
        let index = self.pick("verify", |_| true)?;
        let count = self.at(index)["parts"].as_array().map_or(0, Vec::len);
        let number = self.below(count);
        if self.below(2) == 0 && count > 1 {
            let gone = self.at(index)["parts"].as_array_mut()?.remove(number);
            return Some(format!("{index}: {gone} is not read"));
        }
        self.packet["operations"].as_array_mut()?.remove(index);
        Some(format!("{index}: the reading is missing"))
    }

    /// It comes when the wood is sawn or the cut is made.
    pub(super) fn reading_late(&mut self) -> Made {
        let index = self.pick("verify", |own| own["what"] == "thickness")?;
        let whole = self.at(index).get("sheet").is_some();
        let first: &[&str] = if whole { &["break down", "stick"] } else { &["setting"] };
        let own_marks = marks(self.at(index));
        let operations = self.packet["operations"].as_array_mut()?;
        let place = match whole {
            true => operations.iter().rposition(|own| {
                first.iter().any(|kind| own["kind"] == *kind)
                    && marks(own).iter().any(|mark| own_marks.contains(mark))
            })?,
            false => operations.iter().rposition(|own| own["step"] == operations[index]["step"])?,
        };
        let mut own = operations.remove(index);
        own["step"] = operations[place - 1]["step"].clone();
        operations.insert(place, own);
        Some(format!("{index}: the reading comes at {place}"))
    }

    pub(super) fn reading_figure(&mut self) -> Made {
        let index = self.pick("verify", |own| own["what"] == "thickness")?;
        let by = self.off();
        if self.below(2) == 0 {
            let own = exact(self.at(index)["figure"]["exact"].as_str()?)? + by;
            self.at(index)["fine"] = format!("{own:.3}").into();
            return Some(format!("{index}: it is read {own} as printed"));
        }
        add(&mut self.at(index)["figure"], by);
        Some(format!("{index}: the reading is off by {by}"))
    }

    pub(super) fn reading_limit(&mut self) -> Made {
        let index = self.pick("verify", |own| own["what"] == "thickness")?;
        let by = [0.1, 0.4, -0.09, 2.0][self.below(4)];
        let by = self.mm(by);
        add(&mut self.at(index)["within"], by);
        Some(format!("{index}: its limit is off by {by}"))
    }

    pub(super) fn remedy(&mut self) -> Made {
        let index = self.pick("verify", |own| own["what"] == "thickness")?;
        let which = ["thicker", "thinner"][self.below(2)];
        let now = self.at(index)[which].clone();
        let others =
            ["enter as measured", "plane", "replace"].into_iter().filter(|own| now != *own);
        let others: Vec<&str> = others.collect();
        let other = others[self.below(others.len())];
        self.at(index)[which] = other.into();
        Some(format!("{index}: {which} asks to {other} instead of {now}"))
    }

    /// One of the doors, or of the drawers.
    fn opens(&mut self, what: &str) -> Option<usize> {
        let count = self.packet["opens"][what].as_array()?.len();
        let at = self.below(count);
        (at < count).then_some(at)
    }

    pub(super) fn moisture(&mut self) -> Made {
        let index = self.pick("verify", |own| own["what"] == "moisture")?;
        let what = self.below(4);
        let own = self.at(index);
        match what {
            0 => own["percent"] = "19.0".into(),
            1 => own["within"] = "4".into(),
            2 => own["otherwise"] = "plane".into(),
            _ => drop(own["stocks"].as_array_mut()?.pop()),
        }
        Some(format!("{index}: the moisture is read in another way, {what}"))
    }

    pub(super) fn hung(&mut self) -> Made {
        let index = self.opens("doors")?;
        let door = &mut self.packet["opens"]["doors"][index];
        let other = if door["hung"] == "left" { "right" } else { "left" };
        door["hung"] = other.into();
        Some(format!("door {index} is hung on its {other}"))
    }

    /// It turns about a pin inside of the piece, hardly at all, or is forgotten.
    pub(super) fn turns(&mut self) -> Made {
        let index = self.opens("doors")?;
        let what = self.below(3);
        let behind = self.mm(-60.0);
        let doors = self.packet["opens"]["doors"].as_array_mut()?;
        match what {
            0 => {
                doors[index]["about"] = "pin".into();
                doors[index]["ahead"] = json!({"exact": "0", "print": "0"});
                add(&mut doors[index]["ahead"], behind);
            }
            1 => doors[index]["opens"] = "20".into(),
            _ => drop(doors.remove(index)),
        }
        Some(format!("door {index} opens in another way, {what}"))
    }

    pub(super) fn travel(&mut self) -> Made {
        let index = self.opens("drawers")?;
        let by = [-0.8, 1.5, 4.0][self.below(3)];
        let drawers = self.packet["opens"]["drawers"].as_array_mut()?;
        let travel = &mut drawers[index]["travel"];
        let own = exact(travel["exact"].as_str()?)?;
        add(travel, own * by);
        Some(format!("drawer {index} comes out {by} farther"))
    }
}
