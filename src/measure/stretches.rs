//! What is left of a stretch between cuts in it.

use super::Length;

/// The stretches of a whole, from and to, that none of the cuts takes, in their order. Cuts may
/// come in any order, meet, and reach beyond the whole.
#[must_use]
pub fn between(
    (from, to): (Length, Length),
    cuts: impl IntoIterator<Item = (Length, Length)>,
) -> Vec<(Length, Length)> {
    let mut cuts: Vec<(Length, Length)> = cuts.into_iter().collect();
    cuts.sort_unstable();
    let (mut left, mut at) = (Vec::new(), from);
    for (start, end) in cuts.into_iter().chain([(to, to)]) {
        left.push((at, start.min(to)));
        at = at.max(end);
    }
    left.retain(|(from, to)| from < to);
    left
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 8 to 12 and 10 to 20 leave of 0 to 30 what lies before 8 and behind 20; a cut
    /// that only touches an end takes nothing, and one over all leaves nothing.
    #[test]
    fn cuts_take_what_they_cover() {
        let mm = |(from, to): (i64, i64)| (Length::mm(from), Length::mm(to));
        let left = |whole, cuts: &[(i64, i64)]| between(mm(whole), cuts.iter().copied().map(mm));
        assert_eq!(left((0, 30), &[]), [mm((0, 30))]);
        assert_eq!(left((0, 30), &[(10, 20), (8, 12)]), [mm((0, 8)), mm((20, 30))]);
        assert_eq!(left((0, 30), &[(-5, 0), (30, 40)]), [mm((0, 30))]);
        assert_eq!(left((0, 30), &[(-5, 5), (25, 40)]), [mm((5, 25))]);
        assert_eq!(left((0, 30), &[(5, 25), (10, 12)]), [mm((0, 5)), mm((25, 30))]);
        assert_eq!(left((0, 30), &[(-1, 31)]), []);
    }
}
