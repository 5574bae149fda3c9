//! One SARIF log of a run, for code hosts and other programs.
//!
//! Static Analysis Results Interchange Format 2.1.0 plus errata 01 (OASIS,
//! 28 August 2023); the paragraphs named below are its own. Columns count
//! characters, bytes count from 0. There is no clock in the log.

mod document;

use std::collections::{BTreeMap, BTreeSet};

use super::json::escaped;
use super::plain;
use super::said::said;
use super::uri::uri;
use crate::diagnostics::{Diagnostic, Fix, Grade, Label, Severity, Sources};
use crate::measure::{FileId, Span, digest};

use document::*;

/// Where the schema is published.
const SCHEMA: &str =
    "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// The name by which consumers know the folder that relative paths start from;
/// where it lies is for them to say (3.14.14).
const ROOT: &str = "%SRCROOT%";

/// What is known of a rule.
#[derive(Clone, Debug)]
pub struct RuleText {
    /// Its name.
    pub slug: &'static str,
    /// How bad it is, if nothing else is said.
    pub severity: Severity,
    /// What it finds, in a sentence.
    pub short: String,
    /// What it finds and why that matters.
    pub full: String,
    /// The whole page.
    pub help: String,
}

/// A finding of one spec, on its way into the log.
#[derive(Clone, Debug)]
pub struct Finding {
    /// What stays when the line moves.
    steady: String,
    result: SarifResult,
}

/// What became of a run.
#[derive(Clone, Debug)]
pub struct Run<'a> {
    /// The version of casewright.
    pub version: &'a str,
    /// Every rule there is.
    pub rules: &'a [RuleText],
    /// The names of the specs, in order.
    pub specs: &'a [String],
    /// Why specs could not be read, a sentence each.
    pub unread: &'a [String],
    /// The number the shell sees.
    pub exit: u8,
}

/// The findings of one spec.
#[must_use]
pub fn sarif_findings(sources: &Sources, diagnostics: &[Diagnostic]) -> Vec<Finding> {
    diagnostics.iter().map(|diagnostic| finding(sources, diagnostic)).collect()
}

/// The log. What several specs share and is found in each stands in it once.
#[must_use]
pub fn sarif(run: &Run<'_>, findings: Vec<Finding>) -> String {
    let places: BTreeMap<&str, usize> =
        run.rules.iter().enumerate().map(|(place, rule)| (rule.slug, place)).collect();
    let mut seen = BTreeSet::new();
    let mut met: BTreeMap<String, usize> = BTreeMap::new();
    let mut results = Vec::with_capacity(findings.len());
    for Finding { steady, mut result } in findings {
        if !escaped(&result).is_some_and(|text| seen.insert(text)) {
            continue;
        }
        // Equal statements are told apart by their order.
        let nth = met.entry(steady.clone()).or_default();
        let number = digest([steady.as_bytes(), nth.to_string().as_bytes()]);
        *nth += 1;
        result.partial_fingerprints.insert("casewright/v1", format!("{number:016x}"));
        result.rule_index = places.get(result.rule_id).copied();
        results.push(result);
    }
    let roles = || vec!["analysisTarget"];
    let artifacts = run.specs.iter().map(|name| Artifact { location: file(name), roles: roles() });
    let note = |why: &String| Notification { level: "error", message: message(why) };
    let log = Log {
        schema: SCHEMA,
        version: "2.1.0",
        runs: [LogRun {
            tool: Tool {
                driver: Driver {
                    name: "casewright",
                    version: run.version,
                    semantic_version: run.version,
                    rules: run.rules.iter().map(described).collect(),
                },
            },
            invocations: [Invocation {
                execution_successful: run.unread.is_empty(),
                exit_code: run.exit,
                tool_execution_notifications: run.unread.iter().map(note).collect(),
            }],
            artifacts: artifacts.collect(),
            column_kind: "unicodeCodePoints",
            results,
        }],
    };
    escaped(&log).map(|text| text + "\n").unwrap_or_default()
}

fn finding(sources: &Sources, diagnostic: &Diagnostic) -> Finding {
    let primary = diagnostic.primary.span;
    let said = said(sources, diagnostic).join("\n");
    let related = diagnostic
        .labels
        .iter()
        .enumerate()
        .map(|(place, label)| Location { id: Some(place + 1), ..location(sources, label) });
    let fixes = diagnostic.fixes.iter().filter(|fix| is_whole(fix));
    let result = SarifResult {
        rule_id: diagnostic.slug,
        rule_index: None,
        level: diagnostic.severity.word(),
        message: message(&said),
        locations: [Location {
            logical_locations: diagnostic.subject.iter().map(|path| Logical::new(path)).collect(),
            ..location(sources, &diagnostic.primary)
        }],
        related_locations: related.collect(),
        fixes: fixes.map(|fix| change(sources, fix)).collect(),
        partial_fingerprints: BTreeMap::new(),
    };
    Finding { steady: steady(sources, diagnostic, primary), result }
}

/// A fix that is an edit as it stands: one with a hole is for a maker to fill.
fn is_whole(fix: &Fix) -> bool {
    fix.grade != Grade::Sketch && !fix.edits.is_empty()
}

/// Rule, file, and what the finding is about; without a subject, the words of
/// the line.
fn steady(sources: &Sources, diagnostic: &Diagnostic, at: Span) -> String {
    let source = sources.get(at.file);
    let line = source.map_or("", |source| source.line(sources.position(at).line));
    let words: Vec<&str> = line.split_whitespace().collect();
    let about = diagnostic.subject.clone().unwrap_or_else(|| words.join(" "));
    let name = source.map_or("", |source| source.name.as_str());
    [diagnostic.slug, name, &about, ""].join("\0")
}

fn location(sources: &Sources, label: &Label) -> Location {
    let text = &label.text;
    Location {
        id: None,
        physical_location: Physical {
            artifact_location: file_of(sources, label.span.file),
            region: region(sources, label.span),
        },
        message: (!text.is_empty()).then(|| message(&plain(text))),
        logical_locations: Vec::new(),
    }
}

fn file_of(sources: &Sources, id: FileId) -> ArtifactLocation {
    file(sources.get(id).map_or("", |source| source.name.as_str()))
}

/// A path below the folder of the run is told from there (3.4.4).
fn file(name: &str) -> ArtifactLocation {
    let uri = uri(name);
    let is_below = !uri.starts_with("file:") && uri.split('/').all(|part| part != "..");
    ArtifactLocation { uri, uri_base_id: is_below.then_some(ROOT) }
}

fn region(sources: &Sources, span: Span) -> Region {
    let (start, end) = (sources.position(span), sources.end_position(span));
    Region {
        start_line: start.line,
        start_column: start.column,
        end_line: end.line,
        end_column: end.column,
        byte_offset: span.start,
        byte_length: span.end.saturating_sub(span.start),
    }
}

/// The edits of a fix, file by file.
fn change(sources: &Sources, fix: &Fix) -> Change {
    let mut by_file: BTreeMap<FileId, Vec<Replacement>> = BTreeMap::new();
    for edit in &fix.edits {
        by_file.entry(edit.span.file).or_default().push(Replacement {
            deleted_region: region(sources, edit.span),
            inserted_content: Content { text: edit.text.clone() },
        });
    }
    let changes = by_file.into_iter().map(|(id, replacements)| ArtifactChange {
        artifact_location: file_of(sources, id),
        replacements,
    });
    Change {
        description: message(&plain(&fix.title)),
        artifact_changes: changes.collect(),
        properties: Grades { grade: fix.grade.word() },
    }
}

/// Braces stand for arguments in a message unless they are doubled (3.11.5).
fn message(text: &str) -> Message {
    Message { text: text.replace('{', "{{").replace('}', "}}") }
}

fn described(rule: &RuleText) -> Descriptor<'_> {
    Descriptor {
        id: rule.slug,
        short_description: Text { text: &rule.short, markdown: None },
        full_description: Text { text: &rule.full, markdown: None },
        help: Text {
            text: &rule.help,
            markdown: Some(format!("~~~text\n{}\n~~~", rule.help.trim_end())),
        },
        default_configuration: Configuration { level: rule.severity.word() },
    }
}
