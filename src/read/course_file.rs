//! course.yaml to the settings of a [`Course`].

use std::collections::BTreeMap;

use crate::course::body::{self, Body, Given, Source};
use crate::course::{
    Budget, Course, Craft, Learner, Levels, Paper, Part, Sessions, Terms, Units, Weights,
};
use crate::ground::bounds::{FOOTER_LETTERS, LEARNERS};
use crate::ground::fault::{Code, Fault, Span, did_you_mean};
use crate::ground::units::{FloatLimit, Length};
use crate::read::check::{check, mended};
use crate::read::keys::COURSE;
use crate::read::node::Node;
use crate::read::shape::Shape;
use crate::read::unlikely;
use crate::read::values::{field, number, whole};

/// Sizes by name: the built-in ones, corrected and added to by the course. Girths in the order head, hand, chest.
#[derive(Clone, Debug, Default)]
pub(super) struct Sizes {
    own: BTreeMap<String, Own>,
}

/// What a course says of a body: a correction of a built-in one, or one of its own.
#[derive(Clone, Copy, Debug)]
struct Own {
    head: Option<Length>,
    hand: Option<Length>,
    chest: Option<Length>,
    given: Given,
}

/// From this chest on a body of the course's own is grown up, in millimetres: that of a fourteen-year-old.
const GROWN_CHEST: f64 = 820.0;

impl Own {
    /// Whether anything is no more than a child of two has: then the cautions for infants are printed.
    fn may_be_infant(&self) -> bool {
        let Some(two) = body::TABLE.iter().find(|row| row.id == "child-2") else {
            return false;
        };
        let two = two.body();
        let girths = [
            (self.head, two.head),
            (self.hand, two.hand),
            (self.chest, two.chest),
        ];
        let small = |(own, (most, _)): (Option<Length>, (Length, Source))| {
            own.is_some_and(|own| own.to_mm() <= most.to_mm())
        };
        girths.into_iter().any(small)
    }

    fn is_grown(&self) -> bool {
        let broad = |chest: Length| chest.to_mm() >= GROWN_CHEST;
        self.chest.map_or(!self.may_be_infant(), broad)
    }

    /// Measures that are not given, by the words of the files.
    fn missing(&self) -> Vec<&'static str> {
        let all = [
            ("head", self.head),
            ("hand", self.hand),
            ("chest", self.chest),
            ("armhole", self.given.armhole),
            ("sleeve", self.given.sleeve),
            ("upper-arm", self.given.upper_arm),
        ];
        let names = all.into_iter().filter(|(_, given)| given.is_none());
        names.map(|(name, _)| name).collect()
    }
}

impl Sizes {
    /// The body of this name, with a list of girths that the course does not give (of a size it adds).
    pub(super) fn find(&self, name: &str) -> Option<(Body, Vec<&'static str>)> {
        let built_in = body::TABLE
            .iter()
            .find(|row| row.id == name)
            .map(body::SizeRow::body);
        let Some(own) = self.own.get(name) else {
            return built_in.map(|body| (body, Vec::new()));
        };
        let mut missing = Vec::new();
        let is_new = built_in.is_none();
        let mut body = built_in.or_else(|| {
            let stand_in = body::TABLE
                .iter()
                .find(|row| row.id == "adult-medium")?
                .body();
            Some(Body {
                id: name.to_owned(),
                label: name.to_owned(),
                adult: own.is_grown(),
                infant: own.may_be_infant(),
                ..stand_in
            })
        })?;
        body.given = own.given;
        let girths = [
            (own.head, &mut body.head),
            (own.hand, &mut body.hand),
            (own.chest, &mut body.chest),
        ];
        for (given, place) in girths {
            if let Some(length) = given {
                *place = (length, Source::Course);
            }
        }
        if is_new {
            missing.extend(own.missing());
        }
        Some((body, missing))
    }

    /// What is said of a size that nobody has.
    pub(super) fn unknown(&self, name: &str, span: Span) -> Fault {
        let title = format!("there is no size `{name}`");
        Fault::new(Code::UnknownSize, title, span, "not in the body table")
            .help(did_you_mean(name, &self.names()))
    }

    /// All names, for suggestions.
    fn names(&self) -> Vec<&str> {
        let built_in = crate::read::keys::size_ids();
        built_in
            .into_iter()
            .chain(self.own.keys().map(String::as_str))
            .collect()
    }
}

/// A course with default settings, as for files that lie outside any course.
pub(super) fn default_course(id: &str) -> Course {
    Course {
        id: id.to_owned(),
        title: id.to_owned(),
        guild: None,
        footer: None,
        footer_place: None,
        units: Units::default(),
        paper: Paper::default(),
        terms: Terms::default(),
        limit: FloatLimit::default(),
        weights: Weights::default(),
        levels: Levels::default(),
        budget: Budget::default(),
        sessions: None,
        learners: Vec::new(),
        assumes: vec![Craft::USUAL],
        lessons: Vec::new(),
        charts: BTreeMap::new(),
        cards: BTreeMap::new(),
        templates: BTreeMap::new(),
    }
}

/// Understands course.yaml; what is wrong keeps its default.
pub(super) fn read_course(folder: &str, node: &Node, faults: &mut Vec<Fault>) -> (Course, Sizes) {
    check(node, &Shape::Map(COURSE), "a course", faults);
    let node = &mended(node, &Shape::Map(COURSE));
    unlikely::course(node, faults);
    let text = |key: &str| node.get(key).and_then(Node::text).map(str::to_owned);
    let id = text("id").filter(|id| crate::read::shape::is_id(id));
    let mut course = default_course(id.as_deref().unwrap_or(folder));
    course.title = text("title").unwrap_or_else(|| course.id.clone());
    course.guild = text("guild");
    course.footer = text("footer");
    if let Some(footer) = node.get("footer") {
        course.footer_place = Some(footer.span);
        let letters = course
            .footer
            .as_deref()
            .map_or(0, |text| text.chars().count());
        if letters > FOOTER_LETTERS {
            let title =
                format!("the footer has {letters} letters; {FOOTER_LETTERS} are read at most");
            let fault = Fault::new(Code::TooLarge, title, footer.span, "too long");
            faults.push(fault.help("say who may copy the page in two short lines"));
            course.footer = None;
        }
    }
    course.units = match text("units").as_deref() {
        Some("imperial") => Units::Imperial,
        Some("both") => Units::Both,
        _ => Units::Metric,
    };
    course.paper = if text("paper").as_deref() == Some("letter") {
        Paper::Letter
    } else {
        Paper::A4
    };
    course.terms = if text("terms").as_deref() == Some("us") {
        Terms::Us
    } else {
        Terms::Uk
    };
    course.limit = read_limit(node, FloatLimit::default());
    course.weights = read_weights(node, faults);
    course.levels = read_levels(node, faults);
    let budget = Budget::default();
    course.budget = Budget {
        step: number(node, "budget", "step").unwrap_or(budget.step),
        doorstep: number(node, "budget", "doorstep").unwrap_or(budget.doorstep),
        techniques: whole(node, "budget", "techniques").map_or(budget.techniques, |n| n as usize),
    };
    course.sessions = node.get("sessions").map(|_| Sessions {
        count: whole(node, "sessions", "count").unwrap_or(6),
        hours: number(node, "sessions", "hours").unwrap_or(2.0),
        weeks_between: number(node, "sessions", "weeks_between").unwrap_or(1.0),
        home_hours: number(node, "sessions", "home_hours").unwrap_or(3.0),
        teaching_share: number(node, "sessions", "teaching_share").unwrap_or(0.4),
        learners: whole(node, "sessions", "learners").unwrap_or(12),
    });
    if let Some(crafts) = node.get("assumes") {
        let named = crafts.items().iter();
        course.assumes = named
            .filter_map(|craft| Craft::from_name(craft.text()?))
            .collect();
    }
    let sizes = read_sizes(node);
    course.learners = read_learners(node, &sizes, faults);
    if let (Some(sessions), named @ 1..) = (&mut course.sessions, course.learners.len()) {
        sessions.learners = u32::try_from(named).unwrap_or(u32::MAX);
    }
    (course, sizes)
}

/// `limit`, each key on its own.
pub(super) fn read_limit(node: &Node, otherwise: FloatLimit) -> FloatLimit {
    FloatLimit {
        stitches: whole(node, "limit", "stitches").map_or(otherwise.stitches, |n| n as usize),
        length: field(node, "limit", "length")
            .and_then(Length::parse)
            .unwrap_or(otherwise.length),
    }
}

fn read_weights(node: &Node, faults: &mut Vec<Fault>) -> Weights {
    let mut weights = Weights::default();
    for part in Part::ALL {
        if let Some(value) = number(node, "weights", part.name()) {
            weights.0[part.index()] = value;
        }
    }
    let sum: f64 = weights.0.iter().sum();
    if let Some(at) = node.get("weights")
        && (sum - 100.0).abs() > 1e-9
    {
        let title = format!(
            "the weights sum to {}, not 100",
            crate::ground::units::plain_number(sum, 4)
        );
        faults.push(
            Fault::new(Code::WeightsSum, title, at.span, "must sum to 100")
                .help("a part left out keeps its default: floats 30, colours 20, reading 20, relief 15, handling 15"),
        );
        return Weights::default();
    }
    weights
}

fn read_levels(node: &Node, faults: &mut Vec<Fault>) -> Levels {
    let mut levels = Levels::default();
    for (i, key) in ["easy", "intermediate", "complex"].into_iter().enumerate() {
        if let Some(value) = number(node, "levels", key) {
            levels.0[i] = value;
        }
    }
    if let Some(at) = node.get("levels")
        && !(levels.0[0] <= levels.0[1] && levels.0[1] <= levels.0[2])
    {
        faults.push(
            Fault::new(
                Code::LevelsOrder,
                "the levels do not rise",
                at.span,
                "easy ≤ intermediate ≤ complex",
            )
            .help("defaults: easy 15, intermediate 35, complex 60"),
        );
        return Levels::default();
    }
    levels
}

/// Most letters of a learner's name: it stands in a running head and on a line of the register.
const LONGEST_NAME: usize = 30;

/// `sessions: { learners: [{ name: Wren, size: adult-small }, …] }`.
fn read_learners(node: &Node, sizes: &Sizes, faults: &mut Vec<Fault>) -> Vec<Learner> {
    let list = node
        .get("sessions")
        .and_then(|sessions| sessions.get("learners"));
    let items = list.map(Node::items).unwrap_or_default();
    let mut learners = Vec::new();
    if let Some(over) = items.get(LEARNERS) {
        let title = format!("more than {LEARNERS} learners have a name");
        let fault = Fault::new(Code::TooLarge, title, over.span, "one too many");
        faults.push(
            fault.help("give the number, `learners: 600`, or hold the course in several classes"),
        );
    }
    for item in items.iter().take(LEARNERS) {
        let (Some(name), Some(size)) = (item.get("name"), item.get("size")) else {
            continue;
        };
        let (text, id) = (name.text().unwrap_or(""), size.text().unwrap_or(""));
        if text.trim().is_empty() || text.chars().count() > LONGEST_NAME {
            let title = format!("a name of 1 to {LONGEST_NAME} letters fits the register");
            let fault = Fault::new(Code::WrongValue, title, name.span, "");
            faults.push(fault.help("write what she is called in class"));
        }
        match sizes.find(id) {
            Some((body, _)) => learners.push(Learner {
                name: text.to_owned(),
                size: body,
            }),
            None => faults.push(sizes.unknown(id, size.span)),
        }
    }
    learners
}

fn read_sizes(node: &Node) -> Sizes {
    let mut sizes = Sizes::default();
    for (name, girths) in node.get("bodies").map(Node::entries).unwrap_or_default() {
        let girth = |key: &str| Length::parse(girths.get(key)?.text()?);
        let own = Own {
            head: girth("head"),
            hand: girth("hand"),
            chest: girth("chest"),
            given: Given {
                armhole: girth("armhole"),
                sleeve: girth("sleeve"),
                upper_arm: girth("upper-arm"),
                neck: girth("neck"),
            },
        };
        if let Some(name) = name.text() {
            sizes.own.insert(name.to_owned(), own);
        }
    }
    sizes
}
