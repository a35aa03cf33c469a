//! Where a quote or bracket opens that nothing closes: the reader of YAML stumbles lines below it.

/// The byte where something opens that is still open `before` a byte at which reading failed: a quote that does not close
/// on its line, or else the outermost bracket.
pub(super) fn unclosed(text: &str, before: usize) -> Option<usize> {
    let mut open: Vec<usize> = Vec::new();
    let mut block: Option<usize> = None;
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        if start > before {
            break;
        }
        let indent = line.len() - line.trim_start_matches(' ').len();
        let blank = line.trim().is_empty();
        // The lines of a block of text hold what they like.
        if block.is_some_and(|outer| blank || indent > outer) {
            start += line.len();
            continue;
        }
        block = None;
        if let Some(quote) = read_line(line, start, &mut open) {
            return Some(quote);
        }
        let said = line.trim_end().trim_end_matches(['-', '+']);
        if open.is_empty() && (said.ends_with('|') || said.ends_with('>')) {
            block = Some(indent);
        }
        start += line.len();
    }
    open.first().copied()
}

/// Reads a line; the place of a quote that does not close on it.
fn read_line(line: &str, start: usize, open: &mut Vec<usize>) -> Option<usize> {
    let mut quote: Option<(char, usize)> = None;
    let mut last = ' ';
    let mut begins = true;
    let mut escaped = false;
    for (at, c) in line.char_indices() {
        match quote {
            Some(('"', _)) if escaped => escaped = false,
            Some(('"', _)) if c == '\\' => escaped = true,
            Some((mark, _)) if c == mark => {
                quote = None;
                begins = false;
            }
            Some(_) => {}
            None if c == '#' && last.is_whitespace() => break,
            None if begins && matches!(c, '"' | '\'') => quote = Some((c, start + at)),
            None if matches!(c, '{' | '[') && (begins || !open.is_empty()) => {
                open.push(start + at);
                begins = true;
            }
            None if matches!(c, '}' | ']') => {
                open.pop();
                begins = false;
            }
            None if c.is_whitespace() => {}
            // After these a value or key begins.
            None => {
                begins = matches!(c, ':' | ',')
                    || (c == '-' && line.get(..at).is_some_and(|b| b.trim().is_empty()))
            }
        }
        last = c;
    }
    quote.map(|(_, at)| at)
}
