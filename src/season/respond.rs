//! What comes of something said: journal acts, answers, a reaction or silence.

mod corrections;
mod records;
mod settings;

use super::answer::{Answer, Missing, NotedItem, Refusal, TakenBack, TakenBackBecause};
use super::facts::{Errand, Facts, Heard, Message, MessageKind, Outcome, QuestionChange};
use super::garden::{Garden, Role};
use super::journal::{Act, Entry, Journal, LineNumber, Retraction, What, Withdrawal};
use super::request::{Aside, Doubt, DoubtKind, OpenQuestion, Question, Reading, Request};
use super::{outlook::Outlook, questions, rules};
use crate::identity::EventId;

/// A message, read. The answers come in the order the message asked.
pub fn respond(facts: &Facts, heard: &Heard, reading: &Reading) -> Outcome {
    Conversation::new(facts, heard).hold(reading, None)
}

/// An edited message: what it said before is taken back, and it is read again.
pub fn respond_to_edit(facts: &Facts, heard: &Heard, of: &EventId, reading: &Reading) -> Outcome {
    Conversation::new(facts, heard).hold(reading, Some(of))
}

/// A deleted message takes its entries along. Nothing is said: the grower knows.
pub fn respond_to_deletion(facts: &Facts, heard: &Heard, of: &EventId) -> Outcome {
    let mut conversation = Conversation::new(facts, heard);
    conversation.retract_event(of, Withdrawal::Deleted);
    conversation.outcome.acknowledge = false;
    conversation.outcome
}

pub use records::noted_item;

/// What set-up still lacks, the most useful first.
pub fn missing(garden: &Garden, normals_known: bool) -> Vec<Missing> {
    settings::missing(garden, normals_known)
}

/// The state of one message being answered: the journal as it grows, and what to say.
struct Conversation<'a> {
    facts: Facts,
    heard: &'a Heard,
    /// The event entries belong to: an edit's original, else the message itself.
    event: EventId,
    outcome: Outcome,
    answers: Vec<Answer>,
    noted: Vec<NotedItem>,
    noted_lines: Vec<LineNumber>,
    assumptions: Vec<super::answer::Assumption>,
    settled: Vec<super::request::Setting>,
    /// Whether something put in the journal could change what was advised before.
    bears_on_advice: bool,
    asked_to_forget: bool,
    /// The trees of the one entry a correction is of: "no, 15 off Wall" where Corner was told of too.
    corrected_trees: Option<Vec<String>>,
}

impl<'a> Conversation<'a> {
    fn new(facts: &Facts, heard: &'a Heard) -> Self {
        Self {
            facts: facts.clone(),
            heard,
            event: heard.event.clone(),
            outcome: Outcome::default(),
            answers: Vec::new(),
            noted: Vec::new(),
            noted_lines: Vec::new(),
            assumptions: Vec::new(),
            settled: Vec::new(),
            bears_on_advice: false,
            asked_to_forget: false,
            corrected_trees: None,
        }
    }

    fn hold(mut self, reading: &Reading, edit_of: Option<&EventId>) -> Outcome {
        let before = self.facts.clone();
        let refusal = self.refusal(reading);
        let reports = reading.requests.iter().any(|request| matches!(request, Request::Record(_)));
        // "Planted Violette in a 5 gal pot", from a helper: the planting is kept, and what it would settle is not.
        let reports_only = refusal == Some(Refusal::NotKeeper) && reports;
        if let Some(refusal) = refusal {
            self.answers.push(Answer::Refused { refusal });
            if !reports_only {
                return self.finish();
            }
        }
        if let Some(original) = edit_of {
            self.event = original.clone();
            self.retract_event(original, Withdrawal::Edited);
        }
        self.assumptions.extend(reading.spellings.iter().map(|(typed, read)| {
            super::answer::Assumption::Spelling { typed: typed.clone(), read: read.clone() }
        }));
        self.corrected_trees = self.trees_corrected(&reading.requests);
        for request in &reading.requests {
            if !(reports_only && matches!(request, Request::Set(_))) {
                self.take(request);
            }
        }
        self.tell_of_records(&before, reading);
        self.tell_of_settings();
        for doubt in &reading.doubts {
            self.answers.push(Answer::Doubtful(doubt.clone()));
        }
        self.go_on_setting_up(reading);
        self.outcome.question = self.next_question(reading);
        self.finish()
    }

    /// Whoever sets a garden up and was not understood is told what to say next, where silence or "I did not
    /// understand" would be the end of it.
    fn go_on_setting_up(&mut self, reading: &Reading) {
        let idle = reading.requests.iter().all(|request| *request == Request::Aside(Aside::Talk));
        let puzzled = reading.doubts.iter().all(|doubt| doubt.kind == DoubtKind::NotUnderstood);
        let said = !reading.requests.is_empty() || !reading.doubts.is_empty();
        if self.facts.garden.trees.is_empty() && idle && puzzled && said {
            let missing = settings::missing(&self.facts.garden, self.facts.normals.is_some());
            self.answers.push(Answer::SetUp { missing });
        }
    }

    fn take(&mut self, request: &Request) {
        match request {
            Request::Record(record) => self.record(record),
            Request::Ask(question) => self.ask(question),
            Request::Set(setting) => self.set(setting),
            Request::Undo => self.undo(),
            Request::Correct(correction) => self.correct(correction),
            Request::Greet => {
                let missing = settings::missing(&self.facts.garden, self.facts.normals.is_some());
                self.answers.push(Answer::Welcome { missing });
            }
            Request::ForgetMe => self.forget_me(),
            Request::Confirm if self.forget_was_asked() => self.forget_me(),
            Request::Aside(Aside::Thanks) => self.outcome.acknowledge = true,
            Request::Aside(aside @ (Aside::Plan | Aside::Condition | Aside::Elsewhere)) => {
                self.answers.push(Answer::Aside { aside: *aside });
            }
            // Talk is not for the bot to comment on; a bare yes or no with no question open is talk.
            Request::Aside(Aside::Talk) | Request::Confirm | Request::Decline => {}
        }
    }

    /// Asks once, and does it when told again.
    fn forget_me(&mut self) {
        if self.forget_was_asked() {
            self.outcome.errand = Some(Errand::ForgetPerson { person: self.heard.from.clone() });
        } else {
            self.answers.push(Answer::ForgetAsked);
            self.asked_to_forget = true;
        }
    }

    fn forget_was_asked(&self) -> bool {
        self.facts.open_question.as_ref().is_some_and(|open| open.doubt.kind == DoubtKind::ForgetAsked)
    }

    fn ask(&mut self, question: &Question) {
        let answer = questions::answer(&self.facts, question);
        self.answers.push(answer);
    }

    /// Only those who belong to the garden may report, and only a keeper may settle things. A garden
    /// without a keeper is being set up, by whoever speaks.
    fn refusal(&self, reading: &Reading) -> Option<Refusal> {
        if self.facts.garden.people.is_empty() {
            return None;
        }
        let sets = reading.requests.iter().any(|request| matches!(request, Request::Set(_)));
        match self.facts.garden.role(&self.heard.from) {
            None => Some(Refusal::Stranger),
            Some(Role::Helper) if sets => Some(Refusal::NotKeeper),
            _ => None,
        }
    }

    fn enter(&mut self, entry: Entry) -> LineNumber {
        let act = Act::Enter(entry);
        let number = self.facts.journal.push(act.clone());
        self.outcome.acts.push(act);
        number
    }

    fn retract(&mut self, line: LineNumber, why: Withdrawal) {
        let act = Act::Retract(Retraction {
            entry: line,
            why,
            who: self.heard.from.clone(),
            event: self.heard.event.clone(),
            said: self.heard.at,
        });
        self.facts.journal.push(act.clone());
        self.outcome.acts.push(act);
        self.facts.garden = self.facts.journal.garden();
    }

    fn retract_event(&mut self, event: &EventId, why: Withdrawal) -> Vec<Entry> {
        let standing: Vec<(LineNumber, Entry)> = self
            .facts
            .journal
            .of_event(event)
            .into_iter()
            .map(|(line, entry)| (line, entry.clone()))
            .collect();
        for (line, _) in &standing {
            self.retract(*line, why);
        }
        standing.into_iter().map(|(_, entry)| entry).collect()
    }

    /// The last message of this person that left something standing.
    fn last_event(&self) -> Option<EventId> {
        last_entry(&self.facts.journal, self.heard).map(|entry| entry.event.clone())
    }

    fn undo(&mut self) {
        let Some(event) = self.last_event() else {
            self.answers.push(nothing_there(self.heard));
            return;
        };
        let taken = self.retract_event(&event, Withdrawal::Undone);
        self.tell_taken_back(&taken, TakenBackBecause::Undone);
    }

    fn tell_taken_back(&mut self, entries: &[Entry], because: TakenBackBecause) {
        let garden = &self.facts.garden;
        let items: Vec<NotedItem> =
            entries.iter().filter_map(|entry| records::noted_item(entry, garden)).collect();
        let settings = entries.iter().filter(|entry| matches!(entry.what, What::Setting(_))).count();
        self.answers.push(Answer::TakenBack(TakenBack { items, because, settings }));
    }

    /// One message at once when a report breaks a rule, changes what was advised, or was worded so that the grower
    /// should see how it was taken; else a reaction.
    fn tell_of_records(&mut self, before: &Facts, reading: &Reading) {
        if self.noted.is_empty() {
            return;
        }
        let broken = rules::broken_by(&self.facts, &self.noted_lines);
        // "Few spots on Wall, should I spray?": asked, and so answered already.
        let asked =
            reading.requests.iter().any(|request| matches!(request, Request::Ask(Question::Spray { .. })));
        let advice = (self.bears_on_advice && broken.is_empty() && !asked)
            .then(|| self.changed_advice(before))
            .flatten();
        // What a correction left is told with it; a report beside it is not.
        let by_correction = self.answers.iter().find_map(|answer| match answer {
            Answer::TakenBack(TakenBack { items, because: TakenBackBecause::Corrected, .. }) => {
                self.noted.starts_with(items).then_some(items.len())
            }
            _ => None,
        });
        let told = by_correction == Some(self.noted.len());
        // Beside something doubted the grower is to see what was understood and is kept.
        let worth_words = !self.assumptions.is_empty()
            || advice.is_some()
            || !broken.is_empty()
            || !reading.doubts.is_empty()
            || !reading.wording.is_plain() && !told;
        if !worth_words {
            self.outcome.acknowledge = true;
            return;
        }
        let beside = if told { 0 } else { by_correction.unwrap_or(0) };
        let noted = super::answer::Noted {
            items: std::mem::take(&mut self.noted).split_off(beside),
            assumptions: std::mem::take(&mut self.assumptions),
        };
        for (line, rule) in broken {
            self.outcome.told.push(super::facts::Told {
                at: self.facts.now,
                matter: super::facts::Matter::Broken { line },
            });
            self.answers.push(Answer::Broken(rule));
        }
        self.answers.extend(advice);
        if !(told && noted.assumptions.is_empty()) {
            self.answers.push(Answer::Noted(noted));
        }
    }

    fn changed_advice(&self, before: &Facts) -> Option<Answer> {
        let was = Outlook::of(before).spray_advice();
        let is = Outlook::of(&self.facts).spray_advice();
        let first_rust = !has_rust(before) && has_rust(&self.facts);
        (was.verdict != is.verdict || first_rust).then(|| Answer::Spray(Box::new(is)))
    }

    fn tell_of_settings(&mut self) {
        if self.settled.is_empty() {
            return;
        }
        self.answers.push(Answer::Settled {
            settings: std::mem::take(&mut self.settled),
            missing: settings::missing(&self.facts.garden, self.facts.normals.is_some()),
        });
    }

    /// A doubt that an answer would settle stays open; any other message closes what was open.
    fn next_question(&self, reading: &Reading) -> QuestionChange {
        let open = reading.doubts.iter().find(|doubt| doubt.kind.can_be_answered());
        if self.asked_to_forget {
            let doubt = Doubt {
                kind: DoubtKind::ForgetAsked,
                words: self.heard.text.clone(),
                candidates: Vec::new(),
            };
            return QuestionChange::Open(OpenQuestion {
                text: self.heard.text.clone(),
                doubt,
                said: self.heard.at,
                event: self.event.clone(),
            });
        }
        match open {
            // Asked again, it is of the message that raised it.
            Some(doubt) if self.facts.open_question.as_ref().is_some_and(|open| open.doubt == *doubt) => {
                QuestionChange::Keep
            }
            Some(doubt) => QuestionChange::Open(OpenQuestion {
                text: self.heard.text.clone(),
                doubt: doubt.clone(),
                said: self.heard.at,
                event: self.event.clone(),
            }),
            None if self.facts.open_question.is_some() => QuestionChange::Close,
            None => QuestionChange::Keep,
        }
    }

    fn finish(mut self) -> Outcome {
        if !self.answers.is_empty() {
            let alert = self.answers.iter().any(|answer| matches!(answer, Answer::Broken(_)));
            self.outcome.messages.push(Message {
                kind: if alert { MessageKind::Alert } else { MessageKind::Answer },
                answers: self.answers,
                purpose: String::from("reply"),
                use_by: None,
            });
        }
        self.outcome
    }
}

/// The last thing a person reported that still stands.
pub fn last_entry<'a>(journal: &'a Journal, heard: &Heard) -> Option<&'a Entry> {
    journal.standing().filter(|(_, entry)| entry.who == heard.from).last().map(|(_, entry)| entry)
}

/// Whether rust is on record this season.
fn has_rust(facts: &Facts) -> bool {
    Outlook::of(facts).trees().iter().any(|tree| tree.scouted.is_some_and(|look| look.severity.value() > 0.0))
}

fn nothing_there(heard: &Heard) -> Answer {
    Answer::Doubtful(Doubt {
        kind: DoubtKind::NothingThere,
        words: heard.text.clone(),
        candidates: Vec::new(),
    })
}
