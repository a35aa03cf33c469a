//! How large a thing may be. Beyond a bound stands a fault with its place, [`Code::TooLarge`](crate::ground::fault::Code)
//! where nothing else is said; each bound is many times what people make, and low enough that no input takes more than
//! half a gigabyte or some seconds.

/// Bytes of a file: the largest course text of the demo course has 3 kB, a chart of a million cells 1 MB.
pub const FILE_BYTES: usize = 4 << 20;
/// Bytes of a picture: the largest photograph of a telephone has some thirty million.
pub const PICTURE_BYTES: u64 = 128 << 20;
/// Bytes of a line of a stream: a chart of a million cells with its overlay fits.
pub const LINE_BYTES: usize = 6 << 20;
/// Folders of a course, one in the other, that are looked into.
pub const FOLDERS_DEEP: usize = 4;
/// Levels of lists and groups in a YAML file: our formats have six.
pub const YAML_DEPTH: usize = 64;
/// Values in a YAML file: a course of a thousand own bodies has some ten thousand.
pub const YAML_VALUES: usize = 250_000;
/// Cells of a chart: the largest blanket has some hundred thousand.
pub const CHART_CELLS: usize = 1_000_000;
/// Stitches or rows of a chart: a scarf of five metres has a thousand and a half.
pub const CHART_SIDE: usize = 10_000;
/// Colours of a chart, and of a lesson: no shelf of yarn has as many, and every letter must still be told from every other.
pub const COLOURS: usize = 64;
/// Faults of one kind told of a file: more follow from the first, and each costs a look at the text.
pub const FAULTS_OF_A_KIND: usize = 50;
/// Rounds of all loops of a template as it makes one page; ours need some hundred.
pub const TEMPLATE_ROUNDS: u64 = 200_000;
/// Bytes of a text that a template keeps under a name.
pub const TEMPLATE_LETTERS: usize = 1 << 20;
/// Bytes that a template writes: a page of Markdown of the largest yoke has 60 kB.
pub const TEMPLATE_BYTES: usize = 4 << 20;
/// Bands of a lesson: the busiest yoke of the demo course has nine.
pub const BANDS: usize = 200;
/// Rows of a lesson: a blanket of two metres in the finest yarn has some nine hundred.
pub const LESSON_ROWS: usize = 2000;
/// Cells of all charts of a lesson as they are worked: each is drawn on paper, on the screen and for the ear.
pub const LESSON_CELLS: usize = 250_000;
/// Sizes of a lesson: the body table has twenty, and no table of a page can hold more than these.
pub const SIZES: usize = 60;
/// Learners who have a name: each may get all handouts in her own size.
pub const LEARNERS: usize = 500;
/// Letters of a footer before its width is asked for: two lines of the smallest print hold half as many.
pub const FOOTER_LETTERS: usize = 600;
/// Steps of taming one chart: rows of up to three colours need few and are always proven; of more colours the first rows are
/// proven and the rest are the best found, within about three seconds.
pub const TAME_STEPS: usize = 36_000_000;
/// Work of the search for remedies of all gaps of a course, in steps of `path::remedies`: some three seconds.
pub const REMEDY_WORK: usize = 12_000_000;
/// Letters of a title, a name, a role: it stands on one line of a page.
pub const NAME_LETTERS: usize = 120;
/// Letters of any other text of one value, such as where a chart comes from.
pub const WORDS_LETTERS: usize = 2000;
/// Letters of a lesson's own text: forty pages.
pub const TEXT_LETTERS: usize = 100_000;
/// Stitches or rows to 10 cm that can be computed with: sewing thread has some two hundred.
pub const GAUGE: (f64, f64) = (0.5, 400.0);
/// Centimetres of a body or a height: an elephant's girth.
pub const GIRTH_CM: f64 = 600.0;
