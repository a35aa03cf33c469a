//! The shape of our files, as data: one table drives the check of a file, its messages, and its JSON Schema.

/// What may stand in a place.
#[derive(Clone, Copy, Debug)]
pub(super) enum Shape {
    /// Any text.
    Text,
    /// Text by which a thing is known: something of it can be seen.
    Name,
    /// A text of its own, with paragraphs.
    Markdown,
    /// Lines of chart cells or of an overlay.
    Grid,
    /// One of these words.
    Word(&'static [&'static str]),
    /// A whole number from the first to the second.
    Whole(u32, u32),
    /// A number above the first and up to the second.
    Number(f64, f64),
    /// A number from 0 to the given one.
    UpTo(f64),
    /// A length with its unit, above nothing.
    Length,
    /// A length with its unit; a minus sign is allowed.
    SignedLength,
    /// So many stitches, or a length.
    Width,
    /// `"#rrggbb"`.
    Hex,
    /// An id: small letters, digits and hyphens.
    Id,
    /// `3-10`: two whole numbers from 1 on, the second not smaller.
    Range,
    /// A list.
    List(&'static Shape),
    /// A list; nothing behind the key is an empty one.
    ListOrNothing(&'static Shape),
    /// A group of fixed keys.
    Map(&'static [Key]),
    /// A group whose keys are free names.
    Named(&'static Shape),
    /// A group with exactly one of these keys.
    OneOf(&'static [Key]),
    /// A single value of the first shape, or else the second.
    Either(&'static Shape, &'static Shape),
}

/// A key of a group.
#[derive(Clone, Copy, Debug)]
pub(super) struct Key {
    /// Its name in the file.
    pub name: &'static str,
    /// What stands behind it.
    pub shape: Shape,
    /// Whether the file is wrong without it.
    pub required: bool,
    /// One sentence for the schema.
    pub about: &'static str,
}

impl Key {
    /// A key that must be there.
    #[must_use]
    pub(super) const fn must(name: &'static str, shape: Shape, about: &'static str) -> Self {
        Self {
            name,
            shape,
            required: true,
            about,
        }
    }

    /// A key that may be left out.
    #[must_use]
    pub(super) const fn may(name: &'static str, shape: Shape, about: &'static str) -> Self {
        Self {
            name,
            shape,
            required: false,
            about,
        }
    }
}

/// Whether `text` can be an id.
#[must_use]
pub fn is_id(text: &str) -> bool {
    !text.is_empty()
        && text.len() <= 80
        && !text.starts_with('-')
        && text
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
}

/// Reads `3-10` as (3, 10); `None` unless 1 ≤ first ≤ second.
#[must_use]
pub(super) fn parse_range(text: &str) -> Option<(usize, usize)> {
    let (a, b) = text.split_once('-')?;
    let (a, b) = (a.trim().parse().ok()?, b.trim().parse().ok()?);
    (a >= 1 && a <= b).then_some((a, b))
}

/// Reads `#rrggbb`.
#[must_use]
pub(super) fn parse_hex(text: &str) -> Option<[u8; 3]> {
    let digits = text.strip_prefix('#')?;
    if digits.len() != 6 || !digits.bytes().all(|b| b.is_ascii_hexdigit()) {
        return None;
    }
    let value = u32::from_str_radix(digits, 16).ok()?;
    let [_, r, g, b] = value.to_be_bytes();
    Some([r, g, b])
}
