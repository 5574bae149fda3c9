//! Published instances of cutting problems, for the test of plans and the benchmark.

use std::fs;
use std::path::Path;

use casewright::cutting::{Kind, Order, Stages, Wanted};

/// Those that stand with this repository: `tests/data/README.md` says where they are from.
pub(super) const OWN: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/data/cutting");

/// A published instance, its parts turned or not, with what is known of it.
pub(super) struct Instance {
    pub name: String,
    pub order: Order,
    /// The bound that stands beside it, and the least cost that anyone found.
    pub least: i64,
    pub best: i64,
    /// Its sheets are of several sizes and costs.
    pub by_cost: bool,
    /// Its pieces lie one behind the other.
    pub is_boards: bool,
}

/// The instances that `best.csv` of a folder has a line for.
pub(super) fn instances(folder: &Path) -> Vec<Instance> {
    let best = fs::read_to_string(folder.join("best.csv")).expect("best.csv");
    let mut all = Vec::new();
    for line in best.lines().skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |at: usize| cells[at].parse::<i64>().expect("a number");
        let is_boards = cells[1] == "1d";
        let own = if is_boards { ["boards", "1d"] } else { ["sheets", "2d"] };
        let mut paths =
            own.map(|own| folder.join(own).join(format!("{}.csv", cells[0]))).into_iter();
        let path = paths.find(|path| path.exists()).expect("an instance");
        let text = fs::read_to_string(path).expect("an instance");
        for turns in [false, true] {
            if turns && is_boards {
                continue;
            }
            let (least, best) = if turns { (9, 10) } else { (5, 6) };
            all.push(Instance {
                name: format!("{}{}", cells[0], if turns { " turned" } else { "" }),
                order: order(&text, turns),
                least: number(least),
                best: number(best),
                by_cost: cells[4] == "cost",
                is_boards,
            });
        }
    }
    all
}

fn order(text: &str, turns: bool) -> Order {
    let (mut kinds, mut pieces) = (Vec::new(), Vec::new());
    for line in text.lines().filter(|line| !line.starts_with('#')).skip(1) {
        let cells: Vec<&str> = line.split(',').collect();
        let number = |at: usize| cells[at].parse::<i64>().expect("a number");
        let kind = |size, cost| Kind { size, cost, count: None, above: None };
        match cells[0] {
            "sheet" => kinds.push(kind([number(1), number(2)], number(4))),
            "stock" => kinds.push(kind([number(1), 1], 1)),
            "part" if cells.len() == 3 => {
                let piece = Wanted { size: [number(1), 1], turns: false };
                pieces.extend((0..number(2)).map(|_| piece));
            }
            "part" => {
                let piece = Wanted { size: [number(1), number(2)], turns };
                pieces.extend((0..number(3)).map(|_| piece));
            }
            other => panic!("{other}"),
        }
    }
    let stages = Stages { most: None, first: None };
    // Several sizes are harder than one.
    let rounds = if kinds.len() > 1 { 20_000 } else { 8000 };
    Order { kinds, pieces, kerf: 0, stages, floor: 0, rounds: [rounds, 20] }
}
