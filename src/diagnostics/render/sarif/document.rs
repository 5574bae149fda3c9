//! The objects of a SARIF log, as far as casewright fills them.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::diagnostics::render::plain;

#[derive(Serialize)]
pub(super) struct Log<'a> {
    #[serde(rename = "$schema")]
    pub(super) schema: &'a str,
    pub(super) version: &'a str,
    pub(super) runs: [LogRun<'a>; 1],
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct LogRun<'a> {
    pub(super) tool: Tool<'a>,
    pub(super) invocations: [Invocation; 1],
    pub(super) artifacts: Vec<Artifact>,
    pub(super) column_kind: &'a str,
    pub(super) results: Vec<SarifResult>,
}

#[derive(Serialize)]
pub(super) struct Tool<'a> {
    pub(super) driver: Driver<'a>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Driver<'a> {
    pub(super) name: &'a str,
    pub(super) version: &'a str,
    pub(super) semantic_version: &'a str,
    pub(super) rules: Vec<Descriptor<'a>>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Descriptor<'a> {
    pub(super) id: &'a str,
    pub(super) short_description: Text<'a>,
    pub(super) full_description: Text<'a>,
    pub(super) help: Text<'a>,
    pub(super) default_configuration: Configuration<'a>,
}

#[derive(Serialize)]
pub(super) struct Text<'a> {
    pub(super) text: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) markdown: Option<String>,
}

#[derive(Serialize)]
pub(super) struct Configuration<'a> {
    pub(super) level: &'a str,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Invocation {
    pub(super) execution_successful: bool,
    pub(super) exit_code: u8,
    pub(super) tool_execution_notifications: Vec<Notification>,
}

#[derive(Serialize)]
pub(super) struct Notification {
    pub(super) level: &'static str,
    pub(super) message: Message,
}

#[derive(Serialize)]
pub(super) struct Artifact {
    pub(super) location: ArtifactLocation,
    pub(super) roles: Vec<&'static str>,
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct SarifResult {
    pub(super) rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) rule_index: Option<usize>,
    pub(super) level: &'static str,
    pub(super) message: Message,
    pub(super) locations: [Location; 1],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) related_locations: Vec<Location>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) fixes: Vec<Change>,
    pub(super) partial_fingerprints: BTreeMap<&'static str, String>,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct Message {
    pub(super) text: String,
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Location {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) id: Option<usize>,
    pub(super) physical_location: Physical,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub(super) logical_locations: Vec<Logical>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) message: Option<Message>,
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Physical {
    pub(super) artifact_location: ArtifactLocation,
    pub(super) region: Region,
}

/// The part or opening a finding is about.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Logical {
    pub(super) fully_qualified_name: String,
}

impl Logical {
    pub(super) fn new(path: &str) -> Self {
        Self { fully_qualified_name: plain(path) }
    }
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct ArtifactLocation {
    pub(super) uri: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub(super) uri_base_id: Option<&'static str>,
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Region {
    pub(super) start_line: usize,
    pub(super) start_column: usize,
    pub(super) end_line: usize,
    pub(super) end_column: usize,
    pub(super) byte_offset: u32,
    pub(super) byte_length: u32,
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Change {
    pub(super) description: Message,
    pub(super) artifact_changes: Vec<ArtifactChange>,
    pub(super) properties: Grades,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct Grades {
    pub(super) grade: &'static str,
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct ArtifactChange {
    pub(super) artifact_location: ArtifactLocation,
    pub(super) replacements: Vec<Replacement>,
}

#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Replacement {
    pub(super) deleted_region: Region,
    pub(super) inserted_content: Content,
}

#[derive(Clone, Debug, Serialize)]
pub(super) struct Content {
    pub(super) text: String,
}
