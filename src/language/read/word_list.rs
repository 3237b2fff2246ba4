//! Short lists of words to hold a token against, fast enough to do so hundreds of times a message.

/// Words parted by single spaces. Most tokens are told from all of them by one bit.
#[derive(Clone, Copy, Debug)]
pub(super) struct WordList {
    words: &'static str,
    mask: u128,
}

impl WordList {
    pub(super) const fn of(words: &'static str) -> Self {
        let bytes = words.as_bytes();
        let mut mask = 0;
        let mut start = 0;
        let mut at = 0;
        while at <= bytes.len() {
            if at == bytes.len() || bytes[at] == b' ' {
                mask |= bit_between(bytes, start, at);
                start = at + 1;
            }
            at += 1;
        }
        Self { words, mask }
    }

    pub(super) fn has(&self, word: &str, bit: u128) -> bool {
        self.mask & bit != 0 && self.holds(word.as_bytes())
    }

    /// By length first: few of a list's words are as long as the one sought.
    fn holds(&self, word: &[u8]) -> bool {
        let list = self.words.as_bytes();
        let mut start = 0;
        while let Some(end) = Some(start + word.len()).filter(|end| *end <= list.len()) {
            let ends_here = end == list.len() || list[end] == b' ';
            if ends_here && list[start..end] == *word {
                // Two words of the list are none of it.
                return !word.is_empty() && !word.contains(&b' ');
            }
            match list[start..].iter().position(|byte| *byte == b' ') {
                Some(space) => start += space + 1,
                None => return false,
            }
        }
        false
    }
}

/// The bit a word has in a list's mask.
pub(super) const fn bit(word: &str) -> u128 {
    bit_between(word.as_bytes(), 0, word.len())
}

/// One of 128, by the FNV-1a hash of the bytes.
const fn bit_between(bytes: &[u8], start: usize, end: usize) -> u128 {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    let mut at = start;
    while at < end {
        hash ^= bytes[at] as u64;
        hash = hash.wrapping_mul(0x0100_0000_01b3);
        at += 1;
    }
    1 << ((hash >> 57) as u32)
}

/// A list of words, its bits worked out when the program is built.
macro_rules! words {
    ($words:literal) => {
        const { $crate::language::read::word_list::WordList::of($words) }
    };
}
pub(super) use words;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_has_its_words_and_no_parts_of_them() {
        const LIST: WordList = WordList::of("rain \" don't");
        for (word, want) in
            [("rain", true), ("\"", true), ("don't", true), ("rai", false), ("", false), ("rain \"", false)]
        {
            assert_eq!(LIST.has(word, bit(word)), want, "{word}");
        }
    }
}
