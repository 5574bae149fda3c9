//! Pieces drawn at random: what the compiler accepts, the shop can build.

use std::cell::{Cell, RefCell};
use std::collections::{BTreeMap, BTreeSet};

use casewright::diagnostics::{Diagnostic, Severity};
use casewright::pipeline::Compilation;
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngAlgorithm, RngSeed, TestRng, TestRunner};
use serde_json::Value;

use super::demos::{entered, packet, unit};
use super::figures::exact;
use super::gates::Stop;
use super::{build, build_anew, off, open, pieces};
use crate::support::compile;

/// How many choices a spec is written from; what lies beyond is the simplest.
const CHOICES: usize = 160;

/// How many pieces are built.
fn wanted() -> u32 {
    let given = std::env::var("CASEWRIGHT_PIECES").ok();
    given.and_then(|given| given.parse().ok()).unwrap_or(100)
}

/// The joints, the guides, and the bits of a packet, and what else only it tells.
fn ways(packet: &str) -> BTreeSet<String> {
    let packet: Value = serde_json::from_str(packet).unwrap();
    let all = |list: &str, word: &str| -> Vec<String> {
        let own = packet[list].as_array().unwrap().iter();
        own.filter_map(|own| Some(own[word].as_str()?.to_owned())).collect()
    };
    let joints = all("joints", "kind").into_iter().map(|joint| format!("joint: {joint}"));
    let guides = all("operations", "guide").into_iter().map(|guide| format!("guide: {guide}"));
    let inches = packet["job"]["unit"] == "in";
    let bits = packet["tools"].as_array().unwrap().iter().filter_map(move |tool| {
        let wide = exact(tool["diameter"]["exact"].as_str()?)?;
        match if inches { wide * 25.4 } else { wide } {
            ..6.5 => Some("narrow bit".to_owned()),
            18.0.. => Some("wide bit".to_owned()),
            _ => None,
        }
    });
    let mut sheets = packet["sheets"].as_array().unwrap().iter();
    let in_sequence = sheets.any(|own| own["sequences"].as_array().is_some());
    let in_sequence = in_sequence.then(|| "fronts in sequence".to_owned());
    let webs = all("parts", "path").into_iter().filter(|path| path.contains("web-"));
    let webs = webs.map(|_| "web frame".to_owned());
    joints.chain(guides).chain(bits).chain(webs).chain(in_sequence).collect()
}

/// How many sound pieces are counted.
const SOUND: u32 = 600;

/// Of six hundred pieces that are drawn the same each time, fifty at least have each
/// way to build in them, and twenty what is rarer.
#[test]
fn every_way_to_build_is_drawn_often() {
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(Config::default(), rng);
    let choices = prop::collection::vec(any::<u16>(), CHOICES);
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    let (mut drawn, mut sound) = (0, 0);
    while sound < SOUND {
        drawn += 1;
        assert!(drawn < 6000, "of {drawn} pieces only {sound} are sound");
        let piece = pieces::write(&choices.new_tree(&mut runner).unwrap().current());
        let compiled = compile(&piece.text);
        if compiled.diagnostics.iter().any(|own| own.severity == Severity::Error) {
            continue;
        }
        sound += 1;
        let packet = packet(&compiled).unwrap();
        for way in piece.ways.into_iter().map(str::to_owned).chain(ways(&packet)) {
            *counts.entry(way).or_default() += 1;
        }
    }
    println!("{sound} of {drawn} pieces: {counts:#?}");
    let count = |way: &&&str| counts.get(**way).copied().unwrap_or(0);
    let rare: Vec<_> = pieces::WAYS
        .iter()
        .filter(|way| count(way) < 50)
        .chain(pieces::RARER.iter().filter(|way| count(way) < 20))
        .collect();
    assert!(rare.is_empty(), "seen too seldom: {rare:?}");
}

/// True where a finding warns of the screws of a complaint: no driver gets at them, or they
/// find no place clear of others.
fn is_told(packet: &str, complaint: &str, findings: &[Diagnostic]) -> bool {
    let told = [
        ("no driver gets at the screws of ", ", ", "driver-reach"),
        ("screws through ", " into ", "screws-meet"),
        ("they meet screws through ", " into ", "screws-meet"),
    ];
    let packet: Value = serde_json::from_str(packet).unwrap();
    told.iter().any(|(before, after, slug)| {
        let Some((_, rest)) = complaint.split_once(before) else { return false };
        let mut parts = packet["parts"].as_array().unwrap().iter();
        let part = parts
            .find(|part| rest.starts_with(&format!("{}{after}", part["mark"].as_str().unwrap())));
        let path = part.unwrap()["path"].as_str().unwrap();
        let own = findings.iter().filter(|own| own.slug == *slug);
        own.flat_map(|own| own.subject.iter().chain(&own.also)).any(|told| told == path)
    })
}

/// The text with each sheet that was measured drawn as thick as it is.
fn drawn_so(text: &str, unit: &str, stops: &[Stop]) -> String {
    let lines = text.lines().map(|line| {
        let is_of = |stop: &&Stop| line.starts_with(&format!("stock {} {{", stop.sheet));
        let Some(Stop { thick, .. }) = stops.iter().find(is_of) else { return line.to_owned() };
        let mut own: Vec<String> = line.split(';').map(str::to_owned).collect();
        own.retain(|own| !own.trim().starts_with("actual "));
        own[0].push_str(&format!("; actual {thick} {unit}"));
        own.join(";")
    });
    lines.collect::<Vec<_>>().join("\n")
}

/// The errors of a piece: which rule finds what.
fn refusals(compiled: &Compilation) -> BTreeSet<(&'static str, Option<String>)> {
    let own = compiled.diagnostics.iter().filter(|own| own.severity == Severity::Error);
    own.map(|own| (own.slug, own.subject.clone())).collect()
}

/// The thin walls of parts that no finding warns of.
fn untold(packet: &str, walls: &[String], findings: &[Diagnostic]) -> Vec<String> {
    let packet: Value = serde_json::from_str(packet).unwrap();
    let told: BTreeSet<&str> = findings
        .iter()
        .filter(|own| own.slug == "thin-wall")
        .flat_map(|own| own.subject.iter().chain(&own.also))
        .map(String::as_str)
        .collect();
    let is_told = |wall: &&String| {
        let mark = wall.split(',').next().unwrap();
        let mut parts = packet["parts"].as_array().unwrap().iter();
        let part = parts.find(|part| part["mark"] == mark).unwrap();
        told.contains(part["path"].as_str().unwrap())
    };
    walls.iter().filter(|wall| !is_told(wall)).cloned().collect()
}

/// What came of pieces that were built.
struct Tally {
    /// How often each way to build was among them.
    counts: BTreeMap<String, usize>,
    /// How many boards were mended after a reading.
    mended: usize,
    /// How many pieces have a screw that no driver gets at, and say so.
    out_of_reach: usize,
    /// How many are refused of sheets that are off, and drawn of those too.
    tight: u32,
}

/// How many pieces a hand draws, each hand with a seed of its own.
fn drawing(cases: u32, hand: u64) -> Config {
    let usual = Config::default();
    let rng_seed = match usual.rng_seed {
        RngSeed::Fixed(seed) => RngSeed::Fixed(seed + hand),
        RngSeed::Random => RngSeed::Random,
    };
    // About half of what is drawn is refused by a rule of the trade.
    let max_global_rejects = cases.saturating_mul(20);
    Config { cases, max_global_rejects, rng_seed, failure_persistence: None, ..usual }
}

#[test]
fn what_the_compiler_accepts_the_shop_can_build() {
    let wanted = wanted();
    let shares = match wanted {
        200.. => vec![wanted - wanted / 2, wanted / 2],
        _ => vec![wanted],
    };
    let tallies: Vec<Result<Tally, String>> = std::thread::scope(|scope| {
        let hands: Vec<_> = (0..)
            .zip(&shares)
            .map(|(hand, cases)| scope.spawn(move || built(drawing(*cases, hand))))
            .collect();
        hands.into_iter().map(|hand| hand.join().unwrap()).collect()
    });
    let mut all = Tally { counts: BTreeMap::new(), mended: 0, out_of_reach: 0, tight: 0 };
    for tally in tallies {
        let tally = tally.unwrap_or_else(|error| panic!("{error}"));
        all.mended += tally.mended;
        all.out_of_reach += tally.out_of_reach;
        all.tight += tally.tight;
        for (way, count) in tally.counts {
            *all.counts.entry(way).or_default() += count;
        }
    }
    let Tally { counts, mended, out_of_reach, tight } = all;
    assert!(wanted < 100 || mended > 50, "{mended} boards mended");
    println!("{out_of_reach} with a screw out of reach, each told");
    println!("{tight} refused of sheets that are off, and drawn of those too");
    assert!(tight <= 2 + wanted / 25, "{tight} refused of sheets that are off");
    // Every way to build is among them.
    println!("{wanted} pieces: {counts:#?}");
    let rare: Vec<_> = pieces::WAYS.iter().filter(|way| !counts.contains_key(**way)).collect();
    assert!(wanted < 100 || rare.is_empty(), "never seen: {rare:?}");
}

/// Draws so many sound pieces and builds each, once of wood as it is drawn and once of wood that
/// is off; what is wrong with the first that can't be built.
fn built(config: Config) -> Result<Tally, String> {
    let counts: RefCell<BTreeMap<String, usize>> = RefCell::default();
    let (number, mended, out_of_reach) = (Cell::new(0), Cell::new(0), Cell::new(0));
    let tight = Cell::new(0);
    let choices = prop::collection::vec(any::<u16>(), CHOICES);
    let built = TestRunner::new(config).run(&choices, |choices| {
        let drawn = pieces::write(&choices);
        let compiled = compile(&drawn.text);
        let errors = compiled.diagnostics.iter().any(|own| own.severity == Severity::Error);
        prop_assume!(!errors);
        let packet = packet(&compiled).unwrap();
        let report = build(&packet);
        let thin = untold(&packet, &report.thin_walls, &compiled.diagnostics);
        prop_assert!(thin.is_empty(), "{:#?}\n{}", thin, drawn.text);
        let complaints = report.complaints;
        let told: Vec<(&str, &str)> = compiled
            .diagnostics
            .iter()
            .flat_map(|own| {
                own.subject.iter().chain(&own.also).map(|path| (own.slug, path.as_str()))
            })
            .collect();
        let out = |own: &String| is_told(&packet, own, &compiled.diagnostics);
        if complaints.iter().any(out) {
            out_of_reach.set(out_of_reach.get() + 1);
        }
        let unknown: Vec<&String> = complaints
            .iter()
            .filter(|own| !out(own))
            .filter(|own| !open::is_told(own, &told))
            .filter(|own| !open::is_known(own, &[open::IN_DEMOS, open::IN_DRAWN]))
            .collect();
        prop_assert!(unknown.is_empty(), "{:#?}\n{}", unknown, drawn.text);
        // Again of wood that is off, one way for each piece.
        number.set(number.get() + 1);
        let (what, own) = off::ALL[number.get() % off::ALL.len()];
        let refused = Cell::new(false);
        // What is found of the piece as it is drawn again is told as well.
        let anew: RefCell<Vec<Diagnostic>> = RefCell::default();
        let again = |stops: &[Stop]| {
            let unit = unit(&packet);
            let compiled = compile(&entered(&drawn.text, &unit, stops));
            let found = refusals(&compiled);
            // A piece without slack may be right only in sheets as they are sold. It is
            // refused alike where it is drawn of sheets as thick as those.
            let alike = !found.is_empty()
                && found == refusals(&compile(&drawn_so(&drawn.text, &unit, stops)));
            refused.set(alike);
            let packet = self::packet(&compiled);
            anew.replace(compiled.diagnostics);
            packet
        };
        let report = build_anew(&packet, own, again);
        if refused.get() {
            tight.set(tight.get() + 1);
            return Ok(());
        }
        let more: Vec<&String> = report
            .complaints
            .iter()
            .filter(|own| !complaints.contains(own) && !out(own))
            .filter(|own| !is_told(&packet, own, &anew.borrow()))
            .filter(|own| !open::is_told(own, &told))
            .filter(|own| !open::is_known(own, &[open::IN_DEMOS, open::IN_DRAWN]))
            .collect();
        prop_assert!(more.is_empty(), "{}: {:#?}\n{}", what, more, drawn.text);
        mended.set(mended.get() + report.mended);
        let mut counts = counts.borrow_mut();
        let ways = drawn.ways.into_iter().map(str::to_owned).chain(ways(&packet));
        for way in ways {
            *counts.entry(way).or_default() += 1;
        }
        Ok(())
    });
    built.map_err(|error| error.to_string())?;
    Ok(Tally {
        counts: counts.into_inner(),
        mended: mended.get(),
        out_of_reach: out_of_reach.get(),
        tight: tight.get(),
    })
}
