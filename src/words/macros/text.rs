//! The macros read and written out.

use crate::pattern::{Hole, holes};
use proc_macro2::{Span, TokenStream};
use quote::quote;
use syn::parse::{Parse, ParseStream};
use syn::{Error, Expr, Ident, LitStr, Token};

/// Something that fills a hole.
struct Filling {
    name: String,
    value: Expr,
}

/// A text and what fills its holes.
pub(crate) struct Said {
    text: LitStr,
    fillings: Vec<Filling>,
}

/// A count, two texts and what fills their holes.
pub(crate) struct Several {
    count: Expr,
    one: LitStr,
    many: LitStr,
    fillings: Vec<Filling>,
}

/// `, name = value` and `, value` to the end.
fn fillings(input: ParseStream<'_>) -> syn::Result<Vec<Filling>> {
    let mut found: Vec<Filling> = Vec::new();
    while !input.is_empty() {
        input.parse::<Token![,]>()?;
        if input.is_empty() {
            break;
        }
        let named = input.peek(Ident) && input.peek2(Token![=]) && !input.peek2(Token![==]);
        let name = if named { input.parse::<Ident>()?.to_string() } else { found.len().to_string() };
        if named {
            input.parse::<Token![=]>()?;
        }
        found.push(Filling { name, value: input.parse()? });
    }
    Ok(found)
}

impl Parse for Said {
    fn parse(input: ParseStream<'_>) -> syn::Result<Self> {
        Ok(Self { text: input.parse()?, fillings: fillings(input)? })
    }
}

impl Parse for Several {
    fn parse(input: ParseStream<'_>) -> syn::Result<Self> {
        let count = input.parse()?;
        input.parse::<Token![,]>()?;
        let one = input.parse()?;
        input.parse::<Token![,]>()?;
        Ok(Self { count, one, many: input.parse()?, fillings: fillings(input)? })
    }
}

/// Holes of all the texts, each once, with the names that fill them.
fn all_holes(texts: &[&LitStr]) -> syn::Result<Vec<Hole>> {
    let mut all: Vec<Hole> = Vec::new();
    for text in texts {
        let mut next = 0;
        for mut hole in holes(&text.value()).map_err(|wrong| Error::new(text.span(), wrong))? {
            if hole.name.is_empty() {
                hole.name = next.to_string();
                next += 1;
            }
            match all.iter().find(|known| known.name == hole.name) {
                Some(known) if known.spec != hole.spec => {
                    return Err(Error::new(text.span(), format!("`{}` is formatted in two ways", hole.name)));
                }
                Some(_) => {}
                None => all.push(hole),
            }
        }
    }
    Ok(all)
}

/// The holes in code, and what they borrow.
#[derive(Default)]
struct Filled {
    borrowed: Vec<TokenStream>,
    holes: Vec<TokenStream>,
}

/// A name that the code around cannot see.
fn own(number: usize) -> Ident {
    Ident::new(&format!("hole{number}"), Span::mixed_site())
}

/// The value of a hole: an argument, or what has its name where the macro stands.
fn value(hole: &Hole, fillings: &[Filling], at: Span) -> syn::Result<TokenStream> {
    if let Some(filling) = fillings.iter().find(|filling| filling.name == hole.name) {
        let value = &filling.value;
        return Ok(quote!(#value));
    }
    if hole.name.starts_with(|c: char| c.is_ascii_digit()) {
        return Err(Error::new(at, format!("nothing fills `{}`", hole.name)));
    }
    let name = Ident::new(&hole.name, at);
    Ok(quote!(#name))
}

fn filled(holes: &[Hole], fillings: &[Filling], at: Span) -> syn::Result<Filled> {
    let used = |name: &String| holes.iter().any(|hole| hole.name == *name || hole.taken().contains(name));
    if let Some(idle) = fillings.iter().find(|filling| !used(&filling.name)) {
        return Err(Error::new_spanned(&idle.value, format!("`{}` fills no hole", idle.name)));
    }
    let mut filled = Filled::default();
    for (number, hole) in holes.iter().enumerate() {
        filled.borrowed.push(value(hole, fillings, at)?);
        let (own, name) = (own(number), &hole.name);
        let pattern = LitStr::new(&format!("{{{}}}", hole.spec), at);
        let taken = hole.taken().into_iter().filter_map(|name| {
            let value = &fillings.iter().find(|filling| filling.name == name)?.value;
            let name = Ident::new(&name, at);
            Some(quote!(, #name = #value))
        });
        let fixed = hole.spec.contains('.');
        filled.holes.push(quote! {
            ::fardel_words::Hole {
                name: #name,
                number: #fixed || ::fardel_words::is_float(#own),
                text: ::core::format_args!(#pattern, #own #(#taken)*),
            }
        });
    }
    Ok(filled)
}

impl Filled {
    /// A call with the holes as its last argument.
    fn call(&self, function: &TokenStream, first: &TokenStream) -> TokenStream {
        let Self { borrowed, holes } = self;
        if holes.is_empty() {
            return quote!(#function(#first, &[]));
        }
        let names = (0..holes.len()).map(own);
        quote! { match (#(&(#borrowed),)*) { (#(#names,)*) => #function(#first, &[#(#holes),*]) } }
    }
}

impl Said {
    /// The code that stands for the macro.
    pub(crate) fn expanded(self) -> syn::Result<TokenStream> {
        let text = &self.text;
        let filled = filled(&all_holes(&[text])?, &self.fillings, text.span())?;
        Ok(filled.call(&quote!(::fardel_words::said), &quote!(#text)))
    }
}

impl Several {
    /// The code that stands for the macro.
    pub(crate) fn expanded(self) -> syn::Result<TokenStream> {
        let (count, one, many) = (&self.count, &self.one, &self.many);
        let mut holes = all_holes(&[one, many])?;
        holes.retain(|hole| hole.name != "n");
        let filled = filled(&holes, &self.fillings, many.span())?;
        let first = quote!(::fardel_words::Count::from(#count), #one, #many);
        Ok(filled.call(&quote!(::fardel_words::several), &first))
    }
}
