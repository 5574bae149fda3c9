//! Fuzzing: texts of any kind, mostly specs gone wrong, are put to each
//! command, and what must hold of any text is asked of it.

#[path = "../../tests/oracle/mod.rs"]
mod oracle;
mod slip;

pub use slip::slip;

/// What is asked of a text.
pub type Question = fn(&str);

/// Reading.
pub const PARSE: Question = oracle::parse;
/// Judging.
pub const CHECK: Question = oracle::check;
/// Printing the papers.
pub const PAPERS: Question = oracle::papers;
/// Formatting, twice.
pub const FORMAT: Question = oracle::format;
/// Making every fix.
pub const MEND: Question = oracle::mend;
/// What an editor asks while it is typed.
pub const EDITOR: Question = oracle::editor;
/// Telling what is different.
pub const COMPARE: Question = oracle::compare;
/// What an editor asks of the server while the text is edited. The text itself says which edits
/// those are.
pub const SERVER: Question = |text| {
    oracle::typed(text, casewright::measure::digest([text.as_bytes()]));
};

/// Asks it of a text; bytes that are none never reach the compiler, which
/// reads files as UTF-8.
pub fn ask(question: Question, bytes: &[u8]) {
    if let Ok(text) = std::str::from_utf8(bytes) {
        question(text);
    }
}

/// A target: the question, put to texts that are changed as a tired hand or a
/// hostile one would.
#[macro_export]
macro_rules! target {
    ($question:ident) => {
        libfuzzer_sys::fuzz_target!(|bytes: &[u8]| $crate::ask($crate::$question, bytes));
        libfuzzer_sys::fuzz_mutator!(|bytes: &mut [u8], size: usize, most: usize, seed: u32| {
            $crate::slip(bytes, size, most, seed, libfuzzer_sys::fuzzer_mutate)
        });
    };
}
