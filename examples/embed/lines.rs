//! Lines of a stream, each held whole up to a limit and cut off beyond it.

use std::io::{self, BufRead};

/// The longest line that is read.
pub(crate) const LONGEST: usize = 1 << 20;

/// A line.
#[derive(Debug, PartialEq)]
pub(crate) enum Line {
    /// All of it, without its end.
    Whole(Vec<u8>),
    /// It was longer than [`LONGEST`]; the rest of it was passed over.
    TooLong,
}

impl Line {
    /// How much it holds.
    pub(crate) const fn len(&self) -> usize {
        match self {
            Self::Whole(line) => line.len(),
            Self::TooLong => 0,
        }
    }
}

/// The lines of a stream, blank ones passed over.
pub(crate) struct Lines<R> {
    stream: R,
}

impl<R: BufRead> Lines<R> {
    pub(crate) const fn new(stream: R) -> Self {
        Self { stream }
    }

    /// The next line, blank or not.
    fn any(&mut self) -> io::Result<Option<Line>> {
        let mut line = Vec::new();
        let mut too_long = false;
        loop {
            let available = match self.stream.fill_buf() {
                Ok(available) => available,
                Err(why) if why.kind() == io::ErrorKind::Interrupted => continue,
                Err(why) => return Err(why),
            };
            if available.is_empty() {
                let nothing = line.is_empty() && !too_long;
                return Ok((!nothing).then(|| whole(line, too_long)));
            }
            let end = available.iter().position(|byte| *byte == b'\n');
            let part = &available[..end.unwrap_or(available.len())];
            if line.len() + part.len() > LONGEST {
                too_long = true;
                line = Vec::new();
            }
            if !too_long {
                line.extend_from_slice(part);
            }
            let used = part.len() + usize::from(end.is_some());
            self.stream.consume(used);
            if end.is_some() {
                return Ok(Some(whole(line, too_long)));
            }
        }
    }
}

fn whole(line: Vec<u8>, too_long: bool) -> Line {
    if too_long {
        Line::TooLong
    } else {
        Line::Whole(line)
    }
}

impl<R: BufRead> Iterator for Lines<R> {
    type Item = io::Result<Line>;

    fn next(&mut self) -> Option<Self::Item> {
        loop {
            match self.any() {
                Ok(Some(Line::Whole(line))) if line.iter().all(u8::is_ascii_whitespace) => {}
                Ok(Some(line)) => return Some(Ok(line)),
                Ok(None) => return None,
                Err(why) => return Some(Err(why)),
            }
        }
    }
}
