//! Questions asked backwards of a [`FencePlan`](crate::plan::FencePlan): not
//! "does it hold?" but "up to what does it hold?".
//!
//! | question | function |
//! |---|---|
//! | the greatest wind speed, or pressure, of the whole fence | [`greatest_wind`] |
//! | the same for each post | [`greatest_wind_of_post`], [`greatest_wind_of_each`] |
//! | the greatest spacing of posts for planned holes | [`greatest_spacing`] |
//! | the greatest height of the panel | [`greatest_height`] |
//! | the greatest solidity of the infill | [`greatest_solidity`] |
//! | the smallest hole for a limited depth | [`smallest_hole`] |
//! | the cheapest of several plans | [`cheapest`] |
//!
//! Utilization need not grow steadily with what is varied. Open fences step
//! down where a band of the figure begins, round wires drag less from a
//! certain speed on, bays snap to equal lengths, zones of a wall move over the
//! posts. So nothing is inverted. Every question is answered by trials of the
//! forward check:
//!
//! 1. Values are whole steps from the mild end of a range ([`Search`]). At most
//!    a stated number of them is tried over the whole range.
//! 2. The first stretch that passes, from the mild end, is the one that
//!    counts; between its last passing value and the failing one after it the
//!    interval is halved until they are one step apart.
//!    Of wind, milder values must pass too.
//! 3. The answer passes, forwards, and the next step does not. What passes again
//!    beyond, among the values tried, is told and never taken.
//!
//! A stretch narrower than the trials are apart is not seen; a search that
//! tries every step sees all. Trials and halvings are capped.
//!
//! That no value passes, or all do, or that the post itself is too weak
//! whatever the depth of its hole, is an [`Answer`], not an error. A check asked for
//! beside ([`SiteChecks`](crate::check::SiteChecks)) that cannot be made is an
//! error: it leaves the question open. [`cheapest`] is more lenient: it counts such
//! a check for nothing and says so in the cautions.

mod fence;
mod hole;
mod options;
pub(crate) mod search;
mod solution;
mod wind;
mod working;

pub use fence::{greatest_height, greatest_solidity, greatest_spacing};
pub use hole::smallest_hole;
pub use options::{OptionVerdict, Ranked, Ranking, cheapest};
pub use search::{Search, Stretch};
pub use solution::{Answer, MinimumGoverns, Next, Question, Solution};
pub use wind::{VariedWind, greatest_wind, greatest_wind_of_each, greatest_wind_of_post};
