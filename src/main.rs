//! The casewright command.

fn main() {}
