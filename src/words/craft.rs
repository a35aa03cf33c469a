//! What each craft says: its tools, its verbs, how it begins and ends. The only room of sentences that asks which craft it is.

use crate::course::chart::Worked;
use crate::course::{Closing, Craft, CrochetStitch, Hand, Lesson};
use crate::ground::units::Length;
use crate::words::capital;
use crate::words::terms::Wording;

/// Wider work than this does not fit on a long hook without a cable. Common practice, no source.
const LONGEST_HOOK: Length = Length::mm(280.0);

/// The words of a lesson's craft.
#[derive(Clone, Copy, Debug)]
pub struct CraftWords {
    craft: Craft,
    stitch: CrochetStitch,
    closing: Closing,
    worked: Worked,
    wording: Wording,
}

/// The verbs of plain stitches, two to one and one more: `k`, `k2tog`, `make 1`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Verbs {
    /// So many plain stitches.
    plain: &'static str,
    /// Whether the number stands before the word.
    number_first: bool,
    /// Two to one.
    pub less: String,
    /// One more.
    pub more: String,
}

impl Verbs {
    /// `k 8`, `8 dc`.
    #[must_use]
    pub fn plain(&self, stitches: usize) -> String {
        if self.number_first {
            format!("{stitches} {}", self.plain)
        } else {
            format!("{} {stitches}", self.plain)
        }
    }

    /// Those of knitting.
    #[must_use]
    pub fn knitted() -> Self {
        Self::new("k", false, "k2tog", "make 1")
    }

    /// Knitting on the way back, where stitches are purled.
    #[must_use]
    pub fn purled() -> Self {
        Self::new("p", false, "p2tog", "make 1 purlwise")
    }

    fn new(plain: &'static str, number_first: bool, less: &str, more: &str) -> Self {
        Self {
            plain,
            number_first,
            less: less.to_owned(),
            more: more.to_owned(),
        }
    }
}

/// What the decreases are called that lean to the right and to the left in the fabric.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Leans {
    /// Two to one, leaning right.
    pub right: String,
    /// Two to one, leaning left.
    pub left: String,
}

impl Leans {
    /// Those of knitting: a left-handed knitter's two knitted together lean to the left.
    #[must_use]
    pub fn knitted(hand: Hand) -> Self {
        let (right, left) = match hand {
            Hand::Right => ("k2tog", "ssk"),
            Hand::Left => ("ssk", "k2tog"),
        };
        Self {
            right: right.to_owned(),
            left: left.to_owned(),
        }
    }
}

impl CraftWords {
    /// Of a lesson.
    #[must_use]
    pub const fn of(lesson: &Lesson, wording: Wording) -> Self {
        Self {
            craft: lesson.craft,
            stitch: lesson.stitch,
            closing: lesson.closing,
            worked: lesson.worked,
            wording: wording.for_stitch(lesson.stitch),
        }
    }

    /// What it is worked with.
    #[must_use]
    pub const fn tool(self) -> &'static str {
        if self.craft.carries_inside() {
            "hook"
        } else {
            "needle"
        }
    }

    /// The same as one speaks of it.
    #[must_use]
    pub const fn tools(self) -> &'static str {
        match self.craft {
            Craft::Knit => "needles",
            Craft::Crochet | Craft::Tunisian => "hook",
            Craft::CountedThread => "cloth",
        }
    }

    /// What it is called in the first sentence of a page.
    #[must_use]
    pub const fn lead(self) -> &'static str {
        match self.craft {
            Craft::Knit => "",
            Craft::Crochet => " crocheted,",
            Craft::Tunisian => " in Tunisian crochet,",
            Craft::CountedThread => " on counted thread,",
        }
    }

    /// The verbs of its shaping.
    #[must_use]
    pub fn verbs(self) -> Verbs {
        match self.craft {
            Craft::Knit => Verbs::knitted(),
            Craft::Crochet => {
                let short = self.wording.crochet_short();
                Verbs::new(
                    short,
                    true,
                    &format!("{short}2tog"),
                    &format!("2 {short} in the next"),
                )
            }
            Craft::Tunisian => Verbs::new("tss", true, "tss2tog", "make 1"),
            Craft::CountedThread => Verbs::new("crosses", true, "one less", "one more"),
        }
    }

    /// What decreases that lean are called, for a hand.
    #[must_use]
    pub fn leans(self, hand: Hand) -> Leans {
        if self.craft == Craft::Knit {
            return Leans::knitted(hand);
        }
        let less = self.verbs().less;
        Leans {
            right: less.clone(),
            left: less,
        }
    }

    /// `Knit 3 rounds`: the verb.
    #[must_use]
    pub fn work(self) -> &'static str {
        match (self.craft, self.worked) {
            (Craft::Knit, Worked::Round) => "Knit",
            (Craft::CountedThread, _) => "Stitch",
            _ => "Work",
        }
    }

    /// What plain rows are of, after their number: ` of double crochet`; and after their yarn: ` in stocking stitch`.
    #[must_use]
    pub fn plain_rows(self) -> (String, String) {
        match (self.craft, self.worked) {
            (Craft::Crochet, _) => (
                format!(" of {}", self.wording.plain_crochet()),
                String::new(),
            ),
            (Craft::Tunisian, _) => (" of Tunisian simple stitch".to_owned(), String::new()),
            (Craft::Knit, Worked::Flat) => (
                String::new(),
                format!(" in {}", self.wording.stocking_stitch()),
            ),
            _ => (String::new(), String::new()),
        }
    }

    /// A rib of so many stitches to a repeat.
    #[must_use]
    pub fn rib(self, multiple: usize) -> String {
        let (first, second) = (multiple.div_ceil(2), multiple / 2);
        match (self.craft, self.worked) {
            (Craft::Crochet, Worked::Round) => {
                let (front, back) = self.wording.post_stitches();
                format!("work post stitches, {first} {front}, {second} {back} by turns,")
            }
            (Craft::Crochet, Worked::Flat) => format!(
                "work {} through the back loops alone",
                self.wording.plain_crochet()
            ),
            _ => format!("knit {first}, purl {second}"),
        }
    }

    /// How the first stitches are made: `cast on 96 stitches. Join …`; `told` tells the counts of all sizes, so many chains
    /// more than stitches. `body`: of a jersey's body.
    #[must_use]
    pub fn begin(self, told: &dyn Fn(usize) -> String, body: bool) -> String {
        let name = self.wording.plain_crochet();
        match (self.craft, self.worked) {
            (Craft::Knit, Worked::Flat) => format!("cast on {} stitches.", told(0)),
            (Craft::Knit, Worked::Round) => {
                let side = if body {
                    ", at one side of the body"
                } else {
                    ""
                };
                format!(
                    "cast on {} stitches. Join into a round without a twist; mark the start{side}.",
                    told(0)
                )
            }
            (Craft::Crochet, Worked::Flat) => {
                let (more, from) = self.foundation();
                format!(
                    "chain {}. Row 1: {name} in the {from} chain from the hook and in each chain to the end: {} stitches. {}",
                    told(more),
                    told(0),
                    self.turning()
                )
            }
            (Craft::Crochet, Worked::Round) => format!(
                "chain {} loosely and join into a ring with a {}, without a twist. {}",
                told(0),
                self.wording.slip_stitch(),
                self.rounds()
            ),
            (Craft::Tunisian, Worked::Flat) => format!(
                "chain {}. First row, forward: draw a loop up through the second chain from the hook and through each chain to the \
                 end, all left on the hook: {} loops. Return: yarn over, draw through one loop; then yarn over, draw through two \
                 loops, over and over until one is left.",
                told(0),
                told(0)
            ),
            (Craft::Tunisian, Worked::Round) => format!(
                "chain {} and join into a ring with a {}, without a twist. Draw loops up through the chains until the hook is full; \
                 turn, and with a second ball of the same yarn work them off at the other end, all but the last four; turn back and \
                 draw up more. So it goes on, round upon round.",
                told(0),
                self.wording.slip_stitch()
            ),
            (Craft::CountedThread, _) => format!("mark off {} squares.", told(0)),
        }
    }

    /// Chains more than stitches of a flat foundation, and which from the hook takes the first stitch.
    fn foundation(self) -> (usize, &'static str) {
        match (self.stitch.turning_chain(), self.stitch.chain_counts()) {
            (1, _) => (1, "second"),
            (2, _) => (2, "third"),
            (_, _) => (2, "fourth"),
        }
    }

    fn turning(self) -> String {
        let chain = self.stitch.turning_chain();
        let counts = if self.stitch.chain_counts() {
            "which counts as its first stitch"
        } else {
            "which is no stitch"
        };
        format!("At the start of every row after it: chain {chain}, {counts}, and turn.")
    }

    fn rounds(self) -> String {
        let ss = self.wording.slip_stitch();
        if self.closing == Closing::Spiral {
            return "Rounds are not closed: go on into the first stitch of the round beneath, a marker in the first stitch of each. \
                    Every colour steps up by one round there. Do not turn."
                .to_owned();
        }
        let chain = self.stitch.turning_chain();
        let counts = if self.stitch.chain_counts() {
            "which counts as its first stitch"
        } else {
            "which is no stitch, and begin in the stitch it stands on"
        };
        format!(
            "Every round: chain {chain}, {counts}; finish the last stitch in its own yarn and close with a {ss} into the first one, \
             drawn through in the next round’s first yarn; nothing is worked into that {ss}. Do not turn. The seam drifts a little \
             to the {} as it grows.",
            self.wording.right()
        )
    }

    /// A swatch of so many stitches, `with` a tool, working a `pattern`.
    #[must_use]
    pub fn swatch(self, stitches: usize, with: &str, pattern: &str) -> String {
        let cast_off = capital(self.wording.cast_off());
        match (self.craft, self.worked) {
            (Craft::Knit, Worked::Round) => format!(
                "**Swatch as in the round.** Cast on {stitches} stitches{with} and work {pattern}, the right side always before \
                 you: do not turn, but slide the stitches back to the other tip, and let the yarn hang across the back in loops so \
                 loose that it lies flat. {cast_off}; unravelled once it is measured, its yarn serves again."
            ),
            (Craft::Knit, Worked::Flat) => format!(
                "**Swatch.** Cast on {stitches} stitches{with} and work {pattern}, purling back. {cast_off}."
            ),
            (Craft::Crochet, Worked::Round) => {
                let (more, from) = self.foundation();
                format!(
                    "**Swatch as in the round.** Chain {}{with}, begin in the {from} chain from the hook and work {pattern}, the right \
                     side always before you: fasten off after each row and begin the next where that one began.",
                    stitches + more
                )
            }
            (Craft::Crochet, Worked::Flat) => {
                let (more, from) = self.foundation();
                format!(
                    "**Swatch.** Chain {}{with}, begin in the {from} chain from the hook and work {pattern}, turning after each row.",
                    stitches + more
                )
            }
            (Craft::Tunisian, _) => format!(
                "**Swatch.** Chain {stitches}{with}, draw up a loop in each chain and work {pattern}, forward and return."
            ),
            (Craft::CountedThread, _) => String::new(),
        }
    }

    /// What is said of the kind of tool, after its thickness; the work is so wide.
    #[must_use]
    pub fn tool_kind(self, width: Option<Length>) -> &'static str {
        match (self.craft, self.worked) {
            (Craft::Knit, Worked::Flat) => ", straight or a circular one",
            (Craft::Tunisian, Worked::Round) => ", with a point at either end",
            (Craft::Tunisian, Worked::Flat) if width.is_some_and(|w| w > LONGEST_HOOK) => {
                ", a long one with a cable"
            }
            (Craft::Tunisian, Worked::Flat) => ", a long one",
            _ => "",
        }
    }

    /// How the last stitches are finished: nothing where it is knitted.
    #[must_use]
    pub const fn edge(self) -> Option<&'static str> {
        match self.craft {
            Craft::Knit => None,
            Craft::Crochet => Some("Fasten off."),
            Craft::Tunisian => Some(
                "Close the edge: hook under each bar, yarn over, and draw through the bar and the loop on the hook, to the end. \
                 Fasten off.",
            ),
            Craft::CountedThread => Some("Run each thread's end under four crosses at the back."),
        }
    }

    /// What is said before a row of the wrong side.
    #[must_use]
    pub const fn way_back(self) -> &'static str {
        match self.craft {
            Craft::Knit => "(wrong side, purl) ",
            _ => "(wrong side) ",
        }
    }

    /// How its basic stitch is made, where its name alone would not say; nothing of knitting.
    #[must_use]
    pub fn basic_stitch(self) -> Option<String> {
        match self.craft {
            Craft::Knit | Craft::CountedThread => None,
            Craft::Crochet => Some(self.wording.crochet_named()),
            Craft::Tunisian => Some(
                "tss: Tunisian simple stitch: hook behind the front bar of the stitch beneath, yarn over and draw up a loop; the last \
                 one of a row is taken under both strands of the edge"
                    .to_owned(),
            ),
        }
    }

    /// What straightens its fabric; nothing where it lies flat.
    #[must_use]
    pub const fn curls(self) -> Option<&'static str> {
        match self.craft {
            Craft::Tunisian => Some(
                "It curls as it grows: a hook two sizes thicker than for ordinary crochet, and pinning out damp, flatten it.",
            ),
            _ => None,
        }
    }
}
