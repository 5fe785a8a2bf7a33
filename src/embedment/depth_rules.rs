//! Depth rules of fence standards and of common practice, as labelled
//! comparisons. None of them knows the wind or the soil.

use crate::error::{Error, size_within, within};
use crate::source::{self, Citation};
use crate::units::{Length, Measurable, ft, inch};

/// A rule that gives a depth from the height of a fence alone.
///
/// The fence trade's "one third" is told two ways that differ by half again;
/// they are two rules here.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum DepthRule {
    /// A two-foot hole, whatever the fence.
    TwoFeet,
    /// One third of the height above ground.
    ThirdOfHeight,
    /// One third of the whole post, which is half of the height above ground.
    ThirdOfPost,
    /// One quarter of the whole post, a third of the height (a British rule).
    QuarterOfPost,
    /// 24 in and 3 in more for each foot above 4 ft: the chain-link
    /// installation standard.
    ChainLinkStandard,
}

impl DepthRule {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::TwoFeet,
        Self::ThirdOfHeight,
        Self::ThirdOfPost,
        Self::QuarterOfPost,
        Self::ChainLinkStandard,
    ];

    /// The rule in words.
    pub const fn name(self) -> &'static str {
        match self {
            Self::TwoFeet => "two-foot hole",
            Self::ThirdOfHeight => "one third of the height above ground",
            Self::ThirdOfPost => "one third of the whole post",
            Self::QuarterOfPost => "one quarter of the whole post",
            Self::ChainLinkStandard => "24 in plus 3 in per foot above 4 ft",
        }
    }

    /// Where it comes from.
    pub const fn source(self) -> &'static Citation {
        match self {
            Self::TwoFeet => &source::PRACTICE_TWO_FEET,
            Self::ThirdOfHeight => &source::PRACTICE_THIRD_OF_HEIGHT,
            Self::ThirdOfPost => &source::PRACTICE_THIRD_OF_POST,
            Self::QuarterOfPost => &source::PRACTICE_QUARTER_OF_POST,
            Self::ChainLinkStandard => &source::ASTM_F567_5_1,
        }
    }

    /// The depth for a height above ground.
    ///
    /// # Errors
    /// Height outside 0.5 to 100 ft.
    ///
    /// ```
    /// use groundline::{embedment::DepthRule, units::{ft, inch, Measurable}};
    /// let depth = DepthRule::ChainLinkStandard.depth(ft(6.0))?;
    /// assert!((depth.to(inch) - 30.0).abs() < 1e-12);
    /// # Ok::<(), groundline::Error>(())
    /// ```
    pub fn depth(self, height: Length) -> Result<Length, Error> {
        let height = within("fence height", height, ft(0.5), ft(100.0))?;
        Ok(match self {
            Self::TwoFeet => ft(2.0),
            Self::ThirdOfHeight | Self::QuarterOfPost => height / 3.0,
            Self::ThirdOfPost => height / 2.0,
            Self::ChainLinkStandard => {
                let over = (height.to(ft) - 4.0).max(0.0);
                inch(24.0 + 3.0 * over)
            }
        })
    }
}

/// The hole for a post by the chain-link installation standard: four times
/// the largest section up to 4 in, three times above
/// ([`source::ASTM_F567_5_1`]).
///
/// # Errors
/// Section outside 0.5 to 36 in.
pub fn hole_diameter_rule(section: Length) -> Result<Length, Error> {
    let section = size_within("post section", section, inch(0.5), inch(36.0))?;
    // A hair above 4 in is 4 in.
    Ok(if section.to(inch) <= 4.0 + 1e-9 {
        section * 4.0
    } else {
        section * 3.0
    })
}

/// The linemen's rule for utility poles: a tenth of the pole and two feet, not
/// less than five ([`source::UTILITY_POLES`]).
///
/// # Errors
/// Pole outside 5 to 200 ft.
pub fn utility_pole_depth(pole: Length) -> Result<Length, Error> {
    let pole = within("pole length", pole, ft(5.0), ft(200.0))?;
    Ok((pole * 0.1 + ft(2.0)).max(ft(5.0)))
}
