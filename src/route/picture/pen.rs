//! Elements of a drawing, with numbers to a tenth.

/// Each colour by day, and what it becomes on a dark screen. Programs that know no style keep to the day.
const COLOURS: [(&str, &str); 15] = [
    ("#fff", "#121618"),
    ("#1a1a1a", "#ece9e1"),
    ("#f6f5f1", "#1f272b"),
    ("#d9d6cd", "#3c464a"),
    ("#8a867a", "#8b938f"),
    ("#dcd8cc", "#3a454c"),
    ("#0067a5", "#5db0ea"),
    ("#c25200", "#f09a4a"),
    ("#a3006b", "#ee8ccb"),
    ("#6b6b6b", "#a5a9ab"),
    ("#00756b", "#4fc4b5"),
    ("#8a1c00", "#ff9d85"),
    ("#4b2e83", "#c3a8f5"),
    ("#005a9c", "#7fc0f5"),
    ("#5a4a00", "#d8c46a"),
];

fn dark() -> String {
    let rule = |(day, dark): &(&str, &str)| {
        format!("[fill=\"{day}\"] {{ fill: {dark}; }} [stroke=\"{day}\"] {{ stroke: {dark}; }}\n")
    };
    let rules: String = COLOURS.iter().map(rule).collect();
    format!("<style>\n@media screen and (prefers-color-scheme: dark) {{\n{rules}}}\n</style>\n")
}

/// What has been drawn so far.
#[derive(Debug, Clone, Default)]
pub(super) struct Pen {
    body: String,
}

/// Somebody's words as text of XML, which knows no control characters.
fn escaped(text: &str) -> String {
    let plain: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    quick_xml::escape::escape(plain.as_str()).into_owned()
}

fn points(points: &[(f64, f64)]) -> String {
    let points: Vec<String> = points.iter().map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
    points.join(" ")
}

impl Pen {
    /// A text with its base line at a place; `anchor` is start, middle or end.
    pub(super) fn text(&mut self, at: (f64, f64), size: f64, anchor: &str, weight: &str, text: &str) {
        let (x, y) = at;
        let text = escaped(text);
        // A rim of the ground keeps letters legible on lines.
        self.body += &format!(
            "<text x=\"{x:.1}\" y=\"{y:.1}\" font-size=\"{size:.0}\" text-anchor=\"{anchor}\" font-weight=\"{weight}\" \
             paint-order=\"stroke\" stroke=\"#fff\" stroke-width=\"3\" stroke-linejoin=\"round\">{text}</text>\n"
        );
    }

    /// How much has been drawn, to come back to.
    pub(super) fn drawn(&self) -> usize {
        self.body.len()
    }

    /// A line below all that was drawn since.
    pub(super) fn line_below(&mut self, drawn: usize, line: &[(f64, f64)], look: (&str, &str, f64)) {
        let above = self.body.split_off(drawn);
        self.line(line, look);
        self.body += &above;
    }

    /// A line: colour, pattern, width.
    pub(super) fn line(&mut self, line: &[(f64, f64)], (colour, pattern, width): (&str, &str, f64)) {
        let dash = if pattern.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{pattern}\"") };
        self.body += &format!(
            "<polyline points=\"{}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width}\"{dash} stroke-linejoin=\"round\"/>\n",
            points(line)
        );
    }

    /// An area without a rim.
    pub(super) fn area(&mut self, rim: &[(f64, f64)], colour: &str) {
        self.body += &format!("<polygon points=\"{}\" fill=\"{colour}\"/>\n", points(rim));
    }

    /// The letter of a place on a plate of its colour, around its middle.
    pub(super) fn sign(&mut self, (x, y): (f64, f64), (letter, colour): (&str, &str)) {
        self.body += &format!(
            "<rect x=\"{:.1}\" y=\"{:.1}\" width=\"18\" height=\"18\" rx=\"3\" fill=\"#fff\" stroke=\"{colour}\" stroke-width=\"1.5\"/>\
             <text x=\"{x:.1}\" y=\"{:.1}\" font-size=\"13\" text-anchor=\"middle\" font-weight=\"bold\" fill=\"{colour}\">{}</text>\n",
            x - 9.0,
            y - 9.0,
            y + 4.8,
            escaped(letter),
        );
    }

    /// A number in a disc: the end of a day.
    pub(super) fn disc(&mut self, (x, y): (f64, f64), text: &str) {
        self.body += &format!(
            "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"11\" fill=\"#1a1a1a\" stroke=\"#fff\" stroke-width=\"2\"/>\
             <text x=\"{x:.1}\" y=\"{:.1}\" font-size=\"13\" text-anchor=\"middle\" font-weight=\"bold\" fill=\"#fff\">{}</text>\n",
            y + 4.8,
            escaped(text),
        );
    }

    /// The whole file.
    pub(super) fn finish(self, width: f64, height: f64, title: &str) -> String {
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width:.0} {height:.0}\" width=\"{width:.0}\" \
             height=\"{height:.0}\" role=\"img\" font-family=\"system-ui, sans-serif\" fill=\"#1a1a1a\">\n<title>{}</title>\n{}\
             <rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n{}</svg>\n",
            escaped(title),
            dark(),
            self.body
        )
    }
}
