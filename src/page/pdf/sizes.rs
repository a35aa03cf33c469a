//! Sizes of type: one set for ordinary print, one for large print.

/// Size in points and leading in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Body {
    pub(super) size: f64,
    pub(super) leading: f64,
}

const fn body(size: f64, leading: f64) -> Body {
    Body { size, leading }
}

/// What is set in which size, and what grows with it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sizes {
    /// Whether all stands in one column.
    pub(super) large: bool,
    /// Title of a cover.
    pub(super) cover: Body,
    /// Title of a lesson.
    pub(super) title: Body,
    /// First, second and third level of headings, and the title of a card.
    pub(super) page_title: Body,
    pub(super) section: Body,
    pub(super) card_title: Body,
    /// Running text, text in boxes, captions.
    pub(super) body: Body,
    pub(super) boxed: Body,
    pub(super) small: Body,
    /// Rows in words, things to tick.
    pub(super) rows: Body,
    pub(super) check: Body,
    /// Tables and their heads.
    pub(super) table: Body,
    /// Tables of many columns of words.
    pub(super) table_fine: Body,
    pub(super) table_head: Body,
    /// The tag of a card.
    pub(super) tag: Body,
    /// Numerals of steps.
    pub(super) step: Body,
    /// Running head and foot.
    pub(super) head: f64,
    pub(super) foot: f64,
    /// Side of the block with a lesson's number, in millimetres.
    pub(super) block: f64,
    /// How much larger boxes, indents and marks are.
    pub(super) scale: f64,
}

/// Ordinary print: nothing below 8.5 pt.
pub(super) const ORDINARY: Sizes = Sizes {
    large: false,
    cover: body(44.0, 17.0),
    title: body(30.0, 11.0),
    page_title: body(20.0, 9.0),
    section: body(14.0, 6.0),
    card_title: body(13.0, 6.0),
    body: body(11.0, 4.9),
    boxed: body(10.0, 4.4),
    small: body(9.5, 4.25),
    rows: body(9.5, 4.3),
    check: body(10.0, 4.4),
    table: body(10.0, 4.5),
    table_fine: body(8.8, 3.8),
    table_head: body(9.0, 4.0),
    tag: body(8.5, 4.5),
    step: body(17.0, 6.5),
    // In a booklet of Letter, the smallest of all, still 7 pt.
    head: 10.2,
    foot: 8.5,
    block: 25.0,
    scale: 1.0,
};

/// Large print: all that is read is set in 18 pt or more, furniture in 16, figures inside a chart in 14.
pub(super) const LARGE: Sizes = Sizes {
    large: true,
    cover: body(54.0, 21.0),
    title: body(40.0, 15.0),
    page_title: body(28.0, 12.0),
    section: body(24.0, 9.2),
    card_title: body(20.0, 8.6),
    body: body(18.0, 8.0),
    boxed: body(18.0, 8.0),
    small: body(18.0, 8.0),
    rows: body(18.0, 8.4),
    check: body(18.0, 8.0),
    table: body(18.0, 8.0),
    table_fine: body(18.0, 8.0),
    table_head: body(18.0, 8.0),
    tag: body(16.0, 7.0),
    step: body(26.0, 10.0),
    head: 16.0,
    foot: 16.0,
    block: 40.0,
    scale: 1.6,
};
