//! Papers and packet.json tell the same: every figure on the assembly order, the
//! fitting sheet, and the jig sheet is one of an operation or a part, and every
//! operation is told on some paper with its figures.
//!
//! What is read here are the text papers, by a parser of figures of its own.

mod excused;
mod jig;
mod reading;
mod spoiled;
mod tenons;
mod told;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use casewright::papers::{self, EXAMPLES, Format};
use serde_json::Value;

use crate::support::{demo_pieces, spec};
use excused::EXCUSED;
use reading::{Known, Line, line, words};

/// A demo piece: its packet and its papers.
#[derive(Clone)]
struct Shown {
    name: String,
    packet: Value,
    papers: BTreeMap<&'static str, String>,
    /// The whole spec, whose notes may have figures of their own.
    notes: String,
    inches: bool,
    mark: f64,
}

/// A stretch of a paper under one `>>`, or under one heading.
struct Block {
    head: String,
    lines: Vec<Line>,
}

/// Every demo piece, and the example with covered edges.
fn all() -> &'static [Shown] {
    static ALL: OnceLock<Vec<Shown>> = OnceLock::new();
    ALL.get_or_init(Shown::all)
}

impl Shown {
    fn all() -> Vec<Self> {
        let edges = EXAMPLES.iter().find(|own| own.slug == "edges").expect("the example");
        let edges = ("examples/edges".to_owned(), edges.compiled().expect("readable"));
        demo_pieces()
            .into_iter()
            .chain([edges])
            .map(|(name, compiled)| {
                let one = |slug, format| papers::one(&compiled, slug, format).expect("a paper");
                let packet: Value = serde_json::from_str(&one("packet", Format::Json)).unwrap();
                let slugs = [
                    "assembly-order",
                    "fitting",
                    "jig-sheet",
                    "layout",
                    "cut-list",
                    "gaps",
                    "weights",
                ];
                let papers =
                    slugs.into_iter().map(|slug| (slug, one(slug, Format::Text))).collect();
                let inches = packet["job"]["unit"] == "in";
                let mark = exact(&packet["job"]["tape"]);
                let notes = spec(&format!("{name}.case"));
                Self { name, packet, papers, notes, inches, mark }
            })
            .collect()
    }

    fn operations(&self) -> &[Value] {
        self.packet["operations"].as_array().unwrap()
    }

    fn of_kind<'s>(&'s self, kinds: &'s [&str]) -> impl Iterator<Item = &'s Value> {
        let is_of = |own: &&Value| kinds.contains(&own["kind"].as_str().unwrap());
        self.operations().iter().filter(is_of)
    }

    fn known<'v>(&self, values: impl IntoIterator<Item = &'v Value>) -> Known {
        Known::of(values, self.inches)
    }

    /// A paper without its heading, its notes, and what stands on every sheet.
    fn blocks(&self, paper: &str) -> Vec<Block> {
        let text = &self.papers[paper];
        let mut blocks = vec![Block { head: String::new(), lines: Vec::new() }];
        for text in text.lines().skip_while(|text| !text.is_empty()) {
            if text.starts_with("Where the wood differs") {
                break;
            }
            // What was rounded has a test of its own.
            if text.starts_with("Figures marked ~") {
                break;
            }
            let is_note = text.starts_with("Note:") || self.notes.contains(text.trim());
            if is_note || text.is_empty() {
                continue;
            }
            let own = line(text, self.inches);
            if text.starts_with("== ") || text.starts_with(">> ") {
                blocks.push(Block { head: own.text.clone(), lines: Vec::new() });
            }
            blocks.last_mut().unwrap().lines.push(own);
        }
        blocks
    }

    /// The sizes of the parts whose marks stand in a text, finished and rough.
    fn sizes(&self, text: &str) -> Known {
        let words = words(text);
        let named = |own: &&Value| words.contains(own["mark"].as_str().unwrap());
        let drawn = self.packet["drawn"]["parts"].as_array().unwrap().iter();
        self.known(drawn.filter(named).map(|own| &own["size"]))
    }

    /// What of some lines is neither known nor excused.
    fn unknown(&self, paper: &str, lines: &[Line], known: &Known) -> Vec<String> {
        let mut unknown = Vec::new();
        for line in lines {
            let excused = excused_in(&line.shape);
            for (index, figure) in line.figures.iter().enumerate() {
                if !excused.contains(&index) && !known.has(figure, self.mark) {
                    unknown
                        .push(format!("{}, {paper}: {} in {}", self.name, figure.text, line.text));
                }
            }
        }
        unknown
    }
}

fn exact(figure: &Value) -> f64 {
    let text = figure["exact"].as_str().unwrap();
    match text.split_once('/') {
        Some((above, below)) => above.parse::<f64>().unwrap() / below.parse::<f64>().unwrap(),
        None => text.parse().unwrap(),
    }
}

/// Which figures of a line an exception excuses.
fn excused_in(shape: &str) -> BTreeSet<usize> {
    let count = |text: &str| text.matches('#').count();
    let mut found = BTreeSet::new();
    for own in EXCUSED {
        for (at, _) in shape.match_indices(own.phrase) {
            let first = count(&shape[..at]);
            found.extend(first..first + count(own.phrase));
        }
    }
    found
}

/// Every figure of a step is one of its operations, of the step itself, or a size
/// of a part that it names.
fn in_order(shown: &Shown) -> Vec<String> {
    let mut unknown = Vec::new();
    let steps = shown.packet["steps"].as_array().unwrap();
    let mut plan =
        shown.known([&shown.packet["plan"], &shown.packet["gaps"], &shown.packet["hardware"]]);
    plan.add(steps.len() as f64);
    let steps_all = shown.known([&shown.packet["steps"]]);
    for block in shown.blocks("assembly-order") {
        let step = block.head.strip_prefix(">> ").and_then(|head| {
            head.split(['*', ' ']).next().and_then(|number| number.parse::<usize>().ok())
        });
        let known = match step {
            None => plan.clone().and(steps_all.clone()),
            Some(step) => {
                let own: Vec<&Value> =
                    shown.operations().iter().filter(|own| own["step"] == step).collect();
                let text: Vec<&str> = block.lines.iter().map(|own| &*own.text).collect();
                let mut known = shown
                    .known(own.iter().copied().chain([&steps[step - 1]]))
                    .and(shown.sizes(&text.join(" ")));
                counts(&own, &mut known);
                known
            }
        };
        unknown.extend(shown.unknown("assembly-order", &block.lines, &known));
    }
    unknown
}

#[test]
fn figures_of_the_assembly_order_are_those_of_its_operations() {
    let unknown: Vec<String> = all().iter().flat_map(in_order).collect();
    assert!(unknown.is_empty(), "{} figures: {unknown:#?}", unknown.len());
}

/// What is rounded is told exactly at the foot of its sheet, and is half a mark
/// away at the most.
#[test]
fn rounded_figures_are_told_exactly() {
    let mut told = 0;
    for shown in all() {
        for slug in ["assembly-order", "fitting", "jig-sheet"] {
            let text = shown.papers[slug].lines();
            let foot = text.skip_while(|text| !text.starts_with("Figures marked ~")).skip(1);
            for text in foot.take_while(|text| text.contains("~ = ")) {
                let figures = line(text, shown.inches).figures;
                let off = (figures[0].value - figures[1].value).abs();
                // Half a mark, and half of the last decimal it is told with.
                let last = if shown.inches { 0.000_5 } else { 0.005 };
                assert!(off <= shown.mark / 2.0 + last + 1e-9, "{}, {slug}: {text}", shown.name);
                told += 1;
            }
        }
    }
    assert!(told > 50, "{told}");
}

/// How many joints of a kind are cut by hand in a step, and in how many parts.
fn counts(operations: &[&Value], known: &mut Known) {
    let mut parts: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for own in operations.iter().filter(|own| own["kind"] == "shape") {
        let what = own["what"].as_str().unwrap();
        parts.entry(what).or_default().push(own["part"].as_str().unwrap());
    }
    for own in parts.values() {
        known.add(own.len() as f64);
        known.add(own.iter().collect::<BTreeSet<_>>().len() as f64);
    }
}

const FITTED: &[&str] = &[
    "bore",
    "bore rows",
    "fasten",
    "fix to wall",
    "run on wood",
    "set front",
    "set hinge",
    "set rail",
    "set stop",
    "set catch",
    "set slides",
    "shape",
    "spacers",
];

fn in_fitting(shown: &Shown) -> Vec<String> {
    let mut unknown = Vec::new();
    let mut fitted = shown.known(shown.of_kind(FITTED));
    derived(shown, &mut fitted);
    for block in shown.blocks("fitting") {
        for line in block.lines {
            let known = fitted.clone().and(shown.sizes(&line.text));
            unknown.extend(shown.unknown("fitting", &[line], &known));
        }
    }
    unknown
}

#[test]
fn figures_of_the_fitting_sheet_are_those_of_its_operations() {
    let unknown: Vec<String> = all().iter().flat_map(in_fitting).collect();
    assert!(unknown.is_empty(), "{} figures: {unknown:#?}", unknown.len());
}

/// What the fitting sheet counts together: holes, screws of a kind, the width of a
/// notch.
fn derived(shown: &Shown, known: &mut Known) {
    let mut holes: BTreeMap<&str, u64> = BTreeMap::new();
    for rows in shown.of_kind(&["bore rows"]) {
        let row = rows["holes"].as_u64().unwrap();
        // From the lower edge of the opening.
        known.add(exact(&rows["first"]) - exact(&rows["above"]));
        known.add(row as f64);
        *holes.entry(rows["opening"].as_str().unwrap()).or_default() += 2 * row;
    }
    holes.values().for_each(|count| known.add(*count as f64));
    bought(shown).values().for_each(|count| known.add(*count as f64));
    for notch in shown.of_kind(&["shape"]).filter(|own| own["what"] == "notch") {
        for span in notch["spans"].as_array().unwrap() {
            known.add(exact(&span["end"]) - exact(&span["start"]));
        }
    }
}

/// How many of each kind of screw, pin and clip go in, at all steps together.
fn bought(shown: &Shown) -> BTreeMap<(String, String), u64> {
    let mut found: BTreeMap<(String, String), u64> = BTreeMap::new();
    for own in shown.of_kind(&["fasten"]) {
        let places = own["in"].as_array().unwrap().iter();
        let count: u64 = places.map(|place| place["count"].as_u64().unwrap()).sum();
        let what = own["for"].as_str().unwrap().to_owned();
        *found.entry((what, own["size"].to_string())).or_default() += count;
    }
    found
}

/// What a maker buys is what goes in: the last table of the fitting sheet has a row
/// for each kind, with its whole count.
#[test]
fn what_is_bought_is_what_goes_in() {
    for shown in all() {
        let blocks = shown.blocks("fitting");
        let table = blocks.iter().find(|own| own.head == "== Screws and small hardware ==");
        let rows =
            table.map_or(0, |own| own.lines.iter().filter(|own| own.text.starts_with('[')).count());
        let bought = bought(shown);
        assert_eq!(rows, bought.len(), "{}", shown.name);
        for ((what, _), count) in &bought {
            // Behind packers and blocks stand their marks.
            let marked = format!("{what}: ");
            let row = table.unwrap().lines.iter().find(|own| {
                let is_for = own.text.ends_with(what.as_str())
                    || own.text.contains(&marked)
                    || own.text.contains(&format!("{what}, through pull holes of "));
                is_for && own.figures[0].text == count.to_string()
            });
            assert!(row.is_some(), "{}: {count} for {what}", shown.name);
        }
    }
}

/// An exception that excuses nothing any more is taken out.
#[test]
fn every_exception_is_needed_and_has_its_reason() {
    let shapes: Vec<String> = all()
        .iter()
        .flat_map(|shown| ["assembly-order", "fitting", "jig-sheet"].map(|slug| shown.blocks(slug)))
        .flatten()
        .flat_map(|block| block.lines.into_iter().map(|own| own.shape))
        .collect();
    for own in EXCUSED {
        assert!(!own.why.is_empty(), "{}", own.phrase);
        assert!(shapes.iter().any(|shape| shape.contains(own.phrase)), "{} is gone", own.phrase);
    }
}

/// Gaps, weights and hardware too stand on their papers as the packet has them.
#[test]
fn gaps_weights_and_hardware_are_as_on_their_papers() {
    let mut seen = 0;
    for shown in all() {
        for (section, key, slug) in [
            ("gaps", "edges", "gaps"),
            ("gaps", "panels", "gaps"),
            ("weights", "lifted", "weights"),
            ("weights", "whole", "weights"),
            ("hardware", "figures", "assembly-order"),
        ] {
            let mut said = Known::default();
            let blocks = shown.blocks(slug);
            let figures = blocks.iter().flat_map(|own| &own.lines).flat_map(|own| &own.figures);
            figures.for_each(|own| said.add(own.value));
            let own = match &shown.packet[section] {
                Value::Array(all) => all.iter().map(|own| &own[key]).collect(),
                own => vec![&own[key]],
            };
            let mut wanted = Vec::new();
            own.into_iter().for_each(|own| print_of(own, shown.inches, &mut wanted));
            for figure in &wanted {
                seen += 1;
                let name = &shown.name;
                assert!(
                    said.has(figure, shown.mark),
                    "{name}, {slug}: {} of {section}",
                    figure.text
                );
            }
        }
    }
    assert!(seen > 200, "{seen}");
}

/// What stands behind `print`, and nothing else.
fn print_of(value: &Value, inches: bool, found: &mut Vec<reading::Figure>) {
    match value {
        Value::Object(all) => match all.get("print") {
            Some(print) => told::printed(print, inches, found),
            None => all.values().for_each(|own| print_of(own, inches, found)),
        },
        Value::Array(all) => all.iter().for_each(|own| print_of(own, inches, found)),
        Value::String(_) | Value::Number(_) | Value::Null | Value::Bool(_) => {}
    }
}
