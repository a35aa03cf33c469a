//! All that is printed, laid out on pages and not yet written.

use rayon::prelude::*;

use crate::handout::{CoursePlan, Handout, course_plan};
use crate::lesson::Course;
use crate::pack::Inputs;
use crate::render::blocks::Block;
use crate::render::pdf::{self, Document, Furniture, Section, Sheet};
use crate::render::{CourseDirectives, HandoutDirectives, TemplateError, Templates};
use crate::words::Wording;

/// A handout laid out.
pub(super) struct LaidOut<'a> {
    pub(super) handout: &'a Handout<'a>,
    pub(super) folder: String,
    pub(super) title: String,
    pub(super) blocks: Vec<Block>,
    document: Document,
}

/// What all documents of a pack are made from.
pub(super) struct Pages<'a> {
    pub(super) templates: Templates,
    pub(super) wording: Wording,
    pub(super) plan: CoursePlan,
    pub(super) handouts: Vec<LaidOut<'a>>,
}

impl<'a> Pages<'a> {
    /// Lays the handouts out and resolves the plan of the course.
    pub(super) fn lay_out(
        inputs: &Inputs<'_>,
        handouts: &'a [Handout<'a>],
    ) -> Result<Self, TemplateError> {
        let course = inputs.assessed.course;
        let templates = Templates::new(&course.templates)?;
        let mut wording = Wording::of(course.terms);
        if inputs.print.left_handed {
            wording = wording.for_left_hand();
        }
        let laid_out: Vec<LaidOut<'_>> = handouts
            .par_iter()
            .map(|handout| lay_out(handout, course, &templates, &wording, inputs.sheet()))
            .collect::<Result<_, TemplateError>>()?;
        let plan = CoursePlan {
            quiz: inputs.quiz.clone(),
            print: inputs.print.clone(),
            pages: laid_out
                .iter()
                .map(|one| one.document.pages.len())
                .collect(),
            ..course_plan(inputs.assessed)
        };
        Ok(Self {
            templates,
            wording,
            plan,
            handouts: laid_out,
        })
    }

    /// Every document with its path and title, the longest first.
    pub(super) fn documents(
        self: &Pages<'a>,
        inputs: &Inputs<'_>,
    ) -> Result<Vec<(String, String, Document)>, TemplateError> {
        let course = inputs.assessed.course;
        let mut all = vec![(
            "course.pdf".to_owned(),
            course.title.clone(),
            self.course(course, inputs.sheet())?,
        )];
        for (name, template, title) in [
            ("teacher.pdf", "teacher.md", "For the teacher"),
            ("quiz.pdf", "quiz.md", "Which is harder?"),
        ] {
            let directives = CourseDirectives::new(&self.plan, Vec::new(), Vec::new());
            let blocks = directives.blocks(&self.templates, template, &self.wording.words)?;
            let section = section(course, title, title, None, blocks);
            let document = pdf::lay_out(&[section], inputs.sheet());
            all.push((
                name.to_owned(),
                format!("{}: {title}", course.title),
                document,
            ));
        }
        all.extend(self.handouts.iter().map(|one| {
            let path = format!("{}/handout.pdf", one.folder);
            (path, one.title.clone(), one.document.clone())
        }));
        Ok(all)
    }

    /// The plan, then every handout. The plan is laid out twice: once to learn where lessons begin, once to say it.
    fn course(&self, course: &Course, sheet: Sheet) -> Result<Document, TemplateError> {
        let links: Vec<String> = (1..=self.handouts.len())
            .map(|n| format!("#lesson-{n}"))
            .collect();
        let plan = |starts: Vec<usize>| -> Result<Document, TemplateError> {
            let directives = CourseDirectives::new(&self.plan, links.clone(), starts);
            let blocks = directives.blocks(&self.templates, "course.md", &self.wording.words)?;
            let section = section(course, "Course plan", "Course plan", None, blocks);
            Ok(pdf::lay_out(&[section], sheet))
        };
        let draft = plan(vec![1000; self.handouts.len()])?;
        let mut next = draft.pages.len() + 1;
        let mut starts = Vec::new();
        for one in &self.handouts {
            starts.push(next);
            next += one.document.pages.len();
        }
        let plan = plan(starts)?;
        let all: Vec<&Document> = std::iter::once(&plan)
            .chain(self.handouts.iter().map(|one| &one.document))
            .collect();
        Ok(pdf::join(&all, sheet))
    }
}

fn section(
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

fn lay_out<'a>(
    handout: &'a Handout<'a>,
    course: &Course,
    templates: &Templates,
    wording: &Wording,
    sheet: Sheet,
) -> Result<LaidOut<'a>, TemplateError> {
    let blocks =
        HandoutDirectives::new(handout, templates, &wording.words, course.units).blocks()?;
    let label = format!("Lesson {}", handout.number);
    // As many figures as the last lesson has, at least two, so that names sort.
    let digits = handout.of.to_string().len().max(2);
    let section = section(course, &label, &handout.title, Some(&handout.next), blocks);
    Ok(LaidOut {
        handout,
        folder: format!("lessons/{:0digits$}-{}", handout.number, handout.id),
        title: format!(
            "{}, lesson {} of {}",
            handout.title, handout.number, handout.of
        ),
        document: pdf::lay_out(std::slice::from_ref(&section), sheet),
        blocks: section.blocks,
    })
}
