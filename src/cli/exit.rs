//! Exit codes, and the net under our own faults.

use std::panic::{AssertUnwindSafe, catch_unwind, set_hook};
use std::process::ExitCode;

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// Sound; warnings allowed.
    Sound,
    /// The spec has errors, or warnings where they are denied.
    Unsound,
    /// The command was misused, or a file can't be read or written.
    Misused,
    /// A fault in casewright itself.
    Fault,
}

impl Exit {
    /// The number the shell sees.
    #[must_use]
    pub fn code(self) -> u8 {
        match self {
            Self::Sound => 0,
            Self::Unsound => 1,
            Self::Misused => 2,
            Self::Fault => 70,
        }
    }

    /// The worse of two.
    #[must_use]
    pub fn or(self, other: Self) -> Self {
        if other.code() > self.code() { other } else { self }
    }
}

impl From<Exit> for ExitCode {
    fn from(exit: Exit) -> Self {
        Self::from(exit.code())
    }
}

/// Runs a command; a panic in it becomes one plain sentence.
pub(super) fn guarded(command: impl FnOnce() -> Exit + Send + 'static) -> Exit {
    set_hook(Box::new(|_| {}));
    // Deep but legal nesting needs more stack than some platforms give the
    // first thread.
    let thread = std::thread::Builder::new()
        .stack_size(16 << 20)
        .spawn(move || catch_unwind(AssertUnwindSafe(command)));
    let outcome = thread.ok().and_then(|thread| thread.join().ok()).and_then(Result::ok);
    outcome.unwrap_or_else(|| {
        super::terminal::complain(
            "this is a fault in casewright, not in the spec; please report it with the spec that shows it",
        );
        Exit::Fault
    })
}
