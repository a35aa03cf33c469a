//! Why each fault matters and how to mend it: what `explain CODE` prints. The first line says what it is.

use crate::ground::fault::Code;

/// The explanation of a fault.
#[must_use]
#[allow(clippy::too_many_lines, reason = "a table of texts, one for each code")]
pub fn explanation(code: Code) -> &'static str {
    match code {
        Code::BrokenYaml => {
            "The file is not readable YAML.\n\n\
             Why it matters: nothing in the file can be used until its form is right.\n\n\
             To mend it: look at the line named and the one above. Usual causes: a tab instead of blanks, a missing \
             blank after a colon, a line indented differently from its neighbours, a colour without quotes (`#` begins \
             a comment).\n\n\
             The smallest chart:\n  title: Dot\n  colours: { \".\": ground, \"x\": motif }\n  rows: |\n    .x\n  rights: own"
        }
        Code::BrokenJson => {
            "A line that was given to `measure -` is not one JSON object.\n\n\
             Why it matters: that one chart is not measured; the stream goes on.\n\n\
             To mend it: one object a line, with id, rows (one text, the top line first, lines parted by \\n) and \
             colours; worked, repeat, shaping and gauge where they are wanted."
        }
        Code::YamlFeature => {
            "A part of YAML that course files do not use: anchors, aliases, tags, several documents in a file.\n\n\
             Why it matters: such files are hard to read for people, and can be made to grow without bound.\n\n\
             To mend it: write each value out where it is used; one lesson or chart a file; quotes round text that \
             begins with `&`, `*` or `!`."
        }
        Code::TooLarge => {
            "Beyond a bound on size: 4 MiB a file, 64 levels deep, a million cells and 64 colours a chart, 200 bands, 2,000 rows \
             and 60 sizes a lesson, 500 named learners, two lines of footer.\n\n\
             Why it matters: a page cannot hold it, and a typing error should not fill the memory.\n\n\
             To mend it: split the file, or the chart."
        }
        Code::DuplicateKey => {
            "The same key stands twice in one group.\n\n\
             Why it matters: only one of the two can count, and which one is a guess.\n\n\
             To mend it: keep the one you mean. The first is used for the rest of the report."
        }
        Code::UnknownKey => {
            "A key that means nothing at this place.\n\n\
             Why it matters: what you wrote would be ignored without a word.\n\n\
             To mend it: take the nearest known key, which the report names, or see `yokeward schema`."
        }
        Code::MissingKey => {
            "A key that must be there is missing.\n\n\
             Why it matters: nothing sensible can be put in its place.\n\n\
             To mend it: add it; the report says what it holds."
        }
        Code::WrongValue => {
            "A value that cannot stand at this place.\n\n\
             Why it matters: a length without its unit, say, could be centimetres or inches.\n\n\
             To mend it: write it as the report's last line shows. Lengths carry `mm`, `cm` or `in`; numbers have no \
             quotes; colours have quotes, as in \"#3b2f2a\"."
        }
        Code::UnknownFile => {
            "A YAML file that is neither a chart nor a lesson.\n\n\
             Why it matters: it would lie in the course without effect.\n\n\
             To mend it: a chart has `rows`, a lesson has `bands`, and never both. Other files belong elsewhere."
        }
        Code::NoCourse => {
            "The folder holds no course.yaml.\n\n\
             Why it matters: title, units and limits come from it.\n\n\
             To mend it: write one (the least is `title: My course`), or let `yokeward begin DIR` lay out a course."
        }
        Code::NoLessons => {
            "The course holds no lesson.\n\n\
             Why it matters: there is nothing to print.\n\n\
             To mend it: add a file with `bands`, such as 01-first-stripes.yaml; `yokeward begin DIR` writes two."
        }
        Code::DuplicateId => {
            "Two files of the course have one id.\n\n\
             Why it matters: `needs`, bands and the learner's log name things by id.\n\n\
             To mend it: rename one file. A lesson's id is its file's name without the leading number, a chart's the \
             whole name; lessons and charts share one list."
        }
        Code::UnknownLetter => {
            "A character of `rows` that `colours` does not name.\n\n\
             Why it matters: the cell has no colour, so nothing about its row can be measured.\n\n\
             To mend it: correct the character under the caret, or name it in `colours`."
        }
        Code::BadLetter => {
            "A key of `colours` that is not one visible character.\n\n\
             Why it matters: each cell of the picture is one character.\n\n\
             To mend it: write `\".\": ground`, not `ground: \".\"`."
        }
        Code::RaggedRows => {
            "Rows of different widths.\n\n\
             Why it matters: a stitch is missing or too many, and everything to its left is out of place.\n\n\
             To mend it: make the row as long as the others. Where a stitch has been decreased away, keep the cell and \
             write `#` at its place in `shaping`."
        }
        Code::RepeatOutside => {
            "A repeat that ends beyond the chart.\n\n\
             Why it matters: there is nothing to repeat there.\n\n\
             To mend it: columns are counted from the right edge, rows from the bottom, both from 1."
        }
        Code::OverlayShape => {
            "A shaping overlay of another size than the rows, or with an unknown mark.\n\n\
             Why it matters: each mark belongs to the cell at its own place.\n\n\
             To mend it: one line of marks for each row, one mark for each cell: `.` plain, `/` and `\\` two to one, \
             `^` three to one, `+` make one, `-` purl, `#` no stitch."
        }
        Code::DoesNotAddUp => {
            "A row whose stitches do not follow from the row beneath and its shaping.\n\n\
             Why it matters: a knitter would run out of stitches, or have some left.\n\n\
             To mend it: stitches of a row = those beneath − one for each `/` or `\\` − two for each `^` + one for each \
             `+`. The cell that a decrease leaves empty is `#` in the row of the decrease and above."
        }
        Code::ShapedRepeat => {
            "Rows that change the number of stitches cannot be repeated.\n\n\
             Why it matters: the second time they would begin on another count.\n\n\
             To mend it: leave out `repeat: rows` and `times`, or draw the rows again at the new count."
        }
        Code::PermissionDetails => {
            "A permission to copy that does not say whose and for what.\n\n\
             Why it matters: a guild printing for thirty people must know.\n\n\
             To mend it: add `from:` and `scope: class`, `guild` or `sale`."
        }
        Code::SharedRole => {
            "Two letters of a chart have one role and count as one colour.\n\n\
             Why it matters: perhaps you meant two yarns; then floats are measured wrongly.\n\n\
             To mend it: give one of them a role of its own, or use one letter."
        }
        Code::NoRights => {
            "The chart does not say who may copy it.\n\n\
             Why it matters: until it does, it is measured but never printed, and the handout asks each learner to \
             bring a copy.\n\n\
             To mend it: `rights: own` if you drew it, `public-domain`, or `permission` with `from` and `scope`. If you \
             do not know, `reference-only` is right, and says so."
        }
        Code::UnknownChart => {
            "A band names a chart that the course does not hold.\n\n\
             Why it matters: the lesson cannot be worked.\n\n\
             To mend it: take the nearest name in the report, or add the chart to charts/. Its id is its file's name."
        }
        Code::UnknownColour => {
            "A colour role that has no yarn in this lesson (or that the chart lacks).\n\n\
             Why it matters: nobody knows what to knit with.\n\n\
             To mend it: name the role under the lesson's `colours`, or map it: `chart: { id: pebble, colours: { motif: gold } }`."
        }
        Code::UnknownSize => {
            "A size that the body table lacks, or without the girth that this piece needs.\n\n\
             Why it matters: the girth decides the stitches.\n\n\
             To mend it: use a size such as child-6 or adult-medium, or add your own under `bodies` in course.yaml."
        }
        Code::NoSizes => {
            "A piece that must fit somebody has no sizes.\n\n\
             Why it matters: its round, and so its grade, depends on whom it fits.\n\n\
             To mend it: add `sizes: [adult-small, adult-medium, adult-large]`. Only swatches and scarves do without."
        }
        Code::UnknownLesson => {
            "`needs` names a lesson that the course does not hold.\n\n\
             Why it matters: the order cannot respect it.\n\n\
             To mend it: use the id, which is the file's name without the leading number."
        }
        Code::NeedsLeftOut => {
            "A lesson that is needed is left out for its own faults.\n\n\
             Why it matters: until it is mended it counts as done, so the order may change.\n\n\
             To mend it: mend the lesson named."
        }
        Code::NeedsCycle => {
            "Lessons that need each other, directly or in a circle.\n\n\
             Why it matters: none of them can come first.\n\n\
             To mend it: take one `needs` of the circle away. You need fewer than you think: the order follows from \
             the measures."
        }
        Code::BandExtent => {
            "A plain band or rib without a height, or with two.\n\n\
             Why it matters: nobody knows when it ends.\n\n\
             To mend it: give it `rows: 3` or `height: 5 cm`, not both."
        }
        Code::AcrossPart => {
            "A part of `across` that cannot be laid out.\n\n\
             Why it matters: the parts of a round must fill it exactly once.\n\n\
             To mend it: each part is `{ chart: back }`, `{ chart: palm, times: 2 }`, `{ chart: palm, times: fill }` or \
             `{ plain: 1 }`; at most one part fills."
        }
        Code::CraftCannot => {
            "A lesson asks its craft for something that it has not: a piece, rounds, a band, a mark of a chart, or an option of \
             another craft.\n\n\
             Why it matters: the page would tell the hands to do what they cannot.\n\n\
             To mend it: take what the report offers instead, or change the lesson's `craft`."
        }
        Code::WorkedDiffers => {
            "A chart drawn to be worked flat is used in the round, or the other way.\n\n\
             Why it matters: the lesson counts: edge stitches and the direction of even rows change.\n\n\
             To mend it: nothing need be done if it is meant; else change `worked` in one of the two."
        }
        Code::NoPlainGauge => {
            "Plain fabric has no gauge of its own.\n\n\
             Why it matters: most people knit plain and stranded fabric differently, so heights in centimetres and the \
             plain parts of a piece come out wrong. Until a gauge is given, that of the colourwork is taken.\n\n\
             To mend it: knit a plain swatch and add `plain: { stitches: 21.5, rows: 29, needle: 4 mm }` to `gauge`."
        }
        Code::WeightsSum => {
            "The five weights of the grade do not sum to 100.\n\n\
             Why it matters: a grade is a number of 100.\n\n\
             To mend it: change one; those left out are floats 30, colours 20, reading 20, relief 15, handling 15."
        }
        Code::LevelsOrder => {
            "The grades at which levels begin do not rise.\n\n\
             Why it matters: a lesson would have two levels, or none.\n\n\
             To mend it: easy ≤ intermediate ≤ complex; the defaults are 15, 35 and 60."
        }
        Code::EmptyBands => {
            "A lesson in which nothing is worked.\n\n\
             Why it matters: there is nothing to measure.\n\n\
             To mend it: add a band: `- plain: { rows: 4 }` or `- chart: pebble`."
        }
        Code::NoCounts => {
            "The stitches of a piece lead nowhere: two bands need different counts and no plain round lies between them, or \
             no multiples of a yoke's charts lie on the way from the join to the neck.\n\n\
             Why it matters: the handout cannot say how many stitches to work.\n\n\
             To mend it: do one of the things that the report names; each was tried. A plain band lets the count change, \
             `- decrease` lets a yoke lose stitches."
        }
        Code::YarnAtFarEdge => {
            "In flat work a row begins where the row before it ended, and a yarn lies at the edge where it was used last. This \
             row needs one that lies at the other edge.\n\n\
             Why it matters: the knitter turns her work, and the yarn is a row's length away.\n\n\
             To mend it: make it two plain rows instead of one, so that the yarn is where the row begins; or carry it along the \
             row in which it rests and trap it at the edge; or cut it and join it anew, which makes two ends more."
        }
        Code::StartsOnWrongSide => {
            "The bands beneath this chart have an odd number of rows, so that its row 1 is a wrong-side row, purled, while the \
             chart is numbered as if it were a right-side row.\n\n\
             Why it matters: every row is then worked from the other end than the chart says.\n\n\
             To mend it: put one plain row more or less beneath it."
        }
        Code::SizesAlike => {
            "Two or more sizes of this lesson come to the same stitches and the same measures.\n\n\
             Why it matters: the table offers a choice that is none, and somebody between the two wonders what she did wrong. \
             Handouts print such sizes as one column.\n\n\
             To mend it: name one of them, or take sizes further apart; a finer repeat leaves more counts to choose from."
        }
        Code::TooDeep => {
            "The bands of this piece make it deeper than the body it is for: a hat of more than a third of the head and 5 cm, \
             a mitt longer than the hand and a cuff of 10 cm (common practice).\n\n\
             Why it matters: the counts are right and the hat hangs over the eyes.\n\n\
             To mend it: take rounds out of the bands that are named, leave a band out, or leave out the small sizes."
        }
        Code::ThumbOff => {
            "A mitt's thumb opens after its charts, and here that is more than 2.5 cm from where the hand has its thumb \
             (about a third of the hand's girth above the wrist).\n\n\
             Why it matters: the palm pulls, or the opening lies over the fingers.\n\n\
             To mend it: take or add plain rounds beneath the chart, or choose a lower one."
        }
        Code::ColoursAlike => {
            "Two yarns that meet in a row do not read apart: in full sight, in grey, or for people who do not see red, \
             green or blue.\n\n\
             Why it matters: the pattern vanishes, on the needle and from across the room; about one man in twelve sees \
             some colours alike.\n\n\
             To mend it: take another yarn for one of them. The report names the smallest change of lightness that reads \
             in every sight. A photograph without colour is the old test."
        }
        Code::CannotTame => {
            "No way of colouring the row has floats so short.\n\n\
             Why it matters: every colour must come again before its strand is too long, and a row has only so many \
             stitches for its colours; a mirror's axis or kept edges leave fewer still.\n\n\
             To mend it: ask for the longest float that the report names, take a colour out of the row, or leave off \
             --mirror or --keep-edges."
        }
        Code::NoAxis => {
            "The chart has no left-right axis to keep.\n\n\
             Why it matters: --mirror keeps a symmetry that every row has; it does not invent one.\n\n\
             To mend it: tame without --mirror, or make every row equal to its reflection on one axis first. A line, and \
             a chart with edge stitches, can only mirror end to end."
        }
        Code::UnknownEntry => {
            "A log or a list of judgements names a lesson or chart that none of the courses named holds.\n\n\
             Why it matters: what it asked of you is not known, so it cannot count.\n\n\
             To mend it: correct the id, or name the folder that holds it, too."
        }
        Code::NotRead => {
            "Something in a course's folder that is not read: a folder of another name, a file whose ending is not one that \
             its folder is read for, a dead link.\n\n\
             Why it matters: a lesson or chart you believe to be in the course is not.\n\n\
             To mend it: lessons and charts end in `.yaml`, in small letters, and lie in the course's folder or in \
             charts/; technique cards end in `.md` and lie in techniques/; templates/ holds handout.md, course.md, \
             index.md, quiz.md, teacher.md and compare.md. What does not belong to the course lies better elsewhere, or \
             under a name that begins with a dot."
        }
        Code::UnlikelyNumber => {
            "A number that can be computed with, and that no yarn, needle or body has.\n\n\
             Why it matters: a decimal point lost, or inches taken for centimetres, make a hat for a doll, and every \
             count in it adds up.\n\n\
             To mend it: check the number and its unit. If it is meant, leave it: it is used as it stands. Ranges are \
             those of the trade body's tables with room for tight and loose hands, else common practice."
        }
        Code::Unreadable => {
            "A file that is not text in UTF-8.\n\n\
             Why it matters: its characters cannot be told.\n\n\
             To mend it: open it in a text editor and save it as UTF-8."
        }
        Code::UnsafeLink => {
            "A link or picture in a lesson's text that is not printed.\n\n\
             Why it matters: a handout is opened on other people's machines; it holds only links to the web and to \
             mail, and only pictures drawn from charts.\n\n\
             To mend it: use an http, https or mailto address, or leave the words alone."
        }
        Code::BrokenTemplate => {
            "A template of the course that cannot be rendered.\n\n\
             Why it matters: no handout can be made with it.\n\n\
             To mend it: look at the place that the report names; compare with the built-in template of the same name. \
             Fields that do not exist are errors."
        }
    }
}
