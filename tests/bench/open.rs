//! What the shop still finds in packets that the compiler makes: faults that are
//! known and not mended yet. What is mended is taken out of these lists.

/// A fault, by all the words that its complaint has.
type Known = &'static [&'static str];

/// Of the demo pieces; each of them is found there. None is left.
pub(super) const IN_DEMOS: &[Known] = &[];

/// Of pieces drawn at random, beside those. None is left.
pub(super) const IN_DRAWN: &[Known] = &[];

/// What the shop finds where the compiler warns of it by a finding of this name:
/// the maker has been told.
const TOLD: &[(&str, Known)] = &[
    ("small-for-router", &["front: the face is too narrow for the router to stand on"]),
    ("small-for-router", &["is too short to rout"]),
];

/// The same where one finding stands for all its places.
const TOLD_ONCE: &[(&str, Known)] = &[
    ("panel-room", &["it swells by", "in its grooves"]),
    ("pull-near-edge", &["is left beside its pull hole"]),
];

/// True for a fault that one of these findings is about, each told by its name and
/// by the path of what it is about.
pub(super) fn is_told(complaint: &str, findings: &[(&str, &str)]) -> bool {
    let once = TOLD_ONCE.iter().filter(|(_, known)| has_all(complaint, known));
    if once.into_iter().any(|(slug, _)| findings.iter().any(|(name, _)| name == slug)) {
        return true;
    }
    let words: Vec<&str> = complaint.split(|letter: char| !letter.is_alphanumeric()).collect();
    TOLD.iter().filter(|(_, known)| has_all(complaint, known)).any(|(slug, _)| {
        let mut own = findings.iter().filter(|(name, _)| name == slug);
        own.any(|(_, path)| {
            // The openings in it, or between which it stands: pieces drawn at random have
            // openings n1, n2, …
            let is_opening = |name: &&str| {
                name.strip_prefix('n').is_some_and(|number| number.parse::<u16>().is_ok())
            };
            let openings = |part: &str| -> Vec<String> {
                part.split('-').filter(is_opening).map(str::to_owned).collect()
            };
            let named = path.split('.').rev().map(openings).find(|own| !own.is_empty());
            named.is_some_and(|own| own.iter().all(|name| words.contains(&name.as_str())))
        })
    })
}

/// True for a fault that is known.
pub(super) fn is_known(complaint: &str, lists: &[&[Known]]) -> bool {
    lists.iter().copied().flatten().any(|known| has_all(complaint, known))
}

/// True for a complaint with all these words.
pub(super) fn has_all(complaint: &str, known: Known) -> bool {
    known.iter().all(|word| complaint.contains(word))
}
