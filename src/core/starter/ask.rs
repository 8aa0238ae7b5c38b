//! Short questions on a terminal, each with an answer for whoever just presses Enter.

use crate::diagnostic::{did_you_mean, nearest};
use fardel_words::{say, word};
use std::io::{self, BufRead, Write};

/// Somebody to ask.
pub struct Interview<R, W> {
    answers: R,
    questions: W,
    /// No more answers will come: every further question has its default.
    over: bool,
}

/// An answer that can be given.
#[derive(Debug, Clone, Copy)]
pub struct Offer<'a> {
    /// The word for it.
    pub word: &'a str,
    /// What it means.
    pub means: &'a str,
}

impl<R: BufRead, W: Write> Interview<R, W> {
    /// Asks on `questions` and reads from `answers`.
    pub const fn new(answers: R, questions: W) -> Self {
        Self { answers, questions, over: false }
    }

    /// One of several, by number or word; the default on Enter.
    ///
    /// # Errors
    /// [`io::Error`] of the terminal.
    pub fn choose(&mut self, question: &str, offers: &[Offer<'_>], default: usize) -> io::Result<usize> {
        self.offer(question, offers, offers[default].word)?;
        loop {
            let Some(answer) = self.line()? else { return Ok(default) };
            match found(&answer, offers) {
                Ok(at) => return Ok(at),
                Err(refusal) => self.again(&refusal)?,
            }
        }
    }

    /// Any number of them, separated by commas or spaces; all on Enter, `none` for none.
    ///
    /// # Errors
    /// [`io::Error`] of the terminal.
    pub fn choose_some(&mut self, question: &str, offers: &[Offer<'_>]) -> io::Result<Vec<usize>> {
        self.offer(question, offers, word!("all of them, or `none`"))?;
        let all = || (0..offers.len()).collect();
        loop {
            let Some(answer) = self.line()? else { return Ok(all()) };
            if answer.eq_ignore_ascii_case("none") {
                return Ok(Vec::new());
            }
            let words = answer.split([',', ' ']).filter(|word| !word.is_empty());
            let chosen: Result<Vec<usize>, String> = words.map(|word| found(word, offers)).collect();
            match chosen {
                Ok(mut chosen) => {
                    chosen.sort_unstable();
                    chosen.dedup();
                    return Ok(chosen);
                }
                Err(refusal) => self.again(&refusal)?,
            }
        }
    }

    /// Something that `read` understands; the default on Enter.
    ///
    /// # Errors
    /// [`io::Error`] of the terminal.
    pub fn read<T>(
        &mut self,
        question: &str,
        default: &str,
        read: impl Fn(&str) -> Result<T, String>,
    ) -> io::Result<T> {
        write!(self.questions, "{question} [{default}] ")?;
        self.questions.flush()?;
        loop {
            let answer = self.line()?.unwrap_or_else(|| default.to_owned());
            match read(&answer) {
                Ok(value) => return Ok(value),
                Err(expected) => self.again(&say!("`{answer}`: {expected} is expected"))?,
            }
        }
    }

    fn offer(&mut self, question: &str, offers: &[Offer<'_>], default: &str) -> io::Result<()> {
        writeln!(self.questions, "{question}")?;
        let widest = offers.iter().map(|offer| offer.word.chars().count()).max().unwrap_or(0);
        for (at, Offer { word, means }) in offers.iter().enumerate() {
            let gap = " ".repeat(widest - word.chars().count() + 2);
            writeln!(self.questions, "  {:>2}  {word}{gap}{means}", at + 1)?;
        }
        write!(self.questions, "{}", say!("number or word [{default}] "))?;
        self.questions.flush()
    }

    fn again(&mut self, refusal: &str) -> io::Result<()> {
        write!(self.questions, "{}", say!("  {refusal}. Again: "))?;
        self.questions.flush()
    }

    /// What was typed; nothing for Enter alone, and at the end of the input.
    fn line(&mut self) -> io::Result<Option<String>> {
        if self.over {
            writeln!(self.questions)?;
            return Ok(None);
        }
        let mut line = String::new();
        if self.answers.read_line(&mut line)? == 0 {
            self.over = true;
            writeln!(self.questions)?;
        }
        let line = line.trim();
        Ok((!line.is_empty()).then(|| line.to_owned()))
    }
}

/// The offer that an answer means, or what is wrong with it.
fn found(answer: &str, offers: &[Offer<'_>]) -> Result<usize, String> {
    if let Some(at) = offers.iter().position(|offer| offer.word.eq_ignore_ascii_case(answer)) {
        return Ok(at);
    }
    if let Ok(number) = answer.parse::<usize>() {
        let at = number.checked_sub(1).filter(|at| *at < offers.len());
        return at.ok_or_else(|| say!("{number}: a number from 1 to {} is expected", offers.len()));
    }
    let near = nearest(&answer.to_lowercase(), offers.iter().map(|offer| offer.word));
    let near = did_you_mean(near);
    Err(say!("`{answer}` is none of these{near}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const OFFERS: [Offer<'_>; 3] = [
        Offer { word: "road", means: "sealed" },
        Offer { word: "gravel", means: "graded" },
        Offer { word: "rough", means: "rocks" },
    ];

    fn asked<T>(typed: &str, ask: impl Fn(&mut Interview<&[u8], &mut Vec<u8>>) -> io::Result<T>) -> (T, String) {
        let mut shown = Vec::new();
        let answer = ask(&mut Interview::new(typed.as_bytes(), &mut shown)).expect("memory never fails");
        (answer, String::from_utf8(shown).expect("text"))
    }

    #[test]
    fn enter_and_the_end_of_input_take_the_default() {
        for typed in ["\n", ""] {
            assert_eq!(asked(typed, |i| i.choose("How rough?", &OFFERS, 1)).0, 1);
            assert_eq!(asked(typed, |i| i.choose_some("Owned?", &OFFERS)).0, [0, 1, 2]);
            assert_eq!(asked(typed, |i| i.read("Days?", "3", |t| t.parse::<u32>().map_err(|e| e.to_string()))).0, 3);
        }
    }

    #[test]
    fn numbers_and_words_are_understood_and_slips_asked_again() {
        assert_eq!(asked("3\n", |i| i.choose("How rough?", &OFFERS, 1)).0, 2);
        assert_eq!(asked("ROAD\n", |i| i.choose("How rough?", &OFFERS, 1)).0, 0);
        let (answer, shown) = asked("gravle\n9\n2\n", |i| i.choose("How rough?", &OFFERS, 0));
        assert_eq!(answer, 1);
        assert!(shown.contains("did you mean `gravel`?"), "{shown}");
        assert!(shown.contains("a number from 1 to 3 is expected"), "{shown}");
    }

    #[test]
    fn several_are_chosen_once_each_or_none() {
        assert_eq!(asked("3, road 3\n", |i| i.choose_some("Owned?", &OFFERS)).0, [0, 2]);
        assert!(asked("none\n", |i| i.choose_some("Owned?", &OFFERS)).0.is_empty());
    }
}
