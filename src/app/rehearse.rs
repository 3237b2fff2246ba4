//! A scripted season on a simulated clock: one JSON object a line in, any number out.

mod line;

use std::collections::HashMap;
use std::io::{BufRead, Write};

use chrono::{DateTime, Utc};
use serde_json::{Value, json};

use self::line::{Line, Said};
use super::desk::{Desk, DeskError, Handled};
use super::feed::KeeperError;
use super::outgoing::NOTED;
use crate::identity::{EventId, GardenId, PersonId, RoomId};
use crate::post::{Addressed, Body, Content, Inbound, Kind, Mailroom, Outbound, RoomKind};
use crate::season::answer::{Answer, Place};
use crate::season::facts::Errand;
use crate::season::request::Setting;

/// A live weather interface; a rehearsal on a recorded year has none.
pub trait Endpoint {
    /// Brings the store's weather up to a moment. What fails is for the log: the last good forecast stays.
    fn refresh(&mut self, now: DateTime<Utc>) -> Result<(), KeeperError>;

    /// The likeliest places of a name, or none.
    fn find(&mut self, name: &str) -> Vec<Place>;
}

pub struct Rehearsal<'a> {
    desk: &'a Desk,
    name: String,
    readings: Readings,
    endpoint: Option<Box<dyn Endpoint + 'a>>,
    now: Option<DateTime<Utc>>,
    events: u64,
    answers: HashMap<String, Vec<Answer>>,
    /// A garden to be made at the first line's time.
    garden: Option<(GardenId, Vec<Setting>)>,
    /// Rooms in which each message of the bot's stands, to tell whether a reply is to it.
    own: HashMap<String, RoomId>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Readings {
    Shown,
    Hidden,
}

#[derive(Debug, thiserror::Error)]
pub enum RehearsalError {
    #[error(transparent)]
    Desk(#[from] DeskError),
    #[error(transparent)]
    Feed(#[from] KeeperError),
    #[error("cannot read the script: {0}")]
    Input(std::io::Error),
    #[error("cannot write: {0}")]
    Output(std::io::Error),
}

impl<'a> Rehearsal<'a> {
    pub fn new(desk: &'a Desk, name: &str, readings: Readings) -> Self {
        Self {
            desk,
            name: name.to_owned(),
            readings,
            endpoint: None,
            now: None,
            events: 0,
            answers: HashMap::new(),
            garden: None,
            own: HashMap::new(),
        }
    }

    /// Starts from a garden written down.
    pub fn with_garden(&mut self, id: GardenId, settings: Vec<Setting>) {
        self.garden = Some((id, settings));
    }

    /// Takes the weather from an interface rather than from a recorded year.
    pub fn with_endpoint(&mut self, endpoint: impl Endpoint + 'a) {
        self.endpoint = Some(Box::new(endpoint));
    }

    /// Plays a script to its end. A line that cannot be read is answered with what is wrong with it, and the
    /// next is played: nothing is lost.
    pub fn play(&mut self, script: impl BufRead, out: &mut impl Write) -> Result<(), RehearsalError> {
        for (number, line) in script.split(b'\n').enumerate() {
            let line = line.map_err(RehearsalError::Input)?;
            let text = String::from_utf8_lossy(&line);
            if text.trim().is_empty() {
                continue;
            }
            match line::read(&text) {
                Ok(line) => self.step(&line, out)?,
                Err(problem) => {
                    write_line(out, &json!({ "error": { "line": number + 1, "problem": problem } }))?;
                    self.settle(out)?;
                }
            }
        }
        Ok(())
    }

    fn step(&mut self, line: &Line, out: &mut impl Write) -> Result<(), RehearsalError> {
        if let Some(now) = self.now
            && line.at < now
        {
            let problem = format!("time does not run backwards: it is {} already", now.to_rfc3339());
            write_line(out, &json!({ "error": { "problem": problem } }))?;
            return self.settle(out);
        }
        if let Some((id, settings)) = self.garden.take()
            && self.desk.store().gardens().is_empty()
        {
            self.desk.make_garden(&id, &settings, line.at)?;
        }
        self.run_until(line.at, out)?;
        self.now = Some(line.at);
        if let Some(said) = &line.said {
            self.hear(line, said, out)?;
        }
        self.tick(line.at, out)?;
        self.settle(out)
    }

    /// Fires everything due before a moment, at its own time.
    fn run_until(&mut self, until: DateTime<Utc>, out: &mut impl Write) -> Result<(), RehearsalError> {
        let Some(mut now) = self.now else { return Ok(()) };
        // A garden that never asks for a later moment than now would keep the clock from running.
        while let Some(wake) = self.desk.next_wake().filter(|wake| *wake < until && *wake > now) {
            now = wake;
            self.now = Some(now);
            self.tick(now, out)?;
        }
        Ok(())
    }

    fn tick(&mut self, now: DateTime<Utc>, out: &mut impl Write) -> Result<(), RehearsalError> {
        self.look_up(now)?;
        for garden in self.desk.due(now) {
            let handled = self.desk.tick(&garden, now)?;
            self.remember(handled);
            self.deliver(out)?;
        }
        Ok(())
    }

    /// The weather as a feed would have it by now.
    fn look_up(&mut self, now: DateTime<Utc>) -> Result<(), RehearsalError> {
        match &mut self.endpoint {
            Some(endpoint) => Ok(endpoint.refresh(now)?),
            None => Ok(()),
        }
    }

    fn hear(&mut self, line: &Line, said: &Said, out: &mut impl Write) -> Result<(), RehearsalError> {
        self.look_up(line.at)?;
        let inbound = self.inbound(line, said)?;
        self.desk.store().accept(vec![inbound.clone()]).map_err(DeskError::from)?;
        let handled = self.desk.handle(&inbound, line.at)?;
        if let (Readings::Shown, Some(reading)) = (self.readings, &handled.reading) {
            write_line(out, &json!({ "reading": reading }))?;
        }
        let errand = handled.errand.clone();
        self.remember(handled);
        if let Some(Errand::FindPlace { name }) = errand {
            let places = self.endpoint.as_mut().map(|endpoint| endpoint.find(&name)).unwrap_or_default();
            let handled = self.desk.offer_places(&after(&inbound), &name, places, line.at)?;
            self.remember(handled);
        }
        self.deliver(out)
    }

    fn inbound(&mut self, line: &Line, said: &Said) -> Result<Inbound, DeskError> {
        let id = if let Some(id) = &line.id {
            self.events += 1;
            EventId::new(id)
        } else {
            self.desk.unseen_event(&mut self.events, |count| format!("event-{count}"))?
        };
        let direct = line.room == "direct";
        let room = if direct { format!("direct:{}", line.from) } else { line.room.clone() };
        let content = said.content();
        let replies_to_bot = line.reply.as_ref().is_some_and(|reply| self.own.contains_key(reply));
        let addressed = if direct || replies_to_bot || self.is_named(&content) {
            Addressed::ToBot
        } else {
            Addressed::ToRoom
        };
        Ok(Inbound {
            id,
            room: RoomId::new(room),
            room_kind: if direct { RoomKind::Direct } else { RoomKind::Group },
            from: PersonId::new(&line.from),
            called: Some(line.from.clone()),
            at: line.at,
            addressed,
            reply_to: line.reply.clone().map(EventId::new),
            thread: None,
            content,
        })
    }

    fn is_named(&self, content: &Content) -> bool {
        let text = match content {
            Content::Said { text } | Content::Edited { text, .. } => text,
            Content::Photo { caption: Some(caption), .. }
            | Content::Located { caption: Some(caption), .. } => caption,
            _ => return false,
        };
        text.to_lowercase().contains(&self.name.to_lowercase())
    }

    fn remember(&mut self, handled: Handled) {
        self.answers.extend(handled.answers);
    }

    fn deliver(&mut self, out: &mut impl Write) -> Result<(), RehearsalError> {
        let store = self.desk.store();
        let waiting = store.waiting().map_err(DeskError::from)?;
        for waiting in waiting {
            let outbound = waiting.outbound;
            let late = outbound.use_by.zip(self.now).is_some_and(|(use_by, now)| now > use_by);
            if late {
                store.abandoned(&outbound.key, "past its use").map_err(DeskError::from)?;
                continue;
            }
            let id = format!("bot-{}", outbound.key);
            write_line(out, &self.shown(&outbound, &id))?;
            self.own.insert(id.clone(), outbound.room.clone());
            store.delivered(&outbound.key, Some(EventId::new(id))).map_err(DeskError::from)?;
        }
        Ok(())
    }

    fn shown(&mut self, outbound: &Outbound, id: &str) -> Value {
        let room = outbound.room.as_str();
        let values = self.answers.remove(&outbound.key).unwrap_or_default();
        let (text, html) = match &outbound.body {
            Body::Words { text, html } => (text.clone(), html.clone()),
            Body::Reaction { key } => (key.clone(), key.clone()),
            Body::Picture { caption, .. } => (caption.clone(), caption.clone()),
            Body::Withdraw { .. } => (NOTED.to_owned(), NOTED.to_owned()),
        };
        json!({
            "at": self.now.unwrap_or(outbound.made).to_rfc3339(),
            "room": if room.starts_with("direct:") { "direct" } else { room },
            "kind": match outbound.kind {
                Kind::Answer => "answer",
                Kind::Brief => "brief",
                Kind::Alert => "alert",
                Kind::Acknowledgement => "ack",
            },
            "id": id,
            "re": outbound.re.as_ref().map(EventId::as_str),
            "text": text,
            "html": html,
            "values": values,
        })
    }

    fn settle(&mut self, out: &mut impl Write) -> Result<(), RehearsalError> {
        write_line(out, &json!({ "settled": self.now.map(|now| now.to_rfc3339()) }))?;
        out.flush().map_err(RehearsalError::Output)
    }
}

/// The same message again, as the event under which the errand's result is told.
fn after(inbound: &Inbound) -> Inbound {
    Inbound { id: EventId::new(format!("{}-places", inbound.id)), ..inbound.clone() }
}

fn write_line(out: &mut impl Write, value: &Value) -> Result<(), RehearsalError> {
    writeln!(out, "{value}").map_err(RehearsalError::Output)
}
