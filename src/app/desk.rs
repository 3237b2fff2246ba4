//! One event at a time: facts, a decision, a commit. Nothing here waits for anything.

use chrono::{DateTime, Utc};

use super::answered::Answered;
use super::offers::About;
use super::outgoing::{Address, acknowledgement, draft, illustration};
use super::reactions::{Thumb, thumb};
use super::routing::{Route, route};
use super::{Sky, places, zones};
use crate::identity::{EventId, GardenId, PersonId, RoomId};
use crate::language::read::{Context, read};
use crate::post::{Addressed, Content, Inbound, Mailroom, PostError, RoomKind, Unreadable};
use crate::season::answer::{Answer, Place, UnreadableBecause};
use crate::season::calendar::local_date;
use crate::season::facts::{Errand, Facts, Heard, Message, MessageKind, Outcome, QuestionChange};
use crate::season::journal::{Act, Entry, Report, Timing, What};
use crate::season::notices;
use crate::season::request::{
    Aside, Doubt, DoubtKind, OpenQuestion, Reading, Record, Request, Selection, Setting, When,
};
use crate::season::respond::{last_entry, respond, respond_to_deletion, respond_to_edit};
use crate::season::schedule;
use crate::store::{Commit, Draft, Forget, GardenChange, Move, Store, StoreError};

/// Where messages are worked through.
pub struct Desk {
    store: Store,
    sky: Sky,
    /// What the bot answers to.
    name: String,
    pictures: Pictures,
    answered: Answered,
}

/// Whether answers that have one come with a picture.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Pictures {
    Drawn,
    None,
}

/// What came of one message.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Handled {
    /// How it was read; nothing for what is not words.
    pub reading: Option<Reading>,
    /// The answers before they became words, by the key they are sent under.
    pub answers: Vec<(String, Vec<Answer>)>,
    /// Something only the outside can do.
    pub errand: Option<Errand>,
}

#[derive(Debug, thiserror::Error)]
pub enum DeskError {
    #[error(transparent)]
    Store(#[from] StoreError),
    #[error(transparent)]
    Post(#[from] PostError),
}

impl Desk {
    pub fn new(store: Store, sky: Sky, name: impl Into<String>) -> Self {
        Self { store, sky, name: name.into(), pictures: Pictures::None, answered: Answered::default() }
    }

    /// A desk whose rooms can show pictures.
    pub fn with_pictures(self) -> Self {
        Self { pictures: Pictures::Drawn, ..self }
    }

    pub fn store(&self) -> &Store {
        &self.store
    }

    /// The next counted id the store has not seen: a second talk or script on the same store counts on from the first,
    /// where its first message would be taken for the first of the other.
    pub(super) fn unseen_event(
        &self,
        count: &mut u64,
        named: impl Fn(u64) -> String,
    ) -> Result<EventId, DeskError> {
        loop {
            *count += 1;
            let id = EventId::new(named(*count));
            if !self.store.knows(&id)? {
                return Ok(id);
            }
        }
    }

    /// Makes a garden from settings, as its keeper would have told them.
    pub fn make_garden(
        &self,
        id: &GardenId,
        settings: &[Setting],
        now: DateTime<Utc>,
    ) -> Result<(), DeskError> {
        let change = settled(id, settings, now);
        self.store.commit(&Commit { gardens: vec![change], ..Commit::default() })?;
        Ok(())
    }

    /// The facts of a garden, weather included.
    pub fn facts(
        &self,
        garden: &GardenId,
        now: DateTime<Utc>,
        person: Option<&PersonId>,
    ) -> Result<Option<Facts>, DeskError> {
        let Some(mut facts) = self.store.facts(garden, now, person)? else { return Ok(None) };
        self.sky.fill(&mut facts, &self.store)?;
        Ok(Some(facts))
    }

    /// Works through one message. What was seen before changes nothing.
    pub fn handle(&self, inbound: &Inbound, now: DateTime<Utc>) -> Result<Handled, DeskError> {
        if self.store.is_seen(&inbound.id)? {
            return Ok(Handled::default());
        }
        if inbound.room_kind == RoomKind::Direct {
            self.remember_direct_room(&inbound.from, &inbound.room)?;
        }
        match &inbound.content {
            Content::Moved { to } => return self.follow(inbound, to, now),
            Content::Gone => return self.set_aside(inbound),
            // In a room of several nobody needs to hear that a sticker could not be read.
            Content::Unreadable { .. } if inbound.room_kind == RoomKind::Group => {
                return self.set_aside(inbound);
            }
            _ => {}
        }
        let (garden, facts) = match route(&self.store, inbound) {
            Route::Nowhere => return self.set_aside(inbound),
            Route::Garden(garden) => {
                let Some(facts) = self.facts(&garden, now, Some(&inbound.from))? else {
                    return self.set_aside(inbound);
                };
                (garden, facts)
            }
            // A question asked back may stand there already.
            Route::NewGarden(garden) => {
                let facts = self.facts(&garden, now, Some(&inbound.from))?;
                (garden, facts.unwrap_or_else(|| blank_facts(now)))
            }
        };
        let key = (garden.clone(), inbound.from.clone());
        let answered = self.answered.last(&key, inbound.at);
        let work = Work { desk: self, inbound, garden, facts: Facts { answered, ..facts } };
        let handled = work.through()?;
        if let Some(reading) = &handled.reading {
            self.answered.remember(key, reading, inbound.at);
        }
        Ok(handled)
    }

    /// What is due in a garden now. Returns what was said.
    pub fn tick(&self, garden: &GardenId, now: DateTime<Utc>) -> Result<Handled, DeskError> {
        let Some(facts) = self.facts(garden, now, None)? else { return Ok(Handled::default()) };
        let outcome = notices::tick(&facts);
        let room = self.brief_room(&facts)?;
        let mut handled = Handled::default();
        let mut outbox = Vec::new();
        // With nowhere to speak there is nothing to send, and it is not marked as told: it waits for a room.
        let mut told = outcome.told;
        if let Some(room) = &room {
            for message in &outcome.messages {
                let key = format!("{garden}-{}", message.purpose);
                let address = Address { room, re: None, thread: None, mentions: Vec::new() };
                outbox.push(draft(message, garden, &facts, &address, key.clone()));
                handled.answers.push((key, message.answers.clone()));
            }
        } else if !outcome.messages.is_empty() {
            told.clear();
        }
        let change = GardenChange {
            id: garden.clone(),
            now,
            acts: Vec::new(),
            told,
            question: None,
            wake: outcome.wake,
        };
        self.store.commit(&Commit { gardens: vec![change], outbox, ..Commit::default() })?;
        Ok(handled)
    }

    /// The gardens that want to be looked at by a moment.
    pub fn due(&self, now: DateTime<Utc>) -> Vec<GardenId> {
        let is_due = |wake: &Option<DateTime<Utc>>| wake.is_none_or(|wake| wake <= now);
        self.store.wakes().into_iter().filter(|(_, wake)| is_due(wake)).map(|(garden, _)| garden).collect()
    }

    /// The next moment any garden wants to be looked at.
    pub fn next_wake(&self) -> Option<DateTime<Utc>> {
        self.store.wakes().into_iter().filter_map(|(_, wake)| wake).min()
    }

    /// Places found for a name a grower gave; the choice stays open until answered.
    pub fn offer_places(
        &self,
        inbound: &Inbound,
        name: &str,
        found: Vec<Place>,
        now: DateTime<Utc>,
    ) -> Result<Handled, DeskError> {
        let (Route::Garden(garden) | Route::NewGarden(garden)) = route(&self.store, inbound) else {
            return Ok(Handled::default());
        };
        let facts = self.facts(&garden, now, Some(&inbound.from))?.unwrap_or_else(|| blank_facts(now));
        // A name that only one place has needs no choice; the answer names the place, so that it can be put right.
        if let [place] = found.as_slice() {
            let requests = vec![Request::Set(with_zone(places::position_of(place)))];
            let work = Work { desk: self, inbound, garden, facts };
            let outcome =
                respond(&work.facts, &work.heard(name), &Reading { requests, ..Reading::default() });
            return work.commit(outcome, None, None);
        }
        let doubt = Doubt {
            kind: DoubtKind::UnknownPlace,
            words: name.to_owned(),
            candidates: found.iter().map(places::candidate).collect(),
        };
        let question = QuestionChange::Open(OpenQuestion {
            text: name.to_owned(),
            doubt,
            said: now,
            event: inbound.id.clone(),
        });
        let outcome = Outcome {
            messages: vec![Message {
                kind: MessageKind::Answer,
                answers: vec![Answer::Places { name: name.to_owned(), places: found }],
                purpose: String::from("places"),
                use_by: None,
            }],
            question,
            ..Outcome::default()
        };
        let work = Work { desk: self, inbound, garden, facts };
        work.commit(outcome, None, None)
    }

    /// Where a garden's unasked messages go: its room, else its keeper.
    fn brief_room(&self, facts: &Facts) -> Result<Option<RoomId>, DeskError> {
        use crate::season::garden::Role;
        if let Some(room) = &facts.garden.room {
            return Ok(Some(room.clone()));
        }
        for person in facts.garden.people.iter().filter(|person| person.role == Role::Keeper) {
            let kept = self.store.kept(&direct_note(&person.id))?;
            if let Some((_, room)) = kept.into_iter().find(|(name, _)| *name == direct_note(&person.id)) {
                return Ok(Some(RoomId::new(String::from_utf8_lossy(&room))));
            }
        }
        Ok(None)
    }

    fn remember_direct_room(&self, person: &PersonId, room: &RoomId) -> Result<(), DeskError> {
        let name = direct_note(person);
        let known = self.store.kept(&name)?;
        if known.iter().any(|(known, value)| *known == name && value == room.as_str().as_bytes()) {
            return Ok(());
        }
        self.store.keep(&name, Some(room.as_str().as_bytes()))?;
        Ok(())
    }

    /// Nothing to do about it but to remember that it was seen.
    fn set_aside(&self, inbound: &Inbound) -> Result<Handled, DeskError> {
        self.store.commit(&Commit { seen: Some(inbound.id.clone()), ..Commit::default() })?;
        Ok(Handled::default())
    }

    /// A room that moved takes its gardens along, and what waits to be said in it.
    fn follow(&self, inbound: &Inbound, to: &RoomId, now: DateTime<Utc>) -> Result<Handled, DeskError> {
        let room = [Setting::Room { room: to.clone() }];
        let gardens = self.store.gardens_in(&inbound.room);
        self.store.commit(&Commit {
            seen: Some(inbound.id.clone()),
            gardens: gardens.iter().map(|garden| settled(garden, &room, now)).collect(),
            outbox: Vec::new(),
            moved: Some(Move { from: inbound.room.clone(), to: to.clone() }),
        })?;
        Ok(Handled::default())
    }
}

/// Settings nobody said in a chat.
fn settled(id: &GardenId, settings: &[Setting], now: DateTime<Utc>) -> GardenChange {
    let act = |setting: &Setting| {
        Act::Enter(Entry {
            who: PersonId::new("garden file"),
            event: EventId::new(format!("garden file {now}")),
            said: now,
            happened: now,
            timing: Timing::Assumed,
            what: What::Setting(with_zone(setting.clone())),
        })
    };
    GardenChange {
        id: id.clone(),
        now,
        acts: settings.iter().map(act).collect(),
        told: Vec::new(),
        question: None,
        wake: None,
    }
}

fn direct_note(person: &PersonId) -> String {
    format!("direct/{person}")
}

/// One message being worked through.
struct Work<'a> {
    desk: &'a Desk,
    inbound: &'a Inbound,
    garden: GardenId,
    facts: Facts,
}

impl Work<'_> {
    fn through(self) -> Result<Handled, DeskError> {
        let inbound = self.inbound;
        match &inbound.content {
            Content::Said { text } | Content::File { text, .. } => self.said(text, None),
            Content::Edited { of, text } => self.said(text, Some(of)),
            Content::Located { geo, caption } => {
                let text =
                    caption.as_ref().map_or_else(|| geo.clone(), |caption| format!("{geo}\n{caption}"));
                self.said(&text, None)
            }
            Content::Photo { caption, reference, .. } => self.photo(caption.clone(), reference.clone()),
            Content::Deleted { of } => {
                let outcome = respond_to_deletion(&self.facts, &self.heard(""), of);
                self.commit(outcome, None, None)
            }
            Content::Reacted { to, key } => self.reacted(to, key),
            Content::Welcomed => {
                let reading = Reading { requests: vec![Request::Greet], ..Reading::default() };
                let outcome = respond(&self.facts, &self.heard(""), &reading);
                self.commit(outcome, None, None)
            }
            Content::Unreadable { why } => {
                let message = Message {
                    kind: MessageKind::Answer,
                    answers: vec![Answer::Unreadable { why: told_why(*why) }],
                    purpose: String::from("unreadable"),
                    use_by: None,
                };
                self.commit(Outcome { messages: vec![message], ..Outcome::default() }, None, None)
            }
            Content::Moved { .. } | Content::Gone => self.desk.set_aside(inbound),
        }
    }

    fn heard(&self, text: &str) -> Heard {
        Heard {
            event: self.inbound.id.clone(),
            from: self.inbound.from.clone(),
            room: self.inbound.room.clone(),
            called: self.inbound.called.clone(),
            at: self.inbound.at,
            text: text.to_owned(),
        }
    }

    fn read(&self, text: &str) -> Reading {
        if let Some(setting) = places::chosen(text, self.facts.open_question.as_ref()) {
            return Reading { requests: vec![Request::Set(with_zone(setting))], ..Reading::default() };
        }
        let heard = self.heard(text);
        let last = last_entry(&self.facts.journal, &heard);
        let beside = last.map(|last| self.facts.journal.of_event(&last.event)).unwrap_or_default();
        let last_message: Vec<Entry> = beside.into_iter().map(|(_, entry)| entry.clone()).collect();
        let context = Context {
            garden: &self.facts.garden,
            at: self.inbound.at,
            zone: self.facts.garden.zone(),
            open_question: self.facts.open_question.as_ref(),
            last,
            last_message: &last_message,
            answered: self.facts.answered.as_ref(),
            bot_name: &self.desk.name,
        };
        let mut reading = read(text, &context);
        for request in &mut reading.requests {
            if let Request::Set(setting) = request {
                *setting = with_zone(setting.clone());
            }
        }
        if self.inbound.addressed == Addressed::ToRoom {
            keep_to_oneself(&mut reading);
        }
        reading
    }

    fn said(self, text: &str, edit_of: Option<&EventId>) -> Result<Handled, DeskError> {
        let reading = self.read(text);
        let heard = self.heard(text);
        let outcome = match edit_of {
            Some(of) => respond_to_edit(&self.facts, &heard, of, &reading),
            None => respond(&self.facts, &heard, &reading),
        };
        self.commit(outcome, Some(reading), None)
    }

    /// A photo is kept by reference, on the trees its caption names; what the caption reports is read too.
    fn photo(self, caption: Option<String>, reference: Option<String>) -> Result<Handled, DeskError> {
        let text = caption.clone().unwrap_or_default();
        let mut reading = self.read(&text);
        reading.doubts.retain(|doubt| doubt.kind != DoubtKind::NotUnderstood);
        reading.requests.retain(|request| !matches!(request, Request::Aside(Aside::Talk)));
        let trees = reading
            .requests
            .iter()
            .find_map(|request| match request {
                Request::Record(record) if record.trees != Selection::Unsaid => Some(record.trees.clone()),
                _ => None,
            })
            .unwrap_or(Selection::Named(Vec::new()));
        reading.requests.push(Request::Record(Record {
            trees,
            when: When::Unsaid,
            report: Report::Photo { caption, reference },
        }));
        let outcome = respond(&self.facts, &self.heard(&text), &reading);
        self.commit(outcome, Some(reading), None)
    }

    fn reacted(self, to: &EventId, key: &str) -> Result<Handled, DeskError> {
        let about = self.desk.store.about(to)?.map_or_else(About::default, |text| About::read(&text));
        match thumb(key, &about) {
            Thumb::Nothing => self.desk.set_aside(self.inbound),
            Thumb::Requests(reading) if reading.requests.is_empty() => self.desk.set_aside(self.inbound),
            Thumb::Requests(reading) => {
                let outcome = respond(&self.facts, &self.heard(""), &reading);
                self.commit(outcome, Some(reading), Some(to))
            }
            Thumb::Undo => {
                // On one's own message it takes that back; on an answer, what it answered.
                let of = about.answers.unwrap_or_else(|| to.clone());
                let mine = self.facts.journal.of_event(&of);
                if mine.is_empty() || mine.iter().any(|(_, entry)| entry.who != self.inbound.from) {
                    return self.desk.set_aside(self.inbound);
                }
                let mut outcome = respond_to_deletion(&self.facts, &self.heard(""), &of);
                outcome.acknowledge = true;
                self.commit(outcome, None, Some(to))
            }
        }
    }

    /// Removes a person's data, and says so as the last thing said to them.
    fn forget(&self, person: &PersonId) -> Result<Handled, DeskError> {
        let message = Message {
            kind: MessageKind::Answer,
            answers: vec![Answer::Forgotten],
            purpose: String::from("forgotten"),
            use_by: None,
        };
        let key = format!("{}-{}", message.purpose, self.inbound.id);
        let address = Address {
            room: &self.inbound.room,
            re: Some(&self.inbound.id),
            thread: None,
            mentions: Vec::new(),
        };
        let farewell = vec![draft(&message, &self.garden, &self.facts, &address, key.clone())];
        self.desk.store.forget(&Forget {
            person: person.clone(),
            now: self.facts.now,
            notes: vec![direct_note(person)],
            seen: Some(self.inbound.id.clone()),
            farewell,
        })?;
        Ok(Handled { answers: vec![(key, message.answers)], ..Handled::default() })
    }

    fn commit(
        self,
        outcome: Outcome,
        reading: Option<Reading>,
        re: Option<&EventId>,
    ) -> Result<Handled, DeskError> {
        let inbound = self.inbound;
        if let Some(Errand::ForgetPerson { person }) = &outcome.errand {
            return self.forget(person);
        }
        let mut handled = Handled { reading, errand: outcome.errand.clone(), ..Handled::default() };
        let re = re.unwrap_or(&inbound.id);
        let address = Address {
            room: &inbound.room,
            re: Some(re),
            thread: inbound.thread.as_ref(),
            mentions: Vec::new(),
        };
        let mut outbox: Vec<Draft> = Vec::new();
        for message in &outcome.messages {
            let key = format!("{}-{}", message.purpose, inbound.id);
            outbox.push(draft(message, &self.garden, &self.facts, &address, key.clone()));
            if self.desk.pictures == Pictures::Drawn {
                outbox.extend(illustration(message, &self.garden, &self.facts, &address, &key));
            }
            handled.answers.push((key, message.answers.clone()));
        }
        if outcome.acknowledge && outcome.messages.is_empty() {
            outbox.push(acknowledgement(&inbound.room, re, self.facts.now));
        }
        let wake = outcome.wake.or_else(|| self.moved_wake(&outcome.acts));
        // A stranger's idle word makes no garden.
        let touches = !outcome.acts.is_empty()
            || !outcome.told.is_empty()
            || !matches!(outcome.question, QuestionChange::Keep);
        let change = touches.then(|| GardenChange {
            id: self.garden.clone(),
            now: self.facts.now,
            acts: outcome.acts,
            told: outcome.told,
            question: Some((inbound.from.clone(), outcome.question)),
            wake,
        });
        let gardens = Vec::from_iter(change);
        let seen = Some(inbound.id.clone());
        self.desk.store.commit(&Commit { seen, gardens, outbox, moved: None })?;
        Ok(handled)
    }

    /// When to look at the garden next, if its morning or its zone was told anew. One never looked at, or due
    /// already, is looked at anyway.
    fn moved_wake(&self, acts: &[Act]) -> Option<DateTime<Utc>> {
        let settles =
            |act: &Act| matches!(act, Act::Retract(_) | Act::Enter(Entry { what: What::Setting(_), .. }));
        if !acts.iter().any(settles) {
            return None;
        }
        let now = self.facts.now;
        let mut journal = self.facts.journal.clone();
        for act in acts {
            journal.push(act.clone());
        }
        let (before, garden) = (&self.facts.garden, journal.garden());
        let is_moved = garden.morning != before.morning || garden.zone() != before.zone();
        if !is_moved {
            return None;
        }
        let known = self.desk.store.wakes().into_iter().find(|(id, _)| *id == self.garden)?.1;
        known.filter(|known| *known > now)?;
        let facts = Facts { garden, journal, ..self.facts.clone() };
        let today = local_date(now, facts.garden.zone());
        let is_due = schedule::due(&facts, today) != schedule::Due::Nothing;
        Some(if is_due { now } else { schedule::next_wake(&facts, today) })
    }
}

fn with_zone(setting: Setting) -> Setting {
    match setting {
        Setting::Position { position, place, zone: None } => {
            Setting::Position { position, place, zone: zones::zone_of(position) }
        }
        setting => setting,
    }
}

/// What was said to the room at large is recorded and answered, but not doubted or remarked upon.
fn keep_to_oneself(reading: &mut Reading) {
    reading.doubts.retain(|doubt| {
        !matches!(doubt.kind, DoubtKind::NotUnderstood | DoubtKind::OtherLanguage | DoubtKind::NothingThere)
    });
    reading.requests.retain(|request| !matches!(request, Request::Aside(_) | Request::Greet));
}

fn told_why(why: Unreadable) -> UnreadableBecause {
    match why {
        Unreadable::NoKey => UnreadableBecause::NoKey,
        Unreadable::UnknownKind => UnreadableBecause::UnknownKind,
        Unreadable::TooLarge => UnreadableBecause::TooLarge,
    }
}

fn blank_facts(now: DateTime<Utc>) -> Facts {
    Facts {
        now,
        garden: crate::season::garden::Garden::new(""),
        journal: crate::season::journal::Journal::default(),
        weather: crate::weather::Series::default(),
        feed: crate::season::facts::Feed::default(),
        told: Vec::new(),
        normals: None,
        open_question: None,
        answered: None,
    }
}
