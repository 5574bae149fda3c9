//! Cutting plans of published instances: how many sheets or boards against the best that is
//! known, how far from what no plan can do with less of, and how long it takes. Then the plans
//! of one piece, and of so many pieces that they have 1,000 parts.
//! `cargo bench --bench cutting`; never part of a test. `CASEWRIGHT_CUTTING` names another
//! folder with a `best.csv` and its instances; `-- --csv` prints the instances alone, for
//! `benches/compare.py`.

#![allow(
    missing_docs,
    clippy::expect_used,
    clippy::print_stdout,
    clippy::panic,
    reason = "a benchmark that can't go on stops"
)]

#[path = "../tests/cutting/instances.rs"]
mod instances;

use std::env;
use std::path::PathBuf;
use std::time::Instant;

use casewright::cutting::{self, Plan};
use casewright::model::MemoryFiles;
use casewright::pipeline::{self, Compilation};
use instances::{Instance, OWN, instances};

const CONSOLE: &str = include_str!("../specs/hall-console.case");
/// How often the plans of a piece are made, of which the middle one counts.
const TIMES: usize = 15;

/// An instance as it was planned.
struct Run {
    instance: Instance,
    plan: Plan,
    ms: f64,
}

impl Run {
    fn of(instance: Instance) -> Self {
        let start = Instant::now();
        let plan = cutting::plan(&instance.order);
        let ms = start.elapsed().as_secs_f64() * 1000.0;
        assert!(plan.unplaced.is_empty(), "{}", instance.name);
        Self { instance, plan, ms }
    }

    fn taken(&self) -> i64 {
        self.plan.cost(&self.instance.order)
    }

    /// What no plan does with less of, by what the search knows or the published bound.
    fn bound(&self) -> i64 {
        self.plan.least.max(self.instance.least)
    }

    /// The search itself says that no plan takes less.
    fn is_proved(&self) -> bool {
        self.plan.least == self.taken()
    }
}

fn main() {
    let folder =
        env::var_os("CASEWRIGHT_CUTTING").map_or_else(|| PathBuf::from(OWN), PathBuf::from);
    let runs = instances(&folder).into_iter().map(Run::of);
    if env::args().any(|own| own == "--csv") {
        println!("name,taken,best,bound,ms,proved");
        for run in runs {
            let (taken, best) = (run.taken(), run.instance.best);
            let (bound, proved) = (run.bound(), run.is_proved());
            println!("{},{taken},{best},{bound},{:.1},{proved}", run.instance.name, run.ms);
        }
        return;
    }
    let runs: Vec<Run> = runs.collect();
    table(&runs);
    let is_cost = |run: &&Run| run.instance.by_cost;
    let is_boards = |run: &&Run| run.instance.is_boards;
    totals("sheets of one size", runs.iter().filter(|run| !is_cost(run) && !is_boards(run)));
    totals("sheets of several sizes, by cost", runs.iter().filter(is_cost));
    totals("boards", runs.iter().filter(is_boards));
    plans_of("the hall console", CONSOLE, TIMES);
    let (count, text) = job_of(1000);
    plans_of(&format!("{count} hall consoles"), &text, 1);
}

fn table(runs: &[Run]) {
    println!(
        "{:<22}{:>7}{:>7}{:>7}{:>7}{:>8}{:>9}  proved least",
        "instance", "pieces", "taken", "best", "bound", "gap", "ms"
    );
    for run in runs {
        let (taken, best, bound) = (run.taken(), run.instance.best, run.bound());
        let pieces = run.instance.order.pieces.len();
        let gap = percent(taken - bound, bound);
        let proved = if run.is_proved() { "yes" } else { "no" };
        println!(
            "{:<22}{pieces:>7}{taken:>7}{best:>7}{bound:>7}{gap:>6.1} %{:>9.1}  {proved}",
            run.instance.name, run.ms
        );
    }
}

fn percent(more: i64, of: i64) -> f64 {
    100.0 * more as f64 / of.max(1) as f64
}

fn totals<'r>(what: &str, runs: impl Iterator<Item = &'r Run>) {
    let runs: Vec<&Run> = runs.collect();
    let sum = |own: fn(&Run) -> i64| runs.iter().map(|run| own(run)).sum::<i64>();
    let [taken, best] = [sum(Run::taken), sum(|run| run.instance.best)];
    let at_best = runs.iter().filter(|run| run.taken() <= run.instance.best).count();
    let proved = runs.iter().filter(|run| run.is_proved()).count();
    let slowest = runs.iter().map(|run| run.ms).fold(0.0, f64::max);
    println!(
        "{what}: {taken} against {best} of the best known, {:.1} % more; {at_best} of {} at the best, {proved} proved least; the slowest took {slowest:.0} ms",
        percent(taken - best, best),
        runs.len(),
    );
}

/// The console over and over, each under a name of its own, until there are so many parts to
/// cut.
fn job_of(parts: usize) -> (usize, String) {
    let (head, case) = CONSOLE.split_at(CONSOLE.find("case console").expect("a case"));
    let count = parts.div_ceil(parts_of(&compiled(CONSOLE)));
    let cases = (0..count).map(|n| case.replace("case console", &format!("case console-{n}")));
    (count, std::iter::once(head.to_owned()).chain(cases).collect())
}

fn compiled(text: &str) -> Compilation {
    pipeline::check(&MemoryFiles::one("a.case", text), "a.case").expect("a file")
}

fn parts_of(compiled: &Compilation) -> usize {
    compiled.parts.as_ref().expect("a sound piece").all.len()
}

/// How long the sheet plans and the board plans of a piece take, beside all else that is
/// worked out of it.
fn plans_of(name: &str, text: &str, times: usize) {
    let compiled = compiled(text);
    let mut took = Vec::new();
    let mut told = String::new();
    for _ in 0..times {
        let work = compiled.workings().expect("a sound piece");
        // What the plans hang on and others ask for too.
        let _ = (work.sticks(), work.ledger(), work.assembly());
        let start = Instant::now();
        let (sheets, boards) = (work.sheets(), work.boards());
        took.push(start.elapsed().as_secs_f64() * 1000.0);
        let bought = |own: &casewright::plans::sheets::OfStock| own.bought();
        let of_sheets: Vec<String> = sheets
            .iter()
            .map(|own| format!("{} sheets, no plan under {}", bought(own), own.least))
            .collect();
        let of_boards: Vec<String> = boards
            .iter()
            .map(|own| format!("{} boards, no plan under {}", own.bought().count(), own.least))
            .collect();
        told = [of_sheets, of_boards].concat().join("; ");
    }
    took.sort_by(f64::total_cmp);
    let middle = took.get(took.len() / 2).copied().unwrap_or_default();
    println!("plans of {name}, {} parts: {middle:.1} ms; {told}", parts_of(&compiled));
}
