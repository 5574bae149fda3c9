//! The places between the cases of a run that stay free.

use crate::diagnostics::Diagnostic;
use crate::vocabulary::{Entry, words};

use super::lower::Lower;
use super::size::Size;

/// What a space takes, if anything, and what stays clear beside that.
pub(super) fn takes(entry: &Entry, ctx: &mut Lower) -> Option<(Option<[Size; 2]>, Size)> {
    use words::takes_block::{HIGH, WIDE};

    let (body, name) = (entry.body()?, entry.name()?.value);
    let Some(takes) = body.one(words::space::TAKES) else {
        if let Some(clear) = body.one(words::space::CLEAR) {
            let title = format!("{name} has no appliance to keep clear of");
            let found = Diagnostic::error("word-missing", title, clear.head, "`takes` is missing");
            ctx.sink.push(found.note("say what it takes, or take this out"));
        }
        return Some((None, Size::zero()));
    };
    let takes = takes.body()?;
    let wide = ctx.positive(takes, WIDE, &format!("{name}'s appliance")).known()?;
    let high = ctx.positive(takes, HIGH, &format!("{name}'s appliance")).known()?;
    let clear = ctx.size_or_zero(body, words::space::CLEAR, "clear beside the appliance");
    Some((Some([wide, high]), clear))
}
