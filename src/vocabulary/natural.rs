//! Words that come to mind first, where the language has another: `width` for
//! `wide`. They are refused, since each thing has one word, but what was meant
//! is plain.

/// Words for the same thing. Which of them is the language's depends on where
/// it stands: a board is `long`, a slide has a `length`.
const ALIKE: &[&[&str]] = &[
    &["wide", "width"],
    &["high", "height", "tall"],
    &["deep", "depth"],
    &["long", "length"],
    &["thick", "thickness"],
    &["drawer", "draw"],
    &["in", "inch", "inches"],
    &["mm", "millimeter", "millimeters", "millimetre", "millimetres"],
];

/// The one of these words that means the same as `text`.
pub(super) fn same<'a>(text: &str, mut words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let alike = ALIKE.iter().find(|alike| alike.contains(&text))?;
    words.find(|word| alike.contains(word))
}

#[cfg(test)]
mod tests {
    use super::same;

    #[test]
    fn the_word_of_the_place_is_found() {
        assert_eq!(same("width", ["high", "wide"].into_iter()), Some("wide"));
        assert_eq!(same("length", ["long", "wide"].into_iter()), Some("long"));
        assert_eq!(same("long", ["undermount", "length"].into_iter()), Some("length"));
        assert_eq!(same("inches", ["in", "mm"].into_iter()), Some("in"));
        assert_eq!(same("width", ["high", "deep"].into_iter()), None);
        assert_eq!(same("stile", ["stile", "rail"].into_iter()), None);
    }
}
