//! The one spelling of the names of findings, where others are understood.

/// The words in names of findings that have another spelling: that one, and the
/// one that is written.
const OTHERS: &[(&str, &str)] = &[
    ("mitre", "miter"),
    ("mitred", "mitered"),
    ("centre", "center"),
    ("centres", "centers"),
    ("colour", "color"),
    ("nought", "zero"),
];

/// The name of a finding in the one spelling: `miter-unequal` for
/// `mitre-unequal`. A name without such a word stays as it is.
#[must_use]
pub fn finding(name: &str) -> String {
    let one = |word| OTHERS.iter().find(|(other, _)| *other == word).map_or(word, |(_, one)| *one);
    name.split('-').map(one).collect::<Vec<&str>>().join("-")
}
