//! A chart back to the text of a chart file.

use std::fmt::Write;

use crate::course::chart::{Chart, Mark, Rights};
use crate::ground::quoted::quoted;

/// The text of a file that reads back as this chart. `remarks` stand as comments on top.
#[must_use]
pub fn to_yaml(chart: &Chart, remarks: &[String]) -> String {
    let mut out = String::new();
    for remark in remarks {
        let _ = writeln!(out, "# {}", remark.replace(['\n', '\r'], " "));
    }
    let _ = writeln!(out, "title: {}", quoted(&chart.title));
    let _ = writeln!(out, "worked: {}", chart.worked.name());
    let inks: Vec<String> = chart
        .inks
        .iter()
        .map(|ink| format!("{}: {}", quoted(&ink.letter.to_string()), quoted(&ink.role)))
        .collect();
    let _ = writeln!(out, "colours: {{ {} }}", inks.join(", "));
    grid(&mut out, "rows", chart.height, |row| chart.drawn_line(row));
    let range = |range: &std::ops::Range<usize>| format!("{}-{}", range.start + 1, range.end);
    let mut repeat = Vec::new();
    if chart.declares_stitches {
        repeat.push(format!("stitches: {}", range(&chart.repeat_stitches)));
    }
    if chart.declares_rows {
        repeat.push(format!("rows: {}", range(&chart.repeat_rows)));
    }
    if !repeat.is_empty() {
        let _ = writeln!(out, "repeat: {{ {} }}", repeat.join(", "));
    }
    if chart.marks.is_some() {
        grid(&mut out, "shaping", chart.height, |row| {
            let columns = (0..chart.width).rev();
            columns.map(|c| chart.mark(row, c).to_char()).collect()
        });
    }
    match &chart.rights {
        Rights::Own => out.push_str("rights: own\n"),
        Rights::PublicDomain => out.push_str("rights: public-domain\n"),
        Rights::ReferenceOnly => out.push_str("rights: reference-only\n"),
        Rights::Permission { from, scope } => {
            let _ = writeln!(
                out,
                "rights: permission\nfrom: {}\nscope: {scope}",
                quoted(from)
            );
        }
    }
    if let Some(source) = &chart.source {
        let _ = writeln!(out, "source: {}", quoted(source));
    }
    out
}

/// A block of lines, the top row first.
fn grid(out: &mut String, key: &str, rows: usize, line: impl Fn(usize) -> String) {
    let _ = writeln!(out, "{key}: |");
    for row in (0..rows).rev() {
        let _ = writeln!(out, "  {}", line(row));
    }
}

impl Mark {
    /// The overlay's character.
    #[must_use]
    pub const fn to_char(self) -> char {
        match self {
            Self::Plain => '.',
            Self::RightDecrease => '/',
            Self::LeftDecrease => '\\',
            Self::DoubleDecrease => '^',
            Self::MakeOne => '+',
            Self::Purl => '-',
            Self::NoStitch => '#',
        }
    }
}
