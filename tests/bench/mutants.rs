//! How much the shop sees: one thing of one operation is changed at random, and
//! the shop must notice. What it doesn't is counted, and the count has a limit.

use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, TestRng, TestRunner};
use serde_json::{Value, json};

use super::figures::exact;
use super::{build, hand};

/// One mistake in a packet.
pub(super) struct Mistake<'a> {
    pub(super) packet: &'a mut Value,
    choices: std::vec::IntoIter<u16>,
}

pub(super) type Made = Option<String>;

impl Mistake<'_> {
    pub(super) fn below(&mut self, count: usize) -> usize {
        usize::from(self.choices.next().unwrap_or(0)) % count.max(1)
    }

    /// An operation of a kind that is fit for it.
    pub(super) fn pick(&mut self, kind: &str, fit: impl Fn(&Value) -> bool) -> Option<usize> {
        let operations = self.packet["operations"].as_array()?.iter().enumerate();
        let all: Vec<usize> = operations
            .filter(|(_, own)| own["kind"] == kind && fit(own))
            .map(|(index, _)| index)
            .collect();
        let at = self.below(all.len());
        all.get(at).copied()
    }

    pub(super) fn at(&mut self, index: usize) -> &mut Value {
        &mut self.packet["operations"][index]
    }

    /// About so many millimeters in the unit of the job.
    pub(super) fn mm(&self, millimeters: f64) -> f64 {
        if self.packet["job"]["unit"] == "in" { millimeters / 25.4 } else { millimeters }
    }

    /// More than any tolerance, to either side.
    pub(super) fn off(&mut self) -> f64 {
        let by = [1.5, -1.5, 3.0, -3.0, 6.0, -6.0][self.below(6)];
        self.mm(by)
    }

    /// The face across from another.
    fn across(&self, mark: &str, face: &str) -> Option<String> {
        let parts = self.packet["parts"].as_array()?;
        let part = parts.iter().find(|part| part["mark"] == mark)?;
        let pairs = part["faces"].as_object()?.values();
        pairs.filter_map(Value::as_array).find_map(|pair| {
            let at = pair.iter().position(|name| name == face)?;
            Some(pair[1 - at].as_str()?.to_owned())
        })
    }

    fn make(&mut self) -> Made {
        match self.below(42) {
            0 => self.set_off(),
            1 => self.one_set_off(),
            2 => self.datum(),
            3 => self.cut_face(),
            4 => self.depth(),
            5 => self.stroke(),
            6 => self.order_of_strokes(),
            7 => self.feed(),
            8 => self.tool(),
            9 => self.guide(),
            10 => self.piece(),
            11 => self.stop(),
            12 => self.center(),
            13 => self.bored_face(),
            14 => self.bored_size(),
            15 => self.span(),
            16 => self.shape_deep(),
            17 => self.shape_face(),
            18 => self.stock(),
            19 => self.mill_to(),
            20 => self.mill_part(),
            21 => self.joint(),
            22 => self.side(),
            23 => self.left_out(),
            24 => self.dropped(),
            25 => self.reading_dropped(),
            26 => self.reading_late(),
            27 => self.reading_figure(),
            28 => self.reading_limit(),
            29 => self.remedy(),
            30 => self.hung(),
            31 => self.turns(),
            32 => self.travel(),
            33 => self.moisture(),
            34 => self.strip(),
            35 => self.sheet_cut_off(),
            36 => self.sheet_cut_dropped(),
            37 => self.sheet_piece(),
            38 => self.board_cut_off(),
            39 => self.board_cut_dropped(),
            40 => self.board_piece(),
            _ => self.swapped(),
        }
    }

    fn set_off(&mut self) -> Made {
        let index = self.pick("setting", |_| true)?;
        let by = self.off();
        for set in self.at(index)["set"].as_array_mut()? {
            add(set, by);
        }
        Some(format!("{index}: the guide is off by {by}"))
    }

    fn one_set_off(&mut self) -> Made {
        let index = self.pick("setting", |_| true)?;
        let (by, count) = (self.off(), self.at(index)["set"].as_array()?.len());
        let number = self.below(count);
        add(&mut self.at(index)["set"][number], by);
        Some(format!("{index}: stroke {number} is off by {by}"))
    }

    /// Lines are cut from both sides: the datum makes no difference.
    fn datum(&mut self) -> Made {
        let index = self.pick("setting", |own| own["guide"] != "lines")?;
        let own = self.at(index).clone();
        let other = self.across(own["pieces"][0]["part"].as_str()?, own["datum"].as_str()?)?;
        self.at(index)["datum"] = other.clone().into();
        Some(format!("{index}: set from the {other}"))
    }

    fn cut_face(&mut self) -> Made {
        let index = self.pick("setting", |_| true)?;
        let own = self.at(index).clone();
        let number = self.below(own["pieces"].as_array()?.len());
        let piece = &own["pieces"][number];
        let other = self.across(piece["part"].as_str()?, piece["face"].as_str()?)?;
        self.at(index)["pieces"][number]["face"] = other.clone().into();
        Some(format!("{index}: {} is cut in its {other}", piece["part"]))
    }

    fn depth(&mut self) -> Made {
        let index = self.pick("setting", |_| true)?;
        let by = self.off();
        add(self.at(index)["depths"].as_array_mut()?.last_mut()?, by);
        Some(format!("{index}: too deep by {by}"))
    }

    fn stroke(&mut self) -> Made {
        let many = |own: &Value| own["set"].as_array().is_some_and(|set| set.len() > 1);
        let index = self.pick("setting", many)?;
        let count = self.at(index)["set"].as_array()?.len();
        let number = self.below(count);
        self.at(index)["set"].as_array_mut()?.remove(number);
        Some(format!("{index}: stroke {number} is missing"))
    }

    /// Of lines it makes no difference which comes first.
    fn order_of_strokes(&mut self) -> Made {
        let many = |own: &Value| {
            own["guide"] != "lines" && own["set"].as_array().is_some_and(|set| set.len() > 1)
        };
        let index = self.pick("setting", many)?;
        self.at(index)["set"].as_array_mut()?.reverse();
        Some(format!("{index}: the strokes the other way round"))
    }

    fn feed(&mut self) -> Made {
        let fed = |own: &Value| own["pieces"][0].get("feed").is_some();
        let index = self.pick("setting", fed)?;
        let count = self.at(index)["pieces"].as_array()?.len();
        let number = self.below(count);
        let feed = &mut self.at(index)["pieces"][number]["feed"];
        *feed = json!({"from": feed["to"], "to": feed["from"]});
        Some(format!("{index}: piece {number} is fed the other way"))
    }

    fn tool(&mut self) -> Made {
        let index = self.pick("setting", |_| true)?;
        let now = self.at(index)["tool"].clone();
        let tools = self.packet["tools"].as_array()?;
        let wide = |id: &Value| {
            let tool = tools.iter().find(|tool| tool["id"] == *id)?;
            exact(tool["diameter"]["exact"].as_str()?)
        };
        let own = wide(&now)?;
        let others: Vec<Value> = tools
            .iter()
            .map(|tool| tool["id"].clone())
            .filter(|id| wide(id).is_some_and(|other| (other - own).abs() > 0.02))
            .collect();
        let at = self.below(others.len());
        let other = others.get(at)?.clone();
        self.at(index)["tool"] = other.clone();
        Some(format!("{index}: cut with {other}"))
    }

    fn guide(&mut self) -> Made {
        let index = self.pick("setting", |own| own["guide"] != "lines")?;
        let now = self.at(index)["guide"].clone();
        let others: Vec<&str> =
            ["near", "far", "table"].into_iter().filter(|own| now != *own).collect();
        let at = self.below(others.len());
        self.at(index)["guide"] = others[at].into();
        Some(format!("{index}: a guide {} instead of {now}", others[at]))
    }

    fn piece(&mut self) -> Made {
        let index = self.pick("setting", |_| true)?;
        let count = self.at(index)["pieces"].as_array()?.len();
        let number = self.below(count);
        let gone = self.at(index)["pieces"].as_array_mut()?.remove(number);
        Some(format!("{index}: {} is left out of it", gone["part"]))
    }

    fn stop(&mut self) -> Made {
        let stopped = |own: &Value| {
            let pieces = own["pieces"].as_array().into_iter().flatten();
            pieces
                .into_iter()
                .any(|piece| piece["stops"].as_array().is_some_and(|stops| !stops.is_empty()))
        };
        let index = self.pick("setting", stopped)?;
        let by = self.mm(10.0);
        let away = self.below(2) == 0;
        let pieces = self.at(index)["pieces"].as_array_mut()?;
        let piece = pieces
            .iter_mut()
            .find(|piece| piece["stops"].as_array().is_some_and(|stops| !stops.is_empty()))?;
        let part = piece["part"].clone();
        if away {
            piece["stops"].as_array_mut()?.pop();
        } else {
            add(&mut piece["stops"][0]["short"], by);
        }
        Some(format!("{index}: a stop of {part} is wrong"))
    }

    /// What carries the base is left out, with its twin along the opposite side: one of
    /// two carries a narrow board alone.
    fn strip(&mut self) -> Made {
        let has = |piece: &Value| piece["supports"].as_array().is_some_and(|all| !all.is_empty());
        let index = self.pick("setting", |own| {
            own["pieces"].as_array().is_some_and(|pieces| pieces.iter().any(has))
        })?;
        let pieces = self.at(index)["pieces"].as_array_mut()?;
        let piece = pieces.iter_mut().find(|piece| has(piece))?;
        let part = piece["part"].clone();
        let strips = piece["supports"].as_array_mut()?;
        let gone = strips.pop()?;
        let kind = |strip: &Value| {
            let along = strip["along"].as_str()?;
            along.rsplit_once(' ').map(|(_, kind)| kind.to_owned())
        };
        strips.retain(|strip| kind(strip) != kind(&gone));
        Some(format!("{index}: {part} has no strip along its {}", gone["along"]))
    }

    fn center(&mut self) -> Made {
        let index = self.pick("bore", |_| true)?;
        let by = self.off();
        let count = self.at(index)["centers"].as_array()?.len();
        let (number, axis) = (self.below(count), self.below(2));
        if self.below(4) == 0 {
            self.at(index)["centers"].as_array_mut()?.remove(number);
            return Some(format!("{index}: hole {number} is missing"));
        }
        add(&mut self.at(index)["centers"][number][axis], by);
        Some(format!("{index}: hole {number} is off by {by}"))
    }

    fn bored_face(&mut self) -> Made {
        // A hole right through is the same from both sides.
        let index = self.pick("bore", |own| own["what"] != "pull hole")?;
        let own = self.at(index).clone();
        let other = self.across(own["part"].as_str()?, own["face"].as_str()?)?;
        self.at(index)["face"] = other.clone().into();
        Some(format!("{index}: bored in the {other}"))
    }

    fn bored_size(&mut self) -> Made {
        let index = self.pick("bore", |_| true)?;
        let by = self.off();
        let what = ["diameter", "deep"][self.below(2)];
        add(&mut self.at(index)[what], by);
        Some(format!("{index}: its {what} is off by {by}"))
    }

    fn span(&mut self) -> Made {
        let index = self.pick("shape", |_| true)?;
        let by = self.off();
        let (number, end) = (self.below(2), ["start", "end"][self.below(2)]);
        add(&mut self.at(index)["spans"][number][end], by);
        Some(format!("{index}: {end} of span {number} is off by {by}"))
    }

    fn shape_deep(&mut self) -> Made {
        // What goes right through takes no more of the board when it goes deeper.
        let index = self.pick("shape", |own| own["what"] != "notch" && own["what"] != "slot")?;
        let by = self.off();
        add(&mut self.at(index)["deep"], by);
        Some(format!("{index}: too deep by {by}"))
    }

    fn shape_face(&mut self) -> Made {
        let through = ["notch", "slot", "pocket holes"];
        let index = self.pick("shape", |own| !through.iter().any(|what| own["what"] == *what))?;
        let own = self.at(index).clone();
        let other = self.across(own["part"].as_str()?, own["face"].as_str()?)?;
        self.at(index)["face"] = other.clone().into();
        Some(format!("{index}: cut into the {other}"))
    }

    fn stock(&mut self) -> Made {
        let index = self.pick("break down", |_| true)?;
        let now = self.at(index)["stock"].clone();
        let stocks = self.packet["stocks"].as_array()?.iter();
        let others: Vec<Value> =
            stocks.map(|stock| stock["name"].clone()).filter(|name| *name != now).collect();
        let at = self.below(others.len());
        let other = others.get(at)?.clone();
        self.at(index)["stock"] = other.clone();
        Some(format!("{index}: taken from {other}"))
    }

    fn mill_to(&mut self) -> Made {
        let index = self.pick("mill", |_| true)?;
        let by = self.off();
        add(&mut self.at(index)["to"], by);
        Some(format!("{index}: milled off by {by}"))
    }

    fn mill_part(&mut self) -> Made {
        let index = self.pick("mill", |_| true)?;
        let count = self.at(index)["parts"].as_array()?.len();
        let number = self.below(count);
        let gone = self.at(index)["parts"].as_array_mut()?.remove(number);
        Some(format!("{index}: {gone} is not milled"))
    }

    fn joint(&mut self) -> Made {
        let index = self.pick("join", |_| true)?;
        let count = self.at(index)["joints"].as_array()?.len();
        let number = self.below(count);
        let joints = self.at(index)["joints"].as_array_mut()?;
        let own = joints.remove(number);
        Some(format!("{index}: joint {own} is not closed"))
    }

    fn side(&mut self) -> Made {
        let legged = |own: &Value| {
            own["moves"]
                .as_array()
                .is_some_and(|own| own.iter().any(|own| own.get("legs").is_some()))
        };
        let index = self.pick("join", legged)?;
        let moves = self.at(index)["moves"].as_array()?.clone();
        let legged: Vec<usize> =
            (0..moves.len()).filter(|number| moves[*number].get("legs").is_some()).collect();
        let number = legged[self.below(legged.len())];
        let leg = self.at(index)["moves"][number]["legs"].as_array_mut()?.last_mut()?;
        let sides = [("left", "right"), ("below", "above"), ("front", "back")];
        let now = leg["from"].as_str()?.to_owned();
        let other = sides.iter().find_map(|(one, other)| match () {
            () if now == *one => Some(*other),
            () if now == *other => Some(*one),
            () => None,
        })?;
        leg["from"] = other.into();
        Some(format!("{index}: move {number} comes from {other} instead of {now}"))
    }

    fn left_out(&mut self) -> Made {
        let index = self.pick("join", |_| true)?;
        let count = self.at(index)["moves"].as_array()?.len();
        let number = self.below(count);
        let parts = self.at(index)["moves"][number]["parts"].as_array()?.len();
        let part = self.below(parts);
        let gone = self.at(index)["moves"][number]["parts"].as_array_mut()?.remove(part);
        if parts == 1 {
            self.at(index)["moves"].as_array_mut()?.remove(number);
        }
        Some(format!("{index}: {gone} is left out"))
    }

    fn dropped(&mut self) -> Made {
        let works = ["break down", "stick", "glue up", "mill", "setting", "bore", "shape", "join"];
        let kind = works[self.below(works.len())];
        let index = self.pick(kind, |_| true)?;
        self.packet["operations"].as_array_mut()?.remove(index);
        Some(format!("{index}: it is missing, a {kind}"))
    }

    /// A cut in a sheet that frees what is not cut down later: its sheet and its place.
    fn sheet_cut(&mut self) -> Option<(usize, usize)> {
        let mut all = Vec::new();
        for (number, sheet) in self.packet["sheets"].as_array()?.iter().enumerate() {
            for (at, cut) in sheet["cuts"].as_array()?.iter().enumerate() {
                let frees = cut["gives"].as_array()?.iter().any(|own| {
                    let rough = own["rough"].as_u64();
                    rough.is_some_and(|rough| sheet["pieces"][rough as usize]["larger"] == false)
                });
                if frees {
                    all.push((number, at));
                }
            }
        }
        let at = self.below(all.len());
        all.get(at).copied()
    }

    fn sheet_cut_off(&mut self) -> Made {
        let (sheet, at) = self.sheet_cut()?;
        let by = self.off();
        add(&mut self.packet["sheets"][sheet]["cuts"][at]["off"], by);
        Some(format!("sheet {sheet}, cut {at}: off by {by}"))
    }

    fn sheet_cut_dropped(&mut self) -> Made {
        let (sheet, at) = self.sheet_cut()?;
        self.packet["sheets"][sheet]["cuts"].as_array_mut()?.remove(at);
        Some(format!("sheet {sheet}, cut {at}: it is missing"))
    }

    /// A cut in a board that frees a piece of a part, and not what lips are ripped from: its
    /// board and its place.
    fn board_cut(&mut self) -> Option<(usize, usize)> {
        let mut all = Vec::new();
        for (number, board) in self.packet["boards"].as_array()?.iter().enumerate() {
            for (at, cut) in board["cuts"].as_array()?.iter().enumerate() {
                let frees = cut["gives"].as_array()?.iter().any(|own| {
                    let rough = own["rough"].as_u64();
                    rough.is_some_and(|rough| board["pieces"][rough as usize]["lips"].is_null())
                });
                if frees {
                    all.push((number, at));
                }
            }
        }
        let at = self.below(all.len());
        all.get(at).copied()
    }

    fn board_cut_off(&mut self) -> Made {
        let (board, at) = self.board_cut()?;
        let by = self.off();
        add(&mut self.packet["boards"][board]["cuts"][at]["off"], by);
        Some(format!("board {board}, cut {at}: off by {by}"))
    }

    fn board_cut_dropped(&mut self) -> Made {
        let (board, at) = self.board_cut()?;
        self.packet["boards"][board]["cuts"].as_array_mut()?.remove(at);
        Some(format!("board {board}, cut {at}: it is missing"))
    }

    fn board_piece(&mut self) -> Made {
        let (board, at) = self.board_cut()?;
        let gone = self.packet["boards"][board]["pieces"].as_array_mut()?.pop()?;
        Some(format!("board {board}, cut {at}: nothing is for {}", gone["part"]))
    }

    /// What comes off is taken for another part.
    fn sheet_piece(&mut self) -> Made {
        let (sheet, at) = self.sheet_cut()?;
        let gone = self.packet["sheets"][sheet]["pieces"].as_array_mut()?.pop()?;
        Some(format!("sheet {sheet}, cut {at}: nothing is for {}", gone["part"]))
    }

    /// Two operations on one part, of which one needs the other.
    fn swapped(&mut self) -> Made {
        let order = [
            ("break down", "mill"),
            ("mill", "setting"),
            ("mill", "shape"),
            ("setting", "join"),
            ("shape", "join"),
        ];
        let (first, then) = order[self.below(order.len())];
        let one = self.pick(first, |_| true)?;
        let marks = marks(self.at(one));
        let shared = |own: &Value| self::marks(own).iter().any(|mark| marks.contains(mark));
        let other = self.pick(then, shared)?;
        let steps = [one, other].map(|index| self.at(index)["step"].clone());
        self.packet["operations"].as_array_mut()?.swap(one, other);
        self.at(one)["step"] = steps[0].clone();
        self.at(other)["step"] = steps[1].clone();
        Some(format!("{one}, a {first}, and {other}, a {then}, change places"))
    }
}

/// The parts that an operation speaks of.
pub(super) fn marks(operation: &Value) -> Vec<String> {
    let text = |value: &Value| value.as_str().map(str::to_owned);
    let all = |value: &Value| value.as_array().cloned().unwrap_or_default();
    let pieces = all(&operation["pieces"]).iter().filter_map(|own| text(&own["part"])).collect();
    let moves = all(&operation["moves"]);
    let moved = moves.iter().flat_map(|own| all(&own["parts"])).filter_map(|own| text(&own));
    let milled = all(&operation["parts"]);
    let milled = milled.iter().filter_map(text);
    [
        text(&operation["part"]).into_iter().collect(),
        pieces,
        moved.collect(),
        milled.collect::<Vec<_>>(),
    ]
    .concat()
}

/// A figure that is off, as exact and as printed.
pub(super) fn add(figure: &mut Value, by: f64) {
    let own = exact(figure["exact"].as_str().unwrap()).unwrap() + by;
    let millionths = (own * 1e6).round();
    figure["exact"] = format!("{millionths}/1000000").into();
    figure["print"] = format!("{own:.6}").into();
}

/// Makes so many mistakes in each packet, one at a time; returns how many there
/// were and which of them nobody noticed.
pub(super) fn unnoticed(packets: &[(String, Value)], each: usize) -> (usize, Vec<String>) {
    let rng = TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let draw = prop::collection::vec(any::<u16>(), 8);
    let (mut made, mut unnoticed) = (0, Vec::new());
    for (name, packet) in packets {
        let (mut count, sound) = (0, build(&packet.to_string()));
        // Not every kind of mistake can be made in every packet.
        for _ in 0..each * 20 {
            let mut spoiled = packet.clone();
            let choices = draw.new_tree(&mut runner).unwrap().current().into_iter();
            let Some(mistake) = (Mistake { packet: &mut spoiled, choices }).make() else {
                continue;
            };
            let report = build(&spoiled.to_string());
            // A groove in the middle is as far from either face.
            if mistake.contains(": set from the ") && report.taken == sound.taken {
                continue;
            }
            count += 1;
            if report.complaints == sound.complaints {
                unnoticed.push(format!("{name}, {mistake}"));
            }
            if count == each {
                break;
            }
        }
        made += count;
    }
    (made, unnoticed)
}

/// How many mistakes are made in each packet.
pub(super) fn each() -> usize {
    let given = std::env::var("CASEWRIGHT_MISTAKES").ok();
    given.and_then(|given| given.parse().ok()).unwrap_or(50)
}

#[test]
fn mistakes_in_packets_worked_by_hand_are_noticed() {
    let packets = [
        ("case", hand::case()),
        ("frame", hand::frame()),
        ("door", hand::door()),
        ("drawer", hand::drawer()),
    ]
    .map(|(name, packet)| (name.to_owned(), packet));
    let (made, unnoticed) = unnoticed(&packets, each());
    assert!(unnoticed.len() * 50 <= made, "{} of {made}: {unnoticed:#?}", unnoticed.len());
}
