//! All that is printed, laid out on pages.

use crate::course::{Course, Learner, PrintedSizes};
use crate::handout::{CoursePlan, Handout, Print, course_plan, handouts};
use crate::page::blocks::Block;
use crate::page::pack::inputs::Inputs;
use crate::page::pdf::{Document, Furniture, Section, Sheet, lay_out};
use crate::page::{CourseDirectives, HandoutDirectives, TemplateError, Templates};
use crate::words::{Wording, labels};

/// What all documents of a pack are made with.
pub(super) struct Setting<'a> {
    pub(super) inputs: &'a Inputs<'a>,
    templates: Templates,
}

/// A handout before it is laid out.
pub(super) struct Draft {
    pub(super) folder: String,
    pub(super) title: String,
    /// What it is, in a sentence.
    pub(super) about: String,
    /// Names of the sizes whose numbers stand side by side.
    pub(super) sizes: Vec<String>,
    pub(super) section: Section,
}

/// The documents of the course as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Whole {
    /// Cover, ladder, contents, skills, shopping: what stands before the handouts.
    Plan,
    /// The teacher's guide.
    Teacher,
    /// The quiz.
    Quiz,
}

impl Whole {
    const ALL: [Self; 3] = [Self::Plan, Self::Teacher, Self::Quiz];

    /// Those of a pack: where no pair of charts is worth asking about, there is no quiz.
    pub(super) fn of(inputs: &Inputs<'_>) -> Vec<Self> {
        let asks = !inputs.quiz.questions.is_empty();
        let wanted = |which: &Self| asks || *which != Self::Quiz;
        Self::ALL.into_iter().filter(wanted).collect()
    }

    pub(super) fn path(self) -> &'static str {
        match self {
            Self::Plan => "course.pdf",
            Self::Teacher => "teacher.pdf",
            Self::Quiz => "quiz.pdf",
        }
    }

    fn template(self) -> &'static str {
        match self {
            Self::Plan => "course.md",
            Self::Teacher => "teacher.md",
            Self::Quiz => "quiz.md",
        }
    }

    fn label(self) -> &'static str {
        match self {
            Self::Plan => labels::PLAN,
            Self::Teacher => labels::TEACHER,
            Self::Quiz => labels::QUIZ,
        }
    }

    /// The title of the file.
    pub(super) fn title(self, course: &Course) -> String {
        match self {
            Self::Plan => course.title.clone(),
            _ => format!("{}: {}", course.title, self.label()),
        }
    }
}

impl<'a> Setting<'a> {
    pub(super) fn new(inputs: &'a Inputs<'a>) -> Result<Self, TemplateError> {
        let course = inputs.studied.course;
        Ok(Self {
            templates: Templates::new(&course.templates)?,
            inputs,
        })
    }

    pub(super) fn course(&self) -> &'a Course {
        self.inputs.studied.course
    }

    pub(super) fn sheet(&self) -> Sheet {
        self.inputs.sheet()
    }

    /// A handout's blocks under its running head.
    pub(super) fn draft(&self, handout: &Handout<'_>) -> Result<Draft, TemplateError> {
        let course = self.course();
        let blocks = HandoutDirectives::new(handout, &self.templates).blocks()?;
        let label = labels::lesson_label(handout.number);
        Ok(Draft {
            folder: folder(handout),
            title: labels::handout_title(&handout.title, handout.number, handout.of),
            about: handout.lead.clone(),
            sizes: handout
                .pieces
                .iter()
                .filter_map(|piece| Some(piece.size.as_ref()?.label.clone()))
                .collect(),
            section: section(course, &label, &handout.title, Some(&handout.next), blocks),
        })
    }

    /// All handouts for one learner: in her size alone, her name in every running head.
    pub(super) fn learner(&self, learner: &Learner) -> Result<Document, TemplateError> {
        let print = Print {
            sizes: PrintedSizes::Only(learner.size.id.clone()),
            ..self.inputs.print.clone()
        };
        let mut sections = Vec::new();
        for handout in handouts(self.inputs.studied, &print) {
            let mut section = self.draft(&handout)?.section;
            section.furniture.label = labels::lesson_for(&section.furniture.label, &learner.name);
            sections.push(section);
        }
        Ok(lay_out(&sections, self.sheet()))
    }

    /// The plan of the course, once it is known how long the handouts are.
    pub(super) fn plan(&self, pages: Vec<usize>) -> CoursePlan {
        CoursePlan {
            quiz: self.inputs.quiz.clone(),
            wording: Wording::of_course(self.course()).for_hand(self.inputs.print.hand),
            pages,
            ..course_plan(self.inputs.studied, &self.inputs.print)
        }
    }

    /// A document of the course as a whole. The plan is laid out twice: once to learn where lessons begin, once to say
    /// it.
    pub(super) fn whole(&self, which: Whole, plan: &CoursePlan) -> Result<Document, TemplateError> {
        if which != Whole::Plan {
            return self.whole_with(which, plan, Vec::new());
        }
        let draft = self.whole_with(which, plan, vec![1000; plan.pages.len()])?;
        let mut next = draft.pages.len() + 1;
        let starts = plan.pages.iter().map(|pages| {
            let start = next;
            next += pages;
            start
        });
        self.whole_with(which, plan, starts.collect())
    }

    fn whole_with(
        &self,
        which: Whole,
        plan: &CoursePlan,
        starts: Vec<usize>,
    ) -> Result<Document, TemplateError> {
        let links = (1..=starts.len()).map(|n| format!("#lesson-{n}")).collect();
        let blocks = self.blocks(which.template(), plan, links, starts)?;
        let section = section(self.course(), which.label(), which.label(), None, blocks);
        Ok(lay_out(&[section], self.sheet()))
    }

    /// The blocks of a template of the course; `links` lead to the lessons, `starts` are their first pages.
    pub(super) fn blocks(
        &self,
        template: &str,
        plan: &CoursePlan,
        links: Vec<String>,
        starts: Vec<usize>,
    ) -> Result<Vec<Block>, TemplateError> {
        let directives = CourseDirectives::new(plan, links, starts);
        directives.blocks(&self.templates, template)
    }
}

/// Where the files of a handout go.
pub(super) fn folder(handout: &Handout<'_>) -> String {
    // As many figures as the last lesson has, at least two, so that names sort.
    let digits = handout.of.to_string().len().max(2);
    format!("lessons/{:0digits$}-{}", handout.number, handout.id)
}

pub(super) fn section(
    course: &Course,
    label: &str,
    title: &str,
    foot: Option<&str>,
    blocks: Vec<Block>,
) -> Section {
    Section {
        blocks,
        furniture: Furniture {
            guild: course.guild.clone().unwrap_or_default(),
            course: course.title.clone(),
            label: label.to_owned(),
            foot: course.footer.as_deref().or(foot).unwrap_or("").to_owned(),
        },
        title: title.to_owned(),
    }
}
