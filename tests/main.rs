//! Every test that looks at the compiler from outside, in one binary: the
//! library is linked once.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that can't go on stops"
)]

mod oracle;
mod support;

mod accepting;
mod access;
mod around;
mod at_cause;
mod bases;
mod behind;
mod bench;
mod board_plan;
mod bounds;
mod bare;
mod baseboards;
mod bought_legs;
mod braces;
mod broken;
mod buying;
mod ci_files;
mod cli_check;
mod cli_shell;
mod closing;
mod countertops;
mod covers;
mod code_hosts;
mod completions;
mod cutting;
mod diff;
mod drawer_fronts;
mod drivers;
mod drawn_setups;
mod edging;
mod editor;
mod english;
mod examples;
mod faces;
mod false_fronts;
mod fingers;
mod finishes;
mod fitting;
mod folders;
mod found;
mod format;
mod framed;
mod glass;
mod fuzzed;
mod golden;
mod grain;
mod grammars;
mod hall_console;
mod history;
mod holes;
mod hostile;
mod hung;
mod jig;
mod jobs;
mod joints;
mod kitchen;
mod larder;
mod layout;
mod ledger;
mod measured;
mod mend;
mod mendings;
mod names;
mod narrow;
mod near_misses;
mod offers;
mod on_hand;
mod on_wood;
mod order;
mod packet;
mod papers;
mod pockets;
mod posts;
mod prefinished;
mod printed;
mod readme;
mod robust;
mod run_countertops;
mod runs;
mod said;
mod screws;
mod saving;
mod sawn_dadoes;
mod seasons;
mod server;
mod shared_bases;
mod sheet_plans;
mod sheets;
mod shelves;
mod shop;
mod slips;
mod solver;
mod sound;
mod square;
mod stacked;
mod step_words;
mod story;
mod strength;
mod sums;
mod swings;
mod syntax;
mod tidy;
mod totals;
mod watch;
mod web_frames;
mod why;
