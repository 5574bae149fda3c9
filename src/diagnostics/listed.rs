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

/// `1 screw`, `3 screws`: for what takes an `s`.
#[must_use]
pub fn counted(count: impl TryInto<u64>, one: &str) -> String {
    match count.try_into().unwrap_or(u64::MAX) {
        1 => format!("1 {one}"),
        count => format!("{count} {one}s"),
    }
}

#[test]
fn one_is_not_many() {
    assert_eq!(counted(1_u32, "hinge"), "1 hinge");
    assert_eq!(counted(2_u32, "hinge"), "2 hinges");
}
