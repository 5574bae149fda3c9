//! What nothing fixes, in groups that hang together.

use super::Variable;
use super::form::Form;

/// Unknowns that hang together and that nothing fixes. Groups are as small as
/// they can be: a fact about one says nothing of another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Question {
    /// The unknowns.
    pub open: Vec<Variable>,
    /// How many more equations would fix them all. Where it is one, an
    /// equation for any of them will do.
    pub missing: usize,
}

/// The groups among the open variables, by first variable.
pub(super) fn questions(forms: &[Form], is_open: impl Fn(Variable) -> bool) -> Vec<Question> {
    let mut groups = Groups::new(forms.len());
    let all = || (0..forms.len() as u32).map(Variable).zip(forms);
    for (variable, form) in all() {
        for (free, _) in &form.terms {
            groups.join(variable, *free);
        }
    }
    let mut questions: Vec<Question> = Vec::new();
    let mut question_of = vec![None; forms.len()];
    for (variable, form) in all().filter(|(variable, _)| is_open(*variable)) {
        let Some(slot) = question_of.get_mut(groups.head(variable).index()) else { continue };
        let at = *slot.get_or_insert(questions.len());
        if at == questions.len() {
            questions.push(Question { open: Vec::new(), missing: 0 });
        }
        let Some(question) = questions.get_mut(at) else { continue };
        question.open.push(variable);
        let is_free = matches!(form.terms.as_slice(), [(free, _)] if *free == variable);
        question.missing += usize::from(is_free);
    }
    questions
}

/// Variables joined into groups (a disjoint-set forest).
#[derive(Clone, Debug)]
pub(super) struct Groups {
    /// Towards the head of the group, which is its own parent.
    parents: Vec<u32>,
}

impl Groups {
    /// Each of `count` variables by itself.
    pub(super) fn new(count: usize) -> Self {
        Self { parents: (0..count as u32).collect() }
    }

    fn parent(&self, at: u32) -> u32 {
        self.parents.get(at as usize).copied().unwrap_or(at)
    }

    /// The variable that stands for the group.
    pub(super) fn head(&mut self, variable: Variable) -> Variable {
        let mut at = variable.0;
        while self.parent(at) != at {
            // Halve the way for the next time.
            let up = self.parent(self.parent(at));
            if let Some(slot) = self.parents.get_mut(at as usize) {
                *slot = up;
            }
            at = up;
        }
        Variable(at)
    }

    /// Puts two variables into one group, headed by the earlier head.
    pub(super) fn join(&mut self, a: Variable, b: Variable) {
        let (a, b) = (self.head(a), self.head(b));
        if let Some(slot) = self.parents.get_mut(a.max(b).index()) {
            *slot = a.min(b).0;
        }
    }
}
