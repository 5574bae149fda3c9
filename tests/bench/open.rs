//! What the shop still finds in packets that the compiler makes: faults that are
//! known and not mended yet. What is mended is taken out of these lists.

/// A fault, by all the words that its complaint has.
type Known = &'static [&'static str];

/// Of the demo pieces; each of them is found there. None is left.
pub(super) const IN_DEMOS: &[Known] = &[];

/// Of pieces drawn at random, beside those.
pub(super) const IN_DRAWN: &[Known] = &[
    // Flutes across a front that is too low to carry a router.
    &["front: the face is too narrow for the router to stand on"],
    // A pull at the edge of a panel.
    &["the pull hole"],
    &["a hole at ", " runs out of the board"],
    &["front, panel: wood is left"],
    // No way in was found past such a shelf.
    &["nothing says from where"],
    // A shelf that is longer than its opening is wide, and the opening too low.
    &["it can't be tilted through its opening"],
    &["there is no opening to tilt it through"],
];

/// True for a fault that is known.
pub(super) fn is_known(complaint: &str, lists: &[&[Known]]) -> bool {
    lists.iter().copied().flatten().any(|known| has_all(complaint, known))
}

/// True for a complaint with all these words.
pub(super) fn has_all(complaint: &str, known: Known) -> bool {
    known.iter().all(|word| complaint.contains(word))
}
