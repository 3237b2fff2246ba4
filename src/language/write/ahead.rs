//! What is coming: the days ahead in a few lines.

use super::page::Page;
use super::{Voice, figures, frost, phrases, spray};
use crate::season::answer::{AheadDay, AheadView, Infection};

pub(super) fn view(page: &mut Page, view: &AheadView, voice: &Voice) {
    if view.days.is_empty() {
        page.lead("I have no forecast for your garden right now.");
        return;
    }
    page.lead(lead(view, voice));
    if let Some(window) = &view.window {
        page.line(format!("Best spray hours: {}.", voice.window(window)));
    }
    if let Some(night) = &view.frost {
        page.line(frost::night_line(night, voice));
    }
    for day in &view.days {
        page.item(day_line(day, voice));
    }
    page.small("Past day five the forecast blurs; wet nights there are not judged.");
}

fn lead(view: &AheadView, voice: &Voice) -> String {
    let worst =
        view.infection.iter().reduce(|worst, next| if next.grade > worst.grade { next } else { worst });
    match worst {
        Some(infection) => rust_weather(infection, voice),
        None => String::from("No rust weather in sight."),
    }
}

fn rust_weather(infection: &Infection, voice: &Voice) -> String {
    format!(
        "Rust weather {}: {} of wet leaves, a {} risk.",
        voice.stretch(infection.from, infection.to),
        figures::span(infection.wet_hours),
        spray::grade(infection.grade)
    )
}

fn day_line(day: &AheadDay, voice: &Voice) -> String {
    let mut parts = Vec::new();
    match (day.minimum, day.maximum) {
        (Some(low), Some(high)) => parts.push(voice.temperatures(low, high)),
        (Some(only), None) | (None, Some(only)) => parts.push(voice.temperature(only)),
        (None, None) => {}
    }
    parts.extend(day.rain.map(|rain| voice.rain(rain)));
    if day.wet_hours > 0 {
        parts.push(format!("leaves wet {}", figures::count(i64::from(day.wet_hours), "hour")));
    }
    if parts.is_empty() {
        parts.push(String::from("not known"));
    }
    format!("{}: {}", phrases::capitalised(&voice.short_day(day.date)), parts.join(", "))
}
