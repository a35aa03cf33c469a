//! What the bands of a lesson say in its instructions.

use crate::course::chart::Chart;
use crate::course::{AcrossPart, Band, Extent};
use crate::words::steps::author::Author;
use crate::words::steps::resting::resting;
use crate::words::steps::told::Instruction;
use crate::words::{count, join_and, labels, length_text, literal, number_word};

/// A chart band in all sizes.
pub(super) struct Facts<'a> {
    /// Its index.
    pub(super) band: usize,
    /// Repeats across.
    pub(super) repeats: &'a [usize],
    /// Stitches beneath it.
    pub(super) before: &'a [usize],
    /// Stitches above it.
    pub(super) after: &'a [usize],
}

/// A rib, by its height or its rounds.
pub(super) fn rib_text(
    author: &Author<'_>,
    band: Option<usize>,
    yarn: &str,
    rounds: &[usize],
) -> String {
    let found = band.and_then(|i| author.lesson.bands.get(i));
    let multiple = match found {
        Some(Band::Rib { multiple, .. }) => *multiple,
        _ => author
            .lesson
            .bands
            .iter()
            .find_map(|band| match band {
                Band::Rib { multiple, .. } => Some(*multiple),
                _ => None,
            })
            .unwrap_or(4),
    };
    let lines = author.lines(rounds);
    let extent = match found {
        Some(Band::Rib {
            extent: Extent::Height(height),
            ..
        }) => format!(
            "{lines}, about {}",
            length_text(*height, author.wording.units())
        ),
        _ => lines,
    };
    format!("In {yarn}, {}", author.says().rib(multiple, &extent))
}

/// Plain rounds; nothing where no size has any.
pub(super) fn plain_text(
    author: &Author<'_>,
    band: Option<usize>,
    yarn: &str,
    rounds: &[usize],
    until: Option<&str>,
) -> Option<String> {
    let work = author.says().work();
    if let Some(until) = until {
        let about = author.lines(rounds);
        if rounds.iter().all(|n| *n == 0) {
            return None;
        }
        let skip = skip_zero(rounds);
        return Some(format!(
            "{work} on in {yarn} until {until} from the start, about {about}.{skip}"
        ));
    }
    if rounds.iter().all(|n| *n == 0) {
        return None;
    }
    let (height, say) = match band.and_then(|i| author.lesson.bands.get(i)) {
        Some(Band::Plain { extent, say, .. }) if say.is_empty() => (Some(*extent), String::new()),
        Some(Band::Plain { extent, say, .. }) => (Some(*extent), format!(" {say}")),
        _ => (None, String::new()),
    };
    if let Some(Extent::Height(height)) = height {
        return Some(format!(
            "{work} on in {yarn} for {}, about {}.{say}",
            length_text(height, author.wording.units()),
            author.lines(rounds)
        ));
    }
    let (of, purled) = author.says().plain_rows();
    let none = skip_zero(rounds);
    Some(format!(
        "{work} {}{of} in {yarn}{purled}.{none}{say}",
        author.lines(rounds)
    ))
}

/// What a size does for which a step says nothing.
pub(super) fn skip_zero(counts: &[usize]) -> &'static str {
    if counts.contains(&0) {
        " Where that is 0, work none."
    } else {
        ""
    }
}

/// A band of a chart, or of several things side by side.
pub(super) fn band_text(author: &Author<'_>, facts: &Facts<'_>) -> Option<Instruction> {
    match author.lesson.bands.get(facts.band)? {
        Band::Chart { what, times } => Some(chart_step(author, &what.chart, *times, facts)),
        Band::Across(parts) => {
            let names: Vec<String> = parts
                .iter()
                .map(|part| match part {
                    AcrossPart::Chart(what, _) => format!("chart “{}”", literal(&what.chart.title)),
                    AcrossPart::Plain { stitches, .. } => {
                        count(*stitches, "plain stitch", "plain stitches")
                    }
                })
                .collect();
            let text = format!(
                "In each {} work side by side, from the {}: {}; {} stitches.",
                author.line(),
                author.wording.right(),
                join_and(&names),
                author.sizes(facts.after)
            );
            Some(Instruction::new(labels::SIDE_BY_SIDE, text))
        }
        _ => None,
    }
}

fn chart_step(author: &Author<'_>, chart: &Chart, times: usize, facts: &Facts<'_>) -> Instruction {
    let line = author.line();
    let lines = format!("{line}s");
    let mut text = format!(
        "Work {lines} 1 to {} of chart “{}”",
        chart.height,
        literal(&chart.title)
    );
    if times > 1 {
        text.push_str(&format!(", {} times over", number_word(times)));
    }
    if facts.repeats.iter().any(|r| *r > 1) {
        text.push_str(&format!(
            ": {} repeats in each {line}, {} stitches",
            author.sizes(facts.repeats),
            author.sizes(facts.before)
        ));
    }
    text.push('.');
    if facts.before != facts.after {
        text.push_str(&format!(
            " Its shaping leaves {} stitches.",
            author.sizes(facts.after)
        ));
    }
    text.push_str(&catches(author, chart, facts.band, &lines));
    let is_chart = |band: &Band| matches!(band, Band::Chart { .. });
    if author.lesson.bands.iter().position(is_chart) == Some(facts.band) {
        text.push_str(&resting(author));
    }
    Instruction::new(&labels::chart_title(&chart.title), text)
}

/// Where to catch, without telling the stitches of a chart that may not be printed.
fn catches(author: &Author<'_>, chart: &Chart, band: usize, lines: &str) -> String {
    let studied = author.studied;
    if !chart.rights.may_print() {
        let limit = studied.work.limit;
        return format!(
            " You need your own copy of it. Where a strand passes more than {limit} stitches, catch it about half-way."
        );
    }
    let each = studied.work.rows.iter().zip(studied.plan());
    let mut rows: Vec<String> = each
        .filter(|(row, plan)| row.origin.band == Some(band) && !plan.is_empty())
        .filter_map(|(row, _)| Some(row.origin.drawn?.row.to_string()))
        .collect();
    rows.dedup();
    match rows.len() {
        0 => String::new(),
        1 => format!(" Catch as marked in {} {}.", author.line(), rows.join("")),
        2..=6 => format!(" Catch as marked in {lines} {}.", join_and(&rows)),
        n => format!(" Catch as marked, in {n} {lines}."),
    }
}
