//! `say!` and `several!`: a text with holes, looked up in the table of the language and filled as `format!` fills it.

mod pattern;
mod text;

use proc_macro::TokenStream;
use syn::parse_macro_input;

/// A text in the language of the rider: `say!("{left} of {all} saved", all = hours)`. Holes are written as for `format!`.
#[proc_macro]
pub fn say(input: TokenStream) -> TokenStream {
    let said = parse_macro_input!(input as text::Said);
    said.expanded().unwrap_or_else(syn::Error::into_compile_error).into()
}

/// A text for a count: `several!(nights, "{n} night", "{n} nights")`; the hole `n` is the count.
#[proc_macro]
pub fn several(input: TokenStream) -> TokenStream {
    let several = parse_macro_input!(input as text::Several);
    several.expanded().unwrap_or_else(syn::Error::into_compile_error).into()
}
