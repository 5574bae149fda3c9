//! Packets worked by hand, in millimeters with a tape of 0.5: two ends and a
//! bottom; a face frame that wraps a corner; a door; a drawer. The rules they
//! follow are the trade's: guides and the order of strokes as a router manual
//! and a woodworking magazine have them (see `strokes`), the rest common
//! practice, no source.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::gates::Stop;
use super::{build, build_of, off};

/// A figure as the packet has it.
pub(super) fn mm(figure: f64) -> Value {
    json!({"exact": format!("{}/10", (figure * 10.0).round()), "print": figure.to_string()})
}

pub(super) fn all<const N: usize>(figures: [f64; N]) -> Value {
    figures.map(mm).to_vec().into()
}

/// A packet in the making.
pub(super) struct Work {
    parts: Vec<Value>,
    drawn: Vec<Value>,
    joints: Vec<Value>,
    operations: Vec<Value>,
    layout: Vec<Value>,
    opens: Value,
    step: u32,
}

/// The six faces of a part: along its length, width, and thickness.
type Faces = [&'static str; 6];

const ACROSS: Faces = ["left end", "right end", "bottom edge", "top edge", "front", "back"];
const STANDING: Faces = ["bottom end", "top end", "left edge", "right edge", "front", "back"];
const LYING: Faces = ["left end", "right end", "front edge", "back edge", "underside", "top"];
const LEFT_END: Faces = ["bottom end", "top end", "front edge", "back edge", "outside", "inside"];
const RIGHT_END: Faces = ["bottom end", "top end", "front edge", "back edge", "inside", "outside"];

fn span(from: &str, start: f64, end: f64) -> Value {
    json!({"from": from, "start": mm(start), "end": mm(end)})
}

fn feature(kind: &str, face: &str, from: [f64; 3], to: [f64; 3]) -> Value {
    json!({"kind": kind, "face": face, "from": all(from), "to": all(to)})
}

impl Work {
    fn new() -> Self {
        let (parts, drawn, joints, operations, layout) = Default::default();
        let opens = json!({"doors": [], "drawers": []});
        Self { parts, drawn, joints, operations, layout, opens, step: 1 }
    }

    #[allow(clippy::too_many_arguments, reason = "a line of a cut list has as many columns")]
    fn part(
        &mut self,
        mark: &str,
        stock: &str,
        faces: Faces,
        size: [f64; 3],
        at: [f64; 3],
        axes: [&str; 3],
        features: Vec<Value>,
    ) {
        let [a, b, c, d, e, f] = faces;
        self.parts.push(json!({
            "mark": mark, "name": format!("part {mark}"), "path": mark, "stock": stock,
            "grain": "length", "from": [[], [], []],
            "faces": {"length": [a, b], "width": [c, d], "thickness": [e, f]},
            "spec": 0,
        }));
        self.drawn.push(json!({
            "mark": mark, "size": all(size), "at": all(at), "axes": axes, "features": features,
        }));
    }

    fn joint(&mut self, kind: &str, part: &str, into: &str) {
        self.joints
            .push(json!({"kind": kind, "part": part, "into": into, "glued": true, "spec": 0}));
    }

    /// One more operation of the step.
    fn then(&mut self, kind: &str, rest: Value) {
        let mut operation = json!({"step": self.step, "kind": kind});
        let (Value::Object(own), Value::Object(rest)) = (&mut operation, rest) else { panic!() };
        own.extend(rest);
        if ["setting", "bore", "shape"].contains(&kind) {
            own.insert("lines".to_owned(), json!([]));
        }
        self.operations.push(operation);
    }

    fn break_down(&mut self, part: &str, stock: &str, size: [f64; 3]) {
        self.then("break down", json!({"part": part, "stock": stock, "size": all(size)}));
    }

    /// A sheet is calipered before it is sawn.
    fn sheet(&mut self, sheet: &str, thick: f64, parts: &[&str]) {
        self.then(
            "verify",
            json!({"sheet": sheet, "parts": parts, "what": "thickness", "figure": mm(thick),
                "fine": format!("{thick:.2}"), "within": mm(0.1),
                "thicker": "enter as measured", "thinner": "enter as measured"}),
        );
    }

    /// Solid wood is read before it is milled.
    fn moisture(&mut self, stock: &str) {
        self.then(
            "verify",
            json!({"what": "moisture", "stocks": [stock], "percent": "8.0", "within": "1",
                "otherwise": "rest"}),
        );
    }

    /// A part of a sheet is calipered before the cut that takes it.
    fn caliper(&mut self, part: &str, thick: f64) {
        self.then(
            "verify",
            json!({"parts": [part], "what": "thickness", "figure": mm(thick),
                "fine": format!("{thick:.2}"), "within": mm(0.1),
                "thicker": "replace", "thinner": "replace"}),
        );
    }

    /// A part of a sheet, which is milled across its faces only.
    fn cut_sheet(&mut self, part: &str, stock: &str, [length, width, thickness]: [f64; 3]) {
        self.break_down(part, stock, [length, width, thickness]);
        self.mill("width", width, &[part]);
        self.mill("length", length, &[part]);
    }

    fn mill(&mut self, axis: &str, to: f64, parts: &[&str]) {
        self.then("mill", json!({"axis": axis, "to": mm(to), "parts": parts}));
    }

    /// A solid part: 25 over in length, and at least 300 long, so that the machines hold
    /// it; 6 over in width, from boards of 25.
    fn solid(&mut self, part: &str, [length, width, thickness]: [f64; 3]) {
        self.break_down(part, "ash", [(length + 25.0).max(300.0), width + 6.0, 25.0]);
        self.mill("thickness", thickness, &[part]);
        self.mill("width", width, &[part]);
        self.mill("length", length, &[part]);
    }

    fn setting(
        &mut self,
        tool: &str,
        guide: &str,
        datum: &str,
        set: &[f64],
        depths: &[f64],
        pieces: Value,
    ) {
        let figures = |all: &[f64]| all.iter().map(|figure| mm(*figure)).collect::<Vec<_>>();
        let run = |piece: &Value| {
            let mut piece = piece.clone();
            piece["run"] = mm(300.0);
            piece
        };
        let pieces: Vec<Value> = pieces.as_array().unwrap().iter().map(run).collect();
        let sheet = self.operations.iter().filter(|own| own["kind"] == "setting").count() + 1;
        self.then(
            "setting",
            json!({"sheet": sheet, "tool": tool, "guide": guide, "datum": datum,
                "set": figures(set), "depths": figures(depths), "pieces": pieces,
                "time": time(20)}),
        );
    }

    fn shape(
        &mut self,
        part: &str,
        what: &str,
        face: &str,
        deep: f64,
        spans: [(&str, f64, f64); 2],
    ) {
        let both = spans.map(|(from, start, end)| span(from, start, end));
        self.then(
            "shape",
            json!({"part": part, "what": what, "face": face, "deep": mm(deep), "spans": both}),
        );
        if what == "miter" {
            let own = self.operations.last_mut().unwrap();
            own["long_point"] = if face == "left edge" { "front" } else { "outside" }.into();
        }
        if what == "pocket holes" {
            let (from, start, end) = spans[1];
            let centers = [0.25, 0.75].map(|share| mm(start + (end - start) * share));
            let own = self.operations.last_mut().unwrap();
            own["pockets"] = json!({"from": from, "centers": centers});
        }
    }

    /// Lines on a board, from its bottom end.
    fn lines(&mut self, part: &str, lines: &[(&str, f64, f64)]) {
        let line = |(part, start, end): &(&str, f64, f64)| json!({"part": part, "along": span("bottom end", *start, *end)});
        let lines: Vec<Value> = lines.iter().map(line).collect();
        self.layout.push(json!({"part": part, "lines": lines}));
    }

    fn join(&mut self, joints: &[usize], moves: &[(&[&str], &str)]) {
        let one = |(parts, from): &(&[&str], &str)| match *from {
            "" => json!({"parts": parts}),
            from => json!({"parts": parts, "legs": [{"from": from}]}),
        };
        let moves: Vec<Value> = moves.iter().map(one).collect();
        self.then("join", json!({"joints": joints, "moves": moves}));
    }

    fn packet(self) -> Value {
        json!({
            "schema": 2,
            "job": {"name": "hand", "revision": "A", "hash": "00000000", "unit": "mm", "tape": mm(0.5)},
            "shop": {"base_plate": mm(150.0), "kerf": mm(3.0)},
            "sheets": [],
            "boards": [],
            "stocks": [
                {"name": "ply", "form": "sheet", "thickness": mm(18.0)},
                {"name": "thin", "form": "sheet", "thickness": mm(6.0)},
                {"name": "ash", "form": "boards", "thickness": mm(25.0)},
            ],
            "tools": [
                {"id": "T12", "shape": "straight", "diameter": mm(12.0), "speed": 24000},
                {"id": "T6", "shape": "straight", "diameter": mm(6.0), "speed": 24000},
            ],
            "parts": self.parts, "joints": self.joints,
            "plan": {"hands": time(60), "longest": time(60), "days": 1, "day": time(480)},
            "steps": [], "operations": self.operations,
            "layout": self.layout, "opens": self.opens,
            "gaps": {"milled": air(), "driest": air(), "dampest": air(),
                "warm": {"exact": "20", "print": "20 °C"}, "from": [],
                "edges": [], "panels": []},
            "weights": {"moisture": 12, "stocks": [], "lifted": [],
                "whole": {"exact": 0, "print": "0"}, "parts": []},
            "hardware": [], "findings": [], "lines": [],
            "drawn": {"parts": self.drawn},
        })
    }
}

fn time(minutes: u32) -> Value {
    json!({"exact": minutes.to_string(), "print": format!("{minutes} min")})
}

fn air() -> Value {
    json!({"humidity": "45", "moisture": "8.5"})
}

fn piece(part: &str, face: &str, feed: Option<[&str; 2]>) -> Value {
    let mut piece = json!({"part": part, "face": face, "stops": [], "supports": []});
    if let Some([from, to]) = feed {
        piece["feed"] = json!({"from": from, "to": to});
    }
    piece
}

/// Two ends 600 by 300, a bottom in dadoes 100 up, a stretcher between, and a
/// back in rabbets: 500 wide over all.
pub(super) fn case() -> Value {
    let mut work = Work::new();
    let dado =
        |from: f64| feature("dado", "inside", [100.0, 0.0, from], [118.0, 294.0, from + 6.0]);
    let rabbet =
        |from: f64| feature("rabbet", "inside", [0.0, 294.0, from], [600.0, 300.0, from + 9.0]);
    let (end, yzx) = ([600.0, 300.0, 18.0], ["y", "z", "x"]);
    work.part("LE", "ply", LEFT_END, end, [0.0; 3], yzx, vec![dado(12.0), rabbet(9.0)]);
    work.part("RE", "ply", RIGHT_END, end, [482.0, 0.0, 0.0], yzx, vec![dado(0.0), rabbet(0.0)]);
    let xzy = ["x", "z", "y"];
    work.part("B", "ply", LYING, [476.0, 294.0, 18.0], [12.0, 100.0, 0.0], xzy, vec![]);
    let pockets =
        |from: f64| feature("pocket holes", "top", [from, 0.0, 0.0], [from + 36.0, 80.0, 18.0]);
    let at = [18.0, 582.0, 0.0];
    work.part("S", "ply", LYING, [464.0, 80.0, 18.0], at, xzy, vec![pockets(0.0), pockets(428.0)]);
    let at = [9.0, 100.0, 294.0];
    work.part("K", "thin", ACROSS, [482.0, 500.0, 6.0], at, ["x", "y", "z"], vec![]);
    for (kind, part, into) in [
        ("dado", "B", "LE"),
        ("dado", "B", "RE"),
        ("pocket screws", "S", "LE"),
        ("pocket screws", "S", "RE"),
        ("planted", "K", "LE"),
        ("planted", "K", "RE"),
    ] {
        work.joint(kind, part, into);
    }
    work.sheet("ply", 18.0, &["LE", "RE", "B", "S"]);
    work.sheet("thin", 6.0, &["K"]);
    for part in ["LE", "RE"] {
        work.cut_sheet(part, "ply", end);
    }
    work.cut_sheet("B", "ply", [476.0, 294.0, 18.0]);
    work.cut_sheet("S", "ply", [464.0, 80.0, 18.0]);
    work.cut_sheet("K", "thin", [482.0, 500.0, 6.0]);
    work.step = 2;
    work.caliper("B", 18.0);
    // 118 − 6 − 75 for the far wall, then toward the bottom end: 100 + 6 − 75.
    // Seen on the inside of the left end, its front edge is on the left; pushed
    // that way the bottom end is on the left of the router.
    let ends = |left: [&str; 2], right: [&str; 2]| {
        json!([piece("LE", "inside", Some(left)), piece("RE", "inside", Some(right))])
    };
    let (front, back) = ("front edge", "back edge");
    work.setting(
        "T12",
        "near",
        "bottom end",
        &[37.0, 31.0],
        &[6.0],
        ends([back, front], [front, back]),
    );
    // Along the back edge, the straight-edge beyond: 0 + 3 + 75.
    let (up, down) = (["bottom end", "top end"], ["top end", "bottom end"]);
    // The base has 75 on each side of the bit, and the wood ends 3 from its center.
    let mut rabbets = ends(up, down);
    for piece in rabbets.as_array_mut().unwrap() {
        piece["supports"] = json!([{"along": "back edge", "wide": mm(72.0)}]);
    }
    work.setting("T6", "far", "back edge", &[78.0], &[3.0, 6.0, 9.0], rabbets);
    for (end, wide) in [("left end", "front edge"), ("right end", "front edge")] {
        work.shape("S", "pocket holes", "top", 18.0, [(end, 0.0, 36.0), (wide, 0.0, 80.0)]);
    }
    work.step = 3;
    work.join(
        &[0, 1, 2, 3],
        &[(&["B"], ""), (&["LE"], "left"), (&["RE"], "right"), (&["S"], "above")],
    );
    // 500 across, 600 high: the root of 610,000 is 781.02.
    work.operations.last_mut().unwrap()["square"] =
        json!({"sides": all([500.0, 600.0]), "diagonal": "781~", "within": mm(1.0)});
    work.step = 4;
    work.join(&[4, 5], &[(&["LE", "RE", "B", "S"], ""), (&["K"], "back")]);
    for end in ["LE", "RE"] {
        work.lines(end, &[("S", 582.0, 600.0)]);
        let lines = &mut work.layout.last_mut().unwrap()["lines"];
        lines[0]["across"] = span("front edge", 0.0, 80.0);
    }
    work.packet()
}

/// A frame 500 by 600 whose left stile is mitered to a plywood end; the right
/// end stands behind its stile. The frame is made flat, then the ends come to it.
pub(super) fn frame() -> Value {
    let mut work = Work::new();
    let (yxz, xyz, yzx) = (["y", "x", "z"], ["x", "y", "z"], ["y", "z", "x"]);
    let stile = [600.0, 50.0, 19.0];
    let miter = feature("miter", "left edge", [0.0; 3], [600.0, 19.0, 19.0]);
    work.part("LS", "ash", STANDING, stile, [0.0; 3], yxz, vec![miter]);
    work.part("RS", "ash", STANDING, stile, [450.0, 0.0, 0.0], yxz, vec![]);
    let rail = [400.0, 40.0, 19.0];
    let pockets =
        |from: f64| feature("pocket holes", "back", [from, 0.0, 0.0], [from + 38.0, 40.0, 19.0]);
    for (mark, up) in [("TR", 560.0), ("BR", 0.0)] {
        work.part(
            mark,
            "ash",
            ACROSS,
            rail,
            [50.0, up, 0.0],
            xyz,
            vec![pockets(0.0), pockets(362.0)],
        );
    }
    let miter = feature("miter", "front edge", [0.0; 3], [600.0, 18.0, 18.0]);
    work.part("LE", "ply", LEFT_END, [600.0, 300.0, 18.0], [0.0; 3], yzx, vec![miter]);
    let at = [482.0, 0.0, 19.0];
    work.part("RE", "ply", RIGHT_END, [600.0, 281.0, 18.0], at, yzx, vec![]);
    for (rail, stile) in [("TR", "LS"), ("BR", "LS"), ("TR", "RS"), ("BR", "RS")] {
        work.joint("pocket screws", rail, stile);
    }
    work.joint("miter", "LS", "LE");
    work.joint("butt", "RS", "RE");
    work.sheet("ply", 18.0, &["LE", "RE"]);
    work.moisture("ash");
    work.cut_sheet("LE", "ply", [600.0, 300.0, 18.0]);
    work.cut_sheet("RE", "ply", [600.0, 281.0, 18.0]);
    for mark in ["LS", "RS"] {
        work.solid(mark, stile);
    }
    for mark in ["TR", "BR"] {
        work.solid(mark, rail);
    }
    work.step = 2;
    let whole = ("bottom end", 0.0, 600.0);
    work.shape("LS", "miter", "left edge", 19.0, [whole, ("front", 0.0, 19.0)]);
    work.shape("LE", "miter", "front edge", 18.0, [whole, ("outside", 0.0, 18.0)]);
    for rail in ["TR", "BR"] {
        for end in ["left end", "right end"] {
            work.shape(
                rail,
                "pocket holes",
                "back",
                19.0,
                [(end, 0.0, 38.0), ("bottom edge", 0.0, 40.0)],
            );
        }
    }
    work.step = 3;
    work.join(
        &[0, 1, 2, 3],
        &[(&["TR"], ""), (&["BR"], "below"), (&["LS"], "left"), (&["RS"], "right")],
    );
    work.step = 4;
    work.join(&[4, 5], &[(&["LS", "TR", "BR", "RS"], ""), (&["LE"], "left"), (&["RE"], "back")]);
    for stile in ["LS", "RS"] {
        work.lines(stile, &[("BR", 0.0, 40.0), ("TR", 560.0, 600.0)]);
    }
    work.packet()
}

/// A door 360 by 500 with a panel in grooves 6 by 10 and stub tenons 8.5 long to
/// fit them, glued up, bored, and hung on a post. Between its stiles are 360 − 2 ×
/// 60 = 240, so its rails are 240 + 2 × 8.5 = 257 long.
pub(super) fn door() -> Value {
    let mut work = Work::new();
    let (yxz, xyz, yzx) = (["y", "x", "z"], ["x", "y", "z"], ["y", "z", "x"]);
    let stile = [500.0, 60.0, 19.0];
    let groove = |face, from: f64, long: f64| {
        feature("groove", face, [0.0, from, 6.5], [long, from + 10.0, 12.5])
    };
    let cup =
        |up: f64| feature("hinge cup", "back", [up - 17.5, 5.0, 6.5], [up + 17.5, 40.0, 19.0]);
    let features = vec![groove("right edge", 50.0, 500.0), cup(100.0), cup(400.0)];
    work.part("DL", "ash", STANDING, stile, [20.0, 50.0, 0.0], yxz, features);
    let features = vec![groove("left edge", 0.0, 500.0)];
    work.part("DR", "ash", STANDING, stile, [320.0, 50.0, 0.0], yxz, features);
    let rail = [257.0, 60.0, 19.0];
    let tenon = |end, from: f64| feature("tenon", end, [from, 0.0, 6.5], [from + 8.5, 60.0, 12.5]);
    for (mark, up, edge, from) in
        [("DT", 490.0, "bottom edge", 0.0), ("DB", 50.0, "top edge", 50.0)]
    {
        let features =
            vec![tenon("left end", 0.0), tenon("right end", 248.5), groove(edge, from, 257.0)];
        work.part(mark, "ash", ACROSS, rail, [71.5, up, 0.0], xyz, features);
    }
    work.part("P", "thin", STANDING, [400.0, 260.0, 6.0], [70.0, 100.0, 6.5], yxz, vec![]);
    work.part("POST", "ply", LEFT_END, [600.0, 100.0, 18.0], [0.0; 3], yzx, vec![]);
    for (rail, stile) in [("DT", "DL"), ("DT", "DR"), ("DB", "DL"), ("DB", "DR")] {
        work.joint("tenon", rail, stile);
    }
    for member in ["DL", "DR", "DT", "DB"] {
        work.joint("floating", "P", member);
    }
    work.joint("hung", "DL", "POST");
    work.sheet("ply", 18.0, &["POST"]);
    work.sheet("thin", 6.0, &["P"]);
    work.moisture("ash");
    work.cut_sheet("POST", "ply", [600.0, 100.0, 18.0]);
    work.cut_sheet("P", "thin", [400.0, 260.0, 6.0]);
    for (mark, size) in [("DL", stile), ("DR", stile), ("DT", rail), ("DB", rail)] {
        work.solid(mark, size);
    }
    work.step = 2;
    work.caliper("P", 6.0);
    let edges =
        [("DL", "right edge"), ("DR", "left edge"), ("DT", "bottom edge"), ("DB", "top edge")];
    let pieces: Vec<Value> = edges.iter().map(|(part, edge)| piece(part, edge, None)).collect();
    work.setting("T6", "table", "front", &[6.5], &[3.0, 6.0, 9.0, 10.0], pieces.into());
    for rail in ["DT", "DB"] {
        for end in ["left end", "right end"] {
            work.shape(rail, "tenon", end, 8.5, [("bottom edge", 0.0, 60.0), ("front", 6.5, 12.5)]);
        }
    }
    work.step = 3;
    let moves: [(&[&str], &str); 5] = [
        (&["DT"], ""),
        (&["P"], "below"),
        (&["DB"], "below"),
        (&["DL"], "left"),
        (&["DR"], "right"),
    ];
    work.join(&[0, 1, 2, 3, 4, 5, 6, 7], &moves);
    work.step = 4;
    work.then(
        "bore",
        json!({"part": "DL", "face": "back", "what": "hinge cup",
            "from": ["bottom end", "left edge"],
            "centers": [all([100.0, 22.5]), all([400.0, 22.5])],
            "diameter": mm(35.0), "deep": mm(12.5)}),
    );
    work.step = 5;
    work.join(&[8], &[(&["POST"], ""), (&["DL", "DR", "DT", "DB", "P"], "front")]);
    // A butt hinge whose pin is 5 ahead of the front.
    work.opens["doors"] = json!([{"parts": ["DL", "DR", "DT", "DB", "P"], "hung": "left",
        "opens": "105", "about": "pin", "ahead": mm(5.0)}]);
    work.packet()
}

/// A drawer 300 by 400 by 100 with dovetailed corners and its bottom in grooves.
pub(super) fn drawer() -> Value {
    let mut work = Work::new();
    let zyx = ["z", "y", "x"];
    let (xyz, xzy) = (["x", "y", "z"], ["x", "z", "y"]);
    let side = [400.0, 100.0, 12.0];
    let side_faces =
        |first, last| ["front end", "back end", "bottom edge", "top edge", first, last];
    let groove = |long: f64, from: f64| {
        feature("groove", "inside", [0.0, 13.0, from], [long, 19.0, from + 6.0])
    };
    let tails =
        |end, from: f64| feature("dovetails", end, [from, 0.0, 0.0], [from + 12.0, 100.0, 12.0]);
    for (mark, faces, at, inside) in [
        ("SL", side_faces("outside", "inside"), 0.0, 6.0),
        ("SR", side_faces("inside", "outside"), 288.0, 0.0),
    ] {
        let features =
            vec![tails("front end", 0.0), tails("back end", 388.0), groove(400.0, inside)];
        work.part(mark, "ash", faces, side, [at, 0.0, 0.0], zyx, features);
    }
    let cross = [300.0, 100.0, 12.0];
    let cross_faces =
        |first, last| ["left end", "right end", "bottom edge", "top edge", first, last];
    for (mark, faces, at, inside) in [
        ("F", cross_faces("outside", "inside"), 0.0, 6.0),
        ("K", cross_faces("inside", "outside"), 388.0, 0.0),
    ] {
        work.part(mark, "ash", faces, cross, [0.0, 0.0, at], xyz, vec![groove(300.0, inside)]);
    }
    work.part("B", "thin", LYING, [288.0, 388.0, 6.0], [6.0, 13.0, 6.0], xzy, vec![]);
    for (part, into) in [("F", "SL"), ("F", "SR"), ("K", "SL"), ("K", "SR")] {
        work.joint("dovetails", part, into);
    }
    for member in ["SL", "SR", "F", "K"] {
        work.joint("floating", "B", member);
    }
    work.sheet("thin", 6.0, &["B"]);
    work.moisture("ash");
    work.cut_sheet("B", "thin", [288.0, 388.0, 6.0]);
    for (mark, size) in [("SL", side), ("SR", side), ("F", cross), ("K", cross)] {
        work.solid(mark, size);
    }
    work.step = 2;
    work.caliper("B", 6.0);
    let pieces: Vec<Value> =
        ["SL", "SR", "F", "K"].iter().map(|part| piece(part, "inside", None)).collect();
    work.setting("T6", "table", "bottom edge", &[13.0], &[3.0, 6.0], pieces.into());
    for mark in ["SL", "SR"] {
        for end in ["front end", "back end"] {
            work.shape(
                mark,
                "dovetails",
                end,
                12.0,
                [("bottom edge", 0.0, 100.0), ("outside", 0.0, 12.0)],
            );
            // 6.5 + 25 + 6 + 25 + 6 + 25 + 6.5 = 100.
            let along = [(6.5, 31.5), (37.5, 62.5), (68.5, 93.5)]
                .map(|(start, end)| span("bottom edge", start, end));
            work.operations.last_mut().unwrap()["tails"] = json!({"slope": 8, "along": along});
        }
    }
    work.step = 3;
    let moves: [(&[&str], &str); 5] =
        [(&["F"], ""), (&["B"], "back"), (&["K"], "back"), (&["SL"], "left"), (&["SR"], "right")];
    work.join(&[0, 1, 2, 3, 4, 5, 6, 7], &moves);
    work.packet()
}

/// A rail doweled to a post at 100 up: two dowels of 9 by 54, 15 and 45 from its
/// lower edge, each in two holes of 27 + 1.5.
pub(super) fn doweled() -> Value {
    let mut work = Work::new();
    let (yxz, xyz) = (["y", "x", "z"], ["x", "y", "z"]);
    let (post, rail) = ([600.0, 60.0, 19.0], [200.0, 60.0, 19.0]);
    let holes = |face, from, to| vec![feature("dowel holes", face, from, to)];
    let other = holes("right edge", [100.0, 31.5, 0.0], [160.0, 60.0, 19.0]);
    work.part("P", "ash", STANDING, post, [0.0; 3], yxz, other);
    let own = holes("left end", [0.0; 3], [28.5, 60.0, 19.0]);
    work.part("R", "ash", ACROSS, rail, [60.0, 100.0, 0.0], xyz, own);
    work.joint("dowels", "R", "P");
    work.lines("P", &[("R", 100.0, 160.0)]);
    work.moisture("ash");
    work.solid("P", post);
    work.solid("R", rail);
    work.step = 2;
    for (part, face, from, start) in
        [("R", "left end", "bottom edge", 0.0), ("P", "right edge", "bottom end", 100.0)]
    {
        let spans = [(from, start, start + 60.0), ("front", 0.0, 19.0)];
        work.shape(part, "dowel holes", face, 28.5, spans);
        let own = work.operations.last_mut().unwrap();
        own["holes"] = 2.into();
        own["row"] = json!({"from": [from, "front"], "dowel": mm(54.0), "diameter": mm(9.0),
            "centers": [all([start + 15.0, 9.5]), all([start + 45.0, 9.5])]});
    }
    work.step = 3;
    work.join(&[0], &[(&["P"], ""), (&["R"], "right")]);
    work.packet()
}

/// The same for every packet of this file.
#[test]
fn what_is_worked_by_hand_can_be_built() {
    let schema: Value = serde_json::from_str(include_str!("../../schema/packet.json")).unwrap();
    let schema = jsonschema::validator_for(&schema).unwrap();
    for (name, packet) in [
        ("case", case()),
        ("frame", frame()),
        ("door", door()),
        ("drawer", drawer()),
        ("doweled", doweled()),
    ] {
        let errors: Vec<String> =
            schema.iter_errors(&packet).map(|error| format!("{error}")).collect();
        assert_eq!(errors, Vec::<String>::new(), "{name}");
        let report = build(&packet.to_string());
        assert_eq!(report.complaints, Vec::<String>::new(), "{name}");
        assert_eq!(report.thin_walls, Vec::<String>::new(), "{name}");
    }
}

/// Of a sheet that is off, nothing is sawn until the papers are made anew; a board
/// from an odd sheet is made again before its dado is cut.
#[test]
fn what_is_worked_by_hand_can_be_built_of_wood_that_is_off() {
    let [thick, thin, odd_thick, odd_thin] = off::ALL.map(|(_, own)| own);
    let none = BTreeMap::new();
    for (own, by) in [(thick, 0.3), (thin, -0.3)] {
        let report = build_of(&case().to_string(), own, &none);
        assert_eq!(report.complaints, Vec::<String>::new());
        let stop = |sheet: &str, thick: f64| Stop { sheet: sheet.to_owned(), thick };
        assert_eq!(report.stops, [stop("ply", 18.0 + by), stop("thin", 6.0 + by)]);
    }
    for own in [odd_thick, odd_thin] {
        for (name, packet, mended) in [
            ("case", case(), 1),
            ("frame", frame(), 0),
            ("door", door(), 1),
            ("drawer", drawer(), 1),
        ] {
            let report = build_of(&packet.to_string(), own, &none);
            assert_eq!(report.complaints, Vec::<String>::new(), "{name}");
            assert_eq!(report.mended, mended, "{name}");
        }
    }
}
