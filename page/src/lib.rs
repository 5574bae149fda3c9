//! The compiler as a page asks it: one question in JSON, one answer in JSON.
//! A page calls `room`, writes its question there, calls `ask`, and reads the
//! answer at `answer`. It must look at the memory anew after each call, which
//! may have made it grow.
//! Must not know the page: what is shown, and in which words, is the page's.

#![deny(unsafe_op_in_unsafe_fn)]

mod at;
mod catalog;
mod desk;
mod drawn;
mod findings;
mod offered;
mod place;
mod table;
mod told;

use std::cell::RefCell;

use desk::Desk;

thread_local! {
    static QUESTION: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    static ANSWER: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
    static DESK: RefCell<Desk> = RefCell::default();
}

/// Makes room for a question of so many bytes, and gives where it is.
// SAFETY: no other function of the module has this name.
#[unsafe(no_mangle)]
pub extern "C" fn room(bytes: usize) -> *mut u8 {
    QUESTION.with_borrow_mut(|question| {
        question.clear();
        question.resize(bytes, 0);
        question.as_mut_ptr()
    })
}

/// Answers the question that stands in the room; gives how many bytes the answer has.
// SAFETY: no other function of the module has this name.
#[unsafe(no_mangle)]
pub extern "C" fn ask() -> usize {
    let answered = QUESTION
        .with_borrow(|question| DESK.with_borrow_mut(|desk| desk::answered(desk, question)));
    ANSWER.with_borrow_mut(|answer| {
        *answer = answered;
        answer.len()
    })
}

/// Where the last answer is.
// SAFETY: no other function of the module has this name.
#[unsafe(no_mangle)]
pub extern "C" fn answer() -> *const u8 {
    ANSWER.with_borrow(Vec::as_ptr)
}
