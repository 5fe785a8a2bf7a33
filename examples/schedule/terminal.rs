//! Text for a terminal: what a job file says may hold characters that move the
//! cursor, clear the screen or turn the direction of writing.

/// Is the character one that a terminal acts on rather than shows?
fn acts(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{61c}'
                | '\u{200e}'
                | '\u{200f}'
                | '\u{2028}'..='\u{202e}'
                | '\u{2066}'..='\u{2069}'
                | '\u{feff}'
        )
}

/// A name or title on one line, every such character as its number: `\u{1b}`.
pub(crate) fn title(text: &str) -> String {
    escaped(text, false)
}

/// Lines of text, every such character but the ends of lines as its number.
pub(crate) fn lines(text: &str) -> String {
    escaped(text, true)
}

fn escaped(text: &str, newlines: bool) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        if acts(c) && !(newlines && c == '\n') {
            out.extend(c.escape_unicode());
        } else {
            out.push(c);
        }
    }
    out
}
