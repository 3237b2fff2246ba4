//! Talking to it in a terminal: a sample garden, a bundled weather year, no account and no network.

use std::io::{IsTerminal, Write};

use chrono::{DateTime, TimeDelta, Utc};
use rustyline::error::ReadlineError;

use super::desk::{Desk, DeskError};
use super::sample;
use crate::identity::{EventId, GardenId, PersonId, RoomId};
use crate::language::read::moment_ahead;
use crate::post::{Addressed, Body, Content, Inbound, Kind, Mailroom, RoomKind};
use crate::season::facts::Errand;
use crate::season::garden::UnitSystem;

pub struct Talk<'a> {
    desk: &'a Desk,
    garden: GardenId,
    person: PersonId,
    now: DateTime<Utc>,
    events: u64,
}

/// What a line typed is: something for the bot, or for the clock of the rehearsed year.
#[derive(Debug, PartialEq)]
enum Typed {
    Say(String),
    WaitUntil(DateTime<Utc>),
    /// It orders to wait, and for no time that can be told.
    WaitUnclear,
    Leave,
    Nothing,
}

/// What a time to wait for is led by.
const WAITED_FOR: [&str; 4] = ["until ", "till ", "til ", "for "];
/// A day of last month is meant for no day of next year.
const LONGEST_WAIT: TimeDelta = TimeDelta::days(300);

impl<'a> Talk<'a> {
    /// A talk that begins at a moment, in a garden that is there already.
    pub fn new(desk: &'a Desk, garden: GardenId, person: PersonId, now: DateTime<Utc>) -> Self {
        Self { desk, garden, person, now, events: 0 }
    }

    pub fn sample_start() -> DateTime<Utc> {
        sample::start()
    }

    /// Tells the sample garden's past in its people's words, without showing the answers.
    pub fn tell_the_past(&mut self) -> Result<(), DeskError> {
        let start = self.now;
        for (at, say) in sample::PAST {
            let Ok(at) = DateTime::parse_from_rfc3339(at) else { continue };
            self.now = at.with_timezone(&Utc);
            self.say(say)?;
            self.discard()?;
        }
        self.now = start;
        Ok(())
    }

    /// Reads lines until the end of input. On a terminal with editing and history, else plainly.
    pub fn run(mut self, out: &mut impl Write) -> Result<(), TalkError> {
        writeln!(out, "{}", self.greeting())?;
        self.wake(out)?;
        if std::io::stdin().is_terminal() { self.edited(out) } else { self.plain(out) }
    }

    fn greeting(&self) -> String {
        let zone = self.zone();
        format!(
            "It is {} in the sample garden. Say what you saw or did, or ask: \"should I spray this week?\", \"help\".\n\
             To let time pass: \"wait 3 days\", \"wait until Thursday 7 am\", \"wait until 1 October\". To leave: \"bye\".\n",
            self.now.with_timezone(&zone).format("%A %-d %B %Y, %H:%M")
        )
    }

    fn edited(&mut self, out: &mut impl Write) -> Result<(), TalkError> {
        let mut editor = rustyline::DefaultEditor::new()?;
        loop {
            match editor.readline("> ") {
                Ok(line) => {
                    // History is a comfort: without it the talk goes on.
                    let _ = editor.add_history_entry(&line);
                    if !self.step(&line, out)? {
                        return Ok(());
                    }
                }
                Err(ReadlineError::Eof | ReadlineError::Interrupted) => return Ok(()),
                Err(error) => return Err(error.into()),
            }
        }
    }

    fn plain(&mut self, out: &mut impl Write) -> Result<(), TalkError> {
        for line in std::io::stdin().lines() {
            let line = line?;
            writeln!(out, "> {line}")?;
            if !self.step(&line, out)? {
                return Ok(());
            }
        }
        Ok(())
    }

    /// One line; false to leave.
    fn step(&mut self, line: &str, out: &mut impl Write) -> Result<bool, TalkError> {
        match self.typed(line) {
            Typed::Nothing => {}
            Typed::Leave => return Ok(false),
            Typed::WaitUntil(until) => self.wait(until, out)?,
            Typed::WaitUnclear => writeln!(
                out,
                "I can wait for a time or a while, {} days at most: \"wait until Thursday 7 am\", \"wait until 1 October\", \"wait 3 days\", \"wait 6 hours\".\n",
                LONGEST_WAIT.num_days()
            )?,
            Typed::Say(text) => {
                self.say(&text)?;
                self.show(out)?;
                self.now += TimeDelta::minutes(1);
            }
        }
        Ok(true)
    }

    fn typed(&self, line: &str) -> Typed {
        let text = line.trim();
        let lower = text.to_lowercase();
        if text.is_empty() {
            return Typed::Nothing;
        }
        if matches!(lower.as_str(), "bye" | "exit" | "quit" | "goodbye") {
            return Typed::Leave;
        }
        // "Wait, that was Corner" is for the bot.
        let Some(rest) = lower.strip_prefix("wait ").map(str::trim) else {
            return Typed::Say(text.to_owned());
        };
        let told = WAITED_FOR.iter().find_map(|word| rest.strip_prefix(word));
        let (zone, units) = self.ground();
        match moment_ahead(told.unwrap_or(rest), self.now, zone, units) {
            Some(until) if until - self.now <= LONGEST_WAIT => Typed::WaitUntil(until),
            None if told.is_none() => Typed::Say(text.to_owned()),
            _ => Typed::WaitUnclear,
        }
    }

    fn wait(&mut self, until: DateTime<Utc>, out: &mut impl Write) -> Result<(), TalkError> {
        if until <= self.now {
            writeln!(out, "Time does not run backwards here: it is {} already.\n", self.shown_now())?;
            return Ok(());
        }
        while let Some(wake) = self.desk.next_wake().filter(|wake| *wake <= until && *wake > self.now) {
            self.now = wake;
            self.wake(out)?;
        }
        self.now = until;
        self.wake(out)?;
        writeln!(out, "It is {}.\n", self.shown_now())?;
        Ok(())
    }

    fn wake(&mut self, out: &mut impl Write) -> Result<(), TalkError> {
        for garden in self.desk.due(self.now) {
            self.desk.tick(&garden, self.now)?;
        }
        self.show(out)
    }

    fn say(&mut self, text: &str) -> Result<(), DeskError> {
        let clock = self.now.timestamp();
        let inbound = Inbound {
            id: self.desk.unseen_event(&mut self.events, |count| format!("talk-{clock}-{count}"))?,
            room: RoomId::new("terminal"),
            room_kind: RoomKind::Direct,
            from: self.person.clone(),
            called: Some(String::from("you")),
            at: self.now,
            addressed: Addressed::ToBot,
            reply_to: None,
            thread: None,
            content: Content::Said { text: text.to_owned() },
        };
        self.desk.store().accept(vec![inbound.clone()])?;
        let handled = self.desk.handle(&inbound, self.now)?;
        if let Some(Errand::FindPlace { name }) = handled.errand {
            let again = Inbound { id: EventId::new(format!("{}-places", inbound.id)), ..inbound };
            // No network here: the answer says to share coordinates instead.
            self.desk.offer_places(&again, &name, Vec::new(), self.now)?;
        }
        Ok(())
    }

    fn show(&mut self, out: &mut impl Write) -> Result<(), TalkError> {
        let store = self.desk.store();
        for waiting in store.waiting().map_err(DeskError::from)? {
            let outbound = waiting.outbound;
            match &outbound.body {
                Body::Words { text, .. } => {
                    if matches!(outbound.kind, Kind::Brief | Kind::Alert) && outbound.re.is_none() {
                        writeln!(out, "[{}]", self.shown_now())?;
                    }
                    writeln!(out, "{text}\n")?;
                }
                Body::Reaction { key } => writeln!(out, "{key}\n")?,
                Body::Picture { caption, .. } => writeln!(out, "{caption}\n")?,
                Body::Withdraw { .. } => {}
            }
            let id = EventId::new(format!("shown-{}", outbound.key));
            store.delivered(&outbound.key, Some(id)).map_err(DeskError::from)?;
        }
        out.flush()?;
        Ok(())
    }

    fn discard(&self) -> Result<(), DeskError> {
        for waiting in self.desk.store().waiting()? {
            self.desk.store().delivered(&waiting.outbound.key, None)?;
        }
        Ok(())
    }

    fn shown_now(&self) -> String {
        self.now.with_timezone(&self.zone()).format("%a %-d %b %H:%M").to_string()
    }

    fn zone(&self) -> chrono_tz::Tz {
        self.ground().0
    }

    /// What times are read against.
    fn ground(&self) -> (chrono_tz::Tz, UnitSystem) {
        let facts = self.desk.store().facts(&self.garden, self.now, None).ok().flatten();
        let unknown = (chrono_tz::Tz::UTC, UnitSystem::Metric);
        facts.map_or(unknown, |facts| (facts.garden.zone(), facts.garden.units))
    }
}

#[derive(Debug, thiserror::Error)]
pub enum TalkError {
    #[error(transparent)]
    Desk(#[from] DeskError),
    #[error("the terminal: {0}")]
    Terminal(#[from] std::io::Error),
    #[error("the terminal: {0}")]
    Line(#[from] ReadlineError),
}
