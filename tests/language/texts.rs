//! Every text that the sources give to the tables: found in the tokens of the code and in the templates.

use proc_macro2::{Delimiter, Group, TokenStream, TokenTree};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// English texts with their plural, where they have one, and the file that they stand in.
pub(crate) type Texts = BTreeMap<String, (Option<String>, String)>;

/// The texts of all crates and templates below `src`.
pub(crate) fn texts(root: &Path) -> Texts {
    let mut texts = Texts::new();
    for path in files(&root.join("src")) {
        let place = path.strip_prefix(root).unwrap_or(&path).display().to_string();
        let text = fs::read_to_string(&path).unwrap_or_default();
        let mut found = Found { texts: &mut texts, place: &place };
        if path.extension().is_some_and(|own| own == "rs") {
            let tokens: TokenStream = text.parse().unwrap_or_else(|error| panic!("{place}: {error}"));
            found.code(tokens);
        } else {
            found.template(&text);
        }
    }
    texts.retain(|text, _| has_words(text));
    texts
}

/// Is there a word outside of the holes?
fn has_words(text: &str) -> bool {
    let outside = text.split('{').map(|part| part.split_once('}').map_or(part, |(_, rest)| rest));
    let letters = |part: &str| part.chars().any(char::is_alphabetic);
    let first = text.split('{').next().unwrap_or_default();
    letters(first) || outside.skip(1).any(letters)
}

/// Modules that are there for tests alone, beside folders of them.
const TESTS: [&str; 2] = ["tests.rs", "view/numbers.rs"];

/// Code and templates, in order.
fn files(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    let mut entries: Vec<PathBuf> =
        fs::read_dir(folder).into_iter().flatten().filter_map(|entry| Some(entry.ok()?.path())).collect();
    entries.sort();
    for path in entries {
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default();
        let template = path.parent().is_some_and(|parent| parent.ends_with("templates"));
        let kind = path.extension().and_then(|own| own.to_str()).unwrap_or_default();
        if path.is_dir() && !["tests", "words", "node_modules", "bind", "page"].contains(&name) {
            all.extend(files(&path));
        } else if (kind == "rs" && !TESTS.iter().any(|test| path.ends_with(test)))
            || (template && ["html", "md"].contains(&kind))
        {
            all.push(path);
        }
    }
    all
}

struct Found<'a> {
    texts: &'a mut Texts,
    place: &'a str,
}

impl Found<'_> {
    fn add(&mut self, one: String, many: Option<String>) {
        let known = self.texts.entry(one).or_insert_with(|| (None, self.place.to_owned()));
        if many.is_some() {
            known.0 = many;
        }
    }

    /// Goes through code, but for its tests.
    fn code(&mut self, tokens: TokenStream) {
        let all: Vec<TokenTree> = tokens.into_iter().collect();
        let mut at = 0;
        while at < all.len() {
            if is_test(&all[at..]) {
                // The attribute, then everything up to the body.
                at += 2;
                while at < all.len()
                    && !matches!(&all[at], TokenTree::Group(own) if own.delimiter() == Delimiter::Brace)
                {
                    at += 1;
                }
                at += 1;
                continue;
            }
            match (&all[at], all.get(at + 1), all.get(at + 2), all.get(at + 3), all.get(at + 4)) {
                (TokenTree::Ident(name), Some(TokenTree::Punct(bang)), Some(TokenTree::Group(group)), ..)
                    if bang.as_char() == '!' =>
                {
                    self.called(&name.to_string(), group);
                }
                (
                    TokenTree::Ident(kind),
                    Some(_),
                    Some(_),
                    Some(TokenTree::Ident(new)),
                    Some(TokenTree::Group(group)),
                ) if kind == "Line" && new == "new" => {
                    self.literals(group, 1);
                }
                _ => {}
            }
            match &all[at] {
                TokenTree::Group(group) => self.code(group.stream()),
                TokenTree::Literal(_) => self.heading(&all[at]),
                _ => {}
            }
            at += 1;
        }
    }

    /// A macro, if it is one of those that take texts.
    fn called(&mut self, name: &str, group: &Group) {
        match name {
            "say" | "word" | "mark" => self.literals(group, 1),
            "several" => {
                let texts: Vec<String> = arguments(group).iter().skip(1).take(2).filter_map(|own| text(own)).collect();
                if let [one, many] = texts.as_slice() {
                    self.add(one.clone(), Some(many.clone()));
                }
            }
            "words" if !self.place.contains("schema") => self.named(group.stream()),
            "choices" | "codes" | "lints" => self.after_commas(group.stream()),
            "ranged" | "whole" | "reading" => self.plain_words(group.stream()),
            _ => {}
        }
    }

    fn literals(&mut self, group: &Group, most: usize) {
        let texts: Vec<String> = arguments(group).iter().take(most).filter_map(|own| text(own)).collect();
        texts.into_iter().for_each(|text| self.add(text, None));
    }

    /// A list of words: `Gravel = "gravel"`. Formulas of needs are not shown.
    fn named(&mut self, tokens: TokenStream) {
        let all: Vec<TokenTree> = tokens.into_iter().collect();
        if all.iter().any(|own| matches!(own, TokenTree::Ident(name) if name == "NeedRule")) {
            return;
        }
        for (at, own) in all.iter().enumerate() {
            match own {
                TokenTree::Group(group) if group.delimiter() == Delimiter::Brace => self.named(group.stream()),
                TokenTree::Punct(own) if own.as_char() == '=' => {
                    let next = all.get(at + 1).into_iter().cloned().collect::<Vec<_>>();
                    text(&next).into_iter().for_each(|text| self.add(text, None));
                }
                _ => {}
            }
        }
    }

    /// Lists of words with what each means: `Road = "road", "sealed roads"`.
    fn after_commas(&mut self, tokens: TokenStream) {
        let all: Vec<TokenTree> = tokens.into_iter().collect();
        for pair in all.windows(2) {
            match pair {
                [TokenTree::Punct(comma), literal] if comma.as_char() == ',' => {
                    text(std::slice::from_ref(literal)).into_iter().for_each(|text| self.add(text, None));
                }
                [_, TokenTree::Group(group)] if group.delimiter() == Delimiter::Brace => {
                    self.after_commas(group.stream());
                }
                _ => {}
            }
        }
    }

    /// Names of quantities and what is wanted of numbers, but no examples of them.
    fn plain_words(&mut self, tokens: TokenStream) {
        let texts: Vec<String> = tokens.into_iter().filter_map(|token| text(&[token])).collect();
        let named = texts.into_iter().find(|text| !text.starts_with('`'));
        named.into_iter().for_each(|text| self.add(text, None));
    }

    /// The head of a column of numbers opens with `#`.
    fn heading(&mut self, literal: &TokenTree) {
        let place = ["report/view", "report/pages", "report/papers"];
        let text = text(std::slice::from_ref(literal)).unwrap_or_default();
        if let Some(head) = text.strip_prefix('#').filter(|head| head.starts_with(|c: char| c.is_alphabetic()))
            && place.iter().any(|own| self.place.contains(own))
        {
            self.add(head.to_owned(), None);
        }
    }

    /// `_("...")` and `_n(count, "...", "...")`.
    fn template(&mut self, text: &str) {
        for (at, _) in text.match_indices("_(") {
            let quoted = quoted(&text[at + 2..]);
            quoted.into_iter().for_each(|(text, _)| self.add(text, None));
        }
        for (at, _) in text.match_indices("_n(") {
            let Some((_, rest)) = text[at..].split_once(", ") else { continue };
            let Some((one, rest)) = quoted(rest) else { continue };
            let many = quoted(rest.trim_start_matches([',', ' ']));
            self.add(one, many.map(|(many, _)| many));
        }
    }
}

/// A text in single or double quotes at the beginning, and what follows it.
fn quoted(text: &str) -> Option<(String, &str)> {
    let quote = text.chars().next().filter(|c| ['"', '\''].contains(c))?;
    let (own, rest) = text[1..].split_once(quote)?;
    Some((own.to_owned(), rest))
}

/// Does a test begin here?
fn is_test(tokens: &[TokenTree]) -> bool {
    let [TokenTree::Punct(hash), TokenTree::Group(attribute), ..] = tokens else { return false };
    let inside = attribute.stream().to_string().replace(' ', "");
    hash.as_char() == '#' && (inside == "cfg(test)" || inside == "test")
}

/// What stands between the commas.
fn arguments(group: &Group) -> Vec<Vec<TokenTree>> {
    let mut all = vec![Vec::new()];
    for token in group.stream() {
        match &token {
            TokenTree::Punct(comma) if comma.as_char() == ',' => all.push(Vec::new()),
            _ => all.last_mut().into_iter().for_each(|own: &mut Vec<TokenTree>| own.push(token.clone())),
        }
    }
    all
}

/// The text of a lone literal.
fn text(tokens: &[TokenTree]) -> Option<String> {
    let [TokenTree::Literal(own)] = tokens else { return None };
    let literal: syn::Lit = syn::parse_str(&own.to_string()).ok()?;
    if let syn::Lit::Str(text) = literal { Some(text.value()) } else { None }
}
