//! Learns what each mark of a message tells of its kind from all tables, and writes the weights the reader carries.
//!
//! A multinomial logistic regression (Bishop, *Pattern Recognition and Machine Learning*, 2006, section 4.3.4), fitted
//! by stochastic gradient steps that grow shorter, with small weights drawn to nought after each round (Langford, Li and
//! Zhang, *Journal of Machine Learning Research* 10, 2009). Rows are taken in a fixed order, so the same tables give the
//! same weights.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fmt::Write as _;

/// One message: its marks, and what it is about.
pub(crate) struct Lesson {
    pub(crate) marks: BTreeSet<String>,
    pub(crate) kind: String,
}

/// A kind of which fewer messages are known is not learnt.
const FEWEST_OF_A_KIND: usize = 6;
/// A mark met in fewer messages tells nothing.
const FEWEST_OF_A_MARK: usize = 3;
const ROUNDS: usize = 14;
const STEP: f32 = 12.0;
/// How much of each weight is given up after a round, so that none grows on a few rows alone.
const DRAWN: f32 = 0.06;
/// Weights smaller than this are left out.
const SMALLEST: f32 = 0.5;

/// What the writers of a table wanted where it is still read otherwise: the remarks at its end.
pub(crate) fn wanted(table: &str) -> HashMap<&str, &str> {
    fn remark(line: &str) -> Option<(&str, &str)> {
        let (said, want) = line.strip_prefix("#   ")?.split_once("   wanted: ")?;
        let want = want
            .split_once("   read: ")
            .or_else(|| want.split_once("   got: "))
            .map_or(want, |(want, _)| want);
        Some((said, want))
    }
    table.lines().filter_map(remark).collect()
}

/// The kind a reading is of, as short as it is told by the words alone.
pub(crate) fn kind(reading: &str) -> String {
    let first = reading.split(" | ").next().unwrap_or_default();
    // "Ask together copper + neem" is one question.
    let parts: BTreeSet<String> = match first.strip_prefix("ask together ") {
        Some(pair) if pair.matches(" + ").count() == 1 => BTreeSet::from([String::from("ask together")]),
        _ => first.split(" + ").map(part_kind).collect(),
    };
    let told: Vec<&String> =
        parts.iter().filter(|kind| !matches!(kind.as_str(), "aside" | "greet")).collect();
    match (told.as_slice(), parts.len()) {
        ([only], _) => (*only).clone(),
        ([], 1) => parts.into_iter().next().unwrap_or_default(),
        ([], _) => String::from("aside"),
        _ => String::from("several"),
    }
}

fn part_kind(part: &str) -> String {
    let words: Vec<&str> = part.trim().split(' ').collect();
    let second = words.get(1).copied().unwrap_or_default();
    let (share, ground) = (second.contains(['%', '/']) || second == "class", part.contains(" in_ground"));
    match words[0] {
        "aside" | "nothing" => String::from("aside"),
        "scouted" if share => String::from("scouted share"),
        "set" if second == "tree" && ground => String::from("set tree ground"),
        "set" if matches!(second, "units" | "listening" | "quiet" | "remove") => {
            words[..3.min(words.len())].join(" ")
        }
        "correct" if matches!(second, "level" | "stage" | "moisture") => {
            words[..3.min(words.len())].join(" ")
        }
        "ask" | "set" | "correct" | "scouted" | "stage" | "moisture" | "moved" => {
            format!("{} {second}", words[0])
        }
        first => first.to_owned(),
    }
}

/// The weights of all kinds, as `weights.txt` has them.
pub(crate) fn learn(lessons: &[Lesson]) -> String {
    let mut of_kind: BTreeMap<&str, usize> = BTreeMap::new();
    let mut of_mark: BTreeMap<&str, usize> = BTreeMap::new();
    for lesson in lessons {
        *of_kind.entry(&lesson.kind).or_default() += 1;
        for mark in &lesson.marks {
            *of_mark.entry(mark).or_default() += 1;
        }
    }
    let kinds: Vec<&str> =
        of_kind.iter().filter(|(_, count)| **count >= FEWEST_OF_A_KIND).map(|(kind, _)| *kind).collect();
    let marks: Vec<&str> =
        of_mark.iter().filter(|(_, count)| **count >= FEWEST_OF_A_MARK).map(|(mark, _)| *mark).collect();
    let place: BTreeMap<&str, usize> = marks.iter().enumerate().map(|(at, mark)| (*mark, at)).collect();
    let rows: Vec<(Vec<usize>, f32, usize)> = lessons
        .iter()
        .filter_map(|lesson| {
            let kind = kinds.binary_search(&lesson.kind.as_str()).ok()?;
            let known = lesson.marks.iter().filter_map(|mark| place.get(mark.as_str()).copied()).collect();
            #[allow(clippy::cast_precision_loss, reason = "a message has few marks")]
            let length = (lesson.marks.len() as f32).sqrt().max(1.0);
            Some((known, 1.0 / length, kind))
        })
        .collect();
    let mut model = Model::new(marks.len(), kinds.len());
    let mut order: Vec<usize> = (0..rows.len()).collect();
    let mut state: u64 = 0x5EED_F165;
    for round in 0..ROUNDS {
        for at in (1..order.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            order.swap(at, usize::try_from(state >> 33).unwrap_or(0) % (at + 1));
        }
        let mut right = 0;
        #[allow(clippy::cast_precision_loss, reason = "there are few rounds")]
        let step = STEP / (1.0 + 0.4 * round as f32);
        for row in &order {
            let (marks, each, kind) = &rows[*row];
            right += usize::from(model.step(marks, *each, *kind, step));
        }
        model.draw(DRAWN);
        println!("round {round}: {right} of {} right", rows.len());
    }
    model.written(&kinds, &marks)
}

struct Model {
    kinds: usize,
    weights: Vec<f32>,
    begin: Vec<f32>,
}

impl Model {
    fn new(marks: usize, kinds: usize) -> Self {
        Self { kinds, weights: vec![0.0; marks * kinds], begin: vec![0.0; kinds] }
    }

    /// One row seen, and whether it was guessed right before.
    fn step(&mut self, marks: &[usize], each: f32, kind: usize, step: f32) -> bool {
        const SLIGHT: f32 = 0.005;
        let kinds = self.kinds;
        let mut scores = self.begin.clone();
        for mark in marks {
            let weights = &self.weights[mark * kinds..(mark + 1) * kinds];
            scores.iter_mut().zip(weights).for_each(|(score, weight)| *score += weight * each);
        }
        let most = scores.iter().copied().fold(f32::MIN, f32::max);
        let right = scores[kind] >= most;
        scores.iter_mut().for_each(|score| *score = (*score - most).exp());
        let total: f32 = scores.iter().sum();
        scores.iter_mut().for_each(|score| *score /= total);
        scores[kind] -= 1.0;
        for mark in marks {
            let from = mark * kinds;
            for (at, off) in scores.iter().enumerate().filter(|(_, off)| off.abs() > SLIGHT) {
                self.weights[from + at] -= step * off * each;
            }
        }
        self.begin.iter_mut().zip(&scores).for_each(|(begin, off)| *begin -= 0.01 * step * off);
        right
    }

    /// Draws every weight to nought by so much, and no farther.
    fn draw(&mut self, by: f32) {
        self.weights.iter_mut().for_each(|weight| *weight = weight.signum() * (weight.abs() - by).max(0.0));
    }

    fn written(&self, kinds: &[&str], marks: &[&str]) -> String {
        #[allow(clippy::cast_possible_truncation, reason = "weights are small")]
        let hundredths = |weight: f32| (weight * 100.0).round() as i32;
        let begin: Vec<String> = self.begin.iter().map(|weight| hundredths(*weight).to_string()).collect();
        let mut text = format!("{}\n{}\n", kinds.join("\t"), begin.join("\t"));
        for (at, mark) in marks.iter().enumerate() {
            let weights = &self.weights[at * self.kinds..(at + 1) * self.kinds];
            let told: Vec<String> = weights
                .iter()
                .enumerate()
                .filter(|(_, weight)| weight.abs() >= SMALLEST)
                .map(|(kind, weight)| format!("{kind}:{}", hundredths(*weight)))
                .collect();
            if !told.is_empty() {
                let _ = writeln!(text, "{mark}\t{}", told.join(" "));
            }
        }
        text
    }
}
