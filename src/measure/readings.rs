//! Dates as they are written elsewhere.

use super::Date;

/// The days that `15.5.2026`, `5/15/2026` or `2026-5-15` may mean, two where
/// month and day could be either way round; `None` for what is no date at all.
#[must_use]
pub fn date_readings(text: &str) -> Option<Vec<Date>> {
    let mark = text.chars().find(|c| matches!(c, '.' | '/' | '-'))?;
    let mut parts = text.split(mark);
    let (first, second, third) = (parts.next()?, parts.next()?, parts.next()?);
    if parts.next().is_some() {
        return None;
    }
    let short =
        |part: &str| -> Option<u8> { (part.len() <= 2).then(|| number(part)?.try_into().ok())? };
    let year = |part: &str| (part.len() == 4).then(|| number(part)).flatten();
    if let (Some(year), Some(month), Some(day)) = (year(first), short(second), short(third)) {
        return Some(Date::new(year, month, day).into_iter().collect());
    }
    let (one, two) = (short(first)?, short(second)?);
    // Two digits of a year are a decimal or a fraction but for full stops.
    let year = year(third).or_else(|| {
        let short = short(third).filter(|_| third.len() == 2 && mark == '.')?;
        Some(2000 + u16::from(short))
    })?;
    let mut days: Vec<Date> = Date::new(year, two, one).into_iter().collect();
    // Where full stops part it, the day comes first.
    if mark != '.' {
        days.extend(Date::new(year, one, two));
    }
    days.dedup();
    Some(days)
}

fn number(digits: &str) -> Option<u16> {
    digits.bytes().all(|byte| byte.is_ascii_digit()).then(|| digits.parse().ok())?
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Option<Vec<String>> {
        date_readings(text).map(|days| days.iter().map(ToString::to_string).collect())
    }

    #[test]
    fn each_country_has_its_own() {
        let one = |day: &str| Some(vec![day.to_owned()]);
        for text in [
            "15.5.2026",
            "15.05.2026",
            "15.5.26",
            "15/5/2026",
            "5/15/2026",
            "15-5-2026",
            "05-15-2026",
            "2026-5-15",
            "2026/05/15",
            "2026.5.15",
            "2026-05-15",
        ] {
            assert_eq!(read(text), one("2026-05-15"), "{text}");
        }
        assert_eq!(read("3.4.2026"), one("2026-04-03"));
        assert_eq!(read("4/4/2026"), one("2026-04-04"));
        let two = ["2026-04-03".to_owned(), "2026-03-04".to_owned()];
        assert_eq!(read("3/4/2026"), Some(two.to_vec()));
    }

    #[test]
    fn no_such_day_has_no_reading_and_a_figure_is_no_date() {
        for text in ["31.2.2026", "0.5.2026", "13/13/2026", "2026-13-01"] {
            assert_eq!(read(text), Some(Vec::new()), "{text}");
        }
        for text in [
            "",
            "15",
            "1-1/2",
            "15.5",
            "1/2/3",
            "1-2-26",
            "15/5/26",
            "1.2.3",
            "20260515",
            "..",
            "--2026",
            "+1.5.2026",
            "1.5.20261",
            "1.5/2026",
            "1.1.1.2026",
        ] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
