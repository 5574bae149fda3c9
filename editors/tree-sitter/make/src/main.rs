//! Writes what the tree-sitter grammar is made into: `src` beside `grammar.js`, or the folder
//! that is named.

use std::error::Error;
use std::path::{Path, PathBuf};

/// The last version of the parser's tables that editors of 2022 read too.
const TABLES: usize = 14;

fn main() -> Result<(), Box<dyn Error>> {
    let grammar = Path::new(env!("CARGO_MANIFEST_DIR")).parent().ok_or("it lies in no folder")?;
    let into = std::env::args_os().nth(1).map_or_else(|| grammar.join("src"), PathBuf::from);
    std::fs::create_dir_all(&into)?;
    let mut told = Vec::new();
    tree_sitter_generate::generate_parser_in_directory(
        grammar,
        Some(&into),
        Some(grammar.join("grammar.js")),
        TABLES,
        None,
        Some("node"),
        true,
        tree_sitter_generate::OptLevel::default(),
        &mut told,
    )?;
    // For scanners written by hand, which there is none of.
    for unused in ["alloc.h", "array.h"] {
        std::fs::remove_file(into.join("tree_sitter").join(unused))?;
    }
    for said in told {
        eprintln!("{said:?}");
    }
    Ok(())
}
