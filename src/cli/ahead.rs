//! Records of days that are still to come. The core has no clock, so the shell
//! looks for them.

use crate::measure::Date;
use crate::pipeline::Compilation;

/// The day by the clock and the time zone of this machine.
pub(super) fn today() -> Option<Date> {
    let today = jiff::ZonedDateTime::now().date();
    let year = u16::try_from(today.year()).ok()?;
    Date::new(year, u8::try_from(today.month()).ok()?, u8::try_from(today.day()).ok()?)
}

/// A line for each day to come of which something is recorded: all that is
/// recorded until then would count as older.
pub(super) fn told(compiled: &Compilation) -> String {
    // The time zone is looked up in many files, which a check on each save has no time for.
    let records = compiled.piece.as_ref().is_some_and(|piece| !piece.cuts.is_empty());
    let today = if records { today() } else { None };
    today.map_or_else(String::new, |today| after(compiled, today))
}

fn after(compiled: &Compilation, today: Date) -> String {
    let cuts = compiled.piece.iter().flat_map(|piece| &piece.cuts);
    let mut days: Vec<Date> = Vec::new();
    let mut told = String::new();
    for cut in cuts.filter(|cut| cut.date > today) {
        if days.contains(&cut.date) {
            continue;
        }
        days.push(cut.date);
        let name = compiled.sources.get(cut.name.span.file).map_or("", |own| own.name.as_str());
        let line = compiled.sources.position(cut.name.span).line;
        told.push_str(&format!(
            "{name} line {line}: this record is of {}, but today is {today}; correct the day, because what is recorded before it counts as older\n",
            cut.date
        ));
    }
    told
}
