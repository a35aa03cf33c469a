//! What each craft says: its tools, its verbs, how it begins and ends. The only room of sentences that asks which craft it is.

mod verbs;
mod work;

use crate::course::body::Makes;
use crate::course::chart::Worked;
use crate::course::{Closing, Craft, CrochetStitch, Hand, Lesson};
use crate::ground::units::Length;
use crate::words::labels::RELIEF;
use crate::words::steps::{Instruction, RoundTable};
use crate::words::terms::Wording;

pub use verbs::{Leans, Verbs};

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
            Craft::CountedThread => "needle",
        }
    }

    /// What is to be done where fewer stitches are left than reach round; nothing of a hook.
    #[must_use]
    pub const fn shorter_needle(self) -> &'static str {
        match self.craft {
            Craft::Knit => {
                " When the stitches no longer reach round the needle, go on with a shorter one."
            }
            _ => "",
        }
    }

    /// What its first stitches are called in a table.
    #[must_use]
    pub const fn cast_on_name(self) -> &'static str {
        match self.craft {
            Craft::Knit => "Cast on",
            _ => "First stitches",
        }
    }

    /// What it is made of, as a heading has it before the tools.
    #[must_use]
    pub const fn stuff(self) -> &'static str {
        match self.craft {
            Craft::CountedThread => "Cloth, thread",
            _ => "Yarn",
        }
    }

    /// What stands over what is measured first.
    #[must_use]
    pub const fn measure_title(self) -> &'static str {
        match self.craft {
            Craft::CountedThread => "Measure the cloth first",
            _ => "Measure yourself first",
        }
    }

    /// Who is tired by it.
    #[must_use]
    pub fn tires(self) -> String {
        match self.craft {
            Craft::CountedThread => "**Hands and eyes.** Fine squares tire both".to_owned(),
            _ => format!(
                "**Your hands.** Two {} are harder on them than one",
                self.wording.colours()
            ),
        }
    }

    /// A caution that no other craft has.
    #[must_use]
    pub const fn own_caution(self) -> Option<&'static str> {
        match self.craft {
            Craft::CountedThread => Some(
                "**Needles.** Count them when you stop, and keep them from children and animals.",
            ),
            _ => None,
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
                .into_one()
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
            _ => "Work",
        }
    }

    /// How stripes are worked one after the other, before the list of them.
    #[must_use]
    pub fn stripes(self) -> String {
        let (of, purled) = self.plain_rows();
        format!(
            "{} plain{of}{purled}, one stripe after the other:",
            self.work()
        )
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

    /// What a carried strand is said to do: as a verdict, and after its length.
    #[must_use]
    pub const fn carried(self) -> (&'static str, &'static str) {
        match self.craft {
            Craft::Tunisian => (
                "Crossed on its way, nothing hangs free",
                "crossed every second loop",
            ),
            _ => ("Carried inside, nothing hangs free", "worked over"),
        }
    }

    /// What stands beside a row of one colour in a chart; nothing where no rows are worked. In crochet “relief” is a stitch.
    #[must_use]
    pub const fn one_colour_row(self) -> Option<&'static str> {
        match self.craft {
            Craft::Knit => Some(RELIEF),
            Craft::Crochet | Craft::Tunisian => Some("plain"),
            Craft::CountedThread => None,
        }
    }

    /// How even colourwork is judged.
    #[must_use]
    pub fn evenness(self) -> String {
        let colour = self.wording.colour();
        match self.craft {
            Craft::Crochet | Craft::Tunisian => format!(
                "The {colour}work is as wide as the plain part: it neither draws in nor flares."
            ),
            _ => format!(
                "The {colour}work stretches over your spread hand as far as the plain part does."
            ),
        }
    }

    /// How it dries.
    #[must_use]
    pub const fn dry(self, makes: Makes) -> &'static str {
        match (self.craft, makes) {
            (Craft::Tunisian, _) => "pin it out damp to its measures and let it dry",
            (_, Makes::Hat) => "dry over something round of its size",
            _ => "dry flat in shape",
        }
    }

    /// Whether the row that the foundation is worked into counts as the first of what follows.
    #[must_use]
    pub fn foundation_counts(self) -> bool {
        matches!(self.craft, Craft::Crochet | Craft::Tunisian) && self.worked == Worked::Flat
    }

    /// The edge that all else stands on.
    #[must_use]
    pub const fn lower_edge(self) -> &'static str {
        match self.craft {
            Craft::Crochet | Craft::Tunisian => "the chain",
            _ => "the edge",
        }
    }

    /// What is begun of a lesson ahead of its time.
    #[must_use]
    pub const fn preparation(self) -> &'static str {
        match self.craft {
            Craft::CountedThread => "to cut and iron the cloth",
            _ => "the swatch",
        }
    }

    /// What is done at home before a lesson.
    #[must_use]
    pub const fn at_home(self) -> &'static str {
        match self.craft {
            Craft::Knit => "A swatch in the pattern, washed and dry",
            Craft::Crochet | Craft::Tunisian => "A swatch in the pattern",
            Craft::CountedThread => "The cloth cut, ironed and folded to its middle",
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

    /// What is said before a row of the wrong side.
    #[must_use]
    pub const fn way_back(self) -> &'static str {
        match self.craft {
            Craft::Knit => "(wrong side, purl) ",
            _ => "(wrong side) ",
        }
    }

    /// How its basic stitch and what its steps and tables make of it are worked, where names alone would not say; nothing of
    /// knitting.
    #[must_use]
    pub fn basic_stitch(self, steps: &[Instruction], tables: &[RoundTable]) -> Option<String> {
        let cells = tables.iter().flat_map(|table| table.rows.iter().flatten());
        let mut texts = steps.iter().map(|step| &step.text).chain(cells);
        let less = self.verbs().less;
        let decreases = texts.clone().any(|text| text.contains(&less));
        let posts = texts.any(|text| text.contains(" post "));
        let mut told = match self.craft {
            Craft::Knit | Craft::CountedThread => return None,
            Craft::Crochet => vec![self.wording.crochet_named()],
            Craft::Tunisian => vec![
                "Tunisian simple stitch: hook behind the front bar of the stitch beneath, yarn over and draw up a loop; the last one \
                 of a row is taken under both strands of the edge"
                    .to_owned(),
            ],
        };
        if decreases {
            told.push(format!(
                "{less}: draw up a loop in each of two stitches, then yarn over and draw through all on the hook"
            ));
        }
        if posts {
            told.push(
                "front post, back post: yarn over, hook round the stem of the stitch beneath, from the front or from the back, draw up a loop, \
                 then twice yarn over and draw through two".to_owned(),
            );
        }
        Some(told.join("; "))
    }

    /// How its rounds drift, so that what is drawn upright leans; nothing where it does not. The amount from memory.
    #[must_use]
    pub fn drift(self) -> Option<String> {
        let drifts = self.craft == Craft::Crochet && self.worked == Worked::Round;
        drifts.then(|| {
            format!(
                "Each round sits about a quarter of a stitch further {} than the one beneath: upright lines lean that way.",
                self.wording.right()
            )
        })
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
