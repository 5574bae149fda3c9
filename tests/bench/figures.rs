//! Figures as a maker reads them off a sheet.

/// An exact figure: a whole number or a fraction, `33/32`, `-3`.
pub(super) fn exact(text: &str) -> Option<f64> {
    match text.split_once('/') {
        Some((above, below)) => Some(above.parse::<f64>().ok()? / below.parse::<f64>().ok()?),
        None => text.parse().ok(),
    }
}

/// A printed figure: `3-5/16~`, `77.5`, `12-1/2 (m)`. What stands
/// behind it says only that it was rounded or measured, or its unit.
pub(super) fn printed(text: &str) -> Option<f64> {
    let text = text.trim();
    let text = text.strip_suffix("(m)").unwrap_or(text).trim_end();
    let text = text.trim_end_matches('~');
    let negative = text.strip_prefix(['-', '\u{2212}']);
    let (sign, text) = negative.map_or((1.0, text), |rest| (-1.0, rest));
    let (whole, part) = match text.split_once('-') {
        Some((whole, part)) => (whole.parse::<f64>().ok()?, part),
        None => (0.0, text),
    };
    Some(sign * (whole + exact(part)?))
}

/// A figure for a complaint: three places at the most.
pub(super) fn said(figure: f64) -> String {
    let text = format!("{figure:.3}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[test]
fn printed_figures_are_read_as_a_maker_reads_them() {
    for (text, figure) in [
        ("3-5/16~", 3.3125),
        ("77.5", 77.5),
        ("0", 0.0),
        ("1/32", 0.031_25),
        ("-1-1/2", -1.5),
        ("\u{2212}1-1/2", -1.5),
        ("12-1/2 (m)", 12.5),
        ("12-1/2~ (m)", 12.5),
        ("0.719", 0.719),
    ] {
        let read = printed(text).unwrap();
        assert!((read - figure).abs() < 1e-12, "{text} is read as {read}");
    }
    assert_eq!(printed("about 3"), None);
    assert_eq!(exact("33/32"), Some(1.031_25));
    assert_eq!(said(1.5), "1.5");
}
