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
    &["case", "cabinet"],
    &["in", "inch", "inches"],
    &["mm", "millimeter", "millimeters", "millimetre", "millimetres"],
];

/// The one of these words that means the same as `text`.
pub(super) fn same<'a>(text: &str, mut words: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let alike = ALIKE.iter().find(|alike| alike.contains(&text))?;
    words.find(|word| alike.contains(word))
}

/// Words for units that stand behind a figure, each behind how it is written there.
const UNITS: &[(&str, &[&str])] = &[
    ("in", &["inch", "inches"]),
    ("ft", &["foot", "feet"]),
    ("mm", &["millimeter", "millimeters", "millimetre", "millimetres"]),
    ("cm", &["centimeter", "centimeters", "centimetre", "centimetres"]),
    ("m", &["meter", "meters", "metre", "metres"]),
    ("%", &["percent", "pct"]),
    ("deg", &["degree", "degrees"]),
    ("F", &["fahrenheit", "f"]),
    ("C", &["celsius", "c"]),
    ("min", &["minute", "minutes", "mins"]),
    ("h", &["hour", "hours", "hr", "hrs"]),
    ("lb", &["pound", "pounds", "lbs"]),
    ("kg", &["kilogram", "kilograms", "kilo", "kilos", "kgs"]),
];

/// How makers write what a price is for, behind how it is written here.
const SOLD_BY: &[(&str, &[&str])] = &[
    ("board-foot", &["bf", "bdft", "bd-ft", "fbm", "board-feet", "boardfoot"]),
    ("ft2", &["sf", "sqft", "sq-ft", "square-foot"]),
    ("m2", &["sqm", "square-meter"]),
    ("m3", &["cbm", "cubic-meter"]),
    ("ft", &["foot", "lf"]),
    ("m", &["meter", "lm"]),
    ("each", &["ea", "pc", "pcs", "piece", "one"]),
    ("sheet", &["sht", "panel"]),
    ("pack", &["pk", "pkg", "box"]),
];

/// The one of these units that a price is meant for by this word.
pub(super) fn sold_by<'a>(text: &str, mut units: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let small = text.to_ascii_lowercase();
    let means = |unit: &str, others: &[&str]| others.contains(&small.as_str()) || unit == small;
    units.find(|unit| SOLD_BY.iter().any(|(own, others)| own == unit && means(own, others)))
}

/// Every unit that may stand behind a figure, also of values that take several words.
pub fn units() -> impl Iterator<Item = &'static str> {
    UNITS
        .iter()
        .map(|(unit, _)| *unit)
        .chain(["m2", "ft2", "ml", "l", "fl-oz", "qt", "gal", "psi", "GPa"])
}

/// How a unit is written that this word means.
pub(super) fn unit(text: &str) -> Option<&'static str> {
    let small = text.to_ascii_lowercase();
    UNITS.iter().find(|(_, others)| others.contains(&small.as_str())).map(|(unit, _)| *unit)
}

/// What makers call a thing that the language has another word for. It may mean something
/// else too, so the word is offered and not taken for it.
const CALLED: &[&[&str]] = &[
    &["end", "side"],
    &["ends", "sides"],
    &["pull", "handle", "knob"],
    &["slide", "runner", "glide"],
    &["base", "plinth"],
    &["toe-kick", "kick", "kickboard", "plinth"],
    &["countertop", "counter"],
    &["stock", "material"],
    &["species", "wood"],
    &["price", "cost"],
    &["joint", "joinery"],
    &["open", "opening"],
    &["like", "copy"],
    &["mirrored", "flipped", "reversed"],
];

/// The one of these words that `text` may be another form of, as `fixed` is of `fixing`, or
/// that makers call so.
pub(super) fn near<'a>(
    text: &str,
    words: impl Iterator<Item = &'a str> + Clone,
) -> Option<&'a str> {
    let stem = stem(text);
    let form = words.clone().find(|word| self::stem(word) == stem);
    form.or_else(|| {
        let mut words = words;
        let known =
            |word: &&str| CALLED.iter().any(|own| own.contains(&text) && own.contains(word));
        words.find(known)
    })
}

/// A word without the ending of its form, where three letters are left.
fn stem(word: &str) -> &str {
    let ended = ["ing", "ed", "es", "e", "s"].iter().filter_map(|end| word.strip_suffix(end));
    ended.into_iter().find(|stem| stem.len() >= 3).unwrap_or(word)
}

#[cfg(test)]
mod tests {
    use super::{near, same, unit};

    #[test]
    fn units_are_known_by_their_names() {
        assert_eq!(unit("inches"), Some("in"));
        assert_eq!(unit("Degrees"), Some("deg"));
        assert_eq!((unit("in"), unit("wide")), (None, None));
    }

    #[test]
    fn another_form_of_a_word_and_what_makers_call_it_are_near() {
        let site = ["left", "right", "fixing", "humidity"].into_iter();
        assert_eq!(near("fixed", site.clone()), Some("fixing"));
        assert_eq!(near("fix", site.clone()), Some("fixing"));
        assert_eq!(near("righting", site.clone()), Some("right"));
        assert_eq!(near("plinth", site), None);
        let case = ["ends", "end", "base", "hinge", "bottom"].into_iter();
        assert_eq!(near("hinged", case.clone()), Some("hinge"));
        assert_eq!(near("side", case.clone()), Some("end"));
        assert_eq!(near("plinth", case.clone()), Some("base"));
        // What is left of `bed` and `used` is no word.
        assert_eq!(near("bed", case.clone()), None);
        assert_eq!(near("used", case), None);
    }

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
