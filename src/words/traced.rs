//! What is said of a chart that was read from a picture, and of a picture from which none was.

use crate::course::chart::Chart;
use crate::ground::colour::hex;
use crate::ground::units::plain_number;
use crate::trace::{CornerFault, Glimpse, Refusal, Traced};

/// In place of where a traced chart comes from.
pub const SOURCE_TO_FILL_IN: &str = "To be filled in: whose chart it is, and where it was seen.";

/// Cells to look at that are named one by one; of more, their number.
const NAMED: usize = 40;

/// The role of a colour of a traced chart, by its place among them.
#[must_use]
pub fn colour_role(place: usize) -> String {
    match place {
        0 => "ground".to_owned(),
        place => format!("colour-{}", place + 1),
    }
}

/// The title of a chart by the name of its file: `shore-band` is “Shore band”.
#[must_use]
pub fn titled(id: &str) -> String {
    let words = id.replace(['-', '_'], " ");
    let mut letters = words.trim().chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => "Chart".to_owned(),
    }
}

/// The remarks on top of a traced chart: what was seen, what to look at, what may repeat.
#[must_use]
pub fn traced_remarks(traced: &Traced, chart: &Chart, picture: &str) -> Vec<String> {
    let mut remarks = vec![format!(
        "Read from {picture}: {} stitches by {} rows.",
        traced.stitches, traced.rows
    )];
    for (ink, colour) in chart.inks.iter().zip(&traced.colours) {
        remarks.push(format!(
            "{} {} was seen as {}, in {} cells.",
            ink.letter,
            ink.role,
            hex(colour.rgb),
            colour.cells
        ));
    }
    let name = |colour: usize| chart.inks.get(colour).map_or("?", |ink| ink.role.as_str());
    for unsure in traced.uncertain.iter().take(NAMED) {
        remarks.push(format!(
            "Look at round {}, stitch {}: between {} and {}.",
            traced.rows - unsure.place.0,
            traced.stitches - unsure.place.1,
            name(unsure.colour),
            name(unsure.instead)
        ));
    }
    if traced.uncertain.len() > NAMED {
        remarks.push(format!(
            "And {} more; --check draws them.",
            traced.uncertain.len() - NAMED
        ));
    }
    let (across, up) = traced.repeat();
    let part = |length: usize, what: &str| format!("{what}: 1-{length}");
    let parts = [
        across.map(|n| part(n, "stitches")),
        up.map(|n| part(n, "rows")),
    ];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    if !parts.is_empty() {
        remarks.push(format!(
            "It may repeat so; put the line in to say so: repeat: {{ {} }}",
            parts.join(", ")
        ));
    }
    remarks
}

/// Why no chart was read from a picture, and what would help.
#[must_use]
pub fn refused_picture(picture: &str, refusal: &Refusal) -> (String, String) {
    let known = "PNG, JPEG, WebP and GIF are read";
    match refusal {
        Refusal::NotAPicture => (
            format!("{picture} is no picture that is read here"),
            known.to_owned(),
        ),
        Refusal::Unreadable(why) => (
            format!("{picture} cannot be read as a picture: {why}"),
            format!("save it again; {known}"),
        ),
        Refusal::TooLarge { width, height } => (
            format!("{picture} has {width} by {height} pixels, more than 64 million"),
            "make it smaller: ten pixels a cell are enough".to_owned(),
        ),
        Refusal::Corners(fault) => {
            let (what, help) = match fault {
                CornerFault::Outside => (
                    "lie outside it",
                    "count pixels from the top left corner of the picture",
                ),
                CornerFault::Order => (
                    "do not go round a chart clockwise",
                    "name them clockwise from the top left: \"x,y x,y x,y x,y\"",
                ),
                CornerFault::Small => (
                    "leave less than three pixels to a cell",
                    "name the corners of the whole chart, or take a larger picture",
                ),
            };
            (format!("the corners that are named in {picture} {what}"), help.to_owned())
        }
        Refusal::OtherSize { found, wanted } => (
            format!(
                "{picture} shows {} stitches by {} rows, not {} by {}",
                found.0, found.1, wanted.0, wanted.1
            ),
            "if your count is right, name the corners of the chart with --corners, too".to_owned(),
        ),
        Refusal::NoGrid(seen) => (
            format!("no grid of a chart was found in {picture} beyond doubt: {}", seen_of(seen)),
            "name the corners of the chart with --corners \"x,y x,y x,y x,y\", in pixels, clockwise from the top left, and its size \
             with --stitches and --rows"
                .to_owned(),
        ),
    }
}

/// What was seen of a grid.
fn seen_of(seen: &Glimpse) -> String {
    let apart = |period: Option<f64>, which: &str| match period {
        Some(period) => format!(
            "{which} lines perhaps {} pixels apart",
            plain_number(period, 1)
        ),
        None => format!("no {which} lines"),
    };
    format!(
        "{}, {}",
        apart(seen.across, "upright"),
        apart(seen.up, "level")
    )
}
