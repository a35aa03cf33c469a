//! Every kind of fault, with its name and severity.

/// Whether a fault stops a pack.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Severity {
    /// The thing is left out; `pack` writes nothing.
    Error,
    /// Worth knowing; everything goes on.
    Warning,
}

macro_rules! codes {
    ($($variant:ident $name:literal $severity:ident $doc:literal),* $(,)?) => {
        /// A kind of fault.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Code { $(#[doc = $doc] $variant),* }

        impl Code {
            /// All codes.
            pub const ALL: &'static [Self] = &[$(Self::$variant),*];

            /// The name printed and asked for with `explain`.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$variant => $name),* }
            }

            /// Whether it stops a pack.
            #[must_use]
            pub const fn severity(self) -> Severity {
                match self { $(Self::$variant => Severity::$severity),* }
            }
        }
    };
}

codes! {
    BrokenYaml "broken-yaml" Error "The file is not readable YAML.",
    BrokenJson "broken-json" Error "A line of a stream is not readable JSON.",
    YamlFeature "yaml-feature" Error "A part of YAML that course files do not use.",
    TooLarge "too-large" Error "Beyond a bound on size.",
    DuplicateKey "duplicate-key" Error "The same key twice in one group.",
    UnknownKey "unknown-key" Error "A key that means nothing here.",
    MissingKey "missing-key" Error "A key that must be there.",
    WrongValue "wrong-value" Error "A value that cannot stand here.",
    UnknownFile "unknown-file" Error "Neither chart nor lesson.",
    NoCourse "no-course" Error "A folder without course.yaml.",
    NoLessons "no-lessons" Error "A course without any lesson.",
    DuplicateId "duplicate-id" Error "Two files with one id.",
    UnknownLetter "unknown-letter" Error "A chart letter that no colour names.",
    BadLetter "bad-letter" Error "A colour key that is not one visible character.",
    RaggedRows "ragged-rows" Error "Rows of different widths.",
    RepeatOutside "repeat-outside" Error "A repeat beyond the chart's edge.",
    OverlayShape "overlay-shape" Error "An overlay of another shape than the rows, or with an unknown mark.",
    DoesNotAddUp "does-not-add-up" Error "Shaping whose counts do not follow.",
    ShapedRepeat "shaped-repeat" Error "Rows of a shaped chart that are to be repeated.",
    PermissionDetails "permission-details" Error "A permission without giver or scope.",
    SharedRole "shared-role" Warning "Two letters of one colour.",
    NoRights "no-rights" Warning "A chart that does not say who may copy it.",
    UnknownChart "unknown-chart" Error "A band names a chart that is not there.",
    UnknownColour "unknown-colour" Error "A colour role that the lesson gives no yarn.",
    UnknownSize "unknown-size" Error "A size that the body table lacks.",
    NoSizes "no-sizes" Error "A piece that must fit, without sizes.",
    UnknownLesson "unknown-lesson" Error "`needs` names a lesson that is not there.",
    NeedsLeftOut "needs-left-out" Warning "`needs` names a lesson left out for its faults.",
    NeedsCycle "needs-cycle" Error "Lessons that need each other.",
    BandExtent "band-extent" Error "A band without rows or height, or with both.",
    AcrossPart "across-part" Error "A part of `across` that is neither chart nor plain, or a bad `times`.",
    CraftCannot "craft-cannot" Error "Something that the lesson's craft has not.",
    WorkedDiffers "worked-differs" Warning "A chart drawn flat used in the round, or the other way.",
    NoPlainGauge "no-plain-gauge" Warning "Plain fabric without a gauge of its own.",
    WeightsSum "weights-sum" Error "Weights that do not sum to 100.",
    LevelsOrder "levels-order" Error "Levels that do not rise.",
    EmptyBands "empty-bands" Error "A lesson in which nothing is worked.",
    NoCounts "no-counts" Warning "A piece whose stitches lead nowhere.",
    YarnAtFarEdge "yarn-at-far-edge" Warning "A row that needs a yarn which lies at its other edge.",
    StartsOnWrongSide "starts-on-wrong-side" Warning "A flat chart whose first row comes on a wrong side.",
    SizesAlike "sizes-alike" Warning "Sizes that come to the same piece.",
    TooDeep "too-deep" Warning "A piece deeper than the body it is for.",
    ThumbOff "thumb-off" Warning "A thumb that opens where the hand has none.",
    ColoursAlike "colours-alike" Warning "Yarns of one row that do not read apart.",
    CannotTame "cannot-tame" Error "Floats that cannot be made so short.",
    NoAxis "no-axis" Error "A chart without the left-right axis that is to be kept.",
    UnknownEntry "unknown-entry" Warning "A log or list names a thing that no course holds.",
    NotRead "not-read" Warning "Something in a course's folder that is not read.",
    UnlikelyNumber "unlikely-number" Warning "A number beyond what practice knows.",
    Unreadable "unreadable" Error "A file that cannot be read as text.",
    UnsafeLink "unsafe-link" Warning "A link or picture that is not printed.",
    BrokenTemplate "broken-template" Error "A template that cannot be rendered.",
}

impl Code {
    /// The code of this name.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|code| code.name() == name)
    }
}
