//! Short lists of words to hold a token against, fast enough to do so hundreds of times a message.

/// Words parted by single spaces. Most tokens are told from all of them by one bit, nearly all others by their hash.
#[derive(Clone, Copy, Debug)]
pub(super) struct WordList {
    words: &'static str,
    hashes: &'static [u64],
    /// Where each word begins.
    starts: &'static [u16],
    mask: u128,
}

impl WordList {
    pub(super) const fn of(words: &'static str, hashes: &'static [u64], starts: &'static [u16]) -> Self {
        let mut mask = 0;
        let mut at = 0;
        while at < hashes.len() {
            mask |= bit(hashes[at]);
            at += 1;
        }
        Self { words, hashes, starts, mask }
    }

    pub(super) fn has(&self, word: &str, hash: u64) -> bool {
        if self.mask & bit(hash) == 0 {
            return false;
        }
        let Some(at) = self.hashes.iter().position(|own| *own == hash) else { return false };
        let own = self.starts.get(at).and_then(|start| self.words.get(usize::from(*start)..));
        // The hash has all but told; two words of one hash would be told here.
        own.and_then(|own| own.strip_prefix(word))
            .is_some_and(|rest| rest.is_empty() || rest.starts_with(' '))
            && !word.contains(' ')
    }
}

/// The hash a word is looked for by.
pub(super) const fn hash(word: &str) -> u64 {
    hash_between(word.as_bytes(), 0, word.len())
}

/// How many words stand in a list.
pub(super) const fn count(words: &str) -> usize {
    let bytes = words.as_bytes();
    let mut count = 1;
    let mut at = 0;
    while at < bytes.len() {
        if bytes[at] == b' ' {
            count += 1;
        }
        at += 1;
    }
    count
}

/// The hashes of the words of a list, in its order.
pub(super) const fn hashes<const COUNT: usize>(words: &str) -> [u64; COUNT] {
    let bytes = words.as_bytes();
    let mut hashes = [0; COUNT];
    let (mut start, mut at, mut word) = (0, 0, 0);
    while at <= bytes.len() {
        if at == bytes.len() || bytes[at] == b' ' {
            hashes[word] = hash_between(bytes, start, at);
            word += 1;
            start = at + 1;
        }
        at += 1;
    }
    hashes
}

/// Where the words of a list begin, in its order.
#[allow(
    clippy::cast_possible_truncation,
    reason = "no list is longer than 65,535 bytes; a longer one fails to build"
)]
pub(super) const fn starts<const COUNT: usize>(words: &str) -> [u16; COUNT] {
    let bytes = words.as_bytes();
    assert!(bytes.len() <= u16::MAX as usize);
    let mut starts = [0; COUNT];
    let (mut at, mut word) = (0, 1);
    while at < bytes.len() {
        if bytes[at] == b' ' {
            starts[word] = at as u16 + 1;
            word += 1;
        }
        at += 1;
    }
    starts
}

/// One of 128.
const fn bit(hash: u64) -> u128 {
    1 << ((hash >> 57) as u32)
}

/// FNV-1a.
const fn hash_between(bytes: &[u8], start: usize, end: usize) -> u64 {
    let mut hash: u64 = 0xcbf2_9ce4_8422_2325;
    let mut at = start;
    while at < end {
        hash ^= bytes[at] as u64;
        hash = hash.wrapping_mul(0x0100_0000_01b3);
        at += 1;
    }
    hash
}

/// A list of words, its hashes worked out when the program is built.
macro_rules! words {
    ($words:literal) => {
        const {
            const HASHES: [u64; $crate::language::read::word_list::count($words)] =
                $crate::language::read::word_list::hashes($words);
            const STARTS: [u16; $crate::language::read::word_list::count($words)] =
                $crate::language::read::word_list::starts($words);
            $crate::language::read::word_list::WordList::of($words, &HASHES, &STARTS)
        }
    };
}
pub(super) use words;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_has_its_words_and_no_parts_of_them() {
        const LIST: WordList = words!("rain \" don't");
        for (word, want) in
            [("rain", true), ("\"", true), ("don't", true), ("rai", false), ("", false), ("rain \"", false)]
        {
            assert_eq!(LIST.has(word, hash(word)), want, "{word}");
        }
    }
}
