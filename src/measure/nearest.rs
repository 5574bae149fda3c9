//! Did you mean: the known word nearest to a misspelt one.

/// The candidate nearest to `word`: equal but for case, hyphens or a plural
/// `s`, or else within a third of its length (at least one letter) by optimal
/// string alignment. The first of equals.
pub fn nearest<'a>(word: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    let plain = |text: &str| text.to_lowercase().replace(['-', '_'], "");
    let word = plain(word);
    let letters = word.chars().count();
    let limit = (letters / 3).max(1);
    let mut best: Option<(usize, &str)> = None;
    for candidate in candidates {
        let known = plain(candidate);
        // No letter need be compared where the lengths alone are too far apart.
        if known.chars().count().abs_diff(letters) > limit {
            continue;
        }
        let distance = if known.trim_end_matches('s') == word.trim_end_matches('s') {
            0
        } else {
            strsim::osa_distance(&word, &known)
        };
        if distance <= limit && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn finds_what_was_meant_and_nothing_far_off() {
        let words = ["toe-kick", "drawers", "stile", "rail", "wide"];
        let near = |word| nearest(word, words.into_iter());
        assert_eq!(near("toekick"), Some("toe-kick"));
        assert_eq!(near("drawer"), Some("drawers"));
        assert_eq!(near("stlie"), Some("stile"));
        assert_eq!(near("Wide"), Some("wide"));
        assert_eq!(near("reveal"), None);
    }
}
