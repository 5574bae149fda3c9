//! `casewright measure`

use crate::papers;

use super::args::Measure;
use super::check;
use super::exit::Exit;
use super::terminal::Terminal;

pub(super) fn run(measure: &Measure, terminal: &Terminal) -> Exit {
    let Some(compiled) = check::compile(&measure.spec) else { return Exit::Misused };
    let exit = check::judge(&compiled, None);
    if exit != Exit::Sound {
        check::report(&measure.spec, &compiled, terminal);
    }
    // What is drawn is known even where it can't be built as measured.
    if let Some(work) = compiled.workings() {
        terminal.print(&papers::measuring_form(&work));
    }
    exit
}
