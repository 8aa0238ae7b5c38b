//! Names as lists of plain words: lower case, singular, figures apart from letters, one word for each meaning.

/// The words of a text, lower case and singular; figures and letters are parted: `18in` is `18`, `in`.
pub(crate) fn words(text: &str) -> Vec<String> {
    let text = text.replace(['"', '″', '”'], " in ").to_lowercase();
    let mut words: Vec<String> = Vec::new();
    let mut last = None;
    for c in text.chars() {
        let sort = if c.is_numeric() {
            Some(true)
        } else if c.is_alphabetic() {
            Some(false)
        } else {
            None
        };
        match (sort, last) {
            (None, _) => {}
            (Some(now), Some(before)) if now == before => {
                if let Some(word) = words.last_mut() {
                    word.push(c);
                }
            }
            (Some(_), _) => words.push(c.to_string()),
        }
        last = sort;
    }
    words.into_iter().map(singular).collect()
}

/// `levers` is `lever`. Words that only look like plurals lose their ending on both sides of a comparison.
fn singular(word: String) -> String {
    let keeps = word.len() <= 3 || word.ends_with("ss") || word.ends_with("us") || word.ends_with("is");
    if keeps || !word.ends_with('s') {
        return word;
    }
    if let Some(stem) = word.strip_suffix("ies") {
        return format!("{stem}y");
    }
    let hissing = ["xes", "ches", "shes", "sses"].iter().any(|ending| word.ends_with(ending));
    let end = if hissing { 2 } else { 1 };
    word[..word.len() - end].to_owned()
}

/// Phrases with the words that stand for them.
#[derive(Debug, Clone, Default)]
pub(crate) struct Synonyms {
    /// What may be written, and what it becomes; the longest first.
    phrases: Vec<(Vec<String>, Vec<String>)>,
}

impl Synonyms {
    /// From lines of phrases that mean the same; the first of a line stands for all.
    pub fn new(lines: &[Vec<String>]) -> Self {
        let mut phrases = Vec::new();
        for line in lines {
            let Some(first) = line.first().map(|first| words(first)) else { continue };
            phrases.extend(line.iter().map(|phrase| (words(phrase), first.clone())));
        }
        phrases.retain(|(from, _)| !from.is_empty());
        phrases.sort_by_key(|(from, _)| std::cmp::Reverse(from.len()));
        Self { phrases }
    }

    /// The words of a text, each phrase replaced by the one that stands for it.
    pub fn plain(&self, text: &str) -> Vec<String> {
        self.replaced(text, false)
    }

    /// The same for a text that was typed in haste: phrases may have slips in their long words.
    pub fn forgiving(&self, text: &str) -> Vec<String> {
        self.replaced(text, true)
    }

    fn replaced(&self, text: &str, slips: bool) -> Vec<String> {
        let words = words(text);
        let (mut plain, mut at) = (Vec::new(), 0);
        while at < words.len() {
            let rest = &words[at..];
            let like = |from: &[String]| {
                from.len() <= rest.len() && from.iter().zip(rest).all(|(a, b)| likeness(a, b) >= SLIP)
            };
            let exact = self.phrases.iter().find(|(from, _)| rest.starts_with(from));
            let phrase = exact.or_else(|| self.phrases.iter().find(|(from, _)| slips && from.len() > 1 && like(from)));
            if let Some((from, to)) = phrase {
                plain.extend(to.iter().cloned());
                at += from.len();
            } else {
                plain.push(words[at].clone());
                at += 1;
            }
        }
        plain
    }
}

/// How alike two words are, from 0 to 1. Figures are alike only if they are the same; short words too.
pub(crate) fn likeness(a: &str, b: &str) -> f64 {
    if a == b {
        return 1.0;
    }
    let figures = |word: &str| word.starts_with(|c: char| c.is_numeric());
    let shorter = a.chars().count().min(b.chars().count());
    if shorter == 3 && !figures(a) && a.len() == b.len() && swapped(a, b) {
        return LEAST_LIKENESS;
    }
    if figures(a) || figures(b) || shorter < 4 {
        return 0.0;
    }
    let like = strsim::normalized_damerau_levenshtein(a, b);
    if like >= LEAST_LIKENESS { like } else { 0.0 }
}

/// The same letters with two neighbours the wrong way round?
fn swapped(a: &str, b: &str) -> bool {
    let sorted = |word: &str| {
        let mut letters: Vec<char> = word.chars().collect();
        letters.sort_unstable();
        letters
    };
    sorted(a) == sorted(b) && strsim::osa_distance(a, b) == 1
}

/// Words of a phrase have to be this much alike: one slip in five letters.
const SLIP: f64 = 0.8;

/// Words less alike than this are different words: one slip in four letters, two in seven.
const LEAST_LIKENESS: f64 = 0.7;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_plain() {
        assert_eq!(words("Tyre-Levers, 280mm"), ["tyre", "lever", "280", "mm"]);
        assert_eq!(words("18\" tubes"), ["18", "in", "tube"]);
        assert_eq!(words("batteries, boxes, gas, glass"), ["battery", "box", "gas", "glass"]);
        assert!(words(" -- ").is_empty());
    }

    #[test]
    fn synonyms_become_the_first_of_their_line() {
        let lines = [vec!["tyre lever".to_owned(), "tire iron".to_owned()], vec!["tyre".to_owned(), "tire".to_owned()]];
        let synonyms = Synonyms::new(&lines);
        assert_eq!(synonyms.plain("2 Tire irons"), ["2", "tyre", "lever"]);
        assert_eq!(synonyms.plain("tire"), ["tyre"]);
    }

    #[test]
    fn slips_are_forgiven_in_long_words_only() {
        assert!(likeness("lever", "levr") > 0.7);
        assert!(likeness("spanner", "spaner") > 0.8);
        assert!(likeness("kye", "key") > 0.6);
        assert!(likeness("10", "12") < 0.1);
        assert!(likeness("cap", "map") < 0.1);
        assert!(likeness("tent", "tube") < 0.1);
    }
}
