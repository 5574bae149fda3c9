//! Which part a name means. One table, so that asking for every part of a large
//! piece does not take the square of their number.

use std::collections::BTreeMap;

use crate::parts::{PartId, Parts};

/// The names of parts.
#[derive(Debug)]
pub(super) struct PartNames<'a> {
    whole: BTreeMap<&'a str, PartId>,
    /// By each end of a path; `None` where several end so.
    ends: BTreeMap<&'a str, Option<PartId>>,
    /// By mark in small letters; the same.
    marks: BTreeMap<String, Option<PartId>>,
}

impl<'a> PartNames<'a> {
    pub(super) fn of(parts: &'a Parts) -> Self {
        let mut names =
            Self { whole: BTreeMap::new(), ends: BTreeMap::new(), marks: BTreeMap::new() };
        for (id, part) in parts.iter() {
            names.whole.entry(part.path.as_str()).or_insert(id);
            for (dot, _) in part.path.match_indices('.') {
                let end = part.path.get(dot + 1..).unwrap_or_default();
                names.ends.entry(end).and_modify(|only| *only = None).or_insert(Some(id));
            }
            let mark = part.mark.to_ascii_lowercase();
            names.marks.entry(mark).and_modify(|only| *only = None).or_insert(Some(id));
        }
        names
    }

    /// The one part of this name: the whole of it, the end of it or, where that
    /// is asked for, its mark.
    pub(super) fn meant(&self, name: &str, by_mark: bool) -> Option<PartId> {
        if let Some(id) = self.whole.get(name) {
            return Some(*id);
        }
        let mark = || self.marks.get(&name.to_ascii_lowercase()).filter(|_| by_mark);
        *self.ends.get(name).or_else(mark)?
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::MemoryFiles;
    use crate::parts::{self, Meant};
    use crate::pipeline;

    #[test]
    fn parts_are_found_as_one_by_one() {
        let text = include_str!("../../specs/hall-console.case");
        let compiled = pipeline::check(&MemoryFiles::one("a.case", text), "a.case").unwrap();
        let parts = compiled.parts.as_ref().unwrap();
        let names = PartNames::of(parts);
        let mut asked: Vec<String> = vec!["nothing".into(), "front".into(), "CONSOLE".into()];
        for part in &parts.all {
            asked.extend([part.mark.clone(), part.mark.to_lowercase(), part.path.clone()]);
            asked
                .extend(part.path.match_indices('.').map(|(at, _)| part.path[at + 1..].to_owned()));
        }
        for name in asked {
            let expected = match parts::meant(parts, &name) {
                Meant::One(id) => Some(id),
                _ => None,
            };
            assert_eq!(names.meant(&name, true), expected, "{name}");
        }
    }
}
