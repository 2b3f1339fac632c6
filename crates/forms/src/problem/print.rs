//! Problems as a person reads them: the line itself, a mark under the place, what is allowed.

use super::{Problem, Problems, What};
use annotate_snippets::{AnnotationKind, Group, Level, Origin, Renderer, Snippet};
use std::ops::Range;

impl Problems {
    /// The problems one under the other, with colour codes where `colour` is set.
    #[must_use]
    pub fn text(&self, colour: bool) -> String {
        let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
        let groups: Vec<Group<'_>> = self.list().iter().map(|problem| self.group(problem)).collect();
        // Each alone, with a blank line between: rendered together they would read as one problem with notes.
        let printed: Vec<String> =
            groups.iter().map(|group| renderer.render(std::slice::from_ref(group))).collect();
        let more = if self.more() > 0 { format!("\n\nand {} more", self.more()) } else { String::new() };
        printed.join("\n\n") + &more
    }

    fn group<'a>(&'a self, problem: &'a Problem) -> Group<'a> {
        let title = Level::ERROR.no_name().primary_title(problem.message.as_str());
        let mut group = if problem.what == What::Unreadable || self.text.is_empty() {
            title.element(Origin::path(self.file()))
        } else {
            let allowed = format!("allowed: {}", problem.allowed);
            let mark = AnnotationKind::Primary.span(self.marked(&problem.span)).label(allowed);
            title.element(Snippet::source(self.text.as_str()).path(self.file()).annotation(mark))
        };
        if problem.what == What::Unreadable || self.text.is_empty() {
            group = group.element(Level::HELP.message(format!("allowed: {}", problem.allowed)));
        }
        if let Some(nearest) = &problem.nearest {
            group = group.element(Level::HELP.message(format!("the nearest known key is {nearest}")));
        }
        if let Some(advice) = &problem.advice {
            group = group.element(Level::HELP.message(advice.as_str()));
        }
        group
    }

    /// The span on letter boundaries, inside the text, and of its first line only: a table's span may run over pages.
    fn marked(&self, span: &Range<usize>) -> Range<usize> {
        let inside = |byte: usize| {
            let mut byte = byte.min(self.text.len());
            while !self.text.is_char_boundary(byte) {
                byte -= 1;
            }
            byte
        };
        let (start, end) = (inside(span.start), inside(span.end.max(span.start)));
        let line = self.text[start..end].find('\n').map_or(end, |at| start + at);
        start..line.max(start)
    }
}
