//! Warnings of what the counts do not show and hands would.

use crate::course::{Band, Course, Lesson, Units};
use crate::ground::fault::{Code, Fault};
use crate::path::library::charts_in_use;
use crate::piece::Piece;
use crate::piece::practice::{alike, thumb_off, too_deep};
use crate::rows::edges;
use crate::words::{
    alike_help, alike_text, far_edge_help, far_edge_text, thumb_text, too_deep_help, too_deep_text,
    wrong_side_text,
};

/// What the counts do not show and hands would: sizes that are one, pieces too deep, thumbs out of place.
pub(super) fn practice(lesson: &Lesson, pieces: &[Piece], units: Units) -> Vec<Fault> {
    let mut faults = Vec::new();
    let label = |piece: &Piece| {
        piece
            .size
            .as_ref()
            .map_or("", |size| size.label.as_str())
            .to_owned()
    };
    let place = lesson.place;
    for group in alike(pieces) {
        let sizes: Vec<String> = group
            .iter()
            .filter_map(|i| pieces.get(*i))
            .map(label)
            .collect();
        let sizes: Vec<&str> = sizes.iter().map(String::as_str).collect();
        let fault = Fault::new(Code::SizesAlike, alike_text(&sizes), place, "");
        faults.push(fault.help(alike_help(lesson)));
    }
    // Said once, of the size where it is worst.
    let deep = pieces
        .iter()
        .filter_map(|piece| Some((piece, too_deep(lesson, piece)?)));
    if let Some((piece, deep)) = deep.max_by_key(|(_, deep)| deep.rounds) {
        let text = too_deep_text(&deep, &label(piece), units);
        // At the band that has most of it.
        let most = deep.bands.iter().max_by_key(|(_, rounds)| *rounds);
        let band = most.and_then(|(band, _)| lesson.band_places.get(*band));
        let fault = Fault::new(Code::TooDeep, text, band.copied().unwrap_or(place), "");
        faults.push(fault.help(too_deep_help(&deep, lesson)));
    }
    let off = pieces
        .iter()
        .find_map(|piece| Some((piece, thumb_off(lesson, piece)?)));
    if let Some((piece, off)) = off {
        let text = thumb_text(off, &label(piece), units);
        let help = "take or add plain rounds beneath the chart, or choose a lower one";
        faults.push(Fault::new(Code::ThumbOff, text, place, "").help(help));
    }
    faults
}

/// What goes wrong at the edges of a flat lesson; each chart and yarn once, where it is met first.
pub(super) fn flat(lesson: &Lesson) -> Vec<Fault> {
    let mut faults = Vec::new();
    let place = |band: usize| {
        lesson
            .band_places
            .get(band)
            .copied()
            .unwrap_or(lesson.place)
    };
    for band in edges::begins_on_wrong_side(lesson) {
        if let Some(Band::Chart { what, .. }) = lesson.bands.get(band) {
            let fault = Fault::new(
                Code::StartsOnWrongSide,
                wrong_side_text(&what.chart.id),
                place(band),
                "",
            );
            faults.push(fault.help("put one plain row more or less beneath it"));
        }
    }
    let mut told: Vec<(Option<usize>, usize)> = Vec::new();
    for far in edges::of_lesson(lesson) {
        let band = far.band.map(|(band, _)| band);
        if told.contains(&(band, far.colour)) {
            continue;
        }
        told.push((band, far.colour));
        let yarn = lesson
            .yarns
            .get(far.colour)
            .map_or("", |yarn| yarn.name.as_str());
        let (row, line) = match far.band {
            Some((band, row)) => match lesson.bands.get(band) {
                Some(Band::Chart { what, .. }) => (row, format!("chart {}, row", what.chart.id)),
                _ => (row, "joined row".to_owned()),
            },
            None => (far.row, "row".to_owned()),
        };
        let text = far_edge_text(row, &line, yarn);
        let fault = Fault::new(
            Code::YarnAtFarEdge,
            text,
            band.map_or(lesson.place, place),
            "",
        );
        faults.push(fault.help(far_edge_help(yarn)));
    }
    faults
}

/// The same of flat charts that no lesson uses.
pub(super) fn flat_charts(course: &Course) -> Vec<Fault> {
    let used = charts_in_use(course);
    let spare = course
        .charts
        .values()
        .filter(|chart| !used.contains(chart.id.as_str()));
    let mut faults = Vec::new();
    for chart in spare {
        let mut told: Vec<usize> = Vec::new();
        for far in edges::of_chart(chart) {
            if told.contains(&far.colour) {
                continue;
            }
            told.push(far.colour);
            let role = chart
                .inks
                .get(far.colour)
                .map_or("", |ink| ink.role.as_str());
            let row = far.band.map_or(far.row, |(_, row)| row);
            let Some(place) = chart.places.get(row).copied() else {
                continue;
            };
            let fault = Fault::new(
                Code::YarnAtFarEdge,
                far_edge_text(row, "row", role),
                place,
                "",
            );
            faults.push(fault.help(far_edge_help(role)));
        }
    }
    faults
}
