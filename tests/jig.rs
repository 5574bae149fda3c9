//! The router set-ups, followed as they are printed: the bit runs where the
//! guide is set, and what it takes away must be the joint that is drawn. Reads
//! nothing but the words and figures of the paper and the drawn features.

use std::collections::BTreeSet;

use casewright::measure::{Exact, Length, Unit};
use casewright::papers;
use casewright::parts::{Part, Parts};
use casewright::pipeline::Compilation;

use crate::support::{compile, spec};

const SPECS: [&str; 4] =
    ["hall-console.case", "first.case", "tide-cottage-press.case", "alcove-shelves.case"];

/// A figure of the paper in the unit of the job: `3-5/16~`, `77.5`.
fn figure(text: &str) -> Option<f64> {
    let text = text.trim_end_matches(['~', ',', ';', ':']);
    let (whole, part) = text.split_once('-').unwrap_or(("0", text));
    let part = match part.split_once('/') {
        Some((n, d)) => n.parse::<f64>().ok()? / d.parse::<f64>().ok()?,
        None if whole == "0" => part.parse().ok()?,
        None => return None,
    };
    Some(whole.parse::<f64>().ok()? + part)
}

/// The first figure behind some words.
fn after(text: &str, words: &str) -> Option<f64> {
    let rest = &text[text.find(words)? + words.len()..];
    figure(rest.split_whitespace().next()?)
}

/// The guide a hand would set up.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Guide {
    Near,
    Far,
    Table,
}

/// A set-up as the paper has it.
#[derive(Debug)]
struct Sheet {
    guide: Guide,
    /// Where the guide goes, one place after the other, from the datum.
    places: Vec<f64>,
    bit: f64,
    base: f64,
    deep: f64,
    datum: String,
    marks: Vec<String>,
    /// The test cut says where the guide goes in the end.
    crept: bool,
}

impl Sheet {
    /// From where to where each stroke cuts, from the datum.
    fn strokes(&self) -> Vec<(f64, f64)> {
        let middle = |place: f64| match self.guide {
            // The base runs along the straight-edge, the bit in its middle.
            Guide::Near => place + self.base / 2.0,
            Guide::Far => place - self.base / 2.0,
            Guide::Table => place + self.bit / 2.0,
        };
        let cut = |place: &f64| {
            let at = middle(*place);
            (at - self.bit / 2.0, at + self.bit / 2.0)
        };
        self.places.iter().map(cut).collect()
    }

    /// A hand-held router keeps its straight-edge on the left of its feed, a
    /// table its fence on the right of the bit's cut; fresh wood must lie on the
    /// left of the bit, else it is a climb cut. (Router manuals.)
    fn is_climb_cut(&self) -> bool {
        let away = self.strokes().windows(2).all(|pair| pair[1].0 > pair[0].0);
        let toward = self.strokes().windows(2).all(|pair| pair[1].0 < pair[0].0);
        match self.guide {
            Guide::Near => !toward,
            Guide::Far | Guide::Table => !away,
        }
    }
}

/// The sheet without the thousandths beside its figures: a hand with a tape
/// reads the marks.
fn on_the_tape(text: &str) -> String {
    let mut parts = text.split(" (");
    let mut read = parts.next().unwrap_or("").to_owned();
    for part in parts {
        let (inside, rest) = part.split_once(')').unwrap_or((part, ""));
        if inside.parse::<f64>().is_err() {
            read.push_str(" (");
            read.push_str(inside);
            read.push(')');
        }
        read.push_str(rest);
    }
    read
}

/// Every set-up of dados, grooves and rabbets of a jig sheet.
fn read(text: &str) -> Vec<Sheet> {
    let text = &on_the_tape(text);
    let base = after(text, "for a base plate").expect("the base plate");
    let mut bit = 0.0;
    let mut found: Vec<Sheet> = Vec::new();
    let mut datum = String::new();
    let mut flutes = false;
    for line in text.lines() {
        if let Some(head) = line.strip_prefix("== ") {
            bit = after(head, "Straight bit")
                .or_else(|| after(head, ", "))
                .unwrap_or_else(|| panic!("no width in {head}"));
        } else if let Some(head) = line.strip_prefix(">> ") {
            let Some((set, what)) = head.split_once("  ") else { panic!("{head}") };
            if what.contains("flutes") {
                flutes = true;
                continue;
            }
            flutes = false;
            let guide =
                if what.contains("router-table fence") { Guide::Table } else { Guide::Near };
            if guide == Guide::Near {
                datum = what.split("from the ").nth(1).expect("a datum").to_owned();
            }
            let (first, then) = set.split_once(", then ").unwrap_or((set, ""));
            let first = figure(first).unwrap_or_else(|| panic!("{set}"));
            let mut places = vec![first];
            for more in then.split(", then ").filter(|more| !more.is_empty()) {
                let (times, by) = more.split_once(" times ").unwrap_or(("1", more));
                let by = figure(by.split(' ').next().expect("a figure")).expect("a figure");
                for step in 1..=times.parse().expect("a count") {
                    places.push(match more {
                        _ if more.contains("away") => first + by * f64::from(step),
                        _ if more.contains("toward") => first - by * f64::from(step),
                        _ => by,
                    });
                }
            }
            let (deep, marks, crept) = (0.0, Vec::new(), false);
            let datum = datum.clone();
            found.push(Sheet { guide, places, bit, base, deep, datum, marks, crept });
        } else if let (Some(sheet), false) = (found.last_mut(), flutes) {
            sheet.crept |= line.contains("until the mating part lies flush in the test cut");
            if line.contains("on the far side of the cut") {
                sheet.guide = Guide::Far;
            }
            if let Some(rest) = line.split("on the router table, with the ").nth(1) {
                sheet.datum = rest.split(" along").next().expect("a datum").to_owned();
            }
            if let Some((before, _)) = line.split_once(" deep")
                && line.contains(" wide and ")
            {
                let word = before.rsplit(' ').next().expect("a figure");
                sheet.deep = figure(word).expect("a depth");
            }
            let row = line.trim_start().strip_prefix("[ ]").filter(|_| !line.contains("test cut"));
            if let (Some(row), false) = (row, line.contains("[ ]     ")) {
                sheet.marks.push(row.split_whitespace().next().expect("a mark").to_owned());
            }
        }
    }
    found
}

/// What is drawn: mark, datum, from, to, depth of each channel.
type Drawn = (String, String, f64, f64, f64);

fn drawn(parts: &Parts, unit: Unit) -> Vec<Drawn> {
    let number = |length: Length| length.in_unit(unit).to_f64();
    let channels = |part: &Part| -> Vec<Drawn> {
        let channels = part.features.iter().filter(|feature| feature.is_channel());
        channels
            .map(|feature| {
                let channel = part.channel(feature);
                let (from, to) = (channel.from, channel.from + channel.wide);
                let datum = part.face_name(channel.datum);
                (part.mark.clone(), datum, number(from), number(to), number(feature.deep))
            })
            .collect()
    };
    parts.all.iter().flat_map(channels).collect()
}

/// Follows every set-up of a piece; the channels that come out of it.
fn follow(compiled: &Compilation) {
    let (piece, parts) = (compiled.piece.as_ref().unwrap(), compiled.parts.as_ref().unwrap());
    let unit = piece.tape().unit;
    let number = |length: Length| length.in_unit(unit).to_f64();
    let mark = number(piece.tape().mark);
    // 0.1 mm for what mates (common practice, no source), and what the paper
    // itself rounds a set-over to.
    let mating = number(Length::mm(1) * Exact::ratio(1, 10)) + 0.001;
    let files = papers::packet(compiled).expect("papers");
    let sheet = files.into_iter().find(|file| file.name == "jig-sheet.txt").expect("the sheet");
    let mut left = drawn(parts, unit);
    assert!(!left.is_empty());
    for set in read(&sheet.text) {
        let strokes = set.strokes();
        // A bit that hangs over the edge cuts nothing there.
        let first = strokes.iter().map(|cut| cut.0).fold(f64::MAX, f64::min);
        let hangs = first < -mark;
        let from = if hangs { 0.0 } else { first };
        let to = strokes.iter().map(|cut| cut.1).fold(f64::MIN, f64::max);
        let mut sorted = strokes.clone();
        sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
        let whole = sorted.windows(2).all(|pair| pair[1].0 < pair[0].1);
        assert!(whole, "a ridge is left: {set:#?}");
        assert!(strokes.len() < 2 || !set.is_climb_cut(), "a climb cut: {set:#?}");
        assert!(set.places.iter().all(|place| *place >= 0.0), "{set:#?}");
        assert!(!set.marks.is_empty(), "{set:#?}");
        // The width of a rabbet is crept up on where one stroke hangs over the edge.
        assert!(!hangs || set.crept && strokes.len() == 1, "{set:#?}");
        let width = mating + if hangs { mark / 2.0 } else { 0.0 };
        for name in &set.marks {
            let at = left.iter().position(|(mark_, datum, a, b, deep)| {
                mark_ == name
                    && *datum == set.datum
                    && (a - from).abs() <= mark / 2.0 + mating
                    && ((b - a) - (to - from)).abs() <= width
                    && (deep - set.deep).abs() <= mark / 2.0
            });
            let at = at.unwrap_or_else(|| {
                panic!("{name} is cut from {from} to {to}, which is not drawn: {set:#?}\n{left:#?}")
            });
            left.remove(at);
        }
    }
    assert!(left.is_empty(), "drawn and never cut: {left:#?}");
}

#[test]
fn whoever_follows_the_sheet_cuts_what_is_drawn() {
    for name in SPECS {
        follow(&compile(&spec(name)));
    }
}

/// Bits as wide as the joint, a little narrower, half of it, a third of it; wide
/// and narrow base plates; none of which may change what is cut.
#[test]
fn any_bit_cuts_the_same_joint() {
    let press = spec("tide-cottage-press.case");
    for bits in ["18 mm", "17.5", "12", "9", "7", "6", "5.5", "5", "3.2"] {
        for base in ["150", "90", "176"] {
            let text = press
                .replace("bit straight-12 { straight 12; shank 12; speed 18000 }", "")
                .replace("bit straight-8  { straight 8; shank 8; speed 20000 }", "")
                .replace(
                    "bit straight-5  { straight 5; shank 8; speed 20000 }",
                    &format!("bit mine {{ straight {bits} }}"),
                )
                .replace("base-plate 150", &format!("base-plate {base}"));
            assert_ne!(text, press);
            follow(&compile(&text));
        }
    }
    let first = spec("first.case");
    for bits in ["3/4", "23/32", "1/2", "3/8", "1/4", "3/16", "1/8", "13/64"] {
        let text = format!("{first}\nbit mine {{ straight {bits} }}\n");
        follow(&compile(&text));
    }
}

/// Worked by hand: the dado lies from 27 to 45, the bit is 12 and the base 150
/// across, so the straight-edge stands at 27 + 6 + 75 and 45 − 6 + 75.
#[test]
fn a_wide_dado_is_set_twice_away_from_the_datum() {
    let compiled = compile(&spec("tide-cottage-press.case"));
    let files = papers::packet(&compiled).expect("papers");
    let sheet = files.into_iter().find(|file| file.name == "jig-sheet.txt").expect("the sheet");
    assert!(sheet.text.contains(">> 108, then 114  set-up 1: straight-edge, from the bottom end"));
    assert!(sheet.text.contains(">> 81, then 87  set-up 3: straight-edge, from the top end"));
}

/// A divider between drawers and open trays: dados on both its faces.
pub(crate) const BOTH_FACES: &str = r#"
casework 1
job "Both faces" { units in; tape 1/16 }
site { left open; right open; fixing wall }
stock board { plywood 3/4; actual 3/4; sheet { long 97; wide 49 } }
stock back-ply { plywood 1/4; actual 1/4; sheet { long 96; wide 48 } }
case store {
  wide 36; deep 24; high 34
  stock board
  bottom { joint dado { deep 1/4 } }
  top { panel; joint rabbet { deep 3/8 } }
  back { stock back-ply; joint rabbet { deep 3/8 } }
  frame none
  across {
    down books { wide 15; open low { high 12 }; divider { stock board; joint dado { deep 1/4 } }; open high { share 1 } }
    divider { stock board; joint dado { deep 1/4 } }
    down trays { share 1; open one { high 12 }; divider { stock board; joint dado { deep 1/4 } }; open two { share 1 } }
  }
}
"#;

#[test]
fn dados_on_two_faces_of_a_board_are_two_set_ups() {
    let compiled = compile(BOTH_FACES);
    assert!(compiled.is_sound(), "{:#?}", compiled.diagnostics);
    follow(&compiled);
    let files = papers::packet(&compiled).expect("papers");
    let sheet = files.into_iter().find(|file| file.name == "jig-sheet.txt").expect("the sheet");
    let parts = compiled.parts.as_ref().unwrap();
    let upright = parts.all.iter().find(|part| {
        let faces: BTreeSet<_> =
            part.features.iter().filter(|f| f.is_channel()).map(|f| f.face).collect();
        faces.len() == 2
    });
    let mark = &upright.expect("a divider cut on both faces").mark;
    let sets: Vec<&str> = sheet
        .text
        .split(">> ")
        .skip(1)
        .filter(|set| {
            set.lines().any(|line| line.trim_start().starts_with(&format!("[ ]  {mark} ")))
        })
        .collect();
    assert_eq!(sets.len(), 2, "{}", sheet.text);
    let face = |set: &str| {
        let line = set.lines().find(|line| line.contains(" deep in the ")).expect("a face");
        line.split(" deep in the ")
            .nth(1)
            .and_then(|rest| rest.split(';').next())
            .map(str::to_owned)
    };
    assert_ne!(face(sets[0]), face(sets[1]));
}

/// Worked by hand: the back's rabbet is 5.5 wide, and the bit of 8 hangs over the
/// edge: 5.5 − 4 + 75. Any other bit has its far side at 5.5 too, with its center
/// half its width before that: 5.5 + 75 less the half.
#[test]
fn a_rabbet_takes_any_wider_bit() {
    let compiled = compile(&spec("tide-cottage-press.case"));
    let files = papers::packet(&compiled).expect("papers");
    let sheet = files.into_iter().find(|file| file.name == "jig-sheet.txt").expect("the sheet");
    assert!(sheet.text.contains(">> 76.5  set-up 5: straight-edge, from the back edge"));
    assert!(sheet.text.contains("any other straight bit from 7 to 25 wide cuts this rabbet at one setting: stand the straight-edge at 80.5 less half the width of that bit"));
}

/// A maker reads the sheet at the bench: the words of the text that it was made from
/// say nothing there.
#[test]
fn the_sheet_has_no_word_of_the_language() {
    for name in SPECS {
        let files = papers::packet(&compile(&spec(name))).expect("papers");
        let sheet = files.into_iter().find(|file| file.name == "jig-sheet.txt").expect("a sheet");
        let words = sheet.text.split(|letter: char| !letter.is_alphanumeric());
        assert!(!sheet.text.contains('`') && !words.into_iter().any(|word| word == "spec"));
    }
}

/// Proof that the reading above can fail: the settings as they were once
/// printed, 114 and then 6 further, are found out.
#[test]
fn a_setting_that_is_off_is_found() {
    let set = |guide, places: &[f64]| Sheet {
        guide,
        places: places.to_vec(),
        bit: 12.0,
        base: 150.0,
        deep: 6.0,
        datum: String::new(),
        marks: Vec::new(),
        crept: false,
    };
    assert_eq!(set(Guide::Far, &[108.0, 114.0]).strokes(), [(27.0, 39.0), (33.0, 45.0)]);
    assert_eq!(set(Guide::Far, &[114.0, 120.0]).strokes(), [(33.0, 45.0), (39.0, 51.0)]);
    assert!(set(Guide::Far, &[114.0, 108.0]).is_climb_cut());
    assert!(set(Guide::Near, &[108.0, 114.0]).is_climb_cut());
    assert!(!set(Guide::Near, &[114.0, 108.0]).is_climb_cut());
    assert!(set(Guide::Table, &[33.0, 27.0]).is_climb_cut());
}
