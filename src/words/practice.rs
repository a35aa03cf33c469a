//! What would not be accepted at the needles, in words.

use crate::course::{Band, Lesson, Units};
use crate::ground::units::Length;
use crate::piece::practice::TooDeep;
use crate::words::{count, join_and, length_text, measured_name};

/// How much too deep, and for whom.
#[must_use]
pub fn too_deep_text(deep: &TooDeep, size: &str, units: Units) -> String {
    format!(
        "{size}: a {} of {} is more than the {} that suit it",
        measured_name(deep.what),
        length_text(deep.is, units),
        length_text(deep.most, units)
    )
}

/// Which bands could lose how many rounds.
#[must_use]
pub fn too_deep_help(deep: &TooDeep, lesson: &Lesson) -> String {
    let rounds = count(deep.rounds, "round", "rounds");
    if deep.bands.is_empty() {
        return format!(
            "{rounds} too many, and no plain band or rib to take them from: a lower chart would do"
        );
    }
    let name = |(band, has): &(usize, usize)| {
        let what = match lesson.bands.get(*band) {
            Some(Band::Rib { .. }) => "the rib",
            _ => "the plain rounds",
        };
        format!("{what} of band {} ({has})", band + 1)
    };
    let bands: Vec<String> = deep.bands.iter().map(name).collect();
    format!("take {rounds} out of {}", join_and(&bands))
}

/// A thumb that opens where the hand has none.
#[must_use]
pub fn thumb_text((is, wanted): (Length, Length), size: &str, units: Units) -> String {
    format!(
        "{size}: the thumb opens {} above the rib, and a hand of this size has its thumb at about {}",
        length_text(is, units),
        length_text(wanted, units)
    )
}

/// A yarn that lies at the other edge than a row needs it at; `row` from 0.
#[must_use]
pub fn far_edge_text(row: usize, line: &str, yarn: &str) -> String {
    format!(
        "{line} {} begins at the other edge than {yarn} lies at",
        row + 1
    )
}

/// What can be done about it.
#[must_use]
pub fn far_edge_help(yarn: &str) -> String {
    format!(
        "two plain rows instead of one beneath it; or carry {yarn} along and trap it at the edge; or cut it and join it anew"
    )
}

/// A chart that begins on a wrong side.
#[must_use]
pub fn wrong_side_text(chart: &str) -> String {
    format!("row 1 of chart {chart} comes on a wrong side")
}

/// Sizes that come to the same piece.
#[must_use]
pub fn alike_text(sizes: &[&str]) -> String {
    format!("{} come to the same piece", join_and(sizes))
}

/// What would part them: the largest repeat of the lesson is what they fall into.
#[must_use]
pub fn alike_help(lesson: &Lesson) -> String {
    let repeats = lesson
        .charts()
        .into_iter()
        .map(|what| what.chart.repeat_stitches.len());
    match repeats.max() {
        Some(repeat) if repeat > 1 => {
            format!(
                "name one of them, or take a chart whose repeat is smaller than {repeat} stitches"
            )
        }
        _ => "name one of them, or sizes further apart".to_owned(),
    }
}

/// One label for sizes that are one piece: `Adult small and medium`, `Child, 4 years and 6 years`.
#[must_use]
pub fn shared_label(labels: &[&str]) -> String {
    let Some((first, rest)) = labels.split_first() else {
        return String::new();
    };
    // What all begin with is said once, to the end of a word.
    let shared = |other: &&&str| {
        let same = first
            .char_indices()
            .zip(other.chars())
            .take_while(|((_, a), b)| a == b);
        let end = same.last().map_or(0, |((at, c), _)| at + c.len_utf8());
        first
            .get(..end)
            .and_then(|head| head.rfind(' '))
            .map_or(0, |blank| blank + 1)
    };
    let head = rest.iter().map(|other| shared(&other)).min().unwrap_or(0);
    let tails = rest.iter().map(|other| other.get(head..).unwrap_or(other));
    let all: Vec<&str> = std::iter::once(*first).chain(tails).collect();
    join_and(&all)
}

#[cfg(test)]
mod tests {
    use super::shared_label;

    #[test]
    fn what_sizes_share_is_said_once() {
        assert_eq!(
            shared_label(&["Adult small", "Adult medium"]),
            "Adult small and medium"
        );
        assert_eq!(
            shared_label(&["Child, 4 years", "Child, 6 years"]),
            "Child, 4 years and 6 years"
        );
        assert_eq!(
            shared_label(&["Wren", "Adult small"]),
            "Wren and Adult small"
        );
        assert_eq!(shared_label(&["A b", "A c", "A d"]), "A b, c and d");
    }
}
