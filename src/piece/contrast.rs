//! Yarns that meet in a row and will not read apart: which, where, in whose eyes, and what would do.

use std::collections::BTreeMap;

use crate::course::Lesson;
use crate::ground::colour::{Change, Sight, Which, check, hex, nearest_change};
use crate::rows::walk::Work;

/// Charts, each with its rows as drawn.
pub type Places = Vec<(String, Vec<usize>)>;

/// Two yarns of a lesson that do not read apart in every sight.
#[derive(Clone, Debug)]
pub struct Clash {
    /// Indices of the two yarns, the smaller first.
    pub yarns: (usize, usize),
    /// Charts in which they meet, each with the rows (as drawn, from 1) that hold both.
    pub places: Places,
    /// Sights in which they do not read apart.
    pub sights: Vec<Sight>,
    /// Lightness difference in normal sight.
    pub lightness: f64,
    /// CIEDE2000 in normal sight.
    pub difference: f64,
    /// The smallest change of lightness that helps.
    pub change: Option<Change>,
}

/// All clashes of a lesson, in the order of its yarns.
#[must_use]
pub fn clashes(lesson: &Lesson, work: &Work<'_>) -> Vec<Clash> {
    let mut meet: BTreeMap<(usize, usize), Places> = BTreeMap::new();
    for row in &work.rows {
        let mut colours: Vec<u8> = work.cells(row).to_vec();
        colours.sort_unstable();
        colours.dedup();
        let drawn = row.origin.drawn;
        let chart = drawn.and_then(|drawn| work.charts.get(drawn.chart));
        let name = chart.cloned().unwrap_or_default();
        for (i, a) in colours.iter().enumerate() {
            for b in colours.iter().skip(i + 1) {
                let places = meet.entry((usize::from(*a), usize::from(*b))).or_default();
                let number = drawn.map_or(0, |drawn| drawn.row.index() + 1);
                match places.iter_mut().find(|(known, _)| *known == name) {
                    Some((_, rows)) if rows.contains(&number) => {}
                    Some((_, rows)) => rows.push(number),
                    None => places.push((name.clone(), vec![number])),
                }
            }
        }
    }
    let clash = |(yarns, places): ((usize, usize), Places)| {
        let first = lesson.yarns.get(yarns.0)?.rgb;
        let second = lesson.yarns.get(yarns.1)?.rgb;
        let readings = check(first, second);
        let failing: Vec<Sight> = readings
            .iter()
            .filter(|reading| !reading.reads)
            .map(|reading| reading.sight)
            .collect();
        let normal = readings.first()?;
        (!failing.is_empty()).then(|| Clash {
            yarns,
            places,
            sights: failing,
            lightness: normal.lightness_difference,
            difference: normal.difference,
            change: nearest_change(first, second),
        })
    };
    meet.into_iter().filter_map(clash).collect()
}

/// The yarn to change, and to what: its index, the new colour, the lightness before and after.
#[must_use]
pub fn proposal(clash: &Clash) -> Option<(usize, String, f64, f64)> {
    let change = clash.change?;
    let yarn = match change.which {
        Which::First => clash.yarns.0,
        Which::Second => clash.yarns.1,
    };
    Some((yarn, hex(change.rgb), change.before, change.after))
}
