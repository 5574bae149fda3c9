//! Pieces drawn at random: whole specs, written from a row of choices. The
//! first of every list is the simplest, so that a row of zeros is a plain box
//! and shrinking leads there.

use std::collections::BTreeSet;
use std::fmt::Write as _;

mod furniture;

/// A spec, and what stands in it.
#[derive(Clone, Debug, Default)]
pub(super) struct Drawn {
    pub(super) text: String,
    /// Bases, frames, and fronts that stand in it.
    pub(super) ways: BTreeSet<&'static str>,
}

/// Writes the spec that a row of choices stands for.
pub(super) fn write(choices: &[u16]) -> Drawn {
    let mut writer = Writer {
        choices: choices.iter(),
        drawn: Drawn::default(),
        names: 0,
        metric: false,
        nests: false,
        alone: false,
        pipe: false,
        free: false,
        lower: None,
    };
    writer.spec();
    writer.drawn
}

/// How deep lists of openings nest at most, beside the outermost.
const DEPTH: usize = 3;
/// A list in one that has this depth left is the third.
const NESTED: usize = DEPTH - 1;

/// Baseboards that are lower than any base.
const BASEBOARDS: [&str; 2] = [
    "; baseboard { high 3-1/2 in; thick 3/4 in }",
    "; baseboard { high 90 mm; thick 14 mm; play 4 mm }",
];

struct Writer<'a> {
    choices: std::slice::Iter<'a, u16>,
    drawn: Drawn,
    names: usize,
    metric: bool,
    /// The first opening of each list is a list again.
    nests: bool,
    /// There is one case.
    alone: bool,
    /// A pipe comes up behind the base, and the case goes round it.
    pipe: bool,
    /// It stands free in the room.
    free: bool,
    /// How high the second case of a run is, where its top alone is in line with the first.
    lower: Option<u16>,
}

/// Where openings stand: what parts them, and how deep lists nest.
#[derive(Clone, Copy)]
struct Place {
    framed: bool,
    across: bool,
    depth: usize,
}

impl Writer<'_> {
    fn number(&mut self, below: u16) -> u16 {
        self.choices.next().copied().unwrap_or(0) % below
    }

    fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        let count = u16::try_from(all.len()).unwrap();
        all[usize::from(self.number(count))]
    }

    fn flip(&mut self) -> bool {
        self.number(2) == 1
    }

    /// The letters that are written so far, without those of the glass.
    fn written(&self) -> usize {
        let lines = self.drawn.text.split_inclusive('\n');
        let counted = lines.filter(|line| !line.contains("{ glass "));
        counted.flat_map(str::bytes).map(usize::from).sum()
    }

    fn line(&mut self, text: &str) {
        self.drawn.text.push_str(text);
        self.drawn.text.push('\n');
    }

    fn is(&mut self, what: &'static str) {
        self.drawn.ways.insert(what);
    }

    /// Now and then a round hole; that goes with another choice, so that no piece changes
    /// but by it.
    fn hole(&mut self, number: u16, text: &'static str) -> &'static str {
        let ahead = self.choices.clone().next().map_or(0, |choice| choice >> 6);
        let is_bored = ahead % 6 == 3 + number % 3;
        if is_bored {
            self.is("round hole");
        }
        if is_bored { text } else { "" }
    }

    /// A figure in the unit of the job: inches and millimeters that are about as
    /// long.
    fn either(&self, inches: &'static str, millimeters: &'static str) -> &'static str {
        if self.metric { millimeters } else { inches }
    }

    fn spec(&mut self) {
        self.metric = self.flip();
        let unit = self.either("in", "mm");
        let tape = if self.metric {
            self.one_of(&["0.5 mm", "1 mm", "0.1 mm"])
        } else {
            self.one_of(&["1/32", "1/16", "1/64"])
        };
        self.line("casework 1");
        self.line(&format!("job \"drawn\" {{ units {unit}; tape {tape} }}"));
        let base_plate = self.one_of(&["6 in", "150 mm", "7 in", "5-3/4 in"]);
        // The tool goes with another choice, so that no piece changes but by it.
        let ahead = self.choices.clone().nth(1).map_or(0, |choice| choice >> 4);
        let dadoes = match ahead % 4 {
            3 => {
                self.is("dadoes by saw");
                "; dadoes saw"
            }
            _ => "",
        };
        self.line(&format!(
            "shop {{ base-plate {base_plate}; clamps 40; open-time 40 min{dadoes} }}"
        ));
        self.stocks();
        self.hardware();
        if matches!(self.number(88), 1 | 23 | 45 | 67) {
            self.furniture();
            return;
        }
        let framed = !self.flip();
        let scribed = framed && self.number(4) == 3;
        let right = if scribed { "wall { scribe 3/4 in }" } else { "open" };
        let cases =
            self.one_of(&["a", "a", "a", "a", "a", "ab", "run", "run", "run", "run", "run", "run"]);
        self.alone = cases.len() == 1;
        if cases == "run" {
            self.run(framed, (right, scribed));
            if !self.drawn.ways.contains("run on the wall") {
                self.upper("row");
            }
            self.sheets_of_legs();
            return;
        }
        for name in cases.chars() {
            if name == 'b' && !scribed && self.like("a") {
                continue;
            }
            self.case(name, framed, scribed && cases.ends_with(name));
        }
        if !self.drawn.ways.contains("hung on the wall") {
            self.upper("a");
        }
        self.sheets_of_legs();
        let pipe = match self.pipe {
            true => "; keep-out \"pipe\" { from-left 6 in; up 0; wide 2 in; high 4 in; deep 2 in }",
            false => "",
        };
        let fixing = if self.free { "" } else { "; fixing wall" };
        let skirting = if self.pipe { "" } else { self.baseboard() };
        self.line(&format!("site {{ left open; right {right}{fixing}{pipe}{skirting} }}"));
    }

    /// A run of one case or two, with what may stand before, between, and behind them.
    fn run(&mut self, framed: bool, (right, scribed): (&str, bool)) {
        self.is("run");
        let count = if self.number(8) == 0 { 1 } else { 2 };
        let free = !scribed && self.number(5) < 2;
        let first = !free && self.flip();
        let between = if count == 2 { self.one_of(&[0, 0, 0, 0, 0, 1, 2, 2]) } else { 0 };
        let last = if scribed { 0 } else { self.number(3) };
        let left = if first { "wall { scribe 1/2 in }" } else { "open" };
        let fixing = if free { "" } else { "; fixing wall" };
        let ahead = self.choices.clone().nth(3).map_or(0, |choice| choice >> 3);
        let skirting = if free || ahead % 4 != 1 { "" } else { BASEBOARDS[0] };
        if !skirting.is_empty() {
            self.is("baseboard");
        }
        self.line(&format!("site {{ left {left}; right {right}{fixing}{skirting} }}"));
        let (high, deep) = (self.number(16) + 28, self.number(8) + 17);
        self.line(&format!("run row {{ deep {deep} in; high {high} in; stock ply"));
        // Whether it hangs goes with another choice, as that of an upper case does.
        let ahead = self.choices.clone().next().map_or(0, |choice| choice >> 5);
        let before = (self.drawn.text.clone(), self.drawn.ways.clone());
        self.base();
        // What two cases stand on together is rare enough.
        let stands = ["toe kick in the ends", "separate base"];
        let shares = count == 2 && stands.iter().any(|own| self.drawn.ways.contains(own));
        let hangs = !free && ahead.is_multiple_of(if shares { 3 } else { 2 });
        if hangs {
            (self.drawn.text, self.drawn.ways) = before;
            self.is("run on the wall");
            // Whether the second one is lower goes with the same choice.
            match count == 2 && ahead / 6 % 2 == 1 {
                true => {
                    self.is("tops in one line");
                    self.lower = Some(high - 8);
                    self.line(&format!("hung {{ top {} in; studs 3 }}", high + 30));
                }
                false => self.line("hung { up 20 in; studs 3 }"),
            }
        }
        if count == 2 && between != 1 && !hangs {
            let ways = [
                ("toe kick in the ends", "one kick over two cases"),
                ("separate base", "one base under two cases"),
            ];
            for (base, shared) in ways {
                if self.drawn.ways.contains(base) {
                    self.is(shared);
                }
            }
        }
        if free {
            self.is("covers over a run");
            // The ends of framed cases may be mitered.
            let left = ["", "cover left { stock ply }", "cover left { stock ply; edges tape }"];
            let left = if framed { "" } else { self.one_of(&left) };
            self.line(&format!("cover back {{ stock ply }}\n{left}"));
        }
        // A countertop that ends over a space has nothing under that end.
        let laid = ["", "countertop { stock maple; over 1 in }", "countertop { stock cherry }"];
        let laid = if last == 2 { "" } else { self.one_of(&laid) };
        let laid = if hangs { "" } else { laid };
        if !laid.is_empty() {
            self.is("countertop over a run");
            self.line(laid);
        }
        self.line("across {");
        let stock = self.one_of(&["", "stock ply", "stock cherry"]);
        if first {
            self.is("filler");
            self.line(&format!("filler before {{ {stock} }}"));
        }
        self.part('a', framed, scribed && count == 1, true);
        match between {
            1 => {
                self.is("space");
                self.line("space gap { takes { wide 598 mm; high 27 in }; clear 1/8 in }");
            }
            2 => {
                self.is("filler");
                self.line(&format!("filler between {{ wide 2 in; {stock} }}"));
            }
            _ => {}
        }
        if count == 2 && (scribed || !self.like("a")) {
            self.part('b', framed, scribed, true);
        }
        match last {
            1 => {
                self.is("filler");
                self.line(&format!("filler behind {{ wide 50 mm; {stock} }}"));
            }
            2 => {
                self.is("space");
                self.line("space end { takes { wide 23-1/2 in; high 26 in } }");
            }
            _ => {}
        }
        self.line("}");
        self.line("}");
    }

    /// Now and then a case stands on what is there, with its bottom down on that, or behind
    /// a rail where the wall alone holds it.
    fn upper(&mut self, on: &str) {
        if self.number(3) < 2 {
            return;
        }
        let left = self.one_of(&["", "left 3 in", "left 5 in"]);
        let (wide, high, deep) = (self.number(8) + 20, self.number(12) + 20, self.number(4) + 10);
        // Whether it hangs goes with another choice, so that no piece changes but by it.
        let ahead = self.choices.clone().next().map_or(0, |choice| choice >> 5);
        let hangs = !self.free && ahead.is_multiple_of(3);
        let place = match hangs {
            true => format!("hung {{ up 80 in; over {on}; {left} }}"),
            false => format!("on {on} {{ {left} }}"),
        };
        self.line(&format!(
            "case upper {{ {place}; wide {wide} in; deep {deep} in; high {high} in; stock ply"
        ));
        let framed = self.number(4) > 0;
        let joint = self.joint(&["dado", "dado", "pocket", "dowel"]);
        let flush = framed && self.number(3) > 0;
        self.is(match (hangs, flush) {
            (true, _) => "hung over a case",
            (false, true) => "set on a case",
            (false, false) => "screwed down on a case",
        });
        let said = if flush { "; flush" } else { "" };
        self.line(&format!("bottom {{ joint {joint}{said} }}"));
        let joint = self.joint(&["rabbet", "rabbet", "screw"]);
        self.line(&format!("back {{ stock thin; joint {joint} }}"));
        let joint = self.joint(&["rabbet", "pocket", "dowel"]);
        self.line(&format!("top {{ panel; joint {joint} }}"));
        self.line("shelves { joint dado { deep 6 mm } }");
        let list = "open above { share 1; shelf { fixed 1 } }";
        if framed {
            self.line("frame { stock maple; joint pocket; stile left { wide 45 mm }; stile right { wide 45 mm }");
            self.line(&format!(
                "rail top {{ wide 2 in }}; rail bottom {{ wide 1-1/4 in }}; down {{ {list} }} }}"
            ));
        } else {
            self.line(&format!("frame none; down {{ {list} }}"));
        }
        self.line("}");
    }

    fn base(&mut self) {
        let kind = if self.alone { self.number(3) } else { self.one_of(&[0, 1, 1, 1, 1, 2, 2, 2]) };
        match kind {
            0 if self.alone && self.number(4) > 0 => {
                self.is("hung on the wall");
                self.line("hung { up 20 in }");
            }
            0 => self.is("no base"),
            1 => {
                self.is("toe kick in the ends");
                self.line("base { toe-kick; high 4 in; set-back 3 in; cut-into ends }");
                if self.alone && self.number(4) > 0 {
                    self.is("boards around a pipe");
                    self.pipe = true;
                    self.line("around \"pipe\"");
                }
            }
            _ if self.bought_legs() => {}
            _ => {
                self.is("separate base");
                self.line("base { toe-kick; high 4 in; set-back 3 in; separate }");
            }
        }
    }

    /// Now and then cases stand on bought legs in place of a base; that goes with
    /// another choice, so that no piece changes but by it.
    fn bought_legs(&mut self) -> bool {
        let ahead = self.choices.clone().nth(2).map_or(0, |choice| choice >> 3);
        if ahead % 4 != 1 {
            return false;
        }
        self.is("bought legs");
        let leg = ["turned", "square", "round"][usize::from(ahead / 4 % 3)];
        let set_in = ["1-1/2 in", "40 mm", "3 in", "1-5/16 in"][usize::from(ahead / 12 % 4)];
        let across = 2 + ahead / 48 % 2;
        self.line(&format!("base {{ legs {leg} {{ in {set_in}; across {across} }} }}"));
        true
    }

    /// Now and then the baseboard stays behind cases that stand on something.
    fn baseboard(&mut self) -> &'static str {
        let written: usize = self.drawn.text.bytes().map(usize::from).sum();
        let stands = ["toe kick in the ends", "separate base", "bought legs"];
        let covered = self.drawn.ways.contains("cover over an end");
        if self.free || covered || !stands.iter().any(|way| self.drawn.ways.contains(way)) {
            return "";
        }
        let own = BASEBOARDS.get(written % 5).copied().unwrap_or_default();
        if !own.is_empty() {
            self.is("baseboard");
        }
        own
    }

    /// What they are, by their makers' sheets.
    fn sheets_of_legs(&mut self) {
        for (leg, sheet) in [
            ("turned", "high 6 in; wide 2-1/2 in; foot 1 in; plate { deep 1/2 in }; adjust 1/2 in"),
            ("square", "high 110 mm; wide 50 mm; foot 45 mm; bolt { bore 10 mm; deep 12 mm }"),
            ("round", "high 5 in; wide 2 in; foot 1-1/4 in; dowel { bore 1 in; deep 3/8 in }"),
        ] {
            if self.drawn.text.contains(&format!("legs {leg} ")) {
                self.line(&format!("leg {leg} {{ {sheet} }}"));
            }
        }
    }

    fn stocks(&mut self) {
        let ply = self.one_of(&[
            "plywood 3/4 in",
            "plywood 3/4 in; actual 23/32 in",
            "plywood 18 mm",
            "plywood 3/4 in; actual 18.2 mm",
            "mdf 18 mm",
        ]);
        let thin = self.one_of(&[
            "plywood 1/4 in",
            "plywood 1/4 in; actual 13/64 in",
            "plywood 6 mm; actual 5.5 mm",
            "hardboard 1/4 in",
        ]);
        let frame = self.one_of(&["3/4 in", "19 mm", "13/16 in", "20 mm"]);
        let front = self.one_of(&["3/4 in", "18 mm", "7/8 in"]);
        let side = self.one_of(&["1/2 in", "5/8 in", "15 mm"]);
        self.line(&format!("stock ply {{ {ply}; sheet {{ long 96 in; wide 48 in }} }}"));
        let more = self.other_size();
        self.line(&format!("stock thin {{ {thin}; sheet {{ long 96 in; wide 48 in }}{more} }}"));
        self.line("stock tape { banding 1/32 in }");
        self.line("stock nosing { lumber 5/4; thickness 1-1/16 in; species sugar-maple }");
        for (name, rough, thick) in
            [("maple", "5/4", frame), ("cherry", "5/4", front), ("birch", "4/4", side)]
        {
            let boards = self.boards();
            self.line(&format!(
                "stock {name} {{ lumber {rough}; thickness {thick}; species sugar-maple; sawn quarter{boards} }}"
            ));
        }
        // Glass goes by what is written so far, so that no other choice depends on it.
        let written: usize = self.written();
        let [pane, plate] = [
            ["glass 1/8 in", "glass 1/4 in", "glass 3/16 in; tempered", "glass 4 mm; mirror"],
            ["glass 1/2 in", "glass 3/8 in; tempered", "glass 10 mm; tempered", "glass 12 mm"],
        ]
        .map(|all| all[written % 4]);
        self.line(&format!("stock pane {{ {pane} }}"));
        self.line(&format!("stock plate {{ {plate} }}"));
        let panel = self.one_of(&["1/4 in", "3/8 in", "8 mm"]);
        self.line(&format!(
            "stock panel {{ lumber 4/4; thickness {panel}; species sugar-maple; sawn quarter }}"
        ));
    }

    /// The boards of the yard, and some on hand. They go by what is written so far, so that
    /// no other choice depends on them.
    /// Another size that a sheet is sold in, by what is written so far.
    fn other_size(&mut self) -> &'static str {
        let written: usize = self.written();
        let sizes = [
            "",
            "; sheet { long 60 in; wide 60 in }",
            "; sheet { long 1250 mm; wide 2500 mm; grain wide }",
        ];
        let more = sizes[written % sizes.len()];
        if !more.is_empty() {
            self.is("sheets of several sizes");
        }
        more
    }

    fn boards(&mut self) -> String {
        let written: usize = self.written();
        let yards = [
            "",
            "; boards { wide 5 in to 8 in; long 96 in to 144 in }",
            "; boards { wide 120 mm to 240 mm; long 2500 mm to 4000 mm }",
        ];
        let racks = [
            "",
            "; on-hand { long 60 in; wide 5-1/2 in; lost 0 in to 2 in; lost 31 in to 34-1/2 in }",
            "",
            "; on-hand { long 1200 mm; wide 230 mm }; on-hand { long 100 in; wide 4 in; lost 50 in to 50-1/16 in }",
        ];
        let (yard, had) = (yards[written % yards.len()], racks[written / 3 % racks.len()]);
        for (drawn, way) in [(yard, "boards of the yard"), (had, "boards on hand")] {
            if !drawn.is_empty() {
                self.is(way);
            }
        }
        format!("{yard}{had}")
    }

    fn hardware(&mut self) {
        let plate = self.one_of(&["", "plate { }"]);
        if !plate.is_empty() {
            self.is("hinge plates");
        }
        self.line(&format!("hinge cup {{ cup 35 mm; bore 12 mm; from-edge 4 mm; gap 1.5 mm; door-thickness 15 mm to 26 mm; {plate} }}"));
        // The height of the boxes goes by what is written so far, so that no piece changes but
        // by it.
        let written: usize = self.written();
        let (under, beside) =
            [("", ""), ("box-up 14 mm; ", "box-up 1/2 in; "), ("box-up 3/8 in; ", "")][written % 3];
        if !under.is_empty() {
            self.is("box at a written height");
        }
        self.line(&format!("slide under {{ undermount; length 12 in; room 12-1/2 in; box-inside opening - 42 mm; box-high opening - 22 mm; {under}notch {{ wide 35 mm; high 13 mm }} }}"));
        self.line(&format!("slide beside {{ side-mount; length 12 in; room 12-1/2 in; {beside}box-outside opening - 1 in; box-high opening - 3/4 in }}"));
        self.line("slide wood { wooden { play 1/16 in } }");
        self.line("pull knob { screw 5/32 in }");
        self.line("pull bar { centers 96 mm; screw 5 mm }");
        self.line("bit nose { round-nose 1/2 in; shank 1/2 in }");
        for (name, wide) in [
            ("narrow", "1/4 in"),
            ("five", "5 mm"),
            ("half", "1/2 in"),
            ("twelve", "12 mm"),
            ("wide", "3/4 in"),
        ] {
            let is_drawn = match name {
                "wide" => self.number(3) > 0,
                _ => self.number(3) == 1,
            };
            if is_drawn {
                self.line(&format!("bit {name} {{ straight {wide} }}"));
            }
        }
    }

    /// A joint of boards, with its depth where it has one.
    fn joint(&mut self, all: &[&'static str]) -> &'static str {
        let joint = self.one_of(all);
        match joint {
            "dado" => self.one_of(&["dado { deep 1/4 in }", "dado { deep 6 mm }", "dado"]),
            "rabbet" => self.one_of(&["rabbet { deep 3/8 in }", "rabbet { deep 9 mm }", "rabbet"]),
            "tenon" => self.one_of(&[
                "tenon { long 5/8 in; thick 1/4 in }",
                "tenon { long 15 mm; thick 6 mm }",
                "tenon { long 15 mm; thick 6 mm; set-in 10 mm }",
                "tenon { long 5/8 in; thick 1/4 in; set-in 0 }",
            ]),
            other => other,
        }
    }

    fn case(&mut self, name: char, framed: bool, scribed: bool) {
        self.part(name, framed, scribed, false);
    }

    /// Now and then the second case is like the first, mostly the other way round; that goes
    /// with another choice, so that no piece changes but by it.
    fn like(&mut self, first: &str) -> bool {
        let ahead = self.choices.clone().nth(1).map_or(0, |choice| choice >> 5);
        let way = match ahead % 6 {
            1 | 4 => "{ mirrored }",
            3 => "",
            _ => return false,
        };
        self.is(if way.is_empty() { "like another case" } else { "mirrored case" });
        let high = self.lower.map_or(String::new(), |high| format!("; high {high} in"));
        self.line(&format!("case b {{ like {first} {way}{high} }}"));
        true
    }

    /// A case by itself, or one of a run, which says what stands under it.
    fn part(&mut self, name: char, framed: bool, scribed: bool, in_run: bool) {
        let wide = self.number(30) + 30;
        self.line(&format!("case {name} {{"));
        if in_run {
            self.line(&format!("wide {wide} in"));
            if let Some(high) = self.lower.filter(|_| name == 'b') {
                self.line(&format!("high {high} in"));
            }
        } else {
            let high = self.number(16) + 28;
            let deep = self.number(8) + 17;
            self.line(&format!("wide {wide} in; deep {deep} in; high {high} in; stock ply"));
            self.base();
            if self.drawn.ways.contains("toe kick in the ends") && self.number(3) == 0 {
                self.is("leg under the bottom");
                let leg = self.one_of(&["leg { }", "leg { wide 8 in }"]);
                self.line(leg);
            }
        }
        let mut seams = [false; 2];
        if framed {
            let mitered = self.number(4);
            seams = [mitered == 1 || mitered == 3, (mitered == 2 || mitered == 3) && !scribed];
            for (side, _) in ["left", "right"].iter().zip(seams).filter(|(_, seam)| *seam) {
                self.is("mitered end");
                self.line(&format!("end {side} {{ seam miter }}"));
            }
        }
        if name == 'a' && !in_run && !seams[0] && self.number(4) == 3 {
            self.is("cover over an end");
            let edges =
                self.one_of(&["", "; edges tape", "; scribe 1 in", "; scribe 1 in; edges tape"]);
            let edges = if framed { edges.trim_end_matches("; edges tape") } else { edges };
            self.line(&format!("cover left {{ stock ply{edges} }}"));
        }
        let edges = self.one_of(&["", "; edges tape"]);
        if self.drawn.ways.contains("hung on the wall") {
            if self.number(4) > 0 {
                self.is("cover under a case");
                self.line(&format!("cover under {{ stock ply{edges} }}"));
            }
        } else if self.alone && !scribed && !self.pipe && self.number(3) == 0 {
            self.is("cover over a back");
            self.free = true;
            self.line(&format!("cover back {{ stock ply{edges} }}"));
        }
        let joint = self.joint(&["dado", "dado", "pocket", "screw", "dowel"]);
        // A cover under the case is screwed on through its bottom.
        let under = self.drawn.ways.contains("cover under a case");
        let flush = if framed && self.flip() && !under { "; flush" } else { "" };
        self.line(&format!("bottom {{ joint {joint}{flush} }}"));
        let joint = self.joint(&["rabbet", "rabbet", "screw"]);
        let hole = self.hole(0, "; hole 1-1/2 in { from-left 5 in; from-bottom 9 in }");
        self.line(&format!("back {{ stock thin; joint {joint}{hole} }}"));
        if self.flip() {
            let joint = self.joint(&["rabbet", "pocket", "screw", "dowel"]);
            self.line(&format!("top {{ panel; joint {joint} }}"));
        } else {
            let joint = self.joint(&["pocket", "pocket", "dado", "screw", "dowel"]);
            let count = self.number(2) + 2;
            self.line(&format!("top {{ stretchers {count} {{ wide 3 in }}; joint {joint} }}"));
        }
        let countertop = self.one_of(&[
            "",
            "",
            "countertop { stock cherry }",
            "countertop { stock maple; over 2 in }",
            "countertop { stock ply; over 1/2 in { front 1 in } }",
        ]);
        if !countertop.is_empty() && !in_run {
            self.is("countertop");
            let hole = self.hole(1, "; hole 2 in { from-right 7 in; from-front 9 in } }");
            let whole = countertop.strip_suffix(" }").filter(|_| !hole.is_empty());
            self.line(&whole.map_or(countertop.to_owned(), |own| format!("{own}{hole}")));
        }
        // A web frame goes into dadoes, and nothing is let into it. With dust panels it is
        // a floor like any other.
        let webs = [
            "",
            "stock maple; build web { panel-stock thin }",
            "stock cherry; build web { wide 2 in; tenon 1/2 in; panel-stock thin }",
            "stock maple; build web { wide 60 mm; tenon 9 mm; room 2 mm; panel-stock thin }",
        ];
        let web = if framed { self.one_of(&webs) } else { "" };
        let (beside, below): (&[&'static str], &[&'static str]) = match web.is_empty() {
            true => (&["dado", "pocket", "screw", "dowel"], &["dado", "pocket", "screw"]),
            false => (&["pocket", "screw"], &["dado"]),
        };
        let joint = self.joint(beside);
        self.line(&format!("partitions {{ joint {joint} }}"));
        let joint = self.joint(below);
        self.line(&format!("shelves {{ joint {joint}; {web} }}"));
        let across = self.flip();
        let word = if across { "across" } else { "down" };
        let place = Place { framed, across, depth: DEPTH };
        if framed {
            self.is("face frame");
            let joint = self.joint(&["pocket", "tenon", "dowel"]);
            self.line(&format!("frame {{ stock maple; joint {joint}"));
            for (side, seam) in ["left", "right"].iter().zip(seams) {
                let seam = if seam { "; seam miter" } else { "" };
                let wide = if scribed && *side == "right" {
                    "2-1/2 in"
                } else {
                    self.one_of(&["1-3/4 in", "2 in", "45 mm"])
                };
                self.line(&format!("stile {side} {{ wide {wide}{seam} }}"));
            }
            self.line("rail top { wide 1-1/2 in }");
            self.line("rail bottom { wide 1-3/4 in }");
        } else {
            self.is("no frame");
            self.line("frame none");
            match self.number(8) {
                0 | 1 => {}
                2..5 => {
                    self.is("banded edges");
                    self.line("edges tape");
                }
                _ => {
                    self.is("lipped edges");
                    self.line("edges nosing { thick 3/8 in }");
                }
            }
        }
        self.nests = self.number(5) > 2;
        self.line(&format!("{word} {{"));
        self.list(place);
        self.line("}");
        if framed {
            self.line("}");
        }
        self.fronts(framed);
        self.drawers();
        self.line("}");
    }

    fn fronts(&mut self, framed: bool) {
        let known = self.drawn.ways.clone();
        let fronts = ["door", "pair of doors", "drawer", "false front"];
        let has_fronts = fronts.iter().any(|front| known.contains(front));
        let set = if self.flip() {
            self.is("overlay fronts");
            match self.number(4) {
                0 | 1 if framed => "overlay { by 3/8 in }",
                0 | 1 => "overlay { by 1/4 in }",
                2 => {
                    self.is("overlay by edge");
                    "overlay { by 1/4 in; left 3/8 in; bottom 1/2 in }"
                }
                _ => {
                    self.is("overlay by the gap");
                    "overlay; gap 1/8 in"
                }
            }
        } else {
            self.is("inset fronts");
            "inset"
        };
        let pull = self.one_of(&[
            "pull knob",
            "pull bar",
            "pull knob",
            "pull bar",
            "finger { wide 3 in; deep 7/8 in }",
        ]);
        if pull.starts_with("finger") {
            self.is("finger pulls");
        }
        let build = self.build();
        let stock = if build == "build slab" { self.slab() } else { "stock cherry" };
        self.line(&format!("fronts {{ {stock}; set {set}; {build}; hinge cup; {pull} }}"));
        if !has_fronts {
            self.drawn.ways = known;
        }
    }

    /// How fronts are built.
    fn build(&mut self) -> String {
        match self.number(8) {
            0 | 1 => {
                self.is("slab fronts");
                "build slab".to_owned()
            }
            2 | 3 => {
                self.is("paneled fronts, solid panel");
                self.panel("stile 2-1/4 in; rail 2-1/4 in; panel-stock panel; groove 3/8 in; float 1/16 in")
            }
            4 | 5 => {
                self.is("paneled fronts, sheet panel");
                self.panel("stile 2 in; rail 2-1/2 in; panel-stock thin; groove 10 mm")
            }
            _ => {
                self.is("fluted fronts");
                self.one_of(&[
                    "build slab; flutes { run vertical; bit nose; deep 1/8 in; pitch 3/4 in; land 3/16 in }",
                    "build slab; flutes { run horizontal; bit nose; deep 3 mm; pitch 20 mm; stop 1 in }",
                ])
                .to_owned()
            }
        }
    }

    /// What slabs are cut from: boards, or veneered sheets whose grain runs on. It goes by what is
    /// written so far, so that no other choice depends on it.
    fn slab(&self) -> &'static str {
        let written: usize = self.written();
        let has_grain = self.drawn.text.contains("stock ply { plywood");
        if has_grain && !written.is_multiple_of(8) {
            "stock ply; in-sequence"
        } else {
            "stock cherry"
        }
    }

    /// A front of frame and panel, with tenons in its grooves alone or in mortises.
    fn panel(&mut self, sizes: &str) -> String {
        let tenon = self.one_of(&["", "", "; tenon 1-1/4 in", "; tenon 30 mm; set-in 15 mm"]);
        if !tenon.is_empty() {
            self.is("haunched tenons");
        }
        format!("build panel {{ {sizes}{tenon} }}")
    }

    /// A door of its own, with a mid rail.
    fn mid_rail(&mut self, drawn: u16) -> &'static str {
        let front = match drawn {
            1 => {
                "; front { build panel { stile 2 in; rail 2 in; bottom-rail 3 in; mid-rail { wide 2-1/2 in; from-bottom 5-1/2 in }; panel-stock panel; groove 3/8 in } }"
            }
            2 => {
                "; front { build panel { stile 2-1/4 in; rail 50 mm; mid-rail; panel-stock thin; groove 10 mm; tenon 30 mm } }"
            }
            3 => {
                "; front { build panel { stile 2-1/4 in; rail 45 mm; mid-rail { wide 40 mm }; mid-rail { wide 2 in }; panel-stock panel; groove 3/8 in; tenon 1-1/4 in; set-in 15 mm } }"
            }
            _ => return "",
        };
        self.is("mid rail");
        front
    }

    /// A door of its own, with glass.
    fn glazed(&mut self) -> &'static str {
        self.is("glazed door");
        match self.drawn.text.len() % 4 {
            0 => {
                "; front { build panel { stile 2-1/4 in; rail 2-1/4 in; panel-stock pane; groove 3/8 in } }"
            }
            1 => {
                "; front { build panel { stile 60 mm; rail 55 mm; panel-stock pane; groove 10 mm; groove-wide 7 mm; beads birch } }"
            }
            2 => {
                "; front { build panel { stile 2-1/4 in; rail 2-1/4 in; mid-rail; panel-stock pane; beads maple } }"
            }
            _ => {
                "; front { build panel { stile 2-1/4 in; rail 2 in; panel-stock pane; groove 3/8 in; room 1/8 in; tenon 1-1/4 in } }"
            }
        }
    }

    fn drawers(&mut self) {
        let joint = self.joint(&["rabbet", "dovetail", "butt"]);
        let joint = if joint.starts_with("rabbet") { "rabbet" } else { joint };
        // On wood a drawer needs a level board under it, and trays don't run on it.
        let bare = ["no board between openings", "trays behind doors", "rail with a lip"];
        let slides: &[&str] = match bare.iter().any(|way| self.drawn.ways.contains(way)) {
            true => &["under", "beside"],
            false => &["under", "beside", "wood"],
        };
        let slide = self.one_of(slides);
        if slide == "wood" {
            self.is("drawers on wood");
        }
        let groove = self.one_of(&[
            "groove { up 1/2 in; deep 1/4 in }",
            "groove { up 5/8 in; deep 6 mm; play 1 mm }",
        ]);
        let groove =
            if slide == "under" { groove.replace("1/2 in", "13 mm") } else { groove.to_owned() };
        self.line(&format!(
            "drawers {{ stock birch; bottom-stock thin; slide {slide}; {groove}; joint {joint} }}"
        ));
    }

    /// A list of openings.
    fn list(&mut self, place: Place) {
        let count = match place.framed || place.depth < DEPTH {
            true => self.number(3) + 1,
            false => self.one_of(&[1, 2, 2]),
        };
        for number in 0..count {
            if number > 0 {
                self.parting(place);
            }
            self.opening(place, number == 0);
        }
    }

    /// What stands between two openings.
    fn parting(&mut self, place: Place) {
        let word = if place.across { "stile" } else { "rail" };
        if !place.framed && self.number(24) > 0 {
            self.is("no board between openings");
            return;
        }
        if !place.framed || self.number(3) == 2 {
            if place.framed {
                self.is("divider behind a frame");
            }
            let joint = self.joint(&["dado", "pocket", "screw"]);
            let _ = writeln!(self.drawn.text, "divider {{ joint {joint} }}");
            return;
        }
        let wide = self.one_of(&["1-1/2 in", "2 in", "40 mm"]);
        let bare = place.across && self.number(6) == 5;
        let behind = match (place.across, bare) {
            (true, true) => "; partition none",
            (true, false) => "",
            (false, _) => match self.number(3) {
                1 => "; shelf",
                2 => {
                    self.is("rail with a lip");
                    "; shelf { lip 1/4 in }"
                }
                _ => "",
            },
        };
        let _ = writeln!(self.drawn.text, "{word} {{ wide {wide}{behind} }}");
    }

    fn opening(&mut self, place: Place, first: bool) {
        self.names += 1;
        let name = format!("n{}", self.names);
        let share = self.number(2) + 1;
        let size = match (first, self.number(4)) {
            (false, 1) => format!(
                "{} {}",
                if place.across { "wide" } else { "high" },
                self.either("7-1/4", "181")
            ),
            _ => format!("share {share}"),
        };
        let kinds: &[&str] = match place.depth {
            0 => &["open", "drawer", "door", "doors", "false"],
            _ if first && self.nests => &["list"],
            _ => &["open", "drawer", "list", "door", "doors", "list", "drawer", "false"],
        };
        // A false front is held at both sides, where nothing may stand without a frame.
        let kind = match self.one_of(kinds) {
            "false" if place.across && !place.framed => "open",
            kind => kind,
        };
        let shelves = match self.number(5) {
            0 if kind == "open" => {
                self.is("fixed and adjustable shelves");
                "; shelf { fixed 1; adjustable 1 }"
            }
            1 => {
                self.is("adjustable shelf");
                let glass = self.drawn.text.len().is_multiple_of(5);
                if glass {
                    self.is("glass shelf");
                }
                match self.hole(2, "x") {
                    _ if glass => "; shelf { adjustable 1; stock plate }",
                    "" => "; shelf { adjustable 1 }",
                    _ => "; shelf { adjustable 1; hole 40 mm { from-left 4 in; from-back 2 in } }",
                }
            }
            2 => {
                self.is("fixed shelf");
                "; shelf { fixed 1 }"
            }
            _ => "",
        };
        // What stands behind doors in place of shelves: away from their hinges.
        let is_door = matches!(kind, "door" | "doors");
        let drawn = if is_door { self.number(24) } else { 0 };
        let behind = is_door && drawn % 3 == 1;
        // Deeper down, most doors are too low for one.
        let mid = match drawn {
            12..16 => self.glazed(),
            _ if place.depth == DEPTH => self.mid_rail(drawn / 3),
            _ => "",
        };
        let shelves = if behind {
            let list = self.one_of(&[
                "; down { open A { share 1 }; divider { }; tray B { high 5 in }; divider { }; open C { share 1 } }",
                "; down { open A { share 1 }; divider { }; tray B { high 5 in; box { high 3 in } }; tray C { high 5 in; box { high 3 in } }; divider { }; open D { share 1 } }",
                "; down { open A { share 1 }; divider { }; drawer B { high 6 in; set-back 2-1/2 in; front { build slab } }; drawer C { high 5 in; set-back 2-1/2 in; front { build slab; pull none } }; divider { }; open D { share 1 } }",
                "; down { open A { share 1 }; divider { }; drawer B { high 5 in; set-back 2-1/2 in; front { build slab } }; divider { }; open C { share 1 } }",
                "; down { open A { share 1 }; divider { }; drawer B { high 6 in; set-back 3 in; front { build slab } }; divider { }; open C { share 1 } }",
                "; down { open A { share 1 }; divider { }; drawer B { high 5-1/2 in; set-back 3 in; front { build slab; pull none } }; divider { }; open C { share 1 } }",
                "; across { open A { share 1 }; divider { }; down { share 1; open B { share 1 }; divider { }; tray C { high 6 in; box { high 4 in } }; divider { }; open D { share 1 } } }",
            ]);
            for (word, way) in [("tray", "trays behind doors"), ("drawer", "drawer behind doors")] {
                if list.contains(word) {
                    self.is(way);
                }
            }
            if list.contains("}; drawer C") {
                self.is("no board between openings");
            }
            let mut list = list.to_owned();
            for letter in ['A', 'B', 'C', 'D'] {
                self.names += 1;
                list = list.replace(&format!(" {letter} "), &format!(" n{} ", self.names));
            }
            list
        } else {
            shelves.to_owned()
        };
        match kind {
            "list" => {
                if place.depth <= NESTED {
                    self.is("openings nested three deep");
                }
                let across = !place.across;
                let word = if across { "across" } else { "down" };
                self.line(&format!("{word} {name} {{ {size}"));
                self.list(Place { across, depth: place.depth - 1, ..place });
                self.line("}");
            }
            "open" if shelves.is_empty() && self.number(2) == 1 => {
                self.is("hanging rail");
                self.line(&format!("open {name} {{ {size}; rod }}"));
            }
            "open" => self.line(&format!("open {name} {{ {size}{shelves} }}")),
            "door" => {
                self.is("door");
                let hung = self.one_of(&["left", "right"]);
                self.line(&format!("door {name} {{ {size}; hung {hung}{shelves}{mid} }}"));
            }
            "doors" => {
                self.is("pair of doors");
                self.line(&format!("doors {name} {{ {size}{shelves}{mid} }}"));
            }
            "drawer" => {
                self.is("drawer");
                self.line(&format!("drawer {name} {{ {size} }}"));
            }
            _ => {
                self.is("false front");
                self.line(&format!("false {name} {{ {size} }}"));
            }
        }
    }
}

/// What must be seen among a hundred pieces, and often among four hundred.
pub(super) const WAYS: &[&str] = &[
    "boards of the yard",
    "boards on hand",
    "sheets of several sizes",
    "hung on the wall",
    "boards around a pipe",
    "mirrored case",
    "toe kick in the ends",
    "separate base",
    "run",
    "dadoes by saw",
    "filler",
    "face frame",
    "no frame",
    "mitered end",
    "box at a written height",
    "inset fronts",
    "overlay fronts",
    "slab fronts",
    "fluted fronts",
    "paneled fronts, solid panel",
    "paneled fronts, sheet panel",
    "haunched tenons",
    "hinge plates",
    "openings nested three deep",
    "banded edges",
    "lipped edges",
    "narrow bit",
    "wide bit",
    "adjustable shelf",
    "fixed shelf",
    "round hole",
    "door",
    "pair of doors",
    "drawer",
    "false front",
    "joint: dado",
    "joint: rabbet",
    "joint: pocket screws",
    "joint: screws",
    "joint: dowels",
    "joint: tenon",
    "joint: dovetails",
    "joint: butt",
    "joint: miter",
    "joint: floating",
    "joint: planted",
    "joint: hung",
    "joint: slid",
    "joint: laid",
    "joint: front fixed",
    "guide: near",
    "guide: far",
    "guide: table",
    "guide: lines",
];

/// What stands in fewer of them, and must be seen all the same.
pub(super) const RARER: &[&str] = &[
    "run on the wall",
    "tops in one line",
    "no base",
    "leg under the bottom",
    "like another case",
    "bought legs",
    "baseboard",
    "posts",
    "boards notched around posts",
    "drawers between posts",
    "slides between posts",
    "doors between posts",
    "shelf between posts",
    "web frame",
    "mid rail",
    "set on a case",
    "hung over a case",
    "cover over an end",
    "cover over a back",
    "cover under a case",
    "covers over a run",
    "screwed down on a case",
    "finger pulls",
    "space",
    "countertop over a run",
    "one base under two cases",
    "one kick over two cases",
    "overlay by edge",
    "overlay by the gap",
    "no board between openings",
    "divider behind a frame",
    "trays behind doors",
    "drawer behind doors",
    "hanging rail",
    "rail with a lip",
    "fixed and adjustable shelves",
    "drawers on wood",
    "fronts in sequence",
    "glazed door",
    "glass shelf",
    "joint: glazed",
    "joint: pinned",
];
