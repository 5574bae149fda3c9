//! Exit codes, and the net under our own faults.

use std::panic::{AssertUnwindSafe, catch_unwind, set_hook};
use std::process::ExitCode;
use std::sync::{Arc, Mutex};

/// Bytes of stack for a command.
pub(super) const STACK: usize = 16 << 20;

/// How a run ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exit {
    /// Sound; warnings allowed.
    Sound,
    /// The spec has errors, or warnings where they are denied; two revisions
    /// differ; the spec has nothing of what is asked.
    Unsound,
    /// The command was misused, a file can't be read or written, or two
    /// revisions can't be compared.
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
    let place = Arc::new(Mutex::new(None));
    let seen = Arc::clone(&place);
    set_hook(Box::new(move |panic| {
        if let (Ok(mut seen), Some(at)) = (seen.lock(), panic.location()) {
            *seen = Some((at.file().to_owned(), at.line()));
        }
    }));
    // Deep but legal nesting needs more stack than Windows gives the first
    // thread. Elsewhere that has plenty, and the system's allocator is at its
    // best there: any other thread asks for memory page by page.
    let outcome = if cfg!(unix) {
        catch_unwind(AssertUnwindSafe(command)).ok()
    } else {
        let thread = std::thread::Builder::new().stack_size(STACK).spawn(command);
        thread.ok().and_then(|thread| thread.join().ok())
    };
    outcome.unwrap_or_else(|| {
        let place = place.lock().ok().and_then(|mut place| place.take());
        super::terminal::complain(&fault(
            place.as_ref().map(|(file, line)| (file.as_str(), *line)),
        ));
        Exit::Fault
    })
}

/// What is said of a fault of our own, with the room it happened in.
fn fault(place: Option<(&str, u32)>) -> String {
    let place = place.map_or(String::new(), |(file, line)| {
        let ours = file.rsplit_once("src/").map_or(file, |(_, ours)| ours);
        let stage = ours.split(['/', '.']).next().unwrap_or(ours);
        format!(" ({stage}, {ours}:{line})")
    });
    format!(
        "this is a fault in casewright{place}, not in the spec; please report it and include \
         the spec"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fault_names_its_stage() {
        let said = fault(Some(("src/parts/build/carcass.rs", 12)));
        assert!(
            said.starts_with("this is a fault in casewright (parts, parts/build/carcass.rs:12)")
        );
        assert!(fault(Some(("/home/x/casewright/src/pipeline.rs", 3))).contains("(pipeline, "));
        assert!(fault(None).starts_with("this is a fault in casewright, not in the spec"));
    }

    #[test]
    fn the_worse_end_counts() {
        assert_eq!(Exit::Sound.or(Exit::Unsound), Exit::Unsound);
        assert_eq!(Exit::Misused.or(Exit::Unsound), Exit::Misused);
    }
}
