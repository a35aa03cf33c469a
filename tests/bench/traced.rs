//! Two hundred drawn pictures of charts, read: `cargo bench --bench traced`. Prints how many were found and how many of
//! their cells are right, and fails where that is less than was promised.

#![allow(clippy::print_stdout, reason = "a benchmark prints what it found")]
#![allow(
    clippy::unwrap_used,
    missing_docs,
    unreachable_pub,
    dead_code,
    reason = "shared with the tests"
)]

#[path = "../suite/traced/sheet/mod.rs"]
mod sheet;

use std::time::Instant;

use sheet::{Kind, Sheet, right};
use yokeward::trace::{Options, trace};

/// Pictures of each kind.
const EACH: u64 = 50;

fn main() {
    let (mut wrong, mut given, mut all) = (0, 0, 0);
    for (kinds, least) in [
        ([Kind::Clean, Kind::Scan], 0.95),
        ([Kind::Pencil, Kind::Photo], 0.85),
    ] {
        let (mut found, mut cells, mut good) = (0, 0, 0);
        for kind in kinds {
            for seed in 0..EACH {
                let sheet = Sheet::of(kind, seed);
                let file = sheet.file();
                let start = Instant::now();
                match trace(&file, &Options::default()) {
                    Ok(read) if (read.stitches, read.rows) == (sheet.stitches, sheet.rows) => {
                        found += 1;
                        cells += sheet.cells.len();
                        good += right(&read.cells, &sheet.cells);
                    }
                    Ok(read) => {
                        wrong += usize::from(read.uncertain.is_empty());
                        println!(
                            "{kind:?} {seed}: {} by {} read as {} by {}",
                            sheet.stitches, sheet.rows, read.stitches, read.rows
                        );
                    }
                    Err(refusal) => println!("{kind:?} {seed}: {refusal:?}"),
                }
                let took = start.elapsed().as_secs_f64();
                assert!(took < 5.0, "{kind:?} {seed} took {took:.1} s");
                let known = Options {
                    corners: Some(sheet.corners),
                    size: Some((sheet.stitches, sheet.rows)),
                    ..Options::default()
                };
                given += right(&trace(&file, &known).unwrap().cells, &sheet.cells);
                all += sheet.cells.len();
            }
        }
        let (found, good) = (found as f64 / (2 * EACH) as f64, good as f64 / cells as f64);
        println!(
            "{kinds:?}: {:.1} % found, {:.3} % of their cells right",
            found * 100.0,
            good * 100.0
        );
        assert!(found >= least && good >= 0.995);
    }
    let given = given as f64 / all as f64;
    println!(
        "with corners and size: {:.3} % of all cells right; {wrong} sizes wrong and unsaid",
        given * 100.0
    );
    assert!(given >= 0.997 && wrong <= 1);
}
