//! Taming: the fewest cells, by exhaustive search; every colour kept; the axis kept.

use std::collections::BTreeSet;

use yokeward::course::chart::{Chart, to_yaml};
use yokeward::rows::tame::{Refusal, Request, longest_float, rest_after, tame};

use crate::harness::{Random, chart, load_chart, reference, study_chart};

fn request(longest: usize) -> Request {
    Request {
        longest,
        ..Request::default()
    }
}

/// Own definition of a float, written apart from the program's: the longest stretch without a colour between two
/// stitches of it, ends meeting in a ring.
fn longest(cells: &[u8], closed: bool) -> usize {
    let n = cells.len();
    let mut longest = 0;
    for start in 0..n {
        let reach = if closed { start + n } else { n - 1 };
        if let Some(next) = (start + 1..=reach).find(|&i| cells[i % n] == cells[start]) {
            longest = longest.max(next - start - 1);
        }
    }
    longest
}

/// The worked row of drawn cells: between edges the repeat twice.
fn worked(cells: &[u8], repeat: (usize, usize)) -> Vec<u8> {
    let (from, to) = repeat;
    if (from, to) == (0, cells.len()) {
        return cells.to_vec();
    }
    [&cells[..to], &cells[from..to], &cells[to..]].concat()
}

struct Case {
    cells: Vec<u8>,
    repeat: (usize, usize),
    closed: bool,
    mirror: Option<usize>,
    locked: Vec<usize>,
}

impl Case {
    fn image(&self, i: usize, a: usize) -> usize {
        let n = self.cells.len();
        (a + 2 * n - 2 - i) % n
    }

    /// Fewest cells to change, over all colourings by the row's own colours that keep each of them.
    fn fewest(&self, limit: usize) -> Option<usize> {
        let mut colours = self.cells.clone();
        colours.sort_unstable();
        colours.dedup();
        let n = self.cells.len();
        let mut best = None;
        for code in 0..colours.len().pow(u32::try_from(n).unwrap()) {
            let mut rest = code;
            let row: Vec<u8> = (0..n)
                .map(|_| {
                    let colour = colours[rest % colours.len()];
                    rest /= colours.len();
                    colour
                })
                .collect();
            let changed = (0..n).filter(|&i| row[i] != self.cells[i]).count();
            if best.is_some_and(|best| best <= changed)
                || self.locked.iter().any(|&i| row[i] != self.cells[i])
                || colours.iter().any(|c| !row.contains(c))
                || self
                    .mirror
                    .is_some_and(|a| (0..n).any(|i| row[i] != row[self.image(i, a)]))
            {
                continue;
            }
            if longest(&worked(&row, self.repeat), self.closed) <= limit {
                best = Some(changed);
            }
        }
        best
    }

    fn chart(&self) -> Chart {
        let letters: String = self
            .cells
            .iter()
            .rev()
            .map(|c| char::from(b'a' + c))
            .collect();
        let (from, to) = self.repeat;
        let repeat = if !self.closed && (from, to) == (0, self.cells.len()) {
            String::new()
        } else {
            format!("repeat: {{ stitches: {}-{to} }}\n", from + 1)
        };
        let flat = if self.closed { "" } else { "worked: flat" };
        chart(&[&letters], &format!("{repeat}{flat}"))
    }

    fn check(&self) {
        let chart = self.chart();
        for limit in 1..=5 {
            let asked = Request {
                longest: limit,
                mirror: self.mirror.is_some(),
                keep_edges: !self.locked.is_empty(),
                share: 1,
            };
            let note = format!(
                "{:?} {:?} {:?} {limit} {:?}",
                self.cells, self.repeat, self.closed, self.mirror
            );
            match (tame(&chart, asked), self.fewest(limit)) {
                (Ok(tamed), Some(fewest)) => {
                    assert_eq!(tamed.cells.len(), fewest, "{note}");
                    assert!(tamed.exact, "{note}");
                    let row = tamed.chart.row(0);
                    assert!(
                        longest(&worked(row, self.repeat), self.closed) <= limit,
                        "{note}"
                    );
                    let colours = |row: &[u8]| row.iter().copied().collect::<BTreeSet<u8>>();
                    assert_eq!(colours(row), colours(chart.row(0)), "{note}");
                    if let (Some(a), Some(wanted)) = (tamed.axis, self.mirror) {
                        assert_eq!(a, wanted, "{note}");
                        assert!(
                            (0..row.len()).all(|i| row[i] == row[self.image(i, a)]),
                            "{note}"
                        );
                    }
                }
                (Err(Refusal::TooShort { smallest, .. }), None) => {
                    assert!(self.fewest(smallest).is_some(), "{note}: {smallest}");
                    assert!(
                        (limit..smallest).all(|f| self.fewest(f).is_none()),
                        "{note}: {smallest}"
                    );
                }
                (found, wanted) => panic!("{note}: {found:?}, exhaustive search {wanted:?}"),
            }
        }
    }
}

#[test]
fn rows_of_the_reference_need_as_many_cells() {
    // tests/reference/float_ease.json: minima by exhaustive search over all rows, both with free and with locked ends.
    let cases = reference("float_ease.json");
    let mut seen = (0, 0);
    for case in cases["cases"].as_array().unwrap() {
        let row: String = case["row"].as_str().unwrap().to_owned();
        let closed = case["cyclic"].as_bool().unwrap();
        let flat = if closed { "" } else { "worked: flat" };
        // The reference reads from the left; floats do not care.
        let chart = chart(&[&row], flat);
        let limit = usize::try_from(case["F"].as_u64().unwrap()).unwrap();
        if let Some(wanted) = case["min_flips"].as_u64() {
            let tamed = tame(&chart, request(limit)).unwrap();
            assert_eq!(tamed.cells.len() as u64, wanted, "{case}");
            seen.0 += 1;
        }
        if closed {
            continue;
        }
        let locked = Request {
            keep_edges: true,
            ..request(limit)
        };
        let found = tame(&chart, locked).ok().map(|t| t.cells.len() as u64);
        assert_eq!(
            found,
            case["min_flips_first_and_last_cell_locked"].as_u64(),
            "{case}"
        );
        seen.1 += 1;
    }
    assert!(seen.0 > 30 && seen.1 > 10, "{seen:?}");
}

#[test]
fn no_colouring_needs_fewer_cells() {
    let mut random = Random::new(7);
    for round in 0..900 {
        let colours = 2 + random.below(3);
        let n = colours + random.below([0, 0, 9, 5, 2][colours]);
        let mut cells: Vec<u8> = (0..n)
            .map(|i| {
                u8::try_from(if i < colours {
                    i
                } else {
                    random.below(colours)
                })
                .unwrap()
            })
            .collect();
        // Long runs are what taming is for.
        for i in 1..n {
            if random.below(2) == 0 {
                cells[i] = cells[i - 1];
            }
        }
        let closed = random.below(2) == 0;
        let edges = round % 3 == 0 && n > 3;
        let repeat = if edges {
            let from = random.below(2);
            (from, n - 1 - random.below(2))
        } else {
            (0, n)
        };
        let locked = if !closed && random.below(3) == 0 {
            vec![0, n - 1]
        } else {
            Vec::new()
        };
        Case {
            cells,
            repeat,
            closed,
            mirror: None,
            locked,
        }
        .check();
    }
}

#[test]
fn mirrored_rows_stay_mirrored_and_no_mirrored_colouring_needs_fewer_cells() {
    let mut random = Random::new(8);
    let mut axes = BTreeSet::new();
    for round in 0..500 {
        let colours = 2 + random.below(2);
        let n = colours + 2 + random.below(if colours == 2 { 9 } else { 4 });
        let closed = random.below(2) == 0;
        let edges = round % 4 == 0;
        let a = if closed && !edges {
            1 + random.below(n)
        } else {
            1
        };
        let repeat = if edges { (1, n - 1) } else { (0, n) };
        let mut case = Case {
            cells: vec![0; n],
            repeat,
            closed,
            mirror: Some(a),
            locked: Vec::new(),
        };
        for i in 0..n {
            let colour = u8::try_from(random.below(colours)).unwrap();
            case.cells[i] = colour;
            let image = case.image(i, a);
            case.cells[image] = colour;
        }
        // The lowest axis counts, which may be another than the one drawn on.
        let last = if closed && !edges { n } else { 1 };
        let holds = |a: usize| (0..n).all(|i| case.cells[i] == case.cells[case.image(i, a)]);
        case.mirror = (1..=last).find(|&a| holds(a));
        axes.extend(case.mirror);
        if case.cells.iter().any(|c| *c != case.cells[0]) {
            case.check();
        }
    }
    assert!(axes.len() > 4, "{axes:?}");
}

#[test]
fn a_chart_without_axis_cannot_keep_one() {
    let lopsided = chart(&["xx.x..", "xxxxxx"], "");
    let asked = Request {
        mirror: true,
        ..request(3)
    };
    assert_eq!(tame(&lopsided, asked).unwrap_err(), Refusal::NoAxis);
}

#[test]
fn a_tamed_chart_measures_as_tamed_and_reads_back() {
    let mut random = Random::new(9);
    for round in 0..200 {
        let width = 3 + random.below(14);
        let rows: Vec<String> = (0..1 + random.below(6))
            .map(|_| {
                (0..width)
                    .map(|_| [".", ".", ".", "x", "o"][random.below(5)])
                    .collect()
            })
            .collect();
        let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
        let extra = ["", "worked: flat", "repeat: { stitches: 2-3 }"][round % 3];
        let wild = chart(&rows, extra);
        let drawn = study_chart(&wild, 20.0).measures.floats.longest;
        assert_eq!(longest_float(&wild), drawn, "{rows:?} {extra}");
        let Ok(tamed) = tame(&wild, request(4)) else {
            continue;
        };
        assert!(study_chart(&tamed.chart, 20.0).measures.floats.longest <= 4);
        let (rested, added) = rest_after(&tamed.chart, 3);
        assert_eq!(rested.height, wild.height + added.len());
        let again = load_chart(&to_yaml(&rested, &["made".to_owned()]));
        assert_eq!(again.cells, rested.cells, "{rows:?} {extra}");
        assert_eq!(again.repeat_stitches, rested.repeat_stitches);
        assert_eq!(again.repeat_rows, rested.repeat_rows);
        assert_eq!(again.rights, rested.rights);
        let rest = study_chart(&again, 20.0).measures.relief.stretch;
        // 24 stands for a chart without any relief row: one that never has more than three stranded rows on end.
        assert!(rest <= 3 || added.is_empty(), "{rows:?} {extra}: {rest}");
    }
}

/// A plain row has the colour most seen in the row beneath it; of equals the chart's first.
#[test]
fn a_plain_row_takes_the_colour_of_most_stitches_beneath() {
    for (row, plain) in [("..x", 0), ("xx.", 1), ("x.x.", 0), (".xooo", 2)] {
        let it = chart(&[row, row], "");
        let letters: Vec<char> = it.inks.iter().map(|ink| ink.letter).collect();
        let (rested, added) = rest_after(&it, 1);
        assert_eq!(added, [2], "{row}");
        let wanted = ['.', 'x', 'o'][plain];
        let cells: Vec<char> = rested
            .row(1)
            .iter()
            .map(|c| letters[usize::from(*c)])
            .collect();
        assert!(cells.iter().all(|c| *c == wanted), "{row}: {cells:?}");
    }
}
