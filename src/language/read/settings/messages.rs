//! When and where the bot may write: quiet, the hour of the morning brief, the room, what it listens to.

use chrono::NaiveTime;

use super::{Found, any, line};
use crate::language::read::lexicon::Sense;
use crate::language::read::moments::{clock_time, next_day, tells_no_hour};
use crate::language::read::tokens::Token;
use crate::language::read::word_list::words;
use crate::language::read::{Speech, doubt};
use crate::season::garden::{Listening, Quiet};
use crate::season::request::{DoubtKind, Reading, Setting};

pub(super) fn quiet(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let line = line(tokens);
    let described = tokens.windows(2).any(|pair| {
        pair[0].is_any(words!("it's its is was so nice too pretty very real awful")) && pair[1].is("quiet")
    }) && !any(tokens, words!("be stay keep please"));
    // "So he can stop texting me at work"
    let of_another = tokens.windows(3).any(|three| {
        three[0].is_any(words!("he she they bo ana mom dad people everyone"))
            && three[1..].iter().any(|token| token.is_any(words!("stop quit stops keeps")))
    });
    // "No, actually quarter to eight is better for the morning message": an hour, and no silence.
    let of_hour = any(tokens, words!("better instead rather earlier later"))
        && any(tokens, words!("quarter half past am pm o'clock :"))
        && !any(tokens, words!("until till til through quiet"));
    // "Don't message me early", "quiet evening, so I gave Whip a drink"
    let by_hour = any(tokens, words!("early"))
        && !any(tokens, words!("until till til through thru quiet silence mute"));
    let as_noun = tokens.first().is_some_and(|first| first.is("quiet"))
        && tokens.get(1).is_some_and(|next| {
            next.is_any(words!("evening night day morning afternoon one week weekend out here tonight"))
        })
        && !any(tokens, words!("until till til through thru for"));
    if described || of_another || of_hour || by_hour || as_noun {
        return None;
    }
    let hush = any(tokens, words!("quiet silence silent hush mute shush shh shhh snooze whisht"))
        && !any(tokens, words!("been was"))
        && (any(tokens, words!("until till til for through thru"))
            || tokens.first().is_some_and(|first| {
                first.is_any(words!(
                    "be stay keep go please quiet silence hush mute shush shh shhh snooze whisht ok now just"
                ))
            }))
        || any(tokens, words!("no stop pause skip mute hold"))
            && any(
                tokens,
                words!(
                    "briefs brief reminders message messages mornings briefings messaging notifications texts"
                ),
            )
            && !tokens.iter().any(|token| token.senses.has(Sense::Rain))
        || any(tokens, words!("stop pause skip mute hold")) && any(tokens, words!("stuff everything"))
            && any(tokens, words!("til till until through"))
        // "Zip it through Friday"
        || tokens.windows(2).any(|pair| pair[0].is("zip") && pair[1].is("it"))
            && any(tokens, words!("til till until through thru"))
        || any(tokens, words!("stop quit"))
            && any(tokens, words!("talking messaging texting pinging bugging posting"))
        || tokens
            .iter()
            .skip_while(|token| token.is_any(words!("please pls ok so and you can")))
            .take(2)
            .map(|token| token.text.as_str())
            .collect::<Vec<_>>()
            .as_slice()
            .starts_with(&["quit", "sending"])
        // "No pings for the next 3 days"
        || tokens.windows(2).any(|pair| {
            pair[0].is("no") && pair[1].is_any(words!("pings ping texts messages msgs briefs notifications"))
        }) && (any(tokens, words!("until till til through")) || any(tokens, words!("for")) && any(tokens, words!("days")))
        || any(tokens, words!("send")) && any(tokens, words!("nothing"))
        || line.contains("leave me alone")
        || line.starts_with("shut up")
        || line.contains(" shut up ") && any(tokens, words!("until till til"))
        || line.contains("say nothing") && any(tokens, words!("until till til"))
        || line.contains("leave me be")
        || any(tokens, words!("don't do"))
            && any(
                tokens,
                words!("bother bug message ping text disturb notify remind write contact call send"),
            )
            && any(tokens, words!("don't not"))
            && any(tokens, words!("me us"))
        // "Can you not message til the 19th"
        || (0..tokens.len().saturating_sub(1)).any(|at| {
            let asked = at.checked_sub(1).is_none_or(|before| {
                tokens[before].is_any(words!("you u please pls do just ok okay so and now , hey"))
            });
            asked
                && tokens[at].is_any(words!("not don't dont no stop"))
                && tokens[at + 1].is_any(words!(
                    "message messages ping pings text texts bother bug disturb notify write briefs"
                ))
        }) && (any(tokens, words!("until till til through thru")) || up_to(tokens));
    // "You can talk again, end the quiet"
    let ends = tokens.windows(3).any(|three| {
        three[0].is_any(words!("end stop lift cancel")) && three[1..].iter().any(|token| token.is("quiet"))
    }) || any(tokens, words!("talk speak"))
        && any(tokens, words!("again"))
        && !any(tokens, words!("until till"));
    if ends && hush {
        return Some(Setting::Quiet { quiet: Quiet::Speaking }.into());
    }
    // "Don't text me before 6:45 in the morning"
    let before = tokens.iter().position(|token| token.is("before"));
    if hush
        && let Some(time) =
            before.and_then(|at| clock_time(&tokens[at + 1..]).or_else(|| run_together(&tokens[at + 1..])))
    {
        return Some(Setting::Morning { time }.into());
    }
    if hush && tokens.len() <= 28 {
        let after = tokens.windows(2).any(|pair| pair[0].is_any(words!("until till")) && pair[1].is("after"));
        // "To the end of Sunday"
        let end_of = tokens.windows(2).any(|pair| pair[0].is("end") && pair[1].is("of"));
        let included = any(tokens, words!("including inclusive included incl")) || after || end_of;
        let through = included || any(tokens, words!("through thru"));
        let until = through
            || up_to(tokens)
            || any(tokens, words!("until till for til"))
            // "Skip the brief tomorrow": that one only.
            || any(tokens, words!("skip")) && any(tokens, words!("tomorrow tmrw"));
        let (at, zone, units) = (speech.context.at, speech.context.zone, speech.context.garden.units);
        let skips = any(tokens, words!("skip")) && any(tokens, words!("tomorrow tmrw"));
        let day =
            behind_until(tokens).find_map(|from| Some((from, next_day(&tokens[from..], at, zone, units)?)));
        // "Quiet until 1 July", said on the tenth: a slip, and no year of silence.
        const LONGEST_QUIET: i64 = 200;
        let today = crate::season::calendar::local_date(at, zone);
        if day.is_some_and(|(_, date)| until && (date - today).num_days() > LONGEST_QUIET) {
            return None;
        }
        let quiet = match day.filter(|_| until) {
            Some((_, date)) if skips || included => Quiet::Until(date),
            // "Through Sunday" is quiet on Sunday too.
            Some((from, date)) if tokens[from].is_any(words!("through thru")) => Quiet::Until(date),
            // Until Monday means that Monday speaks again.
            Some((_, date)) => Quiet::Until(date.pred_opt().unwrap_or(date)),
            None => Quiet::UntilTold,
        };
        return Some(Setting::Quiet { quiet }.into());
    }
    let allowed = tokens
        .windows(2)
        .any(|pair| pair[0].is_any(words!("you u ya")) && pair[1].is_any(words!("can may could")));
    // "You may resume your messages", "open again the messages"
    let open = tokens.windows(3).any(|three| {
        let messages = |token: &Token| token.is_any(words!("messages message briefs brief"));
        three[0].is("open")
            && (three[1].is_any(words!("again up"))
                || three[1].is_any(words!("the my")) && messages(&three[2]))
    });
    let resumed = (any(tokens, words!("resume reopen unmute restart")) || open)
        && any(tokens, words!("message messages brief briefs reminders notifications updates"))
        && !any(tokens, words!("until till when"))
        && tokens.len() <= 14;
    let again = (any(tokens, words!("speak talk talking resume unmute start starting begin"))
        || allowed && any(tokens, words!("message text write ping bother post")))
        && !any(tokens, words!("till until"))
        && (any(tokens, words!("again back"))
            || tokens.windows(2).any(|pair| pair[0].is("once") && pair[1].is("more")))
        && !any(tokens, words!("what how when should why which won't wont didn't can't couldn't wouldn't"))
        && tokens.len() <= 16
        && !tokens
            .iter()
            .any(|token| token.senses.has_any(&[Sense::Rust, Sense::Spray, Sense::Sprayed, Sense::Watering]));
    let speak = again
        || resumed
        || matches!(
            line.as_str(),
            "speak"
                | "speak again"
                | "speak up"
                | "start briefs"
                | "start briefs again"
                | "resume"
                | "resume briefs"
                | "unmute"
                | "briefs on"
                | "wake up"
                | "wake back up"
                | "ok wake back up"
                | "ok wake up"
        )
        || any(tokens, words!("turn switch"))
            && any(tokens, words!("on"))
            && any(tokens, words!("brief briefs briefing reminders morning mornings messages"));
    speak.then(|| Setting::Quiet { quiet: Quiet::Speaking }.into())
}

/// "Up to Sunday"
fn up_to(tokens: &[Token]) -> bool {
    tokens.windows(2).any(|pair| pair[0].is("up") && pair[1].is("to"))
}

/// "From Friday ..., until July 20": the day behind the last "until".
fn behind_until(tokens: &[Token]) -> impl Iterator<Item = usize> {
    let mut places: Vec<usize> = (0..tokens.len())
        .filter(|at| tokens[*at].is_any(words!("until till til through thru")))
        .rev()
        .collect();
    if places.is_empty() {
        places.push(0);
    }
    places.into_iter()
}

pub(super) fn listening(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    // "You may reply to everything in here"
    let replies = tokens.windows(3).any(|three| {
        three[0].is_any(words!("reply answer respond")) && three[1].is("to") && three[2].is("everything")
    });
    if replies || any(tokens, words!("listen")) && any(tokens, words!("everything all everyone")) {
        return Some(Setting::Listening { listening: Listening::ToEverything }.into());
    }
    let to_you =
        tokens.windows(2).any(|pair| pair[0].is_any(words!("to")) && pair[1].is_any(words!("you u")))
            && any(tokens, words!("talk talks talking speak speaks speaking spoken"));
    let only = any(tokens, words!("only just"))
        && any(tokens, words!("listen answer reply respond react speak talk chime"))
        && any(tokens, words!("when if unless"))
        && (to_you || any(tokens, words!("name named mention mentioned addressed call called asked")))
        && speech.mentions.is_empty();
    only.then(|| Setting::Listening { listening: Listening::WhenAddressed }.into())
}

/// "brief at 6:30", "morning brief at 7", "send the brief at 6 am".
pub(super) fn morning(speech: &Speech, reading: &mut Reading) -> Option<Found> {
    let tokens = speech.tokens;
    // "set morning to 7"
    let ordered = tokens.first().is_some_and(|first| first.is_any(words!("set change move make")))
        && any(tokens, words!("morning mornings"))
        && any(tokens, words!("to at"))
        && tokens.len() <= 7
        && speech.mentions.is_empty();
    // "The morning message", "my morning report"
    let named = tokens.windows(2).any(|pair| {
        pair[0].is_any(words!("morning daily"))
            && pair[1].is_any(words!(
                "hour time thing message messages msg report reports update updates note summary text texts"
            ))
    });
    // "The message of the morning"
    let named = named
        || tokens.windows(4).any(|four| {
            four[0].is_any(words!("message messages report brief"))
                && four[1].is_any(words!("of in"))
                && four[2].is("the")
                && four[3].is_any(words!("morning mornings"))
        });
    // "Remind me in the mornings at 6:15 instead"
    let named = named || any(tokens, words!("remind")) && any(tokens, words!("mornings"));
    // "Mornings at 6 30 works", "you can write to me at a quarter to six in the morning"
    let suits = tokens.first().is_some_and(|first| first.is_any(words!("mornings morning")))
        && tokens.get(1).is_some_and(|at| at.is("at"))
        && tokens.len() <= 7
        || tokens.windows(3).any(|three| {
            three[0].is_any(words!("write talk send speak message text"))
                && three[1].is_any(words!("to me us it"))
                && three[2].is_any(words!("me us at"))
        }) && any(tokens, words!("at"))
            && any(tokens, words!("morning"))
            && any(tokens, words!("you"));
    let named = named || suits && speech.mentions.is_empty();
    // "Text me at 8:15 in the morning"
    let text_me = tokens
        .first()
        .is_some_and(|first| first.is_any(words!("text message ping send write wake brief tell")))
        && tokens.get(1).is_some_and(|me| me.is_any(words!("me us it")))
        && any(tokens, words!("at"))
        && speech.mentions.is_empty()
        && tokens.len() <= 20;
    // "Can it be 6:45", "could you do 6:45 instead"
    let clock = tokens.iter().any(|token| token.is_any(words!(": am pm")))
        || tokens.len() <= 4 && run_together(tokens.get(1..).unwrap_or_default()).is_some();
    let wish = tokens.len() <= 9
        && clock
        && tokens.first().is_some_and(|first| first.is_any(words!("can could")))
        && (tokens.windows(2).any(|pair| pair[0].is("it") && pair[1].is_any(words!("be come")))
            || tokens.windows(2).any(|pair| pair[0].is("you") && pair[1].is_any(words!("do send make"))))
        && speech.mentions.is_empty();
    let brief = wish
        || ordered
        || text_me
        || named
        || any(tokens, words!("brief briefs reminders briefing"))
        // "Just a reminder you're booked Thursday at 2:15"
        || any(tokens, words!("reminder"))
            && !tokens.windows(2).any(|pair| pair[0].is("a") && pair[1].is("reminder"));
    let works = !speech.mentions.is_empty()
        || tokens.iter().any(|token| token.senses.has_any(&[Sense::Picked, Sense::Sprayed, Sense::Watered]));
    // "Daily report, 10 July" heads a list, and sets no hour.
    let headed =
        named && !clock && !ordered && !text_me && !any(tokens, words!("at to for send make set change"))
            || tokens.iter().any(|token| crate::language::read::moments::month(&token.text).is_some());
    if !brief
        || headed
        || works
        || any(tokens, words!("here"))
            && !tokens.windows(2).any(|pair| pair[0].is("here") && pair[1].is_any(words!("on out")))
        || tokens.iter().any(|token| token.senses.has(Sense::Rain))
    {
        return None;
    }
    if tells_no_hour(tokens) {
        reading.doubts.push(doubt(DoubtKind::ImpossibleDate, speech.text));
        return Some(Found::Doubted);
    }
    // "I'm out by 6:30, send the morning message at 6:15": the hour behind the message.
    let from = tokens
        .iter()
        .rposition(|token| {
            token.is_any(words!("message messages brief briefs report update morning text summary"))
        })
        .unwrap_or(0);
    // "The morning thing at 6 15"
    let apart = tokens.windows(2).find_map(|pair| {
        let minute = pair[1].number.filter(|minute| pair[1].text.len() == 2 && *minute < 60.0)?;
        let hour = pair[0].number.filter(|hour| pair[0].text.len() <= 2 && (4.0..=11.0).contains(hour))?;
        NaiveTime::from_hms_opt(hour as u32, minute as u32, 0)
    });
    if let Some(time) = apart.filter(|_| !tokens.iter().any(|token| token.is(":"))) {
        return Some(Setting::Morning { time }.into());
    }
    // "Morning msg at 6.15 pls"
    let pointed = tokens.iter().find_map(|token| {
        let (hour, minute) = token.text.split_once('.').filter(|(_, minute)| minute.len() == 2)?;
        let hour = hour.parse::<u32>().ok().filter(|hour| (4..=11).contains(hour))?;
        NaiveTime::from_hms_opt(hour, minute.parse().ok()?, 0)
    });
    if let Some(time) = pointed {
        return Some(Setting::Morning { time }.into());
    }
    // "Morning message 615"
    let run = || run_together(tokens.get(from + 1..).filter(|rest| rest.len() <= 3)?);
    let time: NaiveTime = clock_time(&tokens[from..]).or_else(|| clock_time(tokens)).or_else(run)?;
    Some(Setting::Morning { time }.into())
}

/// "645", the hour and its minutes in one.
fn run_together(tokens: &[Token]) -> Option<NaiveTime> {
    let at = tokens.iter().take(3).find(|token| token.number.is_some())?;
    let (hour, minute) = at.text.split_at_checked(at.text.len().checked_sub(2)?)?;
    NaiveTime::from_hms_opt(hour.parse().ok()?, minute.parse().ok()?, 0)
}

/// "post the briefs here", "use this room".
pub(super) fn here(speech: &Speech) -> Option<Found> {
    let tokens = speech.tokens;
    let brief = any(tokens, words!("brief briefs reminders messages post speak alerts"))
        && any(tokens, words!("here"));
    let this_room = |tokens: &[Token]| {
        tokens.windows(2).any(|pair| pair[0].is("this") && pair[1].is_any(words!("room chat channel")))
    };
    let room = any(tokens, words!("use in to")) && this_room(tokens) && tokens.len() <= 9
        // "Use this room from now on, the other one is for work"
        || any(&tokens[..tokens.len().min(4)], words!("use")) && this_room(&tokens[..tokens.len().min(7)]);
    // "A friend has invited me to this room"
    let within =
        tokens.windows(2).any(|pair| pair[0].is_any(words!("are is is's were here")) && pair[1].is("in"));
    let told = within
        || any(
            tokens,
            words!("others people family there invited invite joined added brought put told showed"),
        );
    let room = room && !told;
    // "Send the morning message to this room from now on"
    let room = room
        || tokens.len() <= 14
            && any(tokens, words!("brief briefs message messages reminders report reports post"))
            && tokens.windows(3).any(|three| {
                three[0].is_any(words!("to in into"))
                    && three[1].is("this")
                    && three[2].is_any(words!("room chat channel group"))
            });
    ((brief && tokens.len() <= 9) || room).then(|| Setting::Here.into())
}
