//! Numbers and choices out of bytes. Where the bytes end, the least and the
//! first.

use arbitrary::Unstructured;

/// Numbers no range has, or few.
const HOSTILE: [f64; 8] = [
    f64::NAN,
    f64::INFINITY,
    f64::NEG_INFINITY,
    0.0,
    -1.0,
    5e-324,
    1e-300,
    1e308,
];

/// Bytes to draw from.
pub(crate) struct Draw<'a>(Unstructured<'a>);

impl<'a> Draw<'a> {
    pub(crate) fn new(data: &'a [u8]) -> Self {
        Self(Unstructured::new(data))
    }

    fn raw(&mut self) -> u16 {
        self.0.arbitrary().unwrap_or(0)
    }

    /// One of a few, evenly.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        let byte: u8 = self.0.arbitrary().unwrap_or(0);
        usize::from(byte) % count
    }

    pub(crate) fn yes(&mut self) -> bool {
        self.below(2) == 1
    }

    /// One of these.
    pub(crate) fn of<T: Copy>(&mut self, these: &[T]) -> T {
        these[self.below(these.len())]
    }

    /// A share of a range, both ends in it; now and then something hostile.
    fn share(&mut self) -> Result<f64, f64> {
        const LAST: u16 = u16::MAX - 8;
        let raw = self.raw();
        match raw.checked_sub(LAST + 1) {
            Some(hostile) => Err(HOSTILE[usize::from(hostile)]),
            None => Ok(f64::from(raw) / f64::from(LAST)),
        }
    }

    /// A number from 0 to 1, never hostile.
    pub(crate) fn plain(&mut self) -> f64 {
        f64::from(self.raw()) / f64::from(u16::MAX)
    }

    /// A number of a range, evenly.
    pub(crate) fn number(&mut self, least: f64, most: f64) -> f64 {
        match self.share() {
            Ok(share) if share >= 1.0 => most,
            Ok(share) => least + share * (most - least),
            Err(hostile) => hostile,
        }
    }

    /// A number of a range of sizes.
    pub(crate) fn size(&mut self, least: f64, most: f64) -> f64 {
        match self.share() {
            Ok(share) if share <= 0.0 => least,
            Ok(share) if share >= 1.0 => most,
            Ok(share) => (least * (most / least).powf(share)).clamp(least, most),
            Err(hostile) => hostile,
        }
    }
}
