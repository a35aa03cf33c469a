//! How each craft works: its first stitches, its ribs, its rounds, its swatch, its edge.

use crate::course::chart::Worked;
use crate::course::{Closing, Craft};
use crate::words::craft::CraftWords;
use crate::words::{capital, join_and};

impl CraftWords {
    /// A rib of so many stitches to a repeat, over so many rounds or rows.
    #[must_use]
    pub fn rib(self, multiple: usize, extent: &str) -> String {
        let (first, second) = (multiple.div_ceil(2), multiple / 2);
        match (self.craft, self.worked) {
            (Craft::Crochet, Worked::Round) => {
                let (tall, front, back) = self.wording.post_stitches();
                let begin = match self.closing {
                    Closing::Joined => {
                        " Each begins with chain 2, which is no stitch, and is closed like the others."
                    }
                    Closing::Spiral => "",
                };
                format!(
                    "work {extent}: the first of {tall}, the others round the posts beneath, {first} {front}, {second} {back} by turns, \
                     front on front and back on back.{begin}"
                )
            }
            (Craft::Crochet, Worked::Flat) => format!(
                "work {} through the back loops alone for {extent}.",
                self.wording.plain_crochet()
            ),
            _ => format!("knit {first}, purl {second} for {extent}."),
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
                    "chain {}, loosely or on a hook one size thicker. {} in the {from} chain from the hook and in each chain \
                     to the end: {} stitches, the first row of the next step. {}",
                    told(more),
                    capital(name),
                    told(0),
                    self.turning()
                )
            }
            (Craft::Crochet, Worked::Round) => format!(
                "chain {}, very loosely or on a hook two sizes thicker, and join into a ring with a {}, without a twist. {}",
                told(0),
                self.wording.slip_stitch(),
                self.rounds()
            ),
            (Craft::Tunisian, Worked::Flat) => format!(
                "chain {}. Forward: draw a loop up through the second chain from the hook and through each chain to the \
                 end, all left on the hook: {} loops. Return: yarn over, draw through one loop; then yarn over, draw through two \
                 loops, over and over until one is left, which is the first loop of the next row. That is the first row of the next step.",
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
            // `OnCloth` tells it.
            (Craft::CountedThread, _) => String::new(),
        }
    }

    /// How a hat is begun at its crown, with so many stitches in a ring.
    #[must_use]
    pub fn ring(self, stitches: usize) -> String {
        format!(
            "make a ring of the yarn’s end, laid twice round a finger, and work {stitches} {} into it; draw the end tight. {}",
            self.wording.crochet_short(),
            self.rounds()
        )
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
            "counts as its first stitch: go on in the second one beneath"
        } else {
            "is no stitch: begin in the very first one beneath, and work nothing into the chain"
        };
        let colour = self.wording.colour();
        format!(
            "Finish the last stitch of every row, and chain {chain}, in the {colour} that the next row begins with; then turn. The \
             chain {counts}."
        )
    }

    fn rounds(self) -> String {
        let ss = self.wording.slip_stitch();
        if self.closing == Closing::Spiral {
            return format!(
                "Rounds are not closed: go on into the first stitch of the round beneath, a marker in the first stitch of each. \
                 Every {} steps up by one round there. Do not turn.",
                self.wording.colour()
            );
        }
        let chain = self.stitch.turning_chain();
        let counts = if self.stitch.chain_counts() {
            "which counts as its first stitch"
        } else {
            "which is no stitch, and begin in the stitch that it was joined to, a marker in that first stitch"
        };
        format!(
            "Every round: chain {chain}, {counts}; finish the last stitch in its own yarn and close with a {ss} into the first one, \
             drawn through in the next round’s first yarn; nothing is worked into that {ss}. Do not turn. The seam drifts a little \
             to the {} as it grows.",
            self.wording.right()
        )
    }

    /// How other yarns come into stitches that close over them; `names` are theirs, `tail` what is left of each.
    #[must_use]
    pub fn laid_in(self, names: &[String], tail: &str) -> String {
        let line = match self.worked {
            Worked::Round => "round",
            Worked::Flat => "row",
        };
        let (it, each, has) = match names.len() {
            1 => ("it", "", "has it"),
            _ => ("them", ", each", "has them"),
        };
        let names = join_and(names);
        match self.craft {
            Craft::Tunisian => format!(
                " Bring in {names}{each} with a tail of {tail} where its first loop is drawn up; where a {line} begins with it, in the last \
                 draw of the return pass beneath. A strand goes forward only as far as its last loop of the {line}, crossed with the \
                 working one every second loop, and comes back with the return pass; what a {line} does not have waits at the {} edge. \
                 Cut {it} after the last {line} that {has}.",
                self.wording.right()
            ),
            _ => format!(
                " Bring in {names}{each} at the start of the {line} that first has it: lay its tail of {tail} along the tops of the stitches, \
                 work over it, and draw it up in the last draw before its first stitch; where a {line} begins with it, that is the last \
                 draw of the {line} beneath. The yarn that is not worked lies along the tops, too, and is worked over. Through {line}s without {it} let {it} hang at the start, on the wrong side, and take {it} up \
                 slack; cut {it} after the last {line} that {has}."
            ),
        }
    }

    /// A swatch of so many stitches, `with` a tool, working a `pattern`.
    #[must_use]
    pub fn swatch(self, stitches: usize, with: &str, pattern: &str) -> String {
        let cast_off = capital(self.wording.cast_off());
        match (self.craft, self.worked) {
            (Craft::Knit, Worked::Round) => format!(
                "**Swatch as in the round.** Cast on {stitches} stitches{with} and work {pattern}, the right side always before \
                 you: do not turn, but slide the stitches back to the other tip, the yarn hanging across the back in loops so loose \
                 that it lies flat. {cast_off}; its yarn serves again."
            ),
            (Craft::Knit, Worked::Flat) => format!(
                "**Swatch.** Cast on {stitches} stitches{with} and work {pattern}, purling back. {cast_off}."
            ),
            (Craft::Crochet, Worked::Round) => {
                let (more, from) = self.foundation();
                format!(
                    "**Swatch as in the round.** Chain {}{with}, begin in the {from} chain from the hook with one plain row, then work {pattern}, the right \
                     side always before you: fasten off after each row and join anew where it began.",
                    stitches + more
                )
            }
            (Craft::Crochet, Worked::Flat) => {
                let (more, from) = self.foundation();
                format!(
                    "**Swatch.** Chain {}{with}, begin in the {from} chain from the hook with one plain row, then work {pattern}, turning after each row.",
                    stitches + more
                )
            }
            (Craft::Tunisian, _) => format!(
                "**Swatch.** Chain {stitches}{with} and begin as the steps tell, with one plain row; then work {pattern}, {stitches} loops in each \
                 forward pass, and close its edge as they tell, too."
            ),
            (Craft::CountedThread, _) => String::new(),
        }
    }

    /// How the last stitches are finished: nothing where it is knitted.
    #[must_use]
    pub const fn edge(self) -> Option<&'static str> {
        match self.craft {
            Craft::Knit | Craft::CountedThread => None,
            Craft::Crochet => Some("Fasten off."),
            Craft::Tunisian => Some(
                "Close the edge loosely: hook under each bar but the first, yarn over, and draw through the bar and the loop on the \
                 hook; the last bar under both its strands. Fasten off.",
            ),
        }
    }
}
