//! A picture or a pasted text becomes the cells of a chart.

use serde_json::{Value, json};

use crate::desk::numbers::is_out;
use crate::desk::refusal::Refusal;
use crate::report::TraceReport;
use crate::trace::{Options, Place, picture_size, trace};
use crate::words::{colour_role, refused_picture};

/// What is known of a picture before it is read.
#[derive(Clone, Debug, Default)]
pub(in crate::desk) struct Wishes {
    pub corners: Option<[Place; 4]>,
    pub size: Option<(usize, usize)>,
    pub colours: Option<usize>,
}

/// Reads a chart from a picture.
///
/// # Errors
/// When it is no picture, or nothing in it can be read as a chart: why, and what would help.
pub(in crate::desk) fn traced(bytes: &[u8], wishes: &Wishes) -> Result<Value, Refusal> {
    let options = Options {
        corners: wishes.corners,
        size: wishes.size,
        colours: wishes.colours,
    };
    let read = trace(bytes, &options).map_err(|refusal| {
        let (what, help) = refused_picture("the picture", &refusal);
        Refusal::cannot(what).help(help)
    })?;
    let mut answer = json!(TraceReport::new(&read));
    let lines: Vec<String> = answer["chart"]
        .as_str()
        .unwrap_or_default()
        .lines()
        .map(str::to_owned)
        .collect();
    let (width, height) = picture_size(bytes).unwrap_or_default();
    answer["format"] = json!("yokeward/desk/1");
    answer["width"] = json!(width);
    answer["height"] = json!(height);
    answer["lines"] = json!(lines);
    if let Some(fields) = answer.as_object_mut() {
        fields.remove("chart");
    }
    Ok(answer)
}

/// A text chart as it was pasted: lines of equal length, each letter a colour.
///
/// # Errors
/// When its lines are none, or of different lengths, or too many.
pub(in crate::desk) fn pasted(text: &str) -> Result<Value, Refusal> {
    let lines: Vec<String> = text
        .lines()
        .map(|line| {
            line.chars()
                .filter(|c| !c.is_whitespace())
                .collect::<String>()
        })
        .filter(|line| !line.is_empty())
        .collect();
    let width = lines.first().map_or(0, |line| line.chars().count());
    if width == 0 {
        return Err(
            Refusal::cannot("nothing was pasted that looks like a chart")
                .help("one line a row, one letter a stitch, the top row first"),
        );
    }
    if let Some((at, line)) = lines
        .iter()
        .enumerate()
        .find(|(_, l)| l.chars().count() != width)
    {
        let message = format!(
            "line {} has {} stitches, the first has {width}",
            at + 1,
            line.chars().count()
        );
        return Err(Refusal::cannot(message).help("every row needs as many letters as the first"));
    }
    if is_out(width) || is_out(lines.len()) {
        return Err(Refusal::cannot(
            "a chart that is pasted has at most 500 stitches and rows",
        ));
    }
    let mut letters: Vec<(char, usize)> = Vec::new();
    for c in lines.iter().flat_map(|line| line.chars()) {
        match letters.iter_mut().find(|(letter, _)| *letter == c) {
            Some((_, n)) => *n += 1,
            None => letters.push((c, 1)),
        }
    }
    if letters.len() > crate::ground::bounds::COLOURS {
        return Err(Refusal::cannot(
            "this has more letters than a chart may have colours",
        ));
    }
    // What stands for nothing on paper is the ground; else the commonest letter is.
    let is_ground = |c: char| matches!(c, '.' | '-' | '_' | '·');
    letters.sort_by_key(|(c, n)| (!is_ground(*c), std::cmp::Reverse(*n)));
    let colours = letters.iter().enumerate();
    let colours =
        colours.map(|(place, (letter, _))| json!({"letter": letter, "role": if place == 1 { "motif".to_owned() } else { colour_role(place) }}));
    Ok(json!({"format": "yokeward/desk/1", "lines": lines, "colours": colours.collect::<Vec<_>>()}))
}
