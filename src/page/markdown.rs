//! Blocks as plain Markdown, for those who want to edit, translate or read a handout as text.

use crate::page::blocks::{Align, Block, Cell, Inline};
use crate::picture::Drawing;
use crate::words::labels;
use crate::words::literal;

/// A document in Markdown. Drawings with a file name are linked to, the others are said by their alternative text.
#[must_use]
pub fn markdown(blocks: &[Block]) -> String {
    let mut out = String::new();
    write_blocks(blocks, &mut out);
    let mut text = out.trim().to_owned();
    while text.contains("\n\n\n") {
        text = text.replace("\n\n\n", "\n\n");
    }
    text.push('\n');
    text
}

fn inlines(list: &[Inline]) -> String {
    list.iter()
        .map(|inline| match inline {
            Inline::Text(text) => literal(text),
            Inline::Strong(inner) => format!("**{}**", inlines(inner)),
            Inline::Emphasis(inner) => format!("_{}_", inlines(inner)),
            Inline::Code(text) => code(text),
            Inline::Link { href, text } => format!("[{}](<{}>)", inlines(text), address(href)),
            Inline::Break => "\\\n".to_owned(),
        })
        .collect()
}

/// The longest run of backticks in a text.
fn longest_ticks(text: &str) -> usize {
    let runs = text.split(|c| c != '`').map(str::len);
    runs.max().unwrap_or(0)
}

/// Code in a line, fenced by more backticks than it holds.
fn code(text: &str) -> String {
    let fence = "`".repeat(longest_ticks(text) + 1);
    match text.starts_with('`') || text.ends_with('`') {
        true => format!("{fence} {text} {fence}"),
        false => format!("{fence}{text}{fence}"),
    }
}

/// An address between angle brackets, which it must not hold itself.
fn address(href: &str) -> String {
    href.replace('<', "%3C")
        .replace('>', "%3E")
        .replace('\\', "%5C")
}

fn figure(drawing: &Drawing, name: Option<&String>, out: &mut String) {
    match name {
        Some(name) => out.push_str(&format!("![{}]({name}.svg)\n\n", literal(&drawing.alt))),
        None if !drawing.alt.is_empty() => {
            out.push_str(&format!("({})\n\n", literal(&drawing.alt)))
        }
        None => {}
    }
}

fn write_blocks(blocks: &[Block], out: &mut String) {
    for block in blocks {
        write_block(block, out);
    }
}

#[allow(
    clippy::too_many_lines,
    reason = "one arm for each kind of block, none with logic of its own"
)]
fn write_block(block: &Block, out: &mut String) {
    match block {
        Block::Heading(level, text) => {
            out.push_str(&format!(
                "{} {}\n\n",
                "#".repeat(usize::from(*level)),
                inlines(text)
            ));
        }
        Block::Paragraph(_, text) => out.push_str(&format!("{}\n\n", inlines(text))),
        Block::List(start, items) => list(*start, items, out),
        Block::Table(inner) => table(&inner.head, &inner.rows, &inner.align, out),
        Block::Figure {
            drawing,
            caption,
            name,
        } => {
            figure(drawing, name.as_ref(), out);
            if !caption.is_empty() {
                out.push_str(&format!("{}\n\n", inlines(caption)));
            }
        }
        Block::Quote(inner) => {
            let mut text = String::new();
            write_blocks(inner, &mut text);
            for line in text.trim().lines() {
                out.push_str(&format!("> {line}\n"));
            }
            out.push('\n');
        }
        Block::Code(text) => {
            let fence = "`".repeat(longest_ticks(text).max(3) + 1);
            out.push_str(&format!("{fence}\n{}\n{fence}\n\n", text.trim_end()));
        }
        Block::Rule => out.push_str("---\n\n"),
        Block::Page(_) => {}
        Block::Front {
            number,
            of,
            title,
            lead,
            ..
        } => {
            out.push_str(&format!(
                "# {}\n\n{}.\n\n",
                literal(title),
                labels::lesson_of(*number, *of)
            ));
            write_blocks(lead, out);
        }
        Block::New(intro, things) => {
            out.push_str(&format!("## {}\n\n{}\n\n", labels::NEW, inlines(intro)));
            for (i, (title, text)) in things.iter().enumerate() {
                out.push_str(&format!(
                    "{}. **{}** {}\n",
                    i + 1,
                    literal(title),
                    inlines(text)
                ));
            }
            out.push('\n');
        }
        Block::Measures(bars, _) => {
            for bar in bars {
                let (verdict, fact) = (literal(&bar.verdict), literal(&bar.fact));
                out.push_str(&format!(
                    "- **{}** ({}): {verdict}. {fact}.\n",
                    literal(&bar.name),
                    literal(&bar.drawing.alt)
                ));
            }
            out.push('\n');
        }
        Block::Legend(_) => {}
        Block::Rows(rows) => {
            for row in rows {
                let (label, words) = (literal(&row.label), literal(&row.words));
                let boxes = "\\[ \\] ".repeat(row.boxes);
                out.push_str(&format!("- {boxes}**{label}** {words}\n"));
            }
            out.push('\n');
        }
        Block::Steps(steps) => {
            for (i, step) in steps.iter().enumerate() {
                let (title, text) = (literal(&step.title), inlines(&step.text));
                let boxes = boxes(step.boxes);
                let number = i + 1;
                out.push_str(&format!("{number}. **{title}.** {text}{boxes}\n"));
                for (_, words, rounds) in &step.stripes {
                    out.push_str(&format!(
                        "    - {}{}\n",
                        literal(words),
                        self::boxes(*rounds)
                    ));
                }
            }
            out.push('\n');
        }
        Block::Checks(checks) => {
            for check in checks {
                out.push_str(&format!("- \\[ \\] {}\n", inlines(check)));
            }
            out.push('\n');
        }
        Block::Cover {
            title,
            lead,
            imprint,
            ..
        } => {
            out.push_str(&format!("# {}\n\n", literal(title)));
            write_blocks(lead, out);
            write_blocks(imprint, out);
        }
        Block::Fit(ways) => {
            if let Some(best) = ways.first() {
                write_blocks(&best.blocks, out);
                write_blocks(&best.after, out);
            }
        }
        Block::Turned(inner) | Block::Card(inner) => write_blocks(inner, out),
        Block::Caution(inner) => write_blocks(inner, out),
        Block::Columns(columns) => columns
            .iter()
            .for_each(|(_, inner)| write_blocks(inner, out)),
    }
}

/// Boxes for rounds to tick off, after words.
fn boxes(rounds: usize) -> String {
    let each: Vec<String> = (1..=rounds).map(|n| format!("\\[ \\] {n}")).collect();
    match rounds {
        0 => String::new(),
        _ => format!(" {}", each.join(" · ")),
    }
}

fn list(start: Option<u64>, items: &[Vec<Block>], out: &mut String) {
    for (i, item) in items.iter().enumerate() {
        let mut text = String::new();
        write_blocks(item, &mut text);
        let sign = start.map_or_else(|| "-".to_owned(), |n| format!("{}.", n + i as u64));
        let indent = " ".repeat(sign.len() + 1);
        // Blank lines would make the list a loose one; in code they are part of it.
        let keeps = text.contains("````");
        let kept = |line: &&str| keeps || !line.is_empty();
        for (j, line) in text.trim().lines().filter(kept).enumerate() {
            out.push_str(&if j == 0 {
                format!("{sign} {line}\n")
            } else {
                format!("{indent}{line}\n")
            });
        }
    }
    out.push('\n');
}

fn table(head: &[Cell], rows: &[Vec<Cell>], align: &[Align], out: &mut String) {
    let cell = |cell: &Cell| {
        let chip = cell
            .chip
            .as_ref()
            .map(|c| c.alt.clone())
            .unwrap_or_default();
        let text = inlines(&cell.text);
        if text.is_empty() {
            literal(&chip)
        } else {
            text
        }
    };
    let line = |cells: &[Cell]| {
        let cells: Vec<String> = cells.iter().map(&cell).collect();
        format!("| {} |\n", cells.join(" | "))
    };
    out.push_str(&line(head));
    let rule: Vec<&str> = align
        .iter()
        .map(|a| match a {
            Align::Left => "---",
            Align::Centre => ":-:",
            Align::Right => "--:",
        })
        .collect();
    out.push_str(&format!("| {} |\n", rule.join(" | ")));
    rows.iter().for_each(|row| out.push_str(&line(row)));
    out.push('\n');
}
