//! What `check` tells a code host: a SARIF log, or marks at the lines.

use std::collections::BTreeSet;

use crate::support::{Bench, Done, spec};
use serde_json::Value;

/// The schema as OASIS publishes it; tests/data/README.md says where from.
const SCHEMA: &str = include_str!("data/sarif-schema-2.1.0.json");

/// A spec of this piece, its bank too tall and an `accept` left over.
fn faulty() -> String {
    let text = spec("hall-console.case")
        .replace("drawer middle { share 1 }", "drawer middle { high 9-1/32 }")
        .replace("drawer lower  { share 1 }", "drawer lower  { high 9 }");
    assert!(text.contains("9-1/32"));
    text
}

fn warned(name: &str) -> String {
    format!("{}accept sag on cupboard.store \"it holds, {name}\"\n", spec("first.case"))
}

fn log(done: &Done) -> Value {
    serde_json::from_str(&done.out).unwrap_or_else(|error| panic!("{error}: {done:?}"))
}

/// The published schema, with `uri` and the other formats looked at. The
/// pattern of `language`, which no log of ours names, holds a stray bracket
/// that strict regular expressions refuse.
fn validator() -> jsonschema::Validator {
    let mut schema: Value = serde_json::from_str(SCHEMA).unwrap();
    for owner in ["run", "toolComponent"] {
        let place = format!("/definitions/{owner}/properties/language");
        let language = schema.pointer_mut(&place).unwrap();
        assert!(language.as_object_mut().unwrap().remove("pattern").is_some());
    }
    jsonschema::options().should_validate_formats(true).build(&schema).unwrap()
}

/// The log is one, and every name in it is what it should be.
fn is_valid(log: &Value) {
    let validator = validator();
    let wrong: Vec<String> = validator
        .iter_errors(log)
        .map(|error| format!("{}: {error}", error.instance_path()))
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
    // What the schema can't say: results name their rule by its place.
    let rules = log["runs"][0]["tool"]["driver"]["rules"].as_array().unwrap();
    for result in log["runs"][0]["results"].as_array().unwrap() {
        let place = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
        assert_eq!(rules[place]["id"], result["ruleId"]);
    }
}

fn results(log: &Value) -> &Vec<Value> {
    log["runs"][0]["results"].as_array().unwrap()
}

fn fingerprints(log: &Value) -> Vec<String> {
    let print = |result: &Value| result["partialFingerprints"]["casewright/v1"].clone();
    results(log).iter().map(|result| print(result).as_str().unwrap().to_owned()).collect()
}

fn sarif(bench: &Bench, specs: &[&str]) -> Value {
    let log = log(&bench.run(&[&["check", "--format", "sarif"], specs].concat()));
    is_valid(&log);
    log
}

#[test]
fn the_schema_refuses_what_is_no_log() {
    let validator = validator();
    let bench = Bench::new().with("tall.case", &faulty());
    let sound = sarif(&bench, &["tall.case"]);
    let spoilt: [(&str, Value); 5] = [
        ("/version", "2.0".into()),
        ("/runs/0/columnKind", "bytes".into()),
        ("/runs/0/results/0/level", "bad".into()),
        ("/runs/0/results/0/locations/0/physicalLocation/region/startLine", 0.into()),
        ("/runs/0/results/0/locations/0/physicalLocation/artifactLocation/uri", "a b".into()),
    ];
    for (place, value) in spoilt {
        let mut log = sound.clone();
        *log.pointer_mut(place).unwrap() = value;
        assert!(!validator.is_valid(&log), "{place}");
    }
}

#[test]
fn every_rule_is_in_the_log_with_its_page() {
    let bench = Bench::new().with("a.case", &spec("first.case"));
    let done = bench.run(&["check", "--format", "sarif", "a.case"]);
    assert_eq!((done.code, done.err.as_str()), (Some(0), ""));
    let log = log(&done);
    is_valid(&log);
    assert!(results(&log).is_empty());
    let rules = log["runs"][0]["tool"]["driver"]["rules"].as_array().unwrap();
    assert_eq!(rules.len(), casewright::checks::slugs().count());
    for rule in rules {
        let id = rule["id"].as_str().unwrap();
        assert_eq!(rule["help"]["text"].as_str().unwrap(), bench.run(&["explain", id]).out);
        let full = rule["fullDescription"]["text"].as_str().unwrap();
        assert!(full.starts_with(rule["shortDescription"]["text"].as_str().unwrap()), "{id}");
    }
    assert_eq!(log["runs"][0]["artifacts"][0]["location"]["uri"], "a.case");
}

#[test]
fn every_mistake_of_the_collection_makes_a_valid_log() {
    let specs = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("specs");
    let log = log(&crate::support::done(
        Bench::new().command(&["check", "--format", "sarif", "broken"]).current_dir(specs),
    ));
    is_valid(&log);
    let met: BTreeSet<&str> =
        results(&log).iter().map(|result| result["ruleId"].as_str().unwrap()).collect();
    assert!(met.len() > 80, "{}", met.len());
    let prints = fingerprints(&log);
    assert_eq!(prints.iter().collect::<BTreeSet<_>>().len(), prints.len(), "each has its own");
}

#[test]
fn a_result_says_what_the_page_says_and_where() {
    let bench = Bench::new().with("jobs/tall é.case", &faulty());
    let log = sarif(&bench, &["jobs/tall é.case"]);
    let [result] = results(&log).as_slice() else { panic!("{log}") };
    assert_eq!((&result["ruleId"], &result["level"]), (&"sizes-conflict".into(), &"error".into()));
    let message = result["message"]["text"].as_str().unwrap();
    assert!(message.starts_with("the openings of bank come to 26-1/32"), "{message}");
    assert!(message.contains("\nover by 1/32\n") && message.contains("\nmend: line "), "{message}");

    let place = &result["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "jobs/tall%20%C3%A9.case");
    assert_eq!(place["artifactLocation"]["uriBaseId"], "%SRCROOT%");
    assert_eq!(result["locations"][0]["logicalLocations"][0]["fullyQualifiedName"], "console.bank");
    let text = faulty();
    let related = result["relatedLocations"].as_array().unwrap();
    assert!(related.len() >= 5);
    for location in related.iter().chain(result["locations"].as_array().unwrap()) {
        let region = &location["physicalLocation"]["region"];
        let number = |name: &str| usize::try_from(region[name].as_u64().unwrap()).unwrap();
        // Counted again, the slow way.
        let (start, end) = (number("byteOffset"), number("byteOffset") + number("byteLength"));
        for (at, line, column) in
            [(start, "startLine", "startColumn"), (end, "endLine", "endColumn")]
        {
            let before = &text[..at];
            assert_eq!(number(line), before.matches('\n').count() + 1);
            let last = before.rsplit('\n').next().unwrap();
            assert_eq!(number(column), last.chars().count() + 1);
        }
        assert!(location["message"]["text"].as_str().is_some_and(|text| !text.is_empty()));
    }
}

#[test]
fn a_fix_of_the_log_mends_the_spec() {
    let bench = Bench::new().with("tall.case", &faulty());
    let log = sarif(&bench, &["tall.case"]);
    let fixes = results(&log)[0]["fixes"].as_array().unwrap();
    assert!(fixes.len() >= 3);
    for fix in fixes {
        let [change] = fix["artifactChanges"].as_array().unwrap().as_slice() else { panic!() };
        assert_eq!(change["artifactLocation"]["uri"], "tall.case");
        let mut replacements = change["replacements"].as_array().unwrap().clone();
        let start = |one: &Value| one["deletedRegion"]["byteOffset"].as_u64().unwrap();
        replacements.sort_by_key(|one| std::cmp::Reverse(start(one)));
        let mut text = faulty();
        for one in replacements {
            let at = usize::try_from(start(&one)).unwrap();
            let length =
                usize::try_from(one["deletedRegion"]["byteLength"].as_u64().unwrap()).unwrap();
            text.replace_range(at..at + length, one["insertedContent"]["text"].as_str().unwrap());
        }
        std::fs::write(bench.path("mended.case"), text).unwrap();
        let done = bench.run(&["check", "mended.case", "--format", "short"]);
        assert!(!done.out.contains("sizes-conflict"), "{fix}: {done:?}");
    }
}

#[test]
fn a_finding_keeps_its_fingerprint_when_lines_move() {
    let one = Bench::new().with("a.case", &warned("one")).with("b.case", &faulty());
    let two = Bench::new()
        .with("a.case", &format!("# more\n\n{}", warned("one").replace("accept", "   accept")))
        .with("b.case", &format!("\n\n# more\n{}", faulty()));
    let (before, after) = (sarif(&one, &["a.case", "b.case"]), sarif(&two, &["a.case", "b.case"]));
    assert_eq!(fingerprints(&before), fingerprints(&after));
    assert_eq!(fingerprints(&before).len(), 2);
    assert_ne!(fingerprints(&before)[0], fingerprints(&before)[1]);
    let line = |log: &Value| {
        results(log)[0].pointer("/locations/0/physicalLocation/region/startLine").cloned()
    };
    assert_ne!(line(&before), line(&after));
}

#[test]
fn what_specs_share_is_told_once() {
    let shop = "stock odd { plywood = 3/4 }\n";
    let text = format!("{}use \"shop.case\"\n", spec("first.case"));
    let bench = Bench::new().with("a.case", &text).with("b.case", &text).with("shop.case", shop);
    let log = sarif(&bench, &["a.case", "b.case"]);
    assert_eq!(results(&log).len(), 1, "{log}");
    let marks = bench.run(&["check", "--format", "annotations", "a.case", "b.case"]);
    assert_eq!(marks.out.lines().count(), 1, "{marks:?}");
    assert!(marks.out.starts_with("::error file=shop.case,line=1,"), "{marks:?}");
}

#[test]
fn a_spec_that_can_not_be_read_is_told_in_the_log_too() {
    let bench = Bench::new().with("a.case", &spec("first.case"));
    let arguments = ["check", "a.case", "no,where.case", "--format"];
    let done = bench.run(&[&arguments[..], &["sarif"]].concat());
    assert_eq!(done.code, Some(2));
    let log = log(&done);
    is_valid(&log);
    let invocation = &log["runs"][0]["invocations"][0];
    assert_eq!(
        (&invocation["executionSuccessful"], &invocation["exitCode"]),
        (&false.into(), &2.into())
    );
    let told = &invocation["toolExecutionNotifications"][0]["message"]["text"];
    assert_eq!(told, "there is no file no,where.case");
    let done = bench.run(&[&arguments[..], &["annotations"]].concat());
    assert_eq!(done.code, Some(2));
    let command = "::error file=no%2Cwhere.case,title=casewright::there is no file no,where.case\n";
    assert_eq!(done.out, command);
}

#[test]
fn annotations_are_one_command_a_finding() {
    let bench = Bench::new().with("50%,a:b.case", &faulty()).with("w.case", &warned("two\u{85}"));
    let done = bench.run(&["check", "--format", "annotations", "50%,a:b.case", "w.case"]);
    assert_eq!((done.code, done.err.as_str()), (Some(1), ""));
    let lines: Vec<&str> = done.out.lines().collect();
    let [error, rest @ ..] = lines.as_slice() else { panic!("{done:?}") };
    let line = faulty().lines().position(|line| line.contains("high 5")).unwrap() + 1;
    let head = format!("::error file=50%25%2Ca%3Ab.case,line={line},endLine={line},col=");
    assert!(error.starts_with(&head), "{error}");
    assert!(
        error.contains(",title=sizes-conflict::the openings of bank come to 26-1/32 "),
        "{error}"
    );
    assert!(error.contains("%0Aover by 1/32%0A"), "{error}");
    assert!(!rest.is_empty() && rest.iter().all(|line| line.starts_with("::")), "{done:?}");
}
