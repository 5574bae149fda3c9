//! Several things in one sentence.

use std::fmt::Display;

/// `1`, `1 and 2`, `1, 3, and 4`.
#[must_use]
pub fn listed<T: Display>(all: &[T]) -> String {
    let all: Vec<String> = all.iter().map(T::to_string).collect();
    match all.as_slice() {
        [most @ .., before, last] if !most.is_empty() => {
            format!("{}, {before}, and {last}", most.join(", "))
        }
        _ => all.join(" and "),
    }
}
