//! Drawings as SVG. Page colours are classes, so that a page can show them dark; yarns are colours.

use std::fmt::Write as _;

use crate::ground::colour::hex;
use crate::page::number::push_number;
use crate::picture::{Anchor, Drawing, Label, Paint, Path, Point, Seg, Shape, Stroke, Weight};

/// One point in millimetres.
const POINT: f64 = 25.4 / 72.0;

/// A number with at most three decimals and no needless ones.
fn n(value: f64) -> String {
    let mut text = String::with_capacity(10);
    push_number(&mut text, value);
    text
}

/// Escapes text and attribute values.
#[must_use]
pub fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\u{fffe}' | '\u{ffff}' => {}
            c if c.is_control() && c != '\n' => {}
            c => out.push(c),
        }
    }
    out
}

/// The colour of a paint: a page colour by its name, as a custom property that falls back to its print value.
fn colour(paint: Paint) -> String {
    let name = match paint {
        Paint::Ink => "ink",
        Paint::Text2 => "text-2",
        Paint::Rule => "rule",
        Paint::Hair => "hair",
        Paint::Estuary => "estuary",
        Paint::Mid => "mid",
        Paint::Wash => "wash",
        Paint::Buoy => "buoy",
        Paint::White => "paper",
        Paint::CellLine | Paint::Yarn(_) => return hex(paint.rgb()),
    };
    format!("var(--{name},{})", hex(paint.rgb()))
}

/// Path data in hundredths of a millimetre, each place told by its distance from the one before: coordinates are most of
/// a page's bytes.
fn path_data(path: &Path, (dx, dy): Point, (sx, sy): Point) -> String {
    let mut data = String::with_capacity(path.0.len() * 10);
    // Where the pen stands, where its outline began, and the last sign.
    let (mut pen, mut first, mut last) = ((0, 0), (0, 0), ' ');
    let whole = |(x, y): Point| (hundredths(dx + x * sx), hundredths(dy + y * sy));
    for seg in &path.0 {
        let (sign, points): (char, &[Point]) = match seg {
            Seg::Move(p) => ('M', std::slice::from_ref(p)),
            Seg::Line(p) => ('l', std::slice::from_ref(p)),
            Seg::Curve(a, b, c) => ('c', &[*a, *b, *c]),
            Seg::Close => ('z', &[]),
        };
        if sign != last || sign == 'M' {
            data.push(sign);
        }
        let from = if sign == 'M' { (0, 0) } else { pen };
        for point in points {
            let (x, y) = whole(*point);
            push_hundredths(&mut data, x - from.0);
            push_hundredths(&mut data, y - from.1);
            pen = (x, y);
        }
        match sign {
            'M' => first = pen,
            'z' => pen = first,
            _ => {}
        }
        last = sign;
    }
    data
}

fn hundredths(value: f64) -> i64 {
    (value * 100.0).round() as i64
}

/// A number of hundredths, with a blank before it where it would run into the one before.
fn push_hundredths(data: &mut String, value: i64) {
    if value >= 0 && data.ends_with(|c: char| c.is_ascii_digit()) {
        data.push(' ');
    }
    push_number(data, value as f64 / 100.0);
}

fn stroke(stroke: Stroke) -> String {
    let dash = stroke
        .dash
        .map(|(a, b)| format!(";stroke-dasharray:{} {}", n(a), n(b)))
        .unwrap_or_default();
    let round = if stroke.round {
        ";stroke-linecap:round;stroke-linejoin:round"
    } else {
        ""
    };
    format!(
        "stroke:{};stroke-width:{}{dash}{round}",
        colour(stroke.paint),
        n(stroke.width)
    )
}

/// A drawing as an `svg` element. `prefix` keeps ids apart when several stand in one page; decoration (without an
/// alternative text) is hidden from readers.
#[must_use]
pub fn svg(drawing: &Drawing, prefix: &str, standalone: bool) -> String {
    let mut out = String::new();
    let namespace = if standalone {
        " xmlns=\"http://www.w3.org/2000/svg\""
    } else {
        ""
    };
    let (width, height) = (n(drawing.width), n(drawing.height));
    let role = if drawing.alt.is_empty() {
        " aria-hidden=\"true\"".to_owned()
    } else {
        format!(" role=\"img\" aria-label=\"{}\"", escape(&drawing.alt))
    };
    let areas = match standalone || drawing.areas.is_empty() {
        true => String::new(),
        false => areas(&drawing.areas),
    };
    let _ = write!(
        out,
        "<svg{namespace} viewBox=\"0 0 {width} {height}\" width=\"{width}mm\" height=\"{height}mm\"{role}{areas}>"
    );
    if standalone {
        let _ = write!(out, "<title>{}</title>", escape(&drawing.alt));
    }
    for (i, shape) in drawing.shapes.iter().enumerate() {
        match shape {
            Shape::Fill(path, paint) => {
                let data = path_data(path, (0.0, 0.0), (1.0, 1.0));
                let _ = write!(
                    out,
                    "<path d=\"{data}\" style=\"fill:{}\"/>",
                    colour(*paint)
                );
            }
            Shape::Line(path, line) => {
                let data = path_data(path, (0.0, 0.0), (1.0, 1.0));
                let _ = write!(
                    out,
                    "<path d=\"{data}\" style=\"fill:none;{}\"/>",
                    stroke(*line)
                );
            }
            Shape::Stamps {
                path,
                fill,
                outline,
                at,
                scale,
            } => {
                let fill = fill.map_or_else(|| "none".to_owned(), colour);
                let outline = outline
                    .map(|line| format!(";{}", stroke(line)))
                    .unwrap_or_default();
                let data = path_data(path, (0.0, 0.0), *scale);
                let id = format!("{prefix}{i}");
                let _ = write!(
                    out,
                    "<g style=\"fill:{fill}{outline}\"><defs><path id=\"{id}\" d=\"{data}\"/></defs>"
                );
                for (x, y) in at {
                    let _ = write!(out, "<use href=\"#{id}\" x=\"{}\" y=\"{}\"/>", n(*x), n(*y));
                }
                out.push_str("</g>");
            }
            Shape::Label(label) => out.push_str(&text(label)),
        }
    }
    out.push_str("</svg>");
    out
}

/// Where numbered things lie, for a script that marks them: `1 22 40.1 60 4;2 …`.
fn areas(areas: &[(usize, [f64; 4])]) -> String {
    let each = areas.iter().map(|(number, area)| {
        let [x, y, w, h] = area.map(|mm| (mm * 100.0).round() / 100.0).map(n);
        format!("{number} {x} {y} {w} {h}")
    });
    let each: Vec<String> = each.collect();
    format!(" data-areas=\"{}\"", each.join(";"))
}

fn text(label: &Label) -> String {
    let anchor = match label.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let weight = match label.weight {
        Weight::Regular => 400,
        Weight::SemiBold => 600,
        Weight::Bold => 700,
    };
    format!(
        "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" style=\"font:{weight} {}px 'Atkinson Hyperlegible Next',sans-serif;font-variant-numeric:tabular-nums;fill:{}\">{}</text>",
        n(label.at.0),
        n(label.at.1),
        n(label.size * POINT),
        colour(label.paint),
        escape(&label.text)
    )
}
