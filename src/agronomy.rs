//! Pure models of a fig, its weather and its rust: numbers in, numbers out, each formula with
//! its source. They know no garden, no present moment and no words.
