//! How the inks of a chart look: yarn, colour, symbol.

use crate::course::chart::Chart;
use crate::course::{ChartUse, Course, Lesson};
use crate::ground::colour::Rgb;
use crate::picture::{InkLook, Symbol, symbol_order};

/// Looks of a chart's inks in a lesson.
#[must_use]
pub fn looks(what: &ChartUse, lesson: &Lesson) -> Vec<InkLook> {
    // Symbols are dealt out once for all yarns of the lesson, so that a yarn has the same in each of its charts.
    let all: Vec<Rgb> = lesson.yarns.iter().map(|yarn| yarn.rgb).collect();
    let symbols = symbol_order(&all);
    what.yarns
        .iter()
        .map(|&place| {
            let yarn = lesson.yarns.get(place);
            InkLook {
                name: yarn.map(|y| y.name.clone()).unwrap_or_default(),
                rgb: yarn.map(|y| y.rgb).unwrap_or_default(),
                symbol: symbols.get(place).copied().unwrap_or(Symbol::Blank),
            }
        })
        .collect()
}

/// Looks of a chart's inks in the first lesson that uses it; greys for a chart that no lesson uses.
#[must_use]
pub fn looks_anywhere(chart: &Chart, course: &Course) -> Vec<InkLook> {
    let mut lessons = course.lessons.iter();
    let used = lessons.find_map(|lesson| {
        let uses = lesson.charts();
        let what = uses.into_iter().find(|what| what.chart.id == chart.id)?;
        Some(looks(what, lesson))
    });
    used.unwrap_or_else(|| grey_looks(chart))
}

/// Greys for the roles of a chart that has no yarns.
#[must_use]
pub fn grey_looks(chart: &Chart) -> Vec<InkLook> {
    // Light, dark, then between: neighbours in the list lie far apart.
    const GREYS: [u8; 5] = [245, 60, 150, 200, 105];
    let inks = chart.inks.iter().zip(GREYS.iter().cycle());
    let greys: Vec<Rgb> = inks.clone().map(|(_, grey)| [*grey; 3]).collect();
    inks.zip(symbol_order(&greys))
        .map(|((ink, grey), symbol)| InkLook {
            name: ink.role.clone(),
            rgb: [*grey; 3],
            symbol,
        })
        .collect()
}
