//! Templates: the built-in ones, each of which a course may override. The only room that names tera.

mod guard;

use std::collections::BTreeMap;
use std::fmt;
use std::io;

use crate::ground::bounds::TEMPLATE_BYTES;
use crate::words::{literal, template};
use serde::Serialize;
use tera::{Context, Kwargs, State, Tera};

const BUILT_IN: &[(&str, &str)] = &[
    ("compare.md", include_str!("../../../templates/compare.md")),
    ("handout.md", include_str!("../../../templates/handout.md")),
    ("course.md", include_str!("../../../templates/course.md")),
    ("index.md", include_str!("../../../templates/index.md")),
    ("quiz.md", include_str!("../../../templates/quiz.md")),
    ("teacher.md", include_str!("../../../templates/teacher.md")),
];

/// A template that cannot be rendered, with tera's own words (file, line, column).
#[derive(Debug)]
pub struct TemplateError(String);

impl fmt::Display for TemplateError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for TemplateError {}

impl From<tera::Error> for TemplateError {
    fn from(error: tera::Error) -> Self {
        let mut text = error.to_string();
        let mut cause: Option<&dyn std::error::Error> = std::error::Error::source(&error);
        while let Some(inner) = cause {
            text.push_str(&format!(": {inner}"));
            cause = inner.source();
        }
        Self(text)
    }
}

/// All templates of a run.
#[derive(Debug)]
pub struct Templates(Tera);

impl Templates {
    /// The built-in templates and the course's own, which take their place when the name is the same.
    ///
    /// # Errors
    /// When a template of the course is not valid.
    pub fn new(own: &BTreeMap<String, String>) -> Result<Self, TemplateError> {
        let mut tera = Tera::new();
        guard::register(&mut tera);
        // Templates write Markdown: what must be escaped is escaped with the `md` filter.
        tera.autoescape_on(Vec::<&'static str>::new());
        tera.register_filter("md", |text: String, _: Kwargs, _: &State| literal(&text));
        tera.set_fallback_prefixes(vec!["course/", "built-in/"])?;
        let built_in = BUILT_IN
            .iter()
            .map(|(name, text)| (format!("built-in/{name}"), (*text).to_owned()));
        let own = own
            .iter()
            .map(|(name, text)| (format!("course/{name}"), guard::guarded(text)));
        tera.add_raw_templates(built_in.chain(own))?;
        Ok(Self(tera))
    }

    /// Renders a template with the fields of `data` and the trade words as `t`.
    ///
    /// # Errors
    /// When the template asks for something that is not there.
    pub fn render(
        &self,
        name: &str,
        data: &impl Serialize,
        words: &BTreeMap<&'static str, &'static str>,
    ) -> Result<String, TemplateError> {
        let mut context = Context::from_serialize(data)?;
        context.insert("t", words);
        guard::begin();
        let mut page = Page(Vec::new());
        self.0.render_to(name, &context, &mut page)?;
        Ok(String::from_utf8_lossy(&page.0).into_owned())
    }

    /// Renders a piece of text that may use trade words, such as a technique card.
    ///
    /// # Errors
    /// When the text is no valid template, or asks for something that is not there.
    pub fn render_text(
        &self,
        text: &str,
        words: &BTreeMap<&'static str, &'static str>,
    ) -> Result<String, TemplateError> {
        let mut context = Context::new();
        context.insert("t", words);
        guard::begin();
        let mut page = Page(Vec::new());
        let text = guard::guarded(text);
        self.0.render_str_to(&text, &context, false, &mut page)?;
        Ok(String::from_utf8_lossy(&page.0).into_owned())
    }
}

/// What a template has written so far, within its bound.
struct Page(Vec<u8>);

impl io::Write for Page {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        if self.0.len() + bytes.len() > TEMPLATE_BYTES {
            return Err(io::Error::other(template::too_long_a_page(TEMPLATE_BYTES)));
        }
        self.0.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}
