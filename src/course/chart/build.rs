//! From the lines of a file to a [`Chart`]: letters, widths, repeat, overlay and rights, with every fault.

use std::collections::BTreeMap;

use unicode_width::UnicodeWidthChar;

use crate::course::chart::raw::{Line, RawChart, Spanned};
use crate::course::chart::reflect::{Reflect, there_and_back, whole};
use crate::course::chart::shaping::{check_counts, read_marks};
use crate::course::chart::{Chart, Ink, Rights};
use crate::ground::bounds::{CHART_CELLS, CHART_SIDE, COLOURS};
use crate::ground::fault::{Code, Fault, Span};

/// A letter of `colours` and its role.
type Named = (Spanned<String>, String);

/// Understands a chart. `None` when any error was pushed to `faults`.
pub fn build(raw: RawChart, faults: &mut Vec<Fault>) -> Option<Chart> {
    let mut found = Vec::new();
    let chart = assemble(raw, &mut found);
    let fine = !found.iter().any(Fault::is_error);
    faults.append(&mut found);
    chart.filter(|_| fine)
}

fn too_large(width: usize, height: usize, span: Span) -> Fault {
    let most = format!("{CHART_CELLS} are read at most, and {CHART_SIDE} to a side");
    let title = format!("the chart has {width} × {height} cells; {most}");
    Fault::new(Code::TooLarge, title, span, "").help("split it into several charts")
}

fn assemble(raw: RawChart, faults: &mut Vec<Fault>) -> Option<Chart> {
    let (inks, letters) = read_letters(&raw, faults);
    let place = |ink: &Ink| {
        let mut of = raw.colours.iter().filter(|(_, role)| *role == ink.role);
        of.next().map_or(raw.span, |(letter, _)| letter.span)
    };
    let ink_places = inks.iter().map(place).collect();
    let height = raw.rows.len();
    let width = usual_width(&raw.rows);
    if width.saturating_mul(height) > CHART_CELLS || width.max(height) > CHART_SIDE {
        faults.push(too_large(width, height, raw.span));
        return None;
    }
    check_widths(&raw.rows, width, "row", faults);
    let cells = read_cells(&raw.rows, width, (&raw.colours, &letters), faults);
    let marks = raw
        .shaping
        .as_ref()
        .and_then(|lines| read_marks(lines, width, height, raw.span, faults));
    let mut places: Vec<Span> = raw.rows.iter().rev().map(|line| line.span).collect();
    let (cells, width, height) = match &raw.reflect {
        None => (cells, width, height),
        Some(reflect) if raw.shaping.is_some() => {
            let title = "a chart with shaping is drawn whole";
            let fault = Fault::new(Code::WrongValue, title, reflect.span, "");
            faults.push(fault.help("draw both halves, and take `reflect` out"));
            (cells, width, height)
        }
        Some(reflect) => {
            let columns = there_and_back(width, reflect.value != Reflect::Rows);
            let rows = there_and_back(height, reflect.value != Reflect::Stitches);
            places = rows
                .iter()
                .filter_map(|row| places.get(*row).copied())
                .collect();
            if columns.len().saturating_mul(rows.len()) > CHART_CELLS {
                faults.push(too_large(columns.len(), rows.len(), reflect.span));
                return None;
            }
            (
                whole(&cells, width, &columns, &rows),
                columns.len(),
                rows.len(),
            )
        }
    };
    let repeat_stitches = checked_range(raw.repeat_stitches.as_ref(), width, "stitches", faults);
    let repeat_rows = checked_range(raw.repeat_rows.as_ref(), height, "rows", faults);
    let rights = read_rights(&raw, faults);
    let chart = Chart {
        id: raw.id,
        title: raw.title,
        worked: raw.worked,
        inks,
        width,
        height,
        cells,
        marks,
        repeat_stitches,
        repeat_rows,
        declares_stitches: raw.repeat_stitches.is_some(),
        declares_rows: raw.repeat_rows.is_some(),
        rights,
        source: raw.source,
        places,
        ink_places,
    };
    if let Some(lines) = &raw.shaping
        && chart.marks.is_some()
    {
        check_counts(&chart, lines, raw.repeat_rows.as_ref(), faults);
    }
    Some(chart)
}

/// Letters to colours: letters with one role are one colour.
fn read_letters(raw: &RawChart, faults: &mut Vec<Fault>) -> (Vec<Ink>, BTreeMap<char, u8>) {
    let mut inks: Vec<Ink> = Vec::new();
    let mut letters = BTreeMap::new();
    for (letter, role) in &raw.colours {
        let mut chars = letter.value.chars();
        let (Some(c), None) = (chars.next(), chars.next()) else {
            let title = format!("`{}` is not one character", letter.value);
            faults.push(
                Fault::new(
                    Code::BadLetter,
                    title,
                    letter.span,
                    "must be one visible character",
                )
                .help("name the colour by the single character that stands for it in `rows`"),
            );
            continue;
        };
        if !is_seen(c) {
            let title = match c.is_whitespace() {
                true => "a blank cannot stand for a colour".to_owned(),
                false => format!(
                    "U+{:04X} is not seen and cannot stand for a colour",
                    u32::from(c)
                ),
            };
            faults.push(
                Fault::new(Code::BadLetter, title, letter.span, "")
                    .help("use a visible character such as `.`"),
            );
            continue;
        }
        let index = inks.iter().position(|ink| ink.role == *role);
        if let Some(first) = index.and_then(|i| inks.get(i)) {
            let title = format!(
                "`{}` and `{c}` are both `{role}` and count as one colour",
                first.letter
            );
            faults.push(
                Fault::new(Code::SharedRole, title, letter.span, "same role again")
                    .help("give it a role of its own if it is another yarn"),
            );
        }
        let index = index.unwrap_or_else(|| {
            inks.push(Ink {
                letter: c,
                role: role.clone(),
            });
            inks.len() - 1
        });
        if let Ok(index) = u8::try_from(index) {
            letters.insert(c, index);
        }
        if index == COLOURS {
            let title = format!("the chart names more than {COLOURS} colours");
            faults.push(
                Fault::new(Code::TooLarge, title, letter.span, "one too many")
                    .help("split the chart into several"),
            );
            break;
        }
    }
    (inks, letters)
}

/// Whether a character takes a place of its own on a line: no blank, nothing without width, nothing that turns the
/// direction of writing.
#[must_use]
pub fn is_seen(c: char) -> bool {
    !c.is_whitespace() && c.width().is_some_and(|width| width > 0)
}

/// The width most rows have; of equally common widths the larger, so that a short row is the odd one out.
fn usual_width(rows: &[Line]) -> usize {
    let mut counts: BTreeMap<usize, usize> = BTreeMap::new();
    for line in rows {
        *counts.entry(line.text.chars().count()).or_default() += 1;
    }
    counts
        .into_iter()
        .max_by_key(|&(width, count)| (count, width))
        .map_or(0, |(width, _)| width)
}

fn check_widths(lines: &[Line], width: usize, what: &str, faults: &mut Vec<Fault>) {
    let height = lines.len();
    for (i, line) in lines.iter().enumerate() {
        let has = line.text.chars().count();
        if has == width && width > 0 {
            continue;
        }
        let number = height - i;
        let title = format!("{what} {number} has {has} cells, most have {width}");
        let (span, label) = if has > width {
            let from = line.at(width);
            (
                Span {
                    end: line.span.end.max(from.start),
                    ..from
                },
                format!("{} too many", has - width),
            )
        } else {
            (line.span, format!("{} missing", width - has))
        };
        faults.push(Fault::new(Code::RaggedRows, title, span, label).help(
            "every line of a chart is equally long; write `#` in `shaping` where no stitch stands",
        ));
    }
}

fn read_cells(
    rows: &[Line],
    width: usize,
    (colours, letters): (&[Named], &BTreeMap<char, u8>),
    faults: &mut Vec<Fault>,
) -> Vec<u8> {
    let mut cells = vec![0; width * rows.len()];
    let mut unknown: BTreeMap<char, Unknown> = BTreeMap::new();
    // Nearly all charts are drawn in plain letters of one byte, each its own cell.
    let mut plain = [None; 128];
    for (c, ink) in letters {
        if let Some(place) = plain.get_mut(*c as usize) {
            *place = Some(*ink);
        }
    }
    for (i, line) in rows.iter().enumerate() {
        let row = rows.len() - 1 - i;
        if line.text.len() == width {
            let inks = line.text.bytes().rev();
            let places = cells.iter_mut().skip(row * width);
            let fits = places.zip(inks).all(|(cell, byte)| {
                let ink = plain.get(usize::from(byte)).copied().flatten();
                *cell = ink.unwrap_or(0);
                ink.is_some()
            });
            if fits {
                continue;
            }
        }
        let count = line.text.chars().count();
        for (j, c) in line.text.chars().enumerate() {
            match letters.get(&c) {
                Some(&ink) => {
                    if let Some(column) = count.checked_sub(j + 1).filter(|&column| column < width)
                    {
                        cells[row * width + column] = ink;
                    }
                }
                None => {
                    let first = Unknown {
                        line: i,
                        at: j,
                        stitch: count - j,
                        cells: 0,
                    };
                    unknown.entry(c).or_insert(first).cells += 1;
                }
            }
        }
    }
    faults.extend(unnamed(rows, colours, letters, unknown));
    cells
}

/// A letter that no colour names: where it stands first, and in how many cells.
struct Unknown {
    line: usize,
    at: usize,
    stitch: usize,
    cells: usize,
}

/// One fault a letter. Where a key of `colours` is no letter of the rows, that key is the slip, not the many cells.
fn unnamed(
    rows: &[Line],
    colours: &[Named],
    letters: &BTreeMap<char, u8>,
    unknown: BTreeMap<char, Unknown>,
) -> Vec<Fault> {
    let known: String = letters.keys().map(|c| format!("`{c}` ")).collect();
    let stands = |letter: &str| rows.iter().any(|line| line.text.contains(letter));
    if unknown.is_empty() {
        return Vec::new();
    }
    let mut spare = colours.iter().filter(|(letter, _)| !stands(&letter.value));
    let mut unknown: Vec<(char, Unknown)> = unknown.into_iter().collect();
    unknown.sort_by_key(|(_, first)| (first.line, first.at));
    let mut faults = Vec::new();
    for (c, first) in unknown {
        let Some(place) = rows.get(first.line).map(|line| line.at(first.at)) else {
            continue;
        };
        let cells = first.cells;
        let key = (cells > 1).then(|| spare.next()).flatten();
        faults.push(if let Some((key, _)) = key {
            let title = format!(
                "no cell is `{}`, and no colour names `{c}`, which stands in {cells} cells",
                key.value
            );
            Fault::new(Code::UnknownLetter, title, key.span, "no cell is that")
                .also(place, "here for the first time")
                .help(format!("write `{c}` for it, or take it out of the rows"))
        } else {
            let more = match cells - 1 {
                0 => String::new(),
                1 => "; so does 1 more cell".to_owned(),
                more => format!("; so do {more} more cells"),
            };
            let row = rows.len() - first.line;
            let title = format!("row {row} uses `{c}`, which no colour names{more}");
            let label = format!("stitch {}", first.stitch);
            Fault::new(Code::UnknownLetter, title, place, label)
                .help(format!("`colours` names {}", known.trim_end()))
        });
    }
    faults
}

fn checked_range(
    range: Option<&Spanned<(usize, usize)>>,
    size: usize,
    what: &str,
    faults: &mut Vec<Fault>,
) -> std::ops::Range<usize> {
    match range {
        Some(Spanned {
            value: (from, to),
            span,
        }) => {
            if *to > size {
                let title = format!("the repeat ends at {to}, the chart has {size} {what}");
                faults.push(
                    Fault::new(Code::RepeatOutside, title, *span, "beyond the edge")
                        .help("count stitches from the right edge and rows from the bottom"),
                );
                return 0..size;
            }
            from - 1..*to
        }
        None => 0..size,
    }
}

fn read_rights(raw: &RawChart, faults: &mut Vec<Fault>) -> Rights {
    let Some(rights) = &raw.rights else {
        faults.push(
            Fault::new(
                Code::NoRights,
                "the chart does not say who may copy it",
                raw.span,
                "counts as reference-only",
            )
            .help("add `rights: own` if you drew it; until then it is measured, never printed"),
        );
        return Rights::ReferenceOnly;
    };
    match rights.value.as_str() {
        "own" => Rights::Own,
        "public-domain" => Rights::PublicDomain,
        "permission" => match (&raw.from, &raw.scope) {
            (Some(from), Some(scope)) => Rights::Permission {
                from: from.clone(),
                scope: scope.clone(),
            },
            _ => {
                faults.push(
                    Fault::new(Code::PermissionDetails, "a permission needs `from` and `scope`", rights.span, "")
                        .help("say who gave it (`from:`) and for what (`scope: class`, `guild` or `sale`)"),
                );
                Rights::ReferenceOnly
            }
        },
        _ => Rights::ReferenceOnly,
    }
}
